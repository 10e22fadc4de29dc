//! Dimensions that meet a weight and a balance.
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
//! yield at a high price.

use crate::design::{Design, DesignError, Dim, Hold, length_in_words};
use crate::mass::Moments;
use crate::numeric::Scalar;
use crate::units::System;

mod branch;
mod effects;
mod gradient;
mod problem;
mod rule;
mod solve;

pub use effects::{ANGLE_STEP, Accuracy, Effect, effects, mass_spread};
pub use rule::{ANGLE_DIVISION, Rounded, RuleError, to_rule};

/// A quantity that can be held.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Quantity {
    /// Finished mass, kg.
    Mass,
    /// Balance: centroid in front of the handle axis, mm.
    Balance,
}

impl Quantity {
    /// All of them.
    pub const ALL: [Quantity; 2] = [Quantity::Mass, Quantity::Balance];

    /// Its name in JSON and at the command line.
    pub fn name(self) -> &'static str {
        match self {
            Quantity::Mass => "mass",
            Quantity::Balance => "offset",
        }
    }

    /// How far off a value may be when nobody has said: 0.1 g, 0.01 mm.
    pub fn default_tolerance(self) -> f64 {
        match self {
            Quantity::Mass => 1e-4,
            Quantity::Balance => 0.01,
        }
    }

    /// What counts as equally far off when not every target can be met: a percent of a common
    /// hammer's weight against half a millimetre of balance.
    fn scale(self) -> f64 {
        match self {
            Quantity::Mass => 0.01,
            Quantity::Balance => 0.5,
        }
    }

    fn of<T: Scalar>(self, moments: &Moments<T>, density: f64) -> T {
        match self {
            Quantity::Mass => moments.volume * (density * 1e-9),
            Quantity::Balance => moments.x / moments.volume,
        }
    }
}

/// What a quantity is to be: anything from `low` to `high`, in kg or mm; with an `aim`, just
/// that, and the range is what still counts as met.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Target {
    /// The quantity.
    pub quantity: Quantity,
    /// The least that counts as met.
    pub low: f64,
    /// The most that counts as met.
    pub high: f64,
    /// The value itself, when no tolerance was given.
    pub aim: Option<f64>,
}

impl Target {
    /// A hold as a target; `number` gives its values in kg or mm.
    pub fn new<Q: Copy>(quantity: Quantity, hold: Hold<Q>, number: impl Fn(Q) -> f64) -> Self {
        match hold {
            Hold::About {
                value,
                tolerance: None,
            } => {
                let (value, off) = (number(value), quantity.default_tolerance());
                Self {
                    quantity,
                    low: value - off,
                    high: value + off,
                    aim: Some(value),
                }
            }
            Hold::About {
                value,
                tolerance: Some(off),
            } => {
                let (value, off) = (number(value), number(off));
                Self {
                    quantity,
                    low: value - off,
                    high: value + off,
                    aim: None,
                }
            }
            Hold::Between { low, high } => Self {
                quantity,
                low: number(low),
                high: number(high),
                aim: None,
            },
        }
    }

    /// How far `value` lies outside: negative below, positive above, 0 when met.
    pub fn miss(&self, value: f64) -> f64 {
        (value - self.high).max(0.0) + (value - self.low).min(0.0)
    }

    /// How far `value` lies from what is wanted: from the aim, or outside the range without one.
    pub fn off(&self, value: f64) -> f64 {
        self.aim.map_or_else(|| self.miss(value), |aim| value - aim)
    }
}

/// How a fit ended.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Outcome {
    /// Every target is met.
    Met,
    /// No sound design inside the limits meets them all; this is the nearest.
    OutOfReach,
    /// Two targets ask different things of one quantity.
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

/// A target and what became of it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Residual {
    /// The target.
    pub target: Target,
    /// What the design gives, kg or mm.
    pub value: f64,
    /// How far that lies outside the target; 0 when met.
    pub miss: f64,
}

impl Residual {
    /// How far the value lies from what is wanted, whatever still counts as met: from the aim, or
    /// outside the range; kg or mm.
    pub fn left_over(&self) -> f64 {
        self.target.off(self.value)
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
pub struct Fitted {
    /// How it ended.
    pub outcome: Outcome,
    /// The design: sound, whatever the outcome.
    pub design: Design,
    /// Every target with what became of it.
    pub residuals: Vec<Residual>,
    /// The dimensions that moved.
    pub changed: Vec<Dim>,
    /// The limits and conditions of soundness that the design rests on, whether or not all is
    /// met, the one that costs most first.
    pub active: Vec<Obstacle>,
    /// What stands in the way, the greatest obstacle first; empty when all is met.
    pub in_the_way: Vec<Obstacle>,
    /// Largest component, in steps, of the first-order condition of a nearest design.
    pub optimality: f64,
    /// Turns taken.
    pub turns: usize,
}

/// Fits `design` to its own holds.
///
/// # Errors
/// The reasons why the design to start from is not sound.
pub fn fit(design: &Design) -> Result<Fitted, Vec<DesignError>> {
    fit_to(design, &targets(design))
}

/// The targets that a design holds.
pub fn targets(design: &Design) -> Vec<Target> {
    let mass = design
        .holds
        .mass
        .map(|hold| Target::new(Quantity::Mass, hold, |m| m.in_kg()));
    let balance = design
        .holds
        .balance
        .map(|hold| Target::new(Quantity::Balance, hold, |l| l.in_mm()));
    mass.into_iter().chain(balance).collect()
}

/// Fits `design` to `targets`.
///
/// # Errors
/// The reasons why the design to start from is not sound.
pub fn fit_to(design: &Design, targets: &[Target]) -> Result<Fitted, Vec<DesignError>> {
    design.build()?;
    let problem = problem::Problem::new(design, targets);
    let end = solve::solve(&problem);
    Ok(report(&problem, &end))
}

fn report(problem: &problem::Problem<'_>, end: &solve::End) -> Fitted {
    let design = problem.design_at(&end.point);
    let residuals = problem.residuals(&design);
    let met = residuals.iter().all(|residual| residual.miss == 0.0);
    let outcome = if met {
        Outcome::Met
    } else if problem.contradicts_itself() {
        Outcome::Contradictory
    } else if end.settled {
        Outcome::OutOfReach
    } else {
        Outcome::StepLimit
    };
    let active = problem.obstacles(end);
    let in_the_way = if met { Vec::new() } else { active.clone() };
    let changed = changed(problem.design, &design);
    Fitted {
        outcome,
        design,
        residuals,
        changed,
        active,
        in_the_way,
        optimality: end.optimality,
        turns: end.turns,
    }
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
