//! A pein on the drawing, as slices across the head.
//!
//! Every slice has the same number of points, and those of one number follow each other along
//! the head: all that is drawn of a pein, from any side, is read off them.

use super::Point;
use super::profile::{CHORD, quarter};
use crate::numeric::roots::{crossing, sign_change};
use crate::solid::Pein;

/// Points on the slab's face, from one side of the arm to the other.
const FACE: usize = 20;
/// Slices to begin with, closer towards the tip.
const SLICES: usize = 16;
/// How often the way between two of them may be halved.
const HALVINGS: usize = 7;
/// Room for roundoff, mm.
const NOTHING: f64 = 1e-9;
/// Sine of the least turn of an outline that is drawn as an edge, and how near, mm, points are one.
const EDGE: (f64, f64) = (0.25, 1e-4);
/// The first slice stands this share behind the pein's start, where the slab has begun to cut.
const BEGUN: f64 = 1e-7;

/// A slice at `u`: its outline once round, as (y, z) from the end's axis. The second half is the
/// first one turned about the axis.
pub(super) struct Slice {
    pub u: f64,
    pub points: Vec<Point>,
    /// The point where the slab's face begins.
    corner: usize,
}

impl Slice {
    /// Half of its size along an axis of the view.
    pub fn half(&self, axis: usize) -> f64 {
        self.points.iter().fold(0.0, |most, p| most.max(p[axis]))
    }

    /// Whether the outline turns sharply at a point, both of whose sides are seen from the
    /// direction `eye`.
    fn is_edge(&self, index: usize, eye: Point) -> bool {
        let (points, count) = (&self.points, self.points.len());
        let here = points[index];
        let apart = |k: usize| (points[k][0] - here[0]).hypot(points[k][1] - here[1]) > EDGE.1;
        // Of points that fall together the one next to the slab's face stands for all.
        let way = if index % (count / 2) <= self.corner {
            1
        } else {
            count - 1
        };
        if !apart((index + way) % count) {
            return false;
        }
        let near = |way: usize| {
            let mut others = (1..count).map(|k| (index + k * way) % count);
            others.find(|k| apart(*k)).unwrap_or(index)
        };
        let (next, before) = (near(1), near(count - 1));
        let side = |from: Point, to: Point| {
            let (dy, dz) = (to[0] - from[0], to[1] - from[1]);
            let length = dy.hypot(dz);
            [dz / length, -dy / length]
        };
        let (one, other) = (side(points[before], here), side(here, points[next]));
        let seen = |normal: Point| normal[0] * eye[0] + normal[1] * eye[1] > EDGE.1;
        one[0] * other[1] - one[1] * other[0] > EDGE.0 && seen(one) && seen(other)
    }
}

/// The slices from the pein's start to its tip.
///
/// # Accuracy
/// Straight lines between neighbouring slices leave the surface by no more than a chord may.
pub(super) fn slices(pein: &Pein<f64>) -> Vec<Slice> {
    let arm = Arm::new(pein);
    let at = |t: f64| arm.slice(pein.reach - pein.length() * (1.0 - t) * (1.0 - t));
    let mut slices = vec![at(BEGUN)];
    for k in 0..SLICES {
        let [from, to] = [k, k + 1].map(|k| BEGUN.max(k as f64 / SLICES as f64));
        refine(&at, [from, to], at(to), HALVINGS, &mut slices);
    }
    slices
}

/// Adds the slices after the one at `from` up to `last` at `to`, until a straight line between two
/// keeps to the surface.
fn refine(
    at: &dyn Fn(f64) -> Slice,
    [from, to]: [f64; 2],
    last: Slice,
    halvings: usize,
    slices: &mut Vec<Slice>,
) {
    let middle = 0.5 * (from + to);
    let between = at(middle);
    let bent = slices.last().is_some_and(|first| {
        let length = last.u - first.u;
        let bends = |[from, middle, to]: [f64; 3]| {
            let rise = to - from;
            let aside = from + rise * (between.u - first.u) / length - middle;
            // At right angles to the surface: along it, points may move as they like.
            aside.abs() > CHORD * (rise / length).hypot(1.0)
        };
        let three = [first, &between, &last];
        let count = last.points.len();
        let outwards = |k: usize| {
            let [before, next] = [count - 1, 1].map(|by| between.points[(k + by) % count]);
            let (dy, dz) = (next[0] - before[0], next[1] - before[1]);
            let size = dy.hypot(dz).max(NOTHING);
            three.map(|slice| (slice.points[k][0] * dz - slice.points[k][1] * dy) / size)
        };
        // The corners where the slab's face begins and ends are seen wherever they move.
        let corners = [last.corner, last.corner + FACE];
        let bends_along = |axis: usize| {
            bends(three.map(|slice| slice.half(axis)))
                || corners
                    .iter()
                    .any(|k| bends(three.map(|slice| slice.points[*k][axis])))
        };
        bends_along(0) || bends_along(1) || (0..count / 2).any(|k| bends(outwards(k)))
    });
    if bent && halvings > 0 {
        refine(at, [from, middle], between, halvings - 1, slices);
        refine(at, [middle, to], last, halvings - 1, slices);
    } else {
        slices.push(last);
    }
}

/// The sharp edges of a pein seen from the direction `eye` of (y, z), as (u, y, z).
pub(super) fn edges(slices: &[Slice], eye: Point) -> Vec<Vec<[f64; 3]>> {
    let count = slices.first().map_or(0, |slice| slice.points.len());
    let mut lines = Vec::new();
    for k in 0..count {
        for seen in slices.split(|slice| !slice.is_edge(k, eye)) {
            if seen.len() > 1 {
                let at = |slice: &Slice| [slice.u, slice.points[k][0], slice.points[k][1]];
                lines.push(seen.iter().map(at).collect());
            }
        }
    }
    lines
}

/// A pein with the outline of its arm.
struct Arm<'a> {
    pein: &'a Pein<f64>,
    /// The upper half of the station's outline as (ξ, η), from the greatest ξ to the least.
    upper: Vec<Point>,
    /// Its highest point.
    top: usize,
}

impl<'a> Arm<'a> {
    fn new(pein: &'a Pein<f64>) -> Self {
        let quarter = quarter(&pein.section);
        let mut outline = quarter.clone();
        outline.extend(quarter.iter().rev().map(|[y, z]| [-y, *z]));
        outline.extend_from_within(..);
        let count = outline.len() / 2;
        for point in &mut outline[count..] {
            *point = point.map(|size| -size);
        }
        for point in &mut outline {
            *point = pein.along(point[0], point[1]);
        }
        let most = |points: &[Point], [along, up]: Point| {
            let far = |k: &usize| points[*k][0] * along + points[*k][1] * up;
            (0..points.len())
                .max_by(|i, j| far(i).total_cmp(&far(j)))
                .unwrap_or(0)
        };
        let first = most(&outline, [1.0, NOTHING]);
        outline.rotate_left(first);
        outline.truncate(count + 1);
        // Where the arm ends in a flat, its upper end counts.
        while let [.., before, last] = outline[..]
            && before[0] - last[0] < NOTHING
        {
            outline.pop();
        }
        let top = most(&outline, [0.0, 1.0]);
        Self {
            pein,
            upper: outline,
            top,
        }
    }

    /// η of the upper half at ξ, where the arm has grown by `growth`.
    fn height(&self, xi: f64, growth: f64) -> f64 {
        let xi = xi / growth;
        let last = self.upper.len() - 1;
        let next = self.upper.partition_point(|p| p[0] >= xi).clamp(1, last);
        let ([x0, y0], [x1, y1]) = (self.upper[next - 1], self.upper[next]);
        let share = ((x0 - xi) / (x0 - x1).max(f64::MIN_POSITIVE)).clamp(0.0, 1.0);
        (y0 + (y1 - y0) * share) * growth
    }

    /// The greatest |ξ| of the slice at `u` that lies before `v`.
    fn before(&self, u: f64, v: f64) -> f64 {
        let Pein { start, rocker, .. } = *self.pein;
        let recess = self.pein.length() * (1.0 - (u - start) / (v - start));
        if recess < -NOTHING {
            0.0
        } else if rocker > 0.0 {
            let recess = recess.min(1.0 / rocker);
            (recess * (2.0 / rocker - recess)).max(0.0).sqrt()
        } else {
            f64::INFINITY
        }
    }

    /// The slice at `u`: the arm there, cut by the slab and by the broken ends of the edge.
    fn slice(&self, u: f64) -> Slice {
        let pein = self.pein;
        let growth = pein.growth(u);
        let v = |xi: f64| pein.start + (u - pein.start) / pein.shortening(xi);
        let slab = |xi: f64| pein.thickness(v(xi));
        let height = |xi: f64| self.height(xi, growth);
        let lower = |xi: f64| height(xi).min(slab(xi));
        let mut limit = (self.upper[0][0] * growth).min(self.before(u, pein.reach));
        let whole = self.before(u, pein.reach - pein.corner_break);
        if pein.corner_break > 0.0 && limit > whole {
            let room = |xi: f64| pein.radius * growth - pein.break_at(v(xi)) - xi;
            let short = room(limit);
            if short < 0.0 {
                let end = crossing((0.0, room(0.0)), (limit, short), room);
                limit = end.map_or(whole, |xi| xi.max(whole));
            }
        }
        // Where the arm leans over, the slab has left it before its farthest point.
        let opening = |xi: f64| lower(xi) + lower(-xi) + NOTHING;
        limit = sign_change(0.0, limit, opening).unwrap_or(limit);
        let top = (self.upper[self.top][0] * growth).clamp(-limit, limit);
        let cut = |end: f64| {
            let above = |xi: f64| height(xi) - slab(xi);
            let short = above(end);
            if short < 0.0 {
                let found = crossing((top, above(top)), (end, short), above);
                found.unwrap_or(top).clamp(-limit, limit)
            } else {
                end
            }
        };
        let (right, left) = (cut(limit), cut(-limit));
        let along = |point: &Point| point[0] * growth;
        let before = self.upper[..=self.top].iter();
        // Closer to the ends, where a rocker lets the face end in a round.
        let face = (1..FACE).map(|k| {
            let turn = std::f64::consts::PI * k as f64 / FACE as f64;
            0.5 * (left + right) + 0.5 * (right - left) * turn.cos()
        });
        let after = self.upper[self.top..].iter();
        let mut points: Vec<Point> = before
            .map(|point| along(point).clamp(right, limit))
            .chain(face)
            .chain(after.map(|point| along(point).clamp(-limit, left)))
            .map(|xi| pein.across(xi, lower(xi)))
            .collect();
        let half = points.len();
        points.extend_from_within(..);
        for point in &mut points[half..] {
            *point = point.map(|size| -size);
        }
        Slice {
            u,
            points,
            corner: self.top,
        }
    }
}
