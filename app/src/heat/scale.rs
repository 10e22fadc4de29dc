//! A scale of heat along the sheet.

use headwright::units::{System, celsius_of_degrees, degrees, show_number};

/// Steps between numbers on a scale, degrees.
const STEPS: [f64; 7] = [10.0, 20.0, 50.0, 100.0, 200.0, 500.0, 1000.0];
/// The least room for a number, px, and for a tick.
const NUMBER: f64 = 46.0;
const TICK: f64 = 5.0;

/// From which heat to which, °C, between which places, px.
#[derive(Clone, Copy, Debug)]
pub struct Scale {
    /// °C at its ends.
    pub celsius: [f64; 2],
    /// Where these lie.
    pub px: [f64; 2],
}

/// A tick of a scale.
#[derive(Clone, Debug, PartialEq)]
pub struct Tick {
    /// Where it stands, px.
    pub x: f64,
    /// Its number, where it has one.
    pub number: Option<String>,
}

impl Scale {
    /// The place of `celsius`, at an end of the scale for what lies beyond.
    pub fn at(&self, celsius: f64) -> f64 {
        let [low, high] = self.celsius;
        let share = ((celsius - low) / (high - low)).clamp(0.0, 1.0);
        self.px[0] + share * (self.px[1] - self.px[0])
    }

    /// Its ticks in the degrees of `system`: numbers as close as they are read, between them ten or five divisions.
    pub fn ticks(&self, system: System) -> Vec<Tick> {
        let [low, high] = self.celsius.map(|celsius| degrees(celsius, system));
        let per_degree = (self.px[1] - self.px[0]) / (high - low);
        let wide = STEPS.into_iter().find(|step| step * per_degree >= NUMBER);
        let step = wide.unwrap_or(STEPS[STEPS.len() - 1]);
        let parts = if step * per_degree >= 10.0 * TICK {
            10
        } else {
            5
        };
        let division = step / f64::from(parts);
        let first = (low / division - 1e-9).ceil() as i32;
        let last = (high / division + 1e-9).floor() as i32;
        (first..=last)
            .map(|count| {
                let at = f64::from(count) * division;
                Tick {
                    x: self.at(celsius_of_degrees(at, system)),
                    number: (count % parts == 0).then(|| show_number(at)),
                }
            })
            .collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_of_a_scale_never_touch_and_none_is_lost() {
        for system in [System::Metric, System::Imperial] {
            for width in [290.0, 700.0, 1000.0, 1500.0] {
                for celsius in [[0.0, 1300.0], [150.0, 400.0], [80.0, 680.0]] {
                    let scale = Scale {
                        celsius,
                        px: [10.0, width],
                    };
                    let ticks = scale.ticks(system);
                    let numbers: Vec<f64> = ticks
                        .iter()
                        .filter(|tick| tick.number.is_some())
                        .map(|tick| tick.x)
                        .collect();
                    assert!(numbers.len() >= 2, "{celsius:?} at {width}: {ticks:?}");
                    for pair in numbers.windows(2) {
                        assert!(pair[1] - pair[0] >= NUMBER - 1e-9, "{pair:?} at {width}");
                    }
                    assert!(ticks.iter().all(|tick| (10.0..=width).contains(&tick.x)));
                }
            }
        }
    }

    #[test]
    fn a_heat_stands_where_the_scale_has_it_and_never_beyond_its_ends() {
        let scale = Scale {
            celsius: [0.0, 1000.0],
            px: [20.0, 220.0],
        };
        assert_eq!(scale.at(250.0), 70.0);
        assert_eq!(scale.at(-40.0), 20.0);
        assert_eq!(scale.at(5000.0), 220.0);
    }
}
