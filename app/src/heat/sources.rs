//! Where the numbers come from.

use leptos::prelude::*;

use super::super::state::Workspace;
use super::shown;
use super::worked::Worked;
use headwright::bar::Certainty;
use headwright::heat::{Band, Element, Plan, Span, Stated};
use headwright::units::{System, show_about_temperature, show_number};

/// A source with how surely it is known, said once.
pub fn named(source: &str, certainty: Certainty) -> String {
    match certainty {
        Certainty::Memory => format!("from memory: {source}"),
        Certainty::Read | Certainty::CommonPractice | Certainty::Own => source.to_owned(),
    }
}

/// The list, folded until it is asked for.
#[component]
pub fn Sources() -> impl IntoView {
    let workspace = Workspace::here();
    let plan = Worked::here().plan;
    let rows = move || {
        let system = workspace.system.get();
        plan.with(|plan| {
            let rows = plan.iter().flat_map(|plan| rows(plan, system));
            rows.map(|(name, value, source)| {
                view! {
                    <tr>
                        <th scope="row">{name}</th>
                        <td class="value">{value}</td>
                        <td>{source}</td>
                    </tr>
                }
            })
            .collect_view()
        })
    };
    view! {
        <section class="workshop sources" aria-labelledby="sources">
            <h2 id="sources">"where the numbers come from"</h2>
            <details>
                <summary>"every number with its source"</summary>
                <table class="lines stacked" aria-label="sources of the numbers">
                    <thead>
                        <tr>
                            <th scope="col">"number"</th>
                            <th scope="col" class="value">"value"</th>
                            <th scope="col">"source"</th>
                        </tr>
                    </thead>
                    <tbody>{rows}</tbody>
                </table>
            </details>
        </section>
    }
}

/// A composition, "C 0.43–0.5, Mn 0.6–0.9".
fn composition(span: &Span) -> String {
    let elements = Element::ALL.into_iter().filter_map(|element| {
        let (least, most) = span.of(element);
        let symbol = element.symbol();
        if most == 0.0 {
            None
        } else if least == most {
            Some(format!("{symbol} {}", show_number(most)))
        } else {
            Some(format!(
                "{symbol} {}–{}",
                show_number(least),
                show_number(most)
            ))
        }
    });
    format!("{} %", elements.collect::<Vec<_>>().join(", "))
}

/// Name, value and source of every number.
fn rows(plan: &Plan, system: System) -> Vec<(&'static str, String, String)> {
    let practice = &plan.practice;
    let mut rows = Vec::new();
    let mut row = |name: &'static str, value: String, source: &str, certainty: Certainty| {
        rows.push((name, value, named(source, certainty)));
    };
    let of = &plan.composition;
    row(
        "composition",
        composition(&of.value),
        of.source,
        of.certainty,
    );
    let density = plan.density_kg_per_m3;
    row(
        "density",
        format!("{} g/cm³", show_number(density.value / 1e3)),
        density.source,
        density.certainty,
    );
    let mut heats = |name: &'static str, stated: Option<Stated<Band>>| {
        if let Some(of) = stated {
            row(
                name,
                shown::heats(of.value, system),
                of.source,
                of.certainty,
            );
        }
    };
    heats("forging range", Some(practice.forge));
    heats("normalizing heat", practice.normalize);
    heats("warming through", practice.preheat);
    heats("hardening heat", Some(practice.harden));
    heats("martensite begins, Ms", plan.critical.ms);
    for (name, at) in [
        ("austenite begins, Ac1", plan.critical.ac1),
        ("last ferrite gone, Ac3", plan.critical.ac3),
    ] {
        if let Some(of) = at {
            let value = show_about_temperature(of.value, system);
            row(name, value, of.source, of.certainty);
        }
    }
    let ideal = plan.hardenability.ideal_mm;
    if let Some(of) = ideal {
        let value = super::super::words::about(of.value.low, system);
        let to = super::super::words::about(of.value.high, system);
        row(
            "ideal diameter",
            format!("{value} to {to}"),
            of.source,
            of.certainty,
        );
    }
    let martensite = plan.hardenability.martensite_hrc;
    row(
        "hardness of its martensite",
        format!("{} HRC", shown::hardness(martensite.value)),
        martensite.source,
        martensite.certainty,
    );
    let severity = plan.severity;
    let band = severity.value;
    row(
        "severity of the quench",
        format!(
            "{} to {} per inch",
            show_number(band.low),
            show_number(band.high)
        ),
        severity.source,
        severity.certainty,
    );
    let left = plan.tempering.martensite_hrc;
    row(
        "hardness that the temper leaves",
        format!("{} HRC", show_number(left.value.round())),
        left.source,
        left.certainty,
    );
    rows
}

#[cfg(test)]
mod tests {
    use super::*;
    use headwright::design::starter;
    use headwright::heat::plan;

    #[test]
    fn what_is_from_memory_says_so_beside_its_source() {
        let design = starter("rounding").expect("a starter");
        let solid = design.build().expect("sound");
        let plan = plan(&solid, &design.heat).expect("usual");
        let rows = rows(&plan, System::Metric);
        let of = |name: &str| {
            let found = rows.iter().find(|(of, ..)| *of == name);
            found.unwrap_or_else(|| panic!("no {name}"))
        };
        let severity = of("severity of the quench");
        assert!(severity.2.starts_with("from memory: "), "{severity:?}");
        let forge = of("forging range");
        assert_eq!(forge.2, plan.practice.forge.source);
        assert!(
            of("composition").1.starts_with("C 0.43–0.5, Mn 0.6–0.9"),
            "{rows:?}"
        );
    }
}
