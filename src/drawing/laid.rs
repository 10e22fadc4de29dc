//! What a laid-out sheet consists of, px.

use serde::{Deserialize, Serialize};

use super::dimension::Key;
use super::value::{State, Value};
use super::{Point, Projection, Show, Stroke};

/// What the sheet is read on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Style {
    /// In the hand: one view, or all three without sizes; larger figures.
    Phone,
    /// On a desk: all three views.
    Desktop,
    /// On a card: all three views, sizes without their states.
    Print,
}

/// What is to be laid out.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Setting {
    /// Width of the sheet, px.
    pub width: f64,
    /// What it is read on.
    pub style: Style,
    /// How the views stand.
    pub projection: Projection,
    /// Which sizes stand on it.
    pub show: Show,
    /// Room kept free for the name in the upper left corner: width and height, px.
    pub title: [f64; 2],
    /// Width and height of the field that covers the size in hand, px; without it the value
    /// itself stands on straw.
    pub field: Option<[f64; 2]>,
    /// How many times as large as on a plain sheet the views may be drawn; `width` grows with it.
    pub zoom: f64,
    /// Where the views stay; nothing lets them fill the sheet.
    pub still: Option<Still>,
}

/// How large the views are drawn and where they stand. Kept while a size is dragged, so that the sheet stands still and
/// an arrow stays under the finger.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Still {
    /// Pixels to the millimetre.
    pub scale: f64,
    /// The handle axis of the side view, px from the left.
    pub side: f64,
    /// The same of the face view.
    pub face: f64,
    /// The axis of the side view, px from the top.
    pub down: f64,
}

/// A rectangle, px.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Rect {
    /// Left edge.
    pub x: f64,
    /// Upper edge.
    pub y: f64,
    /// Width.
    pub w: f64,
    /// Height.
    pub h: f64,
}

impl Rect {
    /// How much of each direction two rectangles share; nothing when they are apart.
    pub fn overlap(&self, other: &Rect) -> Option<f64> {
        let wide = (self.x + self.w).min(other.x + other.w) - self.x.max(other.x);
        let high = (self.y + self.h).min(other.y + other.h) - self.y.max(other.y);
        (wide > 0.0 && high > 0.0).then(|| wide.min(high))
    }

    /// The rectangle grown by `by` on every side.
    pub fn grown(&self, by: f64) -> Rect {
        Rect {
            x: self.x - by,
            y: self.y - by,
            w: self.w + 2.0 * by,
            h: self.h + 2.0 * by,
        }
    }

    /// Whether `line` has a point inside.
    pub fn is_crossed(&self, line: &Segment) -> bool {
        // Liang and Barsky: what is left of the line after cutting at the four edges.
        let (mut enter, mut leave) = (0.0_f64, 1.0_f64);
        let edges = [(self.x, self.w), (self.y, self.h)];
        for (axis, (low, size)) in edges.into_iter().enumerate() {
            let (from, way) = (line.from[axis], line.to[axis] - line.from[axis]);
            if way == 0.0 {
                if from <= low || from >= low + size {
                    return false;
                }
                continue;
            }
            let (a, b) = ((low - from) / way, (low + size - from) / way);
            enter = enter.max(a.min(b));
            leave = leave.min(a.max(b));
        }
        enter < leave
    }
}

/// A straight line, px.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Segment {
    /// One end.
    pub from: Point,
    /// The other; for an arrow its tip.
    pub to: Point,
}

/// Which mark stands before the word.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Mark {
    /// None.
    None,
    /// Two outward arrowheads.
    Free,
    /// A driven pin.
    Locked,
    /// A witness mark.
    Held,
    /// A crack.
    Problem,
    /// A pencil.
    InHand,
}

/// The text of a size on its line.
#[derive(Clone, Debug, PartialEq)]
pub struct LaidText {
    /// The middle of the text, on the line, px.
    pub at: Point,
    /// Whether it is read from the right.
    pub upright: bool,
    /// Whether the mark stands under the line without its word.
    pub compact: bool,
    /// What it covers, px.
    pub rect: Rect,
}

/// A size where it stands.
#[derive(Clone, Debug, PartialEq)]
pub struct LaidSize {
    /// What it is.
    pub key: Key,
    /// Its text.
    pub value: Value,
    /// What it is to the fit.
    pub state: State,
    /// Its mark.
    pub mark: Mark,
    /// The word under the line.
    pub word: String,
    /// What is read aloud.
    pub spoken: String,
    /// Whether it is being edited.
    pub in_hand: bool,
    /// Dimension, extension and leader lines.
    pub lines: Vec<Segment>,
    /// Arrows, each with its tip at `to`; only the direction of the rest counts.
    pub arrows: Vec<Segment>,
    /// The witness dot of the balance.
    pub dot: Option<Point>,
    /// Its text.
    pub text: LaidText,
    /// What answers a press: at least 44 × 44 px.
    pub press: Rect,
}

/// A line or an area on the sheet.
#[derive(Clone, Debug, PartialEq)]
pub struct LaidShape {
    /// What it means.
    pub stroke: Stroke,
    /// Its points, px.
    pub points: Vec<Point>,
    /// Whether it is closed.
    pub closed: bool,
}

/// A remark on the sheet.
#[derive(Clone, Debug, PartialEq)]
pub struct Note {
    /// Left end of the first baseline, px.
    pub at: Point,
    /// Its lines.
    pub lines: Vec<&'static str>,
}

/// The drawing on its sheet, px: x to the right, y down.
#[derive(Clone, Debug, PartialEq)]
pub struct Laid {
    /// Width of the sheet.
    pub width: f64,
    /// Height that it takes.
    pub height: f64,
    /// How large the views are drawn and where they stand.
    pub still: Still,
    /// Size of the figures.
    pub figures: f64,
    /// Size of the words.
    pub words: f64,
    /// Areas and lines of the views.
    pub shapes: Vec<LaidShape>,
    /// The sizes, in the order of the list on screen.
    pub sizes: Vec<LaidSize>,
    /// Remarks.
    pub notes: Vec<Note>,
    /// Where the field of the size in hand stands.
    pub field: Option<Rect>,
}
