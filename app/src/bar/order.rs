//! Many heads: what is to be cut, from which bars, and the search for the cutting list.

use std::time::Duration;

use leptos::prelude::*;

use super::super::cutting::search::Found;
use super::super::field::Field;
use super::super::state::Workspace;
use super::super::terms::{Term, Words};
use super::super::words;
use super::super::workshop::Workshop;
use super::reckoned::Reckoned;
use headwright::cut::{CutError, Piece, Progress, Stock};
use headwright::units::{
    KG_PER_POUND, Length, System, parse_length, show_length, show_number, unit_word,
};

mod list;
mod rows;

use rows::{PieceRow, StockRow};

/// How long a screen reader is left in peace between two words about a search.
const REST: Duration = Duration::from_secs(5);

/// The order, its search and its list.
#[component]
pub fn ManyHeads() -> impl IntoView {
    let workspace = Workspace::here();
    let Workshop {
        order, searching, ..
    } = Workshop::here();
    let found = searching.found;
    // A refusal is of the order as it was.
    Effect::new(move |before: Option<()>| {
        order.value.track();
        let refused = matches!(found.get_untracked(), Found::Refused(_) | Found::Wrong(_));
        if before.is_some() && refused {
            found.set(Found::Nothing);
        }
    });
    let said = aloud(found, workspace.system);
    let runs = Memo::new(move |_| found.with(|found| matches!(found, Found::Running(..))));
    view! {
        <section class="workshop many" aria-labelledby="many">
            <h2 id="many">"many heads"</h2>
            <Words id="many-words" terms=&[Term::SawKerf, Term::EndWaste] />
            <p class="soft">
                "Gather what is to be cut from one section of bar; the list says which piece comes from which bar. The saw’s kerf is allowed for."
            </p>
            <Pieces />
            <Stocks />
            <Saw />
            <div class="actions">
                <button class="way first" on:click=move |_| searching.begin(order.value.get_untracked())>"find the cutting list"</button>
                {move || {
                    runs
                        .get()
                        .then(|| {
                            view! {
                                <button class="plain" on:click=move |_| searching.stop()>
                                    "stop"
                                </button>
                            }
                        })
                }}
            </div>
            <p class="aloud" role="status" aria-live="polite">
                {move || said.get()}
            </p>
            <div>
                {move || {
                    let system = workspace.system.get();
                    found
                        .with(|found| match found {
                            Found::Nothing => ().into_any(),
                            Found::Running(progress, _) => running(*progress, system).into_any(),
                            Found::Wrong(errors) => problem(sentences(errors, system)).into_any(),
                            Found::Refused(sentence) => problem(sentence.clone()).into_any(),
                            Found::List(answer, why) => {
                                let (asked, list) = &**answer;
                                let old = order.value.with(|now| now != asked);
                                view! {
                                    {why.clone().map(problem)}
                                    {list::shown(asked, list, old, system)}
                                }
                                    .into_any()
                            }
                        })
                }}
            </div>
        </section>
    }
}

fn problem(sentence: String) -> impl IntoView {
    view! { <p class="problem">{sentence}</p> }
}

fn sentences(errors: &[CutError], system: System) -> String {
    let all = errors.iter().map(|error| error.sentence(system));
    all.collect::<Vec<_>>().join(" ")
}

/// What is said aloud of a search: that it begins, seldom how far it is, and how it ends.
fn aloud(found: RwSignal<Found>, system: RwSignal<System>) -> RwSignal<String> {
    let said = RwSignal::new(String::new());
    let stage = Memo::new(move |_| found.with(std::mem::discriminant));
    let say = move || {
        said.set(untrack(|| {
            found.with(|found| in_words(found, system.get()))
        }))
    };
    let runs = move || found.with_untracked(|found| matches!(found, Found::Running(..)));
    Effect::new(move |before: Option<()>| {
        stage.track();
        // What was found before this screen was opened is no news.
        if before.is_some() || runs() {
            say();
        }
    });
    let again = move || {
        if runs() {
            say();
        }
    };
    if let Ok(timer) = set_interval_with_handle(again, REST) {
        on_cleanup(move || timer.clear());
    }
    said
}

/// What there is of a search, in a sentence or two.
fn in_words(found: &Found, system: System) -> String {
    match found {
        Found::Nothing => String::new(),
        Found::Running(None, _) => "Searching …".to_owned(),
        Found::Running(Some(progress), _) => format!(
            "Searching: {} so far. {} {:.0} % of the most work done.",
            list::bars_in_words(progress.bars),
            list::goodness(&progress.bound, system),
            100.0 * progress.share
        ),
        Found::Wrong(errors) => sentences(errors, system),
        Found::Refused(sentence) => sentence.clone(),
        Found::List(answer, why) => {
            let list = &answer.1;
            let why = why.as_ref().map(|why| format!("{why} "));
            format!(
                "{}{}. {}",
                why.unwrap_or_default(),
                list::bars_in_words(list.totals.bars),
                list::goodness(&list.bound, system)
            )
        }
    }
}

/// How far the search is.
fn running(progress: Option<Progress>, system: System) -> impl IntoView {
    let said = in_words(&Found::Running(progress, None), system);
    let share = progress.map(|progress| progress.share);
    view! {
        <p>{said}</p>
        <progress max="1" value=share aria-label="share of the search that is done"></progress>
    }
}

/// A length as a field shows it.
fn shown(length: Length, system: System) -> String {
    show_length(length, system)
}

fn read_length(text: &str, system: System) -> Result<Length, String> {
    parse_length(text, system).map_err(|error| error.to_string())
}

/// A whole number of pieces or bars.
fn read_count(text: &str) -> Result<u32, String> {
    text.trim()
        .parse()
        .map_err(|_| format!("“{}” is no whole number of pieces.", text.trim()))
}

/// Nothing from an empty field.
fn optional<T>(
    text: &str,
    read: impl FnOnce(&str) -> Result<T, String>,
) -> Result<Option<T>, String> {
    if text.trim().is_empty() {
        Ok(None)
    } else {
        read(text).map(Some)
    }
}

/// What is to be cut.
#[component]
fn Pieces() -> impl IntoView {
    let workspace = Workspace::here();
    let order = Workshop::here().order;
    let count = Memo::new(move |_| order.value.with(|order| order.pieces.len()));
    let section = Memo::new(move |_| workspace.design.with(|design| design.bar.section));
    let billet = Reckoned::here().billet;
    // The present head, if it can be cut.
    let present = move || {
        let billet = billet.get().ok()?;
        let name = workspace.design.with(|design| design.name.clone());
        Some((name, billet.cut_length_mm))
    };
    let add = move |_| {
        let Some((name, mm)) = untrack(present) else {
            return;
        };
        let density = workspace.design.with_untracked(|design| design.density);
        let length = workspace.division().with_mm(mm);
        order.apply(|order| {
            order.section = Some(section.get_untracked());
            order.density = density;
            match order
                .pieces
                .iter_mut()
                .find(|piece| piece.name == name && piece.length == length)
            {
                Some(piece) => piece.count = piece.count.saturating_add(1),
                None => order.pieces.push(Piece {
                    name,
                    length,
                    count: 1,
                }),
            }
        });
    };
    let other_section = move || {
        let of = order.value.with(|order| {
            let of = order.section.filter(|_| !order.pieces.is_empty());
            let density = workspace.design.with(|design| design.density);
            of.filter(|of| *of != section.get() || order.density != density)
        })?;
        let system = workspace.system.get();
        Some(format!(
            "This list is of {}, the head on the sheet is cut from {}, or from steel of another density. Clear the list before you add it.",
            words::bar_section(of, system),
            words::bar_section(section.get(), system)
        ))
    };
    view! {
        <h3 id="order-pieces">"pieces"</h3>
        <div class="order-rows of-pieces" role="group" aria-labelledby="order-pieces">
            {move || (0..count.get()).map(|index| view! { <PieceRow index=index /> }).collect_view()}
            <div class="actions">
                {move || match (other_section(), present()) {
                    (Some(sentence), _) => view! { <p class="problem">{sentence}</p> }.into_any(),
                    (None, Some((_, mm))) => {
                        let cut = words::length(mm, workspace.system.get());
                        view! {
                            <button class="plain" on:click=add>{format!("add this head, cut {cut}")}</button>
                        }
                            .into_any()
                    }
                    (None, None) => ().into_any(),
                }}
                <button
                    class="plain"
                    id="add-piece"
                    on:click=move |_| {
                        let division = workspace.division();
                        order
                            .apply(|order| {
                                order
                                    .pieces
                                    .push(Piece {
                                        name: "another piece".to_owned(),
                                        length: division.with_mm(100.0),
                                        count: 1,
                                    });
                            });
                    }
                >
                    "add another piece"
                </button>
                {move || {
                    (count.get() > 0)
                        .then(|| {
                            view! {
                                <button
                                    class="plain"
                                    on:click=move |_| order.apply(|order| order.pieces.clear())
                                >
                                    "clear the list"
                                </button>
                            }
                        })
                }}
            </div>
        </div>
    }
}

/// The bars that pieces may come from.
#[component]
fn Stocks() -> impl IntoView {
    let order = Workshop::here().order;
    let count = Memo::new(move |_| order.value.with(|order| order.stock.len()));
    view! {
        <h3 id="order-stock">"bars to cut from"</h3>
        <div class="order-rows" role="group" aria-labelledby="order-stock">
            {move || (0..count.get()).map(|index| view! { <StockRow index=index /> }).collect_view()}
            <div class="actions">
                <button
                    class="plain"
                    id="add-stock"
                    on:click=move |_| {
                        order
                            .apply(|order| {
                                let length = order.stock.last().map_or(Length::mm(3000.0), |s| s.length);
                                order
                                    .stock
                                    .push(Stock {
                                        length,
                                        count: None,
                                        price: None,
                                    });
                            });
                    }
                >
                    "add a stock length"
                </button>
            </div>
        </div>
    }
}

/// The weight that a price is for, kg.
fn kg_of_weight(system: System) -> f64 {
    match system {
        System::Metric => 1.0,
        System::Imperial => KG_PER_POUND,
    }
}

/// A price of a kilogram as it is written in `system`, to a hundredth of a hundredth.
fn shown_price(per_kg: f64, system: System) -> String {
    show_number((per_kg * kg_of_weight(system) * 1e4).round() / 1e4)
}

/// Kerf, end waste and the price of steel.
#[component]
fn Saw() -> impl IntoView {
    let workspace = Workspace::here();
    let order = Workshop::here().order;
    let system = workspace.system;
    let unit = Signal::derive(move || unit_word(system.get()).to_owned());
    let keep = move |()| order.keep();
    let put_back = move |()| order.put_back();
    view! {
        <div class="rows">
            <Field
                id="kerf"
                label="kerf of the saw"
                of="order"
                value=Signal::derive(move || order.value.with(|order| shown(order.kerf, system.get())))
                unit=unit
                read=move |text: String| {
                    let kerf = read_length(&text, system.get_untracked())?;
                    order.show(|order| order.kerf = kerf);
                    Ok(())
                }
                keep=keep
                put_back=put_back
            />
            <Field
                id="end-waste"
                label="behind the last piece, last cut included"
                of="order"
                value=Signal::derive(move || order.value.with(|order| shown(order.end_waste, system.get())))
                unit=unit
                read=move |text: String| {
                    let waste = read_length(&text, system.get_untracked())?;
                    order.show(|order| order.end_waste = waste);
                    Ok(())
                }
                keep=keep
                put_back=put_back
            />
            <Field
                id="price-per-kg"
                label="price of bar by weight"
                of="order"
                value=Signal::derive(move || {
                    let per_kg = order.value.with(|order| order.price_per_kg);
                    per_kg.map(|price| shown_price(price, system.get())).unwrap_or_default()
                })
                unit=Signal::derive(move || {
                    match system.get() {
                        System::Metric => "per kg",
                        System::Imperial => "per lb",
                    }
                    .to_owned()
                })
                placeholder=Signal::derive(|| "not known".to_owned())
                read=move |text: String| {
                    let price = optional(&text, words::plain_number)?;
                    let of_weight = kg_of_weight(system.get_untracked());
                    order.show(|order| order.price_per_kg = price.map(|price| price / of_weight));
                    Ok(())
                }
                keep=keep
                put_back=put_back
            />
        </div>
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_empty_field_is_nothing_and_a_count_is_whole() {
        assert_eq!(optional("  ", read_count), Ok(None));
        assert_eq!(optional("12", read_count), Ok(Some(12)));
        for text in ["-1", "2.5", "many", "99999999999"] {
            assert!(optional(text, read_count).is_err(), "{text}");
        }
    }
}
