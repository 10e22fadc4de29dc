//! The log: a build is pressed through its steps, and nothing of it is lost.

use headwright_browser::{Page, View, browse, key, output};
use serde_json::{Value, json};

/// Opens the log's sheet.
pub(super) fn to_the_log(page: &Page) {
    page.press("button", "log");
    page.wait_for_text("What really happened");
}

/// Begins a build of the head on the sheet.
fn begin(page: &Page) {
    to_the_log(page);
    page.press("button", "begin a build of…");
    page.wait_for("button", "start punch");
}

/// Reads all that the browser's database has in the log: name, outcome and what happened, each as step and word.
const LOGGED: &str = "const done = arguments[arguments.length - 1];
const open = indexedDB.open('headwright-log');
open.onerror = () => done([]);
open.onupgradeneeded = () => open.transaction.abort();
open.onsuccess = () => {
    const all = open.result.transaction('builds').objectStore('builds').getAll();
    all.onsuccess = () => { open.result.close(); done(all.result.map((text) => {
        const build = JSON.parse(text);
        return [build.design.design.name, build.outcome, build.events.map(({ step, what }) =>
            step + ' ' + (typeof what === 'string' ? what : Object.keys(what)[0]))];
    })); };
};";

/// Waits until these builds are in the database.
fn wait_for_logged(page: &Page, expected: &Value) {
    let mut last = Value::Null;
    page.wait(&format!("the log has {expected}"), || {
        last = page.slow_script(LOGGED, json!([]));
        last == *expected
    });
}

/// The one build of a rounding hammer with these entries.
fn rounding(outcome: &str, events: &[&str]) -> Value {
    json!([["Rounding hammer", outcome, events]])
}

#[test]
fn a_build_is_started_weighed_counted_and_goes_on_after_the_page_was_killed() {
    for view in [View::desktop(), View::phone()] {
        browse("a build is logged", view, |page| {
            let first = page.window();
            let spare = page.open_window();
            page.go_to_window(&first);
            begin(page);
            page.press("button", "weigh after cut");
            page.wait_for("textbox", "weight after cut, kg");
            page.type_text("1420 g");
            page.keys(&[key::ENTER]);
            page.wait_for_text("1.420 kg");
            page.press("button", "start forge to size");
            page.wait_for("button", "stop forge to size");
            page.press("button", "heat +1 at forge to size");
            page.press("button", "heat +1 at forge to size");
            page.wait_for_text("2 heats");
            page.wait_for_text("0:01");
            let pressed = ["1 weighed", "2 start", "2 heats", "2 heats"];
            wait_for_logged(page, &rounding("open", &pressed));
            page.kill();
            page.go_to_window(&spare);
            page.load("");
            page.press("button", "log");
            // The build that runs is in front, and runs on.
            page.wait_for("button", "stop forge to size");
            page.press("button", "stop forge to size");
            page.press("button", "weigh after forge to size");
            page.wait_for("textbox", "weight after forge to size, kg");
            page.type_text("1388 g");
            page.keys(&[key::ENTER]);
            page.wait_for_region("lost between weighings", "32.0 g");
            page.press("button", "it is finished");
            wait_for_logged(
                page,
                &rounding(
                    "finished",
                    &[
                        "1 weighed",
                        "2 start",
                        "2 heats",
                        "2 heats",
                        "2 stop",
                        "2 weighed",
                    ],
                ),
            );
        });
    }
}

#[test]
fn every_press_is_taken_back_and_put_back() {
    browse("taken back", View::phone(), |page| {
        begin(page);
        page.press("button", "start punch");
        page.press("button", "heat +1 at punch");
        page.press("button", "take back punch: 1 heat");
        wait_for_logged(page, &rounding("open", &["3 start"]));
        page.press("button", "put punch: 1 heat back");
        wait_for_logged(page, &rounding("open", &["3 start", "3 heats"]));
        page.press("button", "it is spoiled");
        page.press("button", "take back “spoiled”");
        page.wait_for("button", "it is spoiled");
        // The end has stopped what ran: it runs again.
        page.press("button", "take back punch: stop");
        wait_for_logged(page, &rounding("open", &["3 start", "3 heats"]));
        // After a reload there is still the last entry to be taken back.
        page.reload();
        page.press("button", "log");
        page.press("button", "take back punch: 1 heat");
        page.press("button", "take back punch: start");
        wait_for_logged(page, &rounding("open", &[]));
        page.press("button", "remove this build");
        page.wait_for_text("The build of Rounding hammer was removed.");
        wait_for_logged(page, &json!([]));
        page.press("button", "put Rounding hammer back");
        wait_for_logged(page, &rounding("open", &[]));
    });
}

#[test]
fn what_cannot_be_is_said_and_what_looks_wrong_stands_at_its_step() {
    browse("wrong readings", View::desktop(), |page| {
        begin(page);
        page.press("button", "weigh after cut");
        let field = "weight after cut, kg";
        page.wait_for("textbox", field);
        page.type_text("heavy");
        page.keys(&[key::ENTER]);
        page.wait_for_text("is not a number with a unit");
        page.overwrite("900 kg");
        page.keys(&[key::ENTER]);
        page.wait_for_text("The weight is 900 kg. It must be at least");
        page.overwrite("1.2");
        page.keys(&[key::ENTER]);
        page.wait("the press has the focus again", || {
            page.focused().1 == "weigh after cut"
        });
        page.press("button", "write at forge to size");
        page.press("button", "weigh after forge to size");
        page.wait_for("textbox", "weight after forge to size, kg");
        page.type_text("1.3");
        page.keys(&[key::ENTER]);
        page.wait_for_text("Steel does not gain weight");
        page.press("button", "type the minutes of forge to size");
        page.wait_for("textbox", "forge to size took in all, min");
        page.type_text("1:75");
        page.keys(&[key::ENTER]);
        page.wait_for_text("is no time.");
        page.overwrite("1:30");
        page.keys(&[key::ENTER]);
        page.wait_for_text("1 h 30 min, typed");
        page.press("button", "measure a size at forge to size");
        page.wait_for("textbox", "it measures, mm");
        page.type_text("46.5");
        page.press("button", "keep");
        page.press("button", "note at forge to size");
        page.wait_for("textbox", "note at forge to size");
        page.type_text("too \"hot\", burnt; ");
        page.keys(&[key::ENTER]);
        page.type_text("next time less");
        page.press("button", "keep");
        wait_for_logged(
            page,
            &rounding(
                "open",
                &[
                    "1 weighed",
                    "2 weighed",
                    "2 minutes",
                    "2 measured",
                    "2 note",
                ],
            ),
        );
        page.press("button", "show the 5 entries");
        page.press("button", "strike entry 2, forge to size: weighs 1.300 kg");
        page.wait("the note is gone", || {
            !page.text().contains("Steel does not gain weight")
        });
        page.press("button", "change the steps");
        page.enter("name of punch", "slit");
        page.press("button", "remove temper");
        page.press("button", "add a step");
        page.enter("name of another step", "etch, and stamp");
        page.press("button", "etch, and stamp earlier");
        page.wait_for("button", "start slit");
        page.wait_for("button", "start etch, and stamp");
        assert!(!page.has("button", "start temper"));
        assert_eq!(page.broken_rules(), [""; 0]);
        page.save_long_picture("log-wrong-1440");
        // The next build begins with the smith's own steps.
        page.press("button", "all builds");
        page.press("button", "begin a build of…");
        page.wait_for("button", "start etch, and stamp");
    });
}

#[test]
fn two_tabs_at_one_build_lose_nothing() {
    browse("two tabs at a build", View::desktop(), |page| {
        begin(page);
        page.press("button", "start punch");
        let first = page.window();
        let second = page.open_window();
        page.load("");
        page.press("button", "log");
        page.wait_for("button", "stop punch");
        page.press("button", "heat +1 at punch");
        page.go_to_window(&first);
        page.wait_for_text("1 heat");
        page.press("button", "stop punch");
        page.go_to_window(&second);
        page.wait_for("button", "start punch");
        wait_for_logged(page, &rounding("open", &["3 start", "3 heats", "3 stop"]));
    });
}

#[test]
fn a_design_that_was_changed_or_removed_since_is_said() {
    browse("a design of before", View::desktop(), |page| {
        page.begin_with("Planishing hammer");
        page.enter("cheek width, mm", "33.5");
        page.wait_for_kept(&json!([["Planishing hammer", "33.5 mm", false]]));
        begin(page);
        page.rest(|| page.text());
        assert!(!page.text().contains("on the rack since"));
        page.press("button", "head");
        page.enter("cheek width, mm", "34");
        page.press("button", "log");
        page.wait_for_text("was changed on the rack since this build was begun");
        page.press("button", "rack");
        page.press("button", "remove Planishing hammer");
        page.press("button", "log");
        page.wait_for_text("is no longer on the rack");
        page.press("button", "put its design on the sheet");
        page.wait_for_value("cheek width, mm", "33.5");
    });
}

#[test]
fn the_log_goes_out_as_file_and_table_and_comes_in_again() {
    let (file, table) = browse("the log goes out", View::desktop(), |page| {
        begin(page);
        page.press("button", "start punch");
        page.press("button", "stop punch");
        page.press("button", "all builds");
        let file = page.saved_text("save the log as a file", ".headwright-log.json");
        let table = page.saved_text("save the log as a table (CSV)", ".csv");
        (file, table)
    });
    for (name, text) in [("log-in.json", &file), ("log-in.csv", &table)] {
        browse("a log comes in", View::desktop(), |page| {
            to_the_log(page);
            let path = output().join(name);
            std::fs::write(&path, text).expect("the file can be written");
            page.choose_file(&path);
            page.wait_for_text(&format!("From {name}: 1 came."));
            wait_for_logged(page, &rounding("open", &["3 start", "3 stop"]));
            page.choose_file(&path);
            page.wait_for_text(&format!("From {name}: 0 came. 1 stood here already."));
            let cut = &text[..text.len() / 2];
            std::fs::write(&path, cut).expect("the file can be written");
            page.choose_file(&path);
            page.wait_for_text("was not taken in; the log stands.");
        });
    }
}

#[test]
fn log_and_costs_go_along_in_the_file_of_the_rack() {
    let file = browse("the log goes with the rack", View::desktop(), |page| {
        begin(page);
        page.press("button", "start punch");
        page.press("button", "stop punch");
        page.press("button", "all builds");
        page.enter("work on a head, min", "150");
        page.press("button", "rack");
        page.saved_text("save the rack as a file", ".headwright-rack.json")
    });
    let saved: Value = serde_json::from_str(&file).expect("JSON");
    assert_eq!(saved["log"]["builds"].as_array().map(Vec::len), Some(1));
    browse("the log comes with the rack", View::desktop(), |page| {
        page.press("button", "rack");
        page.wait_for("button", "save the rack as a file");
        take_in(page, "rack-with-log.json", &file);
        page.wait_for_text("Of its builds 1 came. The costs are there.");
        take_in(page, "rack-with-log.json", &file);
        page.wait_for_text("Of its builds 0 came. 1 stood here already.");
        wait_for_logged(page, &rounding("open", &["3 start", "3 stop"]));
        to_the_log(page);
        page.wait_for_value("work on a head, min", "150");
    });
}

pub(super) const FULL: &str = "IDBObjectStore.prototype.put = function () {
    throw new DOMException('full', 'QuotaExceededError');
};";
pub(super) const FORBIDDEN: &str = "Object.defineProperty(window, 'indexedDB', {
    get() { throw new DOMException('not allowed', 'SecurityError'); }
});";

#[test]
fn a_storage_that_is_full_or_forbidden_is_said_and_the_log_is_offered() {
    for (storage, says) in [
        (
            FULL,
            "what you press now is kept only until this page is closed",
        ),
        (FORBIDDEN, "This browser lets the page keep no log"),
    ] {
        browse(
            "no room for the log",
            View::desktop().with(storage),
            |page| {
                page.press("button", "log");
                page.press("button", "begin a build of…");
                page.press("button", "start punch");
                page.press("button", "heat +1 at punch");
                page.wait_for_text(says);
                page.wait_for_text("1 heat");
                let file = page.saved_text("save the log as a file", ".headwright-log.json");
                assert!(file.contains("\"heats\""), "{file}");
            },
        );
    }
}

#[test]
fn a_build_is_worked_by_keys_alone() {
    browse("a build by keys", View::desktop(), |page| {
        page.tab_to("button", "log");
        page.keys(&[key::ENTER]);
        page.wait_for("button", "begin a build of…");
        page.tab_to("button", "begin a build of…");
        page.keys(&[key::ENTER]);
        page.wait_for("button", "start cut");
        page.tab_to("button", "start cut");
        page.keys(&[key::SPACE]);
        page.wait("the step has the focus still", || {
            page.focused().1 == "stop cut"
        });
        page.tab_to("button", "weigh after cut");
        page.keys(&[key::ENTER]);
        page.wait("the field has the focus", || {
            page.focused().1 == "weight after cut, kg"
        });
        page.type_text("1.4");
        page.keys(&[key::ESCAPE]);
        page.wait("the press has the focus again", || {
            page.focused().1 == "weigh after cut"
        });
        wait_for_logged(page, &rounding("open", &["1 start"]));
    });
}

/// Least height of a press at a step, CSS pixels: a dirty thumb at arm's length.
const THUMB: f64 = 64.0;
/// What runs over the side of the window, px.
const OVER: &str = "return Math.max(0, document.documentElement.scrollWidth - innerWidth)";

#[test]
fn a_build_in_work_breaks_no_rule_and_takes_a_thumb() {
    for view in [View::desktop(), View::phone()] {
        for view in [view, view.dark()] {
            browse("a build in work", view, |page| {
                begin(page);
                page.press("button", "start cut");
                page.press("button", "start forge to size");
                page.press("button", "heat +1 at forge to size");
                page.press("button", "weigh after forge to size");
                page.wait_for_text("0:02");
                if view.phone {
                    for button in page.all("button") {
                        let works = ["start ", "stop ", "heat +1", "weigh after", "write at"];
                        if works.iter().any(|work| button.name.starts_with(work)) {
                            let [width, height] = page.press_area(&button);
                            assert!(
                                height >= THUMB && width >= THUMB,
                                "{}: {width} × {height}",
                                button.name
                            );
                        }
                    }
                }
                let look = if view.dark { "slate" } else { "paper" };
                page.save_long_picture(&format!("log-build-{look}-{}", view.width));
                assert_eq!(page.broken_rules(), [""; 0]);
                assert_eq!(page.script(OVER, json!([])), json!(0));
                page.press("button", "leave it");
                page.press("button", "all builds");
                page.wait_for_text("forge to size runs");
                page.save_long_picture(&format!("log-list-{look}-{}", view.width));
                assert_eq!(page.broken_rules(), [""; 0]);
                assert_eq!(page.script(OVER, json!([])), json!(0));
            });
        }
    }
}

/// Six finished builds of one head, each faster than the one before, as a log file; in the last the scale lay.
fn six_builds(page: &Page) -> String {
    begin(page);
    page.press("button", "all builds");
    let file = page.saved_text("save the log as a file", ".headwright-log.json");
    let mut log: Value = serde_json::from_str(&file).expect("JSON");
    let build = log["builds"][0].clone();
    let of = |number: u64| {
        let mut build = build.clone();
        let begun = 1_700_000_000_000 + number * 86_400_000;
        let at = |minutes: u64| begun + minutes * 60_000;
        let lost = if number == 6 {
            90.0
        } else {
            8.0 + number as f64
        };
        build["id"] = json!(format!("six-{number}"));
        build["begun"] = json!(begun);
        build["outcome"] = json!("finished");
        build["steps"][2]["target_minutes"] = json!(40.0);
        build["events"] = json!([
            { "step": 3, "at": at(1), "what": "start" },
            { "step": 3, "at": at(61 - 5 * number), "what": "stop" },
            { "step": 5, "at": at(70), "what": "start" },
            { "step": 5, "at": at(170 - 12 * number), "what": "stop" },
            { "step": 5, "at": at(180), "what": { "weighed": { "mass": "1.3 kg" } } },
            { "step": 8, "at": at(200), "what": { "weighed": { "mass": format!("{} g", 1300.0 - lost) } } },
        ]);
        build
    };
    log["builds"] = (1..=6).map(of).collect();
    log.to_string()
}

#[test]
fn minutes_typed_while_a_step_runs_stand_for_what_ran_and_what_runs_on_adds() {
    browse("minutes of what runs", View::phone(), |page| {
        begin(page);
        page.press("button", "all builds");
        let file = page.saved_text("save the log as a file", ".headwright-log.json");
        let mut log: Value = serde_json::from_str(&file).expect("JSON");
        let now = page.script("return Date.now()", json!([]));
        let ago = |minutes: u64| now.as_u64().expect("a time") - minutes * 60_000;
        let build = &mut log["builds"][0];
        build["id"] = json!("runs");
        build["begun"] = json!(ago(100));
        build["events"] = json!([
            { "step": 3, "at": ago(60), "what": "start" },
            { "step": 3, "at": ago(20), "what": { "minutes": { "minutes": 35.0 } } },
        ]);
        take_in(page, "runs.json", &log.to_string());
        page.wait_for_text("From runs.json: 1 came.");
        page.press("button", "Rounding hammer punch runs…");
        page.wait_for_text("55 min in all");
        page.press("button", "stop punch");
        page.wait_for_text("55 min, 35 min of it typed");
        page.press("button", "type the minutes of punch");
        page.wait_for_text("what is pressed afterwards adds to them");
        page.type_text("50");
        page.keys(&[key::ENTER]);
        page.wait_for_text("50 min, typed");
        page.press("button", "start punch");
        page.press("button", "type the minutes of punch");
        page.wait_for_text("the clock goes on from here");
    });
}

/// Takes a text in as a log.
fn take_in(page: &Page, name: &str, text: &str) {
    let path = output().join(name);
    std::fs::write(&path, text).expect("the file can be written");
    page.choose_file(&path);
}

#[test]
fn minutes_and_losses_are_learned_and_the_bar_takes_them() {
    for view in [View::desktop(), View::phone().dark()] {
        browse("what a log teaches", view, |page| {
            let six = six_builds(page);
            take_in(page, "six.json", &six);
            page.wait_for_text("From six.json: 6 came.");
            page.wait_for_region(
                "where the minutes go",
                "Every doubling of the number leaves",
            );
            page.wait_for_region("where the minutes go", "15 min over 40 min");
            // The last one lies far out: it is asked about, and counts when the smith says so.
            page.wait_for_region("what your heads lose", "Was it so?");
            page.wait_for_region("what your heads lose", "weighed in 5 builds");
            page.save_long_picture(&format!("log-taught-{}", view.width));
            assert_eq!(page.broken_rules(), [""; 0]);
            assert_eq!(page.script(OVER, json!([])), json!(0));
            page.press("button", "leave it out");
            page.wait_for_region("what your heads lose", "you left it out.");
            page.press("button", "bar");
            page.wait_for("button", "losses from the log");
            page.press("button", "losses from the log");
            page.wait_for_text("scale in heat treatment (5)");
            page.press("button", "undo…");
            page.wait("the losses are the usual ones again", || {
                !page.text().contains("weighed in 5 builds")
            });
        });
    }
}

#[test]
fn a_price_is_worked_out_of_costs_that_are_kept() {
    for view in [View::desktop(), View::phone()] {
        browse("a price", view, |page| {
            to_the_log(page);
            page.enter("work on a head, min", "150");
            page.enter("fees, of the price, %", "10");
            page.enter("an hour is to pay, EUR/h", "36");
            page.wait_for_text("a head must sell for 100.00 EUR");
            page.enter("a head sells for, EUR", "50");
            page.wait_for_text("Sold for 50.00 EUR, an hour pays 18.00 EUR.");
            page.wait_for_text("Taxes are not in it");
            page.enter("good heads of the batch, heads", "6");
            page.wait_for_text("batch of 6");
            page.wait_for_text("300.00");
            page.write("an hour is to pay, EUR/h", "0");
            page.wait_for_text("The wanted wage is nothing.");
            page.keys(&[key::ESCAPE]);
            page.wait_for_text("a head must sell for");
            page.reload();
            page.press("button", "log");
            page.wait_for_text("Sold for 50.00 EUR, an hour pays 18.00 EUR.");
            page.save_long_picture(&format!("log-price-{}", view.width));
            assert_eq!(page.broken_rules(), [""; 0]);
        });
    }
}
