//! Colours of a screen: read as written and read back; two of them have a contrast.

use crate::check;
use arcminute_core::contrast::{Colour, of_colours};

/// One colour in each of the first two lines.
pub(crate) fn any(text: &str) {
    let mut lines = text.lines();
    let mut next = || lines.next().and_then(read);
    let (Some(one), other) = (next(), next().unwrap_or(Colour::WHITE)) else { return };
    let contrast = of_colours(other, one);
    check::working(&contrast);
    assert!((1.0..=21.000_001).contains(&contrast.ratio), "{one} on {other}: {contrast:?}");
    let turned = of_colours(one, other);
    check::same("the ratio either way round", contrast.ratio, turned.ratio);
}

fn read(text: &str) -> Option<Colour> {
    let digits = text.trim().strip_prefix('#').unwrap_or_default();
    let is_colour = matches!(digits.len(), 3 | 6) && digits.bytes().all(|byte| byte.is_ascii_hexdigit());
    match Colour::parse(text) {
        Ok(colour) => {
            assert!(is_colour, "`{text}` is no colour");
            assert_eq!(Colour::parse(&colour.to_string()), Ok(colour), "{colour} is not read back");
            check::working(&colour.light());
            Some(colour)
        }
        Err(error) => {
            assert!(!is_colour, "`{text}` is a colour");
            check::refusal(&error);
            None
        }
    }
}
