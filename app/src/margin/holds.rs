//! What a fit keeps: weight and balance in the margin, every other quantity beside its result.

use leptos::prelude::*;

use super::super::mark::Mark;
use super::super::state::Workspace;
use super::super::terms::{Term, Words};
use super::weight::said;
use headwright::design::{Edit, Hold, Quantity};
use headwright::units::{Amount, MM_PER_INCH, System};

mod came_along;
mod read;
mod row;

pub use row::{HoldRow, unit};

/// The fields that are always there, and those of the tool that are held.
#[component]
pub fn Holds() -> impl IntoView {
    let workspace = Workspace::here();
    let of_tool = Memo::new(move |_| {
        let mut all = Quantity::ALL.to_vec();
        all.retain(|quantity| {
            let held = workspace.design.with(|d| d.holds.get(*quantity).is_some());
            quantity.is_of_tool() && held
        });
        all
    });
    view! {
        <section class="holds" aria-labelledby="holds">
            <h2 id="holds">"holds"</h2>
            <Words
                id="holds-words"
                terms=&[
                    Term::Hold,
                    Term::Held,
                    Term::Tolerance,
                    Term::OutOfReach,
                    Term::Weight,
                    Term::Free,
                    Term::Locked,
                ]
            />
            <HoldRow quantity=Quantity::Mass />
            <HoldRow quantity=Quantity::Balance />
            <For each=move || of_tool.get() key=|quantity| *quantity let:quantity>
                <HoldRow quantity=quantity />
            </For>
        </section>
    }
}

/// A button beside a result: holds it where it is, or lets it go.
#[component]
pub fn HoldHere(
    /// What to hold.
    quantity: Quantity,
) -> impl IntoView {
    let workspace = Workspace::here();
    let press = move |_| {
        let held = workspace.design.with_untracked(|d| d.holds.get(quantity));
        let hold = held.is_none().then(|| here(workspace, quantity));
        workspace.asked.set(Some(quantity));
        workspace.apply(Edit::Hold(quantity, hold));
    };
    let said = said(workspace, quantity, true);
    view! {
        <button
            type="button"
            class=move || match said.get() {
                None => "hold-here plain".to_owned(),
                Some((_, state)) => format!("hold-here {}", state.class()),
            }
            aria-label=move || match said.get() {
                None => format!("hold the {} where it is", quantity.words()),
                Some((words, _)) => format!("{} {words}, press to let go", quantity.words()),
            }
            on:click=press
        >
            {move || match said.get() {
                None => "hold".into_any(),
                Some((words, state)) => view! { <Mark state=state /> {words} }.into_any(),
            }}
        </button>
    }
}

/// The hold that keeps `quantity` where it is.
fn here(workspace: Workspace, quantity: Quantity) -> Hold<Amount> {
    let handle = workspace.design.with_untracked(|d| d.handle.clone());
    let value = workspace.sound.with_untracked(|solid| {
        workspace
            .properties
            .with_untracked(|p| quantity.of(solid, p, &handle))
    });
    let system = workspace.system.get_untracked();
    if quantity == Quantity::LeastWall {
        let least = quantity.amount(below(value, system), system);
        return Hold::AtLeast { least };
    }
    let amount = quantity.amount(value, system);
    // What is shown is what is held, so that the field has the number that was read.
    Hold::About {
        value: amount.parse(&amount.show(system), system).unwrap_or(amount),
        tolerance: None,
    }
}

/// `mm` down to a tenth of a millimetre or a 64th of an inch: the head as it is has at least that.
fn below(mm: f64, system: System) -> f64 {
    let to = match system {
        System::Metric => 0.1,
        System::Imperial => MM_PER_INCH / 64.0,
    };
    // What lies on a division stays there.
    (mm / to + 1e-6).floor() * to
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_wall_is_held_at_least_at_no_more_than_it_has() {
        let close = |a: f64, b: f64| assert!((a - b).abs() < 1e-9, "{a} is not {b}");
        close(below(10.786, System::Metric), 10.7);
        close(below(10.8, System::Metric), 10.8);
        close(below(6.35, System::Imperial), 6.35);
        close(below(6.5, System::Imperial), 16.0 * MM_PER_INCH / 64.0);
    }
}
