//! Random telescopes.

use arcminute_core::optics::{Element, Sight, Telescope, Train};
use arcminute_core::unit::{Length, Vergence};
use proptest::prelude::*;

/// A random telescope and the eye behind it; metres and dioptres.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Case {
    pub(crate) objective: f64,
    pub(crate) magnification: f64,
    pub(crate) diameter: f64,
    pub(crate) eye: f64,
    pub(crate) pupil: f64,
}

impl Case {
    pub(crate) fn eyepiece(&self) -> f64 {
        -self.magnification * self.objective
    }
    pub(crate) fn length(&self) -> f64 {
        (self.magnification - 1.0) / (self.magnification * self.objective)
    }
    pub(crate) fn exit_pupil(&self) -> f64 {
        self.diameter / self.magnification.abs()
    }
    /// Behind the eyepiece.
    pub(crate) fn exit_pupil_place(&self) -> f64 {
        -self.length() / self.magnification
    }
    pub(crate) fn telescope(&self) -> Telescope {
        Telescope::from_lenses(
            Vergence::from_dioptres(self.objective),
            Vergence::from_dioptres(self.eyepiece()),
            Length::from_m(self.diameter),
        )
        .expect("two such lenses make a telescope")
    }
    pub(crate) fn train_to_eye(&self) -> Train {
        self.telescope().afocal_train().to_eye(Length::from_m(self.eye))
    }
    /// The train with a cap before it.
    pub(crate) fn capped(&self, cap: f64) -> Train {
        let lens = Element::Lens { power: Vergence::from_dioptres(cap), clear_diameter: None };
        Train::new([lens]).then(&self.telescope().afocal_train()).expect("few parts")
    }
}

fn sized(size: impl Strategy<Value = f64>) -> impl Strategy<Value = Case> {
    (4.0..60.0, size, 0.004..0.060, 0.005..0.040, 0.001..0.008).prop_map(
        |(objective, magnification, diameter, eye, pupil)| Case {
            objective,
            magnification,
            diameter,
            eye,
            pupil,
        },
    )
}
pub(crate) fn galilean() -> impl Strategy<Value = Case> {
    sized(1.2..12.0)
}
pub(crate) fn keplerian() -> impl Strategy<Value = Case> {
    sized(-12.0..-1.2)
}
pub(crate) fn either() -> impl Strategy<Value = Case> {
    prop_oneof![galilean(), keplerian()]
}
/// Ametropia in quarter dioptres, as refractions are written.
pub(crate) fn ametropia() -> impl Strategy<Value = f64> {
    (-60..=60).prop_map(|quarters| f64::from(quarters) / 4.0)
}
pub(crate) fn sight() -> impl Strategy<Value = Sight> {
    prop_oneof![Just(Sight::Far), (0.15..20.0).prop_map(|x| Sight::At(Length::from_m(x)))]
}
/// Vergence of the thing at the objective.
pub(crate) fn arriving(sight: Sight) -> f64 {
    match sight {
        Sight::Far => 0.0,
        Sight::At(distance) => -1.0 / distance.m(),
    }
}
