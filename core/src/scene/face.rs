//! From how far a face may be known: a range, never one number.
//!
//! What is known of faces is how many cycles across the face matter; an acuity resolves a cycle of two details. Contrast,
//! light and practice matter as much, so a distance stands for "from about here on", and there are always two of them.

use crate::bounds;
use crate::error::{Error, Why};
#[cfg(feature = "alloc")]
use crate::explain::{Explain, Named, Step, Unit, formula};
use crate::source::{self, Source};
use crate::unit::{Angle, Length, LogMar};
#[cfg(feature = "alloc")]
use alloc::vec::Vec;

/// What has to be said beside a distance for faces; the words are the page's.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum FaceCaution {
    /// To be shown as a range.
    Range,
    /// Contrast and light matter, and are not in the sum.
    Contrast,
    /// Acuity and contrast sensitivity together explained less than half of how people differed in knowing faces.
    LittleExplained,
    /// The width of a face is from memory.
    WidthFromMemory,
}

impl FaceCaution {
    /// All of them; each stands beside every range.
    pub const ALL: [Self; 4] = [Self::Range, Self::Contrast, Self::LittleExplained, Self::WidthFromMemory];

    /// Its stable key.
    ///
    /// ```
    /// use arcminute_core::scene::FaceCaution;
    /// assert_eq!(FaceCaution::Contrast.key(), "face-contrast");
    /// ```
    #[must_use]
    pub fn key(self) -> &'static str {
        match self {
            Self::Range => "face-range",
            Self::Contrast => "face-contrast",
            Self::LittleExplained => "face-little-explained",
            Self::WidthFromMemory => "face-width-from-memory",
        }
    }

    /// The work that gives reason for it.
    ///
    /// ```
    /// use arcminute_core::{scene::FaceCaution, source::Standing};
    /// assert_eq!(FaceCaution::WidthFromMemory.source().standing, Standing::FromMemory);
    /// ```
    #[must_use]
    pub fn source(self) -> &'static Source {
        match self {
            Self::Range => &source::PARKER_COSTEN_1999,
            Self::Contrast | Self::LittleExplained => &source::FACE_DISTANCES_STUDY,
            Self::WidthFromMemory => &source::FACE_WIDTH,
        }
    }
}

/// How many cycles across a face carry who it is; pure ratios.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CycleBand {
    /// Stable key.
    pub id: &'static str,
    /// Fewest cycles across the face.
    pub fewest: f64,
    /// Most cycles across the face.
    pub most: f64,
    /// Where faces are known best.
    pub best: f64,
    /// Where it was published.
    pub source: &'static Source,
}

/// The band to reckon with: 8 to 16 cycles across the face ([`source::PARKER_COSTEN_1999`]).
pub static USUAL_CYCLES: CycleBand =
    CycleBand { id: "useful-band", fewest: 8.0, most: 16.0, best: 11.1, source: &source::PARKER_COSTEN_1999 };

/// Bands that were published, the usual one first.
pub static CYCLE_BANDS: [&CycleBand; 2] = [
    &USUAL_CYCLES,
    &CycleBand { id: "peak", fewest: 8.0, most: 13.0, best: 10.0, source: &source::NASANEN_1999 },
];

/// Least and greatest usual width of a face between the ears, 140 and 150 mm, from memory ([`source::FACE_WIDTH`]).
///
/// ```
/// use arcminute_core::scene::usual_face_widths;
/// let (least, greatest) = usual_face_widths();
/// assert_eq!((least.mm(), greatest.mm()), (140.0, 150.0));
/// ```
#[must_use]
pub fn usual_face_widths() -> (Length, Length) {
    (Length::from_mm(140.0), Length::from_mm(150.0))
}

/// Where a number of cycles across a face are only just resolved.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FaceAt {
    /// Cycles across the face; a pure ratio.
    pub cycles: f64,
    /// Angle that the face fills there.
    pub angle: Angle,
    /// Eye to face.
    pub distance: Length,
}

/// From how far a face may be known.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FaceRange {
    /// Acuity of the person.
    pub acuity: LogMar,
    /// Width of the face between the ears.
    pub width: Length,
    /// The band of cycles.
    pub band: CycleBand,
    /// Where the most cycles of the band are resolved: nearer than this a face may be known well.
    pub nearer: FaceAt,
    /// Where the fewest cycles of the band are resolved: farther than this hardly at all.
    pub farther: FaceAt,
}

impl FaceRange {
    /// What has to be said beside it: all of [`FaceCaution::ALL`].
    ///
    /// ```
    /// use arcminute_core::scene::{FaceCaution, USUAL_CYCLES, face_range, usual_face_widths};
    /// use arcminute_core::unit::LogMar;
    /// let range = face_range(LogMar::from_log(1.0), usual_face_widths().0, &USUAL_CYCLES)?;
    /// assert!(range.cautions().contains(&FaceCaution::LittleExplained));
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    #[must_use]
    pub fn cautions(&self) -> [FaceCaution; 4] {
        FaceCaution::ALL
    }
}

fn face_at(acuity: LogMar, width: Length, cycles: f64) -> Result<FaceAt, Error> {
    let angle = acuity.mar() * (2.0 * cycles);
    if angle >= Angle::from_degrees(180.0) {
        let why = Why::NoSolution { because: "the cycles of a face fill more than can be looked at" };
        return Err(Error::about("logMAR", format_args!("{}", acuity.log()), why));
    }
    Ok(FaceAt { cycles, angle, distance: width / (2.0 * (angle / 2.0).tangent()) })
}

/// From how far a face may be known by an acuity, as a range over a band of cycles; show both ends or neither.
///
/// A cycle is two details, so N cycles fill `θ = N·MAR/30` degrees, and a face of width W fills them at
/// `W/(2·tan(θ/2))`.
///
/// # Errors
/// [`Why::OutOfRange`] outside [`bounds::LOG_MAR`] and [`bounds::FACE_WIDTH`], [`Why::NoSolution`] for an acuity too low
/// to resolve the band at any distance.
///
/// ```
/// use arcminute_core::scene::{USUAL_CYCLES, face_range};
/// use arcminute_core::unit::{Length, LogMar};
/// // logMAR 1.0, face 140 mm wide: 1.50 to 3.01 m (computed).
/// let range = face_range(LogMar::from_log(1.0), Length::from_mm(140.0), &USUAL_CYCLES)?;
/// assert!((range.nearer.distance.m() - 1.50).abs() < 0.005);
/// assert!((range.farther.distance.m() - 3.01).abs() < 0.005);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn face_range(acuity: LogMar, width: Length, band: &CycleBand) -> Result<FaceRange, Error> {
    bounds::LOG_MAR.check(acuity.log())?;
    bounds::FACE_WIDTH.check(width.mm())?;
    bounds::FACE_CYCLES.check(band.fewest)?;
    bounds::FACE_CYCLES.check(band.most)?;
    let (fewest, most) = (band.fewest.min(band.most), band.most.max(band.fewest));
    let nearer = face_at(acuity, width, most)?;
    let farther = face_at(acuity, width, fewest)?;
    Ok(FaceRange { acuity, width, band: *band, nearer, farther })
}

#[cfg(feature = "alloc")]
impl Explain for FaceRange {
    fn steps(&self) -> Vec<Step> {
        let mar = Named::new("MAR", self.acuity.mar().arcmin(), Unit::Arcmin);
        let log = Named::new("logMAR", self.acuity.log(), Unit::LogMar);
        let width = Named::new("W", self.width.mm(), Unit::Millimetre);
        let mut steps = alloc::vec![Step::formula(&formula::MAR_FROM_LOG, mar, [log])];
        for at in [self.nearer, self.farther] {
            let angle = Named::new("theta", at.angle.degrees(), Unit::Degree);
            let cycles = Named::new("N", at.cycles, Unit::Plain);
            let distance = Named::new("D", at.distance.m(), Unit::Metre);
            steps.push(Step::formula(&formula::FACE_ANGLE, angle, [cycles, mar]));
            steps.push(Step::formula(&formula::FACE_DISTANCE, distance, [width, angle]));
        }
        steps
    }
}

/// The detail that a number of cycles across a face asks for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FaceDetail {
    /// Width of the face between the ears.
    pub width: Length,
    /// Cycles across it; a pure ratio.
    pub cycles: f64,
    /// Half a cycle, on the face.
    pub detail: Length,
}

/// The detail on a face that has to be seen for a number of cycles across it: half a cycle, `W/(2·N)`.
///
/// * `cycles`: one end of a [`CycleBand`], or where faces are known best; a pure ratio. Show the band beside it.
///
/// # Errors
/// [`Why::OutOfRange`] outside [`bounds::FACE_WIDTH`] and [`bounds::FACE_CYCLES`].
///
/// ```
/// use arcminute_core::scene::{USUAL_CYCLES, face_detail};
/// use arcminute_core::unit::Length;
/// // 11.1 cycles across 140 mm: 6.3 mm (computed).
/// let face = face_detail(Length::from_mm(140.0), USUAL_CYCLES.best)?;
/// assert!((face.detail.mm() - 6.306).abs() < 5e-4);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn face_detail(width: Length, cycles: f64) -> Result<FaceDetail, Error> {
    bounds::FACE_WIDTH.check(width.mm())?;
    bounds::FACE_CYCLES.check(cycles)?;
    Ok(FaceDetail { width, cycles, detail: width / (2.0 * cycles) })
}

#[cfg(feature = "alloc")]
impl Explain for FaceDetail {
    fn steps(&self) -> Vec<Step> {
        let width = Named::new("W", self.width.mm(), Unit::Millimetre);
        let cycles = Named::new("N", self.cycles, Unit::Plain);
        let detail = Named::new("a", self.detail.mm(), Unit::Millimetre);
        alloc::vec![Step::formula(&formula::FACE_DETAIL, detail, [width, cycles])]
    }
}

/// From how far low-vision people matched something in faces, on average.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FaceDistance {
    /// Stable key.
    pub id: &'static str,
    /// How many people.
    pub measured: u16,
    /// Share of the differences between people that acuity and contrast sensitivity together explained; a pure ratio.
    pub explained: f64,
    /// Where it was published.
    pub source: &'static Source,
    metres: f64,
    deviation: f64,
}

impl FaceDistance {
    /// Mean distance, eye to face.
    ///
    /// ```
    /// use arcminute_core::scene::FACE_DISTANCES;
    /// assert_eq!(FACE_DISTANCES[0].distance().m(), 3.1);
    /// ```
    #[must_use]
    pub fn distance(&self) -> Length {
        Length::from_m(self.metres)
    }
    /// Standard deviation of the distance.
    ///
    /// ```
    /// use arcminute_core::scene::FACE_DISTANCES;
    /// // For who it is, what they feel and what they say.
    /// assert_eq!(FACE_DISTANCES.map(|measured| measured.deviation().m()), [0.8, 0.9, 0.85]);
    /// ```
    #[must_use]
    pub fn deviation(&self) -> Length {
        Length::from_m(self.deviation)
    }
}

const fn measured(id: &'static str, metres: f64, deviation: f64, explained: f64) -> FaceDistance {
    let source = &source::FACE_DISTANCES_STUDY;
    FaceDistance { id, measured: 19, explained, source, metres, deviation }
}

/// What 19 people of 0.18 to 1.66 logMAR did, to hold the sum against ([`source::FACE_DISTANCES_STUDY`]).
pub static FACE_DISTANCES: [FaceDistance; 3] = [
    measured("identity", 3.1, 0.8, 0.48),
    measured("emotion", 2.4, 0.9, 0.37),
    measured("speech", 3.7, 0.85, 0.57),
];

#[cfg(test)]
mod tests {
    use super::*;
    use crate::math;
    use alloc::string::ToString;

    fn range(log: f64, width: f64, band: &CycleBand) -> Result<FaceRange, Error> {
        face_range(LogMar::from_log(log), Length::from_mm(width), band)
    }

    #[test]
    fn working_agrees() -> Result<(), Error> {
        for band in CYCLE_BANDS {
            for log in [-0.3, 0.5, 1.0, 1.66, 2.4] {
                for width in [60.0, 140.0, 300.0] {
                    let range = range(log, width, band)?;
                    assert!(range.nearer.distance < range.farther.distance, "{range:?}");
                    assert_eq!(range.steps().len(), 5);
                    assert_eq!(range.cautions(), FaceCaution::ALL);
                    for step in range.steps() {
                        assert_eq!(step.check(), Ok(()), "{log} {width}");
                    }
                }
            }
        }
        Ok(())
    }

    /// Law: seen from where an acuity resolves so many cycles, the detail is that acuity's, to the bend of the angle.
    #[test]
    fn the_detail_of_a_face_is_that_of_its_distance() -> Result<(), Error> {
        for log in [-0.3, 0.5, 1.0] {
            let range = range(log, 140.0, &USUAL_CYCLES)?;
            for at in [range.nearer, range.farther] {
                let face = face_detail(range.width, at.cycles)?;
                for step in face.steps() {
                    assert_eq!(step.check(), Ok(()));
                }
                let seen = Angle::subtended(face.detail, at.distance);
                assert!(math::abs(seen / range.acuity.mar() - 1.0) < 2e-3, "{face:?} at {at:?}");
            }
        }
        assert!(face_detail(Length::from_mm(14.0), 8.0).is_err(), "no face");
        assert!(face_detail(Length::from_mm(140.0), 0.0).is_err(), "no cycles");
        Ok(())
    }

    #[test]
    fn a_band_written_the_wrong_way_round_gives_the_same_range() -> Result<(), Error> {
        let turned = CycleBand { fewest: 16.0, most: 8.0, ..USUAL_CYCLES };
        let (one, other) = (range(1.0, 140.0, &USUAL_CYCLES)?, range(1.0, 140.0, &turned)?);
        assert_eq!((one.nearer, one.farther), (other.nearer, other.farther));
        Ok(())
    }

    #[test]
    fn every_caution_has_its_key_and_its_work() {
        let table = FaceCaution::ALL.map(|caution| (caution.key(), caution.source().id));
        let expected = [
            ("face-range", "parker-costen-1999"),
            ("face-contrast", "face-distances-study"),
            ("face-little-explained", "face-distances-study"),
            ("face-width-from-memory", "face-width"),
        ];
        assert_eq!(table, expected);
    }

    #[test]
    fn what_cannot_be_is_refused() {
        let error = range(3.0, 140.0, &USUAL_CYCLES).expect_err("16 cycles of 2000 minutes");
        assert_eq!(
            error.to_string(),
            "logMAR `3` has no solution: the cycles of a face fill more than can be looked at"
        );
        // 16 cycles fill half of all directions at a detail of 337.5 minutes.
        let half = math::log10(337.5);
        assert!(range(half + 1e-9, 140.0, &USUAL_CYCLES).is_err(), "just too low");
        assert!(range(half - 1e-9, 140.0, &USUAL_CYCLES).is_ok(), "only just");
        let error = range(1.0, 14.0, &USUAL_CYCLES).expect_err("no face");
        assert_eq!(error.to_string(), "width of the face `14 mm` is not possible");
        assert_eq!(error.hint().to_string(), "use 50 to 300 mm");
        let none = CycleBand { fewest: 0.0, ..USUAL_CYCLES };
        let error = range(1.0, 140.0, &none).expect_err("no cycles");
        assert_eq!(error.to_string(), "cycles across the face `0` is not possible");
        let many = CycleBand { most: f64::NAN, ..USUAL_CYCLES };
        assert!(range(1.0, 140.0, &many).is_err(), "no number");
        assert!(range(f64::NAN, 140.0, &USUAL_CYCLES).is_err(), "no acuity");
    }
}
