//! The order in whole numbers: kinds of pieces with their room, kinds of bars with theirs.
//!
//! A bar takes n pieces when Σ length + (n − 1)·kerf + end waste ≤ bar. With `size` = length + kerf and `capacity` =
//! bar − end waste + kerf that is Σ size ≤ capacity: a knapsack in whole nanometres.

use super::order::Order;

/// Nanometres in a mm. A 64th of an inch is a whole number of them, and what a double cannot keep of a sum is less.
pub(super) const PER_MM: f64 = 1e6;
/// The greatest cost of one bar lies near this, so that dual values are fine enough as whole numbers and a sum
/// over an order fits twice over.
const COST_BITS: u32 = 36;

/// A length in mm as whole nanometres.
pub(super) fn nanometres(mm: f64) -> i64 {
    (mm * PER_MM).round() as i64
}

/// Bars of one capacity and cost.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Kind {
    /// Room for sizes, in nm; negative when the bar is all end waste.
    pub capacity: i64,
    /// The bar's length, in nm.
    pub length: i64,
    /// How many there may be; never more than there are pieces.
    pub count: u32,
    /// What one costs; [`Problem::fineness`] of it are one hundredth or one nm.
    pub cost: i64,
    /// Index in the order's stock; `None` for bars that are missing.
    pub stock: Option<usize>,
}

/// Pieces and bars in whole numbers.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Problem {
    /// Distinct sizes in nm, longest first.
    pub sizes: Vec<i64>,
    /// How many of each are wanted; at least one.
    pub demand: Vec<u32>,
    /// The bars.
    pub kinds: Vec<Kind>,
    /// How much cost is one hundredth of money when the stock has prices, else one nm of bar.
    pub fineness: i64,
    /// What every cost is a multiple of.
    pub unit: i64,
}

/// How many pieces of which size a bar gives: (index of the size, count), longest first.
pub(super) type Pattern = Vec<(usize, u32)>;

/// A kind of bar and what is cut from it.
pub(super) type Cut = (usize, Pattern);

impl Problem {
    /// The order, which must have passed its check.
    pub fn of(order: &Order) -> Self {
        let kerf = nanometres(order.kerf.in_mm());
        let end_waste = nanometres(order.end_waste.in_mm());
        let mut wanted: Vec<(i64, u32)> = order
            .pieces
            .iter()
            .filter(|piece| piece.count > 0)
            .map(|piece| (nanometres(piece.length.in_mm()) + kerf, piece.count))
            .collect();
        wanted.sort_unstable_by(|a, b| b.cmp(a));
        let (mut sizes, mut demand) = (Vec::new(), Vec::new());
        for (size, count) in wanted {
            if sizes.last() == Some(&size) {
                *demand.last_mut().expect("one for every size") += count;
            } else {
                sizes.push(size);
                demand.push(count);
            }
        }
        let total: u32 = demand.iter().sum();

        let prices: Option<Vec<i64>> = order
            .stock
            .iter()
            .map(|stock| order.hundredths(stock))
            .collect();
        let mut kinds: Vec<Kind> = Vec::new();
        for (index, stock) in order.stock.iter().enumerate() {
            let length = nanometres(stock.length.in_mm());
            let capacity = length - end_waste + kerf;
            let count = stock.count.map_or(total, |count| count.min(total));
            if count > 0 && capacity >= *sizes.last().expect("at least one piece") {
                kinds.push(Kind {
                    capacity,
                    length,
                    count,
                    cost: prices.as_ref().map_or(length, |prices| prices[index]),
                    stock: Some(index),
                });
            }
        }
        let mut problem = Self {
            sizes,
            demand,
            kinds,
            fineness: 1,
            unit: 1,
        };
        problem.scale();
        problem.add_missing(order, total);
        problem
    }

    /// Makes costs finer, so that the dearest bar has about [`COST_BITS`] bits.
    fn scale(&mut self) {
        let dearest = self.kinds.iter().map(|kind| kind.cost).max().unwrap_or(0);
        let bits = i64::BITS - dearest.leading_zeros();
        let factor = 1_i64 << COST_BITS.saturating_sub(bits);
        for kind in &mut self.kinds {
            kind.cost *= factor;
        }
        self.fineness = factor;
        let costs = self.kinds.iter().map(|kind| kind.cost);
        self.unit = costs.fold(0, common).max(1);
    }

    /// When all stock is counted it may not be enough. Then bars of the longest length may be missing, each dearer
    /// than all that there is.
    fn add_missing(&mut self, order: &Order, total: u32) {
        let counted = |kind: &Kind| kind.stock.is_some_and(|at| order.stock[at].count.is_some());
        if !self.kinds.iter().all(counted) {
            return;
        }
        let all: i64 = self
            .kinds
            .iter()
            .map(|kind| kind.cost * i64::from(kind.count))
            .sum();
        let Some(longest) = self.kinds.iter().max_by_key(|kind| kind.capacity) else {
            return;
        };
        self.kinds.push(Kind {
            count: total,
            cost: all + ((1 << COST_BITS) / self.unit + 1) * self.unit,
            stock: None,
            ..longest.clone()
        });
    }

    /// The least that a list can cost when it costs at least `lower`.
    pub fn whole(&self, lower: i128) -> i128 {
        let unit = i128::from(self.unit);
        (lower + unit - 1).div_euclid(unit) * unit
    }

    /// Σ size over `demand`, in nm.
    pub fn volume(&self, demand: &[u32]) -> i64 {
        let sizes = self.sizes.iter().zip(demand);
        sizes.map(|(size, count)| size * i64::from(*count)).sum()
    }

    /// Room that `pattern` takes, in nm.
    pub fn filled(&self, pattern: &Pattern) -> i64 {
        let parts = pattern.iter();
        parts.map(|&(i, n)| self.sizes[i] * i64::from(n)).sum()
    }

    /// What `bars` cost.
    pub fn cost(&self, bars: &[Cut]) -> i128 {
        let costs = bars.iter().map(|(kind, _)| self.kinds[*kind].cost);
        costs.map(i128::from).sum()
    }

    /// The steel in `bars`, in nm.
    pub fn bought(&self, bars: &[Cut]) -> i64 {
        bars.iter().map(|(kind, _)| self.kinds[*kind].length).sum()
    }
}

/// The greatest common divisor.
pub(super) fn common(a: i64, b: i64) -> i64 {
    if b == 0 { a } else { common(b, a % b) }
}

/// Takes `pattern` out of `demand`.
pub(super) fn take(demand: &mut [u32], pattern: &Pattern) {
    for &(i, n) in pattern {
        demand[i] -= n;
    }
}

/// Work done, in units of about ten nanoseconds: what stands in for a clock.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Work(pub u64);
