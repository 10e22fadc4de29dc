//! Orders that cannot be cut, each refused in a sentence.

use headwright::bar::BarSection;
use headwright::cut::{MOST_PIECES, Order, Search};
use headwright::units::{Density, Length, System};

use super::{order, piece, stock};

#[track_caller]
fn check_refused(order: Order, sentence: &str) {
    let error = Search::new(order)
        .err()
        .expect("an order that cannot be cut");
    assert_eq!(error.to_string(), sentence);
}

fn sound() -> Order {
    order(
        vec![piece("a", 100.0, 2)],
        vec![stock(3000.0, None, None)],
        2.0,
        20.0,
    )
}

#[test]
fn a_kerf_as_long_as_the_stock_is_refused() {
    let mut order = sound();
    order.stock[0].length = Length::mm(30.0);
    order.kerf = Length::mm(40.0);
    check_refused(
        order,
        "The kerf, 40 mm, is not shorter than the longest stock, 30 mm. Make it shorter.",
    );
    let mut order = sound();
    order.kerf = Length::mm(4000.0);
    check_refused(
        order,
        "The kerf is 4000 mm. It must be at least 0 mm and at most 50 mm.",
    );
    let mut order = sound();
    order.end_waste = Length::mm(3000.0);
    check_refused(
        order,
        "The end waste, 3000 mm, is not shorter than the longest stock, 3000 mm. Make it shorter.",
    );
}

#[test]
fn a_refusal_is_said_in_the_units_that_are_read() {
    let mut order = sound();
    order.kerf = Length::mm(76.2);
    let errors = order.check();
    assert_eq!(
        errors[0].sentence(System::Imperial),
        "The kerf is 3 in. It must be at least 0 in and at most 1.969 in."
    );
    assert_eq!(
        errors[0].to_string(),
        "The kerf is 76.2 mm. It must be at least 0 mm and at most 50 mm."
    );
    // Unasked, in the units the length was written in.
    order.kerf = Length::inches(3.0);
    assert!(
        order.check()[0]
            .to_string()
            .starts_with("The kerf is 3 in.")
    );
}

#[test]
fn a_piece_that_no_bar_gives_is_named() {
    let mut order = sound();
    order.pieces.push(piece("b", 2990.0, 1));
    check_refused(
        order,
        "Piece 2 is 2990 mm long, but the longest stock is 3000 mm with 20 mm of it end waste. Get longer stock or make the piece shorter.",
    );
}

#[test]
fn lengths_counts_and_prices_out_of_bounds_are_named_all_at_once() {
    let mut order = sound();
    order.pieces[0].length = Length::mm(f64::NAN);
    order.pieces[0].name = "x".repeat(201);
    order.stock[0].length = Length::mm(-1.0);
    order.stock[0].price = Some(-3.0);
    order.end_waste = Length::mm(-1.0);
    order.density = Density::kg_per_m3(1.0);
    let errors = Search::new(order).err().expect("an impossible order").0;
    assert_eq!(errors.len(), 6, "{errors:?}");

    let mut order = sound();
    order.pieces[0].count = 0;
    check_refused(order, "The order wants no pieces. Give at least one.");
    let mut order = sound();
    order.pieces[0].count = 20_001;
    assert_eq!(MOST_PIECES, 20_000);
    check_refused(
        order,
        "The order wants 20001 pieces. One order takes at most 20000: cut it in parts.",
    );
    let mut order = sound();
    order.pieces = vec![piece("a", 100.0, 1); 201];
    check_refused(
        order,
        "The order has 201 lines of pieces. Give at most 200: put equal lengths on one line.",
    );
    let mut order = sound();
    order.stock[0].count = Some(0);
    check_refused(
        order,
        "There is no stock to cut from. Give at least one stock length.",
    );
}

#[test]
fn prices_must_tell_the_bars_apart() {
    let mut order = sound();
    order.stock[0].price = Some(0.0);
    check_refused(
        order,
        "Stock 1 costs nothing and there are as many bars as needed. Give its price, or how many there are.",
    );
    // A thousandth of a hundredth for a bar is nothing, as it is shown.
    let mut order = sound();
    order.section = Some(BarSection::square(Length::mm(40.0)));
    order.price_per_kg = Some(1e-6);
    check_refused(
        order,
        "Stock 1 costs nothing and there are as many bars as needed. Give its price, or how many there are.",
    );
    let mut order = sound();
    order.stock.push(stock(2000.0, None, Some(20.0)));
    check_refused(
        order,
        "Some stock lengths have a price and some have none. Give all of them a price, or none.",
    );
    let mut order = sound();
    order.price_per_kg = Some(2.0);
    check_refused(
        order,
        "The price is by the kilogram, but the bar's section is not given. Give the section, or a price for each stock length.",
    );
}

#[test]
fn an_order_of_ten_thousand_pieces_ends_with_a_list_and_its_bound() {
    let lines = (0..40).map(|i| piece("a", 70.0 + f64::from(i * 97 % 400), 250));
    let order = order(lines.collect(), vec![stock(3000.0, None, None)], 2.0, 20.0);
    let list = super::cut(&order);
    assert_eq!(list.totals.pieces, 10_000);
    assert!(list.bound.gap < 0.01, "{:?}", list.bound);
}
