//! The digest changes with what a sheet depends on, and with nothing else.

use super::of;
use crate::reading::case;
use arcminute_web::model::answer::Answer;
use arcminute_web::model::draft::{CarrierChoice, Draft, EyeChoice, FirstChoice, Paper, PlacementChoice};
use arcminute_web::model::field::FieldId;
use arcminute_web::model::list::{self, Column, Value};
use arcminute_web::model::sheets::{Inputs, SheetKind, sheet};

/// What changes, and how.
type Change = (&'static str, fn(&mut Draft));

fn digest(kind: SheetKind, draft: &Draft) -> String {
    of(kind, draft).digest
}

/// What the order does not depend on: how it is printed, what is only looked at, and what the other sheets say.
#[test]
fn the_order_keeps_its_digest_when_something_else_changes() {
    let good = case("adult-20-160");
    let order = digest(SheetKind::Order, &good);
    let changes: [Change; 11] = [
        ("an aid that is only looked at", |d| d.bench.aid = "hand-12".into()),
        ("what comes first on Bench", |d| d.bench.first = FirstChoice::Light),
        ("paper", |d| d.order.paper = Paper::Letter),
        ("large print", |d| d.order.large_print = true),
        ("follow-up", |d| d.order.follow_up = "In May".into()),
        ("notes for the person", |d| d.order.person_notes = "Call us".into()),
        ("notes for the school", |d| d.order.school_notes = "Front row".into()),
        ("what was delivered", |d| d.order.delivered_right = "-1.00".into()),
        ("what was delivered, left", |d| d.order.delivered_left = "-1.00".into()),
        ("what was reached", |d| d.trial.acuity = "20/50".into()),
        ("notes on the trial", |d| d.trial.notes = "Tired".into()),
    ];
    for (what, change) in changes {
        let mut other = good.clone();
        change(&mut other);
        assert_ne!(other, good, "{what} is another case");
        assert_eq!(digest(SheetKind::Order, &other), order, "{what} changes the order");
    }
}

#[test]
fn the_order_has_another_digest_when_it_changes() {
    let good = case("adult-20-160");
    let order = digest(SheetKind::Order, &good);
    let mut seen = vec![order];
    let changes: [Change; 8] = [
        ("label", |d| d.label = "OTHER".into()),
        ("eye", |d| d.bench.eye = EyeChoice::Left),
        ("telescope", |d| d.bench.telescope = "k40-10".into()),
        ("near spectacles looked at, which Fit then is about", |d| d.bench.aid = "high-plus".into()),
        ("placement", |d| d.fit.placement = PlacementChoice::Highest),
        ("carrier", |d| d.fit.carrier = CarrierChoice::SingleVision),
        ("strap", |d| d.order.head_strap = !d.order.head_strap),
        ("refraction", |d| d.person.right.refraction = "-1.25 -0.50 x 180".into()),
    ];
    for (what, change) in changes {
        let mut other = good.clone();
        change(&mut other);
        let digest = digest(SheetKind::Order, &other);
        assert!(!seen.contains(&digest), "{what} leaves the order as it was");
        seen.push(digest);
    }
}

/// Every box is digested by the summary, and all but those of other sheets by the order.
#[test]
fn every_box_counts() {
    let good = case("adult-20-160");
    let of_other_sheets = |field: FieldId| {
        matches!(
            field,
            FieldId::FollowUp
                | FieldId::PersonSheetNotes
                | FieldId::SchoolNotes
                | FieldId::Delivered(_)
                | FieldId::TrialAcuity
                | FieldId::TrialPrint
                | FieldId::TrialBeside
                | FieldId::TrialNotes
        )
    };
    let (order, summary) = (digest(SheetKind::Order, &good), digest(SheetKind::Summary, &good));
    for field in FieldId::all(good.goals.len()) {
        let mut other = good.clone();
        field.set_text(&mut other, "1.75".into());
        assert_ne!(digest(SheetKind::Summary, &other), summary, "{field:?} on the summary");
        assert_eq!(
            digest(SheetKind::Order, &other) == order,
            of_other_sheets(field),
            "{field:?} on the order"
        );
    }
}

/// A list that says something else of the aid gives another order, and one that says something else of another aid does not.
#[test]
fn what_the_list_says_of_the_aid_counts() {
    let draft = case("adult-20-160");
    let order = digest(SheetKind::Order, &draft);
    for (id, same) in [("k40-13", false), ("k40-10", true)] {
        let mut list = list::demo().list.clone();
        let aid = list.iter_mut().find(|aid| aid.id == id).expect("it is in the list");
        aid.say(Column::Weight, Value::Number(99.0));
        let answer = Answer::of(&draft);
        let sheet = sheet(SheetKind::Order, &Inputs::new(&draft, &answer, &list, ""));
        assert_eq!(sheet.digest == order, same, "{id}");
    }
}

/// The delivery check names the order that it is about.
#[test]
fn the_delivery_check_names_the_digest_of_its_order() {
    let mut draft = case("adult-20-160");
    let order = digest(SheetKind::Order, &draft);
    draft.order.delivered_right = "-1.00 -0.50 x 178 add +2.50".into();
    let check = of(SheetKind::Delivery, &draft);
    assert_eq!(super::line(&check, "Order with the inputs"), order, "what was ordered has not changed");
    assert_ne!(check.digest, order, "what came is digested too");
}
