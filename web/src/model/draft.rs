//! The case as it stands on the page: every box's text, exactly as typed, and every choice made.
//!
//! Nothing here is parsed; [`super::answer`] derives everything else. The same structs are the case file
//! ([`super::case_file`]), so units are in the names: a bare number in a box named `_mm` is millimetres.

mod choices;

pub use choices::{
    BareAcuity, CarrierChoice, CorrectionChoice, EyeChoice, FellowChoice, FilterChoice, FirstChoice,
    GoalKind, Hands, HowWell, Paper, PlacementChoice, Posture, Priority, TiltFrom,
};

use super::fill::fields;
use serde::Serialize;

/// One eye, as typed.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(default, deny_unknown_fields)]
pub struct EyeDraft {
    /// Best-corrected distance acuity in any notation.
    pub acuity: String,
    /// Refraction at the spectacle plane: sphere, cylinder, axis.
    pub refraction: String,
    /// Pupil diameter.
    pub pupil_mm: String,
    /// Accommodation that can be used, for near aids.
    pub accommodation_d: String,
    /// Log contrast sensitivity for letters.
    pub contrast_log_cs: String,
    /// Pupil centre from the middle of the bridge, looking far.
    pub pd_mm: String,
    /// Pupil centre above the lowest point of the lens.
    pub pupil_height_mm: String,
}
fields!(EyeDraft { acuity, refraction, pupil_mm, accommodation_d, contrast_log_cs, pd_mm, pupil_height_mm } required {});

/// The person, as typed.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(default, deny_unknown_fields)]
pub struct PersonDraft {
    /// How a number without a notation is meant.
    pub bare_acuity: BareAcuity,
    /// The right eye.
    pub right: EyeDraft,
    /// The left eye.
    pub left: EyeDraft,
    /// Age; it only tells what accommodation is usual.
    pub age_years: String,
    /// 95 % limit of repeated acuity measurements, log units.
    pub retest_limit_log_mar: String,
    /// Back of the spectacle lens to the cornea.
    pub vertex_mm: String,
    /// Anything else, in words; no names.
    pub notes: String,
}
fields!(PersonDraft { bare_acuity, right, left, age_years, retest_limit_log_mar, vertex_mm, notes } required {});

/// One wish, as typed.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(default, deny_unknown_fields)]
pub struct GoalDraft {
    /// What it is, in words.
    pub name: String,
    /// Which kind.
    pub kind: GoalKind,
    /// Acuity to reach, for a goal of that kind.
    pub acuity: String,
    /// Height of the letters, for letters or signs.
    pub letter_height_mm: String,
    /// Smallest part that matters, for the detail of a thing.
    pub detail_mm: String,
    /// Print, in any notation of print sizes, for print to read.
    pub print: String,
    /// Eye to the thing: the only distance, or the nearest. Of print: empty when any distance will do.
    pub distance_m: String,
    /// Farthest distance; empty when there is only one.
    pub farthest_m: String,
    /// Weber contrast of the thing; empty when it is not known.
    pub contrast_percent: String,
    /// How well it is to be seen.
    pub how_well: HowWell,
    /// Size over the least size seen; empty takes what `how_well` stands for, and 1 for an acuity or a face.
    pub reserve_times: String,
    /// Width that should be seen at once, of what is not print.
    pub width_m: String,
    /// Characters that should be seen at once, of print.
    pub characters: String,
    /// Which hands have to be free.
    pub hands: Hands,
    /// How the person is placed.
    pub posture: Posture,
    /// Both eyes should be used.
    pub both_eyes: bool,
    /// Light where it is done.
    pub light_lux: String,
    /// It does not wait: a bus, a ball.
    pub time_critical: bool,
    /// How much it matters.
    pub priority: Priority,
    /// Key of the everyday thing that filled the boxes; empty when none did.
    pub shelf: String,
}
fields!(GoalDraft {
    name, kind, acuity, letter_height_mm, detail_mm, print, distance_m, farthest_m, contrast_percent, how_well,
    reserve_times, width_m, characters, hands, posture, both_eyes, light_lux, time_critical, priority, shelf,
} required {});

/// Choices on Bench.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(default, deny_unknown_fields)]
pub struct BenchDraft {
    /// Which goal is served: its place in the list, from 0.
    pub goal: usize,
    /// Which eye.
    pub eye: EyeChoice,
    /// Where its refraction goes.
    pub correction: CorrectionChoice,
    /// What is wanted most of the aids that reach the goal.
    pub first: FirstChoice,
    /// Key of the aid that is looked at, in the list of aids; empty for the telescope below.
    pub aid: String,
    /// Key of the telescope to be set in a carrier lens, in the list of aids; empty when none is chosen.
    pub telescope: String,
}
fields!(BenchDraft { goal, eye, correction, first, aid, telescope } required {});

/// Frame and mounting, as typed.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(default, deny_unknown_fields)]
pub struct FitDraft {
    /// Box width A.
    pub box_width_mm: String,
    /// Box height B.
    pub box_height_mm: String,
    /// Gap between the boxes, DBL.
    pub bridge_mm: String,
    /// Effective diameter ED.
    pub effective_diameter_mm: String,
    /// Pantoscopic angle, bottom in positive.
    pub pantoscopic_deg: String,
    /// Cornea to centre of rotation.
    pub cornea_to_rotation_mm: String,
    /// PD of both eyes together, if it was measured.
    pub pd_both_mm: String,
    /// Where the eyepiece sits.
    pub placement: PlacementChoice,
    /// Diameter of the barrel where it passes the lens; empty takes the chosen telescope's.
    pub barrel_mm: String,
    /// Play round the barrel.
    pub play_mm: String,
    /// Least web of lens round the opening.
    pub least_web_mm: String,
    /// Least gap from eyepiece to segment.
    pub segment_gap_mm: String,
    /// Tilt to the carrier lens, if one was ordered by hand.
    pub ordered_tilt_deg: String,
    /// Carrier lens.
    pub carrier: CarrierChoice,
    /// Top of the segment above the lowest point of the lens.
    pub segment_height_mm: String,
    /// Width of the segment.
    pub segment_width_mm: String,
    /// Middle of the segment inward of the pupil.
    pub segment_inset_mm: String,
    /// Eyepiece centre from the middle of the bridge, where it is placed by hand.
    pub eyepiece_x_mm: String,
    /// Eyepiece centre above the lowest point of the lens, where it is placed by hand.
    pub eyepiece_y_mm: String,
    /// What the tilt ordered by hand is measured from.
    pub tilt_from: TiltFrom,
    /// The aid is worn before each eye.
    pub both_eyes: bool,
    /// Lens to the thing looked at, for a near telescope or near spectacles.
    pub from_lens_mm: String,
    /// Back of the worn lens to the cornea, if it is not the vertex distance of the refraction.
    pub worn_vertex_mm: String,
    /// Turn of each lens against the plane of the front.
    pub face_form_deg: String,
    /// Base-in prism worked on each lens of near spectacles.
    pub base_in_pd: String,
    /// The carrier lens was turned for drilling.
    pub carrier_turned: bool,
    /// Weight of the front with all that is on it.
    pub front_weight_g: String,
}
fields!(FitDraft {
    box_width_mm, box_height_mm, bridge_mm, effective_diameter_mm, pantoscopic_deg, cornea_to_rotation_mm, pd_both_mm,
    placement, barrel_mm, play_mm, least_web_mm, segment_gap_mm, ordered_tilt_deg, carrier, segment_height_mm,
    segment_width_mm, segment_inset_mm, eyepiece_x_mm, eyepiece_y_mm, tilt_from, both_eyes, from_lens_mm, worn_vertex_mm,
    face_form_deg, base_in_pd, carrier_turned, front_weight_g,
} required {});

/// What else goes on the order.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(default, deny_unknown_fields)]
pub struct OrderDraft {
    /// Paper of the sheets.
    pub paper: Paper,
    /// The sheets are set in large letters.
    pub large_print: bool,
    /// Carrier prescription, right, if it is not the refraction above.
    pub carrier_right: String,
    /// Carrier prescription, left, if it is not the refraction above.
    pub carrier_left: String,
    /// The other eye's lens.
    pub fellow: FellowChoice,
    /// Filter.
    pub filter: FilterChoice,
    /// Large nose pads are wanted.
    pub large_nose_pads: bool,
    /// A head strap is wanted.
    pub head_strap: bool,
    /// Power of a cap for near that goes over the telescope.
    pub cap_d: String,
    /// The frame, in words: shape, colour, side.
    pub frame: String,
    /// Lens material, tint and coating, in words.
    pub lens: String,
    /// Anything else for the workshop, in words; no names.
    pub notes: String,
    /// When the person comes again, in words.
    pub follow_up: String,
    /// Anything else for the person, in words; no names.
    pub person_notes: String,
    /// Anything else for the school, in words; no names.
    pub school_notes: String,
    /// What the right lens measures when it is delivered.
    pub delivered_right: String,
    /// What the left lens measures when it is delivered.
    pub delivered_left: String,
}
fields!(OrderDraft {
    paper, large_print, carrier_right, carrier_left, fellow, filter, large_nose_pads, head_strap, cap_d, frame, lens, notes,
    follow_up, person_notes, school_notes, delivered_right, delivered_left,
} required {});

/// What was reached at a trial, as typed.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(default, deny_unknown_fields)]
pub struct TrialDraft {
    /// Key of the aid that was tried, in the list of aids; empty while nothing was entered.
    pub aid: String,
    /// Acuity that was reached with the aid, for a thing at a distance.
    pub acuity: String,
    /// Print that was just read with the aid, for print to read.
    pub print: String,
    /// Fovea to the place of the retina looked with; empty when it is not known.
    pub beside_deg: String,
    /// Anything else, in words; no names.
    pub notes: String,
}
fields!(TrialDraft { aid, acuity, print, beside_deg, notes } required {});

/// The whole case.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(default, deny_unknown_fields)]
pub struct Draft {
    /// Local label of the case; never a name.
    pub label: String,
    /// The person.
    pub person: PersonDraft,
    /// The wishes; at least one, if only an empty one.
    #[cfg_attr(feature = "schema", schemars(length(min = 1, max = 30)))]
    pub goals: Vec<GoalDraft>,
    /// Choices on Bench.
    pub bench: BenchDraft,
    /// Frame and mounting.
    pub fit: FitDraft,
    /// The order.
    pub order: OrderDraft,
    /// The trial.
    pub trial: TrialDraft,
}
fields!(Draft { label, person, goals, bench, fit, order, trial } required {});

impl Default for Draft {
    fn default() -> Self {
        Self {
            label: String::new(),
            person: PersonDraft::default(),
            goals: vec![GoalDraft { acuity: "20/40".into(), ..GoalDraft::default() }],
            bench: BenchDraft::default(),
            fit: FitDraft::default(),
            order: OrderDraft::default(),
            trial: TrialDraft::default(),
        }
    }
}

impl BenchDraft {
    /// Key of the aid that is looked at; empty when none is.
    #[must_use]
    pub fn looked_at(&self) -> &str {
        if self.aid.is_empty() { &self.telescope } else { &self.aid }
    }
}

impl PersonDraft {
    /// One eye's boxes.
    #[must_use]
    pub fn eye(&self, eye: EyeChoice) -> &EyeDraft {
        match eye {
            EyeChoice::Right => &self.right,
            EyeChoice::Left => &self.left,
        }
    }
}
