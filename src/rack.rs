//! Which designs are kept, and how does their keeping never lose one?
//!
//! Plain data and pure functions: where a text is kept, what the time is and what a new id is called come from
//! outside. A [`Rack`] is what a rack file holds; a [`Slip`] is what is kept of one entry in one place, and [`Work`]
//! what a page has on its sheet, on its way there ([`Taking`]).

mod entry;
mod error;
mod file;
mod merge;
mod search;
mod slip;
mod tags;
mod taking;
mod work;

pub use entry::{Entry, LATEST, LONGEST_ID, Unread};
pub(crate) use entry::{Written, is_id};
pub use error::RackError;
pub(crate) use file::{BesideRead, BesideWritten};
pub use file::{FILE_VERSION, FORMAT, MOST_BYTES, Rack, SCHEMA_ID, schema};
pub use merge::{Arrival, Arrived};
pub use search::finds;
pub use slip::{Slip, VERSION};
pub use tags::{LONGEST_TAG, MOST_TAGS, TagError, read_tags};
pub use taking::{Place, Step, Taking};
pub use work::{MOST_STATES, Parts, Work, joined, mark};
