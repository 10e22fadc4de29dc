//! Mass and moments of the handle's parts, in the axes of the head.

use serde::Serialize;

use super::oval::Oval;
use super::seat::{Prism, Seat};
use super::{Handle, Station};
use crate::mass::{Moments, Quarter};
use crate::numeric::Scalar;
use crate::numeric::quadrature::gauss;
use crate::solid::{Head, Lean};
use crate::units::Density;

/// A part of the handle.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum HandlePart {
    /// What is outside the head, from the butt to the lower mouth.
    Stem,
    /// The wood between the lower mouth and the waist where it fills the eye.
    Shoulder,
    /// The rest of the wood in the eye, and what stands out of it.
    Tongue,
    /// The wedge in the kerf.
    Wedge,
    /// The steel wedge across.
    CrossWedge,
}

impl HandlePart {
    /// The words for it.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Stem => "grip and stem",
            Self::Shoulder => "shoulder",
            Self::Tongue => "tongue",
            Self::Wedge => "wedge",
            Self::CrossWedge => "cross wedge",
        }
    }
}

/// Along the stem the integrands are polynomials of degree 4: these points are exact.
const STEM_POINTS: usize = 3;
/// In height those of a wedge are of degree 3.
const WEDGE_POINTS: usize = 2;
/// Those of the wood in the eye are of degree 8 along arcs; a kerf in a shoulder is smooth and no polynomial.
const EYE_POINTS: usize = 8;

/// ∫dm, ∫x dm, … ∫zx dm of the made handle about the head's origin, kg, kg·mm and kg·mm²: [`Moments`] with mass in the
/// place of volume. Added to those of the head, times its density, they are the moments of the whole tool.
///
/// Over dual numbers it has exact derivatives with respect to the head's dimensions. Where two sizes of the head that
/// the tongue must pass are equal, it takes one of them: there the derivative is one of two.
///
/// For a handle that [`make`](super::make) accepts; it gives numbers without meaning for others, never a panic.
///
/// # Accuracy
/// Exact but for a kerf that is cut into a shoulder: there below 1e-10 of its moments on the heads of the tests.
pub fn body<T: Scalar>(head: &Head<T>, handle: &Handle) -> Moments<T> {
    parts(&Seat::new(head, handle), handle)
        .iter()
        .fold(Moments::zero(), |sum, (_, density, moments)| {
            sum.plus(&moments.times(density.in_kg_per_m3() * 1e-9))
        })
}

/// The parts that `handle` has, with their density and the moments of their volume.
pub(super) fn parts<T: Scalar>(
    seat: &Seat<T>,
    handle: &Handle,
) -> Vec<(HandlePart, Density, Moments<T>)> {
    let wood = handle.wood.density(handle.moisture_percent);
    let shear = shear(seat);
    let mut parts = vec![(HandlePart::Stem, wood, stem(seat, handle))];
    let [shoulder, tongue] = in_the_eye(seat, EYE_POINTS);
    if seat.fills {
        parts.push((HandlePart::Shoulder, wood, shoulder.carried(&shear)));
    }
    parts.push((HandlePart::Tongue, wood, tongue.carried(&shear)));
    if let (Some(prism), Some(wedge)) = (&seat.wedge, &handle.wedge) {
        let density = wedge.wood.density(handle.moisture_percent);
        let moments = wedge_moments(prism, |thick, broad| [broad, thick]);
        parts.push((HandlePart::Wedge, density, moments.carried(&shear)));
    }
    if let Some(prism) = &seat.cross {
        let moments = wedge_moments(prism, |thick, broad| [thick, broad]);
        parts.push((
            HandlePart::CrossWedge,
            Density::STEEL,
            moments.carried(&shear),
        ));
    }
    parts
}

/// The map that leans what is in the eye.
fn shear<T: Scalar>(seat: &Seat<T>) -> [[T; 3]; 3] {
    let (zero, one) = (T::constant(0.0), T::constant(1.0));
    let Lean { along, across } = seat.plug.lean.unwrap_or(Lean {
        along: zero,
        across: zero,
    });
    [[one, zero, along], [zero, one, across], [zero, zero, one]]
}

/// The frame of the stem as rows of a matrix whose columns are the directions of the ovals' depth, of their width, and
/// of the handle from butt to head.
pub(super) fn frame<T: Scalar>(lean: Option<Lean<T>>) -> [[T; 3]; 3] {
    let (zero, one) = (T::constant(0.0), T::constant(1.0));
    let Some(Lean { along, across }) = lean else {
        return [[one, zero, zero], [zero, one, zero], [zero, zero, one]];
    };
    let long = (along * along + across * across + 1.0).sqrt().recip();
    let (x, y, z) = (along * long, across * long, long);
    // Across: square to the axis and to the head's x. Along: square to both.
    let aside = (y * y + z * z).sqrt();
    let turn = aside.recip();
    [
        [aside, zero, x],
        [-(x * y * turn), z * turn, y],
        [-(x * z * turn), -(y * turn), z],
    ]
}

/// One after the other, the pieces of the stem: from and to along the handle from the butt, and the ovals that stand
/// at the ends of the stations' span, with where that begins and its length.
struct Piece<T> {
    from: T,
    to: T,
    ovals: [Oval; 2],
    begins: f64,
    span: f64,
}

impl<T: Scalar> Piece<T> {
    /// Half-depth and half-width at `s` from the butt.
    fn at(&self, s: T) -> [T; 2] {
        self.ovals[0].towards(self.ovals[1], (s - self.begins) / self.span)
    }
}

impl Station {
    pub(super) fn oval(&self) -> Oval {
        Oval {
            depth: 0.5 * self.depth.in_mm(),
            width: 0.5 * self.width.in_mm(),
        }
    }
}

/// The pieces of a stem of length `stem`; what the head has covered of the stations is left out.
fn pieces<T: Scalar>(stations: &[Station], stem: T) -> Vec<Piece<T>> {
    let (Some(first), Some(last)) = (stations.first(), stations.last()) else {
        return Vec::new();
    };
    let within = |at: f64| {
        if at < stem.value() {
            T::constant(at)
        } else {
            stem
        }
    };
    let even = |station: &Station, from: T, to: T| Piece {
        from,
        to,
        ovals: [station.oval(); 2],
        begins: 0.0,
        span: 1.0,
    };
    let mut pieces = vec![even(first, within(0.0), within(first.at.in_mm()))];
    for pair in stations.windows(2) {
        let [begins, ends] = [pair[0].at.in_mm(), pair[1].at.in_mm()];
        pieces.push(Piece {
            from: within(begins),
            to: within(ends),
            ovals: [pair[0].oval(), pair[1].oval()],
            begins,
            span: ends - begins,
        });
    }
    pieces.push(even(last, within(last.at.in_mm()), stem));
    pieces
}

/// The oval at `at` from the butt.
pub(super) fn oval_at(stations: &[Station], at: f64) -> Oval {
    let pieces = pieces(stations, f64::INFINITY);
    let [depth, width] = pieces
        .iter()
        .find(|piece| at <= piece.to)
        .map_or([0.0; 2], |piece| piece.at(at));
    Oval { depth, width }
}

/// Along the handle from the butt, with half-depth and half-width there: the corners of the stem's outline.
pub(super) fn stem_corners(stations: &[Station], stem: f64) -> Vec<(f64, [f64; 2])> {
    let pieces = pieces(stations, stem);
    let mut corners: Vec<(f64, [f64; 2])> = Vec::with_capacity(2 * pieces.len());
    for piece in pieces.iter().filter(|piece| piece.from < piece.to) {
        for s in [piece.from, piece.to] {
            if corners.last().is_none_or(|(last, _)| *last < s) {
                corners.push((s, piece.at(s)));
            }
        }
    }
    corners
}

fn stem<T: Scalar>(seat: &Seat<T>, handle: &Handle) -> Moments<T> {
    let mut sum = Moments::zero();
    // Where the butt lies along the axis, from the head's origin.
    let butt = seat.bottom * seat.slant - seat.stem;
    for piece in pieces(&handle.stations, seat.stem) {
        let length = piece.to - piece.from;
        for (t, weight) in gauss(STEM_POINTS).nodes() {
            let s = piece.from + length * t;
            let [depth, width] = piece.at(s);
            let area = depth * width * std::f64::consts::PI;
            add_slice(
                &mut sum,
                butt + s,
                length * weight,
                [
                    area,
                    area * depth * depth * 0.25,
                    area * width * width * 0.25,
                ],
            );
        }
    }
    sum.carried(&frame(seat.plug.lean))
}

/// Adds a slice of ∫dA, ∫x² dA, ∫y² dA and thickness `dz` at height `z`, its middle on the axis.
fn add_slice<T: Scalar>(sum: &mut Moments<T>, z: T, dz: T, [area, xx, yy]: [T; 3]) {
    let volume = area * dz;
    sum.volume += volume;
    sum.z += volume * z;
    sum.zz += volume * z * z;
    sum.xx += xx * dz;
    sum.yy += yy * dz;
}

/// Shoulder and tongue before they lean, by rules of so many points.
fn in_the_eye<T: Scalar>(seat: &Seat<T>, points: usize) -> [Moments<T>; 2] {
    let mut sums = [Moments::zero(), Moments::zero()];
    for pair in seat.joints().windows(2) {
        let length = pair[1] - pair[0];
        for (t, weight) in gauss(points).nodes() {
            let z = pair[0] + length * t;
            let section = seat.section_at(z);
            let mut wood = Quarter::of(&section, None);
            if let Some(half_kerf) = seat.half_kerf_at(z) {
                wood = wood.minus(&Quarter::of(&section, Some(half_kerf)));
            }
            let wood = wood.moved(seat.along_at(z).moved, seat.across_at(z).moved);
            let part = usize::from(!seat.is_shoulder(z.value()));
            add_slice(
                &mut sums[part],
                z,
                length * weight,
                [wood.area * 4.0, wood.xx * 4.0, wood.yy * 4.0],
            );
        }
    }
    sums
}

/// A wedge before it leans; `sizes` makes its sizes along the head and across it of thickness and breadth.
fn wedge_moments<T: Scalar>(prism: &Prism<T>, sizes: impl Fn(T, T) -> [T; 2]) -> Moments<T> {
    let mut sum = Moments::zero();
    for (t, weight) in gauss(WEDGE_POINTS).nodes() {
        let z = prism.tip() + t * prism.length;
        let [along, across] = sizes(prism.thickness_at(z), prism.broad);
        let area = along * across;
        add_slice(
            &mut sum,
            z,
            T::constant(prism.length * weight),
            [
                area,
                area * along * along * (1.0 / 12.0),
                area * across * across * (1.0 / 12.0),
            ],
        );
    }
    sum
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::{EyeOutline, starter};
    use crate::handle::Kerf;
    use crate::units::Length;
    use approx::assert_relative_eq;

    #[test]
    fn more_points_change_no_wood_in_the_eye() {
        for outline in [
            EyeOutline::Ellipse,
            EyeOutline::Obround,
            EyeOutline::RoundedRectangle,
        ] {
            for wall in [crate::design::Wall::Straight, crate::design::Wall::Arc] {
                let mut design = starter("rounding").expect("a starter");
                design.eye.outline = outline;
                design.eye.wall = wall;
                for (level, radius) in [
                    (&mut design.eye.top, 6.0),
                    (&mut design.eye.waist, 5.0),
                    (&mut design.eye.bottom, 4.0),
                ] {
                    level.radius = Some(Length::mm(radius));
                }
                let solid = design.build().expect("a sound head");
                let handle = Handle {
                    // Deep into the shoulder.
                    kerf: Some(Kerf {
                        depth: Length::mm(38.0),
                        width: Length::mm(3.0),
                    }),
                    ..Handle::usual(&solid, crate::units::System::Metric)
                };
                let seat = Seat::new(solid.head(), &handle);
                let [few, many] = [EYE_POINTS, 32].map(|points| in_the_eye(&seat, points));
                for (few, many) in few.iter().zip(&many) {
                    let of = |m: &Moments<f64>| [m.volume, m.z, m.xx, m.yy, m.zz];
                    for (few, many) in of(few).into_iter().zip(of(many)) {
                        assert_relative_eq!(few, many, max_relative = 1e-10);
                    }
                }
            }
        }
    }
}
