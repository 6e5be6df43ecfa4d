//! A pair of strong plus spectacles for near, or one such lens: where the optical centres go, what the eyes have to turn
//! in, the prism, the blank and the power as worn.
//!
//! ```text
//!      print ───────── u ─────────  lens ── s ── eye      s = vertex and cornea to rotation centre
//!   on the midline                    p_n  crossing of the line of sight; the optical centre there adds no prism
//! ```
//!
//! What is said of prism counts from the line of sight: no prism is where it goes through the optical centre. The line of
//! sight is taken to cross the lens at the height of the optical centre.

mod request;
#[cfg(test)]
mod tests;
#[cfg(feature = "alloc")]
mod working;

pub use request::{Centration, NearLens, NearSpectaclesRequest};

use super::blank::{Blank, blank_for};
use super::face_form::{FaceForm, face_form, in_lens_plane};
use super::frame::Point;
use crate::convergence::{Convergence, EyeAndLens, Inset, PrismChoice, inset, prism_for_target};
use crate::error::{Error, Why};
use crate::math;
use crate::refraction::{Decentred, Eye, Moved, Refraction, TiltAbout, Tilted, tilted};
use crate::unit::{Angle, Length, Prism, Vergence};

/// Print distance whose bare convergence is the usual aim of base-in prism, in millimetres.
const AIM: f64 = 400.0;

/// A rule of thumb for base-in prism. They disagree; none is said here to be right.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum PrismRuleKind {
    /// One prism dioptre in each eye for each dioptre of the addition.
    EachEyeAdd,
    /// The addition and two more, in each eye.
    EachEyeAddAndTwo,
    /// The addition and two more, in both eyes together.
    AddAndTwoInTotal,
}

/// What a rule of thumb gives, and what it leaves.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PrismRule {
    /// Which.
    pub kind: PrismRuleKind,
    /// Base-in prism for this eye.
    pub base_in: Prism,
    /// What the eye still turns in with it.
    pub leaves: Convergence,
}

/// The power of a near lens in another place before the eye.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct NearMoved {
    /// As found, at the vertex distance of the refraction.
    pub found: Refraction,
    /// Print to the lens, in both places.
    pub print_to_lens: Length,
    /// Light of the print behind the lens, moved to the worn place.
    pub leaving: Moved,
    /// The lens that leaves the same light to the eye from the worn place.
    pub worn: Refraction,
    /// The whole power moved as a lens for far is: not what print near needs, and recorded for comparison.
    pub as_for_far: Moved,
}

/// One lens of near spectacles, and everything that follows for its eye.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct NearLensFit {
    /// The eye behind it.
    pub eye: Eye,
    /// What was asked.
    pub asked: NearLens,
    /// Lens to the centre of rotation of the eye.
    pub stop_distance: Length,
    /// The spectacles it belongs to.
    pub request: NearSpectaclesRequest,
    /// The PD across the front, and in the plane of the lens.
    pub face_form: FaceForm,
    /// Where the line of sight crosses the lens, and what centring for far would add.
    pub inset: Inset,
    /// Where the optical centre goes, across the front and above the lowest boxed tangent.
    pub optical_centre: Point,
    /// The optical centre from the midline, across the front and in the plane of the lens: what is marked on it.
    pub centre_in_lens_plane: FaceForm,
    /// The power at the worn vertex distance, and how it came about.
    pub moved: NearMoved,
    /// What the eye turns in, bare and with the lens.
    pub convergence: Convergence,
    /// The usual aim of base-in prism: what the bare eye turns in for print at 40 cm.
    pub target: Convergence,
    /// The prism that leaves exactly this to turn in.
    pub exact_prism: PrismChoice,
    /// The same by the rules of thumb.
    pub rules: [PrismRule; 3],
    /// Prism that the place of the optical centre gives at the line of sight.
    pub prism_by_place: Decentred,
    /// The least round blank.
    pub blank: Blank,
    /// Optical centre to the nearest edge of the lens; negative when it is not on the lens.
    pub room: Length,
    /// Height of the optical centre at which the axis of the leaning lens goes through the rotation centre.
    pub centre_for_tilt: Length,
    /// The lens against the line from the rotation centre through the optical centre, up and down.
    pub tilt: Angle,
    /// What this makes of the power; of a lens with a cylinder, of its mean sphere, as an estimate.
    pub pantoscopic_effect: Tilted,
    /// What the face form makes of the power, in the same way.
    pub face_form_effect: Tilted,
    /// Greatest change of a meridian by the one and the other.
    pub tilt_change: [Vergence; 2],
    /// Print to lens at which the addition is in focus without accommodation.
    pub in_focus_at: Length,
}

/// What two lenses give together.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct NearPair {
    /// Distance of the crossing points: the near PD in the plane of the lenses.
    pub near_pd: Length,
    /// Distance of the optical centres.
    pub centres_apart: Length,
    /// What the two bare eyes turn in together.
    pub bare: Prism,
    /// What they turn in together with the lenses.
    pub turned_in: Prism,
}

/// Near spectacles, fitted.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct NearSpectacles {
    /// What was asked.
    pub request: NearSpectaclesRequest,
    /// Lens to the centre of rotation of the eyes.
    pub stop_distance: Length,
    /// The lens before the right eye.
    pub right: Option<NearLensFit>,
    /// The lens before the left eye.
    pub left: Option<NearLensFit>,
    /// Both together, if there are two.
    pub both: Option<NearPair>,
}

impl NearSpectacles {
    /// The lens before this eye.
    ///
    /// ```
    /// use arcminute_core::fit::{Eye, Frame, NearLens, NearSpectaclesRequest, fit_near_spectacles};
    /// use arcminute_core::unit::{Length, Vergence};
    /// let mm = Length::from_mm;
    /// let frame = Frame::new(mm(48.0), mm(36.0), mm(20.0), mm(8.0))?;
    /// let lens = NearLens::of_add(mm(32.0), mm(18.0), Vergence::from_dioptres(8.0));
    /// let one = fit_near_spectacles(&NearSpectaclesRequest::usual(frame, Some(lens), None, mm(125.0)))?;
    /// assert!(one.lens(Eye::Right).is_some() && one.lens(Eye::Left).is_none());
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    #[must_use]
    pub fn lens(&self, eye: Eye) -> Option<&NearLensFit> {
        match eye {
            Eye::Right => self.right.as_ref(),
            Eye::Left => self.left.as_ref(),
        }
    }
}

/// Fits near spectacles: inset, convergence, prism, blank, power as worn, tilt.
///
/// Everything is put together from what stands elsewhere: [`inset`], [`EyeAndLens::converge`], [`prism_for_target`],
/// [`super::blank()`], [`super::face_form()`], [`Refraction::moved`], [`Refraction::decentred`] and [`tilted`].
///
/// * Domain: thin lenses, paraxial, print on the midline.
/// * The addition is for print at its distance from the lens, wherever the lens stands; so what is moved to the worn vertex
///   distance is the light that leaves the lens, not the whole power.
///
/// # Errors
/// [`Why::Missing`] without a lens; [`Why::OutOfRange`] for an impossible value; what the functions above refuse.
///
/// # Example
/// ```
/// use arcminute_core::fit::{Frame, NearLens, NearSpectaclesRequest, fit_near_spectacles};
/// use arcminute_core::unit::{Length, Vergence};
/// let mm = Length::from_mm;
/// let frame = Frame::new(mm(48.0), mm(36.0), mm(20.0), mm(8.0))?;
/// let lens = NearLens::of_add(mm(32.0), mm(18.0), Vergence::from_dioptres(8.0));
/// let pair = fit_near_spectacles(&NearSpectaclesRequest::usual(frame, Some(lens), Some(lens), mm(125.0)))?;
/// let right = pair.right.expect("asked for");
/// // PD 64, print at 12.5 cm: set in by 5.684 mm, and 21.05 prism dioptres for each eye (computed).
/// assert!((right.inset.inset.mm() - 5.684).abs() < 5e-4);
/// assert!((right.convergence.bare.prism_dioptres() - 21.05).abs() < 0.005);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn fit_near_spectacles(request: &NearSpectaclesRequest) -> Result<NearSpectacles, Error> {
    request.verify()?;
    if request.right.is_none() && request.left.is_none() {
        let why = Why::Missing { part: "a lens before one eye at least", example: "+8.00" };
        return Err(Error::new("near spectacles", "no lens", why));
    }
    let fitted =
        |eye: Eye, asked: Option<NearLens>| asked.map(|asked| lens_fit(request, eye, asked)).transpose();
    let right = fitted(Eye::Right, request.right)?;
    let left = fitted(Eye::Left, request.left)?;
    let both = right.as_ref().zip(left.as_ref()).map(|(right, left)| NearPair {
        near_pd: right.inset.crossing + left.inset.crossing,
        centres_apart: right.optical_centre.x + left.optical_centre.x,
        bare: right.convergence.bare + left.convergence.bare,
        turned_in: right.convergence.per_eye + left.convergence.per_eye,
    });
    Ok(NearSpectacles { request: *request, stop_distance: request.stop_distance(), right, left, both })
}

fn lens_fit(request: &NearSpectaclesRequest, eye: Eye, asked: NearLens) -> Result<NearLensFit, Error> {
    let (stop_distance, print_to_lens) = (request.stop_distance(), request.print_to_lens);
    let moved = moved(&asked.power, request.refraction_vertex - request.vertex, print_to_lens)?;
    let worn = Refraction::of(moved.worn.sphere, moved.worn.cylinder, moved.worn.axis)?;
    let across = worn.decentred(eye, Length::ZERO, Length::ZERO)?.across;
    let inset = inset(asked.monocular_pd, print_to_lens, stop_distance, across)?;
    let centre = match asked.centration {
        Centration::NearCrossing => inset.crossing,
        Centration::DistancePd => asked.monocular_pd,
        Centration::Given(from_midline) => from_midline,
    };
    let optical_centre = Point { x: centre, y: asked.centre_height.unwrap_or(asked.pupil_height) };

    let with_lens = EyeAndLens {
        eye_from_midline: asked.monocular_pd,
        centre_from_midline: centre,
        power: across,
        base_in: asked.base_in,
        stop_distance,
    };
    let bare = EyeAndLens { power: Vergence::ZERO, base_in: Prism::ZERO, ..with_lens };
    let convergence = with_lens.converge(print_to_lens)?;
    let target = bare.converge(Length::from_mm(AIM))?;
    let add = asked.add.dioptres();
    let rule = |kind, base_in: f64| {
        let base_in = Prism::from_prism_dioptres(base_in);
        let leaves = EyeAndLens { base_in, ..with_lens }.converge(print_to_lens)?;
        Ok(PrismRule { kind, base_in, leaves })
    };

    let blank = blank_for(&request.frame, optical_centre, request.blank_allowance);
    let centre_for_tilt = asked.pupil_height - stop_distance * request.pantoscopic.sine();
    let lean = (optical_centre.y - centre_for_tilt) / (stop_distance * request.pantoscopic.cosine());
    let tilt = Angle::from_tangent(lean);
    let mean = worn.mean_sphere();
    let pantoscopic_effect = tilted(mean, tilt, TiltAbout::Horizontal)?;
    let face_form_effect = tilted(mean, request.face_form, TiltAbout::Vertical)?;
    Ok(NearLensFit {
        eye,
        asked,
        stop_distance,
        request: *request,
        face_form: face_form(asked.monocular_pd, request.face_form)?,
        inset,
        optical_centre,
        centre_in_lens_plane: in_lens_plane(centre, request.face_form),
        moved,
        convergence,
        target,
        exact_prism: prism_for_target(with_lens, print_to_lens, target.bare)?,
        rules: [
            rule(PrismRuleKind::EachEyeAdd, add)?,
            rule(PrismRuleKind::EachEyeAddAndTwo, add + 2.0)?,
            rule(PrismRuleKind::AddAndTwoInTotal, (add + 2.0) / 2.0)?,
        ],
        prism_by_place: worn.decentred(eye, convergence.crossing - centre, Length::ZERO)?,
        blank,
        room: -request.frame.signed_distance(optical_centre),
        centre_for_tilt,
        tilt,
        pantoscopic_effect,
        face_form_effect,
        tilt_change: [change_of(&pantoscopic_effect), change_of(&face_form_effect)],
        in_focus_at: asked.add.focal_length(),
    })
}

/// The lens that leaves the same light of near print to the eye from another place.
fn moved(found: &Refraction, towards_eye: Length, print_to_lens: Length) -> Result<NearMoved, Error> {
    let from_print = Vergence::of_focal_length(print_to_lens);
    let leaving = Refraction { sphere: found.sphere - from_print, ..*found }.moved(towards_eye)?;
    let worn = Refraction { sphere: leaving.to.sphere + from_print, ..leaving.to };
    Ok(NearMoved { found: *found, print_to_lens, leaving, worn, as_for_far: found.moved(towards_eye)? })
}

/// What changes most in any meridian: that across the line of tilt.
pub(super) fn change_of(tilted: &Tilted) -> Vergence {
    let changed = tilted.sphere + tilted.cylinder - tilted.power;
    Vergence::from_dioptres(math::abs(changed.dioptres()))
}
