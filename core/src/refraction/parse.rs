//! Reading a prescription as it is written.

use super::{
    Refraction,
    power::{MEANINGS, Power},
};
use crate::bounds;
use crate::error::{Error, Why};
use crate::list::List;
use crate::math;
use crate::scan::{self, Cursor};
use crate::unit::Vergence;

/// A refraction with an addition for near, as typed.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Prescription {
    /// Sphere, cylinder, axis.
    pub refraction: Refraction,
    /// Addition for near.
    pub add: Option<Vergence>,
}

/// Most prescriptions that a text can mean: a sphere and a cylinder of so many meanings each, and an add that needs no
/// sign.
const MOST: usize = MEANINGS * MEANINGS * MEANINGS / 2;

/// What a text was understood as.
#[derive(Clone, Debug, PartialEq)]
#[expect(clippy::large_enum_variant, reason = "the list stands in place, since there is no allocator")]
pub enum Parsed {
    /// Nothing was written.
    Empty,
    /// It can mean one thing only.
    Understood(Prescription),
    /// It can mean any of these; one of them is to be confirmed.
    Ask {
        /// What it can mean; at least one.
        choices: List<Prescription, MOST>,
    },
    /// It cannot be used.
    Refused(Error),
}

impl Prescription {
    /// Whether a power is not in the steps lenses are made in: not a multiple of 0.125 D, written out or cut or
    /// rounded to two decimals (0.12, 0.38). It is kept; the page says so.
    ///
    /// ```
    /// use arcminute_core::refraction::{Parsed, parse};
    /// let odd = |text| matches!(parse(text), Parsed::Understood(read) if read.has_odd_step());
    /// // An eighth may be cut to 0.12; a tenth is no step.
    /// assert_eq!(["+2.25", "+2.12", "+2.10"].map(odd), [false, false, true]);
    /// ```
    #[must_use]
    pub fn has_odd_step(&self) -> bool {
        let odd = |power: Vergence| {
            let eighths = power.dioptres() * 8.0;
            // 0.12 for 0.125 is off by 0.04 of an eighth.
            math::abs(eighths - math::round(eighths)) > 0.041
        };
        odd(self.refraction.sphere) || odd(self.refraction.cylinder) || self.add.is_some_and(odd)
    }

    /// Whether there is an axis but no cylinder for it: one of the two may have been forgotten.
    ///
    /// ```
    /// use arcminute_core::refraction::{Parsed, parse};
    /// let forgotten = |text| matches!(parse(text), Parsed::Understood(read) if read.has_axis_without_cylinder());
    /// assert_eq!(["+2.00", "+2.00 x 90", "+2.00 -1.00 x 90"].map(forgotten), [false, true, false]);
    /// ```
    #[must_use]
    pub fn has_axis_without_cylinder(&self) -> bool {
        self.refraction.axis.is_some() && self.refraction.cylinder == Vergence::ZERO
    }
}

/// What `text` says, in trade notation with a decimal point and plain digits: `+2.00 -1.50 x 090 add +2.50`.
///
/// * No sphere: `plano`, `plan`, `pl`, `0.00`. After a power `D`, `DS`, `sph`, `DC`, `cyl` may stand; between sphere
///   and cylinder a `/`.
/// * Axis after `x`, `@`, `ax` or `axis`; 0 becomes 180.
/// * A power without a sign is asked about, unless it is zero or an add. Three digits or more without a point
///   (`-150`), and a bare 25, 50 or 75, may be hundredths and are asked about.
/// * A power in odd steps, or an axis without a cylinder, is kept: [`Prescription::has_odd_step`],
///   [`Prescription::has_axis_without_cylinder`].
///
/// # Example
/// ```
/// use arcminute_core::refraction::{Parsed, parse};
/// let Parsed::Understood(read) = parse("+2.00 -1.50 x 90 add 2.5") else { panic!() };
/// assert_eq!(read.to_string(), "+2.00 -1.50 x090 add +2.50");
/// let Parsed::Ask { choices } = parse("2.00") else { panic!() };
/// assert_eq!(choices[0].to_string(), "+2.00");
/// assert_eq!(choices[1].to_string(), "-2.00");
/// ```
#[must_use]
pub fn parse(text: &str) -> Parsed {
    read(text).unwrap_or_else(Parsed::Refused)
}

fn missing(quantity: &'static str, text: &str, part: &'static str) -> Error {
    Error::new(quantity, text, Why::Missing { part, example: "+2.00 -1.50 x 090" })
}

fn read(text: &str) -> Result<Parsed, Error> {
    let text = scan::entry("refraction", text)?;
    if text.is_empty() {
        return Ok(Parsed::Empty);
    }
    let cursor = &mut Cursor::new(text);
    if cursor.phrase(&["add"]) {
        return Err(missing("refraction", text, "a sphere before the add"));
    }
    let Some(sphere) = Power::read(cursor, false) else {
        let why = Why::NotANumber { example: "+2.00 -1.50 x 090" };
        return Err(Error::new("refraction", text, why));
    };
    let sphere = sphere.within(&bounds::SPHERE)?;
    cursor.phrase(&["ds", "sph", "d"]);
    cursor.take('/');
    let cylinder = Power::read(cursor, false);
    if cylinder.is_some() {
        cursor.phrase(&["dc", "cyl", "d"]);
    }
    let axis = axis(cursor, text)?;
    let without_axis = cylinder.is_some() && axis.is_none();
    let cylinder = cylinder.unwrap_or_else(Power::zero);
    if without_axis && cylinder.choices.iter().any(|value| math::abs(*value) > 0.0) {
        end_or_add(cursor, text)?;
        return Err(missing("cylinder", cylinder.written.as_str(), "an axis"));
    }
    let cylinder = cylinder.within(&bounds::CYLINDER)?;
    let add = if cursor.phrase(&["add"]) {
        let Some(add) = Power::read(cursor, true) else {
            return Err(missing("add", text, "a power after it"));
        };
        cursor.phrase(&["d"]);
        Some(add.within(&bounds::ADD)?)
    } else {
        None
    };
    cursor.end("refraction", text)?;
    combine(&sphere, &cylinder, axis, add.as_ref())
}

/// Fails with the rest when the text after a cylinder is not an add: better said than that the axis is missing.
fn end_or_add(cursor: &Cursor<'_>, text: &str) -> Result<(), Error> {
    let mut ahead = *cursor;
    if ahead.phrase(&["add"]) { Ok(()) } else { cursor.end("refraction", text) }
}

/// An axis if one came next; 0 becomes 180.
fn axis(cursor: &mut Cursor<'_>, text: &str) -> Result<Option<u16>, Error> {
    if !(cursor.take('@') || cursor.phrase(&["x", "ax", "axis"])) {
        return Ok(None);
    }
    let before = *cursor;
    let sign = cursor.sign().unwrap_or(1.0);
    let Some(number) = cursor.number() else {
        return Err(missing("refraction", text, "degrees after the axis sign"));
    };
    bounds::AXIS.check(sign * number.value)?;
    let Some(axis) = number.whole() else {
        let why = Why::NotANumber { example: "x 090" };
        return Err(Error::new("axis", before.rest(), why));
    };
    let _ = cursor.take('°') || cursor.phrase(&["deg", "degrees"]);
    Ok(Some(if axis == 0 { 180 } else { axis }))
}

fn combine(
    sphere: &Power,
    cylinder: &Power,
    axis: Option<u16>,
    add: Option<&Power>,
) -> Result<Parsed, Error> {
    let mut adds: List<Option<f64>, MEANINGS> = List::new();
    let no_add = [None];
    let written = add.into_iter().flat_map(|add| add.choices.iter().copied().map(Some));
    for meaning in written.chain(no_add.into_iter().filter(|_| add.is_none())) {
        // There are as many places as meanings.
        let _ = adds.try_push(meaning);
    }
    let mut choices = List::new();
    for sphere in &sphere.choices {
        for cylinder in &cylinder.choices {
            for add in &adds {
                let dioptres = Vergence::from_dioptres;
                let refraction = Refraction::of(dioptres(*sphere), dioptres(*cylinder), axis)?;
                // There is room for every meaning of every part.
                let _ = choices.try_push(Prescription { refraction, add: add.map(dioptres) });
            }
        }
    }
    let sure = sphere.sure && cylinder.sure && add.is_none_or(|add| add.sure);
    Ok(match choices[..] {
        [only] if sure => Parsed::Understood(only),
        _ => Parsed::Ask { choices },
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use alloc::string::{String, ToString};
    use alloc::vec::Vec;

    #[track_caller]
    fn understood(text: &str, wanted: &str) -> Prescription {
        let Parsed::Understood(read) = parse(text) else { panic!("{text} gave {:?}", parse(text)) };
        assert_eq!(read.to_string(), wanted, "{text}");
        read
    }
    #[track_caller]
    fn asks(text: &str, wanted: &[&str]) {
        let Parsed::Ask { choices } = parse(text) else { panic!("{text} gave {:?}", parse(text)) };
        let choices: Vec<String> = choices.iter().map(ToString::to_string).collect();
        assert_eq!(choices, wanted, "{text}");
    }
    #[track_caller]
    fn refused(text: &str, message: &str, hint: &str) {
        let Parsed::Refused(error) = parse(text) else { panic!("{text} gave {:?}", parse(text)) };
        assert_eq!(
            (error.to_string().as_str(), error.hint().to_string().as_str()),
            (message, hint),
            "{text}"
        );
    }

    #[test]
    fn ways_of_writing() {
        assert_eq!(parse(" \t"), Parsed::Empty);
        for text in [
            "+2.00 -1.50 x 090",
            "+2 -1.5x90",
            "+2.00DS/-1.50DC X 90",
            "+2.00 sph -1.50 cyl axis 90",
            "+2.0-1.5@90°",
            "+2.00 -1.50 x 90 deg",
            "+2.00 -1.50 x 90 degrees",
        ] {
            understood(text, "+2.00 -1.50 x090");
        }
        for text in
            ["plano", "PL", "0.00", "0", "000", "-000", "-0.00 DS", "pl sph", "pl 0.00", "plano plano"]
        {
            understood(text, "plano");
        }
        let nothing = understood("-0.00 -0.00 x 90", "plano 0.00 x090").refraction;
        for power in [nothing.sphere, nothing.cylinder] {
            assert!(
                power.dioptres().is_sign_positive(),
                "a minus before nothing counts for nothing: {nothing:?}"
            );
        }
        understood("-0.25 -0.50 ax 5", "-0.25 -0.50 x005");
        understood("plano -1.00 x 0", "plano -1.00 x180");
        understood("+12 DS add +10", "+12.00 add +10.00");
        understood("-3.00 add 2.50", "-3.00 add +2.50");
    }

    #[test]
    fn what_is_odd_is_kept_and_said() {
        for odd in ["+2.30", "+2.00 -1.10 x090", "+2.00 add +2.10", "+2.00 -1.00 x090 add +2.10"] {
            assert!(understood(odd, odd).has_odd_step(), "{odd}: no lens is made so");
        }
        for (text, wanted) in
            [("+0.125", "+0.125"), ("-0.12", "-0.12"), ("+0.38", "+0.38"), ("+0.37", "+0.37")]
        {
            assert!(!understood(text, wanted).has_odd_step(), "{text} is an eighth");
        }
        let axis_only = understood("+2.00 x 90", "+2.00 0.00 x090");
        assert!(axis_only.has_axis_without_cylinder(), "the cylinder may have been forgotten");
    }

    #[test]
    fn what_can_mean_two_things_is_asked() {
        asks("2.00", &["+2.00", "-2.00"]);
        asks("+2.00 1.50 x 90", &["+2.00 +1.50 x090", "+2.00 -1.50 x090"]);
        asks("-150", &["-1.50"]);
        asks("+1050", &["+10.50"]);
        asks("+25", &["+0.25", "+25.00"]);
        asks("-2.00 add 250", &["-2.00 add +2.50"]);
    }

    #[test]
    fn every_message() {
        let example = "type for example `+2.00 -1.50 x 090`";
        refused("+2.00 -1.50", "cylinder `-1.50` needs an axis", example);
        refused("+2.00 -1.5", "cylinder `-1.5` needs an axis", example);
        refused("+2.00 -1.50 add 2", "cylinder `-1.50` needs an axis", example);
        refused("+2.00 -1.50 x 181", "axis `181 degrees` is not possible", "use 0 to 180 degrees");
        refused("+2.00 -1.50 x -5", "axis `-5 degrees` is not possible", "use 0 to 180 degrees");
        refused("+2.00 -1.50 x 92.5", "axis `92.5` was not understood", "type for example `x 090`");
        refused("+2.00 -1.50 x", "refraction `+2.00 -1.50 x` needs degrees after the axis sign", example);
        refused("+70.00", "sphere `+70.00` is not possible", "use -60 to 40 D");
        refused("+2.00 -30.00 x 90", "cylinder `-30.00` is not possible", "use -20 to 20 D");
        refused("+2.00 add -2.00", "add `-2.00` is not possible", "use 0 to 40 D");
        refused("+2.00 add", "add `+2.00 add` needs a power after it", example);
        refused("add +2.50", "refraction `add +2.50` needs a sphere before the add", example);
        refused("-", "refraction `-` was not understood", example);
        refused("good", "refraction `good` was not understood", example);
        refused("+2.00 2 BI", "refraction `+2.00 2 BI` was understood only in part", "take away `BI`");
    }
}
