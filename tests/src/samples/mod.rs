//! One sample of every result that can show its working, so that every formula has an example with numbers.
//!
//! The inputs are invented and ordinary. The results are those of the core; a sheet that prints them can be no older
//! than the code.

mod acuity;
mod aids;
mod fitting;
mod light;
mod magnifiers;
mod optics;
mod print;
mod screens;
mod seeing;
mod telescopes;
mod trials;
mod two_eyes;

use arcminute_core::Error;
use arcminute_core::explain::{Explain, Formula, Step};

/// The steps of the samples, in the order in which they were taken.
#[derive(Clone, Debug, Default)]
pub struct Samples {
    steps: Vec<Step>,
}

impl Samples {
    /// All of them.
    ///
    /// # Errors
    /// That of the first sample whose inputs the core refuses; none, as long as the tests pass.
    pub fn all() -> Result<Self, Error> {
        let mut samples = Self::default();
        acuity::take(&mut samples)?;
        print::take(&mut samples)?;
        seeing::take(&mut samples)?;
        light::take(&mut samples)?;
        optics::take(&mut samples)?;
        telescopes::take(&mut samples)?;
        magnifiers::take(&mut samples)?;
        aids::take(&mut samples)?;
        screens::take(&mut samples)?;
        two_eyes::take(&mut samples)?;
        trials::take(&mut samples)?;
        fitting::take(&mut samples)?;
        Ok(samples)
    }

    fn add(&mut self, result: &dyn Explain) {
        self.steps.extend(result.steps());
    }

    fn push(&mut self, step: Step) {
        self.steps.push(step);
    }

    /// Every step.
    #[must_use]
    pub fn steps(&self) -> &[Step] {
        &self.steps
    }

    /// The first step that uses a formula.
    #[must_use]
    pub fn first(&self, wanted: &Formula) -> Option<&Step> {
        self.steps
            .iter()
            .find(|step| matches!(step, Step::Formula { formula, .. } if formula.id == wanted.id))
    }
}
