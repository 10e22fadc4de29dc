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
    expect![[r#"
        Marks, in mm from the front end of a billet of 92 mm (centre-punch dots: chalk burns off)
          place                              at  left over      rest
          front neck 1                    24.00       0.23     68.00
          front end of the cheeks         32.00       0.33     60.00
          middle of the eye               49.00       0.20     43.00
          back end of the cheeks          68.00      -0.20     24.00
          back neck 1                     75.00      -0.50     17.00

        Upset, x in mm in front of the handle axis
              from      to     bar, mm  diameters    need/bar
             -24.1   -14.2        11.2       0.25        1.15
              14.2    23.0        10.0       0.22        1.15

        Hot sizes at 1050 °C, in mm: 1.48 % longer, give or take a tenth of that
        (EN 1993-1-2:2005 + AC:2009, 3.4.1.1, thermal elongation of carbon steel)
          size                             cold        hot
          cheeks.length                   42.00      42.62
          cheeks.width                    42.00      42.62
          cheeks.height                   42.00      42.62
          cheeks.corner                    6.00       6.09
          cheeks.offset                    0.75       0.76
          eye.top.length                  30.00      30.44
          eye.top.width                   22.00      22.33
          eye.waist.length                28.00      28.41
          eye.waist.width                 19.00      19.28
          eye.bottom.length               30.00      30.44
          eye.bottom.width                21.00      21.31
          eye.waist_height                 1.50       1.52
          front.neck1.at                  29.00      29.43
          front.neck1.width               35.00      35.52
          front.reach                     58.74      59.61
          front.face.width                39.00      39.58
          front.face.land                 12.00      12.18
          front.face.crown               200.00     202.96
          front.face.edge                  2.00       2.03
          back.neck1.at                   29.00      29.43
          back.neck1.width                35.00      35.52
          back.reach                      54.00      54.80
          back.face.width                 36.00      36.53
          back.face.land                  10.00      10.15
          back.face.crown                 48.00      48.71
          back.face.edge                   2.00       2.03

        The head needs 1833 mm² at 20.1 mm in front of the handle axis, 1.15 times the 1590 mm² of the 45 mm round bar. Upset it there, or take a bar of at least that area, such as 49 mm round.

        Drifting bulges the cheeks. Forging them back lengthens the head by about 11.7 mm over the eye; the marks allow for it.
    "#]].assert_eq(&table);
}
