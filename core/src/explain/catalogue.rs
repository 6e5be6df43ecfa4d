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
    FIELD_AT_DISTANCE: "field-at-distance", "w" = "2 * x * tan(r / 2)", "x from the entrance pupil of the instrument", GEOMETRY;
    REAL_FIELD_RULE: "real-field-rule", "r" = "50 / M", "spectacle-mounted Keplerian", COMMON_PRACTICE;
    NEAR_MAGNIFICATION: "near-magnification", "M_near" = "-(F_e - K) / (F_o + U)", "refocused by tube length for an object at U and ametropia K", PARAXIAL;
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
    RING_OUTER: "ring-outer", "ring" = "a", "telescope eye alone; housing may add to it", DOHERTY_2011;
    RING_WIDTH: "ring-width", "w_ring" = "(a - r) / 2", "telescope eye alone", DOHERTY_2011;
    FRAME_PD: "frame-pd", "PD_frame" = "A + DBL", "boxing system", ISO_8624;
    DECENTRATION: "decentration", "d_in" = "(A + DBL) / 2 - PD_m", "inward positive, one eye", ISO_8624;
    EYEPIECE_RISE: "eyepiece-rise", "e" = "Y_e - H_p", "above the straight-ahead pupil", GEOMETRY;
    HEAD_DROP: "head-drop", "beta" = "atan(e / s)", "axis through the rotation centre; above primary gaze", GREER;
    TILT_TO_CARRIER: "tilt-to-carrier", "tau" = "beta + phi", "relative to the carrier lens; pantoscopic phi, bottom in positive", GEOMETRY;
    OVAL_HALF_HEIGHT: "oval-half-height", "h_v" = "r_b / cos(tau)", "a round barrel tilted by tau cuts the lens in an oval", GEOMETRY;
    RULE_PUPIL_TOP: "rule-pupil-top", "Y_e" = "H_p + r_p + h_v", "eyepiece bottom level with the top of the pupil", COMMON_PRACTICE;
    RULE_HIGHEST: "rule-highest", "Y_e" = "B - m - h_v - c", "as high as the web allows", YOHO_2009;
    RULE_CENTRED: "rule-centred", "Y_e" = "H_p", "centred on the pupil", YOHO_2009;
    NEAR_PLACE: "near-place", "X_e" = "PD_m * W / (W + s)", "object on the midline, W from the lens", STOP_DISTANCE;
    TOE_IN: "toe-in", "toe" = "atan(PD_m / (W + s))", "object on the midline", STOP_DISTANCE;
    SEGMENT_MAX: "segment-max", "H_max" = "Y_e - h_v - k", "segment top below the eyepiece by k", COMMON_PRACTICE;
    SEGMENT_MAX_HOLE: "segment-max-hole", "H_max_hole" = "Y_e - h_v - c - k", "segment top below the opening by k", COMMON_PRACTICE;
    SMALLEST_B: "smallest-b", "B_min" = "Y_e + h_v + c + m", "web m kept above the opening", GREER;
    MISS_DISTANCE: "miss-distance", "miss" = "(e - s * tan(tau_0 - phi)) * cos(tau_0 - phi)", "axis ordered at tau_0 to the carrier, past the rotation centre", GEOMETRY;
}
