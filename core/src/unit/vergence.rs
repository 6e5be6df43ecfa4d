//! Vergence and lens power.

use super::Length;

quantity! {
    /// Vergence of light or power of a lens, stored in dioptres.
    ///
    /// Light travels left to right; diverging light has negative vergence, a converging lens positive power.
    Vergence {
        /// From dioptres.
        from_dioptres / dioptres = 1.0;
    }
}

impl Vergence {
    /// Vergence of light that diverges from a real point `distance` in front: `−1/x`; zero for an infinite distance.
    ///
    /// ```
    /// use arcminute_core::unit::{Length, Vergence};
    /// assert_eq!(Vergence::of_object_at(Length::from_m(0.4)).dioptres(), -2.5);
    /// ```
    #[must_use]
    pub fn of_object_at(distance: Length) -> Self {
        Self(-1.0 / distance.m())
    }
    /// Focal length, `1/F`, with the sign of the power; infinite for no power.
    ///
    /// ```
    /// use arcminute_core::unit::Vergence;
    /// assert_eq!(Vergence::from_dioptres(20.0).focal_length().cm(), 5.0);
    /// assert_eq!(Vergence::from_dioptres(-4.0).focal_length().cm(), -25.0);
    /// ```
    #[must_use]
    pub fn focal_length(self) -> Length {
        Length::from_m(1.0 / self.0)
    }
    /// Power of a lens with this focal length, `1/f`; zero for an infinite one.
    ///
    /// ```
    /// use arcminute_core::unit::{Length, Vergence};
    /// assert_eq!(Vergence::of_focal_length(Length::from_cm(-25.0)).dioptres(), -4.0);
    /// ```
    #[must_use]
    pub fn of_focal_length(focal_length: Length) -> Self {
        Self(1.0 / focal_length.m())
    }
    /// Vergence after the light has run on by `gap` in air: `L / (1 − gap·L)`.
    ///
    /// ```
    /// use arcminute_core::unit::{Length, Vergence};
    /// // Worn at 14 mm, −10 D is as good as −8.77 D on the cornea (computed).
    /// let at_the_cornea = Vergence::from_dioptres(-10.0).after(Length::from_mm(14.0));
    /// assert!((at_the_cornea.dioptres() + 8.77).abs() < 0.005);
    /// ```
    #[must_use]
    pub fn after(self, gap: Length) -> Self {
        Self(self.0 / (1.0 - gap.m() * self.0))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Source: definition; effectivity examples of the fitting reference (+12 D from 13 to 10 mm, computed).
    #[test]
    fn running_on_is_effectivity() {
        let moved = Vergence::from_dioptres(12.0).after(Length::from_mm(3.0));
        assert!((moved.dioptres() - 12.448).abs() < 5e-4, "got {moved:?}");
    }
}
