//! From the head to the saw and the anvil: the cut, its marks, the drifts and the cutting list.

use headwright_browser::{Page, View, browse, key};

fn open(page: &Page, starter: &str) {
    page.begin_with(starter);
    page.press("button", "bar");
    page.wait_for_text(" of steel.");
}

/// The alert or status that says `sentence`.
fn wait_for_refusal(page: &Page, sentence: &str) {
    page.wait(&format!("“{sentence}” is said"), || {
        page.text().contains(sentence)
    });
}

#[test]
fn marks_change_ends_and_the_curve_says_what_is_done() {
    browse("marks", View::desktop(), |page| {
        open(page, "Cross pein hammer");
        let marks = || page.region("marks and work");
        assert!(marks().contains("middle of the eye"), "{}", marks());
        assert!(marks().contains("Forging them back lengthens the head"));
        let images: Vec<String> = page.all("image").into_iter().map(|f| f.name).collect();
        let billet = images
            .iter()
            .find(|name| name.starts_with("The cut to scale"));
        let billet = billet.expect("the billet is drawn");
        assert!(billet.contains("Marks from the face end: "), "{billet}");
        let curve = images
            .iter()
            .find(|name| name.starts_with("Area needed along the head"));
        assert!(curve.expect("the curve is drawn").contains("draw"));
        page.save_long_picture("bar-desk");
    });
}

#[test]
fn a_slot_is_drifted_to_the_eye_and_nonsense_is_refused_where_it_is_typed() {
    browse("drifts", View::desktop(), |page| {
        open(page, "Rounding hammer");
        let drifts = || page.region("from slot to eye");
        assert!(drifts().contains("the eye’s own"), "{}", drifts());
        let cautions = page.region("saw, fire, punch and grinder");
        assert!(cautions.contains("Local codes and licensed practice come first."));
        assert!(cautions.contains("The slug comes out hot"));
        page.write("order kerf of the saw, mm", "wide");
        wait_for_refusal(page, "“wide” is not a number with a unit");
    });
}

#[test]
fn a_bar_is_put_on_the_list_and_is_there_at_the_next_visit() {
    browse("bars on hand", View::desktop(), |page| {
        open(page, "Rounding hammer");
        let list = || page.region("bars on hand");
        let put = page.all("button").into_iter();
        let put = put
            .map(|found| found.name)
            .find(|name| name.starts_with("put "));
        page.press("button", &put.expect("the bar can be put on the list"));
        page.wait_for_region("bars on hand", "of the head is moved");
        page.reload();
        page.press("button", "bar");
        page.wait_for_region("bars on hand", "of the head is moved");
        let remove = page.all("button").into_iter();
        let remove = remove
            .map(|found| found.name)
            .find(|name| name.starts_with("take "));
        page.press("button", &remove.expect("it can be taken off"));
        page.wait("the list is empty", || !list().contains("is moved"));
    });
}

#[test]
fn a_piece_already_cut_says_what_head_it_gives_and_the_head_is_fitted_to_it() {
    browse("a piece", View::desktop(), |page| {
        open(page, "Rounding hammer");
        page.enter("the piece weighs, kg", "1.4 kg");
        page.wait_for_region("a piece already cut", "it finishes at");
        page.press("button", "fit the head to this piece");
        page.wait_for_region("finished weight", "held");
        // The fitted head finishes as the piece is then said to.
        let finished = page.region("finished weight");
        let kg = finished.split(' ').find(|word| word.starts_with("1."));
        let kg = kg.expect("a weight").to_owned();
        page.wait_for_region("a piece already cut", &format!("finishes at {kg} kg"));
        // It can become other heads too.
        page.press("button", "which heads can it give?");
        page.wait("other heads are named", || {
            page.has("button", "Square-faced hammer…")
        });
        // One that is lost altogether is refused in a sentence.
        page.enter("the piece weighs, kg", "20 g");
        wait_for_refusal(page, "nothing");
    });
}

#[test]
fn escape_puts_back_what_the_field_of_the_piece_held() {
    browse("a piece put back", View::desktop(), |page| {
        open(page, "Rounding hammer");
        let field = "the piece weighs, kg";
        page.write(field, "1.6");
        page.wait_for_region("a piece already cut", "it finishes at");
        page.keys(&[key::ESCAPE]);
        page.wait_for_value(field, "");
        page.enter(field, "1.4");
        let said = page.rest(|| page.region("a piece already cut"));
        for text in ["1.65", "heavy", ""] {
            page.write(field, text);
            page.keys(&[key::ESCAPE]);
            page.wait_for_value(field, "1.4");
            page.wait("it says what it said", || {
                page.region("a piece already cut") == said
            });
        }
    });
}

#[test]
fn an_order_of_many_heads_is_cut_from_the_fewest_bars() {
    browse("the cutting list", View::desktop(), |page| {
        open(page, "Rounding hammer");
        let add = page.all("button").into_iter();
        let add = add
            .map(|found| found.name)
            .find(|name| name.starts_with("add this head"));
        page.press("button", &add.expect("the head can be added"));
        page.enter("piece 1, how many, pieces", "40");
        page.enter("stock 1, length of a bar, mm", "1 m");
        page.press("button", "find the cutting list");
        page.wait_for_region("many heads", "proved, gap 0 %");
        page.save_long_picture("bar-order");
        let said = page.region("many heads");
        assert!(
            said.contains("5 bars of") || said.contains("4 bars of"),
            "{said}"
        );
        // A piece longer than any bar is refused with both lengths.
        page.enter("piece 1, length, mm", "2000");
        page.press("button", "find the cutting list");
        wait_for_refusal(page, "2000 mm");
        page.enter("piece 1, how many, pieces", "lots");
        wait_for_refusal(page, "“lots” is no whole number of pieces.");
    });
}

#[test]
fn the_bar_screen_fits_a_phone() {
    browse("bar on a phone", View::phone(), |page| {
        open(page, "Straight pein hammer");
        page.wait_for_region("from slot to eye", "the eye’s own");
        let wider = page.script(
            "return document.documentElement.scrollWidth - document.documentElement.clientWidth",
            serde_json::json!([]),
        );
        assert_eq!(wider.as_f64(), Some(0.0));
        // No table is wider than the room it has; drawings of the bar may be.
        let tables = "return [...document.querySelectorAll('table')].filter((table) => {
            const room = table.parentElement.getBoundingClientRect();
            return table.getBoundingClientRect().width > room.width + 1
                || table.parentElement.scrollWidth > room.width + 1;
        }).map((table) => table.getAttribute('aria-label') ?? table.className)";
        assert_eq!(
            page.script(tables, serde_json::json!([])),
            serde_json::json!([])
        );
        // Each drift says before every number what it is; what a style writes stands in no text of the page.
        let unsaid = "return [...document.querySelectorAll('.drifts td')]
            .filter((cell) => getComputedStyle(cell, '::before').content.length < 5)
            .map((cell) => cell.innerText)";
        assert_eq!(
            page.script(unsaid, serde_json::json!([])),
            serde_json::json!([])
        );
        page.save_long_picture("bar-phone");
    });
}
