//! How the holds stand: what is asked, what the head gives, in words.

use super::words;
use headwright::design::{Design, Hold};
use headwright::fit::{Quantity, Target, targets};
use headwright::mass::MassProperties;
use headwright::units::{Length, Mass, System, show_length, show_mass};

/// A hold and what became of it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Holding {
    /// What is asked.
    pub target: Target,
    /// What the head gives, kg or mm.
    pub value: f64,
    /// How far that lies outside, kg or mm; 0 when met.
    pub miss: f64,
}

/// A miss below this share of the usual tolerance is none: a link rounds sizes, and a fit may end
/// on the very edge of what is held.
const SLACK: f64 = 0.01;

/// The holds of `design` on the head that `properties` are of.
pub fn holdings(design: &Design, properties: &MassProperties) -> Vec<Holding> {
    targets(design)
        .into_iter()
        .map(|target| {
            let value = match target.quantity {
                Quantity::Mass => properties.mass,
                Quantity::Balance => properties.balance(),
            };
            let miss = target.miss(value);
            let slack = SLACK * target.quantity.default_tolerance();
            Holding {
                target,
                value,
                miss: if miss.abs() > slack { miss } else { 0.0 },
            }
        })
        .collect()
}

/// The hold on `quantity` among `holdings`.
pub fn on(holdings: &[Holding], quantity: Quantity) -> Option<Holding> {
    holdings
        .iter()
        .find(|holding| holding.target.quantity == quantity)
        .copied()
}

/// A held mass in words, without its tolerance when it has none.
pub fn mass_words(hold: Hold<Mass>, system: System) -> String {
    let show = |mass: Mass| show_mass(mass.in_kg(), system);
    match hold {
        Hold::About {
            value,
            tolerance: None,
        } => show(value),
        Hold::About {
            value,
            tolerance: Some(off),
        } => format!("{} ± {}", show(value), show(off)),
        Hold::Between { low, high } => format!("{} to {}", show(low), show(high)),
    }
}

/// A held balance in words.
pub fn balance_words(hold: Hold<Length>, system: System) -> String {
    let show = |length: Length| show_length(length, system).replace('-', "−");
    match hold {
        Hold::About {
            value,
            tolerance: None,
        } => show(value),
        Hold::About {
            value,
            tolerance: Some(off),
        } => format!("{} ± {}", show(value), show(off)),
        Hold::Between { low, high } => format!("{} to {}", show(low), show(high)),
    }
}

/// How far off, in words: "24 g", "2.1 mm".
pub fn off_words(quantity: Quantity, off: f64, system: System) -> String {
    match quantity {
        Quantity::Mass => show_mass(off.abs(), system),
        Quantity::Balance => {
            let mm = off.abs();
            // Below a tenth the plain length still tells that it is not nothing.
            if mm < 0.05 {
                words::length(mm, system)
            } else {
                words::about(mm, system)
            }
        }
    }
}

/// The state of a hold in a word: "held", "out by 2.1 mm".
pub fn short_words(holding: Holding, system: System) -> String {
    if holding.miss == 0.0 {
        "held".to_owned()
    } else {
        let off = off_words(holding.target.quantity, holding.miss, system);
        format!("out by {off}")
    }
}

/// The state of a hold with its target: "held at 0", "held at 0 ± 1, out by 2.1 mm".
pub fn state_words(design: &Design, holding: Holding, system: System) -> String {
    let held = match holding.target.quantity {
        Quantity::Mass => design.holds.mass.map(|hold| mass_words(hold, system)),
        Quantity::Balance => design.holds.balance.map(|hold| balance_words(hold, system)),
    }
    .unwrap_or_default();
    if holding.miss == 0.0 {
        format!("held at {held}")
    } else {
        let off = off_words(holding.target.quantity, holding.miss, system);
        format!("held at {held}, out by {off}")
    }
}
