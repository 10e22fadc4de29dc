//! `bar`: marks, upset and hot sizes, as JSON and as a table.

use expect_test::expect;
use headwright::bar::BarSection;
use headwright::units::{Length, Rule};

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
fn every_upset_says_whether_it_can_stand() {
    let mut thin = lopsided();
    thin.bar.section = BarSection::square(Length::mm(32.0));
    let answer = check_answer(&["bar", "-"], &thin.to_json());
    let upsets = answer["upsets"].as_array().expect("a list");
    assert!(!upsets.is_empty());
    for upset in upsets {
        let verdict = upset["verdict"].as_str().expect("a word");
        let diameters = number(upset, "diameters");
        assert_eq!(verdict == "within_hand_limit", diameters <= 2.5, "{upset}");
        assert_eq!(
            verdict == "within_free_limit",
            diameters > 2.5 && diameters <= 3.0
        );
        assert_eq!(verdict.starts_with("beyond"), diameters > 3.0, "{upset}");
    }
}

#[test]
fn growth_is_less_sure_where_steel_shrinks_on_its_way_to_austenite() {
    let text = lopsided().to_json();
    for (heat, uncertainty) in [("1050C", 0.1), ("800C", 0.25)] {
        let answer = check_answer(&["bar", "-", "--hot", heat], &text);
        let hot = &answer["hot_dimensions"];
        assert_eq!(number(hot, "uncertainty"), uncertainty);
        let source = hot["source"].as_str().expect("a source");
        assert!(source.ends_with("the standard itself not read"), "{source}");
    }
}

#[test]
fn a_table_is_in_the_units_of_the_rule() {
    let mut design = lopsided();
    design.bar.rule = Rule::SIXTEENTH;
    let text = design.to_json();
    let arguments = ["bar", "-", "--table", "--slit", "30mm", "--drift", "26x9"];
    let output = run(&arguments, text.as_bytes());
    let table = String::from_utf8(output.stdout).expect("UTF-8");
    for words in [
        "Where the cut goes, in oz",
        "up to the rule, 1/16 in",
        "in of 1.772 in round. Expect",
        "Marks, in in from the front end",
        "Drifts, in in, from an opening of 1.181 × 0.118 slit",
        "a punch of 0.992 in × 0.249 in obround",
        "Hot sizes at 1922 °F, in in",
    ] {
        assert!(table.contains(words), "{words}: {table}");
    }
    assert!(!table.contains(" mm"), "{table}");
}

#[test]
fn what_a_piece_gives_is_read_without_a_program() {
    let arguments = ["bar", "-", "--piece", "1.2kg", "--table"];
    let output = run(&arguments, lopsided().to_json().as_bytes());
    assert_eq!(output.status.code(), Some(0));
    let table = String::from_utf8(output.stdout).expect("UTF-8");
    expect![[r#"
        Where the piece goes, in g
                                           mass   spread     of it
          piece                          1200.0            100.0 %
          slug                              9.5      3.6     0.8 %
          scale in forging                 51.7     25.9     4.3 %
          scale in heat treatment           4.8      3.2     0.4 %
          end trimming                     12.5     12.5     1.0 %
          grinding faces                   20.1     10.1     1.7 %
          dressing                          5.5      3.3     0.5 %
          finished head                  1095.9     29.5    91.3 %
        Expect 1121.5 g before grinding, and 1058.1 to 1133.6 g after.

        Sizes that are moved for it
          size                                from                  to
          cheeks.width                       42 mm        43.465615 mm
          cheeks.height                      42 mm        43.134372 mm
          front.reach                    2 5/16 in    2.43107393701 in
          back.reach                         54 mm        56.779038 mm
    "#]]
    .assert_eq(&table);
}

#[test]
fn the_table_is_read_without_a_program() {
    let output = run(&["bar", "-", "--table"], lopsided().to_json().as_bytes());
    assert_eq!(output.status.code(), Some(0));
    let table = String::from_utf8(output.stdout).expect("UTF-8");
    expect![[r#"
        Where the cut goes, in g
                                           mass   spread    of cut
          finished head                  1009.0             87.8 %
          slug                              9.5      3.6     0.8 %
          scale in forging                 48.8     24.4     4.3 %
          scale in heat treatment           4.6      3.1     0.4 %
          end trimming                     12.5     12.5     1.1 %
          grinding faces                   20.1     10.1     1.8 %
          dressing                          5.0      3.0     0.4 %
          billet, expected               1109.5     29.7    96.6 %
          reserve                          38.1              3.3 %
          up to the rule, 1 mm              1.0              0.1 %
          cut                            1148.6            100.0 %
        Cut 92.00 mm of 45 mm round. Expect 1073.2 g before grinding, and 1010.0 to 1086.2 g after.

        Area needed along the head, x in mm in front of the handle axis
              from      to     bar, mm    need/bar  work
             -54.1   -25.4        20.3        0.64  draw
             -25.4   -24.1         1.3        0.99  leave
             -24.1   -14.2        11.2        1.15  upset
             -14.2   -13.8         0.4        0.99  leave
             -13.8    13.8        19.1        0.63  draw
              13.8    14.2         0.4        0.99  leave
              14.2    23.0        10.0        1.15  upset
              23.0    24.6         1.6        0.99  leave
              24.6    26.2         1.4        0.86  draw
              26.2    40.4        10.4        0.70  fuller
              40.4    60.0        15.9        0.75  draw

        Marks, in mm from the front end of a billet of 92 mm (centre-punch dots: chalk burns off)
          place                              at  left over      rest
          front neck 1                    24.00       0.23     68.00
          front end of the cheeks         32.00       0.33     60.00
          middle of the eye               49.00       0.20     43.00
          back end of the cheeks          68.00      -0.20     24.00
          back neck 1                     75.00      -0.50     17.00

        Upset, x in mm in front of the handle axis
              from      to     bar, mm  diameters    need/bar  verdict
             -24.1   -14.2        11.2       0.25        1.15  within 2.5 d, by hand
              14.2    23.0        10.0       0.22        1.15  within 2.5 d, by hand

        Drifts, in mm, from an opening of 25.2 × 6.3 obround
          drift         greatest   stretch     cheek wall  outer width  from the top             from the bottom
          1           26.2 × 9.2       9 %   16.5 to 17.9         44.8  right through            right through
          2          27.3 × 13.3      11 %   14.4 to 17.9         48.9  right through            right through
          3          28.4 × 19.3      24 %   10.5 to 17.9         57.8  level with the mouth     level with the mouth
          The bolster’s hole: 27.2 × 8.3
          The last drift is made for the eye hot, at 1050 °C: 0.4 mm longer and 0.3 mm wider. The finished eye, cold: 28 × 19 mm at the waist.

        Hot sizes at 1050 °C, in mm: 1.48 % longer, give or take 10 % of that
        (EN 1993-1-2:2005 + AC:2009, 3.4.1.1, thermal elongation of carbon steel, as quoted in a public software manual; the standard itself not read)
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
