//! A pein on the drawing, as slices across the head.
//!
//! Every slice has the same number of points, and those of one number follow each other along
//! the head: all that is drawn of a pein, from any side, is read off them.

use super::Point;
use super::profile::{CHORD, quarter};
use crate::numeric::roots::sign_change;
use crate::solid::Pein;

/// Points on the slab's face, from one side of the arm to the other.
const FACE: usize = 16;
/// Slices to begin with, closer towards the tip.
const SLICES: usize = 12;
/// How often the way between two of them may be halved.
const HALVINGS: usize = 6;
/// Room for roundoff, mm.
const NOTHING: f64 = 1e-9;
/// Sine of the least turn of an outline that is drawn as an edge, and how near, mm, points are one.
const EDGE: (f64, f64) = (0.25, 1e-6);

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
        let next = (1..count).map(|k| (index + k) % count);
        let before = (1..count).map(|k| (index + count - k) % count);
        let (Some(next), Some(before)) = (
            next.clone().find(|k| apart(*k)),
            before.clone().find(|k| apart(*k)),
        ) else {
            return false;
        };
        // Of points that fall together the one next to the slab's face stands for all.
        let beside = if index % (count / 2) <= self.corner {
            index + 1
        } else {
            index + count - 1
        };
        let side = |from: Point, to: Point| {
            let (dy, dz) = (to[0] - from[0], to[1] - from[1]);
            let length = dy.hypot(dz);
            [dz / length, -dy / length]
        };
        let (one, other) = (side(points[before], here), side(here, points[next]));
        let seen = |normal: Point| normal[0] * eye[0] + normal[1] * eye[1] > EDGE.1;
        apart(beside % count)
            && one[0] * other[1] - one[1] * other[0] > EDGE.0
            && seen(one)
            && seen(other)
    }
}

/// The slices from the pein's start to its tip.
///
/// # Accuracy
/// Straight lines between neighbouring slices leave the surface by no more than a chord may.
pub(super) fn slices(pein: &Pein<f64>) -> Vec<Slice> {
    let arm = Arm::new(pein);
    let at = |t: f64| arm.slice(pein.reach - pein.length() * (1.0 - t) * (1.0 - t));
    let mut slices = vec![at(0.0)];
    for k in 0..SLICES {
        let [from, to] = [k, k + 1].map(|k| k as f64 / SLICES as f64);
        refine(&at, from, to, HALVINGS, &mut slices);
    }
    slices
}

/// Adds the slices after `from` up to `to`, until a straight line between two keeps to the surface.
fn refine(at: &dyn Fn(f64) -> Slice, from: f64, to: f64, halvings: usize, slices: &mut Vec<Slice>) {
    let middle = 0.5 * (from + to);
    let (last, between) = (at(to), at(middle));
    let bent = slices.last().is_some_and(|first| {
        let share = (between.u - first.u) / (last.u - first.u);
        let off = |k: usize| {
            let [p, q, r] = [first, &between, &last].map(|slice| slice.points[k]);
            let way = [r[0] - p[0], r[1] - p[1]];
            let aside = (p[0] + way[0] * share - q[0]).hypot(p[1] + way[1] * share - q[1]);
            // At right angles to the surface.
            aside / (way[0].hypot(way[1]) / (last.u - first.u)).hypot(1.0)
        };
        (0..last.points.len() / 2).any(|k| off(k) > CHORD)
    });
    if bent && halvings > 0 {
        refine(at, from, middle, halvings - 1, slices);
        refine(at, middle, to, halvings - 1, slices);
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

/// The ends of the edge, as (y, z) from the pein's axis.
pub(super) fn edge(pein: &Pein<f64>) -> [Point; 2] {
    let xi = pein.limit(pein.reach);
    [pein.across(-xi, 0.0), pein.across(xi, 0.0)]
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
        outline.truncate(count);
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
            if room(limit) < 0.0 {
                limit = sign_change(0.0, limit, room).map_or(whole, |xi| xi.max(whole));
            }
        }
        // Where the arm leans over, the slab has left it before its farthest point.
        let opening = |xi: f64| lower(xi) + lower(-xi) + NOTHING;
        limit = sign_change(0.0, limit, opening).unwrap_or(limit);
        let top = (self.upper[self.top][0] * growth).clamp(-limit, limit);
        let cut = |end: f64| {
            let above = |xi: f64| height(xi) - slab(xi);
            match above(end) < 0.0 {
                true => sign_change(top, end, above).unwrap_or(top),
                false => end,
            }
        };
        let (right, left) = (cut(limit), cut(-limit));
        let along = |point: &Point| point[0] * growth;
        let before = self.upper[..=self.top].iter();
        let face = (1..FACE).map(|k| right + (left - right) * k as f64 / FACE as f64);
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::{Design, Edit, Part, Side, Size};
    use crate::solid::{Head, Tip};
    use crate::units::Angle;

    /// That of a reference head, turned; turned askew it has no rocker.
    fn pein(degrees: f64) -> Pein<f64> {
        let file = include_str!("../../tests/reference/heads.json");
        let file: serde_json::Value = serde_json::from_str(file).expect("JSON");
        let heads = file["heads"].as_array().expect("a list of heads");
        let design = heads
            .iter()
            .map(|head| Design::from_json(&head["design"].to_string()).expect("reads"))
            .find(|design| design.name.starts_with("Cross pein"))
            .expect("a head with a pein");
        let dim = Part::Pein(Side::Back).size(Size::Direction);
        let mut design = design.apply(Edit::set(dim, Angle::degrees(degrees)));
        if degrees % 90.0 != 0.0 {
            let rocker = Part::Pein(Side::Back).size(Size::Rocker);
            design = design.apply(Edit::Optional(rocker, None));
        }
        match Head::lift(&design, &mut |_, number| number)
            .end(Side::Back)
            .tip
        {
            Tip::Pein(pein) => pein,
            _ => unreachable!("the reference head has a pein at its back"),
        }
    }

    #[test]
    fn a_silhouette_bounds_the_steel_closely() {
        for degrees in [0.0, 30.0, 45.0, 90.0] {
            let pein = pein(degrees);
            for (seen, axis) in [(Seen::Up, 1), (Seen::Wide, 0)] {
                for [u, half] in profile(&pein, seen) {
                    // Along the silhouette some point is steel just inside, none outside.
                    let steel = |u: f64, half: f64| {
                        (-400..=400).any(|k| {
                            let mut at = [f64::from(k) * 0.05; 2];
                            at[axis] = half;
                            pein.contains(u, at[0], at[1])
                        })
                    };
                    // A tenth of a millimetre is a fifth of a line's width at full size.
                    let beyond = steel(u + 0.1, half + 0.1);
                    assert!(!beyond, "{degrees}°, at {u}: beyond {half}");
                    let within = half < 0.5 || steel(u - 0.3, half - 0.3);
                    assert!(within, "{degrees}°, at {u}: within {half}");
                }
            }
        }
    }

    #[test]
    fn the_ends_of_the_edge_lie_as_far_apart_as_the_edge_is_long_less_its_broken_corners() {
        for degrees in [0.0, 45.0, 90.0] {
            let pein = pein(degrees);
            let [from, to] = edge(&pein);
            let length = (to[0] - from[0]).hypot(to[1] - from[1]);
            let whole = 2.0 * pein.half_edge - 2.0 * pein.corner_break;
            // The rocker takes the ends of the edge back to where the arm is a little narrower or
            // wider.
            assert!((length - whole).abs() < 0.3, "{length} of {whole}");
        }
    }
}
