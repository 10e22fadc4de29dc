//! The reference heads as designs: between them they have every part and option.

use headwright::design::Design;
use serde_json::Value;

/// The reference heads with their names.
pub fn reference_heads() -> Vec<(String, Design)> {
    let file: Value =
        serde_json::from_str(include_str!("../reference/heads.json")).expect("the file is JSON");
    let heads = file["heads"].as_array().expect("a list of heads");
    heads
        .iter()
        .map(|head| {
            let design = Design::from_json(&head["design"].to_string()).expect("a design file");
            (design.name.clone(), design)
        })
        .collect()
}
