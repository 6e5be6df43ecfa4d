//! Fit: where it sits in the carrier lens.

use super::trial::Trial;
use super::{Heading, Next, choose, yes_or_no};
use crate::model::answer::{Answer, FitAnswer};
use crate::model::draft::{CarrierChoice, EyeChoice, FellowChoice, PlacementChoice, TiltFrom};
use crate::model::field::FieldId;
use crate::model::shown::{self, CheckShown};
use crate::model::summary;
use crate::model::words::{PRACTICE, Where};
use crate::platform;
use crate::plot::{Drawing, frame_front, lay_halo, near_front};
use crate::ui::{
    Cautions, Entry, Missing, Part, Picture, Place, Tick, Working, facts, is, items, live, use_case, when,
    words,
};
use arcminute_core::fit::{Mounting, Severity};
use leptos::prelude::*;

/// The frame as the examiner sees it.
pub(super) fn front(answer: &Answer) -> Option<Drawing> {
    match &answer.fit {
        FitAnswer::Done(done) => {
            let mountings: Vec<Mounting> = done.mountings().copied().collect();
            Some(frame_front(&done.request.frame, &mountings))
        }
        FitAnswer::Near(done) => Some(near_front(&done.fit)),
        FitAnswer::Waiting(_) | FitAnswer::Impossible(_) => None,
    }
}

/// The same with how far beside the eye each eyepiece may sit.
fn front_with_halo(answer: &Answer) -> Option<Drawing> {
    let mut drawing = front(answer)?;
    if let FitAnswer::Done(done) = &answer.fit
        && let Some(alignment) = &done.alignment
    {
        let mountings: Vec<Mounting> = done.mountings().copied().collect();
        lay_halo(&mut drawing, &mountings, alignment);
    }
    Some(drawing)
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

/// How what is worn sits in its frame: numbers to mark, and the checks with their ways out.
#[component]
pub fn FitPlace() -> impl IntoView {
    let case = use_case();
    // Those of the aid that is looked at: it is the one that is fitted or tried.
    let cautions = Part::new(move || {
        let (draft, list) = (case.draft.read(), case.list.read());
        let aid = list.1.list.iter().find(|aid| aid.id == draft.bench.looked_at());
        let mut places = aid.map_or_else(|| vec![Where::Telescope], |aid| aid.cautions());
        places.insert(0, Where::Fit);
        places
    });
    view! {
        <Heading place=Place::Fit purpose="How the aid sits in its frame: numbers to mark and order, checked against the frame."/>
        <Verdict/>
        <div class="fit-columns">
            <div class="fit-inputs"><Measures/></div>
            <div class="fit-results"><Result/></div>
        </div>
        {live(move || view! { <Cautions places=cautions.get()/> }.into_any())}
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
            FitAnswer::Done(_) | FitAnswer::Near(_) => {
                answer.fit.verdict().map(summary::verdict).unwrap_or_default().to_owned()
            }
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
        FitAnswer::Impossible(_) | FitAnswer::Done(_) | FitAnswer::Near(_) => Vec::new(),
    });
    let about = case.of_answer(shown::fit_is_of).signal();
    view! {
        <p id="fit-is-of">{about}</p>
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
    let spectacles = case.of_answer(|answer| answer.worn_spectacles.is_some());
    let telescope = move || !spectacles.get();
    view! {
        <section aria-labelledby="face">
            <h2 id="face">"Face"</h2>
            <Face/>
            <div class="row"><Entry field=FieldId::PdBoth/><Entry field=FieldId::RotationDepth/></div>
            <div class="row"><Entry field=FieldId::FromLens/></div>
        </section>
        <section aria-labelledby="frame-measures">
            <h2 id="frame-measures">"Frame"</h2>
            <div class="row">
                <Entry field=FieldId::BoxWidth/>
                <Entry field=FieldId::BoxHeight/>
                <Entry field=FieldId::Bridge/>
                <Entry field=FieldId::EffectiveDiameter/>
                <Entry field=FieldId::Pantoscopic/>
                <Entry field=FieldId::FaceForm/>
                <Entry field=FieldId::WornVertex/>
                <Entry field=FieldId::FrontWeight/>
            </div>
        </section>
        <section aria-labelledby="mounting">
            <h2 id="mounting">"Mounting"</h2>
            {when(telescope, || view! { <Mount/> }.into_any())}
            {when(move || spectacles.get(), move || view! {
                {choose!(case, "fellow-fit", "The other eye", FellowChoice, order.fellow)}
                <div class="row"><Entry field=FieldId::BaseIn/></div>
            }.into_any())}
        </section>
    }
    .into_any()
}

/// PD and pupil height of the eyes that are fitted.
#[component]
fn Face() -> impl IntoView {
    let case = use_case();
    let eye = case.of_draft(move |draft| draft.bench.eye);
    let both = case.of_answer(|answer| answer.fits_both_eyes);
    live(move || {
        let eye = eye.get();
        let eyes = if both.get() { vec![eye, eye.other()] } else { vec![eye] };
        let rows = eyes.into_iter().map(|eye| {
            let of = |make| FieldId::of_eye(make, eye);
            view! { <div class="row"><Entry field=of(FieldId::Pd)/><Entry field=of(FieldId::PupilHeight)/></div> }
                .into_any()
        });
        rows.collect_view()
    })
}

/// What is asked of a telescope in a carrier lens.
#[component]
fn Mount() -> impl IntoView {
    let case = use_case();
    let carrier = case.of_draft(move |draft| draft.fit.carrier);
    let by_hand = case.of_draft(|draft| draft.fit.placement == PlacementChoice::ByHand);
    let tilted = case.of_draft(|draft| !draft.fit.ordered_tilt_deg.trim().is_empty());
    let (both, set_both) = yes_or_no(case, |d| d.fit.both_eyes, |d, value| d.fit.both_eyes = value);
    let (turned, set_turned) =
        yes_or_no(case, |d| d.fit.carrier_turned, |d, value| d.fit.carrier_turned = value);
    let segment = when(
        move || matches!(carrier.get(), CarrierChoice::Bifocal | CarrierChoice::Trifocal),
        || {
            let boxes =
                [FieldId::SegmentHeight, FieldId::SegmentGap, FieldId::SegmentWidth, FieldId::SegmentInset];
            boxes.map(|field| view! { <Entry field=field/> }.into_any()).collect_view()
        },
    );
    view! {
        <Tick key="both-telescopes" label="A telescope before each eye" on=both on_tick=set_both/>
        {choose!(case, "placement", "Height of the eyepiece", PlacementChoice, fit.placement)}
        {when(move || by_hand.get(), || view! {
            <div class="row"><Entry field=FieldId::EyepieceAcross/><Entry field=FieldId::EyepieceUp/></div>
        }.into_any())}
        {choose!(case, "carrier", "Carrier lens", CarrierChoice, fit.carrier)}
        <div class="row">{segment}</div>
        <Tick key="carrier-turned" label="The carrier lens was turned for drilling" on=turned on_tick=set_turned/>
        <div class="row">
            <Entry field=FieldId::Barrel/>
            <Entry field=FieldId::Play/>
            <Entry field=FieldId::LeastWeb/>
            <Entry field=FieldId::OrderedTilt/>
            <Entry field=FieldId::Cap/>
        </div>
        {when(move || tilted.get(), move || view! {
            {choose!(case, "tilt-from", "The tilt ordered by hand is measured", TiltFrom, fit.tilt_from)}
        }.into_any())}
    }
    .into_any()
}

#[component]
fn Result() -> impl IntoView {
    let case = use_case();
    let narrow = platform::narrow();
    let picture = Part::new(move || {
        let drawing = front_with_halo(&case.answer.read());
        if narrow.get() {
            drawing.map(|drawing| one_side(drawing, case.draft.read().bench.eye))
        } else {
            drawing
        }
    });
    let marks = case.of_answer(|answer| shown::marks(&answer.fit));
    let checks = case.of_answer(|answer| shown::checks(&answer.fit));
    let steps = case.of_answer(|answer| shown::fit_steps(&answer.fit));
    let assumed = case.of_answer(|answer| answer.fit.corner_assumed());
    let movable = case.of_answer(|answer| matches!(answer.fit, FitAnswer::Done(_)));
    view! {
        {when(move || !marks.get().is_empty(), move || view! {
            <section aria-labelledby="to-mark">
                <h2 id="to-mark">"To mark and order"</h2>
                <Picture key="front-picture" drawing=picture fold_words=true with_grips=true/>
                <p class="help" hidden=is(move || !movable.get())>"Drag pupil, eyepiece or segment, or move them with the arrow keys: 0.5 mm a step, with Shift 0.1 mm. The boxes follow."</p>
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
