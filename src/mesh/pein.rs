//! A pein: rows of vertices across it at constant v, from its station to the tip.
//!
//! A row runs once round, in four parts: up the right side of the arm, over the upper face of the
//! slab, down the left side, back under the slab. A slice at constant v is the same from either
//! end of its middle, so that the right side and the upper face give the other two. Every row
//! has a stop for every corner of the station's ring; where slab or broken corner have cut a stop
//! away it stands where they leave off, and stops that stand together are one vertex. A row
//! stands wherever a stop is cut away, so that the sharp edges end where they should.

use std::f64::consts::FRAC_PI_2;

use super::Patch;
use super::end::Way;
use super::outline::{around, parts, tidy};
use super::weave::{Chain, Ring, Weaver};
use crate::numeric::order::sort_few;
use crate::numeric::roots::{crossing_within, sign_change};
use crate::solid::{Drop, Pein, Piece};

/// Rows are at least this far apart, mm.
const LEAST_GAP: f64 = 1e-4;
/// Corners of a ring within this of the highest, mm, are a flat along the edge.
const FLAT: f64 = 1e-7;
/// Steps along the pein in which the rows are looked for at which a stop is cut away.
const LOOKS: usize = 16;
/// A place where something is cut away is found to this share of where it is looked for.
const NEAR: f64 = 1e-12;

/// A pein to be woven.
pub(super) struct Peening {
    pein: Pein<f64>,
    drop: Drop<f64>,
    accuracy: f64,
}

/// The right side of the station's ring, and what lies above it.
struct Side {
    /// Places of its stops, from the lowest to the highest.
    places: Vec<f64>,
    /// Its outermost stops: the first and the last of a flat across the edge.
    outermost: [usize; 2],
    /// Whether a flat along the edge lies above it.
    flat: bool,
}

/// A stop of a row.
type Stop = ([f64; 3], f64);

impl Peening {
    pub(super) fn new(accuracy: f64, pein: &Pein<f64>, drop: Drop<f64>) -> Self {
        Self {
            pein: Pein {
                section: tidy(&pein.section),
                ..*pein
            },
            drop,
            accuracy,
        }
    }

    /// Places of the station's quarter where its corner runs along the edge or across it.
    pub(super) fn turns(&self) -> Vec<f64> {
        let section = &self.pein.section;
        let mut turns = Vec::new();
        if section.c > 0.0 {
            for (axis, mirror) in [(0, 1.0), (0, -1.0), (1, 1.0), (1, -1.0)] {
                let slope = |t: f64| {
                    let (_, _, dy, dz) = section.along(Piece::Corner, t);
                    self.pein.along(mirror * dy, dz)[axis]
                };
                turns.extend(sign_change(0.0, 1.0, slope).map(|t| 1.0 + t));
            }
        }
        turns
    }

    /// From the ring of the station to the tip.
    pub(super) fn weave(&self, weaver: &mut Weaver, way: &Way, ring: &Ring) {
        let (side, mut last) = self.station(ring);
        let columns = self.columns();
        for v in self.rows(&side, columns) {
            let stops = self.stops(&side, columns, v);
            let stops: Vec<Stop> = stops
                .into_iter()
                .map(|([xi, eta], place)| {
                    let u = self.pein.u_at(v, xi);
                    let [y, z] = self.pein.across(xi, eta);
                    ([way.sign * u, y, z + self.drop.at(u)], place)
                })
                .collect();
            let row = if v < self.pein.reach {
                weaver.row(&stops, 4.0)
            } else {
                tip(weaver, &stops)
            };
            let patch = if v > self.pein.tangent[0] {
                Patch::Crown
            } else {
                Patch::Neck
            };
            weaver.chains(&last, &row, way.turn, patch);
            last = row;
        }
    }

    /// The greatest |ξ| of the pein.
    fn half_width(&self) -> f64 {
        let wider = self.pein.half_edge / self.pein.radius;
        self.pein.support() * wider.max(1.0)
    }

    /// Parts of the upper face along the edge.
    fn columns(&self) -> usize {
        if self.pein.rocker == 0.0 {
            return 1;
        }
        let edge = |t: f64| {
            let xi = self.half_width() * t;
            [self.pein.u_at(self.pein.reach, xi), xi, 0.0]
        };
        2 * parts(0.5 * self.accuracy, &edge)
    }

    /// (ξ, η) of the arm at `v` where the station has the place `place`.
    fn arm(&self, v: f64, place: f64) -> [f64; 2] {
        let pein = &self.pein;
        let [y, z] = around(&pein.section, place);
        let [xi_0, eta_0] = pein.along(y, z);
        let arm = pein.arm(v).at(xi_0, 0.0);
        [arm.xi, eta_0 * arm.growth]
    }

    /// Half of the slab's thickness at `v`: nothing at the tip.
    fn thickness(&self, v: f64) -> f64 {
        if v < self.pein.reach {
            self.pein.thickness(v)
        } else {
            0.0
        }
    }

    /// The right side of the station's ring, and the ring as the first row.
    fn station(&self, ring: &Ring) -> (Side, Chain) {
        let count = ring.vertices.len();
        let half = count / 2;
        let station = |k: usize| {
            let [y, z] = around(&self.pein.section, ring.places[k % count]);
            self.pein.along(y, z)
        };
        let highest = (0..count)
            .max_by(|i, j| station(*i)[1].total_cmp(&station(*j)[1]))
            .unwrap_or(0);
        let along = |k: usize| station(k)[1] >= station(highest)[1] - FLAT;
        // A turn further on, so that the way back does not pass 0.
        let [mut right, mut left] = [highest + count; 2];
        while along(right - 1) && left - right < half {
            right -= 1;
        }
        while along(left + 1) && left - right < half {
            left += 1;
        }
        let first = left - half;
        let place = |k: usize| ring.places[k % count] + 12.0 * (k / count) as f64;
        let xi = |k: &usize| station(first + k)[0];
        let stops = right - first + 1;
        let farthest = (0..stops).map(|k| xi(&k)).fold(0.0, f64::max);
        let outer = |k: &usize| xi(k) >= farthest - FLAT;
        let outermost = [
            (0..stops).find(outer).unwrap_or(0),
            (0..stops).rfind(outer).unwrap_or(0),
        ];
        let side = Side {
            places: (first..=right).map(place).collect(),
            outermost,
            flat: left > right,
        };
        let vertex = |k: usize| ring.vertices[k % count];
        let mut row = Chain::new();
        for (turn, base) in [(0, 0.0), (half, 2.0)] {
            for (k, place) in side.walk() {
                row.push((vertex(first + turn + k), base + place));
            }
            let share = |k: usize| 0.5 - 0.5 * station(k)[0] / self.half_width();
            let inner = (right + 1..left).map(|k| (vertex(turn + k), base + 1.0 + share(k)));
            row.extend(inner);
        }
        row.push((row[0].0, 4.0));
        (side, row)
    }

    /// The stops of the row at `v` as (ξ, η), and where each stands.
    fn stops(&self, side: &Side, columns: usize, v: f64) -> Vec<([f64; 2], f64)> {
        let pein = &self.pein;
        let half = self.thickness(v);
        let limit = if pein.break_at(v) > 0.0 {
            pein.limit(v)
        } else {
            f64::INFINITY
        };
        let ends = [side.places[0], side.places[side.places.len() - 1]];
        let [outer_from, outer_to] = side.outermost.map(|k| side.places[k]);
        let root = |from: f64, to: f64, f: &dyn Fn([f64; 2]) -> f64| {
            let at = |place: f64| f(self.arm(v, place));
            crossing_within(NEAR, (from, at(from)), (to, at(to)), &at)
        };
        // What slab and broken corner leave.
        let low = root(ends[0], ends[1], &|[_, eta]| eta + half).unwrap_or(ends[0]);
        let high = root(ends[0], ends[1], &|[_, eta]| eta - half).unwrap_or(ends[1]);
        let beyond = |[xi, _]: [f64; 2]| xi - limit;
        let broken = |end: f64, outer: f64| {
            let whole = beyond(self.arm(v, end)) > 0.0;
            let none = if whole { end } else { outer };
            root(end, outer, &beyond).unwrap_or(none)
        };
        let from = broken(ends[0], outer_from).max(low).min(high);
        let to = broken(ends[1], outer_to).max(from).min(high);
        let limits = [(low, from), (from, to), (to, high)];
        let count = side.places.len();
        // Most of them stand where the one before stands.
        let mut known = (f64::NAN, [0.0; 2]);
        let right: Vec<([f64; 2], f64)> = limits
            .into_iter()
            .enumerate()
            .flat_map(|(part, (from, to))| {
                let share = move |k: usize| (part * count + k) as f64 / (3 * count - 1) as f64;
                let stops = side.places.iter().enumerate();
                stops.map(move |(k, place)| (place.max(from).min(to), share(k)))
            })
            .map(|(place, share)| {
                if place != known.0 {
                    known = (place, self.arm(v, place));
                }
                let [xi, eta] = known.1;
                ([xi.min(limit), eta], share)
            })
            .collect();
        let (first, last) = (right[0].0, right[right.len() - 1].0);
        let flat = around(&pein.section, ends[1]);
        let flat = pein.along(flat[0], flat[1])[1];
        let over = |k: usize| {
            // In line from row to row, as far as the row reaches.
            let share = k as f64 / columns as f64;
            let xi = self.half_width() * (1.0 - 2.0 * share);
            let xi = xi.min(last[0]).max(-first[0]);
            let eta = if side.flat {
                half.min(flat * pein.growth(pein.u_at(v, xi)))
            } else {
                last[1]
            };
            ([xi, eta], 1.0 + share)
        };
        let mut stops = right;
        stops.extend((1..columns).map(over));
        let other: Vec<([f64; 2], f64)> = stops
            .iter()
            .map(|([xi, eta], place)| ([-xi, -eta], 2.0 + place))
            .collect();
        stops.extend(other);
        stops
    }

    /// Values of v of the rows after the station, up to the tip.
    fn rows(&self, side: &Side, columns: usize) -> Vec<f64> {
        let pein = &self.pein;
        let (start, reach, [tangent, _]) = (pein.start, pein.reach, pein.tangent);
        let angle = |radius: f64| (8.0 * self.accuracy / radius).sqrt();
        let count =
            |turn: f64, radius: f64| (turn / angle(radius)).ceil().clamp(2.0, 4096.0) as usize;
        let slope = |t: f64| {
            let v = start + (tangent - start) * t;
            [v, pein.thickness(v), 0.0]
        };
        let even = parts(self.accuracy, &slope).max(columns);
        let share = |k: usize, count: usize| k as f64 / count as f64;
        let mut rows: Vec<f64> = (1..=even).map(|k| slope(share(k, even))[0]).collect();
        let from = ((tangent - pein.nose_centre()) / pein.nose)
            .clamp(-1.0, 1.0)
            .asin();
        let turn = FRAC_PI_2 - from;
        let around_nose = count(turn, pein.nose);
        rows.extend(
            (1..around_nose).map(|k| {
                pein.nose_centre() + pein.nose * (from + turn * share(k, around_nose)).sin()
            }),
        );
        let broken = pein.corner_break;
        if broken > 0.0 {
            let corner = count(FRAC_PI_2, broken);
            let depth = |k: usize| broken * (1.0 - (FRAC_PI_2 * share(k, corner)).sin());
            rows.extend((0..corner).map(|k| reach - depth(k)));
        }
        let mut places = side.places.clone();
        if side.flat {
            // The middle of the flat, a rocker's highest or lowest place there.
            let across = side.places.len() - 1;
            places.push(0.5 * (side.places[across] + side.places[0] + 6.0));
        }
        for place in places {
            let mut find = |from: f64, f: &dyn Fn(f64) -> f64| {
                let at = |k: usize| from + (reach - from) * share(k, LOOKS);
                let looks: Vec<(f64, f64)> = (0..=LOOKS).map(|k| (at(k), f(at(k)))).collect();
                let pairs = looks.windows(2);
                rows.extend(pairs.filter_map(|pair| crossing_within(NEAR, pair[0], pair[1], f)));
            };
            find(start, &|v| self.arm(v, place)[1].abs() - self.thickness(v));
            if broken > 0.0 {
                find(reach - broken, &|v| self.arm(v, place)[0] - pein.limit(v));
            }
        }
        sort_few(&mut rows, |v| *v);
        let mut last = start;
        rows.retain(|v| {
            let kept = v - last >= LEAST_GAP && reach - v >= LEAST_GAP;
            if kept {
                last = *v;
            }
            kept
        });
        rows.push(reach);
        rows
    }
}

impl Side {
    /// The stops of the side in the order of a row: up to the outermost ones, along these, and
    /// beyond them; with their places, 0 to 1.
    fn walk(&self) -> impl Iterator<Item = (usize, f64)> + '_ {
        let count = self.places.len();
        let [from, to] = self.outermost;
        [(0, from), (from, to), (to, count - 1)]
            .into_iter()
            .enumerate()
            .flat_map(move |(part, (from, to))| {
                (0..count).map(move |k| {
                    let place = (part * count + k) as f64 / (3 * count - 1) as f64;
                    (k.clamp(from, to), place)
                })
            })
    }
}

/// The row at the tip: its lower half is its upper half, walked back.
fn tip(weaver: &mut Weaver, stops: &[Stop]) -> Chain {
    let half = &stops[..=stops.len() / 2];
    let mut row = weaver.row(half, 4.0);
    row.pop();
    let back: Chain = row
        .iter()
        .rev()
        .map(|(vertex, place)| (*vertex, 5.0 - place))
        .collect();
    row.extend(back);
    row
}
