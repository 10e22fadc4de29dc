//! What was weighed and does not count, and why.

use std::fmt;

use super::groups::Group;
use super::line::Sum;
use crate::bar::LossKind;
use crate::log::build::Build;
use crate::units::{System, show_mass, show_number};

/// A loss that lies far from what was to be expected, and waits for an answer.
#[derive(Clone, Debug, PartialEq)]
pub struct Question {
    /// The build's id.
    pub build: String,
    /// Its design's name.
    pub name: String,
    /// The id of the step that was weighed after, where the answer belongs.
    pub step: u32,
    /// The steps that were weighed before and after.
    pub between: [String; 2],
    /// The lines of the ledger in between.
    pub kinds: Vec<LossKind>,
    /// What was lost, kg.
    pub kg: f64,
    /// What was to be expected by all that was known before, kg.
    pub expected_kg: f64,
    /// How seldom a loss lies that far out, as a share of heads.
    pub probability: f64,
}

/// Weighings that do not count.
#[derive(Clone, Debug, PartialEq)]
pub struct Unused {
    /// The build's id.
    pub build: String,
    /// Its design's name.
    pub name: String,
    /// The steps that were weighed before and after.
    pub between: [String; 2],
    /// Why they do not count.
    pub why: Why,
}

/// Why weighings do not count.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Why {
    /// The steel gained weight.
    Gained,
    /// A part was ground off only to come to the target.
    ToTarget,
    /// No step between them takes from the ledger.
    NoLine,
    /// A line goes before or after all weighings too.
    CutShort(LossKind),
    /// The head or its bar cannot be worked out.
    Unsound,
    /// The smith said so.
    LeftOut,
}

impl Question {
    pub(super) fn of(build: &Build, group: &Group, sum: &Sum, probability: f64) -> Self {
        let last = build.steps.get(group.to);
        Self {
            build: build.id.clone(),
            name: build.design.name.clone(),
            step: last.map(|step| step.id).unwrap_or_default(),
            between: between(build, group),
            kinds: group.kinds.clone(),
            kg: group.kg,
            expected_kg: sum.mean,
            probability,
        }
    }

    /// The question, in the units of `system`.
    pub fn sentence(&self, system: System) -> String {
        let kinds: Vec<&str> = self.kinds.iter().map(|kind| kind.words()).collect();
        let [from, to] = &self.between;
        format!(
            "“{}” lost {} from “{from}” to “{to}” ({}), where {} was to be expected; so far out lies {}. Was it so? Until \
             you say that it counts, it does not.",
            self.name,
            show_mass(self.kg, system),
            kinds.join(", "),
            show_mass(self.expected_kg, system),
            seldom(self.probability)
        )
    }
}

impl Unused {
    pub(super) fn of(build: &Build, group: &Group, why: Why) -> Self {
        Self {
            build: build.id.clone(),
            name: build.design.name.clone(),
            between: between(build, group),
            why,
        }
    }
}

/// “1 head in 250”
fn seldom(probability: f64) -> String {
    let heads = 1.0 / probability;
    if heads > 1000.0 {
        return "less than 1 head in 1000".to_owned();
    }
    format!("about 1 head in {}", show_number(heads.round()))
}

fn between(build: &Build, group: &Group) -> [String; 2] {
    let name = |place: usize| {
        let step = build.steps.get(place);
        step.map(|step| step.name.clone()).unwrap_or_default()
    };
    [name(group.from), name(group.to)]
}

impl fmt::Display for Question {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.sentence(System::Metric))
    }
}

impl fmt::Display for Unused {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self {
            name,
            between: [from, to],
            why,
            ..
        } = self;
        write!(f, "“{name}”, from “{from}” to “{to}”, teaches nothing: ")?;
        match why {
            Why::Gained => write!(f, "the steel gained weight."),
            Why::ToTarget => write!(
                f,
                "what is ground off only to come to the target is no loss. Weigh before that, too."
            ),
            Why::NoLine => write!(f, "no step in between takes from the ledger."),
            Why::CutShort(kind) => write!(
                f,
                "{} goes at a step before the first or after the last weighing, too. Weigh before the first and after \
                 the last.",
                kind.words()
            ),
            Why::Unsound => write!(
                f,
                "the head that it was begun with, or its bar, can’t be worked out."
            ),
            Why::LeftOut => write!(f, "you left it out."),
        }
    }
}
