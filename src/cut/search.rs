//! The search, step by step.

use serde::{Deserialize, Serialize};

use super::choices::{Choice, between};
use super::error::CutError;
use super::first;
use super::gather;
use super::order::Order;
use super::pack::{Outcome, Pack};
use super::plan::{Bound, CuttingList, plan};
use super::problem::{Cut, Problem, Work, take};
use super::relax::{Bars, Relaxation, fractions};

/// Work after which a search ends with what it has, proved or not: a quarter of a minute or so on a desk.
pub const MOST_WORK: u64 = 3_000_000_000;
/// Work after which a list of least cost is taken with the steel that it has.
const MOST_WORK_FOR_STEEL: u64 = MOST_WORK / 10;
/// Work that one set of bars gets before the next one is tried, at first.
const FIRST_ALLOWANCE: u64 = 20_000_000;
/// By how much the allowance grows when all sets have had theirs.
const GROWTH: u64 = 4;
/// Up to so many pieces the sets of bars are searched from the first piece on, beyond it from what the relaxation
/// leaves open.
const ROUNDED_ABOVE: u32 = 60;

/// How far a search is.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Progress {
    /// Share of the work that is done at most, from 0 to 1; most searches end sooner.
    pub share: f64,
    /// Whether nothing more is to come.
    pub done: bool,
    /// How many bars the best list so far takes.
    pub bars: usize,
    /// How good that list is.
    pub bound: Bound,
}

/// A search for the best cutting list of one order.
///
/// Runs in steps of bounded work, so that who runs it can say how far it is and can stop it. It asks no clock: the
/// same order gives the same list on any machine, in however many steps.
///
/// # Examples
/// ```
/// use headwright::cut::{Order, Search};
///
/// let order: Order = serde_json::from_str(
///     r#"{
///         "pieces": [{ "name": "head", "length": "700 mm", "count": 4 }],
///         "stock": [{ "length": "3000 mm" }],
///         "kerf": "2 mm"
///     }"#,
/// )?;
/// let list = Search::new(order)?.finish();
/// // Four pieces and three kerfs are 2806 mm.
/// assert_eq!(list.totals.bars, 1);
/// assert!(list.bound.proved);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub struct Search {
    order: Order,
    problem: Problem,
    phase: Phase,
    best: Vec<Cut>,
    bettered: u64,
    lower: i128,
    steel_proved: bool,
    pool: Vec<Cut>,
    /// Bars that the relaxation uses whole.
    whole: Vec<Cut>,
    work: Work,
}

enum Phase {
    Relax(Box<Relaxation>),
    Round,
    Choose(Choosing),
    Gather,
    Done,
}

/// The sets of bars that are still in question.
struct Choosing {
    open: Vec<Candidate>,
    /// Below this cost `open` holds every set that is not refuted.
    end: i128,
    at: usize,
    allowance: u64,
    /// Work done at which the set in hand has had its allowance.
    until: u64,
}

struct Candidate {
    choice: Choice,
    pack: Option<Pack>,
    /// Whether the whole bars of the relaxation are taken as given.
    rounded: bool,
    /// Whether nothing more can be found out about it.
    spent: bool,
}

impl Search {
    /// Begins, with a first list at once.
    ///
    /// # Errors
    /// Everything that is wrong with the order ([`Order::check`]).
    pub fn new(order: Order) -> Result<Self, CutErrors> {
        let errors = order.check();
        if !errors.is_empty() {
            return Err(CutErrors(errors));
        }
        let problem = Problem::of(&order);
        let mut work = Work::default();
        let counts: Vec<u32> = problem.kinds.iter().map(|kind| kind.count).collect();
        let demand = &problem.demand;
        let filled = first::fill(&problem, demand, &counts, &mut work);
        let fitted = first::best_fit(&problem, demand, &counts, &mut work);
        let key = |bars: &Vec<Cut>| (problem.cost(bars), problem.bought(bars));
        let best = filled.into_iter().chain(fitted).min_by_key(key);
        let Some(best) = best else {
            // Every piece fits the longest stock, of which there are as many as pieces or some are missing.
            return Err(CutErrors(vec![CutError::NoStock]));
        };
        let bars: Vec<Bars> = problem
            .kinds
            .iter()
            .map(|kind| Bars {
                capacity: kind.capacity,
                count: kind.count,
                cost: kind.cost,
            })
            .collect();
        let relaxation = Relaxation::new(
            &problem.sizes,
            &problem.demand,
            &bars,
            &best,
            None,
            &mut work,
        );
        Ok(Self {
            order,
            phase: Phase::Relax(Box::new(relaxation)),
            pool: best.clone(),
            best,
            bettered: 0,
            lower: 0,
            steel_proved: false,
            whole: Vec::new(),
            work,
            problem,
        })
    }

    /// Goes on for about `budget` units of work, of which a desk does some hundred millions in a second; one unit
    /// that cannot be divided may take longer.
    pub fn step(&mut self, budget: u64) -> Progress {
        let until = self.work.0.saturating_add(budget.max(1));
        while self.work.0 < until && !matches!(self.phase, Phase::Done) {
            self.work.0 += 1;
            self.turn(until);
        }
        self.progress()
    }

    /// Goes on to the end.
    pub fn finish(mut self) -> CuttingList {
        while !self.step(MOST_WORK).done {}
        self.list()
    }

    /// How far it is.
    pub fn progress(&self) -> Progress {
        let done = matches!(self.phase, Phase::Done);
        Progress {
            share: if done {
                1.0
            } else {
                (self.work.0 as f64 / MOST_WORK as f64).min(1.0)
            },
            done,
            bars: self.best.len(),
            bound: self.list_bound(),
        }
    }

    /// How many better lists were found since the first one.
    pub fn bettered(&self) -> u64 {
        self.bettered
    }

    /// The best list so far.
    pub fn list(&self) -> CuttingList {
        plan(&self.order, &self.problem, &self.best, self.list_bound())
    }

    fn list_bound(&self) -> Bound {
        super::plan::bound(
            &self.problem,
            &self.order,
            &self.best,
            self.lower,
            self.steel_proved,
        )
    }

    fn key(&self) -> (i128, i64) {
        (
            self.problem.cost(&self.best),
            self.problem.bought(&self.best),
        )
    }

    fn turn(&mut self, until: u64) {
        let over = self.work.0 >= MOST_WORK;
        match &mut self.phase {
            Phase::Relax(relaxation) => {
                let more = relaxation.turn(&mut self.work);
                self.lower = self.lower.max(self.problem.whole(relaxation.lower));
                if !more || over {
                    self.pool.append(&mut relaxation.found);
                    self.phase = if over { Phase::Gather } else { Phase::Round };
                }
            }
            Phase::Round => {
                self.round();
                let end = self.lower;
                self.phase = Phase::Choose(Choosing {
                    open: Vec::new(),
                    end,
                    at: 0,
                    allowance: FIRST_ALLOWANCE,
                    until: 0,
                });
            }
            Phase::Choose(_) if over => self.phase = Phase::Gather,
            Phase::Choose(_) => self.choose(until),
            Phase::Gather => {
                // The last bar of a list may be emptied, never a needed one.
                let better = gather::once(&self.problem, &mut self.best, &mut self.work);
                self.best.retain(|(_, pattern)| !pattern.is_empty());
                if !better {
                    self.phase = Phase::Done;
                }
            }
            Phase::Done => {}
        }
    }

    /// Takes what the relaxation uses whole, and fills up.
    fn round(&mut self) {
        let pieces: u32 = self.problem.demand.iter().sum();
        let Some(shares) = fractions(&self.problem, &self.pool, &mut self.work) else {
            return;
        };
        let mut demand = self.problem.demand.clone();
        let mut counts: Vec<u32> = self.problem.kinds.iter().map(|kind| kind.count).collect();
        let mut whole = Vec::new();
        for (cut, share) in self.pool.iter().zip(shares) {
            // What is whole but for the library's rounding is whole.
            for _ in 0..(share + 1e-6).floor().max(0.0) as u32 {
                let fits = cut.1.iter().all(|&(i, n)| demand[i] >= n) && counts[cut.0] > 0;
                if fits {
                    take(&mut demand, &cut.1);
                    counts[cut.0] -= 1;
                    whole.push(cut.clone());
                }
            }
        }
        if let Some(mut bars) = first::fill(&self.problem, &demand, &counts, &mut self.work) {
            bars.extend(whole.iter().cloned());
            self.offer(bars);
        }
        if pieces > ROUNDED_ABOVE {
            self.whole = whole;
        }
    }

    fn offer(&mut self, bars: Vec<Cut>) {
        if (self.problem.cost(&bars), self.problem.bought(&bars)) < self.key() {
            self.best = bars;
            self.bettered += 1;
        }
    }

    /// One set of bars, as long as its allowance lasts.
    fn choose(&mut self, until: u64) {
        let key = self.key();
        let Phase::Choose(choosing) = &mut self.phase else {
            return;
        };
        choosing
            .open
            .retain(|it| (it.choice.cost, it.choice.bought) < key);
        let least_open = choosing.open.iter().map(|it| it.choice.cost).min();
        self.lower = least_open
            .unwrap_or(choosing.end)
            .min(key.0)
            .max(self.lower);
        if self.lower >= key.0 && self.work.0 >= MOST_WORK_FOR_STEEL {
            self.phase = Phase::Gather;
            return;
        }
        if choosing.open.is_empty() {
            if choosing.end > key.0 {
                self.steel_proved = true;
                self.phase = Phase::Gather;
                return;
            }
            let (found, end) = between(&self.problem, choosing.end, key, &mut self.work);
            if found.is_empty() && end <= choosing.end {
                // Too many sets of one cost to be listed.
                self.phase = Phase::Gather;
                return;
            }
            choosing.end = end;
            choosing.open = found.into_iter().map(Candidate::new).collect();
            choosing.at = 0;
            choosing.until = 0;
            return;
        }
        if choosing.at >= choosing.open.len() {
            if choosing.open.iter().all(|it| it.spent) {
                self.phase = Phase::Gather;
                return;
            }
            choosing.at = 0;
            choosing.allowance *= GROWTH;
        }
        let candidate = &mut choosing.open[choosing.at];
        if candidate.spent {
            choosing.at += 1;
            return;
        }
        if choosing.until == 0 {
            choosing.until = self.work.0 + choosing.allowance;
        }
        let limit = choosing.until.min(until).min(MOST_WORK);
        let whole = &self.whole;
        let (problem, pool) = (&self.problem, &self.pool);
        let outcome = candidate.go(problem, whole, pool, &mut self.work, limit);
        let had_its_share = self.work.0 >= choosing.until;
        let found = match outcome {
            Outcome::Open if !had_its_share => return,
            Outcome::Open => {
                choosing.at += 1;
                None
            }
            Outcome::Packed(bars) => Some(bars),
            Outcome::Impossible => {
                // Nor do fewer of the same bars.
                let failed = choosing.open.remove(choosing.at).choice.counts;
                let within = |counts: &[u32]| counts.iter().zip(&failed).all(|(a, b)| a <= b);
                choosing.open.retain(|it| !within(&it.choice.counts));
                // Those before it were tried in this round and are all left: of another cost, or with more steel.
                None
            }
            Outcome::NotFound => {
                candidate.spent = true;
                choosing.at += 1;
                None
            }
        };
        choosing.until = 0;
        if let Some(bars) = found {
            self.offer(bars);
        }
    }
}

impl Candidate {
    fn new(choice: Choice) -> Self {
        Self {
            choice,
            pack: None,
            rounded: true,
            spent: false,
        }
    }

    fn go(
        &mut self,
        problem: &Problem,
        whole: &[Cut],
        pool: &[Cut],
        work: &mut Work,
        limit: u64,
    ) -> Outcome {
        if self.pack.is_none() {
            let mut demand = problem.demand.clone();
            let mut counts = self.choice.counts.clone();
            self.rounded &= !whole.is_empty();
            for (kind, pattern) in whole.iter().filter(|_| self.rounded) {
                if counts[*kind] == 0 {
                    // These bars are others than the relaxation's.
                    self.rounded = false;
                    break;
                }
                counts[*kind] -= 1;
                take(&mut demand, pattern);
            }
            if !self.rounded {
                demand.clone_from(&problem.demand);
                counts.clone_from(&self.choice.counts);
            }
            self.pack = Some(Pack::new(demand, counts, pool.to_vec()));
        }
        let Some(pack) = &mut self.pack else {
            return Outcome::Open;
        };
        match pack.go(problem, work, limit) {
            Outcome::Packed(mut bars) => {
                if self.rounded {
                    bars.extend(whole.iter().cloned());
                }
                Outcome::Packed(bars)
            }
            Outcome::Impossible | Outcome::NotFound if self.rounded => {
                self.rounded = false;
                self.pack = None;
                Outcome::Open
            }
            outcome => outcome,
        }
    }
}

/// Everything that is wrong with an order.
#[derive(Clone, Debug, PartialEq)]
pub struct CutErrors(pub Vec<CutError>);

impl std::fmt::Display for CutErrors {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        for (index, error) in self.0.iter().enumerate() {
            write!(f, "{}{error}", if index == 0 { "" } else { " " })?;
        }
        Ok(())
    }
}

impl std::error::Error for CutErrors {}
