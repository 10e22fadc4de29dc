//! What can be done at a step besides starting and stopping it.

use leptos::prelude::*;

use super::super::state::Workspace;
use super::super::words::{self, plain_number};
use super::build::{Front, TakeBackLine};
use super::write::{Form, Line, Written, go_to};
use headwright::design::Dim;
use headwright::log::{LONGEST_NOTE, What};
use headwright::units::{mass_unit_word, parse_mass, parse_temperature, temperature_unit_word};

/// What is being written.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Writing {
    Nothing,
    Weight,
    Size,
    Note,
    Minutes,
}

/// The presses of the open step.
#[component]
pub fn Tools(
    /// The step's id.
    id: u32,
    /// Its name.
    name: Memo<String>,
) -> impl IntoView {
    let front = Front::here();
    let writing = RwSignal::new(Writing::Nothing);
    let wrong = RwSignal::new(None::<String>);
    let place = move |what: Writing| {
        let word = match what {
            Writing::Nothing => "heat",
            Writing::Weight => "weigh",
            Writing::Size => "measure",
            Writing::Note => "note",
            Writing::Minutes => "minutes",
        };
        format!("log-{word}-{id}")
    };
    let close = Callback::new(move |()| {
        let back = writing.get_untracked();
        writing.set(Writing::Nothing);
        go_to(place(back));
    });
    let press = move |what: Writing, word: &'static str, label: &'static str| {
        view! {
            <button
                type="button"
                class="way"
                id=place(what)
                aria-label=move || format!("{label} {}", name.get())
                aria-expanded=move || (writing.get() == what).to_string()
                on:click=move |_| {
                    let now = writing.get_untracked();
                    writing.set(if now == what { Writing::Nothing } else { what });
                }
            >
                {word}
            </button>
        }
    };
    view! {
        <div class="log-presses" role="group" aria-label=move || format!("at {}", name.get())>
            <button
                type="button"
                class="way log-heat"
                id=place(Writing::Nothing)
                aria-label=move || format!("heat +1 at {}", name.get())
                on:click=move |_| wrong.set(front.record(id, What::Heats { count: 1 }).err())
            >
                "heat +1"
            </button>
            {press(Writing::Weight, "weigh", "weigh after")}
            {press(Writing::Size, "measure a size", "measure a size at")}
            {press(Writing::Note, "note", "note at")}
            {press(Writing::Minutes, "type the minutes", "type the minutes of")}
        </div>
        <TakeBackLine />
        <p class="problem" role="status">{wrong}</p>
        {move || {
            let name = name.get_untracked();
            match writing.get() {
                Writing::Nothing => ().into_any(),
                Writing::Weight => view! { <Weight id=id name=name close=close /> }.into_any(),
                Writing::Size => view! { <Size id=id name=name close=close /> }.into_any(),
                Writing::Note => view! { <Note id=id name=name close=close /> }.into_any(),
                Writing::Minutes => view! { <Minutes id=id name=name close=close /> }.into_any(),
            }
        }}
    }
}

/// What the scale shows when the step is done.
#[component]
fn Weight(
    /// The step's id.
    id: u32,
    /// Its name.
    name: String,
    /// Closes the form.
    close: Callback<()>,
) -> impl IntoView {
    let workspace = Workspace::here();
    let front = Front::here();
    let (written, text) = (Written::new(), RwSignal::new(String::new()));
    let keep = move |()| {
        let system = workspace.system.get_untracked();
        let mass = parse_mass(&text.get_untracked(), system).map_err(|error| error.to_string());
        let kept = mass.and_then(|mass| front.record(id, What::weighed(mass)));
        if written.came(kept) {
            close.run(());
        }
    };
    view! {
        <Form label=format!("weigh after {name}") written=written keep=keep close=close>
            <Line
                label=format!("weight after {name}")
                unit=Signal::derive(move || mass_unit_word(workspace.system.get()).to_owned())
                text=text
                grab=true
            />
        </Form>
    }
}

/// A size as it is measured, hot or cold.
#[component]
fn Size(
    /// The step's id.
    id: u32,
    /// Its name.
    name: String,
    /// Closes the form.
    close: Callback<()>,
) -> impl IntoView {
    let workspace = Workspace::here();
    let front = Front::here();
    let system = workspace.system;
    let sizes = front.build.with_untracked(|build| build.design.sizes());
    let Some((first, _)) = sizes.first().copied() else {
        return ().into_any();
    };
    let dim = RwSignal::new(first);
    let (written, text, heat) = (
        Written::new(),
        RwSignal::new(String::new()),
        RwSignal::new(String::new()),
    );
    let keep = move |()| {
        let system = system.get_untracked();
        let dim = dim.get_untracked();
        let read = || {
            let as_designed = front
                .build
                .with_untracked(|build| build.design.size(dim))
                .ok_or("This design has no such size.")?;
            let size = as_designed.parse(&text.get_untracked(), system);
            let size = size.map_err(|error| error.to_string())?;
            let heat = heat.get_untracked();
            let celsius = if heat.trim().is_empty() {
                None
            } else {
                let celsius = parse_temperature(&heat, system);
                Some(celsius.map_err(|error| error.to_string())?)
            };
            Ok(What::Measured { dim, size, celsius })
        };
        let kept = read().and_then(|what| front.record(id, what));
        if written.came(kept) {
            close.run(());
        }
    };
    let options = sizes.into_iter().map(|(dim, _)| {
        view! { <option value=dim.to_string()>{dim.words()}</option> }
    });
    let options = options.collect_view();
    view! {
        <Form label=format!("measure a size at {name}") written=written keep=keep close=close>
            <label class="log-line">
                <span>"which size"</span>
                <select
                    aria-label="which size"
                    on:change:target=move |event| {
                        if let Ok(chosen) = event.target().value().parse::<Dim>() {
                            dim.set(chosen);
                        }
                    }
                >
                    {options}
                </select>
            </label>
            <Line
                label="it measures".to_owned()
                unit=Signal::derive(move || words::unit_of(dim.get(), system.get()).to_owned())
                text=text
                grab=true
            />
            <Line
                label="its heat; empty when cold".to_owned()
                unit=Signal::derive(move || temperature_unit_word(system.get()).to_owned())
                text=heat
            />
        </Form>
    }
    .into_any()
}

/// Something to remember.
#[component]
fn Note(
    /// The step's id.
    id: u32,
    /// Its name.
    name: String,
    /// Closes the form.
    close: Callback<()>,
) -> impl IntoView {
    let front = Front::here();
    let (written, text) = (Written::new(), RwSignal::new(String::new()));
    let input = NodeRef::<leptos::html::Textarea>::new();
    Effect::new(move || {
        if let Some(input) = input.get() {
            // A field that cannot take the focus is still there to be pressed.
            let _ = input.focus();
        }
    });
    let keep = move |()| {
        let text = text.get_untracked().trim().to_owned();
        let kept = if text.is_empty() {
            Err("Nothing is written here.".to_owned())
        } else {
            front.record(id, What::Note { text })
        };
        if written.came(kept) {
            close.run(());
        }
    };
    let label = format!("note at {name}");
    view! {
        <Form label=label.clone() written=written keep=keep close=close>
            <label class="log-line">
                <span>{label}</span>
                <textarea
                    node_ref=input
                    rows="3"
                    maxlength=LONGEST_NOTE
                    prop:value=text
                    on:input:target=move |event| text.set(event.target().value())
                ></textarea>
            </label>
        </Form>
    }
}

/// What the step took in all until now.
#[component]
fn Minutes(
    /// The step's id.
    id: u32,
    /// Its name.
    name: String,
    /// Closes the form.
    close: Callback<()>,
) -> impl IntoView {
    let front = Front::here();
    let (written, text) = (Written::new(), RwSignal::new(String::new()));
    let runs = move || {
        front
            .story
            .with(|story| story.open.is_some_and(|(step, _)| step == id))
    };
    let said = move || {
        if runs() {
            "They stand for all that ran at this step until now; the clock goes on from here and adds to them."
        } else {
            "They stand for all that was pressed at this step until now; what is pressed afterwards adds to them."
        }
    };
    let keep = move |()| {
        let minutes = read_minutes(&text.get_untracked());
        let kept = minutes.and_then(|minutes| front.record(id, What::Minutes { minutes }));
        if written.came(kept) {
            close.run(());
        }
    };
    view! {
        <Form label=format!("type the minutes of {name}") written=written keep=keep close=close>
            <Line
                label=format!("{name} took in all")
                unit="min"
                text=text
                grab=true
            />
            <p class="soft">{said}</p>
        </Form>
    }
}

/// Minutes as `42`, `42.5` or `1:30`.
///
/// # Errors
/// A sentence when the text is none of these.
pub fn read_minutes(text: &str) -> Result<f64, String> {
    let text = text.trim().trim_end_matches("min").trim_end();
    let Some((hours, minutes)) = text.split_once(':') else {
        return plain_number(text);
    };
    let part = |part: &str| part.trim().parse::<u32>().ok();
    let both = part(hours).zip(part(minutes).filter(|minutes| *minutes < 60));
    let (hours, minutes) = both.ok_or_else(|| {
        let short: String = text.chars().take(40).collect();
        format!(
            "“{short}” is no time. Write minutes such as 90, or hours and minutes such as 1:30."
        )
    })?;
    Ok(f64::from(hours) * 60.0 + f64::from(minutes))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn minutes_are_read_as_they_are_said() {
        for (text, minutes) in [
            ("42", 42.0),
            (" 42.5 min", 42.5),
            ("1:30", 90.0),
            ("0:05", 5.0),
        ] {
            assert_eq!(read_minutes(text), Ok(minutes), "{text}");
        }
        for text in ["", "long", "1:75", "1:", ":", "1:2:3", "-1:30"] {
            assert!(read_minutes(text).is_err(), "{text}");
        }
    }
}
