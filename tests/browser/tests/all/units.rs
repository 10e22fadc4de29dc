//! Units, notations and look.

use headwright_browser::{View, browse};

/// Types a size in every notation and checks how it stays written.
fn typed(view: View) {
    browse("notations stay as written", view, |page| {
        page.press("button", "in, lb");
        page.open_part("cheeks");
        for (written, shown) in [
            ("2 1/4", "2 1/4"),
            ("2-3/8\"", "2 3/8"),
            ("2.5 in", "2 1/2"),
        ] {
            page.enter("cheek width, in", written);
            page.wait_for_value("cheek width, in", shown);
        }
        page.enter("cheek width, in", "5.8 cm");
        page.press("button", "mm, kg");
        page.wait_for_value("cheek width, mm", "58");
        page.enter("cheek width, mm", "2-1/4\"");
        page.wait_for_value("cheek width, mm", "57.15");
        let file = page.saved_design();
        assert_eq!(file["design"]["cheeks"]["width"], "2 1/4 in");
        page.reload();
        page.open_part("cheeks");
        assert_eq!(page.value("cheek width, mm"), "57.15");
        page.press("button", "in, lb");
        assert_eq!(page.value("cheek width, in"), "2 1/4");
        assert_eq!(page.saved_design()["design"]["cheeks"]["width"], "2 1/4 in");
    });
}

#[test]
fn a_size_stays_as_it_was_written_after_a_reload() {
    typed(View::desktop());
}

#[test]
fn a_size_stays_as_it_was_written_on_a_phone() {
    typed(View::phone());
}

#[test]
fn units_and_look_are_remembered() {
    browse("units and look are remembered", View::desktop(), |page| {
        let ground = || page.picture().share_of_ground();
        assert!(ground() > 0.2, "most of the sheet is ground");
        let paper = page.picture();
        page.press("button", "in, lb");
        page.press("button", "slate");
        page.wait_for_text("all sizes in inches, cold");
        page.wait("the sheet is slate", || {
            page.picture().difference(&paper) > 0.5
        });
        page.reload();
        page.wait_for_text("all sizes in inches, cold");
        page.wait("the sheet is still slate", || {
            page.picture().difference(&paper) > 0.5
        });
        page.press("button", "mm, kg");
        page.press("button", "paper");
        page.reload();
        page.wait_for_text("all sizes in mm, cold");
        page.wait("the sheet is paper again", || {
            page.picture().difference(&paper) < 0.2
        });
    });
}

#[test]
fn the_sheet_follows_the_system_until_a_look_is_chosen() {
    let light = browse("a light system", View::desktop(), |page| page.picture());
    browse("a dark system", View::desktop().dark(), |page| {
        assert!(
            page.picture().difference(&light) > 0.5,
            "a dark system gets slate"
        );
        page.press("button", "paper");
        page.wait("paper was chosen", || {
            page.picture().difference(&light) < 0.2
        });
    });
}

#[test]
fn pounds_and_ounces_are_read_and_shown() {
    browse("pounds and ounces", View::desktop(), |page| {
        page.press("button", "in, lb");
        page.enter("hold weight at, lb", "2 lb 6 oz");
        page.wait_for_region("finished weight", "2 lb 6.0 oz");
        page.wait_for_text("held at 2 lb 6.0 oz");
        page.press("button", "mm, kg");
        page.wait_for_region("finished weight", "1.077 kg");
    });
}

#[test]
fn what_one_step_does_is_told_in_the_units_that_are_shown() {
    browse("what one step does", View::desktop(), |page| {
        page.begin_with("Rounding hammer");
        page.tab_to("button", "what one step does");
        page.keys(&[" "]);
        page.wait_for_region("results", "1 mm more of");
        page.wait_for_region("results", "cheek width");
        page.press("button", "in, lb");
        page.wait_for_region("results", "1/16 in more of");
    });
}
