//! The whole tool and hammers side by side, as JSON and as tables.

use std::fs;

use headwright::design::{starter, starter_names};

use super::{check_answer, check_close, check_refused, file, number, run};

fn text(name: &str) -> String {
    starter(name).expect("a starter").to_json()
}

fn table(arguments: &[&str], input: &str) -> String {
    let output = run(arguments, input.as_bytes());
    assert_eq!(String::from_utf8_lossy(&output.stderr), "");
    String::from_utf8(output.stdout).expect("UTF-8")
}

#[test]
fn every_starter_is_swung_by_defaults() {
    for name in starter_names() {
        let answer = check_answer(&["swing", "-"], &text(name));
        let tool = &answer["tool"];
        assert!(
            number(tool, "mass_kg") > number(&answer["handle"], "mass_kg"),
            "{name}"
        );
        // The speed that is asked for by default, and the energy that goes with it.
        let swing = &answer["swing"];
        assert_eq!(number(swing, "speed_m_per_s"), 7.0);
        let delivered = 0.5 * number(&answer["blow"], "effective_mass_kg") * 49.0;
        check_close(number(swing, "delivered_j"), delivered, 1e-12);
        let shares = answer["beside"]["shares"].as_array().expect("shares");
        let sum: f64 = shares.iter().filter_map(serde_json::Value::as_f64).sum();
        assert!((sum - 1.0).abs() < 1e-9, "{name}: {sum}");
    }
}

#[test]
fn a_swing_is_asked_for_by_speed_energy_or_torque() {
    let swung = |options: &[&str]| {
        let arguments: Vec<&str> = ["swing", "-"].iter().chain(options).copied().collect();
        check_answer(&arguments, &text("rounding"))
    };
    let energy = swung(&["--energy", "40J"]);
    check_close(number(&energy["swing"], "energy_j"), 40.0, 1e-12);
    let torque = swung(&["--torque", "20Nm", "--angle", "90deg", "--side", "back"]);
    let work = 20.0 * std::f64::consts::FRAC_PI_2;
    check_close(number(&torque["swing"], "energy_j"), work, 1e-12);
    assert_eq!(torque["side"], "back");
    // What strikes is narrower than the usual distance beside the middle.
    let narrow = check_answer(&["swing", "-", "--side", "back"], &text("straight"));
    assert!(narrow["beside"]["off_mm"][0].as_f64() < Some(8.0));
    let measured = swung(&["--knuckle", "750mm", "--shoulder", "1420mm"]);
    assert_eq!(number(&measured["posture"], "anvil_mm"), 750.0);
    let smith = swung(&["--stature", "1600mm", "--anvil", "720mm", "--work", "10mm"]);
    assert_eq!(number(&smith["posture"], "anvil_mm"), 720.0);
    assert_eq!(number(&smith["posture"], "hand_mm"), 720.0 + 10.0 + 54.0);
}

#[test]
fn tables_say_what_each_number_means() {
    let metric = table(&["swing", "-", "--table"], &text("rounding"));
    for part in [
        "The tool",
        "balance point from the butt",
        "The smith",
        "Estimates",
        "– ",
    ] {
        assert!(metric.contains(part), "{part}:\n{metric}");
    }
    let compared = table(
        &[
            "compare",
            "-",
            "--sweep",
            "front.reach=52mm..58mm",
            "--table",
        ],
        &text("rounding"),
    );
    assert!(
        compared.contains("more inertia about the handle"),
        "{compared}"
    );
}

#[test]
fn hammers_are_compared_side_by_side() {
    let [short, long] = ["rounding", "long"].map(|name| {
        let path = file(&format!("compare-{name}.json"));
        fs::write(&path, text(name)).expect("written");
        path.to_string_lossy().into_owned()
    });
    let answer = check_answer(&["compare", &short, &long], "");
    let figures = |index: usize| &answer["hammers"][index]["figures"];
    assert!(number(figures(1), "twist") < number(figures(0), "twist"));
    assert_eq!(answer["units"]["twist"], "rad/s per N·s");
    let words = answer["words"].to_string();
    assert!(words.contains("more inertia about the handle"), "{words}");
    let five = ["compare", &short, &long, &short, &long, &short];
    check_refused(
        &five,
        b"",
        "There are 5 hammers to compare; at most 4 stand side by side. Leave some out.",
    );
}

#[test]
fn a_sweep_answers_for_every_step_or_says_why_not() {
    let arguments = ["compare", "-", "--sweep", "front.reach=54mm..150mm"];
    let answer = check_answer(&arguments, &text("rounding"));
    let hammers = answer["hammers"].as_array().expect("hammers");
    assert_eq!(hammers.len(), 9);
    assert!(number(&hammers[0]["figures"], "reach") == 54.0);
    let refused = hammers[8]["refused"].as_str().expect("a reason");
    assert!(refused.contains("can’t be kept"), "{refused}");
}

#[test]
fn what_cannot_be_swung_or_compared_is_refused_in_a_sentence() {
    let rounding = text("rounding");
    let refused = |arguments: &[&str], sentence: &str| {
        check_refused(arguments, rounding.as_bytes(), sentence);
    };
    refused(
        &["swing", "-", "--speed", "fast"],
        "“fast” is no speed. Write it like 7m/s.",
    );
    refused(
        &["swing", "-", "--speed", "7m/s", "--energy", "40J"],
        "Say how hard in one way: --speed, --energy, or --torque with --angle.",
    );
    refused(
        &["swing", "-", "--knuckle", "750mm"],
        "Say both --knuckle and --shoulder, or --stature alone.",
    );
    refused(
        &["swing", "-", "--side", "top"],
        "“top” is no end of the head. Strike with front or back.",
    );
    refused(
        &["compare", "-", "--speed", "7m/s"],
        "compare has no option --speed; headwright --help lists them.",
    );
    refused(
        &["weigh", "-", "--stature", "1750mm"],
        "weigh has no option --stature; headwright --help lists them.",
    );
    refused(
        &["compare", "-", "--sweep", "front.reach"],
        "“front.reach” is no range; write two limits, such as front.reach=50mm..70mm.",
    );
    let zero = run(&["swing", "-", "--stature", "0mm"], rounding.as_bytes());
    assert_eq!(zero.status.code(), Some(2));
    let sentence = String::from_utf8_lossy(&zero.stderr).into_owned();
    assert!(sentence.contains("must be at least"), "{sentence}");
}
