//! Acuities: what is understood is in range, shows its working, and is read back from its own print.

use crate::check;
use arcminute_core::acuity::{Acuity, BareNumber, Category, Parsed, Reading, Scale, parse, written};
use arcminute_core::bounds;

/// A text, with each meaning of a bare number.
pub(crate) fn any(text: &str) {
    let parsed = [BareNumber::Ask, BareNumber::Decimal, BareNumber::LogMar].map(|bare| read(text, bare));
    let [asked, decimal, log_mar] = &parsed;
    match asked {
        Parsed::Empty => assert!(text.trim().is_empty(), "something was written"),
        Parsed::Ask { choices } => {
            assert!(matches!(choices.len(), 1 | 2), "{choices:?}");
            for choice in choices {
                let Parsed::Understood(Reading::Measured(again)) = read(&choice.to_string(), BareNumber::Ask)
                else {
                    panic!("{choice} is asked about again");
                };
                check::same(choice, again.log_mar.log(), choice.log_mar.log());
                let by_itself = [decimal, log_mar].contains(&&understood(*choice));
                assert!(by_itself, "{choice} is nobody's meaning of `{text}`");
            }
        }
        Parsed::Understood(_) => {
            let agreed = parsed.contains(asked) && (decimal == asked || log_mar == asked);
            assert!(agreed, "`{text}` is understood as what neither meaning gives");
        }
        Parsed::Refused(_) => {
            // A sign says that a bare number is no decimal, unless it was set that it is one.
            let refused = |parsed: &Parsed| matches!(parsed, Parsed::Refused(_));
            let signed = text.trim().starts_with('+');
            assert!(signed || refused(decimal), "`{text}` is refused, and yet can be a decimal");
            assert!(refused(log_mar), "`{text}` is refused, and yet can be a logMAR");
        }
    }
}

/// One of the categories' phrases, then anything.
pub(crate) fn category(bytes: &[u8]) {
    const PHRASES: &[&str] = &[
        "CF",
        "fc",
        "Counts Fingers",
        "HM",
        "hand motion",
        "LP",
        "light perception",
        "NLP",
        "no perception of light",
    ];
    let Some((phrase, rest)) = check::chosen(PHRASES, bytes) else { return };
    for text in [format!("{phrase}{rest}"), format!("{phrase} {rest}")] {
        any(&text);
        let starts_word = rest.starts_with(|next: char| next.is_alphabetic());
        let measured = matches!(
            parse(&text, BareNumber::Ask),
            Parsed::Understood(Reading::Measured(_)) | Parsed::Ask { .. }
        );
        assert!(
            !measured || (starts_word && text.len() == phrase.len() + rest.len()),
            "`{text}` is a category, no size"
        );
    }
}

fn understood(acuity: Acuity) -> Parsed {
    Parsed::Understood(Reading::Measured(acuity))
}

/// Reads it, and holds what was read to its properties.
fn read(text: &str, bare: BareNumber) -> Parsed {
    let parsed = parse(text, bare);
    match &parsed {
        Parsed::Understood(Reading::Measured(acuity)) => measured(*acuity, bare),
        Parsed::Understood(Reading::Category(category)) => {
            let again = parse(&category.to_string(), bare);
            let Parsed::Understood(Reading::Category(again)) = again else {
                panic!("`{category}` is not read back: {again:?}");
            };
            assert_eq!(again.to_string(), category.to_string(), "the print is not the same");
            usable_in_no_sum(*category);
        }
        Parsed::Ask { .. } => assert_eq!(bare, BareNumber::Ask, "what is set is not asked about"),
        Parsed::Refused(error) => check::refusal(error),
        Parsed::Empty => {}
    }
    parsed
}

fn measured(acuity: Acuity, bare: BareNumber) {
    let log = acuity.log_mar.log();
    assert_eq!(bounds::LOG_MAR.check(log), Ok(log), "{acuity} is out of range");
    check::working(&acuity);
    let printed = acuity.to_string();
    let Parsed::Understood(Reading::Measured(again)) = parse(&printed, bare) else {
        panic!("`{printed}` is not read back");
    };
    check::same(&printed, again.log_mar.log(), log);
    check::reprinted(&again.to_string(), &printed);
    check::same("the line", again.line().log(), acuity.line().log());
    for scale in [Scale::Feet, Scale::Metres, Scale::Decimal, Scale::LogMar] {
        let shown = written(acuity.log_mar, scale).to_string();
        assert!(!shown.is_empty() && shown.len() < 20, "{log} is shown as `{shown}`");
    }
}

fn usable_in_no_sum(category: Category) {
    let error = Reading::Category(category).measured().expect_err("a category has no size");
    check::refusal(&error);
    if let Ok((mean, _)) = category.published_mean() {
        assert!(mean.log().is_finite(), "a mean is a number");
    }
}
