//! Functional scores: what acuity and field of two eyes come to on a scale of 100 points.
//!
//! The scale of acuity and the weights of the eyes were read in the guides
//! ([`crate::source::AMA_GUIDES`]); the grid of the field and the sum of both are from memory
//! ([`crate::source::AMA_MEMORY`]), and [`CAUTIONS`] go beside them. A score is a statistical
//! estimate of ability, no judgement of a person. Points are pure numbers.

use super::cautions::Caution;
use super::edge::checked;
use super::{Category, Reading};
use crate::bounds;
use crate::error::{Error, Why};
#[cfg(feature = "alloc")]
use crate::explain::{Explain, Named, Step, Unit, formula};
#[cfg(feature = "alloc")]
use crate::source;
use crate::unit::{Angle, LogMar};
#[cfg(feature = "alloc")]
use alloc::vec::Vec;

/// What goes beside the score of a field and everything that it enters.
pub static CAUTIONS: &[Caution] = &[Caution::FromMemory];

/// Most points by which other losses may be reckoned in; how is left to the one who rates
/// ([`crate::source::AMA_GUIDES`]).
pub const MOST_ADJUSTMENT: f64 = 15.0;

/// Something of both eyes together and of each alone.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Eyes<T> {
    /// Both eyes open.
    pub both: T,
    /// Right eye.
    pub right: T,
    /// Left eye.
    pub left: T,
}

/// The visual acuity score of one record, 0 at the least.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AcuityPoints {
    /// Its logarithm; `None` where only light, or none, is seen.
    pub log_mar: Option<LogMar>,
    /// The score, `100 − 50·logMAR`, from 0 (logMAR 2 and worse) to 125.
    pub points: f64,
}

/// The functional acuity score of a person.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FunctionalAcuity {
    /// Visual acuity scores.
    pub scores: Eyes<AcuityPoints>,
    /// `(3·both + right + left) / 5`.
    pub score: f64,
    /// `100 − score`, 0 at the least: the impairment if acuity alone is impaired.
    pub impairment: f64,
}

fn weighted(points: Eyes<f64>) -> f64 {
    (3.0 * points.both + points.right + points.left) / 5.0
}

fn acuity_points(reading: &Reading) -> Result<AcuityPoints, Error> {
    match checked(reading)? {
        Reading::Measured(acuity) => Ok(AcuityPoints {
            log_mar: Some(acuity.log_mar),
            points: (100.0 - 50.0 * acuity.log_mar.log()).max(0.0),
        }),
        // No letter of any size: the foot of the scale, which begins at logMAR 2.
        Reading::Category(Category::LightPerception | Category::NoLightPerception) => {
            Ok(AcuityPoints { log_mar: None, points: 0.0 })
        }
        Reading::Category(category) => {
            Err(Error::about("acuity", format_args!("{category}"), Why::NotUsableInSum))
        }
    }
}

/// The functional acuity score of both eyes and each.
///
/// Light perception and none have no logarithm; their score is the foot of the scale, 0 (from memory,
/// [`crate::source::AMA_MEMORY`]). Source of the rest:
/// [`crate::source::AMA_GUIDES`].
///
/// # Errors
/// [`Why::NotUsableInSum`] for fingers and hand motion, which have no logarithm and may lie above the foot; as
/// [`Acuity::of`](super::Acuity::of) for an acuity that is not possible.
///
/// # Example
/// ```
/// use arcminute_core::acuity::functional::{Eyes, functional_acuity};
/// use arcminute_core::acuity::{Acuity, Reading};
/// use arcminute_core::unit::LogMar;
/// let read = |log| Acuity::of_log_mar(LogMar::from_log(log)).map(Reading::Measured);
/// // Computed: scores of 65, 50 and 40 points give 57.
/// let result = functional_acuity(Eyes { both: read(0.7)?, right: read(1.0)?, left: read(1.2)? })?;
/// assert!((result.score - 57.0).abs() < 1e-9 && (result.impairment - 43.0).abs() < 1e-9);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn functional_acuity(read: Eyes<Reading>) -> Result<FunctionalAcuity, Error> {
    let scores = Eyes {
        both: acuity_points(&read.both)?,
        right: acuity_points(&read.right)?,
        left: acuity_points(&read.left)?,
    };
    let score =
        weighted(Eyes { both: scores.both.points, right: scores.right.points, left: scores.left.points });
    Ok(FunctionalAcuity { scores, score, impairment: (100.0 - score).max(0.0) })
}

/// Directions of the ten meridians of the field grid, counted from the right, upward positive: two in each upper
/// quadrant, three in each lower one ([`crate::source::AMA_MEMORY`]).
///
/// ```
/// use arcminute_core::acuity::functional::meridians;
/// // Ten meridians of ten points are 100 points; six of them lie below (from memory).
/// let below = meridians().into_iter().filter(|meridian| 180.0 < meridian.degrees());
/// assert_eq!(below.count(), 6);
/// ```
#[must_use]
pub fn meridians() -> [Angle; 10] {
    [25.0, 65.0, 115.0, 155.0, 195.0, 225.0, 255.0, 285.0, 315.0, 345.0].map(Angle::from_degrees)
}

/// Points of the grid seen on one meridian: five inside 10 degrees, one each 2; five from there to 60, one each 10.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct MeridianPoints {
    /// Seen at 1, 3, 5, 7 and 9 degrees.
    pub inside: u8,
    /// Seen at 15, 25, 35, 45 and 55 degrees.
    pub outside: u8,
}

impl MeridianPoints {
    /// All that lie within this radius from fixation, none of them in a gap of the field.
    ///
    /// Source: [`crate::source::AMA_MEMORY`].
    ///
    /// # Errors
    /// [`Why::OutOfRange`] outside [`bounds::FIELD_RADIUS`].
    ///
    /// # Example
    /// ```
    /// use arcminute_core::acuity::functional::MeridianPoints;
    /// use arcminute_core::unit::Angle;
    /// let ten = MeridianPoints::within(Angle::from_degrees(10.0))?;
    /// assert_eq!((ten.inside, ten.outside), (5, 0));
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    pub fn within(radius: Angle) -> Result<Self, Error> {
        let degrees = bounds::FIELD_RADIUS.check(radius.degrees())?;
        let seen = |points: [f64; 5]| {
            // Degrees are stored as minutes of arc: the last digits must not decide.
            let count = points.into_iter().filter(|point| *point <= degrees + 1e-9);
            count.fold(0_u8, |n, _| n.saturating_add(1))
        };
        Ok(Self { inside: seen([1.0, 3.0, 5.0, 7.0, 9.0]), outside: seen([15.0, 25.0, 35.0, 45.0, 55.0]) })
    }
}

/// The visual field score of one field.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FieldPoints {
    /// The ten meridians, in the order of [`meridians`].
    pub meridians: [MeridianPoints; 10],
    /// Points inside 10 degrees, 50 at most.
    pub inside: f64,
    /// Points from 10 to 60 degrees, 50 at most.
    pub outside: f64,
    /// Their sum, 100 at most.
    pub points: f64,
}

/// The visual field score of points seen on ten meridians.
///
/// Source: [`crate::source::AMA_MEMORY`]; that the central 10 degrees weigh more was read.
///
/// # Errors
/// [`Why::OutOfRange`] for more than five points inside or outside.
///
/// # Example
/// ```
/// use arcminute_core::acuity::functional::{MeridianPoints, field_points};
/// use arcminute_core::unit::Angle;
/// // From memory: a field of exactly 10 degrees radius scores 50.
/// let score = field_points([MeridianPoints::within(Angle::from_degrees(10.0))?; 10])?;
/// assert_eq!(score.points, 50.0);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn field_points(meridians: [MeridianPoints; 10]) -> Result<FieldPoints, Error> {
    let (mut inside, mut outside) = (0.0, 0.0);
    for meridian in meridians {
        inside += bounds::MERIDIAN_POINTS.check(f64::from(meridian.inside))?;
        outside += bounds::MERIDIAN_POINTS.check(f64::from(meridian.outside))?;
    }
    Ok(FieldPoints { meridians, inside, outside, points: inside + outside })
}

/// The functional vision score of a person.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FunctionalVision {
    /// The functional acuity score and its parts.
    pub acuity: FunctionalAcuity,
    /// Visual field scores.
    pub fields: Eyes<FieldPoints>,
    /// The functional field score, weighted as that of acuity.
    pub field_score: f64,
    /// `acuity score · field score / 100`.
    pub score: f64,
    /// `100 − score`, 0 at the least; other losses not reckoned in.
    pub impairment: f64,
}

/// The functional vision score from acuity and fields.
///
/// Source: [`crate::source::AMA_MEMORY`].
///
/// ```
/// use arcminute_core::acuity::functional::{Eyes, MeridianPoints, field_points, functional_acuity, functional_vision};
/// use arcminute_core::acuity::{Acuity, Reading};
/// use arcminute_core::unit::{Angle, LogMar};
/// let read = Reading::Measured(Acuity::of_log_mar(LogMar::from_log(1.0))?);
/// let narrow = field_points([MeridianPoints::within(Angle::from_degrees(10.0))?; 10])?;
/// let acuity = functional_acuity(Eyes { both: read, right: read, left: read })?;
/// // Computed: half of the acuity points and half of the field.
/// let vision = functional_vision(acuity, Eyes { both: narrow, right: narrow, left: narrow });
/// assert!((vision.score - 25.0).abs() < 1e-9);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
#[must_use]
pub fn functional_vision(acuity: FunctionalAcuity, fields: Eyes<FieldPoints>) -> FunctionalVision {
    let field_score =
        weighted(Eyes { both: fields.both.points, right: fields.right.points, left: fields.left.points });
    let score = acuity.score * field_score / 100.0;
    FunctionalVision { acuity, fields, field_score, score, impairment: (100.0 - score).max(0.0) }
}

#[cfg(feature = "alloc")]
impl Explain for FunctionalAcuity {
    fn steps(&self) -> Vec<Step> {
        let eyes = [
            ("VAS_OU", "logMAR_OU", &formula::VAS_BOTH, self.scores.both),
            ("VAS_R", "logMAR_R", &formula::VAS_RIGHT, self.scores.right),
            ("VAS_L", "logMAR_L", &formula::VAS_LEFT, self.scores.left),
        ];
        let mut steps = Vec::new();
        for (points, log, formula, score) in eyes {
            let points = Named::new(points, score.points, Unit::Plain);
            steps.push(match score.log_mar {
                Some(log_mar) => {
                    Step::formula(formula, points, [Named::new(log, log_mar.log(), Unit::LogMar)])
                }
                None => Step::Rule { because: "no-letters-at-all", source: &source::AMA_MEMORY },
            });
        }
        let inputs = eyes.map(|(points, _, _, score)| Named::new(points, score.points, Unit::Plain));
        let score = Named::new("FAS", self.score, Unit::Plain);
        let impairment = Named::new("impairment", self.impairment, Unit::Plain);
        steps.push(Step::formula(&formula::FUNCTIONAL_ACUITY, score, inputs));
        steps.push(Step::formula(&formula::ACUITY_IMPAIRMENT, impairment, [score]));
        steps
    }
}

#[cfg(feature = "alloc")]
impl Explain for FunctionalVision {
    fn steps(&self) -> Vec<Step> {
        let plain = |symbol, value| Named::new(symbol, value, Unit::Plain);
        let mut steps = self.acuity.steps();
        let fields = [
            ("VFS_OU", &formula::VFS_BOTH, self.fields.both),
            ("VFS_R", &formula::VFS_RIGHT, self.fields.right),
            ("VFS_L", &formula::VFS_LEFT, self.fields.left),
        ];
        for (points, formula, field) in fields {
            let inputs = [plain("inside", field.inside), plain("outside", field.outside)];
            steps.push(Step::formula(formula, plain(points, field.points), inputs));
        }
        let inputs = fields.map(|(points, _, field)| plain(points, field.points));
        let acuity = plain("FAS", self.acuity.score);
        let field = plain("FFS", self.field_score);
        let score = plain("FVS", self.score);
        steps.push(Step::formula(&formula::FUNCTIONAL_FIELD, field, inputs));
        steps.push(Step::formula(&formula::FUNCTIONAL_VISION, score, [acuity, field]));
        let impairment = plain("impairment", self.impairment);
        steps.push(Step::formula(&formula::VISION_IMPAIRMENT, impairment, [score]));
        steps
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::acuity::{Acuity, Notation};
    use crate::unit::Length;
    use alloc::string::ToString;

    fn read(log: f64) -> Reading {
        Reading::Measured(Acuity::of_log_mar(LogMar::from_log(log)).expect("possible"))
    }

    fn field(degrees: f64) -> FieldPoints {
        let meridian = MeridianPoints::within(Angle::from_degrees(degrees)).expect("possible");
        field_points([meridian; 10]).expect("possible")
    }

    #[test]
    fn working_agrees() {
        let dark = Reading::Category(Category::NoLightPerception);
        for (both, right, left) in [
            (read(0.7), read(1.0), read(1.2)),
            (read(-0.3), read(0.0), read(2.4)),
            (read(1.3), dark, read(1.3)),
        ] {
            let acuity = functional_acuity(Eyes { both, right, left }).expect("possible");
            let fields = Eyes { both: field(60.0), right: field(12.0), left: field(4.0) };
            let steps = functional_vision(acuity, fields).steps();
            assert_eq!(steps.len(), 11, "each eye twice, and the sums");
            for step in steps {
                assert_eq!(step.check(), Ok(()));
            }
        }
    }

    #[test]
    fn the_scale_has_a_foot() {
        let points = |reading| acuity_points(&reading).map(|score| (score.points, score.log_mar.is_some()));
        assert_eq!(points(read(2.0)), Ok((0.0, true)));
        assert_eq!(points(read(2.5)), Ok((0.0, true)));
        assert_eq!(points(Reading::Category(Category::LightPerception)), Ok((0.0, false)));
        assert_eq!(points(Reading::Category(Category::NoLightPerception)), Ok((0.0, false)));
        assert_eq!(points(read(-0.5)), Ok((125.0, true)));
        let fingers = Category::CountsFingers { distance: Some(Length::from_m(1.0)) };
        let error = points(Reading::Category(fingers)).expect_err("no logarithm");
        let said = "acuity `CF 1 m` is a category, not a size, and cannot be used in this sum";
        assert_eq!(error.to_string(), said);
        assert!(points(Reading::Category(Category::HandMotion { distance: None })).is_err(), "the same");
        let wrong = Acuity { log_mar: LogMar::ZERO, notation: Notation::Decimal(f64::NAN) };
        assert!(points(Reading::Measured(wrong)).is_err(), "not-a-number is refused");
    }

    #[test]
    fn better_than_normal_is_no_negative_impairment() {
        let acuity = functional_acuity(Eyes { both: read(-0.2), right: read(-0.1), left: read(-0.1) });
        let acuity = acuity.expect("possible");
        assert_eq!((acuity.score, acuity.impairment), (108.0, 0.0));
        let fields = Eyes { both: field(60.0), right: field(60.0), left: field(60.0) };
        let vision = functional_vision(acuity, fields);
        assert_eq!((vision.field_score, vision.score, vision.impairment), (100.0, 108.0, 0.0));
    }

    #[test]
    fn the_grid_has_a_point_each_step() {
        for (degrees, inside, outside) in [
            (0.0, 0, 0),
            (0.9, 0, 0),
            (1.0, 1, 0),
            (2.9, 1, 0),
            (3.0, 2, 0),
            (9.0, 5, 0),
            (14.9, 5, 0),
            (15.0, 5, 1),
            (55.0, 5, 5),
            (90.0, 5, 5),
        ] {
            let points = MeridianPoints::within(Angle::from_degrees(degrees)).expect("possible");
            assert_eq!((points.inside, points.outside), (inside, outside), "{degrees} degrees");
        }
        assert!(MeridianPoints::within(Angle::from_degrees(f64::NAN)).is_err(), "not-a-number is refused");
        let lost = MeridianPoints { inside: 2, outside: 4 };
        let score = field_points([lost; 10]).expect("possible");
        assert_eq!((score.inside, score.outside, score.points), (20.0, 40.0, 60.0));
        let error = field_points([MeridianPoints { inside: 6, outside: 0 }; 10]).expect_err("five at most");
        assert_eq!(error.to_string(), "points on a meridian `6 points` is not possible");
        assert!(field_points([MeridianPoints { inside: 0, outside: 6 }; 10]).is_err(), "five at most");
    }

    #[test]
    fn meridians_are_two_above_and_three_below_on_each_side() {
        let in_quadrant = |from: f64| {
            let inside = |angle: &&Angle| (from..from + 90.0).contains(&angle.degrees());
            meridians().iter().filter(inside).count()
        };
        assert_eq!([0.0, 90.0, 180.0, 270.0].map(in_quadrant), [2, 2, 3, 3]);
        assert!(meridians().is_sorted(), "in order");
        assert!((meridians().map(Angle::degrees)[9] - 345.0).abs() < 1e-9, "the last one");
    }
}
