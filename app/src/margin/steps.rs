//! What one step of every size does to the head.

use leptos::prelude::*;

use super::super::fitting::{self, Arrival};
use super::super::state::Workspace;
use super::spread::Spread;
use headwright::fit::Effect;
use headwright::units::{GRAMS_PER_KG, KG_PER_OUNCE, KG_PER_POUND, MM_PER_INCH, System};

/// A table of what one division of the rule does, made while it is open.
#[component]
pub fn Steps() -> impl IntoView {
    let workspace = Workspace::here();
    let open = RwSignal::new(false);
    let found = Memo::new(move |_| {
        let here = workspace.fit_file.get() == Arrival::Here;
        let made = |design: &_| fitting::effects(design, workspace.rule());
        let made = (here && open.get()).then(|| workspace.design.with(made));
        made.flatten().unwrap_or_default()
    });
    let system = workspace.system;
    let cannot = move || {
        let mut words =
            "The head cannot be made as it stands; until then no step is weighed.".to_owned();
        for error in workspace.problems.get() {
            words.push(' ');
            words.push_str(&error.sentence(system.get()));
        }
        words
    };
    let table = move || {
        let [weight, length, inertia] = match system.get() {
            System::Metric => ["g", "mm", "kg·mm²"],
            System::Imperial => ["oz", "in", "lb·in²"],
        };
        let rows = found.with(|found| {
            let row = |effect: &Effect| {
                let numbers = numbers(effect, system.get());
                let both = effect.follower.map(|_| ", the back’s with it");
                view! {
                    <tr>
                        <th scope="row">{effect.dim.words()}{both}</th>
                        {numbers.map(|number| view! { <td>{number}</td> }).collect_view()}
                    </tr>
                }
            };
            found.iter().map(row).collect_view()
        });
        view! {
            <table>
                <thead>
                    <tr>
                        <th scope="col">{format!("{} more of", workspace.rule())}</th>
                        <th scope="col" aria-label=format!("weight, {weight}")>{weight}</th>
                        <th scope="col" aria-label=format!("balance, {length}")>{length}</th>
                        <th scope="col" aria-label=format!("inertia, {inertia}")>{inertia}</th>
                    </tr>
                </thead>
                <tbody>{rows}</tbody>
            </table>
        }
    };
    view! {
        <div class="one-step">
            <button
                type="button"
                class="plain"
                aria-expanded=move || open.get().to_string()
                on:click=move |_| open.update(|open| *open = !*open)
            >
                "what one step does"
            </button>
            <Show when=move || open.get()>
                <Show
                    when=move || workspace.problems.with(Vec::is_empty)
                    fallback=move || view! { <p class="hint">{cannot}</p> }
                >
                    <Show when=move || workspace.fit_file.get() != Arrival::Here>
                        <p class="hint" role="status">
                            "What weighs the steps has not come yet: it is fetched with the page. Load the page again if it stays away."
                        </p>
                    </Show>
                    <Spread effects=found />
                    <p class="hint">
                        "To weight, balance (+ to the front) and inertia about the handle, when one
                        size alone is a step more; an angle 1° more."
                    </p>
                    {table}
                </Show>
            </Show>
        </div>
    }
}

/// Weight, balance and inertia in the units of the table.
fn numbers(effect: &Effect, system: System) -> [String; 3] {
    let Effect {
        mass,
        balance,
        inertia_handle_axis: inertia,
        ..
    } = *effect;
    match system {
        System::Metric => [
            signed(mass * GRAMS_PER_KG, 1),
            signed(balance, 2),
            signed(inertia, 1),
        ],
        System::Imperial => [
            signed(mass / KG_PER_OUNCE, 2),
            signed(balance / MM_PER_INCH, 3),
            signed(inertia / KG_PER_POUND / MM_PER_INCH.powi(2), 3),
        ],
    }
}

/// A number with its sign; nothing is a plain 0.
fn signed(number: f64, decimals: usize) -> String {
    let text = format!("{number:+.decimals$}");
    if text.contains(|digit: char| ('1'..='9').contains(&digit)) {
        text.replace('-', "−")
    } else {
        "0".to_owned()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_number_has_its_sign_and_nothing_has_none() {
        assert_eq!(signed(12.34, 1), "+12.3");
        assert_eq!(signed(-0.26, 1), "−0.3");
        assert_eq!(signed(-0.04, 1), "0");
    }
}
