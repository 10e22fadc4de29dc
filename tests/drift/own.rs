//! The smith's own drifts: which serve, in which order, how deep, and what is missing.

use approx::assert_relative_eq;
use headwright::drift::{Drifting, OwnDrift, OwnSet, OwnStep};
use headwright::solid::Solid;
use headwright::units::{Length, System};

use super::{head, obround_rim, planned, slit, slot};

/// Length, width and taper of each.
pub fn drifts(sizes: &[(f64, f64, Option<f64>)]) -> Vec<OwnDrift> {
    let drift = |&(length, width, taper): &(f64, f64, Option<f64>)| OwnDrift {
        length: Length::mm(length),
        width: Length::mm(width),
        taper,
    };
    sizes.iter().map(drift).collect()
}

#[track_caller]
fn worked(solid: &Solid, drifting: Drifting, sizes: &[(f64, f64, Option<f64>)]) -> OwnSet {
    let drifting = Drifting {
        own: drifts(sizes),
        ..drifting
    };
    planned(solid, &drifting).own.expect("own drifts")
}

fn said(step: &OwnStep) -> Vec<String> {
    step.notes.iter().map(ToString::to_string).collect()
}

#[test]
fn a_set_that_gives_the_eye_is_put_in_order() {
    let solid = head("rounding", &[]);
    // The eye narrows from 30 × 21 to 28 × 19 in 21 mm.
    let taper = Some(2.0 / 21.0);
    let sizes = [(30.0, 21.0, taper), (26.0, 9.4, None), (27.0, 14.0, None)];
    let set = worked(&solid, slot(25.2, 6.3), &sizes);
    let order: Vec<usize> = set.steps.iter().map(|step| step.number).collect();
    assert_eq!(order, [2, 3, 1]);
    for step in &set.steps {
        assert!(step.serves && !step.step_too_great, "{:?}", step.notes);
    }
    assert!(set.gives_eye);
    assert_eq!(set.notes, []);
    for gap in set.gap {
        assert!(gap.length_mm.abs() < 1e-9 && gap.width_mm.abs() < 1e-9);
    }
    // The last one stops where its greatest section is level with the mouth.
    for depth in [set.steps[2].top, set.steps[2].bottom] {
        assert!(depth.expect("serves").mark_mm.expect("a mark").abs() < 1e-9);
    }
    assert_relative_eq!(
        set.steps[0].stretch_percent,
        100.0 * (obround_rim(26.0, 9.4) / obround_rim(25.2, 6.3) - 1.0),
        max_relative = 1e-9
    );
    assert_relative_eq!(set.steps[0].wall_outer_kept_mm, 16.3, max_relative = 1e-12);
    assert_relative_eq!(set.steps[0].wall_sideways_mm, 17.85, max_relative = 1e-12);
    assert_relative_eq!(
        set.steps[0].outer_width_sideways_mm,
        45.1,
        max_relative = 1e-12
    );
}

#[test]
fn a_larger_drift_stops_at_the_mark_worked_by_hand() {
    let solid = head("rounding", &[]);
    let set = worked(&solid, slot(27.0, 14.0), &[(32.0, 20.0, Some(0.1))]);
    let step = &set.steps[0];
    let depth = step.top.expect("serves");
    // 32 mm falls to the mouth's 30 mm in 20 mm; at the waist, 21 mm further, it is 27.9 mm and 15.9 mm.
    assert_relative_eq!(depth.mark_mm.expect("a mark"), 20.0, max_relative = 1e-12);
    assert_relative_eq!(depth.at_mouth.length_mm, 30.0, max_relative = 1e-12);
    assert_relative_eq!(depth.at_mouth.width_mm, 18.0, max_relative = 1e-12);
    assert_relative_eq!(depth.at_waist.length_mm, 27.9, max_relative = 1e-12);
    assert_relative_eq!(depth.at_waist.width_mm, 15.9, max_relative = 1e-12);
    assert_eq!(
        said(step)[0],
        "Driven through, it would open the eye to 32 mm × 20 mm where the hot waist is 28 mm × 19 mm. From the top stop \
         when the mark 20 mm from its greatest section towards the tip is level with the mouth."
    );
    let sentences: Vec<String> = set.notes.iter().map(ToString::to_string).collect();
    assert_eq!(
        sentences[0],
        "At the waist your drifts open 27.9 mm × 15.9 mm, but the hot eye is 28 mm × 19 mm: 0.1 mm short in length and \
         3.1 mm short in width. A drift is missing that reaches the eye’s size there."
    );
    assert!(!set.gives_eye);
}

#[test]
fn a_drift_between_waist_and_mouth_stops_below_the_mouth() {
    // The waist 6 mm narrower than the mouths: 24 × 15.
    let solid = head(
        "rounding",
        &[("eye.waist.length", "24 mm"), ("eye.waist.width", "15 mm")],
    );
    let set = worked(&solid, slot(23.0, 11.0), &[(25.0, 15.0, Some(0.1))]);
    let depth = set.steps[0].top.expect("serves");
    // It is 24 mm long 10 mm from its greatest section, so that stands 10 mm over the waist, 11 mm below the mouth.
    assert_relative_eq!(depth.mark_mm.expect("a mark"), -11.0, max_relative = 1e-12);
    assert_relative_eq!(depth.at_waist.length_mm, 24.0, max_relative = 1e-12);
    assert_relative_eq!(depth.at_mouth.length_mm, 25.0, max_relative = 1e-12);
    assert!(
        said(&set.steps[0])[0]
            .ends_with("From the top stop when its greatest section is 11 mm below the mouth.")
    );
    let inches = set.steps[0].notes[0].sentence(System::Imperial);
    assert!(inches.contains(" in") && !inches.contains("mm"), "{inches}");
}

#[test]
fn drifts_that_do_not_serve_say_why() {
    let solid = head("rounding", &[]);
    let sizes = [
        (60.0, 40.0, None),
        (29.0, 14.0, Some(0.0)),
        (20.0, 5.0, None),
        (27.0, 13.0, Some(0.0)),
    ];
    let set = worked(&solid, slot(25.0, 6.0), &sizes);
    let of = |number: usize| {
        let step = set.steps.iter().find(|step| step.number == number);
        step.expect("listed")
    };
    // (60 − 30) / 0.1 = 300 mm.
    assert_eq!(
        said(of(1)),
        [
            "It is too large for this eye: it would have to stop 300 mm from its greatest section so that the hot waist stays \
          28 mm × 19 mm, and a taper of at most 100 mm is reckoned with."
        ]
    );
    assert_eq!(
        said(of(2)),
        [
            "It is too large for this eye: it has no taper and is larger than the hot waist of 28 mm × 19 mm or a mouth."
        ]
    );
    assert_eq!(
        said(of(3)),
        ["It opens nothing: the waist is already open to 25 mm × 6 mm."]
    );
    for number in 1..=3 {
        assert!(!of(number).serves && of(number).top.is_none());
    }
    // It goes through without a taper, but 6 mm to 13 mm is more than 1.5 times; √(25·27) and √(6·13) lie between.
    assert!(of(4).serves && of(4).step_too_great);
    assert_eq!(of(4).top.expect("serves").mark_mm, None);
    assert_eq!(
        said(of(4)),
        [
            "From 25 mm × 6 mm to 27 mm × 13 mm is too great a step for one drift. Put one of about 25.98 mm × 8.83 mm \
          between."
        ]
    );
    let [top, waist, bottom] = set.gap;
    assert_eq!((waist.length_mm, waist.width_mm), (1.0, 6.0));
    assert_eq!((top.length_mm, top.width_mm), (3.0, 8.0));
    assert_eq!(top, bottom);
}

#[test]
fn a_slit_shortens_as_its_own_drifts_open_it() {
    let solid = head("rounding", &[]);
    let set = worked(
        &solid,
        slit(36.0, 3.0),
        &[(26.0, 10.0, None), (27.0, 17.0, None)],
    );
    let rim = obround_rim(36.0, 3.0);
    for (step, width) in set.steps.iter().zip([10.0, 17.0]) {
        assert!(step.serves && !step.step_too_great, "{:?}", step.notes);
        assert_relative_eq!(step.open.width_mm, width, max_relative = 1e-12);
        assert_relative_eq!(
            obround_rim(step.open.length_mm, width),
            rim,
            max_relative = 1e-9
        );
        assert!(step.stretch_percent.abs() < 1e-9);
    }
}
