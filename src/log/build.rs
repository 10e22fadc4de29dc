//! A build: the design it was begun with, its steps and what happened at them.

use schemars::JsonSchema;
use serde::de::Error as _;
use serde::{Deserialize, Deserializer, Serialize, Serializer};
use serde_json::value::RawValue;

use super::error::LogError;
use super::event::{Event, MINUTES};
use super::note::BuildNote;
use crate::bar::LossKind;
use crate::design::{Design, DesignFile};
use crate::rack::{Entry, LATEST, is_id};

/// The most steps of a build.
pub const MOST_STEPS: usize = 40;
/// The longest name of a step, in characters.
pub const LONGEST_STEP: usize = 60;
/// The most events of a build.
pub const MOST_EVENTS: usize = 5000;

/// What was begun with a design, and what happened to it.
///
/// Plain data; [`Build::check`] says what is wrong with one that comes from outside.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Build {
    /// What tells it from all others: letters, digits and hyphens.
    #[schemars(regex(pattern = r"^[A-Za-z0-9-]{1,60}$"))]
    pub id: String,
    /// The id of the entry on the rack that it was begun from, if it was.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub entry: Option<String>,
    /// When it was begun, ms after 1970 began, UTC.
    #[schemars(range(min = 0, max = LATEST))]
    pub begun: u64,
    /// How it ended.
    #[serde(default)]
    pub outcome: Outcome,
    /// The steps in the order of the work.
    #[schemars(length(max = MOST_STEPS))]
    pub steps: Vec<Step>,
    /// What happened, in the order in which it was recorded.
    #[schemars(length(max = MOST_EVENTS))]
    pub events: Vec<Event>,
    /// The design as it was then, in the file as in a file of its own.
    #[serde(serialize_with = "as_file", deserialize_with = "from_file")]
    #[schemars(with = "DesignFile")]
    pub design: Design,
}

/// How a build ended.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Outcome {
    /// It goes on.
    #[default]
    Open,
    /// A hammer came of it.
    Finished,
    /// Nothing came of it.
    Spoiled,
}

impl Outcome {
    /// The word for it.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Open => "open",
            Self::Finished => "finished",
            Self::Spoiled => "spoiled",
        }
    }
}

/// A step of the work.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Step {
    /// What tells it from the build's other steps, whatever it is called and wherever it stands.
    pub id: u32,
    /// What it is called.
    #[schemars(length(min = 1, max = LONGEST_STEP))]
    pub name: String,
    /// What it does to the weight.
    #[serde(default)]
    pub weight: Weight,
    /// What it is to take, in minutes.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = MINUTES.least, max = MINUTES.most))]
    pub target_minutes: Option<f64>,
}

/// What a step does to the weight.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Weight {
    /// Nothing that is in the ledger of losses.
    #[default]
    Same,
    /// It takes some or all of these lines of the ledger.
    Loses(Vec<LossKind>),
    /// It takes off what is over the target. That is no loss: a bar cut shorter would have had less of it.
    ToTarget,
    /// It puts the handle on: from here on what is weighed is the whole tool.
    OnHandle,
}

impl Weight {
    /// Whether it takes from this line.
    pub(super) fn takes(&self, kind: LossKind) -> bool {
        matches!(self, Self::Loses(kinds) if kinds.contains(&kind))
    }
}

/// A change in the list of steps.
#[derive(Clone, Debug, PartialEq)]
pub enum StepEdit {
    /// A new step at this place; behind all others when there is no such place.
    Add {
        /// The place, counted from 0.
        place: usize,
        /// What it is called.
        name: String,
        /// What it does to the weight.
        weight: Weight,
    },
    /// Another name.
    Rename {
        /// The step's id.
        step: u32,
        /// The name.
        name: String,
    },
    /// Another effect on the weight.
    Weight {
        /// The step's id.
        step: u32,
        /// What it does to the weight.
        weight: Weight,
    },
    /// What it is to take, or nothing.
    Target {
        /// The step's id.
        step: u32,
        /// In minutes.
        minutes: Option<f64>,
    },
    /// To another place.
    Move {
        /// The step's id.
        step: u32,
        /// The place, counted from 0.
        place: usize,
    },
    /// Off the list. What happened at it stays in the build and is told apart.
    Remove {
        /// The step's id.
        step: u32,
    },
}

/// The steps a new build begins with (common practice, no source).
///
/// Bringing the head to its weight is a step of its own, because what goes there is no loss.
pub fn usual_steps() -> Vec<Step> {
    use LossKind::{Dressing, ForgingScale, Grinding, HardeningScale, Slug, Trimming};
    let loses = |kinds: &[LossKind]| Weight::Loses(kinds.to_vec());
    let steps = [
        ("cut", Weight::Same),
        ("forge to size", loses(&[ForgingScale])),
        ("punch", loses(&[Slug, ForgingScale])),
        ("drift", loses(&[ForgingScale])),
        ("forge cheeks and ends", loses(&[ForgingScale, Trimming])),
        ("normalize", loses(&[HardeningScale])),
        ("harden", loses(&[HardeningScale])),
        ("temper", loses(&[HardeningScale])),
        ("grind", loses(&[Grinding, Dressing])),
        ("bring to weight", Weight::ToTarget),
        ("handle", Weight::OnHandle),
    ];
    (1..)
        .zip(steps)
        .map(|(id, (name, weight))| Step {
            id,
            name: name.to_owned(),
            weight,
            target_minutes: None,
        })
        .collect()
}

impl Build {
    /// A build that begins `at` this time with the usual steps.
    pub fn begun(id: &str, entry: Option<String>, design: Design, at: u64) -> Self {
        Self {
            id: id.to_owned(),
            entry,
            begun: at,
            outcome: Outcome::Open,
            steps: usual_steps(),
            events: Vec::new(),
            design,
        }
    }

    /// The step of this id, if it is on the list.
    pub fn step(&self, id: u32) -> Option<&Step> {
        self.steps.iter().find(|step| step.id == id)
    }

    /// Records that something happened.
    ///
    /// # Errors
    /// A reading that cannot be, or more than a build holds; then nothing was recorded.
    pub fn record(&mut self, event: Event) -> Result<(), LogError> {
        if self.events.len() >= MOST_EVENTS {
            return Err(LogError::TooManyEvents(self.events.len() + 1));
        }
        event.check(self.events.len() + 1)?;
        self.events.push(event);
        Ok(())
    }

    /// Changes the list of steps. A step that is not on it changes nothing.
    ///
    /// # Errors
    /// A list that cannot be; then nothing was changed.
    pub fn edit(&mut self, edit: StepEdit) -> Result<(), LogError> {
        let mut steps = self.steps.clone();
        let place_of = |steps: &[Step], id| steps.iter().position(|step| step.id == id);
        match edit {
            StepEdit::Add {
                place,
                name,
                weight,
            } => {
                let step = Step {
                    id: self.new_step_id(),
                    name,
                    weight,
                    target_minutes: None,
                };
                steps.insert(place.min(steps.len()), step);
            }
            StepEdit::Rename { step, name } => {
                for changed in steps.iter_mut().filter(|other| other.id == step) {
                    changed.name.clone_from(&name);
                }
            }
            StepEdit::Weight { step, weight } => {
                for changed in steps.iter_mut().filter(|other| other.id == step) {
                    changed.weight.clone_from(&weight);
                }
            }
            StepEdit::Target { step, minutes } => {
                for changed in steps.iter_mut().filter(|other| other.id == step) {
                    changed.target_minutes = minutes;
                }
            }
            StepEdit::Move { step, place } => {
                if let Some(from) = place_of(&steps, step) {
                    let moved = steps.remove(from);
                    steps.insert(place.min(steps.len()), moved);
                }
            }
            StepEdit::Remove { step } => steps.retain(|other| other.id != step),
        }
        check_steps(&steps)?;
        self.steps = steps;
        Ok(())
    }

    /// An id that no step has or had, as far as anything happened at it.
    fn new_step_id(&self) -> u32 {
        let listed = self.steps.iter().map(|step| step.id);
        let recorded = self.events.iter().map(|event| event.step);
        // The usual ones may come back to the list.
        let usual = usual_steps().into_iter().map(|step| step.id);
        let taken: std::collections::BTreeSet<u32> = listed.chain(recorded).chain(usual).collect();
        (1..=u32::MAX)
            .find(|id| !taken.contains(id))
            .unwrap_or(u32::MAX)
    }

    /// What is wrong with the build; the door for what comes from outside.
    ///
    /// # Errors
    /// The first thing that is wrong. A design that cannot be made is none: it is a snapshot of what there was.
    pub fn check(&self) -> Result<(), LogError> {
        for id in [Some(&self.id), self.entry.as_ref()].into_iter().flatten() {
            if !is_id(id) {
                return Err(LogError::Id(id.chars().take(LONGEST_STEP).collect()));
            }
        }
        if self.begun > LATEST {
            return Err(LogError::Time(self.begun));
        }
        check_steps(&self.steps)?;
        if self.events.len() > MOST_EVENTS {
            return Err(LogError::TooManyEvents(self.events.len()));
        }
        for (entry, event) in (1..).zip(&self.events) {
            event.check(entry)?;
        }
        Ok(())
    }

    /// What has become of the design since, `found` being what now stands on the rack under [`Build::entry`].
    pub fn design_since(&self, found: Option<&Entry>) -> Option<BuildNote> {
        let name = || self.design.name.clone();
        match (&self.entry, found) {
            (None, _) => None,
            (Some(_), None) => Some(BuildNote::DesignRemoved { name: name() }),
            // As files have them: a text gives back a number but for its last bit.
            (Some(_), Some(entry)) if entry.design.to_json() == self.design.to_json() => None,
            (Some(_), Some(_)) => Some(BuildNote::DesignChanged { name: name() }),
        }
    }
}

fn check_steps(steps: &[Step]) -> Result<(), LogError> {
    if steps.len() > MOST_STEPS {
        return Err(LogError::TooManySteps(steps.len()));
    }
    for (place, step) in steps.iter().enumerate() {
        let line = place + 1;
        let characters = step.name.chars().count();
        if step.name.trim().is_empty() {
            return Err(LogError::NoName(line));
        }
        if characters > LONGEST_STEP {
            return Err(LogError::Name { line, characters });
        }
        if steps.iter().take(place).any(|before| before.id == step.id) {
            return Err(LogError::Twice(step.id));
        }
        if let Some(minutes) = step.target_minutes.filter(|it| !MINUTES.admits(*it)) {
            return Err(LogError::Target { line, minutes });
        }
    }
    Ok(())
}

fn as_file<S: Serializer>(design: &Design, serializer: S) -> Result<S::Ok, S::Error> {
    design.to_file().serialize(serializer)
}

/// Designs have versions of their own, which their own reader knows.
fn from_file<'de, D: Deserializer<'de>>(deserializer: D) -> Result<Design, D::Error> {
    let text = <&RawValue>::deserialize(deserializer)?;
    Design::from_json(text.get()).map_err(D::Error::custom)
}
