//! Is it the best? Against every way there is on tiny orders, and against another solver on larger ones.

use headwright::cut::{Aim, Order, Stock};

use super::{cut, order, piece, stock};

/// Numbers that look random and are the same every time (G. Marsaglia's xorshift).
struct Dice(u64);

impl Dice {
    fn between(&mut self, low: u64, high: u64) -> u64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        low + self.0 % (high - low + 1)
    }
}

/// The least cost of cutting `pieces` from bars, by trying every bar for every piece.
fn by_trying(pieces: &[f64], kerf: f64, end_waste: f64, kinds: &[(f64, f64)]) -> f64 {
    fn go(
        pieces: &[f64],
        kerf: f64,
        waste: f64,
        kinds: &[(f64, f64)],
        open: &mut Vec<f64>,
        cost: f64,
        best: &mut f64,
    ) {
        if cost >= *best {
            return;
        }
        let Some((first, rest)) = pieces.split_first() else {
            *best = cost;
            return;
        };
        for at in 0..open.len() {
            if open[at] >= *first {
                open[at] -= first + kerf;
                go(rest, kerf, waste, kinds, open, cost, best);
                open[at] += first + kerf;
            }
        }
        for (length, price) in kinds {
            if length - waste >= *first {
                open.push(length - waste - first - kerf);
                go(rest, kerf, waste, kinds, open, cost + price, best);
                open.pop();
            }
        }
    }
    let mut best = f64::INFINITY;
    go(
        pieces,
        kerf,
        end_waste,
        kinds,
        &mut Vec::new(),
        0.0,
        &mut best,
    );
    best
}

#[test]
fn tiny_orders_are_cut_as_trying_every_way_finds() {
    let mut dice = Dice(88_172_645_463_325_252);
    for turn in 0..150 {
        let count = dice.between(1, 7);
        let lengths: Vec<f64> = (0..count).map(|_| dice.between(100, 700) as f64).collect();
        let (kerf, waste) = (dice.between(0, 4) as f64, dice.between(0, 30) as f64);
        let kinds: Vec<(f64, f64)> = (0..dice.between(1, 3))
            .map(|_| (dice.between(740, 1900) as f64, dice.between(8, 25) as f64))
            .collect();
        let list = cut(&order(
            lengths.iter().map(|mm| piece("a", *mm, 1)).collect(),
            kinds
                .iter()
                .map(|(mm, price)| stock(*mm, None, Some(*price)))
                .collect(),
            kerf,
            waste,
        ));
        let best = by_trying(&lengths, kerf, waste, &kinds);
        let cost = list.totals.cost.expect("prices");
        assert!(
            (cost - best).abs() < 1e-9,
            "order {turn}: {cost}, not {best}"
        );
        assert!(list.bound.proved, "order {turn}");
    }
}

#[derive(serde::Deserialize)]
struct Solved {
    pieces: Vec<(f64, u32)>,
    stock: Vec<(f64, Option<u32>, f64)>,
    kerf: f64,
    end_waste: f64,
    least: f64,
}

impl Solved {
    fn order(&self) -> Order {
        let priced = self.stock.len() > 1;
        let stock: Vec<Stock> = self
            .stock
            .iter()
            .map(|(mm, count, price)| stock(*mm, *count, priced.then_some(*price)))
            .collect();
        let pieces = self
            .pieces
            .iter()
            .map(|(mm, count)| piece("a", *mm, *count));
        order(pieces.collect(), stock, self.kerf, self.end_waste)
    }
}

/// The orders of up to 60 pieces and their least costs come from `solver.py` beside them, which says how.
#[test]
fn a_hundred_random_orders_are_cut_as_another_solver_cuts_them_and_proved() {
    let orders: Vec<Solved> =
        serde_json::from_str(include_str!("orders.json")).expect("the orders of solver.py");
    assert!(orders.len() >= 100);
    for (number, solved) in orders.iter().enumerate() {
        let list = cut(&solved.order());
        if solved.stock.len() == 1 {
            assert_eq!(list.bound.aim, Aim::Bars);
        }
        assert!(
            (list.bound.value - solved.least).abs() < 1e-6,
            "order {number}: {}, not {}",
            list.bound.value,
            solved.least
        );
        assert!(list.bound.proved, "order {number}: {:?}", list.bound);
    }
}

#[test]
fn orders_of_sixty_different_lengths_are_proved_best() {
    for (turn, (low, high)) in [(80, 400), (300, 1500), (600, 1500)]
        .into_iter()
        .cycle()
        .take(12)
        .enumerate()
    {
        let mut dice = Dice(1_000_003 * (turn as u64 + 1));
        let lengths: Vec<f64> = (0..60).map(|_| dice.between(low, high) as f64).collect();
        let list = cut(&order(
            lengths.iter().map(|mm| piece("a", *mm, 1)).collect(),
            vec![stock(3000.0, None, None)],
            2.0,
            20.0,
        ));
        assert!(list.bound.proved, "order {turn}: {:?}", list.bound);
    }
}
