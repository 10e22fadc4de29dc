//! What one step does, against differences; the spread of the weight, against a sample.

use headwright::design::{Design, Dim, Edit, Size, Tip, starter, starter_names};
use headwright::fit::{Accuracy, effects, mass_spread};
use headwright::mass::{Order, mass_properties, mass_properties_of_order};
use headwright::units::{Angle, Length, Rule};

use super::{dim, rounding};

/// Half the step of a difference, mm or degrees.
const HALF_STEP: f64 = 1e-3;

/// Mass, balance and inertia about the handle axis with `dim` moved; nothing when that is no head.
fn moved(design: &Design, dim: Dim, by: f64) -> Option<[f64; 3]> {
    let size = design.size(dim).expect("present");
    let edit = Edit::set(dim, size.with_number(size.number() + by));
    let solid = design.apply(edit).build().ok()?;
    let found = mass_properties_of_order(&solid, Order(20));
    Some([found.mass, found.balance(), found.inertia_handle_axis])
}

/// Compares every effect with a difference; how many dimensions could be moved both ways.
#[track_caller]
fn check_effects(design: &Design, rule: Rule) -> usize {
    let mut tried = 0;
    let all = effects(design, rule).expect("sound");
    // Of two that are alike the front's stands for both.
    assert_eq!(all.len(), design.sizes().len() - design.alike.len());
    for pair in all.windows(2) {
        assert!(pair[0].mass.abs() >= pair[1].mass.abs());
    }
    for effect in all {
        let step = effect.step.number();
        let ends = [-HALF_STEP, HALF_STEP].map(|by| moved(design, effect.dim, by));
        // Turned by exactly 45° flats may lie along a pein's edge: a difference straddles that.
        let straddles = effect.dim.size == Size::Direction && effect.size.number().abs() == 45.0;
        let ([Some(below), Some(above)], false) = (ends, straddles) else {
            continue;
        };
        tried += 1;
        let found = [effect.mass, effect.balance, effect.inertia_handle_axis];
        for (k, scale) in [1.0, 1.0, 1000.0].into_iter().enumerate() {
            let difference = (above[k] - below[k]) / (2.0 * HALF_STEP) * step;
            let off = (found[k] - difference).abs();
            assert!(
                off <= 1e-5 * difference.abs() + 1e-7 * scale,
                "{}: {}, quantity {k}: {} by derivative, {difference} by difference",
                design.name,
                effect.dim,
                found[k]
            );
        }
    }
    tried
}

#[test]
fn effects_on_every_starter_agree_with_differences() {
    let (mut faces, mut balls, mut peins) = (0, 0, 0);
    for name in starter_names() {
        let design = starter(name).expect("a starter");
        for end in [&design.front, &design.back] {
            match end.tip {
                Tip::Face(_) => faces += 1,
                Tip::Ball(_) => balls += 1,
                Tip::Pein(_) => peins += 1,
            }
        }
        let tried = check_effects(&design, Rule::MILLIMETRE);
        let all = design.sizes().len() - design.alike.len();
        assert!(tried + 4 >= all, "{name}: {tried} of {all} could move");
    }
    assert!(faces > 0 && balls > 0 && peins > 0);
}

#[test]
fn effects_of_leaning_parts_are_per_degree() {
    let mut design = rounding();
    design.front.drop = Some(Angle::degrees(2.0));
    design.eye.cock_along = Some(Angle::degrees(1.5));
    let tried = check_effects(&design, Rule::SIXTEENTH);
    let sizes = design.sizes().len() - design.alike.len();
    assert!(tried + 4 >= sizes, "{tried} could move");
    let all = effects(&design, Rule::SIXTEENTH).expect("sound");
    for effect in all {
        assert_eq!(effect.dim.is_angle(), effect.step.to_string() == "1°");
        assert_eq!(!effect.dim.is_angle(), effect.step.to_string() == "1/16 in");
    }
}

#[test]
fn an_unsound_design_has_no_effects() {
    let design = rounding().apply(Edit::set(dim("cheeks.length"), Length::mm(20.0)));
    assert!(effects(&design, Rule::MILLIMETRE).is_err());
}

#[test]
fn the_spread_does_not_depend_on_the_rule() {
    let accuracy = Accuracy::within(Length::mm(0.5));
    let spread = |rule| mass_spread(&effects(&rounding(), rule).expect("sound"), accuracy);
    let (metric, imperial) = (spread(Rule::MILLIMETRE), spread(Rule::SIXTEENTH));
    assert!(
        (metric - imperial).abs() < 1e-12 * metric,
        "{metric} {imperial}"
    );
}

/// Evenly from 0 to 1: splitmix64 (G. L. Steele, D. Lea, C. H. Flood, Fast splittable
/// pseudorandom number generators, 2014; from memory).
struct Even(u64);

impl Even {
    fn next(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        ((z ^ (z >> 31)) >> 11) as f64 / (1u64 << 53) as f64
    }
}

#[test]
fn the_spread_is_that_of_heads_forged_at_random() {
    const HEADS: usize = 3000;
    let accuracy = Accuracy {
        length: Length::mm(0.15),
        angle: Angle::degrees(0.15),
    };
    for name in starter_names() {
        let design = starter(name).expect("a starter");
        let mut even = Even(7);
        let mut weights = Vec::with_capacity(HEADS);
        let mut drawn = 0;
        while weights.len() < HEADS && drawn < 2 * HEADS {
            drawn += 1;
            let mut forged = design.clone();
            forged.visit_sizes(&mut |_, size| {
                *size = size.with_number(size.number() + 0.15 * (2.0 * even.next() - 1.0));
            });
            if let Ok(solid) = forged.build() {
                weights.push(mass_properties(&solid).mass);
            }
        }
        if drawn > HEADS {
            println!("{name}: {drawn} drawn");
        }
        let mean = weights.iter().sum::<f64>() / weights.len() as f64;
        let squares: f64 = weights.iter().map(|m| (m - mean).powi(2)).sum();
        let sampled = (squares / (weights.len() - 1) as f64).sqrt();
        let spread = mass_spread(
            &effects(&design, Rule::MILLIMETRE).expect("sound"),
            accuracy,
        );
        println!("{name}: {spread} kg against {sampled} kg");
        // The deviation of a sample of 3000 near the normal is off by 1.3 %; three times that.
        assert!(
            (spread / sampled - 1.0).abs() < 0.04,
            "{name}: {spread} {sampled}"
        );
    }
}
