//! Samples: a trial against its prediction.

use super::Samples;
use arcminute_core::Error;
use arcminute_core::predict::predict;
use arcminute_core::steadiness::Image;
use arcminute_core::trial::{Circumstances, Motion, judge};
use arcminute_core::unit::{Angle, AngularSpeed, Length, LogContrast, LogMar, Magnification, Vergence};

pub(super) fn take(to: &mut Samples) -> Result<(), Error> {
    let (log, mm) = (LogMar::from_log, Length::from_mm);
    let head = AngularSpeed::from_degrees_per_second(3.0);
    let circumstances = Circumstances {
        defocus: Some(Vergence::from_dioptres(1.5)),
        cylinder_left: Some(Vergence::from_dioptres(2.0)),
        exit_pupil: Some(mm(3.5)),
        pupil: Some(mm(4.0)),
        light: Some(0.6),
        contrast: Some(0.7),
        sensitivity: Some(LogContrast::from_log(1.2)),
        magnification: None,
        motion: Some(Motion { image: Image::Upright, gain: 1.0, head }),
        eccentricity: Some(Angle::from_degrees(12.0)),
    };
    let predicted = predict(log(0.6), Magnification::from_times(4.0), log(0.1), log(0.2));
    to.add(&judge(&predicted, log(0.4), &circumstances)?);
    Ok(())
}
