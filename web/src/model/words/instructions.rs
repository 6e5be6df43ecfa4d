//! What a person is told about an aid: how to use it, how to look after it, what to be careful of.
//!
//! Plain words and short sentences, for a reading age of about twelve: no medical word, no number of an eye. All of it is
//! common practice, no source, unless it is a caution. A readability formula is run over every line in a test.

use super::Where;
use crate::model::list::{Column, Family, ListedAid, Wears};

/// How an aid is looked after.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Care {
    /// There is no device.
    Page,
    /// A lens, or several.
    Lens,
    /// It runs on electricity.
    Electric,
}

/// What a person is told about a family of aids.
#[derive(Clone, Copy, Debug)]
pub struct Instructions {
    /// The family.
    pub family: Family,
    /// What it is called in plain words.
    pub plain_name: &'static str,
    /// How it is used, step by step.
    pub steps: &'static [&'static str],
    /// How it is looked after.
    pub care: Care,
}

const SIT: &str = "Sit down, or stand still.";
const SIT_AND_LAMP: &str = "Sit down. Put a good lamp beside you, so that its light falls on the page.";
const REST: &str = "Rest your eyes when they are tired. Then go on.";
const DAILY: &str = "Use it a little every day. It gets easier.";
/// How a telescope is made sharp; said of one that can be.
const TURN: &str = "Turn the ring slowly until the thing is sharp. Turn it again for a new distance.";

const fn of(
    family: Family,
    plain_name: &'static str,
    care: Care,
    steps: &'static [&'static str],
) -> Instructions {
    Instructions { family, plain_name, steps, care }
}

/// What is told, in the order of the families.
static ALL: [Instructions; 19] = [
    of(
        Family::Nearer,
        "print held nearer",
        Care::Page,
        &[
            SIT_AND_LAMP,
            "Bring the page nearer to your eye until you can read it.",
            "Keep it there. A reading stand holds the page for you.",
            "Move the page, not your head.",
            REST,
        ],
    ),
    of(
        Family::Larger,
        "a larger copy",
        Care::Page,
        &[
            SIT_AND_LAMP,
            "Use the large copy in place of the small print.",
            "Ask for a copy that is black and clear, not grey.",
            REST,
        ],
    ),
    of(
        Family::HighPlus,
        "strong reading glasses",
        Care::Lens,
        &[
            SIT_AND_LAMP,
            "Put the glasses on.",
            "Bring the page up to your nose. Move it away slowly until the print is sharp.",
            "Keep it at that distance. A reading stand holds the page for you.",
            "Move the page, not your head.",
            "Take the glasses off before you stand up.",
            REST,
        ],
    ),
    of(
        Family::ThickHighPlus,
        "strong reading glasses",
        Care::Lens,
        &[
            SIT_AND_LAMP,
            "Put these glasses on in place of your own.",
            "Bring the page up to your nose. Move it away slowly until the print is sharp.",
            "Keep it at that distance. A reading stand holds the page for you.",
            "Move the page, not your head.",
            "Take the glasses off before you stand up.",
            REST,
        ],
    ),
    of(
        Family::Hand,
        "a hand magnifier",
        Care::Lens,
        &[
            SIT_AND_LAMP,
            "Lay the lens flat on the page.",
            "Lift it slowly until the print is large and sharp. Keep it there.",
            "Move the lens along the line.",
            "Bring your eye nearer to the lens to see more words at once.",
            REST,
        ],
    ),
    of(
        Family::Stand,
        "a stand magnifier",
        Care::Lens,
        &[
            SIT_AND_LAMP,
            "Put the magnifier flat on the page.",
            "Look straight down through the middle of the lens.",
            "Slide it along the line. Do not lift it.",
            "Bring your eye nearer to the lens to see more words at once.",
            REST,
        ],
    ),
    of(
        Family::Dome,
        "a dome magnifier",
        Care::Lens,
        &[
            SIT_AND_LAMP,
            "Put the dome on the page, with its flat side down.",
            "Look straight down through the middle.",
            "Slide it along the line. Do not lift it.",
            REST,
        ],
    ),
    of(
        Family::Bar,
        "a bar magnifier",
        Care::Lens,
        &[
            SIT_AND_LAMP,
            "Put the bar on the line of print, with its flat side down.",
            "Read the line through it. It makes letters taller, not wider.",
            "Slide it down to the next line.",
            REST,
        ],
    ),
    of(
        Family::Sheet,
        "a magnifying sheet",
        Care::Lens,
        &[
            SIT_AND_LAMP,
            "Hold the sheet flat over the page.",
            "Lift it slowly until the print is large and sharp. Keep it there.",
            "Tilt it a little if you see the lamp in it.",
            REST,
        ],
    ),
    of(
        Family::DeskScreen,
        "a reading screen",
        Care::Electric,
        &[
            "Sit down in front of the screen.",
            "Put the page under the camera.",
            "Start with small letters on the screen. Make them larger until you read with ease.",
            "Try white letters on black. Keep what is best for you.",
            "Slide the page slowly along the line.",
            REST,
        ],
    ),
    of(
        Family::HandScreen,
        "a small reading screen",
        Care::Electric,
        &[
            "Sit down. Switch it on.",
            "Lay it on the page.",
            "Start with small letters on the screen. Make them larger until you read with ease.",
            "Try white letters on black. Keep what is best for you.",
            "Slide it slowly along the line.",
            REST,
        ],
    ),
    of(
        Family::Tablet,
        "a tablet",
        Care::Electric,
        &[
            "Sit down. Put the tablet on a stand if you have one.",
            "Make the letters larger until you read with ease.",
            "Make them bold and black on white, or white on black. Keep what is best for you.",
            REST,
        ],
    ),
    of(
        Family::DistanceCamera,
        "a camera with a screen",
        Care::Electric,
        &[
            "Sit down in front of the screen.",
            "Point the camera at what you want to see.",
            "Look at the screen. Make the picture larger until you see it well.",
            "Turn the camera slowly to look along a line.",
            REST,
        ],
    ),
    of(
        Family::HeadMounted,
        "a screen that you wear",
        Care::Electric,
        &[
            "Sit down. Put it on and switch it on.",
            "Look at the thing. Start with a small picture and make it larger.",
            "Turn your head slowly.",
            "Take it off before you stand up.",
            REST,
        ],
    ),
    of(
        Family::HandTelescope,
        "a hand telescope",
        Care::Lens,
        &[
            SIT,
            "Find the thing first without the telescope. Keep looking at it.",
            "Hold the small end close to your eye. Rest your hand on your brow.",
            "Point it at the thing.",
            "Look for a short time. Put it down before you walk.",
            DAILY,
        ],
    ),
    of(
        Family::MountedTelescope,
        "a small telescope in your glasses",
        Care::Lens,
        &[
            SIT,
            "Find the thing first through your glasses, not through the telescope.",
            "Keep your eye on the thing. Drop your chin a little, until you look through the telescope.",
            "Look for a short time. Lift your chin to see the room again.",
            "Lift your chin before you walk.",
            DAILY,
        ],
    ),
    of(
        Family::CappedTelescope,
        "a telescope with a reading cap",
        Care::Lens,
        &[
            SIT_AND_LAMP,
            "Put the cap on the front of the telescope.",
            "Hold the page still. Move nearer or farther until the print is sharp.",
            "Keep it at that distance. A reading stand holds the page for you.",
            "Move the page, not your head.",
            "Take it off before you stand up.",
            REST,
        ],
    ),
    of(
        Family::ReversedTelescope,
        "a telescope used the other way round",
        Care::Lens,
        &[
            SIT,
            "Look through the large end. All looks small, and you see more of it.",
            "Find the thing that you look for.",
            "Take the telescope away. Look at the thing with your eye.",
            DAILY,
        ],
    ),
    of(
        Family::MinusLens,
        "a lens that shows more of the room",
        Care::Lens,
        &[
            SIT,
            "Hold the lens out in front of you.",
            "Look through it. All looks small, and you see more of it.",
            "Find the thing that you look for.",
            "Put the lens down. Look at the thing with your eye.",
            DAILY,
        ],
    ),
];

/// What a person is told about a family of aids.
#[must_use]
pub fn instructions(family: Family) -> &'static Instructions {
    &ALL[family as usize]
}

/// How to use this aid, step by step: what to wear first, then what its family needs.
#[must_use]
pub fn steps_for(aid: &ListedAid) -> Vec<&'static str> {
    let told = instructions(aid.family);
    let mut steps: Vec<&'static str> = told.steps.to_vec();
    let wear = match (aid.traits().glasses, aid.family) {
        (_, Family::MountedTelescope | Family::HighPlus | Family::ThickHighPlus) => None,
        (Wears::Nothing, _) => Some("Take your own glasses off."),
        (Wears::Distance, _) => Some("Wear your glasses for far."),
        (Wears::Add, _) => Some("Wear your reading glasses, if you have them."),
    };
    if let Some(wear) = wear {
        steps.insert(1, wear);
    }
    if aid.family.is_telescope() && aid.number(Column::NearestFocus).is_some() {
        // Before the words on how long to look, which are the last but one or two.
        let at =
            steps.iter().position(|step| step.starts_with("Look for a short time")).unwrap_or(steps.len());
        steps.insert(at, TURN);
    }
    steps
}

impl Care {
    /// What to do, sentence by sentence.
    #[must_use]
    pub fn sentences(self) -> &'static [&'static str] {
        match self {
            Self::Page => &["Keep the lamp clean.", "Keep the page flat and dry."],
            Self::Lens => &[
                "Keep it in its case when you do not use it. Keep the case out of the sun.",
                "Blow the dust off first. Then clean it with a soft cloth.",
                "Do not drop it. Do not take it apart.",
                "Keep small parts away from small children.",
            ],
            Self::Electric => &[
                "Use its own plug to load it. Do not use it while it loads, or when a part is broken.",
                "Keep it dry. Clean it with a soft dry cloth.",
                "Do not drop it. Do not take it apart.",
                "Keep small parts away from small children.",
            ],
        }
    }
}

/// What to be careful of, said to the person.
#[must_use]
pub fn careful(place: Where) -> &'static [&'static str] {
    match place {
        Where::Telescope => &[
            "Never look at the sun through it, or near the sun. It harms your eye at once and for good.",
            "Do not leave it in the sun. It can start a fire.",
            "Do not walk, use stairs or run a machine while you look through it. Things look nearer than they are.",
            "Do not use it to drive unless the law where you live lets you. Ask first. This sheet does not say that you may drive.",
        ],
        Where::PlusLens => &[
            "Never look at the sun through it, or near the sun. It harms your eye at once and for good.",
            "Do not leave it in the sun, or on a window sill. It can start a fire.",
        ],
        Where::Standing => {
            &["Do not walk, use stairs or run a machine while you look through it. You can fall."]
        }
        Where::Close => &[
            "It is sharp at one distance only. Keep to that distance.",
            "You will be close to the page. Sit up, and bring the page to you. Take a break when your neck or eyes hurt.",
        ],
        Where::Fit | Where::Prediction => &[],
    }
}

/// What to do when it does not work.
pub static IF_IT_FAILS: &[&str] = &[
    "Is it clean?",
    "Is there enough light?",
    "Is it at the right distance?",
    "Do you wear the right glasses?",
    "If it still does not help, tell the one who gave it to you. Another one may be better for you.",
];

/// What to do when sight changes.
pub static IF_SIGHT_CHANGES: &[&str] = &[
    "Stop and ask your eye clinic at once if you see less than before.",
    "Do the same if your eye hurts, or if you see flashes of light or new dark spots.",
];

/// What to do when a trial falls short, in order.
pub static IF_TRIAL_FALLS_SHORT: &[&str] = &[
    "Focus: set it anew, slowly and from both sides. See that the right glasses are worn, and that the distance is the one above.",
    "Aim: see that the eye looks through the middle of the aid, as near to it as it can be.",
    "Light and contrast: as much light as at the test without the aid, no glare. Compare with full contrast.",
    "Steadiness: rest the hand, the elbow and the head.",
    "Place looked with: where the centre is lost, find the place that sees best and hold it.",
    "Then one step up in power. It shows less at once: test again. If the step gains less than half of what is expected, stop.",
];

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::list;
    use crate::model::list::family;

    #[test]
    fn the_table_is_in_the_order_of_the_families() {
        for (place, about) in family::ALL.iter().enumerate() {
            assert_eq!(ALL[place].family, about.family, "{}", about.name);
        }
        assert_eq!(ALL.len(), family::ALL.len(), "one for each");
    }

    #[test]
    fn what_is_worn_comes_early_and_the_ring_before_the_look() {
        let steps = |id: &str| steps_for(list::demo_aid(id).expect("it is in the list"));
        assert_eq!(steps("hand-12")[1], "Wear your glasses for far.");
        assert_eq!(steps("stand")[1], "Wear your reading glasses, if you have them.");
        let focusing = steps("hand-telescope-40");
        let at = focusing.iter().position(|step| *step == TURN).expect("it can be focused");
        assert!(focusing[at + 1].starts_with("Look for a short time"), "{focusing:?}");
        assert!(!steps("g22-20").contains(&TURN), "fixed for far");
    }

    /// Each risk that an aid comes with is said to the person.
    #[test]
    fn every_risk_has_its_words() {
        for aid in &list::demo().list {
            for place in aid.cautions() {
                assert!(!careful(place).is_empty(), "{}: {place:?}", aid.id);
            }
        }
    }
}
