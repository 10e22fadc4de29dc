//! What cannot be read or made is refused in a plain sentence, and nothing is lost.

use headwright_browser::{Page, View, browse, browse_from_nothing};

const LENGTH: &str = "cheek length, mm";
const WIDTH: &str = "cheek width, mm";

/// Types each text into a field: a sentence must come, and weight and design must stay.
#[track_caller]
fn refuses(page: &Page, field: &str, cases: &[(&str, &str)]) {
    let before = page.value(field);
    let weight = page.rest(|| page.region("finished weight"));
    for (typed, sentence) in cases {
        page.write(field, typed);
        page.wait(
            &format!("“{typed}” in “{field}” is refused with “{sentence}”"),
            || {
                page.all("alert")
                    .iter()
                    .any(|alert| page.text_of(alert).contains(sentence))
            },
        );
        assert_eq!(page.region("finished weight"), weight, "after “{typed}”");
        // Leaving the field brings the value back.
        page.press("textbox", "name of the head");
        page.wait_for_value(field, &before);
        page.wait("the sentence goes", || page.all("alert").is_empty());
    }
}

#[test]
fn a_text_that_is_no_length_is_refused_and_the_head_stays() {
    browse("no length", View::desktop(), |page| {
        refuses(
            page,
            LENGTH,
            &[
                ("long", "“long” is not a number with a unit"),
                ("", "Nothing is written here"),
                ("   ", "Nothing is written here"),
                ("NaN", "“NaN” is not a number with a unit"),
                ("inf", "“inf” is not a number with a unit"),
                ("1/0", "divides by zero"),
                ("58 kg", "“58 kg” is a mass, but a length is needed here"),
                ("58 ells", "is not a known unit of length"),
                ("1e999", "too large to be a length"),
            ],
        );
    });
}

#[test]
fn a_text_that_is_no_mass_is_refused() {
    browse("no mass", View::desktop(), |page| {
        refuses(
            page,
            "hold weight at, kg",
            &[
                ("heavy", "“heavy” is not a number with a unit"),
                ("30 mm", "“30 mm” is a length, but a mass is needed here"),
            ],
        );
    });
}

/// Types sizes that can be read but not made: a sentence must name the trouble, the numbers of
/// the last sound head must stay, and going back must restore everything.
#[track_caller]
fn cannot_be_made(page: &Page, field: &str, cases: &[(&str, &str)]) {
    let before = page.value(field);
    let weight = page.rest(|| page.region("finished weight"));
    let name = page.value("name of the head");
    for (typed, sentence) in cases {
        page.write(field, typed);
        page.wait_for_region("This head can’t be made", sentence);
        assert_eq!(page.region("finished weight"), weight, "after “{typed}”");
        assert_eq!(page.value("name of the head"), name);
        page.overwrite(&before);
        page.wait(&format!("{before} can be made again"), || {
            !page.has("region", "This head can’t be made")
        });
        assert_eq!(
            page.region("finished weight"),
            weight,
            "after going back from “{typed}”"
        );
    }
}

#[test]
fn a_head_that_cannot_be_made_is_refused_in_a_sentence_and_the_last_one_stays() {
    browse("cannot be made", View::desktop(), |page| {
        cannot_be_made(
            page,
            LENGTH,
            &[
                ("-5", "The cheek length is −5 mm; it must be between"),
                ("−5", "The cheek length is −5 mm; it must be between"),
                (
                    "0.0001",
                    "The cheek length is 0.0001 mm; it must be between",
                ),
                ("0", "The cheek length is 0 mm; it must be between"),
                ("100000 mm", "it must be between"),
                ("9e300", "it must be between"),
                ("31", "Lengthen the cheeks to at least"),
            ],
        );
        // An eye wider than the cheeks.
        cannot_be_made(page, WIDTH, &[("18 mm", "cheek")]);
    });
}

#[test]
fn stations_out_of_order_are_named() {
    browse("out of order", View::desktop(), |page| {
        page.begin_with("Rounding hammer");
        cannot_be_made(
            page,
            "front face offset, mm",
            &[("40 mm", "They must follow each other outwards")],
        );
    });
}

#[test]
fn an_unsound_head_is_there_again_after_a_reload_and_so_is_the_last_sound_one() {
    browse("unsound and reloaded", View::desktop(), |page| {
        page.enter(LENGTH, "45");
        page.rest(|| page.region("finished weight"));
        let weight = page.region("finished weight");
        page.enter(LENGTH, "7");
        page.wait_for("region", "This head can’t be made");
        std::thread::sleep(std::time::Duration::from_millis(600));
        page.reload();
        // What was typed is not lost, and the numbers are those of the last head that could be made.
        page.wait_for("region", "This head can’t be made");
        assert_eq!(page.value(LENGTH), "7");
        assert_eq!(page.region("finished weight"), weight);
        page.enter(LENGTH, "45");
        page.wait("it can be made again", || {
            !page.has("region", "This head can’t be made")
        });
    });
}

#[test]
fn a_weight_out_of_reach_says_so_and_offers_ways_out() {
    browse("out of reach", View::desktop(), |page| {
        page.enter("hold weight at, kg", "9 kg");
        page.wait_for_region("finished weight", "out by");
        page.wait_for_text("can’t");
        page.save_picture("out-of-reach");
        page.wait_for_text("The weight comes no nearer than");
        page.wait_for_text("In the way: ");
        page.press("button", "undo weight held");
        page.wait("the hold is off again", || !page.text().contains("out by"));
    });
}

/// A link to the head on the page.
fn link_of(page: &Page) -> String {
    page.press("button", "copy link");
    page.wait("the link stands in the address", || {
        page.url().contains('#')
    });
    let url = page.url();
    format!("#{}", url.split('#').nth(1).unwrap_or_default())
}

/// `link` with the character at `index` changed.
fn damaged(link: &str, index: usize) -> String {
    let mut letters: Vec<char> = link.chars().collect();
    letters[index] = if letters[index] == 'A' { 'B' } else { 'A' };
    letters.into_iter().collect()
}

/// Fragments that are no sound links, and what is said of each.
fn bad_links(link: &str) -> Vec<(String, &'static str)> {
    let cut: String = link.chars().take(link.chars().count() / 2).collect();
    vec![
        (damaged(link, 20), "damaged or was cut short"),
        (damaged(link, 3), "damaged or was cut short"),
        (cut, "damaged or was cut short"),
        (
            "#model=12&view=top".to_owned(),
            "This is not a link to a design",
        ),
        (
            "#%00%FF<script>".to_owned(),
            "This is not a link to a design",
        ),
        (
            format!("#{}", "B".repeat(20_000)),
            "This is not a link to a design",
        ),
    ]
}

#[test]
fn a_damaged_link_in_the_address_leaves_the_present_head_alone() {
    browse("a damaged link", View::desktop(), |page| {
        let link = link_of(page);
        page.begin_with("Light bench hammer");
        let sizes = page.sizes();
        for (bad, sentence) in bad_links(&link) {
            page.change_fragment(&bad);
            page.wait_for_text("The link was not opened; the present head stands.");
            page.wait_for_text(sentence);
            assert_eq!(page.sizes(), sizes, "after {bad:.60}");
            assert!(
                !page.url().contains('#'),
                "the address no longer holds {bad:.60}"
            );
            page.press("button", "I have read this");
            page.wait("the sentence goes", || {
                !page.text().contains("The link was not opened")
            });
        }
        // A whole one is opened from the address bar too, and can be undone.
        page.change_fragment(&link);
        page.wait_for_value("name of the head", "Rounding hammer");
        page.press("button", "undo link to Rounding hammer");
        page.wait_for_value("name of the head", "Light bench hammer");
        assert_eq!(page.sizes(), sizes);
    });
}

#[test]
fn a_damaged_link_at_the_first_load_leaves_the_kept_head_alone() {
    browse_from_nothing("a damaged first link", View::desktop(), |page| {
        page.load("");
        let link = link_of(page);
        page.begin_with("Light bench hammer");
        let sizes = page.sizes();
        for (bad, sentence) in bad_links(&link).into_iter().take(4) {
            page.go("about:blank");
            page.load(&bad);
            page.wait_for_text("The link was not opened; the present head stands.");
            page.wait_for_text(sentence);
            assert_eq!(page.value("name of the head"), "Light bench hammer");
            assert_eq!(page.sizes(), sizes, "after {bad:.60}");
        }
    });
}
