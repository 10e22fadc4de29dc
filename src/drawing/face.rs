//! The view of the front face: what is seen over its rim, by angle about the handle axis.
//!
//! Every section is convex and holds the axis or lies near it, so that what lies in front hides,
//! at every angle, all that is no farther from the axis.

use super::pein;
use super::profile::{Across, Peins, curve_steps, quarter, wall};
use super::{Point, Shape, Stroke, View};
use crate::design::Side;
use crate::numeric::order::order;
use crate::solid::{Head, Piece, Rim, Run, Section, Tail, Tip};

/// Angles in a turn at which is known how far everything reaches.
const ANGLES: usize = 1440;
/// What sticks out by less, mm, is hidden: it would be no wider than a line.
const BARELY: f64 = 0.05;
/// Pieces into which a run is cut, and one whose axis falls: its points go along curves.
const PIECES: [usize; 2] = [4, 8];
/// Steps along a corner's edge on its way inwards.
const EDGE_STEPS: usize = 24;
/// Points on a pein's edge.
const PEIN_STEPS: i32 = 8;
/// The four quarters of a section.
const QUARTERS: [Point; 4] = [[1.0, 1.0], [-1.0, 1.0], [-1.0, -1.0], [1.0, -1.0]];

/// How far outlines reach from the handle axis at every angle.
struct Cover<'a> {
    rays: &'a [Point],
    reach: Vec<f64>,
    /// No farther than all of it: lines within change nothing.
    least: f64,
}

/// Where a point stands among the angles.
fn turn([y, z]: Point) -> f64 {
    z.atan2(y) * (ANGLES as f64 / std::f64::consts::TAU)
}

impl<'a> Cover<'a> {
    fn new(rays: &'a [Point]) -> Self {
        Self {
            rays,
            reach: vec![0.0; ANGLES],
            least: 0.0,
        }
    }

    /// Adds a line between two points, each with its turn.
    fn add_line(&mut self, (from, mut start): (Point, f64), (to, end): (Point, f64)) {
        let most = from[0].hypot(from[1]).max(to[0].hypot(to[1]));
        if most < self.least {
            return;
        }
        let around = ANGLES as f64;
        let mut way = end - start;
        way -= (way / around).round() * around;
        if way < 0.0 {
            (start, way) = (end, -way);
        }
        let (dy, dz) = (to[0] - from[0], to[1] - from[1]);
        for k in start.ceil() as i64..=(start + way).floor() as i64 {
            let k = k.rem_euclid(ANGLES as i64) as usize;
            let [cos, sin] = self.rays[k];
            let far = (from[0] * dz - from[1] * dy) / (cos * dz - sin * dy);
            self.reach[k] = self.reach[k].max(far.min(most));
        }
    }

    /// Adds outlines that follow each other and what lies between them.
    fn add_rings(&mut self, rings: &[Vec<Point>]) {
        self.least = self.reach.iter().copied().fold(f64::INFINITY, f64::min);
        let mut before: Vec<(Point, f64)> = Vec::new();
        for ring in rings {
            let spots: Vec<_> = ring.iter().map(|point| (*point, turn(*point))).collect();
            for (k, spot) in spots.iter().enumerate() {
                self.add_line(*spot, spots[(k + 1) % spots.len()]);
            }
            for (from, to) in before.iter().zip(&spots) {
                self.add_line(*from, *to);
            }
            before = spots;
        }
    }

    /// Distance from the handle axis in the direction of `point`.
    fn towards(&self, point: Point) -> f64 {
        let at = turn(point);
        let share = at - at.floor();
        let reach = |k: f64| self.reach[(k as i64).rem_euclid(ANGLES as i64) as usize];
        reach(at.floor()) * (1.0 - share) + reach(at.floor() + 1.0) * share
    }

    /// The outline of all; it meets the points of `rings` exactly.
    fn outline(&self, rings: &[Vec<Point>]) -> Vec<Point> {
        let ray = |(k, [cos, sin]): (usize, &Point)| [cos * self.reach[k], sin * self.reach[k]];
        let mut line: Vec<Point> = self.rays.iter().enumerate().map(ray).collect();
        let outside = |p: &&Point| p[0].hypot(p[1]) >= self.towards(**p);
        line.extend(rings.iter().flatten().filter(outside));
        let turns: Vec<f64> = line.iter().map(|p| turn(*p)).collect();
        straightened(order(&turns).into_iter().map(|k| line[k]))
    }

    /// Whether nothing of `all` sticks out.
    fn holds(&self, all: &Self) -> bool {
        let mut pairs = self.reach.iter().zip(&all.reach);
        pairs.all(|(own, all)| *all <= own + BARELY / 2.0)
    }
}

/// A quarter of an outline in another one, about a middle at height `centre`.
fn placed(quarter: &[Point], [across, up]: Point, centre: f64) -> Vec<Point> {
    let turned = quarter.iter().map(|[y, z]| [across * y, centre + up * z]);
    turned.collect()
}

/// A quarter outline all the way round a middle at height `centre`.
fn around(quarter: &[Point], centre: f64) -> Vec<Point> {
    let mut line = Vec::with_capacity(4 * quarter.len());
    for (k, signs) in QUARTERS.into_iter().enumerate() {
        let mut next = placed(quarter, signs, centre);
        if k % 2 == 1 {
            next.reverse();
        }
        line.extend(next);
    }
    line.dedup();
    line
}

/// The outlines of what closes an end.
fn tip_rings(tail: &Tail<f64>, slices: &[pein::Slice]) -> Vec<Vec<Point>> {
    let section = match &tail.tip {
        Tip::Face(cap) => cap.outline,
        Tip::Ball(ball) => Section::circle(ball.radius),
        Tip::Pein(_) => {
            let ring = |slice: &pein::Slice| placed(&slice.points, [1.0; 2], tail.drop.at(slice.u));
            return slices.iter().map(ring).collect();
        }
    };
    vec![around(&quarter(&section), tail.tip_centre())]
}

/// Outlines along a run, whose points of one number follow each other.
fn run_rings(run: &Run<f64>) -> Vec<Vec<Point>> {
    let corner = |section: &Section<f64>| section.c.max(section.d);
    let steps = curve_steps(corner(&run.inner).max(corner(&run.outer)));
    let pieces = PIECES[usize::from(run.drop.slope != 0.0)];
    (0..=pieces)
        .map(|k| {
            let station = run.at(k as f64 / pieces as f64);
            let mut ring = Vec::with_capacity(4 * steps + 16);
            for signs in QUARTERS {
                let mut quarter = vec![[station.section.a, 0.0]];
                quarter.extend((0..=steps).map(|step| {
                    let share = step as f64 / steps as f64;
                    let (y, z, ..) = station.section.along(Piece::Corner, share);
                    [y, z]
                }));
                if signs[0] * signs[1] < 0.0 {
                    quarter.reverse();
                }
                ring.extend(placed(&quarter, signs, station.centre));
            }
            ring
        })
        .collect()
}

pub(super) fn face(head: &Head<f64>, peins: &Peins, shapes: &mut Vec<Shape>) {
    let view = View::Face;
    let front = head.end(Side::Front);
    let back = head.end(Side::Back);
    let rays: Vec<Point> = (0..ANGLES)
        .map(|k| {
            let (sin, cos) = (std::f64::consts::TAU * k as f64 / ANGLES as f64).sin_cos();
            [cos, sin]
        })
        .collect();
    let mut cover = Cover::new(&rays);
    // From the viewer inwards: the face or ball, its necks, the block; then the back end.
    let mut swept = tip_rings(front, &peins[Side::Front as usize]);
    cover.add_rings(&swept);
    let face = match (&front.tip, &swept[..]) {
        (Tip::Face(_) | Tip::Ball(_), [ring]) => ring.clone(),
        _ => cover.outline(&swept),
    };
    let mut rings = vec![face.clone()];
    let (mut edges, mut corners) = (Vec::new(), Vec::new());
    for run in front.runs.iter().skip(1).rev() {
        let quarter = quarter(&run.inner);
        let centre = run.drop.at(run.from);
        for signs in QUARTERS {
            edges.extend(seen(&cover, &placed(&quarter, signs, centre)));
        }
        corner_edges(run, &cover, &mut corners);
        rings.push(around(&quarter, centre));
        let between = run_rings(run);
        cover.add_rings(&between);
        swept.extend(between);
    }
    let block = head.block_at(0.0);
    rings.push(around(&quarter(&block.section), block.centre));
    for run in back.runs.iter().skip(1) {
        rings.push(around(&quarter(&run.outer), run.drop.at(run.to)));
        let between = run_rings(run);
        cover.add_rings(&between);
        swept.extend(between);
    }
    let mut tip = tip_rings(back, &peins[Side::Back as usize]);
    cover.add_rings(&tip);
    match back.tip {
        Tip::Pein(_) => swept.extend(tip),
        Tip::Face(_) | Tip::Ball(_) => rings.append(&mut tip),
    }
    for ring in &rings {
        cover.add_rings(std::slice::from_ref(ring));
    }
    // One of them when it holds all others.
    let holding = rings.iter().find(|ring| {
        let mut own = Cover::new(&rays);
        own.add_rings(std::slice::from_ref(ring));
        own.holds(&cover)
    });
    let silhouette = match holding {
        Some(ring) => ring.clone(),
        None => {
            swept.extend(rings);
            cover.outline(&swept)
        }
    };
    let mut add = |stroke, points, closed| {
        shapes.push(Shape {
            view,
            stroke,
            points,
            closed,
        });
    };
    let [mut wide, mut low, mut high] = [0.0_f64; 3];
    for [y, z] in &silhouette {
        (wide, low, high) = (wide.max(*y), low.min(*z), high.max(*z));
    }
    add(Stroke::Steel, silhouette.clone(), true);
    add(Stroke::Outline, silhouette, true);
    add(Stroke::FaceArea, face.clone(), true);
    add(Stroke::Outline, face, true);
    if let Tip::Pein(pein) = &front.tip {
        let end = pein.limit(pein.reach);
        let at = |k: i32| {
            let xi = end * f64::from(k) / f64::from(PEIN_STEPS);
            let [y, z] = pein.across(xi, 0.0);
            [y, z + front.drop.at(pein.u_at(pein.reach, xi))]
        };
        edges.push((-PEIN_STEPS..=PEIN_STEPS).map(at).collect());
    }
    for edge in edges.into_iter().chain(corners) {
        add(Stroke::Edge, edge, false);
    }
    if let Some(cap) = front.tip.face()
        && cap.rim == Rim::Chamfered
    {
        let inner = around(&quarter(&cap.inner()), front.tip_centre());
        add(Stroke::Edge, inner, true);
    }
    for way in [1.0, -1.0] {
        add(Stroke::Hidden, wall(head, Across::Wide, way), false);
    }
    add(Stroke::Centre, vec![[-wide, 0.0], [wide, 0.0]], false);
    add(Stroke::Centre, vec![[0.0, low], [0.0, high]], false);
    if head.eye.lean.is_some_and(|lean| lean.across != 0.0) {
        let handle = head.eye.mouths.map(|z| [head.eye.centre(z)[1], z]);
        add(Stroke::Centre, handle.to_vec(), false);
    }
}

/// Where flats meet chamfered corners along a front run, as far as they are seen.
fn corner_edges(run: &Run<f64>, cover: &Cover, edges: &mut Vec<Vec<Point>>) {
    let (inner, outer) = (run.inner, run.outer);
    if inner.span_weights(&outer) != (0.0, 0.0) || inner.c <= 0.0 || outer.c <= 0.0 {
        return;
    }
    for up in [true, false] {
        for [across, way] in QUARTERS {
            let line: Vec<Point> = (0..=EDGE_STEPS)
                .map(|step| {
                    let station = run.at(1.0 - step as f64 / EDGE_STEPS as f64);
                    let Section { a, b, c, d, .. } = station.section;
                    let [y, z] = if up { [a, b - d] } else { [a - c, b] };
                    [across * y, station.centre + way * z]
                })
                .collect();
            let parts = seen(cover, &line).into_iter();
            edges.extend(parts.map(|part| straightened(part.into_iter())));
        }
    }
}

/// The parts of `line` that lie outside everything in front.
fn seen(cover: &Cover, line: &[Point]) -> Vec<Vec<Point>> {
    let room = |point: Point| point[0].hypot(point[1]) - cover.towards(point) - BARELY;
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
