//! What is to be made: plain data, edited by one closed set of edits, checked in one place.
//!
//! A [`Design`] may be out of bounds or impossible; [`Design::build`] turns it into a
//! [`Solid`](crate::solid::Solid) or says everything that is wrong with it.

use std::collections::{BTreeMap, BTreeSet};

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::bar::Bar;
use crate::handle::Handle;
use crate::heat::Heat;
use crate::units::{Angle, Density, Length, Measure};

mod alike;
mod bounds;
pub(crate) mod build;
mod dim;
mod edit;
mod error;
mod file;
mod hand;
mod hold;
mod proportion;
mod purpose;
mod starters;
mod tip_shape;

pub use bounds::{Bounds, LONGEST_NAME, LONGEST_NOTE, bounds};
pub use dim::{Dim, ParseDimError, Part, Side, Size};
pub use edit::Edit;
pub use error::DesignError;
pub(crate) use error::{length_in_words, refused_length};
pub(crate) use file::short_fault;
pub use file::{DesignFile, FORMAT, FileError, SCHEMA_ID, VERSION, schema};
pub use hold::{Hold, Holds, Quantity};
pub use purpose::Purpose;
pub use starters::{starter, starter_names, starter_purpose};
pub use tip_shape::TipShape;

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
    /// The dimensions a fit may move, each between its limits. All others are locked. A file that
    /// leaves this out frees both reaches and the cheeks' width and height.
    #[serde(default)]
    pub free: BTreeMap<Dim, Range>,
    /// The sizes of the back that are as the same size of the front: both have one value, and a
    /// fit moves both or neither, as the front's is free or locked. A file that leaves this out
    /// ties all that have the same value.
    #[serde(default)]
    pub alike: BTreeSet<Dim>,
    /// The bar the head is cut from, and what is lost on the way.
    pub bar: Bar,
    /// The handle that the head is hung on. A file that leaves this out has the usual one for its head.
    #[serde(default)]
    pub handle: Handle,
    /// The steel, and how the head is hardened and tempered. A file that leaves this out has 1045, treated as usual.
    #[serde(default)]
    pub heat: Heat,
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
    /// How much further out each side stands at the handle axis than at the block's ends; left
    /// out, the sides are straight.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub swell: Option<Length>,
    /// Lugs above and below the eye, where there are any.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub lugs: Option<Lugs>,
}

/// Lugs: the block grows towards the mouths of the eye, so that the handle is held longer.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Lugs {
    /// Length along the head, half of it on either side of the handle axis.
    pub length: Length,
    /// Height of the upper lug on the handle axis.
    pub top: Length,
    /// Height of the lower lug on the handle axis.
    pub bottom: Length,
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
    /// How the wall runs from the waist to the mouths.
    #[serde(default, skip_serializing_if = "Wall::is_straight")]
    pub wall: Wall,
    /// Lean of the handle towards the front: the angle by which the eye is cocked along the head.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub cock_along: Option<Angle>,
    /// Lean of the handle towards +y: the angle by which the eye is cocked across the head.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub cock_across: Option<Angle>,
    /// Size of the broken corner at both mouths; left out, they are sharp.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub mouth_break: Option<Length>,
}

/// How the wall of the eye runs from the waist to the mouths.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Wall {
    /// In straight lines, with a ridge at the waist.
    #[default]
    Straight,
    /// In arcs that are level at the waist.
    Arc,
}

impl Wall {
    fn is_straight(&self) -> bool {
        *self == Self::Straight
    }
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
    /// How steeply the end's axis falls from the block's end outwards; left out, it is level.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub drop: Option<Angle>,
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
    /// A pein: a wedge with a rounded edge.
    Pein(Pein),
}

/// A pein: an arm that runs from its own station to the edge, cut by a slab that narrows to the
/// nose.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Pein {
    /// Distance from the handle axis at which the pein begins.
    pub at: Length,
    /// The section there.
    #[serde(flatten)]
    pub outline: Outline,
    /// How far the edge is turned about the head: 0° lies across the handle, 90° along it.
    pub direction: Angle,
    /// Length of the edge.
    pub edge: Length,
    /// Radius of the nose.
    pub nose: Length,
    /// Radius by which the edge is curved along its length; left out, it is straight.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub rocker: Option<Length>,
    /// Depth of the hollow in both slopes; left out, they are straight.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub hollow: Option<Length>,
    /// Radius by which the two sharp ends of the edge are broken.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub corner_break: Option<Length>,
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

/// The limits between which a fit may move a dimension.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Range {
    /// The least value.
    pub low: Measure,
    /// The greatest value.
    pub high: Measure,
}

impl Range {
    /// From `low` to `high`.
    pub fn new(low: impl Into<Measure>, high: impl Into<Measure>) -> Self {
        Self {
            low: low.into(),
            high: high.into(),
        }
    }
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
    ///
    /// A visitor changes the number, never the kind: what it turns from a length into an angle
    /// stays as it was.
    pub fn visit_sizes(&mut self, visit: &mut dyn FnMut(Dim, &mut Measure)) {
        let mut visit = Visit(visit);
        let cheeks = &mut self.cheeks;
        visit.length(Part::Cheeks, Size::Length, &mut cheeks.length);
        cheeks.outline.visit_sizes(Part::Cheeks, &mut visit);
        visit.length(Part::Cheeks, Size::Offset, &mut cheeks.offset);
        visit.lengths(Part::Cheeks, Size::Swell, &mut cheeks.swell);
        if let Some(lugs) = &mut cheeks.lugs {
            visit.length(Part::Lugs, Size::Length, &mut lugs.length);
            visit.length(Part::Lugs, Size::Top, &mut lugs.top);
            visit.length(Part::Lugs, Size::Bottom, &mut lugs.bottom);
        }
        let eye = &mut self.eye;
        for (part, level) in [
            (Part::EyeTop, &mut eye.top),
            (Part::EyeWaist, &mut eye.waist),
            (Part::EyeBottom, &mut eye.bottom),
        ] {
            level.visit_sizes(eye.outline, part, &mut visit);
        }
        visit.length(Part::Eye, Size::WaistHeight, &mut eye.waist_height);
        visit.lengths(Part::Eye, Size::MouthBreak, &mut eye.mouth_break);
        visit.angles(Part::Eye, Size::CockAlong, &mut eye.cock_along);
        visit.angles(Part::Eye, Size::CockAcross, &mut eye.cock_across);
        for side in Side::BOTH {
            let end = self.end_mut(side);
            for (index, neck) in end.necks.iter_mut().enumerate() {
                let part = Part::Neck(side, index as u8);
                visit.length(part, Size::At, &mut neck.at);
                neck.outline.visit_sizes(part, &mut visit);
            }
            visit.length(Part::End(side), Size::Reach, &mut end.reach);
            visit.angles(Part::End(side), Size::Drop, &mut end.drop);
            match &mut end.tip {
                Tip::Face(face) => face.visit_sizes(Part::Face(side), &mut visit),
                Tip::Ball(ball) => {
                    let part = Part::Ball(side);
                    visit.length(part, Size::Diameter, &mut ball.diameter);
                    visit.length(part, Size::Neck, &mut ball.neck);
                }
                Tip::Pein(pein) => pein.visit_sizes(Part::Pein(side), &mut visit),
            }
        }
    }

    /// Every dimension that the design has, with its value, in the order of the list on screen.
    pub fn sizes(&self) -> Vec<(Dim, Measure)> {
        let mut sizes = Vec::with_capacity(40);
        // One list of dimensions serves reading and writing; a copy is cheap beside a picture.
        self.clone()
            .visit_sizes(&mut |dim, size| sizes.push((dim, *size)));
        sizes
    }

    /// The value of `dim`, or nothing when the design has no such dimension.
    pub fn size(&self, dim: Dim) -> Option<Measure> {
        self.sizes()
            .into_iter()
            .find(|(other, _)| *other == dim)
            .map(|(_, size)| size)
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

    fn visit_sizes(&mut self, part: Part, visit: &mut Visit) {
        visit.length(part, Size::Width, &mut self.width);
        visit.lengths(part, Size::Height, &mut self.height);
        match &mut self.corner {
            Corner::Sharp | Corner::Octagon | Corner::Round => {}
            Corner::Chamfer { size } => visit.length(part, Size::Corner, size),
            Corner::Rounded { radius } => visit.length(part, Size::Corner, radius),
            Corner::Conic { across, up, .. } => {
                visit.length(part, Size::CornerAcross, across);
                visit.length(part, Size::CornerUp, up);
            }
        }
    }
}

impl EyeLevel {
    fn visit_sizes(&mut self, outline: EyeOutline, part: Part, visit: &mut Visit) {
        visit.length(part, Size::Length, &mut self.length);
        if outline != EyeOutline::Round {
            visit.lengths(part, Size::Width, &mut self.width);
        }
        if outline == EyeOutline::RoundedRectangle {
            visit.lengths(part, Size::Radius, &mut self.radius);
        }
    }
}

impl Face {
    fn visit_sizes(&mut self, part: Part, visit: &mut Visit) {
        self.outline.visit_sizes(part, visit);
        visit.length(part, Size::Land, &mut self.land);
        if let Crown::Radius(radius) = &mut self.crown {
            visit.length(part, Size::Crown, radius);
        }
        match &mut self.edge {
            Edge::Sharp => {}
            Edge::Rounded(size) | Edge::Chamfered(size) => visit.length(part, Size::Edge, size),
        }
    }
}

impl Pein {
    fn visit_sizes(&mut self, part: Part, visit: &mut Visit) {
        visit.length(part, Size::At, &mut self.at);
        self.outline.visit_sizes(part, visit);
        visit.angle(part, Size::Direction, &mut self.direction);
        visit.length(part, Size::Edge, &mut self.edge);
        visit.length(part, Size::Nose, &mut self.nose);
        visit.lengths(part, Size::Rocker, &mut self.rocker);
        visit.lengths(part, Size::Hollow, &mut self.hollow);
        visit.lengths(part, Size::CornerBreak, &mut self.corner_break);
    }
}

/// A visitor of sizes, and how it is shown a length or an angle.
struct Visit<'a>(&'a mut dyn FnMut(Dim, &mut Measure));

impl Visit<'_> {
    fn length(&mut self, part: Part, size: Size, length: &mut Length) {
        let mut shown = Measure::Length(*length);
        (self.0)(part.size(size), &mut shown);
        if let Measure::Length(changed) = shown {
            *length = changed;
        }
    }

    fn angle(&mut self, part: Part, size: Size, angle: &mut Angle) {
        let mut shown = Measure::Angle(*angle);
        (self.0)(part.size(size), &mut shown);
        if let Measure::Angle(changed) = shown {
            *angle = changed;
        }
    }

    /// A length that a design may do without.
    fn lengths(&mut self, part: Part, size: Size, length: &mut Option<Length>) {
        if let Some(length) = length {
            self.length(part, size, length);
        }
    }

    /// An angle that a design may do without.
    fn angles(&mut self, part: Part, size: Size, angle: &mut Option<Angle>) {
        if let Some(angle) = angle {
            self.angle(part, size, angle);
        }
    }
}
