//! Side by side: hammers that are put aside, laid eye on eye, in a table and in words.

use leptos::prelude::*;

use super::super::state::Workspace;
use super::super::terms::{Term, Words};
use super::super::words::capitalized;
use super::super::workshop::{Kept, Workshop};
use super::asked::conditions;
use super::compared::{Column, differences};
use super::laid::{Laid, laid};
use super::present::{refused, sentences};
use super::sweep::Swatch;
use headwright::compare::{Conditions, MOST, Measured, measure, words};
use headwright::design::{Design, starter, starter_names};
use headwright::posture::ESTIMATE;
use headwright::units::System;

/// A hammer that was put aside: its name, its design, and its numbers or why it has none.
#[derive(Clone, Debug, PartialEq)]
struct Aside {
    name: String,
    design: Option<Design>,
    measured: Result<Measured, Vec<String>>,
}

/// All that are put aside, measured alike.
fn read_all(texts: &[String], conditions: &Conditions, system: System) -> Vec<Aside> {
    let mut all: Vec<Aside> = Vec::new();
    for text in texts {
        let aside = match Design::from_json(text) {
            Ok(design) => {
                let measured = measure(&design, conditions)
                    .map_err(|errors| sentences(&errors, |e| e.sentence(system)));
                Aside {
                    name: own_name(&design.name, &all),
                    design: Some(design),
                    measured,
                }
            }
            Err(error) => Aside {
                name: own_name("hammer that can’t be read", &all),
                design: None,
                measured: Err(vec![error.to_string()]),
            },
        };
        all.push(aside);
    }
    all
}

/// `name`, with a number behind it where another has it already.
fn own_name(name: &str, others: &[Aside]) -> String {
    let taken = |name: &str| others.iter().any(|other| other.name == name);
    if !taken(name) {
        return name.to_owned();
    }
    let mut number = 2;
    while taken(&format!("{name} {number}")) {
        number += 1;
    }
    format!("{name} {number}")
}

/// That there is no room for another.
fn full() -> String {
    format!("{MOST} hammers stand here already. Take one away first.")
}

/// Puts a design aside; a fifth is refused.
fn put_aside(kept: Kept<Vec<String>>, design: &Design, said: RwSignal<Option<String>>) {
    if kept.value.with_untracked(Vec::len) >= MOST {
        said.set(Some(full()));
        return;
    }
    said.set(None);
    let text = design.to_json();
    kept.apply(|texts| texts.push(text));
}

/// The hammers that are put aside.
#[component]
pub fn SideBySide() -> impl IntoView {
    let workspace = Workspace::here();
    let system = workspace.system;
    let workshop = Workshop::here();
    let kept = workshop.compared;
    let said = RwSignal::new(None::<String>);
    let removed = RwSignal::new(None::<(usize, String, String)>);
    let asked = Memo::new(move |_| {
        let at_anvil = workshop.at_anvil.value.get();
        workshop.blow.value.with(|blow| conditions(blow, &at_anvil))
    });
    let all = Memo::new(move |_| {
        let (conditions, system) = (asked.get(), system.get());
        kept.value
            .with(|texts| read_all(texts, &conditions, system))
    });
    let rows = move || {
        all.get()
            .into_iter()
            .enumerate()
            .map(|(place, aside)| row(place, aside, kept, removed, said))
            .collect_view()
    };
    let put_back = move || {
        removed.get().map(|(place, name, text)| {
            view! {
                <button
                    type="button"
                    class="plain"
                    on:click=move |_| {
                        if kept.value.with_untracked(Vec::len) < MOST {
                            let text = text.clone();
                            kept.apply(|texts| texts.insert(place.min(texts.len()), text));
                            removed.set(None);
                            said.set(None);
                        } else {
                            said.set(Some(full()));
                        }
                    }
                >
                    {format!("put {name} back")}
                </button>
            }
        })
    };
    let compared = move || all.with(|all| side_by_side(all, &asked.get(), system.get()));
    view! {
        <section class="side-by-side workshop" aria-labelledby="side-by-side">
            <h2 id="side-by-side">"side by side"</h2>
            <Words id="beside-words" terms=&[Term::TurningMoment, Term::Twist] />
            <p class="soft">
                {format!("Up to {MOST} hammers, as they were when they were put aside. They stay in this browser.")}
            </p>
            <div class="aside-actions">
                <button
                    type="button"
                    class="way"
                    on:click=move |_| {
                        let design = workspace.design.get_untracked();
                        put_aside(kept, &design, said);
                    }
                >
                    <span>"put this hammer aside to compare"</span>
                </button>
                <label class="add-starter">
                    <span>"or add a starter"</span>
                    <select
                        prop:value=""
                        on:change:target=move |event| {
                            if let Some(design) = starter(&event.target().value()) {
                                put_aside(kept, &design, said);
                            }
                            event.target().set_value("");
                        }
                    >
                        <option value="">"choose"</option>
                        {starter_names()
                            .filter_map(|name| Some((name, starter(name)?.name)))
                            .map(|(name, words)| view! { <option value=name>{words}</option> })
                            .collect_view()}
                    </select>
                </label>
                {put_back}
            </div>
            <p class="sentence-said" role="status">{move || said.get()}</p>
            <ul class="aside-rows">{rows}</ul>
            {compared}
        </section>
    }
}

/// One that was put aside, to be taken in work or taken away.
fn row(
    place: usize,
    aside: Aside,
    kept: Kept<Vec<String>>,
    removed: RwSignal<Option<(usize, String, String)>>,
    said: RwSignal<Option<String>>,
) -> impl IntoView {
    let workspace = Workspace::here();
    let name = aside.name.clone();
    let take = aside.design.map(|design| {
        let step = design.name.clone();
        view! {
            <button
                type="button"
                class="plain"
                aria-label=format!("work on {name}")
                on:click=move |_| workspace.bring(step.clone(), design.clone(), None)
            >
                "work on it"
            </button>
        }
    });
    let remove = {
        let name = name.clone();
        move |_| {
            let text = kept.value.with_untracked(|texts| texts.get(place).cloned());
            if let Some(text) = text {
                kept.apply(|texts| {
                    texts.remove(place);
                });
                removed.set(Some((place, name.clone(), text)));
                said.set(None);
            }
        }
    };
    view! {
        <li>
            <Swatch place=place />
            <span class="aside-name">{name.clone()}</span>
            {take}
            <button type="button" class="plain" aria-label=format!("take {name} away") on:click=remove>
                "take away"
            </button>
            {aside.measured.err().map(refused)}
        </li>
    }
}

/// Pictures, table and words of those that can be compared.
fn side_by_side(all: &[Aside], conditions: &Conditions, system: System) -> AnyView {
    let sound = all.iter().filter_map(|aside| {
        let measured = aside.measured.as_ref().ok()?;
        Some((aside.name.as_str(), measured))
    });
    let sound: Vec<(&str, &Measured)> = sound.collect();
    let [(first, a), others @ ..] = sound.as_slice() else {
        return ().into_any();
    };
    if others.is_empty() {
        return view! { <p class="hint">"Put another one aside, and they are compared."</p> }
            .into_any();
    }
    let heads: Vec<Laid> = sound
        .iter()
        .map(|(name, measured)| Laid {
            name: (*name).to_owned(),
            solid: measured.solid.clone(),
        })
        .collect();
    let columns: Vec<Column> = sound
        .iter()
        .map(|(name, measured)| Column {
            name: (*name).to_owned(),
            measured: (*measured).clone(),
        })
        .collect();
    let paragraphs = others.iter().map(|(name, b)| {
        let said = words([*a, *b], [*first, *name], conditions, system);
        let said: Vec<String> = said.iter().map(|sentence| capitalized(sentence)).collect();
        view! { <p class="computed">{said.join(" ")}</p> }
    });
    view! {
        <div class="aside-compared">
            {laid(&heads, system)}
            <div>{paragraphs.collect_view()} <p class="soft small">{ESTIMATE}</p></div>
        </div>
        {differences(&columns, "side by side", system)}
    }
    .into_any()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn two_of_one_name_are_told_apart_and_nonsense_is_kept_as_it_is() {
        let design = starter("rounding").expect("a starter");
        let texts = [design.to_json(), design.to_json(), "nonsense".to_owned()];
        let all = read_all(&texts, &Conditions::default(), System::Metric);
        assert_eq!(all[0].name, design.name);
        assert_eq!(all[1].name, format!("{} 2", design.name));
        assert!(all[0].measured.is_ok());
        assert!(all[2].measured.is_err() && all[2].design.is_none());
    }
}
