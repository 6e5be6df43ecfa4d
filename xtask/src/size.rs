//! Sizes: the table that a build prints, and the budgets that it must keep.

use std::io::Write as _;

use flate2::Compression;
use flate2::write::GzEncoder;

use crate::Outcome;
use crate::site::File;

/// The program, uncompressed.
const WASM_BUDGET: usize = 1_560_000;
/// Everything that a first visit transfers, compressed. It was 350 000 until the list of aids, its reader and the comparison
/// came, a third of the program, and 410 000 until the sheets, the keeping of cases and the files for other systems came,
/// a fifth of it; at 5 Mbit/s this is 0.8 s, once.
const WIRE_BUDGET: usize = 520_000;

/// Prints the sizes and refuses what is over budget.
pub(crate) fn check(wasm: &[u8], one_file: &[u8], site: &[File]) -> Outcome {
    println!("\n  {:<28}{:>12}{:>12}", "bytes", "raw", "gzip");
    row("program (wasm)", wasm.len(), compressed(wasm));
    let mut wire = 0;
    for file in site {
        let transferred = on_the_wire(file);
        row(&format!("site/{}", file.name), file.content.len(), transferred);
        wire += if file.first_load { transferred } else { 0 };
    }
    row("first visit, all told", first_load(site), wire);
    row("arcminute.html", one_file.len(), compressed(one_file));
    println!("  budgets: program {WASM_BUDGET} raw, first visit {WIRE_BUDGET} gzip\n");
    within("the program", wasm.len(), WASM_BUDGET)?;
    within("a first visit to the site", wire, WIRE_BUDGET)
}

fn row(what: &str, raw: usize, gzip: usize) {
    println!("  {what:<28}{raw:>12}{gzip:>12}");
}

fn first_load(site: &[File]) -> usize {
    site.iter().filter(|file| file.first_load).map(|file| file.content.len()).sum()
}

/// Servers do not compress fonts again.
fn on_the_wire(file: &File) -> usize {
    if file.name.ends_with(".woff2") { file.content.len() } else { compressed(&file.content) }
}

fn compressed(bytes: &[u8]) -> usize {
    let mut encoder = GzEncoder::new(Vec::new(), Compression::best());
    // Writing to memory does not fail.
    let _ = encoder.write_all(bytes);
    encoder.finish().map_or(bytes.len(), |bytes| bytes.len())
}

fn within(what: &str, size: usize, budget: usize) -> Outcome {
    if size <= budget {
        return Ok(());
    }
    Err(format!(
        "{what} takes {size} bytes, {} over its budget of {budget}; find what grew (a new crate, a new feature of one, a big table) \
         and make it smaller, or raise the budget in xtask/src/size.rs and say why",
        size - budget
    ))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_budget_holds_to_the_byte() {
        assert_eq!(within("it", 10, 10), Ok(()));
        assert!(
            within("it", 11, 10)
                .expect_err("this must fail")
                .starts_with("it takes 11 bytes, 1 over its budget of 10")
        );
    }

    #[test]
    fn what_a_first_visit_transfers_counts() {
        let noise: Vec<u8> =
            (0u32..800_000).map(|i| (i.wrapping_mul(2_654_435_761) >> 13).to_le_bytes()[0]).collect();
        let file = |first_load| File { name: "fonts/a.woff2", content: noise.clone(), first_load };
        assert!(check(&[], &[], &[file(true)]).expect_err("this must fail").starts_with("a first visit"));
        assert_eq!(check(&[], &[], &[file(false)]), Ok(()));
        assert!(check(&vec![0; WASM_BUDGET + 1], &[], &[]).is_err());
    }
}
