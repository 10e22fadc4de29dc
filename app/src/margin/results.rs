//! What else follows from the head: volume, surface, inertia, the least wall, and how it lies to
//! a handle that leans.

use std::time::Duration;

use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;

use super::super::fetched;
use super::super::later::Later;
use super::super::state::Workspace;
use super::super::terms::{Term, Words};
use super::super::words;
use super::at_once::AtOnce;
use super::holds::{HoldHere, HoldRow};
use super::problems::{Problems, place};
use super::steps::Steps;
use headwright::design::Quantity;
use headwright::mass::TrueAxis;
use headwright::solid::CheekWall;
use headwright::units::{Angle, MM_PER_INCH, Measure, System, show_mass};

/// What is listed, in its order, and what of it can be held.
const NAMES: [(&str, Option<Quantity>); 13] = [
    ("length over all", Some(Quantity::Length)),
    ("reaches, front to back", Some(Quantity::ReachRatio)),
    ("inertia about the handle", Some(Quantity::Inertia)),
    ("least cheek wall", Some(Quantity::LeastWall)),
    ("volume", None),
    ("surface", None),
    ("least principal inertia", None),
    ("middle principal inertia", None),
    ("greatest principal inertia", None),
    ("centroid above the eye’s middle", None),
    ("steel in the eye’s place", None),
    ("face out of square with the handle", None),
    ("balance sideways of the handle", None),
];

/// Those that a head always has; the others are of an eye that leans.
const ALWAYS: usize = 11;

/// How long the head rests before its surface is measured: that may take a millisecond, and nobody steers by it.
const REST: Duration = Duration::from_millis(150);

/// The surface of the head, mm², once it has rested; it is measured in a file of its own.
fn surface(workspace: Workspace) -> RwSignal<Option<f64>> {
    let surface = RwSignal::new(None);
    let later = Later::new();
    Effect::new(move || {
        workspace.sound.track();
        surface.set(None);
        later.start(REST, move || {
            let solid = workspace.sound.get_untracked();
            spawn_local(async move {
                let measured = fetched::surface(solid.clone()).await;
                // The head may have moved on, and the results may be gone.
                let still = workspace.sound.with_untracked(|now| *now == solid);
                if let (Ok(area), true) = (measured, still) {
                    let _ = surface.try_set(Some(area));
                }
            });
        });
    });
    surface
}

/// A plain list of results.
#[component]
pub fn Results() -> impl IntoView {
    let workspace = Workspace::here();
    let properties = workspace.properties;
    let surface = surface(workspace);
    let wall = Memo::new(move |_| workspace.sound.with(|solid| solid.head().least_wall()));
    let axis = Memo::new(move |_| {
        let centroid = properties.with(|p| p.centroid);
        workspace.sound.with(|solid| TrueAxis::of(solid, centroid))
    });
    let values = Memo::new(move |_| {
        let system = workspace.system.get();
        let axis = axis.get();
        properties.with(|p| {
            let [small, middle, large] = p.principal_moments.map(|i| inertia(i, system));
            let held = |quantity: Quantity| {
                let value = workspace.design.with(|d| {
                    workspace
                        .sound
                        .with(|solid| quantity.of(solid, p, &d.handle))
                });
                quantity.amount(value, system).words(system)
            };
            [
                held(Quantity::Length),
                held(Quantity::ReachRatio),
                inertia(p.inertia_handle_axis, system),
                held(Quantity::LeastWall),
                volume(p.volume, system),
                surface
                    .get()
                    .map_or_else(|| "…".to_owned(), |mm2| area(mm2, system)),
                small,
                middle,
                large,
                words::about(p.centroid[2], system),
                show_mass(p.eye_mass, system),
                axis.map_or_else(String::new, |axis| out_of_square(&axis, system)),
                axis.map_or_else(String::new, |axis| {
                    words::length(axis.sideways.abs(), system)
                }),
            ]
        })
    });
    let name = move |index: usize| {
        let (name, quantity) = NAMES[index];
        let at = match (quantity, wall.get()) {
            (Some(Quantity::LeastWall), Some(wall)) => wall_place(&wall, workspace.system.get()),
            _ => return name.to_owned(),
        };
        format!("{name}, {at}")
    };
    let row = move |index: usize| {
        view! {
            <div>
                <dt>{move || name(index)}</dt>
                <dd>
                    {NAMES[index].1.map(|quantity| view! { <HoldHere quantity=quantity /> })}
                    {move || values.with(|values| values[index].clone())}
                </dd>
                {NAMES[index].1.map(|quantity| view! { <Under quantity=quantity /> })}
            </div>
        }
    };
    view! {
        <section class="results" aria-labelledby="results">
            <h2 id="results">"results"</h2>
            <Words
                id="results-words"
                terms=&[
                    Term::Reaches,
                    Term::Inertia,
                    Term::LeastWall,
                    Term::Principal,
                    Term::Centroid,
                    Term::EyeSteel,
                    Term::OutOfSquare,
                    Term::ForgedWithin,
                ]
            />
            <dl>
                {(0..ALWAYS).map(row).collect_view()}
                <Show when=move || axis.get().is_some()>
                    {(ALWAYS..NAMES.len()).map(row).collect_view()}
                </Show>
            </dl>
            <Steps />
            <AtOnce />
        </section>
    }
}

/// Under a result that is held: its hold, and what is in the way of it.
#[component]
fn Under(
    /// What may be held.
    quantity: Quantity,
) -> impl IntoView {
    let workspace = Workspace::here();
    let held = Memo::new(move |_| workspace.design.with(|d| d.holds.get(quantity).is_some()));
    let here = Memo::new(move |_| place(workspace) == Some(quantity));
    view! {
        {move || held.get().then(|| view! {
            <dd>
                <HoldRow quantity=quantity under=true />
            </dd>
        }.into_any())}
        {move || here.get().then(|| view! {
            <dd>
                <Problems />
            </dd>
        }.into_any())}
    }
}

/// Where a cheek wall is, in words.
fn wall_place(wall: &CheekWall<f64>, system: System) -> String {
    let z = wall.at[2];
    let height = words::about(z.abs(), system);
    match (height.starts_with("0 "), z > 0.0) {
        (true, _) => "at the eye’s middle".to_owned(),
        (_, true) => format!("{height} above the eye’s middle"),
        _ => format!("{height} below the eye’s middle"),
    }
}

/// How far the faces are out of square, and which way the handle's top leans.
fn out_of_square(axis: &TrueAxis, system: System) -> String {
    let degrees = axis.out_of_square.to_degrees();
    let angle = Measure::from(Angle::degrees(degrees.abs())).words(system);
    match degrees {
        lean if lean > 0.0 => format!("{angle}, top to the front"),
        lean if lean < 0.0 => format!("{angle}, top to the back"),
        _ => angle,
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
    Quantity::Inertia.amount(kg_mm2, system).words(system)
}
