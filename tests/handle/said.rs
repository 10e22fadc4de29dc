//! What is said of a handle, in millimetres and in inches, and what it bears.

use std::f64::consts::PI;

use approx::assert_relative_eq;
use expect_test::{Expect, expect};
use headwright::design::starter_names;
use headwright::handle::{CAUTIONS, Handle, Shoulder, Wood};
use headwright::solid::Solid;
use headwright::units::{Angle, System};

use super::{design, head, made, mm, plain};

#[track_caller]
fn check(solid: &Solid, handle: &Handle, expected: Expect) {
    let said: Vec<String> = made(solid, handle)
        .notes
        .iter()
        .flat_map(|note| [System::Metric, System::Imperial].map(|system| note.sentence(system)))
        .collect();
    expected.assert_eq(&said.join("\n"));
}

#[test]
fn a_usual_handle_is_told_what_it_bears_and_that_it_is_open_along() {
    let solid = head("rounding", &[]);
    check(
        &solid,
        &Handle::usual(&solid, System::Metric),
        expect![[r#"
            2 mm stays open along the upper mouth, which no wedge along the head fills. A cross wedge as thick there closes it.
            0.079 in stays open along the upper mouth, which no wedge along the head fills. A cross wedge as thick there closes it.
            An estimate: 273 mm from the butt, where it is slimmest at 27.6 mm × 19.3 mm, clear wood at 12 % moisture breaks at a bending moment of about 201 N·m. Blows, knots and cracks break it far sooner.
            An estimate: 10.748 in from the butt, where it is slimmest at 1.087 in × 0.760 in, clear wood at 12 % moisture breaks at a bending moment of about 148 lbf·ft. Blows, knots and cracks break it far sooner."#]],
    );
}

#[test]
fn a_bare_tongue_is_told_all_that_is_open() {
    let solid = head("rounding", &[]);
    let handle = Handle {
        shoulder: Shoulder::None,
        ..plain(340.0, &[(0.0, 36.0, 28.0), (290.0, 24.0, 18.0)])
    };
    check(
        &solid,
        &handle,
        expect![[r#"
            2 mm stays open across the upper mouth: saw a kerf and drive a wedge, or the head works loose.
            0.079 in stays open across the upper mouth: saw a kerf and drive a wedge, or the head works loose.
            2 mm stays open along the upper mouth, which no wedge along the head fills. A cross wedge as thick there closes it.
            0.079 in stays open along the upper mouth, which no wedge along the head fills. A cross wedge as thick there closes it.
            Without a shoulder the lower mouth stays open by 2 mm along and 2 mm across: only the waist holds the head below.
            Without a shoulder the lower mouth stays open by 0.079 in along and 0.079 in across: only the waist holds the head below.
            Right behind the head the handle is 24 mm × 18 mm, but the wood in the eye 28 mm × 19 mm: it breaks soonest at such a step. Let the last station follow the mouth.
            Right behind the head the handle is 0.945 in × 0.709 in, but the wood in the eye 1.102 in × 0.748 in: it breaks soonest at such a step. Let the last station follow the mouth.
            An estimate: 290 mm from the butt, where it is slimmest at 24 mm × 18 mm, clear wood at 12 % moisture breaks at a bending moment of about 141 N·m. Blows, knots and cracks break it far sooner.
            An estimate: 11.417 in from the butt, where it is slimmest at 0.945 in × 0.709 in, clear wood at 12 % moisture breaks at a bending moment of about 104 lbf·ft. Blows, knots and cracks break it far sooner."#]],
    );
}

#[test]
fn a_cocked_eye_with_a_narrow_mouth_is_told() {
    let mut design = design(
        "rounding",
        &[("eye.bottom.width", 18.0), ("cheeks.width", 46.0)],
    );
    design.eye.cock_along = Some(Angle::degrees(1.5));
    let solid = design.build().expect("a sound head");
    let handle = Handle {
        wood: Wood::Own {
            name: "hornbeam".to_owned(),
            specific_gravity: 0.7,
        },
        ..Handle::usual(&solid, System::Metric)
    };
    check(
        &solid,
        &handle,
        expect![[r#"
        The eye leans 1.5° along the head and 0° across it, and the handle with it. In the eye sizes hold in planes level with the head and depths square to them, outside along and across the handle.
        The eye leans 1.5° along the head and 0° across it, and the handle with it. In the eye sizes hold in planes level with the head and depths square to them, outside along and across the handle.
        The bottom mouth is 30 mm × 18 mm, narrower than the waist of 28 mm × 19 mm in one size: the tongue is worked to pass it and leaves a gap at the waist.
        The bottom mouth is 1.181 in × 0.709 in, narrower than the waist of 1.102 in × 0.748 in in one size: the tongue is worked to pass it and leaves a gap at the waist.
        2 mm stays open along the upper mouth, which no wedge along the head fills. A cross wedge as thick there closes it.
        0.079 in stays open along the upper mouth, which no wedge along the head fills. A cross wedge as thick there closes it."#]],
    );
}

#[test]
fn a_wedge_that_crushes_is_told() {
    let solid = head("rounding", &[]);
    let mut handle = Handle::usual(&solid, System::Metric);
    handle.wedge.as_mut().expect("a wedge").thick = Some(mm(7.0));
    check(
        &solid,
        &handle,
        expect![[r#"
            2 mm stays open along the upper mouth, which no wedge along the head fills. A cross wedge as thick there closes it.
            0.079 in stays open along the upper mouth, which no wedge along the head fills. A cross wedge as thick there closes it.
            At the upper mouth the wood would be pressed together by 3 mm, more than 1.5 mm: the wedge may stop before it is home, or split the tongue. Take a thinner or a longer wedge.
            At the upper mouth the wood would be pressed together by 0.118 in, more than 0.059 in: the wedge may stop before it is home, or split the tongue. Take a thinner or a longer wedge.
            An estimate: 273 mm from the butt, where it is slimmest at 27.6 mm × 19.3 mm, clear wood at 12 % moisture breaks at a bending moment of about 201 N·m. Blows, knots and cracks break it far sooner.
            An estimate: 10.748 in from the butt, where it is slimmest at 1.087 in × 0.760 in, clear wood at 12 % moisture breaks at a bending moment of about 148 lbf·ft. Blows, knots and cracks break it far sooner."#]],
    );
}

#[test]
fn a_wedge_that_is_too_thin_is_told_with_what_it_leaves_open() {
    let solid = head("rounding", &[]);
    let mut handle = Handle::usual(&solid, System::Metric);
    handle.wedge.as_mut().expect("a wedge").thick = Some(mm(3.0));
    let notes = made(&solid, &handle).notes;
    expect![
        "1 mm stays open across the upper mouth: take a thicker wedge, or the head works loose."
    ]
    .assert_eq(&notes[0].to_string());
    assert_eq!(serde_json::json!(notes[0]), notes[0].to_string());
}

#[test]
fn the_slimmest_oval_between_hand_and_head_bears_what_its_modulus_says() {
    let solid = head("rounding", &[]);
    // Slimmest of all at the butt, where no bending is.
    let ovals = [
        (0.0, 10.0, 10.0),
        (60.0, 38.0, 28.0),
        (250.0, 30.0, 22.0),
        (290.0, 33.0, 21.0),
    ];
    let strength = made(&solid, &plain(340.0, &ovals)).strength;
    assert_eq!(strength.at_mm, 250.0);
    // 30² × 22 against 33² × 21.
    let modulus = PI * 22.0 * 900.0 / 32.0;
    assert_relative_eq!(strength.modulus_mm3, modulus, max_relative = 1e-12);
    let moment = strength.moment_nm.expect("hickory is known");
    assert_relative_eq!(moment, 139.0 * modulus / 1000.0, max_relative = 1e-12);
    let even = made(
        &solid,
        &plain(340.0, &[(0.0, 10.0, 10.0), (290.0, 38.0, 28.0)]),
    );
    // It grows towards the head: slimmest at the hand.
    assert_eq!(even.strength.at_mm, 75.0);
}

#[test]
fn no_usual_handle_of_a_starter_is_crushed_or_stepped() {
    for name in starter_names() {
        let solid = head(name, &[]);
        for note in made(&solid, &Handle::usual(&solid, System::Metric)).notes {
            let said = note.to_string();
            assert!(
                !said.contains("pressed together") && !said.contains("step"),
                "{name}: {said}"
            );
        }
    }
}

#[test]
fn the_cautions_speak_of_splinters_eyes_dust_and_rags() {
    let all = CAUTIONS.join(" ");
    for word in [
        "Before each use",
        "loose",
        "eye protection",
        "dust",
        "Rags",
        "estimate",
    ] {
        assert!(all.contains(word), "{word}");
    }
}
