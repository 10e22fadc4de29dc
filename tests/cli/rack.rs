//! Rack files: listed, searched, shown and merged.

use headwright::chest::Chest;
use headwright::design::{Design, Edit, starter};
use headwright::log::{Build, Event, Log, What};
use headwright::mass::mass_properties;
use headwright::price::Costs;
use headwright::rack::{Entry, Rack};
use headwright::units::{System, show_mass};
use serde_json::json;

use super::{check_answer, check_refused, file, run};

/// A file with this text.
fn written(name: &str, text: &str) -> std::path::PathBuf {
    let path = file(name);
    std::fs::write(&path, text).expect("the file can be written");
    path
}

fn entry(id: &str, starter_name: &str, name: &str, changed: u64) -> Entry {
    let design = starter(starter_name).expect("a starter");
    Entry {
        id: id.to_owned(),
        design: design.apply(Edit::Name(name.to_owned())),
        made: 1_700_000_000_000,
        changed,
        tags: vec!["sold".to_owned(), format!("for {name}")],
    }
}

fn rack(entries: Vec<Entry>) -> String {
    let unread = Vec::new();
    Rack { entries, unread }.to_json()
}

fn two() -> String {
    rack(vec![
        entry("a1", "light", "Bench hammer", 1_700_000_000_000),
        entry("b2", "cross", "Cross pein", 1_709_164_800_000),
    ])
}

#[test]
fn a_rack_is_listed_with_what_was_changed_last_first() {
    let answer = check_answer(&["rack", "-"], &two());
    let hammers = answer["hammers"].as_array().expect("a list");
    let names: Vec<_> = hammers.iter().map(|hammer| &hammer["name"]).collect();
    assert_eq!(names, ["Cross pein", "Bench hammer"]);
    let solid = starter("cross")
        .and_then(|design| design.build().ok())
        .expect("sound");
    let mass = hammers[0]["mass_kg"].as_f64().expect("a number");
    assert!((mass - mass_properties(&solid).mass).abs() < 1e-12);
    assert_eq!(hammers[0]["changed_ms"], 1_709_164_800_000_u64);
    assert_eq!(hammers[1]["tags"], json!(["sold", "for Bench hammer"]));
    assert_eq!(answer["of"], 2);
    assert_eq!(answer["unread"], json!([]));
}

#[test]
fn what_is_searched_is_found_in_name_note_and_tags() {
    let answer = check_answer(&["rack", "-", "--search", "SOLD cross"], &two());
    assert_eq!(answer["hammers"].as_array().map(Vec::len), Some(1));
    assert_eq!(answer["hammers"][0]["id"], "b2");
    assert_eq!(answer["of"], 2);
}

#[test]
fn one_that_is_shown_is_a_design_file() {
    let shown = |name: &str| {
        let output = run(&["rack", "-", "--show", name], two().as_bytes());
        assert_eq!(String::from_utf8_lossy(&output.stderr), "");
        String::from_utf8(output.stdout).expect("UTF-8")
    };
    let expected = entry("b2", "cross", "Cross pein", 0).design;
    for name in ["b2", "Cross pein", "cross PEIN "] {
        assert_eq!(
            Design::from_json(&shown(name)),
            Ok(expected.clone()),
            "{name}"
        );
    }
}

#[test]
fn two_racks_are_merged_into_a_file_and_nothing_is_lost() {
    let first = written("first.headwright-rack.json", &two());
    let other = rack(vec![
        entry("a1", "light", "Bench hammer", 1_700_000_000_000),
        entry("b2", "rounding", "Another", 1_709_251_200_000),
        entry("c3", "light", "Third", 1_600_000_000_000),
    ]);
    let second = written("second.headwright-rack.json", &other);
    let merged = file("merged.headwright-rack.json");
    let [first, second, merged] =
        [&first, &second, &merged].map(|path| path.to_str().expect("UTF-8"));
    let answer = check_answer(&["rack", first, second, "--out", merged], "");
    assert_eq!(answer["files"][0]["came"], 2);
    assert_eq!(answer["files"][1]["came"], 1);
    assert_eq!(answer["files"][1]["skipped"], 1);
    assert_eq!(answer["files"][1]["copied"], json!(["Another"]));
    let text = std::fs::read_to_string(merged).expect("it was written");
    assert_eq!(answer["written"]["bytes"], text.len());
    let rack = Rack::from_json(&text).expect("a rack file");
    let names: Vec<&str> = rack
        .entries
        .iter()
        .map(|e| e.design.name.as_str())
        .collect();
    assert_eq!(names, ["Another", "Cross pein", "Bench hammer", "Third"]);
    // Once more in, all of it stands there already.
    let again = check_answer(&["rack", merged, second, first], "");
    assert_eq!(again["of"], 4);
    assert_eq!(again["files"][1]["skipped"], 3);
}

/// Two hammers with a build of each, as far as it went, and costs.
fn with_log(minutes: &[f64]) -> Chest {
    let build = |id: &str, entry: &str| {
        let design = starter("light").expect("a starter");
        let mut build = Build::begun(id, Some(entry.to_owned()), design, 1_700_000_000_000);
        for (step, minutes) in (1..).zip(minutes.iter().copied()) {
            let what = What::Minutes { minutes };
            let at = 1_700_000_000_000 + u64::from(step);
            build.record(Event { step, at, what }).expect("minutes");
        }
        build
    };
    Chest {
        rack: Rack::from_json(&two()).expect("a rack file"),
        log: Log {
            builds: vec![build("build-a", "a1"), build("build-b", "b2")],
            unread: Vec::new(),
        },
        costs: vec![Costs::default()],
        unread_costs: Vec::new(),
    }
}

#[test]
fn logs_of_merged_racks_are_joined_and_costs_go_along() {
    let first = written(
        "log-1.headwright-rack.json",
        &with_log(&[5.0, 40.0]).to_json(),
    );
    let mut other = with_log(&[5.0, 40.0, 25.0]);
    other.costs[0].minutes = 90.0;
    let second = written("log-2.headwright-rack.json", &other.to_json());
    let merged = file("log-merged.headwright-rack.json");
    let [first, second, merged] =
        [&first, &second, &merged].map(|path| path.to_str().expect("UTF-8"));
    let answer = check_answer(&["rack", first, second, "--out", merged], "");
    assert_eq!(
        (&answer["builds"], &answer["costs"]),
        (&json!(2), &json!(2))
    );
    let builds = json!({"came": 0, "joined": 2, "skipped": 0, "copied": 0});
    assert_eq!(answer["files"][1]["builds"], builds);
    assert_eq!(answer["files"][1]["costs"], 1);
    let text = std::fs::read_to_string(merged).expect("it was written");
    let chest = Chest::from_json(&text).expect("a rack file");
    assert_eq!(chest.log, other.log);
    // Its log is read where a log is.
    let told = check_answer(&["log", merged], "");
    assert_eq!(told["builds"][0]["minutes"], 70.0);
    let found = check_answer(&["rack", merged, "--search", "cross"], "");
    assert_eq!((&found["builds"], &found["costs"]), (&json!(1), &json!(0)));
    let table = run(&["rack", first, second, "--table"], b"");
    let table = String::from_utf8(table.stdout).expect("UTF-8");
    assert!(
        table.contains("Beside them: builds 2, costs 2\n"),
        "{table}"
    );
    assert!(
        table.contains("2 stood here already; builds: 2 joined.\n"),
        "{table}"
    );
}

#[test]
fn what_is_found_never_goes_over_a_rack_that_it_was_searched_in() {
    let text = two();
    let home = written("home.headwright-rack.json", &text);
    let other = written("other.headwright-rack.json", &text);
    let [home, other] = [&home, &other].map(|path| path.to_str().expect("UTF-8"));
    // The same file by another way.
    let (folder, name) = home.rsplit_once('/').expect("a folder");
    let roundabout = format!("{folder}/./{name}");
    for out in [home, roundabout.as_str()] {
        let output = run(
            &["rack", other, home, "--search", "cross", "--out", out],
            b"",
        );
        assert_eq!(output.status.code(), Some(2), "{out}");
        let said = String::from_utf8(output.stderr).expect("UTF-8");
        assert!(
            said.starts_with("--out would write what --search finds over “")
                && said.ends_with(
                    "”, and the other hammers in it would be lost; name another file.\n"
                ),
            "{said}"
        );
        let kept = std::fs::read_to_string(home).expect("it stands there");
        assert_eq!(kept, text, "{out}");
    }
    let found = file("found.headwright-rack.json");
    let found = found.to_str().expect("UTF-8");
    let answer = check_answer(&["rack", home, "--search", "cross", "--out", found], "");
    assert_eq!(answer["hammers"].as_array().map(Vec::len), Some(1));
    // Without a search all of it is written, over what was read too.
    let answer = check_answer(&["rack", home, found, "--out", found], "");
    assert_eq!(
        (&answer["of"], &answer["files"][1]["skipped"]),
        (&json!(2), &json!(1))
    );
    let whole = std::fs::read_to_string(found).expect("it was written");
    assert_eq!(
        Rack::from_json(&whole).map(|rack| rack.entries.len()),
        Ok(2)
    );
}

#[test]
fn a_rack_has_a_table_with_days() {
    let output = run(&["rack", "-", "--table"], two().as_bytes());
    let table = String::from_utf8(output.stdout).expect("UTF-8");
    let mass = |name: &str| {
        let solid = starter(name)
            .and_then(|design| design.build().ok())
            .expect("sound");
        show_mass(mass_properties(&solid).mass, System::Metric)
    };
    let lines: Vec<&str> = table.lines().collect();
    let row = |name: &str, weight: &str, rest: &str| format!("{name:<12}  {weight:>8}  {rest}");
    assert_eq!(
        lines,
        [
            row("name", "weight", "changed     tags"),
            row(
                "Cross pein",
                &mass("cross"),
                "2024-02-29  sold, for Cross pein"
            ),
            row(
                "Bench hammer",
                &mass("light"),
                "2023-11-14  sold, for Bench hammer"
            ),
            String::new(),
            "2 of 2 hammers".to_owned(),
        ]
    );
}

#[test]
fn what_is_no_rack_and_no_hammer_is_said() {
    let two = two();
    let refused =
        |arguments: &[&str], sentence: &str| check_refused(arguments, two.as_bytes(), sentence);
    refused(
        &["rack"],
        "Name the rack file after rack, or - to read it from standard input.",
    );
    refused(
        &["rack", "-", "--show", "Third"],
        "No hammer on the rack is called “Third” and none has that id; headwright rack lists all 2.",
    );
    refused(
        &["rack", "-", "--show", "a1", "--table"],
        "rack --show has no option --table; headwright --help lists them.",
    );
    refused(
        &["weigh", "-", "--search", "x"],
        "weigh has no option --search; headwright --help lists them.",
    );
    refused(
        &["rack", "-", "--search", "a", "--search", "b"],
        "--search is given twice.",
    );
    let alike = rack(vec![
        entry("a1", "light", "Twin", 0),
        entry("b2", "cross", "Twin", 0),
    ]);
    check_refused(
        &["rack", "-", "--show", "Twin"],
        alike.as_bytes(),
        "“Twin” is the name of 2 hammers on the rack; say the id of one: a1, b2.",
    );
    let design = starter("light").expect("a starter").to_json();
    check_refused(
        &["rack", "-"],
        design.as_bytes(),
        "“-”: This is not a rack file: its format is not “headwright rack”.",
    );
}
