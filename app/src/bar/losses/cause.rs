//! What a loss comes from: the punch, the heats and the fire.

use leptos::prelude::*;

use super::super::super::entry::Entry;
use super::super::super::pick::Pick;
use super::super::super::state::Workspace;
use super::super::super::words::plain_number;
use super::super::drifts::down;
use super::super::reckoned::Reckoned;
use super::super::show_bar;
use headwright::bar::{Atmosphere, LossAmount, Punch};
use headwright::units::{Length, System, parse_length, show_length, show_number, unit_word};

/// A number that an amount is reckoned from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Cause {
    /// How many heats.
    Heats,
    /// How long each is.
    Minutes,
    /// A size of the punch.
    Punch(usize),
}

/// The numbers that `amount` is reckoned from.
fn causes(amount: LossAmount) -> Vec<Cause> {
    match amount {
        LossAmount::Punched {
            punch: Some(punch), ..
        } => (0..punch.sizes().len()).map(Cause::Punch).collect(),
        LossAmount::PerHeat { .. } => vec![Cause::Heats, Cause::Minutes],
        LossAmount::PercentPerHeat { .. } => vec![Cause::Heats],
        _ => Vec::new(),
    }
}

/// What a number is called, and its unit.
fn name(amount: LossAmount, cause: Cause, system: System) -> (String, &'static str) {
    match (cause, amount) {
        (Cause::Heats, _) => ("heats".to_owned(), ""),
        (Cause::Minutes, _) => ("each".to_owned(), "min"),
        (
            Cause::Punch(index),
            LossAmount::Punched {
                punch: Some(punch), ..
            },
        ) => {
            let size = punch.sizes().get(index).map_or("size", |(name, _)| name);
            (format!("punch {size}"), unit_word(system))
        }
        (Cause::Punch(_), _) => (String::new(), ""),
    }
}

/// A number as its field shows it.
fn shown(amount: LossAmount, cause: Cause, system: System) -> String {
    match (cause, amount) {
        (
            Cause::Heats,
            LossAmount::PerHeat { heats, .. } | LossAmount::PercentPerHeat { heats, .. },
        ) => heats.to_string(),
        (Cause::Minutes, LossAmount::PerHeat { minutes, .. }) => show_number(minutes),
        (
            Cause::Punch(index),
            LossAmount::Punched {
                punch: Some(punch), ..
            },
        ) => {
            let sizes = punch.sizes();
            let size = sizes.get(index).map(|(_, size)| *size);
            size.map_or_else(String::new, |size| show_length(size, system))
        }
        _ => String::new(),
    }
}

/// `amount` with a number that it is reckoned from read from `text`.
fn read_into(
    mut amount: LossAmount,
    cause: Cause,
    text: &str,
    system: System,
) -> Result<LossAmount, String> {
    match (cause, &mut amount) {
        (
            Cause::Heats,
            LossAmount::PerHeat { heats, .. } | LossAmount::PercentPerHeat { heats, .. },
        ) => {
            *heats = text
                .trim()
                .parse()
                .map_err(|_| "Heats are counted: write a whole number, such as 8.".to_owned())?;
        }
        (Cause::Minutes, LossAmount::PerHeat { minutes, .. }) => *minutes = plain_number(text)?,
        (
            Cause::Punch(index),
            LossAmount::Punched {
                punch: Some(punch), ..
            },
        ) => {
            let length = parse_length(text, system).map_err(|error| error.to_string())?;
            *punch = sized(*punch, index, length);
        }
        _ => {}
    }
    Ok(amount)
}

/// `punch` with its size number `index` changed.
fn sized(punch: Punch, index: usize, size: Length) -> Punch {
    match punch {
        Punch::Round { .. } => Punch::Round { diameter: size },
        Punch::Obround { length, width } => {
            let (length, width) = if index == 0 {
                (size, width)
            } else {
                (length, size)
            };
            Punch::Obround { length, width }
        }
        Punch::Rectangle { length, width } => {
            let (length, width) = if index == 0 {
                (size, width)
            } else {
                (length, size)
            };
            Punch::Rectangle { length, width }
        }
    }
}

/// The usual slot, then every shape.
const SHAPES: [&str; 4] = ["usual for the eye", "round", "obround", "rectangular"];

/// `punch` in another shape, with its sizes as far as they go, else with those usual for an eye of this least length
/// and width, mm.
fn shaped(punch: Option<Punch>, shape: &str, eye_mm: [f64; 2], system: System) -> Option<Punch> {
    let [length, width] = match punch {
        Some(punch) => punch.across(),
        None => Punch::usual(eye_mm)
            .across()
            .map(|size| down(size.in_mm(), system)),
    };
    match shape {
        "round" => Some(Punch::Round { diameter: width }),
        "rectangular" => Some(Punch::Rectangle { length, width }),
        "obround" => Some(Punch::Obround { length, width }),
        _ => None,
    }
}

/// `amount` in another fire: with the thickness that is usual in it where that of the first fire was usual, else with
/// the smith's own.
fn in_fire(mut amount: LossAmount, word: &str) -> LossAmount {
    let numbers = amount.numbers();
    let chosen = Atmosphere::ALL.into_iter().find(|one| one.word() == word);
    if let (Some(chosen), LossAmount::PerHeat { atmosphere, .. }) = (chosen, &mut amount) {
        let was_usual = <[f64; 2]>::from(atmosphere.usual_mm()) == numbers;
        *atmosphere = chosen;
        if was_usual {
            return amount.with_numbers(chosen.usual_mm().into());
        }
    }
    amount
}

/// Fields of what the loss number `index` comes from.
#[component]
pub fn CauseFields(
    /// Which loss.
    index: usize,
    /// Its amount.
    amount: Memo<Option<LossAmount>>,
) -> impl IntoView {
    let workspace = Workspace::here();
    let known = Reckoned::here().causes;
    let fields = Memo::new(move |_| amount.get().map_or_else(Vec::new, causes));
    let shape = Memo::new(move |_| match amount.get() {
        Some(LossAmount::Punched { punch, .. }) => Some(punch.map_or(SHAPES[0], Punch::shape)),
        _ => None,
    });
    let fire = Memo::new(move |_| match amount.get() {
        Some(LossAmount::PerHeat { atmosphere, .. }) => Some(atmosphere.word()),
        _ => None,
    });
    let put = move |subject: &str, change: &dyn Fn(LossAmount) -> LossAmount| {
        show_bar(workspace, subject, |bar| {
            if let Some(loss) = bar.losses.get_mut(index) {
                loss.amount = change(loss.amount);
            }
        });
    };
    let field = move |cause: Cause| {
        let named = move || {
            let system = workspace.system.get();
            amount
                .get()
                .map(|amount| name(amount, cause, system))
                .unwrap_or_default()
        };
        let read = move |text: String| {
            let Some(now) = amount.get_untracked() else {
                return Ok(());
            };
            let read = read_into(now, cause, &text, workspace.system.get_untracked())?;
            put(&format!("loss {index} {cause:?}"), &|_| read);
            Ok(())
        };
        view! {
            <span class="loss-cause">
                <span aria-hidden="true">{move || named().0}</span>
                <Entry
                    label=Signal::derive(move || format!("loss {}, {}", index + 1, named().0))
                    value=Signal::derive(move || {
                        let system = workspace.system.get();
                        amount.get().map(|amount| shown(amount, cause, system)).unwrap_or_default()
                    })
                    unit=Signal::derive(move || named().1.to_owned())
                    read=read
                    keep=move |()| workspace.keep()
                    put_back=move |()| workspace.put_back()
                    id=format!("loss-{index}-{cause:?}")
                />
            </span>
        }
    };
    view! {
        <Show when=move || shape.get().is_some()>
            <Pick
                label="punch"
                of=format!("loss {}", index + 1)
                options=SHAPES.to_vec()
                chosen=Signal::derive(move || shape.get().unwrap_or_default())
                choose=move |word: String| {
                    let eye_mm = known.with_untracked(|causes| causes.eye_mm);
                    let system = workspace.system.get_untracked();
                    put("punch", &|amount| match amount {
                        LossAmount::Punched { punch, expected, spread } => {
                            let punch = shaped(punch, &word, eye_mm, system);
                            LossAmount::Punched { punch, expected, spread }
                        }
                        other => other,
                    });
                    workspace.keep();
                }
            />
        </Show>
        <Show when=move || fire.get().is_some()>
            <Pick
                label="fire"
                of=format!("loss {}", index + 1)
                options=Atmosphere::ALL.map(Atmosphere::word).to_vec()
                chosen=Signal::derive(move || fire.get().unwrap_or_default())
                choose=move |word: String| {
                    put("fire", &|amount| in_fire(amount, &word));
                    workspace.keep();
                }
            />
        </Show>
        {move || fields.get().into_iter().map(field).collect_view()}
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use headwright::bar::Loss;

    #[test]
    fn causes_are_read_one_at_a_time() {
        let usual: Vec<LossAmount> = Loss::usual().into_iter().map(|loss| loss.amount).collect();
        assert!(
            causes(usual[0]).is_empty(),
            "the usual punch follows the eye"
        );
        let slot = LossAmount::Punched {
            punch: Some(Punch::Obround {
                length: Length::mm(25.0),
                width: Length::mm(12.0),
            }),
            expected: Length::mm(8.0),
            spread: Length::mm(3.0),
        };
        assert_eq!(causes(slot), [Cause::Punch(0), Cause::Punch(1)]);
        let wider = read_into(slot, Cause::Punch(1), "1/2 in", System::Metric).expect("read");
        assert_eq!(shown(wider, Cause::Punch(1), System::Imperial), "1/2");
        assert_eq!(shown(wider, Cause::Punch(0), System::Metric), "25");
        assert_eq!(causes(usual[1]), [Cause::Heats, Cause::Minutes]);
        let more = read_into(usual[1], Cause::Heats, " 11 ", System::Metric).expect("read");
        assert_eq!(shown(more, Cause::Heats, System::Metric), "11");
        for text in ["7.5", "-1", "many", ""] {
            assert!(read_into(usual[1], Cause::Heats, text, System::Metric).is_err());
        }
        assert!(causes(usual[2]).is_empty());
    }

    #[test]
    fn another_fire_brings_its_usual_thickness_and_leaves_an_own_one() {
        let usual = Loss::usual()[1].amount;
        let lean = in_fire(usual, "oxidizing");
        assert_eq!(lean.numbers(), [0.08, 0.04]);
        assert_eq!(in_fire(lean, "neutral"), usual);
        let own = usual.with_numbers([0.055, 0.01]);
        assert_eq!(in_fire(own, "oxidizing").numbers(), [0.055, 0.01]);
    }

    #[test]
    fn a_punch_keeps_its_sizes_in_another_shape() {
        let slot = Punch::Obround {
            length: Length::mm(25.0),
            width: Length::mm(12.0),
        };
        let shaped = |punch, word| shaped(punch, word, [28.0, 19.0], System::Metric);
        assert_eq!(
            shaped(shaped(Some(slot), "rectangular"), "obround"),
            Some(slot)
        );
        assert_eq!(
            shaped(Some(slot), "round"),
            Some(Punch::Round {
                diameter: Length::mm(12.0)
            })
        );
        assert_eq!(shaped(Some(slot), SHAPES[0]), None);
        // 25.2 × 6.33 mm, down to half a millimetre.
        assert_eq!(
            shaped(None, "obround"),
            Some(Punch::Obround {
                length: Length::mm(25.0),
                width: Length::mm(6.0)
            })
        );
    }
}
