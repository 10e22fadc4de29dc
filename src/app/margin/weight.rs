//! The finished weight, and where it stands to its target.

use leptos::prelude::*;

use super::super::holding::{Holding, holdings, on, short_words, state_words};
use super::super::mark::{Mark, State};
use super::super::quantity::MassNumber;
use super::super::state::Workspace;
use crate::fit::Quantity;
use crate::units::show_mass;

/// The biggest number of the margin.
#[component]
pub fn Weight() -> impl IntoView {
    let workspace = Workspace::here();
    let kg = Signal::derive(move || workspace.properties.with(|p| p.mass));
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
    let workspace = Workspace::here();
    move || {
        let system = workspace.system.get();
        let design = workspace.design.get();
        let holding = on(
            &workspace.properties.with(|p| holdings(&design, p)),
            quantity,
        )?;
        let words = if short {
            short_words(holding, system)
        } else {
            state_words(&design, holding, system)
        };
        let state = if holding.miss == 0.0 {
            State::Held
        } else {
            State::Problem
        };
        Some(view! {
            <p class=format!("state-word {}", state.class())>
                <Mark state=state />
                {words}
            </p>
        })
    }
}

/// Width and height of the scale's picture, and where its line runs.
const WIDTH: f64 = 280.0;
const LINE: f64 = 16.0;

/// A scale with the held range and a pointer at the weight; nothing while no weight is held.
#[component]
fn Scale() -> impl IntoView {
    let workspace = Workspace::here();
    let held = move || {
        let design = workspace.design.get();
        on(
            &workspace.properties.with(|p| holdings(&design, p)),
            Quantity::Mass,
        )
    };
    move || {
        let system = workspace.system.get();
        let Holding {
            target,
            value,
            miss,
        } = held()?;
        let middle = 0.5 * (target.low + target.high);
        // Five tolerances, or what it takes to see the pointer.
        let half = (2.5 * (target.high - target.low))
            .max(1.25 * (value - middle).abs())
            .max(0.02 * middle);
        let x = |kg: f64| 6.0 + (WIDTH - 12.0) * (0.5 + 0.5 * (kg - middle) / half);
        let ticks = (0..=10).map(|i| {
            let at = 6.0 + (WIDTH - 12.0) * f64::from(i) / 10.0;
            let long = if i % 10 == 0 { 10.0 } else { 6.0 };
            view! { <line x1=at x2=at y1=LINE y2=LINE + long /> }
        });
        let (low, high) = (x(target.low), x(target.high));
        let pointer = x(value);
        let class = if miss == 0.0 {
            "scale held"
        } else {
            "scale problem"
        };
        Some(view! {
            <svg class=class viewBox="0 0 280 40" aria-hidden="true" focusable="false">
                <rect class="band" x=low y="4" width=(high - low).max(1.0) height=LINE - 4.0 />
                <path class="band-ends" d=format!("M{low} 2V{LINE}M{high} 2V{LINE}") />
                <line class="base" x1="6" x2=WIDTH - 6.0 y1=LINE y2=LINE />
                <g class="ticks">{ticks.collect_view()}</g>
                <path class="pointer" d=format!("M{} 2h10l-5 11z", pointer - 5.0) />
                <text x="6" y="38">
                    {show_mass(middle - half, system)}
                </text>
                <text x=WIDTH / 2.0 y="38" text-anchor="middle">
                    {show_mass(middle, system)}
                </text>
                <text x=WIDTH - 6.0 y="38" text-anchor="end">
                    {show_mass(middle + half, system)}
                </text>
            </svg>
        })
    }
}
