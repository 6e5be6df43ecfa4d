//! The person's eyes, understood.

use super::reader::Reader;
use crate::model::draft::EyeChoice;
use crate::model::field::FieldId;
use arcminute_core::accommodation::{AmplitudeAtAge, amplitude_at_age};
use arcminute_core::acuity::{Notation, Reading, Scale};
use arcminute_core::refraction::Prescription;
use arcminute_core::unit::{Age, Length, LogContrast, LogMar, Vergence};

/// One eye, understood.
#[derive(Clone, Debug, PartialEq)]
pub struct EyeAnswer {
    /// Acuity or category, if one was understood.
    pub acuity: Option<Reading>,
    /// Sphere and cylinder at the spectacle plane; both zero when the box is empty, `None` when it is not usable.
    pub refraction: Option<(Vergence, Vergence)>,
    /// Addition for near, if one was written with the refraction.
    pub add: Option<Vergence>,
    /// The refraction as a whole, with its axis; zero when the box is empty, `None` when it is not usable.
    pub prescription: Option<Prescription>,
    /// What the carrier lens is ordered with; zero when the box is empty, `None` when it is not usable.
    pub carrier: Option<Prescription>,
    /// Pupil diameter.
    pub pupil: Option<Length>,
    /// Accommodation that can be used.
    pub accommodation: Option<Vergence>,
    /// Contrast sensitivity for letters.
    pub contrast: Option<LogContrast>,
    /// Monocular PD.
    pub pd: Option<Length>,
    /// Pupil height.
    pub pupil_height: Option<Length>,
}

impl EyeAnswer {
    /// The acuity that sums can use.
    #[must_use]
    pub fn log_mar(&self) -> Option<LogMar> {
        match &self.acuity {
            Some(Reading::Measured(acuity)) => Some(acuity.log_mar),
            Some(Reading::Category(_)) | None => None,
        }
    }

    /// The notation its acuity was written in; feet when there is none.
    #[must_use]
    pub fn scale(&self) -> Scale {
        match &self.acuity {
            Some(Reading::Measured(acuity)) => match acuity.notation {
                Notation::Metres { .. } => Scale::Metres,
                Notation::Decimal(_) => Scale::Decimal,
                Notation::LogMar { .. } | Notation::LetterScore(_) => Scale::LogMar,
                Notation::Feet { .. } => Scale::Feet,
            },
            Some(Reading::Category(_)) | None => Scale::Feet,
        }
    }
}

pub(super) fn eye(reader: &mut Reader<'_>, eye: EyeChoice) -> EyeAnswer {
    let of = |make| FieldId::of_eye(make, eye);
    let carrier = reader.prescription(of(FieldId::CarrierRx));
    let prescription = reader.prescription(of(FieldId::Refraction));
    EyeAnswer {
        acuity: reader.acuity(of(FieldId::Acuity)),
        refraction: prescription.map(|read| (read.refraction.sphere, read.refraction.cylinder)),
        add: prescription.and_then(|read| read.add),
        prescription,
        carrier,
        pupil: reader.length(of(FieldId::Pupil)),
        accommodation: reader.number(of(FieldId::Accommodation)).map(Vergence::from_dioptres),
        contrast: reader.number(of(FieldId::ContrastSensitivity)).map(LogContrast::from_log),
        pd: reader.length(of(FieldId::Pd)),
        pupil_height: reader.length(of(FieldId::PupilHeight)),
    }
}

/// What accommodation is usual at the age, if one was given.
pub(super) fn age(reader: &mut Reader<'_>) -> Option<AmplitudeAtAge> {
    amplitude_at_age(Age::from_years(reader.number(FieldId::Age)?)).ok()
}

/// Boxes that hold only words.
pub(super) fn words(reader: &mut Reader<'_>) {
    for field in [FieldId::Label, FieldId::PersonNotes, FieldId::OrderNotes] {
        reader.words(field);
    }
}
