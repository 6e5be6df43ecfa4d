//! How a result shows its working.
//!
//! A result is a record of its intermediate values; `Explain::steps` labels them and computes nothing. Each formula
//! stands twice, as arithmetic and as text; `Step::check` closes the gap: it puts the printed numbers, in their printed
//! units, into the printed text and compares with the recorded result. Angles in the text's `sin`, `tan`, `atan`… are
//! degrees, as printed.
//!
//! The catalogue is data; steps and the grammar need an allocator, and the feature `alloc`.
//!
//! Then read [`crate::source`]: the works behind the formulas.

mod catalogue;
#[cfg(feature = "alloc")]
mod grammar;

pub use catalogue::ALL as FORMULAS;
#[cfg(feature = "alloc")]
pub use grammar::{Expression, ParseError};

/// The formulas by name.
pub mod formula {
    pub use super::catalogue::*;
}

#[cfg(feature = "alloc")]
use crate::math;
use crate::source::Source;
#[cfg(feature = "alloc")]
use alloc::format;
#[cfg(feature = "alloc")]
use alloc::string::String;
#[cfg(feature = "alloc")]
use alloc::vec::Vec;

/// Unit a value is printed in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unit {
    /// A pure number.
    Plain,
    /// Times; angular magnification or another ratio of sizes.
    Times,
    /// Metres.
    Metre,
    /// Centimetres.
    Centimetre,
    /// Millimetres.
    Millimetre,
    /// Dioptres.
    Dioptre,
    /// Prism dioptres.
    PrismDioptre,
    /// Minutes of arc.
    Arcmin,
    /// Degrees.
    Degree,
    /// Log units of the minimum angle of resolution.
    LogMar,
    /// Grams.
    Gram,
    /// M units of print.
    PrintM,
    /// Log units of contrast sensitivity or another logarithm that is not of an angle.
    Log,
    /// Lux.
    Lux,
    /// Candela.
    Candela,
    /// Candela per square metre.
    CandelaPerSquareMetre,
    /// Troland.
    Troland,
    /// Words per minute.
    WordsPerMinute,
    /// Years.
    Year,
    /// Seconds.
    Second,
    /// Square degrees.
    SquareDegree,
    /// Degrees per second.
    DegreePerSecond,
    /// Cycles per degree.
    CyclePerDegree,
    /// Pixels.
    Pixel,
    /// Typographic points.
    Point,
}

impl Unit {
    /// The unit's symbol; empty for a pure number.
    ///
    /// ```
    /// use arcminute_core::explain::Unit;
    /// assert_eq!([Unit::PrismDioptre, Unit::WordsPerMinute, Unit::Plain].map(Unit::symbol), ["Δ", "wpm", ""]);
    /// ```
    #[must_use]
    pub fn symbol(self) -> &'static str {
        match self {
            Self::Plain => "",
            Self::Times => "x",
            Self::Metre => "m",
            Self::Centimetre => "cm",
            Self::Millimetre => "mm",
            Self::Dioptre => "D",
            Self::PrismDioptre => "Δ",
            Self::Arcmin => "arcmin",
            Self::Degree => "°",
            Self::LogMar => "logMAR",
            Self::Gram => "g",
            Self::PrintM => "M",
            Self::Log => "log",
            Self::Lux => "lx",
            Self::Candela => "cd",
            Self::CandelaPerSquareMetre => "cd/m²",
            Self::Troland => "td",
            Self::WordsPerMinute => "wpm",
            Self::Year => "years",
            Self::Second => "s",
            Self::SquareDegree => "deg²",
            Self::DegreePerSecond => "°/s",
            Self::CyclePerDegree => "cpd",
            Self::Pixel => "px",
            Self::Point => "pt",
        }
    }
    /// Decimals that suit the unit at a fitting desk; a count.
    ///
    /// ```
    /// use arcminute_core::explain::Unit;
    /// // Quarters of a dioptre take two, tenths of a millimetre one.
    /// assert_eq!([Unit::Dioptre, Unit::Millimetre, Unit::Year].map(Unit::decimals), [2, 1, 0]);
    /// ```
    #[must_use]
    pub fn decimals(self) -> usize {
        match self {
            Self::Plain | Self::LogMar | Self::Log => 3,
            Self::Times
            | Self::Metre
            | Self::Dioptre
            | Self::PrismDioptre
            | Self::Arcmin
            | Self::PrintM
            | Self::SquareDegree => 2,
            Self::Centimetre
            | Self::Millimetre
            | Self::Degree
            | Self::CandelaPerSquareMetre
            | Self::Second
            | Self::DegreePerSecond
            | Self::CyclePerDegree
            | Self::Point => 1,
            Self::Gram
            | Self::Lux
            | Self::Candela
            | Self::Troland
            | Self::WordsPerMinute
            | Self::Year
            | Self::Pixel => 0,
        }
    }
}

/// A value with the symbol it has in a formula.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Named {
    /// Symbol in the formula's text.
    pub symbol: &'static str,
    /// The value in `unit`, at full precision.
    pub value: f64,
    /// Unit it is printed in.
    pub unit: Unit,
}

impl Named {
    /// A value with its symbol and unit; `value` is in that unit.
    ///
    /// ```
    /// use arcminute_core::explain::{Named, Unit};
    /// let add = Named::new("Add", 3.75, Unit::Dioptre);
    /// assert_eq!(format!("{} = {} {}", add.symbol, add.value, add.unit.symbol()), "Add = 3.75 D");
    /// ```
    #[must_use]
    pub fn new(symbol: &'static str, value: f64, unit: Unit) -> Self {
        Self { symbol, value, unit }
    }
}

/// One formula of the catalogue.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Formula {
    /// Stable key, also for titles and translations.
    pub id: &'static str,
    /// Symbol of what it gives.
    pub gives: &'static str,
    /// The right-hand side, in the small grammar of `Expression`.
    pub text: &'static str,
    /// Where it holds.
    pub domain: &'static str,
    /// Where it comes from.
    pub source: &'static Source,
}

/// One line of working.
#[cfg(feature = "alloc")]
#[derive(Clone, Debug, PartialEq)]
pub enum Step {
    /// A formula with its numbers.
    Formula {
        /// Which.
        formula: &'static Formula,
        /// What it gave.
        result: Named,
        /// What went in.
        inputs: Vec<Named>,
    },
    /// A value taken from a table.
    Lookup {
        /// Which table.
        table: &'static str,
        /// Which row.
        row: String,
        /// What stands there.
        value: Named,
        /// Where the table comes from.
        source: &'static Source,
    },
    /// A choice between ways, not a sum.
    Rule {
        /// Stable key of the reason; the words for it are the page's.
        because: &'static str,
        /// Where the rule comes from.
        source: &'static Source,
    },
}

#[cfg(feature = "alloc")]
impl Step {
    /// A formula step: which, what it gave and what went in. Nothing is checked here; see [`Step::check`].
    ///
    /// ```
    /// use arcminute_core::explain::{Named, Step, Unit, formula};
    /// // N8 by the convention is 1 M.
    /// let print = Named::new("P", 1.0, Unit::PrintM);
    /// let step = Step::formula(&formula::N_PRINT, print, [Named::new("N", 8.0, Unit::Plain)]);
    /// assert!(matches!(step, Step::Formula { formula, .. } if formula.text == "N / 8"));
    /// ```
    pub fn formula(formula: &'static Formula, result: Named, inputs: impl Into<Vec<Named>>) -> Self {
        Self::Formula { formula, result, inputs: inputs.into() }
    }

    /// Whether the printed formula with the printed numbers gives the recorded result; true of a lookup and of a rule.
    ///
    /// # Errors
    /// A sentence for the developer: what the text gives and what was recorded, or which input is missing or unused.
    ///
    /// ```
    /// use arcminute_core::explain::{Named, Step, Unit, formula};
    /// let d = |symbol, dioptres| Named::new(symbol, dioptres, Unit::Dioptre);
    /// let recorded = |add| Step::formula(&formula::ADD_NEEDED, d("Add", add), [d("A", 10.0), d("A_u", 6.25)]);
    /// assert_eq!(recorded(3.75).check(), Ok(()));
    /// assert_eq!(recorded(4.0).check(), Err("add-needed: text gives 3.75, code gave 4".into()));
    /// ```
    pub fn check(&self) -> Result<(), String> {
        let Self::Formula { formula, result, inputs } = self else { return Ok(()) };
        let expression = Expression::parse(formula.text).map_err(|e| format!("{}: {e:?}", formula.id))?;
        if formula.gives != result.symbol {
            return Err(format!("{}: gives {}, recorded as {}", formula.id, formula.gives, result.symbol));
        }
        if let Some(unused) = inputs.iter().find(|input| !expression.names().contains(&input.symbol)) {
            return Err(format!("{}: input {} is not in the text", formula.id, unused.symbol));
        }
        let lookup = |name: &str| inputs.iter().find(|input| input.symbol == name).map(|input| input.value);
        let printed = expression.value(&lookup).map_err(|name| format!("{}: no input {name}", formula.id))?;
        let scale = math::abs(printed).max(math::abs(result.value)).max(1e-6);
        // A result that cancels to almost nothing keeps the rounding of what it was made of.
        let largest = inputs.iter().map(|input| math::abs(input.value)).fold(0.0, f64::max);
        if math::abs(printed - result.value) <= 1e-9 * scale + 1e-13 * largest {
            Ok(())
        } else {
            Err(format!("{}: text gives {printed}, code gave {}", formula.id, result.value))
        }
    }
}

/// A result that can list the steps that led to it, in order.
#[cfg(feature = "alloc")]
pub trait Explain {
    /// The steps; labels of recorded values, nothing is computed anew.
    fn steps(&self) -> Vec<Step>;
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::source;

    static POWER: Formula =
        Formula { id: "t", gives: "F", text: "100 / f", domain: "", source: &source::GEOMETRY };

    fn step(value: f64, inputs: &[Named]) -> Result<(), String> {
        Step::formula(&POWER, Named::new("F", value, Unit::Dioptre), inputs).check()
    }

    #[test]
    fn the_checker_passes_what_agrees_and_catches_what_does_not() {
        let f = Named::new("f", 5.0, Unit::Centimetre);
        assert_eq!(step(20.0, &[f]), Ok(()));
        assert_eq!(step(0.2, &[f]), Err("t: text gives 20, code gave 0.2".into()), "a unit slip");
        assert_eq!(step(20.0, &[]), Err("t: no input f".into()));
        let g = Named::new("g", 5.0, Unit::Centimetre);
        assert_eq!(step(20.0, &[f, g]), Err("t: input g is not in the text".into()));
    }

    #[test]
    fn units_are_printed_as_the_trade_prints_them() {
        for (unit, symbol, decimals) in [
            (Unit::Plain, "", 3),
            (Unit::LogMar, "logMAR", 3),
            (Unit::Times, "x", 2),
            (Unit::Metre, "m", 2),
            (Unit::Dioptre, "D", 2),
            (Unit::Arcmin, "arcmin", 2),
            (Unit::Centimetre, "cm", 1),
            (Unit::Millimetre, "mm", 1),
            (Unit::Degree, "°", 1),
            (Unit::Gram, "g", 0),
            (Unit::Lux, "lx", 0),
        ] {
            assert_eq!((unit.symbol(), unit.decimals()), (symbol, decimals), "{unit:?}");
        }
    }
}
