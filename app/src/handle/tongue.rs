//! Shoulder, tongue and kerf.

use leptos::prelude::*;

use super::super::pick::{Pick, Tick};
use super::super::state::Workspace;
use super::row::{LengthRow, with_size};
use super::{apply, usual};
use headwright::handle::{Handle, HandleError, Shoulder};
use headwright::units::Length;

const SHOULDERS: [(&str, Shoulder); 2] = [
    ("fills the lower mouth", Shoulder::FillsMouth),
    ("none", Shoulder::None),
];

/// `handle` with a usual kerf for `usual`, or without kerf and wedge.
fn with_kerf(handle: &mut Handle, usual: Handle, on: bool) {
    handle.kerf = usual.kerf.filter(|_| on);
    if !on {
        // There is nothing to drive it into.
        handle.wedge = None;
    }
}

/// The fields.
#[component]
pub fn Fields() -> impl IntoView {
    let workspace = Workspace::here();
    let shoulder = Memo::new(move |_| workspace.design.with(|d| d.handle.shoulder));
    let sawn = Memo::new(move |_| workspace.design.with(|d| d.handle.kerf.is_some()));
    let word = move || {
        let now = shoulder.get();
        let found = SHOULDERS.into_iter().find(|(_, shoulder)| *shoulder == now);
        found.map_or("", |(word, _)| word)
    };
    let choose = move |chosen: String| {
        if let Some((_, shoulder)) = SHOULDERS.into_iter().find(|(word, _)| *word == chosen) {
            apply(workspace, |handle| handle.shoulder = shoulder);
        }
    };
    let saw = move |on: bool| {
        let usual = usual(workspace);
        apply(workspace, |handle| with_kerf(handle, usual, on));
    };
    view! {
        <div class="rows" role="group" aria-labelledby="tongue">
            <h3 id="tongue">"tongue and kerf"</h3>
            <Pick
                label="shoulder"
                of="tongue"
                options=SHOULDERS.map(|(word, _)| word).to_vec()
                chosen=Signal::derive(word)
                choose=choose
            />
            <LengthRow
                id="tongue-proud"
                label="stands out of the eye"
                of="tongue"
                get=|handle: Handle| Some(handle.proud)
                set=|(mut handle, length): (Handle, Option<Length>)| {
                    handle.proud = length.unwrap_or(handle.proud);
                    handle
                }
                concerns=|error: HandleError| matches!(
                    error,
                    HandleError::Size { what: "What the tongue stands out of the eye", .. }
                )
            />
            <Tick label="a kerf is sawn" of="tongue" on=sawn choose=saw />
            <Show when=move || sawn.get()>
                <LengthRow
                    id="kerf-depth"
                    label="depth"
                    of="kerf"
                    get=|handle: Handle| handle.kerf.map(|kerf| kerf.depth)
                    set=|(handle, length)| {
                        with_size(handle, length, |handle| handle.kerf.as_mut().map(|kerf| &mut kerf.depth))
                    }
                    concerns=|error: HandleError| matches!(
                        error,
                        HandleError::Size { what: "The depth of the kerf", .. }
                            | HandleError::TooDeep { what: "The kerf", .. }
                    )
                />
                <LengthRow
                    id="kerf-width"
                    label="width"
                    of="kerf"
                    get=|handle: Handle| handle.kerf.map(|kerf| kerf.width)
                    set=|(handle, length)| {
                        with_size(handle, length, |handle| handle.kerf.as_mut().map(|kerf| &mut kerf.width))
                    }
                    concerns=|error: HandleError| matches!(
                        error,
                        HandleError::Size { what: "The width of the kerf", .. }
                            | HandleError::KerfTooWide { .. }
                    )
                />
            </Show>
        </div>
    }
}
