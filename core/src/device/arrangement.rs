//! An aid in use: where the thing is, what stands between it and the eye, and what that makes of it.
//!
//! ```text
//!   thing ──► (shown larger by paper or screen) ──► train: parts of the aid, glasses ──► eye's entrance pupil
//!     |<------------ hand room ------------>|
//! ```
//!
//! Every family of aids says only how it is arranged; what the eye then sees follows from the one ray-transfer rule,
//! in [`look`].

use super::{Eye, Focus, spectacle_magnification};
use crate::error::{Error, Why};
use crate::optics::{
    Blurred, DepthOfField, Field, Sight, Train, View, blurred, defocus_for_loss, depth_of_field_about,
    field_and_share, view,
};
use crate::predict::{Prediction, predict};
use crate::unit::{Angle, Length, LogMar, Magnification, PrintSize, Vergence};

/// Loss of acuity that counts as still in focus, in log units: one line of a log chart. Chosen here.
pub const FOCUS_LOSS: f64 = 0.1;
/// Width that one character takes, spaces included, for each M of its size, in millimetres: about the mean of two
/// typefaces (letter frequencies of English; computed).
pub const CHARACTER_WIDTH_PER_M: f64 = 1.30;

/// An aid in use.
#[derive(Clone, Debug, PartialEq)]
pub struct Arrangement {
    /// Size shown to the first part over the size of the thing itself: the enlargement of a screen or of the print; one
    /// where the thing itself is looked at. A pure ratio, above zero.
    pub shown_larger: f64,
    /// What is shown to the front of the train: far, or at a distance from the first part (from the eye without parts).
    pub sight: Sight,
    /// From the first part met to the eye's entrance pupil, glasses included.
    pub train: Train,
    /// From the thing to the nearest part of the aid: room for hand and pen; `None` where nothing is in the way.
    pub hand_room: Option<Length>,
    /// Width of the thing that the aid shows at once whatever the eye does: that of a screen over its enlargement.
    pub window: Option<Length>,
    /// Share of the light that the glass lets through; a pure ratio.
    pub transmittance: f64,
}

impl Arrangement {
    /// The thing itself, looked at through `train`, with clear glass.
    ///
    /// ```
    /// use arcminute_core::{device::Arrangement, optics::{Sight, Train}};
    /// let bare = Arrangement::of(Train::new([]), Sight::Far);
    /// assert_eq!((bare.shown_larger, bare.transmittance, bare.hand_room, bare.window), (1.0, 1.0, None, None));
    /// ```
    #[must_use]
    pub fn of(train: Train, sight: Sight) -> Self {
        Self { shown_larger: 1.0, sight, train, hand_room: None, window: None, transmittance: 1.0 }
    }

    /// What reaches the eye of what is shown; the thing itself is [`Arrangement::shown_larger`] times smaller.
    ///
    /// ```
    /// use arcminute_core::device::Arrangement;
    /// use arcminute_core::optics::{Element, Sight, Train};
    /// use arcminute_core::unit::{Length, Vergence};
    /// // Print in the focus of +8 D: the relaxed eye sees it sharp (computed).
    /// let lens = Element::Lens { power: Vergence::from_dioptres(8.0), clear_diameter: None };
    /// let train = Train::new([lens]).to_eye(Length::from_mm(15.0));
    /// let seen = Arrangement::of(train, Sight::At(Length::from_mm(125.0))).view();
    /// assert!(seen.focus_demand.abs().dioptres() < 1e-9);
    /// ```
    #[must_use]
    pub fn view(&self) -> View {
        view(&self.train, self.sight)
    }

    /// Distance at which the bare thing would look as large; `None` for a far one.
    ///
    /// `EVD = |B|/larger`, from the thing's plane to the eye's entrance pupil.
    ///
    /// ```
    /// use arcminute_core::{device::Arrangement, optics::{Sight, Train}, unit::Length};
    /// // Shown eight times as large at 40 cm: as large as bare at 5 cm (computed).
    /// let bare = Arrangement::of(Train::new([]), Sight::At(Length::from_cm(40.0)));
    /// let shown = Arrangement { shown_larger: 8.0, ..bare };
    /// assert!((shown.equivalent_viewing_distance().unwrap_or_default().cm() - 5.0).abs() < 1e-12);
    /// ```
    #[must_use]
    pub fn equivalent_viewing_distance(&self) -> Option<Length> {
        Some(self.view().equivalent_viewing_distance? / self.shown_larger)
    }

    /// From what is shown to the eye's entrance pupil; `None` when it is far.
    ///
    /// ```
    /// use arcminute_core::{device::Arrangement, optics::{Sight, Train}, unit::Length};
    /// // Print 100 mm before a spectacle plane that stands 15 mm before the eye's entrance pupil (computed).
    /// let train = Train::new([]).to_eye(Length::from_mm(15.0));
    /// let near = Arrangement::of(train.clone(), Sight::At(Length::from_mm(100.0)));
    /// assert!((near.shown_to_eye().unwrap_or_default().mm() - 115.0).abs() < 1e-9);
    /// assert_eq!(Arrangement::of(train, Sight::Far).shown_to_eye(), None);
    /// ```
    #[must_use]
    pub fn shown_to_eye(&self) -> Option<Length> {
        match self.sight {
            Sight::Far => None,
            Sight::At(distance) => Some(distance + self.train.length()),
        }
    }
}

/// What is looked at.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Detail {
    /// x-height of print, height of a letter or of another thing five details high.
    pub height: Length,
    /// Eye to the thing, for one that cannot be brought nearer; a far aid needs it.
    pub distance: Option<Length>,
    /// Size over the least size seen: 1 only just, 2 with ease. A pure ratio, above zero.
    pub reserve: f64,
}

/// Widths of the thing that are seen at once.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Widths {
    /// With all light.
    pub full: Length,
    /// To the half-light edge.
    pub half: Length,
    /// To the last light.
    pub last: Length,
}

/// What an arrangement makes of a detail for an eye.
#[derive(Clone, Debug, PartialEq)]
pub struct Outcome {
    /// The aid in use.
    pub arrangement: Arrangement,
    /// What is looked at.
    pub detail: Detail,
    /// Distance at which the bare thing would look as large; `None` for a far one.
    pub equivalent_viewing_distance: Option<Length>,
    /// Angle over that at which the bare eye would see it from where it is; negative when inverted.
    pub angular: Magnification,
    /// What the eye does about the light.
    pub focus: Focus,
    /// What the rest of blur does to its acuity.
    pub blurred: Blurred,
    /// One fifth of the thing's height as the eye sees it.
    pub detail_seen: Angle,
    /// Mean sphere of the glasses for far, through which the acuity was measured.
    pub own_glasses: Vergence,
    /// Those glasses to the eye's entrance pupil.
    pub own_glasses_to_eye: Length,
    /// How much larger they make everything ([`spectacle_magnification`]); a pure ratio.
    pub own_magnification: f64,
    /// The detail that looks as large through those glasses alone: what an acuity measured through them is held against.
    pub detail_in_glasses: Angle,
    /// Its size over the least that this eye sees with that blur; a pure ratio.
    pub reserve_reached: f64,
    /// The height that this eye would only just read.
    pub least_height: Length,
    /// Acuity against what the thing and the reserve ask for.
    pub prediction: Prediction,
    /// Apparent field, where anything limits it.
    pub field: Option<Field>,
    /// What is seen at once at the thing, where anything limits it.
    pub widths: Option<Widths>,
    /// Characters of this size in the half-light width, a count; `None` without a limit.
    pub characters: Option<f64>,
    /// Distances from the front of the train at which acuity falls by no more than [`FOCUS_LOSS`].
    pub depth: Option<DepthOfField>,
    /// Defocus, either way, that costs this eye [`FOCUS_LOSS`].
    pub tolerance: Vergence,
    /// Share of the pupil that is filled; a pure ratio.
    pub share_of_pupil: f64,
    /// Light against the bare eye: that share times the transmittance. A pure ratio.
    pub light: f64,
}

/// What `eye` sees of `detail` through `arrangement`, by the ray-transfer engine.
///
/// * Acuity: as measured through the glasses for far, which make things larger or smaller; the detail is brought to the
///   same terms, so that those glasses, worn with an aid for far light, change nothing.
/// * Sharpness: the combined blur model ([`blurred`]); beyond its domain the record says so.
/// * No loss for shake, light or contrast is taken off: none is published that would hold here.
///
/// # Errors
/// [`Why::Missing`] for a far aid without the distance of the thing; [`Why::NoSolution`] when no image can be viewed.
///
/// ```
/// use arcminute_core::device::{Arrangement, Detail, Eye, look};
/// use arcminute_core::optics::{Element, Sight, Train};
/// use arcminute_core::unit::{Length, LogMar, Vergence};
/// // 1.6 M print at the focus of a +10 D lens held 20 cm from an eye of 1.0 logMAR: 10 cm equivalent, 16 arcmin of
/// // detail where 10 are needed (computed).
/// let lens = Element::Lens { power: Vergence::from_dioptres(10.0), clear_diameter: Some(Length::from_mm(60.0)) };
/// let held = Arrangement::of(Train::new([lens]).to_eye(Length::from_cm(20.0)), Sight::At(Length::from_cm(10.0)));
/// let eye = Eye::corrected(LogMar::from_log(1.0), LogMar::from_log(0.2));
/// let print = Detail { height: Length::from_mm(1.6 * 1.4544), distance: None, reserve: 1.0 };
/// let seen = look(&held, &eye, print)?;
/// assert!((seen.reserve_reached - 1.6).abs() < 1e-4);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn look(arrangement: &Arrangement, eye: &Eye, detail: Detail) -> Result<Outcome, Error> {
    Through::of(arrangement, &Own::of(eye)).outcome(detail)
}

/// What follows from an eye alone.
pub(super) struct Own<'a> {
    eye: &'a Eye,
    mar: Angle,
    magnification: f64,
    tolerance: Vergence,
}

impl<'a> Own<'a> {
    pub(super) fn of(eye: &'a Eye) -> Self {
        let mar = eye.acuity.mar();
        let magnification = spectacle_magnification(eye.mean_sphere(), eye.spectacle_to_eye);
        Self { eye, mar, magnification, tolerance: defocus_for_loss(mar, LogMar::from_log(FOCUS_LOSS)) }
    }
}

/// What an eye sees through an arrangement whatever it looks at, so that it is worked out once for many details.
pub(super) struct Through<'a> {
    arrangement: &'a Arrangement,
    eye: &'a Eye,
    seen: View,
    focus: Focus,
    equivalent_viewing_distance: Option<Length>,
    shown_to_eye: Option<Length>,
    blurred: Blurred,
    own: LogMar,
    own_magnification: f64,
    field: Option<Field>,
    /// Twice the tangents of half the field: width over the distance at which it is seen.
    across: Option<[f64; 3]>,
    share: f64,
    tolerance: Vergence,
    depth: Option<DepthOfField>,
}

impl<'a> Through<'a> {
    pub(super) fn of(arrangement: &'a Arrangement, own: &Own<'a>) -> Self {
        let &Own { eye, mar, magnification, tolerance } = own;
        let (train, seen) = (&arrangement.train, arrangement.view());
        let focus = Focus::of(eye, seen.focus_demand);
        let blurred = blurred(mar, focus.defocus, focus.cylinder_left);
        let (field, share) = field_and_share(train, eye.pupil, focus.demand);
        Self {
            arrangement,
            eye,
            seen,
            focus,
            equivalent_viewing_distance: seen
                .equivalent_viewing_distance
                .map(|distance| distance / arrangement.shown_larger),
            shown_to_eye: arrangement.shown_to_eye(),
            blurred,
            own: LogMar::of_angle(blurred.mar),
            own_magnification: magnification,
            field,
            across: field.map(|field| {
                [field.full, field.half, field.last].map(|apparent| 2.0 * (apparent / 2.0).tangent())
            }),
            share,
            tolerance,
            depth: depth_of_field_about(train, focus.demand, tolerance),
        }
    }

    /// The errors are those of [`look`].
    pub(super) fn outcome(&self, detail: Detail) -> Result<Outcome, Error> {
        let &Self { arrangement, eye, seen, focus, equivalent_viewing_distance, blurred, .. } = self;
        let fifth = detail.height / 5.0;
        let (angular, detail_seen) = match (equivalent_viewing_distance, detail.distance) {
            (Some(evd), distance) => {
                let bare = distance.or(self.shown_to_eye).unwrap_or(evd);
                // The engine keeps the sign of an inverted image; the distance itself has none.
                let upright = if seen.enlargement < 0.0 { -1.0 } else { 1.0 };
                (upright * (bare / evd), Angle::subtended(fifth, evd))
            }
            (None, Some(distance)) => {
                let times = seen.enlargement * arrangement.shown_larger;
                let angle = Angle::subtended(fifth, distance);
                (times, angle * crate::math::abs(times))
            }
            (None, None) => {
                let why = Why::Missing { part: "the distance of the thing", example: "6 m" };
                return Err(Error::new("far aid", "no distance", why));
            }
        };
        let own_magnification = self.own_magnification;
        let detail_in_glasses = detail_seen / own_magnification;
        let usable =
            detail_in_glasses.is_finite() && Angle::ZERO < detail_in_glasses && blurred.mar.is_finite();
        if !usable || !focus.demand.is_finite() {
            let why = Why::NoSolution { because: "the image cannot be viewed" };
            return Err(Error::about("demand", format_args!("{} D", focus.demand.dioptres()), why));
        }
        let reserve_reached = detail_in_glasses / blurred.mar;
        let to_reach = LogMar::of_angle(detail_in_glasses / detail.reserve);
        let widths = self.widths(detail.distance, angular);
        Ok(Outcome {
            equivalent_viewing_distance,
            angular: Magnification::from_times(angular),
            focus,
            blurred,
            detail_seen,
            own_glasses: eye.mean_sphere(),
            own_glasses_to_eye: eye.spectacle_to_eye,
            own_magnification,
            detail_in_glasses,
            reserve_reached,
            least_height: detail.height / reserve_reached,
            prediction: predict(self.own, Magnification::from_times(1.0), to_reach, eye.retest_limit),
            field: self.field,
            widths,
            characters: widths
                .map(|widths| characters_in(widths.half, PrintSize::of_x_height(detail.height))),
            depth: self.depth,
            tolerance: self.tolerance,
            share_of_pupil: self.share,
            light: arrangement.transmittance * self.share,
            arrangement: arrangement.clone(),
            detail,
        })
    }

    /// What is seen at once at the thing; `distance` is the eye's to a far one, which looks `angular` times as large.
    fn widths(&self, distance: Option<Length>, angular: f64) -> Option<Widths> {
        let window = self.arrangement.window;
        let Some(across) = self.across else {
            return window.map(|width| Widths { full: width, half: width, last: width });
        };
        let [full, half, last] = match (self.equivalent_viewing_distance, distance) {
            (Some(evd), _) => across.map(|across| evd * across),
            (None, Some(distance)) => across.map(|across| distance * (across / crate::math::abs(angular))),
            (None, None) => return None,
        }
        .map(|width| window.map_or(width, |window| width.min(window)));
        Some(Widths { full, half, last })
    }
}

/// How many characters of this print a width holds, a count: 1.30 mm for each character and M of size.
///
/// ```
/// use arcminute_core::{device::characters_in, unit::{Length, PrintSize}};
/// // 20 mm of 1 M print: 15 characters (computed).
/// assert!((characters_in(Length::from_mm(20.0), PrintSize::from_m_units(1.0)) - 15.4).abs() < 0.05);
/// ```
#[must_use]
pub fn characters_in(width: Length, print: PrintSize) -> f64 {
    width.mm() / (CHARACTER_WIDTH_PER_M * print.m_units())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::optics::{Element, Telescope};
    use alloc::string::ToString;

    fn mm(value: f64) -> Length {
        Length::from_mm(value)
    }
    fn near(got: f64, wanted: f64, what: &str) {
        assert!((got - wanted).abs() < 1e-9 * wanted.abs(), "{what}: got {got}, wanted {wanted}");
    }
    fn eye() -> Eye {
        Eye::corrected(LogMar::from_log(1.0), LogMar::from_log(0.2))
    }
    /// 4x of +20 and +80 D behind this train, and the eye 15 mm behind that.
    fn keplerian(before: Train, stop: Option<Length>) -> Result<Train, Error> {
        let d = Vergence::from_dioptres;
        let telescope = Telescope { field_stop: stop, ..Telescope::from_lenses(d(20.0), d(80.0), mm(12.0))? };
        Ok(before.then(&telescope.afocal_train())?.to_eye(mm(15.0)))
    }
    fn capped() -> Result<Arrangement, Error> {
        let cap = Element::Lens { power: Vergence::from_dioptres(4.0), clear_diameter: None };
        Ok(Arrangement::of(keplerian(Train::new([cap]), None)?, Sight::At(mm(250.0))))
    }

    /// By hand: a cap of 4 D before 4x is 16 D, 62.5 mm; print 250 + 62.5 + 15 mm from the eye looks 5.24 times as large,
    /// upside down. One fifth of 2 mm is 22.002 minutes there, half of that with a reserve of two.
    #[test]
    fn an_inverted_image_is_told_by_its_sign_and_a_reserve_is_kept() -> Result<(), Error> {
        let print = Detail { height: mm(2.0), distance: None, reserve: 2.0 };
        let seen = look(&capped()?, &eye(), print)?;
        near(seen.equivalent_viewing_distance.unwrap_or_default().mm(), 62.5, "equivalent distance");
        near(seen.angular.times(), -5.24, "angular");
        assert!((seen.detail_seen.arcmin() - 22.001_6).abs() < 1e-3, "{:?}", seen.detail_seen);
        assert!((seen.prediction.goal.mar().arcmin() - 11.000_8).abs() < 1e-3, "{:?}", seen.prediction);
        let upright = look(&Arrangement::of(Train::new([]), Sight::At(mm(250.0))), &eye(), print)?;
        near(upright.angular.times(), 1.0, "bare, where it is");
        Ok(())
    }

    /// By hand: a stop of 7 mm in the image 50 mm behind the objective lets in 7 over 50 of the distance: 0.84 m of 6 m,
    /// however much the telescope enlarges.
    #[test]
    fn what_a_stop_takes_in_of_a_far_thing_grows_with_its_distance() -> Result<(), Error> {
        let set = Arrangement::of(keplerian(Train::default(), Some(mm(7.0)))?, Sight::Far);
        for (metres, wanted) in [(6.0, 0.84), (3.0, 0.42)] {
            let board = Detail { height: mm(40.0), distance: Some(Length::from_m(metres)), reserve: 1.0 };
            let seen = look(&set, &eye(), board)?;
            near(seen.angular.times(), -4.0, "angular");
            let widths = seen.widths.expect("the stop limits it");
            for width in [widths.full, widths.half, widths.last] {
                near(width.m(), wanted, "width");
            }
        }
        Ok(())
    }

    #[test]
    fn a_detail_without_a_size_is_not_seen() -> Result<(), Error> {
        for height in [0.0, -1.0, f64::NAN] {
            let nothing = Detail { height: mm(height), distance: None, reserve: 1.0 };
            let error = look(&capped()?, &eye(), nothing).expect_err("no size");
            assert_eq!(error.quantity, "demand", "{height} mm");
            assert!(error.to_string().ends_with("has no solution: the image cannot be viewed"), "{error}");
        }
        let error = look(
            &Arrangement::of(keplerian(Train::default(), None)?, Sight::Far),
            &eye(),
            Detail { height: mm(40.0), distance: None, reserve: 1.0 },
        )
        .expect_err("how far?");
        assert_eq!(error.to_string(), "far aid `no distance` needs the distance of the thing");
        Ok(())
    }
}
