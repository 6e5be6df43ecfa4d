//! The elements of each type, as far as this program writes them: how many, and of which kind.

use serde_json::{Map, Value};

/// What an element holds.
#[derive(Clone, Copy)]
enum Kind {
    Text,
    Uri,
    Id,
    /// One of these words.
    Code(&'static [&'static str]),
    /// A point in time, or a part of one.
    DateTime,
    /// A point in time with seconds and zone.
    Instant,
    Decimal,
    Integer,
    Narrative,
    Resource,
    /// An element of this type.
    Of(&'static str),
}

/// An element of a type.
struct Element {
    name: &'static str,
    required: bool,
    many: bool,
    kind: Kind,
}

/// Exactly one.
const fn one(name: &'static str, kind: Kind) -> Element {
    Element { name, required: true, many: false, kind }
}
/// One or none.
const fn may(name: &'static str, kind: Kind) -> Element {
    Element { name, required: false, many: false, kind }
}
/// Any number.
const fn any(name: &'static str, kind: Kind) -> Element {
    Element { name, required: false, many: true, kind }
}
/// One or more.
const fn some(name: &'static str, kind: Kind) -> Element {
    Element { name, required: true, many: true, kind }
}

use Kind::{Code, DateTime, Decimal, Id, Instant, Integer, Narrative, Of, Resource, Text, Uri};

const CONCEPT: Kind = Of("CodeableConcept");
const QUANTITY: Kind = Of("Quantity");
const REFERENCE: Kind = Of("Reference");

/// Source: the resource and data type definitions of HL7 FHIR R4 (4.0.1), cut to what is written here.
static TYPES: &[(&str, &[Element])] = &[
    (
        "Bundle",
        &[
            one("identifier", Of("Identifier")),
            one("type", Code(&["document"])),
            one("timestamp", Instant),
            some("entry", Of("Entry")),
        ],
    ),
    ("Entry", &[one("fullUrl", Uri), one("resource", Resource)]),
    (
        "Composition",
        &[
            one("id", Id),
            one("status", Code(&["preliminary"])),
            one("type", CONCEPT),
            one("subject", REFERENCE),
            one("date", DateTime),
            some("author", REFERENCE),
            one("title", Text),
            some("section", Of("Section")),
        ],
    ),
    ("Section", &[one("title", Text), one("text", Of("Narrative")), any("entry", REFERENCE)]),
    ("Narrative", &[one("status", Code(&["generated"])), one("div", Narrative)]),
    ("Patient", &[one("id", Id), some("identifier", Of("Identifier"))]),
    ("Practitioner", &[one("id", Id), some("name", Of("HumanName"))]),
    (
        "Device",
        &[
            one("id", Id),
            some("deviceName", Of("DeviceName")),
            one("type", CONCEPT),
            some("version", Of("DeviceVersion")),
        ],
    ),
    ("DeviceName", &[one("name", Text), one("type", Code(&["user-friendly-name"]))]),
    ("DeviceVersion", &[one("value", Text)]),
    (
        "Observation",
        &[
            one("id", Id),
            one("status", Code(&["preliminary"])),
            some("category", CONCEPT),
            one("code", CONCEPT),
            one("subject", REFERENCE),
            may("valueQuantity", QUANTITY),
            may("valueRatio", Of("Ratio")),
            may("valueCodeableConcept", CONCEPT),
            may("bodySite", CONCEPT),
            some("component", Of("Component")),
        ],
    ),
    (
        "Component",
        &[
            one("code", CONCEPT),
            may("valueString", Text),
            may("valueInteger", Integer),
            may("valueQuantity", QUANTITY),
        ],
    ),
    (
        "VisionPrescription",
        &[
            one("id", Id),
            one("status", Code(&["draft"])),
            one("created", DateTime),
            one("patient", REFERENCE),
            one("dateWritten", DateTime),
            one("prescriber", REFERENCE),
            some("lensSpecification", Of("LensSpecification")),
        ],
    ),
    (
        "LensSpecification",
        &[
            one("product", CONCEPT),
            one("eye", Code(&["right", "left"])),
            one("sphere", Decimal),
            may("cylinder", Decimal),
            may("axis", Integer),
            any("prism", Of("Prism")),
            may("add", Decimal),
            any("note", Of("Annotation")),
        ],
    ),
    ("Prism", &[one("amount", Decimal), one("base", Code(&["up", "down", "in", "out"]))]),
    (
        "DeviceRequest",
        &[
            one("id", Id),
            one("status", Code(&["draft"])),
            one("intent", Code(&["order"])),
            one("codeCodeableConcept", CONCEPT),
            some("parameter", Of("Parameter")),
            one("subject", REFERENCE),
            one("authoredOn", DateTime),
            any("note", Of("Annotation")),
        ],
    ),
    (
        "Parameter",
        &[one("code", CONCEPT), may("valueQuantity", QUANTITY), may("valueCodeableConcept", CONCEPT)],
    ),
    ("Annotation", &[one("text", Text)]),
    ("Identifier", &[any("extension", Of("Extension")), may("system", Uri), may("value", Text)]),
    ("HumanName", &[any("extension", Of("Extension"))]),
    (
        "Extension",
        &[
            one("url", Code(&["http://hl7.org/fhir/StructureDefinition/data-absent-reason"])),
            one("valueCode", Code(&["not-asked"])),
        ],
    ),
    ("CodeableConcept", &[any("coding", Of("Coding")), one("text", Text)]),
    ("Coding", &[one("system", Uri), one("code", Text), one("display", Text)]),
    ("Quantity", &[one("value", Decimal), one("unit", Text), one("system", Uri), one("code", Text)]),
    ("Ratio", &[one("numerator", QUANTITY), one("denominator", QUANTITY)]),
    ("Reference", &[one("reference", Uri)]),
];

/// Types of which exactly one `value...` has to be there.
const VALUED: &[&str] = &["Observation", "Component", "Parameter"];

/// A resource, its type told in it.
pub(super) fn resource(path: &str, value: &Value, faults: &mut Vec<String>) {
    let kind = value["resourceType"].as_str().unwrap_or_default();
    let is_resource = value.get("id").is_some() || kind == "Bundle";
    if !is_resource && TYPES.iter().any(|(name, _)| *name == kind) {
        faults.push(format!("{path}: a {kind} without an id"));
    }
    element_of(path, kind, value, faults);
}

fn element_of(path: &str, kind: &str, value: &Value, faults: &mut Vec<String>) {
    let Some((_, elements)) = TYPES.iter().find(|(name, _)| *name == kind) else {
        faults.push(format!("{path}: the type `{kind}` is not known"));
        return;
    };
    let Value::Object(object) = value else {
        faults.push(format!("{path}: it is no {kind}"));
        return;
    };
    if object.is_empty() {
        faults.push(format!("{path}: it is empty"));
    }
    for name in object.keys() {
        if name != "resourceType" && !elements.iter().any(|element| element.name == name) {
            faults.push(format!("{path}: the element `{name}` is not known"));
        }
    }
    for element in *elements {
        let path = format!("{path}.{}", element.name);
        match (object.get(element.name), element.many) {
            (None, _) if element.required => faults.push(format!("{path}: it is missing")),
            (None, _) => {}
            (Some(Value::Array(values)), true) => {
                if values.is_empty() {
                    faults.push(format!("{path}: it is empty"));
                }
                for value in values {
                    holds(&path, element.kind, value, faults);
                }
            }
            (Some(_), true) => faults.push(format!("{path}: it is no list")),
            (Some(value), false) => holds(&path, element.kind, value, faults),
        }
    }
    if VALUED.contains(&kind) && values(object) != 1 {
        faults.push(format!("{path}: {} values, where one has to be", values(object)));
    }
}

fn values(object: &Map<String, Value>) -> usize {
    object.keys().filter(|name| name.starts_with("value")).count()
}

fn holds(path: &str, kind: Kind, value: &Value, faults: &mut Vec<String>) {
    let text = value.as_str();
    let good = match kind {
        Of(kind) => return element_of(path, kind, value, faults),
        Resource => return resource(path, value, faults),
        Text => text.is_some_and(|text| !text.trim().is_empty() && !text.contains(is_control)),
        Uri => text.is_some_and(|text| text.contains(':') && !text.contains(char::is_whitespace)),
        Id => text.is_some_and(is_id),
        Code(words) => text.is_some_and(|text| words.contains(&text)),
        DateTime | Instant => text.is_some_and(is_instant),
        Decimal => value.is_number(),
        Integer => value.is_i64(),
        Narrative => text.is_some_and(is_narrative),
    };
    if !good {
        faults.push(format!("{path}: {value} cannot stand here"));
    }
}

fn is_control(sign: char) -> bool {
    sign.is_control() && !matches!(sign, '\t' | '\n' | '\r')
}

fn is_id(text: &str) -> bool {
    let signs = text.chars().all(|sign| sign.is_ascii_alphanumeric() || matches!(sign, '-' | '.'));
    signs && (1..=64).contains(&text.len())
}

/// Whether it is `2026-11-29T10:15:00+01:00` or `...Z`: a day that there is, with seconds and a zone.
fn is_instant(text: &str) -> bool {
    let Some((time, zone)) = text.get(..19).zip(text.get(19..)) else { return false };
    let shape = |text: &str, wanted: &str| {
        text.len() == wanted.len()
            && text.bytes().zip(wanted.bytes()).all(|(sign, wanted)| match wanted {
                b'0' => sign.is_ascii_digit(),
                other => sign == other,
            })
    };
    let number = |from: usize, to: usize| text[from..to].parse::<u32>().unwrap_or(u32::MAX);
    if !shape(time, "0000-00-00T00:00:00") {
        return false;
    }
    let (year, month, day) = (number(0, 4), number(5, 7), number(8, 10));
    let leap = year % 4 == 0 && (year % 100 != 0 || year % 400 == 0);
    let days = match month {
        2 => 28 + u32::from(leap),
        4 | 6 | 9 | 11 => 30,
        _ => 31,
    };
    let clock = number(11, 13) < 24 && number(14, 16) < 60 && number(17, 19) < 60;
    let offset = shape(zone, "+00:00") || shape(zone, "-00:00");
    let zoned = zone == "Z" || offset && number(20, 22) <= 14 && number(23, 25) < 60;
    (1..=12).contains(&month) && (1..=days).contains(&day) && clock && zoned
}

/// Whether it is paragraphs of plain words and nothing that a reader could run: no other tag, no attribute, no bare sign.
fn is_narrative(text: &str) -> bool {
    let Some(inside) = text
        .strip_prefix("<div xmlns=\"http://www.w3.org/1999/xhtml\">")
        .and_then(|rest| rest.strip_suffix("</div>"))
    else {
        return false;
    };
    let Some(paragraphs) = inside.strip_prefix("<p>").and_then(|rest| rest.strip_suffix("</p>")) else {
        return false;
    };
    let entities = ["&amp;", "&lt;", "&gt;", "&quot;"];
    paragraphs.split("</p><p>").all(|words| {
        let plain = entities.iter().fold(words.to_owned(), |words, entity| words.replace(entity, ""));
        !words.trim().is_empty() && !plain.contains(['<', '>', '&']) && !words.contains(is_control)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_type_that_is_named_is_there_once() {
        for (kind, elements) in TYPES {
            assert_eq!(TYPES.iter().filter(|(name, _)| name == kind).count(), 1, "{kind} stands twice");
            for element in *elements {
                if let Of(named) = element.kind {
                    assert!(TYPES.iter().any(|(name, _)| *name == named), "{kind} names {named}");
                }
            }
        }
    }

    #[test]
    fn a_point_in_time_has_a_day_that_there_is_seconds_and_a_zone() {
        for good in ["2026-11-29T10:15:00+01:00", "2024-02-29T23:59:59Z", "2026-01-01T00:00:00-11:30"] {
            assert!(is_instant(good), "{good}");
        }
        for bad in [
            "2026-11-29T10:15:00",
            "2026-11-29T10:15+01:00",
            "2026-11-29",
            "04/03/2025",
            "2026-02-29T10:15:00Z",
            "2026-13-01T10:15:00Z",
            "2026-11-31T10:15:00Z",
            "2026-11-29T24:15:00Z",
            "2026-11-29T10:15:00+1:00",
            "2026-11-29T10:15:00+15:00",
            "2026-11-29 10:15:00Z",
            "",
        ] {
            assert!(!is_instant(bad), "{bad}");
        }
    }

    #[test]
    fn a_narrative_holds_paragraphs_alone() {
        let div = |inside: &str| format!("<div xmlns=\"http://www.w3.org/1999/xhtml\">{inside}</div>");
        assert!(is_narrative(&div("<p>a &lt; b</p><p>c &amp; d</p>")));
        for bad in [
            "",
            "a",
            "<p></p>",
            "<p>a</p>b",
            "<p>a < b</p>",
            "<p>a & b</p>",
            "<p onclick=\"x\">a</p>",
            "<p>a</p><script>x</script><p>b</p>",
            "<p>&#60;</p>",
            "<p><p>a</p></p>",
        ] {
            assert!(!is_narrative(&div(bad)), "{bad}");
        }
        assert!(!is_narrative("<div><p>a</p></div>"), "without its name space");
    }
}
