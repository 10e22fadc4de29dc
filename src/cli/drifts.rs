//! Openings and drifts as they are written at the command line.

use super::CliError;
use crate::bar::{Bar, Punch};
use crate::design::Design;
use crate::drift::{self, Drifting, Opening, OwnDrift, SLIT_WIDTH_MM};
use crate::solid::Solid;
use crate::units::{Length, System, UnitError, parse_length};

/// What a head is drifted with, as far as it was said.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Drifts(Drifting);

/// Why a text is no opening and no drift.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum DriftOptionError {
    /// A size that is none.
    #[error("{option}: {error}")]
    Unit {
        /// The option.
        option: &'static str,
        /// What is wrong.
        error: UnitError,
    },
    /// A drift of one size.
    #[error("“{0}” is not a drift; write its greatest length and width, such as 20mmx14mm.")]
    OneSize(String),
    /// A taper that is none.
    #[error(
        "“{0}” is not a taper; write what a drift loses of its length and width on the way to the tip, such as 20x14@1:12 or 20x14@0.1."
    )]
    Taper(String),
    /// Two openings.
    #[error("The opening is given twice; say it once, with --slot or with --slit.")]
    TwoOpenings,
}

impl Drifts {
    /// Reads what follows `--slot`: `25mmx6mm` with round ends, `12mm` round, `rectangle:25mmx6mm`.
    ///
    /// # Errors
    /// A sentence that says what is wrong with which part.
    pub fn slot(&mut self, text: &str) -> Result<(), DriftOptionError> {
        let (square, sizes) = match text.trim().strip_prefix("rectangle:") {
            Some(sizes) => (true, sizes),
            None => (false, text),
        };
        let punch = match (square, read(sizes, "--slot")?) {
            (false, (diameter, None)) => Punch::Round { diameter },
            (false, (length, Some(width))) => Punch::Obround { length, width },
            (true, (length, width)) => Punch::Rectangle {
                length,
                width: width.unwrap_or(length),
            },
        };
        self.open(Opening::Punched(punch))
    }

    /// Reads what follows `--slit`: `32mm`, or `32mmx3mm` with its width.
    ///
    /// # Errors
    /// A sentence that says what is wrong with which part.
    pub fn slit(&mut self, text: &str) -> Result<(), DriftOptionError> {
        let (length, width) = read(text, "--slit")?;
        self.open(Opening::Slit {
            length,
            width: width.unwrap_or(Length::mm(SLIT_WIDTH_MM)),
        })
    }

    /// Reads what follows `--drift`: `20mmx14mm`, `20x14@1:12` or `20x14@0.1` with its taper.
    ///
    /// # Errors
    /// A sentence that says what is wrong with which part.
    pub fn drift(&mut self, text: &str) -> Result<(), DriftOptionError> {
        let (sizes, taper) = match text.split_once('@') {
            Some((sizes, taper)) => (sizes, Some(read_taper(taper)?)),
            None => (text, None),
        };
        let (length, width) = read(sizes, "--drift")?;
        let width = width.ok_or_else(|| DriftOptionError::OneSize(super::shown(text.as_ref())))?;
        self.0.own.push(OwnDrift {
            length,
            width,
            taper,
        });
        Ok(())
    }

    /// The first option that was given, if any.
    pub(super) fn given(&self) -> Option<String> {
        let option = match (self.0.opening, self.0.own.first()) {
            (Some(Opening::Slit { .. }), _) => "--slit",
            (Some(_), _) => "--slot",
            (None, Some(_)) => "--drift",
            (None, None) => return None,
        };
        Some(option.to_owned())
    }

    /// What was said.
    pub(super) const fn drifting(&self) -> &Drifting {
        &self.0
    }

    /// The drifts of `solid`, made of `bar`, at `celsius`.
    ///
    /// # Errors
    /// Why they cannot be worked out.
    pub fn plan(&self, solid: &Solid, bar: &Bar, celsius: f64) -> Result<drift::Plan, CliError> {
        drift::plan(solid, bar, &self.0, celsius)
            .map_err(|errors| CliError::Drifts(errors, bar.rule.system()))
    }

    /// The last drift of `design` for an eye of `celsius` as SVG at 1:1, its sizes in the units of the rule of its bar.
    ///
    /// # Errors
    /// Why the design is not sound or its drifts cannot be worked out.
    pub fn profile(&self, design: &Design, celsius: f64) -> Result<String, CliError> {
        let solid = design.build().map_err(CliError::Unsound)?;
        let plan = self.plan(&solid, &design.bar, celsius)?;
        Ok(drift::profile_svg(&plan, design.bar.rule.system()))
    }

    fn open(&mut self, opening: Opening) -> Result<(), DriftOptionError> {
        match self.0.opening.replace(opening) {
            None => Ok(()),
            Some(_) => Err(DriftOptionError::TwoOpenings),
        }
    }
}

/// One size, or two with a cross between. Of two sizes the unit of the second counts for both where the first has
/// none; without any unit they are in mm.
fn read(text: &str, option: &'static str) -> Result<(Length, Option<Length>), DriftOptionError> {
    let one = |text: &str| {
        parse_length(text, System::Metric).map_err(|error| DriftOptionError::Unit { option, error })
    };
    let Some((length, width)) = text.split_once(['x', '×']) else {
        return Ok((one(text)?, None));
    };
    let is_number = |c: char| !c.is_alphabetic() && c != '"';
    let unit = width.trim().trim_start_matches(is_number);
    let length = if length.chars().all(is_number) && !length.trim().is_empty() {
        one(&format!("{} {unit}", length.trim()))?
    } else {
        one(length)?
    };
    Ok((length, Some(one(width)?)))
}

/// `1:12` or `0.1`; whether it is within bounds is for the plan to say.
fn read_taper(text: &str) -> Result<f64, DriftOptionError> {
    let number = |text: &str| text.trim().parse::<f64>().ok();
    let taper = match text.split_once(':') {
        Some((part, whole)) => number(part)
            .zip(number(whole))
            .map(|(part, whole)| part / whole),
        None => number(text),
    };
    taper
        .filter(|taper| taper.is_finite())
        .ok_or_else(|| DriftOptionError::Taper(super::shown(text.as_ref())))
}
