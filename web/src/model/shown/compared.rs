//! Aids of the list for one wish, as rows; and the smallest set, in words.

use crate::model::compared::{Cannot, Cell, Lack, Ranked, Table};
use crate::model::list::ListedAid;
use crate::model::{format, words};
use arcminute_core::acuity::{Scale, written};
use arcminute_core::kit::Plan;
use arcminute_core::rank::{Criteria, Criterion, FreeHands};
use arcminute_core::unit::{Angle, Length, LogMar, PrintSize, Vergence};

/// One aid for one wish, ready to show.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct AidLine {
    /// Key of the aid.
    pub id: String,
    /// What the list calls it.
    pub name: String,
    /// Chance of the wish.
    pub chance: String,
    /// What the chance means, in a word or two.
    pub reach: &'static str,
    /// What would just be read.
    pub reads: String,
    /// What is seen at once.
    pub seen: String,
    /// How it is used: distance and room, focus, hands, light.
    pub used: String,
    /// What the wish asks for and it does not give.
    pub lacks: String,
    /// By which aid it is beaten, and on what; empty on the front.
    pub beaten: String,
    /// Why it is none, if so.
    pub trouble: String,
}

/// An aid as a row; `beaten` by which other, and on what.
#[must_use]
pub fn aid_line(
    table: &Table,
    list: &[ListedAid],
    (aid, wish): (usize, usize),
    beaten: Option<(usize, Criteria)>,
    scale: Scale,
) -> Option<AidLine> {
    let listed = list.get(aid)?;
    let blank = AidLine { id: listed.id.clone(), name: listed.title(), ..AidLine::default() };
    Some(match table.cell(aid, wish)? {
        Err(cannot) => AidLine { trouble: cannot_words(cannot), ..blank },
        Ok(cell) => AidLine {
            chance: format::chance(cell.prediction.chance),
            reach: words::reach_short(cell.prediction.reach),
            reads: reads(cell, scale),
            seen: seen(cell),
            used: used(listed, cell),
            lacks: lacks(cell),
            beaten: beaten.and_then(|(by, on)| Some(beaten_words(list.get(by)?, on))).unwrap_or_default(),
            ..blank
        },
    })
}

/// Why an aid is none for a wish.
#[must_use]
pub fn cannot_words(cannot: &Cannot) -> String {
    match cannot {
        Cannot::OnlyPrint => "for print near only".into(),
        Cannot::OnlyFar => "for far only".into(),
        Cannot::NoAnswer(error) => format!("{error}; {}", error.hint()),
    }
}

/// Print, or an acuity, that would only just be read.
fn reads(cell: &Cell, scale: Scale) -> String {
    let least = cell.detail.height / cell.reserve_reached;
    match cell.detail.distance {
        None => format!("{} M", format::trimmed(PrintSize::of_x_height(least).m_units(), 2)),
        Some(distance) => {
            written(LogMar::of_angle(Angle::subtended(least / 5.0, distance)), scale).to_string()
        }
    }
}

/// One line: `7.2 cm from the eye, 4.6 cm free over the page; the eye relaxed; both hands free; light 92 %`.
fn used(listed: &ListedAid, cell: &Cell) -> String {
    let light = if listed.traits().shines {
        "shines by itself".into()
    } else {
        format!("light {}", format::percent(cell.light))
    };
    [distance(cell), focus(cell), hands(cell).to_owned(), light].join("; ")
}

/// What was found for a wish, in one sentence; the first is the one that reaches it at the lowest power, or whatever was
/// asked to come first.
#[must_use]
pub fn found_words(table: &Table, wish: usize, ranked: &Ranked, name: impl Fn(&usize) -> String) -> String {
    let Some(first) = ranked.front.first() else {
        return match ranked.but_for.len() {
            0 => "No aid of the list has a chance of it.".into(),
            _ => "No aid of the list gives all that it asks for.".into(),
        };
    };
    let chance = match table.cell(*first, wish) {
        Some(Ok(cell)) => format::chance(cell.prediction.chance),
        _ => String::new(),
    };
    let rest = match ranked.front.len() {
        1 => "no other is better at anything".to_owned(),
        2 => "one other is better at something".into(),
        count => format!("{} others are each better at something", count - 1),
    };
    format!("{}: chance {chance}; {rest}.", name(first))
}

fn seen(cell: &Cell) -> String {
    match (cell.width, cell.characters) {
        (None, _) => "no limit".into(),
        (Some(_), Some(characters)) if cell.detail.distance.is_none() => {
            format!("{} characters", format::decimals(characters, 0))
        }
        (Some(width), _) => format::width(width),
    }
}

fn distance(cell: &Cell) -> String {
    match (cell.detail.distance, cell.shown_to_eye) {
        (Some(distance), _) => format!("from {}", format::distance(distance)),
        (None, None) => "far".into(),
        (None, Some(to_eye)) => match cell.hand_room {
            Some(room) if Length::ZERO < room => {
                format!("{} from the eye, {} free over the page", format::close(to_eye), format::close(room))
            }
            Some(_) => format!("{} from the eye, it lies on the page", format::close(to_eye)),
            None => format!("{} from the eye", format::close(to_eye)),
        },
    }
}

fn focus(cell: &Cell) -> String {
    if cell.focus.is_sharp() {
        return if cell.focus.needed <= Vergence::from_dioptres(0.005) {
            "the eye relaxed".into()
        } else {
            format!(
                "{} of the eye's {}",
                format::dioptres(cell.focus.needed),
                format::dioptres(cell.focus.available)
            )
        };
    }
    let left = format::decimals(cell.focus.defocus.abs().dioptres(), 2);
    let loss = format::decimals(cell.loss.log(), 2);
    if loss == "0.00" {
        return "sharp enough".into();
    }
    format!("{left} D out of focus, costs {loss} log")
}

fn hands(cell: &Cell) -> &'static str {
    match (cell.merits.hands_free, cell.merits.both_eyes == Some(true)) {
        (Some(FreeHands::Both), true) => "both hands free, both eyes",
        (Some(FreeHands::Both), false) => "both hands free",
        (Some(FreeHands::One), true) => "one hand free, both eyes",
        (Some(FreeHands::One), false) => "one hand free",
        (_, true) => "no hand free, both eyes",
        (_, false) => "no hand free",
    }
}

/// What a wish asks for and an aid does not give.
#[must_use]
pub fn lack_words(lack: Lack) -> &'static str {
    match lack {
        Lack::Focus => "out of focus by more than this eye forgives",
        Lack::Distance => "print would have to be elsewhere",
        Lack::Seen => "shows less at once than is wanted: scan",
        Lack::Hands => "takes a hand that is needed",
        Lack::Walking => "not while walking",
        Lack::BothEyes => "for one eye",
    }
}

fn lacks(cell: &Cell) -> String {
    cell.lacks.iter().map(|lack| lack_words(*lack)).collect::<Vec<_>>().join("; ")
}

/// What a criterion is called.
#[must_use]
pub fn criterion_words(criterion: Criterion) -> &'static str {
    match criterion {
        Criterion::Chance => "chance",
        Criterion::SeenAtOnce => "what is seen at once",
        Criterion::HandRoom => "room for the hand",
        Criterion::Focus => "sharpness",
        Criterion::Depth => "depth of focus",
        Criterion::Light => "light",
        Criterion::HandsFree => "free hands",
        Criterion::BothEyes => "both eyes",
        Criterion::Steadiness => "steadiness",
        Criterion::Walking => "walking",
        Criterion::LowPower => "lower power",
    }
}

fn beaten_words(by: &ListedAid, on: Criteria) -> String {
    let on: Vec<_> = on.iter().map(criterion_words).collect();
    format!("beaten by {} on {}", by.title(), listed(&on))
}

/// `a`, `a and b`, `a, b and c`.
fn listed(names: &[&str]) -> String {
    match names {
        [] => String::new(),
        [one] => (*one).into(),
        [first @ .., last] => format!("{} and {last}", first.join(", ")),
    }
}

/// The smallest set, ready to show.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct KitShown {
    /// The answer in one sentence.
    pub answer: String,
    /// Each aid of the set: key, name, what it serves and what only it serves.
    pub aids: Vec<(String, String, String)>,
    /// Wishes that nothing serves.
    pub uncovered: Vec<String>,
    /// What each smaller set would give up.
    pub given_up: Vec<String>,
    /// Whether it is proved.
    pub proof: String,
}

/// The smallest set in words.
#[must_use]
pub fn kit_shown(table: &Table, list: &[ListedAid], plan: &Plan) -> KitShown {
    let wishes = |mask: u32| -> Vec<&str> {
        let named = table.asked.wishes.iter().enumerate();
        named.filter(|(place, _)| mask >> place & 1 == 1).map(|(_, named)| named.name.as_str()).collect()
    };
    let name = |place: usize| list.get(place).map(|aid| aid.title()).unwrap_or_default();
    let count = table.asked.wishes.len();
    let covered = plan.best.covered.count_ones() as usize;
    let chosen = plan.best.chosen.iter().count();
    let aids = if chosen == 1 { "One aid serves".into() } else { format!("{chosen} aids serve") };
    let answer = match (count, covered) {
        (0, _) => String::new(),
        (_, 0) => "No aid of the list serves any of the goals.".into(),
        (1, _) => "One aid serves the goal.".into(),
        (all, some) if all == some => format!("{aids} all {all} goals."),
        (all, some) => format!("{aids} {some} of {all} goals."),
    };
    let one = |chosen: &arcminute_core::kit::Chosen| {
        let id = list.get(chosen.place).map(|aid| aid.id.clone()).unwrap_or_default();
        let lost = wishes(chosen.lost);
        let only = if lost.is_empty() { String::new() } else { format!("without it: no {}", listed(&lost)) };
        (id, name(chosen.place), only)
    };
    let given_up = plan.smaller.iter().skip(1).map(|kit| {
        let names: Vec<_> = kit.chosen.iter().map(|chosen| name(chosen.place)).collect();
        let lost = wishes(plan.best.covered & !kit.covered);
        format!(
            "With {} alone: no {}.",
            listed(&names.iter().map(String::as_str).collect::<Vec<_>>()),
            listed(&lost)
        )
    });
    let uncovered =
        wishes(plan.uncoverable).into_iter().map(|wish| format!("No aid of the list serves {wish}."));
    let proof = match plan.exactness {
        arcminute_core::kit::Exactness::Proved => "Every set was looked at or ruled out: none is smaller.",
        arcminute_core::kit::Exactness::LimitReached => "The search was stopped: there may be a smaller set.",
    };
    KitShown {
        answer,
        aids: plan.best.chosen.iter().map(one).collect(),
        uncovered: uncovered.collect(),
        given_up: given_up.collect(),
        proof: if covered == 0 { String::new() } else { proof.into() },
    }
}
