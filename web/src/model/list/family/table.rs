//! The table of families.

use super::{About, Family, Measure, Need, Walking};
use crate::model::list::column::Column;
use crate::model::list::{For, Wears};
use crate::model::words::Where;
use arcminute_core::bounds::{self, Bound};

const fn must(column: Column, bound: &'static Bound) -> Measure {
    Measure { column, bound, need: Need::Must }
}
const fn may(column: Column, bound: &'static Bound) -> Measure {
    Measure { column, bound, need: Need::May }
}
const fn pair(column: Column, bound: &'static Bound) -> Measure {
    Measure { column, bound, need: Need::Pair }
}
const fn assumed(column: Column, bound: &'static Bound, value: f64) -> Measure {
    Measure { column, bound, need: Need::Assumed(value) }
}
/// What every family has: what is held or worn has a weight.
const fn weight() -> Measure {
    may(Column::Weight, &bounds::WEIGHT)
}
const fn light(percent: f64) -> Measure {
    assumed(Column::LightThrough, &bounds::LIGHT_THROUGH, percent)
}
const fn to_glasses(mm: f64) -> Measure {
    assumed(Column::LensToGlasses, &bounds::LENS_TO_EYE, mm)
}
const fn to_page(mm: f64) -> Measure {
    assumed(Column::EyeToPage, &bounds::EYE_TO_PAGE, mm)
}
const fn to_screen(mm: f64) -> Measure {
    assumed(Column::EyeToScreen, &bounds::SCREEN_TO_EYE, mm)
}

/// Per cent of the light that one plain lens lets through. Two surfaces of index 1.5: derived, 0.96 squared.
const ONE_LENS: f64 = 92.0;

/// What most families are like, to be changed where one is not.
const PLAIN: About = About {
    family: Family::Hand,
    name: "",
    also: &[],
    serves: For::Print,
    glasses: Wears::Add,
    glasses_may_change: true,
    hands_free: 1,
    worn: false,
    both_eyes: false,
    walking: Walking::No,
    walking_at_most: Walking::Spotting,
    shines: false,
    cautions: &[],
    measures: &[],
};

use Column as C;
use Where::{Close, PlusLens, Standing};

/// Every family, near aids first.
pub static ALL: &[About] = &[
    About {
        family: Family::Nearer,
        name: "print nearer",
        also: &["nearer", "relative distance"],
        both_eyes: true,
        walking: Walking::Yes,
        walking_at_most: Walking::Yes,
        cautions: &[Close],
        measures: &[must(C::EyeToPage, &bounds::EYE_TO_PAGE)],
        ..PLAIN
    },
    About {
        family: Family::Larger,
        name: "larger copy",
        also: &["larger", "larger print", "large print", "relative size"],
        hands_free: 2,
        both_eyes: true,
        walking: Walking::Yes,
        walking_at_most: Walking::Yes,
        measures: &[must(C::Enlargement, &bounds::ENLARGEMENT), to_page(400.0)],
        ..PLAIN
    },
    About {
        family: Family::HighPlus,
        name: "high-plus spectacles",
        also: &["high plus", "high add"],
        glasses: Wears::Distance,
        glasses_may_change: false,
        hands_free: 2,
        worn: true,
        cautions: &[Close, PlusLens, Standing],
        measures: &[
            must(C::Addition, &bounds::HIGH_PLUS_ADD),
            assumed(C::ClearDiameter, &bounds::CLEAR_WIDTH, 40.0),
            light(ONE_LENS),
            weight(),
        ],
        ..PLAIN
    },
    About {
        family: Family::ThickHighPlus,
        name: "thick high-plus spectacles",
        also: &["high-plus thick lens"],
        glasses: Wears::Nothing,
        glasses_may_change: false,
        hands_free: 2,
        worn: true,
        cautions: &[Close, PlusLens, Standing],
        measures: &[
            must(C::FrontSurface, &bounds::SURFACE_POWER),
            must(C::BackSurface, &bounds::SURFACE_POWER),
            must(C::Thickness, &bounds::LENS_THICKNESS),
            must(C::Index, &bounds::INDEX),
            assumed(C::ClearDiameter, &bounds::CLEAR_WIDTH, 40.0),
            light(ONE_LENS),
            weight(),
        ],
        ..PLAIN
    },
    About {
        family: Family::Hand,
        name: "hand magnifier",
        also: &["hand-held magnifier", "handheld magnifier"],
        glasses: Wears::Distance,
        cautions: &[PlusLens],
        measures: &[
            must(C::Power, &bounds::MAGNIFIER_POWER),
            must(C::ClearDiameter, &bounds::CLEAR_WIDTH),
            light(ONE_LENS),
            to_glasses(150.0),
            weight(),
        ],
        ..PLAIN
    },
    About {
        family: Family::Stand,
        name: "stand magnifier",
        cautions: &[PlusLens],
        measures: &[
            pair(C::Power, &bounds::MAGNIFIER_POWER),
            must(C::ClearDiameter, &bounds::CLEAR_WIDTH),
            pair(C::Enlargement, &bounds::STAND_ENLARGEMENT),
            pair(C::ImageBelowLens, &bounds::IMAGE_TO_LENS),
            pair(C::StandHeight, &bounds::STAND_HEIGHT),
            light(ONE_LENS),
            to_glasses(150.0),
            weight(),
        ],
        ..PLAIN
    },
    About {
        family: Family::Dome,
        name: "dome",
        also: &["dome magnifier"],
        both_eyes: true,
        cautions: &[PlusLens],
        measures: &[
            assumed(C::Index, &bounds::INDEX, 1.49),
            must(C::ClearDiameter, &bounds::CLEAR_WIDTH),
            must(C::Height, &bounds::LENS_THICKNESS),
            must(C::Radius, &bounds::DOME_RADIUS),
            light(ONE_LENS),
            to_page(400.0),
            weight(),
        ],
        ..PLAIN
    },
    About {
        family: Family::Bar,
        name: "bar",
        also: &["bar magnifier"],
        both_eyes: true,
        cautions: &[PlusLens],
        measures: &[
            assumed(C::Index, &bounds::INDEX, 1.49),
            must(C::Width, &bounds::CLEAR_WIDTH),
            must(C::Height, &bounds::LENS_THICKNESS),
            must(C::BarLength, &bounds::BAR_LENGTH),
            must(C::Radius, &bounds::DOME_RADIUS),
            light(ONE_LENS),
            to_page(400.0),
            weight(),
        ],
        ..PLAIN
    },
    About {
        family: Family::Sheet,
        name: "fresnel sheet",
        also: &["sheet magnifier", "page magnifier"],
        glasses: Wears::Distance,
        both_eyes: true,
        cautions: &[PlusLens],
        measures: &[
            must(C::Power, &bounds::MAGNIFIER_POWER),
            must(C::Width, &bounds::CLEAR_WIDTH),
            light(85.0),
            to_glasses(200.0),
            weight(),
        ],
        ..PLAIN
    },
    About {
        family: Family::DeskScreen,
        name: "desk screen",
        also: &["desktop video magnifier", "cctv"],
        hands_free: 2,
        both_eyes: true,
        shines: true,
        measures: SCREEN,
        ..PLAIN
    },
    About {
        family: Family::HandScreen,
        name: "hand-held screen",
        also: &["handheld video magnifier", "portable video magnifier"],
        both_eyes: true,
        shines: true,
        measures: &[
            must(C::Width, &bounds::SCREEN_SIDE),
            must(C::Height, &bounds::SCREEN_SIDE),
            must(C::Enlargement, &bounds::ENLARGEMENT),
            may(C::CameraToPrint, &bounds::CAMERA_TO_PRINT),
            to_screen(300.0),
            weight(),
        ],
        ..PLAIN
    },
    About {
        family: Family::Tablet,
        name: "tablet",
        also: &["tablet computer", "e-reader"],
        both_eyes: true,
        shines: true,
        measures: &[
            must(C::Width, &bounds::SCREEN_SIDE),
            must(C::Height, &bounds::SCREEN_SIDE),
            must(C::Enlargement, &bounds::ENLARGEMENT),
            to_screen(330.0),
            weight(),
        ],
        ..PLAIN
    },
    About {
        family: Family::DistanceCamera,
        name: "distance camera",
        serves: For::Far,
        hands_free: 2,
        both_eyes: true,
        shines: true,
        measures: &[
            must(C::Width, &bounds::SCREEN_SIDE),
            must(C::Height, &bounds::SCREEN_SIDE),
            must(C::CameraField, &bounds::CAMERA_FIELD),
            to_screen(400.0),
            weight(),
        ],
        ..PLAIN
    },
    About {
        family: Family::HeadMounted,
        name: "head-mounted display",
        also: &["electronic glasses"],
        serves: For::Far,
        glasses: Wears::Distance,
        hands_free: 2,
        worn: true,
        both_eyes: true,
        shines: true,
        cautions: &[Standing],
        measures: &[
            must(C::CameraField, &bounds::CAMERA_FIELD),
            must(C::DisplayField, &bounds::DISPLAY_FIELD),
            may(C::DisplayImage, &bounds::DISPLAY_DISTANCE),
            must(C::DisplayPixels, &bounds::PIXELS_ACROSS),
            must(C::CameraPixels, &bounds::PIXELS_ACROSS),
            weight(),
        ],
        ..PLAIN
    },
    About {
        family: Family::HandTelescope,
        name: "hand-held telescope",
        also: &["handheld telescope", "monocular"],
        serves: For::Far,
        glasses: Wears::Distance,
        cautions: &[Where::Telescope],
        measures: &[
            must(C::Magnification, &bounds::MAGNIFYING_POWER),
            must(C::Objective, &bounds::OBJECTIVE),
            may(C::TubeLength, &bounds::TUBE_LENGTH),
            may(C::RealField, &bounds::REAL_FIELD),
            may(C::NearestFocus, &bounds::NEAR_FOCUS),
            light(85.0),
            to_glasses(5.0),
            weight(),
        ],
        ..PLAIN
    },
    About {
        family: Family::MountedTelescope,
        name: "spectacle-mounted telescope",
        also: &["spectacle telescope", "mounted telescope", "bioptic telescope", "bioptic"],
        serves: For::Far,
        glasses: Wears::Distance,
        hands_free: 2,
        worn: true,
        cautions: &[Where::Telescope],
        measures: &[
            must(C::Magnification, &bounds::MAGNIFYING_POWER),
            must(C::Objective, &bounds::OBJECTIVE),
            may(C::TubeLength, &bounds::TUBE_LENGTH),
            must(C::Barrel, &bounds::BARREL),
            may(C::RealField, &bounds::REAL_FIELD),
            may(C::NearestFocus, &bounds::NEAR_FOCUS),
            must(C::LightThrough, &bounds::LIGHT_THROUGH),
            to_glasses(0.0),
            must(C::Weight, &bounds::WEIGHT),
        ],
        ..PLAIN
    },
    About {
        family: Family::CappedTelescope,
        name: "telescope with reading cap",
        also: &["reading telescope", "telemicroscope"],
        glasses: Wears::Distance,
        hands_free: 2,
        worn: true,
        cautions: &[Close, PlusLens, Standing],
        measures: &[
            must(C::Magnification, &bounds::MAGNIFYING_POWER),
            must(C::ReadingCap, &bounds::MAGNIFIER_POWER),
            must(C::Objective, &bounds::OBJECTIVE),
            may(C::TubeLength, &bounds::TUBE_LENGTH),
            may(C::Barrel, &bounds::BARREL),
            may(C::RealField, &bounds::REAL_FIELD),
            light(85.0),
            to_glasses(5.0),
            weight(),
        ],
        ..PLAIN
    },
    About {
        family: Family::ReversedTelescope,
        name: "reversed telescope",
        serves: For::Field,
        glasses: Wears::Distance,
        cautions: &[PlusLens, Standing],
        measures: &[
            must(C::Magnification, &bounds::MINIFICATION),
            must(C::Objective, &bounds::OBJECTIVE),
            may(C::TubeLength, &bounds::TUBE_LENGTH),
            light(85.0),
            to_glasses(5.0),
            weight(),
        ],
        ..PLAIN
    },
    About {
        family: Family::MinusLens,
        name: "minus lens",
        serves: For::Field,
        cautions: &[Standing],
        measures: &[
            must(C::Power, &bounds::MINUS_LENS),
            must(C::ClearDiameter, &bounds::CLEAR_WIDTH),
            to_glasses(300.0),
            weight(),
        ],
        ..PLAIN
    },
];

const SCREEN: &[Measure] = &[
    must(C::Width, &bounds::SCREEN_SIDE),
    must(C::Height, &bounds::SCREEN_SIDE),
    must(C::Enlargement, &bounds::ENLARGEMENT),
    may(C::CameraToPrint, &bounds::CAMERA_TO_PRINT),
    to_screen(400.0),
    weight(),
];
