//! The list as a whole: what is read, what is told and how, and the demonstration list.

mod demo_list;
mod told;

use super::*;

/// A table of these rows under the headings of a hand magnifier.
fn table(rows: &str) -> Reading {
    read(format!("id,name,family,power (D),clear diameter (mm),walking,note\n{rows}").as_bytes())
}

fn said(reading: &Reading) -> Vec<String> {
    reading.troubles.iter().map(Trouble::to_string).collect()
}

fn ids(reading: &Reading) -> Vec<&str> {
    reading.list.iter().map(|aid| aid.id.as_str()).collect()
}

#[test]
fn a_row_in_order_becomes_an_aid() {
    let reading = table("h12,Hand lens,Hand Magnifier,12,60,,in the drawer\n");
    assert_eq!((said(&reading), reading.rows, reading.left_out()), (vec![], 1, 0));
    let aid = &reading.list[0];
    assert_eq!((aid.id.as_str(), aid.name.as_str(), aid.family), ("h12", "Hand lens", Family::Hand));
    assert_eq!(aid.note, "in the drawer");
    assert_eq!(aid.said(Column::Power), Some(Value::Number(12.0)));
    assert_eq!(aid.number(Column::LightThrough), Some(92.0), "assumed");
    assert_eq!(aid.number(Column::Barrel), None, "a hand magnifier has none");
    assert_eq!(aid.assumed(), [(Column::LightThrough, 92.0), (Column::LensToGlasses, 150.0)]);
}

#[test]
fn every_separator_line_end_and_mark_reads_the_same() {
    let comma = "id,name,family,power (D),clear diameter (mm)\nh,\"Lens, large\",hand magnifier,12.5,60\n";
    let wanted = read(comma.as_bytes());
    assert_eq!((said(&wanted), ids(&wanted)), (vec![], vec!["h"]));
    for text in [
        "id;name;family;power (D);clear diameter (mm)\nh;Lens, large;hand magnifier;12,5;60\n",
        "id\tname\tfamily\tpower (D)\tclear diameter (mm)\nh\tLens, large\thand magnifier\t12,5\t60",
        "id,name,family,power (D),clear diameter (mm)\r\nh,\"Lens, large\",hand magnifier,\"12,5\",60\r\n",
        "\u{feff}id,name,family,power (D),clear diameter (mm)\rh,\"Lens, large\",hand magnifier,12.5 D,60 mm\r",
        "family,clear_diameter_mm,POWER,Name,ID\nHAND-MAGNIFIER,60,+12.50,\"Lens, large\",h\n",
        "\n\nid,name,family,power (D),clear diameter (mm)\n,,,,\nh,\"Lens, large\",hand magnifier,12.5,60\n\n,,,,\n",
        r#"{ "version": 1, "aids": [{ "id": "h", "name": "Lens, large", "family": "hand magnifier",
             "power_d": 12.5, "clear_diameter_mm": 60, "note": null }] }"#,
    ] {
        let reading = read(text.as_bytes());
        assert_eq!((said(&reading), &reading.list), (vec![], &wanted.list), "{text}");
    }
}

#[test]
fn good_rows_are_kept_beside_bad_ones() {
    let reading = table(
        "a,One,hand magnifier,12,60\nb,Two,hand magnifier,0,60\n,,,,\nc,Three,hand magnifier,20,40\nd,Four,lamp,1,2\n",
    );
    assert_eq!((ids(&reading), reading.rows, reading.left_out()), (vec!["a", "c"], 4, 2));
    let places: Vec<_> = reading.troubles.iter().map(|trouble| trouble.place).collect();
    assert_eq!(places, [Place::Row(3), Place::Row(6)], "rows as a spreadsheet counts them");
}

#[test]
fn what_one_row_breaks_is_told_at_once_and_once() {
    let reading = table("a b,,hand magnifier,=6*2,6 cm,sometimes\n");
    assert_eq!(
        said(&reading),
        [
            "row 2, power (D): `=6*2` is a formula, not a number; type the number that it gives",
            "row 2, clear diameter (mm): `6 cm` has a unit that is not the column's; type the number of mm alone",
            "row 2, walking: `sometimes` is none of its words; type `no`, `spotting` or `yes`",
            "row 2, name: it is empty; fill it in; cells that were merged have to be filled in each row",
            "row 2, id: `a b` holds other signs than a key may have; use letters, digits, `-`, `_` and `.`",
        ]
    );
}

#[test]
fn names_that_look_like_formulas_are_text() {
    let reading = table("a,=1+1,hand magnifier,12,60,,@home\n");
    assert_eq!(said(&reading), [""; 0]);
    assert_eq!((reading.list[0].name.as_str(), reading.list[0].note.as_str()), ("=1+1", "@home"));
    let text = write_csv(&reading.list);
    assert!(text.contains(",'=1+1,") && text.ends_with("'@home\r\n"), "guarded on the way out: {text}");
    assert_eq!(read(text.as_bytes()).list, reading.list);
}

#[test]
fn troubles_past_the_most_are_counted() {
    let rows: String = (0..300).map(|row| format!("k{row},Lens,hand magnifier,0,60\n")).collect();
    let reading = table(&rows);
    assert_eq!((reading.troubles.len(), reading.more), (200, 100));
    assert_eq!(reading.and_more().as_deref(), Some("and 100 more"));
    assert_eq!(table("a,One,hand magnifier,12,60\n").and_more(), None);
}

#[test]
fn no_more_than_five_hundred_aids_are_taken() {
    let rows: String = (0..502).map(|row| format!("k{row},Lens,hand magnifier,12,60\n")).collect();
    let reading = table(&rows);
    assert_eq!(reading.list.len(), 500);
    assert_eq!(
        said(&reading),
        [
            "row 502: the file has more than 500 aids; what follows was left out; split the list into two files"
        ]
    );
    let exactly: String = (0..500).map(|row| format!("k{row},Lens,hand magnifier,12,60\n")).collect();
    assert_eq!(said(&table(&exactly)), [""; 0]);
}

#[test]
fn what_was_written_is_read_back() {
    let demo = demo();
    let table = read(write_csv(&demo.list).as_bytes());
    assert_eq!((said(&table), &table.list), (vec![], &demo.list));
    let json = read(write_json("Ours: \"2nd\" floor", &demo.list).as_bytes());
    assert_eq!((said(&json), &json.list, json.about.as_str()), (vec![], &demo.list, "Ours: \"2nd\" floor"));
    assert_eq!(write_json("", &[]), "{\n  \"version\": 1,\n  \"about\": \"\",\n  \"aids\": []\n}\n");
    assert_eq!(read(write_csv(&[]).as_bytes()), Reading::default(), "headings alone are a list of none");
}

#[test]
fn the_template_shows_each_family_once() {
    let reading = read(template_csv().as_bytes());
    assert_eq!(said(&reading), [""; 0]);
    let families: Vec<_> = reading.list.iter().map(|aid| aid.family).collect();
    let all: Vec<_> = family::ALL.iter().map(|about| about.family).collect();
    assert_eq!(families, all);
    let headings = template_csv().lines().next().map(str::to_owned);
    assert!(headings.is_some_and(|line| line.contains("clear diameter (mm),width (mm),height (mm)")));
}

#[test]
fn how_it_is_used_is_said_or_assumed() {
    let text = "id,name,family,power,clear diameter,hands free,worn,both eyes,walking,shines,glasses\n\
                a,A,hand magnifier,6,90\n\
                b,B,hand magnifier,6,90,2,yes,TRUE,spotting,y,near\n";
    let reading = read(text.as_bytes());
    assert_eq!(said(&reading), [""; 0]);
    let assumed = Traits {
        hands_free: 1,
        worn: false,
        both_eyes: false,
        walking: Walking::No,
        shines: false,
        glasses: Wears::Distance,
    };
    assert_eq!(reading.list[0].traits(), assumed);
    let told = Traits {
        hands_free: 2,
        worn: true,
        both_eyes: true,
        walking: Walking::Spotting,
        shines: true,
        glasses: Wears::Add,
    };
    assert_eq!(reading.list[1].traits(), told);
}

#[test]
fn what_is_said_anew_takes_the_place_of_what_was_said() {
    let mut aid = ListedAid::new("a", "A", Family::Hand);
    for (column, number) in [(Column::ClearDiameter, 60.0), (Column::Power, 8.0), (Column::Power, 12.0)] {
        aid.say(column, Value::Number(number));
    }
    let all: Vec<_> = aid.all_said().collect();
    assert_eq!(all, [(Column::Power, Value::Number(12.0)), (Column::ClearDiameter, Value::Number(60.0))]);
}
