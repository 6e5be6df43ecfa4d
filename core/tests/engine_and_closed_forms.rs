//! The ray-transfer engine against textbook closed forms, and laws, over random telescopes.
//!
//! The closed forms are written out here in plain numbers (metres, dioptres): a second road that shares only the inputs
//! with the crate. Inputs near a singularity are left out of the domain, each with its reason; the tolerance is one and
//! the same for everything.

mod law;
mod random;

use arcminute_core::math;
use arcminute_core::optics::{
    Design, Element, Field, RayMatrix, Sight, Train, ametropia_at_eyepiece, apparent_field,
    correction_on_objective, depth_of_field, disc_overlap, field_of_view, lenses_from_length, light_through,
    minus_lens, reading_cap, ring_scotoma, through_afocal, view,
};
use arcminute_core::predict::{power_needed, predict};
use arcminute_core::task::{Goal, Target, demand};
use arcminute_core::unit::{Angle, Length, LogMar, Magnification, Vergence};
use law::{CASES, SAME, agree, holds, shows_its_working, tried, vanishes};
use proptest::prelude::*;
use random::{Case, ametropia, arriving, either, galilean, keplerian, sight};

#[test]
fn afocal_telescope() {
    holds(either(), |case| {
        let afocal = case.telescope().afocal();
        agree("magnification", afocal.magnification.times(), case.magnification)?;
        agree("length", afocal.length.m(), case.length())?;
        agree("exit pupil", afocal.exit_pupil.m(), case.exit_pupil())?;
        agree("exit pupil place", afocal.exit_pupil_behind_eyepiece.m(), case.exit_pupil_place())?;
        let design = if case.magnification < 0.0 { Design::Keplerian } else { Design::Galilean };
        prop_assert_eq!(case.telescope().design(), design);
        let matrix = case.telescope().afocal_train().matrix();
        agree("A", matrix.a, 1.0 / case.magnification)?;
        agree("B", matrix.b.m(), case.length())?;
        vanishes("C", matrix.c.dioptres(), case.eyepiece())?;
        agree("D", matrix.d, case.magnification)?;
        let lenses = lenses_from_length(afocal.length, afocal.magnification).expect("it exists");
        agree("objective from length", lenses.objective.dioptres(), case.objective)?;
        agree("eyepiece from length", lenses.eyepiece.dioptres(), case.eyepiece())?;
        shows_its_working(&lenses)?;
        shows_its_working(&afocal)
    });
}

/// Vergences of a near thing at eyepiece and eye. Left out: an image within a twentieth of the way of falling on the
/// eyepiece or on the eye, where the vergence has no end.
fn near_thing() -> impl Strategy<Value = (Case, f64)> {
    (either(), 0.15..20.0_f64).prop_filter("image on the eyepiece or the eye", |(case, x)| {
        let (m, d, u) = (case.magnification, case.length(), -1.0 / x);
        0.05 < (1.0 - d * m * u).abs() && 0.05 < (1.0 - (case.eye + d / m) * m * m * u).abs()
    })
}

#[test]
fn near_thing_through_an_afocal_telescope() {
    holds(near_thing(), |(case, x)| {
        let near = through_afocal(&case.telescope(), Length::from_m(x), Length::from_m(case.eye));
        let (m, d, u) = (case.magnification, case.length(), -1.0 / x);
        agree("at the eyepiece", near.at_eyepiece.dioptres(), m * m * u / (1.0 - d * m * u))?;
        agree("at the exit pupil", near.at_exit_pupil.dioptres(), m * m * u)?;
        agree("at the eye", near.at_eye.dioptres(), m * m * u / (1.0 - (case.eye + d / m) * m * m * u))?;
        let back = near.at_eyepiece.dioptres();
        agree("and back to the thing", back / (m * m + d * m * back), u)?;
        shows_its_working(&near)
    });
}

/// Refocused telescopes. Left out: things within one and a half focal lengths, eyepieces that would lend more than four
/// fifths of their power, tubes shorter than a tenth of the objective's focal length, and near and far cancelling to a
/// travel below a thousandth of a millimetre.
fn refocused() -> impl Strategy<Value = (Case, Sight, f64)> {
    (either(), sight(), ametropia()).prop_filter("cannot be focused, or only just", |(case, sight, k)| {
        let (behind, lent) = (case.objective + arriving(*sight), (case.eyepiece() - k) / case.eyepiece());
        let length = 1.0 / behind + 1.0 / (case.eyepiece() - k);
        let travel = length - case.length();
        case.objective / 3.0 <= behind
            && 0.2 < lent
            && 0.1 / case.objective < length
            && (1e-6 < travel.abs() || (*sight == Sight::Far && *k == 0.0))
    })
}

#[test]
fn telescope_refocused_by_its_tube() {
    holds(refocused(), |(case, sight, k)| {
        let (f_o, f_e, u) = (case.objective, case.eyepiece(), arriving(sight));
        let focused = case.telescope().focused(sight, Vergence::from_dioptres(k)).expect("within the domain");
        let length = 1.0 / (f_o + u) + 1.0 / (f_e - k);
        agree("length", focused.length.m(), length)?;
        agree("travel", focused.travel.m(), -u / (f_o * (f_o + u)) + k / (f_e * (f_e - k)))?;
        agree("magnification", focused.magnification.times(), -(f_e - k) / (f_o + u))?;
        if sight == Sight::Far {
            agree("M + K/F_o", focused.magnification.times(), case.magnification + k / f_o)?;
            agree("1/(1 - d'F_o)", focused.magnification.times(), 1.0 / (1.0 - length * f_o))?;
            prop_assert!(k * focused.travel.m() >= 0.0, "shorter for the myope, longer for the hyperope");
        }
        let leaving = view(&focused.train, sight);
        vanishes("focus at the eyepiece", leaving.focus_demand.dioptres() + k, k.abs().max(1.0))?;
        let seen = view(&focused.train.clone().to_eye(Length::from_m(case.eye)), sight);
        vanishes(
            "focus at the eye",
            seen.focus_demand.dioptres() + k / (1.0 - case.eye * k),
            k.abs().max(1.0),
        )?;
        if let (Sight::At(x), 0.0) = (sight, k) {
            let m_near = -f_e / (f_o + u);
            agree("Newton", focused.travel.m(), 1.0 / (f_o * f_o) / (x.m() - 1.0 / f_o))?;
            agree("against the bare eye", seen.enlargement, m_near * (x.m() + length + case.eye) / x.m())?;
            let evd = seen.equivalent_viewing_distance.expect("a near thing has one");
            agree("equivalent power", 1.0 / evd.m(), (m_near * u).abs())?;
        }
        shows_its_working(&focused)
    });
}

#[test]
fn spectacle_power_in_the_plane_of_the_eyepiece() {
    let inputs = (ametropia(), 0.005..0.040, 0.005..0.040);
    holds(inputs, |(spectacle, worn, eyepiece)| {
        let moved = ametropia_at_eyepiece(
            Vergence::from_dioptres(spectacle),
            Length::from_m(worn),
            Length::from_m(eyepiece),
        );
        let closed_form = spectacle / (1.0 + (eyepiece - worn) * spectacle);
        agree("at the eyepiece", moved.ametropia.dioptres(), closed_form)?;
        shows_its_working(&moved)
    });
}

/// Left out: corrections that would take more than four fifths of the magnification.
#[test]
fn correction_worn_on_the_objective() {
    let inputs = (either(), ametropia()).prop_filter("almost no magnification left", |(case, k)| {
        0.2 < (case.magnification + case.length() * k) / case.magnification
    });
    holds(inputs, |(case, k)| {
        let (m, d) = (case.magnification, case.length());
        let correction =
            correction_on_objective(&case.telescope(), Vergence::from_dioptres(k)).expect("mild enough");
        agree("cap", correction.cap.dioptres(), k / (m * m + d * m * k))?;
        agree("short rule", correction.short_rule.dioptres(), k / (m * m))?;
        agree("magnification", correction.magnification.times(), m + d * k)?;
        let left = view(&case.capped(correction.cap.dioptres()), Sight::Far).focus_demand.dioptres();
        vanishes("focus at the eyepiece", left + k, k.abs().max(1.0))?;
        shows_its_working(&correction)
    });
}

#[test]
fn reading_cap_wherever_the_eye_is() {
    holds((either(), 1.0..20.0), |(case, cap)| {
        let power = case.magnification.abs() * cap;
        let record = reading_cap(&case.telescope(), Vergence::from_dioptres(cap)).expect("a plus lens");
        agree("equivalent power", record.equivalent_viewing_power.dioptres(), power)?;
        agree("working distance", record.working_distance.m(), 1.0 / cap)?;
        let train = case.capped(cap).to_eye(Length::from_m(case.eye));
        let seen = view(&train, Sight::At(record.working_distance));
        let evd = seen.equivalent_viewing_distance.expect("print has one");
        agree("equivalent power at the eye", 1.0 / evd.m(), power)?;
        vanishes("focus", seen.focus_demand.dioptres(), power)?;
        shows_its_working(&record)
    });
}

/// Tangent of the apparent half-field of a Galilean at which this share of the bundle's width is left.
///
/// `(D_o + s·M·p) / (2(d + M·v))` with s = −1, 0, +1, as long as the objective is the wider; the pupil and the
/// image of the objective change places otherwise.
fn galilean_tangent(case: &Case, share: f64) -> f64 {
    let (m, wide) = (case.magnification, case.magnification * case.pupil);
    let left = case.diameter + wide - 2.0 * share * wide.min(case.diameter);
    left / (2.0 * (case.length() + m * case.eye))
}

fn tangents(field: &Field) -> [f64; 3] {
    [field.full, field.half, field.last].map(|angle| (angle / 2.0).tangent())
}

/// Left out: an objective within a twentieth of M times the pupil, where the whole field shrinks to nothing.
#[test]
fn galilean_field() {
    let inputs = (galilean(), 0.15..20.0, 1.0..20.0).prop_filter("no whole field", |(case, _, _)| {
        0.05 * case.diameter < (case.diameter - case.magnification * case.pupil).abs()
    });
    holds(inputs, |(case, x, cap)| {
        let (m, d, d_o) = (case.magnification, case.length(), case.diameter);
        let reach = d + m * case.eye;
        let train = case.train_to_eye();
        let field = field_of_view(&train, Length::from_m(case.pupil)).expect("the objective limits it");
        let real = tangents(&field.real(&train));
        for (index, share) in [1.0, 0.5, 0.0].into_iter().enumerate() {
            let closed_form = galilean_tangent(&case, share);
            agree("apparent", tangents(&field)[index], closed_form)?;
            agree("real", real[index], closed_form / m)?;
        }
        if m * case.pupil < d_o {
            agree("half", tangents(&field)[1], d_o / (2.0 * reach))?;
            let evd = view(&train, Sight::At(Length::from_m(x))).equivalent_viewing_distance;
            let width = field.width_at(evd.expect("a near thing has one"));
            agree("width", width.m(), 2.0 * x * d_o / (2.0 * m * reach) + d_o)?;
            let evd = view(
                &case.capped(cap).to_eye(Length::from_m(case.eye)),
                Sight::At(Length::from_m(1.0 / cap)),
            )
            .equivalent_viewing_distance;
            let width = field.width_at(evd.expect("print has one"));
            agree("width with cap", width.m(), d_o / (cap * m * reach))?;
        }
        Ok(())
    });
}

/// The eye in the exit pupil or along the axis from it by at least a tenth of a millimetre.
///
/// Left out: a pupil within a twentieth of the exit pupil, where the whole field off the exit pupil shrinks to nothing.
#[test]
fn keplerian_field_by_its_stop() {
    let off = prop_oneof![Just(0.0_f64), 0.0001..0.010, -0.010..-0.0001];
    let inputs = (keplerian(), 0.2..0.8_f64, off).prop_filter("no whole field", |(case, _, off)| {
        0.05 * case.pupil < (case.pupil - case.exit_pupil()).abs() && 0.001 < case.exit_pupil_place() + off
    });
    holds(inputs, |(case, tangent, off)| {
        let mut telescope = case.telescope();
        telescope.field_stop = Some(Length::from_m(2.0 * tangent / case.eyepiece()));
        let exit_pupil = telescope.afocal().exit_pupil_behind_eyepiece;
        let train = telescope.afocal_train().to_eye(exit_pupil + Length::from_m(off));
        let field = field_of_view(&train, Length::from_m(case.pupil)).expect("the stop limits it");
        let (p, e) = (case.pupil, case.exit_pupil());
        for (index, share) in [1.0, 0.5, 0.0].into_iter().enumerate() {
            let wandering = (p + e - 2.0 * share * p.min(e)) / (2.0 * off.abs());
            agree("apparent", tangents(&field)[index], tangent.min(wandering))?;
        }
        if off == 0.0 {
            let real = tangents(&field.real(&train))[1];
            let stop = 2.0 * tangent / case.eyepiece();
            agree("real", real, stop * case.objective / 2.0)?;
            let real = Angle::from_tangent(real) * 2.0;
            let apparent = apparent_field(Magnification::from_times(case.magnification), real);
            agree("tangent rule", apparent.arcmin(), field.half.arcmin())?;
        }
        Ok(())
    });
}

/// Left out: eyepieces hardly wider than the exit pupil.
#[test]
fn keplerian_field_by_the_eyepiece_rim() {
    let inputs = (keplerian(), 0.004..0.040).prop_filter("no whole field", |(case, rim)| {
        case.exit_pupil() < case.pupil && 1.05 * case.exit_pupil() < *rim
    });
    holds(inputs, |(case, rim)| {
        let mut telescope = case.telescope();
        telescope.eyepiece_diameter = Some(Length::from_m(rim));
        let train = telescope.afocal_train().to_eye(telescope.afocal().exit_pupil_behind_eyepiece);
        let field =
            field_of_view(&train, Length::from_m(case.pupil)).expect("the rim limits it").real(&train);
        let d = case.length();
        agree("full", tangents(&field)[0], (rim - case.exit_pupil()) / (2.0 * d))?;
        agree("half", tangents(&field)[1], rim / (2.0 * d))?;
        agree("last", tangents(&field)[2], (rim + case.exit_pupil()) / (2.0 * d))
    });
}

/// A stop in the image of a telescope focused near: `tan(r/2) = (D_s/2)(F_o + U)`, width `2·x·tan(r/2)`.
#[test]
fn keplerian_field_focused_near() {
    let inputs = (keplerian(), 0.2..0.8, 0.4..20.0)
        .prop_filter("too near to focus", |(case, _, x)| case.objective / 3.0 <= case.objective - 1.0 / x);
    holds(inputs, |(case, tangent, x)| {
        let mut telescope = case.telescope();
        let stop = 2.0 * tangent / case.eyepiece();
        telescope.field_stop = Some(Length::from_m(stop));
        let sight = Sight::At(Length::from_m(x));
        let focused = telescope.focused(sight, Vergence::ZERO).expect("within the domain");
        let behind = RayMatrix::gap(focused.length).then(RayMatrix::lens(focused.eyepiece));
        let train = focused.train.to_eye(-(behind.b / behind.d));
        let field = field_of_view(&train, Length::from_m(case.pupil)).expect("the stop limits it");
        let evd = view(&train, sight).equivalent_viewing_distance.expect("a near thing has one");
        agree("width", field.width_at(evd).m(), 2.0 * x * stop / 2.0 * (case.objective - 1.0 / x))
    });
}

/// Near end of focus, from the eyepiece-plane vergence carried back: `U = U_out/(M² + d·M·U_out)`.
///
/// Left out: Keplerians that would have the light cross over before the eyepiece.
#[test]
fn depth_of_field_with_a_cap_and_without() {
    let inputs = (either(), 0.1..1.0, 1.0..20.0).prop_filter("crosses over", |(case, tolerance, _)| {
        let (m, d) = (case.magnification, case.length());
        0.05 < 1.0 + d / m * tolerance && 0.05 < 1.0 - d / m * tolerance
    });
    holds(inputs, |(case, tolerance, cap)| {
        let (m, d) = (case.magnification, case.length());
        let back = |out: f64| out / (m * m + d * m * out);
        let within = Vergence::from_dioptres(tolerance);
        let bare = depth_of_field(&case.telescope().afocal_train(), within).expect("far things are in focus");
        agree("near end", bare.nearest.m(), -1.0 / back(-tolerance))?;
        prop_assert_eq!(bare.farthest, None);
        let near = depth_of_field(&case.capped(cap), within).expect("the cap has a focus");
        agree("near end with cap", near.nearest.m(), 1.0 / (cap - back(-tolerance)))?;
        match near.farthest {
            Some(farthest) => agree("far end with cap", farthest.m(), 1.0 / (cap - back(tolerance))),
            None => {
                prop_assert!(cap <= back(tolerance), "only a weak cap is in focus without end");
                Ok(())
            }
        }
    });
}

#[test]
fn minus_lens_held_in_the_hand() {
    holds((-20.0..-1.0, 0.05..0.6), |(power, held)| {
        let lens = minus_lens(Vergence::from_dioptres(power), Length::from_m(held));
        agree("magnification", lens.magnification.times(), 1.0 / (1.0 - held * power))?;
        agree("focus", lens.focus_demand.dioptres(), -power / (1.0 - held * power))
    });
}

#[test]
fn more_power_costs_light_and_field() {
    holds((either(), 1.01..4.0, 0.1..0.8), |(case, factor, tangent)| {
        let stronger = Case { magnification: case.magnification * factor, ..case };
        let (weak, strong) = (case.telescope().afocal(), stronger.telescope().afocal());
        prop_assert!(strong.exit_pupil < weak.exit_pupil, "more power, smaller exit pupil");
        let pupil = Length::from_m(case.pupil);
        let light = |afocal: &arcminute_core::optics::Afocal| light_through(afocal.exit_pupil, pupil, 0.9);
        prop_assert!(light(&strong).share <= light(&weak).share, "more power, not more light");
        prop_assert!(light(&weak).share <= 0.9, "never more than the glass lets through");
        let filled = (weak.exit_pupil / pupil).min(1.0);
        agree("light", light(&weak).share, 0.9 * filled * filled)?;
        shows_its_working(&light(&weak))?;
        // Same eyepiece and stop, so the same apparent field; the weaker objective makes the power.
        let real = |objective: f64| {
            let eyepiece = case.eyepiece().abs();
            let mut telescope = Case { objective, magnification: -eyepiece / objective, ..case }.telescope();
            telescope.field_stop = Some(Length::from_m(2.0 * tangent / eyepiece));
            let train = telescope.afocal_train().to_eye(telescope.afocal().exit_pupil_behind_eyepiece);
            field_of_view(&train, pupil).expect("the stop limits it").real(&train).half
        };
        prop_assert!(real(case.objective / factor) < real(case.objective), "more power, smaller real field");
        Ok(())
    });
}

#[test]
fn apparent_field_and_ring() {
    holds((1.0..12.0, any::<bool>(), 1.0..25.0, 1.001..2.0), |(size, inverted, degrees, factor)| {
        let power = |size: f64| Magnification::from_times(if inverted { -size } else { size });
        let real = Angle::from_degrees(degrees);
        let apparent = apparent_field(power(size), real);
        let closed_form = 2.0 * math::atan(size * math::tan(degrees / 360.0 * math::PI)) * 180.0 / math::PI;
        agree("apparent", apparent.degrees(), closed_form)?;
        prop_assert!(apparent < apparent_field(power(size * factor), real), "grows with power");
        prop_assert!(apparent < apparent_field(power(size), real * factor), "grows with the real field");
        prop_assert!(apparent <= real * size * (1.0 + SAME), "the short rule is never below");
        let ring = ring_scotoma(power(size), real);
        vanishes("width", ring.width.degrees() - (closed_form - degrees) / 2.0, closed_form)?;
        shows_its_working(&ring)
    });
}

#[test]
fn every_train_keeps_the_determinant_at_one() {
    let element = prop_oneof![
        (-60.0..60.0)
            .prop_map(|power| Element::Lens { power: Vergence::from_dioptres(power), clear_diameter: None }),
        (0.001..0.2).prop_map(|gap| Element::Gap(Length::from_m(gap))),
    ];
    holds(proptest::collection::vec(element, 1..8), |elements| {
        let m = Train::of(&elements).expect("few parts").matrix();
        vanishes("determinant", m.determinant() - 1.0, (m.a * m.d).abs().max(1.0))
    });
}

#[test]
fn predictions_and_demands_show_their_working() {
    let inputs = (-0.3..2.0, -0.3..1.5, 0.05..0.4, 1.0..12.0, (0.001..2.0, 0.1..500.0, 0.5..4.0));
    holds(inputs, |(now, goal, limit, power, (height, distance, reserve))| {
        let [now, goal, limit] = [now, goal, limit].map(LogMar::from_log);
        shows_its_working(&power_needed(now, goal))?;
        let prediction = predict(now, Magnification::from_times(power), goal, limit);
        prop_assert!((0.0..=1.0).contains(&prediction.chance), "a chance lies between 0 and 1");
        shows_its_working(&prediction)?;
        shows_its_working(&demand(Goal::Acuity(goal)))?;
        let target = Target { height: Length::from_m(height), distance: Length::from_m(distance), reserve };
        shows_its_working(&demand(Goal::Target(target)))
    });
}

/// Area of the lens that two crossing circles share: half-heights above the line of centres, summed by Simpson's rule.
fn shared_area(small: f64, large: f64, apart: f64) -> f64 {
    const STRIPS: u32 = 1000;
    // A circle's part beyond `distance` from its centre, point by point round the rim.
    let segment = |radius: f64, distance: f64| {
        let step = math::acos(distance / radius) / f64::from(STRIPS);
        let term = |index: u32| {
            let half_height = radius * math::sin(step * f64::from(index));
            let weight = match index {
                0 | STRIPS => 1.0,
                odd if odd % 2 == 1 => 4.0,
                _ => 2.0,
            };
            weight * half_height * half_height
        };
        2.0 * (0..=STRIPS).map(term).sum::<f64>() * step / 3.0
    };
    let chord = (apart * apart + small * small - large * large) / (2.0 * apart);
    segment(small, chord) + segment(large, apart - chord)
}

#[test]
fn disc_overlap_against_numerical_integration() {
    let inputs = (0.5..10.0, 0.5..10.0, 0.0..10.0, 0.0..1.0);
    let law = |(one, other, apart, further): (f64, f64, f64, f64)| {
        let share = |apart| {
            let [one, other, apart] = [one, other, apart].map(Length::from_mm);
            disc_overlap(one, other, apart)
        };
        let (small, large) = (one.min(other) / 2.0, one.max(other) / 2.0);
        let numerical = if apart <= large - small {
            1.0
        } else if small + large <= apart {
            0.0
        } else {
            shared_area(small, large, apart) / (math::PI * small * small)
        };
        vanishes("share", share(apart) - numerical, 1.0)?;
        let [a, b, c] = [other, one, apart].map(Length::from_mm);
        vanishes("exchanged", disc_overlap(a, b, c) - share(apart), 1.0)?;
        prop_assert!((0.0..=1.0).contains(&share(apart)), "a share lies between 0 and 1");
        prop_assert!(share(apart + further) <= share(apart) + SAME, "it falls with distance");
        Ok(())
    };
    // Each case costs two thousand sines.
    if let Err(failure) = tried(CASES / 10, inputs, law) {
        panic!("{failure}");
    }
}

/// The comparison itself is put to the test: a wrong closed form must not pass, and the seed must be said.
#[test]
fn a_wrong_closed_form_is_found() {
    let failure = tried(1000, near_thing(), |(case, x)| {
        let near = through_afocal(&case.telescope(), Length::from_m(x), Length::from_m(case.eye));
        agree(
            "square rule at the eyepiece",
            near.at_eyepiece.dioptres(),
            -case.magnification * case.magnification / x,
        )
    });
    let said = failure.expect_err("the square rule does not hold at the eyepiece");
    assert!(said.contains("square rule") && said.contains("seed"), "{said}");
    let failure = tried(1000, either(), |case| {
        let afocal = case.telescope().afocal();
        agree("length", afocal.length.m(), case.length() * (1.0 + 1e-8))
    });
    assert!(failure.is_err(), "a hundred-millionth off is found");
}
