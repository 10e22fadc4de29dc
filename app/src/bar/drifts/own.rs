//! The smith's own drifts, and what each does to this eye.

use leptos::prelude::*;

use super::super::super::entry::Entry;
use super::super::super::state::Workspace;
use super::super::super::workshop::Workshop;
use super::OwnDrifts;
use super::words::{pair, range, stretch};
use headwright::drift::{Depth, MOST_DRIFTS, OwnDrift, OwnSet, OwnStep, USUAL_TAPER};
use headwright::units::{
    Length, System, parse_length, parse_ratio, show_length, show_number, unit_word,
};

/// A drift to begin with.
fn first(system: System) -> OwnDrift {
    let (length, width) = match system {
        System::Metric => (Length::mm(20.0), Length::mm(14.0)),
        System::Imperial => (Length::inches(0.75), Length::inches(0.5)),
    };
    OwnDrift {
        length,
        width,
        taper: None,
    }
}

/// A taper: `0.1`, `1/12`, `1:12`, or nothing for the usual one.
///
/// # Errors
/// A sentence when the text is none.
fn taper(text: &str) -> Result<Option<f64>, String> {
    if text.trim().is_empty() {
        return Ok(None);
    }
    let text = text.replace(',', ".").replace(':', "/");
    match parse_ratio(&text) {
        Ok(taper) if taper.is_finite() => Ok(Some(taper)),
        _ => {
            let short: String = text.trim().chars().take(40).collect();
            Err(format!(
                "“{short}” is no taper. Write what is lost of length and width on the way to the tip, such as 0.1 or 1:12."
            ))
        }
    }
}

/// What a drift does, in one sentence.
fn verdict(place: usize, step: &OwnStep, system: System) -> String {
    if !step.serves {
        return "Leave it out.".to_owned();
    }
    let [top, bottom] = [step.top, step.bottom].map(|mouth| Depth::words(mouth, system));
    let deep = if top == bottom {
        format!("from either mouth {top}")
    } else {
        format!("from the top {top}, from the bottom {bottom}")
    };
    format!(
        "{}: opens the hot waist to {}; rim longer by {}, cheek wall {}; {deep}.",
        order(place),
        pair(step.open, system),
        stretch(step.stretch_percent, step.stretch_percent),
        range(step.wall_outer_kept_mm, step.wall_sideways_mm, system)
    )
}

/// "Drive it first", "Drive it as number 2".
fn order(place: usize) -> String {
    match place {
        1 => "Drive it first".to_owned(),
        place => format!("Drive it as number {place}"),
    }
}

/// Place in the order of the work among those that serve, and the step of drift `number` of the list.
fn step_of(set: &OwnSet, number: usize) -> Option<(usize, &OwnStep)> {
    let at = set.steps.iter().position(|step| step.number == number)?;
    let before = set.steps[..at].iter().filter(|step| step.serves).count();
    Some((before + 1, &set.steps[at]))
}

/// The list, to be added to, with a verdict on each.
#[component]
pub fn Own(
    /// What they do.
    own: Signal<OwnDrifts>,
) -> impl IntoView {
    let drifting = Workshop::here().drifting;
    let system = Workspace::here().system;
    let count = Memo::new(move |_| drifting.value.with(|d| d.own.len()));
    let whole = move || {
        let system = system.get();
        own.with(|own| match own {
            Ok(None) => ().into_any(),
            Ok(Some(set)) => {
                let good = set.gives_eye.then_some("Your drifts give this eye.");
                let notes = set
                    .notes
                    .iter()
                    .map(|note| view! { <li>{note.sentence(system)}</li> });
                view! {
                    <ul class="said">
                        {good.map(|words| view! { <li>{words}</li> })}
                        {notes.collect_view()}
                    </ul>
                }
                .into_any()
            }
            Err(errors) => {
                let sentences = errors.iter().map(|error| {
                    view! { <p class="sentence problem">{error.sentence(system)}</p> }
                });
                view! { <div role="status">{sentences.collect_view()}</div> }.into_any()
            }
        })
    };
    view! {
        <h3 id="own-drifts">"your own drifts"</h3>
        <div role="group" aria-labelledby="own-drifts">
            {move || {
                (0..count.get()).map(|index| view! { <Line index=index own=own /> }).collect_view()
            }}
            {whole}
            <Show when=move || count.get() < MOST_DRIFTS>
                <button
                    type="button"
                    class="plain"
                    on:click=move |_| {
                        let drift = first(system.get_untracked());
                        drifting.apply(|d| d.own.push(drift));
                    }
                >
                    "add a drift of your own"
                </button>
            </Show>
        </div>
    }
}

/// One of them.
#[component]
fn Line(
    /// Its place in the list.
    index: usize,
    /// What they do.
    own: Signal<OwnDrifts>,
) -> impl IntoView {
    let drifting = Workshop::here().drifting;
    let system = Workspace::here().system;
    let drift = move || drifting.value.with(|d| d.own.get(index).copied());
    let change = move |change: &dyn Fn(&mut OwnDrift)| {
        drifting.show(|d| {
            if let Some(drift) = d.own.get_mut(index) {
                change(drift);
            }
        });
    };
    let said = move || {
        let system = system.get();
        own.with(|own| {
            let set = own.as_ref().ok()?.as_ref()?;
            let (place, step) = step_of(set, index + 1)?;
            let notes = step.notes.iter().map(|note| note.sentence(system));
            let sentences: Vec<String> = std::iter::once(verdict(place, step, system))
                .chain(notes)
                .collect();
            Some(sentences.join(" "))
        })
    };
    view! {
        <div class="own-drift" role="group" aria-label=format!("own drift {}", index + 1)>
            <span class="own-name">{format!("drift {}", index + 1)}</span>
            <Part
                index=index
                word="length"
                value=Signal::derive(move || {
                    drift().map(|drift| show_length(drift.length, system.get())).unwrap_or_default()
                })
                unit=Signal::derive(move || unit_word(system.get()).to_owned())
                placeholder=Signal::derive(String::new)
                read=move |text: String| {
                    let length = parse_length(&text, system.get_untracked()).map_err(|e| e.to_string())?;
                    change(&|drift| drift.length = length);
                    Ok(())
                }
            />
            <Part
                index=index
                word="width"
                value=Signal::derive(move || {
                    drift().map(|drift| show_length(drift.width, system.get())).unwrap_or_default()
                })
                unit=Signal::derive(move || unit_word(system.get()).to_owned())
                placeholder=Signal::derive(String::new)
                read=move |text: String| {
                    let width = parse_length(&text, system.get_untracked()).map_err(|e| e.to_string())?;
                    change(&|drift| drift.width = width);
                    Ok(())
                }
            />
            <Part
                index=index
                word="taper"
                value=Signal::derive(move || {
                    drift().and_then(|drift| drift.taper).map(show_number).unwrap_or_default()
                })
                unit=Signal::derive(String::new)
                placeholder=Signal::derive(|| show_number(USUAL_TAPER))
                read=move |text: String| {
                    let taper = taper(&text)?;
                    change(&|drift| drift.taper = taper);
                    Ok(())
                }
            />
            <button
                type="button"
                class="plain"
                aria-label=format!("remove own drift {}", index + 1)
                on:click=move |_| {
                    drifting.apply(|d| {
                        if index < d.own.len() {
                            d.own.remove(index);
                        }
                    });
                }
            >
                "remove"
            </button>
            <p class="verdict">{said}</p>
        </div>
    }
}

/// A field of one drift, under its word.
#[component]
fn Part(
    /// Place of the drift in the list.
    index: usize,
    /// The size's word.
    word: &'static str,
    /// Its value as shown.
    value: Signal<String>,
    /// Its unit.
    unit: Signal<String>,
    /// Shown while it is empty.
    placeholder: Signal<String>,
    /// Reads a text.
    #[prop(into)]
    read: Callback<String, Result<(), String>>,
) -> impl IntoView {
    let drifting = Workshop::here().drifting;
    let id = format!("own-{index}-{word}");
    view! {
        <div class="own-part">
            <label for=id.clone()>{word}</label>
            <Entry
                label=format!("own drift {} {word}", index + 1)
                value=value
                unit=unit
                placeholder=placeholder
                read=read
                keep=move |()| drifting.keep()
                put_back=move |()| drifting.put_back()
                id=id
            />
        </div>
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use headwright::bar::Bar;
    use headwright::design::starter;
    use headwright::drift::{Drifting, plan};

    #[test]
    fn a_taper_is_read_as_a_smith_writes_it() {
        assert_eq!(taper(""), Ok(None));
        assert_eq!(taper("0,1"), Ok(Some(0.1)));
        assert_eq!(taper("1:20"), Ok(Some(0.05)));
        assert_eq!(taper("1/20"), Ok(Some(0.05)));
        for text in ["steep", "1:0", "1::2", "NaN", "1e999"] {
            assert!(taper(text).is_err(), "{text}");
        }
    }

    #[test]
    fn drifts_are_told_in_the_order_of_the_work() {
        let solid = starter("rounding")
            .and_then(|d| d.build().ok())
            .expect("sound");
        let own = |length: f64, width: f64| OwnDrift {
            length: Length::mm(length),
            width: Length::mm(width),
            taper: None,
        };
        let drifting = Drifting {
            own: vec![own(28.0, 19.0), own(5.0, 4.0), own(26.0, 10.0)],
            ..Drifting::default()
        };
        let set = plan(&solid, &Bar::default(), &drifting, 1050.0)
            .expect("drifts")
            .own
            .expect("own ones");
        let order = |number| step_of(&set, number).map(|(place, step)| (place, step.serves));
        assert_eq!(order(3), Some((1, true)));
        assert_eq!(order(1), Some((2, true)));
        assert_eq!(order(2).map(|(_, serves)| serves), Some(false));
        assert!(step_of(&set, 4).is_none());
        let (place, step) = step_of(&set, 3).expect("listed");
        assert!(
            verdict(place, step, System::Metric)
                .starts_with("Drive it first: opens the hot waist to")
        );
    }
}
