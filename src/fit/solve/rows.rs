//! What one turn of the fit asks for: tangents and limits as a polyhedron.

use std::collections::VecDeque;

use nalgebra::DVector;

use crate::fit::Target;
use crate::fit::gradient::Value;
use crate::fit::problem::{Place, Problem};
use crate::numeric::least_distance::{Constraint, Nearest, nearest};
use crate::solid::Check;

/// Price of missing a target by its scale, against one step of one dimension squared, in the
/// second phase: high enough that a gram is not missed to save a step, low enough that its
/// multipliers leave f64 room to settle.
pub(super) const PRICE: f64 = 1e4;
/// How far inside a range the turns stay, as a share of the quantity's scale: 1 mg and 50 nm.
/// Twelve dimensions, each off by half a grain of a nanometre, change a heavy head by less.
const INSET: f64 = 1e-4;
/// This share of a bound counts as scale too: on a head beyond all hammers a nanometre does more.
const SHARE: f64 = 2e-4;
/// A margin that changes by less than this per step, mm, is one that no free dimension changes:
/// what is left is roundoff, and would be taken for a way to mend it.
const FLAT: f64 = 1e-9;
/// Turns whose tangents are remembered: from one piece to the other and back.
const REMEMBERED: usize = 3;
/// Gradients that differ by no more than this share are of one piece.
const ALIKE: f64 = 1e-2;

/// What the turns look for.
#[derive(Clone, Copy, PartialEq)]
pub(super) enum Phase {
    /// Every target is met.
    Strict,
    /// Targets yield at a price.
    Yielding,
    /// The same, counting the distance of every turn from where it begins: the targets are come
    /// nearer to whatever the way.
    Restoring,
}

/// What a constraint of a turn stands for.
#[derive(Clone, Copy, PartialEq)]
pub(super) enum Origin {
    /// Which, whether its upper side.
    Target(usize, bool),
    Limit(usize, bool),
    Margin(Check),
}

/// What a turn asks for, every tangent and limit with what it stands for.
#[derive(Clone)]
pub(super) struct Rows {
    pub(super) constraints: Vec<Constraint>,
    pub(super) origins: Vec<Origin>,
    /// What targets yield by, beside the dimensions.
    slacks: usize,
}

impl Rows {
    /// Under the tangents at `point`; nothing when a slope is no number.
    pub(super) fn new(problem: &Problem<'_>, point: &DVector<f64>, phase: Phase) -> Option<Self> {
        let tangents = problem.tangents(point);
        let count = point.len();
        let slacks = match phase {
            Phase::Strict => 0,
            Phase::Yielding | Phase::Restoring => problem.targets.len(),
        };
        let mut rows = Self {
            constraints: Vec::new(),
            origins: Vec::new(),
            slacks,
        };
        // Tangent of value ≥ least, or value = least: gradient · x ≥ least − value + gradient · point.
        let tangent = |value: &Value, least: f64| {
            let normal = value.gradient.clone();
            let normal = normal.resize_vertically(count + slacks, 0.0);
            (normal, least - value.value + value.gradient.dot(point))
        };
        for (index, (target, pieces)) in problem.targets.iter().zip(&tangents.targets).enumerate() {
            let mut add = |value: &Value, sign: f64, bound: f64, exact: bool| {
                if bound.is_infinite() {
                    return;
                }
                let (mut normal, least) = tangent(value, bound);
                if slacks > 0 {
                    normal[count + index] = target.quantity.scale() / PRICE.sqrt();
                }
                let origin = Origin::Target(index, sign < 0.0);
                rows.add(origin, normal * sign, least * sign, exact);
            };
            let inside = inside(target);
            // What nothing free changes is met or not: roundoff must not make it an obstacle.
            let flat = |value: &Value| value.gradient.amax() <= FLAT * target.quantity.scale();
            if pieces.all(flat) && target.miss(pieces.least()) == 0.0 {
                continue;
            }
            for (value, low, high) in pieces.asked(inside.low, inside.high, slacks == 0) {
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
                rows.add(Origin::Limit(k, upper), normal, sign * bound, false);
            }
        }
        for (check, value) in &tangents.margins {
            if value.gradient.amax() > FLAT {
                let (normal, least) = tangent(value, 0.0);
                rows.add(Origin::Margin(*check), normal, least, false);
            }
        }
        let mut numbers = rows.constraints.iter();
        let all_finite = numbers.all(|row| row.normal.iter().all(|slope| slope.is_finite()));
        all_finite.then_some(rows)
    }

    fn add(&mut self, origin: Origin, normal: DVector<f64>, least: f64, exact: bool) {
        self.constraints.push(Constraint {
            normal,
            least,
            exact,
        });
        self.origins.push(origin);
    }

    /// What stands for `origin`.
    fn of(&self, origin: Origin) -> impl Iterator<Item = &Constraint> {
        let pairs = self.constraints.iter().zip(&self.origins);
        pairs
            .filter(move |(_, of)| **of == origin)
            .map(|(row, _)| row)
    }

    /// `point` without yielding.
    fn widen(&self, point: &DVector<f64>) -> DVector<f64> {
        let count = point.len();
        point.clone().resize_vertically(count + self.slacks, 0.0)
    }

    /// The point nearest to `start`; where targets yield and there is none even so, the one that
    /// keeps every margin as it is at `point`: what stands nearer to a margin than the clearance
    /// may not be able to leave it.
    pub(super) fn nearest_or_eased(
        mut self,
        start: &DVector<f64>,
        point: &DVector<f64>,
        phase: Phase,
    ) -> Option<(Nearest, Self)> {
        if let Some(next) = self.nearest(start) {
            return Some((next, self));
        }
        if phase == Phase::Strict {
            return None;
        }
        let wide = self.widen(point);
        for (row, origin) in self.constraints.iter_mut().zip(&self.origins) {
            if let Origin::Margin(_) = origin {
                row.least = row.least.min(row.normal.dot(&wide));
            }
        }
        Some((self.nearest(start)?, self))
    }

    /// The point nearest to `start`.
    pub(super) fn nearest(&self, start: &DVector<f64>) -> Option<Nearest> {
        nearest(&self.widen(start), &self.constraints).ok()
    }
}

/// What the turns before asked for.
///
/// A margin may be the least of several, and a quantity may have a kink: the tangents show the
/// piece in force alone. Where two pieces meet, turns would go to and fro between them in ever
/// shorter steps; with the tangents of the piece left behind they go along both (the bundle of
/// C. Lemaréchal, An extension of Davidon methods to nondifferentiable problems, Math.
/// Programming Study 3 (1975) 95–109, kept short; from memory).
#[derive(Default)]
pub(super) struct Memory(VecDeque<Rows>);

impl Memory {
    pub(super) fn keep(&mut self, rows: &Rows) {
        if self.0.len() == REMEMBERED {
            self.0.pop_back();
        }
        self.0.push_front(rows.clone());
    }

    /// `rows` at `point` with what it lacks of the pieces left behind; nothing when it lacks none.
    ///
    /// Of an equation the other piece is asked to stay on the side where it lies.
    pub(super) fn added_to(&self, rows: &Rows, point: &DVector<f64>) -> Option<Rows> {
        let wide = rows.widen(point);
        let excess = |row: &Constraint| row.normal.dot(&wide) - row.least;
        let mut all = rows.clone();
        for before in &self.0 {
            for (row, origin) in before.constraints.iter().zip(&before.origins) {
                let alike = |other: &Constraint| {
                    let apart = |sign: f64| (&other.normal * sign - &row.normal).norm();
                    apart(1.0).min(apart(-1.0)) <= ALIKE * row.normal.norm()
                };
                if all.of(*origin).any(alike) {
                    continue;
                }
                let turned = row.exact
                    && all
                        .of(*origin)
                        .next()
                        .is_some_and(|now| excess(row) < excess(now));
                let sign = if turned { -1.0 } else { 1.0 };
                all.add(*origin, &row.normal * sign, row.least * sign, false);
            }
        }
        (all.origins.len() > rows.origins.len()).then_some(all)
    }
}

/// A target as the turns see it: its aim, or its range narrower by a little, so that roundoff, and
/// writing every dimension to its grain, does not put a met target out. The merit must see the same
/// one, or the last turn to its edge would seem to lose.
pub(super) fn inside(target: &Target<Place>) -> Target<Place> {
    let (low, high) = match target.aim {
        Some(aim) => (aim, aim),
        None => {
            let most = 0.25 * (target.high - target.low);
            let inset = |bound: f64| {
                if bound.is_infinite() {
                    return 0.0;
                }
                let inset = INSET * (target.quantity.scale() + SHARE * bound.abs());
                inset.min(most)
            };
            (
                target.low + inset(target.low),
                target.high - inset(target.high),
            )
        }
    };
    Target {
        low,
        high,
        ..*target
    }
}
