//! How the holds stand: what is asked, what the head gives, in words.

use super::words;
use headwright::design::{Design, Quantity};
use headwright::fit::{Target, targets};
use headwright::mass::{MassProperties, Weighed};
use headwright::solid::Solid;
use headwright::units::{Amount, System};

/// A hold and what became of it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Holding {
    /// What is asked.
    pub target: Target,
    /// What the head gives.
    pub value: f64,
    /// How far that lies outside; 0 when met.
    pub miss: f64,
}

impl Holding {
    /// The hold `target` on a head that gives `value`.
    fn new(target: Target, value: f64) -> Self {
        let miss = target.miss(value);
        let slack = SLACK * target.quantity.default_tolerance();
        Self {
            target,
            value,
            miss: if miss.abs() > slack { miss } else { 0.0 },
        }
    }

    /// The same of a newer head that weighs `weighed`, as far as that tells.
    pub fn of_newer(self, weighed: &Weighed) -> Self {
        match self.target.quantity {
            Quantity::Mass => Self::new(self.target, weighed.mass),
            Quantity::Balance => Self::new(self.target, weighed.balance),
            _ => self,
        }
    }

    /// How far the value lies from what is written: from the value held, or outside the range.
    fn off(&self) -> f64 {
        self.target.off(self.value)
    }
}

/// A miss below this share of the usual tolerance is none: a link rounds sizes to a thousandth of a
/// millimetre, and a fit may end on the very edge of what is held.
const SLACK: f64 = 0.1;

/// The holds of `design` on the head `solid`, which was weighed.
pub fn holdings(design: &Design, solid: &Solid, weighed: &MassProperties) -> Vec<Holding> {
    targets(design)
        .into_iter()
        .map(|target| {
            let value = target.quantity.of(solid, weighed, &design.handle);
            Holding::new(target, value)
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

/// How far off, in words: "24 g", "2.1 mm".
pub fn off_words(quantity: Quantity, off: f64, system: System) -> String {
    let off = off.abs();
    let amount = quantity.amount(off, system);
    let about = match amount {
        Amount::Length(_) => words::about(off, system),
        _ => amount.words(system),
    };
    // Below what that shows the plain length still tells that it is not nothing.
    if about.starts_with("0 ") {
        amount.words(system)
    } else {
        about
    }
}

/// That a hold is missed, and by how much: "out by 2.1 mm".
fn out_by(holding: Holding, system: System) -> String {
    let off = off_words(holding.target.quantity, holding.off(), system);
    match off.strip_prefix("0.0 ") {
        Some(unit) => format!("out by less than 0.1 {unit}"),
        None => format!("out by {off}"),
    }
}

/// The state of a hold in a word: "held", "out by 2.1 mm".
pub fn short_words(holding: Holding, system: System) -> String {
    if holding.miss == 0.0 {
        "held".to_owned()
    } else {
        out_by(holding, system)
    }
}

/// The state of a hold with its target: "held at 0", "held at 0 ± 1, out by 2.1 mm".
pub fn state_words(design: &Design, holding: Holding, system: System) -> String {
    let hold = design.holds.get(holding.target.quantity);
    let held = hold.map_or_else(String::new, |hold| hold.words(system));
    if holding.miss == 0.0 {
        format!("held {held}")
    } else {
        format!("held {held}, {}", out_by(holding, system))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use headwright::design::{Edit, Hold, Part, Side, Size, starter};
    use headwright::mass::mass_properties;
    use headwright::units::{Length, Mass, Measure};

    #[test]
    fn a_newer_head_is_judged_by_its_weight_as_it_will_be_when_it_stands() {
        let hold = |value: Amount, tolerance: Amount| {
            Some(Hold::About {
                value,
                tolerance: Some(tolerance),
            })
        };
        let mm = |mm| Amount::Length(Length::mm(mm));
        let [kg, off] = [1.0, 0.02].map(|kg| Amount::Mass(Mass::kg(kg)));
        let design = starter("rounding")
            .expect("a starter")
            .apply(Edit::Hold(Quantity::Mass, hold(kg, off)))
            .apply(Edit::Hold(Quantity::Balance, hold(mm(0.0), mm(1.0))));
        let judged = |design: &Design| {
            let solid = design.build().expect("a sound head");
            let properties = mass_properties(&solid);
            let weighed = Weighed::from(&properties);
            (holdings(design, &solid, &properties), weighed)
        };
        let (before, _) = judged(&design);
        let reach = Part::End(Side::Front).size(Size::Reach);
        let now = design.size(reach).expect("a size").number();
        for more in [2.0, 12.0] {
            let longer = Measure::Length(Length::mm(now + more));
            let (after, weighed) = judged(&design.apply(Edit::Set(reach, longer)));
            let newer: Vec<Holding> = before.iter().map(|h| h.of_newer(&weighed)).collect();
            assert_eq!(newer, after);
            assert_ne!(newer, before);
        }
    }

    #[test]
    fn what_is_out_by_little_is_not_out_by_nothing() {
        let target = |quantity| Target {
            quantity,
            low: 1.0,
            high: 1.0,
            aim: Some(1.0),
        };
        let out = |quantity, off, system| {
            let holding = Holding {
                target: target(quantity),
                value: 1.0 + off,
                miss: off,
            };
            out_by(holding, system)
        };
        let (mass, wall) = (Quantity::Mass, Quantity::LeastWall);
        assert_eq!(out(mass, 0.0124, System::Metric), "out by 12.4 g");
        assert_eq!(out(mass, 4e-5, System::Metric), "out by less than 0.1 g");
        assert_eq!(
            out(mass, -4e-4, System::Imperial),
            "out by less than 0.1 oz"
        );
        assert_eq!(out(wall, 0.03, System::Metric), "out by 0.03 mm");
    }
}
