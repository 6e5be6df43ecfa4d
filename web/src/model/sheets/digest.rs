//! The short digest of what a sheet depends on.

use super::{Inputs, SheetKind};
use crate::model::case_file;
use crate::model::draft::{BenchDraft, Draft, FirstChoice, FitDraft, OrderDraft, TrialDraft};
use crate::model::list::write_json;
use sha2::{Digest, Sha256};

/// Eight hexadecimal digits that change when anything changes that the sheet depends on: what was typed and chosen for
/// it, and what the list says of its aid. What is only looked at, and how it is printed, is left out.
pub(super) fn of(kind: SheetKind, inputs: &Inputs<'_>) -> String {
    let mut text = case_file::write(kind.label(), &relevant(kind, inputs.draft));
    if let Some(aid) = inputs.aid_of(kind) {
        text.push_str(&write_json("", std::slice::from_ref(aid)));
    }
    let bytes = Sha256::digest(text.as_bytes());
    bytes.iter().take(4).map(|byte| format!("{byte:02x}")).collect()
}

/// The part of the case that a sheet depends on.
fn relevant(kind: SheetKind, draft: &Draft) -> Draft {
    let mut part = draft.clone();
    let order = &draft.order;
    // The aid of the sheet is digested by what the list says of it.
    let first = if kind == SheetKind::Summary { draft.bench.first } else { FirstChoice::default() };
    part.bench = BenchDraft { aid: String::new(), telescope: String::new(), first, ..draft.bench.clone() };
    let for_person = OrderDraft {
        follow_up: order.follow_up.clone(),
        person_notes: order.person_notes.clone(),
        ..OrderDraft::default()
    };
    part.order = match kind {
        SheetKind::Order => OrderDraft {
            follow_up: String::new(),
            person_notes: String::new(),
            school_notes: String::new(),
            delivered_right: String::new(),
            delivered_left: String::new(),
            ..order.clone()
        },
        SheetKind::Delivery => OrderDraft {
            follow_up: String::new(),
            person_notes: String::new(),
            school_notes: String::new(),
            ..order.clone()
        },
        SheetKind::Trial => OrderDraft::default(),
        SheetKind::Person => for_person,
        SheetKind::School => {
            OrderDraft { person_notes: String::new(), school_notes: order.school_notes.clone(), ..for_person }
        }
        SheetKind::Summary => order.clone(),
    };
    part.order.paper = OrderDraft::default().paper;
    part.order.large_print = false;
    if matches!(kind, SheetKind::Trial | SheetKind::Person | SheetKind::School) {
        part.fit = FitDraft::default();
    }
    if !matches!(kind, SheetKind::Trial | SheetKind::Summary) {
        part.trial = TrialDraft::default();
    }
    part
}
