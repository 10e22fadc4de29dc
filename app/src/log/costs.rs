//! What keeps the costs: those that are reckoned with, and others that came with a file and wait for the smith's choice.

use std::rc::Rc;

use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;

use super::super::keep;
use super::super::page::{self, Channel};
use super::super::state::Workspace;
use super::super::texts::{Texts, Trouble};
use headwright::price::{Costs, Money};

mod kept;

use kept::came;
pub use kept::{Change, Kept, from};

/// Name of the database.
const DATABASE: &str = "headwright-costs";
/// The store of costs, each a text under its id.
const COSTS: &str = "costs";
/// What pages tell each other on: that the costs are others.
const CHANNEL: &str = "headwright.costs";

/// The costs of the page.
#[derive(Clone, Copy)]
pub struct Keeper {
    workspace: Workspace,
    texts: StoredValue<Option<Rc<Texts>>, LocalStorage>,
    channel: Channel,
    /// What is kept.
    pub kept: RwSignal<Kept>,
    /// The costs as shown.
    pub value: RwSignal<Costs>,
    /// Why what is entered is not kept.
    pub trouble: RwSignal<Option<Trouble>>,
    is_read: RwSignal<bool>,
    /// What was shown before the present row of changes.
    before: StoredValue<Option<Costs>>,
    /// What was done and is not in the browser yet.
    waiting: StoredValue<Vec<Change>>,
    busy: StoredValue<bool>,
}

/// What goes into a head is the smith's to say; an hour of 30 is a number to begin with.
fn usual() -> Costs {
    Costs {
        wage: Some(Money::cents(3000)),
        ..Costs::default()
    }
}

/// What is said of a trouble.
pub fn sentence(trouble: Trouble) -> &'static str {
    match trouble {
        Trouble::Full => {
            "The browser’s storage is full: the costs that you enter now are kept only until this page is closed. Save them as a file, then remove something from the rack or the log."
        }
        Trouble::Newer => {
            "The costs in this browser were written by a newer Headwright: this one leaves them alone, and keeps what you enter only until this page is closed. Reload the app, and save as a file what you want to keep."
        }
        Trouble::Refused => {
            "This browser lets the page keep no costs: they stand until the page is closed. Save them as a file before."
        }
    }
}

/// The costs of the page, begun by whoever asks first.
pub fn open(workspace: Workspace) -> Keeper {
    use_context().unwrap_or_else(|| {
        page::owner().with(|| {
            let keeper = Keeper {
                workspace,
                texts: StoredValue::new_local(None),
                channel: Channel::new(),
                kept: RwSignal::new(Kept::default()),
                value: RwSignal::new(usual()),
                trouble: RwSignal::new(None),
                is_read: RwSignal::new(false),
                before: StoredValue::new(None),
                waiting: StoredValue::new(Vec::new()),
                busy: StoredValue::new(false),
            };
            provide_context(keeper);
            let read = move || spawn_local(keeper.read());
            keeper.channel.listen(CHANNEL, read);
            let _ = window_event_listener_untyped("pagehide", move |_| keeper.bring());
            spawn_local(keeper.begin());
            keeper
        })
    })
}

impl Keeper {
    async fn begin(self) {
        let texts = match Texts::open(DATABASE, COSTS).await {
            Ok(texts) => texts,
            Err(trouble) => {
                self.trouble.set(Some(trouble));
                Texts::of_the_page()
            }
        };
        self.texts.set_value(Some(Rc::new(texts)));
        self.read().await;
        // Where they were before they had a database.
        if let Some(text) = keep::read_text(keep::PRICE) {
            self.make(Change::Before(text));
        }
        self.is_read.set(true);
        self.bring();
    }

    /// Whether they have been read.
    pub fn is_read(self) -> bool {
        self.is_read.get()
    }

    /// Reads all that is kept; what waits to be kept is done to it.
    async fn read(self) {
        let Some(texts) = self.texts.get_value() else {
            return;
        };
        let read = async { texts.to_read().await?.all().await };
        match read.await {
            Ok(all) => self.stand(Kept::of(all)),
            // What stands on the page is not written over by what cannot be read.
            Err(trouble) => self.trouble.set(Some(trouble)),
        }
    }

    /// Shows what stands in the browser; what still waits is done to it.
    fn stand(self, mut kept: Kept) {
        self.waiting
            .with_value(|waiting| waiting.iter().for_each(|change| kept.make(change)));
        self.show_kept(kept);
    }

    /// Shows what is kept; a field in work keeps what is typed.
    fn show_kept(self, kept: Kept) {
        let mut now = kept.costs().cloned().unwrap_or_else(usual);
        self.before.update_value(|before| {
            if let Some(before) = before {
                let typed = self
                    .value
                    .with_untracked(|typed| now.changed(before, typed));
                *before = std::mem::replace(&mut now, typed);
            }
        });
        if self.value.with_untracked(|value| *value != now) {
            self.value.set(now);
        }
        if self.kept.with_untracked(|before| *before != kept) {
            self.kept.set(kept);
        }
    }

    /// Does `change` at once on the page, and into the browser.
    pub fn make(self, change: Change) {
        let mut kept = self.kept.get_untracked();
        kept.make(&change);
        self.waiting.update_value(|waiting| waiting.push(change));
        self.show_kept(kept);
        self.bring();
    }

    /// Brings what waits into the browser.
    fn bring(self) {
        let Some(texts) = self.texts.get_value() else {
            return;
        };
        if self.busy.get_value() {
            return;
        }
        self.busy.set_value(true);
        spawn_local(async move {
            let mut any = false;
            loop {
                let changes = self.waiting.get_value();
                if changes.is_empty() {
                    break;
                }
                match put(&texts, &changes).await {
                    Ok(kept) => {
                        self.waiting
                            .update_value(|waiting| drop(waiting.drain(..changes.len())));
                        self.stand(kept);
                        if texts.last() {
                            self.trouble.set(None);
                            changes.iter().for_each(forget);
                        }
                        any = true;
                    }
                    Err(trouble) => {
                        self.trouble.set(Some(trouble));
                        // It is said where the smith is looking.
                        self.workspace.say(sentence(trouble), Vec::new());
                        break;
                    }
                }
            }
            self.busy.set_value(false);
            if any {
                self.channel.tell();
            }
        });
    }

    /// Takes the costs of `file` in, and says what came of them.
    pub fn take_in(self, file: &str, costs: Vec<Costs>) -> String {
        let before = self.kept.get_untracked();
        let wanted = before.costs().cloned().unwrap_or_else(usual);
        let all = costs.into_iter().map(|costs| Costs {
            // A file of before says nothing of these two.
            wage: costs.wage.or(wanted.wage),
            sell: costs.sell.or(wanted.sell),
            ..costs
        });
        let all: Vec<Costs> = all.collect();
        let count = all.len();
        self.make(Change::TakeIn(file.to_owned(), all));
        self.kept
            .with_untracked(|after| came(&before, after, count))
    }

    /// Shows the costs changed by `change`.
    pub fn show(self, change: impl FnOnce(&mut Costs)) {
        self.before.update_value(|before| {
            before.get_or_insert_with(|| self.value.get_untracked());
        });
        self.value.update(change);
    }

    /// Keeps what is shown.
    pub fn keep(self) {
        if let Some(before) = self.before.try_update_value(Option::take).flatten() {
            let after = self.value.get_untracked();
            if before != after {
                self.make(Change::Edit(Box::new([before, after])));
            }
        }
    }

    /// Puts back what stood before the present row of changes.
    pub fn put_back(self) {
        if let Some(before) = self.before.try_update_value(Option::take).flatten() {
            self.value.set(before);
        }
    }

    /// Shows the costs changed by `change` and keeps them.
    pub fn apply(self, change: impl FnOnce(&mut Costs)) {
        self.keep();
        self.show(change);
        self.keep();
    }
}

/// Does `changes` to what stands in the browser, in one look; what then stands there.
async fn put(texts: &Texts, changes: &[Change]) -> Result<Kept, Trouble> {
    let look = texts.to_write().await?;
    let mut kept = Kept::of(look.all().await?);
    let before = kept.texts();
    changes.iter().for_each(|change| kept.make(change));
    let after = kept.texts();
    for (id, _) in &before {
        if after.iter().all(|(other, _)| other != id) {
            look.delete(id).await?;
        }
    }
    for (id, text) in after {
        if !before.contains(&(id.clone(), text.clone())) {
            look.put(&id, text).await?;
        }
    }
    look.done().await?;
    Ok(kept)
}

/// What was kept before the database is in it now.
fn forget(change: &Change) {
    if let Change::Before(text) = change
        && keep::read_text(keep::PRICE).as_ref() == Some(text)
    {
        keep::remove(keep::PRICE);
    }
}
