//! What telescopes would do for the eye and the goal.

use super::person::EyeAnswer;
use super::to_entrance_pupil;
use crate::model::devices::Device;
use crate::model::draft::CorrectionChoice;
use arcminute_core::Error;
use arcminute_core::device::{CorrectionPlace, FocusReach, TelescopeOutcome, Viewer, evaluate_telescope};
use arcminute_core::explain::{Explain, Named, Step, Unit, formula};
use arcminute_core::math;
use arcminute_core::predict::{PowerNeeded, Prediction, Reach, power_needed, predict};
use arcminute_core::task::Demand;
use arcminute_core::unit::{Angle, Length, LogMar, Magnification};

/// Whole powers that the ladder shows.
const WHOLE_POWERS: std::ops::RangeInclusive<u8> = 2..=10;
/// Apparent field of spectacle-mounted Keplerians behind the rule of thumb, degrees. Common practice, no source.
const USUAL_APPARENT_FIELD: f64 = 50.0;

/// What a whole power would do.
#[derive(Clone, Debug, PartialEq)]
pub struct PowerRow {
    /// The power.
    pub power: f64,
    /// Acuity predicted against the goal.
    pub prediction: Prediction,
    /// Whether it is the lowest whole power that reaches the goal.
    pub lowest: bool,
    /// Real field by the rule of thumb for spectacle-mounted Keplerians; common practice, no source.
    pub usual_field: Angle,
}

/// What one telescope would do.
#[derive(Clone, Debug, PartialEq)]
pub struct BenchRow {
    /// The telescope.
    pub device: Device,
    /// The outcome, or why there is none.
    pub outcome: Result<TelescopeOutcome, Error>,
}

impl BenchRow {
    /// Whether the prediction reaches the goal, with the telescope in focus.
    #[must_use]
    pub fn serves(&self) -> bool {
        self.outcome.as_ref().is_ok_and(|outcome| {
            Reach::Middle <= outcome.prediction.reach && outcome.reach == FocusReach::InFocus
        })
    }
}

pub(super) fn viewer(
    eye: &EyeAnswer,
    retest_limit: Option<LogMar>,
    vertex: Option<Length>,
    correction: CorrectionChoice,
) -> Option<Viewer> {
    let to_eye = to_entrance_pupil(vertex?);
    let refraction = eye.refraction?;
    Some(Viewer {
        acuity: eye.log_mar()?,
        retest_limit: retest_limit?,
        pupil: eye.pupil?,
        sphere: refraction.0,
        cylinder: refraction.1,
        spectacle_to_eye: to_eye,
        eyepiece_to_eye: to_eye,
        correction: match correction {
            CorrectionChoice::ByFocusing => CorrectionPlace::ByFocusing,
            CorrectionChoice::InEyepiece => CorrectionPlace::InEyepiece,
        },
    })
}

pub(super) fn needed(eye: &EyeAnswer, demand: Option<Demand>) -> Option<PowerNeeded> {
    Some(power_needed(eye.log_mar()?, demand?.to_reach))
}

pub(super) fn powers(
    viewer: Option<&Viewer>,
    demand: Option<Demand>,
    needed: Option<PowerNeeded>,
) -> Vec<PowerRow> {
    let (Some(viewer), Some(demand)) = (viewer, demand) else { return Vec::new() };
    WHOLE_POWERS
        .map(|power| {
            let power = f64::from(power);
            let magnification = Magnification::from_times(power);
            PowerRow {
                power,
                prediction: predict(viewer.acuity, magnification, demand.to_reach, viewer.retest_limit),
                // Both are whole numbers.
                lowest: needed.is_some_and(|needed| math::abs(needed.whole.times() - power) < 0.5),
                usual_field: Angle::from_degrees(USUAL_APPARENT_FIELD / power),
            }
        })
        .collect()
}

/// The list, lowest power first, wider field first among equals.
pub(super) fn rows(viewer: Option<&Viewer>, demand: Option<Demand>, telescopes: &[Device]) -> Vec<BenchRow> {
    let (Some(viewer), Some(demand)) = (viewer, demand) else { return Vec::new() };
    let mut rows: Vec<BenchRow> = Vec::new();
    let field = |row: &BenchRow| row.outcome.as_ref().map_or(0.0, |outcome| outcome.real_field.degrees());
    for device in telescopes {
        let outcome =
            device.telescope().and_then(|telescope| evaluate_telescope(&telescope, viewer, &demand));
        let row = BenchRow { device: device.clone(), outcome };
        // Put in its place one by one: the list is short, and a sort of the library takes more room on the page.
        let comes_after = |other: &BenchRow| {
            let power = other.device.power_times.total_cmp(&device.power_times);
            power.then(field(&row).total_cmp(&field(other))).is_gt()
        };
        let place = rows.iter().position(comes_after).unwrap_or(rows.len());
        rows.insert(place, row);
    }
    rows
}

pub(super) fn lowest(rows: &[BenchRow]) -> Option<usize> {
    rows.iter().position(BenchRow::serves)
}

impl Explain for PowerRow {
    fn steps(&self) -> Vec<Step> {
        let mut steps = self.prediction.steps();
        steps.push(Step::formula(
            &formula::REAL_FIELD_RULE,
            Named::new("r", self.usual_field.degrees(), Unit::Degree),
            [Named::new("M", self.power, Unit::Times)],
        ));
        steps
    }
}
