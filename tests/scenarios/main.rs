//! The demonstration cases, and any case one may type: results by a second road, working that agrees, no silent numbers.

mod acuity_box;
mod aids;
mod cases;
mod goals;
mod handed;
mod hazards;
mod independent;
mod lists;
mod random;
mod reading;
mod saved;
mod schemas;
mod second_road;
mod sheet;
mod sheets;
mod trial;
mod version_1;
mod ways_out;
mod working;
