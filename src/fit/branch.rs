//! The best choices under a linear model: branch and bound over one of two for every variable.

/// A quantity of the model: what it is, how the choices move it, where it should lie.
pub(super) struct Row {
    /// Its value before any choice.
    pub(super) value: f64,
    /// What either choice of every variable adds.
    pub(super) added: Vec<[f64; 2]>,
    /// The least value that costs nothing.
    pub(super) low: f64,
    /// The greatest.
    pub(super) high: f64,
    /// The distance outside that costs 1; the cost goes with its square.
    pub(super) scale: f64,
}

impl Row {
    /// What the nearest value between `least` and `most` costs.
    fn cost(&self, least: f64, most: f64) -> f64 {
        let outside = (least - self.high).max(self.low - most).max(0.0) / self.scale;
        outside * outside
    }
}

/// Which of its two every variable takes.
pub(super) type Choices = Vec<usize>;

/// The `most` choices that cost least, the best first: the costs of all rows and what every
/// choice costs by `own`.
///
/// A branch is left when even the nearest values its rows can still reach cost more than the
/// worst choice kept, so the answer is exact, unless more than `nodes` branches are entered; then
/// it is the best of those. Variables that move the rows most are chosen first, so that the last
/// ones tune what the first have left.
pub(super) fn best(rows: &[Row], own: &[[f64; 2]], most: usize, nodes: usize) -> Vec<Choices> {
    let count = own.len();
    let weight = |k: usize| -> f64 {
        let moved = |row: &Row| (row.added[k][1] - row.added[k][0]).abs() / row.scale;
        rows.iter().map(moved).sum()
    };
    let weights: Vec<f64> = (0..count).map(|k| -weight(k)).collect();
    let order = crate::numeric::order::order(&weights);
    // What the variables from a depth on can still add, at least and at most.
    let rest: Vec<Vec<[f64; 2]>> = rows
        .iter()
        .map(|row| {
            let mut rest = vec![[0.0; 2]; count + 1];
            for depth in (0..count).rev() {
                let [one, other] = row.added[order[depth]];
                let [least, most] = rest[depth + 1];
                rest[depth] = [least + one.min(other), most + one.max(other)];
            }
            rest
        })
        .collect();
    let mut tree = Tree {
        rows,
        own,
        order,
        rest,
        most,
        nodes,
        taken: vec![0; count],
        kept: Vec::with_capacity(most + 1),
    };
    let values: Vec<f64> = rows.iter().map(|row| row.value).collect();
    tree.enter(0, &values, 0.0);
    tree.kept.into_iter().map(|(_, choices)| choices).collect()
}

struct Tree<'a> {
    rows: &'a [Row],
    own: &'a [[f64; 2]],
    order: Vec<usize>,
    rest: Vec<Vec<[f64; 2]>>,
    most: usize,
    nodes: usize,
    taken: Choices,
    /// The best so far with what they cost.
    kept: Vec<(f64, Choices)>,
}

impl Tree<'_> {
    /// The least that any choice below costs.
    fn bound(&self, depth: usize, values: &[f64], own: f64) -> f64 {
        let rows = self.rows.iter().zip(&self.rest).zip(values);
        own + rows
            .map(|((row, rest), value)| row.cost(value + rest[depth][0], value + rest[depth][1]))
            .sum::<f64>()
    }

    fn is_kept(&self, cost: f64) -> bool {
        let full = self.kept.len() >= self.most;
        !full || self.kept.last().is_some_and(|(worst, _)| cost < *worst)
    }

    fn enter(&mut self, depth: usize, values: &[f64], own: f64) {
        let Some(&k) = self.order.get(depth) else {
            let cost = self.bound(depth, values, own);
            let at = self.kept.partition_point(|(known, _)| *known <= cost);
            self.kept.insert(at, (cost, self.taken.clone()));
            self.kept.truncate(self.most);
            return;
        };
        let mut ways = [0, 1].map(|choice| {
            let moved = |(row, value): (&Row, &f64)| value + row.added[k][choice];
            let values: Vec<f64> = self.rows.iter().zip(values).map(moved).collect();
            let own = own + self.own[k][choice];
            (self.bound(depth + 1, &values, own), choice, values, own)
        });
        if ways[1].0 < ways[0].0 {
            ways.swap(0, 1);
        }
        for (bound, choice, values, own) in ways {
            if self.nodes == 0 || !self.is_kept(bound) {
                continue;
            }
            self.nodes -= 1;
            self.taken[k] = choice;
            self.enter(depth + 1, &values, own);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A model without pattern; `seed` chooses it.
    fn model(count: usize, seed: usize) -> (Vec<Row>, Vec<[f64; 2]>) {
        let noise = |i: usize| ((i * 7919 + seed * 104_729) as f64).sin() * 4.0;
        let row = |r: usize, low: f64, high: f64| Row {
            value: noise(r),
            added: (0..count)
                .map(|k| [noise(17 * k + r + 3), noise(31 * k + r + 5)])
                .collect(),
            low,
            high,
            scale: 0.5 + r as f64,
        };
        let rows = vec![
            row(0, 1.0, 1.0),
            row(1, -0.5, 0.5),
            row(2, 0.0, f64::INFINITY),
        ];
        let own = (0..count)
            .map(|k| [noise(5 * k).abs() * 1e-3, noise(11 * k).abs() * 1e-3])
            .collect();
        (rows, own)
    }

    fn cost(rows: &[Row], own: &[[f64; 2]], choices: &[usize]) -> f64 {
        let of_row = |row: &Row| {
            let pairs = row.added.iter().zip(choices);
            let value = pairs.fold(row.value, |sum, (added, choice)| sum + added[*choice]);
            row.cost(value, value)
        };
        let of_choices = own.iter().zip(choices).map(|(own, choice)| own[*choice]);
        rows.iter().map(of_row).sum::<f64>() + of_choices.sum::<f64>()
    }

    #[test]
    fn the_best_are_those_of_all_choices() {
        for seed in 0..20 {
            let (rows, own) = model(10, seed);
            let found = best(&rows, &own, 8, usize::MAX);
            let mut all: Vec<f64> = (0..1usize << 10)
                .map(|bits| {
                    let choices: Choices = (0..10).map(|k| bits >> k & 1).collect();
                    cost(&rows, &own, &choices)
                })
                .collect();
            all.sort_by(f64::total_cmp);
            assert_eq!(found.len(), 8);
            for (choices, least) in found.iter().zip(all) {
                let found = cost(&rows, &own, choices);
                assert!(
                    (found - least).abs() < 1e-12 * (1.0 + least),
                    "{found} {least}"
                );
            }
        }
    }

    #[test]
    fn work_is_bounded_and_something_is_found() {
        let (rows, own) = model(40, 1);
        let found = best(&rows, &own, 8, 500);
        assert!(!found.is_empty());
    }
}
