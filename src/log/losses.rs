//! What the smith's own heads lose, learned from weighings.
//!
//! Every line of the ledger ([`Loss::usual`]) begins as it was published and moves with what the scale showed
//! ([`learn`]). A line's amount in its own unit (mm, percent) is taken as normal with unknown mean and variance over
//! the heads of a smith, so that evidence from a heavy head counts for a light one; `losses/line.rs` has the conjugate update.
//! A weighing parts lines only where every step that takes from them lies between two weighings (`losses/groups.rs`).
//!
//! # Limits
//! The prior is always the published default: learning again from a ledger that was learned before would count its
//! evidence twice. What is ground off to come to the target is no loss, so that a span with such a step teaches nothing.

use serde::Serialize;

use self::groups::{Group, groups};
use self::line::Line;
use super::build::Build;
use super::event::{Verdict, What};
use crate::bar::{Bar, Certainty, Loss, LossAmount, LossKind};
use crate::mass::{causes, mass_properties};
use crate::numeric::student::{two_sided_quantile, two_sided_tail};

mod groups;
mod line;
mod said;
mod table;

pub use line::{PRIOR_BUILDS, PRIOR_FREEDOM};
pub use said::{Question, Unused, Why};
pub use table::COLUMNS;

/// A loss as far out as happens less often than this is asked about.
pub const FAR_OUT: f64 = 0.01;
/// The share of heads that a range is for.
pub const RANGE_SHARE: f64 = 0.9;

/// What was learned.
#[derive(Clone, Debug, PartialEq)]
pub struct Learned {
    /// The lines of the ledger, in the order of the work.
    pub lines: Vec<LearnedLine>,
    /// What lies far out and waits for the smith's answer; none of it counts until then.
    pub questions: Vec<Question>,
    /// What else was weighed and does not count.
    pub unused: Vec<Unused>,
}

/// What was learned of one line.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct LearnedLine {
    /// Which line.
    pub kind: LossKind,
    /// The line as it was published.
    #[serde(skip)]
    pub published: Loss,
    /// What a head of this smith loses on average, in the unit of the published amount.
    pub mean: f64,
    /// One standard deviation of it from head to head, what is not known of mean and variance included.
    pub spread: f64,
    /// One standard deviation of what is not known of the mean.
    pub mean_spread: f64,
    /// What nine of ten next heads lose; what of it lies beyond what the line may be, such as below 0, is cut off.
    pub range: [f64; 2],
    /// In how many builds it was weighed.
    pub builds: u32,
    /// In how many of them it was weighed alone; in the others together with further lines, whose sum says less.
    pub alone: u32,
}

/// Learns from `builds`, in the order in which they were begun.
///
/// A sum of several lines tells on each by its share in what is not known of the sum (`losses/line.rs`). What happens less
/// often than [`FAR_OUT`] by what was known before does not count until the smith has said that it does
/// ([`Verdict::Counts`]).
pub fn learn(builds: &[Build]) -> Learned {
    let usual = Loss::usual();
    let mut lines: Vec<Line> = usual
        .iter()
        .map(|loss| Line::of(loss.amount.numbers()))
        .collect();
    let mut counts = vec![(0u32, 0u32); lines.len()];
    let (mut questions, mut unused) = (Vec::new(), Vec::new());
    let mut ordered: Vec<&Build> = builds.iter().collect();
    ordered.sort_by_key(|build| build.begun);
    for build in ordered {
        for group in groups(build) {
            let spoken = |why| Unused::of(build, &group, why);
            let known = group
                .why_not()
                .map_or_else(|| units(build, &group, &usual), Err);
            let units = match known {
                Ok(units) => units,
                Err(why) => {
                    unused.push(spoken(why));
                    continue;
                }
            };
            let sum = Line::sum(&lines, &units);
            let tail = two_sided_tail((group.kg - sum.mean) / sum.scale, sum.freedom);
            match group.verdict {
                Some(Verdict::LeftOut) => {
                    unused.push(spoken(Why::LeftOut));
                    continue;
                }
                None if tail < FAR_OUT => {
                    questions.push(Question::of(build, &group, &sum, tail));
                    continue;
                }
                None | Some(Verdict::Counts) => {}
            }
            Line::learn(&mut lines, &units, group.kg);
            for (at, _) in &units {
                let (together, alone) = &mut counts[*at];
                *together += 1;
                *alone += u32::from(units.len() == 1);
            }
        }
    }
    let learned = usual.into_iter().zip(lines).zip(counts);
    Learned {
        lines: learned
            .map(|((published, line), (builds, alone))| {
                let (limit, _) = published.amount.limit();
                let within = |value: f64| value.clamp(limit.least, limit.most);
                let far = two_sided_quantile(1.0 - RANGE_SHARE, line.freedom) * line.next_scale();
                LearnedLine {
                    kind: published.kind,
                    published,
                    mean: line.mean,
                    spread: line.spread(),
                    mean_spread: line.mean_spread(),
                    range: [line.mean - far, line.mean + far].map(within),
                    builds,
                    alone,
                }
            })
            .collect(),
        questions,
        unused,
    }
}

/// The lines of a group, by their places in `usual`, with the kg that one of their unit took in this build.
fn units(build: &Build, group: &Group, usual: &[Loss]) -> Result<Vec<(usize, f64)>, Why> {
    let design = &build.design;
    let solid = design.build().map_err(|_| Why::Unsound)?;
    if !design.bar.check().is_empty() {
        return Err(Why::Unsound);
    }
    let causes = causes(&solid, &mass_properties(&solid));
    let lines = usual.iter().enumerate();
    let lines = lines.filter(|(_, loss)| group.kinds.contains(&loss.kind));
    let units = lines.map(|(at, loss)| {
        let amount = as_planned(loss, &design.bar);
        let amount = as_heated(amount, heats(build, loss.kind));
        let kg = amount.kg_per_unit(&causes, design.density, design.bar.section);
        (at, kg)
    });
    // What takes nothing whatever its amount can't be told from a weight.
    let units: Vec<(usize, f64)> = units.filter(|(_, kg)| *kg > 0.0).collect();
    if units.is_empty() {
        return Err(Why::NoLine);
    }
    Ok(units)
}

/// The amount of a published line with heats, fire and punch of the line of its kind in `bar`, where that is reckoned
/// alike.
fn as_planned(published: &Loss, bar: &Bar) -> LossAmount {
    let alike = |loss: &&Loss| {
        loss.kind == published.kind
            && std::mem::discriminant(&loss.amount) == std::mem::discriminant(&published.amount)
    };
    let planned = bar.losses.iter().find(alike);
    planned.map_or(published.amount, |loss| loss.amount)
}

/// The amount with the heats that were counted, if any were.
fn as_heated(mut amount: LossAmount, counted: u32) -> LossAmount {
    if let LossAmount::PerHeat { heats, .. } | LossAmount::PercentPerHeat { heats, .. } =
        &mut amount
        && counted > 0
    {
        *heats = counted;
    }
    amount
}

/// Heats counted at the steps that take from a line; none unless they were counted at every one of them.
fn heats(build: &Build, kind: LossKind) -> u32 {
    let steps = build.steps.iter().filter(|step| step.weight.takes(kind));
    let counted = steps.map(|step| {
        let heats = build.events.iter().filter_map(|event| match event.what {
            What::Heats { count } if event.step == step.id => Some(count),
            _ => None,
        });
        heats.reduce(u32::saturating_add)
    });
    let counted: Option<Vec<u32>> = counted.collect();
    let counted = counted.unwrap_or_default();
    counted.into_iter().fold(0, u32::saturating_add)
}

impl Learned {
    /// `bar` with what was learned in the place of its own lines: of each kind that was weighed the first line bears
    /// the learned numbers, with the heats, fire and punch that it has, and further lines of the kind go. What was
    /// never weighed stays as it is.
    pub fn bar(&self, bar: &Bar) -> Bar {
        let mut learned = bar.clone();
        for line in self.lines.iter().filter(|line| line.builds > 0) {
            let (limit, _) = line.published.amount.limit();
            let within = |value: f64| value.clamp(limit.least, limit.most);
            let amount = as_planned(&line.published, bar);
            let loss = Loss {
                kind: line.kind,
                amount: amount.with_numbers([within(line.mean), within(line.spread)]),
                source: line.source(),
                certainty: Certainty::Own,
            };
            let place = learned.losses.iter().position(|own| own.kind == line.kind);
            learned.losses.retain(|own| own.kind != line.kind);
            let place = place.unwrap_or(learned.losses.len());
            learned.losses.insert(place, loss);
        }
        learned
    }
}

impl LearnedLine {
    /// What its numbers are in, such as "mm off the surface".
    pub fn unit(&self) -> String {
        let (_, unit) = self.published.amount.limit();
        unit.in_words()
    }

    /// How many builds are behind it, in words.
    pub fn source(&self) -> String {
        let (builds, alone) = (self.builds, self.alone);
        let weighed = match builds {
            0 => return "as published: not weighed yet".to_owned(),
            1 => "weighed in 1 build".to_owned(),
            _ => format!("weighed in {builds} builds"),
        };
        let how = match alone {
            0 => ", always together with other losses".to_owned(),
            _ if alone == builds => String::new(),
            _ => format!(", in {alone} of them alone"),
        };
        format!("{weighed}{how}; learned from the published default on")
    }
}
