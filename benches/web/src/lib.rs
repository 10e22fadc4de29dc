//! Tasks of the core that a page can repeat and time: `task(which, times)` does one of them
//! `times` times and returns a number that depends on all of it, so that nothing is left out.

use std::cell::RefCell;
use std::hint::black_box;

use headwright::design::{Design, starter};
use headwright::drawing::{Base, Projection, Setting, Show, Style, draw, layout, svg_body};
use headwright::fit::{Outcome, Target, fit_to};
use headwright::mass::{mass_properties, surface_area};
use headwright::mesh::{Format, SCREEN, STL, TriMesh, display, tessellate};
use headwright::solid::Solid;
use headwright::units::System;

#[path = "../../common/cases.rs"]
mod cases;
#[path = "../../common/mod.rs"]
mod common;
#[path = "../../common/derivatives.rs"]
mod derivatives;
use common::{targets, twelve_free};
use derivatives::with_derivatives;

/// What can be timed, in the order of `which`; `measure` has the same list with its words.
#[unsafe(no_mangle)]
pub extern "C" fn task(which: u32, times: u32) -> f64 {
    let Some((design, solid)) = head() else {
        return f64::NAN;
    };
    let targets = targets(1.1);
    let wide = twelve_free();
    // Made only for the tasks that use it: making it is not to be timed.
    let mesh = match which {
        5 => tessellate(&solid, SCREEN),
        9..=11 => tessellate(&solid, STL),
        _ => TriMesh::default(),
    };
    let one = || match which {
        0 => mass_properties(black_box(&solid)).mass,
        1 => surface_area(black_box(&solid)),
        2 => fitted(black_box(&design), &targets),
        3 => fitted(black_box(&wide), &targets),
        4 => tessellate(black_box(&solid), SCREEN).triangles.len() as f64,
        5 => display(black_box(&mesh)).vertex_count() as f64,
        6 => drawn(black_box(&design), &solid),
        7 => with_derivatives(black_box(&design)),
        8 => tessellate(black_box(&solid), STL).triangles.len() as f64,
        9 => Format::Stl.write(&mesh, "head", 1.0).len() as f64,
        10 => Format::ThreeMf.write(&mesh, "head", 1.0).len() as f64,
        11 => Format::Glb.write(&mesh, "head", 1.0).len() as f64,
        _ => f64::NAN,
    };
    (0..times).map(|_| one()).sum()
}

thread_local! {
    /// The case to be fitted next.
    static CASE: RefCell<Option<(Design, Vec<Target>)>> = const { RefCell::new(None) };
}

/// Makes the case of `number` ready for [`fit_case`], so that its making is not timed.
#[unsafe(no_mangle)]
pub extern "C" fn make_case(number: u32) {
    CASE.set(Some(cases::case(u64::from(number))));
}

/// Fits the case that was made: 1 when it is met.
#[unsafe(no_mangle)]
pub extern "C" fn fit_case() -> f64 {
    CASE.with_borrow(|case| {
        let (design, targets) = case.as_ref()?;
        let fitted = fit_to(black_box(design), targets).ok()?;
        Some(f64::from(u8::from(fitted.outcome == Outcome::Met)))
    })
    .unwrap_or(f64::NAN)
}

fn head() -> Option<(Design, Solid)> {
    let design = starter("rounding")?;
    let solid = design.build().ok()?;
    Some((design, solid))
}

fn fitted(design: &Design, targets: &[Target]) -> f64 {
    fit_to(design, targets).map_or(f64::NAN, |fitted| fitted.turns as f64)
}

/// The drawing as text, as a sheet on a desk shows it.
fn drawn(design: &Design, solid: &Solid) -> f64 {
    let properties = mass_properties(solid);
    let drawing = draw(solid, design, Some(&properties), System::Metric);
    let setting = Setting {
        width: 1040.0,
        style: Style::Desktop,
        projection: Projection::Third,
        show: Show {
            base: Base::Key,
            open: None,
            in_hand: None,
        },
        title: [420.0, 78.0],
        field: None,
        zoom: 1.0,
        still: None,
    };
    svg_body(&layout(&drawing, &setting)).len() as f64
}
