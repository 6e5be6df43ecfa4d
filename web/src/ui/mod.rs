//! Controls that know no page.
#![allow(
    unreachable_pub,
    reason = "the component macro makes public parts that the module re-exports under their own names"
)]

mod case;
mod choice;
mod compare;
mod drawing;
mod entry;
mod grips;
mod keep;
mod keep_part;
mod live;
mod notice;
mod part;
mod pick;
mod working;

pub use case::{Case, LOOKED_NAME, Place, use_case};
pub use choice::{Choice, Tick};
pub use compare::Compare;
pub use drawing::Picture;
pub use entry::Entry;
pub use grips::Grips;
pub use keep::{Keep, LOCKED, REPLACE, text};
pub use keep_part::{Secret, fold, help, part, press, told, warning};
pub use live::{is, items, live, when, words};
pub use notice::{Cautions, Missing, facts};
pub use part::Part;
pub use pick::Pick;
pub use working::Working;
