//! The rack: designs that are kept, and what happens to them.

use headwright_browser::{Page, View, browse, browse_from_nothing, key, output};
use serde_json::{Value, json};

/// Begins with the planishing hammer and changes it, so that it goes on the rack.
fn one_on_the_rack(page: &Page) {
    page.begin_with("Planishing hammer");
    page.open_part("cheeks");
    page.enter("cheek width, mm", "33.5");
    page.wait_for_kept(&json!([["Planishing hammer", "33.5 mm", false]]));
}

/// Opens the rack's sheet.
fn to_the_rack(page: &Page) {
    page.press("button", "rack");
    page.wait_for_text("Every hammer that you change stands here");
}

/// Writes into the one field that is open in a row.
fn write_in_row(page: &Page, field: &str, text: &str) {
    page.wait(&format!("“{field}” has the focus"), || {
        page.focused().1 == field
    });
    page.overwrite(text);
    page.keys(&[key::ENTER]);
}

#[test]
fn a_hammer_is_kept_found_copied_renamed_tagged_removed_and_put_back() {
    for view in [View::desktop(), View::phone()] {
        browse("the rack is worked", view, |page| {
            one_on_the_rack(page);
            to_the_rack(page);
            page.wait_for("button", "open Planishing hammer");
            page.wait_for_text("on the sheet");
            page.press("button", "copy Planishing hammer");
            page.press("button", "rename Planishing hammer copy");
            write_in_row(page, "new name of Planishing hammer copy", "Anna’s");
            page.press("button", "tags of Anna’s");
            let tags = "tags of Anna’s, parted by commas";
            write_in_row(page, tags, &"long ".repeat(8));
            page.wait_for_text("is longer than 30 characters");
            write_in_row(page, tags, "sold,  two pounds");
            page.wait_for_text("tags: sold, two pounds");
            page.wait_for_kept(&json!([
                ["Anna’s", "33.5 mm", false],
                ["Planishing hammer", "33.5 mm", false]
            ]));
            page.press("searchbox", "search");
            page.type_text("POUNDS anna");
            page.wait_for_text("1 of 2 hammers");
            assert!(!page.has("button", "open Planishing hammer"));
            page.overwrite("");
            page.press("button", "remove Anna’s");
            page.wait_for_text("Anna’s was removed.");
            page.press("button", "put Anna’s back");
            page.wait_for("button", "open Anna’s");
            page.wait_for_text("tags: sold, two pounds");
            page.press("button", "remove Anna’s");
            page.wait_for("button", "put Anna’s back");
            page.press("button", "head");
            page.wait_for_kept(&json!([["Planishing hammer", "33.5 mm", false]]));
        });
    }
}

#[test]
fn an_entry_is_opened_and_undo_brings_the_other_back_without_changing_either() {
    browse("entries are opened", View::desktop(), |page| {
        one_on_the_rack(page);
        page.begin_with("Cross pein hammer");
        page.enter("cheek width, mm", "41.5");
        let both = json!([
            ["Cross pein hammer", "41.5 mm", false],
            ["Planishing hammer", "33.5 mm", false]
        ]);
        page.wait_for_kept(&both);
        to_the_rack(page);
        page.press("button", "open Planishing hammer");
        page.wait_for_value("cheek width, mm", "33.5");
        page.press("button", "undo Planishing hammer");
        page.wait_for_value("cheek width, mm", "41.5");
        page.press("button", "redo Planishing hammer");
        page.wait_for_value("cheek width, mm", "33.5");
        page.rest(|| page.kept());
        page.wait_for_kept(&both);
        page.enter("cheek width, mm", "34");
        page.wait_for_kept(&json!([
            ["Cross pein hammer", "41.5 mm", false],
            ["Planishing hammer", "34 mm", false]
        ]));
        page.reload();
        page.wait_for_value("cheek width, mm", "34");
    });
}

#[test]
fn what_is_removed_while_it_is_on_the_sheet_is_undone_and_done_again() {
    browse("removed from under the sheet", View::desktop(), |page| {
        one_on_the_rack(page);
        to_the_rack(page);
        page.press("button", "tags of Planishing hammer");
        write_in_row(page, "tags of Planishing hammer, parted by commas", "sold");
        page.wait_for_text("tags: sold");
        page.press("button", "remove Planishing hammer");
        page.wait_for_text("It can be put back, or undone, as long as this page is open.");
        page.press("button", "head");
        let removed = json!([["Planishing hammer", "33.5 mm", true]]);
        page.rest(|| page.kept());
        page.wait_for_kept(&removed);
        page.press("button", "undo removal of Planishing hammer");
        page.wait_for_kept(&json!([["Planishing hammer", "33.5 mm", false]]));
        page.press("button", "redo removal of Planishing hammer");
        page.wait_for_kept(&removed);
        page.press("button", "undo removal of Planishing hammer");
        to_the_rack(page);
        page.wait_for_text("tags: sold");
        page.press("button", "remove Planishing hammer");
        page.wait_for_kept(&removed);
        // Another page does not undo: there it goes for good when the rack is left.
        page.press("button", "head");
        page.reload();
        page.wait_for_value("cheek width, mm", "33.5");
        to_the_rack(page);
        page.wait_for_text("It goes for good when you leave this sheet.");
        page.press("button", "head");
        page.wait_for_kept(&json!([]));
        page.enter("cheek width, mm", "35");
        page.wait_for_kept(&json!([["Planishing hammer", "35 mm", false]]));
    });
}

#[test]
fn a_name_given_in_one_window_and_a_size_in_another_are_one_hammer() {
    browse("a name and a size", View::desktop(), |page| {
        one_on_the_rack(page);
        let first = page.window();
        page.open_window();
        page.load("");
        page.wait_for_value("cheek width, mm", "33.5");
        page.enter("name of the head", "Renamed elsewhere");
        page.wait_for_kept(&json!([["Renamed elsewhere", "33.5 mm", false]]));
        page.go_to_window(&first);
        page.enter("cheek width, mm", "35");
        page.wait_for_value("name of the head", "Renamed elsewhere");
        page.wait_for_kept(&json!([["Renamed elsewhere", "35 mm", false]]));
        assert!(!page.text().contains("another tab too"));
        page.wait_for("button", "undo what another tab did");
    });
}

#[test]
fn a_hammer_renamed_on_the_rack_is_the_same_when_undo_leads_back_to_it() {
    browse("renamed, then undone", View::desktop(), |page| {
        one_on_the_rack(page);
        page.begin_with("Cross pein hammer");
        to_the_rack(page);
        page.press("button", "rename Planishing hammer");
        write_in_row(page, "new name of Planishing hammer", "Renamed");
        page.wait_for_kept(&json!([["Renamed", "33.5 mm", false]]));
        page.press("button", "head");
        page.press("button", "undo Cross pein hammer");
        page.wait_for_value("cheek width, mm", "33.5");
        page.enter("cheek width, mm", "36");
        page.wait_for_kept(&json!([["Renamed", "36 mm", false]]));
        page.wait_for_value("name of the head", "Renamed");
    });
}

#[test]
fn a_name_that_fills_its_field_is_said_and_a_note_that_is_too_long_stops_no_head() {
    browse("long texts", View::desktop(), |page| {
        let design = page.saved_design();
        page.write("name of the head", &"x".repeat(85));
        page.wait_for_text("The name is full: it has 80 characters, and no more are taken.");
        page.wait_for_value("name of the head", &"x".repeat(80));
        let mut long = design;
        long["design"]["note"] = json!("y".repeat(1200));
        long["design"]["name"] = json!("Long-winded");
        take_in(page, "long.headwright.json", &long.to_string());
        page.wait_for_value("name of the head", "Long-winded");
        page.wait_for_text("The note has 1200 characters, and a link takes at most 1000");
        assert!(!page.has("region", "This head can’t be made"));
    });
}

/// Writes `text` into a file of the output folder and chooses it.
fn take_in(page: &Page, name: &str, text: &str) {
    let path = output().join(name);
    std::fs::write(&path, text).expect("the file can be written");
    page.choose_file(&path);
}

#[test]
fn the_rack_goes_out_as_a_file_and_in_again() {
    let file = browse("the rack as a file", View::desktop(), |page| {
        one_on_the_rack(page);
        to_the_rack(page);
        page.press("button", "copy Planishing hammer");
        page.wait_for("button", "open Planishing hammer copy");
        page.saved_text("save the rack as a file", ".headwright-rack.json")
    });
    let rack: Value = serde_json::from_str(&file).expect("JSON");
    assert_eq!(rack["entries"].as_array().map(Vec::len), Some(2));
    browse("a rack is taken in", View::desktop(), |page| {
        to_the_rack(page);
        page.wait_for_text("Nothing stands here yet.");
        take_in(page, "rack-in.json", &file);
        page.wait_for_text("From rack-in.json: 2 came.");
        page.wait_for("button", "open Planishing hammer copy");
        take_in(page, "rack-in.json", &file);
        page.wait_for_text("From rack-in.json: 0 came. 2 stood here already.");
        let mut other = rack.clone();
        other["entries"][0]["design"]["design"]["name"] = json!("Another one");
        other["entries"][1]["design"]["version"] = json!(999);
        take_in(page, "rack-in.json", &other.to_string());
        page.wait_for_text("Kept as a copy, because another state stands here: Another one.");
        page.wait_for_text("newer Headwright");
        let name = &rack["entries"][1]["design"]["design"]["name"];
        let name = name.as_str().expect("a name");
        let button = format!("save {name} as it stands as a file");
        let entry = page.saved_text(&button, ".unread.json");
        assert!(entry.contains("999"), "{entry}");
        assert_eq!(page.kept().len(), 3);
        take_in(page, "rack-in.json", &file[..file.len() / 2]);
        page.wait_for_text("was not taken in; the rack stands. This is not a rack file");
        assert_eq!(page.kept().len(), 3);
    });
}

#[test]
fn two_windows_at_one_hammer_keep_both_works() {
    browse("two windows at one hammer", View::desktop(), |page| {
        one_on_the_rack(page);
        let first = page.window();
        page.open_window();
        page.load("");
        page.wait_for_value("cheek width, mm", "33.5");
        page.enter("cheek width, mm", "34");
        page.wait_for_kept(&json!([["Planishing hammer", "34 mm", false]]));
        page.go_to_window(&first);
        page.write("cheek width, mm", "35");
        page.script("scrollTo(0, 700)", json!([]));
        page.keys(&[key::ENTER]);
        page.wait_for_text("This head was changed in another tab too.");
        // It is said where the smith is looking.
        page.wait("the sentence is in the window", || {
            let seen =
                "return [...document.querySelectorAll('.notice, .strip-said')].some((said) => {
                const r = said.getBoundingClientRect();
                return r.height > 0 && r.top >= 0 && r.bottom <= innerHeight
                    && said.textContent.includes('“Planishing hammer (other tab)”');
            })";
            page.script(seen, json!([])) == json!(true)
        });
        page.wait_for_value("name of the head", "Planishing hammer (other tab)");
        let both = json!([
            ["Planishing hammer (other tab)", "35 mm", false],
            ["Planishing hammer", "34 mm", false]
        ]);
        page.wait_for_kept(&both);
        // Each goes on with its own.
        page.enter("cheek width, mm", "35.5");
        page.wait_for_kept(&json!([
            ["Planishing hammer (other tab)", "35.5 mm", false],
            ["Planishing hammer", "34 mm", false]
        ]));
    });
}

#[test]
fn two_windows_at_two_hammers_never_touch_each_other() {
    browse("two windows at two hammers", View::desktop(), |page| {
        one_on_the_rack(page);
        let first = page.window();
        let second = page.open_window();
        page.load("");
        page.begin_with("Cross pein hammer");
        page.enter("cheek width, mm", "41.5");
        page.go_to_window(&first);
        page.enter("cheek width, mm", "34");
        page.go_to_window(&second);
        page.enter("cheek width, mm", "41");
        page.wait_for_kept(&json!([
            ["Cross pein hammer", "41 mm", false],
            ["Planishing hammer", "34 mm", false]
        ]));
        page.go_to_window(&first);
        page.reload();
        page.wait_for_value("cheek width, mm", "34");
        page.go_to_window(&second);
        page.reload();
        page.wait_for_value("cheek width, mm", "41");
        // The other window's rack shows what was done here.
        page.go_to_window(&first);
        to_the_rack(page);
        page.go_to_window(&second);
        page.enter("name of the head", "Renamed elsewhere");
        page.go_to_window(&first);
        page.wait_for("button", "open Renamed elsewhere");
    });
}

#[test]
fn a_page_that_is_killed_while_typing_loses_at_most_the_last_letter() {
    for pause in [0, 120, 290, 310, 900] {
        browse("killed while typing", View::desktop(), |page| {
            let first = page.window();
            let spare = page.open_window();
            page.go_to_window(&first);
            page.write("name of the head", "Killed");
            page.type_text(&format!(" after {pause} m"));
            std::thread::sleep(std::time::Duration::from_millis(pause));
            page.kill();
            page.go_to_window(&spare);
            page.load("");
            let typed = format!("Killed after {pause} m");
            let name = page.value("name of the head");
            assert!(
                name == typed || name == typed[..typed.len() - 1],
                "of “{typed}” there is “{name}”"
            );
            let width = page.value("cheek width, mm");
            page.wait_for_kept(&json!([[name, format!("{width} mm"), false]]));
        });
    }
}

#[test]
fn a_size_that_cannot_be_made_is_there_again_after_the_page_was_killed() {
    browse("killed while unsound", View::desktop(), |page| {
        let first = page.window();
        let spare = page.open_window();
        page.go_to_window(&first);
        page.write("cheek length, mm", "7");
        page.wait_for("region", "This head can’t be made");
        page.kill();
        page.go_to_window(&spare);
        page.load("");
        page.wait_for_value("cheek length, mm", "7");
        page.wait_for("region", "This head can’t be made");
    });
}

#[test]
fn a_link_changes_nothing_on_the_rack_before_something_is_changed_in_it() {
    browse("a link and the rack", View::desktop(), |page| {
        page.begin_with("Cross pein hammer");
        page.press("button", "copy link");
        page.wait_for_text("The link");
        let link = page.url();
        let link = link.split_once('#').expect("a link").1.to_owned();
        one_on_the_rack(page);
        let before = json!([["Planishing hammer", "33.5 mm", false]]);
        page.load("");
        page.load(&format!("#{link}"));
        page.reload();
        page.wait_for_value("name of the head", "Cross pein hammer");
        page.press("button", "rack");
        page.wait_for_text("Cross pein hammer is on the sheet, and not on the rack");
        page.rest(|| page.kept());
        page.wait_for_kept(&before);
        page.press("button", "head");
        page.enter("cheek width, mm", "41.5");
        page.wait_for_kept(&json!([
            ["Cross pein hammer", "41.5 mm", false],
            ["Planishing hammer", "33.5 mm", false]
        ]));
    });
}

#[test]
fn what_was_kept_before_there_was_a_rack_stands_on_it() {
    let plant = "if (!sessionStorage.planted) { sessionStorage.planted = 1;
        localStorage.setItem('headwright.design', JSON.stringify(PRESENT));
        localStorage.setItem('headwright.before', JSON.stringify(ASIDE)); }";
    let (present, aside) = browse("designs of before", View::desktop(), |page| {
        page.begin_with("Planishing hammer");
        let present = page.saved_design();
        page.begin_with("Cross pein hammer");
        (present, page.saved_design())
    });
    let text = |design: &Value| json!(design.to_string()).to_string();
    let plant = plant
        .replace("PRESENT", &text(&present))
        .replace("ASIDE", &text(&aside));
    browse_from_nothing("before the rack", View::desktop(), |page| {
        page.command(
            "Page.addScriptToEvaluateOnNewDocument",
            json!({ "source": plant }),
        );
        page.load("");
        page.wait_for_value("name of the head", "Planishing hammer");
        page.wait("both stand on the rack", || page.kept().len() == 2);
        let left = page.script(
            "return [localStorage['headwright.design'], localStorage['headwright.before']]",
            json!([]),
        );
        assert_eq!(left, json!([null, null]));
        page.reload();
        page.rest(|| page.kept());
        assert_eq!(page.kept().len(), 2);
    });
}

const FULL: &str = "IDBObjectStore.prototype.put = function () {
    throw new DOMException('full', 'QuotaExceededError');
};";

#[test]
fn a_full_database_is_said_and_the_head_is_offered_as_a_file() {
    browse("a full rack", View::desktop().with(FULL), |page| {
        page.enter("cheek width, mm", "43");
        page.wait_for_text("the latest changes are not on the rack");
        let file = page.saved_text("save the head as a file", ".headwright.json");
        assert!(file.contains("\"43 mm\""), "{file}");
        page.press("button", "I have read this");
        // The note is there all the same.
        page.reload();
        page.wait_for_value("cheek width, mm", "43");
    });
}

const FORBIDDEN: &str = "Object.defineProperty(window, 'indexedDB', {
    get() { throw new DOMException('not allowed', 'SecurityError'); }
});";

#[test]
fn a_forbidden_database_leaves_a_rack_for_as_long_as_the_page_is_open() {
    browse(
        "a forbidden rack",
        View::desktop().with(FORBIDDEN),
        |page| {
            page.wait_for_text("This browser lets the page keep no rack");
            page.press("button", "I have read this");
            page.enter("cheek width, mm", "43");
            to_the_rack(page);
            page.wait_for_text("This browser lets the page keep no rack");
            page.press("button", "copy Rounding hammer");
            page.wait_for("button", "open Rounding hammer copy");
            let file = page.saved_text("save the rack as a file", ".headwright-rack.json");
            assert!(file.contains("Rounding hammer copy"));
            page.reload();
            page.press("button", "I have read this");
            page.wait_for_value("cheek width, mm", "43");
        },
    );
}

/// Puts `text` into the database under `id`.
fn plant(page: &Page, id: &str, text: &str) {
    let script = "const [id, text, done] = arguments;
        const open = indexedDB.open('headwright');
        open.onsuccess = () => {
            const t = open.result.transaction('slips', 'readwrite');
            t.objectStore('slips').put(text, id);
            t.oncomplete = () => { open.result.close(); done(true); };
        };";
    page.slow_script(script, json!([id, text]));
}

#[test]
fn a_damaged_entry_is_shown_beside_the_others_and_offered_as_a_file() {
    browse("a damaged rack", View::desktop(), |page| {
        one_on_the_rack(page);
        let damaged = r#"{"version":1,"mark":"x","removed":false,"entry":{"design":{"design":{"name":"Broken"}}}}"#;
        plant(page, "damaged", damaged);
        plant(page, "garbage", "no slip at all");
        page.reload();
        to_the_rack(page);
        page.wait_for("button", "open Planishing hammer");
        page.wait_for_text("Broken can’t be read.");
        page.wait_for_text("something can’t be read.");
        let broken = page.saved_text("save Broken as it stands as a file", ".unread.json");
        assert_eq!(broken, damaged);
        let garbage = page.saved_text("save something as it stands as a file", ".unread.json");
        assert_eq!(garbage, "no slip at all");
        page.save_picture("rack-damaged");
        assert_eq!(page.broken_rules(), [""; 0]);
    });
}

/// Runs before the app, so that the database is a newer one when the app opens it.
const NEWER: &str = "indexedDB.open('headwright', 9).onupgradeneeded = (event) => {
    event.target.result.createObjectStore('slips').put('of tomorrow', 'newer');
};";

#[test]
fn a_rack_of_a_newer_headwright_is_left_alone_and_said() {
    browse("a newer rack", View::desktop().with(NEWER), |page| {
        page.wait_for_text("was written by a newer Headwright");
        page.press("button", "I have read this");
        page.enter("cheek width, mm", "43");
        to_the_rack(page);
        page.wait_for("button", "open Rounding hammer");
        page.wait_for_text("was written by a newer Headwright");
        let left = page.slow_script(
            "const done = arguments[0]; const open = indexedDB.open('headwright');
             open.onsuccess = () => {
                 const all = open.result.transaction('slips').objectStore('slips').getAll();
                 all.onsuccess = () => done([open.result.version, all.result]);
             };",
            json!([]),
        );
        assert_eq!(left, json!([9, ["of tomorrow"]]));
    });
}

#[test]
fn the_rack_is_worked_by_keys_alone() {
    browse("the rack by keys", View::desktop(), |page| {
        one_on_the_rack(page);
        page.tab_back_to("button", "rack");
        page.keys(&[key::ENTER]);
        page.wait_for("button", "copy Planishing hammer");
        page.tab_to("button", "copy Planishing hammer");
        page.keys(&[key::ENTER]);
        page.wait_for("button", "rename Planishing hammer copy");
        page.tab_to("button", "rename Planishing hammer copy");
        page.keys(&[key::ENTER]);
        write_in_row(page, "new name of Planishing hammer copy", "By keys");
        page.wait("the row has the focus again", || {
            page.focused().1 == "open By keys"
        });
        page.tab_to("button", "remove By keys");
        page.keys(&[key::ENTER]);
        page.wait("undo has the focus", || {
            page.focused().1 == "put By keys back"
        });
        page.keys(&[key::ENTER]);
        page.wait("the row has the focus again", || {
            page.focused().1 == "open By keys"
        });
        page.keys(&[key::ENTER]);
        page.wait_for_value("name of the head", "By keys");
    });
}

/// What runs over the side of the window, px.
const OVER: &str = "return document.documentElement.scrollWidth - innerWidth";

#[test]
fn a_filled_rack_breaks_no_rule_and_runs_over_no_side() {
    for view in [View::desktop(), View::phone()] {
        for view in [view, view.dark()] {
            browse("a filled rack", view, |page| {
                for name in [
                    "Planishing hammer",
                    "Cross pein hammer",
                    "Rounding hammer",
                    "Light bench hammer",
                    "Shop hammer in inches",
                ] {
                    page.begin_with(name);
                    page.press("button", "rack");
                    page.press("button", &format!("put {name} on the rack"));
                    page.wait_for("button", &format!("open {name}"));
                }
                page.press("button", "copy Planishing hammer");
                page.press("button", "rename Planishing hammer copy");
                let field = "new name of Planishing hammer copy";
                write_in_row(
                    page,
                    field,
                    "A long name without a blank: Bergschmiedehammerstielauge",
                );
                page.press("button", "tags of Cross pein hammer");
                let field = "tags of Cross pein hammer, parted by commas";
                write_in_row(page, field, "sold, for Anna, two pounds");
                page.wait_for_text("tags: sold, for Anna");
                page.press("button", "remove Light bench hammer");
                page.wait_for("button", "put Light bench hammer back");
                page.rest(|| page.text());
                let look = if view.dark { "slate" } else { "paper" };
                page.save_long_picture(&format!("rack-filled-{look}-{}", view.width));
                assert_eq!(page.broken_rules(), [""; 0]);
                assert_eq!(page.script(OVER, json!([])), json!(0));
            });
        }
    }
}
