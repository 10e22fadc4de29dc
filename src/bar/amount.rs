//! How much one line of loss takes: as a mass, in percent, or from what causes it.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::causes::Causes;
use super::error::LossUnit;
use super::limits::{
    ALLOWANCE_MM, HEATS, LAYER_MM, LOSS_KG, Limit, MINUTES, PERCENT_OF_EYE, PERCENT_OF_HEAD,
    TRIM_MM, WEB_MM,
};
use super::punch::Punch;
use super::section::BarSection;
use crate::units::{Density, Length, Mass};

// Every amount is its two numbers times `kg_per_unit`, so that a line that is given as a mass, in percent or by its
// cause is reckoned the same way. The words below also stand in the file's schema.
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
    /// What a punch driven from both sides knocks out: section of the punch × web × density.
    Punched {
        /// The punch's section where it cuts; left out, the usual one for the eye: a slot with half-round ends, 0.9 of
        /// the eye's least length by a third of its least width.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        punch: Option<Punch>,
        /// The web left between the two punchings, on average.
        expected: Length,
        /// One standard deviation of it.
        spread: Length,
    },
    /// Scale in a number of heats: heats × √(minutes / 10) × thickness × hot surface × density.
    ///
    /// Scale grows as the square root of time (parabolic growth; C. Wagner 1933, from memory). The finished head's
    /// whole surface stands for what is hot: before the drawing down there is less of it, and not all of it is hot
    /// in every heat, which the thickness has to make up for.
    PerHeat {
        /// How many heats.
        #[schemars(range(min = HEATS.least, max = HEATS.most))]
        heats: u32,
        /// How long the steel is hot in each, in minutes.
        #[schemars(range(min = MINUTES.least, max = MINUTES.most))]
        minutes: f64,
        /// The fire that the thickness is for.
        atmosphere: Atmosphere,
        /// The thickness of steel that a heat of ten minutes takes, on average.
        expected: Length,
        /// One standard deviation of it; all heats of a head are off the same way.
        spread: Length,
    },
    /// Scale in percent of the finished head's mass in every heat: heats × percent × head.
    PercentPerHeat {
        /// How many heats.
        #[schemars(range(min = HEATS.least, max = HEATS.most))]
        heats: u32,
        /// What a heat takes on average, in percent.
        expected: f64,
        /// One standard deviation of it, in percent; all heats of a head are off the same way.
        spread: f64,
    },
    /// A layer off the whole surface of the head: thickness × surface × density.
    OffSurface {
        /// The thickness of steel, on average.
        expected: Length,
        /// One standard deviation of it.
        spread: Length,
    },
    /// A layer off both faces, or the nose of a pein, or the outer half of a ball: thickness × the real, crowned
    /// areas × density.
    OffFaces {
        /// The thickness of steel, on average.
        expected: Length,
        /// One standard deviation of it.
        spread: Length,
    },
    /// A length of bar off each of both ends: 2 × length × the bar's section × density.
    OffEnds {
        /// The length off each end, on average.
        expected: Length,
        /// One standard deviation of it; both ends are off the same way.
        spread: Length,
    },
}

/// How long the heat is that a thickness of scale is given for, in minutes.
pub const HEAT_MINUTES: f64 = 10.0;

/// The fire's gas at the steel, which decides how fast it scales.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Atmosphere {
    /// Rich: more fuel than air burns.
    Reducing,
    /// Neither fuel nor air left over.
    Neutral,
    /// Lean: air left over, as in a muffle or an open fire with the steel at the blast.
    Oxidizing,
}

impl Atmosphere {
    /// All of them, the one that scales least first.
    pub const ALL: [Self; 3] = [Self::Reducing, Self::Neutral, Self::Oxidizing];

    /// The word for it.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Reducing => "reducing",
            Self::Neutral => "neutral",
            Self::Oxidizing => "oxidizing",
        }
    }

    /// The thickness of steel that a heat of [`HEAT_MINUTES`] usually takes in it, and its spread, mm.
    ///
    /// # Source
    /// Common practice, no source. The neutral one is set so that eight heats take 5 % of the net volume of a head
    /// of 1.2 kg with a surface of 220 cm²: 153 cm³ · 0.05 / (8 · 220 cm²) = 0.043 mm. The 5 % were read in course
    /// notes on forging (studylib.net/doc/5620444). Half and twice of it, for a rich and a lean fire, are a guess.
    pub const fn usual_mm(self) -> (f64, f64) {
        match self {
            Self::Reducing => (0.02, 0.01),
            Self::Neutral => (0.04, 0.02),
            Self::Oxidizing => (0.08, 0.04),
        }
    }
}

impl LossAmount {
    /// Expected amount and spread in the unit of the amount: kg, percent or mm.
    pub const fn numbers(self) -> [f64; 2] {
        match self {
            Self::Mass { expected, spread } => [expected.in_kg(), spread.in_kg()],
            Self::PercentOfHead { expected, spread }
            | Self::PercentOfEye { expected, spread }
            | Self::PercentPerHeat {
                expected, spread, ..
            } => [expected, spread],
            Self::Punched {
                expected, spread, ..
            }
            | Self::PerHeat {
                expected, spread, ..
            }
            | Self::OffSurface { expected, spread }
            | Self::OffFaces { expected, spread }
            | Self::OffEnds { expected, spread } => [expected.in_mm(), spread.in_mm()],
        }
    }

    /// The same amount with other numbers, each in its notation.
    pub fn with_numbers(mut self, numbers: [f64; 2]) -> Self {
        match &mut self {
            Self::Mass { expected, spread } => {
                *expected = expected.with_kg(numbers[0]);
                *spread = spread.with_kg(numbers[1]);
            }
            Self::PercentOfHead { expected, spread }
            | Self::PercentOfEye { expected, spread }
            | Self::PercentPerHeat {
                expected, spread, ..
            } => [*expected, *spread] = numbers,
            Self::Punched {
                expected, spread, ..
            }
            | Self::PerHeat {
                expected, spread, ..
            }
            | Self::OffSurface { expected, spread }
            | Self::OffFaces { expected, spread }
            | Self::OffEnds { expected, spread } => {
                *expected = expected.with_mm(numbers[0]);
                *spread = spread.with_mm(numbers[1]);
            }
        }
        self
    }

    /// What one of the amount's unit (kg, percent or mm) takes, in kg.
    pub fn kg_per_unit(self, causes: &Causes, density: Density, section: BarSection) -> f64 {
        let kg_per_mm3 = density.in_kg_per_mm3();
        match self {
            Self::Mass { .. } => 1.0,
            Self::PercentOfHead { .. } => causes.head_kg / 100.0,
            Self::PercentOfEye { .. } => causes.eye_kg / 100.0,
            Self::Punched { punch, .. } => {
                let punch = punch.unwrap_or_else(|| Punch::usual(causes.eye_mm));
                punch.area_mm2() * kg_per_mm3
            }
            Self::PerHeat { heats, minutes, .. } => {
                f64::from(heats) * (minutes / HEAT_MINUTES).sqrt() * causes.surface_mm2 * kg_per_mm3
            }
            Self::PercentPerHeat { heats, .. } => f64::from(heats) * causes.head_kg / 100.0,
            Self::OffSurface { .. } => causes.surface_mm2 * kg_per_mm3,
            Self::OffFaces { .. } => causes.face_mm2.iter().sum::<f64>() * kg_per_mm3,
            Self::OffEnds { .. } => 2.0 * section.area_mm2() * kg_per_mm3,
        }
    }

    /// Expected loss and spread in kg for a head of these `causes` from bar of this `section`.
    pub fn in_kg(self, causes: &Causes, density: Density, section: BarSection) -> (f64, f64) {
        let per_unit = self.kg_per_unit(causes, density, section);
        let [expected, spread] = self.numbers();
        (expected * per_unit, spread * per_unit)
    }

    /// What its two numbers may be, and their unit.
    pub(crate) fn limit(self) -> (Limit, LossUnit) {
        use LossUnit::{Kilogram, Millimetre, Other};
        match self {
            Self::Mass { .. } => (LOSS_KG, Kilogram),
            Self::PercentOfHead { .. } => (PERCENT_OF_HEAD, Other("% of the head")),
            Self::PercentOfEye { .. } => (PERCENT_OF_EYE, Other("% of the eye")),
            Self::Punched { .. } => (WEB_MM, Millimetre(" of web")),
            Self::PerHeat { .. } => (LAYER_MM, Millimetre(" in a heat of ten minutes")),
            Self::PercentPerHeat { .. } => (PERCENT_OF_HEAD, Other("% of the head in each heat")),
            Self::OffSurface { .. } => (LAYER_MM, Millimetre(" off the surface")),
            Self::OffFaces { .. } => (ALLOWANCE_MM, Millimetre(" off the faces")),
            Self::OffEnds { .. } => (TRIM_MM, Millimetre(" off each end")),
        }
    }
}
