//! For everyone: the accessibility rules, keyboard focus that is seen, pages that reflow, and a voice that says results.

use super::cases::{CASES, case};
use super::places::{PLACES, fill, go, load, unfold};
use crate::driver::Options;
use crate::page::Page;
use crate::wait::{SOON, within};
use crate::{act, axe, find, see};
use serde_json::{Value, json};

/// The case in each state that the rules are run over.
const STATES: [&str; 3] = ["empty", "a case", "a case in trouble"];

#[track_caller]
fn bring_into(page: &Page, state: &str) {
    match state {
        "empty" => {}
        "a case" => load(page, case("adult-20-160")),
        _ => {
            load(page, case("frame-too-shallow"));
            fill(page, "RIGHT eye: refraction", "200 100 90");
            fill(page, "LEFT eye: best corrected distance acuity", "0.1");
        }
    }
}

/// Every place in every state, folded open, in this window and these colours.
#[track_caller]
fn rules_are_kept(options: &Options, colours: &str) {
    let page = super::open(options);
    page.prefer(&[("prefers-color-scheme", colours)]);
    let mut told = Vec::new();
    for state in STATES {
        bring_into(&page, state);
        for place in PLACES {
            go(&page, place);
            unfold(&page);
            let report = axe::run(&page);
            assert!(report.passed >= 5, "axe checked only {} rules on {place}", report.passed);
            told.extend(report.faults.iter().map(|fault| format!("{place}, {state}: {fault}")));
        }
    }
    assert!(told.is_empty(), "accessibility faults:\n{}", told.join("\n"));
}

#[test]
fn the_rules_are_kept_on_a_desktop_in_light_colours() {
    rules_are_kept(&Options::desktop(), "light");
}

#[test]
fn the_rules_are_kept_on_a_desktop_in_dark_colours() {
    rules_are_kept(&Options::desktop(), "dark");
}

#[test]
fn the_rules_are_kept_on_a_phone_in_light_colours() {
    rules_are_kept(&Options::phone(), "light");
}

#[test]
fn the_rules_are_kept_on_a_phone_in_dark_colours() {
    rules_are_kept(&Options::phone(), "dark");
}

/// What has the focus, whether it is seen, and how its outline is drawn.
const LOOK_AT_FOCUS: &str = "
    const it = document.activeElement;
    if (!it || it === document.body) return null;
    const box = it.getBoundingClientRect();
    const name = (it.id || it.textContent.trim().slice(0, 40)) + ' ' + it.tagName;
    let seen = 0, asked = 0;
    for (let across = 0.1; across < 1; across += 0.2) for (let down = 0.1; down < 1; down += 0.2) {
        const [x, y] = [box.left + box.width * across, box.top + box.height * down];
        asked += 1;
        if (x < 0 || y < 0 || x >= innerWidth || y >= innerHeight) continue;
        const top = document.elementFromPoint(x, y);
        if (top && (it.contains(top) || top.contains(it))) seen += 1;
    }
    const style = getComputedStyle(it);
    return { name, share: seen / asked, outline: style.outlineStyle, width: parseFloat(style.outlineWidth) }";

/// Walks through every stop of every place by Tab, once round, and says which were not seen.
#[track_caller]
fn walk(width: u32, height: u32) -> usize {
    let page = super::open(&Options::sized(width, height));
    load(&page, case("frame-too-shallow"));
    let (mut hidden, mut stops) = (Vec::new(), 0);
    for place in PLACES {
        go(&page, place);
        unfold(&page);
        let mut seen = Vec::new();
        for _ in 0..200 {
            act::press(&page, &["Tab"]);
            let focus = page.script(LOOK_AT_FOCUS, &[]);
            // Between the last stop and the first the focus is on no part of the page.
            let Some(name) = focus["name"].as_str().map(str::to_owned) else { continue };
            if seen.first() == Some(&name) {
                break;
            }
            seen.push(name);
            let outlined = focus["outline"] != "none" && focus["width"].as_f64() >= Some(2.0);
            if focus["share"].as_f64() <= Some(0.0) || !outlined {
                hidden.push(format!("{place}: {focus}"));
            }
        }
        assert!(seen.iter().any(|name| name.starts_with("go-sheets")), "all the way round {place}: {seen:?}");
        stops += seen.len();
    }
    assert!(hidden.is_empty(), "the focus is not seen at {width} by {height}:\n{}", hidden.join("\n"));
    stops
}

#[test]
fn the_focus_is_seen_at_every_stop_on_a_phone() {
    let stops = walk(360, 640);
    assert!(stops > 100, "only {stops} stops");
}

#[test]
fn the_focus_is_seen_at_every_stop_at_400_percent() {
    let stops = walk(320, 256);
    assert!(stops > 100, "only {stops} stops");
}

/// What sticks out of the window to the right, by name.
const STICKING_OUT: &str = "
    const out = [...document.querySelectorAll('body *')].filter(it => it.checkVisibility() && \
        !it.closest('.for-ears, .skip, thead') && it.getBoundingClientRect().right > innerWidth + 0.5);
    return out.slice(0, 5).map(it => it.tagName + '.' + it.getAttribute('class') + ' ' + it.textContent.slice(0, 30))";

#[test]
fn a_covered_focus_and_cut_off_words_would_be_noticed() {
    let page = super::open(&Options::sized(360, 640));
    let insert = "document.styleSheets[0].insertRule(arguments[0], document.styleSheets[0].cssRules.length)";
    act::press(&page, &["Tab", "Tab"]);
    assert!(page.script(LOOK_AT_FOCUS, &[])["share"].as_f64() > Some(0.9), "seen at first");
    assert_eq!(page.script(CUT_OFF, &[]), json!([]), "nothing is cut off at first");
    page.script(insert, &[json!(".purpose { height: 1em; overflow: hidden }")]);
    let cut = page.script(CUT_OFF, &[]);
    assert!(cut[0].as_str().is_some_and(|cut| cut.starts_with("height: P.purpose")), "{cut}");
    page.script(insert, &[json!(".places { inset: 0 !important }")]);
    assert_eq!(page.script(LOOK_AT_FOCUS, &[])["share"], 0.0, "the bar over everything");
}

/// By how many pixels the buttons of the places, which may be fixed, reach past the window.
#[track_caller]
fn bar_overflow(page: &Page) -> i64 {
    let body = "const ends = [...document.querySelectorAll('.places button')].map(it => it.getBoundingClientRect().right); \
                return Math.max(0, Math.round(Math.max(...ends) - document.documentElement.clientWidth))";
    page.script(body, &[]).as_i64().expect("a whole number of pixels")
}

#[test]
fn no_place_scrolls_sideways_on_a_narrow_or_enlarged_page() {
    let page = super::open(&Options::sized(320, 640));
    let mut wide = Vec::new();
    let mut look = |state: &str| {
        for place in PLACES {
            go(&page, place);
            unfold(&page);
            for (width, height) in [(390, 640), (360, 640), (320, 640), (320, 256)] {
                page.set_viewport(width, height);
                let over = see::overflow(&page) + bar_overflow(&page);
                if over != 0 {
                    let what = page.script(STICKING_OUT, &[]);
                    wide.push(format!("{place}, {state}, {width} by {height}: {over} px; {what}"));
                }
            }
        }
    };
    look("empty");
    for case in CASES {
        load(&page, case);
        look(case.id);
    }
    assert!(wide.is_empty(), "sideways scrolling:\n{}", wide.join("\n"));
}

/// Text spacing that a reader may set (WCAG 2.2, 1.4.12), put in through the style sheet since the policy stops others.
const SPACE_OUT: &str = "
    document.styleSheets[0].insertRule('* { line-height: 1.5 !important; letter-spacing: 0.12em !important; \
        word-spacing: 0.16em !important; }', document.styleSheets[0].cssRules.length);
    document.styleSheets[0].insertRule('p { margin-bottom: 2em !important; }', \
        document.styleSheets[0].cssRules.length)";

/// Elements whose words are cut off by their own box, pictures whose words leave the picture, and words over words.
const CUT_OFF: &str = "
    const cut = [];
    const name = it => `${it.tagName}.${it.getAttribute('class') ?? ''}#${it.id} ${it.textContent.trim().slice(0, 40)}`;
    const hides = value => value === 'hidden' || value === 'clip';
    for (const it of document.querySelectorAll('body *')) {
        if (!it.checkVisibility() || it.closest('.for-ears, thead') || !it.textContent.trim()) continue;
        if (it.closest('svg')) continue;
        const style = getComputedStyle(it);
        if (hides(style.overflowX) && it.scrollWidth > it.clientWidth + 1) cut.push('width: ' + name(it));
        if (hides(style.overflowY) && it.scrollHeight > it.clientHeight + 1) cut.push('height: ' + name(it));
    }
    for (const text of document.querySelectorAll('svg text')) {
        if (!text.checkVisibility()) continue;
        const [inner, picture] = [text.getBoundingClientRect(), text.ownerSVGElement];
        const clips = hides(getComputedStyle(picture).overflowX);
        const whole = { left: 0, right: innerWidth, top: -Infinity, bottom: Infinity };
        const outer = clips ? picture.getBoundingClientRect() : whole;
        // A picture of one side of the frame leaves the other side out, with its words.
        if (clips && (inner.left > outer.right || inner.right < outer.left)) continue;
        if (inner.left < outer.left - 1 || inner.right > outer.right + 1 || inner.top < outer.top - 1 || \
            inner.bottom > outer.bottom + 1) cut.push('picture: ' + name(text));
    }
    for (const button of document.querySelectorAll('button')) {
        if (!button.checkVisibility()) continue;
        const range = document.createRange(); range.selectNodeContents(button);
        const [inner, outer] = [range.getBoundingClientRect(), button.getBoundingClientRect()];
        if (inner.right > outer.right + 1 || inner.bottom > outer.bottom + 1) cut.push('button: ' + name(button));
    }
    return cut";

#[test]
fn wider_text_spacing_loses_nothing() {
    let page = super::open(&Options::desktop());
    page.script(SPACE_OUT, &[]);
    let letter = page.script("return getComputedStyle(document.querySelector('main p')).letterSpacing", &[]);
    assert_ne!(letter, "normal", "the spacing is in force");
    load(&page, case("adult-20-160"));
    let mut lost = Vec::new();
    for place in PLACES {
        go(&page, place);
        unfold(&page);
        for (width, height) in [(1280, 900), (360, 640), (320, 256)] {
            page.set_viewport(width, height);
            let cut = page.script(CUT_OFF, &[]);
            let over = see::overflow(&page);
            if over != 0 || cut != json!([]) {
                lost.push(format!("{place} at {width} by {height}: {over} px too wide; {cut}"));
            }
        }
        page.set_viewport(1280, 900);
    }
    assert!(lost.is_empty(), "lost with wider spacing:\n{}", lost.join("\n"));
}

/// Writes down every change of the voice and the last key press, by the page's own clock.
const LISTEN: &str = "
    const heard = window.heard = { said: [], key: 0 };
    const voice = document.getElementById('voice');
    new MutationObserver(() => heard.said.push({ text: voice.textContent, at: performance.now() }))
        .observe(voice, { childList: true, characterData: true, subtree: true });
    addEventListener('input', () => { heard.key = performance.now(); }, true)";

#[test]
fn the_voice_says_the_final_state_once_and_soon() {
    let page = super::open(&Options::desktop());
    let voice = find::id(&page, "voice");
    assert_eq!(voice.attribute("role").as_deref(), Some("status"), "role");
    assert_eq!(voice.attribute("aria-live").as_deref(), Some("polite"), "it does not interrupt");
    assert!(find::names(&page, "status").len() == 1, "assistive technology finds it");
    load(&page, case("adult-20-160"));
    see::reads(&page, "voice", "4x is needed. 4x13 chosen: chance of the goal 56 %. The fit is possible.");
    for (typed, final_state) in [
        ("20/20", "The goal is reached without a telescope."),
        ("20/80", "2x is needed."),
        ("20/2O", "1 entry cannot be used."),
        ("20/50", "1.2x is needed; the next whole power is 2x."),
    ] {
        let box_of_eye = find::role(&page, "textbox", "RIGHT eye: best corrected distance acuity");
        box_of_eye.click();
        act::press(&page, &["Control+a"]);
        page.script(LISTEN, &[]);
        act::type_keys(&page, typed);
        see::holds(&page, "voice", final_state);
        let said = said(&page);
        assert_eq!(said["said"].as_array().map(Vec::len), Some(1), "five keys, one announcement: {said}");
        let at = |value: &Value| value.as_f64().expect("a time");
        let pause = at(&said["said"][0]["at"]) - at(&said["key"]);
        assert!((200.0..=1000.0).contains(&pause), "{pause} ms after the last key");
    }
}

/// What was heard, once nothing more can come: an announcement waits half a second at most.
#[track_caller]
fn said(page: &Page) -> Value {
    within(SOON, "a second of silence", || {
        let body = "const last = heard.said.at(-1)?.at ?? performance.now(); \
                    return performance.now() - last > 1000 ? heard : null";
        let heard = page.try_script(body, &[]).map_err(|refusal| refusal.to_string())?;
        if heard.is_null() { Err("it may still speak".to_owned()) } else { Ok(heard) }
    })
}
