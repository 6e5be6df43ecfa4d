//! What a person types, signs and commas of every kind, against the references: the page's reading of it.

use arcminute_core::acuity::{BareNumber, Parsed, parse};
use arcminute_core::refraction;
use arcminute_core::{Why, bounds};
use arcminute_web::model::entry;
use proptest::prelude::{ProptestConfig, any, proptest};

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
