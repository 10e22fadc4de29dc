//! Tilted blows and prints: closed forms, and the surface itself laid against flat work.

use std::f64::consts::FRAC_PI_2;

use approx::assert_relative_eq;
use expect_test::expect;
use headwright::design::{Design, Side};
use headwright::solid::{Cap, Pein, Section, Tip};
use headwright::swing::{Striker, Surface};
use headwright::units::System;
use proptest::prelude::*;
use proptest::test_runner::RngSeed;

use super::common::sound_designs;
use super::{solid, striker};

fn of(surface: Surface) -> Striker {
    Striker {
        surface,
        ..striker(Side::Front, [60.0, 0.0, 0.0])
    }
}

/// A crowned face 36 mm wide and 30 mm high.
fn face(crown_mm: Option<f64>) -> Striker {
    of(Surface::Face {
        crown_mm,
        outline: Section {
            a: 18.0,
            b: 15.0,
            c: 6.0,
            d: 6.0,
            w: 0.0,
        },
    })
}

/// A pein with an edge of 32 mm.
fn pein(degrees: f64, nose_mm: f64, rocker_mm: Option<f64>) -> Striker {
    of(Surface::Pein {
        direction: f64::to_radians(degrees),
        nose_mm,
        slope: 0.3,
        rocker_mm,
        half_edge_mm: 16.0,
    })
}

#[test]
fn a_crown_bears_the_tilt_whose_sine_is_its_half_size_over_its_radius() {
    let tilt = face(Some(120.0)).tilt();
    assert_relative_eq!(tilt.in_swing.sin(), 15.0 / 120.0, max_relative = 1e-14);
    assert_relative_eq!(tilt.about_handle.sin(), 18.0 / 120.0, max_relative = 1e-14);
    let flat = face(None).tilt();
    assert_eq!((flat.in_swing, flat.about_handle), (0.0, 0.0));
    let ball = of(Surface::Ball { radius_mm: 14.0 }).tilt();
    assert_eq!((ball.in_swing, ball.about_handle), (FRAC_PI_2, FRAC_PI_2));
}

#[test]
fn a_pein_bears_a_tilt_over_its_nose_and_little_along_its_edge() {
    let cross = pein(0.0, 4.0, Some(200.0)).tilt();
    assert_relative_eq!(cross.in_swing, FRAC_PI_2 - 0.3, max_relative = 1e-12);
    assert_relative_eq!(cross.about_handle.sin(), 16.0 / 200.0, max_relative = 1e-12);
    // A straight pein is the same turned by a right angle.
    let straight = pein(90.0, 4.0, Some(200.0)).tilt();
    assert_relative_eq!(straight.in_swing, cross.about_handle, max_relative = 1e-12);
    assert_relative_eq!(straight.about_handle, cross.in_swing, max_relative = 1e-12);
    // Without a rocker a cross pein bears no roll, a straight pein no lift of the butt, a diagonal one neither.
    assert_eq!(pein(0.0, 4.0, None).tilt().about_handle, 0.0);
    assert_eq!(pein(90.0, 4.0, None).tilt().in_swing, 0.0);
    let diagonal = pein(45.0, 4.0, None).tilt();
    assert_eq!((diagonal.in_swing, diagonal.about_handle), (0.0, 0.0));
    // Half-way between, both share the rocker: tan = √2 tan(asin(16/200)).
    let diagonal = pein(-45.0, 4.0, Some(200.0)).tilt();
    let expected = 2f64.sqrt() * 0.08f64.asin().tan();
    assert_relative_eq!(diagonal.in_swing.tan(), expected, max_relative = 1e-12);
    assert_relative_eq!(diagonal.about_handle.tan(), expected, max_relative = 1e-12);
}

#[test]
fn a_crown_prints_the_circle_of_its_cap() {
    // R 100 mm, depth 2 mm: half a chord of 19.8997 mm.
    let wide = of(Surface::Face {
        crown_mm: Some(100.0),
        outline: Section::circle(25.0),
    });
    let patch = wide.patch(2.0).expect("a print");
    assert_relative_eq!(patch.lengths_mm[0], 2.0 * 19.8997, epsilon = 2e-4);
    assert_eq!(patch.lengths_mm[0], patch.lengths_mm[1]);
    assert!(!patch.to_edge);
    // On the smaller face it is cut off by both edges.
    let cut = face(Some(100.0)).patch(2.0).expect("a print");
    assert_eq!((cut.lengths_mm, cut.to_edge), ([36.0, 30.0], true));
    let flat = face(None).patch(0.5).expect("a print");
    assert_eq!((flat.lengths_mm, flat.to_edge), ([36.0, 30.0], true));
    expect!["The print is 39.8 mm × 39.8 mm. It stays inside the edge."]
        .assert_eq(&patch.meaning(System::Metric));
    expect!["The print is 1 27/64 in × 1 3/16 in. It reaches the edge, which marks the work."]
        .assert_eq(&cut.meaning(System::Imperial));
}

#[test]
fn a_ball_prints_no_wider_than_itself() {
    let ball = of(Surface::Ball { radius_mm: 10.0 });
    let at = |depth| ball.patch(depth).expect("a print").lengths_mm[0];
    assert_relative_eq!(at(2.0), 12.0, max_relative = 1e-14);
    assert_eq!((at(10.0), at(15.0)), (20.0, 20.0));
}

#[test]
fn a_pein_prints_a_long_and_narrow_mark() {
    // Nose 5 mm, depth 1 mm: 2√(1·9) = 6 mm across; rocker 50 mm: 2√(1·99) mm along.
    let patch = pein(0.0, 5.0, Some(50.0)).patch(1.0).expect("a print");
    assert_relative_eq!(patch.lengths_mm[1], 6.0, max_relative = 1e-14);
    assert_relative_eq!(
        patch.lengths_mm[0],
        2.0 * 99f64.sqrt(),
        max_relative = 1e-14
    );
    assert!(!patch.to_edge);
    let straight = pein(0.0, 5.0, None).patch(1.0).expect("a print");
    assert_eq!((straight.lengths_mm[0], straight.to_edge), (32.0, true));
}

/// The farthest of `steps` points of an outline, u(s) for s up to `most`, towards a plane tilted by `angle`: its s.
fn first_to_touch(u: impl Fn(f64) -> f64, most: f64, angle: f64) -> f64 {
    const STEPS: u32 = 40_000;
    let (sin, cos) = angle.sin_cos();
    let heights = (0..=STEPS).map(|k| {
        let s = most * f64::from(k) / f64::from(STEPS);
        (s, u(s) * cos + s * sin)
    });
    heights
        .reduce(|best, next| if next.1 > best.1 { next } else { best })
        .map_or(0.0, |(s, _)| s)
}

/// u of a face on its middle line towards an edge at `half`, broken rim and all.
fn on_face(cap: &Cap<f64>, half: f64) -> impl Fn(f64) -> f64 {
    let cap = *cap;
    move |s| {
        let inset = half - s;
        let e = cap.edge;
        let broken = if inset >= e {
            0.0
        } else {
            match cap.rim {
                headwright::solid::Rim::Sharp => 0.0,
                headwright::solid::Rim::Chamfered => e - inset,
                headwright::solid::Rim::Rounded => e - (e * e - (e - inset).powi(2)).sqrt(),
            }
        };
        cap.reach - cap.sag(s * s) - broken
    }
}

fn check_face(cap: &Cap<f64>, half: f64, limit: f64) -> Result<(), TestCaseError> {
    let edge = half - cap.edge;
    if limit > 1e-3 {
        let touch = first_to_touch(on_face(cap, half), half, 0.98 * limit);
        prop_assert!(touch < edge, "{touch} before {edge}");
    }
    let touch = first_to_touch(on_face(cap, half), half, 1.02 * limit + 1e-3);
    prop_assert!(touch > 0.995 * edge, "{touch} beyond {edge}");
    Ok(())
}

/// A pein without hollow, across its edge in the middle of it.
fn check_nose(pein: &Pein<f64>, limit: f64) -> Result<(), TestCaseError> {
    let [tangent, there] = pein.tangent;
    // By its angle on the nose, then down the slope: s is the half-thickness.
    let u = |s: f64| {
        if s <= there {
            pein.nose_centre() + (pein.nose * pein.nose - s * s).max(0.0).sqrt()
        } else {
            let share = (s - there) / (pein.root - there);
            tangent + (pein.start - tangent) * share
        }
    };
    let touch = first_to_touch(u, pein.root, 0.98 * limit);
    prop_assert!(touch <= there, "{touch} on the nose up to {there}");
    let beyond = limit + 0.02 * (FRAC_PI_2 - limit);
    let touch = first_to_touch(u, pein.root, beyond);
    prop_assert!(touch > 0.99 * there, "{touch} beyond {there}");
    Ok(())
}

fn check_design(design: &Design) -> Result<(), TestCaseError> {
    let solid = design.build().expect("drawn sound");
    for side in Side::BOTH {
        let tilt = Striker::of(&solid, side).tilt();
        match &solid.head().end(side).tip {
            Tip::Face(cap) => {
                check_face(cap, cap.outline.b, tilt.in_swing)?;
                check_face(cap, cap.outline.a, tilt.about_handle)?;
            }
            Tip::Pein(pein) if pein.direction[1] == 0.0 && pein.hollow == 0.0 => {
                check_nose(pein, tilt.in_swing)?;
            }
            Tip::Ball(_) | Tip::Pein(_) => {}
        }
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig {
        cases: 200,
        rng_seed: RngSeed::Fixed(13),
        failure_persistence: None,
        ..ProptestConfig::default()
    })]

    #[test]
    fn up_to_its_tilt_a_face_or_a_nose_touches_before_its_edge_and_beyond_it_does_not(design in sound_designs()) {
        check_design(&design)?;
    }
}

#[test]
fn a_pein_of_a_head_prints_what_its_definition_says_at_that_depth() {
    let mut seen = 0;
    for name in headwright::design::starter_names() {
        let solid = solid(name);
        for side in Side::BOTH {
            let Tip::Pein(pein) = &solid.head().end(side).tip else {
                continue;
            };
            if pein.hollow > 0.0 {
                continue;
            }
            seen += 1;
            for depth in [0.2, 1.0, 3.0, 8.0] {
                let patch = Striker::of(&solid, side).patch(depth).expect("a print");
                let expected = 2.0 * pein.thickness(pein.reach - depth);
                assert_relative_eq!(patch.lengths_mm[1], expected, max_relative = 1e-9);
            }
        }
    }
    assert!(seen > 0, "no starter has a plain pein");
}
