//! The two looks of the sheet.

use leptos::prelude::*;

use super::keep;
use super::state::Workspace;

/// A look that was chosen.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Theme {
    /// Ink on paper.
    Paper,
    /// Chalk on slate.
    Slate,
}

impl Theme {
    /// Its word, on the screen, in the page's attribute and in the storage.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Paper => "paper",
            Self::Slate => "slate",
        }
    }

    /// The look with this word.
    pub fn of(word: &str) -> Option<Self> {
        [Self::Paper, Self::Slate]
            .into_iter()
            .find(|theme| theme.word() == word)
    }

    /// The look that the system asks for.
    pub fn of_system() -> Self {
        let dark = window()
            .match_media("(prefers-color-scheme: dark)")
            .ok()
            .flatten()
            .is_some_and(|query| query.matches());
        if dark { Self::Slate } else { Self::Paper }
    }
}

/// Writes the chosen look to the page and remembers it.
pub fn follow(workspace: Workspace) {
    Effect::new(move || {
        if let Some(theme) = workspace.theme.get()
            && let Some(page) = document().document_element()
        {
            // Only a missing page would refuse; then there is nothing to colour.
            let _ = page.set_attribute("data-theme", theme.word());
            keep::store_word(keep::THEME, theme.word());
        }
    });
}
