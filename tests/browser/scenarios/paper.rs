//! Probe.
use super::cases::case;
use super::places::{go, load};
use crate::driver::Options;
use crate::pdf;
#[test]
fn probe() {
    let page = super::open(&Options::desktop());
    for id in ["adult-20-160", "adult-20-300", "frame-too-shallow"] {
        load(&page, case(id));
        go(&page, "Sheets");
        pdf::print(&page, &format!("probe-{id}"));
    }
}
