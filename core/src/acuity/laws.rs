//! Laws of reading and writing acuity, on random input.

use super::*;
use crate::unit::LogMar;
use alloc::string::{String, ToString};
use proptest::prelude::*;

const CASES: u32 = crate::cases::cases(10_000);

fn bare() -> impl Strategy<Value = BareNumber> {
    prop_oneof![Just(BareNumber::Ask), Just(BareNumber::Decimal), Just(BareNumber::LogMar)]
}

/// Text made of pieces of notation, which gets further into the parser than arbitrary text does.
fn pieces() -> impl Strategy<Value = String> {
    let piece = prop::sample::select(alloc::vec![
        "20",
        "6",
        "5",
        "0",
        "0.1",
        "1.00",
        "200",
        "60",
        "/",
        "-",
        "+",
        "2",
        ".",
        " ",
        "m",
        "ft",
        "'",
        "\"",
        "@",
        "logMAR",
        "decimal",
        "letters",
        "CF",
        "HM",
        "LP",
        "NLP",
        "é",
        "1e9",
        "NaN",
        "inf",
        "9999999999",
    ]);
    prop::collection::vec(piece, 0..8).prop_map(|pieces| pieces.concat())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(CASES))]

    #[test]
    fn no_text_makes_it_panic(text in any::<String>(), bare in bare()) {
        let _ = parse(&text, bare);
    }

    #[test]
    fn what_is_understood_reads_back_the_same(text in pieces(), bare in bare()) {
        let readings = match parse(&text, bare) {
            Parsed::Understood(reading) => alloc::vec![reading],
            Parsed::Ask { choices } => choices.into_iter().map(Reading::Measured).collect(),
            Parsed::Empty | Parsed::Refused(_) => alloc::vec![],
        };
        for reading in readings {
            match reading {
                Reading::Measured(acuity) => {
                    let again = parse(&acuity.to_string(), BareNumber::Ask);
                    prop_assert_eq!(again, Parsed::Understood(reading), "{} as {}", text, acuity);
                }
                Reading::Category(category) => {
                    let written = category.to_string();
                    let Parsed::Understood(Reading::Category(again)) = parse(&written, bare) else {
                        return Err(TestCaseError::fail(written));
                    };
                    prop_assert_eq!(again.to_string(), written);
                }
            }
        }
    }

    #[test]
    fn a_refusal_quotes_no_more_than_it_should(text in pieces(), tail in ".{0,300}") {
        if let Parsed::Refused(error) = parse(&(text + &tail), BareNumber::Ask) {
            prop_assert!(error.found.as_str().chars().count() <= 60, "{}", error);
        }
    }

    #[test]
    fn another_notation_reads_back_as_the_same_text(log in -0.5..2.5f64) {
        let log_mar = LogMar::from_log(log);
        for (scale, bare) in [
            (Scale::Feet, BareNumber::Ask),
            (Scale::Metres, BareNumber::Ask),
            (Scale::Decimal, BareNumber::Decimal),
            (Scale::LogMar, BareNumber::LogMar),
        ] {
            let text = written(log_mar, scale).to_string();
            let Parsed::Understood(Reading::Measured(again)) = parse(&text, bare) else {
                // The best and worst values may round to just outside what is possible.
                prop_assert!(log < -0.49, "{text} is not understood");
                continue;
            };
            let off = (again.log_mar.log() - log).abs();
            prop_assert!(off < 0.03, "{log} was written {text}, {off} log off");
            prop_assert_eq!(written(again.log_mar, scale).to_string(), text);
        }
    }
}
