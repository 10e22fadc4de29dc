//! What a part may be besides its sizes: corners, outlines, crowns, edges, transitions, necks.

use leptos::prelude::*;

use super::super::entry::Entry;
use super::super::pick::{Pick, Tick};
use super::super::state::Workspace;
use super::super::words;
use crate::design::{
    Corner, Crown, Design, Edge, Edit, EyeOutline, Face, MOST_NECKS, Part, Side, Tip, Transition,
};
use crate::units::Length;

/// The choices of one part.
#[component]
pub fn Choices(
    /// The part, as [`words::group`] names it.
    part: Part,
) -> impl IntoView {
    match part {
        Part::Cheeks => view! { <Section part=part /> }.into_any(),
        Part::Neck(side, index) => view! {
            <Section part=part />
            <Over part=part />
            <Necks side=side last=index />
        }
        .into_any(),
        Part::Face(side) => view! {
            <Section part=part />
            <CrownAndEdge side=side />
            <Over part=Part::End(side) />
            <AddNeck side=side />
        }
        .into_any(),
        Part::Eye => view! { <EyeKind /> }.into_any(),
        Part::EyeTop | Part::EyeWaist | Part::EyeBottom | Part::End(_) => ().into_any(),
    }
}

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
fn Section(
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
        Some(Corner::Conic { weight, .. }) => crate::units::show_number(weight),
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

const TRANSITIONS: [Transition; 2] = [Transition::Straight, Transition::Smooth];

/// How the run that leads to a part goes over.
#[component]
fn Over(
    /// A neck, or an end for the run into its tip.
    part: Part,
) -> impl IntoView {
    let workspace = Workspace::here();
    let chosen = Signal::derive(move || {
        workspace.design.with(|d| {
            let transition = match part {
                Part::Neck(side, index) => d
                    .end(side)
                    .necks
                    .get(usize::from(index))
                    .map(|neck| neck.transition),
                Part::End(side) => Some(d.end(side).transition),
                _ => None,
            };
            transition.map_or("", words::transition_word)
        })
    });
    let choose = move |word: String| {
        let found = TRANSITIONS
            .into_iter()
            .find(|transition| words::transition_word(*transition) == word);
        if let Some(transition) = found {
            workspace.apply(Edit::Transition(part, transition));
        }
    };
    view! {
        <Pick
            label="run up to it"
            of=words::heading(words::group(part))
            options=TRANSITIONS.map(words::transition_word).to_vec()
            chosen=chosen
            choose=choose
        />
    }
}

/// Takes the outermost neck off.
#[component]
fn Necks(
    /// The end.
    side: Side,
    /// The neck whose list this is.
    last: u8,
) -> impl IntoView {
    let workspace = Workspace::here();
    let outermost = move || {
        workspace
            .design
            .with(|d| d.end(side).necks.len() == usize::from(last) + 1)
    };
    view! {
        <Show when=outermost>
            <div class="row">
                <button
                    type="button"
                    class="plain"
                    on:click=move |_| workspace.apply(Edit::RemoveNeck(side))
                >
                    {format!("take the {} off", Part::Neck(side, last).words())}
                </button>
            </div>
        </Show>
    }
}

/// Adds a neck.
#[component]
fn AddNeck(
    /// The end.
    side: Side,
) -> impl IntoView {
    let workspace = Workspace::here();
    let room = move || {
        workspace
            .design
            .with(|d| d.end(side).necks.len() < MOST_NECKS)
    };
    view! {
        <Show when=room>
            <div class="row">
                <button
                    type="button"
                    class="plain"
                    on:click=move |_| workspace.apply(Edit::AddNeck(side))
                >
                    {format!("add a neck at the {}", side.word())}
                </button>
            </div>
        </Show>
    }
}

const EDGES: [&str; 3] = ["sharp", "rounded", "chamfered"];

/// How a face is crowned and how its rim is broken.
#[component]
fn CrownAndEdge(
    /// The end.
    side: Side,
) -> impl IntoView {
    let workspace = Workspace::here();
    let face = Memo::new(move |_| {
        workspace.design.with(|d| {
            let Tip::Face(face) = &d.end(side).tip;
            face.clone()
        })
    });
    let flat = move || face.with(|f| f.crown == Crown::Flat);
    let choose_edge = move |word: String| {
        let edge = face.with_untracked(|f| edge(f, &word));
        workspace.apply(Edit::Edge(side, edge));
    };
    let choose_crown = move |word: String| {
        // Four times the width shows as a gentle crown on every face.
        let radius =
            face.with_untracked(|f| f.outline.width.with_mm(f.outline.width.in_mm() * 4.0));
        let crown = if word == "flat" {
            Crown::Flat
        } else {
            Crown::Radius(radius)
        };
        workspace.apply(Edit::Crown(side, crown));
    };
    let of = words::heading(Part::Face(side));
    view! {
        <Pick
            label="crown"
            of=of
            options=vec!["flat", "by radius"]
            chosen=Signal::derive(move || if flat() { "flat" } else { "by radius" })
            choose=choose_crown
        />
        <Pick
            label="edge"
            of=of
            options=EDGES.to_vec()
            chosen=Signal::derive(move || face.with(|f| words::edge_word(f.edge)))
            choose=choose_edge
        />
    }
}

fn edge(face: &Face, word: &str) -> Edge {
    let size = match face.edge {
        Edge::Rounded(size) | Edge::Chamfered(size) => size,
        Edge::Sharp => Length::new(2.0, face.outline.width.notation()),
    };
    match word {
        "sharp" => Edge::Sharp,
        "chamfered" => Edge::Chamfered(size),
        _ => Edge::Rounded(size),
    }
}

const OUTLINES: [EyeOutline; 4] = [
    EyeOutline::Round,
    EyeOutline::Ellipse,
    EyeOutline::Obround,
    EyeOutline::RoundedRectangle,
];

/// Outline of the eye, and which of its levels are as wide as long because nobody said how wide.
#[component]
fn EyeKind() -> impl IntoView {
    let workspace = Workspace::here();
    let eye = Memo::new(move |_| workspace.design.with(|d| d.eye.clone()));
    let choose = move |word: String| {
        let found = OUTLINES
            .into_iter()
            .find(|outline| words::outline_word(*outline) == word);
        if let Some(outline) = found {
            workspace.apply(Edit::EyeOutline(outline));
        }
    };
    let level = move |part: Part, label: &'static str| {
        let tied = move || {
            eye.with(|eye| match part {
                Part::EyeTop => eye.top.width.is_none(),
                Part::EyeWaist => eye.waist.width.is_none(),
                _ => eye.bottom.width.is_none(),
            })
        };
        view! {
            <Show when=tied>
                <Tick
                    label=label
                    of="eye"
                    on=Signal::derive(tied)
                    choose=move |on| workspace.apply(Edit::Equal(part, on))
                />
            </Show>
        }
    };
    view! {
        <Pick
            label="outline"
            of="eye"
            options=OUTLINES.map(words::outline_word).to_vec()
            chosen=Signal::derive(move || eye.with(|eye| words::outline_word(eye.outline)))
            choose=choose
        />
        <Show when=move || eye.with(|eye| eye.outline != EyeOutline::Round)>
            {level(Part::EyeTop, "top mouth as wide as long")}
            {level(Part::EyeWaist, "waist as wide as long")}
            {level(Part::EyeBottom, "bottom mouth as wide as long")}
        </Show>
    }
}
