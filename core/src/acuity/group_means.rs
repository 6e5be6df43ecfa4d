//! Acuities that studies measured in people who were recorded as counting fingers or seeing a hand move.
//!
//! Group means, never used unless asked for by name, and shown with their source and
//! [`Caution::GroupMean`](super::cautions::Caution::GroupMean). Light perception and none have no number: what was
//! measured there was guessing. The two studies differ by 0.13 log for fingers, shown at another distance.

use super::Category;
use crate::error::{Error, Why};
use crate::list::List;
use crate::math;
use crate::source::{self, Source};
use crate::unit::{Length, LogMar};

/// What the people of a group could do.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Seen {
    /// Fingers.
    Fingers,
    /// A hand that moves.
    Hand,
}

/// One mean.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct GroupMean {
    /// Stable key.
    pub id: &'static str,
    /// What the people could do.
    pub seen: Seen,
    /// How many.
    pub people: u8,
    /// Where it was published.
    pub source: &'static Source,
    log: f64,
    fingers_cm: Option<f64>,
    spread: Option<f64>,
    retest: Option<f64>,
}

impl GroupMean {
    /// The mean.
    ///
    /// ```
    /// use arcminute_core::acuity::group_means::FINGERS_LANGE;
    /// assert_eq!(FINGERS_LANGE.log_mar().log(), 1.98);
    /// ```
    #[must_use]
    pub fn log_mar(&self) -> LogMar {
        LogMar::from_log(self.log)
    }
    /// Eye to fingers, if the study says.
    ///
    /// ```
    /// use arcminute_core::acuity::group_means::{FINGERS_LANGE, FINGERS_SCHULZE_BONSEL};
    /// // Schulze-Bonsel et al. 2006: fingers at 30 cm.
    /// let distance = FINGERS_SCHULZE_BONSEL.fingers_distance().unwrap_or_default();
    /// assert!((distance.cm() - 30.0).abs() < 1e-12);
    /// assert_eq!(FINGERS_LANGE.fingers_distance(), None);
    /// ```
    #[must_use]
    pub fn fingers_distance(&self) -> Option<Length> {
        self.fingers_cm.map(Length::from_cm)
    }
    /// Standard deviation of the group, if it was printed as a logarithm.
    ///
    /// ```
    /// use arcminute_core::acuity::group_means::{FINGERS_LANGE, HAND_SCHULZE_BONSEL};
    /// // Lange et al. 2009; the other work prints the range of its decimals.
    /// assert_eq!(FINGERS_LANGE.spread().map(|spread| spread.log()), Some(0.24));
    /// assert_eq!(HAND_SCHULZE_BONSEL.spread(), None);
    /// ```
    #[must_use]
    pub fn spread(&self) -> Option<LogMar> {
        self.spread.map(LogMar::from_log)
    }
    /// 95 % limit of repeats, above zero, if it was measured.
    ///
    /// ```
    /// use arcminute_core::acuity::group_means::HAND_LANGE;
    /// // Lange et al. 2009: repeats of hand motion differ by up to three lines.
    /// assert_eq!(HAND_LANGE.retest_limit().map(|limit| limit.log()), Some(0.31));
    /// ```
    #[must_use]
    pub fn retest_limit(&self) -> Option<LogMar> {
        self.retest.map(LogMar::from_log)
    }
}

/// Fingers at 30 cm: `−log10(0.014)`; decimals ran from 0.010 to 0.020.
pub static FINGERS_SCHULZE_BONSEL: GroupMean = GroupMean {
    id: "fingers-schulze-bonsel",
    seen: Seen::Fingers,
    people: 6,
    source: &source::SCHULZE_BONSEL_2006,
    log: 1.853_871_964_321_762,
    fingers_cm: Some(30.0),
    spread: None,
    retest: None,
};
/// Fingers, at another distance than 30 cm.
pub static FINGERS_LANGE: GroupMean = GroupMean {
    id: "fingers-lange",
    seen: Seen::Fingers,
    people: 15,
    source: &source::LANGE_2009,
    log: 1.98,
    fingers_cm: None,
    spread: Some(0.24),
    retest: Some(0.21),
};
/// Hand motion: `−log10(0.005)`; decimals ran from 0.003 to 0.009.
pub static HAND_SCHULZE_BONSEL: GroupMean = GroupMean {
    id: "hand-schulze-bonsel",
    seen: Seen::Hand,
    people: 12,
    source: &source::SCHULZE_BONSEL_2006,
    log: 2.301_029_995_663_981,
    fingers_cm: None,
    spread: None,
    retest: None,
};
/// Hand motion, the second study.
pub static HAND_LANGE: GroupMean = GroupMean {
    id: "hand-lange",
    seen: Seen::Hand,
    people: 15,
    source: &source::LANGE_2009,
    log: 2.28,
    fingers_cm: None,
    spread: Some(0.15),
    retest: Some(0.31),
};

/// All of them.
pub static ALL: [&GroupMean; 4] =
    [&FINGERS_SCHULZE_BONSEL, &FINGERS_LANGE, &HAND_SCHULZE_BONSEL, &HAND_LANGE];

/// The means that were published for people recorded so, side by side; the caller asks for them by name.
///
/// For fingers only where one of the studies showed them, 25 to 35 cm; the other study is listed beside it.
///
/// Sources: [`crate::source::SCHULZE_BONSEL_2006`],
/// [`crate::source::LANGE_2009`].
///
/// # Errors
/// [`Why::NotUsableInSum`] for light perception and none, and for fingers at another or no recorded distance.
///
/// # Example
/// ```
/// use arcminute_core::acuity::{Category, group_means::group_means};
/// let means = group_means(&Category::HandMotion { distance: None })?;
/// let logs: Vec<f64> = means.iter().map(|mean| (mean.log_mar().log() * 100.0).round() / 100.0).collect();
/// assert_eq!(logs, [2.30, 2.28]);
/// assert!(group_means(&Category::NoLightPerception).is_err());
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn group_means(category: &Category) -> Result<List<&'static GroupMean, 2>, Error> {
    match category {
        Category::CountsFingers { distance: Some(distance) }
            if math::abs(distance.m() - 0.3) <= 0.05 + 1e-9 =>
        {
            Ok([&FINGERS_SCHULZE_BONSEL, &FINGERS_LANGE].into())
        }
        Category::HandMotion { .. } => Ok([&HAND_SCHULZE_BONSEL, &HAND_LANGE].into()),
        _ => Err(Error::about("acuity", format_args!("{category}"), Why::NotUsableInSum)),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use alloc::string::ToString;
    use alloc::vec;
    use alloc::vec::Vec;

    #[test]
    fn fingers_have_means_near_thirty_centimetres_only() {
        let ids = |cm: f64| {
            let fingers = Category::CountsFingers { distance: Some(Length::from_cm(cm)) };
            group_means(&fingers).map(|means| means.iter().map(|mean| mean.id).collect::<Vec<_>>())
        };
        for cm in [25.0, 30.0, 35.0] {
            assert_eq!(ids(cm), Ok(vec!["fingers-schulze-bonsel", "fingers-lange"]), "{cm} cm");
        }
        for cm in [24.9, 35.1, 100.0, f64::NAN] {
            assert!(ids(cm).is_err(), "{cm} cm");
        }
        let error = group_means(&Category::CountsFingers { distance: None }).expect_err("no distance");
        assert_eq!(
            error.to_string(),
            "acuity `CF` is a category, not a size, and cannot be used in this sum"
        );
        for category in [Category::LightPerception, Category::NoLightPerception] {
            let error = group_means(&category).expect_err("no number exists");
            assert_eq!(error.why, Why::NotUsableInSum, "{category}");
        }
    }

    #[test]
    fn the_first_of_them_is_the_published_mean() {
        for category in [
            Category::CountsFingers { distance: Some(Length::from_cm(30.0)) },
            Category::HandMotion { distance: None },
        ] {
            let (mean, source) = category.published_mean().expect("published");
            let means = group_means(&category).expect("published");
            let first = means.first().expect("two studies");
            assert!(math::abs((first.log_mar() - mean).log()) < 1e-12, "{category}");
            assert_eq!(first.source.id, source.id, "{category}");
        }
    }

    #[test]
    fn what_a_study_did_not_print_is_not_there() {
        for mean in ALL {
            let second = mean.source.id == source::LANGE_2009.id;
            assert_eq!(mean.spread().is_some(), second, "{}", mean.id);
            assert_eq!(mean.retest_limit().is_some(), second, "{}", mean.id);
        }
        let distance = FINGERS_SCHULZE_BONSEL.fingers_distance().expect("it says");
        assert!(math::abs(distance.cm() - 30.0) < 1e-12, "30 cm");
        assert_eq!(FINGERS_LANGE.fingers_distance(), None);
    }
}
