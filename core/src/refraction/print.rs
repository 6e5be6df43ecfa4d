//! Writing a refraction.

use super::{Prescription, Refraction};
use crate::math;
use crate::unit::Vergence;
use core::fmt;

/// A power with its sign; two decimals, or all it has if it has more. Nothing is `none`.
struct PowerText {
    power: Vergence,
    none: &'static str,
}

fn power_text(power: Vergence, none: &'static str) -> PowerText {
    PowerText { power, none }
}

impl fmt::Display for PowerText {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let value = self.power.dioptres();
        let rounded = math::round_to(value, 0.01);
        let is_short = math::abs(rounded - value) < f64::EPSILON;
        if is_short && rounded == 0.0 {
            return f.write_str(self.none);
        }
        if is_short { write!(f, "{value:+.2}") } else { write!(f, "{value:+}") }
    }
}

impl Refraction {
    /// With powers rounded to multiples of `step` dioptres, for showing what a sum gave: 0.25 as lenses are made.
    ///
    /// A cylinder that rounds to nothing takes its axis with it. A step that is not above zero rounds nothing.
    ///
    /// ```
    /// use arcminute_core::{refraction::Refraction, unit::Vergence};
    /// let moved = Refraction::of_sphere(Vergence::from_dioptres(12.448_132_8));
    /// assert_eq!(moved.rounded(Vergence::from_dioptres(0.25)).to_string(), "+12.50");
    /// ```
    #[must_use]
    pub fn rounded(&self, step: Vergence) -> Self {
        let step = step.dioptres();
        if step.is_nan() || step <= 0.0 {
            return *self;
        }
        let round = |power: Vergence| Vergence::from_dioptres(math::round_to(power.dioptres(), step));
        let cylinder = round(self.cylinder);
        let axis = if cylinder == Vergence::ZERO { None } else { self.axis };
        Self { sphere: round(self.sphere), cylinder, axis }
    }
}

/// `+2.00 -1.50 x090`: always signed, axis with three digits, `plano` for no sphere; all the decimals there are.
impl fmt::Display for Refraction {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", power_text(self.sphere, "plano"))?;
        match self.axis {
            Some(axis) => write!(f, " {} x{axis:03}", power_text(self.cylinder, "0.00")),
            None if self.cylinder != Vergence::ZERO => write!(f, " {}", power_text(self.cylinder, "")),
            None => Ok(()),
        }
    }
}

/// `+2.00 -1.50 x090 add +2.50`, which [`parse`](super::parse()) reads back.
impl fmt::Display for Prescription {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.refraction.fmt(f)?;
        match self.add {
            Some(add) => write!(f, " add {}", power_text(add, "0.00")),
            None => Ok(()),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use alloc::string::ToString;

    /// Found by fuzzing: `+0.00` was printed, which is read back as none.
    #[test]
    fn a_power_next_to_nothing_is_printed_as_none() {
        let of = |sphere, cylinder| Prescription {
            refraction: Refraction {
                sphere: Vergence::from_dioptres(sphere),
                cylinder: Vergence::from_dioptres(cylinder),
                axis: Some(90),
            },
            add: Some(Vergence::from_dioptres(sphere)),
        };
        for small in [1e-17, -1e-17, 0.0, -0.0] {
            assert_eq!(of(small, small).to_string(), "plano 0.00 x090 add 0.00", "{small}");
        }
        assert_eq!(of(0.01, -0.01).to_string(), "+0.01 -0.01 x090 add +0.01");
    }

    #[test]
    fn a_cylinder_is_printed_without_its_axis_as_well() {
        let dioptres = Vergence::from_dioptres;
        let lens = Refraction { sphere: dioptres(2.0), cylinder: dioptres(-1.5), axis: None };
        assert_eq!(lens.to_string(), "+2.00 -1.50");
        assert_eq!(Refraction { cylinder: Vergence::ZERO, ..lens }.to_string(), "+2.00");
    }
}
