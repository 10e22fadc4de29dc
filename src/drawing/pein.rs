//! A pein on the drawing: its silhouettes from the side and from above, and what is seen of it
//! along the head.
//!
//! All of them come from slices at constant v: the arm's outline as a polygon, cut by the slab's
//! faces and by the broken corners. A slice is the same from either end of its middle, so that
//! its silhouette is the same above and below.

use super::Point;
use super::profile::quarter;
use crate::solid::Pein;

/// Slices along the slope, and where the pein narrows to its nose.
const SLICES: usize = 12;
/// Points along the edge from its end to its middle.
const TIP: usize = 12;
/// Angles in half a turn at which the outline seen along the head is looked for.
const ANGLES: usize = 96;
/// Below this, mm, an edge has no length across the view.
const NO_LENGTH: f64 = 1e-6;

/// The direction in which a view shows a slice.
#[derive(Clone, Copy, PartialEq)]
pub(super) enum Seen {
    /// z, from the side.
    Up,
    /// y, from above.
    Wide,
}

/// The silhouette from the pein's start to its tip, as (u, half-size).
///
/// # Accuracy
/// 0.1 mm; with a rocker on an edge that is neither across nor along the handle the last
/// millimetres before the tip come out up to half a millimetre short.
pub(super) fn profile(pein: &Pein<f64>, seen: Seen) -> Vec<Point> {
    let [cos, sin] = pein.direction;
    let outline = outline(pein);
    let across = |[xi, eta]: Point| match seen {
        Seen::Up => xi * sin + eta * cos,
        Seen::Wide => xi * cos - eta * sin,
    };
    let mut line = Vec::new();
    let mut last = 0.0;
    for v in stops(pein) {
        let slice = slice(pein, &outline, v);
        // Of points equally far out the one nearest to the middle of the edge reaches farthest.
        let farthest = slice.into_iter().max_by(|p, q| {
            let order = |p: &Point| across(*p) - NO_LENGTH * p[0].abs();
            order(p).total_cmp(&order(q))
        });
        if let Some(at) = farthest {
            last = at[0];
            line.push([pein.u_at(v, at[0]), across(at).max(0.0)]);
        }
    }
    if across([last, 0.0]).abs() > NO_LENGTH {
        line.extend((1..=TIP).map(|k| {
            let xi = last * (1.0 - k as f64 / TIP as f64);
            [pein.u_at(pein.reach, xi), across([xi, 0.0]).abs()]
        }));
    } else {
        line.push([pein.reach, 0.0]);
    }
    line
}

/// What is seen of the pein along the head, once round, as (y, z) from its axis.
pub(super) fn end_view(pein: &Pein<f64>) -> Vec<Point> {
    let outline = outline(pein);
    let slices: Vec<Vec<Point>> = stops(pein)
        .into_iter()
        .map(|v| slice(pein, &outline, v))
        .filter(|slice| slice.len() > 2)
        .collect();
    let half: Vec<Point> = (0..ANGLES)
        .map(|k| {
            let (sin, cos) = (std::f64::consts::PI * k as f64 / ANGLES as f64).sin_cos();
            let reach = |slice: &Vec<Point>| ray(slice, [cos, sin]);
            let r = slices.iter().map(reach).fold(0.0, f64::max);
            pein.across(r * cos, r * sin)
        })
        .collect();
    let other = half.iter().map(|[y, z]| [-y, -z]);
    half.iter().copied().chain(other).collect()
}

/// The ends of the edge, as (y, z) from the pein's axis.
pub(super) fn edge(pein: &Pein<f64>) -> [Point; 2] {
    let xi = pein.limit(pein.reach);
    [pein.across(-xi, 0.0), pein.across(xi, 0.0)]
}

/// The station's outline, once round, as (ξ, η).
fn outline(pein: &Pein<f64>) -> Vec<Point> {
    let quarter = quarter(&pein.section);
    let half: Vec<Point> = quarter
        .iter()
        .copied()
        .chain(quarter.iter().rev().map(|[y, z]| [-y, *z]))
        .collect();
    let other = half.iter().map(|[y, z]| [-y, -z]);
    half.iter()
        .copied()
        .chain(other)
        .map(|[y, z]| pein.along(y, z))
        .collect()
}

/// Values of v from the start to the tip, closer where the nose turns and the corners are broken.
fn stops(pein: &Pein<f64>) -> Vec<f64> {
    let even = |k: usize| k as f64 / SLICES as f64;
    let [tangent, _] = pein.tangent;
    let close = (pein.reach - tangent).max(pein.corner_break);
    let mut stops: Vec<f64> = (0..=SLICES)
        .map(|k| pein.start + (tangent - pein.start) * even(k))
        .chain((0..=SLICES).map(|k| pein.reach - close * even(k) * even(k)))
        .filter(|v| *v >= pein.start)
        .collect();
    stops.sort_by(f64::total_cmp);
    stops.dedup();
    stops
}

/// The slice at `v` as a polygon in (ξ, η).
fn slice(pein: &Pein<f64>, outline: &[Point], v: f64) -> Vec<Point> {
    const TURNS: usize = 4;
    let mut points: Vec<Point> = outline
        .iter()
        .map(|[xi_0, eta_0]| {
            let mut growth = pein.growth(v);
            for _ in 0..TURNS {
                growth = pein.growth(pein.u_at(v, xi_0 * growth));
            }
            [xi_0 * growth, eta_0 * growth]
        })
        .collect();
    let half = pein.thickness(v);
    let limit = pein.limit(v);
    for (axis, most) in [(1, half), (0, limit)] {
        if axis == 0 && pein.break_at(v) <= 0.0 {
            continue;
        }
        for way in [1.0, -1.0] {
            points = cut(&points, |point| most - way * point[axis]);
        }
    }
    with_middle(&points)
}

/// The polygon with points at mid edge, where a rocker reaches farthest.
fn with_middle(points: &[Point]) -> Vec<Point> {
    let mut all = Vec::with_capacity(points.len() + 2);
    for (k, point) in points.iter().enumerate() {
        let next = points[(k + 1) % points.len()];
        all.push(*point);
        if point[0] * next[0] < 0.0 {
            let share = point[0] / (point[0] - next[0]);
            all.push([0.0, point[1] + (next[1] - point[1]) * share]);
        }
    }
    all
}

/// The part of a convex polygon where `room` is not negative.
fn cut(points: &[Point], room: impl Fn(Point) -> f64) -> Vec<Point> {
    let mut kept = Vec::with_capacity(points.len() + 2);
    for (k, point) in points.iter().enumerate() {
        let next = points[(k + 1) % points.len()];
        let (here, there) = (room(*point), room(next));
        if here >= 0.0 {
            kept.push(*point);
        }
        if (here >= 0.0) != (there >= 0.0) {
            let share = here / (here - there);
            kept.push([0, 1].map(|axis| point[axis] + (next[axis] - point[axis]) * share));
        }
    }
    kept
}

/// How far a polygon around the origin reaches in a direction of unit length.
fn ray(points: &[Point], [cos, sin]: Point) -> f64 {
    let mut farthest: f64 = 0.0;
    for (k, [x0, y0]) in points.iter().enumerate() {
        let [x1, y1] = points[(k + 1) % points.len()];
        let (before, after) = (cos * y0 - sin * x0, cos * y1 - sin * x1);
        if (before <= 0.0) != (after <= 0.0) {
            let share = before / (before - after);
            let along = (x0 + (x1 - x0) * share) * cos + (y0 + (y1 - y0) * share) * sin;
            farthest = farthest.max(along);
        }
    }
    farthest
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
