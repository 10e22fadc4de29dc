//! The worker in which cutting lists are searched for: an order comes in, progress and the list go out.
//!
//! What is said is [`headwright::cut::Message`]. The page stops a search by ending the worker.

use headwright::cut::{Message, answer};
use wasm_bindgen::prelude::*;
use web_sys::{DedicatedWorkerGlobalScope, MessageEvent};

/// Work between two reports: some fiftieth of a second.
const BUDGET: u64 = 2_000_000;

fn main() {
    // A panic would be a fault of ours; the hook writes it to the console and nowhere else.
    console_error_panic_hook::set_once();
    let Ok(scope) = js_sys::global().dyn_into::<DedicatedWorkerGlobalScope>() else {
        return;
    };
    let listener = scope.clone();
    let heard = Closure::<dyn Fn(MessageEvent)>::new(move |event: MessageEvent| {
        let order = event.data().as_string().unwrap_or_default();
        answer(&order, BUDGET, |message| say(&listener, &message));
    });
    scope.set_onmessage(Some(heard.as_ref().unchecked_ref()));
    // It listens as long as the worker lives.
    heard.forget();
    say(&scope, &Message::Ready);
}

fn say(scope: &DedicatedWorkerGlobalScope, message: &Message) {
    // A text can always be sent.
    let _ = scope.post_message(&JsValue::from_str(&message.write()));
}
