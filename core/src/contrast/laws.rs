//! Laws of contrast over random inputs.

#![expect(clippy::float_cmp, reason = "the very same number is wanted, not one near it")]

use super::*;
use crate::error::Error;
use crate::explain::Explain;
use crate::math::abs;
use crate::unit::{LogContrast, Luminance};
use proptest::prelude::*;
use proptest::test_runner::TestCaseError;

const CASES: u32 = crate::cases::cases(20_000);

fn ok<T>(result: Result<T, Error>) -> Result<T, TestCaseError> {
    result.map_err(|error| TestCaseError::fail(alloc::format!("{error}")))
}

fn shows_its_working(result: &dyn Explain) -> Result<(), TestCaseError> {
    for step in result.steps() {
        step.check().map_err(TestCaseError::fail)?;
    }
    Ok(())
}

fn colour() -> impl Strategy<Value = Colour> {
    any::<(u8, u8, u8)>().prop_map(|(red, green, blue)| Colour { red, green, blue })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: CASES, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn weber_and_michelson_are_inverse(ratio in 0.0..=1.0_f64, other in 0.0..=1.0_f64) {
        let weber = ok(Weber::from_ratio(ratio))?;
        let there = weber.michelson();
        prop_assert!(abs(there.weber().ratio() - ratio) <= 1e-15 , "back from Michelson {}", there.ratio());
        let michelson = ok(Michelson::from_ratio(ratio))?;
        let back = michelson.weber();
        prop_assert!((0.0..=1.0).contains(&back.ratio()), "{}", back.ratio());
        prop_assert!(abs(back.michelson().ratio() - ratio) <= 1e-15, "back from Weber {}", back.ratio());
        prop_assert!(there.ratio() <= ratio, "Michelson is never the greater");
        let second = ok(Weber::from_ratio(other))?;
        prop_assert_eq!(weber < second, ratio < other);
        if ratio + 1e-12 < other {
            prop_assert!(there < second.michelson(), "both rise together");
        }
    }

    #[test]
    fn threshold_and_sensitivity_are_inverse(log in 0.0..3.0_f64) {
        let threshold = ok(Weber::threshold_of(LogContrast::from_log(log)))?;
        let back = ok(threshold.as_threshold())?;
        prop_assert!(abs(back.log() - log) < 1e-12, "{} back from {log}", back.log());
    }

    #[test]
    fn luminances_measure_as_the_definitions_say(ground in 0.001..1e4_f64, letter in 0.0..1e4_f64, light in 0.01..10.0_f64) {
        let cd = Luminance::from_candela_per_m2;
        let found = ok(of_luminances(cd(ground), cd(letter)))?;
        let direct = abs(ground - letter) / (ground + letter);
        prop_assert!(abs(found.michelson.ratio() - direct) <= 1e-12, "Michelson of {ground} and {letter}");
        let swapped = ok(of_luminances(cd(letter), cd(ground)))?;
        prop_assert_eq!(swapped.weber, found.weber);
        let brighter = ok(of_luminances(cd(ground * light), cd(letter * light)))?;
        prop_assert!(abs(brighter.weber.ratio() - found.weber.ratio()) <= 1e-12, "light cancels");
        shows_its_working(&found)?;
    }

    #[test]
    fn reflectances_measure_as_luminances_in_the_same_light(paper in 0.001..=1.0_f64, ink in 0.0..=1.0_f64) {
        let found = ok(of_reflectances(paper, ink))?;
        let cd = Luminance::from_candela_per_m2;
        let lit = ok(of_luminances(cd(250.0 * paper), cd(250.0 * ink)))?;
        prop_assert!(abs(found.weber.ratio() - lit.weber.ratio()) <= 1e-12);
        prop_assert_eq!(found.polarity, lit.polarity);
        shows_its_working(&found)?;
    }

    #[test]
    fn ratio_is_symmetric_and_within_its_range(ground in colour(), letter in colour()) {
        let (there, back) = (of_colours(ground, letter), of_colours(letter, ground));
        prop_assert_eq!(there.ratio, back.ratio);
        prop_assert_eq!(there.with_flare, back.with_flare);
        prop_assert_eq!(there.without_flare, back.without_flare);
        prop_assert!((1.0..=21.0 + 1e-12).contains(&there.ratio), "{}", there.ratio);
        if let Some(dark) = there.without_flare {
            prop_assert!(there.with_flare.weber.ratio() <= dark.weber.ratio() + 1e-15, "flare takes contrast away");
        }
        prop_assert_eq!(there.polarity.is_none(), ground.light().luminance == letter.light().luminance);
        shows_its_working(&there)?;
    }

    #[test]
    fn ratio_rises_as_the_darker_colour_darkens(ground in colour(), part in 1..=255_u8, green in any::<u8>()) {
        let lighter = Colour { red: part, green, blue: part };
        let darker = Colour { red: part - 1, ..lighter };
        let (first, second) = (of_colours(ground, lighter), of_colours(ground, darker));
        if lighter.light().luminance <= ground.light().luminance {
            prop_assert!(first.ratio < second.ratio, "{lighter} and {darker} on {ground}");
        }
        if ground.light().luminance <= darker.light().luminance {
            prop_assert!(second.ratio < first.ratio, "{lighter} and {darker} on {ground}");
        }
    }

    #[test]
    fn a_ratio_means_what_its_colours_mean(ground in colour(), letter in colour()) {
        let colours = of_colours(ground, letter);
        let polarity = colours.polarity.unwrap_or(Polarity::DarkOnLight);
        let luminance = ground.light().luminance.min(1.0);
        let ratio = colours.ratio.min(21.0);
        let meaning = ok(contrast_at_ratio(luminance, ratio, polarity))?;
        prop_assert!(abs(meaning.letter - letter.light().luminance) < 1e-12, "luminance of {letter}");
        prop_assert!(abs(meaning.with_flare.weber.ratio() - colours.with_flare.weber.ratio()) < 1e-12);
        if let (Some(one), Some(other)) = (meaning.without_flare, colours.without_flare)
            && 1e-3 < ground.light().luminance.max(letter.light().luminance)
        {
            prop_assert!(abs(one.weber.ratio() - other.weber.ratio()) < 1e-9, "without flare, {letter}");
        }
        shows_its_working(&meaning)?;
    }

    #[test]
    fn any_text_is_a_colour_or_refused(text in ".{0,12}|#[0-9a-fA-F]{0,8}") {
        if let Ok(colour) = Colour::parse(&text) {
            let written = alloc::format!("{colour}");
            prop_assert_eq!(Colour::parse(&written), Ok(colour));
            let digits = text.trim().len();
            prop_assert!(digits == 4 || digits == 7, "{text} was read as {written}");
            prop_assert!(digits == 4 || text.trim().eq_ignore_ascii_case(&written), "{text} was read as {written}");
        } else {
            let whole = text.strip_prefix('#').is_some_and(|rest| {
                (rest.len() == 3 || rest.len() == 6) && rest.chars().all(|digit| digit.is_ascii_hexdigit())
            });
            prop_assert!(!whole, "{text} was refused");
        }
    }
}
