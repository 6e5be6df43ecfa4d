//! Controls that know no page.
#![allow(unreachable_pub, reason = "the component macro makes public parts that the module re-exports under their own names")]

mod case;
mod choice;
mod drawing;
mod entry;
mod notice;
mod working;

pub use case::{Case, Place, use_case};
pub use choice::{Choice, Tick};
pub use drawing::Picture;
pub use entry::Entry;
pub use notice::{Cautions, Fact, Missing};
pub use working::Working;
