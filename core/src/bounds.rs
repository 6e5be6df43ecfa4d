//! Every accepted range in one table.
//!
//! Outside `possible` a value is refused; outside `usual` it is used, and the page says that it is unusual. Messages,
//! test grids and the page's own hints read this table.
//!
//! Then read [`crate::error`]: how a value is refused.

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

    /// Whether a possible value, in the bound's own unit, is outside what is usually met; the ends are usual.
    ///
    /// ```
    /// use arcminute_core::bounds;
    /// // A child's PD: used, but the page says that it is unusual.
    /// assert!(bounds::PD.check(44.0).is_ok() && bounds::PD.is_unusual(44.0));
    /// assert!(!bounds::PD.is_unusual(48.0), "an end of the range");
    /// ```
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
    /// Letters read on one line.
    LETTERS_ON_LINE: "letters read on one line", "letters", (0.0, 10.0), (0.0, 5.0), "a log chart has five letters a line, other charts up to ten";
    /// Radius of a field from fixation.
    FIELD_RADIUS: "radius of the field", "degrees", (0.0, 110.0), (1.0, 100.0), "an eye sees to about 100 degrees on the temporal side";
    /// Points of the field grid on one meridian, inside or outside 10 degrees.
    MERIDIAN_POINTS: "points on a meridian", "points", (0.0, 5.0), (0.0, 5.0), "the grid has five inside and five outside";
    /// Print size as points of type.
    PRINT_POINTS: "print size", "points", (1.0, 400.0), (4.0, 80.0), "N4 to N80 on near charts";
    /// Print size in M units.
    PRINT_M: "print size", "M", (0.1, 60.0), (0.4, 10.0), "0.4 M to 10 M on near charts";
    /// Side of a pixel of style sheets as shown, zoom included.
    SCREEN_PIXEL: "side of a pixel", "mm", (0.005, 100.0), (0.05, 5.0), "0.26 mm by definition at 100 %";
    /// Eye to print, or equivalent viewing distance.
    VIEWING_DISTANCE: "viewing distance", "m", (0.001, 20.0), (0.02, 2.0), "the strongest loupes to boards";
    /// Detail of print as an angle.
    DETAIL: "detail", "arcmin", (0.1, 2000.0), (0.5, 200.0), "the same range as on the logarithmic scale, and large print near";
    /// Log contrast sensitivity for letters.
    LETTER_CONTRAST: "log contrast sensitivity", "", (-0.5, 2.6), (0.0, 2.1), "letter charts run from 0 to 2.25";
    /// Steps of 0.1 log on a chart.
    CHART_STEPS: "chart steps", "", (-40.0, 40.0), (0.0, 20.0), "four log units";
    /// Reading speed on a plateau.
    READING_SPEED: "reading speed", "words per minute", (0.1, 2000.0), (5.0, 400.0), "letter by letter to the fastest readers";
    /// Speed of one sentence; nothing for one that was not read.
    SENTENCE_SPEED: "speed of a sentence", "words per minute", (0.0, 2000.0), (0.0, 400.0), "not read to the fastest readers";
    /// Share of the greatest speed.
    SPEED_SHARE: "share of the greatest speed", "", (0.0, 0.999), (0.5, 0.95), "the greatest speed itself is reached at no size";
    /// Rise of reading speed over the logarithm of size.
    SPEED_RISE: "rise of the speed", "", (0.1, 1000.0), (2.0, 20.0), "one log unit to one step";
    /// Time for a sentence.
    READING_TIME: "reading time", "s", (0.1, 3600.0), (1.0, 120.0), "faster than anyone reads, to an hour";
    /// Sentences of a chart that were tried.
    SENTENCES: "sentences tried", "sentences", (1.0, 19.0), (5.0, 19.0), "1.3 down to -0.5 logMAR";
    /// Words missed or misread on a chart of sentences.
    WORD_ERRORS: "words missed", "words", (0.0, 190.0), (0.0, 30.0), "19 sentences of ten words";
    /// Width seen on a page.
    SEEN_WIDTH: "width seen", "mm", (0.0, 2000.0), (5.0, 300.0), "nothing to a wide page";
    /// Characters on a line or seen at once.
    LINE_CHARACTERS: "characters", "", (0.5, 1000.0), (2.0, 100.0), "half a letter to the widest line";
    /// Characters seen twice between neighbouring positions of an aid.
    OVERLAP: "overlap", "characters", (0.0, 1000.0), (0.0, 5.0), "none to nearly all";
    /// Distance of a chart from the eye.
    CHART_DISTANCE: "test distance", "m", (0.05, 20.0), (0.25, 6.1), "near cards to 20 ft lanes";
    /// Distance of the fingers or the hand that were shown.
    HAND_DISTANCE: "distance of the hand", "m", (0.05, 10.0), (0.1, 6.0), "shown by hand in a room";
    /// 95 % limit of a repeated acuity measurement.
    RETEST_LIMIT: "retest limit", "logMAR", (0.01, 1.0), (0.05, 0.4), "published limits run from 0.05 to 0.36";
    /// Acuity reserve: size looked at over the least size seen.
    RESERVE: "acuity reserve", "times", (0.5, 10.0), (1.0, 4.0), "published reserves run from 1 to 3";
    /// Size of a copy or an image on a screen over the size of the thing.
    ENLARGEMENT: "enlargement", "times", (0.05, 200.0), (1.0, 60.0), "copies to 2.5 times, screens to about 60";
    /// Equivalent power of a magnifier.
    MAGNIFIER_POWER: "magnifier power", "D", (0.5, 120.0), (2.0, 80.0), "sheets of a few dioptres to the strongest loupes";
    /// From the page to the principal plane of a stand magnifier.
    STAND_HEIGHT: "stand height", "mm", (0.1, 2000.0), (5.0, 120.0), "at most the focal length of the weakest magnifier";
    /// From the image below a stand magnifier to its lens.
    IMAGE_TO_LENS: "image to lens", "mm", (1.0, 100_000.0), (50.0, 1000.0), "beyond 100 m it is as good as infinitely far";
    /// Vergence that leaves a stand magnifier.
    EMERGENT_VERGENCE: "emergent vergence", "D", (-1000.0, -0.01), (-15.0, -0.5), "the light of a fixed stand diverges; the same range as that of its image";
    /// From a magnifier to the spectacle plane or the eye.
    LENS_TO_EYE: "magnifier to eye", "mm", (0.0, 2000.0), (10.0, 500.0), "at the eye to beyond arm's length";
    /// Corner to corner of a screen.
    SCREEN_DIAGONAL: "screen diagonal", "inches", (0.2, 200.0), (3.0, 60.0), "displays before the eye to walls";
    /// Across or down of an aspect ratio.
    ASPECT_PART: "part of the aspect ratio", "", (0.1, 100.0), (1.0, 32.0), "as 16 and 9 of 16:9";
    /// Width or height of a screen.
    SCREEN_SIDE: "screen side", "mm", (2.0, 5000.0), (40.0, 1500.0), "displays before the eye to walls";
    /// From a screen to the eye's entrance pupil.
    SCREEN_TO_EYE: "screen to eye", "mm", (10.0, 20_000.0), (100.0, 3000.0), "in the hand to across a room";
    /// Pixels across a screen or a camera.
    PIXELS_ACROSS: "pixels across", "", (1.0, 100_000.0), (320.0, 8000.0), "small displays to large cameras";
    /// One pixel of a camera on the print.
    PIXEL_ON_PRINT: "camera pixel on the print", "mm", (0.0005, 20.0), (0.01, 0.5), "near the limit of optics to far too coarse";
    /// Nominal size of text on a screen.
    TEXT_SIZE: "text size", "px", (1.0, 2000.0), (8.0, 200.0), "smaller is not text, larger is a poster";
    /// x-height of a typeface over its nominal size.
    X_HEIGHT_RATIO: "x-height over text size", "", (0.2, 1.0), (0.4, 0.6), "typefaces in use; capitals to 0.75";
    /// Full angle that a camera takes in.
    CAMERA_FIELD: "camera field", "degrees", (0.1, 170.0), (2.0, 110.0), "long to very wide lenses";
    /// Full angle that a display before the eye fills.
    DISPLAY_FIELD: "display field", "degrees", (1.0, 170.0), (20.0, 110.0), "displays before the eye";
    /// From a thing to the eye that wears a display.
    DISPLAY_DISTANCE: "distance of the thing", "m", (0.02, 1000.0), (0.2, 100.0), "print to far things";
    /// Speed at which a head turns.
    HEAD_SPEED: "speed of the head", "degrees/s", (0.0, 2000.0), (0.0, 300.0), "still to as fast as heads turn";
    /// From camera to display.
    LATENCY: "latency", "ms", (0.0, 5000.0), (2.0, 200.0), "published systems take 2 to 60 ms";
    /// Distance from the eye to what is looked at.
    TASK_DISTANCE: "distance", "m", (0.1, 1000.0), (0.25, 100.0), "print on a stand to signs across a street";
    /// Height of a letter or other detail.
    TASK_HEIGHT: "letter height", "mm", (0.1, 20_000.0), (2.0, 2000.0), "print to hoardings";
    /// The smallest part of a thing that matters.
    TASK_DETAIL: "detail", "mm", (0.01, 5000.0), (0.1, 500.0), "a stroke of small print to the gap between two people";
    /// Contrast of a thing in hundredths.
    TASK_CONTRAST: "contrast", "%", (0.1, 100.0), (5.0, 100.0), "features of a face in poor light to black on white";
    /// Characters that should be seen at once.
    TASK_CHARACTERS: "characters", "characters", (1.0, 1000.0), (1.0, 100.0), "a letter to the widest line";
    /// Width of the whole scene that should be seen at once.
    TASK_WIDTH: "width", "m", (0.01, 100.0), (0.05, 20.0), "a page to a stage";
    /// Width of a face between the ears.
    FACE_WIDTH: "width of the face", "mm", (50.0, 300.0), (120.0, 170.0), "140 to 150 mm from memory; drawn faces are smaller and larger";
    /// Cycles across the width of a face.
    FACE_CYCLES: "cycles across the face", "", (0.5, 100.0), (8.0, 16.0), "published bands run from 8 to 16";
    /// Angle from the fovea.
    ECCENTRICITY: "eccentricity", "degrees", (0.0, 60.0), (0.0, 20.0), "the laws are tabulated to 20 degrees; beyond 60 no print is looked at";
    /// Angle of a point of gaze from the target, sideways or up and down.
    GAZE: "point of gaze", "degrees", (-90.0, 90.0), (-20.0, 20.0), "recorded from the target";
    /// Standard deviation of the points of gaze.
    FIXATION_SPREAD: "spread of fixation", "degrees", (0.0, 60.0), (0.1, 5.0), "normal sight keeps 95 % of points within a degree";
    /// Correlation of gaze sideways with gaze up and down.
    FIXATION_CORRELATION: "correlation of fixation", "", (-1.0, 1.0), (-0.9, 0.9), "a correlation";
    /// Share of the points of gaze that an ellipse holds.
    FIXATION_SHARE: "share of fixation points", "", (0.01, 0.9999), (0.6, 0.96), "works use 63, 68 and 95 %; no ellipse holds all";
    /// Speed of the eye over that of the head.
    REFLEX_GAIN: "gain of the eye movement", "", (0.0, 10.0), (0.5, 3.0), "1.37 and 1.54 were measured through 2.2x, 1 is usual without";
    /// Luminance of a page, a screen or a field.
    LUMINANCE: "luminance", "cd/m²", (0.0, 1_000_000.0), (1.0, 10_000.0), "darkness to snow in the sun and beyond";
    /// Light on a page.
    ILLUMINANCE: "illuminance", "lx", (0.0, 200_000.0), (20.0, 10_000.0), "darkness to full sunlight";
    /// Light a lamp sends in one direction.
    LAMP_INTENSITY: "lamp intensity", "cd", (0.0, 1_000_000.0), (5.0, 5000.0), "a night light to a search light";
    /// From a lamp to the page.
    LAMP_DISTANCE: "lamp to page", "m", (0.01, 100.0), (0.1, 4.0), "reading lamps to ceilings";
    /// Widest measure of what shines.
    LAMP_SIZE: "lamp size", "cm", (0.0, 300.0), (0.1, 60.0), "a point to a long tube";
    /// Between the light and a line at right angles to the page.
    INCIDENCE: "angle of the light", "degrees", (0.0, 90.0), (0.0, 75.0), "light from behind does not reach the page";
    /// Share of the light that a surface sends back.
    REFLECTANCE: "reflectance", "", (0.0, 1.0), (0.02, 0.95), "a share; no ink is quite black and no paper quite white";
    /// Weber or Michelson contrast.
    CONTRAST: "contrast", "", (0.0, 1.0), (0.01, 1.0), "a share";
    /// Luminance of a colour on a screen, white being 1.
    RELATIVE_LUMINANCE: "relative luminance", "", (0.0, 1.0), (0.0, 1.0), "black to white";
    /// Ratio of two colours after the guidelines for pages.
    COLOUR_RATIO: "contrast ratio", "", (1.0, 21.0), (1.0, 21.0), "two colours alike to black and white";
    /// Luminous transmittance of a filter.
    TRANSMITTANCE: "transmittance", "", (0.000_01, 1.0), (0.03, 0.95), "filters for welding to clear lenses";
    /// Area of the part of the field that is lit.
    FIELD_AREA: "field area", "deg²", (0.01, 26_000.0), (10.0, 12_000.0), "a spot to the whole field of both eyes";
    /// A person's age.
    AGE: "age", "years", (0.0, 120.0), (3.0, 100.0), "the longest lives known";
    /// Diameter of the eye's pupil.
    PUPIL: "pupil diameter", "mm", (0.5, 10.0), (2.0, 8.0), "human pupils in light and dark";
    /// Nearest thing that a telescope can be focused for, before its objective.
    NEAR_FOCUS: "nearest focus", "m", (0.01, 1000.0), (0.1, 20.0), "with the tube drawn out to hardly beyond infinity";
    /// Magnification of a telescope as marked.
    POWER: "power", "x", (0.1, 20.0), (2.0, 10.0), "spectacle-mounted telescopes";
    /// A length taken with a rule or loupe at the desk.
    MEASURED_LENGTH: "measured length", "mm", (0.1, 2000.0), (1.0, 1500.0), "rule, loupe and tape at a desk";
    /// Magnification of a minifier.
    MINIFICATION: "minification", "x", (0.05, 1.0), (0.2, 0.8), "reversed telescopes and minus lenses";
    /// Full angle of a person's field.
    FIELD_DIAMETER: "field diameter", "degrees", (0.1, 179.0), (2.0, 120.0), "the whole field of an eye is about 160 degrees wide";
    /// Clear diameter of an objective.
    OBJECTIVE: "objective diameter", "mm", (2.0, 80.0), (5.0, 40.0), "telescopes worn or held";
    /// Real field of a telescope, full angle.
    REAL_FIELD: "real field", "degrees", (0.5, 90.0), (3.0, 30.0), "telescopes worn or held";
    /// Vertex distance, back of the lens to the cornea.
    VERTEX: "vertex distance", "mm", (0.0, 40.0), (8.0, 20.0), "common practice, no source";
    /// Optical centre from the pupil, across or up and down.
    DECENTRATION: "decentration", "mm", (-40.0, 40.0), (-8.0, 8.0), "half of a wide lens";
    /// Sphere or mean sphere of a refraction.
    SPHERE: "sphere", "D", (-60.0, 40.0), (-20.0, 20.0), "refractions met with low vision are wide";
    /// Cylinder of a refraction.
    CYLINDER: "cylinder", "D", (-20.0, 20.0), (-8.0, 8.0), "refractions met with low vision are wide";
    /// Power of one surface of a thick lens.
    SURFACE_POWER: "surface power", "D", (-200.0, 200.0), (-20.0, 60.0), "one surface of a strong magnifier";
    /// Front to back of a lens on its axis; print to top of a dome.
    LENS_THICKNESS: "lens thickness", "mm", (0.0, 200.0), (1.0, 60.0), "spectacle lenses to domes";
    /// Refractive index of glass or plastic.
    INDEX: "refractive index", "", (1.0, 3.0), (1.49, 1.9), "air to more than the densest glass in use";
    /// Radius of the top of a dome.
    DOME_RADIUS: "dome radius", "mm", (2.0, 200.0), (15.0, 60.0), "domes that lie on a page";
    /// Prism before one eye.
    PRISM: "prism", "prism dioptres", (0.0, 100.0), (0.5, 40.0), "ground prisms to about 15, segments to 57";
    /// Light on the first face of a prism, from its normal; positive from the side of the base.
    PRISM_INCIDENCE: "incidence on the prism", "degrees", (-89.0, 89.0), (-45.0, 45.0), "at 90 degrees light runs along the face";
    /// Amplitude of accommodation.
    AMPLITUDE: "accommodation", "D", (0.0, 30.0), (0.0, 16.0), "the most expected at birth is 25 D";
    /// Part of an amplitude that is used.
    USABLE_SHARE: "share of accommodation used", "", (0.0, 1.0), (0.4, 0.8), "published means are 0.51 and 0.81";
    /// What print asks of an eye.
    FOCUS_DEMAND: "focusing demand", "D", (-60.0, 100.0), (0.0, 40.0), "light that converges to print one centimetre away";
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
    /// Width of a segment.
    SEGMENT_WIDTH: "segment width", "mm", (5.0, 80.0), (22.0, 45.0), "round and flat-topped segments to those across the lens";
    /// Middle of a segment inward of the pupil; negative outward.
    SEGMENT_INSET: "segment inset", "mm", (-10.0, 25.0), (0.0, 12.0), "none to that for strong near lenses";
    /// Centre of an eyepiece from the middle of the bridge.
    EYEPIECE_ACROSS: "eyepiece centre, sideways", "mm", (0.0, 100.0), (20.0, 40.0), "on the lens of a usual frame";
    /// Centre of an eyepiece above the lowest boxed tangent.
    EYEPIECE_UP: "eyepiece centre, height", "mm", (-20.0, 100.0), (5.0, 45.0), "on the lens of a usual frame";
    /// Diameter of a round blank that lenses are cut from.
    BLANK: "blank diameter", "mm", (30.0, 120.0), (60.0, 80.0), "common practice, no source";
    /// Added to a blank for edging.
    BLANK_ALLOWANCE: "blank allowance", "mm", (0.0, 10.0), (0.0, 3.0), "about 2 mm: common practice, no source";
    /// Tilt of a mounted telescope.
    TILT: "tilt", "degrees", (-10.0, 60.0), (0.0, 35.0), "geometry of 8 to 18 mm barrels gives 12 to 33";
    /// Optical centre of a near lens from the midline.
    CENTRE_FROM_MIDLINE: "optical centre from the midline", "mm", (-20.0, 60.0), (0.0, 38.0), "on the midline for a common cap, to half a wide PD";
    /// Optical centre of a near lens above the lowest point of the lens.
    CENTRE_HEIGHT: "optical centre height", "mm", (-10.0, 70.0), (8.0, 35.0), "a little below the pupil: common practice, no source";
    /// Prism worked on a near lens; base-in positive.
    BASE_IN: "base-in prism", "prism dioptres", (-100.0, 100.0), (0.0, 14.0), "ready-made pairs to 14 an eye";
    /// What an eye turns in.
    CONVERGENCE: "convergence", "prism dioptres", (-50.0, 200.0), (0.0, 30.0), "bare eyes turn in by 25 for 10 cm";
    /// From the eyepiece to the eye.
    EYEPIECE_TO_EYE: "eyepiece to eye", "mm", (0.0, 100.0), (8.0, 30.0), "telescopes worn or held";
    /// From the lens to what is looked at through a near telescope or a segment.
    MOUNT_DISTANCE: "working distance", "mm", (25.0, 10_000.0), (80.0, 1000.0), "near tasks, from the lens";
    /// From the back of the lens to the centre of rotation of the eye.
    STOP_DISTANCE: "lens to rotation centre", "mm", (8.0, 60.0), (22.0, 35.0), "vertex distance and 13 to 14 mm";
    /// Diameter of a telescope's exit pupil.
    EXIT_PUPIL: "exit pupil", "mm", (0.2, 40.0), (1.0, 15.0), "telescopes worn or held";
    /// Length of a telescope, lens to lens.
    TUBE_LENGTH: "tube length", "mm", (2.0, 300.0), (8.0, 120.0), "telescopes worn or held";
    /// Addition of spectacles that magnify by being strong.
    HIGH_PLUS_ADD: "addition of the spectacles", "D", (0.25, 40.0), (4.0, 24.0), "the weakest readers to the strongest spectacles";
    /// Power of a lens held before the eye to see more at once.
    MINUS_LENS: "power of the minus lens", "D", (-60.0, -0.25), (-20.0, -2.0), "the weakest lens there is to beyond those held by hand";
    /// Clear part of a lens, from side to side.
    CLEAR_WIDTH: "clear width", "mm", (2.0, 500.0), (10.0, 300.0), "eyepieces to sheets over a page";
    /// Length of a bar along the line of print.
    BAR_LENGTH: "bar length", "mm", (10.0, 1000.0), (50.0, 300.0), "a word to a wide page";
    /// From the page to the eye's entrance pupil.
    EYE_TO_PAGE: "eye to page", "mm", (20.0, 20_000.0), (50.0, 800.0), "print at the glasses to a board";
    /// Room between a camera and the print under it.
    CAMERA_TO_PRINT: "camera to print", "mm", (1.0, 2000.0), (10.0, 500.0), "laid on the page to a camera on an arm";
    /// Light that an aid lets through.
    LIGHT_THROUGH: "light let through", "%", (1.0, 100.0), (60.0, 98.0), "dark filters to no glass at all";
    /// What is held or worn.
    WEIGHT: "weight", "g", (0.1, 100_000.0), (5.0, 5000.0), "a lens to a screen on its stand";
    /// Magnification of a telescope that magnifies.
    MAGNIFYING_POWER: "magnification", "x", (1.05, 20.0), (2.0, 10.0), "the weakest worn to the strongest held";
    /// Enlargement of the image below a stand magnifier.
    STAND_ENLARGEMENT: "enlargement", "times", (1.01, 200.0), (1.5, 20.0), "its image is larger than the print";
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

    #[test]
    fn the_ends_of_a_range_belong_to_it() {
        let bound = Bound { name: "n", unit: "mm", possible: (5.0, 40.0), usual: (12.0, 26.0), reason: "" };
        for (value, possible, usual) in [
            (4.9, false, false),
            (5.0, true, false),
            (11.9, true, false),
            (12.0, true, true),
            (26.0, true, true),
            (26.1, true, false),
            (40.0, true, false),
            (40.1, false, false),
            (f64::NAN, false, false),
            (f64::INFINITY, false, false),
        ] {
            assert_eq!(bound.check(value).is_ok(), possible, "{value}");
            assert_eq!(bound.is_unusual(value), !usual, "{value}");
        }
        let said = |unit| Bound { unit, ..bound }.check(4.5).expect_err("too little").to_string();
        assert_eq!(said("mm"), "n `4.5 mm` is not possible");
        assert_eq!(said(""), "n `4.5` is not possible");
    }
}
