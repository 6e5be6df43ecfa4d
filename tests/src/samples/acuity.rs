//! Samples: acuity and what is made of it.

use super::Samples;
use arcminute_core::Error;
use arcminute_core::acuity::functional::{
    Eyes, MeridianPoints, field_points, functional_acuity, functional_vision,
};
use arcminute_core::acuity::repeatability::{change_limit, repeatability};
use arcminute_core::acuity::{
    Acuity, Chart, Notation, Reading, TwoDistanceRule, grating_cut_off, mean_acuity, optotype, read_at,
    score_chart, score_two_distances,
};
use arcminute_core::unit::{Angle, Length, LogMar};

pub(super) fn take(to: &mut Samples) -> Result<(), Error> {
    let log = LogMar::from_log;
    let four_metres = Length::from_m(4.0);
    to.add(&Acuity::of(Notation::Feet { numerator: 20.0, denominator: 200.0, letters: -2 })?);
    to.add(&Acuity::of(Notation::Decimal(0.125))?);
    to.add(&Acuity::of(Notation::LogMar { value: log(0.3), letters: 0 })?);
    to.add(&Acuity::of(Notation::LetterScore(55.0))?);
    to.add(&score_chart(Chart::five_letters(log(1.0), four_metres), 17, Length::from_m(2.0))?);
    to.add(&read_at(log(0.9), four_metres, Length::from_m(1.0))?);
    to.add(&score_two_distances(12, Some(27), TwoDistanceRule::default())?);
    to.add(&mean_acuity(&[log(0.62), log(0.70), log(0.66)])?);
    to.add(&optotype(log(0.3), four_metres)?);
    to.add(&grating_cut_off(log(1.0))?);
    let read = |value| Acuity::of_log_mar(log(value)).map(Reading::Measured);
    let acuity = functional_acuity(Eyes { both: read(0.7)?, right: read(1.0)?, left: read(1.2)? })?;
    let field = |degrees| field_points([MeridianPoints::within(Angle::from_degrees(degrees))?; 10]);
    to.add(&functional_vision(acuity, Eyes { both: field(30.0)?, right: field(10.0)?, left: field(20.0)? }));
    to.add(&change_limit(log(0.10)));
    to.add(&repeatability(log(0.04)));
    Ok(())
}
