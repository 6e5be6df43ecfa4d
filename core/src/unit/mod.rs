//! Quantities: a value and what it is a value of.
//!
//! A quantity is built and read in named units (`Length::from_mm(40.0)`, `.m()`). Signs and reference planes are the
//! matter of the function that takes the quantity, and stated there.
//!
//! Then read [`crate::list`], [`crate::scan`] and [`crate::math`], on which all the rest stands.

/// The example of a unit: what is put in comes out.
macro_rules! comes_back {
    ($name:ident, $from:ident, $get:ident) => {
        concat!(
            "```\nuse arcminute_core::unit::",
            stringify!($name),
            ";\nlet three = ",
            stringify!($name),
            "::",
            stringify!($from),
            "(3.0);\nassert!((three.",
            stringify!($get),
            "() - 3.0).abs() < 1e-12);\n```"
        )
    };
}
use comes_back;

/// Makes a quantity: a newtype with named-unit constructors and getters and the arithmetic that keeps its kind.
macro_rules! quantity {
    (
        $(#[$meta:meta])*
        $name:ident {
            $($(#[$unit_meta:meta])* $from:ident / $get:ident = $per_stored:expr;)+
        }
    ) => {
        $(#[$meta])*
        #[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd)]
        pub struct $name(f64);

        impl $name {
            /// Nothing of it.
            pub const ZERO: Self = Self(0.0);
            $(
                $(#[$unit_meta])*
                ///
                #[doc = $crate::unit::comes_back!($name, $from, $get)]
                #[must_use]
                pub fn $from(value: f64) -> Self {
                    Self(value / $per_stored)
                }
                #[doc = concat!("The value in the unit of [`Self::", stringify!($from), "`].")]
                ///
                #[doc = $crate::unit::comes_back!($name, $from, $get)]
                #[must_use]
                pub fn $get(self) -> f64 {
                    self.0 * $per_stored
                }
            )+
            /// The same without its sign.
            ///
            /// ```
            /// use arcminute_core::unit::Prism;
            /// // Base out counts as negative; its strength does not.
            /// assert_eq!(Prism::from_prism_dioptres(-6.0).abs(), Prism::from_prism_dioptres(6.0));
            /// ```
            #[must_use]
            pub fn abs(self) -> Self {
                Self(crate::math::abs(self.0))
            }
            /// The smaller of the two; `self` when they are alike.
            ///
            /// ```
            /// use arcminute_core::unit::Length;
            /// assert_eq!(Length::from_mm(3.0).min(Length::from_cm(0.2)).mm(), 2.0);
            /// ```
            #[must_use]
            pub fn min(self, other: Self) -> Self {
                if other.0 < self.0 { other } else { self }
            }
            /// The larger of the two; `self` when they are alike.
            ///
            /// ```
            /// use arcminute_core::unit::Length;
            /// assert_eq!(Length::from_mm(3.0).max(Length::from_cm(0.2)).mm(), 3.0);
            /// ```
            #[must_use]
            pub fn max(self, other: Self) -> Self {
                if self.0 < other.0 { other } else { self }
            }
            /// Whether it is a number at all: neither infinite nor not-a-number.
            ///
            /// ```
            /// use arcminute_core::unit::Vergence;
            /// // A lens without power has no focal length.
            /// assert!(!Vergence::ZERO.focal_length().is_finite());
            /// ```
            #[must_use]
            pub fn is_finite(self) -> bool {
                self.0.is_finite()
            }
        }
        impl core::ops::Add for $name {
            type Output = Self;
            fn add(self, other: Self) -> Self {
                Self(self.0 + other.0)
            }
        }
        impl core::ops::Sub for $name {
            type Output = Self;
            fn sub(self, other: Self) -> Self {
                Self(self.0 - other.0)
            }
        }
        impl core::ops::Neg for $name {
            type Output = Self;
            fn neg(self) -> Self {
                Self(-self.0)
            }
        }
        impl core::ops::Mul<f64> for $name {
            type Output = Self;
            fn mul(self, factor: f64) -> Self {
                Self(self.0 * factor)
            }
        }
        impl core::ops::Div<f64> for $name {
            type Output = Self;
            fn div(self, divisor: f64) -> Self {
                Self(self.0 / divisor)
            }
        }
        impl core::ops::Div for $name {
            type Output = f64;
            fn div(self, other: Self) -> f64 {
                self.0 / other.0
            }
        }
    };
}

mod age;
mod angle;
mod angular_speed;
mod contrast;
mod length;
mod light;
mod log_mar;
mod magnification;
mod print_size;
mod prism;
mod reading;
mod solid_angle;
mod spatial_frequency;
mod vergence;

pub use age::Age;
pub use angle::Angle;
pub use angular_speed::AngularSpeed;
pub use contrast::LogContrast;
pub use length::Length;
pub use light::{Illuminance, Luminance, LuminousIntensity, RetinalIlluminance};
pub use log_mar::LogMar;
pub use magnification::Magnification;
pub use print_size::PrintSize;
pub use prism::Prism;
pub use reading::{Duration, ReadingSpeed};
pub use solid_angle::SquareDegrees;
pub use spatial_frequency::SpatialFrequency;
pub use vergence::Vergence;
