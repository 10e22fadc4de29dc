//! What `measured` answers: the design of a hammer that exists, and what would explain its weight.

use std::ffi::{OsStr, OsString};

use serde::Serialize;

use super::forged::lines;
use super::{CliError, MeasuredSize, ReadAsked, shown};
use crate::design::{Design, DesignFile};
use crate::fit::Outcome;
use crate::log::existing::{Existing, Explanation, Rest, existing};
use crate::log::{Readings, usual_steps};
use crate::units::{Length, System, show_number};

/// What was asked of `measured`.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct MeasuredAsked {
    /// The design that has the hammer's shape.
    pub design: OsString,
    /// What was measured and weighed.
    pub read: ReadAsked,
    /// What is made of the sizes that were not measured.
    pub rest: Rest,
    /// How far off a length may be that was not measured.
    pub accuracy: Option<Length>,
    /// Whether as a table to be read.
    pub table: bool,
}

/// What is to be made of the rest that cannot be.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("“{0}” says nothing of the sizes that were not measured. Say proportion or weight.")]
pub struct RestError(String);

/// Reads what follows `--rest`.
pub(super) fn rest(text: &OsStr) -> Result<Rest, RestError> {
    match text.to_str() {
        Some("proportion") => Ok(Rest::InProportion),
        Some("weight") => Ok(Rest::ToWeight),
        _ => Err(RestError(shown(text))),
    }
}

/// The design of a hammer that exists, and what would explain its weight.
#[derive(Debug, Serialize)]
pub struct MeasuredAnswer {
    /// What it weighs by its sizes, before the rest was fitted.
    pub computed_kg: f64,
    /// What the scale says more than that.
    pub more_kg: Option<f64>,
    /// Whether the scale may be off by as much.
    pub agree: bool,
    /// What readings and sizes that were not measured leave open of the computed weight, one standard deviation.
    pub computed_spread_kg: f64,
    /// The same of the difference.
    pub difference_spread_kg: f64,
    /// How many times as long as written everything was drawn.
    pub share: f64,
    /// How the fit to the weight ended, as in the answer of `fit`.
    pub fitted: Option<&'static str>,
    /// What was measured.
    pub sizes: Vec<MeasuredSize>,
    /// Every size by which alone the difference would be explained, the likeliest first.
    pub explanations: Vec<ExplanationAnswer>,
    /// The same in sentences.
    pub sentences: Vec<String>,
    /// The design, as a design file.
    pub design: DesignFile,
    /// The table, in the units of the design's rule.
    #[serde(skip)]
    pub told: Vec<String>,
}

/// A size that would explain a weight.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ExplanationAnswer {
    /// Its path.
    pub size: String,
    /// The size of the back that is as it and would be off with it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub with: Option<String>,
    /// What it is taken for.
    pub value: String,
    /// What it would have to be.
    pub would_be: String,
    /// Whether it was measured.
    pub measured: bool,
    /// How far off that is, in what the size may be off.
    pub times: f64,
    /// Whether it may be.
    pub may_be: bool,
}

impl MeasuredAnswer {
    /// What follows for a hammer that has the shape of the design in `text`.
    ///
    /// # Errors
    /// Text that is no design, and readings that cannot be.
    pub fn of(text: &str, asked: &MeasuredAsked) -> Result<Self, CliError> {
        let readings = asked.read.readings(Readings::default(), &usual_steps())?;
        let design = Design::from_json(text)?;
        let rule = design.bar.rule;
        let precision = asked.read.precision(rule, asked.accuracy);
        let existing = existing(&design, &readings, &precision, asked.rest)
            .map_err(|errors| CliError::Readings(errors, rule.system()))?;
        let explanations = existing.explanations.iter();
        Ok(Self {
            computed_kg: existing.computed_kg,
            more_kg: existing.more_kg,
            agree: existing.agree,
            computed_spread_kg: existing.left_open.computed_kg(),
            difference_spread_kg: existing.left_open.difference_kg(),
            share: existing.share,
            fitted: existing.fitted.map(Outcome::word),
            sizes: MeasuredSize::all(&existing.taken),
            explanations: explanations.map(ExplanationAnswer::of).collect(),
            sentences: existing.sentences(System::Metric),
            design: existing.design.to_file(),
            told: told(&existing, rule.system()),
        })
    }

    /// The answer to be read.
    pub fn table(&self) -> String {
        self.told.iter().map(|line| format!("{line}\n")).collect()
    }
}

fn told(existing: &Existing, system: System) -> Vec<String> {
    let mut told = lines(&existing.taken.sizes, system);
    let row = |would_be: &str, size: &str, times: &str, name: &str| {
        format!("{would_be:>12}  {size:>12}  {times:>8}  {name}")
    };
    if !existing.explanations.is_empty() {
        told.push(row("would be", "taken for", "times", "size"));
        told.extend(existing.explanations.iter().map(|it| {
            let times = show_number((it.times * 10.0).round() / 10.0);
            let (would_be, size) = (it.would_be.words(system), it.size.words(system));
            row(&would_be, &size, &times, &it.dim.words())
        }));
        told.push(String::new());
    }
    told.extend(existing.sentences(system));
    told
}

impl ExplanationAnswer {
    fn of(it: &Explanation) -> Self {
        Self {
            size: it.dim.to_string(),
            with: it.follower.map(|dim| dim.to_string()),
            value: it.size.to_string(),
            would_be: it.would_be.to_string(),
            measured: it.measured,
            times: it.times,
            may_be: it.may_be(),
        }
    }
}
