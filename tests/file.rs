//! The design file: what is written is what is read, and what is no design file says so.

use expect_test::{Expect, expect};
use headwright::design::{
    Corner, Crown, Design, Dim, Edge, Edit, FileError, Hold, Part, Quantity, Range, Side, schema,
    starter, starter_names,
};
use headwright::units::{Length, Mass};
use serde_json::{Value, json};

#[path = "file/heat.rs"]
mod heat;
#[path = "file/losses.rs"]
mod losses;
#[path = "file/schema_check.rs"]
mod schema_check;

fn length(text: &str) -> Length {
    text.parse().expect("a length")
}

/// A small asymmetric design in mixed notations, with every optional part of a design.
fn small() -> Design {
    let corner = |text: &str| Corner::Chamfer { size: length(text) };
    let base = starter("light").expect("a starter");
    let reach = "front.reach".parse().expect("a dimension");
    let land = "back.face.land".parse().expect("a dimension");
    let mut design = base
        .apply(Edit::Name("Small „one“".to_owned()))
        .apply(Edit::Note(String::new()))
        .apply(Edit::set(reach, length("2 1/4 in")))
        .apply(Edit::Alike(land, false))
        .apply(Edit::set(land, length("1.1 cm")))
        .apply(Edit::Corner(Part::Cheeks, corner("0.125 in")))
        .apply(Edit::Crown(Side::Back, Crown::Flat))
        .apply(Edit::Edge(Side::Back, Edge::Sharp))
        .apply(Edit::RemoveNeck(Side::Back))
        .apply(Edit::hold(
            Quantity::Mass,
            Hold::About {
                value: "1 lb 3 oz".parse().expect("a mass"),
                tolerance: Some(Mass::grams(2.0)),
            },
        ))
        .apply(Edit::hold(
            Quantity::Balance,
            Hold::Between {
                low: length("-0.5 mm"),
                high: length("1/32 in"),
            },
        ));
    design.free.clear();
    let range = Range::new(length("2 in"), length("70 mm"));
    let mut design = design.apply(Edit::Free(reach, range));
    design.bar.losses.truncate(1);
    design
}

#[test]
fn a_file_is_readable_and_keeps_every_notation() {
    expect![[r#"
        {
          "format": "headwright design",
          "version": 7,
          "design": {
            "name": "Small „one“",
            "density": "7.85 g/cm³",
            "cheeks": {
              "length": "34 mm",
              "width": "32 mm",
              "height": "32 mm",
              "corner": {
                "chamfer": {
                  "size": "0.125 in"
                }
              },
              "offset": "0 mm"
            },
            "eye": {
              "outline": "ellipse",
              "top": {
                "length": "24 mm",
                "width": "16 mm"
              },
              "waist": {
                "length": "22 mm",
                "width": "14 mm"
              },
              "bottom": {
                "length": "24 mm",
                "width": "16 mm"
              },
              "waist_height": "0 mm"
            },
            "front": {
              "necks": [
                {
                  "at": "23 mm",
                  "width": "26 mm",
                  "corner": "octagon",
                  "transition": "smooth"
                }
              ],
              "transition": "smooth",
              "reach": "2 1/4 in",
              "face": {
                "width": "28 mm",
                "corner": "round",
                "land": "11 mm",
                "crown": {
                  "radius": "120 mm"
                },
                "edge": {
                  "rounded": "2 mm"
                }
              }
            },
            "back": {
              "transition": "smooth",
              "reach": "50 mm",
              "face": {
                "width": "28 mm",
                "corner": "round",
                "land": "1.1 cm",
                "crown": "flat",
                "edge": "sharp"
              }
            },
            "holds": {
              "mass": {
                "value": "1 lb 3 oz",
                "tolerance": "2 g"
              },
              "balance": {
                "low": "-0.5 mm",
                "high": "1/32 in"
              }
            },
            "free": {
              "front.reach": {
                "low": "2 in",
                "high": "70 mm"
              }
            },
            "alike": [
              "back.face.width"
            ],
            "bar": {
              "section": {
                "shape": "square",
                "across": "32 mm"
              },
              "losses": [
                {
                  "kind": "slug",
                  "amount": {
                    "punched": {
                      "expected": "8 mm",
                      "spread": "3 mm"
                    }
                  },
                  "source": "common practice, no source: slot punch from both sides; the rest is pushed aside",
                  "certainty": "common_practice"
                }
              ],
              "confidence": 0.9,
              "rule": "1 mm"
            },
            "handle": {
              "wood": {
                "species": "shagbark_hickory"
              },
              "moisture_percent": 12.0,
              "length": "330 mm",
              "stations": [
                {
                  "at": "0 mm",
                  "depth": "42 mm",
                  "width": "32 mm"
                },
                {
                  "at": "35 mm",
                  "depth": "38 mm",
                  "width": "28 mm"
                },
                {
                  "at": "115 mm",
                  "depth": "38 mm",
                  "width": "28 mm"
                },
                {
                  "at": "253 mm",
                  "depth": "22 mm",
                  "width": "14.7 mm"
                },
                {
                  "at": "298 mm",
                  "depth": "24 mm",
                  "width": "16 mm"
                }
              ],
              "grip": "75 mm",
              "shoulder": "fills_mouth",
              "kerf": {
                "depth": "21.3 mm",
                "width": "2 mm"
              },
              "wedge": {
                "wood": {
                  "species": "white_oak"
                },
                "length": "19.1 mm",
                "crush": "0.5 mm"
              }
            },
            "heat": {
              "steel": {
                "grade": "1045"
              }
            }
          }
        }
    "#]].assert_eq(&small().to_json());
}

#[test]
fn what_is_written_is_what_is_read() {
    let mut designs: Vec<Design> = starter_names()
        .map(|name| starter(name).expect("a starter"))
        .collect();
    designs.push(small());
    for design in designs {
        let text = design.to_json();
        assert_eq!(Design::from_json(&text), Ok(design.clone()));
        assert!(text.ends_with("}\n"));
        let marked = format!("\u{feff}\r\n{text}");
        assert_eq!(
            Design::from_json(&marked),
            Ok(design),
            "with a byte order mark"
        );
    }
}

/// The file of [`small`] with the part at `pointer` replaced, or taken out.
fn changed(pointer: &str, part: Option<Value>) -> String {
    let mut file: Value = serde_json::from_str(&small().to_json()).expect("JSON");
    let (parent, key) = pointer.rsplit_once('/').expect("a pointer");
    let parent = file.pointer_mut(parent).expect("a part");
    match (parent, part) {
        (Value::Object(entries), Some(part)) => {
            entries.insert(key.to_owned(), part);
        }
        (Value::Object(entries), None) => {
            entries.remove(key).expect("a key");
        }
        (parent, Some(part)) => parent[key.parse::<usize>().expect("an index")] = part,
        _ => unreachable!("only keys are taken out"),
    }
    serde_json::to_string_pretty(&file).expect("JSON")
}

#[track_caller]
fn check_fault(pointer: &str, part: Option<Value>, expected: Expect) {
    let error = Design::from_json(&changed(pointer, part)).expect_err("a fault");
    let FileError::Fault { line, ref fault } = error else {
        panic!("{error}");
    };
    assert!(line > 1);
    assert!(error.to_string().ends_with('.') && !error.to_string().ends_with(".."));
    expected.assert_eq(fault);
}

#[test]
fn a_missing_key_is_named() {
    for pointer in [
        "/design/name",
        "/design/density",
        "/design/cheeks/width",
        "/design/eye/waist_height",
        "/design/eye/top/length",
        "/design/front/reach",
        "/design/front/face/land",
        "/design/front/necks/0/at",
        "/design/free/front.reach/low",
        "/design/bar/rule",
        "/design/bar/losses/0/source",
    ] {
        let (_, key) = pointer.rsplit_once('/').expect("a pointer");
        let error = Design::from_json(&changed(pointer, None)).expect_err("missing");
        let ending = format!(": \"{key}\" is missing.");
        assert!(error.to_string().ends_with(&ending), "{pointer}: {error}");
    }
    check_fault(
        "/design/front/face",
        None,
        expect![[r#"an end has neither "face", "ball" nor "pein""#]],
    );
}

#[test]
fn every_quantity_can_be_held_in_every_form() {
    let holds = json!({
        "mass": {"at_most": "3 lb"},
        "balance": {"at_least": "-1 mm"},
        "inertia_handle_axis": {"value": "4.25 lb·in²", "tolerance": "10 kg·mm²"},
        "reach_ratio": {"low": 1.0, "high": 1.25},
        "length": {"value": "4 1/2 in"},
        "least_wall": {"at_least": "8 mm"},
        "tool_mass": {"at_most": "3 lb"},
        "tool_balance": {"at_least": "50 mm"},
        "grip_inertia": {"at_most": "120000 kg·mm²"}
    });
    let text = changed("/design/holds", Some(holds.clone()));
    let design = Design::from_json(&text).expect("reads");
    for quantity in Quantity::ALL {
        assert!(design.holds.get(quantity).is_some(), "{quantity:?}");
    }
    let written: Value = serde_json::from_str(&design.to_json()).expect("JSON");
    assert_eq!(written.pointer("/design/holds"), Some(&holds));
    let schema = schema().to_value();
    assert!(schema_check::faults(&schema, &written).is_empty());
}

#[test]
fn a_file_that_does_not_say_what_is_free_frees_the_usual_sizes() {
    let silent = Design::from_json(&changed("/design/free", None)).expect("reads");
    assert_eq!(silent.free, small().default_free());
    assert_eq!(silent.free.len(), 4);
    let locked = Design::from_json(&changed("/design/free", Some(json!({})))).expect("reads");
    assert!(locked.free.is_empty());
}

/// `small` with all of `alike` said to be alike.
fn small_alike(alike: &[&str]) -> Design {
    Design::from_json(&changed("/design/alike", Some(json!(alike)))).expect("reads")
}

#[test]
fn a_file_that_does_not_say_what_is_alike_ties_all_that_is_equal() {
    let silent = Design::from_json(&changed("/design/alike", None)).expect("reads");
    let width: Dim = "back.face.width".parse().expect("one");
    assert_eq!(silent.alike, [width].into());
    assert_eq!(small_alike(&[]).alike, [].into());
    // What an older file lets a fit move by itself stays free.
    let mut free = small();
    free.alike.clear();
    let range = Range::new(length("20 mm"), length("40 mm"));
    let file = free.apply(Edit::Free(width, range)).to_json();
    let old = Design::from_json(&file.replacen("\"alike\": [],", "", 1)).expect("reads");
    assert_eq!(old.free[&width], range);
    assert_eq!(old.alike, [].into());
}

#[test]
fn a_file_loses_the_ties_that_do_not_hold() {
    let read = small_alike(&[
        "back.face.width",
        // 11 mm is not 1.1 cm: the notation is part of the value.
        "back.face.land",
        "back.face.crown",
        "back.neck1.at",
        "back.reach",
        "front.face.width",
        "cheeks.width",
    ]);
    assert_eq!(read.alike, small().alike);
    assert_eq!(read, small());
}

#[test]
fn a_file_of_version_1_reads_as_it_stands() {
    let file = starter("rounding").expect("a starter").to_json();
    let old = file.replacen("\"version\": 7", "\"version\": 1", 1);
    assert_ne!(file, old);
    assert_eq!(
        Design::from_json(&old),
        Ok(starter("rounding").expect("a starter"))
    );
}

#[test]
fn an_unknown_key_is_named_wherever_it_stands() {
    for place in [
        "",
        "/design",
        "/design/cheeks",
        "/design/cheeks/corner/chamfer",
        "/design/eye",
        "/design/eye/top",
        "/design/front",
        "/design/front/face",
        "/design/front/necks/0",
        "/design/holds",
        "/design/free/front.reach",
        "/design/bar",
        "/design/bar/losses/0",
        "/design/heat",
        "/design/heat/steel",
    ] {
        let text = changed(&format!("{place}/colour"), Some(json!("red")));
        let error = Design::from_json(&text).expect_err("unknown").to_string();
        assert!(
            error.contains("\"colour\" is no key of this part"),
            "{place}: {error}"
        );
    }
}

#[test]
fn a_wrong_value_is_named_and_what_belongs_there_is_said() {
    let reach = "/design/front/reach";
    let cheek = "/design/cheeks/corner";
    check_fault(
        reach,
        Some(json!(58)),
        expect![[
            r#"it has the number 58 where a length with its unit as text, such as "58 mm" or "2 1/4 in" belongs"#
        ]],
    );
    check_fault(
        reach,
        Some(json!(null)),
        expect![[
            r#"it has null where a length with its unit as text, such as "58 mm" or "2 1/4 in" belongs"#
        ]],
    );
    check_fault(
        reach,
        Some(json!(["58 mm"])),
        expect![[
            r#"it has a list in [ ] where a length with its unit as text, such as "58 mm" or "2 1/4 in" belongs"#
        ]],
    );
    check_fault(
        reach,
        Some(json!("58")),
        expect!["“58” has no unit. Write a length such as 58 mm or 2 1/4 in"],
    );
    check_fault(
        reach,
        Some(json!("58 kg")),
        expect!["“58 kg” is a mass, but a length is needed here. Use mm, cm or in"],
    );
    check_fault(
        reach,
        Some(json!("58 ells")),
        expect!["“ells” in “58 ells” is not a known unit of length. Use mm, cm or in"],
    );
    check_fault(
        reach,
        Some(json!("NaN mm")),
        expect!["“NaN mm” is not a number with a unit. Write a length such as 58 mm or 2 1/4 in"],
    );
    check_fault(
        reach,
        Some(json!("1e999 mm")),
        expect!["“1e999 mm” is too large to be a length"],
    );
    check_fault(
        reach,
        Some(json!("")),
        expect!["Nothing is written here. Write a length such as 58 mm or 2 1/4 in"],
    );
    check_fault(
        "/design/name",
        Some(json!(5)),
        expect!["it has the number 5 where a text belongs"],
    );
    check_fault(
        "/design",
        Some(json!([1])),
        expect!["it has the number 1 where a text belongs"],
    );
    check_fault(
        "/design/eye",
        Some(json!("round")),
        expect![[r#"it has the text "round" where a group in { } belongs"#]],
    );
    check_fault(
        cheek,
        Some(json!("wobbly")),
        expect![[
            r#""wobbly" is not known here; write one of "sharp", "chamfer", "octagon", "rounded", "round", "conic""#
        ]],
    );
    check_fault(
        cheek,
        Some(json!("chamfer")),
        expect!["it has a plain word where a group in { } belongs"],
    );
    check_fault(
        cheek,
        Some(json!(5)),
        expect!["it has the number 5 where a plain word or a group in { } belongs"],
    );
    let conic = json!({"conic": {"across": "3 mm", "up": "3 mm", "weight": "NaN"}});
    check_fault(
        cheek,
        Some(conic),
        expect![[r#"it has the text "NaN" where a number belongs"#]],
    );
    check_fault(
        "/design/front/necks",
        Some(json!({})),
        expect!["it has a group in { } where a list in [ ] belongs"],
    );
    check_fault(
        "/design/holds/mass",
        Some(json!(1.1)),
        expect!["it has the number 1.1 where a group in { } belongs"],
    );
    check_fault(
        "/design/holds/mass",
        Some(json!({"value": "1 kg", "at_most": "2 kg"})),
        expect![
            "a hold is a value with or without its tolerance, low and high, at_least or at_most"
        ],
    );
    let range = json!({"low": "50 mm", "high": "70 mm"});
    check_fault(
        "/design/free/front.reech",
        Some(range),
        expect![
            "There is no dimension called “front.reech”; a name looks like cheeks.length or front.reach"
        ],
    );
    check_fault(
        "/design/bar/section/shape",
        Some(json!("hex")),
        expect![[
            r#""hex" is not known here; write one of "round", "square", "rectangular", "octagonal", "hexagonal", "of_area""#
        ]],
    );
    check_fault(
        "/design/bar/rule",
        Some(json!("0 mm")),
        expect![
            "The smallest division you measure with is 0 mm. It must be at least 0.01 mm and at most 100 mm"
        ],
    );
}

#[test]
fn a_fault_with_a_book_in_it_stays_a_sentence() {
    let book = "once\nupon ".repeat(10_000);
    for text in [
        changed("/design/front/reach", Some(json!(book))),
        changed("/design/cheeks/corner", Some(json!(book))),
        changed(&format!("/design/{book}"), Some(json!(1))),
    ] {
        let error = Design::from_json(&text).expect_err("refused").to_string();
        assert!(error.chars().count() < 400, "{error}");
        assert!(!error.contains('\n'), "{error}");
    }
}

#[track_caller]
fn check_refused(text: &str, expected: Expect) {
    expected.assert_eq(&Design::from_json(text).expect_err("refused").to_string());
}

#[test]
fn a_version_that_cannot_be_read_says_so() {
    let version = |version: Value| changed("/version", Some(version));
    check_refused(
        &version(json!(8)),
        expect![
            "This design was written by a newer Headwright (format version 8); this one reads up to version 7. Reload the app or install the newer one."
        ],
    );
    check_refused(
        &version(json!(0)),
        expect!["This design says it has format version 0; versions begin at 1."],
    );
    check_refused(
        &version(json!("1")),
        expect![[r#"This design file can’t be read: it states no version, such as "version": 7."#]],
    );
    check_refused(
        &version(json!(-1)),
        expect![[r#"This design file can’t be read: it states no version, such as "version": 7."#]],
    );
    check_refused(
        &version(json!(1.5)),
        expect![[r#"This design file can’t be read: it states no version, such as "version": 7."#]],
    );
    check_refused(
        &changed("/version", None),
        expect![[r#"This design file can’t be read: it states no version, such as "version": 7."#]],
    );
}

#[test]
fn a_newer_file_says_that_it_is_newer_before_it_complains_of_new_keys() {
    let text = r#"{"format": "headwright design", "version": 8, "head": {}}"#;
    assert_eq!(Design::from_json(text), Err(FileError::Newer(8)));
}

#[test]
fn what_is_no_design_file_says_so() {
    check_refused("", expect!["This is not a design file: it is empty."]);
    check_refused(
        " \n\u{feff}",
        expect!["This is not a design file: it is not JSON (line 2, column 1)."],
    );
    check_refused(
        "a hammer",
        expect!["This is not a design file: it is not JSON (line 1, column 1)."],
    );
    check_refused(
        "{\n  \"format\": ",
        expect!["This is not a design file: it is not JSON (line 2, column 12)."],
    );
    check_refused(
        "{\"a\": 1}",
        expect!["This is not a design file: its format is not “headwright design”."],
    );
    check_refused(
        "[1, 2]",
        expect!["This is not a design file: its format is not “headwright design”."],
    );
    check_refused(
        "null",
        expect!["This is not a design file: its format is not “headwright design”."],
    );
    check_refused(
        "1e999",
        expect!["This is not a design file: it is not JSON (line 1, column 5)."],
    );
    check_refused(
        &"[".repeat(1_000_000),
        expect!["This is not a design file: line 1 is nested deeper than any design."],
    );
    check_refused(
        &format!("{}1{}", "{\"a\":".repeat(500), "}".repeat(500)),
        expect!["This is not a design file: line 1 is nested deeper than any design."],
    );
    let twice = small()
        .to_json()
        .replacen("\"version\": 7", "\"version\": 7, \"version\": 7", 1);
    check_refused(
        &twice,
        expect![[
            r#"This design file can’t be read, at or before line 3: "version" stands twice."#
        ]],
    );
}

/// `cargo run --bin headwright -- schema > public/design.schema.json` writes it anew.
#[test]
fn the_schema_beside_the_app_is_the_one_of_the_types() {
    let mut text = serde_json::to_string_pretty(&schema()).expect("JSON");
    text.push('\n');
    let kept = include_str!("../public/design.schema.json");
    assert!(
        text == kept,
        "public/design.schema.json is stale: cargo run --bin headwright -- schema > \
         public/design.schema.json"
    );
}

#[test]
fn every_starter_is_what_the_schema_says() {
    let schema = schema().to_value();
    let starters = starter_names().map(|name| starter(name).expect("a starter"));
    for design in starters.chain([small()]) {
        let file = serde_json::from_str(&design.to_json()).expect("JSON");
        let faults = schema_check::faults(&schema, &file);
        assert_eq!(faults, [""; 0], "{}", design.name);
    }
}

#[test]
fn what_the_reader_refuses_the_schema_refuses_too() {
    let schema = schema().to_value();
    for (pointer, part) in [
        ("/version", Some(json!(8))),
        ("/format", Some(json!("a hammer"))),
        ("/colour", Some(json!("red"))),
        ("/design/colour", Some(json!("red"))),
        ("/design/cheeks/colour", Some(json!("red"))),
        ("/design/front/colour", Some(json!("red"))),
        ("/design/front/reach", None),
        ("/design/front/face", None),
        ("/design/front/reach", Some(json!(58))),
        ("/design/front/reach", Some(json!("58 kg"))),
        ("/design/front/transition", Some(json!("curly"))),
        ("/design/cheeks/corner", Some(json!("wobbly"))),
        ("/design/holds/mass", Some(json!({"value": "3 mm"}))),
        ("/design/holds/mass", Some(json!({"at_least": "3 mm"}))),
        ("/design/holds/reach_ratio", Some(json!({"value": "1.25"}))),
        (
            "/design/free/Front",
            Some(json!({"low": "1 mm", "high": "2 mm"})),
        ),
        ("/design/bar/section/shape", Some(json!("hex"))),
        ("/design/heat/steel/grade", Some(json!("4150"))),
        ("/design/heat/steel/analysis", Some(json!({"Xx": 0.45}))),
        ("/design/heat/steel/analysis", Some(json!({"C": "0.45"}))),
        ("/design/heat/temper", Some(json!({"aim": {"hrc": 52.0}}))),
    ] {
        let text = changed(pointer, part);
        assert!(Design::from_json(&text).is_err(), "{pointer}");
        let file = serde_json::from_str(&text).expect("JSON");
        assert!(
            !schema_check::faults(&schema, &file).is_empty(),
            "{pointer}"
        );
    }
}
