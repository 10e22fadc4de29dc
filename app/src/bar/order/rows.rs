//! The lines of the order: pieces and stock lengths, each a row of fields.

use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::HtmlElement;

use super::super::super::entry::Entry;
use super::super::super::state::Workspace;
use super::super::super::words;
use super::super::super::workshop::Workshop;
use super::super::reckoned::Reckoned;
use super::{optional, read_count, read_length, shown};
use headwright::cut::{Piece, Stock, bar_length};
use headwright::units::{show_number, unit_word};

/// Lengths that differ by less are the same, mm.
const SAME_MM: f64 = 1e-6;

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
pub(super) fn PieceRow(
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
    let billet = Reckoned::here().billet;
    // The line's length and the one that the head on the sheet, which it was added from, has come to need.
    let older = move || {
        let now = billet.get().ok()?.cut_length_mm;
        let of_head = workspace.design.with(|design| {
            order.value.with(|order| {
                let same =
                    order.section == Some(design.bar.section) && order.density == design.density;
                let piece = order.pieces.get(index)?;
                (same && piece.name == design.name).then(|| piece.length.in_mm())
            })
        });
        let was = of_head.filter(|was| (was - now).abs() > SAME_MM)?;
        Some((was, workspace.division().with_mm(now)))
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
            <Remove
                line=line
                take=move |()| {
                    order.apply(|order| take_out(&mut order.pieces, index));
                    go_to([format!("piece-name-{index}"), "add-piece".to_owned()]);
                }
            />
            {move || {
                older()
                    .map(|(was, now)| {
                        let (was, cut) = (words::length(was, system.get()), words::length(now.in_mm(), system.get()));
                        view! {
                            <p class="problem">
                                {format!("Cut {was}, the head now needs {cut}. ")}
                                <button
                                    class="plain"
                                    on:click=move |_| {
                                        order
                                            .apply(|order| {
                                                let piece = order.pieces.get_mut(index);
                                                piece.into_iter().for_each(|piece| piece.length = now);
                                            });
                                    }
                                >
                                    {format!("take {cut}")}
                                </button>
                            </p>
                        }
                    })
            }}
        </div>
    }
}

/// A stock length: how long, how many, what one costs.
#[component]
pub(super) fn StockRow(
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
            <Remove
                line=line
                take=move |()| {
                    order.apply(|order| take_out(&mut order.stock, index));
                    go_to([format!("stock-length-{index}"), "add-stock".to_owned()]);
                }
            />
        </div>
    }
}

/// Takes a line out that may be gone already.
fn take_out<T>(lines: &mut Vec<T>, index: usize) {
    if index < lines.len() {
        lines.remove(index);
    }
}

/// Gives the focus to the first of these elements that is there once the rows are drawn anew.
fn go_to(ids: [String; 2]) {
    request_animation_frame(move || {
        let found = ids.iter().find_map(|id| document().get_element_by_id(id));
        if let Some(element) = found.and_then(|found| found.dyn_into::<HtmlElement>().ok()) {
            // What cannot take the focus is still there to be pressed.
            let _ = element.focus();
        }
    });
}
