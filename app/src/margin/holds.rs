//! What a fit keeps: the weight and the balance, each with its tolerance.

use leptos::prelude::*;

use super::super::holding::{balance_words, mass_words};
use super::super::state::Workspace;
use super::super::words;
use headwright::design::{Edit, Hold};
use headwright::fit::Quantity;
use headwright::units::{
    System, mass_unit_word, parse_length, parse_mass, show_length, show_mass, unit_word,
};

mod read;
mod row;

use read::read_hold;
use row::HoldRow;

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
                usual=usual(Quantity::Mass)
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
                off_unit=Signal::derive(move || {
                    if balance_off.with(String::is_empty) {
                        String::new()
                    } else {
                        unit_word(system.get()).to_owned()
                    }
                })
                usual=usual(Quantity::Balance)
                read=read_balance
                read_off=read_balance_off
                let_go=move |()| workspace.apply(Edit::HoldBalance(None))
            />
        </section>
    }
}

/// The tolerance of a hold that states none: finer than a rule or a shop balance reads, so in
/// metric units whatever is shown.
fn usual(quantity: Quantity) -> String {
    let off = quantity.default_tolerance();
    match quantity {
        Quantity::Mass => show_mass(off, System::Metric),
        Quantity::Balance => words::length(off, System::Metric),
    }
}
