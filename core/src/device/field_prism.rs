//! Prisms that bring what lies outside a person's field into it.
//!
//! ```text
//!            base                                  seen through the prism: everything, moved towards the apex
//!   thing -->  /|                                  at the apex: a band as wide as the shift that is not seen at all
//!             / | prism |<-- lens to pivot -->| centre about which the eye turns
//!            /__|
//!            apex
//! ```
//!
//! * A prism moves; it does not make a field larger. What comes in at the base goes out of sight at the apex, as wide.
//!   The other eye may see what is lost there, where only one eye has the prism.
//! * What is gained depends on where the prism sits and where the person looks ([`FieldPrismKind`]).
//! * Angles are of the world and counted without sign; base towards the blind side.
//! * A rating holds for one incidence of the light: the exact turn at another one stands beside it.
//! * Nothing here says what anyone is fit to do ([`FieldPrismCaution`]).
//! * Sources: [`source::APFELBAUM_2013`], [`source::YOKED_PRISMS`]; [`source::JUNG_PELI_2014`] for the incidence.

mod evidence;

pub use evidence::{
    APEX_TO_APEX_TRIAL, ExpansionTrial, FieldPrismCaution, NO_LOSS_TABLE, PRISM_FINDINGS, PRISM_LOSS_LIMITS,
    PrismFinding, PrismLimit, PrismLossLimit, SOLID_OVER_FRESNEL, SolidOverFresnel, prism_loss_in_dim_light,
};

use crate::bounds;
use crate::error::Error;
#[cfg(feature = "alloc")]
use crate::explain::{Explain, Named, Step, Unit, formula};
use crate::optics::{FlatPrism, PrismAtIncidence, prism_displacement};
use crate::source::{self, Source};
use crate::unit::{Angle, Length, Prism};
#[cfg(feature = "alloc")]
use alloc::vec::Vec;

/// How prisms for the field are set in glasses.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum FieldPrismKind {
    /// Over the whole of both lenses, bases the same way.
    FullYoked,
    /// Over the blind half of a lens or of both, edge beside the line of sight.
    Sector,
    /// Segments above and below the line of sight of one eye, which stay in view wherever it turns.
    Peripheral,
}

impl FieldPrismKind {
    /// All of them.
    pub const ALL: [Self; 3] = [Self::FullYoked, Self::Sector, Self::Peripheral];

    /// Its stable key.
    ///
    /// ```
    /// use arcminute_core::device::FieldPrismKind;
    /// assert_eq!(FieldPrismKind::ALL.map(FieldPrismKind::key), ["full-yoked", "sector", "peripheral"]);
    /// ```
    #[must_use]
    pub fn key(self) -> &'static str {
        match self {
            Self::FullYoked => "full-yoked",
            Self::Sector => "sector",
            Self::Peripheral => "peripheral",
        }
    }

    /// The part of the shift that is gained, with the gaze in the prism or beside it: all or nothing, a pure ratio.
    ///
    /// Of full prisms nothing, for the gaze follows the shift; of a sector all while the gaze is in it; of segments all.
    ///
    /// ```
    /// use arcminute_core::device::FieldPrismKind;
    /// assert_eq!(FieldPrismKind::FullYoked.share_gained(true), 0.0);
    /// assert_eq!([true, false].map(|gaze| FieldPrismKind::Sector.share_gained(gaze)), [1.0, 0.0]);
    /// assert_eq!(FieldPrismKind::Peripheral.share_gained(false), 1.0);
    /// ```
    #[must_use]
    pub fn share_gained(self, gaze_in_prism: bool) -> f64 {
        match self {
            Self::FullYoked => 0.0,
            Self::Sector => f64::from(u8::from(gaze_in_prism)),
            Self::Peripheral => 1.0,
        }
    }

    /// Why so, as a stable key, and who says so.
    ///
    /// ```
    /// use arcminute_core::device::FieldPrismKind;
    /// let (because, source) = FieldPrismKind::Sector.because();
    /// assert_eq!((because, source.id), ("only-while-gaze-in-sector", "apfelbaum-2013"));
    /// ```
    #[must_use]
    pub fn because(self) -> (&'static str, &'static Source) {
        match self {
            Self::FullYoked => ("gaze-recentres", &source::YOKED_PRISMS),
            Self::Sector => ("only-while-gaze-in-sector", &source::APFELBAUM_2013),
            Self::Peripheral => ("at-nearly-all-gaze-angles", &source::APFELBAUM_2013),
        }
    }
}

/// A prism for the field, and where it stands.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FieldPrism {
    /// How it is set.
    pub kind: FieldPrismKind,
    /// Rating.
    pub rated: Prism,
    /// Refractive index; a pure ratio. The facets of a Fresnel prism are small flat prisms of the same angle.
    pub index: f64,
    /// Prism to the centre about which the eye turns; [`published_lens_to_pivot`] where it is not known.
    pub lens_to_pivot: Length,
}

/// What a prism does for a field.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FieldPrismInUse {
    /// The prism.
    pub aid: FieldPrism,
    /// Whether the person looks through it.
    pub gaze_in_prism: bool,
    /// Thing to the prism.
    pub thing_to_prism: Length,
    /// Its faces.
    pub flat: FlatPrism,
    /// By what angle things are moved, as rated.
    pub shift: Angle,
    /// By how much a thing at that distance is moved sideways.
    pub displacement: Length,
    /// Band at the apex that is seen neither through the prism nor beside it.
    pub blind_band: Angle,
    /// How wide that band is in the plane of the lens.
    pub blind_band_on_lens: Length,
    /// Part of the shift that is gained; a pure ratio.
    pub share_gained: f64,
    /// What of the world is seen besides, of that eye.
    pub gained: Angle,
    /// Between the light and the normal of the first face; positive when it comes from the base side.
    pub incidence: Angle,
    /// What the prism does with that light, exactly; `None` where it is reflected inside and nothing is seen.
    pub turned: Option<PrismAtIncidence>,
}

/// Prism to the centre about which the eye turns, 20 mm: what lies behind 10 degrees on 3.5 mm of a lens and 15 on 5.4
/// ([`source::APFELBAUM_2013`], figure 15; the distance follows from them).
///
/// ```
/// use arcminute_core::device::published_lens_to_pivot;
/// assert_eq!(published_lens_to_pivot().mm(), 20.0);
/// ```
#[must_use]
pub fn published_lens_to_pivot() -> Length {
    Length::from_mm(20.0)
}

/// How far from the line of sight a thing at this angle from it is seen through a lens: `s·tan a`.
///
/// For angles below 90 degrees, from the centre about which the eye turns. Source: geometry.
///
/// ```
/// use arcminute_core::{device::{field_on_lens, published_lens_to_pivot}, unit::Angle};
/// // Apfelbaum et al. 2013: 10 degrees are 3.5 mm.
/// let place = field_on_lens(Angle::from_degrees(10.0), published_lens_to_pivot());
/// assert!((place.mm() - 3.5).abs() < 0.05);
/// ```
#[must_use]
pub fn field_on_lens(angle: Angle, lens_to_pivot: Length) -> Length {
    lens_to_pivot * angle.tangent()
}

impl FieldPrism {
    /// What this prism does for the field: shift, blind band, what is gained, and the exact turn of light of one incidence.
    ///
    /// * Domain: flat prism in the plane across its edge; light of that incidence alone is traced exactly, all else is as
    ///   rated.
    /// * Source: geometry and Snell's law; what is gained: [`FieldPrismKind::because`].
    ///
    /// # Errors
    /// [`OutOfRange`](crate::Why::OutOfRange) for an impossible prism, place, distance or incidence;
    /// [`NoSolution`](crate::Why::NoSolution) when no flat prism of that index turns light so far.
    ///
    /// ```
    /// use arcminute_core::device::{FieldPrism, FieldPrismKind, published_lens_to_pivot};
    /// use arcminute_core::unit::{Angle, Length, Prism};
    /// let aid = FieldPrism {
    ///     kind: FieldPrismKind::Peripheral,
    ///     rated: Prism::from_prism_dioptres(40.0),
    ///     index: 1.49,
    ///     lens_to_pivot: published_lens_to_pivot(),
    /// };
    /// // Apfelbaum et al. 2013: 40 prism dioptres are about 22 degrees.
    /// let used = aid.shift_field(false, Length::from_m(2.0), Angle::from_degrees(5.0))?;
    /// assert!((used.gained.degrees() - 21.8).abs() < 0.05);
    /// assert_eq!(used.blind_band, used.shift);
    /// // Light from 5 degrees on the side of the base is turned by 36.2 prism dioptres only (computed).
    /// let turned = used.turned.expect("it comes out");
    /// assert!((turned.power.prism_dioptres() - 36.2).abs() < 0.05);
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    pub fn shift_field(
        &self,
        gaze_in_prism: bool,
        thing_to_prism: Length,
        incidence: Angle,
    ) -> Result<FieldPrismInUse, Error> {
        bounds::TASK_DISTANCE.check(thing_to_prism.m())?;
        bounds::STOP_DISTANCE.check(self.lens_to_pivot.mm())?;
        bounds::PRISM_INCIDENCE.check(incidence.degrees())?;
        let flat = FlatPrism::rated(self.rated, self.index)?;
        let shift = self.rated.deviation();
        let share_gained = self.kind.share_gained(gaze_in_prism);
        Ok(FieldPrismInUse {
            aid: *self,
            gaze_in_prism,
            thing_to_prism,
            flat,
            shift,
            displacement: prism_displacement(self.rated, thing_to_prism),
            blind_band: shift,
            blind_band_on_lens: field_on_lens(shift, self.lens_to_pivot),
            share_gained,
            gained: shift * share_gained,
            incidence,
            turned: flat.at_incidence(incidence).ok(),
        })
    }
}

#[cfg(feature = "alloc")]
impl Explain for FieldPrismInUse {
    fn steps(&self) -> Vec<Step> {
        let degrees = |symbol, angle: Angle| Named::new(symbol, angle.degrees(), Unit::Degree);
        let rated = Named::new("P_0", self.aid.rated.prism_dioptres(), Unit::PrismDioptre);
        let distance = Named::new("x", self.thing_to_prism.m(), Unit::Metre);
        let pivot = Named::new("s", self.aid.lens_to_pivot.mm(), Unit::Millimetre);
        let (shift, band) = (degrees("dev_0", self.shift), degrees("band", self.blind_band));
        let share = Named::new("share", self.share_gained, Unit::Plain);
        let (because, source) = self.aid.kind.because();
        let mut steps = alloc::vec![
            Step::formula(&formula::PRISM_DEVIATION, shift, [rated]),
            Step::formula(
                &formula::PRISM_DISPLACEMENT,
                Named::new("aside", self.displacement.m(), Unit::Metre),
                [rated, distance],
            ),
            Step::formula(&formula::PRISM_BLIND_BAND, band, [shift]),
            Step::formula(
                &formula::FIELD_ON_LENS,
                Named::new("w", self.blind_band_on_lens.mm(), Unit::Millimetre),
                [pivot, band],
            ),
            Step::Rule { because, source },
            Step::formula(&formula::FIELD_GAINED_BY_PRISM, degrees("gained", self.gained), [share, shift]),
        ];
        // Its first step is that of the rating, which stands above.
        steps.extend(self.turned.iter().flat_map(|turned| turned.steps().into_iter().skip(1)));
        steps
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use alloc::string::ToString;

    fn aid(kind: FieldPrismKind, rated: f64) -> FieldPrism {
        FieldPrism {
            kind,
            rated: Prism::from_prism_dioptres(rated),
            index: 1.49,
            lens_to_pivot: published_lens_to_pivot(),
        }
    }
    fn used(aid: FieldPrism, gaze: bool, metres: f64, degrees: f64) -> Result<FieldPrismInUse, Error> {
        aid.shift_field(gaze, Length::from_m(metres), Angle::from_degrees(degrees))
    }

    #[test]
    fn working_agrees() -> Result<(), Error> {
        for kind in FieldPrismKind::ALL {
            for rated in [0.0, 5.0, 40.0, 57.0] {
                for (gaze, incidence, comes_out) in [(true, 20.0, 12), (false, -60.0, 6)] {
                    let used = used(aid(kind, rated), gaze, 2.0, incidence)?;
                    // A weak prism lets light from there through as well.
                    let count = if rated < 10.0 { 12 } else { comes_out };
                    assert_eq!(used.steps().len(), count, "{used:?}");
                    assert_eq!(used.turned.is_some(), count == 12, "{used:?}");
                    for step in used.steps() {
                        assert_eq!(step.check(), Ok(()), "{used:?}");
                    }
                }
            }
        }
        Ok(())
    }

    #[test]
    fn what_each_kind_gains() -> Result<(), Error> {
        for (kind, key, because, source, gained) in [
            (FieldPrismKind::FullYoked, "full-yoked", "gaze-recentres", "yoked-prisms", [0.0, 0.0]),
            (FieldPrismKind::Sector, "sector", "only-while-gaze-in-sector", "apfelbaum-2013", [1.0, 0.0]),
            (
                FieldPrismKind::Peripheral,
                "peripheral",
                "at-nearly-all-gaze-angles",
                "apfelbaum-2013",
                [1.0, 1.0],
            ),
        ] {
            assert_eq!(kind.key(), key);
            assert_eq!((kind.because().0, kind.because().1.id), (because, source));
            for (gaze, share) in [true, false].into_iter().zip(gained) {
                let used = used(aid(kind, 20.0), gaze, 1.0, 0.0)?;
                assert_eq!(used.gained, used.shift * share, "{kind:?}, gaze in it: {gaze}");
                assert_eq!(used.blind_band, used.shift, "the band is there for all kinds");
            }
        }
        Ok(())
    }

    #[test]
    fn what_is_not_possible_is_told() {
        let told = |aid: FieldPrism, metres: f64, degrees: f64| {
            used(aid, true, metres, degrees).expect_err("refused").to_string()
        };
        let forty = aid(FieldPrismKind::Sector, 40.0);
        assert_eq!(told(forty, 0.0, 0.0), "distance `0 m` is not possible");
        assert_eq!(told(forty, f64::NAN, 0.0), "distance `NaN m` is not possible");
        assert_eq!(told(forty, 1.0, 89.5), "incidence on the prism `89.5 degrees` is not possible");
        let mut far = forty;
        far.lens_to_pivot = Length::from_mm(61.0);
        assert_eq!(told(far, 1.0, 0.0), "lens to rotation centre `61 mm` is not possible");
        assert_eq!(
            told(aid(FieldPrismKind::Sector, 101.0), 1.0, 0.0),
            "prism `101 prism dioptres` is not possible"
        );
        let error = used(forty, true, 1.0, -90.0).expect_err("refused");
        assert_eq!(error.hint().to_string(), "use -89 to 89 degrees");
        assert!(used(forty, true, 1.0, -89.0).is_ok(), "nothing is seen from there, and it says so");
    }
}
