//! Pupillary distances: what is understood is in range and is read back.

use crate::check;
use arcminute_core::bounds;
use arcminute_core::unit::Length;
use arcminute_web::model::entry::{self, Pd, PdParsed};

/// Any text.
pub(crate) fn any(text: &str) {
    match entry::pd(text) {
        PdParsed::Empty => assert_eq!(entry::normalise(text).as_deref(), Ok(""), "something was written"),
        PdParsed::Understood(pd) => {
            possible(pd);
            let PdParsed::Understood(again) = entry::pd(&written(pd)) else {
                panic!("`{}` is not read back", written(pd));
            };
            for (one, other) in lengths(again).into_iter().zip(lengths(pd)) {
                check::same("PD", one.mm(), other.mm());
            }
            assert_eq!(
                std::mem::discriminant(&again),
                std::mem::discriminant(&pd),
                "{pd} is read as {again}"
            );
        }
        PdParsed::Ask { choices } => {
            assert!(!choices.is_empty(), "there is something to choose");
            choices.into_iter().for_each(possible);
        }
        PdParsed::Refused(error) => check::refusal(&error),
    }
}

fn lengths(pd: Pd) -> Vec<Length> {
    match pd {
        Pd::Binocular(both) => vec![both],
        Pd::Monocular { right: one, left: other } | Pd::FarNear { far: one, near: other } => vec![one, other],
    }
}

fn written(pd: Pd) -> String {
    lengths(pd).iter().map(|length| length.mm().to_string()).collect::<Vec<_>>().join("/")
}

fn possible(pd: Pd) {
    let bound = if matches!(pd, Pd::Monocular { .. }) { &bounds::MONOCULAR_PD } else { &bounds::PD };
    for length in lengths(pd) {
        let mm = length.mm();
        assert!(bound.possible.0 <= mm && mm <= bound.possible.1, "{pd}: {mm} mm is not possible");
    }
    if let Pd::FarNear { far, near } = pd {
        assert!(near <= far, "{pd}: near is the larger");
    }
    assert!(!pd.to_string().is_empty(), "a PD has words");
}
