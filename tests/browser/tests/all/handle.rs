//! From the head to the hand: the handle in its eye, and the tool that they make.

use headwright_browser::{Page, View, browse, key};

fn open(page: &Page, starter: &str) {
    page.begin_with(starter);
    page.press("button", "handle");
    page.wait_for_region("parts of the handle", "tongue");
}

/// What the figure of the whole hammer says.
fn hammer(page: &Page) -> String {
    let mut images = page.all("image").into_iter().map(|found| found.name);
    images
        .find(|name| name.starts_with("The hammer to scale"))
        .expect("the hammer is drawn")
}

/// The number of `name` in the margin's list, "998" of "head 998 g".
fn weight(page: &Page, name: &str) -> f64 {
    let said = page.region("finished tool");
    let after = said
        .split_once(&format!("{name} "))
        .unwrap_or_else(|| panic!("no {name} in: {said}"))
        .1;
    let number = after.split(' ').next().unwrap_or_default();
    number
        .parse()
        .unwrap_or_else(|_| panic!("no weight of the {name} in: {said}"))
}

#[test]
fn length_wood_and_ovals_are_changed_and_each_step_is_undone_by_its_name() {
    browse("the handle is worked", View::desktop(), |page| {
        open(page, "Rounding hammer");
        let before = hammer(page);
        let length = "handle length over all, mm";
        let mm: f64 = page.value(length).parse().expect("a length");
        page.press("textbox", length);
        page.keys(&[key::UP, key::UP, key::ENTER]);
        page.wait_for_value(length, &format!("{}", mm + 2.0));
        page.wait_for("button", &format!("undo handle length {} mm", mm + 2.0));
        let after = hammer(page);
        assert_ne!(before, after);
        assert!(
            after.contains(&format!("{} mm over all", mm + 2.0)),
            "{after}"
        );

        let heavy = weight(page, "handle");
        page.tab_back_to("combobox", "handle wood");
        page.type_text("white a");
        page.wait_for("button", "undo wood white ash");
        assert!(weight(page, "handle") < heavy);

        page.press("button", "add an oval");
        page.wait_for("button", "undo an oval more");
        page.press("button", "take off oval 1");
        page.press("button", "undo an oval less");
        page.press("button", "undo an oval more");
        page.press("button", "undo wood white ash");
        page.press("button", &format!("undo handle length {} mm", mm + 2.0));
        page.wait("the handle is as it was", || hammer(page) == before);
        page.save_long_picture("handle-desk");
    });
}

#[test]
fn nonsense_is_refused_where_it_is_typed_and_the_last_handle_stays() {
    browse("a handle that cannot be", View::desktop(), |page| {
        open(page, "Cross pein hammer");
        let before = hammer(page);
        // A text that is none, beside its field.
        page.write("handle length over all, mm", "long");
        page.wait_for_text("“long” is not a number with a unit");
        page.keys(&[key::ESCAPE]);
        // Shorter than a hand.
        page.enter("handle length over all, mm", "140");
        page.wait_for_text("too little for a hand");
        page.wait_for_text("This handle can’t be made");
        assert_eq!(hammer(page), before, "the last that could be made stays");
        page.press("button", "undo handle length 140 mm");
        page.wait("all is well", || {
            !page.text().contains("This handle can’t be made")
        });
        // A kerf deeper than the eye.
        page.enter("kerf depth, mm", "60");
        page.wait_for_text("deeper than the tongue");
        let field = page.find("textbox", "kerf depth, mm").expect("a field");
        assert!(
            field.description.contains("deeper than the tongue"),
            "{}",
            field.description
        );
        page.press("button", "undo kerf depth 60 mm");
        // On the way to 45 stands a moisture of 4, which nobody meant.
        let tool = page.region("finished tool");
        page.enter("handle moisture of the wood, %", "45");
        page.wait_for_text("The wood’s moisture is 45 %");
        assert_eq!(page.region("finished tool"), tool);
        // And the sheet has its numbers when it is opened again.
        page.press("button", "head");
        page.press("button", "handle");
        page.wait_for_text("The wood’s moisture is 45 %");
        page.wait_for_region("finished tool", "kg");
        page.press("button", "usual handle for this head");
        page.wait("the usual handle can be made", || {
            !page.text().contains("This handle can’t be made")
        });
    });
}

#[test]
fn a_wedge_is_taken_out_and_its_gap_is_said() {
    browse("without a wedge", View::desktop(), |page| {
        open(page, "Rounding hammer");
        let said = || page.region("to be said of it");
        assert!(
            !said().contains("saw a kerf and drive a wedge"),
            "{}",
            said()
        );
        page.press("checkbox", "wedge, a wedge is driven");
        page.wait_for_region("to be said of it", "drive a wedge");
        page.wait_for("button", "undo no wedge");
        page.press("checkbox", "cross wedge, one is driven");
        page.wait_for_region("parts of the handle", "cross wedge");
        page.press("checkbox", "wedge, a wedge is driven");
        page.wait("the mouth is filled across again", || {
            !said().contains("open across the upper mouth")
        });
        // The thick end is worked out until one is written.
        assert_eq!(
            page.value("wedge thick end; empty, it fills the mouth, mm"),
            ""
        );
        page.enter("wedge thick end; empty, it fills the mouth, mm", "9");
        page.wait_for("button", "undo wedge thick end 9 mm");
    });
}

#[test]
fn the_weight_of_the_tool_is_held_and_the_head_follows() {
    browse("the tool is held", View::desktop(), |page| {
        open(page, "Rounding hammer");
        let head = weight(page, "head");
        let handle = weight(page, "handle");
        page.enter("hold weight of the finished tool at, kg", "1.3 kg");
        page.wait("the head keeps it", || {
            let said = page.region("finished tool");
            said.contains("held at 1.300 kg") && !said.contains("out by")
        });
        assert_ne!(weight(page, "head"), head);
        assert_eq!(weight(page, "handle"), handle);
        // On the head's sheet it is held too, and let go.
        page.press("button", "head");
        page.wait_for_region("holds", "weight of the finished tool");
        page.press("button", "let go of the weight of the finished tool");
        page.press("button", "handle");
        page.wait("it is let go", || {
            !page.region("finished tool").contains("held at 1.300 kg")
        });
        page.enter(
            "hold balance point of the finished tool below the head’s middle at, mm",
            "35",
        );
        page.wait("the balance point is held too", || {
            let said = page.region("finished tool");
            said.contains("held at 35") && !said.contains("out by")
        });
    });
}

#[test]
fn inches_are_read_and_said() {
    browse("a handle in inches", View::desktop(), |page| {
        open(page, "Rounding hammer");
        page.press("button", "in, lb");
        page.enter("handle length over all, in", "15 1/2");
        page.wait_for("button", "undo handle length 15 1/2 in");
        assert!(
            hammer(page).contains("15 1/2 in over all"),
            "{}",
            hammer(page)
        );
        page.enter("handle length over all, in", "5");
        page.wait_for_text("Make it at least");
        page.save_long_picture("handle-inches");
    });
}

#[test]
fn the_handle_screen_fits_a_phone() {
    browse("handle on a phone", View::phone(), |page| {
        open(page, "Straight pein hammer");
        page.enter("oval 4 depth, mm", "400");
        page.wait_for_text("Station 4 of the handle: its depth is 400 mm");
        let wider = page.script(
            "return document.documentElement.scrollWidth - document.documentElement.clientWidth",
            serde_json::json!([]),
        );
        assert_eq!(wider.as_f64(), Some(0.0));
        page.save_long_picture("handle-phone");
    });
}
