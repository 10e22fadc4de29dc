//! Which sets of bars could be bought for a cost, cheapest first.

use std::cmp::Reverse;

use super::problem::{Problem, Work};

/// How many bars of each kind.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Choice {
    /// What they cost.
    pub cost: i128,
    /// The steel in them, in nm.
    pub bought: i64,
    /// The bars, by kind.
    pub counts: Vec<u32>,
}

/// The most sets that are listed at once.
const MOST: usize = 5_000;
/// The most turns of one listing.
const MOST_TURNS: u64 = 2_000_000;

/// The sets that have room for everything, cost at least `least` and come before `below` (cost, then steel), cheapest
/// first, and of those of equal cost the one with most steel: where it does not do, no part of it does. With it the cost below which the list is complete.
pub(super) fn between(
    problem: &Problem,
    least: i128,
    below: (i128, i64),
    work: &mut Work,
) -> (Vec<Choice>, i128) {
    let mut end = below.0 + 1;
    loop {
        let mut list = List {
            problem,
            volume: problem.volume(&problem.demand),
            least,
            end,
            below,
            counts: vec![0; problem.kinds.len()],
            found: Vec::new(),
            turns: 0,
        };
        list.go(0, 0, 0, 0);
        work.0 += list.turns;
        if list.turns < MOST_TURNS && list.found.len() < MOST {
            let mut found = list.found;
            found.sort_by(|a, b| {
                let key = |choice: &Choice| (choice.cost, Reverse(choice.bought));
                key(a).cmp(&key(b)).then_with(|| b.counts.cmp(&a.counts))
            });
            return (found, end);
        }
        if end <= least + 1 {
            return (Vec::new(), least);
        }
        // Too many: the cheaper half of the span first.
        end = least + (end - least) / 2;
    }
}

struct List<'a> {
    problem: &'a Problem,
    volume: i64,
    least: i128,
    end: i128,
    below: (i128, i64),
    counts: Vec<u32>,
    found: Vec<Choice>,
    turns: u64,
}

impl List<'_> {
    fn go(&mut self, kind: usize, room: i64, cost: i128, bought: i64) {
        self.turns += 1;
        if cost >= self.end || self.turns >= MOST_TURNS || self.found.len() >= MOST {
            return;
        }
        let Some(bar) = self.problem.kinds.get(kind) else {
            let enough = room >= self.volume && cost >= self.least;
            if enough && (cost, bought) < self.below {
                let counts = self.counts.clone();
                self.found.push(Choice {
                    cost,
                    bought,
                    counts,
                });
            }
            return;
        };
        let last = kind + 1 == self.problem.kinds.len();
        // Of the last kind there must be as many as the rest needs.
        let needed = if last {
            let short_room = (self.volume - room).max(0).unsigned_abs();
            let by_room = short_room.div_ceil(bar.capacity.unsigned_abs());
            let short = (self.least - cost).max(0).unsigned_abs();
            let each = u128::from(bar.cost.unsigned_abs());
            let by_cost = if each > 0 { short.div_ceil(each) } else { 0 };
            by_cost.max(u128::from(by_room))
        } else {
            0
        };
        for n in 0..=bar.count {
            if u128::from(n) < needed {
                continue;
            }
            let cost = cost + i128::from(bar.cost) * i128::from(n);
            if cost >= self.end {
                break;
            }
            self.counts[kind] = n;
            let n = i64::from(n);
            self.go(
                kind + 1,
                room + bar.capacity * n,
                cost,
                bought + bar.length * n,
            );
            if self.turns >= MOST_TURNS || self.found.len() >= MOST {
                break;
            }
        }
        self.counts[kind] = 0;
    }
}
