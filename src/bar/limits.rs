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
/// Density of the steel, in kg/m³: light alloys to tungsten.
pub const DENSITY_KG_PER_M3: Limit = Limit {
    least: 1000.0,
    most: 25_000.0,
};
/// The most lines of losses.
pub const MOST_LOSSES: usize = 12;
/// The longest source of a loss, in characters.
pub const SOURCE_CHARACTERS: usize = 200;
