//! What keeps the log: every press goes into the browser at once, and the other pages are told.

use std::collections::{BTreeMap, BTreeSet};
use std::rc::Rc;

use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;

use super::super::journal;
use super::super::page::{self, Channel};
use super::super::state::Workspace;
use super::super::texts::{Texts, Trouble};
use super::change::Change;
use super::out_in::said;
use super::take_back::TakeBack;
use super::words;
use headwright::log::{Build, BuildArrival, BuildArrived, Log, LogError};
use headwright::rack::Unread;

/// Name of the database.
const DATABASE: &str = "headwright-log";
/// The store of builds, each a text under its id.
const BUILDS: &str = "builds";
/// What pages tell each other on: that the log is another.
const CHANNEL: &str = "headwright.log";

/// The log of the page.
#[derive(Clone, Copy)]
pub struct Keeper {
    workspace: Workspace,
    texts: StoredValue<Option<Rc<Texts>>, LocalStorage>,
    channel: Channel,
    /// The builds, the one begun last first; nothing before they have been read.
    pub builds: RwSignal<Option<Vec<Build>>>,
    /// What stands in the log and cannot be read.
    pub unread: RwSignal<Vec<Unread>>,
    /// Where that stands: nothing is written there.
    unread_ids: StoredValue<BTreeSet<String>>,
    /// Why what is pressed is not kept.
    pub trouble: RwSignal<Option<Trouble>>,
    /// The build that is in front.
    pub chosen: RwSignal<Option<String>>,
    /// What was pressed last, to be taken back.
    pub take_back: TakeBack,
    /// What was done and is not in the browser yet, by the ids of its builds.
    waiting: StoredValue<Waiting>,
    busy: StoredValue<bool>,
}

/// A change that could not be done, with the reason.
type Left = (Change, LogError);

/// Changes that wait, by the ids of their builds.
type Waiting = Vec<(String, Vec<Change>)>;

/// What is said of a trouble.
pub fn sentence(trouble: Trouble) -> &'static str {
    match trouble {
        Trouble::Full => {
            "The browser’s storage is full: what you press now is kept only until this page is closed. Save the log as a file, then remove something from the rack or the log."
        }
        Trouble::Newer => {
            "The log in this browser, or a build of it, was written by a newer Headwright or can’t be read: this one leaves that alone, and keeps what you press there only until this page is closed. Save it as a file, and reload the app."
        }
        Trouble::Refused => {
            "This browser lets the page keep no log: what you press stands until the page is closed. Save it as a file before."
        }
    }
}

/// The log of the page, begun by whoever asks first.
pub fn open(workspace: Workspace) -> Keeper {
    use_context().unwrap_or_else(|| {
        page::owner().with(|| {
            let keeper = Keeper {
                workspace,
                texts: StoredValue::new_local(None),
                channel: Channel::new(),
                builds: RwSignal::new(None),
                unread: RwSignal::new(Vec::new()),
                unread_ids: StoredValue::new(BTreeSet::new()),
                trouble: RwSignal::new(None),
                chosen: RwSignal::new(None),
                take_back: TakeBack::new(),
                waiting: StoredValue::new(Vec::new()),
                busy: StoredValue::new(false),
            };
            provide_context(keeper);
            let read = move || spawn_local(keeper.read());
            keeper.channel.listen(CHANNEL, read);
            // What was pressed and refused is tried again before the page goes.
            let _ = window_event_listener_untyped("pagehide", move |_| keeper.keep());
            spawn_local(keeper.begin());
            keeper
        })
    })
}

impl Keeper {
    async fn begin(self) {
        let texts = match Texts::open(DATABASE, BUILDS).await {
            Ok(texts) => texts,
            Err(trouble) => {
                self.say(trouble);
                Texts::of_the_page()
            }
        };
        self.texts.set_value(Some(Rc::new(texts)));
        self.read().await;
        // What runs is what the smith came back to.
        let runs = |build: &&Build| build.story().open.is_some();
        let running = self.builds.with_untracked(|builds| {
            let builds = builds.iter().flatten();
            builds.clone().find(runs).map(|build| build.id.clone())
        });
        if let Some(id) = running {
            self.chosen.set(Some(id));
        }
        self.keep();
    }

    /// Reads all that is kept; what waits to be kept is done to it.
    async fn read(self) {
        let Some(texts) = self.texts.get_value() else {
            return;
        };
        let read = async { texts.to_read().await?.all().await };
        let all = match read.await {
            Ok(all) => all,
            Err(trouble) => {
                self.say(trouble);
                // What stands on the page is not written over by what cannot be read.
                if self.builds.with_untracked(Option::is_some) {
                    return;
                }
                Vec::new()
            }
        };
        let (mut builds, mut unread) = (Vec::new(), Vec::new());
        let mut unread_ids = BTreeSet::new();
        for (id, text) in all {
            match Build::from_json(&text) {
                Ok(build) => builds.push(build),
                Err(text) => {
                    unread.push(text);
                    unread_ids.insert(id);
                }
            }
        }
        self.unread.set(unread);
        self.unread_ids.set_value(unread_ids);
        let waiting = self.waiting.get_value();
        self.show(all_done_to(builds, &waiting));
    }

    fn show(self, mut builds: Vec<Build>) {
        builds.sort_by_key(|build| std::cmp::Reverse(build.begun));
        self.builds.set(Some(builds));
    }

    /// Shows what became of the build `id`.
    fn show_one(self, id: &str, build: Option<Build>) {
        let mut builds = self.builds.get_untracked().unwrap_or_default();
        builds.retain(|other| other.id != id);
        builds.extend(build);
        self.show(builds);
    }

    /// The build of this id.
    pub fn build(self, id: &str) -> Option<Build> {
        self.builds.with(|builds| {
            let mut builds = builds.iter().flatten();
            builds.find(|build| build.id == id).cloned()
        })
    }

    /// The log as it stands.
    pub fn log(self) -> Log {
        Log {
            builds: self.builds.get_untracked().unwrap_or_default(),
            unread: self.unread.get_untracked(),
        }
    }

    /// Does `change` to the build `id`: at once on the page, and into the browser.
    ///
    /// # Errors
    /// What cannot stand in a build; then nothing was done.
    pub fn press(self, id: &str, change: Change) -> Result<(), LogError> {
        let before = untrack(|| self.build(id));
        change.clone().of(before.clone())?;
        self.take_back.pressed(before.as_ref(), &change);
        self.make(id, change);
        Ok(())
    }

    /// The same of what cannot be refused, or was done before.
    pub fn make(self, id: &str, change: Change) {
        let before = untrack(|| self.build(id));
        self.show_one(id, done_to(before, std::slice::from_ref(&change)));
        self.wait_with(vec![(id.to_owned(), vec![change])]);
        self.keep();
    }

    /// These wait too, each behind what waits for its build.
    fn wait_with(self, more: Waiting) {
        self.waiting.update_value(|waiting| {
            let mut places = places(waiting.iter().map(|(id, _)| id));
            for (id, changes) in more {
                match places.get(&id) {
                    Some(place) => waiting[*place].1.extend(changes),
                    None => {
                        places.insert(id.clone(), waiting.len());
                        waiting.push((id, changes));
                    }
                }
            }
        });
    }

    /// Leaves out of `coming`, the builds of a file, those whose place something has that cannot be read; how many.
    pub fn leave(self, coming: &mut Vec<Build>) -> usize {
        let before = coming.len();
        self.unread_ids
            .with_value(|ids| coming.retain(|build| !ids.contains(&build.id)));
        before - coming.len()
    }

    /// Takes the builds of a file in.
    pub fn take_in(self, coming: Vec<Build>) -> Vec<BuildArrived> {
        let arrived = self.log().take_in(coming, journal::id);
        self.bring(&arrived);
        arrived
    }

    /// Brings builds into the log as they came to stand in it: at once on the page, and into the browser.
    pub fn bring(self, arrived: &[BuildArrived]) {
        let new = arrived.iter().filter(|it| match it.arrival {
            BuildArrival::Came | BuildArrival::Joined | BuildArrival::Copied => true,
            BuildArrival::Skipped | BuildArrival::TooMuch | BuildArrival::NoRoom => false,
        });
        let joins = new.map(|BuildArrived { build, .. }| {
            let join = Change::Join(Box::new(build.clone()));
            (build.id.clone(), vec![join])
        });
        let joins: Waiting = joins.collect();
        let builds = self.builds.get_untracked().unwrap_or_default();
        self.show(all_done_to(builds, &joins));
        self.wait_with(joins);
        self.keep();
    }

    /// Brings what waits into the browser.
    fn keep(self) {
        let Some(texts) = self.texts.get_value() else {
            return;
        };
        if self.busy.get_value() {
            return;
        }
        self.busy.set_value(true);
        spawn_local(async move {
            let mut kept = false;
            loop {
                let waiting = self.waiting.get_value();
                if waiting.is_empty() {
                    break;
                }
                let mut refused = false;
                let mut turns = waiting;
                // First the builds that go, which make room where there is none.
                turns.sort_by_key(|(_, changes)| changes.last() != Some(&Change::Remove));
                let is_one = turns.len() == 1;
                let mut apart = Vec::new();
                for (id, changes) in turns {
                    match self.put(&texts, &id, &changes).await {
                        Ok((build, left)) => {
                            self.done(&id, changes.len());
                            kept = true;
                            apart.extend(left);
                            if is_one {
                                self.stand(&id, build);
                            }
                        }
                        Err(trouble) => {
                            self.say(trouble);
                            refused = true;
                        }
                    }
                }
                // Of many, such as a file has, all are shown at once.
                if !is_one {
                    self.read().await;
                }
                self.again(apart);
                if refused {
                    break;
                }
                if texts.last() {
                    self.trouble.set(None);
                }
            }
            self.busy.set_value(false);
            if kept {
                self.channel.tell();
            }
        });
    }

    /// What could be done to the builds of the page, but not to what another tab made of them: those of a file come in once
    /// more, beside what now stands, and what was pressed is said.
    fn again(self, left: Vec<Left>) {
        let mut coming = Vec::new();
        for (change, reason) in left {
            match change {
                Change::Join(build) => coming.push(*build),
                change => {
                    let system = self.workspace.system.get_untracked();
                    let pressed = words::pressed(&change, system);
                    let said = format!(
                        "Another tab changed this build meanwhile, and {pressed} is not in it. {reason}"
                    );
                    self.workspace.say(&said, Vec::new());
                }
            }
        }
        if !coming.is_empty() {
            let arrived = said(&self.take_in(coming), 0);
            let said =
                format!("Another tab changed the log meanwhile: of what was taken in {arrived}");
            self.workspace.say(&said, Vec::new());
        }
    }

    /// The first `count` changes of the build `id` wait no longer.
    fn done(self, id: &str, count: usize) {
        self.waiting.update_value(|all| {
            if let Some(place) = all.iter().position(|(of, _)| of == id) {
                let changes = &mut all[place].1;
                changes.drain(..count.min(changes.len()));
                if changes.is_empty() {
                    all.swap_remove(place);
                }
            }
        });
    }

    /// Shows the build `id` as it stands in the browser, with what other tabs did to it; what still waits is done to it.
    fn stand(self, id: &str, build: Option<Build>) {
        let build = self.waiting.with_value(|waiting| {
            let mut own = waiting.iter().filter(|(of, _)| of == id);
            match own.next() {
                Some((_, changes)) => done_to(build, changes),
                None => build,
            }
        });
        self.show_one(id, build);
    }

    /// Does `changes` to what stands in the browser under `id`, in one look; what then stands there, and what of them could
    /// not be done. What cannot be read is a newer program's and is not written over.
    async fn put(
        self,
        texts: &Texts,
        id: &str,
        changes: &[Change],
    ) -> Result<(Option<Build>, Vec<Left>), Trouble> {
        let look = texts.to_write().await?;
        let stands = look.text(id).await?;
        let before = match stands.as_deref().map(Build::from_json) {
            Some(Err(_)) => return Err(Trouble::Newer),
            Some(Ok(build)) => Some(build),
            None => None,
        };
        let (after, left) = tried_on(before, changes);
        match &after {
            Some(build) => look.put(id, build.to_json()).await?,
            None => look.delete(id).await?,
        }
        look.done().await?;
        Ok((after, left))
    }

    /// Says why something is not kept.
    fn say(self, trouble: Trouble) {
        if self.trouble.get_untracked() != Some(trouble) {
            self.trouble.set(Some(trouble));
            // It is said where the smith is looking; the sheet has the log as a file.
            self.workspace.say(sentence(trouble), Vec::new());
        }
    }
}

/// Where each id stands: looking through all for each of many takes long.
fn places<'a>(ids: impl Iterator<Item = &'a String>) -> BTreeMap<String, usize> {
    ids.cloned().zip(0..).collect()
}

/// What becomes of builds by all that waits.
fn all_done_to(mut builds: Vec<Build>, waiting: &Waiting) -> Vec<Build> {
    let places = places(builds.iter().map(|build| &build.id));
    let mut gone = BTreeSet::new();
    for (id, changes) in waiting {
        match places.get(id) {
            Some(place) => match done_to(Some(builds[*place].clone()), changes) {
                Some(build) => builds[*place] = build,
                None => drop(gone.insert(id.clone())),
            },
            None => builds.extend(done_to(None, changes)),
        }
    }
    builds.retain(|build| !gone.contains(&build.id));
    builds
}

/// What becomes of `build` by `changes`; what cannot be leaves it.
fn done_to(build: Option<Build>, changes: &[Change]) -> Option<Build> {
    tried_on(build, changes).0
}

/// The same, with what cannot be.
fn tried_on(mut build: Option<Build>, changes: &[Change]) -> (Option<Build>, Vec<Left>) {
    let mut left = Vec::new();
    for change in changes {
        match change.clone().of(build.clone()) {
            Ok(after) => build = after,
            Err(reason) => left.push((change.clone(), reason)),
        }
    }
    (build, left)
}
