//! One bar: what is it worth at most, and in which ways can it be filled?

use std::cmp::Ordering;

use super::grid;
use super::problem::{Pattern, Work};

/// The most turns of one search; beyond it the bound by shares stands in for the value.
const MOST_TURNS: u64 = 400_000;

/// Turns after which the way over a grid is tried.
const FIRST_TURNS: u64 = 3_000;

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
/// over sizes in the order of their value per length, or over a grid ([`super::grid`]) where that takes long. Exact in
/// whole numbers.
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
    order.sort_unstable_by(|a, b| denser(sizes, values, *a, *b));
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
        most_turns: FIRST_TURNS,
    };
    let most = shares(sizes, values, demand, &fill.order, capacity);
    fill.go(0, capacity, 0, most);
    work.0 += fill.turns * 2 + 50;
    let mut done = fill.turns < fill.most_turns;
    if !done
        && let Some((value, best)) = grid::best(sizes, values, demand, &fill.order, capacity, work)
    {
        (fill.value, fill.best, done) = (value, best, true);
    }
    if !done {
        // What was found is kept: only better patterns are looked for.
        (fill.turns, fill.most_turns) = (0, MOST_TURNS);
        fill.go(0, capacity, 0, most);
        work.0 += fill.turns * 2;
        done = fill.turns < MOST_TURNS;
    }
    let mut pattern: Pattern = fill.best;
    pattern.sort_unstable();
    Best {
        bound: if done { fill.value } else { most },
        pattern,
        value: fill.value,
    }
}

/// The size of more value per length first.
pub(super) fn denser(sizes: &[i64], values: &[i64], a: usize, b: usize) -> Ordering {
    let left = i128::from(values[a]) * i128::from(sizes[b]);
    let right = i128::from(values[b]) * i128::from(sizes[a]);
    right
        .cmp(&left)
        .then(sizes[b].cmp(&sizes[a]))
        .then(a.cmp(&b))
}

/// For every place in `order`, the least size from there on.
fn least_after(order: &[usize], sizes: &[i64]) -> Vec<i64> {
    let mut least = vec![i64::MAX; order.len() + 1];
    for (at, &i) in order.iter().enumerate().rev() {
        least[at] = least[at + 1].min(sizes[i]);
    }
    least
}

/// What the sizes of `order`, the denser first, are worth at most in `room` when they may be divided.
pub(super) fn shares(
    sizes: &[i64],
    values: &[i64],
    demand: &[u32],
    order: &[usize],
    room: i64,
) -> i64 {
    let (mut room, mut value) = (room, 0);
    for &i in order {
        let whole = (room / sizes[i]).min(i64::from(demand[i]));
        value += whole * values[i];
        room -= whole * sizes[i];
        if whole < i64::from(demand[i]) {
            let part = i128::from(room) * i128::from(values[i]) / i128::from(sizes[i]);
            return value + part as i64;
        }
    }
    value
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
    most_turns: u64,
}

impl Fill<'_> {
    fn go(&mut self, at: usize, room: i64, value: i64, limit: i64) {
        self.turns += 1;
        if value > self.value {
            self.value = value;
            self.best.clone_from(&self.taken);
        }
        // The limit of everything is reached: nothing better is left anywhere.
        if self.value >= limit || self.turns >= self.most_turns || room < self.least[at] {
            return;
        }
        if value
            + shares(
                self.sizes,
                self.values,
                self.demand,
                &self.order[at..],
                room,
            )
            <= self.value
        {
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
            if self.turns >= self.most_turns || self.value >= limit {
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
            if room <= self.waste && is_full(self.sizes, self.demand, &self.taken, room, self.first)
            {
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
}

/// Whether nothing can be added to `pattern`, nor a longer size taken for one of it that is not `kept`.
pub(super) fn is_full(
    sizes: &[i64],
    demand: &[u32],
    pattern: &Pattern,
    room: i64,
    kept: usize,
) -> bool {
    let mut taken = pattern.iter().copied().peekable();
    let mut longer: Option<i64> = None;
    for i in 0..sizes.len() {
        let used = taken.next_if(|(at, _)| *at == i).map_or(0, |(_, n)| n);
        // Of the longer sizes that are left over, the next one costs an exchange the least room.
        if used > 0 && i != kept && longer.is_some_and(|longer| longer - sizes[i] <= room) {
            return false;
        }
        if demand[i] > used {
            if sizes[i] <= room {
                return false;
            }
            longer = Some(sizes[i]);
        }
    }
    true
}
