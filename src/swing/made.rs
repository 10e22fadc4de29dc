//! The tool that a head makes with its handle.

use super::body::Body;
use super::error::SwingError;
use super::striker::Striker;
use super::tool::{Held, Tool, tool};
use crate::handle::Made;
use crate::solid::Solid;

impl From<&Made> for Body {
    fn from(made: &Made) -> Self {
        Self {
            mass_kg: made.mass_kg,
            centroid_mm: made.centroid_mm,
            inertia_kg_mm2: made.inertia_kg_mm2,
        }
    }
}

impl From<&Made> for Held {
    fn from(made: &Made) -> Self {
        Self {
            grip_mm: made.grip_mm,
            butt_mm: made.butt_mm,
            axis: made.axis,
        }
    }
}

impl Tool {
    /// The head `solid` on the handle that was made for it.
    ///
    /// # Errors
    /// As [`tool`]: what keeps the tool from being swung as it is held.
    pub fn of(solid: &Solid, made: &Made) -> Result<Self, Vec<SwingError>> {
        let strikers = Striker::both(solid);
        tool(&Body::of_head(solid), &made.into(), &made.into(), &strikers)
    }
}
