//! What an end is worked into.

use leptos::prelude::*;

use super::super::super::pick::Pick;
use super::super::super::state::Workspace;
use super::super::super::words;
use headwright::design::{Ball, Corner, Crown, Design, Edge, Edit, Face, Outline, Part, Side, Tip};
use headwright::solid::Head;
use headwright::units::Length;

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
            let (tip, reach) = other(&now, side);
            workspace.apply(Edit::Tip(side, Box::new(tip), reach));
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

/// A ball as wide as the face was, or a round face as wide as the ball, and the reach with which
/// it begins where the other did: then the stations before it stay in order.
fn other(design: &Design, side: Side) -> (Tip, Length) {
    let head = Head::lift(design, &mut |_, mm| mm);
    let (begin, _) = head.end(side).tip.station();
    let half_up = |mm: f64| (mm * 2.0).ceil() / 2.0;
    let share = |size: Length, share: f64| size.with_mm(half_up(size.in_mm() * share));
    let (tip, length) = match &design.end(side).tip {
        Tip::Face(face) => {
            let across = face.outline.width;
            // Three quarters look like a neck, and leave room for a sound one.
            let neck = share(across, 0.75);
            let (r, n) = (0.5 * across.in_mm(), 0.5 * neck.in_mm());
            let depth = (r * r - n * n).max(0.0).sqrt();
            let diameter = across;
            (Tip::Ball(Ball { diameter, neck }), r + depth)
        }
        Tip::Ball(ball) => {
            let across = ball.diameter;
            let (land, crown) = (share(across, 0.25), share(across, 4.0));
            let face = Face {
                outline: Outline::equal(across, Corner::Round),
                land,
                crown: Crown::Radius(crown),
                edge: Edge::Rounded(across.with_mm(2.0)),
            };
            // The crown falls by less than the square of half the width over its radius.
            let fall = (0.5 * across.in_mm()).powi(2) / crown.in_mm();
            (Tip::Face(face), land.in_mm() + fall)
        }
    };
    let reach = design.end(side).reach;
    (tip, reach.with_mm(half_up(begin + length)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use headwright::design::{starter, starter_names};

    #[test]
    fn every_starter_stays_sound_when_an_end_becomes_a_ball_and_a_face_again() {
        for name in starter_names() {
            for side in Side::BOTH {
                let mut design = starter(name).expect("a starter");
                for _ in 0..2 {
                    let (tip, reach) = other(&design, side);
                    design = design.apply(Edit::Tip(side, Box::new(tip), reach));
                    assert_eq!(design.build().err(), None, "{name}, {}", side.word());
                }
            }
        }
    }
}
