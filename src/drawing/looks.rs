//! How the elements of a drawing look on a page: what its style sheets say, for one who draws elsewhere.

use std::collections::BTreeMap;
use std::fmt::Write;

use serde::{Deserialize, Serialize};

/// How one kind of element looks: properties of SVG and CSS, as a browser computes them.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Look {
    /// A colour, or `none`.
    pub fill: String,
    /// 0 to 1.
    pub fill_opacity: f64,
    /// A colour, or `none`.
    pub stroke: String,
    /// px.
    pub stroke_width: f64,
    /// Lengths of lines and gaps in turn, px; empty for a line without gaps.
    pub dashes: Vec<f64>,
    /// `miter`, `round` or `bevel`.
    pub join: String,
    /// `butt`, `round` or `square`.
    pub cap: String,
    /// 0 to 1.
    pub opacity: f64,
    /// 1 to 1000.
    pub weight: f64,
    /// `start`, `middle` or `end`.
    pub anchor: String,
}

/// Looks by names: of an element and of those around it, from the outside, its class or else its tag, with a stroke
/// between them, as in `size free/value/part`.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Looks(BTreeMap<String, Look>);

impl Looks {
    /// That what has these names looks so.
    pub fn note(&mut self, names: &[&str], look: Look) {
        self.0.insert(names.join("/"), look);
    }

    /// The look of what has these names; nothing when it was not noted.
    pub fn of(&self, names: &[&str]) -> Option<&Look> {
        self.0.get(&names.join("/"))
    }

    /// The looks as JSON.
    pub fn write(&self) -> String {
        // No key of it is anything but a string, the one thing that would not go into JSON.
        serde_json::to_string(self).unwrap_or_default()
    }

    /// Reads what [`Looks::write`] wrote; nothing when it is something else.
    pub fn read(text: &str) -> Option<Self> {
        serde_json::from_str(text).ok()
    }
}

/// One of every element that [`super::svg_body`] and [`super::Traced::body`] write, in every state, to be asked how it looks.
pub fn samples() -> String {
    let mut out = String::new();
    for class in [
        "steel", "face", "opening", "hidden", "edge", "centre", "outline",
    ] {
        let _ = write!(out, "<path class=\"{class}\"/>");
    }
    out.push_str(
        "<text class=\"note\">a</text><rect class=\"dragged-straw\"/><rect class=\"dragged-ink\"/>",
    );
    out.push_str("<text class=\"dragged-was\">a</text><text class=\"dragged-out\">a</text><rect class=\"dragged-ground\"/>");
    let figures =
        "1<tspan class=\"part\">1</tspan><tspan class=\"slash\">/</tspan><tspan>1</tspan>";
    for state in ["free", "locked", "held", "problem", "derived"] {
        for hand in ["", " in-hand"] {
            let _ = write!(
                out,
                "<g class=\"size {state}{hand}\"><path/><path class=\"arrows\"/><circle class=\"dot\"/></g>\
                 <g class=\"size {state}{hand}\"><rect class=\"straw\"/>\
                 <text class=\"value\">{figures}</text><text class=\"value on-straw\">{figures}</text>\
                 <text class=\"word\">a</text>\
                 <g><path class=\"mark\"/><path class=\"pin\"/><circle class=\"ring\"/><circle class=\"eyelet\"/></g></g>"
            );
        }
    }
    out
}
