//! The app starts, and says nothing to the console.

use headwright_browser::{View, browse};

#[test]
fn the_sheet_is_laid_out_with_weight_balance_and_sizes() {
    for view in [View::desktop(), View::wide(), View::phone()] {
        browse("the sheet is laid out", view, |page| {
            let name = format!("first-{}x{}", view.width, view.height);
            page.save_long_picture(&name);
            println!("{}", page.text());
            assert!(!page.value("name of the head").is_empty());
        });
    }
}
