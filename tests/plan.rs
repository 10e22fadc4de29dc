//! From bar to head through the public path: the area curve, marks, upset, bars and hot sizes.

use std::f64::consts::PI;

use approx::assert_relative_eq;
use expect_test::expect;
use headwright::bar::{Bar, BarSection, Billet, Certainty, Loss, LossAmount, LossKind, billet};
use headwright::design::{
    Corner, Crown, Design, Edge, EyeLevel, EyeOutline, Face, Outline, Side, Tip, Transition, Wall,
    starter, starter_names,
};
use headwright::mass::{causes, mass_properties};
use headwright::plan::{
    GROWTH_UNCERTAINTY, HotError, Place, Plan, UpsetRule, Work, growth, growth_uncertainty,
    hot_sizes, least_forging, plan,
};
use headwright::units::{Density, Length, Mass, Measure, Rule, System};
use proptest::prelude::*;
use proptest::test_runner::RngSeed;

mod common;

/// Of the account from the finished head to the cut.
const ROUNDOFF: f64 = 1e-9;
/// Of what a share of the volume is good to.
const ACCURACY: f64 = 1e-6;

fn mm(value: f64) -> Length {
    Length::mm(value)
}

fn square(side: f64) -> BarSection {
    BarSection::square(mm(side))
}

fn planned(design: &Design, from: Side) -> (Plan, Billet) {
    let solid = design.build().expect("sound");
    let mass = mass_properties(&solid);
    let billet = billet(&causes(&solid, &mass), design.density, &design.bar).expect("a bar");
    (plan(&solid, &billet, &design.bar, from), billet)
}

/// A block of 40 mm with a straight round eye of 20 mm; in front the block's section goes on to a
/// flat face at 60 mm, behind it tapers over 25 mm to a face of 24 mm, 5 mm of land, at 50 mm.
fn by_hand() -> Design {
    let mut design = starter("square").expect("a starter");
    let face = |side: f64, land: f64| {
        Tip::Face(Face {
            outline: Outline::equal(mm(side), Corner::Sharp),
            land: mm(land),
            crown: Crown::Flat,
            edge: Edge::Sharp,
        })
    };
    design.free.clear();
    design.alike.clear();
    design.density = Density::STEEL;
    design.cheeks.length = mm(40.0);
    design.cheeks.outline = Outline::equal(mm(40.0), Corner::Sharp);
    design.cheeks.offset = mm(0.0);
    design.cheeks.swell = None;
    design.cheeks.lugs = None;
    let level = EyeLevel {
        length: mm(20.0),
        width: None,
        radius: None,
    };
    design.eye.outline = EyeOutline::Round;
    design.eye.top = level.clone();
    design.eye.waist = level.clone();
    design.eye.bottom = level;
    design.eye.waist_height = mm(0.0);
    design.eye.wall = Wall::Straight;
    design.eye.cock_along = None;
    design.eye.cock_across = None;
    design.eye.mouth_break = None;
    for (side, across, reach, land) in [
        (Side::Front, 40.0, 60.0, 15.0),
        (Side::Back, 24.0, 50.0, 5.0),
    ] {
        let end = design.end_mut(side);
        end.necks.clear();
        end.transition = Transition::Straight;
        end.drop = None;
        end.reach = mm(reach);
        end.tip = face(across, land);
    }
    design.bar = Bar {
        section: square(38.0),
        losses: Vec::new(),
        confidence: 0.5,
        rule: Rule::MILLIMETRE,
    };
    design
}

/// Volumes of the head of [`by_hand`] without its eye: half the block, what lies in front of it,
/// taper and land behind it.
const HALF_BLOCK: f64 = 1600.0 * 20.0;
const FRONT: f64 = 1600.0 * 40.0;
const TAPER: f64 = 25.0 / 3.0 * (1600.0 + 960.0 + 576.0);
const BACK_LAND: f64 = 576.0 * 5.0;
/// Half of the eye.
const HALF_EYE: f64 = PI * 100.0 * 40.0 / 2.0;

fn mark(plan: &Plan, place: Place) -> f64 {
    let found = plan.marks.marks.iter().find(|mark| mark.place == place);
    found.expect("a mark").exact_mm
}

#[test]
fn marks_of_a_head_without_losses_are_the_ones_worked_by_hand() {
    let (plan, billet) = planned(&by_hand(), Side::Back);
    let finished = 2.0 * (HALF_BLOCK - HALF_EYE) + FRONT + TAPER + BACK_LAND;
    // Rounding is spread like the finished steel.
    let length = billet.cut_length_mm;
    let at = |volume: f64| volume / finished * length;
    let cheeks = TAPER + BACK_LAND;
    let eye = cheeks + HALF_BLOCK - HALF_EYE;
    let front = eye + HALF_BLOCK - HALF_EYE;
    for (place, exact) in [
        (Place::Cheeks(Side::Back), at(cheeks)),
        (Place::Eye, at(eye)),
        (Place::Cheeks(Side::Front), at(front)),
    ] {
        assert_relative_eq!(mark(&plan, place), exact, max_relative = ACCURACY);
    }
    let eye = plan.marks.marks[1];
    assert_eq!(eye.place, Place::Eye);
    assert_eq!(eye.at_mm, eye.exact_mm.round());
    assert_eq!(eye.left_over_mm, eye.exact_mm - eye.at_mm);
    assert_eq!(eye.rest_mm, length - eye.at_mm);
}

fn lost(kind: LossKind, grams: f64) -> Loss {
    Loss {
        kind,
        amount: LossAmount::Mass {
            expected: Mass::grams(grams),
            spread: Mass::grams(0.0),
        },
        source: String::new(),
        certainty: Certainty::Own,
    }
}

/// mm³ of a gram of steel.
const GRAM: f64 = 1.0 / 7.85e-3;

#[test]
fn every_loss_comes_out_of_the_place_where_it_is_lost() {
    let none = by_hand();
    let finished = 2.0 * (HALF_BLOCK - HALF_EYE) + FRONT + TAPER + BACK_LAND;
    // Behind the back end of the cheeks, and from there to the middle of the eye, per gram.
    // A section's perimeter is four times its side.
    let skin = 40.0 * 80.0 + 32.0 * 25.0 + 24.0 * 5.0;
    let skin_behind = 32.0 * 25.0 + 24.0 * 5.0;
    for (kind, behind, to_eye) in [
        (LossKind::Slug, 0.0, 0.5),
        (LossKind::ForgingScale, skin_behind / skin, 800.0 / skin),
        (LossKind::HardeningScale, skin_behind / skin, 800.0 / skin),
        (LossKind::Dressing, skin_behind / skin, 800.0 / skin),
        (LossKind::Trimming, 0.5, 0.0),
        (LossKind::Grinding, 576.0 / 2176.0, 0.0),
    ] {
        let mut design = none.clone();
        design.bar.losses = vec![lost(kind, 30.0)];
        let (plan, billet) = planned(&design, Side::Back);
        let cut = billet.cut_length_mm * 1444.0;
        let lost = 30.0 * GRAM;
        let grown = (cut - lost) / finished;
        let cheeks = grown * (TAPER + BACK_LAND) + behind * lost;
        let eye = cheeks + grown * (HALF_BLOCK - HALF_EYE) + to_eye * lost;
        for (place, volume) in [(Place::Cheeks(Side::Back), cheeks), (Place::Eye, eye)] {
            assert_relative_eq!(mark(&plan, place), volume / 1444.0, max_relative = ACCURACY);
        }
    }
}

#[test]
fn what_is_ground_off_stands_beyond_the_finished_ends_to_the_same_depth() {
    let mut design = by_hand();
    design.bar.losses = vec![lost(LossKind::Grinding, 30.0)];
    let (plan, _) = planned(&design, Side::Front);
    let depth = 30.0 * GRAM / 2176.0;
    let stations = &plan.curve.stations;
    assert_relative_eq!(stations[0].from_mm, -50.0 - depth, max_relative = ROUNDOFF);
    assert_relative_eq!(
        stations[stations.len() - 1].to_mm,
        60.0 + depth,
        max_relative = ROUNDOFF
    );
}

/// The head turned end for end.
fn mirrored(design: &Design) -> Design {
    let offset = design.cheeks.offset;
    Design {
        front: design.back.clone(),
        back: design.front.clone(),
        cheeks: headwright::design::Cheeks {
            offset: offset.with_mm(-offset.in_mm()),
            ..design.cheeks.clone()
        },
        ..design.clone()
    }
}

#[test]
fn a_head_turned_end_for_end_has_its_marks_from_the_other_end() {
    for design in starter_names().filter_map(starter).chain([by_hand()]) {
        let (one, _) = planned(&design, Side::Front);
        let (other, _) = planned(&mirrored(&design), Side::Back);
        assert_eq!(one.marks.marks.len(), other.marks.marks.len());
        for (one, other) in one.marks.marks.iter().zip(&other.marks.marks) {
            assert_relative_eq!(one.exact_mm, other.exact_mm, max_relative = ROUNDOFF);
            assert_relative_eq!(one.x_mm, -other.x_mm);
        }
    }
}

/// The curve adds up to the cut, and so do the marks: whatever the head.
fn check_adds_up(design: &Design) -> Result<(), TestCaseError> {
    let (plan, billet) = planned(design, Side::Front);
    let bar = design.bar.section.area_mm2();
    let cut = billet.cut_length_mm * bar;
    let curve = &plan.curve;
    prop_assert!((curve.volume_mm3() / cut - 1.0).abs() < ROUNDOFF);
    for pair in curve.stations.windows(2) {
        prop_assert!((pair[0].to_mm - pair[1].from_mm).abs() < 1e-6);
    }
    for station in &curve.stations {
        prop_assert!(station.need_mm2.is_finite() && station.need_mm2 >= 0.0);
        prop_assert!(station.from_mm <= station.x_mm && station.x_mm <= station.to_mm);
    }
    let lengths: f64 = curve.stretches.iter().map(|s| s.bar_length_mm).sum();
    prop_assert!((lengths / billet.cut_length_mm - 1.0).abs() < ROUNDOFF);
    // Before anything is lost, each side of the eye has the mass that it is weighed with.
    let solid = design.build().expect("sound");
    let mass = mass_properties(&solid);
    let finished: f64 = curve
        .stations
        .iter()
        .map(|s| s.finished_mm2 * s.length_mm())
        .sum();
    prop_assert!((finished / mass.volume - 1.0).abs() < ACCURACY);
    let back: f64 = curve
        .stations
        .iter()
        .filter(|station| station.x_mm < 0.0)
        .map(|station| station.finished_mm2 * station.length_mm())
        .sum();
    prop_assert!((back / mass.volume - mass.back_mass / mass.mass).abs() < ACCURACY);
    // On either side of a mark lies what is needed there.
    for mark in &plan.marks.marks {
        let behind: f64 = curve
            .stations
            .iter()
            .filter(|station| station.x_mm < mark.x_mm)
            .map(|station| station.need_mm2 * station.length_mm())
            .sum();
        let rest = billet.cut_length_mm - mark.exact_mm;
        prop_assert!((rest * bar - behind).abs() < ROUNDOFF * cut);
    }
    Ok(())
}

#[test]
fn the_area_curve_of_every_starter_adds_up_to_the_cut() {
    for name in starter_names() {
        let design = starter(name).expect("a starter");
        check_adds_up(&design).expect(name);
    }
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, rng_seed: RngSeed::Fixed(5), ..ProptestConfig::with_cases(200) })]

    #[test]
    fn the_area_curve_of_any_head_adds_up_to_the_cut(design in common::sound_designs()) {
        check_adds_up(&design)?;
    }
}

#[test]
fn the_rules_of_upsetting_go_by_free_length_and_width() {
    for (diameters, width, rule) in [
        (2.5, 3.0, UpsetRule::Free),
        (2.51, 1.2, UpsetRule::BeyondHand),
        (3.0, 3.0, UpsetRule::BeyondHand),
        (3.01, 1.5, UpsetRule::InHole),
        (3.01, 1.51, UpsetRule::InSteps),
    ] {
        assert_eq!(UpsetRule::of(diameters, width), rule, "{diameters} {width}");
    }
}

#[test]
fn a_thin_bar_is_upset_over_more_than_it_can_stand() {
    let mut design = by_hand();
    design.bar.section = square(24.0);
    let (plan, billet) = planned(&design, Side::Front);
    // Everything but the back's land and the end of its taper is thicker than the bar.
    let [upset] = plan.upsets[..] else {
        panic!("one upset: {:?}", plan.upsets);
    };
    assert_relative_eq!(upset.diameter_mm, 24.0 * (4.0 / PI).sqrt());
    assert_relative_eq!(upset.diameters, upset.bar_length_mm / upset.diameter_mm);
    assert_relative_eq!(
        upset.bar_from_mm + upset.bar_length_mm,
        billet.cut_length_mm,
        max_relative = ROUNDOFF
    );
    let in_inches = &plan.cautions(System::Imperial)[0];
    assert!(
        in_inches.contains("of the 0.945 in square bar"),
        "{in_inches}"
    );
    assert!(
        in_inches.ends_with("such as 1.614 in square."),
        "{in_inches}"
    );
    let cautions: String = plan.cautions(System::Metric).join("\n");
    expect![[r#"
        The head needs 1601 mm² at 52.5 mm in front of the handle axis, 2.78 times the 576 mm² of the 24 mm square bar. Upset it there, or take a bar of at least that area, such as 41 mm square.
        The upset gathers 244.7 mm of bar, 9 diameters of 27.1 mm: more than the 3 that may stand free, and it is to become 1.67 times as thick, more than 1.5. Upset it in steps or take thicker bar.
        Drifting bulges the cheeks. Forging them back lengthens the head by about 7.9 mm over the eye; the marks allow for it."#]].assert_eq(&cautions);
}

#[test]
fn upsets_parted_by_a_little_that_is_left_alone_are_one() {
    let mut design = starter("cross").expect("a starter");
    design.bar.section = square(31.75);
    let (plan, _) = planned(&design, Side::Front);
    let works: Vec<Work> = plan.curve.stretches.iter().map(|s| s.work).collect();
    let parted = [Work::Upset, Work::Leave, Work::Upset];
    assert!(works.windows(3).any(|three| three == parted), "{works:?}");
    let [upset] = plan.upsets[..] else {
        panic!("one upset: {:?}", plan.upsets);
    };
    assert!(upset.diameters > 3.0, "{}", upset.diameters);
    assert!(upset.caution(System::Metric).is_some());
}

#[test]
fn a_flat_bar_buckles_across_its_thickness() {
    let mut design = by_hand();
    design.bar.section = BarSection::rectangular(mm(100.0), mm(12.0));
    let (plan, _) = planned(&design, Side::Front);
    let upset = plan.upsets.first().expect("the block is thicker");
    // A flat's least radius of gyration is t/√12, a round's d/4.
    assert_relative_eq!(
        upset.diameter_mm,
        4.0 * 12.0 / 12f64.sqrt(),
        max_relative = ROUNDOFF
    );
}

#[test]
fn a_bar_that_is_large_enough_needs_no_caution_for_it() {
    let mut design = by_hand();
    design.bar.section = square(42.0);
    let (plan, _) = planned(&design, Side::Front);
    assert_eq!(plan.too_small, None);
    assert!(plan.upsets.is_empty());
    // Over the eye the bar has too much: forging the cheeks back lengthens the head.
    // 12566 mm³ of eye over 40 mm square.
    assert_relative_eq!(
        plan.lengthens_mm,
        2.0 * HALF_EYE / 1600.0,
        max_relative = ACCURACY
    );
    let works: Vec<Work> = plan.curve.stretches.iter().map(|s| s.work).collect();
    assert_eq!(works, [Work::Draw]);
}

#[test]
fn what_is_pushed_aside_lengthens_the_head_whatever_the_bar() {
    let mut design = by_hand();
    design.bar.losses = vec![lost(LossKind::Slug, 30.0), lost(LossKind::Dressing, 20.0)];
    for section in [
        square(24.0),
        square(42.0),
        BarSection::rectangular(mm(60.0), mm(30.0)),
    ] {
        design.bar.section = section;
        let (plan, _) = planned(&design, Side::Front);
        let aside = 2.0 * HALF_EYE - 30.0 * GRAM;
        assert_relative_eq!(plan.lengthens_mm, aside / 1600.0, max_relative = ACCURACY);
        let told = plan.cautions(System::Metric);
        // (12566.4 − 3821.7) / 1600 = 5.47.
        assert!(
            told.iter()
                .any(|caution| caution.contains("about 5.5 mm over the eye"))
        );
    }
    // A slug as large as the eye leaves next to nothing to be pushed aside.
    design.bar.losses = vec![lost(LossKind::Slug, 0.999_999 * 2.0 * HALF_EYE / GRAM)];
    let (plan, _) = planned(&design, Side::Front);
    assert!(
        (0.0..1e-4).contains(&plan.lengthens_mm),
        "{}",
        plan.lengthens_mm
    );
}

#[test]
fn the_bar_nearest_to_what_is_needed_asks_for_least_forging() {
    let design = by_hand();
    let solid = design.build().expect("sound");
    let sections = [60.0, 38.0, 24.0, 45.0].map(square);
    let fits = least_forging(
        &solid,
        &causes(&solid, &mass_properties(&solid)),
        design.density,
        &design.bar,
        &sections,
    )
    .expect("bars");
    assert_eq!(fits[0].section, square(38.0));
    assert_eq!(fits[3].section, square(60.0));
    for fit in &fits {
        assert_relative_eq!(fit.share * mass_properties(&solid).volume, fit.moved_mm3);
    }
    // Front and block of the head are as thick as this bar: rounding apart, only the eye, the
    // taper and the land are left.
    let [fit] = least_forging(
        &solid,
        &causes(&solid, &mass_properties(&solid)),
        design.density,
        &design.bar,
        &[square(40.0)],
    )
    .expect("a bar")[..] else {
        panic!("one bar");
    };
    let left = 2.0 * HALF_EYE + 1600.0 * 30.0 - TAPER - BACK_LAND;
    assert_relative_eq!(fit.moved_mm3, left, max_relative = 0.03);
    let none = least_forging(
        &solid,
        &causes(&solid, &mass_properties(&solid)),
        design.density,
        &design.bar,
        &[square(0.0)],
    );
    let sentences: Vec<String> = none
        .expect_err("no bar")
        .iter()
        .map(ToString::to_string)
        .collect();
    assert_eq!(
        sentences,
        ["The bar’s side is 0 mm. It must be at least 5 mm and at most 300 mm."]
    );
}

#[test]
fn steel_grows_as_the_formula_says_by_hand() {
    for (celsius, expected) in [
        (20.0, 0.0),
        // 0.0012 + 0.00004 − 0.0002416
        (100.0, 0.000_998_4),
        // 0.006 + 0.001 − 0.0002416
        (500.0, 0.006_758_4),
        (749.999_999, 0.011_008_4),
        (750.0, 0.011),
        (860.0, 0.011),
        (900.0, 0.0118),
        (1000.0, 0.0138),
        (1200.0, 0.0178),
    ] {
        let off: f64 = growth(celsius).expect("a heat") - expected;
        assert!(off.abs() < 1e-10, "{celsius} °C is off by {off:e}");
    }
    // What was remembered of mean coefficients lies within the uncertainty stated.
    for (celsius, remembered) in [
        (900.0, 0.012),
        (1000.0, 0.014),
        (1100.0, 0.016),
        (1200.0, 0.0175),
    ] {
        let off: f64 = growth(celsius).expect("a heat") / remembered - 1.0;
        assert!(off.abs() < GROWTH_UNCERTAINTY, "{celsius} °C");
    }
    // On its way to austenite a steel lies on either line of the formula, each carried on.
    for celsius in (700..=900).map(f64::from) {
        let before = 1.2e-5 * celsius + 0.4e-8 * celsius * celsius - 2.416e-4;
        let after = 2e-5 * celsius - 6.2e-3;
        let known = growth(celsius).expect("a heat");
        for line in [before, after] {
            let off = (line / known - 1.0).abs();
            assert!(off < growth_uncertainty(celsius), "{celsius} °C: {off}");
        }
    }
    assert_eq!(growth_uncertainty(950.0), GROWTH_UNCERTAINTY);
    for celsius in [19.9, 1200.1, -300.0, f64::INFINITY] {
        assert_eq!(growth(celsius), Err(HotError::Temperature { celsius }));
    }
    assert!(growth(f64::NAN).is_err());
}

#[test]
fn every_length_of_a_design_has_a_hot_size_and_no_angle_has() {
    for design in starter_names().filter_map(starter) {
        let hot = hot_sizes(&design, 1000.0).expect("a heat");
        let lengths: Vec<_> = design
            .sizes()
            .into_iter()
            .filter_map(|(dim, size)| match size {
                Measure::Length(length) => Some((dim, length)),
                Measure::Angle(_) => None,
            })
            .collect();
        assert_eq!(hot.sizes.len(), lengths.len());
        for (size, (dim, cold)) in hot.sizes.iter().zip(lengths) {
            assert_eq!((size.dim, size.cold), (dim, cold));
            assert_relative_eq!(
                size.hot.in_mm(),
                1.0138 * cold.in_mm(),
                max_relative = ROUNDOFF
            );
        }
    }
}
