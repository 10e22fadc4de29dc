//! Front and back alike: one size at both ends until the tie is cut.

use headwright_browser::{View, browse, key};

const FRONT: &str = "front face width, mm";
const BACK: &str = "back face width, mm";

#[test]
fn widening_the_front_widens_the_back_until_the_tie_is_cut() {
    browse("front and back alike", View::desktop(), |page| {
        page.begin_with("Rounding hammer");
        page.enter(FRONT, "41");
        page.wait_for_value(BACK, "41");
        page.enter(BACK, "40");
        page.wait_for_value(FRONT, "40");
        page.save_long_picture("alike");
        // The word stands at the back alone, and where the two have one value alone.
        assert!(!page.has(
            "button",
            "front face width as the front, locked, press to part them"
        ));
        page.wait_for(
            "button",
            "back face crown radius locked, press to set it free",
        );
        page.press(
            "button",
            "back face width as the front, locked, press to part them",
        );
        page.wait_for("button", "back face width locked, press to set it free");
        page.enter(FRONT, "42");
        page.wait_for_value(FRONT, "42");
        assert_eq!(page.value(BACK), "40");
        // In hand the two can be tied again, by the keyboard alone.
        page.press("textbox", BACK);
        page.tab_to("button", "as the front");
        page.save_picture("alike-in-hand");
        page.keys(&[key::ENTER]);
        page.wait_for_value(BACK, "42");
        page.press("button", "undo back face width as the front");
        page.wait_for_value(BACK, "40");
        page.press("button", "undo front face width 42");
        page.press("button", "undo back face width by itself");
        page.wait_for(
            "button",
            "back face width as the front, locked, press to part them",
        );
    });
}

#[test]
fn on_a_phone_a_tie_is_cut_in_the_row_in_hand() {
    browse("alike on a phone", View::phone(), |page| {
        page.begin_with("Rounding hammer");
        page.open_part("back face");
        page.save_long_picture("alike-phone");
        page.write(BACK, "41");
        page.press("button", "by itself");
        page.save_long_picture("alike-phone-in-hand");
        let wide = page.script(
            "return document.documentElement.scrollWidth > window.innerWidth;",
            serde_json::json!([]),
        );
        assert_eq!(wide, false, "nothing stands beyond the edge");
        page.enter(BACK, "43");
        page.open_part("front face");
        page.wait_for_value(FRONT, "41");
    });
}
