//! Holds beside what they hold: by a button, by typing, by keys; kept, sent and let go.

use headwright_browser::{Page, View, browse, browse_from_nothing, key};

const HOLD_WALL: &str = "hold the least cheek wall where it is";
const WALL_HELD: &str = "least cheek wall held, press to let go";
const WALL: &str = "hold least cheek wall, mm";
const HOLD_LENGTH: &str = "hold the length over all where it is";
const LENGTH_HELD: &str = "length over all held, press to let go";
const LENGTH: &str = "hold length over all at, mm";

/// Waits for an alert that says this.
fn refused(page: &Page, sentence: &str) {
    page.wait(&format!("an alert says “{sentence}”"), || {
        let alerts = page.all("alert");
        alerts
            .iter()
            .any(|alert| page.text_of(alert).contains(sentence))
    });
}

#[test]
fn the_least_wall_is_held_by_a_press_and_then_by_what_is_typed() {
    for view in [View::desktop(), View::phone()] {
        browse("hold the wall", view, |page| {
            page.begin_with("Rounding hammer");
            let sizes = page.sizes();
            page.press("button", HOLD_WALL);
            page.wait_for("button", WALL_HELD);
            // What holds where it is moves nothing.
            assert_eq!(page.value(WALL), "at least 10.7");
            let after = page.sizes();
            assert!(sizes.iter().all(|size| after.contains(size)), "{after:?}");
            for (typed, reads) in [
                ("at least 9 mm", "at least 9"),
                ("≥ 9", "at least 9"),
                ("at most 12", "at most 12"),
                ("9 to 12", "9 to 12"),
                ("1/2 in to 15 mm", "12.7 to 15"),
                ("at least 9", "at least 9"),
            ] {
                page.enter(WALL, typed);
                page.wait_for_value(WALL, reads);
            }
            for (typed, sentence) in [
                ("thick", "“thick” is not a number with a unit"),
                ("at least thick", "“thick” is not a number with a unit"),
                ("at least 9 kg", "is a mass, but a length is needed here"),
            ] {
                page.write(WALL, typed);
                refused(page, sentence);
                page.keys(&[key::ESCAPE]);
                page.wait_for_value(WALL, "at least 9");
            }
            page.press("button", WALL_HELD);
            page.wait_for("button", HOLD_WALL);
            assert!(!page.has("textbox", WALL), "its field is gone");
        });
    }
}

#[test]
fn the_least_wall_is_held_by_keys_alone() {
    browse("hold the wall by keys", View::desktop(), |page| {
        page.tab_to("button", HOLD_WALL);
        page.keys(&[key::ENTER]);
        page.wait("the button says that it is held", || {
            page.focused() == ("button".to_owned(), WALL_HELD.to_owned())
        });
        page.keys(&[key::TAB]);
        assert_eq!(page.focused().1, WALL);
        page.overwrite("at least 9 mm");
        page.keys(&[key::ENTER]);
        page.wait_for_value(WALL, "at least 9");
        page.keys(&[key::SHIFT, key::TAB]);
        page.keys(&[key::SPACE]);
        page.wait("the button holds again", || {
            page.focused() == ("button".to_owned(), HOLD_WALL.to_owned())
        });
    });
}

#[test]
fn what_cannot_be_is_said_under_the_result_with_ways_out() {
    browse("a wall out of reach", View::desktop(), |page| {
        page.begin_with("Rounding hammer");
        page.press("button", HOLD_WALL);
        page.enter(WALL, "at least 40");
        page.wait_for_region("results", "The least cheek wall can’t be kept");
        page.wait_for_region("results", "In the way: ");
        page.wait_for("button", "Let the cheek width go to …");
        let place = |role, name| page.place_of(&page.wait_for(role, name)).bounds[1];
        let below = place("button", "Let the cheek width go to …") - place("textbox", WALL);
        assert!((0.0..400.0).contains(&below), "{below} px below the field");
        page.wait_for("button", "least cheek wall out by …");
        page.press("button", "Let the cheek width go to …");
        page.wait_for("button", WALL_HELD);
    });
}

#[test]
fn a_held_length_is_kept_looks_held_and_travels() {
    browse("hold the length", View::desktop(), |page| {
        page.begin_with("Rounding hammer");
        page.press("button", HOLD_LENGTH);
        page.wait_for("button", LENGTH_HELD);
        page.wait_for_text("held at 108");
        page.enter(
            "hold length over all at: plus or minus, usually 0.01 mm…",
            "1/32 in",
        );
        page.wait_for_text("held at 108 ± 0.79");
        // The one reach follows the other.
        page.enter("front face offset, mm", "60");
        page.wait_for_region("results", "held 108");
        assert_eq!(page.value(LENGTH), "108");
        page.reload();
        page.wait_for("button", LENGTH_HELD);
        page.wait_for_text("held at 108 ± 0.79");
        page.press("button", "copy link");
        page.wait("the link stands in the address", || {
            page.url().contains('#')
        });
        let url = page.url();
        browse_from_nothing("the held length elsewhere", View::phone(), |other| {
            other.go(&url);
            other.wait_for("button", LENGTH_HELD);
            assert_eq!(other.value(LENGTH), "108");
        });
        page.press("button", LENGTH_HELD);
        page.wait("it is let go", || !page.text().contains("held at 108"));
    });
}

#[test]
fn a_weight_is_held_in_a_range() {
    browse("a range of weight", View::desktop(), |page| {
        page.enter("hold weight at, kg", "1.0 to 1.2 kg");
        page.wait_for_value("hold weight, kg", "1.000 kg to 1.200 kg");
        page.enter("hold weight, kg", "1.1 kg ± 10 g");
        page.wait_for_value("hold weight at, kg", "1.100 kg");
        page.wait_for_value("hold weight at: plus or minus, usually 0.1 g", "10.0 g");
        page.wait_for_text("held at 1.100 kg ± 10.0 g");
    });
}

#[test]
fn nothing_moves_under_the_finger_that_holds() {
    browse("a calm page", View::phone(), |page| {
        page.begin_with("Rounding hammer");
        for (hold, held) in [(HOLD_LENGTH, LENGTH_HELD), (HOLD_WALL, WALL_HELD)] {
            let button = page.wait_for("button", hold);
            page.show(&button);
            let before = page.rest(|| page.place_of(&page.wait_for("button", hold)));
            page.press_at(before.middle());
            page.wait_for("button", held);
            let after = page.rest(|| page.place_of(&page.wait_for("button", held)));
            let moved = after.middle().1 - before.middle().1;
            assert!(moved.abs() < 2.0, "{hold} moved by {moved}");
        }
        let broken = page.broken_rules();
        assert!(broken.is_empty(), "{}", broken.join("\n"));
    });
}
