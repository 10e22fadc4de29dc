//! What to move to come back to the holds: one size, or two.

use super::{Expected, steps_between};
use crate::design::{Design, Dim, Quantity, Range};
use crate::fit::{Effort, Fitted, Obstacle, Outcome, Target, fit_with};
use crate::units::Measure;

/// A size that is to be moved.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Move {
    /// Which.
    pub dim: Dim,
    /// The size of the back that is as it and moves with it.
    pub follower: Option<Dim>,
    /// What is written.
    pub from: Measure,
    /// What it is to be, cold.
    pub to: Measure,
}

/// What brings a head back to its holds.
#[derive(Clone, Debug, PartialEq)]
pub enum WayBack {
    /// Nothing is held.
    NothingHeld,
    /// Every hold is kept as it is.
    Kept,
    /// These sizes moved, and all else left.
    Moves {
        /// One; two, where none alone is enough; more, where no two are.
        moves: Vec<Move>,
        /// How far that is, in steps of the fit.
        steps: f64,
        /// The head then.
        design: Box<Design>,
    },
    /// No sizes that are free bring it back.
    None {
        /// The quantities that are missed at the nearest.
        missed: Vec<Quantity>,
        /// What stands in the way there, the greatest obstacle first; nothing where no size is free.
        in_the_way: Vec<Obstacle>,
    },
}

/// The way back of `design`, whose sizes are to meet `asked`; `held` are its holds as they are to be expected.
pub(super) fn way_back(design: &Design, asked: &[Target], held: &[Expected]) -> WayBack {
    if held.is_empty() {
        return WayBack::NothingHeld;
    }
    if held.iter().all(|expected| expected.miss == 0.0) {
        return WayBack::Kept;
    }
    let free: Vec<(Dim, Range)> = design.free.iter().map(|(dim, it)| (*dim, *it)).collect();
    let one = free.iter().map(|single| vec![*single]);
    let two = free.iter().enumerate().flat_map(|(place, first)| {
        let others = free.iter().skip(place + 1);
        others.map(move |second| vec![*first, *second])
    });
    nearest(design, asked, one, Effort::Thorough)
        .or_else(|| nearest(design, asked, two, Effort::Quick))
        .unwrap_or_else(|| together(design, asked))
}

/// The shortest way among those on which only the sizes of one of `choices` move, each looked for with as much `effort`.
fn nearest(
    design: &Design,
    asked: &[Target],
    choices: impl Iterator<Item = Vec<(Dim, Range)>>,
    effort: Effort,
) -> Option<WayBack> {
    let mut best: Option<(f64, Design)> = None;
    for choice in choices {
        let only = Design {
            free: choice.into_iter().collect(),
            ..design.clone()
        };
        let Ok(fitted) = fit_with(&only, asked, effort) else {
            continue;
        };
        let steps = steps(design, &fitted.design);
        let nearer = best.as_ref().is_none_or(|(least, _)| steps < *least);
        if fitted.outcome == Outcome::Met && nearer {
            best = Some((steps, fitted.design));
        }
    }
    best.map(|(_, moved)| moves(design, moved))
}

/// All that is free at once.
fn together(design: &Design, asked: &[Target]) -> WayBack {
    match fit_with(design, asked, Effort::Thorough) {
        Ok(fitted) if fitted.outcome == Outcome::Met => moves(design, fitted.design),
        Ok(Fitted {
            residuals,
            in_the_way,
            ..
        }) => {
            let missed = residuals.iter().filter(|residual| residual.miss != 0.0);
            WayBack::None {
                missed: missed.map(|residual| residual.target.quantity).collect(),
                in_the_way,
            }
        }
        // It was built before.
        Err(_) => WayBack::None {
            missed: Vec::new(),
            in_the_way: Vec::new(),
        },
    }
}

/// How far `after` lies from `before`, in steps of the fit, two sizes that are alike counted once.
fn steps(before: &Design, after: &Design) -> f64 {
    let moved = moved(before, after);
    let squares = moved
        .iter()
        .map(|it| steps_between(it.dim, it.from, it.to).powi(2));
    squares.sum::<f64>().sqrt()
}

fn moved(before: &Design, after: &Design) -> Vec<Move> {
    let sizes = before.sizes().into_iter().zip(after.sizes());
    sizes
        .filter(|((dim, from), (_, to))| from != to && before.leader(*dim) == *dim)
        .map(|((dim, from), (_, to))| Move {
            dim,
            follower: before.follower(dim),
            from,
            to,
        })
        .collect()
}

fn moves(before: &Design, after: Design) -> WayBack {
    WayBack::Moves {
        moves: moved(before, &after),
        steps: steps(before, &after),
        design: Box::new(Design {
            free: before.free.clone(),
            ..after
        }),
    }
}
