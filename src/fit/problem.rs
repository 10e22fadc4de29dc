//! The fit as numbers: variables in steps, targets and soundness with their derivatives.

use nalgebra::DVector;

use super::gradient::{Moving, Value, gradients};
use super::{Obstacle, Quantity, Residual, Target, solve::End};
use crate::design::build::explain;
use crate::design::{Design, Dim, bounds};
use crate::mass::{Moments, Order, moments};
use crate::numeric::Scalar;
use crate::numeric::order::sort_few;
use crate::solid::{Check, Head, checks};

/// Dimensions are written to this many millimetres or degrees: finer than any rule, coarse enough to read.
const GRAIN: f64 = 1e-6;
/// Distance kept from every margin of soundness, mm, so that writing to [`GRAIN`] cannot cross it.
const CLEARANCE: f64 = 1e-5;

/// One free dimension.
pub(super) struct Variable {
    pub(super) dim: Dim,
    /// Where it starts, mm or degrees.
    pub(super) start: f64,
    pub(super) low: f64,
    pub(super) high: f64,
    pub(super) step: f64,
}

/// Everything a turn needs at one point.
pub(super) struct Tangents {
    /// In the order of [`Problem::targets`].
    pub(super) targets: Vec<Value>,
    /// Margins of soundness less the clearance.
    pub(super) margins: Vec<(Check, Value)>,
}

/// A design, what may move and what is wanted.
pub(super) struct Problem<'a> {
    pub(super) design: &'a Design,
    pub(super) variables: Vec<Variable>,
    pub(super) targets: Vec<Target>,
}

impl<'a> Problem<'a> {
    /// A free dimension without room between its limits and its bounds stays where it is.
    pub(super) fn new(design: &'a Design, targets: &[Target]) -> Self {
        let variables = design
            .sizes()
            .into_iter()
            .filter_map(|(dim, size)| {
                let range = design.free.get(&dim)?;
                let limits = bounds(dim);
                let low = range.low.number().max(limits.low);
                let high = range.high.number().min(limits.high);
                let start = size.number();
                (low < high).then_some(Variable {
                    dim,
                    start,
                    low,
                    high,
                    step: limits.step,
                })
            })
            .collect();
        Self {
            design,
            variables,
            targets: targets.to_vec(),
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
        let head = Head::lift(self.design, &mut |dim, number| {
            self.position(dim)
                .map_or(number, |k| point[k] * self.variables[k].step)
        });
        let (quantities, margins) = self.evaluate(&head);
        let margins: Vec<f64> = margins
            .into_iter()
            .map(|(_, margin)| margin - CLEARANCE)
            .collect();
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
                number: at * variable.step,
                step: variable.step,
            })
            .collect();
        let mut names: Vec<Check> = Vec::new();
        let mut targets = gradients(self.design, &moving, |head| {
            let (quantities, margins) = self.evaluate(head);
            names = margins.iter().map(|(check, _)| *check).collect();
            let margins = margins.into_iter().map(|(_, margin)| margin - CLEARANCE);
            quantities.into_iter().chain(margins).collect()
        });
        let margins = targets.split_off(self.targets.len());
        Tangents {
            targets,
            margins: names.into_iter().zip(margins).collect(),
        }
    }

    fn evaluate<T: Scalar>(&self, head: &Head<T>) -> (Vec<T>, Vec<(Check, T)>) {
        let moments: Moments<T> = moments(head, Order::default());
        let quantity = |quantity: Quantity| quantity.of(&moments, head.density);
        let quantities = self
            .targets
            .iter()
            .map(|target| quantity(target.quantity))
            .collect();
        let mut margins = Vec::with_capacity(32);
        checks(head, &mut |check, margin| margins.push((check, margin)));
        (quantities, margins)
    }

    fn position(&self, dim: Dim) -> Option<usize> {
        self.variables
            .iter()
            .position(|variable| variable.dim == dim)
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
    pub(super) fn residuals(&self, design: &Design) -> Vec<Residual> {
        let head = Head::lift(design, &mut |_, mm| mm);
        let (values, _) = self.evaluate(&head);
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

    /// Whether two targets ask different things of one quantity.
    pub(super) fn contradicts_itself(&self) -> bool {
        self.targets.iter().any(|a| {
            self.targets
                .iter()
                .any(|b| a.quantity == b.quantity && a.low > b.high)
        })
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
