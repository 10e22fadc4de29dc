//! The chest: what goes out with the rack comes in again, and no build loses an event.

use expect_test::expect_file;
use headwright::chest::Chest;
use headwright::design::{Design, Edit, starter};
use headwright::log::{Build, BuildArrival, Event, Log, What};
use headwright::price::{Costs, Money};
use headwright::rack::{Arrival, Entry, FILE_VERSION, Rack, RackError};
use headwright::units::Mass;
use serde_json::{Value, json};

#[path = "chest/customer.rs"]
mod customer;
#[path = "chest/joined.rs"]
mod joined;
#[path = "log/random.rs"]
mod random;
#[path = "file/schema_check.rs"]
mod schema_check;

fn named(name: &str) -> Design {
    let design = starter("light").expect("a starter");
    design.apply(Edit::Name(name.to_owned()))
}

fn entry(id: &str, name: &str) -> Entry {
    Entry {
        id: id.to_owned(),
        design: named(name),
        made: 1_700_000_000_000,
        changed: 1_700_000_360_000,
        tags: Vec::new(),
    }
}

/// A build of `entry` that was weighed before and after all that is lost.
fn build(id: &str, entry: &str) -> Build {
    let mut build = Build::begun(id, Some(entry.to_owned()), named("Light"), 1_000);
    for (step, grams) in [(1, 640.0), (9, 545.0)] {
        let what = What::weighed(Mass::grams(grams));
        let at = 2_000 + u64::from(step);
        build.record(Event { step, at, what }).expect("a weight");
    }
    build
}

fn costs(cents: i64) -> Costs {
    Costs {
        wood: Money::cents(cents),
        ..Costs::default()
    }
}

/// `costs` with what an hour is to pay and what a head sells for.
fn wanted(costs: Costs) -> Costs {
    Costs {
        wage: Some(Money::cents(3000)),
        sell: Some(Money::cents(18_000)),
        ..costs
    }
}

fn chest() -> Chest {
    Chest {
        rack: Rack {
            entries: vec![entry("one", "Bench"), entry("two", "Travel")],
            unread: Vec::new(),
        },
        log: Log {
            builds: vec![build("build-1", "one"), build("build-2", "two")],
            unread: Vec::new(),
        },
        costs: vec![wanted(costs(650)), costs(800)],
        unread_costs: Vec::new(),
    }
}

/// New ids in a row.
fn ids() -> impl FnMut() -> String {
    let mut count = 0;
    move || {
        count += 1;
        format!("new-{count}")
    }
}

fn value(chest: &Chest) -> Value {
    serde_json::from_str(&chest.to_json()).expect("JSON")
}

#[test]
fn a_chest_is_read_as_it_was_written_and_is_a_rack_file_for_who_knows_but_racks() {
    let chest = chest();
    let text = chest.to_json();
    assert_eq!(Chest::from_json(&text), Ok(chest.clone()));
    assert_eq!(Rack::from_json(&text), Ok(chest.rack));
    // What the fuzzer begins with.
    expect_file!["../fuzz/examples/rack_file/version-2.json"].assert_eq(&text);
}

#[test]
fn a_rack_file_of_the_first_version_is_a_chest_with_nothing_beside() {
    let text = include_str!("rack/version-1.headwright-rack.json");
    let chest = Chest::from_json(text).expect("a rack file");
    let rack = Rack::from_json(text).expect("a rack file");
    assert_eq!((rack.entries.len(), rack.unread.len()), (2, 1));
    assert_eq!(
        chest,
        Chest {
            rack,
            ..Chest::default()
        }
    );
    let written = value(&chest);
    assert_eq!(written["version"], json!(FILE_VERSION));
    let keys: Vec<&String> = written.as_object().expect("an object").keys().collect();
    assert_eq!(keys, ["entries", "format", "version"]);
}

#[test]
fn a_newer_file_and_what_is_no_rack_are_refused() {
    let newer = chest()
        .to_json()
        .replacen("\"version\": 2", "\"version\": 3", 1);
    let reads = FILE_VERSION;
    assert_eq!(
        Chest::from_json(&newer),
        Err(RackError::Newer { version: 3, reads })
    );
    assert_eq!(Chest::from_json("[1]"), Err(RackError::Foreign));
    assert_eq!(Chest::from_json(" "), Err(RackError::Empty));
}

#[test]
fn the_learned_ledger_goes_out_and_is_not_read_back() {
    let mut file = value(&chest());
    let learned = file["learned"].as_array().expect("a ledger").clone();
    assert_eq!(learned.len(), 6);
    assert_eq!(learned[0]["certainty"], "own");
    assert!(
        learned[0]["source"]
            .as_str()
            .expect("words")
            .starts_with("weighed in 2 builds")
    );
    file["learned"] = json!("anything");
    assert_eq!(Chest::from_json(&file.to_string()), Ok(chest()));
    // Of builds that were never weighed nothing is learned.
    let mut chest = chest();
    for build in &mut chest.log.builds {
        build.events.clear();
    }
    assert_eq!(value(&chest)["learned"], Value::Null);
}

#[test]
fn what_cannot_be_read_stays_what_it_is() {
    let mut file = value(&chest());
    file["log"]["builds"][1]["begun"] = json!("yesterday");
    file["costs"][0]["wood"] = json!("dear");
    let chest = Chest::from_json(&file.to_string()).expect("a rack file");
    assert_eq!((chest.log.builds.len(), chest.log.unread.len()), (1, 1));
    assert_eq!((chest.costs.len(), chest.unread_costs.len()), (1, 1));
    assert!(
        chest.unread_costs[0].reason.contains("dear"),
        "{:?}",
        chest.unread_costs
    );
    let again = value(&chest);
    assert_eq!(again["log"]["builds"][1], file["log"]["builds"][1]);
    assert_eq!(again["costs"][1], file["costs"][0]);
    // A log of a version that is not known yet is kept whole.
    file["log"]["version"] = json!(99);
    let chest = Chest::from_json(&file.to_string()).expect("a rack file");
    assert_eq!((chest.log.builds.len(), chest.log.unread.len()), (0, 1));
    assert_eq!(value(&chest)["log"]["builds"][0], file["log"]);
}

#[test]
fn costs_of_before_wage_and_price_went_along_are_read_and_stand_beside_others() {
    let mut file = value(&chest());
    for key in ["wage", "sell"] {
        assert!(file["costs"][0][key].take().is_string());
        file["costs"][0].as_object_mut().expect("costs").remove(key);
    }
    let of_before = Chest::from_json(&file.to_string()).expect("a rack file");
    assert_eq!(of_before.costs, [costs(650), costs(800)]);
    let mut standing = chest();
    let taken = standing.take_in(of_before, ids());
    // Which are to count is the smith's to say.
    assert_eq!(taken.costs, 1);
    assert_eq!(standing.costs, [wanted(costs(650)), costs(800), costs(650)]);
}

#[test]
fn the_same_file_again_is_skipped_as_a_whole() {
    let mut standing = Chest::default();
    let first = standing.take_in(chest(), ids());
    assert_eq!(first.costs, 2);
    assert!(
        first
            .builds
            .iter()
            .all(|it| it.arrival == BuildArrival::Came)
    );
    assert_eq!(standing, chest());
    let second = standing.take_in(chest(), ids());
    assert!(
        second
            .entries
            .iter()
            .all(|it| it.arrival == Arrival::Skipped)
    );
    assert!(
        second
            .builds
            .iter()
            .all(|it| it.arrival == BuildArrival::Skipped)
    );
    assert_eq!((second.costs, standing), (0, chest()));
}

#[test]
fn builds_go_on_belonging_to_the_design_that_they_came_with() {
    let mut standing = chest();
    let mut coming = chest();
    coming.rack.entries[0].design = named("Another under the same id");
    let mut other = build("build-3", "one");
    other.begun = 5_000;
    coming.log.builds = vec![other];
    for _ in 0..2 {
        standing.take_in(coming.clone(), ids());
        assert_eq!(standing.rack.entries.len(), 3);
        let copy = standing.rack.entries[2].id.clone();
        assert_eq!(
            standing.rack.entries[2].design.name,
            "Another under the same id"
        );
        let builds = &standing.log.builds;
        assert_eq!(builds.len(), 3);
        assert_eq!(builds[2].entry, Some(copy));
        assert_eq!(builds[0].entry.as_deref(), Some("one"));
    }
}

/// `UPDATE_EXPECT=1 cargo test --test chest the_schemas` writes them anew.
#[test]
fn the_schemas_beside_the_app_are_those_of_the_types() {
    let text = |schema: &schemars::Schema| {
        let text = serde_json::to_string_pretty(schema).expect("JSON");
        format!("{text}\n")
    };
    expect_file!["../public/log.schema.json"].assert_eq(&text(&headwright::log::schema()));
    expect_file!["../public/costs.schema.json"].assert_eq(&text(&headwright::price::schema()));
}

#[test]
fn a_chest_is_what_the_schemas_say() {
    let file = value(&chest());
    let [rack, log, costs] = [
        headwright::rack::schema(),
        headwright::log::schema(),
        headwright::price::schema(),
    ]
    .map(|schema| schema.to_value());
    assert_eq!(schema_check::faults(&rack, &file), [""; 0]);
    // The rack's schema leaves its parts to theirs.
    let refers = |pointer: &str| {
        rack.pointer(pointer)
            .map(ToString::to_string)
            .unwrap_or_default()
    };
    assert!(
        refers("/properties/log").contains(headwright::log::SCHEMA_ID),
        "{}",
        refers("/properties/log")
    );
    assert!(
        refers("/properties/costs").contains(headwright::price::SCHEMA_ID),
        "{}",
        refers("/properties/costs")
    );
    assert_eq!(schema_check::faults(&log, &file["log"]), [""; 0]);
    assert_eq!(schema_check::faults(&costs, &file["costs"][0]), [""; 0]);
    let whole: Value = serde_json::from_str(include_str!("chest/costs.json")).expect("JSON");
    assert_eq!(schema_check::faults(&costs, &whole), [""; 0]);
    assert_eq!(
        Costs::from_json(include_str!("chest/costs.json")).map(|it| it.check()),
        Ok(Vec::new())
    );
    for (schema, part, pointer, wrong) in [
        (&rack, &file, "/colour", json!("red")),
        (&rack, &file, "/learned", json!([{"kind": "slug"}])),
        (&log, &file["log"], "/builds/0/id", json!("a b")),
        (&log, &file["log"], "/builds/0/steps/0/name", json!("")),
        (
            &log,
            &file["log"],
            "/builds/0/events/0/what",
            json!("sneeze"),
        ),
        (&log, &file["log"], "/builds/0/events/0/at", json!(-1)),
        (&log, &file["log"], "/builds/0/design/version", json!(0)),
        (&costs, &whole, "/wood", json!(6.5)),
        (&costs, &whole, "/wood", json!("6.505")),
        (&costs, &whole, "/minutes", json!(0)),
        (&costs, &whole, "/spoiled_percent", json!(100)),
    ] {
        let mut spoiled = part.clone();
        let (above, key) = pointer.rsplit_once('/').expect("a pointer");
        spoiled.pointer_mut(above).expect("a place")[key] = wrong;
        assert!(
            !schema_check::faults(schema, &spoiled).is_empty(),
            "{pointer}"
        );
    }
}
