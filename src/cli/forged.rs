//! What `forged` answers: what a head on its way will weigh, and what to move.

use std::ffi::OsString;
use std::fmt::Write;

use serde::Serialize;

use super::report::unit;
use super::{CliError, FileKind, MeasuredSize, ReadAsked, log, shown};
use crate::design::{Design, DesignFile};
use crate::log::forged::{Estimate, Expected, Forged, Move, WayBack, forged};
use crate::log::{Build, Log, Measured, Readings, usual_steps};
use crate::units::{Length, Measure, System};

/// What was asked of `forged`.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct ForgedAsked {
    /// The design, or the log of a build.
    pub file: OsString,
    /// The build of the log, by its number or its id; the file is a design where none is named.
    pub build: Option<String>,
    /// What was measured and weighed, besides what the build says.
    pub read: ReadAsked,
    /// How far off a length may be that was not measured.
    pub accuracy: Option<Length>,
    /// Whether as a table to be read.
    pub table: bool,
}

/// Why a build of a log cannot be reckoned.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum BuildOptionError {
    /// No such build.
    #[error(
        "The log has no build “{name}”; it has {count}, numbered from 1 in the order in which they were begun."
    )]
    None {
        /// The number or id as given.
        name: String,
        /// How many there are.
        count: usize,
    },
}

/// What a head on its way will be, and what to move. Axes and signs as on the crate page.
#[derive(Debug, Serialize)]
pub struct ForgedAnswer {
    /// What it will weigh when it is finished.
    pub mass_kg: f64,
    /// One standard deviation of it.
    pub mass_spread_kg: f64,
    /// Its balance: centroid in front of the handle axis.
    pub offset_mm: f64,
    /// One standard deviation of it.
    pub offset_spread_mm: f64,
    /// The weight by the sizes alone, and one standard deviation.
    pub by_sizes_kg: [f64; 2],
    /// The same by the scale alone, what is still to be lost taken off.
    pub by_scale_kg: Option<[f64; 2]>,
    /// What was measured.
    pub sizes: Vec<MeasuredSize>,
    /// Every hold with what is to be expected of it.
    pub holds: Vec<HoldAnswer>,
    /// "moves", "kept", "nothing_held", or "none" where no size that may still move comes back to the holds.
    pub way_back: &'static str,
    /// The sizes to move.
    pub moves: Vec<MoveAnswer>,
    /// What stands in the way where there is none, the greatest obstacle first.
    pub in_the_way: Vec<String>,
    /// The same in sentences.
    pub sentences: Vec<String>,
    /// The head as measured, with the moves made, as a design file.
    pub design: DesignFile,
    /// The sentences in the units of the design's rule, for the table.
    #[serde(skip)]
    pub told: Vec<String>,
}

/// A hold and what is to be expected of it.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct HoldAnswer {
    /// The name of the quantity, as after `--hold`.
    pub hold: &'static str,
    /// "kg", "mm", "kg·mm²", or "" for a ratio.
    pub unit: &'static str,
    /// What is to be expected.
    pub value: f64,
    /// One standard deviation of it, where it is known.
    pub spread: Option<f64>,
    /// How far it lies outside of the hold; negative below, 0 when it is kept.
    pub miss: f64,
}

/// A size to move.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct MoveAnswer {
    /// Its path.
    pub size: String,
    /// The size of the back that is as it and moves with it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub with: Option<String>,
    /// What it is.
    pub from: String,
    /// What it is to be, cold.
    pub to: String,
}

impl ForgedAsked {
    /// What the file is.
    pub fn kind(&self) -> FileKind {
        match self.build {
            Some(_) => FileKind::Log,
            None => FileKind::Design,
        }
    }
}

impl ForgedAnswer {
    /// What follows for the head of the design or the build in `text`.
    ///
    /// # Errors
    /// Text that is neither, a build that there is not, and readings that cannot be.
    pub fn of(text: &str, asked: &ForgedAsked) -> Result<Self, CliError> {
        let (design, readings) = match &asked.build {
            None => {
                let readings = asked.read.readings(Readings::default(), &usual_steps())?;
                (Design::from_json(text)?, readings)
            }
            Some(name) => {
                let build = build(log::read(text)?, name)?;
                let before = build.story().readings;
                let readings = asked.read.readings(before, &build.steps)?;
                (build.design, readings)
            }
        };
        let rule = design.bar.rule;
        let precision = asked.read.precision(rule, asked.accuracy);
        let forged = forged(&design, &readings, &precision)
            .map_err(|errors| CliError::Readings(errors, rule.system()))?;
        Ok(Self::told(forged, rule.system()))
    }

    fn told(forged: Forged, system: System) -> Self {
        let both = |it: Estimate| [it.value, it.spread];
        let (way_back, moves, in_the_way) = match &forged.way_back {
            WayBack::NothingHeld => ("nothing_held", Vec::new(), Vec::new()),
            WayBack::Kept => ("kept", Vec::new(), Vec::new()),
            WayBack::Moves { moves, .. } => (
                "moves",
                moves.iter().map(MoveAnswer::of).collect(),
                Vec::new(),
            ),
            WayBack::None { in_the_way, .. } => {
                let ways = in_the_way.iter().map(|way| way.words(System::Metric));
                ("none", Vec::new(), ways.collect())
            }
        };
        let design = match &forged.way_back {
            WayBack::Moves { design, .. } => design.to_file(),
            _ => forged.taken.design.to_file(),
        };
        Self {
            mass_kg: forged.mass.value,
            mass_spread_kg: forged.mass.spread,
            offset_mm: forged.balance.value,
            offset_spread_mm: forged.balance.spread,
            by_sizes_kg: both(forged.by_sizes),
            by_scale_kg: forged.by_scale.map(both),
            sizes: MeasuredSize::all(&forged.taken),
            holds: forged.held.iter().map(HoldAnswer::of).collect(),
            way_back,
            moves,
            in_the_way,
            sentences: forged.sentences(System::Metric),
            design,
            told: lines(&forged.taken.sizes, system)
                .into_iter()
                .chain(forged.sentences(system))
                .collect(),
        }
    }

    /// The answer to be read.
    pub fn table(&self) -> String {
        self.told.iter().map(|line| format!("{line}\n")).collect()
    }
}

/// The rows of a table of what was measured; no table of nothing.
pub(super) fn lines(sizes: &[Measured], system: System) -> Vec<String> {
    if sizes.is_empty() {
        return Vec::new();
    }
    let row = |read: &str, heat: &str, cold: &str, designed: &str, name: &str| {
        let mut row = String::new();
        // Nothing fails that is written to a text.
        let _ = write!(
            row,
            "{read:>12}  {heat:>8}  {cold:>12}  {designed:>12}  {name}"
        );
        row
    };
    let mut rows = vec![row("read", "heat", "cold", "designed", "size")];
    rows.extend(sizes.iter().map(|size| {
        let words = |size: Measure| size.words(system);
        let heat = size.reading.celsius.map(|celsius| format!("{celsius} °C"));
        let designed = size.designed.map(words);
        row(
            &words(size.reading.size),
            &heat.unwrap_or_default(),
            &words(size.cold),
            &designed.unwrap_or_default(),
            &size.reading.dim.words(),
        )
    }));
    rows.push(String::new());
    rows
}

/// The build of this number or id.
fn build(log: Log, name: &str) -> Result<Build, BuildOptionError> {
    let Log { mut builds, .. } = log;
    let count = builds.len();
    builds.sort_by_key(|build| build.begun);
    let wanted = name.trim();
    let of_id = builds.iter().position(|build| build.id == wanted);
    let number = || wanted.parse::<usize>().ok()?.checked_sub(1);
    let place = of_id.or_else(number);
    let found = place.and_then(|place| builds.into_iter().nth(place));
    found.ok_or_else(|| BuildOptionError::None {
        name: shown(name.as_ref()),
        count,
    })
}

impl HoldAnswer {
    fn of(expected: &Expected) -> Self {
        let quantity = expected.target.quantity;
        Self {
            hold: quantity.name(),
            unit: unit(quantity),
            value: expected.value,
            spread: expected.spread,
            miss: expected.miss,
        }
    }
}

impl MoveAnswer {
    fn of(moved: &Move) -> Self {
        Self {
            size: moved.dim.to_string(),
            with: moved.follower.map(|dim| dim.to_string()),
            from: moved.from.to_string(),
            to: moved.to.to_string(),
        }
    }
}
