//! What the core needs of a number.

use std::fmt::Debug;
use std::ops::{Add, AddAssign, Div, Mul, MulAssign, Neg, Sub, SubAssign};

/// A real number or a dual number over it: the geometry is written once and gives values with
/// `f64` and exact first derivatives with a [`Dual`](super::Dual).
///
/// Branches look at [`Scalar::value`] alone, so a value and its derivative take the same path.
pub trait Scalar:
    Copy
    + Debug
    + Neg<Output = Self>
    + Add<Output = Self>
    + Sub<Output = Self>
    + Mul<Output = Self>
    + Div<Output = Self>
    + Add<f64, Output = Self>
    + Sub<f64, Output = Self>
    + Mul<f64, Output = Self>
    + Div<f64, Output = Self>
    + AddAssign
    + SubAssign
    + MulAssign
{
    /// The real part.
    fn value(self) -> f64;

    /// A number without derivatives.
    fn constant(value: f64) -> Self;

    /// Whether it has a derivative other than zero.
    fn moves(self) -> bool;

    /// Square root.
    fn sqrt(self) -> Self;

    /// One over the number.
    fn recip(self) -> Self;

    /// A whole power.
    fn powi(self, power: i32) -> Self;

    /// Sine and cosine of an angle in radians.
    fn sin_cos(self) -> (Self, Self);

    /// Sine of an angle in radians.
    fn sin(self) -> Self {
        self.sin_cos().0
    }

    /// Cosine of an angle in radians.
    fn cos(self) -> Self {
        self.sin_cos().1
    }

    /// Tangent of an angle in radians.
    fn tan(self) -> Self;

    /// Angle of a sine, radians.
    fn asin(self) -> Self;

    /// Angle of a cosine, radians.
    fn acos(self) -> Self;

    /// Angle of a tangent, radians.
    fn atan(self) -> Self;

    /// Angle from the x axis to (`other`, `self`), radians.
    fn atan2(self, other: Self) -> Self;

    /// Natural logarithm.
    fn ln(self) -> Self;
}

impl Scalar for f64 {
    fn value(self) -> f64 {
        self
    }

    fn constant(value: f64) -> Self {
        value
    }

    fn moves(self) -> bool {
        false
    }

    fn sqrt(self) -> Self {
        self.sqrt()
    }

    fn recip(self) -> Self {
        self.recip()
    }

    fn powi(self, power: i32) -> Self {
        self.powi(power)
    }

    fn sin_cos(self) -> (Self, Self) {
        self.sin_cos()
    }

    fn tan(self) -> Self {
        self.tan()
    }

    fn asin(self) -> Self {
        self.asin()
    }

    fn acos(self) -> Self {
        self.acos()
    }

    fn atan(self) -> Self {
        self.atan()
    }

    fn atan2(self, other: Self) -> Self {
        self.atan2(other)
    }

    fn ln(self) -> Self {
        self.ln()
    }
}
