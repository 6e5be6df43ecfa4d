//! High-plus spectacles.

use crate::law::{agree, holds, shows_its_working, vanishes};
use arcminute_core::device::{
    Eye, HighPlusSpectacles, LensForm, Worn, look_from, spectacle_magnification, wear,
};
use arcminute_core::optics::ThickLens;
use arcminute_core::unit::{Length, LogMar, Vergence};
use proptest::prelude::*;

fn eye(sphere: f64, to_eye: f64) -> Eye {
    Eye {
        sphere: Vergence::from_dioptres(sphere),
        spectacle_to_eye: Length::from_m(to_eye),
        ..Eye::corrected(LogMar::from_log(1.0), LogMar::from_log(0.2))
    }
}

fn spectacles(form: LensForm) -> HighPlusSpectacles {
    HighPlusSpectacles { form, clear_diameter: Length::from_mm(40.0), transmittance: 1.0 }
}

/// `EVP = F + A − vFA`, `u = (1 − vA)/EVP`.
#[test]
fn thin_with_accommodation() {
    holds((1.0..50.0, 0.0..12.0, 0.008..0.025), |(add, accommodation, v)| {
        let form = LensForm::Addition { add: Vergence::from_dioptres(add) };
        let worn = wear(spectacles(form), &eye(0.0, v), Vergence::from_dioptres(accommodation))
            .expect("a plus lens focuses print");
        let evp = add + accommodation - v * add * accommodation;
        agree("equivalent power", worn.equivalent_viewing_power.dioptres(), evp)?;
        agree("print", worn.print_to_lens.m(), (1.0 - v * accommodation) / evp)?;
        agree("whole power", worn.power.dioptres(), add)?;
        agree("front vertex", worn.front_vertex_power.dioptres(), add)?;
        agree("back vertex", worn.back_vertex_power.dioptres(), add)?;
        prop_assert!(evp < add + accommodation + 1e-12, "the sum of the two is never below");
        shows_its_working(&worn)
    });
}

/// Over a distance refraction an addition is worth `add/(1 − v·F_d)` against the bare eye.
#[test]
fn addition_over_a_distance_lens() {
    holds((1.0..30.0, -15.0..12.0, 0.008..0.02), |(add, distance, v)| {
        let form = LensForm::Addition { add: Vergence::from_dioptres(add) };
        let worn = wear(spectacles(form), &eye(distance, v), Vergence::ZERO).expect("focuses print");
        let times = spectacle_magnification(Vergence::from_dioptres(distance), Length::from_m(v));
        agree("times", times, 1.0 / (1.0 - v * distance))?;
        agree("equivalent power", worn.equivalent_viewing_power.dioptres(), add * times)?;
        // The print stands at the focus of the addition alone, whatever the refraction.
        agree("print", worn.print_to_lens.m(), 1.0 / add)
    });
}

/// `F = F1 + F2 − (t/n)F1F2`, vertex powers, and print at the front focus.
#[test]
fn thick() {
    let inputs = (4.0..40.0, -10.0..20.0, 0.001..0.02, 1.4..1.9, 0.008..0.02, 0.0..6.0)
        .prop_filter("a plus lens", |(front, back, ..)| front + back > 3.0);
    holds(inputs, |(front, back, t, n, v, accommodation)| {
        let form = LensForm::Thick(ThickLens {
            front: Vergence::from_dioptres(front),
            back: Vergence::from_dioptres(back),
            thickness: Length::from_m(t),
            index: n,
        });
        let worn = wear(spectacles(form), &eye(0.0, v), Vergence::from_dioptres(accommodation))
            .expect("a plus lens focuses print");
        let power = front + back - t / n * front * back;
        vanishes("power", worn.power.dioptres() - power, front.abs() + back.abs())?;
        agree("back vertex", worn.back_vertex_power.dioptres(), power / (1.0 - t / n * front))?;
        agree("front vertex", worn.front_vertex_power.dioptres(), power / (1.0 - t / n * back))?;
        let a = accommodation;
        let evp = power * (1.0 - v * a) + a * (1.0 - t / n * front);
        vanishes("equivalent power", worn.equivalent_viewing_power.dioptres() - evp, power + a)?;
        let print = (1.0 - t / n * back - a * (v * (1.0 - t / n * back) + t / n)) / evp;
        vanishes("print", worn.print_to_lens.m() - print, 1.0 / evp)?;
        shows_its_working(&worn)
    });
}

/// A thick lens without thickness is the thin one.
#[test]
fn thick_becomes_thin() {
    holds((4.0..40.0, 0.0..20.0, 0.0..6.0), |(front, back, accommodation)| {
        let d = Vergence::from_dioptres;
        let thick = LensForm::Thick(ThickLens {
            front: d(front),
            back: d(back),
            thickness: Length::ZERO,
            index: 1.5,
        });
        let thin = LensForm::Addition { add: d(front + back) };
        let worn = |form| wear(spectacles(form), &eye(0.0, 0.014), d(accommodation)).expect("focuses print");
        let (thick, thin) = (worn(thick), worn(thin));
        agree("print", thick.print_to_lens.m(), thin.print_to_lens.m())?;
        agree("power", thick.equivalent_viewing_power.dioptres(), thin.equivalent_viewing_power.dioptres())
    });
}

/// Without a device: relative distance and relative size multiply.
#[test]
fn nearer_and_larger() {
    let inputs = (0.03..2.0, 1.0..20.0, -8.0..8.0, 0.0..4.0, 0.0..0.02);
    holds(inputs, |(distance, larger, sphere, add, v)| {
        let eye = Eye {
            worn: if add > 0.5 { Worn::Near { add: Vergence::from_dioptres(add) } } else { Worn::Nothing },
            ..eye(sphere, v)
        };
        let power = if add > 0.5 { sphere + add } else { 0.0 };
        let bare = (distance - v) * (1.0 - v * power) + v;
        prop_assume!(bare > 0.01);
        let seen = look_from(&eye, Length::from_m(distance), larger).expect("before the glasses");
        agree("equivalent distance", seen.equivalent_viewing_distance.m(), bare / larger)?;
        let demand = (1.0 - (distance - v) * power) / bare;
        vanishes("demand", seen.focus_demand.dioptres() - demand, 1.0 / bare)?;
        shows_its_working(&seen)
    });
}
