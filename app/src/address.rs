//! The link in the address: what stands after # is a whole design.

use leptos::prelude::*;
use wasm_bindgen::JsValue;
use wasm_bindgen_futures::{JsFuture, spawn_local};

use super::files::sound;
use super::state::{Screen, Workspace};
use headwright::design::Design;
use headwright::share::link::{decode, encode};

/// Fragments that name a place on the page and are no links to a head.
const PLACES: [&str; 2] = ["", "sheet"];

/// Reads the link that the page was opened with, and every one that is put into the address
/// later; takes a link out of the address when the design moves on.
pub fn follow(workspace: Workspace) {
    let linked = StoredValue::new(None::<Design>);
    let take = move || {
        let Some(text) = fragment() else { return };
        match read(workspace, &text) {
            Ok(design) => {
                linked.set_value(Some(design.clone()));
                workspace.notice.set(None);
                workspace.bring(format!("link to {}", design.name), design, None);
                workspace.screen.set(Screen::Head);
            }
            Err(reason) => {
                clear();
                workspace.notice.set(Some(format!(
                    "The link was not opened; the present head stands. {reason}"
                )));
            }
        }
    };
    take();
    let _ = window_event_listener_untyped("hashchange", move |_| take());
    // A link that no longer says what is on the sheet would bring back the old head on reload.
    Effect::new(move |before: Option<()>| {
        let same = workspace
            .design
            .with(|design| linked.with_value(|linked| linked.as_ref() == Some(design)));
        if before.is_some() && !same && fragment().is_some() {
            clear();
        }
    });
}

/// Puts the present design into the address and into the clipboard, and says so.
pub fn copy(workspace: Workspace, said: RwSignal<Option<String>>) {
    workspace.keep();
    let link = match workspace.design.with_untracked(encode) {
        Ok(link) => link,
        Err(reason) => {
            said.set(Some(format!("There is no link for this head. {reason}")));
            return;
        }
    };
    put(&format!("#{link}"));
    let in_address = "The link stands in the address of this page: copy it from there.";
    let clipboard = window().navigator().clipboard();
    // Pages that are not served safely have no clipboard.
    if JsValue::from(clipboard.clone()).is_undefined() {
        said.set(Some(in_address.to_owned()));
        return;
    }
    let Ok(address) = window().location().href() else {
        said.set(Some(in_address.to_owned()));
        return;
    };
    spawn_local(async move {
        let copied = JsFuture::from(clipboard.write_text(&address)).await.is_ok();
        said.set(Some(
            if copied {
                "The link is copied. It opens this head in any browser."
            } else {
                in_address
            }
            .to_owned(),
        ));
    });
}

fn read(workspace: Workspace, text: &str) -> Result<Design, String> {
    let design = decode(text).map_err(|error| error.to_string())?;
    sound(&design, workspace.system.get_untracked())?;
    Ok(design)
}

/// What stands after # and may be a link.
fn fragment() -> Option<String> {
    let hash = window().location().hash().ok()?;
    let text = hash.trim_start_matches('#');
    (!PLACES.contains(&text)).then(|| text.to_owned())
}

/// Changes the address without leaving the page; an address that cannot be changed stays.
fn put(address: &str) {
    if let Ok(history) = window().history() {
        let _ = history.replace_state_with_url(&JsValue::NULL, "", Some(address));
    }
}

fn clear() {
    if let Ok(path) = window().location().pathname() {
        put(&path);
    }
}
