//! The cheek block, pierced by the eye, and the wall of the eye.

use std::f64::consts::FRAC_PI_2;
use std::ops::Range;

use super::Patch;
use super::mouth::{Cheek, angle_parts, corner};
use super::outline::{NO_LENGTH, corner_parts, point, tidy, tidy_plug, twist, untwist};
use super::weave::{Ring, Turn, Weaver};
use crate::design::Side;
use crate::solid::{Head, Plug};

/// Weaves the block and the eye; returns the rings at its front and its back end.
pub(super) fn block(weaver: &mut Weaver, accuracy: f64, head: &Head<f64>) -> [Ring; 2] {
    let section = tidy(&head.cheeks);
    let plug = tidy_plug(&head.eye);
    let (angles, levels) = wall_parts(accuracy, &plug);
    let corners = corner_parts(accuracy, &section);
    let [upper, lower] = [1.0, -1.0].map(|up| Cheek::new(&section, &plug, up, angles, corners));
    let [front, back] = Side::BOTH.map(|side| {
        let x = match side {
            Side::Front => head.end(side).block_end(),
            Side::Back => -head.end(side).block_end(),
        };
        weaver.ring(&upper.quarter, &lower.quarter, 0.0, |s| {
            let [y, z] = point(&section, s);
            [x, y, z]
        })
    });
    let mut lines = Lines::new([&front, &back]);
    let spans = spans(&upper, &lower);
    for (cheek, span) in [&upper, &lower].into_iter().zip(&spans) {
        lines.pierce(weaver, cheek, span);
    }
    lines.weave(weaver);
    let [upper_mouth, lower_mouth] = [(&upper, &spans[0]), (&lower, &spans[1])]
        .map(|(cheek, span)| lines.mouth(weaver, cheek, span));
    let wall = Wall {
        plug,
        angles,
        levels,
    };
    wall.weave(weaver, [&lower, &upper], [&lower_mouth, &upper_mouth]);
    [front, back]
}

/// Parts of the eye's corner and rings between waist and mouth.
fn wall_parts(accuracy: f64, plug: &Plug<f64>) -> (usize, usize) {
    let turned = [plug.top, plug.bottom]
        .map(|mouth| twist(&plug.waist.section(), &mouth.section()))
        .into_iter()
        .fold(0.0, f64::max);
    untwist(accuracy, turned, angle_parts(accuracy, plug), 1)
}

/// The lines of either mouth, as stretches of the ring.
fn spans(upper: &Cheek, lower: &Cheek) -> [Range<usize>; 2] {
    let half = |cheek: &Cheek| cheek.quarter.at.len() - 1;
    let (u, l) = (half(upper), half(lower));
    [
        upper.first..2 * u - upper.first + 1,
        2 * u + lower.first..2 * (u + l) - lower.first + 1,
    ]
}

/// A line along the block: its ends and, inside a mouth, the ends of what the eye takes out.
#[derive(Clone, Copy)]
struct Line {
    back: u32,
    front: u32,
    hole: Option<[u32; 2]>,
}

impl Line {
    fn chain(&self) -> Vec<u32> {
        match self.hole {
            None => vec![self.back, self.front],
            Some([left, right]) if left == right => vec![self.back, left, self.front],
            Some([left, right]) => vec![self.back, left, right, self.front],
        }
    }
}

/// All lines, in the order of the ring.
struct Lines(Vec<Line>);

impl Lines {
    fn new([front, back]: [&Ring; 2]) -> Self {
        let ends = front.vertices.iter().zip(&back.vertices);
        let line = |(front, back): (&u32, &u32)| Line {
            back: *back,
            front: *front,
            hole: None,
        };
        Self(ends.map(line).collect())
    }

    fn pierce(&mut self, weaver: &mut Weaver, cheek: &Cheek, span: &Range<usize>) {
        let count = span.len();
        for (k, line) in self.0[span.clone()].iter_mut().enumerate() {
            let hole = cheek.holes[k.min(count - 1 - k)];
            let [_, y, z] = weaver.mesh.positions[line.front as usize];
            let left = weaver.vertex([hole.x[0], y, z]);
            let right = if hole.x[1] > hole.x[0] {
                weaver.vertex([hole.x[1], y, z])
            } else {
                left
            };
            line.hole = Some([left, right]);
        }
    }

    /// The surface between neighbouring lines.
    fn weave(&self, weaver: &mut Weaver) {
        for (k, line) in self.0.iter().enumerate() {
            let next = &self.0[(k + 1) % self.0.len()];
            match (line.hole, next.hole) {
                (Some(hole), Some(other)) => {
                    between(weaver, &[line.back, hole[0]], &[next.back, other[0]]);
                    between(weaver, &[hole[1], line.front], &[other[1], next.front]);
                }
                _ => between(weaver, &line.chain(), &next.chain()),
            }
        }
    }

    /// The loop around a mouth.
    fn mouth(&self, weaver: &Weaver, cheek: &Cheek, span: &Range<usize>) -> Ring {
        let mut lines = self.0[span.clone()].to_vec();
        // The ring of the head runs from +y over the top to −y, and below from −y to +y.
        if span.start < self.0.len() / 2 {
            lines.reverse();
        }
        let last = lines.len() - 1;
        let joint = cheek.joint - cheek.first;
        let y = |line: &Line| weaver.mesh.positions[line.front as usize][1];
        let widest = y(&lines[last - joint]);
        let posts: Vec<Post> = lines
            .iter()
            .enumerate()
            .map(|(k, line)| {
                let theta = cheek.holes[k.min(last - k)].theta / FRAC_PI_2;
                let place = if k < joint {
                    1.0 - theta
                } else if k > last - joint {
                    2.0 + theta
                } else if widest > 0.0 {
                    1.5 + 0.5 * y(line) / widest
                } else {
                    2.0
                };
                let [left, right] = line.hole.unwrap_or([line.back, line.front]);
                Post { place, left, right }
            })
            .collect();
        eye_ring(&posts, [joint, last - joint])
    }
}

/// The strip between two neighbouring lines, or parts of them.
fn between(weaver: &mut Weaver, a: &[u32], b: &[u32]) {
    let x = |v: u32| weaver.mesh.positions[v as usize][0];
    let shares = |chain: &[u32]| -> Vec<(u32, f64)> {
        let (from, to) = (x(chain[0]), x(chain[chain.len() - 1]));
        let share = |v: &u32| (*v, (x(*v) - from) / (to - from));
        chain.iter().map(share).collect()
    };
    let (a, b) = (shares(a), shares(b));
    weaver.strip(
        (a.len() - 1, |k| a[k]),
        (b.len() - 1, |k| b[k]),
        Turn::Flipped,
        Patch::Cheek,
    );
}

/// Two vertices of a loop around the eye at the same distance across the head: one at the back,
/// one in front, or one vertex where the outline turns without a straight side.
#[derive(Clone, Copy)]
struct Post {
    /// On the front half of the outline, from −y to +y: 0 to 1 the corner, 1 to 2 the straight
    /// end, 2 to 3 the corner.
    place: f64,
    left: u32,
    right: u32,
}

/// The loop through `posts`, which stand in the order of y: counter-clockwise as seen from
/// above, in eight pieces from the middle of the side −y. `joints` are the posts where the
/// straight ends begin and stop.
fn eye_ring(posts: &[Post], joints: [usize; 2]) -> Ring {
    let last = posts.len() - 1;
    let straight = |post: &Post| post.left != post.right;
    let mut vertices: Vec<u32> = posts.iter().map(|post| post.right).collect();
    let mut places: Vec<f64> = posts.iter().map(|post| post.place).collect();
    let back_from = if straight(&posts[last]) {
        last + 1
    } else {
        last
    };
    for (k, post) in posts.iter().enumerate().rev() {
        if (0 < k && k < last) || straight(post) {
            vertices.push(post.left);
            places.push(7.0 - post.place);
        }
    }
    let [first, second] = joints;
    let starts = vec![
        0,
        first,
        second,
        last,
        back_from,
        back_from + last - second,
        back_from + last - first,
        back_from + last,
        vertices.len(),
    ];
    Ring {
        vertices,
        places,
        starts,
    }
}

/// The wall of the eye: straight from the waist to either mouth, every line of it at one angle
/// of the outline's corner or on a straight of it.
struct Wall {
    plug: Plug<f64>,
    angles: usize,
    levels: usize,
}

impl Wall {
    /// From the lower mouth over the waist to the upper mouth.
    fn weave(&self, weaver: &mut Weaver, [lower, upper]: [&Cheek; 2], mouths: [&Ring; 2]) {
        let waist = self.plug.waist_height;
        // A waist high up in a round block may lie where the wall has already left it.
        let middle = |k: usize| {
            let (low, high) = (-lower.exits[k], upper.exits[k]);
            if low < waist && waist < high {
                waist
            } else {
                0.5 * (low + high)
            }
        };
        let between = |exit: f64, k: usize, step: usize| {
            let from = middle(k);
            from + (exit - from) * (step as f64 / self.levels as f64)
        };
        let mut rings = Vec::with_capacity(2 * self.levels + 1);
        rings.push(mouths[0].clone());
        for step in (1..self.levels).rev() {
            rings.push(self.ring(weaver, |k| between(-lower.exits[k], k, step)));
        }
        rings.push(self.ring(weaver, middle));
        for step in 1..self.levels {
            rings.push(self.ring(weaver, |k| between(upper.exits[k], k, step)));
        }
        rings.push(mouths[1].clone());
        for pair in rings.windows(2) {
            weaver.join(&pair[0], &pair[1], Turn::Flipped, Patch::Eye);
        }
    }

    /// A ring at `height` for every step of the angle.
    fn ring(&self, weaver: &mut Weaver, height: impl Fn(usize) -> f64) -> Ring {
        let steps = self.angles;
        let at = |k: usize| self.plug.at(height(k));
        let (end, side) = (at(0), at(steps));
        let straight_ends = end.q - end.d > NO_LENGTH;
        let straight_sides = side.p - side.c > NO_LENGTH;
        let mut post = |way: f64, k: usize| {
            let share = k as f64 / steps as f64;
            let pointed = k == steps && !straight_sides;
            let [x, y] = corner(&at(k), FRAC_PI_2 * share);
            let x = if pointed { 0.0 } else { x };
            let y = if k == 0 && !straight_ends { 0.0 } else { y };
            let right = weaver.vertex([x, way * y, height(k)]);
            let left = if pointed {
                right
            } else {
                weaver.vertex([-x, way * y, height(k)])
            };
            let place = if way < 0.0 { 1.0 - share } else { 2.0 + share };
            Post { place, left, right }
        };
        let mut posts: Vec<Post> = (0..=steps).rev().map(|k| post(-1.0, k)).collect();
        let from = usize::from(!straight_ends);
        posts.extend((from..=steps).map(|k| post(1.0, k)));
        eye_ring(&posts, [steps, steps + 1 - from])
    }
}
