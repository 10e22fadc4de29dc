//! Parts of the page that are fetched when they are first opened.

use headwright_browser::{Page, View, browse, browse_from_nothing};
use serde_json::json;

/// Cuts the page's connection, or gives it back; what is kept for visits without one does not count.
fn connect(page: &Page, connected: bool) {
    page.command("Network.enable", json!({}));
    page.command("Network.setBypassServiceWorker", json!({ "bypass": true }));
    page.command(
        "Network.emulateNetworkConditions",
        json!({ "offline": !connected, "latency": 0, "downloadThroughput": -1, "uploadThroughput": -1 }),
    );
}

/// Keeps the file `part` of the page from being fetched, or no longer.
fn hold_back(page: &Page, part: Option<&str>) {
    let files: Vec<String> = part
        .map(|part| format!("*-split_{part}.wasm"))
        .into_iter()
        .collect();
    page.command("Network.enable", json!({}));
    page.command("Network.setBypassServiceWorker", json!({ "bypass": true }));
    page.command("Network.setBlockedURLs", json!({ "urls": files }));
}

/// Nothing but the app's own files is complained of, by the browser and by what fetches them.
fn expect_complaints(page: &Page) {
    let errors = page.console_errors();
    assert!(!errors.is_empty());
    for error in errors {
        assert!(error.contains("/headwright-app-"), "{error}");
    }
}

#[test]
fn a_sheet_that_does_not_come_is_said_and_comes_at_another_try() {
    browse("a sheet without a connection", View::desktop(), |page| {
        page.begin_with("Cross pein hammer");
        connect(page, false);
        page.press("button", "bar");
        page.wait_for_text("This part could not be fetched");
        page.save_picture("sheet-not-fetched");
        page.press("button", "try again");
        page.wait_for_text("This part could not be fetched");
        // The head is still there and can be worked.
        page.press("button", "head");
        page.wait_for_value("name of the head", "Cross pein hammer");
        page.press("button", "bar");
        page.wait_for_text("This part could not be fetched");
        connect(page, true);
        page.press("button", "try again");
        page.wait_for_text(" of steel.");
        assert!(page.text().contains("Cross pein hammer"));
        expect_complaints(page);
    });
}

#[test]
fn a_shape_that_cannot_be_written_is_said() {
    browse("a shape without a connection", View::desktop(), |page| {
        page.wait_for("button", "save the shape as STL");
        connect(page, false);
        page.press("button", "save the shape as STL");
        page.wait_for_text("was not written: what writes it could not be fetched.");
        expect_complaints(page);
    });
}

#[test]
fn a_sheet_is_fetched_once_and_then_opens_without_a_connection() {
    browse("a sheet fetched before", View::desktop(), |page| {
        let fetched = || {
            let names = "return performance.getEntriesByType('resource').map(entry => entry.name)
                .filter(name => name.includes('-split_bar'))";
            let names = page.script(names, json!([]));
            names.as_array().map_or(0, Vec::len)
        };
        page.wait_for("button", "bar");
        assert_eq!(fetched(), 0);
        page.press("button", "bar");
        page.wait_for_text(" of steel.");
        connect(page, false);
        page.press("button", "head");
        page.wait_for("textbox", "name of the head");
        page.press("button", "bar");
        page.wait_for_text(" of steel.");
        assert_eq!(fetched(), 1);
    });
}

#[test]
fn a_weight_asked_for_before_the_fit_has_come_is_met_when_it_comes() {
    browse_from_nothing("a fit that is late", View::desktop(), |page| {
        hold_back(page, Some("fit"));
        page.load("");
        page.enter("hold weight at, kg", "1.2 kg");
        page.wait_for_text("What is held can’t follow yet");
        // Meanwhile the head is worked as it is.
        page.enter("cheek width, mm", "43");
        page.wait_for_value("cheek width, mm", "43");
        page.save_picture("fit-not-fetched");
        hold_back(page, None);
        page.press("button", "Try again");
        page.wait_for_text("held at 1.200 kg");
        page.wait_for_value("cheek width, mm", "43");
        assert!(!page.text().contains("can’t follow yet"));
        page.press("button", "undo cheek width 43");
        page.wait_for_text("held at 1.200 kg");
        expect_complaints(page);
    });
}

#[test]
fn the_side_view_stands_in_for_a_picture_that_does_not_come() {
    browse_from_nothing("a picture that is missing", View::desktop(), |page| {
        hold_back(page, Some("picture"));
        page.load("");
        page.wait_for_text("The shaded picture could not be fetched: here is the side view.");
        page.save_picture("picture-not-fetched");
        page.enter("hold weight at, kg", "1.2 kg");
        page.wait_for_text("held at 1.200 kg");
        expect_complaints(page);
    });
}

#[test]
fn a_link_that_cannot_be_read_yet_stays_out_and_says_so() {
    browse_from_nothing("a link that is late", View::desktop(), |page| {
        page.load("");
        page.begin_with("Cross pein hammer");
        page.press("button", "copy link");
        page.wait_for_text("The link");
        let address = page.url();
        let (_, link) = address.split_once('#').expect("a link");
        page.begin_with("Square-faced hammer");
        page.wait_for_value("name of the head", "Square-faced hammer");
        page.go("about:blank");
        hold_back(page, Some("link"));
        page.load(&format!("#{link}"));
        page.wait_for_text("What reads links could not be fetched");
        page.wait_for_value("name of the head", "Square-faced hammer");
        expect_complaints(page);
    });
}
