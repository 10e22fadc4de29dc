//! Where a steel begins and ends to turn to austenite on heating, and to martensite on cooling.
//!
//! Andrews' formulas, °C, percent of mass:
//!
//! ```text
//! Ac1 = 723 − 10.7 Mn − 16.9 Ni + 29.1 Si + 16.9 Cr + 6.38 W
//! Ac3 = 910 − 203 √C − 15.2 Ni + 44.7 Si + 104 V + 31.5 Mo + 13.1 W
//! Ms  = 539 − 423 C − 30.4 Mn − 17.7 Ni − 12.1 Cr − 7.5 Mo
//! ```
//!
//! The short form of Ac3: what the full form adds for Mn, Cr, Cu, P, Al, As and Ti is quoted with different signs, and a
//! measured heat of 1045 lies nearer to the short one.
//!
//! # Validity
//! Low-alloy steel with at most [`MOST_CARBON`] carbon ([`MOST_ALLOY`] for all alloying together, from memory). Above
//! that carbon the formulas put Ac3 below Ac1 and Ms far too low, so they give no number.
//!
//! # Accuracy
//! [`UNCERTAINTY_CELSIUS`] either way for Ac1 and Ac3, of published approximate values (Metals Handbook, from memory) only Ac1 of
//! 5160 lies farther off, 24 °C: a measured heat of 1045 (steeldata.info, diagram 1889: C 0.45, Mn 0.59,
//! Si 0.28, Ni 0.06, Cr 0.05, Cu 0.14; Ac1 725 °C, Ac3 798 °C) lies 0.3 °C and 12.6 °C off.
//!
//! # Source
//! K. W. Andrews, Empirical formulae for the calculation of some transformation temperatures, J. Iron Steel Inst. 203
//! (1965) 721–727; coefficients read in several public codes, the paper itself not read.

use super::composition::{Composition, Element};

/// The most carbon that the formulas hold for, percent.
pub const MOST_CARBON: f64 = 0.60;
/// The least, percent.
pub const LEAST_CARBON: f64 = 0.08;
/// The most of all alloying elements together, percent (from memory).
pub const MOST_ALLOY: f64 = 5.0;
/// How far Ac1 and Ac3 may lie off, °C.
pub const UNCERTAINTY_CELSIUS: f64 = 20.0;
/// The source.
pub const SOURCE: &str = "Andrews, J. Iron Steel Inst. 203 (1965) 721–727, as public codes quote it; an estimate, ± 20 °C";

/// Why the formulas give no number.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Outside {
    /// Carbon outside their range, percent.
    Carbon(f64),
    /// More alloy than they are for, percent.
    Alloy(f64),
    /// They put Ac3 below Ac1.
    Crossed,
}

/// Whether the formulas hold for `composition`.
///
/// # Errors
/// What lies outside.
pub fn check(composition: &Composition) -> Result<(), Outside> {
    // A certificate rounds to hundredths; 0.60 + 0.004 is 0.60 there.
    const ROUNDING: f64 = 0.005;
    let carbon = composition.percent(Element::C);
    if !(LEAST_CARBON..=MOST_CARBON + ROUNDING).contains(&carbon) {
        return Err(Outside::Carbon(carbon));
    }
    let alloy = composition.sum() - carbon;
    if alloy > MOST_ALLOY {
        return Err(Outside::Alloy(alloy));
    }
    if ac3(composition) <= ac1(composition) {
        return Err(Outside::Crossed);
    }
    Ok(())
}

/// Where ferrite and carbide begin to turn to austenite on slow heating, °C.
pub fn ac1(composition: &Composition) -> f64 {
    let percent = |element| composition.percent(element);
    723.0 - 10.7 * percent(Element::Mn) - 16.9 * percent(Element::Ni)
        + 29.1 * percent(Element::Si)
        + 16.9 * percent(Element::Cr)
        + 6.38 * percent(Element::W)
}

/// Where the last ferrite has turned to austenite on slow heating, °C.
pub fn ac3(composition: &Composition) -> f64 {
    let percent = |element| composition.percent(element);
    910.0 - 203.0 * percent(Element::C).sqrt() - 15.2 * percent(Element::Ni)
        + 44.7 * percent(Element::Si)
        + 104.0 * percent(Element::V)
        + 31.5 * percent(Element::Mo)
        + 13.1 * percent(Element::W)
}

/// Where martensite begins to form on cooling, °C.
pub fn ms(composition: &Composition) -> f64 {
    let percent = |element| composition.percent(element);
    539.0
        - 423.0 * percent(Element::C)
        - 30.4 * percent(Element::Mn)
        - 17.7 * percent(Element::Ni)
        - 12.1 * percent(Element::Cr)
        - 7.5 * percent(Element::Mo)
}
