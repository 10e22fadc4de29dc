//! Costs as CSV, out and in.

use expect_test::{Expect, expect};
use headwright::price::{Costs, Steel};
use proptest::prelude::*;
use proptest::test_runner::RngSeed;

use super::{any_costs, cents, costs};

fn wanted() -> Costs {
    Costs {
        wage: Some(cents(3_000)),
        sell: Some(cents(18_000)),
        ..costs()
    }
}

#[test]
fn costs_as_csv_have_a_row_for_each_with_its_unit() {
    let csv = wanted().to_csv();
    expect![[r#"
        cost,value,unit,what
        currency,EUR,,the word for the money
        heads,6,heads,good heads of the batch
        list_cost,27.60,EUR,"the bars of a cutting list, in the place of that"
        list_pieces,8,pieces,the pieces of that cutting list
        wood,6.50,EUR,"handle, wedge and what else only a good head gets"
        consumables,4.20,EUR,"belts, flux, oil and finish for a head"
        fuel_per_hour,9.00,EUR/h,fuel of the fire
        heat_minutes,80,min,the fire burns for a head
        minutes,165,min,work on a head
        batch_minutes,90,min,work done once for the batch
        overhead_per_hour,7.50,EUR/h,"rent, tools, insurance"
        spoiled_percent,20,%,"pieces spoiled, of all begun"
        fees_percent,8,%,"fees, of the price"
        post,12.90,EUR,"parcel and post of a head, if the price has them in it"
        wage,30.00,EUR/h,what an hour is to pay
        sell,180.00,EUR,what a head sells for
    "#]]
    .assert_eq(&csv.replace('\r', ""));
    assert_eq!(csv.matches("\r\n").count(), csv.matches('\n').count());
    assert_eq!(Costs::from_csv(&csv), Ok(wanted()));
    assert_eq!(Costs::read(&csv), Ok(wanted()));
    assert_eq!(Costs::read(&wanted().to_json()), Ok(wanted()));
}

#[test]
fn a_currency_with_commas_and_quotes_comes_back_as_it_was() {
    let odd = Costs {
        currency: "k\"r,; ".to_owned(),
        ..wanted()
    };
    assert_eq!(Costs::from_csv(&odd.to_csv()), Ok(odd));
}

#[test]
fn a_currency_that_a_spreadsheet_would_run_is_written_as_text() {
    let odd = Costs {
        currency: "=1+1".to_owned(),
        ..wanted()
    };
    let csv = odd.to_csv();
    assert!(csv.contains("\r\ncurrency,'=1+1,,"), "{csv}");
    assert!(csv.contains(",30.00,'=1+1/h,"), "{csv}");
    assert_eq!(Costs::from_csv(&csv), Ok(odd));
}

#[test]
fn a_table_that_a_spreadsheet_turned_and_parted_by_semicolons_is_read() {
    let csv = "\u{feff}mine;unit;value;cost;what\r\n;;;;\r\nx;min;147,5;minutes;\"two\r\nlines\"\r\n;;kr;currency;\r\n;kr;12,50;steel;\r\n;;;wage;\r\n";
    let read = Costs::from_csv(csv);
    let expected = Costs {
        currency: "kr".to_owned(),
        minutes: 147.5,
        steel: Steel::Each(cents(1_250)),
        ..Costs::default()
    };
    assert_eq!(read, Ok(expected));
}

#[test]
fn a_row_whose_value_is_empty_says_nothing_of_the_currency_either() {
    let csv = "cost,value,unit,what\ncurrency,,,\ncurrency,kr,,\nminutes,90,min,\nwood,3,kr,\n";
    let read = Costs::from_csv(csv).expect("costs");
    assert_eq!((read.currency.as_str(), read.wood), ("kr", cents(300)));
}

#[test]
fn the_columns_are_named_by_the_first_row_that_says_anything() {
    let rows = "cost;value;unit;what\ncurrency;EUR;;\nminutes;two;min;\n";
    for (before, line) in [("", 3), ("\n", 4), ("\r\n;;;\r\n \n", 6), (",,,\n", 4)] {
        let errors = Costs::from_csv(&format!("{before}{rows}")).expect_err("no number");
        let said: Vec<String> = errors.iter().map(ToString::to_string).collect();
        let first = format!("Line {line}: “two” is no number, such as 2.5.");
        assert_eq!(said.first(), Some(&first), "{before:?}");
    }
}

#[track_caller]
fn check_refused(csv: &str, expected: &Expect) {
    let errors = Costs::from_csv(csv).expect_err("no costs");
    let sentences: Vec<String> = errors.iter().map(ToString::to_string).collect();
    expected.assert_eq(&sentences.join("\n"));
}

#[test]
fn every_bad_row_is_said_with_its_line_and_the_limit() {
    check_refused(
        "a,b\n",
        &expect!["This is no table of costs: its first line has no column “cost”."],
    );
    check_refused(
        "cost,value,unit,what\ncurrency,EUR,,\n",
        &expect!["The table says nothing for “minutes”. Write a row for it."],
    );
    let rows = [
        "cost,value,unit,what",
        "currency,Doubloons,,",
        "minutes,two,min,\"work,\non a head\"",
        "heat_minutes,1.5,h,",
        "heads,6.5,,",
        "wood,-3,,",
        "wood,3,,",
        "post,4.567,,",
        "fees_percent,100,%,",
        "wage,0,,",
        "sell,12 EUR,,",
        "beer,3,,",
        "list_cost,27.60,,",
    ];
    check_refused(
        &rows.join("\n"),
        &expect![[r#"
        Line 2: The currency has no word, or one that is longer than 8 characters. Write it like EUR.
        Line 3: “two” is no number, such as 2.5.
        Line 5: “heat_minutes” is in min, and here in “h”.
        Line 6: “6.5” is no whole number, such as 6.
        Line 7: For the wood there stands −3.00. It must be at least 0.00 and at most 1000000.00.
        Line 8: “wood” stands in line 7 already.
        Line 9: “4.567” is no amount of money. Write it with at most two decimals, without the currency and without marks between thousands, such as 1200.50.
        Line 10: The fees are 100 % of the price. They must be at least 0 % and at most 90 %: of a price that goes away whole nothing pays the work.
        Line 11: The wanted wage is nothing. Say what an hour is to pay, or a price, to see what it leaves for an hour.
        Line 12: “12 EUR” is no amount of money. Write it with at most two decimals, without the currency and without marks between thousands, such as 1200.50.
        Line 13: “beer” is no cost. The costs are currency, heads, steel, list_cost, list_pieces, wood, consumables, fuel_per_hour, heat_minutes, minutes, batch_minutes, overhead_per_hour, spoiled_percent, fees_percent, post, wage, sell.
        Line 14: “list_cost” and “list_pieces” need each other."#]],
    );
    check_refused(
        "cost,value,unit,what\ncurrency,EUR,,\nminutes,90,,\nsteel,3,USD,\nlist_pieces,8,,\nheads,20000,,\n",
        &expect![[r#"
            Line 4: “steel” is in EUR, and here in “USD”.
            Line 6: The batch is 20000 heads. It must be at least 1 heads and at most 10000 heads.
            Line 4: The steel is said by the piece and by a cutting list. Leave one of them away."#]],
    );
}

/// What is read from the cell of a number.
fn minutes(cell: &str) -> Result<f64, String> {
    let csv = format!("cost;value;unit;what\ncurrency;EUR;;\nminutes;{cell};min;\n");
    let costs = Costs::from_csv(&csv);
    costs.map(|costs| costs.minutes).map_err(|errors| {
        let sentences = errors.iter().map(ToString::to_string);
        sentences.collect::<Vec<_>>().join(" ")
    })
}

#[test]
fn a_comma_is_a_decimal_mark_where_it_can_be_nothing_else() {
    for (cell, read) in [
        ("147,5", 147.5),
        ("2,25", 2.25),
        ("1,2000", 1.2),
        ("1.200", 1.2),
        ("1200", 1200.0),
    ] {
        assert_eq!(minutes(cell), Ok(read), "{cell}");
    }
    let refused = |cell: &str| {
        let said = minutes(cell).expect_err("no number");
        said.strip_prefix("Line 3: ").unwrap_or_default().to_owned()
    };
    assert_eq!(
        refused("1,200"),
        "“1,200” can be read in two ways. Write 1.200 or 1200."
    );
    for cell in ["1.200,50", "1,200.50", "1,200,000"] {
        assert_eq!(
            refused(cell),
            format!(
                "“{cell}” has more than one mark. Write it without those between the thousands, such as 1200.5."
            )
        );
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 300, failure_persistence: None, rng_seed: RngSeed::Fixed(1), ..ProptestConfig::default() })]

    #[test]
    fn what_goes_out_as_csv_comes_in_as_it_was(costs in any_costs(), wage in prop::option::of(1i64..100_000)) {
        let costs = Costs { wage: wage.map(cents), ..costs };
        prop_assert_eq!(Costs::from_csv(&costs.to_csv()), Ok(costs));
    }

    #[test]
    fn no_text_panics(text in "\\PC{0,200}", cells in prop::collection::vec("[a-z0-9,;\"\n-]{0,12}", 0..40)) {
        for csv in [text, format!("cost,value,unit,what\n{}", cells.join(","))] {
            for error in Costs::from_csv(&csv).err().unwrap_or_default() {
                prop_assert!(error.to_string().ends_with('.'), "{}", error);
            }
        }
    }

    /// What two pages change apart is all there, whoever comes first.
    #[test]
    fn what_two_pages_change_apart_is_all_there(before in any_costs(), other in any_costs(), which in prop::collection::vec(any::<bool>(), 6)) {
        let pick = |own: bool| Costs {
            wood: if which[0] == own { other.wood } else { before.wood },
            minutes: if which[1] == own { other.minutes } else { before.minutes },
            steel: if which[2] == own { other.steel } else { before.steel },
            heads: if which[3] == own { other.heads } else { before.heads },
            post: if which[4] == own { other.post } else { before.post },
            wage: (which[5] == own).then(|| cents(4_000)),
            ..before.clone()
        };
        let [a, b] = [pick(true), pick(false)];
        let both = before.changed(&before, &a).changed(&before, &b);
        prop_assert_eq!(&both, &before.changed(&before, &b).changed(&before, &a));
        for (line, (a, b)) in both.lines().iter().zip(a.lines().iter().zip(&b.lines())) {
            prop_assert!(line == a || line == b);
        }
        prop_assert_eq!(both.wood, other.wood);
        prop_assert_eq!(both.steel, other.steel);
        prop_assert_eq!(both.wage, Some(cents(4_000)));
    }
}
