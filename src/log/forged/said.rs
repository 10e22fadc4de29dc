//! What follows from readings, in sentences.

use super::{Estimate, Forged, Move, WayBack};
use crate::design::Quantity;
use crate::units::{Length, Measure, System, show_length, show_mass, show_number, unit_word};

/// From how many standard deviations on scale and caliper contradict each other.
const APART: f64 = 3.0;

impl Forged {
    /// How many standard deviations of their difference the scale lies above the sizes; nothing when it was not weighed.
    pub fn apart(&self) -> Option<f64> {
        let scale = self.by_scale?;
        let deviation = scale.spread.hypot(self.by_sizes.spread);
        Some((scale.value - self.by_sizes.value) / deviation)
    }

    /// What is to be expected and what to do, in the units of `system`.
    pub fn sentences(&self, system: System) -> Vec<String> {
        let mass = |kg: f64| show_mass(kg, system);
        let within = |it: Estimate| format!("{} ± {}", mass(it.value), mass(it.spread));
        let by_scale = self.by_scale.map(|scale| {
            format!(
                " By its sizes alone it is {}, by the scale {}.",
                within(self.by_sizes),
                within(scale)
            )
        });
        let mut sentences = vec![format!(
            "The finished head will weigh {}, and its balance will lie {} of the handle axis (± one standard deviation).{}",
            within(self.mass),
            balance(self.balance, system),
            by_scale.unwrap_or_default()
        )];
        if let Some(apart) = self.apart().filter(|apart| apart.abs() > APART) {
            let way = if apart > 0.0 { "more" } else { "less" };
            sentences.push(format!(
                "The scale shows {way} than the sizes allow, by {} standard deviations: measure and weigh again.",
                show_number((apart.abs() * 10.0).round() / 10.0)
            ));
        }
        sentences.push(self.way_back.sentence(system));
        sentences
    }
}

/// “0.4 mm ± 0.2 mm in front”
fn balance(it: Estimate, system: System) -> String {
    let length = |mm: f64| {
        let tenths = Length::mm((mm * 100.0).round() / 100.0);
        format!("{} {}", show_length(tenths, system), unit_word(system))
    };
    let side = if it.value < 0.0 { "behind" } else { "in front" };
    format!("{} ± {} {side}", length(it.value.abs()), length(it.spread))
}

impl WayBack {
    /// The sentence, in the units of `system`.
    pub fn sentence(&self, system: System) -> String {
        match self {
            Self::NothingHeld => "The design holds nothing, so there is nothing to come back to.".to_owned(),
            Self::Kept => "Every hold is kept as it is.".to_owned(),
            Self::Moves { moves, .. } => {
                let told: Vec<String> = moves.iter().map(|it| it.words(system)).collect();
                let how = match moves.len() {
                    1 => "To come back to what is held, move one size",
                    2 => "No size alone comes back to what is held; move two",
                    _ => "No two sizes come back to what is held; move these",
                };
                format!("{how}: {}.", told.join(", "))
            }
            Self::None { in_the_way, .. } if in_the_way.is_empty() => {
                "No size that may still move comes back to what is held. Free another, or hold less.".to_owned()
            }
            Self::None { missed, in_the_way } => {
                let missed: Vec<&str> = missed.iter().map(|it: &Quantity| it.words()).collect();
                let ways: Vec<String> = in_the_way.iter().map(|it| it.words(system)).collect();
                format!(
                    "No sizes that may still move come back to what is held: {} can’t be kept. In the way: {}.",
                    missed.join(", "),
                    ways.join("; ")
                )
            }
        }
    }
}

impl Move {
    /// “front face offset from 58 mm to 57.2 mm”
    pub fn words(&self, system: System) -> String {
        let shown = |size: Measure| size.words(system);
        let with = self.follower.map(|_| ", front and back alike");
        format!(
            "{} from {} to {}{}",
            self.dim.words(),
            shown(self.from),
            shown(self.to),
            with.unwrap_or_default()
        )
    }
}
