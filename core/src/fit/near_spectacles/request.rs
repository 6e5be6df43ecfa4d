//! What must be known to fit near spectacles.

use crate::bounds;
use crate::error::Error;
use crate::fit::Grams;
use crate::fit::frame::Frame;
use crate::refraction::Refraction;
use crate::unit::{Angle, Length, Prism, Vergence};

/// Where the optical centre of a near lens is to stand.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub enum Centration {
    /// Where the line of sight to the print crosses the lens: no prism.
    #[default]
    NearCrossing,
    /// At the PD for far: base-out prism in a plus lens.
    DistancePd,
    /// This far from the midline, across the front.
    Given(Length),
}

/// A near lens before one eye.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct NearLens {
    /// Pupil centre from the middle of the bridge, distance gaze, across the front.
    pub monocular_pd: Length,
    /// Pupil centre above the lowest boxed tangent, straight-ahead gaze.
    pub pupil_height: Length,
    /// Optical centre above the lowest boxed tangent; `None` for the pupil's height.
    pub centre_height: Option<Length>,
    /// The whole lens, addition included, at the vertex distance of the refraction.
    pub power: Refraction,
    /// The addition in it.
    pub add: Vergence,
    /// Prism worked on the lens; base-in positive.
    pub base_in: Prism,
    /// Where the optical centre stands.
    pub centration: Centration,
}

impl NearLens {
    /// A lens of an addition alone, for an eye that needs nothing for far: centred at the near crossing, without prism.
    ///
    /// ```
    /// use arcminute_core::{fit::NearLens, unit::{Length, Vergence}};
    /// let mm = Length::from_mm;
    /// let lens = NearLens::of_add(mm(32.0), mm(18.0), Vergence::from_dioptres(8.0));
    /// assert_eq!(lens.power.to_string(), "+8.00");
    /// ```
    #[must_use]
    pub fn of_add(monocular_pd: Length, pupil_height: Length, add: Vergence) -> Self {
        Self {
            monocular_pd,
            pupil_height,
            centre_height: None,
            power: Refraction::of_sphere(add),
            add,
            base_in: Prism::ZERO,
            centration: Centration::NearCrossing,
        }
    }

    fn verify(&self) -> Result<(), Error> {
        bounds::MONOCULAR_PD.check(self.monocular_pd.mm())?;
        bounds::PUPIL_HEIGHT.check(self.pupil_height.mm())?;
        self.centre_height.map_or(Ok(0.0), |height| bounds::CENTRE_HEIGHT.check(height.mm()))?;
        Refraction::of(self.power.sphere, self.power.cylinder, self.power.axis)?;
        bounds::HIGH_PLUS_ADD.check(self.add.dioptres())?;
        bounds::BASE_IN.check(self.base_in.prism_dioptres())?;
        match self.centration {
            Centration::Given(place) => bounds::CENTRE_FROM_MIDLINE.check(place.mm()).map(drop),
            Centration::NearCrossing | Centration::DistancePd => Ok(()),
        }
    }
}

/// Near spectacles for one eye or both: the frame, how it sits, the lenses and the print.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct NearSpectaclesRequest {
    /// The front.
    pub frame: Frame,
    /// The lens before the right eye.
    pub right: Option<NearLens>,
    /// The lens before the left eye.
    pub left: Option<NearLens>,
    /// Back of the lens to the cornea, as worn.
    pub vertex: Length,
    /// The same in the refraction that found the powers.
    pub refraction_vertex: Length,
    /// Cornea to the centre of rotation of the eye, 13 to 14 mm.
    pub cornea_to_rotation: Length,
    /// Pantoscopic angle, positive when the bottom of the front is nearer the face.
    pub pantoscopic: Angle,
    /// Turn of each lens against the plane of the front.
    pub face_form: Angle,
    /// Print on the midline to the lens.
    pub print_to_lens: Length,
    /// Added to the diameter of the blank for edging.
    pub blank_allowance: Length,
    /// Binocular PD as typed.
    pub pd_both: Option<Length>,
    /// Largest blank to be had.
    pub largest_blank: Option<Length>,
    /// Weight of the front with its lenses.
    pub front_weight: Option<Grams>,
    /// It is meant to be worn while walking.
    pub worn_walking: bool,
}

impl NearSpectaclesRequest {
    /// Spectacles with the values the trade starts from: vertex 13 mm, also in the refraction, and 14 mm from there to the
    /// centre of rotation, upright and flat, 2 mm for edging.
    ///
    /// ```
    /// use arcminute_core::{fit::{Frame, NearSpectaclesRequest}, unit::Length};
    /// let mm = Length::from_mm;
    /// let frame = Frame::new(mm(48.0), mm(36.0), mm(20.0), mm(8.0))?;
    /// let usual = NearSpectaclesRequest::usual(frame, None, None, mm(125.0));
    /// assert_eq!((usual.blank_allowance, usual.stop_distance()), (mm(2.0), mm(27.0)));
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    #[must_use]
    pub fn usual(
        frame: Frame,
        right: Option<NearLens>,
        left: Option<NearLens>,
        print_to_lens: Length,
    ) -> Self {
        Self {
            frame,
            right,
            left,
            vertex: Length::from_mm(13.0),
            refraction_vertex: Length::from_mm(13.0),
            cornea_to_rotation: Length::from_mm(14.0),
            pantoscopic: Angle::ZERO,
            face_form: Angle::ZERO,
            print_to_lens,
            blank_allowance: Length::from_mm(2.0),
            pd_both: None,
            largest_blank: None,
            front_weight: None,
            worn_walking: false,
        }
    }

    /// Back of the lens to the eye's centre of rotation.
    ///
    /// ```
    /// use arcminute_core::{fit::{Frame, NearSpectaclesRequest}, unit::Length};
    /// let mm = Length::from_mm;
    /// let frame = Frame::new(mm(48.0), mm(36.0), mm(20.0), mm(8.0))?;
    /// let near = NearSpectaclesRequest { vertex: mm(10.0), ..NearSpectaclesRequest::usual(frame, None, None, mm(125.0)) };
    /// assert_eq!(near.stop_distance(), mm(24.0));
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    #[must_use]
    pub fn stop_distance(&self) -> Length {
        Length::from_mm(self.vertex.mm() + self.cornea_to_rotation.mm())
    }

    /// Whether each value is possible.
    ///
    /// # Errors
    /// [`crate::Why::OutOfRange`] for a value outside [`bounds`], [`crate::Why::Missing`] for a cylinder without an axis.
    ///
    /// ```
    /// use arcminute_core::{fit::{Frame, NearSpectaclesRequest}, unit::Length};
    /// let mm = Length::from_mm;
    /// let frame = Frame::new(mm(48.0), mm(36.0), mm(20.0), mm(8.0))?;
    /// let touching = NearSpectaclesRequest::usual(frame, None, None, mm(20.0));
    /// assert_eq!(touching.verify().unwrap_err().to_string(), "working distance `20 mm` is not possible");
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    pub fn verify(&self) -> Result<(), Error> {
        self.frame.verify()?;
        bounds::VERTEX.check(self.vertex.mm())?;
        bounds::VERTEX.check(self.refraction_vertex.mm())?;
        bounds::ROTATION_DEPTH.check(self.cornea_to_rotation.mm())?;
        bounds::PANTOSCOPIC.check(self.pantoscopic.degrees())?;
        bounds::FACE_FORM.check(self.face_form.degrees())?;
        bounds::MOUNT_DISTANCE.check(self.print_to_lens.mm())?;
        bounds::BLANK_ALLOWANCE.check(self.blank_allowance.mm())?;
        self.pd_both.map_or(Ok(0.0), |pd| bounds::PD.check(pd.mm()))?;
        self.largest_blank.map_or(Ok(0.0), |blank| bounds::BLANK.check(blank.mm()))?;
        self.front_weight.map_or(Ok(0.0), |weight| bounds::WEIGHT.check(weight.0))?;
        [self.right, self.left].iter().flatten().try_for_each(NearLens::verify)
    }
}
