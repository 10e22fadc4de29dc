//! The way back against a dense grid over every free size, and over every two of them.

use headwright::design::{Design, Dim, Edit, Quantity, Range, bounds};
use headwright::fit::targets;
use headwright::log::forged::{Forged, WayBack};
use headwright::log::{Precision, Reading, Readings, forged::forged};
use headwright::units::Mass;
use proptest::prelude::*;
use proptest::test_runner::RngSeed;

use super::{about, cold, common, dim, held, number, of, only_mass, sizes, weigh, weighed};

/// `design` with `moved` in the place of its sizes, and what is as they are.
fn with(design: &Design, moved: &[(Dim, f64)]) -> Design {
    let mut changed = design.clone();
    changed.visit_sizes(&mut |dim, size| {
        let leader = design.leader(dim);
        if let Some((_, number)) = moved.iter().find(|(other, _)| *other == leader) {
            *size = size.with_number(*number);
        }
    });
    changed
}

/// Whether `design` is sound and keeps all holds, when weight and balance are `by` more than its sizes say.
fn keeps(design: &Design, by: [f64; 2]) -> bool {
    let Ok(solid) = design.build() else {
        return false;
    };
    let weighed = headwright::mass::mass_properties(&solid);
    targets(design).iter().all(|target| {
        let value = match target.quantity {
            Quantity::Mass => weighed.mass + by[0],
            _ => weighed.balance() + by[1],
        };
        target.miss(value) == 0.0
    })
}

/// The numbers of a size that are tried, and how far each is from where it stands, in steps of a fit.
fn line(design: &Design, (dim, range): (Dim, Range), reach: f64, count: i32) -> Vec<(f64, f64)> {
    let step = bounds(dim).step;
    let here = design.size(dim).expect("a size").number();
    let place = |k: i32| {
        let steps = reach * f64::from(k) / f64::from(count);
        (here + steps * step, steps)
    };
    let limits = range.low.number()..=range.high.number();
    let places = (-count..=count).map(place);
    places
        .filter(|(number, _)| limits.contains(number))
        .collect()
}

fn free(design: &Design) -> Vec<(Dim, Range)> {
    design
        .free
        .iter()
        .map(|(dim, range)| (*dim, *range))
        .collect()
}

/// How far inside a range a fit stays, kg: a milligram and a little, so that a size that is written does not leave it.
const INSIDE: f64 = 2e-6;

/// The least movement of one size that keeps all holds, by trying.
fn best_alone(design: &Design, by: [f64; 2]) -> Option<(f64, Dim, f64)> {
    least_alone(design, |moved| keeps(moved, by))
}

/// The same as far inside the held weight as a fit stays.
fn best_inside(design: &Design) -> Option<(f64, Dim, f64)> {
    least_alone(design, |moved| {
        [INSIDE, -INSIDE].iter().all(|kg| keeps(moved, [*kg, 0.0]))
    })
}

fn least_alone(design: &Design, keeps: impl Fn(&Design) -> bool) -> Option<(f64, Dim, f64)> {
    let mut best: Option<(f64, Dim, f64)> = None;
    for single in free(design) {
        for (number, steps) in line(design, single, 24.0, 960) {
            let nearer = best.is_none_or(|(least, ..)| steps.abs() < least);
            if nearer && keeps(&with(design, &[(single.0, number)])) {
                best = Some((steps.abs(), single.0, number));
            }
        }
    }
    best
}

/// The same of two sizes.
fn best_of_two(design: &Design, by: [f64; 2], reach: f64, count: i32) -> Option<f64> {
    let free = free(design);
    let mut best: Option<f64> = None;
    for (place, first) in free.iter().enumerate() {
        for second in &free[place + 1..] {
            for (one, by_one) in line(design, *first, reach, count) {
                for (other, by_other) in line(design, *second, reach, count) {
                    let steps = by_one.hypot(by_other);
                    let nearer = best.is_none_or(|least| steps < least);
                    let moved = [(first.0, one), (second.0, other)];
                    if nearer && keeps(&with(design, &moved), by) {
                        best = Some(steps);
                    }
                }
            }
        }
    }
    best
}

/// What the scale adds to weight and balance that the sizes say.
fn by_scale(forged: &Forged) -> [f64; 2] {
    let sizes = weigh(&forged.taken.design);
    [
        forged.mass.value - sizes.mass,
        forged.balance.value - sizes.balance(),
    ]
}

#[track_caller]
fn check_alone(design: &Design, readings: &Readings) {
    let forged = of(design, readings);
    let WayBack::Moves {
        moves,
        steps,
        design: back,
    } = &forged.way_back
    else {
        panic!("{:?}", forged.way_back);
    };
    let by = by_scale(&forged);
    let (least, moved, to) =
        best_alone(&forged.taken.design, by).expect("one size that comes back");
    let [only] = moves.as_slice() else {
        panic!("{moves:?}");
    };
    assert_eq!(only.dim, moved);
    let cell = 24.0 / 960.0;
    assert!(
        (steps - least).abs() <= cell,
        "{steps} by the fit, {least} by trying"
    );
    assert!(
        (only.to.number() - to).abs() <= cell * bounds(moved).step,
        "{only:?}, {to}"
    );
    assert!(keeps(back, by), "it does not keep the holds");
    for Reading { dim, .. } in &readings.sizes {
        assert_eq!(
            back.size(*dim),
            forged.taken.design.size(*dim),
            "{dim} was measured"
        );
    }
}

#[test]
fn the_one_size_to_move_is_the_least_move_that_a_grid_finds() {
    let design = only_mass(&held());
    check_alone(&design, &sizes(&[cold("cheeks.width", 43.2)]));
    check_alone(
        &design,
        &sizes(&[cold("front.reach", 51.0), cold("back.face.width", 38.0)]),
    );
    check_alone(
        &design,
        &sizes(&[cold("eye.waist.width", 17.5), cold("front.face.land", 15.0)]),
    );
    let scale = Readings {
        sizes: vec![cold("cheeks.height", 41.0)],
        weighed: weighed(1100.0),
    };
    check_alone(&design, &scale);
}

#[test]
fn two_sizes_are_moved_where_a_grid_finds_none_that_is_enough_alone() {
    let design = held();
    let readings = sizes(&[cold("front.reach", 55.5), cold("cheeks.width", 41.0)]);
    let forged = of(&design, &readings);
    let WayBack::Moves {
        moves,
        steps,
        design: back,
    } = &forged.way_back
    else {
        panic!("{:?}", forged.way_back);
    };
    assert_eq!(moves.len(), 2, "{moves:?}");
    let by = by_scale(&forged);
    assert!(keeps(back, by));
    assert_eq!(best_alone(&forged.taken.design, by), None);
    // Both tolerances are wider than a cell, so that the grid has places that keep them.
    let (reach, count) = (6.0, 100);
    let best = best_of_two(&forged.taken.design, by, reach, count).expect("two that come back");
    let cell = reach / f64::from(count) * 2.0_f64.sqrt();
    assert!(
        *steps <= best + 1e-6,
        "{steps} by the fit, {best} by trying"
    );
    assert!(best <= steps + cell, "{steps} by the fit, {best} by trying");
}

#[test]
fn a_size_that_is_as_another_moves_with_it_until_one_of_them_is_measured() {
    let range = |mm: f64| {
        let length = headwright::units::Length::mm;
        Range::new(length(mm - 6.0), length(mm + 6.0))
    };
    let design = only_mass(&held());
    let mut design = design.clone();
    design.free = [(dim("front.face.width"), range(39.0))].into();
    let both = of(&design, &sizes(&[cold("cheeks.width", 43.0)]));
    let WayBack::Moves { moves, .. } = &both.way_back else {
        panic!("{:?}", both.way_back);
    };
    assert_eq!(moves[0].follower, Some(dim("back.face.width")));
    check_alone(&design, &sizes(&[cold("cheeks.width", 43.0)]));
    // The front's was measured, so the back's goes alone.
    let alone = of(
        &design,
        &sizes(&[cold("cheeks.width", 42.3), cold("front.face.width", 39.4)]),
    );
    let WayBack::Moves {
        moves,
        design: back,
        ..
    } = &alone.way_back
    else {
        panic!("{:?}", alone.way_back);
    };
    let [only] = moves.as_slice() else {
        panic!("{moves:?}");
    };
    assert_eq!((only.dim, only.follower), (dim("back.face.width"), None));
    assert_eq!(number(back, "front.face.width"), 39.4);
}

#[test]
fn where_nothing_that_is_free_comes_back_it_is_said_what_stands_in_the_way() {
    let mut design = only_mass(&held());
    let length = headwright::units::Length::mm;
    design.free = [(dim("front.reach"), Range::new(length(54.0), length(55.0)))].into();
    let forged = of(&design, &sizes(&[cold("cheeks.width", 48.0)]));
    let WayBack::None { missed, in_the_way } = &forged.way_back else {
        panic!("{:?}", forged.way_back);
    };
    assert_eq!(missed, &[Quantity::Mass]);
    assert_eq!(in_the_way.len(), 1);
    assert_eq!(best_alone(&forged.taken.design, [0.0; 2]), None);
    // With the only free size measured nothing is left to move.
    let forged = of(
        &design,
        &sizes(&[cold("cheeks.width", 48.0), cold("front.reach", 54.0)]),
    );
    let WayBack::None { in_the_way, .. } = &forged.way_back else {
        panic!("{:?}", forged.way_back);
    };
    assert_eq!(in_the_way, &[]);
}

#[test]
fn what_is_kept_needs_no_move() {
    let design = held();
    let forged = of(&design, &sizes(&[cold("cheeks.width", 42.0)]));
    assert_eq!(forged.way_back, WayBack::Kept);
    let loose = Design {
        holds: headwright::design::Holds::default(),
        ..design
    };
    let forged = of(&loose, &sizes(&[cold("cheeks.width", 44.0)]));
    assert_eq!(forged.way_back, WayBack::NothingHeld);
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 60, failure_persistence: None, rng_seed: RngSeed::Fixed(1), ..ProptestConfig::default() })]

    #[test]
    fn on_random_heads_the_size_to_move_is_the_one_that_a_grid_finds(
        design in common::sound_designs(), which in any::<prop::sample::Index>(), off in -1.0..1.0
    ) {
        let mass = weigh(&design).mass;
        let tolerance = Mass::kg(0.004 * mass);
        let mut design = design.apply(Edit::hold(Quantity::Mass, about(Mass::kg(mass), tolerance)));
        for (dim, _) in design.sizes() {
            if matches!(dim.to_string().as_str(), "cheeks.width" | "cheeks.length" | "front.reach" | "back.reach")
                && let Some(range) = design.default_range(dim)
            {
                design.free.insert(dim, range);
            }
        }
        let all = design.sizes();
        let (dim, size) = all[which.index(all.len())];
        let moved = size.with_number(size.number() + 4.0 * off * bounds(dim).step);
        let readings = sizes(&[Reading { dim, size: moved, celsius: None }]);
        // Not every head can be off like that.
        let Ok(forged) = forged(&design, &readings, &Precision::usual(design.bar.rule)) else {
            return Ok(());
        };
        let best = best_alone(&forged.taken.design, [0.0; 2]);
        match (&forged.way_back, best) {
            (WayBack::Kept, best) => prop_assert!(best.is_some_and(|(least, ..)| least == 0.0)),
            (WayBack::Moves { moves, steps, design: back }, best) => {
                prop_assert!(keeps(back, [0.0; 2]));
                if let Some((least, ..)) = best_inside(&forged.taken.design) {
                    prop_assert_eq!(moves.len(), 1);
                    prop_assert!(*steps <= least + 1e-6, "{steps} by the fit, {least} by trying");
                }
                // The grid looks no further than 24 steps.
                if moves.len() == 1 && *steps < 23.9 {
                    let least = best.map_or(f64::INFINITY, |(least, ..)| least);
                    prop_assert!(least <= steps + 0.05, "{steps} by the fit, {least} by trying");
                }
            }
            _ => prop_assert_eq!(best_inside(&forged.taken.design), None),
        }
    }
}
