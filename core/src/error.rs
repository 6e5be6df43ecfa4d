//! What can be wrong with a value, as data; the words stand in one place, [`Error`]'s `Display` and [`Error::hint`].

use alloc::string::String;
use core::fmt;

/// Why something that was given cannot be used.
#[derive(Clone, Debug, PartialEq)]
pub struct Error {
    /// What the value is of, in words of the trade: `pupil height`.
    pub quantity: &'static str,
    /// What was read, as it was given, unit included.
    pub found: String,
    /// What is wrong with it.
    pub why: Why,
}

/// What is wrong with a value.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum Why {
    /// Outside what is possible; the range is given in the unit named.
    OutOfRange {
        /// Least value possible.
        min: f64,
        /// Greatest value possible.
        max: f64,
        /// Unit of both.
        unit: &'static str,
    },
    /// Not a number in any way of writing that is accepted; an example of what is.
    NotANumber {
        /// Something that may be typed instead.
        example: &'static str,
    },
    /// A comma or point followed by three digits: it can be a decimal sign or group thousands.
    GroupedOrDecimal,
    /// It was understood up to this rest, which belongs to nothing.
    Trailing {
        /// The part that was not understood.
        rest: String,
    },
    /// A unit that does not fit the quantity.
    WrongUnit {
        /// Units that do.
        accepted: &'static str,
    },
    /// Too long to be an entry.
    TooLong {
        /// Most characters accepted.
        max: usize,
    },
    /// The value is in order, but the sum cannot use it: `counts fingers` has no size.
    NotUsableInSum,
    /// A part that must come with another part is missing.
    Missing {
        /// What is missing.
        part: &'static str,
        /// Something that may be typed instead.
        example: &'static str,
    },
    /// No arrangement of the optics gives what was asked.
    NoSolution {
        /// What stands against it.
        because: &'static str,
    },
}

impl Error {
    /// An error of this kind.
    pub fn new(quantity: &'static str, found: impl Into<String>, why: Why) -> Self {
        Self { quantity, found: found.into(), why }
    }

    /// What to do about it, as a sentence without its full stop.
    #[must_use]
    pub fn hint(&self) -> String {
        use alloc::format;
        match &self.why {
            Why::OutOfRange { min, max, unit } => {
                let unit = if unit.is_empty() { String::new() } else { format!(" {unit}") };
                format!("use {min} to {max}{unit}")
            }
            Why::NotANumber { example } | Why::Missing { example, .. } => format!("type for example `{example}`"),
            Why::GroupedOrDecimal => {
                "write it without a thousands sign, and with fewer or more than three digits after the decimal sign".into()
            }
            Why::Trailing { rest } => format!("take away `{rest}`"),
            Why::WrongUnit { accepted } => format!("use {accepted}"),
            Why::TooLong { max } => format!("use at most {max} characters"),
            Why::NotUsableInSum => "enter an acuity measured with letters or rings, nearer if need be".into(),
            Why::NoSolution { .. } => "change one of the values it depends on".into(),
        }
    }
}

impl fmt::Display for Error {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} `{}` ", self.quantity, self.found)?;
        match &self.why {
            Why::OutOfRange { .. } => write!(f, "is not possible"),
            Why::NotANumber { .. } => write!(f, "was not understood"),
            Why::GroupedOrDecimal => write!(f, "can mean two numbers a thousand times apart"),
            Why::Trailing { .. } => write!(f, "was understood only in part"),
            Why::WrongUnit { .. } => write!(f, "has a unit that does not fit"),
            Why::TooLong { .. } => write!(f, "is too long to be an entry"),
            Why::NotUsableInSum => write!(f, "is a category, not a size, and cannot be used in this sum"),
            Why::Missing { part, .. } => write!(f, "needs {part}"),
            Why::NoSolution { because } => write!(f, "has no solution: {because}"),
        }
    }
}

impl core::error::Error for Error {}
