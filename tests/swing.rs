//! The swing through the public path: whole tools worked by hand, pendulums, impacts, tilts and prints, and every
//! refusal.
//!
//! Moments of rods, boxes, cones and elliptic cylinders are those of the handbooks (from memory); whatever is compared
//! with them goes through the parallel axis theorem of the core and not of the test.

use headwright::design::{Design, Side, starter};
use headwright::solid::{Section, Solid};
use headwright::swing::{Body, Held, Striker, Surface, Tool, tool};

#[path = "swing/by_hand.rs"]
mod by_hand;
#[allow(dead_code, reason = "only the sound designs are drawn here")]
mod common;
#[path = "swing/heads.rs"]
mod heads;
#[path = "swing/impact.rs"]
mod impact;
#[path = "swing/landing.rs"]
mod landing;
#[path = "swing/refused.rs"]
mod refused;

const ROUNDOFF: f64 = 1e-12;

fn diagonal([x, y, z]: [f64; 3]) -> [[f64; 3]; 3] {
    [[x, 0.0, 0.0], [0.0, y, 0.0], [0.0, 0.0, z]]
}

/// A box of these whole sizes.
fn cuboid(mass_kg: f64, centroid_mm: [f64; 3], [x, y, z]: [f64; 3]) -> Body {
    let twelfth = mass_kg / 12.0;
    Body {
        mass_kg,
        centroid_mm,
        inertia_kg_mm2: diagonal([
            twelfth * (y * y + z * z),
            twelfth * (z * z + x * x),
            twelfth * (x * x + y * y),
        ]),
    }
}

/// An upright elliptic cylinder of the semi-axes `a` along x and `b` along y, its middle at the height `z`.
fn elliptic(mass_kg: f64, z: f64, length: f64, [a, b]: [f64; 2]) -> Body {
    let long = length * length / 12.0;
    Body {
        mass_kg,
        centroid_mm: [0.0, 0.0, z],
        inertia_kg_mm2: diagonal(
            [
                b * b / 4.0 + long,
                a * a / 4.0 + long,
                (a * a + b * b) / 4.0,
            ]
            .map(|square| mass_kg * square),
        ),
    }
}

/// A face of 20 mm about a point, its crown 200 mm.
fn striker(side: Side, point_mm: [f64; 3]) -> Striker {
    Striker {
        side,
        point_mm,
        surface: Surface::Face {
            crown_mm: Some(200.0),
            outline: Section::circle(20.0),
        },
    }
}

/// Held at the height `grip` on an upright handle that ends at `butt`.
fn upright(grip: f64, butt: f64) -> Held {
    Held {
        grip_mm: [0.0, 0.0, grip],
        butt_mm: [0.0, 0.0, butt],
        axis: [0.0, 0.0, 1.0],
    }
}

/// A block of 1.2 kg, 110 × 40 × 44 mm, its middle 4 mm before and 1 mm over the eye's, on an elliptic rod of 0.2 kg,
/// 360 mm long, 28 × 20 mm, whose butt is 330 mm below; held 50 mm from the butt. The faces' middles lie 2 mm higher
/// and 3 mm lower than the eye's.
fn block_on_a_rod() -> Tool {
    let head = cuboid(1.2, [4.0, 0.0, 1.0], [110.0, 40.0, 44.0]);
    let handle = elliptic(0.2, -150.0, 360.0, [14.0, 10.0]);
    let strikers = [
        striker(Side::Front, [59.0, 0.0, 2.0]),
        striker(Side::Back, [-51.0, 0.0, -3.0]),
    ];
    tool(&head, &handle, &upright(-280.0, -330.0), &strikers).expect("a tool")
}

fn solid(name: &str) -> Solid {
    let design = starter(name).expect("a starter");
    design.build().expect("starters are sound")
}

/// `design` on a round rod of 0.25 kg along its true axis, 20 mm beyond the eye and 320 mm below it.
fn on_a_rod(design: &Design) -> Tool {
    let solid = design.build().expect("sound");
    let lean = solid.head().eye.lean;
    let [across, along] = lean.map_or([0.0; 2], |lean| [lean.across, lean.along]);
    let length = (along * along + across * across + 1.0).sqrt();
    let axis = [along, across, 1.0].map(|part| part / length);
    let at = |from_eye: f64| axis.map(|part| part * from_eye);
    let (mass, rod, radius) = (0.25, 340.0, 15.0f64);
    let (across, along) = (
        mass * (rod * rod / 12.0 + radius * radius / 4.0),
        mass * radius * radius / 2.0,
    );
    let inertia = std::array::from_fn(|i| {
        std::array::from_fn(|j| {
            let own = if i == j { across } else { 0.0 };
            own + (along - across) * axis[i] * axis[j]
        })
    });
    let handle = Body {
        mass_kg: mass,
        centroid_mm: at(-150.0),
        inertia_kg_mm2: inertia,
    };
    let held = Held {
        grip_mm: at(-270.0),
        butt_mm: at(-320.0),
        axis,
    };
    tool(
        &Body::of_head(&solid),
        &handle,
        &held,
        &Striker::both(&solid),
    )
    .expect("a tool")
}
