//! Sheets: what leaves on paper.

mod leaves;

use super::handed::Handed;
use super::{Heading, choose, yes_or_no};
use crate::model::draft::{FellowChoice, FilterChoice, Paper};
use crate::model::field::FieldId;
use crate::model::sheets::SheetKind;
use crate::platform;
use crate::ui::{Choice, Entry, Place, Tick, live, use_case};
pub(super) use leaves::BUILD;
use leaves::Paperwork;
use leptos::prelude::*;

/// Which sheet, what else goes on it, and the sheet as it will be printed.
#[component]
pub fn SheetsPlace() -> impl IntoView {
    let case = use_case();
    let paper = Signal::derive(move || case.draft.read().order.paper);
    let kind = RwSignal::new(SheetKind::default());
    let (large, set_large) = yes_or_no(case, |d| d.order.large_print, |d, value| d.order.large_print = value);
    Effect::new(move |_| {
        platform::set_page_size(match paper.get() {
            Paper::A4 => "210mm 297mm",
            Paper::Letter => "8.5in 11in",
        });
    });
    let chosen =
        Signal::derive(move || SheetKind::ALL.iter().position(|one| *one == kind.get()).unwrap_or_default());
    let on_choose = Callback::new(move |place: usize| {
        if let Some(one) = SheetKind::ALL.get(place) {
            kind.set(*one);
        }
    });
    let options = SheetKind::ALL.map(SheetKind::label).to_vec();
    view! {
        <Heading place=Place::Sheets purpose="What leaves on paper. Choose a sheet, look it through, then print; the file name is the browser's to ask for."/>
        <div class="on-screen">
            <Choice key="sheet-kind" legend="Which sheet" options=options chosen=chosen on_choose=on_choose/>
            {live(move || boxes(kind.get()))}
            {choose!(case, "paper", "Paper", Paper, order.paper)}
            <Tick key="large-print" label="Large print (18 points); the sheet for the person always is" on=large on_tick=set_large/>
            <p><button type="button" class="main" id="print" on:click=move |_| platform::print()>"Print the sheet"</button></p>
            <p class="help">"The printer's queue and a PDF keep what is printed. Print at 100 %, not fitted to the page: a drawing is at true size."</p>
        </div>
        <Paperwork kind=kind/>
        <Handed/>
    }
    .into_any()
}

/// What can be typed and chosen for a sheet.
fn boxes(kind: SheetKind) -> AnyView {
    let entries = |fields: &[FieldId]| {
        fields.iter().map(|field| view! { <Entry field=*field/> }.into_any()).collect_view()
    };
    match kind {
        SheetKind::Order => view! { <OrderBoxes/> }.into_any(),
        SheetKind::Trial => view! {
            <p class="help">"It is about the aid that is looked at on Bench. Print it before the trial; what was reached is entered on Fit."</p>
        }
        .into_any(),
        SheetKind::Person => entries(&[FieldId::FollowUp, FieldId::PersonSheetNotes]).into_any(),
        SheetKind::School => entries(&[FieldId::FollowUp, FieldId::SchoolNotes]).into_any(),
        SheetKind::Summary => entries(&[FieldId::FollowUp]).into_any(),
        SheetKind::Delivery => entries(&[FieldId::Delivered(true), FieldId::Delivered(false)]).into_any(),
    }
}

/// What else goes on the order.
#[component]
fn OrderBoxes() -> impl IntoView {
    let case = use_case();
    let (pads, set_pads) =
        yes_or_no(case, |d| d.order.large_nose_pads, |d, value| d.order.large_nose_pads = value);
    let (strap, set_strap) = yes_or_no(case, |d| d.order.head_strap, |d, value| d.order.head_strap = value);
    view! {
        <div class="row"><Entry field=FieldId::CarrierRx(true)/><Entry field=FieldId::CarrierRx(false)/></div>
        {choose!(case, "fellow", "The other eye's lens", FellowChoice, order.fellow)}
        {choose!(case, "filter", "Filter", FilterChoice, order.filter)}
        <fieldset class="choice"><legend>"To keep it in place"</legend>
            <Tick key="nose-pads" label="Large nose pads" on=pads on_tick=set_pads/>
            <Tick key="head-strap" label="Head strap" on=strap on_tick=set_strap/>
        </fieldset>
        <Entry field=FieldId::Cap/>
        <Entry field=FieldId::OrderFrame/>
        <Entry field=FieldId::OrderLens/>
        <Entry field=FieldId::OrderNotes/>
    }
    .into_any()
}
