//! The head cut through the middle of its eye.

use super::Point;
use crate::design::{Dim, Part, Side, Size};
use crate::solid::Head;

/// Which way the head is cut.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Way {
    /// Across the head, through the handle axis: both cheeks.
    Across,
    /// Along the head, through its middle: what lies before and behind the eye, as far as [`BESIDE_MM`] from it and
    /// no farther than the cheeks.
    Along,
}

impl Way {
    /// Both ways.
    pub const BOTH: [Self; 2] = [Self::Across, Self::Along];

    /// In words.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Across => "across the head",
            Self::Along => "along the head",
        }
    }
}

/// A level of the eye in a cut.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Level {
    /// The size of the design that is measured here.
    pub dim: Dim,
    /// Its two ends, mm: first to the right, second up.
    pub between: [Point; 2],
}

/// The head cut through the middle of its eye, mm: first to the right (y across, x along), second up.
///
/// A cocked eye is cut where it is at every height, the body through the handle axis.
#[derive(Clone, Debug, PartialEq)]
pub struct Cut {
    /// The steel left and right of the eye, each closed.
    pub steel: [Vec<Point>; 2],
    /// Upper mouth, waist and lower mouth.
    pub levels: [Level; 3],
    /// The steel beside the waist, left and right: from the eye to the outside; along the head there is none to measure.
    pub walls: Vec<[Point; 2]>,
}

/// How much of the cheeks is shown before and behind the eye in a cut along it, at most, mm.
pub const BESIDE_MM: f64 = 10.0;
/// Rows of a wall.
const ROWS: u32 = 48;

/// Cuts `head`, which must be sound.
pub fn cut(head: &Head<f64>, way: Way) -> Cut {
    let eye = &head.eye;
    let [low, high] = eye.mouths;
    let opening = |z: f64| {
        let ([x, y], level) = (eye.centre(z), eye.at(z));
        match way {
            Way::Across => [y - level.q, y + level.q],
            Way::Along => [x - level.p, x + level.p],
        }
    };
    // Closer where a round corner runs out.
    let heights: Vec<f64> = (0..=ROWS)
        .map(|row| {
            let turn = std::f64::consts::PI * f64::from(row) / f64::from(ROWS);
            low + (high - low) * 0.5 * (1.0 - turn.cos())
        })
        .collect();
    let most = |side: usize| {
        let ends = heights.iter().map(|z| opening(*z)[side].abs());
        let wanted = ends.fold(0.0, f64::max) + BESIDE_MM;
        let cheek = [Side::Back, Side::Front][side];
        wanted.min(head.end(cheek).block_end())
    };
    let steel = [0, 1].map(|side| {
        let sign = if side == 0 { -1.0 } else { 1.0 };
        let wall = heights.iter().map(|z| [opening(*z)[side], *z]);
        let outside: Vec<Point> = match way {
            Way::Across => {
                let station = head.block_at(0.0);
                let half = |z: f64| station.section.half_width_at(z - station.centre);
                // An eye wider than the flat of its mouth leaves no steel there.
                let least = |z: f64| sign * opening(z)[side];
                heights
                    .iter()
                    .map(|z| [sign * half(*z).max(least(*z)), *z])
                    .collect()
            }
            Way::Along => {
                let end = most(side);
                let top = |x: f64, way: f64| {
                    let station = head.block_at(x);
                    [x, station.centre + way * station.section.b]
                };
                let inner = |z: f64| opening(z)[side].abs();
                let across = |row: u32, from: f64| from + (end - from) * f64::from(row) / 12.0;
                let below = (0..=12).map(|row| top(sign * across(row, inner(low)), -1.0));
                let above = (0..=12)
                    .rev()
                    .map(|row| top(sign * across(row, inner(high)), 1.0));
                below.chain(above).collect()
            }
        };
        outside.into_iter().chain(wall.rev()).collect()
    });
    let size = match way {
        Way::Across => Size::Width,
        Way::Along => Size::Length,
    };
    let level = |part: Part, z: f64| Level {
        dim: part.size(size),
        between: opening(z).map(|at| [at, z]),
    };
    let waist = eye.waist_height;
    let walls = match way {
        Way::Along => Vec::new(),
        Way::Across => {
            let station = head.block_at(0.0);
            let outside = station.section.half_width_at(waist - station.centre);
            let [left, right] = opening(waist);
            vec![
                [[-outside, waist], [left, waist]],
                [[right, waist], [outside, waist]],
            ]
        }
    };
    Cut {
        steel,
        levels: [
            level(Part::EyeTop, high),
            level(Part::EyeWaist, waist),
            level(Part::EyeBottom, low),
        ],
        walls,
    }
}
