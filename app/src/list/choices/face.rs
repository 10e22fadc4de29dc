//! How a face is crowned and how its rim is broken.

use leptos::prelude::*;

use super::super::super::pick::Pick;
use super::super::super::state::Workspace;
use super::super::super::words;
use headwright::design::{Crown, Edge, Edit, Face, Part, Side, Tip};
use headwright::units::Length;

const EDGES: [&str; 3] = ["sharp", "rounded", "chamfered"];

/// How a face is crowned and how its rim is broken.
#[component]
pub fn CrownAndEdge(
    /// The end.
    side: Side,
) -> impl IntoView {
    let workspace = Workspace::here();
    let face = Memo::new(move |_| {
        workspace.design.with(|d| match &d.end(side).tip {
            Tip::Face(face) => Some(face.clone()),
            Tip::Ball(_) | Tip::Pein(_) => None,
        })
    });
    let flat = move || face.with(|f| f.as_ref().is_some_and(|f| f.crown == Crown::Flat));
    let choose_edge = move |word: String| {
        if let Some(face) = face.get_untracked() {
            workspace.apply(Edit::Edge(side, edge(&face, &word)));
        }
    };
    let choose_crown = move |word: String| {
        let Some(face) = face.get_untracked() else {
            return;
        };
        // Four times the width shows as a gentle crown on every face.
        let width = face.outline.width;
        let radius = width.with_mm(width.in_mm() * 4.0);
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
            chosen=Signal::derive(move || {
                face.with(|f| f.as_ref().map_or("", |f| words::edge_word(f.edge)))
            })
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
