//! What a page begins with: the newest note that can be shown.

use super::super::history::Standing;
use super::super::keep;
use super::super::settle::look;
use super::super::state::Offered;
use super::stored::{NOTES, OF_THIS_TAB, forget, stored};
use super::{Entered, Journal, fresh, id, is_all_there_is};
use headwright::design::Design;
use headwright::rack::{Work, mark};
use headwright::solid::Solid;

/// Keys of texts that could not be read begin so.
const UNREADABLE: &str = "headwright.unreadable.";
/// How many notes are left where they are though they are on the rack, for tabs that are still open.
const MOST_KNOWN: usize = 20;
/// What was kept before there was a rack: the design put aside for a link or a file, and the present one.
const BEFORE_THE_RACK: [&str; 2] = ["headwright.before", "headwright.design"];

/// What a page begins with.
pub struct Found {
    /// How everything stands, and the last sound head; nothing when nothing was noted.
    pub standing: Option<(Standing, Solid)>,
    /// What could not be read.
    pub notice: Option<String>,
    /// Its texts.
    pub offered: Vec<Offered>,
    /// The journal of the page.
    pub journal: Journal,
}

/// Finds the newest note that can be shown, and begins a journal with it, else with `first`.
pub fn find(first: &Design) -> Found {
    let mut notes = stored();
    notes.extend(before_the_rack());
    let mut works = Vec::new();
    let (mut unread, mut offered) = (Vec::new(), Vec::new());
    let mut cannot = |key: &str, text: &str, reason: &str| {
        let aside = key.replacen(NOTES, UNREADABLE, 1);
        let moved = keep::store_text(&aside, text);
        if moved {
            keep::remove(key);
        }
        let kept = if moved { &aside } else { key };
        unread.push(format!(
            "The design kept in this browser can't be shown. {reason} Its text is still kept in this browser, under “{kept}”."
        ));
        offered.push(Offered {
            words: "save its text as a file".to_owned(),
            text: Some(text.to_owned()),
        });
    };
    for (key, text) in notes {
        match Work::from_json(&text) {
            Some(work) => works.push((key, text, work)),
            None => cannot(
                &key,
                &text,
                "It is no note of this Headwright, or a newer one’s.",
            ),
        }
    }
    works.sort_by_key(|(_, _, work)| std::cmp::Reverse(work.at));
    let known = works.iter().filter(|(_, _, work)| !is_all_there_is(work));
    for (key, text, _) in known.skip(MOST_KNOWN) {
        forget(key, text);
    }
    let of_this_tab = keep::tab().and_then(|tab| tab.get_item(OF_THIS_TAB).ok().flatten());
    if let Some(own) = works
        .iter()
        .position(|(key, _, _)| of_this_tab.as_ref() == Some(key))
    {
        works[..=own].rotate_right(1);
    }
    let mut opened = None;
    for (key, text, work) in works {
        match usable(&work.design) {
            Ok(sound) => {
                opened = Some((key, text, work, sound));
                break;
            }
            Err(reason) => cannot(&key, &text, &reason),
        }
    }
    let notice = (!unread.is_empty()).then(|| {
        let instead = match opened {
            Some(_) => "What was worked on before stands in its place.",
            None => "A starter stands in its place.",
        };
        format!("{} {instead}", unread.join(" "))
    });
    let Some((key, text, work, (design, solid))) = opened else {
        return Found {
            standing: None,
            notice,
            offered,
            journal: Journal::new(fresh(first.to_json(), None), None, false),
        };
    };
    let edited = work.edited.as_deref();
    let edited = edited.and_then(|text| Design::from_json(text).ok());
    let found = work.waits.then_some((key, text));
    let mut own = Work {
        copy: id(),
        waits: false,
        ..work
    };
    own.pass(mark(&own.design));
    Found {
        standing: Some((look(edited.unwrap_or(design)), solid)),
        notice,
        offered,
        journal: Journal::new(own, found, true),
    }
}

/// What was kept before there was a rack, as notes.
fn before_the_rack() -> Vec<(String, String)> {
    let mut notes = Vec::new();
    for (index, key) in BEFORE_THE_RACK.into_iter().enumerate() {
        let Some(text) = keep::read(key).or_else(|| keep::read_text(key)) else {
            continue;
        };
        let note = match Design::from_json(&text) {
            Ok(_) => {
                let entered = Entered {
                    id: id(),
                    mark: String::new(),
                    parts: None,
                };
                let mut work = fresh(text, Some(entered));
                work.came_from.clear();
                work.waits = true;
                // In the order in which they were written.
                work.at = work.at.saturating_sub(2 - index as u64);
                work.to_json()
            }
            Err(_) => text,
        };
        let as_note = format!("{NOTES}{key}");
        if keep::store_text(&as_note, &note) {
            keep::remove(key);
        }
        if !notes.iter().any(|(other, _)| *other == as_note) {
            notes.push((as_note, note));
        }
    }
    notes
}

/// A design that can be shown.
fn usable(text: &str) -> Result<(Design, Solid), String> {
    let design = Design::from_json(text).map_err(|error| error.to_string())?;
    match design.build() {
        Ok(solid) => Ok((design, solid)),
        Err(errors) => Err(errors.first().map(ToString::to_string).unwrap_or_default()),
    }
}
