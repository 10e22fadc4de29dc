//! A piece that is already cut and weighed: what head it gives, and the fit to it.

use leptos::prelude::*;

use super::super::entry::Entry;
use super::super::state::Workspace;
use super::super::words;
use super::super::workshop::Workshop;
use super::reckoned::Reckoned;
use headwright::bar::{BarError, Piece, from_piece};
use headwright::design::{Design, starter, starter_names};
use headwright::fit::{PieceFit, to_piece};
use headwright::mass::mass_properties;
use headwright::units::{Mass, System, parse_mass, show_mass};

/// What is known of a piece.
#[derive(Clone, PartialEq)]
struct Known {
    given: Result<Piece, Vec<BarError>>,
}

/// The piece and what it gives.
#[component]
pub fn WeighedPiece() -> impl IntoView {
    let workspace = Workspace::here();
    let piece = Workshop::here().piece;
    let causes = Reckoned::here().causes;
    // What the field held before it was written in.
    let before = StoredValue::new(None::<Option<Mass>>);
    // Each with the piece that it is about.
    let refused = RwSignal::new(None::<(Mass, String)>);
    let heads = RwSignal::new(None::<(Mass, Vec<Design>)>);
    let read = move |text: String| {
        let mass = if text.trim().is_empty() {
            None
        } else {
            let mass = parse_mass(&text, workspace.system.get_untracked());
            Some(mass.map_err(|error| error.to_string())?)
        };
        before.update_value(|before| {
            before.get_or_insert_with(|| piece.get_untracked());
        });
        piece.set(mass);
        Ok(())
    };
    let known = Memo::new(move |_| {
        let piece = piece.get()?;
        let given = causes.with(|causes| {
            workspace
                .design
                .with(|d| from_piece(piece.in_kg(), causes, d.density, &d.bar))
        });
        Some(Known { given })
    });
    let fit = move |_| {
        let Some(piece) = piece.get_untracked() else {
            return;
        };
        let design = workspace.design.get_untracked();
        match to_piece(&design, piece) {
            Ok(fitted) => {
                refused.set(missed(&fitted).map(|said| (piece, said)));
                workspace.replace("the fit to the piece".to_owned(), fitted.design);
            }
            Err(error) => {
                let said = error.sentence(workspace.system.get_untracked());
                refused.set(Some((piece, said)));
            }
        }
    };
    // They are of this bar and this steel.
    Effect::new(move |_| {
        workspace.design.track();
        heads.set(None);
    });
    let ask = move |_| {
        if let Some(piece) = piece.get_untracked() {
            let now = workspace.design.get_untracked();
            heads.set(Some((piece, can_be(piece, &now))));
        }
    };
    view! {
        <section class="bar-fields piece" aria-labelledby="piece">
            <h2 id="piece">"a piece already cut"</h2>
            <div class="rows">
                <div class="row">
                    <div class="row-line">
                        <label for="piece-mass">"the piece weighs"</label>
                        <Entry
                            label="the piece weighs".to_owned()
                            value=Signal::derive(move || {
                                let system = workspace.system.get();
                                piece.get().map(|mass| bare(mass, system)).unwrap_or_default()
                            })
                            unit=Signal::derive(move || unit(workspace.system.get()).to_owned())
                            read=read
                            keep=move |()| before.set_value(None)
                            put_back=move |()| {
                                if let Some(before) = before.try_update_value(Option::take).flatten() {
                                    piece.set(before);
                                }
                            }
                            id="piece-mass".to_owned()
                        />
                    </div>
                </div>
            </div>
            {move || {
                let system = workspace.system.get();
                known
                    .get()
                    .map(|known| match known.given {
                        Ok(given) => {
                            let sure = workspace.design.with(|design| design.bar.confidence);
                            view! {
                                <p class="sentence-of-piece">{said(&given, sure, system)}</p>
                                <div class="actions">
                                    <button class="plain" on:click=fit>
                                        "fit the head to this piece"
                                    </button>
                                    <button class="plain" on:click=ask>
                                        "which heads can it give?"
                                    </button>
                                </div>
                            }
                                .into_any()
                        }
                        Err(errors) => {
                            let sentences = errors.iter().map(|error| error.sentence(system));
                            let sentences = sentences.map(|text| view! { <p>{text}</p> }).collect_view();
                            view! { <div class="problems" role="status">{sentences}</div> }
                                .into_any()
                        }
                    })
            }}
            {move || {
                let heads = heads.get().filter(|(of, _)| piece.get() == Some(*of));
                heads.map(|(_, heads)| view! { <Heads heads=heads /> })
            }}
            <div role="status">
                {move || {
                    let refused = refused.get().filter(|(of, _)| piece.get() == Some(*of));
                    refused.map(|(_, text)| view! { <p class="problem">{text}</p> })
                }}
            </div>
        </section>
    }
}

/// The starters that the piece can become, each fitted to it, of the bar and steel of the present head.
fn can_be(piece: Mass, now: &Design) -> Vec<Design> {
    let starters = starter_names().filter_map(starter).map(|design| Design {
        bar: now.bar.clone(),
        density: now.density,
        ..design
    });
    let fitted = starters.filter_map(|design| to_piece(&design, piece).ok());
    fitted.map(|fitted| fitted.design).collect()
}

/// Heads to begin with, as they come of the piece.
#[component]
fn Heads(
    /// The heads, fitted.
    heads: Vec<Design>,
) -> impl IntoView {
    let workspace = Workspace::here();
    if heads.is_empty() {
        return view! {
            <p class="problem">
                "None of the starters comes of this piece within its limits. Free more sizes of the head on the sheet, and fit that."
            </p>
        }
            .into_any();
    }
    let row = |design: Design| {
        let name = design.name.clone();
        let weight = design.build().map(|solid| mass_properties(&solid).mass);
        let weight = move || {
            let system = workspace.system.get();
            weight
                .clone()
                .map(|kg| show_mass(kg, system))
                .unwrap_or_default()
        };
        view! {
            <li>
                <button
                    class="bar-choice"
                    on:click=move |_| workspace.replace(design.name.clone(), design.clone())
                >
                    <span class="name">{name}</span>
                    <span class="asks">{weight}</span>
                </button>
            </li>
        }
    };
    view! {
        <ul class="heads-of-piece" aria-label="heads that the piece can give">
            {heads.into_iter().map(row).collect_view()}
        </ul>
    }
    .into_any()
}

/// The unit that a bare number takes.
fn unit(system: System) -> &'static str {
    match system {
        System::Metric => "kg",
        System::Imperial => "lb",
    }
}

/// A mass without its unit where the field shows the unit.
fn bare(mass: Mass, system: System) -> String {
    let shown = mass.to_string();
    let unit = format!(" {}", unit(system));
    shown
        .strip_suffix(&unit)
        .map_or(shown.clone(), str::to_owned)
}

/// What the piece gives, in a sentence.
fn said(given: &Piece, confidence: f64, system: System) -> String {
    let [least, most] = given.finished_range_kg.map(|kg| show_mass(kg, system));
    format!(
        "An estimate, for a head of this shape: it finishes at {}, {} between {least} and {most}. Before grinding expect {}.",
        show_mass(given.finished_kg, system),
        words::both_sides(confidence),
        show_mass(given.before_grinding_kg, system)
    )
}

/// What could not be kept, in a sentence; nothing when all was.
fn missed(fitted: &PieceFit) -> Option<String> {
    let names: Vec<&str> = fitted
        .missed
        .iter()
        .map(|quantity| quantity.name())
        .collect();
    (!names.is_empty()).then(|| {
        format!(
            "With the weight that the piece leaves, these holds can’t be kept: {}.",
            names.join(", ")
        )
    })
}
