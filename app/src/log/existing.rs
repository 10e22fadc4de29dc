//! A hammer that exists: what caliper and scale say of it, and the head that comes of it.

use leptos::prelude::*;

use super::super::state::{Screen, Workspace};
use super::super::terms::{Term, Words};
use super::super::workshop::Kept;

mod answer;
mod draft;
mod fields;
mod sizes;

use answer::{Answer, InALine, Says};
use draft::Draft;
use fields::{HowSure, OnTheScale, Shape, TheRest};
use sizes::Sizes;

/// Key of what was typed; it stays in the browser until it is cleared.
const KEY: &str = "headwright.measured";

/// Whether the sheet for a hammer that exists is in front of the log.
#[derive(Clone, Copy)]
pub struct InFront(pub RwSignal<bool>);

impl InFront {
    /// The page's, begun by whoever asks first.
    pub fn open() -> Self {
        use_context().unwrap_or_else(|| {
            // The topmost owner's, so that it stays when the sheet goes.
            let mut page = Owner::current().unwrap_or_default();
            while let Some(above) = page.parent() {
                page = above;
            }
            page.with(|| {
                let in_front = Self(RwSignal::new(false));
                provide_context(in_front);
                in_front
            })
        })
    }
}

/// A press that leads to the sheet, with what it is for.
#[component]
pub fn ToExisting() -> impl IntoView {
    let workspace = Workspace::here();
    let InFront(in_front) = InFront::open();
    view! {
        <div class="log-begin">
            <p class="said-once">
                "A hammer in your hand? Measure and weigh it: it becomes a design, and where caliper and scale disagree, the size that would explain it is named."
            </p>
            <button
                type="button"
                class="way"
                on:click=move |_| {
                    in_front.set(true);
                    workspace.screen.set(Screen::Log);
                }
            >
                "measure a hammer that exists"
            </button>
        </div>
    }
}

/// What was typed, and what follows from it.
#[derive(Clone, Copy)]
struct Measuring {
    draft: Kept<Draft>,
    answer: Memo<Answer>,
}

impl Measuring {
    fn here() -> Self {
        expect_context()
    }
}

/// The sheet.
#[component]
pub fn ExistingSheet() -> impl IntoView {
    let workspace = Workspace::here();
    let InFront(in_front) = InFront::open();
    let say = move |sentence: String| workspace.say(&sentence, Vec::new());
    let draft = Kept::open(KEY, "The hammer that was measured", Draft::default(), say);
    provide_context(Measuring {
        draft,
        answer: answer::of(draft),
    });
    let typed = Memo::new(move |_| draft.value.with(|draft| *draft != Draft::default()));
    view! {
        <div class="log-top">
            <button type="button" class="plain" on:click=move |_| in_front.set(false)>
                "back to the log"
            </button>
            <Show when=move || typed.get()>
                <button
                    type="button"
                    class="plain"
                    on:click=move |_| draft.apply(|draft| *draft = Draft::default())
                >
                    "clear what was typed"
                </button>
            </Show>
        </div>
        <h1 class="screen-name">"A hammer that exists"</h1>
        <p class="said-once">
            "Begin with a head of its shape. Type what the caliper and the scale say, as much as you can reach: what you leave out is taken as it is said below."
        </p>
        <Words
            id="measured-words"
            terms=&[Term::InProportion, Term::OffBy, Term::OneDeviation, Term::Explains]
        />
        <InALine />
        <div class="log-build measured">
            <div>
                <section class="workshop" aria-labelledby="measured-from">
                    <h2 id="measured-from">"its shape and its weight"</h2>
                    <div class="rows">
                        <Shape />
                        <OnTheScale />
                    </div>
                </section>
                <Sizes />
                <TheRest />
                <HowSure />
            </div>
            <div class="log-beside">
                <Says />
            </div>
        </div>
    }
}
