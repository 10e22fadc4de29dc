//! How the corners of a section are worked, and whether its height follows its width.

use leptos::prelude::*;

use super::super::super::entry::Entry;
use super::super::super::pick::{Pick, Tick};
use super::super::super::state::Workspace;
use super::super::super::words;
use headwright::design::{Corner, Design, Edit, Part};

const CORNERS: [&str; 6] = [
    "square",
    "chamfered",
    "octagonal",
    "rounded",
    "round",
    "conic",
];

/// `word` as a corner of `part`, as large as the present one where that makes sense.
fn corner(design: &Design, part: Part, word: &str) -> Option<Corner> {
    let outline = design.outline(part)?;
    let width = outline.width;
    // A seventh of the width: plainly a corner, and small enough for every section.
    let seventh = width.with_mm((width.in_mm() / 7.0 * 2.0).round() / 2.0);
    let size = match outline.corner {
        Corner::Chamfer { size } | Corner::Rounded { radius: size } => size,
        Corner::Conic { across, .. } => across,
        Corner::Sharp | Corner::Octagon | Corner::Round => seventh,
    };
    Some(match word {
        "square" => Corner::Sharp,
        "chamfered" => Corner::Chamfer { size },
        "octagonal" => Corner::Octagon,
        "rounded" => Corner::Rounded { radius: size },
        "round" => Corner::Round,
        _ => Corner::Conic {
            across: size,
            up: size,
            weight: 0.5,
        },
    })
}

/// Corners of a section, and whether its height follows its width.
#[component]
pub fn Section(
    /// The part.
    part: Part,
) -> impl IntoView {
    let workspace = Workspace::here();
    let outline = Memo::new(move |_| workspace.design.with(|d| d.outline(part)));
    let chosen = move || outline.with(|o| o.as_ref().map_or("", |o| words::corner_word(o.corner)));
    let tied = move || outline.with(|o| o.as_ref().is_some_and(|o| o.height.is_none()));
    let weight = move || {
        outline.with(|o| match o.as_ref().map(|o| o.corner) {
            Some(Corner::Conic { weight, .. }) => Some(weight),
            _ => None,
        })
    };
    view! {
        <Pick
            label="corners"
            of=words::heading(part)
            options=CORNERS.to_vec()
            chosen=Signal::derive(chosen)
            choose=move |word: String| {
                let corner = workspace.design.with_untracked(|d| corner(d, part, &word));
                if let Some(corner) = corner {
                    workspace.apply(Edit::Corner(part, corner));
                }
            }
        />
        <Show when=move || weight().is_some()>
            <Weight part=part />
        </Show>
        <Tick
            label="height follows width"
            of=words::heading(part)
            on=Signal::derive(tied)
            choose=move |on| workspace.apply(Edit::Equal(part, on))
        />
    }
}

/// Weight of a conic corner.
#[component]
fn Weight(
    /// The part.
    part: Part,
) -> impl IntoView {
    let workspace = Workspace::here();
    let corner = move |d: &Design| d.outline(part).map(|o| o.corner);
    let value = Signal::derive(move || match workspace.design.with(corner) {
        Some(Corner::Conic { weight, .. }) => headwright::units::show_number(weight),
        _ => String::new(),
    });
    let read = move |text: String| {
        let weight = words::plain_number(&text)?;
        if let Some(Corner::Conic { across, up, .. }) = workspace.design.with_untracked(corner) {
            let corner = Corner::Conic { across, up, weight };
            workspace.show(
                &format!("weight {}", part.words()),
                Edit::Corner(part, corner),
            );
        }
        Ok(())
    };
    let id = format!("weight-{}", part.words().replace(' ', "-"));
    view! {
        <div class="row">
            <div class="row-line">
                <label for=id.clone()>"weight, 0 straight to 0.95"</label>
                <Entry
                    label=format!("{} corner weight", part.words())
                    value=value
                    unit=""
                    read=read
                    keep=move |()| workspace.keep()
                    put_back=move |()| workspace.put_back()
                    id=id
                />
            </div>
        </div>
    }
}
