//! The table of boxes.

use super::*;
use crate::model::draft::GoalDraft;

#[test]
fn every_box_has_a_key_of_its_own_and_reads_back_what_was_put_in() {
    let mut draft = Draft { goals: vec![GoalDraft::default(), GoalDraft::default()], ..Draft::default() };
    let all = FieldId::all(2);
    for field in &all {
        field.set_text(&mut draft, field.info().key);
    }
    let keys: std::collections::BTreeSet<_> = all.iter().map(|field| field.info().key).collect();
    assert_eq!(keys.len(), all.len(), "a key stands twice");
    for field in &all {
        assert_eq!(field.text(&draft), field.info().key, "{field:?} does not read back");
    }
}

#[test]
fn what_is_assumed_for_an_empty_box_is_possible_and_usual() {
    for field in FieldId::all(1) {
        let info = field.info();
        if let (Some(assumed), Kind::Length(bound) | Kind::Number(bound)) = (info.assumed, info.kind) {
            assert_eq!(bound.check(assumed), Ok(assumed), "{field:?}");
            assert!(!bound.is_unusual(assumed), "{field:?} assumes the unusual {assumed}");
        }
    }
}

/// A box that no kind of goal shows could never be filled, and one in two places would stand twice on the page.
#[test]
fn every_box_of_a_goal_is_shown_by_some_kind_and_by_none_twice() {
    use crate::model::draft::GoalKind;
    let mut shown = std::collections::BTreeSet::new();
    for kind in GoalKind::ALL {
        let Boxes { first, more } = boxes(*kind);
        let here: Vec<FieldId> = first.iter().chain(more).map(|make| make(0)).collect();
        let once: std::collections::BTreeSet<_> = here.iter().copied().collect();
        assert_eq!(once.len(), here.len(), "{kind:?} shows a box twice");
        shown.extend(once);
    }
    let all: std::collections::BTreeSet<_> = goal::ALL.iter().map(|make| make(0)).collect();
    let mut missing = all.difference(&shown);
    assert_eq!(missing.next(), Some(&FieldId::GoalName(0)), "the name stands above the kind");
    assert_eq!(missing.next(), None);
    assert!(
        FieldId::GoalAcuity(0).is_of(GoalKind::Acuity) && !FieldId::GoalHeight(0).is_of(GoalKind::Acuity)
    );
    assert!(
        !FieldId::GoalAcuity(1).is_of(GoalKind::Letters) && FieldId::GoalHeight(1).is_of(GoalKind::Letters)
    );
    assert!(
        FieldId::GoalName(0).is_of(GoalKind::Face) && FieldId::Vertex.is_of(GoalKind::Face),
        "whatever the kind"
    );
}
