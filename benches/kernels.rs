//! The same change of one size, side by side: this core and general-purpose geometry kernels.
//!
//! A head of flat-faced octagons on a chamfered block with an obround eye, which every kernel can
//! say exactly, is made 44 and 44.5 mm high by turns. `cargo bench --bench kernels` prints what one
//! turn takes with volume, centroid and inertia, and with triangles to 0.01 mm besides. It wants a
//! Python with `benches/kernels/requirements.txt`, named by `HEADWRIGHT_KERNELS`.

use std::hint::black_box;
use std::process::Command;
use std::time::Instant;

use headwright::design::{
    Corner, Crown, Design, Edge, EyeOutline, Outline, Side, Tip, Transition, starter,
};
use headwright::mass::mass_properties;
use headwright::mesh::{SCREEN, tessellate};
use headwright::units::Length;
use serde_json::Value;

/// Turns that a median is taken of.
const TURNS: usize = 101;

const fn mm(value: f64) -> Length {
    Length::mm(value)
}

fn head() -> Design {
    let mut design = starter("square").expect("a starter");
    design.free.clear();
    design.cheeks.length = mm(42.0);
    design.cheeks.outline = Outline::new(mm(44.0), mm(44.0), Corner::Chamfer { size: mm(7.0) });
    design.eye.outline = EyeOutline::Obround;
    for (level, [length, width]) in [
        (&mut design.eye.top, [32.0, 22.0]),
        (&mut design.eye.waist, [28.0, 19.0]),
        (&mut design.eye.bottom, [32.0, 22.0]),
    ] {
        level.length = mm(length);
        level.width = Some(mm(width));
    }
    for side in Side::BOTH {
        let end = design.end_mut(side);
        end.necks.clear();
        end.transition = Transition::Straight;
        end.reach = mm(60.0);
        if let Tip::Face(face) = &mut end.tip {
            face.outline = Outline::equal(mm(38.0), Corner::Octagon);
            face.land = mm(14.0);
            face.crown = Crown::Flat;
            face.edge = Edge::Sharp;
        }
    }
    design
}

/// Milliseconds of one turn, the median of all.
fn timed(mut turn: impl FnMut(f64)) -> f64 {
    let mut times: Vec<f64> = (0..TURNS)
        .map(|k| {
            let start = Instant::now();
            turn(44.0 + 0.5 * (k % 2) as f64);
            start.elapsed().as_secs_f64() * 1e3
        })
        .collect();
    times.sort_by(f64::total_cmp);
    times[TURNS / 2]
}

fn main() {
    let mut design = head();
    let mut solid = |height: f64| {
        design.cheeks.outline.height = Some(mm(height));
        design.build().expect("a sound head")
    };
    let volume = mass_properties(&solid(44.0)).volume;
    let weigh = timed(|height| {
        black_box(mass_properties(&solid(height)));
    });
    let mesh = timed(|height| {
        let solid = solid(height);
        black_box((mass_properties(&solid), tessellate(&solid, SCREEN)));
    });
    println!(
        "{:<28} {:>10} {:>12} {:>14}",
        "", "weigh, ms", "and mesh, ms", "volume, mm³"
    );
    let line = |name: &str, weigh: f64, mesh: f64, volume: f64| {
        println!("{name:<28} {weigh:>10.4} {mesh:>12.4} {volume:>14.3}");
    };
    line("headwright", weigh, mesh, volume);
    let Some(python) = std::env::var_os("HEADWRIGHT_KERNELS") else {
        println!("HEADWRIGHT_KERNELS names no Python: the kernels are left out.");
        return;
    };
    let script = concat!(env!("CARGO_MANIFEST_DIR"), "/benches/kernels/kernels.py");
    let output = Command::new(python)
        .args([script, "21"])
        .output()
        .expect("the Python of HEADWRIGHT_KERNELS starts");
    let errors = String::from_utf8_lossy(&output.stderr);
    assert!(output.status.success(), "{errors}");
    let answer: Value = serde_json::from_slice(&output.stdout).expect("JSON");
    for (name, found) in answer.as_object().expect("an object") {
        let number = |key: &str| found[key].as_f64().expect("a number");
        line(name, number("weigh"), number("mesh"), number("volume"));
    }
}
