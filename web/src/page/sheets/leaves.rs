//! A sheet as it is printed: leaf by leaf, each with its head and foot.

use crate::model::answer::{Answer, FitAnswer};
use crate::model::draft::{EyeChoice, Paper};
use crate::model::sheets::{Block, Inputs, Leaf, Setting, Sheet, SheetKind, pages, sheet};
use crate::page::fit::front;
use crate::platform;
use crate::plot::Drawing;
use crate::ui::{Case, Part, Picture, live, use_case, words};
use arcminute_core::unit::Length;
use leptos::prelude::*;

/// Build of the page, for the foot of each leaf.
pub(in crate::page) const BUILD: &str = match option_env!("ARCMINUTE_BUILD") {
    Some(build) => build,
    None => "unversioned",
};

/// Paper between the margins, A4 being the narrower; drawing units are millimetres.
const WIDEST_MM: f64 = 182.0;

/// The front, of one telescope without the room for measures on the other eye's side: so the widest usual frame still fits
/// the paper.
fn front_on_paper(answer: &Answer) -> Option<Drawing> {
    const EMPTY: f64 = 22.0;
    let mut drawing = front(answer)?;
    if matches!(&answer.fit, FitAnswer::Done(done) if done.other.is_none()) {
        drawing.view_box.width -= EMPTY;
        if answer.eye == EyeChoice::Left {
            drawing.view_box.x += EMPTY;
        }
    }
    (drawing.view_box.width <= WIDEST_MM).then_some(drawing)
}

/// A sheet and its leaves.
fn laid_out(case: Case, kind: SheetKind) -> (Sheet, Vec<Leaf>) {
    let (draft, answer, list) = (case.draft.read(), case.answer.read(), case.list.read());
    let mut inputs = Inputs::new(&draft, &answer, &list.1.list, &list.0);
    let table = (kind == SheetKind::Summary).then(|| case.table.get());
    if let Some(table) = &table {
        inputs = inputs.compared(table);
    }
    let sheet = sheet(kind, &inputs);
    let drawing = front_on_paper(&answer).map(|drawing| Length::from_mm(drawing.view_box.height));
    let setting =
        Setting { paper: draft.order.paper, large: kind.is_large(&draft), drawing, build: BUILD.len() };
    let leaves = pages(&sheet, &setting);
    (sheet, leaves)
}

/// The leaves of a sheet.
#[component]
pub(super) fn Paperwork(
    /// Which sheet.
    kind: RwSignal<SheetKind>,
) -> impl IntoView {
    let case = use_case();
    let sheet = Part::new(move || Some(laid_out(case, kind.get())));
    let class = words(move || {
        let draft = case.draft.read();
        let paper = if draft.order.paper == Paper::A4 { "paper a4" } else { "paper letter" };
        let large = if kind.get().is_large(&draft) { " large" } else { "" };
        format!("{paper}{large}")
    });
    view! {
        <div class=class id="sheet">
            {live(move || sheet.get().map(|(sheet, leaves)| all(case, &sheet, leaves)))}
        </div>
    }
    .into_any()
}

fn all(case: Case, sheet: &Sheet, leaves: Vec<Leaf>) -> AnyView {
    let of = leaves.len();
    let leaf = |(index, leaf): (usize, Leaf)| {
        let page = index + 1;
        let label = format!("{}, page {page} of {of}", sheet.title);
        view! {
            <section class="leaf" aria-label=label>
                {head(sheet)}
                {(1 < page && !sheet.stop.is_empty()).then(|| notice("void", sheet.stop, "Page 1 says why.".into()))}
                {content(case, leaf)}
                <footer class="sheet-foot">
                    <p>"Arcminute build " {BUILD} " · a starting point for a trial, not a prescription · page " {page} " of " {of}</p>
                </footer>
            </section>
        }
        .into_any()
    };
    leaves.into_iter().enumerate().map(leaf).collect_view().into_any()
}

fn head(sheet: &Sheet) -> AnyView {
    let (title, label, digest) = (sheet.title.clone(), sheet.label.clone(), sheet.digest.clone());
    view! {
        <header class="sheet-head">
            <h2>{title}</h2>
            <p>"Case " <strong>{label}</strong> " · printed " {platform::today()} " · inputs " {digest}</p>
        </header>
    }
    .into_any()
}

/// Something that stands against the sheet, or is to be looked at again.
fn notice(class: &'static str, head: &'static str, words: String) -> AnyView {
    view! { <p class=class><strong>{head}</strong> {words}</p> }.into_any()
}

/// What blocks of one sort become together: lines a table, points and steps a list each.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Together {
    Table,
    Points,
    Steps,
    Alone,
}

fn together(block: &Block) -> Together {
    match block {
        Block::Row(_) | Block::Columns(_) => Together::Table,
        Block::Point(..) => Together::Points,
        Block::Step(_) => Together::Steps,
        _ => Together::Alone,
    }
}

fn content(case: Case, leaf: Leaf) -> AnyView {
    let mut groups: Vec<(Together, usize, Vec<AnyView>)> = Vec::new();
    for block in leaf.blocks {
        let (sort, columns) = (together(&block), columns(&block));
        let view = one(case, block);
        match groups.last_mut() {
            Some((last, width, views)) if *last == sort && *width == columns && sort != Together::Alone => {
                views.push(view)
            }
            _ => groups.push((sort, columns, vec![view])),
        }
    }
    let start = leaf.first_step;
    let group = |(sort, columns, views): (Together, usize, Vec<AnyView>)| match sort {
        Together::Table => {
            let class = match columns {
                0..=2 => "lines",
                3 => "lines three",
                _ => "lines four",
            };
            view! { <table class=class><tbody>{views}</tbody></table> }.into_any()
        }
        Together::Points => view! { <ul class="small">{views}</ul> }.into_any(),
        Together::Steps => view! { <ol start=start>{views}</ol> }.into_any(),
        Together::Alone => views.into_any(),
    };
    groups.into_iter().map(group).collect_view().into_any()
}

fn columns(block: &Block) -> usize {
    match block {
        Block::Row(cells) | Block::Columns(cells) => cells.len(),
        _ => 0,
    }
}

fn one(case: Case, block: Block) -> AnyView {
    match block {
        Block::Heading(words) => view! { <h3>{words}</h3> }.into_any(),
        Block::Row(cells) => line(cells),
        Block::Columns(cells) => {
            let cells = cells.into_iter().map(|cell| view! { <th scope="col">{cell}</th> }.into_any());
            view! { <tr class="columns">{cells.collect_view()}</tr> }.into_any()
        }
        Block::Text(words) => view! { <p>{words}</p> }.into_any(),
        Block::Point("", words) | Block::Step(words) => view! { <li>{words}</li> }.into_any(),
        Block::Point(head, words) => view! { <li><strong>{head}": "</strong>{words}</li> }.into_any(),
        Block::Stop(head, words) => notice("void", head, words),
        Block::Again(head, words) => notice("again", head, words),
        Block::Drawing => drawing(case),
        Block::Small(words) => view! { <p class="small">{words}</p> }.into_any(),
    }
}

/// A line of a table; an empty value is room to write.
fn line(cells: Vec<String>) -> AnyView {
    let mut cells = cells.into_iter();
    let what = cells.next().unwrap_or_default();
    let values = cells.map(|cell| {
        let class = if cell.is_empty() { "write" } else { "" };
        view! { <td class=class>{cell}</td> }.into_any()
    });
    view! { <tr><th scope="row">{what}</th>{values.collect_view()}</tr> }.into_any()
}

/// The front of the frame with its check bar; words in its place where the paper cannot hold it: cutting or shrinking it
/// would be worse than leaving it out.
fn drawing(case: Case) -> AnyView {
    let answer = case.answer.read_untracked();
    let drawing = front_on_paper(&answer);
    if drawing.is_none() {
        let why = if front(&answer).is_some() {
            "The front is too wide to be drawn at true size on this paper. Mark from the numbers."
        } else {
            "Nothing is drawn: the fit is not decided."
        };
        return notice("again", "No drawing. ", why.into());
    }
    view! {
        <Picture key="sheet-front" drawing=Signal::derive(move || drawing.clone()) true_size=true/>
        <div class="check-bar">
            <svg width="100mm" height="6mm" viewBox="0 0 100 6" role="img" aria-label="Check bar, 100 mm long">
                <rect class="bar" x="0" y="2" width="100" height="2"></rect>
            </svg>
            <p>"Measure this bar: it is 100 mm long. If it is not, the print is not at true size; do not mark from the drawing."</p>
        </div>
    }
    .into_any()
}
