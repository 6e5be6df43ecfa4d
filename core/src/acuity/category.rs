//! Counting fingers, hand motion, light perception: categories, not sizes.

use crate::bounds;
use crate::error::{Error, Text, Why};
use crate::math;
use crate::scan::Cursor;
use crate::source::{self, Source};
use crate::unit::{Length, LogMar};
use core::fmt;

/// What is recorded when no letter is read.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Category {
    /// Counts fingers.
    CountsFingers {
        /// Eye to fingers, if recorded.
        distance: Option<Length>,
    },
    /// Sees a hand move.
    HandMotion {
        /// Eye to hand, if recorded.
        distance: Option<Length>,
    },
    /// Sees light.
    LightPerception,
    /// Sees no light.
    NoLightPerception,
}

impl Category {
    /// The mean acuity that a published study measured in people of this category, and the study.
    ///
    /// A group mean, not this person's acuity: never used unless asked for, and shown with its source. Counting fingers
    /// has one near 30 cm only (25 to 35 cm), 1.854 logMAR of 6 people; hand motion 2.301 logMAR of 12 people;
    /// `−log10` of the published decimal means 0.014 and 0.005 ([`source::SCHULZE_BONSEL_2006`]). Another study found
    /// 1.98 and 2.28: [`group_means`](super::group_means) lists both.
    ///
    /// # Errors
    /// [`Why::NotUsableInSum`] for light perception and none, and for fingers at another or no recorded distance.
    ///
    /// # Example
    /// ```
    /// use arcminute_core::acuity::Category;
    /// use arcminute_core::unit::Length;
    /// let fingers = Category::CountsFingers { distance: Some(Length::from_cm(30.0)) };
    /// let (mean, source) = fingers.published_mean()?;
    /// assert!((mean.log() - 1.854).abs() < 5e-4);
    /// assert_eq!(source.id, "schulze-bonsel-2006");
    /// assert!(Category::LightPerception.published_mean().is_err());
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    pub fn published_mean(&self) -> Result<(LogMar, &'static Source), Error> {
        let decimal = match self {
            Self::CountsFingers { distance: Some(distance) }
                if math::abs(distance.m() - 0.3) <= 0.05 + 1e-9 =>
            {
                0.014
            }
            Self::HandMotion { .. } => 0.005,
            _ => return Err(Error::about("acuity", format_args!("{self}"), Why::NotUsableInSum)),
        };
        Ok((LogMar::from_log(-math::log10(decimal)), &source::SCHULZE_BONSEL_2006))
    }

    /// A category if one came next, with its distance.
    pub(super) fn read(cursor: &mut Cursor<'_>) -> Result<Option<Self>, Error> {
        const FINGERS: &[&str] =
            &["cf", "fc", "counts fingers", "counting fingers", "count fingers", "finger counting"];
        const HAND: &[&str] =
            &["hm", "hmm", "hand motion", "hand motions", "hand movement", "hand movements"];
        Ok(if cursor.phrase(FINGERS) {
            Some(Self::CountsFingers { distance: distance(cursor)? })
        } else if cursor.phrase(HAND) {
            Some(Self::HandMotion { distance: distance(cursor)? })
        } else if cursor.phrase(&["nlp", "npl", "no light perception", "no perception of light"]) {
            Some(Self::NoLightPerception)
        } else if cursor.phrase(&["lp", "pl", "light perception", "perception of light"]) {
            Some(Self::LightPerception)
        } else {
            None
        })
    }
}

fn distance(cursor: &mut Cursor<'_>) -> Result<Option<Length>, Error> {
    let announced = cursor.take('@') || cursor.phrase(&["at"]);
    let Some(number) = cursor.number() else {
        if announced {
            let why = Why::Missing { part: "a distance after it", example: "CF @ 1 m" };
            return Err(Error::new("distance of the hand", "@", why));
        }
        return Ok(None);
    };
    let Some(unit) = cursor.length_unit() else {
        let why = Why::Missing { part: "a unit", example: "CF 1 m" };
        return Err(Error::new("distance of the hand", number.text, why));
    };
    let length = unit.length(number.value);
    bounds::HAND_DISTANCE.check(length.m())?;
    Ok(Some(length))
}

impl fmt::Display for Category {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (name, distance) = match self {
            Self::CountsFingers { distance } => ("CF", *distance),
            Self::HandMotion { distance } => ("HM", *distance),
            Self::LightPerception => ("LP", None),
            Self::NoLightPerception => ("NLP", None),
        };
        write!(f, "{name}")?;
        // To the millimetre: 3 ft are 0.914 m.
        let Some(distance) = distance else { return Ok(()) };
        let metres = Text::of(format_args!("{:.3}", distance.m()));
        write!(f, " {} m", metres.as_str().trim_end_matches('0').trim_end_matches('.'))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use alloc::string::ToString;

    #[test]
    fn only_what_was_measured_has_a_mean() {
        for category in [
            Category::CountsFingers { distance: None },
            Category::CountsFingers { distance: Some(Length::from_m(1.0)) },
            Category::LightPerception,
            Category::NoLightPerception,
        ] {
            let error = category.published_mean().expect_err("no published mean");
            assert_eq!(error.why, Why::NotUsableInSum, "{category}");
        }
        let error = Category::NoLightPerception.published_mean().expect_err("no light perception");
        assert_eq!(
            error.to_string(),
            "acuity `NLP` is a category, not a size, and cannot be used in this sum"
        );
        assert_eq!(
            error.hint().to_string(),
            "enter an acuity measured with letters or rings, nearer if need be"
        );
    }

    #[test]
    fn is_written_with_its_distance() {
        let at = |m: f64| Category::HandMotion { distance: Some(Length::from_m(m)) }.to_string();
        assert_eq!(at(1.0), "HM 1 m");
        assert_eq!(at(0.3), "HM 0.3 m");
        assert_eq!(at(0.9144), "HM 0.914 m");
    }

    /// The published mean is of people who counted fingers at about 30 cm; 25 to 35 cm are taken for that.
    #[test]
    fn counted_fingers_have_a_mean_near_30_cm() -> Result<(), Error> {
        let fingers = |cm| Category::CountsFingers { distance: Some(Length::from_cm(cm)) }.published_mean();
        for cm in [25.0, 30.0, 35.0] {
            assert!((fingers(cm)?.0.log() - 1.854).abs() < 5e-4, "{cm} cm");
        }
        for cm in [24.9, 35.1] {
            let error = fingers(cm).expect_err("another distance");
            assert_eq!(error.why, Why::NotUsableInSum, "{cm} cm");
        }
        Ok(())
    }
}
