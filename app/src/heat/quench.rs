//! How it is quenched.

use leptos::prelude::*;

use super::super::pick::Pick;
use super::super::state::Workspace;
use super::super::words;
use super::apply;
use super::row::{About, HeatRow};
use headwright::heat::{Agitation, Heat, HeatError, Medium, Quench};
use headwright::units::{parse_temperature, temperature_unit_word};

/// The fields of the quench.
#[component]
pub fn Fields() -> impl IntoView {
    let workspace = Workspace::here();
    let quench = Memo::new(move |_| workspace.design.with(|d| d.heat.quench()));
    let own = Memo::new(move |_| workspace.design.with(|d| d.heat.quench.is_some()));
    let choose = move |name: String| {
        let medium = Medium::ALL.into_iter().find(|m| m.name() == name);
        if let Some(medium) = medium {
            apply(workspace, |heat| {
                heat.quench = Some(Quench::in_medium(medium))
            });
        }
    };
    let move_it = move |words: String| {
        let agitation = Agitation::ALL.into_iter().find(|a| a.words() == words);
        if let Some(agitation) = agitation {
            apply(workspace, |heat| {
                heat.quench = Some(Quench {
                    agitation,
                    ..heat.quench()
                });
            });
        }
    };
    let usual = move |_| apply(workspace, |heat| heat.quench = None);
    view! {
        <div class="rows" role="group" aria-label="quench">
            <h3>"quench"</h3>
            <Pick
                label="in"
                of="quench"
                options=Medium::ALL.map(Medium::name).to_vec()
                chosen=Signal::derive(move || quench.get().medium.name())
                choose=choose
            />
            <About
                id="quench-about"
                concerns=|error: HeatError| {
                    matches!(
                        error,
                        HeatError::Cracks { .. }
                            | HeatError::AnalysisCracks { .. }
                            | HeatError::StaysSoft { .. }
                    )
                }
            />
            <Pick
                label="how it is moved"
                of="quench"
                options=Agitation::ALL.map(Agitation::words).to_vec()
                chosen=Signal::derive(move || quench.get().agitation.words())
                choose=move_it
            />
            <About
                id="quench-moved-about"
                concerns=|error: HeatError| matches!(error, HeatError::OilJet)
            />
            <HeatRow
                id="quench-bath"
                label="heat of the bath before"
                of="quench"
                unit=Signal::derive(move || temperature_unit_word(workspace.system.get()).to_owned())
                get=move |heat: Heat| {
                    words::temperature(heat.quench().bath_celsius, workspace.system.get())
                }
                read=move |(mut heat, text): (Heat, String)| {
                    let system = workspace.system.get_untracked();
                    let bath_celsius = parse_temperature(&text, system).map_err(|e| e.to_string())?;
                    heat.quench = Some(Quench { bath_celsius, ..heat.quench() });
                    Ok(heat)
                }
                concerns=|error: HeatError| matches!(error, HeatError::Bath { .. })
            />
            <Show when=move || own.get()>
                <button type="button" class="plain" on:click=usual>
                    "usual quench for this steel"
                </button>
            </Show>
        </div>
    }
}
