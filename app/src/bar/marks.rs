//! The marks on the billet: from which end, where exactly, and printed at 1:1.

use leptos::prelude::*;

use super::super::pick::Pick;
use super::super::state::Workspace;
use super::super::terms::{Term, Words};
use super::super::words;
use super::curve::{amount, end_word};
use super::print::{LYING_MM, print_alone};
use headwright::design::Side;
use headwright::plan::{Marks, Plan, marks_svg};
use headwright::units::{System, unit_word};

/// Hundredths of a millimetre are finer than any punch.
fn at(mm: f64, system: System) -> String {
    words::length((mm * 100.0).round() / 100.0, system)
}

/// The longest billet whose strip goes on one sheet lying, mm: the strip has 10 mm at either side.
const LONGEST_MM: f64 = LYING_MM - 20.0;

/// From which end the marks are measured.
#[component]
pub fn From(
    /// The end.
    from: RwSignal<Side>,
) -> impl IntoView {
    view! {
        <div class="marks-from">
            <Pick
                label="marks measured from the"
                of="bar"
                options=vec!["back end", "front end"]
                chosen=Signal::derive(move || match from.get() {
                    Side::Back => "back end",
                    Side::Front => "front end",
                })
                choose=move |word: String| {
                    from.set(if word == "front end" { Side::Front } else { Side::Back });
                }
            />
            <p class="soft">
                "Centre-punch the marks on the side that the eye goes in: chalk burns off. Losses are allowed for on both sides of each."
            </p>
        </div>
    }
}

/// The marks in figures, and what is done to the bar between them.
#[component]
pub fn Table(
    /// How the bar becomes the head.
    plan: Signal<Option<Plan>>,
) -> impl IntoView {
    let workspace = Workspace::here();
    let rows = move || {
        let system = workspace.system.get();
        plan.with(|plan| {
            let plan = plan.as_ref()?;
            let cautions = plan.cautions(system);
            let marks = plan.marks.marks.iter().map(|mark| {
                view! {
                    <tr>
                        <th scope="row">{mark.place.words()}</th>
                        <td>{words::length(mark.at_mm, system)}</td>
                        <td>{words::length(mark.rest_mm, system)}</td>
                        <td class="soft">{at(mark.exact_mm, system)}</td>
                    </tr>
                }
            });
            let works = plan.curve.stretches.iter().map(|stretch| {
                let [from, to] = [stretch.from_mm, stretch.to_mm]
                    .map(|x| words::about_number(x, system));
                view! {
                    <tr>
                        <th scope="row">{amount(stretch.work, stretch.ratio)}</th>
                        <td>{words::about(stretch.bar_length_mm, system)}</td>
                        <td>{format!("{from} to {to} {}", unit_word(system))}</td>
                    </tr>
                }
            });
            Some(view! {
                <div class="marks-tables">
                    <table aria-label="marks">
                        <thead>
                            <tr>
                                <th scope="col">"mark"</th>
                                <th scope="col">"from this end"</th>
                                <th scope="col">"from the other"</th>
                                <th scope="col">"exactly"</th>
                            </tr>
                        </thead>
                        <tbody>{marks.collect_view()}</tbody>
                    </table>
                    <table aria-label="what is done to the bar, from back to front">
                        <thead>
                            <tr>
                                <th scope="col">"work, back to front"</th>
                                <th scope="col">"of the bar"</th>
                                <th scope="col">"becomes, from the eye"</th>
                            </tr>
                        </thead>
                        <tbody>{works.collect_view()}</tbody>
                    </table>
                    {(!cautions.is_empty())
                        .then(|| {
                            view! {
                                <ul class="cautions" aria-label="to know before the fire is lit">
                                    {cautions.into_iter().map(|text| view! { <li>{text}</li> }).collect_view()}
                                </ul>
                            }
                        })}
                </div>
            })
        })
    };
    let print = move |_| {
        let marks = plan.with_untracked(|plan| plan.as_ref().map(|plan| plan.marks.clone()));
        if let Some(marks) = marks {
            print_alone(&sheet(workspace, &marks));
        }
    };
    let longer = move || {
        let length = plan.with(|plan| plan.as_ref().map(|plan| plan.marks.length_mm))?;
        (length > LONGEST_MM).then_some(view! {
            <p class="soft">"The strip is longer than a sheet of A4 lying: choose larger paper when you print it."</p>
        })
    };
    view! {
        <section class="marks" aria-labelledby="marks">
            <h2 id="marks">"marks and work"</h2>
            <Words id="marks-words" terms=&[Term::Marks, Term::Billet] />
            {rows}
            <Show when=move || plan.with(Option::is_some)>
                <button type="button" class="plain" on:click=print>
                    "print the marks full size"
                </button>
            </Show>
            {longer}
        </section>
    }
}

/// The sheet to be laid along the billet.
fn sheet(workspace: Workspace, marks: &Marks) -> String {
    let ends = workspace.design.with(|design| {
        let word = |side| end_word(design, side);
        match marks.from {
            Side::Front => [Side::Front, Side::Back].map(word),
            Side::Back => [Side::Back, Side::Front].map(word),
        }
    });
    marks_svg(marks, ends, workspace.system.get())
}
