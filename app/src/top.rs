//! The rule along the top edge, with the words of the work.

use leptos::prelude::*;

use super::keep;
use super::state::{Screen, Workspace};
use super::theme::Theme;
use headwright::units::System;

/// Steps of the work, units and look, standing on a rule.
#[component]
pub fn Top() -> impl IntoView {
    let workspace = Workspace::here();
    let step = move |screen: Screen, word: &'static str| {
        let here = move || workspace.screen.get() == screen;
        view! {
            <li>
                <button
                    type="button"
                    class="step"
                    class:here=here
                    aria-current=move || here().then_some("page")
                    on:click=move |_| {
                        workspace.keep();
                        workspace.screen.set(screen);
                    }
                >
                    <span>{word}</span>
                </button>
            </li>
        }
    };
    view! {
        <header class="top">
            <div class="top-row">
                <p class="brand">"Headwright"</p>
                <nav aria-label="steps of the work">
                    <ul class="steps">
                        {step(Screen::Head, "head")} {step(Screen::Handle, "handle")}
                        {step(Screen::Bar, "bar")} {step(Screen::Heat, "heat")}
                        {step(Screen::Swing, "swing")} {step(Screen::Card, "card")}
                        {step(Screen::Log, "log")} {step(Screen::Rack, "rack")}
                        {step(Screen::Starters, "starters")}
                    </ul>
                </nav>
                <div class="top-choices">
                    <Units />
                    <Looks />
                </div>
            </div>
            <Ruler />
        </header>
    }
}

/// The choice between the two systems of units.
#[component]
pub fn Units() -> impl IntoView {
    let workspace = Workspace::here();
    let choice = move |system: System, words: &'static str, kept: &'static str| {
        let chosen = move || workspace.system.get() == system;
        view! {
            <button
                type="button"
                class="choice"
                aria-pressed=move || chosen().to_string()
                on:click=move |_| {
                    workspace.system.set(system);
                    keep::store_word(keep::SYSTEM, kept);
                }
            >
                <span>{words}</span>
            </button>
        }
    };
    view! {
        <div class="choices" role="group" aria-label="units">
            {choice(System::Metric, "mm, kg", "metric")}
            {choice(System::Imperial, "in, lb", "imperial")}
        </div>
    }
}

/// The choice between the two looks.
#[component]
pub fn Looks() -> impl IntoView {
    let workspace = Workspace::here();
    let now = move || workspace.theme.get().unwrap_or_else(Theme::of_system);
    let choice = move |theme: Theme| {
        view! {
            <button
                type="button"
                class="choice"
                aria-pressed=move || (now() == theme).to_string()
                on:click=move |_| workspace.theme.set(Some(theme))
            >
                <span>{theme.word()}</span>
            </button>
        }
    };
    view! {
        <div class="choices looks" role="group" aria-label="look">
            {choice(Theme::Paper)} {choice(Theme::Slate)}
        </div>
    }
}

/// The smith's rule: tenths where millimetres are read, sixteenths where inches are.
#[component]
fn Ruler() -> impl IntoView {
    let workspace = Workspace::here();
    let ticks = move || match workspace.system.get() {
        System::Metric => (0..10)
            .map(|i| (i, if i == 0 { 12 } else { 6 }))
            .collect::<Vec<_>>(),
        System::Imperial => (0..16)
            .map(|i: u32| {
                let halvings = if i == 0 { 4 } else { i.trailing_zeros() };
                (i, [4, 5, 7, 9, 12][halvings as usize])
            })
            .collect(),
    };
    view! {
        <svg class="ruler" width="100%" height="13" aria-hidden="true" focusable="false">
            <defs>
                {move || {
                    let ticks = ticks();
                    let width = ticks.len() * 68 / 10;
                    view! {
                        <pattern id="ticks" width=width height="13" patternUnits="userSpaceOnUse">
                            {ticks
                                .iter()
                                .map(|(i, long)| {
                                    let x = f64::from(*i) * width as f64 / ticks.len() as f64 + 0.5;
                                    view! { <line x1=x x2=x y1="0" y2=*long /> }
                                })
                                .collect_view()}
                        </pattern>
                    }
                }}
            </defs>
            <rect width="100%" height="13" fill="url(#ticks)" />
        </svg>
    }
}
