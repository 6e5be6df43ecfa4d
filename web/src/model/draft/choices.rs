//! The choices of a case: what each is called in a file, and what the page calls it.

use crate::model::fill;
use arcminute_core::fit::Eye;
use serde::{Deserialize, Deserializer, Serialize};

macro_rules! choice {
    (
        $(#[$meta:meta])*
        $name:ident { $($(#[$variant_meta:meta])* $variant:ident = $label:literal,)+ }
        $(was { $($old:ident => $now:ident,)+ })?
    ) => {
        $(#[$meta])*
        #[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize)]
        #[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
        #[serde(rename_all = "snake_case")]
        pub enum $name { $($(#[$variant_meta])* $variant,)+ }
        impl<'de> Deserialize<'de> for $name {
            fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
                let all = &[$(Self::$variant,)+ $($(Self::$now),+)?];
                fill::choice(deserializer, all, &[$(stringify!($variant),)+ $($(stringify!($old)),+)?])
            }
        }
        impl $name {
            /// Every choice, in the order it is offered.
            pub const ALL: &'static [Self] = &[$(Self::$variant),+];
            /// What the page calls it.
            #[must_use]
            pub fn label(self) -> &'static str {
                match self { $(Self::$variant => $label,)+ }
            }
        }
    };
}

choice! {
    /// How a number without a notation is meant in an acuity box.
    BareAcuity {
        /// Ask each time.
        #[default]
        Ask = "Ask me each time",
        /// Decimal acuity.
        Decimal = "Decimal acuity",
        /// logMAR.
        LogMar = "logMAR",
    }
}
choice! {
    /// Which eye looks through the telescope.
    EyeChoice {
        /// The right eye.
        #[default]
        Right = "RIGHT eye",
        /// The left eye.
        Left = "LEFT eye",
    }
}
choice! {
    /// What kind of goal.
    GoalKind {
        /// An acuity to reach.
        #[default]
        Acuity = "An acuity to reach",
        /// Letters, numbers or signs of a known height at a known distance.
        Letters = "Letters or signs of a known height",
        /// A thing of which the smallest part that matters is known.
        Detail = "The smallest detail of a thing",
        /// Print to read, from where it suits or from a distance that is given.
        Print = "Print to read",
        /// A face to recognise.
        Face = "A face to recognise",
    }
    was { Target => Letters, }
}
choice! {
    /// How well it is to be seen: what reserve is taken.
    HowWell {
        /// Only just, a word or a number.
        Spot = "Spot it",
        /// With ease.
        #[default]
        Read = "Read it",
        /// For long.
        ReadLong = "Read for long",
    }
}
choice! {
    /// Which hands have to be free.
    Hands {
        /// None.
        #[default]
        Any = "No hand need be free",
        /// One.
        OneFree = "One hand free",
        /// Both.
        BothFree = "Both hands free",
    }
}
choice! {
    /// How the person is placed.
    Posture {
        /// Sitting.
        #[default]
        Sitting = "Sitting",
        /// Standing still.
        Standing = "Standing",
        /// On the way.
        Walking = "Walking",
    }
}
choice! {
    /// How much it matters.
    Priority {
        /// Without it the rest is of little use.
        Must = "Must",
        /// Wanted.
        #[default]
        Should = "Should",
        /// If it comes along with the rest.
        Nice = "Nice to have",
    }
}
choice! {
    /// Where the refraction goes.
    CorrectionChoice {
        /// The tube is refocused.
        #[default]
        ByFocusing = "Focused out with the tube",
        /// In the eyepiece.
        InEyepiece = "Lens in the eyepiece",
    }
}
choice! {
    /// What is wanted most of the aids that reach a goal.
    FirstChoice {
        /// The lowest power that does it.
        #[default]
        LowPower = "lower power",
        /// The widest view.
        SeenAtOnce = "more seen at once",
        /// Working distance.
        HandRoom = "more room for the hand",
        /// Hands.
        HandsFree = "free hands",
        /// Light.
        Light = "more light",
        /// Binocular.
        BothEyes = "both eyes",
        /// Depth of focus.
        Depth = "more depth of focus",
        /// Certainty.
        Chance = "a higher chance",
    }
}
choice! {
    /// Where the eyepiece sits.
    PlacementChoice {
        /// Bottom of the eyepiece level with the top of the pupil.
        #[default]
        PupilTop = "Eyepiece bottom level with pupil top",
        /// As high as the lens allows.
        Highest = "As high as the lens allows",
        /// On the pupil.
        Centred = "Centred on the pupil",
        /// Top of the eyepiece level with the bottom of the pupil, for near.
        Low = "Low, for near: eyepiece top level with pupil bottom",
        /// Where the boxes below say.
        ByHand = "Where I put it",
    }
}
choice! {
    /// What a tilt that was ordered by hand is measured from.
    TiltFrom {
        /// It was not said.
        #[default]
        NotSaid = "Not said yet",
        /// From the normal of the carrier lens.
        CarrierLens = "From the carrier lens, at right angles to it",
        /// From the straight-ahead line of sight.
        StraightAhead = "From the straight-ahead line of sight, head upright",
    }
}
choice! {
    /// What kind of carrier lens.
    CarrierChoice {
        /// One power, or none.
        #[default]
        SingleVision = "Single vision or plano",
        /// With a segment.
        Bifocal = "Bifocal",
        /// With two segments.
        Trifocal = "Trifocal",
        /// Progressive.
        Progressive = "Progressive",
    }
}
choice! {
    /// What becomes of the other eye's lens.
    FellowChoice {
        /// The lens usually worn.
        #[default]
        AsWorn = "As usually worn",
        /// The same telescope will be turned over for it.
        TurnedOver = "Telescope is to serve this eye too, turned over",
        /// Covered.
        Covered = "Covered",
    }
}
choice! {
    /// What a filter covers.
    FilterChoice {
        /// No filter.
        #[default]
        NoFilter = "No filter",
        /// Carrier and eyepiece.
        CoversEyepiece = "Filter over carrier and eyepiece",
        /// Carrier alone.
        SparesEyepiece = "Filter on the carrier, eyepiece left clear",
    }
}
choice! {
    /// Paper of the sheets.
    Paper {
        /// 210 x 297 mm.
        #[default]
        A4 = "A4",
        /// 8.5 x 11 in.
        Letter = "US Letter",
    }
}

impl EyeChoice {
    /// The eye itself.
    #[must_use]
    pub fn eye(self) -> Eye {
        match self {
            Self::Right => Eye::Right,
            Self::Left => Eye::Left,
        }
    }
    /// The other choice.
    #[must_use]
    pub fn other(self) -> Self {
        match self {
            Self::Right => Self::Left,
            Self::Left => Self::Right,
        }
    }
}
