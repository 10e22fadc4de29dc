//! The eye through a block with swell or lugs, and a cocked eye: whole slices up to a level below
//! the mouth, and above it rays along the wall.

use super::{flat, levels, slice};
use crate::mass::Moments;
use crate::numeric::Scalar;
use crate::numeric::quadrature::gauss;
use crate::numeric::roots::crossing;
use crate::solid::{Head, Piece, Section};

/// Points along a piece of the outline's quarter.
const ALONG: usize = 8;
/// Points from the middle of the outline to the wall, on either side of a joint of the block.
const OUT: usize = 6;

/// Moments of what the eye takes out of the block.
///
/// A ray is the curve on which a point at one share of the way from the outline's middle to the
/// wall runs with the height; it ends where it leaves the block. Rays that end below the level of
/// the whole slices count as negative, so that the level need not be exact.
pub(super) fn moments<T: Scalar>(head: &Head<T>) -> Moments<T> {
    let plug = &head.eye;
    let limit = head.cheek_limit().value();
    let points = flat(plug.wall);
    let mut sum = Moments::zero();
    let ends = [-limit, limit].map(T::constant);
    for (z, dz) in levels(plug, ends, points) {
        let whole = slice(&plug.at(z), None);
        let [x, y] = plug.centre(z);
        let dv = whole.area * dz;
        add_point(&mut sum, dv, [x, y, z]);
        sum.xx += whole.xx * dz;
        sum.yy += whole.yy * dz;
    }
    for up in [1.0, -1.0] {
        let from = T::constant(up * limit);
        let section = plug.at(from).section();
        for piece in section.pieces() {
            for (t, along) in gauss(ALONG).nodes() {
                for quarter in [[1.0, 1.0], [-1.0, 1.0], [-1.0, -1.0], [1.0, -1.0]] {
                    let fan = Fan {
                        head,
                        piece,
                        t,
                        quarter,
                        up,
                    };
                    let stops = fan.stops();
                    for pair in stops.windows(2) {
                        let length = pair[1] - pair[0];
                        for (share, out) in gauss(OUT).nodes() {
                            let s = pair[0] + length * share;
                            let weight = s * length * out * along;
                            fan.add_ray(s, weight, from, points, &mut sum);
                        }
                    }
                }
            }
        }
    }
    sum
}

fn add_point<T: Scalar>(sum: &mut Moments<T>, dv: T, [x, y, z]: [T; 3]) {
    sum.volume += dv;
    sum.x += dv * x;
    sum.y += dv * y;
    sum.z += dv * z;
    sum.xx += dv * x * x;
    sum.yy += dv * y * y;
    sum.zz += dv * z * z;
    sum.xy += dv * x * y;
    sum.yz += dv * y * z;
    sum.zx += dv * z * x;
}

/// The rays towards one point of the outline.
struct Fan<'a, T> {
    head: &'a Head<T>,
    piece: Piece,
    t: f64,
    /// Signs of x and y.
    quarter: [f64; 2],
    /// 1 towards the upper mouth, −1 towards the lower.
    up: f64,
}

impl<T: Scalar> Fan<'_, T> {
    /// The point at share `s` and height `z`, and the area element there for s = 1.
    fn point(&self, s: f64, z: T) -> ([T; 2], T) {
        let plug = &self.head.eye;
        let (x, y, dx, dy) = plug.at(z).section().along(self.piece, self.t);
        let [cx, cy] = plug.centre(z);
        let [sx, sy] = self.quarter;
        ([cx + x * (s * sx), cy + y * (s * sy)], x * dy - y * dx)
    }

    /// How far the point at height `z` lies outside the block, upwards or downwards.
    fn beyond(&self, s: f64, z: T) -> T {
        let ([x, y], _) = self.point(s, z);
        let station = self.head.block_at(x);
        (z - station.centre) * self.up - half_height_at(&station.section, y)
    }

    /// The height at which the ray leaves the block.
    fn exit(&self, s: f64) -> T {
        let plug = &self.head.eye;
        let from = self.up * self.head.cheek_limit().value();
        let mouth = plug.mouths[usize::from(self.up > 0.0)].value();
        let g = |z: f64| self.beyond(s, T::constant(z)).value();
        let low = 0.5 * from;
        let high = mouth + self.up;
        let Some(z) = crossing((low, g(low)), (high, g(high)), g) else {
            return T::constant(from);
        };
        // One step of Newton's method carries the derivatives.
        const STEP: f64 = 1e-5;
        let slope = (g(z + STEP) - g(z - STEP)) / (2.0 * STEP);
        let z = T::constant(z);
        z - self.beyond(s, z) * slope.recip()
    }

    /// The shares between which the rays end smoothly: where they go over from the block's flat to
    /// its corner, and where they pass a joint of the wall.
    fn stops(&self) -> Vec<f64> {
        let over = |s: f64| {
            let ([x, y], _) = self.point(s, T::constant(self.exit(s).value()));
            let section = self.head.block_at(x).section;
            y.value().abs() - (section.a - section.c).value()
        };
        let mut stops = vec![0.0, 1.0];
        stops.extend(crossing((0.0, over(0.0)), (1.0, over(1.0)), over));
        for joint in self.head.eye.joints() {
            let beyond = |s: f64| self.exit(s).value() - joint.value();
            stops.extend(crossing((0.0, beyond(0.0)), (1.0, beyond(1.0)), beyond));
        }
        stops.sort_by(f64::total_cmp);
        stops
    }

    fn add_ray(&self, s: f64, weight: f64, from: T, points: usize, sum: &mut Moments<T>) {
        for (z, dz) in levels(&self.head.eye, [from, self.exit(s)], points) {
            let ([x, y], element) = self.point(s, z);
            add_point(sum, element * dz * (weight * self.up), [x, y, z]);
        }
    }
}

/// Half-height at the distance `y` from the middle; beyond the sides that of the side's end.
fn half_height_at<T: Scalar>(section: &Section<T>, y: T) -> T {
    let turned = Section {
        a: section.b,
        b: section.a,
        c: section.d,
        d: section.c,
        w: section.w,
    };
    if y.value().abs() < section.a.value() {
        turned.half_width_at(y)
    } else {
        section.b - section.d
    }
}
