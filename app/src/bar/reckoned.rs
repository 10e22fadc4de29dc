//! What is reckoned of the present head for all of the bar's sheet.

use leptos::prelude::*;

use super::super::state::Workspace;
use headwright::bar::{BarError, Billet, Causes, billet};
use headwright::mass::causes;

/// What is lost of the head and what to cut for it.
#[derive(Clone, Copy)]
pub struct Reckoned {
    /// What of the head causes losses.
    pub causes: Memo<Causes>,
    /// What to cut for it.
    pub billet: Memo<Result<Billet, Vec<BarError>>>,
}

impl Reckoned {
    /// Of the last sound head.
    pub fn new(workspace: Workspace) -> Self {
        let causes = Memo::new(move |_| {
            workspace
                .sound
                .with(|solid| workspace.properties.with(|p| causes(solid, p)))
        });
        let billet = Memo::new(move |_| {
            let bar = workspace.bar();
            let density = workspace.design.with(|d| d.density);
            causes.with(|causes| billet(causes, density, &bar))
        });
        Self { causes, billet }
    }

    /// That of the bar's sheet.
    pub fn here() -> Self {
        expect_context()
    }
}
