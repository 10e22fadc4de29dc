//! The cheek block, pierced by the eye, and the wall of the eye.
//!
//! The outside of the block is a net of lines along the head, each at one place of its outline,
//! and of columns across it. Where the eye passes, the net is as fine as the mouth asks for and
//! its triangles are cut along the mouth: every corner of the mouth is where an edge of the net
//! goes through the wall of the eye.

use super::Patch;
use super::eye::{Wall, outside, place};
use super::outline::{NO_LENGTH, Quarter, around, corner_parts, parts, present, tidy, tidy_plug};
use super::weave::{Chain, Ring, Turn, Weaver};
use crate::numeric::roots::crossing_within;
use crate::solid::{EyeSection, Head, Plug, Section};

/// The most lines across a mouth and columns along it.
const MOST: f64 = 1000.0;
/// A mouth keeps at least this share of an edge of the net from its ends: no corner of a
/// triangle comes closer to another one.
const SNAP: f64 = 1e-3;
/// A corner of a mouth is found to this share of an edge of the net.
const NEAR: f64 = 1e-9;
/// Levels at which the mouths are looked at.
const LOOKS: usize = 16;
/// An index that no vertex has.
const NONE: u32 = u32::MAX;

/// Weaves the block and the eye; returns the rings at its front and its back end.
pub(super) fn block(weaver: &mut Weaver, accuracy: f64, head: &Head<f64>) -> [Ring; 2] {
    let head = &Head {
        cheeks: tidy(&head.cheeks),
        eye: tidy_plug(&head.eye),
        ..head.clone()
    };
    let wall = Wall::new(accuracy, &head.eye);
    let net = Net::new(accuracy, head);
    let (rings, mouths) = net.weave(weaver);
    wall.weave(weaver, mouths);
    rings
}

/// The lines and columns of the outside.
struct Net<'a> {
    head: &'a Head<f64>,
    /// Lines of the quarter, as parameters of the outline.
    quarter: Quarter,
    /// All lines once round: the parameter and whether the mouths may reach the line.
    lines: Vec<(f64, bool)>,
    /// Columns: x, and whether lines away from the mouths have it too.
    columns: Vec<(f64, bool)>,
}

/// A corner of the net.
type Node = (usize, usize);

impl<'a> Net<'a> {
    fn new(accuracy: f64, head: &'a Head<f64>) -> Self {
        let [back, front] = [1, 0].map(|side| head.ends[side].block_end());
        let reach = Reach::new(head);
        let spacing = reach.spacing(accuracy);
        let narrow = reach.narrowest(head);
        let quarter = lines(accuracy, head, &reach, spacing);
        let places = quarter.once_round();
        let count = places.len();
        let touched = |k: usize| around(&narrow, places[k % count])[0].abs() <= reach.y;
        // With the next one beyond the mouth.
        let fine = |k: usize| touched(k) || touched(k + 1) || touched(k + count - 1);
        let lines = places
            .iter()
            .enumerate()
            .map(|(k, s)| (*s, fine(k)))
            .collect();
        // Half of the tolerance for the lines, half for what is between them.
        let bulge = head.bulge().map_or(1, |_| {
            [0.5, 1.5, 2.5]
                .map(|s| {
                    parts(0.5 * accuracy, &|t| {
                        surface(head, -back + (front + back) * t, s)
                    })
                })
                .into_iter()
                .fold(8, usize::max)
        });
        let [low, high] = reach.x;
        let fine = ((high - low) / spacing).clamp(8.0, MOST);
        let stops = [-back, low, 0.0, high, front];
        let mut columns = vec![(-back, true)];
        for (k, pair) in stops.windows(2).enumerate() {
            let length = pair[1] - pair[0];
            let coarse = (length / (front + back) * bulge as f64).ceil() as usize;
            let share = match k {
                1 | 2 => length / (high - low) * fine,
                _ => 1.0,
            };
            let each = (share / coarse as f64).ceil() as usize;
            columns.extend((1..=coarse * each).map(|i| {
                let share = i as f64 / (coarse * each) as f64;
                (pair[0] + length * share, bulge > 1 && i % each == 0)
            }));
        }
        // An end of the block has its own x to the last bit.
        if let Some(last) = columns.last_mut() {
            *last = (front, true);
        }
        Self {
            head,
            quarter,
            lines,
            columns,
        }
    }

    /// Rings at the front and the back, and the lower and the upper mouth, each once round
    /// against the clock as seen from above.
    fn weave(&self, weaver: &mut Weaver) -> ([Ring; 2], [Chain; 2]) {
        let count = self.columns.len();
        let mut cut = Cut {
            net: self,
            vertices: Vec::with_capacity((self.lines.len() + 1) * count),
            places: Vec::with_capacity((self.lines.len() + 1) * count),
            depths: Vec::with_capacity((self.lines.len() + 1) * count),
            crossings: vec![NONE; 3 * self.lines.len() * count],
            mouth: Vec::new(),
        };
        for (line, (s, fine)) in self.lines.iter().enumerate() {
            for (column, (x, all)) in self.columns.iter().enumerate() {
                let at = surface(self.head, *x, *s);
                let depth = if *fine {
                    outside(&self.head.eye, at)
                } else {
                    1.0
                };
                // Lines along a flat that swell and lugs have not reached are one line.
                let same = |other: usize| cut.same(weaver, (other, column), at);
                let vertex = if (*fine || *all) && depth >= 0.0 {
                    let known = line.checked_sub(1).and_then(same).or_else(|| same(0));
                    known.unwrap_or_else(|| weaver.vertex(at))
                } else {
                    NONE
                };
                cut.vertices.push(vertex);
                cut.places.push(at);
                cut.depths.push(depth);
            }
        }
        cut.vertices.extend_from_within(..count);
        cut.places.extend_from_within(..count);
        cut.depths.extend_from_within(..count);
        let last = count - 1;
        for line in 0..self.lines.len() {
            let next = (line + 1) % self.lines.len();
            if self.lines[line].1 && self.lines[next].1 {
                for column in 0..last {
                    let [a, b] = [(line, column), (line + 1, column)];
                    let [c, d] = [(line, column + 1), (line + 1, column + 1)];
                    cut.triangle(weaver, [a, b, c]);
                    cut.triangle(weaver, [b, d, c]);
                }
            } else {
                let [from, to] = [line, line + 1].map(|line| cut.chain(line));
                weaver.chains(&from, &to, Turn::Flipped, Patch::Cheek);
            }
        }
        let mouths = cut.mouths(weaver, &self.head.eye);
        ([last, 0].map(|column| cut.ring(column)), mouths)
    }
}

/// Triangles of the net, cut along the mouths.
struct Cut<'a> {
    net: &'a Net<'a>,
    /// Vertex of every node; the first line once more at the end.
    vertices: Vec<u32>,
    /// Where every node lies.
    places: Vec<[f64; 3]>,
    /// How far outside of the eye every node lies.
    depths: Vec<f64>,
    /// Vertices of the mouths, three for every node: on the edges that go out from it.
    crossings: Vec<u32>,
    /// Edges of the mouths, with the steel on their left.
    mouth: Vec<[u32; 2]>,
}

impl Cut<'_> {
    fn index(&self, (line, column): Node) -> usize {
        line * self.net.columns.len() + column
    }

    /// The vertex of a node that lies at the same place.
    fn same(&self, weaver: &Weaver, node: Node, at: [f64; 3]) -> Option<u32> {
        let vertex = *self.vertices.get(self.index(node))?;
        let there = weaver.mesh.positions.get(vertex as usize)?;
        let near = |k: usize| (there[k] - at[k]).abs() < NO_LENGTH;
        (0..3).all(near).then_some(vertex)
    }

    /// The vertices along a line, by x.
    fn chain(&self, line: usize) -> Chain {
        let columns = &self.net.columns;
        (0..columns.len())
            .map(|column| (self.vertices[self.index((line, column))], columns[column].0))
            .filter(|(vertex, _)| *vertex != NONE)
            .collect()
    }

    /// The ring at an end of the block.
    fn ring(&self, column: usize) -> Ring {
        let net = self.net;
        let mut ring = Ring {
            vertices: Vec::with_capacity(net.lines.len()),
            places: Vec::with_capacity(net.lines.len()),
            starts: Vec::with_capacity(13),
        };
        // Which vertex of the ring every line ends in.
        let mut ends: Vec<usize> = Vec::with_capacity(net.lines.len() + 1);
        for (line, (place, _)) in net.lines.iter().enumerate() {
            let vertex = self.vertices[self.index((line, column))];
            let known = ring.vertices.last() == Some(&vertex);
            if !known && (line == 0 || ring.vertices[0] != vertex) {
                ring.vertices.push(vertex);
                ring.places.push(*place);
            }
            let again = line > 0 && ring.vertices[0] == vertex && ends[line - 1] > 0;
            ends.push(ring.vertices.len() - usize::from(!again));
        }
        ends.push(ring.vertices.len());
        let [_, side, corner, last] = net.quarter.ends;
        let joints = [0, side, corner, last, 2 * last - corner, 2 * last - side];
        for half in [0, 2 * last] {
            ring.starts.extend(joints.map(|joint| ends[half + joint]));
        }
        ring.starts.push(ring.vertices.len());
        ring
    }

    fn triangle(&mut self, weaver: &mut Weaver, nodes: [Node; 3]) {
        let mut kept: [u32; 4] = [NONE; 4];
        let mut count = 0;
        let mut ends = [NONE; 2];
        for k in 0..3 {
            let [from, to] = [nodes[k], nodes[(k + 1) % 3]];
            let [here, there] = [from, to].map(|node| self.depths[self.index(node)] >= 0.0);
            if here {
                kept[count] = self.vertices[self.index(from)];
                count += 1;
            }
            if here != there {
                let vertex = self.crossing(weaver, from, to);
                kept[count] = vertex;
                count += 1;
                ends[usize::from(there)] = vertex;
            }
        }
        for k in 2..count {
            let corners = [kept[0], kept[k - 1], kept[k]];
            weaver.triangle(corners, Turn::Plain, Patch::Cheek);
        }
        if ends[0] != NONE {
            self.mouth.push(ends);
        }
    }

    /// The vertex where an edge goes through the wall of the eye.
    fn crossing(&mut self, weaver: &mut Weaver, from: Node, to: Node) -> u32 {
        let (from, to) = (from.min(to), from.max(to));
        // Edges go along the head, round it, or from the next line back to the next column.
        let kind = match (to.0 - from.0, to.1 == from.1) {
            (0, _) => 0,
            (_, true) => 1,
            _ => 2,
        };
        let line = from.0 % self.net.lines.len();
        let slot = 3 * self.index((line, from.1)) + kind;
        if self.crossings[slot] == NONE {
            let [from, to] = [from, to].map(|node| self.index(node));
            let eye = &self.net.head.eye;
            let at = |t: f64| {
                let mix = |k: usize| {
                    self.places[from][k] + (self.places[to][k] - self.places[from][k]) * t
                };
                [0, 1, 2].map(mix)
            };
            let ends = [(0.0, self.depths[from]), (1.0, self.depths[to])];
            let t = crossing_within(NEAR, ends[0], ends[1], &|t| outside(eye, at(t)));
            let position = at(t.unwrap_or(0.5).clamp(SNAP, 1.0 - SNAP));
            self.crossings[slot] = weaver.vertex(position);
        }
        self.crossings[slot]
    }

    /// The lower and the upper mouth.
    fn mouths(&mut self, weaver: &Weaver, eye: &Plug<f64>) -> [Chain; 2] {
        self.mouth.sort_unstable();
        let next = |vertex: u32| {
            let found = self.mouth.binary_search_by_key(&vertex, |edge| edge[0]);
            found.map_or(vertex, |k| self.mouth[k][1])
        };
        [-1.0, 1.0].map(|up| {
            let position = |vertex: u32| weaver.mesh.positions[vertex as usize];
            let first = self.mouth.iter().map(|edge| edge[0]);
            let own = first.filter(|vertex| position(*vertex)[2] * up > 0.0);
            let place = |vertex: u32| place(eye, position(vertex));
            let start = own.min_by(|a, b| place(*a).total_cmp(&place(*b)));
            let start = start.unwrap_or(0);
            let mut around = vec![start];
            let mut vertex = next(start);
            while vertex != start && around.len() < self.mouth.len() {
                around.push(vertex);
                vertex = next(vertex);
            }
            // With the steel on its left the upper one runs with the clock.
            if up > 0.0 {
                around[1..].reverse();
            }
            let mut farthest = 0.0;
            let mut chain: Chain = around
                .into_iter()
                .map(|vertex| {
                    farthest = place(vertex).max(farthest);
                    (vertex, farthest)
                })
                .collect();
            chain.push((chain[0].0, chain[0].1 + 12.0));
            chain
        })
    }
}

/// How far the mouths reach.
struct Reach {
    x: [f64; 2],
    y: f64,
    /// Least radius of curvature of their outlines.
    radius: f64,
}

impl Reach {
    fn new(head: &Head<f64>) -> Self {
        let plug = &head.eye;
        let mut reach = Self {
            x: [f64::INFINITY, f64::NEG_INFINITY],
            y: 0.0,
            radius: f64::INFINITY,
        };
        let limit = head.cheek_limit();
        for (mouth, limit) in plug.mouths.into_iter().zip([-limit, limit]) {
            for k in 0..=LOOKS {
                let z = limit + (mouth - limit) * (k as f64 / LOOKS as f64);
                let EyeSection { p, q, c, d } = plug.at(z);
                let [x, y] = plug.centre(z);
                reach.x = [reach.x[0].min(x - p), reach.x[1].max(x + p)];
                reach.y = reach.y.max(y.abs() + q);
                reach.radius = reach.radius.min(c * c / d).min(d * d / c);
            }
        }
        let room = 0.02 * (reach.x[1] - reach.x[0]);
        Self {
            x: [reach.x[0] - room, reach.x[1] + room],
            y: 1.02 * reach.y,
            ..reach
        }
    }

    /// The narrowest section of the block within a mouth's reach.
    fn narrowest(&self, head: &Head<f64>) -> Section<f64> {
        let [back, front] = self.x.map(|x| head.block_at(x).section);
        if back.a < front.a { back } else { front }
    }

    /// Width of the net, mm: a chord across a square of it stays within `accuracy` of a mouth.
    fn spacing(&self, accuracy: f64) -> f64 {
        (4.0 * accuracy * self.radius).sqrt().max(1e-3)
    }
}

/// Lines of the quarter: the joints, what a worked corner asks for, and what the mouths do.
fn lines(accuracy: f64, head: &Head<f64>, reach: &Reach, spacing: f64) -> Quarter {
    let section = head.block_at(0.0).section;
    let [side, corner, top] = present(&section);
    let flat = section.a - section.c;
    let narrow = reach.narrowest(head);
    let narrow = narrow.a - narrow.c;
    let fine = |length: f64| (length / spacing).clamp(4.0, MOST).ceil() as usize;
    let corner = match corner {
        true if reach.y > narrow => {
            corner_parts(0.5 * accuracy, &section).max(fine(section.c.hypot(section.d)))
        }
        true => corner_parts(0.5 * accuracy, &section),
        false => 0,
    };
    let mut quarter = Quarter::even([side.into(), corner, 0]);
    if top {
        // A line beyond the mouth bounds the net, unless the flat ends nearly there: a coarser
        // line beside it must not cut it off.
        let bound = 1.001 * reach.y;
        let from = if bound + 2.0 * accuracy < narrow {
            bound / narrow * flat
        } else {
            flat
        };
        if from < flat {
            quarter.at.push(3.0 - from / flat);
        }
        let count = fine(from);
        let share = |k: usize| 3.0 - from / flat * (1.0 - k as f64 / count as f64);
        quarter.at.extend((1..count).map(share));
        quarter.at.push(3.0);
    } else if let Some(last) = quarter.at.last_mut() {
        *last = 3.0;
    }
    quarter.ends[3] = quarter.at.len() - 1;
    quarter
}

/// The point of the block's outside at x and the place `s` of its outline.
fn surface(head: &Head<f64>, x: f64, s: f64) -> [f64; 3] {
    let station = head.block_at(x);
    let [y, z] = around(&station.section, s);
    [x, y, station.centre + z]
}
