//! Heads that were computed from the definition by another program, in another language and by
//! other ways of integrating: `tests/reference/heads.py` says how, and how exactly.

use headwright::design::Design;
use headwright::mass::mass_properties;
use serde_json::Value;

/// What the project promises, relative to the number's own scale.
const PROMISED: f64 = 1e-6;

/// The heads that need parts which a design cannot have yet.
const BEYOND: [&str; 7] = [
    "Ball and face",
    "Cross pein",
    "Straight pein and ball",
    "Two peins",
    "Swell and lugs",
    "Cocked eye",
    "Everything",
];

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
    let mut met = Vec::new();
    for head in heads() {
        let Ok(design) = Design::from_json(&head["design"].to_string()) else {
            continue;
        };
        let got = mass_properties(&design.build().expect("reference heads are sound"));
        for (what, got) in [
            ("volume", vec![got.volume]),
            ("mass", vec![got.mass]),
            ("centroid", got.centroid.to_vec()),
            ("inertia_centroid", got.inertia_centroid.concat()),
            ("inertia_handle_axis", vec![got.inertia_handle_axis]),
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
        met.push(name(&head).to_owned());
    }
    assert_eq!(met.len() + BEYOND.len(), heads().len(), "met: {met:?}");
}

#[test]
fn a_reference_head_with_parts_that_a_design_cannot_have_is_refused() {
    for head in heads() {
        let refused = Design::from_json(&head["design"].to_string()).is_err();
        let beyond = BEYOND.iter().any(|begin| name(&head).starts_with(begin));
        assert_eq!(refused, beyond, "{}", name(&head));
    }
}
