//! What keeps the rack: takes up what is noted, tells the other pages, and hands out what stands there.

use std::rc::Rc;
use std::time::Duration;

use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;

use super::super::files::sound;
use super::super::later::Later;
use super::super::page::{self, Channel};
use super::super::state::{Offered, Workspace};
use super::super::texts::Trouble;
use super::shelf::{Shelf, Taken, entered, sentence};
use headwright::design::{Design, Edit};
use headwright::rack::{Parts, Place, Slip, Work, joined};

/// How long a note rests before it is taken up, so that a drag is not written every frame.
const REST: Duration = Duration::from_millis(300);
/// What pages tell each other on: that the rack is another.
const CHANNEL: &str = "headwright.rack";

/// The keeper of the page.
#[derive(Clone, Copy)]
pub struct Keeper {
    workspace: Workspace,
    shelf: StoredValue<Option<Rc<Shelf>>, LocalStorage>,
    channel: Channel,
    /// Counts changes of the rack, here and in other pages; nothing before there is a shelf.
    pub changed: RwSignal<Option<u32>>,
    /// Why the rack does not last longer than the page.
    pub trouble: RwSignal<Option<Trouble>>,
    /// Whether something is being taken up, and whether more came meanwhile.
    busy: StoredValue<bool>,
    again: StoredValue<bool>,
    /// What is to come onto a sheet when the row of edits there has ended.
    put_off: StoredValue<Option<Join>>,
    /// What was taken off the rack with its sheet, as it stood: another tab may clear it away before that is undone.
    taken_off: StoredValue<Vec<Slip>>,
}

/// What another tab did to the head of a sheet.
#[derive(Clone)]
struct Join {
    sheet: usize,
    /// What was taken up.
    took: Design,
    /// What stands on the rack.
    there: Box<Design>,
}

/// The keeper of the page, begun by whoever asks first.
pub fn open(workspace: Workspace) -> Keeper {
    use_context().unwrap_or_else(|| {
        page::owner().with(|| {
            let keeper = Keeper {
                workspace,
                shelf: StoredValue::new_local(None),
                channel: Channel::new(),
                changed: RwSignal::new(None),
                trouble: RwSignal::new(None),
                busy: StoredValue::new(false),
                again: StoredValue::new(false),
                put_off: StoredValue::new(None),
                taken_off: StoredValue::new(Vec::new()),
            };
            provide_context(keeper);
            keeper.channel.listen(CHANNEL, move || {
                if keeper.changed.with_untracked(Option::is_some) {
                    keeper.count();
                }
            });
            let later = Later::new();
            Effect::new(move || {
                workspace.journal.noted.track();
                if keeper.changed.with_untracked(Option::is_some) {
                    later.start(REST, move || keeper.take_up());
                }
            });
            Effect::new(move || {
                if !workspace.is_editing() {
                    keeper.join();
                }
            });
            // What is under way when the page goes may still arrive; the note is there in any case.
            let _ = window_event_listener_untyped("pagehide", move |_| keeper.take_up());
            spawn_local(keeper.begin());
            keeper
        })
    })
}

impl Keeper {
    /// Opens the shelf, takes up what was left by others, and looks what is newer: the sheet or the rack.
    async fn begin(self) {
        let shelf = match Shelf::open().await {
            Ok(shelf) => shelf,
            Err(trouble) => {
                self.trouble.set(Some(trouble));
                self.say(trouble);
                Shelf::of_the_page()
            }
        };
        let shelf = Rc::new(shelf);
        self.shelf.set_value(Some(shelf.clone()));
        let journal = self.workspace.journal;
        for (key, text, work) in journal.of_others() {
            match shelf.take_up(&work).await {
                Ok(Some(taken)) if shelf.lasts() => {
                    let joined = taken.joined.is_some();
                    journal.of_another_taken(&key, &text, &taken.stands, joined);
                    self.say_copied(&taken);
                }
                Ok(_) => {}
                Err(trouble) => self.say(trouble),
            }
        }
        // What could not be taken up is newer than what stands on the rack.
        if journal.untouched() && shelf.lasts() && !journal.is_owed() {
            self.agree(&shelf).await;
        }
        self.changed.set(Some(0));
        self.tell();
        self.take_up();
    }

    /// Brings the newer state of the entry in work onto the sheet, or the newest entry where nothing was noted.
    async fn agree(self, shelf: &Shelf) {
        let journal = self.workspace.journal;
        let newer = match journal.entry.get_untracked() {
            Some(id) => match shelf.place(&id).await {
                Ok(Place::Taken(slip)) if !slip.removed => {
                    Some(*slip).filter(|slip| slip.mark != journal.mark())
                }
                Ok(Place::Taken(_) | Place::Free) => {
                    journal.let_go();
                    None
                }
                Ok(Place::Unread) | Err(_) => None,
            },
            None if journal.began_with_a_note() => None,
            None => {
                let all = shelf.all().await.unwrap_or_default();
                let slips = all
                    .iter()
                    .filter_map(|(_, text)| Slip::from_json(text).ok());
                slips
                    .filter(|slip| !slip.removed && slip.entry.design.build().is_ok())
                    .max_by_key(|slip| slip.entry.changed)
            }
        };
        let system = self.workspace.system.get_untracked();
        if let Some(slip) = newer
            && journal.untouched()
            && sound(&slip.entry.design, system).is_ok()
        {
            let entered = entered(&slip);
            self.workspace.renew(slip.entry.design, entered);
        }
    }

    /// Takes up what this page has noted.
    pub fn take_up(self) {
        if self.busy.get_value() {
            self.again.set_value(true);
            return;
        }
        let Some(shelf) = self.shelf.get_value() else {
            return;
        };
        self.busy.set_value(true);
        spawn_local(async move {
            let mut any = false;
            loop {
                self.again.set_value(false);
                for (sheet, work) in self.workspace.journal.waiting() {
                    if let Err(trouble) = self.restore(&shelf, &work).await {
                        self.say(trouble);
                    }
                    match shelf.take_up(&work).await {
                        Ok(Some(taken)) => {
                            any = true;
                            self.stands(sheet, &work, &taken, shelf.lasts());
                        }
                        Ok(None) => {}
                        Err(trouble) => self.say(trouble),
                    }
                }
                for id in self.workspace.journal.to_take_off() {
                    any = true;
                    if let Err(trouble) = take_off(&shelf, &id).await {
                        self.say(trouble);
                    }
                }
                if !self.again.get_value() {
                    break;
                }
            }
            self.busy.set_value(false);
            if any {
                self.tell();
            }
        });
    }

    /// That `slip` is taken off the rack with its sheet.
    pub fn remember(self, slip: Slip) {
        self.taken_off.update_value(|all| {
            all.retain(|other| other.entry.id != slip.entry.id);
            all.push(slip);
        });
    }

    /// What was taken off the rack here and cleared away by another tab stands there again, with its tags and the day it
    /// came, before `work` comes back to it.
    async fn restore(self, shelf: &Shelf, work: &Work) -> Result<(), Trouble> {
        let own = |slip: &&Slip| Some(&slip.entry.id) == work.entry.as_ref();
        let slip = self
            .taken_off
            .with_value(|all| all.iter().find(own).cloned());
        let Some(slip) = slip else {
            return Ok(());
        };
        if !matches!(shelf.place(&slip.entry.id).await?, Place::Free) {
            return Ok(());
        }
        shelf.change(|_| (vec![slip], ())).await
    }

    /// What was noted of `sheet` stands on the rack.
    fn stands(self, sheet: usize, work: &Work, taken: &Taken, lasts: bool) {
        let journal = self.workspace.journal;
        let joined_with = taken.joined.clone();
        journal.taken(sheet, work, &taken.stands, joined_with.is_some(), lasts);
        if let Some(name) = taken.copied.clone() {
            if sheet == journal.sheet() {
                self.workspace.apply(Edit::Name(name));
            }
            self.say_copied(taken);
        }
        if let (Some(there), Ok(took)) = (joined_with, Design::from_json(&work.design))
            && sheet == journal.sheet()
        {
            self.put_off.set_value(Some(Join { sheet, took, there }));
            if !untrack(|| self.workspace.is_editing()) {
                self.join();
            }
        }
    }

    /// Brings what another tab did onto the sheet, if that is still in front.
    fn join(self) {
        let Some(Join { sheet, took, there }) =
            self.put_off.try_update_value(Option::take).flatten()
        else {
            return;
        };
        // More may have been done here meanwhile; where that is to the same, the next taking up finds two hammers.
        let here = self.workspace.design.get_untracked();
        if sheet == self.workspace.journal.sheet()
            && let Some(design) = joined(&Parts::of(&took), &here, &there)
        {
            self.workspace
                .merge("what another tab did".to_owned(), design);
        }
    }

    fn say_copied(self, taken: &Taken) {
        if let Some(name) = &taken.copied {
            self.workspace.say(
                &format!("This head was changed in another tab too. Both are on the rack: what was done here is “{name}”."),
                Vec::new(),
            );
        }
    }

    /// Says why something is not kept.
    pub fn say(self, trouble: Trouble) {
        self.workspace
            .say(sentence(trouble), vec![Offered::sheet()]);
    }

    /// The workspace of the page.
    pub fn workspace(self) -> Workspace {
        self.workspace
    }

    /// The shelf, once there is one.
    pub fn shelf(self) -> Option<Rc<Shelf>> {
        self.shelf.get_value()
    }

    /// Does `what` with the shelf, then shows and tells that the rack is another.
    pub fn work<F>(self, what: impl FnOnce(Rc<Shelf>) -> F + 'static)
    where
        F: Future<Output = Result<(), Trouble>> + 'static,
    {
        if let Some(shelf) = self.shelf() {
            spawn_local(async move {
                if let Err(trouble) = what(shelf).await {
                    self.say(trouble);
                }
                self.tell();
            });
        }
    }

    /// Shows that the rack is another, and tells the other pages.
    fn tell(self) {
        self.count();
        self.channel.tell();
    }

    fn count(self) {
        self.changed
            .update(|count| *count = Some(count.map_or(0, |count| count + 1)));
    }
}

/// Marks the entry `id` as taken off the rack.
async fn take_off(shelf: &Shelf, id: &str) -> Result<(), Trouble> {
    shelf
        .change(|all| {
            let there = all.iter().find(|(other, _)| other == id);
            let slip = there.and_then(|(_, text)| Slip::from_json(text).ok());
            let gone = slip.map(|slip| Slip {
                removed: true,
                ..slip
            });
            (gone.into_iter().collect(), ())
        })
        .await
}
