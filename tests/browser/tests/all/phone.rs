//! A phone in the shop: what fits its width, what stays in sight, and what is there again when it is turned.

use headwright_browser::{Page, View, browse};
use serde_json::json;

/// A number that a script gives.
fn number(page: &Page, script: &str) -> f64 {
    page.script(script, json!([])).as_f64().expect("a number")
}

/// The button of a size on the drawing.
fn drawn(page: &Page, size: &str) -> String {
    format!("{size} {} mm…", page.value(&format!("{size}, mm")))
}

#[test]
fn a_press_on_the_drawing_leaves_it_in_sight_with_the_field_at_the_lower_edge() {
    browse("a size under the thumb", View::phone(), |page| {
        page.begin_with("Rounding hammer");
        page.open_part("front face");
        let size = drawn(page, "front face offset");
        let place = page.show(&page.wait_for("button", &size));
        let before = number(page, "return scrollY");
        page.press_at(place.middle());
        page.wait("the field is there", || page.has("button", "done"));
        page.rest(|| number(page, "return scrollY"));
        page.save_picture("drawn-under-the-thumb");
        assert_eq!(number(page, "return scrollY"), before, "nothing was thrown");
        let seen = number(
            page,
            "const r = document.querySelector('.board').getBoundingClientRect();
             return Math.min(r.bottom, innerHeight) - Math.max(r.top, 0);",
        );
        assert!(seen > 250.0, "{seen} px of the drawing are in sight");
        let below = number(
            page,
            "return innerHeight - document.querySelector('.hand.thumb').getBoundingClientRect().bottom",
        );
        assert!(below >= -1.0, "the field is {below} px above the edge");
        let now: f64 = page.value("front face offset, mm").parse().expect("mm");
        page.press("button", "more");
        page.wait_for_value("front face offset, mm", &(now + 1.0).to_string());
        page.press("button", "done");
        page.wait("the field is gone", || !page.has("button", "done"));
        page.press("button", &format!("undo front face offset {}", now + 1.0));
        page.wait_for_value("front face offset, mm", &now.to_string());
    });
}

#[test]
fn figures_and_the_table_of_the_handle_fit_a_narrow_phone() {
    const OVER: &str = "return Math.max(...arguments[0].map((name) =>
        [...document.querySelectorAll('.sideways')].filter((e) => e.ariaLabel === name)
            .map((e) => e.scrollWidth - e.clientWidth)[0]))";
    browse("nothing is cut on a phone", View::phone(), |page| {
        for (screen, says, names) in [
            (
                "handle",
                "parts of the handle",
                json!([["the whole hammer, figure", "levels of the eye, table"]]),
            ),
            (
                "bar",
                "of steel.",
                json!([["billet, figure", "area needed, figure"]]),
            ),
        ] {
            page.press("button", screen);
            page.wait_for_text(says);
            page.rest(|| page.text());
            page.save_long_picture(&format!("narrow-{screen}"));
            let over = page.script(OVER, names);
            assert_eq!(over.as_f64(), Some(0.0), "{screen}: px cut off");
        }
    });
}

#[test]
fn what_was_seen_is_seen_again_when_the_phone_is_turned() {
    browse("a phone is turned", View::phone(), |page| {
        page.press("button", "heat");
        page.wait_for_text("the work, step by step");
        let seen = "const all = [...document.querySelectorAll('h2')];
            const at = all.find((e) => e.innerText.includes('the work, step by step'));
            return at.getBoundingClientRect().top;";
        page.script(
            "const all = [...document.querySelectorAll('h2')];
             const at = all.find((e) => e.innerText.includes('the work, step by step'));
             scrollBy(0, at.getBoundingClientRect().top - innerHeight / 3 + 10);",
            json!([]),
        );
        page.rest(|| number(page, seen));
        std::thread::sleep(std::time::Duration::from_millis(300));
        for (width, height) in [(780, 360), (360, 780)] {
            page.command(
                "Emulation.setDeviceMetricsOverride",
                json!({ "width": width, "height": height, "deviceScaleFactor": 2, "mobile": true }),
            );
            page.wait("it is in sight", || {
                (0.0..f64::from(height)).contains(&number(page, seen))
            });
            page.rest(|| number(page, seen));
            std::thread::sleep(std::time::Duration::from_millis(300));
            assert!((0.0..f64::from(height)).contains(&number(page, seen)));
        }
    });
}

#[test]
fn the_longest_name_is_read_whole_on_a_desk_and_on_a_phone() {
    const NAME: &str =
        "Rounding hammer with a long handle for the striker who works at the second anvil";
    const CUT: &str = "const field = document.querySelector('.title textarea');
        const title = document.querySelector('.title').getBoundingClientRect();
        const said = document.querySelector('.said-once').getBoundingClientRect();
        return Math.max(field.scrollHeight - field.clientHeight, field.scrollWidth - field.clientWidth,
            title.bottom - said.top);";
    for view in [View::desktop(), View::wide(), View::phone(), View::lying()] {
        browse("a long name", view, |page| {
            page.enter("name of the head", NAME);
            page.wait_for_value("name of the head", NAME);
            page.rest(|| number(page, CUT));
            page.save_picture(&format!("long-name-{}", view.width));
            assert!(number(page, CUT) <= 0.5, "{} px are cut", number(page, CUT));
        });
    }
}
