//! Scale of the sheet and places of the views on it.

use super::dimension::{Dimension, Form, Key, Lane};
use super::laid::{LaidShape, Setting, Still, Style};
use super::{Drawing, Extent, Point, Projection, Stroke, View};

/// Lengths of the sheet that depend on what it is read on, px.
#[derive(Clone, Copy, Debug)]
pub(super) struct Metrics {
    /// Size of the figures.
    pub figures: f64,
    /// Size of the words.
    pub words: f64,
    /// From the outline to the first dimension line.
    pub first: f64,
    /// From one dimension line to the next.
    pub next: f64,
    /// Above the line.
    pub above: f64,
    /// Above the line when the value stands on straw.
    pub straw: f64,
    /// Below it.
    pub below: f64,
}

impl Metrics {
    pub fn new(style: Style) -> Self {
        match style {
            Style::Desktop => Self {
                figures: 22.0,
                words: 14.5,
                first: 34.0,
                next: 50.0,
                above: 24.0,
                straw: 40.0,
                below: 21.0,
            },
            // Without words below the lines.
            Style::Print => Self {
                figures: 22.0,
                words: 14.5,
                first: 34.0,
                next: 34.0,
                above: 24.0,
                straw: 24.0,
                below: 21.0,
            },
            Style::Phone => Self {
                figures: 24.0,
                words: 16.0,
                first: 36.0,
                next: 54.0,
                above: 26.0,
                straw: 40.0,
                below: 23.0,
            },
        }
    }
}

/// Between the edge of the sheet and all text, px.
pub(super) const MARGIN: f64 = 6.0;
/// Largest scales, px per mm: beyond them a head no longer fits a screen's height.
const LARGEST: (f64, f64) = (6.0, 4.0);
/// From the side view to the face view: a crown's leader stands between them.
const BETWEEN: f64 = 120.0;
/// From the half plan to the side view: the balance stands between them.
const APART: f64 = 112.0;
/// The same on a card, which has no words below its lines.
const APART_PRINT: f64 = 72.0;
/// The same without a balance.
const APART_PLAIN: f64 = 48.0;
/// How far a centre line runs beyond its outline.
const BEYOND: f64 = 9.0;
/// The same of an axis of symmetry with its strokes.
pub(super) const BEYOND_AXIS: f64 = 20.0;
/// Length of the strokes across the ends of an axis of symmetry, and their distance.
const STROKES: (f64, f64) = (18.0, 5.0);
/// Scale and places of the views on the sheet.
pub(super) struct Frame {
    /// Pixels to the millimetre.
    pub scale: f64,
    /// Where the views' origins stand, px.
    pub side: Point,
    /// The same of the half plan.
    pub plan: Point,
    /// The same of the face view.
    pub face: Point,
    /// −1 when the half plan stands above the side view, 1 when below.
    pub way: f64,
    /// What the views take, mm.
    pub extents: [Extent; 3],
    /// Sizes of letters and distances.
    pub metrics: Metrics,
    /// Width of the sheet, px.
    pub width: f64,
}

impl Frame {
    /// How large the views are drawn and where they stand, when the side view's axis is `down` from the top.
    pub fn still(&self, down: f64) -> Still {
        Still {
            down,
            scale: self.scale,
            side: self.side[0],
            face: self.face[0],
        }
    }

    /// A point of a view on the sheet.
    pub fn at(&self, view: View, [right, up]: Point) -> Point {
        let (origin, up) = match view {
            View::Side => (self.side, up),
            View::Face => (self.face, up),
            View::Plan => (self.plan, self.plan_way() * up),
        };
        [origin[0] + right * self.scale, origin[1] - up * self.scale]
    }

    /// 1 when +y stands upwards in the plan. Of two like halves the one is drawn that is turned
    /// away from the side view.
    pub fn plan_way(&self) -> f64 {
        if is_whole(&self.extents[View::Plan as usize]) {
            1.0
        } else {
            -self.way
        }
    }

    /// Left, right, upper and lower edge of a view, px.
    pub fn edges(&self, view: View) -> [f64; 4] {
        let Extent { low, high } = self.extents[view as usize];
        let (a, b) = (self.at(view, low), self.at(view, high));
        [a[0], b[0], a[1].min(b[1]), a[1].max(b[1])]
    }

    /// Where the lanes of a view begin, and which way they go: −1 up, 1 down.
    pub fn lanes(&self, view: View, outer: bool) -> (f64, f64) {
        let away = match view {
            View::Plan => self.way,
            View::Side => -self.way,
            View::Face => 1.0,
        };
        let way = if outer { away } else { -away };
        let [.., top, bottom] = self.edges(view);
        (if way < 0.0 { top } else { bottom }, way)
    }

    /// Lower edge of all views, px.
    pub fn bottom(&self) -> f64 {
        [View::Side, View::Plan, View::Face]
            .map(|view| self.edges(view)[3])
            .into_iter()
            .fold(0.0, f64::max)
    }
}

/// Whether a plan shows both halves.
pub(super) fn is_whole(plan: &Extent) -> bool {
    plan.low[1] < 0.0
}

/// The views that the sheet has room for and that its sizes need.
pub(super) fn views(setting: &Setting, shown: &[&Dimension]) -> Vec<View> {
    let sizes = || shown.iter().filter(|d| matches!(d.key, Key::Size(_)));
    if setting.style != Style::Phone || sizes().next().is_none() {
        return vec![View::Side, View::Plan, View::Face];
    }
    let needs_plan = sizes().any(|d| !d.forms.iter().any(|(view, _)| *view == View::Side));
    if needs_plan {
        vec![View::Side, View::Plan]
    } else {
        vec![View::Side]
    }
}

/// Scale and places of the views, with the side view's axis at y = 0.
pub(super) fn frame(
    drawing: &Drawing,
    setting: &Setting,
    shown: &[&Dimension],
    views: &[View],
    metrics: Metrics,
) -> Frame {
    let beside = |wanted: Lane| {
        let stands = |form: &Form| match form {
            Form::Upright { lane, .. } | Form::Half { lane, .. } => *lane == wanted,
            _ => false,
        };
        let first = shown.iter().filter_map(|dimension| {
            dimension
                .forms
                .iter()
                .find(|(view, _)| views.contains(view))
        });
        first.filter(|(_, form)| stands(form)).count()
    };
    // Where a value may stand on straw there is always room for it: the sheet stays still when a
    // size is taken in hand.
    let above = if setting.field.is_none() {
        metrics.straw
    } else {
        metrics.above
    };
    let first = metrics.first + above + 6.0;
    let lanes = |count: usize| match count {
        0 => 0.0,
        _ => first + metrics.next * (count - 1) as f64,
    };
    let leaders = shown.iter().any(|d| {
        d.forms
            .iter()
            .any(|(_, form)| matches!(form, Form::Leader { .. }))
    });
    let phone = setting.style == Style::Phone;
    let most = if phone { 1 } else { 2 };
    let room = match (leaders, phone) {
        (true, true) => 44.0,
        (true, false) => 64.0,
        (false, _) => BEYOND_AXIS + 2.0 * STROKES.1,
    };
    let third = setting.projection == Projection::Third;
    let (to_left, to_right) = (
        lanes(beside(Lane::Left).min(most)),
        lanes(beside(Lane::Right).min(most)),
    );
    let with_face = views.contains(&View::Face);
    let between = match (with_face, phone) {
        (false, _) => 0.0,
        (true, true) => 2.0 * BEYOND_AXIS + 8.0,
        // In first angle the side view's left lanes stand between the views.
        (true, false) if !third => BETWEEN.max(to_left + room),
        (true, false) => BETWEEN,
    };
    let left = MARGIN
        + if third || !with_face {
            to_left.max(room)
        } else {
            room
        };
    let right = MARGIN + to_right.max(room);
    let side = drawing.extent(View::Side);
    let face = drawing.extent(View::Face);
    let plan = drawing.extent(View::Plan);
    let wide = |extent: Extent| extent.high[0] - extent.low[0];
    let length = wide(side) + if with_face { wide(face) } else { 0.0 };
    let largest = if phone { LARGEST.1 } else { LARGEST.0 };
    let scale = match setting.still {
        Some(still) => still.scale,
        None => {
            let fills = (setting.width - left - right - between) / length;
            fills.clamp(0.5, largest * setting.zoom.max(1.0))
        }
    };
    // What is left over goes to the margins and between the views alike.
    let spare = (setting.width - left - right - between - length * scale).max(0.0) / 3.0;
    let halves = || {
        let mut forms = shown.iter().filter_map(|dimension| {
            dimension
                .forms
                .iter()
                .find(|(view, _)| views.contains(view))
        });
        forms.any(|(_, form)| matches!(form, Form::Half { .. }))
    };
    let balanced = if setting.style == Style::Print {
        APART_PRINT
    } else {
        APART
    };
    let apart = if shown.iter().any(|d| d.key == Key::Balance) || halves() {
        balanced
    } else {
        APART_PLAIN
    };
    let (first_wide, second_wide) = if third { (side, face) } else { (face, side) };
    let (first_wide, second_wide) = if with_face {
        (first_wide, second_wide)
    } else {
        (side, side)
    };
    let x_first = left + spare - first_wide.low[0] * scale;
    let x_second = if with_face {
        x_first + first_wide.high[0] * scale + between + spare - second_wide.low[0] * scale
    } else {
        x_first
    };
    let (x_side, x_face) = match (setting.still, third) {
        (Some(still), _) => (still.side, still.face),
        (None, true) => (x_first, x_second),
        (None, false) => (x_second, x_first),
    };
    let way = if third { -1.0 } else { 1.0 };
    // What the two views have between their axes.
    let near = match (third, is_whole(&plan)) {
        (true, _) => side.high[1] - plan.low[1],
        (false, true) => plan.high[1] - side.low[1],
        (false, false) => -side.low[1],
    };
    let y_plan = way * (near * scale + apart);
    Frame {
        scale,
        side: [x_side, 0.0],
        plan: [x_side, y_plan],
        face: [x_face, 0.0],
        way,
        extents: [side, plan, face],
        metrics,
        width: setting.width,
    }
}

pub(super) fn shapes(drawing: &Drawing, frame: &Frame, views: &[View]) -> Vec<LaidShape> {
    let mut shapes = Vec::new();
    let halved = !is_whole(&drawing.extent(View::Plan));
    for shape in drawing.shapes.iter().filter(|s| views.contains(&s.view)) {
        let mut points: Vec<Point> = shape
            .points
            .iter()
            .map(|p| frame.at(shape.view, *p))
            .collect();
        let symmetry = halved
            && shape.view == View::Plan
            && shape.stroke == Stroke::Centre
            && shape.points.iter().all(|p| p[1] == 0.0);
        if shape.stroke == Stroke::Centre && points.len() > 1 {
            let beyond = if symmetry { BEYOND_AXIS } else { BEYOND };
            let last = points.len() - 1;
            let lengthened = |end: usize, next: usize| {
                let way = [0, 1].map(|k| points[end][k] - points[next][k]);
                let length = way[0].hypot(way[1]).max(1.0);
                [0, 1].map(|k| points[end][k] + way[k] / length * beyond)
            };
            let (from, to) = (lengthened(0, 1), lengthened(last, last - 1));
            (points[0], points[last]) = (from, to);
            if symmetry {
                let (half, gap) = (STROKES.0 / 2.0, STROKES.1);
                for (end, way) in [(from, -1.0), (to, 1.0)] {
                    for k in 0..2 {
                        let x = end[0] + way * gap * (f64::from(k) - 1.5);
                        shapes.push(LaidShape {
                            stroke: Stroke::Edge,
                            points: vec![[x, end[1] - half], [x, end[1] + half]],
                            closed: false,
                        });
                    }
                }
            }
        }
        shapes.push(LaidShape {
            stroke: shape.stroke,
            points,
            closed: shape.closed,
        });
    }
    shapes
}
