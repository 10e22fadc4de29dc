//! The head's shape as a file, to print or to show.

use headwright_browser::{View, browse};

fn word(bytes: &[u8], at: usize) -> usize {
    let four = bytes.get(at..at + 4).and_then(|four| four.try_into().ok());
    four.map_or(0, |four| u32::from_le_bytes(four) as usize)
}

fn whole_stl(bytes: &[u8]) -> bool {
    word(bytes, 80) > 0 && bytes.len() == 84 + 50 * word(bytes, 80)
}

fn whole_3mf(bytes: &[u8]) -> bool {
    // The directory's end, which has no comment, is the last of the package.
    let end = bytes.len().saturating_sub(22);
    bytes.starts_with(b"PK\x03\x04") && bytes[end..].starts_with(b"PK\x05\x06")
}

fn whole_glb(bytes: &[u8]) -> bool {
    bytes.starts_with(b"glTF") && bytes.len() == word(bytes, 8)
}

#[test]
fn the_shape_comes_as_stl_3mf_and_gltf_with_the_name_of_the_head() {
    for view in [View::desktop(), View::phone()] {
        browse("the shape as a file", view, |page| {
            page.enter("name of the head", "Anna & Bob’s <2>");
            let (name, stl) = page.saved_shape("STL", whole_stl);
            assert_eq!(name, "anna-bob-s-2.stl");
            let triangles = word(&stl, 80);

            let (name, package) = page.saved_shape("3MF", whole_3mf);
            assert_eq!(name, "anna-bob-s-2.3mf");
            // The parts are stored as they are, so that the text can be read.
            let text = String::from_utf8_lossy(&package);
            assert!(
                text.contains("<metadata name=\"Title\">Anna &amp; Bob’s &lt;2&gt;</metadata>")
            );
            assert_eq!(text.matches("<triangle ").count(), triangles);

            let (name, viewed) = page.saved_shape("glTF", whole_glb);
            assert_eq!(name, "anna-bob-s-2.glb");
            let json = &viewed[20..20 + word(&viewed, 12)];
            let json: serde_json::Value = serde_json::from_slice(json).expect("JSON");
            assert_eq!(json["nodes"][0]["name"], "Anna & Bob’s <2>");
            assert_eq!(json["accessors"][2]["count"], 3 * triangles);
        });
    }
}
