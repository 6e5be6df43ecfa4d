//! The table: what is guarded, what comes back, what it says.

use super::*;
use crate::model::{demo, devices};

/// The table of one row with this value, and what is read back of it.
fn there_and_back(value: &str) -> (String, String) {
    let mut table = String::from(MARK);
    line(&mut table, &HEADINGS);
    line(&mut table, &["a", value, "", ""]);
    let rows = read_back(&table).expect("it is read back");
    let written = table.lines().nth(1).expect("a row").to_owned();
    (written, rows[0][1].clone())
}

/// The four texts that a table most easily loses; the apostrophe is the guard.
#[test]
fn what_a_spreadsheet_would_change_is_guarded_and_comes_back() {
    for (value, written) in [
        ("+2.00", r#""a","'+2.00","","""#),
        ("-1.50", r#""a","'-1.50","","""#),
        ("6/12", r#""a","'6/12","","""#),
        ("=1+1", r#""a","'=1+1","","""#),
        ("@x", r#""a","'@x","","""#),
        ("20/200-2", r#""a","'20/200-2","","""#),
        ("1-2", r#""a","'1-2","","""#),
        (" =1+1", r#""a","' =1+1","","""#),
        ("'=1+1", r#""a","''=1+1","","""#),
        ("''6/12", r#""a","'''6/12","","""#),
        ("\t1", "\"a\",\"'\t1\",\"\",\"\""),
        ("2.00", r#""a","2.00","","""#),
        ("CF 1 m", r#""a","CF 1 m","","""#),
        ("0.90 logMAR", r#""a","0.90 logMAR","","""#),
        ("'tis", r#""a","'tis","","""#),
        ("say \"6/12\"", r#""a","say ""6/12""","","""#),
        ("", r#""a","","","""#),
    ] {
        assert_eq!(there_and_back(value), (written.to_owned(), value.to_owned()), "{value}");
    }
    for value in ["\r=1", "\n", "a\r\nb", "\"", "\"=1\"", "１/２", "＝1+1"] {
        assert_eq!(there_and_back(value).1, value, "{value:?}");
    }
}

#[test]
fn a_box_is_said_with_what_became_of_it() {
    let mut draft = Draft { label: "A-17".into(), ..Draft::default() };
    draft.person.right.acuity = "6/48".into();
    draft.person.left.acuity = "0.1".into();
    draft.person.left.refraction = "+2.00 -1.50".into();
    draft.goals[0].print = "1.6 M".into();
    let rows = read_back(&numbers(&draft, &Answer::of(&draft))).expect("it is read back");
    let row = |what: &str| rows.iter().find(|row| row[0] == what).map(|row| [&*row[1], &row[2], &row[3]]);
    assert_eq!(row("Case label"), Some(["A-17", "", ""]));
    assert_eq!(
        row("RIGHT eye: best corrected distance acuity"),
        Some(["6/48", "", "read as 6/48 = 20/160 = logMAR 0.90"])
    );
    assert_eq!(
        row("LEFT eye: best corrected distance acuity"),
        Some(["0.1", "", "not used. 0.1 can mean more than one thing. Choose one"])
    );
    assert_eq!(
        row("LEFT eye: refraction"),
        Some(["+2.00 -1.50", "", "not used. Cylinder `-1.50` needs an axis"])
    );
    assert_eq!(row("Vertex distance"), Some(["13 mm", "mm", "assumed; the box is empty"]));
    assert_eq!(row("RIGHT eye: logMAR"), Some(["0.903", "logMAR", "letters counted at 0.02 log each"]));
    assert_eq!(row("LEFT eye: logMAR"), None, "what is asked about is no number");
    assert_eq!(row("RIGHT eye: refraction"), None, "an empty box without an assumption has no row");
    assert_eq!(row("Notes"), None, "words have no row");
    assert!(rows.iter().any(|row| row[0].starts_with("Goal 1: ") && row[1] == "20/40"), "{rows:?}");
    assert!(rows.iter().all(|row| row[1] != "1.6 M"), "a goal of this kind has no print");
}

/// The exact height is that of the worked example of a telescope without pantoscopic angle, 32.413 mm (computed by hand).
#[test]
fn where_it_sits_is_told_to_the_half_millimetre_and_exactly() {
    let rows = |draft: &Draft| read_back(&numbers(draft, &Answer::of(draft))).expect("it is read back");
    let draft = demo::CASES.iter().find(|case| case.id == "adult-20-160").expect("a case").case();
    let told = rows(&draft);
    let height: Vec<[&str; 4]> = told
        .iter()
        .filter(|row| row[0] == "RIGHT eye: eyepiece centre above the lowest point of the lens")
        .map(|row| [&*row[0], &row[1], &row[2], &row[3]])
        .collect();
    let what = "RIGHT eye: eyepiece centre above the lowest point of the lens";
    assert_eq!(height, [[what, "32.5", "mm", "to the half millimetre"], [what, "32.413", "mm", "exact"]]);
    let mut near = draft;
    let pair = devices::demo_stock().spectacles.iter().find(|one| one.both_eyes).expect("a pair in the list");
    near.bench.aid = pair.id.clone();
    near.fit.base_in_pd = "6".into();
    near.person.left.pupil_height_mm = "21".into();
    let told = rows(&near);
    for eye in ["RIGHT eye: ", "LEFT eye: "] {
        let prism = told.iter().find(|row| row[0] == format!("{eye}prism worked on the lens"));
        assert_eq!(
            prism.map(|row| &row[1..]),
            Some(&["6.0", "prism dioptres", "base in"].map(String::from)[..])
        );
    }
    assert!(told.iter().all(|row| !row[0].contains("eyepiece centre")), "no telescope is worn");
}

#[test]
fn what_is_not_such_a_table_is_refused_whole() {
    let said = |text: &str| read_back(text).expect_err("refused").to_string();
    let heads = "\"what\",\"value\",\"unit\",\"note\"\r\n";
    assert_eq!(said(""), "the first row is not `what, value, unit, note`");
    assert_eq!(
        said("\"value\",\"what\",\"unit\",\"note\"\r\n"),
        "the first row is not `what, value, unit, note`"
    );
    assert_eq!(said(&[heads, "\"a\",\"b\"\r\n"].concat()), "row 2 does not have 4 cells");
    assert_eq!(said(&[heads, "\"a\",\"b,c\r\n"].concat()), "a quotation mark in row 2 never closes");
    let long = [heads, &"\"a\",\"b\",\"c\",\"d\"\r\n".repeat(MOST_ROWS)].concat();
    assert_eq!(said(&long), "the table has more than 10000 rows");
    assert_eq!(read_back(heads), Ok(vec![]));
}
