//! Numbers, angles and lens powers.

use super::plain::plain;
use arcminute_core::bounds::Bound;
use arcminute_core::scan::Cursor;
use arcminute_core::unit::{Angle, Vergence};
use arcminute_core::{Error, Why};

/// The number that a box holds, in the bound's unit; the unit may be written after it.
///
/// # Errors
/// What [`normalise`](super::normalise) refuses; [`Why::NotANumber`], [`Why::Trailing`], [`Why::OutOfRange`].
///
/// # Example
/// ```
/// use arcminute_core::bounds;
/// use arcminute_web::model::entry::number;
/// assert_eq!(number("", &bounds::POWER)?, None);
/// assert_eq!(number("2,5x", &bounds::POWER)?, Some(2.5));
/// assert!(number("12", &bounds::POWER)?.is_some_and(|power| bounds::POWER.is_unusual(power)));
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn number(text: &str, bound: &'static Bound) -> Result<Option<f64>, Error> {
    let plain = plain(bound.name, text)?;
    if plain.is_empty() {
        return Ok(None);
    }
    let cursor = &mut Cursor::new(&plain);
    let sign = cursor.sign().unwrap_or(1.0);
    let value = sign * unsigned(cursor, text, bound)?;
    unit(cursor, bound);
    cursor.end(bound.name, text.trim())?;
    bound.check(value).map(Some)
}

/// The angle that a box holds; `°`, `deg` or `degrees` may be written after it. The bound is in degrees.
///
/// # Errors
/// As [`number`].
///
/// ```
/// use arcminute_core::bounds;
/// use arcminute_web::model::entry::angle;
/// assert_eq!(angle("8°", &bounds::PANTOSCOPIC)?.map(|tilt| tilt.degrees()), Some(8.0));
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn angle(text: &str, bound: &'static Bound) -> Result<Option<Angle>, Error> {
    Ok(number(text, bound)?.map(Angle::from_degrees))
}

/// The lens power that a box holds; `plano` is zero, and `D` may be written after it.
///
/// Where both signs are possible the sign must be written, except with zero.
///
/// # Errors
/// As [`number`], and [`Why::Missing`] for a power that needs its sign.
///
/// ```
/// use arcminute_core::bounds;
/// use arcminute_web::model::entry::dioptres;
/// assert_eq!(dioptres("−2,50 D", &bounds::SPHERE)?.map(|sphere| sphere.dioptres()), Some(-2.5));
/// assert!(dioptres("2.50", &bounds::SPHERE).is_err());
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn dioptres(text: &str, bound: &'static Bound) -> Result<Option<Vergence>, Error> {
    let plain = plain(bound.name, text)?;
    if plain.is_empty() {
        return Ok(None);
    }
    let cursor = &mut Cursor::new(&plain);
    let value = if cursor.phrase(&["plano", "plan", "pl"]) {
        0.0
    } else {
        let sign = cursor.sign();
        let size = unsigned(cursor, text, bound)?;
        if sign.is_none() && size > 0.0 && bound.possible.0 < 0.0 {
            let why = Why::Missing { part: "a sign", example: "+2.50" };
            return Err(Error::new(bound.name, text.trim(), why));
        }
        sign.unwrap_or(1.0) * size
    };
    cursor.phrase(&["d", "dpt", "ds", "sph"]);
    cursor.end(bound.name, text.trim())?;
    bound.check(value).map(|value| Some(Vergence::from_dioptres(value)))
}

/// The number that comes next, or the message that there is none.
pub(super) fn unsigned(cursor: &mut Cursor<'_>, text: &str, bound: &Bound) -> Result<f64, Error> {
    let none = || Error::new(bound.name, text.trim(), Why::NotANumber { example: "12.5" });
    cursor.number().map(|number| number.value).ok_or_else(none)
}

/// Takes the bound's unit if it is written.
fn unit(cursor: &mut Cursor<'_>, bound: &Bound) {
    let taken = match bound.unit {
        "degrees" => cursor.take('°') || cursor.phrase(&["deg", "degrees", "degree"]),
        "x" | "times" => cursor.phrase(&["x", "times"]),
        "" => false,
        other => cursor.phrase(&[other]),
    };
    // Not written is in order too.
    let _ = taken;
}
