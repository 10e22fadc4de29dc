//! What the smith is told of a series of drifts, in sentences.

use std::fmt;

use serde::{Serialize, Serializer};

use super::{Opening, SectionSize};
use crate::design::length_in_words;
use crate::solid::LEAST_WALL;
use crate::units::{System, show_number};

/// What goes with punching and drifting, wherever a series is shown (common practice, no source).
pub const CAUTIONS: [&str; 4] = [
    "Draw the punch out after every few blows and cool it: left in, it softens, swells and sticks.",
    "The slug comes out hot and flies: let it fall into the bolster, where nobody stands and nothing burns.",
    "Scale flies from punch and drift at every blow: wear eye protection, and gloves or sleeves that do not melt.",
    "Strike the drift squarely and only while the head is hot: in a cold head it wedges, and its end chips.",
];

/// One of the two mouths.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Mouth {
    /// On the wedge side.
    Top,
    /// On the grip side.
    Bottom,
}

impl Mouth {
    /// Both, the upper first.
    pub const BOTH: [Self; 2] = [Self::Top, Self::Bottom];

    /// The word for it.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Top => "top",
            Self::Bottom => "bottom",
        }
    }
}

/// Something to be said of a plan or of one drift. Written as a sentence; [`Note::sentence`] says it in the units that
/// the smith reads.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Note {
    /// An opening that is not the one that the slug in the bar's losses is reckoned for.
    OtherPunch {
        /// The opening.
        opening: Opening,
        /// What the bar's punch leaves.
        punch: Opening,
    },
    /// The wall falls below the design's least while drifting.
    ThinWall {
        /// The drift, counted from 1.
        drift: usize,
        /// The wall with the outer width kept.
        wall_mm: f64,
    },
    /// A mouth is narrower than the waist, so the last drift cannot leave through it.
    NarrowMouth {
        /// Which.
        mouth: Mouth,
        /// Its size.
        size: SectionSize,
        /// The waist's size.
        waist: SectionSize,
    },
    /// The eye is cocked.
    Cocked {
        /// Along the head, in degrees.
        along_deg: f64,
        /// Across it, in degrees.
        across_deg: f64,
    },
    /// A drift that would open the waist too far if it were driven through.
    StopAtMark {
        /// From which mouth.
        mouth: Mouth,
        /// As [`super::Depth::mark_mm`].
        mark_mm: f64,
        /// Its greatest section.
        greatest: SectionSize,
        /// The hot waist's size.
        waist: SectionSize,
    },
    /// Driven through, such a drift would leave too little wall.
    ThinWallThrough {
        /// The wall with the outer width kept.
        wall_mm: f64,
    },
    /// A drift too large for the eye.
    TooLarge {
        /// From its greatest section to the mark; nothing for one without taper.
        mark_mm: Option<f64>,
        /// The longest taper that is reckoned with.
        most_mm: f64,
        /// The hot waist's size.
        waist: SectionSize,
    },
    /// A drift that opens nothing.
    Idle {
        /// What the waist is open to before it.
        open: SectionSize,
    },
    /// Too great a step.
    TooGreat {
        /// What is open before it.
        from: SectionSize,
        /// What is open after it, where the step is greatest.
        to: SectionSize,
        /// The drift that would halve it.
        between: SectionSize,
    },
    /// The last drift leaves a level short of the eye, or makes it too large.
    Missing {
        /// Which level; nothing for the waist.
        mouth: Option<Mouth>,
        /// What it is open to.
        open: SectionSize,
        /// The hot eye's size there.
        eye: SectionSize,
    },
}

impl Note {
    /// The sentence, with lengths in the units of `system`.
    pub fn sentence(&self, system: System) -> String {
        let show = |mm: f64| length_in_words(mm, system);
        let pair =
            |size: &SectionSize| format!("{} × {}", show(size.length_mm), show(size.width_mm));
        match self {
            Self::OtherPunch { opening, punch } => format!(
                "The opening is {}, but the slug in the bar’s losses is reckoned for a punch of {}: the drifts follow the \
                 opening, the cut follows the punch.",
                opening.words(system),
                punch.words(system)
            ),
            Self::ThinWall { drift, wall_mm } => format!(
                "With the outer width kept, drift {drift} leaves a cheek wall of {}, less than {}. Let the cheeks bulge \
                 and forge them back, or begin with a wider piece.",
                show(*wall_mm),
                show(LEAST_WALL)
            ),
            Self::NarrowMouth { mouth, size, waist } => format!(
                "The {} mouth is {}, narrower than the waist of {} in one size: no drift leaves through it. Drift from \
                 the other side, and close this mouth afterwards.",
                mouth.word(),
                pair(size),
                pair(waist)
            ),
            Self::Cocked {
                along_deg,
                across_deg,
            } => format!(
                "The eye leans {}° along the head and {}° across it: lean the drift alike. Sizes hold in planes level \
                 with the head, depths square to them; measured square to the drift sizes are up to {} % smaller.",
                show_number(tenths(*along_deg)),
                show_number(tenths(*across_deg)),
                show_number(tenths(
                    100.0 * (1.0 - along_deg.abs().max(across_deg.abs()).to_radians().cos())
                ))
            ),
            Self::StopAtMark {
                mouth,
                mark_mm,
                greatest,
                waist,
            } => {
                let stop = if *mark_mm >= 0.0 {
                    format!(
                        "stop when the mark {} from its greatest section towards the tip is level with the mouth",
                        show(*mark_mm)
                    )
                } else {
                    format!(
                        "stop when its greatest section is {} below the mouth",
                        show(-mark_mm)
                    )
                };
                format!(
                    "Driven through, it would open the eye to {} where the hot waist is {}. From the {} {stop}.",
                    pair(greatest),
                    pair(waist),
                    mouth.word()
                )
            }
            Self::ThinWallThrough { wall_mm } => format!(
                "Driven through with the outer width kept, it would leave a cheek wall of {}, less than {}.",
                show(*wall_mm),
                show(LEAST_WALL)
            ),
            Self::TooLarge {
                mark_mm: Some(mark_mm),
                most_mm,
                waist,
            } => format!(
                "It is too large for this eye: it would have to stop {} from its greatest section so that the hot \
                 waist stays {}, and a taper of at most {} is reckoned with.",
                show(*mark_mm),
                pair(waist),
                show(*most_mm)
            ),
            Self::TooLarge {
                mark_mm: None,
                waist,
                ..
            } => format!(
                "It is too large for this eye: it has no taper and is larger than the hot waist of {} or a mouth.",
                pair(waist)
            ),
            Self::Idle { open } => format!(
                "It opens nothing: the waist is already open to {}.",
                pair(open)
            ),
            Self::TooGreat { from, to, between } => format!(
                "From {} to {} is too great a step for one drift. Put one of about {} between.",
                pair(from),
                pair(to),
                pair(between)
            ),
            Self::Missing { mouth, open, eye } => {
                let level = match mouth {
                    None => "waist".to_owned(),
                    Some(mouth) => format!("{} mouth", mouth.word()),
                };
                format!(
                    "At the {level} your drifts open {}, but the hot eye is {}: {} in length and {} in width. {}",
                    pair(open),
                    pair(eye),
                    gap(eye.length_mm - open.length_mm, system),
                    gap(eye.width_mm - open.width_mm, system),
                    if eye.length_mm > open.length_mm || eye.width_mm > open.width_mm {
                        "A drift is missing that reaches the eye’s size there."
                    } else {
                        "Begin with a smaller opening."
                    }
                )
            }
        }
    }
}

/// What is lacking or too much, in words.
fn gap(mm: f64, system: System) -> String {
    let size = length_in_words(mm.abs(), system);
    if mm.abs() < 0.005 {
        "right".to_owned()
    } else if mm > 0.0 {
        format!("{size} short")
    } else {
        format!("{size} too much")
    }
}

fn tenths(number: f64) -> f64 {
    (number * 10.0).round() / 10.0
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
