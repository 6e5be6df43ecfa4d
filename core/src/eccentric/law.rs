//! How the least detail grows with eccentricity: laws and figures as data.
//!
//! Letters are five details high, so the least detail is a fifth of the least letter height. All of it is measured on
//! healthy eyes.

use crate::source::{self, Source};
use crate::unit::Angle;

/// The form in which a law was published.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Form {
    /// Least letter height: `centre + growth·E`.
    LetterHeight {
        /// Height where the straight line meets the fovea; below zero where the line does not hold there.
        centre: Angle,
        /// Height gained per eccentricity, degree for degree; a pure ratio.
        growth: f64,
    },
    /// Least detail: `MAR_0·(1 + E/E_2)`.
    Doubling {
        /// Least detail at the fovea.
        mar_0: Angle,
        /// Eccentricity at which the least detail is twice that of the fovea.
        e2: Angle,
    },
}

/// How the least detail of letters grows with eccentricity.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Law {
    /// Stable key.
    pub id: &'static str,
    /// What was measured.
    pub about: &'static str,
    /// The law.
    pub form: Form,
    /// Least eccentricity at which the source says it holds.
    pub holds_from: Angle,
    /// Least eccentricity at which it is used here, not below `holds_from`.
    pub used_from: Angle,
    /// Where it comes from.
    pub source: &'static Source,
}

impl Law {
    /// The least detail at an eccentricity; zero or less where the law cannot hold.
    ///
    /// ```
    /// use arcminute_core::eccentric::laws;
    /// use arcminute_core::unit::Angle;
    /// // Song, Levi & Pelli 2014: 0.029 * (10 + 2.72) degrees of letter, a fifth of it in minutes (computed).
    /// let [song, ..] = laws();
    /// assert!((song.mar_at(Angle::from_degrees(10.0)).arcmin() - 4.42656).abs() < 1e-12);
    /// ```
    #[must_use]
    pub fn mar_at(&self, eccentricity: Angle) -> Angle {
        match self.form {
            Form::LetterHeight { centre, growth } => (centre + eccentricity * growth) / 5.0,
            Form::Doubling { mar_0, e2 } => mar_0 * (1.0 + eccentricity / e2),
        }
    }

    /// The least detail at the fovea; `None` where the law does not reach it.
    ///
    /// ```
    /// use arcminute_core::eccentric::laws;
    /// let [song, anstis, _] = laws();
    /// // Song, Levi & Pelli 2014: a fifth of 0.029 * 2.72 degrees, 0.95 minutes (computed).
    /// assert!((song.foveal_mar().unwrap_or_default().arcmin() - 0.95).abs() < 0.005);
    /// assert_eq!(anstis.foveal_mar(), None);
    /// ```
    #[must_use]
    pub fn foveal_mar(&self) -> Option<Angle> {
        (self.holds_from == Angle::ZERO).then(|| self.mar_at(Angle::ZERO))
    }

    /// The eccentricity at which the least detail has doubled; `None` where the law does not reach the fovea.
    ///
    /// ```
    /// use arcminute_core::eccentric::laws;
    /// let [song, _, halved] = laws();
    /// // Song, Levi & Pelli 2014: 2.72 degrees; Ludvigh 1941: 1.75.
    /// let degrees = [song, halved].map(|law| law.e2().unwrap_or_default().degrees());
    /// assert!((degrees[0] - 2.72).abs() < 1e-12 && (degrees[1] - 1.75).abs() < 1e-12);
    /// ```
    #[must_use]
    pub fn e2(&self) -> Option<Angle> {
        self.foveal_mar()?;
        Some(match self.form {
            Form::LetterHeight { centre, growth } => centre / growth,
            Form::Doubling { e2, .. } => e2,
        })
    }
}

/// The laws of unflanked letters that a best case is the range over.
///
/// * Song, Levi & Pelli ([`source::SONG_2014`]): `0.029·(E + 2.72)` degrees of letter height.
/// * Anstis ([`source::ANSTIS_1974`], from memory): `0.046·E − 0.031` degrees, said to hold from about 2 degrees; used
///   from 5, because nearer it would promise more than the other laws do, below 2.4 degrees more than the fovea gives.
/// * Letters whose acuity is halved at 1.75 degrees ([`source::LUDVIGH_1941`]), with 1 minute at the fovea, assumed.
///
/// ```
/// use arcminute_core::{eccentric::laws, unit::Angle};
/// // At 10 degrees they ask for 4.4, 5.1 and 6.7 minutes of detail (computed).
/// let details = laws().map(|law| law.mar_at(Angle::from_degrees(10.0)).arcmin());
/// assert_eq!(details.map(|detail| (detail * 10.0).round() / 10.0), [4.4, 5.1, 6.7]);
/// ```
#[must_use]
pub fn laws() -> [Law; 3] {
    let degrees = Angle::from_degrees;
    [
        Law {
            id: "song-2014",
            about: "letters without neighbours",
            form: Form::LetterHeight { centre: degrees(0.029 * 2.72), growth: 0.029 },
            holds_from: Angle::ZERO,
            used_from: Angle::ZERO,
            source: &source::SONG_2014,
        },
        Law {
            id: "anstis-1974",
            about: "letters without neighbours, from memory",
            form: Form::LetterHeight { centre: degrees(-0.031), growth: 0.046 },
            holds_from: degrees(2.0),
            used_from: degrees(5.0),
            source: &source::ANSTIS_1974,
        },
        Law {
            id: "halved-at-1.75",
            about: "letters, acuity halved at 1.75 degrees; 1 minute at the fovea assumed",
            form: Form::Doubling { mar_0: Angle::from_arcmin(1.0), e2: degrees(1.75) },
            holds_from: Angle::ZERO,
            used_from: Angle::ZERO,
            source: &source::LUDVIGH_1941,
        },
    ]
}

/// An eccentricity of doubling that was published; without its foveal threshold it is no law
/// ([`source::PERIPHERY_REVIEW`]).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Doubling {
    /// Stable key.
    pub id: &'static str,
    /// What doubles.
    pub task: &'static str,
    /// Where it comes from.
    pub source: &'static Source,
    degrees: (f64, f64),
}

impl Doubling {
    /// Least and greatest eccentricity of doubling; the same twice where one figure was given.
    ///
    /// ```
    /// use arcminute_core::eccentric::DOUBLING;
    /// let row = DOUBLING.iter().find(|row| row.id == "landolt-rings").expect("in the table");
    /// assert_eq!(row.e2().0.degrees(), 0.5);
    /// ```
    #[must_use]
    pub fn e2(&self) -> (Angle, Angle) {
        (Angle::from_degrees(self.degrees.0), Angle::from_degrees(self.degrees.1))
    }
}

macro_rules! doublings {
    ($($id:literal, $task:literal, $least:literal to $most:literal, $source:ident;)+) => {
        /// Eccentricities of doubling by task: they spread from half a degree to three.
        pub static DOUBLING: &[Doubling] =
            &[$(Doubling { id: $id, task: $task, source: &source::$source, degrees: ($least, $most) }),+];
    };
}

doublings! {
    "letters", "letters without neighbours", 2.72 to 2.72, SONG_2014;
    "chart-letters", "letters of a chart, acuity halved", 1.75 to 1.75, LUDVIGH_1941;
    "landolt-rings", "broken rings, acuity halved", 0.5 to 0.5, JONES_HIGGINS_1947;
    "least-angle", "least angle told apart", 1.746 to 1.746, COWEY_ROLLS_1974;
    "scaled-gratings", "gratings, scaled", 3.0 to 3.0, ROVAMO_VIRSU_1979;
    "cortex-lesions", "map of the visual cortex, from lesions", 0.75 to 0.75, CORTICAL_E2;
    "cortex-imaging", "map of the visual cortex, from imaging", 0.83 to 0.83, CORTICAL_E2;
    "cortex-imaging-2", "map of the visual cortex, from imaging, second work", 0.785 to 0.785, CORTICAL_E2;
    "cortex-evoked", "map of the visual cortex, from evoked potentials, 0.50 plus or minus 0.08", 0.42 to 0.58, CORTICAL_E2;
    "position", "position of lines (vernier), about", 0.6 to 0.8, LEVI_1985;
    "gratings", "gratings, about", 2.5 to 2.5, LEVI_1985;
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::source::Standing;
    use alloc::collections::BTreeSet;

    #[test]
    fn the_laws_are_what_was_published() {
        let [song, anstis, halved] = laws();
        let close = |got: Angle, degrees: f64| (got.degrees() - degrees).abs() < 1e-12;
        assert!(close(song.e2().expect("reaches the fovea"), 2.72), "E2 of Song");
        assert!(
            (song.foveal_mar().expect("reaches the fovea").arcmin() - 12.0 * 0.029 * 2.72).abs() < 1e-12,
            "a fifth of the height, in minutes"
        );
        assert!(close(halved.e2().expect("reaches the fovea"), 1.75), "E2 of the halving");
        assert!((halved.foveal_mar().expect("reaches it").arcmin() - 1.0).abs() < 1e-12, "1 minute");
        assert_eq!((anstis.foveal_mar(), anstis.e2()), (None, None), "the line does not hold at the fovea");
        assert!(close(anstis.mar_at(Angle::from_degrees(10.0)) * 5.0, 0.429), "0.046 * 10 - 0.031");
        assert_eq!(anstis.source.standing, Standing::FromMemory);
        for law in [song, halved] {
            let doubled = law.mar_at(law.e2().expect("reaches it")) / law.mar_at(Angle::ZERO);
            assert!((doubled - 2.0).abs() < 1e-12, "{}: {doubled} at its E2", law.id);
        }
    }

    #[test]
    fn no_law_is_used_where_its_source_does_not_hold_it_or_where_it_beats_the_fovea() {
        for law in laws() {
            assert!(law.holds_from <= law.used_from, "{}", law.id);
            assert!(0.9 < law.mar_at(law.used_from).arcmin(), "{} promises more than a fovea", law.id);
        }
    }

    #[test]
    fn the_figures_have_keys_and_run_from_half_a_degree_to_three() {
        let ids: BTreeSet<_> = DOUBLING.iter().map(|row| row.id).collect();
        assert_eq!((ids.len(), DOUBLING.len()), (11, 11), "a key stands twice or a row is lost");
        assert!(
            DOUBLING.iter().all(|row| row.e2().0 <= row.e2().1 && row.e2().1 <= Angle::from_degrees(3.0)),
            "in order"
        );
    }
}
