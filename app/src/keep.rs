//! What the browser keeps between visits: the present design, units, look and accuracy.
//!
//! A kept text that cannot be read is never thrown away: it moves to a key of its own, and a
//! sentence says so. A browser that keeps nothing is told about once; the app goes on.

use gloo_storage::{LocalStorage, Storage};
use leptos::prelude::*;
use std::time::Duration;

use super::history::Standing;
use super::later::Later;
use super::settle::look;
use super::state::Workspace;
use super::theme::Theme;
use headwright::design::{Design, starter, starter_names};
use headwright::solid::Solid;
use headwright::units::System;

/// Key of the present design, the text of a design file.
pub const DESIGN: &str = "headwright.design";
/// Key of a kept text that could not be read.
pub const UNREADABLE: &str = "headwright.unreadable";
/// Key of the design that stood before the last link or file.
pub const ASIDE: &str = "headwright.before";
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
/// Key of the hammers that are put aside to compare.
pub const COMPARED: &str = "headwright.compared";

/// Key of the paper that cards are printed on.
pub const PAPER: &str = "headwright.paper";

/// The starter that is shown to someone who comes for the first time.
const FIRST: &str = "rounding";

/// What a page begins with.
pub struct Opened {
    /// The design, which is sound.
    pub standing: Standing,
    /// The head it makes.
    pub solid: Solid,
    /// Units.
    pub system: System,
    /// Look, if one was chosen.
    pub theme: Option<Theme>,
    /// What went wrong while reading.
    pub notice: Option<String>,
}

/// Reads what was kept.
pub fn open() -> Opened {
    let kept = read(DESIGN).map(|text| match usable(&text) {
        Ok(sound) => Ok(sound),
        Err(reason) => {
            let aside = write(UNREADABLE, &text).is_ok();
            let kept = if aside {
                format!("Its text is still kept in this browser, under “{UNREADABLE}”.")
            } else {
                "Its text could not be put aside.".to_owned()
            };
            Err(format!(
                "The design kept in this browser can't be shown. {reason} {kept} A starter stands in its place."
            ))
        }
    });
    let (kept, notice) = match kept {
        Some(Ok(sound)) => (Some(sound), None),
        Some(Err(sentence)) => (None, Some(sentence)),
        None => (None, None),
    };
    let (design, solid) = kept.unwrap_or_else(first);
    Opened {
        standing: look(design),
        solid,
        system: match read(SYSTEM).as_deref() {
            Some("imperial") => System::Imperial,
            _ => System::Metric,
        },
        theme: read(THEME).as_deref().and_then(Theme::of),
        notice,
    }
}

fn first() -> (Design, Solid) {
    std::iter::once(FIRST)
        .chain(starter_names())
        .filter_map(starter)
        .find_map(|design| design.build().ok().map(|solid| (design, solid)))
        .expect("every starter is sound: the tests build each")
}

fn usable(text: &str) -> Result<(Design, Solid), String> {
    let design = Design::from_json(text).map_err(|error| error.to_string())?;
    match design.build() {
        Ok(solid) => Ok((design, solid)),
        Err(errors) => Err(errors.first().map(ToString::to_string).unwrap_or_default()),
    }
}

/// Keeps `design`.
///
/// # Errors
/// A sentence when the browser keeps nothing or has no room.
pub fn store_design(design: &Design) -> Result<(), String> {
    write(DESIGN, &design.to_json())
}

/// Puts `design` aside before a link or a file takes its place: undo ends when the page is closed.
pub fn set_aside(design: &Design) {
    // A browser that keeps nothing has said so already.
    let _ = write(ASIDE, &design.to_json());
}

/// The design that was put aside, if it can be shown.
pub fn aside() -> Option<(Design, Solid)> {
    usable(&read(ASIDE)?).ok()
}

/// Keeps a word under `key`; a browser that does not is no reason to stop.
pub fn store_word(key: &str, word: &str) {
    let _ = write(key, word);
}

/// How long the design rests before it is kept, so that a drag does not write every frame.
const REST: Duration = Duration::from_millis(300);

/// Keeps the design whenever it has rested, and at the latest when the page goes.
pub fn follow(workspace: Workspace) {
    let later = Later::new();
    Effect::new(move |before: Option<()>| {
        workspace.design.track();
        if before.is_some() {
            later.start(REST, move || workspace.store());
        }
    });
    let _ = window_event_listener_untyped("pagehide", move |_| {
        later.stop();
        workspace.store();
    });
}

/// Whether there is a storage at all: asking for a forbidden one is an error already.
fn allowed() -> bool {
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

fn write(key: &str, text: &str) -> Result<(), String> {
    if !allowed() {
        return Err(
            "This browser lets the page keep nothing: the design is gone when the page is closed. \
             Save it as a file, or copy its link."
                .to_owned(),
        );
    }
    LocalStorage::set(key, text).map_err(|_| {
        "The browser’s storage is full: the latest changes are not kept. Save the design as a \
         file, or copy its link."
            .to_owned()
    })
}
