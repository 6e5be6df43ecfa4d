//! Areas of the visual field.

quantity! {
    /// An area of the visual field, stored in square degrees.
    SquareDegrees {
        /// From square degrees.
        from_square_degrees / square_degrees = 1.0;
    }
}
