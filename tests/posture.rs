//! Posture through the public path: builds against published heights, the arm worked by hand, what must hold of any
//! stance, and every refusal.

use approx::assert_relative_eq;
use expect_test::{Expect, expect};
use headwright::posture::{
    Arm, Build, ESTIMATE, GRIP_DEG, Given, Note, Posture, PostureError, Smith, Stance, Table,
    posture,
};
use headwright::units::System;

#[path = "posture/any.rs"]
mod any;

fn of_stature(mm: f64) -> Stance {
    Stance::of(Smith::Stature { mm })
}

#[track_caller]
fn worked(stance: &Stance) -> Posture {
    posture(stance).expect("a posture")
}

#[test]
fn builds_have_the_heights_that_were_published() {
    // Medians, mm: stature, then elbow and wrist of a hanging arm, knuckles. ANSUR II (computed from the public data) and
    // Pheasant's knuckles (from memory) at the statures of their own groups.
    let build = |mm, table| Build::of(Smith::Stature { mm }, table);
    let men = build(1755.0, Table::AnsurMen);
    assert_relative_eq!(men.shoulder_mm - men.upper_arm_mm, 1104.0, epsilon = 2.0);
    let women = build(1626.0, Table::AnsurWomen);
    assert_relative_eq!(
        women.shoulder_mm - women.upper_arm_mm,
        1022.0,
        epsilon = 2.0
    );
    assert_relative_eq!(
        build(1740.0, Table::AnsurMen).knuckle_mm,
        755.0,
        epsilon = 1.0
    );
    assert_relative_eq!(
        build(1610.0, Table::AnsurWomen).knuckle_mm,
        720.0,
        epsilon = 1.0
    );
    // Drillis and Contini draw elbow and wrist at 0.630 and 0.485 of the stature.
    let drawn = build(1000.0, Table::DrillisContini);
    let elbow = drawn.shoulder_mm - drawn.upper_arm_mm;
    assert_relative_eq!(elbow, 630.0, epsilon = 2.5);
    assert_relative_eq!(elbow - drawn.forearm_mm, 485.0, epsilon = 1.5);
    // Shearer, 1918: the anvil clears the knuckles, at about 30 in.
    let anvil = worked(&of_stature(1750.0)).anvil_mm / 25.4;
    assert_relative_eq!(anvil, 30.0, epsilon = 0.2);
}

#[test]
fn a_wrist_to_grip_is_shorter_than_the_hand_by_every_table() {
    // Hands are 0.108 to 0.111 of the stature; the grip lies in the palm.
    for table in Table::ALL {
        let hand = Build::of(Smith::Stature { mm: 1.0 }, table).hand_mm;
        assert!((0.03..0.06).contains(&hand), "{}: {hand}", table.words());
    }
}

#[test]
fn measured_heights_divide_the_arm_as_the_table_does() {
    let table = Table::AnsurMen;
    let by_stature = Build::of(Smith::Stature { mm: 1800.0 }, table);
    let measured = Smith::Measured {
        knuckle_mm: by_stature.knuckle_mm,
        shoulder_mm: by_stature.shoulder_mm,
    };
    let same = Build::of(measured, table);
    for (a, b) in [
        (same.stature_mm, 1800.0),
        (same.upper_arm_mm, by_stature.upper_arm_mm),
        (same.forearm_mm, by_stature.forearm_mm),
        (same.hand_mm, by_stature.hand_mm),
    ] {
        assert_relative_eq!(a, b, max_relative = 1e-12);
    }
    // Arms longer by a tenth are so in every part.
    let arm = by_stature.shoulder_mm - by_stature.knuckle_mm;
    let longer = Smith::Measured {
        knuckle_mm: by_stature.knuckle_mm - 0.1 * arm,
        shoulder_mm: by_stature.shoulder_mm,
    };
    let longer = Build::of(longer, table);
    assert_relative_eq!(
        longer.forearm_mm,
        1.1 * same.forearm_mm,
        max_relative = 1e-12
    );
    assert_relative_eq!(longer.hand_mm, 1.1 * same.hand_mm, max_relative = 1e-12);
    assert_relative_eq!(longer.stature_mm, 1800.0, max_relative = 1e-12);
}

#[test]
fn an_arm_worked_by_hand_has_these_angles() {
    // Stature 1750: shoulder 1431.5, upper arm 325.5, forearm 255.5, wrist to grip 91; anvil 740, work 25, offset 75.
    let stance = Stance {
        anvil_mm: Some(740.0),
        work_mm: 25.0,
        face_offset_mm: 75.0,
        ..of_stature(1750.0)
    };
    let got = worked(&stance);
    assert_relative_eq!(got.build.hand_mm, 91.0, max_relative = 1e-12);
    assert_eq!(
        (got.anvil_mm, got.hand_mm, got.short_mm),
        (740.0, 840.0, 0.0)
    );
    // Elbow at 1106, wrist at 840 + 91 sin 70°.
    let drop: f64 = 1106.0 - 840.0 - 91.0 * 70f64.to_radians().sin();
    let below = (drop / 255.5).asin();
    let Arm {
        elbow,
        forearm,
        wrist,
    } = got.arm.expect("within reach");
    assert_relative_eq!(forearm, below, max_relative = 1e-12);
    assert_relative_eq!(
        elbow.to_degrees(),
        90.0 + below.to_degrees(),
        max_relative = 1e-12
    );
    assert_relative_eq!(
        wrist.to_degrees(),
        70.0 - below.to_degrees(),
        max_relative = 1e-12
    );
    assert_relative_eq!(
        got.stand_off_mm,
        255.5 * below.cos() + 91.0 * 70f64.to_radians().cos() + 260.0,
        max_relative = 1e-12
    );
    // At 130° the forearm points 40° down.
    let wanted =
        1106.0 - 255.5 * 40f64.to_radians().sin() - 91.0 * 70f64.to_radians().sin() - 100.0;
    assert_relative_eq!(got.wanted_anvil_mm, wanted, max_relative = 1e-12);
    assert_eq!(got.figure.face, [got.stand_off_mm, 765.0]);
    assert_eq!(got.figure.anvil, [got.stand_off_mm, 740.0]);
    assert_eq!(
        (got.figure.hip, got.figure.chin),
        ([0.0, 927.5], [0.0, 1522.5])
    );
}

#[test]
fn the_usual_elbow_wants_about_a_knuckle_high_anvil_for_an_offset_of_eighty() {
    for (mm, table) in [
        (1750.0, Table::DrillisContini),
        (1755.0, Table::AnsurMen),
        (1626.0, Table::AnsurWomen),
    ] {
        let stance = Stance {
            table,
            face_offset_mm: 80.0,
            ..of_stature(mm)
        };
        let got = worked(&stance);
        let off = got.wanted_anvil_mm - got.build.knuckle_mm;
        assert!(off.abs() < 30.0, "{}: {off}", table.words());
    }
}

#[test]
fn a_forearm_that_hangs_is_the_lowest_that_a_straight_back_reaches() {
    let lowest = |stance: &Stance| {
        let build = Build::of(stance.smith, stance.table);
        let wrist = build.shoulder_mm - build.upper_arm_mm - build.forearm_mm;
        wrist - build.hand_mm * GRIP_DEG.to_radians().sin() - stance.work_mm - stance.face_offset_mm
    };
    let at = |anvil: f64| Stance {
        anvil_mm: Some(anvil),
        ..of_stature(1750.0)
    };
    let floor = lowest(&at(0.0));
    let reached = worked(&at(floor + 1.0));
    assert!(reached.arm.is_some());
    let short = worked(&at(floor - 40.0));
    assert_eq!(short.arm, None);
    assert_relative_eq!(short.short_mm, 40.0, max_relative = 1e-9);
    assert!(matches!(short.notes.as_slice(), [Note::TooLow { .. }]));
    // The figure shows the gap between wrist and grip.
    let gap = short.figure.wrist[1]
        - short.figure.grip[1]
        - (reached.figure.wrist[1] - reached.figure.grip[1]);
    assert_relative_eq!(gap, 40.0, max_relative = 1e-9);
    // With the upper arm forward the elbow is straight before the forearm hangs.
    let forward = Stance {
        upper_arm_deg: 30.0,
        anvil_mm: Some(floor + 10.0),
        ..of_stature(1750.0)
    };
    assert!(worked(&forward).short_mm > 0.0);
}

#[track_caller]
fn check_notes(stance: &Stance, metric: Expect, imperial: Expect) {
    let notes = worked(stance).notes;
    let said = |system| {
        let sentences = notes.iter().map(|note| note.sentence(system));
        sentences.collect::<Vec<_>>().join("\n")
    };
    metric.assert_eq(&said(System::Metric));
    imperial.assert_eq(&said(System::Imperial));
}

#[test]
fn what_strains_is_said() {
    let at = |anvil: f64| Stance {
        anvil_mm: Some(anvil),
        ..of_stature(1750.0)
    };
    check_notes(&at(760.0), expect![[""]], expect![[""]]);
    check_notes(
        &at(400.0),
        expect![
            "With a straight back the hand stays 285 mm above where the handle is at the blow. Raise the anvil by as much, or the back will bend."
        ],
        expect![
            "With a straight back the hand stays 11 1/4 in above where the handle is at the blow. Raise the anvil by as much, or the back will bend."
        ],
    );
    check_notes(
        &at(685.3),
        expect!["A closed fist would be bent 17° towards the thumb at the blow. Raise the anvil."],
        expect!["A closed fist would be bent 17° towards the thumb at the blow. Raise the anvil."],
    );
    check_notes(
        &at(830.0),
        expect![
            "A closed fist would be bent 44° towards the little finger at the blow. Hold the handle slantwise in the palm, or lower the anvil."
        ],
        expect![
            "A closed fist would be bent 44° towards the little finger at the blow. Hold the handle slantwise in the palm, or lower the anvil."
        ],
    );
    check_notes(
        &at(960.0),
        expect![[r#"
        The forearm points 4° upwards at the blow: the shoulder does the work. Lower the anvil.
        A closed fist would be bent 74° towards the little finger at the blow. Hold the handle slantwise in the palm, or lower the anvil."#]],
        expect![[r#"
        The forearm points 4° upwards at the blow: the shoulder does the work. Lower the anvil.
        A closed fist would be bent 74° towards the little finger at the blow. Hold the handle slantwise in the palm, or lower the anvil."#]],
    );
    check_notes(
        &at(1300.0),
        expect![
            "The hand stays 150 mm below where the handle is at the blow. Lower the anvil by as much, or the shoulder will rise."
        ],
        expect![
            "The hand stays 5 7/8 in below where the handle is at the blow. Lower the anvil by as much, or the shoulder will rise."
        ],
    );
    let note = Note::TooLow { short_mm: 12.0 };
    assert_eq!(note.to_string(), note.sentence(System::Metric));
    assert_eq!(
        serde_json::to_string(&note).expect("text"),
        format!("\"{note}\"")
    );
}

#[test]
fn every_number_is_said_with_its_meaning_in_either_system() {
    let stance = Stance {
        face_offset_mm: 95.0,
        ..of_stature(1750.0)
    };
    let got = worked(&stance);
    let table = |system| {
        let rows = got.lines(system).into_iter();
        let rows = rows.map(|line| format!("{}: {}. {}", line.name, line.value, line.meaning));
        rows.collect::<Vec<_>>().join("\n")
    };
    expect![[r#"
        anvil: 760 mm. Height of its face; the knuckles hang at about 760 mm.
        hand at the blow: 875 mm. Anvil, work and face offset together: the height of the level handle.
        elbow: 125°. Between upper arm and forearm at the blow; 180° is a straight arm.
        wrist: 35°. A closed fist is bent towards the little finger by this at the blow.
        stand-off: 501 mm. From the ankles to where the blow lands.
        anvil that this hammer wants: 741 mm. With this work the elbow then has the angle that is aimed at: 18 mm lower."#]].assert_eq(&table(System::Metric));
    expect![[r#"
        anvil: 29 7/8 in. Height of its face; the knuckles hang at about 29 7/8 in.
        hand at the blow: 34 3/8 in. Anvil, work and face offset together: the height of the level handle.
        elbow: 125°. Between upper arm and forearm at the blow; 180° is a straight arm.
        wrist: 35°. A closed fist is bent towards the little finger by this at the blow.
        stand-off: 19 3/4 in. From the ankles to where the blow lands.
        anvil that this hammer wants: 29 1/8 in. With this work the elbow then has the angle that is aimed at: 3/4 in lower."#]].assert_eq(&table(System::Imperial));
    assert!(ESTIMATE.starts_with("Estimates: "));
    // Where the hand does not get there, nothing is said of elbow and wrist.
    let short = worked(&Stance {
        anvil_mm: Some(300.0),
        ..stance
    });
    let names: Vec<_> = short
        .lines(System::Metric)
        .into_iter()
        .map(|line| line.name)
        .collect();
    assert_eq!(
        names,
        [
            "anvil",
            "hand at the blow",
            "stand-off",
            "anvil that this hammer wants"
        ]
    );
}

#[track_caller]
fn check_refused(stance: &Stance, metric: Expect, imperial: Expect) {
    let errors = posture(stance).expect_err("it must be refused");
    let said = |system| {
        let sentences = errors.iter().map(|error| error.sentence(system));
        sentences.collect::<Vec<_>>().join("\n")
    };
    metric.assert_eq(&said(System::Metric));
    imperial.assert_eq(&said(System::Imperial));
}

#[test]
fn a_stance_out_of_bounds_is_refused_with_every_reason() {
    check_refused(
        &of_stature(0.0),
        expect!["The stature is 0 mm. It must be at least 1000 mm and at most 2300 mm."],
        expect!["The stature is 0 in. It must be at least 39.370 in and at most 90.551 in."],
    );
    check_refused(
        &Stance {
            smith: Smith::Stature { mm: f64::NAN },
            anvil_mm: Some(0.0),
            work_mm: -1.0,
            face_offset_mm: f64::INFINITY,
            grip_to_face_mm: 5000.0,
            upper_arm_deg: 90.0,
            elbow_deg: 180.0,
            ..of_stature(1750.0)
        },
        expect![[r#"
            The stature is NaN mm. It must be at least 1000 mm and at most 2300 mm.
            The height of the anvil is 0 mm. It must be at least 200 mm and at most 1300 mm.
            The thickness of the work is −1 mm. It must be at least 0 mm and at most 300 mm.
            The face offset is inf mm. It must be at least 5 mm and at most 400 mm.
            The distance from the grip to the line of the blow is 5000 mm. It must be at least 10 mm and at most 1200 mm.
            The angle of the upper arm is 90°. It must be at least −20° and at most 60°.
            The angle at the elbow is 180°. It must be at least 60° and at most 160°."#]],
        expect![[r#"
            The stature is NaN in. It must be at least 39.370 in and at most 90.551 in.
            The height of the anvil is 0 in. It must be at least 7.874 in and at most 51.181 in.
            The thickness of the work is −0.039 in. It must be at least 0 in and at most 11.811 in.
            The face offset is inf in. It must be at least 0.197 in and at most 15.748 in.
            The distance from the grip to the line of the blow is 196.850 in. It must be at least 0.394 in and at most 47.244 in.
            The angle of the upper arm is 90°. It must be at least −20° and at most 60°.
            The angle at the elbow is 180°. It must be at least 60° and at most 160°."#]],
    );
    let measured = |knuckle_mm, shoulder_mm| {
        Stance::of(Smith::Measured {
            knuckle_mm,
            shoulder_mm,
        })
    };
    check_refused(
        &measured(1100.0, 1200.0),
        expect![
            "The arm, from the height of the shoulder to that of the knuckles, is 100 mm. It must be at least 300 mm and at most 1000 mm."
        ],
        expect![
            "The arm, from the height of the shoulder to that of the knuckles, is 3.937 in. It must be at least 11.811 in and at most 39.370 in."
        ],
    );
    check_refused(
        &measured(0.0, 3000.0),
        expect![[r#"
        The height of the knuckles is 0 mm. It must be at least 350 mm and at most 1150 mm.
        The height of the shoulder is 3000 mm. It must be at least 800 mm and at most 1950 mm.
        The arm, from the height of the shoulder to that of the knuckles, is 3000 mm. It must be at least 300 mm and at most 1000 mm."#]],
        expect![[r#"
        The height of the knuckles is 0 in. It must be at least 13.780 in and at most 45.276 in.
        The height of the shoulder is 118.110 in. It must be at least 31.496 in and at most 76.772 in.
        The arm, from the height of the shoulder to that of the knuckles, is 118.110 in. It must be at least 11.811 in and at most 39.370 in."#]],
    );
    let error = PostureError {
        given: Given::Stature,
        value: 0.0,
    };
    assert_eq!(posture(&of_stature(0.0)), Err(vec![error]));
    assert_eq!(error.to_string(), error.sentence(System::Metric));
}
