//! Do all pieces go into these bars?
//!
//! Depth first: some bar holds the longest piece that is left, so every way to cut a bar with it is tried in turn.
//! A branch ends when what it wastes is more than all bars have to spare, by volume at once and by the relaxation
//! ([`super::relax`]) where volume alone does not tell, or when the same pieces were before the same bars already.
//! With the relaxation's values few ways are left that a packing can have, and instead of the longest piece the one
//! with the fewest of them is branched on.

use std::collections::HashSet;

use super::first;
use super::knapsack::{is_full, ways};
use super::problem::{Cut, Pattern, Problem, Work, take};
use super::relax::{Bars, Relaxation};
use super::valued::{Enough, valued};

/// The most ways that are looked at for one bar, up to [`EXACT_PIECES`] and beyond.
const MOST_WAYS: usize = 20_000;
const MOST_WAYS_OF_MANY: usize = 30;
/// The most pieces for which all ways are listed.
const EXACT_PIECES: u32 = 150;
/// The most states that are remembered to have failed.
const MOST_FAILED: usize = 200_000;
/// So many ways are tried one by one; of more, first those are looked for that can be ruled out together.
const FEW_WAYS: usize = 4;
/// Turns after which the search begins anew and asks the relaxation in every branch.
const PATIENCE: u64 = 40;
/// A size is never worth more than this many times its length: with less room than that the bars do not do.
const MOST_VALUE: f64 = 16.0;

/// What is known so far.
#[derive(Debug, PartialEq)]
pub(super) enum Outcome {
    /// The bars with their pieces.
    Packed(Vec<Cut>),
    /// No way exists.
    Impossible,
    /// All that was looked at failed, but not all was looked at.
    NotFound,
    /// There is more to look at.
    Open,
}

/// A search that can be gone on with.
pub(super) struct Pack {
    stack: Vec<Node>,
    failed: HashSet<(Vec<u32>, Vec<u32>)>,
    complete: bool,
    turns: u64,
    /// Ways that the relaxations found, for the next of them.
    pool: Vec<Cut>,
    begun: bool,
    /// What the node on top waits for.
    asked: Option<Asked>,
}

/// A relaxation that is being solved.
struct Asked {
    relaxation: Relaxation,
    demand: Vec<u32>,
    bars: Vec<Bars>,
    room: i64,
    /// Of ways that wait to be refuted: the size that they all give, the kinds to be looked at, that one first, and
    /// the ways.
    put: Option<(usize, Vec<usize>, Vec<Cut>)>,
}

struct Node {
    demand: Vec<u32>,
    counts: Vec<u32>,
    /// How this node's bar is cut; nothing at the root.
    cut: Option<Cut>,
    /// The ways still to be tried, the most promising last.
    ways: Option<Vec<Cut>>,
}

impl Pack {
    /// The pieces of `demand` into `counts` bars; `pool` holds ways known to be good.
    pub fn new(demand: Vec<u32>, counts: Vec<u32>, pool: Vec<Cut>) -> Self {
        let root = Node {
            demand,
            counts,
            cut: None,
            ways: None,
        };
        Self {
            stack: vec![root],
            failed: HashSet::new(),
            complete: true,
            turns: 0,
            pool,
            begun: false,
            asked: None,
        }
    }

    /// Goes on until something is known or `work` has reached `limit`.
    pub fn go(&mut self, problem: &Problem, work: &mut Work, limit: u64) -> Outcome {
        if !self.begun {
            self.begun = true;
            let Some(root) = self.stack.first() else {
                return Outcome::Impossible;
            };
            let (demand, counts) = (&root.demand, &root.counts);
            let simple = first::best_fit(problem, demand, counts, work);
            if let Some(bars) = simple.or_else(|| first::fill(problem, demand, counts, work)) {
                return Outcome::Packed(bars);
            }
        }
        while let Some(node) = self.stack.last_mut() {
            if work.0 >= limit {
                return Outcome::Open;
            }
            if let Some(asked) = &mut self.asked {
                let more = asked.relaxation.turn(work);
                if !more || asked.relaxation.lower > i128::from(asked.room) {
                    self.answered(problem, work);
                }
                continue;
            }
            let Some(left) = &mut node.ways else {
                if let Some(bars) = self.open(problem, work) {
                    return Outcome::Packed(bars);
                }
                continue;
            };
            if let Some(cut) = left.pop() {
                let (mut demand, mut counts) = (node.demand.clone(), node.counts.clone());
                take(&mut demand, &cut.1);
                counts[cut.0] -= 1;
                self.stack.push(Node {
                    demand,
                    counts,
                    cut: Some(cut),
                    ways: None,
                });
            } else if let Some(done) = self.stack.pop()
                && self.failed.len() < MOST_FAILED
            {
                self.failed.insert((done.demand, done.counts));
            }
        }
        if self.complete {
            Outcome::Impossible
        } else {
            Outcome::NotFound
        }
    }

    /// Lists the ways of the node on top, or gives the answer when it is there.
    fn open(&mut self, problem: &Problem, work: &mut Work) -> Option<Vec<Cut>> {
        self.turns += 1;
        if self.turns == PATIENCE {
            self.stack.truncate(1);
            self.failed.clear();
            self.complete = true;
            self.stack.first_mut()?.ways = None;
        }
        let node = self.stack.last()?;
        let volume = problem.volume(&node.demand);
        if volume == 0 {
            return Some(
                self.stack
                    .iter()
                    .filter_map(|node| node.cut.clone())
                    .collect(),
            );
        }
        work.0 += node.demand.len() as u64 * 4 + 100;
        let kinds = problem.kinds.iter().zip(&node.counts);
        let room: i64 = kinds.map(|(kind, n)| kind.capacity * i64::from(*n)).sum();
        let spare = room - volume;
        let known = spare < 0
            || self
                .failed
                .contains(&(node.demand.clone(), node.counts.clone()));
        if known {
            self.stack.last_mut()?.ways = Some(Vec::new());
            return None;
        }
        let pieces: u32 = node.demand.iter().sum();
        let bars: u32 = node.counts.iter().sum();
        let ask = self.stack.len() == 1 || self.turns > PATIENCE;
        if ask && bars > 1 && pieces > 3 && pieces <= EXACT_PIECES {
            let (demand, bars) = (node.demand.clone(), node.bars(problem));
            self.ask(problem, demand, bars, room, None, work);
        } else {
            self.list(problem, work);
        }
        None
    }

    /// Begins a relaxation, in which a bar costs its room.
    fn ask(
        &mut self,
        problem: &Problem,
        demand: Vec<u32>,
        bars: Vec<Bars>,
        room: i64,
        put: Option<(usize, Vec<usize>, Vec<Cut>)>,
        work: &mut Work,
    ) {
        let (most, pool) = (Some(MOST_VALUE), &self.pool);
        let relaxation = Relaxation::new(&problem.sizes, &demand, &bars, pool, most, work);
        self.asked = Some(Asked {
            relaxation,
            demand,
            bars,
            room,
            put,
        });
    }

    /// What follows from the relaxation that was asked for: ways for the node on top, or the next relaxation.
    fn answered(&mut self, problem: &Problem, work: &mut Work) {
        let (Some(mut asked), Some(node)) = (self.asked.take(), self.stack.last_mut()) else {
            return;
        };
        let found = &mut asked.relaxation;
        // A bar cut in part comes after all kinds, and its ways are no other bar's.
        let whole = found.found.drain(..);
        self.pool
            .extend(whole.filter(|(kind, _)| *kind < problem.kinds.len()));
        let short = found.short(&asked.demand, &asked.bars, asked.room);
        if let Some((size, mut kinds, mut listed)) = asked.put {
            let kind = kinds.remove(0);
            let top = found.top.last().copied().unwrap_or(0);
            let least = short.map(|short| top - short + found.worth[size]);
            listed.retain(|(other, pattern)| {
                *other != kind || least.is_some_and(|least| found.worth(pattern) >= least)
            });
            work.0 += listed.len() as u64 * 20;
            self.refute(problem, size, kinds, listed, work);
            return;
        }
        let Some(short) = short else {
            node.ways = Some(Vec::new());
            return;
        };
        let spare = asked.room - problem.volume(&asked.demand);
        match narrowest(problem, node, found, short, spare, work) {
            Some((size, listed)) => {
                let kinds = if listed.len() > FEW_WAYS {
                    node.distinct(problem)
                } else {
                    Vec::new()
                };
                self.refute(problem, size, kinds, listed, work);
            }
            None => self.list(problem, work),
        }
    }

    /// Asks whether a piece of `size` can lie in a bar of the first of `kinds` that is in question: one answer for
    /// all ways of `listed` that put it there. Without any the node takes what is listed.
    fn refute(
        &mut self,
        problem: &Problem,
        size: usize,
        mut kinds: Vec<usize>,
        listed: Vec<Cut>,
        work: &mut Work,
    ) {
        kinds.retain(|kind| listed.iter().any(|cut| cut.0 == *kind));
        let Some(node) = self.stack.last_mut() else {
            return;
        };
        let Some(kind) = kinds.first().copied() else {
            node.ways = Some(listed);
            return;
        };
        let (mut demand, mut bars) = (node.demand.clone(), node.bars(problem));
        demand[size] -= 1;
        bars[kind].count -= 1;
        let rest = bars[kind].capacity - problem.sizes[size];
        bars.push(Bars {
            capacity: rest,
            count: 1,
            cost: rest,
        });
        let rooms = bars.iter().map(|bar| bar.capacity * i64::from(bar.count));
        let room = rooms.sum();
        let put = Some((size, kinds, listed));
        self.ask(problem, demand, bars, room, put, work);
    }

    /// Lists the ways for the bar with the longest piece of the node on top, without a relaxation.
    fn list(&mut self, problem: &Problem, work: &mut Work) {
        let Some(node) = self.stack.last_mut() else {
            return;
        };
        let pieces: u32 = node.demand.iter().sum();
        let kinds = problem.kinds.iter().zip(&node.counts);
        let room: i64 = kinds.map(|(kind, n)| kind.capacity * i64::from(*n)).sum();
        let spare = room - problem.volume(&node.demand);
        let most = if pieces <= EXACT_PIECES {
            MOST_WAYS
        } else {
            MOST_WAYS_OF_MANY
        };
        let mut listed: Vec<(i64, Cut)> = Vec::new();
        for kind in node.distinct(problem) {
            let capacity = problem.kinds[kind].capacity;
            let found = ways(&problem.sizes, &node.demand, capacity, spare, most, work);
            self.complete &= found.complete;
            for pattern in found.patterns {
                listed.push((capacity - problem.filled(&pattern), (kind, pattern)));
            }
        }
        work.0 += listed.len() as u64 * 20;
        listed.sort_by(|a, b| b.0.cmp(&a.0).then_with(|| a.1.cmp(&b.1)));
        node.ways = Some(listed.into_iter().map(|(_, cut)| cut).collect());
    }
}

impl Node {
    /// The bars that are left, in which a bar costs its room.
    fn bars(&self, problem: &Problem) -> Vec<Bars> {
        let kinds = problem.kinds.iter().zip(&self.counts);
        kinds
            .map(|(kind, count)| Bars {
                capacity: kind.capacity,
                count: *count,
                cost: kind.capacity,
            })
            .collect()
    }

    /// The kinds of which bars are left; those of one capacity are alike here, whatever they cost.
    fn distinct(&self, problem: &Problem) -> Vec<usize> {
        let mut distinct: Vec<usize> = Vec::new();
        for (kind, bar) in problem.kinds.iter().enumerate() {
            let alike = |other: &usize| problem.kinds[*other].capacity == bar.capacity;
            if self.counts[kind] > 0 && !distinct.iter().any(alike) {
                distinct.push(kind);
            }
        }
        distinct
    }
}

/// The size with the fewest ways to cut a bar that gives it, and those ways, the most promising last: all that fall
/// `short` of the most a bar can be worth by no more than that and leave open no more than `spare`. Nothing when
/// there are too many to be told.
fn narrowest(
    problem: &Problem,
    node: &Node,
    relaxed: &Relaxation,
    short: i64,
    spare: i64,
    work: &mut Work,
) -> Option<(usize, Vec<Cut>)> {
    let (sizes, demand) = (&problem.sizes, &node.demand);
    let mut all: Vec<(i64, i64, Cut)> = Vec::new();
    for kind in node.distinct(problem) {
        let (capacity, top) = (problem.kinds[kind].capacity, relaxed.top[kind]);
        let enough = Enough {
            capacity,
            value: top - short,
            waste: spare,
        };
        let most = MOST_WAYS - all.len();
        let found = valued(sizes, &relaxed.worth, demand, enough, most, work);
        if !found.complete {
            return None;
        }
        for pattern in found.patterns {
            let waste = capacity - problem.filled(&pattern);
            all.push((top - relaxed.worth(&pattern), waste, (kind, pattern)));
        }
    }
    let full =
        |size: usize, waste: i64, pattern: &Pattern| is_full(sizes, demand, pattern, waste, size);
    let mut with = vec![0_u32; sizes.len()];
    for (_, waste, (_, pattern)) in &all {
        for (size, _) in pattern {
            with[*size] += u32::from(full(*size, *waste, pattern));
        }
    }
    work.0 += all.len() as u64 * 200;
    let wanted = (0..with.len()).filter(|size| demand[*size] > 0);
    let size = wanted.min_by_key(|size| with[*size])?;
    all.retain(|(_, waste, (_, pattern))| {
        pattern.iter().any(|(other, _)| *other == size) && full(size, *waste, pattern)
    });
    all.sort_by(|a, b| (b.0, b.1).cmp(&(a.0, a.1)).then_with(|| a.2.cmp(&b.2)));
    Some((size, all.into_iter().map(|(_, _, cut)| cut).collect()))
}
