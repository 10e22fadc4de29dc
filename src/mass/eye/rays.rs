//! The eye through a block with swell or lugs: whole slices up to a level below the mouth, and
//! above it rays along the wall.

use super::{flat, levels, slice};
use crate::mass::{Moments, Order};
use crate::numeric::Scalar;
use crate::numeric::order::sort_few;
use crate::numeric::quadrature::gauss;
use crate::numeric::roots::crossing;
use crate::solid::{Bulge, Head, Lugs, Piece, Section};

/// Moments of what the eye takes out of the block.
///
/// A ray is the curve on which a point at one share of the way from the outline's middle to the
/// wall runs with the height; it ends where it leaves the block. Rays that end below the level of
/// the whole slices count as negative, so that the level need not be exact.
pub(super) fn moments<T: Scalar>(head: &Head<T>, order: Order) -> Moments<T> {
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
    // Points along a piece of the outline's quarter, and from its middle to the wall: the steeper
    // the lugs, the steeper the curve on which the rays end.
    let steep = steepness(head);
    let points_for = |share: f64| gauss((order.0 as f64 * share).ceil() as usize);
    let (around, outwards) = (points_for((2.0 + steep) / 3.0), points_for(0.5 + steep));
    let quarters: &[[f64; 2]] = match plug.lean {
        Some(_) => &[[1.0, 1.0], [-1.0, 1.0], [-1.0, -1.0], [1.0, -1.0]],
        None => &[[1.0, 1.0], [-1.0, 1.0]],
    };
    let mut rays = Moments::zero();
    for up in [1.0, -1.0] {
        let from = T::constant(up * limit);
        let section = plug.at(from).section();
        for piece in section.pieces() {
            for &quarter in quarters {
                let fan = |t: f64| Fan {
                    head,
                    piece,
                    t,
                    quarter,
                    up,
                };
                for [first, width] in smooth_parts(|t| fan(t).conditions(1.0)) {
                    for (share, along) in around.nodes() {
                        let fan = fan(first + width * share);
                        for [start, length] in smooth_parts(|s| fan.conditions(s)) {
                            for (share, out) in outwards.nodes() {
                                let s = start + length * share;
                                let weight = s * length * out * along * width;
                                fan.add_ray(s, weight, from, points, &mut rays);
                            }
                        }
                    }
                }
            }
        }
    }
    if plug.lean.is_none() {
        // The other half is its mirror image.
        rays = rays.plus(&Moments {
            y: -rays.y,
            xy: -rays.xy,
            yz: -rays.yz,
            ..rays
        });
    }
    sum.plus(&rays)
}

/// Lugs steeper than this, height over half-length, have the points of this.
const STEEPEST: f64 = 2.0;

/// Height of the lugs over their half-length.
fn steepness<T: Scalar>(head: &Head<T>) -> f64 {
    match head.bulge() {
        Some(Bulge {
            lugs:
                Some(Lugs {
                    half_length,
                    top,
                    bottom,
                }),
            ..
        }) => (top.value().max(bottom.value()) / half_length.value()).min(STEEPEST),
        _ => 0.0,
    }
}

/// How many things tell the places apart at which a ray may leave the block.
const CONDITIONS: usize = 7;
/// Looks between which such a thing changes its sign once at most.
const LOOKS: u32 = 4;
/// Parts shorter than this share of a piece hold nothing.
const NOTHING: f64 = 1e-12;

/// Parts of 0 to 1, each as its beginning and length, in which no condition changes its sign.
fn smooth_parts(conditions: impl Fn(f64) -> [f64; CONDITIONS]) -> Vec<[f64; 2]> {
    let looks: Vec<(f64, [f64; CONDITIONS])> = (0..=LOOKS)
        .map(|look| f64::from(look) / f64::from(LOOKS))
        .map(|at| (at, conditions(at)))
        .collect();
    let mut ends = vec![0.0, 1.0];
    for pair in looks.windows(2) {
        let [(low, from), (high, to)] = [pair[0], pair[1]];
        for k in 0..CONDITIONS {
            let condition = |at: f64| conditions(at)[k];
            ends.extend(crossing((low, from[k]), (high, to[k]), condition));
        }
    }
    sort_few(&mut ends, |end| *end);
    ends.windows(2)
        .map(|pair| [pair[0], pair[1] - pair[0]])
        .filter(|part| part[1] > NOTHING)
        .collect()
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

    /// How far the point at height `z` lies outside the block: upwards or downwards, or across.
    fn beyond(&self, s: f64, z: T) -> T {
        let ([x, y], _) = self.point(s, z);
        let station = self.head.block_at(x);
        let over = (z - station.centre) * self.up - half_height_at(&station.section, y);
        let beside = if y.value() < 0.0 { -y } else { y } - station.section.a;
        if over.value() > beside.value() {
            over
        } else {
            beside
        }
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

    /// What changes its sign where the way in which rays end does: at the block's top, corner or
    /// side, within the lugs or beside them, before the handle axis or behind it, above a joint
    /// of the wall or below it.
    fn conditions(&self, s: f64) -> [f64; CONDITIONS] {
        let head = self.head;
        let z = T::constant(self.exit(s).value());
        let ([x, y], _) = self.point(s, z);
        let station = head.block_at(x);
        let section = station.section.values();
        let [x, y, z] = [x, y, z].map(|size| size.value());
        let mut conditions = [1.0; CONDITIONS];
        // A roof has its ridge where a flat top has its two sides.
        let over = match section.a - section.c {
            top if top > 0.0 => y.abs() - top,
            _ => y,
        };
        let under = section.b - section.d - (z - station.centre.value()).abs();
        if section.c > 0.0 {
            conditions[..2].copy_from_slice(&[over, under]);
        } else {
            conditions[0] = over + under;
        }
        if let Some(Bulge { lugs, .. }) = head.bulge() {
            if let Some(lugs) = lugs {
                conditions[2] = x.abs() - lugs.half_length.value();
            }
            conditions[3] = x;
        }
        for (condition, joint) in conditions[4..].iter_mut().zip(head.eye.joints()) {
            *condition = z - joint.value();
        }
        conditions
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
