//! What is said between the page and the worker that searches: JSON texts.

use serde::{Deserialize, Serialize};

use super::order::Order;
use super::plan::CuttingList;
use super::search::{Progress, Search};

/// What the worker says. The page says one thing, an [`Order`] as JSON, once it has heard [`Message::Ready`]; it
/// stops a search by ending the worker.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(tag = "kind", rename_all = "snake_case")]
pub enum Message {
    /// An order may be sent.
    Ready,
    /// How far the search is.
    Progress(Progress),
    /// The best list so far: the first one, and each that is better. Its bound is the last progress's, if that came
    /// later.
    Better {
        /// The cutting list.
        list: Box<CuttingList>,
    },
    /// The end of the search.
    Answer {
        /// The cutting list.
        list: Box<CuttingList>,
    },
    /// The order cannot be cut.
    Refused {
        /// Why, in sentences.
        reason: String,
    },
}

impl Message {
    /// The message as JSON.
    pub fn write(&self) -> String {
        // No key of it is anything but a string, the one thing that would not go into JSON.
        serde_json::to_string(self).unwrap_or_default()
    }

    /// Reads what [`Message::write`] wrote; nothing when it is something else.
    pub fn read(text: &str) -> Option<Self> {
        serde_json::from_str(text).ok()
    }
}

/// Works through an order as it was sent: `say` hears of the progress after every `budget` units of work (see
/// [`Search::step`]), before it of the best list when there is a new one, and last the answer or why there is none.
pub fn answer(order: &str, budget: u64, mut say: impl FnMut(Message)) {
    let search = Order::read(order)
        .map_err(|error| error.to_string())
        .and_then(|order| Search::new(order).map_err(|errors| errors.to_string()));
    match search {
        Err(reason) => say(Message::Refused { reason }),
        Ok(mut search) => {
            let mut said = None;
            loop {
                let progress = search.step(budget);
                let list = || Box::new(search.list());
                if progress.done {
                    say(Message::Answer { list: list() });
                    break;
                }
                if said.replace(search.bettered()) != Some(search.bettered()) {
                    say(Message::Better { list: list() });
                }
                say(Message::Progress(progress));
            }
        }
    }
}
