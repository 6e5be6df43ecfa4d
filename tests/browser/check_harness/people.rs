//! Finding, acting and seeing, on a page with one control of each kind.

use super::open_fixture;
use crate::driver::Options;
use crate::page::Page;
use crate::temp::TempDir;
use crate::{act, find, fixture, see};
use std::fs;
use std::panic::{AssertUnwindSafe, catch_unwind};

/// The words with which an action fails.
fn complaint(act: impl FnOnce()) -> String {
    let told = catch_unwind(AssertUnwindSafe(act)).expect_err("it should have failed");
    told.downcast_ref::<String>().expect("a message").clone()
}

#[test]
fn types_key_by_key_into_the_box_with_a_label() {
    let (page, _folder) = open_fixture(&Options::desktop());
    act::fill(&page, "Test distance, m", "0.35");
    see::reads(&page, "echo", "understood: 0.35 m");
    see::holds(&page, "echo", "0.35");
    find::id(&page, "distance").send_keys("7");
    see::reads(&page, "echo", "understood: 0.357 m");
    act::fill(&page, "Test distance, m", "6");
    assert_eq!(see::value(&page, "Test distance, m"), "6", "the old text is gone");
    act::clear(&page, "Test distance, m");
    see::reads(&page, "echo", "");
}

#[test]
fn looks_inside_groups_and_refuses_to_guess() {
    let (page, _folder) = open_fixture(&Options::desktop());
    act::fill(&find::group(&page, "Right eye"), "Acuity", "20/200");
    act::fill(&find::group(&page, "Left eye"), "Acuity", "6/60");
    let values = ["Right eye", "Left eye"].map(|eye| see::value(&find::group(&page, eye), "Acuity"));
    assert_eq!(values, ["20/200", "6/60"], "each in its own box");
    let told = complaint(|| act::fill(&page, "Acuity", "1"));
    assert!(told.contains("2 of them; look inside a group"), "{told}");
}

#[test]
fn a_missing_control_is_answered_with_those_there_are() {
    let (page, _folder) = open_fixture(&Options::desktop());
    let told = complaint(|| act::click(&page, "button", "Nowhere"));
    assert!(told.contains("one button named \"Nowhere\"; instead: [button \"Later\""), "{told}");
}

#[test]
fn chooses_ticks_and_selects_by_words() {
    let (page, _folder) = open_fixture(&Options::phone());
    act::choose(&page, "I teach");
    see::reads(&page, "door-read", "teach");
    assert!(see::is_on(&page, "I teach") && !see::is_on(&page, "I fit aids"), "one of two");
    for (on, words) in [(true, "glare"), (true, "glare"), (false, "no glare")] {
        act::tick(&page, "Troubled by glare", on);
        see::reads(&page, "glare-read", words);
    }
    act::select(&page, "Notation", "logMAR");
    see::reads(&page, "notation-read", "l");
    let told = complaint(|| act::select(&page, "Notation", "Jaeger"));
    assert!(told.contains("[\"Snellen, metres\", \"logMAR\"]"), "{told}");
}

#[test]
fn waits_for_what_comes_later() {
    let (page, _folder) = open_fixture(&Options::desktop());
    act::click(&page, "button", "Later");
    see::reads(&page, "later-read", "done now");
    assert_eq!(see::text(&page, "later-read"), "done now", "a no-break space reads as a space");
}

#[test]
fn presses_real_keys() {
    let (page, _folder) = open_fixture(&Options::desktop());
    find::label(&page, "Keys").click();
    act::press(&page, &["Enter", "Space", "ArrowLeft", "Shift+Home", "Escape", "F1", "+", "PageDown"]);
    // Shift itself is a key too.
    let expected = "Enter Space ArrowLeft Shift+ShiftLeft Shift+Home Escape F1 Shift+Equal PageDown";
    see::reads(&page, "keys-read", expected);
    assert!(
        complaint(|| act::press(&page, &["Strg+a"])).contains("no key is called \"Strg\""),
        "a wrong name"
    );
}

#[test]
fn walks_the_tab_stops() {
    let (page, _folder) = open_fixture(&Options::desktop());
    find::label(&page, "Test distance, m").click();
    act::press(&page, &["Tab"]);
    assert_eq!(see::focused(&page), "textbox \"Acuity\"", "the next control");
    act::press(&page, &["Shift+Tab"]);
    assert_eq!(see::focused(&page), "textbox \"Test distance, m\"", "and back");
    page.reload();
    let stops = see::tab_stops(&page, 30);
    assert_eq!(stops.first().map(String::as_str), Some("textbox \"Test distance, m\""), "{stops:?}");
    assert!(stops.contains(&"button \"Save the case\"".to_owned()), "{stops:?}");
}

#[test]
fn saves_and_opens_files() {
    let (page, _folder) = open_fixture(&Options::desktop());
    act::click(&page, "button", "Save the case");
    let saved = see::download(&page, ".json");
    assert_eq!(fs::read_to_string(saved).expect("the saved file"), "{}", "its content");
    let folder = TempDir::new();
    act::attach(&page, "Open a case", &folder.write("case.json", "opened"));
    see::reads(&page, "open-read", "opened");
    see::no_errors(&page);
}

#[test]
fn counts_and_reads_by_selector() {
    let (page, _folder) = open_fixture(&Options::desktop());
    page.wait_until_up();
    assert_eq!(see::count(&page, "fieldset"), 3, "fieldsets");
    assert_eq!(see::texts(&page, "legend"), ["Right eye", "Left eye", "Who are you?"], "legends");
    assert_eq!(see::count(&find::group(&page, "Right eye"), "input"), 1, "inside a group");
    assert_eq!(find::names(&page, "heading"), ["Harness fixture"], "headings");
    assert_eq!(
        find::id(&page, "distance").attribute("inputmode").as_deref(),
        Some("decimal"),
        "an attribute"
    );
}

#[test]
fn sees_a_page_that_is_too_wide() {
    let (page, _folder) = open_fixture(&Options::sized(320, 640));
    // The check bar is 100 mm wide, more than the window has.
    assert!(see::overflow(&page) > 50, "{}", see::overflow(&page));
    page.set_viewport(1280, 900);
    assert_eq!(see::overflow(&page), 0, "wide enough");
}

#[test]
fn sees_what_is_stored() {
    let folder = fixture::site();
    let server = crate::server::Server::start(folder.path());
    let page = Page::open(&server.url("page.css"), &Options::desktop());
    assert_eq!(see::stored(&page), Vec::<String>::new(), "nothing at first");
    page.script_async(
        "localStorage.name = 1; sessionStorage.step = 2; document.cookie = 'a=b'; \
         indexedDB.open('cases').onsuccess = () => caches.open('files').then(() => arguments[0]())",
        &[],
    );
    let expected = ["local:name", "session:step", "database:cases", "cache:files", "cookie:a=b"];
    assert_eq!(see::stored(&page), expected, "each kind");
}

#[test]
fn an_element_under_another_is_not_clicked() {
    let (page, _folder) = open_fixture(&Options::desktop());
    page.script(
        "const cover = document.createElement('div'); cover.className = 'cover'; document.body.append(cover); \
         setTimeout(() => cover.remove(), 300)",
        &[],
    );
    act::click(&page, "button", "Later");
    assert_eq!(see::count(&page, ".cover"), 0, "it waited until nothing lay over the button");
    see::reads(&page, "later-read", "done now");
}
