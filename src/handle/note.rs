//! What the smith is told of a handle, in sentences.

use std::fmt;

use serde::{Serialize, Serializer};

use super::made::{Level, Strength};
use super::seat::Seat;
use super::{Handle, Shoulder};
use crate::design::length_in_words;
use crate::drift::{Mouth, SectionSize};
use crate::solid::Lean;
use crate::units::{System, show_number};

/// What goes with making and using a handle, wherever one is shown.
///
/// # Source
/// Handles free of splinters and cracks and tight in the tool: 29 CFR 1915.133(d) and 1926.301(d). Never a loose
/// handle: OSHA Handbook for Small Businesses, checklist. Splinters of steel: DGUV Information 209-001, section 2.3.
/// Wood dust, IARC group 1: from memory. Oily rags: insurers' loss control pages (Secura, Redriver Mutual); the fire
/// of a Philadelphia high-rise in 1991 began with them.
pub const CAUTIONS: [&str; 5] = [
    "Before each use look for splinters and cracks in the handle and try whether the head is tight: never strike with a loose one.",
    "Splinters fly when a wedge is driven and when a hammer strikes: wear eye protection, and so must those who stand by.",
    "Wood dust harms the lungs and can cause cancer: sand with extraction or a mask, and sweep up damp.",
    "Rags with linseed oil heat by themselves and set fires: soak them in water in a closed metal can, or spread them out singly outdoors.",
    "The strength of a handle is an estimate for clear, straight-grained wood: a knot, grain that runs out or a crack breaks far sooner.",
];

/// The most that wood is pressed together by its wedge before the wedge is likely to stop or the tongue to split, mm
/// (common practice, no source).
pub const MOST_CRUSH_MM: f64 = 1.5;
/// A gap or a step that is worth a word, mm.
const LEAST_SAID_MM: f64 = 0.05;

/// Something to be said of a handle. Written as a sentence; [`Note::sentence`] says it in the units that the smith
/// reads.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Note {
    /// The eye is cocked.
    Leans {
        /// Along the head, in degrees.
        along_deg: f64,
        /// Across it, in degrees.
        across_deg: f64,
    },
    /// A mouth is narrower than the waist, so the tongue is worked to it.
    NarrowMouth {
        /// Which.
        mouth: Mouth,
        /// Its size.
        size: SectionSize,
        /// The waist's size.
        waist: SectionSize,
    },
    /// The upper mouth is not filled across.
    LooseAcross {
        /// The gap there, both sides together.
        gap_mm: f64,
        /// Whether there is a wedge.
        wedged: bool,
    },
    /// The upper mouth is not filled along.
    LooseAlong {
        /// The gap there, both ends together.
        gap_mm: f64,
    },
    /// The wood is pressed together too far.
    Crushed {
        /// By how much, where it is most.
        crush_mm: f64,
        /// How far below the upper mouth.
        depth_mm: f64,
    },
    /// The lower mouth is not filled.
    NoShoulder {
        /// The gap along the head.
        along_mm: f64,
        /// The gap across it.
        across_mm: f64,
    },
    /// The stem begins thinner than the wood in the lower mouth.
    Stepped {
        /// The stem's oval there.
        stem: SectionSize,
        /// The wood in the mouth.
        wood: SectionSize,
    },
    /// What the handle bears.
    Bears {
        /// Where it is slimmest, from the butt.
        at_mm: f64,
        /// The oval there.
        section: SectionSize,
        /// The bending moment at which clear wood breaks.
        moment_nm: f64,
    },
}

/// Newton metres in one pound-force foot: 0.45359237 kg × 9.80665 m/s² × 0.3048 m.
const NM_PER_LBF_FT: f64 = 1.355_817_948_331_400_4;

impl Note {
    /// The sentence, with lengths in the units of `system`.
    pub fn sentence(&self, system: System) -> String {
        let show = |mm: f64| length_in_words(mm, system);
        let pair =
            |size: &SectionSize| format!("{} × {}", show(size.length_mm), show(size.width_mm));
        match self {
            Self::Leans {
                along_deg,
                across_deg,
            } => format!(
                "The eye leans {}° along the head and {}° across it, and the handle with it. In the eye sizes hold in \
                 planes level with the head and depths square to them, outside along and across the handle.",
                show_number(tenths(*along_deg)),
                show_number(tenths(*across_deg))
            ),
            Self::NarrowMouth { mouth, size, waist } => format!(
                "The {} mouth is {}, narrower than the waist of {} in one size: the tongue is worked to pass it and \
                 leaves a gap at the waist.",
                mouth.word(),
                pair(size),
                pair(waist)
            ),
            Self::LooseAcross { gap_mm, wedged } => format!(
                "{} open across the upper mouth: {}, or the head works loose.",
                is_left(*gap_mm, system),
                if *wedged {
                    "take a thicker wedge"
                } else {
                    "saw a kerf and drive a wedge"
                }
            ),
            Self::LooseAlong { gap_mm } => format!(
                "{} open along the upper mouth, which no wedge along the head fills. A cross wedge as thick there \
                 closes it.",
                is_left(*gap_mm, system)
            ),
            Self::Crushed { crush_mm, depth_mm } => format!(
                "{} the wood would be pressed together by {}, more than {}: the wedge may stop \
                 before it is home, or split the tongue. Take a thinner or a longer wedge.",
                if *depth_mm < LEAST_SAID_MM {
                    "At the upper mouth".to_owned()
                } else {
                    format!("{} below the upper mouth", show(*depth_mm))
                },
                show(*crush_mm),
                show(MOST_CRUSH_MM)
            ),
            Self::NoShoulder {
                along_mm,
                across_mm,
            } => format!(
                "Without a shoulder the lower mouth stays open by {} along and {} across: only the waist holds the \
                 head below.",
                show(*along_mm),
                show(*across_mm)
            ),
            Self::Stepped { stem, wood } => format!(
                "Right behind the head the handle is {}, but the wood in the eye {}: it breaks soonest at such a step. \
                 Let the last station follow the mouth.",
                pair(stem),
                pair(wood)
            ),
            Self::Bears {
                at_mm,
                section,
                moment_nm,
            } => format!(
                "An estimate: {} from the butt, where it is slimmest at {}, clear wood at 12 % moisture breaks at a bending \
                 moment of about {}. Blows, knots and cracks break it far sooner.",
                show(*at_mm),
                pair(section),
                moment(*moment_nm, system)
            ),
        }
    }
}

fn is_left(mm: f64, system: System) -> String {
    format!("{} stays", length_in_words(mm, system))
}

fn moment(nm: f64, system: System) -> String {
    match system {
        System::Metric => format!("{} N·m", show_number(nm.round())),
        System::Imperial => format!("{} lbf·ft", show_number((nm / NM_PER_LBF_FT).round())),
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

/// Everything that is to be said of a handle, its `levels` from the lower mouth to the upper.
pub(super) fn notes(
    seat: &Seat<f64>,
    handle: &Handle,
    levels: &[Level],
    strength: &Strength,
) -> Vec<Note> {
    let mut notes = Vec::new();
    let plug = &seat.plug;
    if let Some(Lean { along, across }) = plug.lean {
        notes.push(Note::Leans {
            along_deg: along.atan().to_degrees(),
            across_deg: across.atan().to_degrees(),
        });
    }
    let waist = plug.waist;
    for mouth in Mouth::BOTH {
        let level = match mouth {
            Mouth::Top => plug.top,
            Mouth::Bottom => plug.bottom,
        };
        if level.p < waist.p || level.q < waist.q {
            notes.push(Note::NarrowMouth {
                mouth,
                size: level.into(),
                waist: waist.into(),
            });
        }
    }
    if let Some(top) = levels.last() {
        if top.gap_across_mm > LEAST_SAID_MM {
            notes.push(Note::LooseAcross {
                gap_mm: top.gap_across_mm,
                wedged: handle.wedge.is_some(),
            });
        }
        if top.gap_along_mm > LEAST_SAID_MM {
            notes.push(Note::LooseAlong {
                gap_mm: top.gap_along_mm,
            });
        }
    }
    let crush = |level: &Level| level.crush_mm[0].max(level.crush_mm[1]);
    let worst = levels
        .iter()
        .max_by(|a, b| crush(a).total_cmp(&crush(b)))
        .filter(|level| crush(level) > MOST_CRUSH_MM);
    if let Some(level) = worst {
        notes.push(Note::Crushed {
            crush_mm: crush(level),
            depth_mm: seat.top - level.height_mm,
        });
    }
    if let Some(bottom) = levels.first() {
        let [along_mm, across_mm] = [bottom.gap_along_mm, bottom.gap_across_mm];
        if handle.shoulder == Shoulder::None && along_mm.max(across_mm) > LEAST_SAID_MM {
            notes.push(Note::NoShoulder {
                along_mm,
                across_mm,
            });
        }
        notes.extend(step(handle, bottom.wood));
    }
    if let Some(moment_nm) = strength.moment_nm {
        notes.push(Note::Bears {
            at_mm: strength.at_mm,
            section: strength.section,
            moment_nm,
        });
    }
    notes
}

/// How much thinner than the wood in the mouth a stem may begin without a word, mm.
const LEAST_STEP_MM: f64 = 1.0;

fn step(handle: &Handle, wood: SectionSize) -> Option<Note> {
    let last = handle.stations.last()?;
    let stem = SectionSize {
        length_mm: last.depth.in_mm(),
        width_mm: last.width.in_mm(),
    };
    let step = (wood.length_mm - stem.length_mm).max(wood.width_mm - stem.width_mm);
    (step > LEAST_STEP_MM).then_some(Note::Stepped { stem, wood })
}
