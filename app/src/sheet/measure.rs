//! How wide an element is, now and whenever that changes.

use leptos::html::Div;
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use wasm_bindgen::prelude::Closure;
use web_sys::ResizeObserver;

/// Width of the inside of `host`, px; `before` until it is on the page.
pub fn width_of(host: NodeRef<Div>, before: f64) -> RwSignal<f64> {
    let width = RwSignal::new(before);
    let read = move || {
        if let Some(host) = host.get_untracked() {
            let now = f64::from(host.client_width());
            // Hidden elements have no width: what was drawn for the last one stays.
            if now > 0.0 && now != width.get_untracked() {
                width.set(now);
            }
        }
    };
    let kept = StoredValue::new_local(None::<(ResizeObserver, Closure<dyn FnMut()>)>);
    Effect::new(move || {
        let Some(element) = host.get() else {
            return;
        };
        read();
        let changed = Closure::<dyn FnMut()>::new(read);
        // Every browser the app runs in has one; without it the first width stays.
        if let Ok(observer) = ResizeObserver::new(changed.as_ref().unchecked_ref()) {
            observer.observe(&element);
            kept.set_value(Some((observer, changed)));
        }
    });
    on_cleanup(move || {
        if let Some((observer, _)) = kept.try_update_value(Option::take).flatten() {
            observer.disconnect();
        }
    });
    width
}
