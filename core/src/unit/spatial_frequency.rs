//! Spatial frequency.

quantity! {
    /// Periods of a grating in an angle, stored in cycles per degree.
    ///
    /// ```
    /// use arcminute_core::unit::SpatialFrequency;
    /// assert_eq!(SpatialFrequency::from_cycles_per_degree(30.0).cycles_per_degree(), 30.0);
    /// ```
    SpatialFrequency {
        /// From cycles per degree.
        from_cycles_per_degree / cycles_per_degree = 1.0;
    }
}
