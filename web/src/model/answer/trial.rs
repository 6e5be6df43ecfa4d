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

#[cfg(test)]
mod tests {
    use crate::model::answer::Answer;
    use crate::model::draft::{Draft, GoalDraft, GoalKind};
    use crate::model::field::FieldId;

    /// Boxes that the trial waits for, and how many boxes the page counts as unusable.
    fn open(draft: &Draft) -> (Vec<FieldId>, usize) {
        let answer = Answer::of(draft);
        let said = answer.undecided.iter().filter(|item| item.what == "what the trial says");
        (said.flat_map(|item| item.waits_for.clone()).collect(), answer.troubles())
    }

    #[test]
    fn only_the_box_of_the_goal_that_is_served_can_be_in_trouble() {
        let mut draft = Draft::default();
        draft.goals.push(GoalDraft { kind: GoalKind::Print, print: "1 M".into(), ..GoalDraft::default() });
        assert_eq!(open(&draft), (vec![], 0), "nothing was typed");
        draft.trial.print = "?".into();
        assert_eq!(open(&draft), (vec![], 0), "an acuity is served");
        draft.trial.acuity = "CF 1 m".into();
        assert_eq!(open(&draft), (vec![FieldId::TrialAcuity], 1), "a category has no size");
        draft.bench.goal = 1;
        assert_eq!(open(&draft), (vec![FieldId::TrialPrint], 1), "print is served");
        draft.trial.beside_deg = "90".into();
        assert_eq!(open(&draft), (vec![FieldId::TrialPrint, FieldId::TrialBeside], 2));
    }
}
