//! The drifts through the public path: sections, rims, walls, depths, the last profile, and every refusal.

use std::f64::consts::PI;

use approx::assert_relative_eq;
use expect_test::{Expect, expect};
use headwright::bar::{Bar, Punch};
use headwright::design::{Design, Edit, starter, starter_names};
use headwright::drift::{
    CAUTIONS, DriftError, Drifting, MOST_DRIFTS, Opening, Plan, Steps, plan, profile_svg,
};
use headwright::solid::{LEAST_WALL, Plug, Solid};
use headwright::units::{Length, Measure, System};
use proptest::prelude::*;
use proptest::test_runner::RngSeed;

#[allow(dead_code, reason = "only the sound designs are drawn here")]
mod common;
#[path = "drift/hot.rs"]
mod hot;
#[path = "drift/own.rs"]
mod own;
#[path = "drift/profile.rs"]
mod profile;
#[path = "drift/punch.rs"]
mod punch;

use profile::check_profile;

/// A starter with other sizes.
#[track_caller]
fn head(name: &str, sizes: &[(&str, &str)]) -> Solid {
    let mut design = starter(name).expect("a starter");
    for (dim, text) in sizes {
        let dim = dim.parse().expect("a dimension");
        let size: Measure = text.parse().expect("a size");
        design = design
            .apply(Edit::Alike(dim, false))
            .apply(Edit::set(dim, size));
    }
    design.build().expect("a sound head")
}

fn slot(length: f64, width: f64) -> Drifting {
    Drifting {
        opening: Some(Opening::Punched(Punch::Obround {
            length: Length::mm(length),
            width: Length::mm(width),
        })),
        ..Drifting::default()
    }
}

fn slit(length: f64, width: f64) -> Drifting {
    Drifting {
        opening: Some(Opening::Slit {
            length: Length::mm(length),
            width: Length::mm(width),
        }),
        ..Drifting::default()
    }
}

fn in_steps(count: u8, drifting: Drifting) -> Drifting {
    Drifting {
        steps: Steps::Count(count),
        ..drifting
    }
}

/// A bar that says nothing of a punch.
fn unpunched() -> Bar {
    Bar {
        losses: Vec::new(),
        ..Bar::default()
    }
}

/// At this heat nothing has grown, °C: what is worked by hand is worked for a cold eye.
const COLD: f64 = 20.0;

#[track_caller]
fn planned(solid: &Solid, drifting: &Drifting) -> Plan {
    plan(solid, &unpunched(), drifting, COLD).expect("drifts")
}

/// The eye before its mouths are broken.
fn eye(solid: &Solid) -> Plug<f64> {
    Plug {
        mouth_break: None,
        ..solid.head().eye
    }
}

fn obround_rim(length: f64, width: f64) -> f64 {
    2.0 * (length - width) + PI * width
}

/// Perimeter of an ellipse by the trapezoidal rule, which converges on a periodic integrand faster than any power.
fn ellipse_rim(length: f64, width: f64) -> f64 {
    const STEPS: u32 = 4000;
    let speed = |step: u32| {
        let (sine, cosine) = (2.0 * PI * f64::from(step) / f64::from(STEPS)).sin_cos();
        (0.5 * length * sine).hypot(0.5 * width * cosine)
    };
    (0..STEPS).map(speed).sum::<f64>() * 2.0 * PI / f64::from(STEPS)
}

#[test]
fn a_slit_as_long_as_the_rim_of_the_waist_keeps_its_perimeter() {
    for (name, length, width, rim) in [
        ("rounding", 28.0, 19.0, obround_rim as fn(f64, f64) -> f64),
        ("light", 22.0, 14.0, ellipse_rim),
    ] {
        let solid = head(name, &[]);
        let long = planned(&solid, &Drifting::default()).slit_length_mm;
        let waist = rim(length, width);
        assert_relative_eq!(obround_rim(long, 3.0), waist, max_relative = 1e-12);
        let count = 4;
        let opened = planned(&solid, &in_steps(count, slit(long, 3.0)));
        assert_eq!(opened.drifts.len(), usize::from(count));
        for (number, drift) in (1..).zip(&opened.drifts) {
            let section = drift.section;
            assert_relative_eq!(drift.perimeter_mm, waist, max_relative = 1e-12);
            assert_relative_eq!(
                rim(section.length_mm, section.width_mm),
                waist,
                max_relative = 1e-11
            );
            assert!(drift.stretch_percent.abs() < 1e-9);
            // From 3 mm in four equal steps.
            let expected = 3.0 + (width - 3.0) * f64::from(number) / 4.0;
            assert_relative_eq!(section.width_mm, expected, max_relative = 1e-12);
        }
        let lengths: Vec<f64> = opened.drifts.iter().map(|d| d.section.length_mm).collect();
        assert!(lengths.is_sorted_by(|a, b| a > b), "{lengths:?}");
    }
}

#[test]
fn a_shorter_slit_is_stretched_alike_by_every_drift() {
    let opened = planned(&head("rounding", &[]), &in_steps(3, slit(30.0, 3.0)));
    let (first, last) = (obround_rim(30.0, 3.0), obround_rim(28.0, 19.0));
    let each = 100.0 * ((last / first).cbrt() - 1.0);
    for drift in &opened.drifts {
        assert_relative_eq!(drift.stretch_percent, each, max_relative = 1e-9);
    }
    // Bent open, the slit lets its drifts through although they are longer than the waist.
    assert!(opened.drifts[0].section.length_mm > 28.0);
    assert_eq!(opened.drifts[0].top.expect("goes in").mark_mm, None);
}

#[test]
fn a_punched_slot_grows_by_equal_ratios() {
    let opened = planned(&head("rounding", &[]), &in_steps(3, slot(25.0, 6.0)));
    let mut before = (25.0, 6.0);
    for drift in &opened.drifts {
        let now = (drift.section.length_mm, drift.section.width_mm);
        assert_relative_eq!(
            now.0 / before.0,
            (28.0_f64 / 25.0).cbrt(),
            max_relative = 1e-12
        );
        assert_relative_eq!(
            now.1 / before.1,
            (19.0_f64 / 6.0).cbrt(),
            max_relative = 1e-12
        );
        let stretch = obround_rim(now.0, now.1) / obround_rim(before.0, before.1) - 1.0;
        assert_relative_eq!(drift.stretch_percent, 100.0 * stretch, max_relative = 1e-9);
        before = now;
    }
    // The last one opens the mouths too, 30 × 21.
    let last = &opened.drifts[2];
    let from = opened.drifts[1].perimeter_mm;
    assert_relative_eq!(
        last.stretch_at_mouth_percent,
        100.0 * (obround_rim(30.0, 21.0) / from - 1.0),
        max_relative = 1e-9
    );
    assert_eq!(last.corner_mm, [9.5, 9.5]);
}

#[test]
fn a_series_is_as_short_as_no_drift_is_asked_too_much() {
    let solid = head("rounding", &[]);
    let drifts = |drifting: &Drifting| planned(&solid, drifting).drifts.len();
    // ln(19/6) / ln 1.5 = 2.84.
    assert_eq!(drifts(&slot(25.0, 6.0)), 3);
    // (19 − 3) / 8 = 2, (19 − 2.9) / 8 = 2.01.
    assert_eq!(drifts(&slit(36.0, 3.0)), 2);
    assert_eq!(drifts(&slit(36.0, 2.9)), 3);
    assert_eq!(drifts(&slot(28.0, 19.0)), 1);
    let gentle = Drifting {
        steps: Steps::Most {
            ratio: 1.2,
            step: Length::mm(8.0),
        },
        ..slot(25.0, 6.0)
    };
    // ln(19/6) / ln 1.2 = 6.32.
    assert_eq!(drifts(&gentle), 7);
}

#[test]
fn a_round_slot_gives_round_drifts() {
    let round = |mm: &'static str| [("eye.top.length", mm), ("eye.bottom.length", mm)];
    let mut design = starter("light").expect("a starter");
    design.eye.outline = headwright::design::EyeOutline::Round;
    for level in [
        &mut design.eye.top,
        &mut design.eye.waist,
        &mut design.eye.bottom,
    ] {
        *level = headwright::design::EyeLevel {
            length: Length::mm(18.0),
            width: None,
            radius: None,
        };
    }
    for (dim, text) in round("20 mm") {
        let size: Measure = text.parse().expect("a size");
        design = design.apply(Edit::set(dim.parse().expect("a dimension"), size));
    }
    let solid = design.build().expect("a sound head");
    let drifting = Drifting {
        opening: Some(Opening::Punched(Punch::Round {
            diameter: Length::mm(8.0),
        })),
        ..Drifting::default()
    };
    let opened = planned(&solid, &drifting);
    assert_eq!(opened.drifts.len(), 2);
    for (drift, diameter) in opened.drifts.iter().zip([12.0, 18.0]) {
        assert_relative_eq!(drift.section.length_mm, diameter, max_relative = 1e-12);
        assert_relative_eq!(drift.section.width_mm, diameter, max_relative = 1e-12);
        assert_relative_eq!(drift.perimeter_mm, PI * diameter, max_relative = 1e-12);
    }
}

#[test]
fn the_walls_of_a_lopsided_head_lie_between_the_limits_worked_by_hand() {
    let sizes = [
        ("eye.waist_height", "3 mm"),
        ("eye.top.width", "22 mm"),
        ("eye.bottom.width", "20 mm"),
    ];
    let solid = head("rounding", &sizes);
    let opened = planned(&solid, &in_steps(2, slot(24.0, 6.0)));
    // 42 mm cheeks, slot 6 mm: 18 mm of wall.
    assert_relative_eq!(opened.opening.wall_mm, 18.0, max_relative = 1e-12);
    assert_eq!(opened.opening.outer_width_mm, 42.0);
    let [first, last] = &opened.drifts[..] else {
        panic!("two drifts");
    };
    let between = (6.0_f64 * 19.0).sqrt();
    assert_relative_eq!(
        first.wall_outer_kept_mm,
        0.5 * (42.0 - between),
        max_relative = 1e-12
    );
    assert_relative_eq!(
        first.outer_width_sideways_mm,
        42.0 + between - 6.0,
        max_relative = 1e-12
    );
    // The cheeks end at z = ±15; the eye is 19 + 3·12/18 = 21 mm wide at the upper, 19 + 18/24 at the lower one.
    assert_relative_eq!(last.wall_outer_kept_mm, 10.5, max_relative = 1e-12);
    // Widest at the top mouth: 22 − 6 = 16 mm pushed aside.
    assert_relative_eq!(last.outer_width_sideways_mm, 58.0, max_relative = 1e-12);
    for drift in [first, last] {
        assert_relative_eq!(drift.wall_sideways_mm, 18.0, max_relative = 1e-12);
        assert!(drift.wall_outer_kept_mm < drift.wall_sideways_mm);
    }
}

#[test]
fn a_leaning_opening_comes_nearer_to_one_cheek() {
    let solid = head("rounding", &[("cheeks.width", "46 mm")]);
    let mut design = starter("rounding").expect("a starter");
    design.cheeks.outline.width = Length::mm(46.0);
    design.eye.cock_across = Some(headwright::units::Angle::degrees(4.0));
    let leaning = design.build().expect("a sound head");
    let drifting = in_steps(2, slot(24.0, 6.0));
    let wall = |solid: &Solid| planned(solid, &drifting).drifts[0].wall_outer_kept_mm;
    let limit = solid.head().cheek_limit();
    let nearer = limit * 4f64.to_radians().tan();
    assert_relative_eq!(wall(&leaning), wall(&solid) - nearer, max_relative = 1e-9);
    let notes = planned(&leaning, &drifting).notes;
    assert_eq!(
        notes[0].to_string(),
        "The eye leans 0° along the head and 4° across it: lean the drift alike. Sizes hold in planes level with the \
         head, depths square to them; measured square to the drift sizes are up to 0.2 % smaller."
    );
}

#[test]
fn a_piece_narrower_than_the_cheeks_is_warned_of() {
    let solid = head("rounding", &[]);
    let narrow = Drifting {
        outer_width: Some(Length::mm(32.0)),
        ..in_steps(2, slot(24.0, 6.0))
    };
    let opened = planned(&solid, &narrow);
    assert_relative_eq!(opened.opening.wall_mm, 13.0, max_relative = 1e-12);
    let notes: Vec<String> = opened.notes.iter().map(ToString::to_string).collect();
    // (32 − 19 − 2·15/21) / 2 at the cheeks' ends.
    assert_eq!(
        notes,
        [
            "With the outer width kept, drift 2 leaves a cheek wall of 5.79 mm, less than 6 mm. Let the cheeks bulge and \
          forge them back, or begin with a wider piece."
        ]
    );
}

#[test]
fn drifts_smaller_than_the_waist_go_through_and_the_last_stops_at_its_mark() {
    let opened = planned(&head("rounding", &[]), &Drifting::default());
    let (last, before) = opened.drifts.split_last().expect("drifts");
    for drift in before {
        for depth in [drift.top, drift.bottom] {
            let depth = depth.expect("goes in");
            assert_eq!(depth.mark_mm, None);
            assert_eq!(depth.at_waist, drift.section);
        }
    }
    let depth = last.top.expect("goes in");
    assert_eq!(depth.mark_mm, Some(0.0));
    assert_eq!(
        (depth.at_mouth.length_mm, depth.at_mouth.width_mm),
        (30.0, 21.0)
    );
    assert_eq!(
        (depth.at_waist.length_mm, depth.at_waist.width_mm),
        (28.0, 19.0)
    );
}

#[test]
fn the_bolsters_hole_is_the_punch_and_the_clearance_on_each_side() {
    let solid = head("rounding", &[]);
    let drifting = Drifting {
        clearance: Length::mm(1.5),
        ..slot(25.0, 6.0)
    };
    let hole = planned(&solid, &drifting)
        .bolster
        .expect("a punched slot")
        .hole;
    assert_eq!((hole.length_mm, hole.width_mm), (28.0, 9.0));
    // A slit is cut, not punched.
    assert_eq!(planned(&solid, &slit(36.0, 3.0)).bolster, None);
}

#[track_caller]
fn check_refused(drifting: &Drifting, expected: &Expect) {
    let errors = plan(&head("rounding", &[]), &unpunched(), drifting, COLD).expect_err("refused");
    let sentences: Vec<String> = errors.iter().map(DriftError::to_string).collect();
    expected.assert_eq(&sentences.join("\n"));
}

#[test]
fn what_is_out_of_bounds_is_refused_with_value_and_limit() {
    check_refused(
        &slot(31.0, 19.5),
        &expect![[r#"
            The opening is 31 mm long, but the eye only 28 mm at its narrowest, hot. Begin with a smaller opening.
            The opening is 19.5 mm wide, but the eye only 19 mm at its narrowest, hot. Begin with a smaller opening."#]],
    );
    check_refused(
        &slot(6.0, 12.0),
        &expect!["The opening is 6 mm long and 12 mm wide. Its length must be at least its width."],
    );
    check_refused(
        &slit(40.0, 3.0),
        &expect![
            "The slit is 40 mm long: bent open, its rim of 83.42 mm makes an eye larger than the hot waist’s 77.69 mm. Cut a slit of at most 37.13 mm."
        ],
    );
    check_refused(
        &slot(25.0, 0.1),
        &expect!["The opening’s width is 0.1 mm. It must be at least 0.5 mm and at most 150 mm."],
    );
    check_refused(
        &in_steps(0, slot(25.0, 6.0)),
        &expect!["The series has 0 drifts. It must have at least 1 and at most 12."],
    );
    let small_steps = Drifting {
        steps: Steps::Most {
            ratio: 1.05,
            step: Length::mm(0.0),
        },
        ..slot(25.0, 6.0)
    };
    check_refused(
        &small_steps,
        &expect![
            "The most that one drift opens a slit is 0 mm. It must be at least 1 mm and at most 50 mm."
        ],
    );
    let many = Drifting {
        steps: Steps::Most {
            ratio: 1.05,
            step: Length::mm(8.0),
        },
        ..slot(25.0, 6.0)
    };
    check_refused(
        &many,
        &expect![
            "From the opening to the eye 24 drifts are needed, more than 12. Begin with a larger opening or let each drift open more."
        ],
    );
    let loose = Drifting {
        clearance: Length::mm(20.0),
        ..slot(25.0, 6.0)
    };
    check_refused(
        &loose,
        &expect![[r#"
            The hole of the bolster would be 65 mm long (the punch and 20 mm on each side), but the cheeks are only 42 mm long and would fall in. Use a smaller punch or less clearance.
            The hole of the bolster would be 46 mm wide (the punch and 20 mm on each side), but the cheeks are only 42 mm wide and would fall in. Use a smaller punch or less clearance."#]],
    );
    let nothing = Drifting {
        steps: Steps::Most {
            ratio: f64::NAN,
            step: Length::mm(8.0),
        },
        outer_width: Some(Length::mm(500.0)),
        ..Drifting::default()
    };
    check_refused(
        &nothing,
        &expect![[r#"
            The width of the piece across the eye is 500 mm. It must be at least 8 mm and at most 300 mm.
            The most growth of one drift is NaN times. It must be at least 1.05 and at most 4 times."#]],
    );
}

#[test]
fn every_starter_has_a_plan_that_nothing_is_wrong_with() {
    for name in starter_names() {
        let solid = head(name, &[]);
        let opened = planned(&solid, &Drifting::default());
        assert_eq!(opened.notes, [], "{name}");
        assert_eq!(opened.drifts.len(), 3, "{name}");
        for drift in &opened.drifts {
            assert!(drift.wall_outer_kept_mm >= LEAST_WALL, "{name}");
            assert!(drift.stretch_percent > 0.0, "{name}");
        }
        for (profile, from_top) in opened.profiles.iter().zip([true, false]) {
            check_profile(profile, &eye(&solid), from_top, 0.0101);
        }
        let slit = planned(&solid, &slit(opened.slit_length_mm, 3.0));
        assert!(slit.drifts.len() <= 4, "{name}");
    }
}

#[test]
fn what_a_head_is_drifted_with_can_be_kept_in_a_file() {
    let kept = Drifting {
        own: own::drifts(&[(20.0, 14.0, Some(0.08)), (26.0, 9.0, None)]),
        outer_width: Some(Length::mm(45.0)),
        ..slit(32.0, 3.0)
    };
    for drifting in [kept, Drifting::default(), in_steps(2, slot(25.0, 6.0))] {
        let text = serde_json::to_string(&drifting).expect("JSON");
        let back: Drifting = serde_json::from_str(&text).expect("the same");
        assert_eq!(back, drifting);
    }
    let written = r#"{"shape":"obround","length":"25 mm","width":"6 mm"}"#;
    let opening = slot(25.0, 6.0).opening.expect("a slot");
    assert_eq!(serde_json::to_string(&opening).expect("JSON"), written);
}

#[test]
fn the_cautions_name_punch_slug_and_scale() {
    for word in ["punch out", "cool", "slug", "Scale flies", "eye protection"] {
        assert!(
            CAUTIONS.iter().any(|caution| caution.contains(word)),
            "{word}"
        );
    }
}

/// Any number a field might hold, mostly a possible one.
fn size(most: f64) -> impl Strategy<Value = Length> + Clone {
    prop_oneof![
        60 => (0.5..most).prop_map(Length::mm),
        1 => (-10.0..400.0).prop_map(Length::mm),
        1 => Just(Length::mm(f64::NAN)),
    ]
}

fn opening() -> impl Strategy<Value = Option<Opening>> {
    (0u8..5, size(40.0), size(20.0)).prop_map(|(kind, length, width)| {
        Some(match kind {
            0 => return None,
            1 => Opening::Slit { length, width },
            2 => Opening::Punched(Punch::Round { diameter: width }),
            3 => Opening::Punched(Punch::Obround { length, width }),
            _ => Opening::Punched(Punch::Rectangle { length, width }),
        })
    })
}

fn drifting() -> impl Strategy<Value = Drifting> {
    let steps = prop_oneof![
        (0u8..14).prop_map(Steps::Count),
        (1.0..4.0, size(12.0)).prop_map(|(ratio, step)| Steps::Most { ratio, step }),
    ];
    let drift = (size(60.0), size(50.0), prop::option::of(0.0..0.3));
    (
        opening(),
        steps,
        prop_oneof![
            8 => prop::collection::vec(drift.clone(), 0..=4),
            1 => prop::collection::vec(drift, 0..=MOST_DRIFTS + 1),
        ],
        size(3.0),
        prop::option::of(size(80.0)),
    )
        .prop_map(|(opening, steps, own, clearance, outer_width)| Drifting {
            opening,
            steps,
            own: own
                .into_iter()
                .map(|(length, width, taper)| headwright::drift::OwnDrift {
                    length,
                    width,
                    taper,
                })
                .collect(),
            clearance,
            outer_width,
        })
}

#[track_caller]
fn check_finite(plan: &Plan) {
    let text = format!("{plan:?}");
    assert!(!text.contains("NaN") && !text.contains("inf"), "{text}");
    let svg = profile_svg(plan, System::Imperial);
    assert!(!svg.contains("NaN") && !svg.contains("inf"), "{svg}");
    let json = serde_json::to_string(plan).expect("JSON");
    assert!(!json.contains("NaN"));
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, rng_seed: RngSeed::Fixed(9), ..ProptestConfig::with_cases(1000) })]

    #[test]
    fn every_sound_design_has_drifts_and_any_other_wish_an_answer(
        design in common::sound_designs(),
        wished in drifting(),
    ) {
        check_design(&design, &wished);
    }
}

/// No drift may open a mouth or the waist further than the eye, but in length where it goes through a slit.
#[track_caller]
fn check_waist_stays(plan: &Plan, plug: &Plug<f64>) {
    const ROUNDOFF: f64 = 1e-9;
    let slit = plan.opening.shape == "slit";
    let own = plan.own.iter().flat_map(|own| &own.steps);
    let depths = own
        .map(|step| (step.top, step.bottom))
        .chain(plan.drifts.iter().map(|drift| (drift.top, drift.bottom)));
    for (top, bottom) in depths {
        for (depth, mouth) in [(top, plug.top), (bottom, plug.bottom)] {
            let Some(depth) = depth else { continue };
            for (size, level) in [(depth.at_mouth, mouth), (depth.at_waist, plug.waist)] {
                assert!(size.width_mm <= 2.0 * level.q + ROUNDOFF);
                assert!(slit || size.length_mm <= 2.0 * level.p + ROUNDOFF);
            }
        }
    }
    for drift in &plan.drifts {
        assert!(drift.wall_outer_kept_mm <= drift.wall_sideways_mm + ROUNDOFF);
    }
}

fn check_design(design: &Design, wished: &Drifting) {
    let solid = design.build().expect("a sound head");
    let usual = planned(&solid, &Drifting::default());
    check_finite(&usual);
    for (profile, from_top) in usual.profiles.iter().zip([true, false]) {
        check_profile(profile, &eye(&solid), from_top, 0.0101);
    }
    match plan(&solid, &Bar::default(), wished, COLD) {
        Ok(plan) => {
            check_finite(&plan);
            check_waist_stays(&plan, &eye(&solid));
        }
        Err(errors) => assert!(errors.iter().all(|error| error.to_string().ends_with('.'))),
    }
}
