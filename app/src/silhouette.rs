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
        let whole = |up: f64| -> Vec<(f64, f64)> {
            let back = line(head.end(Side::Back), up).into_iter().rev();
            back.map(|(u, z)| (-u, -z))
                .chain(
                    line(head.end(Side::Front), up)
                        .into_iter()
                        .map(|(u, z)| (u, -z)),
                )
                .collect()
        };
        let mut points = whole(1.0);
        points.extend(whole(-1.0).into_iter().rev());
        let half_height = points
            .iter()
            .fold(0.0, |most: f64, (_, y)| most.max(y.abs()));
        let [back, front] = [Side::Back, Side::Front].map(|side| head.end(side).tip.reach());
        Self {
            outline: path(points.into_iter(), true),
            eye: eye_walls(head),
            ends: (-back, front),
            half_height,
        }
    }
}

/// The upper (`up` 1) or lower (−1) line of an end from the handle axis to its tip, as (u, z).
fn line(tail: &Tail<f64>, up: f64) -> Vec<(f64, f64)> {
    let mut line = Vec::new();
    for run in &tail.runs {
        line.extend((0..=POINTS).map(|i| {
            let station = run.at(i as f64 / POINTS as f64);
            (station.u, station.centre + up * station.section.b)
        }));
    }
    let middle = tail.tip_centre();
    match &tail.tip {
        Tip::Face(cap) => {
            for i in 0..=POINTS {
                let (inset, drop, ..) = cap.edge_at(i as f64 / POINTS as f64);
                let z = cap.outline.b - inset;
                line.push((cap.reach - cap.sag(z * z) - drop, middle + up * z));
            }
            let rim = cap.outline.b - cap.edge;
            for i in (0..POINTS).rev() {
                let z = rim * i as f64 / POINTS as f64;
                line.push((cap.reach - cap.sag(z * z), middle + up * z));
            }
        }
        Tip::Ball(ball) => {
            let from = ball.neck.atan2(-ball.depth());
            line.extend((0..=2 * POINTS).map(|i| {
                let (sin, cos) = (from * (1.0 - i as f64 / (2 * POINTS) as f64)).sin_cos();
                let z = up * ball.radius * sin;
                (ball.centre() + ball.radius * cos, middle + z)
            }));
        }
        Tip::Pein(pein) => line.extend((1..=4 * POINTS).map(|i| {
            let u = pein.start + pein.length() * i as f64 / (4 * POINTS) as f64;
            (u, tail.drop.at(u) + up * pein.half_height_at(u))
        })),
    }
    line
}

fn eye_walls(head: &Head<f64>) -> String {
    let eye = &head.eye;
    let [low, high] = eye.mouths;
    [-1.0, 1.0]
        .map(|side| {
            let levels = (0..=2 * POINTS).map(|i| {
                let z = high + (low - high) * i as f64 / (2 * POINTS) as f64;
                (eye.centre(z)[0] + side * eye.at(z).p, -z)
            });
            path(levels, false)
        })
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
