//! Cutting lists: what fits a bar, what is best, what is said of an order that cannot be cut.

use headwright::bar::BarSection;
use headwright::cut::{Aim, CuttingList, Message, Order, Piece, Search, Stock, answer};
use headwright::units::Length;

#[path = "cut/best.rs"]
mod best;
#[path = "cut/refused.rs"]
mod refused;

fn piece(name: &str, mm: f64, count: u32) -> Piece {
    Piece {
        name: name.to_owned(),
        length: Length::mm(mm),
        count,
    }
}

fn stock(mm: f64, count: Option<u32>, price: Option<f64>) -> Stock {
    Stock {
        length: Length::mm(mm),
        count,
        price,
    }
}

fn order(pieces: Vec<Piece>, stock: Vec<Stock>, kerf: f64, end_waste: f64) -> Order {
    Order {
        pieces,
        stock,
        kerf: Length::mm(kerf),
        end_waste: Length::mm(end_waste),
        section: None,
        density: Default::default(),
        price_per_kg: None,
    }
}

#[track_caller]
fn cut(order: &Order) -> CuttingList {
    let list = Search::new(order.clone()).expect("an order").finish();
    check_list(order, &list);
    list
}

/// What holds of every list: each piece once, in its place, with its kerf, within the bar.
#[track_caller]
fn check_list(order: &Order, list: &CuttingList) {
    let (kerf, end_waste) = (order.kerf.in_mm(), order.end_waste.in_mm());
    let mut left: Vec<i64> = order
        .pieces
        .iter()
        .map(|piece| i64::from(piece.count))
        .collect();
    let mut used = vec![0; order.stock.len()];
    for bar in &list.bars {
        let mut free = 0.0;
        for piece in &bar.pieces {
            let wanted = &order.pieces[piece.line - 1];
            left[piece.line - 1] -= bar.times as i64;
            assert_eq!(piece.name, wanted.name);
            assert!((piece.from_mm - free).abs() < 1e-9, "{bar:?}");
            assert!((piece.to_mm - piece.from_mm - wanted.length.in_mm()).abs() < 1e-9);
            free = piece.to_mm + kerf;
        }
        let end = bar
            .pieces
            .last()
            .expect("no bar is bought for nothing")
            .to_mm;
        assert!(end + end_waste <= bar.length_mm + 1e-5, "{bar:?}");
        assert!((bar.offcut_mm - (bar.length_mm - free).max(0.0)).abs() < 1e-9);
        if let Some(line) = bar.stock {
            assert!((bar.length_mm - order.stock[line - 1].length.in_mm()).abs() < 1e-6);
            used[line - 1] += bar.times;
        }
    }
    assert!(left.iter().all(|left| *left == 0), "{left:?}");
    for (used, stock) in used.iter().zip(&order.stock) {
        assert!(stock.count.is_none_or(|count| *used <= count as usize));
    }
    let totals = &list.totals;
    let sum = totals.pieces_mm + totals.kerf_mm + totals.offcut_mm;
    assert!((totals.bought_mm - sum).abs() < 1e-6 * totals.bought_mm);
    assert!(list.bound.least <= list.bound.value, "{:?}", list.bound);
    assert!(list.bound.proved == (list.bound.gap == 0.0) || list.bound.gap > 0.0);
}

#[test]
fn a_worked_example_is_cut_as_by_hand() {
    // 1000 mm bars, 3 mm kerf, 50 mm held: 400 + 3 + 300 + 3 + 244 = 950 fills one to the last mm.
    let mut order = order(
        vec![
            piece("sledge", 400.0, 1),
            piece("rounding", 300.0, 2),
            piece("cross pein", 244.0, 1),
        ],
        vec![stock(1000.0, None, None)],
        3.0,
        50.0,
    );
    order.section = Some(BarSection::square(Length::mm(40.0)));
    order.price_per_kg = Some(2.0);
    let list = cut(&order);
    assert_eq!(
        (list.bound.aim, list.bound.value, list.bound.least),
        (Aim::Bars, 2.0, 2.0)
    );
    assert!(list.bound.proved);
    let full = &list.bars[0];
    let places: Vec<(f64, f64)> = full.pieces.iter().map(|p| (p.from_mm, p.to_mm)).collect();
    assert_eq!(places, [(0.0, 400.0), (403.0, 703.0), (706.0, 950.0)]);
    // The last cut is taken from the 50 mm that are held.
    assert_eq!((full.offcut_mm, list.bars[1].offcut_mm), (47.0, 697.0));
    assert_eq!(list.totals.longest_offcut_mm, 697.0);
    assert_eq!(list.totals.kerf_mm, 12.0);
    // 2 m of 40 mm square are 25.12 kg.
    assert!((list.totals.mass_kg.expect("a section") - 25.12).abs() < 1e-9);
    assert!((list.totals.cost.expect("a price") - 50.24).abs() < 1e-9);
}

#[test]
fn a_piece_that_ends_at_the_bars_own_end_takes_no_cut() {
    let exact = |mm: f64| {
        order(
            vec![piece("a", 300.0, 3)],
            vec![stock(mm, None, None)],
            2.0,
            0.0,
        )
    };
    // 3 pieces and 2 kerfs.
    let list = cut(&exact(904.0));
    assert_eq!(
        (list.totals.bars, list.totals.kerf_mm, list.totals.offcut_mm),
        (1, 4.0, 0.0)
    );
    // Less than a kerf over: the saw takes it all.
    let list = cut(&exact(905.0));
    assert_eq!(
        (list.totals.bars, list.totals.kerf_mm, list.totals.offcut_mm),
        (1, 5.0, 0.0)
    );
    assert_eq!(cut(&exact(903.9)).totals.bars, 2);
}

#[test]
fn inch_lengths_fit_to_the_last_fraction() {
    let lengths = |text: &str| text.parse::<Length>().expect("a length");
    let mut order = order(
        vec![piece("a", 1.0, 8)],
        vec![stock(1.0, None, None)],
        0.0,
        0.0,
    );
    order.pieces[0].length = lengths("2 7/64 in");
    order.kerf = lengths("1/16 in");
    // Eight pieces and seven kerfs: 16 7/8 + 7/16.
    order.stock[0].length = lengths("17 5/16 in");
    assert_eq!(cut(&order).totals.bars, 1);
}

#[test]
fn the_offcut_is_gathered_in_one_length() {
    let list = cut(&order(
        vec![
            piece("a", 500.0, 3),
            piece("b", 300.0, 2),
            piece("c", 200.0, 2),
        ],
        vec![stock(1000.0, None, None)],
        0.0,
        0.0,
    ));
    // 2500 mm from three bars: two full ones and 500 mm in one length.
    assert_eq!(
        (list.totals.bars, list.totals.longest_offcut_mm),
        (3, 500.0)
    );
}

#[test]
fn what_is_on_hand_and_paid_for_is_used_before_new_bars() {
    let list = cut(&order(
        vec![piece("a", 450.0, 4)],
        vec![
            stock(3000.0, None, Some(30.0)),
            stock(950.0, Some(2), Some(0.0)),
        ],
        2.0,
        10.0,
    ));
    assert_eq!((list.bound.aim, list.bound.value), (Aim::Cost, 0.0));
    assert_eq!(list.bars.len(), 1);
    assert_eq!((list.bars[0].stock, list.bars[0].times), (Some(2), 2));
    assert_eq!(list.totals.cost, Some(0.0));
}

#[test]
fn of_lists_that_cost_the_same_the_one_with_less_steel_is_taken() {
    let list = cut(&order(
        vec![piece("a", 450.0, 2)],
        vec![
            stock(1500.0, None, Some(10.0)),
            stock(1000.0, None, Some(10.0)),
        ],
        2.0,
        0.0,
    ));
    assert_eq!(list.totals.bought_mm, 1000.0);
    assert!(list.bound.proved && list.bound.steel_proved);
}

#[test]
fn stock_that_is_not_enough_is_said_with_the_least_number_of_missing_bars() {
    let list = cut(&order(
        vec![piece("a", 450.0, 9)],
        vec![stock(1000.0, Some(2), None), stock(500.0, Some(1), None)],
        2.0,
        0.0,
    ));
    // Five pieces come from what is there.
    assert_eq!(list.missing, 2);
    assert_eq!(
        (list.bound.aim, list.bound.value, list.bound.least),
        (Aim::Missing, 2.0, 2.0)
    );
    assert!(
        list.bars
            .iter()
            .any(|bar| bar.stock.is_none() && bar.cost.is_none())
    );
}

#[test]
fn missing_bars_are_in_neither_the_mass_nor_the_cost() {
    let mut order = order(
        vec![piece("a", 450.0, 9)],
        vec![stock(1000.0, Some(2), Some(7.0))],
        2.0,
        0.0,
    );
    order.section = Some(BarSection::square(Length::mm(40.0)));
    let list = cut(&order);
    assert_eq!((list.totals.bars, list.missing), (5, 3));
    // Two of 12.56 kg.
    assert!((list.totals.mass_kg.expect("a section") - 25.12).abs() < 1e-9);
    assert_eq!(list.totals.cost, Some(14.0));
}

#[test]
fn the_cost_that_is_shown_is_the_one_that_is_proved() {
    // 23.55 kg at 1.2345 are 29.072475 for one bar, and 29.07 are paid for it.
    let mut order = order(
        vec![piece("a", 1600.0, 37)],
        vec![stock(3000.0, None, None), stock(1700.0, Some(1), None)],
        2.0,
        0.0,
    );
    let section = BarSection::square(Length::mm(31.622776601683793));
    order.section = Some(section);
    order.price_per_kg = Some(1.2345);
    let list = cut(&order);
    assert_eq!(list.bars[0].cost, Some(29.07));
    // 36 bars, and one of 13.345 kg for 16.47.
    assert_eq!(list.totals.cost, Some(1062.99));
    assert_eq!(list.bound.aim, Aim::Cost);
    assert_eq!(
        (Some(list.bound.value), Some(list.bound.least)),
        (list.totals.cost, list.totals.cost)
    );
}

#[test]
fn the_order_of_the_lines_changes_no_total() {
    let mut lines: Vec<Piece> = (0..24)
        .map(|i| {
            piece(
                &format!("{i}"),
                180.0 + f64::from(i * 137 % 900),
                1 + u32::from(i % 3 == 0),
            )
        })
        .collect();
    let bars = vec![
        stock(3000.0, None, Some(31.0)),
        stock(2000.0, None, Some(22.0)),
    ];
    let first = cut(&order(lines.clone(), bars.clone(), 2.0, 20.0));
    assert!(first.bound.proved);
    lines.reverse();
    lines.rotate_left(7);
    let second = cut(&order(lines, bars.into_iter().rev().collect(), 2.0, 20.0));
    assert_eq!(first.bound, second.bound);
    assert_eq!(first.totals.bars, second.totals.bars);
    assert!((first.totals.offcut_mm - second.totals.offcut_mm).abs() < 1e-6);
}

#[test]
fn however_many_steps_a_search_takes_its_list_is_the_same() {
    let lines = (0..30).map(|i| piece("a", 200.0 + f64::from(i * 211 % 1100), 1));
    let order = order(lines.collect(), vec![stock(3000.0, None, None)], 2.0, 20.0);
    let whole = cut(&order);
    let mut search = Search::new(order).expect("an order");
    let (mut steps, mut share) = (0, 0.0);
    loop {
        let progress = search.step(100_000);
        assert!(progress.bound.least <= progress.bound.value);
        assert!((share..=1.0).contains(&progress.share));
        share = progress.share;
        steps += 1;
        if progress.done {
            break;
        }
    }
    assert!(steps > 1);
    assert_eq!(search.list(), whole);
}

/// What a message says but for its numbers.
fn kind(message: &Message) -> (&'static str, usize) {
    match message {
        Message::Ready => ("ready", 0),
        Message::Progress(progress) => ("progress", progress.bars),
        Message::Better { list } => ("better", list.totals.bars),
        Message::Answer { list } => ("answer", list.totals.bars),
        Message::Refused { reason } => ("refused", reason.len()),
    }
}

#[test]
fn the_worker_says_its_progress_and_the_list_and_reads_back_as_said() {
    let lines = (0..30).map(|i| piece("a", 200.0 + f64::from(i * 211 % 1100), 1));
    let order = order(lines.collect(), vec![stock(3000.0, None, None)], 2.0, 20.0);
    let mut said = Vec::new();
    answer(&order.write(), 100_000, |message| said.push(message));
    for message in &said {
        let read = Message::read(&message.write()).expect("a message");
        // A share may differ in its last digit.
        assert_eq!(kind(&read), kind(message));
    }
    let list = Box::new(cut(&order));
    assert_eq!(said.pop(), Some(Message::Answer { list }));
    // A search that is stopped after any report has the list that the report is about.
    assert!(!said.is_empty());
    let mut best: Option<CuttingList> = None;
    for message in said.iter() {
        match message {
            Message::Better { list } => best = Some(*list.clone()),
            Message::Progress(progress) => {
                let list = best.as_ref().expect("a list before the first report");
                assert_eq!(list.totals.bars, progress.bars);
                assert_eq!(list.bound.value, progress.bound.value);
            }
            other => panic!("{other:?} before the end"),
        }
    }

    answer("{}", 1, |message| said = vec![message]);
    let reason = "The order can’t be read: missing field `pieces` at line 1 column 2.".to_owned();
    assert_eq!(said, [Message::Refused { reason }]);
}
