//! Texts under ids in a store of the browser's database, or in the page's memory where there is none.
//!
//! The library, rexie, is in the parts alone that use this.

use std::cell::RefCell;
use std::collections::BTreeMap;
use std::rc::Rc;

use rexie::{Error, ObjectStore, Rexie, Store, Transaction, TransactionMode};
use wasm_bindgen::JsValue;

/// The version of every database of the page; the texts in it have one of their own.
const VERSION: u32 = 1;

/// Where texts are kept.
pub enum Texts {
    /// In the browser's database.
    Browser(Database),
    /// In the page, until it is closed.
    Page(RefCell<BTreeMap<String, String>>),
}

/// A store of a database of the browser's.
pub struct Database {
    name: &'static str,
    store: &'static str,
    /// Another in its place where the browser has closed it.
    connection: RefCell<Rc<Rexie>>,
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
}

/// One look at the texts, during which nobody else changes them.
pub enum Look<'a> {
    /// Into the browser's.
    Browser(Transaction, Store),
    /// Into the page's.
    Page(&'a RefCell<BTreeMap<String, String>>),
}

impl Texts {
    /// The browser's, in `store` of `database`.
    ///
    /// # Errors
    /// The browser has none, does not open it, or a newer program was there.
    pub async fn open(name: &'static str, store: &'static str) -> Result<Self, Trouble> {
        let connection = connected(name, store).await?;
        let texts = Self::Browser(Database {
            name,
            store,
            connection: RefCell::new(Rc::new(connection)),
        });
        // Some browsers open what they do not let anybody read.
        texts.to_read().await?.all().await?;
        Ok(texts)
    }

    /// Some that last as long as the page.
    pub fn of_the_page() -> Self {
        Self::Page(RefCell::default())
    }

    /// Whether they last longer than the page.
    pub fn last(&self) -> bool {
        matches!(self, Self::Browser(_))
    }

    /// A look that changes nothing.
    ///
    /// # Errors
    /// The browser refuses.
    pub async fn to_read(&self) -> Result<Look<'_>, Trouble> {
        self.look(TransactionMode::ReadOnly).await
    }

    /// A look that may change them.
    ///
    /// # Errors
    /// The browser refuses.
    pub async fn to_write(&self) -> Result<Look<'_>, Trouble> {
        self.look(TransactionMode::ReadWrite).await
    }

    async fn look(&self, mode: TransactionMode) -> Result<Look<'_>, Trouble> {
        match self {
            Self::Page(texts) => Ok(Look::Page(texts)),
            Self::Browser(database) => database.look(mode).await,
        }
    }
}

impl Database {
    async fn look(&self, mode: TransactionMode) -> Result<Look<'static>, Trouble> {
        let open = |connection: &Rexie| {
            let transaction = connection.transaction(&[self.store], mode)?;
            let store = transaction.store(self.store)?;
            Ok(Look::Browser(transaction, store))
        };
        let connection = self.connection.borrow().clone();
        if let Ok(look) = open(&connection) {
            return Ok(look);
        }
        // A browser closes a connection when it clears its storage or the storage's process died.
        let connection = Rc::new(connected(self.name, self.store).await?);
        self.connection.replace(connection.clone());
        open(&connection).map_err(|error| Trouble::of(&error))
    }
}

/// Another connection to the database of this name, which has this store.
async fn connected(name: &str, store: &str) -> Result<Rexie, Trouble> {
    let opened = Rexie::builder(name)
        .version(VERSION)
        .add_object_store(ObjectStore::new(store))
        .build()
        .await;
    opened.map_err(|error| Trouble::of(&error))
}

impl Look<'_> {
    /// Every text with its id.
    ///
    /// # Errors
    /// The browser refuses.
    pub async fn all(&self) -> Result<Vec<(String, String)>, Trouble> {
        match self {
            Self::Page(texts) => Ok(texts.borrow().clone().into_iter().collect()),
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

    /// The text at `id`.
    ///
    /// # Errors
    /// The browser refuses.
    pub async fn text(&self, id: &str) -> Result<Option<String>, Trouble> {
        match self {
            Self::Page(texts) => Ok(texts.borrow().get(id).cloned()),
            Self::Browser(_, store) => {
                let text = store.get(JsValue::from_str(id)).await;
                let text = text.map_err(|error| Trouble::of(&error))?;
                Ok(text.map(|text| plain(&text)))
            }
        }
    }

    /// Puts `text` at `id`.
    ///
    /// # Errors
    /// The browser refuses.
    pub async fn put(&self, id: &str, text: String) -> Result<(), Trouble> {
        match self {
            Self::Page(texts) => {
                texts.borrow_mut().insert(id.to_owned(), text);
                Ok(())
            }
            Self::Browser(_, store) => {
                let (text, id) = (JsValue::from_str(&text), JsValue::from_str(id));
                let put = store.put(&text, Some(&id)).await;
                put.map(|_| ()).map_err(|error| Trouble::of(&error))
            }
        }
    }

    /// Takes the text at `id` away.
    ///
    /// # Errors
    /// The browser refuses.
    pub async fn delete(&self, id: &str) -> Result<(), Trouble> {
        match self {
            Self::Page(texts) => {
                texts.borrow_mut().remove(id);
                Ok(())
            }
            Self::Browser(_, store) => {
                let delete = store.delete(JsValue::from_str(id)).await;
                delete.map_err(|error| Trouble::of(&error))
            }
        }
    }

    /// Waits until what was written is in the browser's hands.
    ///
    /// # Errors
    /// The browser refuses; then nothing is written.
    pub async fn done(self) -> Result<(), Trouble> {
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
