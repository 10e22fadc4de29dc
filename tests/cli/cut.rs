//! The cutting list of an order file, as JSON and as a table.

use serde_json::json;

use super::{check_answer, run};

/// Two bars of three metres: 4 × 700 + 3 × 2 = 2806 in one, 3 × 300 + 2 × 2 = 904 in the other.
const ORDER: &str = r#"{
    "pieces": [
        { "name": "sledge", "length": "700 mm", "count": 4 },
        { "name": "rounding", "length": "300 mm", "count": 3 }
    ],
    "stock": [{ "length": "3000 mm", "price": 30.5 }],
    "kerf": "2 mm",
    "section": { "shape": "square", "across": "40 mm" }
}"#;

fn said(arguments: &[&str], input: &str) -> String {
    let output = run(arguments, input.as_bytes());
    assert_eq!(String::from_utf8_lossy(&output.stderr), "");
    assert_eq!(output.status.code(), Some(0));
    String::from_utf8(output.stdout).expect("UTF-8")
}

#[test]
fn an_order_file_is_answered_with_its_list_totals_and_bound() {
    let answer = check_answer(&["cut", "-"], ORDER);
    let list = &answer["lists"][0];
    assert_eq!(list["totals"]["bars"], 2);
    assert_eq!(list["totals"]["cost"], 61.0);
    assert_eq!(list["totals"]["pieces_mm"], 3700.0);
    assert_eq!(
        list["bound"],
        json!({
            "aim": "bars", "value": 2.0, "least": 2.0, "gap": 0.0, "proved": true, "steel_proved": true
        })
    );
    assert_eq!(list["bars"][0]["pieces"][1]["from_mm"], 702.0);
}

/// The table of `order` without its blank lines.
fn table(order: &str) -> Vec<String> {
    let table = said(&["cut", "-", "--table"], order);
    let lines = table.lines().filter(|line| !line.is_empty());
    lines.map(str::to_owned).collect()
}

#[test]
fn an_order_in_millimetres_has_a_table_in_millimetres() {
    assert_eq!(
        table(ORDER)[1..],
        [
            " bars     bar mm  offcut mm  pieces (mm)",
            "  1 ×       3000        192  4 × 700 sledge",
            "  1 ×       3000       2094  3 × 300 rounding",
            "7 pieces from 2 bars: 6000 mm of steel, 14 mm kerf, 2286 mm offcut, 2094 mm of it in one length, 75.360 kg, cost 61.00",
            "No list takes less than 2 bars: proved.",
        ]
    );
}

#[test]
fn an_order_in_inches_has_a_table_in_inches() {
    let order = r#"{
        "pieces": [{ "name": "head", "length": "4 1/2 in", "count": 5 }],
        "stock": [{ "length": "36 in" }],
        "kerf": "1/16 in"
    }"#;
    assert_eq!(
        table(order),
        [
            " bars     bar in  offcut in  pieces (in)",
            "  1 ×         36    13 3/16  5 × 4 1/2 head",
            "5 pieces from 1 bar: 36 in of steel, 5/16 in kerf, 13 3/16 in offcut, 13 3/16 in of it in one length",
            "No list takes less than 1 bar: proved.",
        ]
    );
}
