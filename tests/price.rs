//! What a hammer must sell for: every ledger adds up, and price and wage lead back to each other.

use expect_test::{Expect, expect};
use headwright::price::{
    Costs, Item, Line, MONEY_CENTS, Money, MoneyError, PriceError, Quote, Steel, Wanted, quote,
};
use proptest::prelude::*;
use proptest::test_runner::RngSeed;

#[path = "price/csv.rs"]
mod table;

const fn cents(cents: i64) -> Money {
    Money::cents(cents)
}

/// Costs in which every line is something else.
fn costs() -> Costs {
    Costs {
        currency: "EUR".to_owned(),
        heads: 6,
        steel: Steel::List {
            cost: cents(2_760),
            pieces: 8,
        },
        wood: cents(650),
        consumables: cents(420),
        fuel_per_hour: cents(900),
        heat_minutes: 80.0,
        minutes: 165.0,
        batch_minutes: 90.0,
        overhead_per_hour: cents(750),
        spoiled_percent: 20.0,
        fees_percent: 8.0,
        post: cents(1_290),
        wage: None,
        sell: None,
    }
}

#[track_caller]
fn quoted(costs: &Costs, wanted: Wanted) -> Quote {
    quote(costs, wanted).expect("costs in order")
}

fn sum(lines: &[Line]) -> i64 {
    lines.iter().map(|line| line.amount.in_cents()).sum()
}

#[track_caller]
fn amount(lines: &[Line], item: Item) -> i64 {
    let line = lines.iter().find(|line| line.item == item);
    line.expect("every line").amount.in_cents()
}

/// By hand: 1.25 pieces begun, 165 + 15 + 0.25 · 165 = 221.25 min or 3.6875 h; steel 3.45, consumables 4.20 and fuel 12.00
/// are 19.65, times 1.25 are 24.5625; with wood and post 43.9625; 3.6875 h at 30.00 + 7.50 are 138.28125; together
/// 182.24375, which is 92 %: 198.09103.
#[test]
fn the_price_for_a_wage_is_that_reckoned_by_hand() {
    let quote = quoted(&costs(), Wanted::Wage(cents(3_000)));
    assert_eq!(quote.price, cents(19_810));
    assert_eq!(quote.wage, cents(3_000));
    assert_eq!((quote.pieces, quote.hours), (7.5, 6.0 * 3.6875));
    assert_eq!(quote.batch_price, cents(6 * 19_810));
    let told: Vec<i64> = quote
        .one
        .iter()
        .map(|line| line.amount.in_cents())
        .collect();
    // Labour 3 h at 30.00 and what rounding up the price adds, spoiled 0.25 · (19.65 + 2.75 · 37.50) = 30.69.
    assert_eq!(
        told,
        [345, 650, 420, 1_200, 9_001, 2_250, 3_069, 1_290, 1_585]
    );
    assert_eq!(sum(&quote.one), 19_810);
}

/// By hand: 180.00 · 0.92 − 43.9625 = 121.6375, over 3.6875 h 32.98644, less 7.50.
#[test]
fn the_wage_at_a_price_is_that_reckoned_by_hand() {
    let quote = quoted(&costs(), Wanted::Price(cents(18_000)));
    assert_eq!(quote.wage, cents(2_548));
    assert_eq!(quote.price, cents(18_000));
}

/// By hand: ten minutes are 10 · 1.25 / 60 h of 37.50, 7.8125, over 0.92: 8.49185 off 198.09103, so that 189.60 is asked in
/// the place of 198.10; at 180.00 the wage comes to 121.6375 / (3.6875 − 0.208333) − 7.50 = 27.46168.
#[test]
fn ten_minutes_less_are_worth_what_is_reckoned_by_hand() {
    let less = |wanted| quoted(&costs(), wanted).ten_minutes.expect("more than ten");
    assert_eq!(less(Wanted::Wage(cents(3_000))).off_price, cents(850));
    assert_eq!(less(Wanted::Price(cents(18_000))).on_wage, cents(198));
    let short = Costs {
        minutes: 10.0,
        ..costs()
    };
    assert_eq!(quoted(&short, Wanted::Wage(cents(3_000))).ten_minutes, None);
}

#[test]
fn a_price_that_pays_nothing_has_a_wage_below_nothing_and_still_adds_up() {
    let quote = quoted(&costs(), Wanted::Price(cents(3_000)));
    assert!(quote.wage < cents(0));
    assert!(amount(&quote.one, Item::Labour) < 0);
    assert_eq!((sum(&quote.one), sum(&quote.batch)), (3_000, 18_000));
    assert_eq!(quote.ten_minutes, None);
    let free = quoted(&costs(), Wanted::Price(cents(0)));
    assert_eq!((sum(&free.one), sum(&free.batch)), (0, 0));
}

#[test]
fn steel_of_a_cutting_list_is_shared_by_its_pieces() {
    let each = Costs {
        steel: Steel::Each(cents(345)),
        ..costs()
    };
    let wanted = Wanted::Wage(cents(3_000));
    assert_eq!(quoted(&each, wanted), quoted(&costs(), wanted));
}

#[test]
fn a_larger_batch_shares_what_is_done_once() {
    let wanted = Wanted::Wage(cents(3_000));
    let prices = [1, 2, 6, 40].map(|heads| quoted(&Costs { heads, ..costs() }, wanted).price);
    assert!(prices.is_sorted_by(|a, b| a > b), "{prices:?}");
    let none = Costs {
        batch_minutes: 0.0,
        ..costs()
    };
    let alike = [1, 40].map(|heads| {
        quoted(
            &Costs {
                heads,
                ..none.clone()
            },
            wanted,
        )
        .price
    });
    assert_eq!(alike[0], alike[1]);
}

fn any_costs() -> impl Strategy<Value = Costs> {
    let money = || 0i64..20_000;
    let steel = prop_oneof![
        money().prop_map(|each| Steel::Each(cents(each))),
        (money(), 1u32..60).prop_map(|(cost, pieces)| Steel::List {
            cost: cents(cost),
            pieces
        }),
    ];
    (
        (1u32..200, steel, money(), money()),
        (money(), 0.0..600.0, 1.0..2000.0, 0.0..600.0),
        (money(), 0.0..=90.0, 0.0..=90.0, money()),
    )
        .prop_map(
            |(
                (heads, steel, wood, consumables),
                (fuel, heat_minutes, minutes, batch_minutes),
                (overhead, spoiled_percent, fees_percent, post),
            )| Costs {
                currency: "kr".to_owned(),
                heads,
                steel,
                wood: cents(wood),
                consumables: cents(consumables),
                fuel_per_hour: cents(fuel),
                heat_minutes,
                minutes,
                batch_minutes,
                overhead_per_hour: cents(overhead),
                spoiled_percent,
                fees_percent,
                post: cents(post),
                wage: None,
                sell: None,
            },
        )
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 2000, failure_persistence: None, rng_seed: RngSeed::Fixed(1), ..ProptestConfig::default() })]

    #[test]
    fn every_ledger_adds_up_to_the_cent(costs in any_costs(), wanted in wanted()) {
        let quote = quote(&costs, wanted).expect("costs in order");
        prop_assert_eq!(sum(&quote.one), quote.price.in_cents());
        prop_assert_eq!(sum(&quote.batch), quote.batch_price.in_cents());
        prop_assert_eq!(quote.batch_price.in_cents(), quote.price.in_cents() * i64::from(quote.heads));
        // A line of the batch is that of one head times the heads, each rounded by less than a cent.
        for (one, batch) in quote.one.iter().zip(&quote.batch) {
            let off = batch.amount.in_cents() - one.amount.in_cents() * i64::from(quote.heads);
            prop_assert!(off.abs() <= i64::from(quote.heads) + 1, "{:?}", one);
        }
    }

    #[test]
    fn the_price_is_the_least_that_pays_the_wage(costs in any_costs(), wage in 1i64..100_000) {
        let asked = quote(&costs, Wanted::Wage(cents(wage))).expect("costs in order");
        prop_assert!(asked.wage >= cents(wage));
        let price = asked.price.in_cents();
        // Dearer than a price that may be asked for.
        prop_assume!((price as f64) <= MONEY_CENTS.most);
        let at = |price| quote(&costs, Wanted::Price(cents(price))).expect("costs in order");
        prop_assert_eq!(at(price).one, asked.one);
        prop_assert!(at(price - 1).wage <= cents(wage));
        // Less would not do, by a cent at most: what comes in against what goes out, for all pieces of a batch.
        let (heads, begun) = (f64::from(costs.heads), f64::from(costs.heads) / (1.0 - costs.spoiled_percent / 100.0));
        let steel = match costs.steel {
            Steel::Each(each) => each.in_cents() as f64,
            Steel::List { cost, pieces } => cost.in_cents() as f64 / f64::from(pieces),
        };
        let of_hours = |money: Money, minutes: f64| money.in_cents() as f64 * minutes / 60.0;
        let piece = steel + costs.consumables.in_cents() as f64 + of_hours(costs.fuel_per_hour, costs.heat_minutes);
        let good = (costs.wood.in_cents() + costs.post.in_cents()) as f64;
        let minutes = begun * costs.minutes + costs.batch_minutes;
        let hourly = cents(wage + costs.overhead_per_hour.in_cents());
        let out = begun * piece + heads * good + of_hours(hourly, minutes);
        let least = out / heads / (1.0 - costs.fees_percent / 100.0);
        prop_assert!((least - 1e-4..least + 1.0 + 1e-4).contains(&(price as f64)), "{} is not {}", price, least);
    }

    #[test]
    fn ten_minutes_less_lower_the_price_and_raise_the_wage(costs in any_costs(), wage in 1i64..100_000) {
        let asked = quote(&costs, Wanted::Wage(cents(wage))).expect("costs in order");
        match asked.ten_minutes {
            None => prop_assert!(costs.minutes <= 10.0),
            Some(less) => {
                prop_assert!(less.off_price >= cents(0) && less.on_wage >= cents(0));
                let faster = Costs { minutes: costs.minutes - 10.0, ..costs };
                let faster = quote(&faster, Wanted::Wage(cents(wage)));
                if let Ok(faster) = faster {
                    prop_assert_eq!(less.off_price.in_cents(), asked.price.in_cents() - faster.price.in_cents());
                }
            }
        }
    }

    #[test]
    fn money_is_read_as_it_is_written(amount in any::<i32>()) {
        let money = cents(i64::from(amount));
        prop_assert_eq!(money.to_string().parse::<Money>(), Ok(money));
        let saved = serde_json::to_string(&money).expect("JSON");
        prop_assert!(saved.is_ascii() && !money.to_string().contains('-'), "{}", money);
        prop_assert_eq!(serde_json::from_str::<Money>(&saved).ok(), Some(money));
    }

    #[test]
    fn no_text_of_money_panics(text in "\\PC{0,30}") {
        let read: Result<Money, MoneyError> = text.parse();
        prop_assert!(read.is_ok() || read.is_err_and(|error| error.to_string().ends_with('.')));
    }
}

/// Costs up to the limits of every one, the limits themselves more often than not.
fn costs_at_limits() -> impl Strategy<Value = Costs> {
    let money = || prop_oneof![Just(0), Just(100_000_000), 0i64..=100_000_000].prop_map(cents);
    let minutes = || prop_oneof![Just(0.0), Just(100_000.0), 0.0..=100_000.0];
    let percent = || prop_oneof![Just(0.0), Just(90.0), 0.0..=90.0];
    let heads = prop_oneof![Just(1), Just(10_000), 1u32..=10_000];
    (
        (heads, money(), money(), money(), money()),
        (minutes(), minutes(), minutes()),
        (money(), money(), percent(), percent()),
    )
        .prop_map(
            |(
                (heads, steel, wood, consumables, fuel_per_hour),
                (heat_minutes, minutes, batch_minutes),
                (overhead_per_hour, post, spoiled_percent, fees_percent),
            )| Costs {
                currency: "kr".to_owned(),
                heads,
                steel: Steel::Each(steel),
                wood,
                consumables,
                fuel_per_hour,
                heat_minutes,
                minutes: minutes.max(1.0),
                batch_minutes,
                overhead_per_hour,
                spoiled_percent,
                fees_percent,
                post,
                wage: None,
                sell: None,
            },
        )
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 4000, failure_persistence: None, rng_seed: RngSeed::Fixed(1), ..ProptestConfig::default() })]

    #[test]
    fn a_ledger_at_the_limits_adds_up_to_the_cent_or_is_refused_for_its_sums(
        costs in costs_at_limits(),
        wanted in prop_oneof![
            (1i64..=10_000_000).prop_map(|wage| Wanted::Wage(cents(wage))),
            (0i64..=100_000_000).prop_map(|price| Wanted::Price(cents(price))),
        ],
    ) {
        match quote(&costs, wanted) {
            Ok(quote) => {
                prop_assert_eq!(sum(&quote.one), quote.price.in_cents());
                prop_assert_eq!(sum(&quote.batch), quote.batch_price.in_cents());
                prop_assert_eq!(quote.batch_price.in_cents(), quote.price.in_cents() * i64::from(quote.heads));
            }
            Err(errors) => prop_assert!(matches!(errors.as_slice(), [PriceError::Sum(_)]), "{:?}", errors),
        }
    }
}

#[test]
fn sums_whose_cents_can_no_longer_be_told_are_refused_with_a_sentence() {
    let most = cents(100_000_000);
    let extreme = Costs {
        currency: "EUR".to_owned(),
        heads: 10_000,
        steel: Steel::Each(most),
        wood: most,
        consumables: most,
        fuel_per_hour: most,
        heat_minutes: 100_000.0,
        minutes: 100_000.0,
        batch_minutes: 100_000.0,
        overhead_per_hour: most,
        spoiled_percent: 90.0,
        fees_percent: 90.0,
        post: most,
        wage: None,
        sell: None,
    };
    check_refused(
        &extreme,
        Wanted::Wage(cents(10_000_000)),
        &expect![
            "A sum of the batch comes to 3502218333333400.32. No sum may be more than 100000000000.00, or the ledger would no longer add up to the cent."
        ],
    );
    // A price that pays next to nothing of it is as bad: the work bears the loss.
    check_refused(
        &extreme,
        Wanted::Price(cents(1)),
        &expect![
            "A sum of the batch comes to 33358501964979.35. No sum may be more than 100000000000.00, or the ledger would no longer add up to the cent."
        ],
    );
    // 1.001e8 cents of steel and work are 10 % of the price: 9,990 heads come to 1e13 cents.
    let just = Costs {
        steel: Steel::Each(most),
        minutes: 1.0,
        fees_percent: 90.0,
        ..Costs::default()
    };
    let wage = Wanted::Wage(cents(6_000_000));
    let [less, more] = [9_980, 10_000].map(|heads| {
        quote(
            &Costs {
                heads,
                ..just.clone()
            },
            wage,
        )
    });
    assert!(less.is_ok_and(|quote| sum(&quote.batch) == quote.batch_price.in_cents()));
    assert!(more.is_err());
}

fn wanted() -> impl Strategy<Value = Wanted> {
    prop_oneof![
        (1i64..200_000).prop_map(|wage| Wanted::Wage(cents(wage))),
        (0i64..2_000_000).prop_map(|price| Wanted::Price(cents(price))),
    ]
}

#[test]
fn money_is_read_with_point_or_comma_and_refused_with_a_sentence() {
    for (text, read) in [
        ("12", 1_200),
        (" 12.5 ", 1_250),
        ("12,50", 1_250),
        ("0.07", 7),
        ("-0.07", -7),
        ("-3", -300),
        ("−12,5", -1_250),
    ] {
        assert_eq!(text.parse(), Ok(cents(read)), "{text}");
    }
    for text in [
        "",
        "12.345",
        "1e3",
        "12 EUR",
        ".5",
        "--1",
        "-−1",
        "99999999999999999999",
    ] {
        let error = text.parse::<Money>().expect_err("no money");
        assert_eq!(
            error.to_string(),
            format!(
                "“{text}” is no amount of money. Write it with at most two decimals, without the currency and without marks between thousands, such as 1200.50."
            )
        );
    }
}

#[track_caller]
fn check_refused(costs: &Costs, wanted: Wanted, expected: &Expect) {
    let errors = quote(costs, wanted).expect_err("cannot be");
    let sentences: Vec<String> = errors.iter().map(ToString::to_string).collect();
    expected.assert_eq(&sentences.join("\n"));
}

#[test]
fn costs_that_cannot_be_are_refused_with_a_sentence() {
    let wage = Wanted::Wage(cents(3_000));
    check_refused(
        &costs(),
        Wanted::Wage(cents(0)),
        &expect![
            "The wanted wage is nothing. Say what an hour is to pay, or a price, to see what it leaves for an hour."
        ],
    );
    check_refused(
        &costs(),
        Wanted::Wage(cents(-5)),
        &expect![
            "The wanted wage is −0.05. It must be at least 0.01 and at most 100000.00 for an hour."
        ],
    );
    check_refused(
        &costs(),
        Wanted::Price(cents(i64::MAX)),
        &expect![
            "The price is 92233720368547758.07. It must be at least 0.00 and at most 1000000.00."
        ],
    );
    check_refused(
        &Costs {
            fees_percent: 100.0,
            ..costs()
        },
        wage,
        &expect![
            "The fees are 100 % of the price. They must be at least 0 % and at most 90 %: of a price that goes away whole nothing pays the work."
        ],
    );
    check_refused(
        &Costs {
            spoiled_percent: 100.0,
            ..costs()
        },
        wage,
        &expect![
            "100 % of the pieces are spoiled. It must be at least 0 % and at most 90 %: where hardly one is good, none has a price."
        ],
    );
    check_refused(
        &Costs {
            currency: String::new(),
            wood: cents(-1),
            heads: 0,
            minutes: f64::NAN,
            ..costs()
        },
        wage,
        &expect![[r#"
            The currency has no word, or one that is longer than 8 characters. Write it like EUR.
            For the wood there stands −0.01. It must be at least 0.00 and at most 1000000.00.
            The batch is 0 heads. It must be at least 1 heads and at most 10000 heads.
            The work on one head is NaN min. It must be at least 1 min and at most 100000 min."#]],
    );
}

#[test]
fn costs_are_written_and_read_and_have_no_key_unread() {
    assert_eq!(Costs::from_json(&costs().to_json()), Ok(costs()));
    let least = r#"{"currency": "£", "minutes": 90}"#;
    let read = Costs::from_json(least).expect("costs");
    assert_eq!((read.heads, read.steel), (1, Steel::Each(cents(0))));
    let refused = |text: &str| Costs::from_json(text).expect_err("no costs").to_string();
    expect![[r#"The costs can’t be read, at or before line 1: "wages" is no key of this part, which has one of "currency", "heads", "steel", "wood", "consumables", "fuel_per_hour", "heat_minutes", "minutes", "batch_minutes", "overhead_per_hour", "spoiled_percent", "fees_percent", "post", "wage", "sell"."#]]
        .assert_eq(&refused(r#"{"currency": "£", "wages": 3}"#));
    expect!["The costs can’t be read, at or before line 1: “4.567” is no amount of money. Write it with at most two decimals, without the currency and without marks between thousands, such as 1200.50."]
        .assert_eq(&refused(r#"{"currency": "£", "minutes": 90, "wood": "4.567"}"#));
}
