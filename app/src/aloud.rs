//! What a screen reader says when the numbers have come to rest.

use std::time::Duration;

use leptos::prelude::*;

use super::holding::state_words;
use super::later::Later;
use super::state::Workspace;
use super::words;
use headwright::fit::Outcome;
use headwright::units::show_mass;

/// How long the numbers rest before they are said.
const REST: Duration = Duration::from_millis(700);

/// The live region that speaks of the head: weight, balance, and how the holds stand.
#[component]
pub fn Aloud() -> impl IntoView {
    let workspace = Workspace::here().behind();
    let said = RwSignal::new(String::new());
    let later = Later::new();
    Effect::new(move |before: Option<String>| {
        let sentence = sentence(workspace);
        later.stop();
        if before.is_some_and(|before| before != sentence) {
            let saying = sentence.clone();
            later.start(REST, move || said.set(saying));
        }
        sentence
    });
    view! {
        <p class="aloud" role="status" aria-live="polite">
            {said}
        </p>
    }
}

fn sentence(workspace: Workspace) -> String {
    let system = workspace.system.get();
    let design = workspace.design.get();
    let problems = workspace.problems.get();
    if !problems.is_empty() {
        let all: Vec<String> = problems.iter().map(|e| e.sentence(system)).collect();
        return format!("This head can’t be made. {}", all.join(" "));
    }
    let unreachable = workspace
        .fitted
        .with(|f| f.as_ref().is_some_and(|f| f.outcome != Outcome::Met));
    workspace.properties.with(|p| {
        let (balance, place) = words::balance(p.balance(), system);
        let mut sentence = format!(
            "Weight {}. Balance {balance} {place}.",
            show_mass(p.mass, system)
        );
        for holding in workspace.holdings.get() {
            let name = words::capitalized(holding.target.quantity.words());
            let reach = if holding.miss != 0.0 && unreachable {
                ": out of reach"
            } else {
                ""
            };
            sentence.push_str(&format!(
                " {name} {}{reach}.",
                state_words(&design, holding, system)
            ));
        }
        sentence
    })
}
