//! Rules of accessibility, checked by an open engine that runs in the page and is not shipped.

use serde_json::{Value, json};

use crate::find::Found;
use crate::page::Page;

/// Where `npm ci` puts the engine.
const ENGINE: &str = "node_modules/axe-core/axe.min.js";

/// Runs the rules of WCAG 2.0 to 2.2, levels A and AA, on the whole page.
const RUN: &str = "const done = arguments[arguments.length - 1];
axe.run(document, { runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'] })
   .then((result) => done(result.violations), (error) => done([{ id: String(error), nodes: [] }]));";

impl Page {
    /// The rules that the page breaks, each with the places where it does.
    pub fn broken_rules(&self) -> Vec<String> {
        let path = crate::package().join(ENGINE);
        let engine = std::fs::read_to_string(&path).unwrap_or_else(|_| {
            panic!(
                "{} is missing: run `npm ci` in tests/browser",
                path.display()
            )
        });
        if self.script("return typeof axe", json!([])) != json!("object") {
            self.script(&engine, json!([]));
        }
        let violations = self.slow_script(RUN, json!([]));
        let list = |value: &Value| value.as_array().cloned().unwrap_or_default();
        list(&violations)
            .iter()
            .map(|rule| {
                let places: Vec<String> = list(&rule["nodes"])
                    .iter()
                    .map(|node| format!("\n    {} {}", node["html"], node["failureSummary"]))
                    .collect();
                format!(
                    "{} ({}), {} times:{}",
                    rule["id"].as_str().unwrap_or_default(),
                    rule["help"].as_str().unwrap_or_default(),
                    places.len(),
                    places[..places.len().min(3)].concat()
                )
            })
            .collect()
    }

    /// Width and height of the area that answers to a press on something: points from which the
    /// window leads to it or to its label, so that an area made larger than what is drawn counts.
    pub fn press_area(&self, found: &Found) -> [f64; 2] {
        self.show(found);
        let size = self.area_of(found);
        [0, 1].map(|side| size[side].as_f64().unwrap_or_default())
    }
}
