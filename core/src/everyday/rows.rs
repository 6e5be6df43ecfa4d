//! The table of everyday things.

use super::Extent;
use super::row::{Contrast, Everyday, Given, Part, SeenFrom};
use crate::contrast::Measure;
use crate::scene::{self, Board};
use crate::source::{self, Source, Standing};

use Given::{Arcmin, MUnits, Millimetres, Points};

/// A row whose size is as well known as its source, without distance and contrast.
const fn row(
    id: &'static str,
    name: &'static str,
    part: Part,
    given: Given,
    source: &'static Source,
) -> Everyday {
    Everyday { id, name, part, standing: source.standing, source, from: None, contrast: None, given }
}

const fn board(board: &'static Board, name: &'static str) -> Everyday {
    row(board.id, name, Part::Demand, Given::Board(board), board.source)
}

const fn from(metres: Extent<f64>, standing: Standing) -> Option<SeenFrom> {
    Some(SeenFrom { standing, metres })
}

/// A contrast of which the work does not say by what formula.
const fn contrast(share: Extent<f64>, source: &'static Source) -> Option<Contrast> {
    Some(Contrast { share, measure: Measure::NotSaid, source })
}

const PUBLISHED: Standing = Standing::Published;
/// Writing with a marker on white, and projected pictures.
const WHITEBOARD: Option<Contrast> = Some(Contrast {
    share: Extent::between(0.25, 1.0),
    measure: Measure::Weber,
    source: &source::ADAMS_2021,
});
const CLASSROOM: Option<Contrast> = contrast(Extent::at_least(0.70), &source::NARAYANASAMY_2016);

/// Print and screens, signs, boards, faces.
pub static ALL: &[Everyday] = &[
    Everyday {
        contrast: contrast(Extent::between(0.60, 0.70), &source::PRINT_CONTRASTS),
        ..row(
            "newspaper",
            "Newspaper text; sections of one paper differ twofold",
            Part::XHeight,
            Millimetres(Extent::exactly(1.45)),
            &source::LEGGE_2016,
        )
    },
    Everyday {
        from: from(Extent::exactly(0.40), PUBLISHED),
        contrast: contrast(Extent::between(0.75, 0.80), &source::PRINT_CONTRASTS),
        ..row(
            "paperback",
            "Paperback text",
            Part::XHeight,
            MUnits(Extent::exactly(0.8)),
            &source::PRINT_EXAMPLES,
        )
    },
    Everyday {
        from: from(Extent::exactly(0.40), PUBLISHED),
        ..row(
            "childrens-book",
            "Children's book",
            Part::XHeight,
            MUnits(Extent::exactly(1.6)),
            &source::PRINT_EXAMPLES,
        )
    },
    Everyday {
        from: from(Extent::exactly(0.40), PUBLISHED),
        ..row("headline", "Headline", Part::XHeight, MUnits(Extent::exactly(5.0)), &source::PRINT_EXAMPLES)
    },
    Everyday {
        from: from(Extent::exactly(0.40), PUBLISHED),
        ..row(
            "fluent-range",
            "Print that normal sight reads fluently",
            Part::XHeight,
            Arcmin(Extent::between(12.0, 120.0)),
            &source::LEGGE_BIGELOW_2011,
        )
    },
    row(
        "food-label",
        "Food label",
        Part::XHeight,
        Millimetres(Extent::at_least(1.2)),
        &source::EU_FOOD_LABELS,
    ),
    row(
        "food-label-small",
        "Food label, largest side below 80 cm²",
        Part::XHeight,
        Millimetres(Extent::at_least(0.9)),
        &source::EU_FOOD_LABELS,
    ),
    Everyday {
        from: from(Extent::mean(0.362, 0.175, 0.58), PUBLISHED),
        ..row(
            "phone-message",
            "Text message on a phone",
            Part::XHeight,
            MUnits(Extent::mean(1.1, 0.7, 2.1)),
            &source::BABABEKOVA_2011,
        )
    },
    Everyday {
        from: from(Extent::mean(0.322, 0.19, 0.60), PUBLISHED),
        ..row(
            "phone-web-page",
            "Web page on a phone",
            Part::XHeight,
            MUnits(Extent::mean(0.8, 0.3, 1.4)),
            &source::BABABEKOVA_2011,
        )
    },
    Everyday {
        from: from(Extent::exactly(0.387), PUBLISHED),
        ..row(
            "screen",
            "Text on a screen, as set by normal sight",
            Part::XHeight,
            Millimetres(Extent::exactly(1.38)),
            &source::GRANQUIST_2018,
        )
    },
    // Six times as large and 2.8 times as near as normal sight has it.
    Everyday {
        standing: Standing::Derived,
        from: from(Extent::exactly(0.387 / 2.8), Standing::Derived),
        ..row(
            "screen-low-vision",
            "Text on a screen, as set by low vision at logMAR 1.0",
            Part::XHeight,
            Millimetres(Extent::exactly(1.38 * 6.0)),
            &source::GRANQUIST_2018,
        )
    },
    row(
        "display-letters",
        "Letters of a display, preferred",
        Part::Capital,
        Arcmin(Extent::between(20.0, 22.0)),
        &source::ISO_9241,
    ),
    row(
        "display-letters-least",
        "Letters of a display, least",
        Part::Capital,
        Arcmin(Extent::at_least(16.0)),
        &source::ISO_9241,
    ),
    row("browser-text", "Text of a web page, 16 px", Part::XHeight, Points(12.0, 12.0), &source::FONT_FILES),
    Everyday {
        standing: Standing::FromMemory,
        ..row(
            "enlarged-print",
            "Enlarged print, 14 to 16 pt",
            Part::XHeight,
            Points(14.0, 16.0),
            &source::LARGE_PRINT,
        )
    },
    Everyday {
        standing: Standing::FromMemory,
        ..row(
            "large-print",
            "Large print, 16 to 18 pt",
            Part::XHeight,
            Points(16.0, 18.0),
            &source::LARGE_PRINT,
        )
    },
    Everyday {
        standing: Standing::FromMemory,
        ..row(
            "large-print-uk",
            "Large print, United Kingdom, 16 to 22 pt",
            Part::XHeight,
            Points(16.0, 22.0),
            &source::LARGE_PRINT,
        )
    },
    Everyday {
        standing: Standing::FromMemory,
        ..row(
            "giant-print",
            "Giant print, 24 pt or more",
            Part::XHeight,
            Points(24.0, 24.0),
            &source::LARGE_PRINT,
        )
    },
    row(
        "price-tag",
        "Price tag or shelf label; measure it",
        Part::Number,
        MUnits(Extent::between(1.0, 4.0)),
        &source::COMMON_PRACTICE,
    ),
    Everyday {
        from: from(Extent::between(20.0, 50.0), Standing::Assumed),
        ..row(
            "bus-number",
            "Bus number, front or rear",
            Part::Number,
            Millimetres(Extent::at_least(200.0)),
            &source::UK_BUSES,
        )
    },
    row(
        "bus-number-side",
        "Bus number, side",
        Part::Number,
        Millimetres(Extent::at_least(70.0)),
        &source::UK_BUSES,
    ),
    Everyday {
        from: from(Extent::exactly(20.0), PUBLISHED),
        ..row(
            "number-plate",
            "Number plate, United Kingdom",
            Part::Number,
            Millimetres(Extent::exactly(79.0)),
            &source::UK_PLATES,
        )
    },
    Everyday {
        from: from(Extent::exactly(20.0), PUBLISHED),
        ..row(
            "number-plate-stroke",
            "Stroke of a number plate, United Kingdom",
            Part::Stroke,
            Millimetres(Extent::exactly(14.0)),
            &source::UK_PLATES,
        )
    },
    Everyday {
        from: from(Extent::at_most(1.83), PUBLISHED),
        ..row(
            "building-sign-low",
            "Sign in a building, United States, low; 3.2 mm more for each 305 mm beyond 1.83 m",
            Part::Capital,
            Millimetres(Extent::at_least(16.0)),
            &source::US_BUILDING_SIGNS,
        )
    },
    Everyday {
        from: from(Extent::at_most(4.57), PUBLISHED),
        ..row(
            "building-sign-middle",
            "Sign in a building, United States, over 70 inches high",
            Part::Capital,
            Millimetres(Extent::at_least(51.0)),
            &source::US_BUILDING_SIGNS,
        )
    },
    Everyday {
        from: from(Extent::at_most(6.4), PUBLISHED),
        ..row(
            "building-sign-high",
            "Sign in a building, United States, over 120 inches high",
            Part::Capital,
            Millimetres(Extent::at_least(75.0)),
            &source::US_BUILDING_SIGNS,
        )
    },
    row(
        "street-name",
        "Street-name sign, United States, capitals",
        Part::Capital,
        Millimetres(Extent::exactly(152.4)),
        &source::STREET_NAME_SIGNS,
    ),
    row(
        "street-name-lower-case",
        "Street-name sign, United States, lower case",
        Part::XHeight,
        Millimetres(Extent::exactly(152.4 * scene::LOWER_CASE_OF_CAPITALS)),
        &source::STREET_NAME_SIGNS,
    ),
    Everyday {
        contrast: WHITEBOARD,
        ..board(&scene::ADAMS_FRONT, "Board from the front row, United States")
    },
    Everyday { contrast: WHITEBOARD, ..board(&scene::ADAMS_BACK, "Board from the back row, United States") },
    Everyday { contrast: CLASSROOM, ..board(&scene::NARAYANASAMY_BOARD, "Board, Australia") },
    Everyday {
        from: from(Extent::exactly(0.23), PUBLISHED),
        contrast: CLASSROOM,
        ..board(&scene::NARAYANASAMY_DESK, "Work on the desk in class, Australia")
    },
    Everyday {
        contrast: contrast(Extent::exactly(0.40), &source::NEGILONI_2019),
        ..board(&scene::NEGILONI_BOARD, "Chalkboard, India")
    },
    board(&scene::EDO_FARTHEST, "Board from the farthest seat, Nigeria"),
    board(&scene::EDO_NEAREST, "Board from the nearest seat, Nigeria"),
    Everyday {
        contrast: contrast(Extent::at_most(0.50), &source::PRINT_CONTRASTS),
        ..row(
            "face",
            "Face, between the ears",
            Part::Width,
            Millimetres(Extent::between(140.0, 150.0)),
            &source::FACE_WIDTH,
        )
    },
];

#[cfg(test)]
mod tests {
    use super::*;
    use alloc::collections::BTreeSet;

    #[test]
    fn keys_are_unique_and_names_are_plain() {
        let ids: BTreeSet<_> = ALL.iter().map(|row| row.id).collect();
        assert_eq!(ids.len(), ALL.len(), "a key stands twice");
        for row in ALL {
            let kebab = |c: char| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-';
            assert!(row.id.chars().all(kebab), "{}", row.id);
            assert!(row.name.starts_with(|c: char| c.is_ascii_uppercase()), "{}", row.name);
        }
    }

    #[test]
    fn what_is_not_measured_says_so() {
        let standing = |standing| {
            ALL.iter()
                .filter(|row| row.standing == standing)
                .map(|row| row.id)
                .collect::<alloc::vec::Vec<_>>()
        };
        assert_eq!(standing(Standing::CommonPractice), ["price-tag"]);
        assert_eq!(standing(Standing::Derived), ["screen-low-vision"]);
        assert_eq!(
            standing(Standing::FromMemory),
            ["browser-text", "enlarged-print", "large-print", "large-print-uk", "giant-print", "face"]
        );
        for row in ALL {
            let assumed = row.from.is_some_and(|from| from.standing == Standing::Assumed);
            assert_eq!(assumed, row.id == "bus-number", "{}: only our own examples are assumed", row.id);
        }
    }

    #[test]
    fn extents_run_upward() {
        fn up(extent: Extent<f64>) -> bool {
            let all = [extent.least, extent.usual, extent.most];
            let known: alloc::vec::Vec<f64> = all.into_iter().flatten().collect();
            !known.is_empty() && known.is_sorted()
        }
        for row in ALL {
            let heights = row.height().map(|height| height.map(|height| height.mm()));
            assert!(heights.is_none_or(up), "{}", row.id);
            assert!(row.from.is_none_or(|from| up(from.distance().map(|d| d.m()))), "{}", row.id);
            let contrast = row.contrast.map(|contrast| contrast.share);
            assert!(contrast.is_none_or(|share| up(share) && share.one() <= Some(1.0)), "{}", row.id);
        }
    }

    #[test]
    fn what_has_a_size_has_no_demand_and_the_other_way_round() {
        for row in ALL {
            assert_eq!(row.board().is_some(), row.part == Part::Demand, "{}", row.id);
            let sized = row.height().is_some() || row.angle().is_some();
            assert_eq!(sized, row.part != Part::Demand, "{}", row.id);
            assert_eq!(
                row.part.details().is_none(),
                matches!(row.part, Part::Demand | Part::Width),
                "{}",
                row.id
            );
            assert_eq!(
                row.print().is_some(),
                row.height().is_some() && row.part.details() == Some(5.0),
                "{}",
                row.id
            );
        }
    }
}
