//! What an end is worked into.

use leptos::prelude::*;

use super::super::super::pick::Pick;
use super::super::super::state::Workspace;
use super::super::super::words;
use headwright::design::{
    Ball, Corner, Crown, Design, Edge, Edit, Face, Outline, Part, Pein, Side, Tip,
};
use headwright::solid::Head;
use headwright::units::{Angle, Length};

const TIPS: [&str; 3] = ["face", "ball", "pein"];

/// Whether the end is worked into what `word` says.
pub fn is(side: Side, word: &str) -> bool {
    let workspace = Workspace::here();
    workspace
        .design
        .with(|design| words::tip_word(&design.end(side).tip) == word)
}

/// A face, a ball or a pein.
#[component]
pub fn TipKind(
    /// The end.
    side: Side,
) -> impl IntoView {
    let workspace = Workspace::here();
    let choose = move |word: String| {
        let now = workspace.design.get_untracked();
        if words::tip_word(&now.end(side).tip) != word {
            let (tip, reach) = other(&now, side, &word);
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

/// The end worked into another thing, about as wide as what it was, and the reach with which it
/// begins where the other did: then the stations before it stay in order.
fn other(design: &Design, side: Side, word: &str) -> (Tip, Length) {
    let head = Head::lift(design, &mut |_, number| number);
    let (begin, _) = head.end(side).tip.station();
    let half_up = |mm: f64| (mm * 2.0).ceil() / 2.0;
    let unit = design.end(side).reach;
    let across = match &design.end(side).tip {
        Tip::Face(face) => face.outline.width,
        Tip::Ball(ball) => ball.diameter,
        Tip::Pein(pein) => pein.outline.width,
    };
    let share = |share: f64| across.with_mm(half_up(across.in_mm() * share));
    let (tip, length) = match word {
        "ball" => {
            // Three quarters look like a neck, and leave room for a sound one.
            let neck = share(0.75);
            let (r, n) = (0.5 * across.in_mm(), 0.5 * neck.in_mm());
            let depth = (r * r - n * n).max(0.0).sqrt();
            let diameter = across;
            (Tip::Ball(Ball { diameter, neck }), r + depth)
        }
        "pein" => {
            let pein = Pein {
                at: unit.with_mm(half_up(begin)),
                outline: Outline::equal(across, Corner::Octagon),
                direction: Angle::degrees(0.0),
                edge: across,
                nose: share(0.125),
                rocker: None,
                hollow: None,
                corner_break: None,
            };
            (Tip::Pein(pein), across.in_mm())
        }
        _ => {
            let (land, crown) = (share(0.25), share(4.0));
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
    (tip, unit.with_mm(half_up(begin + length)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use headwright::design::{starter, starter_names};

    #[test]
    fn every_starter_stays_sound_whatever_an_end_is_worked_into() {
        for name in starter_names() {
            for side in Side::BOTH {
                let mut design = starter(name).expect("a starter");
                for word in TIPS.into_iter().chain(["face"]) {
                    let (tip, reach) = other(&design, side, word);
                    design = design.apply(Edit::Tip(side, Box::new(tip), reach));
                    let end = side.word();
                    assert_eq!(design.build().err(), None, "{name}, {end}, {word}");
                }
            }
        }
    }
}
