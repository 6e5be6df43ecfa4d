//! Refractions and prescriptions.

use super::plain::plain;
use arcminute_core::Error;
use arcminute_core::bounds;
use arcminute_core::refraction::{self as core_refraction, Parsed, Prescription, Refraction};
use arcminute_core::unit::Vergence;

/// What a refraction box says.
#[derive(Clone, Debug, PartialEq)]
pub enum RefractionEntry {
    /// Nothing was written.
    Empty,
    /// It can mean one thing only.
    Understood {
        /// Sphere, cylinder, axis.
        refraction: Refraction,
        /// The addition for near, if one was written.
        add: Option<Vergence>,
        /// Said beside it when something about it is seldom met or is not used.
        unusual: Option<String>,
    },
    /// It can mean any of these; one of them is to be confirmed.
    Ask {
        /// What it can mean; at least one.
        choices: Vec<Prescription>,
    },
    /// It cannot be used.
    Refused(Error),
}

/// What a refraction box says: sphere, cylinder and axis, and an add for near where there is one.
///
/// See [`arcminute_core::refraction::parse()`] for what may be written.
///
/// ```
/// use arcminute_web::model::entry::{RefractionEntry, refraction};
/// let RefractionEntry::Understood { refraction, .. } = refraction("+2,00 −1,50 × 090") else { panic!() };
/// assert_eq!(refraction.to_string(), "+2.00 -1.50 x090");
/// ```
#[must_use]
pub fn refraction(text: &str) -> RefractionEntry {
    match prescription(text) {
        Parsed::Empty => RefractionEntry::Empty,
        Parsed::Understood(read) => RefractionEntry::Understood {
            refraction: read.refraction,
            add: read.add,
            unusual: remarks(&read),
        },
        Parsed::Ask { choices } => RefractionEntry::Ask { choices: choices.into_iter().collect() },
        Parsed::Refused(error) => RefractionEntry::Refused(error),
    }
}

/// What a prescription box says, add included.
///
/// ```
/// use arcminute_core::refraction::Parsed;
/// use arcminute_web::model::entry::prescription;
/// let Parsed::Understood(read) = prescription("plano add +2,50") else { panic!() };
/// assert_eq!(read.to_string(), "plano add +2.50");
/// ```
#[must_use]
pub fn prescription(text: &str) -> Parsed {
    match plain("refraction", text) {
        Ok(plain) => core_refraction::parse(&plain),
        Err(error) => Parsed::Refused(error),
    }
}

fn remarks(read: &Prescription) -> Option<String> {
    let refraction = read.refraction;
    let mut remarks = Vec::new();
    for (bound, power) in [(&bounds::SPHERE, refraction.sphere), (&bounds::CYLINDER, refraction.cylinder)] {
        if bound.is_unusual(power.dioptres()) {
            let (low, high) = bound.usual;
            let name = bound.name;
            remarks.push(format!("Unusual {name}: {low} to {high} D is usual. It is used as typed."));
        }
    }
    if read.has_odd_step() {
        remarks.push("Lenses are made in steps of 0.25 or 0.125 D. It is used as typed.".into());
    }
    if read.has_axis_without_cylinder() {
        remarks.push("There is an axis but no cylinder. It is used as typed.".into());
    }
    (!remarks.is_empty()).then(|| remarks.join(" "))
}
