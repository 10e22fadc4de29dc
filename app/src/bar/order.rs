//! Many heads: what is to be cut, from which bars, and the search for the cutting list.

use leptos::prelude::*;

use super::super::cutting::worker::{Handle, start};
use super::super::entry::Entry;
use super::super::field::Field;
use super::super::state::Workspace;
use super::super::words;
use super::super::workshop::Workshop;
use super::reckoned::Reckoned;
use headwright::cut::{CuttingList, Order, Piece, Progress, Stock, bar_length};
use headwright::units::{Length, System, parse_length, show_length, show_number, unit_word};

mod list;

/// What has come of the search.
#[derive(Clone, PartialEq)]
enum Found {
    /// Nobody has asked.
    Nothing,
    /// It runs; how far it is, once it has said so.
    Running(Option<Progress>),
    /// The list of an order.
    List(Box<(Order, CuttingList)>),
    /// Why there is none.
    Refused(String),
}

/// The order, its search and its list.
#[component]
pub fn ManyHeads() -> impl IntoView {
    let workspace = Workspace::here();
    let order = Workshop::here().order;
    let found = RwSignal::new(Found::Nothing);
    // A worker lives in the browser's one thread; dropping it ends the search.
    let search = StoredValue::new_local(None::<Handle>);
    let stop = move || search.update_value(|search| *search = None);
    let begin = move |_| {
        stop();
        let wanted = order.value.get_untracked();
        let errors = wanted.check();
        if !errors.is_empty() {
            let sentences: Vec<String> = errors.iter().map(ToString::to_string).collect();
            found.set(Found::Refused(sentences.join(" ")));
            return;
        }
        found.set(Found::Running(None));
        let asked = wanted.clone();
        let started = start(
            &wanted,
            move |progress| found.set(Found::Running(Some(progress))),
            move |list| {
                found.set(match list {
                    Ok(list) => Found::List(Box::new((asked, list))),
                    Err(sentence) => Found::Refused(sentence),
                });
            },
        );
        match started {
            Ok(handle) => search.set_value(Some(handle)),
            Err(sentence) => found.set(Found::Refused(sentence)),
        }
    };
    // A refusal is of the order as it was.
    Effect::new(move |before: Option<()>| {
        order.value.track();
        if before.is_some() && matches!(found.get_untracked(), Found::Refused(_)) {
            found.set(Found::Nothing);
        }
    });
    on_cleanup(stop);
    view! {
        <section class="workshop many" aria-labelledby="many">
            <h2 id="many">"many heads"</h2>
            <p class="soft">
                "Gather what is to be cut from one section of bar; the list says which piece comes from which bar. The saw’s kerf is allowed for."
            </p>
            <Pieces />
            <Stocks />
            <Saw />
            <div class="actions">
                <button class="way first" on:click=begin>"find the cutting list"</button>
                {move || {
                    matches!(found.get(), Found::Running(_))
                        .then(|| {
                            view! {
                                <button
                                    class="plain"
                                    on:click=move |_| {
                                        stop();
                                        found.set(Found::Nothing);
                                    }
                                >
                                    "stop"
                                </button>
                            }
                        })
                }}
            </div>
            <div role="status" aria-live="polite">
                {move || {
                    let system = workspace.system.get();
                    match found.get() {
                        Found::Nothing => ().into_any(),
                        Found::Running(progress) => running(progress).into_any(),
                        Found::Refused(sentence) => view! { <p class="problem">{sentence}</p> }.into_any(),
                        Found::List(answer) => {
                            let (asked, list) = *answer;
                            let old = order.value.with(|now| *now != asked);
                            list::shown(&asked, &list, old, system).into_any()
                        }
                    }
                }}
            </div>
        </section>
    }
}

/// How far the search is.
fn running(progress: Option<Progress>) -> impl IntoView {
    let said = progress.map_or_else(
        || "Searching …".to_owned(),
        |progress| {
            format!(
                "Searching: {} bars so far, {:.0} % of the most work done.",
                progress.bars,
                100.0 * progress.share
            )
        },
    );
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

/// Takes a line out that may be gone already.
fn take_out<T>(lines: &mut Vec<T>, index: usize) {
    if index < lines.len() {
        lines.remove(index);
    }
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

/// A field in a row of the order.
#[component]
fn Cell(
    /// Its name.
    label: String,
    /// Its value as shown.
    value: Signal<String>,
    /// Its unit.
    unit: Signal<String>,
    /// Shown while it is empty.
    #[prop(optional, into)]
    placeholder: Signal<String>,
    /// Reads a text into the order.
    #[prop(into)]
    read: Callback<String, Result<(), String>>,
    /// Its id.
    id: String,
) -> impl IntoView {
    let order = Workshop::here().order;
    view! {
        <Entry
            label=label
            value=value
            unit=unit
            placeholder=placeholder
            read=read
            keep=move |()| order.keep()
            put_back=move |()| order.put_back()
            id=id
        />
    }
}

/// What takes a line out.
#[component]
fn Remove(
    /// The line.
    line: String,
    /// Takes it out.
    #[prop(into)]
    take: Callback<()>,
) -> impl IntoView {
    view! {
        <button class="plain" aria-label=format!("remove {line}") on:click=move |_| take.run(())>
            "remove"
        </button>
    }
}

/// A line of the order: name, length, how many.
#[component]
fn PieceRow(
    /// Which line.
    index: usize,
) -> impl IntoView {
    let workspace = Workspace::here();
    let order = Workshop::here().order;
    let system = workspace.system;
    let line = format!("piece {}", index + 1);
    let of = move |of: &dyn Fn(&Piece) -> String| {
        order
            .value
            .with(|order| order.pieces.get(index).map(of).unwrap_or_default())
    };
    let change = move |change: &dyn Fn(&mut Piece)| {
        order.show(|order| order.pieces.get_mut(index).into_iter().for_each(change));
    };
    view! {
        <div class="order-row">
            <Cell
                label=format!("{line}, name")
                value=Signal::derive(move || of(&|piece| piece.name.clone()))
                unit=Signal::derive(String::new)
                read=move |text: String| {
                    change(&|piece| piece.name = text.trim().to_owned());
                    Ok(())
                }
                id=format!("piece-name-{index}")
            />
            <Cell
                label=format!("{line}, length")
                value=Signal::derive(move || of(&|piece| shown(piece.length, system.get())))
                unit=Signal::derive(move || unit_word(system.get()).to_owned())
                read=move |text: String| {
                    let length = read_length(&text, system.get_untracked())?;
                    change(&|piece| piece.length = length);
                    Ok(())
                }
                id=format!("piece-length-{index}")
            />
            <Cell
                label=format!("{line}, how many")
                value=Signal::derive(move || of(&|piece| piece.count.to_string()))
                unit=Signal::derive(|| "pieces".to_owned())
                read=move |text: String| {
                    let count = read_count(&text)?;
                    change(&|piece| piece.count = count);
                    Ok(())
                }
                id=format!("piece-count-{index}")
            />
            <Remove line=line take=move |()| order.apply(|order| take_out(&mut order.pieces, index)) />
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

/// A stock length: how long, how many, what one costs.
#[component]
fn StockRow(
    /// Which line.
    index: usize,
) -> impl IntoView {
    let workspace = Workspace::here();
    let order = Workshop::here().order;
    let system = workspace.system;
    let line = format!("stock {}", index + 1);
    let of = move |of: &dyn Fn(&Stock) -> String| {
        order
            .value
            .with(|order| order.stock.get(index).map(of).unwrap_or_default())
    };
    let change = move |change: &dyn Fn(&mut Stock)| {
        order.show(|order| order.stock.get_mut(index).into_iter().for_each(change));
    };
    view! {
        <div class="order-row">
            <Cell
                label=format!("{line}, length of a bar")
                value=Signal::derive(move || of(&|stock| shown(stock.length, system.get())))
                unit=Signal::derive(move || unit_word(system.get()).to_owned())
                read=move |text: String| {
                    let length = bar_length(&text, system.get_untracked()).map_err(|e| e.to_string())?;
                    change(&|stock| stock.length = length);
                    Ok(())
                }
                id=format!("stock-length-{index}")
            />
            <Cell
                label=format!("{line}, how many there are; empty for as many as needed")
                value=Signal::derive(move || {
                    of(&|stock| stock.count.map(|count| count.to_string()).unwrap_or_default())
                })
                unit=Signal::derive(|| "on hand".to_owned())
                placeholder=Signal::derive(|| "any".to_owned())
                read=move |text: String| {
                    let count = optional(&text, read_count)?;
                    change(&|stock| stock.count = count);
                    Ok(())
                }
                id=format!("stock-count-{index}")
            />
            <Cell
                label=format!("{line}, price of one bar; empty if it is not known")
                value=Signal::derive(move || of(&|stock| stock.price.map(show_number).unwrap_or_default()))
                unit=Signal::derive(|| "each".to_owned())
                placeholder=Signal::derive(|| "price".to_owned())
                read=move |text: String| {
                    let price = optional(&text, words::plain_number)?;
                    change(&|stock| stock.price = price);
                    Ok(())
                }
                id=format!("stock-price-{index}")
            />
            <Remove line=line take=move |()| order.apply(|order| take_out(&mut order.stock, index)) />
        </div>
    }
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
                label="price of a kilogram of bar"
                of="order"
                value=Signal::derive(move || {
                    order.value.with(|order| order.price_per_kg.map(show_number).unwrap_or_default())
                })
                unit=Signal::derive(String::new)
                placeholder=Signal::derive(|| "not known".to_owned())
                read=move |text: String| {
                    let price = optional(&text, words::plain_number)?;
                    order.show(|order| order.price_per_kg = price);
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
