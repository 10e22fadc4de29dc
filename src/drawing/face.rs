//! The view of the front face: what is seen over its rim, by angle about the axis.
//!
//! Every section is convex and centred on the axis, so that what lies in front hides, at every
//! angle, all that is no farther from the axis.

use super::pein;
use super::profile::quarter;
use super::{Point, Shape, Stroke, View};
use crate::design::Side;
use crate::solid::{Head, Rim, Section, Tip};

/// Angles per quarter at which the outline of several sections together is looked for.
const ANGLES: usize = 180;
/// What sticks out by less, mm, is hidden: it would be no wider than a line.
const BARELY: f64 = 0.05;
/// Sections looked at inside a run, whose middle may stick out beyond both its ends.
const INSIDE: usize = 3;
/// Steps along a corner's edge on its way inwards.
const EDGE_STEPS: usize = 24;

/// A quarter outline that knows how far it reaches at an angle.
struct Ring(Vec<Point>);

impl Ring {
    fn new(section: &Section<f64>) -> Self {
        Self(quarter(section))
    }

    /// What hides or is hidden of a tip. That of a pein is the same in all four quarters, so that
    /// a diagonal one counts as its own mirror image too.
    fn of(tip: &Tip<f64>) -> Self {
        let pein = match tip {
            Tip::Face(cap) => return Self::new(&cap.outline),
            Tip::Ball(ball) => return Self::new(&Section::circle(ball.radius)),
            Tip::Pein(pein) => pein,
        };
        let turn = |[y, z]: Point| z.atan2(y);
        let mut points: Vec<Point> = pein::end_view(pein)
            .into_iter()
            .map(|[y, z]| [y.abs(), z.abs()])
            .collect();
        points.sort_by(|p, q| turn(*p).total_cmp(&turn(*q)));
        let mirrored = Self(points.clone());
        // Of two points at nearly one angle the farther one stands.
        let outer = points.into_iter().map(|point| {
            let reach = mirrored.reach(point);
            let length = point[0].hypot(point[1]);
            point.map(|part| part / length * length.max(reach))
        });
        Self(straightened(outer))
    }

    /// Distance from the axis along the direction of `(y, z)`, both at least 0.
    fn reach(&self, [y, z]: Point) -> f64 {
        let points = &self.0;
        let beyond = |p: &Point| p[1] * y <= p[0] * z;
        let next = points.partition_point(beyond).clamp(1, points.len() - 1);
        let ([y0, z0], [y1, z1]) = (points[next - 1], points[next]);
        let length = y.hypot(z);
        let (cos, sin) = (y / length, z / length);
        // The chord's line: cross product of its direction with the ray's.
        let (dy, dz) = (y1 - y0, z1 - z0);
        let turn = cos * dz - sin * dy;
        if turn.abs() < f64::MIN_POSITIVE {
            return y0.hypot(z0);
        }
        (y0 * dz - z0 * dy) / turn
    }
}

pub(super) fn face(head: &Head<f64>, shapes: &mut Vec<Shape>) {
    let view = View::Face;
    let front = head.end(Side::Front);
    let back = head.end(Side::Back);
    // From the viewer inwards: the face or ball, its necks, the block; then the back end.
    let mut rings = vec![Ring::of(&front.tip)];
    for run in front.runs.iter().skip(1).rev() {
        rings.push(Ring::new(&run.inner));
    }
    let visible_edges = rings.len();
    rings.extend(back.runs.iter().skip(1).map(|run| Ring::new(&run.outer)));
    rings.push(Ring::of(&back.tip));
    let mut all: Vec<Ring> = Vec::new();
    for run in front.runs.iter().skip(1).chain(back.runs.iter().skip(1)) {
        for step in 1..=INSIDE {
            let share = step as f64 / (INSIDE + 1) as f64;
            all.push(Ring::new(&run.at(share).section));
        }
    }
    let silhouette = around(&envelope(&rings, &all));
    shapes.push(shape(view, Stroke::Steel, silhouette.clone(), true));
    shapes.push(shape(view, Stroke::Outline, silhouette, true));
    let face = match &front.tip {
        Tip::Pein(pein) => pein::end_view(pein),
        Tip::Face(_) | Tip::Ball(_) => around(&rings[0].0),
    };
    shapes.push(shape(view, Stroke::FaceArea, face.clone(), true));
    shapes.push(shape(view, Stroke::Outline, face, true));
    for index in 1..visible_edges {
        let (hiding, ring) = (&rings[..index], &rings[index]);
        for part in seen(hiding, &ring.0) {
            add_mirrored(shapes, view, &part);
        }
    }
    if let Tip::Pein(pein) = &front.tip {
        let edge = pein::edge(pein).to_vec();
        shapes.push(shape(view, Stroke::Edge, edge, false));
    }
    corner_edges(head, &rings, shapes);
    if let Some(cap) = front.tip.face()
        && cap.rim == Rim::Chamfered
    {
        let inner = around(&quarter(&cap.inner()));
        shapes.push(shape(view, Stroke::Edge, inner, true));
    }
    let plug = &head.eye;
    for way in [1.0, -1.0] {
        let wall = vec![
            [way * plug.bottom.q, plug.mouths[0]],
            [way * plug.waist.q, plug.waist_height],
            [way * plug.top.q, plug.mouths[1]],
        ];
        shapes.push(shape(view, Stroke::Hidden, wall, false));
    }
    let (wide, high) = all
        .iter()
        .chain(&rings)
        .fold((0.0_f64, 0.0_f64), |(wide, high), ring| {
            (
                wide.max(ring.reach([1.0, 0.0])),
                high.max(ring.reach([0.0, 1.0])),
            )
        });
    let level = vec![[-wide, 0.0], [wide, 0.0]];
    shapes.push(shape(view, Stroke::Centre, level, false));
    let upright = vec![[0.0, -high], [0.0, high]];
    shapes.push(shape(view, Stroke::Centre, upright, false));
}

/// Where flats meet chamfered corners along the front runs, as far as they are seen.
fn corner_edges(head: &Head<f64>, rings: &[Ring], shapes: &mut Vec<Shape>) {
    let runs = &head.end(Side::Front).runs;
    for (depth, run) in runs.iter().skip(1).rev().enumerate() {
        let (inner, outer) = (run.inner, run.outer);
        if inner.span_weights(&outer) != (0.0, 0.0) || inner.c <= 0.0 || outer.c <= 0.0 {
            continue;
        }
        // The farther station of the run cannot hide what lies before it.
        let hiding = &rings[..=depth];
        for up in [true, false] {
            let line: Vec<Point> = (0..=EDGE_STEPS)
                .map(|step| run.at(1.0 - step as f64 / EDGE_STEPS as f64).section)
                .map(|s| {
                    if up {
                        [s.a, s.b - s.d]
                    } else {
                        [s.a - s.c, s.b]
                    }
                })
                .collect();
            for part in seen(hiding, &line) {
                let ends = [part[0], part[part.len() - 1]];
                add_mirrored(shapes, View::Face, &ends);
            }
        }
    }
}

fn shape(view: View, stroke: Stroke, points: Vec<Point>, closed: bool) -> Shape {
    Shape {
        view,
        stroke,
        points,
        closed,
    }
}

/// A quarter's line in all four quarters.
fn add_mirrored(shapes: &mut Vec<Shape>, view: View, line: &[Point]) {
    for (across, up) in [(1.0, 1.0), (-1.0, 1.0), (-1.0, -1.0), (1.0, -1.0)] {
        let turned = line.iter().map(|[y, z]| [across * y, up * z]);
        shapes.push(shape(view, Stroke::Edge, turned.collect(), false));
    }
}

/// A quarter outline all the way round.
fn around(quarter: &[Point]) -> Vec<Point> {
    let mut line = quarter.to_vec();
    line.extend(quarter.iter().rev().map(|[y, z]| [-y, *z]));
    line.extend(quarter.iter().map(|[y, z]| [-y, -z]));
    line.extend(quarter.iter().rev().map(|[y, z]| [*y, -z]));
    line.dedup();
    line
}

/// The parts of `line` that lie outside everything in front.
fn seen(hiding: &[Ring], line: &[Point]) -> Vec<Vec<Point>> {
    let room = |point: Point| {
        let cover = hiding
            .iter()
            .fold(0.0_f64, |most, ring| most.max(ring.reach(point)));
        point[0].hypot(point[1]) - cover - BARELY
    };
    let mut parts = Vec::new();
    let mut part: Vec<Point> = Vec::new();
    let mut before: Option<(Point, f64)> = None;
    for point in finer(line) {
        let now = room(point);
        if let Some((last, was)) = before
            && (was > 0.0) != (now > 0.0)
        {
            let share = was / (was - now);
            let crossing = [0, 1].map(|k| last[k] + (point[k] - last[k]) * share);
            part.push(crossing);
        }
        if now > 0.0 {
            part.push(point);
        } else if !part.is_empty() {
            parts.push(std::mem::take(&mut part));
        }
        before = Some((point, now));
    }
    if !part.is_empty() {
        parts.push(part);
    }
    parts.retain(|part| part.len() > 1);
    parts
}

/// The line with points no more than a millimetre apart, so that a crossing is found.
fn finer(line: &[Point]) -> Vec<Point> {
    let mut points = Vec::new();
    for pair in line.windows(2) {
        let ([y0, z0], [y1, z1]) = (pair[0], pair[1]);
        let steps = (y1 - y0).hypot(z1 - z0).ceil().max(1.0);
        for step in 0..steps as usize {
            let share = step as f64 / steps;
            points.push([y0 + (y1 - y0) * share, z0 + (z1 - z0) * share]);
        }
    }
    points.extend(line.last());
    points
}

/// The outline of all rings together: one of them when it holds all others, else by angle.
fn envelope(rings: &[Ring], more: &[Ring]) -> Vec<Point> {
    let every = || rings.iter().chain(more);
    let inside = |ring: &Ring, other: &Ring| {
        other
            .0
            .iter()
            .all(|point| point[0].hypot(point[1]) <= ring.reach(*point) + BARELY / 2.0)
    };
    let holding = rings
        .iter()
        .find(|ring| every().all(|other| inside(ring, other)));
    if let Some(ring) = holding {
        return ring.0.clone();
    }
    let mut directions: Vec<Point> = (0..=ANGLES)
        .map(|step| {
            let (sin, cos) = (step as f64 / ANGLES as f64 * std::f64::consts::FRAC_PI_2).sin_cos();
            [cos, sin]
        })
        .collect();
    directions.extend(every().flat_map(|ring| &ring.0));
    directions.sort_by(|p, q| p[1].atan2(p[0]).total_cmp(&q[1].atan2(q[0])));
    let outline = directions.into_iter().map(|direction| {
        let reach = every().fold(0.0_f64, |most, ring| most.max(ring.reach(direction)));
        let length = direction[0].hypot(direction[1]);
        direction.map(|part| part / length * reach)
    });
    straightened(outline)
}

/// Leaves out points that lie on the line between their neighbours.
fn straightened(points: impl Iterator<Item = Point>) -> Vec<Point> {
    let mut line: Vec<Point> = Vec::new();
    for point in points {
        while let [.., before, last] = line[..] {
            let (dy, dz) = (point[0] - before[0], point[1] - before[1]);
            let off = (last[0] - before[0]) * dz - (last[1] - before[1]) * dy;
            if off.abs() > 1e-4 * dy.hypot(dz).max(f64::MIN_POSITIVE) {
                break;
            }
            line.pop();
        }
        line.push(point);
    }
    line
}
