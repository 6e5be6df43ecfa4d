//! Samples: contrast, light, pupil and filters.

use super::Samples;
use arcminute_core::Error;
use arcminute_core::contrast::{
    Colour, LetterChart, Polarity, ScoringRule, StopRule, contrast_at_ratio, of_colours, of_luminances,
    of_reflectances, score_letters,
};
use arcminute_core::light::filter::{Stack, Tint, behind, uncoated};
use arcminute_core::light::{Eyes, field_area, from_lamp, page_light, pupil};
use arcminute_core::unit::{Age, Angle, Illuminance, Length, Luminance, LuminousIntensity};

pub(super) fn take(to: &mut Samples) -> Result<(), Error> {
    let candela = Luminance::from_candela_per_m2;
    to.add(&of_luminances(candela(100.0), candela(20.0))?);
    to.add(&of_reflectances(0.9, 0.1)?);
    let rule = ScoringRule { stop: StopRule::TwoOfThreeMissed, c_and_o_alike: true };
    to.add(&score_letters(LetterChart::triplets(), 24, rule)?);
    let dark = Colour::parse("#0a5078")?;
    to.add(&dark.light());
    to.add(&of_colours(Colour::WHITE, dark));
    to.add(&contrast_at_ratio(1.0, 4.5, Polarity::DarkOnLight)?);
    to.add(&contrast_at_ratio(0.02, 4.5, Polarity::LightOnDark)?);
    let lamp = LuminousIntensity::from_candela(500.0);
    to.add(&from_lamp(lamp, Length::from_m(0.5), Angle::from_degrees(60.0), Length::from_cm(5.0))?);
    to.add(&page_light(Illuminance::from_lux(500.0), 0.8)?);
    let field = field_area(Angle::from_degrees(60.0));
    to.add(&pupil(candela(100.0), field, Age::from_years(70.0), Eyes::Two)?);
    to.add(&Tint::of(0.15)?);
    to.add(&Stack::of(&[0.40, 0.50])?);
    to.add(&behind(candela(1000.0), 0.15)?);
    to.add(&uncoated(1.5, 2)?);
    Ok(())
}
