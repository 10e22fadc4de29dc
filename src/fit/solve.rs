//! The turns of the fit.

use nalgebra::DVector;

use super::Effort;
use super::problem::Problem;
use crate::numeric::least_distance::Nearest;
use crate::numeric::order::sort_few;
use crate::solid::Check;
use rows::{Memory, Origin, PRICE, Phase, Rows, inside};

mod rows;

/// Turns before a phase is given up.
const MOST_TURNS: usize = 60;
/// Halvings of a step before it is taken as it is.
const MOST_HALVINGS: usize = 12;
/// A turn that moves no dimension by more than this many steps is the last.
const SETTLED: f64 = 1e-8;
/// A turn of the second phase that moves no dimension by more than this many steps is the last.
const SETTLED_YIELDING: f64 = 1e-5;
/// Relative change of the merit that is roundoff.
const ROUNDOFF: f64 = 1e-12;
/// A turn that can take no more than this share of its step has met what its tangents do not show.
const STUCK: f64 = 0.1;
/// A turn of the second phase that is stuck and gains no more than this share of the merit is the
/// last.
const STALLED: f64 = 1e-9;
/// Points spread over the limits that are looked at before the targets are given up, and how many
/// of them, those that miss least, a strict phase begins from.
const SPREAD: u32 = 64;
const TRIED: usize = 4;
/// The bases of the dimensions of these points.
const BASES: [u32; 12] = [2, 3, 5, 7, 11, 13, 17, 19, 23, 29, 31, 37];
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

/// Looks for the nearest point that meets every target; when there is none, for the nearest
/// point to meeting them.
///
/// The tangents at the start may contradict each other although some point meets every target,
/// and the nearest point to meeting them may be so only among its neighbours. So a strict phase
/// is tried again from where the yielding one ends, and all from the middle of the limits and from
/// the other side of it; last a strict one from points spread over the limits. Only then the
/// targets are said to be out of reach.
pub(super) fn solve(problem: &Problem<'_>, effort: Effort) -> End {
    let mut search = Search {
        problem,
        turns: 0,
        nearest: None,
    };
    let met = search.met(effort);
    let end = met.or(search.nearest.map(|(_, end)| end));
    let end = end.unwrap_or_else(|| resting(problem.start()));
    End {
        turns: search.turns,
        ..end
    }
}

/// Phases from one start after the other.
struct Search<'a> {
    problem: &'a Problem<'a>,
    turns: usize,
    /// The nearest sound end that misses a target, with what it costs.
    nearest: Option<(f64, End)>,
}

impl Search<'_> {
    /// An end that meets every target.
    fn met(&mut self, effort: Effort) -> Option<End> {
        let problem = self.problem;
        if effort == Effort::Quick {
            let strict = self.strict(&problem.start());
            return strict.or_else(|| {
                let yielding = self.run(&problem.start(), Phase::Yielding)?;
                let again = self.strict(&yielding.point);
                self.keep(yielding);
                again
            });
        }
        let middle = middle(problem);
        let mut given_up = None;
        if let Some(end) = self.from(&problem.start(), &mut given_up) {
            return Some(end);
        }
        // Across the middle from where the targets were first given up.
        let opposite = given_up.map(|point| &middle * 2.0 - point);
        for point in [Some(middle), opposite].into_iter().flatten() {
            let start = towards(problem, &point);
            let end = start.and_then(|start| self.from(&start, &mut None));
            if end.is_some() {
                return end;
            }
        }
        let promising = promising(problem).into_iter();
        promising.take(TRIED).find_map(|start| self.strict(&start))
    }

    /// An end that meets every target, from `start` by whatever way; where a yielding phase was
    /// needed, `given_up` is where it ended.
    fn from(&mut self, start: &DVector<f64>, given_up: &mut Option<DVector<f64>>) -> Option<End> {
        if let Some(end) = self.strict(start) {
            return Some(end);
        }
        // Begins again: where the strict phase wandered tells nothing.
        let yielding = self.run(start, Phase::Yielding)?;
        *given_up = Some(yielding.point.clone());
        if let Some(end) = self.strict(&yielding.point) {
            return Some(end);
        }
        let restored = self.run(&yielding.point, Phase::Restoring);
        self.keep(yielding);
        self.strict(&restored?.point)
    }

    /// The end of a strict phase, if it meets every target.
    fn strict(&mut self, start: &DVector<f64>) -> Option<End> {
        let end = self.run(start, Phase::Strict)?;
        meets_all(self.problem, &end.point).then_some(end)
    }

    fn run(&mut self, start: &DVector<f64>, phase: Phase) -> Option<End> {
        let end = run(self.problem, start, phase);
        self.turns += end.as_ref().map_or(1, |end| end.turns);
        end
    }

    /// Keeps the end of a yielding phase if it is sound and the best so far.
    fn keep(&mut self, end: End) {
        let problem = self.problem;
        let start = problem.start();
        let cost = merit(problem, &start, &end.point, 0.0, Phase::Yielding);
        let nearer = |(least, kept): &(f64, End)| (end.settled, -cost) > (kept.settled, -least);
        let sound = problem.design_at(&end.point).build().is_ok();
        if sound && self.nearest.as_ref().is_none_or(nearer) {
            self.nearest = Some((cost, end));
        }
    }
}

/// Points spread over the limits, those that miss least first.
fn promising(problem: &Problem<'_>) -> Vec<DVector<f64>> {
    let mut points: Vec<(f64, DVector<f64>)> = (1..=SPREAD)
        .map(|number| {
            let point = spread(problem, number);
            let missed = merit(problem, &point, &point, PRICE, Phase::Yielding);
            (missed, point)
        })
        .collect();
    sort_few(&mut points, |(missed, _)| *missed);
    points.into_iter().map(|(_, point)| point).collect()
}

/// The point of `number` of those spread evenly over the limits (J. H. Halton, On the efficiency
/// of certain quasi-random sequences of points, Numer. Math. 2 (1960) 84–90; from memory).
fn spread(problem: &Problem<'_>, number: u32) -> DVector<f64> {
    let share = |place: usize| {
        let base = BASES[place % BASES.len()];
        let (mut rest, mut unit, mut share) = (number, 1.0, 0.0);
        while rest > 0 {
            unit /= f64::from(base);
            share += unit * f64::from(rest % base);
            rest /= base;
        }
        share
    };
    let limits = problem.limits().enumerate();
    let points = limits.map(|(place, (low, high))| low + share(place) * (high - low));
    DVector::from_iterator(problem.variables.len(), points)
}

/// The middle of the limits.
fn middle(problem: &Problem<'_>) -> DVector<f64> {
    let middles = problem.limits().map(|(low, high)| 0.5 * (low + high));
    DVector::from_iterator(problem.variables.len(), middles)
}

/// `point`, or as far towards it from the start as there is a head; nothing when that is nowhere.
fn towards(problem: &Problem<'_>, point: &DVector<f64>) -> Option<DVector<f64>> {
    let start = problem.start();
    let way = point - &start;
    let shares = [1.0, 0.5, 0.25, 0.125];
    let mut points = shares.into_iter().map(|share| &start + &way * share);
    points.find(|point| problem.values(point).is_some())
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

/// Turns until settled; nothing when the tangents contradict each other or are no numbers.
fn run(problem: &Problem<'_>, from: &DVector<f64>, phase: Phase) -> Option<End> {
    let mut start = problem.start();
    let mut point = from.clone();
    let mut price = 0.0f64;
    let mut memory = Memory::default();
    let mut stuck = false;
    let mut last: Option<(DVector<f64>, f64)> = None;
    for turn in 1..=MOST_TURNS {
        let rows = Rows::new(problem, &point, phase).or_else(|| {
            point = written(problem, &point);
            Rows::new(problem, &point, phase)
        })?;
        if phase == Phase::Restoring {
            start.clone_from(&point);
        }
        stuck |= last.as_ref().is_some_and(|(_, share)| *share < STUCK);
        let along = stuck.then(|| memory.added_to(&rows, &point)).flatten();
        let along = along.and_then(|rows| Some((rows.nearest(&start)?, rows)));
        memory.keep(&rows);
        let (next, rows) = match along {
            Some(found) => found,
            None => rows.nearest_or_eased(&start, &point, phase)?,
        };
        let mut wanted = next.point.rows(0, point.len()).into_owned();
        // Roundoff off a limit is enough to turn a slope that has a kink there.
        for (at, (low, high)) in wanted.iter_mut().zip(problem.limits()) {
            if *at < low + SETTLED {
                *at = low;
            } else if *at > high - SETTLED {
                *at = high;
            }
        }
        for (_, multiplier) in &next.active {
            price = price.max(1.5 * multiplier.abs());
        }
        let move_by = &wanted - &point;
        let settled = match phase {
            Phase::Strict => SETTLED,
            Phase::Yielding | Phase::Restoring => SETTLED_YIELDING,
        };
        if move_by.amax() < settled {
            return Some(end(&start, wanted, &next, &rows, turn));
        }
        // Near a kink the turns may tremble for good: what meets every target is an answer, and
        // its optimality says how good.
        if turn == MOST_TURNS && phase == Phase::Strict && meets_all(problem, &point) {
            return Some(end(&start, point, &next, &rows, turn));
        }
        let share = damping(&move_by, last.as_ref());
        let (tried, share, gain) = shorten(problem, &start, &point, &move_by, share, price, phase);
        if phase != Phase::Strict && stuck && gain < STALLED {
            return Some(end(&start, point, &next, &rows, turn));
        }
        point = tried;
        last = Some((move_by, share));
    }
    Some(End {
        turns: MOST_TURNS,
        ..resting(point)
    })
}

/// `point` as a head at it is written: a hair off a right angle, where slopes may be no numbers,
/// becomes one.
fn written(problem: &Problem<'_>, point: &DVector<f64>) -> DVector<f64> {
    let design = problem.design_at(point);
    let numbers = problem.variables.iter().map(|variable| {
        let size = design.size(variable.dim);
        size.map_or(variable.start, |size| size.number()) / variable.step
    });
    DVector::from_iterator(point.len(), numbers)
}

/// Whether the head at `point`, as it is written, is sound and meets every target.
fn meets_all(problem: &Problem<'_>, point: &DVector<f64>) -> bool {
    let design = problem.design_at(point);
    let residuals = problem.residuals(&design);
    design.build().is_ok() && residuals.iter().all(|residual| residual.miss == 0.0)
}

/// The share of a move to try first: all of it, unless the moves swing to and fro.
///
/// The turns leave out how targets and margins curve; where the multipliers are large, that makes
/// a move overshoot by a factor −λ, which the last two moves show. A share of 1/(1 − λ) lands on
/// the point between.
fn damping(move_by: &DVector<f64>, last: Option<&(DVector<f64>, f64)>) -> f64 {
    let Some((before, share)) = last.filter(|(_, share)| *share >= STUCK) else {
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

/// As much of the step, from `share` of it downwards, as makes the merit fall; that share, and the
/// share by which the merit falls.
fn shorten(
    problem: &Problem<'_>,
    start: &DVector<f64>,
    point: &DVector<f64>,
    move_by: &DVector<f64>,
    mut share: f64,
    price: f64,
    phase: Phase,
) -> (DVector<f64>, f64, f64) {
    let before = merit(problem, start, point, price, phase);
    for _ in 0..MOST_HALVINGS {
        let tried = point + move_by * share;
        let after = merit(problem, start, &tried, price, phase);
        if after < before || (after - before).abs() <= ROUNDOFF * before.abs() {
            return (tried, share, (before - after) / before.abs());
        }
        share *= 0.5;
    }
    (point + move_by * share, share, 0.0)
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
            Phase::Yielding | Phase::Restoring => {
                0.5 * PRICE * (miss / target.quantity.scale()).powi(2)
            }
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
    rows: &Rows,
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
        rest -= rows.constraints[*index].normal.rows(0, point.len()) * *multiplier;
        if multiplier.abs() <= SMALL * greatest {
            continue;
        }
        match rows.origins[*index] {
            Origin::Target(..) => {}
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
