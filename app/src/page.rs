//! The page and the others that are open: what lasts as long as it, and what they tell each other.

use leptos::prelude::*;
use wasm_bindgen::closure::Closure;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::BroadcastChannel;

/// The topmost owner: what it has stays when the sheet goes that began it.
pub fn owner() -> Owner {
    let mut page = Owner::current().unwrap_or_default();
    while let Some(above) = page.parent() {
        page = above;
    }
    page
}

/// What pages tell each other: that something which they all show is another.
#[derive(Clone, Copy)]
pub struct Channel(StoredValue<Option<BroadcastChannel>, LocalStorage>);

impl Channel {
    /// One on which nothing is told yet.
    pub fn new() -> Self {
        Self(StoredValue::new_local(None))
    }

    /// Listens to what other pages tell on the channel of this name, as long as the page is there.
    pub fn listen(self, name: &str, heard: impl Fn() + 'static) {
        let Ok(channel) = BroadcastChannel::new(name) else {
            return;
        };
        let heard = Closure::<dyn Fn()>::new(heard);
        channel.set_onmessage(Some(heard.as_ref().unchecked_ref()));
        heard.forget();
        self.0.set_value(Some(channel));
    }

    /// Tells the other pages.
    pub fn tell(self) {
        self.0.with_value(|channel| {
            if let Some(channel) = channel {
                // A page that is not told sees it when it is opened the next time.
                let _ = channel.post_message(&JsValue::TRUE);
            }
        });
    }
}
