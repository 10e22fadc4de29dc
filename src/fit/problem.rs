//! The fit as numbers: variables in steps, targets and soundness with their derivatives.

use nalgebra::DVector;

use super::gradient::{Gradient, Moving, Value, gradients};
use super::{Measurable, Obstacle, Residual, Target, Worked, solve::End};
use crate::design::build::explain;
use crate::design::{Design, Dim, bounds};
use crate::numeric::Scalar;
use crate::numeric::order::sort_few;
use crate::solid::{Check, Head, checks};

/// Dimensions are written to this many millimetres or degrees: finer than any rule, coarse enough to read.
const GRAIN: f64 = 1e-6;
/// Distance kept from every margin of soundness, mm, so that writing to [`GRAIN`] cannot cross it.
const CLEARANCE: f64 = 1e-5;

/// One free dimension, with the one of the back that is as it.
pub(super) struct Variable {
    pub(super) dim: Dim,
    pub(super) follower: Option<Dim>,
    /// Where it starts, mm or degrees.
    pub(super) start: f64,
    pub(super) low: f64,
    pub(super) high: f64,
    pub(super) step: f64,
}

/// The quantity of a target at one point: the values of which it is the least.
pub(super) struct Pieces(Vec<Value>);

impl Pieces {
    /// The quantity itself.
    pub(super) fn least(&self) -> f64 {
        let values = self.0.iter().map(|piece| piece.value);
        values.fold(f64::INFINITY, f64::min)
    }

    /// Whether `is` holds of every value.
    pub(super) fn all(&self, is: impl Fn(&Value) -> bool) -> bool {
        self.0.iter().all(is)
    }

    /// What a target from `low` to `high` asks of every value: all must reach `low`, and one must
    /// not pass `high`: the least, or, where any may `come_down` and the least is too much, the one
    /// that comes down to `high` by the shortest way under the tangents.
    pub(super) fn asked(
        &self,
        low: f64,
        high: f64,
        come_down: bool,
    ) -> impl Iterator<Item = (&Value, f64, f64)> {
        let way = |place: usize| {
            let piece = &self.0[place];
            let too_much = piece.value - high;
            let way = if come_down && too_much > 0.0 {
                too_much / piece.gradient.norm()
            } else {
                too_much
            };
            // Where none moves, the least.
            (way, piece.value)
        };
        let shorter = |a: &usize, b: &usize| {
            let (a, b) = (way(*a), way(*b));
            a.0.total_cmp(&b.0).then(a.1.total_cmp(&b.1))
        };
        let nearest = (0..self.0.len()).min_by(shorter);
        let pieces = self.0.iter().enumerate();
        pieces.map(move |(index, piece)| {
            let comes_down = nearest == Some(index);
            (piece, low, if comes_down { high } else { f64::INFINITY })
        })
    }
}

/// Everything a turn needs at one point.
pub(super) struct Tangents {
    /// In the order of [`Problem::targets`].
    pub(super) targets: Vec<Pieces>,
    /// Margins of soundness less the clearance.
    pub(super) margins: Vec<(Check, Value)>,
}

/// What the fit needs to know of a quantity, and its place among [`Quantities`].
#[derive(Clone, Copy, PartialEq)]
pub(super) struct Place {
    index: usize,
    scale: f64,
}

impl Place {
    pub(super) fn scale(self) -> f64 {
        self.scale
    }
}

/// The quantities of the targets, whatever they are: behind this the fit is compiled once for all
/// kinds of them.
trait Quantities {
    /// Gives `found` the values of every quantity, each with the place of the quantity.
    fn numbers(&self, worked: &Worked<f64>, found: &mut dyn FnMut(usize, f64));

    /// The same with derivatives.
    fn gradients(&self, worked: &Worked<Gradient>, found: &mut dyn FnMut(usize, Gradient));
}

impl<Q: Measurable> Quantities for &[Target<Q>] {
    fn numbers(&self, worked: &Worked<f64>, found: &mut dyn FnMut(usize, f64)) {
        measure(self, worked, found);
    }

    fn gradients(&self, worked: &Worked<Gradient>, found: &mut dyn FnMut(usize, Gradient)) {
        measure(self, worked, found);
    }
}

fn measure<Q: Measurable, T: Scalar>(
    targets: &[Target<Q>],
    worked: &Worked<T>,
    found: &mut dyn FnMut(usize, T),
) {
    for (index, target) in targets.iter().enumerate() {
        let quantity = target.quantity;
        quantity.measure(worked, &mut |value| found(index, value));
    }
}

/// A design, what may move and what is wanted.
pub(super) struct Problem<'a> {
    pub(super) design: &'a Design,
    pub(super) variables: Vec<Variable>,
    pub(super) targets: Vec<Target<Place>>,
    quantities: Box<dyn Quantities + 'a>,
}

/// Targets and margins on one head.
struct Found<T> {
    /// The values of all targets' quantities, one after the other.
    values: Vec<T>,
    /// How many of them belong to each target.
    counts: Vec<usize>,
    margins: Vec<(Check, T)>,
}

impl<T: Scalar> Found<T> {
    /// The values of `count` quantities as `measure` gives them, and the margins of `head`.
    fn of(count: usize, head: &Head<T>, measure: impl FnOnce(&mut dyn FnMut(usize, T))) -> Self {
        let mut values = Vec::with_capacity(count);
        let mut counts = vec![0; count];
        measure(&mut |index, value| {
            values.push(value);
            counts[index] += 1;
        });
        let mut margins = Vec::with_capacity(32);
        checks(head, &mut |check, margin| margins.push((check, margin)));
        Self {
            values,
            counts,
            margins,
        }
    }

    /// The values of each target's quantity.
    fn pieces(&self) -> impl Iterator<Item = &[T]> {
        let mut rest = self.values.as_slice();
        self.counts.iter().map(move |count| {
            let (pieces, others) = rest.split_at(*count);
            rest = others;
            pieces
        })
    }
}

impl Found<f64> {
    /// Each target's quantity.
    fn quantities(&self) -> Vec<f64> {
        let least = |pieces: &[f64]| pieces.iter().copied().fold(f64::INFINITY, f64::min);
        self.pieces().map(least).collect()
    }
}

impl<'a> Problem<'a> {
    /// A free dimension without room between its limits and its bounds stays where it is.
    pub(super) fn new<Q: Measurable>(design: &'a Design, targets: &'a [Target<Q>]) -> Self {
        let variables = design
            .sizes()
            .into_iter()
            .filter_map(|(dim, size)| {
                if design.leader(dim) != dim {
                    return None;
                }
                let range = design.free.get(&dim)?;
                let limits = bounds(dim);
                let low = range.low.number().max(limits.low);
                let high = range.high.number().min(limits.high);
                let start = size.number();
                (low < high).then_some(Variable {
                    dim,
                    follower: design.follower(dim),
                    start,
                    low,
                    high,
                    step: limits.step,
                })
            })
            .collect();
        let places = targets.iter().enumerate().map(|(index, target)| Target {
            quantity: Place {
                index,
                scale: target.quantity.scale(),
            },
            low: target.low,
            high: target.high,
            aim: target.aim,
        });
        Self {
            design,
            variables,
            targets: places.collect(),
            quantities: Box::new(targets),
        }
    }

    /// The start, in steps.
    pub(super) fn start(&self) -> DVector<f64> {
        DVector::from_iterator(
            self.variables.len(),
            self.variables
                .iter()
                .map(|variable| variable.start / variable.step),
        )
    }

    /// Lower and upper limit of every variable, in steps.
    pub(super) fn limits(&self) -> impl Iterator<Item = (f64, f64)> + '_ {
        self.variables
            .iter()
            .map(|v| (v.low / v.step, v.high / v.step))
    }

    /// Targets and margins at `point`, without derivatives; nothing when the head is so far from
    /// sound that it has no mass.
    pub(super) fn values(&self, point: &DVector<f64>) -> Option<(Vec<f64>, Vec<f64>)> {
        let worked = Worked::lift(self.design, &mut |dim, number| {
            self.position(dim)
                .map_or(number, |k| point[k] * self.variables[k].step)
        });
        let found = self.found(&worked);
        let quantities = found.quantities();
        let margins = found.margins.into_iter();
        let margins: Vec<f64> = margins.map(|(_, margin)| margin - CLEARANCE).collect();
        let all_finite = quantities
            .iter()
            .chain(&margins)
            .all(|value| value.is_finite());
        all_finite.then_some((quantities, margins))
    }

    /// Targets and margins at `point` with their gradients.
    pub(super) fn tangents(&self, point: &DVector<f64>) -> Tangents {
        let moving: Vec<Moving> = self
            .variables
            .iter()
            .zip(point)
            .map(|(variable, at)| Moving {
                dim: variable.dim,
                follower: variable.follower,
                number: at * variable.step,
                step: variable.step,
            })
            .collect();
        let mut names: Vec<Check> = Vec::new();
        let mut counts: Vec<usize> = Vec::new();
        let values = gradients(self.design, &moving, |worked| {
            let found = Found::of(self.targets.len(), &worked.head, |found| {
                self.quantities.gradients(&worked, found);
            });
            names = found.margins.iter().map(|(check, _)| *check).collect();
            counts = found.counts;
            let margins = found.margins.into_iter();
            let margins = margins.map(|(_, margin)| margin - CLEARANCE);
            found.values.into_iter().chain(margins).collect()
        });
        let mut values = values.into_iter();
        let targets = counts.iter();
        let targets = targets.map(|count| Pieces(values.by_ref().take(*count).collect()));
        Tangents {
            targets: targets.collect(),
            margins: names.into_iter().zip(values).collect(),
        }
    }

    fn found(&self, worked: &Worked<f64>) -> Found<f64> {
        Found::of(self.targets.len(), &worked.head, |found| {
            self.quantities.numbers(worked, found);
        })
    }

    /// The variable that `dim` moves with.
    pub(super) fn position(&self, dim: Dim) -> Option<usize> {
        self.variables
            .iter()
            .position(|variable| variable.dim == dim || variable.follower == Some(dim))
    }

    /// The design at `point`, its dimensions written to the grain and inside their limits; what
    /// has not moved stays exactly what it was.
    pub(super) fn design_at(&self, point: &DVector<f64>) -> Design {
        let mut design = self.design.clone();
        design.visit_sizes(&mut |dim, size| {
            let Some(k) = self.position(dim) else { return };
            let variable = &self.variables[k];
            let number = point[k] * variable.step;
            if (number - variable.start).abs() > GRAIN {
                let written = ((number / GRAIN).round() * GRAIN).clamp(variable.low, variable.high);
                *size = size.with_number(written);
            }
        });
        design
    }

    /// The targets with what `design` gives.
    pub(super) fn residuals(&self, design: &Design) -> Vec<Residual<Place>> {
        let worked = Worked::lift(design, &mut |_, mm| mm);
        let values = self.found(&worked).quantities();
        self.targets
            .iter()
            .zip(values)
            .map(|(target, value)| Residual {
                target: *target,
                value,
                miss: target.miss(value),
            })
            .collect()
    }

    /// What keeps the end where it is, the greatest multiplier first.
    pub(super) fn obstacles(&self, end: &End) -> Vec<Obstacle> {
        let head = Head::lift(&self.design_at(&end.point), &mut |_, mm| mm);
        let mut found: Vec<(f64, Obstacle)> = Vec::new();
        for (k, upper, multiplier) in &end.limits {
            let variable = &self.variables[*k];
            let mm = if *upper { variable.high } else { variable.low };
            found.push((
                *multiplier,
                Obstacle::Limit {
                    dim: variable.dim,
                    upper: *upper,
                    mm,
                },
            ));
        }
        for (check, multiplier) in &end.margins {
            found.push((*multiplier, Obstacle::Soundness(explain(*check, &head))));
        }
        sort_few(&mut found, |(multiplier, _)| -multiplier);
        found.into_iter().map(|(_, obstacle)| obstacle).collect()
    }
}
