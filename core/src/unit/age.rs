//! Age.

quantity! {
    /// Age of a person, stored in years.
    Age {
        /// From years.
        from_years / years = 1.0;
    }
}
