//! Numbers as the page and the paper write them: fixed decimals, unit attached, sign where it matters.

use arcminute_core::explain::{Named, Unit};
use arcminute_core::unit::{Angle, Length, LogMar, Vergence};

/// A number with so many decimals; never a negative zero.
#[must_use]
pub fn decimals(value: f64, places: usize) -> String {
    let text = format!("{value:.places$}");
    match text.strip_prefix('-') {
        Some(rest) if rest.bytes().all(|byte| matches!(byte, b'0' | b'.')) => rest.to_owned(),
        _ => text,
    }
}

/// A number without needless zeros, at most so many decimals.
#[must_use]
pub fn trimmed(value: f64, places: usize) -> String {
    let text = decimals(value, places);
    if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.').to_owned() } else { text }
}

/// Millimetres: `32.4 mm`.
#[must_use]
pub fn mm(length: Length) -> String {
    format!("{} mm", decimals(length.mm(), 1))
}

/// A distance in the unit a person would say it in, inches beside short ones: `6 m`, `25 cm (9.8 in)`.
#[must_use]
pub fn distance(length: Length) -> String {
    if length.m() < 1.0 {
        format!("{} cm ({} in)", trimmed(length.cm(), 0), trimmed(length.inches(), 1))
    } else {
        format!("{} m", trimmed(length.m(), 2))
    }
}

/// A distance near the face, to a millimetre: `8.3 cm`, `1.25 m`.
#[must_use]
pub fn close(length: Length) -> String {
    if length.m() < 1.0 {
        format!("{} cm", trimmed(length.cm(), 1))
    } else {
        format!("{} m", trimmed(length.m(), 2))
    }
}

/// A width seen, in metres or centimetres.
#[must_use]
pub fn width(length: Length) -> String {
    if length.m() < 1.0 {
        format!("{} cm", decimals(length.cm(), 0))
    } else {
        format!("{} m", decimals(length.m(), 2))
    }
}

/// Degrees: `19.2°`.
#[must_use]
pub fn degrees(angle: Angle) -> String {
    format!("{}°", decimals(angle.degrees(), 1))
}

/// Minutes of arc: `4.6′`.
#[must_use]
pub fn arcmin(angle: Angle) -> String {
    format!("{}′", decimals(angle.arcmin(), 1))
}

/// Dioptres, always signed: `+2.00 D`.
#[must_use]
pub fn dioptres(power: Vergence) -> String {
    let text = decimals(power.dioptres(), 2);
    if text.starts_with('-') { format!("{text} D") } else { format!("+{text} D") }
}

/// Log units: `0.30 logMAR`.
#[must_use]
pub fn log_mar(value: LogMar) -> String {
    format!("{} logMAR", decimals(value.log(), 2))
}

/// A chance as a whole percentage, never a bare 0 or 100.
#[must_use]
pub fn chance(chance: f64) -> String {
    if chance < 0.01 {
        "under 1 %".into()
    } else if 0.99 < chance {
        "over 99 %".into()
    } else {
        format!("{} %", decimals(chance * 100.0, 0))
    }
}

/// A share as a whole percentage.
#[must_use]
pub fn percent(share: f64) -> String {
    format!("{} %", decimals(share * 100.0, 0))
}

/// A magnification: `4x`, `4.07x`.
#[must_use]
pub fn times(ratio: f64) -> String {
    format!("{}x", trimmed(ratio, 2))
}

/// A value of the working, with its unit.
#[must_use]
pub fn named(value: &Named) -> String {
    let number = decimals(value.value, value.unit.decimals());
    match value.unit {
        Unit::Plain => number,
        Unit::Times => format!("{number}x"),
        Unit::Degree => format!("{number}°"),
        Unit::Arcmin => format!("{number}′"),
        unit => format!("{number} {}", unit.symbol()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_carry_unit_and_sign() {
        assert_eq!(mm(Length::from_mm(32.413)), "32.4 mm");
        assert_eq!(distance(Length::from_m(6.0)), "6 m");
        assert_eq!(distance(Length::from_inches(10.0)), "25 cm (10 in)");
        assert_eq!(close(Length::from_mm(83.3)), "8.3 cm");
        assert_eq!(close(Length::from_mm(80.0)), "8 cm");
        assert_eq!(close(Length::from_m(1.0)), "1 m");
        assert_eq!(dioptres(Vergence::from_dioptres(2.0)), "+2.00 D");
        assert_eq!(dioptres(Vergence::from_dioptres(-0.001)), "+0.00 D");
        assert_eq!(log_mar(LogMar::from_log(-0.0001)), "0.00 logMAR");
        assert_eq!(chance(0.5), "50 %");
        assert_eq!(chance(0.9999), "over 99 %");
        assert_eq!(times(4.0), "4x");
        assert_eq!(trimmed(120.0, 0), "120");
    }
}
