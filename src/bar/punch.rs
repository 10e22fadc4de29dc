//! The punch that opens the eye, the one truth for slug, bolster and drifts.

use std::f64::consts::PI;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::units::Length;

/// The usual length of a punched slot as a share of the eye's least length (common practice, no source).
pub const SLOT_LENGTH_SHARE: f64 = 0.9;
/// The usual width of a punched slot as a share of the eye's least width (common practice, no source).
pub const SLOT_WIDTH_SHARE: f64 = 1.0 / 3.0;

/// The section of a punch where it cuts: length along the head, width across the cheeks.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum Punch {
    /// A round punch.
    Round {
        /// Its diameter.
        diameter: Length,
    },
    /// A slot punch with half-round ends.
    Obround {
        /// Its length.
        length: Length,
        /// Its width.
        width: Length,
    },
    /// A rectangular punch.
    Rectangle {
        /// Its length.
        length: Length,
        /// Its width.
        width: Length,
    },
}

impl Punch {
    /// The usual punch for an eye of this least length and width, in mm: a slot with half-round ends of
    /// [`SLOT_LENGTH_SHARE`] of the one and [`SLOT_WIDTH_SHARE`] of the other, but no wider than long.
    pub fn usual([length_mm, width_mm]: [f64; 2]) -> Self {
        let length_mm = length_mm * SLOT_LENGTH_SHARE;
        Self::Obround {
            length: Length::mm(length_mm),
            width: Length::mm((width_mm * SLOT_WIDTH_SHARE).min(length_mm)),
        }
    }

    /// Length along the head and width across the cheeks.
    pub const fn across(self) -> [Length; 2] {
        match self {
            Self::Round { diameter } => [diameter, diameter],
            Self::Obround { length, width } | Self::Rectangle { length, width } => [length, width],
        }
    }

    /// The word for its shape.
    pub const fn shape(self) -> &'static str {
        match self {
            Self::Round { .. } => "round",
            Self::Obround { .. } => "obround",
            Self::Rectangle { .. } => "rectangular",
        }
    }

    /// Every size with its name.
    pub fn sizes(self) -> Vec<(&'static str, Length)> {
        match self {
            Self::Round { diameter } => vec![("diameter", diameter)],
            Self::Obround { length, width } | Self::Rectangle { length, width } => {
                vec![("length", length), ("width", width)]
            }
        }
    }

    /// Area of its section in mm²: πd²/4, b(l − b) + πb²/4 with b the smaller of the two sizes, or lb.
    pub fn area_mm2(self) -> f64 {
        match self {
            Self::Round { diameter } => PI / 4.0 * diameter.in_mm().powi(2),
            Self::Obround { length, width } => {
                let long = length.in_mm().max(width.in_mm());
                let short = length.in_mm().min(width.in_mm());
                short * (long - short) + PI / 4.0 * short * short
            }
            Self::Rectangle { length, width } => length.in_mm() * width.in_mm(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn punches_have_the_area_of_their_section() {
        let mm = Length::mm;
        let obround = |length, width| Punch::Obround {
            length: mm(length),
            width: mm(width),
        };
        // 12 × 13 and a circle of 12.
        assert!((obround(25.0, 12.0).area_mm2() - (156.0 + 36.0 * PI)).abs() < 1e-12);
        assert_eq!(obround(12.0, 25.0), obround(12.0, 25.0));
        assert_eq!(
            obround(12.0, 25.0).area_mm2(),
            obround(25.0, 12.0).area_mm2()
        );
        let round = Punch::Round { diameter: mm(16.0) };
        assert!((round.area_mm2() - 64.0 * PI).abs() < 1e-12);
        assert!((obround(16.0, 16.0).area_mm2() - round.area_mm2()).abs() < 1e-12);
        let rectangle = Punch::Rectangle {
            length: mm(25.0),
            width: mm(6.0),
        };
        assert_eq!(rectangle.area_mm2(), 150.0);
    }

    #[test]
    fn the_usual_punch_follows_the_eye() {
        let [length, width] = Punch::usual([22.0, 15.0]).across().map(Length::in_mm);
        assert!((length - 19.8).abs() < 1e-12 && (width - 5.0).abs() < 1e-12);
    }
}
