//! Samples: convergence, insets and prisms of pairs.

use super::Samples;
use arcminute_core::Error;
use arcminute_core::convergence::{EyeAndLens, cap_on_midline, inset, prism_for_target, through_pair};
use arcminute_core::optics::Telescope;
use arcminute_core::unit::{Length, Prism, Vergence};

pub(super) fn take(to: &mut Samples) -> Result<(), Error> {
    let (d, mm, prism) = (Vergence::from_dioptres, Length::from_mm, Prism::from_prism_dioptres);
    let eye = EyeAndLens {
        eye_from_midline: mm(32.0),
        centre_from_midline: mm(32.0),
        power: d(8.0),
        base_in: prism(10.0),
        stop_distance: mm(27.0),
    };
    to.add(&eye.converge(mm(110.0))?);
    to.add(&inset(mm(32.0), mm(110.0), mm(27.0), d(8.0))?);
    to.add(&prism_for_target(eye, mm(125.0), prism(7.5))?);
    let telescope = Telescope::from_lenses(d(20.0), d(-40.0), mm(20.0))?;
    to.add(&through_pair(&telescope, mm(32.0), mm(400.0), mm(15.0))?);
    to.add(&cap_on_midline(d(2.5), mm(32.0))?);
    Ok(())
}
