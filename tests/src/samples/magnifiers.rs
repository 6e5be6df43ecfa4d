//! Samples: hand and stand magnifiers, high-plus spectacles and their labels.

use super::Samples;
use arcminute_core::Error;
use arcminute_core::device::{
    Eye, HandMagnifier, HighPlusSpectacles, LensForm, PrintPlace, StandData, StandMagnifier, Worn, hold,
    magnifier_labels, misread_height, place_stand, stand_for_add, stand_optics, wear,
};
use arcminute_core::optics::ThickLens;
use arcminute_core::unit::{Length, LogMar, Vergence};
use arcminute_core::unmarked::{by_lamp_image, by_neutralising, by_squares, by_stand_height};

pub(super) fn take(to: &mut Samples) -> Result<(), Error> {
    let (d, mm) = (Vergence::from_dioptres, Length::from_mm);
    let mut eye = Eye::corrected(LogMar::from_log(1.0), LogMar::from_log(0.2));
    eye.worn = Worn::Near { add: d(2.5) };
    let magnifier = HandMagnifier { power: d(10.0), clear_diameter: mm(50.0), transmittance: 0.92 };
    to.add(&hold(magnifier, &eye, Length::from_cm(5.0), PrintPlace::At(mm(70.0)))?);
    to.add(&hold(magnifier, &eye, Length::from_cm(5.0), PrintPlace::AtCombinedFocus)?);
    to.add(&magnifier_labels(d(20.0), d(12.0)));
    stands(to, &eye)?;
    spectacles(to, eye)?;
    to.add(&by_squares(Length::from_cm(4.0), Length::from_cm(36.0), 2.0)?);
    to.add(&by_neutralising(d(-12.0))?);
    to.add(&by_lamp_image(mm(1000.0), mm(100.0), mm(10.0))?);
    to.add(&by_stand_height(mm(40.0), d(-5.0))?);
    Ok(())
}

fn stands(to: &mut Samples, eye: &Eye) -> Result<(), Error> {
    let (d, mm) = (Vergence::from_dioptres, Length::from_mm);
    for data in [
        StandData::Nominal { power: d(20.0), print_to_lens: mm(40.0) },
        StandData::ImagePlace { enlargement: 3.0, image_to_lens: mm(100.0) },
        StandData::EmergentVergence { enlargement: 3.0, emergent_vergence: d(-10.0) },
        StandData::PowerAndEnlargement { power: d(20.0), enlargement: 3.0 },
    ] {
        to.add(&stand_optics(data)?);
    }
    let optics = stand_optics(StandData::Nominal { power: d(20.0), print_to_lens: mm(40.0) })?;
    to.add(&optics.seen_from(mm(150.0))?);
    to.add(&optics.with_add(d(2.5))?);
    to.add(&stand_for_add(d(4.0), d(12.0), mm(100.0))?);
    to.add(&misread_height(d(20.0), mm(40.0), mm(1.0))?);
    let stand = StandMagnifier { optics, clear_diameter: mm(40.0), transmittance: 0.92 };
    to.add(&place_stand(stand, eye, mm(150.0))?);
    Ok(())
}

fn spectacles(to: &mut Samples, mut eye: Eye) -> Result<(), Error> {
    let (d, mm) = (Vergence::from_dioptres, Length::from_mm);
    eye.spectacle_to_eye = mm(14.0);
    let thin = LensForm::Addition { add: d(8.0) };
    let thick =
        LensForm::Thick(ThickLens { front: d(14.0), back: d(7.0), thickness: mm(10.0), index: 1.498 });
    for form in [thin, thick] {
        let lens = HighPlusSpectacles { form, clear_diameter: mm(40.0), transmittance: 0.92 };
        to.add(&wear(lens, &eye, d(2.0))?);
    }
    Ok(())
}
