//! What caliper and scale say of it together, and the head that comes of it.

use std::time::Duration;

use leptos::prelude::*;

use super::super::super::entry::Entry as Field;
use super::super::super::journal::{id, now};
use super::super::super::later::Later;
use super::super::super::rack::keeper as rack;
use super::super::super::state::{Screen, Workspace};
use super::super::super::workshop::Kept;
use super::Measuring;
use super::draft::Draft;
use headwright::design::{Design, LONGEST_NAME};
use headwright::log::existing::{Existing, Explanation, existing};
use headwright::rack::{Entry, Slip};
use headwright::units::{System, show_mass};

/// How long a field rests before all is reckoned anew.
const REST: Duration = Duration::from_millis(150);
/// How many sizes are told at first.
const TOLD: usize = 5;

/// What follows from what was typed.
#[derive(Clone, Debug, PartialEq)]
pub enum Answer {
    /// Nothing was typed yet.
    Nothing,
    /// It cannot be, each reason a sentence.
    Wrong(Vec<String>),
    /// What it is.
    Is(Box<Existing>),
}

impl Answer {
    /// What follows from `draft` with this head on the sheet.
    fn to(draft: &Draft, sheet: &Design, system: System) -> Self {
        let shape = draft.shape(sheet);
        let bare = match draft.bare(&shape, system) {
            Ok(bare) => bare,
            Err(reason) => return Self::Wrong(vec![reason]),
        };
        let readings = draft.readings(&shape, bare);
        if readings.sizes.is_empty() && readings.weighed.is_none() {
            return Self::Nothing;
        }
        let precision = draft.precision(&shape, bare);
        match existing(&shape, &readings, &precision, draft.others.rest()) {
            Ok(existing) => Self::Is(Box::new(existing)),
            Err(errors) => Self::Wrong(errors.iter().map(|it| it.sentence(system)).collect()),
        }
    }
}

/// The answer to what is typed, as soon as that has rested.
pub fn of(draft: Kept<Draft>) -> Memo<Answer> {
    let workspace = Workspace::here();
    let asked = RwSignal::new((
        draft.value.get_untracked(),
        workspace.design.get_untracked(),
    ));
    let later = Later::new();
    Effect::new(move |before: Option<()>| {
        draft.value.track();
        workspace.design.track();
        if before.is_some() {
            later.start(REST, move || {
                let now = (
                    draft.value.get_untracked(),
                    workspace.design.get_untracked(),
                );
                // The sheet may have been left meanwhile.
                drop(asked.try_set(now));
            });
        }
    });
    Memo::new(move |_| {
        let system = workspace.system.get();
        asked.with(|(draft, sheet)| Answer::to(draft, sheet, system))
    })
}

/// Both weights and their difference in a line that stays in sight.
#[component]
pub fn InALine() -> impl IntoView {
    let system = Workspace::here().system;
    let Measuring { answer, .. } = Measuring::here();
    let line = move || {
        answer.with(|answer| match answer {
            Answer::Is(existing) => in_a_line(existing, system.get()),
            Answer::Wrong(_) => "can’t be reckoned: see below".to_owned(),
            Answer::Nothing => "nothing typed yet".to_owned(),
        })
    };
    // The table below says the same to those who do not see it.
    view! { <p class="measured-now" aria-hidden="true">{line}</p> }
}

fn in_a_line(existing: &Existing, system: System) -> String {
    let sizes = show_mass(existing.computed_kg, system);
    match existing.more_kg {
        None => format!("{sizes} by its sizes"),
        Some(more) => format!(
            "sizes {sizes} · scale {} · {}",
            show_mass(existing.computed_kg + more, system),
            difference(more, system)
        ),
    }
}

/// “12.7 g more”
fn difference(more_kg: f64, system: System) -> String {
    let way = if more_kg < 0.0 { "less" } else { "more" };
    format!("{} {way}", show_mass(more_kg.abs(), system))
}

/// What they say, and what to do with it.
#[component]
pub fn Says() -> impl IntoView {
    let system = Workspace::here().system;
    let Measuring { answer, .. } = Measuring::here();
    let said = move || {
        let system = system.get();
        answer.with(|answer| match answer {
            Answer::Nothing => view! {
                <p class="soft">
                    "Type a size or the weight: what the two say of each other stands here."
                </p>
            }
            .into_any(),
            Answer::Wrong(reasons) => {
                let reasons = reasons.iter().cloned();
                let reasons = reasons.map(|reason| view! { <p class="problem">{reason}</p> });
                reasons.collect_view().into_any()
            }
            Answer::Is(existing) => weights(existing, system).into_any(),
        })
    };
    let causes = Memo::new(move |_| {
        answer.with(|answer| match answer {
            Answer::Is(existing) if existing.more_kg.is_some() && !existing.agree => {
                Some((existing.explanations.clone(), existing.unexplained()))
            }
            _ => None,
        })
    });
    let is = Memo::new(move |_| answer.with(|answer| matches!(answer, Answer::Is(_))));
    view! {
        <section aria-labelledby="measured-says">
            <h2 id="measured-says">"what they say"</h2>
            <div role="status">{said}</div>
            {move || causes.get().map(|(all, doubt)| view! { <Causes all=all doubt=doubt /> })}
            <Show when=move || is.get()>
                <GoOn />
            </Show>
        </section>
    }
}

/// The weights, each with what is left open of it.
fn weights(existing: &Existing, system: System) -> impl IntoView + use<> {
    let mass = |kg: f64| show_mass(kg, system);
    let row = |name: &'static str, what: String, value: String, open: f64| {
        let open = format!("± {}", mass(open));
        view! {
            <tr>
                <th scope="row">
                    {name}
                    <small>{what}</small>
                </th>
                <td>{value}</td>
                <td>{open}</td>
            </tr>
        }
    };
    let open = existing.left_open;
    let by_sizes = format!(
        "± {} by the caliper, ± {} by what was not measured",
        mass(open.measured_kg),
        mass(open.unmeasured_kg)
    );
    let sizes = row(
        "by its sizes",
        by_sizes,
        mass(existing.computed_kg),
        open.computed_kg(),
    );
    let both = existing.more_kg.map(|more| {
        let word = if more < 0.0 {
            "the scale shows less"
        } else {
            "the scale shows more"
        };
        let scale = mass(existing.computed_kg + more);
        (
            row(
                "by the scale",
                "the head alone".to_owned(),
                scale,
                open.scale_kg,
            ),
            row(word, String::new(), mass(more.abs()), open.difference_kg()),
        )
    });
    let verdict = existing.verdict(system);
    let fitted = existing.fitted_said();
    view! {
        <table class="log-table">
            <tbody>{sizes} {both}</tbody>
        </table>
        {verdict.map(|said| view! { <p>{said}</p> })}
        {fitted.map(|said| view! { <p>{said}</p> })}
    }
}

/// The sizes that alone would explain it, the likeliest first.
#[component]
fn Causes(
    /// All of them.
    all: Vec<Explanation>,
    /// Why none will do, where that is so.
    doubt: Option<&'static str>,
) -> impl IntoView {
    let system = Workspace::here().system;
    let shown = RwSignal::new(false);
    let count = all.len();
    let rows = move || {
        let told = if shown.get() { count } else { TOLD };
        let rows = (1..).zip(&all).take(told);
        rows.map(|(place, it)| cause(place, it, system.get()))
            .collect_view()
    };
    let any = count > 0;
    view! {
        <h3>"which size would explain it"</h3>
        {doubt.map(|doubt| view! { <p>{doubt}</p> })}
        {any.then(|| {
            view! {
                <table class="log-table" aria-label="sizes that would explain it, the likeliest first">
                    <tbody>{rows}</tbody>
                </table>
            }
        })}
        {(count > TOLD)
            .then(|| {
                view! {
                    <button
                        type="button"
                        class="plain"
                        aria-expanded=move || shown.get().to_string()
                        on:click=move |_| shown.update(|shown| *shown = !*shown)
                    >
                        {move || {
                            if shown.get() { format!("the first {TOLD}") } else { format!("all {count}") }
                        }}
                    </button>
                }
            })}
    }
}

/// A size that alone would explain it, by how much it would have to be another.
fn cause(place: usize, it: &Explanation, system: System) -> impl IntoView + use<> {
    let by = it.would_be.number() - it.size.number();
    let sign = if by < 0.0 { "−" } else { "+" };
    let by = format!("{sign}{}", it.size.with_number(by.abs()).words(system));
    let alike = it.follower.map_or("", |_| ", front and back alike");
    let taken = format!(
        "{} and not {}{alike}; {}",
        it.would_be.words(system),
        it.size.words(system),
        it.how()
    );
    view! {
        <tr>
            <th scope="row">
                {format!("{place}. {}", it.dim.words())}
                <small>{taken}</small>
            </th>
            <td>{by}</td>
        </tr>
    }
}

/// The head that comes of it: its name, onto the sheet, onto the rack.
#[component]
fn GoOn() -> impl IntoView {
    let workspace = Workspace::here();
    let rack = rack::open(workspace);
    let Measuring { draft, .. } = Measuring::here();
    let said = RwSignal::new(None::<String>);
    let called = move |sheet: &Design| draft.value.with(|draft| draft.called(&draft.shape(sheet)));
    let name = Signal::derive(move || workspace.design.with(called));
    // The last word of a field may not have rested yet.
    let comes = move || {
        let sheet = workspace.design.get_untracked();
        let system = workspace.system.get_untracked();
        let now = draft
            .value
            .with_untracked(|draft| Answer::to(draft, &sheet, system));
        let Answer::Is(existing) = now else {
            return None;
        };
        Some(Design {
            name: untrack(|| called(&sheet)),
            ..existing.design
        })
    };
    let to_the_sheet = move |_| {
        if let Some(design) = comes() {
            let sheet = workspace.design.get_untracked();
            draft.leave(|draft| draft.stay_with(&sheet));
            workspace.bring(design.name.clone(), design, None);
            workspace.screen.set(Screen::Head);
        }
    };
    let to_the_rack = move |_| {
        let Some(design) = comes() else { return };
        let name = design.name.clone();
        let entry = Entry {
            id: id(),
            design,
            made: now(),
            changed: now(),
            tags: Vec::new(),
        };
        rack.work(move |shelf| async move {
            shelf.change(|_| (vec![Slip::new(entry)], ())).await?;
            // The sheet may have been left meanwhile.
            drop(said.try_set(Some(format!(
                "{name} stands on the rack as a hammer of its own; the head on the sheet is what it was."
            ))));
            Ok(())
        });
    };
    // What was said of other readings is said no longer.
    Effect::new(move |_| {
        draft.value.track();
        said.set(None);
    });
    view! {
        <div>
            <h3>"its name"</h3>
            <div class="log-edit-line">
                <Field
                    label="name of the measured hammer".to_owned()
                    value=name
                    unit=Signal::derive(String::new)
                    read=move |text: String| {
                        let text = text.trim().to_owned();
                        let characters = text.chars().count();
                        if characters > LONGEST_NAME {
                            return Err(format!(
                                "The name has {characters} characters: shorten it to at most {LONGEST_NAME}.",
                            ));
                        }
                        draft.show(|draft| draft.name = (!text.is_empty()).then_some(text));
                        Ok(())
                    }
                    keep=move |()| draft.keep()
                    put_back=move |()| draft.put_back()
                    id="measured-name"
                />
            </div>
            <div class="log-presses">
                <button type="button" class="way first" on:click=to_the_sheet>
                    "put it on the sheet"
                </button>
                // Before, there is none.
                <Show when=move || rack.changed.with(Option::is_some)>
                    <button type="button" class="way" on:click=to_the_rack>
                        "put it on the rack"
                    </button>
                </Show>
            </div>
            <p role="status">{said}</p>
        </div>
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use headwright::design::{Dim, starter};
    use headwright::units::{Length, Mass};

    fn answer(draft: &Draft) -> Answer {
        let sheet = starter("rounding").expect("a starter");
        Answer::to(draft, &sheet, System::Metric)
    }

    fn draft(mm: f64, grams: Option<f64>) -> Draft {
        let dim: Dim = "cheeks.width".parse().expect("a dimension");
        Draft {
            sizes: vec![(dim, Length::mm(mm).into())],
            mass: grams.map(Mass::grams),
            ..Draft::default()
        }
    }

    #[test]
    fn nothing_typed_is_no_fault_and_what_cannot_be_is_a_sentence() {
        assert_eq!(answer(&Draft::default()), Answer::Nothing);
        let Answer::Wrong(reasons) = answer(&draft(41.0, Some(9e9))) else {
            panic!("no head weighs so much");
        };
        assert!(reasons.join(" ").contains("at most"), "{reasons:?}");
    }

    #[test]
    fn both_weights_stand_in_a_line_with_the_way_of_their_difference() {
        let Answer::Is(existing) = answer(&draft(41.0, Some(950.0))) else {
            panic!("a hammer");
        };
        let line = in_a_line(&existing, System::Metric);
        assert!(line.contains("scale 950 g"), "{line}");
        let more = existing.more_kg.expect("it was weighed");
        let way = if more < 0.0 { "less" } else { "more" };
        assert!(line.ends_with(way), "{line}");
        let Answer::Is(existing) = answer(&draft(41.0, None)) else {
            panic!("a hammer");
        };
        assert!(in_a_line(&existing, System::Metric).ends_with("by its sizes"));
    }
}
