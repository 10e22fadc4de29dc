//! The eye through a block with swell or lugs: whole slices up to a level below the mouth, and
//! above it rays along the wall.

use super::{flat, levels, slice};
use crate::mass::{Moments, Order};
use crate::numeric::Scalar;
use crate::numeric::order::sort_few;
use crate::numeric::quadrature::gauss;
use crate::numeric::roots::crossing_within;
use crate::solid::{Bulge, Head, Lugs, Piece, Plug, Section, Station};

/// Moments of what the eye takes out of a block with `bulge`.
///
/// A ray is the curve on which a point at one share of the way from the outline's middle to the
/// wall runs with the height; it ends where it leaves the block. Rays that end below the level of
/// the whole slices count as negative, so that the level need not be exact. Where they end is found
/// without derivatives.
pub(super) fn moments<T: Scalar>(head: &Head<T>, bulge: &Bulge<T>, order: Order) -> Moments<T> {
    let plug = &head.eye;
    let through = Through::new(head, bulge);
    let plain = through.values();
    let limit = plain.limit;
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
    let steep = steepness(&plain.bulge);
    let points_for = |share: f64| gauss((order.0 as f64 * share).ceil() as usize);
    let (around, outwards) = (points_for((2.0 + steep) / 3.0), points_for(0.5 + steep));
    let quarters: &[[f64; 2]] = match plug.lean {
        Some(_) => &[[1.0, 1.0], [-1.0, 1.0], [-1.0, -1.0], [1.0, -1.0]],
        None => &[[1.0, 1.0], [-1.0, 1.0]],
    };
    let mut rays = Moments::zero();
    for up in [1.0, -1.0] {
        let from = T::constant(up * limit);
        let section = plain.eye.at(up * limit).section();
        for piece in section.pieces() {
            for &quarter in quarters {
                let fan = |t: f64| Fan {
                    piece,
                    t,
                    quarter,
                    up,
                };
                for [first, width] in smooth_parts(&|t| fan(t).conditions(&plain, 1.0)) {
                    for (share, along) in around.nodes() {
                        let fan = fan(first + width * share);
                        for [start, length] in smooth_parts(&|s| fan.conditions(&plain, s)) {
                            for (share, out) in outwards.nodes() {
                                let s = start + length * share;
                                let weight = s * length * out * along * width * up;
                                // One step of Newton's method carries the derivatives.
                                const STEP: f64 = 1e-5;
                                let z = fan.exit(&plain, s);
                                let g = |z: f64| fan.beyond(&plain, s, z);
                                let slope = (g(z + STEP) - g(z - STEP)) / (2.0 * STEP);
                                let z = T::constant(z);
                                let to = z - fan.beyond(&through, s, z) * slope.recip();
                                for (z, dz) in levels(plug, [from, to], points) {
                                    let ([x, y], element) = fan.point(plug, s, z);
                                    add_point(&mut rays, element * dz * weight, [x, y, z]);
                                }
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
fn steepness(bulge: &Bulge<f64>) -> f64 {
    let steep = |lugs: &Lugs<f64>| lugs.top.max(lugs.bottom) / lugs.half_length;
    bulge.lugs.as_ref().map_or(0.0, steep).min(STEEPEST)
}

/// How many things tell the places apart at which a ray may leave the block.
const CONDITIONS: usize = 7;
/// Looks between which such a thing changes its sign once at most.
const LOOKS: u32 = 4;
/// Places are found to this share of where they are looked for: what lies between is wrong by its
/// square.
const NEAR: f64 = 1e-8;
/// Parts shorter than this share of a piece hold nothing.
const NOTHING: f64 = 1e-12;

/// Parts of 0 to 1, each as its beginning and length, in which no condition changes its sign.
fn smooth_parts(conditions: &dyn Fn(f64) -> [f64; CONDITIONS]) -> Vec<[f64; 2]> {
    let looks: Vec<(f64, [f64; CONDITIONS])> = (0..=LOOKS)
        .map(|look| f64::from(look) / f64::from(LOOKS))
        .map(|at| (at, conditions(at)))
        .collect();
    let mut ends = vec![0.0, 1.0];
    for pair in looks.windows(2) {
        let [(low, from), (high, to)] = [pair[0], pair[1]];
        for k in 0..CONDITIONS {
            let condition = |at: f64| conditions(at)[k];
            ends.extend(crossing_within(
                NEAR,
                (low, from[k]),
                (high, to[k]),
                &condition,
            ));
        }
    }
    sort_few(&mut ends, |end| *end);
    ends.windows(2)
        .map(|pair| [pair[0], pair[1] - pair[0]])
        .filter(|part| part[1] > NOTHING)
        .collect()
}

/// What rays run through: the block and the eye.
struct Through<T> {
    section: Section<T>,
    bulge: Bulge<T>,
    /// u where the block ends, in front and behind.
    ends: [T; 2],
    eye: Plug<T>,
    /// |z| up to which slices are whole.
    limit: f64,
}

impl<T: Scalar> Through<T> {
    fn new(head: &Head<T>, bulge: &Bulge<T>) -> Self {
        Self {
            section: head.cheeks,
            bulge: *bulge,
            ends: [0, 1].map(|side| head.ends[side].block_end()),
            eye: head.eye,
            limit: head.cheek_limit().value(),
        }
    }

    /// The same without derivatives.
    fn values(&self) -> Through<f64> {
        Through {
            section: self.section.values(),
            bulge: self.bulge.values(),
            ends: [0, 1].map(|side| self.ends[side].value()),
            eye: self.eye.values(),
            limit: self.limit,
        }
    }

    /// The block's section at `x`.
    fn station(&self, x: T) -> Station<T> {
        if x.value() < 0.0 {
            self.bulge.at(&self.section, -x, self.ends[1])
        } else {
            self.bulge.at(&self.section, x, self.ends[0])
        }
    }
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
#[derive(Clone, Copy)]
struct Fan {
    piece: Piece,
    t: f64,
    /// Signs of x and y.
    quarter: [f64; 2],
    /// 1 towards the upper mouth, −1 towards the lower.
    up: f64,
}

impl Fan {
    /// The point at share `s` and height `z`, and the area element there for s = 1.
    fn point<T: Scalar>(&self, plug: &Plug<T>, s: f64, z: T) -> ([T; 2], T) {
        let (x, y, dx, dy) = plug.at(z).section().along(self.piece, self.t);
        let [cx, cy] = plug.centre(z);
        let [sx, sy] = self.quarter;
        ([cx + x * (s * sx), cy + y * (s * sy)], x * dy - y * dx)
    }

    /// How far the point at height `z` lies outside the block: upwards or downwards, or across.
    fn beyond<T: Scalar>(&self, through: &Through<T>, s: f64, z: T) -> T {
        let ([x, y], _) = self.point(&through.eye, s, z);
        let station = through.station(x);
        let over = (z - station.centre) * self.up - half_height_at(&station.section, y);
        let beside = if y.value() < 0.0 { -y } else { y } - station.section.a;
        if over.value() > beside.value() {
            over
        } else {
            beside
        }
    }

    /// The height at which the ray leaves the block, to about 1e-7 mm.
    fn exit(&self, plain: &Through<f64>, s: f64) -> f64 {
        let from = self.up * plain.limit;
        let mouth = plain.eye.mouths[usize::from(self.up > 0.0)];
        let g = |z: f64| self.beyond(plain, s, z);
        let (low, high) = (0.5 * from, mouth + self.up);
        let found = crossing_within(NEAR, (low, g(low)), (high, g(high)), &g);
        found.unwrap_or(from)
    }

    /// What changes its sign where the way in which rays end does: at the block's top, corner or
    /// side, within the lugs or beside them, before the handle axis or behind it, above a joint
    /// of the wall or below it.
    fn conditions(&self, plain: &Through<f64>, s: f64) -> [f64; CONDITIONS] {
        let z = self.exit(plain, s);
        let ([x, y], _) = self.point(&plain.eye, s, z);
        let Station {
            section, centre, ..
        } = plain.station(x);
        let mut conditions = [1.0; CONDITIONS];
        // A roof has its ridge where a flat top has its two sides.
        let over = match section.a - section.c {
            top if top > 0.0 => y.abs() - top,
            _ => y,
        };
        let under = section.b - section.d - (z - centre).abs();
        if section.c > 0.0 {
            conditions[..2].copy_from_slice(&[over, under]);
        } else {
            conditions[0] = over + under;
        }
        if let Some(lugs) = plain.bulge.lugs {
            conditions[2] = x.abs() - lugs.half_length;
        }
        conditions[3] = x;
        for (condition, joint) in conditions[4..].iter_mut().zip(plain.eye.joints()) {
            *condition = z - joint;
        }
        conditions
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
