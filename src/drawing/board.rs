//! What already stands on the sheet, and what a place among it costs.

use super::frame::MARGIN;
use super::laid::{LaidShape, Rect, Segment};
use super::place::{LineKind, Placed, segment};
use super::{Point, Stroke};

/// What already stands on the sheet.
pub(super) struct Board {
    width: f64,
    texts: Vec<Rect>,
    lines: Vec<(LineKind, Segment)>,
    /// Lines of the views with what it costs a text to stand on them.
    drawn: Vec<(Segment, f64)>,
    /// Those of them that a leader could be taken for.
    straight: Vec<Segment>,
}

/// A text on a text, or off the sheet.
const IMPOSSIBLE: f64 = 1e5;
/// A dimension line through a text.
pub(super) const THROUGH: f64 = 900.0;
/// A leader through the text that it leads to.
const ACROSS_ITSELF: f64 = 4000.0;
/// A dimension line on another.
const ON_LINE: f64 = 1500.0;
/// A leader along another line, where nobody could tell them apart: worse than many texts crossed.
const ALONG: f64 = 3e4;
/// A leader across a dimension line.
const ACROSS: f64 = 30.0;
/// Texts keep this distance, px.
const APART: f64 = 4.0;
/// Lines of the views are thinned to this, px, before texts are tried against them.
const COARSE: f64 = 1.5;

impl Board {
    pub(super) fn new(width: f64, shapes: &[LaidShape]) -> Self {
        let mut drawn = Vec::new();
        for shape in shapes {
            let price = match shape.stroke {
                Stroke::Steel | Stroke::FaceArea | Stroke::Opening => continue,
                Stroke::Outline => 24.0,
                Stroke::Edge => 9.0,
                Stroke::Hidden => 5.0,
                Stroke::Centre => 2.0,
            };
            let mut points = thinned(&shape.points);
            if shape.closed {
                points.extend(shape.points.first());
            }
            drawn.extend(
                points
                    .windows(2)
                    .map(|pair| (segment(pair[0], pair[1]), price)),
            );
        }
        let long = |(line, _): &(Segment, f64)| {
            let (dx, dy) = (line.to[0] - line.from[0], line.to[1] - line.from[1]);
            (dx.hypot(dy) > SHARED).then_some(*line)
        };
        Self {
            width,
            texts: Vec::new(),
            lines: Vec::new(),
            straight: drawn.iter().filter_map(long).collect(),
            drawn,
        }
    }

    /// Keeps texts off a rectangle.
    pub(super) fn keep_clear(&mut self, rect: Rect) {
        self.texts.push(rect);
    }

    pub(super) fn add(&mut self, placed: &Placed) {
        self.texts.push(placed.text.rect);
        self.lines.extend(placed.lines.iter().copied());
    }

    /// The cheapest place, and what it costs.
    pub(super) fn best(&self, places: Vec<Placed>) -> Option<(f64, Placed)> {
        let mut best: Option<(f64, Placed)> = None;
        for place in places {
            let least = best.as_ref().map_or(f64::INFINITY, |(cost, _)| *cost);
            if place.worse >= least {
                continue;
            }
            let cost = self.cost(&place, least);
            if cost < least {
                best = Some((cost, place));
            }
        }
        best
    }

    /// What a place costs; once it is known to cost more than `most`, anything above.
    fn cost(&self, place: &Placed, most: f64) -> f64 {
        let mut cost = place.worse;
        if place.leader_crosses_its_text() {
            cost += ACROSS_ITSELF;
        }
        let own = place.text.rect.grown(APART / 2.0);
        let off = (MARGIN - own.x).max(own.x + own.w - self.width + MARGIN);
        if off > 0.0 {
            cost += IMPOSSIBLE * (1.0 + off);
        }
        for text in &self.texts {
            if let Some(depth) = text.grown(APART / 2.0).overlap(&own) {
                cost += IMPOSSIBLE * (1.0 + depth);
            }
            let through = |line: &(LineKind, Segment)| text.grown(1.0).is_crossed(&line.1);
            cost += THROUGH * place.lines.iter().filter(|line| through(line)).count() as f64;
        }
        if cost >= most {
            return cost;
        }
        for (kind, line) in &self.lines {
            if own.is_crossed(line) {
                cost += THROUGH;
            }
            for (mine, segment) in &place.lines {
                if *mine == LineKind::Main && *kind == LineKind::Main && runs_along(segment, line) {
                    cost += ON_LINE;
                } else if *mine == LineKind::Leader || *kind == LineKind::Leader {
                    if lies_on(segment, line) {
                        cost += ALONG;
                    } else if cross(segment, line) {
                        cost += ACROSS;
                    }
                }
            }
        }
        if cost >= most {
            return cost;
        }
        for (line, price) in &self.drawn {
            if own.is_crossed(line) {
                cost += price;
            }
        }
        if cost >= most {
            return cost;
        }
        let leaders = place.lines.iter();
        for (_, leader) in leaders.filter(|(kind, _)| *kind == LineKind::Leader) {
            if self.straight.iter().any(|line| lies_on(leader, line)) {
                cost += ALONG;
            }
        }
        cost
    }
}

/// Whether two lines lie on each other or nearly so.
fn runs_along(one: &Segment, other: &Segment) -> bool {
    const NEAR: f64 = 12.0;
    let level = |s: &Segment| (s.from[1] - s.to[1]).abs() < 0.5;
    let axis = match (level(one), level(other)) {
        (true, true) => 0,
        (false, false) => 1,
        _ => return false,
    };
    let range = |s: &Segment| (s.from[axis].min(s.to[axis]), s.from[axis].max(s.to[axis]));
    let ((a, b), (c, d)) = (range(one), range(other));
    (one.from[1 - axis] - other.from[1 - axis]).abs() < NEAR && b.min(d) - a.max(c) > 0.5
}

/// Two lines that share no more than this, px, are not taken for one.
const SHARED: f64 = 6.0;

/// Whether a leader runs along another line, in any direction.
fn lies_on(leader: &Segment, line: &Segment) -> bool {
    /// Sine of the least angle between lines that are told apart, and their least distance, px.
    const ANGLE: f64 = 0.15;
    const NEAR: f64 = 4.0;
    let way = |s: &Segment| [s.to[0] - s.from[0], s.to[1] - s.from[1]];
    let ([ux, uy], [vx, vy]) = (way(leader), way(line));
    let (long, other) = (ux.hypot(uy), vx.hypot(vy));
    if (ux * vy - uy * vx).abs() > ANGLE * long * other || long * other == 0.0 {
        return false;
    }
    // Along the leader and off it, of the line's two ends.
    let place = |p: Point| {
        let (dx, dy) = (p[0] - leader.from[0], p[1] - leader.from[1]);
        ((dx * ux + dy * uy) / long, (dx * uy - dy * ux) / long)
    };
    let ((a, off), (b, far)) = (place(line.from), place(line.to));
    let (low, high) = (a.min(b).max(0.0), a.max(b).min(long));
    let at = |along: f64| off + (far - off) * (along - a) / (b - a);
    // Either they cross, or an end of what they share is where they are nearest.
    let (off, far) = (at(low), at(high));
    high - low > SHARED && (off * far <= 0.0 || off.abs().min(far.abs()) < NEAR)
}

/// Whether two lines cross.
fn cross(one: &Segment, other: &Segment) -> bool {
    let side = |s: &Segment, p: Point| {
        (s.to[0] - s.from[0]) * (p[1] - s.from[1]) - (s.to[1] - s.from[1]) * (p[0] - s.from[0])
    };
    side(one, other.from) * side(one, other.to) < 0.0
        && side(other, one.from) * side(other, one.to) < 0.0
}

/// The line with fewer points, none of those left out farther off than [`COARSE`].
fn thinned(points: &[Point]) -> Vec<Point> {
    let mut line: Vec<Point> = Vec::new();
    let mut skipped: Vec<Point> = Vec::new();
    for point in points {
        if let Some(start) = line.last() {
            let (dx, dy) = (point[0] - start[0], point[1] - start[1]);
            let length = dx.hypot(dy).max(f64::MIN_POSITIVE);
            let off = |p: &Point| ((p[0] - start[0]) * dy - (p[1] - start[1]) * dx).abs() / length;
            if skipped.iter().any(|p| off(p) > COARSE) {
                line.extend(skipped.last());
                skipped.clear();
            }
            skipped.push(*point);
        } else {
            line.push(*point);
        }
    }
    line.extend(skipped.last());
    line
}
