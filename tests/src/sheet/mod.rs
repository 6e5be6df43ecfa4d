//! The sheet of formulas: every formula of the core on one printable page, each with an example that is a real result.

mod mathml;
mod subjects;

pub use subjects::{SUBJECTS, Subject};

use crate::samples::Samples;
use arcminute_core::explain::{Expression, FORMULAS, Formula, Named, Step, Unit};
use arcminute_core::source::{Source, Standing};
use arcminute_web::model::{format, words};
use std::fmt::Write as _;

/// Where the sheet is kept.
pub const PATH: &str = "formulas.html";

const STYLE: &str = include_str!("sheet.css");

/// The page.
///
/// # Errors
/// A sentence: which sample the core refuses, which formula has no example or no subject.
pub fn page() -> Result<String, String> {
    let samples = Samples::all().map_err(|error| format!("a sample is refused: {error}"))?;
    let bare = without_example(&samples);
    if !bare.is_empty() {
        return Err(format!("no sample in `tests/src/samples/` shows {}", bare.join(", ")));
    }
    let mut contents = String::new();
    let mut body = String::new();
    for (at, subject) in SUBJECTS.iter().enumerate() {
        let (number, Subject { title, about, .. }) = (at + 1, subject);
        let _ = writeln!(contents, "<li><a href=\"#s{number}\">{title}</a></li>");
        let _ = writeln!(body, "<section id=\"s{number}\">\n<h2>{number}. {title}</h2>\n<p>{about}</p>");
        for formula in subjects::formulas(subject)? {
            body += &entry(formula, &samples)?;
        }
        body += "</section>\n";
    }
    let count = FORMULAS.len();
    Ok(format!(
        "<!doctype html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n\
         <meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'\">\n\
         <meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n\
         <title>Arcminute: the formulas</title>\n<style>\n{STYLE}</style>\n</head>\n<body>\n<main>\n\
         <h1>The formulas</h1>\n\
         <p>Every formula that Arcminute reckons with, {count} in all, in the order in which they are taught. Each \
         example was computed by the program itself; its people and aids are invented. Examples are rounded for \
         print, the program does not round.</p>\n\
         <ul class=\"conventions\">\n\
         <li>Put values in with the units of the example: the formulas hold for these units.</li>\n\
         <li>Angles in sin, cos, tan and their inverses are in degrees. Φ is the share of a normal distribution \
         below a value; ⌈ ⌉ rounds up.</li>\n\
         <li>Light travels left to right; diverging light has a negative vergence; an inverting telescope has a \
         negative magnification.</li>\n\
         <li>A distance to the eye ends at its entrance pupil, about 3 mm behind the cornea.</li>\n\
         <li>“Geometry or definition” needs no source beyond itself. What is marked as from memory, as common \
         practice or as assumed is to be checked before anyone relies on it.</li>\n\
         </ul>\n\
         <p>A help for people trained in vision care, students and teachers. It does not examine, diagnose, \
         prescribe or decide.</p>\n\
         <nav aria-label=\"Subjects\"><ol>\n{contents}</ol></nav>\n{body}</main>\n</body>\n</html>\n"
    ))
}

/// Formulas that no sample shows.
fn without_example(samples: &Samples) -> Vec<&'static str> {
    FORMULAS.iter().filter(|formula| samples.first(formula).is_none()).map(|formula| formula.id).collect()
}

fn entry(formula: &Formula, samples: &Samples) -> Result<String, String> {
    let Some(Step::Formula { result, inputs, .. }) = samples.first(formula) else {
        return Err(format!("no sample shows {}", formula.id));
    };
    let equation = mathml::equation(formula.gives, formula.text)?;
    let title = escaped(words::title_on_sheet(formula.id));
    let with: Vec<String> = inputs.iter().map(value).collect();
    let with = if with.is_empty() { String::new() } else { format!("{}: ", with.join(", ")) };
    let source = formula.source;
    let mark = if known(source.standing) { "" } else { " weak" };
    Ok(format!(
        "<article id=\"{id}\">\n<h3>{title}</h3>\n{equation}\n\
         <dl>\n<dt>Gives</dt><dd>{gives}{unit}</dd>\n<dt>Holds</dt><dd>{domain}</dd>\n\
         <dt>Example</dt><dd class=\"wide\">{with}<b>{result}</b></dd>\n<dt>Source</dt><dd class=\"wide{mark}\">{cited}</dd>\n\
         </dl>\n</article>\n",
        id = formula.id,
        gives = symbol(formula.gives),
        unit = unit(result.unit),
        domain = domain(formula),
        result = value(result),
        cited = cited(source),
    ))
}

/// A work and how it is known; said once where the two are the same.
fn cited(source: &Source) -> String {
    let (citation, standing) = (escaped(source.citation), words::standing(source.standing));
    if citation.starts_with(standing) {
        format!("<i>{citation}</i>")
    } else {
        format!("{citation} <i>({standing})</i>")
    }
}

/// Where it holds, with the formula's own symbols as the formula shows them.
fn domain(formula: &Formula) -> String {
    let names = Expression::parse(formula.text).map(|expression| expression.names()).unwrap_or_default();
    let is_symbol = |word: &str| {
        let (base, _, _) = mathml::parts(word);
        let known = names.contains(&word) && !["a", "A"].contains(&word);
        known && (word.len() == 1 || word.contains('_')) || !base.is_ascii()
    };
    let mut text = String::new();
    for piece in formula.domain.split_inclusive(|c: char| !c.is_ascii_alphanumeric() && c != '_') {
        let word = piece.trim_end_matches(|c: char| !c.is_ascii_alphanumeric() && c != '_');
        let shown = if is_symbol(word) { symbol(word) } else { escaped(word) };
        text += &(shown + &escaped(piece.get(word.len()..).unwrap_or_default()));
    }
    text
}

fn known(standing: Standing) -> bool {
    matches!(standing, Standing::Published | Standing::Derived)
}

/// What a value is counted in, in words, after its symbol.
fn unit(unit: Unit) -> String {
    match unit {
        Unit::Plain => ", a pure number".into(),
        Unit::Times => ", times (x)".into(),
        Unit::Degree => ", in degrees (°)".into(),
        Unit::Arcmin => ", in minutes of arc (′)".into(),
        Unit::Dioptre => ", in dioptres (D)".into(),
        Unit::PrismDioptre => ", in prism dioptres (Δ)".into(),
        Unit::LogMar | Unit::Log => ", in log units".into(),
        Unit::PrintM => ", in M units of print".into(),
        other => format!(", in {}", other.symbol()),
    }
}

/// A symbol as HTML: one letter slanted, index lowered.
fn symbol(name: &str) -> String {
    let (base, index, primes) = mathml::parts(name);
    let base = if base.chars().count() == 1 { format!("<i>{base}</i>") } else { base };
    let index = if index.is_empty() { index } else { format!("<sub>{index}</sub>") };
    format!("{base}{index}{primes}")
}

/// `h = 11.64 mm`, kept on one line.
fn value(value: &Named) -> String {
    let number = printed(value);
    let unit = match value.unit {
        Unit::Plain | Unit::LogMar | Unit::Log => String::new(),
        Unit::Times => "x".into(),
        Unit::Degree => "°".into(),
        Unit::Arcmin => "′".into(),
        other => format!(" {}", other.symbol()),
    };
    let number = number.replace('-', "−");
    format!("<span>{} = {number}{unit}</span>", symbol(value.symbol))
}

/// A value rounded for print: as many decimals as suit its unit, and at least four figures.
#[must_use]
pub fn printed(value: &Named) -> String {
    let size = value.value.abs();
    let mut places = value.unit.decimals();
    let mut least = (0..places).fold(1000.0, |least, _| least / 10.0);
    while 0.0 < size && size < least && places < 9 {
        places += 1;
        least /= 10.0;
    }
    format::trimmed(value.value, places)
}

fn escaped(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;")
}

#[cfg(test)]
mod tests {
    use super::printed;
    use arcminute_core::explain::{Named, Unit};

    #[test]
    fn at_least_four_figures_and_no_needless_zeros() {
        let printed = |value, unit| printed(&Named::new("x", value, unit));
        assert_eq!(printed(11.63556, Unit::Millimetre), "11.64");
        assert_eq!(printed(40.0, Unit::Millimetre), "40");
        assert_eq!(printed(12345.6, Unit::Gram), "12346");
        assert_eq!(printed(-0.001_234_56, Unit::Plain), "-0.001235");
        assert_eq!(printed(0.0, Unit::Dioptre), "0");
    }
}
