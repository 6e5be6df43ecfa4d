//! Lists of aids: what is written is read back, and no bytes of any kind make the reader panic or take what cannot be.

use arcminute_core::unit::Length;
use arcminute_web::model::list::family::{Measure, Need, PAIRS};
use arcminute_web::model::list::{
    self, Column, Family, ListedAid, MOST_TROUBLES, Reading, Value, column, family, read, write_csv,
    write_json,
};
use proptest::collection::vec;
use proptest::option;
use proptest::prelude::*;
use proptest::sample::{Index, select, subsequence};

/// Whatever was read: its aids can be used and are read back from both forms, and its troubles say something.
#[track_caller]
fn sound(reading: &Reading) {
    let ids: std::collections::BTreeSet<_> =
        reading.list.iter().map(|aid| aid.id.to_ascii_lowercase()).collect();
    assert_eq!(ids.len(), reading.list.len(), "each has a key of its own");
    for aid in &reading.list {
        let used = aid.used(Length::from_mm(15.0), None);
        assert!(used.is_ok(), "{aid:?} was taken: {used:?}");
        assert!(aid.traits().hands_free <= 2 && !aid.name.is_empty(), "{aid:?}");
        assert_eq!(aid.device().is_some(), aid.family == Family::MountedTelescope, "{aid:?}");
    }
    assert!(reading.list.len() <= reading.rows || reading.rows == 0, "no more aids than rows");
    assert!(
        reading.troubles.len() <= MOST_TROUBLES
            && (reading.more == 0 || reading.troubles.len() == MOST_TROUBLES)
    );
    for trouble in &reading.troubles {
        let (line, hint) = (trouble.to_string(), trouble.hint());
        assert!(trouble.found.chars().count() <= 60, "{line}");
        assert!(3 < hint.len() && 10 < trouble.why().len() && line.len() < 800, "{line}");
        assert!(!line.contains('\n') && !line.ends_with('.'), "{line}");
    }
    let table = read(write_csv(&reading.list).as_bytes());
    assert_eq!((&table.list, table.troubles.len()), (&reading.list, 0), "{:?}", table.troubles);
    let json = read(write_json(&reading.about, &reading.list).as_bytes());
    assert_eq!((&json.list, &json.about, json.troubles.len()), (&reading.list, &reading.about, 0));
}

/// A number of a measure, in thousandths.
fn number(measure: &Measure) -> BoxedStrategy<Value> {
    let (least, most) = measure.bound.possible;
    let steps = |limit: f64| limit * 1000.0;
    ((steps(least).ceil() as i64)..=(steps(most).floor() as i64))
        .prop_map(|steps| Value::Number(steps as f64 / 1000.0))
        .boxed()
}

/// Text of a person: any signs that can be printed, and those that a table or a spreadsheet treats otherwise.
fn text(most: usize) -> impl Strategy<Value = String> {
    let begins = select(vec!["", "=", "+", "-", "@", "'", "'=", "''+", "\"", ",", ";"]);
    (begins, "[\\PC,;'\"=+ -]{0,40}").prop_map(move |(begins, rest)| {
        let text = format!("{begins}{rest}");
        let tidy = text.split_whitespace().collect::<Vec<_>>().join(" ");
        tidy.chars().take(most).collect::<String>().trim().to_owned()
    })
}

/// The measures that a row of this family gives: all that it must, some of the others, one pair of a stand magnifier.
fn measures(of: Family) -> impl Strategy<Value = Vec<(Column, Value)>> {
    let all = of.about().measures;
    let paired: Vec<Vec<&Measure>> = PAIRS
        .iter()
        .map(|pair| all.iter().filter(|m| m.need == Need::Pair && pair.contains(&m.column)).collect())
        .collect();
    let free: Vec<&Measure> =
        all.iter().filter(|measure| matches!(measure.need, Need::May | Need::Assumed(_))).collect();
    let some = 0..=free.len();
    (subsequence(free, some), select(paired)).prop_flat_map(move |(free, pair)| {
        let must = all.iter().filter(|measure| measure.need == Need::Must);
        let given: Vec<_> = must
            .chain(free)
            .chain(pair)
            .map(|measure| number(measure).prop_map(|value| (measure.column, value)))
            .collect();
        given
    })
}

/// The words that a row of this family gives.
fn words(of: Family) -> impl Strategy<Value = Vec<(Column, Value)>> {
    let given: Vec<_> = column::ALL
        .iter()
        .filter(|about| of.has(about.column))
        .filter_map(|about| match about.kind {
            column::Kind::Words(words) => {
                let choices = match about.column {
                    Column::Walking => of.about().walking_at_most as usize + 1,
                    _ => words.len(),
                };
                let column = about.column;
                let place = (0..choices).prop_map(move |place| (column, Value::Word(place)));
                Some(if of.must(column) { place.prop_map(Some).boxed() } else { option::of(place).boxed() })
            }
            _ => None,
        })
        .collect();
    given.prop_map(|given| given.into_iter().flatten().collect())
}

fn aid() -> impl Strategy<Value = ListedAid> {
    let families: Vec<Family> = family::ALL.iter().map(|about| about.family).collect();
    let one = select(families).prop_flat_map(|of| {
        (Just(of), "[-_.A-Za-z0-9é語]{1,20}", text(100), text(200), measures(of), words(of))
    });
    one.prop_filter_map("such an aid cannot be", |(of, id, name, note, measures, words)| {
        let mut aid = ListedAid::new(&id, &name, of);
        aid.note = note;
        for (column, value) in measures.into_iter().chain(words) {
            aid.say(column, value);
        }
        // A stand whose page would lie beyond the focus, a block that is no part of a ball.
        let possible = aid.used(Length::from_mm(15.0), None).is_ok() && !aid.name.is_empty();
        possible.then_some(aid)
    })
}

/// The demonstration list in one of its forms.
fn written(json: bool) -> String {
    let list = &list::demo().list;
    if json { write_json("About", list) } else { write_csv(list) }
}

/// A change in one place: bytes put in place of others.
fn change() -> impl Strategy<Value = (Index, usize, Vec<u8>)> {
    let pieces: Vec<&[u8]> = vec![
        b"",
        b",",
        b";",
        b"\"",
        b"\n",
        b"\r",
        b"\t",
        b"=",
        b"'",
        b"\0",
        b"\xFF",
        b"{",
        b"}",
        b"[",
        b"null",
        b"1e999",
        b"-",
        b"1,250",
        b"1.250",
        b"cm",
        b"\xC2\xA0",
        b"stand magnifier",
        b"9999999999",
        b"NaN",
        b"true",
    ];
    let bytes = prop_oneof![select(pieces).prop_map(<[u8]>::to_vec), vec(any::<u8>(), 0..4)];
    (any::<Index>(), prop_oneof![Just(0), 1usize..4, 1usize..400], bytes)
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(10_000) })]

    #[test]
    fn what_is_written_is_read_back(mut aids in vec(aid(), 0..4), about in text(300)) {
        for (place, aid) in aids.iter_mut().enumerate() {
            aid.id = format!("{}{place}", aid.id);
        }
        let table = read(write_csv(&aids).as_bytes());
        prop_assert_eq!((&table.list, &table.troubles), (&aids, &vec![]));
        let json = read(write_json(&about, &aids).as_bytes());
        prop_assert_eq!((&json.list, &json.troubles, &json.about), (&aids, &vec![], &about));
        sound(&table);
    }

    #[test]
    fn bytes_of_any_kind_are_read_without_a_panic(bytes in vec(any::<u8>(), 0..300)) {
        sound(&read(&bytes));
    }

    #[test]
    fn text_of_any_kind_is_read_without_a_panic(text in "[\\PC\n\r\t,;\"'=0-9]{0,200}", headings in any::<bool>()) {
        let headings = if headings { "id,name,family,power,clear diameter\n" } else { "" };
        sound(&read(format!("{headings}{text}").as_bytes()));
    }
}

proptest! {
    // Each reads a whole list some times over.
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(2_000) })]

    #[test]
    fn a_list_that_was_damaged_is_read_as_far_as_it_goes(json: bool, changes in vec(change(), 1..6)) {
        let mut bytes = written(json).into_bytes();
        for (place, length, put) in changes {
            let from = place.index(bytes.len() + 1);
            let to = (from + length).min(bytes.len());
            bytes.splice(from..to, put);
        }
        sound(&read(&bytes));
    }
}
