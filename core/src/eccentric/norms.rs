//! Areas of fixation that were measured, to hold a person's against.

use crate::source::{self, Source};
use crate::unit::{Angle, SquareDegrees};

/// A mean area of fixation of a group.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FixationNorm {
    /// Stable key.
    pub id: &'static str,
    /// Who was measured and at what.
    pub population: &'static str,
    /// How many people, if it was read.
    pub measured: Option<u16>,
    /// Share of the points that the ellipse holds; `None` where the share was not read, and then the area must not be
    /// compared with another. A pure ratio.
    pub share: Option<f64>,
    /// Where it was published.
    pub source: &'static Source,
    square_degrees: f64,
}

impl FixationNorm {
    /// The mean area.
    ///
    /// ```
    /// use arcminute_core::eccentric::FIXATION_NORMS;
    /// let normal = FIXATION_NORMS.iter().find(|row| row.id == "normal-95").expect("in the table");
    /// assert_eq!(normal.area().square_degrees(), 2.4);
    /// ```
    #[must_use]
    pub fn area(&self) -> SquareDegrees {
        SquareDegrees::from_square_degrees(self.square_degrees)
    }
}

macro_rules! norms {
    ($($id:literal, $population:literal, $measured:expr, $share:expr, $area:literal, $source:ident;)+) => {
        /// Areas of groups.
        pub static FIXATION_NORMS: &[FixationNorm] = &[$(FixationNorm {
            id: $id,
            population: $population,
            measured: $measured,
            share: $share,
            source: &source::$source,
            square_degrees: $area,
        }),+];
    };
}

norms! {
    "normal-63", "normal sight", Some(358), Some(0.63), 0.80, MORALES_2016;
    "normal-95", "normal sight", Some(358), Some(0.95), 2.40, MORALES_2016;
    "inherited-macular-fixating", "inherited macular disease, fixating", None, None, 4.6, SCHONBACH_2017;
    "inherited-macular-perimetry", "inherited macular disease, during perimetry", None, None, 12.5, SCHONBACH_2017;
}

/// Share of points within a distance from the middle, normal sight.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PointsWithin {
    /// Share of the points; a pure ratio.
    pub share: f64,
    /// Where it was published.
    pub source: &'static Source,
    degrees: f64,
}

impl PointsWithin {
    /// From the middle of fixation: radius of the circle that holds the share.
    ///
    /// ```
    /// use arcminute_core::eccentric::POINTS_WITHIN;
    /// // Morales et al. 2016: 95 % within 1 degree, 99 % within 2.
    /// let rows = POINTS_WITHIN.map(|row| (row.share, row.within().degrees()));
    /// assert_eq!(rows, [(0.95, 1.0), (0.99, 2.0)]);
    /// ```
    #[must_use]
    pub fn within(&self) -> Angle {
        Angle::from_degrees(self.degrees)
    }
}

/// Normal sight keeps nearly all points near.
pub static POINTS_WITHIN: [PointsWithin; 2] = [
    PointsWithin { share: 0.95, source: &source::MORALES_2016, degrees: 1.0 },
    PointsWithin { share: 0.99, source: &source::MORALES_2016, degrees: 2.0 },
];

#[cfg(test)]
mod tests {
    use super::*;
    use alloc::collections::BTreeSet;

    #[test]
    fn keys_are_unique() {
        let ids: BTreeSet<_> = FIXATION_NORMS.iter().map(|row| row.id).collect();
        assert_eq!(ids.len(), FIXATION_NORMS.len(), "a key stands twice");
    }
}
