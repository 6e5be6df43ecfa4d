//! Sheets: what leaves on paper.

use super::fit::front;
use super::{Heading, choose, yes_or_no};
use crate::model::answer::Answer;
use crate::model::draft::{EyeChoice, FellowChoice, FilterChoice, Paper};
use crate::model::field::FieldId;
use crate::model::shown::{self, Sheet, SheetSection};
use crate::model::words::{CAUTIONS, INTENDED_USE};
use crate::platform;
use crate::plot::Drawing;
use crate::ui::{Entry, Part, Picture, Place, Tick, live, use_case, when, words};
use leptos::prelude::*;

/// Build of the page, for the foot of each sheet.
const BUILD: &str = match option_env!("ARCMINUTE_BUILD") {
    Some(build) => build,
    None => "unversioned",
};

/// What else goes on the order, and the sheet as it will be printed.
#[component]
pub fn SheetsPlace() -> impl IntoView {
    let case = use_case();
    let paper = Signal::derive(move || case.draft.read().order.paper);
    let (pads, set_pads) =
        yes_or_no(case, |d| d.order.large_nose_pads, |d, value| d.order.large_nose_pads = value);
    let (strap, set_strap) = yes_or_no(case, |d| d.order.head_strap, |d, value| d.order.head_strap = value);
    Effect::new(move |_| {
        platform::set_page_size(match paper.get() {
            Paper::A4 => "210mm 297mm",
            Paper::Letter => "8.5in 11in",
        });
    });
    view! {
        <Heading place=Place::Sheets purpose="What goes to the workshop. Look it through, then print; the file name is the browser's to ask for."/>
        <div class="on-screen">
            <div class="row"><Entry field=FieldId::CarrierRx(true)/><Entry field=FieldId::CarrierRx(false)/></div>
            {choose!(case, "fellow", "The other eye's lens", FellowChoice, order.fellow)}
            {choose!(case, "filter", "Filter", FilterChoice, order.filter)}
            <fieldset class="choice"><legend>"To keep it in place"</legend>
                <Tick key="nose-pads" label="Large nose pads" on=pads on_tick=set_pads/>
                <Tick key="head-strap" label="Head strap" on=strap on_tick=set_strap/>
            </fieldset>
            <Entry field=FieldId::OrderNotes/>
            {choose!(case, "paper", "Paper", Paper, order.paper)}
            <p><button type="button" class="main" id="print" on:click=move |_| platform::print()>"Print the sheet"</button></p>
            <p class="help">"The printer's queue and a PDF keep what is printed. Print at 100 %, not fitted to the page: the drawing is at true size."</p>
        </div>
        <Paperwork paper=paper/>
    }
    .into_any()
}

/// Paper between the margins, A4 being the narrower; drawing units are millimetres.
const WIDEST_MM: f64 = 182.0;

/// The front without the room for measures on the other eye's side: so the widest usual frame still fits the paper.
fn front_on_paper(answer: &Answer) -> Option<Drawing> {
    const EMPTY: f64 = 22.0;
    let mut drawing = front(answer)?;
    drawing.view_box.width -= EMPTY;
    if answer.eye == EyeChoice::Left {
        drawing.view_box.x += EMPTY;
    }
    (drawing.view_box.width <= WIDEST_MM).then_some(drawing)
}

/// A front that the paper cannot hold at true size; cutting or shrinking it would be worse than leaving it out.
fn too_wide(answer: &Answer) -> bool {
    front(answer).is_some() && front_on_paper(answer).is_none()
}

/// The two pages of the sheet.
#[component]
fn Paperwork(
    /// Paper.
    paper: Signal<Paper>,
) -> impl IntoView {
    let case = use_case();
    let sheet = Part::new(move || shown::sheet(&case.draft.read(), &case.answer.read()));
    let wide = case.of_answer(too_wide);
    let class =
        words(move || if paper.get() == Paper::A4 { "paper a4".into() } else { "paper letter".into() });
    let cautions = CAUTIONS
        .iter()
        .filter(|caution| caution.place.on_order())
        .map(|caution| view! { <li><strong>{caution.head}": "</strong>{caution.text}</li> }.into_any())
        .collect_view();
    view! {
        <div class=class id="sheet">
            <section class="leaf" aria-label="Order and fitting sheet, page 1 of 2">
                {live(move || head(&sheet.get()))}
                {live(move || stop(&sheet.get()))}
                {live(move || sections(sheet.get().first))}
                <p class="small">{INTENDED_USE}</p>
                {foot(1)}
            </section>
            <section class="leaf" aria-label="Order and fitting sheet, page 2 of 2">
                {live(move || head(&sheet.get()))}
                {live(move || stop_again(&sheet.get()))}
                <h3>"Front of the frame, true size, as the examiner sees it"</h3>
                <Picture key="sheet-front" drawing=case.of_answer(front_on_paper) true_size=true/>
                {when(move || wide.get(), || view! {
                    <p class="void">"The front is too wide to be drawn at true size on this paper. Mark from the numbers."</p>
                }.into_any())}
                <div class="check-bar">
                    <svg width="100mm" height="6mm" viewBox="0 0 100 6" role="img" aria-label="Check bar, 100 mm long">
                        <rect class="bar" x="0" y="2" width="100" height="2"></rect>
                    </svg>
                    <p>"Measure this bar: it is 100 mm long. If it is not, the print is not at true size; do not mark from the drawing."</p>
                </div>
                {live(move || sections(sheet.get().second))}
                {live(move || signatures(&sheet.get()))}
                <h3>"Cautions"</h3>
                <ul class="small">{cautions}</ul>
                {foot(2)}
            </section>
        </div>
    }
    .into_any()
}

fn head(sheet: &Sheet) -> AnyView {
    let label = sheet.label.clone();
    let digest = sheet.digest.clone();
    view! {
        <header class="sheet-head">
            <h2>"Order and fitting sheet: spectacle-mounted telescope, " <strong>{sheet.eye}</strong></h2>
            <p>"Case " <strong>{label}</strong> " · printed " {platform::today()} " · inputs " {digest}</p>
        </header>
    }
    .into_any()
}

/// What stands against ordering from this sheet.
fn stop(sheet: &Sheet) -> AnyView {
    let refused = sheet.refused.clone().map(|why| {
        view! { <p class="void"><strong>"DO NOT ORDER. "</strong> "The fit is refused: " {why} "."</p> }
            .into_any()
    });
    let blanks = (!sheet.blanks.is_empty()).then(|| {
        view! { <p class="void"><strong>"VOID until filled in: "</strong> {sheet.blanks.join(", ")} "."</p> }.into_any()
    });
    let warnings = (!sheet.warnings.is_empty()).then(|| {
        view! { <p class="again"><strong>"Look again (common practice where no source is named): "</strong> {sheet.warnings.join(". ")} "."</p> }
            .into_any()
    });
    view! { {refused} {blanks} {warnings} }.into_any()
}

/// The same in short for the page with the drawing, which may be parted from the first.
fn stop_again(sheet: &Sheet) -> AnyView {
    let stops = sheet.refused.is_some() || !sheet.blanks.is_empty();
    stops
        .then(|| {
            view! { <p class="void"><strong>"DO NOT ORDER. "</strong> "Page 1 says why." </p> }.into_any()
        })
        .into_any()
}

fn sections(sections: Vec<SheetSection>) -> AnyView {
    sections
        .into_iter()
        .map(|section| {
            let rows = section
                .rows
                .into_iter()
                .map(|(what, value)| {
                    view! { <tr><th scope="row">{what}</th><td>{value}</td></tr> }.into_any()
                })
                .collect_view();
            view! { <h3>{section.title}</h3> <table class="lines"><tbody>{rows}</tbody></table> }.into_any()
        })
        .collect_view()
        .into_any()
}

fn signatures(sheet: &Sheet) -> AnyView {
    let eye = sheet.eye;
    view! {
        <table class="lines signatures"><tbody>
            <tr><th scope="row">"Made for the " {eye} ", confirmed against the record by"</th><td></td></tr>
            <tr><th scope="row">"Ordered by, licence number, date"</th><td></td></tr>
            <tr><th scope="row">"Checked by a second person"</th><td></td></tr>
        </tbody></table>
    }
    .into_any()
}

fn foot(page: u8) -> AnyView {
    view! {
        <footer class="sheet-foot">
            <p>"Arcminute build " {BUILD} " · a starting point for a trial, not a prescription · page " {page} " of 2"</p>
        </footer>
    }
    .into_any()
}
