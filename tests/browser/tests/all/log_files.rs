//! What the log's sheet keeps and hands out as files: costs, what was learned, and what cannot be read.

use headwright_browser::{Page, View, browse, output};
use serde_json::{Value, json};

use super::log::{FORBIDDEN, FULL, to_the_log};

/// Writes `text` into a file of the output folder and chooses it at the button with these words.
fn take_in(page: &Page, label: &str, name: &str, text: &str) {
    let path = output().join(name);
    std::fs::write(&path, text).expect("the file can be written");
    page.choose_file_in(label, &path);
}

/// Everything in a store of the browser's database, by id; to be given both names.
const STORED: &str = "const [base, store, done] = arguments;
const open = indexedDB.open(base);
open.onerror = () => done({});
open.onupgradeneeded = () => open.transaction.abort();
open.onsuccess = () => {
    const all = {};
    const cursor = open.result.transaction(store).objectStore(store).openCursor();
    cursor.onsuccess = ({ target: { result } }) => {
        if (result) { all[result.key] = result.value; result.continue(); }
        else { open.result.close(); done(all); }
    };
};";

/// The costs in the browser's database, by id.
fn kept_costs(page: &Page) -> Value {
    let stored = page.slow_script(STORED, json!(["headwright-costs", "costs"]));
    let texts = stored.as_object().cloned().unwrap_or_default();
    let read =
        |text: Value| serde_json::from_str(text.as_str().unwrap_or_default()).unwrap_or(text);
    texts
        .into_iter()
        .map(|(id, text)| (id, read(text)))
        .collect()
}

/// Waits until the costs that count have this under `key` in the database.
fn wait_for_kept(page: &Page, key: &str, value: &Value) {
    page.wait(&format!("the costs kept have {key} {value}"), || {
        kept_costs(page)["own"][key] == *value
    });
}

#[test]
fn costs_go_out_as_file_and_table_and_which_of_two_count_is_asked() {
    let (file, table) = browse("costs go out", View::desktop(), |page| {
        to_the_log(page);
        page.enter("work on a head, min", "150");
        page.enter("an hour is to pay, EUR/h", "36");
        page.enter("a head sells for, EUR", "50");
        let file = page.saved_text("save the costs as a file", "costs.json");
        (
            file,
            page.saved_text("save the costs as a table (CSV)", ".csv"),
        )
    });
    assert!(table.contains("\r\nwage,36.00,EUR/h,"), "{table}");
    for view in [View::desktop(), View::phone().dark()] {
        browse("costs come in", view, |page| {
            to_the_log(page);
            take_in(page, "take in costs", "costs-in.csv", &table);
            page.wait_for_text("From costs-in.csv: The costs are there.");
            page.wait_for_value("a head sells for, EUR", "50.00");
            take_in(page, "take in costs", "costs-in.json", &file);
            page.wait_for_text("From costs-in.json: The costs stood here already.");
            page.enter("work on a head, min", "90");
            page.enter("an hour is to pay, EUR/h", "");
            wait_for_kept(page, "minutes", &json!(90.0));
            take_in(page, "take in costs", "costs-in.json", &file);
            page.wait_for_text("From costs-in.json: They are other costs than yours");
            let question = "Other costs came from costs-in.json. Which are to count?";
            page.wait_for_region("what a hammer must sell for", question);
            page.wait_for_region("what a hammer must sell for", "150 min");
            page.wait_for_value("work on a head, min", "90");
            page.save_long_picture(&format!("log-costs-{}", view.width));
            assert_eq!(page.broken_rules(), [""; 0]);
            assert_eq!(page.script(OVER, json!([])), json!(0));
            // The question waits for its answer, and both go out with the rack.
            page.reload();
            page.press("button", "rack");
            let rack = page.saved_text("save the rack as a file", ".headwright-rack.json");
            let rack: Value = serde_json::from_str(&rack).expect("JSON");
            assert_eq!(rack["costs"][0]["minutes"], 90.0);
            assert_eq!(rack["costs"][1]["sell"], "50.00");
            to_the_log(page);
            page.wait_for_text(question);
            page.press("button", "keep yours");
            page.press("button", "put back the costs from costs-in.json");
            page.press("button", "take the others");
            page.wait_for_value("work on a head, min", "150");
            page.wait_for_value("an hour is to pay, EUR/h", "36.00");
            page.wait_for_text("The costs that counted before are gone.");
            wait_for_kept(page, "wage", &json!("36.00"));
            let bad = table
                .replace("\r\nwage,36.00", "\r\nbeer,3.00")
                .replace("150", "a lot");
            take_in(page, "take in costs", "costs-bad.csv", &bad);
            page.wait_for_text("The file costs-bad.csv was not taken in; the costs stand. Line");
            page.wait_for_text("“a lot” is no number, such as 2.5.");
            page.wait_for_text("“beer” is no cost.");
            page.wait_for_value("work on a head, min", "150");
        });
    }
}

/// What runs over the side of the window, px.
const OVER: &str = "return Math.max(0, document.documentElement.scrollWidth - innerWidth)";

#[test]
fn what_two_tabs_enter_in_two_fields_of_the_costs_is_all_there() {
    browse("costs in two tabs", View::desktop(), |page| {
        to_the_log(page);
        page.enter("work on a head, min", "150");
        let first = page.window();
        let second = page.open_window();
        page.load("");
        to_the_log(page);
        page.wait_for_value("work on a head, min", "150");
        page.enter("fees, of the price, %", "10");
        page.go_to_window(&first);
        page.wait_for_value("fees, of the price, %", "10");
        page.enter("work on a head, min", "160");
        page.go_to_window(&second);
        page.wait_for_value("work on a head, min", "160");
        page.reload();
        to_the_log(page);
        page.wait_for_value("work on a head, min", "160");
        page.wait_for_value("fees, of the price, %", "10");
    });
}

#[test]
fn a_browser_that_keeps_no_costs_says_so_and_they_are_offered_as_a_file() {
    for (storage, says) in [
        (
            FULL,
            "the costs that you enter now are kept only until this page is closed",
        ),
        (FORBIDDEN, "This browser lets the page keep no costs"),
    ] {
        browse("no room for costs", View::desktop().with(storage), |page| {
            to_the_log(page);
            page.enter("work on a head, min", "150");
            page.wait_for_region("what a hammer must sell for", says);
            page.wait_for_value("work on a head, min", "150");
            let file = page.saved_text("save the costs as a file", "costs.json");
            assert!(file.contains("\"minutes\": 150.0"), "{file}");
        });
    }
}

#[test]
fn costs_that_were_kept_before_they_had_a_database_are_taken_over() {
    let plant = "if (!sessionStorage.planted) { sessionStorage.planted = 1; localStorage.setItem('headwright.price',
        '{\"costs\":{\"currency\":\"EUR\",\"minutes\":150.0},\"wage\":\"36.50\",\"sell\":\"180.00\"}'); }";
    browse("costs of before", View::desktop().with(plant), |page| {
        to_the_log(page);
        page.wait_for_value("an hour is to pay, EUR/h", "36.50");
        wait_for_kept(page, "sell", &json!("180.00"));
        page.wait("they are not there twice", || {
            page.script("return localStorage['headwright.price']", json!([])) == Value::Null
        });
        page.reload();
        to_the_log(page);
        page.wait_for_value("work on a head, min", "150");
    });
}

/// Puts `text` into the log's database under `id`.
fn plant(page: &Page, id: &str, text: &str) {
    let script = "const [id, text, done] = arguments;
        const open = indexedDB.open('headwright-log');
        open.onsuccess = () => {
            const put = open.result.transaction('builds', 'readwrite');
            put.objectStore('builds').put(text, id);
            put.oncomplete = () => { open.result.close(); done(true); };
        };";
    page.slow_script(script, json!([id, text]));
}

#[test]
fn a_build_comes_over_none_that_cannot_be_read_and_what_is_in_no_table_is_said() {
    browse("a build of tomorrow", View::desktop(), |page| {
        to_the_log(page);
        page.press("button", "begin a build of…");
        page.press("button", "start punch");
        page.press("button", "all builds");
        let file = page.saved_text("save the log as a file", ".headwright-log.json");
        let log: Value = serde_json::from_str(&file).expect("JSON");
        let id = log["builds"][0]["id"].as_str().expect("an id").to_owned();
        let tomorrow = r#"{"of":"tomorrow","design":{"design":{"name":"Broken"}}}"#;
        plant(page, &id, tomorrow);
        page.reload();
        to_the_log(page);
        page.wait_for_text("Broken can’t be read.");
        take_in(page, "take in a log", "tomorrow.json", &file);
        page.wait_for_text(
            "From tomorrow.json: 0 came. 1 was left in the file: what stands here under its id can’t be read",
        );
        let table = page.saved_text("save the log as a table (CSV)", ".csv");
        assert_eq!(table.lines().count(), 1);
        page.wait_for_text("What can’t be read is not in the table: 1 build, “Broken”.");
        let stored = page.slow_script(STORED, json!(["headwright-log", "builds"]));
        assert_eq!(stored, json!({ id: tomorrow }));
    });
}

/// Remembers every connection to a database, so that a test can close it as a browser does.
const CONNECTIONS: &str = "window.connections = [];
const open = IDBFactory.prototype.open;
IDBFactory.prototype.open = function (...all) {
    const request = open.apply(this, all);
    request.addEventListener('success', () => window.connections.push(request.result));
    return request;
};";

#[test]
fn what_is_pressed_after_the_browser_closed_its_database_is_kept() {
    browse(
        "a closed database",
        View::desktop().with(CONNECTIONS),
        |page| {
            to_the_log(page);
            page.enter("work on a head, min", "150");
            wait_for_kept(page, "minutes", &json!(150.0));
            page.script(
                "window.connections.splice(0).forEach((it) => it.close())",
                json!([]),
            );
            page.enter("work on a head, min", "160");
            page.press("button", "begin a build of…");
            page.press("button", "start punch");
            wait_for_kept(page, "minutes", &json!(160.0));
            page.reload();
            page.press("button", "log");
            page.wait_for("button", "stop punch");
            assert!(!page.text().contains("keep no log"));
        },
    );
}

#[test]
fn what_was_learned_goes_out_as_a_table() {
    browse("what was learned goes out", View::desktop(), |page| {
        to_the_log(page);
        page.press("button", "begin a build of…");
        page.press("button", "all builds");
        let file = page.saved_text("save the log as a file", ".headwright-log.json");
        let mut log: Value = serde_json::from_str(&file).expect("JSON");
        log["builds"][0]["events"] = json!([
            { "step": 5, "at": 1_700_000_000_000u64, "what": { "weighed": { "mass": "1309 g" } } },
            { "step": 8, "at": 1_700_000_100_000u64, "what": { "weighed": { "mass": "1300 g" } } },
        ]);
        take_in(page, "take in a log", "weighed.json", &log.to_string());
        page.wait_for_text("1 had more entries, which are here now too.");
        page.wait_for_region("what your heads lose", "weighed in 1 build");
        let table = page.saved_text("save what was learned as a table (CSV)", ".csv");
        assert!(
            table.starts_with("loss,what,unit,mean,spread,low,high,builds,alone,default_mean,"),
            "{table}"
        );
        let row = table
            .lines()
            .find(|row| row.starts_with("hardening_scale,"));
        assert!(row.is_some_and(|row| row.contains(",1,1,")), "{table}");
        page.wait_for_region("what your heads lose", "it follows from the log");
    });
}

#[test]
fn a_build_of_a_file_that_another_tab_left_no_room_for_is_said_to_be_left() {
    browse("no room in a build", View::desktop(), |page| {
        to_the_log(page);
        page.press("button", "begin a build of…");
        page.press("button", "start punch");
        page.press("button", "all builds");
        let file = page.saved_text("save the log as a file", ".headwright-log.json");
        let mut log: Value = serde_json::from_str(&file).expect("JSON");
        let build = &mut log["builds"][0];
        let id = build["id"].as_str().expect("an id").to_owned();
        let started = build["events"][0].clone();
        let at = started["at"].as_u64().expect("a time");
        let full = (0..5000).map(|later: u64| {
            let mut event = started.clone();
            event["at"] = json!(at + later);
            event
        });
        build["events"] = full.collect();
        // As another tab does whose word has not come yet.
        plant(page, &id, &build.to_string());
        build["events"] = json!([started, { "step": 3, "at": at - 1, "what": "stop" }]);
        take_in(page, "take in a log", "one-more.json", &log.to_string());
        page.wait_for_text(
            "Another tab changed the log meanwhile: of what was taken in 0 came. 1 was left in the file: with what stands here of it one build would have more steps or entries than it may.",
        );
    });
}

#[test]
fn several_costs_of_a_rack_are_counted_and_said_where_they_are_not_kept() {
    let file = browse("costs of a rack", View::desktop(), |page| {
        to_the_log(page);
        page.enter("work on a head, min", "150");
        wait_for_kept(page, "minutes", &json!(150.0));
        page.press("button", "rack");
        page.saved_text("save the rack as a file", ".headwright-rack.json")
    });
    let mut rack: Value = serde_json::from_str(&file).expect("JSON");
    let mut other = rack["costs"][0].clone();
    other["minutes"] = json!(90);
    rack["costs"].as_array_mut().expect("costs").push(other);
    let view = View::desktop().with(FORBIDDEN);
    browse("costs that are not kept", view, |page| {
        page.press("button", "rack");
        page.wait_for("button", "save the rack as a file");
        take_in(
            page,
            "take in a rack file",
            "rack-costs.json",
            &rack.to_string(),
        );
        page.wait_for_text("2 sets of costs came: which are to count is asked on the log’s sheet");
        page.wait_for_text("This browser lets the page keep no costs");
        to_the_log(page);
        page.wait_for_text("Other costs came from rack-costs.json. Which are to count?");
        page.wait_for_value("work on a head, min", "150");
    });
}
