//! That the balance is held because a weight was named, said under the weight.

use leptos::prelude::*;

use super::super::super::state::Workspace;
use headwright::design::{Design, Edit, Hold, Quantity};
use headwright::units::Amount;

/// A sentence while the last step was the first hold and took the balance along, and a way to let
/// that go.
#[component]
pub fn CameAlong(
    /// The weight under which it stands.
    quantity: Quantity,
) -> impl IntoView {
    let workspace = Workspace::here();
    let came = Memo::new(move |_| {
        let before = workspace.before();
        before.is_some_and(|(_, before)| {
            workspace
                .design
                .with(|now| came_along(&before.design, now, quantity))
        })
    });
    move || {
        came.get().then(|| {
            view! {
                <p class="sentence came-along">
                    "The balance is held with it, at 0: in the middle of the eye. "
                    <button
                        type="button"
                        class="plain"
                        on:click=move |_| workspace.apply(Edit::Hold(Quantity::Balance, None))
                    >
                        "let the balance go"
                    </button>
                </p>
            }
        })
    }
}

/// Whether `now` holds the balance in the middle of the eye beside `quantity`, and `before` held nothing.
fn came_along(before: &Design, now: &Design, quantity: Quantity) -> bool {
    let balance = now.holds.get(Quantity::Balance);
    let in_the_middle =
        |hold| matches!(hold, Hold::About { value, .. } if Amount::number(value) == 0.0);
    before.holds.is_empty()
        && now.holds.get(quantity).is_some()
        && balance.is_some_and(in_the_middle)
}

#[cfg(test)]
mod tests {
    use super::*;
    use headwright::design::starter;
    use headwright::units::{Length, Mass};

    #[test]
    fn it_is_said_of_the_first_hold_alone_and_only_while_the_balance_is_in_the_middle() {
        let hold = |quantity, value: Amount| {
            let tolerance = None;
            Edit::Hold(quantity, Some(Hold::About { value, tolerance }))
        };
        let (mass, balance) = (Quantity::Mass, Quantity::Balance);
        let bare = starter("rounding").expect("a starter");
        let heavy = bare.apply(hold(mass, Mass::kg(1.2).into()));
        let both = heavy.apply(hold(balance, Length::mm(0.0).into()));
        let aside = heavy.apply(hold(balance, Length::mm(3.0).into()));
        assert!(came_along(&bare, &both, mass));
        assert!(!came_along(&bare, &both, Quantity::ToolMass));
        assert!(!came_along(&bare, &heavy, mass));
        assert!(!came_along(&bare, &aside, mass));
        assert!(!came_along(&heavy, &both, mass));
    }
}
