//! From the finished head back to the cut.

use serde::Serialize;

use super::Bar;
use super::error::BarError;
use super::limits::{DENSITY_KG_PER_M3, EYE_KG, FINISHED_KG};
use super::loss::LossKind;
use super::normal::quantile;
use crate::units::{Density, Length, Mass};

/// What to cut, and the account of where it goes. All masses in kg.
///
/// `cut_mass_kg = billet_mass_kg + reserve_mass_kg + rounding_mass_kg = cut_length_mm × area × density`
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Billet {
    /// The finished head.
    pub finished_kg: f64,
    /// What is lost, in the order of the bar's lines.
    pub losses: Vec<LossMass>,
    /// Expected billet: finished head and losses. As likely as not it is enough.
    pub billet_mass_kg: f64,
    /// One standard deviation of the sum of the losses.
    pub spread_kg: f64,
    /// What the chosen confidence adds: z(confidence) × spread.
    pub reserve_mass_kg: f64,
    /// What rounding the cut up to the rule adds. Less than one division's mass.
    pub rounding_mass_kg: f64,
    /// The cut.
    pub cut_mass_kg: f64,
    /// Length of the cut in mm, a multiple of the rule's division.
    pub cut_length_mm: f64,
    /// What a head from this cut is expected to weigh before faces and surfaces are worked to the target: the cut
    /// less all losses but grinding and dressing.
    pub before_grinding_kg: f64,
}

/// One line of loss in kg.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct LossMass {
    /// What is lost.
    pub kind: LossKind,
    /// The words for it.
    pub name: &'static str,
    /// Expected loss.
    pub mass_kg: f64,
    /// One standard deviation of it.
    pub spread_kg: f64,
    /// Where the numbers come from.
    pub source: String,
}

/// The billet for a head of `finished_kg` from `bar`.
///
/// `eye_kg` is the mass of the steel whose place the eye takes, its volume × `density`; only the losses in percent
/// of the eye need it.
///
/// # Errors
/// Everything that is wrong with the bar ([`Bar::check`]), the masses and the density.
///
/// # Examples
/// ```
/// use headwright::bar::{Bar, billet};
/// use headwright::units::Density;
///
/// let bar = Bar { confidence: 0.5, ..Bar::default() };
/// let billet = billet(1.0, 0.16, Density::STEEL, &bar)?;
/// // 9 % of the head and a quarter of the eye.
/// assert!((billet.billet_mass_kg - 1.13).abs() < 1e-12);
/// assert_eq!(billet.reserve_mass_kg, 0.0);
/// # Ok::<(), Vec<headwright::bar::BarError>>(())
/// ```
pub fn billet(
    finished_kg: f64,
    eye_kg: f64,
    density: Density,
    bar: &Bar,
) -> Result<Billet, Vec<BarError>> {
    let mut errors = bar.check();
    if !FINISHED_KG.admits(finished_kg) {
        errors.push(BarError::FinishedMass { kg: finished_kg });
    }
    if !EYE_KG.admits(eye_kg) {
        errors.push(BarError::EyeMass { kg: eye_kg });
    }
    if !DENSITY_KG_PER_M3.admits(density.in_kg_per_m3()) {
        errors.push(BarError::Density { value: density });
    }
    if !errors.is_empty() {
        return Err(errors);
    }

    let (finished, eye) = (Mass::kg(finished_kg), Mass::kg(eye_kg));
    let (mut lost_kg, mut lost_after_forging_kg, mut variance) = (0.0, 0.0, 0.0);
    let mut losses = Vec::with_capacity(bar.losses.len());
    for loss in &bar.losses {
        let (mass_kg, spread_kg) = loss.amount.in_kg(finished, eye);
        lost_kg += mass_kg;
        if loss.kind.is_after_forging() {
            lost_after_forging_kg += mass_kg;
        }
        variance += spread_kg * spread_kg;
        losses.push(LossMass {
            kind: loss.kind,
            name: loss.kind.words(),
            mass_kg,
            spread_kg,
            source: loss.source.clone(),
        });
    }

    let billet_mass_kg = finished_kg + lost_kg;
    let spread_kg = variance.sqrt();
    let reserve_mass_kg = quantile(bar.confidence) * spread_kg;
    let needed_kg = billet_mass_kg + reserve_mass_kg;
    let kg_per_mm = bar.section.mass_kg(Length::mm(1.0), density);
    let cut_length_mm = bar.rule.round_up(needed_kg / kg_per_mm);
    let cut_mass_kg = cut_length_mm * kg_per_mm;
    Ok(Billet {
        finished_kg,
        losses,
        billet_mass_kg,
        spread_kg,
        reserve_mass_kg,
        rounding_mass_kg: cut_mass_kg - needed_kg,
        cut_mass_kg,
        cut_length_mm,
        before_grinding_kg: cut_mass_kg - (lost_kg - lost_after_forging_kg),
    })
}
