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

/// What `solver.py` wrote.
#[derive(serde::Deserialize)]
struct Reference {
    proved: usize,
    orders: Vec<Solved>,
}

#[derive(serde::Deserialize)]
struct Solved {
    pieces: Vec<(f64, u32)>,
    stock: Vec<(f64, Option<u32>, f64)>,
    priced: bool,
    kerf: f64,
    end_waste: f64,
    least: f64,
}

impl Solved {
    fn order(&self) -> Order {
        let stock: Vec<Stock> = self
            .stock
            .iter()
            .map(|(mm, count, price)| stock(*mm, *count, self.priced.then_some(*price)))
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
    let reference: Reference =
        serde_json::from_str(include_str!("orders.json")).expect("the orders of solver.py");
    assert_eq!((reference.proved, reference.orders.len()), (100, 100));
    for (number, solved) in reference.orders.iter().enumerate() {
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

/// An order of up to 60 pieces from one to three stock lengths, some counted, some priced.
fn draw(dice: &mut Dice) -> Order {
    let wanted = dice.between(40, 60);
    let lines = if dice.between(0, 1) == 0 {
        wanted
    } else {
        dice.between(1, 14)
    };
    let spans = [(60, 220), (200, 900), (300, 1400), (90, 1200), (500, 1500)];
    let (low, high) = spans[dice.between(0, 4) as usize];
    let mut pieces: Vec<_> = (0..lines)
        .map(|_| piece("a", dice.between(low, high) as f64, 1))
        .collect();
    for _ in lines..wanted {
        pieces[dice.between(0, lines - 1) as usize].count += 1;
    }
    let priced = dice.between(0, 1) == 1;
    let stock: Vec<Stock> = (0..dice.between(1, 3))
        .map(|line| {
            let mm = dice.between(if line == 0 { 1600 } else { 700 }, 6000);
            let count = (line > 0 && dice.between(0, 1) == 1).then(|| dice.between(1, 8) as u32);
            let price = mm * dice.between(80, 120) / 10;
            stock(mm as f64, count, priced.then_some(price as f64 / 100.0))
        })
        .collect();
    let (kerf, end_waste) = (dice.between(0, 3), dice.between(0, 50));
    order(pieces, stock, kerf as f64, end_waste as f64)
}

#[test]
fn orders_of_sixty_pieces_from_counted_and_priced_stock_are_proved_best() {
    let mut dice = Dice(6_364_136_223_846_793_005);
    for turn in 0..60 {
        let list = cut(&draw(&mut dice));
        assert!(list.bound.proved, "order {turn}: {:?}", list.bound);
    }
}
