//! The largest case there is, thirty goals and two hundred aids: how soon it answers a key, and that nothing grows.

use super::super::cases::case;
use super::super::places::{go, into_view, load};
use super::{WATCH, focus_box, numbers, percentiles, say, typing};
use crate::driver::Options;
use crate::page::Page;
use crate::temp::TempDir;
use crate::wait::{SOON, within};
use crate::{act, find, measure, see};
use serde_json::json;

/// What a choice may take: the eye is on the control, and on nothing that moves.
const CHOICE_MS: f64 = 150.0;

/// The aids of the demonstration list four times under other keys, the first two hundred.
fn two_hundred_aids() -> String {
    let demo = include_str!("../../../../demo-scenarios/aids.csv");
    let (headings, rows) = demo.split_once('\n').expect("headings");
    let mut lines = vec![headings.to_owned()];
    for copy in 0..4 {
        for row in rows.lines() {
            let (id, rest) = row.split_once(',').expect("an id");
            lines.push(format!("{id}-{copy},{rest}"));
        }
    }
    lines.truncate(201);
    lines.join("\n")
}

/// A case of thirty goals and a list of two hundred aids, on Bench.
#[track_caller]
fn the_largest_case(page: &Page) {
    load(page, case("adult-20-160"));
    go(page, "Goals");
    for _ in 0..5 {
        act::click(page, "button", "Add six common wishes");
    }
    assert_eq!(see::count(page, ".goal-name"), 30, "thirty goals");
    go(page, "Bench");
    into_view(&find::id(page, "aid-list-change")).click();
    let folder = TempDir::new();
    folder.write("large.csv", two_hundred_aids());
    act::attach(page, "Load your own list", &folder.path().join("large.csv"));
    see::reads(page, "aid-list-told", "large.csv: 200 aids taken.");
}

#[test]
fn two_hundred_aids_and_thirty_goals_answer_a_key_within_a_frame() {
    let page = crate::scenarios::open(&Options::desktop());
    the_largest_case(&page);
    go(&page, "Person");
    focus_box(&page, "RIGHT eye: best corrected distance acuity");
    act::press(&page, &["Control+a"]);
    typing(&page, "acuity on Person, 200 aids and 30 goals", "20/160");
}

/// Choices that change what is compared: the goal and the eye, by arrow; for an eye every aid is worked out anew.
#[test]
fn a_choice_on_bench_is_answered_soon() {
    let page = crate::scenarios::open(&Options::desktop());
    the_largest_case(&page);
    for (what, control) in [("the next goal", "bench-goal"), ("the other eye, 6000 outcomes", "bench-eye-1")]
    {
        into_view(&find::id(&page, control));
        page.script("document.getElementById(arguments[0]).focus()", &[json!(control)]);
        page.script(&WATCH.replace("'input'", "'change'"), &[]);
        for pressed in 0..40 {
            act::press(&page, &[["ArrowDown", "ArrowUp"][pressed % 2]]);
            within(SOON, "a time for the key", || {
                let count = page.script("return keyTimes.paint.length", &[]);
                if count == json!(pressed + 1) { Ok(()) } else { Err(count.to_string()) }
            });
        }
        let of = |kind: &str| percentiles(numbers(&page.script(&format!("return keyTimes.{kind}"), &[])));
        let (update, paint) = (of("update"), of("paint"));
        let figures = json!({
            "update_p50_ms": update.half, "update_p95_ms": update.most, "paint_p50_ms": paint.half,
            "paint_p95_ms": paint.most,
        });
        measure::note(&format!("on Bench, 200 aids and 30 goals: {what}"), &figures);
        say(&format!("{what}: {figures}"));
        assert!(update.most <= CHOICE_MS, "{what}: 95 % within {} ms", update.most);
    }
}

/// Keeps hold of the program's own memory, which no page can otherwise ask for.
const HOLD: &str = "const made = WebAssembly.instantiate; \
    WebAssembly.instantiate = async (...given) => { \
        const all = await made(...given); \
        const instance = all.instance ?? all; \
        window.ofProgram = instance.exports.memory ?? window.ofProgram; \
        return all; }; \
    const kept = WebAssembly.Instance; \
    WebAssembly.Instance = function (...given) { \
        const instance = new kept(...given); window.ofProgram = instance.exports.memory; return instance; };";

/// Bytes of the program and of the page's own heap, once what can be let go is let go, and the elements there are.
fn room(page: &Page) -> [f64; 3] {
    page.cdp("HeapProfiler.collectGarbage", json!({}));
    let metrics = page.cdp("Performance.getMetrics", json!({}));
    let of = |name: &str| {
        let list = metrics["metrics"].as_array().expect("metrics");
        let one = list.iter().find(|one| one["name"] == name).expect("this metric");
        one["value"].as_f64().expect("a number")
    };
    let program = page.script("return window.ofProgram.buffer.byteLength", &[]);
    [program.as_f64().expect("bytes"), of("JSHeapUsedSize"), of("Nodes")]
}

/// Edits of a box, one after the other, each answered before the next.
const EDIT: &str = "const [done, count] = [arguments[1], arguments[0]]; (async () => { \
    const box = document.getElementById('acuity-right'); \
    for (let at = 0; at < count; at += 1) { \
        box.value = `20/${100 + at % 97}`; \
        box.dispatchEvent(new Event('input', { bubbles: true })); \
        if (at % 20 === 0) await new Promise(requestAnimationFrame); \
        else await null; \
    } done(true); })()";

#[test]
fn ten_thousand_edits_take_no_more_room_than_a_thousand() {
    let page = Page::blank(&Options::desktop());
    page.cdp("Page.addScriptToEvaluateOnNewDocument", json!({ "source": HOLD }));
    page.go(&crate::temp::file_url(&crate::setup::single_file()));
    page.wait_until_up();
    page.cdp("Performance.enable", json!({}));
    the_largest_case(&page);
    go(&page, "Person");
    let edit = |count: usize| assert_eq!(page.script_async(EDIT, &[json!(count)]), json!(true));
    edit(1000);
    let first = room(&page);
    for _ in 0..9 {
        edit(1000);
    }
    let last = room(&page);
    measure::note("ten thousand edits", &json!({ "after_1000": first, "after_10000": last }));
    say(&format!("program, heap, elements: after 1000 {first:?}, after 10000 {last:?}"));
    assert!(last[0] <= first[0] * 1.02, "the program grew: {first:?} {last:?}");
    assert!(last[1] <= first[1] * 1.1 + 500_000.0, "the heap grew: {first:?} {last:?}");
    assert!(last[2] <= first[2] + 50.0, "elements grew: {first:?} {last:?}");
    see::no_errors(&page);
}
