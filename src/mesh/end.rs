//! One end of the head: necks, then land, broken rim and crown, or a ball.

use super::Patch;
use super::outline::{
    NO_LENGTH, Quarter, corner_parts, parts, point, present, tidy, twist, untwist,
};
use super::pein::Peening;
use super::weave::{Ring, Turn, Weaver};
use crate::design::Side;
use crate::solid::{Ball, Cap, Rim, Run, Section, Station, Tail, Tip};

/// The land is at least this long in the mesh, mm: a sound land may have no length at the
/// farthest points of the rim, where the mesh would fold.
const LEAST_LAND: f64 = 100.0 * NO_LENGTH;

/// Parameters at which an outline is looked at: the joints and within the corner.
const STOPS: [f64; 7] = [0.0, 1.0, 1.25, 1.5, 1.75, 2.0, 3.0];

/// One end, from the ring at the end of the cheek block to the apex of its crown or its edge.
pub(super) fn end(weaver: &mut Weaver, accuracy: f64, side: Side, tail: &Tail<f64>, block: Ring) {
    let way = Way::new(side);
    let tip = Closing::new(accuracy, tail);
    let necks: Vec<Neck> = tail.runs[1..]
        .iter()
        .map(|run| Neck::new(accuracy, run))
        .collect();
    let mut ring = block;
    for (k, neck) in necks.iter().enumerate() {
        ring = neck.weave(weaver, &way, ring);
        let Some(next) = necks.get(k + 1) else {
            return tip.weave(weaver, &way, neck, ring);
        };
        let station = neck.station(weaver, &way, next.corner, &[]);
        weaver.join(&ring, &station, way.turn, Patch::Neck);
        ring = station;
    }
}

/// What closes the end, divided.
enum Closing {
    Face(Face),
    Ball(Globe),
    Pein(Peening),
}

impl Closing {
    fn new(accuracy: f64, tail: &Tail<f64>) -> Self {
        match &tail.tip {
            Tip::Face(cap) => Closing::Face(Face::new(accuracy, cap, tail.tip_centre())),
            Tip::Ball(ball) => Closing::Ball(Globe::new(accuracy, ball, tail.tip_centre())),
            Tip::Pein(pein) => Closing::Pein(Peening::new(accuracy, pein, tail.drop)),
        }
    }

    /// From the last ring within the run `neck` over the station at its end to the tip.
    fn weave(&self, weaver: &mut Weaver, way: &Way, neck: &Neck, ring: Ring) {
        let (corner, turns) = match self {
            Closing::Face(face) => (face.counts[1], Vec::new()),
            Closing::Ball(globe) => (globe.around(1.0), Vec::new()),
            Closing::Pein(pein) => (neck.corner, pein.turns()),
        };
        let station = neck.station(weaver, way, corner, &turns);
        weaver.join(&ring, &station, way.turn, Patch::Neck);
        match self {
            Closing::Face(face) => face.weave(weaver, way, station),
            Closing::Ball(globe) => globe.weave(weaver, way, station),
            Closing::Pein(pein) => pein.weave(weaver, way, &station),
        }
    }
}

/// Which way an end points.
pub(super) struct Way {
    pub(super) sign: f64,
    pub(super) turn: Turn,
}

impl Way {
    fn new(side: Side) -> Self {
        match side {
            Side::Front => Self {
                sign: 1.0,
                turn: Turn::Plain,
            },
            Side::Back => Self {
                sign: -1.0,
                turn: Turn::Flipped,
            },
        }
    }

    fn ring(
        &self,
        weaver: &mut Weaver,
        quarter: &Quarter,
        centre: f64,
        at: impl Fn(f64) -> (f64, [f64; 2]),
    ) -> Ring {
        weaver.ring(quarter, quarter, centre, |s| {
            let (u, [y, z]) = at(s);
            [self.sign * u, y, z]
        })
    }
}

/// A run between two stations and how it is divided.
struct Neck {
    run: Run<f64>,
    rings: usize,
    corner: usize,
    between: Quarter,
}

impl Neck {
    fn new(accuracy: f64, run: &Run<f64>) -> Self {
        let run = Run {
            inner: tidy(&run.inner),
            outer: tidy(&run.outer),
            ..*run
        };
        let at = |tau: f64| run.at(tau).section;
        let corner = [0.0, 0.05, 0.25, 0.5, 0.75, 0.95, 1.0]
            .map(|tau| corner_parts(accuracy, &at(tau)))
            .into_iter()
            .fold(0, usize::max);
        let rings = STOPS
            .map(|s| {
                parts(accuracy, &|tau| {
                    let Station { u, section, .. } = run.at(tau);
                    let [y, z] = point(&section, s);
                    [u, y, z]
                })
            })
            .into_iter()
            .fold(1, usize::max);
        // A smooth run turns its corners half as fast again in its middle.
        let turned = 1.5 * twist(&run.inner, &run.outer);
        let (rings, corner) = untwist(accuracy, turned, rings, corner);
        let [i, o] = [present(&run.inner), present(&run.outer)];
        let flat = |piece: usize| usize::from(i[piece] || o[piece]);
        Self {
            run,
            rings,
            corner,
            between: Quarter::even([flat(0), corner, flat(2)]),
        }
    }
    /// The rings between its stations, from the ring at the inner one; returns the last.
    fn weave(&self, weaver: &mut Weaver, way: &Way, inner: Ring) -> Ring {
        let mut ring = inner;
        for step in 1..self.rings {
            let Station { u, section, centre } = self.run.at(step as f64 / self.rings as f64);
            let next = way.ring(weaver, &self.between, centre, |s| (u, point(&section, s)));
            weaver.join(&ring, &next, way.turn, Patch::Neck);
            ring = next;
        }
        ring
    }

    /// The ring at its outer station, which serves the runs on both sides; `beyond` is what the
    /// other one asks for in a corner, `turns` are places that it wants besides.
    fn station(&self, weaver: &mut Weaver, way: &Way, beyond: usize, turns: &[f64]) -> Ring {
        let section = self.run.outer;
        let [side_there, corner_there, top_there] = present(&section);
        let corner = if corner_there {
            self.corner.max(beyond).max(1)
        } else {
            0
        };
        let mut quarter = Quarter::even([side_there.into(), corner, top_there.into()]);
        for turn in turns {
            quarter.insert(*turn, corner);
        }
        let Station { u, centre, .. } = self.run.at(1.0);
        way.ring(weaver, &quarter, centre, |s| (u, point(&section, s)))
    }
}

/// The land and the face, and how its rim is divided.
struct Face {
    cap: Cap<f64>,
    accuracy: f64,
    /// Parts of the rim: side, corner, top.
    counts: [usize; 3],
    /// Longest chord on the crown, mm; infinite on a flat face.
    chord: f64,
    /// Height of its middle.
    centre: f64,
}

impl Face {
    fn new(accuracy: f64, cap: &Cap<f64>, centre: f64) -> Self {
        let cap = Cap {
            outline: tidy(&cap.outline),
            ..*cap
        };
        // Half the tolerance for either direction on the sphere: chord²/8 · κ = accuracy/2.
        let chord = if cap.curvature > 0.0 {
            (4.0 * accuracy / cap.curvature).sqrt()
        } else {
            f64::INFINITY
        };
        let there = present(&cap.outline);
        let counts = [0, 1, 2].map(|piece| {
            if !there[piece] {
                return 0;
            }
            let rim = |t: f64| {
                let [y, z] = point(&cap.outline, piece as f64 + t);
                [-cap.sag(y * y + z * z), y, z]
            };
            parts(accuracy, &rim).max(chords(longest_step(&rim), chord))
        });
        Self {
            cap,
            accuracy,
            counts,
            chord,
            centre,
        }
    }

    fn weave(&self, weaver: &mut Weaver, way: &Way, land: Ring) {
        let cap = &self.cap;
        let quarter = Quarter::even(self.counts);
        let floor = cap.land_start() + LEAST_LAND;
        let height = |[y, z]: [f64; 2]| cap.reach - cap.sag(y * y + z * z);
        let drop = cap.edge_at(0.0).1;
        let mut ring = way.ring(weaver, &quarter, self.centre, |s| {
            let at = point(&cap.outline, s);
            ((height(at) - drop).max(floor), at)
        });
        weaver.join(&land, &ring, way.turn, Patch::Land);
        let mut inner = cap.outline;
        if cap.rim != Rim::Sharp {
            inner = tidy(&cap.inner());
            let steps = STOPS
                .map(|s| {
                    parts(self.accuracy, &|t| {
                        let (at, drop) = self.edge(s, t);
                        [height(at) - drop, at[0], at[1]]
                    })
                })
                .into_iter()
                .fold(1, usize::max);
            for step in 1..=steps {
                let t = step as f64 / steps as f64;
                let next = way.ring(weaver, &quarter, self.centre, |s| {
                    let (at, drop) = self.edge(s, t);
                    (height(at) - drop, at)
                });
                weaver.join(&ring, &next, way.turn, Patch::Edge);
                ring = next;
            }
        }
        self.crown(weaver, way, &inner, ring);
    }

    /// Point of the broken rim at the share `t` of its way, and how far it lies below the crown.
    fn edge(&self, s: f64, t: f64) -> ([f64; 2], f64) {
        let (inset, drop, ..) = self.cap.edge_at(t);
        let (across, up) = self.cap.shrink(inset);
        let [y, z] = point(&self.cap.outline, s);
        ([y * across, z * up], drop)
    }

    /// The crown over `outline`: rings at even angles of the sphere, fewer vertices inwards.
    fn crown(&self, weaver: &mut Weaver, way: &Way, outline: &Section<f64>, rim: Ring) {
        let cap = &self.cap;
        let farthest = outline.farthest_squared().sqrt();
        let angle = (cap.curvature * farthest).min(1.0).asin();
        let rings = chords(angle / cap.curvature.max(f64::MIN_POSITIVE), self.chord);
        let lengths = [0, 1, 2].map(|piece| {
            longest_step(&|t| {
                let [y, z] = point(outline, piece as f64 + t);
                [-cap.sag(y * y + z * z), y, z]
            })
        });
        let mut ring = rim;
        for step in 1..rings {
            let share = 1.0 - step as f64 / rings as f64;
            let rho = (angle * share).sin() / angle.sin();
            let counts = [0, 1, 2].map(|piece| {
                let most = self.counts[piece];
                chords(lengths[piece] * rho, self.chord).min(most)
            });
            let next = way.ring(weaver, &Quarter::even(counts), self.centre, |s| {
                let [y, z] = point(outline, s).map(|v| v * rho);
                (cap.reach - cap.sag(y * y + z * z), [y, z])
            });
            weaver.join(&ring, &next, way.turn, Patch::Crown);
            ring = next;
        }
        let apex = weaver.vertex([way.sign * cap.reach, 0.0, self.centre]);
        weaver.fan(&ring, apex, way.turn, Patch::Crown);
    }
}

/// A ball and how it is divided.
struct Globe {
    ball: Ball<f64>,
    /// Longest chord on it, mm.
    chord: f64,
    /// Height of its middle.
    centre: f64,
}

impl Globe {
    fn new(accuracy: f64, ball: &Ball<f64>, centre: f64) -> Self {
        // Half the tolerance for either direction, as on a crown.
        let chord = (4.0 * accuracy * ball.radius).sqrt();
        Self {
            ball: *ball,
            chord,
            centre,
        }
    }

    /// Parts of a quarter of the circle that is `share` as large as the neck's.
    fn around(&self, share: f64) -> usize {
        let circle = Section::circle(self.ball.neck * share);
        let quarter = longest_step(&|t| {
            let [y, z] = point(&circle, 1.0 + t);
            [0.0, y, z]
        });
        chords(quarter, self.chord)
    }

    /// Rings at even angles from the neck to the pole.
    fn weave(&self, weaver: &mut Weaver, way: &Way, neck: Ring) {
        let Ball {
            radius, neck: n, ..
        } = self.ball;
        let from = n.atan2(-self.ball.depth());
        let rings = chords(from * radius, self.chord).max(2);
        let mut ring = neck;
        for step in 1..rings {
            let (sin, cos) = (from * (1.0 - step as f64 / rings as f64)).sin_cos();
            let u = self.ball.centre() + radius * cos;
            let circle = Section::circle(radius * sin);
            let quarter = Quarter::even([0, self.around(radius * sin / n), 0]);
            let next = way.ring(weaver, &quarter, self.centre, |s| (u, point(&circle, s)));
            weaver.join(&ring, &next, way.turn, Patch::Crown);
            ring = next;
        }
        let pole = weaver.vertex([way.sign * self.ball.reach, 0.0, self.centre]);
        weaver.fan(&ring, pole, way.turn, Patch::Crown);
    }
}

/// How many chords of at most `chord` a path of `length` takes.
fn chords(length: f64, chord: f64) -> usize {
    const MOST: f64 = 4096.0;
    (length / chord).ceil().clamp(1.0, MOST) as usize
}

/// Length of a path if all of it were run through as fast as its fastest part, mm.
fn longest_step(path: &dyn Fn(f64) -> [f64; 3]) -> f64 {
    const STEPS: usize = 8;
    let mut last = path(0.0);
    let mut longest: f64 = 0.0;
    for k in 1..=STEPS {
        let next = path(k as f64 / STEPS as f64);
        let step = [0, 1, 2].map(|i| next[i] - last[i]);
        longest = longest.max(step.iter().map(|d| d * d).sum::<f64>().sqrt());
        last = next;
    }
    longest * STEPS as f64
}
