//! Angular magnification.

use crate::math;

quantity! {
    /// Angular magnification, signed: positive for an upright image, negative for an inverted one.
    ///
    /// A Keplerian's magnification stays negative in every formula even when prisms turn the image upright again;
    /// [`Magnification::size`] is what is shown.
    Magnification {
        /// From a ratio of angles.
        from_times / times = 1.0;
    }
}

impl Magnification {
    /// How many times larger, without the sign; a pure ratio.
    ///
    /// ```
    /// use arcminute_core::unit::Magnification;
    /// // A Keplerian of 4x counts as −4 and shows things 4 times larger.
    /// assert_eq!(Magnification::from_times(-4.0).size(), 4.0);
    /// ```
    #[must_use]
    pub fn size(self) -> f64 {
        math::abs(self.0)
    }
}
