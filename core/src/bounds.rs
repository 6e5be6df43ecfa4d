//! Every accepted range in one table.
//!
//! Outside `possible` a value is refused; outside `usual` it is used, and the page says that it is unusual. Messages,
//! test grids and the page's own hints read this table.

use crate::error::{Error, Why};

/// What values a quantity may have, in one named unit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bound {
    /// The quantity in words of the trade.
    pub name: &'static str,
    /// Unit of the limits.
    pub unit: &'static str,
    /// Least and greatest value possible.
    pub possible: (f64, f64),
    /// Least and greatest value usually met.
    pub usual: (f64, f64),
    /// Where the limits come from.
    pub reason: &'static str,
}

impl Bound {
    /// The value itself if it is possible.
    ///
    /// # Errors
    /// [`Why::OutOfRange`] outside the possible range and for what is not a finite number.
    ///
    /// ```
    /// use arcminute_core::bounds;
    /// assert_eq!(bounds::BOX_HEIGHT.check(44.0), Ok(44.0));
    /// assert!(bounds::BOX_HEIGHT.check(-1.0).is_err());
    /// ```
    pub fn check(&self, value: f64) -> Result<f64, Error> {
        let (min, max) = self.possible;
        if min <= value && value <= max {
            return Ok(value);
        }
        let why = Why::OutOfRange { min, max, unit: self.unit };
        Err(match self.unit {
            "" => Error::about(self.name, format_args!("{value}"), why),
            unit => Error::about(self.name, format_args!("{value} {unit}"), why),
        })
    }

    /// Whether a possible value is outside what is usually met.
    #[must_use]
    pub fn is_unusual(&self, value: f64) -> bool {
        !(self.usual.0 <= value && value <= self.usual.1)
    }
}

macro_rules! bounds {
    ($($(#[$meta:meta])* $id:ident: $name:literal, $unit:literal, $possible:expr, $usual:expr, $reason:literal;)+) => {
        $($(#[$meta])* pub static $id: Bound =
            Bound { name: $name, unit: $unit, possible: $possible, usual: $usual, reason: $reason };)+
        /// The whole table.
        pub static ALL: &[&Bound] = &[$(&$id),+];
    };
}

bounds! {
    /// Logarithm of the minimum angle of resolution.
    LOG_MAR: "logMAR", "", (-0.5, 3.0), (-0.3, 2.0), "20/6 to 20/20000; charts in use reach 1/60 and beyond at short distance";
    /// Numerator or denominator of a fraction in feet or metres.
    FRACTION_PART: "part of the fraction", "", (0.1, 20_000.0), (0.3, 2000.0), "1/60 to 20/2000 with nearer charts";
    /// Letters right on a log chart.
    LETTER_SCORE: "letters read", "letters", (0.0, 110.0), (0.0, 100.0), "20 lines of five and two more";
    /// Decimal acuity, the reciprocal of the minimum angle of resolution.
    DECIMAL_ACUITY: "decimal acuity", "", (0.001, 3.1), (0.01, 2.0), "the same range as on the logarithmic scale";
    /// Letters gained or missed beside the line named.
    LETTERS_BESIDE: "letters beside the line", "letters", (-9.0, 9.0), (-4.0, 4.0), "a log chart has five letters a line, other charts up to nine";
    /// Distance of a chart from the eye.
    CHART_DISTANCE: "test distance", "m", (0.05, 20.0), (0.25, 6.1), "near cards to 20 ft lanes";
    /// Distance of the fingers or the hand that were shown.
    HAND_DISTANCE: "distance of the hand", "m", (0.05, 10.0), (0.1, 6.0), "shown by hand in a room";
    /// 95 % limit of a repeated acuity measurement.
    RETEST_LIMIT: "retest limit", "logMAR", (0.01, 1.0), (0.05, 0.4), "published limits run from 0.05 to 0.36";
    /// Acuity reserve: size looked at over the least size seen.
    RESERVE: "acuity reserve", "times", (0.5, 10.0), (1.0, 4.0), "published reserves run from 1 to 3";
    /// Distance from the eye to what is looked at.
    TASK_DISTANCE: "distance", "m", (0.1, 1000.0), (1.0, 100.0), "a distance goal; nearer is the matter of near aids";
    /// Height of a letter or other detail.
    TASK_HEIGHT: "letter height", "mm", (0.1, 20_000.0), (2.0, 2000.0), "print to hoardings";
    /// Width of the whole scene that should be seen at once.
    TASK_WIDTH: "width", "m", (0.01, 100.0), (0.05, 20.0), "a page to a stage";
    /// Diameter of the eye's pupil.
    PUPIL: "pupil diameter", "mm", (0.5, 10.0), (2.0, 8.0), "human pupils in light and dark";
    /// Magnification of a telescope as marked.
    POWER: "power", "x", (0.1, 20.0), (2.0, 10.0), "spectacle-mounted telescopes";
    /// Clear diameter of an objective.
    OBJECTIVE: "objective diameter", "mm", (2.0, 80.0), (5.0, 40.0), "telescopes worn or held";
    /// Real field of a telescope, full angle.
    REAL_FIELD: "real field", "degrees", (0.5, 90.0), (3.0, 30.0), "telescopes worn or held";
    /// Vertex distance, back of the lens to the cornea.
    VERTEX: "vertex distance", "mm", (0.0, 40.0), (8.0, 20.0), "common practice, no source";
    /// Sphere or mean sphere of a refraction.
    SPHERE: "sphere", "D", (-60.0, 40.0), (-20.0, 20.0), "refractions met with low vision are wide";
    /// Cylinder of a refraction.
    CYLINDER: "cylinder", "D", (-20.0, 20.0), (-8.0, 8.0), "refractions met with low vision are wide";
    /// Addition for near.
    ADD: "add", "D", (0.0, 40.0), (0.75, 12.0), "high adds are met with low vision";
    /// Tilt of a lens about a line in its plane.
    LENS_TILT: "lens tilt", "degrees", (-45.0, 45.0), (-20.0, 20.0), "the tilt formula is an approximation for small angles";
    /// Axis of a cylinder.
    AXIS: "axis", "degrees", (0.0, 180.0), (0.0, 180.0), "axes run from 1 to 180, and 0 is 180";
    /// Pupil centre from the middle of the bridge, one eye.
    MONOCULAR_PD: "monocular PD", "mm", (15.0, 45.0), (24.0, 38.0), "half of the binocular range";
    /// Pupil centre to pupil centre.
    PD: "PD", "mm", (35.0, 85.0), (48.0, 75.0), "children down to 40, nearly all adults 45 to 80";
    /// Width of the box round a lens.
    BOX_WIDTH: "box width A", "mm", (25.0, 80.0), (40.0, 62.0), "common practice, no source";
    /// Height of the box round a lens.
    BOX_HEIGHT: "box height B", "mm", (15.0, 75.0), (24.0, 56.0), "common practice, no source";
    /// Gap between the boxes.
    BRIDGE: "DBL", "mm", (5.0, 40.0), (12.0, 26.0), "common practice, no source";
    /// Twice the longest radius from the box centre.
    EFFECTIVE_DIAMETER: "effective diameter ED", "mm", (25.0, 110.0), (42.0, 75.0), "at least A";
    /// Pupil centre above the lowest point of the lens.
    PUPIL_HEIGHT: "pupil height", "mm", (2.0, 60.0), (12.0, 35.0), "common practice, no source";
    /// Diameter of the barrel where it passes the lens.
    BARREL: "barrel diameter", "mm", (4.0, 45.0), (8.0, 25.0), "telescopes set in a carrier lens";
    /// Play round the barrel for adjustment.
    PLAY: "play", "mm", (0.0, 5.0), (0.0, 2.0), "common practice, no source";
    /// Pantoscopic angle of the front.
    PANTOSCOPIC: "pantoscopic angle", "degrees", (-20.0, 30.0), (0.0, 15.0), "7 to 12 degrees usual: common practice, no source";
    /// Turn of each lens against the plane of the front.
    FACE_FORM: "face form angle", "degrees", (-15.0, 35.0), (0.0, 12.0), "common practice, no source";
    /// Cornea to centre of rotation.
    ROTATION_DEPTH: "cornea to rotation centre", "mm", (8.0, 20.0), (12.0, 15.0), "13 to 14 mm in fitting notes";
    /// Least web of lens left round the opening.
    WEB: "least web", "mm", (0.0, 15.0), (2.0, 5.0), "3 mm in two published fitting notes";
    /// Least gap from the eyepiece to the segment.
    SEGMENT_GAP: "eyepiece to segment", "mm", (0.0, 30.0), (8.0, 15.0), "10 mm: common practice, no source";
    /// Height of the top of the segment above the lowest point of the lens.
    SEGMENT_HEIGHT: "segment height", "mm", (0.0, 50.0), (10.0, 25.0), "common practice, no source";
    /// Tilt of a mounted telescope.
    TILT: "tilt", "degrees", (-10.0, 60.0), (0.0, 35.0), "geometry of 8 to 18 mm barrels gives 12 to 33";
    /// From the lens to what is looked at through a near telescope or a segment.
    MOUNT_DISTANCE: "working distance", "mm", (25.0, 10_000.0), (80.0, 1000.0), "near tasks, from the lens";
    /// From the back of the lens to the centre of rotation of the eye.
    STOP_DISTANCE: "lens to rotation centre", "mm", (8.0, 60.0), (22.0, 35.0), "vertex distance and 13 to 14 mm";
    /// Diameter of a telescope's exit pupil.
    EXIT_PUPIL: "exit pupil", "mm", (0.2, 40.0), (1.0, 15.0), "telescopes worn or held";
    /// Length of a telescope, lens to lens.
    TUBE_LENGTH: "tube length", "mm", (2.0, 300.0), (8.0, 120.0), "telescopes worn or held";
}

#[cfg(test)]
mod tests {
    use super::*;
    use alloc::format;
    use alloc::string::ToString;

    #[test]
    fn usual_lies_inside_possible() {
        for bound in ALL {
            assert!(
                bound.possible.0 <= bound.usual.0
                    && bound.usual.0 < bound.usual.1
                    && bound.usual.1 <= bound.possible.1,
                "{}: usual {:?} within possible {:?}",
                bound.name,
                bound.usual,
                bound.possible
            );
        }
    }

    #[test]
    fn the_message_of_each_range_says_what_to_type() {
        for bound in ALL {
            let error = bound.check(bound.possible.1 + 1.0).expect_err("one above the greatest is refused");
            assert!(format!("{error}").ends_with("is not possible"), "{error}");
            assert!(error.hint().to_string().starts_with("use "), "{}", error.hint().to_string());
        }
        assert!(BRIDGE.check(f64::NAN).is_err(), "not-a-number is refused");
    }
}
