//! The opening before the first drift.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::bar::Punch;
use crate::design::length_in_words;
use crate::solid::EyeSection;
use crate::units::{Length, System};

/// The opening before the first drift: length along the head, width across the cheeks.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(from = "Written", into = "Written")]
#[schemars(with = "Written")]
pub enum Opening {
    /// Cut with a hot chisel; its ends are round.
    Slit {
        /// Length over all.
        length: Length,
        /// Width that the chisel leaves.
        width: Length,
    },
    /// What a punch leaves.
    Punched(Punch),
}

/// An opening as it is written: every shape by its name.
#[derive(Clone, Copy, Serialize, Deserialize, JsonSchema)]
#[serde(tag = "shape", rename_all = "snake_case", deny_unknown_fields)]
enum Written {
    Slit { length: Length, width: Length },
    Round { diameter: Length },
    Obround { length: Length, width: Length },
    Rectangle { length: Length, width: Length },
}

impl From<Written> for Opening {
    fn from(written: Written) -> Self {
        match written {
            Written::Slit { length, width } => Self::Slit { length, width },
            Written::Round { diameter } => Self::Punched(Punch::Round { diameter }),
            Written::Obround { length, width } => Self::Punched(Punch::Obround { length, width }),
            Written::Rectangle { length, width } => {
                Self::Punched(Punch::Rectangle { length, width })
            }
        }
    }
}

impl From<Opening> for Written {
    fn from(opening: Opening) -> Self {
        match opening {
            Opening::Slit { length, width } => Self::Slit { length, width },
            Opening::Punched(Punch::Round { diameter }) => Self::Round { diameter },
            Opening::Punched(Punch::Obround { length, width }) => Self::Obround { length, width },
            Opening::Punched(Punch::Rectangle { length, width }) => {
                Self::Rectangle { length, width }
            }
        }
    }
}

impl Opening {
    /// The word for the shape.
    pub const fn shape(self) -> &'static str {
        match self {
            Self::Slit { .. } => "slit",
            Self::Punched(punch) => punch.shape(),
        }
    }

    /// Length and width.
    pub const fn sizes(self) -> [Length; 2] {
        match self {
            Self::Slit { length, width } => [length, width],
            Self::Punched(punch) => punch.across(),
        }
    }

    /// Whether its rim is bent open instead of stretched.
    pub(super) const fn is_slit(self) -> bool {
        matches!(self, Self::Slit { .. })
    }

    pub(super) fn section(self) -> EyeSection<f64> {
        let [p, q] = self.sizes().map(|size| 0.5 * size.in_mm());
        let corner = match self {
            Self::Punched(Punch::Rectangle { .. }) => 0.0,
            _ => p.min(q),
        };
        EyeSection {
            p,
            q,
            c: corner,
            d: corner,
        }
    }

    /// Shape and size: `25 mm × 12 mm obround`, `16 mm round`.
    pub(super) fn words(self, system: System) -> String {
        let [length, width] = self
            .sizes()
            .map(|size| length_in_words(size.in_mm(), system));
        match self {
            Self::Punched(Punch::Round { .. }) => format!("{length} round"),
            _ => format!("{length} × {width} {}", self.shape()),
        }
    }

    /// Whether it is `other` by any notation.
    pub(super) fn is_as(self, other: Self) -> bool {
        /// What a conversion of units leaves, mm.
        const ROUNDOFF_MM: f64 = 1e-9;
        let near = |(a, b): (Length, Length)| (a.in_mm() - b.in_mm()).abs() <= ROUNDOFF_MM;
        self.shape() == other.shape() && self.sizes().into_iter().zip(other.sizes()).all(near)
    }
}
