//! Its shape, its weight, what becomes of what was not measured, and how far off readings may be.

use leptos::prelude::*;

use super::super::super::field::Field;
use super::super::super::state::Workspace;
use super::Measuring;
use super::answer::Answer;
use super::draft::{Draft, Others, handle_kg};
use headwright::bar::Limit;
use headwright::design::{starter, starter_names};
use headwright::log::{Precision, ReadingError, WEIGHED_KG, WITHIN_KG, WITHIN_MM};
use headwright::units::{
    Length, Mass, System, mass_unit_word, parse_length, parse_mass, show_length, show_mass,
    show_number, unit_word,
};

/// The choice of the head that it was compared with before the sheet had another.
const BEGAN_WITH: &str = "began-with";

/// The head that has its shape.
#[component]
pub fn Shape() -> impl IntoView {
    let workspace = Workspace::here();
    let Measuring { draft, .. } = Measuring::here();
    let on_the_sheet = move || {
        let name = workspace.design.with(|design| design.name.clone());
        format!("the head on the sheet: {name}")
    };
    let began_with = Memo::new(move |_| {
        let began_with = draft.value.with(Draft::began_with);
        began_with.map(|design| format!("the head it was compared with: {}", design.name))
    });
    let chosen = Memo::new(move |_| {
        let from = draft.value.with(|draft| draft.from.clone());
        from.or_else(|| began_with.get().map(|_| BEGAN_WITH.to_owned()))
    });
    let starters = starter_names().filter_map(|word| {
        let name = starter(word)?.name;
        Some(view! {
            <option value=word selected=move || chosen.get().as_deref() == Some(word)>
                {name}
            </option>
        })
    });
    let starters = starters.collect_view();
    view! {
        <label class="log-line">
            <span>"begin from"</span>
            <select
                aria-label="begin from"
                prop:value=move || chosen.get().unwrap_or_default()
                on:change:target=move |event| {
                    let word = event.target().value();
                    draft
                        .apply(|draft| match word.as_str() {
                            BEGAN_WITH => draft.from = None,
                            "" => (draft.from, draft.began_with) = (None, None),
                            _ => draft.from = Some(word),
                        });
                }
            >
                <option value="" selected=move || chosen.get().is_none()>
                    {on_the_sheet}
                </option>
                {move || {
                    began_with
                        .get()
                        .map(|name| {
                            view! {
                                <option
                                    value=BEGAN_WITH
                                    selected=move || chosen.get().as_deref() == Some(BEGAN_WITH)
                                >
                                    {name}
                                </option>
                            }
                        })
                }}
                {starters}
            </select>
        </label>
    }
}

/// What the scale shows, with its handle or without.
#[component]
pub fn OnTheScale() -> impl IntoView {
    let workspace = Workspace::here();
    let system = workspace.system;
    let Measuring { draft, .. } = Measuring::here();
    let with_handle = Memo::new(move |_| draft.value.with(|draft| draft.with_handle));
    let choice = move |on: bool, word: &'static str| {
        view! {
            <button
                type="button"
                aria-pressed=move || (with_handle.get() == on).to_string()
                on:click=move |_| draft.apply(|draft| draft.with_handle = on)
            >
                {word}
            </button>
        }
    };
    let reckoned = Memo::new(move |_| {
        let shape = workspace
            .design
            .with(|sheet| draft.value.with(|draft| draft.shape(sheet)));
        with_handle.get().then(|| handle_kg(&shape)).flatten()
    });
    let left = move || {
        let system = system.get();
        let bare = workspace.design.with(|sheet| {
            draft
                .value
                .with(|draft| draft.bare(&draft.shape(sheet), system))
        });
        let bare = bare.ok().flatten()?;
        Some(format!(
            "Less {} for the handle that leaves {} for the head alone.",
            show_mass(bare.handle_kg?, system),
            show_mass(bare.head.in_kg(), system)
        ))
    };
    view! {
        <MassField
            id="measured-mass"
            label="the scale shows"
            value=move |draft: &Draft| draft.mass
            set=move |draft: &mut Draft, mass| draft.mass = mass
        />
        <div class="two" role="group" aria-label="what was weighed">
            {choice(false, "the head alone")} {choice(true, "with its handle")}
        </div>
        <Show when=move || with_handle.get()>
            <MassField
                id="measured-handle"
                label="its handle weighs"
                value=move |draft: &Draft| draft.handle
                set=move |draft: &mut Draft, mass| draft.handle = mass
                placeholder=Signal::derive(move || {
                    reckoned.get().map(|kg| show_mass(kg, system.get())).unwrap_or_default()
                })
            />
            <p class="soft">
                {left}
                " Left empty, the handle is taken as the handle’s sheet reckons it, which may be off by a tenth."
            </p>
        </Show>
    }
}

/// A field for a weight, in which nothing may stand.
#[component]
fn MassField(
    /// Its id.
    id: &'static str,
    /// Its label.
    label: &'static str,
    /// Where it stands.
    value: fn(&Draft) -> Option<Mass>,
    /// Puts it there.
    set: fn(&mut Draft, Option<Mass>),
    /// What counts while it is empty.
    #[prop(optional, into)]
    placeholder: Signal<String>,
) -> impl IntoView {
    let system = Workspace::here().system;
    let Measuring { draft, .. } = Measuring::here();
    let shown = Memo::new(move |_| draft.value.with(value));
    let unit = move || {
        // A weight is shown with its units, which may be two; a pale one too.
        let pale = shown.get().is_none() && placeholder.with(String::is_empty);
        if pale {
            mass_unit_word(system.get()).to_owned()
        } else {
            String::new()
        }
    };
    view! {
        <Field
            id=id
            label=label
            value=Signal::derive(move || {
                shown.get().map(|mass| show_mass(mass.in_kg(), system.get())).unwrap_or_default()
            })
            unit=Signal::derive(unit)
            placeholder=placeholder
            read=move |text: String| {
                let mass = read_mass(&text, system.get_untracked())?;
                draft.show(|draft| set(draft, mass));
                Ok(())
            }
            keep=move |()| draft.keep()
            put_back=move |()| draft.put_back()
        />
    }
}

/// A weight that a scale can show; nothing of an empty field.
fn read_mass(text: &str, system: System) -> Result<Option<Mass>, String> {
    if text.trim().is_empty() {
        return Ok(None);
    }
    let mass = parse_mass(text, system).map_err(|error| error.to_string())?;
    if WEIGHED_KG.admits(mass.in_kg()) {
        Ok(Some(mass))
    } else {
        Err(ReadingError::Weight(mass.in_kg()).sentence(system))
    }
}

/// What becomes of the sizes that were not measured.
#[component]
pub fn TheRest() -> impl IntoView {
    let workspace = Workspace::here();
    let Measuring { draft, answer } = Measuring::here();
    let others = Memo::new(move |_| draft.value.with(|draft| draft.others));
    let share = move || {
        answer.with(|answer| match answer {
            Answer::Is(existing) => existing.share,
            _ => 1.0,
        })
    };
    let said = move || {
        let name = workspace
            .design
            .with(|sheet| draft.value.with(|draft| draft.shape(sheet).name));
        match others.get() {
            Others::InProportion => format!(
                "Every length that you leave out is {} times that of {name}, to half a millimetre or a thirty-second of an inch; angles stay. The factor is the mean of what you measured, and where you measured no length, it follows from the weight.",
                show_number((share() * 1000.0).round() / 1000.0)
            ),
            Others::Stay => format!("What you leave out is as {name} has it."),
            Others::ToWeight => format!(
                "What you leave out is as {name} has it, and then its free sizes move until the head weighs what the scale shows. The difference above is the one before that."
            ),
        }
    };
    view! {
        <section class="workshop" aria-labelledby="measured-rest">
            <h2 id="measured-rest">"the sizes that you leave out"</h2>
            <div class="log-presses" role="group" aria-labelledby="measured-rest">
                {Others::ALL
                    .map(|(other, word)| {
                        view! {
                            <button
                                type="button"
                                class="way"
                                aria-pressed=move || (others.get() == other).to_string()
                                on:click=move |_| draft.apply(|draft| draft.others = other)
                            >
                                {word}
                            </button>
                        }
                    })
                    .into_iter()
                    .collect_view()}
            </div>
            <p class="soft">{said}</p>
        </section>
    }
}

/// How far off readings may be, and what was not measured.
#[component]
pub fn HowSure() -> impl IntoView {
    let workspace = Workspace::here();
    let system = workspace.system;
    let Measuring { draft, .. } = Measuring::here();
    let usual = move || {
        workspace
            .design
            .with(|sheet| Precision::usual(sheet.bar.rule))
    };
    let length = move |mm: Length| show_length(mm, system.get());
    let shown = |size: fn(&Draft) -> Option<Length>| {
        Signal::derive(move || draft.value.with(size).map(length).unwrap_or_default())
    };
    let unit = Signal::derive(move || unit_word(system.get()).to_owned());
    let within = move |text: &str, what| read_within(text, what, system.get_untracked());
    view! {
        <section class="workshop" aria-labelledby="measured-sure">
            <h2 id="measured-sure">"how far off it may be, either way"</h2>
            <div class="rows">
                <Field
                    id="measured-caliper"
                    label="the caliper"
                    of="may be off by:"
                    value=shown(|draft| draft.caliper)
                    unit=unit
                    placeholder=Signal::derive(move || length(usual().cold))
                    read=move |text: String| {
                        let caliper = within(&text, "a cold caliper")?;
                        draft.show(|draft| draft.caliper = caliper);
                        Ok(())
                    }
                    keep=move |()| draft.keep()
                    put_back=move |()| draft.put_back()
                />
                <Field
                    id="measured-scale"
                    label="the scale"
                    of="may be off by:"
                    value=Signal::derive(move || {
                        let scale = draft.value.with(|draft| draft.scale);
                        scale.map(|mass| show_mass(mass.in_kg(), system.get())).unwrap_or_default()
                    })
                    unit=Signal::derive(String::new)
                    placeholder=Signal::derive(move || show_mass(usual().scale.in_kg(), system.get()))
                    read=move |text: String| {
                        let scale = read_scale(&text, system.get_untracked())?;
                        draft.show(|draft| draft.scale = scale);
                        Ok(())
                    }
                    keep=move |()| draft.keep()
                    put_back=move |()| draft.put_back()
                />
                <Field
                    id="measured-unmeasured"
                    label="a length that you leave out"
                    of="may be off by:"
                    value=shown(|draft| draft.unmeasured)
                    unit=unit
                    placeholder=Signal::derive(move || length(usual().forged.length))
                    read=move |text: String| {
                        let unmeasured = within(&text, "a length that was not measured")?;
                        draft.show(|draft| draft.unmeasured = unmeasured);
                        Ok(())
                    }
                    keep=move |()| draft.keep()
                    put_back=move |()| draft.put_back()
                />
            </div>
            <p class="soft">"Left empty, what stands there in pale figures counts. Angles count as within 1°."</p>
        </section>
    }
}

/// A number as one that how far off something may be cannot be.
fn refused(what: &'static str, value: f64, limit: Limit, unit: &'static str) -> ReadingError {
    ReadingError::Within {
        what,
        value,
        limit,
        unit,
    }
}

/// How far off a length may be; nothing of an empty field.
fn read_within(text: &str, what: &'static str, system: System) -> Result<Option<Length>, String> {
    if text.trim().is_empty() {
        return Ok(None);
    }
    let length = parse_length(text, system).map_err(|error| error.to_string())?;
    if WITHIN_MM.admits(length.in_mm()) {
        Ok(Some(length))
    } else {
        Err(refused(what, length.in_mm(), WITHIN_MM, "mm").sentence(system))
    }
}

/// How far off a scale may be: a bare number is in grams or ounces; nothing of an empty field.
fn read_scale(text: &str, system: System) -> Result<Option<Mass>, String> {
    let Some(mass) = super::super::super::words::small_mass(text, system)? else {
        return Ok(None);
    };
    if WITHIN_KG.admits(mass.in_kg()) {
        Ok(Some(mass))
    } else {
        Err(refused("the scale", mass.in_kg(), WITHIN_KG, "kg").sentence(system))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn weights_and_how_far_off_they_may_be_are_refused_with_their_limits() {
        let metric = System::Metric;
        assert_eq!(read_mass(" ", metric), Ok(None));
        assert_eq!(read_mass("1,25", metric), Ok(Some(Mass::kg(1.25))));
        assert_eq!(read_scale("2", metric), Ok(Some(Mass::grams(2.0))));
        assert_eq!(read_scale("", metric), Ok(None));
        let within = |text| read_within(text, "a cold caliper", metric);
        assert_eq!(within("0.05"), Ok(Some(Length::mm(0.05))));
        assert_eq!(within(""), Ok(None));
        for refused in [
            read_mass("900 kg", metric).map(drop),
            read_scale("5 kg", metric).map(drop),
            read_scale("-1", metric).map(drop),
            within("0").map(drop),
            within("900").map(drop),
        ] {
            let said = refused.expect_err("it cannot be");
            assert!(
                said.contains("It must be at least") || said.contains("Make it"),
                "{said}"
            );
        }
        assert!(read_mass("heavy", metric).is_err());
    }
}
