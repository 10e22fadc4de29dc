//! What the order costs at least: the linear relaxation over all ways to cut a bar.
//!
//! Its dual gives every size a value and every kind of bar a rent, so that no bar's pieces are worth more than the bar
//! costs with its rent; then demand × values − count × rents is a lower bound. The library solves the dual over the
//! ways known so far; the knapsack finds the way that breaks it most, which becomes a further constraint (Kelley's
//! cutting planes; P. C. Gilmore and R. E. Gomory, "A linear programming approach to the cutting-stock problem",
//! Operations Research 9 (1961), seen from the dual).
//!
//! The bound does not rest on the library's floating point: values are rounded down to whole numbers, the rents they
//! need are found by the knapsack in whole numbers, and the bound is their exact sum.

use microlp::{ComparisonOp, OptimizationDirection, Solution, Variable};

use super::knapsack;
use super::problem::{Cut, Pattern, Problem, Work};

/// By how much of a bar's cost a way must break a constraint to be taken up.
const SOLVER_TOLERANCE: f64 = 1e-8;
/// The most turns; the bound reached so far is as sound.
const MOST_TURNS: u32 = 3000;

/// Bars of one kind, as they are counted and priced here.
#[derive(Clone, Copy, Debug)]
pub(super) struct Bars {
    /// Room.
    pub capacity: i64,
    /// How many.
    pub count: u32,
    /// What one costs.
    pub cost: i64,
}

/// A relaxation that is solved turn by turn.
pub(super) struct Relaxation {
    sizes: Vec<i64>,
    demand: Vec<u32>,
    bars: Vec<Bars>,
    /// Values at which `y` = 1.
    units: Vec<f64>,
    /// Costs at which a row is 1.
    norms: Vec<f64>,
    values: Vec<Variable>,
    rents: Vec<Option<Variable>>,
    solution: Option<Solution>,
    rows: usize,
    turns: u32,
    /// The greatest bound so far.
    pub lower: i128,
    /// The whole values that give it.
    pub worth: Vec<i64>,
    /// What one bar of each kind can be filled with at most, by those values.
    pub top: Vec<i64>,
    /// The ways that were taken up.
    pub found: Vec<Cut>,
}

impl Relaxation {
    /// Begins with the ways of `pool` that demand allows. `most_value` limits the value of a size, in shares of its
    /// length at the cheapest bar's cost; without it there must be bars for everything.
    pub fn new(
        sizes: &[i64],
        demand: &[u32],
        bars: &[Bars],
        pool: &[Cut],
        most_value: Option<f64>,
        work: &mut Work,
    ) -> Self {
        let density = |bars: &Bars| bars.cost as f64 / bars.capacity as f64;
        let usable = bars.iter().filter(|bars| bars.count > 0 && bars.cost > 0);
        let cheapest = usable.map(density).fold(f64::INFINITY, f64::min);
        let cheapest = if cheapest.is_finite() { cheapest } else { 1.0 };
        let units: Vec<f64> = sizes.iter().map(|size| *size as f64 * cheapest).collect();
        let norms: Vec<f64> = bars
            .iter()
            .map(|bars| (bars.capacity as f64 * cheapest).max(1.0))
            .collect();
        let whole: f64 = units
            .iter()
            .zip(demand)
            .map(|(unit, n)| unit * f64::from(*n))
            .sum();
        let pieces: u32 = demand.iter().sum();

        let mut problem = microlp::Problem::new(OptimizationDirection::Maximize);
        let values: Vec<Variable> = units
            .iter()
            .zip(demand)
            .map(|(unit, n)| {
                let most = if *n == 0 {
                    0.0
                } else {
                    most_value.unwrap_or(f64::INFINITY)
                };
                problem.add_var(unit * f64::from(*n) / whole, (0.0, most))
            })
            .collect();
        let rents: Vec<Option<Variable>> = bars
            .iter()
            .zip(&norms)
            .map(|(bars, norm)| {
                let scarce = bars.count > 0 && bars.count < pieces;
                scarce.then(|| {
                    let price = -f64::from(bars.count) * norm / whole;
                    problem.add_var(price, (0.0, f64::INFINITY))
                })
            })
            .collect();
        let mut this = Self {
            sizes: sizes.to_vec(),
            demand: demand.to_vec(),
            bars: bars.to_vec(),
            units,
            norms,
            values,
            rents,
            solution: None,
            rows: 0,
            turns: 0,
            lower: 0,
            worth: vec![0; sizes.len()],
            top: vec![0; bars.len()],
            found: Vec::new(),
        };
        for (kind, bars) in this.bars.iter().enumerate() {
            if bars.count == 0 {
                continue;
            }
            for (i, size) in sizes.iter().enumerate() {
                let n = (bars.capacity / size).min(i64::from(demand[i]));
                if n > 0 {
                    let (row, most) = this.row(kind, &vec![(i, n as u32)]);
                    problem.add_constraint(&row, ComparisonOp::Le, most);
                    this.rows += 1;
                }
            }
        }
        let allowed = |pattern: &Pattern| pattern.iter().all(|&(i, n)| demand[i] >= n);
        for (kind, pattern) in pool {
            if this.bars[*kind].count > 0 && allowed(pattern) {
                let (row, most) = this.row(*kind, pattern);
                problem.add_constraint(&row, ComparisonOp::Le, most);
                this.rows += 1;
            }
        }
        this.count_work(work, 20);
        this.solution = problem
            .solve()
            .ok()
            .and_then(|outcome| outcome.into_solution().ok());
        this
    }

    /// What one turn of the library takes, by the size of its table.
    fn count_work(&self, work: &mut Work, turns: u64) {
        work.0 += turns * (self.rows as u64 * 30 + self.sizes.len() as u64 * 300 + 3000);
    }

    fn row(&self, kind: usize, pattern: &Pattern) -> (Vec<(Variable, f64)>, f64) {
        let norm = self.norms[kind];
        let parts = pattern.iter();
        let mut row: Vec<(Variable, f64)> = parts
            .map(|&(i, n)| (self.values[i], f64::from(n) * self.units[i] / norm))
            .collect();
        if let Some(rent) = self.rents[kind] {
            row.push((rent, -1.0));
        }
        (row, self.bars[kind].cost as f64 / norm)
    }

    /// One turn: bound, worst way, and the library again. Whether there is more to be had.
    pub fn turn(&mut self, work: &mut Work) -> bool {
        let Some(solution) = self.solution.take() else {
            return false;
        };
        self.turns += 1;
        let worth: Vec<i64> = self
            .values
            .iter()
            .zip(&self.units)
            .map(|(variable, unit)| (solution.var_value(*variable).max(0.0) * unit) as i64)
            .collect();
        let mut lower: i128 = worth
            .iter()
            .zip(&self.demand)
            .map(|(value, n)| i128::from(*value) * i128::from(*n))
            .sum();
        let mut top = vec![0; self.bars.len()];
        let mut broken = Vec::new();
        for (kind, bars) in self.bars.iter().enumerate() {
            if bars.count == 0 {
                continue;
            }
            let best = knapsack::best(&self.sizes, &worth, &self.demand, bars.capacity, work);
            top[kind] = best.bound;
            let rent = (best.bound - bars.cost).max(0);
            lower -= i128::from(rent) * i128::from(bars.count);
            let paid = self.rents[kind].map_or(0.0, |rent| solution.var_value(rent));
            let over = (best.value - bars.cost) as f64 - paid * self.norms[kind];
            if over > SOLVER_TOLERANCE * self.norms[kind] {
                broken.push((kind, best.pattern));
            }
        }
        if lower > self.lower || self.turns == 1 {
            self.lower = lower.max(0);
            self.worth = worth;
            self.top = top;
        }
        if broken.is_empty() || self.turns >= MOST_TURNS {
            return false;
        }
        let mut solution = solution;
        for (kind, pattern) in broken {
            let (row, most) = self.row(kind, &pattern);
            self.found.push((kind, pattern));
            self.rows += 1;
            self.count_work(work, 3);
            let next = solution.add_constraint(&row, ComparisonOp::Le, most);
            match next.ok().and_then(|outcome| outcome.into_solution().ok()) {
                Some(next) => solution = next,
                None => return false,
            }
        }
        self.solution = Some(solution);
        true
    }

    /// What `pattern` is worth.
    pub fn worth(&self, pattern: &Pattern) -> i64 {
        let parts = pattern.iter();
        parts.map(|&(i, n)| self.worth[i] * i64::from(n)).sum()
    }

    /// By how much all of `bars` together can be worth more than `demand`, where every bar costs its room: a bar that
    /// falls further short of its most is in no packing. Nothing when there is none in `room`.
    pub fn short(&self, demand: &[u32], bars: &[Bars], room: i64) -> Option<i64> {
        let times = |n: u32, value: i64| i128::from(n) * i128::from(value);
        let tops = bars.iter().zip(&self.top);
        let most: i128 = tops.map(|(bars, top)| times(bars.count, *top)).sum();
        let values = demand.iter().zip(&self.worth);
        let least: i128 = values.map(|(n, worth)| times(*n, *worth)).sum();
        let none = self.lower > i128::from(room) || most < least;
        (!none).then(|| i64::try_from(most - least).unwrap_or(i64::MAX))
    }
}

/// How often each way of `pool` is used in a cheapest fractional answer, or nothing when the library finds none.
pub(super) fn fractions(problem: &Problem, pool: &[Cut], work: &mut Work) -> Option<Vec<f64>> {
    let mut linear = microlp::Problem::new(OptimizationDirection::Minimize);
    let dearest = problem.kinds.iter().map(|kind| kind.cost).max()?.max(1) as f64;
    let variables: Vec<Variable> = pool
        .iter()
        .map(|(kind, _)| {
            linear.add_var(
                problem.kinds[*kind].cost as f64 / dearest,
                (0.0, f64::INFINITY),
            )
        })
        .collect();
    let mut rows = vec![Vec::new(); problem.sizes.len()];
    let mut counts = vec![Vec::new(); problem.kinds.len()];
    for ((kind, pattern), variable) in pool.iter().zip(&variables) {
        for &(i, n) in pattern {
            rows[i].push((*variable, f64::from(n)));
        }
        counts[*kind].push((*variable, 1.0));
    }
    for (row, n) in rows.iter().zip(&problem.demand) {
        linear.add_constraint(row, ComparisonOp::Ge, f64::from(*n));
    }
    for (row, kind) in counts.iter().zip(&problem.kinds) {
        linear.add_constraint(row, ComparisonOp::Le, f64::from(kind.count));
    }
    work.0 += pool.len() as u64 * 20_000;
    let solution = linear.solve().ok()?.into_solution().ok()?;
    Some(
        variables
            .iter()
            .map(|variable| solution.var_value(*variable))
            .collect(),
    )
}
