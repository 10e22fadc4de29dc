//! The working drawing: three views in standard projection with every size that can stand on
//! them, as data.
//!
//! Two steps. [`draw`] makes a [`Drawing`]: shapes in mm, taken from the exact definition, and
//! the sizes with their anchors. [`layout`] puts it on a sheet of a given width: scale, places of
//! the views, and for every size a place where its text touches no other text. [`svg`] writes
//! what was laid out; the screen and the stored pictures of the tests share it.
//!
//! # Views
//! The large side view shows x to the right and z up, the front face at the right. Above it, on
//! the same axis and scale, a half plan (x right, y up from the axis of symmetry; the whole one
//! where the halves differ: a pein askew, an eye cocked across the head); at its right,
//! level with it, the view of the front face (y across, z up). That is third angle; in first
//! angle the half plan stands below and the face view at the left.
//!
//! # Source
//! Lines after ISO 128-2 and 128-3 (wide for outlines, narrow for inner edges, dashed narrow for
//! hidden edges, long dashed dotted narrow for centre lines, two short strokes across the ends of
//! an axis of symmetry, lines between smooth surfaces drawn short of the outline); sizes after
//! ISO 129-1 (closed filled arrows, value above the line and read from below or from the right,
//! sizes that follow from others in brackets).

use serde::{Deserialize, Serialize};

use crate::design::{Design, Dim, Part};
use crate::mass::MassProperties;
use crate::numeric::order::sort_few;
use crate::solid::{Head, Solid};
use crate::units::System;

mod anchors;
mod board;
mod cut;
mod dimension;
mod face;
mod frame;
mod laid;
mod layout;
mod looks;
mod pein;
mod place;
mod profile;
mod svg;
mod trace;
mod value;

pub use cut::{BESIDE_MM, Cut, Level, Way, cut};
pub use dimension::{Dimension, Form, Key, Lane};
pub use laid::{
    Laid, LaidShape, LaidSize, LaidText, Mark, Note, Rect, Segment, Setting, Still, Style,
};
pub use layout::layout;
pub use looks::{Look, Looks, samples};
pub use svg::{svg, svg_body};
pub use trace::{Said, Trace, Traced, line_under, was, weighs};
pub use value::{Number, State, Value, number};

/// A point of a view in mm: first to the right, second up.
pub type Point = [f64; 2];

/// One of the three views.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum View {
    /// Along the width: x right, z up.
    Side,
    /// Along the handle: x right, y up; one half, away from the axis, where both are alike.
    Plan,
    /// On the front face: y across, z up.
    Face,
}

/// How the views are arranged.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum Projection {
    /// What is seen from a side stands on that side.
    #[default]
    Third,
    /// What is seen from a side stands on the other side.
    First,
}

/// What a line or an area means; width and colour follow.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Stroke {
    /// Area of the steel.
    Steel,
    /// Area of the face, in front of the rest.
    FaceArea,
    /// Area where one sees through the eye.
    Opening,
    /// Hidden edge, narrow and dashed.
    Hidden,
    /// Inner edge, narrow.
    Edge,
    /// Centre line, long dashed dotted narrow.
    Centre,
    /// Outline, wide.
    Outline,
}

/// A line or an area of a view.
#[derive(Clone, Debug, PartialEq)]
pub struct Shape {
    /// The view it stands in.
    pub view: View,
    /// What it means.
    pub stroke: Stroke,
    /// Its points, mm; curves are sampled so that no chord leaves them by more than 0.02 mm.
    pub points: Vec<Point>,
    /// Whether the last point is joined to the first.
    pub closed: bool,
}

/// The least and the greatest coordinates of a view.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Extent {
    /// Least, mm.
    pub low: Point,
    /// Greatest, mm.
    pub high: Point,
}

/// The whole drawing, in mm.
#[derive(Clone, Debug, PartialEq)]
pub struct Drawing {
    /// Areas first, then lines.
    pub shapes: Vec<Shape>,
    /// Every size that can stand on the drawing, in the order of the list on screen, then the
    /// balance and the over-all length.
    pub dimensions: Vec<Dimension>,
    /// What each view takes, in the order side, plan, face.
    pub extents: [Extent; 3],
}

/// Which sizes stand on the sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Show {
    /// The sizes that are always there.
    pub base: Base,
    /// The part whose sizes are there as well.
    pub open: Option<Part>,
    /// The size that is being edited: it is there in any case.
    pub in_hand: Option<Dim>,
}

/// The sizes that are always there.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Base {
    /// Every one.
    All,
    /// Those that say what head it is; the rest come when their part is opened.
    Key,
    /// None: the sizes of the open part alone.
    None,
}

impl Drawing {
    /// Says of the sizes for which `is_wrong` holds that they cannot be.
    #[must_use]
    pub fn with_problems(mut self, mut is_wrong: impl FnMut(Dim) -> bool) -> Self {
        for dimension in &mut self.dimensions {
            if let Key::Size(dim) = dimension.key
                && is_wrong(dim)
            {
                dimension.say(State::Problem("can’t be".to_owned()));
            }
        }
        self
    }

    /// What `view` takes.
    pub fn extent(&self, view: View) -> Extent {
        self.extents[view as usize]
    }

    /// The sizes that `show` asks for.
    pub fn shown(&self, show: Show) -> impl Iterator<Item = &Dimension> {
        self.dimensions
            .iter()
            .filter(move |dimension| dimension.is_shown(show))
    }
}

/// Draws a head.
///
/// `design` is the one that `solid` was built from: it gives names, notation, freedom and holds.
/// `properties` are its mass properties; without them there is no balance on the drawing.
pub fn draw(
    solid: &Solid,
    design: &Design,
    properties: Option<&MassProperties>,
    system: System,
) -> Drawing {
    draw_head(solid.head(), design, properties, system)
}

/// [`draw`] of a head's numbers alone; they must be those of a sound head.
pub fn draw_head(
    head: &Head<f64>,
    design: &Design,
    properties: Option<&MassProperties>,
    system: System,
) -> Drawing {
    let mut shapes = Vec::new();
    let peins = profile::peins(head);
    profile::side(head, &peins, &mut shapes);
    profile::plan(head, &peins, &mut shapes);
    face::face(head, &peins, &mut shapes);
    sort_few(&mut shapes, |shape| f64::from(shape.stroke as u8));
    let extents = [View::Side, View::Plan, View::Face].map(|view| extent(&shapes, view));
    let dimensions = dimension::dimensions(head, design, properties, system);
    Drawing {
        shapes,
        dimensions,
        extents,
    }
}

fn extent(shapes: &[Shape], view: View) -> Extent {
    let points = shapes
        .iter()
        .filter(|shape| shape.view == view)
        .flat_map(|shape| &shape.points);
    let start = Extent {
        low: [0.0; 2],
        high: [0.0; 2],
    };
    points.fold(start, |extent, [x, y]| Extent {
        low: [extent.low[0].min(*x), extent.low[1].min(*y)],
        high: [extent.high[0].max(*x), extent.high[1].max(*y)],
    })
}
