//! What else follows from the head: volume, surface, inertia.

use leptos::prelude::*;

use super::super::state::Workspace;
use super::super::words;
use crate::mass::surface_area;
use crate::units::{KG_PER_POUND, MM_PER_INCH, System};

/// A plain list of results.
#[component]
pub fn Results() -> impl IntoView {
    let workspace = Workspace::here();
    let properties = workspace.properties;
    let surface = Memo::new(move |_| workspace.sound.with(surface_area));
    let rows = move || {
        let system = workspace.system.get();
        properties.with(|p| {
            let [small, middle, large] = p.principal_moments.map(|i| inertia(i, system));
            vec![
                ("volume", volume(p.volume, system)),
                ("surface", area(surface.get(), system)),
                (
                    "inertia about the handle",
                    inertia(p.inertia_handle_axis, system),
                ),
                ("least principal inertia", small),
                ("middle principal inertia", middle),
                ("greatest principal inertia", large),
                (
                    "centroid above the eye’s middle",
                    words::about(p.centroid[2], system).replace('-', "−"),
                ),
                (
                    "steel in the eye’s place",
                    crate::units::show_mass(p.eye_mass, system),
                ),
            ]
        })
    };
    view! {
        <section class="results" aria-labelledby="results">
            <h2 id="results">"results"</h2>
            <dl>
                {move || {
                    rows()
                        .into_iter()
                        .map(|(name, value)| {
                            view! {
                                <div>
                                    <dt>{name}</dt>
                                    <dd>{value}</dd>
                                </div>
                            }
                        })
                        .collect_view()
                }}
            </dl>
        </section>
    }
}

fn volume(mm3: f64, system: System) -> String {
    match system {
        System::Metric => format!("{:.1} cm³", mm3 / 1e3),
        System::Imperial => format!("{:.2} in³", mm3 / MM_PER_INCH.powi(3)),
    }
}

fn area(mm2: f64, system: System) -> String {
    match system {
        System::Metric => format!("{:.1} cm²", mm2 / 1e2),
        System::Imperial => format!("{:.2} in²", mm2 / MM_PER_INCH.powi(2)),
    }
}

fn inertia(kg_mm2: f64, system: System) -> String {
    match system {
        System::Metric => format!("{kg_mm2:.0} kg·mm²"),
        System::Imperial => {
            format!("{:.3} lb·in²", kg_mm2 / KG_PER_POUND / MM_PER_INCH.powi(2))
        }
    }
}
