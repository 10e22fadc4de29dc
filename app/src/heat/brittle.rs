//! A temper that makes the steel brittle, and the ways round it.

use leptos::prelude::*;

use super::super::mark::{Mark, State};
use super::super::settle::holds_something;
use super::super::state::Workspace;
use super::steel::forged_from;
use super::worked::Worked;
use super::{apply, temper};
use headwright::heat::{Aim, Heat, Note, Plan, Way, WayKind};
use headwright::units::{System, show_mass, show_number, show_temperature};

/// What is said of a brittle temper; nothing of another.
fn sentence(plan: &Plan, system: System) -> Option<String> {
    let brittle = |note: &&Note| matches!(note, Note::Brittle { .. });
    let note = plan.notes.iter().find(brittle)?;
    Some(note.sentence(system))
}

/// What a way does, and what comes of it: "225 °C once · about 55 HRC".
fn words(way: &Way, kg: Option<f64>, system: System) -> [String; 2] {
    let Aim::Celsius(celsius) = way.temper.aim else {
        return [String::new(), String::new()];
    };
    let heat = show_temperature(celsius, system);
    let done = match way.temper.times {
        1 => format!("{heat}, one soak"),
        more => format!("{heat} {}", temper::times(more)),
    };
    let done = match way.kind {
        WayKind::Tougher => format!("{}, {done}", way.grade.name()),
        WayKind::Lower | WayKind::Double | WayKind::Higher => done,
    };
    let mut comes = format!("about {} HRC", show_number(way.hrc.round()));
    if let Some(kg) = kg {
        comes.push_str(&format!(", weight {}", show_mass(kg, system)));
    }
    [done, comes]
}

/// The heat treatment that goes a way.
fn taken(heat: &Heat, way: &Way) -> Heat {
    let begin = if way.grade == heat.steel.grade {
        *heat
    } else {
        forged_from(way.grade)
    };
    Heat {
        temper: Some(way.temper),
        ..begin
    }
}

/// The sentence and the ways, while the temper is brittle.
#[component]
pub fn Brittle() -> impl IntoView {
    let workspace = Workspace::here();
    let plan = Worked::here().plan;
    let said = Memo::new(move |_| {
        let system = workspace.system.get();
        plan.with(|plan| plan.as_ref().and_then(|plan| sentence(plan, system)))
    });
    let ways = move || {
        let system = workspace.system.get();
        let (held, density) = workspace
            .design
            .with(|d| (holds_something(d), d.density.in_kg_per_m3()));
        let (ways, mass_kg) = plan.with(|plan| {
            let of = plan
                .as_ref()
                .map(|plan| (plan.tempering.ways.clone(), plan.mass_kg));
            of.unwrap_or_default()
        });
        ways.into_iter()
            .map(|way| {
                // What is held is fitted again, so that another density changes the sizes.
                let another = way.kind == WayKind::Tougher && !held;
                let kg = another.then(|| mass_kg * way.grade.density().in_kg_per_m3() / density);
                let [done, comes] = words(&way, kg, system);
                view! {
                    <button
                        type="button"
                        class="way"
                        on:click=move |_| apply(workspace, |heat| *heat = taken(heat, &way))
                    >
                        <span>{done}" · "<small>{comes}</small></span>
                    </button>
                }
            })
            .collect_view()
    };
    view! {
        <div role="status">
            <Show when=move || said.with(Option::is_some)>
                <div class="problems brittle-temper">
                    <h2>
                        <Mark state=State::Problem />
                        "brittle temper"
                    </h2>
                    <p class="strong">{move || said.get()}</p>
                    <div class="ways" role="group" aria-label="ways round the brittle range">
                        {ways}
                    </div>
                </div>
            </Show>
        </div>
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use headwright::design::starter;
    use headwright::heat::{Grade, Temper, plan};

    fn brittle() -> (Heat, Plan) {
        let solid = starter("rounding")
            .expect("a starter")
            .build()
            .expect("sound");
        let heat = Heat {
            temper: Some(Temper {
                aim: Aim::Celsius(300.0),
                ..Temper::usual(Grade::C1045)
            }),
            ..Heat::default()
        };
        (heat, plan(&solid, &heat).expect("a plan"))
    }

    #[test]
    fn every_way_round_says_what_comes_of_it_and_leads_out_of_the_range() {
        let (heat, plan) = brittle();
        assert!(sentence(&plan, System::Metric).is_some());
        let solid = starter("rounding")
            .expect("a starter")
            .build()
            .expect("sound");
        assert!(plan.tempering.ways.len() >= 3);
        for way in &plan.tempering.ways {
            let [done, comes] = words(way, None, System::Metric);
            assert!(done.contains(" °C"), "{done}");
            assert!(
                comes.starts_with("about ") && comes.ends_with(" HRC"),
                "{comes}"
            );
            let after = headwright::heat::plan(&solid, &taken(&heat, way)).expect("a plan");
            assert!(!after.tempering.embrittles, "{done}");
        }
    }

    #[test]
    fn a_tougher_grade_says_what_the_head_will_weigh() {
        let (heat, plan) = brittle();
        let tougher = |way: &&Way| way.kind == WayKind::Tougher;
        let way = plan.tempering.ways.iter().find(tougher).expect("a way");
        let [done, comes] = words(way, Some(1.187), System::Metric);
        assert!(done.starts_with(way.grade.name()), "{done}");
        assert!(comes.ends_with("weight 1.187 kg"), "{comes}");
        assert_eq!(taken(&heat, way).steel.grade, way.grade);
        assert_eq!(taken(&heat, way).quench, None);
    }
}
