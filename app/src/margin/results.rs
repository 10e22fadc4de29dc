//! What else follows from the head: volume, surface, inertia.

use leptos::prelude::*;

use super::super::state::Workspace;
use super::super::words;
use headwright::mass::surface_area;
use headwright::units::{KG_PER_POUND, MM_PER_INCH, System};

/// What is listed, in its order.
const NAMES: [&str; 8] = [
    "volume",
    "surface",
    "inertia about the handle",
    "least principal inertia",
    "middle principal inertia",
    "greatest principal inertia",
    "centroid above the eye’s middle",
    "steel in the eye’s place",
];

/// A plain list of results.
#[component]
pub fn Results() -> impl IntoView {
    let workspace = Workspace::here();
    let properties = workspace.properties;
    let surface = Memo::new(move |_| workspace.sound.with(surface_area));
    let values = Memo::new(move |_| {
        let system = workspace.system.get();
        properties.with(|p| {
            let [small, middle, large] = p.principal_moments.map(|i| inertia(i, system));
            [
                volume(p.volume, system),
                area(surface.get(), system),
                inertia(p.inertia_handle_axis, system),
                small,
                middle,
                large,
                words::about(p.centroid[2], system).replace('-', "−"),
                headwright::units::show_mass(p.eye_mass, system),
            ]
        })
    });
    view! {
        <section class="results" aria-labelledby="results">
            <h2 id="results">"results"</h2>
            <dl>
                {NAMES
                    .into_iter()
                    .enumerate()
                    .map(|(index, name)| {
                        view! {
                            <div>
                                <dt>{name}</dt>
                                <dd>{move || values.with(|values| values[index].clone())}</dd>
                            </div>
                        }
                    })
                    .collect_view()}
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
