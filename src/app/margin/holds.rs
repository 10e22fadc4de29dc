//! What a fit keeps: the weight and the balance, each with its tolerance.

use leptos::prelude::*;

use super::super::entry::Entry;
use super::super::holding::{balance_words, mass_words};
use super::super::mark::{Mark, State};
use super::super::state::Workspace;
use super::super::words;
use crate::design::{Edit, Hold};
use crate::fit::Quantity;
use crate::units::{
    Length, mass_unit_word, parse_length, parse_mass, show_length, show_mass, unit_word,
};

/// The fields of both holds.
#[component]
pub fn Holds() -> impl IntoView {
    let workspace = Workspace::here();
    let mass = move || workspace.design.with(|d| d.holds.mass);
    let balance = move || workspace.design.with(|d| d.holds.balance);
    let system = workspace.system;
    let read_mass = move |text: String| {
        let now = system.get_untracked();
        let tolerance = match workspace.design.with_untracked(|d| d.holds.mass) {
            Some(Hold::About { tolerance, .. }) => tolerance,
            _ => None,
        };
        let hold = read_hold(&text, tolerance, |text| {
            parse_mass(text, now).map_err(|e| e.to_string())
        })?;
        workspace.show("hold weight", Edit::HoldMass(hold));
        Ok(())
    };
    let read_balance = move |text: String| {
        let now = system.get_untracked();
        let tolerance = match workspace.design.with_untracked(|d| d.holds.balance) {
            Some(Hold::About { tolerance, .. }) => tolerance,
            _ => None,
        };
        let hold = read_hold(&text, tolerance, |text| {
            parse_length(text, now).map_err(|e| e.to_string())
        })?;
        workspace.show("hold balance", Edit::HoldBalance(hold));
        Ok(())
    };
    let read_mass_off = move |text: String| {
        let small = words::small_mass(&text, system.get_untracked())?;
        if let Some(Hold::About { value, .. }) = workspace.design.with_untracked(|d| d.holds.mass) {
            let hold = Hold::About {
                value,
                tolerance: small,
            };
            workspace.show("weight tolerance", Edit::HoldMass(Some(hold)));
        }
        Ok(())
    };
    let read_balance_off = move |text: String| {
        let small = if text.trim().is_empty() {
            None
        } else {
            let length = parse_length(&text, system.get_untracked()).map_err(|e| e.to_string())?;
            Some(words::positive(length, length.in_mm(), "tolerance")?)
        };
        if let Some(Hold::About { value, .. }) =
            workspace.design.with_untracked(|d| d.holds.balance)
        {
            let hold = Hold::About {
                value,
                tolerance: small,
            };
            workspace.show("balance tolerance", Edit::HoldBalance(Some(hold)));
        }
        Ok(())
    };
    let mass_text = Signal::derive(move || {
        mass()
            .map(|hold| match hold {
                Hold::About { value, .. } => show_mass(value.in_kg(), system.get()),
                between => mass_words(between, system.get()),
            })
            .unwrap_or_default()
    });
    let balance_text = Signal::derive(move || {
        balance()
            .map(|hold| match hold {
                Hold::About { value, .. } => show_length(value, system.get()),
                between => balance_words(between, system.get()),
            })
            .unwrap_or_default()
    });
    let mass_off = Signal::derive(move || match mass() {
        Some(Hold::About {
            tolerance: Some(off),
            ..
        }) => show_mass(off.in_kg(), system.get()),
        _ => String::new(),
    });
    let balance_off = Signal::derive(move || match balance() {
        Some(Hold::About {
            tolerance: Some(off),
            ..
        }) => show_length(off, system.get()),
        _ => String::new(),
    });
    view! {
        <section class="holds" aria-labelledby="holds">
            <h2 id="holds">"holds"</h2>
            <HoldRow
                quantity=Quantity::Mass
                label="hold weight at"
                held=Signal::derive(move || mass().is_some())
                about=Signal::derive(move || matches!(mass(), Some(Hold::About { .. })))
                text=mass_text
                off=mass_off
                unit=Signal::derive(move || {
                    if mass().is_some() { String::new() } else { mass_unit_word(system.get()).to_owned() }
                })
                off_unit=Signal::derive(String::new)
                usual=Signal::derive(move || show_mass(Quantity::Mass.default_tolerance(), system.get()))
                read=read_mass
                read_off=read_mass_off
                let_go=move |()| workspace.apply(Edit::HoldMass(None))
            />
            <HoldRow
                quantity=Quantity::Balance
                label="hold balance at"
                held=Signal::derive(move || balance().is_some())
                about=Signal::derive(move || matches!(balance(), Some(Hold::About { .. })))
                text=balance_text
                off=balance_off
                unit=Signal::derive(move || unit_word(system.get()).to_owned())
                off_unit=Signal::derive(move || unit_word(system.get()).to_owned())
                usual=Signal::derive(move || {
                    show_length(Length::mm(Quantity::Balance.default_tolerance()), system.get())
                })
                read=read_balance
                read_off=read_balance_off
                let_go=move |()| workspace.apply(Edit::HoldBalance(None))
            />
        </section>
    }
}

/// One hold: its value, how far off it may be, and a way to let it go.
#[component]
fn HoldRow(
    /// What is held.
    quantity: Quantity,
    /// Name of the value's field.
    label: &'static str,
    /// Whether it is held.
    held: Signal<bool>,
    /// Whether it has a middle and a tolerance.
    about: Signal<bool>,
    /// The value as shown.
    text: Signal<String>,
    /// The tolerance as shown; empty for the usual one.
    off: Signal<String>,
    /// Unit of a bare value.
    unit: Signal<String>,
    /// Unit of a bare tolerance.
    off_unit: Signal<String>,
    /// The usual tolerance.
    usual: Signal<String>,
    /// Reads a value.
    #[prop(into)]
    read: Callback<String, Result<(), String>>,
    /// Reads a tolerance.
    #[prop(into)]
    read_off: Callback<String, Result<(), String>>,
    /// Lets it go.
    #[prop(into)]
    let_go: Callback<()>,
) -> impl IntoView {
    let workspace = Workspace::here();
    let id = format!("hold-{}", quantity.name());
    let keep = move |()| workspace.keep();
    let put_back = move |()| workspace.put_back();
    view! {
        <div class="hold" class:held=move || held.get()>
            <label for=id.clone()>
                <Show when=move || held.get()>
                    <Mark state=State::Held />
                </Show>
                {label}
            </label>
            <Entry
                label=label
                value=text
                unit=unit
                read=read
                keep=keep
                put_back=put_back
                id=id.clone()
                placeholder="not held".to_owned()
            />
            <Show when=move || held.get()>
                <div class="hold-more">
                    <button
                        type="button"
                        class="plain"
                        aria-label=move || format!("let the {} go", if quantity == Quantity::Mass { "weight" } else { "balance" })
                        on:click=move |_| let_go.run(())
                    >
                        "let go"
                    </button>
                    <Show when=move || about.get()>
                        <span class="plus-minus" aria-hidden="true">"±"</span>
                        <Entry
                            label=Signal::derive(move || format!("{label}: plus or minus, usually {}", usual.get()))
                            value=off
                            unit=off_unit
                            read=read_off
                            keep=keep
                            put_back=put_back
                            id=format!("off-{}", quantity.name())
                            placeholder=usual
                        />
                    </Show>
                </div>
            </Show>
        </div>
    }
}

/// A hold as it is written: nothing, one value, or two with "to" between them.
fn read_hold<Q: Copy>(
    text: &str,
    tolerance: Option<Q>,
    read: impl Fn(&str) -> Result<Q, String>,
) -> Result<Option<Hold<Q>>, String> {
    if text.trim().is_empty() {
        return Ok(None);
    }
    if let Some((low, high)) = text.split_once(" to ").or_else(|| text.split_once('–')) {
        let (low, high) = (read(low)?, read(high)?);
        return Ok(Some(Hold::Between { low, high }));
    }
    if let Some((value, off)) = text.split_once('±') {
        let (value, off) = (read(value)?, read(off)?);
        return Ok(Some(Hold::About {
            value,
            tolerance: Some(off),
        }));
    }
    let value = read(text)?;
    Ok(Some(Hold::About { value, tolerance }))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::System;

    fn read(text: &str) -> Result<Option<Hold<Length>>, String> {
        read_hold(text, None, |text| {
            parse_length(text, System::Metric).map_err(|e| e.to_string())
        })
    }

    #[test]
    fn a_hold_is_read_as_a_value_a_tolerance_or_a_range() {
        let value = Length::mm(1.0);
        assert_eq!(read(" "), Ok(None));
        assert_eq!(
            read("1"),
            Ok(Some(Hold::About {
                value,
                tolerance: None
            }))
        );
        assert_eq!(
            read("1 ± 0.5"),
            Ok(Some(Hold::About {
                value,
                tolerance: Some(Length::mm(0.5))
            }))
        );
        let high = Length::mm(2.0);
        assert_eq!(read("1 to 2"), Ok(Some(Hold::Between { low: value, high })));
        assert!(read("1 to x").is_err());
    }
}
