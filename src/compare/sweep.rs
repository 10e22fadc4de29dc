//! One design with a size from short to long, each fitted anew.

use super::error::CompareError;
use super::measured::{Conditions, Measured, measure};
use crate::design::{Design, Dim, Edit, Hold, Quantity, bounds};
use crate::fit::{Effort, Fitted, Outcome, fit};
use crate::mass::mass_properties;
use crate::units::{Amount, MM_PER_INCH, Measure, System};

/// The fewest steps of a sweep, its two ends among them.
pub const FEWEST_STEPS: usize = 2;
/// The most.
pub const MOST_STEPS: usize = 25;
/// As many as show a curve.
pub const USUAL_STEPS: usize = 9;

/// A sweep, ready to be worked out step by step.
#[derive(Clone, Debug, PartialEq)]
pub struct Sweep {
    /// The design, with weight and balance held, the swept size locked and enough else free.
    design: Design,
    /// The size.
    pub dim: Dim,
    /// What it is at every step, from short to long.
    pub values: Vec<Measure>,
}

/// One step of a sweep.
#[derive(Clone, Debug, PartialEq)]
pub struct Step {
    /// The size.
    pub value: Measure,
    /// The hammer, when weight, balance and whatever else is held can be kept with this size.
    pub hammer: Result<Box<Hammer>, Vec<CompareError>>,
}

/// A design and its numbers.
#[derive(Clone, Debug, PartialEq)]
pub struct Hammer {
    /// The design, with the holds and free sizes of the one that is swept.
    pub design: Design,
    /// Its numbers.
    pub measured: Measured,
}

/// Makes a sweep of `dim` of `design` from `from` to `to` in `count` even steps.
///
/// What is held stays held; weight and balance are held as they are where nobody holds them. Free to follow is what the
/// design sets free and what usually is ([`Design::default_free`]), but for the swept size; a size that is as the
/// swept one is swept with it.
///
/// # Errors
/// That the design is not sound, has no such size, or that the steps are out of bounds.
pub fn sweep(
    design: &Design,
    dim: Dim,
    [from, to]: [Measure; 2],
    count: usize,
) -> Result<Sweep, Vec<CompareError>> {
    let errors = check(design, dim, [from, to], count);
    if !errors.is_empty() {
        return Err(errors);
    }
    let solid = design.build().map_err(|errors| {
        let errors = errors.into_iter();
        errors.map(CompareError::Design).collect::<Vec<_>>()
    })?;
    let weighed = mass_properties(&solid);
    let mut asked = design.clone();
    for quantity in [Quantity::Mass, Quantity::Balance] {
        if asked.holds.get(quantity).is_none() {
            let value = quantity.of(&solid, &weighed, &design.handle);
            let hold: Hold<Amount> = Hold::About {
                value: quantity.amount(value, System::Metric),
                tolerance: None,
            };
            asked.holds.set(quantity, Some(hold));
        }
    }
    for (other, range) in design.default_free() {
        asked.free.entry(other).or_insert(range);
    }
    let steps = (count - 1) as f64;
    let value = |step: usize| {
        let share = step as f64 / steps;
        let even = from.number() + share * (to.number() - from.number());
        let (unit, parts) = divisions(from);
        // The ends stay what was asked.
        if step == 0 {
            from
        } else if step + 1 == count {
            to
        } else {
            from.with_number((even / unit * parts).round() / parts * unit)
        }
    };
    let mut values: Vec<Measure> = (0..count).map(value).collect();
    // Of a short sweep several steps round to one.
    values.dedup_by_key(|value| value.number());
    Ok(Sweep {
        design: asked.apply(Edit::Lock(dim)),
        dim,
        values,
    })
}

/// A unit and its parts that the steps between the ends are rounded to: a tenth of a millimetre or of a degree, a sixty-fourth of an inch.
fn divisions(size: Measure) -> (f64, f64) {
    match size {
        Measure::Length(length) if length.notation().system() == System::Imperial => {
            (MM_PER_INCH, 64.0)
        }
        Measure::Length(_) | Measure::Angle(_) => (1.0, 10.0),
    }
}

fn check(design: &Design, dim: Dim, [from, to]: [Measure; 2], count: usize) -> Vec<CompareError> {
    let mut errors = Vec::new();
    if design.size(dim).is_none() {
        errors.push(CompareError::NoSuchSize(dim));
    }
    if !(FEWEST_STEPS..=MOST_STEPS).contains(&count) {
        errors.push(CompareError::Steps { count });
    }
    let limits = bounds(dim);
    for value in [from, to] {
        if !limits.contain(value.number()) {
            let limit = |number| value.with_number(number);
            errors.push(CompareError::OutOfBounds {
                dim,
                value,
                low: limit(limits.low),
                high: limit(limits.high),
            });
        }
    }
    if errors.is_empty() && from.number() >= to.number() {
        errors.push(CompareError::Range { dim, from, to });
    }
    errors
}

impl Sweep {
    /// Works out step `index`; nothing beyond the last. The steps depend on the design alone and not on each other.
    pub fn step(&self, index: usize, conditions: &Conditions, from: &Design) -> Option<Step> {
        let value = *self.values.get(index)?;
        Some(Step {
            value,
            hammer: self.hammer(value, conditions, from),
        })
    }

    /// `from` gives the holds and free sizes that the answer has.
    fn hammer(
        &self,
        value: Measure,
        conditions: &Conditions,
        from: &Design,
    ) -> Result<Box<Hammer>, Vec<CompareError>> {
        let moved = self.design.apply(Edit::Set(self.dim, value));
        let fitted = fit_well(&moved)?;
        let design = Design {
            holds: from.holds,
            free: from.free.clone(),
            ..fitted.design
        };
        let measured = measure(&design, conditions)?;
        Ok(Box::new(Hammer { design, measured }))
    }
}

/// The fit of `design`, thoroughly where a quick look does not meet what is held.
fn fit_well(design: &Design) -> Result<Fitted, Vec<CompareError>> {
    let unsound =
        |errors: Vec<_>| -> Vec<_> { errors.into_iter().map(CompareError::Design).collect() };
    let quick = fit(design, Effort::Quick).map_err(unsound)?;
    if quick.outcome == Outcome::Met {
        return Ok(quick);
    }
    let fitted = fit(design, Effort::Thorough).map_err(unsound)?;
    let missed = || {
        let missed = fitted.residuals.iter().filter(|held| held.miss != 0.0);
        missed.map(|held| held.target.quantity).collect()
    };
    match fitted.outcome {
        Outcome::Met => Ok(fitted),
        Outcome::StepLimit => Err(vec![CompareError::NotFound]),
        Outcome::OutOfReach | Outcome::Contradictory => Err(vec![CompareError::NotKept {
            missed: missed(),
            in_the_way: fitted.in_the_way,
        }]),
    }
}
