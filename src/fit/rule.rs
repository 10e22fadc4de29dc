//! A design's free dimensions on the divisions of a rule, chosen together.
//!
//! Rounding every dimension to the nearest division leaves the weight wherever the roundings add
//! up to; rounding some down and some up can leave almost nothing of it.
//!
//! # Method
//! Every free dimension takes the division below or above. Where no more than
//! [`MOST_TRIED_ALL`] have the choice all roundings are weighed, which is exact. Beyond, branch and bound over
//! the tangents of targets and margins gives the few that promise best, these are weighed, and
//! the tangents are taken again at the best of them, as long as that helps and is needed:
//! divisions are coarse beside what is sought, so that tangents at the start alone would miss by
//! the curvature. The work is bounded, and the answer never worse than rounding all to the nearest
//! where that is sound.

use nalgebra::DVector;

use super::branch::{Choices, Row, best};
use super::gradient::Value;
use super::problem::Problem;
use super::{Measurable, Residual, Target, changed, residuals};
use crate::design::{Design, DesignError, Dim, Quantity};
use crate::units::{Angle, Measure, ROUND_UP_SLACK_MM, Rule};

/// The division of dimensions that are angles.
pub const ANGLE_DIVISION: Angle = Angle::degrees(0.5);

/// With as many dimensions off the rule all roundings are weighed: 2^12 = 4096 heads.
const MOST_TRIED_ALL: usize = 12;
/// Heads weighed for one set of tangents.
const MOST_PROMISING: usize = 256;
/// Branches entered for one set of tangents.
const MOST_BRANCHES: usize = 1 << 18;
/// Sets of tangents.
const MOST_ROUNDS: usize = 6;
/// With as little missed no more tangents are taken: 0.1 g, or 0.005 mm, which no scale and no
/// rule in a shop shows.
const GOOD: f64 = 1e-4;
/// How far outside its limits a division still is on the limit, mm or degrees: roundoff of inches.
const ON_LIMIT: f64 = 1e-9;
/// What moving by one division costs against missing a target by its scale, both squared: so
/// little that it only decides between roundings that miss alike (within a few milligrams).
const NEARNESS: f64 = 1e-9;
/// A margin missed under the tangents by this, mm, costs as much as a target missed by its scale.
const MARGIN_SCALE: f64 = 0.01;
/// A margin below this, mm, need not go to the door: it is clearly missed.
const CLEARLY_MISSED: f64 = -1e-4;

/// A design with its free dimensions on the rule.
#[derive(Clone, Debug, PartialEq)]
pub struct Rounded<Q = Quantity> {
    /// The design: sound, its free dimensions in the notation of the rule.
    pub design: Design,
    /// Every target with what the rounded design gives; [`Residual::left_over`] is what the
    /// rounding leaves.
    pub residuals: Vec<Residual<Q>>,
    /// The dimensions whose value or notation differs.
    pub changed: Vec<Dim>,
    /// Whether all roundings were tried, so that no better one exists.
    pub exact: bool,
}

/// Why a design cannot be put on a rule.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum RuleError {
    /// The design itself is not sound.
    #[error("{}", .0.iter().map(ToString::to_string).collect::<Vec<_>>().join(" "))]
    Unsound(Vec<DesignError>),
    /// A free dimension whose limits lie between two divisions.
    #[error(
        "No division of {rule} lies between the limits of {}, {low} and {high}. Widen them or lock it.",
        .dim.words()
    )]
    NoDivision {
        /// The dimension.
        dim: Dim,
        /// Its lower limit.
        low: Measure,
        /// Its upper limit.
        high: Measure,
        /// The division.
        rule: Measure,
    },
    /// All roundings were tried.
    #[error("No head with its free sizes on the rule of {0} can be made. Take a finer rule.")]
    NoneSound(Rule),
    /// There are too many to try them all, and the most promising are not sound.
    #[error(
        "No head with its free sizes on the rule of {0} was found that can be made. Lock some sizes or take a finer rule."
    )]
    NoneFound(Rule),
}

/// Rounds every free dimension of `design` down or up to a division of `rule` so that the sum of
/// (what is left over of a target / its scale)² is least; the scales are 10 g and 0.5 mm.
/// Of roundings that are alike in that the nearer is taken.
///
/// Angles go to half degrees. A dimension that lies on a division stays there, as does one
/// whose limits leave it no room; one outside its limits is brought to them first.
///
/// # Accuracy
/// With up to twelve dimensions off the rule the least is exact, to 4e-8 of the sum for the sake
/// of nearness; with more it is what a bounded search finds, and [`Rounded::exact`] says so.
///
/// # Errors
/// Why the design is not sound, or that none of its roundings is.
///
/// # Examples
/// ```
/// use headwright::design::starter;
/// use headwright::design::Quantity;
/// use headwright::fit::{Target, fit_to, to_rule};
/// use headwright::units::Rule;
///
/// let kilogram = Target { quantity: Quantity::Mass, low: 0.99, high: 1.01, aim: Some(1.0) };
/// let fitted = fit_to(&starter("rounding").expect("a starter"), &[kilogram])?;
/// let rounded = to_rule(&fitted.design, &[kilogram], Rule::MILLIMETRE).expect("sound");
/// assert!(rounded.residuals[0].left_over().abs() < 0.01);
/// # Ok::<(), Vec<headwright::design::DesignError>>(())
/// ```
pub fn to_rule<Q: Measurable>(
    design: &Design,
    targets: &[Target<Q>],
    rule: Rule,
) -> Result<Rounded<Q>, RuleError> {
    design.build().map_err(RuleError::Unsound)?;
    let problem = Problem::new(design, targets);
    let mut search = Search::new(&problem, rule)?;
    let exact = search.open.len() <= MOST_TRIED_ALL;
    if exact {
        for bits in 0..1usize << search.open.len() {
            let ways = (0..search.open.len()).map(|place| bits >> place & 1);
            search.try_on(search.all(ways));
        }
    } else {
        search.promising();
    }
    let Some((_, choices)) = search.best else {
        return Err(if exact {
            RuleError::NoneSound(rule)
        } else {
            RuleError::NoneFound(rule)
        });
    };
    let rounded = written(&problem, &search.sizes, &choices);
    Ok(Rounded {
        residuals: residuals(&problem, targets, &rounded),
        changed: changed(design, &rounded),
        design: rounded,
        exact,
    })
}

/// A free dimension and its roundings; twice the same where it lies on the rule or where only
/// one is inside its limits.
struct RoundedSize {
    start: f64,
    division: f64,
    ways: [Measure; 2],
}

impl RoundedSize {
    /// How far a way lies from the start, in divisions.
    fn moved(&self, way: usize) -> f64 {
        (self.ways[way].number() - self.start) / self.division
    }
}

struct Search<'a> {
    problem: &'a Problem<'a>,
    sizes: Vec<RoundedSize>,
    /// The places of the sizes that have two roundings.
    open: Vec<usize>,
    /// The best sound rounding so far with what it costs.
    best: Option<(f64, Choices)>,
}

impl<'a> Search<'a> {
    fn new(problem: &'a Problem<'a>, rule: Rule) -> Result<Self, RuleError> {
        let sizes = problem.variables.iter().map(|variable| {
            let division = if variable.dim.is_angle() {
                Measure::Angle(ANGLE_DIVISION)
            } else {
                Measure::Length(rule.division())
            };
            let step = division.number();
            let start = variable.start.clamp(variable.low, variable.high);
            let nearest = (start / step).round();
            let on_rule = (start - nearest * step).abs() <= ROUND_UP_SLACK_MM;
            let ways = if on_rule {
                [nearest; 2]
            } else {
                [(start / step).floor(), (start / step).ceil()]
            };
            let inside = ways.map(|count| {
                // The number that its own text has: 0.3 mm, not the sum of three tenths, so that a
                // saved design opens as the same. Nothing is added to make a zero without a sign.
                let number = division.with_number(count * step + 0.0);
                let text = number.to_string().parse::<Measure>();
                let number = text.unwrap_or(number).number();
                let limited = number.clamp(variable.low, variable.high);
                let on_limit = (limited - number).abs() <= ON_LIMIT;
                on_limit.then(|| division.with_number(limited))
            });
            let ways = match inside {
                [Some(down), Some(up)] => [down, up],
                [Some(only), None] | [None, Some(only)] => [only, only],
                [None, None] => {
                    let range = problem.design.free.get(&variable.dim);
                    return Err(RuleError::NoDivision {
                        dim: variable.dim,
                        low: range
                            .map_or(division, |range| range.low)
                            .with_number(variable.low),
                        high: range
                            .map_or(division, |range| range.high)
                            .with_number(variable.high),
                        rule: division,
                    });
                }
            };
            Ok(RoundedSize {
                start,
                division: step,
                ways,
            })
        });
        let sizes: Vec<RoundedSize> = sizes.collect::<Result<_, _>>()?;
        let open = sizes.iter().enumerate();
        let open = open.filter(|(_, size)| size.ways[0] != size.ways[1]);
        Ok(Self {
            problem,
            open: open.map(|(k, _)| k).collect(),
            sizes,
            best: None,
        })
    }

    /// The choices for all sizes from those for the open ones.
    fn all(&self, open: impl IntoIterator<Item = usize>) -> Choices {
        let mut choices = vec![0; self.sizes.len()];
        for (k, way) in self.open.iter().zip(open) {
            choices[*k] = way;
        }
        choices
    }

    /// The choices as a point of the problem, in steps.
    fn point(&self, choices: &[usize]) -> DVector<f64> {
        let numbers = self.sizes.iter().zip(choices).zip(&self.problem.variables);
        DVector::from_iterator(
            self.sizes.len(),
            numbers.map(|((size, way), variable)| size.ways[*way].number() / variable.step),
        )
    }

    /// Weighs a rounding and keeps it if it is sound and better than the best so far.
    fn try_on(&mut self, choices: Choices) {
        let Some((values, margins)) = self.problem.values(&self.point(&choices)) else {
            return;
        };
        let missed = self.problem.targets.iter().zip(values);
        let missed = missed.map(|(target, v)| (target.off(v) / target.quantity.scale()).powi(2));
        let moved = self.sizes.iter().zip(&choices);
        let moved = moved.map(|(size, way)| NEARNESS * size.moved(*way).powi(2));
        let cost = missed.sum::<f64>() + moved.sum::<f64>();
        let better = self.best.as_ref().is_none_or(|(least, _)| cost < *least);
        if better
            && margins.iter().all(|margin| *margin > CLEARLY_MISSED)
            && written(self.problem, &self.sizes, &choices).build().is_ok()
        {
            self.best = Some((cost, choices));
        }
    }

    /// Weighs the roundings that promise best under the tangents, first at the start, then at
    /// the best rounding of the last turn.
    fn promising(&mut self) {
        let nearest = |size: &RoundedSize| usize::from(size.moved(1).abs() < size.moved(0).abs());
        self.try_on(self.sizes.iter().map(nearest).collect());
        let mut point = DVector::from_iterator(
            self.sizes.len(),
            self.sizes
                .iter()
                .zip(&self.problem.variables)
                .map(|(size, variable)| size.start / variable.step),
        );
        for _ in 0..MOST_ROUNDS {
            let before = self.best.as_ref().map(|(cost, _)| *cost);
            let rows = self.rows(&point);
            let moved = |k: &usize| [0, 1].map(|way| NEARNESS * self.sizes[*k].moved(way).powi(2));
            let own: Vec<[f64; 2]> = self.open.iter().map(moved).collect();
            for open in best(&rows, &own, MOST_PROMISING, MOST_BRANCHES) {
                self.try_on(self.all(open));
            }
            let Some((cost, choices)) = &self.best else {
                return;
            };
            if *cost < GOOD || before == Some(*cost) {
                return;
            }
            point = self.point(choices);
        }
    }

    /// Targets, and the margins that a rounding may miss, under the tangents at `point`.
    fn rows(&self, point: &DVector<f64>) -> Vec<Row> {
        let tangents = self.problem.tangents(point);
        let row = &|value: &Value, low: f64, high: f64, scale: f64| {
            let added = |k: usize| {
                let step = self.problem.variables[k].step;
                let ways = self.sizes[k].ways;
                ways.map(|way| value.gradient[k] * (way.number() / step - point[k]))
            };
            // What has one rounding only takes it.
            let closed = (0..self.sizes.len()).filter(|k| !self.open.contains(k));
            Row {
                value: value.value + closed.map(|k| added(k)[0]).sum::<f64>(),
                added: self.open.iter().map(|k| added(*k)).collect(),
                low,
                high,
                scale,
            }
        };
        let targets = self.problem.targets.iter().zip(&tangents.targets);
        let targets = targets.flat_map(|(target, pieces)| {
            let (low, high) = (
                target.aim.unwrap_or(target.low),
                target.aim.unwrap_or(target.high),
            );
            let scale = target.quantity.scale();
            let asked = pieces.asked(low, high, false);
            asked.map(move |(value, low, high)| row(value, low, high, scale))
        });
        let margins = tangents.margins.iter();
        let margins = margins.map(|(_, value)| row(value, 0.0, f64::INFINITY, MARGIN_SCALE));
        let can_be_missed = |row: &Row| {
            let least = row.added.iter().map(|[one, other]| one.min(*other));
            row.value + least.sum::<f64>() < row.low
        };
        targets.chain(margins.filter(can_be_missed)).collect()
    }
}

/// The design with its free dimensions as chosen.
fn written(problem: &Problem<'_>, sizes: &[RoundedSize], choices: &[usize]) -> Design {
    let mut design = problem.design.clone();
    design.visit_sizes(&mut |dim, size| {
        if let Some(k) = problem.position(dim) {
            *size = sizes[k].ways[choices[k]];
        }
    });
    design
}
