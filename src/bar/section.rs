//! The bar's section: shape, sizes, area.

use std::f64::consts::{PI, SQRT_2};
use std::fmt;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::error::BarError;
use super::limits::BAR_SIZE_MM;
use crate::units::{Density, Length};

/// The section of a bar, by its nominal sizes.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(tag = "shape", rename_all = "snake_case", deny_unknown_fields)]
pub enum BarSection {
    /// Round bar.
    Round {
        /// Its diameter.
        diameter: Length,
    },
    /// Square bar.
    Square {
        /// Its side.
        across: Length,
    },
    /// Flat or rectangular bar.
    Rectangular {
        /// One side.
        width: Length,
        /// The other side.
        height: Length,
    },
    /// Regular octagon.
    Octagonal {
        /// From flat to opposite flat.
        across_flats: Length,
    },
}

impl BarSection {
    /// The word for the shape.
    pub const fn shape(self) -> &'static str {
        match self {
            Self::Round { .. } => "round",
            Self::Square { .. } => "square",
            Self::Rectangular { .. } => "rectangular",
            Self::Octagonal { .. } => "octagonal",
        }
    }

    /// Every size with its name.
    pub fn sizes(self) -> Vec<(&'static str, Length)> {
        match self {
            Self::Round { diameter } => vec![("diameter", diameter)],
            Self::Square { across } => vec![("side", across)],
            Self::Rectangular { width, height } => vec![("width", width), ("height", height)],
            Self::Octagonal { across_flats } => vec![("size across flats", across_flats)],
        }
    }

    /// Area of the section in mm²: πd²/4, a², wh, and 2(√2 − 1)F² for an octagon F across flats.
    pub fn area_mm2(self) -> f64 {
        match self {
            Self::Round { diameter } => PI / 4.0 * diameter.in_mm().powi(2),
            Self::Square { across } => across.in_mm().powi(2),
            Self::Rectangular { width, height } => width.in_mm() * height.in_mm(),
            Self::Octagonal { across_flats } => 2.0 * (SQRT_2 - 1.0) * across_flats.in_mm().powi(2),
        }
    }

    /// Mass in kg of `length` of this bar: length × area × density.
    pub fn mass_kg(self, length: Length, density: Density) -> f64 {
        length.in_mm() * self.area_mm2() * density.in_kg_per_mm3()
    }

    /// Every size that is out of bounds.
    pub(super) fn check(self) -> Vec<BarError> {
        let wrong = |(_, value): &(&str, Length)| !BAR_SIZE_MM.admits(value.in_mm());
        let sizes = self.sizes().into_iter().filter(wrong);
        sizes
            .map(|(size, value)| BarError::Size { size, value })
            .collect()
    }
}

/// The bar as it is asked for: `45 mm square`, `50 mm × 30 mm rectangular`.
impl fmt::Display for BarSection {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (index, (_, size)) in self.sizes().into_iter().enumerate() {
            let between = if index == 0 { "" } else { "× " };
            write!(f, "{between}{size} ")?;
        }
        f.write_str(self.shape())
    }
}
