//! Printed sheets are read back right: words, sizes, and the length of the check bar.

use super::open_fixture;
use crate::driver::Options;
use crate::pdf;
use crate::temp::TempDir;
use std::path::PathBuf;

const POINTS_PER_MM: f64 = 72.0 / 25.4;

/// An A4 page drawn by hand, so that the ruler is not checked by the program it is to check:
/// a black bar, a longer but thinner rule, and a long grey band.
fn drawn(folder: &TempDir, bar_mm: f64) -> PathBuf {
    let rectangle = |grey: f64, x: f64, y: f64, wide: f64, high: f64| {
        let [x, y, wide, high] = [x, y, wide, high].map(|mm| mm * POINTS_PER_MM);
        format!("{grey} g {x:.4} {y:.4} {wide:.4} {high:.4} re f\n")
    };
    let drawing = [
        rectangle(0.0, 20.013, 100.007, bar_mm, 1.5),
        rectangle(0.0, 20.0, 150.0, 170.0, 0.4),
        rectangle(0.8, 20.0, 200.0, 170.0, 10.0),
    ]
    .concat();
    folder.write(
        "drawn.pdf",
        format!(
            "%PDF-1.4\n1 0 obj\n<</Type/Catalog/Pages 2 0 R>>\nendobj\n\
             2 0 obj\n<</Type/Pages/Kids[3 0 R]/Count 1>>\nendobj\n\
             3 0 obj\n<</Type/Page/Parent 2 0 R/MediaBox[0 0 595.28 841.89]/Contents 4 0 R>>\nendobj\n\
             4 0 obj\n<</Length {}>>\nstream\n{drawing}endstream\nendobj\n\
             trailer\n<</Root 1 0 R>>\n",
            drawing.len()
        ),
    )
}

#[test]
fn measures_a_bar_drawn_by_hand() {
    let folder = TempDir::new();
    for bar_mm in [100.0, 99.0, 99.8, 50.0] {
        let measured = pdf::check_bar_length_mm(&drawn(&folder, bar_mm), 1);
        assert!((measured - bar_mm).abs() < 0.06, "{bar_mm} mm measured as {measured}");
    }
}

#[test]
fn measures_a_bar_printed_by_the_browser() {
    let (page, _folder) = open_fixture(&Options::desktop());
    let sheet = pdf::print(&page, "harness-sheet");
    let measured = pdf::check_bar_length_mm(&sheet, 1);
    assert!((measured - 100.0).abs() < 0.1, "100 mm measured as {measured}");
    page.script("document.querySelector('.bar').style.width = '99mm'", &[]);
    let measured = pdf::check_bar_length_mm(&pdf::print(&page, "harness-sheet-short"), 1);
    assert!((measured - 99.0).abs() < 0.1, "99 mm measured as {measured}");
}

#[test]
fn reads_words_sizes_tags_and_title() {
    let (page, _folder) = open_fixture(&Options::desktop());
    page.script(
        "const more = document.createElement('p'); more.textContent = 'second page'; \
         more.style.breakBefore = 'page'; document.body.append(more)",
        &[],
    );
    let sheet = pdf::print(&page, "harness-pages");
    let text = pdf::text(&sheet);
    assert_eq!(text.len(), 2, "two pages: {text:?}");
    assert!(text[0].contains("Check bar: 100 mm") && text[1].contains("second page"), "{text:?}");
    for (wide, high) in pdf::page_sizes_mm(&sheet) {
        assert!((wide - 210.0).abs() < 0.5 && (high - 297.0).abs() < 0.5, "A4, not {wide} by {high}");
    }
    assert_eq!(pdf::page_sizes_mm(&sheet).len(), 2, "a size for each page");
    assert!(pdf::is_tagged(&sheet), "tagged for screen readers");
    assert_eq!(pdf::title(&sheet).as_deref(), Some("Harness fixture"), "the title");
    assert!(!pdf::is_tagged(&drawn(&TempDir::new(), 10.0)), "a bare drawing is not");
}
