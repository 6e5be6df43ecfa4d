//! Whether a picture shows anything: its colours, counted.

use flate2::read::ZlibDecoder;
use std::collections::BTreeMap;
use std::fs;
use std::io::Read;
use std::path::Path;

/// The pixels of a PNG of 8 bits a channel, as the browser and poppler write them: width, height, bytes a pixel, bytes.
fn pixels(path: &Path) -> (usize, usize, usize, Vec<u8>) {
    let file = fs::read(path).expect("a picture");
    assert_eq!(&file[..8], b"\x89PNG\r\n\x1a\n", "{} is a PNG", path.display());
    let number = |at: usize| u32::from_be_bytes(file[at..at + 4].try_into().expect("four bytes")) as usize;
    let (mut at, mut packed, mut head) = (8, Vec::new(), None);
    while at + 8 <= file.len() {
        let (length, kind, data) = (number(at), &file[at + 4..at + 8], at + 8);
        match kind {
            b"IHDR" => head = Some((number(data), number(data + 4), file[data + 8], file[data + 9])),
            b"IDAT" => packed.extend_from_slice(&file[data..data + length]),
            _ => {}
        }
        at = data + length + 4;
    }
    let (width, height, depth, colour) = head.expect("a header");
    assert_eq!(depth, 8, "bits a channel");
    let channels = match colour {
        0 => 1,
        2 => 3,
        6 => 4,
        other => panic!("colour type {other}"),
    };
    let mut raw = Vec::new();
    ZlibDecoder::new(&packed[..]).read_to_end(&mut raw).expect("packed pixels");
    (width, height, channels, unfiltered(&raw, width * channels, channels))
}

/// Undoes the five filters of PNG (ISO/IEC 15948, clause 9).
fn unfiltered(raw: &[u8], stride: usize, channels: usize) -> Vec<u8> {
    let mut out: Vec<u8> = Vec::with_capacity(raw.len());
    for (row, line) in raw.chunks_exact(stride + 1).enumerate() {
        let start = row * stride;
        for (place, &byte) in line[1..].iter().enumerate() {
            let left = if place < channels { 0 } else { out[start + place - channels] };
            let up = if row == 0 { 0 } else { out[start - stride + place] };
            let corner =
                if row == 0 || place < channels { 0 } else { out[start - stride + place - channels] };
            let guess = match line[0] {
                0 => 0,
                1 => left,
                2 => up,
                3 => u8::midpoint(left, up),
                4 => paeth(left, up, corner),
                other => panic!("filter {other}"),
            };
            out.push(byte.wrapping_add(guess));
        }
    }
    out
}

fn paeth(left: u8, up: u8, corner: u8) -> u8 {
    let [a, b, c] = [left, up, corner].map(i32::from);
    let guess = a + b - c;
    let [to_a, to_b, to_c] = [a, b, c].map(|value| (guess - value).abs());
    if to_a <= to_b && to_a <= to_c {
        left
    } else if to_b <= to_c {
        up
    } else {
        corner
    }
}

/// Fails if a picture is of one colour, or nearly.
#[track_caller]
pub(super) fn assert_not_blank(path: &Path) {
    let (width, height, channels, bytes) = pixels(path);
    assert_eq!(bytes.len(), width * height * channels, "all pixels of {}", path.display());
    let mut colours: BTreeMap<&[u8], usize> = BTreeMap::new();
    for pixel in bytes.chunks_exact(channels) {
        *colours.entry(pixel).or_default() += 1;
    }
    let most = colours.values().max().copied().unwrap_or_default();
    let share = most as f64 / (width * height) as f64;
    assert!(
        colours.len() > 8 && share < 0.99,
        "{} shows next to nothing: {} colours, {share} of it one",
        path.display(),
        colours.len()
    );
}
