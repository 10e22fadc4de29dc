//! The head that comes of a piece which is already cut and weighed.

use std::fmt;

use thiserror::Error;

use super::{Fitted, Outcome, Target, fit_to, targets};
use crate::bar::{BarError, Piece, from_piece};
use crate::design::{Design, DesignError, Dim, Hold, Quantity};
use crate::mass::{causes, mass_properties};
use crate::units::{Mass, System, show_mass, show_number};

/// The most rounds between losses and sizes. Each leaves little of the one before, because the areas of the fitted head
/// are nearly those of one of the same shape, which [`from_piece`] reckons with.
const MOST_ROUNDS: usize = 12;
/// Heads closer than this, in kg, are the same: a milligram.
const SETTLED_KG: f64 = 1e-6;

/// A design fitted to a piece.
#[derive(Clone, Debug, PartialEq)]
pub struct PieceFit {
    /// What the piece gives, with the losses of the fitted head.
    pub piece: Piece,
    /// The fitted design, which holds that mass.
    pub design: Design,
    /// The sizes that moved.
    pub changed: Vec<Dim>,
    /// Other holds of the design that could not be kept with this mass.
    pub missed: Vec<Quantity>,
    /// Rounds taken between losses and sizes.
    pub rounds: usize,
    /// By how much the fitted head is heavier than what the piece gives, kg.
    pub off_kg: f64,
}

/// Why a piece gives no head of a design. Written as a sentence; [`PieceError::sentence`] says it in the units that the
/// smith reads.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum PieceError {
    /// The design to start from is not sound.
    Unsound(Vec<DesignError>),
    /// Bar or piece can't be worked from.
    Bar(Vec<BarError>),
    /// No head of this design weighs what the piece leaves.
    OutOfReach {
        /// The piece.
        piece_kg: f64,
        /// The head it leaves.
        leaves_kg: f64,
        /// The nearest mass that the design can have.
        nearest_kg: f64,
    },
}

impl PieceError {
    /// The sentence, in the units of `system`.
    pub fn sentence(&self, system: System) -> String {
        match self {
            Self::Unsound(errors) => joined(errors.iter().map(|error| error.sentence(system))),
            Self::Bar(errors) => joined(errors.iter().map(|error| error.sentence(system))),
            Self::OutOfReach {
                piece_kg,
                leaves_kg,
                nearest_kg,
            } => {
                let (end, way) = if leaves_kg < nearest_kg {
                    ("lightest", "heavier")
                } else {
                    ("heaviest", "lighter")
                };
                format!(
                    "A piece of {} leaves a head of {}, but the {end} this design can be between the limits of its free sizes is {}. Free more sizes, widen their limits or take a {way} piece.",
                    mass(*piece_kg, system),
                    mass(*leaves_kg, system),
                    mass(*nearest_kg, system)
                )
            }
        }
    }
}

impl fmt::Display for PieceError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.sentence(System::Metric))
    }
}

fn joined(sentences: impl Iterator<Item = String>) -> String {
    sentences.collect::<Vec<_>>().join(" ")
}

/// A mass with its unit: to the tenth of a gram, or of an ounce.
fn mass(kg: f64, system: System) -> String {
    match system {
        System::Metric => format!("{} kg", show_number(rounded(kg))),
        System::Imperial => show_mass(kg, system),
    }
}

/// `kg` to the tenth of a gram.
fn rounded(kg: f64) -> f64 {
    (kg * 1e4).round() / 1e4
}

/// `design` fitted to what `piece` gives: finished head + losses of that head = piece.
///
/// The losses of the design say what the piece gives; to that the mass is held, the other holds as they are, and the
/// free sizes are fitted; the fitted head has other areas and so other losses, which say anew what the piece gives,
/// until that is settled to a milligram or for twelve rounds at most ([`PieceFit::off_kg`]). Every fit begins at
/// `design`, so that the answer is the head nearest to it. Where the other holds can't be kept with this mass the
/// mass alone is held.
///
/// # Errors
/// Sentences for a design that is not sound, a bar that can't be worked from, a piece that is lost altogether, and
/// one that is lighter or heavier than every head this design can be.
pub fn to_piece(design: &Design, piece: Mass) -> Result<PieceFit, PieceError> {
    let gives = |head: &Design| -> Result<(Piece, f64), PieceError> {
        let solid = head.build().map_err(PieceError::Unsound)?;
        let weighed = mass_properties(&solid);
        let causes = causes(&solid, &weighed);
        let given = from_piece(piece.in_kg(), &causes, design.density, &design.bar);
        Ok((given.map_err(PieceError::Bar)?, weighed.mass))
    };
    let (before, _) = gives(design)?;
    let mut free = design.clone();
    free.holds.mass = None;
    let others = targets(&free);
    let mut rounds = 1;
    let (mut fitted, mut missed) = fit_mass(design, &others, &before)?;
    let (mut given, mut weighs) = gives(&fitted.design)?;
    while rounds < MOST_ROUNDS && (weighs - given.finished_kg).abs() > SETTLED_KG {
        rounds += 1;
        (fitted, missed) = fit_mass(design, &others, &given)?;
        (given, weighs) = gives(&fitted.design)?;
    }
    fitted.design.holds.mass = Some(Hold::About {
        value: piece.with_kg(rounded(given.finished_kg)),
        tolerance: None,
    });
    Ok(PieceFit {
        off_kg: weighs - given.finished_kg,
        piece: given,
        design: fitted.design,
        changed: fitted.changed,
        missed,
        rounds,
    })
}

/// The design nearest to `design` that weighs what the piece leaves, and the other holds that it misses.
fn fit_mass(
    design: &Design,
    others: &[Target],
    given: &Piece,
) -> Result<(Fitted, Vec<Quantity>), PieceError> {
    let mass = Target::just(Quantity::Mass, given.finished_kg);
    let all: Vec<Target> = [mass].into_iter().chain(others.iter().copied()).collect();
    let fitted = fit_to(design, &all).map_err(PieceError::Unsound)?;
    if fitted.outcome == Outcome::Met {
        return Ok((fitted, Vec::new()));
    }
    let fitted = fit_to(design, &[mass]).map_err(PieceError::Unsound)?;
    let weighs = fitted.residuals.first().map_or(f64::NAN, |held| held.value);
    if fitted.outcome != Outcome::Met {
        return Err(PieceError::OutOfReach {
            piece_kg: given.piece_kg,
            leaves_kg: given.finished_kg,
            nearest_kg: weighs,
        });
    }
    let solid = fitted.design.build().map_err(PieceError::Unsound)?;
    let weighed = mass_properties(&solid);
    let missed = others.iter().filter(|target| {
        let value = target.quantity.of(&solid, &weighed, &fitted.design.handle);
        target.miss(value) != 0.0
    });
    let missed = missed.map(|target| target.quantity).collect();
    Ok((fitted, missed))
}
