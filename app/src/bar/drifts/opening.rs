//! What the series begins with: the opening, how many drifts, the room round the punch.

use leptos::prelude::*;

use super::super::super::field::Field;
use super::super::super::pick::Pick;
use super::super::super::state::Workspace;
use super::super::super::words::plain_number;
use super::super::super::workshop::Workshop;
use super::Drifts;
use headwright::bar::{Bar, Punch};
use headwright::drift::{Drifting, MOST_DRIFTS, Opening, Plan, SLIT_WIDTH_MM, Steps, plan};
use headwright::plan::USUAL_HOT_CELSIUS;
use headwright::units::{
    Length, LengthNotation, MM_PER_INCH, System, parse_length, show_length, unit_word,
};

/// What the bar's punch leaves, then every shape.
const SHAPES: [&str; 5] = [
    "as the bar’s punch",
    "punched slot, round ends",
    "punched slot, square corners",
    "punched round",
    "slit, cut hot",
];

/// The word for an opening.
fn shape(opening: Option<Opening>) -> &'static str {
    SHAPES[match opening {
        None => 0,
        Some(Opening::Punched(Punch::Obround { .. })) => 1,
        Some(Opening::Punched(Punch::Rectangle { .. })) => 2,
        Some(Opening::Punched(Punch::Round { .. })) => 3,
        Some(Opening::Slit { .. }) => 4,
    }]
}

/// `mm` down to half a millimetre or a 32nd of an inch: an opening must not become larger than the eye.
pub fn down(mm: f64, system: System) -> Length {
    let (division, notation) = match system {
        System::Metric => (0.5, LengthNotation::Millimetre),
        System::Imperial => (MM_PER_INCH / 32.0, LengthNotation::InchFraction),
    };
    Length::new((mm / division).floor().max(1.0) * division, notation)
}

/// `opening` in the shape called `word`, with its sizes where they go, else with those usual for the eye of `usual`.
fn shaped(
    opening: Option<Opening>,
    word: &str,
    usual: Option<&Plan>,
    system: System,
) -> Option<Opening> {
    let usual = usual?;
    let slot = usual.opening.size;
    let [length, width] = match opening {
        Some(Opening::Punched(punch @ (Punch::Obround { .. } | Punch::Rectangle { .. }))) => {
            punch.across()
        }
        _ => [slot.length_mm, slot.width_mm].map(|mm| down(mm, system)),
    };
    match SHAPES.iter().position(|shape| *shape == word) {
        Some(1) => Some(Opening::Punched(Punch::Obround { length, width })),
        Some(2) => Some(Opening::Punched(Punch::Rectangle { length, width })),
        Some(3) => Some(Opening::Punched(Punch::Round { diameter: width })),
        Some(4) => Some(Opening::Slit {
            length: down(usual.slit_length_mm, system),
            width: down(SLIT_WIDTH_MM, system),
        }),
        _ => None,
    }
}

/// `opening` with its size number `index` changed.
fn sized(opening: Opening, index: usize, size: Length) -> Opening {
    let [mut length, mut width] = opening.sizes();
    if index == 0 {
        length = size;
    } else {
        width = size;
    }
    match opening {
        Opening::Slit { .. } => Opening::Slit { length, width },
        Opening::Punched(punch) => Opening::Punched(match punch {
            Punch::Round { .. } => Punch::Round { diameter: size },
            Punch::Obround { .. } => Punch::Obround { length, width },
            Punch::Rectangle { .. } => Punch::Rectangle { length, width },
        }),
    }
}

/// A count of drifts.
///
/// # Errors
/// A sentence when the text is none that a series may have.
fn count(text: &str) -> Result<u8, String> {
    let most = MOST_DRIFTS as f64;
    match plain_number(text) {
        Ok(number) if number.fract() == 0.0 && (1.0..=most).contains(&number) => Ok(number as u8),
        _ => Err(format!(
            "A series has 1 to {MOST_DRIFTS} drifts. Write a whole number."
        )),
    }
}

const STEPS: [&str; 2] = ["as few as needed", "this many"];

/// The choices.
#[component]
pub fn Choices(
    /// The drifts as they are now.
    drifts: Signal<Drifts>,
) -> impl IntoView {
    let workspace = Workspace::here();
    let drifting = Workshop::here().drifting;
    let system = workspace.system;
    let word = Memo::new(move |_| drifting.value.with(|d| shape(d.opening)));
    let counted = Memo::new(move |_| drifting.value.with(|d| matches!(d.steps, Steps::Count(_))));
    let choose_shape = move |word: String| {
        let system = system.get_untracked();
        let usual = workspace.sound.with_untracked(|solid| {
            let bar = workspace.design.with_untracked(|design| design.bar.clone());
            let usual = |bar: &Bar| plan(solid, bar, &Drifting::default(), USUAL_HOT_CELSIUS).ok();
            // A punch that does not fit this eye says nothing of what would.
            usual(&bar).or_else(|| usual(&Bar::default()))
        });
        drifting.apply(|d| d.opening = shaped(d.opening, &word, usual.as_ref(), system));
    };
    let choose_steps = move |word: String| {
        let now =
            drifts.with_untracked(|drifts| drifts.as_ref().ok().map(|plan| plan.drifts.len()));
        drifting.apply(|d| {
            d.steps = if word == STEPS[1] {
                Steps::Count(now.and_then(|count| u8::try_from(count).ok()).unwrap_or(3))
            } else {
                Drifting::default().steps
            };
        });
    };
    view! {
        <div class="rows">
            <Pick
                label="opening"
                of="drifts"
                options=SHAPES.to_vec()
                chosen=word
                choose=choose_shape
            />
            {move || match word.get() {
                word if word == SHAPES[0] => ().into_any(),
                word if word == SHAPES[3] => view! { <Size index=0 label="diameter" /> }.into_any(),
                _ => {
                    view! {
                        <Size index=0 label="length, along the head" />
                        <Size index=1 label="width, across it" />
                    }
                        .into_any()
                }
            }}
            <Pick
                label="number of drifts"
                of="series"
                options=STEPS.to_vec()
                chosen=Signal::derive(move || STEPS[usize::from(counted.get())])
                choose=choose_steps
            />
            <Show when=move || counted.get()>
                <Field
                    id="drift-count"
                    label="drifts in the series"
                    of="number of"
                    value=Signal::derive(move || {
                        drifting.value.with(|d| match d.steps {
                            Steps::Count(count) => count.to_string(),
                            Steps::Most { .. } => String::new(),
                        })
                    })
                    unit=Signal::derive(String::new)
                    read=move |text: String| {
                        let count = count(&text)?;
                        drifting.show(|d| d.steps = Steps::Count(count));
                        Ok(())
                    }
                    keep=move |()| drifting.keep()
                    put_back=move |()| drifting.put_back()
                />
            </Show>
            <Show when=move || word.get() != SHAPES[4]>
                <Field
                    id="bolster-clearance"
                    label="room round the punch, each side"
                    of="bolster"
                    value=Signal::derive(move || {
                        drifting.value.with(|d| show_length(d.clearance, system.get()))
                    })
                    unit=Signal::derive(move || unit_word(system.get()).to_owned())
                    read=move |text: String| {
                        let length = parse_length(&text, system.get_untracked())
                            .map_err(|e| e.to_string())?;
                        drifting.show(|d| d.clearance = length);
                        Ok(())
                    }
                    keep=move |()| drifting.keep()
                    put_back=move |()| drifting.put_back()
                />
            </Show>
        </div>
    }
}

/// One size of the opening.
#[component]
fn Size(
    /// Which of its sizes.
    index: usize,
    /// Its label.
    label: &'static str,
) -> impl IntoView {
    let drifting = Workshop::here().drifting;
    let system = Workspace::here().system;
    view! {
        <Field
            id=format!("opening-{index}")
            label=label
            of="opening"
            value=Signal::derive(move || {
                let size = drifting.value.with(|d| d.opening.map(|opening| opening.sizes()[index]));
                size.map(|size| show_length(size, system.get())).unwrap_or_default()
            })
            unit=Signal::derive(move || unit_word(system.get()).to_owned())
            read=move |text: String| {
                let size = parse_length(&text, system.get_untracked()).map_err(|e| e.to_string())?;
                drifting.show(|d| d.opening = d.opening.map(|opening| sized(opening, index, size)));
                Ok(())
            }
            keep=move |()| drifting.keep()
            put_back=move |()| drifting.put_back()
        />
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use headwright::design::{starter, starter_names};

    #[test]
    fn every_shape_begins_with_sizes_that_can_be_drifted() {
        for name in starter_names() {
            let design = starter(name).expect("a starter");
            let (solid, bar) = (design.build().expect("sound"), &design.bar);
            let usual = plan(&solid, bar, &Drifting::default(), USUAL_HOT_CELSIUS)
                .expect("the usual drifts");
            for system in [System::Metric, System::Imperial] {
                for before in SHAPES {
                    let before = shaped(None, before, Some(&usual), system);
                    for word in SHAPES {
                        let opening = shaped(before, word, Some(&usual), system);
                        assert_eq!(shape(opening), word);
                        let drifting = Drifting {
                            opening,
                            ..Drifting::default()
                        };
                        let drifts = plan(&solid, bar, &drifting, USUAL_HOT_CELSIUS);
                        assert!(drifts.is_ok(), "{name} {opening:?}: {drifts:?}");
                    }
                }
            }
        }
    }

    #[test]
    fn a_size_changes_alone() {
        let slot = Opening::Punched(Punch::Rectangle {
            length: Length::mm(20.0),
            width: Length::mm(8.0),
        });
        let [length, width] = sized(slot, 1, Length::mm(9.0)).sizes();
        assert_eq!((length.in_mm(), width.in_mm()), (20.0, 9.0));
    }

    #[test]
    fn a_count_is_a_whole_number_that_a_series_may_have() {
        assert_eq!(count("4"), Ok(4));
        assert_eq!(count(" 12 "), Ok(12));
        for text in ["0", "13", "2.5", "-1", "1e9", "NaN", "", "four"] {
            assert!(count(text).is_err(), "{text}");
        }
    }
}
