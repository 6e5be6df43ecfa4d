//! What was published of prisms for the field, and what has to be said beside them.

use super::FieldPrismKind;
use crate::source::{self, Source};
use crate::unit::{Angle, LogMar, Luminance, Prism};

/// Something that was found of one kind of prism.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PrismFinding {
    /// Stable key.
    pub id: &'static str,
    /// The kind it was found of; `None` for all.
    pub kind: Option<FieldPrismKind>,
    /// What was found.
    pub finding: &'static str,
    /// Where it was published.
    pub source: &'static Source,
}

const fn found(
    id: &'static str,
    kind: Option<FieldPrismKind>,
    source: &'static Source,
    finding: &'static str,
) -> PrismFinding {
    PrismFinding { id, kind, finding, source }
}

/// What each kind does and does not ([`source::APFELBAUM_2013`], [`source::YOKED_PRISMS`]).
///
/// ```
/// use arcminute_core::device::{FieldPrismKind, PRISM_FINDINGS};
/// for kind in FieldPrismKind::ALL {
///     assert!(PRISM_FINDINGS.iter().any(|one| one.kind == Some(kind)));
/// }
/// ```
pub static PRISM_FINDINGS: [PrismFinding; 7] = [
    found(
        "full-yoked-no-expansion",
        Some(FieldPrismKind::FullYoked),
        &source::YOKED_PRISMS,
        "no real expansion, for the gaze re-centres by the shift",
    ),
    found(
        "sector-by-gaze",
        Some(FieldPrismKind::Sector),
        &source::APFELBAUM_2013,
        "expands only while the gaze enters the prism",
    ),
    found(
        "peripheral-by-gaze",
        Some(FieldPrismKind::Peripheral),
        &source::APFELBAUM_2013,
        "expands at nearly all angles of gaze; 57 prism dioptres by 30 degrees",
    ),
    found(
        "apical-scotoma",
        None,
        &source::APFELBAUM_2013,
        "what is lost at the apex is as wide as the shift",
    ),
    found(
        "low-contrast-letters",
        None,
        &source::CHENG_WOO_2001,
        "acuity falls more steeply with the power for letters of 10 % contrast",
    ),
    found(
        "lots-differ",
        None,
        &source::VERONNEAU_1978,
        "Fresnel prisms of 30 prism dioptres vary most from lot to lot",
    ),
    found(
        "little-noticed",
        None,
        &source::WOO_1992,
        "an eye whose contrast sensitivity is low already may notice little of a Fresnel prism",
    ),
];

/// A trial of prisms with the apexes towards each other on one eye, for tunnel vision.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ExpansionTrial {
    /// People; a count.
    pub people: u16,
    /// Of these, who kept the prisms at the end of the trial; a count.
    pub kept: u16,
    /// Of those, who still wore them long after; a count.
    pub long_term: u16,
    /// Where it was published.
    pub source: &'static Source,
}

impl ExpansionTrial {
    /// Median expansion of the field, 18 degrees.
    ///
    /// ```
    /// use arcminute_core::device::APEX_TO_APEX_TRIAL;
    /// assert_eq!(APEX_TO_APEX_TRIAL.expansion().degrees(), 18.0);
    /// ```
    #[must_use]
    pub fn expansion(&self) -> Angle {
        Angle::from_degrees(18.0)
    }
}

/// 12 people, 9 of whom kept them, 3 of those for long ([`source::WOODS_2010`]).
pub static APEX_TO_APEX_TRIAL: ExpansionTrial =
    ExpansionTrial { people: 12, kept: 9, long_term: 3, source: &source::WOODS_2010 };

/// What begins to count at a power.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum PrismLimit {
    /// A membrane Fresnel prism costs acuity, far.
    FresnelCosts,
    /// A solid prism of hard resin costs acuity, far.
    SolidCosts,
    /// A Fresnel prism is worse than a solid one, far.
    FresnelWorseFar,
    /// A Fresnel prism is worse than a solid one, near.
    FresnelWorseNear,
}

/// The power from which something was significant.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PrismLossLimit {
    /// What.
    pub limit: PrismLimit,
    /// Where it was published.
    pub source: &'static Source,
    prism_dioptres: f64,
}

impl PrismLossLimit {
    /// The power.
    ///
    /// ```
    /// use arcminute_core::device::PRISM_LOSS_LIMITS;
    /// assert_eq!(PRISM_LOSS_LIMITS[0].from().prism_dioptres(), 5.0);
    /// ```
    #[must_use]
    pub fn from(&self) -> Prism {
        Prism::from_prism_dioptres(self.prism_dioptres)
    }
}

const fn limit(limit: PrismLimit, prism_dioptres: f64, source: &'static Source) -> PrismLossLimit {
    PrismLossLimit { limit, source, prism_dioptres }
}

/// From which power acuity was lost ([`source::CHENG_WOO_2001`], [`source::VERONNEAU_1978`]); the second is of another
/// question and no correction of the first.
pub static PRISM_LOSS_LIMITS: [PrismLossLimit; 4] = [
    limit(PrismLimit::FresnelCosts, 5.0, &source::CHENG_WOO_2001),
    limit(PrismLimit::SolidCosts, 10.0, &source::CHENG_WOO_2001),
    limit(PrismLimit::FresnelWorseFar, 12.0, &source::VERONNEAU_1978),
    limit(PrismLimit::FresnelWorseNear, 15.0, &source::VERONNEAU_1978),
];

/// Loss of acuity through a solid prism over that through a Fresnel prism of the same power.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SolidOverFresnel {
    /// Least and greatest share; a pure ratio.
    pub share: (f64, f64),
    /// Where it was published.
    pub source: &'static Source,
    prism_dioptres: (f64, f64),
}

impl SolidOverFresnel {
    /// The powers, from and to; the same twice where there was one.
    ///
    /// ```
    /// use arcminute_core::device::SOLID_OVER_FRESNEL;
    /// // Cheng & Woo 2001: at 30 prism dioptres the solid prism costs 0.7 of what the Fresnel prism does.
    /// let [_, strong] = SOLID_OVER_FRESNEL;
    /// assert_eq!((strong.share.0, strong.powers().0.prism_dioptres()), (0.7, 30.0));
    /// ```
    #[must_use]
    pub fn powers(&self) -> (Prism, Prism) {
        let (from, to) = self.prism_dioptres;
        (Prism::from_prism_dioptres(from), Prism::from_prism_dioptres(to))
    }
}

/// About 0.8 to 0.9 up to 20 prism dioptres, 0.7 at 30: the Fresnel prism is worse at every power
/// ([`source::CHENG_WOO_2001`]).
///
/// ```
/// use arcminute_core::device::SOLID_OVER_FRESNEL;
/// assert!(SOLID_OVER_FRESNEL.iter().all(|row| row.share.1 < 1.0));
/// ```
pub static SOLID_OVER_FRESNEL: [SolidOverFresnel; 2] = [
    SolidOverFresnel { share: (0.8, 0.9), source: &source::CHENG_WOO_2001, prism_dioptres: (5.0, 20.0) },
    SolidOverFresnel { share: (0.7, 0.7), source: &source::CHENG_WOO_2001, prism_dioptres: (30.0, 30.0) },
];

/// What dim light costs through a prism besides, at every power, and the light: about 0.2 log at 1 cd/m²
/// ([`source::PRISM_IN_DIM_LIGHT`]).
///
/// ```
/// use arcminute_core::device::prism_loss_in_dim_light;
/// let (loss, light) = prism_loss_in_dim_light();
/// assert_eq!((loss.log(), light.candela_per_m2()), (0.2, 1.0));
/// ```
#[must_use]
pub fn prism_loss_in_dim_light() -> (LogMar, Luminance) {
    (LogMar::from_log(0.2), Luminance::from_candela_per_m2(1.0))
}

/// Why no loss of acuity is computed from the power of a prism.
pub const NO_LOSS_TABLE: &str =
    "no table of the acuity that prisms cost, in log units by power, was found; none is computed";

/// What has to be said beside a prism for the field; [`FieldPrismCaution::key`] is stable, the words are the page's.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum FieldPrismCaution {
    /// When the gaze enters the prism things jump, and the two eyes may see double.
    GazeIntoPrism,
    /// At the apex a band as wide as the shift is not seen: a person or a car can be in it.
    ApicalScotoma,
    /// A strong prism does not turn light as rated but by its incidence, to total reflection.
    RatingOfOneIncidence,
    /// A prism costs acuity and contrast, a Fresnel prism most.
    CostsAcuity,
    /// Nothing here says that anyone is fit to drive or to go about.
    NoFitnessVerdict,
}

impl FieldPrismCaution {
    /// All of them; each stands beside every prism for the field.
    pub const ALL: [Self; 5] = [
        Self::GazeIntoPrism,
        Self::ApicalScotoma,
        Self::RatingOfOneIncidence,
        Self::CostsAcuity,
        Self::NoFitnessVerdict,
    ];

    /// Its stable key.
    ///
    /// ```
    /// use arcminute_core::device::FieldPrismCaution;
    /// assert_eq!(FieldPrismCaution::ApicalScotoma.key(), "apical-scotoma");
    /// ```
    #[must_use]
    pub fn key(self) -> &'static str {
        match self {
            Self::GazeIntoPrism => "gaze-into-prism",
            Self::ApicalScotoma => "apical-scotoma",
            Self::RatingOfOneIncidence => "rating-of-one-incidence",
            Self::CostsAcuity => "costs-acuity",
            Self::NoFitnessVerdict => "no-fitness-verdict",
        }
    }

    /// The work that gives reason for it.
    ///
    /// ```
    /// use arcminute_core::device::FieldPrismCaution;
    /// assert_eq!(FieldPrismCaution::CostsAcuity.source().id, "cheng-woo-2001");
    /// ```
    #[must_use]
    pub fn source(self) -> &'static Source {
        match self {
            Self::GazeIntoPrism | Self::NoFitnessVerdict => &source::COMMON_PRACTICE,
            Self::ApicalScotoma => &source::APFELBAUM_2013,
            Self::RatingOfOneIncidence => &source::JUNG_PELI_2014,
            Self::CostsAcuity => &source::CHENG_WOO_2001,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn findings_and_where_they_stand() {
        let table = PRISM_FINDINGS.map(|one| (one.id, one.kind, one.source.id));
        let expected = [
            ("full-yoked-no-expansion", Some(FieldPrismKind::FullYoked), "yoked-prisms"),
            ("sector-by-gaze", Some(FieldPrismKind::Sector), "apfelbaum-2013"),
            ("peripheral-by-gaze", Some(FieldPrismKind::Peripheral), "apfelbaum-2013"),
            ("apical-scotoma", None, "apfelbaum-2013"),
            ("low-contrast-letters", None, "cheng-woo-2001"),
            ("lots-differ", None, "veronneau-troutman-1978"),
            ("little-noticed", None, "woo-1992"),
        ];
        assert_eq!(table, expected);
        assert!(NO_LOSS_TABLE.ends_with("none is computed"));
    }

    #[test]
    fn every_caution_has_its_key_and_its_work() {
        let table = FieldPrismCaution::ALL.map(|caution| (caution.key(), caution.source().id));
        let expected = [
            ("gaze-into-prism", "common-practice"),
            ("apical-scotoma", "apfelbaum-2013"),
            ("rating-of-one-incidence", "jung-peli-2014"),
            ("costs-acuity", "cheng-woo-2001"),
            ("no-fitness-verdict", "common-practice"),
        ];
        assert_eq!(table, expected);
    }
}
