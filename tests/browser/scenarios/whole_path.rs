//! The whole path, Person, Goals, Bench, Kit, Trial, for ten people, as a person would go it, on a desktop and on a phone;
//! what is shown is held against a program in another language that works everything out by closed forms and rays of its
//! own (`tests/second_road/`).

#![allow(
    clippy::disallowed_methods,
    reason = "an independent road must not go through the core's own functions"
)]

use super::cases::{CASES, Case, PEOPLE, look_at, unfold_aids};
use super::places::{fill, go, into_view, rows};
use super::routine::{agrees, agrees_with_chance};
use crate::driver::Options;
use crate::page::Page;
use crate::{act, find, see};
use serde_json::{Value, json};
use std::collections::BTreeSet;
use std::io::Write;
use std::path::Path;
use std::process::{Command, Stdio};

const LIST: &str = include_str!("../../../demo-scenarios/aids.csv");

/// What the program says of a case with the demonstration list.
#[track_caller]
fn second_road(case: &Case) -> Value {
    let script = Path::new(env!("CARGO_MANIFEST_DIR")).join("second_road/aids.py");
    let asked = json!({ "case": case.file(), "list": LIST, "goal_chance": 0.5 }).to_string();
    let mut program = Command::new("python3")
        .arg(script)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .expect("python3 is on the path");
    program.stdin.take().expect("its input").write_all(asked.as_bytes()).expect("it reads");
    let output = program.wait_with_output().expect("it ends");
    assert!(output.status.success(), "the program failed for {}", case.id);
    serde_json::from_slice(&output.stdout).expect("JSON")
}

fn number(cell: &Value, name: &str) -> Option<f64> {
    cell[name].as_f64()
}

#[track_caller]
fn goes_the_whole_path(case: &Case, options: &Options) {
    let page = crate::scenarios::open(options);
    case.type_person(&page);
    case.type_goals(&page);
    let other = second_road(case);
    go(&page, "Bench");
    act::choose(&page, super::cases::words_of(&case.eye()));
    if case.text("/bench/correction") == "in_eyepiece" {
        into_view(&find::id(&page, "bench-more")).click();
        act::choose(&page, "Lens in the eyepiece");
    }
    let wishes = other["wishes"].as_array().expect("wishes");
    for wish in wishes {
        let goal = wish["goal"].as_u64().expect("a place");
        if 1 < wishes.len() {
            act::select(&page, "Goal", &case.text(&format!("/goals/{goal}/name")));
        }
        see::holds(&page, "aids-name", &case.text(&format!("/goals/{goal}/name")));
        unfold_aids(&page);
        compared(&page, wish);
    }
    kit(&page, &other);
    trial(&page, wishes.last().expect("a wish"), case.retest_limit());
    see::no_errors(&page);
}

/// The keys of the aids in the tables of these groups.
fn keys(page: &Page, groups: &[&str]) -> BTreeSet<String> {
    let body = "return arguments[0].flatMap(group => \
        [...document.querySelectorAll(`#aids-${group} tbody tr`)].map(row => row.id.slice(4)))";
    let found = page.script(body, &[json!(groups)]);
    found.as_array().into_iter().flatten().filter_map(|key| key.as_str().map(str::to_owned)).collect()
}

fn told(list: &Value) -> BTreeSet<String> {
    list.as_array().into_iter().flatten().filter_map(|key| key.as_str().map(str::to_owned)).collect()
}

/// Every aid of the list for the wish that is served.
#[track_caller]
fn compared(page: &Page, wish: &Value) {
    assert_eq!(keys(page, &["front", "more"]), told(&wish["front"]), "what nothing beats");
    let aids = wish["aids"].as_object().expect("aids");
    let all = ["front", "more", "beaten", "but-for", "short", "none"];
    assert_eq!(keys(page, &all), aids.keys().cloned().collect(), "every aid has its row");
    let none: BTreeSet<String> =
        aids.iter().filter(|(_, cell)| cell.get("cannot").is_some()).map(|(id, _)| id.clone()).collect();
    assert_eq!(keys(page, &["none"]), none, "what is not for it");
    for (id, cell) in aids.iter().filter(|(id, _)| !none.contains(*id)) {
        let row = rows(page, &format!("#aid-{}", id.replace('.', "\\."))).remove(0);
        agrees_with_chance(id, number(cell, "chance").expect("a chance") * 100.0, &row[1]);
        match (number(cell, "width_m"), number(cell, "characters")) {
            (None, _) => assert_eq!(row[3], "no limit", "{id}"),
            (Some(_), Some(characters)) if row[3].ends_with(" characters") => agrees(id, characters, &row[3]),
            (Some(width), _) => {
                let shown = if row[3].ends_with(" cm") { width * 100.0 } else { width };
                agrees(id, shown, &row[3]);
            }
        }
        if let Some((_, light)) = row[4].split_once("light ") {
            agrees(id, number(cell, "light").expect("light") * 100.0, light);
        }
        let lacks = cell["lacks"].as_array().into_iter().flatten().filter(|lack| *lack != "seen").count();
        let is_but_for = page.script(
            "return document.getElementById(arguments[0]).closest('table').id",
            &[json!(format!("aid-{id}"))],
        ) == json!("aids-but-for");
        assert!(!is_but_for || 0 < lacks, "{id} would serve but for nothing");
    }
}

/// The smallest set, and what nothing serves.
#[track_caller]
fn kit(page: &Page, other: &Value) {
    let body = "return [...document.querySelectorAll('#kit-aids li')].map(item => item.id.slice(4))";
    let found = page.script(body, &[]);
    let chosen = told(&found);
    assert_eq!(Some(chosen.len() as u64), other["kit"]["size"].as_u64(), "{chosen:?}");
    let possible = other["kit"]["possible"].as_array().expect("sets");
    assert!(possible.iter().any(|set| told(set) == chosen), "{chosen:?} is none of {possible:?}");
    let unserved = other["uncoverable"].as_array().map_or(0, Vec::len);
    let said = see::texts(page, "#kit-rest li");
    let none = said.iter().filter(|line| line.starts_with("No aid of the list serves")).count();
    assert_eq!(none, unserved, "{said:?}");
}

/// The first aid that nothing beats, tried: once it does what was predicted, once far less.
#[track_caller]
fn trial(page: &Page, wish: &Value, limit: f64) {
    let Some(id) = keys_in_order(page).first().cloned() else { return };
    let cell = &wish["aids"][&id];
    look_at(page, &id);
    into_view(&find::id(page, "looked-trial")).click();
    see::holds(page, "trial-predicted", "should just read");
    let least = number(cell, "least_height_m").expect("a height");
    let (label, predicted, written): (_, _, fn(f64) -> String) = match number(cell, "distance") {
        // Logarithms of heights, and of minutes of arc.
        None => ("Print just read with the aid", (least * 1000.0).log10(), |log| {
            format!("{:.4} mm", 10_f64.powf(log))
        }),
        Some(distance) => {
            let minutes = 2.0 * (least / 10.0 / distance).atan() * 10_800.0 / std::f64::consts::PI;
            ("Acuity reached with the aid", minutes.log10(), |log| format!("{log:.3} logMAR"))
        }
    };
    fill(page, label, &written(predicted));
    see::holds(page, "trial-verdict", "As predicted: less than 0.01 log from it");
    assert_eq!(see::texts(page, "#trial-checks li"), [""; 0], "nothing to check");
    fill(page, label, &written(predicted + limit + 0.15));
    see::holds(page, "trial-verdict", "Worse than predicted by ");
    let said = see::text(page, "trial-verdict");
    agrees("worse by", limit + 0.15, said.split_once(" by ").expect("by how much").1);
    agrees("beyond by", 0.15, said.split_once("lines), ").expect("beyond").1);
    let checks = see::texts(page, "#trial-checks li");
    assert!(4 < checks.len() && checks.iter().any(|check| check.starts_with("Focus again")), "{checks:#?}");
}

/// The keys of the aids that are shown first, in their order.
fn keys_in_order(page: &Page) -> Vec<String> {
    let body = "return [...document.querySelectorAll('#aids-front tbody tr')].map(row => row.id.slice(4))";
    let found = page.script(body, &[]);
    found.as_array().into_iter().flatten().filter_map(|key| key.as_str().map(str::to_owned)).collect()
}

macro_rules! people {
    ($($name:ident: $from:ident[$place:literal],)+) => {
        $(#[test]
        fn $name() {
            for options in [Options::desktop(), Options::phone()] {
                goes_the_whole_path(&$from[$place], &options);
            }
        })+
    };
}

people! {
    an_adult_with_signs_across_a_room: CASES[0],
    an_adult_who_looks_with_the_left_eye: CASES[1],
    a_pupil_before_the_board: CASES[2],
    an_adult_with_captions_and_a_newspaper: CASES[3],
    an_adult_who_lost_the_centre: PEOPLE[0],
    a_child_who_reads_near: PEOPLE[1],
    an_adult_twelve_dioptres_short_sighted: PEOPLE[2],
    a_teacher_of_music: PEOPLE[3],
    an_adult_with_a_small_field: PEOPLE[4],
    an_adult_without_the_lens_of_the_eye: PEOPLE[5],
}
