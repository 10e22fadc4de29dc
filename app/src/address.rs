//! The link in the address: what stands after # is a whole design.

use leptos::prelude::*;
use wasm_bindgen::JsValue;
use wasm_bindgen_futures::{JsFuture, spawn_local};

use super::fetched;
use super::files::sound;
use super::state::{Screen, Workspace};
use headwright::design::Design;
use headwright::share::offer::is_offered;

/// Fragments that name a place on the page and are no links to a head.
const PLACES: [&str; 2] = ["", "sheet"];

/// Reads the link that the page was opened with, and every one that is put into the address
/// later; takes a link out of the address when the design moves on.
pub fn follow(workspace: Workspace) {
    let linked = StoredValue::new(None::<Design>);
    let open = move |text: String| async move {
        workspace.opening.set(true);
        let read = read(workspace, text.clone()).await;
        workspace.opening.set(false);
        // Another one may have been put there while this one was read.
        if fragment() != Some(text) {
            return;
        }
        match read {
            Ok(design) => {
                linked.set_value(Some(design.clone()));
                workspace.notice.set(None);
                workspace.bring(format!("link to {}", design.name), design, None);
                workspace.screen.set(Screen::Head);
            }
            Err(Refused { reason, stays }) => {
                if !stays {
                    clear();
                }
                workspace.notice.set(Some(format!(
                    "The link was not opened; the present head stands. {reason}"
                )));
            }
        }
    };
    let take = move || match fragment() {
        Some(text) if is_offered(&text) => {
            workspace.keep();
            workspace.customer_link.set(Some(text));
            workspace.screen.set(Screen::Customer);
        }
        Some(text) => spawn_local(open(text)),
        None => {}
    };
    take();
    let _ = window_event_listener_untyped("hashchange", move |_| take());
    // A link that no longer says what is on the sheet would bring back the old head on reload.
    Effect::new(move |before: Option<()>| {
        let same = workspace
            .design
            .with(|design| linked.with_value(|linked| linked.as_ref() == Some(design)));
        let is_offer = workspace.screen.get_untracked() == Screen::Customer;
        let kept = same || is_offer || workspace.opening.get_untracked();
        if before.is_some() && !kept && fragment().is_some() {
            clear();
        }
    });
}

/// Puts the present design into the address and into the clipboard, and says so.
pub fn copy(workspace: Workspace, said: RwSignal<Option<String>>) {
    workspace.keep();
    let design = workspace.design.get_untracked();
    spawn_local(async move {
        let written = fetched::write_link(design.clone()).await;
        // One that the head has left behind would bring the old one back on reload.
        if workspace.design.with_untracked(|now| *now != design) {
            return;
        }
        let sentence = match written {
            Ok(Ok(link)) => copied(&link).await.to_owned(),
            Ok(Err(reason)) => format!("There is no link for this head. {reason}"),
            Err(_) => {
                "What writes links could not be fetched. Try again when you have a connection."
                    .to_owned()
            }
        };
        said.set(Some(sentence));
    });
}

/// Puts `link` into the address and, where the browser lets it, into the clipboard: where it is now, in a sentence.
async fn copied(link: &str) -> &'static str {
    const IN_ADDRESS: &str = "The link stands in the address of this page: copy it from there.";
    put(&format!("#{link}"));
    let Ok(address) = window().location().href() else {
        return IN_ADDRESS;
    };
    if in_clipboard(&address).await {
        "The link is copied. It opens this head in any browser."
    } else {
        IN_ADDRESS
    }
}

/// Whether `text` is in the clipboard now.
pub async fn in_clipboard(text: &str) -> bool {
    let clipboard = window().navigator().clipboard();
    // Pages that are not served safely have no clipboard.
    if JsValue::from(clipboard.clone()).is_undefined() {
        return false;
    }
    JsFuture::from(clipboard.write_text(text)).await.is_ok()
}

/// Where `link` leads to, as a whole address.
pub fn whole(link: &str) -> String {
    let here = window().location().href().unwrap_or_default();
    let page = here.split_once('#').map_or(here.as_str(), |(page, _)| page);
    format!("{page}#{link}")
}

/// Leaves the offer or the answer of a link, which goes out of the address, for the head on the sheet.
pub fn leave_offer(workspace: Workspace) {
    clear();
    workspace.screen.set(Screen::Head);
}

/// Why a link was not opened.
struct Refused {
    reason: String,
    /// Whether it may be opened another time, and stays in the address for that.
    stays: bool,
}

async fn read(workspace: Workspace, text: String) -> Result<Design, Refused> {
    let never = |reason: String| Refused {
        reason,
        stays: false,
    };
    let design = fetched::read_link(text)
        .await
        .map_err(|_| Refused {
            reason: "What reads links could not be fetched: load the page again when you have a connection."
                .to_owned(),
            stays: true,
        })?
        .map_err(|error| never(error.to_string()))?;
    sound(&design, workspace.system.get_untracked()).map_err(never)?;
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
