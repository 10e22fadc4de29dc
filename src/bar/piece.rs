//! From a piece that is already cut and weighed to the head it gives.

use serde::Serialize;

use super::Bar;
use super::billet::{Account, LossMass, account};
use super::causes::Causes;
use super::error::BarError;
use super::limits::{DENSITY_KG_PER_M3, FINISHED_KG, PIECE_KG};
use super::normal::quantile;
use crate::units::Density;

/// What a piece gives. All masses in kg.
///
/// `piece_kg = finished_kg + losses`
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Piece {
    /// The piece as it was weighed.
    pub piece_kg: f64,
    /// The head that is to be expected of it, as likely as not.
    pub finished_kg: f64,
    /// One standard deviation of it.
    pub spread_kg: f64,
    /// Above the first and below the second the head finishes with the chosen confidence each.
    pub finished_range_kg: [f64; 2],
    /// What it is expected to weigh before faces and surfaces are worked.
    pub before_grinding_kg: f64,
    /// What is lost, in the order of the bar's lines.
    pub losses: Vec<LossMass>,
}

/// The head that a piece of `piece_kg` gives: finished + losses(finished) = piece.
///
/// Losses in percent of the head follow the head that is found; all others are those of `causes`, whose mass of
/// the head is not asked for. With losses F + p·m for a head of m kg,
///
/// ```text
/// finished = (piece − F) / (1 + p)        range = finished ± z(confidence) · spread / (1 + p)
/// ```
///
/// # Errors
/// Everything that is wrong with the bar, the causes, the density and the piece, or that nothing is left of it.
///
/// # Examples
/// ```
/// use headwright::bar::{Bar, BarSection, Causes, billet, from_piece};
/// use headwright::units::Density;
///
/// let causes = Causes {
///     head_kg: 1.2,
///     eye_kg: 0.16,
///     surface_mm2: 22_000.0,
///     face_mm2: [1400.0, 1300.0],
///     eye_height_mm: 40.0,
///     eye_mm: [28.0, 19.0],
/// };
/// let bar = Bar::default();
/// let there = billet(&causes, Density::STEEL, &bar)?;
/// let back = from_piece(there.billet_mass_kg, &causes, Density::STEEL, &bar)?;
/// assert!((back.finished_kg - 1.2).abs() < 1e-12);
/// # Ok::<(), Vec<headwright::bar::BarError>>(())
/// ```
pub fn from_piece(
    piece_kg: f64,
    causes: &Causes,
    density: Density,
    bar: &Bar,
) -> Result<Piece, Vec<BarError>> {
    let mut errors = bar.check();
    errors.extend(causes.check_shape());
    errors.extend(bar.check_on(causes, density));
    if !DENSITY_KG_PER_M3.admits(density.in_kg_per_m3()) {
        errors.push(BarError::Density { value: density });
    }
    if !PIECE_KG.admits(piece_kg) {
        errors.push(BarError::Piece { kg: piece_kg });
    }
    if !errors.is_empty() {
        return Err(errors);
    }
    let of = |head_kg| account(&Causes { head_kg, ..*causes }, density, bar);
    // Losses are F + p·m: what they are for nothing and for one kilogram says both.
    let fixed = of(0.0).lost_kg;
    let share = of(1.0).lost_kg - fixed;
    let finished_kg = (piece_kg - fixed) / (1.0 + share);
    if finished_kg < FINISHED_KG.least {
        let lost_kg = fixed + share * finished_kg.max(0.0);
        return Err(vec![BarError::NothingLeft { piece_kg, lost_kg }]);
    }
    let Account {
        losses,
        lost_after_forging_kg,
        spread_kg,
        ..
    } = of(finished_kg);
    let spread_kg = spread_kg / (1.0 + share);
    let reserve = quantile(bar.confidence) * spread_kg;
    Ok(Piece {
        piece_kg,
        finished_kg,
        spread_kg,
        finished_range_kg: [(finished_kg - reserve).max(0.0), finished_kg + reserve],
        before_grinding_kg: finished_kg + lost_after_forging_kg,
        losses: losses
            .into_iter()
            .map(|loss| loss.of_cut(piece_kg))
            .collect(),
    })
}
