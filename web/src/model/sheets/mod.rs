//! What leaves on paper: six sheets, each a list of blocks that [`pages`] lays out on leaves.
//!
//! ```text
//!   Draft, Answer, list ─► Inputs ─► sheet(kind) ─► Sheet: blocks ─► pages(paper) ─► leaves ─► page ─► paper
//! ```
//!
//! * A sheet holds the case label only, no name, and no diagnosis.
//! * What was not filled in is a blank, and every blank is named at the top.
//! * An order that must not be used says so at the top of each leaf, and why on the first.
//! * The digest changes when anything changes that the sheet depends on, and with nothing else.

mod delivery;
mod digest;
mod order;
mod paper;
mod person;
mod rows;
mod school;
mod summary;
mod trial;

pub use paper::{Leaf, Setting, pages};

use super::answer::{Answer, Worn};
use super::compared::{Asked, LookedAt, Table};
use super::devices::{self, Stock};
use super::draft::{Draft, EyeChoice};
use super::list::{self, ListedAid};
use super::shown;
use super::words::{CAUTIONS, INTENDED_USE, Where};
use rows::{BLANK, OPEN};

/// The sheets.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum SheetKind {
    /// What goes to the workshop.
    #[default]
    Order,
    /// What is filled in at a trial.
    Trial,
    /// What the person takes home.
    Person,
    /// A letter to the school.
    School,
    /// A short clinical summary.
    Summary,
    /// What was delivered against what was ordered.
    Delivery,
}

impl SheetKind {
    /// All of them, in the order of the work.
    pub const ALL: [Self; 6] =
        [Self::Order, Self::Trial, Self::Person, Self::School, Self::Summary, Self::Delivery];

    /// What the page calls it.
    #[must_use]
    pub fn label(self) -> &'static str {
        match self {
            Self::Order => "Order and fitting",
            Self::Trial => "Trial",
            Self::Person => "For the person",
            Self::School => "For the school",
            Self::Summary => "Summary",
            Self::Delivery => "Delivery check",
        }
    }

    /// Whether it is set in large letters: what the person takes home always is.
    #[must_use]
    pub fn is_large(self, draft: &Draft) -> bool {
        self == Self::Person || draft.order.large_print
    }

    /// Whether it is about ordering, so that it must not be used while the fit is refused or open.
    #[must_use]
    pub fn is_about_ordering(self) -> bool {
        matches!(self, Self::Order | Self::Delivery)
    }
}

/// A part of a sheet that is not parted between two leaves.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Block {
    /// A heading; it stays with what follows.
    Heading(String),
    /// A line of a table: what it is, then its values. An empty value is room to write.
    Row(Vec<String>),
    /// The line that says what the values are.
    Columns(Vec<String>),
    /// A paragraph.
    Text(String),
    /// An item of a list; the words in front are in bold and may be empty.
    Point(&'static str, String),
    /// A numbered step.
    Step(String),
    /// Something that stands against using the sheet.
    Stop(&'static str, String),
    /// Something to look at again.
    Again(&'static str, String),
    /// The front of the frame at true size, with the check bar.
    Drawing,
    /// Small print.
    Small(String),
}

/// A sheet.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Sheet {
    /// Which.
    pub kind: SheetKind,
    /// What stands at the top of each leaf.
    pub title: String,
    /// Case label; says so when there is none.
    pub label: String,
    /// Short digest of what it depends on.
    pub digest: String,
    /// What stands in short at the top of the later leaves when it must not be used; empty when it may.
    pub stop: &'static str,
    /// What is not filled in, and without which it must not be ordered.
    pub blanks: Vec<String>,
    /// What is not filled in and may be written by hand.
    pub open: Vec<String>,
    /// Its content.
    pub blocks: Vec<Block>,
}

/// What sheets are made from.
#[derive(Clone, Debug)]
pub struct Inputs<'a> {
    /// The case.
    pub draft: &'a Draft,
    /// What follows from it.
    pub answer: &'a Answer,
    /// The aids.
    pub list: &'a [ListedAid],
    /// What the list is called; empty for the demonstration list.
    pub list_name: &'a str,
    /// Every aid against every wish, where it is known; the summary uses it.
    pub table: Option<&'a Table>,
    /// What of the list is worn.
    stock: Stock,
    asked: Asked,
}

impl<'a> Inputs<'a> {
    /// What sheets are made from, with aids of this list.
    #[must_use]
    pub fn new(draft: &'a Draft, answer: &'a Answer, list: &'a [ListedAid], list_name: &'a str) -> Self {
        let (stock, asked) = (devices::stock(list), Asked::of(answer));
        Self { draft, answer, list, list_name, table: None, stock, asked }
    }

    /// The same with the demonstration list.
    #[must_use]
    pub fn demo(draft: &'a Draft, answer: &'a Answer) -> Self {
        Self::new(draft, answer, &list::demo().list, "")
    }

    /// The same with every aid against every wish.
    #[must_use]
    pub fn compared(self, table: &'a Table) -> Self {
        Self { table: Some(table), ..self }
    }

    fn aid(&self, id: &str) -> Option<&'a ListedAid> {
        self.list.iter().find(|aid| aid.id == id)
    }

    /// What Fit is about.
    fn worn(&self) -> Option<Worn<'_>> {
        Worn::of(self.draft, &self.stock)
    }

    /// The aid that Fit is about.
    fn fitted(&self) -> Option<&'a ListedAid> {
        let id = match self.worn()? {
            Worn::Telescope(device) => device.id.as_str(),
            Worn::Spectacles(spectacles) => spectacles.id.as_str(),
        };
        self.aid(id)
    }

    /// The aid that is looked at.
    fn looked_aid(&self) -> Option<&'a ListedAid> {
        self.aid(self.draft.bench.looked_at())
    }

    /// The aid that a kind of sheet is about.
    fn aid_of(&self, kind: SheetKind) -> Option<&'a ListedAid> {
        if kind.is_about_ordering() { self.fitted() } else { self.looked_aid() }
    }

    /// An aid for the wish of a goal, as Bench compares it.
    fn look(&self, goal: usize, aid: Option<&ListedAid>) -> Option<LookedAt> {
        LookedAt::of(&self.asked, goal, aid?)
    }

    /// The same for the wish that is served.
    fn look_served(&self, aid: Option<&ListedAid>) -> Option<LookedAt> {
        self.look(self.answer.goal, aid)
    }

    /// The eye or eyes that look through it, spelled out.
    fn eyes(&self) -> &'static str {
        if self.answer.fits_both_eyes { "RIGHT eye and LEFT eye" } else { self.answer.eye.label() }
    }
}

/// A sheet of a case.
#[must_use]
pub fn sheet(kind: SheetKind, inputs: &Inputs<'_>) -> Sheet {
    let (title, body) = match kind {
        SheetKind::Order => order::body(inputs),
        SheetKind::Trial => trial::body(inputs),
        SheetKind::Person => person::body(inputs),
        SheetKind::School => school::body(inputs),
        SheetKind::Summary => summary::body(inputs),
        SheetKind::Delivery => delivery::body(inputs),
    };
    let holding = |value: &str| -> Vec<String> {
        let rows = body.iter().filter_map(|block| match block {
            Block::Row(cells) if cells.iter().skip(1).any(|cell| cell == value) => cells.first().cloned(),
            _ => None,
        });
        rows.collect()
    };
    let (mut blanks, mut open) = (holding(BLANK), holding(OPEN));
    let label = rows::clipped(inputs.draft.label.trim(), 60);
    let label = if label.is_empty() { BLANK.to_owned() } else { label };
    if label == BLANK {
        open.insert(0, "case label".into());
    }
    let ordering = kind.is_about_ordering();
    if !ordering {
        open.splice(0..0, blanks.drain(..));
    }
    let mut blocks = Vec::new();
    let refused = ordering.then(|| order::refused(inputs.answer)).flatten();
    if let Some(why) = &refused {
        let head = if kind == SheetKind::Order { "DO NOT ORDER. " } else { "VOID. " };
        let end = if kind == SheetKind::Order { " This sheet is VOID." } else { "" };
        blocks.push(Block::Stop(head, format!("The fit is refused: {why}.{end}")));
    }
    if !blanks.is_empty() {
        blocks.push(Block::Stop("VOID until filled in: ", format!("{}.", blanks.join(", "))));
    }
    if !open.is_empty() {
        blocks.push(Block::Again("Not filled in: ", format!("{}.", open.join(", "))));
    }
    let stop = match kind {
        SheetKind::Order if refused.is_some() || !blanks.is_empty() => "DO NOT ORDER. ",
        SheetKind::Delivery if refused.is_some() || !blanks.is_empty() => "VOID. ",
        _ => "",
    };
    if kind == SheetKind::Order {
        let warnings = order::warnings(inputs.answer);
        if !warnings.is_empty() {
            let head = "Look again (common practice where no source is named): ";
            blocks.push(Block::Again(head, format!("{}.", warnings.join(". "))));
        }
    }
    blocks.extend(body);
    let plain = matches!(kind, SheetKind::Person | SheetKind::School);
    blocks.push(Block::Small(if plain { person::INTENDED_USE_PLAIN.into() } else { INTENDED_USE.into() }));
    Sheet { kind, title, label, digest: digest::of(kind, inputs), stop, blanks, open, blocks }
}

/// The cautions that belong to these places, as a list under its heading.
fn cautions(places: &[Where]) -> Vec<Block> {
    let mut blocks = vec![Block::Heading("Cautions".into())];
    let here = CAUTIONS.iter().filter(|caution| places.contains(&caution.place));
    blocks.extend(here.map(|caution| Block::Point(caution.head, caution.text.into())));
    blocks
}

/// Notes as long as this go on paper beside any number of the fit.
const SHORT_NOTE: usize = 50;
/// What is worth knowing on Fit and is no part of an order, by its key.
const NOT_ORDERED: [&str; 3] = ["fit-smallest-b", "fit-alignment", "fit-segment-inset"];
/// What is marked on the lens: here the whole note goes on paper.
const MARKED: [&str; 5] = ["fit-x", "fit-y", "fit-tilt", "fit-opening", "fit-centre"];

/// The numbers of the fit in the words of the page; of what is not marked, long notes are left to the page.
fn marks(answer: &Answer) -> Vec<Block> {
    let marks = shown::marks(&answer.fit).into_iter();
    marks
        .filter(|mark| !NOT_ORDERED.contains(&mark.key.as_str()))
        .map(|mark| {
            let is_marked = MARKED.iter().any(|key| mark.key.starts_with(key));
            let has_note = !mark.note.is_empty() && (is_marked || mark.note.len() <= SHORT_NOTE);
            let note = if has_note { format!(" ({})", mark.note) } else { String::new() };
            rows::row(mark.what, format!("{}{note}", mark.value))
        })
        .collect()
}

const BOTH_EYES: [EyeChoice; 2] = [EyeChoice::Right, EyeChoice::Left];
