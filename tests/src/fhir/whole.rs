//! What makes a bundle a document: its head first, every part with an address of its own, every reference to one of them.

use serde_json::Value;
use std::collections::BTreeSet;

/// References, by the element that holds them, and what each may lead to.
const LEADS_TO: &[(&str, &[&str])] = &[
    ("subject", &["Patient"]),
    ("patient", &["Patient"]),
    ("author", &["Device"]),
    ("prescriber", &["Practitioner"]),
    ("entry", &["Observation", "VisionPrescription", "DeviceRequest"]),
];

pub(super) fn document(document: &Value, faults: &mut Vec<String>) {
    let entries = document["entry"].as_array().map_or(&[][..], Vec::as_slice);
    let kind = |entry: &Value| entry["resource"]["resourceType"].as_str().unwrap_or_default().to_owned();
    if entries.first().map(kind).as_deref() != Some("Composition") {
        faults.push("a document begins with its composition".into());
    }
    for (only, most) in [("Composition", 1), ("Patient", 1), ("VisionPrescription", 1), ("DeviceRequest", 1)]
    {
        if most < entries.iter().filter(|entry| kind(entry) == only).count() {
            faults.push(format!("more than one {only}"));
        }
    }
    if document["identifier"]["system"] != "urn:ietf:rfc:3986"
        || !document["identifier"]["value"].as_str().is_some_and(is_uuid)
    {
        faults.push("a document has an identifier of its own".into());
    }
    let mut urls = BTreeSet::new();
    for entry in entries {
        let url = entry["fullUrl"].as_str().unwrap_or_default();
        if !is_uuid(url) {
            faults.push(format!("`{url}` is no address in a document"));
        }
        if !urls.insert(url) || document["identifier"]["value"] == url {
            faults.push(format!("`{url}` stands twice"));
        }
        if entry["resource"]["id"].as_str().is_some_and(|id| !url.ends_with(id)) {
            faults.push(format!("the id of {url} is another"));
        }
    }
    let mut named = BTreeSet::new();
    for entry in entries {
        references("", &entry["resource"], &mut |element, to| {
            let target = entries.iter().find(|entry| entry["fullUrl"] == to);
            let allowed = LEADS_TO.iter().find(|(name, _)| *name == element).map(|(_, kinds)| *kinds);
            let leads = target.map(kind);
            match (leads, allowed) {
                (Some(kind), Some(kinds)) if kinds.contains(&kind.as_str()) => {
                    named.insert(to.to_owned());
                }
                (leads, _) => faults.push(format!("`{element}` names {to}, which is {leads:?}")),
            }
        });
    }
    for entry in entries.iter().skip(1) {
        if !entry["fullUrl"].as_str().is_some_and(|url| named.contains(url)) {
            faults.push(format!("nothing names the {}", kind(entry)));
        }
    }
}

/// Every reference, with the element that holds it.
fn references(element: &str, value: &Value, found: &mut impl FnMut(&str, &str)) {
    match value {
        Value::Array(values) => values.iter().for_each(|value| references(element, value, found)),
        Value::Object(object) => {
            if let Some(to) = object.get("reference") {
                found(element, to.as_str().unwrap_or_default());
            }
            for (name, value) in object {
                references(name, value, found);
            }
        }
        _ => {}
    }
}

/// `urn:uuid:` and a random identifier, of version 4 and the usual variant (RFC 4122).
fn is_uuid(url: &str) -> bool {
    let Some(uuid) = url.strip_prefix("urn:uuid:") else { return false };
    let shape = "xxxxxxxx-xxxx-4xxx-yxxx-xxxxxxxxxxxx";
    uuid.len() == shape.len()
        && uuid.bytes().zip(shape.bytes()).all(|(sign, wanted)| match wanted {
            b'x' => matches!(sign, b'0'..=b'9' | b'a'..=b'f'),
            b'y' => matches!(sign, b'8' | b'9' | b'a' | b'b'),
            other => sign == other,
        })
}
