//! What must be known to set a telescope in a carrier lens.

use super::frame::{Frame, Point};
use crate::bounds;
use crate::error::{Error, Why};
use crate::refraction::Eye;
use crate::unit::{Angle, Length};

/// Rule that places the eyepiece.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub enum Placement {
    /// Bottom of the eyepiece level with the top of the pupil: the straight-ahead view stays free. Common practice.
    #[default]
    PupilTop,
    /// As high as the least web allows.
    Highest,
    /// Centred on the pupil, for a full-diameter or near telescope.
    Centred,
    /// Top of the eyepiece level with the bottom of the pupil, for a near telescope below the straight-ahead view.
    Low,
    /// Put here by hand; no rule is asked.
    ByHand(Point),
}

impl Placement {
    /// All rules; a place by hand follows none.
    pub const ALL: [Self; 4] = [Self::PupilTop, Self::Highest, Self::Centred, Self::Low];
}

/// What an ordered tilt is measured from.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum TiltReference {
    /// From the normal of the carrier lens.
    #[default]
    CarrierNormal,
    /// From the straight-ahead line of sight, head upright.
    StraightAhead,
    /// The order does not say; taken as from the carrier's normal, and asked about.
    NotStated,
}

/// A telescope to be set before one eye: the face, the frame and what is wanted.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MountingRequest {
    /// The eye that looks through the telescope.
    pub eye: Eye,
    /// The front.
    pub frame: Frame,
    /// Pupil centre from the middle of the bridge, distance gaze.
    pub monocular_pd: Length,
    /// Pupil centre above the lowest boxed tangent, straight-ahead gaze.
    pub pupil_height: Length,
    /// Radius of the pupil in the light the height was taken in.
    pub pupil_radius: Length,
    /// Radius of the barrel where it crosses the lens.
    pub barrel_radius: Length,
    /// Play left round the barrel for adjustment.
    pub play: Length,
    /// Back of the lens to the cornea.
    pub vertex: Length,
    /// Cornea to the centre of rotation of the eye, 13 to 14 mm.
    pub cornea_to_rotation: Length,
    /// Pantoscopic angle, positive when the bottom of the front is nearer the face.
    pub pantoscopic: Angle,
    /// Least web of lens to be kept round the opening.
    pub least_web: Length,
    /// Least gap from the bottom of the eyepiece to the top of a segment.
    pub segment_gap: Length,
    /// Rule for the height of the eyepiece.
    pub rule: Placement,
    /// From the lens to an object on the midline, for a near telescope; `None` for distance.
    pub working_distance: Option<Length>,
    /// Top of the segment above the lowest boxed tangent, if the carrier has a segment.
    pub segment_height: Option<Length>,
    /// Tilt as ordered, if it is not left to the sum; upward positive.
    pub ordered_tilt: Option<Angle>,
    /// What the ordered tilt is measured from.
    pub tilt_reference: TiltReference,
    /// Diameter of the telescope's exit pupil, if known.
    pub exit_pupil: Option<Length>,
}

impl MountingRequest {
    /// A distance telescope with the values the trade starts from: pupil 4 mm, play 0.5 mm, vertex 13 mm and 14 mm from
    /// there to the centre of rotation, no pantoscopic angle, web 3 mm, segment gap 10 mm, rule pupil-top.
    ///
    /// ```
    /// use arcminute_core::{fit::{Eye, Frame, MountingRequest}, unit::{Angle, Length}};
    /// let mm = Length::from_mm;
    /// let frame = Frame::new(mm(48.0), mm(44.0), mm(20.0), mm(8.0)).expect("a usual frame");
    /// let usual = MountingRequest::usual(Eye::Right, frame, mm(31.5), mm(23.0), mm(14.0));
    /// let tilted = MountingRequest { pantoscopic: Angle::from_degrees(8.0), ..usual };
    /// assert_eq!(tilted.barrel_radius.mm(), 7.0);
    /// ```
    #[must_use]
    pub fn usual(
        eye: Eye,
        frame: Frame,
        monocular_pd: Length,
        pupil_height: Length,
        barrel_diameter: Length,
    ) -> Self {
        Self {
            eye,
            frame,
            monocular_pd,
            pupil_height,
            pupil_radius: Length::from_mm(2.0),
            barrel_radius: barrel_diameter / 2.0,
            play: Length::from_mm(0.5),
            vertex: Length::from_mm(13.0),
            cornea_to_rotation: Length::from_mm(14.0),
            pantoscopic: Angle::ZERO,
            least_web: Length::from_mm(3.0),
            segment_gap: Length::from_mm(10.0),
            rule: Placement::PupilTop,
            working_distance: None,
            segment_height: None,
            ordered_tilt: None,
            tilt_reference: TiltReference::CarrierNormal,
            exit_pupil: None,
        }
    }

    /// Back of the lens to the eye's centre of rotation.
    ///
    /// ```
    /// use arcminute_core::{fit::{Eye, Frame, MountingRequest}, unit::Length};
    /// let mm = Length::from_mm;
    /// let frame = Frame::new(mm(48.0), mm(44.0), mm(20.0), mm(8.0))?;
    /// let usual = MountingRequest::usual(Eye::Right, frame, mm(31.5), mm(23.0), mm(14.0));
    /// // 14 mm of the eye behind a vertex distance of 13 mm, and of 10 mm.
    /// assert_eq!(usual.stop_distance().mm(), 27.0);
    /// assert_eq!(MountingRequest { vertex: mm(10.0), ..usual }.stop_distance().mm(), 24.0);
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    #[must_use]
    pub fn stop_distance(&self) -> Length {
        Length::from_mm(self.vertex.mm() + self.cornea_to_rotation.mm())
    }

    /// Whether each value is possible.
    ///
    /// # Errors
    /// [`Why::OutOfRange`] for a value outside [`bounds`], and for a pupil that is not behind the lens.
    ///
    /// ```
    /// use arcminute_core::{fit::{Eye, Frame, MountingRequest}, unit::Length};
    /// let mm = Length::from_mm;
    /// let frame = Frame::new(mm(48.0), mm(30.0), mm(20.0), mm(8.0))?;
    /// // The box ends at 30 mm, so a pupil at 31 mm looks over the lens.
    /// let over = MountingRequest::usual(Eye::Right, frame, mm(31.5), mm(31.0), mm(14.0));
    /// assert_eq!(over.verify().unwrap_err().to_string(), "pupil height `31 mm` is not possible");
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    pub fn verify(&self) -> Result<(), Error> {
        self.frame.verify()?;
        bounds::MONOCULAR_PD.check(self.monocular_pd.mm())?;
        let height = bounds::PUPIL_HEIGHT.check(self.pupil_height.mm())?;
        let max = self.frame.box_height.mm();
        if height >= max {
            let why = Why::OutOfRange { min: bounds::PUPIL_HEIGHT.possible.0, max, unit: "mm" };
            return Err(Error::about(bounds::PUPIL_HEIGHT.name, format_args!("{height} mm"), why));
        }
        bounds::PUPIL.check(2.0 * self.pupil_radius.mm())?;
        bounds::BARREL.check(2.0 * self.barrel_radius.mm())?;
        bounds::PLAY.check(self.play.mm())?;
        bounds::VERTEX.check(self.vertex.mm())?;
        bounds::ROTATION_DEPTH.check(self.cornea_to_rotation.mm())?;
        bounds::PANTOSCOPIC.check(self.pantoscopic.degrees())?;
        bounds::WEB.check(self.least_web.mm())?;
        bounds::SEGMENT_GAP.check(self.segment_gap.mm())?;
        self.working_distance.map_or(Ok(0.0), |distance| bounds::MOUNT_DISTANCE.check(distance.mm()))?;
        self.segment_height.map_or(Ok(0.0), |height| bounds::SEGMENT_HEIGHT.check(height.mm()))?;
        self.ordered_tilt.map_or(Ok(0.0), |tilt| bounds::TILT.check(tilt.degrees()))?;
        self.exit_pupil.map_or(Ok(0.0), |diameter| bounds::EXIT_PUPIL.check(diameter.mm()))?;
        if let Placement::ByHand(place) = self.rule {
            bounds::EYEPIECE_ACROSS.check(place.x.mm())?;
            bounds::EYEPIECE_UP.check(place.y.mm())?;
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use alloc::string::ToString;

    /// Asked for as radii, held to the ranges of diameters, which are what a box on the page takes.
    #[test]
    fn pupil_and_barrel_are_held_to_their_diameters() -> Result<(), Error> {
        let mm = Length::from_mm;
        let frame = Frame::new(mm(48.0), mm(44.0), mm(20.0), mm(8.0))?;
        let usual = MountingRequest::usual(Eye::Right, frame, mm(31.5), mm(23.0), mm(14.0));
        let pupil = |diameter: f64| MountingRequest { pupil_radius: mm(diameter / 2.0), ..usual }.verify();
        let barrel = |diameter: f64| MountingRequest { barrel_radius: mm(diameter / 2.0), ..usual }.verify();
        for possible in [pupil(0.5), pupil(10.0), barrel(4.0), barrel(45.0)] {
            possible?;
        }
        for (refused, told, hint) in [
            (pupil(0.4), "pupil diameter `0.4 mm` is not possible", "use 0.5 to 10 mm"),
            (pupil(10.5), "pupil diameter `10.5 mm` is not possible", "use 0.5 to 10 mm"),
            (barrel(3.5), "barrel diameter `3.5 mm` is not possible", "use 4 to 45 mm"),
            (barrel(45.5), "barrel diameter `45.5 mm` is not possible", "use 4 to 45 mm"),
        ] {
            let error = refused.expect_err(told);
            assert_eq!((error.to_string().as_str(), error.hint().to_string().as_str()), (told, hint));
        }
        Ok(())
    }
}
