//! The sheet on which the smith says what is offered to a customer.

use std::time::Duration;

use leptos::prelude::*;

use super::super::field::Field;
use super::super::later::Later;
use super::super::pick::{Pick, Tick};
use super::super::state::{Screen, Workspace};
use super::choices::whole;
use super::handed::HandOut;
use super::joined;
use super::terms::Saying;
use headwright::design::{Side, TipShape};
use headwright::share::offer::{Between, Missed, Offer, OfferError, Stage};
use headwright::units::{Length, parse_length, parse_mass, show_length, show_mass, unit_word};

/// How long what is left open rests before its ends are tried.
const REST: Duration = Duration::from_millis(300);

/// What is offered.
#[component]
pub fn OfferScreen() -> impl IntoView {
    let workspace = Workspace::here();
    let saying = Saying::open();
    let judged = Memo::new(move |_| {
        let told = |errors: &[OfferError]| {
            let system = workspace.system.get();
            joined(errors.iter().map(|error| error.sentence(system)))
        };
        let offer = saying
            .offer(workspace.design.get())
            .map_err(|error| told(&[error]))?;
        match offer.build() {
            Ok(_) => Ok(offer),
            Err(errors) => Err(told(&errors)),
        }
    });
    let turns = Memo::new(move |turns: Option<&u32>| {
        judged.track();
        turns.map_or(0, |turns| turns + 1)
    });
    // Ends are tried by fits, which take too long for every letter.
    let missed = RwSignal::new(Vec::<Missed>::new());
    let try_ends = move || {
        let found =
            judged.with_untracked(|judged| judged.as_ref().map(Offer::missed).unwrap_or_default());
        missed.set(found);
    };
    let later = Later::new();
    Effect::new(move || {
        judged.track();
        missed.set(Vec::new());
        later.start(REST, try_ends);
    });
    let told = move || {
        let system = workspace.system.get();
        missed.with(|missed| joined(missed.iter().map(|missed| missed.sentence(system))))
    };
    let make = move |()| {
        later.stop();
        try_ends();
        if missed.with_untracked(|missed| !missed.is_empty()) {
            return Err("No link was made: what is left open cannot all be had.".to_owned());
        }
        judged.with_untracked(|judged| match judged {
            Ok(offer) => offer.encode().map_err(|error| error.to_string()),
            Err(sentence) => Err(sentence.clone()),
        })
    };
    let narrow = move |_| {
        let narrowed = judged.with_untracked(|judged| {
            let offer = judged.as_ref().ok()?;
            Some(missed.with_untracked(|missed| offer.narrowed(missed)))
        });
        if let Some(narrowed) = narrowed {
            saying.leave_open(narrowed.terms.open);
        }
    };
    let wrong = move || {
        let sentence = judged.with(|judged| judged.as_ref().err().cloned());
        sentence.map(|sentence| view! { <p class="sentence problem" role="alert">{sentence}</p> })
    };
    let beyond = move || {
        missed.with(|missed| !missed.is_empty()).then(|| {
            view! {
                <div role="status">
                    <p class="sentence problem">{told}</p>
                    <button type="button" class="way" on:click=narrow>
                        <span>"leave open only what can be had"</span>
                    </button>
                </div>
            }
        })
    };
    view! {
        <div class="sheet alone offer-sheet">
            <h1 class="screen-name">"For the customer"</h1>
            <p class="said-once">
                {move || {
                    let name = workspace.design.with(|design| design.name.clone());
                    format!("A page of its own for “{name}”, made of a link: picture, weight and handle, how it sits in the hand, your note. It shows the head as it is now and does not change by itself.")
                }}
            </p>
            <Opened saying=saying />
            <Told saying=saying />
            {wrong}
            {beyond}
            <HandOut
                words="Copy the customer’s link"
                what="the customer’s link"
                advice="A shorter note makes room for it."
                make=make
                changes=turns
            />
            <button
                type="button"
                class="plain"
                on:click=move |_| workspace.screen.set(Screen::Head)
            >
                "back to the head"
            </button>
        </div>
    }
}

/// What the customer may choose.
#[component]
fn Opened(
    /// The fields.
    saying: Saying,
) -> impl IntoView {
    let workspace = Workspace::here();
    // A field that is being written in must stay.
    let handle = Memo::new(move |_| saying.handle.with(Option::is_some));
    let weight = Memo::new(move |_| saying.grams.with(Option::is_some));
    view! {
        <section aria-labelledby="left-open">
            <h2 id="left-open">"what the customer may choose"</h2>
            <p class="soft">
                "A choice moves the sizes that are free and keeps weight and balance; one that cannot is refused."
            </p>
            <Tick
                label="length of the handle"
                of="the customer may choose"
                on=handle
                choose=move |open| saying.open_handle(workspace, open)
            />
            {move || handle.get().then(|| view! { <Ends what="handle" range=saying.handle /> })}
            <Tick
                label="weight of the head"
                of="the customer may choose"
                on=weight
                choose=move |open| saying.open_weight(workspace, open)
            />
            {move || weight.get().then(|| view! { <Ends what="weight" range=saying.grams /> })}
            <Pick
                label="what an end is worked into"
                of="the customer may choose"
                options=SIDES.map(side_word).to_vec()
                chosen=Signal::derive(move || side_word(saying.side.get()))
                choose=move |word: String| {
                    let side = SIDES.into_iter().find(|side| side_word(*side) == word).flatten();
                    saying.side.set(side);
                    saying.instead.set(Vec::new());
                }
            />
            {move || saying.side.get().map(|side| view! { <Instead saying=saying side=side /> })}
        </section>
    }
}

const SIDES: [Option<Side>; 3] = [None, Some(Side::Front), Some(Side::Back)];

fn side_word(side: Option<Side>) -> &'static str {
    side.map_or("as drawn", Side::word)
}

/// From where to where something is left open.
#[component]
fn Ends(
    /// "handle" or "weight".
    what: &'static str,
    /// The range.
    range: RwSignal<Option<Between>>,
) -> impl IntoView {
    let system = Workspace::here().system;
    let is_weight = what == "weight";
    let field = move |at: usize, label: &'static str| {
        let before = StoredValue::new(range.get_untracked());
        let value = move || {
            let number = range.get().map_or(0, |range| [range.low, range.high][at]);
            if is_weight {
                show_mass(f64::from(number) / 1000.0, system.get())
            } else {
                show_length(Length::mm(f64::from(number)), system.get())
            }
        };
        let read = move |text: String| {
            let system = system.get_untracked();
            let number = if is_weight {
                parse_mass(&text, system).map(|mass| mass.in_grams())
            } else {
                parse_length(&text, system).map(Length::in_mm)
            };
            let number = whole(number.map_err(|error| error.to_string())?)?;
            range.update(|range| {
                if let Some(range) = range {
                    *[&mut range.low, &mut range.high][at] = number;
                }
            });
            Ok(())
        };
        view! {
            <Field
                id=format!("{what}-{label}")
                label=label
                of=what
                value=Signal::derive(value)
                unit=Signal::derive(move || {
                    if is_weight { String::new() } else { unit_word(system.get()).to_owned() }
                })
                read=read
                keep=Callback::new(move |()| before.set_value(range.get_untracked()))
                put_back=Callback::new(move |()| {
                    let before = before.get_value();
                    let _ = range.try_set(before);
                })
            />
        }
    };
    view! { <div class="offer-ends">{field(0, "from")} {field(1, "to")}</div> }
}

/// What the open end may be instead of what is drawn.
#[component]
fn Instead(
    /// The fields.
    saying: Saying,
    /// The end.
    side: Side,
) -> impl IntoView {
    let workspace = Workspace::here();
    let drawn = Memo::new(move |_| workspace.design.with(|d| TipShape::of(&d.end(side).tip)));
    let others = move || {
        let drawn = drawn.get();
        let others = TipShape::ALL
            .into_iter()
            .filter(move |shape| *shape != drawn);
        let others = others.map(|shape| {
            let chosen = move || saying.instead.with(|instead| instead.contains(&shape));
            view! {
                <button
                    type="button"
                    class="choice"
                    aria-pressed=move || chosen().to_string()
                    on:click=move |_| saying.turn(shape)
                >
                    <span>{shape.words()}</span>
                </button>
            }
        });
        others.collect_view()
    };
    view! {
        <div class="row tips" role="group" aria-label=format!("{}, instead", side.word())>
            <span>{move || format!("{} as drawn, or instead a", drawn.get().words())}</span>
            <div class="choices">{others}</div>
        </div>
    }
}

/// What else the customer is told.
#[component]
fn Told(
    /// The fields.
    saying: Saying,
) -> impl IntoView {
    let told = Memo::new(move |_| saying.stage.with(Option::is_some));
    let stages: Vec<&'static str> = std::iter::once(UNTOLD)
        .chain(Stage::ALL.map(Stage::words))
        .collect();
    let written =
        |id: &'static str, label: &'static str, signal: RwSignal<String>, kind: &'static str| {
            view! {
                <div class="row">
                    <div class="row-line">
                        <label for=id>{label}</label>
                        <input
                            id=id
                            class="written-line"
                            type=kind
                            autocomplete="off"
                            maxlength="20"
                            prop:value=signal
                            on:input:target=move |event| signal.set(event.target().value())
                        />
                    </div>
                </div>
            }
        };
    view! {
        <section aria-labelledby="told">
            <h2 id="told">"what the customer is told"</h2>
            {written("offer-price", "price, left empty for none", saying.amount, "text")}
            {written("offer-currency", "currency, by its three letters", saying.currency, "text")}
            <Pick
                label="where the work stands"
                of="the customer is told"
                options=stages
                chosen=Signal::derive(move || saying.stage.get().map_or(UNTOLD, Stage::words))
                choose=move |word: String| {
                    saying.stage.set(Stage::ALL.into_iter().find(|stage| stage.words() == word));
                }
            />
            {move || told.get().then(|| written("offer-day", "as of", saying.day, "date"))}
            <Tick
                label="all sizes of the head"
                of="the customer is told"
                on=saying.shares_sizes
                choose=move |on| saying.shares_sizes.set(on)
            />
            <p class="soft">
                "Left off, bar, losses and hardening stay here; the head’s own sizes travel in the link, because the picture is made of them, but the page does not show them."
            </p>
        </section>
    }
}

/// The choice to say nothing of where the work stands.
const UNTOLD: &str = "not told";
