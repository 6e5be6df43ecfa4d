//! A PD measured across a front that wraps round the face.

use crate::bounds;
use crate::error::Error;
use crate::unit::{Angle, Length};

/// One eye's PD, across the front and in the plane of its lens.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FaceForm {
    /// Measured in the plane of the front.
    pub monocular_pd: Length,
    /// Turn of the lens against that plane.
    pub angle: Angle,
    /// The same in the plane of the lens: what is marked on it.
    pub in_lens_plane: Length,
    /// What the measured one is longer by.
    pub difference: Length,
}

/// The PD to mark on a lens that is turned by its face form: `PD·cos w`.
///
/// * Source: geometry.
///
/// # Errors
/// [`crate::Why::OutOfRange`] for an impossible PD or angle.
///
/// ```
/// use arcminute_core::{fit::face_form, unit::{Angle, Length}};
/// let wrapped = face_form(Length::from_mm(34.0), Angle::from_degrees(7.0)).expect("possible");
/// assert!((wrapped.difference.mm() - 0.253).abs() < 5e-4);
/// ```
pub fn face_form(monocular_pd: Length, angle: Angle) -> Result<FaceForm, Error> {
    bounds::MONOCULAR_PD.check(monocular_pd.mm())?;
    bounds::FACE_FORM.check(angle.degrees())?;
    Ok(in_lens_plane(monocular_pd, angle))
}

/// The same for any place across the front and a possible angle.
pub(super) fn in_lens_plane(across: Length, angle: Angle) -> FaceForm {
    let in_lens_plane = Length::from_mm(across.mm() * angle.cosine());
    FaceForm { monocular_pd: across, angle, in_lens_plane, difference: across - in_lens_plane }
}
