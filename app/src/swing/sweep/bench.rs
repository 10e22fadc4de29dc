//! Where a sweep is worked out, a step at a time, while the page stays quick.

use std::sync::Arc;
use std::time::Duration;

use leptos::prelude::*;

use super::super::super::later::Later;
use super::super::super::state::Workspace;
use super::super::super::words::{self, capitalized};
use super::super::super::workshop::Workshop;
use super::super::asked::conditions;
use super::words_of;
use headwright::compare::{
    CompareError, Conditions, Hammer, Step, Sweep, USUAL_STEPS, sweep, words as differ,
};
use headwright::design::{Design, Dim, Part, Side, Size, bounds};
use headwright::units::{MM_PER_INCH, Measure, System};

/// How long everything rests before the sweep is worked out anew.
const REST: Duration = Duration::from_millis(300);
/// Where a sweep usually begins and ends, as shares of the present size (our choice).
const USUAL: [f64; 2] = [0.75, 1.3];
/// The least span of a usual sweep, mm or degrees: a size of nothing is swept too.
const LEAST_SPAN: f64 = 4.0;

/// What is swept.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Asked {
    /// The size.
    pub dim: Dim,
    /// From where to where; nothing for what is usual about the present size.
    pub range: Option<[Measure; 2]>,
}

/// A sweep that is worked out.
#[derive(Clone, Debug, PartialEq)]
pub struct Done {
    /// The size.
    pub dim: Dim,
    /// All steps, from short to long.
    pub steps: Vec<Step>,
    /// What is the same for all of them.
    conditions: Conditions,
}

impl Done {
    /// The steps that can be had.
    pub fn reached(&self) -> Vec<(Measure, &Hammer)> {
        let reached = self.steps.iter();
        reached
            .filter_map(|step| Some((step.value, &**step.hammer.as_ref().ok()?)))
            .collect()
    }

    /// The shortest and the longest of them, where they are two.
    pub fn ends(&self) -> Option<[(Measure, &Hammer); 2]> {
        match self.reached().as_slice() {
            [first, .., last] => Some([*first, *last]),
            _ => None,
        }
    }

    /// What the ends are called.
    pub fn names(&self) -> [&'static str; 2] {
        words_of(self.dim)
    }

    /// What the numbers of both ends show.
    pub fn words(&self, system: System) -> String {
        let Some([(_, short), (_, long)]) = self.ends() else {
            return String::new();
        };
        let names = self.names().map(|name| format!("the {name} one"));
        let both = [&short.measured, &long.measured];
        let said = differ(both, [&names[0], &names[1]], &self.conditions, system);
        let said: Vec<String> = said.iter().map(|sentence| capitalized(sentence)).collect();
        said.join(" ")
    }

    /// The steps that cannot be had, a sentence for each reason.
    pub fn refused(&self, system: System) -> Vec<String> {
        let mut reasons: Vec<(String, Vec<Measure>)> = Vec::new();
        for step in &self.steps {
            let Err(errors) = &step.hammer else { continue };
            let why: Vec<String> = errors.iter().map(|error| error.sentence(system)).collect();
            let why = why.join(" ");
            match reasons.iter_mut().find(|(reason, _)| *reason == why) {
                Some((_, values)) => values.push(step.value),
                None => reasons.push((why, vec![step.value])),
            }
        }
        let said = |(why, values): (String, Vec<Measure>)| {
            let values = values.iter();
            let values: Vec<String> = values
                .map(|value| words::limit(self.dim, value.number(), system))
                .collect();
            format!("{}: {why}", values.join(", "))
        };
        reasons.into_iter().map(said).collect()
    }
}

/// A sweep that is being worked out.
struct Running {
    sweep: Sweep,
    from: Design,
    conditions: Conditions,
    steps: Vec<Step>,
}

/// The working out: what is asked, what was found, what comes next.
#[derive(Clone, Copy)]
pub struct Bench {
    /// The design in work.
    pub workspace: Workspace,
    /// What is swept.
    pub asked: RwSignal<Asked>,
    /// What it was before the present row of changes.
    before: StoredValue<Option<Asked>>,
    /// The last sweep that was worked out.
    pub done: RwSignal<Option<Arc<Done>>>,
    /// Why there is none.
    pub wrong: RwSignal<Vec<CompareError>>,
    /// Steps done, and of how many; nothing when all are.
    pub progress: RwSignal<Option<(usize, usize)>>,
    /// Whether a step is to come.
    pub busy: RwSignal<bool>,
    running: StoredValue<Option<Running>>,
    later: Later,
    conditions: Memo<Conditions>,
}

impl Bench {
    /// A bench that follows design and workshop.
    pub fn new(workspace: Workspace, workshop: Workshop) -> Self {
        let conditions = Memo::new(move |_| {
            let at_anvil = workshop.at_anvil.value.get();
            workshop.blow.value.with(|blow| conditions(blow, &at_anvil))
        });
        let bench = Self {
            workspace,
            asked: RwSignal::new(Asked {
                dim: Part::End(Side::Front).size(Size::Reach),
                range: None,
            }),
            before: StoredValue::new(None),
            done: RwSignal::new(None),
            wrong: RwSignal::new(Vec::new()),
            progress: RwSignal::new(None),
            busy: RwSignal::new(false),
            running: StoredValue::new(None),
            later: Later::new(),
            conditions,
        };
        let asked = Memo::new(move |_| bench.asked.get());
        Effect::new(move || {
            workspace.design.track();
            conditions.track();
            asked.track();
            bench.begin();
        });
        bench
    }

    /// The bench of the sheet.
    pub fn here() -> Self {
        expect_context()
    }

    /// Whether what is shown is no longer what is asked.
    pub fn is_old(self) -> bool {
        self.progress.get().is_some() || self.wrong.with(|wrong| !wrong.is_empty())
    }

    /// Begins anew when everything has come to rest.
    fn begin(self) {
        self.running.set_value(None);
        self.busy.set(true);
        self.progress.set(Some((0, USUAL_STEPS)));
        self.later.start(REST, move || self.start());
    }

    fn start(self) {
        let from = self.workspace.design.get_untracked();
        let dim = self.asked.get_untracked().dim;
        let range = untrack(|| self.range());
        let sweep = match range {
            Some(ends) => sweep(&from, dim, ends, USUAL_STEPS),
            None => Err(vec![CompareError::NoSuchSize(dim)]),
        };
        match sweep {
            Ok(sweep) => {
                self.wrong.set(Vec::new());
                self.running.set_value(Some(Running {
                    sweep,
                    from,
                    conditions: self.conditions.get_untracked(),
                    steps: Vec::new(),
                }));
                self.turn();
            }
            Err(errors) => {
                self.wrong.set(errors);
                self.busy.set(false);
                self.progress.set(None);
            }
        }
    }

    /// One step, and the next in a turn of its own, so that the page stays quick.
    fn turn(self) {
        let far = self.running.try_update_value(|running| {
            let running = running.as_mut()?;
            let at = running.steps.len();
            let step = running.sweep.step(at, &running.conditions, &running.from);
            running.steps.extend(step);
            Some((running.steps.len(), running.sweep.values.len()))
        });
        let Some((at, of)) = far.flatten() else {
            return;
        };
        if at < of {
            self.progress.set(Some((at, of)));
            self.later.start(Duration::ZERO, move || self.turn());
            return;
        }
        let running = self.running.try_update_value(Option::take).flatten();
        self.done.set(running.map(|running| {
            Arc::new(Done {
                dim: running.sweep.dim,
                steps: running.steps,
                conditions: running.conditions,
            })
        }));
        self.busy.set(false);
        self.progress.set(None);
    }

    /// Leaves it where it is.
    pub fn stop(self) {
        self.later.stop();
        self.busy.set(false);
    }

    /// Takes up what was stopped.
    pub fn go_on(self) {
        if self.running.with_value(Option::is_some) {
            self.busy.set(true);
            self.turn();
        } else {
            self.begin();
        }
    }

    /// From where to where; nothing when the design has no such size.
    pub fn range(self) -> Option<[Measure; 2]> {
        let asked = self.asked.get();
        let size = self
            .workspace
            .design
            .with(|design| design.size(asked.dim))?;
        let system = self.workspace.system.get();
        Some(
            asked
                .range
                .unwrap_or_else(|| usual_range(asked.dim, size, system)),
        )
    }

    /// Sweeps another size.
    pub fn choose(self, dim: Dim) {
        self.asked.set(Asked { dim, range: None });
    }

    /// From here on the range does not follow the design.
    pub fn fix_range(self) {
        let range = untrack(|| self.range());
        self.asked.update(|asked| asked.range = range);
    }

    /// Reads an end of the range; no text is what is usual.
    ///
    /// # Errors
    /// A sentence when it is no size or out of bounds.
    pub fn read_end(self, place: usize, text: &str) -> Result<(), String> {
        let system = self.workspace.system.get_untracked();
        let asked = self.asked.get_untracked();
        let before = self.before.get_value().unwrap_or(asked);
        if text.trim().is_empty() {
            self.before.set_value(Some(before));
            self.asked.set(Asked {
                range: None,
                ..asked
            });
            return Ok(());
        }
        let Some(mut range) = untrack(|| self.range()) else {
            return Err(CompareError::NoSuchSize(asked.dim).sentence(system));
        };
        let end = range[place]
            .parse(text, system)
            .map_err(|error| error.to_string())?;
        range[place] = end;
        check(asked.dim, range, system)?;
        self.before.set_value(Some(before));
        self.asked.set(Asked {
            range: Some(range),
            ..asked
        });
        Ok(())
    }

    /// The range stays as it is.
    pub fn keep_range(self) {
        self.before.set_value(None);
    }

    /// The range is as it was.
    pub fn put_back_range(self) {
        if let Some(before) = self.before.try_update_value(Option::take).flatten() {
            self.asked.set(before);
        }
    }
}

/// Whether `dim` can be swept so.
fn check(dim: Dim, [from, to]: [Measure; 2], system: System) -> Result<(), String> {
    let limits = bounds(dim);
    for value in [from, to] {
        if !limits.contain(value.number()) {
            let [low, high] = [limits.low, limits.high].map(|number| value.with_number(number));
            let error = CompareError::OutOfBounds {
                dim,
                value,
                low,
                high,
            };
            return Err(error.sentence(system));
        }
    }
    if from.number() >= to.number() {
        return Err(CompareError::Range { dim, from, to }.sentence(system));
    }
    Ok(())
}

/// From short to long about the present `size`, on whole divisions, inside the bounds.
fn usual_range(dim: Dim, size: Measure, system: System) -> [Measure; 2] {
    let limits = bounds(dim);
    let now = size.number();
    let about = now.abs().max(LEAST_SPAN / (USUAL[1] - USUAL[0]));
    let ends = USUAL.map(|share| now + (share - 1.0) * about);
    let division = match (system, size, ends[1] - ends[0] < 2.0 * LEAST_SPAN) {
        (System::Imperial, Measure::Length(_), false) => MM_PER_INCH / 16.0,
        (System::Imperial, Measure::Length(_), true) => MM_PER_INCH / 64.0,
        (_, _, false) => 1.0,
        (_, _, true) => 0.5,
    };
    let rounded = ends.map(|end| (end / division).round() * division);
    rounded.map(|end| size.with_number(end.clamp(limits.low, limits.high)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use headwright::compare::Figure;
    use headwright::design::{starter, starter_names};
    use headwright::units::Length;

    fn reach() -> Dim {
        Part::End(Side::Front).size(Size::Reach)
    }

    fn done(name: &str, [from, to]: [f64; 2], count: usize) -> Done {
        let design = starter(name).expect("a starter");
        let ends = [from, to].map(|mm| Length::mm(mm).into());
        let sweep = sweep(&design, reach(), ends, count).expect("a sweep");
        let conditions = Conditions::default();
        let steps = (0..count).filter_map(|at| sweep.step(at, &conditions, &design));
        Done {
            dim: reach(),
            steps: steps.collect(),
            conditions,
        }
    }

    #[test]
    fn a_usual_range_holds_the_present_size_and_stays_in_bounds() {
        for name in starter_names() {
            let design = starter(name).expect("a starter");
            for (dim, size) in design.sizes() {
                for system in [System::Metric, System::Imperial] {
                    let [from, to] = usual_range(dim, size, system).map(Measure::number);
                    let limits = bounds(dim);
                    assert!(
                        limits.low <= from && to <= limits.high,
                        "{dim}: {from} {to}"
                    );
                    assert!(from < to, "{name} {dim}: {from} {to}");
                    let slack = 0.5;
                    let now = size.number();
                    assert!(from - slack <= now && now <= to + slack, "{name} {dim}");
                }
            }
        }
    }

    #[test]
    fn a_range_that_does_not_go_up_or_leaves_the_bounds_is_refused() {
        let mm = |mm: f64| Measure::from(Length::mm(mm));
        assert!(check(reach(), [mm(50.0), mm(70.0)], System::Metric).is_ok());
        let sentence = check(reach(), [mm(70.0), mm(50.0)], System::Metric).expect_err("down");
        assert!(sentence.contains("70 mm to 50 mm"), "{sentence}");
        let sentence = check(reach(), [mm(50.0), mm(5000.0)], System::Metric).expect_err("far");
        assert!(sentence.contains("5000 mm"), "{sentence}");
    }

    #[test]
    fn a_longer_face_at_kept_weight_twists_less_and_the_paragraph_says_so() {
        let done = done("rounding", [60.0, 75.0], 3);
        let [(from, short), (to, long)] = done.ends().expect("two ends");
        assert!(from.number() < to.number());
        let [a, b] = [short, long].map(|hammer| hammer.measured.get(Figure::Twist));
        assert!(b < a, "{a} {b}");
        let masses = [short, long].map(|hammer| hammer.measured.weighed.mass);
        assert!((masses[0] - masses[1]).abs() < 1e-3, "{masses:?}");
        let words = done.words(System::Metric);
        assert!(
            words.starts_with("The short one and the long one: heads of the same weight"),
            "{words}"
        );
    }

    #[test]
    fn a_step_that_cannot_be_kept_is_named_with_its_reason() {
        let done = done("rounding", [20.0, 160.0], 5);
        let refused = done.refused(System::Metric);
        let count: usize = done
            .steps
            .iter()
            .filter(|step| step.hammer.is_err())
            .count();
        assert!(count > 0, "some step is out of reach");
        let named: usize = refused
            .iter()
            .map(|sentence| sentence.matches(" mm").count())
            .sum();
        assert!(named >= count, "{refused:?}");
    }
}
