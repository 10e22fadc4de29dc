//! The log: what really happened on a build, pressed with one thumb.

use std::collections::BTreeMap;
use std::time::Duration;

use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;

use super::journal::now;
use super::rack::keeper as rack;
use super::state::Workspace;
use headwright::log::{Build, BuildNote};
use headwright::rack::{Entry, Slip};

mod build;
mod change;
mod costs;
mod entries;
mod existing;
mod for_the_rack;
mod forged;
mod keeper;
mod learned;
mod list;
mod minutes;
mod out_in;
mod price;
mod step;
mod steps;
mod take_back;
mod tools;
mod words;
mod write;

pub use existing::ToExisting;
pub use for_the_rack::Beside;
use keeper::Keeper;
pub use learned::for_the_bar;

/// How often running times move on.
const TICK: Duration = Duration::from_secs(1);

/// Now, as running times show it.
#[derive(Clone, Copy)]
struct Now(RwSignal<u64>);

impl Now {
    /// One that moves on as long as its owner is there.
    fn new() -> Self {
        let at = RwSignal::new(now());
        // A clock that stands is still right at every press.
        if let Ok(timer) = set_interval_with_handle(move || at.set(now()), TICK) {
            on_cleanup(move || timer.clear());
        }
        Self(at)
    }
}

/// What stands on the rack, by its ids; nothing before it is read.
#[derive(Clone, Copy)]
struct OnRack(RwSignal<Option<BTreeMap<String, Entry>>>);

impl OnRack {
    fn new(workspace: Workspace) -> Self {
        let entries = RwSignal::new(None);
        let rack = rack::open(workspace);
        Effect::new(move || {
            if rack.changed.get().is_some()
                && let Some(shelf) = rack.shelf()
            {
                spawn_local(async move {
                    // A rack that cannot be read says so on its own sheet, and nothing is known of it here.
                    let Ok(all) = shelf.all().await else { return };
                    let slips = all
                        .iter()
                        .filter_map(|(_, text)| Slip::from_json(text).ok());
                    let stand = slips.filter(|slip| !slip.removed);
                    let stand = stand.map(|slip| (slip.entry.id.clone(), slip.entry));
                    // The sheet may have been left meanwhile.
                    drop(entries.try_set(Some(stand.collect())));
                });
            }
        });
        Self(entries)
    }

    /// What has become of the design of a build since.
    fn since(self, build: &Build) -> Option<BuildNote> {
        self.0.with(|entries| {
            let entries = entries.as_ref()?;
            build.design_since(build.entry.as_ref().and_then(|id| entries.get(id)))
        })
    }
}

/// The log.
#[component]
pub fn LogScreen() -> impl IntoView {
    let workspace = Workspace::here();
    let keeper = keeper::open(workspace);
    provide_context(keeper);
    provide_context(OnRack::new(workspace));
    provide_context(Now::new());
    let existing::InFront(measuring) = existing::InFront::open();
    let is_read = Memo::new(move |_| keeper.builds.with(Option::is_some));
    let in_front = Memo::new(move |_| {
        let id = keeper.chosen.get()?;
        keeper.builds.with(|builds| {
            let mut builds = builds.iter().flatten();
            builds.any(|build| build.id == id).then_some(id)
        })
    });
    view! {
        <div class="sheet alone log">
            {move || {
                let in_front = in_front.get().is_some() || measuring.get();
                keeper.trouble.get().map(|trouble| {
                    view! {
                        <p class="problem">{keeper::sentence(trouble)}</p>
                        // The list has it at its end.
                        {in_front.then(|| view! { <out_in::Save /> })}
                    }
                })
            }}
            {move || match (is_read.get(), in_front.get()) {
                _ if measuring.get() => view! { <existing::ExistingSheet /> }.into_any(),
                (false, _) => view! { <p role="status">"The log is being read …"</p> }.into_any(),
                (true, Some(id)) => view! { <build::BuildSheet id=id /> }.into_any(),
                (true, None) => view! { <list::Builds /> }.into_any(),
            }}
        </div>
    }
}

/// The keeper of the sheet.
fn here() -> Keeper {
    expect_context()
}
