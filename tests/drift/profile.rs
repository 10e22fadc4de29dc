//! The last drift's profile against the eye's own sections, and its drawing.

use approx::assert_relative_eq;
use headwright::drift::{CHECK_LINE_MM, Drifting, Profile, USUAL_TAPER, profile_svg};
use headwright::solid::Plug;
use headwright::units::System;

use super::{eye, head, in_steps, planned, slot};

/// The row of points at `along`, straight between two.
fn read_off(row: &[[f64; 2]], along: f64) -> f64 {
    let pair = row.windows(2).find(|pair| along <= pair[1][0]);
    let [[from, low], [to, high]] = pair.map_or([row[0], row[1]], |pair| [pair[0], pair[1]]);
    low + (high - low) * (along - from) / (to - from)
}

/// The last drift must have the eye's sections at every height, within `accuracy` mm.
#[track_caller]
pub fn check_profile(profile: &Profile, plug: &Plug<f64>, from_top: bool, accuracy: f64) {
    let [low, high] = plug.mouths;
    let mouth = if from_top { high } else { low };
    let depth = (mouth - plug.waist_height).abs();
    for step in 0..=40 {
        let along = depth * f64::from(step) / 40.0;
        let z = if from_top {
            mouth - along
        } else {
            mouth + along
        };
        let section = plug.at(z);
        assert_relative_eq!(
            read_off(&profile.length_plane, along),
            section.p,
            epsilon = accuracy
        );
        assert_relative_eq!(
            read_off(&profile.width_plane, along),
            section.q,
            epsilon = accuracy
        );
    }
    for (cut, z) in profile.sections.iter().zip([mouth, plug.waist_height]) {
        let section = plug.at(z);
        assert_relative_eq!(cut.size.length_mm, 2.0 * section.p, epsilon = 1e-9);
        assert_relative_eq!(cut.size.width_mm, 2.0 * section.q, epsilon = 1e-9);
        let turned = section.section();
        for [x, y] in &cut.outline {
            // Nowhere beyond the eye's own outline, and on it where it bends.
            assert!(x.abs() <= turned.half_width_at(y.abs().min(section.q)) + 1e-6);
        }
        assert!((cut.at_mm - (mouth - z).abs()).abs() < 1e-9);
    }
    let tip = &profile.sections[2];
    assert!(tip.at_mm >= depth + 10.0 && tip.size.length_mm <= 2.0 * plug.waist.p);
}

#[test]
fn the_last_drift_has_the_eyes_sections_at_every_height() {
    let solid = head(
        "square",
        &[
            ("eye.waist_height", "-2 mm"),
            ("eye.top.width", "22 mm"),
            ("eye.bottom.length", "31 mm"),
        ],
    );
    let opened = planned(&solid, &Drifting::default());
    for (profile, from_top) in opened.profiles.iter().zip([true, false]) {
        check_profile(profile, &eye(&solid), from_top, 1e-9);
    }
    assert!(!opened.profiles[0].is_as(&opened.profiles[1]));
}

#[test]
fn the_last_drift_runs_out_to_the_opening_before_it() {
    let opened = planned(&head("rounding", &[]), &in_steps(3, slot(25.0, 6.0)));
    let [top, bottom] = &opened.profiles;
    assert!(top.is_as(bottom));
    let before = opened.drifts[1].section;
    let tip = &top.sections[2];
    assert_relative_eq!(tip.size.length_mm, before.length_mm, max_relative = 1e-12);
    assert_relative_eq!(tip.size.width_mm, before.width_mm, max_relative = 1e-12);
    // The width has farther to go: 19 mm to that of the drift before, a tenth for every mm.
    let run_out = (19.0 - before.width_mm) / USUAL_TAPER;
    assert_relative_eq!(tip.at_mm, 21.0 + run_out, max_relative = 1e-12);
}

#[test]
fn the_drawing_of_the_last_drift_is_in_millimetres() {
    let solid = head("rounding", &[]);
    let alike = profile_svg(&planned(&solid, &Drifting::default()), System::Metric);
    let (_, size) = alike.split_once("width=\"").expect("a width");
    let (width, rest) = size.split_once("mm\" height=\"").expect("mm");
    let (height, rest) = rest.split_once("mm\" viewBox=\"0 0 ").expect("mm");
    let (units, _) = rest.split_once('"').expect("a view box");
    // One user unit is one millimetre.
    assert_eq!(units, format!("{width} {height}"));
    let number = |text: &str| text.parse::<f64>().expect("a number");
    let points = |class: &str| -> Vec<Vec<[f64; 2]>> {
        alike
            .split(&format!("<path class=\"{class}\" d=\"M"))
            .skip(1)
            .map(|rest| rest.split('"').next().unwrap_or_default())
            .map(|path| {
                let points = path.trim_end_matches('Z').split('L');
                let point = |text: &str| {
                    let (x, y) = text.split_once(' ').expect("two numbers");
                    [number(x), number(y)]
                };
                points.map(point).collect()
            })
            .collect()
    };
    let span = |points: &[[f64; 2]], axis: usize| {
        let of = points.iter().map(|point| point[axis]);
        of.clone().fold(f64::MIN, f64::max) - of.fold(f64::MAX, f64::min)
    };
    let check = points("check");
    assert_relative_eq!(span(&check[0], 0), CHECK_LINE_MM, epsilon = 1e-9);
    let outlines = points("outline");
    // Two planes and three sections; numbers are written to hundredths.
    assert_eq!(outlines.len(), 5);
    for (outline, across) in outlines.iter().zip([30.0, 21.0, 30.0, 28.0]) {
        assert_relative_eq!(span(outline, 0), across, epsilon = 0.011);
    }
    for (outline, up) in outlines[2..].iter().zip([21.0, 19.0]) {
        assert_relative_eq!(span(outline, 1), up, epsilon = 0.011);
    }
    for [x, y] in outlines.iter().flatten() {
        assert!(*x > 0.0 && *x < number(width) && *y > 0.0 && *y < number(height));
    }
    assert!(alike.contains("from either mouth") && alike.contains("waist 28 × 19 mm"));
    let lopsided = head("rounding", &[("eye.waist_height", "3 mm")]);
    let two = profile_svg(&planned(&lopsided, &Drifting::default()), System::Imperial);
    assert!(two.contains("from the top mouth") && two.contains("from the bottom mouth"));
    assert_eq!(two.matches("class=\"outline\"").count(), 10);
}
