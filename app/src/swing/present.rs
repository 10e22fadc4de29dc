//! The present hammer: the last sound head on its handle.

use leptos::prelude::*;

use super::super::state::Workspace;
use super::super::workshop::Workshop;
use headwright::handle::{Made, make};
use headwright::posture::{Posture, Stance, posture};
use headwright::solid::Solid;
use headwright::swing::{Blow, Tool};
use headwright::units::System;

/// A head on its handle.
#[derive(Clone, Debug, PartialEq)]
pub struct Hammer {
    /// The head.
    pub solid: Solid,
    /// The handle.
    pub made: Made,
    /// Both together.
    pub tool: Tool,
}

/// The present hammer, and what is worked out of it for more than one place.
#[derive(Clone, Copy)]
pub struct Present {
    /// The hammer, or why there is none.
    pub hammer: Memo<Result<Hammer, Vec<String>>>,
    /// The smith who strikes with it; nothing where there is no hammer.
    pub posture: Memo<Option<Result<Posture, Vec<String>>>>,
}

impl Present {
    /// Of the workspace and the workshop.
    pub fn new(workspace: Workspace, workshop: Workshop) -> Self {
        let hammer = Memo::new(move |_| {
            let system = workspace.system.get();
            let handle = workspace.design.with(|design| design.handle.clone());
            workspace.sound.with(|solid| {
                let made =
                    make(solid, &handle).map_err(|e| sentences(&e, |e| e.sentence(system)))?;
                let tool =
                    Tool::of(solid, &made).map_err(|e| sentences(&e, |e| e.sentence(system)))?;
                Ok(Hammer {
                    solid: solid.clone(),
                    made,
                    tool,
                })
            })
        });
        let posture = Memo::new(move |_| {
            let system = workspace.system.get();
            let side = workshop.blow.value.with(|blow| blow.side);
            let stance = workshop.at_anvil.value.with(|at_anvil| at_anvil.stance());
            hammer.with(|hammer| {
                let hammer = hammer.as_ref().ok()?;
                let blow = hammer.tool.end(side);
                Some(stand(&hammer.solid, blow, stance, system))
            })
        });
        Self { hammer, posture }
    }

    /// The present hammer of the sheet.
    pub fn here() -> Self {
        expect_context()
    }
}

/// The smith in `stance` with this hammer.
fn stand(
    solid: &Solid,
    blow: &Blow,
    stance: Stance,
    system: System,
) -> Result<Posture, Vec<String>> {
    let stance = Stance {
        face_offset_mm: solid.head().end(blow.striker.side).tip.reach(),
        grip_to_face_mm: blow.line_mm,
        ..stance
    };
    posture(&stance).map_err(|e| sentences(&e, |e| e.sentence(system)))
}

/// Every error as a sentence.
pub fn sentences<E>(errors: &[E], sentence: impl Fn(&E) -> String) -> Vec<String> {
    errors.iter().map(sentence).collect()
}

/// Sentences that stand in the place of numbers.
pub fn refused(sentences: Vec<String>) -> impl IntoView {
    sentences
        .into_iter()
        .map(|sentence| view! { <p class="sentence problem">{sentence}</p> })
        .collect_view()
}
