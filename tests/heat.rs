//! Heat through the public path: every formula against hand work, published values and measured heats, cooling against a
//! numerical solution of its own, and plans of every head in every grade and quench.
//!
//! What is marked "from memory" was quoted from memory and not read again.

use headwright::design::{Design, starter, starter_names};
use headwright::heat::{Composition, Element, Grade, Heat, Steel};
use headwright::solid::Solid;

#[allow(dead_code, reason = "only the sound designs are drawn here")]
mod common;
#[path = "heat/cooling.rs"]
mod cooling;
#[path = "heat/critical.rs"]
mod critical;
#[path = "heat/hardenability.rs"]
mod hardenability;
#[path = "heat/plans.rs"]
mod plans;
#[path = "heat/refused.rs"]
mod refused;
#[path = "heat/round.rs"]
mod round;
#[path = "heat/said.rs"]
mod said;
#[path = "heat/temper.rs"]
mod temper;

fn composed<const N: usize>(shares: [(Element, f64); N]) -> Composition {
    let with = |all: Composition, (element, percent)| all.with(element, percent);
    shares.into_iter().fold(Composition::NOTHING, with)
}

fn of_grade(grade: Grade) -> Heat {
    Heat {
        steel: Steel {
            grade,
            analysis: None,
        },
        ..Heat::default()
    }
}

fn rounding() -> Solid {
    starter("rounding")
        .expect("a starter")
        .build()
        .expect("sound")
}

fn starters() -> impl Iterator<Item = Design> {
    starter_names().filter_map(starter)
}
