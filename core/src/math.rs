//! The only door to floating-point functions.
//!
//! Everything goes through `libm`, natively and in the page alike, so that a native test proves what the browser
//! shows, to the last bit.

/// π.
pub const PI: f64 = core::f64::consts::PI;

/// `|x|`.
pub fn abs(x: f64) -> f64 {
    libm::fabs(x)
}
/// Base-ten logarithm.
pub fn log10(x: f64) -> f64 {
    libm::log10(x)
}
/// `base` to the power `exponent`.
pub fn pow(base: f64, exponent: f64) -> f64 {
    libm::pow(base, exponent)
}
/// Square root.
pub fn sqrt(x: f64) -> f64 {
    libm::sqrt(x)
}
/// Length of the vector `(x, y)`.
pub fn hypot(x: f64, y: f64) -> f64 {
    libm::hypot(x, y)
}
/// Sine; radians.
pub fn sin(x: f64) -> f64 {
    libm::sin(x)
}
/// Cosine; radians.
pub fn cos(x: f64) -> f64 {
    libm::cos(x)
}
/// Tangent; radians.
pub fn tan(x: f64) -> f64 {
    libm::tan(x)
}
/// Inverse tangent; radians.
pub fn atan(x: f64) -> f64 {
    libm::atan(x)
}
/// Inverse sine; radians.
pub fn asin(x: f64) -> f64 {
    libm::asin(x)
}
/// Inverse cosine; radians. Arguments a rounding error outside ±1 are taken as ±1.
pub fn acos(x: f64) -> f64 {
    libm::acos(x.clamp(-1.0, 1.0))
}
/// Largest whole number not above `x`.
pub fn floor(x: f64) -> f64 {
    libm::floor(x)
}
/// Smallest whole number not below `x`.
pub fn ceil(x: f64) -> f64 {
    libm::ceil(x)
}
/// Nearest whole number, halves away from zero.
pub fn round(x: f64) -> f64 {
    libm::round(x)
}
/// `x` rounded to the nearest multiple of `step` (`step` above zero).
pub fn round_to(x: f64, step: f64) -> f64 {
    // Dividing by the inverse keeps 0.1 as 0.1: 3 / 10 is exact to the last bit, 3 * 0.1 is not.
    round(x / step) / (1.0 / step)
}
/// Cumulative standard normal distribution: the chance that a normal variable lies below `z` standard deviations.
pub fn normal_below(z: f64) -> f64 {
    0.5 * libm::erfc(-z / core::f64::consts::SQRT_2)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Source: tables of the normal distribution, any statistics text; 1.96 standard deviations leave 2.5 %.
    #[test]
    fn normal_distribution_at_the_usual_points() {
        assert!(abs(normal_below(0.0) - 0.5) < 1e-15, "half lies below the mean");
        assert!(abs(normal_below(1.959_963_984_540_054) - 0.975) < 1e-12, "97.5 % below 1.96");
    }

    #[test]
    fn rounding_to_a_step() {
        assert!(abs(round_to(32.413, 0.5) - 32.5) < 1e-12, "to half millimetres");
        assert!(abs(round_to(-0.26, 0.1) - -0.3) < 1e-12, "to tenths, below zero");
    }
}
