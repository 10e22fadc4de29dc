//! What the browser keeps, and what happens where it keeps nothing.

use headwright_browser::{View, browse};

const FORBIDDEN: &str = "Object.defineProperty(window, 'localStorage', {
    get() { throw new DOMException('not allowed', 'SecurityError'); }
});";

const FULL: &str = "Storage.prototype.setItem = function () {
    throw new DOMException('full', 'QuotaExceededError');
};";

#[test]
fn the_head_is_back_after_a_reload() {
    for view in [View::desktop(), View::phone()] {
        browse("back after a reload", view, |page| {
            page.begin_with("Planishing hammer");
            page.open_part("cheeks");
            page.enter("cheek width, mm", "33.3 mm");
            page.enter("name of the head", "Anna’s hammer");
            page.rest(|| page.text());
            let sizes = page.sizes();
            let design = page.saved_design();
            page.reload();
            assert_eq!(page.value("name of the head"), "Anna’s hammer");
            assert_eq!(page.sizes(), sizes);
            assert_eq!(page.saved_design(), design);
        });
    }
}

#[test]
fn a_change_just_before_the_page_goes_is_kept() {
    browse("kept at the last moment", View::desktop(), |page| {
        page.write("cheek width, mm", "34.5");
        page.wait_for_value("cheek width, mm", "34.5");
        page.reload();
        assert_eq!(page.value("cheek width, mm"), "34.5");
    });
}

/// Works the page under a storage that refuses, which must be said once while work goes on.
fn goes_on_without_storage(name: &str, before: &'static str, sentence: &str) {
    browse(name, View::desktop().with(before), |page| {
        page.enter("cheek width, mm", "43");
        page.wait_for_text(sentence);
        page.save_picture(&name.replace(' ', "-"));
        page.press("button", "I have read this");
        page.enter("hold weight at, kg", "1 kg");
        page.wait_for_text("held at 1.000 kg");
        page.wait_for_region("finished weight", "1.000 kg");
        page.press("button", "slate");
        page.press("button", "in, lb");
        page.wait_for_text("all sizes in inches, cold");
    });
}

#[test]
fn a_forbidden_storage_is_said_and_the_app_goes_on() {
    goes_on_without_storage(
        "forbidden storage",
        FORBIDDEN,
        "what is not on the rack yet is gone when the page is closed",
    );
}

#[test]
fn a_full_storage_is_said_and_the_app_goes_on() {
    goes_on_without_storage(
        "full storage",
        FULL,
        "The browser’s storage is full: the latest keystrokes are not noted.",
    );
}

#[test]
fn a_kept_text_that_cannot_be_read_is_put_aside_and_said() {
    browse("an unreadable kept text", View::desktop(), |page| {
        // Left by a visit that something else wrote over; pagehide must not mend it.
        let text = r#"{"format":"something else"}"#;
        let plant = format!(
            "if (!sessionStorage.planted) {{ sessionStorage.planted = 1;
               for (const k of Object.keys(localStorage)) localStorage.removeItem(k);
               localStorage.setItem('headwright.design', {}); }}",
            serde_json::json!(serde_json::json!(text).to_string())
        );
        page.command(
            "Page.addScriptToEvaluateOnNewDocument",
            serde_json::json!({ "source": plant }),
        );
        page.reload();
        page.wait_for_text("The design kept in this browser can");
        page.wait_for_text("A starter stands in its place.");
        assert!(!page.value("name of the head").is_empty());
    });
}

#[test]
fn a_saved_file_opens_again() {
    browse("a file opens again", View::desktop(), |page| {
        page.begin_with("Shop hammer in inches");
        let design = page.saved_design();
        let path = headwright_browser::output().join("to-open.headwright.json");
        std::fs::write(&path, design.to_string()).expect("the file can be written");
        page.begin_with("Light bench hammer");
        page.choose_file(&path);
        page.wait_for_value("name of the head", "Shop hammer in inches");
        assert_eq!(page.saved_design(), design);
        std::fs::write(&path, "{}").expect("the file can be written");
        page.choose_file(&path);
        page.wait_for_text("was not opened; the present head stands.");
        assert_eq!(page.value("name of the head"), "Shop hammer in inches");
        std::fs::remove_file(&path).expect("the file can be removed");
    });
}
