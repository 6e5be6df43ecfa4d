//! Samples: domes and bars, field prisms, larger copies, and what is seen through any aid.

use super::Samples;
use arcminute_core::Error;
use arcminute_core::device::{
    Arrangement, Bar, Detail, Dome, Eye, FieldPrism, FieldPrismKind, block_image, lay_bar, lay_dome, look,
    look_from, published_lens_to_pivot,
};
use arcminute_core::optics::{Element, RealDome, Sight, Train};
use arcminute_core::unit::{Angle, Length, LogMar, Prism, Vergence};

pub(super) fn take(to: &mut Samples) -> Result<(), Error> {
    let (d, mm) = (Vergence::from_dioptres, Length::from_mm);
    let forty = Length::from_cm(40.0);
    let mut eye = Eye::corrected(LogMar::from_log(1.0), LogMar::from_log(0.2));
    eye.accommodation = d(1.0);
    let solid = RealDome { radius: mm(30.0), thickness: mm(40.5), index: 1.49 };
    to.add(&block_image(solid)?);
    to.add(&lay_dome(Dome { solid, clear_diameter: mm(60.0), transmittance: 0.92 }, &eye, forty)?);
    let section = RealDome { radius: mm(15.0), thickness: mm(15.0), index: 1.49 };
    let bar = Bar { section, length: mm(200.0), clear_width: mm(30.0), transmittance: 0.92 };
    to.add(&lay_bar(bar, &eye, forty)?);
    let prism = FieldPrism {
        kind: FieldPrismKind::Peripheral,
        rated: Prism::from_prism_dioptres(40.0),
        index: 1.49,
        lens_to_pivot: published_lens_to_pivot(),
    };
    to.add(&prism.shift_field(false, Length::from_m(2.0), Angle::from_degrees(5.0))?);
    to.add(&look_from(&eye, Length::from_cm(10.0), 1.8)?);

    let lens = Element::Lens { power: d(10.0), clear_diameter: Some(mm(50.0)) };
    let mut held = Arrangement::of(Train::new([lens]).to_eye(mm(200.0)), Sight::At(mm(85.0)));
    held.transmittance = 0.92;
    to.add(&look(&held, &eye, Detail { height: mm(2.4), distance: None, reserve: 2.0 })?);
    let far = Arrangement::of(Train::default(), Sight::Far);
    to.add(&look(
        &far,
        &eye,
        Detail { height: mm(200.0), distance: Some(Length::from_m(6.0)), reserve: 1.0 },
    )?);
    Ok(())
}
