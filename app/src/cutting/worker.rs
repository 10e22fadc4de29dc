//! The search for a cutting list, in a thread of its own.

use std::cell::Cell;
use std::rc::Rc;

use headwright::cut::{CuttingList, Message, Order, Progress};
use leptos::prelude::document;
use wasm_bindgen::prelude::*;
use web_sys::{ErrorEvent, MessageEvent, Worker};

/// What of the page names the script that starts the worker: the one of its own build, which `.ci/split` puts there.
const NAMED: &str = "meta[name=cutter]";

const BROKEN: &str = "The search broke off before its end";

const NOT_STARTED: &str = "The search could not start in this browser. Load the page again, and if this stays, use a newer browser.";

/// A search that runs. Dropping it ends it, and nothing more is heard of it.
pub struct Handle {
    worker: Worker,
    // What the worker calls; to be kept as long as it may call.
    _heard: Closure<dyn FnMut(MessageEvent)>,
    _failed: Closure<dyn FnMut(ErrorEvent)>,
}

impl Drop for Handle {
    fn drop(&mut self) {
        self.worker.set_onmessage(None);
        self.worker.set_onerror(None);
        self.worker.terminate();
    }
}

/// What is heard of a search.
pub enum Heard {
    /// How far it is.
    Progress(Progress),
    /// The best list so far.
    Better(Box<CuttingList>),
    /// The list: the end.
    Done(Box<CuttingList>),
    /// Why there is none: the end.
    Refused(String),
    /// In a sentence, how it failed: the end.
    Failed(String),
}

/// Searches for the cutting list of `order`; `hear` hears of it until the end or until the handle is gone.
///
/// # Errors
/// A sentence when the browser starts no worker.
pub fn start(order: &Order, hear: impl Fn(Heard) + 'static) -> Result<Handle, String> {
    let order = order.write();
    let named = document().query_selector(NAMED).ok().flatten();
    let script = named.and_then(|meta| meta.get_attribute("content"));
    let script = script.ok_or_else(|| NOT_STARTED.to_owned())?;
    let worker = Worker::new(&script).map_err(|_| NOT_STARTED.to_owned())?;
    let sender = worker.clone();
    let hear = Rc::new(hear);
    let began = Rc::new(Cell::new(false));
    let heard = {
        let (hear, began) = (Rc::clone(&hear), Rc::clone(&began));
        Closure::<dyn FnMut(MessageEvent)>::new(move |event: MessageEvent| {
            match event.data().as_string().as_deref().and_then(Message::read) {
                Some(Message::Ready) => {
                    began.set(true);
                    // A text can always be sent.
                    let _ = sender.post_message(&JsValue::from_str(&order));
                }
                Some(Message::Progress(progress)) => hear(Heard::Progress(progress)),
                Some(Message::Better { list }) => hear(Heard::Better(list)),
                Some(Message::Answer { list }) => hear(Heard::Done(list)),
                Some(Message::Refused { reason }) => hear(Heard::Refused(reason)),
                None => {}
            }
        })
    };
    let failed = Closure::<dyn FnMut(ErrorEvent)>::new(move |event: ErrorEvent| {
        hear(Heard::Failed(if began.get() {
            broken(&event.message())
        } else {
            NOT_STARTED.to_owned()
        }));
    });
    worker.set_onmessage(Some(heard.as_ref().unchecked_ref()));
    worker.set_onerror(Some(failed.as_ref().unchecked_ref()));
    Ok(Handle {
        worker,
        _heard: heard,
        _failed: failed,
    })
}

/// That a search broke off, and what the browser says of it.
fn broken(message: &str) -> String {
    match message.trim() {
        "" => format!("{BROKEN}."),
        said => format!("{BROKEN}: {said}."),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_the_browser_says_of_a_search_that_broke_off_is_passed_on() {
        assert_eq!(broken(" "), "The search broke off before its end.");
        assert_eq!(
            broken("out of memory"),
            "The search broke off before its end: out of memory."
        );
    }
}
