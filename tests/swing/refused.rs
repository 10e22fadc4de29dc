//! Tools and blows that nothing is worked out for, each with its sentence.

use expect_test::{Expect, expect};
use headwright::design::Side;
use headwright::swing::{
    Asked, Body, Drive, FreeBody, Held, Striker, Surface, SwingError, Tool, tool,
};
use headwright::units::System;

use super::{block_on_a_rod, cuboid, elliptic, striker, upright};

fn sentences(errors: &[SwingError], system: System) -> String {
    let sentences = errors.iter().map(|error| error.sentence(system));
    sentences.collect::<Vec<_>>().join("\n")
}

#[track_caller]
fn check_refused<T>(result: Result<T, Vec<SwingError>>, metric: Expect, imperial: Expect) {
    let errors = result.err().expect("it must be refused");
    metric.assert_eq(&sentences(&errors, System::Metric));
    imperial.assert_eq(&sentences(&errors, System::Imperial));
    let shown: Vec<String> = errors.iter().map(ToString::to_string).collect();
    assert_eq!(shown.join("\n"), sentences(&errors, System::Metric));
}

fn head() -> Body {
    cuboid(1.2, [4.0, 0.0, 1.0], [110.0, 40.0, 44.0])
}

fn rod() -> Body {
    elliptic(0.2, -150.0, 360.0, [14.0, 10.0])
}

fn ends() -> [Striker; 2] {
    [
        striker(Side::Front, [59.0, 0.0, 2.0]),
        striker(Side::Back, [-51.0, 0.0, -3.0]),
    ]
}

fn made(head: &Body, held: &Held, ends: &[Striker; 2]) -> Result<Tool, Vec<SwingError>> {
    tool(head, &rod(), held, ends)
}

#[test]
fn a_body_that_cannot_be_is_refused() {
    let held = upright(-280.0, -330.0);
    let nothing = Body {
        mass_kg: 0.0,
        centroid_mm: [0.0, f64::NAN, 0.0],
        inertia_kg_mm2: [[f64::INFINITY; 3]; 3],
    };
    check_refused(
        made(&nothing, &held, &ends()),
        expect![[r#"
        The head weighs 0.0 g. It must weigh at least 5.0 g and at most 200.000 kg.
        The head has a coordinate of NaN mm. It must lie within 3000 mm of the middle of the eye.
        The head’s moments of inertia are not those of a body: each principal moment must be above zero and at most the sum of the other two. Weigh it again."#]],
        expect![[r#"
        The head weighs 0.0 oz. It must weigh at least 0.2 oz and at most 440 lb 14.8 oz.
        The head has a coordinate of NaN in. It must lie within 118.110 in of the middle of the eye.
        The head’s moments of inertia are not those of a body: each principal moment must be above zero and at most the sum of the other two. Weigh it again."#]],
    );
    // More about z than about x and y together, and a tensor that is not symmetric.
    let mut flat = head();
    flat.inertia_kg_mm2[2][2] = flat.inertia_kg_mm2[0][0] + flat.inertia_kg_mm2[1][1] + 1.0;
    let mut skew = head();
    skew.inertia_kg_mm2[0][1] = 5.0;
    let mut negative = head();
    negative.inertia_kg_mm2[0][0] = -1.0;
    for body in [flat, skew, negative] {
        let errors = made(&body, &held, &ends()).expect_err("no body");
        assert_eq!(errors, [SwingError::Inertia { of: "head" }]);
    }
    // A line has no inertia about itself, so that nothing can be divided by it.
    let mut line = elliptic(0.2, 0.0, 300.0, [1.0, 1.0]);
    line.inertia_kg_mm2[2][2] = 0.0;
    line.inertia_kg_mm2[1][1] = line.inertia_kg_mm2[0][0];
    assert_eq!(
        FreeBody::new(&line, "rod").err(),
        Some(vec![SwingError::Inertia { of: "rod" }])
    );
}

#[test]
fn a_tool_that_cannot_be_held_is_refused() {
    // Held 10 mm below the middle of the eye, the balance point 20.57 mm below it and the back 3 mm.
    check_refused(
        made(&head(), &upright(-10.0, -330.0), &ends()),
        expect![[r#"
            The tool balances 10.57 mm behind the grip. Hold it at least 10 mm behind its balance point.
            The blow of the back passes 7 mm before the grip. It must pass at least 10 mm before it."#]],
        expect![[r#"
            The tool balances 0.416 in behind the grip. Hold it at least 0.394 in behind its balance point.
            The blow of the back passes 0.276 in before the grip. It must pass at least 0.394 in before it."#]],
    );
    check_refused(
        made(&head(), &upright(-340.0, -330.0), &ends()),
        expect![
            "The grip is 10 mm beyond the butt. It must lie on the handle, between the butt and the eye, which is 330 mm from it."
        ],
        expect![
            "The grip is 0.394 in beyond the butt. It must lie on the handle, between the butt and the eye, which is 12.992 in from it."
        ],
    );
    for axis in [
        [0.0; 3],
        [0.0, 0.0, -1.0],
        [1.0, 0.0, 0.9],
        [1.0, 0.0, 0.0],
        [f64::NAN, 0.0, 1.0],
        [f64::INFINITY, 0.0, 1.0],
    ] {
        let held = Held {
            axis,
            ..upright(-280.0, -330.0)
        };
        let errors = made(&head(), &held, &ends()).expect_err("no axis");
        assert_eq!(errors, [SwingError::Axis], "{axis:?}");
    }
    expect!["The handle’s axis must point from the butt to the head and lean at most 45° from square to the head."].assert_eq(&SwingError::Axis.to_string());
}

#[test]
fn what_cannot_strike_is_refused() {
    let held = upright(-280.0, -330.0);
    let [mut front, mut back] = ends();
    front.point_mm[2] = -4000.0;
    back.surface = Surface::Pein {
        direction: f64::NAN,
        nose_mm: 0.0,
        slope: 1.7,
        rocker_mm: Some(f64::INFINITY),
        half_edge_mm: -2.0,
    };
    check_refused(
        made(&head(), &held, &[front, back]),
        expect![[r#"
            The front face has a coordinate of −4000 mm. It must lie within 3000 mm of the middle of the eye.
            The nose radius of the back is 0 mm. It must be above 0 and at most 100000 mm.
            The half edge of the back is −2 mm. It must be above 0 and at most 100000 mm.
            The rocker radius of the back is inf mm. It must be above 0 and at most 100000 mm.
            The back pein’s edge must be turned by at most 180°, and its slope must stand at least 0° and less than 90° from its middle."#]],
        expect![[r#"
            The front face has a coordinate of −157.480 in. It must lie within 118.110 in of the middle of the eye.
            The nose radius of the back is 0 in. It must be above 0 and at most 3937.008 in.
            The half edge of the back is −0.079 in. It must be above 0 and at most 3937.008 in.
            The rocker radius of the back is inf in. It must be above 0 and at most 3937.008 in.
            The back pein’s edge must be turned by at most 180°, and its slope must stand at least 0° and less than 90° from its middle."#]],
    );
    let [front, back] = ends();
    let errors = made(&head(), &held, &[back, front]).expect_err("turned");
    assert_eq!(errors, [SwingError::Sides]);
    let behind = Striker {
        point_mm: [59.0, 0.0, -275.0],
        ..front
    };
    check_refused(
        made(&head(), &held, &[behind, back]),
        expect![
            "The blow of the front passes 5 mm before the grip. It must pass at least 10 mm before it."
        ],
        expect![
            "The blow of the front passes 0.197 in before the grip. It must pass at least 0.394 in before it."
        ],
    );
}

#[test]
fn a_swing_out_of_bounds_is_refused() {
    let tool = block_on_a_rod();
    for (drive, asked) in [
        (Drive::HeadSpeed { m_per_s: 0.0 }, Asked::Speed),
        (Drive::HeadSpeed { m_per_s: 100.0 }, Asked::Speed),
        (Drive::HeadSpeed { m_per_s: f64::NAN }, Asked::Speed),
        (Drive::Energy { joules: -5.0 }, Asked::Energy),
    ] {
        let errors = tool.swing(Side::Front, drive).expect_err("refused");
        let [SwingError::OutOfBounds { asked: got, .. }] = errors.as_slice() else {
            panic!("{errors:?}");
        };
        assert_eq!(*got, asked);
    }
    let drive = Drive::HeadSpeed { m_per_s: 100.0 };
    check_refused(
        tool.swing(Side::Front, drive),
        expect![
            "The speed of the head is 100.0 m/s. It must be at least 0.1 m/s and at most 40.0 m/s."
        ],
        expect![
            "The speed of the head is 328.1 ft/s. It must be at least 0.3 ft/s and at most 131.2 ft/s."
        ],
    );
    let drive = Drive::TorqueThroughAngle {
        newton_metres: 0.0,
        degrees: 720.0,
    };
    check_refused(
        tool.swing(Side::Back, drive),
        expect![[r#"
        The torque about the grip is 0.0 N·m. It must be at least 0.1 N·m and at most 500.0 N·m.
        The angle of the swing is 720°. It must be at least 1° and at most 360°."#]],
        expect![[r#"
        The torque about the grip is 0.0 ft·lbf. It must be at least 0.1 ft·lbf and at most 368.8 ft·lbf.
        The angle of the swing is 720°. It must be at least 1° and at most 360°."#]],
    );
    let drive = Drive::Energy { joules: 5000.0 };
    check_refused(
        tool.swing(Side::Back, drive),
        expect![
            "The head would move at 86.8 m/s. Swings are worked out from 0.1 m/s to 40.0 m/s: change the torque, the angle or the energy."
        ],
        expect![
            "The head would move at 284.9 ft/s. Swings are worked out from 0.3 ft/s to 131.2 ft/s: change the torque, the angle or the energy."
        ],
    );
}

#[test]
fn a_blow_beside_the_face_and_a_print_too_deep_are_refused() {
    let tool = block_on_a_rod();
    assert!(tool.off_centre(Side::Front, [12.0, -16.0]).is_ok());
    check_refused(
        tool.off_centre(Side::Front, [15.0, -15.0]),
        expect![
            "A blow 15 mm across and −15 mm along the handle from the middle lands beside the striking surface of the front. In that direction it may land at most 20 mm from the middle."
        ],
        expect![
            "A blow 0.591 in across and −0.591 in along the handle from the middle lands beside the striking surface of the front. In that direction it may land at most 0.787 in from the middle."
        ],
    );
    assert!(tool.off_centre(Side::Front, [f64::NAN, 0.0]).is_err());
    assert!(tool.off_centre(Side::Front, [0.0, f64::INFINITY]).is_err());
    check_refused(
        ends()[0].patch(0.0),
        expect!["The depth in the work is 0 mm. It must be at least 0.05 mm and at most 20 mm."],
        expect![
            "The depth in the work is 0 in. It must be at least 0.002 in and at most 0.787 in."
        ],
    );
    assert!(ends()[1].patch(f64::NAN).is_err());
}

#[test]
fn a_blow_on_a_pein_may_leave_the_middle_as_far_as_nose_and_edge_go() {
    let [front, mut back] = ends();
    back.surface = Surface::Pein {
        direction: 30f64.to_radians(),
        nose_mm: 3.0,
        slope: 0.3,
        rocker_mm: None,
        half_edge_mm: 15.0,
    };
    let tool = made(&head(), &upright(-280.0, -330.0), &[front, back]).expect("a tool");
    let (sin, cos) = 30f64.to_radians().sin_cos();
    let at = |edge: f64, nose: f64| {
        let place = [edge * cos - nose * sin, edge * sin + nose * cos];
        tool.off_centre(Side::Back, place).is_ok()
    };
    assert!(at(14.9, 0.0) && at(-14.9, 0.0) && at(0.0, 2.9) && at(14.9, -2.9));
    assert!(!at(15.1, 0.0) && !at(0.0, -3.1) && !at(15.1, 2.9));
}
