//! An answer that came back, as the smith sees it.

use leptos::prelude::*;

use super::super::address;
use super::super::state::Workspace;
use super::facts::{Facts, Turning};
use super::{apart, joined};
use headwright::share::offer::{Answer, Chosen};

/// The answer: what is different, and whether it is taken.
#[component]
pub fn Answered(
    /// The answer, whose choice can be had.
    answer: Answer,
    /// The head as it was chosen.
    chosen: Chosen,
) -> impl IntoView {
    let page = Workspace::here();
    let name = chosen.design.name.clone();
    let own = apart(page, chosen.design, chosen.solid);
    provide_context(own);
    let terms = answer.offer.terms.clone();
    let refused = RwSignal::new(None::<String>);
    let answer = StoredValue::new(answer);
    let differences = move || {
        let differences = answer.with_value(|answer| answer.differences(own.system.get()));
        if differences.is_empty() {
            return view! { <p>"It is wanted as it was drawn."</p> }.into_any();
        }
        let differences = differences.into_iter().map(|one| view! { <li>{one}</li> });
        view! { <ul class="differences">{differences.collect_view()}</ul> }.into_any()
    };
    // Asked once: what follows the page's head would run once more when the page leaves for it.
    let on_the_sheet = page.design.with_untracked(|own| {
        if answer.with_value(|answer| answer.is_of(own)) {
            "The head that was offered stands on your sheet: taking the answer changes it so, and undo takes that back."
                .to_owned()
        } else {
            format!(
                "On your sheet stands another head, “{}”, or this one as you have changed it since: taking the answer puts the head of the link onto a sheet of its own, and yours stays on the rack.",
                own.name
            )
        }
    });
    let take = move |_| {
        let own_design = page.design.get_untracked();
        match answer.with_value(|answer| answer.taken(&own_design)) {
            Ok(design) => {
                address::leave_offer(page);
                let step = format!("answer to {}", design.name);
                if answer.with_value(|answer| answer.is_of(&own_design)) {
                    page.replace(step, design);
                } else {
                    page.bring(step, design, None);
                }
            }
            Err(errors) => {
                let system = own.system.get_untracked();
                refused.set(Some(joined(
                    errors.iter().map(|error| error.sentence(system)),
                )));
            }
        }
    };
    view! {
        <p class="soft">"an answer to your offer"</p>
        <h1 class="screen-name">{name}</h1>
        <section aria-labelledby="what-differs">
            <h2 id="what-differs">"what is wanted"</h2>
            {differences}
            <p>{on_the_sheet}</p>
            <button type="button" class="main-way" on:click=take>
                "Take it"
            </button>
            <button type="button" class="plain" on:click=move |_| address::leave_offer(page)>
                "leave it"
            </button>
            {move || refused.get().map(|sentence| view! { <p class="problem" role="alert">{sentence}</p> })}
        </section>
        <Turning />
        <Facts terms=terms />
    }
}
