//! Exit pupil on the eye's pupil: how much light is left.

#[cfg(feature = "alloc")]
use crate::explain::{Explain, Named, Step, Unit, formula};
use crate::math::{PI, acos, sqrt};
use crate::unit::Length;
#[cfg(feature = "alloc")]
use alloc::vec::Vec;

/// Area that two discs share, as a share of the smaller disc: 1 when it lies inside the other, 0 when they are apart.
///
/// * Diameters above zero; `apart` is the distance of the centres.
/// * Source: circle geometry; checked by numerical integration.
///
/// ```
/// use arcminute_core::{optics::disc_overlap, unit::Length};
/// let share = disc_overlap(Length::from_mm(3.0), Length::from_mm(4.0), Length::from_mm(1.0));
/// assert!((share - 0.8349).abs() < 1e-4);
/// ```
#[must_use]
pub fn disc_overlap(one: Length, other: Length, apart: Length) -> f64 {
    let (small, large, c) = (one.min(other).mm() / 2.0, one.max(other).mm() / 2.0, apart.abs().mm());
    if c <= large - small {
        return 1.0;
    }
    if small + large <= c {
        return 0.0;
    }
    let small_part = small * small * acos((c * c + small * small - large * large) / (2.0 * c * small));
    let large_part = large * large * acos((c * c + large * large - small * small) / (2.0 * c * large));
    let kite = (small + large - c) * (c + small - large) * (c - small + large) * (c + small + large);
    (small_part + large_part - 0.5 * sqrt(kite.max(0.0))) / (PI * small * small)
}

/// Light through an instrument on an extended thing, the bare eye being 1.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LightThrough {
    /// Exit-pupil diameter.
    pub exit_pupil: Length,
    /// Eye-pupil diameter.
    pub pupil: Length,
    /// Share that the glass lets through.
    pub transmittance: f64,
    /// Retinal illuminance with the instrument over without; never above `transmittance`.
    pub share: f64,
}

/// Light through an instrument whose exit pupil lies centred on the eye's pupil.
///
/// Source: Smith, p. 281.
///
/// ```
/// use arcminute_core::{optics::light_through, unit::Length};
/// // An 8x20 leaves 2.5 mm: a quarter of a pupil of 5 mm, and 0.8 of that by the glass (computed).
/// let dusk = light_through(Length::from_mm(20.0 / 8.0), Length::from_mm(5.0), 0.8);
/// assert!((dusk.share - 0.2).abs() < 1e-12);
/// ```
#[must_use]
pub fn light_through(exit_pupil: Length, pupil: Length, transmittance: f64) -> LightThrough {
    let filled = exit_pupil.min(pupil) / pupil;
    LightThrough { exit_pupil, pupil, transmittance, share: transmittance * filled * filled }
}

#[cfg(feature = "alloc")]
impl Explain for LightThrough {
    fn steps(&self) -> Vec<Step> {
        alloc::vec![Step::formula(
            &formula::LIGHT_SMALL_EXIT,
            Named::new("light", self.share, Unit::Plain),
            [
                Named::new("T", self.transmittance, Unit::Plain),
                Named::new("E", self.exit_pupil.mm(), Unit::Millimetre),
                Named::new("p", self.pupil.mm(), Unit::Millimetre),
            ],
        )]
    }
}
