//! Domes and bars on the page.

use crate::support::rounds_to;
use arcminute_core::Error;
use arcminute_core::device::{
    Bar, Detail, Dome, DomeInUse, Eye, Worn, block_image, dome_height_for, lay_bar, lay_dome, look,
};
use arcminute_core::optics::RealDome;
use arcminute_core::unit::{Length, LogMar, PrintSize};

fn mm(value: f64) -> Length {
    Length::from_mm(value)
}
fn acrylic(ratio: f64) -> RealDome {
    RealDome { radius: mm(30.0), thickness: mm(30.0 * ratio), index: 1.49 }
}
/// With nothing worn.
fn eye() -> Eye {
    Eye { worn: Worn::Nothing, ..Eye::corrected(LogMar::from_log(1.0), LogMar::from_log(0.2)) }
}
/// A dome on a page 40 cm from the eye.
fn from_40_cm(ratio: f64) -> Result<DomeInUse, Error> {
    let dome = Dome { solid: acrylic(ratio), clear_diameter: mm(60.0), transmittance: 1.0 };
    lay_dome(dome, &eye(), Length::from_cm(40.0))
}

/// Source: exact paraxial, computed (case 16 of the reference table): index 1.49, radius 30 mm, eye 40 cm from the page.
#[test]
fn near_case_16_a_hemisphere_and_a_tall_dome() -> Result<(), Error> {
    let hemisphere = from_40_cm(1.0)?;
    rounds_to(hemisphere.image.enlargement, "1.490");
    rounds_to(hemisphere.equivalent_viewing_distance.mm(), "268.5");
    rounds_to(hemisphere.image.image_below_page.mm(), "0.000");
    rounds_to(hemisphere.gain, "1.490");
    // The focus of the bare page.
    rounds_to(hemisphere.focus_demand.dioptres(), "2.500");
    let tall = from_40_cm(1.35)?;
    rounds_to(tall.image.enlargement, "1.798");
    rounds_to(tall.equivalent_viewing_distance.mm(), "227.1");
    rounds_to(tall.image.image_below_page.mm(), "8.38");
    rounds_to(tall.gain, "1.762");
    Ok(())
}

/// Source: exact paraxial, computed: the enlargement of a tall dome, taken as its magnification, is 2 % high at 40 cm.
#[test]
fn shortcut_enlargement_is_not_the_gain() -> Result<(), Error> {
    let tall = from_40_cm(1.35)?;
    rounds_to(100.0 * (tall.image.enlargement / tall.gain - 1.0), "2");
    Ok(())
}

/// Source: exact paraxial, computed: heights over radius for labelled enlargements, acrylic and crown glass.
#[test]
fn heights_of_labelled_domes() -> Result<(), Error> {
    rounds_to(dome_height_for(1.8, 1.49)?, "1.351");
    rounds_to(dome_height_for(1.8, 1.523)?, "1.294");
    rounds_to(dome_height_for(2.0, 1.49)?, "1.520");
    rounds_to(dome_height_for(1.523, 1.523)?, "1.000");
    // The aplanatic dome: the square of the index.
    rounds_to(block_image(acrylic(1.0 + 1.0 / 1.49))?.enlargement, "2.22");
    Ok(())
}

/// Source: exact rays by Snell's law, computed: edge compression of a hemisphere, pincushion of a tall dome.
#[test]
fn away_from_the_middle() -> Result<(), Error> {
    let hemisphere = from_40_cm(1.0)?;
    rounds_to(hemisphere.at(mm(0.01))?.enlargement, "1.490");
    rounds_to(hemisphere.at(mm(10.0))?.enlargement, "1.476");
    rounds_to(hemisphere.at(mm(15.0))?.enlargement, "1.447");
    rounds_to(hemisphere.at(mm(20.0))?.enlargement, "1.366");
    let tall = from_40_cm(1.35)?;
    rounds_to(tall.at(mm(0.01))?.enlargement, "1.762");
    rounds_to(tall.at(mm(15.0))?.enlargement, "1.824");
    Ok(())
}

/// Source: exact paraxial, computed: half a cylinder of acrylic, 20 cm long; heights grow, widths do not.
#[test]
fn a_bar_along_a_line() -> Result<(), Error> {
    let bar = Bar {
        section: RealDome { radius: mm(15.0), thickness: mm(15.0), index: 1.49 },
        length: mm(195.0),
        clear_width: mm(30.0),
        transmittance: 1.0,
    };
    let used = lay_bar(bar, &eye(), Length::from_cm(40.0))?;
    rounds_to(used.distance_for_heights.mm(), "268.5");
    rounds_to(400.0 / used.distance_for_heights.mm(), "1.490");
    // Lifted by t − t/n = 4.93 mm, no more.
    rounds_to(used.distance_for_widths.mm(), "395.1");
    let print = Detail { height: PrintSize::from_m_units(1.0).x_height(), distance: None, reserve: 1.0 };
    rounds_to(look(&used.arrangement, &eye(), print)?.characters.expect("its length"), "150.0");
    Ok(())
}
