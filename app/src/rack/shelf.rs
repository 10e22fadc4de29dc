//! Where slips are kept: the browser's database, or the page's memory where there is none.

use std::cell::RefCell;
use std::collections::BTreeMap;

use rexie::{Error, ObjectStore, Rexie, Store, Transaction, TransactionMode};
use wasm_bindgen::JsValue;

use super::super::journal::Entered;
use headwright::design::Design;
use headwright::rack::{Parts, Place, Slip, Step, Taking, Work, mark};

/// Name of the database.
const DATABASE: &str = "headwright";
/// Its version; the slips in it have one of their own.
const VERSION: u32 = 1;
/// The store of slips, each a text under its id.
const SLIPS: &str = "slips";

/// Where slips are kept.
pub enum Shelf {
    /// In the browser.
    Browser(Rexie),
    /// In the page, until it is closed.
    Page(RefCell<BTreeMap<String, String>>),
}

/// Why nothing can be kept.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Trouble {
    /// There is no room.
    Full,
    /// A newer program was here.
    Newer,
    /// The browser does not let the page.
    Refused,
}

impl Trouble {
    fn of(error: &Error) -> Self {
        // The library has a variant for every call; what happened is the name that the browser gives it.
        let words = format!("{error:?}");
        if words.contains("QuotaExceeded") {
            Self::Full
        } else if words.contains("VersionError") {
            Self::Newer
        } else {
            Self::Refused
        }
    }

    /// What is said of it.
    pub fn sentence(self) -> &'static str {
        match self {
            Self::Full => {
                "The browser’s storage is full: the latest changes are not on the rack. Save the head as a file, then remove something from the rack, or save the rack as a file."
            }
            Self::Newer => {
                "The rack in this browser was written by a newer Headwright: this one leaves it alone, and keeps its own rack until the page is closed. Reload the app, and save as a file what you want to keep."
            }
            Self::Refused => {
                "This browser lets the page keep no rack: it stands until the page is closed. Save as a file what you want to keep."
            }
        }
    }
}

/// What became of a work.
pub struct Taken {
    /// Where it stands.
    pub stands: Entered,
    /// Its name, where it had to become a copy.
    pub copied: Option<String>,
    /// The entry, where it has what was done elsewhere too.
    pub joined: Option<Box<Design>>,
}

/// One look at the shelf, during which nobody else changes it.
enum Access<'a> {
    Browser(Transaction, Store),
    Page(&'a RefCell<BTreeMap<String, String>>),
}

impl Shelf {
    /// The browser's.
    ///
    /// # Errors
    /// The browser has none, does not open it, or a newer program was there.
    pub async fn open() -> Result<Self, Trouble> {
        let opened = Rexie::builder(DATABASE)
            .version(VERSION)
            .add_object_store(ObjectStore::new(SLIPS))
            .build()
            .await;
        let database = opened.map_err(|error| Trouble::of(&error))?;
        let shelf = Self::Browser(database);
        // Some browsers open what they do not let anybody read.
        shelf.all().await?;
        Ok(shelf)
    }

    /// One that lasts as long as the page.
    pub fn of_the_page() -> Self {
        Self::Page(RefCell::default())
    }

    /// Whether it lasts longer than the page.
    pub fn lasts(&self) -> bool {
        matches!(self, Self::Browser(_))
    }

    /// Every text with its id.
    ///
    /// # Errors
    /// The browser refuses.
    pub async fn all(&self) -> Result<Vec<(String, String)>, Trouble> {
        self.access(TransactionMode::ReadOnly)?.all().await
    }

    /// What stands at `id`.
    ///
    /// # Errors
    /// The browser refuses.
    pub async fn place(&self, id: &str) -> Result<Place, Trouble> {
        self.access(TransactionMode::ReadOnly)?.place(id).await
    }

    /// Takes `work` up; nothing when it is on no rack.
    ///
    /// # Errors
    /// The browser refuses; a work whose design cannot be read is refused too.
    pub async fn take_up(&self, work: &Work) -> Result<Option<Taken>, Trouble> {
        let Some(mut taking) = Taking::of(work).map_err(|_| Trouble::Refused)? else {
            return Ok(None);
        };
        let access = self.access(TransactionMode::ReadWrite)?;
        loop {
            let place = access.place(taking.id()).await?;
            match taking.found(&place) {
                Step::Look(_) => {}
                Step::Write(slip) => {
                    access.put(&slip).await?;
                    access.done().await?;
                    return Ok(Some(taken(&taking, &slip, work)));
                }
                Step::Stands(_) => {
                    return Ok(match place {
                        Place::Taken(slip) => Some(taken(&taking, &slip, work)),
                        Place::Free | Place::Unread => None,
                    });
                }
            }
        }
    }

    /// Puts what `change` makes of all slips in their places: what it gives back is written.
    ///
    /// # Errors
    /// The browser refuses; then nothing is changed.
    pub async fn change<T>(
        &self,
        change: impl FnOnce(&[(String, String)]) -> (Vec<Slip>, T),
    ) -> Result<T, Trouble> {
        let access = self.access(TransactionMode::ReadWrite)?;
        let all = access.all().await?;
        let (slips, answer) = change(&all);
        for slip in &slips {
            access.put(slip).await?;
        }
        access.done().await?;
        Ok(answer)
    }

    /// Takes what is marked as removed off the shelf for good.
    ///
    /// # Errors
    /// The browser refuses.
    pub async fn clear(&self, ids: &[String]) -> Result<(), Trouble> {
        let access = self.access(TransactionMode::ReadWrite)?;
        for id in ids {
            if matches!(access.place(id).await?, Place::Taken(slip) if slip.removed) {
                access.delete(id).await?;
            }
        }
        access.done().await
    }

    fn access(&self, mode: TransactionMode) -> Result<Access<'_>, Trouble> {
        match self {
            Self::Page(slips) => Ok(Access::Page(slips)),
            Self::Browser(database) => {
                let open = || {
                    let transaction = database.transaction(&[SLIPS], mode)?;
                    let store = transaction.store(SLIPS)?;
                    Ok(Access::Browser(transaction, store))
                };
                open().map_err(|error| Trouble::of(&error))
            }
        }
    }
}

fn taken(taking: &Taking, slip: &Slip, work: &Work) -> Taken {
    let joined = !taking.is_copy() && slip.mark != mark(&work.design);
    Taken {
        stands: entered(slip),
        copied: taking.is_copy().then(|| slip.entry.design.name.clone()),
        joined: joined.then(|| Box::new(slip.entry.design.clone())),
    }
}

/// A slip as what comes onto the sheet.
pub fn entered(slip: &Slip) -> Entered {
    Entered {
        id: slip.entry.id.clone(),
        mark: slip.mark.clone(),
        parts: Some(Parts::of(&slip.entry.design)),
    }
}

impl Access<'_> {
    async fn all(&self) -> Result<Vec<(String, String)>, Trouble> {
        match self {
            Self::Page(slips) => Ok(slips.borrow().clone().into_iter().collect()),
            Self::Browser(_, store) => {
                let pairs = store.scan(None, None, None, None).await;
                let pairs = pairs.map_err(|error| Trouble::of(&error))?;
                Ok(pairs
                    .into_iter()
                    .map(|(id, text)| (plain(&id), plain(&text)))
                    .collect())
            }
        }
    }

    async fn place(&self, id: &str) -> Result<Place, Trouble> {
        let text = match self {
            Self::Page(slips) => slips.borrow().get(id).cloned(),
            Self::Browser(_, store) => {
                let text = store.get(JsValue::from_str(id)).await;
                text.map_err(|error| Trouble::of(&error))?
                    .map(|text| plain(&text))
            }
        };
        Ok(match text.map(|text| Slip::from_json(&text)) {
            None => Place::Free,
            Some(Ok(slip)) => Place::Taken(Box::new(slip)),
            Some(Err(_)) => Place::Unread,
        })
    }

    async fn put(&self, slip: &Slip) -> Result<(), Trouble> {
        let (id, text) = (&slip.entry.id, slip.to_json());
        match self {
            Self::Page(slips) => {
                slips.borrow_mut().insert(id.clone(), text);
                Ok(())
            }
            Self::Browser(_, store) => {
                let (text, id) = (JsValue::from_str(&text), JsValue::from_str(id));
                let put = store.put(&text, Some(&id)).await;
                put.map(|_| ()).map_err(|error| Trouble::of(&error))
            }
        }
    }

    async fn delete(&self, id: &str) -> Result<(), Trouble> {
        match self {
            Self::Page(slips) => {
                slips.borrow_mut().remove(id);
                Ok(())
            }
            Self::Browser(_, store) => {
                let delete = store.delete(JsValue::from_str(id)).await;
                delete.map_err(|error| Trouble::of(&error))
            }
        }
    }

    /// Waits until what was written is in the browser's hands.
    async fn done(self) -> Result<(), Trouble> {
        match self {
            Self::Page(_) => Ok(()),
            Self::Browser(transaction, _) => match transaction.done().await {
                Ok(result) if result.is_committed() => Ok(()),
                // A transaction that is given up at its end is so for want of room.
                Ok(_) => Err(Trouble::Full),
                Err(error) => Err(Trouble::of(&error)),
            },
        }
    }
}

/// A value of the database as a text, whoever wrote it.
fn plain(value: &JsValue) -> String {
    value.as_string().unwrap_or_else(|| {
        let text = js_sys::JSON::stringify(value).ok();
        text.and_then(|text| text.as_string())
            .unwrap_or_else(|| format!("{value:?}"))
    })
}
