//! One power of a prescription, with everything it can mean.

use crate::bounds::Bound;
use crate::error::{Error, Text, Why};
use crate::math;
use crate::scan::{Cursor, Number};
use alloc::vec;
use alloc::vec::Vec;

/// A power as written: everything it can mean, likeliest first.
pub(super) struct Power {
    pub(super) written: Text,
    pub(super) choices: Vec<f64>,
    /// Whether it can mean one thing only.
    pub(super) sure: bool,
}

impl Power {
    /// A power if one came next; `positive` if it needs no sign.
    pub(super) fn read(cursor: &mut Cursor<'_>, positive: bool) -> Option<Self> {
        if cursor.phrase(&["plano", "plan", "pl"]) {
            return Some(Self::zero());
        }
        let before = *cursor;
        let sign = cursor.sign();
        let Some(number) = cursor.number() else {
            *cursor = before;
            return None;
        };
        Some(Self::of(sign, number, positive))
    }

    fn of(sign: Option<f64>, number: Number<'_>, positive: bool) -> Self {
        let Number { value, text } = number;
        let pointless = !text.contains('.');
        let hundredths = pointless && (text.len() >= 3 || matches!(text, "25" | "50" | "75"));
        let sizes = if hundredths && value > 0.0 { vec![value / 100.0, value] } else { vec![value] };
        let signs = match sign {
            Some(sign) => vec![sign],
            None if positive || math::abs(value) <= 0.0 => vec![1.0],
            None => vec![1.0, -1.0],
        };
        // Adding zero turns −0 into 0.
        let choices: Vec<f64> =
            sizes.iter().flat_map(|size| signs.iter().map(move |sign| sign * size + 0.0)).collect();
        let mark = match sign {
            Some(sign) if sign < 0.0 => "-",
            Some(_) => "+",
            None => "",
        };
        let sure = choices.len() == 1;
        Self { written: Text::of(format_args!("{mark}{text}")), choices, sure }
    }

    pub(super) fn zero() -> Self {
        Self { written: Text::new("plano"), choices: vec![0.0], sure: true }
    }

    /// Leaves what is possible.
    pub(super) fn within(mut self, bound: &Bound) -> Result<Self, Error> {
        self.choices.retain(|value| bound.check(*value).is_ok());
        if self.choices.is_empty() {
            let (min, max) = bound.possible;
            return Err(Error::new(
                bound.name,
                self.written.as_str(),
                Why::OutOfRange { min, max, unit: bound.unit },
            ));
        }
        Ok(self)
    }
}
