//! The drifts: which of them open the punched slot to the eye, and how deep does each go?
//!
//! [`plan`] takes a sound head, its bar, what it is drifted with ([`Drifting`]) and at which heat, and gives a [`Plan`]: a
//! section for every drift from the opening to the waist of the hot eye, the cheek wall after each, the marks to which they are driven from
//! either mouth, the profile of the last one, the hole of the bolster under the punch, and what the smith's own drifts
//! do. [`profile_svg`] draws the last drift at 1:1.
//!
//! # Assumptions
//! - A slit is cut without loss: its rim is bent open. Its width opens in equal steps, and its perimeter goes to the
//!   waist's in equal ratios; a slit of [`Plan::slit_length_mm`] has the waist's perimeter already, and keeps it.
//! - A punched slot is stretched: length and width each grow by equal ratios from drift to drift.
//! - The cheek wall after a drift lies between two limits. With the outer width kept the opening takes all it gains
//!   from the wall; with the metal pushed sideways only, every fibre across the head keeps its length, so the wall
//!   stays as it was and the outer width grows by as much as the opening. Both are estimates.
//! - A drift stays cold while it opens a hot hole, which shrinks with the head as that cools. So drifts, openings, depths and
//!   marks are those of the eye at the drifting heat, larger than the finished one by [`growth`](crate::plan::growth); a drift that
//!   gets warm opens a little more. Cheek walls and outer widths are those of the cold head.
//! - The broken corners of the mouths are filed afterwards and are no part of any drift.
//! - Heights, depths and marks are measured along the handle, sections in planes across it; a cocked eye's drift
//!   leans as the eye does.
//!
//! # Units
//! Lengths in mm; a section's length lies along the head, its width across the cheeks.
//!
//! # Examples
//! ```
//! use headwright::units::System;
//! use headwright::{design, drift};
//!
//! let design = design::starter("rounding").expect("a starter");
//! let solid = design.build().expect("starters are sound");
//! let plan = drift::plan(&solid, &design.bar, &drift::Drifting::default(), 1050.0)?;
//! let last = plan.drifts.last().expect("at least one drift");
//! // 1.48 % larger than the finished eye of 28 mm × 19 mm.
//! assert_eq!(last.section.words(System::Metric), "28.4 × 19.3");
//! # Ok::<(), Vec<drift::DriftError>>(())
//! ```

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::solid::EyeSection;
use crate::units::Length;

mod depth;
mod error;
mod hot;
mod note;
mod opening;
mod outline;
mod own;
mod profile;
mod series;
mod svg;
mod wall;

pub use depth::Depth;
pub use error::{
    CLEARANCE_MM, DRIFT_MM, DriftError, MOST_DRIFTS, OPENING_MM, OUTER_MM, RATIO, STEP_MM, TAPER,
};
pub use note::{CAUTIONS, Mouth, Note};
pub use opening::Opening;
pub use own::{EYE_GAP_MM, LONGEST_TAPER_MM, OwnSet, OwnStep};
pub use profile::{CutOutline, Profile, SHORTEST_RUN_OUT_MM};
pub use series::{Bolster, Drift, Plan, plan};
pub use svg::{CHECK_LINE_MM, profile_svg};

/// The usual taper of a drift: mm of length, and of width, for every mm towards the tip, 2.9° on each side (from
/// memory: 2° to 4°).
pub const USUAL_TAPER: f64 = 0.1;
/// The usual width of the slit that a hot chisel cuts, mm (common practice, no source).
pub const SLIT_WIDTH_MM: f64 = 3.0;
/// The most that the length or the width of a punched slot, or the perimeter of a slit, is multiplied by in one drift
/// (common practice, no source).
pub const USUAL_RATIO: f64 = 1.5;
/// The most that one drift opens the width of a slit, mm (common practice, no source).
pub const USUAL_STEP_MM: f64 = 8.0;
/// The usual room between the punch and the bolster's hole, on each side, mm (common practice, no source).
pub const USUAL_CLEARANCE_MM: f64 = 1.0;

/// How many drifts there are from the opening to the eye.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum Steps {
    /// This many, the last one that of the eye.
    Count(u8),
    /// As few as do not ask too much of any.
    Most {
        /// The most by which one drift multiplies length or width of a punched slot, or the perimeter of a slit.
        ratio: f64,
        /// The most that one drift opens the width of a slit.
        step: Length,
    },
}

/// A drift that the smith has.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct OwnDrift {
    /// Length of its greatest section, along the head.
    pub length: Length,
    /// Width of its greatest section, across the cheeks.
    pub width: Length,
    /// What it loses of its length, and of its width, for every mm towards the tip; left out, a tenth.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub taper: Option<f64>,
}

/// What a head is drifted with.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Drifting {
    /// The opening before the first drift, where it is another than the bar's punch ([`crate::bar::Bar::punch`])
    /// leaves; of a bar without, the usual slot ([`crate::bar::Punch::usual`]).
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub opening: Option<Opening>,
    /// How many drifts the series has.
    pub steps: Steps,
    /// The smith's own drifts, in any order.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub own: Vec<OwnDrift>,
    /// Room between the punch and the bolster's hole, on each side.
    pub clearance: Length,
    /// Width of the piece across the eye while it is drifted; left out, that of the finished cheeks.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub outer_width: Option<Length>,
}

/// The opening that the bar's punch leaves, as few drifts as [`USUAL_RATIO`] and [`USUAL_STEP_MM`] allow, no drifts of one's own.
impl Default for Drifting {
    fn default() -> Self {
        Self {
            opening: None,
            steps: Steps::Most {
                ratio: USUAL_RATIO,
                step: Length::mm(USUAL_STEP_MM),
            },
            own: Vec::new(),
            clearance: Length::mm(USUAL_CLEARANCE_MM),
            outer_width: None,
        }
    }
}

/// The size of a section or an opening.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct SectionSize {
    /// Along the head.
    pub length_mm: f64,
    /// Across the cheeks.
    pub width_mm: f64,
}

impl From<EyeSection<f64>> for SectionSize {
    fn from(section: EyeSection<f64>) -> Self {
        Self {
            length_mm: 2.0 * section.p,
            width_mm: 2.0 * section.q,
        }
    }
}
