//! Outline and wall of the eye.

use leptos::prelude::*;

use super::super::super::pick::{Pick, Tick};
use super::super::super::state::Workspace;
use super::super::super::words;
use headwright::design::{Edit, EyeOutline, Part, Wall};

const OUTLINES: [EyeOutline; 4] = [
    EyeOutline::Round,
    EyeOutline::Ellipse,
    EyeOutline::Obround,
    EyeOutline::RoundedRectangle,
];

const WALLS: [&str; 2] = ["straight", "in arcs"];

/// Outline and wall of the eye, and which of its levels are as wide as long because nobody said how wide.
#[component]
pub fn EyeKind() -> impl IntoView {
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
        <Pick
            label="wall"
            of="eye"
            options=WALLS.to_vec()
            chosen=Signal::derive(move || eye.with(|eye| WALLS[usize::from(eye.wall == Wall::Arc)]))
            choose=move |word: String| {
                let wall = if word == WALLS[1] { Wall::Arc } else { Wall::Straight };
                workspace.apply(Edit::Wall(wall));
            }
        />
        <Show when=move || eye.with(|eye| eye.outline != EyeOutline::Round)>
            {level(Part::EyeTop, "top mouth as wide as long")}
            {level(Part::EyeWaist, "waist as wide as long")}
            {level(Part::EyeBottom, "bottom mouth as wide as long")}
        </Show>
    }
}
