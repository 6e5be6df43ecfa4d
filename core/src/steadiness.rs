//! What movement of the head or the hand costs behind a telescope: the one law that was published, with its limits.
//!
//! An image that slips over the retina faster than 2 degrees a second is seen less sharply, by the 0.6th power of the
//! slip ([`source::DEMER_AMJADI_1993`]). It was found on normal eyes, with vertical movement and high contrast;
//! [`Caution`] says so, and nothing here is a verdict on whether a telescope will be of use.
//!
//! Magnification is *as seen* in this file: positive for an upright image, behind erecting prisms too, and negative for
//! an inverted one, unlike in the formulas of lenses, where a Keplerian's stays negative.
//!
//! Then read [`crate::convergence`]: what two eyes do behind lenses.

use crate::bounds;
use crate::error::{Error, Why};
#[cfg(feature = "alloc")]
use crate::explain::{Explain, Named, Step, Unit, formula};
use crate::math;
use crate::source::{self, Source};
use crate::unit::{AngularSpeed, Magnification};
#[cfg(feature = "alloc")]
use alloc::vec::Vec;

/// Power of the slip by which acuity falls; a pure ratio.
const EXPONENT: f64 = 0.6;

/// Slip that costs nothing: 2 degrees a second ([`source::DEMER_AMJADI_1993`]).
///
/// ```
/// use arcminute_core::steadiness::slip_without_loss;
/// // Demer & Amjadi 1993.
/// assert_eq!(slip_without_loss().degrees_per_second(), 2.0);
/// ```
#[must_use]
pub fn slip_without_loss() -> AngularSpeed {
    AngularSpeed::from_degrees_per_second(2.0)
}

/// How the image stands, prisms counted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Image {
    /// Upright, as through every telescope made for low vision.
    Upright,
    /// Upside down.
    Inverted,
}

impl Image {
    fn seen(self, magnification: Magnification) -> Result<Magnification, Error> {
        let size = bounds::POWER.check(magnification.size())?;
        Ok(Magnification::from_times(match self {
            Self::Upright => size,
            Self::Inverted => -size,
        }))
    }
}

/// What has to be said beside a loss by movement; the words are the page's.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Caution {
    /// The law was found on young normal eyes.
    NormalEyes,
    /// With vertical movement only.
    VerticalMotion,
    /// With letters of high contrast.
    HighContrast,
    /// That it holds with low vision is untested.
    UntestedInLowVision,
    /// How fast a hand shakes that holds a telescope has no published figure to be trusted.
    HandSpeedUnknown,
}

impl Caution {
    /// All of them.
    pub const ALL: [Self; 5] = [
        Self::NormalEyes,
        Self::VerticalMotion,
        Self::HighContrast,
        Self::UntestedInLowVision,
        Self::HandSpeedUnknown,
    ];

    /// Its stable key.
    ///
    /// ```
    /// use arcminute_core::steadiness::Caution;
    /// assert_eq!(Caution::HandSpeedUnknown.key(), "hand-speed-unknown");
    /// ```
    #[must_use]
    pub fn key(self) -> &'static str {
        match self {
            Self::NormalEyes => "motion-normal-eyes",
            Self::VerticalMotion => "motion-vertical",
            Self::HighContrast => "motion-high-contrast",
            Self::UntestedInLowVision => "motion-untested-in-low-vision",
            Self::HandSpeedUnknown => "hand-speed-unknown",
        }
    }

    /// The work that gives reason for it, or the statement that there is none.
    ///
    /// ```
    /// use arcminute_core::steadiness::Caution;
    /// assert_eq!(Caution::VerticalMotion.source().id, "demer-amjadi-1993");
    /// ```
    #[must_use]
    pub fn source(self) -> &'static Source {
        match self {
            Self::NormalEyes | Self::VerticalMotion | Self::HighContrast | Self::UntestedInLowVision => {
                &source::DEMER_AMJADI_1993
            }
            Self::HandSpeedUnknown => &source::COMMON_PRACTICE,
        }
    }
}

/// What a moving head leaves of the magnification of a telescope that is worn.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HeadMotion {
    /// Magnification as seen: positive for an upright image.
    pub magnification: Magnification,
    /// Speed of the eye over that of the head (gain of the vestibulo-ocular reflex); a pure ratio.
    pub gain: f64,
    /// Peak speed of the head.
    pub head: AngularSpeed,
    /// Speed of the image over the retina.
    pub slip: AngularSpeed,
    /// Times that the least detail grows by the slip; a pure ratio, at least 1.
    pub loss: f64,
    /// Magnification over loss, without sign; below 1 the telescope takes more than it gives.
    pub net: Magnification,
}

impl HeadMotion {
    /// What has to be said beside it.
    ///
    /// ```
    /// use arcminute_core::steadiness::{Caution, Image, head_motion};
    /// use arcminute_core::unit::{AngularSpeed, Magnification};
    /// let head = AngularSpeed::from_degrees_per_second(5.0);
    /// let motion = head_motion(Magnification::from_times(4.0), Image::Upright, 1.0, head)?;
    /// assert!(motion.cautions().contains(&Caution::UntestedInLowVision));
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    #[must_use]
    pub fn cautions(&self) -> [Caution; 4] {
        [Caution::NormalEyes, Caution::VerticalMotion, Caution::HighContrast, Caution::UntestedInLowVision]
    }
}

/// Speed of the image over the retina for each speed of the head: `|M − gain|`.
fn slip_per_head(magnification: Magnification, gain: f64) -> f64 {
    math::abs(magnification.times() - gain)
}

/// What a moving head leaves of a telescope that is worn.
///
/// `slip = |M − gain|·head`, `loss = max(1, (slip/2)^0.6)`, `net = |M|/loss`.
///
/// * `gain`: 1 for an eye that has not adapted; measured ones stand in [`REFLEX_GAINS`].
/// * Source: [`source::DEMER_AMJADI_1993`]; its limits are [`HeadMotion::cautions`].
///
/// # Errors
/// [`Why::OutOfRange`] outside [`bounds::POWER`], [`bounds::REFLEX_GAIN`] and [`bounds::HEAD_SPEED`].
///
/// ```
/// use arcminute_core::steadiness::{Image, head_motion};
/// use arcminute_core::unit::{AngularSpeed, Magnification};
/// // 4x, gain 1.5, head at 5 degrees a second: slip 12.5, loss 3.00, 1.33x left (computed).
/// let head = AngularSpeed::from_degrees_per_second(5.0);
/// let motion = head_motion(Magnification::from_times(4.0), Image::Upright, 1.5, head)?;
/// assert!((motion.slip.degrees_per_second() - 12.5).abs() < 1e-12);
/// assert!((motion.net.times() - 1.33).abs() < 0.005);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn head_motion(
    magnification: Magnification,
    image: Image,
    gain: f64,
    head: AngularSpeed,
) -> Result<HeadMotion, Error> {
    let magnification = image.seen(magnification)?;
    bounds::REFLEX_GAIN.check(gain)?;
    bounds::HEAD_SPEED.check(head.degrees_per_second())?;
    let slip = head * slip_per_head(magnification, gain);
    let loss = math::pow(slip / slip_without_loss(), EXPONENT).max(1.0);
    let net = Magnification::from_times(magnification.size() / loss);
    Ok(HeadMotion { magnification, gain, head, slip, loss, net })
}

#[cfg(feature = "alloc")]
fn speed(symbol: &'static str, speed: AngularSpeed) -> Named {
    Named::new(symbol, speed.degrees_per_second(), Unit::DegreePerSecond)
}

#[cfg(feature = "alloc")]
impl Explain for HeadMotion {
    fn steps(&self) -> Vec<Step> {
        let m = Named::new("M", self.magnification.times(), Unit::Times);
        let g = Named::new("g", self.gain, Unit::Plain);
        let slip = speed("s", self.slip);
        let loss = Named::new("loss", self.loss, Unit::Times);
        let net = Named::new("M_net", self.net.times(), Unit::Times);
        alloc::vec![
            Step::formula(&formula::RETINAL_SLIP, slip, [m, g, speed("omega", self.head)]),
            Step::formula(&formula::SLIP_LOSS, loss, [slip]),
            Step::formula(&formula::NET_MAGNIFICATION, net, [m, loss]),
        ]
    }
}

/// The slip at which the loss has eaten a magnification.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BreakEven {
    /// The magnification, without sign.
    pub magnification: Magnification,
    /// Slip at which the loss equals it.
    pub slip: AngularSpeed,
}

/// The slip at which a telescope shows no more than the bare eye at rest: `2·|M|^(1/0.6)`.
///
/// # Errors
/// [`Why::OutOfRange`] outside [`bounds::POWER`], [`Why::NoSolution`] for a magnification below 1.
///
/// ```
/// use arcminute_core::steadiness::break_even;
/// use arcminute_core::unit::Magnification;
/// // 4x: 20.2 degrees a second (computed).
/// let slip = break_even(Magnification::from_times(4.0))?.slip;
/// assert!((slip.degrees_per_second() - 20.2).abs() < 0.05);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn break_even(magnification: Magnification) -> Result<BreakEven, Error> {
    let magnification = Image::Upright.seen(magnification)?;
    if magnification.times() < 1.0 {
        let why = Why::NoSolution { because: "it makes things smaller, held still or not" };
        return Err(Error::about("power", format_args!("{} x", magnification.times()), why));
    }
    let slip = slip_without_loss() * math::pow(magnification.times(), 1.0 / EXPONENT);
    Ok(BreakEven { magnification, slip })
}

#[cfg(feature = "alloc")]
impl Explain for BreakEven {
    fn steps(&self) -> Vec<Step> {
        let m = Named::new("M", self.magnification.times(), Unit::Times);
        alloc::vec![Step::formula(&formula::BREAK_EVEN_SLIP, speed("s", self.slip), [m])]
    }
}

/// How fast a head may move so that the image slips no faster than costs nothing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SteadyHead {
    /// Magnification as seen: positive for an upright image.
    pub magnification: Magnification,
    /// Speed of the eye over that of the head; a pure ratio.
    pub gain: f64,
    /// The slip that is reached.
    pub slip: AngularSpeed,
    /// Speed of the head at which it is.
    pub head: AngularSpeed,
}

/// The speed of the head at which the image of a worn telescope begins to slip faster than costs nothing:
/// `2/|M − gain|` degrees a second.
///
/// # Errors
/// [`Why::OutOfRange`] outside [`bounds::POWER`] and [`bounds::REFLEX_GAIN`], [`Why::NoSolution`] where the eye keeps up
/// with the image at any speed.
///
/// ```
/// use arcminute_core::steadiness::{Image, steady_head};
/// use arcminute_core::unit::Magnification;
/// // 3x, gain 1: 1 degree a second (computed).
/// let head = steady_head(Magnification::from_times(3.0), Image::Upright, 1.0)?.head;
/// assert_eq!(head.degrees_per_second(), 1.0);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn steady_head(magnification: Magnification, image: Image, gain: f64) -> Result<SteadyHead, Error> {
    let magnification = image.seen(magnification)?;
    bounds::REFLEX_GAIN.check(gain)?;
    let slip = slip_without_loss();
    let head = slip / slip_per_head(magnification, gain);
    if !head.is_finite() {
        let why = Why::NoSolution { because: "the eye keeps up with the image at any speed" };
        return Err(Error::about("gain of the eye movement", format_args!("{gain}"), why));
    }
    Ok(SteadyHead { magnification, gain, slip, head })
}

#[cfg(feature = "alloc")]
impl Explain for SteadyHead {
    fn steps(&self) -> Vec<Step> {
        let m = Named::new("M", self.magnification.times(), Unit::Times);
        let g = Named::new("g", self.gain, Unit::Plain);
        let head = speed("omega", self.head);
        alloc::vec![Step::formula(&formula::STEADY_HEAD, head, [speed("s", self.slip), m, g])]
    }
}

/// How fast the image moves through a telescope that is held, the head still.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HandMotion {
    /// Magnification as seen: positive for an upright image.
    pub magnification: Magnification,
    /// Speed at which the telescope turns in the hand.
    pub hand: AngularSpeed,
    /// Speed of the image.
    pub image: AngularSpeed,
}

impl HandMotion {
    /// What has to be said beside it.
    ///
    /// ```
    /// use arcminute_core::steadiness::{Caution, Image, hand_motion};
    /// use arcminute_core::unit::{AngularSpeed, Magnification};
    /// let hand = AngularSpeed::from_degrees_per_second(3.0);
    /// let motion = hand_motion(Magnification::from_times(4.0), Image::Inverted, hand)?;
    /// assert_eq!(motion.cautions(), [Caution::HandSpeedUnknown]);
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    #[must_use]
    pub fn cautions(&self) -> [Caution; 1] {
        [Caution::HandSpeedUnknown]
    }
}

/// How fast the image moves when a held telescope turns before a still head: `(|M| − 1)·hand` upright, `(|M| + 1)·hand`
/// inverted; a hand steadied on the brow moves it with the head instead, see [`head_motion`].
///
/// Source: geometry. No loss of acuity is taken from it.
///
/// # Errors
/// [`Why::OutOfRange`] outside [`bounds::POWER`] and [`bounds::HEAD_SPEED`].
///
/// ```
/// use arcminute_core::steadiness::{Image, hand_motion};
/// use arcminute_core::unit::{AngularSpeed, Magnification};
/// let hand = AngularSpeed::from_degrees_per_second(3.0);
/// let motion = hand_motion(Magnification::from_times(4.0), Image::Upright, hand)?;
/// assert_eq!(motion.image.degrees_per_second(), 9.0);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn hand_motion(
    magnification: Magnification,
    image: Image,
    hand: AngularSpeed,
) -> Result<HandMotion, Error> {
    let magnification = image.seen(magnification)?;
    bounds::HEAD_SPEED.check(hand.degrees_per_second())?;
    Ok(HandMotion { magnification, hand, image: hand * math::abs(magnification.times() - 1.0) })
}

#[cfg(feature = "alloc")]
impl Explain for HandMotion {
    fn steps(&self) -> Vec<Step> {
        let m = Named::new("M", self.magnification.times(), Unit::Times);
        let image = speed("omega_image", self.image);
        alloc::vec![Step::formula(&formula::HELD_IMAGE_SPEED, image, [m, speed("omega", self.hand)])]
    }
}

mod facts;
pub use facts::{FACTS, Fact, MOTION_LOSSES, MotionLoss, REFLEX_GAINS, ReflexGain};

#[cfg(test)]
mod tests;
