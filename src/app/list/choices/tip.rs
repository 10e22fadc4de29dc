//! What an end is worked into.

use leptos::prelude::*;

use super::super::super::pick::Pick;
use super::super::super::state::Workspace;
use super::super::super::words;
use crate::design::{
    Ball, Corner, Crown, Design, Edge, Edit, Face, Outline, Part, Side, Size, Tip,
};
use crate::units::Length;

const TIPS: [&str; 2] = ["face", "ball"];

/// Whether the end has a face.
pub fn is_face(side: Side) -> bool {
    let workspace = Workspace::here();
    workspace
        .design
        .with(|design| matches!(design.end(side).tip, Tip::Face(_)))
}

/// A face or a ball.
#[component]
pub fn TipKind(
    /// The end.
    side: Side,
) -> impl IntoView {
    let workspace = Workspace::here();
    let choose = move |word: String| {
        let now = workspace.design.get_untracked();
        if words::tip_word(&now.end(side).tip) != word {
            workspace.apply(Edit::Tip(side, Box::new(other(&now, side))));
        }
    };
    view! {
        <Pick
            label="worked into a"
            of=words::heading(Part::Face(side))
            options=TIPS.to_vec()
            chosen=Signal::derive(move || {
                workspace.design.with(|design| words::tip_word(&design.end(side).tip))
            })
            choose=choose
        />
    }
}

/// A ball as wide as the face was, or a round face as wide as the ball.
fn other(design: &Design, side: Side) -> Tip {
    let share = |size: Length, share: f64| size.with_mm((size.in_mm() * share * 2.0).round() / 2.0);
    match &design.end(side).tip {
        Tip::Face(face) => {
            // Three quarters look like a neck, and leave room for a sound one.
            let across = face.outline.width;
            Tip::Ball(Ball {
                diameter: across,
                neck: share(across, 0.75),
            })
        }
        Tip::Ball(ball) => Tip::Face(Face {
            outline: Outline::equal(ball.diameter, Corner::Round),
            land: share(ball.diameter, 0.25),
            crown: Crown::Radius(share(ball.diameter, 4.0)),
            edge: Edge::Rounded(
                ball.diameter.with_mm(
                    crate::design::bounds(Part::Face(side).size(Size::Edge))
                        .low
                        .max(2.0),
                ),
            ),
        }),
    }
}
