//! Where the minutes go, per step and per build, and whether they become fewer.

use serde::Serialize;

use super::build::{Build, Outcome};
use super::story::Story;

mod curve;

pub use curve::{CURVE_SHARE, Curve, LARGEST_FACTOR, LEAST_BUILDS, NoCurve, Trend, curve};

/// The minutes of a log.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Minutes {
    /// The builds in the order in which they were begun.
    pub builds: Vec<BuildMinutes>,
    /// The steps of all of them by name, in the order in which they are first met.
    pub steps: Vec<StepMinutes>,
}

/// The minutes of a build.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct BuildMinutes {
    /// The build's id.
    pub id: String,
    /// Its design's name.
    pub name: String,
    /// The how-many-eth it is, counted from 1, spoiled ones and those that are still open too: all are practice.
    pub number: u32,
    /// When it was begun, ms after 1970 began, UTC.
    pub begun: u64,
    /// How it ended.
    pub outcome: Outcome,
    /// Minutes of all steps.
    pub minutes: f64,
    /// What the steps that have a target were to take, if any has.
    pub target_minutes: Option<f64>,
    /// What these steps took over that; below 0 where they were faster.
    pub over_minutes: Option<f64>,
}

/// The minutes of a step over all builds.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct StepMinutes {
    /// Its name; steps that are off the list are "step 7".
    pub name: String,
    /// In how many builds it took any time.
    pub builds: u32,
    /// What it took in all.
    pub minutes: f64,
    /// What it took on average where it took any time.
    pub mean_minutes: f64,
    /// Its share of the minutes of all steps, in percent.
    pub percent: f64,
    /// What it was to take in the last build that says so.
    pub target_minutes: Option<f64>,
}

/// The minutes of `builds`.
pub fn minutes(builds: &[Build]) -> Minutes {
    let mut ordered: Vec<&Build> = builds.iter().collect();
    ordered.sort_by_key(|build| build.begun);
    let mut steps: Vec<StepMinutes> = Vec::new();
    let mut told = Vec::with_capacity(ordered.len());
    for (number, build) in (1..).zip(ordered) {
        let story = build.story();
        take_steps(&mut steps, build, &story);
        told.push(BuildMinutes::of(number, build, &story));
    }
    let all: f64 = steps.iter().map(|step| step.minutes).sum();
    for step in &mut steps {
        step.mean_minutes = step.minutes / f64::from(step.builds.max(1));
        // Of nothing there is no share.
        step.percent = if all > 0.0 {
            step.minutes / all * 100.0
        } else {
            0.0
        };
    }
    Minutes {
        builds: told,
        steps,
    }
}

/// Adds the steps of a build to those of all. Of two steps of one name both count as one.
fn take_steps(steps: &mut Vec<StepMinutes>, build: &Build, story: &Story) {
    let mut taken: Vec<(usize, f64)> = Vec::new();
    for step in &story.steps {
        let name = build.called(step.id);
        let place = steps.iter().position(|other| other.name == name);
        let place = place.unwrap_or_else(|| {
            steps.push(StepMinutes {
                name,
                builds: 0,
                minutes: 0.0,
                mean_minutes: 0.0,
                percent: 0.0,
                target_minutes: None,
            });
            steps.len() - 1
        });
        steps[place].target_minutes = step.target_minutes.or(steps[place].target_minutes);
        match taken.iter_mut().find(|(other, _)| *other == place) {
            Some((_, minutes)) => *minutes += step.minutes,
            None => taken.push((place, step.minutes)),
        }
    }
    for (place, minutes) in taken.into_iter().filter(|(_, minutes)| *minutes > 0.0) {
        steps[place].minutes += minutes;
        steps[place].builds += 1;
    }
}

impl BuildMinutes {
    fn of(number: u32, build: &Build, story: &Story) -> Self {
        let aimed = story
            .steps
            .iter()
            .filter_map(|step| Some((step.target_minutes?, step.minutes)));
        let sums = aimed.reduce(|a, b| (a.0 + b.0, a.1 + b.1));
        Self {
            id: build.id.clone(),
            name: build.design.name.clone(),
            number,
            begun: build.begun,
            outcome: build.outcome,
            minutes: story.minutes,
            target_minutes: sums.map(|(target, _)| target),
            over_minutes: sums.map(|(target, took)| took - target),
        }
    }
}

impl Minutes {
    /// The finished builds that have any minutes: how-many-eth, and what it took. These are what a learning curve is
    /// drawn through.
    pub fn finished(&self) -> Vec<(u32, f64)> {
        let finished = |build: &&BuildMinutes| build.outcome == Outcome::Finished;
        let finished = self.builds.iter().filter(finished);
        finished
            .filter(|build| build.minutes > 0.0)
            .map(|build| (build.number, build.minutes))
            .collect()
    }

    /// The learning curve of the finished builds.
    ///
    /// # Errors
    /// Too few of them, or numbers that lie too close together.
    pub fn curve(&self) -> Result<Curve, NoCurve> {
        let next = u32::try_from(self.builds.len()).unwrap_or(u32::MAX);
        curve(&self.finished(), next.saturating_add(1))
    }
}
