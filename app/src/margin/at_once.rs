//! What can be had at once of two things: the edge of it as a curve, each point a head to make.

use leptos::prelude::*;

use super::super::fetched;
use super::super::later::Later;
use super::super::state::Workspace;
use super::super::words;
use headwright::fit::TradeOffError;
use headwright::mass::mass_properties;
use headwright::units::show_mass;

mod bench;
mod plot;
mod search;
mod side;

use bench::Bench;
use search::{COUNT, Search};

/// What was asked and found, as the button keeps it.
pub type Kept = StoredValue<Search, LocalStorage>;

/// A curve of the best pairs within reach, made while it is open.
#[component]
pub fn AtOnce() -> impl IntoView {
    let open = RwSignal::new(false);
    // What was asked stays when it is closed.
    let search = StoredValue::new_local(Search::new());
    view! {
        <div class="at-once">
            <button
                type="button"
                class="plain"
                aria-expanded=move || open.get().to_string()
                on:click=move |_| open.update(|open| *open = !*open)
            >
                "what can be had at once"
            </button>
            {move || open.get().then(|| view! { <fetched::Curve search=search /> }.into_any())}
        </div>
    }
}

/// The two choices, the curve, and the point on it that is looked at.
#[component]
pub fn Curve(
    /// What was asked and found.
    search: Kept,
) -> impl IntoView {
    let workspace = Workspace::here();
    let bench = Bench {
        workspace,
        search,
        told: Trigger::new(),
        later: Later::new(),
        busy: StoredValue::new(false),
    };
    Effect::new(move || {
        workspace.design.track();
        bench.begin();
    });
    // Made anew only when what can be chosen changes, so that an open list stays open.
    let of_x = Memo::new(move |_| bench.see(|s| workspace.design.with(|d| side::options(d, s.x))));
    let of_y = Memo::new(move |_| bench.see(|s| workspace.design.with(|d| side::options(d, s.y))));
    let choose = move |key: &str, as_y: bool| {
        let Some(side) = side::called(key) else {
            return;
        };
        bench.search.update_value(|search| {
            *(if as_y { &mut search.y } else { &mut search.x }) = side;
            search.points.clear();
            search.chosen = None;
        });
        bench.begin();
    };
    let found = Memo::new(move |_| bench.see(|search| search.here().is_some()));
    let words = move || {
        let system = workspace.system.get();
        bench.see(|search| {
            let pair = search
                .here()
                .and_then(|here| search.points[here].as_ref())?;
            let [x, y] = [(search.x, pair.x), (search.y, pair.y)];
            Some(side::pair(x, y, search.upper, system))
        })
    };
    let leads = move || {
        let system = workspace.system.get();
        bench.see(|search| {
            let pair = search
                .here()
                .and_then(|here| search.points[here].as_ref())?;
            let weighed = mass_properties(&pair.design.build().ok()?);
            let balance = words::about(weighed.balance().abs(), system);
            Some(format!(
                "balance {balance}, weight {}",
                show_mass(weighed.mass, system)
            ))
        })
    };
    let now = move || {
        bench.picture(|search, [x, y], system| {
            let [x, y] = [(search.x, x), (search.y, y)].map(|(side, number)| {
                format!("{} {}", side.words(), side::said(side, number, system))
            });
            format!("now: {x}, {y}")
        })
    };
    let wrong = move || {
        let system = workspace.system.get();
        bench.see(|search| match &search.wrong {
            Some(TradeOffError::Unsound(errors)) => {
                let all = errors.iter().map(|error| error.sentence(system));
                all.collect::<Vec<_>>().join(" ")
            }
            Some(other) => other.to_string(),
            None if search.done == COUNT && search.here().is_none() => {
                "No head was found on this line.".to_owned()
            }
            None => String::new(),
        })
    };
    // Whether it is being worked out, can be gone on with, or is done; and how far it is.
    let progress = move || {
        bench.see(|search| {
            let busy = bench.busy.get_value();
            let done = search.wrong.is_some() || search.done == COUNT;
            let word = if busy { "" } else { "stopped at " };
            (!done || busy).then(|| (busy, format!("{word}{} of {COUNT}", search.done)))
        })
    };
    view! {
        <div class="asked">
            <label>
                <span>"for every"</span>
                <select
                    inner_html=of_x
                    on:change:target=move |event| choose(&event.target().value(), false)
                ></select>
            </label>
            <label>
                <span class="aloud">"as much or as little"</span>
                <select on:change:target=move |event| {
                    let upper = event.target().value() == "much";
                    bench.search.update_value(|search| search.upper = upper);
                    bench.begin();
                }>
                    <option value="much" selected=search.with_value(|s| s.upper)>"as much as can be of"</option>
                    <option value="little" selected=search.with_value(|s| !s.upper)>"as little as can be of"</option>
                </select>
            </label>
            <label>
                <span class="aloud">"of"</span>
                <select
                    inner_html=of_y
                    on:change:target=move |event| choose(&event.target().value(), true)
                ></select>
            </label>
        </div>
        {move || found.get().then(|| view! {
            <div class="plot" class:old=move || bench.see(|search| search.old)>
                <div inner_html=move || bench.picture(plot::plot)></div>
                <input
                    type="range"
                    min="0"
                    max=COUNT - 1
                    style=move || bench.picture(plot::over)
                    aria-label=move || bench.see(|search| format!("{}, along the curve", search.x.words()))
                    aria-valuetext=words
                    prop:value=move || bench.see(|search| search.here().unwrap_or_default().to_string())
                    on:input:target=move |event| {
                        let to = event.target().value().parse().unwrap_or_default();
                        bench.search.update_value(|search| search.choose(to));
                        // Where no head was found the next one has it.
                        let here = bench.search.with_value(Search::here).unwrap_or_default();
                        event.target().set_value(&here.to_string());
                        bench.told.notify();
                    }
                />
            </div>
            <p class="said">{words}</p>
            <p class="hint">{now}</p>
            <div class="ways">
                <button
                    type="button"
                    class="way"
                    aria-disabled=move || bench.see(|search| search.old).to_string()
                    on:click=move |_| bench.make()
                >
                    <span>"make this head"</span>
                    <small>{leads}</small>
                </button>
            </div>
        }.into_any())}
        <p class="hint" role="status">{wrong}</p>
        <p class="progress">
            {move || {
                progress().map(|(busy, far)| view! {
                    <span>{far}</span>
                    <button
                        type="button"
                        class="plain"
                        on:click=move |_| if busy { bench.stop() } else { bench.go_on() }
                    >
                        {if busy { "stop" } else { "go on" }}
                    </button>
                })
            }}
        </p>
    }
}
