//! The handle as it is made, and the tool that it makes.

use leptos::prelude::*;

use super::super::state::Workspace;
use headwright::handle::{Handle, HandleError, Made, make};
use headwright::solid::Solid;
use headwright::swing;

/// A head on its handle.
#[derive(Clone, PartialEq)]
pub struct Tool {
    /// The head.
    pub solid: Solid,
    /// The handle as it was described.
    pub handle: Handle,
    /// The handle as it is made.
    pub made: Made,
    /// Both together; nothing where a tool cannot be swung as it is held.
    pub swung: Option<swing::Tool>,
}

impl Tool {
    /// The tool of `solid` and `handle`.
    ///
    /// # Errors
    /// Why the handle cannot be made.
    pub fn new(solid: &Solid, handle: &Handle) -> Result<Self, Vec<HandleError>> {
        let made = make(solid, handle)?;
        Ok(Self {
            solid: solid.clone(),
            handle: handle.clone(),
            swung: swing::Tool::of(solid, &made).ok(),
            made,
        })
    }
}

/// What follows from head and handle.
#[derive(Clone, Copy)]
pub struct Worked {
    /// Why the handle cannot be made.
    pub errors: Memo<Vec<HandleError>>,
    /// The last tool whose handle could be, not one that was only half typed; the one of the usual handle where there was
    /// none.
    pub tool: Memo<Option<Tool>>,
}

impl Worked {
    /// What follows from the head and the handle of `workspace`.
    pub fn new(workspace: Workspace) -> Self {
        let handle = Memo::new(move |_| workspace.design.with(|d| d.handle.clone()));
        let now = Memo::new(move |_| {
            workspace
                .sound
                .with(|solid| handle.with(|handle| Tool::new(solid, handle)))
        });
        Self {
            errors: Memo::new(move |_| now.with(|now| now.clone().err().unwrap_or_default())),
            tool: Memo::new(move |last: Option<&Option<Tool>>| {
                now.with(|now| match now {
                    Ok(tool) => Some(tool.clone()),
                    Err(_) => {
                        let before = workspace
                            .before()
                            .map(|(_, standing)| standing.design.handle);
                        let of = |handle: &Handle| {
                            workspace.sound.with(|solid| Tool::new(solid, handle).ok())
                        };
                        let usual = || {
                            let system = workspace.system.get();
                            of(&workspace.sound.with(|solid| Handle::usual(solid, system)))
                        };
                        let before = before.as_ref().and_then(of);
                        before.or_else(|| last.cloned().flatten()).or_else(usual)
                    }
                })
            }),
        }
    }

    /// That of the screen.
    pub fn here() -> Self {
        expect_context()
    }
}
