//! The steel that the eye displaces: slices across the handle in closed form, one rule in height.

mod conic;
mod rim;

use super::{Moments, Order, Quarter};
use crate::design::Wall;
use crate::numeric::Scalar;
use crate::numeric::order::sort_few;
use crate::numeric::quadrature::gauss;
use crate::numeric::roots::{peak, sign_change};
use crate::solid::{EyeSection, Head, Piece, Plug};

/// Between flat cheeks the integrand is a polynomial of degree 4 in height, of degree 8 along
/// arcs.
const fn flat(wall: Wall) -> usize {
    match wall {
        Wall::Straight => 3,
        Wall::Arc => 5,
    }
}

/// ∫dA, ∫x² dA, ∫y² dA of an outline of the eye cut by a strip about its middle, and ∫y dA of the
/// half on one side.
#[derive(Clone, Copy)]
pub(super) struct Slice<T> {
    pub(super) area: T,
    pub(super) half_y: T,
    pub(super) xx: T,
    pub(super) yy: T,
}

/// Moments of what the eye takes out of the cheek block.
pub(super) fn moments<T: Scalar>(head: &Head<T>, order: Order) -> Moments<T> {
    if let Some(bulge) = head.bulge().filter(|_| !is_beside_flats(head)) {
        return rim::moments(head, bulge, order);
    }
    let mut sum = Moments::zero();
    for_each_level(head, order, flat(head.eye.wall), &mut |z, dz, strips| {
        let level = head.eye.at(z);
        let [x, middle] = head.eye.centre(z);
        // Half of the slice on either side of the outline's middle; negative where the block's
        // side lies beyond the middle.
        let [over, under] = strips.map(|strip| match strip {
            Some(side) if side.value() < 0.0 => (slice(&level, Some(-side)), -0.5),
            side => (slice(&level, side), 0.5),
        });
        let both = |of: fn(&Slice<T>) -> T| (of(&over.0) * over.1 + of(&under.0) * under.1) * dz;
        let dv = both(|slice| slice.area);
        let dy = (over.0.half_y - under.0.half_y) * dz;
        let y = middle * dv + dy;
        sum.volume += dv;
        sum.x += dv * x;
        sum.y += y;
        sum.z += dv * z;
        sum.xx += both(|slice| slice.xx) + dv * x * x;
        sum.yy += both(|slice| slice.yy) + (y + dy) * middle;
        sum.zz += dv * z * z;
        sum.xy += y * x;
        sum.yz += y * z;
        sum.zx += dv * z * x;
    });
    sum
}

/// What the eye takes out in front of the plane x = 0, mm³, when it takes out `volume` in all.
///
/// # Accuracy
/// Exact without lean: block and outline are alike on both sides. With it, the cut of the mouths
/// by worked corners and lugs is taken as alike.
pub(super) fn front_volume(head: &Head<f64>, volume: f64) -> f64 {
    let plug = &head.eye;
    if plug.lean.is_none() {
        return 0.5 * volume;
    }
    let mut moved = 0.0;
    for (z, dz) in levels(plug, plug.mouths, 2 * flat(plug.wall)) {
        let level = plug.at(z);
        let [x, _] = plug.centre(z);
        // Along the head, the strip between the outline's middle and the plane.
        let turned = EyeSection {
            p: level.q,
            q: level.p,
            c: level.d,
            d: level.c,
        };
        moved += 0.5 * slice(&turned, Some(x.abs())).area.copysign(x) * dz;
    }
    0.5 * volume + moved
}

/// Heights and their weights from the first of `ends` to the second, split at the plug's joints.
pub(super) fn levels<T: Scalar>(plug: &Plug<T>, ends: [T; 2], points: usize) -> Vec<(T, T)> {
    let [low, high] = ends;
    let (sign, bottom, top) = if low.value() <= high.value() {
        (1.0, low, high)
    } else {
        (-1.0, high, low)
    };
    let mut joints = vec![bottom, top];
    joints.extend(
        plug.joints()
            .into_iter()
            .filter(|z| bottom.value() < z.value() && z.value() < top.value()),
    );
    sort_few(&mut joints, |z| z.value());
    let mut levels = Vec::with_capacity(points * (joints.len() - 1));
    for pair in joints.windows(2) {
        let length = pair[1] - pair[0];
        for (t, weight) in gauss(points).nodes() {
            levels.push((pair[0] + length * t, length * (weight * sign)));
        }
    }
    levels
}

/// Calls `each` with every height of the rule, its weight in mm, and where the block cuts the eye's
/// outline there, how far its two sides lie from the outline's middle. Between flat cheeks the rule
/// has `flat_points`.
pub(super) fn for_each_level<T: Scalar>(
    head: &Head<T>,
    order: Order,
    flat_points: usize,
    each: &mut impl FnMut(T, T, [Option<T>; 2]),
) {
    let section = &head.cheeks;
    let joints = joints(head);
    for pair in joints.windows(2) {
        let (low, high) = (pair[0], pair[1]);
        // Where joints coincide a part has no length, but it may have a derivative.
        let length = high - low;
        let across = |z: T| head.eye.centre(z)[1];
        if is_whole(head, pair) {
            for (t, weight) in gauss(flat_points).nodes() {
                each(low + length * t, length * weight, [None; 2]);
            }
        } else {
            // Square roots at both ends, where the block closes and where it begins to cut:
            // t = s²(3 − 2s) makes them smooth.
            for (s, weight) in gauss(2 * order.0).nodes() {
                let z = low + length * (s * s * (3.0 - 2.0 * s));
                let dz = length * (6.0 * s * (1.0 - s) * weight);
                let (side, middle) = (section.half_width_at(z), across(z));
                each(z, dz, [side - middle, side + middle].map(Some));
            }
        }
    }
}

/// Whether the plain block leaves the outline whole between two joints.
fn is_whole<T: Scalar>(head: &Head<T>, pair: &[T]) -> bool {
    let section = &head.cheeks;
    let middle = 0.5 * (pair[0].value() + pair[1].value());
    let z = T::constant(middle);
    let reach = head.eye.at(z).q.value() + head.eye.centre(z)[1].value().abs();
    middle.abs() <= (section.b - section.d).value() || section.half_width_at(z).value() >= reach
}

/// Whether the eye leaves through flats above and below: a swell beside it then takes no part.
fn is_beside_flats<T: Scalar>(head: &Head<T>) -> bool {
    let lugs = head.bulge().is_some_and(|bulge| bulge.lugs.is_some());
    !lugs && joints(head).windows(2).all(|pair| is_whole(head, pair))
}

/// Heights between which the integrand is smooth, from the lower mouth to the upper.
fn joints<T: Scalar>(head: &Head<T>) -> Vec<T> {
    let section = &head.cheeks;
    let (b, flat) = (section.b, section.b - section.d);
    let mut joints = vec![-b, b];
    joints.extend(
        head.eye
            .joints()
            .into_iter()
            .filter(|z| z.value().abs() < b.value()),
    );
    if section.c.value() > 0.0 {
        joints.extend([-flat, flat]);
    }
    sort_few(&mut joints, |z| z.value());
    let mut crossings = Vec::new();
    for pair in joints.windows(2) {
        let (low, high) = (pair[0].value(), pair[1].value());
        if 0.5 * (low + high).abs() <= flat.value() || high - low <= 0.0 {
            continue;
        }
        // Where the strip begins to cut the outline, where it leaves its straight sides, and with a
        // lean where it has passed them all.
        let side = |z: f64| section.half_width_at(T::constant(z)).value();
        let ways: &[f64] = match head.eye.lean {
            Some(_) => &[1.0, -1.0],
            None => &[1.0],
        };
        for way in ways {
            for [whole, corner] in [[1.0, 0.0], [1.0, -1.0], [-1.0, 1.0], [-1.0, 0.0]] {
                let room = |z: f64| {
                    let z = T::constant(z);
                    let (level, [_, middle]) = (head.eye.at(z), head.eye.centre(z));
                    side(z.value())
                        - way * middle.value()
                        - (level.q * whole + level.d * corner).value()
                };
                concave_roots(low, high, &room, &mut crossings);
            }
        }
    }
    joints.extend(crossings.into_iter().map(T::constant));
    sort_few(&mut joints, |z| z.value());
    joints
}

/// The roots, at most two, of a concave function.
pub(super) fn concave_roots(low: f64, high: f64, f: &impl Fn(f64) -> f64, roots: &mut Vec<f64>) {
    match (f(low) > 0.0, f(high) > 0.0) {
        (true, true) => {}
        (false, false) => {
            let top = peak(low, high, f);
            if f(top) > 0.0 {
                roots.extend(sign_change(low, top, f));
                roots.extend(sign_change(top, high, f));
            }
        }
        _ => roots.extend(sign_change(low, high, f)),
    }
}

/// The outline cut by |y| ≤ `strip`, or whole.
pub(super) fn slice<T: Scalar>(level: &EyeSection<T>, strip: Option<T>) -> Slice<T> {
    let quarter = Quarter::of(level, strip);
    Slice {
        area: quarter.area * 4.0,
        half_y: quarter.y * 2.0,
        xx: quarter.xx * 4.0,
        yy: quarter.yy * 4.0,
    }
}

/// Where the strip |y| ≤ `y` meets the outline's quarter: the last piece it reaches and how far
/// along it.
pub(super) fn reach_of_strip(level: &EyeSection<f64>, y: f64) -> (Piece, f64) {
    let straight = level.q - level.d;
    if y <= straight {
        (Piece::Side, y / straight)
    } else {
        let sine = ((y - straight) / level.d).min(1.0);
        // Inverse of the conic's parameter on a round corner: y = d(1 − (1 − t)²/W) from below.
        let f = |t: f64| {
            let (_, along, ..) = level.section().along(Piece::Corner, t);
            (along - straight) / level.d - sine
        };
        (Piece::Corner, sign_change(0.0, 1.0, f).unwrap_or(1.0))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    const OBROUND: EyeSection<f64> = EyeSection {
        p: 14.2875,
        q: 11.1125,
        c: 11.1125,
        d: 11.1125,
    };

    #[test]
    fn an_obround_slice_has_its_closed_form() {
        // 1-1/8 by 7/8 in: areas and moments computed from the stadium's closed forms and
        // matched to numerical integration (handbook formulas, from memory).
        let whole = slice(&OBROUND, None);
        assert_relative_eq!(whole.area, 529.0767, max_relative = 1e-7);
        assert_relative_eq!(whole.yy, 17785.914, max_relative = 1e-7);
        assert_relative_eq!(whole.xx, 27980.113, max_relative = 1e-7);
    }

    #[test]
    fn a_cut_slice_agrees_with_integration_across_the_strip() {
        let rounded = EyeSection {
            p: 15.0,
            q: 11.0,
            c: 4.0,
            d: 3.0,
        };
        for level in [OBROUND, rounded] {
            for y in [2.0, 7.9, 8.5, 10.9] {
                let rule = crate::numeric::quadrature::gauss(40);
                let (mut area, mut xx, mut yy) = (0.0, 0.0, 0.0);
                let straight: f64 = level.q - level.d;
                for (low, high) in [(0.0, straight.min(y)), (straight, y)] {
                    if high <= low {
                        continue;
                    }
                    area += 4.0 * rule.integrate(low, high, |v: f64| level.half_length_at(v));
                    xx += 4.0
                        * rule.integrate(low, high, |v: f64| level.half_length_at(v).powi(3) / 3.0);
                    yy += 4.0 * rule.integrate(low, high, |v: f64| v * v * level.half_length_at(v));
                }
                let got = slice(&level, Some(y));
                assert_relative_eq!(got.area, area, max_relative = 1e-7);
                assert_relative_eq!(got.xx, xx, max_relative = 1e-7);
                assert_relative_eq!(got.yy, yy, max_relative = 1e-7);
            }
        }
    }

    #[test]
    fn a_strip_reaches_the_height_it_was_asked_for() {
        for y in [1.0, 5.0, 11.0] {
            let level = EyeSection {
                p: 15.0,
                q: 11.2,
                c: 6.0,
                d: 5.0,
            };
            let (piece, t) = reach_of_strip(&level, y);
            assert_relative_eq!(level.section().along(piece, t).1, y, max_relative = 1e-12);
        }
    }
}
