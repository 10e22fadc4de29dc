//! A line of loss: what goes, how much, how surely, and who says so.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::amount::{Atmosphere, HEAT_MINUTES, LossAmount};
use super::error::{BarError, LossPart, LossUnit};
use super::limits::{HEATS, Limit, MINUTES, PUNCH_MM, SOURCE_CHARACTERS};
use super::punch::Punch;
use crate::units::Length;

/// One line of loss between bar and finished head.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Loss {
    /// What is lost.
    pub kind: LossKind,
    /// How much, and its spread.
    pub amount: LossAmount,
    /// Where the numbers come from, at most 200 characters.
    #[schemars(length(max = SOURCE_CHARACTERS))]
    pub source: String,
    /// How surely they are known; the workshop's own when nothing is said.
    #[serde(default)]
    pub certainty: Certainty,
}

/// What is lost, in the order of the work.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum LossKind {
    /// What the punch drives out of the eye.
    Slug,
    /// Scale in the heats of forging.
    ForgingScale,
    /// Scale in normalizing and hardening.
    HardeningScale,
    /// Ragged ends cut off.
    Trimming,
    /// Ground off the faces.
    Grinding,
    /// Filed and polished off elsewhere.
    Dressing,
}

impl LossKind {
    /// Every kind, in the order of the work.
    pub const ALL: [Self; 6] = [
        Self::Slug,
        Self::ForgingScale,
        Self::HardeningScale,
        Self::Trimming,
        Self::Grinding,
        Self::Dressing,
    ];

    /// The words for it.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Slug => "slug",
            Self::ForgingScale => "scale in forging",
            Self::HardeningScale => "scale in heat treatment",
            Self::Trimming => "end trimming",
            Self::Grinding => "grinding faces",
            Self::Dressing => "dressing",
        }
    }

    /// Whether it goes only when the forged head is brought to its final weight at the grinder and the file.
    pub const fn is_after_forging(self) -> bool {
        matches!(self, Self::Grinding | Self::Dressing)
    }
}

/// How surely the numbers of a line are known.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Certainty {
    /// Read in the source that is named.
    Read,
    /// A source was known by memory and not read again.
    Memory,
    /// Common practice, no source.
    CommonPractice,
    /// The workshop's own: measured, or stated by the smith.
    #[default]
    Own,
}

impl Certainty {
    /// All of them.
    pub const ALL: [Self; 4] = [Self::Read, Self::Memory, Self::CommonPractice, Self::Own];

    /// The words for it.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Read => "read in the source",
            Self::Memory => "from memory",
            Self::CommonPractice => "common practice, no source",
            Self::Own => "our own",
        }
    }

    /// How surely a line of a file or link is known that was written before this was said: by the words that its
    /// source begins with.
    pub(crate) fn of_source(source: &str) -> Self {
        if source.starts_with("common practice") {
            Self::CommonPractice
        } else if source.starts_with("from memory") {
            Self::Memory
        } else if source == READ_BEFORE {
            Self::Read
        } else {
            Self::Own
        }
    }
}

/// The source that the scale in forging had until certainty was stated: the one that had been read.
pub(crate) const READ_BEFORE: &str = "scale 5 % of net volume: Forging, course notes, studylib.net/doc/5620444; the spread is common practice, no source";

impl Loss {
    /// Everything that is wrong with this line, the `line`th.
    pub(super) fn check(&self, line: usize) -> Vec<BarError> {
        let name = self.kind.words();
        let mut errors = Vec::new();
        let mut wrong = |part, value: f64, limit: Limit, unit: LossUnit| {
            if !limit.admits(value) {
                errors.push(BarError::Loss {
                    line,
                    name,
                    part,
                    value,
                    limit,
                    unit,
                });
            }
        };
        match self.amount {
            LossAmount::Punched { punch, .. } => {
                for (size, length) in punch.into_iter().flat_map(Punch::sizes) {
                    wrong(
                        LossPart::Punch(size),
                        length.in_mm(),
                        PUNCH_MM,
                        LossUnit::Millimetre(""),
                    );
                }
            }
            LossAmount::PerHeat { heats, minutes, .. } => {
                wrong(
                    LossPart::Heats,
                    f64::from(heats),
                    HEATS,
                    LossUnit::Other(""),
                );
                wrong(LossPart::Minutes, minutes, MINUTES, LossUnit::Other("min"));
            }
            LossAmount::PercentPerHeat { heats, .. } => {
                wrong(
                    LossPart::Heats,
                    f64::from(heats),
                    HEATS,
                    LossUnit::Other(""),
                );
            }
            _ => {}
        }
        let (limit, unit) = self.amount.limit();
        let [expected, spread] = self.amount.numbers();
        wrong(LossPart::Expected, expected, limit, unit);
        wrong(LossPart::Spread, spread, limit, unit);
        let characters = self.source.chars().count();
        if characters > SOURCE_CHARACTERS {
            errors.push(BarError::Source {
                line,
                name,
                characters,
            });
        }
        errors
    }

    /// The losses that a new design starts with: one line of every kind, each by its cause.
    ///
    /// Only the textbook's 5 % of scale behind the heats was read anywhere; the rest is common practice. The spreads
    /// are wide because the numbers are weak; a smith who weighs before and after replaces them.
    pub fn usual() -> Vec<Self> {
        let line = |kind, amount, source: &str| Self {
            kind,
            amount,
            source: source.to_owned(),
            certainty: Certainty::CommonPractice,
        };
        let mm = Length::mm;
        let (per_heat, per_heat_spread) = Atmosphere::Neutral.usual_mm();
        vec![
            line(
                LossKind::Slug,
                LossAmount::Punched {
                    punch: None,
                    expected: mm(8.0),
                    spread: mm(3.0),
                },
                "common practice, no source: slot punch from both sides; the rest is pushed aside",
            ),
            line(
                LossKind::ForgingScale,
                LossAmount::PerHeat {
                    heats: 8,
                    minutes: HEAT_MINUTES,
                    atmosphere: Atmosphere::Neutral,
                    expected: mm(per_heat),
                    spread: mm(per_heat_spread),
                },
                "common practice, no source: heats, and a thickness that takes about the 5 % of net volume of Forging, course notes, studylib.net/doc/5620444, off a head of 1.2 kg",
            ),
            line(
                LossKind::HardeningScale,
                LossAmount::OffSurface {
                    expected: mm(0.03),
                    spread: mm(0.02),
                },
                "common practice, no source: normalizing, hardening and tempering together",
            ),
            line(
                LossKind::Trimming,
                LossAmount::OffEnds {
                    expected: mm(0.5),
                    spread: mm(0.5),
                },
                "common practice, no source: sawn ends squared; nothing is left to hold the bar by",
            ),
            line(
                LossKind::Grinding,
                LossAmount::OffFaces {
                    expected: mm(1.0),
                    spread: mm(0.5),
                },
                "common practice, no source",
            ),
            line(
                LossKind::Dressing,
                LossAmount::PercentOfHead {
                    expected: 0.5,
                    spread: 0.3,
                },
                "common practice, no source",
            ),
        ]
    }
}
