//! How old a reader has to be: the grade formula of Flesch and Kincaid, `0.39·W/S + 11.8·Y/W − 15.59` of words, sentences
//! and syllables.
//!
//! Source: Kincaid, Fishburne, Rogers & Chissom 1975, "Derivation of new readability formulas for Navy enlisted
//! personnel"; the coefficients are from memory. Syllables are counted by groups of vowels, without a silent e and
//! with those parted that are said apart: a short cut, right for the words checked below.

use super::{of, pieces};
use arcminute_web::model::list;
use arcminute_web::model::sheets::{Block, SheetKind};

/// Grade that the sheet for the person may have: pupils of about twelve.
const MOST: f64 = 6.0;

fn syllables(word: &str) -> usize {
    let word: String = word.to_lowercase().chars().filter(char::is_ascii_alphabetic).collect();
    let is_vowel = |c: char| "aeiouy".contains(c);
    let mut groups = 0;
    let mut in_group = false;
    for c in word.chars() {
        groups += usize::from(is_vowel(c) && !in_group);
        in_group = is_vowel(c);
    }
    // Two vowels that are said apart.
    groups += ["ia", "eo", "ier"].iter().map(|apart| word.matches(apart).count()).sum::<usize>();
    let silent = word.ends_with('e') && !word.ends_with("le") && 1 < groups;
    (groups - usize::from(silent)).max(1)
}

fn grade(sentences: &[String]) -> f64 {
    let words: Vec<&str> = sentences
        .iter()
        .flat_map(|one| one.split_whitespace())
        .filter(|word| word.contains(char::is_alphabetic))
        .collect();
    let syllables: usize = words.iter().map(|word| syllables(word)).sum();
    let (words, sentences) = (words.len() as f64, sentences.len() as f64);
    0.39 * words / sentences + 11.8 * syllables as f64 / words - 15.59
}

fn sentences(text: &str) -> Vec<String> {
    let ends = text.split_inclusive(['.', '?']).map(str::trim).filter(|one| !one.is_empty());
    ends.map(str::to_owned).collect()
}

#[test]
fn the_formula_gives_what_is_known() {
    for (word, wanted) in [
        ("telescope", 3),
        ("magnifier", 4),
        ("page", 1),
        ("distance", 2),
        ("glasses", 2),
        ("needle", 2),
        ("the", 1),
    ] {
        assert_eq!(syllables(word), wanted, "{word}");
    }
    // Six words of one syllable: 0.39·6 + 11.8 − 15.59 = −1.45.
    assert!((grade(&["The cat sat on the mat.".into()]) + 1.45).abs() < 1e-9);
    let hard = "Ophthalmological rehabilitation necessitates individualised magnification considerations.";
    assert!(
        20.0 < grade(&[hard.into()]),
        "a sentence that nobody of twelve can read: {}",
        grade(&[hard.into()])
    );
}

/// For every family of aids, all that the sheet for the person says by itself; headings, and what was typed, are left out.
#[test]
fn what_the_person_takes_home_is_read_at_twelve() {
    let mut draft = crate::reading::case("adult-20-160");
    let goals: Vec<String> = draft.goals.iter().map(|goal| goal.name.clone()).collect();
    let mut worst: Vec<(f64, String)> = Vec::new();
    for aid in &list::demo().list {
        draft.bench.aid = aid.id.clone();
        draft.bench.goal = usize::from(aid.serves() == list::For::Print);
        let sheet = of(SheetKind::Person, &draft);
        let told = sheet
            .blocks
            .iter()
            .filter(|block| !matches!(block, Block::Again(..) | Block::Row(_) | Block::Heading(_)));
        let all: Vec<String> = told
            .flat_map(pieces)
            .filter(|piece| !goals.iter().any(|goal| goal == piece))
            .flat_map(sentences)
            .collect();
        assert!(20 < all.len(), "{}: {} sentences", aid.id, all.len());
        worst.push((grade(&all), aid.id.clone()));
        for sentence in &all {
            let words = sentence.split_whitespace().count();
            assert!(words <= 24, "{}: {words} words in one sentence: {sentence}", aid.id);
        }
    }
    worst.sort_by(|one, other| other.0.total_cmp(&one.0));
    let hardest = worst.first().expect("the list has aids");
    assert!(hardest.0 <= MOST, "grade {:.1} for {}; all: {worst:.1?}", hardest.0, hardest.1);
}

/// No word of the trade, no number of an eye, no diagnosis.
#[test]
fn what_the_person_takes_home_has_no_word_of_the_trade() {
    const NOT_FOR_THE_PERSON: [&str; 20] = [
        "acuity",
        "logmar",
        "dioptre",
        "refraction",
        "scotoma",
        "macula",
        "retina",
        "diagnos",
        "prescri",
        "keplerian",
        "galilean",
        "objective",
        "exit pupil",
        "contrast",
        "magnification",
        "vertex",
        "segment",
        "carrier",
        "20/",
        "chance",
    ];
    let mut draft = crate::reading::case("adult-20-160");
    draft.person.notes = "Macular degeneration, said in the notes".into();
    for aid in &list::demo().list {
        draft.bench.aid = aid.id.clone();
        let text = super::words(&of(SheetKind::Person, &draft)).to_lowercase();
        for word in NOT_FOR_THE_PERSON {
            assert!(!text.contains(word), "{}: {word:?} in\n{text}", aid.id);
        }
    }
}
