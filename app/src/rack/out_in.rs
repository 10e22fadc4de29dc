//! The whole rack out as one file, and a rack in from one.

use leptos::prelude::*;
use wasm_bindgen_futures::{JsFuture, spawn_local};
use web_sys::{File, HtmlInputElement};

use super::super::files::{file_name, save_text};
use super::super::journal::{id, now};
use super::super::state::Workspace;
use super::keeper::Keeper;
use headwright::design::Design;
use headwright::rack::{Arrival, Arrived, Entry, MOST_BYTES, Rack, RackError, Slip, Unread};

/// Ending of a rack file.
const ENDING: &str = "headwright-rack.json";
/// Ending of the file with a text that cannot be read.
const UNREAD_ENDING: &str = "unread.json";

/// What came in from a file.
#[derive(Clone, Debug, PartialEq)]
struct Report {
    said: String,
    unread: Vec<Unread>,
}

/// Saves the rack, and takes one in.
#[component]
pub fn OutAndIn() -> impl IntoView {
    let workspace = Workspace::here();
    let keeper: Keeper = expect_context();
    let report = RwSignal::new(None::<Report>);
    view! {
        <div class="actions rack-files">
            <button type="button" class="plain" on:click=move |_| save(workspace, keeper)>
                "save the rack as a file"
            </button>
            <label class="plain open-file">
                "take in a rack file"
                <input
                    type="file"
                    accept=".json,application/json"
                    on:change:target=move |event| {
                        let input = event.target();
                        if let Some(file) = input.files().and_then(|files| files.get(0)) {
                            read(keeper, file, input, report);
                        }
                    }
                />
            </label>
        </div>
        <p class="rack-report" role="status">{move || report.get().map(|report| report.said)}</p>
        {move || report.get().map(|report| view! { <Unreadable all=report.unread /> })}
    }
}

/// What cannot be read, each to be saved as it stands.
#[component]
pub fn Unreadable(
    /// The texts.
    all: Vec<Unread>,
) -> impl IntoView {
    let workspace = Workspace::here();
    let rows = all.into_iter().map(|unread| {
        let name = unread.name.clone();
        let name = name.unwrap_or_else(|| "something".to_owned());
        let label = format!("save {name} as it stands as a file");
        let file = file_name(&name, UNREAD_ENDING);
        view! {
            <li class="rack-row unread">
                <p>
                    <strong>{format!("{name} can’t be read. ")}</strong>
                    {unread.reason.clone()}
                </p>
                <button
                    type="button"
                    class="plain"
                    on:click=move |_| save_text(workspace, &file, &unread.text)
                >
                    {label}
                </button>
            </li>
        }
    });
    let rows = rows.collect_view();
    view! { <ul class="rack-unread">{rows}</ul> }
}

/// Offers all that stands on the rack as one file.
fn save(workspace: Workspace, keeper: Keeper) {
    let Some(shelf) = keeper.shelf() else { return };
    spawn_local(async move {
        match shelf.all().await {
            Ok(all) => {
                let rack = rack(&all);
                save_text(workspace, &format!("rack.{ENDING}"), &rack.to_json());
            }
            Err(trouble) => keeper.say(trouble),
        }
    });
}

/// What stands on the rack, without what is marked as removed.
fn rack(all: &[(String, String)]) -> Rack {
    let mut rack = Rack::default();
    for (_, text) in all {
        match Slip::from_json(text) {
            Ok(slip) if slip.removed => {}
            Ok(slip) => rack.entries.push(slip.entry),
            Err(unread) => rack.unread.push(unread),
        }
    }
    rack
}

fn read(keeper: Keeper, file: File, input: HtmlInputElement, report: RwSignal<Option<Report>>) {
    spawn_local(async move {
        let name = file.name();
        let text = if file.size() > MOST_BYTES as f64 {
            Err("It is too large to be a rack file.".to_owned())
        } else {
            let text = JsFuture::from(file.text()).await.ok();
            text.and_then(|text| text.as_string())
                .ok_or_else(|| "The browser could not read it.".to_owned())
        };
        let came = text.and_then(|text| coming(&text).map_err(|error| error.to_string()));
        match came {
            Ok(coming) => take_in(keeper, name, coming, report),
            Err(reason) => report.set(Some(Report {
                said: format!("The file {name} was not taken in; the rack stands. {reason}"),
                unread: Vec::new(),
            })),
        }
        // The same file may be chosen again after it was mended.
        input.set_value("");
    });
}

/// A rack file, or a single design as a rack of one.
fn coming(text: &str) -> Result<Rack, RackError> {
    match (Rack::from_json(text), Design::from_json(text)) {
        (Err(RackError::Foreign), Ok(design)) => Ok(Rack {
            entries: vec![Entry {
                id: id(),
                design,
                made: now(),
                changed: now(),
                tags: Vec::new(),
            }],
            unread: Vec::new(),
        }),
        (rack, _) => rack,
    }
}

fn take_in(keeper: Keeper, name: String, coming: Rack, report: RwSignal<Option<Report>>) {
    keeper.work(move |shelf| async move {
        let Rack { entries, unread } = coming;
        let arrived = shelf.change(|all| {
            let mut standing = rack(all);
            let arrived = standing.take_in(entries, id);
            let new = arrived.iter().filter(|a| a.arrival != Arrival::Skipped);
            let slips = new.map(|a| beside_unread(all, a.entry.clone())).collect();
            (slips, arrived)
        });
        let said = said(&name, &arrived.await?);
        report.set(Some(Report { said, unread }));
        Ok(())
    });
}

/// A slip of `entry`, under another id where what cannot be read has its own.
fn beside_unread(all: &[(String, String)], mut entry: Entry) -> Slip {
    let unread = |id: &str| matches!(all.iter().find(|(other, _)| other == id), Some((_, text)) if Slip::from_json(text).is_err());
    while unread(&entry.id) {
        entry.id = id();
    }
    Slip::new(entry)
}

/// What came of a file, in sentences.
fn said(name: &str, arrived: &[Arrived]) -> String {
    let of = |arrival: Arrival| arrived.iter().filter(move |a| a.arrival == arrival);
    let mut sentences = vec![format!("From {name}: {} came.", of(Arrival::Came).count())];
    let skipped = of(Arrival::Skipped).count();
    if skipped > 0 {
        sentences.push(format!("{skipped} stood here already."));
    }
    let copied: Vec<&str> = of(Arrival::Copied)
        .map(|a| a.entry.design.name.as_str())
        .collect();
    if !copied.is_empty() {
        sentences.push(format!(
            "Kept as a copy, because another state stands here: {}.",
            copied.join(", ")
        ));
    }
    sentences.join(" ")
}

#[cfg(test)]
mod tests {
    use super::*;
    use headwright::design::starter;

    fn entry(id: &str, name: &str) -> Entry {
        let mut design = starter("light").expect("a starter");
        design.name = name.to_owned();
        Entry {
            id: id.to_owned(),
            design,
            made: 0,
            changed: 0,
            tags: Vec::new(),
        }
    }

    #[test]
    fn a_report_counts_what_came_and_names_the_copies() {
        let mut rack = Rack::default();
        let first = vec![entry("a", "One"), entry("b", "Two")];
        rack.take_in(first, || "new".to_owned());
        let second = vec![entry("a", "One"), entry("b", "Other"), entry("c", "Three")];
        let arrived = rack.take_in(second, || "new".to_owned());
        assert_eq!(
            said("my.json", &arrived),
            "From my.json: 1 came. 1 stood here already. Kept as a copy, because another state stands here: Other."
        );
    }

    #[test]
    fn what_is_removed_is_not_in_the_file() {
        let kept = Slip::new(entry("a", "One"));
        let removed = Slip {
            removed: true,
            ..Slip::new(entry("b", "Two"))
        };
        let all = [
            ("a".to_owned(), kept.to_json()),
            ("b".to_owned(), removed.to_json()),
            ("c".to_owned(), "{\"version\":9}".to_owned()),
        ];
        let rack = rack(&all);
        assert_eq!(rack.entries, [kept.entry]);
        assert_eq!(rack.unread.len(), 1);
    }
}
