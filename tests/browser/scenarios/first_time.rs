//! Someone who has never seen the page: from a blank page to an aid for reading the board from six metres with 20/200.
//!
//! Each action is one box filled or one thing pressed; after each stands what the screen then says, which is what leads to
//! the next.

use super::places::{arrived, fill, into_view};
use crate::driver::Options;
use crate::page::Page;
use crate::{find, see};

/// Actions that may be needed.
const MOST: usize = 8;

/// Counts what a person does.
struct Person<'a> {
    page: &'a Page,
    actions: usize,
}

impl Person<'_> {
    fn types(&mut self, label: &str, text: &str) {
        fill(self.page, label, text);
        self.actions += 1;
    }
    fn presses(&mut self, button: &str) {
        into_view(&find::role(self.page, "button", button)).click();
        self.actions += 1;
    }
    fn picks(&mut self, choice: &str) {
        into_view(&find::role(self.page, "radio", choice)).click();
        self.actions += 1;
    }
}

fn from_a_blank_page(options: &Options) {
    let page = super::open(options);
    let mut person = Person { page: &page, actions: 0 };
    person.types("RIGHT eye: best corrected distance acuity", "20/200");
    see::holds(&page, "acuity-right-said", "20/200");
    person.presses("On to the goals");
    arrived(&page, "Goals");
    see::holds(&page, "work", "What kind of goal");
    person.picks("Letters or signs of a known height");
    // The one glance at help: how high such letters are stands under the box.
    see::holds(&page, "goal-1-height-help", "letters");
    person.types("Height of the letters mm", "40");
    person.types("Distance from the eye m", "6");
    // Letters of 40 mm at 6 m: a detail of 4.58 minutes; with ease half of that, and 10 are seen: 4.4 times.
    see::holds(&page, "needed", "4.4x is needed; the next whole power is 5x.");
    person.presses("On to the aids");
    arrived(&page, "Bench");
    see::holds(&page, "aids-found", ": chance ");
    let first = see::texts(&page, "#aids-front tbody th");
    let first = first.first().expect("an aid that reaches it").clone();
    person.presses(&format!("Look at {first}"));
    see::holds(&page, "looked-name", &first);
    see::holds(&page, "looked-answer", "the retest band reaches the goal");
    see::holds(&page, "looked", "Cautions");
    assert!(person.actions <= MOST, "{} actions", person.actions);
    assert_eq!(see::count(&page, "details[open]"), 0, "nothing had to be opened");
    see::no_errors(&page);
}

#[test]
fn a_first_time_user_finds_an_aid_for_the_board_in_eight_actions() {
    from_a_blank_page(&Options::desktop());
}

#[test]
fn a_first_time_user_finds_it_on_a_phone_too() {
    from_a_blank_page(&Options::phone());
}
