//! A smith offers a head to a customer, who looks, chooses and answers; the smith takes the answer.

use headwright_browser::{Page, View, address, browse, browse_from_nothing, key, output};
use serde_json::json;

/// How far the page goes over the side of the window, CSS pixels.
const OVER: &str =
    "return document.documentElement.scrollWidth - document.documentElement.clientWidth";

/// What stands after the # of a link that was handed out in the field of this name.
fn handed_out(page: &Page, field: &str) -> String {
    page.wait_for("textbox", field);
    let address = page.value(field);
    let (_, link) = address.split_once('#').expect("a link");
    format!("#{link}")
}

/// What the QR code of this name says.
fn code(page: &Page, name: &str) -> Option<String> {
    let place = page.show(&page.wait_for("image", name));
    page.picture_of(place.bounds).code()
}

/// Opens the sheet for the customer of the cross-pein starter, leaves the handle and the weight open and hands out the link.
fn offer(page: &Page, shares: bool) -> String {
    page.begin_with("Cross pein hammer");
    page.press("button", "for the customer …");
    page.wait_for("heading", "For the customer");
    page.press("checkbox", "the customer may choose, length of the handle");
    page.enter("handle from, mm", "340");
    page.enter("handle to, mm", "390");
    page.press("checkbox", "the customer may choose, weight of the head");
    page.enter("weight to", "1.2 kg");
    page.write("price, left empty for none", "240,50");
    page.tab_to("combobox", "the customer is told where the work stands");
    page.type_text("hardened");
    page.wait_for_text("as of");
    if shares {
        page.press("checkbox", "the customer is told, all sizes of the head");
    }
    page.press("button", "Copy the customer’s link");
    handed_out(page, "the customer’s link")
}

#[test]
fn a_customer_chooses_on_a_phone_and_the_smith_takes_the_answer() {
    browse("an offer and its answer", View::desktop(), |smith| {
        let link = offer(smith, false);
        smith.save_long_picture("customer-offer");
        assert!(link.len() < 600, "{link}");
        let address = format!("{}{link}", address());
        assert_eq!(
            code(smith, "QR code of the customer’s link").as_ref(),
            Some(&address)
        );
        let answer = browse_from_nothing("the customer", View::phone(), |page| {
            page.load(&link);
            page.wait_for("heading", "Cross pein hammer");
            for said in [
                "240.50 EUR",
                "hickory",
                "cross pein",
                "as of",
                "hardened and tempered",
                "370 mm",
            ] {
                page.wait_for_text(said);
            }
            page.rest(|| page.text());
            page.save_long_picture("customer-phone");
            let text = page.text();
            for word in ["heat", "billet", "held", "free", "cheek", "starters", "fit"] {
                let found = text
                    .split(|c: char| !c.is_alphabetic())
                    .any(|one| one == word);
                assert!(!found, "“{word}” stands on the customer’s page:\n{text}");
            }
            assert_eq!(page.script(OVER, json!([])), json!(0));
            assert_eq!(code(page, "QR code of this page"), Some(address));
            // What cannot be had is refused with the limits.
            for (typed, sentence) in [
                (
                    "900",
                    "A handle of 900 mm is not offered: it may be 340 mm to 390 mm long.",
                ),
                ("long", "“long” is not a number with a unit"),
                ("-3", "That is out of all bounds."),
            ] {
                page.write("length of the handle, mm", typed);
                page.wait_for_text(sentence);
            }
            page.keys(&[key::ESCAPE]);
            page.wait_for_text("As it is drawn.");
            page.enter("length of the handle, mm", "355");
            page.wait_for_text("handle length 355 mm instead of 370 mm");
            page.enter("weight of the head", "1.15 kg");
            page.wait_for_text("weight 1.150 kg instead of 1.122 kg");
            page.press("button", "Send this answer");
            let answer = handed_out(page, "the answer’s link");
            let said = code(page, "QR code of the answer’s link");
            assert!(said.is_some_and(|said| said.ends_with(&answer)));
            answer
        });
        smith.change_fragment(&answer);
        smith.wait_for_text("an answer to your offer");
        smith.wait_for_text("handle length 355 mm instead of 370 mm");
        smith.wait_for_text("The head that was offered stands on your sheet");
        smith.save_long_picture("customer-answer");
        smith.press("button", "Take it");
        smith.wait_for_region("finished weight", "1.150 kg");
        assert!(!smith.url().contains('#'), "{}", smith.url());
        smith.press("button", "undo answer to Cross pein hammer");
        smith.wait_for_region("finished weight", "1.122 kg");
    });
}

#[test]
fn a_head_goes_into_the_workshop_only_when_that_is_said_and_undo_brings_the_old_one_back() {
    let link = browse("an offer", View::desktop(), |page| offer(page, true));
    browse("an offer in the workshop", View::desktop(), |page| {
        page.enter("name of the head", "My own");
        page.change_fragment(&link);
        page.wait_for("heading", "Cross pein hammer");
        page.wait_for_text("sizes, cold");
        page.wait_for_text("reach of the edge");
        page.rest(|| page.text());
        page.save_long_picture("customer-desktop");
        page.press("button", "open it in the workshop");
        page.wait_for_text("in front of “My own”");
        page.press("button", "leave it as it is");
        page.press("button", "open it in the workshop");
        page.press("button", "put it there");
        page.wait_for_value("name of the head", "Cross pein hammer");
        page.press("button", "undo link to Cross pein hammer");
        page.wait_for_value("name of the head", "My own");
    });
}

#[test]
fn an_end_that_cannot_be_had_is_said_to_the_smith_before_a_link_is_made() {
    browse("an end beyond reach", View::desktop(), |page| {
        page.begin_with("Cross pein hammer");
        page.press("button", "for the customer …");
        page.press("checkbox", "the customer may choose, weight of the head");
        page.enter("weight to", "4 kg");
        page.wait_for_text("The weight is left open up to 4.000 kg and can be had only up to");
        page.press("button", "Copy the customer’s link");
        page.wait_for_text("No link was made: what is left open cannot all be had.");
        page.save_long_picture("customer-beyond");
        page.press("button", "leave open only what can be had");
        page.wait("nothing is beyond reach", || {
            !page.text().contains("can be had only")
        });
        assert_ne!(page.value("weight to"), "4.000 kg");
        page.press("button", "Copy the customer’s link");
        let link = handed_out(page, "the customer’s link");
        assert!(link.starts_with("#A"), "{link}");
    });
}

#[test]
fn a_link_that_is_too_long_for_a_code_says_so() {
    browse("a long note", View::phone(), |page| {
        let mut design = page.saved_design();
        design["design"]["note"] = json!("ä".repeat(990));
        let path = output().join("long-note.headwright.json");
        std::fs::write(&path, design.to_string()).expect("the file can be written");
        page.choose_file(&path);
        page.wait("the note is there", || {
            page.has("button", "undo file long-note.headwright.json")
        });
        page.press("button", "for the customer …");
        page.press("button", "Copy the customer’s link");
        handed_out(page, "the customer’s link");
        page.wait_for_text("There is no code for a phone: the customer’s link is too long for one that a phone reads. A shorter note makes room for it.");
    });
}

#[test]
fn a_note_with_markup_is_shown_as_text() {
    const NOTE: &str = "<img src=x onerror=document.title='caught'><b>bold</b>";
    let link = browse("markup in a note", View::desktop(), |page| {
        page.enter("name of the head", "<i>Anna</i>");
        page.write("note", NOTE);
        page.press("button", "for the customer …");
        page.press("button", "Copy the customer’s link");
        handed_out(page, "the customer’s link")
    });
    browse_from_nothing("markup is text", View::desktop(), |page| {
        page.load(&link);
        page.wait_for("heading", "<i>Anna</i>");
        page.wait_for_text(NOTE);
        let made = page.script(
            "return document.querySelectorAll('.customer img, .customer b, .customer i').length",
            json!([]),
        );
        assert_eq!(made, json!(0));
    });
}

#[test]
fn a_damaged_link_is_said_and_the_head_of_the_workshop_stands() {
    browse("a damaged offer", View::desktop(), |page| {
        page.enter("name of the head", "My own");
        page.change_fragment("#Athis-is-damaged");
        page.wait_for_text("This link is damaged or was cut short");
        page.press("button", "draw a head of your own");
        page.wait_for_value("name of the head", "My own");
    });
}

#[test]
fn no_rule_of_accessibility_is_broken_for_customer_or_smith() {
    let link = browse("an offer to look at", View::desktop(), |page| {
        offer(page, true)
    });
    let mut broken = Vec::new();
    for view in [View::phone(), View::phone().dark(), View::desktop().dark()] {
        let found = browse_from_nothing("rules for the customer", view, |page| {
            page.load(&link);
            page.wait_for_text("what you may choose");
            page.press("button", "Send this answer");
            page.wait_for("textbox", "the answer’s link");
            page.rest(|| page.text());
            let mut found = page.broken_rules();
            page.load("");
            page.press("button", "for the customer …");
            page.wait_for("heading", "For the customer");
            page.press("checkbox", "the customer may choose, weight of the head");
            assert_eq!(page.script(OVER, json!([])), json!(0));
            page.rest(|| page.text());
            page.save_long_picture(if view.phone {
                "customer-offer-phone"
            } else {
                "customer-offer-slate"
            });
            found.extend(page.broken_rules());
            found
        });
        broken.extend(found);
    }
    assert!(broken.is_empty(), "{}", broken.join("\n"));
}
