//! Laws of print sizes, on random input.

use super::*;
use crate::unit::{Length, LogMar, PrintSize};
use alloc::string::{String, ToString};
use proptest::prelude::*;

const CASES: u32 = crate::cases::cases(10_000);

/// Text made of pieces of notation, which gets further into the parser than arbitrary text does.
fn pieces() -> impl Strategy<Value = String> {
    let piece = prop::sample::select(alloc::vec![
        "1.6",
        "8",
        "20",
        "50",
        "12",
        "0.5",
        "40",
        "0.01",
        "/",
        "-",
        "+",
        ".",
        " ",
        "M",
        "N",
        "J",
        "mm",
        "cm",
        "in",
        "'",
        "pt",
        "px",
        "Times",
        "Verdana",
        "Arial",
        "capitals",
        "x-height",
        "logMAR",
        "at",
        "@",
        "é",
        "1e9",
        "NaN",
        "inf",
        "9999999999",
    ]);
    // A blank between pieces, mostly, as people type.
    let joint = prop::sample::select(alloc::vec![" ", " ", ""]);
    prop::collection::vec((piece, joint), 0..7)
        .prop_map(|pieces| pieces.into_iter().flat_map(|(piece, joint)| [piece, joint]).collect())
}

fn size() -> impl Strategy<Value = PrintSize> {
    (0.15..40.0).prop_map(PrintSize::from_m_units)
}

fn system() -> impl Strategy<Value = PointSystem> {
    prop::sample::select(PointSystem::ALL.to_vec())
}

/// Relative difference.
fn apart(a: f64, b: f64) -> f64 {
    (a / b - 1.0).abs()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(CASES))]

    #[test]
    fn no_text_makes_it_panic(text in any::<String>()) {
        let _ = parse(&text);
    }

    #[test]
    fn what_is_understood_reads_back_the_same(text in pieces()) {
        let prints = match parse(&text) {
            Parsed::Understood(print) => alloc::vec![print],
            Parsed::Ask { choices } => {
                prop_assert!(!choices.is_empty(), "{} asks about nothing", text);
                choices.to_vec()
            }
            Parsed::Empty | Parsed::Refused(_) => alloc::vec![],
        };
        for print in prints {
            let written = print.to_string();
            prop_assert_eq!(parse(&written), Parsed::Understood(print), "{} as {}", text, written);
            let is_text = matches!(print.notation, Notation::Jaeger(_));
            for rule in NRule::ALL {
                prop_assert_eq!(print.size(rule).is_err(), is_text, "{} has a size", written);
            }
        }
    }

    #[test]
    fn points_m_units_and_millimetres_are_inverse(
        size in size(), system in system(), ratio in 0.3..0.9f64,
    ) {
        let back = PrintSize::of_x_height(size.x_height());
        prop_assert!(apart(back / size, 1.0) < 1e-12, "millimetres: {:?}", back);
        if let Ok(points) = points_for(size, system, ratio) {
            let again = size_of_type(points.count, system, ratio).expect("it was just found");
            prop_assert!(apart(again.size / size, 1.0) < 1e-12, "points: {:?}", again);
        }
        for rule in NRule::ALL {
            if let Ok(n) = n_for(size, rule) {
                prop_assert!(apart(n.size / size, 1.0) < 1e-12, "{:?}: {:?}", rule, n);
            }
        }
    }

    #[test]
    fn pixels_are_three_quarters_of_a_point(pixels in 2.0..200.0f64, ratio in 0.4..0.6f64) {
        let screen = size_of_pixels(pixels, css_pixel(), ratio).expect("in range");
        let paper = size_of_type(pixels * 0.75, PointSystem::Desktop, ratio).expect("in range");
        prop_assert!(apart(screen.size / paper.size, 1.0) < 1e-12, "{:?} and {:?}", screen, paper);
    }

    #[test]
    fn print_and_angle_are_inverse(size in size(), cm in 5.0..200.0f64) {
        let distance = Length::from_cm(cm);
        let seen = print_angle(size, distance).expect("in range");
        if let Ok(back) = print_for(seen.log_mar, distance) {
            prop_assert!(apart(back.print / size, 1.0) < 1e-12, "{:?}", back);
        }
        // Twice as far is half the angle, 0.301 log.
        let far = print_angle(size, distance * 2.0).expect("in range");
        let step = (seen.log_mar - far.log_mar).log();
        prop_assert!((step - crate::math::log10(2.0)).abs() < 1e-12, "{step}");
        // The fraction of a card made for the distance says the same.
        let line = reduced_snellen(20.0, 20.0 * seen.mar.arcmin(), distance);
        if let Ok(line) = line {
            prop_assert!(apart(line.print / size, 1.0) < 1e-12, "{:?}", line);
        }
    }

    #[test]
    fn the_angle_of_an_m_unit_is_its_definition(log in -0.3..2.0f64, cm in 20.0..400.0f64) {
        let distance = Length::from_cm(cm);
        if let Ok(print) = print_for(LogMar::from_log(log), distance) {
            // A fifth of the height as an angle; the rule is linear, the tangent is not.
            let detail = crate::unit::Angle::subtended(print.print.x_height() / 5.0, distance);
            prop_assert!(apart(detail.arcmin(), print.mar.arcmin()) < 1e-3, "{:?} and {:?}", detail, print.mar);
        }
    }
}
