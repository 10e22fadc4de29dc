//! What the core needs of a number.

use num_dual::DualNum;

/// A real number or a dual number over it: the geometry is written once and gives values with
/// `f64` and exact first derivatives with a dual number.
///
/// Branches look at [`Scalar::value`] alone, so a value and its derivative take the same path.
pub trait Scalar: DualNum<Primitive = f64> + Copy {
    /// The real part.
    fn value(self) -> f64 {
        self.re()
    }

    /// A number without derivatives.
    fn constant(value: f64) -> Self {
        Self::from(value)
    }
}

impl<T: DualNum<Primitive = f64> + Copy> Scalar for T {}
