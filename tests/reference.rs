//! Heads that were computed from the definition by another program, in another language and by
//! other ways of integrating: `tests/reference/heads.py` says how, and how exactly.

use headwright::design::Design;
use headwright::mass::{Order, moments};
use headwright::solid::{Head, checks};
use serde_json::Value;

/// What the project promises, relative to the number's own scale.
const PROMISED: f64 = 1e-6;

fn heads() -> Vec<Value> {
    let file: Value =
        serde_json::from_str(include_str!("reference/heads.json")).expect("the file is JSON");
    file["heads"].as_array().expect("a list of heads").clone()
}

fn name(head: &Value) -> &str {
    head["design"]["design"]["name"].as_str().expect("a name")
}

/// All numbers of a value or a list of any depth.
fn numbers(value: &Value) -> Vec<f64> {
    match value {
        Value::Array(items) => items.iter().flat_map(numbers).collect(),
        number => vec![number.as_f64().expect("a number")],
    }
}

#[test]
fn reference_heads_are_met() {
    for head in heads() {
        let design = Design::from_json(&head["design"].to_string()).expect("a design file");
        let solid = Head::lift(&design, &mut |_, number| number);
        checks(&solid, &mut |check, margin: f64| {
            assert!(margin >= 0.0, "{}: {check:?} {margin}", name(&head));
        });
        let got = moments(&solid, Order::default());
        let per_mm3 = solid.density * 1e-9;
        let inertia = got.inertia_about(got.centroid()).concat();
        for (what, got) in [
            ("volume", vec![got.volume]),
            ("mass", vec![got.volume * per_mm3]),
            ("centroid", got.centroid().to_vec()),
            (
                "inertia_centroid",
                inertia.iter().map(|entry| entry * per_mm3).collect(),
            ),
            ("inertia_handle_axis", vec![(got.xx + got.yy) * per_mm3]),
        ] {
            let reference = &head["results"][what];
            let expected = numbers(&reference["value"]);
            let stated = reference["accuracy"].as_f64().expect("an accuracy");
            // A centroid is as exact as a millimetre is; a tensor as its greatest entry.
            let scale = expected.iter().fold(1.0f64, |most, v| most.max(v.abs()));
            let allowed = stated.max(PROMISED * if what == "mass" { got[0] } else { scale });
            assert_eq!(got.len(), expected.len());
            for (got, expected) in got.iter().zip(&expected) {
                assert!(
                    (got - expected).abs() <= allowed,
                    "{}, {what}: {got} against {expected} ± {stated}",
                    name(&head)
                );
            }
        }
    }
}
