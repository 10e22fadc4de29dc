//! The losses of a bar in files of older versions and of this one.

use headwright::bar::{BarSection, Certainty, LossAmount, Punch};
use headwright::design::{Design, starter};
use headwright::units::{Length, Mass};
use serde_json::{Value, json};

/// A file of version 4 with losses as they were usual then, and one of the workshop's own.
fn of_version_4() -> Value {
    let text = starter("light").expect("a starter").to_json();
    let mut file: Value = serde_json::from_str(&text).expect("JSON");
    file["version"] = json!(4);
    file["design"]["bar"] = json!({
        "section": { "shape": "square", "across": "1 1/2 in" },
        "losses": [
            {
                "kind": "slug",
                "amount": { "percent_of_eye": { "expected": 25.0, "spread": 10.0 } },
                "source": "common practice, no source: a hand punch drives out a thin slug and pushes the rest aside"
            },
            {
                "kind": "forging_scale",
                "amount": { "percent_of_head": { "expected": 5.0, "spread": 2.0 } },
                "source": "scale 5 % of net volume: Forging, course notes, studylib.net/doc/5620444; the spread is common practice, no source"
            },
            {
                "kind": "trimming",
                "amount": { "mass": { "expected": "12 g", "spread": "1/4 oz" } },
                "source": "weighed on three heads"
            }
        ],
        "confidence": 0.9,
        "rule": "1/16 in"
    });
    file
}

#[test]
fn a_file_of_version_4_keeps_its_losses_and_learns_how_sure_they_are() {
    let design = Design::from_json(&of_version_4().to_string()).expect("reads");
    assert_eq!(design.bar.check(), []);
    assert_eq!(design.bar.section, BarSection::square(Length::inches(1.5)));
    let amounts = design.bar.losses.iter().map(|loss| loss.amount);
    let ounces: Mass = "1/4 oz".parse().expect("a mass");
    assert_eq!(
        amounts.collect::<Vec<_>>(),
        [
            LossAmount::PercentOfEye {
                expected: 25.0,
                spread: 10.0
            },
            LossAmount::PercentOfHead {
                expected: 5.0,
                spread: 2.0
            },
            LossAmount::Mass {
                expected: Mass::grams(12.0),
                spread: ounces
            },
        ]
    );
    let certain = design.bar.losses.iter().map(|loss| loss.certainty);
    assert_eq!(
        certain.collect::<Vec<_>>(),
        [Certainty::CommonPractice, Certainty::Read, Certainty::Own]
    );
    // Written again it says so itself.
    assert_eq!(Design::from_json(&design.to_json()), Ok(design));
}

#[test]
fn losses_by_cause_are_written_readably_and_read_back_the_same() {
    let mut design = starter("light").expect("a starter");
    design.bar.section = BarSection::square(Length::mm(40.0)).with_corner_radius(Length::mm(2.0));
    let file: Value = serde_json::from_str(&design.to_json()).expect("JSON");
    let bar = &file["design"]["bar"];
    assert_eq!(
        bar["section"],
        json!({ "shape": "square", "across": "40 mm", "corner_radius": "2 mm" })
    );
    assert_eq!(
        bar["losses"][0]["amount"],
        json!({ "punched": {
            "expected": "8 mm",
            "spread": "3 mm"
        } })
    );
    assert_eq!(
        bar["losses"][1]["amount"],
        json!({ "per_heat": {
            "heats": 8,
            "minutes": 10.0,
            "atmosphere": "neutral",
            "expected": "0.04 mm",
            "spread": "0.02 mm"
        } })
    );
    assert_eq!(bar["losses"][1]["certainty"], json!("common_practice"));
    assert_eq!(Design::from_json(&design.to_json()), Ok(design));
}

#[test]
fn a_punch_with_sizes_keeps_them_as_files_of_version_5_wrote_them() {
    let mut file: Value =
        serde_json::from_str(&starter("light").expect("a starter").to_json()).expect("JSON");
    let punch = json!({ "obround": { "length": "25 mm", "width": "12 mm" } });
    file["design"]["bar"]["losses"][0]["amount"]["punched"]["punch"] = punch.clone();
    let design = Design::from_json(&file.to_string()).expect("reads");
    assert_eq!(
        design.bar.punch([22.0, 14.0]),
        Some(Punch::Obround {
            length: Length::mm(25.0),
            width: Length::mm(12.0)
        })
    );
    let again: Value = serde_json::from_str(&design.to_json()).expect("JSON");
    assert_eq!(
        again["design"]["bar"]["losses"][0]["amount"]["punched"]["punch"],
        punch
    );
}

#[test]
fn a_loss_that_is_no_loss_is_named() {
    for (from, to, sentence) in [
        ("\"heats\": 8", "\"heats\": 7.5", "floating point"),
        ("\"heats\": 8", "\"heats\": -8", "-8"),
        ("\"neutral\"", "\"damp\"", "damp"),
        (
            "\"certainty\": \"common_practice\"",
            "\"certainty\": \"sure\"",
            "sure",
        ),
        ("\"punched\"", "\"bored\"", "bored"),
    ] {
        let text = starter("light")
            .expect("a starter")
            .to_json()
            .replace(from, to);
        let error = Design::from_json(&text).expect_err("refused").to_string();
        assert!(
            error.starts_with("This design file can’t be read, at or before line"),
            "{error}"
        );
        println!("{sentence}: {error}");
    }
    // Numbers out of bounds read, and the bar says so.
    let text = starter("light").expect("a starter").to_json();
    let design = Design::from_json(&text.replace("\"heats\": 8", "\"heats\": 0")).expect("reads");
    assert_eq!(
        design.bar.check()[0].to_string(),
        "Loss 2, scale in forging: the number of heats is 0. It must be at least 1 and at most 100."
    );
}
