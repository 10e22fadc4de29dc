//! What is to be made: plain data, edited by one closed set of edits, checked in one place.
//!
//! A [`Design`] may be out of bounds or impossible; [`Design::build`] turns it into a
//! [`Solid`](crate::solid::Solid) or says everything that is wrong with it.

use std::collections::BTreeMap;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::bar::Bar;
use crate::units::{Density, Length, Mass};

mod bounds;
pub(crate) mod build;
mod dim;
mod edit;
mod error;
mod file;
mod starters;

pub use bounds::{Bounds, LONGEST_NAME, LONGEST_NOTE, bounds};
pub use dim::{Dim, ParseDimError, Part, Side, Size};
pub use edit::Edit;
pub use error::DesignError;
pub(crate) use error::length_in_words;
pub use file::{DesignFile, FORMAT, FileError, SCHEMA_ID, VERSION, schema};
pub use starters::{starter, starter_names};

/// The most necks an end may have.
pub const MOST_NECKS: usize = 2;

/// A hammer head as the smith describes it, with what is to be held, what may move and what
/// bar it is cut from.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Design {
    /// The head's name.
    pub name: String,
    /// A note to whoever opens the design.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub note: String,
    /// Density of the steel.
    pub density: Density,
    /// The block in the middle, which the eye pierces.
    pub cheeks: Cheeks,
    /// The hole for the handle.
    pub eye: Eye,
    /// The end that points along +x.
    pub front: End,
    /// The end that points along −x.
    pub back: End,
    /// What a fit keeps.
    #[serde(default)]
    pub holds: Holds,
    /// The dimensions a fit may move, each between its limits. All others are locked.
    #[serde(default)]
    pub free: BTreeMap<Dim, Range>,
    /// The bar the head is cut from, and what is lost on the way.
    pub bar: Bar,
}

/// The cheek block.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Cheeks {
    /// Length along the head.
    pub length: Length,
    /// Section across the head: width across the cheeks, height along the handle.
    #[serde(flatten)]
    pub outline: Outline,
    /// How far the eye lies in front of the block's middle.
    pub offset: Length,
}

/// A section: a rectangle with worked corners.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Outline {
    /// Full width across the head (y).
    pub width: Length,
    /// Full height along the handle (z); left out when it is to follow the width, so that a
    /// square stays square and a round stays round.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub height: Option<Length>,
    /// What is done to the four corners.
    pub corner: Corner,
}

/// How the corners of a section are worked.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum Corner {
    /// Left square.
    Sharp,
    /// Cut off straight, the same size across and up.
    Chamfer {
        /// Leg of the chamfer.
        size: Length,
    },
    /// Cut so that the section is an octagon (regular when width and height are equal).
    Octagon,
    /// Rounded by a quarter circle.
    Rounded {
        /// Radius of the corner.
        radius: Length,
    },
    /// Rounded all the way: a circle, or an ellipse when width and height differ.
    Round,
    /// Any corner of the family: a conic between the two flats.
    Conic {
        /// Size of the corner across the head.
        across: Length,
        /// Size of the corner along the handle.
        up: Length,
        /// Weight of the conic: 0 a straight cut, 0.7071 a part of an ellipse, at most 0.95.
        weight: f64,
    },
}

/// The eye: an outline in planes across the handle, narrowest at the waist.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Eye {
    /// Kind of outline, the same at every level.
    pub outline: EyeOutline,
    /// The mouth on the wedge side (+z).
    pub top: EyeLevel,
    /// The narrowest level.
    pub waist: EyeLevel,
    /// The mouth on the grip side (−z).
    pub bottom: EyeLevel,
    /// Height of the waist above the middle of the cheek block.
    pub waist_height: Length,
}

/// Kind of outline of the eye.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum EyeOutline {
    /// A circle.
    Round,
    /// An ellipse.
    Ellipse,
    /// Two half circles joined by straights along the head.
    Obround,
    /// A rectangle with rounded corners.
    RoundedRectangle,
}

/// The eye's outline at one level.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct EyeLevel {
    /// Length along the head; the diameter of a round eye.
    pub length: Length,
    /// Width across the cheeks; left out it is as the length. A round eye has none.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub width: Option<Length>,
    /// Corner radius of a rounded rectangle; left out it is half the width.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub radius: Option<Length>,
}

/// One end of the head, from the cheek block outwards.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct End {
    /// Sections between the block and the tip, from the block outwards; at most two.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    #[schemars(length(max = 2))]
    pub necks: Vec<Neck>,
    /// How the last run, into the tip, goes over.
    pub transition: Transition,
    /// Distance of the farthest point from the handle axis; for a face, the face offset.
    pub reach: Length,
    /// What the end is worked into.
    #[serde(flatten)]
    pub tip: Tip,
}

/// A section at its own distance from the handle axis.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Neck {
    /// Distance from the handle axis.
    pub at: Length,
    /// The section there.
    #[serde(flatten)]
    pub outline: Outline,
    /// How the run that leads here from the inside goes over.
    pub transition: Transition,
}

/// How one section goes over into the next.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Transition {
    /// In straight lines.
    Straight,
    /// In an S, level at both sections.
    Smooth,
}

/// What an end is worked into.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum Tip {
    /// A striking face.
    Face(Face),
    /// A ball on a neck.
    Ball(Ball),
}

/// A ball: part of a sphere that begins at a round neck.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Ball {
    /// Diameter of the sphere.
    pub diameter: Length,
    /// Diameter of the neck where it meets the sphere.
    pub neck: Length,
}

/// A striking face.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Face {
    /// Outline of the face.
    #[serde(flatten)]
    pub outline: Outline,
    /// Length of the straight run behind the face, along the top line of the side view, to the
    /// sharp corner with the crown.
    pub land: Length,
    /// How the face is crowned.
    pub crown: Crown,
    /// How the rim is broken.
    pub edge: Edge,
}

/// How a face is crowned.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Crown {
    /// Not at all.
    Flat,
    /// As part of a sphere of this radius.
    Radius(Length),
}

/// How the rim of a face is broken.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Edge {
    /// Left sharp.
    Sharp,
    /// By a quarter round of this radius.
    Rounded(Length),
    /// By a 45° chamfer of this leg.
    Chamfered(Length),
}

/// The targets a fit keeps.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Holds {
    /// Finished mass.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub mass: Option<Hold<Mass>>,
    /// Balance: centroid in front of the handle axis.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub balance: Option<Hold<Length>>,
}

/// One target.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(untagged, deny_unknown_fields)]
pub enum Hold<Q> {
    /// A value, and how far off it may be; without a tolerance 0.1 g or 0.01 mm.
    About {
        /// The value.
        value: Q,
        /// How far off it may be, either way.
        #[serde(skip_serializing_if = "Option::is_none")]
        tolerance: Option<Q>,
    },
    /// Anything between two values.
    Between {
        /// The least.
        low: Q,
        /// The most.
        high: Q,
    },
}

/// The limits between which a fit may move a dimension.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Range {
    /// The least value.
    pub low: Length,
    /// The greatest value.
    pub high: Length,
}

impl Design {
    /// The end on `side`.
    pub fn end(&self, side: Side) -> &End {
        match side {
            Side::Front => &self.front,
            Side::Back => &self.back,
        }
    }

    /// The end on `side`, to be changed.
    pub fn end_mut(&mut self, side: Side) -> &mut End {
        match side {
            Side::Front => &mut self.front,
            Side::Back => &mut self.back,
        }
    }

    /// Calls `visit` on every dimension that the design has, in the order of the list on screen.
    pub fn visit_sizes(&mut self, visit: &mut dyn FnMut(Dim, &mut Length)) {
        let cheeks = &mut self.cheeks;
        visit(Part::Cheeks.size(Size::Length), &mut cheeks.length);
        cheeks.outline.visit_sizes(Part::Cheeks, visit);
        visit(Part::Cheeks.size(Size::Offset), &mut cheeks.offset);
        let outline = self.eye.outline;
        for (part, level) in [
            (Part::EyeTop, &mut self.eye.top),
            (Part::EyeWaist, &mut self.eye.waist),
            (Part::EyeBottom, &mut self.eye.bottom),
        ] {
            level.visit_sizes(outline, part, visit);
        }
        visit(
            Part::Eye.size(Size::WaistHeight),
            &mut self.eye.waist_height,
        );
        for side in Side::BOTH {
            let end = self.end_mut(side);
            for (index, neck) in end.necks.iter_mut().enumerate() {
                let part = Part::Neck(side, index as u8);
                visit(part.size(Size::At), &mut neck.at);
                neck.outline.visit_sizes(part, visit);
            }
            visit(Part::End(side).size(Size::Reach), &mut end.reach);
            match &mut end.tip {
                Tip::Face(face) => face.visit_sizes(Part::Face(side), visit),
                Tip::Ball(ball) => {
                    let part = Part::Ball(side);
                    visit(part.size(Size::Diameter), &mut ball.diameter);
                    visit(part.size(Size::Neck), &mut ball.neck);
                }
            }
        }
    }

    /// Every dimension that the design has, with its value, in the order of the list on screen.
    pub fn sizes(&self) -> Vec<(Dim, Length)> {
        let mut sizes = Vec::with_capacity(40);
        // One list of dimensions serves reading and writing; a copy is cheap beside a picture.
        self.clone()
            .visit_sizes(&mut |dim, length| sizes.push((dim, *length)));
        sizes
    }

    /// The value of `dim`, or nothing when the design has no such dimension.
    pub fn size(&self, dim: Dim) -> Option<Length> {
        self.sizes()
            .into_iter()
            .find(|(other, _)| *other == dim)
            .map(|(_, length)| length)
    }

    /// Whether a fit may move `dim`.
    pub fn is_free(&self, dim: Dim) -> bool {
        self.free.contains_key(&dim)
    }
}

impl Outline {
    /// A round, square or octagonal section: height follows width.
    pub fn equal(width: Length, corner: Corner) -> Self {
        Self {
            width,
            height: None,
            corner,
        }
    }

    /// A section with its own height.
    pub fn new(width: Length, height: Length, corner: Corner) -> Self {
        Self {
            width,
            height: Some(height),
            corner,
        }
    }

    fn visit_sizes(&mut self, part: Part, visit: &mut dyn FnMut(Dim, &mut Length)) {
        visit(part.size(Size::Width), &mut self.width);
        if let Some(height) = &mut self.height {
            visit(part.size(Size::Height), height);
        }
        match &mut self.corner {
            Corner::Sharp | Corner::Octagon | Corner::Round => {}
            Corner::Chamfer { size } => visit(part.size(Size::Corner), size),
            Corner::Rounded { radius } => visit(part.size(Size::Corner), radius),
            Corner::Conic { across, up, .. } => {
                visit(part.size(Size::CornerAcross), across);
                visit(part.size(Size::CornerUp), up);
            }
        }
    }
}

impl EyeLevel {
    fn visit_sizes(
        &mut self,
        outline: EyeOutline,
        part: Part,
        visit: &mut dyn FnMut(Dim, &mut Length),
    ) {
        visit(part.size(Size::Length), &mut self.length);
        if outline != EyeOutline::Round
            && let Some(width) = &mut self.width
        {
            visit(part.size(Size::Width), width);
        }
        if outline == EyeOutline::RoundedRectangle
            && let Some(radius) = &mut self.radius
        {
            visit(part.size(Size::Radius), radius);
        }
    }
}

impl Face {
    fn visit_sizes(&mut self, part: Part, visit: &mut dyn FnMut(Dim, &mut Length)) {
        self.outline.visit_sizes(part, visit);
        visit(part.size(Size::Land), &mut self.land);
        if let Crown::Radius(radius) = &mut self.crown {
            visit(part.size(Size::Crown), radius);
        }
        match &mut self.edge {
            Edge::Sharp => {}
            Edge::Rounded(size) | Edge::Chamfered(size) => visit(part.size(Size::Edge), size),
        }
    }
}
