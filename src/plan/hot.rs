//! Hot sizes: what a caliper reads at forging heat.

use crate::bar::Limit;
use crate::design::{Design, Dim};
use crate::units::{Length, Measure, show_number};

/// Temperatures that the growth of steel is known for, °C.
pub const HOT_CELSIUS: Limit = Limit {
    least: 20.0,
    most: 1200.0,
};
/// A temperature for finishing most hammer steels, °C: common practice, no source; it lies within published forging
/// ranges (4140 from 1200 down to 980).
pub const USUAL_HOT_CELSIUS: f64 = 1050.0;
/// How far, as a share of itself, the growth of a particular steel may lie off: from memory, mean coefficients of
/// carbon and low-alloy steels from 20 °C to forging heat lie between 13.5e-6 and 14.8e-6 per kelvin.
pub const GROWTH_UNCERTAINTY: f64 = 0.1;
/// Where steel shrinks on its way to austenite, each at a heat of its own, °C (from memory).
pub const TRANSFORMATION_CELSIUS: Limit = Limit {
    least: 700.0,
    most: 900.0,
};
/// As [`GROWTH_UNCERTAINTY`], where some steels have shrunk already and others have not: the formula's lines of before
/// and after, each carried on through [`TRANSFORMATION_CELSIUS`], lie up to 23 % off it.
pub const TRANSFORMATION_UNCERTAINTY: f64 = 0.25;
/// Where the growth comes from.
pub const GROWTH_SOURCE: &str = "EN 1993-1-2:2005 + AC:2009, 3.4.1.1, thermal elongation of carbon steel, as quoted in a public software manual; the standard itself not read";

/// Why there are no hot sizes.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
pub enum HotError {
    /// A temperature that the growth is not known for.
    #[error(
        "The growth of steel at {} °C is not known. It must be at least {} °C and at most {} °C.",
        show_number(*.celsius),
        HOT_CELSIUS.least,
        HOT_CELSIUS.most
    )]
    Temperature {
        /// The temperature.
        celsius: f64,
    },
}

/// How much longer steel is at `celsius` than at 20 °C, as a share: Δl/l.
///
/// ```text
/// 20 to 750 °C      1.2e-5 T + 0.4e-8 T² − 2.416e-4
/// 750 to 860 °C     1.1e-2
/// 860 to 1200 °C    2e-5 T − 6.2e-3
/// ```
/// # Accuracy
/// [`growth_uncertainty`]. The formula stands for structural carbon steel.
/// # Errors
/// A temperature outside [`HOT_CELSIUS`].
/// # Source
/// EN 1993-1-2:2005 + AC:2009, 3.4.1.1, as quoted in a public software manual; the standard itself was not read.
///
/// # Examples
/// ```
/// use headwright::plan::growth;
///
/// assert!((growth(1100.0)? - 0.0158).abs() < 1e-12);
/// # Ok::<(), headwright::plan::HotError>(())
/// ```
pub fn growth(celsius: f64) -> Result<f64, HotError> {
    const SHRINKS_FROM: f64 = 750.0;
    const GROWS_FROM: f64 = 860.0;
    if !HOT_CELSIUS.admits(celsius) {
        return Err(HotError::Temperature { celsius });
    }
    Ok(if celsius < SHRINKS_FROM {
        1.2e-5 * celsius + 0.4e-8 * celsius * celsius - 2.416e-4
    } else if celsius <= GROWS_FROM {
        1.1e-2
    } else {
        2e-5 * celsius - 6.2e-3
    })
}

/// How far, as a share of itself, the growth at `celsius` may lie off.
pub fn growth_uncertainty(celsius: f64) -> f64 {
    if TRANSFORMATION_CELSIUS.admits(celsius) {
        TRANSFORMATION_UNCERTAINTY
    } else {
        GROWTH_UNCERTAINTY
    }
}

/// A length of a design, cold and hot.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HotSize {
    /// Which.
    pub dim: Dim,
    /// At 20 °C.
    pub cold: Length,
    /// At forging heat, in the notation of the cold one.
    pub hot: Length,
}

/// Every length of a design at forging heat.
#[derive(Clone, Debug, PartialEq)]
pub struct HotSizes {
    /// The temperature, °C.
    pub celsius: f64,
    /// How much longer everything is, as a share.
    pub growth: f64,
    /// How far that may lie off, as a share of itself.
    pub uncertainty: f64,
    /// The lengths in the order of the list on screen; angles stay as they are.
    pub sizes: Vec<HotSize>,
}

/// What the caliper must read at `celsius` for every length of `design`: cold × (1 + [`growth`]).
///
/// # Errors
/// A temperature outside [`HOT_CELSIUS`].
pub fn hot_sizes(design: &Design, celsius: f64) -> Result<HotSizes, HotError> {
    let growth = growth(celsius)?;
    let hot = |(dim, size): (Dim, Measure)| match size {
        Measure::Length(cold) => Some(HotSize {
            dim,
            cold,
            hot: cold.with_mm(cold.in_mm() * (1.0 + growth)),
        }),
        Measure::Angle(_) => None,
    };
    Ok(HotSizes {
        celsius,
        growth,
        uncertainty: growth_uncertainty(celsius),
        sizes: design.sizes().into_iter().filter_map(hot).collect(),
    })
}
