//! What a person types, signs and commas of every kind, against the references: the page's reading of it.

use arcminute_core::acuity::{BareNumber, Category, Parsed, Reading, parse};
use arcminute_core::refraction;
use arcminute_core::unit::Length;
use arcminute_core::{Why, bounds};
use arcminute_web::model::entry;
use proptest::prelude::{ProptestConfig, any, proptest};

/// Source: fitting reference, section 10, case 13, every entry of it as it is typed; the rest of section 8 stands beside the
/// notations it belongs to.
#[test]
fn fitting_case_13_parsing() {
    let log_mar = |text: &str, bare| match entry::acuity(text, bare) {
        Parsed::Understood(Reading::Measured(acuity)) => acuity.log_mar.log(),
        other => panic!("{text}: {other:?}"),
    };
    for (text, bare, wanted) in [
        ("20/200-2", BareNumber::Ask, 1.04),
        ("3/60", BareNumber::Ask, 1.301),
        ("0,1", BareNumber::Decimal, 1.00),
    ] {
        let got = log_mar(text, bare);
        assert!((got - wanted).abs() < 5e-4, "{text}: {got}, printed {wanted}");
    }
    let asked = entry::acuity("0.1", BareNumber::Ask);
    assert!(matches!(asked, Parsed::Ask { ref choices } if choices.len() == 2), "0.1 alone: {asked:?}");
    let fingers = Category::CountsFingers { distance: Some(Length::from_m(1.0)) };
    assert_eq!(entry::acuity("CF 1m", BareNumber::Ask), Parsed::Understood(Reading::Category(fingers)));
    let Parsed::Refused(error) = entry::acuity("1,250", BareNumber::Ask) else { panic!("1.25 or 1250") };
    assert_eq!(error.why, Why::GroupedOrDecimal);
    let refraction::Parsed::Understood(read) = entry::prescription("+2.00 -1.50 x 0") else {
        panic!("axis 0")
    };
    assert_eq!(read.refraction.axis, Some(180));
    let refraction::Parsed::Refused(error) = entry::prescription("+2.00 -1.50 x 181") else {
        panic!("axis 181")
    };
    assert_eq!(error.to_string(), "axis `181 degrees` is not possible");
}

/// Source: fitting reference, sections 8.1 and 10, case 13, acuities with a decimal comma.
#[test]
fn fitting_case_13_commas() {
    assert_eq!(entry::acuity("0,1", BareNumber::Decimal), parse("0.1", BareNumber::Decimal));
    let Parsed::Refused(error) = entry::acuity("1,250", BareNumber::Decimal) else { panic!("1.25 or 1250") };
    assert_eq!(error.why, Why::GroupedOrDecimal);
}

/// Source: fitting reference, sections 8.2 and 10, case 13, a prescription in print.
#[test]
fn fitting_case_13_prescription_in_print() {
    let refraction::Parsed::Understood(read) = entry::prescription("+2.00 −1.50 × 090 add +2.50") else {
        panic!("it can be read in one way only");
    };
    assert_eq!(read.to_string(), "+2.00 -1.50 x090 add +2.50");
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(10_000))]

    /// Law: every text has an answer.
    #[test]
    fn no_text_makes_an_entry_panic(text in any::<String>()) {
        let _ = entry::acuity(&text, BareNumber::Ask);
        let _ = entry::refraction(&text);
        let _ = entry::pd(&text);
        let _ = entry::number(&text, &bounds::POWER);
        let _ = entry::angle(&text, &bounds::TILT);
        let _ = entry::dioptres(&text, &bounds::SPHERE);
        let _ = entry::length(&text, &bounds::TASK_DISTANCE);
    }

    /// Law: what is plain stays as it is.
    #[test]
    fn plain_text_stays_as_it_is(text in "[-+0-9,./x ½²⁻٣−]{0,12}") {
        if let Ok(plain) = entry::normalise(&text) {
            assert_eq!(entry::normalise(&plain), Ok(plain.clone()), "{text:?}");
            // The core reads plain text as the entry layer does.
            assert_eq!(entry::acuity(&text, BareNumber::Ask), parse(&plain, BareNumber::Ask));
        }
    }
}
