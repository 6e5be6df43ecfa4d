//! How soon the page answers a key, and what a first visit costs.

mod large;

use super::cases::case;
use super::places::{go, into_view, load, unfold};
use crate::driver::Options;
use crate::keyboard::chord;
use crate::page::Page;
use crate::server::{Server, locate};
use crate::wait::{SOON, within};
use crate::{act, find, measure, see, setup};
use flate2::Compression;
use flate2::write::GzEncoder;
use serde_json::{Value, json};
use std::collections::BTreeSet;
use std::fs;
use std::io::Write;

/// A first visit, compressed as any web server would.
const FIRST_VISIT_GZIP_BYTES: usize = 540_000;

/// One frame of a usual screen.
const FRAME_MS: f64 = 1000.0 / 60.0;

/// Keys of one round, at least, and rounds.
const KEYS: usize = 200;
const ROUNDS: usize = 3;

/// Writes down for each input how long until the page's document has settled, and until that is painted.
///
/// Handlers and the effects they queue run before anything is drawn; an observer of the whole document is told after each
/// of them, and the last time it is told is the end of the update. The painting is timed in a task posted from the frame
/// in which the change is drawn, style and layout included.
const WATCH: &str = "
    const times = window.keyTimes = { update: [], paint: [] };
    let settled = 0;
    new MutationObserver(() => { settled = performance.now(); }).observe(document.body,
        { childList: true, subtree: true, attributes: true, characterData: true });
    addEventListener('input', () => {
        const start = settled = performance.now();
        addEventListener('input', () => { settled = performance.now(); }, { once: true });
        requestAnimationFrame(() => {
            times.update.push(settled - start);
            const painted = new MessageChannel();
            painted.port1.onmessage = () => times.paint.push(performance.now() - start);
            painted.port2.postMessage(0);
        });
    }, true)";

struct Percentiles {
    half: f64,
    most: f64,
    worst: f64,
}

fn numbers(list: &Value) -> Vec<f64> {
    list.as_array().into_iter().flatten().filter_map(Value::as_f64).collect()
}

fn percentiles(mut values: Vec<f64>) -> Percentiles {
    values.sort_by(f64::total_cmp);
    let at = |share: usize| values[(values.len() * share / 100).min(values.len() - 1)];
    Percentiles { half: at(50), most: at(95), worst: at(100) }
}

/// The same keys in several rounds: what else the machine does only adds to a time, so the least of each key is nearest
/// to what the page takes for it.
fn least(rounds: &[Vec<f64>]) -> Vec<f64> {
    let of_key = |key: usize| rounds.iter().map(|round| round[key]).fold(f64::INFINITY, f64::min);
    (0..rounds[0].len()).map(of_key).collect()
}

/// Types and erases real characters in the box that has the focus, in several rounds.
#[track_caller]
fn typing(page: &Page, what: &str, text: &str) {
    page.script(WATCH, &[]);
    let erase = vec![chord("Backspace"); text.chars().count()];
    let once: Vec<Vec<String>> = text.chars().map(|letter| vec![letter.to_string()]).chain(erase).collect();
    // Whole times there and back, so that each round begins alike.
    let keys = KEYS.div_ceil(once.len()) * once.len();
    let (mut updates, mut paints) = (Vec::new(), Vec::new());
    for _ in 0..ROUNDS {
        page.script("keyTimes.update = []; keyTimes.paint = []", &[]);
        let mut times = Value::Null;
        for (pressed, key) in once.iter().cycle().take(keys).enumerate() {
            // One key at a time, as fingers do: a queue of keys would be measured and not the page.
            page.keys(std::slice::from_ref(key));
            times = within(SOON, "the times of a key", || {
                let times = page.try_script("return keyTimes", &[]).map_err(|refusal| refusal.to_string())?;
                let counted = |kind: &str| times[kind].as_array().is_some_and(|all| all.len() == pressed + 1);
                if counted("update") && counted("paint") { Ok(times) } else { Err("not yet".to_owned()) }
            });
        }
        updates.push(numbers(&times["update"]));
        paints.push(numbers(&times["paint"]));
    }
    let (update, paint) = (percentiles(least(&updates)), percentiles(least(&paints)));
    let one_round = percentiles(updates.swap_remove(ROUNDS - 1));
    let figures = json!({
        "keys": keys, "update_p50_ms": update.half, "update_p95_ms": update.most, "update_max_ms": update.worst,
        "paint_p50_ms": paint.half, "paint_p95_ms": paint.most, "update_p95_of_last_round_ms": one_round.most,
    });
    measure::note(&format!("typing: {what}"), &figures);
    say(&format!("typing, {what}: {figures}"));
    assert!(
        update.most <= FRAME_MS,
        "{what}: 95 % of keys within {} ms, a frame is {FRAME_MS} ms",
        update.most
    );
}

#[expect(clippy::print_stdout, reason = "the figure is what the test is for")]
fn say(words: &str) {
    println!("{words}");
}

#[track_caller]
fn focus_box(page: &Page, label: &str) {
    into_view(&find::role(page, "textbox", label)).click();
    act::press(page, &["End"]);
}

#[test]
fn a_key_in_the_acuity_box_is_answered_within_a_frame() {
    let page = super::open(&Options::desktop());
    load(&page, case("pupil-reads-the-board"));
    focus_box(&page, "RIGHT eye: best corrected distance acuity");
    act::press(&page, &["Control+a"]);
    typing(&page, "acuity on Person, with goal, telescope and fit behind it", "20/160");
}

#[test]
fn a_key_in_a_goal_box_is_answered_within_a_frame_with_the_ladder_beside() {
    let page = super::open(&Options::desktop());
    load(&page, case("pupil-reads-the-board"));
    go(&page, "Goals");
    assert!(see::count(&page, "#ladder-beside svg") == 1, "the ladder is drawn beside");
    focus_box(&page, "Height of the letters mm");
    typing(&page, "letter height on Goals, ladder beside", "55");
}

#[test]
fn a_key_in_a_box_of_the_fit_is_answered_within_a_frame() {
    let page = super::open(&Options::desktop());
    load(&page, case("frame-too-shallow"));
    go(&page, "Fit");
    assert!(see::count(&page, "#front-picture .drawn svg") == 1, "the frame is drawn");
    focus_box(&page, "Box height B mm");
    act::press(&page, &["Control+a", "Delete"]);
    typing(&page, "box height on Fit, refused with ways out, and accepted", "41.5");
}

#[test]
fn a_choice_that_changes_every_aid_is_answered_at_once() {
    let page = super::open(&Options::desktop());
    load(&page, case("pupil-reads-the-board"));
    go(&page, "Bench");
    unfold(&page);
    page.script(&WATCH.replace("'input'", "'change'"), &[]);
    for _ in 0..20 {
        act::choose(&page, "Lens in the eyepiece");
        act::choose(&page, "Focused out with the tube");
    }
    within(SOON, "a time for each choice", || {
        let count = page.script("return keyTimes.paint.length", &[]);
        if count == json!(40) { Ok(()) } else { Err(count.to_string()) }
    });
    let of = |kind: &str| percentiles(numbers(&page.script(&format!("return keyTimes.{kind}"), &[])));
    let (update, paint) = (of("update"), of("paint"));
    let figures =
        json!({ "update_p50_ms": update.half, "update_p95_ms": update.most, "paint_p95_ms": paint.most });
    measure::note("choosing: correction on Bench, every aid shown", &figures);
    say(&format!("choosing on Bench: {figures}"));
    assert!(paint.most <= 100.0, "95 % of the choices are painted within {} ms", paint.most);
}

#[test]
fn a_first_visit_costs_no_more_than_a_photograph() {
    let server = Server::start(&setup::site());
    let page = Page::open(&server.url(""), &Options::phone());
    page.wait_until_up();
    see::kept_for_offline(&page);
    let files: BTreeSet<_> = server
        .served()
        .iter()
        .filter(|served| served.status == 200)
        .filter_map(|served| locate(&setup::site(), &served.path))
        .collect();
    let gzip: usize = files
        .iter()
        .map(|path| {
            let mut encoder = GzEncoder::new(Vec::new(), Compression::best());
            encoder.write_all(&fs::read(path).expect("a served file")).expect("memory takes all");
            encoder.finish().expect("memory takes all").len()
        })
        .sum();
    say(&format!("first visit: {gzip} bytes after gzip in {} files", files.len()));
    assert!(files.len() > 3, "the visit was followed: {files:?}");
    assert!(gzip <= FIRST_VISIT_GZIP_BYTES, "{gzip} bytes after gzip");
}
