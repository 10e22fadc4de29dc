//! The offcut in one piece: what is left over is worth more in one length than in many.

use super::knapsack;
use super::problem::{Cut, Pattern, Problem, Work};

/// The most bars among which the offcut is gathered.
const MOST_BARS: usize = 600;

/// Deals the pieces of the bar with the most room and of every other bar out anew, so that the other is as full as
/// can be. Whether anything became better; when not, no dealing between two bars makes the longest offcut longer.
pub(super) fn once(problem: &Problem, bars: &mut [Cut], work: &mut Work) -> bool {
    let room = |(kind, pattern): &Cut| problem.kinds[*kind].capacity - problem.filled(pattern);
    let Some(most) = (0..bars.len()).max_by_key(|at| (room(&bars[*at]), *at)) else {
        return false;
    };
    if bars.len() > MOST_BARS {
        return false;
    }
    let mut better = false;
    for at in 0..bars.len() {
        if at == most || room(&bars[at]) == 0 {
            continue;
        }
        let mut pool = vec![0; problem.sizes.len()];
        for &(i, n) in bars[at].1.iter().chain(&bars[most].1) {
            pool[i] += n;
        }
        let capacity = problem.kinds[bars[at].0].capacity;
        let full = knapsack::best(&problem.sizes, &problem.sizes, &pool, capacity, work);
        if full.value > problem.filled(&bars[at].1) {
            super::problem::take(&mut pool, &full.pattern);
            bars[at].1 = full.pattern;
            let rest = pool.iter().enumerate().filter(|(_, n)| **n > 0);
            bars[most].1 = rest.map(|(i, n)| (i, *n)).collect::<Pattern>();
            better = true;
        }
    }
    better
}
