//! A refraction behind a telescope that is focused by its tube: what focusing mends and what it leaves.

#[cfg(feature = "alloc")]
use crate::explain::{Explain, Named, Step, Unit, formula};
use crate::optics::{AtEyepiece, ametropia_at_eyepiece};
use crate::unit::{Angle, Length, LogMar, Magnification, Vergence};
#[cfg(feature = "alloc")]
use alloc::vec::Vec;

/// Limits of this trade beyond which a lens in the eyepiece is considered: sphere and cylinder, dioptres. Common
/// practice, no source; the reasoned limit is the blur against the person's own MAR.
pub const BLUR_LIMITS: (f64, f64) = (12.0, 3.0);

/// How the blur of the cylinder left over compares with the person's own detail.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BlurVerdict {
    /// Under half of it.
    Small,
    /// Between half of it and all of it.
    Nears,
    /// As large or larger.
    Exceeds,
}

/// What a refraction means behind a telescope.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RefractionThrough {
    /// One meridian carried to the eyepiece: the sphere.
    pub first: AtEyepiece,
    /// The other: sphere and cylinder.
    pub second: AtEyepiece,
    /// Mean of the two in the plane of the eyepiece; the tube can supply this.
    pub ametropia: Vergence,
    /// Difference of the two there, without sign; the tube cannot supply this.
    pub cylinder_left: Vergence,
    /// The pupil in use: the smaller of exit pupil and eye pupil.
    pub pupil_in_use: Length,
    /// Magnification of the telescope.
    pub magnification: Magnification,
    /// Blur of the cylinder left, as the eye sees it.
    pub blur: Angle,
    /// The same on the side of the thing looked at.
    pub blur_in_object: Angle,
    /// The person's own MAR.
    pub mar: Angle,
    /// The blur against it.
    pub verdict: BlurVerdict,
    /// Whether the trade's limit for the sphere is passed.
    pub sphere_beyond_practice: bool,
    /// Whether the trade's limit for the cylinder is passed.
    pub cylinder_beyond_practice: bool,
}

/// What sphere and cylinder (spectacle plane) mean behind a telescope focused by its tube.
///
/// Each meridian is carried to the eyepiece before the two are averaged. The blur is the circle of least confusion,
/// `q·C/2` radians, q the pupil in use; a telescope does not weaken a cylinder on the eye's side.
///
/// Source: paraxial optics; the limits are common practice, no source.
///
/// ```
/// use arcminute_core::device::{BlurVerdict, refraction_through};
/// use arcminute_core::unit::{Angle, Length, LogMar, Magnification, Vergence};
/// let (mm, d) = (Length::from_mm, Vergence::from_dioptres);
/// let (four, acuity) = (Magnification::from_times(-4.0), LogMar::of_angle(Angle::from_arcmin(8.0)));
/// let through = refraction_through(d(0.0), d(-3.0), mm(15.0), mm(15.0), mm(3.0), four, acuity);
/// // 3 D of cylinder, pupil 3 mm: 15.5 minutes of blur, twice the least detail of 20/160 (computed).
/// assert!((through.blur.arcmin() - 15.5).abs() < 0.05 && through.verdict == BlurVerdict::Exceeds);
/// ```
#[must_use]
pub fn refraction_through(
    sphere: Vergence,
    cylinder: Vergence,
    spectacle_to_eye: Length,
    eyepiece_to_eye: Length,
    pupil_in_use: Length,
    magnification: Magnification,
    acuity: LogMar,
) -> RefractionThrough {
    let first = ametropia_at_eyepiece(sphere, spectacle_to_eye, eyepiece_to_eye);
    let second = ametropia_at_eyepiece(sphere + cylinder, spectacle_to_eye, eyepiece_to_eye);
    let cylinder_left = (second.ametropia - first.ametropia).abs();
    let blur = Angle::from_radians(pupil_in_use.m() * cylinder_left.dioptres() / 2.0);
    let mar = acuity.mar();
    let verdict = match blur / mar {
        share if share < 0.5 => BlurVerdict::Small,
        share if share < 1.0 => BlurVerdict::Nears,
        _ => BlurVerdict::Exceeds,
    };
    RefractionThrough {
        first,
        second,
        ametropia: (first.ametropia + second.ametropia) / 2.0,
        cylinder_left,
        pupil_in_use,
        magnification,
        blur,
        blur_in_object: blur / magnification.size(),
        mar,
        verdict,
        sphere_beyond_practice: BLUR_LIMITS.0 < sphere.abs().dioptres(),
        cylinder_beyond_practice: BLUR_LIMITS.1 < cylinder.abs().dioptres(),
    }
}

#[cfg(feature = "alloc")]
impl Explain for RefractionThrough {
    fn steps(&self) -> Vec<Step> {
        let blur = Named::new("blur", self.blur.arcmin(), Unit::Arcmin);
        let mut steps = self.first.steps();
        steps.extend(self.second.steps());
        steps.push(Step::formula(
            &formula::CYLINDER_BLUR,
            blur,
            [
                Named::new("q", self.pupil_in_use.mm(), Unit::Millimetre),
                Named::new("C", self.cylinder_left.dioptres(), Unit::Dioptre),
            ],
        ));
        steps.push(Step::formula(
            &formula::BLUR_IN_OBJECT,
            Named::new("blur_object", self.blur_in_object.arcmin(), Unit::Arcmin),
            [blur, Named::new("M", self.magnification.times(), Unit::Times)],
        ));
        steps
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Source: exact paraxial, computed (reference table): C 3 D with q 3 mm is 15.5′ seen, 3.9′ on the object at 4x.
    #[test]
    fn three_dioptres_of_cylinder_are_twice_the_detail_of_a_20_160_eye() {
        let d = Vergence::from_dioptres;
        let mm = Length::from_mm;
        let through = refraction_through(
            Vergence::ZERO,
            d(-3.0),
            mm(15.0),
            mm(15.0),
            mm(3.0),
            Magnification::from_times(-4.0),
            LogMar::of_angle(Angle::from_arcmin(8.0)),
        );
        assert!((through.blur.arcmin() - 15.5).abs() < 0.05, "{}", through.blur.arcmin());
        assert!((through.blur_in_object.arcmin() - 3.9).abs() < 0.05, "{}", through.blur_in_object.arcmin());
        assert_eq!(through.verdict, BlurVerdict::Exceeds);
        assert!((through.ametropia.dioptres() + 1.5).abs() < 1e-12, "mean sphere");
        for step in through.steps() {
            step.check().expect("the working agrees");
        }
    }

    /// Glasses and eyepiece in one plane, 15 mm before the eye: nothing is carried.
    fn in_one_plane(sphere: f64, cylinder: f64, pupil: f64, mar: f64) -> RefractionThrough {
        let (d, mm) = (Vergence::from_dioptres, Length::from_mm);
        refraction_through(
            d(sphere),
            d(cylinder),
            mm(15.0),
            mm(15.0),
            mm(pupil),
            Magnification::from_times(-4.0),
            LogMar::of_angle(Angle::from_arcmin(mar)),
        )
    }

    /// A sphere beside the cylinder goes by focusing; what is left is the cylinder alone.
    #[test]
    fn focusing_takes_the_mean_and_leaves_the_cylinder() {
        for (sphere, cylinder) in [(-4.0, -2.0), (5.0, -2.0), (-4.0, 2.0), (-1.0, 2.0)] {
            let through = in_one_plane(sphere, cylinder, 3.0, 8.0);
            let mean = sphere + cylinder / 2.0;
            assert!((through.ametropia.dioptres() - mean).abs() < 1e-12, "{sphere} {cylinder}: {through:?}");
            assert!(
                (through.cylinder_left.dioptres() - 2.0).abs() < 1e-12,
                "{sphere} {cylinder}: {through:?}"
            );
        }
    }

    /// 1 D and a pupil of 2 mm blur by a thousandth, 3.4377 minutes (by hand).
    #[test]
    fn the_verdict_is_by_half_and_by_all_of_the_detail() {
        for (mar, verdict) in [
            (20.0, BlurVerdict::Small),
            (6.88, BlurVerdict::Small),
            (6.87, BlurVerdict::Nears),
            (5.0, BlurVerdict::Nears),
            (3.44, BlurVerdict::Nears),
            (3.43, BlurVerdict::Exceeds),
            (1.0, BlurVerdict::Exceeds),
        ] {
            let through = in_one_plane(0.0, -1.0, 2.0, mar);
            assert!((through.blur.arcmin() - 3.437_7).abs() < 1e-4, "{:?}", through.blur);
            assert_eq!(through.verdict, verdict, "least detail {mar} minutes");
        }
        assert_eq!(in_one_plane(-4.0, 0.0, 2.0, 1.0).verdict, BlurVerdict::Small, "no cylinder");
    }

    /// The trade's limits are 12 D and 3 D; what is written with them exactly is not beyond them.
    #[test]
    fn a_limit_of_the_trade_is_passed_beyond_it_only() {
        for (sphere, beyond) in [(12.0, false), (-12.0, false), (0.0, false), (12.25, true), (-12.25, true)] {
            assert_eq!(in_one_plane(sphere, -1.0, 3.0, 8.0).sphere_beyond_practice, beyond, "{sphere} D");
        }
        for (cylinder, beyond) in [(3.0, false), (-3.0, false), (0.0, false), (3.25, true), (-3.25, true)] {
            assert_eq!(
                in_one_plane(2.0, cylinder, 3.0, 8.0).cylinder_beyond_practice,
                beyond,
                "{cylinder} D"
            );
        }
    }
}
