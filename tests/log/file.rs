//! The log file.

use expect_test::{Expect, expect, expect_file};
use headwright::design::Design;
use headwright::log::{Build, Log, LogFileError, MOST_BUILDS, MOST_BYTES, What};
use serde_json::{Value, json};

use super::{build, grams, with};

const VERSION_1: &str = include_str!("version-1.headwright-log.json");

fn log_of(builds: Vec<Build>) -> Log {
    Log {
        builds,
        unread: Vec::new(),
    }
}

/// A log with everything in it that an event can be.
fn written() -> Log {
    let dim = "front.reach".parse().expect("a dimension");
    let size = "2 5/16 in".parse().expect("a size");
    let measured = What::Measured {
        dim,
        size,
        celsius: Some(850.0),
    };
    let text = "Hung up on the drift,\nso “again”".to_owned();
    log_of(vec![with(
        build(),
        &[
            ("cut", 4, grams(1422.0)),
            ("punch", 10, What::Start),
            ("punch", 31, What::Stop),
            ("punch", 31, What::Heats { count: 3 }),
            ("punch", 32, What::Minutes { minutes: 25.5 }),
            ("drift", 40, measured),
            ("drift", 41, What::Note { text }),
        ],
    )])
}

#[test]
fn a_file_of_the_first_version_reads_for_good() {
    let log = Log::from_json(VERSION_1).expect("a log file");
    assert_eq!(log.unread, []);
    assert_eq!(log, written());
}

#[test]
fn a_log_is_written_as_that_version() {
    expect_file!["version-1.headwright-log.json"].assert_eq(&written().to_json());
}

#[test]
fn a_byte_order_mark_does_no_harm() {
    assert_eq!(
        Log::from_json(&format!("\u{feff}{VERSION_1}")),
        Ok(written())
    );
}

#[track_caller]
fn check_refused(text: &str, expected: &Expect) {
    expected.assert_eq(&Log::from_json(text).expect_err("no log").to_string());
}

#[test]
fn what_is_no_log_is_refused_with_a_sentence() {
    check_refused(" \n", &expect!["This is not a log file: it is empty."]);
    check_refused(
        "{\"format\":",
        &expect![
            "This is not a log file: it is not JSON, or its end is missing (line 1, column 10)."
        ],
    );
    check_refused(
        &build().design.to_json(),
        &expect!["This is not a log file: its format is not “headwright log”."],
    );
    let file =
        |version: Value| json!({"format": "headwright log", "version": version, "builds": []});
    check_refused(
        &file(json!(2)).to_string(),
        &expect![
            "This was written by a newer Headwright (log version 2); this one reads up to version 1. Reload the app or install the newer one."
        ],
    );
    check_refused(
        &file(json!(0)).to_string(),
        &expect!["This says it has log version 0; versions begin at 1."],
    );
    check_refused(
        &file(json!("1")).to_string(),
        &expect![[r#"This log file can’t be read: it states no version, such as "version": 1."#]],
    );
    check_refused(
        r#"{"format": "headwright log", "version": 1, "build": []}"#,
        &expect![[
            r#"This can’t be read, at or before line 1: "build" is no key of this part, which has one of "format", "version", "builds"."#
        ]],
    );
    let many =
        json!({"format": "headwright log", "version": 1, "builds": vec![0; MOST_BUILDS + 1]});
    check_refused(
        &many.to_string(),
        &expect!["This log has 2001 builds, more than the 2000 that a log holds."],
    );
    let large = " ".repeat(MOST_BYTES + 1) + "1";
    assert_eq!(
        Log::from_json(&large),
        Err(LogFileError::TooLarge(MOST_BYTES + 2))
    );
}

/// The first build of the written log, with `change` done to it as JSON.
fn broken(change: impl Fn(&mut Value)) -> String {
    let mut file: Value = serde_json::from_str(VERSION_1).expect("JSON");
    change(&mut file["builds"][0]);
    file.to_string()
}

#[track_caller]
fn check_unread(text: &str, expected: &Expect) {
    let log = Log::from_json(text).expect("a log with a build that can't be read");
    assert_eq!(log.builds, []);
    let [unread] = log.unread.as_slice() else {
        panic!("{:?}", log.unread);
    };
    assert_eq!(unread.name.as_deref(), Some("Rounding hammer"));
    expected.assert_eq(&unread.reason);
    // It goes out as it came.
    let again = Log::from_json(&log.to_json()).expect("a log");
    let value = |text: &str| serde_json::from_str::<Value>(text).expect("JSON");
    assert_eq!(value(&again.unread[0].text), value(&unread.text));
}

#[test]
fn a_build_that_cannot_be_is_kept_as_it_stands_with_the_reason() {
    check_unread(
        &broken(|build| build["events"][0]["what"] = json!({"weighed": {"mass": "-2 g"}})),
        &expect![
            "Entry 1: the weight is −0.002 kg. It must be at least 0.001 kg and at most 200 kg."
        ],
    );
    check_unread(
        &broken(|build| build["events"][1]["what"] = json!("begin")),
        &expect![[
            r#"This can’t be read, at or before line 1: "begin" is not known here; write one of "start", "stop", "weighed", "heats", "minutes", "measured", "note"."#
        ]],
    );
    check_unread(
        &broken(|build| build["id"] = json!("no good")),
        &expect!["“no good” is no id, which has 1 to 60 letters, digits and hyphens."],
    );
    check_unread(
        &broken(|build| build["steps"][1]["id"] = json!(1)),
        &expect!["Two steps have the id 1. Give each an id of its own."],
    );
    check_unread(
        &broken(|build| build["begun"] = json!(8_640_000_000_000_001u64)),
        &expect![
            "Something is dated 8640000000000001 ms after 1970, which is beyond the calendar."
        ],
    );
    check_unread(
        &broken(|build| build["design"]["version"] = json!(99)),
        &expect![
            "This can’t be read, at or before line 1: This design was written by a newer Headwright (format version 99); this one reads up to version 7. Reload the app or install the newer one."
        ],
    );
}

#[test]
fn a_build_that_cannot_be_read_takes_no_other_along() {
    let mut file: Value = serde_json::from_str(VERSION_1).expect("JSON");
    let mut second = file["builds"][0].clone();
    second["outcome"] = json!("sold");
    file["builds"]
        .as_array_mut()
        .expect("a list")
        .insert(0, second);
    let log = Log::from_json(&file.to_string()).expect("a log");
    assert_eq!((log.builds.len(), log.unread.len()), (1, 1));
}

#[test]
fn of_two_builds_with_one_id_the_second_is_kept_as_it_stands() {
    let mut file: Value = serde_json::from_str(VERSION_1).expect("JSON");
    let second = file["builds"][0].clone();
    file["builds"].as_array_mut().expect("a list").push(second);
    let log = Log::from_json(&file.to_string()).expect("a log");
    assert_eq!(log.builds.len(), 1);
    expect!["There is another build with the id “build-1”."].assert_eq(&log.unread[0].reason);
}

#[test]
fn a_build_keeps_a_design_that_cannot_be_made() {
    let mut build = build();
    build.design.cheeks.length = headwright::units::Length::mm(2.0);
    assert!(build.design.build().is_err());
    let log = log_of(vec![build]);
    assert_eq!(Log::from_json(&log.to_json()), Ok(log));
}

#[test]
fn a_build_has_its_design_as_a_file_of_its_own() {
    let file: Value = serde_json::from_str(VERSION_1).expect("JSON");
    let design = file["builds"][0]["design"].to_string();
    assert_eq!(Design::from_json(&design), Ok(build().design));
}
