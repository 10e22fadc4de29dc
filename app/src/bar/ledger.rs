//! The account from the finished head to the cut. It adds up to the last gram.

use leptos::prelude::*;

use super::super::state::Workspace;
use super::super::terms::{Term, Words};
use super::super::words;
use super::reckoned::Reckoned;
use headwright::bar::{Billet, LossAmount, Punch};
use headwright::units::{GRAMS_PER_KG, KG_PER_OUNCE, Length, System, show_number};

/// The ledger, line by line.
#[component]
pub fn Ledger() -> impl IntoView {
    let workspace = Workspace::here();
    let billet = Reckoned::here().billet;
    view! {
        <section class="ledger" aria-labelledby="ledger">
            <h2 id="ledger">"what is lost on the way"</h2>
            <Words id="ledger-words" terms=&[Term::Slug, Term::Scale, Term::Dressing, Term::Spread] />
            {move || {
                let system = workspace.system.get();
                let billet = billet.get().ok()?;
                let bar = workspace.bar();
                let bases: Vec<String> = bar.losses.iter().map(|loss| basis(loss.amount, system)).collect();
                let lines = lines(&billet, system);
                let spread = whole(billet.spread_kg, system);
                let losses = billet
                    .losses
                    .iter()
                    .zip(&lines.losses)
                    .zip(bases)
                    .map(|((loss, shown), basis)| {
                        view! {
                            <tr>
                                <th scope="row">
                                    {loss.name}
                                    <small>
                                        {basis} {format!(" · {:.1} % of the cut", loss.percent_of_cut)}
                                        {format!(" · {}", loss.certainty.words())}
                                    </small>
                                </th>
                                <td>{written(*shown, system)}</td>
                                <td class="spread">
                                    {format!("± {}", written(whole(loss.spread_kg, system), system))}
                                </td>
                            </tr>
                        }
                    })
                    .collect_view();
                Some(
                    view! {
                        <table>
                            <thead class="aloud-only">
                                <tr>
                                    <th scope="col">"line"</th>
                                    <th scope="col">"mass"</th>
                                    <th scope="col">"spread, one standard deviation"</th>
                                </tr>
                            </thead>
                            <tbody>
                                <tr>
                                    <th scope="row">"finished head"</th>
                                    <td>{written(lines.finished, system)}</td>
                                    <td></td>
                                </tr>
                                {losses}
                                <tr class="sum">
                                    <th scope="row">"billet, expected"</th>
                                    <td>{written(lines.expected, system)}</td>
                                    <td class="spread">{format!("± {}", written(spread, system))}</td>
                                </tr>
                                <tr>
                                    <th scope="row">
                                        {format!("for {}", words::heads(bar.confidence).to_lowercase())}
                                    </th>
                                    <td>{format!("+{}", written(lines.reserve, system))}</td>
                                    <td></td>
                                </tr>
                                <tr>
                                    <th scope="row">{format!("up to the rule, {}", words::length(bar.rule.division().in_mm(), system))}</th>
                                    <td>{format!("+{}", written(lines.rounding, system))}</td>
                                    <td></td>
                                </tr>
                                <tr class="sum">
                                    <th scope="row">
                                        {format!("cut, {}", words::length(billet.cut_length_mm, system))}
                                    </th>
                                    <td>{written(lines.cut, system)}</td>
                                    <td></td>
                                </tr>
                            </tbody>
                        </table>
                    },
                )
            }}
            <p class="soft small">
                "± is one standard deviation: two heads in three lie within it."
            </p>
        </section>
    }
}

/// What a loss is reckoned from.
fn basis(amount: LossAmount, system: System) -> String {
    let at = |length: Length| words::length(length.in_mm(), system);
    let [number, _] = amount.numbers();
    match amount {
        LossAmount::Mass { .. } => "the same for every head".to_owned(),
        LossAmount::PercentOfHead { .. } => format!("{} % of the head", show_number(number)),
        LossAmount::PercentOfEye { .. } => format!("{} % of the eye", show_number(number)),
        LossAmount::Punched {
            punch, expected, ..
        } => {
            let shape = punch.map_or("usual", Punch::shape);
            format!("{shape} punch, web of {}", at(expected))
        }
        LossAmount::PerHeat { heats, .. } => format!("{heats} heats on the whole surface"),
        LossAmount::PercentPerHeat { heats, .. } => {
            format!("{heats} heats of {} %", show_number(number))
        }
        LossAmount::OffSurface { expected, .. } => format!("{} off the surface", at(expected)),
        LossAmount::OffFaces { expected, .. } => format!("{} off both faces", at(expected)),
        LossAmount::OffEnds { expected, .. } => format!("{} off each end", at(expected)),
    }
}

/// The lines in shown units: whole grams, or tenths of an ounce.
struct Lines {
    finished: i64,
    losses: Vec<i64>,
    expected: i64,
    reserve: i64,
    rounding: i64,
    cut: i64,
}

/// Every line is the difference of two rounded running sums, so that what is read adds up; no
/// line is off by more than one from its own rounding.
fn lines(billet: &Billet, system: System) -> Lines {
    let mut sum = billet.finished_kg;
    let mut shown = whole(sum, system);
    let finished = shown;
    let mut next = |kg: f64| {
        sum += kg;
        let before = shown;
        shown = whole(sum, system);
        shown - before
    };
    let losses: Vec<i64> = billet
        .losses
        .iter()
        .map(|loss| next(loss.mass_kg))
        .collect();
    let expected = finished + losses.iter().sum::<i64>();
    let reserve = next(billet.reserve_mass_kg);
    let rounding = next(billet.rounding_mass_kg);
    Lines {
        finished,
        losses,
        expected,
        reserve,
        rounding,
        cut: expected + reserve + rounding,
    }
}

fn whole(kg: f64, system: System) -> i64 {
    (match system {
        System::Metric => kg * GRAMS_PER_KG,
        System::Imperial => kg / KG_PER_OUNCE * 10.0,
    })
    .round() as i64
}

/// A mass as the ledger writes it, so that a sentence beside it says the same.
pub fn mass(kg: f64, system: System) -> String {
    written(whole(kg, system), system)
}

/// Tenths of an ounce in a pound.
const TENTHS_PER_POUND: i64 = 160;

/// Whole grams, or tenths of an ounce, with their units; none of them is negative.
fn written(shown: i64, system: System) -> String {
    match system {
        System::Metric => format!("{shown} g"),
        System::Imperial => {
            let (pounds, tenths) = (shown / TENTHS_PER_POUND, shown % TENTHS_PER_POUND);
            let ounces = format!("{}.{} oz", tenths / 10, tenths % 10);
            if pounds == 0 {
                ounces
            } else {
                format!("{pounds} lb {ounces}")
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use headwright::bar::{Bar, Causes, billet};
    use headwright::units::Density;

    #[test]
    fn the_shown_lines_add_up_to_the_shown_cut() {
        for system in [System::Metric, System::Imperial] {
            for step in 0..400 {
                let finished = 0.5 + f64::from(step) * 0.00731;
                let causes = Causes {
                    head_kg: finished,
                    eye_kg: 0.16,
                    surface_mm2: 22_000.0,
                    face_mm2: [1400.0, 1300.0],
                    eye_height_mm: 40.0,
                    eye_mm: [28.0, 19.0],
                };
                let billet = billet(&causes, Density::STEEL, &Bar::default()).expect("a cut");
                let lines = lines(&billet, system);
                let sum = lines.finished + lines.losses.iter().sum::<i64>();
                assert_eq!(sum, whole(billet.billet_mass_kg, system));
                assert_eq!(lines.cut, whole(billet.cut_mass_kg, system));
                for (shown, loss) in lines.losses.iter().zip(&billet.losses) {
                    assert!((shown - whole(loss.mass_kg, system)).abs() <= 1);
                }
            }
        }
    }
}
