//! Uncertainty against heads drawn at random.

use headwright::design::Design;
use headwright::log::forged::Estimate;
use headwright::log::{Measured, Precision, Readings, Taken};
use headwright::mass::mass_properties;
use headwright::plan::{growth, growth_uncertainty};

use super::{cold, held, hot, of, precision, weighed};

/// Numbers from 0 to 1 that look like chance and are the same every time (splitmix64).
struct Chance(u64);

impl Chance {
    fn next(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        ((z ^ (z >> 31)) >> 11) as f64 / (1u64 << 53) as f64
    }

    /// Anything from −`half` to `half`.
    fn either_way(&mut self, half: f64) -> f64 {
        half * (2.0 * self.next() - 1.0)
    }
}

/// A head that may be what the readings were taken of.
fn drawn(taken: &Taken, precision: &Precision, chance: &mut Chance) -> Design {
    let mut head = taken.design.clone();
    let steel = chance.either_way(1.0);
    head.visit_sizes(&mut |dim, size| {
        let number = match taken.size(dim) {
            Some(Measured {
                reading,
                caliper_within,
                ..
            }) => {
                let celsius = reading.celsius.unwrap_or(20.0);
                let usual = growth(celsius).expect("a heat that is known");
                let grows = usual * (1.0 + steel * growth_uncertainty(celsius));
                let read =
                    reading.size.number() + chance.either_way(*caliper_within) * (1.0 + usual);
                if dim.is_angle() {
                    read
                } else {
                    read / (1.0 + grows)
                }
            }
            None if dim.is_angle() => {
                size.number() + chance.either_way(precision.forged.angle.in_degrees())
            }
            None => size.number() + chance.either_way(precision.forged.length.in_mm()),
        };
        *size = size.with_number(number);
    });
    head
}

/// Mean and standard deviation of weighted numbers.
fn moments(numbers: &[(f64, f64)]) -> Estimate {
    let weight: f64 = numbers.iter().map(|(_, weight)| weight).sum();
    let mean = numbers.iter().map(|(value, w)| value * w).sum::<f64>() / weight;
    let squares = numbers.iter().map(|(value, w)| (value - mean).powi(2) * w);
    Estimate {
        value: mean,
        spread: (squares.sum::<f64>() / weight).sqrt(),
    }
}

#[track_caller]
fn check(readings: &Readings, heads: usize) {
    let design = held();
    let precision = precision(&design);
    let forged = of(&design, readings);
    let mut chance = Chance(20);
    let (mut masses, mut balances) = (Vec::new(), Vec::new());
    for _ in 0..heads {
        let head = drawn(&forged.taken, &precision, &mut chance);
        let Ok(solid) = head.build() else { continue };
        let weighed = mass_properties(&solid);
        // How likely the scale would show what it showed, were it this head.
        let likely = forged.by_scale.map_or(1.0, |scale| {
            let off = (weighed.mass - scale.value) / scale.spread;
            (-0.5 * off * off).exp()
        });
        masses.push((weighed.mass, likely));
        balances.push((weighed.balance(), likely));
    }
    assert!(
        masses.len() > heads * 99 / 100,
        "{} are sound",
        masses.len()
    );
    let sum: f64 = masses.iter().map(|(_, weight)| weight).sum();
    let squares: f64 = masses.iter().map(|(_, weight)| weight * weight).sum();
    let counts = sum * sum / squares;
    assert!(counts > 1000.0, "only {counts} heads count");
    // Four standard errors of the sample, and what the first order leaves out.
    let error = 4.0 / counts.sqrt();
    for (name, told, numbers) in [
        ("mass", forged.mass, &masses),
        ("balance", forged.balance, &balances),
    ] {
        let found = moments(numbers);
        let off = (told.value - found.value).abs();
        assert!(
            off < (error + 0.01) * found.spread,
            "{name}: {told:?}, {found:?}"
        );
        let share = told.spread / found.spread;
        assert!(
            (share - 1.0).abs() < error + 0.01,
            "{name}: {told:?}, {found:?}"
        );
    }
}

#[test]
fn weight_and_balance_are_as_unsure_as_those_of_heads_drawn_at_random() {
    let sizes = vec![
        cold("cheeks.width", 42.6),
        cold("front.reach", 53.2),
        cold("back.face.width", 38.4),
    ];
    let weighed = None;
    check(&Readings { sizes, weighed }, 6000);
}

#[test]
fn hot_readings_are_off_together() {
    let sizes = vec![
        hot("cheeks.width", 43.0, 1050.0),
        hot("cheeks.height", 42.9, 1050.0),
        hot("cheeks.length", 42.4, 1050.0),
        hot("front.reach", 55.0, 820.0),
        hot("back.reach", 54.8, 1050.0),
    ];
    let weighed = None;
    check(&Readings { sizes, weighed }, 6000);
}

#[test]
fn a_weighing_narrows_weight_and_balance_as_bayes_has_it() {
    let design = held();
    let sizes = vec![cold("cheeks.width", 42.4), cold("back.reach", 55.0)];
    let without = Readings {
        sizes,
        weighed: None,
    };
    let plain = of(&design, &without);
    // One standard deviation heavier than the sizes say.
    let grams = 1000.0 * (plain.mass.value + plain.mass.spread);
    let mut readings = Readings {
        weighed: weighed(grams),
        ..without
    };
    let loss = headwright::bar::LossKind::Dressing;
    if let Some(weighing) = &mut readings.weighed {
        weighing.to_come.push((loss, 0.5));
    }
    let both = of(&design, &readings);
    assert!(both.mass.spread < plain.mass.spread);
    assert!(both.balance.spread <= plain.balance.spread);
    check(&readings, 12_000);
}
