//! The letter to the school: what the pupil can see from where, with which aid, and what to do. Nothing of a diagnosis.

use super::rows::{BLANK, clipped, heading, point, row, row_of, side, text, typed_words, write};
use super::{BOTH_EYES, Block, Inputs};
use crate::model::draft::EyeChoice;
use crate::model::format;
use crate::model::list::{For, ListedAid};
use crate::model::words::careful;
use arcminute_core::device::{Detail, look};
use arcminute_core::print::{PointSystem, points_for, print_for, typeface};
use arcminute_core::reading::anchors;
use arcminute_core::scene::{CLASSROOM_DAY, letter_height};
use arcminute_core::unit::{Length, LogMar, PrintSize};

/// Seats whose letters are told, metres from the board.
const SEATS_M: [f64; 3] = [2.0, 4.0, 6.0];
/// From where print is read, centimetres: as a child holds it, and as at a desk. Assumed.
const PRINT_CM: [f64; 2] = [25.0, 40.0];

pub(super) fn body(inputs: &Inputs<'_>) -> (String, Vec<Block>) {
    let order = &inputs.draft.order;
    let aid = inputs.looked_aid();
    let mut blocks = vec![text(
        "The sizes are computed from the sight that was measured: see in the room whether they hold. This letter holds no diagnosis.",
    )];
    match better(inputs) {
        None => {
            blocks.push(heading("What the pupil can see"));
            blocks.push(row("Sight of either eye", BLANK));
        }
        Some((eye, acuity)) => {
            blocks.extend(board(inputs, eye, acuity));
            blocks.extend(print(inputs, acuity));
        }
    }
    blocks.push(heading("In the room"));
    blocks.push(point("Seat: from where the letters on the board are as large as above, near the middle, back to the window."));
    blocks.push(point("Light: even, on the work and not in the eyes; no glare on the board or on the page. Dark, thick letters on a plain ground."));
    blocks.push(point("Say aloud what is written on the board. Give copies that are black and clear: a grey copy does not help, however large."));
    blocks.push(heading("The aid"));
    blocks.push(row("Aid", aid.map_or(BLANK.into(), |aid| aid.title())));
    blocks.push(row("What for", goals(inputs)));
    for what in [
        "How long at a time",
        "Who trains its use",
        "Who carries, cleans and stores it",
        "What does not help this pupil",
    ] {
        blocks.push(write(what));
    }
    blocks.extend(careful_there(aid));
    blocks.push(heading("Then"));
    blocks.extend(typed_words("To be looked at again", &order.follow_up, super::OPEN));
    blocks.push(write("Whom to ask"));
    if !order.school_notes.trim().is_empty() {
        blocks.extend(typed_words("Notes", &order.school_notes, ""));
    }
    ("Letter to the school".into(), blocks)
}

/// What to be careful of, in the words for the person; nobody drives at school.
fn careful_there(aid: Option<&ListedAid>) -> Vec<Block> {
    let places = aid.map(|aid| aid.cautions()).unwrap_or_default();
    let told = places.iter().flat_map(|place| careful(*place)).filter(|words| !words.contains("drive"));
    let points: Vec<Block> = told.map(|words| point(*words)).collect();
    let head = (!points.is_empty()).then(|| heading("Be careful"));
    head.into_iter().chain(points).collect()
}

/// The eye that sees more, and its acuity.
fn better(inputs: &Inputs<'_>) -> Option<(EyeChoice, LogMar)> {
    let measured =
        BOTH_EYES.into_iter().filter_map(|eye| Some((eye, inputs.answer.eye_answer(eye).log_mar()?)));
    measured.min_by(|one, other| one.1.log().total_cmp(&other.1.log()))
}

fn goals(inputs: &Inputs<'_>) -> String {
    inputs.answer.goal_answer().map_or(BLANK.into(), |goal| clipped(&goal.name, 120))
}

/// `24 mm, with ease 47 mm`.
fn sizes(least: Length) -> String {
    let with_ease = least * anchors::FLUENT.reserve;
    let mm = |height: Length| format!("{} mm", format::decimals(height.mm(), 0));
    format!("{}; with ease {}", mm(least), mm(with_ease))
}

/// How high letters on the board have to be from each seat.
fn board(inputs: &Inputs<'_>, eye: EyeChoice, acuity: LogMar) -> Vec<Block> {
    let aid = inputs.looked_aid().filter(|aid| aid.serves() == For::Far);
    let mut blocks = vec![heading("Letters on the board: how high they have to be")];
    let with_usual = format!("Usual glasses, {} eye", side(eye));
    let with_aid = match aid {
        Some(aid) => format!("{}, {} eye", clipped(&aid.title(), 40), side(inputs.answer.eye)),
        None => "With the aid".into(),
    };
    blocks.push(Block::Columns(vec!["Seat".into(), with_usual, with_aid]));
    for metres in SEATS_M {
        let distance = Length::from_m(metres);
        let bare = letter_height(distance, acuity, 1.0);
        let bare = bare.map_or(BLANK.into(), |letters| sizes(letters.height));
        let aided = match aid {
            Some(aid) => through(inputs, aid, Some(distance))
                .map_or("not sharp, or not to be used, so near".into(), sizes),
            None => "not for the board".into(),
        };
        blocks.push(row_of([format!("{metres} m from the board"), bare, aided]));
    }
    blocks.push(text(format!(
        "The first height is only just read, the second is {} times as high. Computed: 10 × distance × tan(half the smallest detail seen); through the aid by the same model as on Bench.",
        format::trimmed(anchors::FLUENT.reserve, 1)
    )));
    blocks
}

/// The least height read through an aid, of a thing at a distance or of print near; nothing where it is not sharp.
fn through(inputs: &Inputs<'_>, aid: &ListedAid, distance: Option<Length>) -> Option<Length> {
    let behind = inputs.answer.behind?;
    let (used, eye) = behind.used(aid, distance).ok()?;
    // What is read at least does not depend on the height of what is shown.
    let detail = Detail { height: Length::from_mm(10.0), distance, reserve: 1.0 };
    let outcome = look(&used.arrange(&eye, distance).ok()?, &eye, detail).ok()?;
    let is_sharp = outcome.focus.defocus.abs() <= outcome.tolerance;
    is_sharp.then_some(outcome.least_height)
}

/// Print, in metres of the trade and in points of two typefaces.
fn print(inputs: &Inputs<'_>, acuity: LogMar) -> Vec<Block> {
    let (short, lasting) = (anchors::SPOT_TAUGHT.reserve, CLASSROOM_DAY.near_reserve);
    let mut blocks = vec![heading("Print: the smallest that can be read")];
    blocks.push(Block::Columns(["From", "For a short look", "To read for long"].map(Into::into).into()));
    for cm in PRINT_CM {
        let distance = Length::from_cm(cm);
        let Ok(least) = print_for(acuity, distance) else { continue };
        let at = |reserve: f64| points(PrintSize::from_m_units(least.print.m_units() * reserve));
        blocks.push(row_of([
            format!("{} to the eye, usual glasses", format::distance(distance)),
            at(short),
            at(lasting),
        ]));
    }
    let aid = inputs.looked_aid().filter(|aid| aid.serves() == For::Print);
    if let Some(least) = aid.and_then(|aid| through(inputs, aid, None)) {
        let least = PrintSize::of_x_height(least).m_units();
        let at = |reserve: f64| points(PrintSize::from_m_units(least * reserve));
        blocks.push(row_of(["With the aid, at its distance".into(), at(short), at(lasting)]));
    }
    blocks.push(text(format!(
        "If the eyes can focus there. For a short look {} times the smallest size seen (as taught), for long {} times (a study of classrooms). M and points of Times and of Arial; another typeface of the same points may be smaller.",
        format::trimmed(short, 1),
        format::trimmed(lasting, 1)
    )));
    blocks
}

/// `2.1 M: 19 pt Times, 16 pt Arial`.
fn points(size: PrintSize) -> String {
    let of =
        |ratio: f64| points_for(size, PointSystem::Desktop, ratio).map(|of| format::decimals(of.count, 0));
    let m = format::trimmed(size.m_units(), 1);
    match (of(typeface::TIMES.ratio), of(typeface::HELVETICA.ratio)) {
        (Ok(times), Ok(arial)) => format!("{m} M: {times} pt Times, {arial} pt Arial"),
        _ => format!("{m} M"),
    }
}
