//! Axes of plots, and the numbers that stand along them.

use headwright::units::show_number;

/// Ticks of an axis, at most.
const TICKS: f64 = 5.0;

/// An axis: least and greatest number, and where they lie in the picture.
pub struct Axis {
    /// Least and greatest number.
    pub ends: [f64; 2],
    /// Where these lie.
    pub px: [f64; 2],
}

impl Axis {
    /// Where a number lies.
    pub fn at(&self, number: f64) -> f64 {
        let share = (number - self.ends[0]) / (self.ends[1] - self.ends[0]);
        self.px[0] + share * (self.px[1] - self.px[0])
    }

    /// Even numbers on it, in steps of 1, 2 and 5.
    pub fn ticks(&self) -> Vec<f64> {
        let [low, high] = self.ends;
        let mut step = 10f64.powf(((high - low) / TICKS).log10().floor());
        for by in [2.0, 2.5, 2.0] {
            if (high - low) / step > TICKS {
                step *= by;
            }
        }
        let first = (low / step - 1e-9).ceil();
        let count = ((high / step + 1e-9).floor() - first).max(-1.0) as usize + 1;
        (0..count).map(|k| (first + k as f64) * step).collect()
    }
}

/// A number as a tick has it.
pub fn tick(number: f64) -> String {
    show_number((number * 1e6).round() / 1e6)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_axis_has_few_even_ticks_inside_its_ends() {
        for ends in [
            [3.1, 7.9],
            [-2.0, 3.0],
            [1000.0, 2600.0],
            [0.004, 0.0071],
            [1.19, 1.2],
        ] {
            let axis = Axis {
                ends,
                px: [0.0, 100.0],
            };
            let ticks = axis.ticks();
            assert!((2..=7).contains(&ticks.len()), "{ends:?}: {ticks:?}");
            let slack = 1e-9 * (ends[1] - ends[0]);
            assert!(
                ticks
                    .iter()
                    .all(|t| ends[0] - slack <= *t && *t <= ends[1] + slack),
                "{ends:?}: {ticks:?}"
            );
        }
    }
}
