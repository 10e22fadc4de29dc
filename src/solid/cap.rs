//! The face end: a straight land closed by a crowned face whose rim may be broken.

use super::{Piece, Section};
use crate::numeric::Scalar;

/// How the rim is broken.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Rim {
    /// Not at all.
    Sharp,
    /// By a quarter round.
    Rounded,
    /// By a 45° chamfer.
    Chamfered,
}

/// A land and a face, mm.
///
/// The face is the height field u(y, z) = reach − sag(y² + z²) − D(δ) over the outline; δ is the
/// inset of a point, which lies on the outline shrunk to (1 − δ/a, 1 − δ/b).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cap<T> {
    /// Outline of land and face.
    pub outline: Section<T>,
    /// Length of the land along the top line of the side view.
    pub land: T,
    /// One over the crown radius, 1/mm; 0 for a flat face.
    pub curvature: T,
    /// How the rim is broken.
    pub rim: Rim,
    /// Size of the broken rim.
    pub edge: T,
    /// u of the crown's apex.
    pub reach: T,
}

impl<T: Scalar> Cap<T> {
    /// How far the crown has fallen at squared distance `r2` from the axis: κr²/(1 + √(1 − κ²r²)).
    pub fn sag(&self, r2: T) -> T {
        if self.curvature.value() == 0.0 {
            return T::constant(0.0);
        }
        let kr2 = self.curvature * r2;
        kr2 / ((-self.curvature * kr2 + 1.0).sqrt() + 1.0)
    }

    /// u where the land begins.
    pub fn land_start(&self) -> T {
        self.reach - self.sag(self.outline.b * self.outline.b) - self.land
    }

    /// The broken rim at the share `t`, from the rim (0) to where it meets the crown (1): the
    /// inset δ, the drop D below the crown, dδ/dt and dD/dt.
    ///
    /// A quarter round is run through by its angle, so that its steep start is no trouble.
    pub fn edge_at(&self, t: f64) -> (T, T, T, T) {
        let e = self.edge;
        match self.rim {
            Rim::Sharp => (
                T::constant(0.0),
                T::constant(0.0),
                T::constant(0.0),
                T::constant(0.0),
            ),
            Rim::Chamfered => (e * t, e * (1.0 - t), e, -e),
            Rim::Rounded => {
                let quarter = std::f64::consts::FRAC_PI_2;
                let (sin, cos) = (quarter * t).sin_cos();
                (
                    e * (1.0 - cos),
                    e * (1.0 - sin),
                    e * (quarter * sin),
                    -e * (quarter * cos),
                )
            }
        }
    }

    /// How much of the outline's sizes is left at inset `delta`: across, up.
    pub fn shrink(&self, delta: T) -> (T, T) {
        (-delta / self.outline.a + 1.0, -delta / self.outline.b + 1.0)
    }

    /// The part of the outline that the broken rim leaves alone.
    pub fn inner(&self) -> Section<T> {
        let (across, up) = self.shrink(self.edge);
        self.outline.shrunk(across, up)
    }

    /// u of the sharp or broken rim, where the land ends, at a point of the outline.
    pub fn rim_at(&self, piece: Piece, t: f64) -> T {
        let (y, z, ..) = self.outline.along(piece, t);
        self.reach - self.sag(y * y + z * z) - self.edge_at(0.0).1
    }
}
