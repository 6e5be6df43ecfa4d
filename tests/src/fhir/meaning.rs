//! What the values of a resource mean: lenses that there are, codes that are what they are called, units that are known.

use serde_json::Value;

/// Codes of acuity and their names, as public guides carry them; a wrong but valid code is the trap that a check digit does
/// not find.
pub const LOINC: &[(&str, &str)] = &[
    ("65893-0", "Visual acuity best corrected Right eye"),
    ("65897-1", "Visual acuity best corrected Left eye"),
];

/// The other codes, with the system they are of.
const OTHER_CODES: &[(&str, &str, &str)] = &[
    ("http://terminology.hl7.org/CodeSystem/observation-category", "exam", "Exam"),
    ("http://terminology.hl7.org/CodeSystem/ex-visionprescriptionproduct", "lens", "Lens"),
];

/// Codes of units, and how they are written for people.
///
/// Source: UCUM; the prism dioptre from memory.
const UCUM: &[(&str, &str)] = &[
    ("mm", "mm"),
    ("deg", "degrees"),
    ("1", "x"),
    ("1", "log units"),
    ("{logMAR}", "logMAR"),
    ("[ft_i]", "ft"),
    ("m", "m"),
    ("[p'diop]", "prism dioptres"),
];

/// How a note begins that lets a power stand that no lens is made in.
const ODD_STEP: &str = "A power is not in steps of 0.25 or 0.125 D";

/// Whether the last digit of a LOINC code is the check digit of the others (modulus 10, every second digit doubled).
///
/// Source: the LOINC users' guide, appendix on the check digit, from memory.
#[must_use]
pub fn has_check_digit(code: &str) -> bool {
    let Some((number, check)) = code.split_once('-') else { return false };
    let digits: Option<Vec<u32>> = number.chars().map(|sign| sign.to_digit(10)).collect();
    let (Some(digits), Ok(check)) = (digits, check.parse::<u32>()) else { return false };
    if digits.is_empty() || 9 < check {
        return false;
    }
    let sum: u32 = digits
        .iter()
        .rev()
        .enumerate()
        .map(|(place, digit)| match place % 2 {
            0 => digit * 2 / 10 + digit * 2 % 10,
            _ => *digit,
        })
        .sum();
    (10 - sum % 10) % 10 == check
}

pub(super) fn resource(path: &str, kind: &str, resource: &Value, faults: &mut Vec<String>) {
    match kind {
        "VisionPrescription" => lenses(path, resource, faults),
        "Observation" => observation(path, resource, faults),
        "Patient" | "Practitioner" => nobody(path, resource, faults),
        _ => {}
    }
    parts(path, resource, faults);
}

/// Codes and quantities, wherever they stand.
fn parts(path: &str, value: &Value, faults: &mut Vec<String>) {
    match value {
        Value::Array(values) => values.iter().for_each(|value| parts(path, value, faults)),
        Value::Object(object) => {
            if object.contains_key("display") {
                coding(path, value, faults);
            }
            if object.contains_key("unit") {
                quantity(path, value, faults);
            }
            if object.contains_key("numerator") || object.contains_key("denominator") {
                ratio(path, value, faults);
            }
            object.values().for_each(|value| parts(path, value, faults));
        }
        _ => {}
    }
}

fn coding(path: &str, coding: &Value, faults: &mut Vec<String>) {
    let part = |name: &str| coding[name].as_str().unwrap_or_default();
    let (system, code, display) = (part("system"), part("code"), part("display"));
    if system == "http://loinc.org" {
        if !has_check_digit(code) {
            faults.push(format!("{path}: the check digit of {code} is wrong"));
        }
        if !LOINC.contains(&(code, display)) {
            faults.push(format!("{path}: {code} is not known as `{display}`"));
        }
    } else if !OTHER_CODES.contains(&(system, code, display)) {
        faults.push(format!("{path}: {system} with {code}, `{display}`, is not known"));
    }
}

fn quantity(path: &str, quantity: &Value, faults: &mut Vec<String>) {
    let part = |name: &str| quantity[name].as_str().unwrap_or_default();
    let (system, code, unit) = (part("system"), part("code"), part("unit"));
    if system != "http://unitsofmeasure.org" || !UCUM.contains(&(code, unit)) {
        faults.push(format!("{path}: the unit `{unit}`, {code} of {system}, is not known"));
    }
}

fn ratio(path: &str, ratio: &Value, faults: &mut Vec<String>) {
    let above_zero = |part: &Value| part["value"].as_f64().is_some_and(|value| 0.0 < value);
    let (numerator, denominator) = (&ratio["numerator"], &ratio["denominator"]);
    if !above_zero(numerator) || !above_zero(denominator) || numerator["code"] != denominator["code"] {
        faults.push(format!("{path}: a fraction of an acuity has two distances above nothing, in one unit"));
    }
}

/// No person can be told from the file.
fn nobody(path: &str, person: &Value, faults: &mut Vec<String>) {
    for name in ["name", "identifier"] {
        for part in person[name].as_array().into_iter().flatten() {
            let filled = part.get("value").is_some();
            let absent = part.get("extension").is_some();
            if filled == absent {
                faults.push(format!("{path}.{name}: either a value, or why there is none"));
            }
            if name == "name" && filled {
                faults.push(format!("{path}: a name"));
            }
        }
    }
}

fn observation(path: &str, observation: &Value, faults: &mut Vec<String>) {
    let code = &observation["code"];
    let words = code["text"].as_str().unwrap_or_default();
    let site = observation["bodySite"]["text"].as_str();
    let display = code["coding"][0]["display"].as_str().unwrap_or_default();
    for (eye, word) in [("RIGHT eye", "Right"), ("LEFT eye", "Left")] {
        let coded = display.contains(word);
        if (coded || words.contains(eye)) && site != Some(eye) {
            faults.push(format!("{path}: `{words}` is said of {site:?}"));
        }
    }
    if site.is_some_and(|site| !matches!(site, "RIGHT eye" | "LEFT eye")) {
        faults.push(format!("{path}: {site:?} is no eye"));
    }
    let components = observation["component"].as_array().map_or(&[][..], Vec::as_slice);
    let typed = components.iter().filter(|part| part["code"]["text"] == "Exactly as typed");
    if typed.filter(|part| part["valueString"].is_string()).count() != 1 {
        faults.push(format!("{path}: what was typed does not stand beside the value"));
    }
}

fn lenses(path: &str, prescription: &Value, faults: &mut Vec<String>) {
    let lenses = prescription["lensSpecification"].as_array().map_or(&[][..], Vec::as_slice);
    for (place, one) in lenses.iter().enumerate() {
        lens(&format!("{path}, {}", one["eye"]), one, faults);
        if lenses[..place].iter().any(|other| other["eye"] == one["eye"]) {
            faults.push(format!("{path}: two lenses for the {} eye", one["eye"]));
        }
    }
}

fn lens(path: &str, lens: &Value, faults: &mut Vec<String>) {
    let has = |name: &str| lens.get(name).is_some();
    if has("cylinder") != has("axis") {
        faults.push(format!("{path}: cylinder and axis belong together"));
    }
    if has("axis") && !lens["axis"].as_i64().is_some_and(|axis| (1..=180).contains(&axis)) {
        faults.push(format!("{path}: the axis {} is not a whole number from 1 to 180", lens["axis"]));
    }
    let notes = lens["note"].as_array().map_or(&[][..], Vec::as_slice);
    let said = notes.iter().any(|note| note["text"].as_str().is_some_and(|text| text.starts_with(ODD_STEP)));
    let odd = ["sphere", "cylinder", "add"].iter().any(|name| lens[*name].as_f64().is_some_and(is_odd));
    if odd != said {
        faults.push(format!("{path}: a power is in odd steps and not said to be, or the other way round"));
    }
    for prism in lens["prism"].as_array().into_iter().flatten() {
        if !prism["amount"].as_f64().is_some_and(|amount| 0.0 < amount) {
            faults.push(format!("{path}: a prism of {}", prism["amount"]));
        }
    }
}

/// Whether no lens is made in it: a multiple of 0.25 D or of 0.125 D, written out or cut to 0.12.
fn is_odd(power: f64) -> bool {
    let hundredths = power.abs() * 100.0 % 25.0;
    ![0.0, 12.0, 12.5, 25.0].iter().any(|step| (hundredths - step).abs() < 1e-6)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Codes as public guides carry them, each digit in turn made wrong.
    #[test]
    fn one_wrong_digit_is_found() {
        for code in [
            "65893-0", "65897-1", "98499-7", "98498-9", "98497-1", "98505-1", "98506-9", "98501-0",
            "79880-1", "79881-9", "79882-7", "79883-5", "79892-6", "79893-4", "28711-0", "28737-5",
            "55980-7", "11488-4",
        ] {
            assert!(has_check_digit(code), "{code}");
            for (place, digit) in code.char_indices().filter(|(_, sign)| *sign != '-') {
                for other in ('0'..='9').filter(|other| *other != digit) {
                    let mut wrong = code.to_owned();
                    wrong.replace_range(place..=place, &other.to_string());
                    assert!(!has_check_digit(&wrong), "{wrong} for {code}");
                }
            }
        }
        for no_code in ["", "-", "65893", "65893-", "6589x-0", "65893-10"] {
            assert!(!has_check_digit(no_code), "{no_code}");
        }
        for (code, _) in LOINC {
            assert!(has_check_digit(code), "{code}");
        }
    }

    #[test]
    fn steps_that_lenses_are_made_in_are_known() {
        for power in [0.0, 2.0, -1.25, 0.12, 0.125, -0.37, 0.375, 0.62, 0.87, 12.5, -20.0] {
            assert!(!is_odd(power), "{power}");
        }
        for power in [2.13, 0.38, 0.1, -0.3, 5.1, 0.2] {
            assert!(is_odd(power), "{power}");
        }
    }
}
