//! A list of aids: rows that are taken can be used and are read back from both forms; the others are told briefly.

use arcminute_core::unit::Length;
use arcminute_web::model::list::{MOST_TROUBLES, read, write_csv, write_json};

/// A list in any of its forms.
pub(crate) fn any(bytes: &[u8]) {
    let reading = read(bytes);
    for aid in &reading.list {
        let used = aid.used(Length::from_mm(15.0), None);
        assert!(used.is_ok(), "{aid:?} was taken: {used:?}");
        assert!(aid.traits().hands_free <= 2 && !aid.how().is_empty(), "{aid:?}");
        if let Some(device) = aid.device() {
            assert!(device.telescope().is_ok(), "{device:?}");
        }
    }
    assert!(reading.troubles.len() <= MOST_TROUBLES, "{} troubles are listed", reading.troubles.len());
    for trouble in &reading.troubles {
        let line = trouble.to_string();
        assert!(trouble.found.chars().count() <= 60 && (20..1000).contains(&line.len()), "`{line}`");
        assert!(!line.contains(char::is_control) && !line.ends_with('.'), "`{line}`");
    }
    let table = read(write_csv(&reading.list).as_bytes());
    assert_eq!((table.list, table.troubles), (reading.list.clone(), vec![]), "a table is read back");
    let json = read(write_json(&reading.about, &reading.list).as_bytes());
    assert_eq!((json.list, json.about), (reading.list, reading.about), "JSON is read back");
    assert_eq!(json.troubles, [], "and has no troubles");
}
