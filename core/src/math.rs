//! The only door to floating-point functions.
//!
//! Everything goes through `libm`, natively and in the page alike, so that a native test proves what the browser
//! shows, to the last bit.

/// π.
pub const PI: f64 = core::f64::consts::PI;

/// `|x|`.
///
/// ```
/// use arcminute_core::math::abs;
/// assert_eq!((abs(-2.5), abs(2.5)), (2.5, 2.5));
/// ```
pub fn abs(x: f64) -> f64 {
    libm::fabs(x)
}
/// Base-ten logarithm of a number above zero; minus infinity of zero, not a number below it.
///
/// ```
/// use arcminute_core::math::log10;
/// // 20/200 is a least detail of 10 minutes of arc: logMAR 1.
/// assert_eq!(log10(200.0 / 20.0), 1.0);
/// ```
pub fn log10(x: f64) -> f64 {
    libm::log10(x)
}
/// Natural logarithm of a number above zero; minus infinity of zero, not a number below it.
///
/// ```
/// use arcminute_core::math::ln;
/// // 0.693147, any table of logarithms.
/// assert!((ln(2.0) - 0.693_147).abs() < 5e-7);
/// ```
pub fn ln(x: f64) -> f64 {
    libm::log(x)
}
/// `e` to the power `x`.
///
/// ```
/// use arcminute_core::math::exp;
/// // Euler's number, 2.71828.
/// assert!((exp(1.0) - 2.718_28).abs() < 5e-6);
/// ```
pub fn exp(x: f64) -> f64 {
    libm::exp(x)
}
/// `base` to the power `exponent`.
///
/// ```
/// use arcminute_core::math::pow;
/// // Three lines of 0.1 log make a letter all but twice as large (computed).
/// assert!((pow(10.0, 0.3) - 1.9953).abs() < 5e-5);
/// ```
pub fn pow(base: f64, exponent: f64) -> f64 {
    libm::pow(base, exponent)
}
/// Square root of zero or more; not a number below zero.
///
/// ```
/// use arcminute_core::math::sqrt;
/// assert!((sqrt(2.0) - 1.414_21).abs() < 5e-6);
/// assert!(sqrt(-1.0).is_nan());
/// ```
pub fn sqrt(x: f64) -> f64 {
    libm::sqrt(x)
}
/// Length of the vector `(x, y)`.
///
/// ```
/// use arcminute_core::math::hypot;
/// // 3 prism dioptres across and 4 up are 5 together.
/// assert_eq!(hypot(3.0, 4.0), 5.0);
/// ```
pub fn hypot(x: f64, y: f64) -> f64 {
    libm::hypot(x, y)
}
/// Sine; radians.
///
/// ```
/// use arcminute_core::math::{PI, sin};
/// assert!((sin(PI / 6.0) - 0.5).abs() < 1e-15);
/// ```
pub fn sin(x: f64) -> f64 {
    libm::sin(x)
}
/// Cosine; radians.
///
/// ```
/// use arcminute_core::math::{PI, cos};
/// assert!((cos(PI / 3.0) - 0.5).abs() < 1e-15);
/// ```
pub fn cos(x: f64) -> f64 {
    libm::cos(x)
}
/// Tangent; radians.
///
/// ```
/// use arcminute_core::math::{PI, tan};
/// // 5 minutes of arc at 1 m are 1.4544 mm: Sloan's definition of 1 M.
/// assert!((1000.0 * tan(5.0 / 60.0 * PI / 180.0) - 1.4544).abs() < 5e-5);
/// ```
pub fn tan(x: f64) -> f64 {
    libm::tan(x)
}
/// Inverse tangent; radians, −π/2 to π/2.
///
/// ```
/// use arcminute_core::math::{PI, atan};
/// assert!((atan(1.0) - PI / 4.0).abs() < 1e-15);
/// ```
pub fn atan(x: f64) -> f64 {
    libm::atan(x)
}
/// Inverse sine; radians, −π/2 to π/2. Not a number for arguments outside ±1.
///
/// ```
/// use arcminute_core::math::{PI, asin};
/// // Light inside glass of index 1.5 is shut in beyond 41.81 degrees (computed).
/// assert!((asin(1.0 / 1.5) * 180.0 / PI - 41.81).abs() < 0.005);
/// ```
pub fn asin(x: f64) -> f64 {
    libm::asin(x)
}
/// Inverse cosine; radians, 0 to π. Arguments a rounding error outside ±1 are taken as ±1.
///
/// ```
/// use arcminute_core::math::{PI, acos};
/// assert!((acos(-0.5) - 2.0 * PI / 3.0).abs() < 1e-15);
/// assert_eq!(acos(1.0 + 1e-15), 0.0);
/// ```
pub fn acos(x: f64) -> f64 {
    libm::acos(x.clamp(-1.0, 1.0))
}
/// Angle of the vector `(x, y)` from the x axis; radians, −π to π.
///
/// ```
/// use arcminute_core::math::{PI, atan2};
/// // Up and to the left: 135 degrees.
/// assert!((atan2(1.0, -1.0) - 0.75 * PI).abs() < 1e-15);
/// ```
pub fn atan2(y: f64, x: f64) -> f64 {
    libm::atan2(y, x)
}
/// Largest whole number not above `x`.
///
/// ```
/// use arcminute_core::math::floor;
/// assert_eq!((floor(1.5), floor(-1.5)), (1.0, -2.0));
/// ```
pub fn floor(x: f64) -> f64 {
    libm::floor(x)
}
/// Smallest whole number not below `x`.
///
/// ```
/// use arcminute_core::math::ceil;
/// assert_eq!((ceil(1.5), ceil(-1.5)), (2.0, -1.0));
/// ```
pub fn ceil(x: f64) -> f64 {
    libm::ceil(x)
}
/// Nearest whole number, halves away from zero.
///
/// ```
/// use arcminute_core::math::round;
/// assert_eq!((round(2.5), round(-2.5)), (3.0, -3.0));
/// ```
pub fn round(x: f64) -> f64 {
    libm::round(x)
}
/// `x` rounded to the nearest multiple of `step` (`step` above zero).
///
/// ```
/// use arcminute_core::math::round_to;
/// // A height in the half millimetres of a rule, and a tenth that is 0.3 to the last bit.
/// assert_eq!((round_to(32.413, 0.5), round_to(0.26, 0.1)), (32.5, 0.3));
/// ```
pub fn round_to(x: f64, step: f64) -> f64 {
    // Dividing by the inverse keeps 0.1 as 0.1: 3 / 10 is exact to the last bit, 3 * 0.1 is not.
    round(x / step) / (1.0 / step)
}
/// The number that decimal digits with at most one point write; `None` for anything else.
///
/// Up to nineteen digits, at most 22 of them behind the point, it is the nearest number there is, as the language's own
/// reading gives it: so whatever is printed of a number is read back as the same. Beyond that the last bit may differ. It
/// takes a tenth of the room that reading any length to the last bit does, and the page is loaded over hospital networks.
///
/// ```
/// use arcminute_core::math::of_decimal;
/// assert_eq!([of_decimal("31.5"), of_decimal(".5"), of_decimal("20.")], [Some(31.5), Some(0.5), Some(20.0)]);
/// assert_eq!([of_decimal("-1"), of_decimal("1e9"), of_decimal("")], [None; 3]);
/// ```
#[must_use]
pub fn of_decimal(text: &str) -> Option<f64> {
    /// More digits than a number can tell apart.
    const TOLD_APART: u32 = 19;
    let (mut digits, mut value, mut shift, mut point) = (0, 0_u64, 0_i32, false);
    let mut any = false;
    for byte in text.bytes() {
        match byte {
            b'.' if !point => point = true,
            b'0'..=b'9' => {
                any = true;
                if digits < TOLD_APART {
                    value = value.saturating_mul(10).saturating_add(u64::from(byte.saturating_sub(b'0')));
                    digits = u32::saturating_add(digits, u32::from(value != 0));
                    shift = shift.saturating_sub(i32::from(point));
                } else {
                    shift = shift.saturating_add(i32::from(!point));
                }
            }
            _ => return None,
        }
    }
    let mut power = 1.0;
    for _ in 0..shift.unsigned_abs() {
        power *= 10.0;
    }
    // In two parts, since one number holds sixteen digits only: the second is what the first rounded away.
    #[expect(clippy::cast_precision_loss, reason = "each part has no more bits than a number")]
    let (first, second) = ((value & !0x7ff) as f64, (value & 0x7ff) as f64);
    let number = first + second;
    any.then_some(if shift < 0 {
        let quotient = number / power;
        // What rounding and the division left over, exactly; divided it is far below the last bit and settles the rounding.
        let product = quotient * power;
        let left = (number - product) - product_error(quotient, power, product) + ((first - number) + second);
        quotient + left / power
    } else {
        number * power
    })
}

/// What rounding took off a product: `a·b − product`, exactly (Dekker 1971, by Veltkamp's splitting).
fn product_error(a: f64, b: f64, product: f64) -> f64 {
    // Halves of 26 bits, whose products are exact.
    let split = |x: f64| {
        let far = 134_217_729.0 * x;
        let high = far - (far - x);
        (high, x - high)
    };
    let ((a_high, a_low), (b_high, b_low)) = (split(a), split(b));
    ((a_high * b_high - product) + a_high * b_low + a_low * b_high) + a_low * b_low
}

/// Cumulative standard normal distribution: the chance that a normal variable lies below `z` standard deviations.
///
/// ```
/// use arcminute_core::math::normal_below;
/// // 97.5 % lie below 1.96 standard deviations: tables of the normal distribution.
/// assert!((normal_below(1.96) - 0.975).abs() < 5e-5);
/// ```
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
    fn decimals_are_read_as_the_language_reads_them() {
        for text in
            ["0", "20", "0.1", "1.2345", "31.5", ".5", "5.", "007", "999999999999999", "0.000000000000001"]
        {
            assert_eq!(of_decimal(text).map(f64::to_bits), text.parse().ok().map(f64::to_bits), "{text}");
        }
        let mut state = 7_u64;
        for _ in 0..100_000 {
            state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            let digits =
                alloc::format!("{:015}", state >> 15).chars().take(15).collect::<alloc::string::String>();
            let (whole, fraction) = digits.split_at((state % 15) as usize + 1);
            let text = alloc::format!("{whole}.{fraction}");
            assert_eq!(of_decimal(&text).map(f64::to_bits), text.parse().ok().map(f64::to_bits), "{text}");
        }
        for digits in 0..20_000_u32 {
            for text in ["0.00", "0.", "1.", "3000."].map(|before| alloc::format!("{before}{digits}")) {
                assert_eq!(
                    of_decimal(&text).map(f64::to_bits),
                    text.parse().ok().map(f64::to_bits),
                    "{text}"
                );
            }
        }
        for _ in 0..100_000 {
            state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            let share = (state >> 11) as f64 / 9_007_199_254_740_992.0;
            let number = (0.1 + 0.9 * share) * pow(10.0, (state % 9) as f64 - 4.0);
            let printed = alloc::format!("{number}");
            assert_eq!(of_decimal(&printed).map(f64::to_bits), Some(number.to_bits()), "{printed}");
            let fraction = alloc::format!("{:019}", state % 10_000_000_000_000_000_000);
            let long = alloc::format!("0.00{fraction}");
            assert_eq!(of_decimal(&long).map(f64::to_bits), long.parse().ok().map(f64::to_bits), "{long}");
        }
        let found = "1.009999999999609999999999";
        // A law of the acuity box found it printed as another number than was read.
        assert_eq!(
            of_decimal(found).map(|number| alloc::format!("{number}")),
            Some("1.00999999999961".into())
        );
        let long = "0.30000000000000004441";
        let (ours, theirs) = (of_decimal(long).expect(long), long.parse::<f64>().expect(long));
        assert!(abs(ours - theirs) <= f64::EPSILON * theirs, "{long} gave {ours}");
        for (long, near) in [
            ("12345678901234567890123", 1.234_567_890_123_456_8e22),
            ("1234567890123456789.5", 1.234_567_890_123_456_8e18),
        ] {
            let ours = of_decimal(long).expect(long);
            assert!(abs(ours - near) <= 2.0 * f64::EPSILON * near, "{long} gave {ours}");
        }
        for text in ["", ".", "1.2.3", "-1", "1e9", "inf", "NaN", "٣"] {
            assert_eq!(of_decimal(text), None, "{text}");
        }
    }

    /// Values that any table of functions has.
    #[test]
    fn each_function_at_points_of_its_own() {
        let e = core::f64::consts::E;
        for (what, got, wanted) in [
            ("log10", log10(1000.0), 3.0),
            ("ln", ln(e * e), 2.0),
            ("exp", exp(2.0), e * e),
            ("pow", pow(3.0, 4.0), 81.0),
            ("sqrt", sqrt(6.25), 2.5),
            ("hypot", hypot(5.0, -12.0), 13.0),
            ("sin", sin(PI / 6.0), 0.5),
            ("cos", cos(PI / 3.0), 0.5),
            ("tan", tan(PI / 3.0), 3.0_f64.sqrt()),
            ("atan", atan(3.0_f64.sqrt()), PI / 3.0),
            ("asin", asin(0.5), PI / 6.0),
            ("acos", acos(-0.5), 2.0 * PI / 3.0),
            ("atan2", atan2(1.0, -1.0), 0.75 * PI),
            ("floor", floor(-1.5), -2.0),
            ("ceil", ceil(-1.5), -1.0),
            ("round", round(-1.5), -2.0),
            ("abs", abs(-2.5), 2.5),
        ] {
            assert!((got - wanted).abs() < 1e-14 * wanted.abs(), "{what} gave {got}, not {wanted}");
        }
        assert!(acos(1.0 + 1e-15).abs() < 1e-15, "a rounding error above 1 is taken as 1");
    }

    #[test]
    fn rounding_to_a_step() {
        assert!(abs(round_to(32.413, 0.5) - 32.5) < 1e-12, "to half millimetres");
        assert!(abs(round_to(-0.26, 0.1) - -0.3) < 1e-12, "to tenths, below zero");
    }
}
