//! Whether a picture shows anything.

use flate2::read::ZlibDecoder;
use std::fs;
use std::io::Read;
use std::path::Path;

/// A PNG's width, bytes a pixel, and its rows as they are packed: one byte that names the filter, then the pixels.
fn packed_rows(path: &Path) -> (usize, usize, Vec<u8>) {
    let file = fs::read(path).expect("a picture");
    assert_eq!(&file[..8], b"\x89PNG\r\n\x1a\n", "{} is a PNG", path.display());
    let number = |at: usize| u32::from_be_bytes(file[at..at + 4].try_into().expect("four bytes")) as usize;
    let (mut at, mut packed, mut head) = (8, Vec::new(), None);
    while at + 8 <= file.len() {
        let (length, kind, data) = (number(at), &file[at + 4..at + 8], at + 8);
        match kind {
            b"IHDR" => head = Some((number(data), file[data + 8], file[data + 9])),
            b"IDAT" => packed.extend_from_slice(&file[data..data + length]),
            _ => {}
        }
        at = data + length + 4;
    }
    let (width, depth, colour) = head.expect("a header");
    assert_eq!(depth, 8, "bits a channel");
    let channels = match colour {
        0 => 1,
        2 => 3,
        6 => 4,
        other => panic!("colour type {other}"),
    };
    let mut rows = Vec::new();
    ZlibDecoder::new(&packed[..]).read_to_end(&mut rows).expect("packed pixels");
    (width, channels, rows)
}

/// Share of the pixels that differ from what stands beside them.
///
/// Each filter of PNG stores a pixel as it is or as its difference from its neighbours: in a plain area neighbouring
/// bytes of a row are equal under all of them.
fn busy_share(path: &Path) -> f64 {
    let (width, channels, rows) = packed_rows(path);
    let stride = width * channels + 1;
    assert_eq!(rows.len() % stride, 0, "whole rows in {}", path.display());
    let in_row =
        |row: &[u8]| row[1..].iter().zip(&row[1 + channels..]).filter(|(one, next)| one != next).count();
    let busy: usize = rows.chunks_exact(stride).map(in_row).sum();
    busy as f64 / rows.len() as f64
}

/// Fails if a picture is of one colour, or nearly.
#[track_caller]
pub(super) fn assert_not_blank(path: &Path) {
    let share = busy_share(path);
    assert!(share > 0.002, "{} shows next to nothing: {share} of it", path.display());
}

#[test]
fn a_blank_picture_is_blank() {
    let page = super::open(&crate::driver::Options::desktop());
    page.go("about:blank");
    let path = page.screenshot("scenarios-blank");
    assert!(busy_share(&path) < 1e-4, "{} of a blank page", busy_share(&path));
    assert_ne!(path.extension(), None, "a file");
    fs::remove_file(path).expect("the picture is not needed");
}
