//! What keeps the log: every press goes into the browser at once, and the other pages are told.

use std::rc::Rc;

use leptos::prelude::*;
use wasm_bindgen::closure::Closure;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::spawn_local;
use web_sys::BroadcastChannel;

use super::super::state::Workspace;
use super::super::texts::{Texts, Trouble};
use super::change::Change;
use super::take_back::TakeBack;
use headwright::log::{Build, Log, LogError};
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
    channel: StoredValue<Option<BroadcastChannel>, LocalStorage>,
    /// The builds, the one begun last first; nothing before they have been read.
    pub builds: RwSignal<Option<Vec<Build>>>,
    /// What stands in the log and cannot be read.
    pub unread: RwSignal<Vec<Unread>>,
    /// Why what is pressed is not kept.
    pub trouble: RwSignal<Option<Trouble>>,
    /// The build that is in front.
    pub chosen: RwSignal<Option<String>>,
    /// What was pressed last, to be taken back.
    pub take_back: TakeBack,
    /// What was done and is not in the browser yet, with the id of its build.
    waiting: StoredValue<Vec<(String, Change)>>,
    busy: StoredValue<bool>,
}

/// What is said of a trouble.
pub fn sentence(trouble: Trouble) -> &'static str {
    match trouble {
        Trouble::Full => {
            "The browser’s storage is full: what you press now is kept only until this page is closed. Save the log as a file, then remove something from the rack or the log."
        }
        Trouble::Newer => {
            "The log in this browser was written by a newer Headwright: this one leaves it alone, and keeps what you press only until this page is closed. Reload the app, and save as a file what you want to keep."
        }
        Trouble::Refused => {
            "This browser lets the page keep no log: what you press stands until the page is closed. Save it as a file before."
        }
    }
}

/// The log of the page, begun by whoever asks first.
pub fn open(workspace: Workspace) -> Keeper {
    use_context().unwrap_or_else(|| {
        // The topmost owner's, so that it stays when the sheet goes.
        let mut page = Owner::current().unwrap_or_default();
        while let Some(above) = page.parent() {
            page = above;
        }
        page.with(|| {
            let keeper = Keeper {
                workspace,
                texts: StoredValue::new_local(None),
                channel: StoredValue::new_local(None),
                builds: RwSignal::new(None),
                unread: RwSignal::new(Vec::new()),
                trouble: RwSignal::new(None),
                chosen: RwSignal::new(None),
                take_back: TakeBack::new(),
                waiting: StoredValue::new(Vec::new()),
                busy: StoredValue::new(false),
            };
            provide_context(keeper);
            keeper.listen();
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
        let read = async { texts.to_read()?.all().await };
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
        for (_, text) in all {
            match Build::from_json(&text) {
                Ok(build) => builds.push(build),
                Err(text) => unread.push(text),
            }
        }
        for (id, change) in self.waiting.get_value() {
            done_to(&mut builds, &id, change);
        }
        self.unread.set(unread);
        self.show(builds);
    }

    fn show(self, mut builds: Vec<Build>) {
        builds.sort_by_key(|build| std::cmp::Reverse(build.begun));
        self.builds.set(Some(builds));
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
        let mut builds = self.builds.get_untracked().unwrap_or_default();
        done_to(&mut builds, id, change.clone());
        self.show(builds);
        self.waiting
            .update_value(|waiting| waiting.push((id.to_owned(), change)));
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
                for (id, changes) in in_turn(waiting) {
                    match self.put(&texts, &id, &changes).await {
                        Ok(stands) => {
                            self.done(&id, changes.len());
                            if let Some(build) = stands {
                                self.stand(&id, build);
                            }
                            kept = true;
                        }
                        Err(trouble) => {
                            self.say(trouble);
                            refused = true;
                        }
                    }
                }
                if refused {
                    break;
                }
                if texts.last() {
                    self.trouble.set(None);
                }
            }
            self.busy.set_value(false);
            if kept {
                self.tell();
            }
        });
    }

    /// The first `count` changes of the build `id` wait no longer.
    fn done(self, id: &str, count: usize) {
        let mut left = count;
        self.waiting.update_value(|all| {
            all.retain(|(of, _)| {
                let done = of == id && left > 0;
                left -= usize::from(done);
                !done
            });
        });
    }

    /// Shows a build as it stands in the browser, with what other tabs did to it; what still waits is done to it.
    fn stand(self, id: &str, build: Option<Build>) {
        let mut builds = self.builds.get_untracked().unwrap_or_default();
        builds.retain(|other| other.id != id);
        builds.extend(build);
        for (_, change) in self.waiting.get_value().iter().filter(|(of, _)| of == id) {
            done_to(&mut builds, id, change.clone());
        }
        self.show(builds);
    }

    /// Does `changes` to what stands in the browser under `id`, in one look; what then stands there. Nothing where it cannot
    /// be read: that is a newer program's and is not written over.
    async fn put(
        self,
        texts: &Texts,
        id: &str,
        changes: &[Change],
    ) -> Result<Option<Option<Build>>, Trouble> {
        let look = texts.to_write()?;
        let stands = look.text(id).await?;
        let build = match stands.as_deref().map(Build::from_json) {
            Some(Err(_)) => return Ok(None),
            Some(Ok(build)) => Some(build),
            None => None,
        };
        let mut builds = Vec::from_iter(build);
        for change in changes {
            done_to(&mut builds, id, change.clone());
        }
        match builds.first() {
            Some(build) => look.put(id, build.to_json()).await?,
            None => look.delete(id).await?,
        }
        look.done().await?;
        Ok(Some(builds.pop()))
    }

    /// Says why something is not kept.
    fn say(self, trouble: Trouble) {
        if self.trouble.get_untracked() != Some(trouble) {
            self.trouble.set(Some(trouble));
            // It is said where the smith is looking; the sheet has the log as a file.
            self.workspace.say(sentence(trouble), Vec::new());
        }
    }

    /// Tells the other pages that the log is another.
    fn tell(self) {
        self.channel.with_value(|channel| {
            if let Some(channel) = channel {
                // A page that is not told sees it when it is opened the next time.
                let _ = channel.post_message(&JsValue::TRUE);
            }
        });
    }

    /// Listens to what other pages tell.
    fn listen(self) {
        let Ok(channel) = BroadcastChannel::new(CHANNEL) else {
            return;
        };
        let heard = Closure::<dyn Fn()>::new(move || spawn_local(self.read()));
        channel.set_onmessage(Some(heard.as_ref().unchecked_ref()));
        // It is heard as long as the page is there.
        heard.forget();
        self.channel.set_value(Some(channel));
    }
}

/// What waits, by builds: first those that go, which make room where there is none.
fn in_turn(waiting: Vec<(String, Change)>) -> Vec<(String, Vec<Change>)> {
    let mut turns: Vec<(String, Vec<Change>)> = Vec::new();
    for (id, change) in waiting {
        match turns.iter_mut().find(|(of, _)| *of == id) {
            Some((_, changes)) => changes.push(change),
            None => turns.push((id, vec![change])),
        }
    }
    turns.sort_by_key(|(_, changes)| changes.last() != Some(&Change::Remove));
    turns
}

/// Does `change` to the build `id` among `builds`; what cannot be leaves it.
fn done_to(builds: &mut Vec<Build>, id: &str, change: Change) {
    let place = builds.iter().position(|build| build.id == id);
    let before = place.map(|place| builds.swap_remove(place));
    let after = change.of(before.clone()).unwrap_or(before);
    builds.extend(after);
}
