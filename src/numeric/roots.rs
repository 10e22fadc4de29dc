//! Where a function changes sign.

/// Halvings from any interval of the head (at most a metre) to below f64's resolution there.
const HALVINGS: usize = 60;

/// A point between `from` and `to` where `f` changes sign, or nothing when both ends have the
/// same sign.
///
/// Bisection: always ends, never leaves the interval; good to about 1e-15 of its length.
pub fn sign_change(from: f64, to: f64, f: impl Fn(f64) -> f64) -> Option<f64> {
    bisected(HALVINGS, from, to, f)
}

/// The same after so many halvings: good to 2^−`halvings` of the interval.
pub fn bisected(halvings: usize, from: f64, to: f64, f: impl Fn(f64) -> f64) -> Option<f64> {
    let (mut low, mut high) = (from, to);
    let at_low = f(low) > 0.0;
    if at_low == (f(high) > 0.0) {
        return None;
    }
    for _ in 0..halvings {
        let middle = 0.5 * (low + high);
        if (f(middle) > 0.0) == at_low {
            low = middle;
        } else {
            high = middle;
        }
    }
    Some(0.5 * (low + high))
}

/// The parameter at which a function that only rises or only falls passes 0, from its values at
/// two parameters; nothing when both have the same sign.
///
/// The Illinois form of regula falsi (M. Dowell and P. Jarratt, A modified regula falsi method
/// for computing the root of an equation, BIT 11 (1971) 168–174; from memory): it keeps the root
/// between its ends; good to about 1e-15 of the interval.
pub fn crossing(a: (f64, f64), b: (f64, f64), f: impl Fn(f64) -> f64) -> Option<f64> {
    crossing_within(1e-15, a, b, &f)
}

/// The same, good to about `share` of the interval.
pub fn crossing_within(
    share: f64,
    (mut a, mut fa): (f64, f64),
    (mut b, mut fb): (f64, f64),
    f: &dyn Fn(f64) -> f64,
) -> Option<f64> {
    if (fa > 0.0) == (fb > 0.0) {
        return None;
    }
    let span = (b - a).abs();
    for _ in 0..HALVINGS {
        let c = b - fb * (b - a) / (fb - fa);
        let fc = f(c);
        if fc == 0.0 || !c.is_finite() {
            return Some(if c.is_finite() { c } else { b });
        }
        if (fc > 0.0) == (fb > 0.0) {
            fa *= 0.5;
        } else {
            (a, fa) = (b, fb);
        }
        let moved = (c - b).abs();
        (b, fb) = (c, fc);
        if moved <= share * span || (b - a).abs() <= share * span {
            break;
        }
    }
    Some(b)
}

/// The point between `from` and `to` where the concave function `f` is greatest.
///
/// Ternary search; good to about the square root of f64's resolution, which is enough to split
/// an interval there.
pub fn peak(from: f64, to: f64, f: impl Fn(f64) -> f64) -> f64 {
    let (mut low, mut high) = (from, to);
    for _ in 0..HALVINGS {
        let (a, b) = (low + (high - low) / 3.0, high - (high - low) / 3.0);
        if f(a) < f(b) {
            low = a;
        } else {
            high = b;
        }
    }
    0.5 * (low + high)
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_abs_diff_eq;

    #[test]
    fn a_sign_change_is_found_from_either_direction() {
        let f = |x: f64| x * x * x - 2.0;
        for (from, to) in [(0.0, 3.0), (3.0, 0.0)] {
            let root = sign_change(from, to, f).expect("changes sign");
            assert_abs_diff_eq!(root, 2f64.cbrt(), epsilon = 1e-13);
        }
    }

    #[test]
    fn a_crossing_is_found_and_stays_between_its_ends() {
        let f = |x: f64| x * x * x - 2.0;
        for (from, to) in [(0.0, 3.0), (3.0, 0.0), (1.2, 100.0)] {
            let root = crossing((from, f(from)), (to, f(to)), f).expect("changes sign");
            assert_abs_diff_eq!(root, 2f64.cbrt(), epsilon = 1e-12);
        }
        assert_eq!(crossing((2.0, f(2.0)), (3.0, f(3.0)), f), None);
    }

    #[test]
    fn no_sign_change_gives_nothing() {
        assert_eq!(sign_change(1.0, 2.0, |x| x), None);
    }

    #[test]
    fn the_peak_of_a_parabola_is_found() {
        assert_abs_diff_eq!(
            peak(-1.0, 4.0, |x| -(x - 0.7) * (x - 0.7)),
            0.7,
            epsilon = 1e-7
        );
    }
}
