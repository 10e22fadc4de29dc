//! Where slips are kept: the browser's database, or the page's memory where there is none.

use super::super::journal::Entered;
use super::super::texts::{Look, Texts, Trouble};
use headwright::design::Design;
use headwright::rack::{Parts, Place, Slip, Step, Taking, Work, mark};

/// Name of the database.
const DATABASE: &str = "headwright";
/// The store of slips, each a text under its id.
const SLIPS: &str = "slips";

/// Where slips are kept.
pub struct Shelf(Texts);

/// What is said of a trouble.
pub fn sentence(trouble: Trouble) -> &'static str {
    match trouble {
        Trouble::Full => {
            "The browser’s storage is full: the latest changes are not on the rack. Save the head as a file, then remove something from the rack, or save the rack as a file."
        }
        Trouble::Newer => {
            "The rack in this browser was written by a newer Headwright: this one leaves it alone, and keeps its own rack until the page is closed. Reload the app, and save as a file what you want to keep."
        }
        Trouble::Refused => {
            "This browser lets the page keep no rack: it stands until the page is closed. Save as a file what you want to keep."
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

impl Shelf {
    /// The browser's.
    ///
    /// # Errors
    /// The browser has none, does not open it, or a newer program was there.
    pub async fn open() -> Result<Self, Trouble> {
        Texts::open(DATABASE, SLIPS).await.map(Self)
    }

    /// One that lasts as long as the page.
    pub fn of_the_page() -> Self {
        Self(Texts::of_the_page())
    }

    /// Whether it lasts longer than the page.
    pub fn lasts(&self) -> bool {
        self.0.last()
    }

    /// Every text with its id.
    ///
    /// # Errors
    /// The browser refuses.
    pub async fn all(&self) -> Result<Vec<(String, String)>, Trouble> {
        self.0.to_read().await?.all().await
    }

    /// What stands at `id`.
    ///
    /// # Errors
    /// The browser refuses.
    pub async fn place(&self, id: &str) -> Result<Place, Trouble> {
        place(&self.0.to_read().await?, id).await
    }

    /// Takes `work` up; nothing when it is on no rack.
    ///
    /// # Errors
    /// The browser refuses; a work whose design cannot be read is refused too.
    pub async fn take_up(&self, work: &Work) -> Result<Option<Taken>, Trouble> {
        let Some(mut taking) = Taking::of(work).map_err(|_| Trouble::Refused)? else {
            return Ok(None);
        };
        let look = self.0.to_write().await?;
        loop {
            let place = place(&look, taking.id()).await?;
            match taking.found(&place) {
                Step::Look(_) => {}
                Step::Write(slip) => {
                    put(&look, &slip).await?;
                    look.done().await?;
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
        let look = self.0.to_write().await?;
        let all = look.all().await?;
        let (slips, answer) = change(&all);
        for slip in &slips {
            put(&look, slip).await?;
        }
        look.done().await?;
        Ok(answer)
    }

    /// Takes what is marked as removed off the shelf for good.
    ///
    /// # Errors
    /// The browser refuses.
    pub async fn clear(&self, ids: &[String]) -> Result<(), Trouble> {
        let look = self.0.to_write().await?;
        for id in ids {
            if matches!(place(&look, id).await?, Place::Taken(slip) if slip.removed) {
                look.delete(id).await?;
            }
        }
        look.done().await
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

async fn place(look: &Look<'_>, id: &str) -> Result<Place, Trouble> {
    let text = look.text(id).await?;
    Ok(match text.map(|text| Slip::from_json(&text)) {
        None => Place::Free,
        Some(Ok(slip)) => Place::Taken(Box::new(slip)),
        Some(Err(_)) => Place::Unread,
    })
}

async fn put(look: &Look<'_>, slip: &Slip) -> Result<(), Trouble> {
    look.put(&slip.entry.id, slip.to_json()).await
}
