//! What is on a printed sheet, read back by poppler's programs.

use crate::page::Page;
use crate::setup;
use std::path::{Path, PathBuf};
use std::process::Command;

const MM_PER_INCH: f64 = 25.4;
const MM_PER_POINT: f64 = MM_PER_INCH / 72.0;
const DOTS_PER_INCH: f64 = 600.0;

/// A check bar is at least 1.5 mm thick; table rules and letters are thinner.
const THICK_MM: f64 = 1.2;

/// Prints the page into the screens folder and returns the file.
#[track_caller]
pub(crate) fn print(page: &Page, name: &str) -> PathBuf {
    let path = setup::screens().join(format!("{name}.pdf"));
    page.print_pdf(&path);
    path
}

/// The words of each page, laid out as printed.
#[track_caller]
pub(crate) fn text(pdf: &Path) -> Vec<String> {
    let all = run("pdftotext", &["-layout", "-enc", "UTF-8"], pdf, &["-"]);
    let all = String::from_utf8(all).expect("text in UTF-8");
    let mut pages: Vec<String> = all.split('\u{C}').map(str::to_owned).collect();
    // Each page ends with a form feed, so the last piece is empty.
    pages.pop();
    pages
}

/// The words of each page in the order in which they were drawn, which is the order of the document.
#[track_caller]
pub(crate) fn words(pdf: &Path) -> Vec<Vec<String>> {
    let all = run("pdftotext", &["-raw", "-enc", "UTF-8"], pdf, &["-"]);
    let all = String::from_utf8(all).expect("text in UTF-8");
    let pages = all.split('\u{C}').map(|page| page.split_whitespace().map(str::to_owned).collect());
    let mut pages: Vec<Vec<String>> = pages.collect();
    pages.pop();
    pages
}

/// A picture of each page in the screens folder.
#[track_caller]
pub(crate) fn pictures(pdf: &Path, name: &str) -> Vec<PathBuf> {
    let pages = page_sizes_mm(pdf).len();
    let one = |page: usize| {
        let (root, number) = (setup::screens().join(format!("{name}-{page}")), page.to_string());
        let target = root.to_str().expect("a path in UTF-8").to_owned();
        let options = ["-png", "-r", "100", "-singlefile", "-f", &number, "-l", &number];
        run("pdftoppm", &options, pdf, &[&target]);
        root.with_extension("png")
    };
    (1..=pages).map(one).collect()
}

/// Width, height and left side in millimetres of each outline on a page (counted from 1) drawn with a stroke of this
/// width in units of its drawing; from middle of stroke to middle of stroke, the side from the edge of the paper.
#[track_caller]
pub(crate) fn outlines_mm(pdf: &Path, page: usize, stroke: &str) -> Vec<[f64; 3]> {
    let number = page.to_string();
    let svg = run("pdftocairo", &["-svg", "-f", &number, "-l", &number], pdf, &["-"]);
    let svg = String::from_utf8(svg).expect("a drawing in UTF-8");
    let paths = svg.split("<path ").filter(|path| path.contains(&format!("stroke-width:{stroke};")));
    paths.map(box_of_path).collect()
}

/// Box of a path by its points and its scaling (`matrix(a,0,0,d,e,f)`; nothing on a sheet is turned).
fn box_of_path(path: &str) -> [f64; 3] {
    let part = |name: &str| {
        let (_, after) = path.split_once(name).unwrap_or_else(|| panic!("no {name} in {path:.80}"));
        let end = after.find(['"', ')']).unwrap_or(after.len());
        let numbers = after[..end].split([' ', ',']).filter_map(|word| word.parse::<f64>().ok());
        numbers.collect::<Vec<f64>>()
    };
    let (points, matrix) = (part(" d=\""), part("matrix("));
    let range = |first: usize| {
        let of_one = points.iter().skip(first).step_by(2);
        of_one.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), value| {
            (low.min(*value), high.max(*value))
        })
    };
    let ((left, right), (top, bottom)) = (range(0), range(1));
    let (across, down) = (matrix[0].abs() * MM_PER_POINT, matrix[3].abs() * MM_PER_POINT);
    [(right - left) * across, (bottom - top) * down, left * across + matrix[4] * MM_PER_POINT]
}

/// Width and height of each page in millimetres.
#[track_caller]
pub(crate) fn page_sizes_mm(pdf: &Path) -> Vec<(f64, f64)> {
    let info = info(pdf, &["-l", "9999"]);
    let sizes = info.lines().filter(|line| line.starts_with("Page ") && line.contains(" size:"));
    sizes
        .map(|line| {
            let words = line.split_once("size:").map_or("", |(_, size)| size).split_whitespace();
            let points: Vec<f64> = words.filter_map(|word| word.parse().ok()).take(2).collect();
            assert_eq!(points.len(), 2, "no page size in {line:?}");
            (points[0] * MM_PER_POINT, points[1] * MM_PER_POINT)
        })
        .collect()
}

/// Whether the file carries the structure that screen readers need.
#[track_caller]
pub(crate) fn is_tagged(pdf: &Path) -> bool {
    field(pdf, "Tagged").as_deref() == Some("yes")
}

/// The title in the file's properties, which viewers show and archives keep.
#[track_caller]
pub(crate) fn title(pdf: &Path) -> Option<String> {
    field(pdf, "Title")
}

/// The length in millimetres of the check bar on a page (counted from 1): the longest black stretch at
/// least 1.2 mm thick, from outer edge to outer edge. To about 0.05 mm.
#[track_caller]
pub(crate) fn check_bar_length_mm(pdf: &Path, page: usize) -> f64 {
    let number = page.to_string();
    let dots = format!("{DOTS_PER_INCH}");
    let raster = run("pdftoppm", &["-r", &dots, "-gray", "-f", &number, "-l", &number], pdf, &[]);
    let (width, pixels) = read_pgm(&raster).expect("a grey picture from pdftoppm");
    let thick = (THICK_MM / MM_PER_INCH * DOTS_PER_INCH).ceil() as usize;
    longest_dark_run(width, pixels, thick) as f64 / DOTS_PER_INCH * MM_PER_INCH
}

/// The most neighbouring columns that are dark in the same `thick` rows.
fn longest_dark_run(width: usize, pixels: &[u8], thick: usize) -> usize {
    let mut dark_rows = vec![0_usize; width];
    let mut longest = 0;
    for row in pixels.chunks_exact(width) {
        let mut run = 0;
        for (rows, &pixel) in dark_rows.iter_mut().zip(row) {
            *rows = if pixel < 128 { *rows + 1 } else { 0 };
            run = if *rows >= thick { run + 1 } else { 0 };
            longest = longest.max(run);
        }
    }
    longest
}

/// Binary PGM: `P5 width height 255`, one white space, pixels.
fn read_pgm(bytes: &[u8]) -> Option<(usize, &[u8])> {
    let mut words = Vec::new();
    let mut at = 0;
    while words.len() < 4 {
        let end = at + bytes[at..].iter().position(u8::is_ascii_whitespace)?;
        words.push(std::str::from_utf8(&bytes[at..end]).ok()?);
        at = end + 1;
    }
    let (width, height): (usize, usize) = (words[1].parse().ok()?, words[2].parse().ok()?);
    let pixels = &bytes[at..];
    (words[0] == "P5" && words[3] == "255" && pixels.len() == width * height).then_some((width, pixels))
}

#[track_caller]
fn field(pdf: &Path, name: &str) -> Option<String> {
    let info = info(pdf, &[]);
    let value = info.lines().find_map(|line| line.strip_prefix(name)?.strip_prefix(':'))?;
    Some(value.trim().to_owned())
}

#[track_caller]
fn info(pdf: &Path, options: &[&str]) -> String {
    String::from_utf8_lossy(&run("pdfinfo", options, pdf, &[])).into_owned()
}

#[track_caller]
fn run(program: &str, before: &[&str], pdf: &Path, after: &[&str]) -> Vec<u8> {
    let output = Command::new(setup::poppler(program)).args(before).arg(pdf).args(after).output();
    let output = output.unwrap_or_else(|fault| panic!("{program}: {fault}"));
    assert!(output.status.success(), "{program}: {}", String::from_utf8_lossy(&output.stderr));
    output.stdout
}
