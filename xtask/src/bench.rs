//! `cargo xtask bench`: how long a table of many aids and wishes takes, beside the same arithmetic elsewhere.
//!
//! The package `bench` makes the cases. The core answers them natively and in the engine of a browser, where every answer
//! has to be the same to the last bit; `NumPy` and a spreadsheet program work the kinds with short closed forms out on their
//! own, and have to agree. It is no step of `cargo xtask test`, since it wants a machine that does nothing else.

use std::fmt::Write as _;
use std::path::{Path, PathBuf};
use std::process::Command;

use serde_json::Value;

use crate::setup::{self, Need, engines};
use crate::{Outcome, paths, run};

/// The table that is timed everywhere: aids, wishes.
const TABLE: (usize, usize) = (200, 20);
/// Larger ones, with ten times and a hundred times as many outcomes.
const LARGER: [(usize, usize); 3] = [(2000, 20), (200, 200), (2000, 200)];
/// Most time for the table, in milliseconds: natively, and as the page ships it.
const MOST_NATIVE: f64 = 2.0;
const MOST_PAGE: f64 = 4.0;
/// Most time of the processor for an outcome of a larger table, over that of the table: one where it grows with the
/// outcomes.
const MOST_GROWTH: f64 = 1.25;
/// Most difference of two results, over the result or one, whichever is larger.
const APART: f64 = 1e-9;
/// Lines of times that make one median.
const ROUNDS: usize = 5;

const PACKAGE: &str = "arcminute-bench";
const WASM: &str = "wasm32-unknown-unknown";
/// Profiles: that of the page, small; and one for speed.
const PAGE: &str = "release";
const SPEED: &str = "speed";

/// One line of what was measured.
struct Row {
    what: &'static str,
    kinds: &'static str,
    size: (usize, usize),
    nanoseconds: f64,
    /// Of the processor, natively: what others were given meanwhile is left out.
    processor: Option<f64>,
}

impl Row {
    fn outcomes(&self) -> f64 {
        u32::try_from(self.size.0 * self.size.1).map_or(f64::NAN, f64::from)
    }
    fn of_outcome(&self) -> f64 {
        self.nanoseconds / self.outcomes()
    }
    /// The processor's time for an outcome; the time itself where that is not known.
    fn worked(&self) -> f64 {
        self.processor.unwrap_or(self.nanoseconds) / self.outcomes()
    }
}

/// `cargo xtask bench`.
pub(crate) fn command(arguments: &[String]) -> Outcome {
    crate::none(arguments)?;
    let tools = setup::ensure(&[Need::WasmTarget, Need::Python])?;
    let python = tools.python.ok_or("there is no list of Python packages in tests/reference/")?;
    let (node, office) = (engines::node()?, engines::spreadsheet()?);
    let native = built(SPEED, None)?;
    let (page, fast) = (built(PAGE, Some(WASM))?, built(SPEED, Some(WASM))?);
    println!("  load of the machine: {}; every time is the least of many medians", load());

    let mut rows = Vec::new();
    for kinds in ["all", "closed"] {
        let (row, sum) = timed("native, for speed", Command::new(&native).arg("time"), TABLE, kinds)?;
        rows.push(row);
        for (what, program) in [("browser engine, as shipped", &page), ("browser engine, for speed", &fast)] {
            let script = paths::root().join("bench/engine.mjs");
            let (row, same) = timed(what, Command::new(&node).arg(script).arg(program), TABLE, kinds)?;
            if same.to_bits() != sum.to_bits() {
                return Err(format!("{what}: the answers add up to {same}, natively to {sum}"));
            }
            rows.push(row);
        }
    }
    for size in LARGER {
        rows.push(timed("native, for speed", Command::new(&native).arg("time"), size, "all")?.0);
    }

    let cases = run::capture(Command::new(&native).arg("cases"), "see the message above")?;
    let folder = paths::target().join("bench");
    paths::write(&folder.join("cases.json"), &cases)?;
    let (nanoseconds, array) = numpy(&python, &folder.join("cases.json"))?;
    rows.push(Row { what: "NumPy", kinds: "closed", size: TABLE, nanoseconds, processor: None });
    let cases = serde_json::from_str(&cases).map_err(|error| format!("cannot read the cases: {error}"))?;
    let (nanoseconds, cell) = spreadsheet(&office, &native, &folder, &cases)?;
    rows.push(Row { what: "spreadsheet", kinds: "closed", size: TABLE, nanoseconds, processor: None });

    print!("{}", written(&rows));
    println!("  the page ships the program of the profile `{PAGE}`, made small: \"as shipped\"");
    println!(
        "  answers: the same to the last bit in the browser's engine; NumPy within {array:.1e}, spreadsheet within {cell:.1e}"
    );
    let missed = missed(&rows, &[("NumPy", array), ("the spreadsheet", cell)]);
    if missed.is_empty() {
        return Ok(());
    }
    Err(format!("{}\nIf a time is missed, try again while nothing else runs.", missed.join("\n")))
}

/// Builds the bench; gives back the program.
fn built(profile: &str, target: Option<&str>) -> Outcome<PathBuf> {
    let mut cargo = run::cargo(&["build", "--quiet", "--package", PACKAGE, "--profile", profile]);
    let mut place = paths::target();
    if let Some(target) = target {
        cargo.args(["--lib", "--target", target]);
        place = place.join(target);
    }
    run::shown(&mut cargo, "mend what the compiler names above")?;
    let name = match target {
        Some(_) => "arcminute_bench.wasm".to_owned(),
        None => format!("{PACKAGE}{}", std::env::consts::EXE_SUFFIX),
    };
    Ok(place.join(profile).join(name))
}

/// What a table takes, and the number that its answers add up to.
fn timed(
    what: &'static str,
    command: &mut Command,
    size: (usize, usize),
    kinds: &'static str,
) -> Outcome<(Row, f64)> {
    command.args([size.0.to_string(), size.1.to_string(), kinds.to_owned()]);
    let text = run::capture(command, "see the message above")?;
    let (nanoseconds, sum) = two_numbers(&text)?;
    if !sum.is_finite() {
        return Err(
            "an aid was refused, so the table is not whole; mend the ranges in bench/src/cases.rs".into()
        );
    }
    let processor = text.split_whitespace().nth(2).and_then(|time| time.parse().ok());
    Ok((Row { what, kinds, size, nanoseconds, processor }, sum))
}

fn two_numbers(text: &str) -> Outcome<(f64, f64)> {
    let mut numbers = text.split_whitespace().map(str::parse);
    match (numbers.next(), numbers.next()) {
        (Some(Ok(one)), Some(Ok(other))) => Ok((one, other)),
        _ => Err(format!("two numbers were awaited, not `{}`", text.trim())),
    }
}

/// Nanoseconds, and the largest difference.
fn numpy(python: &Path, cases: &Path) -> Outcome<(f64, f64)> {
    let mut script = Command::new(python);
    script.arg(paths::root().join("bench/closed_forms.py")).arg(cases);
    two_numbers(&run::capture(&mut script, "see the message above")?)
}

/// Nanoseconds of working the whole sheet out anew, and the largest difference.
fn spreadsheet(office: &Path, native: &Path, folder: &Path, cases: &Value) -> Outcome<(f64, f64)> {
    let (sheet, found) = (folder.join("outcomes.fods"), folder.join("found.txt"));
    paths::write(&sheet, run::capture(Command::new(native).arg("sheet"), "see the message above")?)?;
    let profile = folder.join("office");
    // Without its own folder for settings it would use, and change, those of the person.
    let settings = format!("-env:UserInstallation={}", address(&profile));
    let advice = "close the spreadsheet program if it is open, then try again";
    let calc = |word: &str| {
        let mut command = Command::new(office);
        command.args([settings.as_str(), "--headless", "--norestore", word]);
        run::capture(&mut command, advice)
    };
    // A first start makes the folder.
    calc("--terminate_after_init")?;
    let macros = paths::read("bench/recalculate.bas")?;
    let macros = macros.replace("FROM\"", &format!("{}\"", address(&sheet)));
    let macros = macros.replace("TO\"", &format!("{}\"", found.display()));
    for (name, content) in library(&macros) {
        paths::write(&profile.join("user/basic").join(name), content)?;
    }
    if found.is_file() {
        std::fs::remove_file(&found).map_err(|error| format!("cannot remove an old result: {error}"))?;
    }
    calc("macro:///Standard.Bench.Measure")?;
    let text = std::fs::read_to_string(&found).map_err(|_| format!("the macro wrote nothing: {advice}"))?;
    Ok((least_median(&text)? * 1e6, apart(&text, cases)?))
}

fn address(path: &Path) -> String {
    format!("file://{}", path.display())
}

/// The files of a library of macros with one module.
fn library(macros: &str) -> [(&'static str, String); 3] {
    let escaped =
        macros.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;").replace('"', "&quot;");
    let names = "xmlns:library=\"http://openoffice.org/2000/library\"";
    let head = |kind: &str, dtd: &str| {
        format!(
            "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<!DOCTYPE {kind} PUBLIC \"-//OpenOffice.org//DTD OfficeDocument 1.0//EN\" \"{dtd}.dtd\">\n"
        )
    };
    let list = head("library:libraries", "libraries")
        + &format!(
            "<library:libraries {names}><library:library library:name=\"Standard\" library:link=\"false\"/></library:libraries>\n"
        );
    let module = head("library:library", "library")
        + &format!(
            "<library:library {names} library:name=\"Standard\" library:readonly=\"false\" library:passwordprotected=\"false\"><library:element library:name=\"Bench\"/></library:library>\n"
        );
    let code = head("script:module", "module")
        + &format!(
            "<script:module xmlns:script=\"http://openoffice.org/2000/script\" script:name=\"Bench\" script:language=\"StarBasic\">{escaped}</script:module>\n"
        );
    [("script.xlc", list), ("Standard/script.xlb", module), ("Standard/Bench.xba", code)]
}

/// Least median of the lines with times, in milliseconds.
fn least_median(text: &str) -> Outcome<f64> {
    let times: Vec<f64> =
        text.lines().filter_map(|line| line.strip_prefix("milliseconds\t")?.trim().parse().ok()).collect();
    let median = |times: &[f64]| {
        let mut times = times.to_vec();
        times.sort_by(f64::total_cmp);
        times.get(times.len() / 2).copied()
    };
    let medians = times.chunks_exact(ROUNDS).filter_map(median);
    medians.min_by(f64::total_cmp).ok_or_else(|| "the macro wrote too few times".into())
}

/// Largest difference of what the sheet and the core say.
fn apart(text: &str, cases: &Value) -> Outcome<f64> {
    let mut lines = text.lines().skip_while(|line| !line.starts_with("label\t"));
    let labels: Vec<&str> = lines.next().unwrap_or_default().split('\t').collect();
    // Two more lines say what the wishes ask for.
    let rows: Vec<Vec<&str>> = lines.skip(2).map(|line| line.split('\t').collect()).collect();
    let results = cases["results"].as_object().ok_or("the cases hold no results")?;
    let mut worst = 0.0_f64;
    for (name, values) in results {
        let columns = labels.iter().enumerate().filter(|(_, label)| *label == name).map(|(column, _)| column);
        let columns: Vec<usize> = columns.collect();
        let cells = rows.iter().flat_map(|row| columns.iter().map(|column| row.get(*column)));
        let cells: Vec<f64> =
            cells.map(|cell| cell.and_then(|cell| cell.parse().ok()).unwrap_or(f64::NAN)).collect();
        let values: Vec<f64> = values.as_array().into_iter().flatten().filter_map(Value::as_f64).collect();
        if values.is_empty() || cells.len() != values.len() {
            return Err(format!("{name}: {} cells for {} results", cells.len(), values.len()));
        }
        let differences =
            cells.iter().zip(&values).map(|(cell, value)| (cell - value).abs() / value.abs().max(1.0));
        for difference in differences {
            if difference.is_nan() {
                return Err(format!("{name}: a cell without a number"));
            }
            worst = worst.max(difference);
        }
    }
    Ok(worst)
}

/// Processes that wanted to run, on average over the last minute, and processors there are.
fn load() -> String {
    let text = std::fs::read_to_string("/proc/loadavg").unwrap_or_default();
    let load = text.split(' ').next().filter(|load| !load.is_empty()).unwrap_or("unknown");
    let processors = std::thread::available_parallelism().map_or(1, usize::from);
    format!("{load} on {processors} processors")
}

/// Natively, the table of the same kinds.
fn native<'a>(rows: &'a [Row], kinds: &str) -> Option<&'a Row> {
    rows.iter().find(|row| row.kinds == kinds && row.size == TABLE && row.what.starts_with("native"))
}

fn written(rows: &[Row]) -> String {
    let mut text = format!(
        "\n  {:<28}{:<8}{:>10}{:>11}{:>12}{:>11}{:>18}\n",
        "what", "kinds", "table", "time, ms", "ns/outcome", "to native", "processor, ns/o."
    );
    for row in rows {
        let ratio = native(rows, row.kinds).map_or(f64::NAN, |native| match row.processor {
            Some(_) => row.worked() / native.worked(),
            None => row.of_outcome() / native.of_outcome(),
        });
        let _ = writeln!(
            text,
            "  {:<28}{:<8}{:>10}{:>11.3}{:>12.1}{:>11.2}{:>18}",
            row.what,
            row.kinds,
            format!("{}x{}", row.size.0, row.size.1),
            row.nanoseconds / 1e6,
            row.of_outcome(),
            ratio,
            row.processor.map_or_else(String::new, |_| format!("{:.1}", row.worked()))
        );
    }
    text + "  kinds: all twelve, or the eight with short closed forms; the ratio is per outcome, to the native table of\n  \
            the same kinds; native ones by the processor's time, which leaves out what others were given meanwhile\n"
}

/// Every target that is missed, in words.
fn missed(rows: &[Row], differences: &[(&str, f64)]) -> Vec<String> {
    let mut missed = Vec::new();
    for (row, most) in [("native, for speed", MOST_NATIVE), ("browser engine, as shipped", MOST_PAGE)]
        .into_iter()
        .filter_map(|(what, most)| {
            Some((rows.iter().find(|row| row.what == what && row.kinds == "all" && row.size == TABLE)?, most))
        })
    {
        let time = row.nanoseconds / 1e6;
        if most <= time {
            missed.push(format!(
                "{}: the table takes {time:.2} ms, and must take less than {most} ms",
                row.what
            ));
        }
    }
    if let Some(table) = native(rows, "all") {
        for row in rows.iter().filter(|row| row.size != TABLE) {
            let growth = row.worked() / table.worked();
            if MOST_GROWTH < growth {
                missed.push(format!(
                    "{}x{}: an outcome takes {growth:.2} times as long as in the small table, {MOST_GROWTH} is the most",
                    row.size.0, row.size.1
                ));
            }
        }
    }
    for (what, apart) in differences.iter().filter(|(_, apart)| APART < *apart) {
        missed.push(format!("{what} and the core differ by {apart:.1e}, {APART:e} is the most"));
    }
    missed
}

#[cfg(test)]
mod tests {
    use super::*;

    fn rows(native: f64, page: f64, larger: f64) -> Vec<Row> {
        let row = |what, size, nanoseconds| Row { what, kinds: "all", size, nanoseconds, processor: None };
        vec![
            row("native, for speed", TABLE, native),
            row("browser engine, as shipped", TABLE, page),
            row("native, for speed", (2000, 20), larger),
        ]
    }

    #[test]
    fn each_target_can_be_missed() {
        assert_eq!(missed(&rows(1.0e6, 3.9e6, 12.5e6), &[("NumPy", 1e-9)]), Vec::<String>::new());
        for (rows, difference, said) in [
            (rows(2.0e6, 3.9e6, 12.5e6), 0.0, "native, for speed: the table takes 2.00 ms"),
            (rows(1.0e6, 4.0e6, 10.0e6), 0.0, "browser engine, as shipped: the table takes 4.00 ms"),
            (rows(1.0e6, 3.9e6, 12.6e6), 0.0, "2000x20: an outcome takes 1.26 times as long"),
            (rows(1.0e6, 3.9e6, 10.0e6), 2e-9, "NumPy and the core differ by 2.0e-9"),
        ] {
            let missed = missed(&rows, &[("NumPy", difference)]);
            assert_eq!(missed.len(), 1, "{missed:?}");
            assert!(missed.iter().all(|missed| missed.starts_with(said)), "{missed:?}");
        }
    }

    #[test]
    fn the_sheet_is_compared_cell_by_cell() -> Outcome {
        let cases =
            serde_json::json!({ "results": { "evd": [0.5, -1.0], "reserve": [1.0, 2.0, 3.0, 4000.0] } });
        let text =
            "milliseconds\t9\nlabel\tevd\treserve\treserve\n\t\t\n\t\t\n\t0.5\t1\t2\n\t-1\t3\t4000.004\n";
        let found = apart(text, &cases)?;
        assert!((found - 1e-6).abs() < 1e-12, "4 of 4 million: {found}");
        assert!(apart("label\tevd\n\t\n\t\n\t0.5\n", &cases).is_err(), "a row is missing");
        assert!(apart(&text.replace("4000.004", "#VALUE!"), &cases).is_err(), "no number");
        Ok(())
    }

    #[test]
    fn the_least_median_counts() {
        let text: String =
            [9, 1, 8, 7, 9, 5, 6, 30, 4, 40].map(|time| format!("milliseconds\t{time}\n")).concat();
        assert_eq!(least_median(&text), Ok(6.0), "of 8 and 6");
        assert!(least_median("milliseconds\t3\n").is_err(), "too few");
        assert_eq!(two_numbers("12 3.5e1\n"), Ok((12.0, 35.0)));
        assert!(two_numbers("12\n").is_err(), "one number");
    }

    #[test]
    fn ratios_are_per_outcome() {
        let text = written(&rows(1.0e6, 3.0e6, 11.0e6));
        for said in
            ["1.000       250.0       1.00", "3.000       750.0       3.00", "11.000       275.0       1.10"]
        {
            assert!(text.contains(said), "{said} in {text}");
        }
    }
}
