//! What the browser keeps between visits: units, look and accuracy, and by what its storage is asked.
//!
//! What is on the sheet is noted by `journal.rs`. A browser that keeps nothing is told about once; the app goes on.

use gloo_storage::{LocalStorage, Storage};
use leptos::prelude::*;

use super::history::Standing;
use super::journal::{self, Found, Journal};
use super::settle::look;
use super::state::Offered;
use super::theme::Theme;
use headwright::design::{Design, starter, starter_names};
use headwright::solid::Solid;
use headwright::units::System;

/// Key of the units.
pub const SYSTEM: &str = "headwright.units";
/// Key of the accuracy that sizes are forged to.
pub const ACCURACY: &str = "headwright.accuracy";
/// Key of the look.
pub const THEME: &str = "headwright.look";
/// Key of what heads are drifted with.
pub const DRIFTING: &str = "headwright.drifting";
/// Key of the heat at which sizes are measured, °C.
pub const HEAT: &str = "headwright.heat";
/// Key of the bars on hand.
pub const BARS: &str = "headwright.bars";
/// Key of the cutting order.
pub const ORDER: &str = "headwright.order";
/// Key of the smith at the anvil.
pub const AT_ANVIL: &str = "headwright.at_anvil";
/// Key of the blow.
pub const BLOW: &str = "headwright.blow";
/// Key of what goes into a hammer, and what it is to earn, before that had a database of its own (`log/costs.rs`).
pub const PRICE: &str = "headwright.price";
/// Key of the hammers that are put aside to compare.
pub const COMPARED: &str = "headwright.compared";

/// Key of the paper that cards are printed on.
pub const PAPER: &str = "headwright.paper";

/// The starter that is shown to someone who comes for the first time.
const FIRST: &str = "rounding";

/// What a page begins with.
pub struct Opened {
    /// The design as it was left.
    pub standing: Standing,
    /// The last sound head of it.
    pub solid: Solid,
    /// Units.
    pub system: System,
    /// Look, if one was chosen.
    pub theme: Option<Theme>,
    /// What went wrong while reading.
    pub notice: Option<String>,
    /// What could not be read, to be saved as a file.
    pub offered: Vec<Offered>,
    /// The journal of the page.
    pub journal: Journal,
}

/// Reads what was kept.
pub fn open() -> Opened {
    let (design, solid) = first();
    let Found {
        standing,
        notice,
        offered,
        journal,
    } = journal::find(&design);
    let (standing, solid) = standing.unwrap_or_else(|| (look(design), solid));
    Opened {
        standing,
        solid,
        system: match read(SYSTEM).as_deref() {
            Some("imperial") => System::Imperial,
            _ => System::Metric,
        },
        theme: read(THEME).as_deref().and_then(Theme::of),
        notice,
        offered,
        journal,
    }
}

fn first() -> (Design, Solid) {
    std::iter::once(FIRST)
        .chain(starter_names())
        .filter_map(starter)
        .find_map(|design| design.build().ok().map(|solid| (design, solid)))
        .expect("every starter is sound: the tests build each")
}

/// Keeps a word under `key`; a browser that does not is no reason to stop.
pub fn store_word(key: &str, word: &str) {
    if allowed() {
        // A word less is no harm.
        let _ = LocalStorage::set(key, word);
    }
}

/// Whether there is a storage at all: asking for a forbidden one is an error already.
pub fn allowed() -> bool {
    matches!(window().local_storage(), Ok(Some(_)))
}

/// The word kept under `key`.
pub fn read(key: &str) -> Option<String> {
    if allowed() {
        LocalStorage::get(key).ok()
    } else {
        None
    }
}

/// The text under `key` as it stands, whoever wrote it.
pub fn read_text(key: &str) -> Option<String> {
    if allowed() {
        LocalStorage::raw().get_item(key).ok().flatten()
    } else {
        None
    }
}

/// Keeps `text` under `key` as it stands; whether it is kept now.
pub fn store_text(key: &str, text: &str) -> bool {
    allowed() && LocalStorage::raw().set_item(key, text).is_ok()
}

/// Removes what is kept under `key`; what cannot be removed stays.
pub fn remove(key: &str) {
    if allowed() {
        LocalStorage::delete(key);
    }
}

/// Every key that there is.
pub fn keys() -> Vec<String> {
    if !allowed() {
        return Vec::new();
    }
    let storage = LocalStorage::raw();
    let count = storage.length().unwrap_or_default();
    (0..count)
        .filter_map(|index| storage.key(index).ok().flatten())
        .collect()
}

/// What the browser keeps for this tab as long as it is open.
pub fn tab() -> Option<web_sys::Storage> {
    window().session_storage().ok().flatten()
}
