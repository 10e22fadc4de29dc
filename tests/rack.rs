//! The rack: what is written is what is read, and nothing is lost on the way.

use expect_test::{expect, expect_file};
use headwright::design::{Design, Edit, starter, starter_names};
use headwright::rack::{
    Arrival, Entry, LATEST, LONGEST_TAG, MOST_BYTES, MOST_TAGS, Rack, Slip, Work, finds, mark,
    read_tags, schema,
};
use proptest::prelude::*;
use proptest::test_runner::RngSeed;
use serde_json::{Value, json};

mod common;
#[path = "rack/pages.rs"]
mod pages;
#[path = "file/schema_check.rs"]
mod schema_check;
#[path = "rack/taken_in.rs"]
mod taken_in;

const VERSION_1: &str = include_str!("rack/version-1.headwright-rack.json");

fn named(id: &str, name: &str) -> Entry {
    let design = starter("light").expect("a starter");
    Entry {
        id: id.to_owned(),
        design: design.apply(Edit::Name(name.to_owned())),
        made: 1_700_000_000_000,
        changed: 1_700_000_360_000,
        tags: Vec::new(),
    }
}

fn rack_of(entries: Vec<Entry>) -> Rack {
    Rack {
        entries,
        unread: Vec::new(),
    }
}

/// Entries with designs drawn at random, each as a design file gives it: that keeps as many digits as are shown.
fn entries() -> impl Strategy<Value = Vec<Entry>> {
    let tags = prop::collection::btree_set("[a-zäß][a-z0-9 ]{0,10}[a-z]", 0..4);
    let entry = (common::sound_designs(), 0..=LATEST, 0..=LATEST, tags);
    prop::collection::vec(entry, 0..4).prop_map(|all| {
        all.into_iter()
            .enumerate()
            .map(|(index, (design, made, changed, tags))| Entry {
                id: format!("entry-{index}"),
                design: Design::from_json(&design.to_json()).expect("a design file"),
                made,
                changed,
                tags: read_tags(&tags.into_iter().collect::<Vec<_>>().join(",")).expect("tags"),
            })
            .collect()
    })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 60, failure_persistence: None, rng_seed: RngSeed::Fixed(1), ..ProptestConfig::default() })]

    #[test]
    fn a_rack_of_any_designs_is_read_as_it_was_written(entries in entries()) {
        let rack = rack_of(entries);
        let text = rack.to_json();
        let again = Rack::from_json(&text).expect("a rack file");
        prop_assert_eq!(&again, &rack);
        prop_assert_eq!(again.to_json(), text);
    }

    #[test]
    fn a_slip_of_any_design_is_read_as_it_was_kept(entries in entries(), removed in any::<bool>()) {
        for entry in entries {
            let slip = Slip { removed, ..Slip::new(entry) };
            let text = slip.to_json();
            prop_assert_eq!(Slip::from_json(&text), Ok(slip));
        }
    }

    #[test]
    fn a_rack_cut_off_or_changed_anywhere_is_refused_or_read_but_never_a_panic(
        at in 0.0..1.0, letter in prop::char::any()
    ) {
        let text = rack_of(vec![named("a", "One"), named("b", "Two")]).to_json();
        let mut place = (at * text.len() as f64) as usize;
        while !text.is_char_boundary(place) {
            place -= 1;
        }
        let (before, after) = text.split_at(place);
        // Only what closes the file is behind the last brace.
        prop_assert_eq!(Rack::from_json(before).is_err(), !before.contains("\n}"));
        let changed = format!("{before}{letter}{}", after.get(1..).unwrap_or_default());
        if let Ok(rack) = Rack::from_json(&changed) {
            prop_assert_eq!(rack.entries.len() + rack.unread.len(), 2);
        }
    }
}

#[test]
fn the_first_version_reads_with_designs_of_older_and_newer_versions_in_it() {
    let rack = Rack::from_json(VERSION_1).expect("a rack file");
    let names: Vec<&str> = rack
        .entries
        .iter()
        .map(|e| e.design.name.as_str())
        .collect();
    let alone = [
        include_str!("link/lopsided.headwright.json"),
        include_str!("bar/two-faced.headwright.json"),
    ];
    let alone = alone.map(|text| Design::from_json(text).expect("a design"));
    assert_eq!(names, [alone[0].name.as_str(), alone[1].name.as_str()]);
    assert_eq!(rack.entries[0].design, alone[0]);
    assert_eq!(rack.entries[1].design, alone[1]);
    assert_eq!(rack.entries[0].tags, ["sold", "for Anna"]);
    assert_eq!(rack.entries[0].changed, 1_700_000_360_000);
    let [unread] = rack.unread.as_slice() else {
        panic!("one is of a newer version");
    };
    assert_eq!(unread.name.as_deref(), Some("Hammer of tomorrow"));
    assert!(
        unread.reason.contains("newer Headwright"),
        "{}",
        unread.reason
    );
    assert!(unread.text.contains("\"weight\": \"1 stone\""));
}

#[test]
fn what_cannot_be_read_goes_out_as_it_came_in() {
    let rack = Rack::from_json(VERSION_1).expect("a rack file");
    let again = Rack::from_json(&rack.to_json()).expect("a rack file");
    assert_eq!(again, rack);
}

#[test]
fn a_rack_file_is_readable() {
    let mut entry = named("0a1b", "Bench hammer");
    entry.tags = vec!["sold".to_owned()];
    let text = rack_of(vec![entry]).to_json();
    let beginning: Vec<&str> = text.lines().take(16).collect();
    expect![[r#"
        {
          "format": "headwright rack",
          "version": 2,
          "entries": [
            {
              "id": "0a1b",
              "made": 1700000000000,
              "changed": 1700000360000,
              "tags": [
                "sold"
              ],
              "design": {
                "format": "headwright design",
                "version": 7,
                "design": {
                  "name": "Bench hammer","#]]
    .assert_eq(&beginning.join("\n"));
}

#[track_caller]
fn check_refused(text: &str, expected: &str) {
    let error = Rack::from_json(text).expect_err("no rack file");
    assert_eq!(error.to_string(), expected);
}

#[test]
fn what_is_no_rack_file_says_so() {
    check_refused(" \n", "This is not a rack file: it is empty.");
    check_refused(
        "{\"format\": \"headwright rack\",",
        "This is not a rack file: it is not JSON, or its end is missing (line 1, column 29).",
    );
    check_refused(
        &starter("light").expect("a starter").to_json(),
        "This is not a rack file: its format is not “headwright rack”.",
    );
    check_refused(
        "[]",
        "This is not a rack file: its format is not “headwright rack”.",
    );
    check_refused(
        r#"{"format": "headwright rack", "entries": []}"#,
        r#"This rack file can’t be read: it states no version, such as "version": 2."#,
    );
    check_refused(
        r#"{"format": "headwright rack", "version": 0, "entries": []}"#,
        "This says it has rack version 0; versions begin at 1.",
    );
    check_refused(
        r#"{"format": "headwright rack", "version": 3, "shelves": []}"#,
        "This was written by a newer Headwright (rack version 3); this one reads up to version 2. Reload the app or install the newer one.",
    );
    check_refused(
        r#"{"format": "headwright rack", "version": 1}"#,
        r#"This can’t be read, at or before line 1: "entries" is missing."#,
    );
    check_refused(
        r#"{"format": "headwright rack", "version": 1, "entries": 3}"#,
        "This can’t be read, at or before line 1: it has the number 3 where a list in [ ] belongs.",
    );
    check_refused(
        &"x".repeat(MOST_BYTES + 1),
        "This rack file has 201 MB, more than the 200 MB that are read.",
    );
}

/// A rack file with one sound entry, and one in which `pointer` is `part`, or missing.
fn spoiled(pointer: &str, part: Option<Value>) -> String {
    let text = rack_of(vec![named("a", "Sound"), named("b", "Spoiled")]).to_json();
    let mut file: Value = serde_json::from_str(&text).expect("JSON");
    let (above, key) = pointer.rsplit_once('/').expect("a pointer");
    let above = file
        .pointer_mut(&format!("/entries/1{above}"))
        .expect("a part");
    let above = above.as_object_mut().expect("a group");
    match part {
        Some(part) => above.insert(key.to_owned(), part),
        None => above.remove(key),
    };
    file.to_string()
}

#[test]
fn an_entry_that_cannot_be_read_leaves_the_others_alone_and_stays_as_it_is() {
    let long = "x".repeat(LONGEST_TAG + 1);
    let many: Vec<String> = (0..=MOST_TAGS).map(|i| i.to_string()).collect();
    for (pointer, part, says) in [
        ("/id", None, "\"id\" is missing"),
        ("/id", Some(json!("")), "is no id of an entry"),
        ("/id", Some(json!("a/../b")), "is no id of an entry"),
        ("/id", Some(json!("a".repeat(61))), "is no id of an entry"),
        ("/made", Some(json!(-1)), "the number -1"),
        ("/made", Some(json!("today")), "the text \"today\""),
        ("/changed", Some(json!(LATEST + 1)), "beyond the calendar"),
        ("/tags", Some(json!("sold")), "a list in [ ] belongs"),
        ("/tags", Some(json!(many)), "There are 13 tags"),
        ("/tags", Some(json!([long])), "is longer than 30 characters"),
        ("/tags", Some(json!([" a"])), "a blank too many"),
        ("/tags", Some(json!(["a,b"])), "has a comma"),
        ("/tags", Some(json!([""])), "is empty"),
        ("/tags", Some(json!(["Sold", "sold"])), "stands twice"),
        ("/colour", Some(json!("red")), "is no key of this part"),
        ("/design", None, "\"design\" is missing"),
        ("/design", Some(json!(3)), "its format is not"),
        ("/design/version", Some(json!(999)), "newer Headwright"),
        ("/design/design/cheeks", None, "\"cheeks\" is missing"),
    ] {
        let rack = Rack::from_json(&spoiled(pointer, part)).expect("a rack file");
        assert_eq!(rack.entries, [named("a", "Sound")], "{pointer}");
        let [unread] = rack.unread.as_slice() else {
            panic!("{pointer}: {:?}", rack.unread);
        };
        assert!(unread.reason.contains(says), "{pointer}: {}", unread.reason);
        let ends = unread.reason.ends_with('.');
        assert!(ends, "{pointer}: {} is a sentence", unread.reason);
        assert!(serde_json::from_str::<Value>(&unread.text).is_ok());
    }
}

#[test]
fn a_rack_of_more_than_a_thousand_hammers_goes_out_and_comes_in() {
    let many = (0..1500).map(|i| named(&format!("e{i}"), &format!("Hammer {i}")));
    let rack = rack_of(many.collect());
    let again = Rack::from_json(&rack.to_json()).expect("what work makes comes in again");
    assert_eq!(again, rack);
    let mut other = rack_of(vec![named("own", "Own")]);
    let arrived = other.take_in(again.entries, || "never asked".to_owned());
    assert!(arrived.iter().all(|it| it.arrival == Arrival::Came));
    assert_eq!(other.entries.len(), 1501);
}

/// What the fuzzer begins with is what a browser keeps: slips and notes, some of them damaged or of another version.
#[test]
fn examples_of_what_is_stored_are_slips_and_notes() {
    let (mut slips, mut notes, mut none) = (0, 0, 0);
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/fuzz/examples/stored");
    for file in std::fs::read_dir(folder).expect("examples").flatten() {
        let text = std::fs::read_to_string(file.path()).expect("a text");
        match (Slip::from_json(&text), Work::from_json(&text)) {
            (Ok(_), None) => slips += 1,
            (Err(_), Some(_)) => notes += 1,
            (Err(_), None) => none += 1,
            (Ok(_), Some(_)) => panic!("{:?} is both", file.path()),
        }
    }
    assert!(
        slips >= 2 && notes >= 3 && none >= 2,
        "{slips} {notes} {none}"
    );
}

#[test]
fn an_entry_keeps_a_design_that_cannot_be_made() {
    let mut entry = named("a", "Impossible");
    entry.design.cheeks.length = "5 mm".parse().expect("a length");
    assert!(entry.design.build().is_err());
    let rack = rack_of(vec![entry]);
    assert_eq!(Rack::from_json(&rack.to_json()), Ok(rack));
}

#[test]
fn a_kept_slip_that_is_none_comes_back_as_it_stands() {
    let sound = Slip::new(named("a", "One")).to_json();
    let newer = sound.replacen("\"version\":1", "\"version\":2", 1);
    for (text, says) in [
        ("", "can’t be read"),
        ("nonsense", "can’t be read"),
        ("{}", "\"version\" is missing"),
        (&newer, "newer Headwright (rack version 2)"),
        (&sound.replacen("mark", "make", 1), "is no key of this part"),
        (
            &sound.replacen("\"id\":\"a\"", "\"id\":\"?\"", 1),
            "is no id of an entry",
        ),
    ] {
        let unread = Slip::from_json(text).expect_err("no slip");
        assert_eq!(unread.text, text);
        assert!(unread.reason.contains(says), "{}", unread.reason);
    }
    let unread = Slip::from_json(&newer).expect_err("no slip");
    assert_eq!(unread.name.as_deref(), Some("One"));
}

#[test]
fn every_word_must_be_found_in_name_note_or_tags() {
    let mut entry = named("a", "Straßen-Hammer no. 2");
    entry.design.note = "For the school in Ulm".to_owned();
    entry.tags = vec!["sold".to_owned(), "two pounds".to_owned()];
    for words in [
        "",
        "  ",
        "hammer",
        "HAMMER ulm",
        "sold straßen",
        "pou scho",
        "no. 2",
    ] {
        assert!(finds(words, &entry), "{words}");
    }
    for words in ["anvil", "hammer anvil", "soldier"] {
        assert!(!finds(words, &entry), "{words}");
    }
}

#[test]
fn tags_are_tidied_and_refused_in_sentences() {
    assert_eq!(read_tags(" ,, "), Ok(Vec::new()));
    let tags = read_tags("sold,\tfor  Anna , SOLD,2 lb").expect("tags");
    assert_eq!(tags, ["sold", "for Anna", "2 lb"]);
    let many: Vec<String> = (0..=MOST_TAGS).map(|i| i.to_string()).collect();
    let error = read_tags(&many.join(",")).expect_err("too many");
    assert_eq!(
        error.to_string(),
        "There are 13 tags; an entry has at most 12."
    );
    let error = read_tags(&"long ".repeat(10)).expect_err("too long");
    assert_eq!(
        error.to_string(),
        "The tag “long long long long long long  …” is longer than 30 characters."
    );
}

#[test]
fn marks_are_those_of_the_published_vectors() {
    for (text, published) in [
        ("", "cbf29ce484222325"),
        ("a", "af63dc4c8601ec8c"),
        ("foobar", "85944171f73967e8"),
    ] {
        assert_eq!(mark(text), published);
    }
}

/// `UPDATE_EXPECT=1 cargo test --test rack the_schema` writes it anew.
#[test]
fn the_schema_beside_the_app_is_the_one_of_the_types() {
    let mut text = serde_json::to_string_pretty(&schema()).expect("JSON");
    text.push('\n');
    expect_file!["../public/rack.schema.json"].assert_eq(&text);
}

#[test]
fn a_rack_of_all_starters_is_what_the_schema_says() {
    let schema = schema().to_value();
    let entries = starter_names().enumerate().map(|(index, name)| Entry {
        design: starter(name).expect("a starter"),
        ..named(&format!("starter-{index}"), name)
    });
    let file = serde_json::from_str(&rack_of(entries.collect()).to_json()).expect("JSON");
    assert_eq!(schema_check::faults(&schema, &file), [""; 0]);
    for (pointer, part) in [
        ("/id", json!("a b")),
        ("/made", json!(-1)),
        ("/colour", json!("red")),
        ("/design/version", json!(0)),
    ] {
        let file = serde_json::from_str(&spoiled(pointer, Some(part))).expect("JSON");
        assert!(
            !schema_check::faults(&schema, &file).is_empty(),
            "{pointer}"
        );
    }
}
