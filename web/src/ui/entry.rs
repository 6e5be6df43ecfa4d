//! A box: label with its unit, help, what was understood, and what to do when it was not.

use super::{is, live, use_case, words};
use crate::model::answer::FieldState;
use crate::model::field::{FieldId, Kind};
use leptos::prelude::*;

/// A box of the case. What is typed is kept verbatim; what it means is said under it at once.
#[component]
pub fn Entry(
    /// Which box.
    field: FieldId,
) -> impl IntoView {
    let case = use_case();
    let info = field.info();
    let text = case.of_draft(move |draft| field.text(draft).to_owned()).signal();
    let state = case.of_answer(move |answer| answer.field(field));
    let trouble = is(move || state.get().is_trouble());
    let invalid = words(move || trouble.get().to_string());
    let key = info.key.clone();
    let help_id = format!("{key}-help");
    let said_id = format!("{key}-said");
    let described = format!("{help_id} {said_id}");
    let number_pad = match info.kind {
        Kind::Length(bound) | Kind::Number(bound) => 0.0 <= bound.possible.0,
        Kind::Words | Kind::Acuity | Kind::Refraction | Kind::Print => false,
    };
    let unit = (!info.unit.is_empty()).then(|| view! { <span class="unit">{unit_words(info.unit)}</span> });
    view! {
        <div class="entry" class:trouble=trouble>
            <label for=key.clone()>{info.label.clone()} "\u{a0}" {unit}</label>
            <input
                id=key.clone()
                type="text"
                inputmode=if number_pad { "decimal" } else { "text" }
                autocomplete="off"
                autocapitalize="off"
                spellcheck="false"
                translate="no"
                aria-describedby=described
                aria-invalid=invalid
                prop:value=text
                on:input:target=move |event| {
                    let typed = event.target().value();
                    case.draft.update(|draft| field.set_text(draft, typed));
                }
            />
            <p class="help" id=help_id>{info.help}</p>
            <div class="said" id=said_id>{live(move || said(field, &state.get()))}</div>
        </div>
    }
    .into_any()
}

fn unit_words(unit: &'static str) -> &'static str {
    if unit == "degrees" { "°" } else { unit }
}

/// Whether an echo says no more than what stands in the box with the unit beside it.
fn says_nothing_new(field: FieldId, echo: &str) -> bool {
    let info = field.info();
    let case = use_case();
    let draft = case.draft.read_untracked();
    let unit = unit_words(info.unit);
    let digits = |text: &str| text.trim().trim_start_matches('+').trim_end_matches(unit).trim().to_owned();
    let typed = digits(field.text(&draft));
    let zeros = |text: String| {
        if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.').to_owned() } else { text }
    };
    matches!(info.kind, Kind::Length(_) | Kind::Number(_)) && zeros(typed) == zeros(digits(echo))
}

fn said(field: FieldId, state: &FieldState) -> AnyView {
    match state.clone() {
        FieldState::Understood { echo, unusual: None } if says_nothing_new(field, &echo) => ().into_any(),
        FieldState::Unread | FieldState::Empty { assumed: None } => ().into_any(),
        FieldState::Empty { assumed: Some(assumed) } => {
            view! { <p class="assumed">"Empty: " {assumed} " assumed"</p> }.into_any()
        }
        FieldState::Understood { echo, unusual } => view! {
            <p class="echo">{echo}</p>
            {unusual.map(|unusual| view! { <p class="unusual">{unusual}</p> }.into_any())}
        }
        .into_any(),
        FieldState::Refused { message, hint } => view! {
            <p class="refused"><strong>{message}</strong> " " {hint}</p>
        }
        .into_any(),
        FieldState::Ask { question, choices } => {
            let case = use_case();
            let buttons = choices
                .into_iter()
                .map(|choice| {
                    let text = choice.text;
                    let choose = move |_| {
                        let text = text.clone();
                        case.draft.update(|draft| field.set_text(draft, text));
                    };
                    view! { <button type="button" on:click=choose>{choice.label}</button> }.into_any()
                })
                .collect_view();
            view! {
                <p class="asked"><strong>{question}</strong></p>
                <div class="meanings">{buttons}</div>
            }
            .into_any()
        }
    }
}
