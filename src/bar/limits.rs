//! The one table of what a bar's numbers may be.

/// A number's least and greatest value, both allowed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Limit {
    /// The least value.
    pub least: f64,
    /// The greatest value.
    pub most: f64,
}

impl Limit {
    /// Whether `value` lies within; what is no number lies in nothing.
    pub fn admits(self, value: f64) -> bool {
        (self.least..=self.most).contains(&value)
    }
}

/// Every size of a bar's section, in mm: from wire to the largest forged bar.
pub const BAR_SIZE_MM: Limit = Limit {
    least: 5.0,
    most: 300.0,
};
/// Share of heads that are to finish at or above target.
pub const CONFIDENCE: Limit = Limit {
    least: 0.5,
    most: 0.999,
};
/// A loss or its spread given as a mass, in kg.
pub const LOSS_KG: Limit = Limit {
    least: 0.0,
    most: 10.0,
};
/// A loss or its spread in percent of the finished head.
pub const PERCENT_OF_HEAD: Limit = Limit {
    least: 0.0,
    most: 50.0,
};
/// A loss or its spread in percent of the steel whose place the eye takes.
pub const PERCENT_OF_EYE: Limit = Limit {
    least: 0.0,
    most: 100.0,
};
/// What all lines in percent of the finished head may add up to, heat for heat.
pub const PERCENT_SUM_OF_HEAD: f64 = 100.0;
/// What all lines in percent of the eye may add up to: no more steel can leave it than its place takes.
pub const PERCENT_SUM_OF_EYE: f64 = 100.0;
/// Every size of a punch's section, in mm.
pub const PUNCH_MM: Limit = Limit {
    least: 1.0,
    most: 100.0,
};
/// The web left between two punchings or its spread, in mm.
pub const WEB_MM: Limit = Limit {
    least: 0.0,
    most: 100.0,
};
/// A layer of steel that turns to scale, or its spread, in mm.
pub const LAYER_MM: Limit = Limit {
    least: 0.0,
    most: 2.0,
};
/// What is ground off the faces, or its spread, in mm.
pub const ALLOWANCE_MM: Limit = Limit {
    least: 0.0,
    most: 20.0,
};
/// What is cut off each end, or its spread, in mm.
pub const TRIM_MM: Limit = Limit {
    least: 0.0,
    most: 100.0,
};
/// Number of heats.
pub const HEATS: Limit = Limit {
    least: 1.0,
    most: 100.0,
};
/// How long the steel is hot in a heat, in minutes.
pub const MINUTES: Limit = Limit {
    least: 0.5,
    most: 240.0,
};
/// A section given by its area alone, in mm²: from 5 mm square to 300 mm square.
pub const SECTION_MM2: Limit = Limit {
    least: 25.0,
    most: 90_000.0,
};
/// Surface or face of a head, in mm².
pub const AREA_MM2: Limit = Limit {
    least: 0.0,
    most: 10_000_000.0,
};
/// Height of the steel at the eye, in mm.
pub const HEIGHT_MM: Limit = Limit {
    least: 0.0,
    most: 1000.0,
};
/// Least length or width of the eye, in mm.
pub const EYE_MM: Limit = Limit {
    least: 0.1,
    most: 1000.0,
};
/// Mass of the finished head, in kg.
pub const FINISHED_KG: Limit = Limit {
    least: 0.001,
    most: 100.0,
};
/// Mass of the steel whose place the eye takes, in kg.
pub const EYE_KG: Limit = Limit {
    least: 0.0,
    most: 100.0,
};
/// Mass of a piece that is already cut, in kg.
pub const PIECE_KG: Limit = Limit {
    least: 0.001,
    most: 200.0,
};
/// Density of the steel, in kg/m³: light alloys to tungsten.
pub const DENSITY_KG_PER_M3: Limit = Limit {
    least: 1000.0,
    most: 25_000.0,
};
/// The most lines of losses.
pub const MOST_LOSSES: usize = 12;
/// The longest source of a loss, in characters.
pub const SOURCE_CHARACTERS: usize = 200;
/// The most bars on hand.
pub const MOST_BARS: usize = 40;
