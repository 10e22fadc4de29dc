//! Everything that was recorded of a build, entry by entry.

use leptos::prelude::*;

use super::super::clock;
use super::super::journal::now;
use super::super::state::Workspace;
use super::build::Front;
use super::change::Change;
use super::words;

/// The entries, numbered as notes name them, each to be struck out.
#[component]
pub fn Entries() -> impl IntoView {
    let workspace = Workspace::here();
    let front = Front::here();
    let shown = RwSignal::new(false);
    let count = Memo::new(move |_| front.build.with(|build| build.events.len()));
    let rows = move || {
        let system = workspace.system.get();
        let now = now();
        front.build.with(|build| {
            let rows = (1..).zip(&build.events).map(|(entry, event)| {
                let what = words::what(&event.what, system);
                let text = format!("{}: {what}", words::step(build, event.step));
                let strike = format!("strike entry {entry}, {text}");
                let event = event.clone();
                view! {
                    <li>
                        <span class="log-when">{format!("{entry} · ")}{clock::time(event.at, now)}</span>
                        <span>{text}</span>
                        <button
                            type="button"
                            class="plain"
                            aria-label=strike
                            on:click=move |_| {
                                // A strike is never refused.
                                let _ = front.press(Change::Strike(event.clone()));
                            }
                        >
                            "strike"
                        </button>
                    </li>
                }
            });
            rows.collect_view()
        })
    };
    view! {
        <section aria-labelledby="log-entries">
            <h2 id="log-entries">"everything recorded"</h2>
            <button
                type="button"
                class="plain"
                aria-expanded=move || shown.get().to_string()
                on:click=move |_| shown.update(|shown| *shown = !*shown)
            >
                {move || {
                    let verb = if shown.get() { "hide" } else { "show" };
                    match count.get() {
                        1 => format!("{verb} the 1 entry"),
                        count => format!("{verb} the {count} entries"),
                    }
                }}
            </button>
            <Show when=move || shown.get()>
                <ol class="log-entries">{rows}</ol>
            </Show>
        </section>
    }
}
