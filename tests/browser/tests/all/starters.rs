//! From the first page to a head at a wanted weight: a picture by what the hammer is for, and one number.

use std::cell::Cell;

use headwright_browser::{Page, View, browse, key};

const WANTED: &str = "weight you want…";
/// Most presses that it may take, besides one number.
const MOST: u32 = 4;

/// Works the page and counts.
struct Hand<'a> {
    page: &'a Page,
    presses: Cell<u32>,
}

impl<'a> Hand<'a> {
    fn of(page: &'a Page) -> Self {
        let presses = Cell::new(0);
        Self { page, presses }
    }

    fn press(&self, role: &str, name: &str) {
        self.page.press(role, name);
        self.presses.set(self.presses.get() + 1);
    }

    /// Goes there by Tab and strikes Enter, which is the press.
    fn strike(&self, name: &str) {
        self.page.tab_to("button", name);
        self.page.keys(&[key::ENTER]);
        self.presses.set(self.presses.get() + 1);
    }
}

/// The weight that stands before “held at”, in kg.
fn shown(page: &Page) -> f64 {
    let text = page.text();
    let (before, _) = text.split_once(" kg held at").expect("a weight is shown");
    let number = before.split_whitespace().last().unwrap_or_default();
    number
        .parse()
        .unwrap_or_else(|_| panic!("no number before kg in {before}"))
}

/// The head `name` is in front, weighs `kg` and hangs level, both held.
fn is_there(page: &Page, name: &str, kg: f64) {
    page.wait_for_value("name of the head", name);
    page.wait_for_text(&format!("held at {kg:.3} kg"));
    let text = page.text();
    assert!(text.contains("held at 0"), "{text}");
    assert!(!text.contains("out by"), "{text}");
    assert!((shown(page) - kg).abs() <= 5e-4, "{} kg", shown(page));
    assert!(text.contains("The balance is held with it, at 0"), "{text}");
}

#[test]
fn a_head_at_a_wanted_weight_takes_one_number_and_at_most_four_presses_by_mouse_and_by_touch() {
    for view in [View::desktop(), View::phone()] {
        browse("a starter at a weight", view, |page| {
            let hand = Hand::of(page);
            let before = page.value("name of the head");
            hand.press("button", "starters");
            hand.press("textbox", WANTED);
            page.type_text("1.2 kg");
            page.wait_for_text("of 13 heads come to 1.200 kg");
            page.save_long_picture(if view.phone {
                "starters-at-phone"
            } else {
                "starters-at"
            });
            hand.press("button", "Cross pein hammer…");
            is_there(page, "Cross pein hammer", 1.2);
            assert!(hand.presses.get() <= MOST, "{} presses", hand.presses.get());
            // One step brings back what was there.
            page.press("button", "undo Cross pein hammer at 1.200 kg");
            page.wait_for_value("name of the head", &before);
            page.wait("nothing is held", || !page.text().contains("held at"));
        });
    }
}

#[test]
fn a_head_at_a_wanted_weight_is_chosen_by_keys_alone() {
    browse("a starter at a weight by keys", View::desktop(), |page| {
        let hand = Hand::of(page);
        hand.strike("starters");
        page.tab_to("textbox", WANTED);
        page.type_text("2 lb 6 oz");
        // Nobody has to wait until the pictures have come to it.
        hand.strike("Rounding hammer…");
        is_there(page, "Rounding hammer", 1.077);
        assert!(hand.presses.get() <= MOST, "{} presses", hand.presses.get());
    });
}

#[test]
fn the_balance_that_is_held_with_a_first_weight_is_said_and_let_go_on_the_spot() {
    for view in [View::desktop(), View::phone()] {
        browse("the balance comes along", view, |page| {
            page.begin_with("Cross pein hammer");
            page.enter("hold weight at, kg", "1.3 kg");
            is_there(page, "Cross pein hammer", 1.3);
            page.press("button", "let the balance go");
            page.wait("it is let go", || !page.text().contains("held at 0"));
            page.wait_for_text("held at 1.300 kg");
            assert!(!page.text().contains("The balance is held with it"));
        });
    }
}

#[test]
fn what_is_no_weight_is_refused_under_the_field_and_nothing_is_lost() {
    browse("no weight for a starter", View::desktop(), |page| {
        let before = page.sizes();
        page.press("button", "starters");
        page.enter(WANTED, "1.2 kg");
        page.wait_for_text("of 13 heads come to 1.200 kg");
        for (typed, sentence) in [
            ("heavy", "“heavy” is not a number with a unit"),
            ("30 mm", "“30 mm” is a length, but a mass is needed here"),
            ("-2 kg", "The held weight must be more than nothing"),
            ("0", "The held weight must be more than nothing"),
        ] {
            page.write(WANTED, typed);
            page.wait(
                &format!("“{typed}” is refused with “{sentence}”"),
                || {
                    let alerts = page.all("alert");
                    alerts
                        .iter()
                        .any(|alert| page.text_of(alert).contains(sentence))
                },
            );
            page.keys(&[key::TAB]);
            page.wait_for_value(WANTED, "1.200 kg");
        }
        page.press("button", "head");
        page.wait_for("textbox", "name of the head");
        assert_eq!(page.sizes(), before);
        // It still stands there, and goes when its field is emptied.
        page.press("button", "starters");
        page.wait_for_value(WANTED, "1.200 kg");
        page.enter(WANTED, "");
        page.press("button", "Ball hammer…");
        page.wait_for_value("name of the head", "Ball hammer");
        assert!(!page.text().contains("held at"), "nothing is held");
    });
}

#[test]
fn a_weight_out_of_reach_is_said_at_the_picture_and_on_the_head() {
    browse("a starter out of reach", View::desktop(), |page| {
        page.press("button", "starters");
        page.enter(WANTED, "2.9 kg");
        page.wait_for_text("show the nearest that they come to");
        let light = page.wait_for("button", "Light bench hammer…");
        let said = page.text_of(&light);
        assert!(
            said.contains("can’t come to 2.900 kg within its limits"),
            "{said}"
        );
        page.press("button", "Light bench hammer…");
        page.wait_for_value("name of the head", "Light bench hammer");
        page.wait_for_text("out by");
        page.wait_for_text("The weight comes no nearer than");
        page.press("button", "undo Light bench hammer at 2.900 kg");
        page.wait_for_value("name of the head", "Rounding hammer");
    });
}

#[test]
fn starters_stand_under_what_they_are_for() {
    browse("starters by purpose", View::desktop(), |page| {
        page.press("button", "starters");
        for (purpose, starter) in [
            ("general forging", "Shop hammer in inches"),
            ("drawing out and spreading", "Diagonal pein hammer"),
            ("shoulders, corners and scrolls", "Square-faced hammer"),
            ("planishing, sheet and rivets", "Ball hammer"),
            ("striking with two hands", "Striker’s sledge"),
        ] {
            page.wait_for_region(purpose, starter);
        }
    });
}

#[test]
fn no_rule_of_accessibility_is_broken_where_heads_come_to_a_weight() {
    for view in [View::desktop(), View::desktop().dark(), View::phone()] {
        browse("rules at the starters", view, |page| {
            page.press("button", "starters");
            page.enter(WANTED, "1.9 kg");
            page.wait_for_text("show the nearest that they come to");
            let mut broken = page.broken_rules();
            page.write(WANTED, "heavy");
            page.wait_for_text("is not a number with a unit");
            broken.extend(page.broken_rules());
            assert!(broken.is_empty(), "{}", broken.join("\n"));
        });
    }
}
