//! The whole rack out as one file, with log and costs, and a rack in from one.

use leptos::prelude::*;
use wasm_bindgen_futures::{JsFuture, spawn_local};
use web_sys::{File, HtmlInputElement};

use super::super::files::{file_name, save_text};
use super::super::journal::{id, now};
use super::super::log::Beside;
use super::super::state::Workspace;
use super::keeper::Keeper;
use headwright::chest::{Chest, TakenIn};
use headwright::design::Design;
use headwright::log::BuildArrival;
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
    let beside = Beside::new(workspace);
    // What is asked before the log is read is done as soon as it is.
    let asked = RwSignal::new(None::<Asked>);
    Effect::new(move |_| {
        if beside.is_read()
            && let Some(asked) = asked.try_update(Option::take).flatten()
        {
            match asked {
                Asked::Save => save(workspace, keeper, beside),
                Asked::TakeIn(name, coming) => take_in(keeper, beside, name, *coming, report),
            }
        }
        asked.track();
    });
    view! {
        <p class="soft">"The file has the log and the costs too, and what the log has taught of your losses: it is for you, not for a customer."</p>
        <div class="actions rack-files">
            <button type="button" class="plain" on:click=move |_| asked.set(Some(Asked::Save))>
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
                            read(file, input, asked, report);
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

/// Something that is done with rack and log.
#[derive(Clone)]
enum Asked {
    /// Both out.
    Save,
    /// A file in, with its name.
    TakeIn(String, Box<Chest>),
}

/// Offers all that stands on the rack as one file, with the log and the costs.
fn save(workspace: Workspace, keeper: Keeper, beside: Beside) {
    let Some(shelf) = keeper.shelf() else { return };
    spawn_local(async move {
        match shelf.all().await {
            Ok(all) => {
                let chest = chest(&all, beside);
                save_text(workspace, &format!("rack.{ENDING}"), &chest.to_json());
            }
            Err(trouble) => keeper.say(trouble),
        }
    });
}

/// What stands on the rack and beside it.
fn chest(all: &[(String, String)], beside: Beside) -> Chest {
    Chest {
        rack: rack(all),
        log: beside.log(),
        costs: Vec::from_iter(beside.costs()),
        unread_costs: Vec::new(),
    }
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

fn read(
    file: File,
    input: HtmlInputElement,
    asked: RwSignal<Option<Asked>>,
    report: RwSignal<Option<Report>>,
) {
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
            // The sheet may have been left meanwhile.
            Ok(coming) => drop(asked.try_set(Some(Asked::TakeIn(name, Box::new(coming))))),
            Err(reason) => drop(report.try_set(Some(Report {
                said: format!("The file {name} was not taken in; the rack stands. {reason}"),
                unread: Vec::new(),
            }))),
        }
        // The same file may be chosen again after it was mended.
        input.set_value("");
    });
}

/// A rack file, or a single design as a rack of one.
fn coming(text: &str) -> Result<Chest, RackError> {
    match (Chest::from_json(text), Design::from_json(text)) {
        (Err(RackError::Foreign), Ok(design)) => Ok(Chest {
            rack: Rack {
                entries: vec![Entry {
                    id: id(),
                    design,
                    made: now(),
                    changed: now(),
                    tags: Vec::new(),
                }],
                unread: Vec::new(),
            },
            ..Chest::default()
        }),
        (chest, _) => chest,
    }
}

fn take_in(
    keeper: Keeper,
    beside: Beside,
    name: String,
    coming: Chest,
    report: RwSignal<Option<Report>>,
) {
    keeper.work(move |shelf| async move {
        let mut unread = coming.rack.unread.clone();
        unread.extend(coming.log.unread.iter().cloned());
        unread.extend(coming.unread_costs.iter().cloned());
        let costs = coming.costs.first().cloned();
        let taken = shelf.change(|all| {
            let taken = chest(all, beside).take_in(coming, id);
            let entries = taken.entries.iter();
            let new = entries.filter(|a| a.arrival != Arrival::Skipped);
            let slips = new.map(|a| beside_unread(all, a.entry.clone())).collect();
            (slips, taken)
        });
        let taken = taken.await?;
        let mut said = said(&name, &taken);
        let refused = beside.take_in(taken.builds);
        if refused > 0 {
            said.push_str(&format!(
                " {refused} had no room in the log, which holds only so much."
            ));
        }
        match costs.map(|costs| beside.take_costs(costs)) {
            Some(true) => said.push_str(" The costs are there."),
            Some(false) => said
                .push_str(" The costs that you entered stand; those of the file were left in it."),
            None => {}
        }
        // The sheet may have been left meanwhile.
        drop(report.try_set(Some(Report { said, unread })));
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
fn said(name: &str, taken: &TakenIn) -> String {
    let mut said = of_entries(name, &taken.entries);
    let of = |arrival: BuildArrival| {
        let builds = taken.builds.iter();
        builds.filter(|build| build.arrival == arrival).count()
    };
    let new = of(BuildArrival::Came) + of(BuildArrival::Copied);
    for (count, what) in [
        (new, "came into the log"),
        (of(BuildArrival::Skipped), "stood in the log already"),
        (
            of(BuildArrival::Joined),
            "in the log had more entries, which are here now too",
        ),
    ] {
        if count > 0 {
            let builds = if count == 1 { "build" } else { "builds" };
            said.push_str(&format!(" {count} {builds} {what}."));
        }
    }
    said
}

fn of_entries(name: &str, arrived: &[Arrived]) -> String {
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
            of_entries("my.json", &arrived),
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
