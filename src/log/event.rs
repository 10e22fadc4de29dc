//! What was pressed or typed at a step.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::error::LogError;
use crate::bar::{Limit, PIECE_KG};
use crate::design::Dim;
use crate::rack::LATEST;
use crate::units::{Mass, Measure};

/// What is weighed at a step: a billet, a head or a whole tool, in kg.
pub const WEIGHED_KG: Limit = PIECE_KG;
/// Heats that are counted at once.
pub const HEATS: Limit = Limit {
    least: 0.0,
    most: 100.0,
};
/// Minutes typed for a step: up to ten weeks.
pub const MINUTES: Limit = Limit {
    least: 0.0,
    most: 100_000.0,
};
/// The heat at which something is measured, °C: up to where steel melts.
pub const CELSIUS: Limit = Limit {
    least: -50.0,
    most: 1500.0,
};
/// The longest note, in characters.
pub const LONGEST_NOTE: usize = 1000;
/// What a caliper can show, in mm or degrees either way.
pub(super) const READING: Limit = Limit {
    least: -1000.0,
    most: 1000.0,
};

/// Something that happened at a step.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Event {
    /// The step's id.
    pub step: u32,
    /// When it was recorded, ms after 1970 began, UTC.
    #[schemars(range(min = 0, max = LATEST))]
    pub at: u64,
    /// What happened.
    pub what: What,
}

/// What happened at a step.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum What {
    /// Work on it began, and with that ended on any other.
    Start,
    /// Work on it ended for now.
    Stop,
    /// The steel was weighed when the step was done; of several weighings of a step the last recorded counts.
    Weighed {
        /// What the scale showed.
        mass: Mass,
        /// What the smith answered when asked about it.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        verdict: Option<Verdict>,
    },
    /// Heats that were taken, besides those counted before.
    Heats {
        /// How many.
        #[schemars(range(min = HEATS.least as u32, max = HEATS.most as u32))]
        count: u32,
    },
    /// What the step took in all until then: it stands for what was pressed before, and what is pressed later adds.
    /// The last typed counts.
    Minutes {
        /// In minutes.
        #[schemars(range(min = MINUTES.least, max = MINUTES.most))]
        minutes: f64,
    },
    /// A dimension as it was measured.
    Measured {
        /// Which dimension of the design.
        dim: Dim,
        /// What it measured.
        size: Measure,
        /// The heat it was measured at, °C; cold when nothing is said.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        #[schemars(range(min = CELSIUS.least, max = CELSIUS.most))]
        celsius: Option<f64>,
    },
    /// Something to remember.
    Note {
        /// In the smith's words.
        #[schemars(length(max = LONGEST_NOTE))]
        text: String,
    },
}

/// What the smith says of a loss that lies far from what was to be expected.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Verdict {
    /// It was so: it counts.
    Counts,
    /// Something went wrong with it: it does not count.
    LeftOut,
}

impl What {
    /// A weighing that nothing was said of.
    pub const fn weighed(mass: Mass) -> Self {
        Self::Weighed {
            mass,
            verdict: None,
        }
    }
}

impl Event {
    /// What is wrong with the event, the `entry`th of a build, counted from 1.
    pub(super) fn check(&self, entry: usize) -> Result<(), LogError> {
        let wrong = |what, value: f64, limit: Limit, unit| {
            if limit.admits(value) {
                Ok(())
            } else {
                Err(LogError::Reading {
                    entry,
                    what,
                    value,
                    limit,
                    unit,
                })
            }
        };
        if self.at > LATEST {
            return Err(LogError::Time(self.at));
        }
        match &self.what {
            What::Start | What::Stop => Ok(()),
            What::Weighed { mass, .. } => wrong("the weight", mass.in_kg(), WEIGHED_KG, "kg"),
            What::Heats { count } => {
                wrong("the number of heats", f64::from(*count), HEATS, "heats")
            }
            What::Minutes { minutes } => wrong("the time", *minutes, MINUTES, "min"),
            What::Measured { dim, size, celsius } => {
                if dim.is_angle() != matches!(size, Measure::Angle(_)) {
                    return Err(LogError::Kind {
                        entry,
                        dim: *dim,
                        size: *size,
                    });
                }
                let unit = if dim.is_angle() { "°" } else { "mm" };
                wrong("the size", size.number(), READING, unit)?;
                celsius.map_or(Ok(()), |celsius| wrong("the heat", celsius, CELSIUS, "°C"))
            }
            What::Note { text } => {
                let characters = text.chars().count();
                if characters > LONGEST_NOTE {
                    return Err(LogError::Note { entry, characters });
                }
                Ok(())
            }
        }
    }
}
