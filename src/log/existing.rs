//! A hammer that exists: what was measured and weighed of it makes a design, and a difference between the weight of its sizes
//! and that of the scale is explained size by size.
//!
//! The scale weighs all of the head, a caliper a part of it; where the two differ, one size that is not what it is taken for
//! would be enough. For every size that is the value nearest to its own, inside its bounds and on a sound head, at which the
//! computed weight is the weighed one (`existing/alone.rs`). They are ranked by how far that is in what each may be off: the
//! caliper's half-width for a size that was measured, [`Precision::forged`] for one that was not.

use super::forged::weight_left_open;
use super::reading::{Measured, Precision, ReadingError, Readings, Taken};
use crate::design::{Design, Dim, Hold, Holds, Quantity};
use crate::fit::{Effort, Outcome, Target, fit_with};
use crate::numeric::order::sort_few;
use crate::units::Measure;

mod alone;
mod said;

/// What is made of the sizes that were not measured.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Rest {
    /// They stay what the design says.
    #[default]
    AsItIs,
    /// The design is drawn larger or smaller first ([`Design::in_proportion`]), by the geometric mean of measured over
    /// written lengths, or by the cube root of weighed over computed weight where no length was measured.
    InProportion,
    /// Those that are free are fitted to the weight.
    ToWeight,
}

/// A hammer that exists.
#[derive(Clone, Debug, PartialEq)]
pub struct Existing {
    /// Its design: what was measured is set and locked, and its weight is all that is held, if it was weighed.
    pub design: Design,
    /// What was measured, on the design before the rest was fitted.
    pub taken: Taken,
    /// How many times as long as written everything was drawn.
    pub share: f64,
    /// How the fit to the weight ended; nothing where none was asked for.
    pub fitted: Option<Outcome>,
    /// What the sizes say that it weighs, before the rest was fitted, kg.
    pub computed_kg: f64,
    /// What the scale says more than that, kg; nothing where it was not weighed.
    pub more_kg: Option<f64>,
    /// Whether the scale may be off by as much.
    pub agree: bool,
    /// How surely both are known.
    pub left_open: LeftOpen,
    /// Every size by which alone the difference would be explained, the likeliest first.
    pub explanations: Vec<Explanation>,
}

/// What readings leave open of a weight, each one standard deviation, kg.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct LeftOpen {
    /// Of the computed weight: by the sizes that were measured.
    pub measured_kg: f64,
    /// Of the computed weight: by those that were not.
    pub unmeasured_kg: f64,
    /// Of the weighed one; 0 where it was not weighed.
    pub scale_kg: f64,
}

impl LeftOpen {
    /// Of the computed weight.
    pub fn computed_kg(&self) -> f64 {
        self.measured_kg.hypot(self.unmeasured_kg)
    }

    /// Of the difference of both.
    pub fn difference_kg(&self) -> f64 {
        self.computed_kg().hypot(self.scale_kg)
    }
}

/// One size by which a difference would be explained.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Explanation {
    /// Which.
    pub dim: Dim,
    /// The size of the back that is as it and would be off with it.
    pub follower: Option<Dim>,
    /// What it is taken for.
    pub size: Measure,
    /// What it would have to be.
    pub would_be: Measure,
    /// Whether it was measured.
    pub measured: bool,
    /// How far off that is, in what the size may be off.
    pub times: f64,
}

impl Existing {
    /// How many standard deviations of what readings leave open the difference is; nothing where it was not weighed.
    pub fn apart(&self) -> Option<f64> {
        self.more_kg
            .map(|more_kg| more_kg.abs() / self.left_open.difference_kg())
    }
}

impl Explanation {
    /// Whether the size may be as far off as that.
    pub fn may_be(&self) -> bool {
        self.times <= 1.0
    }
}

/// What `readings` of a hammer that exists make of `design`, which has its shape: a starter, or one that was drawn for it.
///
/// # Units
/// Masses in kg.
/// # Errors
/// Those of [`Taken::of`], and a fit to a weight that was not weighed.
///
/// # Examples
/// ```
/// use headwright::design::{self, Part, Side, Size};
/// use headwright::log::existing::{Rest, existing};
/// use headwright::log::{Precision, Reading, Readings, Weighing};
/// use headwright::units::{Length, Mass};
///
/// let design = design::starter("rounding").expect("a starter");
/// let reach = Part::End(Side::Front).size(Size::Reach);
/// let readings = Readings {
///     sizes: vec![Reading { dim: reach, size: Length::mm(56.0).into(), celsius: None }],
///     weighed: Some(Weighing { mass: Mass::grams(1030.0), to_come: Vec::new() }),
/// };
/// let precision = Precision::usual(design.bar.rule);
/// let existing = existing(&design, &readings, &precision, Rest::ToWeight)?;
/// let weight = headwright::mass::mass_properties(&existing.design.build().expect("sound")).mass;
/// assert!((weight - 1.03).abs() < 1e-4);
/// assert_eq!(existing.design.size(reach), Some(Length::mm(56.0).into()));
/// # Ok::<(), Vec<headwright::log::ReadingError>>(())
/// ```
pub fn existing(
    design: &Design,
    readings: &Readings,
    precision: &Precision,
    rest: Rest,
) -> Result<Existing, Vec<ReadingError>> {
    if rest == Rest::ToWeight && readings.weighed.is_none() {
        return Err(vec![ReadingError::NotWeighed]);
    }
    // What the design was to be is not what this hammer is.
    let plain = Design {
        holds: Holds::default(),
        ..design.clone()
    };
    let share = match rest {
        Rest::InProportion => share(&plain, readings, precision)?,
        Rest::AsItIs | Rest::ToWeight => 1.0,
    };
    let drawn = if rest == Rest::InProportion {
        plain.in_proportion(share)
    } else {
        plain
    };
    let taken = Taken::of(&drawn, readings, precision)?;
    let computed_kg = taken.weighed.mass;
    let [measured_kg, unmeasured_kg] = weight_left_open(&taken, precision)?;
    let weighed = taken.by_scale.map(|[kg, _]| kg);
    let mut design = taken.design.clone();
    let mut fitted = None;
    if let (Rest::ToWeight, Some(kg)) = (rest, weighed) {
        let target = [Target::just(Quantity::Mass, kg)];
        let fit = fit_with(&design, &target, Effort::Thorough);
        let fit = fit.map_err(|reasons| vec![ReadingError::Unsound(reasons)])?;
        fitted = Some(fit.outcome);
        design = fit.design;
    }
    let scale = readings.weighed.as_ref();
    design.holds.mass = scale.zip(weighed).map(|(weighing, kg)| Hold::About {
        value: weighing.mass.with_kg(kg),
        tolerance: None,
    });
    Ok(Existing {
        design,
        share,
        fitted,
        computed_kg,
        more_kg: weighed.map(|kg| kg - computed_kg),
        left_open: LeftOpen {
            measured_kg,
            unmeasured_kg,
            scale_kg: taken.by_scale.map_or(0.0, |[_, spread]| spread),
        },
        agree: weighed.is_none_or(|kg| (kg - computed_kg).abs() <= precision.scale.in_kg()),
        explanations: weighed.map_or_else(Vec::new, |kg| explanations(&taken, kg, precision)),
        taken,
    })
}

/// How many times as long as `design` the hammer is.
fn share(
    design: &Design,
    readings: &Readings,
    precision: &Precision,
) -> Result<f64, Vec<ReadingError>> {
    if let Some(share) = readings.share(design, precision)? {
        return Ok(share);
    }
    let Taken {
        by_scale, weighed, ..
    } = Taken::of(design, readings, precision)?;
    Ok(by_scale.map_or(1.0, |[kg, _]| (kg / weighed.mass).cbrt()))
}

/// Every size by which alone the head would weigh `kg`.
fn explanations(taken: &Taken, kg: f64, precision: &Precision) -> Vec<Explanation> {
    let design = &taken.design;
    let sizes = design.sizes().into_iter();
    let sizes = sizes.filter(|(dim, _)| design.leader(*dim) == *dim);
    let explanation = |(dim, size): (Dim, Measure)| {
        let would_be = alone::nearest(design, dim, kg)?;
        let reading = taken.size(dim);
        let within = reading.map_or_else(|| precision.unmeasured(dim), Measured::within);
        Some(Explanation {
            dim,
            follower: design.follower(dim),
            size,
            would_be: size.with_number(would_be),
            measured: reading.is_some(),
            times: (would_be - size.number()).abs() / within,
        })
    };
    let mut explanations: Vec<Explanation> = sizes.filter_map(explanation).collect();
    sort_few(&mut explanations, |it| it.times);
    explanations
}
