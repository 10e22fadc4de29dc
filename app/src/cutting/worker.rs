//! The search for a cutting list, in a thread of its own.

use std::cell::RefCell;
use std::rc::Rc;

use headwright::cut::{CuttingList, Message, Order, Progress};
use wasm_bindgen::prelude::*;
use web_sys::{ErrorEvent, MessageEvent, Worker};

/// Where Trunk puts the script that starts the worker, as seen from the page.
const SCRIPT: &str = "./headwright-cutter_loader.js";

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

/// Searches for the cutting list of `order`.
///
/// `on_progress` hears how far the search is, some ten times in a second; then `on_done` hears once the list, or in
/// sentences why there is none. Neither is called after the handle is gone.
///
/// # Errors
/// A sentence when the browser starts no worker.
pub fn start(
    order: &Order,
    on_progress: impl Fn(Progress) + 'static,
    on_done: impl FnOnce(Result<CuttingList, String>) + 'static,
) -> Result<Handle, String> {
    let order = order.write();
    let worker = Worker::new(SCRIPT).map_err(|_| NOT_STARTED.to_owned())?;
    let done = Rc::new(RefCell::new(Some(on_done)));
    let end = {
        let done = Rc::clone(&done);
        move |outcome| {
            // Taken out first: what it does may drop the handle, and with it this closure's caller.
            let done = done.borrow_mut().take();
            if let Some(done) = done {
                done(outcome);
            }
        }
    };
    let (fail, sender) = (end.clone(), worker.clone());
    let heard = Closure::<dyn FnMut(MessageEvent)>::new(move |event: MessageEvent| {
        match event.data().as_string().as_deref().and_then(Message::read) {
            Some(Message::Ready) => {
                // A text can always be sent.
                let _ = sender.post_message(&JsValue::from_str(&order));
            }
            Some(Message::Progress(progress)) => on_progress(progress),
            Some(Message::Answer { list }) => end(Ok(*list)),
            Some(Message::Refused { reason }) => end(Err(reason)),
            None => {}
        }
    });
    let failed = Closure::<dyn FnMut(ErrorEvent)>::new(move |_| fail(Err(NOT_STARTED.to_owned())));
    worker.set_onmessage(Some(heard.as_ref().unchecked_ref()));
    worker.set_onerror(Some(failed.as_ref().unchecked_ref()));
    Ok(Handle {
        worker,
        _heard: heard,
        _failed: failed,
    })
}
