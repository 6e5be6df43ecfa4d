//! The lock at a press: it never wipes work unasked.

use super::places::{arrived, fill};
use crate::driver::Options;
use crate::wait::{SOON, within};
use crate::{act, find, see};

#[test]
fn a_press_on_the_lock_asks_before_it_wipes_what_is_not_saved() {
    let page = super::open(&Options::desktop());
    let acuity = "RIGHT eye: best corrected distance acuity";
    let lock = || find::role(&page, "button", "Lock and wipe").click();
    let locked = |wanted: bool| {
        within(SOON, "the lock", || {
            let is = see::count(&page, "main.locked") == 1;
            if is == wanted { Ok(()) } else { Err(format!("locked: {is}")) }
        });
    };
    fill(&page, acuity, "20/160");
    lock();
    see::holds(&page, "replace-ask", "it wipes the case");
    locked(false);
    act::click(&page, "button", "Stay with this case");
    assert_eq!(see::value(&page, acuity), "20/160");
    lock();
    act::click(&page, "button", "Wipe it and lock");
    locked(true);
    act::click(&page, "button", "Start anew");
    arrived(&page, "Person");
    assert_eq!(see::value(&page, acuity), "");
    // Nothing is typed: nothing is lost.
    lock();
    locked(true);
    see::no_errors(&page);
}
