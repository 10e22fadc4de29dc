//! Which lines of the ledger lie between two weighings as a whole.

use super::said::Why;
use crate::bar::LossKind;
use crate::log::build::{Build, Step};
use crate::log::event::Verdict;
use crate::log::story::{Between, kinds};

/// Weighings from one to another, not always the next, between which whole lines went.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Group {
    /// Place on the list of the step that was weighed before.
    pub from: usize,
    /// Place of the one that was weighed after.
    pub to: usize,
    /// What was lost, kg.
    pub kg: f64,
    /// The lines, in the order of the work.
    pub kinds: Vec<LossKind>,
    /// What the smith said of the last weighing.
    pub verdict: Option<Verdict>,
    /// Whether a step between takes off what is over the target.
    to_target: bool,
    /// A line that also goes before the first or after the last weighing of the build.
    cut_short: Option<LossKind>,
}

/// The groups of a build, in the order of the work: as short as may be with no line in two of them.
pub(super) fn groups(build: &Build) -> Vec<Group> {
    let spans = build.story().losses;
    let (Some(first), Some(last)) = (spans.first(), spans.last()) else {
        return Vec::new();
    };
    let weighed = first.from + 1..=last.to;
    let steps = build.steps.iter().enumerate();
    let outside: Vec<Step> = steps
        .filter(|(place, _)| !weighed.contains(place))
        .map(|(_, step)| step.clone())
        .collect();
    let outside = kinds(&outside);
    let mut groups: Vec<Group> = Vec::new();
    for span in &spans {
        let mut group = Group::of(span, &outside);
        // A line that went before already takes the groups since then along.
        while let Some(at) = groups.iter().position(|before| before.shares_with(&group)) {
            for before in groups.split_off(at).into_iter().rev() {
                group = before.joined(group);
            }
        }
        groups.push(group);
    }
    groups
}

impl Group {
    fn of(span: &Between, outside: &[LossKind]) -> Self {
        let mut cut_short = span.kinds.iter().filter(|kind| outside.contains(kind));
        Self {
            from: span.from,
            to: span.to,
            kg: span.kg,
            kinds: span.kinds.clone(),
            verdict: span.verdict,
            to_target: span.to_target,
            cut_short: cut_short.next().copied(),
        }
    }

    fn shares_with(&self, other: &Self) -> bool {
        self.kinds.iter().any(|kind| other.kinds.contains(kind))
    }

    /// This one and the next in one.
    fn joined(self, next: Self) -> Self {
        let has = |kind: &LossKind| self.kinds.contains(kind) || next.kinds.contains(kind);
        Self {
            from: self.from,
            to: next.to,
            kg: self.kg + next.kg,
            kinds: LossKind::ALL.into_iter().filter(has).collect(),
            verdict: next.verdict,
            to_target: self.to_target || next.to_target,
            cut_short: self.cut_short.or(next.cut_short),
        }
    }

    /// Why it teaches nothing, if so.
    pub fn why_not(&self) -> Option<Why> {
        if self.kg < 0.0 {
            Some(Why::Gained)
        } else if self.to_target {
            Some(Why::ToTarget)
        } else if self.kinds.is_empty() {
            Some(Why::NoLine)
        } else {
            self.cut_short.map(Why::CutShort)
        }
    }
}
