//! Steps of working as lines to show: formula, formula with numbers, result, source.
//!
//! Numbers are shown rounded; the working is carried at full precision, and says so.

use super::{format, words};
use arcminute_core::explain::{Named, Step};

/// A piece of a formula's text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Piece {
    /// Operators, numbers, brackets.
    Plain(String),
    /// A symbol and its index; the index may be empty.
    Symbol(String, String),
}

/// One step, ready to show.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Line {
    /// What it gives, in words.
    pub title: String,
    /// The formula in symbols; empty for a rule.
    pub formula: Vec<Piece>,
    /// The right-hand side with its numbers; empty for a rule.
    pub numbers: String,
    /// What it gave.
    pub result: String,
    /// Where it comes from, and how well it is known.
    pub source: String,
}

/// The line of a step.
#[must_use]
pub fn line(step: &Step) -> Line {
    match step {
        Step::Formula { formula, result, inputs } => {
            let mut pieces = vec![symbol(formula.gives), Piece::Plain(" = ".into())];
            pieces.extend(pieces_of(formula.text));
            Line {
                title: words::title(formula.id).into(),
                formula: pieces,
                numbers: with_numbers(formula.text, inputs),
                result: format::named(result),
                source: cited(formula.source),
            }
        }
        Step::Lookup { table, row, value, source } => Line {
            title: format!("{table}: {row}"),
            formula: Vec::new(),
            numbers: String::new(),
            result: format::named(value),
            source: cited(source),
        },
        Step::Rule { because, source } => Line {
            title: words::rule_sentence(because),
            formula: Vec::new(),
            numbers: String::new(),
            result: String::new(),
            source: cited(source),
        },
    }
}

fn cited(source: &arcminute_core::source::Source) -> String {
    let standing = words::standing(source.standing);
    if source.citation.starts_with(standing) {
        source.citation.into()
    } else {
        format!("{} ({standing})", source.citation)
    }
}

/// Splits a text into names and what stands between them.
fn tokens(text: &str) -> Vec<&str> {
    let mut tokens = Vec::new();
    let mut rest = text;
    while let Some(first) = rest.chars().next() {
        let belongs: fn(char) -> bool = if first.is_ascii_alphabetic() {
            |c| c.is_ascii_alphanumeric() || c == '_' || c == '\''
        } else if first.is_ascii_digit() {
            |c| c.is_ascii_digit() || c == '.'
        } else {
            |c| !c.is_ascii_alphanumeric()
        };
        let end = rest.find(|c| !belongs(c)).unwrap_or(rest.len());
        tokens.push(&rest[..end]);
        rest = &rest[end..];
    }
    tokens
}

/// Constants the texts spell out in full, as they are usually written.
fn number(token: &str) -> &str {
    match token {
        "3.141592653589793" => "π",
        "1.959963984540054" => "1.96",
        other => other,
    }
}

fn greek(name: &str) -> &str {
    match name {
        "beta" => "β",
        "tau" => "τ",
        "phi" => "φ",
        "Phi" => "Φ",
        other => other,
    }
}

fn symbol(name: &str) -> Piece {
    let (base, index) = name.split_once('_').unwrap_or((name, ""));
    Piece::Symbol(greek(base).into(), index.into())
}

fn operators(text: &str) -> String {
    text.replace('*', "×")
}

/// What a token of a formula's text is.
enum Token<'a> {
    Function(&'a str),
    Name(&'a str),
    Other(String),
}

fn read(text: &str) -> impl Iterator<Item = Token<'_>> {
    let tokens = tokens(text);
    (0..tokens.len()).map(move |at| {
        let token = tokens[at];
        let opens = tokens.get(at + 1).is_some_and(|next| next.starts_with('('));
        match (token.starts_with(|c: char| c.is_ascii_alphabetic()), opens) {
            (true, true) => Token::Function(greek(token)),
            (true, false) => Token::Name(token),
            (false, _) => Token::Other(operators(number(token))),
        }
    })
}

fn pieces_of(text: &str) -> Vec<Piece> {
    read(text)
        .map(|token| match token {
            Token::Function(name) => Piece::Plain(name.into()),
            Token::Name(name) => symbol(name),
            Token::Other(text) => Piece::Plain(text),
        })
        .collect()
}

fn with_numbers(text: &str, inputs: &[Named]) -> String {
    let value = |name: &str| match inputs.iter().find(|input| input.symbol == name) {
        Some(input) if input.value < 0.0 => format!("({})", format::named(input)),
        Some(input) => format::named(input),
        None => name.to_owned(),
    };
    read(text)
        .map(|token| match token {
            Token::Function(name) => name.to_owned(),
            Token::Name(name) => value(name),
            Token::Other(text) => text,
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use arcminute_core::explain::{Unit, formula};

    #[test]
    fn a_step_reads_as_formula_numbers_and_result() {
        let step = Step::formula(
            &formula::POWER_NEEDED,
            Named::new("M", 4.0, Unit::Times),
            [Named::new("MAR_now", 8.0, Unit::Arcmin), Named::new("MAR_goal", 2.0, Unit::Arcmin)],
        );
        let line = line(&step);
        assert_eq!(line.title, "Power needed");
        assert_eq!(line.numbers, "8.00′ / 2.00′");
        assert_eq!(line.result, "4.00x");
        assert_eq!(
            line.source,
            "follows from the definitions; checked by an independent road (geometry or definition)"
        );
        assert_eq!(line.formula[0], Piece::Symbol("M".into(), String::new()));
        assert_eq!(line.formula[2], Piece::Symbol("MAR".into(), "now".into()));
    }

    #[test]
    fn every_formula_has_a_title_and_can_be_split() {
        for formula in arcminute_core::explain::FORMULAS {
            assert_ne!(words::title_on_sheet(formula.id), "Step", "{} has no title", formula.id);
            let joined: String = tokens(formula.text).concat();
            assert_eq!(joined, formula.text);
        }
    }
}
