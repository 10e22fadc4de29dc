//! Builds that come into a log: joined by id, and no event of either is lost.
//!
//! Two states of one build have events in common and each may have some that the other has not. What is joined has every
//! event as often as the state that has it more often, in the order of the one that stands here; an event that came stands
//! behind all that stood before it where it came from, and before what was recorded later.

use std::collections::{BTreeMap, BTreeSet};

use super::build::{Build, MOST_EVENTS, MOST_STEPS, Outcome, Step, usual_steps};
use super::event::Event;
use super::file::{Log, MOST_BUILDS};

/// What became of one build that came.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BuildArrival {
    /// It is in the log under its own id.
    Came,
    /// All of it was there already.
    Skipped,
    /// What it had more was taken into the one of its id.
    Joined,
    /// Its id is another build's here, or one that cannot be joined with it, so it is there as a copy.
    Copied,
    /// The log holds no more.
    NoRoom,
}

/// What came of one build, for the report.
#[derive(Clone, Debug, PartialEq)]
pub struct BuildArrived {
    /// What became of it.
    pub arrival: BuildArrival,
    /// The build as it stands in the log now; as it came where there was no room.
    pub build: Build,
}

impl Build {
    /// This build with what `other`, another state of it, has more: events, steps, how it ended and where it was begun from.
    /// Where both have something, this one's stands.
    ///
    /// Nothing where they are no two states of one build (another design, time or meaning of a step), or hold too much
    /// together.
    pub fn joined(&self, other: &Self) -> Option<Self> {
        // Designs as files have them: one that was written and read has its figures rounded.
        if self.begun != other.begun || self.design.to_json() != other.design.to_json() {
            return None;
        }
        let steps = joined_steps(&self.steps, &other.steps)?;
        let events = joined_events(&self.events, &other.events);
        (events.len() <= MOST_EVENTS).then(|| Self {
            id: self.id.clone(),
            entry: self.entry.clone().or_else(|| other.entry.clone()),
            begun: self.begun,
            outcome: match self.outcome {
                Outcome::Open => other.outcome,
                ended => ended,
            },
            steps,
            events,
            design: self.design.clone(),
        })
    }

    /// Whether all of `other` is in this one, under whatever id.
    fn has_all_of(&self, other: &Self) -> bool {
        self.joined(other).is_some_and(|joined| joined == *self)
    }
}

impl Log {
    /// Takes `coming` in, one after the other; no event that is here or comes is lost. An id that is taken by a build that
    /// cannot be joined with is given up for one of `new_id`, which is asked until it names one that is free.
    ///
    /// The same log taken in again is skipped as a whole.
    pub fn take_in(
        &mut self,
        coming: Vec<Build>,
        mut new_id: impl FnMut() -> String,
    ) -> Vec<BuildArrived> {
        let mut report = Vec::new();
        for mut build in coming {
            let here = self.builds.iter_mut().find(|other| other.id == build.id);
            let joined = here.map(|here| {
                let joined = here.joined(&build)?;
                let arrival = if joined == *here {
                    BuildArrival::Skipped
                } else {
                    BuildArrival::Joined
                };
                here.clone_from(&joined);
                Some(BuildArrived {
                    arrival,
                    build: joined,
                })
            });
            let is_new = joined.is_none();
            if let Some(arrived) = joined.flatten() {
                report.push(arrived);
                continue;
            }
            let mut same = self.builds.iter().filter(|other| other.has_all_of(&build));
            if let Some(same) = same.next().filter(|_| !is_new) {
                let build = same.clone();
                report.push(BuildArrived {
                    arrival: BuildArrival::Skipped,
                    build,
                });
                continue;
            }
            let arrival = if self.builds.len() >= MOST_BUILDS {
                BuildArrival::NoRoom
            } else if is_new {
                BuildArrival::Came
            } else {
                while self.builds.iter().any(|other| other.id == build.id) {
                    build.id = new_id();
                }
                BuildArrival::Copied
            };
            if arrival != BuildArrival::NoRoom {
                self.builds.push(build.clone());
            }
            report.push(BuildArrived { arrival, build });
        }
        report
    }
}

/// The steps of both, those of `own` as they are: a usual one by whatever name it goes. Nothing where one id means two things
/// or there are too many.
fn joined_steps(own: &[Step], other: &[Step]) -> Option<Vec<Step>> {
    let usual = usual_steps();
    let is_usual = |id: u32| usual.iter().any(|step| step.id == id);
    let mut steps = own.to_vec();
    let mut behind = 0;
    for step in other {
        match steps.iter().position(|here| here.id == step.id) {
            Some(place)
                if is_usual(step.id)
                    || steps.get(place).is_some_and(|here| here.name == step.name) =>
            {
                behind = place + 1;
            }
            Some(_) => return None,
            None => {
                steps.insert(behind, step.clone());
                behind += 1;
            }
        }
    }
    (steps.len() <= MOST_STEPS).then_some(steps)
}

/// Every event of both as often as the one that has it more often.
fn joined_events(own: &[Event], other: &[Event]) -> Vec<Event> {
    // What an event says, so that equal ones are found: no event has a key that is no text.
    let key = |event: &Event| serde_json::to_string(event).unwrap_or_default();
    let mut places: BTreeMap<String, BTreeSet<usize>> = BTreeMap::new();
    for (place, event) in own.iter().enumerate() {
        places.entry(key(event)).or_default().insert(place);
    }
    // Those that only the other has, each with how many of `own` stood before it there.
    let mut coming: Vec<(usize, &Event)> = Vec::new();
    let mut before = 0;
    for event in other {
        match places.get_mut(&key(event)).and_then(BTreeSet::pop_first) {
            Some(place) => before = before.max(place + 1),
            None => coming.push((before, event)),
        }
    }
    let mut coming = coming.into_iter().peekable();
    let mut joined = Vec::with_capacity(own.len() + coming.len());
    for (place, event) in own.iter().enumerate() {
        while let Some((_, new)) =
            coming.next_if(|(before, new)| *before <= place && new.at < event.at)
        {
            joined.push(new.clone());
        }
        joined.push(event.clone());
    }
    joined.extend(coming.map(|(_, new)| new.clone()));
    joined
}
