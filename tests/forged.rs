//! A head on its way, and one that exists: what its readings say, against brute force and chance.

use headwright::design::{Design, Dim, Edit, Hold, Quantity, starter};
use headwright::log::forged::{Forged, forged};
use headwright::log::{Precision, Reading, ReadingError, Readings, Weighing};
use headwright::mass::{MassProperties, mass_properties};
use headwright::units::{Length, Mass, Measure};

#[path = "forged/brute.rs"]
mod brute;
#[path = "forged/chance.rs"]
mod chance;
mod common;
#[path = "forged/existing.rs"]
mod existing;
#[path = "forged/readings.rs"]
mod readings;
#[path = "forged/said.rs"]
mod said;
#[path = "forged/story.rs"]
mod story;

fn dim(path: &str) -> Dim {
    path.parse().expect("a dimension")
}

/// What a cold caliper showed of `path`, mm.
fn cold(path: &str, mm: f64) -> Reading {
    Reading {
        dim: dim(path),
        size: Length::mm(mm).into(),
        celsius: None,
    }
}

fn hot(path: &str, mm: f64, celsius: f64) -> Reading {
    Reading {
        celsius: Some(celsius),
        ..cold(path, mm)
    }
}

fn sizes(sizes: &[Reading]) -> Readings {
    Readings {
        sizes: sizes.to_vec(),
        weighed: None,
    }
}

fn weighed(grams: f64) -> Option<Weighing> {
    Some(Weighing {
        mass: Mass::grams(grams),
        to_come: Vec::new(),
    })
}

fn about<Q: Copy>(value: Q, tolerance: Q) -> Hold<Q> {
    Hold::About {
        value,
        tolerance: Some(tolerance),
    }
}

/// The rounding hammer with its own weight and balance held, each within a tolerance.
fn held() -> Design {
    let design = starter("rounding").expect("a starter");
    let weighed = weigh(&design);
    let grams = Mass::grams((weighed.mass * 1000.0).round());
    let mm = Length::mm((weighed.balance() * 10.0).round() / 10.0);
    design
        .apply(Edit::hold(Quantity::Mass, about(grams, Mass::grams(2.0))))
        .apply(Edit::hold(Quantity::Balance, about(mm, Length::mm(0.1))))
}

fn only_mass(design: &Design) -> Design {
    design.apply(Edit::Hold(Quantity::Balance, None))
}

fn weigh(design: &Design) -> MassProperties {
    mass_properties(&design.build().expect("a sound design"))
}

fn precision(design: &Design) -> Precision {
    Precision::usual(design.bar.rule)
}

#[track_caller]
fn of(design: &Design, readings: &Readings) -> Forged {
    forged(design, readings, &precision(design)).expect("readings that can be")
}

fn refused(design: &Design, readings: &Readings) -> Vec<ReadingError> {
    forged(design, readings, &precision(design)).expect_err("readings that cannot be")
}

fn number(design: &Design, path: &str) -> f64 {
    design.size(dim(path)).map_or(f64::NAN, Measure::number)
}
