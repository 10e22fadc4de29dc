//! The pein: slices at constant v, each by Green's theorem around its outline, one rule along it.

use super::{Moments, Order};
use crate::numeric::Scalar;
use crate::numeric::order::sort_few;
use crate::numeric::quadrature::{Rule, gauss};
use crate::numeric::roots::{crossing, sign_change};
use crate::solid::{Pein, Piece};

mod slice;

use slice::Slice;

/// Looks along the slope, the nose and the broken corners for where the slab's faces pass a joint of
/// the arm's outline.
const LOOKS: usize = 8;
/// Joints of the outline closer than this, mm, are passed at once.
const SAME: f64 = 1e-9;
/// Below this share of the pein's length a stretch along it counts as short.
const SHORT: f64 = 0.02;
/// From this share on it counts as long.
const LONG: f64 = 0.2;
/// Over less than this angle on the rocker's circle, radians, a rule does as well in ξ itself.
const EVEN: f64 = 0.1;
/// Points on one of several parts of a piece of the outline, at least.
const LEAST_POINTS: usize = 4;
/// Points on a straight of the outline: the integrand is a cubic without rocker.
const STRAIGHT: usize = 2;

/// Moments of the pein in u and (y, z) from the end's axis, before its end drops.
///
/// With v in the place of u the slab is |η| ≤ h(v) at every ξ, so that a slice at constant v is
/// the arm's outline cut by a strip and, near the edge, by the broken corners. A slice is the
/// same seen from either end of its middle, so half of its outline serves for all. What u and
/// the volume element gain by the rocker depends on ξ alone and stays inside the integral; without
/// one the arm only grows, and what a stretch adds whole is known from the station.
pub(super) fn moments<T: Scalar>(pein: &Pein<T>, order: Order) -> Moments<T> {
    // Places are found without derivatives; only what is added up carries them.
    let plain = pein.values();
    if !pein.moves() {
        return sums(&plain, &plain, order).turned(&plain).still();
    }
    sums(pein, &plain, order).turned(pein)
}

fn sums<T: Scalar>(pein: &Pein<T>, plain: &Pein<f64>, order: Order) -> Sums<T> {
    let outline = Outline::new(pein, plain, order);
    let joints = joints(pein, plain, &outline.stretches);
    // What a rocker bends is run through in more, and so shorter, stretches.
    let fine = order.0 * if plain.rocker > 0.0 { 4 } else { 6 } / 3;
    let mut sum = Sums::zero();
    for pair in joints.windows(2) {
        // Where joints coincide a part has no length, but it may have a derivative.
        let (low, length) = (pair[0], pair[1] - pair[0]);
        // Square roots at the nose and where a round arm comes through the slab:
        // t = s²(3 − 2s) makes them smooth.
        // A short stretch needs fewer points: its error falls with the power of its length. Twice
        // the order keeps the derivatives as good as the values.
        let share = length.value() / plain.length();
        let points = match share {
            _ if share < SHORT => fine / 2,
            _ if share < LONG => fine * 3 / 4,
            _ => fine,
        };
        for (s, weight) in gauss(points).nodes() {
            let v = low + length * (s * s * (3.0 - 2.0 * s));
            let dv = length * (6.0 * s * (1.0 - s) * weight);
            let place = Slice::new(plain, v.value());
            Slice::new(pein, v).add(&place, &outline, dv, &mut sum);
        }
    }
    sum
}

/// ∫dV, ∫u dV, ∫u² dV, ∫ξ² dV, ∫ξη dV, ∫η² dV; all others are zero.
struct Sums<T> {
    volume: T,
    u: T,
    uu: T,
    along: T,
    mixed: T,
    across: T,
}

impl<T: Scalar> Sums<T> {
    fn zero() -> Self {
        let zero = T::constant(0.0);
        Self {
            volume: zero,
            u: zero,
            uu: zero,
            along: zero,
            mixed: zero,
            across: zero,
        }
    }

    fn turned(&self, pein: &Pein<T>) -> Moments<T> {
        let [cos, sin] = pein.direction;
        let (cc, ss, cs) = (cos * cos, sin * sin, cos * sin);
        Moments {
            volume: self.volume,
            x: self.u,
            xx: self.uu,
            yy: cc * self.along - cs * self.mixed * 2.0 + ss * self.across,
            zz: ss * self.along + cs * self.mixed * 2.0 + cc * self.across,
            yz: cs * (self.along - self.across) + (cc - ss) * self.mixed,
            ..Moments::zero()
        }
    }
}

/// A part of half the station's outline on which neither ξ nor η turns back.
#[derive(Clone, Copy)]
struct Stretch {
    piece: Piece,
    /// Mirrored into y ≤ 0 and run through backwards.
    mirrored: bool,
    /// Whether it begins at a joint, where the outline or its direction changes.
    joint: bool,
    from: f64,
    to: f64,
    /// (ξ, η) of the station's outline at its ends.
    ends: [[f64; 2]; 2],
    rule: &'static Rule,
    /// One over the radius of the circle by whose angle it is run through, 1/mm; 0 evenly.
    circle: f64,
}

/// Half of the outline, from the +y axis over +z to the −y axis.
fn stretches(pein: &Pein<f64>, order: Order) -> Vec<Stretch> {
    // Where a rocker takes much of the length off, η may turn back between two joints.
    let deepest = pein.recess(pein.farthest()) / pein.length();
    let parts = 1 + (8.0 * deepest) as u32;
    let mut stretches = Vec::with_capacity(12);
    let pieces: Vec<Piece> = pein.section.pieces().collect();
    let halves = pieces
        .iter()
        .map(|piece| (*piece, false))
        .chain(pieces.iter().rev().map(|piece| (*piece, true)));
    for (piece, mirrored) in halves {
        let whole = Stretch {
            piece,
            mirrored,
            joint: true,
            from: 0.0,
            to: 1.0,
            ends: [[0.0; 2]; 2],
            rule: rule(pein, piece, parts, order),
            circle: match piece {
                Piece::Corner if pein.section.w > 0.0 => 0.0,
                _ => pein.rocker,
            },
        };
        let mut ends = vec![0.0, 1.0];
        if piece == Piece::Corner && pein.section.w > 0.0 {
            for axis in [0, 1] {
                let slope = |t: f64| whole.at(pein, t).1[axis];
                ends.extend(sign_change(0.0, 1.0, slope));
            }
        }
        // A rocker bends what is parallel to the edge towards both of its ends.
        let along = |t: f64| whole.at(pein, t).0[0];
        ends.extend(crossing((0.0, along(0.0)), (1.0, along(1.0)), along));
        sort_few(&mut ends, |t| *t);
        for pair in ends.windows(2) {
            for part in 0..parts {
                let [from, to] = [part, part + 1].map(|part| {
                    pair[0] + (pair[1] - pair[0]) * (f64::from(part) / f64::from(parts))
                });
                stretches.push(Stretch {
                    joint: part == 0,
                    from,
                    to,
                    ends: [from, to].map(|t| whole.at(pein, t).0),
                    ..whole
                });
            }
        }
    }
    stretches
}

impl Stretch {
    /// (ξ, η) on the station's outline, and how it changes with the parameter along the way round.
    fn at<T: Scalar>(&self, pein: &Pein<T>, t: f64) -> ([T; 2], [T; 2]) {
        if self.mirrored {
            let (y, z, dy, dz) = pein.section.along(self.piece, 1.0 - t);
            (pein.along(-y, z), pein.along(dy, -dz))
        } else {
            let (y, z, dy, dz) = pein.section.along(self.piece, t);
            (pein.along(y, z), pein.along(dy, dz))
        }
    }

    /// The places of its rule between two parameters, at which ξ is `ends`.
    fn places<T: Scalar>(
        &self,
        pein: &Pein<T>,
        [from, to]: [f64; 2],
        ends: [f64; 2],
    ) -> impl Iterator<Item = Place<T>> {
        turning(self.rule, self.circle, ends).map(move |(s, weight)| {
            let (on, [change, _]) = self.at(pein, from + (to - from) * s);
            let weight = weight * (to - from);
            Place { on, change, weight }
        })
    }
}

/// A stretch of the station's outline from one end to the other.
enum Whole<T> {
    /// What it adds at the station, of an arm without rocker: there it only grows.
    Grown(Sums<T>),
    /// Places on it, of an arm with one.
    Bent(Vec<Place<T>>),
}

/// A place on the station's outline.
#[derive(Clone, Copy)]
struct Place<T> {
    /// (ξ, η).
    on: [T; 2],
    /// How ξ changes with the parameter.
    change: T,
    /// Its weight in a rule along the parameter.
    weight: f64,
}

/// Half of the station's outline.
struct Outline<T> {
    stretches: Vec<Stretch>,
    /// Each stretch where nothing cuts it.
    wholes: Vec<Whole<T>>,
    /// The rule along the slab's faces.
    face: &'static Rule,
}

impl<T: Scalar> Outline<T> {
    fn new(pein: &Pein<T>, plain: &Pein<f64>, order: Order) -> Self {
        let stretches = stretches(plain, order);
        let station = Slice::new(pein, pein.start);
        let straight = plain.rocker == 0.0;
        let whole = |stretch: &Stretch| {
            let ends = stretch.ends.map(|[xi, _]| xi);
            let places = stretch.places(pein, [stretch.from, stretch.to], ends);
            if !straight {
                return Whole::Bent(places.collect());
            }
            let mut sum = Sums::zero();
            places.for_each(|place| station.walk(&place, T::constant(1.0), &mut sum));
            Whole::Grown(sum)
        };
        let wholes = stretches.iter().map(whole).collect();
        let face = gauss(if straight { STRAIGHT } else { order.0 * 2 / 3 });
        Self {
            stretches,
            wholes,
            face,
        }
    }
}

/// The rule along a piece of the outline of which a stretch is one of `parts`.
///
/// On a straight the integrand is a cubic; with a rocker it is close to one in the angle on the
/// rocker's circle. A conic is not run through by that angle: the nearer ξ comes to the rocker
/// radius, the slower a rule converges, by e^(−2·acosh) for every point.
fn rule(pein: &Pein<f64>, piece: Piece, parts: u32, order: Order) -> &'static Rule {
    let bent = pein.rocker > 0.0;
    let half = order.0 * 2 / 3;
    // The error of a part falls with a high power of its length.
    let share = |points: usize| (2 * points).div_ceil(1 + parts as usize).max(LEAST_POINTS);
    if piece != Piece::Corner || pein.section.w == 0.0 {
        return gauss(if bent { share(half) } else { STRAIGHT });
    }
    // A conic's own parameter converges slower the nearer the conic is to a chamfer.
    let conic = if pein.section.w < 0.5 { order.0 } else { half };
    if !bent {
        return gauss(conic);
    }
    let turn = (pein.rocker * pein.farthest()).recip().acosh();
    gauss(share(conic.max((half as f64 / turn).ceil() as usize)))
}

/// Shares of a way in ξ between `ends` and their weights: even in the angle on the rocker's circle,
/// where there is one.
fn turning(
    rule: &Rule,
    rocker: f64,
    [from, to]: [f64; 2],
) -> impl Iterator<Item = (f64, f64)> + '_ {
    let start = (rocker * from).asin();
    let turn = (rocker * to).asin() - start;
    let even = turn.abs() < EVEN;
    let length = rocker * (to - from);
    rule.nodes().map(move |(s, weight)| {
        if even {
            return (s, weight);
        }
        let (sin, cos) = (start + turn * s).sin_cos();
        ((sin - rocker * from) / length, weight * cos * turn / length)
    })
}

/// Values of v between which the integrand is smooth.
fn joints<T: Scalar>(pein: &Pein<T>, plain: &Pein<f64>, stretches: &[Stretch]) -> Vec<T> {
    let [tangent, _] = pein.tangent;
    let mut joints = vec![pein.start, tangent, pein.reach];
    if pein.corner_break.value() > 0.0 {
        joints.push(pein.reach - pein.corner_break);
    }
    let (start, there) = (plain.start, plain.tangent[0]);
    let broken = plain.reach - plain.corner_break;
    let mut seen: Vec<[f64; 2]> = Vec::new();
    for stretch in stretches.iter().filter(|stretch| stretch.joint) {
        // With a rocker also the place along the edge tells when a joint is passed.
        let at = stretch.at(plain, stretch.from).0.map(f64::abs);
        let same = |known: &[f64; 2]| {
            let [along, across] = [0, 1].map(|axis| (known[axis] - at[axis]).abs() < SAME);
            across && (along || plain.rocker == 0.0)
        };
        if seen.iter().any(same) {
            continue;
        }
        seen.push(at);
        // The slab's face passes it, and near the edge the broken corner does.
        for [from, length] in [[start, there - start], [there, plain.reach - there]] {
            let places = passed(from, length, &|v| beyond(plain, stretch, v));
            moving(places, &mut joints, &|v| beyond(pein, stretch, v));
        }
        if plain.corner_break > 0.0 {
            let places = passed(broken, plain.corner_break, &|v| inside(plain, stretch, v));
            moving(places, &mut joints, &|v| inside(pein, stretch, v));
        }
    }
    if plain.corner_break > 0.0 {
        // From the outline the broken corner goes over to the face, whose two ends differ; a
        // rocker may part the face in two.
        for end in 0..if plain.rocker > 0.0 { 4 } else { 2 } {
            let places = passed(broken, plain.corner_break, &|v| {
                room(plain, plain, stretches, end, v)
            });
            moving(places, &mut joints, &|v| {
                room(pein, plain, stretches, end, v)
            });
        }
    }
    sort_few(&mut joints, |v| v.value());
    joints
}

/// `value` at even steps from `start` on.
fn looks(start: f64, length: f64, value: &dyn Fn(f64) -> f64) -> Vec<(f64, f64)> {
    (0..=LOOKS)
        .map(|k| start + length * (k as f64 / LOOKS as f64))
        .map(|v| (v, value(v)))
        .collect()
}

/// Where `value` changes its sign, and its slope there.
fn passed(start: f64, length: f64, value: &dyn Fn(f64) -> f64) -> Vec<(f64, f64)> {
    const STEP: f64 = 1e-5;
    let looks = looks(start, length, value);
    let pairs = looks.windows(2);
    let found = pairs.filter_map(|pair| crossing(pair[0], pair[1], value));
    found
        .map(|v| (v, (value(v + STEP) - value(v - STEP)) / (2.0 * STEP)))
        .collect()
}

/// The joints at places where something passes 0: one step of Newton's method with `exact`, the
/// same with derivatives, since a joint moves with the sizes.
fn moving<T: Scalar>(places: Vec<(f64, f64)>, joints: &mut Vec<T>, exact: &dyn Fn(T) -> T) {
    joints.extend(places.into_iter().map(|(v, slope)| {
        let v = T::constant(v);
        v - exact(v) / slope
    }));
}

/// Area of the pein's section at `u`, mm².
///
/// From its middle every point of the section is seen; about 1e-4 of the area.
pub(super) fn section_area(pein: &Pein<f64>, u: f64) -> f64 {
    // It is the same seen from either end of its middle: rays over half a turn serve for all.
    const RAYS: usize = 256;
    let turn = std::f64::consts::PI / RAYS as f64;
    (0..RAYS)
        .map(|k| {
            let (sin, cos) = (k as f64 * turn).sin_cos();
            pein.slice_radius(u, cos, sin).powi(2) * turn
        })
        .sum()
}

/// How far the slab's face lies beyond the beginning of a stretch.
fn beyond<T: Scalar>(pein: &Pein<T>, stretch: &Stretch, v: T) -> T {
    let slice = Slice::new(pein, v);
    let [_, eta] = slice.place(stretch, stretch.from);
    slice.half - if eta.value() < 0.0 { -eta } else { eta }
}

/// How far inside the broken corner's limit the beginning of a stretch lies.
fn inside<T: Scalar>(pein: &Pein<T>, stretch: &Stretch, v: T) -> T {
    let slice = Slice::new(pein, v);
    let [xi, _] = slice.place(stretch, stretch.from);
    pein.limit(v) - if xi.value() < 0.0 { -xi } else { xi }
}

/// How far inside the broken corner's limit end `end` of the slab's face lies, as wide as the arm
/// is there.
fn room<T: Scalar>(
    pein: &Pein<T>,
    plain: &Pein<f64>,
    stretches: &[Stretch],
    end: usize,
    v: T,
) -> T {
    let face = Slice::new(pein, v).face(&Slice::new(plain, v.value()), stretches);
    match face.get(end) {
        Some(xi) if xi.value() < 0.0 => pein.limit(v) + *xi,
        Some(xi) => pein.limit(v) - *xi,
        None => T::constant(1.0),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::solid::{PeinSizes, Section};
    use approx::assert_relative_eq;

    /// A tapering pein with a rocker, whose arm has a flat parallel to the edge: its middle lies
    /// in the slab where its ends are cut.
    fn tapering() -> Pein<f64> {
        let section = Section {
            a: 13.5,
            b: 24.25,
            c: 1.0,
            d: 1.0,
            w: 0.0,
        };
        Pein::new(PeinSizes {
            start: 40.0,
            section,
            reach: 104.314,
            direction: -std::f64::consts::FRAC_PI_2,
            edge: 21.727,
            nose: 8.542,
            rocker: 1.0 / 52.12,
            hollow: 0.3827,
            corner_break: 0.298,
        })
    }

    #[test]
    fn a_tapering_rocker_weighs_what_its_sections_add_up_to() {
        let pein = tapering();
        let sum = moments(&pein, Order::default());
        const SLICES: u32 = 400;
        let length = pein.length();
        let added: f64 = (0..SLICES)
            .map(|k| {
                let u = pein.start + length * (f64::from(k) + 0.5) / f64::from(SLICES);
                section_area(&pein, u) * length / f64::from(SLICES)
            })
            .sum();
        assert_relative_eq!(sum.volume, added, max_relative = 5e-4);
    }
}
