//! Rings of vertices and the strips woven between them: topology by index alone.

use super::outline::{NO_LENGTH, Quarter};
use super::{Patch, TriMesh};

/// A closed loop of vertices in pieces; two rings of the same kind of outline have the same
/// pieces, but each may divide a piece in its own way or pass it with a single vertex.
#[derive(Clone, Debug)]
pub(super) struct Ring {
    /// Indices into the mesh, once round.
    pub(super) vertices: Vec<u32>,
    /// Where each vertex stands: piece j from j to j + 1. Not read at the ends of a piece.
    pub(super) places: Vec<f64>,
    /// Which vertex each piece begins with, and once more the number of vertices.
    pub(super) starts: Vec<usize>,
}

impl Ring {
    fn stop(&self, k: usize) -> u32 {
        self.vertices[k % self.vertices.len()]
    }

    /// How far vertex `k` stands along `piece`, 0 to 1.
    fn share(&self, piece: usize, k: usize) -> f64 {
        if k == self.starts[piece] {
            0.0
        } else if k == self.starts[piece + 1] {
            1.0
        } else {
            self.places[k] - piece as f64
        }
    }
}

/// Vertices in a row, and where each stands: neighbours may be one vertex.
pub(super) type Chain = Vec<(u32, f64)>;

/// Which way round the triangles of a strip run.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Turn {
    /// Outwards is (along the first side) × (from the first side to the second), negated: for a
    /// ring that runs counter-clockwise and a strip that goes towards the viewer.
    Plain,
    /// The other way.
    Flipped,
}

/// A mesh in the making.
#[derive(Debug, Default)]
pub(super) struct Weaver {
    pub(super) mesh: TriMesh,
}

impl Weaver {
    pub(super) fn vertex(&mut self, position: [f64; 3]) -> u32 {
        let index = self.mesh.positions.len() as u32;
        self.mesh.positions.push(position);
        index
    }

    /// A triangle, unless two of its corners are one vertex.
    pub(super) fn triangle(&mut self, [a, b, c]: [u32; 3], turn: Turn, patch: Patch) {
        if a == b || b == c || c == a {
            return;
        }
        self.mesh.triangles.push(match turn {
            Turn::Plain => [a, b, c],
            Turn::Flipped => [a, c, b],
        });
        self.mesh.patches.push(patch);
    }

    /// A ring across the head: the upper quarter and its mirror image, then the lower quarter's.
    ///
    /// `at` gives (x, y, z) of the quarter y, z ≥ 0 about the ring's middle, which lies at the
    /// height `centre`. Seen from the front, y to the right and z up, the ring runs
    /// counter-clockwise from the y axis.
    pub(super) fn ring(
        &mut self,
        upper: &Quarter,
        lower: &Quarter,
        centre: f64,
        at: impl Fn(f64) -> [f64; 3],
    ) -> Ring {
        let mut ring = Ring {
            vertices: Vec::with_capacity(2 * (upper.at.len() + lower.at.len())),
            places: Vec::new(),
            starts: Vec::with_capacity(13),
        };
        for (quarter, up, base) in [(upper, 1.0, 0.0), (lower, -1.0, 6.0)] {
            let last = quarter.at.len() - 1;
            // Out: from the y axis to the z axis with y of the same sign as z; back: mirrored.
            let offset = ring.vertices.len();
            ring.starts
                .extend(quarter.ends[..3].iter().map(|k| offset + k));
            for s in &quarter.at[..last] {
                let [x, y, z] = at(*s);
                ring.vertices
                    .push(self.vertex([x, up * y, centre + up * z]));
                ring.places.push(base + s);
            }
            let offset = offset + last;
            ring.starts
                .extend([3, 2, 1].map(|piece| offset + last - quarter.ends[piece]));
            for s in quarter.at[1..].iter().rev() {
                let [x, y, z] = at(*s);
                ring.vertices
                    .push(self.vertex([x, -up * y, centre + up * z]));
                ring.places.push(base + 6.0 - s);
            }
        }
        ring.starts.push(ring.vertices.len());
        ring
    }

    /// Joins two rings of the same pieces, piece by piece.
    pub(super) fn join(&mut self, from: &Ring, to: &Ring, turn: Turn, patch: Patch) {
        for piece in 0..from.starts.len() - 1 {
            let side = |ring: &Ring| ring.starts[piece]..ring.starts[piece + 1];
            let (a, b) = (side(from), side(to));
            let along = |ring: &Ring, first: usize, k: usize| {
                (ring.stop(first + k), ring.share(piece, first + k))
            };
            self.strip(
                (a.len(), |k| along(from, a.start, k)),
                (b.len(), |k| along(to, b.start, k)),
                turn,
                patch,
            );
        }
    }

    /// A strip of triangles between two chains that run side by side.
    ///
    /// Each chain is its number of steps and, for every stop, the vertex and its share of the
    /// way, 0 to 1. A chain without steps is one vertex.
    pub(super) fn strip(
        &mut self,
        (steps_a, a): (usize, impl Fn(usize) -> (u32, f64)),
        (steps_b, b): (usize, impl Fn(usize) -> (u32, f64)),
        turn: Turn,
        patch: Patch,
    ) {
        let (mut i, mut k) = (0, 0);
        let (mut at_a, mut at_b) = (a(0), b(0));
        while i < steps_a || k < steps_b {
            let next_a = (i < steps_a).then(|| a(i + 1));
            let next_b = (k < steps_b).then(|| b(k + 1));
            // The side whose next edge has its middle first goes first: the diagonals stay short.
            let a_goes = match (next_a, next_b) {
                (Some(na), Some(nb)) => at_a.1 + na.1 <= at_b.1 + nb.1,
                (Some(_), None) => true,
                _ => false,
            };
            match (a_goes, next_a, next_b) {
                (true, Some(next), _) => {
                    self.triangle([at_a.0, next.0, at_b.0], turn, patch);
                    (i, at_a) = (i + 1, next);
                }
                (false, _, Some(next)) => {
                    self.triangle([at_a.0, next.0, at_b.0], turn, patch);
                    (k, at_b) = (k + 1, next);
                }
                _ => break,
            }
        }
    }

    /// A closed row of vertices; neighbours that lie together become one vertex.
    pub(super) fn row(&mut self, stops: &[([f64; 3], f64)], whole: f64) -> Chain {
        let apart = |p: [f64; 3], q: [f64; 3]| {
            let square = [0, 1, 2].map(|i| (p[i] - q[i]).powi(2));
            square.iter().sum::<f64>() > NO_LENGTH * NO_LENGTH
        };
        let mut row: Chain = Vec::with_capacity(stops.len() + 1);
        let first = stops[0].0;
        let mut last = (self.vertex(first), first);
        let start = last.0;
        for (position, place) in stops {
            if apart(*position, last.1) {
                // The last ones of the row may lie together with the first one.
                let vertex = if apart(*position, first) {
                    self.vertex(*position)
                } else {
                    start
                };
                last = (vertex, *position);
            }
            row.push((last.0, *place));
        }
        row.push((start, stops[0].1 + whole));
        row
    }

    /// A strip between two chains whose places run side by side.
    pub(super) fn chains(&mut self, from: &Chain, to: &Chain, turn: Turn, patch: Patch) {
        self.strip(
            (from.len() - 1, |k| from[k]),
            (to.len() - 1, |k| to[k]),
            turn,
            patch,
        );
    }

    /// Closes a ring to a point.
    pub(super) fn fan(&mut self, ring: &Ring, apex: u32, turn: Turn, patch: Patch) {
        for k in 0..ring.vertices.len() {
            self.triangle([ring.stop(k), ring.stop(k + 1), apex], turn, patch);
        }
    }
}
