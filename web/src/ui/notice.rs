//! Facts, cautions, and what is still missing.

use super::{Place, use_case};
use crate::model::field::FieldId;
use crate::model::shown::Shown;
use crate::model::words::{CAUTIONS, Where};
use leptos::prelude::*;

/// Results: what each is, and its value, large.
#[must_use]
pub fn facts(shown: Vec<Shown>) -> AnyView {
    let facts = shown.into_iter().map(|fact| {
        let note = (!fact.note.is_empty()).then(|| view! { <dd class="note">{fact.note}</dd> }.into_any());
        view! {
            <div class="fact">
                <dt>{fact.what}</dt>
                <dd id=fact.key class="value">{fact.value}</dd>
                {note}
            </div>
        }
        .into_any()
    });
    facts.collect_view().into_any()
}

/// The cautions that belong here.
#[component]
pub fn Cautions(
    /// Where one is.
    #[prop(into)]
    places: Vec<Where>,
) -> impl IntoView {
    let list = CAUTIONS
        .iter()
        .filter(|caution| places.contains(&caution.place))
        .map(|caution| view! { <li><strong>{caution.head}": "</strong>{caution.text}</li> }.into_any())
        .collect_view();
    view! { <aside class="cautions" aria-label="Cautions"><h3>"Cautions"</h3><ul>{list}</ul></aside> }
        .into_any()
}

/// Boxes still needed, each a button that leads to it.
#[component]
pub fn Missing(
    /// The boxes.
    fields: Vec<FieldId>,
) -> impl IntoView {
    let case = use_case();
    let buttons = fields
        .into_iter()
        .map(|field| {
            let info = field.info();
            let go = move |_| {
                case.place.set(place_of(field));
                crate::platform::focus_soon(field.info().key);
            };
            view! { <li><button type="button" class="link" aria-label=format!("{}: go to the box", info.label) on:click=go>{info.label.clone()}</button></li> }.into_any()
        })
        .collect_view();
    view! { <ul class="missing">{buttons}</ul> }.into_any()
}

/// The place a box is on.
fn place_of(field: FieldId) -> Place {
    match field {
        FieldId::Label
        | FieldId::Acuity(_)
        | FieldId::Refraction(_)
        | FieldId::Pupil(_)
        | FieldId::Accommodation(_)
        | FieldId::ContrastSensitivity(_)
        | FieldId::Age
        | FieldId::RetestLimit
        | FieldId::Vertex
        | FieldId::PersonNotes
        | FieldId::Pd(_) => Place::Person,
        FieldId::GoalName(_)
        | FieldId::GoalAcuity(_)
        | FieldId::GoalHeight(_)
        | FieldId::GoalDetail(_)
        | FieldId::GoalPrint(_)
        | FieldId::GoalDistance(_)
        | FieldId::GoalFarthest(_)
        | FieldId::GoalContrast(_)
        | FieldId::GoalReserve(_)
        | FieldId::GoalWidth(_)
        | FieldId::GoalCharacters(_)
        | FieldId::GoalLight(_) => Place::Goals,
        FieldId::CarrierRx(_)
        | FieldId::Delivered(_)
        | FieldId::Cap
        | FieldId::OrderFrame
        | FieldId::OrderLens
        | FieldId::FollowUp
        | FieldId::PersonSheetNotes
        | FieldId::SchoolNotes
        | FieldId::OrderNotes => Place::Sheets,
        FieldId::PupilHeight(_)
        | FieldId::BoxWidth
        | FieldId::BoxHeight
        | FieldId::Bridge
        | FieldId::EffectiveDiameter
        | FieldId::Pantoscopic
        | FieldId::RotationDepth
        | FieldId::PdBoth
        | FieldId::Barrel
        | FieldId::Play
        | FieldId::LeastWeb
        | FieldId::SegmentGap
        | FieldId::OrderedTilt
        | FieldId::SegmentHeight
        | FieldId::SegmentWidth
        | FieldId::SegmentInset
        | FieldId::EyepieceAcross
        | FieldId::EyepieceUp
        | FieldId::FromLens
        | FieldId::WornVertex
        | FieldId::FaceForm
        | FieldId::BaseIn
        | FieldId::FrontWeight
        | FieldId::TrialAcuity
        | FieldId::TrialPrint
        | FieldId::TrialBeside
        | FieldId::TrialNotes => Place::Fit,
    }
}
