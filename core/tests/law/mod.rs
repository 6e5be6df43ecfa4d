//! How a law is put to random inputs.

mod cases;

use arcminute_core::explain::Explain;
use proptest::prelude::*;
use proptest::test_runner::{Config, RngAlgorithm, TestCaseError, TestRng, TestRunner};

/// Random inputs for each law.
pub(crate) const CASES: u32 = cases::cases(100_000);
/// Same inputs in each run; change it to try others.
const SEED: [u8; 32] = *b"arcminute: engine, closed forms.";
/// Greatest relative difference of the two roads.
pub(crate) const SAME: f64 = 1e-9;

pub(crate) type Verdict = Result<(), TestCaseError>;

/// `Err` with the smallest input found that breaks the law.
pub(crate) fn tried<S: Strategy>(
    cases: u32,
    inputs: S,
    law: impl Fn(S::Value) -> Verdict,
) -> Result<(), String> {
    let config = Config {
        cases,
        failure_persistence: None,
        max_local_rejects: u32::MAX,
        max_global_rejects: u32::MAX,
        ..Config::default()
    };
    let mut runner = TestRunner::new_with_rng(config, TestRng::from_seed(RngAlgorithm::ChaCha, &SEED));
    runner.run(&inputs, law).map_err(|failure| format!("{failure}\nseed: {SEED:?}"))
}

#[track_caller]
pub(crate) fn holds<S: Strategy>(inputs: S, law: impl Fn(S::Value) -> Verdict) {
    if let Err(failure) = tried(CASES, inputs, law) {
        panic!("{failure}");
    }
}

pub(crate) fn agree(what: &str, engine: f64, closed_form: f64) -> Verdict {
    let apart = (engine - closed_form).abs();
    prop_assert!(apart <= SAME * closed_form.abs(), "{what}: engine {engine}, closed form {closed_form}");
    Ok(())
}

/// For a difference that should vanish: small against what was subtracted.
pub(crate) fn vanishes(what: &str, rest: f64, scale: f64) -> Verdict {
    prop_assert!(rest.abs() <= SAME * scale.abs(), "{what}: {rest} left of {scale}");
    Ok(())
}

pub(crate) fn shows_its_working(result: &dyn Explain) -> Verdict {
    let steps = result.steps();
    prop_assert!(!steps.is_empty(), "a result has steps");
    for step in steps {
        step.check().map_err(TestCaseError::fail)?;
    }
    Ok(())
}
