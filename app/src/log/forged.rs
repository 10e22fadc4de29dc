//! What readings of a build say: what the head will weigh, what to move, and what it is if it exists already.

use leptos::prelude::*;

use super::super::state::{Screen, Workspace};
use super::super::terms::{Term, Words};
use super::build::Front;
use headwright::design::Design;
use headwright::log::existing::{Rest, existing};
use headwright::log::forged::{WayBack, forged};
use headwright::log::{Precision, ReadingError, Readings};
use headwright::units::System;

/// What was asked of the readings.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Asked {
    /// What it will be when it is finished, and what to move.
    Finished,
    /// What hammer it is: all that was not measured in proportion.
    Existing,
}

/// What is said, and the head to go on with.
#[derive(Clone, Debug, PartialEq)]
struct Answer {
    said: Vec<String>,
    design: Option<Box<Design>>,
}

/// What was measured of the head, and what follows.
#[component]
pub fn AsForged() -> impl IntoView {
    let workspace = Workspace::here();
    let front = Front::here();
    let readings = Memo::new(move |_| front.story.with(|story| story.readings.clone()));
    let asked = RwSignal::new(None::<Asked>);
    // What was said of other readings is said no longer.
    Effect::new(move |_| {
        readings.track();
        asked.set(None);
    });
    let any = Memo::new(move |_| {
        readings.with(|readings| !readings.sizes.is_empty() || readings.weighed.is_some())
    });
    let answer = Memo::new(move |_| {
        let asked = asked.get()?;
        let design = front.build.with(|build| build.design.clone());
        let system = workspace.system.get();
        Some(readings.with(|readings| answer(asked, &design, readings, system)))
    });
    let to_the_sheet = move |_| {
        let design = answer.with_untracked(|answer| answer.as_ref()?.design.clone());
        if let Some(design) = design {
            workspace.bring(design.name.clone(), *design, None);
            workspace.screen.set(Screen::Head);
        }
    };
    let press = move |what: Asked| {
        move |_| asked.update(|asked| *asked = (*asked != Some(what)).then_some(what))
    };
    let pressed = move |what: Asked| move || (asked.get() == Some(what)).to_string();
    view! {
        <section aria-labelledby="log-forged">
            <h2 id="log-forged">"as forged"</h2>
            <Words
                id="log-forged-words"
                terms=&[Term::AsForged, Term::HotReading, Term::OneDeviation, Term::Explains]
            />
            <Show
                when=move || any.get()
                fallback=|| {
                    view! {
                        <p class="soft">
                            "Measure a size or weigh the head at a step, hot or cold: what it will weigh, and what to move, stands here."
                        </p>
                    }
                }
            >
                <div class="log-presses">
                    <button
                        type="button"
                        class="way"
                        aria-pressed=pressed(Asked::Finished)
                        on:click=press(Asked::Finished)
                    >
                        "what it will weigh"
                    </button>
                    <button
                        type="button"
                        class="way"
                        aria-pressed=pressed(Asked::Existing)
                        on:click=press(Asked::Existing)
                    >
                        "it exists already"
                    </button>
                </div>
            </Show>
            <div role="status">
                {move || {
                    answer
                        .get()
                        .map(|answer| {
                            answer.said.into_iter().map(|said| view! { <p>{said}</p> }).collect_view()
                        })
                }}
            </div>
            <Show when=move || answer.with(|answer| answer.as_ref().is_some_and(|it| it.design.is_some()))>
                <div class="actions">
                    <button type="button" class="plain" on:click=to_the_sheet>
                        "put that head on the sheet"
                    </button>
                </div>
            </Show>
        </section>
    }
}

fn answer(asked: Asked, design: &Design, readings: &Readings, system: System) -> Answer {
    let precision = Precision::usual(design.bar.rule);
    let answered = match asked {
        Asked::Finished => forged(design, readings, &precision).map(|forged| Answer {
            said: forged.sentences(system),
            design: Some(match &forged.way_back {
                WayBack::Moves { design, .. } => design.clone(),
                _ => Box::new(forged.taken.design.clone()),
            }),
        }),
        Asked::Existing => {
            existing(design, readings, &precision, Rest::InProportion).map(|existing| Answer {
                said: existing.sentences(system),
                design: Some(Box::new(existing.design)),
            })
        }
    };
    answered.unwrap_or_else(|errors| Answer {
        said: said(&errors, system),
        design: None,
    })
}

fn said(errors: &[ReadingError], system: System) -> Vec<String> {
    errors.iter().map(|error| error.sentence(system)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use headwright::design::{Edit, Hold, Part, Quantity, Side, Size, starter};
    use headwright::log::Reading;
    use headwright::units::{Length, Mass};

    fn design() -> Design {
        let hold = Hold::About {
            value: Mass::kg(1.0),
            tolerance: Some(Mass::grams(5.0)),
        };
        let design = starter("rounding").expect("a starter");
        design.apply(Edit::hold(Quantity::Mass, hold))
    }

    fn reach(mm: f64) -> Readings {
        Readings {
            sizes: vec![Reading {
                dim: Part::End(Side::Front).size(Size::Reach),
                size: Length::mm(mm).into(),
                celsius: None,
            }],
            weighed: None,
        }
    }

    #[test]
    fn a_reading_tells_what_to_move_and_gives_the_head_with_it() {
        let answer = answer(Asked::Finished, &design(), &reach(60.0), System::Metric);
        let design = answer.design.expect("a head to go on with");
        let measured = Part::End(Side::Front).size(Size::Reach);
        assert_eq!(design.size(measured), Some(Length::mm(60.0).into()));
        assert!(!design.is_free(measured));
        assert!(answer.said.join(" ").contains("±"), "{:?}", answer.said);
    }

    #[test]
    fn a_reading_that_cannot_be_is_a_sentence() {
        let answer = answer(Asked::Existing, &design(), &reach(1e6), System::Metric);
        assert_eq!(answer.design, None);
        assert!(
            answer.said.join(" ").contains("at most"),
            "{:?}",
            answer.said
        );
    }
}
