//! Typed text in plain characters.

use arcminute_core::scan;
use arcminute_core::{Error, Why};

/// The text in plain characters, for the parsers of the core.
///
/// * Blanks of all kinds become single spaces; invisible marks go.
/// * Wide characters, Arabic-Indic and Devanagari digits, the minus sign, en dash and hyphens, `×`, slashes and primes
///   become ASCII. Raised digits do after a raised sign only (`20/200⁻²`): by themselves they are left to be refused,
///   because `20/20²` is not 20/202.
/// * A comma before a digit becomes the decimal point if the text has no point. A comma before exactly three digits
///   (`1,250`) can group thousands and is refused in every language, unless nothing but zeros stands before it
///   (`0,125`). A point is always a decimal sign: `1.250` is 1.25.
///
/// # Errors
/// [`Why::TooLong`] above 200 characters, [`Why::GroupedOrDecimal`] as said.
///
/// # Example
/// ```
/// use arcminute_web::model::entry::normalise;
/// assert_eq!(normalise(" −1,50 × ٩٠ ")?, "-1.50 x 90");
/// assert!(normalise("1,250").is_err());
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn normalise(text: &str) -> Result<String, Error> {
    plain("entry", text)
}

/// [`normalise`], with the name of the quantity for the message.
pub(super) fn plain(quantity: &'static str, text: &str) -> Result<String, Error> {
    let text = scan::entry(quantity, text)?;
    let mut plain = String::with_capacity(text.len());
    let mut raised = false;
    for character in text.chars() {
        raised = match raised_sign(character) {
            Some(sign) => {
                plain.push(sign);
                true
            }
            None => match raised_digit(character) {
                Some(digit) if raised => {
                    plain.push(digit);
                    true
                }
                _ => {
                    push_plain(&mut plain, character);
                    false
                }
            },
        };
    }
    plain.truncate(plain.trim_end().len());
    decimal_points(&plain).ok_or_else(|| Error::new(quantity, text, Why::GroupedOrDecimal))
}

fn raised_sign(character: char) -> Option<char> {
    match character {
        '⁺' => Some('+'),
        '⁻' => Some('-'),
        _ => None,
    }
}

fn raised_digit(character: char) -> Option<char> {
    "⁰¹²³⁴⁵⁶⁷⁸⁹".chars().position(|raised| raised == character).and_then(digit)
}

fn digit(value: usize) -> Option<char> {
    "0123456789".chars().nth(value)
}

fn push_plain(plain: &mut String, character: char) {
    let offset_in = |first: char| (u32::from(character) - u32::from(first)) as usize;
    let converted = match character {
        // Arabic-Indic, its eastern form, Devanagari.
        '\u{660}'..='\u{669}' => digit(offset_in('\u{660}')),
        '\u{6F0}'..='\u{6F9}' => digit(offset_in('\u{6F0}')),
        '\u{966}'..='\u{96F}' => digit(offset_in('\u{966}')),
        // Wide forms of the whole of ASCII.
        '\u{FF01}'..='\u{FF5E}' => char::from_u32(u32::from(character) - 0xFEE0),
        // Hyphens, figure dash, en dash, minus, small minus.
        '\u{2010}'..='\u{2013}' | '\u{2212}' | '\u{FE63}' => Some('-'),
        '×' | '✕' => Some('x'),
        // Fraction and division slashes.
        '\u{2044}' | '\u{2215}' => Some('/'),
        // Prime, quotation marks used for it, and their doubles.
        '\u{2032}' | '\u{2018}' | '\u{2019}' => Some('\''),
        '\u{2033}' | '\u{201C}' | '\u{201D}' => Some('"'),
        // Arabic decimal sign, thousands sign and comma; raised ordinal typed for degrees.
        '\u{66B}' => Some('.'),
        '\u{66C}' | '\u{60C}' => Some(','),
        'º' => Some('°'),
        // Zero-width and direction marks.
        '\u{200B}'..='\u{200F}'
        | '\u{202A}'..='\u{202E}'
        | '\u{2060}'..='\u{2069}'
        | '\u{61C}'
        | '\u{FEFF}' => return,
        blank if blank.is_whitespace() => {
            if !plain.is_empty() && !plain.ends_with(' ') {
                plain.push(' ');
            }
            return;
        }
        other => Some(other),
    };
    plain.extend(converted);
}

/// The text with its decimal commas as points; nothing if a comma can mean something else.
fn decimal_points(plain: &str) -> Option<String> {
    let bytes = plain.as_bytes();
    let is_digit = |at: usize| bytes.get(at).is_some_and(u8::is_ascii_digit);
    let is_decimal = |at: usize| bytes[at] == b',' && is_digit(at + 1);
    if !(0..bytes.len()).any(is_decimal) {
        return Some(plain.to_owned());
    }
    let groups = |at: usize| {
        let after = (at + 1..bytes.len()).take_while(|&next| is_digit(next)).count();
        let before = (0..at).rev().take_while(|&previous| is_digit(previous));
        after == 3 && before.into_iter().any(|previous| bytes[previous] != b'0')
    };
    let doubtful = plain.contains('.') || (0..bytes.len()).any(|at| is_decimal(at) && groups(at));
    let point = |(at, character)| if character == ',' && is_decimal(at) { '.' } else { character };
    (!doubtful).then(|| plain.char_indices().map(point).collect())
}
