//! Titles of the formulas and words for how a value is known.

use arcminute_core::source::Standing;

/// What a formula gives, in words.
#[must_use]
pub fn title(id: &str) -> &'static str {
    match id {
        "mar-from-fraction" => "Least detail from the fraction",
        "mar-from-decimal" => "Least detail from decimal acuity",
        "mar-from-log" => "Least detail from logMAR",
        "log-from-mar" => "logMAR from least detail",
        "log-letters" => "Letters missed or gained",
        "log-from-score" => "logMAR from letters read",
        "log-distance" => "Change of test distance",
        "log-from-letters" => "Label from letters right",
        "score-two-distances" => "Letter score from two distances",
        "mean-sphere" => "Mean sphere",
        "power-vector-j0" => "Power vector, J0",
        "power-vector-j45" => "Power vector, J45",
        "effectivity" => "Power at the nearer plane",
        "tilt-sphere" => "Sphere of a tilted lens",
        "tilt-cylinder" => "Cylinder of a tilted lens",
        "face-form" => "PD in the plane of the lens",
        "raise" => "Optical centre above the box centre",
        "effective-diameter" => "Effective diameter",
        "blank-size" => "Smallest blank",
        "blank-rule" => "Smallest blank, rule of thumb",
        "near-pd" => "Near PD",
        "segment-inset" => "Segment inset",
        "stop-distance" => "Lens to the centre of rotation",
        "oval-half-width" => "Half width of the barrel in the lens",
        "distance-place" => "Sideways place for far",
        "least-web" => "Thinnest lens left",
        "segment-drop" => "Segment below the box centre",
        "ordered-to-carrier" => "Ordered tilt from the carrier lens",
        "miss-limit" => "How far the axis may miss",
        "mar-of-detail" => "Detail of the target as an angle",
        "mar-to-reach" => "Detail to reach, with the reserve",
        "power-needed" => "Power needed",
        "acuity-through" => "Acuity through the aid",
        "retest-spread" => "Spread of repeated tests",
        "chance-of-goal" => "Chance of the goal",
        "magnification-from-lenses" => "Magnification from the lenses",
        "tube-length" => "Length, lens to lens",
        "exit-pupil" => "Exit pupil",
        "exit-pupil-place" => "Place of the exit pupil",
        "light" => "Light against the bare eye",
        "apparent-field" => "Apparent field",
        "real-field-stop" => "Real field from the field stop",
        "field-width" => "Width seen at once",
        "field-galilean" => "Real field of a Galilean, to half light",
        "objective-to-target" => "From the objective to the target",
        "power-in-use-far" | "power-in-use-near" => "Power in use, against the own glasses",
        "field-at-distance" => "Width seen at a distance",
        "real-field-rule" => "Real field, rule of thumb",
        "near-magnification" => "Magnification as focused",
        "object-vergence" => "Vergence from the target",
        "focus-length" => "Length as focused",
        "focus-travel" => "Focusing travel",
        "ametropia-at-eyepiece" => "Power carried to the eyepiece",
        "vergence-out" => "Vergence leaving the eyepiece",
        "vergence-at-eye" => "Vergence at the eye",
        "cap-power" => "Equivalent power with a cap",
        "cylinder-blur" => "Blur of the cylinder left over",
        "blur-in-object" => "The same on the target's side",
        "pupil-overlap" => "Light left when off centre",
        "ring-width" => "Width of the hidden ring",
        "frame-pd" => "Frame PD",
        "decentration" => "Decentration",
        "eyepiece-rise" => "Eyepiece above the pupil",
        "head-drop" => "Head drop",
        "tilt-to-carrier" => "Tilt from the carrier lens",
        "oval-half-height" => "Half height of the tilted barrel in the lens",
        "rule-pupil-top" => "Height: eyepiece bottom at pupil top",
        "rule-highest" => "Height: as high as possible",
        "rule-centred" => "Height: centred on the pupil",
        "near-place" => "Sideways place for near",
        "toe-in" => "Toe-in",
        "segment-max" => "Highest segment, from the eyepiece",
        "segment-max-hole" => "Highest segment, from the opening",
        "smallest-b" => "Smallest box height",
        "miss-distance" => "How far the ordered axis misses the eye",
        _ => "Step",
    }
}

/// Words for a rule step's reason.
#[must_use]
pub fn rule_sentence(because: &str) -> String {
    because.replace('-', " ")
}

/// How a value is known, in a word or two.
#[must_use]
pub fn standing(standing: Standing) -> &'static str {
    match standing {
        Standing::Published => "published",
        Standing::Derived => "geometry or definition",
        Standing::CommonPractice => "common practice, no source",
        Standing::FromMemory => "from memory, to be verified",
        Standing::Assumed => "assumed",
    }
}
