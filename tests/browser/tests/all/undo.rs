//! Undo and redo, by the name of what they undo.

use headwright_browser::{View, browse};

#[test]
fn undo_and_redo_say_what_they_do_and_do_it() {
    browse("undo and redo", View::desktop(), |page| {
        page.begin_with("Rounding hammer");
        let start = page.value("cheek width, mm");
        page.enter("cheek width, mm", "41");
        page.enter("cheek height, mm", "39.5");
        page.press("button", "undo cheek height 39.5");
        page.wait_for("button", "redo cheek height 39.5");
        page.press("button", "undo cheek width 41");
        page.wait_for_value("cheek width, mm", &start);
        page.press("button", "redo cheek width 41");
        page.wait_for_value("cheek width, mm", "41");
        page.press("button", "redo cheek height 39.5");
        page.wait_for_value("cheek height, mm", "39.5");
        assert!(!page.has("button", "redo…"), "nothing is left to redo");
    });
}

#[test]
fn a_fit_is_one_step_back() {
    browse("a fit is one step", View::desktop(), |page| {
        page.begin_with("Rounding hammer");
        let before = page.sizes();
        page.enter("hold weight at, kg", "1.1 kg");
        page.wait_for_text("held at 1.100 kg");
        page.press("button", "undo weight held");
        page.wait("the hold is off", || {
            !page.text().contains("held at 1.100 kg")
        });
        assert_eq!(page.sizes(), before);
    });
}
