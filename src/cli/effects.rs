//! The answer of `effects`.

use serde::Serialize;

use super::CliError;
use crate::design::Design;
use crate::fit::{self, Accuracy, Effect};
use crate::mass::mass_properties;
use crate::units::{Length, Rule};

/// What one step of every size does, and how far the weight is open. Axes and signs as on the
/// crate page.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct EffectsAnswer {
    /// The step of lengths.
    pub step_mm: f64,
    /// The step of angles.
    pub step_deg: f64,
    /// How far a forged length may lie from what is written, either way, evenly.
    pub accuracy_mm: f64,
    /// How far an angle may.
    pub accuracy_deg: f64,
    /// Mass as written.
    pub mass_kg: f64,
    /// Its standard deviation when every size is forged to the accuracy, to first order.
    pub mass_spread_kg: f64,
    /// Every size, the greatest effect on mass first.
    pub effects: Vec<SizeEffect>,
}

/// What one step of a size adds, to first order.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct SizeEffect {
    /// Its path.
    pub size: String,
    /// The size of the back that is as it and takes the step with it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub with: Option<Follower>,
    /// What it is.
    pub value: String,
    /// Added to the mass.
    pub mass_kg: f64,
    /// Added to the balance.
    pub offset_mm: f64,
    /// Added to the moment of inertia about the z axis.
    pub inertia_handle_axis_kg_mm2: f64,
}

/// A size of the back that is as that of the front.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Follower {
    /// Its path.
    pub size: String,
    /// Its part of what both add to the mass; the two are forged apart.
    pub mass_kg: f64,
}

impl EffectsAnswer {
    /// The effects of `design` by `rule`, or by the rule of its bar; the spread by `accuracy`, or
    /// by half a division.
    ///
    /// # Errors
    /// Why it is not sound.
    pub fn of(
        design: &Design,
        rule: Option<Rule>,
        accuracy: Option<Length>,
    ) -> Result<Self, CliError> {
        let solid = design.build().map_err(CliError::Unsound)?;
        let rule = rule.unwrap_or(design.bar.rule);
        let division = rule.division();
        let half = division.with_mm(0.5 * division.in_mm());
        let accuracy = Accuracy::within(accuracy.unwrap_or(half));
        let effects = fit::effects(design, rule).map_err(CliError::Unsound)?;
        Ok(Self {
            step_mm: division.in_mm(),
            step_deg: fit::ANGLE_STEP.in_degrees(),
            accuracy_mm: accuracy.length.in_mm(),
            accuracy_deg: accuracy.angle.in_degrees(),
            mass_kg: mass_properties(&solid).mass,
            mass_spread_kg: fit::mass_spread(&effects, accuracy),
            effects: effects.iter().map(SizeEffect::of).collect(),
        })
    }
}

impl SizeEffect {
    fn of(effect: &Effect) -> Self {
        Self {
            size: effect.dim.to_string(),
            with: effect.follower.map(|dim| Follower {
                size: dim.to_string(),
                mass_kg: effect.follower_mass,
            }),
            value: effect.size.to_string(),
            mass_kg: effect.mass,
            offset_mm: effect.balance,
            inertia_handle_axis_kg_mm2: effect.inertia_handle_axis,
        }
    }
}
