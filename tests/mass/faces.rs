//! Areas of what strikes, against closed forms.

use std::f64::consts::PI;

use approx::assert_relative_eq;
use headwright::design::{Ball, Corner, Design, Edge, Outline, Pein, Side, Tip};
use headwright::mass::{causes, face_area, mass_properties, surface_area};
use headwright::solid;
use headwright::units::Angle;

use super::{ROUNDOFF, face, mm, plain, with_front};

#[track_caller]
fn front_area(design: &Design) -> f64 {
    face_area(&design.build().expect("sound"), Side::Front)
}

#[test]
fn a_round_crowned_face_has_the_area_of_its_zone() {
    // Radius 18 mm on a crown of 90 mm: h = 90 − √(90² − 18²), zone 2πRh.
    let outline = Outline::equal(mm(36.0), Corner::Round);
    let crowned = with_front(face(outline.clone(), 10.0, Some(90.0), Edge::Sharp), 60.0);
    let h = 90.0 - (90.0_f64.powi(2) - 18.0_f64.powi(2)).sqrt();
    assert_relative_eq!(
        front_area(&crowned),
        2.0 * PI * 90.0 * h,
        max_relative = ROUNDOFF
    );
    // Flat it is a disc; with a chamfer of 2 mm a smaller disc and the cone around it, √2 · 2 mm of slope.
    let flat = with_front(face(outline.clone(), 10.0, None, Edge::Sharp), 60.0);
    assert_relative_eq!(front_area(&flat), PI * 18.0 * 18.0, max_relative = ROUNDOFF);
    let chamfered = face(outline, 10.0, None, Edge::Chamfered(mm(2.0)));
    let cone = PI * (18.0 + 16.0) * 8.0_f64.sqrt();
    assert_relative_eq!(
        front_area(&with_front(chamfered, 60.0)),
        PI * 256.0 + cone,
        max_relative = ROUNDOFF
    );
}

#[test]
fn a_ball_strikes_with_its_outer_half() {
    let ball = Tip::Ball(Ball {
        diameter: mm(34.0),
        neck: mm(26.0),
    });
    assert_relative_eq!(
        front_area(&with_front(ball, 70.0)),
        2.0 * PI * 17.0 * 17.0,
        max_relative = ROUNDOFF
    );
}

fn pein(rocker: Option<f64>, corner_break: Option<f64>) -> Tip {
    Tip::Pein(Pein {
        at: mm(24.0),
        outline: Outline::equal(mm(40.0), Corner::Sharp),
        direction: Angle::degrees(0.0),
        edge: mm(40.0),
        nose: mm(5.0),
        rocker: rocker.map(mm),
        hollow: None,
        corner_break: corner_break.map(mm),
    })
}

#[test]
fn a_straight_nose_has_the_area_of_its_part_of_a_cylinder() {
    // From x = 24, half of 20 mm high, to a circle of 5 mm about x = 65: the slope leans by
    // atan(20/41) − asin(5/√(41² + 20²)), and so the nose turns through a right angle less that, twice.
    let lean = (20.0_f64 / 41.0).atan() - (5.0 / 41.0_f64.hypot(20.0)).asin();
    let area = 2.0 * (0.5 * PI - lean) * 5.0 * 40.0;
    let straight = front_area(&with_front(pein(None, None), 70.0));
    assert_relative_eq!(straight, area, max_relative = ROUNDOFF);
    // A rocker only shortens it a little towards its ends; broken corners take some away.
    let rocked = front_area(&with_front(pein(Some(120.0), None), 70.0));
    assert!(
        rocked < 1.01 * area && rocked > 0.95 * area,
        "{rocked} {area}"
    );
    let broken = front_area(&with_front(pein(None, Some(3.0)), 70.0));
    assert!(broken < area && broken > 0.9 * area, "{broken} {area}");
}

#[test]
fn a_nose_with_broken_corners_has_the_area_that_a_fine_sum_gives() {
    let broken = with_front(pein(None, Some(3.0)), 70.0);
    let solid = broken.build().expect("sound");
    let solid::Tip::Pein(nose) = &solid.head().end(Side::Front).tip else {
        panic!("a pein");
    };
    let last = ((nose.tangent[0] - nose.nose_centre()) / nose.nose).acos();
    let steps = 200_000;
    let step = last / f64::from(steps);
    let sum: f64 = (0..steps)
        .map(|k| (f64::from(k) + 0.5) * step)
        .map(|phi| nose.limit(nose.nose_centre() + nose.nose * phi.cos()))
        .sum();
    assert_relative_eq!(
        front_area(&broken),
        4.0 * nose.nose * sum * step,
        max_relative = 1e-6
    );
}

#[test]
fn what_causes_losses_is_what_the_solid_has() {
    let solid = plain().build().expect("sound");
    let weighed = mass_properties(&solid);
    let got = causes(&solid, &weighed);
    assert_eq!((got.head_kg, got.eye_kg), (weighed.mass, weighed.eye_mass));
    assert_eq!(got.surface_mm2, surface_area(&solid));
    assert_relative_eq!(got.face_mm2[0], 1600.0, max_relative = ROUNDOFF);
    assert_relative_eq!(got.face_mm2[1], 1600.0, max_relative = ROUNDOFF);
    assert_relative_eq!(got.eye_height_mm, 40.0, max_relative = ROUNDOFF);
    // The waist is the narrowest, and the mouths of another eye are.
    let eye = &solid.head().eye;
    assert_eq!(got.eye_mm, [2.0 * eye.waist.p, 2.0 * eye.waist.q]);
    let mut waisted = plain();
    waisted.eye.top.length = mm(26.0);
    waisted.eye.bottom.width = Some(mm(20.0));
    let solid = waisted.build().expect("sound");
    assert_eq!(
        causes(&solid, &mass_properties(&solid)).eye_mm,
        [26.0, 20.0]
    );
}
