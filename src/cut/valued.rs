//! Every way to fill a bar that is worth enough.

use super::knapsack::{Ways, denser, shares};
use super::problem::{Pattern, Work};

/// The most turns of one listing.
const MOST_TURNS: u64 = 100_000;

/// What a way must come to, to be listed.
#[derive(Clone, Copy, Debug)]
pub(super) struct Enough {
    /// Room of the bar.
    pub capacity: i64,
    /// What its pieces are worth at least.
    pub value: i64,
    /// What it leaves open at most.
    pub waste: i64,
}

/// Every pattern within `demand` that is worth enough, each size worth `values`; at most `most` of them.
pub(super) fn valued(
    sizes: &[i64],
    values: &[i64],
    demand: &[u32],
    enough: Enough,
    most: usize,
    work: &mut Work,
) -> Ways {
    let mut order: Vec<usize> = (0..sizes.len())
        .filter(|&i| demand[i] > 0 && sizes[i] <= enough.capacity)
        .collect();
    order.sort_unstable_by(|a, b| denser(sizes, values, *a, *b));
    let mut rest = vec![0; order.len() + 1];
    for (at, &i) in order.iter().enumerate().rev() {
        rest[at] = rest[at + 1] + sizes[i] * i64::from(demand[i]);
    }
    let mut list = List {
        sizes,
        values,
        demand,
        enough,
        most,
        order,
        rest,
        taken: Vec::new(),
        found: Vec::new(),
        turns: 0,
        complete: true,
    };
    list.go(0, enough.capacity, 0);
    work.0 += list.turns * 3 + 50;
    Ways {
        patterns: list.found,
        complete: list.complete,
    }
}

struct List<'a> {
    sizes: &'a [i64],
    values: &'a [i64],
    demand: &'a [u32],
    enough: Enough,
    most: usize,
    order: Vec<usize>,
    /// For every place in `order`, Σ size·demand from it on.
    rest: Vec<i64>,
    taken: Pattern,
    found: Vec<Pattern>,
    turns: u64,
    complete: bool,
}

impl List<'_> {
    fn go(&mut self, at: usize, room: i64, value: i64) {
        self.turns += 1;
        if self.turns >= MOST_TURNS || self.found.len() >= self.most {
            self.complete = false;
            return;
        }
        if room - self.rest[at] > self.enough.waste {
            return;
        }
        let (sizes, values) = (self.sizes, self.values);
        let more = shares(sizes, values, self.demand, &self.order[at..], room);
        if value + more < self.enough.value {
            return;
        }
        let next = (at..self.order.len()).find(|&at| sizes[self.order[at]] <= room);
        let Some(at) = next else {
            if room <= self.enough.waste && value >= self.enough.value {
                let mut pattern = self.taken.clone();
                pattern.sort_unstable();
                self.found.push(pattern);
            }
            return;
        };
        let i = self.order[at];
        let most = (room / sizes[i]).min(i64::from(self.demand[i])) as u32;
        for n in (0..=most).rev() {
            if n > 0 {
                self.taken.push((i, n));
            }
            let used = i64::from(n);
            self.go(at + 1, room - used * sizes[i], value + used * values[i]);
            if n > 0 {
                self.taken.pop();
            }
            if !self.complete {
                return;
            }
        }
    }
}
