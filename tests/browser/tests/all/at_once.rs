//! What can be had at once of two things: the curve, its points, the heads on it.

use headwright_browser::{Page, View, browse, key};

const OPEN: &str = "what can be had at once";
const ALONG: &str = "weight, along the curve";

/// Opens the curve and waits until all of it is there.
fn open(page: &Page) {
    page.begin_with("Rounding hammer");
    page.press("button", OPEN);
    whole(page);
}

/// Waits until no point is being worked out.
fn whole(page: &Page) {
    let end = std::time::Instant::now() + std::time::Duration::from_secs(60);
    let working = || page.text().contains(" of 17");
    while !page.has("slider", ALONG) || working() {
        assert!(
            std::time::Instant::now() < end,
            "{}",
            page.region("results")
        );
        std::thread::sleep(std::time::Duration::from_millis(100));
    }
}

/// The point that is looked at: weight and reach, kg and mm.
fn point(page: &Page) -> (f64, f64) {
    let said = page.region("results");
    let (before, after) = said
        .split_once(": front face offset at most ")
        .unwrap_or_else(|| panic!("no point in {said}"));
    let mut words = before.rsplit(' ');
    let unit = words.next();
    let weight: f64 = words.next().and_then(|w| w.parse().ok()).expect("a weight");
    let kg = if unit == Some("g") {
        weight / 1000.0
    } else {
        weight
    };
    let reach = after.split(' ').next().and_then(|mm| mm.parse().ok());
    (kg, reach.expect("a reach"))
}

#[test]
fn the_curve_is_walked_by_keys_and_a_head_on_it_is_made_and_undone() {
    browse("what can be had", View::desktop(), |page| {
        open(page);
        page.save_picture("at-once");
        let before = page.saved_design();
        page.tab_to("slider", ALONG);
        let (first, _) = point(page);
        page.keys(&[key::RIGHT, key::RIGHT]);
        page.wait("the point is heavier", || point(page).0 > first);
        page.keys(&[key::LEFT]);
        let (kg, reach) = page.rest(|| point(page));
        page.press("button", "make this head…");
        page.wait("the head is made", || {
            let front = page.value("front face offset, mm");
            front
                .parse::<f64>()
                .is_ok_and(|mm| (mm - reach).abs() < 0.06)
        });
        let weight = page.region("finished weight");
        let shown = if kg < 1.0 {
            format!("{:.0} g", kg * 1000.0)
        } else {
            format!("{kg:.3} kg")
        };
        assert!(weight.contains(&shown), "{shown}: {weight}");
        page.press("button", "undo front face offset …");
        page.wait("it is undone", || page.saved_design() == before);
    });
}

#[test]
fn what_is_held_is_shown_and_the_other_holds_are_kept() {
    browse("what can be had with holds", View::desktop(), |page| {
        page.begin_with("Rounding hammer");
        page.enter("hold weight at, kg", "1.0 to 1.2 kg");
        page.enter("hold balance at, mm", "0");
        page.press("button", OPEN);
        whole(page);
        page.tab_to("slider", ALONG);
        for _ in 0..20 {
            page.keys(&[key::RIGHT]);
        }
        page.press("button", "make this head…");
        // The weight is held no longer, and says so; the balance is.
        page.wait_for_text("held from 1.000 kg to 1.200 kg, out by");
        page.wait_for_region("balance", "held at 0");
        assert!(!page.region("balance").contains("out by"));
    });
}

#[test]
fn the_work_is_stopped_and_gone_on_with_and_follows_the_head() {
    // Slow enough to be stopped.
    let slow = "const soon = window.setTimeout;
        window.setTimeout = (what, rest, ...more) => soon(what, rest || 250, ...more);";
    browse("stop and go on", View::desktop().with(slow), |page| {
        page.begin_with("Rounding hammer");
        page.press("button", OPEN);
        page.press("button", "stop");
        page.wait_for_region("results", "stopped at ");
        let still = page.rest(|| page.region("results"));
        assert!(still.contains(" of 17"), "{still}");
        page.press("button", "go on");
        whole(page);
        page.enter("cheek length, mm", "46");
        page.wait_for_region("results", " of 17");
        whole(page);
        page.write("cheek length, mm", "7");
        page.wait_for_region("results", "The cheek length is 7 mm; it must be");
        page.overwrite("45");
        whole(page);
    });
}

#[test]
fn a_thumb_finds_a_point_on_a_phone() {
    for view in [View::phone(), View::phone().dark()] {
        browse("what can be had on a phone", view, |page| {
            open(page);
            let before = point(page);
            let bounds = page.show(&page.wait_for("slider", ALONG)).bounds;
            let y = bounds[1] + bounds[3] / 2.0;
            page.press_at((bounds[0] + 0.9 * bounds[2], y));
            page.wait("the point is heavier", || point(page).0 > before.0);
            page.save_picture(if view.dark {
                "at-once-phone-dark"
            } else {
                "at-once-phone"
            });
            let [width, height] = page.press_area(&page.wait_for("slider", ALONG));
            assert!(width >= 44.0 && height >= 44.0, "{width} × {height}");
            let over = page.script(
                "return document.documentElement.scrollWidth - innerWidth",
                serde_json::json!([]),
            );
            assert!(over.as_f64() <= Some(0.0), "{over} px too wide");
            let broken = page.broken_rules();
            assert!(broken.is_empty(), "{}", broken.join("\n"));
        });
    }
}
