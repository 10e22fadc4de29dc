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

#[test]
fn an_order_in_millimetres_has_a_table_in_millimetres() {
    assert_eq!(said(&["cut", "-", "--table"], ORDER), "");
}

#[test]
fn an_order_in_inches_has_a_table_in_inches() {
    let order = r#"{
        "pieces": [{ "name": "head", "length": "4 1/2 in", "count": 5 }],
        "stock": [{ "length": "36 in" }],
        "kerf": "1/16 in"
    }"#;
    assert_eq!(said(&["cut", "-", "--table"], order), "");
}
