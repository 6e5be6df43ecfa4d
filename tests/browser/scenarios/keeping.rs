//! What happens to a case as a whole: taken back, saved, opened, kept, locked, and gone without a trace.

use super::cases::case;
use super::places::{PLACES, arrived, fill, go, into_view, load, shown, wipe};
use crate::driver::Options;
use crate::page::Page;
use crate::server::Server;
use crate::temp::TempDir;
use crate::wait::{SOON, within};
use crate::{act, axe, find, see, setup};
use serde_json::{Value, json};
use std::path::Path;

const PASSPHRASE: &str = "four words of mine";
const LABEL: &str = "Quagga-7";
const MARKS: [&str; 4] = [LABEL, "Okapi-8", "Dugong-9", "20/163"];

#[track_caller]
fn press_button(page: &Page, name: &str) {
    into_view(&find::role(page, "button", name)).click();
}

/// A demonstration case with words of our own in it.
#[track_caller]
fn a_case(page: &Page) {
    load(page, case("adult-20-160"));
    fill(page, "Case label", LABEL);
    fill(page, "Notes", MARKS[1]);
    fill(page, "RIGHT eye: best corrected distance acuity", MARKS[3]);
    go(page, "Goals");
    fill(page, "What is it?", MARKS[2]);
    go(page, "Person");
}

/// Opens the part that saves and opens.
#[track_caller]
fn unfold_keep(page: &Page) {
    if find::id(page, "keep").attribute("aria-expanded").as_deref() == Some("false") {
        press_button(page, "Save or open");
    }
    find::id(page, "keep-part");
}

/// Types a passphrase into both boxes of a kind.
#[track_caller]
fn type_twice(page: &Page, label: &str) {
    fill(page, label, PASSPHRASE);
    fill(page, &format!("{label}, once more"), PASSPHRASE);
}

/// All places as they show the case, from the first on.
#[track_caller]
fn all_places(page: &Page) -> Vec<String> {
    let seen = PLACES.iter().map(|place| {
        go(page, place);
        shown(page)
    });
    seen.collect()
}

/// Everywhere that something of a case could be left: what stands in the document, in boxes and in stores, and what the
/// window is called.
#[track_caller]
fn everything(page: &Page) -> String {
    let body = "const body = document.body.cloneNode(true); \
        for (const script of body.querySelectorAll('script')) script.remove(); \
        const boxes = [...document.querySelectorAll('input, select, textarea')]; \
        return [body.outerHTML, boxes.map((box) => `${box.value} ${box.files?.length ?? ''}`).join(' '), document.title, \
            location.href, JSON.stringify(history.state), JSON.stringify({ ...localStorage }), \
            JSON.stringify({ ...sessionStorage }), String(getSelection()), window.name, document.cookie].join('\\n')";
    let text = page.script(body, &[]);
    format!("{}\n{}", text.as_str().expect("a text"), see::stored(page).join("\n"))
}

#[track_caller]
fn nothing_is_left(page: &Page, when: &str) {
    let left = everything(page);
    for mark in MARKS.iter().chain(&["31.5", "DEMO-1", PASSPHRASE]) {
        assert!(!left.contains(mark), "{mark} is left {when}: {left}");
    }
}

/// Lets the page's clock run ahead; the page asks it anew each second.
#[track_caller]
fn run_ahead(page: &Page, seconds: f64) {
    let body = "window.arcminuteNow ??= Date.now.bind(Date); window.arcminuteAhead ??= 0; \
        window.arcminuteAhead += arguments[0]; Date.now = () => window.arcminuteNow() + window.arcminuteAhead";
    page.script(body, &[json!(seconds * 1_000.0)]);
}

#[track_caller]
fn there(page: &Page, css: &str, wanted: bool) {
    within(SOON, &format!("{css} {}", if wanted { "there" } else { "gone" }), || {
        if (0 < see::count(page, css)) == wanted { Ok(()) } else { Err("the other way".to_owned()) }
    });
}

#[track_caller]
fn attach(page: &Page, file: &Path) {
    act::attach(page, "A file of a case", file);
}

#[test]
fn a_case_is_saved_sealed_wiped_and_opened_again() {
    let page = super::open(&Options::desktop());
    a_case(&page);
    let before = all_places(&page);
    unfold_keep(&page);
    act::click(&page, "button", "Save the sealed file");
    see::reads(
        &page,
        "save-told",
        "The passphrase is too short: take at least 8 characters, better four words.",
    );
    fill(&page, "Passphrase for the file", PASSPHRASE);
    act::press(&page, &["Enter"]);
    see::reads(&page, "save-told", "The two passphrases are not the same: type both again.");
    type_twice(&page, "Passphrase for the file");
    let secret = || find::id(&page, "save-secret").property("type");
    assert_eq!(secret(), json!("password"));
    act::tick(&page, "Show the passphrase for the file", true);
    assert_eq!(secret(), json!("text"));
    axe::assert_clean(&page);
    press_button(&page, "Save the sealed file");
    see::holds(&page, "save-told", "Handed to the browser as case-Quagga-7-");
    assert_eq!(
        find::id(&page, "save-secret").property("value"),
        json!(""),
        "the passphrase is gone from its box"
    );
    let file = see::download(&page, ".sealed.arcminute.json");
    let text = std::fs::read_to_string(&file).expect("the file");
    assert!(MARKS.iter().all(|mark| !text.contains(mark)), "nothing of it can be read: {text}");

    wipe(&page);
    nothing_is_left(&page, "after New case");
    unfold_keep(&page);
    attach(&page, &file);
    see::reads(&page, "open-told", "This file is sealed. Type its passphrase.");
    let fresh = shown(&page);
    fill(&page, "Passphrase of the file", "another of mine");
    act::press(&page, &["Enter"]);
    let refused = "It does not open: the passphrase is another, or the file was damaged; nothing on the page has changed.";
    see::reads(&page, "open-told", refused);
    assert_eq!(shown(&page), fresh, "nothing on the page has changed");
    fill(&page, "Passphrase of the file", PASSPHRASE);
    press_button(&page, "Open the file");
    arrived(&page, "Person");
    assert_eq!(all_places(&page), before, "the case is as it was");
    assert_eq!(find::id(&page, "undo").attribute("aria-disabled").as_deref(), Some("true"), "a new history");
    see::no_errors(&page);
}

#[test]
fn what_is_no_case_changes_nothing_on_the_page() {
    let page = super::open(&Options::desktop());
    a_case(&page);
    go(&page, "Fit");
    let before = shown(&page);
    unfold_keep(&page);
    let folder = TempDir::new();
    let whole = std::fs::read_to_string(arcminute_tests::root().join("demo-scenarios/adult-20-300.json"));
    let whole = whole.expect("a case");
    let no_case =
        "This file was not opened: it is not a case, or it was damaged; nothing on the page has changed.";
    let large = "This file was not opened: it is too large to be a case; nothing on the page has changed.";
    let wrong: [(&str, Vec<u8>, &str); 6] = [
        ("empty.json", Vec::new(), no_case),
        ("half.json", whole.as_bytes()[..whole.len() / 2].to_vec(), no_case),
        ("picture.json", (0..=255).cycle().take(9_000).collect(), no_case),
        ("other.json", b"{ \"format\": \"something\", \"version\": 1, \"case\": {} }".to_vec(), no_case),
        ("large.json", vec![b' '; 4_000_001], large),
        ("rather-large.json", vec![b' '; 1_000_001], large),
    ];
    for (name, content, told) in wrong {
        // What was said of the file before must not stand for this one.
        page.script("document.getElementById('open-told').firstChild.data = ''", &[]);
        attach(&page, &folder.write(name, content));
        within(SOON, &format!("{name}: {told}"), || {
            let text = see::text(&page, "open-told");
            if text == told { Ok(()) } else { Err(text) }
        });
        assert_eq!(shown(&page), before, "{name}");
        assert_eq!(see::count(&page, "#open-secret, #replace"), 0, "{name} is not asked about");
    }
    press_button(&page, "Undo");
    see::holds(&page, "stepped", "Undone: a change in Goals.");
    see::no_errors(&page);
}

#[test]
fn a_plain_file_is_a_choice_of_its_own_and_replaces_nothing_unasked() {
    let page = super::open(&Options::desktop());
    a_case(&page);
    unfold_keep(&page);
    act::choose(&page, "Plain, for anyone to read");
    see::holds(&page, "keep-part", "Whoever has a plain file can read all of the case");
    press_button(&page, "Save the plain file");
    let file = see::download(&page, ".plain.arcminute.json");
    let text = std::fs::read_to_string(&file).expect("the file");
    assert!(MARKS.iter().all(|mark| text.contains(mark)), "it is plain: {text}");

    // Nothing is lost: it is not asked about.
    attach(&page, &file);
    arrived(&page, "Person");
    fill(&page, "Case label", "Not saved");
    unfold_keep(&page);
    for (answer, label) in [("Stay with this case", "Not saved"), ("Replace it", LABEL)] {
        attach(&page, &file);
        there(&page, "#replace-ask", true);
        assert_eq!(see::value(&page, "Case label"), "Not saved", "nothing happens before the answer");
        press_button(&page, answer);
        there(&page, "#replace-ask", false);
        assert_eq!(see::value(&page, "Case label"), label);
    }
    see::no_errors(&page);
}

#[test]
fn steps_go_back_and_forth_by_button_and_by_key() {
    let page = super::open(&Options::desktop());
    load(&page, case("adult-20-160"));
    let label = || see::value(&page, "Case label");
    let loaded = label();
    fill(&page, "Case label", "One");
    into_view(&find::role(&page, "radio", "Decimal acuity")).click();
    let decimal = || see::is_on(&page, "Decimal acuity");
    assert!(decimal());
    // The whole of what was typed is one step.
    press_button(&page, "Undo");
    let told = "Undone: a change in Person. More steps: 1.";
    see::reads(&page, "stepped", told);
    assert_eq!((label().as_str(), decimal()), ("One", false));
    act::press(&page, &["Control+z"]);
    assert_eq!(label(), loaded);
    act::press(&page, &["Control+z"]);
    see::reads(&page, "stepped", "Nothing to undo.");
    act::press(&page, &["Control+Shift+z"]);
    assert_eq!((label().as_str(), decimal()), ("One", false));
    act::press(&page, &["Control+y"]);
    assert!(decimal());
    press_button(&page, "Redo");
    see::reads(&page, "stepped", "Nothing to redo.");
    // A box of the case has the steps of the case; one for a passphrase has its own.
    into_view(&find::role(&page, "textbox", "Notes")).click();
    act::press(&page, &["Control+z"]);
    assert!(!decimal(), "a key in a box takes the last step back, whatever it was");
    act::press(&page, &["Control+y"]);
    unfold_keep(&page);
    fill(&page, "Passphrase for the file", "abc");
    act::press(&page, &["Control+y", "Control+Shift+z"]);
    assert!(decimal(), "a key in the box of a passphrase takes no step");
    press_button(&page, "Undo");
    assert!(!decimal());
    // A new case has no steps back into the one before.
    wipe(&page);
    press_button(&page, "Undo");
    see::reads(&page, "stepped", "Nothing to undo.");
    assert_eq!(label(), "");
    nothing_is_left(&page, "after New case");
    see::no_errors(&page);
}

#[test]
fn an_untouched_page_warns_then_locks_and_nothing_is_left() {
    let page = super::open(&Options::desktop());
    see::reads(&page, "lock-comes", "After 5 minutes without a touch the page locks and wipes the case.");
    run_ahead(&page, 600.0);
    a_case(&page);
    assert_eq!(see::count(&page, ".near, main.locked"), 0, "an empty page does not lock");
    run_ahead(&page, 239.0);
    there(&page, "#lock-near", true);
    see::holds(&page, "lock-near", "The page locks and wipes the case in ");
    let said =
        "Nobody has touched the page for a while. Soon it locks and wipes the case. Press any key to go on.";
    see::reads(&page, "voice", said);
    axe::assert_clean(&page);
    press_button(&page, "Go on");
    there(&page, "#lock-near", false);
    see::reads(&page, "voice", "");
    run_ahead(&page, 250.0);
    there(&page, "#lock-near", true);
    act::press(&page, &["Shift"]);
    there(&page, "#lock-near", false);
    assert_eq!(see::value(&page, "Case label"), LABEL, "and the case is there");

    run_ahead(&page, 301.0);
    there(&page, "main.locked", true);
    let all = page.script("return document.body.innerText", &[]);
    let all = crate::page::plain_spaces(all.as_str().expect("a text"));
    assert_eq!(
        all, "Arcminute is locked The page is empty: there was no case, or it was wiped. Start anew",
        "and nothing else"
    );
    assert_eq!(page.script("return document.title", &[]), json!("Arcminute"));
    nothing_is_left(&page, "behind the lock");
    axe::assert_clean(&page);
    act::press(&page, &["Control+z"]);
    press_button(&page, "Start anew");
    arrived(&page, "Person");
    nothing_is_left(&page, "after the lock");
    act::press(&page, &["Control+z"]);
    nothing_is_left(&page, "after a step back");
    see::no_errors(&page);
}

/// The page comes back from its sleep with a key: too late for the key to count.
#[test]
fn the_first_key_after_the_time_is_over_does_not_open_the_page() {
    let page = super::open(&Options::desktop());
    a_case(&page);
    let body = "const ahead = Date.now() + 301e3; Date.now = () => ahead; \
        window.dispatchEvent(new KeyboardEvent('keydown', { key: 'a' }))";
    page.script(body, &[]);
    there(&page, "main.locked", true);
    see::no_errors(&page);
}

#[test]
fn a_lock_with_a_passphrase_seals_the_case_and_opens_it() {
    let page = super::open(&Options::phone());
    a_case(&page);
    let before = all_places(&page);
    unfold_keep(&page);
    act::select(&page, "Lock after, without a touch", "1 min");
    type_twice(&page, "Passphrase for the lock");
    press_button(&page, "Have the lock seal the case");
    see::reads(&page, "lock-comes", "After 1 minute without a touch the page locks and seals the case.");
    run_ahead(&page, 61.0);
    there(&page, "main.locked", true);
    nothing_is_left(&page, "behind the lock");
    fill(&page, "Passphrase of the lock", "another of mine");
    press_button(&page, "Unlock");
    see::holds(&page, "unlock-told", "It does not open: the passphrase is another");
    axe::assert_clean(&page);
    fill(&page, "Passphrase of the lock", PASSPHRASE);
    act::press(&page, &["Enter"]);
    arrived(&page, "Person");
    assert_eq!(all_places(&page), before, "the case is as it was");
    // The passphrase that opened it seals it again; whoever has none can only start anew.
    press_button(&page, "Lock and seal");
    there(&page, "#unlock", true);
    press_button(&page, "Start anew, without the sealed case");
    arrived(&page, "Person");
    nothing_is_left(&page, "after a new start");
    see::reads(&page, "lock-comes", "After 1 minute without a touch the page locks and wipes the case.");
    see::no_errors(&page);
}

#[test]
fn a_case_is_kept_on_the_device_only_sealed_and_only_when_asked() {
    let server = Server::start(&setup::site());
    let page = Page::open(&server.url(""), &Options::desktop());
    page.wait_until_up();
    a_case(&page);
    let before = all_places(&page);
    let local =
        || page.script("return JSON.stringify({ ...localStorage })", &[]).as_str().unwrap_or("").to_owned();
    assert_eq!(local(), "{}", "nothing is kept unasked");
    unfold_keep(&page);
    type_twice(&page, "Passphrase for this device");
    press_button(&page, "Keep this case, sealed");
    see::reads(&page, "device-told", "The case is kept as it is now.");
    see::holds(&page, "kept-said", "A case is kept on this device, sealed, since 20");
    let first = local();
    assert!(
        first.contains("arcminute-sealed-case") && MARKS.iter().all(|mark| !first.contains(mark)),
        "{first}"
    );
    go(&page, "Person");
    fill(&page, "Notes", "Changed");
    press_button(&page, "Keep as it is now");
    within(SOON, "kept anew", || if local() == first { Err("as before".to_owned()) } else { Ok(()) });
    press_button(&page, "Undo");
    press_button(&page, "Keep as it is now");
    axe::assert_clean(&page);

    page.reload();
    page.wait_until_up();
    nothing_is_left(&page, "after a reload");
    press_button(&page, "Open the kept case");
    fill(&page, "Passphrase of the kept case", "another of mine");
    press_button(&page, "Open it");
    see::holds(&page, "kept-told", "It does not open");
    fill(&page, "Passphrase of the kept case", PASSPHRASE);
    press_button(&page, "Open it");
    arrived(&page, "Person");
    assert_eq!(all_places(&page), before, "the case is as it was");
    unfold_keep(&page);
    find::role(&page, "button", "Keep as it is now");
    press_button(&page, "Erase the kept case");
    there(&page, ".kept", false);
    assert_eq!(local(), "{}", "erased by one press");
    see::no_errors(&page);
}

#[test]
fn a_page_that_is_a_file_keeps_nothing_and_says_why() {
    let page = super::open(&Options::desktop());
    load(&page, case("adult-20-160"));
    unfold_keep(&page);
    see::holds(&page, "keep-part", "Not offered where the page is opened from a file");
    assert_eq!(see::count(&page, "#device-secret"), 0);
    assert_eq!(see::stored(&page), [""; 0]);
}

/// The browser's questions before a page is left, so far.
fn questions(page: &Page) -> usize {
    let asked = |event: &&Value| {
        event["method"] == json!("Page.javascriptDialogOpening")
            && event["params"]["type"] == json!("beforeunload")
    };
    page.network_events().iter().filter(asked).count()
}

#[test]
fn leaving_asks_when_something_is_not_saved_and_only_then() {
    let page = super::open(&Options { network_log: true, ..Options::desktop() });
    let reload = || {
        page.reload();
        page.wait_until_up();
    };
    load(&page, case("adult-20-160"));
    reload();
    assert_eq!(questions(&page), 0, "a case that is not changed is not asked about");
    load(&page, case("adult-20-160"));
    fill(&page, "Case label", LABEL);
    reload();
    assert_eq!(questions(&page), 1, "what is not saved is asked about");
    load(&page, case("adult-20-160"));
    fill(&page, "Case label", LABEL);
    unfold_keep(&page);
    type_twice(&page, "Passphrase for the file");
    press_button(&page, "Save the sealed file");
    see::download(&page, ".sealed.arcminute.json");
    reload();
    assert_eq!(questions(&page), 1, "what is saved is not");
    fill(&page, "Case label", LABEL);
    wipe(&page);
    reload();
    assert_eq!(questions(&page), 1, "nor what was wiped");
}

#[test]
fn a_page_that_is_gone_back_to_is_empty() {
    let server = Server::start(&setup::site());
    let page = Page::open(&server.url(""), &Options::desktop());
    page.wait_until_up();
    a_case(&page);
    unfold_keep(&page);
    fill(&page, "Passphrase for the file", PASSPHRASE);
    page.script("window.arcminuteStayed = true", &[]);
    page.go(&server.url("notice.txt"));
    page.script("history.back()", &[]);
    page.wait_until_up();
    let stayed = page.script("return window.arcminuteStayed === true", &[]);
    assert_eq!(stayed, json!(true), "the browser brought the very page back, not a fresh one");
    nothing_is_left(&page, "after going away and back");
    press_button(&page, "Undo");
    nothing_is_left(&page, "after a step back");
}

#[test]
fn a_case_is_saved_by_keyboard_alone() {
    let page = super::open(&Options::desktop());
    load(&page, case("adult-20-160"));
    find::id(&page, "demo-menu");
    page.script("document.getElementById('undo').focus()", &[]);
    let tab_to = |wanted: &str| {
        for _ in 0..40 {
            if see::focused(&page) == wanted {
                return;
            }
            act::press(&page, &["Tab"]);
        }
        panic!("{wanted} is not reached by Tab");
    };
    tab_to("button \"Save or open\"");
    act::press(&page, &["Enter"]);
    for label in ["Passphrase for the file", "Passphrase for the file, once more"] {
        // A box for a passphrase has no role of its own.
        for _ in 0..40 {
            if see::focused(&page).ends_with(&format!("{label:?}")) {
                break;
            }
            act::press(&page, &["Tab"]);
        }
        act::type_keys(&page, PASSPHRASE);
    }
    tab_to("button \"Save the sealed file\"");
    act::press(&page, &["Space"]);
    see::download(&page, ".sealed.arcminute.json");
    see::no_errors(&page);
}
