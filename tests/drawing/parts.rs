//! Heads with every part, drawn: outlines are held against points of the steel that are looked
//! for one by one in the definition.

use headwright::design::{Design, Edit, Part, Side, Size};
use headwright::drawing::{
    Base, Drawing, Point, Projection, Shape, Stroke, Style, View, draw_head, layout,
};
use headwright::solid::{Cap, Head, Rim, Section, Tail, Tip};
use headwright::units::{Angle, Length, System};

use super::references::reference_heads;
use super::{check_nothing_touches, measured, setting};

/// What a drawn outline may be off, mm.
const CLOSE: f64 = 0.05;

fn lift(design: &Design) -> Head<f64> {
    Head::lift(design, &mut |_, number| number)
}

fn drawn(design: &Design) -> (Head<f64>, Drawing) {
    let head = lift(design);
    let drawing = draw_head(&head, design, None, System::Metric);
    (head, drawing)
}

fn with(design: &Design, part: Part, size: Size, number: f64) -> Design {
    let dim = part.size(size);
    if dim.is_angle() {
        let angle = Angle::degrees(number);
        let there = design.size(dim).is_some();
        assert!(there, "{dim} is not there");
        design.apply(Edit::set(dim, angle))
    } else {
        design.apply(Edit::set(dim, Length::mm(number)))
    }
}

fn named(name: &str) -> Design {
    let found = reference_heads().into_iter().find(|(own, _)| own == name);
    found.expect("a reference head").1
}

/// The reference heads, and more that are turned, fallen, leaning and swollen farther.
fn heads() -> Vec<(String, Design)> {
    let mut heads = reference_heads();
    let back = Part::Pein(Side::Back);
    for degrees in [-90.0, -70.0, -45.0, 8.0, 20.0, 62.0] {
        for (rocker, drop) in [(40.0, 9.0), (300.0, -6.0)] {
            let mut design = named("Two peins");
            design = with(&design, back, Size::Direction, degrees);
            design = with(&design, back, Size::Rocker, rocker);
            design = with(&design, Part::End(Side::Back), Size::Drop, drop);
            heads.push((format!("pein at {degrees}°, rocker {rocker}"), design));
        }
    }
    let mut design = named("Straight pein and ball");
    design = with(&design, back, Size::Direction, 40.0);
    design = with(&design, back, Size::CornerBreak, 5.0);
    design = with(&design, back, Size::Edge, 41.0);
    heads.push(("flared, broken, askew".to_owned(), design));
    let mut design = named("Ball and face");
    design = with(&design, Part::End(Side::Front), Size::Drop, -7.0);
    design = with(&design, Part::End(Side::Back), Size::Drop, 12.0);
    heads.push(("fallen far".to_owned(), design));
    let mut design = named("Swell and lugs");
    design = with(&design, Part::Lugs, Size::Top, 9.0);
    design = with(&design, Part::Lugs, Size::Bottom, 0.0);
    design = with(&design, Part::Cheeks, Size::Swell, 6.0);
    heads.push(("swollen, one lug".to_owned(), design));
    let mut design = named("Everything");
    design = with(&design, Part::Eye, Size::CockAlong, 4.0);
    design = with(&design, Part::Eye, Size::CockAcross, -5.0);
    design = with(&design, Part::Eye, Size::MouthBreak, 2.5);
    heads.push(("leaning".to_owned(), design));
    heads
}

fn in_section(section: &Section<f64>, y: f64, z: f64) -> bool {
    z.abs() <= section.b && y.abs() <= section.half_width_at(z)
}

/// Whether a point before the face is steel: its inset is looked for by halving.
fn in_cap(cap: &Cap<f64>, u: f64, y: f64, z: f64) -> bool {
    if !in_section(&cap.outline, y, z) {
        return false;
    }
    let (mut inset, mut beyond) = (0.0, cap.outline.a.min(cap.outline.b));
    for _ in 0..50 {
        let middle = 0.5 * (inset + beyond);
        let (across, up) = cap.shrink(middle);
        if in_section(&cap.outline.shrunk(across, up), y, z) {
            inset = middle;
        } else {
            beyond = middle;
        }
    }
    let drop = match cap.rim {
        _ if inset >= cap.edge => 0.0,
        Rim::Sharp => 0.0,
        Rim::Chamfered => cap.edge - inset,
        Rim::Rounded => cap.edge - (cap.edge.powi(2) - (cap.edge - inset).powi(2)).sqrt(),
    };
    u <= cap.reach - cap.sag(y * y + z * z) - drop
}

fn in_tail(tail: &Tail<f64>, u: f64, y: f64, z: f64) -> bool {
    if let Some(run) = tail.runs.iter().find(|run| u <= run.to) {
        let station = run.at((u - run.from) / (run.to - run.from));
        return in_section(&station.section, y, z - station.centre);
    }
    match &tail.tip {
        Tip::Face(cap) => in_cap(cap, u, y, z - tail.tip_centre()),
        Tip::Ball(ball) => (u - ball.centre()).hypot(y.hypot(z - tail.tip_centre())) <= ball.radius,
        Tip::Pein(pein) => pein.contains(u, y, z - tail.drop.at(u)),
    }
}

/// Whether a point is steel, the eye not yet taken out.
fn in_body(head: &Head<f64>, [x, y, z]: [f64; 3]) -> bool {
    let side = if x < 0.0 { Side::Back } else { Side::Front };
    in_tail(head.end(side), x.abs(), y, z)
}

/// Whether there is steel in front of or behind a point of a view.
fn is_seen(head: &Head<f64>, view: View, [right, up]: Point) -> bool {
    let (far, step) = match view {
        View::Face => (95.0, 0.04),
        View::Side | View::Plan => (45.0, 0.08),
    };
    let steps = (far / step) as i32;
    (-steps..=steps).any(|k| {
        let deep = f64::from(k) * step;
        let at = match view {
            View::Side => [right, deep, up],
            View::Plan => [right, up, deep],
            View::Face => [deep, right, up],
        };
        in_body(head, at)
    })
}

fn silhouette(drawing: &Drawing, view: View) -> Shape {
    let steel = |shape: &&Shape| shape.view == view && shape.stroke == Stroke::Steel;
    let mut found = drawing.shapes.iter().filter(steel);
    let shape = found.next().expect("an area of steel").clone();
    assert_eq!(found.next(), None, "{view:?} has one area of steel");
    shape
}

#[track_caller]
fn check_silhouette(name: &str, head: &Head<f64>, drawing: &Drawing, view: View) {
    let points = silhouette(drawing, view).points;
    let next = |k: usize| points[(k + 1) % points.len()];
    let area: f64 = (0..points.len())
        .map(|k| points[k][0] * next(k)[1] - next(k)[0] * points[k][1])
        .sum();
    let half_plan = view == View::Plan && points.iter().all(|point| point[1] >= 0.0);
    for (k, from) in points.iter().enumerate() {
        let to = next(k);
        let way = [to[0] - from[0], to[1] - from[1]];
        let length = way[0].hypot(way[1]);
        let on_axis = half_plan && from[1] == 0.0 && to[1] == 0.0;
        if length < 1e-3 || on_axis {
            continue;
        }
        let normal = [way[1] / length, -way[0] / length].map(|part| part * area.signum());
        for share in [0.02, 0.5, 0.98] {
            let moved = |by: f64| [0, 1].map(|k| from[k] + way[k] * share + normal[k] * by);
            assert!(
                !is_seen(head, view, moved(CLOSE)),
                "{name}, {view:?}: steel beyond {:?}",
                moved(0.0)
            );
            assert!(
                is_seen(head, view, moved(-CLOSE)),
                "{name}, {view:?}: no steel within {:?}",
                moved(0.0)
            );
        }
    }
}

#[test]
fn the_outline_of_the_side_view_keeps_to_the_steel() {
    for (name, design) in heads() {
        let (head, drawing) = drawn(&design);
        check_silhouette(&name, &head, &drawing, View::Side);
    }
}

#[test]
fn the_outline_of_the_plan_keeps_to_the_steel() {
    for (name, design) in heads() {
        let (head, drawing) = drawn(&design);
        check_silhouette(&name, &head, &drawing, View::Plan);
    }
}

#[test]
fn the_outline_of_the_view_of_the_face_keeps_to_the_steel() {
    for (name, design) in heads() {
        let (head, drawing) = drawn(&design);
        check_silhouette(&name, &head, &drawing, View::Face);
    }
}

#[test]
fn a_plan_is_whole_where_its_halves_differ_and_half_where_they_do_not() {
    for (name, design) in heads() {
        let (head, drawing) = drawn(&design);
        let askew = head.ends.iter().any(|tail| match &tail.tip {
            Tip::Pein(pein) => (pein.direction[0] * pein.direction[1]).abs() > 1e-6,
            Tip::Face(_) | Tip::Ball(_) => false,
        });
        let leans = head.eye.lean.is_some_and(|lean| lean.across != 0.0);
        let low = drawing.extent(View::Plan).low[1];
        assert_eq!(low < 0.0, askew || leans, "{name}: {low}");
        let wide = setting(1040.0, Style::Desktop, Base::Key, None);
        let noted = !layout(&drawing, &wide).notes.is_empty();
        assert_eq!(noted, low == 0.0, "{name}: the remark on the half plan");
    }
}

/// The eye's outline at the height where it leaves the block at (x, y): how far inside it a
/// point lies, from its middle, in shares.
fn inside_eye(head: &Head<f64>, [x, y]: Point, z: f64) -> bool {
    let [middle_x, middle_y] = head.eye.centre(z);
    in_section(&head.eye.at(z).section(), x - middle_x, y - middle_y)
}

#[test]
fn the_mouths_lie_on_the_wall_of_the_eye_and_on_the_surface_of_the_block() {
    for (name, design) in heads() {
        let (head, drawing) = drawn(&design);
        for (stroke, way) in [(Stroke::Opening, 1.0), (Stroke::Hidden, -1.0)] {
            let shapes = drawing.shapes.iter();
            let mut mouths = shapes.filter(|s| s.view == View::Plan && s.stroke == stroke);
            let mouth = mouths.next().expect("the head has mouths that differ");
            assert!(mouth.points.len() > 12);
            for point in &mouth.points {
                let [x, y] = *point;
                // The surface at this place, looked for from above or below.
                let steel = |k: &i32| in_body(&head, [x, y, way * f64::from(*k) * 1e-3]);
                let k = (0..60_000)
                    .rev()
                    .find(steel)
                    .expect("it lies over the block");
                let z = way * f64::from(k) * 1e-3;
                let [middle_x, middle_y] = head.eye.centre(z);
                let far = (x - middle_x).hypot(y - middle_y);
                let moved = |by: f64| {
                    let share = 1.0 + by / far;
                    [
                        middle_x + (x - middle_x) * share,
                        middle_y + (y - middle_y) * share,
                    ]
                };
                assert!(
                    inside_eye(&head, moved(-CLOSE), z),
                    "{name}: outside {point:?}"
                );
                assert!(
                    !inside_eye(&head, moved(CLOSE), z),
                    "{name}: inside {point:?}"
                );
            }
        }
    }
}

#[test]
fn the_hidden_walls_of_the_eye_are_its_farthest_points_at_every_height() {
    for (name, design) in heads() {
        let (head, drawing) = drawn(&design);
        for view in [View::Side, View::Face] {
            let shapes = drawing.shapes.iter();
            let walls: Vec<&Shape> = shapes
                .filter(|s| s.view == view && s.stroke == Stroke::Hidden)
                .collect();
            assert_eq!(walls.len(), 2, "{name}");
            for wall in walls {
                let middle: f64 = wall.points.iter().map(|point| point[0]).sum();
                for pair in wall.points.windows(2) {
                    for share in [0.0, 0.25, 0.5] {
                        let [right, z] =
                            [0, 1].map(|k| pair[0][k] + (pair[1][k] - pair[0][k]) * share);
                        let seen = |off: f64| {
                            (-4000..4000).any(|k| {
                                let deep = f64::from(k) * 0.01;
                                let at = right + off * middle.signum();
                                let point = if view == View::Side {
                                    [at, deep]
                                } else {
                                    [deep, at]
                                };
                                inside_eye(&head, point, z)
                            })
                        };
                        assert!(seen(-CLOSE), "{name}, {view:?}: beyond the wall at {z}");
                        assert!(!seen(CLOSE), "{name}, {view:?}: within the wall at {z}");
                    }
                }
            }
        }
    }
}

#[test]
fn what_is_drawn_inside_lies_within_the_outline() {
    for (name, design) in heads() {
        let (head, drawing) = drawn(&design);
        for shape in &drawing.shapes {
            if shape.stroke == Stroke::Edge {
                for point in &shape.points {
                    // An edge that ends on the outline may stand on it by a line's width.
                    let near = |by: f64| {
                        let turns = (0..16).map(|k| f64::from(k) * std::f64::consts::PI / 8.0);
                        turns
                            .map(|turn| [point[0] + by * turn.cos(), point[1] + by * turn.sin()])
                            .any(|at| is_seen(&head, shape.view, at))
                    };
                    assert!(
                        near(0.0) || near(CLOSE),
                        "{name}, {:?}: {point:?}",
                        shape.view
                    );
                }
            }
        }
    }
}

#[test]
fn the_slab_of_a_pein_is_drawn_with_its_edges() {
    // Seen from above, a cross pein shows where its slopes cut the chamfers of its arm: from the
    // height of the arm down to the nose.
    let (head, drawing) = drawn(&named("Cross pein"));
    let Tip::Pein(pein) = &head.end(Side::Back).tip else {
        panic!("a pein");
    };
    let edges = drawing.shapes.iter().filter(|shape| {
        shape.view == View::Plan && shape.stroke == Stroke::Edge && shape.points.len() > 3
    });
    let longest = edges
        .map(|shape| {
            shape
                .points
                .iter()
                .map(|p| -p[0])
                .filter(|u| *u >= pein.start)
        })
        .map(|along| {
            along.fold((f64::INFINITY, 0.0_f64), |(low, high), u| {
                (low.min(u), high.max(u))
            })
        })
        .map(|(low, high)| high - low)
        .fold(0.0, f64::max);
    assert!(longest > 0.2 * pein.length(), "{longest}");
}

#[test]
fn sizes_of_every_part_are_anchored_as_far_apart_as_they_say() {
    let mut count = 0;
    for (name, design) in heads() {
        let (_, drawing) = drawn(&design);
        for dimension in &drawing.dimensions {
            assert!(
                !dimension.forms.is_empty(),
                "{name}: {} has no place",
                dimension.spoken
            );
            for (view, form) in &dimension.forms {
                if let Some(mm) = measured(form) {
                    assert!(
                        (mm - dimension.mm.abs()).abs() < 1e-9,
                        "{name}: {} measures {mm} in {view:?}",
                        dimension.spoken
                    );
                    count += 1;
                }
            }
        }
    }
    assert!(count > 500, "only {count} dimensions could be measured");
}

#[test]
fn no_text_touches_another_on_heads_with_every_part() {
    for (name, design) in reference_heads() {
        let head = lift(&design);
        let drawing = draw_head(&head, &design, None, System::Metric);
        for (width, style) in super::WIDTHS {
            for projection in [Projection::Third, Projection::First] {
                for (base, open) in [
                    (Base::All, None),
                    (Base::Key, None),
                    (Base::None, Some(Part::Cheeks)),
                    (Base::None, Some(Part::Eye)),
                    (Base::None, Some(Part::End(Side::Back))),
                ] {
                    let mut wanted = setting(width, style, base, open);
                    wanted.projection = projection;
                    let laid = layout(&drawing, &wanted);
                    check_nothing_touches(&laid, &format!("{name} {wanted:?}"));
                }
            }
        }
    }
}

#[test]
fn the_views_of_a_head_with_a_whole_plan_stand_apart() {
    let (_, drawing) = drawn(&named("Everything"));
    for projection in [Projection::Third, Projection::First] {
        let mut wanted = setting(1040.0, Style::Desktop, Base::None, None);
        wanted.projection = projection;
        let laid = layout(&drawing, &wanted);
        // Areas come first: that of the side view before that of the plan.
        let range = |index: usize| {
            let heights = laid.shapes[index].points.iter().map(|point| point[1]);
            heights.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), y| {
                (low.min(y), high.max(y))
            })
        };
        let (side, plan) = (range(0), range(1));
        let apart = (side.0 - plan.1).max(plan.0 - side.1);
        assert!(apart > 40.0, "{projection:?}: {apart}");
        assert_eq!(plan.1 < side.0, projection == Projection::Third);
    }
}
