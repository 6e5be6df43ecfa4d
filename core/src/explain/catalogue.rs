//! Every formula that a result may show, once: text, domain, source.

use super::Formula;
use crate::source;

macro_rules! formulas {
    ($($name:ident: $id:literal, $gives:literal = $text:literal, $domain:literal, $source:ident;)+) => {
        $(
            #[doc = concat!("`", $gives, " = ", $text, "`")]
            pub static $name: Formula =
                Formula { id: $id, gives: $gives, text: $text, domain: $domain, source: &source::$source };
        )+
        /// All of them, in teaching order.
        pub static ALL: &[&Formula] = &[$(&$name),+];
    };
}

formulas! {
    MAR_FROM_FRACTION: "mar-from-fraction", "MAR" = "denominator / numerator", "both in the same unit", DICOM_ACUITY;
    MAR_FROM_DECIMAL: "mar-from-decimal", "MAR" = "1 / V", "decimal acuity above zero", DICOM_ACUITY;
    MAR_FROM_LOG: "mar-from-log", "MAR" = "10^logMAR", "any", DICOM_ACUITY;
    LOG_FROM_MAR: "log-from-mar", "logMAR" = "log10(MAR)", "MAR above zero", DICOM_ACUITY;
    LOG_LETTERS: "log-letters", "logMAR" = "logMAR_line + 0.02 * missed", "log charts with five letters a line", BECK_2003;
    LOG_FROM_SCORE: "log-from-score", "logMAR" = "1.7 - 0.02 * letters", "log chart letter score, 0 to 100", BECK_2003;
    LOG_FROM_LETTERS: "log-from-letters", "logMAR_label" = "logMAR_top + step - step / n * N", "n letters a line, N right in all, lines above the first shown credited", GEOMETRY;
    SCORE_TWO_DISTANCES: "score-two-distances", "letters" = "N_far + added", "added: 30 if enough were read far away, else those read near", TWO_DISTANCE_SCORE;
    LOG_DISTANCE: "log-distance", "logMAR" = "logMAR_label + log10(D_design / D_test)", "chart read at another distance than printed for", GEOMETRY;
    MAR_OF_DETAIL: "mar-of-detail", "MAR_target" = "2 * 60 * atan(h / 5 / x / 2)", "letter five details high", GEOMETRY;
    MAR_TO_REACH: "mar-to-reach", "MAR_goal" = "MAR_target / reserve", "reserve at least 1 to be seen at all", CHEONG_2002;
    POWER_NEEDED: "power-needed", "M" = "MAR_now / MAR_goal", "angular magnification, in focus", GEOMETRY;
    ACUITY_THROUGH: "acuity-through", "logMAR_with" = "logMAR_now - log10(M)", "in focus, steady, exit pupil on the pupil", GEOMETRY;
    RETEST_SPREAD: "retest-spread", "s" = "limit / 1.959963984540054", "limit: 95 % of repeats differ by less", NORMAL_MODEL;
    CHANCE_OF_GOAL: "chance-of-goal", "P" = "Phi((logMAR_goal - logMAR_with) / s)", "normal scatter of repeats", NORMAL_MODEL;
    EYEPIECE_RULE: "magnification-from-lenses", "M" = "-F_e / F_o", "thin lenses, focused for infinity", SMITH_13;
    TUBE_LENGTH: "tube-length", "d" = "1000 / F_o + 1000 / F_e", "afocal; lens to lens, prism path in air", SMITH_13;
    EXIT_PUPIL: "exit-pupil", "E" = "D_o / abs(M)", "objective limits the bundle", SMITH_13;
    EXIT_PUPIL_PLACE: "exit-pupil-place", "l" = "-d / M", "behind the eyepiece when positive", PARAXIAL;
    LIGHT_SMALL_EXIT: "light", "light" = "T * (min(E, p) / p)^2", "extended object, naked eye = 1", SMITH_P281;
    APPARENT_FIELD: "apparent-field", "a" = "2 * atan(abs(M) * tan(r / 2))", "image without distortion", ISO_14132;
    REAL_FIELD_STOP: "real-field-stop", "r" = "2 * atan(D_s / 2 / f_o)", "field stop in the image of a Keplerian, focused for infinity", SMITH_13;
    FIELD_WIDTH: "field-width", "w" = "2 * EVD * tan(a / 2)", "apparent field a at the eye", PARAXIAL;
    FIELD_GALILEAN: "field-galilean", "r" = "2 * atan(max(D_o, M * p) / 2 / (d + M * v) / M)", "Galilean focused for infinity; half of the light left; pupil p, eye v behind the eyepiece", SMITH_13;
    FIELD_AT_DISTANCE: "field-at-distance", "w" = "2 * x * tan(r / 2)", "marked field taken as seen from the eye, x away", GEOMETRY;
    REAL_FIELD_RULE: "real-field-rule", "r" = "50 / M", "spectacle-mounted Keplerian", COMMON_PRACTICE;
    NEAR_MAGNIFICATION: "near-magnification", "M_near" = "-(F_e - K) / (F_o + U)", "refocused by tube length for an object at U and ametropia K", PARAXIAL;
    OBJECTIVE_TO_TARGET: "objective-to-target", "x" = "D - d' / 1000 - e / 1000", "D from the eye, e from eyepiece to eye", GEOMETRY;
    POWER_IN_USE_FAR: "power-in-use-far", "M_use" = "M_near * (1 - v / 1000 * F_s) / (1 - e / 1000 * K)", "in focus, far; against the own glasses F_s at v from the eye", PARAXIAL;
    POWER_IN_USE_NEAR: "power-in-use-near", "M_use" = "M_near * (D - v / 1000 * F_s * (D - v / 1000)) / (x * (1 - e / 1000 * K))", "in focus, target at D from the eye; against the own glasses F_s at v from the eye", PARAXIAL;
    OBJECT_VERGENCE: "object-vergence", "U" = "-1 / x", "real object x in front of the objective", PARAXIAL;
    FOCUS_LENGTH: "focus-length", "d'" = "1000 / (F_o + U) + 1000 / (F_e - K)", "in focus for an object at U and ametropia K", PARAXIAL;
    FOCUS_TRAVEL: "focus-travel", "travel" = "d' - d", "longer is positive", PARAXIAL;
    AT_EYEPIECE: "ametropia-at-eyepiece", "K" = "F_s / (1 + (e - v) / 1000 * F_s)", "spectacle sphere F_s at v, eyepiece at e, both from the eye's entrance pupil", SCHWARTZ_12;
    VERGENCE_OUT: "vergence-out", "U_out" = "M^2 * U / (1 - d / 1000 * M * U)", "at the eyepiece of an afocal telescope", PARAXIAL;
    VERGENCE_AT_EYE: "vergence-at-eye", "U_eye" = "M^2 * U / (1 - (v / 1000 + d / 1000 / M) * M^2 * U)", "eye v behind the eyepiece of an afocal telescope", PARAXIAL;
    CAP_POWER: "cap-power", "EVP" = "abs(M) * F_cap", "print at the front focus of the cap", SCHWARTZ_12;
    CYLINDER_BLUR: "cylinder-blur", "blur" = "60 * 180 / 3.141592653589793 * q / 1000 * C / 2", "uncorrected cylinder at the eyepiece, apparent space", PARAXIAL;
    BLUR_IN_OBJECT: "blur-in-object", "blur_object" = "blur / abs(M)", "to compare with the person's own MAR", PARAXIAL;
    PUPIL_OVERLAP: "pupil-overlap", "share" = "A / (3.141592653589793 * (min(E, p) / 2)^2)", "discs E and p, centres apart by c", GEOMETRY;
    RING_WIDTH: "ring-width", "w_ring" = "(a - r) / 2", "telescope eye alone", DOHERTY_2011;
    MEAN_SPHERE: "mean-sphere", "M" = "S + C / 2", "thin sphero-cylinder", THIBOS_1997;
    POWER_VECTOR_J0: "power-vector-j0", "J0" = "-C / 2 * cos(2 * axis)", "thin sphero-cylinder", THIBOS_1997;
    POWER_VECTOR_J45: "power-vector-j45", "J45" = "-C / 2 * sin(2 * axis)", "thin sphero-cylinder", THIBOS_1997;
    EFFECTIVITY: "effectivity", "F_moved" = "F / (1 - d / 1000 * F)", "one meridian; d nearer the eye is positive", GEOMETRY;
    TILT_SPHERE: "tilt-sphere", "S_t" = "S * (1 + sin(t)^2 / 3)", "spherical lens, index near 1.5, small tilt", MARTIN_TILT;
    TILT_CYLINDER: "tilt-cylinder", "C_t" = "S_t * tan(t)^2", "axis along the line of tilt", MARTIN_TILT;
    FRAME_PD: "frame-pd", "PD_frame" = "A + DBL", "boxing system", ISO_8624;
    DECENTRATION: "decentration", "d_in" = "(A + DBL) / 2 - PD_m", "inward positive, one eye", ISO_8624;
    FACE_FORM: "face-form", "PD_lens" = "PD_m * cos(w)", "one eye; w: turn of the lens against the plane of the front", GEOMETRY;
    RAISE: "raise", "d_up" = "Y_oc - B / 2", "upward positive, one eye", ISO_8624;
    EFFECTIVE_DIAMETER: "effective-diameter", "ED" = "2 * (sqrt((A / 2 - r)^2 + (B / 2 - r)^2) + r)", "rounded rectangle", GEOMETRY;
    BLANK_SIZE: "blank-size", "MBS" = "2 * (sqrt((abs(d_in) + A / 2 - r)^2 + (abs(d_up) + B / 2 - r)^2) + r) + t", "rounded rectangle, optical centre in the middle of the blank", GEOMETRY;
    BLANK_RULE: "blank-rule", "MBS_rule" = "ED + 2 * abs(d_in) + t", "no vertical decentration", COMMON_PRACTICE;
    NEAR_PD: "near-pd", "NPD" = "PD * W / (W + s)", "object on the midline, W from the lens; lens power left out", STOP_DISTANCE;
    SEGMENT_INSET: "segment-inset", "I" = "PD / (1 + W * (1 / s - F / 1000))", "both eyes together; optical centres at the distance PD", STOP_DISTANCE;
    STOP_DISTANCE: "stop-distance", "s" = "v + q", "back of the lens to the rotation centre of the eye", STOP_DISTANCE;
    EYEPIECE_RISE: "eyepiece-rise", "e" = "Y_e - H_p", "above the straight-ahead pupil", GEOMETRY;
    HEAD_DROP: "head-drop", "beta" = "atan(e / s)", "axis through the rotation centre; above primary gaze", GREER;
    TILT_TO_CARRIER: "tilt-to-carrier", "tau" = "beta + phi", "relative to the carrier lens; pantoscopic phi, bottom in positive", GEOMETRY;
    OVAL_HALF_HEIGHT: "oval-half-height", "h_v" = "r_b / cos(tau)", "a round barrel tilted by tau cuts the lens in an oval", GEOMETRY;
    OVAL_HALF_WIDTH: "oval-half-width", "h_w" = "r_b / cos(toe)", "a round barrel turned in by toe", GEOMETRY;
    RULE_PUPIL_TOP: "rule-pupil-top", "Y_e" = "H_p + r_p + h_v", "eyepiece bottom level with the top of the pupil", COMMON_PRACTICE;
    RULE_HIGHEST: "rule-highest", "Y_e" = "B - m - h_v - c", "as high as the web allows", YOHO_2009;
    RULE_CENTRED: "rule-centred", "Y_e" = "H_p", "centred on the pupil", YOHO_2009;
    DISTANCE_PLACE: "distance-place", "X_e" = "PD_m", "object far away", GREER;
    NEAR_PLACE: "near-place", "X_e" = "PD_m * W / (W + s)", "object on the midline, W from the lens", STOP_DISTANCE;
    TOE_IN: "toe-in", "toe" = "atan(PD_m / (W + s))", "object on the midline", STOP_DISTANCE;
    LEAST_WEB: "least-web", "web" = "(A / 2 - r) * abs(cos(theta)) + (B / 2 - r) * abs(sin(theta)) + r - (X_e - (A + DBL) / 2) * cos(theta) - (Y_e - B / 2) * sin(theta) - sqrt(((h_w + c) * cos(theta))^2 + ((h_v + c) * sin(theta))^2)", "theta: direction in which the tangents to opening and lens edge are nearest; rounded rectangle", GEOMETRY;
    SEGMENT_MAX: "segment-max", "H_max" = "Y_e - h_v - k", "segment top below the eyepiece by k", COMMON_PRACTICE;
    SEGMENT_MAX_HOLE: "segment-max-hole", "H_max_hole" = "Y_e - h_v - c - k", "segment top below the opening by k", COMMON_PRACTICE;
    SEGMENT_DROP: "segment-drop", "drop" = "B / 2 - H_max", "below the box centre positive", ISO_8624;
    SMALLEST_B: "smallest-b", "B_min" = "Y_e + h_v + c + m", "web m kept above the opening", GREER;
    MISS_DISTANCE: "miss-distance", "miss" = "(e - s * tan(tau_0 - phi)) * cos(tau_0 - phi)", "axis ordered at tau_0 to the carrier, past the rotation centre", GEOMETRY;
    ORDERED_TO_CARRIER: "ordered-to-carrier", "tau_0" = "beta_0 + phi", "tilt ordered above the straight-ahead line", GEOMETRY;
    MISS_LIMIT: "miss-limit", "miss_most" = "E / 2 + r_p", "beyond it exit pupil and eye pupil do not touch", GEOMETRY;
}
