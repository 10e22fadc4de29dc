//! The drawing on a sheet: scale, places of the views, and a place for every size.

use super::dimension::{Dimension, Key};
use super::place::{Board, Frame, LineKind, Placed, Search, THROUGH, candidates, word};
use super::value::{State, Value, width};
use super::{Drawing, Extent, Point, Projection, Show, Stroke, View};

/// What the sheet is read on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Style {
    /// In the hand: one view, or all three without sizes; larger figures.
    Phone,
    /// On a desk: all three views.
    Desktop,
}

/// What is to be laid out.
#[derive(Clone, Copy, Debug, PartialEq)]
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
}

/// A rectangle, px.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
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
    /// Pixels to the millimetre.
    pub scale: f64,
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
    /// Below it.
    pub below: f64,
}

impl Metrics {
    fn new(style: Style) -> Self {
        match style {
            Style::Desktop => Self {
                figures: 22.0,
                words: 14.5,
                first: 34.0,
                next: 50.0,
                above: 24.0,
                below: 21.0,
            },
            Style::Phone => Self {
                figures: 24.0,
                words: 16.0,
                first: 36.0,
                next: 54.0,
                above: 26.0,
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
/// The same without a balance.
const APART_PLAIN: f64 = 48.0;
/// How far a centre line runs beyond its outline.
const BEYOND: f64 = 9.0;
/// The same of an axis of symmetry with its strokes.
const BEYOND_AXIS: f64 = 20.0;
/// Length of the strokes across the ends of an axis of symmetry, and their distance.
const STROKES: (f64, f64) = (18.0, 5.0);
/// Extension lines that begin this near each other, px, may share their beginning.
const FAR_BEGIN: f64 = 1.0;
/// A press area is at least this wide and high.
const PRESS: f64 = 44.0;
/// Below this width the remark on the half plan is left out.
const NOTE_FROM: f64 = 860.0;

/// Lays a drawing out on a sheet.
///
/// Places are found by rule: every size has an ordered list of places (lanes 34 px off the
/// outline and then 50 px further, nudged along their line; leaders in a fan of directions); of
/// those the one with the least cost is taken, where a text on another text costs more than
/// everything else together. Lanes and a last row of shelves below the drawing go on as far as
/// needed, so that a free place always exists and the sheet grows in height instead.
pub fn layout(drawing: &Drawing, setting: &Setting) -> Laid {
    let metrics = Metrics::new(setting.style);
    let shown: Vec<&Dimension> = drawing.shown(setting.show).collect();
    let views = views(setting, &shown);
    let frame = frame(drawing, setting, &shown, &views, metrics);
    let mut shapes = shapes(drawing, &frame, &views);
    let mut board = Board::new(setting.width, &shapes);
    let mut notes = Vec::new();
    if views.len() == 3 && setting.width >= NOTE_FROM {
        notes.push(note(drawing, &frame));
        board.keep_clear(note_rect(&notes[0], metrics));
    }
    let mut placed: Vec<Option<Placed>> = vec![None; shown.len()];
    let mut order: Vec<usize> = (0..shown.len()).collect();
    order.sort_by(|i, j| rank(shown[*i], &views).total_cmp(&rank(shown[*j], &views)));
    for index in order {
        let straw = is_in_hand(shown[index], setting.show) && setting.field.is_none();
        let find = |search| board.best(candidates(shown[index], &frame, &views, straw, search));
        let mut best = find(Search::Near);
        if best.as_ref().is_none_or(|(cost, _)| *cost >= THROUGH) {
            best = find(Search::Far);
        }
        let best = best.map(|(_, place)| place);
        if let Some(best) = &best {
            board.add(best);
        }
        placed[index] = best;
    }
    share_extensions(&mut placed);
    let mut sizes: Vec<LaidSize> = shown
        .iter()
        .zip(placed)
        .filter_map(|(dimension, placed)| Some(laid(dimension, placed?, setting.show)))
        .collect();
    let mut field = setting
        .field
        .and_then(|size| field(&sizes, size, setting.width));
    let drop = drop(&shapes, &sizes, &notes, field, setting.title);
    let mut bottom: f64 = 0.0;
    let mut lower = |point: &mut Point| {
        point[1] += drop;
        bottom = bottom.max(point[1]);
    };
    for shape in &mut shapes {
        shape.points.iter_mut().for_each(&mut lower);
    }
    for note in &mut notes {
        lower(&mut note.at);
    }
    for size in &mut sizes {
        for line in size.lines.iter_mut().chain(&mut size.arrows) {
            lower(&mut line.from);
            lower(&mut line.to);
        }
        size.dot.iter_mut().for_each(&mut lower);
        lower(&mut size.text.at);
        for rect in [&mut size.text.rect, &mut size.press] {
            rect.y += drop;
        }
        let mut corner = [0.0, size.text.rect.y + size.text.rect.h - drop];
        lower(&mut corner);
    }
    if let Some(rect) = &mut field {
        rect.y += drop;
        bottom = bottom.max(rect.y + rect.h);
    }
    Laid {
        width: setting.width,
        height: (bottom + MARGIN).ceil(),
        scale: frame.scale,
        figures: metrics.figures,
        words: metrics.words,
        shapes,
        sizes,
        notes,
        field,
    }
}

/// Lets an extension line begin where a shorter one on it ends: drawn twice it would be wide.
fn share_extensions(placed: &mut [Option<Placed>]) {
    /// Two lines are one when they are this near, px.
    const SAME: f64 = 0.6;
    let mut lines: Vec<&mut Segment> = placed
        .iter_mut()
        .flatten()
        .flat_map(|place| &mut place.lines)
        .filter(|(kind, _)| *kind == LineKind::Extension)
        .map(|(_, line)| line)
        .collect();
    let length = |line: &Segment| (line.to[0] - line.from[0]).hypot(line.to[1] - line.from[1]);
    lines.sort_by(|one, other| length(one).total_cmp(&length(other)));
    for longer in 1..lines.len() {
        let (shorter, rest) = lines.split_at_mut(longer);
        let line = &mut *rest[0];
        for other in shorter.iter().rev() {
            let axis = usize::from((line.to[1] - line.from[1]).abs() > SAME);
            let same = (other.from[1 - axis] - line.from[1 - axis]).abs() < SAME
                && (other.to[1 - axis] - line.to[1 - axis]).abs() < SAME;
            let way = (line.to[axis] - line.from[axis]).signum();
            let within = |at: f64| (at - line.from[axis]) * way >= -SAME;
            if same
                && within(other.from[axis])
                && (line.to[axis] - other.to[axis]) * way > 0.0
                && within(other.to[axis])
            {
                let begins = (other.from[axis] - line.from[axis]).abs();
                // Between the two beginnings there would be a gap: only a near one is shared.
                if begins < FAR_BEGIN {
                    line.from[axis] = other.to[axis];
                }
                break;
            }
        }
    }
}

fn is_in_hand(dimension: &Dimension, show: Show) -> bool {
    match dimension.key {
        Key::Size(dim) => show.in_hand == Some(dim),
        Key::Balance | Key::Overall => false,
    }
}

/// The views that the sheet has room for and that its sizes need.
fn views(setting: &Setting, shown: &[&Dimension]) -> Vec<View> {
    let sizes = || shown.iter().filter(|d| matches!(d.key, Key::Size(_)));
    if setting.style == Style::Desktop || sizes().next().is_none() {
        return vec![View::Side, View::Plan, View::Face];
    }
    let needs_plan = sizes().any(|d| !d.forms.iter().any(|(view, _)| *view == View::Side));
    if needs_plan {
        vec![View::Side, View::Plan]
    } else {
        vec![View::Side]
    }
}

/// Which sizes look for their place first: the small before the large in the lanes, leaders
/// after all lanes, for they can go round.
fn rank(dimension: &Dimension, views: &[View]) -> f64 {
    use super::dimension::{Form, Lane};
    let form = dimension
        .forms
        .iter()
        .find(|(view, _)| views.contains(view));
    let span = |between: &[Point; 2], axis: usize| (between[1][axis] - between[0][axis]).abs();
    match form.map(|(_, form)| form) {
        Some(Form::Balance { .. }) => 0.0,
        Some(Form::Level {
            lane: Lane::Inside(_),
            ..
        }) => 1.0,
        Some(Form::Half { .. }) => 2.0,
        Some(Form::Upright {
            lane: Lane::Inside(_),
            ..
        }) => 3.0,
        Some(Form::Upright { between, .. }) => 1e3 + span(between, 1),
        Some(Form::Level { between, .. }) => 2e3 + span(between, 0),
        Some(Form::Leader { .. }) | None => 1e4,
    }
}

/// Scale and places of the views, with the side view's axis at y = 0.
fn frame(
    drawing: &Drawing,
    setting: &Setting,
    shown: &[&Dimension],
    views: &[View],
    metrics: Metrics,
) -> Frame {
    use super::dimension::{Form, Lane};
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
    let lanes = |count: usize| match count {
        0 => 0.0,
        _ => metrics.first + metrics.below + 6.0 + metrics.next * (count - 1) as f64,
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
    let scale = ((setting.width - left - right - between) / length).clamp(0.5, largest);
    // What is left over goes to the margins and between the views alike.
    let spare = (setting.width - left - right - between - length * scale).max(0.0) / 3.0;
    let halves = || {
        shown
            .iter()
            .any(|d| matches!(d.forms.first(), Some((View::Plan, Form::Half { .. }))))
    };
    let apart = if shown.iter().any(|d| d.key == Key::Balance) || halves() {
        APART
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
    let (x_side, x_face) = if third {
        (x_first, x_second)
    } else {
        (x_second, x_first)
    };
    let way = if third { -1.0 } else { 1.0 };
    let y_plan = way * (side.high[1] * scale + apart);
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

fn shapes(drawing: &Drawing, frame: &Frame, views: &[View]) -> Vec<LaidShape> {
    let mut shapes = Vec::new();
    for shape in drawing.shapes.iter().filter(|s| views.contains(&s.view)) {
        let mut points: Vec<Point> = shape
            .points
            .iter()
            .map(|p| frame.at(shape.view, *p))
            .collect();
        let axis = shape.stroke == Stroke::Centre && shape.points.iter().all(|p| p[1] == 0.0);
        if let (Stroke::Centre, [from, to]) = (shape.stroke, &mut points[..]) {
            let length = (to[0] - from[0]).hypot(to[1] - from[1]).max(1.0);
            let beyond = if shape.view == View::Plan && axis {
                BEYOND_AXIS
            } else {
                BEYOND
            };
            let step = [0, 1].map(|k| (to[k] - from[k]) / length * beyond);
            for k in 0..2 {
                from[k] -= step[k];
                to[k] += step[k];
            }
            if shape.view == View::Plan && axis {
                let (half, gap) = (STROKES.0 / 2.0, STROKES.1);
                for (end, way) in [(*from, -1.0), (*to, 1.0)] {
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

const NOTE: [&str; 2] = ["half plan, from above;", "the other half is alike"];
/// Distance of the baselines of a remark, px.
const NOTE_LINE: f64 = 19.0;

fn note(drawing: &Drawing, frame: &Frame) -> Note {
    let plan = drawing.extent(View::Plan);
    // On the side of the face view, where there is room above or below it.
    let x = if frame.way < 0.0 {
        frame.plan[0] + plan.high[0] * frame.scale + 2.0 * BEYOND_AXIS + 4.0
    } else {
        frame.face[0] + drawing.extent(View::Face).low[0] * frame.scale
    };
    let middle = frame.plan[1] + frame.way * plan.high[1] * frame.scale * 0.6;
    Note {
        at: [x, middle],
        lines: NOTE.to_vec(),
    }
}

fn note_rect(note: &Note, metrics: Metrics) -> Rect {
    let wide = note
        .lines
        .iter()
        .map(|line| width(line))
        .fold(0.0, f64::max);
    Rect {
        x: note.at[0],
        y: note.at[1] - metrics.words,
        w: wide * metrics.words,
        h: NOTE_LINE * note.lines.len() as f64,
    }
}

fn laid(dimension: &Dimension, placed: Placed, show: Show) -> LaidSize {
    let in_hand = is_in_hand(dimension, show);
    let mark = match &dimension.state {
        _ if in_hand => Mark::InHand,
        State::Free { .. } => Mark::Free,
        State::Locked => Mark::Locked,
        State::Held(_) => Mark::Held,
        State::Problem(_) => Mark::Problem,
        State::Derived => Mark::None,
    };
    let rect = placed.text.rect;
    let grow = |size: f64| (PRESS - size).max(0.0) / 2.0;
    let press = Rect {
        x: rect.x - grow(rect.w),
        y: rect.y - grow(rect.h),
        w: rect.w.max(PRESS),
        h: rect.h.max(PRESS),
    };
    LaidSize {
        key: dimension.key,
        value: dimension.value.clone(),
        state: dimension.state.clone(),
        mark,
        word: word(dimension, in_hand),
        spoken: dimension.spoken.clone(),
        in_hand,
        lines: placed.lines.into_iter().map(|(_, line)| line).collect(),
        arrows: placed.arrows,
        dot: placed.dot,
        text: placed.text,
        press,
    }
}

/// How far the field looks for a free place, in steps of this, px.
const FIELD_STEP: f64 = 24.0;
const FIELD_STEPS: i32 = 8;

/// The place of the field of the size in hand: on its text, or as near to it as no other text is
/// covered.
fn field(sizes: &[LaidSize], [w, h]: [f64; 2], wide: f64) -> Option<Rect> {
    let own = sizes.iter().find(|size| size.in_hand)?.text.rect;
    let middle = [own.x + own.w / 2.0, own.y + own.h / 2.0];
    let mut best: Option<(f64, Rect)> = None;
    for right in -FIELD_STEPS..=FIELD_STEPS {
        for down in -FIELD_STEPS..=FIELD_STEPS {
            let (dx, dy) = (f64::from(right) * FIELD_STEP, f64::from(down) * FIELD_STEP);
            let x = middle[0] + dx - w / 2.0;
            let rect = Rect {
                x: x.clamp(MARGIN, (wide - MARGIN - w).max(MARGIN)),
                y: middle[1] + dy - h / 2.0,
                w,
                h,
            };
            let others = sizes.iter().filter(|size| !size.in_hand);
            let covered: f64 = others
                .filter_map(|size| rect.overlap(&size.text.rect.grown(4.0)))
                .sum();
            // Downwards is where sheets have room.
            let far = dx.hypot(dy) + if dy < 0.0 { 10.0 } else { 0.0 };
            let cost = covered * 100.0 + far;
            if best.is_none_or(|(least, _)| cost < least) {
                best = Some((cost, rect));
            }
        }
    }
    best.map(|(_, rect)| rect)
}

/// How far everything goes down so that it clears the upper edge and the title.
fn drop(
    shapes: &[LaidShape],
    sizes: &[LaidSize],
    notes: &[Note],
    field: Option<Rect>,
    title: [f64; 2],
) -> f64 {
    let mut top = [f64::INFINITY; 2];
    let mut meet = |x: f64, y: f64| {
        top[0] = top[0].min(y);
        if x < title[0] {
            top[1] = top[1].min(y);
        }
    };
    for point in shapes.iter().flat_map(|shape| &shape.points) {
        meet(point[0], point[1]);
    }
    for size in sizes {
        for line in &size.lines {
            meet(line.from[0].min(line.to[0]), line.from[1].min(line.to[1]));
        }
        meet(size.text.rect.x, size.text.rect.y);
    }
    for note in notes {
        meet(note.at[0], note.at[1] - NOTE_LINE);
    }
    if let Some(rect) = field {
        meet(rect.x, rect.y);
    }
    let over = MARGIN - top[0];
    if top[1].is_finite() {
        over.max(title[1] - top[1])
    } else {
        over
    }
}
