//! What is said of a hammer that exists.

use super::{Existing, Explanation};
use crate::fit::Outcome;
use crate::units::{System, show_mass, show_number};

/// How many explanations are told.
const TOLD: usize = 3;

impl Existing {
    /// What its sizes and its weight say, in the units of `system`.
    pub fn sentences(&self, system: System) -> Vec<String> {
        let mass = |kg: f64| show_mass(kg, system);
        let computed = mass(self.computed_kg);
        let Some(more_kg) = self.more_kg else {
            let open = mass(self.left_open.computed_kg());
            return vec![format!(
                "By its sizes the head weighs {computed} ± {open} (one standard deviation)."
            )];
        };
        let way = if more_kg < 0.0 { "less" } else { "more" };
        let mut sentences = vec![format!(
            "By its sizes the head weighs {computed}, by the scale {}: {} {way}.",
            mass(self.computed_kg + more_kg),
            mass(more_kg.abs())
        )];
        sentences.extend(self.verdict(system));
        if !self.agree {
            sentences.push(self.explained(system));
        }
        sentences.extend(self.fitted_said().map(str::to_owned));
        sentences
    }

    /// How the fit to the weight ended, where one was asked for.
    pub fn fitted_said(&self) -> Option<&'static str> {
        Some(match self.fitted? {
            Outcome::Met => "What was not measured was fitted to the weight.",
            _ => {
                "What was not measured can’t be fitted to the weight: it stays at the nearest. Free more sizes, or measure \
                 again."
            }
        })
    }

    /// How the difference stands to what caliper, scale and what was not measured leave open; nothing where it was not
    /// weighed.
    pub fn verdict(&self, system: System) -> Option<String> {
        let apart = self.apart()?;
        if self.agree {
            return Some("That is no more than the weight may be off.".to_owned());
        }
        let open = show_mass(self.left_open.difference_kg(), system);
        let how = if apart <= 1.0 {
            "it lies within that".to_owned()
        } else {
            format!(
                "it is {} times that",
                show_number((apart * 10.0).round() / 10.0)
            )
        };
        Some(format!(
            "Readings and sizes that were not measured leave ± {open} of the difference open (one standard deviation): {how}."
        ))
    }

    /// Why none of the explanations will do, where that is so.
    pub fn unexplained(&self) -> Option<&'static str> {
        if self.explanations.is_empty() {
            Some(
                "No size alone explains that, whatever it is: more than one is off, or the steel is another.",
            )
        } else if self.explanations.iter().any(Explanation::may_be) {
            None
        } else {
            Some("None of them may be as far off as that.")
        }
    }

    fn explained(&self, system: System) -> String {
        let told = self.explanations.iter().take(TOLD);
        let told: Vec<String> = told.map(|it| it.words(system)).collect();
        let doubt = self.unexplained().unwrap_or_default();
        if told.is_empty() {
            return doubt.to_owned();
        }
        let told = format!("One size would explain it: {}. {doubt}", told.join("; "));
        told.trim_end().to_owned()
    }
}

impl Explanation {
    /// “7 times what its reading may be off”
    pub fn how(&self) -> String {
        let than = if self.measured {
            "what its reading may be off"
        } else {
            "what it may be off unmeasured"
        };
        if self.may_be() {
            format!("within {than}")
        } else {
            format!(
                "{} times {than}",
                show_number((self.times * 10.0).round() / 10.0)
            )
        }
    }

    /// “cheek width 41.3 mm and not 42 mm, 7 times what its reading may be off”
    pub fn words(&self, system: System) -> String {
        let with = self.follower.map_or("", |_| ", front and back alike");
        format!(
            "{} {} and not {}{with}, {}",
            self.dim.words(),
            self.would_be.words(system),
            self.size.words(system),
            self.how()
        )
    }
}
