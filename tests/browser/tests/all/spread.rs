//! How far the weight spreads when sizes are forged to an accuracy.

use headwright_browser::{Page, View, browse};

const FIELD: &str = "forged within ±, mm";

fn open(page: &Page) {
    page.begin_with("Rounding hammer");
    page.press("button", "what one step does");
    page.wait_for_region("results", "nineteen times in twenty (estimate)");
}

/// The spread as it is said, with its unit: (20.2, "g").
fn spread(page: &Page) -> (f64, String) {
    let said = page.region("results");
    let (_, rest) = said.split_once("comes out within ±").expect("it is said");
    let (off, _) = rest.split_once(',').expect("the sentence goes on");
    let (number, unit) = off.rsplit_once(' ').expect("a number and a unit");
    (number.parse().expect("a number"), unit.to_owned())
}

#[test]
fn the_spread_follows_the_accuracy_in_any_notation() {
    browse("the spread", View::desktop(), |page| {
        open(page);
        assert_eq!(page.value(FIELD), "0.5");
        let (usual, unit) = spread(page);
        assert_eq!(unit, "g");
        page.enter(FIELD, "1");
        page.wait("twice as far", || {
            (spread(page).0 - 2.0 * usual).abs() < 0.2
        });
        page.enter(FIELD, "0.02 in");
        page.wait_for_value(FIELD, "0.51");
        page.enter(FIELD, "1/32 in");
        page.wait_for_value(FIELD, "0.79");
        let off = 0.79375 / 0.5 * usual;
        page.wait("the 32nd", || (spread(page).0 - off).abs() < 0.2);
        // It is the smith's, and stays: on another sheet, at the next visit.
        page.press("button", "bar");
        page.press("button", "head");
        page.press("button", "in, lb");
        page.reload();
        page.press("button", "what one step does");
        assert_eq!(page.value("forged within ±, in"), "1/32");
        assert_eq!(spread(page).1, "oz");
    });
}

#[test]
fn nonsense_keeps_the_last_accuracy_and_says_why() {
    browse("no accuracy", View::desktop(), |page| {
        open(page);
        page.enter(FIELD, "1");
        let before = page.rest(|| spread(page));
        for (typed, sentence) in [
            ("near", "“near” is not a number with a unit"),
            ("", "Nothing is written here"),
            ("0", "The accuracy is 0 mm. Make it more than 0"),
            ("-0.5", "Make it more than 0 and at most 5 mm."),
            ("8", "The accuracy is 8 mm."),
            ("2 kg", "is a mass, but a length is needed here"),
        ] {
            page.write(FIELD, typed);
            page.wait(&format!("“{typed}” is refused"), || {
                let alerts = page.all("alert");
                alerts
                    .iter()
                    .any(|alert| page.text_of(alert).contains(sentence))
            });
            assert_eq!(spread(page), before, "after “{typed}”");
            page.press("textbox", "name of the head");
            page.wait_for_value(FIELD, "1");
        }
    });
}

#[test]
fn a_head_that_cannot_be_made_has_no_table_and_the_page_says_why() {
    browse("no steps", View::desktop(), |page| {
        open(page);
        page.write("cheek length, mm", "7");
        page.wait_for_region("results", "The head cannot be made as it stands;");
        let said = page.region("results");
        assert!(
            said.contains("The cheek length is 7 mm; it must be"),
            "{said}"
        );
        assert!(!said.contains("1 mm more of"), "{said}");
        page.overwrite("45");
        page.wait_for_region("results", "1 mm more of");
    });
}
