//! What an everyday thing asks for.

use super::{Everyday, Part};
use crate::bounds;
use crate::error::{Error, Why};
#[cfg(feature = "alloc")]
use crate::explain::{Explain, Named, Step, Unit, formula};
use crate::scene::{BoardAcuity, board_acuity};
use crate::task::{Demand, Goal, Target, demand};
use crate::unit::{Angle, Length, LogMar, PrintSize};
#[cfg(feature = "alloc")]
use alloc::vec::Vec;

/// What an everyday thing asks for, by what is known of it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum EverydayDemand {
    /// A letter of a height, looked at from a distance.
    Letter {
        /// The row.
        everyday: &'static Everyday,
        /// The same in M units.
        print: PrintSize,
        /// What it asks for.
        demand: Demand,
    },
    /// A stroke of a width, looked at from a distance: the detail itself.
    Stroke {
        /// The row.
        everyday: &'static Everyday,
        /// What it asks for; its letter is five strokes high.
        demand: Demand,
    },
    /// Something given as an angle or as a demand, so that no distance comes in.
    Acuity {
        /// The row.
        everyday: &'static Everyday,
        /// What it asks for.
        acuity: BoardAcuity,
    },
}

impl EverydayDemand {
    /// The acuity that sees it with the reserve.
    ///
    /// ```
    /// use arcminute_core::everyday::{ALL, everyday_demand};
    /// // Adams et al. 2021: 0.46 from the back row; with a reserve of 2 it takes 0.16 (computed).
    /// let board = ALL.iter().find(|row| row.id == "us-back").expect("in the table");
    /// assert!((everyday_demand(board, None, 2.0)?.to_reach().log() - 0.159).abs() < 5e-4);
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    #[must_use]
    pub fn to_reach(&self) -> LogMar {
        match self {
            Self::Letter { demand, .. } | Self::Stroke { demand, .. } => demand.to_reach,
            Self::Acuity { acuity, .. } => acuity.to_reach,
        }
    }
    /// The detail to be seen, without the reserve.
    ///
    /// ```
    /// use arcminute_core::everyday::{ALL, everyday_demand};
    /// // The stroke of a number plate is the detail: 14 mm at 20 m are 2.4 minutes (computed), whatever the reserve.
    /// let stroke = ALL.iter().find(|row| row.id == "number-plate-stroke").expect("in the table");
    /// assert!((everyday_demand(stroke, None, 2.0)?.detail().arcmin() - 2.406).abs() < 5e-4);
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    #[must_use]
    pub fn detail(&self) -> Angle {
        match self {
            Self::Letter { demand, .. } | Self::Stroke { demand, .. } => demand.detail,
            Self::Acuity { acuity, .. } => acuity.demand.mar(),
        }
    }
}

/// The acuity that an everyday thing asks for, with a reserve.
///
/// The size is the usual one, else the least. The distance is the one given, else the usual one of the row; a thing
/// known as an angle or by a measured demand asks for the same from any distance, and the distance is not looked at.
///
/// # Errors
/// [`Why::Missing`] when no distance is given and the row knows none, [`Why::NoSolution`] for a thing without a count
/// of details (a face), [`Why::OutOfRange`] outside [`bounds::TASK_DISTANCE`] and [`bounds::RESERVE`].
///
/// ```
/// use arcminute_core::everyday::{ALL, everyday_demand};
/// // A text message of 1.1 M at 36.2 cm: logMAR 0.48 (computed).
/// let message = ALL.iter().find(|row| row.id == "phone-message").expect("in the table");
/// assert!((everyday_demand(message, None, 1.0)?.to_reach().log() - 0.48).abs() < 0.005);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn everyday_demand(
    everyday: &'static Everyday,
    distance: Option<Length>,
    reserve: f64,
) -> Result<EverydayDemand, Error> {
    bounds::RESERVE.check(reserve)?;
    if let Some(board) = everyday.board() {
        let acuity = board_acuity(board.demand(), reserve)?;
        return Ok(EverydayDemand::Acuity { everyday, acuity });
    }
    let uncounted = || {
        let because = "its details cannot be counted by its size";
        Error::new("thing to look at", everyday.name, Why::NoSolution { because })
    };
    let details = everyday.part.details().ok_or_else(uncounted)?;
    if let Some(angle) = everyday.angle().and_then(|angle| angle.one()) {
        let acuity = board_acuity(LogMar::of_angle(angle / details), reserve)?;
        return Ok(EverydayDemand::Acuity { everyday, acuity });
    }
    let size = everyday.height().and_then(|height| height.one()).ok_or_else(uncounted)?;
    let usual = || everyday.from.and_then(|from| from.distance().one());
    let Some(distance) = distance.or_else(usual) else {
        let why = Why::Missing { part: "the distance from the eye", example: "2 m" };
        return Err(Error::new("thing to look at", everyday.name, why));
    };
    bounds::TASK_DISTANCE.check(distance.m())?;
    let height = size * (5.0 / details);
    let demand = demand(Goal::Target(Target { height, distance, reserve }));
    Ok(if everyday.part == Part::Stroke {
        EverydayDemand::Stroke { everyday, demand }
    } else {
        EverydayDemand::Letter { everyday, print: PrintSize::of_x_height(height), demand }
    })
}

#[cfg(feature = "alloc")]
impl Explain for EverydayDemand {
    fn steps(&self) -> Vec<Step> {
        match self {
            Self::Letter { everyday, print, demand } => {
                let mut steps = alloc::vec![Step::Rule { because: everyday.id, source: everyday.source }];
                if let Goal::Target(Target { height, .. }) = demand.goal {
                    let print = Named::new("P", print.m_units(), Unit::PrintM);
                    let height = Named::new("h", height.mm(), Unit::Millimetre);
                    steps.push(Step::formula(&formula::PRINT_OF_LETTER, print, [height]));
                }
                steps.extend(demand.steps());
                steps
            }
            Self::Stroke { everyday, demand } => {
                let mut steps = alloc::vec![Step::Rule { because: everyday.id, source: everyday.source }];
                steps.extend(demand.steps());
                steps
            }
            Self::Acuity { everyday, acuity } => {
                let mut steps = alloc::vec![Step::Rule { because: everyday.id, source: everyday.source }];
                steps.extend(acuity.steps());
                steps
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::everyday::ALL;
    use crate::math;
    use alloc::string::ToString;

    fn row(id: &str) -> &'static Everyday {
        ALL.iter().find(|row| row.id == id).expect("in the table")
    }

    #[test]
    fn working_agrees() {
        for everyday in ALL {
            for reserve in [0.5, 1.0, 2.0, 10.0] {
                match everyday_demand(everyday, Some(Length::from_m(1.5)), reserve) {
                    Ok(demand) => {
                        let steps = demand.steps();
                        assert!(2 <= steps.len(), "{}: a row and a sum", everyday.id);
                        for step in steps {
                            assert_eq!(step.check(), Ok(()), "{}", everyday.id);
                        }
                    }
                    Err(error) => assert_eq!(everyday.part, Part::Width, "{}: {error}", everyday.id),
                }
            }
        }
    }

    #[test]
    fn a_reserve_and_a_nearer_place_change_what_it_asks_for() -> Result<(), Error> {
        let near = |id, metres, reserve| {
            everyday_demand(row(id), Some(Length::from_m(metres)), reserve).map(|demand| demand.to_reach())
        };
        let bus = near("bus-number", 20.0, 1.0)?;
        let apart = |one: LogMar, other: LogMar, by: f64| ((one - other).log() - by).abs() < 1e-6;
        assert!(apart(bus, near("bus-number", 20.0, 2.0)?, math::log10(2.0)), "reserve of 2");
        assert!(apart(near("bus-number", 10.0, 1.0)?, bus, math::log10(2.0)), "half the distance");
        for id in ["us-front", "display-letters"] {
            assert!(apart(near(id, 1.0, 1.0)?, near(id, 9.0, 1.0)?, 0.0), "{id}: no distance comes in");
            assert!(
                apart(near(id, 1.0, 1.0)?, near(id, 1.0, 2.0)?, math::log10(2.0)),
                "{id}: the reserve does"
            );
        }
        let stroke = everyday_demand(row("number-plate-stroke"), None, 1.0)?;
        assert!(matches!(stroke, EverydayDemand::Stroke { .. }), "{stroke:?}");
        let exact = Angle::subtended(Length::from_mm(14.0), Length::from_m(20.0));
        assert!((stroke.detail() / exact - 1.0).abs() < 1e-12, "the stroke is the detail");
        Ok(())
    }

    #[test]
    fn what_asks_for_nothing_countable_is_refused() {
        let said = |id, distance: Option<f64>, reserve| {
            let error = everyday_demand(row(id), distance.map(Length::from_m), reserve).expect_err("refused");
            (error.to_string(), error.hint().to_string())
        };
        let face = said("face", Some(2.0), 1.0);
        assert_eq!(
            face.0,
            "thing to look at `Face, between the ears` has no solution: its details cannot be counted by its size"
        );
        let label = said("food-label", None, 1.0);
        assert_eq!(label.0, "thing to look at `Food label` needs the distance from the eye");
        assert_eq!(label.1, "type for example `2 m`");
        assert_eq!(said("food-label", Some(0.0), 1.0).0, "distance `0 m` is not possible");
        assert_eq!(said("us-front", None, 0.0).0, "acuity reserve `0 times` is not possible");
        assert_eq!(said("food-label", Some(1.0), f64::NAN).0, "acuity reserve `NaN times` is not possible");
    }
}
