//! A hammer that exists: caliper and scale make a design of it, and say which size would explain their difference.

use headwright_browser::{Page, View, browse, key};
use serde_json::json;

/// What runs over the side of the window, px.
const OVER: &str = "return Math.max(0, document.documentElement.scrollWidth - innerWidth)";

/// Opens the sheet from where a smith with a hammer in his hand would look.
fn open(page: &Page) {
    page.press("button", "starters");
    page.press("button", "measure a hammer that exists");
    page.wait_for_text("Begin with a head of its shape.");
}

/// Types a hammer whose scale shows more than its sizes.
fn type_a_hammer(page: &Page) {
    page.enter("cheek width, measured, mm", "41");
    page.enter("front face offset, measured, mm", "55");
    page.enter("the scale shows, kg", "1.1 kg");
    page.wait_for_region("what they say", "1.100 kg");
    page.wait_for_region("what they say", "the scale shows more");
}

#[test]
fn a_hammer_is_measured_weighed_explained_and_goes_onto_the_sheet_and_the_rack() {
    for view in [View::desktop(), View::phone()] {
        browse("a hammer that exists", view, |page| {
            page.begin_with("Rounding hammer");
            let drawn = page.saved_design()["design"]["cheeks"]["width"].clone();
            open(page);
            type_a_hammer(page);
            // What is left open of both, and the ranking.
            page.wait_for_region("what they say", "by what was not measured");
            page.wait_for_region("what they say", "which size would explain it");
            page.wait_for_region("what they say", "times what it may be off unmeasured");
            let said = page.region("what they say");
            assert!(said.contains("1. ") || said.contains(" and not "), "{said}");
            page.press("button", "all …");
            page.wait_for("button", "the first 5");
            // Sizes that are left out stay when that is chosen, and the computed weight is another.
            page.wait_for_region(
                "the sizes that you leave out",
                "times that of Rounding hammer",
            );
            page.press("button", "stay as drawn");
            page.wait_for_region("the sizes that you leave out", "as Rounding hammer has it.");
            page.press("button", "put it on the sheet");
            page.wait_for_text("Rounding hammer, measured");
            let design = page.saved_design();
            assert_eq!(design["design"]["cheeks"]["width"], json!("41 mm"));
            assert_eq!(design["design"]["name"], json!("Rounding hammer, measured"));
            // It goes on being compared with the head that it began from.
            page.press("button", "log");
            page.wait_for_region("what they say", "the scale shows more");
            page.wait_for_region("the sizes that you leave out", "as Rounding hammer has it.");
            page.press("button", "head");
            page.press("button", "undo…");
            page.wait("the head is the one of before", || {
                page.saved_design()["design"]["cheeks"]["width"] == drawn
            });
            // What was typed is there still; it goes onto the rack as a hammer of its own.
            page.press("button", "log");
            page.wait_for_region("what they say", "1.100 kg");
            page.enter("name of the measured hammer", "Grandfather’s");
            page.press("button", "put it on the rack");
            page.wait_for_text("Grandfather’s stands on the rack");
            page.press("button", "rack");
            page.wait_for_text("Grandfather’s");
            // There alone: the head on the sheet is what it was.
            page.press("button", "head");
            let design = page.saved_design();
            assert_eq!(design["design"]["name"], json!("Rounding hammer"));
        });
    }
}

#[test]
fn the_handle_is_taken_off_and_what_cannot_be_is_said_where_it_is_typed() {
    browse("a hammer on its handle", View::desktop(), |page| {
        page.begin_with("Rounding hammer");
        open(page);
        page.enter("the scale shows, kg", "1.3 kg");
        page.press("button", "with its handle");
        page.wait_for_text("for the handle that leaves");
        page.enter("its handle weighs…", "250 g");
        page.wait_for_text("Less 250 g for the handle that leaves 1.050 kg for the head alone.");
        page.wait_for_region("what they say", "1.050 kg");
        page.enter("its handle weighs…", "1.4 kg");
        page.wait_for_region("what they say", "nothing is left for the head");
        page.press("button", "the head alone");
        page.wait_for_region("what they say", "1.300 kg");
        for (field, text, says) in [
            (
                "cheek width, measured, mm",
                "wide",
                "is not a number with a unit",
            ),
            ("cheek width, measured, mm", "900", "it must be between"),
            (
                "the scale shows",
                "900 kg",
                "The head was weighed as 900 kg.",
            ),
            (
                "may be off by: the caliper, mm",
                "0",
                "It must be at least 0.001 mm",
            ),
            ("may be off by: the scale", "5 kg", "It must be at least"),
        ] {
            page.write(field, text);
            page.wait_for_text(says);
            page.keys(&[key::ESCAPE]);
            page.wait(&format!("“{says}” is gone"), || {
                !page.text().contains(says)
            });
        }
        // Sizes no head can have are said at once and leave nothing to go on with.
        page.enter("cheek width, measured, mm", "16");
        page.wait_for_region("what they say", "No head has the sizes that were measured");
        assert!(!page.has("button", "put it on the sheet"));
        page.press("button", "clear what was typed");
        page.wait_for_region("what they say", "Type a size or the weight");
    });
}

#[test]
fn a_hammer_is_measured_by_keys_alone_from_a_starter() {
    browse("measured by keys", View::desktop(), |page| {
        page.tab_to("button", "log");
        page.keys(&[key::ENTER]);
        page.wait_for("button", "measure a hammer that exists");
        page.tab_to("button", "measure a hammer that exists");
        page.keys(&[key::ENTER]);
        page.wait_for_text("Begin with a head of its shape.");
        page.tab_to("combobox", "begin from");
        page.type_text("Cross");
        page.tab_to("textbox", "the scale shows, kg");
        page.type_text("900 g");
        page.keys(&[key::ENTER]);
        page.wait_for_region("what they say", "900 g");
        page.tab_to("button", "what cheek width means");
        page.keys(&[key::ENTER]);
        page.wait_for_text("Width of the cheek block at its ends, across the head.");
        page.tab_to("textbox", "cheek width, measured, mm");
        page.type_text("30");
        page.keys(&[key::ESCAPE]);
        page.wait("what stood there stands there again", || {
            page.value("cheek width, measured, mm").is_empty()
        });
        page.tab_to("button", "put it on the sheet");
        page.keys(&[key::ENTER]);
        page.wait_for_text("Cross pein hammer, measured");
    });
}

#[test]
fn the_sheet_of_a_measured_hammer_breaks_no_rule_and_stays_after_a_reload() {
    for view in [View::desktop(), View::phone()] {
        for view in [view, view.dark()] {
            browse("measured, looked at", view, |page| {
                page.begin_with("Rounding hammer");
                open(page);
                type_a_hammer(page);
                page.reload();
                page.press("button", "log");
                page.press("button", "measure a hammer that exists");
                page.wait_for_region("what they say", "1.100 kg");
                let look = if view.dark { "slate" } else { "paper" };
                page.save_long_picture(&format!("measured-{look}-{}", view.width));
                assert_eq!(page.broken_rules(), [""; 0]);
                assert_eq!(page.script(OVER, json!([])), json!(0));
            });
        }
    }
}
