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
            return vec![format!("By its sizes the head weighs {computed}.")];
        };
        let way = if more_kg < 0.0 { "less" } else { "more" };
        let mut sentences = vec![format!(
            "By its sizes the head weighs {computed}, by the scale {}: {} {way}.",
            mass(self.computed_kg + more_kg),
            mass(more_kg.abs())
        )];
        if self.agree {
            sentences.push("That is no more than the scale may be off.".to_owned());
        } else {
            sentences.push(self.explained(system));
        }
        match self.fitted {
            Some(Outcome::Met) => {
                sentences.push("What was not measured was fitted to the weight.".to_owned());
            }
            Some(_) => sentences.push(
                "What was not measured can’t be fitted to the weight: it stays at the nearest. Free more sizes, or \
                 measure again."
                    .to_owned(),
            ),
            None => {}
        }
        sentences
    }

    fn explained(&self, system: System) -> String {
        let told = self.explanations.iter().take(TOLD);
        let told: Vec<String> = told.map(|it| it.words(system)).collect();
        if told.is_empty() {
            return "No size alone explains that, whatever it is: more than one is off, or the steel is another."
                .to_owned();
        }
        let doubt = if self.explanations.iter().any(Explanation::may_be) {
            ""
        } else {
            " None of them may be as far off as that."
        };
        format!("One size would explain it: {}.{doubt}", told.join("; "))
    }
}

impl Explanation {
    /// “cheek width 41.3 mm and not 42 mm, 7 times what a caliper may be off”
    pub fn words(&self, system: System) -> String {
        let with = self.follower.map_or("", |_| ", front and back alike");
        let than = if self.measured {
            "what its reading may be off"
        } else {
            "what it may be off unmeasured"
        };
        let how = if self.may_be() {
            format!("within {than}")
        } else {
            format!(
                "{} times {than}",
                show_number((self.times * 10.0).round() / 10.0)
            )
        };
        format!(
            "{} {} and not {}{with}, {how}",
            self.dim.words(),
            self.would_be.words(system),
            self.size.words(system)
        )
    }
}
