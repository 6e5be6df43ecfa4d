//! Files for other systems: a record and an order in FHIR, the numbers in a table.
//!
//! Nothing here is read back by the page; the case file ([`super::case_file`]) is what opens again. Free notes go into
//! none of them, since what is handed on cannot be taken back.

pub mod csv;
pub mod fhir;
mod json;
