//! Aids other than telescopes, each as a card.

use super::Shown;
use crate::model::aids::{For, Listed};
use crate::model::answer::{AidRow, Answer};
use crate::model::{format, words};
use arcminute_core::device::{FOCUS_LOSS, Outcome, Worn};
use arcminute_core::optics::Sight;
use arcminute_core::unit::{Angle, Length, LogMar, PrintSize, Vergence};

/// One aid, ready to show.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct AidCard {
    /// Stable key: the element's id on the page.
    pub id: String,
    /// What it is.
    pub name: &'static str,
    /// How it is used.
    pub used: &'static str,
    /// What it does.
    pub facts: Vec<Shown>,
    /// What to look at.
    pub notes: Vec<String>,
    /// The heads of the cautions that come with it.
    pub cautions: String,
    /// Why it cannot serve, if so.
    pub trouble: Option<String>,
}

/// The rows of near aids, or of far ones, by their places in the answer.
#[must_use]
pub fn aid_places(answer: &Answer, near: bool) -> Vec<usize> {
    let rows = answer.aids.rows.iter().enumerate();
    rows.filter(|(_, row)| (row.listed().serves == For::Print) == near).map(|(place, _)| place).collect()
}

/// An aid as a card.
#[must_use]
pub fn aid_card(answer: &Answer, place: usize) -> Option<AidCard> {
    let row = answer.aids.rows.get(place)?;
    let listed = row.listed();
    let heads: Vec<&str> = words::CAUTIONS
        .iter()
        .filter(|caution| listed.cautions.contains(&caution.place))
        .map(|caution| caution.head)
        .collect();
    let (facts, notes, trouble) = match &row.does {
        Ok(outcome) => (facts(answer, row, outcome), notes(listed, outcome), None),
        Err(error) => (Vec::new(), Vec::new(), Some(format!("Cannot serve: {error}; {}", error.hint()))),
    };
    Some(AidCard {
        id: key(listed),
        name: listed.name,
        used: listed.used,
        facts,
        notes,
        cautions: heads.join(", "),
        trouble,
    })
}

fn key(listed: &Listed) -> String {
    format!("aid-{}", listed.id)
}

fn facts(answer: &Answer, row: &AidRow, outcome: &Outcome) -> Vec<Shown> {
    let listed = row.listed();
    let near = listed.serves == For::Print;
    let prediction = &outcome.prediction;
    let reserve = format!("{} wanted", format::times(outcome.detail.reserve));
    let light = if listed.shines {
        "of the glasses alone: the screen shines by itself"
    } else {
        "against the bare eye"
    };
    let said: [(&str, &str, (String, String)); 9] = [
        ("reads", "Would just read", just_read(answer, outcome)),
        ("reserve", "Reserve reached", (format::times(outcome.reserve_reached), reserve)),
        (
            "chance",
            "Chance of the goal",
            (format::chance(prediction.chance), words::reach_words(prediction.reach).into()),
        ),
        ("size", if near { "As large as from" } else { "Magnification" }, size(outcome)),
        ("distance", if near { "Working distance" } else { "Distance" }, distance(listed, outcome)),
        ("focus", "Focusing asked for", (format::dioptres(outcome.focus.needed), focus_note(row, outcome))),
        ("seen", "Seen at once", seen_at_once(outcome, near)),
        ("depth", "In focus", depth(listed, outcome)),
        ("light", "Light", (format::percent(outcome.light), light.into())),
    ];
    let key = key(listed);
    said.into_iter()
        .map(|(name, what, (value, note))| Shown::new(format!("{key}-{name}"), what, value, note))
        .collect()
}

/// The print, or the acuity, that would only just be read.
fn just_read(answer: &Answer, outcome: &Outcome) -> (String, String) {
    match outcome.detail.distance {
        None => {
            let print = PrintSize::of_x_height(outcome.least_height);
            let height = format::decimals(outcome.least_height.mm(), 2);
            (format!("{} M", format::trimmed(print.m_units(), 2)), format!("x-height {height} mm"))
        }
        Some(distance) => {
            let acuity = LogMar::of_angle(Angle::subtended(outcome.least_height / 5.0, distance));
            let height = format!("{} mm", format::trimmed(outcome.least_height.mm(), 1));
            (answer.acuity(acuity), format!("letters {height} high at {}", format::distance(distance)))
        }
    }
}

fn size(outcome: &Outcome) -> (String, String) {
    match (outcome.detail.distance, outcome.equivalent_viewing_distance) {
        (None, Some(evd)) => {
            let power = Vergence::of_focal_length(evd);
            (format::close(evd), format!("equivalent viewing power {}", format::dioptres(power)))
        }
        _ => (format::times(outcome.angular.size()), "against the bare eye from the same place".into()),
    }
}

fn distance(listed: &Listed, outcome: &Outcome) -> (String, String) {
    let room = match outcome.arrangement.hand_room {
        Some(room) if room <= Length::ZERO => "it lies on the page".to_owned(),
        Some(room) => format!("{} free over the page", format::close(room)),
        None => "nothing in the way of the hand".to_owned(),
    };
    match (outcome.detail.distance, outcome.arrangement.shown_to_eye()) {
        (Some(distance), _) => (format::distance(distance), "eye to the thing".into()),
        (None, Some(to_eye)) => {
            let from = if listed.shines { "screen to eye" } else { "page to eye" };
            (format::close(to_eye), format!("{from}; {room}"))
        }
        (None, None) => ("far".into(), room),
    }
}

/// What meets the demand: glasses, add, accommodation; and what stays out of focus.
fn focus_note(row: &AidRow, outcome: &Outcome) -> String {
    let focus = &outcome.focus;
    let worn = match row.eye.worn {
        Worn::Nothing => "no glasses".to_owned(),
        Worn::Distance => "correction for far worn".to_owned(),
        Worn::Near { add } => format!("correction for far and add {} worn", format::dioptres(add)),
    };
    let has = format!("{worn}; the eye has {}", format::dioptres(focus.available));
    if focus.is_sharp() {
        return format!("{has}: sharp");
    }
    let left = format!("{} D", format::decimals(focus.defocus.abs().dioptres(), 2));
    let cylinder = if focus.cylinder_left.dioptres() < 0.01 {
        String::new()
    } else {
        format!(" and a cylinder of {} D", format::decimals(focus.cylinder_left.dioptres(), 2))
    };
    let loss = format::decimals(outcome.blurred.loss.log(), 2);
    format!("{has}: {left}{cylinder} out of focus, which costs {loss} log")
}

fn seen_at_once(outcome: &Outcome, near: bool) -> (String, String) {
    let Some(widths) = outcome.widths else { return ("no limit".into(), "as wide as without it".into()) };
    let note = match outcome.characters {
        Some(characters) if near => format!("about {} characters", format::decimals(characters, 0)),
        _ => "at the goal, to half light".to_owned(),
    };
    (format::close(widths.half), note)
}

fn depth(listed: &Listed, outcome: &Outcome) -> (String, String) {
    let from = match outcome.arrangement.sight {
        _ if listed.shines => "glasses to screen",
        Sight::At(distance) if distance <= Length::ZERO => "below the flat face",
        Sight::At(_) | Sight::Far => "before the first lens",
    };
    let note = format!("{from}; acuity falls by no more than {FOCUS_LOSS} log there");
    match outcome.depth {
        None => ("nothing".into(), "no distance is sharp".into()),
        Some(depth) => match depth.farthest {
            None => (format!("from {} on", format::close(depth.nearest)), note),
            Some(farthest) => {
                (format!("{} to {}", format::close(depth.nearest), format::close(farthest)), note)
            }
        },
    }
}

fn notes(listed: &Listed, outcome: &Outcome) -> Vec<String> {
    let mut notes = Vec::new();
    if listed.serves == For::Field {
        notes.push(format!(
            "For a field that is small: everything looks {} the size, so more is seen at once and detail is lost.",
            format::times(outcome.angular.size())
        ));
    }
    if outcome.tolerance < outcome.focus.defocus {
        notes.push(
            "It is too near for this eye: an add, accommodation or more distance would make it sharp.".into(),
        );
    } else if outcome.focus.defocus < -outcome.tolerance {
        notes.push("The light converges more than this eye can use: a weaker add or another distance would make it sharp.".into());
    }
    if outcome.blurred.beyond_domain {
        notes.push("The blur is stronger than the figures behind its cost, which end at 3.5 D.".into());
    }
    if !listed.note.is_empty() {
        notes.push(listed.note.into());
    }
    notes
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::draft::Draft;

    fn answer(refraction: &str, accommodation: &str) -> Answer {
        let mut draft = Draft::default();
        draft.person.right.acuity = "20/200".into();
        draft.person.right.refraction = refraction.into();
        draft.person.right.accommodation_d = accommodation.into();
        draft.goals[0].print = "1 M".into();
        draft.goals[0].reserve_times = "2".into();
        Answer::of(&draft)
    }

    #[track_caller]
    fn card(answer: &Answer, id: &str) -> AidCard {
        let mut cards = (0..answer.aids.rows.len()).filter_map(|place| aid_card(answer, place));
        cards.find(|card| card.id == id).expect("it has a card")
    }

    #[track_caller]
    fn said(card: &AidCard, name: &str) -> (String, String) {
        let key = format!("{}-{name}", card.id);
        let fact = card.facts.iter().find(|fact| fact.key == key).expect("it has this fact");
        (fact.value.clone(), fact.note.clone())
    }

    #[test]
    fn a_card_says_what_is_read_and_what_is_wanted() {
        let hand = card(&answer("", ""), "aid-hand-28");
        // 10 arcmin at 1/28 m.
        assert_eq!(said(&hand, "reads"), ("0.36 M".into(), "x-height 0.52 mm".into()));
        assert_eq!(said(&hand, "reserve"), ("2.8x".into(), "2x wanted".into()));
        let reach = "the middle of the retest band reaches the goal, its worse end does not";
        assert_eq!(said(&hand, "chance"), ("92 %".into(), reach.into()));
        assert_eq!(said(&hand, "size"), ("3.6 cm".into(), "equivalent viewing power +28.00 D".into()));
        let page = "page to eye; 3.6 cm free over the page";
        assert_eq!(said(&hand, "distance"), ("10.2 cm".into(), page.into()));
        assert_eq!(hand.cautions, "Sun and fire, Working distance");
        assert_eq!(hand.notes, [""; 0]);
    }

    #[test]
    fn what_meets_the_demand_is_said() {
        let larger = |refraction, accommodation| {
            let card = card(&answer(refraction, accommodation), "aid-larger");
            (said(&card, "focus"), card.notes.len())
        };
        let ((asked, note), notes) = larger("", "");
        assert_eq!(asked, "+2.50 D");
        assert!(
            note.starts_with("correction for far worn; the eye has +0.00 D: 2.50 D out of focus"),
            "{note}"
        );
        assert_eq!(notes, 1, "too near");
        let ((asked, note), notes) = larger("", "3");
        assert_eq!((asked.as_str(), notes), ("+2.50 D", 0));
        assert_eq!(note, "correction for far worn; the eye has +3.00 D: sharp");
        let ((_, note), notes) = larger("plano add +2.50", "");
        assert!(note.starts_with("correction for far and add +2.50 D worn; the eye has +0.00 D: "), "{note}");
        assert_eq!(notes, 0);
        let thick = card(&answer("-2.00 -1.00 x 90", ""), "aid-high-plus-thick");
        let (_, note) = said(&thick, "focus");
        assert!(note.starts_with("no glasses; the eye has +0.00 D: 0.00 D and a cylinder of 0.9"), "{note}");
    }

    #[test]
    fn what_holds_for_one_family_is_said_there() {
        let answer = answer("plano add +2.50", "");
        let (_, light) = said(&card(&answer, "aid-desk-screen"), "light");
        assert_eq!(light, "of the glasses alone: the screen shines by itself");
        let (_, room) = said(&card(&answer, "aid-dome"), "distance");
        assert_eq!(room, "page to eye; it lies on the page");
        let (_, room) = said(&card(&answer, "aid-tablet"), "distance");
        assert_eq!(room, "screen to eye; nothing in the way of the hand");
        assert_eq!(said(&card(&answer, "aid-nearer"), "seen").0, "no limit");
        let reversed = card(&answer, "aid-reversed-telescope");
        assert_eq!(said(&reversed, "size").0, "0.4x");
        assert!(
            reversed.notes[0].starts_with("For a field that is small: everything looks 0.4x"),
            "{reversed:?}"
        );
        assert!(card(&answer, "aid-bar").notes[0].starts_with("It makes letters higher"), "the bar");
        assert_eq!((aid_places(&answer, true).len(), aid_places(&answer, false).len()), (14, 4));
    }
}
