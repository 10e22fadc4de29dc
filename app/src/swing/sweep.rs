//! Short or long: the present hammer with one size from short to long, weight and balance kept.

use std::sync::Arc;

use leptos::prelude::*;

use super::super::entry::Entry;
use super::super::hanging::Hanging;
use super::super::pick::Pick;
use super::super::quantity::MassNumber;
use super::super::terms::{Term, Words};
use super::super::words;
use super::compared::{Column, differences};
use super::laid::{Laid, laid};
use super::plot;
use bench::{Bench, Done};
use headwright::compare::{Figure, Hammer};
use headwright::design::Dim;
use headwright::posture::ESTIMATE;
use headwright::units::{Measure, System, show_mass};

pub mod bench;

/// The figures that are plotted to begin with.
const PLOTTED: [Figure; 2] = [Figure::Twist, Figure::HandleInertia];

/// The sheet: choice of the size, both ends laid eye on eye, two plots.
#[component]
pub fn ShortOrLong() -> impl IntoView {
    let bench = Bench::here();
    let system = bench.workspace.system;
    let drawn = move || {
        let system = system.get();
        bench.done.get().and_then(|done| {
            let [short, long] = done.ends()?;
            let names = done.names();
            let laid_down = [(names[0], short), (names[1], long)].map(|(name, (_, hammer))| Laid {
                name: name.to_owned(),
                solid: hammer.measured.solid.clone(),
            });
            Some(laid(&laid_down, system))
        })
    };
    let figures = PLOTTED.map(RwSignal::new);
    let plots = move || {
        figures
            .into_iter()
            .enumerate()
            .map(|(place, figure)| view! { <Plotted place=place figure=figure /> })
            .collect_view()
    };
    view! {
        <section class="short-or-long" aria-labelledby="short-or-long">
            <h1 class="screen-name" id="short-or-long">
                {move || {
                    let [short, long] = words_of(bench.asked.get().dim);
                    format!("{} or {long}", words::capitalized(short))
                }}
            </h1>
            <p class="said-once">
                {move || {
                    let name = bench.workspace.design.with(|design| design.name.clone());
                    format!("{name}, its weight and balance kept, laid eye on eye")
                }}
            </p>
            <Range />
            <div class:old=move || bench.is_old()>
                {drawn}
                <div class="plots">{plots()}</div>
            </div>
            <Refused />
        </section>
    }
}

/// What the two ends of a sweep are called.
pub fn words_of(dim: Dim) -> [&'static str; 2] {
    use headwright::design::Size;
    if matches!(
        dim.size,
        Size::Reach | Size::Length | Size::Land | Size::Edge
    ) {
        ["short", "long"]
    } else {
        ["small", "large"]
    }
}

/// Which size, from where to where, and how far it is worked out.
#[component]
fn Range() -> impl IntoView {
    let bench = Bench::here();
    let workspace = bench.workspace;
    let system = workspace.system;
    // Made anew only when the design has other sizes, so that an open list stays open.
    let sizes = Memo::new(move |_| {
        let sizes = workspace.design.with(|design| design.sizes());
        sizes.into_iter().map(|(dim, _)| dim).collect::<Vec<Dim>>()
    });
    let options = move || {
        let now = bench.asked.get_untracked().dim;
        let option = |dim: Dim| {
            view! { <option value=dim.to_string() selected=dim == now>{dim.words()}</option> }
        };
        sizes.get().into_iter().map(option).collect_view()
    };
    let end = move |place: usize, label: &'static str| {
        view! {
            <span class="range-end">
                <label for=format!("sweep-{label}")>{label}</label>
                <Entry
                    label=format!("sweep {label}")
                    value=Signal::derive(move || {
                        bench.range().map(|ends| ends[place].show(system.get())).unwrap_or_default()
                    })
                    unit=Signal::derive(move || {
                        bench.range().map(|ends| ends[place].unit_word(system.get()).to_owned()).unwrap_or_default()
                    })
                    read=move |text: String| bench.read_end(place, &text)
                    keep=move |()| bench.keep_range()
                    put_back=move |()| bench.put_back_range()
                    id=format!("sweep-{label}")
                />
            </span>
        }
    };
    view! {
        <div class="sweep-range">
            <label class="swept">
                <span>"the size that changes"</span>
                <select
                    prop:value=move || bench.asked.get().dim.to_string()
                    on:change:target=move |event| {
                        if let Ok(dim) = event.target().value().parse() {
                            bench.choose(dim);
                        }
                    }
                >
                    {options}
                </select>
            </label>
            {end(0, "from")}
            {end(1, "to")}
        </div>
        <p class="progress" role="status">
            {move || {
                bench.progress.get().map(|(at, of)| {
                    let busy = bench.busy.get();
                    let words = if busy { "working out" } else { "stopped at" };
                    view! {
                        <span>{format!("{words} step {at} of {of}")}</span>
                        <button
                            type="button"
                            class="plain"
                            on:click=move |_| if busy { bench.stop() } else { bench.go_on() }
                        >
                            {if busy { "stop" } else { "go on" }}
                        </button>
                    }
                })
            }}
        </p>
    }
}

/// One plot, and which number it shows.
#[component]
fn Plotted(
    /// Which of the two.
    place: usize,
    /// The number.
    figure: RwSignal<Figure>,
) -> impl IntoView {
    let bench = Bench::here();
    let system = bench.workspace.system;
    let picture = move || {
        let done = bench.done.get()?;
        Some(plot::plot(&done, figure.get(), system.get()))
    };
    view! {
        <div class="plotted">
            <Pick
                label="plotted"
                of=["first", "second"][place]
                options=Figure::ALL.map(Figure::words).to_vec()
                chosen=Signal::derive(move || figure.get().words())
                choose=move |word: String| {
                    if let Some(found) = Figure::ALL.into_iter().find(|f| f.words() == word) {
                        figure.set(found);
                    }
                }
            />
            {picture}
        </div>
    }
}

/// Why some steps, or the whole sweep, cannot be had.
#[component]
fn Refused() -> impl IntoView {
    let bench = Bench::here();
    let system = bench.workspace.system;
    view! {
        <div role="status">
            {move || {
                let system = system.get();
                let wrong = bench.wrong.get();
                super::present::refused(super::present::sentences(&wrong, |e| e.sentence(system)))
            }}
            {move || {
                let system = system.get();
                bench.done.get().map(|done| {
                    done.refused(system)
                        .into_iter()
                        .map(|sentence| view! { <p class="soft">{sentence}</p> })
                        .collect_view()
                })
            }}
        </div>
    }
}

/// The margin: weights and balances of both ends, what they differ in, and one to take.
#[component]
pub fn Said() -> impl IntoView {
    let bench = Bench::here();
    let system = bench.workspace.system;
    let whole = move || {
        let system = system.get();
        let done = bench.done.get();
        let Some((done, [short, long])) = done.and_then(|done| {
            let [(a, short), (b, long)] = done.ends()?;
            let ends = [(a, short.clone()), (b, long.clone())];
            Some((done, ends))
        }) else {
            return view! { <p class="hint">"Two steps that can be kept are compared here."</p> }
                .into_any();
        };
        let names = done.names();
        let paragraph = done.words(system);
        let columns = [(names[0], &short.1), (names[1], &long.1)].map(|(name, hammer)| Column {
            name: name.to_owned(),
            measured: hammer.measured.clone(),
        });
        let ends = [(names[0], short), (names[1], long)];
        view! {
            <div class="two-hammers">
                {ends
                    .into_iter()
                    .enumerate()
                    .map(|(place, (name, (_, hammer)))| end(place, name, hammer, system))
                    .collect_view()}
            </div>
            <p class="computed">{paragraph}</p>
            <p class="soft small">{ESTIMATE}</p>
            <div class="ways">
                {done
                    .ends()
                    .into_iter()
                    .flatten()
                    .zip(names)
                    .map(|((value, hammer), name)| take(done.dim, name, value, hammer, system))
                    .collect_view()}
            </div>
            {differences(&columns, "short against long", system)}
        }
        .into_any()
    };
    view! {
        <section aria-labelledby="what-changes" class:old=move || bench.is_old()>
            <h2 id="what-changes">"what changes"</h2>
            <Words id="sweep-words" terms=&[Term::FaceOffset, Term::Twist, Term::Inertia] />
            {whole}
        </section>
    }
}

/// One end: its weight, and the head hanging from its handle.
fn end(place: usize, name: &'static str, hammer: Hammer, system: System) -> impl IntoView {
    let weighed = hammer.measured.weighed.clone();
    let (number, where_to) = words::balance(weighed.balance(), system);
    let kg = weighed.mass;
    let solid = hammer.measured.solid.clone();
    view! {
        <div>
            <p><Swatch place=place /> {name}</p>
            <p class="big"><MassNumber kg=Signal::stored(kg) system=Signal::stored(system) /></p>
            <Hanging solid=Signal::stored(solid) properties=Signal::stored(weighed) standing=Signal::stored("") />
            <p class="soft">{format!("{number} {where_to}")}</p>
        </div>
    }
}

/// The mark of a hammer among those that are compared: its fill and its line.
#[component]
pub fn Swatch(
    /// Which.
    place: usize,
) -> impl IntoView {
    view! {
        <svg class="swatch" viewBox="0 0 28 16" width="28" height="16" aria-hidden="true" focusable="false">
            <rect class=format!("laid-{place}") x="1.5" y="1.5" width="25" height="13" />
            {(place == 1).then(|| view! { <path d="M2 9l7-7M5 14l12-12M13 14l12-12M21 14l5-5" /> })}
        </svg>
    }
}

/// A press that makes one end the design.
fn take(
    dim: Dim,
    name: &'static str,
    value: Measure,
    hammer: &Hammer,
    system: System,
) -> impl IntoView + use<> {
    let bench = Bench::here();
    let design = hammer.design.clone();
    let step = format!("{} {}", dim.words(), value.words(system));
    let weighed = &hammer.measured.weighed;
    let (number, where_to) = words::balance(weighed.balance(), system);
    let leads = format!(
        "{} {}, weight {}, balance {number} {where_to}",
        dim.words(),
        words::limit(dim, value.number(), system),
        show_mass(weighed.mass, system)
    );
    view! {
        <button
            type="button"
            class="way"
            on:click=move |_| {
                // The range stays as it is, so that the other end can still be taken.
                bench.fix_range();
                bench.workspace.replace(step.clone(), design.clone());
            }
        >
            <span>{format!("make it the {name} one")}</span>
            <small>{leads}</small>
        </button>
    }
}

/// At the anvil, both ends in a sentence each.
pub fn hands(done: &Arc<Done>, system: System) -> Vec<(usize, String)> {
    let names = done.names();
    let said = |(place, (name, (_, hammer))): (usize, (&str, (Measure, &Hammer)))| {
        let show = |figure: Figure| {
            let number = hammer.measured.get(figure);
            number.is_finite().then(|| figure.show(number, system))
        };
        let hand = show(Figure::Hand).unwrap_or_default();
        let elbow = show(Figure::Elbow).map(|elbow| format!(", elbow {elbow}"));
        let text = format!(
            "{name}: hand {hand} over the anvil{}",
            elbow.unwrap_or_default()
        );
        (place, text)
    };
    let ends = done.ends().into_iter().flatten();
    names.into_iter().zip(ends).enumerate().map(said).collect()
}
