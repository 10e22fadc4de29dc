//! How a head lies to a handle that leans because the eye is cocked.

use crate::solid::{Lean, Solid};

/// A head against its true handle axis, the line through the origin along (tan α, tan β, 1).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TrueAxis {
    /// How far the faces, which look along x, are out of square with it, radians; positive: the
    /// wedge side leans towards the front.
    pub out_of_square: f64,
    /// How far the centroid lies to the side of it, towards +y, mm: its distance from the plane
    /// of the true axis and the head's own x.
    pub sideways: f64,
}

impl TrueAxis {
    /// That of `solid`, whose centroid is `centroid`; nothing when its eye is not cocked.
    pub fn of(solid: &Solid, centroid: [f64; 3]) -> Option<Self> {
        let lean = solid.head().eye.lean?;
        Some(Self::leaning(lean, centroid))
    }

    /// That of a head with its centroid at `centroid` on a handle that leans by `lean`.
    pub fn leaning(lean: Lean<f64>, [_, y, z]: [f64; 3]) -> Self {
        let Lean { along, across } = lean;
        Self {
            // Between the axis and a face: what is left of a right angle to its normal.
            out_of_square: along.atan2(across.hypot(1.0)),
            sideways: (y - z * across) / across.hypot(1.0),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    fn leaning(along: f64, across: f64, centroid: [f64; 3]) -> TrueAxis {
        let [along, across] = [along, across].map(|degrees| degrees.to_radians().tan());
        TrueAxis::leaning(Lean { along, across }, centroid)
    }

    #[test]
    fn a_lean_along_the_head_is_what_the_face_is_out_of_square() {
        for degrees in [-10.0, -1.5, 0.0, 3.0] {
            let got = leaning(degrees, 0.0, [4.0, 0.5, -3.0]);
            assert_relative_eq!(got.out_of_square.to_degrees(), degrees, epsilon = 1e-13);
            assert_relative_eq!(got.sideways, 0.5);
        }
    }

    #[test]
    fn a_lean_across_the_head_leaves_the_face_square_and_turns_the_balance_aside() {
        let (sin, cos) = 4f64.to_radians().sin_cos();
        let got = leaning(0.0, 4.0, [4.0, 0.5, -3.0]);
        assert_eq!(got.out_of_square, 0.0);
        assert_relative_eq!(got.sideways, 0.5 * cos + 3.0 * sin, max_relative = 1e-14);
    }

    #[test]
    fn with_both_the_face_and_the_axis_keep_the_angle_of_their_vectors() {
        let (along, across) = (3f64.to_radians().tan(), (-5f64).to_radians().tan());
        let axis = [along, across, 1.0];
        let length = axis.iter().map(|part| part * part).sum::<f64>().sqrt();
        let got = leaning(3.0, -5.0, [0.0; 3]);
        assert_relative_eq!(
            got.out_of_square.sin(),
            along / length,
            max_relative = 1e-14
        );
    }

    #[test]
    fn a_centroid_on_the_true_axis_or_before_it_is_not_aside() {
        let (along, across) = (3f64.to_radians().tan(), (-5f64).to_radians().tan());
        for (height, before) in [(7.0, 0.0), (-7.0, 0.0), (2.0, 9.0)] {
            let centroid = [height * along + before, height * across, height];
            assert_relative_eq!(leaning(3.0, -5.0, centroid).sideways, 0.0, epsilon = 1e-15);
        }
    }
}
