//! The engine against a general-purpose ray library in another language.
//!
//! `outside/check.py` answers with that library alone; here are the random systems, the engine's answers and the
//! comparison.

use arcminute_core::math;
use arcminute_core::optics::{
    Element, RayMatrix, Sight, Telescope, Train, correction_on_objective, field_of_view, view,
};
use arcminute_core::unit::{Length, Vergence};
use serde_json::{Value, json};
use std::collections::BTreeMap;
use std::io::Write;
use std::process::{Command, Stdio};

/// Systems of each kind and design; there are five kinds and two designs.
const EACH: usize = 12;
/// Greatest relative difference of the two.
const SAME: f64 = 1e-9;

/// One system as the other program reads it, and what the engine says of it.
struct System {
    described: Value,
    engine: BTreeMap<&'static str, Vec<f64>>,
}

/// Numbers from a fixed seed (the splitmix64 generator).
pub(crate) struct Random(pub(crate) u64);

impl Random {
    pub(crate) fn between(&mut self, least: f64, greatest: f64) -> f64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        mixed ^= mixed >> 31;
        least + (greatest - least) * ((mixed >> 11) as f64 / (1_u64 << 53) as f64)
    }
}

/// Where the system is looked from and at.
#[derive(Clone, Copy)]
struct Setting {
    sight: Sight,
    to_eye: Length,
    pupil: Length,
}

fn described(train: &Train, setting: Setting, slopes: &[f64]) -> Value {
    let parts: Vec<Value> = train
        .elements()
        .iter()
        .map(|element| match element {
            Element::Lens { power, clear_diameter } => {
                json!({ "lens": power.dioptres(), "diameter": clear_diameter.map(Length::m) })
            }
            Element::Gap(gap) => json!({ "gap": gap.m() }),
            Element::Glass { .. } | Element::Stop(_) => {
                unreachable!("no system here has glass or a field stop")
            }
        })
        .collect();
    let distance = match setting.sight {
        Sight::Far => None,
        Sight::At(distance) => Some(distance.m()),
    };
    json!({
        "parts": parts,
        "to_eye": setting.to_eye.m(),
        "pupil": setting.pupil.m(),
        "distance": distance,
        "slopes": slopes,
    })
}

/// What the engine says of a thing at a distance.
fn near_view(train: &Train, setting: Setting) -> BTreeMap<&'static str, Vec<f64>> {
    let seen = view(&train.clone().to_eye(setting.to_eye), setting.sight);
    let evd = seen.equivalent_viewing_distance.expect("a near thing has one").m();
    BTreeMap::from([
        ("equivalent_viewing_distance", vec![evd]),
        ("height_by_slope", vec![evd]),
        ("image_vergence", vec![-seen.focus_demand.dioptres()]),
    ])
}

/// Focused for infinity and looked through at infinity: power, pupil, length, and the edges of the field.
fn far(telescope: &Telescope, setting: Setting) -> System {
    let train = telescope.afocal_train();
    let afocal = telescope.afocal();
    let to_eye = train.clone().to_eye(setting.to_eye);
    let field = field_of_view(&to_eye, setting.pupil).expect("the rims limit it").real(&to_eye);
    let slopes = [field.full, field.half, field.last].map(|angle| (angle / 2.0).tangent());
    let engine = BTreeMap::from([
        ("magnification", vec![view(&to_eye, Sight::Far).enlargement]),
        ("exit_pupil_place", vec![afocal.exit_pupil_behind_eyepiece.m()]),
        ("exit_pupil_size", vec![afocal.exit_pupil.m()]),
        ("afocal_length", vec![afocal.length.m()]),
        ("shares", vec![1.0, 0.5, 0.0]),
    ]);
    System { described: described(&train, setting, &slopes), engine }
}

/// Focused for infinity, the thing near.
fn unfocused(telescope: &Telescope, setting: Setting) -> System {
    let train = telescope.afocal_train();
    System { described: described(&train, setting, &[]), engine: near_view(&train, setting) }
}

/// Refocused by the tube for an ametropic eye looking far, or at the distance.
fn refocused(telescope: &Telescope, setting: Setting, ametropia: f64) -> Option<System> {
    let focused = telescope.focused(setting.sight, Vergence::from_dioptres(ametropia)).ok()?;
    let behind = RayMatrix::gap(focused.length).then(RayMatrix::lens(focused.eyepiece));
    let mut engine = match setting.sight {
        // What the eye lacks is what has to leave the eyepiece.
        Sight::Far => BTreeMap::from([("far_vergence", vec![ametropia])]),
        Sight::At(_) => near_view(&focused.train, setting),
    };
    engine.insert("exit_pupil_place", vec![-behind.b.m() / behind.d]);
    engine.insert("afocal_length", vec![focused.afocal_length.m()]);
    Some(System { described: described(&focused.train, setting, &[]), engine })
}

/// A cap on the objective: the reading cap off its focus, so that the image is somewhere, or a far correction.
fn capped(telescope: &Telescope, setting: Setting, cap: Vergence, ametropia: f64) -> [System; 2] {
    let with = |cap| {
        let lens = Element::Lens { power: cap, clear_diameter: None };
        Train::new([lens]).then(&telescope.afocal_train()).expect("few parts")
    };
    let reading = with(cap);
    let near = Setting { sight: Sight::At(cap.focal_length() * 0.9), ..setting };
    let mut engine = near_view(&reading, near);
    let signed = telescope.afocal().magnification.times() * cap.dioptres();
    engine.insert("equivalent_power", vec![signed]);
    let reading = System { described: described(&reading, near, &[]), engine };
    let correction =
        correction_on_objective(telescope, Vergence::from_dioptres(ametropia)).expect("mild enough");
    let corrected = with(correction.cap);
    let engine = BTreeMap::from([("far_vergence", vec![ametropia])]);
    [
        reading,
        System { described: described(&corrected, Setting { sight: Sight::Far, ..setting }, &[]), engine },
    ]
}

/// Random systems; those that only just work are drawn again.
fn systems() -> Vec<System> {
    let mut random = Random(20_26);
    let mut systems = Vec::new();
    for sign in [-1.0, 1.0] {
        let mut made = 0;
        while made < EACH {
            let objective = random.between(8.0, 40.0);
            let eyepiece = -sign * random.between(1.5, 10.0) * objective;
            let diameter = Length::from_mm(random.between(10.0, 40.0));
            let power = Vergence::from_dioptres;
            let mut telescope = Telescope::from_lenses(power(objective), power(eyepiece), diameter)
                .expect("two such lenses make a telescope");
            if sign < 0.0 {
                telescope.eyepiece_diameter = Some(Length::from_mm(random.between(8.0, 20.0)));
            }
            let setting = Setting {
                sight: Sight::At(Length::from_m(random.between(0.4, 6.0))),
                to_eye: Length::from_mm(random.between(8.0, 25.0)),
                pupil: Length::from_mm(random.between(2.0, 6.0)),
            };
            let ametropia =
                random.between(2.0, 15.0) * if random.between(0.0, 1.0) < 0.5 { -1.0 } else { 1.0 };
            let cap = power(random.between(2.0, 10.0));
            // The eye in a Keplerian's exit pupil, where the eyepiece rim is the whole limit.
            let in_place =
                if sign < 0.0 { telescope.afocal().exit_pupil_behind_eyepiece } else { setting.to_eye };
            let far_setting = Setting { sight: Sight::Far, to_eye: in_place, ..setting };
            let through = unfocused(&telescope, setting);
            let leaves = through.engine["image_vergence"][0];
            let m = telescope.afocal().magnification.times();
            let left = 1.0 + telescope.afocal().length.m() * ametropia / m;
            let pupils = telescope.afocal().exit_pupil / setting.pupil;
            let rims = telescope.eyepiece_diameter.map_or(9.0, |rim| rim / telescope.afocal().exit_pupil);
            let (Some(for_far), Some(for_near)) =
                (refocused(&telescope, far_setting, ametropia), refocused(&telescope, setting, ametropia))
            else {
                continue;
            };
            if 100.0 < math::abs(leaves) || left < 0.2 || math::abs(pupils - 1.0) < 0.1 || rims < 1.1 {
                continue;
            }
            systems.push(far(&telescope, far_setting));
            systems.extend([through, for_far, for_near]);
            systems.extend(capped(&telescope, setting, cap, ametropia));
            made += 1;
        }
    }
    for system in &mut systems {
        system.described["asked"] = json!(system.engine.keys().collect::<Vec<_>>());
    }
    systems
}

/// What another program of `outside/` answers, in Python.
pub(crate) fn asked_outside(program: &str, question: &Value) -> Value {
    let python = std::env::var_os("ARCMINUTE_PYTHON")
        .expect("run `cargo xtask test`, which sets up the Python environment");
    let script = format!("{}/reference/outside/{program}", env!("CARGO_MANIFEST_DIR"));
    asked(Command::new(python).arg(script), question)
}

/// What a program answers: JSON in, JSON out.
pub(crate) fn asked(program: &mut Command, question: &Value) -> Value {
    let mut child =
        program.stdin(Stdio::piped()).stdout(Stdio::piped()).spawn().expect("the outside program starts");
    let mut input = child.stdin.take().expect("its input is a pipe");
    input.write_all(question.to_string().as_bytes()).expect("it reads the question");
    drop(input);
    let output = child.wait_with_output().expect("it ends");
    assert!(output.status.success(), "the outside check failed: {}", output.status);
    serde_json::from_slice(&output.stdout).expect("it answers in JSON")
}

/// Everything on which the two differ.
fn differences(systems: &[System], outside: &Value) -> Vec<String> {
    let mut differences = Vec::new();
    let answers = outside.as_array().map_or(&[][..], Vec::as_slice);
    if answers.len() != systems.len() {
        differences.push(format!("{} systems, {} answers", systems.len(), answers.len()));
    }
    for (index, (system, answer)) in systems.iter().zip(answers).enumerate() {
        for (name, engine) in &system.engine {
            let outside: Option<Vec<f64>> = match &answer[*name] {
                Value::Array(values) => values.iter().map(Value::as_f64).collect(),
                value => value.as_f64().map(|value| vec![value]),
            };
            let same = outside.as_ref().is_some_and(|outside| {
                outside.len() == engine.len()
                    && outside.iter().zip(engine).all(|(one, other)| {
                        // A share that should be nothing is compared with the whole.
                        let scale = if *name == "shares" { 1.0 } else { math::abs(*other) };
                        math::abs(one - other) <= SAME * scale
                    })
            });
            if !same {
                differences.push(format!(
                    "system {index}, {name}: engine {engine:?}, outside {outside:?}\n{}",
                    system.described
                ));
            }
        }
    }
    differences
}

/// Source: a general-purpose ABCD ray library (MIT licence), pinned in `requirements.txt`.
#[test]
fn engine_agrees_with_an_outside_ray_library() {
    let systems = systems();
    assert!(60 <= systems.len(), "{} systems are too few", systems.len());
    let question = Value::Array(systems.iter().map(|system| system.described.clone()).collect());
    let outside = asked_outside("check.py", &question);
    let differences_found = differences(&systems, &outside);
    assert!(differences_found.is_empty(), "{}", differences_found.join("\n"));

    // The comparison itself: each planted wrong is found, and nothing else.
    for index in 0..systems.len() {
        for name in systems[index].engine.keys() {
            let mut planted = outside.clone();
            let value = match &mut planted[index][*name] {
                Value::Array(values) => &mut values[0],
                value => value,
            };
            *value = json!(value.as_f64().expect("an answer is a number") * (1.0 + 1e-8));
            let found = differences(&systems, &planted);
            assert!(found.len() == 1 && found[0].contains(name), "planted in {name} of {index}: {found:?}");
        }
    }
    let mut planted = outside.clone();
    planted[0] = json!({});
    assert!(!differences(&systems, &planted).is_empty(), "a missing answer is found");
    assert!(!differences(&systems, &json!([])).is_empty(), "no answers at all are found");
}
