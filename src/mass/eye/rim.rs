//! The eye through a block with swell or lugs: whole slices up to a level below the mouth, and
//! above it what the rim bounds.
//!
//! The block's upper surface, its roof, has one height over every (x, y), so that the divergence
//! theorem with a field along the handle gives
//! ∫f dV = ∫∫ F(x, y, roof) dx dy + ∫∫ F n_z dA, F = ∫f dz from the level,
//! over the roof within the rim and over the wall below it. At one x the roof is flat in the
//! middle and a conic at either side: ∫F dy has a closed form, and Green's theorem makes the
//! former −∮ (∫F dy) dx along the rim. Up the wall F n_z is a polynomial. What is left is one
//! rule along the rim, in pieces on which it is smooth.

use super::conic::{Conic, UnderConic};
use super::{flat, levels, slice};
use crate::mass::{Moments, Order};
use crate::numeric::Scalar;
use crate::numeric::quadrature::{Rule, gauss};
use crate::solid::{Bulge, Head, Plug, Section};
use leaving::{Arc, Break, Near, OnRim, Shape, Through, Walk};

mod leaving;

/// A step from a place where parts meet that leads into one of them, as a share of an arc: what it
/// adds is wrong by its square.
const HAIR: f64 = 1e-6;

/// Moments of what the eye takes out of a block with `bulge`.
///
/// Where the rim runs is found without derivatives; one step of Newton's method gives it them.
pub(super) fn moments<T: Scalar>(head: &Head<T>, bulge: &Bulge<T>, order: Order) -> Moments<T> {
    let mut sum = Moments::zero();
    let mut ends = [0.0; 2];
    for (end, up) in ends.iter_mut().zip([-1.0, 1.0]) {
        let through = Through::new(head, bulge, up);
        let (beyond, level) = through.beyond(order);
        *end = up * level;
        sum = sum.plus(&beyond);
    }
    sum.plus(&whole_slices(&head.eye, ends))
}

/// Moments of the plug between two heights.
fn whole_slices<T: Scalar>(plug: &Plug<T>, ends: [f64; 2]) -> Moments<T> {
    let mut sum = Moments::zero();
    for (z, dz) in levels(plug, ends.map(T::constant), flat(plug.wall)) {
        let whole = slice(&plug.at(z), None);
        let [x, y] = plug.centre(z);
        let dv = whole.area * dz;
        sum.volume += dv;
        sum.x += dv * x;
        sum.y += dv * y;
        sum.z += dv * z;
        sum.xx += dv * x * x + whole.xx * dz;
        sum.yy += dv * y * y + whole.yy * dz;
        sum.zz += dv * z * z;
        sum.xy += dv * x * y;
        sum.yz += dv * y * z;
        sum.zx += dv * z * x;
    }
    sum
}

impl<T: Scalar> Through<T> {
    /// Moments of what lies beyond a level, and that level.
    fn beyond(&self, order: Order) -> (Moments<T>, f64) {
        let plain = self.values();
        let walks: Vec<Walk> = plain.arcs().map(|arc| plain.walk(arc)).collect();
        // What lies between the level and a rim below it counts as negative.
        let heights = walks.iter().map(|walk| walk.lowest);
        let level = heights.fold(f64::INFINITY, f64::min);
        let sweep = Sweep {
            through: self,
            plain: &plain,
            conic: Conic::new(plain.section.w),
            level,
        };
        let rule = gauss((order.0 as f64 * (1.0 + 0.5 * plain.steepness())).ceil() as usize);
        let mut sum = Moments::zero();
        for walk in &walks {
            sweep.add(walk, rule, &mut sum);
        }
        if self.eye.lean.is_none() {
            // The other half is its mirror image.
            let zero = T::constant(0.0);
            sum = Moments {
                y: zero,
                xy: zero,
                yz: zero,
                ..sum.plus(&sum)
            };
        }
        let sum = sum.raised(T::constant(level));
        let turned = Moments {
            z: sum.z * self.up,
            yz: sum.yz * self.up,
            zx: sum.zx * self.up,
            ..sum
        };
        (turned, level)
    }
}

/// What is swept over along the rim.
struct Sweep<'a, T> {
    through: &'a Through<T>,
    /// The same without derivatives.
    plain: &'a Through<f64>,
    conic: Conic,
    /// From here on upwards.
    level: f64,
}

impl<T: Scalar> Sweep<'_, T> {
    /// Adds what an arc sweeps over.
    fn add(&self, walk: &Walk, rule: &Rule, sum: &mut Moments<T>) {
        let arc = &walk.arc;
        let [sx, sy] = arc.quarter;
        let breaks = walk.breaks.iter().map(|place| self.moving(arc, place));
        let breaks: Vec<T> = breaks.collect();
        let mut near = walk.breaks[0].near;
        for pair in breaks.windows(2) {
            // Where parts meet at one place a part has no length, but it may have a derivative.
            let width = pair[1] - pair[0];
            for (share, weight) in rule.nodes() {
                let t = pair[0] + width * share;
                let height = self
                    .plain
                    .exit(&Shape::new(arc, t.value()), near.at(t.value()));
                let shape = Shape::new(arc, t);
                let rim = self.through.rim(&shape, height);
                near = Near::new(t.value(), &rim);
                // Anticlockwise seen from above.
                let dt = width * (weight * sx * sy);
                self.add_roof(&rim, dt, sum);
                self.add_wall(&shape, rim.height, dt, sum);
            }
        }
    }

    /// The parameter of a place where a condition changes its sign, which moves with the sizes.
    fn moving(&self, arc: &Arc, place: &Break) -> T {
        let Some(condition) = place.condition else {
            return T::constant(place.t);
        };
        // A hair beside it the formulas of one side hold.
        let beside = place.t + HAIR;
        let height = self
            .plain
            .exit(&Shape::new(arc, beside), place.near.at(beside));
        let beside = T::constant(beside);
        let rim = self.through.rim(&Shape::new(arc, beside), height);
        let (value, slope) = self.through.condition(&rim, condition);
        let moved = beside - value / slope.value();
        // Where a condition only touches 0 it tells nothing.
        if (moved.value() - place.t).abs() < HAIR {
            moved
        } else {
            T::constant(place.t)
        }
    }

    /// Adds what stands under the roof beside the rim, from y = 0 outwards.
    fn add_roof(&self, rim: &OnRim<T>, dt: T, sum: &mut Moments<T>) {
        let [x, y] = rim.at;
        let roof = self.through.roof(x);
        let side = if y.value() < 0.0 { -1.0 } else { 1.0 };
        let sizes = [roof.half_width, roof.height - self.level];
        let under = Under::new(&self.conic, &self.through.section, sizes, y * side);
        let dx = -rim.along[0] * dt;
        let odd = dx * side;
        let one = under.one * odd;
        let (across, up) = (under.y * dx, under.z * odd);
        sum.volume += one;
        sum.x += one * x;
        sum.xx += one * x * x;
        sum.y += across;
        sum.xy += across * x;
        sum.yy += under.yy * odd;
        sum.z += up;
        sum.zx += up * x;
        sum.yz += under.yz * dx;
        sum.zz += under.zz * odd;
    }

    /// Adds what stands over the wall up to the rim.
    fn add_wall(&self, shape: &Shape<T>, rim: T, dt: T, sum: &mut Moments<T>) {
        let Through { eye, up, .. } = self.through;
        let ends = [T::constant(self.level), rim].map(|height| height * *up);
        for (z, dz) in levels(eye, ends, flat(eye.wall)) {
            let wall = self.through.wall(shape, z * *up);
            let ([x, y], [along_x, along_y], [up_x, up_y]) = (wall.at, wall.along, wall.up);
            let area = (along_x * up_y - along_y * up_x) * dz * dt * *up;
            let height = z * *up - self.level;
            let dv = area * height;
            let half = dv * height * 0.5;
            sum.volume += dv;
            sum.x += dv * x;
            sum.y += dv * y;
            sum.z += half;
            sum.xx += dv * x * x;
            sum.yy += dv * y * y;
            sum.zz += half * height * (2.0 / 3.0);
            sum.xy += dv * x * y;
            sum.yz += half * y;
            sum.zx += half * x;
        }
    }
}

/// ∫∫ of 1, y, y², z, yz, z² under the roof at one x, over y and z.
struct Under<T> {
    one: T,
    y: T,
    yy: T,
    z: T,
    yz: T,
    zz: T,
}

impl<T: Scalar> Under<T> {
    /// From the middle to `y` ≥ 0 under a roof of the half-width and the height `sizes`.
    fn new(conic: &Conic, section: &Section<T>, [half, top]: [T; 2], y: T) -> Self {
        let Section { c, d, .. } = *section;
        let inner = half - c;
        let under_flat = y.value() <= inner.value() || c.value() == 0.0;
        let flat = if under_flat { y } else { inner };
        let (area, square) = (top * flat, top * top * flat);
        let mut under = Self {
            one: area,
            y: area * flat * 0.5,
            yy: area * flat * flat * (1.0 / 3.0),
            z: square * 0.5,
            yz: square * flat * 0.25,
            zz: square * top * (1.0 / 3.0),
        };
        if !under_flat {
            under.add_corner(&conic.integrals((half - y) / c), [half, top, c, d]);
        }
        under
    }

    /// Adds what stands under a corner with y = a − cα and height b − dβ.
    fn add_corner(&mut self, j: &UnderConic<T>, [a, b, c, d]: [T; 4]) {
        let (bb, bd, dd) = (b * b, b * d * 2.0, d * d);
        let first = [
            b * j.j00 - d * j.j01,
            b * j.j10 - d * j.j11,
            b * j.j20 - d * j.j21,
        ];
        let second = [
            bb * j.j00 - bd * j.j01 + dd * j.j02,
            bb * j.j10 - bd * j.j11 + dd * j.j12,
        ];
        let third = bb * b * j.j00 - bb * d * j.j01 * 3.0 + b * dd * j.j02 * 3.0 - dd * d * j.j03;
        self.one += c * first[0];
        self.y += c * (a * first[0] - c * first[1]);
        self.yy += c * (a * (a * first[0] - c * first[1] * 2.0) + c * c * first[2]);
        self.z += c * second[0] * 0.5;
        self.yz += c * (a * second[0] - c * second[1]) * 0.5;
        self.zz += c * third * (1.0 / 3.0);
    }
}
