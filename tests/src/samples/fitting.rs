//! Samples: the frame, the blank and a mounted telescope.

use super::Samples;
use arcminute_core::Error;
use arcminute_core::fit::{
    Eye, Frame, MountingRequest, Placement, Point, TiltReference, blank, face_form, mount, near_centres,
};
use arcminute_core::unit::{Angle, Length, Vergence};

pub(super) fn take(to: &mut Samples) -> Result<(), Error> {
    let (mm, degrees) = (Length::from_mm, Angle::from_degrees);
    let frame = Frame::new(mm(48.0), mm(44.0), mm(20.0), mm(8.0))?;
    to.add(&blank(&frame, Point::from_mm(31.5, 24.0), mm(2.0))?);
    to.add(&near_centres(mm(63.0), mm(400.0), mm(27.0), Vergence::from_dioptres(-4.0))?);
    to.add(&face_form(mm(32.0), degrees(7.0))?);
    let usual = MountingRequest {
        pantoscopic: degrees(8.0),
        segment_height: Some(mm(14.0)),
        exit_pupil: Some(mm(3.0)),
        ..MountingRequest::usual(Eye::Right, frame, mm(31.5), mm(22.0), mm(14.0))
    };
    for request in [
        usual,
        MountingRequest { rule: Placement::Highest, ordered_tilt: Some(degrees(20.0)), ..usual },
        MountingRequest {
            rule: Placement::Centred,
            working_distance: Some(mm(400.0)),
            ordered_tilt: Some(degrees(10.0)),
            tilt_reference: TiltReference::StraightAhead,
            ..usual
        },
    ] {
        to.add(&mount(&request)?);
    }
    Ok(())
}
