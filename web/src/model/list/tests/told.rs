//! Every message, spelled out.

use super::*;

/// What is told of a file.
#[track_caller]
fn tells(bytes: impl AsRef<[u8]>, wanted: &[&str]) {
    let reading = read(bytes.as_ref());
    assert_eq!(said(&reading), wanted);
    assert_eq!(reading.list, [], "and nothing is taken");
}

/// What is told of a row under these headings.
#[track_caller]
fn row(headings: &str, cells: &str, wanted: &str) {
    tells(format!("{headings}\n{cells}\n"), &[wanted]);
}

#[test]
fn of_files_that_are_no_list() {
    const SAVE: &str = "save it in the spreadsheet program as `CSV UTF-8`, and open that file";
    let workbook = format!("file: it is a workbook of a spreadsheet program, not text; {SAVE}");
    tells(b"PK\x03\x04and more", &[&workbook]);
    tells(b"\xFF\xFEi\0", &[&format!("file: it is text of two bytes for each sign (UTF-16); {SAVE}")]);
    tells(b"id,name\0", &[&format!("file: it holds signs that no text has; choose another file, or {SAVE}")]);
    let alphabet = "a letter is not written in UTF-8, so it cannot be told which it is";
    tells(b"id,name,family\nl,Lupe f\xFCr d,dome", &[&format!("row 2: {alphabet}; {SAVE}")]);
    let large = "it is larger than 2 MB, so it is no list of aids";
    tells(vec![b'a'; MOST_BYTES + 1], &[&format!("file: {large}; choose another file, or {SAVE}")]);
    const TEMPLATE: &str = "begin with the template, which has every heading";
    for empty in ["", "\u{feff}", "\n\n ,,\n"] {
        tells(empty, &[&format!("file: nothing is in it; {TEMPLATE}")]);
    }
    tells(
        "Our aids 2024,,\nlamp,2,3\n",
        &[&format!("row 1: `Our aids 2024,,` is no row of headings of this list; {TEMPLATE}")],
    );
    tells(
        "id,name\na,b\n",
        &["file: the column `family` is missing; add a column with the heading `family`"],
    );
    tells(
        "\"id,name",
        &["row 1: a quotation mark opens here and never closes; this row and what follows was left out; \
           close it, or take it away"],
    );
    assert!(read(&vec![b'a'; MOST_BYTES]).troubles[0].wrong != Wrong::TooLarge, "exactly the most");
}

#[test]
fn of_json_that_is_no_list() {
    const SHAPE: &str = "write it as `{ \"version\": 1, \"about\": \"…\", \"aids\": [ … ] }`";
    tells(
        "{ \"version\": 1, ",
        &[
            "file: it begins like JSON, and is not: EOF while parsing a value at line 1 column 16; mend it there",
        ],
    );
    tells("{ \"version\": 2 }", &["file: it is of version `2`; this page reads version 1"]);
    tells("[]", &["file: it is of version `nothing`; this page reads version 1"]);
    tells("{ \"version\": 1 }", &[&format!("file: it is JSON, but holds no list called `aids`; {SHAPE}")]);
    tells(
        "{ \"version\": 1, \"about\": 5, \"aids\": [7], \"owner\": 1 }",
        &[
            "file: `5` is of the wrong kind; write text in quotation marks",
            "file: `owner` is not known; its cells were left out; what you want to keep goes into `note`",
            "aid 1: `7` is no aid; write it as `{ \"id\": \"…\", \"name\": \"…\", \"family\": \"…\", … }`",
        ],
    );
    let aids = |aids: &str| format!("{{ \"version\": 1, \"aids\": [{aids}] }}");
    tells(
        aids(
            r#"{ "id": 7, "name": "A", "family": "hand magnifier", "power_d": "12", "clear_diameter_mm": 60, "shines": "yes",
                 "hands_free": "1", "walking": "often", "price": 3 }"#,
        ),
        &[
            "aid 1: `price` is not known; its cells were left out; what you want to keep goes into `note`",
            "aid 1, hands free: `\"1\"` is of the wrong kind; write 0, 1 or 2",
            "aid 1, id: `7` is of the wrong kind; write text in quotation marks",
            "aid 1, power (D): `\"12\"` is of the wrong kind; write a number, without quotation marks",
            "aid 1, shines: `\"yes\"` is of the wrong kind; write false or true",
            "aid 1, walking: `\"often\"` is of the wrong kind; write \"no\", \"spotting\" or \"yes\"",
        ],
    );
    let good =
        r#"{ "id": "a", "name": "A", "family": "hand magnifier", "power_d": 12, "clear_diameter_mm": 60 }"#;
    let priced = good.replace("{ ", "{ \"price\": 3, ");
    let both = format!("{priced}, {}", priced.replace("\"a\"", "\"b\""));
    let reading = read(aids(&both).as_bytes());
    assert_eq!((ids(&reading), reading.troubles.len()), (vec!["a", "b"], 1), "a key is told once");
    let twice = read(aids(&format!("{good}, {good}")).as_bytes());
    assert_eq!(said(&twice), ["aid 2, id: `a` is the key of aid 1 as well; give each aid a key of its own"]);
    assert_eq!(ids(&twice), ["a"]);
}

#[test]
fn of_headings() {
    let reading = read(
        "id,name,family,power (x),clear diameter (cm),clear diametre (mm),price,index,INDEX,\n\
         a,A,lamp,1,2,3,4,,,here\nb,B,lamp,,,,,,,there\n"
            .as_bytes(),
    );
    assert_eq!(
        said(&reading)[..6],
        [
            "heading of column 4: `power (x)` has a unit that does not fit; its cells were left out; \
             give the numbers in that unit and type `power (D)`",
            "heading of column 5: `clear diameter (cm)` has a unit that does not fit; its cells were left out; \
             give the numbers in that unit and type `clear diameter (mm)`",
            "heading of column 6: `clear diametre (mm)` is not known; its cells were left out; \
             if you meant it, type `clear diameter (mm)`",
            "heading of column 7: `price` is not known; its cells were left out; \
             what you want to keep goes into `note`",
            "heading of column 9: `INDEX` stands twice; the cells of this one were left out; \
             take one of the two away",
            "heading of column 10: it is empty, and cells stand under it; they were left out; \
             type a heading above them",
        ]
    );
    assert_eq!(reading.troubles.len(), 8, "a heading is told once, a row by itself");
}

const HAND: &str = "id,name,family,power (D),clear diameter (mm),walking,barrel (mm)";

#[test]
fn of_rows() {
    for (cells, wanted) in [
        (
            "a,A,hand magnifier,12,60,,,",
            "row 2: it has 8 cells under 7 headings, so its cells may stand in wrong columns; \
             put what holds the separator, as a decimal comma does, in quotation marks",
        ),
        (
            "a,A,hand magnifier,12,5,60,,,",
            "row 2: it has 9 cells under 7 headings, so its cells may stand in wrong columns; \
             put what holds the separator, as a decimal comma does, in quotation marks",
        ),
        (
            ",A,hand magnifier,12,60",
            "row 2, id: it is empty; fill it in; cells that were merged have to be filled in each row",
        ),
        (
            "a,A,,12,60",
            "row 2, family: it is empty; fill it in; cells that were merged have to be filled in each row",
        ),
        (
            "a,A,hand magnifer,12,60",
            "row 2, family: `hand magnifer` is no family of aids known here; \
             if you meant it, type `hand magnifier`",
        ),
        (
            "a,A,lamp,12,60",
            "row 2, family: `lamp` is no family of aids known here; type one of the families in the template",
        ),
        (
            "a,A,hand magnifier,12",
            "row 2, clear diameter (mm): it is empty, and the family `hand magnifier` needs it; type 2 to 500 mm",
        ),
        (
            "a,A,hand magnifier,twelve,60",
            "row 2, power (D): `twelve` was not understood as a number; type for example `12.5`, in D",
        ),
        (
            "a,A,hand magnifier,\"1,250\",60",
            "row 2, power (D): `1,250` can mean two numbers a thousand times apart; \
             write it without a thousands sign, and with fewer or more than three digits after the decimal sign",
        ),
        ("a,A,hand magnifier,12,600", "row 2, clear diameter (mm): `600` is not possible; type 2 to 500 mm"),
        (
            "a,A,hand magnifier,12.00000000000001,60",
            "row 2, power (D): `12.00000000000001` has more digits than can be kept; round it",
        ),
        (
            "a,A,hand magnifier,12,60,yes",
            "row 2, walking: `yes` is not said of an aid before the eye; \
             type `no`, or `spotting` where it is out of the line of sight until it is used",
        ),
        (
            "a,A,hand magnifier,12,60,,10",
            "row 2, barrel (mm): `10` stands where the family `hand magnifier` has nothing; \
             leave it empty, or mend the family",
        ),
        (
            "a,A\u{7}B,hand magnifier,12,60",
            "row 2, name: `A B` holds a sign that cannot be printed; type it anew",
        ),
    ] {
        row(HAND, cells, wanted);
    }
    let long = "n".repeat(101);
    let shown = format!("{}…", "n".repeat(59));
    let wanted = format!("row 2, name: `{shown}` has more than 100 characters; use at most 100 characters");
    row(HAND, &format!("a,{long},hand magnifier,12,60"), &wanted);
}

#[test]
fn of_keys_that_stand_twice() {
    let reading = table("a,One,hand magnifier,12,60\n\nA,Two,hand magnifier,20,40\n");
    assert_eq!(
        said(&reading),
        ["row 4, id: `A` is the key of row 2 as well; give each aid a key of its own"]
    );
    assert_eq!(ids(&reading), ["a"]);
    assert_eq!(Place::Row(2).to_string(), "row 2");
}

#[test]
fn of_merged_cells() {
    let reading = table("a,One,hand magnifier,12,60\n,,,20,40\n");
    let merged = "it is empty; fill it in; cells that were merged have to be filled in each row";
    assert_eq!(
        said(&reading),
        ["id", "name", "family"].map(|column| format!("row 3, {column}: {merged}")),
        "and nothing more of that row"
    );
}

#[test]
fn of_stand_magnifiers() {
    const STAND: &str = "id,name,family,clear diameter,power,enlargement,image below lens,stand height";
    const PAIRS: &str = "give two measures and no third: enlargement and image below lens, or power and enlargement, \
                         or power and stand height";
    row(
        STAND,
        "a,A,stand magnifier,40",
        &format!("row 2: nothing says how strong the stand magnifier is; {PAIRS}"),
    );
    for (cells, given) in [
        ("20", "power"),
        ("20,5,200", "enlargement, image below lens, power"),
        (",5,,40", "enlargement, stand height"),
        ("20,5,200,40", "enlargement, image below lens, power, stand height"),
    ] {
        row(
            STAND,
            &format!("a,A,stand magnifier,40,{cells}"),
            &format!("row 2: {given} do not say how strong the stand magnifier is; {PAIRS}"),
        );
    }
    row(
        STAND,
        "a,A,stand magnifier,40,20,,,51",
        "row 2: stand height `51 mm` has no solution: the page would lie beyond the focus of the lens; \
         change one of the values it depends on",
    );
    let good = read(
        format!("{STAND}\na,A,stand magnifier,40,,5,200\nb,B,stand magnifier,40,20,5\nc,C,stand magnifier,40,20,,,40\n")
            .as_bytes(),
    );
    assert_eq!((said(&good), good.list.len()), (vec![], 3));
    // (5 − 1)/0.2 m = 20 D, and 20 D at 40 mm enlarge five times: three ways of saying one stand (computed).
    for aid in &good.list {
        let used = aid.used(arcminute_core::unit::Length::from_mm(15.0), None).expect("it is possible");
        let arcminute_core::device::Aid::Stand { stand, .. } = used else { panic!("a stand: {used:?}") };
        assert!((stand.optics.power.dioptres() - 20.0).abs() < 1e-9, "{}: {:?}", aid.id, stand.optics.power);
        assert!((stand.optics.print_to_lens.mm() - 40.0).abs() < 1e-9, "{}", aid.id);
    }
}

#[test]
fn of_telescopes() {
    const SCOPE: &str = "id,name,family,magnification,objective,design,barrel,weight,light through";
    row(SCOPE, "a,A,hand-held telescope,4,12", "row 2, design: it is empty; type `galilean` or `keplerian`");
    row(
        SCOPE,
        "a,A,hand-held telescope,0.4,12,galilean",
        "row 2, magnification (x): `0.4` is not possible; type 1.05 to 20 times",
    );
    row(
        SCOPE,
        "a,A,reversed telescope,4,12,galilean",
        "row 2, magnification (x): `4` is not possible; type 0.05 to 1 times",
    );
    row(
        SCOPE,
        "a,A,spectacle-mounted telescope,4,12,Keplerian,12,30",
        "row 2, light through (%): it is empty, and the family `spectacle-mounted telescope` needs it; \
         type 1 to 100 per cent",
    );
    row(
        SCOPE,
        "a,A,hand-held telescope,4,12,refractor",
        "row 2, design: `refractor` is none of its words; type `galilean` or `keplerian`",
    );
}

#[test]
fn of_numbers_without_a_unit() {
    row(
        "id,name,family,radius,height,clear diameter,index",
        "a,A,dome,30,35,58,glass",
        "row 2, index: `glass` was not understood as a number; type for example `12.5`",
    );
    row(
        "id,name,family,radius,height,clear diameter,index",
        "a,A,dome,30,35,58,4",
        "row 2, index: `4` is not possible; type 1 to 3",
    );
}

#[test]
fn of_quotation_marks_and_rows_past_the_most() {
    let reading = table("a,One,hand magnifier,12,60\nb,\"Two,hand magnifier,12,60\n");
    assert_eq!(
        said(&reading),
        ["row 3: a quotation mark opens here and never closes; this row and what follows was left out; \
          close it, or take it away"]
    );
    assert_eq!(ids(&reading), ["a"]);
    let reading =
        table(&format!("a,One,hand magnifier,12,60\n{}b,Two,hand magnifier,12,60\n", "\n".repeat(MOST_ROWS)));
    assert_eq!(ids(&reading), ["a"]);
    assert_eq!(said(&reading), [""; 0], "empty rows past the most are not worth a word");
    let reading = table(&format!("{}b,Two,hand magnifier,12,60\n", "\n".repeat(MOST_ROWS - 2)));
    assert_eq!((ids(&reading), said(&reading)), (vec!["b"], vec![]), "the last row that is read");
    let reading = table(&format!("{}b,Two,hand magnifier,12,60\n", "\n".repeat(MOST_ROWS - 1)));
    assert_eq!(
        said(&reading),
        [
            "row 10001: the file has more than 10000 rows; what follows was left out; split the list into two files"
        ]
    );
}

/// What is large and strange is told in no time.
#[test]
fn of_files_made_to_take_long() {
    let headings = "ab,".repeat(600_000);
    let told = said(&read(headings.as_bytes()));
    assert_eq!(told.len(), 1);
    assert!(
        told[0].ends_with(
            "is no row of headings of this list; begin with the template, which has every heading"
        )
    );
    let keys: String = (0..100_000).map(|key| format!("\"k{key}\": 1, ")).collect();
    let reading = read(format!("{{ \"version\": 1, \"aids\": [{{ {keys} \"id\": \"a\" }}] }}").as_bytes());
    assert_eq!(
        (reading.troubles.len(), reading.more),
        (200, 99_802),
        "all but the two that miss are unknown"
    );
    let reading = read(format!("{{ \"version\": 1, \"aids\": [7{}] }}", ", 7".repeat(20_000)).as_bytes());
    assert_eq!(
        (reading.troubles.len(), reading.more),
        (200, 9_801),
        "a word for each of ten thousand and one"
    );
}
