//! Accommodation by age, and the addition that is left: published and computed values.

use crate::support::rounds_to;
use arcminute_core::Error;
use arcminute_core::accommodation::{
    CAUTIONS, EVIDENCE, MEASURED, USABLE_SHARE, add_needed, amplitude_at_age, usable,
};
use arcminute_core::unit::{Age, Vergence};

fn d(power: f64) -> Vergence {
    Vergence::from_dioptres(power)
}

/// Source: Hofstetter's formulas, as quoted in many texts; the cut at zero is ours.
#[test]
fn near_case_12_three_ages() -> Result<(), Error> {
    for (years, least, mean) in [(10.0, "12.50", "15.50"), (45.0, "3.75", "5.00"), (62.0, "0.00", "0.00")] {
        let amplitude = amplitude_at_age(Age::from_years(years))?;
        rounds_to(amplitude.least.dioptres(), least);
        rounds_to(amplitude.mean.dioptres(), mean);
        assert_eq!(amplitude.past_formulas, 60.0 < years, "{years} years");
    }
    rounds_to(amplitude_at_age(Age::from_years(10.0))?.most.dioptres(), "21.00");
    Ok(())
}

/// Source: Clin Exp Optom 2018 (5444 children, mean age 9.24 years) and Park et al. 2019, `PLoS ONE` 14(11).
#[test]
fn measured_means_beside_the_formula() -> Result<(), Error> {
    for (row, measured, expected) in MEASURED
        .iter()
        .zip([("14.44", "15.73"), ("11.13", "11.00"), ("5.53", "5.00")])
        .map(|(row, (measured, expected))| (row, measured, expected))
    {
        rounds_to(row.mean().dioptres(), measured);
        rounds_to(amplitude_at_age(row.age())?.mean.dioptres(), expected);
    }
    Ok(())
}

/// Source: computed: a child of ten with the least amplitude expected and half of it in use.
#[test]
fn what_a_child_of_ten_reaches_unaided() -> Result<(), Error> {
    let least = amplitude_at_age(Age::from_years(10.0))?.least;
    let child = usable(least, USABLE_SHARE)?;
    rounds_to(child.usable.dioptres(), "6.25");
    rounds_to(child.nearest.expect("it reaches something").cm(), "16.0");
    rounds_to(add_needed(d(10.0), child.usable)?.add.dioptres(), "3.75");
    rounds_to(add_needed(d(5.0), child.usable)?.add.dioptres(), "0.00");
    Ok(())
}

/// Source: Millodot & Millodot 1989, Ophthalmic Physiol Opt 9:126; Wolffsohn et al. 2011, Ophthalmic Physiol Opt 31:480;
/// ARVO abstract, IOVS article 2369754.
#[test]
fn the_evidence_for_half_is_divided() {
    for (row, percent) in EVIDENCE.iter().zip(["50.7", "80.6"]) {
        rounds_to(100.0 * row.share, percent);
    }
    let ids: Vec<&str> = CAUTIONS.iter().map(|caution| caution.id).collect();
    let wanted = [
        "subjective-exceeds-objective-by-0.2-to-1.1-D",
        "push-up-reads-23-percent-above-other-subjective-methods",
        "after-about-52-years-it-is-depth-of-focus",
    ];
    assert_eq!(ids, wanted);
}
