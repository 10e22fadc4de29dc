//! A first answer, and what completes one: bar after bar, each filled as well as can be.

use super::knapsack;
use super::problem::{Cut, Pattern, Problem, Work, take};

/// The fullest pattern within `capacity` that holds the longest size of `demand`, which must fit.
fn fullest(sizes: &[i64], demand: &[u32], capacity: i64, work: &mut Work) -> Option<Pattern> {
    let first = demand.iter().position(|n| *n > 0)?;
    if sizes[first] > capacity {
        return None;
    }
    let mut rest = demand.to_vec();
    rest[first] -= 1;
    let filled = knapsack::best(sizes, sizes, &rest, capacity - sizes[first], work);
    let mut pattern = filled.pattern;
    match pattern.first_mut() {
        Some((i, n)) if *i == first => *n += 1,
        _ => pattern.insert(0, (first, 1)),
    }
    Some(pattern)
}

/// Bars for all of `demand` from kinds of which `counts` are left, the one that costs least for what it gives first,
/// and the last one as cheap as holds the rest. Nothing when it comes to no end with these bars.
pub(super) fn fill(
    problem: &Problem,
    demand: &[u32],
    counts: &[u32],
    work: &mut Work,
) -> Option<Vec<Cut>> {
    let (mut demand, mut counts) = (demand.to_vec(), counts.to_vec());
    let mut bars = Vec::new();
    loop {
        let volume = problem.volume(&demand);
        if volume == 0 {
            return Some(bars);
        }
        let kinds = problem.kinds.iter().enumerate();
        let left = kinds.filter(|(kind, _)| counts[*kind] > 0);
        let holds_all = left.clone().filter(|(_, kind)| kind.capacity >= volume);
        if let Some((kind, _)) = holds_all.min_by_key(|(_, kind)| (kind.cost, kind.length)) {
            let all = demand.iter().enumerate().filter(|(_, n)| **n > 0);
            bars.push((kind, all.map(|(i, n)| (i, *n)).collect()));
            return Some(bars);
        }
        let mut best: Option<(f64, usize, Pattern)> = None;
        for (kind, bar) in left {
            let Some(pattern) = fullest(&problem.sizes, &demand, bar.capacity, work) else {
                continue;
            };
            let score = bar.cost as f64 / problem.filled(&pattern) as f64;
            if best.as_ref().is_none_or(|(least, ..)| score < *least) {
                best = Some((score, kind, pattern));
            }
        }
        let (_, kind, pattern) = best?;
        let times = pattern.iter().map(|&(i, n)| demand[i] / n).min()?;
        for _ in 0..times.min(counts[kind]) {
            take(&mut demand, &pattern);
            counts[kind] -= 1;
            bars.push((kind, pattern.clone()));
        }
    }
}

/// Every piece, longest first, into the bar it leaves least room in; nothing when the bars of `counts` do not do.
pub(super) fn best_fit(
    problem: &Problem,
    demand: &[u32],
    counts: &[u32],
    work: &mut Work,
) -> Option<Vec<Cut>> {
    let mut open: Vec<(usize, i64, Pattern)> = Vec::new();
    let mut counts = counts.to_vec();
    for (i, n) in demand.iter().enumerate() {
        for _ in 0..*n {
            let size = problem.sizes[i];
            work.0 += open.len() as u64 / 4 + 10;
            let tightest = open.iter_mut().filter(|(_, room, _)| *room >= size);
            let bar = match tightest.min_by_key(|(_, room, _)| *room) {
                Some(bar) => bar,
                None => {
                    let kinds = problem.kinds.iter().enumerate();
                    let (kind, new) = kinds
                        .filter(|(kind, bar)| counts[*kind] > 0 && bar.capacity >= size)
                        .max_by_key(|(_, bar)| bar.capacity)?;
                    counts[kind] -= 1;
                    open.push((kind, new.capacity, Vec::new()));
                    open.last_mut()?
                }
            };
            bar.1 -= size;
            match bar.2.last_mut() {
                Some((last, n)) if *last == i => *n += 1,
                _ => bar.2.push((i, 1)),
            }
        }
    }
    Some(
        open.into_iter()
            .map(|(kind, _, pattern)| (kind, pattern))
            .collect(),
    )
}
