//! As forged: what a head is going to weigh by what was measured of it so far, and what to move to come back.
//!
//! # How the prediction is made
//! Every measured size stands in the design as it was read (cold), every other as it is written; that head is weighed. To
//! first order what is not known of it is a sum of causes that have nothing to do with each other: each size by its own
//! half-width h (caliper, bevel, hammer), one standard deviation h/√3; the growth of this steel, which takes all hot readings
//! along; with the derivatives of [`effects`] they give
//!
//! ```text
//! Var m = Σ (∂m/∂c · s)²,    Cov(b, m) = Σ (∂b/∂c · s)(∂m/∂c · s)    over the causes c of standard deviation s
//! ```
//!
//! A weighing W, with what of the ledger is still to come taken off and its spread in Var W, is a second account of the same
//! weight. Both together are the conditional mean and variance of jointly normal quantities:
//!
//! ```text
//! m' = m + Var m · k,  b' = b + Cov(b, m) · k,    k = (W − m) / (Var m + Var W)
//! Var' b = Var b − Cov(b, m)² / (Var m + Var W)
//! ```
//!
//! # The way back
//! The holds are asked of the predicted head: what the scale adds to the sum of the sizes is taken off the targets of weight,
//! balance and inertia. What was measured is locked; each free size alone is then fitted, and where none is enough each two
//! of them. The least movement wins, in steps of [`bounds`], as a fit counts it. What is still brought to the target at
//! the grinder is weight too: that step takes off what is over.
//!
//! # Source
//! C. E. Rasmussen, C. K. I. Williams, Gaussian Processes for Machine Learning (2006), A.2, for the conditional of a normal
//! distribution; from memory.

use super::reading::{Precision, ReadingError, Readings, Taken};
use crate::design::{Design, Dim, Quantity, bounds};
use crate::fit::{Effect, Target, effects, targets};
use crate::units::{Measure, Rule};

mod back;
mod said;

pub use back::{Move, WayBack};

/// A number with one standard deviation of what is not known of it.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Estimate {
    /// What is to be expected.
    pub value: f64,
    /// One standard deviation.
    pub spread: f64,
}

/// A head on its way.
#[derive(Clone, Debug, PartialEq)]
pub struct Forged {
    /// What was measured, and the design with it.
    pub taken: Taken,
    /// What it weighs when it is finished, by its sizes alone, kg.
    pub by_sizes: Estimate,
    /// The same by the scale alone, kg.
    pub by_scale: Option<Estimate>,
    /// By both, kg.
    pub mass: Estimate,
    /// Its balance by both, mm in front of the handle axis.
    pub balance: Estimate,
    /// Every hold with what is to be expected of it.
    pub held: Vec<Expected>,
    /// What to move to come back to the holds.
    pub way_back: WayBack,
}

/// A hold and what is to be expected of it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Expected {
    /// What is held.
    pub target: Target,
    /// What is to be expected.
    pub value: f64,
    /// One standard deviation of it, for weight, balance and inertia about the handle.
    pub spread: Option<f64>,
    /// How far that lies outside of the hold; 0 when it is kept.
    pub miss: f64,
}

/// What follows from `readings` of a head that is made by `design`.
///
/// # Units
/// Masses in kg, balance in mm.
/// # Accuracy
/// First order in the half-widths; tests hold it against heads drawn at random.
/// # Errors
/// Those of [`Taken::of`].
///
/// # Examples
/// ```
/// use headwright::design::{self, Part, Size};
/// use headwright::log::forged::forged;
/// use headwright::log::{Precision, Reading, Readings};
/// use headwright::units::Length;
///
/// let design = design::starter("rounding").expect("a starter");
/// let width = Part::Cheeks.size(Size::Width);
/// let written = design.size(width).expect("cheeks have a width");
/// // A millimetre too wide, measured cold.
/// let size = written.with_number(written.number() + 1.0);
/// let sizes = vec![Reading { dim: width, size, celsius: None }];
/// let readings = Readings { sizes, weighed: None };
/// let forged = forged(&design, &readings, &Precision::usual(design.bar.rule))?;
/// assert!(forged.mass.value > headwright::mass::mass_properties(&design.build().expect("sound")).mass);
/// assert!(!forged.taken.design.is_free(width));
/// # Ok::<(), Vec<headwright::log::ReadingError>>(())
/// ```
pub fn forged(
    design: &Design,
    readings: &Readings,
    precision: &Precision,
) -> Result<Forged, Vec<ReadingError>> {
    let taken = Taken::of(design, readings, precision)?;
    let causes = causes(&taken, precision)?;
    let sum = |of: fn(&Cause) -> f64| causes.iter().map(of).sum::<f64>();
    let variances = [
        sum(|it| it.mass * it.mass),
        sum(|it| it.balance * it.balance),
        sum(|it| it.inertia * it.inertia),
    ];
    let with_mass = [
        variances[0],
        sum(|it| it.balance * it.mass),
        sum(|it| it.inertia * it.mass),
    ];
    let (weighed, solid) = (&taken.weighed, &taken.solid);
    // What the scale moves weight, balance and inertia by, and what it leaves open of them.
    let mut moved = [0.0; 3];
    let mut spreads = variances.map(f64::sqrt);
    if let Some([kg, spread]) = taken.by_scale {
        let both = variances[0] + spread * spread;
        let pull = (kg - weighed.mass) / both;
        moved = with_mass.map(|covariance| covariance * pull);
        for ((left, variance), covariance) in spreads.iter_mut().zip(variances).zip(with_mass) {
            *left = (variance - covariance * covariance / both).max(0.0).sqrt();
        }
    }
    let shift = |quantity: Quantity| match quantity {
        Quantity::Mass | Quantity::ToolMass => moved[0],
        Quantity::Balance => moved[1],
        Quantity::Inertia => moved[2],
        _ => 0.0,
    };
    let spread = |quantity: Quantity| match quantity {
        Quantity::Mass | Quantity::ToolMass => Some(spreads[0]),
        Quantity::Balance => Some(spreads[1]),
        Quantity::Inertia => Some(spreads[2]),
        _ => None,
    };
    let targets = targets(&taken.design);
    let expected = |target: &Target| {
        let quantity = target.quantity;
        let value = quantity.of(solid, weighed, &taken.design.handle) + shift(quantity);
        Expected {
            target: *target,
            value,
            spread: spread(quantity),
            miss: target.miss(value),
        }
    };
    let held: Vec<Expected> = targets.iter().map(expected).collect();
    let asked: Vec<Target> = targets
        .iter()
        .map(|target| lowered(target, shift(target.quantity)))
        .collect();
    Ok(Forged {
        by_sizes: Estimate {
            value: weighed.mass,
            spread: variances[0].sqrt(),
        },
        by_scale: taken
            .by_scale
            .map(|[value, spread]| Estimate { value, spread }),
        mass: Estimate {
            value: weighed.mass + moved[0],
            spread: spreads[0],
        },
        balance: Estimate {
            value: weighed.balance() + moved[1],
            spread: spreads[1],
        },
        way_back: back::way_back(&taken.design, &asked, &held),
        held,
        taken,
    })
}

/// `target` for a head whose sizes say `by` less than is to be expected.
fn lowered(target: &Target, by: f64) -> Target {
    Target {
        quantity: target.quantity,
        low: target.low - by,
        high: target.high - by,
        aim: target.aim.map(|aim| aim - by),
    }
}

/// What one standard deviation of something that is not known does to a head.
#[derive(Clone, Copy, Debug, Default)]
struct Cause {
    mass: f64,
    balance: f64,
    inertia: f64,
    /// Whether it is of a reading, and not of a size that was not measured.
    measured: bool,
}

impl Cause {
    /// What `by` of a size, mm or degrees, does.
    fn of(effect: &Effect, by: f64) -> Self {
        let steps = by / effect.step.number();
        Self {
            mass: effect.mass * steps,
            balance: effect.balance * steps,
            inertia: effect.inertia_handle_axis * steps,
            measured: false,
        }
    }

    fn plus(self, other: Self) -> Self {
        Self {
            mass: self.mass + other.mass,
            balance: self.balance + other.balance,
            inertia: self.inertia + other.inertia,
            ..self
        }
    }
}

/// What is not known of a head, cause by cause.
fn causes(taken: &Taken, precision: &Precision) -> Result<Vec<Cause>, Vec<ReadingError>> {
    // Front and back are off independently in the steel, alike on paper or not.
    let apart = Design {
        alike: Default::default(),
        ..taken.design.clone()
    };
    let effects = effects(&apart, Rule::MILLIMETRE);
    let effects = effects.map_err(|reasons| vec![ReadingError::Unsound(reasons)])?;
    let deviation = |half_width: f64| half_width / 3.0_f64.sqrt();
    let mut growth = Cause {
        measured: true,
        ..Cause::default()
    };
    let mut causes = Vec::with_capacity(effects.len() + 1);
    for effect in &effects {
        let measured = taken.size(effect.dim);
        let within = measured.map_or_else(
            || precision.unmeasured(effect.dim),
            |size| size.caliper_within,
        );
        causes.push(Cause {
            measured: measured.is_some(),
            ..Cause::of(effect, deviation(within))
        });
        if let Some(size) = measured {
            // Where the steel grows more than is known, every cold size is smaller than reckoned.
            let by = size.cold.number().signum() * deviation(size.growth_within);
            growth = growth.plus(Cause::of(effect, by));
        }
    }
    causes.push(growth);
    Ok(causes)
}

/// One standard deviation of the weight by the sizes, kg: what the readings leave open of it, and what the sizes do that
/// were not measured.
pub(super) fn weight_left_open(
    taken: &Taken,
    precision: &Precision,
) -> Result<[f64; 2], Vec<ReadingError>> {
    let causes = causes(taken, precision)?;
    let sum = |measured: bool| {
        let causes = causes.iter().filter(|cause| cause.measured == measured);
        causes.map(|cause| cause.mass * cause.mass).sum::<f64>()
    };
    Ok([true, false].map(|measured| sum(measured).sqrt()))
}

/// How far `to` lies from `from`, in steps of the fit.
fn steps_between(dim: Dim, from: Measure, to: Measure) -> f64 {
    (to.number() - from.number()) / bounds(dim).step
}
