//! The plain side view of a head, for the small pictures.

use headwright::design::Side;
use headwright::solid::{Head, Solid, Tail, Tip};

/// Points along a run that is not straight, and down a crown.
const POINTS: usize = 12;

/// Side view as SVG paths in mm: x to the front, y down, origin in the middle of the eye.
#[derive(Clone, Debug, PartialEq)]
pub struct Silhouette {
    /// The closed outline.
    pub outline: String,
    /// The walls of the eye, hidden behind the cheeks.
    pub eye: String,
    /// Least x, greatest x.
    pub ends: (f64, f64),
    /// Half of the greatest height.
    pub half_height: f64,
}

impl Silhouette {
    /// The side view of `solid`.
    pub fn of(solid: &Solid) -> Self {
        let head = solid.head();
        let front = upper_line(head.end(Side::Front));
        let back = upper_line(head.end(Side::Back));
        let upper: Vec<(f64, f64)> = back
            .iter()
            .rev()
            .map(|(u, z)| (-u, *z))
            .chain(front.iter().copied())
            .collect();
        let points = upper
            .iter()
            .map(|(x, z)| (*x, -z))
            .chain(upper.iter().rev().copied());
        let half_height = upper.iter().fold(0.0, |most: f64, (_, z)| most.max(*z));
        let far = |line: &[(f64, f64)]| line.iter().fold(0.0, |most: f64, (u, _)| most.max(*u));
        Self {
            outline: path(points, true),
            eye: eye_walls(head),
            ends: (-far(&back), far(&front)),
            half_height,
        }
    }
}

/// The upper line of an end from the handle axis to the crown's apex, as (u, z).
fn upper_line(tail: &Tail<f64>) -> Vec<(f64, f64)> {
    let mut line = Vec::new();
    for run in &tail.runs {
        line.extend((0..=POINTS).map(|i| {
            let (u, section) = run.at(i as f64 / POINTS as f64);
            (u, section.b)
        }));
    }
    let cap = match &tail.tip {
        Tip::Face(cap) => cap,
        Tip::Ball(ball) => {
            let from = ball.neck.atan2(-ball.depth());
            line.extend((0..=2 * POINTS).map(|i| {
                let (sin, cos) = (from * (1.0 - i as f64 / (2 * POINTS) as f64)).sin_cos();
                (ball.centre() + ball.radius * cos, ball.radius * sin)
            }));
            return line;
        }
    };
    for i in 0..=POINTS {
        let (inset, drop, ..) = cap.edge_at(i as f64 / POINTS as f64);
        let z = cap.outline.b - inset;
        line.push((cap.reach - cap.sag(z * z) - drop, z));
    }
    let rim = cap.outline.b - cap.edge;
    for i in (0..POINTS).rev() {
        let z = rim * i as f64 / POINTS as f64;
        line.push((cap.reach - cap.sag(z * z), z));
    }
    line
}

fn eye_walls(head: &Head<f64>) -> String {
    let eye = &head.eye;
    let levels = [
        (-eye.half_height, eye.top.p),
        (-eye.waist_height, eye.waist.p),
        (eye.half_height, eye.bottom.p),
    ];
    [-1.0, 1.0]
        .map(|side| path(levels.iter().map(|(y, p)| (side * p, *y)), false))
        .concat()
}

fn path(points: impl Iterator<Item = (f64, f64)>, closed: bool) -> String {
    let mut path = String::new();
    for (index, (x, y)) in points.enumerate() {
        let letter = if index == 0 { 'M' } else { 'L' };
        path.push_str(&format!("{letter}{x:.2} {y:.2}"));
    }
    if closed {
        path.push('Z');
    }
    path
}

#[cfg(test)]
mod tests {
    use super::*;
    use headwright::design::starter;

    #[test]
    fn a_side_view_reaches_as_far_as_the_faces_do() {
        let design = starter("long").expect("a starter");
        let view = Silhouette::of(&design.build().expect("sound"));
        assert_eq!(view.ends, (-75.0, 75.0));
        assert_eq!(view.half_height, 20.0);
    }
}
