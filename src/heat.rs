//! Heat: how is this head normalized, hardened and tempered in this steel?
//!
//! [`plan`] takes a sound head and a [`Heat`], which is plain data and may be impossible, and gives everything about the
//! heat treatment ([`Plan`]): what the steel's composition says of its transformations and of how deep it hardens, the
//! hardness of each end at three places and under the skin, the temper for a wanted hardness, the bath, the steps of the
//! work and what is to be said of it all. Or it gives every reason why there is no plan. After it nothing fails.
//!
//! # What is known and what is not
//! Hardness here is a band, never a number: composition within the grade, quench within what its words mean, and two ways
//! to compare a cooling head with an end-quench test. Where a formula does not hold there is a published value or none.
//! Every value says where it comes from ([`Stated`]).
//!
//! # The way
//! 1. Composition → Ac1, Ac3, Ms ([`critical`]), ideal diameter and end-quench curve ([`hardenability`]).
//! 2. Solid → the round that cools at its centre as the end does ([`end_rounds`]).
//! 3. Quench → severity → at each place of that round the distance in an end-quench bar that cools alike ([`cooling`]) →
//!    its hardness.
//! 4. Temper → hardness at the skin ([`temper`]).
//!
//! # Units
//! Temperatures in °C, lengths in mm, masses in kg, times in hours where they are soaks and in seconds where they are
//! coolings; hardness in HRC; composition in percent of mass.
//!
//! # Examples
//! ```
//! use headwright::design;
//! use headwright::heat::{Heat, plan};
//!
//! let solid = design::starter("rounding").expect("a starter").build().expect("starters are sound");
//! let plan = plan(&solid, &Heat::default())?;
//! // 1045 begins to turn to austenite at some 720 °C.
//! assert!((700.0..750.0).contains(&plan.critical.ac1.as_ref().expect("inside the formula").value));
//! # Ok::<(), Vec<headwright::heat::HeatError>>(())
//! ```

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

pub mod composition;
pub mod cooling;
pub mod critical;
mod error;
mod grade;
pub mod hardenability;
mod plan;
mod quench;
mod round;
mod said;
mod stated;
mod steps;
pub mod temper;
mod tempering;

pub use composition::{Composition, Element, Span};
pub use error::{
    CARBON_PERCENT, HeatError, HeatPart, MOST_ALLOY_PERCENT, MOST_TEMPERS, SOAK_HOURS,
    TEMPER_CELSIUS, WANTED_HRC,
};
pub use grade::{Bears, Grade, Kind, Practice};
pub use plan::{Bath, Critical, EndHardness, Hardenability, Place, PlaceHardness, Plan, plan};
pub use quench::{Agitation, Medium, Severity, heat_content_kj_per_kg, severity};
pub use round::{EndRound, end_rounds, equivalent_round};
pub use said::{CAUTIONS, Caution, HARDNESS_WINDOWS, HardnessWindow, Note};
pub use stated::{Band, Stated};
pub use steps::{Step, StepKind};
pub use tempering::{Tempering, Way, WayKind};

/// The heat treatment as the smith describes it. May be impossible: [`plan`] says.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Heat {
    /// What the head is forged from.
    pub steel: Steel,
    /// How it is quenched; left out, as the grade usually is.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub quench: Option<Quench>,
    /// How it is tempered; left out, as the grade usually is.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub temper: Option<Temper>,
}

/// A steel: its grade and, where the smith has one, the analysis of the very bar.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Steel {
    /// The grade, which says how it is treated.
    pub grade: Grade,
    /// The analysis from the mill's certificate; left out, the grade's range is taken.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub analysis: Option<Composition>,
}

/// How the head is quenched.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Quench {
    /// What it is quenched in.
    pub medium: Medium,
    /// How it is moved in it.
    pub agitation: Agitation,
    /// How warm the bath is before the head goes in, °C.
    pub bath_celsius: f64,
}

/// How the head is tempered.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Temper {
    /// What is wanted of it.
    pub aim: Aim,
    /// How long each soak is, hours at temperature.
    pub soak_hours: f64,
    /// How often: one soak or two.
    pub times: u8,
}

/// What is wanted of a temper.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Aim {
    /// Faces of this hardness, HRC.
    Hrc(f64),
    /// An oven of this heat, °C.
    Celsius(f64),
}

impl Heat {
    /// The quench, the grade's usual one where nothing else is said.
    pub fn quench(&self) -> Quench {
        self.quench
            .unwrap_or_else(|| Quench::usual(self.steel.grade))
    }

    /// The temper, the grade's usual one where nothing else is said.
    pub fn temper(&self) -> Temper {
        self.temper
            .unwrap_or_else(|| Temper::usual(self.steel.grade))
    }
}

impl Quench {
    /// As the grade usually is: its usual medium, moved well.
    pub fn usual(grade: Grade) -> Self {
        Self::in_medium(grade.practice().medium)
    }

    /// In `medium`, moved as that is usually moved and as warm as it usually is.
    pub fn in_medium(medium: Medium) -> Self {
        let agitation = match medium {
            Medium::Air => Agitation::None,
            Medium::Oil | Medium::Water | Medium::Brine => Agitation::Good,
        };
        Self {
            medium,
            agitation,
            bath_celsius: medium.usual_celsius(),
        }
    }
}

/// The usual soak, hours (common practice; the hardness tables are for it).
pub const USUAL_SOAK_HOURS: f64 = 2.0;

impl Temper {
    /// As the grade usually is.
    pub fn usual(grade: Grade) -> Self {
        let practice = grade.practice();
        Self {
            aim: Aim::Celsius(practice.temper_celsius),
            soak_hours: USUAL_SOAK_HOURS,
            times: practice.tempers,
        }
    }
}
