//! One hold: its value, how far off it may be, and a way to let it go.

use leptos::prelude::*;

use super::super::super::entry::Entry;
use super::super::super::mark::{Mark, State};
use super::super::super::state::Workspace;
use super::super::super::words;
use super::came_along::CameAlong;
use super::read::read_hold;
use headwright::design::{Edit, Hold, Quantity};
use headwright::units::{
    Amount, System, inertia_unit_word, mass_unit_word, show_length, unit_word,
};

/// One hold: its value, how far off it may be, and a way to let it go.
#[component]
pub fn HoldRow(
    /// What is held.
    quantity: Quantity,
    /// Whether it stands under its result, which names it and lets it go.
    #[prop(optional)]
    under: bool,
) -> impl IntoView {
    let workspace = Workspace::here();
    let system = workspace.system;
    let hold = Memo::new(move |_| workspace.design.with(|d| d.holds.get(quantity)));
    let held = move || hold.with(Option::is_some);
    let about = move || matches!(hold.get(), None | Some(Hold::About { .. }));
    let label = move || {
        let at = if about() { " at" } else { "" };
        format!("hold {}{at}", quantity.words())
    };
    let text = Signal::derive(move || match hold.get() {
        None => String::new(),
        Some(Hold::About { value, .. }) => value.show(system.get()),
        Some(hold) => hold
            .words(system.get())
            .trim_start_matches("from ")
            .to_owned(),
    });
    let off = Signal::derive(move || match hold.get() {
        Some(Hold::About {
            tolerance: Some(off),
            ..
        }) => off.show(system.get()),
        _ => String::new(),
    });
    // A held weight is shown with its units, which may be two.
    let unit = Signal::derive(move || {
        if is_weight(quantity) && held() {
            ""
        } else {
            unit(quantity, system.get())
        }
    });
    let off_unit = Signal::derive(move || {
        if is_weight(quantity) || off.with(String::is_empty) {
            ""
        } else {
            unit.get()
        }
    });
    let like = move |text: &str| -> Result<Amount, String> {
        let now = system.get_untracked();
        let amount = quantity.amount(0.0, now).parse(text, now);
        amount.map_err(|e| e.to_string())
    };
    let subject = format!("hold {}", quantity.name());
    let read = {
        let subject = subject.clone();
        move |text: String| {
            let tolerance = match hold.get_untracked() {
                Some(Hold::About { tolerance, .. }) => tolerance,
                _ => None,
            };
            let read = read_hold(&text, tolerance, like)?;
            workspace.asked.set(Some(quantity));
            workspace.show(&subject, Edit::Hold(quantity, read));
            Ok(())
        }
    };
    let read_off = move |text: String| {
        let tolerance = tolerance(quantity, &text, system.get_untracked(), like)?;
        if let Some(Hold::About { value, .. }) = hold.get_untracked() {
            workspace.asked.set(Some(quantity));
            let hold = Hold::About { value, tolerance };
            workspace.show(&format!("{subject} ±"), Edit::Hold(quantity, Some(hold)));
        }
        Ok(())
    };
    let id = format!("hold-{}", quantity.name());
    let keep = move |()| workspace.keep();
    let put_back = move |()| workspace.put_back();
    let read = Callback::new(read);
    let read_off = Callback::new(read_off);
    view! {
        <div class="hold" class:held=held class:beside=under class:wide=move || !about()>
            <label for=id.clone()>
                <Show when=move || held() && !under>
                    <Mark state=State::Held />
                </Show>
                {move || match (under, about()) {
                    (true, true) => "hold at".to_owned(),
                    (true, false) => "hold".to_owned(),
                    (false, true) => label(),
                    // A range takes the room.
                    (false, false) => quantity.words().to_owned(),
                }}
            </label>
            <Entry
                label=Signal::derive(move || match unit.get() {
                    "" if is_weight(quantity) => {
                        format!("{}, {}", label(), mass_unit_word(system.get()))
                    }
                    _ => label(),
                })
                value=text
                unit=Signal::derive(move || unit.get().to_owned())
                read=read
                keep=keep
                put_back=put_back
                id=id.clone()
                placeholder="not held".to_owned()
            />
            <Show when=held>
                <div class="hold-more">
                    {(!under).then(|| view! {
                        <button
                            type="button"
                            class="plain"
                            aria-label=format!("let go of the {}", quantity.words())
                            on:click=move |_| workspace.apply(Edit::Hold(quantity, None))
                        >
                            "let go"
                        </button>
                    })}
                    <Show when=about>
                        <span class="plus-minus" aria-hidden="true">"±"</span>
                        <Entry
                            label=Signal::derive(move || {
                                format!("{}: plus or minus, usually {}", label(), usual(quantity))
                            })
                            value=off
                            unit=Signal::derive(move || off_unit.get().to_owned())
                            read=read_off
                            keep=keep
                            put_back=put_back
                            id=format!("off-{}", quantity.name())
                            placeholder=usual(quantity)
                        />
                    </Show>
                </div>
            </Show>
        </div>
        {is_weight(quantity).then(|| view! { <CameAlong quantity=quantity /> })}
    }
}

/// Whether it is shown in units of its own, which may be two.
fn is_weight(quantity: Quantity) -> bool {
    matches!(quantity.amount(0.0, System::Metric), Amount::Mass(_))
}

/// The unit of a bare number.
pub fn unit(quantity: Quantity, system: System) -> &'static str {
    match quantity.amount(0.0, system) {
        Amount::Mass(_) => mass_unit_word(system),
        Amount::Length(_) => unit_word(system),
        Amount::Inertia(_) => inertia_unit_word(system),
        Amount::Ratio(_) => "",
    }
}

/// A tolerance as it is written; nothing for the usual one.
fn tolerance(
    quantity: Quantity,
    text: &str,
    system: System,
    like: impl Fn(&str) -> Result<Amount, String>,
) -> Result<Option<Amount>, String> {
    if text.trim().is_empty() {
        Ok(None)
    } else if is_weight(quantity) {
        Ok(words::small_mass(text, system)?.map(Amount::Mass))
    } else {
        let off = like(text)?;
        Ok(Some(words::positive(off, off.number(), "tolerance")?))
    }
}

/// The tolerance of a hold that states none: finer than a rule or a shop balance reads, so in
/// metric units whatever is shown.
fn usual(quantity: Quantity) -> String {
    match quantity.amount(quantity.default_tolerance(), System::Metric) {
        Amount::Length(off) => format!("{} mm", show_length(off, System::Metric)),
        off => off.words(System::Metric),
    }
}
