//! Drifts at the command line: openings, drifts of one's own, the drawing.

use headwright::units::Rule;

use super::{check_answer, check_refused, lopsided, number, run};

#[test]
fn the_bar_tells_the_drifts() {
    let design = lopsided().to_json();
    let bar = check_answer(&["bar", "-", "--hot", "20C"], &design);
    let drifts = &bar["drifts"];
    let last = |drifts: &serde_json::Value| {
        let series = drifts["drifts"].as_array().expect("a list");
        let section = &series.last().expect("a drift")["section"];
        ["length_mm", "width_mm"].map(|size| number(section, size))
    };
    assert_eq!(last(drifts), [28.0, 19.0]);
    // Larger by what the head shrinks from the usual heat, 1050 °C.
    let usual = &check_answer(&["bar", "-"], &design)["drifts"];
    let [length, width] = last(usual);
    assert!((length - 28.0 * 1.0148).abs() < 1e-9 && (width - 19.0 * 1.0148).abs() < 1e-9);
    assert_eq!(number(&usual["eye"][1], "length_mm"), 28.0);
    assert!(drifts["own"].is_null());
    let profile = &drifts["profiles"][0];
    assert_eq!(profile["from"], "top");
    // Half the length at the mouth's mark: 30 mm.
    assert_eq!(
        profile["length_plane_mm"][0],
        serde_json::json!([0.0, 15.0])
    );
    assert_eq!(drifts["opening"]["shape"], "obround");
}

#[test]
fn openings_and_drifts_are_read_as_they_are_written() {
    let design = lopsided().to_json();
    let opened = |options: &[&str]| {
        let arguments: Vec<&str> = ["bar", "-"].iter().chain(options).copied().collect();
        check_answer(&arguments, &design)["drifts"].clone()
    };
    for (option, text, shape, length, width) in [
        ("--slot", "25mmx6mm", "obround", 25.0, 6.0),
        ("--slot", "25 x 6", "obround", 25.0, 6.0),
        ("--slot", "2.5 × 0.6 cm", "obround", 25.0, 6.0),
        ("--slot", "1x1/4 in", "obround", 25.4, 6.35),
        ("--slot", "12mm", "round", 12.0, 12.0),
        ("--slot", "rectangle:24x6mm", "rectangular", 24.0, 6.0),
        ("--slit", "32mm", "slit", 32.0, 3.0),
        ("--slit", "32mmx2mm", "slit", 32.0, 2.0),
    ] {
        let opening = &opened(&[option, text])["opening"];
        assert_eq!(opening["shape"], shape, "{text}");
        assert_eq!(number(&opening["size"], "length_mm"), length, "{text}");
        assert_eq!(number(&opening["size"], "width_mm"), width, "{text}");
    }
    let own = &opened(&[
        "--drift",
        "26x9",
        "--drift=20x14@1:12",
        "--drift",
        "27mmx13mm@0",
    ])["own"];
    assert_eq!(own["steps"].as_array().expect("a list").len(), 3);
    assert_eq!(own["gives_eye"], false);
    assert!(
        own["notes"][0]
            .as_str()
            .expect("a sentence")
            .starts_with("At the waist")
    );
}

#[test]
fn the_last_drift_is_drawn_at_full_size() {
    let output = run(
        &["drift", "-", "--slit", "30mm"],
        lopsided().to_json().as_bytes(),
    );
    assert_eq!(output.status.code(), Some(0));
    let svg = String::from_utf8(output.stdout).expect("UTF-8");
    assert!(svg.starts_with("<svg ") && svg.contains("mm\" height=\""));
    assert!(svg.contains("Measure 50 mm here"));
    assert!(svg.contains("waist 28.4 × 19.3 mm"), "{svg}");
    assert!(svg.contains("made for the eye hot, at 1050 °C: 0.4 mm longer and 0.3 mm wider"));
    let cold = run(
        &["drift", "-", "--hot", "20C"],
        lopsided().to_json().as_bytes(),
    );
    let cold = String::from_utf8(cold.stdout).expect("UTF-8");
    assert!(cold.contains("waist 28 × 19 mm"), "{cold}");
    // In the units of the rule, refusals too.
    let mut in_inches = lopsided();
    in_inches.bar.rule = Rule::SIXTEENTH;
    let text = in_inches.to_json();
    let output = run(&["drift", "-"], text.as_bytes());
    let svg = String::from_utf8(output.stdout).expect("UTF-8");
    assert!(svg.contains("waist 1.119 × 0.759 in"), "{svg}");
    check_refused(
        &["bar", "-", "--drift", "20x140"],
        text.as_bytes(),
        "Drift 1: its width is 5.512 in. It must be at least 0.079 in and at most 3.937 in.",
    );
}

#[test]
fn wrong_openings_and_drifts_are_refused_in_one_sentence() {
    let design = lopsided().to_json();
    let refused = |arguments: &[&str], sentence: &str| {
        check_refused(arguments, design.as_bytes(), sentence);
    };
    refused(
        &["weigh", "-", "--slot", "25x6"],
        "weigh has no option --slot; headwright --help lists them.",
    );
    refused(
        &["mesh", "-", "--drift", "25x6"],
        "mesh has no option --drift; headwright --help lists them.",
    );
    refused(
        &["bar", "-", "--slit"],
        "Say after --slit its length, such as 32mm.",
    );
    refused(
        &["bar", "-", "--slit", "32mm", "--slot", "25x6"],
        "The opening is given twice; say it once, with --slot or with --slit.",
    );
    refused(
        &["drift", "-", "--slit", "1kg"],
        "--slit: “1kg” is a mass, but a length is needed here. Use mm, cm or in.",
    );
    refused(
        &["bar", "-", "--drift", "20mm"],
        "“20mm” is not a drift; write its greatest length and width, such as 20mmx14mm.",
    );
    for taper in ["20x14@steep", "20x14@1:0"] {
        let text = taper.split_once('@').expect("a taper").1;
        refused(
            &["bar", "-", "--drift", taper],
            &format!(
                "“{text}” is not a taper; write what a drift loses of its length and width on the way to the tip, such as 20x14@1:12 or 20x14@0.1."
            ),
        );
    }
    refused(
        &["bar", "-", "--drift", "20x14@2"],
        "Drift 1: its taper is 2 mm for every mm. It must be at least 0 and at most 1.",
    );
    refused(
        &["bar", "-", "--drift", "20x140"],
        "Drift 1: its width is 140 mm. It must be at least 2 mm and at most 100 mm.",
    );
    refused(
        &["drift", "-", "extra"],
        "“extra” is too much: drift takes one design, one opening after --slot or --slit, every drift after --drift, and the heat after --hot.",
    );
}
