//! A thick lens in air: three powers where a thin one has one.
//!
//! What magnifies is the equivalent power. The print stands one front vertex focal length before the front surface, and
//! a label that carries the back vertex power promises more than the lens does.

use super::{Element, Train};
use crate::bounds;
use crate::error::{Error, Why};
#[cfg(feature = "alloc")]
use crate::explain::{Explain, Named, Step, Unit, formula};
use crate::unit::{Length, Vergence};
#[cfg(feature = "alloc")]
use alloc::vec::Vec;

/// Two surfaces and the glass between them.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ThickLens {
    /// Power of the surface towards the print.
    pub front: Vergence,
    /// Power of the surface towards the eye.
    pub back: Vergence,
    /// Thickness on the axis, front to back.
    pub thickness: Length,
    /// Refractive index, at least 1; a pure ratio.
    pub index: f64,
}

/// The powers of a thick lens in air.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ThickLensPowers {
    /// The lens.
    pub lens: ThickLens,
    /// Equivalent power: the one that magnifies.
    pub equivalent: Vergence,
    /// Back vertex power: what a focimeter reads with the back on its stop, and what a label usually says.
    pub back_vertex: Vergence,
    /// Front vertex power: its reciprocal is the print's distance from the front surface.
    pub front_vertex: Vergence,
    /// Print to the front surface for light that leaves parallel; `None` when no real print does that.
    pub print_to_front: Option<Length>,
    /// Back vertex power over equivalent power; a pure ratio.
    pub label_over_equivalent: f64,
}

impl ThickLens {
    /// The lens as a train, print to eye: surface, glass, surface.
    ///
    /// ```
    /// use arcminute_core::{optics::ThickLens, unit::{Length, Vergence}};
    /// let d = Vergence::from_dioptres;
    /// let lens = ThickLens { front: d(14.0), back: d(7.0), thickness: Length::from_mm(10.0), index: 1.498 };
    /// assert_eq!(lens.train().elements().len(), 3);
    /// // 14 + 7 − 0.010/1.498·14·7 D (computed).
    /// assert!((-lens.train().matrix().c.dioptres() - 20.346).abs() < 5e-4);
    /// ```
    #[must_use]
    pub fn train(&self) -> Train {
        let surface = |power| Element::Lens { power, clear_diameter: None };
        let glass = Element::Glass { thickness: self.thickness, index: self.index };
        Train::new([surface(self.front), glass, surface(self.back)])
    }

    /// Its powers, from the ray-transfer engine: `−C`, `−C/A` and `−C/D` of the matrix.
    ///
    /// # Errors
    /// [`Why::OutOfRange`] for an impossible surface, thickness or index; [`Why::NoSolution`] when light comes to a point
    /// on a surface, which leaves it no vertex power.
    ///
    /// ```
    /// use arcminute_core::{optics::ThickLens, unit::{Length, Vergence}};
    /// let d = Vergence::from_dioptres;
    /// let lens = ThickLens { front: d(14.0), back: d(7.0), thickness: Length::from_mm(10.0), index: 1.498 };
    /// let powers = lens.powers()?;
    /// // Labelled 22.4 D, it magnifies as 20.3 D (computed).
    /// assert!((powers.equivalent.dioptres() - 20.346).abs() < 5e-4);
    /// assert!((powers.back_vertex.dioptres() - 22.443).abs() < 5e-4);
    /// assert!((powers.front_vertex.dioptres() - 21.343).abs() < 5e-4);
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    pub fn powers(&self) -> Result<ThickLensPowers, Error> {
        bounds::SURFACE_POWER.check(self.front.dioptres())?;
        bounds::SURFACE_POWER.check(self.back.dioptres())?;
        bounds::LENS_THICKNESS.check(self.thickness.mm())?;
        bounds::INDEX.check(self.index)?;
        let matrix = self.train().matrix();
        // Not `-matrix.c`, which is −0 for a lens without power.
        let equivalent = Vergence::ZERO - matrix.c;
        let (back_vertex, front_vertex) = (equivalent / matrix.a, equivalent / matrix.d);
        let label_over_equivalent = 1.0 / matrix.a;
        if !(back_vertex.is_finite() && front_vertex.is_finite()) {
            let why = Why::NoSolution { because: "light comes to a point on the other surface" };
            return Err(Error::about("lens thickness", format_args!("{} mm", self.thickness.mm()), why));
        }
        let print_to_front = (Vergence::ZERO < front_vertex).then(|| front_vertex.focal_length());
        Ok(ThickLensPowers {
            lens: *self,
            equivalent,
            back_vertex,
            front_vertex,
            print_to_front,
            label_over_equivalent,
        })
    }
}

#[cfg(feature = "alloc")]
impl Explain for ThickLensPowers {
    fn steps(&self) -> Vec<Step> {
        let dioptre = |symbol, power: Vergence| Named::new(symbol, power.dioptres(), Unit::Dioptre);
        let (front, back) = (dioptre("F_1", self.lens.front), dioptre("F_2", self.lens.back));
        let thickness = Named::new("t", self.lens.thickness.mm(), Unit::Millimetre);
        let index = Named::new("n", self.lens.index, Unit::Plain);
        let power = dioptre("F", self.equivalent);
        let front_vertex = dioptre("F_v", self.front_vertex);
        let over = Named::new("over", self.label_over_equivalent, Unit::Plain);
        let mut steps = alloc::vec![
            Step::formula(&formula::EQUIVALENT_POWER, power, [front, back, thickness, index]),
            Step::formula(
                &formula::BACK_VERTEX_POWER,
                dioptre("F_v'", self.back_vertex),
                [power, front, thickness, index]
            ),
            Step::formula(&formula::FRONT_VERTEX_POWER, front_vertex, [power, back, thickness, index]),
            Step::formula(&formula::LABEL_OVER_POWER, over, [front, thickness, index]),
        ];
        if let Some(distance) = self.print_to_front {
            let distance = Named::new("x_print", distance.mm(), Unit::Millimetre);
            steps.push(Step::formula(&formula::PRINT_TO_FRONT, distance, [front_vertex]));
        }
        steps
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use alloc::string::ToString;

    fn lens(front: f64, back: f64, thickness: f64, index: f64) -> ThickLens {
        let d = Vergence::from_dioptres;
        ThickLens { front: d(front), back: d(back), thickness: Length::from_mm(thickness), index }
    }

    #[test]
    fn working_agrees() {
        for (front, back) in [(14.0, 7.0), (0.0, 20.0), (20.0, 0.0), (8.0, -3.0), (-5.0, -2.0)] {
            for (thickness, index) in [(0.0, 1.5), (6.0, 1.49), (25.0, 1.7)] {
                let powers = lens(front, back, thickness, index).powers().expect("possible");
                for step in powers.steps() {
                    assert_eq!(step.check(), Ok(()), "{powers:?}");
                }
            }
        }
    }

    #[test]
    fn a_minus_lens_has_no_place_for_the_print() {
        let minus = lens(-5.0, -2.0, 2.0, 1.5).powers().expect("possible");
        assert_eq!((minus.print_to_front, minus.steps().len()), (None, 4), "{minus:?}");
        let none = lens(0.0, 0.0, 2.0, 1.5).powers().expect("a plate is possible");
        assert_eq!(none.print_to_front, None, "a plate has no focus");
    }

    #[test]
    fn what_is_no_lens_is_refused() {
        for (bad, told) in [
            (lens(f64::NAN, 0.0, 5.0, 1.5), "surface power `NaN D` is not possible"),
            (lens(1.0, 201.0, 5.0, 1.5), "surface power `201 D` is not possible"),
            (lens(1.0, 1.0, -1.0, 1.5), "lens thickness `-1 mm` is not possible"),
            (lens(1.0, 1.0, 5.0, 0.9), "refractive index `0.9` is not possible"),
        ] {
            assert_eq!(bad.powers().expect_err(told).to_string(), told);
        }
        let hint = lens(1.0, 1.0, 5.0, 0.9).powers().expect_err("thinner than air").hint().to_string();
        assert_eq!(hint, "use 1 to 3");
        // 100 mm of index 2 are 50 mm, the focal length of +20 D.
        for focal in [lens(20.0, 3.0, 100.0, 2.0), lens(3.0, 20.0, 100.0, 2.0)] {
            let error = focal.powers().expect_err("a point of light on a surface");
            let told = "lens thickness `100 mm` has no solution: light comes to a point on the other surface";
            assert_eq!(error.to_string(), told);
            assert_eq!(error.hint().to_string(), "change one of the values it depends on");
        }
    }
}
