//! Laws of blur, depth, thick lenses, traced rays, convergence and accommodation, over random inputs.
//!
//! Closed forms are written out here in plain numbers (metres, dioptres): a second road that shares only the inputs with
//! the crate.

#[path = "../law/mod.rs"]
mod law;

mod blur;
mod eyes;
mod rays;

use arcminute_core::unit::{Length, Prism, Vergence};
use proptest::prelude::*;

fn d(power: f64) -> Vergence {
    Vergence::from_dioptres(power)
}
fn m(length: f64) -> Length {
    Length::from_m(length)
}
fn prism(dioptres: f64) -> Prism {
    Prism::from_prism_dioptres(dioptres)
}
/// Within this share of the greater.
fn close(what: &str, one: f64, other: f64, share: f64) -> law::Verdict {
    prop_assert!((one - other).abs() <= share * one.abs().max(other.abs()), "{what}: {one} and {other}");
    Ok(())
}
