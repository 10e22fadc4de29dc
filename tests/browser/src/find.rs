//! Finding things by the role and the name that a screen reader says.

use serde_json::{Value, json};

use crate::page::{Page, one_line};

/// Something on the page, as a screen reader knows it.
#[derive(Clone, Debug)]
pub struct Found {
    /// "button", "textbox", "combobox", ...
    pub role: String,
    /// What is read out.
    pub name: String,
    /// What a field holds.
    pub value: String,
    /// What further describes it.
    pub description: String,
    /// Whether what it opens is open; nothing when it opens nothing.
    pub expanded: Option<bool>,
    node: u64,
}

/// Where something is in the window, and whether it can be pressed there.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Place {
    /// Left, top, width and height, CSS pixels.
    pub bounds: [f64; 4],
    /// Whether the middle of it is it, and not something that lies over it.
    pub uncovered: bool,
}

impl Place {
    /// Its middle.
    pub fn middle(&self) -> (f64, f64) {
        let [x, y, width, height] = self.bounds;
        (x + width / 2.0, y + height / 2.0)
    }
}

/// Brings `this` into the window and says where it is and what is there.
const SHOW: &str = "function (scroll) {
    if (scroll) this.scrollIntoView({ block: 'center', inline: 'nearest', behavior: 'instant' });
    const { x, y, width, height } = this.getBoundingClientRect();
    const there = document.elementFromPoint(x + width / 2, y + height / 2);
    const label = there && there.closest('label');
    const same = there && (this.contains(there) || (label && label.control === this));
    return { bounds: [x, y, width, height], uncovered: Boolean(same) };
}";

/// Walks from the middle of `this` in the four directions as long as a press would still reach it
/// or its label.
const AREA: &str = "function () {
    const { x, y, width, height } = this.getBoundingClientRect();
    if (width === 0 || height === 0) return [0, 0];
    const [mx, my] = [x + width / 2, y + height / 2];
    const hits = (px, py) => {
        const there = document.elementFromPoint(px, py);
        if (!there) return false;
        const label = there.closest('label');
        return this.contains(there) || Boolean(label && label.control === this);
    };
    const reach = (dx, dy) => {
        let far = 0;
        while (far < 400 && hits(mx + dx * (far + 1), my + dy * (far + 1))) far += 1;
        return far;
    };
    if (!hits(mx, my)) return [width, height];
    return [reach(1, 0) + reach(-1, 0) + 1, reach(0, 1) + reach(0, -1) + 1];
}";

impl Page {
    /// All that has this role, in the order of the page.
    pub fn all(&self, role: &str) -> Vec<Found> {
        let document = self.command("DOM.getDocument", json!({ "depth": 0 }));
        let root = &document["root"]["backendNodeId"];
        let answer = self.command(
            "Accessibility.queryAXTree",
            json!({ "backendNodeId": root, "role": role }),
        );
        let nodes = answer["nodes"].as_array().cloned().unwrap_or_default();
        let text = |value: &Value| one_line(value["value"].as_str().unwrap_or_default());
        nodes
            .iter()
            .filter(|node| node["ignored"] != json!(true))
            .filter_map(|node| {
                Some(Found {
                    role: role.to_owned(),
                    name: text(&node["name"]),
                    value: text(&node["value"]),
                    description: text(&node["description"]),
                    expanded: property(node, "expanded").as_bool(),
                    node: node["backendDOMNodeId"].as_u64()?,
                })
            })
            .collect()
    }

    /// The first with this role whose name is `name`, or begins with it where `name` ends in `…`.
    pub fn find(&self, role: &str, name: &str) -> Option<Found> {
        self.all(role)
            .into_iter()
            .find(|found| is_called(&found.name, name))
    }

    /// Whether there is one.
    pub fn has(&self, role: &str, name: &str) -> bool {
        self.find(role, name).is_some()
    }

    /// Waits until there is one.
    pub fn wait_for(&self, role: &str, name: &str) -> Found {
        let mut found = None;
        self.wait(&format!("there is a {role} “{name}”"), || {
            found = self.find(role, name);
            found.is_some()
        });
        found.expect("it was waited for")
    }

    /// What the field of this name holds.
    pub fn value(&self, name: &str) -> String {
        self.wait_for("textbox", name).value
    }

    /// Waits until the field of this name holds `value`.
    pub fn wait_for_value(&self, name: &str, value: &str) {
        self.wait(&format!("“{name}” holds “{value}”"), || {
            self.find("textbox", name)
                .is_some_and(|field| field.value == value)
        });
    }

    /// The text of the part of the page under this heading.
    pub fn region(&self, name: &str) -> String {
        let region = self.wait_for("region", name);
        self.text_of(&region)
    }

    /// Waits until the part of the page under this heading says `text`.
    pub fn wait_for_region(&self, name: &str, text: &str) {
        self.wait(&format!("“{name}” says “{text}”"), || {
            self.find("region", name)
                .is_some_and(|region| self.text_of(&region).contains(text))
        });
    }

    /// The text of something.
    pub fn text_of(&self, found: &Found) -> String {
        let text = self.of(found, "function () { return this.innerText }", json!([]));
        one_line(text.as_str().unwrap_or_default())
    }

    /// Brings something into the window and says where it is.
    pub fn show(&self, found: &Found) -> Place {
        self.place(found, true)
    }

    /// Says where something is in the window, without moving anything.
    pub fn place_of(&self, found: &Found) -> Place {
        self.place(found, false)
    }

    fn place(&self, found: &Found, scroll: bool) -> Place {
        let place = self.of(found, SHOW, json!([{ "value": scroll }]));
        let bounds = std::array::from_fn(|i| place["bounds"][i].as_f64().unwrap_or(f64::NAN));
        Place {
            bounds,
            uncovered: place["uncovered"] == json!(true),
        }
    }

    /// Width and height of the area that answers to a press.
    pub(crate) fn area_of(&self, found: &Found) -> Value {
        self.of(found, AREA, json!([]))
    }

    /// Calls a function with something as its `this`; nothing when it is gone meanwhile.
    fn of(&self, found: &Found, function: &str, arguments: Value) -> Value {
        let resolve = json!({ "backendNodeId": found.node });
        let Ok(node) = self.wire.browser_command("DOM.resolveNode", &resolve) else {
            return Value::Null;
        };
        let answer = self.command(
            "Runtime.callFunctionOn",
            json!({ "objectId": node["object"]["objectId"], "functionDeclaration": function,
                    "arguments": arguments, "returnByValue": true }),
        );
        answer["result"]["value"].clone()
    }

    /// What has the focus: its role and its name.
    pub fn focused(&self) -> (String, String) {
        let answer = self.command(
            "Runtime.evaluate",
            json!({ "expression": "document.activeElement" }),
        );
        let object = &answer["result"]["objectId"];
        let tree = self.command(
            "Accessibility.getPartialAXTree",
            json!({ "objectId": object, "fetchRelatives": false }),
        );
        let node = &tree["nodes"][0];
        let text = |value: &Value| one_line(value["value"].as_str().unwrap_or_default());
        (text(&node["role"]), text(&node["name"]))
    }
}

/// A property of a node as a screen reader knows it.
fn property(node: &Value, name: &str) -> Value {
    let properties = node["properties"].as_array().into_iter().flatten();
    let mut called = properties.filter(|property| property["name"] == json!(name));
    called
        .next()
        .map(|property| property["value"]["value"].clone())
        .unwrap_or_default()
}

/// Whether `name` is what is `called` for: the same, or a beginning where that ends in `…`.
pub(crate) fn is_called(name: &str, called: &str) -> bool {
    match called.strip_suffix('…') {
        Some(beginning) => name.starts_with(beginning),
        None => name == called,
    }
}
