//! The bar's section, the rule it is cut to, and how sure the cut is to be.

use leptos::prelude::*;

use super::super::entry::Entry;
use super::super::pick::Pick;
use super::super::state::Workspace;
use super::super::words;
use super::show_bar;
use headwright::bar::BarSection;
use headwright::units::{Length, Rule, parse_length, show_length, show_number, unit_word};

const SHAPES: [&str; 4] = ["round", "square", "rectangular", "octagonal"];

/// `section` in another shape, with its sizes as far as they go.
fn shaped(section: BarSection, shape: &str) -> BarSection {
    let sizes = section.sizes();
    let size = |index: usize| {
        sizes
            .get(index)
            .or(sizes.first())
            .map_or(Length::mm(45.0), |(_, size)| *size)
    };
    match shape {
        "round" => BarSection::Round { diameter: size(0) },
        "rectangular" => BarSection::Rectangular {
            width: size(0),
            height: size(1),
        },
        "octagonal" => BarSection::Octagonal {
            across_flats: size(0),
        },
        _ => BarSection::Square { across: size(0) },
    }
}

/// `section` with its size number `index` changed.
fn sized(section: BarSection, index: usize, length: Length) -> BarSection {
    match section {
        BarSection::Round { .. } => BarSection::Round { diameter: length },
        BarSection::Square { .. } => BarSection::Square { across: length },
        BarSection::Octagonal { .. } => BarSection::Octagonal {
            across_flats: length,
        },
        BarSection::Rectangular { height, .. } if index == 0 => BarSection::Rectangular {
            width: length,
            height,
        },
        BarSection::Rectangular { width, .. } => BarSection::Rectangular {
            width,
            height: length,
        },
    }
}

/// Fields of the bar.
#[component]
pub fn Section() -> impl IntoView {
    let workspace = Workspace::here();
    let section = Memo::new(move |_| workspace.design.with(|d| d.bar.section));
    let system = workspace.system;
    let count = Memo::new(move |_| section.get().sizes().len());
    view! {
        <section class="bar-fields" aria-labelledby="the-bar">
            <h2 id="the-bar">"the bar"</h2>
            <div class="rows">
                <Pick
                    label="section"
                    of="bar"
                    options=SHAPES.to_vec()
                    chosen=Signal::derive(move || section.get().shape())
                    choose=move |word: String| {
                        show_bar(workspace, "bar section", |bar| bar.section = shaped(bar.section, &word));
                        workspace.keep();
                    }
                />
                {move || (0..count.get()).map(|index| view! { <BarSize index=index /> }).collect_view()}
                <Field
                    id="rule"
                    label="rule, the smallest division"
                    value=Signal::derive(move || {
                        workspace.design.with(|d| show_length(d.bar.rule.division(), system.get()))
                    })
                    unit=Signal::derive(move || unit_word(system.get()).to_owned())
                    read=move |text: String| {
                        let length = parse_length(&text, system.get_untracked())
                            .map_err(|e| e.to_string())?;
                        let rule = Rule::new(length).map_err(|e| e.to_string())?;
                        show_bar(workspace, "rule", |bar| bar.rule = rule);
                        Ok(())
                    }
                />
                <Field
                    id="confidence"
                    label="heads in a hundred that reach the weight"
                    value=Signal::derive(move || {
                        workspace.design.with(|d| show_number((d.bar.confidence * 1e5).round() / 1e3))
                    })
                    unit=Signal::derive(String::new)
                    read=move |text: String| {
                        let share = words::plain_number(&text)? / 100.0;
                        show_bar(workspace, "confidence", |bar| bar.confidence = share);
                        Ok(())
                    }
                />
            </div>
        </section>
    }
}

/// One size of the section.
#[component]
fn BarSize(
    /// Which of its sizes.
    index: usize,
) -> impl IntoView {
    let workspace = Workspace::here();
    let system = workspace.system;
    let size = move |section: BarSection| section.sizes().get(index).copied();
    let name = workspace
        .design
        .with_untracked(|d| size(d.bar.section))
        .map_or("size", |(name, _)| name);
    view! {
        <Field
            id=format!("bar-size-{index}")
            label=name
            value=Signal::derive(move || {
                workspace
                    .design
                    .with(|d| size(d.bar.section))
                    .map(|(_, length)| show_length(length, system.get()))
                    .unwrap_or_default()
            })
            unit=Signal::derive(move || unit_word(system.get()).to_owned())
            read=move |text: String| {
                let length = parse_length(&text, system.get_untracked()).map_err(|e| e.to_string())?;
                show_bar(
                    workspace,
                    &format!("bar {name}"),
                    |bar| bar.section = sized(bar.section, index, length),
                );
                Ok(())
            }
        />
    }
}

/// A row with one field.
#[component]
fn Field(
    /// Id of the field.
    #[prop(into)]
    id: String,
    /// Its label.
    #[prop(into)]
    label: String,
    /// Its value as shown.
    value: Signal<String>,
    /// Its unit.
    unit: Signal<String>,
    /// Reads a text.
    #[prop(into)]
    read: Callback<String, Result<(), String>>,
) -> impl IntoView {
    let workspace = Workspace::here();
    view! {
        <div class="row">
            <div class="row-line">
                <label for=id.clone()>{label.clone()}</label>
                <Entry
                    label=label
                    value=value
                    unit=unit
                    read=read
                    keep=move |()| workspace.keep()
                    put_back=move |()| workspace.put_back()
                    id=id
                />
            </div>
        </div>
    }
}
