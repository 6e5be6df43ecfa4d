//! Cases and the core's answers as JSON, for programs that know nothing of the core.

use arcminute_bench::{Cases, cases, cases::Kinds};
use arcminute_core::device::{Aid, LensForm, Outcome, every_outcome};
use serde_json::{Value, json};

/// Stands for a result that there is none of.
const NONE: f64 = -1.0;

/// The table of the comparison.
pub(crate) fn table() -> Cases {
    Cases::of(200, 20, Kinds::Closed)
}

/// Kind of an aid and its numbers; metres, dioptres and ratios.
pub(crate) fn numbers(aid: &Aid) -> (&'static str, Vec<f64>) {
    match aid {
        Aid::NearerAndLarger { larger, thing_to_eye } => ("nearer", vec![thing_to_eye.m(), *larger]),
        Aid::HighPlus { spectacles, accommodation_used } => {
            let LensForm::Addition { add } = spectacles.form else { return ("other", vec![]) };
            let rim = spectacles.clear_diameter.m();
            let used = accommodation_used.dioptres();
            ("high-plus", vec![add.dioptres(), used, rim, spectacles.transmittance])
        }
        Aid::Hand { magnifier, lens_to_spectacle } => {
            let (power, rim) = (magnifier.power.dioptres(), magnifier.clear_diameter.m());
            ("held", vec![power, lens_to_spectacle.m(), rim, magnifier.transmittance])
        }
        Aid::Sheet { sheet, sheet_to_spectacle } => {
            let (power, rim) = (sheet.power.dioptres(), sheet.width.m());
            ("held", vec![power, sheet_to_spectacle.m(), rim, sheet.transmittance])
        }
        Aid::Stand { stand, lens_to_spectacle } => {
            let (power, height) = (stand.optics.power.dioptres(), stand.optics.print_to_lens.m());
            let rim = stand.clear_diameter.m();
            ("stand", vec![power, height, lens_to_spectacle.m(), rim, stand.transmittance])
        }
        Aid::Dome { dome, page_to_eye } => {
            let (radius, thickness) = (dome.solid.radius.m(), dome.solid.thickness.m());
            let rim = dome.clear_diameter.m();
            ("dome", vec![radius, thickness, dome.solid.index, page_to_eye.m(), rim, dome.transmittance])
        }
        Aid::Bar { bar, page_to_eye } => {
            let (radius, thickness) = (bar.section.radius.m(), bar.section.thickness.m());
            let length = bar.length.m();
            ("bar", vec![radius, thickness, bar.section.index, page_to_eye.m(), length, bar.transmittance])
        }
        Aid::Screen { screen, screen_to_eye } => {
            ("screen", vec![screen_to_eye.m(), screen.enlargement, screen.screen.width.m()])
        }
        _ => ("other", vec![]),
    }
}

/// Names of the results that belong to the aid alone, and of those that the wish changes.
pub(crate) const OF_AID: [&str; 10] =
    ["evd", "demand", "defocus", "mar", "full", "half", "last", "nearest", "farthest", "light"];
pub(crate) const OF_BOTH: [&str; 5] = ["detail", "reserve", "least", "chance", "characters"];

/// Results in the order of those names; metres, dioptres, minutes of arc.
fn results(outcome: &Outcome) -> ([f64; 10], [f64; 5]) {
    let depth = outcome.depth;
    let widths =
        outcome.widths.map_or([NONE; 3], |widths| [widths.full.m(), widths.half.m(), widths.last.m()]);
    let of_aid = [
        outcome.equivalent_viewing_distance.map_or(NONE, |distance| distance.m()),
        outcome.focus.demand.dioptres(),
        outcome.focus.defocus.dioptres(),
        outcome.blurred.mar.arcmin(),
        widths[0],
        widths[1],
        widths[2],
        depth.map_or(NONE, |depth| depth.nearest.m()),
        depth.and_then(|depth| depth.farthest).map_or(NONE, |farthest| farthest.m()),
        outcome.light,
    ];
    let of_both = [
        outcome.detail_seen.arcmin(),
        outcome.reserve_reached,
        outcome.least_height.m(),
        outcome.prediction.chance,
        outcome.characters.unwrap_or(NONE),
    ];
    (of_aid, of_both)
}

/// Eye, aids, wishes, and what the core makes of them.
pub(crate) fn cases() -> Value {
    let (table, eye) = (table(), cases::eye());
    let aids: Vec<Value> = table.aids.iter().map(|aid| json!(numbers(aid))).collect();
    let wishes: Vec<Value> = table.wishes.iter().map(|wish| json!([wish.height.m(), wish.reserve])).collect();
    let (mut of_aid, mut of_both) = (Vec::new(), Vec::new());
    every_outcome(&table.aids, &table.wishes, &eye, |_, wish, outcome| {
        let outcome = outcome.expect("every aid has an answer");
        let (first, each) = results(&outcome);
        if wish == 0 {
            of_aid.push(first);
        }
        of_both.push(each);
    });
    let column = |name: &&str| -> (String, Value) {
        let values: Vec<f64> = match OF_AID.iter().position(|known| known == name) {
            Some(place) => of_aid.iter().map(|row| row[place]).collect(),
            None => {
                let place = OF_BOTH.iter().position(|known| known == name).unwrap_or_default();
                of_both.iter().map(|row| row[place]).collect()
            }
        };
        ((*name).to_owned(), json!(values))
    };
    let results: serde_json::Map<String, Value> = OF_AID.iter().chain(&OF_BOTH).map(column).collect();
    json!({
        "eye": {
            "acuity": eye.acuity.log(),
            "limit": eye.retest_limit.log(),
            "pupil": eye.pupil.m(),
            "sphere": eye.sphere.dioptres(),
            "cylinder": eye.cylinder.dioptres(),
            "add": eye.add().dioptres(),
            "to_eye": eye.spectacle_to_eye.m(),
            "accommodation": eye.accommodation.dioptres(),
        },
        "aids": aids,
        "wishes": wishes,
        "results": results,
    })
}
