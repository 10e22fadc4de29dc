//! What an end is worked into.

use leptos::prelude::*;

use super::super::super::pick::Pick;
use super::super::super::state::Workspace;
use super::super::super::words;
use headwright::design::{Edit, Part, Side, TipShape};

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
            let (tip, reach) = now.worked_into(side, shape(&word));
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

/// What the word of the list begins as.
fn shape(word: &str) -> TipShape {
    match word {
        "ball" => TipShape::Ball,
        "pein" => TipShape::CrossPein,
        _ => TipShape::Face,
    }
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
                    let (tip, reach) = design.worked_into(side, shape(word));
                    design = design.apply(Edit::Tip(side, Box::new(tip), reach));
                    let end = side.word();
                    assert_eq!(design.build().err(), None, "{name}, {end}, {word}");
                }
            }
        }
    }
}
