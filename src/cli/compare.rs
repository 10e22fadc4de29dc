//! What `compare` answers: hammers side by side, or one with a size from short to long.

use std::collections::BTreeMap;
use std::fmt;

use serde::Serialize;

use super::{CliError, Freedom, FreedomError, SwingAsked, shown};
use crate::compare::{
    CompareError, Conditions, Figure, MOST, Measured, USUAL_STEPS, measure, sweep, words,
};
use crate::design::{Design, Dim, Range};
use crate::posture;
use crate::solid::Solid;
use crate::units::System;

/// A size that is to go from short to long.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SweepAsked {
    /// The size.
    pub dim: Dim,
    /// From where to where.
    pub range: Range,
    /// In how many steps.
    pub steps: usize,
}

impl SweepAsked {
    /// Reads what follows `--sweep`: `front.reach=50mm..72mm`.
    ///
    /// # Errors
    /// A sentence that says what is wrong with it.
    pub(super) fn read(text: &str) -> Result<Self, FreedomError> {
        match Freedom::free(text)? {
            Freedom::Free(dim, Some(range)) => Ok(Self {
                dim,
                range,
                steps: USUAL_STEPS,
            }),
            Freedom::Free(dim, None) | Freedom::Locked(dim) => Err(FreedomError::NoRange {
                dim,
                text: shown(text.as_ref()),
            }),
        }
    }
}

/// Hammers side by side.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct CompareAnswer {
    /// The end that strikes, "front" or "back".
    pub side: &'static str,
    /// How far beside the middle a blow lands.
    pub off_mm: f64,
    /// The units of the figures.
    pub units: BTreeMap<&'static str, &'static str>,
    /// The hammers, in the order in which they were given, or the steps of the sweep.
    pub hammers: Vec<HammerAnswer>,
    /// What each differs in from the first, or the last step from the first, in sentences.
    pub words: Vec<String>,
    /// What is to be said beside every number of the posture.
    pub estimate: &'static str,
    #[serde(skip)]
    system: System,
}

/// A hammer that is compared.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct HammerAnswer {
    /// Its name, or the swept size.
    pub name: String,
    /// Its numbers by their names; null where it has none.
    pub figures: BTreeMap<&'static str, Option<f64>>,
    /// Why there is no such hammer.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub refused: Option<String>,
}

impl CompareAnswer {
    /// `designs` side by side.
    ///
    /// # Errors
    /// That they are too many, or why one of them cannot be compared.
    pub fn side_by_side(designs: &[Design], asked: &SwingAsked) -> Result<Self, CliError> {
        let system = designs
            .first()
            .map_or(System::Metric, |first| first.bar.rule.system());
        let count = designs.len();
        if count > MOST {
            let errors = vec![CompareError::TooMany { count }];
            return Err(CliError::Compare(errors, system));
        }
        // A design that cannot be built is told below.
        let solids: Vec<Solid> = designs.iter().filter_map(|d| d.build().ok()).collect();
        let conditions = conditions(asked, &solids);
        let measured = designs.iter().map(|design| {
            measure(design, &conditions).map_err(|errors| CliError::CompareOf {
                name: design.name.clone(),
                errors,
                system,
            })
        });
        let measured = measured.collect::<Result<Vec<Measured>, CliError>>()?;
        let named: Vec<(String, &Measured)> = designs
            .iter()
            .map(|design| design.name.clone())
            .zip(&measured)
            .collect();
        let hammers = named
            .iter()
            .map(|(name, measured)| HammerAnswer::of(name.clone(), measured))
            .collect();
        Ok(Self::new(
            &conditions,
            hammers,
            said(&named, &conditions, system),
            system,
        ))
    }

    /// One design, with a size from short to long.
    ///
    /// # Errors
    /// Why the design or its size cannot be swept.
    pub fn swept(design: &Design, asked: &SwingAsked, size: SweepAsked) -> Result<Self, CliError> {
        let solid = design.build().map_err(CliError::Unsound)?;
        let conditions = conditions(asked, [&solid]);
        let system = design.bar.rule.system();
        let ends = [size.range.low, size.range.high];
        let sweep = sweep(design, size.dim, ends, size.steps)
            .map_err(|errors| CliError::Compare(errors, system))?;
        let steps: Vec<_> = (0..size.steps)
            .filter_map(|index| sweep.step(index, &conditions, design))
            .collect();
        let name = |step: &crate::compare::Step| {
            format!("{} {}", size.dim.words(), step.value.words(system))
        };
        let hammers = steps.iter().map(|step| match &step.hammer {
            Ok(hammer) => HammerAnswer::of(name(step), &hammer.measured),
            Err(why) => HammerAnswer {
                name: name(step),
                figures: BTreeMap::new(),
                refused: Some(sentences(why, system)),
            },
        });
        let reached: Vec<(String, &Measured)> = steps
            .iter()
            .filter_map(|step| Some((name(step), &step.hammer.as_ref().ok()?.measured)))
            .collect();
        let ends = match reached.as_slice() {
            [first, .., last] => vec![first.clone(), last.clone()],
            _ => Vec::new(),
        };
        Ok(Self::new(
            &conditions,
            hammers.collect(),
            said(&ends, &conditions, system),
            system,
        ))
    }

    fn new(
        conditions: &Conditions,
        hammers: Vec<HammerAnswer>,
        words: Vec<String>,
        system: System,
    ) -> Self {
        let unit = |figure: Figure| (figure.name(), figure.number_unit());
        Self {
            side: conditions.side.word(),
            off_mm: conditions.off_mm,
            units: Figure::ALL.into_iter().map(unit).collect(),
            hammers,
            words,
            estimate: posture::ESTIMATE,
            system,
        }
    }
}

impl HammerAnswer {
    fn of(name: String, measured: &Measured) -> Self {
        let number = |figure: Figure| {
            let number = measured.get(figure);
            (figure.name(), number.is_finite().then_some(number))
        };
        Self {
            name,
            figures: Figure::ALL.into_iter().map(number).collect(),
            refused: None,
        }
    }
}

fn sentences(errors: &[CompareError], system: System) -> String {
    let all: Vec<String> = errors.iter().map(|error| error.sentence(system)).collect();
    all.join(" ")
}

fn conditions<'a>(asked: &SwingAsked, solids: impl IntoIterator<Item = &'a Solid>) -> Conditions {
    Conditions {
        side: asked.side(),
        off_mm: asked.off(solids)[0],
        stance: asked.stance(),
    }
}

/// What every hammer differs in from the first.
fn said(named: &[(String, &Measured)], conditions: &Conditions, system: System) -> Vec<String> {
    let Some(((first, a), others)) = named.split_first() else {
        return Vec::new();
    };
    let pairs = others.iter();
    pairs
        .flat_map(|(name, b)| words([*a, *b], [first, name], conditions, system))
        .collect()
}

/// As a table to be read.
impl fmt::Display for CompareAnswer {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let widest = Figure::ALL.map(|figure| figure.words().chars().count());
        let heading = widest.into_iter().max().unwrap_or(0);
        let cell = |hammer: &HammerAnswer, figure: Figure| {
            let number = hammer.figures.get(figure.name()).copied().flatten();
            number.map_or_else(|| "–".to_owned(), |n| figure.show(n, self.system))
        };
        let columns: Vec<(Vec<String>, usize)> = self
            .hammers
            .iter()
            .map(|hammer| {
                let cells = Figure::ALL.map(|figure| cell(hammer, figure));
                let column: Vec<String> = [hammer.name.clone()].into_iter().chain(cells).collect();
                let width = column.iter().map(|cell| cell.chars().count()).max();
                (column, width.unwrap_or(0))
            })
            .collect();
        let names = [""].into_iter().chain(Figure::ALL.map(Figure::words));
        for (row, name) in names.enumerate() {
            write!(f, "{name:<heading$}")?;
            for (column, width) in &columns {
                write!(f, "  {:>width$}", column[row])?;
            }
            writeln!(f)?;
        }
        for hammer in &self.hammers {
            if let Some(why) = &hammer.refused {
                writeln!(f, "\n{}: {why}", hammer.name)?;
            }
        }
        writeln!(f)?;
        self.words
            .iter()
            .try_for_each(|text| writeln!(f, "{text}"))?;
        writeln!(f, "\n{}", self.estimate)
    }
}
