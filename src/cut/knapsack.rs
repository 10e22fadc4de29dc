//! One bar: what is it worth at most, and in which ways can it be filled?

use super::problem::{Pattern, Work};

/// The most turns of one search; beyond it the bound by shares stands in for the value.
const MOST_TURNS: u64 = 400_000;

/// What a bar is worth at most.
pub(super) struct Best {
    /// A value that no pattern exceeds; that of `pattern` unless the search was cut short.
    pub bound: i64,
    /// The best pattern found.
    pub pattern: Pattern,
    /// Its value.
    pub value: i64,
}

/// The most valuable pattern of sizes within `capacity` and `demand`, each size worth `values`, by branch and bound
/// over sizes in the order of their value per length. Exact in whole numbers.
pub(super) fn best(
    sizes: &[i64],
    values: &[i64],
    demand: &[u32],
    capacity: i64,
    work: &mut Work,
) -> Best {
    let mut order: Vec<usize> = (0..sizes.len())
        .filter(|&i| values[i] > 0 && demand[i] > 0 && sizes[i] <= capacity)
        .collect();
    let denser = |a: &usize, b: &usize| {
        let left = i128::from(values[*a]) * i128::from(sizes[*b]);
        let right = i128::from(values[*b]) * i128::from(sizes[*a]);
        right
            .cmp(&left)
            .then(sizes[*b].cmp(&sizes[*a]))
            .then(a.cmp(b))
    };
    order.sort_unstable_by(denser);
    let mut fill = Fill {
        sizes,
        values,
        demand,
        least: least_after(&order, sizes),
        order,
        taken: Vec::new(),
        best: Vec::new(),
        value: 0,
        turns: 0,
    };
    let shares = fill.shares(0, capacity);
    fill.go(0, capacity, 0, shares);
    work.0 += fill.turns * 2 + 50;
    let mut pattern: Pattern = fill.best.clone();
    pattern.sort_unstable();
    Best {
        bound: if fill.turns >= MOST_TURNS {
            shares
        } else {
            fill.value
        },
        pattern,
        value: fill.value,
    }
}

/// For every place in `order`, the least size from there on.
fn least_after(order: &[usize], sizes: &[i64]) -> Vec<i64> {
    let mut least = vec![i64::MAX; order.len() + 1];
    for (at, &i) in order.iter().enumerate().rev() {
        least[at] = least[at + 1].min(sizes[i]);
    }
    least
}

struct Fill<'a> {
    sizes: &'a [i64],
    values: &'a [i64],
    demand: &'a [u32],
    order: Vec<usize>,
    least: Vec<i64>,
    taken: Vec<(usize, u32)>,
    best: Vec<(usize, u32)>,
    value: i64,
    turns: u64,
}

impl Fill<'_> {
    /// What sizes from place `at` on are worth at most in `room` when they may be divided.
    fn shares(&self, at: usize, room: i64) -> i64 {
        let (mut room, mut value) = (room, 0);
        for &i in &self.order[at..] {
            let whole = (room / self.sizes[i]).min(i64::from(self.demand[i]));
            value += whole * self.values[i];
            room -= whole * self.sizes[i];
            if whole < i64::from(self.demand[i]) {
                let part =
                    i128::from(room) * i128::from(self.values[i]) / i128::from(self.sizes[i]);
                return value + part as i64;
            }
        }
        value
    }

    fn go(&mut self, at: usize, room: i64, value: i64, limit: i64) {
        self.turns += 1;
        if value > self.value {
            self.value = value;
            self.best.clone_from(&self.taken);
        }
        // The limit of everything is reached: nothing better is left anywhere.
        if self.value >= limit || self.turns >= MOST_TURNS || room < self.least[at] {
            return;
        }
        if value + self.shares(at, room) <= self.value {
            return;
        }
        let i = self.order[at];
        let most = (room / self.sizes[i]).min(i64::from(self.demand[i])) as u32;
        for n in (0..=most).rev() {
            if n > 0 {
                self.taken.push((i, n));
            }
            let used = i64::from(n);
            self.go(
                at + 1,
                room - used * self.sizes[i],
                value + used * self.values[i],
                limit,
            );
            if n > 0 {
                self.taken.pop();
            }
            if self.turns >= MOST_TURNS || self.value >= limit {
                return;
            }
        }
    }
}

/// The ways to fill a bar that holds the longest size still wanted.
pub(super) struct Ways {
    /// The patterns.
    pub patterns: Vec<Pattern>,
    /// Whether these are all that matter.
    pub complete: bool,
}

/// Every pattern that holds the longest size of `demand`, leaves at most `waste` of `capacity`, and cannot be bettered
/// by adding a size or by taking a longer one for another. The others need not be tried: exchanging the two pieces
/// between this bar and the other one keeps both within their room. At most `most` of them.
pub(super) fn ways(
    sizes: &[i64],
    demand: &[u32],
    capacity: i64,
    waste: i64,
    most: usize,
    work: &mut Work,
) -> Ways {
    let Some(first) = demand.iter().position(|count| *count > 0) else {
        return Ways {
            patterns: Vec::new(),
            complete: true,
        };
    };
    let mut search = All {
        sizes,
        demand,
        first,
        waste,
        most,
        rest: rest(sizes, demand),
        taken: Vec::new(),
        found: Vec::new(),
        turns: 0,
        complete: true,
    };
    if sizes[first] <= capacity {
        search.go(first, capacity);
    }
    work.0 += search.turns * 3 + 50;
    Ways {
        patterns: search.found,
        complete: search.complete,
    }
}

/// For every size, Σ size·demand from it on.
fn rest(sizes: &[i64], demand: &[u32]) -> Vec<i64> {
    let mut rest = vec![0; sizes.len() + 1];
    for i in (0..sizes.len()).rev() {
        rest[i] = rest[i + 1] + sizes[i] * i64::from(demand[i]);
    }
    rest
}

struct All<'a> {
    sizes: &'a [i64],
    demand: &'a [u32],
    first: usize,
    waste: i64,
    most: usize,
    rest: Vec<i64>,
    taken: Vec<(usize, u32)>,
    found: Vec<Pattern>,
    turns: u64,
    complete: bool,
}

impl All<'_> {
    fn go(&mut self, at: usize, room: i64) {
        self.turns += 1;
        if self.turns >= MOST_TURNS || self.found.len() >= self.most {
            self.complete = false;
            return;
        }
        // Even all that is left leaves more open than may be.
        if room - self.rest[at] > self.waste {
            return;
        }
        // Sizes that no longer fit are passed over at once.
        let next = (at..self.sizes.len()).find(|&i| self.demand[i] > 0 && self.sizes[i] <= room);
        let Some(i) = next else {
            if room <= self.waste && self.is_full(room) {
                self.found.push(self.taken.clone());
            }
            return;
        };
        let most = (room / self.sizes[i]).min(i64::from(self.demand[i])) as u32;
        let least = u32::from(i == self.first);
        for n in (least..=most).rev() {
            if n > 0 {
                self.taken.push((i, n));
            }
            self.go(i + 1, room - i64::from(n) * self.sizes[i]);
            if n > 0 {
                self.taken.pop();
            }
            if !self.complete {
                return;
            }
        }
    }

    /// Whether nothing can be added, nor a longer size taken for one of the pattern.
    fn is_full(&self, room: i64) -> bool {
        let mut taken = self.taken.iter().copied().peekable();
        for i in 0..self.sizes.len() {
            let used = match taken.peek() {
                Some(&(at, n)) if at == i => {
                    taken.next();
                    n
                }
                _ => 0,
            };
            if self.demand[i] <= used {
                continue;
            }
            if self.sizes[i] <= room {
                return false;
            }
            // The next shorter size of the pattern is the one that an exchange costs least.
            let shorter = self.taken.len() - taken.len();
            if let Some(&(j, _)) = self.taken.get(shorter)
                && self.sizes[i] - self.sizes[j] <= room
            {
                return false;
            }
        }
        true
    }
}
