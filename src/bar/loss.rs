//! A line of loss: what goes, how much, how surely, and who says so.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::error::{BarError, LossPart};
use super::limits::{LOSS_KG, PERCENT_OF_EYE, PERCENT_OF_HEAD, SOURCE_CHARACTERS};
use crate::units::{Mass, show_number};

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

/// An expected loss and its spread (one standard deviation), both on the same basis.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum LossAmount {
    /// The same for every head.
    Mass {
        /// What is lost on average.
        expected: Mass,
        /// One standard deviation of it.
        spread: Mass,
    },
    /// In percent of the finished head's mass.
    PercentOfHead {
        /// What is lost on average, in percent.
        expected: f64,
        /// One standard deviation of it, in percent.
        spread: f64,
    },
    /// In percent of the steel whose place the eye takes: volume of the eye × density. The rest of that steel is
    /// pushed aside.
    PercentOfEye {
        /// What is lost on average, in percent.
        expected: f64,
        /// One standard deviation of it, in percent.
        spread: f64,
    },
}

impl LossAmount {
    /// Expected loss and spread in kg for a head of `finished` with an eye in the place of `eye`.
    pub fn in_kg(self, finished: Mass, eye: Mass) -> (f64, f64) {
        match self {
            Self::Mass { expected, spread } => (expected.in_kg(), spread.in_kg()),
            Self::PercentOfHead { expected, spread } => {
                (percent_of(expected, finished), percent_of(spread, finished))
            }
            Self::PercentOfEye { expected, spread } => {
                (percent_of(expected, eye), percent_of(spread, eye))
            }
        }
    }
}

fn percent_of(percent: f64, whole: Mass) -> f64 {
    percent / 100.0 * whole.in_kg()
}

impl Loss {
    /// Everything that is wrong with this line, the `line`th.
    pub(super) fn check(&self, line: usize) -> Vec<BarError> {
        let name = self.kind.words();
        let (limit, values, unit) = match self.amount {
            LossAmount::Mass { expected, spread } => {
                (LOSS_KG, [expected.in_kg(), spread.in_kg()], "kg")
            }
            LossAmount::PercentOfHead { expected, spread } => {
                (PERCENT_OF_HEAD, [expected, spread], "% of the head")
            }
            LossAmount::PercentOfEye { expected, spread } => {
                (PERCENT_OF_EYE, [expected, spread], "% of the eye")
            }
        };
        let mut errors = Vec::new();
        for (part, value) in [LossPart::Expected, LossPart::Spread]
            .into_iter()
            .zip(values)
        {
            if !limit.admits(value) {
                let written = |value: f64| format!("{} {unit}", show_number(value));
                let (value, least, most) =
                    (written(value), written(limit.least), written(limit.most));
                errors.push(BarError::Loss {
                    line,
                    name,
                    part,
                    value,
                    least,
                    most,
                });
            }
        }
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

    /// The losses that a new design starts with: one line of every kind.
    ///
    /// Only the scale in forging rests on a published number, and that is a textbook's estimate for forging in
    /// general. The spreads are wide because the numbers are weak; a smith who weighs before and after replaces them.
    pub fn usual() -> Vec<Self> {
        let line = |kind, amount, source: &str| Self {
            kind,
            amount,
            source: source.to_owned(),
        };
        let of_head = |expected, spread| LossAmount::PercentOfHead { expected, spread };
        let of_eye = |expected, spread| LossAmount::PercentOfEye { expected, spread };
        vec![
            line(
                LossKind::Slug,
                of_eye(25.0, 10.0),
                "common practice, no source: a hand punch drives out a thin slug and pushes the rest aside",
            ),
            line(
                LossKind::ForgingScale,
                of_head(5.0, 2.0),
                "scale 5 % of net volume: Forging, course notes, studylib.net/doc/5620444; the spread is common practice, no source",
            ),
            line(
                LossKind::HardeningScale,
                of_head(0.5, 0.3),
                "common practice, no source",
            ),
            line(
                LossKind::Trimming,
                of_head(1.0, 0.5),
                "common practice, no source",
            ),
            line(
                LossKind::Grinding,
                of_head(2.0, 1.0),
                "common practice, no source",
            ),
            line(
                LossKind::Dressing,
                of_head(0.5, 0.3),
                "common practice, no source",
            ),
        ]
    }
}
