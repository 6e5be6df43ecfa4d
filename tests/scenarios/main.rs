//! The demonstration cases, and any case one may type: results by a second road, working that agrees, no silent numbers.

mod acuity_box;
mod cases;
mod independent;
mod random;
mod reading;
mod schemas;
mod ways_out;
mod working;
