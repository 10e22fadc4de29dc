//! The margin: what the head weighs, and its heat treatment in short.

use leptos::prelude::*;

use super::super::finished::Finished;
use super::super::margin::Problems;
use super::super::state::Workspace;
use super::super::terms::{Term, Words};
use super::super::words;
use super::shown;
use super::worked::Worked;
use super::{Notes, Stale};
use headwright::design::{Design, Part};
use headwright::heat::Plan;
use headwright::units::System;

/// The margin.
#[component]
pub fn Margin() -> impl IntoView {
    let workspace = Workspace::here();
    let plan = Worked::here().plan;
    let rows = move || {
        let system = workspace.system.get();
        workspace.design.with(|design| {
            plan.with(|plan| {
                let rows = rows(design, plan.as_ref()?, system).into_iter();
                let rows = rows.map(|(name, value)| {
                    view! {
                        <div>
                            <dt>{name}</dt>
                            <dd>{value}</dd>
                        </div>
                    }
                });
                Some(rows.collect_view())
            })
        })
    };
    view! {
        <aside class="margin" aria-label="weight, steel and temper">
            <Finished />
            <Problems />
            <section class="in-short" aria-labelledby="in-short">
                <h2 id="in-short">"in short"</h2>
                <Stale />
                <dl>{rows}</dl>
                <Words id="in-short-words" terms=&[Term::Skin, Term::Hrc, Term::Thickest] />
            </section>
            <Notes />
        </aside>
    }
}

/// The plan in short.
fn rows(design: &Design, plan: &Plan, system: System) -> Vec<(String, String)> {
    let row = |name: &str, value: String| (name.to_owned(), value);
    let mut rows = vec![
        row("steel", plan.steel.grade.name().to_owned()),
        row(
            "density",
            format!("{} g/cm³", words::density(design.density)),
        ),
        row(
            "hardening heat",
            shown::heats(plan.practice.harden.value, system),
        ),
        row("quench", shown::quench(plan, system)),
        row("temper", shown::temper(&plan.tempering, system)),
    ];
    for end in &plan.ends {
        let name = words::heading_of(design, Part::Face(end.end.side));
        let hrc = match shown::skin(end) {
            Some(hrc) => format!("{} HRC", shown::hardness(hrc)),
            None => "not known".to_owned(),
        };
        rows.push((format!("{name}, skin"), hrc));
    }
    rows.push(row(
        "thickest section",
        words::about(plan.thickest_mm, system),
    ));
    rows
}

#[cfg(test)]
mod tests {
    use super::*;
    use headwright::design::starter;
    use headwright::heat::plan;

    #[test]
    fn the_plan_in_short_names_steel_quench_temper_and_both_ends() {
        let design = starter("cross").expect("a starter");
        let solid = design.build().expect("sound");
        let plan = plan(&solid, &design.heat).expect("usual");
        let rows = rows(&design, &plan, System::Metric);
        let of = |name: &str| {
            let found = rows.iter().find(|(of, _)| of == name);
            found.map_or_else(
                || panic!("no {name} in {rows:?}"),
                |(_, value)| value.as_str(),
            )
        };
        assert_eq!(of("steel"), "1045");
        assert_eq!(of("density"), "7.85 g/cm³");
        assert!(of("quench").starts_with("water at "));
        assert!(of("temper").ends_with(" h once"));
        let skins = rows.iter().filter(|(name, _)| name.ends_with(", skin"));
        assert!(skins.clone().all(|(_, hrc)| hrc.ends_with(" HRC")));
        assert_eq!(skins.count(), 2);
    }
}
