//! The bar's section: shape, sizes, area.

use std::f64::consts::{PI, SQRT_2};
use std::fmt;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::error::BarError;
use super::limits::{BAR_SIZE_MM, SECTION_MM2};
use crate::units::{Density, Length, MM_PER_INCH, Measure, System, show_number};

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
        /// Radius of its rolled corners.
        #[serde(default = "sharp", skip_serializing_if = "is_sharp")]
        corner_radius: Length,
    },
    /// Flat or rectangular bar.
    Rectangular {
        /// One side.
        width: Length,
        /// The other side.
        height: Length,
        /// Radius of its rolled corners.
        #[serde(default = "sharp", skip_serializing_if = "is_sharp")]
        corner_radius: Length,
    },
    /// Regular octagon.
    Octagonal {
        /// From flat to opposite flat.
        across_flats: Length,
    },
    /// Regular hexagon.
    Hexagonal {
        /// From flat to opposite flat.
        across_flats: Length,
    },
    /// Any other section, by its area.
    OfArea {
        /// Its area, mm².
        #[schemars(range(min = SECTION_MM2.least, max = SECTION_MM2.most))]
        area_mm2: f64,
    },
}

/// Corners that are not rounded.
const SHARP: Length = Length::mm(0.0);

const fn sharp() -> Length {
    SHARP
}

fn is_sharp(radius: &Length) -> bool {
    *radius == SHARP
}

impl BarSection {
    /// Round bar.
    pub const fn round(diameter: Length) -> Self {
        Self::Round { diameter }
    }

    /// Square bar with sharp corners.
    pub const fn square(across: Length) -> Self {
        Self::Square {
            across,
            corner_radius: SHARP,
        }
    }

    /// Flat or rectangular bar with sharp corners.
    pub const fn rectangular(width: Length, height: Length) -> Self {
        Self::Rectangular {
            width,
            height,
            corner_radius: SHARP,
        }
    }

    /// The word for the shape.
    pub const fn shape(self) -> &'static str {
        match self {
            Self::Round { .. } => "round",
            Self::Square { .. } => "square",
            Self::Rectangular { .. } => "rectangular",
            Self::Octagonal { .. } => "octagonal",
            Self::Hexagonal { .. } => "hexagonal",
            Self::OfArea { .. } => "by its area",
        }
    }

    /// Every size across with its name; none of a section that is given by its area.
    pub fn sizes(self) -> Vec<(&'static str, Length)> {
        match self {
            Self::Round { diameter } => vec![("diameter", diameter)],
            Self::Square { across, .. } => vec![("side", across)],
            Self::Rectangular { width, height, .. } => vec![("width", width), ("height", height)],
            Self::Octagonal { across_flats } | Self::Hexagonal { across_flats } => {
                vec![("size across flats", across_flats)]
            }
            Self::OfArea { .. } => Vec::new(),
        }
    }

    /// Radius of the rolled corners, of a bar that has such.
    pub const fn corner_radius(self) -> Option<Length> {
        match self {
            Self::Square { corner_radius, .. } | Self::Rectangular { corner_radius, .. } => {
                Some(corner_radius)
            }
            _ => None,
        }
    }

    /// The same with other corners, where it has such.
    pub const fn with_corner_radius(mut self, radius: Length) -> Self {
        if let Self::Square { corner_radius, .. } | Self::Rectangular { corner_radius, .. } =
            &mut self
        {
            *corner_radius = radius;
        }
        self
    }

    /// Area of the section in mm²: πd²/4, a², wh, 2(√2 − 1)F² for an octagon and (√3/2)F² for a hexagon F across
    /// flats; four rolled corners of radius r take (4 − π)r².
    pub fn area_mm2(self) -> f64 {
        let full = match self {
            Self::Round { diameter } => PI / 4.0 * diameter.in_mm().powi(2),
            Self::Square { across, .. } => across.in_mm().powi(2),
            Self::Rectangular { width, height, .. } => width.in_mm() * height.in_mm(),
            Self::Octagonal { across_flats } => 2.0 * (SQRT_2 - 1.0) * across_flats.in_mm().powi(2),
            Self::Hexagonal { across_flats } => 3.0_f64.sqrt() / 2.0 * across_flats.in_mm().powi(2),
            Self::OfArea { area_mm2 } => area_mm2,
        };
        let corner = self.corner_radius().map_or(0.0, Length::in_mm);
        full - (4.0 - PI) * corner * corner
    }

    /// Mass in kg of `length` of this bar: length × area × density.
    pub fn mass_kg(self, length: Length, density: Density) -> f64 {
        length.in_mm() * self.area_mm2() * density.in_kg_per_mm3()
    }

    /// The bar as it is asked for, in the units of `system`: `45 mm square`, `50 mm × 30 mm rectangular with corners of
    /// 2 mm`, `1200 mm² in section`.
    pub fn words(self, system: System) -> String {
        if let Self::OfArea { area_mm2 } = self {
            let (value, steps, unit) = match system {
                System::Metric => (area_mm2, 1e2, "mm²"),
                System::Imperial => (area_mm2 / MM_PER_INCH.powi(2), 1e4, "in²"),
            };
            let shown = show_number((value * steps).round() / steps);
            return format!("{shown} {unit} in section");
        }
        let length = |length: Length| Measure::from(length).words(system);
        let sizes: Vec<String> = self
            .sizes()
            .into_iter()
            .map(|(_, size)| length(size))
            .collect();
        let corners = match self.corner_radius() {
            Some(radius) if radius.in_mm() != 0.0 => format!(" with corners of {}", length(radius)),
            _ => String::new(),
        };
        format!("{} {}{corners}", sizes.join(" × "), self.shape())
    }

    /// Every size that is out of bounds.
    pub fn check(self) -> Vec<BarError> {
        let wrong = |(_, value): &(&str, Length)| !BAR_SIZE_MM.admits(value.in_mm());
        let sizes = self.sizes();
        let mut errors: Vec<BarError> = sizes
            .iter()
            .copied()
            .filter(wrong)
            .map(|(size, value)| BarError::Size { size, value })
            .collect();
        if let (true, Some(value)) = (errors.is_empty(), self.corner_radius()) {
            let least = |least: f64, (_, size): &(_, Length)| least.min(size.in_mm());
            let most_mm = 0.5 * sizes.iter().fold(f64::INFINITY, least);
            if !(0.0..=most_mm).contains(&value.in_mm()) {
                errors.push(BarError::Corner { value, most_mm });
            }
        }
        if let Self::OfArea { area_mm2: mm2 } = self
            && !SECTION_MM2.admits(mm2)
        {
            errors.push(BarError::Section { mm2 });
        }
        errors
    }
}

/// The bar as it is written down, each size in its notation: `45 mm square`, `50 mm × 30 mm rectangular with corners of 2 mm`, `1200 mm² in section`.
impl fmt::Display for BarSection {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if let Self::OfArea { area_mm2 } = self {
            return write!(f, "{} mm² in section", show_number(*area_mm2));
        }
        for (index, (_, size)) in self.sizes().into_iter().enumerate() {
            let between = if index == 0 { "" } else { "× " };
            write!(f, "{between}{size} ")?;
        }
        f.write_str(self.shape())?;
        match self.corner_radius() {
            Some(radius) if !is_sharp(&radius) => write!(f, " with corners of {radius}"),
            _ => Ok(()),
        }
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
        BarSection::square(Length::mm(mm))
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
            let square = BarSection::square(size).mass_kg(foot, density);
            check_rounded(round / KG_PER_POUND, 3, round_table);
            check_rounded(square / KG_PER_POUND, 3, square_table);
        }
    }

    #[test]
    fn rectangular_and_octagonal_bars_have_the_area_of_their_section() {
        let rectangular = BarSection::rectangular(Length::mm(50.0), Length::mm(30.0));
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

    #[test]
    fn hexagons_rolled_corners_and_areas_count_in_full() {
        let mm = Length::mm;
        // 0.866025 F², F = 40 mm.
        let hexagonal = BarSection::Hexagonal {
            across_flats: mm(40.0),
        };
        check_rounded(hexagonal.area_mm2(), 4, "1385.6406");
        assert_eq!(hexagonal.to_string(), "40 mm hexagonal");
        // A 50 mm square with corners of 3 mm loses (4 − π)·9 = 7.7257 mm², 0.3 %.
        let rolled = square(50.0).with_corner_radius(mm(3.0));
        check_rounded(rolled.area_mm2(), 4, "2492.2743");
        assert_eq!(rolled.to_string(), "50 mm square with corners of 3 mm");
        // With corners of half its side it is round.
        let round_square = square(50.0).with_corner_radius(mm(25.0));
        assert!((round_square.area_mm2() - round(50.0).area_mm2()).abs() < 1e-9);
        let other = BarSection::OfArea { area_mm2: 1234.5 };
        assert_eq!(other.area_mm2(), 1234.5);
        assert_eq!(other.to_string(), "1234.5 mm² in section");
        assert_eq!(hexagonal.with_corner_radius(mm(3.0)), hexagonal);
    }

    #[test]
    fn a_bar_is_told_in_either_system() {
        let flat = BarSection::rectangular(Length::inches(2.0), Length::mm(30.0))
            .with_corner_radius(Length::mm(1.5875));
        for (section, metric, imperial) in [
            (square(45.0), "45 mm square", "1.772 in square"),
            (
                flat,
                "50.8 mm × 30 mm rectangular with corners of 1.59 mm",
                "2 in × 1.181 in rectangular with corners of 1/16 in",
            ),
            (
                BarSection::OfArea { area_mm2: 1290.32 },
                "1290.32 mm² in section",
                "2 in² in section",
            ),
        ] {
            assert_eq!(section.words(System::Metric), metric);
            assert_eq!(section.words(System::Imperial), imperial);
        }
    }
}
