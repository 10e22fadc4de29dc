//! The rack's sheet: what stands on it, found by words.

use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;

use super::super::state::Workspace;
use super::super::taken::Unreadable;
use super::empty::{Empty, NotYet};
use super::keeper::{self, Keeper};
use super::out_in::OutAndIn;
use super::row::RackRow;
use super::shelf::sentence;
use crate::silhouette::Silhouette;
use headwright::mass::mass_properties;
use headwright::rack::{Slip, Unread, finds};

/// What stands on the rack.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Listing {
    /// Entries, the one changed last first.
    pub rows: Vec<Row>,
    /// What cannot be read.
    pub unread: Vec<Unread>,
}

/// An entry, ready to be shown.
#[derive(Clone, Debug, PartialEq)]
pub struct Row {
    /// What is kept of it.
    pub slip: Slip,
    /// Its side view and its finished weight, kg; nothing of a head that cannot be made.
    pub made: Option<(Silhouette, f64)>,
}

impl Listing {
    /// Reads what is kept.
    fn of(all: &[(String, String)]) -> Self {
        let mut listing = Self::default();
        for (_, text) in all {
            match Slip::from_json(text) {
                Ok(slip) => listing.rows.push(Row::of(slip)),
                Err(unread) => listing.unread.push(unread),
            }
        }
        listing
            .rows
            .sort_by_key(|row| std::cmp::Reverse(row.slip.entry.changed));
        listing
    }

    /// Length of the longest head, mm, so that all stand to one scale.
    fn widest(&self) -> f64 {
        let made = self.rows.iter().filter_map(|row| row.made.as_ref());
        made.map(|(view, _)| view.ends.1 - view.ends.0)
            .fold(1.0, f64::max)
    }
}

impl Row {
    fn of(slip: Slip) -> Self {
        let made = slip.entry.design.build().ok().map(|solid| {
            let mass = mass_properties(&solid).mass;
            (Silhouette::of(&solid), mass)
        });
        Self { slip, made }
    }
}

/// The row that takes the focus when it is there: the one that was just worked on.
#[derive(Clone, Copy)]
pub struct Attention(pub RwSignal<Option<String>>);

/// The rack.
#[component]
pub fn RackScreen() -> impl IntoView {
    let workspace = Workspace::here();
    let keeper = keeper::open(workspace);
    provide_context(keeper);
    provide_context(Attention(RwSignal::new(None)));
    let listing = RwSignal::new(None::<Listing>);
    Effect::new(move || {
        if keeper.changed.get().is_some()
            && let Some(shelf) = keeper.shelf()
        {
            spawn_local(async move {
                match shelf.all().await {
                    // The sheet may have been left meanwhile.
                    Ok(all) => drop(listing.try_set(Some(Listing::of(&all)))),
                    Err(trouble) => keeper.say(trouble),
                }
            });
        }
    });
    on_cleanup(move || clear(keeper, listing));
    let words = RwSignal::new(String::new());
    let visible = move || {
        let words = words.get();
        let rows = listing.get().unwrap_or_default().rows.into_iter();
        rows.filter(|row| row.slip.removed || finds(&words, &row.slip.entry))
            .collect::<Vec<_>>()
    };
    let count = Memo::new(move |_| {
        listing.with(|listing| {
            let rows = listing.as_ref().map_or(&[][..], |listing| &listing.rows);
            rows.iter().filter(|row| !row.slip.removed).count()
        })
    });
    let is_empty = Memo::new(move |_| {
        listing.with(|listing| {
            listing
                .as_ref()
                .is_some_and(|listing| listing.rows.is_empty() && listing.unread.is_empty())
        })
    });
    let widest =
        Memo::new(move |_| listing.with(|listing| listing.as_ref().map_or(1.0, Listing::widest)));
    let found = move || {
        let shown = visible().iter().filter(|row| !row.slip.removed).count();
        let all = match count.get() {
            1 => "1 hammer".to_owned(),
            all => format!("{all} hammers"),
        };
        if words.with(|words| words.trim().is_empty()) {
            all
        } else {
            format!("{shown} of {all}")
        }
    };
    view! {
        <div class="sheet alone rack">
            <h1 class="screen-name">"The rack"</h1>
            <p class="said-once">
                "Every hammer that you change stands here by itself, in this browser and nowhere else. Save the rack as a file now and then."
            </p>
            {move || keeper.trouble.get().map(|trouble| view! { <p class="problem">{sentence(trouble)}</p> })}
            <NotYet />
            <Show when=move || !is_empty.get() fallback=|| view! { <Empty /> }>
                <div class="rack-search" role="search">
                    <label for="rack-words">"search"</label>
                    <input
                        id="rack-words"
                        type="search"
                        autocomplete="off"
                        spellcheck="false"
                        placeholder="name, note or tag"
                        prop:value=words
                        on:input:target=move |event| words.set(event.target().value())
                    />
                    <p class="soft" role="status">{found}</p>
                </div>
                <ul class="rack-rows">
                    <For
                        each=visible
                        key=move |row| {
                            let entry = &row.slip.entry;
                            let removed = row.slip.removed;
                            (entry.id.clone(), row.slip.mark.clone(), entry.tags.clone(), entry.changed, removed)
                        }
                        let:row
                    >
                        <RackRow row=row widest=widest />
                    </For>
                </ul>
                {move || {
                    listing
                        .get()
                        .map(|listing| view! { <Unreadable all=listing.unread /> })
                }}
            </Show>
            <OutAndIn />
        </div>
    }
}

/// What was removed goes for good when the sheet is left, but for what the page can still undo to.
fn clear(keeper: Keeper, listing: RwSignal<Option<Listing>>) {
    let journal = keeper.workspace().journal;
    let ids = listing.try_with_untracked(|listing| {
        let rows = listing.iter().flat_map(|listing| &listing.rows);
        let removed =
            rows.filter(|row| row.slip.removed && !journal.has_sheet_of(&row.slip.entry.id));
        removed
            .map(|row| row.slip.entry.id.clone())
            .collect::<Vec<_>>()
    });
    if let Some(ids) = ids
        && !ids.is_empty()
    {
        keeper.work(move |shelf| async move { shelf.clear(&ids).await });
    }
}
