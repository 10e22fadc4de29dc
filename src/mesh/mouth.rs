//! Lines along the cheek block and where the eye interrupts them.
//!
//! The block is a prism: every point of its outline is a line along the head. The wall of the
//! eye leaves the block on a curve; it is sampled by the angle along the outline of the eye, so
//! that both of its ends and all that lies between are well covered, and each sample gives a
//! line of the block. Lines that the block's own outline needs give further points of the
//! mouth. All decisions are about the order of parameters; no two lines are ever compared by
//! position afterwards.

use std::f64::consts::FRAC_PI_2;

use super::outline::{NO_LENGTH, Quarter, parts, point, present};
use crate::numeric::roots::sign_change;
use crate::solid::{EyeSection, Plug, Section};

/// Lines closer than this, mm, become one.
const MERGE: f64 = 10.0 * NO_LENGTH;

/// The interval that the eye takes out of a line, and where its ends lie on the eye's outline.
#[derive(Clone, Copy, Debug)]
pub(super) struct Hole {
    /// From and to, mm along the head; equal where the wall only touches the line.
    pub(super) x: [f64; 2],
    /// Angle of the ends along the corners of the eye's outline: a quarter turn at its sides, 0
    /// at its ends.
    pub(super) theta: f64,
}

/// A quarter of the block: its lines from the middle of a cheek to the middle of the top (or
/// bottom), and the eye's mouth there.
#[derive(Clone, Debug)]
pub(super) struct Cheek {
    /// The lines.
    pub(super) quarter: Quarter,
    /// One for every line from `first` on: inside the mouth.
    pub(super) holes: Vec<Hole>,
    /// The outermost line that the eye touches.
    pub(super) first: usize,
    /// The line where the outline's corner goes over into its end: from there on inwards the
    /// holes end on the straight ends of the outline.
    pub(super) joint: usize,
    /// Height at which the wall leaves the block, for even steps of the angle from 0 to a
    /// quarter turn.
    pub(super) exits: Vec<f64>,
}

/// A line in the making.
#[derive(Clone, Copy)]
struct Mark {
    s: f64,
    theta: Option<f64>,
}

/// A point of the eye's outline at angle `theta` of its corner.
pub(super) fn corner(level: &EyeSection<f64>, theta: f64) -> [f64; 2] {
    let (sin, cos) = theta.sin_cos();
    [
        level.p - level.c + level.c * cos,
        level.q - level.d + level.d * sin,
    ]
}

/// Into how many parts a corner of the eye is divided.
pub(super) fn angle_parts(accuracy: f64, plug: &Plug<f64>) -> usize {
    [plug.top, plug.waist, plug.bottom]
        .map(|level| {
            parts(accuracy, |t| {
                let [x, y] = corner(&level, FRAC_PI_2 * t);
                [x, y, 0.0]
            })
        })
        .into_iter()
        .fold(1, usize::max)
}

/// Places one step of the eye's angle on the block: parameter and height.
fn exit(block: &Section<f64>, plug: &Plug<f64>, up: f64, theta: f64) -> (f64, f64) {
    let across = |z: f64| corner(&plug.at(up * z), theta)[1];
    let top = block.a - block.c;
    let there = across(block.b);
    if there <= top {
        let share = if top > 0.0 { there / top } else { 0.0 };
        return (3.0 - share.max(0.0), block.b);
    }
    // A sound wall stands clear of the cheeks up to the corners: it leaves through these.
    let s = sign_change(1.0, 2.0, |s| {
        let [y, z] = point(block, s);
        y - across(z)
    })
    .unwrap_or(2.0);
    (s, point(block, s)[1])
}

impl Cheek {
    /// The quarter on the upper side (`up` = 1) or on the lower (−1).
    ///
    /// `angles` is the number of parts of the eye's corner, `corners` that of the block's.
    pub(super) fn new(
        block: &Section<f64>,
        plug: &Plug<f64>,
        up: f64,
        angles: usize,
        corners: usize,
    ) -> Self {
        let step = |k: usize| FRAC_PI_2 * (k as f64 / angles as f64);
        let placed: Vec<(f64, f64)> = (0..=angles)
            .map(|k| exit(block, plug, up, step(k)))
            .collect();
        let exits = placed.iter().map(|(_, z)| *z).collect();
        let mut marks = mouth_marks(block, &placed, step);
        insert_joints(block, &mut marks);
        let marks = fill_corner(marks, corners);
        Self::assemble(block, plug, up, &marks, exits)
    }

    fn assemble(
        block: &Section<f64>,
        plug: &Plug<f64>,
        up: f64,
        marks: &[Mark],
        exits: Vec<f64>,
    ) -> Self {
        let last = marks.len() - 1;
        let sampled = |mark: &Mark| mark.theta.is_some();
        let first = marks.iter().position(sampled).unwrap_or(last);
        let joint = marks.iter().rposition(sampled).unwrap_or(last);
        let up_to = |s: f64| marks.iter().rposition(|mark| mark.s <= s).unwrap_or(0);
        let [side, corner_there, top] = present(block);
        let side_end = if side { up_to(1.0) } else { 0 };
        let corner_end = match (corner_there, top) {
            (true, true) => up_to(2.0),
            (true, false) => last,
            (false, _) => side_end,
        };
        let mut theta = FRAC_PI_2;
        let holes = (first..=last)
            .map(|k| {
                let [y, z] = point(block, marks[k].s);
                let level = plug.at(up * z);
                // Up to the joint the angle falls from a quarter turn to 0, then it stays.
                if k >= joint {
                    theta = 0.0;
                } else if k > first {
                    let sine = (y - (level.q - level.d)) / level.d;
                    let found = marks[k].theta.unwrap_or(sine.clamp(0.0, 1.0).asin());
                    theta = found.min(theta).min(FRAC_PI_2 * INSIDE);
                }
                let half = corner(&level, theta)[0];
                let half = if half > NO_LENGTH { half } else { 0.0 };
                Hole {
                    x: [-half, half],
                    theta,
                }
            })
            .collect();
        Self {
            quarter: Quarter {
                at: marks.iter().map(|mark| mark.s).collect(),
                ends: [0, side_end, corner_end, last],
            },
            holes,
            first,
            joint,
            exits,
        }
    }
}

/// Inside the mouth the angle stays below this share of a quarter turn, so that its two sides
/// stay apart.
const INSIDE: f64 = 0.9999;

/// The lines through the samples of the mouth, from its side inwards, far enough apart; the
/// first and the last always stay.
fn mouth_marks(
    block: &Section<f64>,
    placed: &[(f64, f64)],
    step: impl Fn(usize) -> f64,
) -> Vec<Mark> {
    let apart = |s: f64, r: f64| {
        let (p, q) = (point(block, s), point(block, r));
        (p[0] - q[0]).hypot(p[1] - q[1]) > MERGE
    };
    let mark = |k: usize| Mark {
        s: placed[k].0,
        theta: Some(step(k)),
    };
    let last_k = placed.len() - 1;
    let mut end = mark(0);
    if !apart(end.s, 3.0) || end.s <= placed[last_k].0 {
        end.s = 3.0;
    }
    let mut marks = vec![mark(last_k)];
    for k in (1..last_k).rev() {
        let next = mark(k);
        let last = marks[marks.len() - 1].s;
        if next.s > last && next.s < end.s && apart(next.s, last) && apart(next.s, end.s) {
            marks.push(next);
        }
    }
    marks.push(end);
    marks
}

/// Adds the axes and the joints of the block's outline; a joint on a line of the mouth is that
/// line.
fn insert_joints(block: &Section<f64>, marks: &mut Vec<Mark>) {
    let [side, corner, top] = present(block);
    let distance = |s: f64, r: f64| {
        let (p, q) = (point(block, s), point(block, r));
        (p[0] - q[0]).hypot(p[1] - q[1])
    };
    // Parameters of the corners of the outline; those of missing pieces are other joints again.
    let mut joints = vec![0.0];
    if side {
        joints.push(1.0);
    }
    if corner && top {
        joints.push(2.0);
    }
    joints.push(3.0);
    for joint in joints {
        let near = marks
            .iter()
            .position(|mark| distance(mark.s, joint) <= MERGE);
        match near {
            Some(k) => marks[k].s = joint,
            None => {
                let k = marks
                    .iter()
                    .position(|mark| mark.s > joint)
                    .unwrap_or(marks.len());
                marks.insert(
                    k,
                    Mark {
                        s: joint,
                        theta: None,
                    },
                );
            }
        }
    }
}

/// Adds lines on the corner of the block wherever two are further apart than its even parts.
fn fill_corner(marks: Vec<Mark>, corners: usize) -> Vec<Mark> {
    /// Shares of a part below this are roundoff.
    const ROUNDOFF: f64 = 1e-6;
    let mut filled = Vec::with_capacity(marks.len() + corners);
    for pair in marks.windows(2) {
        let (from, to) = (pair[0], pair[1]);
        filled.push(from);
        let (low, high) = (from.s.max(1.0), to.s.min(2.0));
        if corners == 0 || high <= low {
            continue;
        }
        let count = ((high - low) * corners as f64 - ROUNDOFF).ceil().max(1.0) as usize;
        filled.extend((1..count).map(|k| Mark {
            s: low + (high - low) * (k as f64 / count as f64),
            theta: None,
        }));
    }
    filled.extend(marks.last());
    filled
}
