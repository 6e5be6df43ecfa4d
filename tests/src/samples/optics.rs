//! Samples: blur, depth of field, accommodation, lenses and prisms.

use super::Samples;
use arcminute_core::Error;
use arcminute_core::accommodation::{add_needed, amplitude_at_age, usable};
use arcminute_core::optics::{
    Element, FlatPrism, ThickLens, Train, blur_disc, blur_tolerance, blurred, depth_of_field,
    depth_of_field_about, normal_eye_mar,
};
use arcminute_core::refraction::{self, Refraction, TiltAbout, tilted};
use arcminute_core::unit::{Age, Angle, Length, LogMar, Prism, Vergence};

pub(super) fn take(to: &mut Samples) -> Result<(), Error> {
    let (d, mm) = (Vergence::from_dioptres, Length::from_mm);
    to.add(&amplitude_at_age(Age::from_years(12.0))?);
    to.add(&usable(d(12.0), 0.5)?);
    to.add(&add_needed(d(10.0), d(6.0))?);
    let own = Angle::from_arcmin(10.0);
    to.add(&blur_disc(mm(4.0), d(2.5)));
    to.add(&normal_eye_mar(d(2.0)));
    to.add(&blurred(own, d(2.0), d(1.0)));
    to.add(&blur_tolerance(own, LogMar::from_log(0.1)));
    let lens = Train::new([Element::Lens { power: d(12.5), clear_diameter: None }]);
    to.add(&depth_of_field(&lens, d(0.5)).expect("a magnifier has a focus"));
    let before_eye = lens.to_eye(mm(50.0));
    to.add(&depth_of_field_about(&before_eye, d(1.0), d(0.5)).expect("it has a focus"));
    to.add(&ThickLens { front: d(14.0), back: d(7.0), thickness: mm(10.0), index: 1.498 }.powers()?);
    let glasses = Refraction::of(d(2.0), d(-1.5), Some(60))?;
    to.add(&glasses.power_vector());
    let right = refraction::Eye::Right;
    to.add(&glasses.decentred(right, mm(2.5), mm(1.0))?);
    to.add(&Refraction::of_sphere(d(8.0)).decentred(right, mm(2.0), mm(-3.0))?);
    to.add(&Refraction::of_sphere(d(12.0)).moved(mm(3.0))?);
    to.add(&tilted(d(15.0), Angle::from_degrees(10.0), TiltAbout::Horizontal)?);
    let prism = FlatPrism::rated(Prism::from_prism_dioptres(20.0), 1.49)?;
    to.add(&prism.at_incidence(Angle::from_degrees(5.0)).expect("it comes out"));
    Ok(())
}
