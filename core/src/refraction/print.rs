//! Writing a refraction.

use super::{Prescription, Refraction};
use crate::math;
use crate::unit::Vergence;
use alloc::format;
use alloc::string::String;
use core::fmt;

/// A power with its sign; two decimals, or all it has if it has more. Nothing is `none`.
fn power_text(power: Vergence, none: &str) -> String {
    let value = power.dioptres();
    if power == Vergence::ZERO {
        return none.into();
    }
    let is_short = math::abs(math::round_to(value, 0.01) - value) < f64::EPSILON;
    if is_short { format!("{value:+.2}") } else { format!("{value:+}") }
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
