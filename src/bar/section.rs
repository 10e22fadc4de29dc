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
    pub(crate) fn check(self) -> Vec<BarError> {
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::KG_PER_POUND;

    fn round(mm: f64) -> BarSection {
        BarSection::Round {
            diameter: Length::mm(mm),
        }
    }

    fn square(mm: f64) -> BarSection {
        BarSection::Square {
            across: Length::mm(mm),
        }
    }

    /// `computed` must print as `table`, which is given to its last digit.
    #[track_caller]
    fn check_rounded(computed: f64, decimals: usize, table: &str) {
        assert_eq!(format!("{computed:.decimals$}"), table);
    }

    #[test]
    fn bars_weigh_per_metre_what_the_tables_say() {
        // EN 10060 and EN 10059 sizes at 7850 kg/m³, computed values; 20, 25 and 40 mm round and 20 mm square also
        // as dealers print them.
        for (mm, round_table, square_table) in [
            (20.0, "2.466", "3.140"),
            (25.0, "3.853", "4.906"),
            (30.0, "5.549", "7.065"),
            (40.0, "9.865", "12.560"),
            (50.0, "15.413", "19.625"),
            (60.0, "22.195", "28.260"),
            (70.0, "30.210", "38.465"),
            (75.0, "34.680", "44.156"),
            (80.0, "39.458", "50.240"),
            (90.0, "49.940", "63.585"),
            (100.0, "61.654", "78.500"),
        ] {
            let metre = Length::mm(1000.0);
            check_rounded(round(mm).mass_kg(metre, Density::STEEL), 3, round_table);
            check_rounded(square(mm).mass_kg(metre, Density::STEEL), 3, square_table);
        }
    }

    #[test]
    fn bars_weigh_per_foot_what_the_inch_tables_say() {
        // At 0.2833 lb/in³, computed values.
        let density = Density::kg_per_m3(0.2833 * KG_PER_POUND / 25.4_f64.powi(3) * 1e9);
        for (inches, round_table, square_table) in [
            (0.5, "0.668", "0.850"),
            (0.75, "1.502", "1.912"),
            (1.0, "2.670", "3.400"),
            (1.5, "6.008", "7.649"),
            (2.0, "10.680", "13.598"),
            (2.25, "13.517", "17.210"),
            (3.0, "24.030", "30.596"),
        ] {
            let (foot, size) = (Length::inches(12.0), Length::inches(inches));
            let round = BarSection::Round { diameter: size }.mass_kg(foot, density);
            let square = BarSection::Square { across: size }.mass_kg(foot, density);
            check_rounded(round / KG_PER_POUND, 3, round_table);
            check_rounded(square / KG_PER_POUND, 3, square_table);
        }
    }

    #[test]
    fn rectangular_and_octagonal_bars_have_the_area_of_their_section() {
        let rectangular = BarSection::Rectangular {
            width: Length::mm(50.0),
            height: Length::mm(30.0),
        };
        assert_eq!(rectangular.area_mm2(), 1500.0);
        assert_eq!(rectangular.to_string(), "50 mm × 30 mm rectangular");
        // 0.828427 F², F = 40 mm.
        let octagonal = BarSection::Octagonal {
            across_flats: Length::mm(40.0),
        };
        check_rounded(octagonal.area_mm2(), 4, "1325.4834");
        assert_eq!(octagonal.to_string(), "40 mm octagonal");
        assert_eq!(round(57.15).to_string(), "57.15 mm round");
    }
}
