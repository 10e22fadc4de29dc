//! What is done when something has rested.

use std::time::Duration;

use leptos::prelude::*;

/// One thing that waits to be done; whatever comes after takes its place.
#[derive(Clone, Copy)]
pub struct Later {
    waiting: StoredValue<Option<TimeoutHandle>>,
}

impl Later {
    /// Nothing waits yet; what waits when its owner goes is never done.
    pub fn new() -> Self {
        let later = Self {
            waiting: StoredValue::new(None),
        };
        on_cleanup(move || later.stop());
        later
    }

    /// Does `what` when `rest` is over, unless something else takes its place.
    pub fn start(self, rest: Duration, what: impl FnOnce() + 'static) {
        self.stop();
        self.waiting
            .set_value(set_timeout_with_handle(what, rest).ok());
    }

    /// What waits is not done.
    pub fn stop(self) {
        if let Some(handle) = self.waiting.try_update_value(Option::take).flatten() {
            handle.clear();
        }
    }
}
