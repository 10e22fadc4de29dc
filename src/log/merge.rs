//! Builds that come into a log: joined by id, and no event of either is lost.
//!
//! Two states of one build have events in common and each may have some that the other has not. What is joined has every
//! event as often as the state that has it more often, in the order of the one that stands here; an event that came stands
//! behind all that stood before it where it came from, and before what was recorded later.
//!
//! A step that was added in two places may have one id for two things of the work: then the one that comes gets another id
//! here, and its events with it, so that two states of one build are always one build and no weighing counts twice.

use std::collections::{BTreeMap, BTreeSet};

use self::same::{here, ids_here};
use super::build::{Build, MOST_EVENTS, MOST_STEPS, Outcome, Step};
use super::event::Event;
use super::file::{Log, MOST_BUILDS};

mod same;

/// What became of one build that came.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BuildArrival {
    /// It is in the log under its own id.
    Came,
    /// All of it was there already.
    Skipped,
    /// What it had more was taken into the one of its id.
    Joined,
    /// Its id is another build's here, so it is there as a copy.
    Copied,
    /// It is a state of a build that stands here, and the two together hold more than a build does: it did not come.
    TooMuch,
    /// The log holds no more: it did not come.
    NoRoom,
}

/// What came of one build, for the report.
#[derive(Clone, Debug, PartialEq)]
pub struct BuildArrived {
    /// What became of it.
    pub arrival: BuildArrival,
    /// The build as it stands in the log now; as it came where it did not.
    pub build: Build,
}

impl Build {
    /// This build with what `other`, another state of it, has more: events, steps, how it ended and where it was begun from.
    /// Where both have something, this one's stands.
    ///
    /// Nothing where they are no two states of one build (another design or time), or hold too much together.
    // Inlined with all that follows: the page's is built for size, and once.
    #[inline]
    pub fn joined(&self, other: &Self) -> Option<Self> {
        if !self.is_one_with(other) {
            return None;
        }
        let ids = ids_here(self, other);
        let steps = joined_steps(&self.steps, &other.steps, &ids)?;
        let renamed = |event: &Event| Event {
            step: here(&ids, event.step),
            ..event.clone()
        };
        let coming: Vec<Event> = other.events.iter().map(renamed).collect();
        let events = joined_events(&self.events, &coming);
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

    /// Whether the two are states of one build, under whatever ids.
    #[inline]
    fn is_one_with(&self, other: &Self) -> bool {
        // Designs as files have them: one that was written and read has its figures rounded.
        self.begun == other.begun
            && (self.design == other.design || self.design.to_json() == other.design.to_json())
    }

    /// Whether all of `other` is in this one, under whatever id.
    #[inline]
    fn has_all_of(&self, other: &Self) -> bool {
        self.joined(other).is_some_and(|joined| joined == *self)
    }

    /// Whether the two are states of one build and have something recorded in common, at whatever step.
    #[inline]
    fn has_some_of(&self, other: &Self) -> bool {
        let there: BTreeSet<_> = other.events.iter().map(said_anywhere).collect();
        let mut own = self.events.iter();
        own.any(|event| there.contains(&said_anywhere(event))) && self.is_one_with(other)
    }

    /// Takes another state of this build in.
    #[inline]
    fn take_state(&mut self, other: Self) -> BuildArrived {
        let Some(build) = self.joined(&other) else {
            return BuildArrived {
                arrival: BuildArrival::TooMuch,
                build: other,
            };
        };
        let arrival = if build == *self {
            BuildArrival::Skipped
        } else {
            BuildArrival::Joined
        };
        self.clone_from(&build);
        BuildArrived { arrival, build }
    }
}

impl Log {
    /// Takes `coming` in, one after the other; no event that is here or comes is lost. An id that is taken by another build
    /// is given up for one of `new_id`, which is asked until it names one that is free.
    ///
    /// The same log taken in again is skipped as a whole, its copies too. A copy is known by anything that is recorded here
    /// and there, and joined with what comes of it. Builds of ids that are free are others, whatever is recorded: of two that
    /// were typed by the minute much may be the same.
    #[inline]
    pub fn take_in(
        &mut self,
        coming: Vec<Build>,
        mut new_id: impl FnMut() -> String,
    ) -> Vec<BuildArrived> {
        // Where every id stands and what was begun when: looking through all for each that comes takes long.
        let mut places: BTreeMap<String, usize> = BTreeMap::new();
        let mut begun: Vec<(u64, usize)> = Vec::new();
        for (place, build) in self.builds.iter().enumerate() {
            places.insert(build.id.clone(), place);
            begun.push((build.begun, place));
        }
        begun.sort_unstable();
        let mut report = Vec::with_capacity(coming.len());
        for mut build in coming {
            let own = places.get(&build.id).copied();
            let there = own.and_then(|own| {
                if self.builds[own].is_one_with(&build) {
                    return Some(own);
                }
                // Another's id: it may have come as a copy before, and both may have gone on since.
                let from = begun.partition_point(|(at, _)| *at < build.begun);
                let alike = begun[from..].iter();
                let alike = alike.take_while(|(at, _)| *at == build.begun);
                let states = alike.map(|(_, place)| *place).filter(|place| {
                    let other = &self.builds[*place];
                    other.has_some_of(&build) || other.has_all_of(&build) || build.has_all_of(other)
                });
                // One that has all of it before others, so that what came once is skipped.
                states.min_by_key(|place| !self.builds[*place].has_all_of(&build))
            });
            if let Some(here) = there.and_then(|place| self.builds.get_mut(place)) {
                report.push(here.take_state(build));
                continue;
            }
            if self.builds.len() >= MOST_BUILDS {
                let arrival = BuildArrival::NoRoom;
                report.push(BuildArrived { arrival, build });
                continue;
            }
            let arrival = if own.is_none() {
                BuildArrival::Came
            } else {
                while places.contains_key(&build.id) {
                    build.id = new_id();
                }
                BuildArrival::Copied
            };
            let place = self.builds.len();
            places.insert(build.id.clone(), place);
            let behind = begun.partition_point(|(at, _)| *at <= build.begun);
            begun.insert(behind, (build.begun, place));
            self.builds.push(build.clone());
            report.push(BuildArrived { arrival, build });
        }
        report
    }
}

/// The steps of both, those of `own` as they are; nothing where there are too many. `ids` says what those of `other` are
/// called here.
#[inline]
fn joined_steps(own: &[Step], other: &[Step], ids: &BTreeMap<u32, u32>) -> Option<Vec<Step>> {
    let mut steps = own.to_vec();
    let mut behind = 0;
    for step in other {
        let id = here(ids, step.id);
        behind = match steps.iter().position(|own| own.id == id) {
            Some(place) => place + 1,
            None => {
                steps.insert(behind, Step { id, ..step.clone() });
                behind + 1
            }
        };
    }
    (steps.len() <= MOST_STEPS).then_some(steps)
}

/// What an event says, so that equal ones are found.
#[inline]
fn said(event: &Event) -> String {
    // No event has a key that is no text.
    serde_json::to_string(event).unwrap_or_default()
}

/// The same without its step, which may have another id elsewhere.
#[inline]
fn said_anywhere(event: &Event) -> String {
    said(&Event {
        step: 0,
        ..event.clone()
    })
}

/// Every event of both as often as the one that has it more often.
#[inline]
fn joined_events(own: &[Event], other: &[Event]) -> Vec<Event> {
    let mut places: BTreeMap<String, BTreeSet<usize>> = BTreeMap::new();
    for (place, event) in own.iter().enumerate() {
        places.entry(said(event)).or_default().insert(place);
    }
    // Those that only the other has, each with how many of `own` stood before it there.
    let mut coming: Vec<(usize, &Event)> = Vec::new();
    let mut before = 0;
    for event in other {
        match places.get_mut(&said(event)).and_then(BTreeSet::pop_first) {
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
