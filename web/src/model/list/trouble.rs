//! What can be wrong with a list of aids, as data, and its words: where, what was read, why not, and what to type.

use super::column::{Column, Kind};
use super::family::{Family, PAIRS};
use super::{MOST_AIDS, MOST_BYTES, MOST_ROWS};
use arcminute_core::Error;
use arcminute_core::bounds::Bound;

/// Where in the file.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Place {
    /// The file as a whole.
    File,
    /// A row as a spreadsheet counts it: the headings are in row 1 unless empty rows stand before them.
    Row(usize),
    /// An entry of the JSON form, the first being 1.
    Entry(usize),
    /// The heading of a column, counted from 1.
    Heading(usize),
}

/// Something of the file that was not taken.
#[derive(Clone, Debug, PartialEq)]
pub struct Trouble {
    /// Where it is.
    pub place: Place,
    /// The column, where it is one cell.
    pub column: Option<Column>,
    /// What was read, cut to 60 characters; empty where nothing was.
    pub found: String,
    /// What is wrong with it.
    pub wrong: Wrong,
}

/// What is wrong.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum Wrong {
    /// More bytes than a list has.
    TooLarge,
    /// A file of a spreadsheet program, not text.
    Workbook,
    /// Text of two bytes for each sign.
    WideText,
    /// No text at all.
    NotText,
    /// Text in an alphabet that does not say which it is.
    OtherAlphabet,
    /// Nothing in it.
    Empty,
    /// The first row holds no headings of this list.
    NoHeadings,
    /// A column that every list has.
    LacksColumn(Column),
    /// More rows than are read, empty ones counted.
    TooManyRows,
    /// More aids than are read.
    TooManyAids,
    /// A quotation mark that never closes.
    OpenQuote,
    /// The JSON reader's own words.
    NotJson(String),
    /// JSON of another shape.
    OtherShape,
    /// A version that this page does not know.
    OtherVersion,
    /// An entry of the JSON list that is no object.
    NotAnEntry,
    /// A heading that is not known, and the one it may have been meant to be.
    UnknownColumn(Option<Column>),
    /// A heading with a unit that its column does not have.
    ColumnUnit(Column),
    /// A second column of the same heading.
    ColumnTwice(Column),
    /// Cells under no heading.
    NoHeading,
    /// More cells than there are headings.
    TooManyCells {
        /// In this row.
        cells: usize,
        /// In the row of headings.
        headings: usize,
    },
    /// A row without its id, name or family, which may be the rest of merged cells.
    Unnamed,
    /// A measure that the family needs.
    Missing(Family, &'static Bound),
    /// The design of a telescope.
    NoDesign,
    /// A stand magnifier without two measures that make a pair.
    NoPair,
    /// A family that is not known, and the one that may have been meant.
    UnknownFamily(Option<Family>),
    /// A word that is none of these.
    UnknownWord(&'static [&'static str]),
    /// A key with other signs than it may have.
    NotAnId,
    /// A key that the aid in this place has.
    IdTaken(Place),
    /// More characters than the column takes.
    TooLong(usize),
    /// A sign that cannot be printed.
    Unprintable,
    /// Not a number.
    NotANumber(&'static str),
    /// A formula in place of a number.
    Formula,
    /// A comma or point that can be a decimal sign or group thousands.
    GroupedOrDecimal,
    /// A number in another unit than the column's.
    CellUnit(&'static str),
    /// More digits than can be kept.
    TooManyDigits,
    /// JSON text where a number is meant, or the other way round.
    OtherKind(Kind),
    /// Outside what is possible.
    OutOfRange(&'static Bound, &'static str),
    /// The family has no such measure.
    NotOfFamily(Family),
    /// Said to be for walking.
    NotForWalking,
    /// No such aid can be made, in the core's words.
    Impossible(Box<Error>),
}

/// Most characters of what was read that are shown.
const SHOWN: usize = 60;

/// What was read, short enough to be shown.
pub(super) fn shown(found: &str) -> String {
    let mut short: String = found.chars().map(|c| if c.is_control() { ' ' } else { c }).take(SHOWN).collect();
    if found.chars().nth(SHOWN).is_some() {
        short.pop();
        short.push('…');
    }
    short
}

impl std::fmt::Display for Place {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::File => f.write_str("file"),
            Self::Row(row) => write!(f, "row {row}"),
            Self::Entry(entry) => write!(f, "aid {entry}"),
            Self::Heading(column) => write!(f, "heading of column {column}"),
        }
    }
}

/// Where, why not, and what to do, as one line.
impl std::fmt::Display for Trouble {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{}", self.place)?;
        if let Some(column) = self.column {
            write!(f, ", {}", column.heading())?;
        }
        write!(f, ": {}; {}", self.why(), self.hint())
    }
}

impl Trouble {
    /// Why it was not taken, as a sentence without its full stop.
    #[must_use]
    pub fn why(&self) -> String {
        let found = &self.found;
        match &self.wrong {
            Wrong::TooLarge => {
                format!("it is larger than {} MB, so it is no list of aids", MOST_BYTES / 1_000_000)
            }
            Wrong::Workbook => "it is a workbook of a spreadsheet program, not text".into(),
            Wrong::WideText => "it is text of two bytes for each sign (UTF-16)".into(),
            Wrong::NotText => "it holds signs that no text has".into(),
            Wrong::OtherAlphabet => {
                "a letter is not written in UTF-8, so it cannot be told which it is".into()
            }
            Wrong::Empty => "nothing is in it".into(),
            Wrong::NoHeadings => format!("`{found}` is no row of headings of this list"),
            Wrong::LacksColumn(column) => format!("the column `{}` is missing", column.heading()),
            Wrong::TooManyRows => {
                format!("the file has more than {MOST_ROWS} rows; what follows was left out")
            }
            Wrong::TooManyAids => {
                format!("the file has more than {MOST_AIDS} aids; what follows was left out")
            }
            Wrong::OpenQuote => {
                "a quotation mark opens here and never closes; this row and what follows was left out".into()
            }
            Wrong::NotJson(why) => format!("it begins like JSON, and is not: {why}"),
            Wrong::OtherShape => "it is JSON, but holds no list called `aids`".into(),
            Wrong::OtherVersion => format!("it is of version `{found}`"),
            Wrong::NotAnEntry => format!("`{found}` is no aid"),
            Wrong::UnknownColumn(_) => format!("`{found}` is not known; its cells were left out"),
            Wrong::ColumnUnit(_) => {
                format!("`{found}` has a unit that does not fit; its cells were left out")
            }
            Wrong::ColumnTwice(_) => format!("`{found}` stands twice; the cells of this one were left out"),
            Wrong::NoHeading => "it is empty, and cells stand under it; they were left out".into(),
            Wrong::TooManyCells { cells, headings } => {
                format!(
                    "it has {cells} cells under {headings} headings, so its cells may stand in wrong columns"
                )
            }
            Wrong::Unnamed | Wrong::Missing(..) | Wrong::NoDesign | Wrong::NoPair => self.why_missing(),
            Wrong::UnknownFamily(_) => format!("`{found}` is no family of aids known here"),
            Wrong::UnknownWord(_) => format!("`{found}` is none of its words"),
            Wrong::NotAnId => format!("`{found}` holds other signs than a key may have"),
            Wrong::IdTaken(place) => format!("`{found}` is the key of {place} as well"),
            Wrong::TooLong(most) => format!("`{found}` has more than {most} characters"),
            Wrong::Unprintable => format!("`{found}` holds a sign that cannot be printed"),
            Wrong::NotANumber(_) => format!("`{found}` was not understood as a number"),
            Wrong::Formula => format!("`{found}` is a formula, not a number"),
            Wrong::GroupedOrDecimal => format!("`{found}` can mean two numbers a thousand times apart"),
            Wrong::CellUnit(_) => format!("`{found}` has a unit that is not the column's"),
            Wrong::TooManyDigits => format!("`{found}` has more digits than can be kept"),
            Wrong::OtherKind(_) => format!("`{found}` is of the wrong kind"),
            Wrong::OutOfRange(..) => format!("`{found}` is not possible"),
            Wrong::NotOfFamily(family) => {
                format!("`{found}` stands where the family `{}` has nothing", family.about().name)
            }
            Wrong::NotForWalking => format!("`{found}` is not said of an aid before the eye"),
            Wrong::Impossible(error) => error.to_string(),
        }
    }

    fn why_missing(&self) -> String {
        match self.wrong {
            Wrong::Missing(family, _) => {
                format!("it is empty, and the family `{}` needs it", family.about().name)
            }
            Wrong::NoPair if self.found.is_empty() => "nothing says how strong the stand magnifier is".into(),
            Wrong::NoPair => format!("{} do not say how strong the stand magnifier is", self.found),
            _ => "it is empty".into(),
        }
    }

    /// What to do about it, as a sentence without its full stop.
    #[must_use]
    pub fn hint(&self) -> String {
        const SAVE: &str = "save it in the spreadsheet program as `CSV UTF-8`, and open that file";
        const TEMPLATE: &str = "begin with the template, which has every heading";
        match &self.wrong {
            Wrong::Workbook | Wrong::WideText | Wrong::OtherAlphabet => SAVE.into(),
            Wrong::TooLarge | Wrong::NotText => format!("choose another file, or {SAVE}"),
            Wrong::Empty | Wrong::NoHeadings => TEMPLATE.into(),
            Wrong::LacksColumn(column) => format!("add a column with the heading `{}`", column.heading()),
            Wrong::TooManyRows | Wrong::TooManyAids => "split the list into two files".into(),
            Wrong::OpenQuote => "close it, or take it away".into(),
            Wrong::NotJson(_) => "mend it there".into(),
            Wrong::OtherShape => "write it as `{ \"version\": 1, \"about\": \"…\", \"aids\": [ … ] }`".into(),
            Wrong::OtherVersion => "this page reads version 1".into(),
            Wrong::NotAnEntry => "write it as `{ \"id\": \"…\", \"name\": \"…\", \"family\": \"…\", … }`".into(),
            Wrong::UnknownColumn(Some(near)) => format!("if you meant it, type `{}`", near.heading()),
            Wrong::UnknownColumn(None) => "what you want to keep goes into `note`".into(),
            Wrong::ColumnUnit(column) => {
                format!("give the numbers in that unit and type `{}`", column.heading())
            }
            Wrong::ColumnTwice(_) => "take one of the two away".into(),
            Wrong::NoHeading => "type a heading above them".into(),
            Wrong::TooManyCells { .. } => {
                "put what holds the separator, as a decimal comma does, in quotation marks".into()
            }
            Wrong::Unnamed => {
                "fill it in; cells that were merged have to be filled in each row".into()
            }
            Wrong::Missing(_, bound) => format!("type {}", range(bound, self.unit())),
            Wrong::NoDesign => "type `galilean` or `keplerian`".into(),
            Wrong::NoPair => {
                let pairs = PAIRS.map(|pair| pair.map(|column| column.about().name).join(" and "));
                format!("give two measures and no third: {}", pairs.join(", or "))
            }
            Wrong::UnknownFamily(Some(near)) => format!("if you meant it, type `{}`", near.about().name),
            Wrong::UnknownFamily(None) => "type one of the families in the template".into(),
            Wrong::UnknownWord(words) => format!("type {}", quoted(words)),
            Wrong::NotAnId => "use letters, digits, `-`, `_` and `.`".into(),
            Wrong::IdTaken(_) => "give each aid a key of its own".into(),
            Wrong::TooLong(most) => format!("use at most {most} characters"),
            Wrong::Unprintable => "type it anew".into(),
            Wrong::NotANumber(unit) => format!("type for example `12.5`{}", in_unit(unit)),
            Wrong::Formula => "type the number that it gives".into(),
            Wrong::GroupedOrDecimal => {
                "write it without a thousands sign, and with fewer or more than three digits after the decimal sign"
                    .into()
            }
            Wrong::CellUnit(unit) => format!("type the number of {unit} alone"),
            Wrong::TooManyDigits => "round it".into(),
            Wrong::OtherKind(kind) => match kind {
                Kind::Number(_) => "write a number, without quotation marks".into(),
                Kind::Text(_) => "write text in quotation marks".into(),
                Kind::Words(words) => format!("write {}", json_words(words)),
            },
            Wrong::OutOfRange(bound, unit) => format!("type {}", range(bound, unit)),
            Wrong::NotOfFamily(_) => "leave it empty, or mend the family".into(),
            Wrong::NotForWalking => {
                "type `no`, or `spotting` where it is out of the line of sight until it is used".into()
            }
            Wrong::Impossible(error) => error.hint().to_string(),
        }
    }

    fn unit(&self) -> &'static str {
        self.column.map_or("", Column::unit)
    }
}

fn in_unit(unit: &str) -> String {
    if unit.is_empty() { String::new() } else { format!(", in {}", named(unit)) }
}

/// A unit as it is said.
fn named(unit: &str) -> &str {
    match unit {
        "%" => "per cent",
        "x" => "times",
        unit => unit,
    }
}

/// `2 to 500 mm`.
fn range(bound: &Bound, unit: &str) -> String {
    let (least, most) = bound.possible;
    if unit.is_empty() { format!("{least} to {most}") } else { format!("{least} to {most} {}", named(unit)) }
}

fn quoted(words: &[&str]) -> String {
    listed(words.iter().map(|word| format!("`{word}`")).collect())
}

/// The words as JSON has them.
fn json_words(words: &'static [&'static str]) -> String {
    listed((0..words.len()).map(|place| super::json::word(words, place)).collect())
}

/// `a, b or c`.
fn listed(words: Vec<String>) -> String {
    match words.split_last() {
        Some((last, rest)) if !rest.is_empty() => format!("{} or {last}", rest.join(", ")),
        _ => words.concat(),
    }
}
