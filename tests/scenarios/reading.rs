//! Reading cases and reports.

use arcminute_core::math;
use arcminute_web::model::case_file;
use arcminute_web::model::draft::Draft;
use serde_json::Value;

/// A demonstration case, by its file's name without ending.
#[track_caller]
pub(crate) fn case(name: &str) -> Draft {
    let path = arcminute_tests::root().join("demo-scenarios").join(format!("{name}.json"));
    let text = std::fs::read_to_string(path).expect("the case can be read");
    case_file::read(&text).expect("it is a case").case
}

/// The names of all demonstration cases.
pub(crate) fn names() -> Vec<String> {
    let folder = arcminute_tests::root().join("demo-scenarios");
    let mut names: Vec<String> = std::fs::read_dir(folder)
        .expect("the cases are there")
        .filter_map(|entry| entry.ok()?.file_name().to_str()?.strip_suffix(".json").map(str::to_owned))
        .filter(|name| !name.ends_with(".schema"))
        .collect();
    names.sort_unstable();
    names
}

/// A record of a report by its key.
#[track_caller]
pub(crate) fn result<'a>(report: &'a Value, key: &str) -> &'a Value {
    let all = report["results"].as_array().expect("a report has results");
    let found = all.iter().find(|one| one["key"] == key);
    found.unwrap_or_else(|| panic!("there is no result `{key}`"))
}

/// A value of a record, in the unit that is wanted.
#[track_caller]
pub(crate) fn value(result: &Value, name: &str, unit: &str) -> f64 {
    let quantity = &result["values"][name];
    assert_eq!(quantity["unit"], unit, "{} {name}", result["key"]);
    quantity["value"].as_f64().unwrap_or_else(|| panic!("{} {name} is no number", result["key"]))
}

/// Passes when `got`, rounded to the digits that are printed, is what is printed.
#[track_caller]
pub(crate) fn rounds_to(got: f64, printed: &str) {
    let value: f64 = printed.parse().expect("the printed text is a plain number");
    let decimals = printed.split_once('.').map_or(0, |(_, after)| after.len());
    let half_of_last_place = 0.5 * math::pow(0.1, decimals as f64);
    assert!((got - value).abs() <= half_of_last_place * (1.0 + 1e-9), "got {got}, printed {printed}");
}

/// Passes when two roads meet, to a share of a millionth.
#[track_caller]
pub(crate) fn meet(got: f64, other_road: f64, what: &str) {
    let scale = other_road.abs().max(1.0);
    assert!((got - other_road).abs() <= 1e-6 * scale, "{what}: got {got}, the other road gives {other_road}");
}
