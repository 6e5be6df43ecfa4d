//! Print sizes: what is understood is read back from its own print, and has a size or says why not.

use crate::check;
use arcminute_core::print::{NRule, Notation, Parsed, Print, parse};

/// Any text.
pub(crate) fn any(text: &str) {
    match parse(text) {
        Parsed::Empty => assert!(text.trim().is_empty(), "something was written"),
        Parsed::Understood(print) => understood(&print),
        Parsed::Ask { choices } => {
            assert!(!choices.is_empty(), "there is something to confirm");
            choices.iter().for_each(understood);
        }
        Parsed::Refused(error) => check::refusal(&error),
    }
}

fn understood(print: &Print) {
    let printed = print.to_string();
    let Parsed::Understood(again) = parse(&printed) else { panic!("`{printed}` is not read back") };
    check::reprinted(&again.to_string(), &printed);
    match (print.size(NRule::Convention), again.size(NRule::Convention)) {
        (Ok(sized), Ok(other)) => {
            check::same(&printed, sized.size.m_units(), other.size.m_units());
            assert!(0.0 < sized.size.m_units() && 0.0 < sized.height.mm(), "`{printed}`: {sized:?}");
            check::working(&sized);
        }
        (Err(error), _) => {
            assert!(matches!(print.notation, Notation::Jaeger(_)), "`{printed}` has no size: {error}");
            check::refusal(&error);
        }
        (Ok(_), Err(error)) => panic!("`{printed}` has a size only once: {error}"),
    }
    assert_eq!(again.at.is_some(), print.at.is_some(), "`{printed}` and its distance");
}
