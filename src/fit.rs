//! Dimensions that meet what is held: a weight, a balance, and more.
//!
//! A fit moves the free dimensions of a design, each counted in its own step, as little as it
//! can so that every target is met inside every limit and the head stays sound. It answers with
//! a local optimum and says how good it is; when no design meets the targets it says so, gives
//! the nearest it can reach and names what stands in the way.
//!
//! # Method
//! Sequential linearization: at every turn the targets and the margins of soundness are replaced
//! by their tangents, and the point of the resulting polyhedron nearest to the start is found
//! exactly ([`crate::numeric::least_distance`]). Its fixed points are the points that meet the
//! first-order conditions of the true problem. Steps are shortened until a merit of distance and
//! violation falls (S. P. Han, A globally convergent method for nonlinear programming, J. Optim.
//! Theory Appl. 22 (1977) 297–309; from memory). The tangents are exact: the code that weighs is
//! run on dual numbers. When the tangents contradict each other, a second phase lets the targets
//! yield at a high price; before they are called out of reach the phases begin again from other
//! points of the limits ([`Effort`]).
//!
//! Why this: what is wanted is a shortest way, whose second derivative is one, so that every turn is
//! a problem of least distance, solved exactly and the same every time, with limits and soundness
//! as they are and their multipliers as the answer to what stands in the way. Some ten turns are
//! enough, because targets curve little within what a smith moves; where they curve much, damped
//! steps and the tangents of earlier turns do instead of second derivatives.

use crate::design::{Design, DesignError, Dim, Holds, Quantity, length_in_words};
use crate::units::System;

mod branch;
mod effects;
mod gradient;
mod piece;
mod problem;
mod relief;
mod rule;
mod solve;
mod target;
mod trade_off;

pub use effects::{ANGLE_STEP, Accuracy, Effect, effects, mass_spread};
pub use piece::{PieceError, PieceFit, to_piece};
pub use relief::{FINEST, LimitMove, reliefs};
pub use rule::{ANGLE_DIVISION, Rounded, RuleError, to_rule};
pub use target::{Measurable, Residual, Target, Worked};
pub use trade_off::{Pair, TradeOff, TradeOffError, Traded};

/// How a fit ended.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Outcome {
    /// Every target is met.
    Met,
    /// No sound design inside the limits meets them all; this is the nearest.
    OutOfReach,
    /// The targets themselves pull against each other: two ask different things of one quantity,
    /// or what is free can only meet one at the cost of another, with no limit in the way.
    Contradictory,
    /// The fit did not settle; the design is the best it saw, and misses a target.
    StepLimit,
}

impl Outcome {
    /// Its word in JSON.
    pub fn word(self) -> &'static str {
        match self {
            Outcome::Met => "met",
            Outcome::OutOfReach => "out_of_reach",
            Outcome::Contradictory => "contradictory",
            Outcome::StepLimit => "step_limit",
        }
    }
}

/// Something that keeps a fit from going further.
#[derive(Clone, Debug, PartialEq)]
pub enum Obstacle {
    /// A free dimension stands at its lower or upper limit.
    Limit {
        /// The dimension.
        dim: Dim,
        /// Whether it is the upper one.
        upper: bool,
        /// The limit, mm.
        mm: f64,
    },
    /// A condition of soundness: the sentence says which, were it passed.
    Soundness(DesignError),
}

impl Obstacle {
    /// What stands in the way, in words: "cheek height, at least 31 mm".
    pub fn words(&self, system: System) -> String {
        match self {
            Self::Limit { dim, upper, mm } => {
                let side = if *upper { "most" } else { "least" };
                format!(
                    "{}, at {side} {}",
                    dim.words(),
                    length_in_words(*mm, system)
                )
            }
            Self::Soundness(error) => error.limit(system),
        }
    }
}

/// The answer of a fit.
#[derive(Clone, Debug, PartialEq)]
pub struct Fitted<Q = Quantity> {
    /// How it ended.
    pub outcome: Outcome,
    /// The design: sound, whatever the outcome.
    pub design: Design,
    /// Every target with what became of it.
    pub residuals: Vec<Residual<Q>>,
    /// The dimensions that moved.
    pub changed: Vec<Dim>,
    /// The limits and conditions of soundness that the design rests on, whether or not all is
    /// met, the one that costs most first.
    pub active: Vec<Obstacle>,
    /// What stands in the way, the greatest obstacle first; empty when all is met.
    pub in_the_way: Vec<Obstacle>,
    /// The quantities whose targets contradict each other; empty unless they do.
    pub contradicting: Vec<Q>,
    /// Largest component, in steps, of the first-order condition of a nearest design.
    pub optimality: f64,
    /// Turns taken.
    pub turns: usize,
}

/// How long a fit looks before it says that targets are out of reach.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Effort {
    /// From the design alone: for every frame while a size is moved.
    Quick,
    /// From other points of the limits as well: for a word that counts.
    Thorough,
}

/// Fits `design` to its own holds.
///
/// # Errors
/// The reasons why the design to start from is not sound.
pub fn fit(design: &Design, effort: Effort) -> Result<Fitted, Vec<DesignError>> {
    fit_with(design, &targets(design), effort)
}

/// The targets that a design holds.
pub fn targets(design: &Design) -> Vec<Target> {
    let held = design.holds.iter();
    held.map(|(quantity, hold)| Target::new(quantity, hold))
        .collect()
}

/// Fits `design` to `targets`, thoroughly.
///
/// # Errors
/// The reasons why the design to start from is not sound.
pub fn fit_to<Q: Measurable>(
    design: &Design,
    targets: &[Target<Q>],
) -> Result<Fitted<Q>, Vec<DesignError>> {
    fit_with(design, targets, Effort::Thorough)
}

/// Fits `design` to `targets` with as much `effort`.
///
/// # Errors
/// The reasons why the design to start from is not sound.
pub(crate) fn fit_with<Q: Measurable>(
    design: &Design,
    targets: &[Target<Q>],
    effort: Effort,
) -> Result<Fitted<Q>, Vec<DesignError>> {
    design.build()?;
    let problem = problem::Problem::new(design, targets);
    let end = solve::solve(&problem, effort);
    let mut fitted = report(&problem, targets, &end);
    if design.holds.of_tool() && fitted.outcome != Outcome::Met {
        in_the_handles_way(design, targets, effort, &mut fitted);
    }
    Ok(fitted)
}

/// The conditions of a handle are no margins of the fit, which turns away heads that it does not fit. Where another head
/// would meet all targets but for its handle, the handle is what stands in the way.
fn in_the_handles_way<Q: Measurable>(
    design: &Design,
    targets: &[Target<Q>],
    effort: Effort,
    fitted: &mut Fitted<Q>,
) {
    let loose = Design {
        holds: Holds::default(),
        ..design.clone()
    };
    let problem = problem::Problem::new(&loose, targets);
    let end = solve::solve(&problem, effort);
    let head = report(&problem, targets, &end);
    let held = Design {
        holds: design.holds,
        ..head.design
    };
    if let (Outcome::Met, Err(reasons)) = (head.outcome, held.build()) {
        fitted.outcome = Outcome::OutOfReach;
        fitted.contradicting.clear();
        fitted.in_the_way = reasons.into_iter().map(Obstacle::Soundness).collect();
    }
}

fn report<Q: Measurable>(
    problem: &problem::Problem<'_>,
    targets: &[Target<Q>],
    end: &solve::End,
) -> Fitted<Q> {
    let design = problem.design_at(&end.point);
    let residuals = residuals(problem, targets, &design);
    // Its handle is no margin of the fit: an eye may have become too small for it.
    let sound = !design.holds.of_tool() || design.build().is_ok();
    let met = sound && residuals.iter().all(|residual| residual.miss == 0.0);
    let active = problem.obstacles(end);
    let contradicting = if met {
        Vec::new()
    } else {
        contradicting(&residuals, end.settled && active.is_empty())
    };
    let outcome = if met {
        Outcome::Met
    } else if !contradicting.is_empty() {
        Outcome::Contradictory
    } else if end.settled {
        Outcome::OutOfReach
    } else {
        Outcome::StepLimit
    };
    let in_the_way = if met { Vec::new() } else { active.clone() };
    let changed = changed(problem.design, &design);
    Fitted {
        outcome,
        design,
        residuals,
        changed,
        active,
        in_the_way,
        contradicting,
        optimality: end.optimality,
        turns: end.turns,
    }
}

/// `targets` with what `design` gives.
fn residuals<Q: Measurable>(
    problem: &problem::Problem<'_>,
    targets: &[Target<Q>],
    design: &Design,
) -> Vec<Residual<Q>> {
    let found = problem.residuals(design);
    let both = targets.iter().zip(found);
    let residual = |(target, found): (&Target<Q>, Residual<_>)| Residual {
        target: *target,
        value: found.value,
        miss: found.miss,
    };
    both.map(residual).collect()
}

/// The quantities whose targets contradict each other: those of which two targets ask different
/// things; else, where a settled fit rests on no limit (`on_targets_alone`), all that are missed,
/// if they are more than one.
fn contradicting<Q: Measurable>(residuals: &[Residual<Q>], on_targets_alone: bool) -> Vec<Q> {
    let mut quantities: Vec<Q> = Vec::new();
    let mut name = |quantity: Q| {
        if !quantities.contains(&quantity) {
            quantities.push(quantity);
        }
    };
    for (index, Residual { target: one, .. }) in residuals.iter().enumerate() {
        for Residual { target: other, .. } in &residuals[index + 1..] {
            let apart = one.low > other.high || other.low > one.high;
            if one.quantity == other.quantity && apart {
                name(one.quantity);
            }
        }
    }
    if quantities.is_empty() && on_targets_alone {
        let missed = residuals.iter().filter(|residual| residual.miss != 0.0);
        let missed: Vec<Q> = missed.map(|residual| residual.target.quantity).collect();
        if missed.len() > 1 {
            return missed;
        }
    }
    quantities
}

/// The dimensions in which `after` differs from `before`.
fn changed(before: &Design, after: &Design) -> Vec<Dim> {
    let (before, after) = (before.sizes(), after.sizes());
    let pairs = before.iter().zip(&after);
    pairs
        .filter(|(old, new)| old.1 != new.1)
        .map(|(old, _)| old.0)
        .collect()
}
