//! Bodies and tools whose numbers are known.

use approx::assert_relative_eq;
use expect_test::expect;
use headwright::design::Side;
use headwright::swing::{Body, CAUTIONS, Drive, FreeBody, Held, tool};
use headwright::units::System;

use super::{ROUNDOFF, block_on_a_rod, cuboid, diagonal, elliptic, striker, upright};

#[track_caller]
fn check(got: f64, expected: f64) {
    assert_relative_eq!(got, expected, max_relative = ROUNDOFF, epsilon = 1e-12);
}

#[test]
fn a_cone_about_its_apex_is_a_parallel_axis_from_its_centroid() {
    // 3/80 m(4r² + h²) about the centroid, h/4 over the base; 3/20 m(r² + 4h²) about the apex, 3/10 mr² about the axis.
    let (m, r, h) = (0.7, 12.0, 45.0);
    let across = 3.0 / 80.0 * m * (4.0 * r * r + h * h);
    let cone = Body {
        mass_kg: m,
        centroid_mm: [5.0, -7.0, 20.0 + h / 4.0],
        inertia_kg_mm2: diagonal([across, across, 0.3 * m * r * r]),
    };
    let apex = [5.0, -7.0, 20.0 + h];
    let expected = 3.0 / 20.0 * m * (r * r + 4.0 * h * h);
    // Any direction square to the axis, and of any length.
    for direction in [[1.0, 0.0, 0.0], [0.0, -3.0, 0.0], [2.0, 1.5, 0.0]] {
        check(cone.inertia_about_line(apex, direction), expected);
    }
    check(
        cone.inertia_about_line([5.0, -7.0, 0.0], [0.0, 0.0, -1.0]),
        0.3 * m * r * r,
    );
}

#[test]
fn an_elliptic_cylinder_about_a_leaning_line_mixes_its_moments() {
    // Through the centroid at the angle θ from the axis towards x: I = Izz cos²θ + Ixx sin²θ.
    let body = elliptic(0.2, -150.0, 360.0, [14.0, 10.0]);
    let (sin, cos) = 0.3f64.sin_cos();
    let expected = 0.2 * (74.0 * cos * cos + (25.0 + 10_800.0) * sin * sin);
    check(
        body.inertia_about_line([0.0, 0.0, -150.0], [sin, 0.0, cos]),
        expected,
    );
}

#[test]
fn a_box_cut_in_three_is_the_box_again() {
    let whole = cuboid(2.4, [3.0, -2.0, 11.0], [60.0, 30.0, 20.0]);
    // Cut across x at a third, and the longer part across z at a quarter: 0.8, 0.4 and 1.2 kg.
    let parts = [
        cuboid(0.8, [-17.0, -2.0, 11.0], [20.0, 30.0, 20.0]),
        cuboid(0.4, [13.0, -2.0, 3.5], [40.0, 30.0, 5.0]),
        cuboid(1.2, [13.0, -2.0, 13.5], [40.0, 30.0, 15.0]),
    ];
    let joined = Body::joined(&parts);
    check(joined.mass_kg, whole.mass_kg);
    for i in 0..3 {
        check(joined.centroid_mm[i], whole.centroid_mm[i]);
        for j in 0..3 {
            let off = joined.inertia_kg_mm2[i][j] - whole.inertia_kg_mm2[i][j];
            assert!(off.abs() < 1e-10, "{joined:?}");
        }
    }
}

#[test]
fn products_of_inertia_of_two_masses_carry_a_minus_sign() {
    let mass = |kg: f64, centroid_mm: [f64; 3]| Body {
        mass_kg: kg,
        centroid_mm,
        inertia_kg_mm2: [[0.0; 3]; 3],
    };
    let joined = Body::joined(&[mass(1.0, [3.0, 6.0, 0.0]), mass(2.0, [0.0, 0.0, 9.0])]);
    // About the centroid (1, 2, 6) the two lie at (2, 4, −6) and (−1, −2, 3).
    assert_eq!(joined.centroid_mm, [1.0, 2.0, 6.0]);
    check(joined.inertia_kg_mm2[0][1], -(2.0 * 4.0 + 2.0 * 2.0));
    check(joined.inertia_kg_mm2[2][0], 6.0 * 2.0 + 2.0 * 3.0);
    check(
        joined.inertia_about_point([0.0; 3])[1][1],
        1.0 * 9.0 + 2.0 * 81.0,
    );
    assert_eq!(Body::joined(&[]).mass_kg, 0.0);
}

#[test]
fn a_rod_struck_at_its_end_meets_the_work_with_a_quarter_of_its_mass() {
    // Thin but not a line: 1/m + (L/2)²/I with I = m(L²/12 + r²/4).
    let (m, length, r) = (0.4, 300.0, 3.0);
    let rod = FreeBody::new(&elliptic(m, 0.0, length, [r, r]), "rod").expect("a body");
    let inertia = m * (length * length / 12.0 + r * r / 4.0);
    let expected = 1.0 / (1.0 / m + 150.0 * 150.0 / inertia);
    let got = rod.effective_mass_kg([0.0, 0.0, 150.0], [1.0, 0.0, 0.0]);
    check(got, expected);
    assert_relative_eq!(got, m / 4.0, max_relative = 4e-4);
    check(rod.effective_mass_kg([r, 0.0, 0.0], [-2.0, 0.0, 0.0]), m);
    check(rod.effective_mass_kg([0.0, 0.0, 150.0], [0.0, 0.0, 1.0]), m);
}

#[test]
fn a_rod_held_at_its_end_is_struck_without_sting_at_two_thirds_of_its_length() {
    // Two thirds of a rod of 480 mm are the head and one third the handle; q = L/2 + k²/(L/2), k² = L²/12 + r²/4.
    let r = 2.0;
    let head = elliptic(0.2, -80.0, 320.0, [r, r]);
    let handle = elliptic(0.1, -320.0, 160.0, [r, r]);
    let expected = 240.0 + (480.0 * 480.0 / 12.0 + r * r / 4.0) / 240.0;
    let at = |z: f64| {
        let ends = [
            striker(Side::Front, [r, 0.0, z]),
            striker(Side::Back, [-r, 0.0, 80.0]),
        ];
        tool(&head, &handle, &upright(-400.0, -400.0), &ends).expect("a tool")
    };
    let through = at(expected - 400.0);
    check(through.percussion_mm, expected);
    assert_relative_eq!(through.percussion_mm, 320.0, max_relative = 1e-4);
    let [front, back] = &through.ends;
    assert!(front.sting_per_ns.abs() < 1e-12 && front.beyond_percussion_mm.abs() < 1e-12);
    // At the far end the grip would fly on towards the work: 1/m − (L/2)²/I = −2/m.
    assert_relative_eq!(back.sting_per_ns, -2.0 / 0.3, max_relative = 1e-3);
    // At the centroid all of it goes straight: 1/m.
    let [centred, _] = at(-160.0).ends;
    check(centred.sting_per_ns, 1.0 / 0.3);
    check(centred.effective_mass_kg, 0.3);
}

#[test]
fn a_block_on_a_rod_is_the_sum_that_is_worked_by_hand() {
    let tool = block_on_a_rod();
    check(tool.mass_kg(), 1.4);
    // First moments: 1.2·4 = 4.8 towards the front, 1.2·1 − 0.2·150 = −28.8 in height.
    let (x, z) = (4.8 / 1.4, -28.8 / 1.4);
    check(tool.free.body().centroid_mm[0], x);
    check(tool.balance_from_butt_mm, 330.0 + z);
    check(tool.balance_from_eye_mm, -z);
    // About y at −280: block 1.2((110² + 44²)/12 + 4² + 281²), rod 0.2(360²/12 + 14²/4 + 130²).
    let grip = 96_176.0 + 5_549.8;
    check(tool.inertia_grip_kg_mm2, grip);
    check(tool.gyration_mm, (grip / 1.4).sqrt());
    // About z: block 1.2((110² + 40²)/12 + 4²), rod 0.2(14² + 10²)/4.
    check(tool.inertia_handle_axis_kg_mm2, 1_389.2 + 14.8);
    // About x: block 1.2((40² + 44²)/12 + 1²), rod 0.2(360²/12 + 10²/4 + 150²).
    check(tool.inertia_head_axis_kg_mm2, 354.8 + 6_665.0);
    check(tool.turning_moment_nmm, 4.8 * 9.806_65);
    // The pin is 40 mm up: tan = 4.8 / (1.4·40 + 28.8).
    check(tool.hang_angle.tan(), 4.8 / 84.8);
    let lever = 280.0 + z;
    let swing = grip - 1.4 * (x * x + lever * lever);
    check(tool.lever_mm, lever);
    check(tool.percussion_mm, lever + swing / (1.4 * lever));
    for (end, line) in tool.ends.iter().zip([282.0, 277.0]) {
        let beyond = line - lever;
        check(end.line_mm, line);
        check(end.sting_per_ns, 1.0 / 1.4 - lever * beyond / swing);
        check(
            end.effective_mass_kg,
            1.0 / (1.0 / 1.4 + beyond * beyond / swing),
        );
        check(end.swing_mass_kg, grip / (line * line));
    }
}

#[test]
fn the_centre_of_percussion_is_the_length_of_the_simple_pendulum() {
    // A tool without balance, or a hinge would feel the pull along the handle too: I about the hinge over m d.
    let head = cuboid(1.1, [0.0, 0.0, -3.0], [120.0, 42.0, 40.0]);
    let handle = elliptic(0.3, -170.0, 380.0, [15.0, 11.0]);
    let ends = [
        striker(Side::Front, [60.0, 0.0, 0.0]),
        striker(Side::Back, [-60.0, 0.0, 0.0]),
    ];
    let tool = tool(&head, &handle, &upright(-300.0, -360.0), &ends).expect("a tool");
    check(
        tool.percussion_mm,
        tool.inertia_grip_kg_mm2 / (1.4 * tool.lever_mm),
    );
}

#[test]
fn a_pendulum_of_280_mm_and_30_mm_of_gyration_swings_as_one_of_283_214_mm() {
    // q = (k² + d²)/d, worked before this program existed. Both parts alike, so that nothing is left to the joining.
    let part = |mass_kg: f64| Body {
        mass_kg,
        centroid_mm: [0.0, 0.0, -20.0],
        inertia_kg_mm2: diagonal([700.0, 900.0, 400.0].map(|square| mass_kg * square)),
    };
    let ends = [
        striker(Side::Front, [50.0, 0.0, 0.0]),
        striker(Side::Back, [-50.0, 0.0, 0.0]),
    ];
    let tool = tool(&part(0.9), &part(0.4), &upright(-300.0, -340.0), &ends).expect("a tool");
    assert_relative_eq!(tool.percussion_mm, 283.214, epsilon = 5e-4);
}

#[test]
fn the_grip_and_the_centre_of_percussion_change_places() {
    let tool_of = |flip: f64, about: f64| {
        // z becomes about + flip·z for every part.
        let z = |z: f64| about + flip * z;
        let head = cuboid(1.2, [4.0, 0.0, z(1.0)], [110.0, 40.0, 44.0]);
        let handle = elliptic(0.2, z(-150.0), 360.0, [14.0, 10.0]);
        let ends = [
            striker(Side::Front, [59.0, 0.0, 0.0]),
            striker(Side::Back, [-51.0, 0.0, 0.0]),
        ];
        tool(&head, &handle, &upright(-280.0, -330.0), &ends).expect("a tool")
    };
    let one = tool_of(1.0, 0.0);
    // Turned over so that the old centre of percussion is held where the grip was.
    let other = tool_of(-1.0, one.percussion_mm - 560.0);
    assert!(other.lever_mm < 0.1 * one.lever_mm);
    check(other.percussion_mm, one.percussion_mm);
}

#[test]
fn a_handle_that_leans_along_the_head_is_measured_square_to_the_blow() {
    // Two small balls, 1 kg in the head and 0.2 kg on the handle, which leans half of its height towards the front.
    let ball = |mass_kg: f64, centroid_mm: [f64; 3]| Body {
        mass_kg,
        centroid_mm,
        inertia_kg_mm2: diagonal([30.0 * mass_kg; 3]),
    };
    let (head, handle) = (ball(1.0, [6.0, 0.0, 0.0]), ball(0.2, [-60.0, 0.0, -120.0]));
    let held = Held {
        grip_mm: [-120.0, 0.0, -240.0],
        butt_mm: [-150.0, 0.0, -300.0],
        axis: [0.5, 0.0, 1.0],
    };
    let ends = [
        striker(Side::Front, [50.0, 0.0, 0.0]),
        striker(Side::Back, [-50.0, 0.0, 0.0]),
    ];
    let tool = tool(&head, &handle, &held, &ends).expect("a tool");
    // The centroid is at (−5, 0, −20), 220 mm over the grip; along the handle with (1, 2)/√5.
    let root = 5f64.sqrt();
    check(tool.lever_mm, 220.0);
    check(tool.ends[0].line_mm, 240.0);
    check(tool.balance_from_eye_mm, 45.0 / root);
    check(tool.balance_from_butt_mm, (750.0 - 45.0) / root);
    // About the grip: 1.2·30 + 1·(126² + 240²) + 0.2·(60² + 120²).
    check(tool.inertia_grip_kg_mm2, 36.0 + 73_476.0 + 3_600.0);
    // Square to the handle with (2, −1)/√5: only the head is beside the axis, by 12/√5 mm.
    check(tool.inertia_handle_axis_kg_mm2, 36.0 + 144.0 / 5.0);
    check(tool.turning_moment_nmm, 9.806_65 * 12.0 / root);
    check(tool.hang_angle.tan(), -5.0 / 60.0);
}

#[test]
fn speed_energy_and_torque_say_the_same_swing() {
    let tool = block_on_a_rod();
    let swing = |drive| tool.swing(Side::Front, drive).expect("a swing");
    let by_speed = swing(Drive::HeadSpeed { m_per_s: 7.0 });
    // ½Iω² with I = 0.1017258 kg·m² and ω = 7/0.282.
    let turning = 7.0 / 0.282;
    check(by_speed.turning_rad_per_s, turning);
    check(by_speed.energy_j, 0.5 * 0.101_725_8 * turning * turning);
    check(
        by_speed.momentum_ns,
        1.4 * turning * 1e-3 * (280.0 - 28.8 / 1.4),
    );
    check(by_speed.impulse_ns, 7.0 * tool.ends[0].effective_mass_kg);
    check(by_speed.delivered_j, 0.5 * 7.0 * by_speed.impulse_ns);
    let by_energy = swing(Drive::Energy {
        joules: by_speed.energy_j,
    });
    check(by_energy.speed_m_per_s, 7.0);
    // 40 N·m through 45°: 10π J, and the speed that goes with it.
    let by_torque = swing(Drive::TorqueThroughAngle {
        newton_metres: 40.0,
        degrees: 45.0,
    });
    check(by_torque.energy_j, 10.0 * std::f64::consts::PI);
    check(
        by_torque.turning_rad_per_s,
        (20.0 * std::f64::consts::PI / 0.101_725_8).sqrt(),
    );
}

#[test]
fn every_number_is_said_with_its_meaning_in_either_system() {
    let tool = block_on_a_rod();
    let drive = Drive::HeadSpeed { m_per_s: 7.0 };
    let swing = tool.swing(Side::Front, drive).expect("a swing");
    let off = [[6.0, 4.0], [0.0, -8.0], [0.0; 2]]
        .map(|place| tool.off_centre(Side::Front, place).expect("on the face"));
    let table = |system| {
        let [front, back] = &tool.ends;
        let lines = [
            tool.lines(system),
            front.lines(system),
            vec![back.lines(system).swap_remove(1)],
            swing.lines(system),
        ];
        let lines = lines.concat();
        let rows = lines
            .iter()
            .map(|line| format!("{}: {}. {}", line.name, line.value, line.meaning));
        let rows: Vec<String> = rows.chain(off.map(|off| off.meaning(system))).collect();
        rows.join("\n")
    };
    expect![[r#"
        mass: 1.400 kg. What the hand lifts, head and handle together.
        balance point from the butt: 309.4 mm. The tool lies level on an edge here, 20.6 mm from the middle of the eye.
        inertia about the grip: 101726 kg·mm². How hard the tool is to swing from the grip and to stop.
        inertia about the handle: 1404 kg·mm². How firmly the head stays put when a blow lands beside its middle.
        inertia about the head’s length: 7020 kg·mm². How hard it is to swing the handle from side to side about the head.
        radius of gyration: 269.6 mm. All of the mass at this distance from the grip would be as hard to swing.
        centre of percussion: 280 mm. A blow that passes at this distance from the grip leaves the hand at rest.
        turning moment about the handle: 47 N·mm. Held level with the head on its side, the front turns down in the hand.
        hang angle: 3.2°. Hung on a pin 40 mm above the middle of the eye, the tool tips by this; the front hangs lower.
        line of the blow: 282 mm. From the grip to the middle of the face.
        sting: −0.07 m/s per N·s. The blow passes through the centre of percussion: the hand hardly feels a jerk.
        effective mass: 1.278 kg. The work feels a blow as from a block of this mass; the rest of the tool swings on.
        mass in the swing: 1.279 kg. All of it in the line of the blow would be as hard to swing.
        tilt in the swing: 5.7°. The butt may be too high or too low by this before the edge of the face marks flat work.
        tilt about the handle: 5.7°. The head may be rolled about the handle by this before the edge of the face marks flat work.
        sting: 0.11 m/s per N·s. The blow passes 3 mm nearer to the hand than the centre of percussion: the handle jerks back, away from the work.
        speed of the head: 7.0 m/s. Speed of the middle of the striking surface as it lands.
        energy of the swing: 31.3 J. What the tool holds when it swings about a grip at rest; hand and arm bring more.
        momentum: 9.02 N·s. Of the whole tool along the blow.
        impulse of the blow: 8.95 N·s. What the work takes when the head stops dead; a head that springs back gives up to twice as much.
        energy of the blow: 31.3 J. What goes into the work, 99.9 % of the swing; the rest stays in the tool.
        6 mm across the middle the head twists about the handle by 4.3 rad/s per N·s, 4 mm along the handle the tool turns in the swing by 0.5 rad/s per N·s; against a centred blow of the same speed it keeps 6.3 % from the work.
        8 mm along the handle the tool turns in the swing by 1.1 rad/s per N·s; against a centred blow of the same speed it brings 5.3 % more to the work.
        The blow lands in the middle."#]].assert_eq(&table(System::Metric));
    expect![[r#"
        mass: 3 lb 1.4 oz. What the hand lifts, head and handle together.
        balance point from the butt: 12 3/16 in. The tool lies level on an edge here, 13/16 in from the middle of the eye.
        inertia about the grip: 347.615 lb·in². How hard the tool is to swing from the grip and to stop.
        inertia about the handle: 4.798 lb·in². How firmly the head stays put when a blow lands beside its middle.
        inertia about the head’s length: 23.988 lb·in². How hard it is to swing the handle from side to side about the head.
        radius of gyration: 10 39/64 in. All of the mass at this distance from the grip would be as hard to swing.
        centre of percussion: 11 1/32 in. A blow that passes at this distance from the grip leaves the hand at rest.
        turning moment about the handle: 0.42 in·lbf. Held level with the head on its side, the front turns down in the hand.
        hang angle: 3.2°. Hung on a pin 1 37/64 in above the middle of the eye, the tool tips by this; the front hangs lower.
        line of the blow: 11 7/64 in. From the grip to the middle of the face.
        sting: −0.99 ft/s per lbf·s. The blow passes through the centre of percussion: the hand hardly feels a jerk.
        effective mass: 2 lb 13.1 oz. The work feels a blow as from a block of this mass; the rest of the tool swings on.
        mass in the swing: 2 lb 13.1 oz. All of it in the line of the blow would be as hard to swing.
        tilt in the swing: 5.7°. The butt may be too high or too low by this before the edge of the face marks flat work.
        tilt about the handle: 5.7°. The head may be rolled about the handle by this before the edge of the face marks flat work.
        sting: 1.54 ft/s per lbf·s. The blow passes 1/8 in nearer to the hand than the centre of percussion: the handle jerks back, away from the work.
        speed of the head: 23.0 ft/s. Speed of the middle of the striking surface as it lands.
        energy of the swing: 23.1 ft·lbf. What the tool holds when it swings about a grip at rest; hand and arm bring more.
        momentum: 2.03 lbf·s. Of the whole tool along the blow.
        impulse of the blow: 2.01 lbf·s. What the work takes when the head stops dead; a head that springs back gives up to twice as much.
        energy of the blow: 23.1 ft·lbf. What goes into the work, 99.9 % of the swing; the rest stays in the tool.
        15/64 in across the middle the head twists about the handle by 19.0 rad/s per lbf·s, 5/32 in along the handle the tool turns in the swing by 2.4 rad/s per lbf·s; against a centred blow of the same speed it keeps 6.3 % from the work.
        5/16 in along the handle the tool turns in the swing by 4.8 rad/s per lbf·s; against a centred blow of the same speed it brings 5.3 % more to the work.
        The blow lands in the middle."#]].assert_eq(&table(System::Imperial));
}

#[test]
fn cautions_are_sentences() {
    for caution in CAUTIONS {
        assert!(caution.ends_with('.') && caution.len() > 40, "{caution}");
    }
}
