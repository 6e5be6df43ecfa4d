//! The shelf: everyday things with sources, found by their words and taken as wishes.
//!
//! The sizes, distances and contrasts are those of the core's table; the words to find them by and how well they are
//! usually to be seen are ours. What fills a goal stays as it is typed there, and can be changed.

use super::answer::reserve_of;
use super::draft::{GoalDraft, GoalKind, HowWell};
use super::{format, words};
use arcminute_core::contrast::Measure;
use arcminute_core::everyday::{ALL, Everyday, Extent, Part, everyday_demand};
use arcminute_core::source::Standing;
use arcminute_core::unit::{Length, PrintSize};

/// Letters up to this height are print that is held; higher ones stand somewhere. Ours.
const PRINT_UP_TO_MM: f64 = 12.0;
/// From where print is said to be read when no distance is known. Assumed.
const PRINT_AT_CM: f64 = 40.0;

/// A thing of the shelf.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ShelfItem {
    /// Stable key.
    pub key: &'static str,
    /// What it is called.
    pub name: &'static str,
    /// The goal that it fills.
    pub goal: GoalDraft,
    /// How large it is.
    pub size: String,
    /// From where it is seen, and how that is known; may be empty.
    pub distance: String,
    /// Its contrast, and how that is known; may be empty.
    pub contrast: String,
    /// What it asks for, without a reserve; may be empty.
    pub asks: String,
    /// The work its size comes from, and how well that is known.
    pub source: String,
}

/// What is ours of a thing.
struct Ours {
    key: &'static str,
    how_well: HowWell,
    /// Distance of our own where the table knows none.
    from_m: &'static str,
    /// Other words that it is found by.
    also: &'static str,
}

const fn ours(key: &'static str, how_well: HowWell, also: &'static str) -> Ours {
    Ours { key, how_well, from_m: "", also }
}

use HowWell::{Read, ReadLong, Spot};

/// A line for each thing of the table.
const OURS: &[Ours] = &[
    ours("newspaper", ReadLong, "news article journal paper magazine"),
    ours("paperback", ReadLong, "book novel story"),
    ours("childrens-book", Read, "child kid school reader picture story"),
    ours("headline", Spot, "newspaper title heading"),
    ours("fluent-range", Read, "comfortable easy"),
    ours("food-label", Spot, "packet tin jar ingredients cooking medicine small print sell by date"),
    ours("food-label-small", Spot, "packet tin jar ingredients cooking medicine small print sell by date"),
    ours("phone-message", Read, "mobile smartphone chat sms"),
    ours("phone-web-page", Read, "mobile smartphone internet site browser"),
    ours("screen", Read, "computer monitor laptop tablet mail email internet"),
    ours("screen-low-vision", Read, "computer monitor laptop tablet mail email enlarged"),
    ours("display-letters", Read, "screen machine till ticket computer"),
    ours("display-letters-least", Read, "screen machine till ticket computer"),
    ours("browser-text", Read, "screen computer internet site"),
    ours("enlarged-print", Read, "handout worksheet exam"),
    ours("large-print", Read, "handout worksheet exam book"),
    ours("large-print-uk", Read, "handout worksheet exam book"),
    ours("giant-print", Read, "handout worksheet exam"),
    ours("price-tag", Spot, "shop supermarket shopping market money"),
    ours("bus-number", Spot, "tram coach route line transport travel stop destination"),
    ours("bus-number-side", Spot, "tram coach route line transport travel stop"),
    ours("number-plate", Spot, "car licence license registration driving"),
    ours("number-plate-stroke", Spot, "car licence license registration detail"),
    ours("building-sign-low", Spot, "door room office hospital indoor"),
    ours("building-sign-middle", Spot, "door room office hospital indoor"),
    ours("building-sign-high", Spot, "door room office hospital indoor station"),
    ours("street-name", Spot, "road address corner"),
    ours("street-name-lower-case", Spot, "road address corner"),
    ours("us-front", Read, "blackboard whiteboard classroom school teacher lesson writing"),
    ours("us-back", Read, "blackboard whiteboard classroom school teacher lesson writing"),
    ours("au-distance", Read, "blackboard whiteboard classroom school teacher lesson writing"),
    ours("au-near", Read, "classroom school book worksheet lesson handout"),
    ours("in-distance", Read, "blackboard classroom school teacher lesson writing"),
    ours("ng-farthest", Read, "blackboard classroom school teacher lesson writing"),
    ours("ng-nearest", Read, "blackboard classroom school teacher lesson writing"),
    Ours { from_m: "2", ..ours("face", Spot, "people person friend family recognise expression") },
];

/// The six that are offered together: a start to edit, not a norm.
pub const USUAL_SIX: [&str; 6] = ["us-back", "bus-number", "face", "food-label", "newspaper", "screen"];

/// The things whose words begin with every word of the text, in any order and any case: those found by their name
/// first. All of them for an empty text.
///
/// ```
/// use arcminute_web::model::shelf;
/// let keys = |text| shelf::search(text).into_iter().map(|item| item.key).collect::<Vec<_>>();
/// assert_eq!(keys("BUS num"), ["bus-number", "bus-number-side"]);
/// assert_eq!(keys("tram"), ["bus-number", "bus-number-side"], "by another word");
/// assert!(keys("no such thing").is_empty());
/// ```
#[must_use]
pub fn search(text: &str) -> Vec<ShelfItem> {
    let text = text.to_ascii_lowercase();
    let wanted: Vec<&str> =
        text.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty()).collect();
    let found = |row: &&Everyday, by_name: bool| {
        let (name, also) = (named(row).to_ascii_lowercase(), ours_of(row.id).map_or("", |ours| ours.also));
        let all = |haystack: &str| wanted.iter().all(|wanted| begins(haystack, wanted));
        if by_name { all(&name) } else { !all(&name) && all(&format!("{name} {also}")) }
    };
    let pass = |by_name: bool| ALL.iter().filter(move |row| found(row, by_name));
    pass(true).chain(pass(false)).map(item).collect()
}

/// Whether a word of a text begins so, or so without the `s` of several.
fn begins(text: &str, wanted: &str) -> bool {
    let one = wanted.strip_suffix('s').filter(|one| 2 < one.len()).unwrap_or(wanted);
    text.split(|c: char| !c.is_alphanumeric()).any(|word| word.starts_with(one))
}

/// The six usual wishes, as goals.
#[must_use]
pub fn usual_six() -> Vec<GoalDraft> {
    USUAL_SIX.iter().filter_map(|key| by_key(key)).map(|item| item.goal).collect()
}

/// The thing that filled a goal, as long as its size, distances and contrast stand there as they were filled in.
#[must_use]
pub fn taken_from(goal: &GoalDraft) -> Option<ShelfItem> {
    let item = by_key(&goal.shelf)?;
    let measures = |goal: &GoalDraft| {
        [
            &goal.acuity,
            &goal.letter_height_mm,
            &goal.detail_mm,
            &goal.print,
            &goal.distance_m,
            &goal.farthest_m,
            &goal.contrast_percent,
        ]
        .map(Clone::clone)
    };
    (item.goal.kind == goal.kind && measures(&item.goal) == measures(goal)).then_some(item)
}

fn by_key(key: &str) -> Option<ShelfItem> {
    ALL.iter().find(|row| row.id == key).map(item)
}

fn ours_of(key: &str) -> Option<&'static Ours> {
    OURS.iter().find(|ours| ours.key == key)
}

/// The name without what is said behind it.
fn named(row: &Everyday) -> &'static str {
    row.name.split(';').next().unwrap_or(row.name)
}

fn item(row: &'static Everyday) -> ShelfItem {
    let goal = goal(row);
    ShelfItem {
        key: row.id,
        name: named(row),
        size: size(row),
        distance: distance(row),
        contrast: contrast(row),
        asks: asks(row, &goal),
        source: format!("{} ({})", row.source.citation, words::standing(row.standing)),
        goal,
    }
}

/// The goal that a thing fills.
fn goal(row: &'static Everyday) -> GoalDraft {
    let ours = ours_of(row.id);
    let how_well = ours.map(|ours| ours.how_well).unwrap_or_default();
    let (nearest, farthest) = match row.from.map(|from| from.distance()) {
        Some(Extent { least: Some(least), usual: None, most: Some(most) }) => (metres(least), metres(most)),
        Some(extent) => (extent.one().map(metres).unwrap_or_default(), String::new()),
        None => (ours.map_or("", |ours| ours.from_m).to_owned(), String::new()),
    };
    let share = row.contrast.and_then(|contrast| contrast.share.usual.or(contrast.share.least));
    let filled = GoalDraft {
        name: named(row).into(),
        how_well,
        contrast_percent: share.map(|share| format::trimmed(share * 100.0, 1)).unwrap_or_default(),
        shelf: row.id.into(),
        ..GoalDraft::default()
    };
    let placed =
        |kind: GoalKind| GoalDraft { kind, distance_m: nearest, farthest_m: farthest, ..filled.clone() };
    let mm = |length: Length| format::trimmed(length.mm(), 2);
    match (row.part, row.height().and_then(Extent::one)) {
        (Part::Stroke, Some(stroke)) => GoalDraft { detail_mm: mm(stroke), ..placed(GoalKind::Detail) },
        (Part::Width, _) => placed(GoalKind::Face),
        (Part::XHeight | Part::Capital | Part::Number, Some(height)) if height.mm() <= PRINT_UP_TO_MM => {
            GoalDraft { kind: GoalKind::Print, print: print(height), ..filled }
        }
        (Part::XHeight | Part::Capital | Part::Number, Some(height)) => {
            GoalDraft { letter_height_mm: mm(height), ..placed(GoalKind::Letters) }
        }
        // Known by what it asks for alone: an acuity takes a reserve only where one is typed.
        (Part::Demand | Part::XHeight | Part::Capital | Part::Number | Part::Stroke, _) => {
            let log = asked_log(row, None).unwrap_or_default();
            let reserve = format::trimmed(reserve_of(how_well).reserve, 2);
            GoalDraft {
                kind: GoalKind::Acuity,
                acuity: format!("{} logMAR", format::decimals(log, 2)),
                reserve_times: reserve,
                ..filled
            }
        }
    }
}

/// What it asks for without a reserve, in log units.
fn asked_log(row: &'static Everyday, distance: Option<Length>) -> Option<f64> {
    everyday_demand(row, distance, 1.0).ok().map(|demand| demand.to_reach().log())
}

fn metres(length: Length) -> String {
    format::trimmed(length.m(), 3)
}

/// Print in M units where they are round, else as its measured height.
fn print(height: Length) -> String {
    let m = PrintSize::of_x_height(height).m_units();
    let short = format::trimmed(m, 2);
    let exact = short.parse::<f64>().is_ok_and(|short| arcminute_core::math::abs(short - m) < 1e-6);
    if exact { format!("{short} M") } else { format!("{} mm", format::trimmed(height.mm(), 2)) }
}

fn size(row: &Everyday) -> String {
    let of = match row.part {
        Part::XHeight => "x-height ",
        Part::Capital => "capitals ",
        Part::Number => "numbers ",
        Part::Stroke => "stroke ",
        Part::Width => "width ",
        Part::Demand => "",
    };
    if let Some(height) = row.height() {
        let print = row.print().filter(|_| height.one().is_some_and(|height| height.mm() <= PRINT_UP_TO_MM));
        let in_m = print.map(|print| print.map(|print| print.m_units()));
        let in_m = in_m.map(|print| format!(", {}", extent(print, "M"))).unwrap_or_default();
        return format!("{of}{}{in_m}", extent(height.map(|height| height.mm()), "mm"));
    }
    match row.angle() {
        Some(angle) => format!("{of}{}", extent(angle.map(|angle| angle.arcmin()), "minutes of arc")),
        None => "measured by what it asks for".into(),
    }
}

fn distance(row: &Everyday) -> String {
    let Some(from) = row.from else {
        let ours = ours_of(row.id).map_or("", |ours| ours.from_m);
        let example = words::standing(Standing::Assumed);
        return if ours.is_empty() {
            String::new()
        } else {
            format!("from {ours} m ({example}: an example)")
        };
    };
    let metres = extent(from.distance().map(|distance| distance.m()), "m");
    match from.standing {
        Standing::Assumed => format!("from {metres} ({}: an example)", words::standing(from.standing)),
        standing => format!("from {metres} ({})", words::standing(standing)),
    }
}

fn contrast(row: &Everyday) -> String {
    let Some(contrast) = row.contrast else { return String::new() };
    let share = extent(contrast.share.map(|share| share * 100.0), "%");
    let kind = match contrast.measure {
        Measure::Weber => "Weber",
        Measure::NotSaid => "of what kind is not said",
    };
    format!("contrast {share}, {kind} ({})", words::standing(contrast.source.standing))
}

fn asks(row: &'static Everyday, goal: &GoalDraft) -> String {
    let from = match goal.kind {
        GoalKind::Face => return "8 to 16 cycles across the face".into(),
        GoalKind::Acuity => None,
        GoalKind::Print => Some(Length::from_cm(PRINT_AT_CM)),
        GoalKind::Letters | GoalKind::Detail => row.from.and_then(|from| from.distance().one()),
    };
    let Some(log) = asked_log(row, from) else { return String::new() };
    let log = format::decimals(log, 2);
    match from {
        Some(from) => format!("asks for {log} logMAR from {}", format::distance(from)),
        None => format!("asks for {log} logMAR"),
    }
}

/// `1.1 M (0.7 to 2.1)`, `1.2 mm or more`.
fn extent(extent: Extent<f64>, unit: &str) -> String {
    let number = |value: f64| format::trimmed(value, if unit == "m" { 3 } else { 2 });
    match (extent.least, extent.usual, extent.most) {
        (Some(least), Some(usual), Some(most)) => {
            format!("{} {unit} ({} to {})", number(usual), number(least), number(most))
        }
        (Some(least), _, Some(most)) if number(least) == number(most) => format!("{} {unit}", number(least)),
        (Some(least), _, Some(most)) => format!("{} to {} {unit}", number(least), number(most)),
        (_, Some(usual), _) => format!("{} {unit}", number(usual)),
        (Some(least), ..) => format!("{} {unit} or more", number(least)),
        (.., Some(most)) => format!("{} {unit} or less", number(most)),
        (None, None, None) => String::new(),
    }
}

#[cfg(test)]
mod tests;
