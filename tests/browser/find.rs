//! Finding things the way people do: by role and name from the browser's own accessibility tree.
//!
//! Each function waits for exactly one match and otherwise lists what is there.
//! What is hidden from assistive technology is not found.

use crate::driver::{ElementId, Refusal};
use crate::page::{Element, Place, plain_spaces};
use crate::wait::{SOON, within};
use serde_json::{Value, json};

/// A control by its label, whatever its kind.
#[track_caller]
pub(crate) fn label<'p>(place: &'p impl Place, name: &str) -> Element<'p> {
    one(place, None, name)
}

/// An element by its ARIA role and its accessible name.
#[track_caller]
pub(crate) fn role<'p>(place: &'p impl Place, role: &str, name: &str) -> Element<'p> {
    one(place, Some(role), name)
}

/// A group of controls by its name (a `fieldset` by its `legend`), to look inside.
#[track_caller]
pub(crate) fn group<'p>(place: &'p impl Place, name: &str) -> Element<'p> {
    one(place, Some("group"), name)
}

/// An element by the `id` in the document, shown or not.
#[track_caller]
pub(crate) fn id<'p>(place: &'p impl Place, id: &str) -> Element<'p> {
    within(SOON, &format!("an element with id {id:?}"), || {
        let body = "return document.getElementById(arguments[0])";
        let found = place.page().try_script(body, &[json!(id)]).map_err(|refusal| refusal.to_string())?;
        let id = ElementId::from_json(&found).ok_or("none")?;
        Ok(Element { page: place.page(), id })
    })
}

/// All elements for a CSS selector at this moment.
#[track_caller]
pub(crate) fn all<'p>(place: &'p impl Place, css: &str) -> Vec<Element<'p>> {
    let body = "return [...(arguments[1] ?? document).querySelectorAll(arguments[0])]";
    let inside = place.inside().map_or(Value::Null, ElementId::to_json);
    let found = place.page().script(body, &[json!(css), inside]);
    let ids = found.as_array().into_iter().flatten().filter_map(ElementId::from_json);
    ids.map(|id| Element { page: place.page(), id }).collect()
}

/// Names of all elements of a role at this moment, in document order.
#[track_caller]
pub(crate) fn names(place: &impl Place, role: &str) -> Vec<String> {
    let nodes = nodes(place, Some(role)).unwrap_or_else(|refusal| panic!("role {role}: {refusal}"));
    nodes.into_iter().map(|node| node.name).collect()
}

/// What a person can operate; a plain word on the page may have the same name as a control.
const CONTROLS: &[&str] = &[
    "button",
    "checkbox",
    "combobox",
    "link",
    "listbox",
    "menuitem",
    "option",
    "radio",
    "searchbox",
    "slider",
    "spinbutton",
    "switch",
    "tab",
    "textbox",
    "group",
    "radiogroup",
];

struct Node {
    role: String,
    name: String,
    backend: u64,
}

#[track_caller]
fn one<'p>(place: &'p impl Place, role: Option<&str>, name: &str) -> Element<'p> {
    let wanted = format!("one {} named {name:?}", role.unwrap_or("control"));
    within(SOON, &wanted, || {
        let nodes = nodes(place, role).map_err(|refusal| refusal.to_string())?;
        let fits = |node: &&Node| node.name == name && (role.is_some() || is_labelled(&node.role));
        let found: Vec<&Node> = nodes.iter().filter(fits).collect();
        match found[..] {
            [node] => element(place, node).map_err(|refusal| refusal.to_string()),
            [] => Err(listed(&nodes, role.is_none())),
            _ => Err(format!("{} of them; look inside a group", found.len())),
        }
    })
}

fn is_labelled(role: &str) -> bool {
    // A file chooser shows as a button.
    CONTROLS.contains(&role)
}

fn listed(nodes: &[Node], controls_only: bool) -> String {
    let shown: Vec<String> = nodes
        .iter()
        .filter(|node| !controls_only || is_labelled(&node.role))
        .map(|node| format!("{} {:?}", node.role, node.name))
        .collect();
    format!("[{}]", shown.join(", "))
}

fn nodes(place: &impl Place, role: Option<&str>) -> Result<Vec<Node>, Refusal> {
    let page = place.page();
    let mut query = match place.inside() {
        None => {
            let document = page.try_cdp("DOM.getDocument", json!({ "depth": 0 }))?;
            json!({ "backendNodeId": document["root"]["backendNodeId"] })
        }
        Some(id) => {
            page.try_script("window.arcminuteFound = arguments[0]", &[id.to_json()])?;
            let held = page.try_cdp("Runtime.evaluate", json!({ "expression": "window.arcminuteFound" }))?;
            json!({ "objectId": held["result"]["objectId"] })
        }
    };
    if let Some(role) = role {
        query["role"] = json!(role);
    }
    let answer = page.try_cdp("Accessibility.queryAXTree", query)?;
    let seen = answer["nodes"].as_array().into_iter().flatten();
    Ok(seen.filter(|node| node["ignored"] != json!(true)).filter_map(read_node).collect())
}

fn read_node(node: &Value) -> Option<Node> {
    Some(Node {
        role: node["role"]["value"].as_str()?.to_owned(),
        name: plain_spaces(node["name"]["value"].as_str().unwrap_or_default()),
        backend: node["backendDOMNodeId"].as_u64()?,
    })
}

/// The protocol has no command from one kind of number to the other, so the page holds the element between.
fn element<'p>(place: &'p impl Place, node: &Node) -> Result<Element<'p>, Refusal> {
    let page = place.page();
    let held = page.try_cdp("DOM.resolveNode", json!({ "backendNodeId": node.backend }))?;
    page.try_cdp(
        "Runtime.callFunctionOn",
        json!({
            "objectId": held["object"]["objectId"],
            "functionDeclaration": "function () { window.arcminuteFound = this }",
        }),
    )?;
    let found = page.try_script("return window.arcminuteFound", &[])?;
    let id = ElementId::from_json(&found).ok_or_else(|| Refusal {
        error: "not an element".into(),
        message: format!("{} {:?}", node.role, node.name),
    })?;
    Ok(Element { page, id })
}
