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
/// `causes` are those of a head of the same shape: of one of m kg its surface and its faces are taken to grow as
/// (m / m₀)^⅔, m₀ the mass that `causes` have; the eye stays as it is. With losses of F whatever the head, p·m in percent
/// of it and S off the surfaces of m₀, the head is the root of
///
/// ```text
/// (1 + p)·m + S·(m / m₀)^⅔ = piece − F
/// range = finished ± z(confidence) · spread / (1 + p + ⅔·S·(m / m₀)^⅔ / m)
/// ```
///
/// the range to the first order of the spread.
///
/// # Accuracy
/// finished + losses = piece to roundoff.
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
    errors.extend(causes.check());
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
    let lost = |causes: &Causes| account(causes, density, bar).lost_kg;
    let bare = Causes {
        head_kg: 0.0,
        surface_mm2: 0.0,
        face_mm2: [0.0; 2],
        ..*causes
    };
    let fixed = lost(&bare);
    let of_head = lost(&Causes {
        head_kg: causes.head_kg,
        ..bare
    }) - fixed;
    let of_surface = lost(&Causes {
        head_kg: 0.0,
        ..*causes
    }) - fixed;
    let left_kg = piece_kg - fixed;
    let size = if left_kg > 0.0 {
        size_of(causes.head_kg + of_head, of_surface, left_kg)
    } else {
        0.0
    };
    let finished_kg = causes.head_kg * size.powi(3);
    if finished_kg < FINISHED_KG.least {
        let lost_kg = fixed.max(piece_kg - finished_kg);
        return Err(vec![BarError::NothingLeft { piece_kg, lost_kg }]);
    }
    let grown = size * size;
    let Account {
        losses,
        lost_after_forging_kg,
        spread_kg,
        ..
    } = account(
        &Causes {
            head_kg: finished_kg,
            surface_mm2: causes.surface_mm2 * grown,
            face_mm2: causes.face_mm2.map(|face| face * grown),
            ..*causes
        },
        density,
        bar,
    );
    let slope = 1.0 + of_head / causes.head_kg + of_surface * grown / (1.5 * finished_kg);
    let spread_kg = spread_kg / slope;
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

/// The u at which cube·u³ + square·u² = left, for cube > 0, square ≥ 0 and left > 0.
///
/// Newton's steps from above: at (left / cube)^⅓ the left side is not too small, and as it grows and bends upwards for
/// u > 0 every step goes down and none beyond the root. They end where roundoff lets none go down any more.
fn size_of(cube: f64, square: f64, left: f64) -> f64 {
    let mut size = (left / cube).cbrt();
    loop {
        let over = (cube * size + square) * size * size - left;
        let next = size - over / ((3.0 * cube * size + 2.0 * square) * size);
        if !(next > 0.0 && next < size) {
            return size;
        }
        size = next;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_size_is_the_root_whichever_power_counts() {
        for (cube, square, root) in [
            (1.2, 0.0, 1.1_f64),
            (1.2, 0.08, 0.7),
            (1e-3, 1e4, 3.0),
            (100.0, 1e-6, 1e-2),
            (1e-6, 1.0, 1e-5),
        ] {
            let left = cube * root.powi(3) + square * root.powi(2);
            let found = size_of(cube, square, left);
            assert!((found / root - 1.0).abs() < 1e-14, "{found} {root}");
        }
    }
}
