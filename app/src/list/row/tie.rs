//! Whether a size of the back is as the same size of the front.

use leptos::prelude::*;

use super::super::super::state::Workspace;
use headwright::design::{Design, Dim, Edit};

/// Whether `dim` is as that of the front; nothing where it cannot be.
pub fn tied(design: &Design, dim: Dim) -> Option<bool> {
    design.has_pair(dim).then(|| design.alike.contains(&dim))
}

/// Ties `dim` to that of the front, or cuts the tie.
pub fn tie(workspace: Workspace, dim: Dim, alike: bool) {
    if alike != workspace.design.with_untracked(|d| d.alike.contains(&dim)) {
        workspace.apply(Edit::Alike(dim, alike));
    }
}

/// As the front or by itself, for a size of which both are possible.
#[component]
pub fn Tie(
    /// The size.
    dim: Dim,
    /// Whether it is as that of the front; nothing where it cannot be.
    tied: Memo<Option<bool>>,
) -> impl IntoView {
    let workspace = Workspace::here();
    let choice = move |alike: bool, word: &'static str| {
        view! {
            <button
                type="button"
                aria-pressed=move || (tied.get() == Some(alike)).to_string()
                on:click=move |_| tie(workspace, dim, alike)
            >
                {word}
            </button>
        }
    };
    view! {
        <Show when=move || tied.get().is_some()>
            <div class="two tie" role="group" aria-label="front and back">
                {choice(true, "as the front")} {choice(false, "by itself")}
            </div>
        </Show>
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use headwright::design::starter;

    fn dim(path: &str) -> Dim {
        path.parse().expect("a dimension")
    }

    #[test]
    fn only_sizes_of_the_back_that_both_ends_have_can_be_as_the_front() {
        let design = starter("rounding").expect("a starter");
        let expected = [
            ("back.face.width", Some(true)),
            // A rounding hammer: one face is flat, the other is not.
            ("back.face.crown", Some(false)),
            ("front.face.width", None),
            ("back.reach", None),
            ("cheeks.width", None),
        ];
        for (path, expected) in expected {
            assert_eq!(tied(&design, dim(path)), expected, "{path}");
        }
        let cut = design.apply(Edit::Alike(dim("back.face.width"), false));
        assert_eq!(tied(&cut, dim("back.face.width")), Some(false));
    }
}
