//! `bar`: marks, upset and hot sizes, as JSON and as a table.

use expect_test::expect;

use super::{check_answer, check_close, check_refused, lopsided, number, run};

#[test]
fn the_marks_of_both_ends_are_the_same_places() {
    let text = lopsided().to_json();
    let front = check_answer(&["bar", "-"], &text);
    let back = check_answer(&["bar", "-", "--from", "back"], &text);
    let list = |answer: &serde_json::Value| answer["marks"]["marks"].as_array().cloned();
    let (front_marks, mut back_marks) =
        (list(&front).expect("a list"), list(&back).expect("a list"));
    back_marks.reverse();
    assert_eq!(front_marks.len(), 5);
    let length = number(&front, "cut_length_mm");
    for (one, other) in front_marks.iter().zip(&back_marks) {
        assert_eq!(one["place"], other["place"]);
        check_close(
            number(one, "exact_mm") + number(other, "exact_mm"),
            length,
            1e-12,
        );
        check_close(number(one, "at_mm") + number(one, "rest_mm"), length, 1e-12);
        assert_eq!(number(one, "at_mm").fract(), 0.0);
    }
}

#[test]
fn the_area_curve_adds_up_to_the_cut() {
    let answer = check_answer(&["bar", "-"], &lopsided().to_json());
    let curve = &answer["area_curve"];
    let stations = curve["stations"].as_array().expect("a list");
    let volume: f64 = stations
        .iter()
        .map(|s| number(s, "need_mm2") * (number(s, "to_mm") - number(s, "from_mm")))
        .sum();
    let cut = number(&answer, "cut_length_mm") * number(curve, "bar_mm2");
    check_close(volume, cut, 1e-9);
}

#[test]
fn hot_sizes_are_told_for_the_heat_that_is_asked() {
    let text = lopsided().to_json();
    let usual = check_answer(&["bar", "-"], &text);
    assert_eq!(number(&usual["hot_dimensions"], "celsius"), 1050.0);
    for heat in ["1100C", "1100 °C", "1100", "2012F", "2012 °f"] {
        let answer = check_answer(&["bar", "-", "--hot", heat], &text);
        let hot = &answer["hot_dimensions"];
        check_close(number(hot, "growth"), 0.0158, 1e-12);
        let reach = &hot["sizes"].as_array().expect("a list")[0];
        check_close(
            number(reach, "hot_mm"),
            1.0158 * number(reach, "cold_mm"),
            1e-12,
        );
    }
}

#[test]
fn wrong_heats_and_ends_are_refused_in_a_sentence() {
    let text = lopsided().to_json();
    let refused = |arguments: &[&str], sentence: &str| {
        check_refused(arguments, text.as_bytes(), sentence);
    };
    refused(
        &["bar", "-", "--hot", "orange"],
        "“orange” is no heat. Write it like 1050C or 1920F.",
    );
    refused(
        &["bar", "-", "--hot", "inf"],
        "“inf” is no heat. Write it like 1050C or 1920F.",
    );
    refused(
        &["bar", "-", "--hot", "1300C"],
        "The growth of steel at 1300 °C is not known. It must be at least 20 °C and at most 1200 °C.",
    );
    refused(
        &["bar", "-", "--from", "top"],
        "“top” is no end of the billet. Marks are measured from front or back.",
    );
    refused(&["bar", "-", "--from"], "Say after --from front or back.");
    refused(
        &["bar", "-", "--hot", "900", "--hot", "1000"],
        "--hot is given twice.",
    );
    for (option, arguments) in [
        ("--hot", &["weigh", "-", "--hot", "900"][..]),
        ("--from", &["weigh", "-", "--from", "back"]),
        ("--table", &["weigh", "-", "--table"]),
    ] {
        refused(
            arguments,
            &format!("weigh has no option {option}; headwright --help lists them."),
        );
    }
}

#[test]
fn the_table_is_read_without_a_program() {
    let output = run(&["bar", "-", "--table"], lopsided().to_json().as_bytes());
    assert_eq!(output.status.code(), Some(0));
    let table = String::from_utf8(output.stdout).expect("UTF-8");
    expect![[""]].assert_eq(&table);
}
