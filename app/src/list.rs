//! The list of every size, grouped by part, with the choices that belong to each part.

use leptos::context::Provider;
use leptos::prelude::*;

use super::state::Workspace;
use super::terms::{Term, Words};
use super::words;
use headwright::design::{Design, Part, Side};

mod choices;
mod row;
mod steel;

pub use row::{StateButton, tied};

/// What of the design decides which rows there are and what they are called: the design with all sizes alike. A row asks it
/// and is left alone while sizes move.
#[derive(Clone, Copy)]
struct Shape(Memo<Design>);

impl Shape {
    fn of(workspace: Workspace) -> Self {
        Self(Memo::new(move |_| {
            let mut shape = workspace.design.get();
            shape.visit_sizes(&mut |_, size| *size = size.with_number(0.0));
            shape
        }))
    }

    /// That of the list that this is in.
    fn here() -> Self {
        expect_context()
    }

    fn with<T>(self, ask: impl FnOnce(&Design) -> T) -> T {
        self.0.with(ask)
    }
}

/// All parts with their sizes: the middle of the head, and one column for each end.
#[component]
pub fn List() -> impl IntoView {
    let shape = Shape::of(Workspace::here());
    view! {
        <Provider value=shape>
        <section class="list" aria-labelledby="all-sizes">
            <h2 id="all-sizes">"all sizes"</h2>
            <Words id="sizes-words" terms=&[Term::InHand, Term::Free, Term::Locked, Term::Alike] />
            <div class="groups">
                <Column side=None />
                <Column side=Some(Side::Front) />
                <Column side=Some(Side::Back) />
                <steel::Steel />
            </div>
        </section>
        </Provider>
    }
}

/// The parts of one end, or of the middle.
#[component]
fn Column(
    /// The end; nothing for cheeks and eye.
    side: Option<Side>,
) -> impl IntoView {
    let shape = Shape::here();
    let groups = Memo::new(move |_| {
        let mut groups = shape.with(words::groups);
        groups.retain(|part| part.side() == side);
        groups
    });
    view! {
        <div class="column">
            <For each=move || groups.get() key=|part| *part let:part>
                <Group part=part />
            </For>
        </div>
    }
}

/// One part: its heading opens and closes it on the phone; beside the sheet it is always open.
#[component]
fn Group(
    /// The part.
    part: Part,
) -> impl IntoView {
    let workspace = Workspace::here();
    let shape = Shape::here();
    let dims = Memo::new(move |_| shape.with(|d| words::sizes_of(d, part)));
    let open = move || workspace.open_part.get() == Some(part);
    let id = format!("part-{}", words::heading(part).replace(' ', "-"));
    let (heading, explained) = (id.clone(), format!("{id}-words"));
    view! {
        <section class="group" class:open=open aria-labelledby=id>
            <h3 id=heading>
                <button
                    type="button"
                    class="heading"
                    aria-expanded=move || open().to_string()
                    on:click=move |_| {
                        let next = if workspace.open_part.get_untracked() == Some(part) {
                            None
                        } else {
                            Some(part)
                        };
                        workspace.open_part.set(next);
                    }
                >
                    <span>{move || shape.with(|d| words::heading_of(d, part))}</span>
                    <span class="count">
                        {move || match dims.with(Vec::len) {
                            1 => "1 size".to_owned(),
                            count => format!("{count} sizes"),
                        }}
                    </span>
                </button>
            </h3>
            <div class="rows">
                <For each=move || dims.get() key=|dim| *dim let:dim>
                    <row::Row dim=dim />
                </For>
                <choices::Choices part=part />
                <Words id=explained terms=terms(part) />
            </div>
        </section>
    }
}

/// The words that belong to a part.
const fn terms(part: Part) -> &'static [Term] {
    match part {
        Part::Cheeks | Part::Lugs => &[Term::Cheeks, Term::Swell, Term::Lug, Term::Corners],
        Part::Eye | Part::EyeTop | Part::EyeWaist | Part::EyeBottom => {
            &[Term::Eye, Term::Mouth, Term::Waist, Term::Wall, Term::Cock]
        }
        Part::Neck(..) => &[Term::Neck, Term::Run, Term::Corners],
        Part::Face(_) | Part::End(_) | Part::Ball(_) | Part::Pein(_) => &[
            Term::Face,
            Term::Land,
            Term::Crown,
            Term::Edge,
            Term::Drop,
            Term::Ball,
            Term::Pein,
            Term::Nose,
            Term::Rocker,
            Term::Hollow,
        ],
    }
}
