//! Works Headwright as a person does: headless Chromium, real pointer, key and touch events.
//!
//! Things on the page are found by the role and the name that a screen reader says, and what the
//! page shows is read as text, so the tests hold while layout and markup change.
//!
//! ```text
//! browse("a name for the pictures", View::desktop(), |page| {
//!     page.press("button", "starters");
//!     page.wait_for_text("Heads to begin with");
//! });
//! ```
//!
//! Needed from outside: `HEADWRIGHT_DIST` names the folder with the built app (else `dist` at the
//! top of the repository), `CHROME` and `CHROMEDRIVER` name the programs (else those on PATH).
//! Pictures of the pages, those of failed tests among them, are left in `tests/browser/output`.

mod browser;
mod find;
mod gestures;
mod page;
mod picture;
mod printed;
mod rules;
mod saved;
mod server;
mod sheet;
mod windows;
mod wire;

use std::panic::{AssertUnwindSafe, catch_unwind, resume_unwind};
use std::path::PathBuf;

pub use find::{Found, Place};
pub use gestures::key;
pub use page::{Page, View};
pub use picture::Picture;
pub use printed::Sheet;
pub use saved::differences;
pub use server::{Server, dist};

/// The app's address for this run of the tests.
pub fn address() -> &'static str {
    Server::of_this_run().address()
}

/// The folder of this package. Asked when it runs: in a target folder that clones share, what was
/// known when it was built may be another clone's.
pub(crate) fn package() -> PathBuf {
    std::env::var_os("CARGO_MANIFEST_DIR")
        .map_or_else(|| PathBuf::from(env!("CARGO_MANIFEST_DIR")), PathBuf::from)
}

/// The folder where pictures are left to be looked at.
pub fn output() -> PathBuf {
    let folder = package().join("output");
    std::fs::create_dir_all(&folder).expect("the folder for pictures can be made");
    folder
}

/// Opens the app in a fresh profile, runs `work`, and closes the browser whatever happens.
///
/// Fails when `work` fails, leaving a picture called after `name`, and when the page wrote an
/// error to its console.
pub fn browse<T>(name: &str, view: View, work: impl FnOnce(&Page) -> T) -> T {
    let page = Page::open(view);
    let done = catch_unwind(AssertUnwindSafe(|| {
        page.load("");
        work(&page)
    }));
    finish(name, page, done)
}

/// Like [`browse`], but starts with an empty page: `work` loads the app itself.
pub fn browse_from_nothing<T>(name: &str, view: View, work: impl FnOnce(&Page) -> T) -> T {
    let page = Page::open(view);
    let done = catch_unwind(AssertUnwindSafe(|| work(&page)));
    finish(name, page, done)
}

fn finish<T>(name: &str, page: Page, done: std::thread::Result<T>) -> T {
    // Looked at in every case: an error of the page explains a failure of the test.
    let errors = catch_unwind(AssertUnwindSafe(|| page.console_errors())).unwrap_or_default();
    match done {
        Ok(value) => {
            page.close();
            assert!(
                errors.is_empty(),
                "the page wrote errors to its console:\n{}",
                errors.join("\n")
            );
            value
        }
        Err(failure) => {
            let picture = format!("failed-{}", name.replace(' ', "-"));
            // A browser that has died leaves no picture; the failure itself is what counts.
            let _ = catch_unwind(AssertUnwindSafe(|| page.save_picture(&picture)));
            let _ = catch_unwind(AssertUnwindSafe(|| {
                eprintln!(
                    "--- what the page said in “{name}” ---\n{}\n---",
                    page.text()
                );
            }));
            page.close();
            if !errors.is_empty() {
                eprintln!("the page's console:\n{}", errors.join("\n"));
            }
            resume_unwind(failure)
        }
    }
}
