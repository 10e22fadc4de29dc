//! What must be absent: the core knows no browser, clock, chance, files or threads.

use std::fs;
use std::path::{Path, PathBuf};

const BROWSER: [&str; 6] = [
    "leptos",
    "wasm_bindgen",
    "web_sys",
    "js_sys",
    "gloo_",
    "cfg(target_arch",
];
const OUTSIDE: [&str; 7] = [
    "std::time",
    "std::fs",
    "std::net",
    "std::thread",
    "std::process",
    "std::env",
    "rand::",
];

fn sources(folder: &Path, found: &mut Vec<PathBuf>) {
    for entry in fs::read_dir(folder).expect("a folder").flatten() {
        let path = entry.path();
        if path.is_dir() {
            sources(&path, found);
        } else if path.extension().is_some_and(|ending| ending == "rs") {
            found.push(path);
        }
    }
}

const CORE: &str = "src";
const APP: &str = "app/src";
const CUTTER: &str = "cutter/src";
const TRACER: &str = "tracer/src";

/// Lines of the sources in `folder` that name one of `words`, with the place.
fn mentions(folder: &str, words: &[&str], may: impl Fn(&str) -> bool) -> Vec<String> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut files = Vec::new();
    sources(&root.join(folder), &mut files);
    let mut found = Vec::new();
    for file in files {
        let name = file
            .strip_prefix(root)
            .expect("below the root")
            .display()
            .to_string();
        if may(&name) {
            continue;
        }
        let text = fs::read_to_string(&file).expect("a source");
        for (number, line) in text.lines().enumerate() {
            if words.iter().any(|word| line.contains(word)) {
                found.push(format!("{name}:{}: {}", number + 1, line.trim()));
            }
        }
    }
    found
}

#[test]
fn only_the_app_knows_a_browser() {
    let found = mentions(CORE, &BROWSER, |_| false);
    assert!(found.is_empty(), "{}", found.join("\n"));
    assert!(
        !mentions(APP, &BROWSER, |_| false).is_empty(),
        "the app itself must be found"
    );
}

#[test]
fn the_core_asks_nothing_of_the_world_outside() {
    let found = mentions(CORE, &OUTSIDE, |name| name.starts_with("src/bin"));
    assert!(found.is_empty(), "{}", found.join("\n"));
}

#[test]
fn nothing_is_left_to_be_done_later() {
    // Put together here, so that this file does not find itself.
    let words = [
        ["TO", "DO"].concat(),
        ["FIX", "ME"].concat(),
        ["dbg", "!("].concat(),
    ];
    let words: Vec<&str> = words.iter().map(String::as_str).collect();
    for folder in [CORE, APP, CUTTER, TRACER] {
        let found = mentions(folder, &words, |_| false);
        assert!(found.is_empty(), "{}", found.join("\n"));
    }
}
