//! What was reached at a trial, understood.

use super::goals::acuity;
use super::reader::Reader;
use crate::model::field::FieldId;
use arcminute_core::unit::{Angle, Length, LogMar};

/// What was reached at a trial.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct TrialAnswer {
    /// Acuity, for a thing at a distance.
    pub acuity: Option<LogMar>,
    /// Height of the print, for print to read.
    pub print: Option<Length>,
    /// Fovea to the place looked with.
    pub beside: Option<Angle>,
}

pub(super) fn trial(reader: &mut Reader<'_>) -> TrialAnswer {
    reader.words(FieldId::TrialNotes);
    TrialAnswer {
        acuity: acuity(reader, FieldId::TrialAcuity),
        print: reader.print(FieldId::TrialPrint).map(|sized| sized.height),
        beside: reader.number(FieldId::TrialBeside).map(Angle::from_degrees),
    }
}
