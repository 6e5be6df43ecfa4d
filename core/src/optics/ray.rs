//! The ray-transfer matrix.

use crate::unit::{Length, Vergence};

/// A ray-transfer matrix: `height' = a·height + b·slope`, `slope' = c·height + d·slope`.
///
/// In air at both ends its determinant is one.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RayMatrix {
    /// Height from height.
    pub a: f64,
    /// Height from slope.
    pub b: Length,
    /// Slope from height; minus the equivalent power.
    pub c: Vergence,
    /// Slope from slope.
    pub d: f64,
}

impl RayMatrix {
    /// Leaves a ray as it is.
    #[must_use]
    pub fn identity() -> Self {
        Self { a: 1.0, b: Length::ZERO, c: Vergence::ZERO, d: 1.0 }
    }
    /// A gap of air (or its air-equivalent).
    #[must_use]
    pub fn gap(length: Length) -> Self {
        Self { b: length, ..Self::identity() }
    }
    /// A thin lens.
    #[must_use]
    pub fn lens(power: Vergence) -> Self {
        Self { c: -power, ..Self::identity() }
    }
    /// This one first, then `next`: the matrix product `next · self`.
    ///
    /// ```
    /// use arcminute_core::{optics::RayMatrix, unit::{Length, Vergence}};
    /// // A lens, then its own focal length: parallel light comes to a point, so height no longer counts.
    /// let lens = RayMatrix::lens(Vergence::from_dioptres(20.0));
    /// let focus = lens.then(RayMatrix::gap(Length::from_mm(50.0)));
    /// assert!(focus.a.abs() < 1e-15);
    /// ```
    #[must_use]
    pub fn then(self, next: Self) -> Self {
        let product = |p: f64, q: f64, r: f64, s: f64| p * q + r * s;
        Self {
            a: product(next.a, self.a, next.b.m(), self.c.dioptres()),
            b: Length::from_m(product(next.a, self.b.m(), next.b.m(), self.d)),
            c: Vergence::from_dioptres(product(next.c.dioptres(), self.a, next.d, self.c.dioptres())),
            d: product(next.c.dioptres(), self.b.m(), next.d, self.d),
        }
    }
    /// One, but for rounding.
    #[must_use]
    pub fn determinant(self) -> f64 {
        self.a * self.d - self.b.m() * self.c.dioptres()
    }
}
