//! The lines of loss, to be edited: how much, of what, how surely, says who.

use leptos::prelude::*;

use super::super::entry::Entry;
use super::super::state::Workspace;
use super::super::words::{plain_number, small_mass};
use super::show_bar;
use crate::bar::{Loss, LossAmount, LossKind, MOST_LOSSES, SOURCE_CHARACTERS};
use crate::units::{GRAMS_PER_KG, Mass, System, show_mass, show_number};

/// All lines.
#[component]
pub fn Losses() -> impl IntoView {
    let workspace = Workspace::here();
    let count = Memo::new(move |_| workspace.design.with(|d| d.bar.losses.len()));
    let add = move |word: String| {
        if let Some(kind) = LossKind::ALL.into_iter().find(|kind| kind.words() == word) {
            show_bar(workspace, "add a loss", |bar| {
                bar.losses.push(Loss {
                    kind,
                    amount: LossAmount::PercentOfHead {
                        expected: 0.0,
                        spread: 0.0,
                    },
                    source: String::new(),
                });
            });
            workspace.keep();
        }
    };
    view! {
        <section class="losses" aria-labelledby="losses">
            <h2 id="losses">"losses"</h2>
            <div class="loss-lines">
                {move || (0..count.get()).map(|index| view! { <Line index=index /> }).collect_view()}
            </div>
            <Show when=move || count.get() < MOST_LOSSES>
                <label class="row-line add-loss">
                    <span>"add a line"</span>
                    <select
                        aria-label="add a line of loss"
                        prop:value=""
                        on:change:target=move |event| {
                            add(event.target().value());
                            event.target().set_value("");
                        }
                    >
                        <option value="">"choose"</option>
                        {LossKind::ALL
                            .into_iter()
                            .map(|kind| view! { <option value=kind.words()>{kind.words()}</option> })
                            .collect_view()}
                    </select>
                </label>
            </Show>
        </section>
    }
}

/// What an amount is reckoned from, in words.
const BASES: [&str; 3] = ["of mass", "% of the head", "% of the eye"];

fn base(amount: LossAmount) -> &'static str {
    match amount {
        LossAmount::Mass { .. } => BASES[0],
        LossAmount::PercentOfHead { .. } => BASES[1],
        LossAmount::PercentOfEye { .. } => BASES[2],
    }
}

/// `amount` reckoned from something else, for a head and an eye of these masses: the loss stays.
fn rebased(amount: LossAmount, word: &str, finished: Mass, eye: Mass) -> LossAmount {
    let (expected, spread) = amount.in_kg(finished, eye);
    let percent = |kg: f64, of: Mass| {
        let share = if of.in_kg() > 0.0 { kg / of.in_kg() } else { 0.0 };
        (share * 1e4).round() / 1e2
    };
    let mass = |kg: f64| Mass::grams((kg * GRAMS_PER_KG * 10.0).round() / 10.0);
    match BASES.iter().position(|base| *base == word) {
        Some(0) => LossAmount::Mass {
            expected: mass(expected),
            spread: mass(spread),
        },
        Some(1) => LossAmount::PercentOfHead {
            expected: percent(expected, finished),
            spread: percent(spread, finished),
        },
        Some(2) => LossAmount::PercentOfEye {
            expected: percent(expected, eye),
            spread: percent(spread, eye),
        },
        _ => amount,
    }
}

/// `amount` with its expected value or its spread read from `text`.
fn read_into(
    amount: LossAmount,
    text: &str,
    is_spread: bool,
    system: System,
) -> Result<LossAmount, String> {
    let put = |now: (f64, f64), value: f64| {
        if is_spread { (now.0, value) } else { (value, now.1) }
    };
    Ok(match amount {
        LossAmount::Mass { expected, spread } => {
            let mass = small_mass(text, system)?.unwrap_or(Mass::grams(0.0));
            let (expected, spread) = if is_spread {
                (expected, mass)
            } else {
                (mass, spread)
            };
            LossAmount::Mass { expected, spread }
        }
        LossAmount::PercentOfHead { expected, spread } => {
            let (expected, spread) = put((expected, spread), plain_number(text)?);
            LossAmount::PercentOfHead { expected, spread }
        }
        LossAmount::PercentOfEye { expected, spread } => {
            let (expected, spread) = put((expected, spread), plain_number(text)?);
            LossAmount::PercentOfEye { expected, spread }
        }
    })
}

fn shown(amount: LossAmount, is_spread: bool, system: System) -> String {
    match amount {
        LossAmount::Mass { expected, spread } => {
            show_mass(if is_spread { spread } else { expected }.in_kg(), system)
        }
        LossAmount::PercentOfHead { expected, spread }
        | LossAmount::PercentOfEye { expected, spread } => {
            show_number(if is_spread { spread } else { expected })
        }
    }
}

/// One line of loss.
#[component]
fn Line(
    /// Which one.
    index: usize,
) -> impl IntoView {
    let workspace = Workspace::here();
    let line = Memo::new(move |_| workspace.design.with(|d| d.bar.losses.get(index).cloned()));
    let name = move || line.with(|l| l.as_ref().map_or("", |l| l.kind.words()));
    let field = move |is_spread: bool| {
        let word = if is_spread { "spread" } else { "amount" };
        let value = Signal::derive(move || {
            let system = workspace.system.get();
            line.with(|l| l.as_ref().map(|l| shown(l.amount, is_spread, system)))
                .unwrap_or_default()
        });
        let read = move |text: String| {
            let Some(amount) = line.with_untracked(|l| l.as_ref().map(|l| l.amount)) else {
                return Ok(());
            };
            let amount = read_into(amount, &text, is_spread, workspace.system.get_untracked())?;
            show_bar(workspace, &format!("loss {index} {word}"), |bar| {
                if let Some(loss) = bar.losses.get_mut(index) {
                    loss.amount = amount;
                }
            });
            Ok(())
        };
        view! {
            <Entry
                label=Signal::derive(move || format!("{} {word}", name()))
                value=value
                unit=""
                read=read
                keep=move |()| workspace.keep()
                put_back=move |()| workspace.put_back()
                id=format!("loss-{index}-{word}")
            />
        }
    };
    let rebase = move |word: String| {
        let (finished, eye) = workspace
            .properties
            .with_untracked(|p| (Mass::kg(p.mass), Mass::kg(p.eye_mass)));
        show_bar(workspace, "what a loss is reckoned from", |bar| {
            if let Some(loss) = bar.losses.get_mut(index) {
                loss.amount = rebased(loss.amount, &word, finished, eye);
            }
        });
        workspace.keep();
    };
    let take_out = move |_| {
        show_bar(workspace, "take a loss out", |bar| {
            if index < bar.losses.len() {
                bar.losses.remove(index);
            }
        });
        workspace.keep();
    };
    let source = move |text: String| {
        show_bar(workspace, &format!("loss {index} source"), |bar| {
            if let Some(loss) = bar.losses.get_mut(index) {
                loss.source = text;
            }
        });
    };
    view! {
        <div class="loss" role="group" aria-label=name>
            <span class="loss-name">{name}</span>
            {field(false)}
            <select
                aria-label=move || format!("{}, reckoned from", name())
                prop:value=move || line.with(|l| l.as_ref().map_or("", |l| base(l.amount)))
                on:change:target=move |event| rebase(event.target().value())
            >
                {BASES
                    .into_iter()
                    .map(|word| {
                        view! {
                            <option
                                value=word
                                selected=move || line.with(|l| l.as_ref().is_some_and(|l| base(l.amount) == word))
                            >
                                {word}
                            </option>
                        }
                    })
                    .collect_view()}
            </select>
            <span class="plus-minus" aria-hidden="true">"±"</span>
            {field(true)}
            <button type="button" class="plain" aria-label=move || format!("take {} out", name()) on:click=take_out>
                "take out"
            </button>
            <input
                class="source"
                type="text"
                maxlength=SOURCE_CHARACTERS
                placeholder="who says so"
                aria-label=move || format!("{} source", name())
                prop:value=move || line.with(|l| l.as_ref().map(|l| l.source.clone()).unwrap_or_default())
                on:input:target=move |event| source(event.target().value())
                on:change=move |_| workspace.keep()
            />
        </div>
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_loss_stays_the_same_when_it_is_reckoned_from_something_else() {
        let (finished, eye) = (Mass::kg(1.2), Mass::kg(0.2));
        let start = LossAmount::PercentOfHead {
            expected: 5.0,
            spread: 2.0,
        };
        let mut amount = start;
        for word in [BASES[0], BASES[2], BASES[1]] {
            amount = rebased(amount, word, finished, eye);
            let (expected, spread) = amount.in_kg(finished, eye);
            assert!((expected - 0.06).abs() < 1e-9 && (spread - 0.024).abs() < 1e-9);
        }
        assert_eq!(amount, start);
    }

    #[test]
    fn a_spread_is_read_without_touching_the_amount() {
        let start = LossAmount::PercentOfEye {
            expected: 25.0,
            spread: 10.0,
        };
        let read = read_into(start, "12,5 %", true, System::Metric);
        assert_eq!(
            read,
            Ok(LossAmount::PercentOfEye {
                expected: 25.0,
                spread: 12.5
            })
        );
        assert!(read_into(start, "much", false, System::Metric).is_err());
    }
}
