//! The steps of the work.

use leptos::prelude::*;

use super::super::state::Workspace;
use super::Stale;
use super::sources::named;
use super::worked::Worked;
use headwright::heat::Step;

/// The steps as a numbered list.
#[component]
pub fn Steps() -> impl IntoView {
    let workspace = Workspace::here();
    let plan = Worked::here().plan;
    let steps = move || {
        let system = workspace.system.get();
        plan.with(|plan| {
            let steps = plan.iter().flat_map(|plan| plan.steps(system));
            steps.map(step).collect_view()
        })
    };
    view! {
        <section class="workshop work" aria-labelledby="the-work">
            <h2 id="the-work">"the work, step by step"</h2>
            <Stale />
            <ol>{steps}</ol>
        </section>
    }
}

fn step(step: Step) -> impl IntoView {
    view! {
        <li>
            <div class="step-head">
                <h3>{step.kind.name()}</h3>
                <p class="step-value">{step.value}</p>
            </div>
            <div class="step-work">
                <p>{step.work}</p>
                <p class="step-check">
                    <strong>"check: "</strong>
                    {step.check}
                </p>
                <p>
                    <small>{named(&step.source, step.certainty)}</small>
                </p>
            </div>
        </li>
    }
}
