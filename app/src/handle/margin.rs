//! The margin: what tool and parts weigh, where the tool balances, and what of it is held.

use leptos::prelude::*;

use super::super::margin::{HoldRow, HoldState, Problems};
use super::super::quantity::MassNumber;
use super::super::state::Workspace;
use super::super::terms::{Term, Words};
use super::super::words;
use super::worked::{Tool, Worked};
use headwright::design::Quantity;
use headwright::mass::{MassProperties, mass_properties};
use headwright::units::{MM_PER_INCH, System, show_mass};

/// Of the finished tool, what can be held.
const HELD: [Quantity; 3] = [
    Quantity::ToolMass,
    Quantity::ToolBalance,
    Quantity::GripInertia,
];

/// The margin.
#[component]
pub fn Margin() -> impl IntoView {
    view! {
        <aside class="margin" aria-label="the finished tool, its parts and holds">
            <Finished />
            <Problems />
            <Parts />
            <section class="holds" aria-labelledby="tool-holds">
                <h2 id="tool-holds">"holds on the tool"</h2>
                {HELD
                    .map(|quantity| view! { <HoldRow quantity=quantity /> })
                    .into_iter()
                    .collect_view()}
                <p class="hint">
                    "The handle stays as it is: the head’s free sizes move until the tool keeps what is held."
                </p>
            </section>
        </aside>
    }
}

/// Weight and balance of the whole tool.
#[component]
fn Finished() -> impl IntoView {
    let workspace = Workspace::here();
    let tool = Worked::here().tool;
    let mass = Memo::new(move |_| tool.with(|tool| tool.as_ref().map_or(0.0, mass_kg)));
    let rows = move || {
        let system = workspace.system.get();
        tool.with(|tool| {
            tool.as_ref().map(|tool| {
                let rows = rows(tool, system).into_iter();
                rows.map(|(name, value)| {
                    view! {
                        <div>
                            <dt>{name}</dt>
                            <dd>{value}</dd>
                        </div>
                    }
                })
                .collect_view()
            })
        })
    };
    view! {
        <section class="tool-weight" aria-labelledby="tool-weight">
            <h2 id="tool-weight">"finished tool"</h2>
            <p class="big">
                <MassNumber kg=mass system=workspace.system />
            </p>
            <HoldState quantity=Quantity::ToolMass />
            <dl>{rows}</dl>
            <Words id="tool-words" terms=&[Term::BalancePoint, Term::GripInertia] />
            {[Quantity::ToolBalance, Quantity::GripInertia]
                .map(|quantity| {
                    view! {
                        <div class="tool-held">
                            <HoldState quantity=quantity />
                        </div>
                    }
                })
                .into_iter()
                .collect_view()}
        </section>
    }
}

/// Mass of head and handle, kg.
fn mass_kg(tool: &Tool) -> f64 {
    Quantity::ToolMass.of(&tool.solid, &weighed(tool), &tool.handle)
}

/// The head of `tool`, weighed.
fn weighed(tool: &Tool) -> MassProperties {
    mass_properties(&tool.solid)
}

/// What is listed of the tool.
fn rows(tool: &Tool, system: System) -> Vec<(&'static str, String)> {
    let weighed = weighed(tool);
    let of = |quantity: Quantity| {
        let value = quantity.of(&tool.solid, &weighed, &tool.handle);
        quantity.amount(value, system).words(system)
    };
    let eye = Quantity::ToolBalance.of(&tool.solid, &weighed, &tool.handle);
    let below = match words::about(eye.abs(), system) {
        at if eye >= 0.0 => format!("{at} below"),
        at => format!("{at} above"),
    };
    let mut rows = vec![
        ("head", show_mass(weighed.mass, system)),
        ("handle", show_mass(tool.made.mass_kg, system)),
    ];
    if let Some(swung) = &tool.swung {
        let from_butt = words::about(swung.balance_from_butt_mm, system);
        rows.push(("balance point, from the butt", from_butt));
    }
    rows.push(("balance point, from the head’s middle", below));
    rows.push(("inertia about the grip", of(Quantity::GripInertia)));
    rows
}

/// The parts of the handle.
#[component]
fn Parts() -> impl IntoView {
    let workspace = Workspace::here();
    let tool = Worked::here().tool;
    let body = move || {
        let system = workspace.system.get();
        tool.with(|tool| {
            let made = &tool.as_ref()?.made;
            let parts = made.parts.iter().map(|part| {
                view! {
                    <tr>
                        <th scope="row">{part.words}</th>
                        <td>{volume(part.volume_mm3, system)}</td>
                        <td>{small_mass(part.mass_kg, system)}</td>
                    </tr>
                }
            });
            let mm3 = made.parts.iter().map(|part| part.volume_mm3).sum();
            Some(view! {
                {parts.collect_view()}
                <tr class="sum">
                    <th scope="row">"handle"</th>
                    <td>{volume(mm3, system)}</td>
                    <td>{small_mass(made.mass_kg, system)}</td>
                </tr>
            })
        })
    };
    view! {
        <section class="ledger" aria-labelledby="handle-parts">
            <h2 id="handle-parts">"parts of the handle"</h2>
            <table>
                <thead>
                    <tr>
                        <th scope="col">"part"</th>
                        <td>"volume"</td>
                        <td>"weight"</td>
                    </tr>
                </thead>
                <tbody>{body}</tbody>
            </table>
        </section>
    }
}

/// A small mass, to tenths of a gram or hundredths of an ounce.
fn small_mass(kg: f64, system: System) -> String {
    match system {
        System::Metric => format!("{:.1} g", kg * 1e3),
        System::Imperial => format!("{:.2} oz", kg / KG_PER_OUNCE),
    }
}

/// Kilograms in an ounce: a sixteenth of 0.45359237.
const KG_PER_OUNCE: f64 = 0.453_592_37 / 16.0;

fn volume(mm3: f64, system: System) -> String {
    match system {
        System::Metric => format!("{:.1} cm³", mm3 / 1e3),
        System::Imperial => format!("{:.2} in³", mm3 / MM_PER_INCH.powi(3)),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use headwright::design::starter;

    #[test]
    fn a_small_part_is_weighed_in_the_units_that_are_shown() {
        assert_eq!(small_mass(0.0071, System::Metric), "7.1 g");
        assert_eq!(small_mass(0.028_349_523_125, System::Imperial), "1.00 oz");
        assert_eq!(volume(16_387.064, System::Imperial), "1.00 in³");
    }

    #[test]
    fn head_and_handle_together_are_the_tool() {
        let design = starter("rounding").expect("a starter");
        let solid = design.build().expect("sound");
        let tool = Tool::new(&solid, &design.handle).expect("usual");
        let sum = weighed(&tool).mass + tool.made.mass_kg;
        assert!((mass_kg(&tool) - sum).abs() < 1e-9, "{}", mass_kg(&tool));
        let said = rows(&tool, System::Metric);
        let below = said
            .iter()
            .find(|(name, _)| name.ends_with("head’s middle"));
        assert!(below.expect("said").1.ends_with(" mm below"), "{said:?}");
    }
}
