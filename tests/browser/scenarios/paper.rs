//! The sheets on paper: whole, in order, true to scale, and saying so when they must not be used.

mod sheets;

use super::cases::{CASES, Case, case};
use super::places::{fill, go, load, rows};
use crate::driver::Options;
use crate::page::Page;
use crate::{act, pdf, see};
use serde_json::{Value, json};
use std::path::Path;

/// Width and height of the papers, millimetres.
const A4: (f64, f64) = (210.0, 297.0);
const LETTER: (f64, f64) = (215.9, 279.4);

/// The texts of each leaf of the sheet as they are shown in print, and those of its pictures.
const SHOWN: &str = "
    return [...document.querySelectorAll('.leaf')].map(leaf => {
        const all = [], drawn = [];
        const walker = document.createTreeWalker(leaf, NodeFilter.SHOW_TEXT);
        while (walker.nextNode()) {
            const holder = walker.currentNode.parentElement;
            if (holder.closest('title, desc') || !holder.checkVisibility()) continue;
            (holder.closest('svg') ? drawn : all).push(walker.currentNode.data);
        }
        return { all: all.join(' '), drawn: drawn.join(' ') };
    })";

/// Parts of a leaf that leave it or run into its foot, a heading at its end, and what stands alone on it.
const SPILT: &str = "
    const tall = arguments[0];
    return [...document.querySelectorAll('.leaf')].flatMap((leaf, page) => {
        const told = [], foot = leaf.querySelector('.sheet-foot');
        const [side, end] = [leaf.getBoundingClientRect(), foot.getBoundingClientRect()];
        if (leaf.scrollHeight > tall || side.height > tall) told.push(`${side.height} px high, the paper ${tall}`);
        if (leaf.scrollWidth > leaf.clientWidth) told.push('too wide');
        for (const part of leaf.querySelectorAll('*')) {
            if (!part.checkVisibility() || part.closest('title, desc')) continue;
            const box = part.getBoundingClientRect();
            const name = `${part.tagName} ${part.textContent.trim().slice(0, 40)}`;
            if (box.right > side.right + 0.5 || box.left < side.left - 0.5) told.push('past the side: ' + name);
            if (!foot.contains(part) && box.bottom > end.top + 0.5) told.push('into the foot: ' + name);
        }
        const parts = [...leaf.children].filter(part => !part.matches('.sheet-head, .sheet-foot'));
        const last = parts[parts.length - 1];
        if (!last || last.tagName === 'H3' || last.querySelector('tr:last-child')?.matches('.columns')) told.push('a heading at the end');
        const pieces = leaf.querySelectorAll('tr, li, p, figure, h3').length - leaf.querySelectorAll('.sheet-head p, .sheet-foot p').length;
        if (pieces < 3) told.push(`${pieces} alone on it`);
        return told.map(what => `page ${page + 1}: ${what}`);
    })";

/// The page with the drawing, from 1; none where nothing is drawn.
const DRAWN_ON: &str =
    "return [...document.querySelectorAll('.leaf')].findIndex(leaf => leaf.querySelector('.check-bar')) + 1";

fn as_printed(page: &Page, paper: (f64, f64)) {
    let px = |mm: f64| (mm / 25.4 * 96.0).floor() as u32;
    page.set_viewport(px(paper.0), px(paper.1));
    page.cdp("Emulation.setEmulatedMedia", json!({ "media": "print" }));
}

fn as_on_screen(page: &Page) {
    page.cdp("Emulation.setEmulatedMedia", json!({ "media": "" }));
    page.set_viewport(1280, 900);
}

fn paper_of(case: &Case) -> (f64, f64) {
    if case.text("/order/paper") == "letter" { LETTER } else { A4 }
}

/// As many pages as leaves, of the paper's size, tagged, and each with its number and theirs at its end.
#[track_caller]
fn whole_pages_of(page: &Page, sheet: &Path, paper: (f64, f64)) -> usize {
    let sizes = pdf::page_sizes_mm(sheet);
    let leaves = page.script("return document.querySelectorAll('.leaf').length", &[]);
    assert_eq!(json!(sizes.len()), leaves, "a page for each leaf: {sizes:?}");
    for (wide, high) in &sizes {
        assert!(
            (wide - paper.0).abs() < 0.5 && (high - paper.1).abs() < 0.5,
            "{wide} by {high}, not {paper:?}"
        );
    }
    for (number, words) in pdf::words(sheet).iter().enumerate() {
        let (text, foot) = (words.join(" "), format!("page {} of {}", number + 1, sizes.len()));
        assert!(text.ends_with(&foot), "the last words are not {foot:?}: {text}");
        assert!(text.contains("Arcminute build "), "the build: {text}");
    }
    assert!(pdf::is_tagged(sheet), "tagged for screen readers");
    assert_eq!(pdf::title(sheet).as_deref(), Some("Arcminute"), "the title tells nothing of the case");
    sizes.len()
}

/// The page with the drawing, its check bar measured.
#[track_caller]
fn drawn_on(page: &Page, sheet: &Path) -> usize {
    let drawn = page.script(DRAWN_ON, &[]).as_u64().expect("a number of a page") as usize;
    assert!(0 < drawn, "something is drawn");
    let bar = pdf::check_bar_length_mm(sheet, drawn);
    assert!((bar - 100.0).abs() <= 0.5, "the check bar is {bar} mm long");
    drawn
}

/// Every word shown is on its page of the file, in the same order, and so are the words of pictures, in any order: they are
/// drawn twice for their pale edge, and the points and numbers of lists.
#[track_caller]
fn every_word_is_on_paper(page: &Page, sheet: &Path, paper: (f64, f64)) {
    as_printed(page, paper);
    let shown = page.script(SHOWN, &[]);
    as_on_screen(page);
    let printed = pdf::words(sheet);
    let shown = shown.as_array().expect("leaves");
    assert_eq!(shown.len(), printed.len(), "as many pages as leaves");
    for (number, (shown, printed)) in shown.iter().zip(&printed).enumerate() {
        let words = |part: &str| -> Vec<String> {
            let text = shown[part].as_str().expect("a text");
            text.split_whitespace().map(str::to_owned).collect()
        };
        let (all, drawn) = (words("all"), words("drawn"));
        assert!(all.len() > 40, "page {} has words: {all:?}", number + 1);
        let joined = all.concat();
        // A word made of two pieces of the page, such as a text and its full stop, is one on paper: letters are compared.
        let mut rest = joined.as_str();
        let mut more = Vec::new();
        for word in printed {
            match rest.strip_prefix(word.as_str()) {
                Some(after) => rest = after,
                None => more.push(word.clone()),
            }
        }
        assert!(
            rest.is_empty(),
            "page {}: from here on not on paper, or in another order: {rest:.80}",
            number + 1
        );
        let is_step = |word: &str| word.strip_suffix('.').is_some_and(|step| step.parse::<u8>().is_ok());
        let known = |word: &String| word == "•" || is_step(word) || drawn.contains(word);
        for word in &drawn {
            assert!(printed.contains(word), "page {}: {word:?} of the picture is not on paper", number + 1);
        }
        let strange: Vec<&String> = more.iter().filter(|word| !known(word)).collect();
        assert!(strange.is_empty(), "page {}: printed, but not shown: {strange:?}", number + 1);
    }
}

#[track_caller]
fn nothing_is_cut_off(page: &Page, paper: (f64, f64), what: &str) {
    as_printed(page, paper);
    let tall = paper.1 / 25.4 * 96.0;
    let spilt = page.script(SPILT, &[json!(tall)]);
    as_on_screen(page);
    assert_eq!(spilt, json!([]), "{what}: parts that leave the page");
}

#[track_caller]
fn true_to_scale(page: &Page, sheet: &Path, case: &Case) {
    let drawn = drawn_on(page, sheet);
    let asked = case.mounting();
    let near = |found: f64, wanted: f64| (found - wanted).abs() <= 0.005 * wanted;
    let mut lenses = pdf::outlines_mm(sheet, drawn, "0.4");
    lenses.retain(|[wide, high, _]| near(*wide, asked.a) && near(*high, asked.b));
    assert_eq!(
        lenses.len(),
        2,
        "two lenses of {} by {} mm: {:?}",
        asked.a,
        asked.b,
        pdf::outlines_mm(sheet, drawn, "0.4")
    );
    let inner = lenses[0][2] + lenses[0][0];
    assert!(near(lenses[1][2] - inner, asked.dbl), "{} mm of bridge", lenses[1][2] - inner);
    let bridge = f64::midpoint(inner, lenses[1][2]);
    let eyepiece = pdf::outlines_mm(sheet, drawn, "0.6");
    assert_eq!(eyepiece.len(), 1, "one eyepiece: {eyepiece:?}");
    let [wide, _, left] = eyepiece[0];
    assert!(near(wide, asked.barrel), "the barrel is drawn {wide} mm wide");
    let out = left + wide / 2.0 - bridge;
    assert!(near(out.abs(), asked.pd), "the eyepiece is drawn {out} mm from the bridge");
    // As the examiner sees it: the right eye on the left.
    assert_eq!(out < 0.0, case.eye() == "right", "{out} mm for the {} eye", case.eye());
}

#[test]
fn the_order_of_each_case_prints_whole_and_true_to_scale() {
    let page = super::open(&Options::desktop());
    for case in CASES {
        load(&page, case);
        go(&page, "Sheets");
        let paper = paper_of(case);
        let sheet = pdf::print(&page, &format!("paper-{}", case.id));
        whole_pages_of(&page, &sheet, paper);
        every_word_is_on_paper(&page, &sheet, paper);
        nothing_is_cut_off(&page, paper, case.id);
        true_to_scale(&page, &sheet, case);
        says_what_it_must(&pdf::words(&sheet), case);
        assert_eq!(
            page.script("return document.title", &[]),
            "Arcminute",
            "the file's name would be neutral"
        );
    }
    see::no_errors(&page);
}

#[track_caller]
fn says_what_it_must(pages: &[Vec<String>], case: &Case) {
    let texts: Vec<String> = pages.iter().map(|words| words.join(" ")).collect();
    let eye = if case.eye() == "right" { "RIGHT eye" } else { "LEFT eye" };
    for (number, text) in texts.iter().enumerate() {
        assert!(text.contains(&format!("spectacle-mounted telescope, {eye}")), "which eye, in words: {text}");
        assert!(text.contains(&format!("Case {} ·", case.text("/label"))), "the case label: {text}");
        let refused = case.id == "frame-too-shallow";
        assert_eq!(text.contains("DO NOT ORDER."), refused, "page {}: {text}", number + 1);
    }
    assert!(texts[0].contains(&format!("Eye that looks through it {eye}")), "{}", texts[0]);
    assert!(!texts.concat().contains(" OD ") && !texts.concat().contains(" OS "), "no abbreviated eyes");
    assert!(texts.concat().contains("Never look at or near the sun"), "the cautions");
    // Powers carry their sign, lengths and angles their unit.
    let whole = texts.join(" ");
    let after = |words: &str| {
        let (_, after) = whole.split_once(words).unwrap_or_else(|| panic!("no {words:?}: {whole}"));
        after.trim_start().to_owned()
    };
    for eye in ["RIGHT", "LEFT"] {
        let power = after(&format!("Carrier prescription, {eye} "));
        let plain = power.starts_with("plano (no refraction entered)");
        assert!(plain || power.starts_with(['+', '-']), "a sign: {power:.40}");
    }
    if case.text("/bench/correction") == "in_eyepiece" {
        let lens = after("Correction in the eyepiece ");
        assert!(lens.starts_with("+4.00 -3.50 x090 at the spectacle plane; meridians +"), "{lens:.90}");
        assert!(lens.contains(" D at the eyepiece"), "a unit: {lens:.90}");
    }
    for (what, unit) in [("Sideways ", "mm"), ("Height ", "mm"), ("Tilt from the carrier lens ", "°")] {
        let value = after(what);
        let value = value.split(" (").next().unwrap_or_default();
        assert!(value.ends_with(unit), "{what}: {value}");
    }
}

#[test]
fn an_empty_case_prints_as_void_and_says_what_is_missing() {
    let page = super::open(&Options::desktop());
    go(&page, "Sheets");
    let sheet = pdf::print(&page, "paper-empty");
    whole_pages_of(&page, &sheet, A4);
    every_word_is_on_paper(&page, &sheet, A4);
    nothing_is_cut_off(&page, A4, "an empty case");
    let pages = pdf::words(&sheet);
    let first = pages[0].join(" ");
    assert!(first.contains("DO NOT ORDER. The fit is refused: the fit is not decided"), "{first}");
    let (_, void) = first.split_once("VOID until filled in: ").expect("a list of what is missing");
    let void = void.split(" .").next().unwrap_or_default();
    let blank: Vec<String> = rows(&page, "#sheet table.lines tr")
        .into_iter()
        .filter(|row| row[1].contains("not filled in"))
        .map(|row| row[0].clone())
        .collect();
    assert!(blank.len() >= 7, "an empty case has blanks: {blank:?}");
    for what in blank {
        assert!(void.contains(&what), "{what:?} is not filled in, and the list says only {void:?}");
    }
    assert!(pages[1].join(" ").contains("DO NOT ORDER."), "on the page with the drawing too");
}

#[test]
fn each_case_fits_either_paper_as_it_is_chosen() {
    let page = super::open(&Options::desktop());
    for case in CASES {
        load(&page, case);
        go(&page, "Sheets");
        for (choice, paper) in [("US Letter", LETTER), ("A4", A4), ("US Letter", LETTER)] {
            act::choose(&page, choice);
            let sheet = pdf::print(&page, "paper-choice");
            whole_pages_of(&page, &sheet, paper);
            drawn_on(&page, &sheet);
            nothing_is_cut_off(&page, paper, &format!("{} on {choice}", case.id));
        }
    }
}

/// The widest and tallest front usually met, long words everywhere, and a telescope before the left eye.
#[test]
fn a_large_frame_and_long_words_still_fit_the_paper() {
    let page = super::open(&Options::desktop());
    load(&page, case("frame-too-shallow"));
    let long =
        "Lives alone; wants to see who is at the door; steady hands; prefers a light frame. ".repeat(2);
    fill(&page, "Case label", "Label-12345-67890");
    go(&page, "Goals");
    fill(&page, "What is it?", "Faces across the room, signs at the stop, and captions in the evening");
    go(&page, "Bench");
    act::choose(&page, "LEFT eye");
    go(&page, "Fit");
    for (label, text) in [
        ("Box width A mm", "62"),
        ("Box height B mm", "56"),
        ("Bridge DBL mm", "26"),
        ("LEFT eye: PD mm", "38"),
    ] {
        fill(&page, label, text);
    }
    see::holds(&page, "fit-verdict", "The fit is possible");
    go(&page, "Sheets");
    fill(&page, "Notes for the workshop", &long);
    for (choice, paper) in [("A4", A4), ("US Letter", LETTER)] {
        act::choose(&page, choice);
        let sheet = pdf::print(&page, "paper-large");
        whole_pages_of(&page, &sheet, paper);
        drawn_on(&page, &sheet);
        every_word_is_on_paper(&page, &sheet, paper);
        nothing_is_cut_off(&page, paper, &format!("a large frame on {choice}"));
    }
    let printed = pdf::words(&pdf::print(&page, "paper-large")).concat().join(" ");
    assert!(printed.contains(long.trim()), "the notes are whole");
    assert!(
        matches!(page.script("return document.title", &[]), Value::String(title) if title == "Arcminute"),
        "title"
    );
}
