//! One size of the list.

use std::time::Duration;

use leptos::prelude::*;

use super::super::entry::Entry;
use super::super::later::Later;
use super::super::mark::{Mark, State};
use super::super::state::Workspace;
use super::super::stepper::{Stepper, Was, lets_go};
use super::super::terms::{SizeSaid, SizeWord};
use super::super::words;
use super::Shape;
use headwright::design::{Dim, Edit, Range, bounds};

mod state;
mod tie;

pub use state::StateButton;
use tie::Tie;
pub use tie::tied;

/// Label, state and field of a size; while it is in hand also − and +, its limits and whether it
/// is free.
#[component]
pub fn Row(
    /// The size.
    dim: Dim,
) -> impl IntoView {
    let workspace = Workspace::here();
    let in_hand = Memo::new(move |_| workspace.in_hand.get() == Some(dim));
    let shape = Shape::here();
    let free = Memo::new(move |_| shape.with(|d| d.is_free(dim)));
    let tied = Memo::new(move |_| shape.with(|d| tied(d, dim)));
    let label = Memo::new(move |_| shape.with(|d| words::label(d, dim)));
    let problem = Memo::new(move |_| {
        let system = workspace.system.get();
        workspace.problems.with(|errors| {
            errors
                .iter()
                .find(|error| words::concerns(error, dim))
                .map(|error| error.sentence(system))
        })
    });
    let moved = moved(workspace, dim);
    let field = format!("size-{dim}");
    let row = NodeRef::<leptos::html::Div>::new();
    let leave = move |event: web_sys::FocusEvent| {
        // A row that goes with the focus in it has no host any more.
        let host = row.try_get_untracked().flatten();
        let host = host.as_deref().map(AsRef::as_ref);
        if lets_go(&event, host, dim) && workspace.in_hand.get_untracked() == Some(dim) {
            workspace.in_hand.set(None);
        }
    };
    view! {
        <div
            class="row"
            class:inhand=in_hand
            class:moved=moved
            class:wrong=move || problem.with(Option::is_some)
            node_ref=row
            on:focusout=leave
        >
            <div class="row-line">
                <label for=field.clone()>{label}</label>
                <StateButton dim=dim free=free tied=tied />
                <Stepper dim=dim id=field />
                <button
                    type="button"
                    class="take"
                    tabindex="-1"
                    aria-hidden="true"
                    on:click=move |_| {
                        workspace.keep();
                        workspace.in_hand.set(Some(dim));
                    }
                ></button>
            </div>
            {move || {
                problem
                    .get()
                    .map(|sentence| view! { <p class="sentence problem">{sentence}</p> })
            }}
            <Show when=move || in_hand.get()>
                <div class="row-more">
                    <p class="was">
                        <Was dim=dim />
                    </p>
                    <Show
                        when=move || free.get()
                        fallback=move || {
                            let limits = bounds(dim);
                            let system = workspace.system.get();
                            view! {
                                <p class="limits">
                                    {format!(
                                        "{} to {}",
                                        words::limit(dim, limits.low, system),
                                        words::limit(dim, limits.high, system),
                                    )}
                                </p>
                            }
                        }
                    >
                        <Limits dim=dim />
                    </Show>
                    <div class="two" role="group" aria-label="for the fit">
                        <button
                            type="button"
                            aria-pressed=move || free.get().to_string()
                            on:click=move |_| set_free(workspace, dim, true)
                        >
                            <Mark state=State::Free />
                            "free"
                        </button>
                        <button
                            type="button"
                            aria-pressed=move || (!free.get()).to_string()
                            on:click=move |_| set_free(workspace, dim, false)
                        >
                            <Mark state=State::Locked />
                            "locked"
                        </button>
                    </div>
                    <Tie dim=dim tied=tied />
                    <SizeWord dim=dim opens=format!("{dim}-in-list") />
                    <SizeSaid dim=dim id=format!("{dim}-in-list") />
                </div>
            </Show>
        </div>
    }
}

/// How long a size that a fit moved is shown as moved.
const MOVED: Duration = Duration::from_secs(1);

/// Whether a fit has just moved `dim`.
fn moved(workspace: Workspace, dim: Dim) -> RwSignal<bool> {
    let moved = RwSignal::new(false);
    let size = Memo::new(move |_| workspace.design.with(|d| d.size(dim)));
    let later = Later::new();
    Effect::new(move |before: Option<()>| {
        size.track();
        let by_fit = workspace
            .fitted
            .with_untracked(|fitted| fitted.as_ref().is_some_and(|f| f.changed.contains(&dim)));
        if before.is_some() && by_fit && workspace.in_hand.get_untracked() != Some(dim) {
            moved.set(true);
            later.start(MOVED, move || moved.set(false));
        }
    });
    moved
}

fn set_free(workspace: Workspace, dim: Dim, free: bool) {
    let design = workspace.design.get_untracked();
    if free == design.is_free(dim) {
        return;
    }
    if !free {
        workspace.apply(Edit::Lock(dim));
    } else if let Some(range) = design.default_range(dim) {
        workspace.apply(Edit::Free(dim, range));
    }
}

/// The two limits between which a fit may move a free size.
#[component]
fn Limits(
    /// The size.
    dim: Dim,
) -> impl IntoView {
    let workspace = Workspace::here();
    let limit = move |upper: bool| {
        let word = if upper { "at most" } else { "at least" };
        let value = Signal::derive(move || {
            let system = workspace.system.get();
            workspace
                .design
                .with(|d| d.range(dim))
                .map(|range| if upper { range.high } else { range.low }.show(system))
                .unwrap_or_default()
        });
        let read = move |text: String| {
            if let Some(range) = workspace.design.with_untracked(|d| d.range(dim)) {
                let system = workspace.system.get_untracked();
                let limit = range
                    .low
                    .parse(&text, system)
                    .map_err(|error| error.to_string())?;
                let range = if upper {
                    Range {
                        high: limit,
                        ..range
                    }
                } else {
                    Range {
                        low: limit,
                        ..range
                    }
                };
                workspace.show(&format!("{word} {dim}"), Edit::Free(dim, range));
            }
            Ok(())
        };
        view! {
            <span class="limit">
                <span aria-hidden="true">{word}</span>
                <Entry
                    label=Signal::derive(move || format!("{} {word}", dim.words()))
                    value=value
                    unit=Signal::derive(move || words::unit_of(dim, workspace.system.get()).to_owned())
                    read=read
                    keep=move |()| workspace.keep()
                    put_back=move |()| workspace.put_back()
                    id=format!("limit-{dim}-{upper}")
                />
            </span>
        }
    };
    view! { <div class="limits">{limit(false)} {limit(true)}</div> }
}
