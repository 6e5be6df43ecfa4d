//! The demonstration cases, and any case one may type: results by a second road, working that agrees, no silent numbers.

mod acuity_box;
mod aids;
mod cases;
mod independent;
mod lists;
mod random;
mod reading;
mod schemas;
mod sheet;
mod ways_out;
mod working;
