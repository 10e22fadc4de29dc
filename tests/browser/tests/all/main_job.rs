//! The main job: shape a head, hold its weight and balance, read the bar, send the link.

use headwright_browser::{Page, View, browse, browse_from_nothing, differences, key};

/// Holds 1.2 kg by what `hold` does and checks what the sheet then says.
fn hold(page: &Page, hold: impl FnOnce()) {
    hold();
    page.wait_for_text("held at 1.200 kg");
    let text = page.text();
    assert!(text.contains("held at 0"), "the balance is held: {text}");
    assert!(!text.contains("out by"), "every hold is met: {text}");
}

/// What the bar's sheet says the cut length is: "cut from 38 mm square 88 mm 1.399 kg of steel."
fn cut_length(page: &Page) -> String {
    page.wait_for_text(" of steel.");
    let text = page.text();
    let (before, _) = text.split_once(" of steel.").expect("it was waited for");
    let length = before.rsplit(' ').nth(2).unwrap_or_default();
    let length = match length {
        "mm" => before.rsplit(' ').nth(3).unwrap_or_default(),
        length => length.trim_end_matches("mm"),
    };
    let mm: f64 = length
        .parse()
        .unwrap_or_else(|_| panic!("a length and a mass before “of steel” in: {before}"));
    assert!(mm > 20.0, "{mm} mm makes no head");
    length.to_owned()
}

/// Opens `url` in another browser and checks that everything is the same there.
fn opens_the_same(sender: &Page, view: View) {
    let (url, file, cut) = {
        sender.press("button", "copy link");
        sender.wait("the link stands in the address", || {
            sender.url().contains('#')
        });
        let url = sender.url();
        sender.press("button", "bar");
        let cut = cut_length(sender);
        sender.press("button", "head");
        (url, sender.saved_design(), cut)
    };
    let fragment = url.split('#').nth(1).unwrap_or_default();
    let text = fragment.split('.').next().unwrap_or_default();
    assert!(
        text.chars().count() <= 400,
        "the link has {} characters",
        text.chars().count()
    );
    let sizes = sender.sizes();
    browse_from_nothing("the customer's browser", view, |other| {
        other.go(&url);
        assert_eq!(other.value("name of the head"), "Square-faced hammer");
        hold(other, || {});
        assert_eq!(other.sizes(), sizes);
        let there = differences(&file, &other.saved_design());
        assert!(
            there.is_empty(),
            "the head that came is another:\n{}",
            there.join("\n")
        );
        other.press("button", "bar");
        assert_eq!(cut_length(other), cut);
    });
}

#[test]
fn a_smith_holds_a_weight_reads_the_cut_and_sends_the_head_to_another_browser() {
    browse("the main job", View::desktop(), |page| {
        page.begin_with("Square-faced hammer");
        hold(page, || page.enter("hold weight at, kg", "1.2 kg"));
        let weight = page.region("finished weight");
        assert!(weight.contains("1.200 kg"), "{weight}");
        let balance = page.region("balance");
        assert!(balance.contains(" 0 mm"), "{balance}");
        assert!(balance.contains("hangs level"), "{balance}");
        page.save_picture("main-job-held");
        opens_the_same(page, View::desktop());
    });
}

#[test]
fn the_main_job_is_done_by_keys_alone() {
    browse("the main job by keys", View::desktop(), |page| {
        page.tab_to("button", "starters");
        page.keys(&[key::ENTER]);
        page.tab_to("button", "Square-faced hammer…");
        page.keys(&[key::ENTER]);
        page.wait_for_value("name of the head", "Square-faced hammer");
        hold(page, || {
            page.tab_to("textbox", "hold weight at, kg");
            page.overwrite("1.2 kg");
            page.keys(&[key::ENTER]);
        });
        // Arrows step a size by the rule; what is held stays.
        page.tab_back_to("textbox", "cheek width, mm");
        let before: f64 = page.value("cheek width, mm").parse().expect("a number");
        page.keys(&[key::UP]);
        let stepped = before.floor() + 1.0;
        page.wait_for_value("cheek width, mm", &stepped.to_string());
        hold(page, || {});
        page.keys(&[key::ESCAPE]);
        page.wait("Esc puts the size back", || {
            page.value("cheek width, mm").parse() == Ok(before)
        });
        page.tab_to("button", "copy link");
        page.keys(&[key::ENTER]);
        page.wait("the link stands in the address", || {
            page.url().contains('#')
        });
        page.tab_to("button", "bar");
        page.keys(&[key::ENTER]);
        cut_length(page);
    });
}

#[test]
fn the_main_job_is_done_by_a_thumb_on_a_phone() {
    browse("the main job on a phone", View::phone(), |page| {
        page.begin_with("Square-faced hammer");
        hold(page, || page.enter("hold weight at, kg", "1.2 kg"));
        page.save_picture("main-job-phone-held");
        let text = page.text();
        assert!(text.contains("1.200 kg"), "{text}");
        opens_the_same(page, View::phone());
    });
}
