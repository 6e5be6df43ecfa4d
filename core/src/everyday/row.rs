//! A row of the table: what it holds, and what follows from it alone.

use super::Extent;
use crate::contrast::Measure;
use crate::print::PointSystem;
use crate::print::typeface::{HELVETICA, TIMES_FILE};
use crate::scene::Board;
use crate::source::{Source, Standing};
use crate::unit::{Angle, Length, PrintSize};

/// What the size is of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Part {
    /// Lower-case letters without ascenders; five details high.
    XHeight,
    /// Capitals; five details high.
    Capital,
    /// Numbers, or capitals and numbers; five details high.
    Number,
    /// The stroke of a letter or number; one detail.
    Stroke,
    /// The whole width of the thing, which has no count of details.
    Width,
    /// No size is known, but what it asks for was measured.
    Demand,
}

impl Part {
    /// Its stable key.
    ///
    /// ```
    /// use arcminute_core::everyday::Part;
    /// assert_eq!([Part::Capital, Part::Stroke].map(Part::key), ["capital-height", "stroke-width"]);
    /// ```
    #[must_use]
    pub fn key(self) -> &'static str {
        match self {
            Self::XHeight => "x-height",
            Self::Capital => "capital-height",
            Self::Number => "number-height",
            Self::Stroke => "stroke-width",
            Self::Width => "width",
            Self::Demand => "measured-demand",
        }
    }
    /// How many details it is high; a pure ratio, `None` where it has no such count.
    ///
    /// ```
    /// use arcminute_core::everyday::Part;
    /// let details = [Part::XHeight, Part::Stroke, Part::Width].map(Part::details);
    /// assert_eq!(details, [Some(5.0), Some(1.0), None]);
    /// ```
    #[must_use]
    pub fn details(self) -> Option<f64> {
        match self {
            Self::XHeight | Self::Capital | Self::Number => Some(5.0),
            Self::Stroke => Some(1.0),
            Self::Width | Self::Demand => None,
        }
    }
}

/// A distance from which a thing is looked at, and how that is known.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SeenFrom {
    /// How it is known; a distance of [`Standing::Assumed`] is an example of ours.
    pub standing: Standing,
    pub(super) metres: Extent<f64>,
}

impl SeenFrom {
    /// Eye to thing: least, usual and most, as far as known.
    ///
    /// ```
    /// use arcminute_core::everyday::ALL;
    /// // Bababekova et al. 2011: text messages at 36.2 cm in the mean.
    /// let message = ALL.iter().find(|row| row.id == "phone-message").expect("in the table");
    /// let usual = message.from.and_then(|from| from.distance().usual).unwrap_or_default();
    /// assert!((usual.cm() - 36.2).abs() < 1e-12);
    /// ```
    #[must_use]
    pub fn distance(&self) -> Extent<Length> {
        self.metres.map(Length::from_m)
    }
}

/// Contrast of a kind of thing; the thing in hand may differ.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Contrast {
    /// Least, usual and most; pure ratios of 0 to 1.
    pub share: Extent<f64>,
    /// What the work means by contrast.
    pub measure: Measure,
    /// Where it comes from.
    pub source: &'static Source,
}

/// The size as the work gives it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Given {
    Millimetres(Extent<f64>),
    MUnits(Extent<f64>),
    /// Least and most points, as lower case of a narrow and of a wide common typeface.
    Points(f64, f64),
    /// Minutes of arc at the eye.
    Arcmin(Extent<f64>),
    Board(&'static Board),
}

/// An everyday thing to look at.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Everyday {
    /// Stable key.
    pub id: &'static str,
    /// Its name, in plain words.
    pub name: &'static str,
    /// What the size is of.
    pub part: Part,
    /// How the size is known; [`Standing::CommonPractice`] and [`Standing::FromMemory`] want measuring.
    pub standing: Standing,
    /// Where the size comes from.
    pub source: &'static Source,
    /// From where it is looked at, if anything is known of it.
    pub from: Option<SeenFrom>,
    /// Its contrast, if anything is known of it.
    pub contrast: Option<Contrast>,
    pub(super) given: Given,
}

impl Everyday {
    /// The height (or width, by [`Everyday::part`]); of a thing given as an angle, at its usual distance.
    ///
    /// ```
    /// use arcminute_core::everyday::ALL;
    /// let label = ALL.iter().find(|row| row.id == "food-label").expect("in the table");
    /// let least = label.height().and_then(|height| height.least).expect("a least x-height");
    /// assert!((least.mm() - 1.2).abs() < 1e-12);
    /// ```
    #[must_use]
    pub fn height(&self) -> Option<Extent<Length>> {
        Some(match self.given {
            Given::Millimetres(mm) => mm.map(Length::from_mm),
            Given::MUnits(m) => m.map(|m| PrintSize::from_m_units(m).x_height()),
            Given::Points(least, most) => {
                let body = |points| PointSystem::Desktop.body(points);
                Extent::between(body(least) * TIMES_FILE.ratio, body(most) * HELVETICA.ratio)
            }
            Given::Arcmin(_) => {
                let distance = self.from?.distance().one()?;
                self.angle()?.map(|angle| distance * (2.0 * (angle / 2.0).tangent()))
            }
            Given::Board(_) => return None,
        })
    }

    /// Its size as print in M units; `None` for what is no letter.
    ///
    /// ```
    /// use arcminute_core::everyday::ALL;
    /// let row = |id| ALL.iter().find(|row| row.id == id).expect("in the table");
    /// // Newspaper text of 1.45 mm is 1.0 M (computed); a face is no letter.
    /// let news = row("newspaper").print().and_then(|print| print.usual).unwrap_or_default();
    /// assert!((news.m_units() - 0.997).abs() < 5e-4);
    /// assert_eq!(row("face").print(), None);
    /// ```
    #[must_use]
    pub fn print(&self) -> Option<Extent<PrintSize>> {
        let is_letter = self.part.details() == Some(5.0);
        self.height().filter(|_| is_letter).map(|height| height.map(PrintSize::of_x_height))
    }

    /// The angle that it fills, where it is given as one, whatever the distance; `None` for the others.
    ///
    /// ```
    /// use arcminute_core::everyday::ALL;
    /// // Legge & Bigelow 2011: normal sight reads fluently from 0.2 degrees on.
    /// let fluent = ALL.iter().find(|row| row.id == "fluent-range").expect("in the table");
    /// let least = fluent.angle().and_then(|angle| angle.least).unwrap_or_default();
    /// assert!((least.degrees() - 0.2).abs() < 1e-12);
    /// ```
    #[must_use]
    pub fn angle(&self) -> Option<Extent<Angle>> {
        match self.given {
            Given::Arcmin(arcmin) => Some(arcmin.map(Angle::from_arcmin)),
            _ => None,
        }
    }

    /// The demand that was measured in place of a size; `None` where a size is known.
    ///
    /// ```
    /// use arcminute_core::everyday::ALL;
    /// let row = |id| ALL.iter().find(|row| row.id == id).expect("in the table");
    /// // Adams et al. 2021: the board from the front row.
    /// assert_eq!(row("us-front").board().map(|board| board.demand().log()), Some(0.93));
    /// assert_eq!(row("newspaper").board(), None);
    /// ```
    #[must_use]
    pub fn board(&self) -> Option<&'static Board> {
        match self.given {
            Given::Board(board) => Some(board),
            _ => None,
        }
    }
}
