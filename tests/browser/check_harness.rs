//! The harness tried on pages and files whose faults we know.

mod access;
mod browsing;
mod leaking;
mod listening;
mod people;
mod printing;
mod serving;
mod starting;

use crate::driver::Options;
use crate::fixture;
use crate::page::Page;
use crate::temp::{TempDir, file_url};

/// The fixture in one file, open from disk; its folder lives as long as the page.
fn open_fixture(options: &Options) -> (Page, TempDir) {
    open(&fixture::single_file(), options)
}

fn open(html: &str, options: &Options) -> (Page, TempDir) {
    let folder = TempDir::new();
    let page = Page::open(&file_url(&folder.write("page.html", html)), options);
    (page, folder)
}
