//! Lengths and distances.

quantity! {
    /// A length or distance, stored in metres.
    ///
    /// ```
    /// use arcminute_core::unit::Length;
    /// assert_eq!(Length::from_inches(16.0).mm(), 406.4);
    /// ```
    Length {
        /// From metres.
        from_m / m = 1.0;
        /// From centimetres.
        from_cm / cm = 100.0;
        /// From millimetres.
        from_mm / mm = 1000.0;
        /// From inches; one inch is 25.4 mm exactly.
        from_inches / inches = (1.0 / 0.0254);
        /// From feet; one foot is 0.3048 m exactly.
        from_feet / feet = (1.0 / 0.3048);
    }
}

#[cfg(test)]
mod tests {
    use super::Length;

    #[test]
    fn units_agree() {
        assert!((Length::from_feet(20.0).m() - 6.096).abs() < 1e-12, "20 ft is 6.096 m");
        assert!((Length::from_cm(16.0) / Length::from_mm(160.0) - 1.0).abs() < 1e-15, "160 mm are 16 cm");
    }
}
