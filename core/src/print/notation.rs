//! A print size in the notation it was recorded in.

use super::n_notation::{NRule, NSize, size_of_n};
use super::near::{PrintForAngle, ReducedSnellen, print_for, reduced_snellen};
use super::point::{PointSystem, css_pixel};
#[cfg(feature = "alloc")]
use super::size::size_step;
use super::size::{TypeSize, checked, size_of_pixels, size_of_type};
use super::typeface::{Letters, Typeface};
use crate::bounds;
use crate::error::{Error, Text, Why};
#[cfg(feature = "alloc")]
use crate::explain::{Explain, Named, Step, Unit, formula};
use crate::scan::LengthUnit;
use crate::unit::{Length, LogMar, PrintSize};
#[cfg(feature = "alloc")]
use alloc::vec::Vec;

/// A length as it was written.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WrittenLength {
    /// The number.
    pub value: f64,
    /// The unit beside it.
    pub unit: LengthUnit,
}

impl WrittenLength {
    /// 40 cm, the distance for which near cards are usually made.
    pub const FORTY_CENTIMETRES: Self = Self { value: 40.0, unit: LengthUnit::Centimetre };

    /// The length.
    ///
    /// ```
    /// use arcminute_core::print::WrittenLength;
    /// assert_eq!(WrittenLength::FORTY_CENTIMETRES.length().mm(), 400.0);
    /// ```
    #[must_use]
    pub fn length(self) -> Length {
        self.unit.length(self.value)
    }
}

/// Type of so many points or pixels in a typeface.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Type {
    /// Points or pixels of the body.
    pub count: f64,
    /// The typeface, if one was named.
    pub typeface: Option<Typeface>,
    /// Which letters are measured.
    pub letters: Letters,
    /// Their height over the body; a pure ratio.
    pub ratio: f64,
}

/// What was written down.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Notation {
    /// M units: `1.6 M`.
    M(PrintSize),
    /// N notation: `N8`.
    N(f64),
    /// Desktop points in a typeface: `12 pt Times`.
    Points(Type),
    /// Pixels of style sheets at 100 % and 96 to the inch, in a typeface: `16 px Helvetica`.
    Pixels(Type),
    /// The x-height, or the height of capitals: `1.45 mm`.
    Height(WrittenLength),
    /// A fraction that holds at the distance of the record: `20/50 at 40 cm`.
    ReducedSnellen {
        /// Numerator.
        numerator: f64,
        /// Denominator.
        denominator: f64,
    },
    /// A logarithm that holds at the distance of the record: `logMAR 0.4 at 40 cm`.
    LogMar(LogMar),
    /// A Jaeger number, which has no size: `J5`.
    Jaeger(Text),
}

impl Notation {
    /// Whether it means a size only together with a distance.
    ///
    /// ```
    /// use arcminute_core::{print::Notation, unit::{LogMar, PrintSize}};
    /// assert!(Notation::LogMar(LogMar::from_log(0.4)).needs_distance());
    /// assert!(!Notation::M(PrintSize::from_m_units(1.0)).needs_distance());
    /// ```
    #[must_use]
    pub fn needs_distance(&self) -> bool {
        matches!(self, Self::ReducedSnellen { .. } | Self::LogMar(_))
    }
}

/// A print size as recorded, and the distance if one was.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Print {
    /// What was recorded.
    pub notation: Notation,
    /// Eye to print.
    pub at: Option<WrittenLength>,
}

/// How a size was found.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Road {
    /// It was written.
    Written,
    /// From N notation.
    N(NSize),
    /// From points.
    Points(TypeSize),
    /// From pixels.
    Pixels(TypeSize),
    /// From the height of the letters.
    Height,
    /// From a fraction.
    ReducedSnellen(ReducedSnellen),
    /// From a logarithm.
    LogMar(PrintForAngle),
}

/// The size of a recorded print.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SizedPrint {
    /// The record.
    pub print: Print,
    /// How the size was found.
    pub road: Road,
    /// The size.
    pub size: PrintSize,
    /// Its x-height, or the height of its capitals.
    pub height: Length,
}

impl Print {
    /// The print that was recorded so.
    ///
    /// # Errors
    /// [`Why::OutOfRange`] when a part or the whole is outside [`bounds`]; [`Why::Missing`] for a fraction or a logarithm
    /// without its distance.
    ///
    /// # Example
    /// ```
    /// use arcminute_core::print::{NRule, Notation, Print};
    /// let read = Print::of(Notation::N(12.0), None)?;
    /// assert_eq!(read.size(NRule::Convention)?.size.m_units(), 1.5);
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    pub fn of(notation: Notation, at: Option<WrittenLength>) -> Result<Self, Error> {
        if let Some(at) = at {
            bounds::CHART_DISTANCE.check(at.length().m())?;
        }
        let print = Self { notation, at };
        match notation {
            Notation::Jaeger(_) => Ok(print),
            _ => print.size(NRule::Convention).map(|_| print),
        }
    }

    /// Eye to print, if it was recorded.
    ///
    /// ```
    /// use arcminute_core::print::{Notation, Print, WrittenLength};
    /// let read = Print::of(Notation::N(8.0), Some(WrittenLength::FORTY_CENTIMETRES))?;
    /// assert_eq!(read.eye_to_print().map(|distance| distance.cm()), Some(40.0));
    /// assert_eq!(Print::of(Notation::N(8.0), None)?.eye_to_print(), None);
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    #[must_use]
    pub fn eye_to_print(&self) -> Option<Length> {
        self.at.map(WrittenLength::length)
    }

    /// Its size; `n` says what N notation is taken to mean, and counts for nothing else.
    ///
    /// # Errors
    /// [`Why::Missing`] for a Jaeger number: measured cards show that it stands for no size
    /// ([`source::NEAR_CARDS`](crate::source::NEAR_CARDS)); otherwise as [`Print::of`].
    ///
    /// # Example
    /// ```
    /// use arcminute_core::print::{NRule, Parsed, parse};
    /// let Parsed::Understood(print) = parse("12 pt Times") else { panic!() };
    /// // 12-point Times is 1.31 M (computed).
    /// assert!((print.size(NRule::Convention)?.size.m_units() - 1.31).abs() < 5e-3);
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    pub fn size(&self, n: NRule) -> Result<SizedPrint, Error> {
        let (road, size) = match self.notation {
            Notation::M(size) => (Road::Written, checked(size)?),
            Notation::N(number) => {
                let of_n = size_of_n(number, n)?;
                (Road::N(of_n), of_n.size)
            }
            Notation::Points(of) => {
                let of_type = size_of_type(of.count, PointSystem::Desktop, of.ratio)?;
                (Road::Points(of_type), of_type.size)
            }
            Notation::Pixels(of) => {
                let text = size_of_pixels(of.count, css_pixel(), of.ratio)?;
                (Road::Pixels(text), text.size)
            }
            Notation::Height(height) => (Road::Height, checked(PrintSize::of_x_height(height.length()))?),
            Notation::ReducedSnellen { numerator, denominator } => {
                let line = reduced_snellen(numerator, denominator, self.distance()?)?;
                (Road::ReducedSnellen(line), line.print)
            }
            Notation::LogMar(log_mar) => {
                let line = print_for(log_mar, self.distance()?)?;
                (Road::LogMar(line), line.print)
            }
            Notation::Jaeger(_) => {
                let part = "a measured size: a Jaeger number stands for none";
                return Err(self.missing(part, "1.6 M"));
            }
        };
        let height = match self.notation {
            Notation::Height(height) => height.length(),
            _ => size.x_height(),
        };
        Ok(SizedPrint { print: *self, road, size, height })
    }

    fn distance(&self) -> Result<Length, Error> {
        self.eye_to_print().ok_or_else(|| self.missing("the distance it holds for", "20/50 at 40 cm"))
    }

    fn missing(&self, part: &'static str, example: &'static str) -> Error {
        Error::about("print size", format_args!("{self}"), Why::Missing { part, example })
    }
}

#[cfg(feature = "alloc")]
impl Explain for SizedPrint {
    fn steps(&self) -> Vec<Step> {
        let height = Named::new("h", self.height.mm(), Unit::Millimetre);
        let size = Named::new("P", self.size.m_units(), Unit::PrintM);
        let mut steps = match &self.road {
            Road::Written => Vec::new(),
            Road::N(of_n) => of_n.steps(),
            Road::Points(of_type) | Road::Pixels(of_type) => return of_type.steps(),
            Road::Height => return alloc::vec![size_step(self.size, height)],
            Road::ReducedSnellen(line) => line.steps(),
            Road::LogMar(line) => line.steps(),
        };
        steps.push(Step::formula(&formula::PRINT_HEIGHT, height, [size]));
        steps
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use alloc::string::ToString;

    fn times(count: f64) -> Type {
        Type { count, typeface: Some(Typeface::Times), letters: Letters::LowerCase, ratio: 0.45 }
    }

    #[test]
    fn every_notation_has_its_size_and_shows_its_working() -> Result<(), Error> {
        let forty = Some(WrittenLength::FORTY_CENTIMETRES);
        let m = PrintSize::from_m_units;
        for (notation, m_units, steps) in [
            (Notation::M(m(1.6)), 1.6, 1),
            (Notation::N(8.0), 1.0, 2),
            (Notation::Points(times(12.0)), 1.309_8, 2),
            (Notation::Pixels(times(16.0)), 1.309_8, 2),
            (Notation::Height(WrittenLength { value: 1.4544, unit: LengthUnit::Millimetre }), 1.0, 1),
            (Notation::ReducedSnellen { numerator: 20.0, denominator: 50.0 }, 1.0, 2),
            (Notation::LogMar(LogMar::from_log(0.4)), 1.004_8, 3),
        ] {
            let sized = Print::of(notation, forty)?.size(NRule::Convention)?;
            assert!((sized.size.m_units() - m_units).abs() < 5e-5, "{notation:?} gave {:?}", sized.size);
            assert!((sized.height.mm() - 1.454_44 * m_units).abs() < 1e-3, "{notation:?}");
            assert_eq!(sized.print.notation, notation);
            assert_eq!(sized.steps().len(), steps, "{notation:?}");
            for step in sized.steps() {
                assert_eq!(step.check(), Ok(()), "{notation:?}");
            }
        }
        let as_type = Print::of(Notation::N(8.0), None)?.size(NRule::TimesType)?;
        assert!((as_type.size.m_units() - 0.873).abs() < 5e-4, "N8 as Times: {:?}", as_type.size);
        for step in as_type.steps() {
            assert_eq!(step.check(), Ok(()));
        }
        Ok(())
    }

    #[test]
    fn a_height_stays_as_it_was_measured() -> Result<(), Error> {
        for hundredths in 50..500 {
            let height = WrittenLength { value: f64::from(hundredths) / 100.0, unit: LengthUnit::Millimetre };
            let sized = Print::of(Notation::Height(height), None)?.size(NRule::Convention)?;
            assert_eq!(sized.height, height.length(), "{height:?}, to the last bit");
        }
        Ok(())
    }

    #[test]
    fn a_jaeger_number_is_kept_and_has_no_size() -> Result<(), Error> {
        let print = Print::of(Notation::Jaeger(Text::new("5")), None)?;
        assert!(!print.notation.needs_distance());
        for rule in NRule::ALL {
            let error = print.size(rule).expect_err("no size");
            assert_eq!(
                error.to_string(),
                "print size `J5` needs a measured size: a Jaeger number stands for none"
            );
            assert_eq!(error.hint().to_string(), "type for example `1.6 M`");
        }
        Ok(())
    }

    #[test]
    fn what_holds_at_a_distance_needs_it() {
        let fraction = Notation::ReducedSnellen { numerator: 20.0, denominator: 50.0 };
        let error = Print::of(fraction, None).expect_err("no distance");
        assert_eq!(error.to_string(), "print size `20/50` needs the distance it holds for");
        assert_eq!(error.hint().to_string(), "type for example `20/50 at 40 cm`");
        assert!(Print::of(Notation::LogMar(LogMar::ZERO), None).is_err(), "no distance");
        for notation in [fraction, Notation::LogMar(LogMar::ZERO)] {
            assert!(notation.needs_distance(), "{notation:?}");
        }
        for notation in [Notation::N(8.0), Notation::M(PrintSize::from_m_units(1.0))] {
            assert!(!notation.needs_distance(), "{notation:?}");
        }
    }

    #[test]
    fn the_distance_is_checked_for_every_notation() {
        let none = Some(WrittenLength { value: 0.0, unit: LengthUnit::Metre });
        for notation in [Notation::N(8.0), Notation::Jaeger(Text::new("5"))] {
            let error = Print::of(notation, none).expect_err("no distance");
            assert_eq!(error.to_string(), "test distance `0 m` is not possible");
        }
        let print = Print::of(Notation::N(8.0), Some(WrittenLength::FORTY_CENTIMETRES)).expect("in range");
        assert_eq!(print.eye_to_print(), Some(Length::from_cm(40.0)));
        assert_eq!(Print { at: None, ..print }.eye_to_print(), None);
    }
}
