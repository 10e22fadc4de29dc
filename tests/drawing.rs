//! The working drawing: texts never touch, every size stands on it once, shapes are true.

use expect_test::expect_file;
use headwright::design::{
    Design, Dim, Edit, Hold, Part, Quantity, Side, Size, starter, starter_names,
};
use headwright::drawing::{
    Base, Drawing, Form, Key, Laid, Projection, Setting, Show, State, Stroke, Style, View, draw,
    layout, svg,
};
use headwright::mass::mass_properties;
use headwright::mesh::tessellate;
use headwright::solid::Solid;
use headwright::units::{Length, System};
use proptest::test_runner::{Config, RngAlgorithm, TestRng, TestRunner};

mod common;
#[path = "drawing/cut.rs"]
mod cut;
#[path = "drawing/leaders.rs"]
mod leaders;
#[path = "drawing/parts.rs"]
mod parts;
#[path = "common/references.rs"]
mod references;
#[path = "drawing/traced.rs"]
mod traced;

const WIDTHS: [(f64, Style); 4] = [
    (328.0, Style::Phone),
    (720.0, Style::Desktop),
    (828.0, Style::Desktop),
    (1500.0, Style::Desktop),
];

fn drawn(design: &Design, system: System) -> Drawing {
    let solid = design.build().expect("a sound design");
    let properties = mass_properties(&solid);
    draw(&solid, design, Some(&properties), system)
}

fn setting(width: f64, style: Style, base: Base, open: Option<Part>) -> Setting {
    Setting {
        width,
        style,
        projection: Projection::Third,
        show: Show {
            base,
            open,
            in_hand: None,
        },
        title: [0.0; 2],
        field: None,
        zoom: 1.0,
        still: None,
    }
}

/// Every way in which a head is shown: all sizes, the key sizes, each part by itself.
fn settings() -> Vec<Setting> {
    let mut settings = Vec::new();
    for (width, style) in WIDTHS {
        for projection in [Projection::Third, Projection::First] {
            for (base, open) in [
                (Base::All, None),
                (Base::Key, None),
                (Base::Key, Some(Part::Neck(Side::Front, 0))),
                (Base::None, None),
                (Base::None, Some(Part::Cheeks)),
                (Base::None, Some(Part::Eye)),
                (Base::None, Some(Part::Neck(Side::Back, 0))),
                (Base::None, Some(Part::End(Side::Front))),
                (Base::None, Some(Part::End(Side::Back))),
            ] {
                settings.push(Setting {
                    projection,
                    ..setting(width, style, base, open)
                });
            }
        }
    }
    settings
}

#[track_caller]
fn check_nothing_touches(laid: &Laid, what: &str) {
    for (index, size) in laid.sizes.iter().enumerate() {
        let rect = size.text.rect;
        assert!(
            rect.x >= 0.0
                && rect.x + rect.w <= laid.width
                && rect.y >= 0.0
                && rect.y + rect.h <= laid.height,
            "{what}: {} stands off the sheet: {rect:?}",
            size.spoken
        );
        assert!(
            size.press.w >= 44.0 && size.press.h >= 44.0,
            "{what}: {} is too small to press",
            size.spoken
        );
        for other in &laid.sizes[index + 1..] {
            assert_eq!(
                rect.overlap(&other.text.rect),
                None,
                "{what}: {} touches {}",
                size.spoken,
                other.spoken
            );
        }
    }
}

#[test]
fn no_text_touches_another_on_any_starter_at_any_width() {
    for name in starter_names() {
        let design = starter(name).expect("a starter");
        for system in [System::Metric, System::Imperial] {
            let drawing = drawn(&design, system);
            for setting in settings() {
                let laid = layout(&drawing, &setting);
                check_nothing_touches(&laid, &format!("{name} {system:?} {setting:?}"));
            }
        }
    }
}

#[test]
fn no_text_touches_another_on_random_heads() {
    let config = Config {
        cases: 300,
        failure_persistence: None,
        ..Config::default()
    };
    let seed = [7; 32];
    let rng = TestRng::from_seed(RngAlgorithm::ChaCha, &seed);
    let mut runner = TestRunner::new_with_rng(config, rng);
    runner
        .run(&common::sound_designs(), |design| {
            let drawing = drawn(&design, System::Metric);
            for setting in settings() {
                let laid = layout(&drawing, &setting);
                check_nothing_touches(&laid, &format!("{setting:?}"));
            }
            Ok(())
        })
        .expect("every head is laid out without a touch");
}

#[test]
fn no_text_touches_another_when_the_head_is_drawn_larger() {
    for name in starter_names() {
        let drawing = drawn(&starter(name).expect("a starter"), System::Metric);
        for (width, style) in WIDTHS {
            for zoom in [1.5, 3.0, 5.0] {
                let setting = Setting {
                    zoom,
                    ..setting(width * zoom, style, Base::All, None)
                };
                let laid = layout(&drawing, &setting);
                check_nothing_touches(&laid, &format!("{name} {setting:?}"));
                let plain = Setting {
                    zoom: 1.0,
                    width,
                    ..setting
                };
                assert!(laid.still.scale > layout(&drawing, &plain).still.scale);
            }
        }
    }
}

#[test]
fn a_sheet_that_stands_still_keeps_its_scale_and_the_handle_axis() {
    let design = starter("rounding").expect("a starter");
    let setting = setting(1040.0, Style::Desktop, Base::Key, None);
    let before = layout(&drawn(&design, System::Metric), &setting);
    let reach = Part::End(Side::Back).size(Size::Reach);
    let longer = design.size(reach).expect("a reach");
    let longer = design.apply(Edit::Set(reach, longer.with_number(longer.number() + 9.0)));
    let still = Setting {
        still: Some(before.still),
        ..setting
    };
    let drawing = drawn(&longer, System::Metric);
    assert_eq!(layout(&drawing, &still).still, before.still);
    assert_ne!(layout(&drawing, &setting).still, before.still);
}

#[test]
fn on_a_desk_no_dimension_line_runs_through_another_key_size() {
    for name in starter_names() {
        let drawing = drawn(&starter(name).expect("a starter"), System::Metric);
        for width in [1040.0, 1500.0] {
            let laid = layout(&drawing, &setting(width, Style::Desktop, Base::Key, None));
            for size in &laid.sizes {
                for other in laid.sizes.iter().filter(|other| other.key != size.key) {
                    assert!(
                        !other
                            .lines
                            .iter()
                            .any(|line| size.text.rect.is_crossed(line)),
                        "{name} at {width}: a line of {} runs through {}",
                        other.spoken,
                        size.spoken
                    );
                }
            }
        }
    }
}

#[test]
fn every_size_of_the_design_stands_on_the_full_drawing_once() {
    for name in starter_names() {
        let design = starter(name).expect("a starter");
        let drawing = drawn(&design, System::Metric);
        let laid = layout(&drawing, &setting(1500.0, Style::Desktop, Base::All, None));
        let keys: Vec<Key> = laid.sizes.iter().map(|size| size.key).collect();
        let mut expected: Vec<Key> = design
            .sizes()
            .into_iter()
            .map(|(dim, _)| Key::Size(dim))
            .collect();
        expected.extend([Key::Balance, Key::Overall]);
        assert_eq!(keys, expected, "{name}");
    }
}

/// What the anchors of a dimension are apart, mm.
fn measured(form: &Form) -> Option<f64> {
    Some(match form {
        Form::Level { between, .. } => (between[1][0] - between[0][0]).abs(),
        Form::Upright { between, .. } => (between[1][1] - between[0][1]).abs(),
        Form::Half { to, .. } => 2.0 * to[1],
        Form::Balance { centroid } => centroid[0].abs(),
        Form::Leader { .. } => return None,
    })
}

#[test]
fn anchors_are_as_far_apart_as_the_value_says() {
    let mut design = starter("long").expect("a starter");
    let offset = Part::Cheeks.size(Size::Offset);
    design = design.apply(Edit::set(offset, Length::mm(1.5)));
    let drawing = drawn(&design, System::Metric);
    let mut count = 0;
    for dimension in &drawing.dimensions {
        for (view, form) in &dimension.forms {
            if let Some(mm) = measured(form) {
                assert!(
                    (mm - dimension.mm.abs()).abs() < 1e-9,
                    "{} is {} but measures {mm} in {view:?}",
                    dimension.spoken,
                    dimension.mm
                );
                count += 1;
            }
        }
    }
    assert!(count > 25, "only {count} dimensions could be measured");
}

/// The greatest and least of one coordinate over all lines of a view with a stroke.
fn range(drawing: &Drawing, view: View, stroke: Stroke, axis: usize) -> (f64, f64) {
    let points = drawing
        .shapes
        .iter()
        .filter(|shape| shape.view == view && shape.stroke == stroke)
        .flat_map(|shape| &shape.points);
    points.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), point| {
        (low.min(point[axis]), high.max(point[axis]))
    })
}

fn mm(design: &Design, dim: Dim) -> f64 {
    design.size(dim).expect("the starter has it").number()
}

#[test]
fn the_views_are_as_large_as_the_head() {
    for name in starter_names() {
        let design = starter(name).expect("a starter");
        let drawing = drawn(&design, System::Metric);
        let reach = |side| mm(&design, Part::End(side).size(Size::Reach));
        let solid = design.build().expect("sound");
        let mesh = tessellate(&solid, 0.001);
        let [low, high] = mesh.bounding_box().expect("not empty");
        let check = |view, axis, low: f64, high: f64, allowed: f64| {
            let got = range(&drawing, view, Stroke::Outline, axis);
            assert!(
                (got.0 - low).abs() < allowed && (got.1 - high).abs() < allowed,
                "{name}, {view:?}, axis {axis}: {got:?}, not {low} to {high}"
            );
        };
        for view in [View::Side, View::Plan] {
            check(view, 0, -reach(Side::Back), reach(Side::Front), 1e-9);
        }
        // A plan that is drawn whole says so by what it shows below its middle.
        let whole = range(&drawing, View::Plan, Stroke::Outline, 1).0 < 0.0;
        let half = if whole { low[1] } else { 0.0 };
        check(View::Side, 1, low[2], high[2], 0.05);
        check(View::Plan, 1, half, high[1], 0.05);
        check(View::Face, 0, low[1], high[1], 0.05);
        check(View::Face, 1, low[2], high[2], 0.05);
    }
}

#[test]
fn the_side_outline_encloses_the_area_under_the_exact_sections() {
    // Twice the integral of the half-height: runs by Simpson, which is exact for cubics; land,
    // rim and crown by many trapezia of their own.
    let design = starter("short").expect("a starter");
    let solid = design.build().expect("sound");
    let mut area = 0.0;
    for tail in &solid.head().ends {
        for run in &tail.runs {
            let height = |share: f64| run.at(share).section.b;
            let mean = (height(0.0) + 4.0 * height(0.5) + height(1.0)) / 6.0;
            area += 2.0 * mean * (run.to - run.from);
        }
        let cap = tail.tip.face().expect("a face");
        let steps = 20_000;
        let b = cap.outline.b;
        for step in 0..steps {
            let h = b * (f64::from(step) + 0.5) / f64::from(steps);
            let inset = b - h;
            let drop = if inset < cap.edge {
                cap.edge - (cap.edge.powi(2) - (cap.edge - inset).powi(2)).sqrt()
            } else {
                0.0
            };
            let u = cap.reach - cap.sag(h * h) - drop;
            area += 2.0 * (u - cap.land_start()) * b / f64::from(steps);
        }
    }
    let drawing = drawn(&design, System::Metric);
    let outline = drawing
        .shapes
        .iter()
        .find(|shape| shape.view == View::Side && shape.stroke == Stroke::Outline)
        .expect("the outline");
    let points = &outline.points;
    let twice: f64 = (0..points.len())
        .map(|k| (points[k], points[(k + 1) % points.len()]))
        .map(|(p, q)| p[0] * q[1] - q[0] * p[1])
        .sum();
    // A chord may leave its curve by 0.02 mm on about 40 mm of curves in all.
    assert!(
        (twice.abs() / 2.0 - area).abs() < 0.8,
        "drawn {} mm², exact {area} mm²",
        twice.abs() / 2.0
    );
}

#[test]
fn a_face_wider_than_the_cheeks_hides_them() {
    let mut design = starter("sledge").expect("a starter");
    for side in Side::BOTH {
        let width = Part::Face(side).size(Size::Width);
        design = design.apply(Edit::set(width, Length::mm(70.0)));
    }
    let drawing = drawn(&design, System::Metric);
    let (low, high) = range(&drawing, View::Face, Stroke::Outline, 0);
    assert!((low + 35.0).abs() < 1e-9 && (high - 35.0).abs() < 1e-9);
    let (low, high) = range(&drawing, View::Face, Stroke::Edge, 0);
    let half = mm(&design, Part::Cheeks.size(Size::Width)) / 2.0;
    assert!(
        low.is_infinite() || (low >= -half - 1e-9 && high <= half + 1e-9),
        "{low} to {high}"
    );
}

#[test]
fn first_angle_turns_the_places_of_the_views_round() {
    let drawing = drawn(&starter("rounding").expect("a starter"), System::Metric);
    let place = |projection, key| {
        let setting = Setting {
            projection,
            ..setting(1040.0, Style::Desktop, Base::Key, None)
        };
        let laid = layout(&drawing, &setting);
        let found = laid.sizes.into_iter().find(|size| size.key == key);
        found.expect("it is a key size").text.at
    };
    let length = Key::Size(Part::Cheeks.size(Size::Length));
    let width = Key::Size(Part::Cheeks.size(Size::Width));
    let [third, first] = [Projection::Third, Projection::First];
    // The cheek length stands beyond the half plan, the over-all length beyond the side view.
    assert!(place(third, length)[1] < place(third, Key::Overall)[1]);
    assert!(place(first, length)[1] > place(first, Key::Overall)[1]);
    assert!(place(third, width)[0] > place(third, Key::Overall)[0]);
    assert!(place(first, width)[0] < place(first, Key::Overall)[0]);
}

#[test]
fn states_follow_freedom_limits_and_holds() {
    let mut design = starter("rounding").expect("a starter");
    let width = Part::Cheeks.size(Size::Width);
    let state = |design: &Design, key| {
        let drawing = drawn(design, System::Metric);
        let found = drawing.dimensions.into_iter().find(|d| d.key == key);
        found.expect("it is drawn").state
    };
    let free = |at_limit| State::Free { at_limit };
    assert_eq!(state(&design, Key::Size(width)), free(false));
    let high = design.free[&width].high;
    design = design.apply(Edit::set(width, high));
    assert_eq!(state(&design, Key::Size(width)), free(true));
    design = design.apply(Edit::Lock(width));
    assert_eq!(state(&design, Key::Size(width)), State::Locked);
    assert_eq!(state(&design, Key::Balance), State::Derived);
    let hold = |value: f64| Hold::About {
        value: Length::mm(value),
        tolerance: Some(Length::mm(1.0)),
    };
    design = design.apply(Edit::hold(Quantity::Balance, hold(0.0)));
    let met = State::Held("held at 0 ± 1".into());
    assert_eq!(state(&design, Key::Balance), met);
    design = design.apply(Edit::hold(Quantity::Balance, hold(-8.0)));
    let State::Problem(words) = state(&design, Key::Balance) else {
        panic!("a balance 8 mm away is not held");
    };
    assert!(words.starts_with("held at −8 ± 1, out by "), "{words}");
    let solid = design.build().expect("sound");
    let [front, back] = Side::BOTH.map(|side| solid.head().end(side).tip.reach());
    design = design.apply(Edit::hold(Quantity::Length, hold(front + back)));
    assert!(matches!(state(&design, Key::Overall), State::Held(_)));
    design = design.apply(Edit::hold(Quantity::Length, hold(front + back + 3.0)));
    let State::Problem(words) = state(&design, Key::Overall) else {
        panic!("a length 3 mm away is not held");
    };
    assert!(words.ends_with(" ± 1, out by 2"), "{words}");
}

#[test]
fn what_is_read_aloud_says_name_value_unit_and_state() {
    let design = starter("rounding").expect("a starter");
    let spoken = |system| {
        let drawing = drawn(&design, system);
        let length = Key::Size(Part::Cheeks.size(Size::Length));
        let found = drawing.dimensions.into_iter().find(|d| d.key == length);
        found.expect("it is drawn").spoken
    };
    assert_eq!(spoken(System::Metric), "cheek length 42 mm, locked");
    assert_eq!(spoken(System::Imperial), "cheek length 1.654 in, locked");
}

#[test]
fn a_size_in_hand_is_shown_though_its_part_is_closed() {
    let drawing = drawn(&starter("rounding").expect("a starter"), System::Metric);
    let edge = Part::Face(Side::Front).size(Size::Edge);
    let mut wanted = setting(1040.0, Style::Desktop, Base::Key, None);
    let has = |wanted: &Setting| {
        let laid = layout(&drawing, wanted);
        laid.sizes.iter().any(|size| size.key == Key::Size(edge))
    };
    assert!(!has(&wanted));
    wanted.show.in_hand = Some(edge);
    assert!(has(&wanted));
}

#[test]
fn the_field_in_hand_covers_no_other_size() {
    for name in starter_names() {
        let design = starter(name).expect("a starter");
        let drawing = drawn(&design, System::Metric);
        for (dim, _) in design.sizes() {
            let mut wanted = setting(1040.0, Style::Desktop, Base::Key, None);
            wanted.show.in_hand = Some(dim);
            wanted.field = Some([200.0, 112.0]);
            let laid = layout(&drawing, &wanted);
            let field = laid.field.expect("there is a size in hand");
            assert!(field.x >= 0.0 && field.x + field.w <= laid.width);
            for size in laid.sizes.iter().filter(|size| !size.in_hand) {
                assert_eq!(
                    field.overlap(&size.text.rect),
                    None,
                    "{name}: the field of {} covers {}",
                    dim.words(),
                    size.spoken
                );
            }
        }
    }
}

#[track_caller]
fn check_picture(solid: &Solid, design: &Design, system: System, setting: &Setting, file: &str) {
    let properties = mass_properties(solid);
    let drawing = draw(solid, design, Some(&properties), system);
    expect_file![format!(
        "{}/tests/drawing/{file}",
        env!("CARGO_MANIFEST_DIR")
    )]
    .assert_eq(&svg(&layout(&drawing, setting)));
}

#[test]
fn a_rounding_hammer_on_a_desk_is_drawn_as_before() {
    let design = starter("rounding").expect("a starter");
    let solid = design.build().expect("sound");
    let setting = setting(1040.0, Style::Desktop, Base::Key, None);
    check_picture(
        &solid,
        &design,
        System::Metric,
        &setting,
        "rounding-desk.svg",
    );
}

#[test]
fn a_square_faced_hammer_with_its_front_open_on_a_phone_is_drawn_as_before() {
    let design = starter("square").expect("a starter");
    let solid = design.build().expect("sound");
    let front = Some(Part::End(Side::Front));
    let setting = setting(390.0, Style::Phone, Base::None, front);
    check_picture(
        &solid,
        &design,
        System::Imperial,
        &setting,
        "square-phone.svg",
    );
}
