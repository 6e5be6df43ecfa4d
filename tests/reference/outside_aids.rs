//! Every family of aids against a general-purpose ABCD-matrix library, and real rays through thick lenses and domes
//! against a general-purpose tracer.

use crate::outside::{Random, asked_outside};
use arcminute_core::device::{
    Aid, Arrangement, Bar, Dome, Eye, FresnelSheet, HandMagnifier, HeadMountedDisplay, HighPlusSpectacles,
    LensForm, RefractionBy, Screen, ScreenAid, Setting, StandData, StandMagnifier, Worn, stand_optics,
};
use arcminute_core::optics::{
    Element, RealDome, RealRay, Shape, Sight, Surface, Telescope, ThickLens, trace_real,
};
use arcminute_core::unit::{Angle, Length, LogMar, Vergence};
use serde_json::{Value, json};

/// Random arrangements of each family.
const EACH: usize = 25;
/// Random rays of each kind.
const RAYS: usize = 100;
/// Greatest relative difference of two paraxial answers.
const SAME: f64 = 1e-9;
/// Greatest difference of two real rays, in metres and radians; the other program iterates.
const SAME_RAY: f64 = 1e-9;

fn d(power: f64) -> Vergence {
    Vergence::from_dioptres(power)
}
fn mm(length: f64) -> Length {
    Length::from_mm(length)
}

fn eye(random: &mut Random) -> Eye {
    let worn = match random.between(0.0, 3.0) {
        share if share < 1.0 => Worn::Nothing,
        share if share < 2.0 => Worn::Distance,
        _ => Worn::Near { add: d(random.between(1.0, 4.0)) },
    };
    Eye {
        worn,
        sphere: d(random.between(-8.0, 6.0)),
        spectacle_to_eye: mm(random.between(12.0, 18.0)),
        ..Eye::corrected(LogMar::from_log(1.0), LogMar::from_log(0.2))
    }
}

/// One aid of each family that has a near thing in front of it.
fn aids(random: &mut Random) -> Vec<Aid> {
    let section = RealDome {
        radius: mm(random.between(15.0, 40.0)),
        thickness: mm(random.between(10.0, 40.0)),
        index: random.between(1.45, 1.7),
    };
    let page_to_eye = mm(random.between(250.0, 450.0));
    let screen = Screen { width: mm(480.0), height: mm(270.0) };
    let power = d(random.between(8.0, 30.0));
    let optics = stand_optics(StandData::Nominal {
        power,
        print_to_lens: power.focal_length() * random.between(0.5, 0.95),
    })
    .expect("inside the focus");
    let objective = random.between(10.0, 30.0);
    let times = random.between(1.6, 6.0) * if random.between(0.0, 1.0) < 0.5 { -1.0 } else { 1.0 };
    let telescope =
        Telescope::from_lenses(d(objective), d(-times * objective), mm(20.0)).expect("a telescope");
    let thick = LensForm::Thick(ThickLens {
        front: d(random.between(6.0, 25.0)),
        back: d(random.between(1.0, 12.0)),
        thickness: mm(random.between(3.0, 15.0)),
        index: random.between(1.45, 1.8),
    });
    let spectacles = |form| HighPlusSpectacles { form, clear_diameter: mm(40.0), transmittance: 0.92 };
    let telescope_for = |setting| Aid::Telescope {
        telescope,
        eyepiece_to_eye: mm(20.0),
        refraction: RefractionBy::Glasses,
        setting,
    };
    vec![
        Aid::NearerAndLarger {
            larger: random.between(1.0, 3.0),
            thing_to_eye: mm(random.between(50.0, 600.0)),
        },
        Aid::HighPlus {
            spectacles: spectacles(LensForm::Addition { add: d(random.between(14.0, 40.0)) }),
            accommodation_used: d(random.between(0.0, 3.0)),
        },
        Aid::HighPlus { spectacles: spectacles(thick), accommodation_used: d(random.between(0.0, 3.0)) },
        Aid::Hand {
            magnifier: HandMagnifier { power, clear_diameter: mm(50.0), transmittance: 0.92 },
            lens_to_spectacle: mm(random.between(20.0, 300.0)),
        },
        Aid::Sheet {
            sheet: FresnelSheet { power: d(random.between(1.5, 4.0)), width: mm(200.0), transmittance: 0.85 },
            sheet_to_spectacle: mm(random.between(50.0, 200.0)),
        },
        Aid::Stand {
            stand: StandMagnifier { optics, clear_diameter: mm(40.0), transmittance: 0.92 },
            lens_to_spectacle: mm(random.between(20.0, 300.0)),
        },
        Aid::Dome {
            dome: Dome { solid: section, clear_diameter: mm(50.0), transmittance: 0.92 },
            page_to_eye,
        },
        Aid::Bar {
            bar: Bar { section, length: mm(200.0), clear_width: mm(30.0), transmittance: 0.92 },
            page_to_eye,
        },
        Aid::Screen {
            screen: ScreenAid {
                screen,
                enlargement: random.between(2.0, 30.0),
                camera_to_print: Some(mm(200.0)),
            },
            screen_to_eye: mm(random.between(250.0, 700.0)),
        },
        Aid::HeadMounted {
            display: HeadMountedDisplay {
                display_field: Angle::from_degrees(40.0),
                camera_field: Angle::from_degrees(random.between(5.0, 20.0)),
                image_distance: Some(Length::from_m(random.between(0.5, 3.0))),
                display_pixels: 1280.0,
                camera_pixels: 1280.0,
            },
        },
        telescope_for(Setting::Cap { cap: d(random.between(2.0, 10.0)) }),
        telescope_for(Setting::Tube { thing_to_eye: Length::from_m(random.between(0.6, 4.0)) }),
        telescope_for(Setting::FixedFar { thing_to_eye: Length::from_m(random.between(0.6, 4.0)) }),
    ]
}

/// The parts as the other program reads them: lenses that touch glass are surfaces of it.
fn described(arrangement: &Arrangement) -> Option<Value> {
    let Sight::At(distance) = arrangement.sight else { return None };
    let elements = arrangement.train.elements();
    let index = |place: Option<&Element>| match place {
        Some(Element::Glass { index, .. }) => Some(*index),
        _ => None,
    };
    let parts: Vec<Value> = elements
        .iter()
        .enumerate()
        .map(|(place, element)| match element {
            Element::Gap(gap) => json!({ "gap": gap.m() }),
            Element::Glass { thickness, index } => json!({ "glass": thickness.m(), "index": index }),
            Element::Lens { power, .. } => {
                let before = index(place.checked_sub(1).and_then(|place| elements.get(place)));
                let after = index(elements.get(place + 1));
                if before.is_none() && after.is_none() {
                    return json!({ "lens": power.dioptres() });
                }
                let (before, after) = (before.unwrap_or(1.0), after.unwrap_or(1.0));
                json!({ "surface": power.dioptres(), "before": before, "after": after })
            }
            Element::Stop(_) => unreachable!("no aid here has a field stop"),
        })
        .collect();
    Some(json!({ "parts": parts, "distance": distance.m(), "larger": arrangement.shown_larger }))
}

/// A surface as both programs read it.
struct Face {
    at: f64,
    radius: f64,
    behind: f64,
}

/// One real ray, and where the core says it goes.
struct Traced {
    described: Value,
    core: RealRay,
}

fn traced(before: f64, faces: &[Face], height: f64, direction: f64) -> Option<Traced> {
    let surfaces: Vec<Surface> = faces
        .iter()
        .map(|face| Surface {
            at: Length::from_m(face.at),
            shape: Shape::Sphere { radius: Length::from_m(face.radius) },
            index_behind: face.behind,
        })
        .collect();
    let start = RealRay {
        along: Length::ZERO,
        height: Length::from_m(height),
        direction: Angle::from_radians(direction),
    };
    let core = trace_real(start, before, &surfaces).ok()?;
    let faces: Vec<Value> = faces
        .iter()
        .map(|face| json!({ "at": face.at, "radius": face.radius, "behind": face.behind }))
        .collect();
    let described = json!({
        "surfaces": faces, "before": before, "along": 0.0, "height": height, "direction": direction,
    });
    Some(Traced { described, core })
}

/// Rays through random thick lenses, and from the page out of random domes.
fn rays(random: &mut Random) -> Vec<Traced> {
    let mut rays = Vec::new();
    while rays.len() < RAYS {
        let (n, t) = (random.between(1.45, 1.8), random.between(0.003, 0.015));
        let (front, back) = (random.between(0.03, 0.2), random.between(-0.3, -0.03));
        let faces =
            [Face { at: 0.1, radius: front, behind: n }, Face { at: 0.1 + t, radius: back, behind: 1.0 }];
        rays.extend(traced(1.0, &faces, random.between(-0.008, 0.008), random.between(-0.06, 0.06)));
    }
    while rays.len() < 2 * RAYS {
        let (n, r) = (random.between(1.45, 1.7), random.between(0.015, 0.04));
        let faces = [Face { at: r * random.between(0.9, 1.4), radius: -r, behind: 1.0 }];
        rays.extend(traced(n, &faces, random.between(-0.5, 0.5) * r, random.between(-0.2, 0.2)));
    }
    rays
}

/// What the two differ in.
fn differences(arrangements: &[Arrangement], rays: &[Traced], outside: &Value) -> Vec<String> {
    let mut found = Vec::new();
    let number = |value: &Value| value.as_f64().unwrap_or(f64::INFINITY);
    for (place, arrangement) in arrangements.iter().enumerate() {
        let answer = &outside["trains"][place];
        let evd = arrangement.equivalent_viewing_distance().expect("a near thing").m();
        let demand = arrangement.view().focus_demand.dioptres();
        if SAME * evd < (number(&answer["evd"]) - evd).abs() {
            found.push(format!("train {place}: evd {evd}, outside {}", answer["evd"]));
        }
        // A demand that should be nothing is compared with what it is the rest of.
        let scale = 1.0 / (evd * arrangement.shown_larger);
        if SAME * scale.max(demand.abs()) < (number(&answer["demand"]) - demand).abs() {
            found.push(format!("train {place}: demand {demand}, outside {}", answer["demand"]));
        }
    }
    for (place, ray) in rays.iter().enumerate() {
        let answer = &outside["rays"][place];
        let height = ray.core.height_at(Length::from_m(answer["along"].as_f64().unwrap_or(0.0))).m();
        if SAME_RAY < (number(&answer["height"]) - height).abs() {
            found.push(format!(
                "ray {place}: height {height}, outside {}\n{}",
                answer["height"], ray.described
            ));
        }
        let direction = ray.core.direction.radians();
        if SAME_RAY < (number(&answer["direction"]) - direction).abs() {
            found.push(format!("ray {place}: direction {direction}, outside {}", answer["direction"]));
        }
    }
    found
}

/// Source: a general-purpose ABCD ray library (MIT licence) and a general-purpose tracer of real rays (MIT licence), both
/// pinned in `requirements.txt`.
#[test]
fn every_family_agrees_with_outside_ray_libraries() {
    let mut random = Random(20_28);
    let (mut arrangements, mut families) = (Vec::new(), 0);
    for _ in 0..EACH {
        let eye = eye(&mut random);
        let aids = aids(&mut random);
        families = aids.len();
        for aid in aids {
            // What glasses and distances leave no image for is drawn again in the next round.
            let arranged = aid.arrange(&eye, Some(Length::from_m(2.0)));
            arrangements.extend(arranged.ok().filter(|one| described(one).is_some()));
        }
    }
    assert!(
        families * EACH * 9 / 10 <= arrangements.len(),
        "{} arrangements are too few",
        arrangements.len()
    );
    let rays = rays(&mut random);
    let question = json!({
        "trains": arrangements.iter().filter_map(described).collect::<Vec<_>>(),
        "rays": rays.iter().map(|ray| ray.described.clone()).collect::<Vec<_>>(),
    });
    let outside = asked_outside("aids_check.py", &question);
    let found = differences(&arrangements, &rays, &outside);
    assert!(found.is_empty(), "{} differences\n{}", found.len(), found.join("\n"));

    // The comparison itself: a planted wrong is found, and nothing else.
    for (list, key) in [("trains", "evd"), ("trains", "demand"), ("rays", "height"), ("rays", "direction")] {
        let mut planted = outside.clone();
        let value = &mut planted[list][7][key];
        *value = json!(value.as_f64().expect("a number") + 1e-6);
        let found = differences(&arrangements, &rays, &planted);
        assert!(found.len() == 1 && found[0].contains(key), "planted in {key}: {found:?}");
    }
    assert!(!differences(&arrangements, &rays, &json!({})).is_empty(), "no answers at all are found");
}
