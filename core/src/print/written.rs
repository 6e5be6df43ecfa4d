//! Writing a print size as it was recorded, so that [`parse`](super::parse()) reads it back without asking.

use super::notation::{Notation, Print, Type, WrittenLength};
use super::typeface::Letters;
use crate::scan::LengthUnit;
use core::fmt;

impl fmt::Display for WrittenLength {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let unit = match self.unit {
            LengthUnit::Millimetre => "mm",
            LengthUnit::Centimetre => "cm",
            LengthUnit::Metre => "m",
            LengthUnit::Inch => "in",
            LengthUnit::Foot => "ft",
        };
        write!(f, "{} {unit}", self.value)
    }
}

/// Type behind its unit: typeface, capitals, and the ratio where the typeface does not tell it.
struct Behind<'a>(&'a Type);

impl fmt::Display for Behind<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Type { typeface, letters, ratio, .. } = self.0;
        if let Some(face) = typeface {
            write!(f, " {}", face.key())?;
        }
        if *letters == Letters::Capitals {
            f.write_str(" capitals")?;
        }
        match typeface.and_then(|face| face.agreed(*letters)) {
            Some(row) if row.ratio.to_bits() == ratio.to_bits() => Ok(()),
            _ => write!(f, " {ratio}"),
        }
    }
}

impl fmt::Display for Notation {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::M(size) => write!(f, "{} M", size.m_units()),
            Self::N(n) => write!(f, "N{n}"),
            Self::Points(of) => write!(f, "{} pt{}", of.count, Behind(of)),
            Self::Pixels(of) => write!(f, "{} px{}", of.count, Behind(of)),
            Self::Height(height) => write!(f, "x-height {height}"),
            Self::ReducedSnellen { numerator, denominator } => write!(f, "{numerator}/{denominator}"),
            Self::LogMar(log_mar) => write!(f, "logMAR {}", log_mar.log()),
            Self::Jaeger(number) => write!(f, "J{number}"),
        }
    }
}

/// As recorded.
impl fmt::Display for Print {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.notation.fmt(f)?;
        match self.at {
            Some(at) => write!(f, " at {at}"),
            None => Ok(()),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::error::Text;
    use crate::print::Typeface;
    use crate::unit::{LogMar, PrintSize};
    use alloc::string::ToString;

    #[test]
    fn each_notation_is_written_plainly() {
        let of = |typeface, letters, ratio| Type { count: 12.0, typeface, letters, ratio };
        let lower = Letters::LowerCase;
        for (notation, text) in [
            (Notation::M(PrintSize::from_m_units(1.6)), "1.6 M"),
            (Notation::N(8.0), "N8"),
            (Notation::Points(of(Some(Typeface::Times), lower, 0.45)), "12 pt Times"),
            (Notation::Points(of(Some(Typeface::Times), lower, 0.46)), "12 pt Times 0.46"),
            (Notation::Points(of(Some(Typeface::Verdana), lower, 0.58)), "12 pt Verdana 0.58"),
            (
                Notation::Pixels(of(Some(Typeface::Verdana), Letters::Capitals, 0.727)),
                "12 px Verdana capitals",
            ),
            (Notation::Pixels(of(None, Letters::Capitals, 0.7)), "12 px capitals 0.7"),
            (Notation::Points(of(None, lower, 0.5)), "12 pt 0.5"),
            (
                Notation::Height(WrittenLength { value: 1.45, unit: LengthUnit::Millimetre }),
                "x-height 1.45 mm",
            ),
            (Notation::ReducedSnellen { numerator: 20.0, denominator: 50.0 }, "20/50"),
            (Notation::LogMar(LogMar::from_log(-0.1)), "logMAR -0.1"),
            (Notation::Jaeger(Text::new("1+")), "J1+"),
        ] {
            assert_eq!(notation.to_string(), text);
        }
    }

    #[test]
    fn the_distance_comes_behind() {
        for (unit, text) in [
            (LengthUnit::Millimetre, "N8 at 1.5 mm"),
            (LengthUnit::Centimetre, "N8 at 1.5 cm"),
            (LengthUnit::Metre, "N8 at 1.5 m"),
            (LengthUnit::Inch, "N8 at 1.5 in"),
            (LengthUnit::Foot, "N8 at 1.5 ft"),
        ] {
            let at = Some(WrittenLength { value: 1.5, unit });
            assert_eq!(Print { notation: Notation::N(8.0), at }.to_string(), text);
        }
        assert_eq!(Print { notation: Notation::N(8.0), at: None }.to_string(), "N8");
    }
}
