//! The bar screen: what to cut, and where it goes.

use leptos::prelude::*;

use super::quantity::Number;
use super::state::Workspace;
use super::words;
use super::workshop::Workshop;
use headwright::bar::{Bar, CAUTIONS};
use headwright::design::Edit;
use headwright::drift;
use headwright::plan::plan;
use headwright::units::{Length, show_length, show_mass, unit_word};

mod curve;
mod drifts;
mod hot;
mod ledger;
mod losses;
mod marks;
mod on_hand;
mod order;
mod picture;
mod piece;
pub mod print;
mod reckoned;
mod section;

use reckoned::Reckoned;

/// Shows the bar changed by `change`, as a part of the row of edits called `subject`.
fn show_bar(workspace: Workspace, subject: &str, change: impl FnOnce(&mut Bar)) {
    let mut bar = workspace.design.with_untracked(|design| design.bar.clone());
    change(&mut bar);
    workspace.show(subject, Edit::Bar(Box::new(bar)));
}

/// The bar.
#[component]
pub fn BarScreen() -> impl IntoView {
    let workspace = Workspace::here();
    let from = Workshop::open(workspace.notice).marks_from;
    let reckoned = Reckoned::new(workspace);
    provide_context(reckoned);
    let plan = Memo::new(move |_| {
        let billet = reckoned.billet.get().ok()?;
        let bar = workspace.bar();
        let from = from.get();
        Some(
            workspace
                .sound
                .with(|solid| plan(solid, &billet, &bar, from)),
        )
    });
    view! {
        <div class="columns bar-screen">
            <div class="sheet cut-and-picture">
                <Cut />
                <div>
                    <div class="sideways" role="region" tabindex="0" aria-label="billet, figure">
                        <picture::Billet plan=plan.into() />
                    </div>
                    <marks::From from=from />
                </div>
                <curve::Curve plan=plan.into() />
                <marks::Table plan=plan.into() />
                <Cautions />
            </div>
            <aside class="margin" aria-label="weight and losses">
                <super::finished::Finished />
                <ledger::Ledger />
                <on_hand::BarsOnHand />
            </aside>
            <div class="under">
                <section::Section />
                <piece::WeighedPiece />
                <losses::Losses />
                <p class="soft">
                    "Losses are estimates until they are weighed: cut one, forge it, weigh it before and after, and write your own numbers here."
                </p>
                <drifts::SlotToEye />
                <hot::Hot />
                <order::ManyHeads />
                <Actions />
            </div>
        </div>
    }
}

/// The cut length, the biggest number of the page, and what it means.
#[component]
fn Cut() -> impl IntoView {
    let workspace = Workspace::here();
    let system = workspace.system;
    let billet = Reckoned::here().billet;
    view! {
        <div class="cut">
            <h1 class="screen-name">{move || workspace.design.with(|d| d.name.clone())}</h1>
            {move || {
                let now = system.get();
                match billet.get() {
                    Ok(billet) => {
                        let (section, confidence) = workspace.design.with(|d| (d.bar.section, d.bar.confidence));
                        let text = show_length(Length::mm(billet.cut_length_mm), now);
                        let label = format!("cut {text} {}", unit_word(now));
                        view! {
                            <p class="cut-from">{format!("cut from {}", words::bar_section(section, now))}</p>
                            <p class="cut-length" aria-label=label>
                                <Number text=text />
                                <span class="unit">{unit_word(now)}</span>
                            </p>
                            <p class="cut-means">
                                {format!(
                                    "{} of steel. {} finish at {} or over.",
                                    ledger::mass(billet.cut_mass_kg, now),
                                    words::heads(confidence),
                                    show_mass(billet.finished_kg, now),
                                )}
                            </p>
                            <p class="soft">
                                {format!(
                                    "An estimate. Expect {} before faces are ground and the rest is dressed, and {} to {} after ({}), from where the rest is ground off. The saw’s cut comes on top.",
                                    show_mass(billet.before_grinding_kg, now),
                                    show_mass(billet.finished_range_kg[0], now),
                                    show_mass(billet.finished_range_kg[1], now),
                                    words::both_sides(confidence),
                                )}
                            </p>
                        }
                            .into_any()
                    }
                    Err(errors) => {
                        view! {
                            <div class="problems">
                                <h2>"No cut can be worked out"</h2>
                                {errors
                                    .into_iter()
                                    .map(|error| view! { <p>{error.sentence(now)}</p> })
                                    .collect_view()}
                            </div>
                        }
                            .into_any()
                    }
                }
            }}
        </div>
    }
}

/// What goes with saw, fire, punch and grinder, before anybody lights the fire.
#[component]
fn Cautions() -> impl IntoView {
    let all = CAUTIONS.into_iter().chain(drift::CAUTIONS);
    view! {
        <section class="work-cautions" aria-labelledby="saw-and-fire">
            <h2 id="saw-and-fire">"saw, fire, punch and grinder"</h2>
            <ul class="cautions">{all.map(|text| view! { <li>{text}</li> }).collect_view()}</ul>
        </section>
    }
}

/// Undo and redo.
#[component]
fn Actions() -> impl IntoView {
    view! {
        <div class="actions">
            <super::foot::Steps />
        </div>
    }
}
