//! The card on the screen, on paper and as a file.

use headwright_browser::{Page, Sheet, View, browse};
use serde_json::json;

/// What a printed line may be off, mm.
const TRUE_MM: f64 = 0.2;

fn open(page: &Page, starter: &str) {
    page.begin_with(starter);
    page.press("button", "card");
    page.wait_for_text("sheet 1 of");
}

/// The names of the pages that are shown.
fn sheets(page: &Page) -> Vec<String> {
    let images = page.all("image").into_iter().map(|found| found.name);
    images.filter(|name| name.contains(" of ")).collect()
}

/// Presses "print the card" in a browser whose dialog stays shut, and prints what is then laid out.
fn printed(page: &Page) -> Vec<Sheet> {
    page.script("window.print = () => {}", json!([]));
    page.press("button", "print the card");
    page.printed()
}

/// Level lines of 100 mm, the check lines.
fn check_lines(sheet: &Sheet) -> usize {
    let long = sheet.lines.iter().filter(|[from, to]| {
        (from[1] - to[1]).abs() < 0.01 && ((to[0] - from[0]).abs() - 100.0).abs() < TRUE_MM
    });
    long.count()
}

#[test]
fn one_press_prints_every_sheet_at_its_size() {
    browse("the card is printed", View::desktop(), |page| {
        for (starter, paper, size) in [
            ("Rounding hammer", "A4", [210.0, 297.0]),
            ("Diagonal pein hammer", "letter", [215.9, 279.4]),
        ] {
            open(page, starter);
            page.press("button", paper);
            page.rest(|| page.text());
            let shown = sheets(page);
            assert!(shown.len() >= 2, "{shown:?}");
            let printed = printed(page);
            assert_eq!(printed.len(), shown.len(), "{starter} on {paper}");
            for (sheet, name) in printed.iter().zip(&shown) {
                for (printed, wanted) in sheet.size.iter().zip(size) {
                    let off = printed - wanted;
                    assert!(off.abs() < 0.5, "{name}: {:?}", sheet.size);
                }
                assert!(check_lines(sheet) >= 1, "{name} has no line of 100 mm");
                for at in sheet.lines.iter().flatten() {
                    let inside = (0..2).all(|k| at[k] > 5.0 && at[k] < size[k] - 5.0);
                    // The white ground is as large as the sheet.
                    let ground = (0..2).any(|k| at[k].abs() < 0.5 || (at[k] - size[k]).abs() < 0.5);
                    assert!(inside || ground, "{name}: {at:?}");
                }
            }
            // The page stands for itself again.
            page.script("window.dispatchEvent(new Event('afterprint'))", json!([]));
            let left = page.script(
                "return document.querySelectorAll('.full-size').length",
                json!([]),
            );
            assert_eq!(left, json!(0));
        }
    });
}

#[test]
fn the_paper_is_remembered() {
    browse("the paper is remembered", View::desktop(), |page| {
        open(page, "Rounding hammer");
        page.press("button", "letter");
        page.reload();
        page.press("button", "card");
        page.wait_for_text("sheet 1 of");
        let wide = page.script(
            "return document.querySelector('.card-paper svg').getAttribute('width')",
            json!([]),
        );
        assert_eq!(wide, json!("215.90mm"));
    });
}

#[test]
fn card_and_drawing_are_saved_as_files() {
    fn is_pdf(bytes: &[u8]) -> bool {
        bytes.starts_with(b"%PDF") && bytes.trim_ascii_end().ends_with(b"%%EOF")
    }
    fn is_svg(bytes: &[u8]) -> bool {
        bytes.starts_with(b"<svg") && bytes.trim_ascii_end().ends_with(b"</svg>")
    }
    browse("the card is saved", View::desktop(), |page| {
        open(page, "Rounding hammer");
        let (name, _) = page.saved_as("save the card as PDF", is_pdf);
        assert_eq!(name, "rounding-hammer.card.pdf");
        let (name, _) = page.saved_as("save the drawing as PDF, full size", is_pdf);
        assert_eq!(name, "rounding-hammer.drawing.pdf");
        let (name, _) = page.saved_as("save the drawing as SVG, full size", is_svg);
        assert_eq!(name, "rounding-hammer.drawing.svg");
        let count = sheets(page).len();
        let (name, _) = page.saved_as(&format!("save as SVG, sheet 1 of {count}"), is_svg);
        assert_eq!(name, "rounding-hammer.1.svg");
    });
}

#[test]
fn the_card_follows_the_design_and_its_units() {
    browse("the card follows", View::phone(), |page| {
        open(page, "Cross pein hammer");
        let card = || {
            page.script(
                "return document.querySelector('.card-paper').textContent",
                json!([]),
            )
        };
        let before = card().to_string();
        assert!(before.contains("sizes in mm"), "{before}");
        page.save_long_picture("card-phone");
        page.press("button", "in, lb");
        page.wait("the card in inches", || {
            card().to_string().contains("sizes in in")
        });
    });
}
