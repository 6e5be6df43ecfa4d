//! What can be wrong with a value, as data; the words stand in one place, [`Error`]'s `Display` and [`Error::hint`].
//!
//! A refusal names the quantity in the words of the trade, shows what was read, and says what to do. Nothing that
//! cannot be understood becomes a number.
//!
//! Then read [`mod@crate::unit`]: the quantities themselves.

use arrayvec::ArrayString;
use core::fmt::{self, Write as _};

/// Most bytes of an entry that an error keeps; enough to know it again.
const KEPT: usize = 44;

/// A short text inside an error: what was read, cut with an ellipsis where it is long.
///
/// It lives in the error itself, so that errors need no allocator.
///
/// ```
/// use arcminute_core::error::Text;
/// assert_eq!(Text::new("20/200").as_str(), "20/200");
/// assert!(Text::new(&"9".repeat(10_000)).as_str().ends_with('…'));
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Text(ArrayString<KEPT>);

impl Text {
    /// The text, or its beginning and an ellipsis.
    ///
    /// ```
    /// use arcminute_core::error::Text;
    /// // At most 44 bytes are kept: 41 nines and the ellipsis (computed).
    /// let text = Text::new(&"9".repeat(100));
    /// assert_eq!((text.as_str().len(), text.as_str().chars().count()), (44, 42));
    /// ```
    #[must_use]
    pub fn new(text: &str) -> Self {
        Self::of(format_args!("{text}"))
    }
    /// What these arguments write, or its beginning and an ellipsis.
    ///
    /// ```
    /// use arcminute_core::error::Text;
    /// assert_eq!(Text::of(format_args!("{} D", -2.5)).as_str(), "-2.5 D");
    /// ```
    #[must_use]
    pub fn of(text: fmt::Arguments<'_>) -> Self {
        let mut kept = Kept { text: ArrayString::new(), cut: false };
        // Writing never fails: what does not fit is left out.
        let _ = kept.write_fmt(text);
        Self(kept.text)
    }
    /// What is kept of it.
    ///
    /// ```
    /// use arcminute_core::error::Text;
    /// assert_eq!(Text::new("−2.50 D").as_str(), "−2.50 D");
    /// ```
    #[must_use]
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

struct Kept {
    text: ArrayString<KEPT>,
    cut: bool,
}

impl fmt::Write for Kept {
    fn write_str(&mut self, text: &str) -> fmt::Result {
        const ELLIPSIS: char = '…';
        for character in text.chars() {
            if self.cut {
                return Ok(());
            }
            if self.text.try_push(character).is_err() {
                self.cut = true;
                while self.text.try_push(ELLIPSIS).is_err() && self.text.pop().is_some() {}
            }
        }
        Ok(())
    }
}

impl fmt::Display for Text {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

/// Why something that was given cannot be used.
#[derive(Clone, Debug, PartialEq)]
pub struct Error {
    /// What the value is of, in words of the trade: `pupil height`.
    pub quantity: &'static str,
    /// What was read, as it was given, unit included.
    pub found: Text,
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
        rest: Text,
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
    /// An error of this kind about a value as it was read, unit included.
    ///
    /// ```
    /// use arcminute_core::{Error, Why};
    /// let error = Error::new("pupil height", "tall", Why::NotANumber { example: "22 mm" });
    /// assert_eq!(error.to_string(), "pupil height `tall` was not understood");
    /// ```
    #[must_use]
    pub fn new(quantity: &'static str, found: &str, why: Why) -> Self {
        Self { quantity, found: Text::new(found), why }
    }

    /// An error of this kind about a value that has to be written first.
    ///
    /// ```
    /// use arcminute_core::{Error, Why};
    /// let why = Why::OutOfRange { min: 5.0, max: 40.0, unit: "mm" };
    /// let error = Error::about("DBL", format_args!("{} mm", 4.5), why);
    /// assert_eq!(error.to_string(), "DBL `4.5 mm` is not possible");
    /// ```
    #[must_use]
    pub fn about(quantity: &'static str, found: fmt::Arguments<'_>, why: Why) -> Self {
        Self { quantity, found: Text::of(found), why }
    }

    /// What to do about it, as a sentence without its full stop.
    ///
    /// ```
    /// use arcminute_core::bounds;
    /// let error = bounds::BRIDGE.check(4.5).expect_err("below the least");
    /// assert_eq!(error.hint().to_string(), "use 5 to 40 mm");
    /// ```
    #[must_use]
    pub fn hint(&self) -> Hint<'_> {
        Hint(&self.why)
    }
}

/// What to do about an error, to be printed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Hint<'a>(&'a Why);

impl fmt::Display for Hint<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.0 {
            Why::OutOfRange { min, max, unit: "" } => write!(f, "use {min} to {max}"),
            Why::OutOfRange { min, max, unit } => write!(f, "use {min} to {max} {unit}"),
            Why::NotANumber { example } | Why::Missing { example, .. } => {
                write!(f, "type for example `{example}`")
            }
            Why::GroupedOrDecimal => f.write_str(
                "write it without a thousands sign, and with fewer or more than three digits after the decimal sign",
            ),
            Why::Trailing { rest } => write!(f, "take away `{rest}`"),
            Why::WrongUnit { accepted } => write!(f, "use {accepted}"),
            Why::TooLong { max } => write!(f, "use at most {max} characters"),
            Why::NotUsableInSum => {
                f.write_str("enter an acuity measured with letters or rings, nearer if need be")
            }
            Why::NoSolution { .. } => f.write_str("change one of the values it depends on"),
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
