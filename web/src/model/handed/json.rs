//! JSON as it is to stand in a file. Numbers are kept as they are written: `2.00` stays `2.00`, since its zeros tell the
//! precision.

/// A piece of a file, ready to stand in it: a value, or values with their names.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Json(String);

/// Words, without signs that no file of this kind may hold.
pub(super) fn text(words: &str) -> Json {
    let mut piece = String::from("\"");
    for sign in words.chars() {
        match sign {
            '"' => piece.push_str("\\\""),
            '\\' => piece.push_str("\\\\"),
            '\n' => piece.push_str("\\n"),
            '\r' => piece.push_str("\\r"),
            '\t' => piece.push_str("\\t"),
            sign if is_banned(sign) => piece.push('\u{fffd}'),
            sign => piece.push(sign),
        }
    }
    piece.push('"');
    Json(piece)
}

/// Signs that neither the text elements of the standard nor XML can hold.
fn is_banned(sign: char) -> bool {
    matches!(sign, '\u{fffe}' | '\u{ffff}') || sign.is_control()
}

/// A number as it is to stand in the file.
pub(super) fn number(digits: String) -> Json {
    Json(digits)
}

/// A pattern, each `%` of it replaced by the next piece. Patterns are written here in the program, never typed.
pub(super) fn fill(pattern: &str, pieces: &[&Json]) -> Json {
    let mut filled = String::new();
    let mut pieces = pieces.iter();
    for part in pattern.split_inclusive('%') {
        match (part.strip_suffix('%'), pieces.len()) {
            (Some(before), 1..) => {
                filled.push_str(before);
                pieces.next().into_iter().for_each(|piece| filled.push_str(&piece.0));
            }
            _ => filled.push_str(part),
        }
    }
    Json(filled)
}

/// Values in order, each on a line of its own.
pub(super) fn list(values: &[Json]) -> Json {
    let mut list = String::from("[");
    for (place, value) in values.iter().enumerate() {
        list.push_str(if place == 0 { "\n" } else { ",\n" });
        list.push_str(&value.0);
    }
    list.push_str("\n]");
    Json(list)
}

impl Json {
    /// Adds another piece right behind.
    pub(super) fn push(&mut self, other: &Self) {
        self.0.push_str(&other.0);
    }

    /// As a file.
    pub(super) fn written(mut self) -> String {
        self.0.push('\n');
        self.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::{Value, json};

    #[test]
    fn numbers_stand_as_they_are_written() {
        let prism = list(&[number("0.50".into()), text("in")]);
        let value = fill(r#"{"sphere": %, "prism": %}"#, &[&number("-2.00".into()), &prism]);
        assert_eq!(value.written(), "{\"sphere\": -2.00, \"prism\": [\n0.50,\n\"in\"\n]}\n");
    }

    #[test]
    fn a_sign_of_a_pattern_in_what_was_typed_is_left_as_it_is() {
        let value = fill(r#"{"a": %, "b": %}"#, &[&text("50 % of %"), &text("%")]);
        let read: Value = serde_json::from_str(&value.written()).expect("it is JSON");
        assert_eq!(read, json!({ "a": "50 % of %", "b": "%" }));
    }

    #[test]
    fn another_reader_reads_the_same_words() {
        for words in ["", "a \"b\" \\ c", "one\ntwo\r\tthree", "−2.00 × 090 ″ 語 𝛼", "</div>&amp;"] {
            let read: Value = serde_json::from_str(&text(words).written()).expect("it is JSON");
            assert_eq!(read, json!(words));
        }
    }

    #[test]
    fn signs_that_no_reader_takes_are_replaced() {
        assert_eq!(text("a\0b\u{1b}c\u{85}d\u{ffff}e"), text("a\u{fffd}b\u{fffd}c\u{fffd}d\u{fffd}e"));
    }
}
