//! The finished weight, and where it stands to its target.

use leptos::prelude::*;

use super::super::holding::{Holding, on, short_words, state_words};
use super::super::mark::{Mark, State};
use super::super::quantity::MassNumber;
use super::super::state::Workspace;
use headwright::design::Quantity;
use headwright::units::{System, show_mass};

/// The biggest number of the margin.
#[component]
pub fn Weight() -> impl IntoView {
    let workspace = Workspace::here();
    let kg = Signal::derive(move || workspace.weighed.with(|w| w.mass));
    view! {
        <section class="weight" aria-labelledby="finished-weight">
            <h2 id="finished-weight">"finished weight"</h2>
            <p class="big">
                <MassNumber kg=kg system=workspace.system />
            </p>
            <HoldState quantity=Quantity::Mass />
            <Scale />
        </section>
    }
}

/// The hold on a quantity: its mark and its word; nothing when it is not held.
#[component]
pub fn HoldState(
    /// Weight or balance.
    quantity: Quantity,
    /// Whether a word must do, because there is little room.
    #[prop(optional)]
    short: bool,
) -> impl IntoView {
    let said = said(Workspace::here(), quantity, short);
    let words = move || said.with(|said| said.as_ref().map(|(words, _)| words.clone()));
    let state = Memo::new(move |_| said.with(|said| said.as_ref().map(|(_, state)| *state)));
    move || {
        let state = state.get()?;
        Some(view! {
            <p class=format!("state-word {}", state.class())>
                <Mark state=state />
                {words}
            </p>
        })
    }
}

/// What is said of the hold on a quantity, in a word if `short`, and its mark.
///
/// Most edits leave it as it is: then nothing of it is made anew.
pub fn said(
    workspace: Workspace,
    quantity: Quantity,
    short: bool,
) -> Memo<Option<(String, State)>> {
    Memo::new(move |_| {
        let system = workspace.system.get();
        let holding = held(workspace, quantity)?;
        let words = if short {
            short_words(holding, system)
        } else {
            workspace
                .design
                .with(|design| state_words(design, holding, system))
        };
        let state = if holding.miss == 0.0 {
            State::Held
        } else {
            State::Problem
        };
        Some((words, state))
    })
}

/// The hold on a quantity with what the head gives; nothing when it is not held.
fn held(workspace: Workspace, quantity: Quantity) -> Option<Holding> {
    workspace.holdings.with(|all| on(all, quantity))
}

/// Width and height of the scale's picture, and where its line runs.
const WIDTH: f64 = 280.0;
const LINE: f64 = 16.0;

/// What the scale shows, as far as one can see it.
#[derive(Clone, PartialEq)]
struct Shown {
    met: bool,
    /// Ends of the held range, then the pointer, px.
    at: [f64; 3],
    /// Under the left end, the middle and the right end.
    figures: [String; 3],
}

impl Shown {
    fn of(holding: Holding, system: System) -> Self {
        let Holding {
            target,
            value,
            miss,
        } = holding;
        let middle = 0.5 * (target.low + target.high);
        // Five tolerances, or what it takes to see the pointer.
        let half = (2.5 * (target.high - target.low))
            .max(1.25 * (value - middle).abs())
            .max(0.02 * middle);
        let x = |kg: f64| 6.0 + (WIDTH - 12.0) * (0.5 + 0.5 * (kg - middle) / half);
        Self {
            met: miss == 0.0,
            at: [target.low, target.high, value].map(|kg| (x(kg) * 10.0).round() / 10.0),
            figures: [middle - half, middle, middle + half].map(|kg| show_mass(kg, system)),
        }
    }
}

/// A scale with the held range and a pointer at the weight; nothing while no weight is held.
#[component]
fn Scale() -> impl IntoView {
    let workspace = Workspace::here().behind();
    let shown = Memo::new(move |_| {
        let system = workspace.system.get();
        held(workspace, Quantity::Mass).map(|holding| Shown::of(holding, system))
    });
    move || {
        let Shown { met, at, figures } = shown.get()?;
        let ticks = (0..=10).map(|i| {
            let at = 6.0 + (WIDTH - 12.0) * f64::from(i) / 10.0;
            let long = if i % 10 == 0 { 10.0 } else { 6.0 };
            view! { <line x1=at x2=at y1=LINE y2=LINE + long /> }
        });
        let [low, high, pointer] = at;
        let [left, middle, right] = figures;
        let class = if met { "scale held" } else { "scale problem" };
        Some(view! {
            <svg class=class viewBox="0 0 280 40" aria-hidden="true" focusable="false">
                <rect class="band" x=low y="4" width=(high - low).max(1.0) height=LINE - 4.0 />
                <path class="band-ends" d=format!("M{low} 2V{LINE}M{high} 2V{LINE}") />
                <line class="base" x1="6" x2=WIDTH - 6.0 y1=LINE y2=LINE />
                <g class="ticks">{ticks.collect_view()}</g>
                <path class="pointer" d=format!("M{} 2h10l-5 11z", pointer - 5.0) />
                <text x="6" y="38">
                    {left}
                </text>
                <text x=WIDTH / 2.0 y="38" text-anchor="middle">
                    {middle}
                </text>
                <text x=WIDTH - 6.0 y="38" text-anchor="end">
                    {right}
                </text>
            </svg>
        })
    }
}
