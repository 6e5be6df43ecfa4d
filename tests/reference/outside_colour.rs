//! Colours, filters and pupils against libraries of others in another language.
//!
//! `outside/colour_check.py` answers with those libraries: luminance and the curve of sRGB, the tables of V(λ) and D65
//! and luminous transmittance with a colour-science library, contrast ratios with a library of their own. No installable
//! library of modest size has the pupil formula; there the paper's own closed form stands in for one.

use crate::outside::{Random, asked_outside};
use arcminute_core::contrast::{Colour, of_colours};
use arcminute_core::light::filter::{DAYLIGHT, LUMINOUS_EFFICIENCY, SAMPLES, Spectrum};
use arcminute_core::light::{Eyes, field_area, pupil};
use arcminute_core::unit::{Age, Angle, Luminance};
use serde_json::{Value, json};

/// Random colours in pairs, filters of each kind, and pupils.
const EACH: usize = 400;
/// Where both follow one definition: greatest difference of shares of light.
const SAME: f64 = 1e-12;
/// The same for ratios, to 21, and for powers of daylight, to 118.
const SAME_LARGE: f64 = 1e-11;
/// Ten nanometres against one, for filters without sharp edges; measured 0.00006.
const SAMPLED: f64 = 1e-4;
/// The closed form's coefficients have six digits, those of the formula four; millimetres, measured 0.00014.
const ROUNDED: f64 = 2e-4;

/// What one question asks, and the core's answer.
struct Asked {
    /// Key in the answer of the other program.
    name: &'static str,
    tolerance: f64,
    core: Vec<f64>,
}

fn colour(random: &mut Random) -> Colour {
    let mut part = || random.between(0.0, 256.0) as u8;
    Colour { red: part(), green: part(), blue: part() }
}

/// Transmittances at the samples: any at all, or a slope from low to high or from high to low.
fn filter(random: &mut Random, smooth: bool) -> [f64; SAMPLES] {
    let mut samples = [0.0; SAMPLES];
    let (middle, width) = (random.between(440.0, 660.0), random.between(25.0, 60.0));
    let (low, high) = (random.between(0.0, 1.0), random.between(0.0, 1.0));
    for (index, sample) in samples.iter_mut().enumerate() {
        let nm = 380.0 + 10.0 * index as f64;
        *sample = if smooth {
            low + (high - low) * arcminute_core::math::normal_below((nm - middle) / width)
        } else {
            random.between(0.0, 1.0)
        };
    }
    samples
}

fn transmittance(samples: &[f64; SAMPLES]) -> f64 {
    Spectrum::from_samples(*samples).expect("shares of light").luminous_transmittance()
}

/// The question for the other program, and the core's answers to it.
fn asked() -> (Value, Vec<Asked>) {
    let mut random = Random(20_27);
    let mut pairs: Vec<(Colour, Colour)> =
        (0..EACH).map(|_| (colour(&mut random), colour(&mut random))).collect();
    pairs.extend([
        (Colour::WHITE, Colour::BLACK),
        (Colour::BLACK, Colour::WHITE),
        (Colour::BLACK, Colour::BLACK),
    ]);
    let greys: Vec<u8> = (0..=255).collect();
    let filters: Vec<_> = (0..EACH).map(|_| filter(&mut random, false)).collect();
    let smooth: Vec<_> = (0..EACH).map(|_| filter(&mut random, true)).collect();
    let pupils: Vec<(f64, f64, f64, u8)> = (0..EACH)
        .map(|index| {
            let luminance = arcminute_core::math::pow(10.0, random.between(-3.0, 5.0));
            let eyes = if index % 2 == 0 { 2 } else { 1 };
            (luminance, random.between(0.5, 170.0), random.between(20.0, 83.0), eyes)
        })
        .collect();

    let light = |colour: Colour| colour.light().luminance;
    let found = [
        (
            "luminances",
            SAME,
            pairs.iter().flat_map(|&(one, other)| [light(one), light(other)]).collect::<Vec<_>>(),
        ),
        ("ratios", SAME_LARGE, pairs.iter().map(|&(one, other)| of_colours(one, other).ratio).collect()),
        (
            "curve",
            SAME,
            greys.iter().map(|&part| Colour { red: part, green: 0, blue: 0 }.light().red).collect(),
        ),
        ("efficiency", SAME, LUMINOUS_EFFICIENCY.to_vec()),
        ("daylight", SAME_LARGE, DAYLIGHT.to_vec()),
        ("transmittances", SAME, filters.iter().map(transmittance).collect()),
        ("fine", SAMPLED, smooth.iter().map(transmittance).collect()),
        (
            "pupils",
            ROUNDED,
            pupils
                .iter()
                .map(|&(luminance, diameter, years, eyes)| {
                    pupil(
                        Luminance::from_candela_per_m2(luminance),
                        field_area(Angle::from_degrees(diameter)),
                        Age::from_years(years),
                        if eyes == 1 { Eyes::One } else { Eyes::Two },
                    )
                    .expect("a possible field")
                    .diameter
                    .mm()
                })
                .collect(),
        ),
    ];
    let question = json!({
        "pairs": pairs.iter().map(|(one, other)| [one.to_string(), other.to_string()]).collect::<Vec<_>>(),
        "greys": greys,
        "filters": filters.iter().map(|samples| samples.to_vec()).collect::<Vec<_>>(),
        "smooth": smooth.iter().map(|samples| samples.to_vec()).collect::<Vec<_>>(),
        "pupils": pupils.iter().map(|&(luminance, diameter, age, eyes)| {
            json!({ "luminance": luminance, "diameter": diameter, "age": age, "eyes": eyes })
        }).collect::<Vec<_>>(),
    });
    let asked = found.into_iter().map(|(name, tolerance, core)| Asked { name, tolerance, core }).collect();
    (question, asked)
}

/// A form that a right value is turned into, to be found.
type Wrong = fn(f64) -> f64;

/// The numbers of an answer in order, lists within it taken apart.
fn numbers(answer: &Value) -> Vec<f64> {
    match answer {
        Value::Array(parts) => parts.iter().flat_map(numbers).collect(),
        other => vec![other.as_f64().unwrap_or(f64::NAN)],
    }
}

/// Everything on which the two differ.
fn differences(asked: &[Asked], outside: &Value) -> Vec<String> {
    let mut differences = Vec::new();
    for Asked { name, tolerance, core } in asked {
        let theirs = numbers(&outside[*name]);
        if theirs.len() != core.len() {
            differences.push(format!("{name}: {} of ours, {} of theirs", core.len(), theirs.len()));
        }
        for (index, (ours, theirs)) in core.iter().zip(&theirs).enumerate() {
            let same = (ours - theirs).abs() <= *tolerance;
            if !same {
                differences.push(format!("{name} {index}: ours {ours}, theirs {theirs}"));
            }
        }
    }
    differences
}

/// Source: a colour-science library (BSD licence) and a library of contrast ratios (MIT licence), both pinned in
/// `requirements.txt`; Watson & Yellott 2012, closed form of the appendix.
#[test]
fn colours_filters_and_pupils_agree_with_outside_libraries() {
    let (question, mut asked) = asked();
    let outside = asked_outside("colour_check.py", &question);
    let found = differences(&asked, &outside);
    assert!(found.is_empty(), "{}", found.join("\n"));

    // The comparison itself: each wrong form is found, in the very list it was planted in.
    let wrong_forms: [(&str, Wrong); 8] = [
        ("luminances", |value| value + 1e-11),
        ("ratios", |value| value + 1e-10),
        ("curve", |value| value + 1e-11),
        ("efficiency", |value| value + 1e-6),
        ("daylight", |value| value * 1.00001),
        ("transmittances", |value| value + 1e-11),
        ("fine", |value| value + 0.0003),
        ("pupils", |value| value + 0.0005),
    ];
    for (index, (name, wrong)) in wrong_forms.into_iter().enumerate() {
        let right = asked[index].core.clone();
        assert_eq!(asked[index].name, name, "one wrong form for each question");
        asked[index].core = right.iter().copied().map(wrong).collect();
        let found = differences(&asked, &outside);
        let own = found.iter().filter(|line| line.starts_with(name)).count();
        assert!(right.len() == own && own == found.len(), "planted in {name}: {} found", found.len());
        asked[index].core = right[1..].to_vec();
        assert!(!differences(&asked, &outside).is_empty(), "one missing in {name} is found");
        asked[index].core = right;
    }
    assert!(!differences(&asked, &json!({})).is_empty(), "no answers at all are found");

    // Mistakes one might make in the formulas themselves.
    let with_area_of_the_diameter = Asked {
        name: "pupils",
        tolerance: ROUNDED,
        core: question["pupils"]
            .as_array()
            .expect("the pupils that were asked for")
            .iter()
            .map(|one| {
                let number = |key: &str| one[key].as_f64().expect("a number");
                let wide = field_area(Angle::from_degrees(number("diameter") * 0.99));
                let eyes = if number("eyes") < 1.5 { Eyes::One } else { Eyes::Two };
                let light = Luminance::from_candela_per_m2(number("luminance"));
                pupil(light, wide, Age::from_years(number("age")), eyes).expect("possible").diameter.mm()
            })
            .collect(),
    };
    let found = differences(&[with_area_of_the_diameter], &outside);
    assert!(EACH / 2 < found.len(), "a field one hundredth too narrow is found in {} of {EACH}", found.len());
    let unweighted = Asked {
        name: "transmittances",
        tolerance: SAME,
        core: question["filters"]
            .as_array()
            .expect("the filters that were asked for")
            .iter()
            .map(|samples| numbers(samples).iter().sum::<f64>() / SAMPLES as f64)
            .collect(),
    };
    assert_eq!(differences(&[unweighted], &outside).len(), EACH, "a plain mean is found every time");
}
