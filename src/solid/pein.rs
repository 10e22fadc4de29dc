//! The pein: an arm that grows or tapers to the edge, cut by a slab that narrows to the nose.

use super::Section;
use crate::numeric::Scalar;
use crate::numeric::roots::sign_change;

mod looks;

/// A pein before its end drops, mm. ξ runs along the edge, η across it, both from the end's axis.
///
/// At every u the arm is the station's section times [`Pein::growth`], so that its chord along
/// the edge is the edge length at the nose. The slab is |η| ≤ [`Pein::thickness`], a wedge whose
/// faces touch the nose circle, hollowed or not. With a rocker every length from the pein's
/// start is shortened at ξ by the share that the rocker takes off the tip; v is the u that a
/// point would have without it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pein<T> {
    /// u where it begins.
    pub start: T,
    /// The section there.
    pub section: Section<T>,
    /// u of the tip at mid edge.
    pub reach: T,
    /// Cosine and sine of the angle from +y to the edge.
    pub direction: [T; 2],
    /// Half of the edge length.
    pub half_edge: T,
    /// Radius of the nose.
    pub nose: T,
    /// One over the rocker radius, 1/mm; 0 for a straight edge.
    pub rocker: T,
    /// Depth of the hollow.
    pub hollow: T,
    /// Radius of the broken ends of the edge.
    pub corner_break: T,
    /// From the middle of the section to its outline along the edge.
    pub radius: T,
    /// Half of the slab's thickness where it begins.
    pub root: T,
    /// v where the slope meets the nose circle, and half of the thickness there.
    pub tangent: [T; 2],
}

/// The sizes of a pein as a design gives them.
pub(crate) struct PeinSizes<T> {
    pub start: T,
    pub section: Section<T>,
    pub reach: T,
    /// Radians.
    pub direction: T,
    pub edge: T,
    pub nose: T,
    pub rocker: T,
    pub hollow: T,
    pub corner_break: T,
}

/// A pein's arm at one v.
#[derive(Clone, Copy)]
pub(crate) struct Arm<T> {
    /// The section as a multiple of the station's, where a rocker takes nothing off.
    pub growth: T,
    /// What it loses for every mm that a rocker takes off, 1/mm.
    gain: T,
    rocker: T,
}

/// A place on the outline of a pein's arm.
pub(crate) struct OnArm<T> {
    /// ξ there.
    pub xi: T,
    /// What the rocker takes off the tip at this ξ.
    pub recess: T,
    /// The arm's section there as a multiple of the station's.
    pub growth: T,
    /// The station's ξ moves by this over `growth` when ξ moves by 1.
    pub slope: T,
}

/// Lengths that differ by less than this share are the same but for roundoff.
const SAME: f64 = 1e-12;
/// A sine or cosine below this is nothing: what a right angle in degrees leaves.
const NOTHING: f64 = 1e-15;

/// |`value`|. At 0, where it turns, the slope is taken as the mean of both sides: none.
fn positive<T: Scalar>(value: T) -> T {
    if value.value().abs() < NOTHING {
        T::constant(0.0)
    } else if value.value() < 0.0 {
        -value
    } else {
        value
    }
}

impl<T: Scalar> Pein<T> {
    pub(crate) fn new(sizes: PeinSizes<T>) -> Self {
        let PeinSizes {
            start,
            section,
            reach,
            nose,
            ..
        } = sizes;
        let (sin, cos) = (sizes.direction.sin(), sizes.direction.cos());
        let root = section.a * positive(sin) + section.b * positive(cos);
        let length = reach - nose - start;
        let distance = (length * length + root * root).sqrt();
        // A nose beyond the start of the pein is refused; until then its angle is a right one.
        let share = nose / distance;
        let share = if share.value() < 1.0 {
            share
        } else {
            T::constant(1.0 - f64::EPSILON)
        };
        let turn = share.asin() - root.atan2(length);
        Self {
            start,
            section,
            reach,
            direction: [cos, sin],
            half_edge: sizes.edge * 0.5,
            nose,
            rocker: sizes.rocker,
            hollow: sizes.hollow,
            corner_break: sizes.corner_break,
            radius: section.radius_towards(cos, sin),
            root,
            tangent: [reach - nose - nose * turn.sin(), nose * turn.cos()],
        }
    }

    /// The same without derivatives, for finding places on it.
    pub fn values(&self) -> Pein<f64> {
        let pair = |[a, b]: [T; 2]| [a.value(), b.value()];
        Pein {
            start: self.start.value(),
            section: self.section.values(),
            reach: self.reach.value(),
            direction: pair(self.direction),
            half_edge: self.half_edge.value(),
            nose: self.nose.value(),
            rocker: self.rocker.value(),
            hollow: self.hollow.value(),
            corner_break: self.corner_break.value(),
            radius: self.radius.value(),
            root: self.root.value(),
            tangent: pair(self.tangent),
        }
    }

    /// Whether any of its sizes has a derivative.
    pub fn moves(&self) -> bool {
        let section = &self.section;
        let outline = [section.a, section.b, section.c, section.d, section.w];
        let edge = [
            self.half_edge,
            self.nose,
            self.rocker,
            self.hollow,
            self.corner_break,
        ];
        // The rest follows from these.
        let place = [self.start, self.reach, self.direction[0], self.direction[1]];
        let all = outline.iter().chain(&edge).chain(&place);
        all.copied().any(T::moves)
    }

    /// Length from the start to the tip at mid edge.
    pub fn length(&self) -> T {
        self.reach - self.start
    }

    /// u of the middle of the nose circle.
    pub fn nose_centre(&self) -> T {
        self.reach - self.nose
    }

    /// How far the edge has receded at ξ: κξ²/(1 + √(1 − κ²ξ²)).
    pub fn recess(&self, xi: T) -> T {
        let kx2 = self.rocker * xi * xi;
        kx2 / ((-self.rocker * kx2 + 1.0).sqrt() + 1.0)
    }

    /// What the rocker leaves of every length at ξ.
    pub fn shortening(&self, xi: T) -> T {
        -self.recess(xi) / self.length() + 1.0
    }

    /// u of a point at `v` and ξ.
    pub fn u_at(&self, v: T, xi: T) -> T {
        v - (v - self.start) * (self.recess(xi) / self.length())
    }

    /// The arm's section at `u` as a multiple of the one where it begins.
    pub fn growth(&self, u: T) -> T {
        (self.half_edge / self.radius - 1.0) * (u - self.start) / self.length() + 1.0
    }

    /// Half of the slab's thickness at `v`, from the pein's start to its tip.
    pub fn thickness(&self, v: T) -> T {
        let [tangent, there] = self.tangent;
        if v.value() < tangent.value() {
            let tau = (v - self.start) / (tangent - self.start);
            let rest = -tau + 1.0;
            self.root + (there - self.root) * tau - self.hollow * 6.75 * tau * rest * rest
        } else {
            let along = v - self.nose_centre();
            let square = self.nose * self.nose - along * along;
            if square.value() > 0.0 {
                square.sqrt()
            } else {
                T::constant(0.0)
            }
        }
    }

    /// What the broken corner takes off |ξ| at `v`, from the arm's chord along the edge: a quarter
    /// round in the plane of the slab.
    pub fn break_at(&self, v: T) -> T {
        let depth = v - self.reach + self.corner_break;
        if depth.value() <= 0.0 {
            return T::constant(0.0);
        }
        let square = self.corner_break * self.corner_break - depth * depth;
        if square.value() > 0.0 {
            self.corner_break - square.sqrt()
        } else {
            self.corner_break
        }
    }

    /// The greatest |ξ| that the broken corner leaves at `v`.
    pub fn limit(&self, v: T) -> T {
        self.arm(v).at(self.radius, self.break_at(v)).xi
    }

    /// The arm at `v`.
    pub(crate) fn arm(&self, v: T) -> Arm<T> {
        let growth = self.growth(v);
        Arm {
            growth,
            gain: (growth - 1.0) / self.length(),
            rocker: self.rocker,
        }
    }

    /// (y, z) of (ξ, η), from the end's axis.
    pub fn across(&self, xi: T, eta: T) -> [T; 2] {
        let [cos, sin] = self.direction;
        [xi * cos - eta * sin, xi * sin + eta * cos]
    }

    /// (ξ, η) of (y, z).
    pub fn along(&self, y: T, z: T) -> [T; 2] {
        let [cos, sin] = self.direction;
        [y * cos + z * sin, z * cos - y * sin]
    }

    /// The greatest |ξ| of the station's section: what a line across the edge can touch.
    pub fn support(&self) -> T {
        let [cos, sin] = self.direction;
        self.section.a * positive(cos) + self.section.b * positive(sin)
    }

    /// The greatest |ξ| of the whole pein.
    pub fn farthest(&self) -> T {
        let wider = self.half_edge / self.radius;
        if wider.value() > 1.0 {
            self.support() * wider
        } else {
            self.support()
        }
    }

    /// Least half-thickness of the slope: where the hollow is felt most, or at the nose.
    pub fn thinnest(&self) -> T {
        let [_, there] = self.tangent;
        if self.hollow.value() <= 0.0 {
            return there;
        }
        // Slope of the thickness: (1 − τ)(1 − 3τ) = q, which falls to its least at τ = 2/3.
        let q = (there - self.root) / (self.hollow * 6.75);
        let square = q * 3.0 + 1.0;
        if square.value() <= 0.0 {
            return there;
        }
        let tau = (-square.sqrt() + 2.0) * (1.0 / 3.0);
        let [tangent, _] = self.tangent;
        let least = self.thickness(self.start + (tangent - self.start) * tau);
        if least.value() < there.value() {
            least
        } else {
            there
        }
    }
}

impl<T: Scalar> Arm<T> {
    /// The arm's outline where the station's has ξ `station`, less `taken`.
    ///
    /// The arm's size depends on u and with a rocker u on ξ: with F the ξ without recess and s the
    /// recess, ξ = F − B s, B = ξ₀ (k(v) − 1)/λ. On the rocker's circle ξ² + s² = 2s/κ, so that s is
    /// the lesser root of κ(1 + B²)s² − 2(1 + κFB)s + κF² = 0.
    pub fn at(&self, station: T, taken: T) -> OnArm<T> {
        let unbent = station * self.growth - taken;
        let (zero, one) = (T::constant(0.0), T::constant(1.0));
        if self.rocker.value() == 0.0 {
            return OnArm {
                xi: unbent,
                recess: zero,
                growth: self.growth,
                slope: one,
            };
        }
        let lever = station * self.gain;
        let bend = self.rocker * unbent;
        let half = bend * lever + 1.0;
        let recess = bend * unbent / (half + (half * 2.0 - bend * bend - 1.0).sqrt());
        let xi = unbent - lever * recess;
        // On the circle the slope of the recess is κξ/(1 − κs).
        let steepness = self.rocker * xi / (-self.rocker * recess + 1.0);
        OnArm {
            xi,
            recess,
            growth: self.growth - self.gain * recess,
            slope: lever * steepness + 1.0,
        }
    }
}

impl<T: Scalar> Section<T> {
    /// From the middle to the outline in the direction (`cos`, `sin`) of (y, z).
    ///
    /// # Accuracy
    /// To f64's resolution: bisection, then one step of Newton's method, which carries the
    /// derivatives.
    pub fn radius_towards(&self, cos: T, sin: T) -> T {
        let (cos, sin) = (positive(cos), positive(sin));
        let Self { a, b, c, d, w } = *self;
        let (side, top) = (a / cos, b / sin);
        if c.value() == 0.0 {
            // Towards a sharp corner itself the slope is the mean of both sides.
            let beyond = (side - top).value() / side.value();
            return if beyond.abs() <= SAME {
                (side + top) * 0.5
            } else if beyond < 0.0 {
                side
            } else {
                top
            };
        }
        if (side * sin).value() <= (b - d).value() {
            return side;
        }
        if (top * cos).value() <= (a - c).value() {
            return top;
        }
        // α + β + 2w√(αβ) − 1 along the ray, and its slope.
        let beyond = |r: T| {
            let (alpha, beta) = ((a - r * cos) / c, (b - r * sin) / d);
            let root = positive(alpha * beta).sqrt();
            let mixed = (cos / c * beta + sin / d * alpha) * w / root;
            (
                alpha + beta + w * root * 2.0 - 1.0,
                -cos / c - sin / d - mixed,
            )
        };
        let nearer = side.value().min(top.value());
        // A square cut to points reaches half as far as the lines of its sides.
        let corner = 0.25 * nearer;
        let start = sign_change(corner, nearer, |r| {
            let (alpha, beta) = (
                ((a - cos * r) / c).value().clamp(0.0, 1.0),
                ((b - sin * r) / d).value().clamp(0.0, 1.0),
            );
            alpha + beta + 2.0 * w.value() * (alpha * beta).sqrt() - 1.0
        });
        let r = T::constant(start.unwrap_or(nearer));
        let (gap, slope) = beyond(r);
        r - gap / slope
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    fn pein(direction: f64, rocker: f64, hollow: f64) -> Pein<f64> {
        let section = Section {
            a: 17.0,
            b: 15.0,
            c: 6.0,
            d: 5.0,
            w: 0.5,
        };
        Pein::new(PeinSizes {
            start: 35.0,
            section,
            reach: 82.0,
            direction: direction.to_radians(),
            edge: 33.0,
            nose: 3.0,
            rocker,
            hollow,
            corner_break: 2.0,
        })
    }

    #[test]
    fn the_chord_of_the_arm_along_the_edge_is_the_edge_length_at_the_nose() {
        for direction in [0.0, 35.0, -50.0, 90.0] {
            let pein = pein(direction, 0.0, 0.0);
            assert_relative_eq!(
                pein.radius * pein.growth(pein.reach),
                16.5,
                max_relative = 1e-13
            );
        }
    }

    #[test]
    fn a_ray_ends_on_the_outline_wherever_it_points() {
        for w in [0.0, 0.3, Section::<f64>::ROUND, 0.95] {
            let section = Section {
                a: 17.0,
                b: 15.0,
                c: 9.0,
                d: 8.0,
                w,
            };
            for degrees in 0..=90 {
                let (sin, cos) = f64::from(degrees).to_radians().sin_cos();
                let r = section.radius_towards(cos, sin);
                if r * sin < section.b - 1e-9 {
                    assert_relative_eq!(
                        section.half_width_at(r * sin),
                        r * cos,
                        epsilon = 1e-9,
                        max_relative = 1e-9
                    );
                }
            }
        }
    }

    #[test]
    fn a_square_cut_to_a_point_at_its_corners_reaches_half_of_its_diagonal() {
        let half = 8.0;
        let section = Section {
            a: half,
            b: half,
            c: half,
            d: half,
            w: 0.0,
        };
        let cos = std::f64::consts::FRAC_1_SQRT_2;
        assert_relative_eq!(
            section.radius_towards(cos, cos),
            half * cos,
            max_relative = 1e-12
        );
    }

    #[test]
    fn steel_beyond_the_chord_of_the_edge_stays_where_no_corner_is_broken() {
        // Turned by 50° the arm reaches farther along the edge beside the axis than on it.
        let pein = pein(50.0, 0.0, 0.0);
        let v = pein.start + 5.0;
        let reach = pein.radius * pein.growth(v);
        let beyond = (1..400).any(|k| {
            let eta = f64::from(k) * 0.02 - 4.0;
            let [y, z] = pein.across(1.001 * reach, eta);
            pein.contains(v, y, z)
        });
        assert!(beyond);
    }

    #[test]
    fn the_slope_goes_over_into_the_nose_without_a_corner() {
        for hollow in [0.0, 1.2] {
            let pein = pein(35.0, 0.0, hollow);
            let [tangent, there] = pein.tangent;
            let step = 1e-6;
            let inside = (there - pein.thickness(tangent - step)) / step;
            let outside = (pein.thickness(tangent + step) - there) / step;
            assert_relative_eq!(pein.thickness(tangent), there, max_relative = 1e-9);
            assert_relative_eq!(inside, outside, epsilon = 1e-4);
        }
    }

    #[test]
    fn the_hollow_is_deepest_at_a_third_of_the_slope() {
        let (plain, hollow) = (pein(0.0, 0.0, 0.0), pein(0.0, 0.0, 1.5));
        let depth = |share: f64| {
            let v = plain.start + (plain.tangent[0] - plain.start) * share;
            plain.thickness(v) - hollow.thickness(v)
        };
        assert_relative_eq!(depth(1.0 / 3.0), 1.5, max_relative = 1e-12);
        assert!(depth(0.3) < 1.5 && depth(0.37) < 1.5);
    }

    #[test]
    fn the_thinnest_place_is_the_least_of_all_thicknesses() {
        for hollow in [0.0, 1.0, 4.0, 7.0] {
            let pein = pein(0.0, 0.0, hollow);
            let least = (0..=20_000)
                .map(|k| {
                    let share = f64::from(k) / 20_000.0;
                    pein.thickness(pein.start + (pein.tangent[0] - pein.start) * share)
                })
                .fold(f64::INFINITY, f64::min);
            assert_relative_eq!(pein.thinnest(), least, epsilon = 1e-6);
        }
    }

    #[test]
    fn a_rocker_shortens_the_ends_of_the_edge() {
        let pein = pein(0.0, 1.0 / 90.0, 0.0);
        let sag = 90.0 - (90.0f64 * 90.0 - 16.5 * 16.5).sqrt();
        assert_relative_eq!(
            pein.u_at(pein.reach, 16.5),
            pein.reach - sag,
            max_relative = 1e-12
        );
        assert_relative_eq!(pein.u_at(pein.start, 16.5), pein.start);
    }

    #[test]
    fn a_place_on_a_rockered_arm_grows_with_the_u_it_has() {
        for (direction, rocker) in [(0.0, 1.0 / 45.0), (30.0, 1.0 / 19.0), (90.0, 0.0)] {
            let pein = pein(direction, rocker, 1.0);
            for v in [36.0, 60.0, 82.0] {
                for station in [-14.0, 0.0, 3.0, 16.0] {
                    let arm = pein.arm(v).at(station, 0.0);
                    let growth = pein.growth(pein.u_at(v, arm.xi));
                    assert_relative_eq!(arm.growth, growth, max_relative = 1e-13);
                    assert_relative_eq!(arm.xi, station * growth, max_relative = 1e-13);
                    assert_relative_eq!(arm.recess, pein.recess(arm.xi), epsilon = 1e-13);
                }
            }
        }
    }
}
