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
    ///
    /// ```
    /// use arcminute_core::{optics::RayMatrix, unit::Vergence};
    /// let lens = RayMatrix::lens(Vergence::from_dioptres(20.0));
    /// assert_eq!(RayMatrix::identity().then(lens), lens);
    /// ```
    #[must_use]
    pub fn identity() -> Self {
        Self { a: 1.0, b: Length::ZERO, c: Vergence::ZERO, d: 1.0 }
    }
    /// A gap of air (or its air-equivalent).
    ///
    /// ```
    /// use arcminute_core::{optics::RayMatrix, unit::Length};
    /// // A ray that climbs 1 in 10 is 5 mm higher after 50 mm; its slope stays.
    /// let gap = RayMatrix::gap(Length::from_mm(50.0));
    /// assert!(((gap.b * 0.1).mm() - 5.0).abs() < 1e-12);
    /// assert_eq!(gap.d, 1.0);
    /// ```
    #[must_use]
    pub fn gap(length: Length) -> Self {
        Self { b: length, ..Self::identity() }
    }
    /// A thin lens.
    ///
    /// ```
    /// use arcminute_core::{optics::RayMatrix, unit::{Length, Vergence}};
    /// // A level ray 10 mm up leaves a +20 D lens with a slope of −0.2, and so meets the axis after 50 mm.
    /// let lens = RayMatrix::lens(Vergence::from_dioptres(20.0));
    /// assert!((lens.c.dioptres() * Length::from_mm(10.0).m() + 0.2).abs() < 1e-12);
    /// ```
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
    /// Determinant of the matrix, a pure ratio: one between air and air, but for rounding.
    ///
    /// ```
    /// use arcminute_core::{optics::RayMatrix, unit::{Length, Vergence}};
    /// let lens = RayMatrix::lens(Vergence::from_dioptres(20.0));
    /// assert!((lens.then(RayMatrix::gap(Length::from_mm(30.0))).determinant() - 1.0).abs() < 1e-12);
    /// ```
    #[must_use]
    pub fn determinant(self) -> f64 {
        self.a * self.d - self.b.m() * self.c.dioptres()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_determinant_is_not_taken_for_granted() {
        let matrix = RayMatrix { a: 2.0, b: Length::from_m(0.5), c: Vergence::from_dioptres(4.0), d: 3.0 };
        assert_eq!(matrix.determinant().to_bits(), 4.0_f64.to_bits(), "2·3 − 0.5·4");
    }
}
