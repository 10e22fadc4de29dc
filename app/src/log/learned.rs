//! What the smith's own heads lose, and what is asked about it.

use std::time::Duration;

use leptos::prelude::*;
use wasm_bindgen::JsValue;

use super::super::files::offer;
use super::super::state::Workspace;
use super::change::Change;
use super::here;
use super::keeper::Keeper;
use headwright::bar::Bar;
use headwright::log::losses::{Learned, LearnedLine, Question, learn};
use headwright::log::{Event, Verdict, What};
use headwright::units::show_number;

/// Name of the table.
const TABLE: &str = "losses.csv";
/// How long the list has to be drawn before losses are learned.
const REST: Duration = Duration::from_millis(30);

/// A number of a loss, to the second figure of its spread, so that columns say no more than is known.
fn figures(number: f64, spread: f64) -> String {
    let decimals = (1.0 - spread.abs().max(1e-6).log10().floor()).max(0.0);
    let unit = 10f64.powf(decimals);
    show_number((number * unit).round() / unit)
}

/// Mean and spread.
fn pair([mean, spread]: [f64; 2]) -> String {
    format!("{} ± {}", figures(mean, spread), figures(spread, spread))
}

/// The table of learned losses, with its questions.
#[component]
pub fn Losses() -> impl IntoView {
    let workspace = Workspace::here();
    let keeper = here();
    // A long log takes a while: the list is drawn first, and the published lines stand until then.
    let later = RwSignal::new(false);
    let learn_now = move || {
        // The sheet may have been left meanwhile.
        let _ = later.try_set(true);
    };
    request_animation_frame(move || set_timeout(learn_now, REST));
    let learned = Memo::new(move |_| {
        let later = later.get();
        keeper.builds.with(|builds| {
            let builds = builds.as_deref().filter(|_| later);
            learn(builds.unwrap_or_default())
        })
    });
    let rows = move || learned.with(|learned| learned.lines.iter().map(row).collect_view());
    let questions = move || {
        let system = workspace.system.get();
        learned.with(|learned| {
            let questions = learned.questions.iter().cloned();
            questions
                .map(|question| {
                    let said = question.sentence(system);
                    view! { <Asked question=question said=said /> }
                })
                .collect_view()
        })
    };
    let unused = move || {
        learned.with(|learned| {
            let unused = learned.unused.iter();
            unused
                .map(|unused| view! { <li>{unused.to_string()}</li> })
                .collect_view()
        })
    };
    let table = move |_| {
        let text = learned.with_untracked(Learned::to_csv);
        offer(workspace, TABLE, "text/csv", &JsValue::from_str(&text));
    };
    let any_unused = Memo::new(move |_| learned.with(|learned| !learned.unused.is_empty()));
    view! {
        <section class="workshop log-learned" aria-labelledby="log-learned">
            <h2 id="log-learned">"what your heads lose"</h2>
            <p class="soft">
                "Every line begins with the published default, which counts like two weighed heads, and moves with what your scale showed. On the bar’s sheet a press takes these."
            </p>
            {questions}
            <div class="sideways" role="region" tabindex="0" aria-label="losses, table">
                <table class="log-table">
                    <thead>
                        <tr>
                            <th scope="col">"loss"</th>
                            <td>"default"</td>
                            <td>"yours, head to head"</td>
                            <td>"nine heads in ten"</td>
                        </tr>
                    </thead>
                    <tbody>{rows}</tbody>
                </table>
            </div>
            <p class="soft">
                "± is one standard deviation from head to head; what is not known of the mean yet is in it. The estimate is a normal one with a conjugate prior: A. Gelman and others, Bayesian Data Analysis, third edition, section 3.3, from memory; how sums of lines are parted is our own."
            </p>
            <Show when=move || any_unused.get()>
                <h3>"weighed, but it teaches nothing"</h3>
                <ul class="said">{unused}</ul>
            </Show>
            <div class="actions rack-files">
                <button type="button" class="plain" on:click=table>
                    "save what was learned as a table (CSV)"
                </button>
            </div>
            <p class="soft">
                "It goes along in the rack’s file, and has no way in of its own: it follows from the log, which comes in above."
            </p>
        </section>
    }
}

fn row(line: &LearnedLine) -> impl IntoView + use<> {
    let [low, high] = line.range.map(|end| figures(end, line.spread));
    view! {
        <tr>
            <th scope="row">
                {format!("{}, {}", line.kind.words(), line.unit())}
                <small>{line.source()}</small>
            </th>
            <td>{pair(line.published.amount.numbers())}</td>
            <td>{pair([line.mean, line.spread])}</td>
            <td>{format!("{low} to {high}")}</td>
        </tr>
    }
}

/// A loss far out, and the two answers.
#[component]
fn Asked(
    /// The question.
    question: Question,
    /// Its sentence.
    said: String,
) -> impl IntoView {
    let keeper = here();
    let question = StoredValue::new(question);
    let wrong = RwSignal::new(None::<String>);
    let say = move |verdict: Verdict| {
        move |_| {
            wrong.set(
                question
                    .with_value(|question| answer(keeper, question, verdict))
                    .err(),
            )
        }
    };
    view! {
        <div class="log-asked">
            <p class="log-note">{said}</p>
            <div class="log-presses">
                <button type="button" class="way" on:click=say(Verdict::Counts)>"it was so: it counts"</button>
                <button type="button" class="way" on:click=say(Verdict::LeftOut)>"leave it out"</button>
            </div>
            <p class="problem" role="status">{wrong}</p>
        </div>
    }
}

/// Says of the weighing that the question is about what the smith says: the same weight once more, with the answer.
fn answer(keeper: Keeper, question: &Question, verdict: Verdict) -> Result<(), String> {
    let build = untrack(|| keeper.build(&question.build)).ok_or("This build was removed.")?;
    let steps = build.story().steps;
    let weighed = steps.iter().find(|step| step.id == question.step);
    let mass = weighed.and_then(|step| step.weighed);
    let mass = mass.ok_or("This weighing was struck.")?;
    let event = Event {
        step: question.step,
        at: super::super::journal::now(),
        what: What::Weighed {
            mass,
            verdict: Some(verdict),
        },
    };
    let pressed = keeper.press(&build.id, Change::Record(event));
    pressed.map_err(|error| error.to_string())
}

/// The losses that the log has taught, for a bar: what comes of it goes to `done` once the log is read.
pub fn for_the_bar(workspace: Workspace, bar: Bar, done: Callback<(Option<Bar>, String)>) {
    let keeper = super::keeper::open(workspace);
    Effect::new(move |answered: Option<bool>| {
        if answered == Some(true) {
            return true;
        }
        let learned = keeper.builds.with(|builds| builds.as_deref().map(learn));
        if let Some(learned) = &learned {
            done.run(taken(learned, &bar));
        }
        learned.is_some()
    });
}

/// The bar with what was learned, if anything was, and what is said of it.
fn taken(learned: &Learned, bar: &Bar) -> (Option<Bar>, String) {
    let own = learned.lines.iter().filter(|line| line.builds > 0);
    let own: Vec<String> = own
        .map(|line| format!("{} ({})", line.kind.words(), line.builds))
        .collect();
    let waiting = match learned.questions.len() {
        0 => "",
        1 => " One weighing lies far out and waits for your answer in the log.",
        _ => " Some weighings lie far out and wait for your answer in the log.",
    };
    if own.is_empty() {
        let said = format!(
            "The log has taught nothing yet: weigh a build before and after a step that takes from the ledger.{waiting}"
        );
        return (None, said);
    }
    let said = format!(
        "From the log, with the number of builds behind each: {}.{waiting}",
        own.join(", ")
    );
    (Some(learned.bar(bar)), said)
}

#[cfg(test)]
mod tests {
    use super::*;
    use headwright::design::starter;
    use headwright::log::Build;
    use headwright::units::Mass;

    #[test]
    fn numbers_are_as_fine_as_the_spread_is_known() {
        assert_eq!(pair([0.060_834, 0.024_41]), "0.061 ± 0.024");
        assert_eq!(pair([8.0, 3.0]), "8 ± 3");
        assert_eq!(pair([0.0, 0.0]), "0 ± 0");
        assert_eq!(figures(123.456, 21.0), "123");
        assert_eq!(figures(-1.54, 0.5), "−1.54");
    }

    #[test]
    fn what_was_never_weighed_changes_no_bar() {
        let design = starter("rounding").expect("a starter");
        let (bar, said) = taken(&learn(&[]), &design.bar);
        assert_eq!(bar, None);
        assert!(said.starts_with("The log has taught nothing yet"), "{said}");
        let mut build = Build::begun("b1", None, design.clone(), 5);
        for (step, grams) in [(5, 1300.0), (8, 1291.0)] {
            let what = What::weighed(Mass::grams(grams));
            build
                .record(Event { step, at: 7, what })
                .expect("it can be");
        }
        let (bar, said) = taken(&learn(&[build]), &design.bar);
        assert!(said.contains("scale in heat treatment (1)"), "{said}");
        assert_ne!(bar, Some(design.bar));
    }
}
