//! Do all pieces go into these bars?
//!
//! Depth first: some bar holds the longest piece that is left, so every way to cut a bar with it is tried in turn.
//! A branch ends when what it wastes is more than all bars have to spare, by volume at once and by the relaxation
//! ([`super::relax`]) where volume alone does not tell, or when the same pieces were before the same bars already.

use std::collections::HashSet;

use super::first;
use super::knapsack::ways;
use super::problem::{Cut, Problem, Work, take};
use super::relax::{Bars, Relaxation};

/// The most ways that are looked at for one bar, up to [`EXACT_PIECES`] and beyond.
const MOST_WAYS: usize = 20_000;
const MOST_WAYS_OF_MANY: usize = 30;
/// The most pieces for which all ways are listed.
const EXACT_PIECES: u32 = 150;
/// The most states that are remembered to have failed.
const MOST_FAILED: usize = 200_000;
/// Turns after which the relaxation is asked in every branch.
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
        let listed = if known {
            Vec::new()
        } else {
            self.list(problem, room, spare, work)
        };
        self.stack.last_mut()?.ways = Some(listed);
        None
    }

    fn list(&mut self, problem: &Problem, room: i64, spare: i64, work: &mut Work) -> Vec<Cut> {
        let Some(node) = self.stack.last() else {
            return Vec::new();
        };
        let pieces: u32 = node.demand.iter().sum();
        let bars: u32 = node.counts.iter().sum();
        let mut relaxed = None;
        let ask = self.stack.len() == 1 || self.turns > PATIENCE;
        if ask && bars > 1 && pieces > 3 && spare > 0 && pieces <= EXACT_PIECES {
            let found = self.relax(problem, room, work);
            if found.lower > i128::from(room) {
                return Vec::new();
            }
            // As long as the bound is below the volume, the volume tells more.
            relaxed = (found.lower >= i128::from(room - spare)).then_some(found);
        }
        let Some(node) = self.stack.last() else {
            return Vec::new();
        };
        let most = if pieces <= EXACT_PIECES {
            MOST_WAYS
        } else {
            MOST_WAYS_OF_MANY
        };
        let mut listed: Vec<(i64, i64, Cut)> = Vec::new();
        for (kind, bar) in problem.kinds.iter().enumerate() {
            // Bars of one capacity are alike here, whatever they cost.
            let alike = |other: usize| problem.kinds[other].capacity == bar.capacity;
            let tried = (0..kind).any(|other| node.counts[other] > 0 && alike(other));
            if node.counts[kind] == 0 || tried {
                continue;
            }
            let found = ways(
                &problem.sizes,
                &node.demand,
                bar.capacity,
                spare,
                most,
                work,
            );
            self.complete &= found.complete;
            for pattern in found.patterns {
                let waste = bar.capacity - problem.filled(&pattern);
                let reduced = relaxed.as_ref().map_or(waste, |relaxed| {
                    let parts = pattern.iter();
                    let worth: i64 = parts.map(|&(i, n)| relaxed.worth[i] * i64::from(n)).sum();
                    bar.capacity + relaxed.rent[kind] - worth
                });
                // A packing with this bar costs at least the bound and what the bar falls short of it.
                let over = relaxed
                    .as_ref()
                    .is_some_and(|relaxed| relaxed.lower + i128::from(reduced) > i128::from(room));
                if !over {
                    listed.push((reduced, waste, (kind, pattern)));
                }
            }
        }
        work.0 += listed.len() as u64 * 20;
        listed.sort_by(|a, b| (b.0, b.1).cmp(&(a.0, a.1)).then_with(|| a.2.cmp(&b.2)));
        listed.into_iter().map(|(_, _, cut)| cut).collect()
    }

    /// The relaxation at the node on top, in which a bar costs its room: as far as it can still end the branch.
    fn relax(&mut self, problem: &Problem, room: i64, work: &mut Work) -> Relaxation {
        let (demand, counts) = match self.stack.last() {
            Some(node) => (node.demand.clone(), node.counts.clone()),
            None => (Vec::new(), Vec::new()),
        };
        let kinds = problem.kinds.iter().zip(&counts);
        let bars: Vec<Bars> = kinds
            .map(|(kind, count)| Bars {
                capacity: kind.capacity,
                count: *count,
                cost: kind.capacity,
            })
            .collect();
        let most = Some(MOST_VALUE);
        let mut relaxation =
            Relaxation::new(&problem.sizes, &demand, &bars, &self.pool, most, work);
        while relaxation.turn(work) {
            let decided = relaxation.lower > i128::from(room) || relaxation.upper() <= room as f64;
            if decided {
                break;
            }
        }
        self.pool.append(&mut relaxation.found);
        relaxation
    }
}
