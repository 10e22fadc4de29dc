//! What `log` answers: what became of builds, and what was learned of them.

use std::ffi::OsStr;
use std::fmt::Write;

use serde::Serialize;

use super::{CliError, shown};
use crate::chest::Chest;
use crate::design::Design;
use crate::log::losses::{Learned, LearnedLine, learn};
use crate::log::minutes::{BuildMinutes, Curve, Minutes, StepMinutes, minutes};
use crate::log::{Between, Build, Log, LogFileError, show_time};
use crate::rack::Unread;
use crate::units::{Mass, System, show_mass, with_minus};

/// What was asked of `log`.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct LogAsked {
    /// As what the log itself is to be written, instead of an answer.
    pub form: Option<LogForm>,
    /// Whether as a table to be read.
    pub table: bool,
}

/// As what a log is written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LogForm {
    /// A log file.
    Json,
    /// A table for a spreadsheet.
    Csv,
    /// What the log has taught of losses, as such a table.
    Losses,
}

/// Why an option of `log` cannot be read.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum LogOptionError {
    /// A form that is none.
    #[error("“{0}” is no form of a log. Say csv or json, or losses for what was learned as CSV.")]
    Form(String),
    /// Two answers at once.
    #[error("--as writes a file and --table what is to be read; say one of them.")]
    Both,
}

impl LogAsked {
    pub(super) fn of(form: Option<&OsStr>, table: bool) -> Result<Self, LogOptionError> {
        if form.is_some() && table {
            return Err(LogOptionError::Both);
        }
        let form = form.map(LogForm::read).transpose()?;
        Ok(Self { form, table })
    }
}

impl LogForm {
    fn read(text: &OsStr) -> Result<Self, LogOptionError> {
        match text.to_str() {
            Some("csv") => Ok(Self::Csv),
            Some("json") => Ok(Self::Json),
            Some("losses") => Ok(Self::Losses),
            _ => Err(LogOptionError::Form(shown(text))),
        }
    }
}

/// Reads a log file, the log that a rack file carries, or the same as CSV: what begins with a brace is no table.
pub(super) fn read(text: &str) -> Result<Log, CliError> {
    let begins = text.trim_start_matches('\u{feff}').trim_start();
    if begins.is_empty() || begins.starts_with('{') {
        match (Log::from_json(text), Chest::from_json(text)) {
            (Err(LogFileError::Foreign), Ok(chest)) => Ok(chest.log),
            (log, _) => Ok(log?),
        }
    } else {
        Ok(Log::from_csv(text)?)
    }
}

/// `design` with the losses of its bar as the log in `text` has taught them.
///
/// # Errors
/// Why it is no log.
pub fn with_learned(design: &Design, text: &str) -> Result<Design, CliError> {
    let learned = learn(&read(text)?.builds);
    Ok(Design {
        bar: learned.bar(&design.bar),
        ..design.clone()
    })
}

/// What became of builds, and what was learned of them.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct LogAnswer {
    /// The builds, in the order in which they were begun.
    pub builds: Vec<BuildAnswer>,
    /// Builds that can't be read: the name of the design, if that can be, and the reason.
    pub unread: Vec<UnreadAnswer>,
    /// The steps of all builds.
    pub steps: Vec<StepMinutes>,
    /// The learning curve of the finished builds, if there are enough and they lie far enough apart.
    pub curve: Option<Curve>,
    /// The same in words, with how sure it is, or why there is none.
    pub curve_words: String,
    /// What was learned of every line of the ledger.
    pub losses: Vec<LossAnswer>,
    /// What was weighed and lies far out: each waits for an answer and does not count until then.
    pub questions: Vec<String>,
    /// What else was weighed and does not count, with the reason.
    pub unused: Vec<String>,
    /// The units of the first design's rule, for the table.
    #[serde(skip)]
    pub system: System,
    /// The questions in these units.
    #[serde(skip)]
    pub asked: Vec<String>,
}

/// A build that can't be read.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct UnreadAnswer {
    /// The name of its design, where that much can be told.
    pub name: Option<String>,
    /// Why it can't be read.
    pub reason: String,
}

/// What became of a build.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct BuildAnswer {
    /// Its minutes, number, name and how it ended.
    #[serde(flatten)]
    pub minutes: BuildMinutes,
    /// When it was begun, UTC.
    pub begun_utc: String,
    /// The id of the entry on the rack that it was begun from.
    pub entry: Option<String>,
    /// Heats of all steps.
    pub heats: u32,
    /// The step that runs.
    pub open_step: Option<String>,
    /// Its steps.
    pub steps: Vec<StepAnswer>,
    /// What was lost between weighings.
    pub losses: Vec<SpanAnswer>,
    /// What the whole tool weighed.
    pub tool_mass_kg: Option<f64>,
    /// What is to be said of it, in sentences.
    pub notes: Vec<String>,
    /// The same in the units of the table.
    #[serde(skip)]
    pub told: Vec<String>,
}

/// What became of a step.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct StepAnswer {
    /// Its name; nothing when it is off the list.
    pub name: Option<String>,
    /// How long it took.
    pub minutes: f64,
    /// Whether that was typed.
    pub typed: bool,
    /// What it was to take.
    pub target_minutes: Option<f64>,
    /// Its heats.
    pub heats: u32,
    /// What was weighed when it was done.
    pub weighed_kg: Option<f64>,
}

/// What was lost between two weighings.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct SpanAnswer {
    /// The step that was weighed before.
    pub from: String,
    /// The step that was weighed after.
    pub to: String,
    /// What was lost.
    pub mass_kg: f64,
    /// The lines of the ledger that it is made of.
    pub kinds: Vec<crate::bar::LossKind>,
}

/// What was learned of a line of the ledger.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct LossAnswer {
    /// The numbers, in `unit`.
    #[serde(flatten)]
    pub line: LearnedLine,
    /// What is lost, in words.
    pub name: &'static str,
    /// What the numbers are in.
    pub unit: String,
    /// What was published: on average, and one standard deviation.
    pub published: [f64; 2],
    /// What is behind the numbers.
    pub source: String,
}

impl LogAnswer {
    /// What follows from the log in `text`.
    ///
    /// # Errors
    /// Why it is no log.
    pub fn of(text: &str) -> Result<Self, CliError> {
        let mut log = read(text)?;
        log.builds.sort_by_key(|build| build.begun);
        let first = log.builds.first();
        let system = first.map_or(System::Metric, |build| build.design.bar.rule.system());
        let told: Minutes = minutes(&log.builds);
        let curve = told.curve();
        let learned: Learned = learn(&log.builds);
        let questions = |system| {
            let questions = learned.questions.iter();
            questions.map(|it| it.sentence(system)).collect::<Vec<_>>()
        };
        Ok(Self {
            curve_words: match &curve {
                Ok(curve) => curve.to_string(),
                Err(none) => none.to_string(),
            },
            curve: curve.ok(),
            questions: questions(System::Metric),
            asked: questions(system),
            unused: learned.unused.iter().map(ToString::to_string).collect(),
            losses: learned.lines.into_iter().map(LossAnswer::of).collect(),
            builds: log
                .builds
                .iter()
                .zip(told.builds)
                .map(|(build, minutes)| BuildAnswer::of(build, minutes, system))
                .collect(),
            unread: log.unread.into_iter().map(UnreadAnswer::of).collect(),
            steps: told.steps,
            system,
        })
    }

    /// The log in `text`, written as `form`, and a sentence of what is not in it: what cannot be read goes out as it came,
    /// but not into CSV.
    ///
    /// # Errors
    /// Why it is no log.
    pub fn written(text: &str, form: LogForm) -> Result<(String, Option<String>), CliError> {
        let log = read(text)?;
        Ok(match form {
            LogForm::Json => (log.to_json(), None),
            LogForm::Csv => (log.to_csv(), log.left_out()),
            LogForm::Losses => (learn(&log.builds).to_csv(), log.left_out()),
        })
    }

    /// The answer to be read.
    pub fn table(&self) -> String {
        let mut text = String::new();
        // Nothing fails that is written to a text.
        let _ = self.write(&mut text);
        text
    }

    fn write(&self, text: &mut String) -> std::fmt::Result {
        let tenths = |value: f64| format!("{value:.1}");
        writeln!(
            text,
            "{:>4}  {:<16}  {:>8}  {:>5}  build",
            "no", "begun (UTC)", "min", "heats"
        )?;
        for build in &self.builds {
            let minutes = &build.minutes;
            let begun = build.begun_utc.get(..16).unwrap_or(&build.begun_utc);
            let over = minutes
                .over_minutes
                .map(|over| with_minus(format!("{over:+.1}")))
                .map(|over| format!(", {over} min on target"));
            writeln!(
                text,
                "{:>4}  {:<16}  {:>8}  {:>5}  {} ({}{})",
                minutes.number,
                begun.replace('T', " "),
                tenths(minutes.minutes),
                build.heats,
                minutes.name,
                minutes.outcome.word(),
                over.unwrap_or_default()
            )?;
            for span in &build.losses {
                let lost = show_mass(span.mass_kg, self.system);
                writeln!(
                    text,
                    "{:>39}  {lost} lost from {} to {}",
                    "", span.from, span.to
                )?;
            }
        }
        writeln!(
            text,
            "\n{:>8}  {:>5}  {:>8}  {:>8}  step",
            "min", "%", "mean", "target"
        )?;
        for step in self.steps.iter().filter(|step| step.builds > 0) {
            writeln!(
                text,
                "{:>8}  {:>5}  {:>8}  {:>8}  {}",
                tenths(step.minutes),
                tenths(step.percent),
                tenths(step.mean_minutes),
                step.target_minutes.map(tenths).unwrap_or_default(),
                step.name
            )?;
        }
        writeln!(text, "\n{}", self.curve_words)?;
        writeln!(
            text,
            "\n{:>9}  {:>9}  {:>6}  loss",
            "mean", "spread", "builds"
        )?;
        for loss in &self.losses {
            let line = &loss.line;
            writeln!(
                text,
                "{:>9}  {:>9.4}  {:>6}  {}, {}",
                with_minus(format!("{:.4}", line.mean)),
                line.spread,
                line.builds,
                loss.name,
                loss.unit
            )?;
        }
        let unread = self.unread.iter().map(|unread| &unread.reason);
        let notes = self.builds.iter().flat_map(|build| &build.told);
        for sentence in notes.chain(&self.asked).chain(&self.unused).chain(unread) {
            writeln!(text, "\n{sentence}")?;
        }
        Ok(())
    }
}

impl BuildAnswer {
    fn of(build: &Build, minutes: BuildMinutes, system: System) -> Self {
        let story = build.story();
        let name = |place: usize| build.steps.get(place).map(|step| step.name.clone());
        let span = |between: &Between| SpanAnswer {
            from: name(between.from).unwrap_or_default(),
            to: name(between.to).unwrap_or_default(),
            mass_kg: between.kg,
            kinds: between.kinds.clone(),
        };
        let told = story.notes.iter();
        let told = told.map(|note| format!("Build {}: {}", minutes.number, note.sentence(system)));
        Self {
            begun_utc: show_time(build.begun),
            entry: build.entry.clone(),
            heats: story.heats,
            open_step: story.open.map(|(step, _)| {
                let step = build.step(step);
                step.map(|step| step.name.clone()).unwrap_or_default()
            }),
            losses: story.losses.iter().map(span).collect(),
            tool_mass_kg: story.tool.map(Mass::in_kg),
            notes: story.notes.iter().map(ToString::to_string).collect(),
            told: told.collect(),
            steps: story
                .steps
                .into_iter()
                .map(|step| StepAnswer {
                    name: step.name,
                    minutes: step.minutes,
                    typed: step.typed,
                    target_minutes: step.target_minutes,
                    heats: step.heats,
                    weighed_kg: step.weighed.map(Mass::in_kg),
                })
                .collect(),
            minutes,
        }
    }
}

impl UnreadAnswer {
    fn of(unread: Unread) -> Self {
        Self {
            name: unread.name,
            reason: unread.reason,
        }
    }
}

impl LossAnswer {
    fn of(line: LearnedLine) -> Self {
        Self {
            name: line.kind.words(),
            unit: line.unit(),
            published: line.published.amount.numbers(),
            source: line.source(),
            line,
        }
    }
}
