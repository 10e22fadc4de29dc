//! A number that carries derivatives along.

use std::array::from_fn;
use std::ops::{Add, AddAssign, Div, Mul, MulAssign, Neg, Sub, SubAssign};

use super::Scalar;

/// A value with `N` first derivatives: a dual number over the reals.
///
/// The derivatives lie in place, without a mark for those that are zero: a sum or a product is
/// straight arithmetic on `N + 1` numbers, which the compiler lays side by side. A library's dual
/// numbers, which mark a missing derivative, took two to three times as long over a head.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Dual<const N: usize> {
    /// The number itself.
    pub value: f64,
    /// Its derivatives.
    pub slopes: [f64; N],
}

impl<const N: usize> Dual<N> {
    /// The variable of derivative `place`, of which one counts as `step` of it.
    pub fn variable(value: f64, place: usize, step: f64) -> Self {
        let slopes = from_fn(|k| if k == place { step } else { 0.0 });
        Self { value, slopes }
    }

    /// `value` with derivatives made from those of `self`.
    fn map(self, value: f64, slope: impl Fn(f64) -> f64) -> Self {
        let slopes = self.slopes.map(slope);
        Self { value, slopes }
    }

    /// `value` with derivatives made from those of `self` and `other`.
    fn zip(self, other: Self, value: f64, slope: impl Fn(f64, f64) -> f64) -> Self {
        let slopes = from_fn(|k| slope(self.slopes[k], other.slopes[k]));
        Self { value, slopes }
    }

    /// A function's `value` here, by its derivative `rate`. What does not move has no derivative,
    /// even where `rate` is infinite, as at the root of nothing.
    fn chain(self, value: f64, rate: f64) -> Self {
        self.map(value, |d| if d == 0.0 { 0.0 } else { d * rate })
    }
}

impl<const N: usize> Neg for Dual<N> {
    type Output = Self;

    fn neg(self) -> Self {
        self.map(-self.value, |d| -d)
    }
}

impl<const N: usize> Add for Dual<N> {
    type Output = Self;

    fn add(self, other: Self) -> Self {
        self.zip(other, self.value + other.value, |a, b| a + b)
    }
}

impl<const N: usize> Sub for Dual<N> {
    type Output = Self;

    fn sub(self, other: Self) -> Self {
        self.zip(other, self.value - other.value, |a, b| a - b)
    }
}

impl<const N: usize> Mul for Dual<N> {
    type Output = Self;

    #[expect(
        clippy::suspicious_arithmetic_impl,
        reason = "a product's derivative is a sum"
    )]
    fn mul(self, other: Self) -> Self {
        self.zip(other, self.value * other.value, |a, b| {
            a * other.value + self.value * b
        })
    }
}

impl<const N: usize> Div for Dual<N> {
    type Output = Self;

    #[expect(
        clippy::suspicious_arithmetic_impl,
        reason = "one division serves for all"
    )]
    fn div(self, other: Self) -> Self {
        let part = other.value.recip();
        let value = self.value * part;
        self.zip(other, value, |a, b| (a - value * b) * part)
    }
}

impl<const N: usize> Add<f64> for Dual<N> {
    type Output = Self;

    fn add(self, other: f64) -> Self {
        self.map(self.value + other, |d| d)
    }
}

impl<const N: usize> Sub<f64> for Dual<N> {
    type Output = Self;

    fn sub(self, other: f64) -> Self {
        self.map(self.value - other, |d| d)
    }
}

impl<const N: usize> Mul<f64> for Dual<N> {
    type Output = Self;

    fn mul(self, other: f64) -> Self {
        self.map(self.value * other, |d| d * other)
    }
}

impl<const N: usize> Div<f64> for Dual<N> {
    type Output = Self;

    fn div(self, other: f64) -> Self {
        self.map(self.value / other, |d| d / other)
    }
}

impl<const N: usize> AddAssign for Dual<N> {
    fn add_assign(&mut self, other: Self) {
        *self = *self + other;
    }
}

impl<const N: usize> SubAssign for Dual<N> {
    fn sub_assign(&mut self, other: Self) {
        *self = *self - other;
    }
}

impl<const N: usize> MulAssign for Dual<N> {
    fn mul_assign(&mut self, other: Self) {
        *self = *self * other;
    }
}

impl<const N: usize> Scalar for Dual<N> {
    fn value(self) -> f64 {
        self.value
    }

    fn constant(value: f64) -> Self {
        let slopes = [0.0; N];
        Self { value, slopes }
    }

    fn moves(self) -> bool {
        self.slopes.iter().any(|d| *d != 0.0)
    }

    fn sqrt(self) -> Self {
        let root = self.value.sqrt();
        self.chain(root, 0.5 / root)
    }

    fn recip(self) -> Self {
        let part = self.value.recip();
        self.chain(part, -part * part)
    }

    fn powi(self, power: i32) -> Self {
        let rate = f64::from(power) * self.value.powi(power - 1);
        self.chain(self.value.powi(power), rate)
    }

    fn sin_cos(self) -> (Self, Self) {
        let (sin, cos) = self.value.sin_cos();
        (self.chain(sin, cos), self.chain(cos, -sin))
    }

    fn tan(self) -> Self {
        let tan = self.value.tan();
        self.chain(tan, 1.0 + tan * tan)
    }

    fn asin(self) -> Self {
        let rate = (1.0 - self.value * self.value).sqrt().recip();
        self.chain(self.value.asin(), rate)
    }

    fn acos(self) -> Self {
        let rate = -(1.0 - self.value * self.value).sqrt().recip();
        self.chain(self.value.acos(), rate)
    }

    fn atan(self) -> Self {
        let rate = (1.0 + self.value * self.value).recip();
        self.chain(self.value.atan(), rate)
    }

    fn atan2(self, other: Self) -> Self {
        let (y, x) = (self.value, other.value);
        let square = x * x + y * y;
        let (of_y, of_x) = (x / square, -y / square);
        self.zip(other, y.atan2(x), |dy, dx| {
            let along = if dy == 0.0 { 0.0 } else { dy * of_y };
            along + if dx == 0.0 { 0.0 } else { dx * of_x }
        })
    }

    fn ln(self) -> Self {
        self.chain(self.value.ln(), self.value.recip())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;
    use num_dual::{Dual64, DualNum};

    type Ours = Dual<2>;

    /// Two numbers of ours and of the library, with derivatives of their own.
    fn numbers() -> [(Ours, Dual64); 2] {
        [(0.37, 1.7), (0.81, -0.6)].map(|(value, slope)| {
            let slopes = [0.0, slope];
            (Ours { value, slopes }, Dual64::new(value, slope))
        })
    }

    #[track_caller]
    fn same(ours: Ours, theirs: Dual64) {
        assert_relative_eq!(ours.value, theirs.re, max_relative = 1e-15);
        assert_eq!(ours.slopes[0], 0.0);
        assert_relative_eq!(ours.slopes[1], theirs.eps, max_relative = 1e-14);
    }

    #[test]
    fn arithmetic_is_that_of_a_library_of_dual_numbers() {
        let [(a, p), (b, q)] = numbers();
        same(-a, -p);
        same(a + b, p + q);
        same(a - b, p - q);
        same(a * b, p * q);
        same(a / b, p / q);
        same(a + 0.3, p + 0.3);
        same(a - 0.3, p - 0.3);
        same(a * 0.3, p * 0.3);
        same(a / 0.3, p / 0.3);
        let (mut ours, mut theirs) = (a, p);
        ours += b;
        ours -= a * 0.2;
        ours *= b;
        theirs += q;
        theirs -= p * 0.2;
        theirs *= q;
        same(ours, theirs);
    }

    #[test]
    fn functions_are_those_of_a_library_of_dual_numbers() {
        let [(a, p), (b, q)] = numbers();
        same(a.sqrt(), p.sqrt());
        same(Scalar::recip(a), p.recip());
        same(a.powi(3), p.powi(3));
        same(a.sin(), p.sin());
        same(a.cos(), p.cos());
        same(a.tan(), p.tan());
        same(a.asin(), p.asin());
        same(a.acos(), p.acos());
        same(a.atan(), p.atan());
        same(a.atan2(b), p.atan2(q));
        same((-a).atan2(-b), (-p).atan2(-q));
        same(a.ln(), p.ln());
    }

    #[test]
    fn what_does_not_move_has_no_derivative_even_where_a_slope_is_infinite() {
        let [nothing, one] = [0.0, 1.0].map(Ours::constant);
        for still in [
            nothing.sqrt(),
            one.asin(),
            one.acos(),
            nothing.atan2(nothing),
        ] {
            assert_eq!(still.slopes, [0.0, 0.0]);
            assert!(!still.moves());
        }
        assert!(Ours::variable(0.0, 1, 0.5).moves());
    }
}
