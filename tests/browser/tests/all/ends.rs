//! What an end can be worked into, and what a part may do without.

use headwright_browser::{View, browse};

#[test]
fn a_face_is_worked_into_a_ball_and_back() {
    browse("a ball", View::desktop(), |page| {
        page.begin_with("Rounding hammer");
        let face = page.value("back face crown radius, mm");
        page.tab_to("combobox", "back face worked into a");
        page.keys(&["b"]);
        page.wait_for_value("back ball diameter, mm", "39");
        page.wait_for("button", "back ball…");
        assert!(!page.has("textbox", "back face land, mm"));
        page.enter("back ball diameter, mm", "36");
        page.enter("hold weight at, kg", "1 kg");
        page.wait_for_text("held at 1.000 kg");
        page.save_picture("ball");
        page.enter("back ball neck diameter, mm", "35.5");
        page.wait_for_text("the neck may be at most 35.28 mm");
        for step in [
            "back ball neck diameter 35.5",
            "weight held",
            "back ball diameter 36",
        ] {
            page.press("button", &format!("undo {step}"));
        }
        page.press("button", "undo back ball");
        page.wait_for_value("back face crown radius, mm", &face);
    });
}

#[test]
fn the_ball_hammer_is_laid_out_on_a_phone() {
    browse("a ball on a phone", View::phone(), |page| {
        page.begin_with("Ball hammer");
        page.open_part("back ball");
        page.wait_for_value("back ball diameter, mm", "34");
        page.save_long_picture("ball-phone");
        page.open_part("front face");
        page.wait_for_value("front face crown radius, mm", "250");
    });
}

#[test]
fn a_face_is_worked_into_a_pein_and_back_by_undo() {
    browse("a pein", View::desktop(), |page| {
        page.begin_with("Rounding hammer");
        let face = page.value("back face crown radius, mm");
        page.tab_to("combobox", "back face worked into a");
        page.keys(&["p"]);
        page.wait_for_value("back pein edge length, mm", "39");
        page.wait_for("button", "back pein…");
        page.wait_for("combobox", "back pein corners");
        page.enter("back pein direction, °", "90");
        page.enter("back pein nose radius, mm", "30");
        page.wait_for_text("more than the pein has room for");
        page.press("button", "undo back pein nose radius 30");
        page.press("button", "undo back pein direction 90");
        page.press("button", "undo back pein");
        page.wait_for_value("back face crown radius, mm", &face);
    });
}

#[test]
fn lugs_and_a_cocked_eye_are_added_taken_off_and_brought_back() {
    browse("lugs and a cocked eye", View::desktop(), |page| {
        page.begin_with("Rounding hammer");
        page.wait_for_region("results", "least cheek wall");
        page.tab_to("checkbox", "cheeks, with lugs");
        page.keys(&[" "]);
        page.wait_for_value("lug top height, mm", "6");
        page.enter("lug top height, mm", "9");
        page.press("checkbox", "eye, cocked along the head");
        page.wait_for_value("eye cock along the head, °", "1");
        page.wait_for_region("results", "face out of square with the handle");
        page.press("checkbox", "cheeks, with lugs");
        page.wait("the lugs are gone", || {
            !page.has("textbox", "lug top height, mm")
        });
        page.press("button", "undo no lugs");
        page.wait_for_value("lug top height, mm", "9");
    });
}
