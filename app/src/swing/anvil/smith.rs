//! The smith at the blow, drawn to scale: two tones for the body, the arm and the hammer in ink.

use std::fmt::Write;

use leptos::prelude::*;

use super::super::super::silhouette::Silhouette;
use super::super::present::Hammer;
use super::on_tape;
use headwright::design::Side;
use headwright::posture::Posture;
use headwright::units::{Length, System, show_length, unit_word};

/// px for a millimetre.
const SCALE: f64 = 0.3;
/// Room left of the smith, above the head, at the right of the anvil and below the floor, px.
const LEFT: f64 = 74.0;
const ABOVE: f64 = 16.0;
const BESIDE: f64 = 158.0;
const BELOW: f64 = 22.0;
/// Sizes of anvil and stump, mm: drawn, not designed.
const ANVIL: f64 = 290.0;
const HEEL: f64 = 200.0;
const HORN: f64 = 330.0;
const STUMP: f64 = 165.0;
/// How far back the other foot stands, over the height of the hip.
const STRIDE: f64 = 0.17;
/// Least distance of two values, px.
const APART: f64 = 22.0;

/// The body from the nape down the back, round the foot and up the front, as shares of the stature: forward of the
/// ankle, over the floor.
const BODY: [[f64; 2]; 28] = [
    [-0.030, 0.872],
    [-0.050, 0.838],
    [-0.078, 0.790],
    [-0.086, 0.730],
    [-0.068, 0.650],
    [-0.056, 0.600],
    [-0.078, 0.540],
    [-0.084, 0.500],
    [-0.064, 0.420],
    [-0.044, 0.310],
    [-0.054, 0.230],
    [-0.044, 0.140],
    [-0.028, 0.060],
    [-0.038, 0.020],
    [-0.034, 0.000],
    [0.106, 0.000],
    [0.108, 0.014],
    [0.070, 0.034],
    [0.034, 0.060],
    [0.030, 0.140],
    [0.040, 0.260],
    [0.046, 0.320],
    [0.062, 0.430],
    [0.066, 0.520],
    [0.074, 0.600],
    [0.076, 0.720],
    [0.052, 0.800],
    [0.028, 0.850],
];
/// The head in profile, from the nape over the crown.
const FACE: [[f64; 2]; 13] = [
    [-0.032, 0.862],
    [-0.044, 0.905],
    [-0.056, 0.950],
    [-0.036, 0.990],
    [0.008, 1.000],
    [0.044, 0.982],
    [0.056, 0.950],
    [0.068, 0.926],
    [0.056, 0.916],
    [0.058, 0.890],
    [0.046, 0.871],
    [0.022, 0.868],
    [0.028, 0.842],
];
/// The cap on it.
const CAP: [[f64; 2]; 7] = [
    [-0.056, 0.948],
    [-0.044, 0.986],
    [0.000, 1.006],
    [0.044, 0.990],
    [0.060, 0.958],
    [0.020, 0.962],
    [-0.020, 0.954],
];
/// The apron.
const APRON: [[f64; 2]; 9] = [
    [0.030, 0.770],
    [0.076, 0.740],
    [0.083, 0.620],
    [0.076, 0.480],
    [0.070, 0.330],
    [-0.006, 0.322],
    [-0.010, 0.480],
    [-0.006, 0.600],
    [0.010, 0.690],
];

/// A closed smooth line through `points` (a Catmull–Rom curve written as cubic Béziers).
fn smooth(points: &[[f64; 2]]) -> String {
    let count = points.len();
    let at = |k: usize| points[k % count];
    let mut path = String::new();
    for k in 0..count {
        let [before, from, to, after] = [at(k + count - 1), at(k), at(k + 1), at(k + 2)];
        let lead = |i: usize| from[i] + (to[i] - before[i]) / 6.0;
        let trail = |i: usize| to[i] - (after[i] - from[i]) / 6.0;
        if k == 0 {
            let _ = write!(path, "M{:.1} {:.1}", from[0], from[1]);
        }
        // Writing to a string cannot fail.
        let _ = write!(
            path,
            "C{:.1} {:.1} {:.1} {:.1} {:.1} {:.1}",
            lead(0),
            lead(1),
            trail(0),
            trail(1),
            to[0],
            to[1]
        );
    }
    path.push('Z');
    path
}

/// Where things stand in the picture, from mm forward of the ankles and over the floor.
struct Place {
    floor: f64,
}

impl Place {
    fn at(&self, [forward, up]: [f64; 2]) -> [f64; 2] {
        [LEFT + forward * SCALE, self.floor - up * SCALE]
    }

    fn body(&self, shares: &[[f64; 2]], stature: f64) -> String {
        let points: Vec<[f64; 2]> = shares
            .iter()
            .map(|share| self.at(share.map(|s| s * stature)))
            .collect();
        smooth(&points)
    }

    fn line(&self, points: &[[f64; 2]]) -> String {
        let mut path = String::new();
        for (k, point) in points.iter().enumerate() {
            let [x, y] = self.at(*point);
            let letter = if k == 0 { 'M' } else { 'L' };
            let _ = write!(path, "{letter}{x:.1} {y:.1}");
        }
        path
    }
}

/// Anvil and horn, its face at `top` and the blow at `x`; the foot stands on a stump or, where it is low, on the floor.
fn anvil(place: &Place, [x, top]: [f64; 2]) -> (String, String) {
    let height = ANVIL.min(0.6 * top);
    let low = top - height;
    let up = |share: f64| low + share * height;
    let body = [
        [x - HEEL, top],
        [x + 0.52 * HORN, top],
        [x + 0.8 * HORN, up(0.97)],
        [x + HORN, up(0.86)],
        [x + 0.7 * HORN, up(0.72)],
        [x + 0.3 * HORN, up(0.62)],
        [x + 70.0, up(0.5)],
        [x + 78.0, up(0.32)],
        [x + 140.0, up(0.12)],
        [x + 140.0, low],
        [x - 140.0, low],
        [x - 140.0, up(0.12)],
        [x - 78.0, up(0.32)],
        [x - 84.0, up(0.55)],
        [x - HEEL, up(0.76)],
    ];
    let stump = [
        [x - STUMP, low],
        [x + STUMP, low],
        [x + STUMP + 8.0, 0.0],
        [x - STUMP - 8.0, 0.0],
    ];
    (place.line(&body) + "Z", place.line(&stump) + "Z")
}

/// Heights of values beside the anvil, moved apart from above.
fn spread(mut wanted: Vec<f64>) -> Vec<f64> {
    for k in 1..wanted.len() {
        wanted[k] = wanted[k].max(wanted[k - 1] + APART);
    }
    wanted
}

/// The figure.
pub fn figure(
    hammer: &Hammer,
    posture: &Posture,
    side: Side,
    work_mm: f64,
    system: System,
) -> impl IntoView + use<> {
    let joints = &posture.figure;
    let stature = posture.build.stature_mm;
    let place = Place {
        floor: ABOVE + 1.02 * stature * SCALE,
    };
    let blow = joints.face[0];
    let end = LEFT + (blow + HORN) * SCALE;
    let (width, height) = (end + BESIDE, place.floor + BELOW);
    let (anvil, stump) = anvil(&place, joints.anvil);
    let view = Silhouette::of(&hammer.solid);
    // The face points down and the wedge side away from the smith.
    let drop = hammer.tool.end(side).striker.point_mm[2];
    let [eye_x, eye_y] = place.at([joints.eye[0] - drop, joints.eye[1]]);
    let turn = match side {
        Side::Front => format!("matrix(0 {SCALE} -{SCALE} 0 {eye_x:.2} {eye_y:.2})"),
        Side::Back => format!("matrix(0 -{SCALE} -{SCALE} 0 {eye_x:.2} {eye_y:.2})"),
    };
    let handle = {
        let upper = hammer
            .made
            .outline
            .iter()
            .map(|at| [at.along_mm, at.half_depth_mm]);
        let lower = hammer
            .made
            .outline
            .iter()
            .rev()
            .map(|at| [at.along_mm, -at.half_depth_mm]);
        let points: Vec<[f64; 2]> = upper
            .chain(lower)
            .map(|[along, up]| [joints.eye[0] - drop + along, joints.eye[1] + up])
            .collect();
        place.line(&points) + "Z"
    };
    let work = {
        let [x, y] = place.at([blow - 90.0, joints.anvil[1] + work_mm]);
        view! { <rect class="hot-work" x=f1(x) y=f1(y) width=f1(180.0 * SCALE) height=f1((work_mm * SCALE).max(1.5)) /> }
    };
    let arm = place.line(&[joints.shoulder, joints.elbow, joints.wrist, joints.grip]);
    let thick = format!("stroke-width:{:.1}", 0.05 * stature * SCALE);
    let inner = format!("stroke-width:{:.1}", 0.05 * stature * SCALE - 4.4);
    let [elbow_x, elbow_y] = place.at(joints.elbow);
    let [grip_x, grip_y] = place.at(joints.grip);
    // The other leg stands a little back, from the hip down.
    let legs: Vec<[f64; 2]> = BODY[7..=23]
        .iter()
        .map(|[x, y]| [x - STRIDE * (0.5 - y).max(0.0), *y])
        .collect();
    let heights = heights(posture, system);
    let wanted: Vec<f64> = heights
        .iter()
        .map(|height| place.at([0.0, height.mm])[1] + 5.0)
        .collect();
    let rows = heights.iter().zip(spread(wanted)).map(|(height, text_y)| {
        let y = place.at([0.0, height.mm])[1];
        let from = if height.wanted {
            end - HORN * SCALE
        } else {
            place.at([blow, 0.0])[0] + 20.0
        };
        let class = if height.wanted {
            "height wanted"
        } else {
            "height"
        };
        let lead = format!(
            "M{from:.1} {y:.1}H{:.1}L{:.1} {:.1}",
            end + 8.0,
            end + 20.0,
            text_y - 5.0
        );
        view! {
            <path class=class d=lead />
            <text class="value" x=f1(end + 24.0) y=f1(text_y)>{height.text.clone()}</text>
        }
    });
    let rows = rows.collect_view();
    view! {
        <figure class="smith">
            <svg viewBox=format!("0 0 {width:.0} {height:.0}") role="img" aria-label=said(posture, &heights)>
                <path class="far" d=place.body(&legs, stature) />
                <path class="near" d=place.body(&BODY, stature) />
                <path class="near" d=place.body(&FACE, stature) />
                <path class="far" d=place.body(&CAP, stature) />
                <path class="apron" d=place.body(&APRON, stature) />
                <path class="stump" d=stump />
                <path class="anvil" d=anvil />
                {work}
                {rows}
                <path class="handle" d=handle />
                <path class="head" transform=turn d=view.outline />
                <path class="arm-edge" style=thick d=arm.clone() />
                <path class="arm" style=inner d=arm />
                <circle class="joint" cx=f1(elbow_x) cy=f1(elbow_y) r="3.5" />
                <circle class="fist" cx=f1(grip_x) cy=f1(grip_y) r=f1(0.029 * stature * SCALE) />
                <path class="floor" d=format!("M4 {0:.1}H{1:.1}", place.floor, width - 4.0) />
            </svg>
        </figure>
    }
}

fn f1(px: f64) -> String {
    format!("{px:.1}")
}

/// A height that is marked.
struct Height {
    mm: f64,
    text: String,
    /// Whether it is where the anvil is wanted.
    wanted: bool,
}

/// What is marked, from above.
fn heights(posture: &Posture, system: System) -> Vec<Height> {
    let height = |name: &str, mm: f64, wanted: bool| {
        let text = show_length(Length::mm(on_tape(mm, system)), system);
        Height {
            mm,
            text: format!("{name} {text} {}", unit_word(system)),
            wanted,
        }
    };
    let mut all = vec![
        height("hand", posture.hand_mm, false),
        height("anvil", posture.anvil_mm, false),
        height("wanted", posture.wanted_anvil_mm, true),
    ];
    all.sort_by(|a, b| b.mm.total_cmp(&a.mm));
    all
}

/// The figure in words, for who does not see it.
fn said(posture: &Posture, heights: &[Height]) -> String {
    let heights: Vec<&str> = heights.iter().map(|height| height.text.as_str()).collect();
    let arm = posture.arm.map_or(
        "the hand does not get there with a straight back".to_owned(),
        |arm| format!("elbow {:.0}°", arm.elbow.to_degrees()),
    );
    format!("A smith at the blow: {}, {arm}.", heights.join(", "))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn values_beside_the_anvil_keep_apart() {
        assert_eq!(spread(vec![10.0, 12.0, 80.0]), [10.0, 10.0 + APART, 80.0]);
    }

    #[test]
    fn a_smooth_line_passes_through_its_points_and_closes() {
        let path = smooth(&[[0.0, 0.0], [10.0, 0.0], [10.0, 10.0]]);
        assert!(path.starts_with("M0.0 0.0C"), "{path}");
        assert!(
            path.contains(" 10.0 0.0C") && path.contains(" 10.0 10.0C"),
            "{path}"
        );
        assert!(path.ends_with(" 0.0 0.0Z"), "{path}");
    }

    #[test]
    fn a_body_stands_on_the_floor_and_is_as_tall_as_its_smith() {
        let top = CAP
            .iter()
            .chain(&FACE)
            .map(|[_, up]| *up)
            .fold(0.0, f64::max);
        assert!((top - 1.0).abs() < 0.01);
        let low = BODY.iter().map(|[_, up]| *up).fold(1.0, f64::min);
        assert_eq!(low, 0.0);
    }
}
