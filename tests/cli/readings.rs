//! Heads on their way and hammers that exist, at the command line.

use expect_test::expect;
use headwright::design::{Design, Edit, Hold, Quantity, starter};
use headwright::log::{Build, Event, Log, What};
use headwright::units::{Length, Mass};
use serde_json::{Value, json};

use super::{check_answer, check_refused, keys, number, run, sorted};

/// The rounding hammer with a weight held.
fn held() -> Design {
    let design = starter("rounding").expect("a starter");
    let value = Mass::grams(1000.0);
    let tolerance = Some(Mass::grams(5.0));
    design.apply(Edit::hold(Quantity::Mass, Hold::About { value, tolerance }))
}

fn said(arguments: &[&str], input: &str) -> String {
    let output = run(arguments, input.as_bytes());
    assert_eq!(String::from_utf8_lossy(&output.stderr), "");
    assert_eq!(output.status.code(), Some(0));
    String::from_utf8(output.stdout).expect("UTF-8")
}

const FORGED: [&str; 8] = [
    "forged",
    "-",
    "--size",
    "cheeks.width=43.6mm@1050C",
    "--size",
    "front.reach=2 5/32 in",
    "--weighed",
    "1060g",
];

#[test]
fn forged_answers_with_weight_balance_and_the_sizes_to_move() {
    let mut arguments = FORGED.to_vec();
    arguments.extend(["--after", "drift"]);
    let answer = check_answer(&arguments, &held().to_json());
    let promised = [
        "mass_kg",
        "mass_spread_kg",
        "offset_mm",
        "offset_spread_mm",
        "by_sizes_kg",
        "by_scale_kg",
        "sizes",
        "holds",
        "way_back",
        "moves",
        "in_the_way",
        "sentences",
        "design",
    ];
    assert_eq!(sorted(&keys(&answer)), sorted(&promised));
    let hot = &answer["sizes"][0];
    assert_eq!(
        (&hot["size"], &hot["read"], &hot["celsius"]),
        (&json!("cheeks.width"), &json!("43.6 mm"), &json!(1050.0))
    );
    assert_eq!(hot["designed"], "42 mm");
    assert_eq!(answer["sizes"][1]["cold"], "2 5/32 in");
    // A quarter of the scale in forging and what comes after it are not lost yet.
    let by_scale = answer["by_scale_kg"][0].as_f64().expect("kg");
    assert!((0.95..1.06).contains(&by_scale), "{by_scale}");
    assert_eq!(answer["way_back"], "moves");
    let moved = &answer["moves"][0];
    let size = moved["size"].as_str().expect("a path");
    let design = Design::from_json(&answer["design"].to_string()).expect("a design file");
    let to = design
        .size(size.parse().expect("a dimension"))
        .expect("a size");
    assert_eq!(moved["to"], json!(to.to_string()));
    assert_eq!(answer["holds"][0]["hold"], "mass");
    assert!(number(&answer["holds"][0], "miss") != 0.0);
}

#[test]
fn a_head_on_its_way_is_a_table_to_be_read() {
    let mut arguments = FORGED.to_vec();
    arguments.extend([
        "--caliper",
        "0.3mm",
        "--scale",
        "5g",
        "--accuracy",
        "1mm",
        "--table",
    ]);
    expect![[r#"
                read      heat          cold      designed  size
             43.6 mm   1050 °C      42.96 mm         42 mm  cheek width
            54.77 mm                54.77 mm         54 mm  front face offset

        The finished head will weigh 1.058 kg ± 2.8 g, and its balance will lie 0.86 mm ± 0.42 mm in front of the handle axis (± one standard deviation). By its sizes alone it is 1.014 kg ± 14.1 g, by the scale 1.060 kg ± 2.9 g.
        The scale shows more than the sizes allow, by 3.2 standard deviations: measure and weigh again.
        To come back to what is held, move one size: back face offset from 54 mm to 47.84 mm.
    "#]].assert_eq(&said(&arguments, &held().to_json()));
}

/// The log of two builds, the second of which was measured.
fn log() -> String {
    let mut builds = vec![
        Build::begun("build-a", None, held(), 1_772_611_200_000),
        Build::begun("build-b", None, held(), 1_772_697_600_000),
    ];
    for (step, what) in [
        (
            5,
            What::Measured {
                dim: "cheeks.width".parse().expect("a dimension"),
                size: Length::mm(43.0).into(),
                celsius: Some(900.0),
            },
        ),
        (8, What::weighed(Mass::grams(1040.0))),
    ] {
        let event = Event {
            step,
            at: 1_772_697_600_000,
            what,
        };
        builds[1].record(event).expect("a reading that can be");
    }
    builds.reverse();
    let unread = Vec::new();
    Log { builds, unread }.to_json()
}

#[test]
fn forged_reads_what_a_build_of_a_log_says_and_what_is_said_besides() {
    let by_number = check_answer(&["forged", "-", "--build", "2"], &log());
    let by_id = check_answer(&["forged", "-", "--build", "build-b"], &log());
    assert_eq!(by_number, by_id);
    assert_eq!(by_number["sizes"][0]["read"], "43 mm");
    assert!(by_number["by_scale_kg"][0].as_f64().expect("kg") < 1.04);
    let more = [
        "forged",
        "-",
        "--build",
        "2",
        "--size",
        "cheeks.width=42mm",
        "--weighed",
        "1010g",
    ];
    let more = check_answer(&more, &log());
    assert_eq!(more["sizes"].as_array().map(Vec::len), Some(1));
    assert_eq!(more["sizes"][0]["celsius"], Value::Null);
    assert_eq!(more["by_scale_kg"][0], 1.01);
    let refused =
        |arguments: &[&str], sentence: &str| check_refused(arguments, log().as_bytes(), sentence);
    refused(
        &["forged", "-", "--build", "3"],
        "The log has no build “3”; it has 2, numbered from 1 in the order in which they were begun.",
    );
    refused(
        &["forged", "-", "--build", "1"],
        "Nothing was measured and nothing weighed. Give a size or a weight.",
    );
    refused(
        &["forged", "nowhere.json", "--build", "1"],
        "The log file “nowhere.json” can’t be read: there is no such file.",
    );
}

#[test]
fn measured_answers_with_a_design_and_what_would_explain_the_weight() {
    let arguments = [
        "measured",
        "-",
        "--size",
        "cheeks.width=40.5mm",
        "--size",
        "front.drop=1°",
        "--weighed",
        "960g",
    ];
    let answer = check_answer(&arguments, &held().to_json());
    let promised = [
        "computed_kg",
        "more_kg",
        "agree",
        "computed_spread_kg",
        "difference_spread_kg",
        "share",
        "fitted",
        "sizes",
        "explanations",
        "sentences",
        "design",
    ];
    assert_eq!(sorted(&keys(&answer)), sorted(&promised));
    assert_eq!(answer["agree"], false);
    assert_eq!(answer["fitted"], Value::Null);
    let computed = number(&answer, "computed_kg");
    assert!((computed + number(&answer, "more_kg") - 0.96).abs() < 1e-12);
    let first = &answer["explanations"][0];
    let all = ["size", "value", "would_be", "measured", "times", "may_be"];
    assert!(all.iter().all(|key| keys(first).contains(key)), "{first}");
    let design = Design::from_json(&answer["design"].to_string()).expect("a design file");
    let weighed = check_answer(&["weigh", "-"], &design.to_json());
    assert!((number(&weighed, "mass_kg") - computed).abs() < 1e-9);
    let mut arguments = arguments.to_vec();
    arguments.extend(["--rest", "weight"]);
    let fitted = check_answer(&arguments, &held().to_json());
    assert_eq!(fitted["fitted"], "met");
    let design = Design::from_json(&fitted["design"].to_string()).expect("a design file");
    let weighed = check_answer(&["weigh", "-"], &design.to_json());
    assert!((number(&weighed, "mass_kg") - 0.96).abs() < 1e-4);
    let drawn = [
        "measured",
        "-",
        "--size",
        "cheeks.length=63mm",
        "--rest",
        "proportion",
    ];
    let drawn = check_answer(&drawn, &held().to_json());
    assert_eq!(drawn["share"], 1.5);
}

#[test]
fn a_hammer_that_exists_is_a_table_to_be_read() {
    let arguments = [
        "measured",
        "-",
        "--size",
        "cheeks.width=40.5mm",
        "--weighed",
        "960g",
        "--table",
    ];
    expect![[r#"
                read      heat          cold      designed  size
             40.5 mm                 40.5 mm         42 mm  cheek width

            would be     taken for     times  size
            38.58 mm         39 mm       0.8  front face width
            41.44 mm         42 mm       1.1  cheek height
             6.65 mm          6 mm       1.3  cheek corner
            34.29 mm         35 mm       1.4  front neck 1 width
            53.23 mm         54 mm       1.5  front face offset
            53.23 mm         54 mm       1.5  back face offset
             27.1 mm         29 mm       3.8  front neck 1 distance
            21.02 mm         19 mm         4  eye waist width
             40.1 mm       40.5 mm         4  cheek width
            30.04 mm         28 mm       4.1  eye waist length
             4.59 mm          2 mm       5.2  front face edge
            39.25 mm         42 mm       5.5  cheek length
            33.95 mm         30 mm       7.9  eye top length
            33.95 mm         30 mm       7.9  eye bottom length
            25.01 mm         21 mm         8  eye top width
            25.01 mm         21 mm         8  eye bottom width
             3.13 mm         12 mm      17.7  front face land
            34.84 mm         48 mm      26.3  back face crown radius
            72.99 mm        200 mm       254  front face crown radius

        By its sizes the head weighs 967 g, by the scale 960 g: 6.6 g less.
        Readings and sizes that were not measured leave ± 7.2 g of the difference open (one standard deviation): it lies within that.
        One size would explain it: front face width 38.58 mm and not 39 mm, front and back alike, within what it may be off unmeasured; cheek height 41.44 mm and not 42 mm, 1.1 times what it may be off unmeasured; cheek corner 6.65 mm and not 6 mm, 1.3 times what it may be off unmeasured.
    "#]].assert_eq(&said(&arguments, &held().to_json()));
    let inches = held().apply(Edit::Bar(Box::new(headwright::bar::Bar {
        rule: headwright::units::Rule::SIXTEENTH,
        ..held().bar
    })));
    expect![[r#"
                read      heat          cold      designed  size
            1 5/8 in                1 5/8 in      1.654 in  cheek width

        By its sizes the head weighs 2 lb 2.5 oz ± 0.4 oz (one standard deviation).
    "#]]
    .assert_eq(&said(
        &[
            "measured",
            "-",
            "--size",
            "cheeks.width=1 5/8 in",
            "--table",
        ],
        &inches.to_json(),
    ));
}

#[test]
fn what_no_reading_is_is_refused_in_a_sentence() {
    let design = held().to_json();
    let refused = |arguments: &[&str], sentence: &str| {
        for command in ["forged", "measured"] {
            let mut all = vec![command, "-"];
            all.extend(arguments);
            check_refused(&all, design.as_bytes(), sentence);
        }
    };
    refused(
        &["--size", "front.reach"],
        "“front.reach” is no reading; write a size and what it measured, such as front.reach=58.2mm, or hot \
         front.reach=59mm@1050C.",
    );
    refused(
        &["--size", "front.chin=3mm"],
        "There is no dimension called “front.chin”; a name looks like cheeks.length or front.reach.",
    );
    refused(
        &["--size", "front.reach=wide"],
        "The reading of front.reach: “wide” is not a number with a unit. Write a length such as 58 mm or 2 1/4 in.",
    );
    refused(
        &["--size", "front.reach=58mm@warm"],
        "“warm” is no heat. Write it like 1050C or 1920F.",
    );
    refused(
        &["--weighed", "heavy"],
        "--weighed: “heavy” is not a number with a unit. Write a mass such as 1.1 kg or 2 lb 6 oz.",
    );
    refused(
        &["--scale", "1g", "--scale", "2g"],
        "--scale is given twice.",
    );
    refused(
        &["--size", "front.reach=55mm", "--after", "drift"],
        "--after says when the head was weighed: give its weight too, such as --weighed 1290g.",
    );
    refused(
        &["--weighed", "1kg", "--after", "lunch"],
        "There is no step “lunch” before the handle is on; the steps are cut, forge to size, punch, drift, forge cheeks and \
         ends, normalize, harden, temper, grind, bring to weight.",
    );
    refused(
        &["--size", "front.reach=55mm", "--caliper", "0mm"],
        "How far off a cold caliper may be is said to be 0 mm. It must be at least 0.001 mm and at most 20 mm. How far off a \
         hot caliper may be is said to be 0 mm. It must be at least 0.001 mm and at most 20 mm.",
    );
    refused(
        &[],
        "Nothing was measured and nothing weighed. Give a size or a weight.",
    );
    check_refused(
        &["measured", "-", "--rest", "guess"],
        design.as_bytes(),
        "“guess” says nothing of the sizes that were not measured. Say proportion or weight.",
    );
    check_refused(
        &["forged", "-", "--rest", "weight"],
        design.as_bytes(),
        "forged has no option --rest; headwright --help lists them.",
    );
    check_refused(
        &["measured", "-", "--build", "1"],
        design.as_bytes(),
        "measured has no option --build; headwright --help lists them.",
    );
    check_refused(
        &["weigh", "-", "--size", "front.reach=55mm"],
        design.as_bytes(),
        "weigh has no option --size; headwright --help lists them.",
    );
    check_refused(
        &["forged"],
        b"",
        "Name the design file after forged, or - to read it from standard input.",
    );
    check_refused(
        &[
            "measured",
            "-",
            "--size",
            "cheeks.width=41mm",
            "--rest",
            "weight",
        ],
        design.as_bytes(),
        "The rest is to be fitted to the weight, but nothing was weighed. Give the weight of the head.",
    );
}
