//! How the bar becomes the head, as JSON.

use std::ffi::OsStr;

use serde::Serialize;

use super::{CliError, Drifts, shown};
use crate::bar::Billet;
use crate::design::{Design, Side};
use crate::drift;
use crate::plan::{AreaCurve, GROWTH_SOURCE, HotSizes, Plan, USUAL_HOT_CELSIUS, hot_sizes, plan};
use crate::solid::Solid;
use crate::units::System;

/// How the way from bar to head is to be told.
#[derive(Clone, Debug, PartialEq)]
pub struct Asked {
    /// The end of the billet that the marks are measured from.
    pub from: Side,
    /// The heat that hot sizes are told for, °C.
    pub celsius: f64,
    /// What the eye is drifted with.
    pub drifts: Drifts,
}

impl Asked {
    /// What was asked; from the front and at [`USUAL_HOT_CELSIUS`] otherwise.
    pub(super) fn of(from: Option<Side>, celsius: Option<f64>, drifts: Drifts) -> Self {
        Self {
            from: from.unwrap_or(Side::Front),
            celsius: celsius.unwrap_or(USUAL_HOT_CELSIUS),
            drifts,
        }
    }
}

/// Reads `1050C`, `1050 °C`, `1920F`, or a bare number in °C. In °C.
pub(super) fn heat(text: &str) -> Result<f64, CliError> {
    let number = text.trim();
    let (number, fahrenheit) = match number.strip_suffix(['F', 'f']) {
        Some(number) => (number, true),
        None => (number.strip_suffix(['C', 'c']).unwrap_or(number), false),
    };
    let number = number.trim_end_matches(['°', ' ']);
    match number.parse::<f64>() {
        Ok(degrees) if degrees.is_finite() && fahrenheit => Ok((degrees - 32.0) / 1.8),
        Ok(degrees) if degrees.is_finite() => Ok(degrees),
        _ => Err(CliError::NoHeat(shown(OsStr::new(text)))),
    }
}

/// Reads "front" or "back".
pub(super) fn end(text: &OsStr) -> Result<Side, CliError> {
    let named = Side::BOTH.into_iter().find(|side| text == side.word());
    named.ok_or_else(|| CliError::NoEnd(shown(text)))
}

/// How the bar becomes the head.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct PlanAnswer {
    /// What the bar must supply along the head.
    pub area_curve: AreaCurve,
    /// Where the punch marks come on the billet.
    pub marks: MarksAnswer,
    /// The stretches to be upset.
    pub upsets: Vec<UpsetAnswer>,
    /// The lengths of the design at forging heat.
    pub hot_dimensions: HotAnswer,
    /// The drifts from the opening to the eye.
    pub drifts: drift::Plan,
    /// What to know before the fire is lit, in sentences.
    pub cautions: Vec<String>,
    /// The same in the units of the rule, for the table.
    #[serde(skip)]
    pub told: Vec<String>,
}

/// The marks of a billet.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct MarksAnswer {
    /// "front" or "back": the end that they are measured from.
    pub from: &'static str,
    /// Length of the billet.
    pub length_mm: f64,
    /// In the order in which they are met from that end.
    pub marks: Vec<MarkAnswer>,
}

/// A mark.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct MarkAnswer {
    /// What it stands for.
    pub place: String,
    /// Where the place is on the finished head.
    pub x_mm: f64,
    /// Distance from the end, on the rule.
    pub at_mm: f64,
    /// Before it was rounded.
    pub exact_mm: f64,
    /// What rounding leaves over; positive where the mark is set short.
    pub left_over_mm: f64,
    /// From the mark to the other end.
    pub rest_mm: f64,
}

/// A stretch to be upset.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct UpsetAnswer {
    /// Where it begins on the finished head.
    pub from_mm: f64,
    /// Where it ends.
    pub to_mm: f64,
    /// From the billet's back end to where the gathered bar begins.
    pub bar_from_mm: f64,
    /// Free length that is gathered.
    pub bar_length_mm: f64,
    /// Diameter of the bar, or of the circle of its area.
    pub diameter_mm: f64,
    /// Free length in diameters.
    pub diameters: f64,
    /// Greatest area needed over the bar's.
    pub ratio: f64,
    /// "within_hand_limit" (2.5 diameters), "within_free_limit" (3), or beyond it "beyond_in_hole" or "beyond_in_steps".
    pub verdict: &'static str,
    /// The same in words.
    #[serde(skip)]
    pub told: String,
}

/// The lengths of a design at forging heat.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct HotAnswer {
    /// The heat.
    pub celsius: f64,
    /// How much longer everything is, as a share.
    pub growth: f64,
    /// How far that may lie off, as a share of itself.
    pub uncertainty: f64,
    /// Where it comes from.
    pub source: &'static str,
    /// The lengths.
    pub sizes: Vec<HotSizeAnswer>,
}

/// A length at forging heat.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct HotSizeAnswer {
    /// The size's path.
    pub size: String,
    /// Cold.
    pub cold_mm: f64,
    /// Hot.
    pub hot_mm: f64,
}

impl PlanAnswer {
    /// The way to `solid`, which `design` builds to, from the cut that `billet` describes.
    ///
    /// # Errors
    /// A heat that the growth of steel is not known for.
    pub(super) fn of(
        design: &Design,
        solid: &Solid,
        billet: &Billet,
        asked: &Asked,
    ) -> Result<Self, CliError> {
        let hot = hot_sizes(design, asked.celsius)?;
        let plan = plan(solid, billet, &design.bar, asked.from);
        Ok(Self {
            marks: MarksAnswer::of(&plan),
            upsets: plan.upsets.iter().map(UpsetAnswer::of).collect(),
            hot_dimensions: HotAnswer::of(&hot),
            drifts: asked.drifts.plan(solid, &design.bar, asked.celsius)?,
            cautions: plan.cautions(System::Metric),
            told: plan.cautions(design.bar.rule.system()),
            area_curve: plan.curve,
        })
    }
}

impl MarksAnswer {
    fn of(plan: &Plan) -> Self {
        let marks = &plan.marks;
        let mark = |mark: &crate::plan::Mark| MarkAnswer {
            place: mark.place.words(),
            x_mm: mark.x_mm,
            at_mm: mark.at_mm,
            exact_mm: mark.exact_mm,
            left_over_mm: mark.left_over_mm,
            rest_mm: mark.rest_mm,
        };
        Self {
            from: marks.from.word(),
            length_mm: marks.length_mm,
            marks: marks.marks.iter().map(mark).collect(),
        }
    }
}

impl UpsetAnswer {
    fn of(upset: &crate::plan::Upset) -> Self {
        Self {
            from_mm: upset.from_mm,
            to_mm: upset.to_mm,
            bar_from_mm: upset.bar_from_mm,
            bar_length_mm: upset.bar_length_mm,
            diameter_mm: upset.diameter_mm,
            diameters: upset.diameters,
            ratio: upset.ratio,
            verdict: upset.rule.name(),
            told: upset.rule.words(),
        }
    }
}

impl HotAnswer {
    fn of(hot: &HotSizes) -> Self {
        let size = |size: &crate::plan::HotSize| HotSizeAnswer {
            size: size.dim.to_string(),
            cold_mm: size.cold.in_mm(),
            hot_mm: size.hot.in_mm(),
        };
        Self {
            celsius: hot.celsius,
            growth: hot.growth,
            uncertainty: hot.uncertainty,
            source: GROWTH_SOURCE,
            sizes: hot.sizes.iter().map(size).collect(),
        }
    }
}
