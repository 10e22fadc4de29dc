//! Where a size may stand.

use super::dimension::{Dimension, Form, Lane};
use super::frame::{Frame, MARGIN, Metrics};
use super::laid::{LaidText, Rect, Segment};
use super::value::{State, width};
use super::{Point, View};

/// What a line of a size is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum LineKind {
    /// The dimension line or the shelf with the text on it.
    Main,
    /// An extension line.
    Extension,
    /// A leader.
    Leader,
}

/// A size at one of its places.
#[derive(Clone, Debug)]
pub(super) struct Placed {
    pub lines: Vec<(LineKind, Segment)>,
    pub arrows: Vec<Segment>,
    pub dot: Option<Point>,
    pub text: LaidText,
    /// How much worse than the first choice the place is by itself.
    pub worse: f64,
}

impl Placed {
    /// Whether a leader runs through the text that it leads to.
    pub(super) fn leader_crosses_its_text(&self) -> bool {
        let text = self.text.rect.grown(1.0);
        let mut lines = self.lines.iter();
        lines.any(|(kind, line)| *kind == LineKind::Leader && text.is_crossed(line))
    }
}

/// Past the dimension line an extension line goes on by this, px.
const PAST: f64 = 6.0;
/// An arrow from outside has a line this long, px.
const OUTSIDE: f64 = 20.0;
/// The dimension line of a whole width in the half plan passes the axis by this, px.
const PAST_AXIS: f64 = 16.0;
/// Room around a text inside a dimension line, for the arrows, px.
const ARROWS: f64 = 26.0;
/// Below the line when the mark stands there without a word, px.
const COMPACT_BELOW: f64 = 18.0;
/// Height of a straw field around a value, px.
pub(super) const STRAW: f64 = 34.0;
/// From the line up to the straw field, px.
pub(super) const STRAW_CLEAR: f64 = 4.0;
/// What the straw field is wider than its value, px.
pub(super) const STRAW_ROOM: f64 = 26.0;
/// Width of a mark with its gap, beside the size of the words.
pub(super) const MARK: f64 = 1.2;
/// The lanes that are tried one after another.
const LANES: usize = 24;
/// Of those, the ones that are tried before anything farther off.
const NEAR_LANES: usize = 5;
/// The lengths of leaders that are tried, px.
const LENGTHS: [f64; 10] = [
    34.0, 52.0, 74.0, 100.0, 132.0, 170.0, 220.0, 280.0, 350.0, 430.0,
];
/// Of those, the ones that are tried before anything farther off.
const NEAR_LENGTHS: usize = 7;
/// How far a leader is turned from straight outwards, degrees.
const TURNS: [f64; 15] = [
    0.0, 20.0, -20.0, 40.0, -40.0, 62.0, -62.0, 85.0, -85.0, 110.0, -110.0, 135.0, -135.0, 160.0,
    -160.0,
];
/// Of those, the ones that are tried before anything farther off.
const NEAR_TURNS: usize = 9;
/// A leader that ends on the steel, where there is paper beside it.
const ON_STEEL: f64 = 24.0;
/// Rows of shelves below everything, where a leader may end when nothing nearer is free.
const ROWS: usize = 40;
/// From one shelf of a row to the next that is tried, px.
const ROW_STEP: f64 = 26.0;
/// A shelf far below is worse than any lane that a line runs through.
const ROWS_WORSE: f64 = 3000.0;

/// What the text of a size takes.
struct Text {
    straw: bool,
    wide: f64,
    above: f64,
    below: f64,
    value: f64,
}

/// The word under the line of a size.
pub(super) fn word(dimension: &Dimension, in_hand: bool) -> String {
    match (in_hand, dimension.label, dimension.state.word()) {
        (true, ..) => "in hand".to_owned(),
        (_, "", word) => word.to_owned(),
        (_, label, "") => label.to_owned(),
        (_, label, word) => match dimension.state {
            State::Held(_) | State::Problem(_) => format!("{label} {word}"),
            _ => format!("{label}, {word}"),
        },
    }
}

impl Text {
    fn new(dimension: &Dimension, metrics: &Metrics, straw: bool) -> Self {
        let value = dimension.value.width(metrics.figures);
        let word = word(dimension, straw);
        let marked = dimension.state != State::Derived;
        let mark = if marked { MARK * metrics.words } else { 0.0 };
        let words = if word.is_empty() {
            0.0
        } else {
            width(&word) * metrics.words + mark
        };
        let value = if straw { value + STRAW_ROOM } else { value };
        Self {
            straw,
            wide: value.max(words),
            above: if straw { metrics.straw } else { metrics.above },
            below: if word.is_empty() { 4.0 } else { metrics.below },
            value,
        }
    }

    fn laid(&self, at: Point, upright: bool, compact: bool) -> LaidText {
        let (wide, below) = if compact {
            (self.value, COMPACT_BELOW)
        } else {
            (self.wide, self.below)
        };
        let rect = if upright {
            Rect {
                x: at[0] - self.above,
                y: at[1] - wide / 2.0,
                w: self.above + below,
                h: wide,
            }
        } else {
            Rect {
                x: at[0] - wide / 2.0,
                y: at[1] - self.above,
                w: wide,
                h: self.above + below,
            }
        };
        LaidText {
            at,
            upright,
            compact,
            rect,
        }
    }
}

/// How far from its first choice a place is looked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Search {
    /// Where it nearly always is found.
    Near,
    /// Everywhere, down to rows of shelves that go on for ever below the drawing.
    Far,
}

/// The places of a size, best first, in the views that are shown.
pub(super) fn candidates(
    dimension: &Dimension,
    frame: &Frame,
    views: &[View],
    straw: bool,
    search: Search,
) -> Vec<Placed> {
    let text = Text::new(dimension, &frame.metrics, straw);
    let mut finder = Finder {
        frame,
        view: View::Side,
        text: &text,
        search,
        places: Vec::with_capacity(256),
    };
    let forms = || {
        dimension
            .forms
            .iter()
            .filter(|(view, _)| views.contains(view))
    };
    for (choice, (view, form)) in forms().enumerate() {
        let from = finder.places.len();
        finder.view = *view;
        match *form {
            Form::Level { between, lane } => finder.linear(between, lane, false),
            Form::Upright { between, lane } => finder.linear(between, lane, true),
            Form::Half { to, lane } => finder.half(to, lane),
            Form::Leader { tip, normal } => finder.leaders(tip, normal),
            Form::Balance { centroid } => finder.balance(centroid),
        }
        for place in &mut finder.places[from..] {
            place.worse += 30.0 * choice as f64;
        }
    }
    if let (Search::Far, Some((view, form))) = (search, forms().next()) {
        finder.view = *view;
        finder.rows(match *form {
            Form::Level { between, .. } | Form::Upright { between, .. } => between[1],
            Form::Half { to, .. } => to,
            Form::Leader { tip, .. } => tip,
            Form::Balance { centroid } => centroid,
        });
    }
    finder.places
}

struct Finder<'a> {
    frame: &'a Frame,
    view: View,
    text: &'a Text,
    search: Search,
    places: Vec<Placed>,
}

/// A point from its places along and across a dimension line.
fn point(upright: bool, along: f64, across: f64) -> Point {
    if upright {
        [across, along]
    } else {
        [along, across]
    }
}

pub(super) fn segment(from: Point, to: Point) -> Segment {
    Segment { from, to }
}

impl Finder<'_> {
    /// A dimension line between two points, level or upright.
    fn linear(&mut self, between: [Point; 2], lane: Lane, upright: bool) {
        let [one, other] = between.map(|p| self.frame.at(self.view, p));
        let metrics = &self.frame.metrics;
        let [left, right, ..] = self.frame.edges(self.view);
        match lane {
            Lane::Inside(at) => {
                let inside = if upright { [at, 0.0] } else { [0.0, at] };
                let middle = self.frame.at(self.view, inside)[usize::from(!upright)];
                for (step, nudge) in [0.0, 14.0, -14.0, 28.0, -28.0, 42.0, -42.0]
                    .into_iter()
                    .enumerate()
                {
                    let worse = 2.0 * step as f64;
                    self.texts([one, other], middle + nudge, upright, worse, true);
                }
            }
            Lane::Outer | Lane::Inner | Lane::Left | Lane::Right => {
                let (start, way) = match lane {
                    Lane::Left => (left, -1.0),
                    Lane::Right => (right, 1.0),
                    _ => self.frame.lanes(self.view, lane == Lane::Outer),
                };
                // Upright lanes eat the sheet's width: a few of them, and then a shelf.
                let lanes = match (upright, self.search) {
                    (true, _) => 3,
                    (false, Search::Near) => NEAR_LANES,
                    (false, Search::Far) => LANES,
                };
                for k in 0..lanes {
                    let off = metrics.first + metrics.next * k as f64;
                    self.texts(
                        [one, other],
                        start + way * off,
                        upright,
                        12.0 * k as f64,
                        false,
                    );
                }
            }
        }
    }

    /// The places of the text on a dimension line at `across`.
    fn texts(&mut self, ends: [Point; 2], across: f64, upright: bool, worse: f64, inside: bool) {
        let axis = usize::from(upright);
        let (mut low, mut high) = (ends[0], ends[1]);
        if low[axis] > high[axis] {
            std::mem::swap(&mut low, &mut high);
        }
        let (from, to) = (low[axis], high[axis]);
        let span = to - from;
        let middle = (from + to) / 2.0;
        let mut lines = Vec::new();
        for end in [low, high] {
            let start = end[1 - axis];
            if (across - start).abs() > 1.0 {
                let past = across + PAST * (across - start).signum();
                let line = segment(
                    point(upright, end[axis], start),
                    point(upright, end[axis], past),
                );
                lines.push((LineKind::Extension, line));
            }
        }
        let at = |along: f64| point(upright, along, across);
        let inward = [segment(at(middle), at(from)), segment(at(middle), at(to))];
        let text = self.text;
        let mut fit = |wide: f64, compact: bool, worse: f64| {
            // Room to nudge: the text may move along its line, but not over its arrows.
            let room = (span - wide) / 2.0 - 8.0;
            for (step, share) in [0.0, 0.5, -0.5, 1.0, -1.0].into_iter().enumerate() {
                if step > 0 && room < 6.0 {
                    break;
                }
                let mut lines = lines.clone();
                lines.push((LineKind::Main, segment(at(from), at(to))));
                self.places.push(Placed {
                    lines,
                    arrows: inward.to_vec(),
                    dot: None,
                    text: text.laid(at(middle + share * room), upright, compact),
                    worse: worse + 4.0 * step as f64,
                });
            }
        };
        // Straw stands clear of the line, and so of its arrows.
        let arrows = if text.straw { 8.0 } else { ARROWS };
        if span >= text.value + arrows && span >= text.wide + 8.0 {
            fit(text.wide, false, worse);
        }
        if inside && span >= text.value + ARROWS {
            fit(text.value, true, worse + 5.0);
        }
        for (step, way) in [
            self.inwards(middle, upright),
            -self.inwards(middle, upright),
        ]
        .into_iter()
        .enumerate()
        {
            let (near, far) = if way > 0.0 { (to, from) } else { (from, to) };
            let tail = near + way * (OUTSIDE + text.wide + 4.0);
            let mut lines = lines.clone();
            lines.push((LineKind::Main, segment(at(far - way * OUTSIDE), at(tail))));
            let arrows = vec![
                segment(at(near + way * OUTSIDE), at(near)),
                segment(at(far - way * OUTSIDE), at(far)),
            ];
            self.places.push(Placed {
                lines,
                arrows,
                dot: None,
                text: text.laid(
                    at(near + way * (OUTSIDE + 2.0 + text.wide / 2.0)),
                    upright,
                    false,
                ),
                worse: worse + 8.0 + 3.0 * step as f64,
            });
        }
    }

    /// Where a text outside its dimension line goes first: over the middle of the view, and off
    /// the lanes.
    fn inwards(&self, along: f64, upright: bool) -> f64 {
        if upright {
            return self.frame.lanes(self.view, false).1;
        }
        let [left, right, ..] = self.frame.edges(self.view);
        if along <= (left + right) / 2.0 {
            1.0
        } else {
            -1.0
        }
    }

    /// A whole width in the half plan.
    fn half(&mut self, to: Point, lane: Lane) {
        let tip = self.frame.at(self.view, to);
        let axis = self.frame.at(self.view, [to[0], 0.0])[1];
        let [left, right, ..] = self.frame.edges(self.view);
        let past = axis + PAST_AXIS * (axis - tip[1]).signum();
        let metrics = &self.frame.metrics;
        let mut places = Vec::new();
        match lane {
            Lane::Inside(x) => {
                let x = self.frame.at(self.view, [x, 0.0])[0];
                let nudges = [
                    0.0, 10.0, -10.0, 20.0, -20.0, 32.0, -32.0, 48.0, -48.0, 66.0, -66.0, 84.0,
                    -84.0,
                ];
                places.extend(nudges.map(|nudge| x + nudge));
            }
            Lane::Left => {
                places.extend([0.0, 1.0].map(|k| left - metrics.first - k * metrics.next))
            }
            _ => places.extend([0.0, 1.0].map(|k| right + metrics.first + k * metrics.next)),
        }
        for (step, x) in places.into_iter().enumerate() {
            let mut lines = vec![(LineKind::Main, segment([x, tip[1]], [x, past]))];
            if (x - tip[0]).abs() > 1.0 {
                let beyond = x + PAST * (x - tip[0]).signum();
                lines.push((
                    LineKind::Extension,
                    segment([tip[0], tip[1]], [beyond, tip[1]]),
                ));
            }
            let span = (past - tip[1]).abs();
            let middle = (past + tip[1]) / 2.0 + 3.0 * (past - tip[1]).signum();
            let worse = 2.0 * step as f64;
            for (compact, wide) in [(false, self.text.wide), (true, self.text.value)] {
                if wide + 12.0 > span && !compact {
                    continue;
                }
                self.places.push(Placed {
                    lines: lines.clone(),
                    arrows: vec![segment([x, past], [x, tip[1]])],
                    dot: None,
                    text: self.text.laid([x, middle], true, compact),
                    worse: worse + if compact { 5.0 } else { 0.0 },
                });
            }
            // The line runs on past the axis and carries its text there.
            let on = (past - tip[1]).signum();
            let end = axis + on * (self.text.wide + 14.0);
            lines[0] = (LineKind::Main, segment([x, tip[1]], [x, end]));
            self.places.push(Placed {
                lines,
                arrows: vec![segment([x, end], [x, tip[1]])],
                dot: None,
                text: self
                    .text
                    .laid([x, axis + on * (self.text.wide / 2.0 + 8.0)], true, false),
                worse: worse + 9.0,
            });
        }
    }

    /// Leaders from a point in a fan of directions, each with a shelf to either side.
    fn leaders(&mut self, tip: Point, normal: Point) {
        let tip = self.frame.at(self.view, tip);
        let flip = if self.view == View::Plan {
            -self.frame.plan_way()
        } else {
            -1.0
        };
        let along = (normal[1] * flip).atan2(normal[0]);
        let (turns, lengths) = match self.search {
            Search::Near => (&TURNS[..NEAR_TURNS], &LENGTHS[..NEAR_LENGTHS]),
            Search::Far => (&TURNS[..], &LENGTHS[..]),
        };
        for (far, length) in lengths.iter().enumerate() {
            for (turn, degrees) in turns.iter().enumerate() {
                let (sin, cos) = (along + degrees.to_radians()).sin_cos();
                // A leader never runs level: it would look like a dimension line.
                if sin.abs() < 0.25 {
                    continue;
                }
                let elbow = [tip[0] + length * cos, tip[1] + length * sin];
                let outwards = if cos >= 0.0 { 1.0 } else { -1.0 };
                let on_steel = if self.is_inside(elbow) { ON_STEEL } else { 0.0 };
                for (side, way) in [outwards, -outwards].into_iter().enumerate() {
                    let worse = on_steel + 4.0 * far as f64 + 2.0 * turn as f64 + 6.0 * side as f64;
                    self.shelf(tip, elbow, way, worse);
                }
            }
        }
    }

    /// Whether a point of the sheet lies within the view's edges.
    fn is_inside(&self, [x, y]: Point) -> bool {
        let [left, right, top, bottom] = self.frame.edges(self.view);
        left < x && x < right && top < y && y < bottom
    }

    /// A leader to `elbow` and a shelf from there.
    fn shelf(&mut self, tip: Point, elbow: Point, way: f64, worse: f64) {
        let wide = self.text.wide;
        let end = [elbow[0] + way * (wide + 4.0), elbow[1]];
        let middle = [elbow[0] + way * (wide / 2.0 + 3.0), elbow[1]];
        self.places.push(Placed {
            lines: vec![
                (LineKind::Leader, segment(tip, elbow)),
                (LineKind::Main, segment(elbow, end)),
            ],
            arrows: vec![segment(elbow, tip)],
            dot: None,
            text: self.text.laid(middle, false, false),
            worse,
        });
    }

    /// Shelves in rows below everything: there is always another row.
    fn rows(&mut self, tip: Point) {
        let tip = self.frame.at(self.view, tip);
        let metrics = &self.frame.metrics;
        let below = self.frame.bottom() + metrics.first;
        let wide = self.text.wide;
        for row in 0..ROWS {
            let y = below + metrics.next * (row as f64 + 1.0);
            let worse = ROWS_WORSE + 20.0 * row as f64;
            let last = self.frame.width - MARGIN - wide - 8.0;
            let first = MARGIN + 2.0;
            let steps = ((last - first) / ROW_STEP).max(0.0).ceil() as usize;
            for step in 0..=steps {
                let x = (first + ROW_STEP * step as f64).min(last);
                let near = if (x - tip[0]).abs() < (x + wide - tip[0]).abs() {
                    1.0
                } else {
                    -1.0
                };
                let elbow = if near > 0.0 {
                    [x, y]
                } else {
                    [x + wide + 4.0, y]
                };
                let far = (elbow[0] - tip[0]).abs() * 0.1;
                self.shelf(tip, elbow, near, worse + far);
            }
        }
    }

    /// The balance over the side view: arrows from outside on both lines, the text beside them.
    fn balance(&mut self, centroid: Point) {
        let axis = self.frame.at(View::Side, [0.0, 0.0]);
        let dot = self.frame.at(View::Side, centroid);
        let metrics = &self.frame.metrics;
        let (start, way) = self.frame.lanes(View::Side, false);
        for k in 0..LANES {
            let y = start + way * (metrics.first + 6.0 + 12.0 * k as f64);
            let past = y + way * PAST;
            for (step, right) in [dot[0] >= axis[0], dot[0] < axis[0]]
                .into_iter()
                .enumerate()
            {
                let turn = if right { 1.0 } else { -1.0 };
                let (near, far) = if (dot[0] >= axis[0]) == right {
                    (dot[0], axis[0])
                } else {
                    (axis[0], dot[0])
                };
                let wide = self.text.wide;
                let main = segment(
                    [far - turn * OUTSIDE, y],
                    [near + turn * (OUTSIDE + wide + 6.0), y],
                );
                let lines = vec![
                    (LineKind::Main, main),
                    (
                        LineKind::Extension,
                        segment([dot[0], dot[1]], [dot[0], past]),
                    ),
                    (
                        LineKind::Extension,
                        segment([axis[0], start], [axis[0], past]),
                    ),
                ];
                let arrows = vec![
                    segment([near + turn * OUTSIDE, y], [near, y]),
                    segment([far - turn * OUTSIDE, y], [far, y]),
                ];
                let middle = near + turn * (OUTSIDE + 4.0 + wide / 2.0);
                self.places.push(Placed {
                    lines,
                    arrows,
                    dot: Some(dot),
                    text: self.text.laid([middle, y], false, false),
                    worse: 10.0 * k as f64 + 4.0 * step as f64,
                });
            }
        }
    }
}
