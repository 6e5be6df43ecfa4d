//! The person's eyes and wishes, understood.

use super::reader::Reader;
use crate::model::draft::{EyeChoice, GoalKind};
use crate::model::field::FieldId;
use arcminute_core::acuity::{Notation, Reading, Scale};
use arcminute_core::print::SizedPrint;
use arcminute_core::task::{Demand, Goal, Target, demand};
use arcminute_core::unit::{Length, LogMar, Vergence};

/// One eye, understood.
#[derive(Clone, Debug, PartialEq)]
pub struct EyeAnswer {
    /// Acuity or category, if one was understood.
    pub acuity: Option<Reading>,
    /// Sphere and cylinder at the spectacle plane; both zero when the box is empty, `None` when it is not usable.
    pub refraction: Option<(Vergence, Vergence)>,
    /// Addition for near, if one was written with the refraction.
    pub add: Option<Vergence>,
    /// Pupil diameter.
    pub pupil: Option<Length>,
    /// Accommodation that can be used.
    pub accommodation: Option<Vergence>,
    /// Monocular PD.
    pub pd: Option<Length>,
    /// Pupil height.
    pub pupil_height: Option<Length>,
}

/// A wish, understood.
#[derive(Clone, Debug, PartialEq)]
pub struct GoalAnswer {
    /// What it is called.
    pub name: String,
    /// What it asks for, if enough is known.
    pub demand: Option<Demand>,
    /// Width to be seen at once.
    pub width: Option<Length>,
    /// Print to read near, if it was asked for.
    pub print: Option<SizedPrint>,
    /// Size over the least size seen that is wanted.
    pub reserve: Option<f64>,
    /// What is still needed.
    pub missing: Vec<FieldId>,
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
    reader.refraction(of(FieldId::CarrierRx));
    let refraction = reader.refraction(of(FieldId::Refraction));
    EyeAnswer {
        acuity: reader.acuity(of(FieldId::Acuity)),
        refraction: refraction.map(|(sphere, cylinder, _)| (sphere, cylinder)),
        add: refraction.and_then(|(_, _, add)| add),
        pupil: reader.length(of(FieldId::Pupil)),
        accommodation: reader.number(of(FieldId::Accommodation)).map(Vergence::from_dioptres),
        pd: reader.length(of(FieldId::Pd)),
        pupil_height: reader.length(of(FieldId::PupilHeight)),
    }
}

pub(super) fn goals(reader: &mut Reader<'_>) -> Vec<GoalAnswer> {
    (0..reader.draft().goals.len()).map(|index| goal(reader, index)).collect()
}

fn goal(reader: &mut Reader<'_>, index: usize) -> GoalAnswer {
    reader.words(FieldId::GoalName(index));
    let typed = &reader.draft().goals[index];
    let (kind, typed_name) = (typed.kind, typed.name.trim().to_owned());
    let acuity_field = FieldId::GoalAcuity(index);
    let acuity = match reader.acuity(acuity_field) {
        Some(Reading::Measured(acuity)) => Some(acuity.log_mar),
        Some(Reading::Category(category)) => {
            reader.refuse_category(acuity_field, &category.to_string());
            None
        }
        None => None,
    };
    let height = reader.length(FieldId::GoalHeight(index));
    let distance = reader.length(FieldId::GoalDistance(index));
    let reserve = reader.number(FieldId::GoalReserve(index));
    let width = reader.length(FieldId::GoalWidth(index));
    let print = reader.print(FieldId::GoalPrint(index));
    let name = if typed_name.is_empty() { format!("Goal {}", index + 1) } else { typed_name };
    match kind {
        GoalKind::Acuity => {
            let missing = if acuity.is_none() { vec![FieldId::GoalAcuity(index)] } else { Vec::new() };
            GoalAnswer {
                name,
                demand: acuity.map(|acuity| demand(Goal::Acuity(acuity))),
                width: None,
                print,
                reserve,
                missing,
            }
        }
        GoalKind::Target => {
            let parts = [
                (FieldId::GoalHeight(index), height.is_some()),
                (FieldId::GoalDistance(index), distance.is_some()),
                (FieldId::GoalReserve(index), reserve.is_some()),
            ];
            let missing = parts.iter().filter(|(_, there)| !there).map(|(field, _)| *field).collect();
            let asked = height.zip(distance).zip(reserve).map(|((height, distance), reserve)| {
                demand(Goal::Target(Target { height, distance, reserve }))
            });
            GoalAnswer { name, demand: asked, width, print, reserve, missing }
        }
    }
}

/// Boxes that hold only words.
pub(super) fn words(reader: &mut Reader<'_>) {
    for field in [FieldId::Label, FieldId::PersonNotes, FieldId::OrderNotes] {
        reader.words(field);
    }
}
