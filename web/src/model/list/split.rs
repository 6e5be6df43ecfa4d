//! A table of text taken apart into rows and cells.
//!
//! Written for this list rather than taken from a library, for three things that a reader has to be told: the row as a
//! spreadsheet counts it, empty rows counted; a quotation mark that never closes and would swallow the rest; and how many
//! cells a row has. The format is that of RFC 4180, with other separators, and any line ends.

use super::trouble::Wrong;

/// A table taken apart.
#[derive(Clone, Debug, Default, PartialEq)]
pub(in crate::model) struct Table {
    /// What separates cells.
    pub(in crate::model) separator: char,
    /// Rows of cells; the place is the number of the row, less one.
    pub(in crate::model) rows: Vec<Vec<String>>,
    /// The row in which a quotation mark opens that never closes, from 1; it and what follows is left out.
    pub(in crate::model) open_quote: Option<usize>,
}

/// Separators, the likeliest first.
const SEPARATORS: [char; 3] = [',', ';', '\t'];

/// The separator that stands most often in the first row that holds anything, outside quotation marks.
fn separator(text: &str) -> char {
    let mut counts = [0_usize; SEPARATORS.len()];
    let mut quoted = false;
    let mut any = false;
    for character in text.chars() {
        match character {
            '"' => quoted = !quoted,
            '\n' | '\r' if !quoted && any => break,
            _ => {}
        }
        any |= !character.is_whitespace();
        for (count, separator) in counts.iter_mut().zip(SEPARATORS) {
            *count += usize::from(!quoted && character == separator);
        }
    }
    let most = counts.iter().copied().max().unwrap_or_default();
    let found = counts.iter().zip(SEPARATORS).find(|(count, _)| **count == most);
    found.map_or(',', |(_, separator)| separator)
}

/// The text as rows of cells; rows past `most` are counted as one more, and left out.
pub(in crate::model) fn split(text: &str, most: usize) -> Table {
    let separator = separator(text);
    let mut table = Table { separator, ..Table::default() };
    let mut row: Vec<String> = Vec::new();
    let mut cell = String::new();
    // Whether anything of the row has been met; whether the cell has begun; whether it is inside quotation marks.
    let (mut in_row, mut begun, mut quoted) = (false, false, false);
    let mut rest = text.chars().peekable();
    while let Some(character) = rest.next() {
        if quoted {
            match character {
                '"' if rest.peek() == Some(&'"') => {
                    rest.next();
                    cell.push('"');
                }
                '"' => quoted = false,
                other => cell.push(other),
            }
            continue;
        }
        match character {
            '"' if !begun => (in_row, begun, quoted) = (true, true, true),
            '\n' | '\r' => {
                if character == '\r' && rest.peek() == Some(&'\n') {
                    rest.next();
                }
                row.push(std::mem::take(&mut cell));
                table.rows.push(std::mem::take(&mut row));
                (in_row, begun) = (false, false);
                if most < table.rows.len() {
                    return table;
                }
            }
            other if other == separator => {
                row.push(std::mem::take(&mut cell));
                (in_row, begun) = (true, false);
            }
            other => {
                cell.push(other);
                (in_row, begun) = (true, true);
            }
        }
    }
    if quoted {
        table.open_quote = Some(table.rows.len() + 1);
    } else if in_row {
        row.push(cell);
        table.rows.push(row);
    }
    table
}

/// The bytes as text, without the mark at its beginning.
///
/// # Errors
/// What makes it no text, and the row in which that is seen, from 1.
pub(super) fn text(bytes: &[u8]) -> Result<&str, (Option<usize>, Wrong)> {
    let starts = |what: &[u8]| bytes.starts_with(what);
    if starts(b"PK\x03\x04") || starts(b"\xD0\xCF\x11\xE0") {
        return Err((None, Wrong::Workbook));
    }
    if starts(b"\xFF\xFE") || starts(b"\xFE\xFF") {
        return Err((None, Wrong::WideText));
    }
    if bytes.contains(&0) {
        return Err((None, Wrong::NotText));
    }
    let text = std::str::from_utf8(bytes).map_err(|error| {
        let good = bytes.get(..error.valid_up_to()).unwrap_or_default();
        (Some(1 + good.iter().filter(|byte| **byte == b'\n').count()), Wrong::OtherAlphabet)
    })?;
    Ok(text.strip_prefix('\u{feff}').unwrap_or(text))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn rows(text: &str) -> Vec<Vec<String>> {
        let table = split(text, 100);
        assert_eq!(table.open_quote, None, "{text:?}");
        table.rows
    }

    #[test]
    fn rows_and_cells_are_taken_apart() {
        assert_eq!(rows("a,b\r\n1,2\r\n"), [["a", "b"], ["1", "2"]]);
        assert_eq!(rows("a,b\n1,2"), [["a", "b"], ["1", "2"]], "no end of the last line");
        assert_eq!(rows("a,b\r1,2\r"), [["a", "b"], ["1", "2"]], "returns alone");
        assert_eq!(rows("a,b\n,\n"), [["a", "b"], ["", ""]]);
        assert_eq!(rows("a\n\n1\n"), [["a"], [""], ["1"]], "an empty row counts");
        assert_eq!(rows("a,b\n1,2,"), [vec!["a", "b"], vec!["1", "2", ""]], "a cell after the last sign");
        assert_eq!(rows(""), [[""; 0]; 0]);
    }

    #[test]
    fn quotation_marks_hold_a_cell_together() {
        assert_eq!(rows("a,b\n\"1,5\",\"x \"\"y\"\"\"\n"), [["a", "b"], ["1,5", "x \"y\""]]);
        assert_eq!(rows("a,b\n\"1\n2\",3\n4,5"), [["a", "b"], ["1\n2", "3"], ["4", "5"]]);
        assert_eq!(rows("a,b\n5\",3\n"), [["a", "b"], ["5\"", "3"]], "inches open nothing");
        assert_eq!(rows("a,b\n\"5\"x,3\n"), [["a", "b"], ["5x", "3"]]);
        assert_eq!(rows("a\n\"\""), [["a"], [""]], "empty, yet there");
    }

    #[test]
    fn a_quotation_mark_that_never_closes_is_found() {
        let table = split("a,b\n1,2\n3,\"4\n5,6\n", 100);
        assert_eq!((table.rows.len(), table.open_quote), (2, Some(3)));
    }

    #[test]
    fn the_separator_is_found_in_the_first_row() {
        for (text, wanted) in [
            ("id;name;family\n1,5;2", ';'),
            ("id\tname, long\tfamily", '\t'),
            ("id,name;x,family", ','),
            ("id,name;x", ','),
            ("\n\nid;name", ';'),
            ("\"a;b;c\",d", ','),
            ("id", ','),
            ("", ','),
        ] {
            assert_eq!(separator(text), wanted, "{text:?}");
        }
        assert_eq!(rows("id;name\n1,5;x"), [["id", "name"], ["1,5", "x"]]);
    }

    #[test]
    fn rows_past_the_most_are_not_read() {
        assert_eq!(split("a\nb\nc\nd\ne\n", 2).rows, [["a"], ["b"], ["c"]]);
        assert_eq!(split("a\nb\n", 2).rows, [["a"], ["b"]]);
    }

    #[test]
    fn what_is_no_text_is_known() {
        for (bytes, row, wrong) in [
            (b"PK\x03\x04rest".as_slice(), None, Wrong::Workbook),
            (b"\xD0\xCF\x11\xE0\xA1", None, Wrong::Workbook),
            (b"\xFF\xFEi\0d\0", None, Wrong::WideText),
            (b"\xFE\xFF\0i\0d", None, Wrong::WideText),
            (b"id,name\0", None, Wrong::NotText),
            (b"id,name\nl,\x80\n", Some(2), Wrong::OtherAlphabet),
            (b"\xE9", Some(1), Wrong::OtherAlphabet),
        ] {
            assert_eq!(text(bytes), Err((row, wrong)), "{bytes:?}");
        }
        assert_eq!(text(b"\xEF\xBB\xBFid"), Ok("id"), "the mark at the beginning is left out");
        assert_eq!(text("Lupe für d".as_bytes()), Ok("Lupe für d"));
    }
}
