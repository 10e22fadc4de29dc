//! Files in and out: the design, and the head's shape.

use leptos::prelude::*;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::{JsFuture, spawn_local};
use web_sys::{Blob, BlobPropertyBag, File, HtmlAnchorElement, HtmlInputElement, Url};

use super::fetched;
use super::state::{Offered, Workspace};
use headwright::design::Design;
use headwright::mesh::Format;
use headwright::units::System;

/// Ending of a design file.
pub const ENDING: &str = "headwright.json";
/// A design file is a few kilobytes; what is larger than this is something else.
const LARGEST: f64 = 1e6;
/// Name of the file for a text that could not be read.
const UNREAD: &str = "headwright-unread.json";

/// Offers the present design as a file.
pub fn save_design(workspace: Workspace) {
    let (name, text) = workspace
        .design
        .with_untracked(|design| (file_name(&design.name, ENDING), design.to_json()));
    offer(
        workspace,
        &name,
        "application/json",
        &JsValue::from_str(&text),
    );
}

/// Offers what goes with a sentence.
pub fn save_offered(workspace: Workspace, offered: &Offered) {
    match &offered.text {
        Some(text) => save_text(workspace, UNREAD, text),
        None => save_design(workspace),
    }
}

/// Offers `text` as a file called `name`, a JSON file.
pub fn save_text(workspace: Workspace, name: &str, text: &str) {
    offer(
        workspace,
        name,
        "application/json",
        &JsValue::from_str(text),
    );
}

/// Offers the last sound head as a file for printers or viewers.
pub fn save_shape(workspace: Workspace, format: Format) {
    let head = workspace
        .design
        .with_untracked(|design| design.name.clone());
    let mass = workspace.properties.with_untracked(|mass| mass.mass);
    let solid = workspace.sound.get_untracked();
    spawn_local(async move {
        let name = file_name(&head, format.ending());
        match fetched::shape(solid, format, head, mass).await {
            Ok(bytes) => {
                let bytes = js_sys::Uint8Array::from(bytes.as_slice());
                offer(workspace, &name, format.media_type(), &bytes);
            }
            Err(_) => workspace.notice.set(Some(format!(
                "The file {name} was not written: what writes it could not be fetched. Try again when you have a connection."
            ))),
        }
    });
}

/// Offers `content`, a text or bytes, as a file called `name`.
pub fn offer(workspace: Workspace, name: &str, kind: &str, content: &JsValue) {
    if save(name, kind, content).is_err() {
        workspace.notice.set(Some(format!(
            "This browser did not take the file {name}. Try another browser, or copy the link."
        )));
    }
}

fn save(name: &str, kind: &str, content: &JsValue) -> Result<(), JsValue> {
    let parts = js_sys::Array::of1(content);
    let properties = BlobPropertyBag::new();
    properties.set_type(kind);
    let blob = Blob::new_with_str_sequence_and_options(&parts, &properties)?;
    let address = Url::create_object_url_with_blob(&blob)?;
    let anchor: HtmlAnchorElement = document().create_element("a")?.unchecked_into();
    anchor.set_href(&address);
    anchor.set_download(name);
    anchor.click();
    // The browser has taken the content when the click returns.
    Url::revoke_object_url(&address)
}

/// `name` as the name of a file with this ending: letters and digits, the rest as hyphens.
pub fn file_name(name: &str, ending: &str) -> String {
    let hyphened: String = name
        .chars()
        .map(|c| if c.is_alphanumeric() { c } else { '-' })
        .collect();
    let words: Vec<&str> = hyphened
        .split('-')
        .filter(|word| !word.is_empty())
        .collect();
    let stem = words.join("-").to_lowercase();
    let stem = if stem.is_empty() { "head" } else { &stem };
    format!("{stem}.{ending}")
}

/// A button that opens a design file.
#[component]
pub fn Open() -> impl IntoView {
    let workspace = Workspace::here();
    view! {
        <label class="plain open-file">
            "open a file"
            <input
                type="file"
                accept=".json,application/json"
                on:change:target=move |event| {
                    let input = event.target();
                    if let Some(file) = input.files().and_then(|files| files.get(0)) {
                        read(workspace, file, input);
                    }
                }
            />
        </label>
    }
}

fn read(workspace: Workspace, file: File, input: HtmlInputElement) {
    spawn_local(async move {
        let name = file.name();
        let said = if file.size() > LARGEST {
            Err("It is too large to be a design file.".to_owned())
        } else {
            match JsFuture::from(file.text())
                .await
                .map(|text| text.as_string())
            {
                Ok(Some(text)) => take(workspace, &name, &text),
                _ => Err("The browser could not read it.".to_owned()),
            }
        };
        workspace.notice.set(said.err().map(|reason| {
            format!("The file {name} was not opened; the present head stands. {reason}")
        }));
        // The same file may be chosen again after it was mended.
        input.set_value("");
    });
}

fn take(workspace: Workspace, name: &str, text: &str) -> Result<(), String> {
    let design = Design::from_json(text).map_err(|error| error.to_string())?;
    sound(&design, workspace.system.get_untracked())?;
    workspace.bring(format!("file {name}"), design, None);
    Ok(())
}

/// Refuses an unsound design in its own sentences.
///
/// # Errors
/// All reasons in a row.
pub fn sound(design: &Design, system: System) -> Result<(), String> {
    match design.build() {
        Ok(_) => Ok(()),
        Err(errors) => {
            let sentences: Vec<String> = errors.iter().map(|e| e.sentence(system)).collect();
            Err(sentences.join(" "))
        }
    }
}

#[cfg(test)]
mod tests {
    use super::file_name;

    #[test]
    fn a_file_is_named_after_its_head() {
        assert_eq!(
            file_name("Striker’s sledge, no. 2", "stl"),
            "striker-s-sledge-no-2.stl"
        );
        assert_eq!(file_name(" / ", "stl"), "head.stl");
    }
}
