//! The pein: slices at constant v, each by Green's theorem around its outline, one rule along it.

use super::{Moments, Order};
use crate::numeric::Scalar;
use crate::numeric::quadrature::gauss;
use crate::numeric::roots::{crossing, sign_change};
use crate::solid::{Pein, Piece};

/// Looks along the pein for where the slab's faces pass a joint of the arm's outline.
const LOOKS: usize = 12;
/// Joints of the outline closer than this, mm, are passed at once.
const SAME: f64 = 1e-9;
/// Up to this share of the pein's length a stretch along it counts as short.
const SHORT: f64 = 0.02;
/// Points on a straight of the outline: the integrand is a cubic without rocker.
const STRAIGHT: usize = 2;
/// Points on a straight of the outline with a rocker, where the integrand is close to a cubic.
const ROCKED: usize = 4;
/// Points on a conic of the outline.
const CONIC: usize = 6;
/// Turns of Newton's method for ξ on the outline: with a rocker the arm's size depends on it.
const TURNS: usize = 2;

/// Moments of the pein in u and (y, z) from the end's axis, before its end drops.
///
/// With v in the place of u the slab is |η| ≤ h(v) at every ξ, so that a slice at constant v is
/// the arm's outline cut by a strip and, near the edge, by the broken corners. A slice is the
/// same seen from either end of its middle, so half of its outline serves for all. What u and
/// the volume element gain by the rocker depends on ξ alone and stays inside the integral.
pub(super) fn moments<T: Scalar>(pein: &Pein<T>, order: Order) -> Moments<T> {
    // Places are found without derivatives; only what is added up carries them.
    let plain = pein.values();
    let stretches = stretches(&plain);
    let joints = joints(pein, &plain, &stretches);
    let mut sum = Sums::zero();
    for pair in joints.windows(2) {
        let (low, length) = (pair[0], pair[1] - pair[0]);
        if length.value() <= 0.0 {
            continue;
        }
        // Square roots at the nose and where a round arm comes through the slab:
        // t = s²(3 − 2s) makes them smooth.
        // A short stretch needs fewer points: its error falls with the power of its length.
        let points = if length.value() > SHORT * plain.length() {
            order.0
        } else {
            order.0.div_ceil(2)
        };
        for (s, weight) in gauss(points).nodes() {
            let v = low + length * (s * s * (3.0 - 2.0 * s));
            let dv = length * (6.0 * s * (1.0 - s) * weight);
            let place = Slice::new(&plain, v.value());
            Slice::new(pein, v).add(&place, &stretches, dv, &mut sum);
        }
    }
    sum.turned(pein)
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
    from: f64,
    to: f64,
}

/// Half of the outline, from the +y axis over +z to the −y axis.
fn stretches(pein: &Pein<f64>) -> Vec<Stretch> {
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
            from: 0.0,
            to: 1.0,
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
        ends.sort_by(f64::total_cmp);
        for pair in ends.windows(2) {
            stretches.push(Stretch {
                from: pair[0],
                to: pair[1],
                ..whole
            });
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

    fn points(&self, straight: bool, rocker: bool) -> usize {
        if straight || self.piece != Piece::Corner {
            if rocker { ROCKED } else { STRAIGHT }
        } else {
            CONIC
        }
    }
}

/// Values of v between which the integrand is smooth.
fn joints<T: Scalar>(pein: &Pein<T>, plain: &Pein<f64>, stretches: &[Stretch]) -> Vec<T> {
    let [tangent, _] = pein.tangent;
    let mut joints = vec![pein.start, tangent, pein.reach];
    if pein.corner_break.value() > 0.0 {
        joints.push(pein.reach - pein.corner_break);
    }
    let (start, length) = (plain.start, plain.length());
    let mut seen: Vec<[f64; 2]> = Vec::new();
    for stretch in stretches {
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
        let value = |v: f64| beyond(plain, stretch, v);
        let looks: Vec<(f64, f64)> = (0..=LOOKS)
            .map(|k| start + length * (k as f64 / LOOKS as f64))
            .map(|v| (v, value(v)))
            .collect();
        for pair in looks.windows(2) {
            if let Some(v) = crossing(pair[0], pair[1], value) {
                // One step of Newton's method: the joint moves with the sizes.
                const STEP: f64 = 1e-5;
                let slope = (value(v + STEP) - value(v - STEP)) / (2.0 * STEP);
                let v = T::constant(v);
                joints.push(v - beyond(pein, stretch, v) / slope);
            }
        }
    }
    joints.sort_by(|a, b| a.value().total_cmp(&b.value()));
    joints
}

/// Area of the pein's section at `u`, mm².
///
/// From its middle every point of the section is seen; about 1e-4 of the area.
pub(super) fn section_area(pein: &Pein<f64>, u: f64) -> f64 {
    const RAYS: usize = 512;
    let turn = std::f64::consts::TAU / RAYS as f64;
    (0..RAYS)
        .map(|k| {
            let (sin, cos) = (k as f64 * turn).sin_cos();
            0.5 * pein.slice_radius(u, cos, sin).powi(2) * turn
        })
        .sum()
}

/// How far the slab's face lies beyond the beginning of a stretch.
fn beyond<T: Scalar>(pein: &Pein<T>, stretch: &Stretch, v: T) -> T {
    let slice = Slice::new(pein, v);
    let (on, [change, _]) = stretch.at(pein, stretch.from);
    let [_, eta] = slice.point(on, change).0;
    slice.half - if eta.value() < 0.0 { -eta } else { eta }
}

/// A slice at constant v.
struct Slice<'a, T> {
    pein: &'a Pein<T>,
    v: T,
    /// Half of the slab's thickness.
    half: T,
    /// The greatest |ξ| that the broken corners leave.
    limit: Option<T>,
    /// What the arm's size gains over the station's where there is no recess.
    gain: T,
    /// One over the pein's length.
    per_length: T,
}

/// Where a stretch is cut.
#[derive(Clone, Copy)]
enum Cut {
    /// Its own end.
    End,
    /// A face of the slab.
    Slab,
    /// A broken corner, at ±limit.
    Corner(f64),
}

impl<'a, T: Scalar> Slice<'a, T> {
    fn new(pein: &'a Pein<T>, v: T) -> Self {
        let broken = pein.break_at(v).value() > 0.0;
        Self {
            pein,
            v,
            half: pein.thickness(v),
            limit: broken.then(|| pein.limit(v)),
            gain: pein.growth(v) - 1.0,
            per_length: pein.length().recip(),
        }
    }

    /// (ξ, η) of the arm's outline where the station's has `on`, and how fast ξ changes.
    fn point(&self, on: [T; 2], change: T) -> ([T; 2], T) {
        let [xi_0, eta_0] = on;
        let mut growth = self.gain + 1.0;
        if self.pein.rocker.value() == 0.0 {
            return ([xi_0 * growth, eta_0 * growth], change * growth);
        }
        // Newton's method on ξ − ξ₀ k(ξ); a rocker is flat, so it starts close.
        let mut xi = xi_0 * growth;
        let mut slope = T::constant(1.0);
        for _ in 0..TURNS {
            let kx = self.pein.rocker * xi;
            let root = (-kx * kx + 1.0).sqrt();
            growth = self.gain * (-kx * xi / (root + 1.0) * self.per_length + 1.0) + 1.0;
            let steepness = self.gain * kx / root * self.per_length;
            slope = xi_0 * steepness + 1.0;
            let step = (xi - xi_0 * growth) / slope;
            xi -= step;
            growth += steepness * step;
        }
        ([xi, eta_0 * growth], change * growth / slope)
    }

    /// (ξ, η) of a stretch.
    fn place(&self, stretch: &Stretch, t: f64) -> [T; 2] {
        let (on, [change, _]) = stretch.at(self.pein, t);
        self.point(on, change).0
    }

    /// Adds −F dξ: with F the antiderivative in η, the boundary integral of each moment.
    fn step(&self, [xi, eta]: [T; 2], minus_dxi: T, sum: &mut Sums<T>) {
        let short = self.pein.shortening(xi);
        let u = self.pein.start + (self.v - self.pein.start) * short;
        // Half of the outline stands for all of it.
        let element = short * minus_dxi * 2.0;
        let area = element * eta;
        sum.volume += area;
        sum.u += area * u;
        sum.uu += area * u * u;
        sum.along += area * xi * xi;
        sum.mixed += area * eta * xi * 0.5;
        sum.across += area * eta * eta * (1.0 / 3.0);
    }

    /// Adds the slice; `plain` is the same without derivatives.
    fn add(&self, plain: &Slice<f64>, stretches: &[Stretch], dv: T, sum: &mut Sums<T>) {
        let straight = plain.pein.section.w == 0.0;
        let (half, limit) = (plain.half, plain.limit);
        let inside =
            |[xi, eta]: [f64; 2]| eta.abs() <= half && limit.is_none_or(|limit| xi.abs() <= limit);
        let mut ends: Vec<T> = Vec::with_capacity(2);
        for stretch in stretches {
            let places = [stretch.from, stretch.to].map(|t| (t, plain.place(stretch, t)));
            let [from, to] = places.map(|(_, [_, eta])| eta);
            if from.min(to) > half || from.max(to) < -half {
                continue;
            }
            let mut cuts = vec![(stretch.from, Cut::End), (stretch.to, Cut::End)];
            let find = |axis: usize, level: f64| {
                let [from, to] = places.map(|(t, at)| (t, at[axis] - level));
                crossing(from, to, |t| plain.place(stretch, t)[axis] - level)
            };
            for way in [1.0, -1.0] {
                if let Some(t) = find(1, way * half) {
                    cuts.push((t, Cut::Slab));
                    // Below, it is the mirror image of a point above.
                    ends.push(self.place(stretch, t)[0] * way);
                }
                if let Some(t) = limit.and_then(|limit| find(0, way * limit)) {
                    cuts.push((t, Cut::Corner(way)));
                }
            }
            cuts.sort_by(|a, b| a.0.total_cmp(&b.0));
            for pair in cuts.windows(2) {
                let [(from, start), (to, stop)] = [pair[0], pair[1]];
                if to <= from || !inside(plain.place(stretch, 0.5 * (from + to))) {
                    continue;
                }
                for (s, weight) in gauss(stretch.points(straight, plain.pein.rocker > 0.0)).nodes()
                {
                    let (on, [change, _]) = stretch.at(self.pein, from + (to - from) * s);
                    let (at, change) = self.point(on, change);
                    self.step(at, -change * dv * (weight * (to - from)), sum);
                }
                // The cut moves with the sizes, the parameter does not: what lies between has no
                // length, but it has a derivative.
                for (t, cut, way) in [(from, start, -1.0), (to, stop, 1.0)] {
                    if let (Cut::Corner(side), Some(limit)) = (cut, self.limit) {
                        let at = self.place(stretch, t);
                        self.step(at, -(limit * side - at[0]) * dv * way, sum);
                    }
                }
            }
        }
        self.add_face(ends, dv, sum);
    }

    /// The face of the slab: between every second pair of ends the arm stands beyond it. A rocker
    /// may leave the middle of a flat within the slab, or its ends.
    fn add_face(&self, mut ends: Vec<T>, dv: T, sum: &mut Sums<T>) {
        ends.sort_by(|a, b| a.value().total_cmp(&b.value()));
        let points = if self.pein.rocker.value() > 0.0 {
            ROCKED
        } else {
            STRAIGHT
        };
        for pair in ends.chunks_exact(2) {
            let [left, right] = [pair[0], pair[1]].map(|xi| match self.limit {
                Some(limit) if xi.value() > limit.value() => limit,
                Some(limit) if xi.value() < -limit.value() => -limit,
                _ => xi,
            });
            let length = right - left;
            for (s, weight) in gauss(points).nodes() {
                self.step([left + length * s, self.half], length * dv * weight, sum);
            }
        }
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
