//! Person: what was measured.

use super::{Heading, Next, choose};
use crate::model::draft::{BareAcuity, EyeChoice};
use crate::model::field::FieldId;
use crate::model::words::INTENDED_USE;
use crate::model::{format, shown};
use crate::ui::{Entry, Missing, Place, is, live, use_case};
use arcminute_core::acuity::retest::{self, RetestLimit};
use leptos::prelude::*;

/// The published retest limits that are offered: from what is hoped for at best to a month between two visits.
static OFFERED: [&RetestLimit; 4] = [
    &retest::TRAINED_NORMAL,
    &retest::LEGALLY_BLIND,
    &retest::MACULAR_DEGENERATION,
    &retest::MACULAR_DEGENERATION_MONTH,
];

/// What was measured, each eye; only one acuity is needed to begin.
#[component]
pub fn PersonPlace() -> impl IntoView {
    let case = use_case();
    view! {
        <Heading place=Place::Person purpose="What was measured. One acuity is enough to begin; the rest can wait."/>
        <details><summary>"What this page is, and is not"</summary><p>{INTENDED_USE}</p></details>
        <Entry field=FieldId::Label/>
        <div class="eyes">
            <OneEye eye=EyeChoice::Right/>
            <OneEye eye=EyeChoice::Left/>
        </div>
        <section aria-labelledby="both-eyes">
            <h2 id="both-eyes">"Both eyes"</h2>
            {choose!(case, "bare-acuity", "A number without a notation, such as 0.1, means", BareAcuity, person.bare_acuity)}
            <Entry field=FieldId::Age/>
            <p class="help" id="age-usual">{case.of_answer(shown::age_words).signal()}</p>
            <Entry field=FieldId::RetestLimit/>
            <RetestLimits/>
            <Entry field=FieldId::Vertex/>
            <Entry field=FieldId::PersonNotes/>
        </section>
        <Undecided/>
        <Next to=Place::Goals label="On to the goals"/>
    }
    .into_any()
}

#[component]
fn OneEye(
    /// Which eye.
    eye: EyeChoice,
) -> impl IntoView {
    let of = |make| FieldId::of_eye(make, eye);
    let key = if eye == EyeChoice::Right { "eye-right" } else { "eye-left" };
    view! {
        <section class="eye" aria-labelledby=key>
            <h2 id=key>{eye.label()}</h2>
            <Entry field=of(FieldId::Acuity)/>
            <Entry field=of(FieldId::Refraction)/>
            <Entry field=of(FieldId::Pupil)/>
            <Entry field=of(FieldId::Accommodation)/>
            <Entry field=of(FieldId::ContrastSensitivity)/>
            <Entry field=of(FieldId::Pd)/>
        </section>
    }
    .into_any()
}

/// Published retest limits, each a button that puts it into the box.
#[component]
fn RetestLimits() -> impl IntoView {
    let case = use_case();
    let rows = OFFERED
        .iter()
        .map(|row| {
            let limit = format::decimals(row.limit().log(), 2);
            let text = limit.clone();
            let take = move |_| {
                let text = text.clone();
                case.draft.update(|draft| FieldId::RetestLimit.set_text(draft, text));
            };
            view! {
                <li>
                    <button type="button" on:click=take>"Take " {limit}</button>
                    " " {row.population} <span class="source">" " {row.source.citation}</span>
                </li>
            }
            .into_any()
        })
        .collect_view();
    view! {
        <details class="limits">
            <summary>"Published retest limits to choose from"</summary>
            <ul>{rows}</ul>
        </details>
    }
    .into_any()
}

/// What missing entries leave undecided.
#[component]
fn Undecided() -> impl IntoView {
    let case = use_case();
    let undecided = case.of_answer(|answer| answer.undecided.clone());
    let list = live(move || {
        undecided
            .get()
            .into_iter()
            .map(|item| view! { <li>{item.what} <Missing fields=item.waits_for/></li> }.into_any())
            .collect_view()
    });
    view! {
        <section aria-labelledby="undecided" hidden=is(move || undecided.get().is_empty())>
            <h2 id="undecided">"Still undecided"</h2>
            <ul>{list}</ul>
        </section>
    }
    .into_any()
}
