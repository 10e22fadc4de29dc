//! Work on the drawing itself: sizes dragged, locked and typed where they stand, the drawing drawn larger, the section.

use headwright_browser::{Page, View, browse, key};
use serde_json::json;

/// The control of a size on the drawing: its name begins with its value.
fn drawn(page: &Page, size: &str) -> String {
    format!("{size} {} mm…", page.value(&format!("{size}, mm")))
}

fn number(page: &Page, size: &str) -> f64 {
    let value = page.value(&format!("{size}, mm"));
    value.parse().expect("a number of mm")
}

/// Where the arrow stands that ends the size at the right, or below.
fn arrow(page: &Page, size: &str, upright: bool) -> (f64, f64) {
    let place = page.show(&page.wait_for("button", &drawn(page, size)));
    let (x, y) = place.middle();
    let found = page.script(
        "const [x, y, upright] = arguments;
        const pulls = [...document.querySelectorAll('.pull')].map((pull) => pull.getBoundingClientRect());
        const small = pulls.filter((r) => r.width < 31 && r.height < 31)
            .map((r) => [r.x + r.width / 2, r.y + r.height / 2]);
        const on_line = small.filter((p) => upright ? Math.abs(p[0] - x) < 30 : Math.abs(p[1] - y) < 40);
        on_line.sort((a, b) => upright ? b[1] - a[1] : b[0] - a[0]);
        return on_line[0];",
        json!([x, y, upright]),
    );
    let at = |k: usize| found[k].as_f64().expect("an arrow");
    (at(0), at(1))
}

#[test]
fn a_size_is_dragged_at_its_arrow_by_the_rule_and_undone_in_one_step() {
    browse("a size is dragged", View::desktop(), |page| {
        page.begin_with("Rounding hammer");
        let before = number(page, "front face offset");
        let (x, y) = arrow(page, "front face offset", false);
        page.drag((x, y), (x + 40.0, y));
        let after = page.rest(|| number(page, "front face offset"));
        page.save_picture("drawn-dragged");
        assert!(after > before + 3.0, "{before} became {after}");
        assert_eq!(after, after.round(), "it lies on the rule");
        page.press("button", &format!("undo front face offset {after}"));
        page.wait_for_value("front face offset, mm", &before.to_string());
        assert!(page.has("button", &format!("redo front face offset {after}")));
    });
}

#[test]
fn what_is_held_is_kept_while_a_size_is_dragged() {
    browse("a drag keeps the holds", View::desktop(), |page| {
        page.begin_with("Rounding hammer");
        page.enter("hold weight at, kg", "1.1 kg");
        page.wait_for_text("held at 1.100 kg");
        let before = number(page, "cheek height");
        let (x, y) = arrow(page, "cheek height", true);
        page.drag((x, y), (x, y + 14.0));
        let after = page.rest(|| number(page, "cheek height"));
        assert!(after > before, "{before} became {after}");
        page.wait_for_text("held at 1.100 kg");
    });
}

#[test]
fn a_press_that_does_not_move_takes_the_size_in_hand_and_locks_it_there() {
    browse("a size is locked on the drawing", View::desktop(), |page| {
        page.begin_with("Rounding hammer");
        let (x, y) = arrow(page, "front face offset", false);
        page.press_at((x, y));
        page.wait("the field stands on the drawing", || {
            page.has("textbox", "front face offset, mm")
        });
        let was_free = page.has("button", "front face offset free, press to lock it");
        let (now, then) = if was_free {
            (
                "front face offset free, press to lock it",
                "front face offset locked, press to set it free",
            )
        } else {
            (
                "front face offset locked, press to set it free",
                "front face offset free, press to lock it",
            )
        };
        page.save_picture("drawn-in-hand");
        page.press("button", now);
        page.wait_for("button", then);
    });
}

#[test]
fn typing_takes_the_place_of_what_a_pressed_size_holds() {
    browse("a pressed size is typed over", View::desktop(), |page| {
        page.begin_with("Rounding hammer");
        page.press("button", &drawn(page, "front face offset"));
        page.wait("the field has the focus", || page.focused().0 == "textbox");
        page.type_text("57");
        page.keys(&[key::ENTER]);
        page.wait_for_value("front face offset, mm", "57");
        page.wait_for("button", "undo front face offset 57");
    });
}

#[test]
fn a_swipe_over_an_upright_size_scrolls_the_page_and_leaves_the_head_alone() {
    browse("a swipe over a size", View::phone(), |page| {
        page.begin_with("Rounding hammer");
        page.open_part("cheeks");
        let before = number(page, "cheek height");
        let place = page.show(&page.wait_for("button", &drawn(page, "cheek height")));
        let (x, y) = place.middle();
        page.drag((x, y), (x, y - 120.0));
        let after = page.rest(|| number(page, "cheek height"));
        assert_eq!(after, before);
        assert!(!page.has("button", "undo cheek height…"));
    });
}

#[test]
fn a_thumb_drags_an_upright_size_at_its_arrow_and_the_page_stands_still() {
    browse("an upright size by touch", View::phone(), |page| {
        page.begin_with("Rounding hammer");
        page.open_part("cheeks");
        let before = number(page, "cheek height");
        let (x, y) = arrow(page, "cheek height", true);
        let scrolled = |page: &Page| page.script("return scrollY", json!([])).as_f64();
        let at = scrolled(page);
        page.drag((x, y), (x, y + 20.0));
        let after = page.rest(|| number(page, "cheek height"));
        assert!(after > before + 2.0, "{before} became {after}");
        assert_eq!(scrolled(page), at);
    });
}

#[test]
fn a_thumb_drags_a_size_on_a_phone() {
    browse("a size is dragged by touch", View::phone(), |page| {
        page.begin_with("Rounding hammer");
        page.open_part("front face");
        let before = number(page, "front face offset");
        let (x, y) = arrow(page, "front face offset", false);
        page.drag((x, y), (x - 30.0, y));
        let after = page.rest(|| number(page, "front face offset"));
        page.save_picture("drawn-dragged-phone");
        assert!(after < before - 3.0, "{before} became {after}");
    });
}

#[test]
fn the_drawing_is_drawn_larger_and_whole_again() {
    browse("the drawing is drawn larger", View::desktop(), |page| {
        page.begin_with("Rounding hammer");
        let wide = |page: &Page| {
            let width = page.script(
                "return document.querySelector('.drawing .outline').getBBox().width;",
                json!([]),
            );
            width.as_f64().expect("a width")
        };
        let before = wide(page);
        page.press("button", "nearer");
        page.wait("the head is larger", || wide(page) > 1.2 * before);
        page.save_picture("drawn-nearer");
        page.press("button", "whole");
        page.wait("the head is whole", || (wide(page) - before).abs() < 1.0);
    });
}

#[test]
fn the_section_through_the_eye_shows_cheeks_and_takes_its_sizes_in_hand() {
    for view in [View::desktop(), View::phone()] {
        browse("the section through the eye", view, |page| {
            page.begin_with("Rounding hammer");
            page.press("button", "section through the eye");
            page.wait_for_text("thick beside the waist");
            page.wait_for_text("across the head");
            page.save_long_picture(if view.phone {
                "drawn-section-phone"
            } else {
                "drawn-section"
            });
            page.press("button", "eye waist width…");
            page.wait("the size is in hand", || page.has("button", "more"));
            page.keys(&[key::ESCAPE]);
        });
    }
}
