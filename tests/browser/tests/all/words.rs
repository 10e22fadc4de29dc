//! Words are explained where they stand, by mouse, by touch and by keys.

use headwright_browser::{Page, View, browse, key};
use serde_json::json;

/// Every screen by the name of its step, and something that only it says.
const SCREENS: [(&str, &str); 7] = [
    ("head", "all sizes"),
    ("handle", "parts of the handle"),
    ("bar", "of steel."),
    ("heat", "the work, step by step"),
    ("swing", "The short one"),
    ("log", "What really happened"),
    ("starters", "Heads to begin with"),
];

/// A word of each sheet, the beginning of what is said of it, and on the phone the part to open.
const SOME: [(&str, &str, &str); 8] = [
    (
        "head",
        "balance",
        "How far the balance point of the head lies",
    ),
    (
        "head",
        "steel in the eye’s place",
        "What the steel would weigh that the eye leaves out",
    ),
    (
        "handle",
        "crush",
        "By how much the wedged wood would be wider",
    ),
    ("bar", "upset", "To make the bar shorter and thicker"),
    (
        "heat",
        "ideal diameter",
        "The thickest round that would still be half martensite",
    ),
    (
        "swing",
        "centre of percussion",
        "The place along the tool where a blow does not jerk",
    ),
    ("log", "overhead", "What the shop costs by the hour"),
    (
        "starters",
        "planishing",
        "To smooth a surface with many light blows",
    ),
];

fn named(word: &str) -> String {
    format!("what {word} means")
}

/// The button that unfolds the words among which `word` is.
fn fold(page: &Page, word: &str) -> String {
    let mut found = None;
    page.wait(&format!("words with “{word}” are explained"), || {
        found = page.all("button").into_iter().find(|button| {
            let words = button.name.strip_prefix("words explained: ");
            words.is_some_and(|words| words.split(", ").any(|one| one == word))
        });
        found.is_some()
    });
    found.expect("it was waited for").name
}

/// Goes to a sheet and waits until it is there.
fn go(page: &Page, screen: &str) {
    page.press("button", screen);
    let says = SCREENS.into_iter().find(|(name, _)| *name == screen);
    page.wait_for_text(says.expect("a sheet").1);
}

#[test]
fn a_word_of_each_sheet_is_explained_by_mouse_and_by_touch_and_closed_again() {
    for view in [View::desktop(), View::phone()] {
        browse("words pressed", view, |page| {
            for (screen, word, said) in SOME {
                go(page, screen);
                assert!(!page.text().contains(said));
                let fold = fold(page, word);
                page.press("button", &fold);
                page.press("button", &named(word));
                page.wait_for_text(said);
                let button = page.wait_for("button", &named(word));
                assert_eq!(button.expanded, Some(true), "{word}");
                page.press("button", &named(word));
                page.wait("it is closed", || !page.text().contains(said));
                page.press("button", &fold);
                page.wait("they are folded away", || !page.has("button", &named(word)));
            }
        });
    }
}

#[test]
fn a_word_is_explained_by_keys_alone_and_keeps_the_focus() {
    browse("words by keys", View::desktop(), |page| {
        page.tab_to("button", &fold(page, "hang angle"));
        page.keys(&[key::ENTER]);
        page.tab_to("button", &named("hang angle"));
        for strike in [key::ENTER, key::SPACE] {
            page.keys(&[strike]);
            page.wait("it opens and closes", || {
                let open = page
                    .text()
                    .contains("on a pin through the handle’s axis, 40 mm above");
                open == (strike == key::ENTER)
            });
            assert_eq!(page.focused().1, named("hang angle"));
        }
    });
}

/// Takes a size in hand: on a phone its whole row is pressed.
fn take(page: &Page, field: &str) {
    let row = page.show(&page.wait_for("textbox", field));
    page.press_at(row.middle());
}

#[test]
fn the_size_in_hand_is_explained_with_a_sketch_and_stays_so_for_the_next() {
    for view in [View::desktop(), View::phone()] {
        browse("a size explained", view, |page| {
            page.begin_with("Rounding hammer");
            page.open_part("cheeks");
            take(page, "cheek width, mm");
            page.press("button", &named("cheek width"));
            page.wait_for_text("Width of the cheek block at its ends, across the head.");
            let sketches = || {
                let count = "return document.querySelectorAll('.meaning svg.sketch').length";
                page.script(count, json!([])).as_u64().unwrap_or_default()
            };
            page.wait("a sketch stands beside it", || sketches() > 0);
            let broken = page.broken_rules();
            assert!(broken.is_empty(), "{}", broken.join("\n"));
            page.save_picture(if view.phone {
                "size-explained-phone"
            } else {
                "size-explained"
            });
            take(page, "cheek length, mm");
            page.wait_for_text("How long the block with the eye is, along the head.");
            page.press("button", &named("cheek length"));
            page.wait("it is closed", || sketches() == 0);
        });
    }
}

/// Opens every word of the sheet in front, by a script because presses are tried above, and reads what is said of it: the words and their sentences.
fn read_all(page: &Page) -> Vec<(String, String)> {
    page.script(
        "document.querySelectorAll('.words-fold[aria-expanded=false]').forEach((fold) => fold.click())",
        json!([]),
    );
    let words = "return [...document.querySelectorAll('.words .word')].map(word => word.innerText)";
    let count = page.script(words, json!([])).as_array().map_or(0, Vec::len);
    let mut all = Vec::new();
    for at in 0..count {
        let open = "document.querySelectorAll('.words .word')[arguments[0]].click()";
        page.script(open, json!([at]));
        let read = "const word = document.querySelectorAll('.words .word')[arguments[0]];
            const id = word.getAttribute('aria-controls');
            const said = id && document.getElementById(id).querySelector('p:not(.fetched)');
            return [word.innerText, said ? said.textContent : '',
                document.querySelectorAll(`[id=\"${id}\"]`).length];";
        let mut said = json!(null);
        page.wait("it is said", || {
            said = page.script(read, json!([at]));
            said[1] != json!("")
        });
        assert_eq!(said[2], json!(1), "one place of that id: {said}");
        let text = |index: usize| said[index].as_str().unwrap_or_default().to_owned();
        all.push((text(0), text(1)));
    }
    all
}

#[test]
fn every_word_of_every_sheet_is_explained_and_no_rule_is_broken_with_all_of_them_open() {
    for view in [View::desktop(), View::desktop().dark(), View::phone()] {
        browse("all words", view, |page| {
            let mut known: Vec<(String, String)> = Vec::new();
            for (screen, _) in SCREENS {
                go(page, screen);
                let all = read_all(page);
                assert!(all.len() >= 5, "{screen}: {all:?}");
                for (word, said) in all {
                    assert!(said.ends_with('.') && said.len() > 30, "{word}: {said}");
                    match known.iter().find(|(other, _)| *other == word) {
                        Some((_, before)) => assert_eq!(*before, said, "{word}"),
                        None => known.push((word, said)),
                    }
                }
                page.rest(|| page.text());
                let look = if view.dark { "slate" } else { "paper" };
                page.save_long_picture(&format!("words-{screen}-{look}-{}", view.width));
                let broken = page.broken_rules();
                assert!(broken.is_empty(), "{screen}: {}", broken.join("\n"));
            }
            assert!(known.len() > 80, "{} words", known.len());
        });
    }
}

#[test]
fn the_words_of_a_build_and_of_a_measured_hammer_are_explained() {
    browse("words of a build", View::phone(), |page| {
        go(page, "log");
        page.press("button", "begin a build of…");
        page.wait_for("button", "start punch");
        page.press("button", "change the steps");
        page.wait_for_text("The next build begins with these.");
        let of_build = read_all(page);
        for word in [
            "heat +1",
            "typed minutes",
            "as forged",
            "takes from the ledger",
        ] {
            assert!(of_build.iter().any(|(other, _)| other == word), "{word}");
        }
        page.save_long_picture("words-build-390");
        assert_eq!(page.broken_rules(), [""; 0]);
        page.press("button", "all builds");
        page.press("button", "measure a hammer that exists");
        page.wait_for_text("Begin with a head of its shape.");
        let of_hammer = read_all(page);
        for word in ["in proportion", "would explain it", "may be off by"] {
            assert!(of_hammer.iter().any(|(other, _)| other == word), "{word}");
        }
    });
}

#[test]
fn what_is_explained_needs_its_file_once_and_says_when_that_does_not_come() {
    browse("words without a connection", View::desktop(), |page| {
        let connect = |connected: bool| {
            page.command("Network.enable", json!({}));
            page.command("Network.setBypassServiceWorker", json!({ "bypass": true }));
            let conditions = json!({ "offline": !connected, "latency": 0,
                "downloadThroughput": -1, "uploadThroughput": -1 });
            page.command("Network.emulateNetworkConditions", conditions);
        };
        connect(false);
        page.press("button", &fold(page, "balance"));
        page.press("button", &named("balance"));
        page.wait_for_text("This part could not be fetched");
        connect(true);
        page.press("button", "try again");
        page.wait_for_text("How far the balance point of the head lies");
        connect(false);
        page.press("button", &named("hang angle"));
        page.wait_for_text("How far the head tips when it hangs");
        for error in page.console_errors() {
            assert!(error.contains("/headwright-app-"), "{error}");
        }
    });
}
