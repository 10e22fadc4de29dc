//! What was measured and weighed of a head, as it is written at the command line.

use serde::Serialize;

use super::{CliError, plan, shown};
use crate::design::{Dim, ParseDimError};
use crate::log::{Measured, Precision, Reading, Readings, Step, Taken, Weighing, Weight};
use crate::units::{Angle, Length, Mass, Measure, Rule, UnitError};

/// What was measured and weighed, and how far off that may be.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct ReadAsked {
    /// The sizes, in the order in which they were given.
    sizes: Vec<Reading>,
    /// What the scale showed.
    weighed: Option<Mass>,
    /// The step after which it was weighed.
    after: Option<String>,
    /// How far off a caliper may be, cold and hot.
    caliper: Option<Length>,
    /// How far off the scale may be.
    scale: Option<Mass>,
}

/// Why an option that tells of readings cannot be read.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum ReadOptionError {
    /// No size and reading.
    #[error(
        "“{0}” is no reading; write a size and what it measured, such as front.reach=58.2mm, or hot front.reach=59mm@1050C."
    )]
    NoReading(String),
    /// A name that no size has.
    #[error(transparent)]
    Name(ParseDimError),
    /// A reading that is none.
    #[error("The reading of {dim}: {error}")]
    Size {
        /// The size.
        dim: Dim,
        /// What is wrong.
        error: UnitError,
    },
    /// What stands after an option is no mass or length.
    #[error("{option}: {error}")]
    Unit {
        /// The option.
        option: &'static str,
        /// What is wrong.
        error: UnitError,
    },
    /// A step that is not on the list.
    #[error("There is no step “{name}” before the handle is on; the steps are {steps}.")]
    Step {
        /// The name as given.
        name: String,
        /// Those that there are.
        steps: String,
    },
    /// A step after which nothing was weighed.
    #[error(
        "--after says when the head was weighed: give its weight too, such as --weighed 1290g."
    )]
    NotWeighed,
}

/// An option that tells of readings, and what belongs after it.
pub(super) fn read_option(name: &str) -> Option<(&'static str, &'static str)> {
    Some(match name {
        "size" => (
            "--size",
            "a size and what it measured, such as front.reach=58.2mm",
        ),
        "weighed" => ("--weighed", "what the head weighed, such as 1290g"),
        "after" => ("--after", "the step that was done then, such as drift"),
        "caliper" => ("--caliper", "how far off a reading may be, such as 0.1mm"),
        "scale" => ("--scale", "how far off the scale may be, such as 1g"),
        _ => return None,
    })
}

impl ReadAsked {
    /// Takes what follows `option`.
    ///
    /// # Errors
    /// A sentence that says what is wrong with it.
    pub(super) fn take(&mut self, option: &'static str, text: &str) -> Result<(), CliError> {
        let unit = |error| ReadOptionError::Unit { option, error };
        let again = match option {
            "--size" => {
                self.sizes.push(reading(text)?);
                false
            }
            "--weighed" => self.weighed.replace(text.parse().map_err(unit)?).is_some(),
            "--after" => self.after.replace(text.to_owned()).is_some(),
            "--caliper" => self.caliper.replace(text.parse().map_err(unit)?).is_some(),
            _ => self.scale.replace(text.parse().map_err(unit)?).is_some(),
        };
        if again {
            return Err(CliError::Repeated(option));
        }
        Ok(())
    }

    /// The first option that was given, if any.
    pub(super) fn given(&self) -> Option<&'static str> {
        let given = [
            (!self.sizes.is_empty(), "--size"),
            (self.weighed.is_some(), "--weighed"),
            (self.after.is_some(), "--after"),
            (self.caliper.is_some(), "--caliper"),
            (self.scale.is_some(), "--scale"),
        ];
        let mut given = given.into_iter().filter(|(given, _)| *given);
        given.next().map(|(_, option)| option)
    }

    /// What was read, on top of `before`: a weight takes the place of the one before. It was weighed after one of `steps`.
    ///
    /// # Errors
    /// A step that is none of them, or one without a weight.
    pub(super) fn readings(
        &self,
        before: Readings,
        steps: &[Step],
    ) -> Result<Readings, ReadOptionError> {
        let Readings {
            mut sizes, weighed, ..
        } = before;
        sizes.extend(self.sizes.iter().copied());
        let own = match (self.weighed, &self.after) {
            (None, Some(_)) => return Err(ReadOptionError::NotWeighed),
            (None, None) => None,
            (Some(mass), None) => Some(Weighing {
                mass,
                to_come: Vec::new(),
            }),
            (Some(mass), Some(name)) => Some(weighed_after(mass, name, steps)?),
        };
        Ok(Readings {
            sizes,
            weighed: own.or(weighed),
        })
    }

    /// How far off the readings may be; what was not measured to `accuracy`, or half a division of `rule`.
    pub(super) fn precision(&self, rule: Rule, accuracy: Option<Length>) -> Precision {
        let mut precision = Precision::usual(rule);
        if let Some(caliper) = self.caliper {
            (precision.cold, precision.hot) = (caliper, caliper);
        }
        if let Some(scale) = self.scale {
            precision.scale = scale;
        }
        if let Some(accuracy) = accuracy {
            precision.forged.length = accuracy;
        }
        precision
    }
}

/// A weighing after the step of this name.
fn weighed_after(mass: Mass, name: &str, steps: &[Step]) -> Result<Weighing, ReadOptionError> {
    let wanted = name.trim().to_lowercase();
    let bare = steps
        .iter()
        .take_while(|step| step.weight != Weight::OnHandle);
    let place = bare
        .clone()
        .position(|step| step.name.trim().to_lowercase() == wanted);
    place
        .map(|place| Weighing::after(mass, steps, place))
        .ok_or_else(|| {
            let names = bare.map(|step| step.name.as_str());
            ReadOptionError::Step {
                name: shown(name.as_ref()),
                steps: names.collect::<Vec<_>>().join(", "),
            }
        })
}

/// Reads `front.reach=58.2mm`, or hot `front.reach=59mm@1050C`.
fn reading(text: &str) -> Result<Reading, CliError> {
    let none = || ReadOptionError::NoReading(shown(text.as_ref()));
    let (name, size) = text.split_once('=').ok_or_else(none)?;
    let dim: Dim = name.trim().parse().map_err(ReadOptionError::Name)?;
    let (size, heat) = match size.split_once('@') {
        Some((size, heat)) => (size, Some(heat)),
        None => (size, None),
    };
    let read: Result<Measure, UnitError> = if dim.is_angle() {
        size.parse::<Angle>().map(Measure::Angle)
    } else {
        size.parse::<Length>().map(Measure::Length)
    };
    Ok(Reading {
        dim,
        size: read.map_err(|error| ReadOptionError::Size { dim, error })?,
        celsius: heat.map(plan::heat).transpose()?,
    })
}

/// A size that was measured.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct MeasuredSize {
    /// Its path.
    pub size: String,
    /// What was read.
    pub read: String,
    /// The heat it was read at, °C; nothing when it was cold.
    pub celsius: Option<f64>,
    /// What it is cold.
    pub cold: String,
    /// What the design says; nothing where it has no such size of its own.
    pub designed: Option<String>,
}

impl MeasuredSize {
    /// The sizes that were measured.
    pub(super) fn all(taken: &Taken) -> Vec<Self> {
        let of = |size: &Measured| Self {
            size: size.reading.dim.to_string(),
            read: size.reading.size.to_string(),
            celsius: size.reading.celsius,
            cold: size.cold.to_string(),
            designed: size.designed.map(|size| size.to_string()),
        };
        taken.sizes.iter().map(of).collect()
    }
}
