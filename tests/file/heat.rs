//! Steel and heat treatment in the design file.

use expect_test::expect;
use headwright::design::{Design, Edit, starter};
use headwright::heat::{
    Agitation, Aim, Composition, Element, Grade, Heat, Medium, Quench, Steel, Temper,
};
use serde_json::{Value, json};

use super::{changed, check_fault};

fn full() -> Heat {
    Heat {
        steel: Steel {
            grade: Grade::A4340,
            analysis: Some(
                Composition::NOTHING
                    .with(Element::C, 0.4)
                    .with(Element::Ni, 1.805)
                    .with(Element::Cr, 0.8),
            ),
        },
        quench: Some(Quench {
            medium: Medium::Oil,
            agitation: Agitation::Good,
            bath_celsius: 48.888_888_888_888_89,
        }),
        temper: Some(Temper {
            aim: Aim::Hrc(52.5),
            soak_hours: 2.0,
            times: 2,
        }),
    }
}

#[test]
fn a_heat_treatment_is_readable_and_comes_back_just_as_it_is() {
    let design = starter("light").expect("a starter");
    let design = design.apply(Edit::Heat(Box::new(full())));
    let text = design.to_json();
    assert_eq!(Design::from_json(&text), Ok(design));
    let file: Value = serde_json::from_str(&text).expect("JSON");
    expect![[r#"
        {
          "quench": {
            "agitation": "good",
            "bath_celsius": 48.88888888888889,
            "medium": "oil"
          },
          "steel": {
            "analysis": {
              "C": 0.4,
              "Cr": 0.8,
              "Ni": 1.805
            },
            "grade": "4340"
          },
          "temper": {
            "aim": {
              "hrc": 52.5
            },
            "soak_hours": 2.0,
            "times": 2
          }
        }"#]]
    .assert_eq(&serde_json::to_string_pretty(&file["design"]["heat"]).expect("JSON"));
}

#[test]
fn a_file_of_version_6_opens_with_the_usual_steel() {
    let light = starter("light").expect("a starter");
    let mut file: Value = serde_json::from_str(&light.to_json()).expect("JSON");
    file["version"] = json!(6);
    let heat = file["design"]
        .as_object_mut()
        .expect("a group")
        .remove("heat");
    assert!(heat.is_some());
    let old = Design::from_json(&file.to_string()).expect("reads");
    assert_eq!(old.heat, Heat::default());
    assert_eq!(old.heat.steel.grade, Grade::C1045);
    assert_eq!(old, light);
}

#[test]
fn a_damaged_heat_treatment_is_refused_and_the_fault_is_named() {
    check_fault(
        "/design/heat/steel",
        None,
        expect![[r#""steel" is missing"#]],
    );
    check_fault(
        "/design/heat/steel/grade",
        Some(json!("4150")),
        expect![[
            r#""4150" is not known here; write one of "1045", "1060", "1075", "1080", "1084", "4140", "4340", "5160", "W1", "W2", "S7", "H13""#
        ]],
    );
    check_fault(
        "/design/heat/steel/grade",
        Some(json!(1045)),
        expect!["it has something else where a word in quotes belongs"],
    );
    let analysis = "/design/heat/steel/analysis";
    check_fault(
        analysis,
        Some(json!({"C": 0.45, "Xx": 0.1})),
        expect![[
            r#""Xx" is not known here; write one of "C", "Mn", "Si", "Ni", "Cr", "Mo", "V", "W", "Cu", "P", "S""#
        ]],
    );
    check_fault(
        analysis,
        Some(json!({"C": "0.45"})),
        expect![[r#"it has the text "0.45" where a number belongs"#]],
    );
    check_fault(
        analysis,
        Some(json!({"C": null})),
        expect!["it has null where a number belongs"],
    );
    check_fault(
        analysis,
        Some(json!([0.45, 0.75])),
        expect!["it has a list in [ ] where a group in { } belongs"],
    );
    let quench = |bath: Value| json!({"medium": "oil", "agitation": "good", "bath_celsius": bath});
    check_fault(
        "/design/heat/quench",
        Some(quench(json!("45 °C"))),
        expect![[r#"it has the text "45 °C" where a number belongs"#]],
    );
    check_fault(
        "/design/heat/quench",
        Some(json!({"medium": "milk", "agitation": "good", "bath_celsius": 45.0})),
        expect![[r#""milk" is not known here; write one of "air", "oil", "water", "brine""#]],
    );
    let temper = |aim: Value, times: Value| json!({"aim": aim, "soak_hours": 2.0, "times": times});
    let at = "/design/heat/temper";
    check_fault(
        at,
        Some(temper(json!({"straw": 1}), json!(1))),
        expect![[r#""straw" is not known here; write "hrc" or "celsius""#]],
    );
    check_fault(
        at,
        Some(temper(json!({"hrc": true}), json!(1))),
        expect!["it has the word true where a number belongs"],
    );
    check_fault(
        at,
        Some(temper(json!({"hrc": 52}), json!(-1))),
        expect!["it has the number -1 where u8 belongs"],
    );
    check_fault(
        at,
        Some(temper(json!({"hrc": 52}), json!(1.5))),
        expect!["it has the number 1.5 where u8 belongs"],
    );
}

#[test]
fn the_line_of_a_fault_is_named() {
    let text = changed("/design/heat/steel/grade", Some(json!("4150")));
    let error = Design::from_json(&text).expect_err("a fault").to_string();
    let line = text.lines().position(|line| line.contains("4150"));
    let line = 1 + line.expect("the grade");
    let beginning = format!("This design file can’t be read, at or before line {line}: ");
    assert!(error.starts_with(&beginning), "{error}");
}
