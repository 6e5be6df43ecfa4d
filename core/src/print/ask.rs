//! What has to be asked of a print size: which typeface, which notation.

use super::notation::{Notation, Print, Type, WrittenLength};
use super::parse::{Parsed, missing};
use super::typeface::{Letters, Typeface};
use crate::bounds;
use crate::error::Error;
use crate::list::List;
use crate::scan::LengthUnit;
use crate::unit::PrintSize;

/// Type in a typeface, or the question which.
pub(super) fn of_type(
    text: &str,
    at: Option<WrittenLength>,
    pixels: bool,
    count: f64,
    (typeface, letters, ratio): (Option<Typeface>, Letters, Option<f64>),
) -> Result<Parsed, Error> {
    let (bound, make): (_, fn(Type) -> Notation) = if pixels {
        (&bounds::TEXT_SIZE, Notation::Pixels)
    } else {
        (&bounds::PRINT_POINTS, Notation::Points)
    };
    bound.check(count)?;
    let print = |typeface, ratio| Print::of(make(Type { count, typeface, letters, ratio }), at);
    if let Some(ratio) = ratio {
        return print(typeface, ratio).map(Parsed::Understood);
    }
    if let Some(row) = typeface.and_then(|face| face.agreed(letters)) {
        return print(typeface, row.ratio).map(Parsed::Understood);
    }
    let mut choices = List::new();
    for face in Typeface::ALL.into_iter().filter(|face| typeface.is_none_or(|wanted| wanted == *face)) {
        let rows = if face.agreed(letters).is_some() { 1 } else { usize::MAX };
        for row in face.rows(letters).take(rows) {
            // Six rows at most, and room for eight.
            let _ = choices.try_push(print(Some(face), row.ratio)?);
        }
    }
    if choices.is_empty() {
        return Err(missing(text, "the height of its capitals over the body", "12 pt capitals 0.7"));
    }
    Ok(Parsed::Ask { choices })
}

/// What a number alone may mean.
pub(super) fn number_alone(text: &str, value: f64, at: Option<WrittenLength>) -> Result<Parsed, Error> {
    let notations = [
        Notation::M(PrintSize::from_m_units(value)),
        Notation::N(value),
        Notation::Height(WrittenLength { value, unit: LengthUnit::Millimetre }),
    ];
    let mut choices = List::new();
    for print in notations.into_iter().filter_map(|notation| Print::of(notation, at).ok()) {
        let _ = choices.try_push(print);
    }
    if choices.is_empty() {
        if let Some(at) = at {
            bounds::CHART_DISTANCE.check(at.length().m())?;
        }
        return Err(missing(text, "its notation beside it", "1.6 M"));
    }
    Ok(Parsed::Ask { choices })
}
