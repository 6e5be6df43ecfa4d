//! Boards in classrooms: the demands that were measured, and the acuity to have with a reserve.

use crate::bounds;
use crate::error::Error;
#[cfg(feature = "alloc")]
use crate::explain::{Explain, Named, Step, Unit, formula};
use crate::math;
use crate::source::{self, Source};
use crate::unit::{Duration, Illuminance, Length, LogMar};
#[cfg(feature = "alloc")]
use alloc::vec::Vec;

/// What the middle figure of a study is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Statistic {
    /// The mean of the rooms.
    Mean,
    /// Their median.
    Median,
}

/// A demand measured in classrooms, as acuity that reads it only just: no reserve is in it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Board {
    /// Stable key.
    pub id: &'static str,
    /// What was looked at, from where, in which rooms.
    pub about: &'static str,
    /// How many rooms, if it was read.
    pub rooms: Option<u16>,
    /// What the figure of [`Board::demand`] is.
    pub statistic: Statistic,
    /// Where it was published.
    pub source: &'static Source,
    log: f64,
    deviation: Option<f64>,
    between: Option<(f64, f64)>,
    lux: Option<f64>,
    centimetres: Option<f64>,
}

impl Board {
    /// The demand, mean or median.
    ///
    /// ```
    /// use arcminute_core::scene::ADAMS_FRONT;
    /// assert_eq!(ADAMS_FRONT.demand().log(), 0.93);
    /// ```
    #[must_use]
    pub fn demand(&self) -> LogMar {
        LogMar::from_log(self.log)
    }
    /// Standard deviation of the rooms, if it was read.
    ///
    /// ```
    /// use arcminute_core::scene::{ADAMS_FRONT, NEGILONI_BOARD};
    /// // Adams 2021, front row; none was read beside the median of Negiloni 2019.
    /// assert_eq!(ADAMS_FRONT.deviation().map(|deviation| deviation.log()), Some(0.29));
    /// assert_eq!(NEGILONI_BOARD.deviation(), None);
    /// ```
    #[must_use]
    pub fn deviation(&self) -> Option<LogMar> {
        self.deviation.map(LogMar::from_log)
    }
    /// The two figures printed beside it, if they were read: the range of a mean; of a median presumably the quartiles.
    ///
    /// ```
    /// use arcminute_core::scene::ADAMS_BACK;
    /// // Adams 2021, back row: from one room to another 0.10 to 0.79.
    /// assert_eq!(ADAMS_BACK.between().map(|(low, high)| (low.log(), high.log())), Some((0.10, 0.79)));
    /// ```
    #[must_use]
    pub fn between(&self) -> Option<(LogMar, LogMar)> {
        self.between.map(|(low, high)| (LogMar::from_log(low), LogMar::from_log(high)))
    }
    /// Light on the front desks, if it was read.
    ///
    /// ```
    /// use arcminute_core::scene::NEGILONI_BOARD;
    /// // Negiloni 2019; the lighting standard asks for 300 lx in classrooms.
    /// assert_eq!(NEGILONI_BOARD.light().map(|light| light.lux()), Some(130.0));
    /// ```
    #[must_use]
    pub fn light(&self) -> Option<Illuminance> {
        self.lux.map(Illuminance::from_lux)
    }
    /// Eye to page where it is a near demand, if it was read.
    ///
    /// ```
    /// use arcminute_core::scene::{NARAYANASAMY_BOARD, NARAYANASAMY_DESK};
    /// // Narayanasamy 2016: 23 cm from eye to page; none for the board.
    /// assert_eq!(NARAYANASAMY_DESK.eye_to_page().map(|distance| distance.cm()), Some(23.0));
    /// assert_eq!(NARAYANASAMY_BOARD.eye_to_page(), None);
    /// ```
    #[must_use]
    pub fn eye_to_page(&self) -> Option<Length> {
        self.centimetres.map(Length::from_cm)
    }
}

/// A row before its rare figures are set.
const fn row(
    id: &'static str,
    about: &'static str,
    rooms: Option<u16>,
    log: f64,
    deviation: Option<f64>,
    source: &'static Source,
) -> Board {
    let (between, lux, centimetres) = (None, None, None);
    Board { id, about, rooms, statistic: Statistic::Mean, source, log, deviation, between, lux, centimetres }
}

/// Front row of schools in the United States.
pub static ADAMS_FRONT: Board = row(
    "us-front",
    "lower-case letters on the board from the middle of the front row, United States",
    Some(14),
    0.93,
    Some(0.29),
    &source::ADAMS_2021,
);
/// Back row of schools in the United States.
pub static ADAMS_BACK: Board = Board {
    between: Some((0.10, 0.79)),
    ..row(
        "us-back",
        "lower-case letters on the board from the middle of the back row, United States",
        Some(14),
        0.46,
        Some(0.21),
        &source::ADAMS_2021,
    )
};
/// The board in Australian schools.
pub static NARAYANASAMY_BOARD: Board = row(
    "au-distance",
    "the board, classes of 10 to 12 years, Australia",
    Some(33),
    0.33,
    Some(0.13),
    &source::NARAYANASAMY_2016,
);
/// The desk in Australian schools.
pub static NARAYANASAMY_DESK: Board = Board {
    centimetres: Some(23.0),
    ..row(
        "au-near",
        "work on the desk, classes of 10 to 12 years, Australia",
        Some(33),
        0.72,
        Some(0.09),
        &source::NARAYANASAMY_2016,
    )
};
/// The board in Indian schools.
pub static NEGILONI_BOARD: Board = Board {
    statistic: Statistic::Median,
    between: Some((0.25, 0.45)),
    lux: Some(130.0),
    ..row("in-distance", "the board, India", Some(29), 0.28, None, &source::NEGILONI_2019)
};
/// The farthest seat in Nigerian schools.
pub static EDO_FARTHEST: Board = row(
    "ng-farthest",
    "the board from the farthest seat, Nigeria",
    None,
    0.21,
    Some(0.23),
    &source::EDO_2022,
);
/// The nearest seat in Nigerian schools.
pub static EDO_NEAREST: Board =
    row("ng-nearest", "the board from the nearest seat, Nigeria", None, 0.65, Some(0.33), &source::EDO_2022);

/// All demands that were measured in classrooms.
pub static BOARDS: [&Board; 7] = [
    &ADAMS_FRONT,
    &ADAMS_BACK,
    &NARAYANASAMY_BOARD,
    &NARAYANASAMY_DESK,
    &NEGILONI_BOARD,
    &EDO_FARTHEST,
    &EDO_NEAREST,
];

/// How a school day of 10 to 12 years is spent looking ([`source::NARAYANASAMY_2016`]).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ClassroomDay {
    /// Share of the time at near work; a pure ratio.
    pub near: f64,
    /// Share of the time looking at the distance; a pure ratio.
    pub far: f64,
    /// Share of the time at work that goes to and fro; a pure ratio.
    pub to_and_fro: f64,
    /// Least Weber contrast of what was looked at; a pure ratio.
    pub contrast_above: f64,
    /// Reserve that the study allows for lasting near work; a pure ratio.
    pub near_reserve: f64,
    /// Where it was published.
    pub source: &'static Source,
    changes_per_minute: f64,
}

impl ClassroomDay {
    /// Mean time between two changes of gaze between near and far.
    ///
    /// ```
    /// use arcminute_core::scene::CLASSROOM_DAY;
    /// // 10 changes a minute.
    /// assert_eq!(CLASSROOM_DAY.between_changes().seconds(), 6.0);
    /// ```
    #[must_use]
    pub fn between_changes(&self) -> Duration {
        Duration::from_minutes(1.0 / self.changes_per_minute)
    }
}

/// A school day.
pub static CLASSROOM_DAY: ClassroomDay = ClassroomDay {
    near: 0.47,
    far: 0.29,
    to_and_fro: 0.15,
    contrast_above: 0.70,
    near_reserve: 2.5,
    source: &source::NARAYANASAMY_2016,
    changes_per_minute: 10.0,
};

/// The acuity to have for a demand, with a reserve.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BoardAcuity {
    /// Acuity that reads it only just.
    pub demand: LogMar,
    /// Size over the least size seen; a pure ratio.
    pub reserve: f64,
    /// Acuity that reads it with the reserve.
    pub to_reach: LogMar,
}

/// The acuity that reads a board with a reserve: `demand − log10(reserve)`.
///
/// # Errors
/// [`Why::OutOfRange`](crate::Why::OutOfRange) outside [`bounds::LOG_MAR`] and [`bounds::RESERVE`].
///
/// ```
/// use arcminute_core::scene::{NARAYANASAMY_DESK, board_acuity};
/// // 0.72 with a reserve of 2.5: 0.322 (computed; published 0.33).
/// let acuity = board_acuity(NARAYANASAMY_DESK.demand(), 2.5)?;
/// assert!((acuity.to_reach.log() - 0.322).abs() < 5e-4);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn board_acuity(demand: LogMar, reserve: f64) -> Result<BoardAcuity, Error> {
    bounds::LOG_MAR.check(demand.log())?;
    bounds::RESERVE.check(reserve)?;
    let to_reach = demand - LogMar::from_log(math::log10(reserve));
    Ok(BoardAcuity { demand, reserve, to_reach })
}

#[cfg(feature = "alloc")]
impl Explain for BoardAcuity {
    fn steps(&self) -> Vec<Step> {
        let log = |symbol, acuity: LogMar| Named::new(symbol, acuity.log(), Unit::LogMar);
        alloc::vec![Step::formula(
            &formula::BOARD_ACUITY,
            log("logMAR_goal", self.to_reach),
            [log("logMAR_demand", self.demand), Named::new("reserve", self.reserve, Unit::Times)],
        )]
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use alloc::collections::BTreeSet;
    use alloc::string::ToString;

    #[test]
    fn working_agrees() -> Result<(), Error> {
        for board in BOARDS {
            for reserve in [0.5, 1.0, 2.5, 10.0] {
                let steps = board_acuity(board.demand(), reserve)?.steps();
                assert_eq!(steps.len(), 1);
                assert!(steps.iter().all(|step| step.check() == Ok(())), "{}: {steps:?}", board.id);
            }
        }
        Ok(())
    }

    #[test]
    fn keys_are_unique_and_what_was_not_read_is_not_there() {
        let ids: BTreeSet<_> = BOARDS.iter().map(|board| board.id).collect();
        assert_eq!(ids.len(), BOARDS.len(), "a key stands twice");
        assert!((CLASSROOM_DAY.near + CLASSROOM_DAY.far + CLASSROOM_DAY.to_and_fro) < 1.0, "shares of a day");
        let having = |has: fn(&Board) -> bool| {
            BOARDS.iter().filter(|board| has(board)).map(|board| board.id).collect::<Vec<_>>()
        };
        assert_eq!(having(|board| board.deviation().is_none()), ["in-distance"]);
        assert_eq!(having(|board| board.between().is_some()), ["us-back", "in-distance"]);
        assert_eq!(having(|board| board.light().is_some()), ["in-distance"]);
        assert_eq!(having(|board| board.eye_to_page().is_some()), ["au-near"]);
        assert_eq!(having(|board| board.rooms.is_none()), ["ng-farthest", "ng-nearest"]);
        assert_eq!(having(|board| board.statistic == Statistic::Median), ["in-distance"]);
    }

    #[test]
    fn what_cannot_be_is_refused() {
        let error = board_acuity(LogMar::from_log(0.3), f64::NAN).expect_err("no reserve");
        assert_eq!(error.to_string(), "acuity reserve `NaN times` is not possible");
        assert!(board_acuity(LogMar::from_log(3.1), 1.0).is_err(), "no acuity");
    }
}
