//! Files for other systems: the case as a document, and its numbers as a table.

use super::sheets::BUILD;
use crate::model::handed::{csv, fhir};
use crate::model::kept;
use crate::platform;
use crate::ui::use_case;
use leptos::prelude::*;

/// What can be handed to another system, and what such a file is not.
#[component]
pub fn Handed() -> impl IntoView {
    let case = use_case();
    let said = RwSignal::new("");
    let give = move |kind: &str, media_type: &str, text: String| {
        let name = kept::file_name(&case.draft.read_untracked().label, &platform::today(), kind);
        platform::hand_over(&name.replace(".arcminute.json", ""), media_type, &text);
        said.set("The file is with the browser. It is not sealed.");
    };
    let document = move |_| {
        let (draft, answer) = (case.draft.get_untracked(), case.answer.get_untracked());
        let Some(fresh) = platform::fresh() else {
            said.set("This browser gives no random numbers, which the file needs: take the table, or another browser.");
            return;
        };
        let made = fhir::Made { at: &platform::moment(), build: BUILD, ids: fresh.salt };
        give("fhir-r4.json", "application/fhir+json", fhir::written(&draft, &answer, &made));
    };
    let table = move |_| {
        let (draft, answer) = (case.draft.get_untracked(), case.answer.get_untracked());
        give("numbers.csv", "text/csv;charset=utf-8", csv::numbers(&draft, &answer));
    };
    view! {
        <section class="on-screen" aria-labelledby="handed">
            <h2 id="handed">"Files for other systems"</h2>
            <p class="help">"They hold what was measured and typed, and anyone who has them can read them. The order in them is a draft: nothing is issued."</p>
            <p>
                <button type="button" id="hand-document" on:click=document>"Clinical document (FHIR R4)"</button>
                " "
                <button type="button" id="hand-table" on:click=table>"The numbers as a table (CSV)"</button>
            </p>
            <p id="handed-said" role="status">{said}</p>
        </section>
    }
    .into_any()
}
