//! People at the built page: whole cases worked through, and what holds for every place of it.
//!
//! `cases` types the demonstration cases as a person would, `independent` works their numbers out a second time, and
//! `places` goes round the page.

mod access;
mod aids;
mod cases;
mod entries;
mod first_time;
mod fitting;
mod goals;
mod independent;
mod keeping;
mod keyboard_only;
mod lists;
mod locking;
mod paper;
mod picture;
mod places;
mod privacy;
mod routine;
mod screens;
mod speed;
mod table;
mod whole_path;

use crate::driver::Options;
use crate::page::Page;
use crate::setup;
use crate::temp::file_url;

/// The page in one file, from disk, ready for use.
fn open(options: &Options) -> Page {
    let page = Page::open(&file_url(&setup::single_file()), options);
    page.wait_until_up();
    page
}
