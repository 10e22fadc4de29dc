//! The section through the eye.

use approx::assert_relative_eq;
use headwright::design::{Design, Edit, Part, Size, starter, starter_names};
use headwright::drawing::{Cut, Point, Way, cut};
use headwright::mass::section_areas;
use headwright::units::{Angle, Length};

fn area(points: &[Point]) -> f64 {
    let next = points.iter().cycle().skip(1);
    let twice: f64 = points
        .iter()
        .zip(next)
        .map(|(a, b)| a[0] * b[1] - b[0] * a[1])
        .sum();
    0.5 * twice.abs()
}

fn across(design: &Design) -> Cut {
    cut(design.build().expect("sound").head(), Way::Across)
}

#[test]
fn the_steel_across_the_eye_has_the_area_of_the_pierced_section() {
    for name in starter_names() {
        let design = starter(name).expect("a starter");
        let solid = design.build().expect("sound");
        let cut = cut(solid.head(), Way::Across);
        let drawn: f64 = cut.steel.iter().map(|half| area(half)).sum();
        let exact = section_areas(&solid, 0.0).pierced;
        assert!(
            (drawn / exact - 1.0).abs() < 2e-3,
            "{name}: {drawn} {exact}"
        );
    }
}

#[test]
fn levels_and_walls_of_a_section_are_those_of_the_design() {
    let design = starter("cross").expect("a starter");
    let solid = design.build().expect("sound");
    for way in Way::BOTH {
        for level in cut(solid.head(), way).levels {
            let [from, to] = level.between;
            let size = design.size(level.dim).expect("a size").number();
            assert!((to[0] - from[0] - size).abs() < 1e-9, "{}", level.dim);
        }
    }
    let walls = across(&design).walls;
    let width = design
        .size(Part::Cheeks.size(Size::Width))
        .expect("a width");
    let waist = design
        .size(Part::EyeWaist.size(Size::Width))
        .expect("a width");
    let thick: f64 = walls.iter().map(|[from, to]| to[0] - from[0]).sum();
    assert!((thick - (width.number() - waist.number())).abs() < 1e-9);
    assert!(cut(solid.head(), Way::Along).walls.is_empty());
}

#[test]
fn a_cocked_eye_leaves_one_cheek_thinner_where_it_leans_to() {
    let design = starter("cross").expect("a starter");
    let lean = Part::Eye.size(Size::CockAcross);
    let high = Part::Eye.size(Size::WaistHeight);
    let cocked = design
        .apply(Edit::Optional(lean, Some(Angle::degrees(2.0).into())))
        .apply(Edit::set(high, Length::mm(6.0)));
    let [left, right] = across(&cocked).walls[..] else {
        panic!("two cheeks");
    };
    let thick = |[from, to]: [Point; 2]| to[0] - from[0];
    let apart = 2.0 * 6.0 * 2.0_f64.to_radians().tan();
    assert_relative_eq!(thick(left) - thick(right), apart, max_relative = 1e-9);
}
