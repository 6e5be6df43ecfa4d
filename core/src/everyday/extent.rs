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
    #[must_use]
    pub const fn exactly(usual: T) -> Self {
        Self { least: None, usual: Some(usual), most: None }
    }
    /// This or more.
    #[must_use]
    pub const fn at_least(least: T) -> Self {
        Self { least: Some(least), usual: None, most: None }
    }
    /// This or less.
    #[must_use]
    pub const fn at_most(most: T) -> Self {
        Self { least: None, usual: None, most: Some(most) }
    }
    /// From one figure to another.
    #[must_use]
    pub const fn between(least: T, most: T) -> Self {
        Self { least: Some(least), usual: None, most: Some(most) }
    }
    /// A mean and its range.
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
    #[must_use]
    pub fn map<U>(self, change: impl Fn(T) -> U) -> Extent<U> {
        Extent {
            least: self.least.map(&change),
            usual: self.usual.map(&change),
            most: self.most.map(&change),
        }
    }
}
