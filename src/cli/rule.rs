//! The answer of a fit put on a rule.

use serde::Serialize;

use super::SizeChange;
use super::report::{changes, unit};
use crate::design::{Design, DesignFile};
use crate::fit::{Residual, Rounded, RuleError, Target, to_rule};
use crate::units::Rule;

/// What became of a fit's answer on a rule.
#[derive(Debug, Serialize)]
pub struct RuleAnswer {
    /// The rule's smallest division.
    pub division: String,
    /// "rounded", or why there is no design: "no_division", "none_sound" or "none_found".
    pub outcome: &'static str,
    /// Without a design, the reason in a sentence.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub reason: Option<String>,
    /// Whether all roundings were tried, so that none leaves less over.
    pub exact: bool,
    /// What the rounding leaves over of every hold.
    pub left_over: Vec<LeftOver>,
    /// The sizes that differ from the fit's answer.
    pub changed: Vec<SizeChange>,
    /// The rounded design, as a design file.
    pub design: Option<DesignFile>,
}

/// What is left over of a hold.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct LeftOver {
    /// The name of the quantity, as after `--hold`.
    pub hold: &'static str,
    /// "kg", "mm", "kg·mm²", or "" for a ratio.
    pub unit: &'static str,
    /// What the rounded design gives.
    pub value: f64,
    /// How far that lies from the value held, or outside the range; negative below.
    pub left_over: f64,
}

impl RuleAnswer {
    /// Puts `fitted` on `rule`.
    pub(super) fn of(fitted: &Design, targets: &[Target], rule: Rule) -> Self {
        let rounded = to_rule(fitted, targets, rule);
        Self {
            division: rule.to_string(),
            outcome: match &rounded {
                Ok(_) => "rounded",
                Err(RuleError::NoDivision { .. }) => "no_division",
                // A fit's answer is sound.
                Err(RuleError::Unsound(_) | RuleError::NoneSound(_)) => "none_sound",
                Err(RuleError::NoneFound(_)) => "none_found",
            },
            reason: rounded.as_ref().err().map(ToString::to_string),
            exact: !matches!(
                &rounded,
                Ok(Rounded { exact: false, .. }) | Err(RuleError::NoneFound(_))
            ),
            left_over: rounded.as_ref().map_or_else(
                |_| Vec::new(),
                |rounded| rounded.residuals.iter().map(LeftOver::of).collect(),
            ),
            changed: rounded.as_ref().map_or_else(
                |_| Vec::new(),
                |rounded| changes(fitted, &rounded.design, &rounded.changed),
            ),
            design: rounded.ok().map(|rounded| rounded.design.to_file()),
        }
    }
}

impl LeftOver {
    fn of(residual: &Residual) -> Self {
        Self {
            hold: residual.target.quantity.name(),
            unit: unit(residual.target.quantity),
            value: residual.value,
            left_over: residual.left_over(),
        }
    }
}
