//! The whole rack out as one file, with log and costs, and a rack in from one.

use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;

use super::super::files::save_text;
use super::super::journal::{id, now};
use super::super::log::Beside;
use super::super::state::Workspace;
use super::super::taken::{Report, Reported, TakeIn};
use super::keeper::Keeper;
use headwright::chest::Chest;
use headwright::design::Design;
use headwright::rack::{Arrival, Arrived, Entry, MOST_BYTES, Rack, RackError, Slip};

/// Ending of a rack file.
const ENDING: &str = "headwright-rack.json";
/// The largest that is read, bytes.
const LARGEST: f64 = MOST_BYTES as f64;

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
    let took = move |(name, text): (String, Result<String, String>)| {
        let came = text.and_then(|text| coming(&text).map_err(|error| error.to_string()));
        match came {
            Ok(coming) => asked.set(Some(Asked::TakeIn(name, Box::new(coming)))),
            Err(reason) => report.set(Some(Report::refused(&name, "the rack stands", &reason))),
        }
    };
    // What came in is kept as long as the page only, where that is so.
    let troubles = move || {
        let troubles = report.get().map(|_| beside.troubles()).unwrap_or_default();
        let troubles = troubles.into_iter();
        troubles
            .map(|said| view! { <p class="problem">{said}</p> })
            .collect_view()
    };
    view! {
        <p class="soft">"The file has the log and the costs too, and what the log has taught of your losses: it is for you, not for a customer."</p>
        <div class="actions rack-files">
            <button type="button" class="plain" on:click=move |_| asked.set(Some(Asked::Save))>
                "save the rack as a file"
            </button>
            <TakeIn
                label="take in a rack file"
                kinds=".json,application/json"
                what="a rack file"
                most=LARGEST
                took=took
            />
        </div>
        <Reported report=report />
        <div role="status">{troubles}</div>
    }
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
        costs: beside.costs(),
        unread_costs: beside.unread_costs(),
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
    mut coming: Chest,
    report: RwSignal<Option<Report>>,
) {
    keeper.work(move |shelf| async move {
        let mut unread = coming.rack.unread.clone();
        unread.extend(coming.log.unread.iter().cloned());
        unread.extend(coming.unread_costs.iter().cloned());
        let left = beside.leave(&mut coming.log.builds);
        let costs = coming.costs.clone();
        let taken = shelf.change(|all| {
            let taken = chest(all, beside).take_in(coming, id);
            let entries = taken.entries.iter();
            let new = entries.filter(|a| a.arrival != Arrival::Skipped);
            let slips = new.map(|a| beside_unread(all, a.entry.clone())).collect();
            (slips, taken)
        });
        let taken = taken.await?;
        let mut said = of_entries(&name, &taken.entries);
        if !taken.builds.is_empty() || left > 0 {
            let builds = beside.take_in(&taken.builds, left);
            said.push_str(&format!(" Of its builds {builds}"));
        }
        if !costs.is_empty() {
            let costs = beside.take_costs(&name, costs);
            said.push_str(&format!(" {costs}"));
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

/// What came of the entries of a file, in sentences.
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
