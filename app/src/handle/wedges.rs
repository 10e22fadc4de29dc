//! The wedge in the kerf, and the steel wedge across.

use leptos::prelude::*;

use super::super::pick::Tick;
use super::super::state::Workspace;
use super::super::words;
use super::row::{LengthRow, with_size};
use super::wood::WoodRows;
use super::worked::Worked;
use super::{apply, usual};
use headwright::handle::{CrossWedge as Cross, Handle, HandleError, Made};
use headwright::units::Length;

/// Thickness of a cross wedge to begin with, mm.
const CROSS_THICK_MM: f64 = 3.0;
/// How deep one goes, mm, and its share of the tongue's width.
const CROSS_LENGTH_MM: f64 = 20.0;
const CROSS_SHARE: f64 = 0.6;

/// A cross wedge to begin with, for the tongue of `made`.
fn cross(made: &Made) -> Cross {
    let whole = |mm: f64| Length::mm(mm.floor().max(2.0));
    Cross {
        length: whole(CROSS_LENGTH_MM.min(0.5 * made.tongue.length_mm)),
        thick: Length::mm(CROSS_THICK_MM),
        width: whole(CROSS_SHARE * made.tongue.section.width_mm),
    }
}

/// The fields of the wedge.
#[component]
pub fn Wedge() -> impl IntoView {
    let workspace = Workspace::here();
    let tool = Worked::here().tool;
    let driven = Memo::new(move |_| workspace.design.with(|d| d.handle.wedge.is_some()));
    let drive = move |on: bool| {
        let usual = usual(workspace);
        apply(workspace, |handle| {
            handle.wedge = usual.wedge.filter(|_| on);
            if on && handle.kerf.is_none() {
                handle.kerf = usual.kerf;
            }
        });
    };
    // In brackets, as a size that follows from others.
    let computed = Signal::derive(move || {
        let system = workspace.system.get();
        tool.with(|tool| {
            let wedge = tool.as_ref().and_then(|tool| tool.made.wedge);
            wedge
                .map(|wedge| format!("({})", words::about_number(wedge.thick_mm, system)))
                .unwrap_or_default()
        })
    });
    view! {
        <div class="rows" role="group" aria-labelledby="wedge">
            <h3 id="wedge">"wedge, along the head"</h3>
            <Tick label="a wedge is driven" of="wedge" on=driven choose=drive />
            <Show when=move || driven.get()>
                <WoodRows
                    of="wedge"
                    get=|handle| handle.wedge.as_ref().map(|wedge| &wedge.wood)
                    get_mut=|handle| handle.wedge.as_mut().map(|wedge| &mut wedge.wood)
                />
                <LengthRow
                    id="wedge-length"
                    label="length"
                    of="wedge"
                    get=|handle: Handle| handle.wedge.map(|wedge| wedge.length)
                    set=|(handle, length)| {
                        with_size(handle, length, |handle| handle.wedge.as_mut().map(|wedge| &mut wedge.length))
                    }
                    concerns=|error: HandleError| matches!(
                        error,
                        HandleError::Size { what: "The length of the wedge", .. }
                            | HandleError::TooDeep { what: "The wedge", .. }
                            | HandleError::WedgeTooLong { .. }
                            | HandleError::WedgeTooShort { .. }
                            | HandleError::NoKerf
                    )
                />
                <LengthRow
                    id="wedge-thick"
                    label="thick end; empty, it fills the mouth"
                    of="wedge"
                    get=|handle: Handle| handle.wedge.and_then(|wedge| wedge.thick)
                    set=|(mut handle, length): (Handle, Option<Length>)| {
                        if let Some(wedge) = &mut handle.wedge {
                            wedge.thick = length;
                        }
                        handle
                    }
                    optional=true
                    placeholder=computed
                    concerns=|error: HandleError| matches!(
                        error,
                        HandleError::Size { what: "The thickness of the wedge", .. }
                            | HandleError::TooThick { what: "The wedge", .. }
                    )
                />
                <LengthRow
                    id="wedge-crush"
                    label="crush, wider than the mouth by"
                    of="wedge"
                    get=|handle: Handle| handle.wedge.map(|wedge| wedge.crush)
                    set=|(handle, length)| {
                        with_size(handle, length, |handle| handle.wedge.as_mut().map(|wedge| &mut wedge.crush))
                    }
                    concerns=|error: HandleError| matches!(
                        error,
                        HandleError::Size { what: "The crush of the wedge", .. }
                    )
                />
            </Show>
        </div>
    }
}

/// The fields of the cross wedge.
#[component]
pub fn CrossWedge() -> impl IntoView {
    let workspace = Workspace::here();
    let tool = Worked::here().tool;
    let driven = Memo::new(move |_| workspace.design.with(|d| d.handle.cross_wedge.is_some()));
    let drive = move |on: bool| {
        let begun = tool.with_untracked(|tool| tool.as_ref().map(|tool| cross(&tool.made)));
        apply(workspace, |handle| {
            handle.cross_wedge = begun.filter(|_| on)
        });
    };
    view! {
        <div class="rows" role="group" aria-labelledby="cross-wedge">
            <h3 id="cross-wedge">"cross wedge, of steel"</h3>
            <Tick label="one is driven" of="cross wedge" on=driven choose=drive />
            <Show when=move || driven.get()>
                <LengthRow
                    id="cross-length"
                    label="length"
                    of="cross wedge"
                    get=|handle: Handle| handle.cross_wedge.map(|cross| cross.length)
                    set=|(handle, length)| {
                        with_size(handle, length, |handle| handle.cross_wedge.as_mut().map(|cross| &mut cross.length))
                    }
                    concerns=|error: HandleError| matches!(
                        error,
                        HandleError::Size { what: "The length of the cross wedge", .. }
                            | HandleError::TooDeep { what: "The cross wedge", .. }
                    )
                />
                <LengthRow
                    id="cross-thick"
                    label="thick end"
                    of="cross wedge"
                    get=|handle: Handle| handle.cross_wedge.map(|cross| cross.thick)
                    set=|(handle, length)| {
                        with_size(handle, length, |handle| handle.cross_wedge.as_mut().map(|cross| &mut cross.thick))
                    }
                    concerns=|error: HandleError| matches!(
                        error,
                        HandleError::Size { what: "The thickness of the cross wedge", .. }
                            | HandleError::TooThick { what: "The cross wedge", .. }
                    )
                />
                <LengthRow
                    id="cross-width"
                    label="width"
                    of="cross wedge"
                    get=|handle: Handle| handle.cross_wedge.map(|cross| cross.width)
                    set=|(handle, length)| {
                        with_size(handle, length, |handle| handle.cross_wedge.as_mut().map(|cross| &mut cross.width))
                    }
                    concerns=|error: HandleError| matches!(
                        error,
                        HandleError::Size { what: "The width of the cross wedge", .. }
                            | HandleError::CrossTooWide { .. }
                    )
                />
            </Show>
        </div>
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use headwright::design::{starter, starter_names};
    use headwright::handle::make;
    use headwright::units::System;

    #[test]
    fn a_cross_wedge_to_begin_with_can_be_driven_into_every_starter() {
        for name in starter_names() {
            let solid = starter(name).expect("a starter").build().expect("sound");
            let mut handle = Handle::usual(&solid, System::Metric);
            let made = make(&solid, &handle).expect("usual");
            handle.cross_wedge = Some(cross(&made));
            let with = make(&solid, &handle);
            assert!(with.is_ok(), "{name}: {:?}", with.err());
        }
    }
}
