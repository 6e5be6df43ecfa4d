//! The page in a real browser: end-to-end tests and what they stand on. Run by `cargo xtask test`.
//!
//! ```text
//! let page = Page::open(&temp::file_url(&setup::single_file()), &Options::desktop());
//! page.wait_until_up();
//! let eye = find::group(&page, "Right eye");          // look inside a fieldset
//! act::fill(&eye, "Distance acuity", "20/200-2");     // by label, key by key
//! act::press(&page, &["Tab", "Shift+Tab", "Space"]);  // real keys
//! see::reads(&page, "right-acuity-read", "20/200, two letters missed");  // waits, and says what it saw instead
//! axe::assert_clean(&page);
//! let sheet = pdf::print(&page, "fitting-sheet");     // then pdf::text, pdf::check_bar_length_mm ...
//! ```
//!
//! `find`, `act` and `see` wait for what they look for and list what is there when it does not come. Each
//! page has its own browser, profile and ports, so tests may run side by side. A test that fails leaves
//! `failed-<test>.png` among the screenshots. `check_harness` tries all this on pages of our own and comes
//! first by name: if it fails, nothing below it can be believed.

mod act;
mod axe;
mod driver;
mod find;
mod fixture;
mod keyboard;
mod leak;
mod listener;
mod measure;
mod page;
mod pdf;
mod plant;
mod see;
mod server;
mod setup;
mod temp;
mod trial;
mod wait;

mod check_harness;
mod deliverables;
mod scenarios;
