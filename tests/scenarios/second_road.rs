//! The whole table of aids and wishes by a second road: a program in another language, with closed forms and rays of its
//! own, against the page's model.
//!
//! The program stands in `tests/second_road/`; it reads the same files as the page and calls nothing of it. Compared are
//! all aids of the demonstration list for all wishes of the demonstration cases and of six more in
//! `tests/second_road/cases/`: each number, what cannot serve, what is lacking, what nothing beats, and the smallest set.

use crate::reading::names;
use arcminute_tests::root;
use arcminute_web::model::answer::Answer;
use arcminute_web::model::case_file;
use arcminute_web::model::compared::{Asked, Cannot, Cell, Lack, Named, Table};
use arcminute_web::model::list;
use serde_json::{Map, Value, json};
use std::io::Write;
use std::path::Path;
use std::process::{Command, Stdio};

/// Chance from which a wish counts as served.
const GOAL_CHANCE: f64 = 0.5;
/// Relative difference that is rounding: the program finds edges of a field by halving.
const SAME: f64 = 1e-6;
/// These are differences of two numbers, dioptres or log units; where those are alike, what is left is rounding.
const DIFFERENCES: [&str; 3] = ["focus_needed_d", "defocus_d", "loss_log"];
/// And below this it is none.
const NOTHING: f64 = 1e-9;
/// What is compared of an aid that serves.
const NUMBERS: [&str; 12] = [
    "chance",
    "reserve_reached",
    "evd_m",
    "angular",
    "width_m",
    "characters",
    "page_to_eye_m",
    "hand_room_m",
    "focus_needed_d",
    "defocus_d",
    "loss_log",
    "light",
];

/// Aids that say what the demonstration list leaves to be assumed, and leave out what it says.
const ODD: &str = "\
id,name,family,power,design,magnification,reading cap,objective,barrel,real field,nearest focus,clear diameter,width,\
height,radius,enlargement,image below lens,stand height,camera field,display field,display image,display pixels,\
camera pixels,light through,lens to glasses,eye to page,eye to screen,glasses,hands free,both eyes,walking,weight
nearer-bare,a,print nearer,,,,,,,,,,,,,,,,,,,,,,,90,,none,0,no,no,
larger-far,a,larger copy,,,,,,,,,,,,,3,,,,,,,,,,300,,far,,,,
hand-near,a,hand magnifier,10,,,,,,,,50,,,,,,,,,,,,,60,,,near,,,,
hand-bare,a,hand magnifier,24,,,,,,,,30,,,,,,,,,,,,80,20,,,none,2,,spotting,
stand-focus,a,stand magnifier,25,,,,,,,,40,,,,,,40,,,,,,,,,,,,,,
stand-bare,a,stand magnifier,,,,,,,,,35,,,,5,180,,,,,,,,40,,,none,,yes,,
dome-bare,a,dome,,,,,,,,,50,,25,30,,,,,,,,,,,200,,none,,,,
tablet-bare,a,tablet,,,,,,,,,,210,150,,4,,,,,,,,,,,180,none,2,,,
camera-held,a,distance camera,,,,,,,,,,200,120,,,,,15,,,,,,,,250,,1,no,spotting,
display-near,a,head-mounted display,,,,,,,,,,,,,,,,20,45,1.2,1920,1920,,,,,near,,,,
display-bare,a,head-mounted display,,,,,,,,,,,,,,,,12,50,0.3,1920,1920,,,,,none,,,,
hand-5,a,hand-held telescope,,keplerian,5,,15,,8,0.4,,,,,,,,,,,,,,12,,,,,,,
hand-8,a,hand-held telescope,,keplerian,8,,21,,,,,,,,,,,,,,,,,,,,,,,,
hand-3,a,hand-held telescope,,galilean,3,,25,,,,,,,,,,,,,,,,,,,,none,,,,
mounted-gap,a,spectacle-mounted telescope,,keplerian,4,,12,12,12,0.3,,,,,,,,,,,,,80,7,,,,,,,20
mounted-fixed,a,spectacle-mounted telescope,,galilean,2.2,,22,12,,,,,,,,,,,,,,,90,3,,,,,,,20
cap-28,a,telescope with reading cap,,galilean,2.8,6,24,,,,,,,,,,,,,,,,,,,,near,,,,
cap-5,a,telescope with reading cap,,keplerian,5,3,14,,9,,,,,,,,,,,,,,,9,,,none,,,,
reversed-50,a,reversed telescope,,galilean,0.5,,15,,,,,,,,,,,,,,,,,,,,,,,,
minus-bare,a,minus lens,-4,,,,,,,,70,,,,,,,,,,,,,250,,,none,,,,
";

/// The six cases that were invented for this test.
const MORE: [&str; 6] =
    ["central-loss", "child-reads-near", "high-myope", "music-teacher", "small-field", "without-its-lens"];

/// All cases that are compared: their names and what their files hold.
fn cases() -> Vec<(String, String)> {
    let demo = names().into_iter().map(|name| ("demo-scenarios", name));
    let more = MORE.map(|name| ("tests/second_road/cases", name.to_owned()));
    demo.chain(more)
        .map(|(folder, name)| {
            let text = text_of(&root().join(folder).join(format!("{name}.json")));
            (name, text)
        })
        .collect()
}

fn demo_list() -> String {
    text_of(&root().join("demo-scenarios/aids.csv"))
}

fn text_of(path: &Path) -> String {
    std::fs::read_to_string(path).unwrap_or_else(|error| panic!("{}: {error}", path.display()))
}

/// What the program says of a case.
fn by_program(case: &str, list: &str) -> Value {
    let asked = json!({
        "case": serde_json::from_str::<Value>(case).expect("a case is JSON"),
        "list": list,
        "goal_chance": GOAL_CHANCE,
    });
    let program = root().join("tests/second_road/aids.py");
    let mut command = Command::new("python3");
    command.arg(program).stdin(Stdio::piped()).stdout(Stdio::piped()).stderr(Stdio::piped());
    let mut running = command.spawn().expect("python3 is needed for this test: install Python 3");
    let mut input = running.stdin.take().expect("it is piped");
    input.write_all(asked.to_string().as_bytes()).expect("the program reads what it is asked");
    drop(input);
    let done = running.wait_with_output().expect("the program ends");
    assert!(done.status.success(), "the program failed: {}", String::from_utf8_lossy(&done.stderr));
    serde_json::from_slice(&done.stdout).expect("the program prints JSON")
}

fn cell_of_model(cell: &Result<Cell, Cannot>) -> Value {
    let cell = match cell {
        Ok(cell) => cell,
        Err(Cannot::OnlyPrint) => return json!({ "cannot": "only print" }),
        Err(Cannot::OnlyFar) => return json!({ "cannot": "only far" }),
        Err(Cannot::NoAnswer(error)) => return json!({ "cannot": format!("no answer: {error}") }),
    };
    let lack = |lack: &Lack| match lack {
        Lack::Focus => "focus",
        Lack::Distance => "distance",
        Lack::Seen => "seen",
        Lack::Hands => "hands",
        Lack::Walking => "walking",
        Lack::BothEyes => "both_eyes",
    };
    json!({
        "chance": cell.prediction.chance,
        "reserve_reached": cell.reserve_reached,
        "evd_m": cell.equivalent_viewing_distance.map(|length| length.m()),
        "angular": cell.angular.times(),
        "width_m": cell.width.map(|length| length.m()),
        "characters": cell.characters,
        "page_to_eye_m": cell.shown_to_eye.map(|length| length.m()),
        "hand_room_m": cell.hand_room.map(|length| length.m()),
        "focus_needed_d": cell.focus.needed.dioptres(),
        "defocus_d": cell.focus.defocus.dioptres(),
        "loss_log": cell.loss.log(),
        "light": cell.light,
        "lacks": cell.lacks.iter().map(lack).collect::<Vec<_>>(),
    })
}

/// The same of the page's model, in the same form.
fn by_model(case: &str, list: &str) -> Value {
    let draft = case_file::read(case).expect("it is a case").case;
    let read = list::read(list.as_bytes());
    assert!(read.troubles.is_empty(), "{:?}", read.troubles);
    let aids = &read.list;
    let table = Table::of(Asked::of(&Answer::of(&draft)), aids);
    let id = |place: usize| aids[place].id.as_str();
    let wish = |(place, named): (usize, &Named)| {
        let cells = aids.iter().zip(&table.rows);
        let cells: Map<_, _> = cells.map(|(aid, row)| (aid.id.clone(), cell_of_model(&row[place]))).collect();
        let ranked = table.ranked(place, &[]);
        let beaten: Map<_, _> =
            ranked.beaten.iter().map(|(aid, by, _)| (id(*aid).to_owned(), json!(id(*by)))).collect();
        let front: Vec<&str> = ranked.front.iter().map(|aid| id(*aid)).collect();
        json!({ "goal": named.goal, "aids": cells, "front": front, "beaten": beaten })
    };
    let wishes: Vec<Value> = table.asked.wishes.iter().enumerate().map(wish).collect();
    let plan = table.kit(aids, GOAL_CHANCE).expect("there is room for the list");
    let best: Vec<&str> = plan.best.chosen.iter().map(|one| id(one.place)).collect();
    let not_served =
        table.asked.wishes.iter().enumerate().filter(|(place, _)| plan.uncoverable >> place & 1 == 1);
    let uncoverable: Vec<usize> = not_served.map(|(_, named)| named.goal).collect();
    json!({ "wishes": wishes, "kit": { "size": best.len(), "best": best }, "uncoverable": uncoverable })
}

/// Whether two values of this name are the same number, or both none.
fn alike(name: &str, one: &Value, other: &Value) -> bool {
    match (one.as_f64(), other.as_f64()) {
        (Some(one), Some(other)) => {
            let apart = (one - other).abs();
            apart <= SAME * one.abs().max(other.abs()) || DIFFERENCES.contains(&name) && apart <= NOTHING
        }
        _ => one == other,
    }
}

fn sorted(names: &Value) -> Vec<&str> {
    let mut names: Vec<&str> = names.as_array().into_iter().flatten().filter_map(Value::as_str).collect();
    names.sort_unstable();
    names
}

/// Where two cells differ, the program's value first.
fn cell_differences(program: &Value, model: &Value) -> Vec<String> {
    // Why there is no answer is said in other words.
    let kind =
        |cell: &Value| cell["cannot"].as_str().map(|why| why.split(':').next().unwrap_or(why).to_owned());
    if kind(program).is_some() || kind(model).is_some() {
        let differ = kind(program) != kind(model);
        let told = || format!("cannot: {} and {}", program["cannot"], model["cannot"]);
        return differ.then(told).into_iter().collect();
    }
    let numbers = NUMBERS.iter().filter(|name| !alike(name, &program[**name], &model[**name]));
    let mut found: Vec<String> =
        numbers.map(|name| format!("{name}: {} and {}", program[name], model[name])).collect();
    if program["lacks"] != model["lacks"] {
        found.push(format!("lacks: {} and {}", program["lacks"], model["lacks"]));
    }
    found
}

/// Where the two differ on one wish.
fn wish_differences(program: &Value, model: &Value) -> Vec<String> {
    let mut found = Vec::new();
    if program["goal"] != model["goal"] {
        found.push(format!("its place: {} and {}", program["goal"], model["goal"]));
    }
    let of = |wish: &Value, what: &str| wish[what].as_object().cloned().expect("an object of names");
    let (aids, others) = (of(program, "aids"), of(model, "aids"));
    if !aids.keys().eq(others.keys()) {
        found.push("not the same aids".into());
    }
    for (id, cell) in &aids {
        let other = others.get(id).unwrap_or(&Value::Null);
        found.extend(cell_differences(cell, other).iter().map(|what| format!("{id}: {what}")));
    }
    if sorted(&program["front"]) != sorted(&model["front"]) {
        found.push(format!("front: {} and {}", program["front"], model["front"]));
    }
    let (beaten, others) = (of(program, "beaten"), of(model, "beaten"));
    if !beaten.keys().eq(others.keys()) {
        found.push(format!("beaten: {} and {}", program["beaten"], model["beaten"]));
    }
    for (id, by) in others {
        let first = beaten.get(&id).map(|all| &all[0]);
        if first != Some(&by) {
            found.push(format!("{id} is beaten by {first:?} and {by}"));
        }
    }
    found
}

/// Everything in which the program and the model differ, the program first.
fn differences(program: &Value, model: &Value) -> Vec<String> {
    let mut found = Vec::new();
    let wishes = |of: &Value| of["wishes"].as_array().cloned().expect("a list of wishes");
    let (ours, theirs) = (wishes(program), wishes(model));
    if ours.len() != theirs.len() {
        found.push(format!("wishes: {} and {}", ours.len(), theirs.len()));
    }
    for (ours, theirs) in ours.iter().zip(&theirs) {
        let goal = ours["goal"].as_u64().unwrap_or_default() + 1;
        let here = wish_differences(ours, theirs);
        found.extend(here.iter().map(|what| format!("goal {goal}, {what}")));
    }
    let (ours, theirs) = (&program["kit"], &model["kit"]);
    if ours["size"] != theirs["size"] {
        found.push(format!("size of the kit: {} and {}", ours["size"], theirs["size"]));
    }
    if ours["possible"][0] != theirs["best"] {
        found.push(format!("kit: {} and {}", ours["possible"][0], theirs["best"]));
    }
    if program["uncoverable"] != model["uncoverable"] {
        found.push(format!("nothing serves: {} and {}", program["uncoverable"], model["uncoverable"]));
    }
    found
}

/// A case with what `change` makes of the words of each refraction.
fn with_refraction(case: &str, change: impl Fn(&[&str]) -> Vec<String>) -> String {
    let mut case: Value = serde_json::from_str(case).expect("a case is JSON");
    for eye in ["right", "left"] {
        let Some(refraction) = case["case"]["person"][eye]["refraction"].as_str() else { continue };
        let words: Vec<&str> = refraction.split_whitespace().collect();
        case["case"]["person"][eye]["refraction"] = json!(change(&words).join(" "));
    }
    case.to_string()
}

/// The same without cylinder and axis.
fn without_cylinder(case: &str) -> String {
    with_refraction(case, |words| match words {
        [sphere, _, "x", _, rest @ ..] => {
            [&[*sphere], rest].concat().iter().map(|word| word.to_string()).collect()
        }
        _ => words.iter().map(|word| word.to_string()).collect(),
    })
}

/// Passes when no case differs and so many cells hold numbers, or more.
#[track_caller]
fn alike_in_all(list: &str, cases: impl Iterator<Item = (String, String)>, least: usize) {
    let (mut told, mut seen) = (Vec::new(), 0);
    for (name, case) in cases {
        let (program, model) = (by_program(&case, list), by_model(&case, list));
        for wish in program["wishes"].as_array().into_iter().flatten() {
            let aids = wish["aids"].as_object().into_iter().flatten();
            seen += aids.filter(|(_, cell)| cell["cannot"].is_null()).count();
        }
        told.extend(differences(&program, &model).into_iter().map(|what| format!("{name}, {what}")));
    }
    assert!(told.is_empty(), "{} differences, program first:\n{}", told.len(), told.join("\n"));
    assert!(least <= seen, "only {seen} cells hold numbers");
}

fn case(name: &str) -> String {
    let found = cases().into_iter().find(|(other, _)| other == name);
    found.map(|(_, case)| case).unwrap_or_else(|| panic!("{name} is none of the cases"))
}

#[test]
fn every_aid_for_every_wish_is_the_same_by_a_second_road() {
    let spheres = cases()
        .into_iter()
        .map(|(name, case)| (format!("{name} without its cylinder"), without_cylinder(&case)));
    alike_in_all(&demo_list(), cases().into_iter().chain(spheres), 2000);
}

#[test]
fn aids_that_say_what_is_otherwise_assumed_are_the_same_too() {
    alike_in_all(ODD, cases().into_iter(), 400);
}

/// A telescope that its tube focuses for the eye supplies the mean sphere. The eye wears nothing behind it, so its
/// cylinder stays and costs acuity, as it does behind any other aid that does not mend it; one in the eyepiece mends it.
#[test]
fn a_cylinder_stays_behind_a_telescope_that_the_tube_focuses() {
    let child = case("child-reads-near");
    let in_eyepiece = child.replace("by_focusing", "in_eyepiece");
    for (case, wanted) in [(&child, true), (&without_cylinder(&child), false), (&in_eyepiece, false)] {
        let (program, model) = (by_program(case, &demo_list()), by_model(case, &demo_list()));
        assert_eq!(differences(&program, &model), Vec::<String>::new());
        for told in [program, model] {
            let loss = told["wishes"][2]["aids"]["k40-13"]["loss_log"].as_f64().expect("it is for the board");
            assert_eq!(0.01 < loss, wanted, "a loss of {loss}");
            assert!(wanted || loss < NOTHING, "a loss of {loss}");
        }
    }
}

/// Twice or four times is just what is wanted: the chance is one half, which is enough, whatever rounding takes off it.
#[test]
fn a_power_that_is_just_enough_serves() {
    let asked = |times: u32, goal: u32, sphere: i32| {
        let eye = json!({ "acuity": format!("20/{}", goal * times), "refraction": format!("{sphere:+}.00") });
        let goals = json!([{ "kind": "acuity", "acuity": format!("20/{goal}") }]);
        let case = json!({ "person": { "right": eye }, "goals": goals });
        let file = json!({ "format": "arcminute-case", "version": 2, "case": case });
        (format!("{times} times to 20/{goal}, {sphere:+} D"), file.to_string())
    };
    let all = [2, 4].into_iter().flat_map(|times| {
        let goals = [25, 50].into_iter();
        goals.flat_map(move |goal| [-12, -3, 0, 2, 7].map(|sphere| asked(times, goal, sphere)))
    });
    alike_in_all(&demo_list(), all, 400);
}

/// What an aid leaves of room is 1/16 m for +16 D in the hand and for +16 D in spectacles: half a step of the grid that
/// merits are put on. However either was worked out, they are alike, and so one may beat the other.
#[test]
fn what_is_equal_is_alike_though_it_lies_on_the_edge_of_a_step() {
    let myope = case("high-myope");
    let spheres = ["-11.00", "-5.00", "+0.00", "+7.00", "+9.00", "+10.00", "+11.00"].map(|sphere| {
        let words = |words: &[&str]| -> Vec<String> {
            let rest = words.iter().skip(1).map(|word| word.to_string());
            core::iter::once(sphere.to_owned()).chain(rest).collect()
        };
        (format!("high-myope with {sphere}"), with_refraction(&without_cylinder(&myope), words))
    });
    alike_in_all(&demo_list(), spheres.into_iter(), 800);
}

#[test]
fn one_wrong_value_is_found() {
    let case = case("music-teacher");
    let list = demo_list();
    let (program, model) = (by_program(&case, &list), by_model(&case, &list));
    let found = |wrong: &Value| differences(wrong, &model);
    assert_eq!(found(&program), Vec::<String>::new(), "as it stands");
    for name in NUMBERS {
        let mut wrong = program.clone();
        let cell = &mut wrong["wishes"][0]["aids"]["desk-screen"];
        let value = cell[name].as_f64().expect("all of them are numbers of a screen");
        cell[name] = json!(value * (1.0 + 1e-5) + 1e-8);
        let told = found(&wrong);
        assert!(told.len() == 1 && told[0].starts_with(&format!("goal 1, desk-screen: {name}")), "{told:?}");
    }
    let planted = |change: fn(&mut Value), wanted: &str| {
        let mut wrong = program.clone();
        change(&mut wrong);
        let told = found(&wrong);
        let first = told.first().map_or("nothing", String::as_str);
        assert!(first.starts_with(wanted), "{wanted} is told by {first}");
    };
    planted(|all| all["wishes"][1]["aids"]["bar"] = json!({}), "goal 2, bar: cannot");
    planted(|all| all["wishes"][0]["aids"]["bar"]["lacks"] = json!([]), "goal 1, bar: lacks");
    planted(|all| all["wishes"][0]["aids"]["bar"]["width_m"] = json!(null), "goal 1, bar: width_m");
    planted(|all| all["wishes"][2]["front"] = json!(["bar"]), "goal 3, front");
    planted(|all| all["wishes"][2]["beaten"] = json!({}), "goal 3, beaten");
    planted(|all| all["kit"]["size"] = json!(9), "size of the kit");
    planted(|all| all["kit"]["possible"] = json!([["bar"]]), "kit");
    planted(|all| all["uncoverable"] = json!([4]), "nothing serves");
}
