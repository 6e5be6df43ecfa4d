//! Points and pixels, the units in which type is set.

use crate::source::{self, Source};
use crate::unit::Length;

/// A system of typographic points.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum PointSystem {
    /// 1/72 inch, as computers set type.
    #[default]
    Desktop,
    /// 0.013837 inch, metal type in the United States.
    UsMetal,
    /// 0.376 mm, metal type on the European continent.
    Didot,
}

impl PointSystem {
    /// All of them.
    pub const ALL: [Self; 3] = [Self::Desktop, Self::UsMetal, Self::Didot];

    /// Its stable key.
    ///
    /// ```
    /// use arcminute_core::print::PointSystem;
    /// assert_eq!(PointSystem::ALL.map(PointSystem::key), ["desktop", "us-metal", "didot"]);
    /// ```
    #[must_use]
    pub fn key(self) -> &'static str {
        match self {
            Self::Desktop => "desktop",
            Self::UsMetal => "us-metal",
            Self::Didot => "didot",
        }
    }
    /// One point.
    ///
    /// Source: [`source::TYPE_POINTS`].
    ///
    /// ```
    /// use arcminute_core::print::PointSystem;
    /// assert!((PointSystem::Desktop.point().mm() - 0.35278).abs() < 5e-6);
    /// ```
    #[must_use]
    pub fn point(self) -> Length {
        match self {
            Self::Desktop => Length::from_inches(1.0 / 72.0),
            Self::UsMetal => Length::from_inches(0.013_837),
            Self::Didot => Length::from_mm(0.376),
        }
    }
    /// Body of type of so many points: the height that a line set solid takes.
    ///
    /// ```
    /// use arcminute_core::print::PointSystem;
    /// // 12 points are 4.23 mm on a computer and 4.51 mm in metal of the continent (computed).
    /// assert!((PointSystem::Desktop.body(12.0).mm() - 4.233).abs() < 5e-4);
    /// assert!((PointSystem::Didot.body(12.0).mm() - 4.512).abs() < 5e-4);
    /// ```
    #[must_use]
    pub fn body(self, points: f64) -> Length {
        self.point() * points
    }
    /// How many points this body has.
    ///
    /// ```
    /// use arcminute_core::{print::PointSystem, unit::Length};
    /// assert!((PointSystem::Desktop.points(Length::from_inches(1.0)) - 72.0).abs() < 1e-12);
    /// ```
    #[must_use]
    pub fn points(self, body: Length) -> f64 {
        body / self.point()
    }
    /// Where its size comes from; one work for all.
    ///
    /// ```
    /// use arcminute_core::print::PointSystem;
    /// assert_eq!(PointSystem::Didot.source().id, "type-points");
    /// ```
    #[must_use]
    pub fn source(self) -> &'static Source {
        &source::TYPE_POINTS
    }
}

/// One pixel of style sheets, 1/96 inch or three quarters of a point. True only where the scale of the screen was
/// measured: devices differ.
///
/// Source: [`source::CSS_VALUES`].
///
/// ```
/// use arcminute_core::print::{PointSystem, css_pixel};
/// // 16 pixels are 12 points (definition).
/// assert!((PointSystem::Desktop.points(css_pixel() * 16.0) - 12.0).abs() < 1e-12);
/// ```
#[must_use]
pub fn css_pixel() -> Length {
    Length::from_inches(1.0 / 96.0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use alloc::collections::BTreeSet;

    #[test]
    fn systems_have_keys_and_a_source() {
        let keys: BTreeSet<_> = PointSystem::ALL.iter().map(|system| system.key()).collect();
        assert_eq!(keys, BTreeSet::from(["desktop", "us-metal", "didot"]));
        for system in PointSystem::ALL {
            assert_eq!(system.source().id, "type-points", "{system:?}");
        }
        assert_eq!(PointSystem::default(), PointSystem::Desktop);
    }

    #[test]
    fn points_and_bodies_are_inverse() {
        for system in PointSystem::ALL {
            for points in [1.0, 8.0, 72.0] {
                let back = system.points(system.body(points));
                assert!((back - points).abs() < 1e-12, "{system:?}: {points} came back as {back}");
            }
        }
    }
}
