//! How fast something turns.

quantity! {
    /// An angular speed, stored in degrees per second.
    AngularSpeed {
        /// From degrees per second.
        from_degrees_per_second / degrees_per_second = 1.0;
    }
}
