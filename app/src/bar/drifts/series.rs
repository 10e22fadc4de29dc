//! The drifts in the order of the work, and what is to be said of them.

use leptos::prelude::*;

use super::super::super::state::Workspace;
use super::Drifts;
use super::words::{one, pair, range, stretch};
use headwright::drift::{Depth, Drift, Plan};
use headwright::units::System;

/// Table and sentences, or why there are no drifts.
#[component]
pub fn Series(
    /// The drifts.
    drifts: Signal<Drifts>,
) -> impl IntoView {
    let system = Workspace::here().system;
    move || {
        let system = system.get();
        drifts.with(|drifts| match drifts {
            Ok(plan) => view! { <Table plan=plan.clone() system=system /> }.into_any(),
            Err(errors) => {
                let sentences = errors
                    .iter()
                    .map(|error| view! { <p>{error.sentence(system)}</p> });
                view! {
                    <div class="problems" role="status">
                        <h3>"No drifts can be worked out"</h3>
                        {sentences.collect_view()}
                    </div>
                }
                .into_any()
            }
        })
    }
}

/// How deep a drift goes, in one column where both mouths are alike.
fn depths(drift: &Drift, alike: bool, system: System) -> Vec<String> {
    let top = Depth::words(drift.top, system);
    if alike {
        vec![top]
    } else {
        vec![top, Depth::words(drift.bottom, system)]
    }
}

/// Whether every drift goes as deep from either mouth.
fn alike(plan: &Plan, system: System) -> bool {
    plan.drifts
        .iter()
        .all(|drift| Depth::words(drift.top, system) == Depth::words(drift.bottom, system))
}

/// What is told of every drift, besides how deep it goes.
const COLUMNS: [&str; 4] = [
    "opens the hot waist to",
    "rim longer by",
    "cheek wall",
    "outer width at most",
];

/// A cell that says what column it is of: on a phone each drift is a block of its own.
fn cell(column: &'static str, words: String) -> impl IntoView {
    view! { <td role="cell" data-column=column>{words}</td> }
}

#[component]
fn Table(
    /// The drifts.
    plan: Plan,
    /// Units.
    system: System,
) -> impl IntoView {
    let alike = alike(&plan, system);
    let mouths: &[&'static str] = if alike {
        &["how deep, from either mouth"]
    } else {
        &["how deep from the top", "from the bottom"]
    };
    let last = plan.drifts.len();
    let rows = plan.drifts.iter().zip(1..).map(|(drift, number)| {
        let name = if number == last {
            format!(
                "{number}, the eye’s own: {} when cold",
                plan.finished_eye(system)
            )
        } else {
            number.to_string()
        };
        let [open, stretched, wall, width] = COLUMNS;
        let mouths = depths(drift, alike, system).into_iter().zip(mouths);
        view! {
            <tr role="row">
                <th role="rowheader" scope="row">{name}</th>
                {cell(open, pair(drift.section, system))}
                {cell(stretched, stretch(drift.stretch_percent, drift.stretch_at_mouth_percent))}
                {cell(wall, range(drift.wall_outer_kept_mm, drift.wall_sideways_mm, system))}
                {cell(width, one(drift.outer_width_sideways_mm, system))}
                {mouths.map(|(words, &column)| cell(column, words)).collect_view()}
            </tr>
        }
    });
    let before = &plan.opening;
    let opening = if before.shape == "slit" {
        "slit"
    } else {
        "slot"
    };
    let bolster = plan.bolster.map(|bolster| {
        format!(
            "The bolster’s hole under the punch: {}.",
            pair(bolster.hole, system)
        )
    });
    let [open, stretched, wall, width] = COLUMNS;
    view! {
        <table role="table" class="lines stacked" aria-label="drifts in the order of the work">
            <thead role="rowgroup">
                <tr role="row">
                    <th role="columnheader" scope="col">"drift"</th>
                    {COLUMNS
                        .iter()
                        .chain(mouths)
                        .map(|words| view! { <th role="columnheader" scope="col">{*words}</th> })
                        .collect_view()}
                </tr>
            </thead>
            <tbody role="rowgroup">
                <tr role="row" class="soft">
                    <th role="rowheader" scope="row">{opening}</th>
                    {cell(open, pair(before.size, system))}
                    {cell(stretched, "–".to_owned())}
                    {cell(wall, one(before.wall_mm, system))}
                    {cell(width, one(before.outer_width_mm, system))}
                    <td role="cell" data-column="how deep" colspan=mouths.len().to_string()>
                        "cut or punched through"
                    </td>
                </tr>
                {rows.collect_view()}
            </tbody>
        </table>
        <p class="soft">
            "Drifts and openings are measured while the head is hot, at the heat above; walls and widths are the cold head’s. Cheek wall: less when the outer width is kept, more when metal only goes sideways and the cheeks bulge to the outer width given. Estimates. A mark is measured on the drift, from its greatest section towards the tip: stop when it is level with the mouth. The last drift stops at the line of the mouth on its print."
        </p>
        <ul class="said">
            <li>
                {format!(
                    "The last drift is {}. The hole shrinks to the finished eye, {} at the waist, as the head cools.",
                    plan.made_hot(system),
                    plan.finished_eye(system),
                )}
            </li>
            <li>
                {format!(
                    "A slit {} long needs no stretch: bent open, its rim is the eye’s.",
                    one(plan.slit_length_mm, system),
                )}
            </li>
            {bolster.map(|sentence| view! { <li>{sentence}</li> })}
            {plan.notes.iter().map(|note| view! { <li>{note.sentence(system)}</li> }).collect_view()}
        </ul>
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use headwright::bar::Bar;
    use headwright::design::{starter, starter_names};
    use headwright::drift::{Drifting, plan};

    #[test]
    fn a_column_for_each_mouth_stands_only_where_they_differ() {
        for name in starter_names() {
            let solid = starter(name).and_then(|d| d.build().ok()).expect("sound");
            let plan = plan(&solid, &Bar::default(), &Drifting::default(), 1050.0)
                .expect("the usual drifts");
            let alike = alike(&plan, System::Metric);
            for drift in &plan.drifts {
                let words = depths(drift, alike, System::Metric);
                assert_eq!(words.len(), if alike { 1 } else { 2 }, "{name}");
            }
        }
    }
}
