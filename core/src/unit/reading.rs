//! Time and reading speed.

quantity! {
    /// A length of time, stored in seconds.
    Duration {
        /// From seconds.
        from_seconds / seconds = 1.0;
        /// From milliseconds.
        from_milliseconds / milliseconds = 1000.0;
        /// From minutes.
        from_minutes / minutes = (1.0 / 60.0);
    }
}

quantity! {
    /// Reading speed, stored in words per minute.
    ReadingSpeed {
        /// From words per minute.
        from_words_per_minute / words_per_minute = 1.0;
    }
}
