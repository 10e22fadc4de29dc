//! The turns of the fit.

use nalgebra::DVector;

use super::gradient::Value;
use super::problem::{Place, Problem, Tangents};
use crate::fit::Target;
use crate::numeric::least_distance::{Constraint, Nearest, nearest};
use crate::solid::Check;

/// Turns before a phase is given up.
const MOST_TURNS: usize = 60;
/// Halvings of a step before it is taken as it is.
const MOST_HALVINGS: usize = 12;
/// A turn that moves no dimension by more than this many steps is the last.
const SETTLED: f64 = 1e-8;
/// Price of missing a target by its scale, against one step of one dimension squared, in the
/// second phase: high enough that a gram is not missed to save a step, low enough that its
/// multipliers leave f64 room to settle.
const PRICE: f64 = 1e4;
/// A turn of the second phase that moves no dimension by more than this many steps is the last.
const SETTLED_YIELDING: f64 = 1e-5;
/// Share of a quantity's usual tolerance by which a range is narrowed at either end: more than what
/// writing the sizes to their grain moves the quantity.
const INSET: f64 = 1e-3;
/// Relative change of the merit that is roundoff.
const ROUNDOFF: f64 = 1e-12;
/// Multipliers below this share of the greatest are roundoff.
const SMALL: f64 = 1e-6;

/// Where a fit came to rest.
pub(super) struct End {
    /// The point, in steps.
    pub(super) point: DVector<f64>,
    /// Whether the turns settled.
    pub(super) settled: bool,
    /// Variables at a limit: which, whether the upper one, multiplier.
    pub(super) limits: Vec<(usize, bool, f64)>,
    /// Margins of soundness in force, with their multipliers.
    pub(super) margins: Vec<(Check, f64)>,
    /// Largest component of the first-order condition, in steps.
    pub(super) optimality: f64,
    /// Turns taken.
    pub(super) turns: usize,
}

/// What a constraint of a turn stands for.
#[derive(Clone, Copy)]
enum Origin {
    Target,
    Limit(usize, bool),
    Margin(Check),
}

/// Looks for the nearest point that meets every target; when there is none, for the nearest
/// point to meeting them.
pub(super) fn solve(problem: &Problem<'_>) -> End {
    let strict = run(problem, problem.start(), Phase::Strict);
    match strict {
        Some(end) if end.settled => end,
        // Begin again from the start: where the first phase wandered tells nothing.
        _ => {
            let mut end = run(problem, problem.start(), Phase::Yielding)
                .unwrap_or_else(|| resting(problem.start()));
            end.turns += strict.map_or(1, |strict| strict.turns);
            end
        }
    }
}

/// The start as an end that has not settled.
fn resting(point: DVector<f64>) -> End {
    End {
        point,
        settled: false,
        limits: Vec::new(),
        margins: Vec::new(),
        optimality: f64::INFINITY,
        turns: 0,
    }
}

#[derive(Clone, Copy, PartialEq)]
enum Phase {
    /// Every target is met.
    Strict,
    /// Targets yield at a price.
    Yielding,
}

/// Turns until settled; nothing when the tangents contradict each other.
fn run(problem: &Problem<'_>, start: DVector<f64>, phase: Phase) -> Option<End> {
    let mut point = start.clone();
    let mut price = 0.0f64;
    let mut last: Option<(DVector<f64>, f64)> = None;
    for turn in 1..=MOST_TURNS {
        let tangents = problem.tangents(&point);
        let (next, constraints, origins) = step(problem, &start, &point, &tangents, phase)?;
        let wanted = next.point.rows(0, point.len()).into_owned();
        for (_, multiplier) in &next.active {
            price = price.max(1.5 * multiplier.abs());
        }
        let move_by = &wanted - &point;
        let settled = match phase {
            Phase::Strict => SETTLED,
            Phase::Yielding => SETTLED_YIELDING,
        };
        if move_by.amax() < settled {
            return Some(end(&start, wanted, &next, &constraints, &origins, turn));
        }
        let share = damping(&move_by, last.as_ref());
        let (tried, share) = shorten(problem, &start, &point, &move_by, share, price, phase);
        point = tried;
        last = Some((move_by, share));
    }
    Some(End {
        turns: MOST_TURNS,
        ..resting(point)
    })
}

/// The nearest point under the tangents at `point`.
fn step(
    problem: &Problem<'_>,
    start: &DVector<f64>,
    point: &DVector<f64>,
    tangents: &Tangents,
    phase: Phase,
) -> Option<(Nearest, Vec<Constraint>, Vec<Origin>)> {
    let count = point.len();
    let slacks = if phase == Phase::Yielding {
        problem.targets.len()
    } else {
        0
    };
    let mut constraints = Vec::new();
    let mut origins = Vec::new();
    let widen = |gradient: &DVector<f64>| gradient.clone().resize_vertically(count + slacks, 0.0);
    // Tangent of value ≥ least, or value = least: gradient · x ≥ least − value + gradient · point.
    let tangent = |value: &Value, least: f64| {
        let normal = widen(&value.gradient);
        (normal, least - value.value + value.gradient.dot(point))
    };
    for (index, (target, pieces)) in problem.targets.iter().zip(&tangents.targets).enumerate() {
        let yielding = |normal: &mut DVector<f64>| {
            if slacks > 0 {
                normal[count + index] = target.quantity.scale() / PRICE.sqrt();
            }
        };
        let mut add = |value: &Value, sign: f64, bound: f64, exact: bool| {
            if bound.is_infinite() {
                return;
            }
            let (mut normal, least) = tangent(value, bound);
            yielding(&mut normal);
            constraints.push(Constraint {
                normal: normal * sign,
                least: least * sign,
                exact,
            });
            origins.push(Origin::Target);
        };
        let inside = inside(target);
        for (value, low, high) in pieces.asked(inside.low, inside.high) {
            if low == high {
                add(value, 1.0, low, true);
            } else {
                add(value, 1.0, low, false);
                add(value, -1.0, high, false);
            }
        }
    }
    for (k, (low, high)) in problem.limits().enumerate() {
        for (sign, bound, upper) in [(1.0, low, false), (-1.0, high, true)] {
            let mut normal = DVector::zeros(count + slacks);
            normal[k] = sign;
            constraints.push(Constraint {
                normal,
                least: sign * bound,
                exact: false,
            });
            origins.push(Origin::Limit(k, upper));
        }
    }
    for (check, value) in &tangents.margins {
        if value.gradient.amax() > 0.0 {
            let (normal, least) = tangent(value, 0.0);
            constraints.push(Constraint {
                normal,
                least,
                exact: false,
            });
            origins.push(Origin::Margin(*check));
        }
    }
    let wide = start.clone().resize_vertically(count + slacks, 0.0);
    let next = nearest(&wide, &constraints).ok()?;
    Some((next, constraints, origins))
}

/// A target as the turns see it: its aim, or a range that is narrower by a little, so that
/// roundoff and the writing of the answer do not put a met target out. The merit must see the same one, or the last turn to
/// its edge would seem to lose.
fn inside(target: &Target<Place>) -> Target<Place> {
    let (low, high) = match target.aim {
        Some(aim) => (aim, aim),
        None => {
            let inset = INSET * target.quantity.tolerance();
            let inset = inset.min(0.25 * (target.high - target.low));
            (target.low + inset, target.high - inset)
        }
    };
    Target {
        low,
        high,
        ..*target
    }
}

/// The share of a move to try first: all of it, unless the moves swing to and fro.
///
/// The turns leave out how targets and margins curve; where the multipliers are large, that makes
/// a move overshoot by a factor −λ, which the last two moves show. A share of 1/(1 − λ) lands on
/// the point between.
fn damping(move_by: &DVector<f64>, last: Option<&(DVector<f64>, f64)>) -> f64 {
    let Some((before, share)) = last else {
        return 1.0;
    };
    let kept = move_by.dot(before) / before.norm_squared();
    let swing = 1.0 + (kept - 1.0) / share;
    if swing < 0.0 {
        1.0 / (1.0 - swing)
    } else {
        1.0
    }
}

/// As much of the step, from `share` of it downwards, as makes the merit fall.
fn shorten(
    problem: &Problem<'_>,
    start: &DVector<f64>,
    point: &DVector<f64>,
    move_by: &DVector<f64>,
    mut share: f64,
    price: f64,
    phase: Phase,
) -> (DVector<f64>, f64) {
    let before = merit(problem, start, point, price, phase);
    for _ in 0..MOST_HALVINGS {
        let tried = point + move_by * share;
        let after = merit(problem, start, &tried, price, phase);
        if after < before || (after - before).abs() <= ROUNDOFF * before.abs() {
            return (tried, share);
        }
        share *= 0.5;
    }
    (point + move_by * share, share)
}

/// Distance and violation in one number.
fn merit(
    problem: &Problem<'_>,
    start: &DVector<f64>,
    point: &DVector<f64>,
    price: f64,
    phase: Phase,
) -> f64 {
    let Some((targets, margins)) = problem.values(point) else {
        return f64::INFINITY;
    };
    let mut merit = 0.5 * (point - start).norm_squared();
    for (target, value) in problem.targets.iter().zip(targets) {
        let miss = inside(target).miss(value).abs();
        merit += match phase {
            Phase::Strict => price * miss,
            Phase::Yielding => 0.5 * PRICE * (miss / target.quantity.scale()).powi(2),
        };
    }
    merit
        + price
            * margins
                .into_iter()
                .map(|margin| (-margin).max(0.0))
                .sum::<f64>()
}

fn end(
    start: &DVector<f64>,
    point: DVector<f64>,
    last: &Nearest,
    constraints: &[Constraint],
    origins: &[Origin],
    turns: usize,
) -> End {
    let greatest = last
        .active
        .iter()
        .map(|(_, multiplier)| multiplier.abs())
        .fold(0.0, f64::max);
    let mut rest = &point - start;
    let mut limits = Vec::new();
    let mut margins = Vec::new();
    for (index, multiplier) in &last.active {
        rest -= constraints[*index].normal.rows(0, point.len()) * *multiplier;
        if multiplier.abs() <= SMALL * greatest {
            continue;
        }
        match origins[*index] {
            Origin::Target => {}
            Origin::Limit(k, upper) => limits.push((k, upper, *multiplier)),
            Origin::Margin(check) => margins.push((check, *multiplier)),
        }
    }
    let optimality = rest.amax();
    End {
        point,
        settled: true,
        limits,
        margins,
        optimality,
        turns,
    }
}
