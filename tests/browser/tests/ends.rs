//! What an end can be worked into.

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
