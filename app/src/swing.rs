//! The swing screen: what a long face does, the tool and its blow, the smith at the anvil, hammers side by side.

use leptos::prelude::*;

use super::foot;
use super::state::Workspace;
use super::workshop::Workshop;
use headwright::swing::CAUTIONS;

mod anvil;
pub mod asked;
mod compared;
mod fields;
mod laid;
mod lines;
mod plot;
mod present;
mod side_by_side;
mod sweep;
mod tool;

use present::Present;
use sweep::bench::Bench;

/// The swing.
#[component]
pub fn SwingScreen() -> impl IntoView {
    let workspace = Workspace::here();
    let workshop = Workshop::open(workspace.notice);
    provide_context(Present::new(workspace, workshop));
    provide_context(Bench::new(workspace, workshop));
    view! {
        <Hatching />
        <div class="columns swing-screen">
            <div class="sheet swing-hero">
                <sweep::ShortOrLong />
            </div>
            <aside class="margin" aria-label="what the numbers say">
                <sweep::Said />
            </aside>
            <div class="swing-anvil">
                <anvil::AtTheAnvil />
            </div>
            <div class="under">
                <tool::ToolAndBlow />
                <side_by_side::SideBySide />
                <Cautions />
                <div class="actions">
                    <foot::Steps />
                </div>
            </div>
        </div>
    }
}

/// The hatching of the second hammer and of a print, in mm of what it fills.
#[component]
fn Hatching() -> impl IntoView {
    view! {
        <svg class="hatching" width="0" height="0" aria-hidden="true" focusable="false">
            <defs>
                <pattern id="laid-hatch" width="3" height="3" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
                    <path d="M0 0V3" />
                </pattern>
                <pattern id="print-hatch" width="1.4" height="1.4" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
                    <path d="M0 0V1.4" />
                </pattern>
            </defs>
        </svg>
    }
}

/// What goes with swinging a hammer.
#[component]
fn Cautions() -> impl IntoView {
    view! {
        <section class="work-cautions workshop" aria-labelledby="before-a-swing">
            <h2 id="before-a-swing">"before a swing"</h2>
            <ul class="said">
                {CAUTIONS.map(|text| view! { <li>{text}</li> }).collect_view()}
                <li>"Wood dust and oily rags: what goes with them stands with the handle."</li>
                <li>"Local codes and licensed practice come first."</li>
            </ul>
        </section>
    }
}
