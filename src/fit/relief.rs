//! How far limits would have to move for targets to come within reach.

use super::{Fitted, Measurable, Obstacle, Outcome, Target, fit_to};
use crate::design::{Design, Dim, Edit, Range, bounds};
use crate::units::Measure;

/// A limit and where it would have to be.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LimitMove {
    /// The dimension.
    pub dim: Dim,
    /// Whether it is the upper limit.
    pub upper: bool,
    /// Where it is.
    pub from: Measure,
    /// Where it would have to be, outwards to a whole step.
    pub to: Measure,
}

impl LimitMove {
    /// `design` with the limit moved.
    pub fn on(&self, design: &Design) -> Design {
        match design.free.get(&self.dim) {
            None => design.clone(),
            Some(range) => {
                let range = if self.upper {
                    Range {
                        high: self.to,
                        ..*range
                    }
                } else {
                    Range {
                        low: self.to,
                        ..*range
                    }
                };
                design.apply(Edit::Free(self.dim, range))
            }
        }
    }
}

/// The finest steps in which limits are told, mm or degrees.
pub const FINEST: f64 = 1e-3;
/// What is left of a step when how far a limit has to move is known well enough.
const WELL_ENOUGH: f64 = 0.25;
/// Limits found in the way of one another before no more are looked for.
const MOST_TOGETHER: usize = 8;

/// What would bring `targets` within reach of `design`, at most `most` entries: each is enough by
/// itself, its limits moved together.
///
/// First come single limits that stand in the way, each moved as little as it must be with the
/// others where they are; where none is enough by itself, all that must move at once. Nothing comes
/// back when the targets are met as it is, and when no limit that the smith set is what hinders,
/// but soundness, the table of bounds, or the targets themselves. Limits are told in whole `steps` of
/// their dimension, mm or degrees, such as the divisions of a rule, and no farther out than needed by more than a step
/// and a quarter: the coarser, the fewer fits it takes.
///
/// # Method
/// With the limits at the ends of the table of bounds a fit says where they need be at most. What
/// is within reach only grows with a limit, so that bisection between there and where they are
/// finds where they need be at least. Every entry was tried: with its limits moved a fit of
/// `design` is met.
pub fn reliefs<Q: Measurable>(
    design: &Design,
    targets: &[Target<Q>],
    fitted: &Fitted<Q>,
    most: usize,
    steps: &dyn Fn(Dim) -> f64,
) -> Vec<Vec<LimitMove>> {
    if fitted.outcome != Outcome::OutOfReach {
        return Vec::new();
    }
    let limits = limits(fitted);
    let singles = limits.iter();
    let singles = singles.filter_map(|limit| moves(design, targets, &[*limit], steps).ok());
    let singles: Vec<Vec<LimitMove>> = singles.take(most).collect();
    if singles.is_empty() {
        let all = together(design, targets, limits, steps);
        all.into_iter().take(most).collect()
    } else {
        singles
    }
}

/// All limits that must move at once: those that stand in the way of one another come in turn.
fn together<Q: Measurable>(
    design: &Design,
    targets: &[Target<Q>],
    mut limits: Vec<(Dim, bool)>,
    steps: &dyn Fn(Dim) -> f64,
) -> Option<Vec<LimitMove>> {
    while (1..=MOST_TOGETHER).contains(&limits.len()) {
        match moves(design, targets, &limits, steps) {
            Ok(relief) => return Some(relief),
            Err(further) if further.is_empty() => return None,
            Err(further) => limits.extend(further),
        }
    }
    None
}

/// The smith's limits that stand in the way, the greatest first.
fn limits<Q>(fitted: &Fitted<Q>) -> Vec<(Dim, bool)> {
    let limits = fitted.in_the_way.iter().filter_map(|obstacle| {
        let Obstacle::Limit { dim, upper, mm } = obstacle else {
            return None;
        };
        let table = bounds(*dim);
        let end = if *upper { table.high } else { table.low };
        (*mm != end).then_some((*dim, *upper))
    });
    limits.collect()
}

/// How far `gone` have to move with all others in place, or which others are in the way then.
fn moves<Q: Measurable>(
    design: &Design,
    targets: &[Target<Q>],
    gone: &[(Dim, bool)],
    steps: &dyn Fn(Dim) -> f64,
) -> Result<Vec<LimitMove>, Vec<(Dim, bool)>> {
    let moved = |to: &dyn Fn(Dim, bool, f64) -> f64| -> Vec<LimitMove> {
        let moved = gone.iter().filter_map(|(dim, upper)| {
            let range = design.free.get(dim)?;
            let from = if *upper { range.high } else { range.low };
            let to = to(*dim, *upper, from.number());
            let to = outwards(*dim, *upper, to, steps(*dim));
            (to != from.number()).then_some(LimitMove {
                dim: *dim,
                upper: *upper,
                from,
                to: from.with_number(to),
            })
        });
        moved.collect()
    };
    let end = |dim: Dim, upper: bool, _| {
        let table = bounds(dim);
        if upper { table.high } else { table.low }
    };
    let Some(farthest) = fit_with(design, targets, &moved(&end)) else {
        return Err(Vec::new());
    };
    if farthest.outcome != Outcome::Met {
        let further = limits(&farthest).into_iter();
        return Err(further.filter(|limit| !gone.contains(limit)).collect());
    }
    // Where the farthest answer stands inside a limit, that limit need not move.
    let needed = |dim: Dim, upper: bool, from: f64| {
        let stands = farthest.design.size(dim).map_or(from, Measure::number);
        if upper {
            stands.max(from)
        } else {
            stands.min(from)
        }
    };
    let share_of =
        |share: f64| moved(&|dim, upper, from| from + share * (needed(dim, upper, from) - from));
    let is_enough = |moves: &[LimitMove]| {
        let fitted = fit_with(design, targets, moves);
        fitted.is_some_and(|fitted| fitted.outcome == Outcome::Met)
    };
    let mut told = share_of(1.0);
    if !is_enough(&told) {
        return Err(Vec::new());
    }
    let longest = told
        .iter()
        .map(|m| (m.to.number() - m.from.number()).abs() / steps(m.dim));
    let longest = longest.fold(0.0, f64::max);
    let (mut short, mut enough) = (0.0, 1.0);
    while (enough - short) * longest > WELL_ENOUGH {
        let middle = 0.5 * (short + enough);
        let less = share_of(middle);
        if is_enough(&less) {
            (enough, told) = (middle, less);
        } else {
            short = middle;
        }
    }
    Ok(told)
}

/// `number` outwards to a whole `step`, inside the table of bounds.
fn outwards(dim: Dim, upper: bool, number: f64, step: f64) -> f64 {
    let table = bounds(dim);
    let steps = number / step;
    // What is told already stays, whatever its roundoff.
    let whole = if (steps - steps.round()).abs() < 1e-6 {
        return number;
    } else if upper {
        steps.ceil()
    } else {
        steps.floor()
    };
    (whole * step).clamp(table.low, table.high)
}

/// The fit of `design` with its limits moved.
fn fit_with<Q: Measurable>(
    design: &Design,
    targets: &[Target<Q>],
    moves: &[LimitMove],
) -> Option<Fitted<Q>> {
    let moves = moves.iter();
    let moved = moves.fold(design.clone(), |design, limit| limit.on(&design));
    fit_to(&moved, targets).ok()
}
