//! The grids of a heat treatment.

use super::{Grid, Scale, grid};
use crate::heat::{Medium, SOAK_HOURS, TEMPER_CELSIUS, WANTED_HRC};

/// The grids of temperatures and hardnesses: tenths, then hundredths, which hold whole °F.
const DEGREES: [Grid; 2] = [grid(200, 0, 1.0, 10.0), grid(50, 0, 1.0, 100.0)];
/// The grids of soaks: twentieths of an hour, then hundredths.
const SOAKS: [Grid; 2] = [grid(200, 0, 1.0, 20.0), grid(50, 0, 1.0, 100.0)];
/// The grids of an element's share of steel: hundredths of a percent, then thousandths.
const ELEMENTS: [Grid; 2] = [grid(200, 0, 1.0, 100.0), grid(50, 0, 1.0, 1000.0)];
/// Of most elements a steel has no more than this, percent.
const FEW_PERCENT: f64 = 2.0;

/// Whether it is the share of an element that most steels have no more of.
pub(in crate::share::link) fn is_few_percent(percent: f64) -> bool {
    (0.0..=FEW_PERCENT).contains(&percent)
}

impl Scale {
    /// Temperatures of a bath, °C.
    pub fn baths(medium: Medium) -> Self {
        let limit = medium.bath_celsius();
        Self::plain(&DEGREES, limit.least, limit.most)
    }

    /// Temperatures of a temper, °C.
    pub fn ovens() -> Self {
        Self::plain(&DEGREES, TEMPER_CELSIUS.least, TEMPER_CELSIUS.most)
    }

    /// Hardnesses that are asked for, HRC.
    pub fn hardnesses() -> Self {
        Self::plain(&DEGREES, WANTED_HRC.least, WANTED_HRC.most)
    }

    /// Soaks, hours.
    pub fn soaks() -> Self {
        Self::plain(&SOAKS, SOAK_HOURS.least, SOAK_HOURS.most)
    }

    /// Shares of an element in steel, percent; `few` as [`is_few_percent`] says.
    pub fn elements(few: bool) -> Self {
        Self::plain(&ELEMENTS, 0.0, if few { FEW_PERCENT } else { 100.0 })
    }
}
