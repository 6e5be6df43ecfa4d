//! Fit: where it sits in the carrier lens.

use super::trial::Trial;
use super::{Heading, Next, choose};
use crate::model::answer::{Answer, FitAnswer};
use crate::model::draft::{CarrierChoice, EyeChoice, PlacementChoice};
use crate::model::field::FieldId;
use crate::model::shown::{self, CheckShown};
use crate::model::summary;
use crate::model::words::{PRACTICE, Where};
use crate::platform;
use crate::plot::{Drawing, frame_front};
use crate::ui::{
    Cautions, Entry, Missing, Part, Picture, Place, Working, facts, items, live, use_case, when, words,
};
use arcminute_core::explain::Explain;
use arcminute_core::fit::Severity;
use leptos::prelude::*;

/// The frame as the examiner sees it.
pub(super) fn front(answer: &Answer) -> Option<Drawing> {
    let FitAnswer::Done(done) = &answer.fit else { return None };
    Some(frame_front(&done.request.frame, &[done.mounting]))
}

/// The side of one eye alone, for a page too narrow to read both.
fn one_side(mut drawing: Drawing, eye: EyeChoice) -> Drawing {
    const PAST_THE_BRIDGE: f64 = 8.0;
    // For a reader who sets letters wider apart.
    const BESIDE_THE_MEASURE: f64 = 5.0;
    let all = drawing.view_box;
    drawing.view_box.width = all.width / 2.0 + PAST_THE_BRIDGE + BESIDE_THE_MEASURE;
    drawing.view_box.x = match eye {
        EyeChoice::Right => all.x - BESIDE_THE_MEASURE,
        EyeChoice::Left => -PAST_THE_BRIDGE,
    };
    drawing.shapes.retain(|shape| !matches!(shape.class(), "caption" | "scale-bar"));
    drawing
}

/// The frame, the numbers to mark, and the checks with their ways out.
#[component]
pub fn FitPlace() -> impl IntoView {
    view! {
        <Heading place=Place::Fit purpose="Where the eyepiece sits in the carrier lens: numbers to mark and order, checked against the frame."/>
        <Verdict/>
        <div class="fit-columns">
            <div class="fit-inputs"><Measures/></div>
            <div class="fit-results"><Result/></div>
        </div>
        <Cautions places=vec![Where::Fit, Where::Telescope]/>
        <Practice/>
        <Trial/>
        <Next to=Place::Sheets label="On to the sheets"/>
    }
    .into_any()
}

#[component]
fn Verdict() -> impl IntoView {
    let case = use_case();
    let verdict = case
        .of_answer(|answer| match &answer.fit {
            FitAnswer::Waiting(_) => "The fit is not decided yet.".to_owned(),
            FitAnswer::Impossible(error) => format!("The fit is refused: {error}; {}.", error.hint()),
            FitAnswer::Done(done) => summary::verdict(done.verdict).to_owned(),
        })
        .signal();
    let ways = case.of_answer(|answer| {
        let refused =
            shown::checks(&answer.fit).into_iter().filter(|check| check.severity == Severity::Refuse);
        let mut ways: Vec<String> = Vec::new();
        for way in refused.flat_map(|check| check.ways) {
            if !ways.contains(&way) {
                ways.push(way);
            }
        }
        ways
    });
    let missing = case.of_answer(|answer| match &answer.fit {
        FitAnswer::Waiting(missing) => missing.clone(),
        FitAnswer::Impossible(_) | FitAnswer::Done(_) => Vec::new(),
    });
    view! {
        <p class="answer" id="fit-verdict">{verdict}</p>
        {live(move || {
            let ways = ways.get();
            (!ways.is_empty()).then(|| view! { <p>"What would do:"</p> <ul id="fit-ways">{items(ways)}</ul> }.into_any())
        })}
        {live(move || {
            let missing = missing.get();
            (!missing.is_empty()).then(|| view! { <p>"Still needed:"</p> <Missing fields=missing/> }.into_any())
        })}
    }
    .into_any()
}

#[component]
fn Measures() -> impl IntoView {
    let case = use_case();
    let carrier = case.of_draft(move |draft| draft.fit.carrier);
    let eye = case.of_draft(move |draft| draft.bench.eye);
    let of_eye = live(move || {
        let of = |make| FieldId::of_eye(make, eye.get());
        view! {
            <p>"The telescope is for the " <strong>{eye.get().label()}</strong> " (chosen on Bench)."</p>
            <div class="row"><Entry field=of(FieldId::Pd)/><Entry field=of(FieldId::PupilHeight)/></div>
        }
        .into_any()
    });
    let segment = when(
        move || matches!(carrier.get(), CarrierChoice::Bifocal | CarrierChoice::Trifocal),
        || view! { <Entry field=FieldId::SegmentHeight/><Entry field=FieldId::SegmentGap/> }.into_any(),
    );
    view! {
        <section aria-labelledby="face">
            <h2 id="face">"Face"</h2>
            {of_eye}
            <div class="row"><Entry field=FieldId::PdBoth/><Entry field=FieldId::RotationDepth/></div>
        </section>
        <section aria-labelledby="frame-measures">
            <h2 id="frame-measures">"Frame"</h2>
            <div class="row">
                <Entry field=FieldId::BoxWidth/>
                <Entry field=FieldId::BoxHeight/>
                <Entry field=FieldId::Bridge/>
                <Entry field=FieldId::EffectiveDiameter/>
                <Entry field=FieldId::Pantoscopic/>
            </div>
        </section>
        <section aria-labelledby="mounting">
            <h2 id="mounting">"Mounting"</h2>
            {choose!(case, "placement", "Height of the eyepiece", PlacementChoice, fit.placement)}
            {choose!(case, "carrier", "Carrier lens", CarrierChoice, fit.carrier)}
            <div class="row">{segment}</div>
            <div class="row">
                <Entry field=FieldId::Barrel/>
                <Entry field=FieldId::Play/>
                <Entry field=FieldId::LeastWeb/>
                <Entry field=FieldId::OrderedTilt/>
            </div>
        </section>
    }
    .into_any()
}

#[component]
fn Result() -> impl IntoView {
    let case = use_case();
    let narrow = platform::narrow();
    let picture = Part::new(move || {
        let drawing = front(&case.answer.read());
        if narrow.get() {
            drawing.map(|drawing| one_side(drawing, case.draft.read().bench.eye))
        } else {
            drawing
        }
    });
    let marks = case.of_answer(|answer| shown::marks(&answer.fit));
    let checks = case.of_answer(|answer| shown::checks(&answer.fit));
    let steps = case.of_answer(|answer| match &answer.fit {
        FitAnswer::Done(done) => done.mounting.steps(),
        FitAnswer::Waiting(_) | FitAnswer::Impossible(_) => Vec::new(),
    });
    let assumed =
        case.of_answer(|answer| matches!(&answer.fit, FitAnswer::Done(done) if done.corner_assumed));
    view! {
        {when(move || !marks.get().is_empty(), move || view! {
            <section aria-labelledby="to-mark">
                <h2 id="to-mark">"To mark and order"</h2>
                <Picture key="front-picture" drawing=picture fold_words=true/>
                <dl class="facts">{live(move || facts(marks.get()))}</dl>
                {when(
                    move || assumed.get(),
                    || view! { <p class="unusual">"No effective diameter was given: corners rounded by 8 mm are assumed. The web near a corner depends on it."</p> }.into_any(),
                )}
                <h2>"Checks"</h2>
                <ul class="checks" id="fit-checks">{live(move || list(checks.get(), false))}</ul>
                <details class="limits">
                    <summary>{words(move || passed(&checks.get()))}</summary>
                    <ul class="checks">{live(move || list(checks.get(), true))}</ul>
                </details>
                <Working key="fit-working" of="the fit" steps=steps/>
            </section>
        }.into_any())}
    }
    .into_any()
}

/// The checks that pass, or those that do not.
fn list(checks: Vec<CheckShown>, passing: bool) -> AnyView {
    let wanted = checks.into_iter().filter(|check| (check.severity == Severity::Pass) == passing);
    wanted.map(one_check).collect_view().into_any()
}

fn passed(checks: &[CheckShown]) -> String {
    let passed = checks.iter().filter(|check| check.severity == Severity::Pass).count();
    format!("{passed} of {} checks in order", checks.len())
}

fn one_check(check: CheckShown) -> AnyView {
    let class = match check.severity {
        Severity::Pass => "pass",
        Severity::Warning => "warning",
        Severity::Refuse => "refuse",
    };
    // What would mend a refusal stands at the top of the place, once.
    let ways = if check.severity == Severity::Refuse { Vec::new() } else { check.ways };
    let ways = items(ways);
    view! {
        <li class=class>
            <strong>{check.severity_words}": "</strong> {check.title} ": " {check.sentence} <p class="source">{check.basis}</p>
            <ul>{ways}</ul>
        </li>
    }
    .into_any()
}

#[component]
fn Practice() -> impl IntoView {
    let list = items(PRACTICE.iter().map(|line| (*line).to_owned()).collect());
    view! {
        <details class="limits"><summary>"What the trade does (common practice, no source)"</summary><ul>{list}</ul></details>
    }
    .into_any()
}
