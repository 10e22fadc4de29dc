//! What is to be said of a build, in sentences.

use std::fmt;

use crate::units::{System, show_mass, show_number};

/// Something about a build that the smith should know or mend; nothing of it stops anything.
#[derive(Clone, Debug, PartialEq)]
pub enum BuildNote {
    /// A stop of a step that was not running.
    NotRunning {
        /// The entry, counted from 1.
        entry: usize,
        /// The step.
        step: String,
    },
    /// A start of a step that was running.
    Running {
        /// The entry, counted from 1.
        entry: usize,
        /// The step.
        step: String,
    },
    /// An entry that is earlier than the one before it.
    Backwards {
        /// The entry, counted from 1.
        entry: usize,
        /// By how much, in minutes.
        minutes: f64,
    },
    /// A step that ended before it began.
    NoTime {
        /// The entry that ended it, counted from 1.
        entry: usize,
        /// The step.
        step: String,
    },
    /// A step that ran for very long without a stop.
    LongRun {
        /// The entry that ended it, counted from 1.
        entry: usize,
        /// The step.
        step: String,
        /// How long, in hours.
        hours: f64,
    },
    /// Steel that gained weight.
    Gained {
        /// The step that was weighed before.
        from: String,
        /// What it weighed, kg.
        from_kg: f64,
        /// The step that was weighed after.
        to: String,
        /// What it weighed, kg.
        to_kg: f64,
    },
    /// Entries of a step that is no longer on the list.
    OffTheList {
        /// The step's id.
        step: u32,
        /// How many.
        entries: usize,
    },
    /// The design on the rack is another by now.
    DesignChanged {
        /// The design's name.
        name: String,
    },
    /// The design is no longer on the rack.
    DesignRemoved {
        /// The design's name.
        name: String,
    },
}

impl BuildNote {
    /// The sentence, in the units of `system`.
    pub fn sentence(&self, system: System) -> String {
        match self {
            Self::NotRunning { entry, step } => format!(
                "Entry {entry} stops “{step}”, which was not running. If time is missing, type the minutes of “{step}”."
            ),
            Self::Running { entry, step } => format!(
                "Entry {entry} starts “{step}”, which was running already; its time goes on from the first start."
            ),
            Self::Backwards { entry, minutes } => format!(
                "Entry {entry} is {} min earlier than the one before it: the clock was changed. If a step ran over it, \
                 type its minutes.",
                tenths(*minutes)
            ),
            Self::NoTime { entry, step } => format!(
                "Entry {entry} ends “{step}” before it began, so that no time of it counts. Type its minutes."
            ),
            Self::LongRun { entry, step, hours } => format!(
                "“{step}” ran for {} h until entry {entry}. If it was left running, type its minutes.",
                tenths(*hours)
            ),
            Self::Gained {
                from,
                from_kg,
                to,
                to_kg,
            } => format!(
                "After “{to}” the steel weighs {}, but after “{from}” it was {}. Steel does not gain weight: weigh \
                 again, or mend the one that was misread.",
                show_mass(*to_kg, system),
                show_mass(*from_kg, system)
            ),
            Self::OffTheList { step, entries } => format!(
                "{} to step {step}, which is no longer on the list: time and heats count in the sum, weights and \
                 losses do not.",
                if *entries == 1 {
                    "1 entry belongs".to_owned()
                } else {
                    format!("{entries} entries belong")
                }
            ),
            Self::DesignChanged { name } => format!(
                "“{name}” was changed on the rack since this build was begun. The build keeps the design that it was \
                 begun with."
            ),
            Self::DesignRemoved { name } => format!(
                "“{name}” is no longer on the rack. The build keeps the design that it was begun with."
            ),
        }
    }
}

/// To the tenth, which is all that a sentence needs.
fn tenths(value: f64) -> String {
    show_number((value * 10.0).round() / 10.0)
}

impl fmt::Display for BuildNote {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.sentence(System::Metric))
    }
}
