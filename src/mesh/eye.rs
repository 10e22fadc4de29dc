//! The wall of the eye, from mouth to mouth.

use std::f64::consts::FRAC_PI_2;

use super::Patch;
use super::outline::{Quarter, parts};
use super::weave::{Chain, Turn, Weaver};
use crate::numeric::order::sort_few;
use crate::solid::{EyeSection, Plug};

/// Positive outside of the eye, negative within it, −1 at its core.
pub(super) fn outside(plug: &Plug<f64>, [x, y, z]: [f64; 3]) -> f64 {
    let EyeSection { p, q, c, d } = plug.at(z);
    let [middle_x, middle_y] = plug.centre(z);
    let [along, across] = [
        ((x - middle_x).abs() - (p - c)) / c,
        ((y - middle_y).abs() - (q - d)) / d,
    ];
    along.max(0.0).hypot(across.max(0.0)) - 1.0
}

/// A place on the outline of the eye: as on a section, but corners by their angle.
pub(super) fn place(plug: &Plug<f64>, [x, y, z]: [f64; 3]) -> f64 {
    let EyeSection { p, q, c, d } = plug.at(z);
    let [middle_x, middle_y] = plug.centre(z);
    let (x, y) = (x - middle_x, y - middle_y);
    let (along, across) = (x.abs() - (p - c), y.abs() - (q - d));
    let s = if across <= 0.0 && along > 0.0 {
        y.abs() / (q - d).max(f64::MIN_POSITIVE)
    } else if along <= 0.0 {
        3.0 - x.abs() / (p - c).max(f64::MIN_POSITIVE)
    } else {
        1.0 + (across / d).atan2(along / c) / FRAC_PI_2
    };
    match (x >= 0.0, y >= 0.0) {
        (true, true) => s,
        (false, true) => 6.0 - s,
        (false, false) => 6.0 + s,
        (true, false) => 12.0 - s,
    }
}

/// The point of the wall at height `z` and a [`place`] of the outline.
fn on_wall(plug: &Plug<f64>, z: f64, place: f64) -> [f64; 3] {
    let EyeSection { p, q, c, d } = plug.at(z);
    let [middle_x, middle_y] = plug.centre(z);
    let half = place % 6.0;
    let s = if half > 3.0 { 6.0 - half } else { half };
    let (x, y) = if s <= 1.0 {
        (p, (q - d) * s)
    } else if s >= 2.0 {
        ((p - c) * (3.0 - s), q)
    } else {
        let (sin, cos) = ((s - 1.0) * FRAC_PI_2).sin_cos();
        (p - c + c * cos, q - d + d * sin)
    };
    let (x_sign, y_sign) = match (place / 3.0) as u8 {
        0 => (1.0, 1.0),
        1 => (-1.0, 1.0),
        2 => (-1.0, -1.0),
        _ => (1.0, -1.0),
    };
    [middle_x + x_sign * x, middle_y + y_sign * y, z]
}

/// The wall of the eye.
pub(super) struct Wall<'a> {
    accuracy: f64,
    plug: &'a Plug<f64>,
    /// Places once round.
    places: Vec<f64>,
    /// Heights of the rings, rising.
    levels: Vec<f64>,
}

impl<'a> Wall<'a> {
    pub(super) fn new(accuracy: f64, plug: &'a Plug<f64>) -> Self {
        let mut levels = plug.joints();
        for mouth in plug.mouths {
            let from = plug.waist_height;
            let at = |t: f64| from + (mouth - from) * t;
            let rings = [0.0, 1.5, 3.0]
                .map(|s| parts(accuracy, &|t| on_wall(plug, at(t), s)))
                .into_iter()
                .fold(1, usize::max);
            levels.extend((1..rings).map(|k| at(k as f64 / rings as f64)));
        }
        let [low, high] = plug.mouths;
        let corner = [low, plug.waist_height, high]
            .map(|z| parts(accuracy, &|t| on_wall(plug, z, 1.0 + t)))
            .into_iter()
            .fold(1, usize::max);
        let quarter = Quarter::even([1, corner, 1]);
        levels.retain(|z| low < *z && *z < high);
        sort_few(&mut levels, |z| *z);
        levels.dedup();
        Self {
            accuracy,
            plug,
            places: quarter.once_round(),
            levels,
        }
    }

    /// From the lower mouth over the rings to the upper mouth.
    ///
    /// A ring beside a mouth has a stop below every corner of the mouth, and so has every ring
    /// where the mouths leave one no room at its own height: where a mouth is steep no triangle
    /// folds over.
    pub(super) fn weave(&self, weaver: &mut Weaver, mouths: [Chain; 2]) {
        let stops = |mouth: &Chain| -> Vec<f64> {
            let corners = &mouth[..mouth.len() - 1];
            corners.iter().map(|(_, place)| *place).collect()
        };
        let [lower, upper] = [0, 1].map(|end| stops(&mouths[end]));
        let finer = if upper.len() > lower.len() {
            &upper
        } else {
            &lower
        };
        let count = self.levels.len();
        let near: Vec<[bool; 2]> = (0..count)
            .map(|ring| self.ring(weaver, &mouths, ring, finer).1)
            .collect();
        let tight = |ring: usize| {
            near[ring.saturating_sub(1)..]
                .iter()
                .take(3)
                .any(|near| near[0] || near[1])
        };
        let mut last = mouths[0].clone();
        for (ring, near) in near.iter().enumerate() {
            let places = match near {
                [true, false] => &lower,
                [false, true] => &upper,
                _ if tight(ring) || count == 1 => finer,
                _ if ring == 0 => &lower,
                _ if ring + 1 == count => &upper,
                _ => &self.places,
            };
            let (stops, _) = self.ring(weaver, &mouths, ring, places);
            let row = weaver.row(&stops, 12.0);
            weaver.chains(&last, &row, Turn::Flipped, Patch::Eye);
            last = row;
        }
        weaver.chains(&last, &mouths[1], Turn::Flipped, Patch::Eye);
    }

    /// A ring with stops at `places`, and whether the lower and the upper mouth leave it no room
    /// at its own height.
    fn ring(
        &self,
        weaver: &Weaver,
        mouths: &[Chain; 2],
        ring: usize,
        places: &[f64],
    ) -> (Vec<([f64; 3], f64)>, [bool; 2]) {
        let count = self.levels.len() as f64;
        let level = self.levels[ring];
        let mut near = [false; 2];
        let stops = places.iter().map(|place| {
            let [low, high] = [0, 1].map(|end| height(weaver, &mouths[end], *place));
            // In their order within the mouths, however these lie.
            let room = (high - low) / (2.0 * (count + 1.0));
            let gap = self.accuracy.max(1e-3 * (high - low)).min(room);
            let low = low + gap * (ring as f64 + 1.0);
            let high = high - gap * (count - ring as f64);
            near = [near[0] || level < low, near[1] || level > high];
            let z = level.max(low).min(high);
            (on_wall(self.plug, z, *place), *place)
        });
        (stops.collect(), near)
    }
}

/// Height of a mouth at a place of the eye's outline.
fn height(weaver: &Weaver, mouth: &Chain, place: f64) -> f64 {
    let z = |vertex: u32| weaver.mesh.positions[vertex as usize][2];
    // The chain goes once round from its first place.
    let place = if place < mouth[0].1 {
        place + 12.0
    } else {
        place
    };
    let k = mouth.partition_point(|(_, at)| *at <= place);
    let ((from, a), (to, b)) = (mouth[k.max(1) - 1], mouth[k.min(mouth.len() - 1)]);
    let share = if b > a { (place - a) / (b - a) } else { 0.0 };
    z(from) + (z(to) - z(from)) * share
}
