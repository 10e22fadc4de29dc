//! What follows from the events of a build.

use std::collections::BTreeMap;

use super::build::{Build, Step, Weight};
use super::event::{Verdict, What};
use super::note::BuildNote;
use super::reading::{Reading, Readings, Weighing};
use crate::bar::LossKind;
use crate::units::Mass;

/// From how many hours without a stop on a step may have been left running (a guess: longer than a working day).
pub const LONG_RUN_HOURS: f64 = 12.0;

/// Milliseconds of a minute.
pub(super) const MINUTE_MS: f64 = 60_000.0;

/// What follows from the events of a build.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Story {
    /// The steps in the order of the list, then those that are off it but have events, by id.
    pub steps: Vec<StepStory>,
    /// Minutes of all steps.
    pub minutes: f64,
    /// Heats of all steps.
    pub heats: u32,
    /// The id of the step that runs, and since when: since its start, or since its minutes were typed meanwhile.
    pub open: Option<(u32, u64)>,
    /// What the head lost between each weighing and the next, in the order of the steps.
    pub losses: Vec<Between>,
    /// What the whole tool weighed last.
    pub tool: Option<Mass>,
    /// What was measured of the head, in the order of the entries, and the last that was weighed of it, by the order of the
    /// steps.
    pub readings: Readings,
    /// What is to be said of it, in the order of the entries.
    pub notes: Vec<BuildNote>,
}

/// What follows for a step.
#[derive(Clone, Debug, PartialEq)]
pub struct StepStory {
    /// Its id.
    pub id: u32,
    /// Its name; none when it is off the list.
    pub name: Option<String>,
    /// How long it took: what was typed, and all from start to stop since then. What still runs is not in it.
    pub minutes: f64,
    /// Whether minutes were typed: they stand for whatever was pressed before.
    pub typed: bool,
    /// What of the minutes was pressed: since some were typed, or else all.
    pub pressed_minutes: f64,
    /// What it was to take, in minutes.
    pub target_minutes: Option<f64>,
    /// Heats counted.
    pub heats: u32,
    /// What was weighed at it last.
    pub weighed: Option<Mass>,
}

/// What was lost between two weighings.
#[derive(Clone, Debug, PartialEq)]
pub struct Between {
    /// Place on the list of the step that was weighed before.
    pub from: usize,
    /// Place on the list of the step that was weighed after.
    pub to: usize,
    /// What was lost, in kg; below 0 where the steel is said to have gained.
    pub kg: f64,
    /// Lines of the ledger that the steps in between take from, in the order of the work.
    pub kinds: Vec<LossKind>,
    /// Whether one of them takes off what is over the target.
    pub to_target: bool,
    /// What the smith said of the second weighing.
    pub verdict: Option<Verdict>,
}

/// What the events of a step come to.
#[derive(Clone, Default)]
struct Count {
    pressed_ms: u64,
    typed: Option<f64>,
    heats: u32,
    weighed: Option<(Mass, Option<Verdict>)>,
    entries: usize,
}

/// What is to be said, in the order of the entries.
#[derive(Default)]
struct Notes(Vec<(Option<u32>, BuildNote)>);

impl Notes {
    fn say(&mut self, note: BuildNote) {
        self.0.push((None, note));
    }

    /// Says something of the time of a step.
    fn of_time(&mut self, step: u32, note: BuildNote) {
        self.0.push((Some(step), note));
    }

    /// The minutes of a step were typed: of the time that they stand for there is no more to say.
    fn settle(&mut self, step: u32) {
        self.0.retain(|(of, _)| *of != Some(step));
    }

    fn told(self) -> Vec<BuildNote> {
        self.0.into_iter().map(|(_, note)| note).collect()
    }
}

impl Build {
    /// What follows from the events. Total: what cannot be as it stands is a note.
    ///
    /// One step runs at a time: starting one ends the one before. The order is that of the entries; times count only
    /// between a start and its end. Typed minutes stand for all that was pressed at their step before them, what runs
    /// at that moment too; what is pressed afterwards adds to them. A scale is read when a step is done, so steps are
    /// parted by their place on the list, not by the clock.
    pub fn story(&self) -> Story {
        let mut notes = Notes::default();
        let mut counts: BTreeMap<u32, Count> = BTreeMap::new();
        let mut open: Option<(u32, u64)> = None;
        let mut before = None;
        let mut sizes = Vec::new();
        for (entry, event) in (1..).zip(&self.events) {
            if let Some(minutes) = before.and_then(|before| earlier(event.at, before)) {
                notes.say(BuildNote::Backwards { entry, minutes });
            }
            before = Some(event.at);
            counts.entry(event.step).or_default().entries += 1;
            let running = open.filter(|(step, _)| *step == event.step);
            match &event.what {
                What::Start if running.is_some() => notes.say(BuildNote::Running {
                    entry,
                    step: self.called(event.step),
                }),
                What::Stop if running.is_none() => notes.say(BuildNote::NotRunning {
                    entry,
                    step: self.called(event.step),
                }),
                What::Start | What::Stop => {
                    if let Some(ended) = open.take() {
                        let run = self.run(entry, ended, event.at, &mut notes);
                        let pressed = &mut counts.entry(ended.0).or_default().pressed_ms;
                        *pressed = pressed.saturating_add(run);
                    }
                    if event.what == What::Start {
                        open = Some((event.step, event.at));
                    }
                }
                What::Weighed { mass, verdict } => {
                    counts.entry(event.step).or_default().weighed = Some((*mass, *verdict));
                }
                What::Heats { count } => {
                    let heats = &mut counts.entry(event.step).or_default().heats;
                    *heats = heats.saturating_add(*count);
                }
                What::Minutes { minutes } => {
                    let count = counts.entry(event.step).or_default();
                    (count.typed, count.pressed_ms) = (Some(*minutes), 0);
                    notes.settle(event.step);
                    // What ran until now is in the minutes; the rest of the run is not.
                    if running.is_some() {
                        open = Some((event.step, event.at));
                    }
                }
                What::Measured { dim, size, celsius } => sizes.push(Reading {
                    dim: *dim,
                    size: *size,
                    celsius: *celsius,
                }),
                What::Note { .. } => {}
            }
        }
        let mut notes = notes.told();
        let gone = counts.iter().filter(|(id, _)| self.step(**id).is_none());
        notes.extend(gone.map(|(id, count)| BuildNote::OffTheList {
            step: *id,
            entries: count.entries,
        }));
        let losses = self.losses(&counts, &mut notes);
        let steps = self.step_stories(&counts);
        Story {
            minutes: steps.iter().map(|step| step.minutes).sum(),
            heats: steps
                .iter()
                .fold(0, |sum: u32, step| sum.saturating_add(step.heats)),
            tool: self.tool(&counts),
            readings: Readings {
                sizes,
                weighed: self.steel(&counts),
            },
            steps,
            open,
            losses,
            notes,
        }
    }

    /// What a step is called in a sentence.
    pub(super) fn called(&self, id: u32) -> String {
        match self.step(id) {
            Some(step) => step.name.clone(),
            None => format!("step {id}"),
        }
    }

    /// How long a step ran, in ms, with what is to be said of it.
    fn run(&self, entry: usize, (step, from): (u32, u64), to: u64, notes: &mut Notes) -> u64 {
        let Some(run) = to.checked_sub(from) else {
            let note = BuildNote::NoTime {
                entry,
                step: self.called(step),
            };
            notes.of_time(step, note);
            return 0;
        };
        let hours = run as f64 / MINUTE_MS / 60.0;
        if hours >= LONG_RUN_HOURS {
            let note = BuildNote::LongRun {
                entry,
                step: self.called(step),
                hours,
            };
            notes.of_time(step, note);
        }
        run
    }

    fn step_stories(&self, counts: &BTreeMap<u32, Count>) -> Vec<StepStory> {
        let story = |id: u32, step: Option<&Step>| {
            let count = counts.get(&id).cloned().unwrap_or_default();
            let pressed_minutes = count.pressed_ms as f64 / MINUTE_MS;
            StepStory {
                id,
                name: step.map(|step| step.name.clone()),
                minutes: count.typed.unwrap_or_default() + pressed_minutes,
                typed: count.typed.is_some(),
                pressed_minutes,
                target_minutes: step.and_then(|step| step.target_minutes),
                heats: count.heats,
                weighed: count.weighed.map(|(mass, _)| mass),
            }
        };
        let listed = self.steps.iter().map(|step| story(step.id, Some(step)));
        let gone = counts.keys().filter(|id| self.step(**id).is_none());
        listed.chain(gone.map(|id| story(*id, None))).collect()
    }

    /// The steps at which steel alone is weighed: those before the handle comes on.
    fn bare_steps(&self) -> &[Step] {
        bare(&self.steps)
    }

    fn losses(&self, counts: &BTreeMap<u32, Count>, notes: &mut Vec<BuildNote>) -> Vec<Between> {
        let mut losses = Vec::new();
        let mut before: Option<(usize, f64)> = None;
        let steps = self.bare_steps();
        for (to, step) in steps.iter().enumerate() {
            let weighed = counts.get(&step.id).and_then(|count| count.weighed);
            let Some((mass, verdict)) = weighed else {
                continue;
            };
            let to_kg = mass.in_kg();
            if let Some((from, from_kg)) = before.replace((to, to_kg)) {
                let passed = steps.get(from + 1..=to).unwrap_or_default();
                if to_kg > from_kg {
                    notes.push(BuildNote::Gained {
                        from: steps
                            .get(from)
                            .map(|step| step.name.clone())
                            .unwrap_or_default(),
                        from_kg,
                        to: step.name.clone(),
                        to_kg,
                    });
                }
                losses.push(Between {
                    from,
                    to,
                    kg: from_kg - to_kg,
                    kinds: kinds(passed),
                    to_target: passed.iter().any(|step| step.weight == Weight::ToTarget),
                    verdict,
                });
            }
        }
        losses
    }

    /// What the head weighed last, but for what the smith left out, and what goes afterwards.
    fn steel(&self, counts: &BTreeMap<u32, Count>) -> Option<Weighing> {
        let steps = self.bare_steps().iter().enumerate();
        let mut weighed = steps.filter_map(|(place, step)| match counts.get(&step.id)?.weighed? {
            (_, Some(Verdict::LeftOut)) => None,
            (mass, _) => Some((place, mass)),
        });
        let (place, mass) = weighed.next_back()?;
        Some(Weighing::after(mass, &self.steps, place))
    }

    fn tool(&self, counts: &BTreeMap<u32, Count>) -> Option<Mass> {
        let after = self.steps.get(self.bare_steps().len()..)?;
        let mut weighed = after
            .iter()
            .rev()
            .filter_map(|step| counts.get(&step.id)?.weighed);
        weighed.next().map(|(mass, _)| mass)
    }
}

/// Those of `steps` that come before the handle is put on.
pub(super) fn bare(steps: &[Step]) -> &[Step] {
    let mut parts = steps.split(|step| step.weight == Weight::OnHandle);
    parts.next().unwrap_or_default()
}

/// Lines of the ledger that `steps` take from, each once, in the order of the work.
pub(super) fn kinds(steps: &[Step]) -> Vec<LossKind> {
    let takes = |kind: &LossKind| steps.iter().any(|step| step.weight.takes(*kind));
    LossKind::ALL.into_iter().filter(takes).collect()
}

/// By how many minutes `at` is earlier than `before`, if it is.
fn earlier(at: u64, before: u64) -> Option<f64> {
    let back = before.checked_sub(at).filter(|back| *back > 0)?;
    Some(back as f64 / MINUTE_MS)
}
