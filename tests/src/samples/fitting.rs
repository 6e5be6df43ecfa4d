//! Samples: the frame, the blank, a mounted telescope and near spectacles.

use super::Samples;
use arcminute_core::Error;
use arcminute_core::fit::{
    Centration, Eye, Frame, MountingRequest, NearLens, NearSpectaclesRequest, Placement, Point,
    TiltReference, alignment, blank, face_form, fit_near_spectacles, mount, near_centres, turned_over,
};
use arcminute_core::refraction::Refraction;
use arcminute_core::unit::{Angle, Length, Prism, Vergence};

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
        MountingRequest { rule: Placement::Low, working_distance: Some(mm(400.0)), ..usual },
        MountingRequest { rule: Placement::ByHand(Point::from_mm(32.0, 33.0)), ..usual },
    ] {
        to.add(&mount(&request)?);
    }
    to.add(&turned_over(&mount(&usual)?, mm(30.5), mm(23.0))?);
    to.add(&alignment(mm(3.0), mm(4.0))?);
    near_spectacles(to, frame)
}

fn near_spectacles(to: &mut Samples, frame: Frame) -> Result<(), Error> {
    let (mm, degrees, d) = (Length::from_mm, Angle::from_degrees, Vergence::from_dioptres);
    let lens = NearLens::of_add(mm(32.0), mm(22.0), d(8.0));
    let cylinder = NearLens {
        power: Refraction::of(d(9.5), d(-1.5), Some(30))?,
        base_in: Prism::from_prism_dioptres(8.0),
        centration: Centration::DistancePd,
        ..lens
    };
    let pair = NearSpectaclesRequest {
        vertex: mm(11.0),
        pantoscopic: degrees(8.0),
        face_form: degrees(5.0),
        ..NearSpectaclesRequest::usual(frame, Some(lens), Some(cylinder), mm(125.0))
    };
    to.add(&fit_near_spectacles(&pair)?);
    Ok(())
}
