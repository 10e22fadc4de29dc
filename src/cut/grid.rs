//! The most valuable way to fill a bar whose sizes are whole multiples of one length, such as a millimetre or a 64th of
//! an inch: the best of every room in turn (R. Bellman, "Dynamic Programming", 1957; from memory).

use super::problem::{Pattern, Work, common};

/// The most entries of a table: pieces × multiples in the bar.
const MOST_ENTRIES: i64 = 4_000_000;

/// The value and the pattern; nothing when the grid is too fine for it. Sizes are those of `order`, within `demand`.
pub(super) fn best(
    sizes: &[i64],
    values: &[i64],
    demand: &[u32],
    order: &[usize],
    capacity: i64,
    work: &mut Work,
) -> Option<(i64, Pattern)> {
    let unit = order.iter().fold(0, |unit, &i| common(unit, sizes[i]));
    let room = capacity.checked_div(unit)?;
    let mut pieces: Vec<usize> = Vec::new();
    for &i in order {
        let most = (capacity / sizes[i]).min(i64::from(demand[i]));
        pieces.extend((0..most).map(|_| i));
    }
    let entries = (pieces.len() as i64).checked_mul(room + 1)?;
    if entries > MOST_ENTRIES {
        return None;
    }
    work.0 += entries.unsigned_abs() / 5;
    let width = usize::try_from(room).ok()? + 1;
    let mut value = vec![0_i64; width];
    // Whether a piece is taken when those before it and it may fill so much.
    let mut taken = vec![false; pieces.len() * width];
    for (&i, taken) in pieces.iter().zip(taken.chunks_exact_mut(width)) {
        let size = usize::try_from(sizes[i] / unit).ok()?;
        for at in (size..width).rev() {
            let with = value[at - size] + values[i];
            if with > value[at] {
                value[at] = with;
                taken[at] = true;
            }
        }
    }
    let mut pattern = Pattern::new();
    let mut at = width - 1;
    for (&i, taken) in pieces.iter().zip(taken.chunks_exact(width)).rev() {
        if taken[at] {
            at -= usize::try_from(sizes[i] / unit).ok()?;
            match pattern.iter_mut().find(|(other, _)| *other == i) {
                Some((_, n)) => *n += 1,
                None => pattern.push((i, 1)),
            }
        }
    }
    Some((value[width - 1], pattern))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::cut::knapsack;

    #[test]
    fn the_grid_gives_what_the_search_gives() {
        let sizes = [1_700, 1_300, 900, 650, 400];
        let demand = [2, 1, 3, 2, 4];
        let order = [0, 1, 2, 3, 4];
        for values in [
            [171, 131, 88, 66, 39],
            [90, 140, 80, 20, 41],
            [5, 5, 5, 5, 5],
        ] {
            for capacity in [399, 400, 2_050, 3_333, 5_000, 20_000] {
                let mut work = Work::default();
                let other = knapsack::best(&sizes, &values, &demand, capacity, &mut work);
                let (value, pattern) =
                    best(&sizes, &values, &demand, &order, capacity, &mut work).expect("a grid");
                assert_eq!(value, other.value, "{capacity}");
                let sum = |of: &[i64]| -> i64 {
                    pattern.iter().map(|&(i, n)| of[i] * i64::from(n)).sum()
                };
                assert_eq!(sum(&values), value);
                assert!(sum(&sizes) <= capacity);
                assert!(pattern.iter().all(|&(i, n)| n <= demand[i]));
            }
        }
    }

    #[test]
    fn a_grid_of_nanometres_is_too_fine() {
        let (sizes, values) = ([700_000_001, 500_000_000], [7, 5]);
        let mut work = Work::default();
        let found = best(&sizes, &values, &[3, 3], &[0, 1], 3_000_000_000, &mut work);
        assert!(found.is_none());
    }
}
