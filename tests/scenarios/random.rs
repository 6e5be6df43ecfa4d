//! Any case that may be typed: plausible entries and junk, mixed.

use crate::working::{disagreeing, not_numbers, reported, steps};
use arcminute_web::model::answer::{Answer, FieldState};
use arcminute_web::model::draft::{
    BareAcuity, CarrierChoice, CorrectionChoice, Draft, EyeChoice, FellowChoice, FilterChoice, GoalDraft,
    GoalKind, Hands, HowWell, Paper, PlacementChoice, Posture, Priority, TiltFrom,
};
use arcminute_web::model::field::{FieldId, Kind};
use arcminute_web::model::report::report;
use arcminute_web::model::{case_file, devices, entry, shown, summary};
use proptest::collection::vec;
use proptest::prelude::*;
use proptest::sample::{Index, select};
use std::collections::BTreeMap;

/// Junk that a box refuses.
const JUNK: &str = "?!";

/// A number as one writes it, with a unit or without.
fn number(low: f64, high: f64, unit: &'static str) -> BoxedStrategy<String> {
    let inside = (low..=high, 0usize..3).prop_map(|(value, places)| format!("{value:.places$}"));
    let wide = (2.0 * low - high..2.0 * high - low).prop_map(|value| format!("{value:.1}"));
    prop_oneof![
        6 => inside.clone(),
        1 => inside.clone().prop_map(|text| text.replace('.', ",")),
        1 => inside.prop_map(move |text| format!("{text} {unit}")),
        1 => wide,
    ]
    .boxed()
}

fn acuity() -> BoxedStrategy<String> {
    prop_oneof![
        4 => (select(vec![20, 400, 160, 200, 63, 1000]), -3i8..=3).prop_map(|(below, letters)| match letters {
            0 => format!("20/{below}"),
            _ => format!("20/{below}{letters:+}"),
        }),
        2 => (1u32..200).prop_map(|below| format!("6/{below}")),
        2 => (-0.3..2.0_f64).prop_map(|log| format!("{log:.2} logMAR")),
        1 => (0u32..105).prop_map(|letters| format!("{letters} letters")),
        1 => (0.01..1.5_f64).prop_map(|bare| format!("{bare:.2}")),
        1 => select(vec!["CF 1 m", "HM", "LP", "NLP", "0", "1,250", "20/"]).prop_map(str::to_owned),
    ]
    .boxed()
}

fn refraction() -> BoxedStrategy<String> {
    let quarter = |range: std::ops::RangeInclusive<i32>| range.prop_map(|steps| f64::from(steps) / 4.0);
    prop_oneof![
        3 => quarter(-80..=60).prop_map(|sphere| format!("{sphere:+.2}")),
        3 => (quarter(-80..=60), quarter(-24..=24), 1u32..=180)
            .prop_map(|(sphere, cylinder, axis)| format!("{sphere:+.2} {cylinder:+.2} x {axis:03}")),
        1 => select(vec!["plano", "-2.00 -1.50", "200", "+1.00 add +2.50"]).prop_map(str::to_owned),
    ]
    .boxed()
}

fn print() -> BoxedStrategy<String> {
    prop_oneof![
        3 => (0.2..20.0_f64).prop_map(|size| format!("{size:.1} M")),
        1 => (3u32..90).prop_map(|size| format!("N{size}")),
        1 => (4u32..90).prop_map(|points| format!("{points} pt Times")),
        1 => (0.3..30.0_f64).prop_map(|height| format!("{height:.2} mm")),
        1 => select(vec!["8", "12 pt", "20/50", "20/50 at 40 cm", "J5", "0,4/1,6 M"]).prop_map(str::to_owned),
    ]
    .boxed()
}

/// A text for a box: empty, plausible or junk.
fn text(kind: Kind) -> BoxedStrategy<String> {
    let plausible = match kind {
        Kind::Words => "[a-z ]{0,12}".boxed(),
        Kind::Acuity => acuity(),
        Kind::Refraction => refraction(),
        Kind::Print => print(),
        Kind::Length(bound) | Kind::Number(bound) => {
            let usual = number(bound.usual.0, bound.usual.1, bound.unit);
            let possible = number(bound.possible.0, bound.possible.1, bound.unit);
            prop_oneof![4 => usual, 1 => possible].boxed()
        }
    };
    let junk = prop_oneof![any::<String>(), "[-+0-9,./x ½⁻٣'\"°a-z]{0,12}", Just("9".repeat(300))];
    prop_oneof![2 => Just(String::new()), 16 => plausible, 1 => junk].boxed()
}

/// The choices of a wish.
fn goal() -> impl Strategy<Value = GoalDraft> {
    let kinds = (select(GoalKind::ALL), select(HowWell::ALL), select(Priority::ALL));
    let shelf = select(arcminute_core::everyday::ALL).prop_map(|row| row.id.to_owned());
    let shelf = prop_oneof![4 => Just(String::new()), 1 => shelf, 1 => any::<String>()];
    let rest = (select(Hands::ALL), select(Posture::ALL), any::<[bool; 2]>(), shelf);
    (kinds, rest).prop_map(
        |((kind, how_well, priority), (hands, posture, [both_eyes, time_critical], shelf))| GoalDraft {
            kind,
            how_well,
            priority,
            hands,
            posture,
            both_eyes,
            time_critical,
            shelf,
            ..GoalDraft::default()
        },
    )
}

fn choices() -> impl Strategy<Value = Draft> {
    let telescopes: Vec<String> = devices::demo().iter().map(|device| device.id.clone()).collect();
    let telescope = prop_oneof![8 => select(telescopes), 1 => Just(String::new()), 1 => any::<String>()];
    let stock = devices::demo_stock();
    let near = stock.near_telescopes.iter().map(|device| device.id.clone());
    let worn: Vec<String> = stock.spectacles.iter().map(|one| one.id.clone()).chain(near).collect();
    let aid = prop_oneof![2 => Just(String::new()), 2 => select(worn)];
    let bench = (
        select(BareAcuity::ALL),
        select(EyeChoice::ALL),
        select(CorrectionChoice::ALL),
        0usize..4,
        (telescope, aid),
        vec(goal(), 1..=3),
    );
    let fit =
        (select(PlacementChoice::ALL), select(CarrierChoice::ALL), select(TiltFrom::ALL), any::<[bool; 2]>());
    let order =
        (select(FellowChoice::ALL), select(FilterChoice::ALL), select(Paper::ALL), any::<[bool; 3]>());
    (bench, fit, order).prop_map(|(bench, fit, order)| {
        let mut draft = Draft::default();
        (
            draft.person.bare_acuity,
            draft.bench.eye,
            draft.bench.correction,
            draft.bench.goal,
            (draft.bench.telescope, draft.bench.aid),
            draft.goals,
        ) = bench;
        let of_fit;
        (draft.fit.placement, draft.fit.carrier, draft.fit.tilt_from, of_fit) = fit;
        [draft.fit.both_eyes, draft.fit.carrier_turned] = of_fit;
        let extras;
        (draft.order.fellow, draft.order.filter, draft.order.paper, extras) = order;
        [draft.order.large_nose_pads, draft.order.head_strap, draft.order.large_print] = extras;
        draft
    })
}

/// A case as it may be typed.
pub(crate) fn any_draft() -> impl Strategy<Value = Draft> {
    choices().prop_flat_map(|draft| {
        let fields = FieldId::all(draft.goals.len());
        let texts: Vec<BoxedStrategy<String>> = fields.iter().map(|field| text(field.info().kind)).collect();
        texts.prop_map(move |texts| {
            let mut draft = draft.clone();
            for (field, text) in fields.iter().zip(texts) {
                field.set_text(&mut draft, text);
            }
            draft
        })
    })
}

/// What became of a box agrees with what stands in it: nothing typed is passed over, nothing empty is made up.
fn state_fits(field: FieldId, draft: &Draft, state: &FieldState) -> Result<(), String> {
    let info = field.info();
    let blank = entry::normalise(field.text(draft)).is_ok_and(|plain| plain.is_empty());
    let good = match (state, info.kind) {
        (FieldState::Unread, kind) => kind == Kind::Words,
        (FieldState::Empty { assumed }, _) => blank && assumed.is_some() == info.assumed.is_some(),
        (FieldState::Understood { echo, .. }, _) => !blank && !echo.is_empty(),
        (FieldState::Ask { question, choices }, _) => !blank && !question.is_empty() && !choices.is_empty(),
        (FieldState::Refused { message, hint }, _) => !blank && 2 < message.len() && 2 < hint.len(),
    };
    if good { Ok(()) } else { Err(format!("{field:?} holds {:?} and is {state:?}", field.text(draft))) }
}

/// Results of a report, without the words that quote what was typed.
fn results(draft: &Draft) -> String {
    report(draft)["results"].to_string()
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(2_000) })]

    /// Every case has an answer, in numbers and in words; its working agrees; its text is kept.
    #[test]
    fn every_case_has_an_answer_whose_working_agrees(draft in any_draft()) {
        let answer = Answer::of(&draft);
        for field in FieldId::all(draft.goals.len()) {
            prop_assert_eq!(state_fits(field, &draft, &answer.field(field)), Ok(()));
        }
        let steps = steps(&answer, draft.bench.looked_at());
        prop_assert_eq!(disagreeing(&steps), [""; 0]);
        let report = report(&draft);
        prop_assert_eq!(reported(&report), steps.len());
        prop_assert_eq!(not_numbers(&report), [""; 0]);
        let _ = (summary::sentence(&answer, None), shown::checks(&answer.fit), shown::marks(&answer.fit));
        let _ = (summary::short(&answer), shown::age_words(&answer));
        for (index, goal) in answer.goals.iter().enumerate() {
            let _ = (shown::goal_line(&answer, index), shown::goal_notes(&answer, &draft, index));
            prop_assert_eq!(shown::goal_asks(&answer, index).is_empty(), goal.demand.is_none());
            prop_assert_eq!(goal.demand.is_some(), goal.missing.is_empty(), "{:?}", goal);
            prop_assert_eq!(goal.wish().is_some(), goal.missing.is_empty());
            // The hardest end is the one that asks for most.
            let hardest = goal.ends.iter().filter(|end| end.hardest).map(|end| end.demand.to_reach);
            let most = goal.ends.iter().map(|end| end.demand.to_reach.log()).fold(f64::INFINITY, f64::min);
            prop_assert!(hardest.map(|log| log.log()).all(|log| log <= most), "{:?}", goal);
        }
        let written = case_file::write("", &draft);
        prop_assert_eq!(case_file::read(&written).map(|file| file.case), Ok(draft));
    }

    /// An entry that cannot be used does not count, whatever it is: other junk in its place changes no result. And the
    /// sheet puts nothing in the place of a prescription that cannot be used.
    #[test]
    fn what_cannot_be_used_never_becomes_a_number(draft in any_draft(), which in any::<Index>()) {
        let answer = Answer::of(&draft);
        let troubled: Vec<FieldId> =
            answer.fields.iter().filter(|(_, state)| state.is_trouble()).map(|(field, _)| field).collect();
        prop_assume!(!troubled.is_empty());
        let field = *which.get(&troubled);
        let mut junk = draft.clone();
        field.set_text(&mut junk, JUNK.into());
        prop_assert!(matches!(Answer::of(&junk).field(field), FieldState::Refused { .. }), "junk is refused");
        prop_assert_eq!(results(&draft), results(&junk), "{:?} counts", field);
        if matches!(field, FieldId::CarrierRx(_)) {
            let sheet = shown::sheet(&draft, &answer);
            prop_assert!(!sheet.blanks.is_empty(), "{:?} is on no list of blanks", field);
        }
    }
}

/// A value for a box, unlike what is assumed when it is empty.
fn another(kind: Kind, assumed: Option<f64>) -> Option<String> {
    match kind {
        Kind::Words => None,
        Kind::Acuity => Some("20/800".into()),
        Kind::Refraction => Some("+5.00 -3.00 x 045".into()),
        Kind::Print => Some("2.5 M".into()),
        Kind::Length(bound) | Kind::Number(bound) => {
            let (low, high) = bound.usual;
            Some(if assumed == Some(high) { low } else { high }.to_string())
        }
    }
}

/// Values of a report's records by key, as text; not the checks of a fit, since one without its inputs is not made.
fn by_key(draft: &Draft) -> BTreeMap<String, String> {
    let report = report(draft);
    let results = report["results"].as_array().cloned().unwrap_or_default();
    results.into_iter().map(|one| (one["key"].to_string(), one["values"].to_string())).collect()
}

/// A box that cannot be used is not taken as empty: whatever an empty box or another value would decide is left open.
#[test]
fn a_box_that_cannot_be_used_is_not_taken_as_empty() {
    let mut looked_at = 0;
    for name in crate::reading::names() {
        let case = crate::reading::case(&name);
        for field in FieldId::all(case.goals.len()) {
            let info = field.info();
            let with = |text: &str| {
                let mut draft = case.clone();
                field.set_text(&mut draft, text.into());
                by_key(&draft)
            };
            let Some(another) = another(info.kind, info.assumed) else { continue };
            let (empty, another, junk) = (with(""), with(&another), with(JUNK));
            for (key, taken) in &empty {
                let depends = another.get(key) != Some(taken);
                looked_at += usize::from(depends);
                assert!(
                    !depends || junk.get(key) != Some(taken),
                    "{name}: {field:?} is taken as empty in {key}"
                );
            }
        }
    }
    assert!(100 < looked_at, "only {looked_at} results depend on a box");
}

/// A refraction that cannot be read is not printed as none.
#[test]
fn a_prescription_that_cannot_be_used_is_a_blank_on_the_sheet() {
    let blanks = |draft: &Draft| shown::sheet(draft, &Answer::of(draft)).blanks;
    let right = "Carrier prescription, RIGHT".to_owned();
    let good = crate::reading::case("adult-20-160");
    assert!(!blanks(&good).contains(&right), "{:?}", blanks(&good));
    let mut carrier = good.clone();
    carrier.order.carrier_right = "-1.00 -0.50".into();
    assert!(blanks(&carrier).contains(&right), "the carrier's own, without its axis");
    let mut refraction = good;
    refraction.person.right.refraction = "-1.00 -0.50".into();
    assert!(blanks(&refraction).contains(&right), "the refraction, without its axis");
}
