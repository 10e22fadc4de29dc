//! What the numbers mean, in sentences.

use std::fmt;

use serde::{Serialize, Serializer};

use super::arm::{Arm, Posture};
use crate::design::length_in_words;
use crate::swing::Line;
use crate::units::{Angle, MM_PER_INCH, System, show_angle};

/// From here on a wrist bent towards the little finger is said to be strained, degrees (from memory: it can bend about 35).
pub const STRAIN_ULNAR_DEG: f64 = 30.0;
/// From here on a wrist bent towards the thumb is said to be strained, degrees (from memory: it can bend about 20).
pub const STRAIN_RADIAL_DEG: f64 = 15.0;
/// Heights differ by less than this and are said to be the same, mm (our choice).
const SAME_MM: f64 = 10.0;
/// An eighth of an inch, mm.
const EIGHTH_MM: f64 = MM_PER_INCH / 8.0;

/// Something to be said of a posture. Written as a sentence; [`Note::sentence`] says it in the units that the smith
/// reads.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Note {
    /// The hand does not get down to the blow.
    TooLow {
        /// By how much, mm.
        short_mm: f64,
    },
    /// The hand does not get up to the blow.
    TooHigh {
        /// By how much, mm.
        short_mm: f64,
    },
    /// The forearm points upwards at the blow.
    ForearmRises {
        /// How far above level, radians.
        angle: f64,
    },
    /// The wrist is bent far towards the little finger.
    WristDown {
        /// How far, radians.
        angle: f64,
    },
    /// The wrist is bent far towards the thumb.
    WristUp {
        /// How far, radians.
        angle: f64,
    },
}

/// A length as a tape shows it: to a millimetre or an eighth of an inch.
fn length(mm: f64, system: System) -> String {
    let step = match system {
        System::Metric => 1.0,
        System::Imperial => EIGHTH_MM,
    };
    length_in_words((mm / step).round() * step, system)
}

fn degrees(radians: f64) -> String {
    let whole = radians.to_degrees().round();
    format!("{}°", show_angle(Angle::degrees(whole)))
}

impl Note {
    pub(super) fn all(arm: Option<Arm>, short_mm: f64) -> Vec<Self> {
        let Some(arm) = arm else {
            let note = if short_mm > 0.0 {
                Self::TooLow { short_mm }
            } else {
                Self::TooHigh {
                    short_mm: -short_mm,
                }
            };
            return vec![note];
        };
        let mut notes = Vec::new();
        if arm.forearm < 0.0 {
            notes.push(Self::ForearmRises {
                angle: -arm.forearm,
            });
        }
        if arm.wrist > STRAIN_ULNAR_DEG.to_radians() {
            notes.push(Self::WristDown { angle: arm.wrist });
        } else if -arm.wrist > STRAIN_RADIAL_DEG.to_radians() {
            notes.push(Self::WristUp { angle: -arm.wrist });
        }
        notes
    }

    /// The sentence, in the units of `system`.
    pub fn sentence(&self, system: System) -> String {
        match self {
            Self::TooLow { short_mm } => format!(
                "With a straight back the hand stays {} above where the handle is at the blow. Raise the anvil by as much, \
                 or the back will bend.",
                length(*short_mm, system)
            ),
            Self::TooHigh { short_mm } => format!(
                "The hand stays {} below where the handle is at the blow. Lower the anvil by as much, or the shoulder will \
                 rise.",
                length(*short_mm, system)
            ),
            Self::ForearmRises { angle } => format!(
                "The forearm points {} upwards at the blow: the shoulder does the work. Lower the anvil.",
                degrees(*angle)
            ),
            Self::WristDown { angle } => format!(
                "A closed fist would be bent {} towards the little finger at the blow. Hold the handle slantwise in the \
                 palm, or lower the anvil.",
                degrees(*angle)
            ),
            Self::WristUp { angle } => format!(
                "A closed fist would be bent {} towards the thumb at the blow. Raise the anvil.",
                degrees(*angle)
            ),
        }
    }
}

impl fmt::Display for Note {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.sentence(System::Metric))
    }
}

impl Serialize for Note {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(self)
    }
}

impl Posture {
    /// Every number with its meaning, as a table shows it. Estimates.
    pub fn lines(&self, system: System) -> Vec<Line> {
        let show = |mm| length(mm, system);
        let mut lines = vec![
            Line::new(
                "anvil",
                show(self.anvil_mm),
                format!(
                    "Height of its face; the knuckles hang at about {}.",
                    show(self.build.knuckle_mm)
                ),
            ),
            Line::new(
                "hand at the blow",
                show(self.hand_mm),
                "Anvil, work and face offset together: the height of the level handle.",
            ),
        ];
        if let Some(arm) = self.arm {
            let bent = if arm.wrist < 0.0 {
                "thumb"
            } else {
                "little finger"
            };
            lines.extend([
                Line::new(
                    "elbow",
                    degrees(arm.elbow),
                    "Between upper arm and forearm at the blow; 180° is a straight arm.",
                ),
                Line::new(
                    "wrist",
                    degrees(arm.wrist.abs()),
                    format!("A closed fist is bent towards the {bent} by this at the blow."),
                ),
            ]);
        }
        lines.extend([
            Line::new(
                "stand-off",
                show(self.stand_off_mm),
                "From the ankles to where the blow lands.",
            ),
            Line::new(
                "anvil that this hammer wants",
                show(self.wanted_anvil_mm),
                self.wanted_meaning(system),
            ),
        ]);
        lines
    }

    fn wanted_meaning(&self, system: System) -> String {
        let raise = self.wanted_anvil_mm - self.anvil_mm;
        let change = if raise.abs() < SAME_MM {
            "about as it stands".to_owned()
        } else {
            let way = if raise > 0.0 { "higher" } else { "lower" };
            format!("{} {way}", length(raise.abs(), system))
        };
        format!("With this work the elbow then has the angle that is aimed at: {change}.")
    }
}
