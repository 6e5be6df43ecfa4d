//! Words as people type them: alike but for capitals, blanks and hyphens, and the known word nearest to one that is not.

/// The word in small letters, its blanks, hyphens and low lines made single blanks.
pub(super) fn plain(word: &str) -> String {
    let mut plain = String::with_capacity(word.len());
    for part in word.split(|c: char| c.is_whitespace() || "-_\u{2010}\u{2011}\u{feff}".contains(c)) {
        if !plain.is_empty() && !part.is_empty() {
            plain.push(' ');
        }
        plain.push_str(&part.to_ascii_lowercase());
    }
    plain
}

/// Whether the two are one word, typed in two ways.
pub(super) fn same_word(one: &str, other: &str) -> bool {
    plain(one) == plain(other)
}

/// The place of the word nearest to this one, where one is near: at most a third of its letters differ, or one is the
/// beginning of the other.
pub(super) fn nearest<'a>(word: &str, known: impl Iterator<Item = &'a str>) -> Option<usize> {
    let word = plain(word);
    let letters = word.chars().count();
    // Nobody means a word of the list by one so long, and the sum below grows with its length.
    if !(2..=60).contains(&letters) {
        return None;
    }
    let mut best = None;
    for (place, other) in known.enumerate() {
        let other = plain(other);
        let begins = 4 <= letters && (other.starts_with(&word) || word.starts_with(&other));
        let apart = if begins { 1 } else { steps_apart(&word, &other) };
        if apart * 3 <= letters && best.is_none_or(|(least, _)| apart < least) {
            best = Some((apart, place));
        }
    }
    best.map(|(_, place)| place)
}

/// How many letters have to be put in, taken out or changed to make one word the other. Levenshtein's distance.
fn steps_apart(one: &str, other: &str) -> usize {
    let other: Vec<char> = other.chars().collect();
    let mut row: Vec<usize> = (0..=other.len()).collect();
    for (above, letter) in one.chars().enumerate() {
        let mut corner = above;
        let mut left = above + 1;
        row[0] = left;
        for (there, cell) in other.iter().zip(row.iter_mut().skip(1)) {
            let changed = corner + usize::from(letter != *there);
            corner = *cell;
            left = changed.min(left + 1).min(*cell + 1);
            *cell = left;
        }
    }
    row.last().copied().unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn capitals_blanks_and_hyphens_do_not_count() {
        assert_eq!(plain("  High-Plus \t spectacles_"), "high plus spectacles");
        assert!(same_word("HAND  magnifier", "hand-magnifier"));
        assert!(!same_word("handmagnifier", "hand magnifier"), "a word is a word");
    }

    #[test]
    fn steps_are_counted() {
        for (one, other, apart) in [
            ("", "", 0),
            ("a", "", 1),
            ("", "ab", 2),
            ("dome", "dame", 1),
            ("stand", "sand", 1),
            ("kitten", "sitting", 3),
        ] {
            assert_eq!(steps_apart(one, other), apart, "{one} and {other}");
            assert_eq!(steps_apart(other, one), apart, "{other} and {one}");
        }
    }

    #[test]
    fn the_nearest_word_is_found_where_one_is_near() {
        let known = ["dome", "bar", "hand magnifier", "stand magnifier"];
        let near = |word: &str| nearest(word, known.into_iter()).map(|place| known[place]);
        assert_eq!(near("hand magnifer"), Some("hand magnifier"));
        assert_eq!(near("Stand-Magnifiers"), Some("stand magnifier"));
        assert_eq!(near("hand"), Some("hand magnifier"), "its beginning");
        assert_eq!(near("dme"), Some("dome"));
        assert_eq!(near("dxxe"), None, "half of it is another");
        assert_eq!((near("spectacles"), near("x"), near("")), (None, None, None));
        assert_eq!(near(&"dome".repeat(1000)), None, "no one means a word by that");
    }
}
