//! The page without a network: a service worker keeps all files of its version, and a newer version is taken up at a
//! press, or at once when the page has only just been opened.

use leptos::prelude::*;
use wasm_bindgen::closure::Closure;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::{JsFuture, spawn_local};
use web_sys::{
    ServiceWorker, ServiceWorkerContainer, ServiceWorkerRegistration, ServiceWorkerState,
};

use super::state::Workspace;

/// The file of the service worker, `public/offline.js`.
const WORKER: &str = "offline.js";
/// What it is told when it is to take over.
const TAKE_OVER: &str = "take over";

/// Keeps the app for visits without a network, and gives a newer version that waits to be taken up. A browser that
/// cannot do that needs a network at every visit.
pub fn follow() -> RwSignal<Option<Waiting>, LocalStorage> {
    let newer = RwSignal::new_local(None::<Waiting>);
    let container = window().navigator().service_worker();
    // Pages that are not served safely have none.
    if JsValue::from(container.clone()).is_undefined() {
        return newer;
    }
    let workspace = Workspace::here();
    spawn_local(async move {
        let Ok(registered) = JsFuture::from(container.register(WORKER)).await else {
            return;
        };
        let Ok(registration) = registered.dyn_into::<ServiceWorkerRegistration>() else {
            return;
        };
        if let Some(worker) = registration.waiting() {
            // It was there before this page was opened: nothing has been done on it yet.
            Waiting { worker, container }.take_up(workspace);
            return;
        }
        follow_updates(&registration, container, newer);
    });
    newer
}

/// Notes in `newer` what is installed while the page is open.
fn follow_updates(
    registration: &ServiceWorkerRegistration,
    container: ServiceWorkerContainer,
    newer: RwSignal<Option<Waiting>, LocalStorage>,
) {
    let source = registration.clone();
    let found = Closure::<dyn FnMut()>::new(move || {
        let Some(worker) = source.installing() else {
            return;
        };
        let (installing, container) = (worker.clone(), container.clone());
        let changed = Closure::<dyn FnMut()>::new(move || {
            // The very first one takes over by itself: no other is there before it.
            if installing.state() == ServiceWorkerState::Installed
                && container.controller().is_some()
            {
                newer.set(Some(Waiting {
                    worker: installing.clone(),
                    container: container.clone(),
                }));
            }
        });
        worker.set_onstatechange(Some(changed.as_ref().unchecked_ref()));
        // As long as the page: a worker changes its state at any time.
        changed.forget();
    });
    registration.set_onupdatefound(Some(found.as_ref().unchecked_ref()));
    found.forget();
}

/// A newer version that waits to take over.
#[derive(Clone)]
pub struct Waiting {
    worker: ServiceWorker,
    container: ServiceWorkerContainer,
}

impl Waiting {
    /// Keeps the design, lets the newer version take over, and loads the page again when it has.
    fn take_up(&self, workspace: Workspace) {
        workspace.keep();
        workspace.journal.note(workspace);
        let reload = Closure::once_into_js(|| {
            // A page that cannot load itself again goes on with the version that it is.
            let _ = window().location().reload();
        });
        self.container
            .set_oncontrollerchange(Some(reload.unchecked_ref()));
        // A worker that is gone by now has been replaced by a newer one, which takes over at the next visit.
        let _ = self.worker.post_message(&JsValue::from_str(TAKE_OVER));
    }
}

/// That a newer version is there, and the press that takes it up.
#[component]
pub fn Newer(
    /// The version, once there is one.
    newer: RwSignal<Option<Waiting>, LocalStorage>,
) -> impl IntoView {
    let workspace = Workspace::here();
    move || {
        newer.get().map(|waiting| {
            view! {
                <div class="notice" role="status">
                    <p>"A newer version of Headwright is here. The head stays as it is."</p>
                    <button type="button" class="plain" on:click=move |_| waiting.take_up(workspace)>
                        "take it up"
                    </button>
                </div>
            }
        })
    }
}
