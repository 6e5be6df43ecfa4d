//! The grammar of printed formulas: `+ - * / ^ ( )`, names, numbers and a few functions.
//!
//! Trigonometric functions take and give degrees, because degrees are what is printed.

use crate::math;
use alloc::boxed::Box;
use alloc::vec::Vec;

/// A parsed formula text.
#[derive(Clone, Debug, PartialEq)]
pub enum Expression<'a> {
    /// A number as written.
    Number(f64),
    /// A symbol that an input gives the value of.
    Name(&'a str),
    /// Sign change.
    Negative(Box<Expression<'a>>),
    /// Two parts joined by `+ - * / ^`.
    Binary(char, Box<Expression<'a>>, Box<Expression<'a>>),
    /// A function and its arguments.
    Call(&'a str, Vec<Expression<'a>>),
}

/// Where the text stops being a formula.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ParseError {
    /// Byte in the text.
    pub at: usize,
}

/// Longest formula text in bytes; it keeps the nesting within any stack.
const LONGEST: usize = 400;

impl<'a> Expression<'a> {
    /// Reads a formula text of at most 400 bytes.
    ///
    /// # Errors
    /// [`ParseError`] with the place where the text stops making sense or gets too long.
    ///
    /// ```
    /// use arcminute_core::explain::Expression;
    /// let sum = Expression::parse("a + 2 * b").expect("well formed");
    /// let value = sum.value(&|name| Some(if name == "a" { 1.0 } else { 3.0 }));
    /// assert_eq!(value, Ok(7.0));
    /// ```
    pub fn parse(text: &'a str) -> Result<Self, ParseError> {
        if text.len() > LONGEST {
            return Err(ParseError { at: LONGEST });
        }
        let mut parser = Parser { text, rest: text };
        let expression = parser.sum()?;
        if parser.peek().is_some() {
            return Err(parser.stop());
        }
        Ok(expression)
    }

    /// Its value, with `lookup` giving the inputs; trigonometric functions take and give degrees.
    ///
    /// # Errors
    /// The name that `lookup` has no value for, or a function that does not exist.
    ///
    /// ```
    /// use arcminute_core::explain::Expression;
    /// let height = Expression::parse("1000 * P * tan(5 / 60)").expect("well formed");
    /// // 1 M is 1.454 mm high (computed).
    /// let mm = height.value(&|name| (name == "P").then_some(1.0)).expect("P is given");
    /// assert!((mm - 1.4544).abs() < 5e-5);
    /// assert_eq!(height.value(&|_| None), Err("P"));
    /// ```
    pub fn value(&self, lookup: &dyn Fn(&str) -> Option<f64>) -> Result<f64, &'a str> {
        Ok(match self {
            Self::Number(number) => *number,
            Self::Name(name) => lookup(name).ok_or(*name)?,
            Self::Negative(inner) => -inner.value(lookup)?,
            Self::Binary(operator, left, right) => {
                let (left, right) = (left.value(lookup)?, right.value(lookup)?);
                match operator {
                    '+' => left + right,
                    '-' => left - right,
                    '*' => left * right,
                    '/' => left / right,
                    _ => math::pow(left, right),
                }
            }
            Self::Call(name, arguments) => {
                let mut values = Vec::new();
                for argument in arguments {
                    values.push(argument.value(lookup)?);
                }
                call(name, &values).ok_or(*name)?
            }
        })
    }

    /// Every name in it as often as it stands there, in order; functions are not counted.
    ///
    /// ```
    /// use arcminute_core::explain::Expression;
    /// let sum = Expression::parse("(F_1 + sqrt(F_2)) / F_1").expect("well formed");
    /// assert_eq!(sum.names(), ["F_1", "F_2", "F_1"]);
    /// ```
    #[must_use]
    pub fn names(&self) -> Vec<&'a str> {
        match self {
            Self::Number(_) => Vec::new(),
            Self::Name(name) => alloc::vec![*name],
            Self::Negative(inner) => inner.names(),
            Self::Binary(_, left, right) => {
                let mut names = left.names();
                names.extend(right.names());
                names
            }
            Self::Call(_, arguments) => arguments.iter().flat_map(Expression::names).collect(),
        }
    }
}

fn call(name: &str, values: &[f64]) -> Option<f64> {
    let degrees = math::PI / 180.0;
    Some(match (name, values) {
        ("abs", [x]) => math::abs(*x),
        ("sqrt", [x]) => math::sqrt(*x),
        ("log10", [x]) => math::log10(*x),
        ("ln", [x]) => math::ln(*x),
        ("exp", [x]) => math::exp(*x),
        ("ceil", [x]) => math::ceil(*x),
        ("sin", [x]) => math::sin(x * degrees),
        ("cos", [x]) => math::cos(x * degrees),
        ("tan", [x]) => math::tan(x * degrees),
        ("asin", [x]) => math::asin(*x) / degrees,
        ("acos", [x]) => math::acos(*x) / degrees,
        ("atan", [x]) => math::atan(*x) / degrees,
        ("min", [x, y]) => x.min(*y),
        ("max", [x, y]) => x.max(*y),
        // Share of a normal distribution below z standard deviations.
        ("Phi", [z]) => math::normal_below(*z),
        _ => return None,
    })
}

struct Parser<'a> {
    text: &'a str,
    /// What has not been taken.
    rest: &'a str,
}

impl<'a> Parser<'a> {
    fn stop(&self) -> ParseError {
        ParseError { at: self.text.len().saturating_sub(self.rest.len()) }
    }
    fn peek(&mut self) -> Option<char> {
        self.rest = self.rest.trim_start();
        self.rest.chars().next()
    }
    fn take(&mut self, wanted: char) -> bool {
        self.rest = self.rest.trim_start();
        match self.rest.strip_prefix(wanted) {
            Some(rest) => {
                self.rest = rest;
                true
            }
            None => false,
        }
    }
    /// One of these operators, if it came next; it is taken.
    fn operator(&mut self, operators: [char; 2]) -> Option<char> {
        operators.into_iter().find(|operator| self.take(*operator))
    }
    fn expect(&mut self, wanted: char) -> Result<(), ParseError> {
        if self.take(wanted) { Ok(()) } else { Err(self.stop()) }
    }
    fn run(&mut self, belongs: impl Fn(char) -> bool) -> &'a str {
        let before = self.rest;
        self.rest = before.trim_start_matches(belongs);
        before.strip_suffix(self.rest).unwrap_or_default()
    }

    fn sum(&mut self) -> Result<Expression<'a>, ParseError> {
        let mut left = self.product()?;
        while let Some(operator) = self.operator(['+', '-']) {
            left = Expression::Binary(operator, Box::new(left), Box::new(self.product()?));
        }
        Ok(left)
    }
    fn product(&mut self) -> Result<Expression<'a>, ParseError> {
        let mut left = self.signed()?;
        while let Some(operator) = self.operator(['*', '/']) {
            left = Expression::Binary(operator, Box::new(left), Box::new(self.signed()?));
        }
        Ok(left)
    }
    fn signed(&mut self) -> Result<Expression<'a>, ParseError> {
        if self.take('-') {
            return Ok(Expression::Negative(Box::new(self.signed()?)));
        }
        let base = self.atom()?;
        if self.take('^') {
            return Ok(Expression::Binary('^', Box::new(base), Box::new(self.signed()?)));
        }
        Ok(base)
    }
    fn atom(&mut self) -> Result<Expression<'a>, ParseError> {
        match self.peek() {
            Some('(') => {
                self.take('(');
                let inner = self.sum()?;
                self.expect(')')?;
                Ok(inner)
            }
            Some(c) if c.is_ascii_digit() => {
                let stop = self.stop();
                let digits = self.run(|c| c.is_ascii_digit() || c == '.');
                math::of_decimal(digits).map(Expression::Number).ok_or(stop)
            }
            Some(c) if c.is_ascii_alphabetic() => {
                let name = self.run(|c| c.is_ascii_alphanumeric() || c == '_' || c == '\'');
                if !self.take('(') {
                    return Ok(Expression::Name(name));
                }
                let mut arguments = alloc::vec![self.sum()?];
                while self.take(',') {
                    arguments.push(self.sum()?);
                }
                self.expect(')')?;
                Ok(Expression::Call(name, arguments))
            }
            _ => Err(self.stop()),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn gives(text: &str, wanted: f64) {
        let value =
            Expression::parse(text).expect(text).value(&|name| (name == "x").then_some(3.0)).expect(text);
        assert!((value - wanted).abs() < 1e-12, "{text} gave {value}, wanted {wanted}");
    }

    #[test]
    fn arithmetic_has_the_usual_order() {
        gives("1 + 2 * 3", 7.0);
        gives("(1 + 2) * 3", 9.0);
        gives("2 - 3 - 4", -5.0);
        gives("16 / 4 / 2", 2.0);
        gives("-2^2", -4.0);
        gives("2^3^2", 512.0);
        gives("2 * -x", -6.0);
    }

    #[test]
    fn functions_take_and_give_degrees() {
        gives("atan(1)", 45.0);
        gives("2 * tan(45)", 2.0);
        gives("sqrt(x * x)", 3.0);
        gives("log10(1000)", 3.0);
        gives("max(min(x, 2), 1)", 2.0);
        gives("Phi(0)", 0.5);
        gives("abs(-2.5)", 2.5);
        gives("ln(exp(2))", 2.0);
        gives("exp(0)", 1.0);
        gives("ceil(1.2)", 2.0);
        gives("sin(30)", 0.5);
        gives("cos(60)", 0.5);
        gives("asin(0.5)", 30.0);
        gives("acos(-0.5)", 120.0);
        let unknown = Expression::parse("cot(1)").expect("it can be read").value(&|_| None);
        assert_eq!(unknown, Err("cot"), "there is no such function");
    }

    #[test]
    fn a_text_that_nests_too_deep_is_refused() {
        let nested = |depth| "(".repeat(depth) + "1" + &")".repeat(depth);
        assert!(Expression::parse(&nested(199)).is_ok(), "399 bytes");
        assert!(Expression::parse(&"1".repeat(400)).is_ok(), "400 bytes");
        assert_eq!(Expression::parse(&nested(200)), Err(ParseError { at: 400 }), "401 bytes");
        assert_eq!(Expression::parse(&"-".repeat(1_000_000)), Err(ParseError { at: 400 }));
    }

    #[test]
    fn what_is_no_formula_is_refused_with_the_place() {
        for (text, at) in [
            ("", 0),
            ("1 +", 3),
            ("(1", 2),
            ("1 2", 2),
            ("x ! y", 2),
            ("1.2.3", 0),
            ("_x", 0),
            ("()", 1),
            ("sqrt()", 5),
        ] {
            assert_eq!(Expression::parse(text), Err(ParseError { at }), "{text}");
        }
    }
}
