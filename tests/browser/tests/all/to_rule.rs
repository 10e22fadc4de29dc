//! Putting the free sizes on the rule: what it leaves over is said first, and is true.

use headwright_browser::{Page, View, browse, key};

const REGION: &str = "to the rule";

/// Holds a weight that no division meets, and waits until the page says what rounding leaves.
fn hold(page: &Page, weight: &str) -> String {
    page.begin_with("Rounding hammer");
    assert!(!page.has("region", REGION), "nothing is held yet");
    page.enter("hold weight at, kg", weight);
    said_first(page)
}

/// What rounding would leave over: "is 1.2 g too heavy and balances as held".
fn said_first(page: &Page) -> String {
    page.wait_for_region(REGION, ": the best there is.");
    between(&page.region(REGION), "Then the head ", ": the best")
}

/// What the rounded head leaves over.
fn said_after(page: &Page) -> String {
    page.wait_for_region(REGION, "The free sizes are on the rule of ");
    between(&page.region(REGION), ": the head ", ". Put")
}

fn between(text: &str, before: &str, after: &str) -> String {
    let rest = text.split_once(before).map(|(_, rest)| rest);
    let said = rest.and_then(|rest| rest.split_once(after));
    said.unwrap_or_else(|| panic!("“{before}…{after}” in “{text}”"))
        .0
        .to_owned()
}

#[test]
fn what_is_left_over_is_what_was_said_and_undo_brings_the_fit_back() {
    for view in [View::desktop(), View::phone()] {
        browse("to the rule", view, |page| {
            let said = hold(page, "1.0873 kg");
            assert!(said.contains(" g too "), "{said}");
            let fitted = page.saved_design();
            page.press("button", "Put the free sizes on the rule of 1 mm");
            assert_eq!(said_after(page), said);
            let off = between(&said, "is ", " too");
            page.wait_for_text(&format!("held at 1.087 kg, out by {off}"));
            page.wait_for("region", "On the rule, not fitted");
            let rounded = page.saved_design();
            let sizes = rounded["design"]["free"].as_object().map_or(0, |f| f.len());
            assert_eq!(sizes, 4, "what was free is free");
            let width = rounded["design"]["cheeks"]["width"].as_str();
            assert!(
                width.is_some_and(|w| w.ends_with(" mm") && !w.contains('.')),
                "{width:?}"
            );
            page.press("button", "undo sizes on the rule of 1 mm");
            assert_eq!(said_first(page), said);
            assert_eq!(page.saved_design(), fitted);
            page.press("button", "redo sizes on the rule of 1 mm");
            assert_eq!(said_after(page), said);
            // Once more changes nothing, and neither does the next visit.
            page.press("button", "Put the free sizes on the rule of 1 mm");
            page.reload();
            assert_eq!(said_after(page), said);
            assert_eq!(page.saved_design(), rounded);
            page.press("button", "Fit it");
            page.wait("the weight is met", || !page.text().contains("out by"));
            page.press("button", "undo the fit");
            assert_eq!(said_after(page), said);
        });
    }
}

#[test]
fn the_rule_is_chosen_and_the_sizes_put_on_it_by_keys() {
    browse("to the rule by keys", View::desktop(), |page| {
        hold(page, "1.0873 kg");
        page.press("button", "in, lb");
        let fitted = page.sizes();
        page.tab_to("button", "1/8 in");
        page.keys(&[key::SPACE]);
        page.wait_for("button", "undo rule 1/8 in");
        let said = said_first(page);
        let button = "Put the free sizes on the rule of 1/8 in";
        page.tab_to("button", button);
        page.keys(&[key::ENTER]);
        assert_eq!(said_after(page), said);
        let on_it = ("button".to_owned(), button.to_owned());
        assert_eq!(page.focused(), on_it, "the focus stays");
        let width = page.value("cheek width, in");
        let whole = !width.contains('.') && !width.contains("/16");
        assert!(whole, "{width} is on the rule");
        page.tab_back_to("button", "undo sizes on the rule of 1/8 in");
        page.keys(&[key::ENTER]);
        page.wait("the fit is back", || page.sizes() == fitted);
        assert_eq!(said_first(page), said);
    });
}

#[test]
fn there_is_one_rule_for_sizes_and_bar() {
    browse("one rule", View::desktop(), |page| {
        hold(page, "1.0873 kg");
        page.press("button", "2 mm");
        page.wait_for("button", "Put the free sizes on the rule of 2 mm");
        page.press("button", "bar");
        let field = "rule, the smallest division, mm";
        page.wait_for_value(field, "2");
        page.enter(field, "0.25");
        page.press("button", "head");
        page.wait_for("button", "Put the free sizes on the rule of 0.25 mm");
    });
}

#[test]
fn limits_between_two_divisions_are_named() {
    browse("no division", View::desktop(), |page| {
        hold(page, "1.0873 kg");
        page.press("button", "bar");
        page.enter("rule, the smallest division, mm", "90");
        page.press("button", "head");
        page.wait_for_region(REGION, "No division of 90 mm lies between the limits of");
        let before = page.sizes();
        page.press("button", "Put the free sizes on the rule of 90 mm");
        page.wait_for_region(REGION, "Widen them or lock it.");
        assert_eq!(page.sizes(), before);
    });
}

#[test]
fn no_rule_of_accessibility_is_broken_before_or_after() {
    for view in [View::desktop(), View::phone()] {
        for view in [view, view.dark()] {
            browse("rules with the rule", view, |page| {
                hold(page, "1.0873 kg");
                let mut broken = page.broken_rules();
                page.press("button", "Put the free sizes on the rule of 1 mm");
                said_after(page);
                page.press("button", "what one step does");
                page.wait_for_region("results", "forged within");
                broken.extend(page.broken_rules());
                assert!(broken.is_empty(), "{}", broken.join("\n"));
                for (role, name) in [
                    ("button", "0.5 mm"),
                    ("button", "Put the free sizes…"),
                    ("textbox", "forged within…"),
                ] {
                    let [width, height] = page.press_area(&page.wait_for(role, name));
                    assert!(
                        width >= 44.0 && height >= 44.0,
                        "{name}: {width} × {height}"
                    );
                }
                let over = page.script(
                    "return document.documentElement.scrollWidth - innerWidth",
                    serde_json::json!([]),
                );
                assert!(over.as_f64() <= Some(0.0), "{over} px too wide");
            });
        }
    }
}
