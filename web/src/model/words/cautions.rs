//! Cautions and common practice: on the screen and on the paper where the risk arises.

/// What the page is and is not.
pub const INTENDED_USE: &str = "Arcminute is a calculator and record aid for people trained in vision care, students and teachers. It does formula work and shows each step. It does not examine, diagnose, prescribe or decide; it is not a medical device and has had no regulatory assessment. Every result is a starting point for a trial, to be checked on the person by someone licensed to do so.";

/// Where a caution belongs.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Where {
    /// Beside every chosen telescope and on every sheet that orders or hands over one.
    Telescope,
    /// Beside the fit and on the order.
    Fit,
    /// Beside predictions.
    Prediction,
    /// Beside an aid with a plus lens.
    PlusLens,
    /// Beside an aid that shows the surroundings otherwise than they are.
    Standing,
    /// Beside an aid that works near to the face.
    Close,
}

impl Where {
    /// Whether it stands on the sheet that orders a telescope.
    #[must_use]
    pub fn on_order(self) -> bool {
        matches!(self, Self::Telescope | Self::Fit | Self::Prediction)
    }
}

/// A caution: a few words in front, a sentence behind.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Caution {
    /// What it is about.
    pub head: &'static str,
    /// What to do.
    pub text: &'static str,
    /// Where it belongs.
    pub place: Where,
}

/// All cautions.
pub static CAUTIONS: &[Caution] = &[
    Caution {
        head: "Sun",
        text: "Never look at or near the sun through a telescope: it injures the eye at once and for good.",
        place: Where::Telescope,
    },
    Caution {
        head: "Fire",
        text: "Keep it covered and out of sunlight when not in use: its lenses can set things alight.",
        place: Where::Telescope,
    },
    Caution {
        head: "Walking",
        text: "Do not walk, climb stairs or work machines while looking through it: distances look wrong and a ring around is hidden.",
        place: Where::Telescope,
    },
    Caution {
        head: "Driving",
        text: "Local law and the licensing authority decide on its use at the wheel. Nothing here says that anyone is fit to drive.",
        place: Where::Telescope,
    },
    Caution {
        head: "Sun and fire",
        text: "Never look at or near the sun through it, and keep it covered and out of sunlight when not in use: a plus lens injures the eye and sets things alight.",
        place: Where::PlusLens,
    },
    Caution {
        head: "Not for walking",
        text: "Sit or stand still while looking through it; do not walk, climb stairs or work machines: distances look wrong or the far is blurred.",
        place: Where::Standing,
    },
    Caution {
        head: "Working distance",
        text: "It is sharp only near the distance said, and so near the head shades the page: show how the distance is kept and where the lamp stands.",
        place: Where::Close,
    },
    Caution {
        head: "Trial first",
        text: "A computed power is a starting point. Test acuity through the telescope itself before anything is ordered.",
        place: Where::Prediction,
    },
    Caution {
        head: "Change of sight",
        text: "If sight has changed lately, or there is pain or flashes, refer first.",
        place: Where::Prediction,
    },
    Caution {
        head: "Licensed work",
        text: "Dispensing and prescribing need the licence that local law asks for.",
        place: Where::Fit,
    },
    Caution {
        head: "Lens shape",
        text: "The edge here is a model, a rounded rectangle. Draw the opening on the dummy lens before drilling.",
        place: Where::Fit,
    },
];

/// What the trade does, without a source; shown and printed as such.
pub static PRACTICE: &[&str] = &[
    "20/40 is the usual goal, 20/50 is accepted by many.",
    "The eyepiece is centred sideways on the pupil, measured from bridge centre to eyepiece centre in whole or half millimetres with a millimetre rule.",
    "The eyepiece's lower edge is level with the top of the pupil; its tilt is set to the line of sight when the head drops slightly.",
    "The opening is cut a little oversize for fine adjustment at dispensing.",
    "Carrier lenses as the person normally wears them, bifocals included; trifocals and progressives are avoided for want of room.",
    "At least 10 mm from the bottom of the eyepiece to the top of the segment.",
    "No eyepiece correction is needed if the goal is met without it; consider it beyond 12 D of sphere, plus or minus, or above 3 D of cylinder.",
    "A focusing telescope rarely needs a reading cap. A filter may cover or spare the eyepiece.",
    "The same telescope may be turned over to serve the other eye; small eye sizes make that hard.",
    "Large nose pads and a head strap keep it in place.",
];

/// Things to think about, not a score: acuity, history and diagnosis did not separate successes in published work.
///
/// Source: [`arcminute_core::source::LOWE_2000`], [`arcminute_core::source::DEMER_1991`].
pub static PROMPTS: &[&str] = &[
    "Central loss from inherited or developmental disorders and well-defined macular lesions tend to respond well (common practice, no source).",
    "Published work found success unrelated to acuity or disease (Lowe & Rubinstein 2000); steadiness of the head mattered (Demer et al.; years from memory).",
    "Is the wish realistic, does the benefit show at the demonstration, and does the person want to be seen wearing it?",
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_order_of_a_telescope_carries_its_own_cautions_alone() {
        let heads = CAUTIONS.iter().filter(|caution| caution.place.on_order()).map(|caution| caution.head);
        let wanted = [
            "Sun",
            "Fire",
            "Walking",
            "Driving",
            "Trial first",
            "Change of sight",
            "Licensed work",
            "Lens shape",
        ];
        assert_eq!(heads.collect::<Vec<_>>(), wanted);
    }

    #[test]
    fn the_five_hazards_of_a_telescope_have_their_caution() {
        for head in ["Sun", "Fire", "Walking", "Driving", "Licensed work", "Trial first"] {
            assert!(CAUTIONS.iter().any(|caution| caution.head == head), "{head} is missing");
        }
        for caution in CAUTIONS {
            for verdict in ["fit to drive.", "recommended for", "clinically proven"] {
                assert!(
                    !caution.text.contains(verdict) || caution.text.contains("Nothing here says"),
                    "{} gives a verdict",
                    caution.head
                );
            }
        }
    }
}
