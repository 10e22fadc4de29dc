//! What the levels show of the tongue in the eye, with and without its wedges.

use approx::assert_relative_eq;
use headwright::design::EyeOutline;
use headwright::handle::{CrossWedge, Handle, HandlePart, Kerf, Shoulder, Wedge};
use headwright::units::{Length, System};

use super::{design, head, hourglass, made, mm, plain};

fn kerf(depth: f64, width: f64) -> Option<Kerf> {
    Some(Kerf {
        depth: mm(depth),
        width: mm(width),
    })
}

fn wedge(length: f64, thick: Option<f64>, crush: f64) -> Option<Wedge> {
    Some(Wedge {
        wood: plain(300.0, &[]).wood,
        length: mm(length),
        thick: thick.map(Length::mm),
        crush: mm(crush),
    })
}

/// In the hourglass, 60 mm deep: waist 28 × 21 at 0, mouths 30 × 23 at ±30.
fn hickory() -> Handle {
    plain(400.0, &[(0.0, 36.0, 28.0)])
}

#[test]
fn a_tongue_without_a_wedge_leaves_the_flare_of_the_upper_mouth_open() {
    let made = made(&hourglass(), &hickory());
    let heights: Vec<f64> = made.levels.iter().map(|level| level.height_mm).collect();
    assert_eq!(
        heights,
        [-30.0, -22.5, -15.0, -7.5, 0.0, 7.5, 15.0, 22.5, 30.0]
    );
    for level in &made.levels {
        // 2 mm wider over 30 mm, above the waist open, below it filled by the shoulder.
        let open = level.height_mm.max(0.0) / 15.0;
        assert_relative_eq!(level.gap_along_mm, open, epsilon = 1e-12);
        assert_relative_eq!(level.gap_across_mm, open, epsilon = 1e-12);
        assert_relative_eq!(level.eye.length_mm, 28.0 + level.height_mm.abs() / 15.0);
        assert_eq!(level.crush_mm, [0.0; 2]);
    }
}

#[test]
fn without_a_shoulder_the_lower_mouth_stays_open_too() {
    let handle = Handle {
        shoulder: Shoulder::None,
        ..hickory()
    };
    let made = made(&hourglass(), &handle);
    for level in &made.levels {
        let open = level.height_mm.abs() / 15.0;
        assert_relative_eq!(level.gap_across_mm, open, epsilon = 1e-12);
        assert_eq!(level.wood.width_mm, 21.0);
    }
    assert!(
        made.parts
            .iter()
            .all(|part| part.part != HandlePart::Shoulder)
    );
}

#[test]
fn the_thick_end_left_out_is_worked_from_mouth_waist_kerf_and_crush() {
    let handle = Handle {
        kerf: kerf(40.0, 2.0),
        wedge: wedge(30.0, None, 0.5),
        ..hickory()
    };
    let made = made(&hourglass(), &handle);
    // 23 − (21 − 2) + 0.5.
    let thick = made.wedge.expect("a wedge").thick_mm;
    assert_relative_eq!(thick, 4.5, max_relative = 1e-12);
    for level in &made.levels[4..] {
        // The wedge falls to nothing at the waist; the halves part once it is thicker than the kerf.
        let here = 4.5 * level.height_mm / 30.0;
        let parted = (here - 2.0).max(0.0);
        let flare = level.height_mm / 15.0;
        assert_relative_eq!(
            level.gap_across_mm,
            (flare - parted).max(0.0),
            epsilon = 1e-12
        );
        assert_relative_eq!(
            level.crush_mm[1],
            (parted - flare).max(0.0),
            epsilon = 1e-12
        );
    }
}

#[test]
fn a_tongue_that_stands_out_takes_a_wedge_that_is_thicker_at_its_end() {
    let handle = Handle {
        proud: mm(5.0),
        kerf: kerf(40.0, 2.0),
        wedge: wedge(35.0, None, 0.5),
        ..hickory()
    };
    let made = made(&hourglass(), &handle);
    // 4.5 mm at the mouth, 30 mm above the tip.
    let thick = made.wedge.expect("a wedge").thick_mm;
    assert_relative_eq!(thick, 4.5 * 35.0 / 30.0, max_relative = 1e-12);
    let top = made.levels.last().expect("levels");
    assert!(top.gap_across_mm < 1e-12);
    assert_relative_eq!(top.crush_mm[1], 0.5, max_relative = 1e-9);
    assert_eq!(made.tongue.length_mm, 65.0);
    assert_eq!(made.tongue.proud_mm, 5.0);
}

#[test]
fn a_thin_wedge_leaves_a_gap_and_a_thick_one_crushes() {
    let top = |thick: f64| {
        let handle = Handle {
            kerf: kerf(40.0, 2.0),
            wedge: wedge(30.0, Some(thick), 0.5),
            ..hickory()
        };
        let made = made(&hourglass(), &handle);
        made.levels[8]
    };
    assert_relative_eq!(top(3.0).gap_across_mm, 1.0, max_relative = 1e-12);
    assert_relative_eq!(top(6.0).crush_mm[1], 2.0, max_relative = 1e-12);
    assert_eq!(top(6.0).gap_across_mm, 0.0);
    // No thicker than the kerf, it parts nothing.
    assert_relative_eq!(top(2.0).gap_across_mm, 2.0, max_relative = 1e-12);
}

#[test]
fn a_cross_wedge_fills_the_mouth_along() {
    let handle = Handle {
        cross_wedge: Some(CrossWedge {
            length: mm(20.0),
            thick: mm(1.5),
            width: mm(16.0),
        }),
        ..hickory()
    };
    let made = made(&hourglass(), &handle);
    let [.., third, top] = &made.levels[..] else {
        panic!("levels");
    };
    assert_relative_eq!(top.gap_along_mm, 0.5, max_relative = 1e-12);
    // 7.5 mm below: the eye is 1.5 mm longer than the tongue, the wedge 1.5·12.5/20 mm thick.
    assert_relative_eq!(third.gap_along_mm, 1.5 - 0.9375, max_relative = 1e-12);
    assert_relative_eq!(top.gap_across_mm, 2.0, max_relative = 1e-12);
    let steel = made.parts.last().expect("parts");
    assert_eq!(steel.part, HandlePart::CrossWedge);
    assert_relative_eq!(
        steel.mass_kg,
        0.5 * 1.5 * 16.0 * 20.0 * 7850e-9,
        max_relative = 1e-12
    );
}

#[test]
fn a_tongue_passes_a_mouth_that_is_narrower_than_the_waist() {
    let sizes = [
        ("eye.top.width", 18.0),
        ("eye.bottom.length", 26.0),
        ("eye.waist.length", 28.0),
        ("eye.waist.width", 19.0),
    ];
    let made = made(
        &head("rounding", &sizes),
        &plain(340.0, &[(0.0, 36.0, 28.0)]),
    );
    let section = made.tongue.section;
    assert_eq!((section.length_mm, section.width_mm), (26.0, 18.0));
    // Obround as the eye is.
    assert_eq!(made.tongue.corner_mm, [9.0, 9.0]);
    // The shoulder cannot be longer than the mouth it came through, and is as wide as the wall lets it.
    let [bottom, next, ..] = &made.levels[..] else {
        panic!("levels");
    };
    assert_eq!(bottom.wood.length_mm, 26.0);
    assert_eq!(next.wood.length_mm, 26.0);
    assert!(next.gap_along_mm > 0.0 && next.gap_across_mm < 1e-12);
}

#[test]
fn the_corners_of_a_tongue_are_as_round_as_the_roundest_level() {
    let mut design = design("rounding", &[]);
    design.eye.outline = EyeOutline::RoundedRectangle;
    for (level, radius) in [
        (&mut design.eye.top, 3.0),
        (&mut design.eye.waist, 2.0),
        (&mut design.eye.bottom, 5.0),
    ] {
        level.radius = Some(mm(radius));
    }
    let solid = design.build().expect("a sound head");
    let made = made(&solid, &plain(340.0, &[(0.0, 36.0, 28.0)]));
    assert_eq!(made.tongue.corner_mm, [5.0, 5.0]);
}

#[test]
fn broken_mouth_corners_change_nothing() {
    let mut design = design("rounding", &[]);
    let handle = Handle::usual(&design.build().expect("sound"), System::Metric);
    let plain = made(&design.build().expect("sound"), &handle);
    design.eye.mouth_break = Some(mm(1.0));
    let broken = made(&design.build().expect("sound"), &handle);
    assert_eq!(plain, broken);
}

#[test]
fn the_outlines_enclose_the_parts() {
    let solid = hourglass();
    let handle = Handle {
        kerf: kerf(40.0, 2.0),
        wedge: wedge(30.0, None, 0.5),
        ..plain(400.0, &[(0.0, 40.0, 30.0), (40.0, 36.0, 28.0)])
    };
    let made = made(&solid, &handle);
    let parts: Vec<HandlePart> = made.silhouettes.iter().map(|line| line.part).collect();
    assert_eq!(
        parts,
        [HandlePart::Stem, HandlePart::Tongue, HandlePart::Wedge]
    );
    let stem = &made.silhouettes[0];
    assert_eq!(
        stem.side,
        [
            [20.0, -370.0],
            [18.0, -330.0],
            [18.0, -30.0],
            [-18.0, -30.0],
            [-18.0, -330.0],
            [-20.0, -370.0]
        ]
    );
    assert_eq!(stem.front[0], [15.0, -370.0]);
    // The same as half-sizes: the stem's corners, then the mouth, 30 × 23, at the same place.
    let [butt, _, mouth, filled, ..] = &made.outline[..] else {
        panic!("an outline");
    };
    assert_eq!((butt.along_mm, butt.half_depth_mm), (-370.0, 20.0));
    assert_eq!((mouth.along_mm, filled.along_mm), (-30.0, -30.0));
    assert_eq!((mouth.half_width_mm, filled.half_width_mm), (14.0, 11.5));
    // Shoelace over the wood in the eye, seen across the cheeks: 29 mm long below the waist on average.
    let area = |points: &[[f64; 2]]| -> f64 {
        let next = points.iter().cycle().skip(1);
        let twice: f64 = points
            .iter()
            .zip(next)
            .map(|(a, b)| a[0] * b[1] - b[0] * a[1])
            .sum();
        0.5 * twice.abs()
    };
    assert_relative_eq!(
        area(&made.silhouettes[1].side),
        29.0 * 30.0 + 28.0 * 30.0,
        max_relative = 1e-12
    );
    assert_relative_eq!(
        area(&made.silhouettes[2].front),
        0.5 * 4.5 * 30.0,
        max_relative = 1e-12
    );
}
