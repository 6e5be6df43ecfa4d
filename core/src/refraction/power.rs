//! One power of a prescription, with everything it can mean.

use crate::bounds::Bound;
use crate::error::{Error, Text, Why};
use crate::list::List;
use crate::math;
use crate::scan::{Cursor, Number};

/// Most things that a power can mean: itself or hundredths, either sign.
pub(super) const MEANINGS: usize = 4;

/// A power as written: everything it can mean, likeliest first.
pub(super) struct Power {
    pub(super) written: Text,
    pub(super) choices: List<f64, MEANINGS>,
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
        let sizes: &[f64] = if hundredths && value > 0.0 { &[value / 100.0, value] } else { &[value] };
        let signs: &[f64] = match sign {
            Some(sign) => &[sign],
            None if positive || math::abs(value) <= 0.0 => &[1.0],
            None => &[1.0, -1.0],
        };
        let mut choices = List::new();
        for size in sizes {
            for sign in signs {
                // Adding zero turns −0 into 0. There is room for two sizes with two signs.
                let _ = choices.try_push(sign * size + 0.0);
            }
        }
        let mark = match sign {
            Some(sign) if sign < 0.0 => "-",
            Some(_) => "+",
            None => "",
        };
        let sure = choices.len() == 1;
        Self { written: Text::of(format_args!("{mark}{text}")), choices, sure }
    }

    pub(super) fn zero() -> Self {
        Self { written: Text::new("plano"), choices: List::of_one(0.0), sure: true }
    }

    /// Leaves what is possible.
    pub(super) fn within(self, bound: &Bound) -> Result<Self, Error> {
        let mut choices = List::new();
        for value in self.choices.iter().filter(|value| bound.check(**value).is_ok()) {
            // There is as much room as before.
            let _ = choices.try_push(*value);
        }
        if choices.is_empty() {
            let (min, max) = bound.possible;
            return Err(Error::new(
                bound.name,
                self.written.as_str(),
                Why::OutOfRange { min, max, unit: bound.unit },
            ));
        }
        Ok(Self { choices, ..self })
    }
}
