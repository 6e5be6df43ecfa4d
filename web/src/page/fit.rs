//! Fit: where it sits in the carrier lens.

use super::{Heading, Next, choice, options};
use crate::model::answer::{Answer, FitAnswer};
use crate::model::draft::{CarrierChoice, PlacementChoice};
use crate::model::field::FieldId;
use crate::model::shown::{self, CheckShown};
use crate::model::summary;
use crate::model::words::{PRACTICE, Where};
use crate::plot::{Drawing, frame_front};
use crate::ui::{Cautions, Choice, Entry, Fact, Missing, Picture, Place, Working, use_case};
use arcminute_core::explain::Explain;
use arcminute_core::fit::Severity;
use leptos::prelude::*;

/// The frame as the examiner sees it.
pub(super) fn front(answer: &Answer) -> Option<Drawing> {
    let FitAnswer::Done(done) = &answer.fit else { return None };
    Some(frame_front(&done.request.frame, &[done.mounting]))
}

/// The frame, the numbers to mark, and the checks with their ways out.
#[component]
pub fn FitPlace() -> impl IntoView {
    view! {
        <Heading place=Place::Fit purpose="Where the eyepiece sits in the carrier lens: numbers to mark and order, checked against the frame."/>
        <Verdict/>
        <Measures/>
        <Result/>
        <Cautions places=&[Where::Fit, Where::Telescope]/>
        <Practice/>
        <Next to=Place::Sheets label="On to the sheets"/>
    }
    .into_any()
}

#[component]
fn Verdict() -> impl IntoView {
    let case = use_case();
    let verdict = case.of_answer(|answer| match &answer.fit {
        FitAnswer::Waiting(_) => "The fit is not decided yet.".to_owned(),
        FitAnswer::Impossible(error) => format!("The fit is refused: {error}; {}.", error.hint()),
        FitAnswer::Done(done) => summary::verdict(done.verdict).to_owned(),
    });
    let ways = case.of_answer(|answer| {
        let refused = shown::checks(&answer.fit).into_iter().filter(|check| check.severity == Severity::Refuse);
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
        <Show when=move || !ways.read().is_empty()>
            <p>"What would do:"</p>
            <ul id="fit-ways">{move || ways.get().into_iter().map(|way| view! { <li>{way}</li> }).collect_view()}</ul>
        </Show>
        <Show when=move || !missing.read().is_empty()>
            <p>"Still needed:"</p>
            {move || view! { <Missing fields=missing.get()/> }}
        </Show>
    }
    .into_any()
}

#[component]
fn Measures() -> impl IntoView {
    let case = use_case();
    let (placement, set_placement) = choice(case, |d| d.fit.placement, |d, value| d.fit.placement = value);
    let (carrier, set_carrier) = choice(case, |d| d.fit.carrier, |d, value| d.fit.carrier = value);
    let eye = Memo::new(move |_| case.draft.read().bench.eye);
    let of_eye = move || {
        let of = |make| FieldId::of_eye(make, eye.get());
        view! {
            <p>"The telescope is for the " <strong>{eye.get().label()}</strong> " (chosen on Bench)."</p>
            <div class="row"><Entry field=of(FieldId::Pd)/><Entry field=of(FieldId::PupilHeight)/></div>
        }
    };
    let segment = move || {
        matches!(carrier.get(), CarrierChoice::Bifocal | CarrierChoice::Trifocal)
            .then(|| view! { <Entry field=FieldId::SegmentHeight/><Entry field=FieldId::SegmentGap/> })
    };
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
            <Choice key="placement" legend="Height of the eyepiece" options=options!(PlacementChoice) chosen=placement on_choose=set_placement/>
            <Choice key="carrier" legend="Carrier lens" options=options!(CarrierChoice) chosen=carrier on_choose=set_carrier/>
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
    let marks = case.of_answer(|answer| shown::marks(&answer.fit));
    let checks = case.of_answer(|answer| shown::checks(&answer.fit));
    let steps = case.of_answer(|answer| match &answer.fit {
        FitAnswer::Done(done) => done.mounting.steps(),
        FitAnswer::Waiting(_) | FitAnswer::Impossible(_) => Vec::new(),
    });
    let assumed = case.of_answer(|answer| matches!(&answer.fit, FitAnswer::Done(done) if done.corner_assumed));
    let marks_shown = move || {
        marks
            .get()
            .into_iter()
            .map(|mark| view! { <Fact key=mark.key what=mark.what value=mark.value note=mark.note/> })
            .collect_view()
    };
    view! {
        <Show when=move || !marks.read().is_empty()>
            <section aria-labelledby="to-mark">
                <h2 id="to-mark">"To mark and order"</h2>
                <dl class="facts">{marks_shown}</dl>
                <Picture key="front-picture" drawing=case.of_answer(front)/>
                <Show when=move || assumed.get()>
                    <p class="unusual">"No effective diameter was given: corners rounded by 8 mm are assumed. The web near a corner depends on it."</p>
                </Show>
                <h2>"Checks"</h2>
                <ul class="checks" id="fit-checks">{move || checks.get().into_iter().map(one_check).collect_view()}</ul>
                <Working key="fit-working" of="the fit" steps=steps/>
            </section>
        </Show>
    }
    .into_any()
}

fn one_check(check: CheckShown) -> impl IntoView {
    let class = match check.severity {
        Severity::Pass => "pass",
        Severity::Warning => "warning",
        Severity::Refuse => "refuse",
    };
    let ways = check.ways.into_iter().map(|way| view! { <li>{way}</li> }).collect_view();
    view! {
        <li class=class>
            <strong>{check.severity_words}": "</strong> {check.title} " " <span class="found">{check.sentence}</span>
            <ul>{ways}</ul>
        </li>
    }
}

#[component]
fn Practice() -> impl IntoView {
    let list = PRACTICE.iter().map(|line| view! { <li>{*line}</li> }).collect_view();
    view! {
        <details class="limits"><summary>"What the trade does (common practice, no source)"</summary><ul>{list}</ul></details>
    }
    .into_any()
}
