//! The working of a trial.

use super::{Explanation, Grounds, OffCentre, TrialVerdict};
use crate::explain::{Explain, Named, Step, Unit, formula};
use crate::source;
use crate::unit::{Length, LogMar};
use alloc::vec::Vec;

fn log(symbol: &'static str, acuity: LogMar) -> Named {
    Named::new(symbol, acuity.log(), Unit::LogMar)
}

impl Explain for TrialVerdict {
    fn steps(&self) -> Vec<Step> {
        let difference = log("d", self.difference);
        let inputs = [log("logMAR_measured", self.measured), log("logMAR_with", self.prediction.with_aid)];
        let mut steps = self.prediction.steps();
        steps.push(Step::formula(&formula::TRIAL_DIFFERENCE, difference, inputs));
        let limit = log("limit", self.prediction.retest_limit);
        steps.push(Step::formula(&formula::TRIAL_BEYOND, log("beyond", self.beyond), [difference, limit]));
        for explanation in &self.explanations {
            steps.extend(explanation.steps_of(self.prediction.now));
        }
        steps
    }
}

impl Explanation {
    fn steps_of(&self, now: LogMar) -> Vec<Step> {
        match self.grounds {
            Grounds::Blur(blurred) => blurred.steps(),
            Grounds::OffCentre(left) => left.steps(),
            Grounds::Contrast(reserve) => reserve.steps(),
            Grounds::Motion(motion) => {
                let mut steps = motion.steps();
                let loss = Named::new("loss", motion.loss, Unit::Times);
                steps.extend(self.effect.map(|effect| {
                    Step::formula(&formula::SLIP_LOSS_IN_LOG, log("loss_log", effect), [loss])
                }));
                steps
            }
            Grounds::SteadyUpTo(steady) => steady.steps(),
            Grounds::Eccentric(floor) => {
                let mut steps = floor.steps();
                let inputs = [log("logMAR_floor", floor.best), log("logMAR_now", now)];
                steps.extend(
                    self.effect
                        .map(|effect| Step::formula(&formula::SHORT_OF_FLOOR, log("short", effect), inputs)),
                );
                steps
            }
            Grounds::LightShare(_) | Grounds::NotGiven => Vec::new(),
        }
    }
}

impl Explain for OffCentre {
    fn steps(&self) -> Vec<Step> {
        let mm = |symbol, length: Length| Named::new(symbol, length.mm(), Unit::Millimetre);
        let (sum, difference) = (self.exit_pupil + self.pupil, self.exit_pupil - self.pupil);
        let (apart, source) = (self.apart.abs() * 2.0, &source::GEOMETRY);
        alloc::vec![if apart <= difference.abs() {
            Step::Rule { because: "one-pupil-inside-the-other", source }
        } else if sum <= apart {
            Step::Rule { because: "pupils-do-not-meet", source }
        } else {
            Step::formula(
                &formula::OFF_CENTRE_SHARE,
                Named::new("share", self.share, Unit::Plain),
                [mm("E", self.exit_pupil), mm("p", self.pupil), mm("c", self.apart.abs())],
            )
        }]
    }
}
