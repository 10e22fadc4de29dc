//! From the head to the hand: short or long, the tool and its blow, the smith at the anvil, hammers side by side.

use headwright_browser::{Page, View, browse, key};

/// Opens the swing's sheet of a starter and waits until its sweep is worked out.
fn open(page: &Page, starter: &str) {
    page.begin_with(starter);
    page.press("button", "swing");
    worked_out(page);
}

/// Waits until both ends of the sweep are compared and no step is being worked out.
fn worked_out(page: &Page) {
    page.wait_for_region("what changes", "The short one");
    page.wait("no step is being worked out", || {
        !page.text().contains(" of 9")
    });
}

/// The alert or status that says `sentence`.
fn wait_for_refusal(page: &Page, sentence: &str) {
    page.wait(&format!("“{sentence}” is said"), || {
        page.text().contains(sentence)
    });
}

/// What the figure says of hand and elbow: "hand 845 mm", "elbow 136°".
fn hand_and_elbow(page: &Page) -> (String, String) {
    let images = page.all("image").into_iter().map(|found| found.name);
    let smith = images.into_iter().find(|name| name.starts_with("A smith"));
    let smith = smith.expect("the smith is drawn");
    let part = |word: &str| {
        let mut parts = smith.split([':', ',']).map(str::trim);
        parts
            .find(|part| part.starts_with(word))
            .unwrap_or_default()
            .to_owned()
    };
    (part("hand"), part("elbow"))
}

#[test]
fn a_long_face_is_compared_with_a_short_one_taken_and_undone() {
    browse("short or long", View::desktop(), |page| {
        open(page, "Rounding hammer");
        let said = page.region("what changes");
        assert!(said.contains("heads of the same weight"), "{said}");
        assert!(said.contains("inertia about the handle"), "{said}");
        assert!(said.contains("Estimates: "), "{said}");
        let plots = page.all("image").into_iter().map(|found| found.name);
        let plots: Vec<String> = plots.filter(|name| name.contains(" against ")).collect();
        assert_eq!(plots.len(), 2, "{plots:?}");
        assert!(plots[0].starts_with("twist by a blow"), "{plots:?}");
        page.save_long_picture("swing-desk");
        let range = || [page.value("sweep from, mm"), page.value("sweep to, mm")];
        let before = range();
        page.press("button", "make it the long one…");
        page.wait_for("button", "undo front…");
        worked_out(page);
        // The range stays, so that the short one can still be taken.
        assert_eq!(range(), before);
        page.press("button", "undo front…");
        page.wait_for("button", "redo front…");
        worked_out(page);
    });
}

#[test]
fn a_range_out_of_bounds_is_refused_and_another_number_is_plotted() {
    browse("range of a sweep", View::desktop(), |page| {
        open(page, "Rounding hammer");
        page.write("sweep to, mm", "5000");
        wait_for_refusal(page, "it must be between");
        page.keys(&[key::ESCAPE]);
        worked_out(page);
        page.tab_to("combobox", "first plotted");
        page.keys(&["h"]);
        page.wait("the hand is plotted", || {
            page.all("image")
                .iter()
                .any(|found| found.name.starts_with("hand over the anvil"))
        });
    });
}

#[test]
fn a_taller_smith_stands_otherwise_and_one_of_no_height_is_refused() {
    browse("stature", View::desktop(), |page| {
        open(page, "Rounding hammer");
        let before = hand_and_elbow(page);
        page.enter("smith’s stature, mm", "1900");
        page.wait("hand and elbow change", || hand_and_elbow(page) != before);
        let tall = page.rest(|| hand_and_elbow(page));
        page.write("smith’s stature, mm", "0");
        wait_for_refusal(page, "The stature is 0 mm. It must be at least 1000 mm");
        assert_eq!(hand_and_elbow(page), tall);
        page.keys(&[key::ESCAPE]);
        page.wait_for_value("smith’s stature, mm", "1900");
        // It is there at the next visit.
        page.reload();
        page.press("button", "swing");
        page.wait_for_value("smith’s stature, mm", "1900");
        // What is laid eye on eye comes later and makes room for itself.
        page.rest(|| page.text());
        page.enter("smith’s anvil height, mm", "700");
        page.wait_for_region("at the anvil", "700 mm");
    });
}

#[test]
fn a_swing_is_driven_by_its_energy_and_lands_beside_the_middle() {
    browse("drive", View::desktop(), |page| {
        open(page, "Cross pein hammer");
        let said = || page.region("the tool and its blow");
        assert!(said().contains("centre of percussion"), "{}", said());
        page.tab_to("combobox", "blow known of the swing");
        page.keys(&["e"]);
        page.enter("blow energy of the swing, J", "50");
        page.wait_for_region("the tool and its blow", "50.0 J");
        page.write("blow energy of the swing, J", "lots");
        wait_for_refusal(page, "“lots” is not a number");
        page.keys(&[key::ESCAPE]);
        page.enter("blow off the middle, across, mm", "3");
        page.wait_for_region("the tool and its blow", "3 mm across the middle");
        page.write("blow off the middle, across, mm", "300");
        wait_for_refusal(page, "300 mm");
        page.keys(&[key::ESCAPE]);
        page.tab_to("combobox", "blow struck with");
        page.keys(&["t", "h", "e", " ", "b"]);
        page.wait_for_region("the tool and its blow", "The pein strikes.");
    });
}

#[test]
fn two_hammers_are_put_aside_and_compared_and_are_there_at_the_next_visit() {
    browse("side by side", View::desktop(), |page| {
        open(page, "Rounding hammer");
        let put = "put this hammer aside to compare";
        page.press("button", put);
        page.wait_for_region("side by side", "Put another one aside");
        open(page, "Cross pein hammer");
        page.press("button", put);
        page.wait_for_region("side by side", "Cross pein hammer against Rounding hammer");
        page.save_long_picture("swing-aside");
        page.press("button", put);
        page.press("button", put);
        page.wait("four are aside", || {
            page.has("button", "take Cross pein hammer 3 away")
        });
        page.press("button", put);
        wait_for_refusal(page, "4 hammers stand here already. Take one away first.");
        page.press("button", "take Cross pein hammer 3 away");
        page.press("button", "put Cross pein hammer 3 back");
        page.wait_for("button", "take Cross pein hammer 3 away");
        page.reload();
        page.press("button", "swing");
        page.wait_for_region("side by side", "Cross pein hammer against Rounding hammer");
    });
}

#[test]
fn everything_is_said_in_the_units_that_are_shown() {
    browse("swing in inches", View::desktop(), |page| {
        open(page, "Rounding hammer");
        page.press("button", "in, lb");
        page.wait_for_region("the tool and its blow", "ft/s");
        page.wait_for_region("what changes", "lb·in²");
        assert!(
            page.value("smith’s stature, in").starts_with("68"),
            "{}",
            page.value("smith’s stature, in")
        );
    });
}

#[test]
fn a_handle_that_cannot_be_made_says_why_and_the_rest_stays() {
    browse("no handle", View::desktop(), |page| {
        page.begin_with("Rounding hammer");
        page.press("button", "handle");
        page.wait_for("textbox", "handle length over all, mm");
        page.enter("handle length over all, mm", "140");
        page.press("button", "swing");
        page.wait_for_region(
            "the tool and its blow",
            "The length of the handle is 140 mm",
        );
        page.wait_for_region("at the anvil", "The length of the handle is 140 mm");
        page.wait_for("textbox", "smith’s stature, mm");
        page.press("button", "put this hammer aside to compare");
        page.wait_for_region("side by side", "The length of the handle is 140 mm");
    });
}

#[test]
fn the_swing_screen_fits_a_phone() {
    browse("swing on a phone", View::phone(), |page| {
        open(page, "Straight pein hammer");
        let wider = page.script(
            "return document.documentElement.scrollWidth - document.documentElement.clientWidth",
            serde_json::json!([]),
        );
        assert_eq!(wider.as_f64(), Some(0.0));
        page.save_long_picture("swing-phone");
    });
}
