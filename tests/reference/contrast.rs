//! Contrast: ratios, letter charts, bands and colours, against published and computed values.

use crate::support::rounds_to;
use arcminute_core::Error;
use arcminute_core::contrast::{
    CRITERIA, Colour, LetterChart, Michelson, NORMS, POLARITY, Polarity, ScoringRule, StopRule, TYPICAL,
    Weber, bands_for, contrast_at_ratio, of_colours, of_luminances, of_reflectances, score_letters,
};
use arcminute_core::unit::{LogContrast, Luminance};

const RULE: ScoringRule = ScoringRule { stop: StopRule::TwoOfThreeMissed, c_and_o_alike: true };

/// Source: published example, 90 % paper with 10 % ink called "80 %", which is Michelson; Weber computed.
#[test]
fn paper_and_ink() -> Result<(), Error> {
    let print = of_reflectances(0.90, 0.10)?;
    rounds_to(print.michelson.ratio(), "0.80");
    rounds_to(print.weber.ratio(), "0.889");
    let lit = of_luminances(Luminance::from_candela_per_m2(90.0), Luminance::from_candela_per_m2(10.0))?;
    rounds_to(lit.weber.ratio(), "0.889");
    assert_eq!(lit.polarity, Some(Polarity::DarkOnLight));
    Ok(())
}

/// Source: computed from the definitions.
#[test]
fn conversions_between_the_two() -> Result<(), Error> {
    rounds_to(Weber::from_ratio(0.90)?.michelson().ratio(), "0.818");
    rounds_to(Michelson::from_ratio(0.50)?.weber().ratio(), "0.667");
    Ok(())
}

/// Source: Arditi 2005, IOVS 46:2225, 0.05 log a letter of triplets and 0.04 of single steps; values computed.
#[test]
fn letters_read_on_a_chart() -> Result<(), Error> {
    for (letters, log, percent) in
        [(36, "1.65", "2.24"), (24, "1.05", "8.9"), (48, "2.25", "0.56"), (3, "0.00", "100")]
    {
        let score = score_letters(LetterChart::triplets(), letters, RULE)?;
        rounds_to(score.sensitivity.log(), log);
        rounds_to(score.threshold.map_or(f64::NAN, |least| 100.0 * least.ratio()), percent);
    }
    let whole = score_letters(LetterChart::single_steps(), 48, RULE)?;
    rounds_to(whole.sensitivity.log(), "1.92");
    rounds_to(score_letters(LetterChart::single_steps(), 12, RULE)?.sensitivity.log(), "0.48");
    Ok(())
}

/// Source: conference review, IOS Press, volume article 14992, thresholds of 9 and 25 %; their logs computed.
#[test]
fn thresholds_for_reading() -> Result<(), Error> {
    rounds_to(Weber::from_ratio(0.09)?.as_threshold()?.log(), "1.05");
    rounds_to(Weber::from_ratio(0.25)?.as_threshold()?.log(), "0.60");
    let names = |percent: f64| {
        let log = LogContrast::of_threshold(percent / 100.0);
        bands_for(log)
            .filter(|band| band.name.ends_with("for reading"))
            .map(|band| band.name)
            .collect::<Vec<_>>()
    };
    assert_eq!(names(25.1), ["poor for reading", "very poor for reading"]);
    assert_eq!(names(25.0), ["poor for reading"]);
    assert_eq!(names(9.1), ["poor for reading"]);
    assert_eq!(names(9.0), [""; 0]);
    Ok(())
}

/// Source: Leat et al. 1999 (from memory), bands of the single-step chart (secondary copy): they disagree at 1.50.
#[test]
fn bands_disagree_and_show_it() {
    let names = |log: f64| bands_for(LogContrast::from_log(log)).map(|band| band.name).collect::<Vec<_>>();
    assert_eq!(names(1.48), ["impaired", "moderate loss"]);
    assert_eq!(names(1.52), ["normal above 60 years"]);
    assert_eq!(names(1.04), ["impaired", "disabling", "moderate loss", "poor for reading"]);
}

/// Source: Mäntyjärvi & Laitinen 2001, J Cataract Refract Surg 27:261, means by age.
#[test]
fn normal_sight() {
    let rows: Vec<_> = NORMS.iter().map(|norm| (norm.least().log(), norm.greatest().log())).collect();
    assert_eq!(rows, [(1.84, 1.84), (1.68, 1.68), (1.73, 1.99)]);
}

/// Source: W3C, WCAG 2.x, formulas; case T13 and its neighbours computed.
#[test]
fn acuity_case_t13_grey_on_white() -> Result<(), Error> {
    let grey = of_colours(Colour::WHITE, Colour::parse("#767676")?);
    rounds_to(grey.ratio, "4.5422");
    rounds_to(grey.letter.luminance, "0.18116");
    let dark = grey.without_flare.expect("there is light");
    rounds_to(dark.weber.ratio(), "0.8188");
    rounds_to(dark.michelson.ratio(), "0.6932");
    let met: Vec<_> = CRITERIA.iter().filter(|one| one.is_met(grey.ratio)).map(|one| one.id).collect();
    assert_eq!(met, ["large-aa", "text-aa"]);

    let next = of_colours(Colour::WHITE, Colour::parse("#777777")?);
    rounds_to(next.ratio, "4.4781");
    let met: Vec<_> = CRITERIA.iter().filter(|one| one.is_met(next.ratio)).map(|one| one.id).collect();
    assert_eq!(met, ["large-aa"], "it fails 4.5");
    rounds_to(of_colours(Colour::WHITE, Colour::parse("#FF0000")?).ratio, "3.9985");
    let greys = of_colours(Colour::parse("#CCC")?, Colour::parse("#333")?);
    rounds_to(greys.ratio, "7.8675");
    rounds_to(greys.without_flare.map_or(f64::NAN, |dark| dark.weber.ratio()), "0.9452");
    rounds_to(of_colours(Colour::WHITE, Colour::BLACK).ratio, "21.000");
    Ok(())
}

/// Source: W3C, WCAG 2.x, ratio solved for the letters; computed, without and with flare.
#[test]
fn what_a_ratio_on_white_is_as_contrast() -> Result<(), Error> {
    for (ratio, weber, michelson, veiled_weber, veiled_michelson) in [
        (3.0, "0.700", "0.538", "0.667", "0.500"),
        (4.5, "0.817", "0.690", "0.778", "0.636"),
        (7.0, "0.900", "0.818", "0.857", "0.750"),
        (21.0, "1.000", "1.000", "0.952", "0.909"),
    ] {
        let meaning = contrast_at_ratio(1.0, ratio, Polarity::DarkOnLight)?;
        let dark = meaning.without_flare.expect("white has light");
        rounds_to(dark.weber.ratio(), weber);
        rounds_to(dark.michelson.ratio(), michelson);
        rounds_to(meaning.with_flare.weber.ratio(), veiled_weber);
        rounds_to(meaning.with_flare.michelson.ratio(), veiled_michelson);
    }
    Ok(())
}

/// Source: Adams et al. 2021, Negiloni et al. 2019, Manandhar et al. 2022; print from memory.
#[test]
fn contrasts_of_things() {
    let found = |thing: &str| {
        let row = TYPICAL.iter().find(|row| row.thing == thing).expect("it is in the table");
        (row.least, row.greatest)
    };
    assert_eq!(found("marker on a whiteboard"), (Some(1.00), Some(1.00)));
    assert_eq!(found("projected board"), (Some(0.25), Some(0.71)));
    assert_eq!(found("chalk on a chalkboard, median"), (Some(0.40), Some(0.40)));
    assert_eq!(found("parts of a building, required"), (Some(0.30), None));
    assert_eq!(found("parts of a building, easily visible with severe loss"), (Some(0.65), None));
    assert_eq!(found("newsprint"), (Some(0.60), Some(0.70)));
    assert_eq!(found("paperback"), (Some(0.75), Some(0.80)));
    assert_eq!(found("laser print"), (Some(0.90), Some(0.90)));
    assert_eq!(found("banknotes"), (Some(0.50), Some(0.60)));
    assert_eq!(found("features of a face"), (None, Some(0.50)));
}

/// Source: Legge, Rubin & Luebker 1987, Vision Res 27:1165; Rubin & Legge 1989.
#[test]
fn light_letters_on_dark() {
    let rows: Vec<_> = POLARITY.iter().map(|row| (row.population, row.faster, row.cloudy_media)).collect();
    assert_eq!(rows, [("normal sight", None, None), ("low vision", Some((5, 19)), Some(4))]);
}
