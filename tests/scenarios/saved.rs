//! Files of cases, as the page writes and opens them: back whole, from any version, and not at all when damaged.

use crate::random::any_draft;
use crate::reading::case;
use arcminute_web::model::draft::Draft;
use arcminute_web::model::kept::{self, Found};
use arcminute_web::model::sealed::Fresh;
use proptest::prelude::*;

fn opened(text: &str) -> Result<Draft, String> {
    match kept::look(text.as_bytes().to_vec())? {
        Found::Case(draft) => Ok(*draft),
        Found::Sealed(_) => Err("it is sealed".into()),
    }
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(10_000) })]

    #[test]
    fn any_case_is_opened_as_it_was_saved(draft in any_draft()) {
        let text = kept::plain(&draft).expect("it is written");
        prop_assert_eq!(opened(&text), Ok(draft));
    }
}

proptest! {
    // Each takes the work that a guess of a passphrase takes, three times; `sealed.rs` tries many more at little work.
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(100) })]

    #[test]
    fn any_case_is_opened_by_its_passphrase_as_it_was_sealed(
        draft in any_draft(),
        passphrase in ".{8,40}",
        (salt, nonce) in any::<([u8; 16], [u8; 12])>(),
    ) {
        let sealed = kept::seal(&draft, &passphrase, Some(Fresh { salt, nonce })).expect("it is sealed");
        prop_assert_eq!(kept::look(sealed.text().as_bytes().to_vec()), Ok(Found::Sealed(sealed.text().into())));
        prop_assert_eq!(kept::unseal(sealed.text(), &passphrase), Ok(Box::new(draft)));
        let another = format!("{passphrase} ");
        prop_assert!(kept::unseal(sealed.text(), &another).is_err(), "another passphrase");
    }
}

/// Files of all versions, as they were written then, and the demonstration cases.
#[test]
fn every_file_of_every_version_opens_and_is_saved_anew() {
    let mut count = 0;
    for folder in ["demo-scenarios", "tests/scenarios/version_1", "tests/scenarios/version_2"] {
        let path = arcminute_tests::root().join(folder);
        for file in std::fs::read_dir(path).expect("the folder is there") {
            let path = file.expect("a file").path();
            let name = path.display().to_string();
            if !name.ends_with(".json") || name.ends_with(".schema.json") {
                continue;
            }
            let text = std::fs::read_to_string(&path).expect("it can be read");
            let draft = opened(&text).unwrap_or_else(|why| panic!("{name}: {why}"));
            assert!(!draft.label.is_empty(), "{name} has its label");
            let saved = kept::plain(&draft).unwrap_or_else(|why| panic!("{name}: {why}"));
            assert_eq!(opened(&saved), Ok(draft), "{name}");
            count += 1;
        }
    }
    assert!(12 <= count, "only {count} files were tried");
}

/// One bit turned over in nine of ten, and the end cut off in the tenth. A changed file is never taken for a case, not even
/// where another measurement would stand in it.
#[test]
fn a_plain_file_that_was_damaged_is_refused_or_opens_as_it_was() {
    let draft = case("adult-20-160");
    let file = kept::plain(&draft).expect("it is written").into_bytes();
    let (mut refused, mut told, mut bit) = (0, std::collections::BTreeSet::new(), 0_usize);
    for damage in 0..100_000_usize {
        // A step that shares no factor with the number of bits comes to each of them.
        bit = (bit + 7919) % (file.len() * 8);
        let mut damaged = file.clone();
        if damage % 10 == 9 {
            damaged.truncate(bit / 8);
        } else {
            damaged[bit / 8] ^= 1 << (bit % 8);
        }
        match kept::look(damaged) {
            Ok(Found::Case(opened)) => assert_eq!(*opened, draft, "bit {bit}"),
            Ok(Found::Sealed(_)) => panic!("bit {bit} makes a sealed file of a plain one"),
            Err(why) => {
                refused += 1;
                told.insert(why);
            }
        }
    }
    assert!(99_000 < refused, "only the words of the check itself may change: {refused}");
    for why in told {
        let calm = why.starts_with("This file was not opened: ")
            && why.ends_with("; nothing on the page has changed.");
        assert!(calm && why.lines().count() == 1, "{why}");
    }
}
