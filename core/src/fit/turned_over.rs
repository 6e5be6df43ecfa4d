//! A telescope turned over: the same front, worn so that it stands before the fellow eye.

use super::mounting::Mounting;
use crate::bounds;
use crate::error::Error;
#[cfg(feature = "alloc")]
use crate::explain::{Explain, Step, formula};
#[cfg(feature = "alloc")]
use crate::fit::working::{degrees, mm};
use crate::math;
use crate::unit::{Angle, Length};
#[cfg(feature = "alloc")]
use alloc::vec::Vec;

/// How far the axis of a turned-over telescope passes the fellow eye.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TurnedOver {
    /// The telescope, as set for its own eye.
    pub mounting: Mounting,
    /// Monocular PD of the fellow eye.
    pub fellow_pd: Length,
    /// Pupil height of the fellow eye, in the same front.
    pub fellow_height: Length,
    /// Tilt of the axis to the carrier: as ordered, or else as computed.
    pub tilt: Angle,
    /// Rotation centre of the fellow eye outward of the axis, at its own depth.
    pub aside: Length,
    /// The same upward.
    pub up: Length,
    /// Least distance of the axis from that rotation centre.
    pub miss: Length,
    /// Miss up to which exit pupil and eye pupil still touch, if the exit pupil is known.
    pub limit: Option<Length>,
}

/// Whether the same telescope serves the fellow eye: how far its mirrored axis passes that eye's centre of rotation.
///
/// Place, tilt and toe-in are mirrored at the middle of the bridge; the heights are those of this eye's telescope.
///
/// * Domain: a symmetrical front that sits alike in both uses; the fellow eye as deep behind the lens.
/// * Source: geometry; a test measures the distance along the axis.
///
/// # Errors
/// [`crate::Why::OutOfRange`] for an impossible PD or height.
///
/// ```
/// use arcminute_core::fit::{Eye, Frame, MountingRequest, mount, turned_over};
/// use arcminute_core::unit::Length;
/// let mm = Length::from_mm;
/// let frame = Frame::new(mm(48.0), mm(44.0), mm(20.0), mm(8.0))?;
/// let mounting = mount(&MountingRequest::usual(Eye::Right, frame, mm(31.5), mm(23.0), mm(14.0)))?;
/// // A fellow eye in the mirrored place is met; one 2 mm nearer the nose is missed by as much.
/// assert!(turned_over(&mounting, mm(31.5), mm(23.0))?.miss.mm() < 1e-9);
/// assert!((turned_over(&mounting, mm(29.5), mm(23.0))?.miss.mm() - 2.0).abs() < 1e-9);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn turned_over(
    mounting: &Mounting,
    fellow_pd: Length,
    fellow_height: Length,
) -> Result<TurnedOver, Error> {
    bounds::MONOCULAR_PD.check(fellow_pd.mm())?;
    bounds::PUPIL_HEIGHT.check(fellow_height.mm())?;
    let tilt = mounting.ordered_to_carrier.unwrap_or(mounting.tilt_to_carrier);
    let upward = (tilt - mounting.request.pantoscopic).tangent();
    let inward = mounting.toe_in.tangent();
    let aside = fellow_pd - mounting.eyepiece.x - mounting.stop_distance * inward;
    let up = fellow_height - mounting.eyepiece.y + mounting.stop_distance * upward;
    // What of the way from axis to eye lies along the axis.
    let along = up.mm() * upward - aside.mm() * inward;
    let (x, y) = (aside.mm(), up.mm());
    let squared = x * x + y * y - along * along / (1.0 + upward * upward + inward * inward);
    Ok(TurnedOver {
        mounting: *mounting,
        fellow_pd,
        fellow_height,
        tilt,
        aside,
        up,
        miss: Length::from_mm(math::sqrt(squared.max(0.0))),
        limit: mounting.miss_limit,
    })
}

#[cfg(feature = "alloc")]
impl Explain for TurnedOver {
    fn steps(&self) -> Vec<Step> {
        let mounting = &self.mounting;
        let (s, toe) = (mm("s", mounting.stop_distance), degrees("toe", mounting.toe_in));
        let (tilt, phi) = (degrees("tau_1", self.tilt), degrees("phi", mounting.request.pantoscopic));
        let (aside, up) = (mm("aside", self.aside), mm("up", self.up));
        let inputs = [mm("PD_f", self.fellow_pd), mm("X_e", mounting.eyepiece.x), s, toe];
        let mut steps = alloc::vec![Step::formula(&formula::TURNED_ASIDE, aside, inputs)];
        let inputs = [mm("H_f", self.fellow_height), mm("Y_e", mounting.eyepiece.y), s, tilt, phi];
        steps.push(Step::formula(&formula::TURNED_UP, up, inputs));
        let inputs = [aside, up, tilt, phi, toe];
        steps.push(Step::formula(&formula::TURNED_MISS, mm("miss_f", self.miss), inputs));
        if let (Some(exit), Some(limit)) = (mounting.request.exit_pupil, self.limit) {
            let inputs = [mm("E", exit), mm("r_p", mounting.request.pupil_radius)];
            steps.push(Step::formula(&formula::MISS_LIMIT, mm("miss_most", limit), inputs));
        }
        steps
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fit::{Eye, Frame, MountingRequest, Placement, mount};

    fn mm(value: f64) -> Length {
        Length::from_mm(value)
    }

    fn requests() -> Vec<MountingRequest> {
        let frame = Frame::new(mm(48.0), mm(44.0), mm(20.0), mm(8.0)).expect("a usual frame");
        let usual = MountingRequest::usual(Eye::Right, frame, mm(31.5), mm(23.0), mm(14.0));
        let mut requests = Vec::new();
        for rule in Placement::ALL {
            for (working_distance, ordered, lean) in
                [(None, None, 0.0), (Some(mm(120.0)), None, 8.0), (Some(mm(400.0)), Some(12.0), 8.0)]
            {
                requests.push(MountingRequest {
                    rule,
                    working_distance,
                    ordered_tilt: ordered.map(Angle::from_degrees),
                    pantoscopic: Angle::from_degrees(lean),
                    exit_pupil: Some(mm(3.0)),
                    ..usual
                });
            }
        }
        requests
    }

    /// An independent road: points along the mirrored axis, and the nearest of them to the rotation centre.
    #[test]
    fn the_miss_is_the_least_distance_along_the_axis() -> Result<(), Error> {
        for request in requests() {
            let mounting = mount(&request)?;
            for (pd, height) in [(31.5, 23.0), (29.0, 23.0), (31.5, 26.0), (34.0, 20.5)] {
                let turned = turned_over(&mounting, mm(pd), mm(height))?;
                let (upward, inward) =
                    ((turned.tilt - request.pantoscopic).tangent(), mounting.toe_in.tangent());
                let s = mounting.stop_distance.mm();
                let nearest = (0..=40_000)
                    .map(|step| {
                        // Depth behind the lens.
                        let z = s - 20.0 + f64::from(step) * 1e-3;
                        let x = mounting.eyepiece.x.mm() + z * inward - pd;
                        let y = mounting.eyepiece.y.mm() - z * upward - height;
                        math::sqrt(x * x + y * y + (z - s) * (z - s))
                    })
                    .fold(f64::INFINITY, f64::min);
                let miss = turned.miss.mm();
                assert!((miss - nearest).abs() < 6e-4, "{miss} and {nearest}: {turned:?}");
            }
        }
        Ok(())
    }

    /// Law: an eye in the mirrored place is met by the computed axis, and an ordered one misses it as it misses its own.
    #[test]
    fn a_symmetrical_face_is_served_as_its_own_eye_is() -> Result<(), Error> {
        for request in requests() {
            let mounting = mount(&request)?;
            let turned = turned_over(&mounting, request.monocular_pd, request.pupil_height)?;
            assert!(turned.aside.abs().mm() < 1e-9, "{turned:?}");
            if request.working_distance.is_none() || request.ordered_tilt.is_none() {
                let own = mounting.miss_distance.unwrap_or(Length::ZERO).abs();
                assert!((turned.miss - own).abs().mm() < 1e-9, "{turned:?}");
            }
        }
        Ok(())
    }

    #[test]
    fn working_agrees() -> Result<(), Error> {
        for request in requests() {
            for exit_pupil in [None, Some(mm(3.0))] {
                let mounting = mount(&MountingRequest { exit_pupil, ..request })?;
                let turned = turned_over(&mounting, mm(30.0), mm(24.5))?;
                let steps = turned.steps();
                assert_eq!(steps.len(), if exit_pupil.is_some() { 4 } else { 3 });
                for step in steps {
                    assert_eq!(step.check(), Ok(()), "{turned:?}");
                }
            }
        }
        Ok(())
    }

    #[test]
    fn an_impossible_fellow_eye_is_refused() -> Result<(), Error> {
        use alloc::string::ToString;
        let Some(request) = requests().pop() else { panic!("there are some") };
        let mounting = mount(&request)?;
        let told =
            |pd, height| turned_over(&mounting, mm(pd), mm(height)).expect_err("not possible").to_string();
        assert_eq!(told(50.0, 23.0), "monocular PD `50 mm` is not possible");
        assert_eq!(told(31.5, 61.0), "pupil height `61 mm` is not possible");
        Ok(())
    }
}
