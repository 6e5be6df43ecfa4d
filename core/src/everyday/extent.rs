//! Up to three figures of one quantity: least, usual and most.

/// What is known of a quantity that varies; what is not known is `None`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Extent<T> {
    /// Least met or allowed.
    pub least: Option<T>,
    /// Mean, or the one figure that was given.
    pub usual: Option<T>,
    /// Most met or allowed.
    pub most: Option<T>,
}

impl<T: Copy> Extent<T> {
    /// One figure.
    ///
    /// ```
    /// use arcminute_core::everyday::Extent;
    /// let plate = Extent::exactly(79.0);
    /// assert_eq!((plate.least, plate.usual, plate.most), (None, Some(79.0), None));
    /// ```
    #[must_use]
    pub const fn exactly(usual: T) -> Self {
        Self { least: None, usual: Some(usual), most: None }
    }
    /// This or more.
    ///
    /// ```
    /// use arcminute_core::everyday::Extent;
    /// // Regulation (EU) 1169/2011: an x-height of 1.2 mm or more.
    /// let label = Extent::at_least(1.2);
    /// assert_eq!((label.least, label.most), (Some(1.2), None));
    /// ```
    #[must_use]
    pub const fn at_least(least: T) -> Self {
        Self { least: Some(least), usual: None, most: None }
    }
    /// This or less.
    ///
    /// ```
    /// use arcminute_core::everyday::Extent;
    /// let distance = Extent::at_most(6.4);
    /// assert_eq!((distance.least, distance.most), (None, Some(6.4)));
    /// ```
    #[must_use]
    pub const fn at_most(most: T) -> Self {
        Self { least: None, usual: None, most: Some(most) }
    }
    /// From one figure to another.
    ///
    /// ```
    /// use arcminute_core::everyday::Extent;
    /// let tag = Extent::between(1.0, 4.0);
    /// assert_eq!((tag.least, tag.usual, tag.most), (Some(1.0), None, Some(4.0)));
    /// ```
    #[must_use]
    pub const fn between(least: T, most: T) -> Self {
        Self { least: Some(least), usual: None, most: Some(most) }
    }
    /// A mean and its range.
    ///
    /// ```
    /// use arcminute_core::everyday::Extent;
    /// // Bababekova et al. 2011: text messages of 1.1 M, from 0.7 to 2.1.
    /// let message = Extent::mean(1.1, 0.7, 2.1);
    /// assert_eq!((message.least, message.usual, message.most), (Some(0.7), Some(1.1), Some(2.1)));
    /// ```
    #[must_use]
    pub const fn mean(usual: T, least: T, most: T) -> Self {
        Self { least: Some(least), usual: Some(usual), most: Some(most) }
    }
    /// The figure to reckon with: the usual one, else the least, else the most.
    ///
    /// ```
    /// use arcminute_core::everyday::Extent;
    /// assert_eq!(Extent::mean(1.1, 0.7, 2.1).one(), Some(1.1));
    /// assert_eq!(Extent::between(1.0, 4.0).one(), Some(1.0));
    /// assert_eq!(Extent::at_most(4.0).one(), Some(4.0));
    /// ```
    #[must_use]
    pub fn one(self) -> Option<T> {
        self.usual.or(self.least).or(self.most)
    }
    /// The same of another quantity, figure by figure; `change` must rise with its argument.
    ///
    /// ```
    /// use arcminute_core::everyday::Extent;
    /// // Points to pixels of style sheets, 96 to the inch (computed).
    /// let pixels = Extent::between(12.0, 18.0).map(|points| points * 96.0 / 72.0);
    /// assert_eq!(pixels, Extent::between(16.0, 24.0));
    /// ```
    #[must_use]
    pub fn map<U>(self, change: impl Fn(T) -> U) -> Extent<U> {
        Extent {
            least: self.least.map(&change),
            usual: self.usual.map(&change),
            most: self.most.map(&change),
        }
    }
}
