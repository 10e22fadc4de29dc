//! The bar's section, the rule it is cut to, and how sure the cut is to be.

use leptos::prelude::*;

use super::super::field::Field;
use super::super::pick::Pick;
use super::super::state::Workspace;
use super::super::terms::{Term, Words};
use super::super::words;
use super::show_bar;
use headwright::bar::{BarSection, CONFIDENCE};
use headwright::units::{Length, Rule, System, parse_length, show_length, show_number, unit_word};

const SHAPES: [&str; 6] = [
    "round",
    "square",
    "rectangular",
    "octagonal",
    "hexagonal",
    "by its area",
];

/// `section` in another shape, with its sizes as far as they go.
fn shaped(section: BarSection, shape: &str) -> BarSection {
    let sizes = section.sizes();
    let area_mm2 = section.area_mm2();
    // What is known by its area alone is as wide as a square of that area, to the millimetre.
    let like_square = || Length::mm(area_mm2.max(0.0).sqrt().round());
    let size = |index: usize| {
        let size = sizes.get(index).or(sizes.first());
        size.map_or_else(like_square, |(_, size)| *size)
    };
    let corner = section.corner_radius().unwrap_or(Length::mm(0.0));
    match shape {
        "round" => BarSection::round(size(0)),
        "rectangular" => BarSection::rectangular(size(0), size(1)).with_corner_radius(corner),
        "octagonal" => BarSection::Octagonal {
            across_flats: size(0),
        },
        "hexagonal" => BarSection::Hexagonal {
            across_flats: size(0),
        },
        "by its area" => BarSection::OfArea {
            area_mm2: area_mm2.round(),
        },
        _ => BarSection::square(size(0)).with_corner_radius(corner),
    }
}

/// `section` with its size number `index` changed.
fn sized(section: BarSection, index: usize, length: Length) -> BarSection {
    match section {
        BarSection::Round { .. } => BarSection::round(length),
        BarSection::Square { corner_radius, .. } => {
            BarSection::square(length).with_corner_radius(corner_radius)
        }
        BarSection::Octagonal { .. } => BarSection::Octagonal {
            across_flats: length,
        },
        BarSection::Hexagonal { .. } => BarSection::Hexagonal {
            across_flats: length,
        },
        BarSection::Rectangular {
            width,
            height,
            corner_radius,
        } => {
            let (width, height) = if index == 0 {
                (length, height)
            } else {
                (width, length)
            };
            BarSection::rectangular(width, height).with_corner_radius(corner_radius)
        }
        BarSection::OfArea { .. } => section,
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
            <Words id="bar-words" terms=&[Term::Rule, Term::Reserve] />
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
                <Show when=move || section.get().corner_radius().is_some()>
                    <Field
                        id="bar-corner"
                        label="corner radius, as rolled"
                        value=Signal::derive(move || {
                            let radius = section.get().corner_radius().unwrap_or(Length::mm(0.0));
                            show_length(radius, system.get())
                        })
                        unit=Signal::derive(move || unit_word(system.get()).to_owned())
                        read=move |text: String| {
                            let length = parse_length(&text, system.get_untracked())
                                .map_err(|e| e.to_string())?;
                            show_bar(
                                workspace,
                                "bar corners",
                                |bar| bar.section = bar.section.with_corner_radius(length),
                            );
                            Ok(())
                        }
                    />
                </Show>
                <Show when=move || matches!(section.get(), BarSection::OfArea { .. })>
                    <Field
                        id="bar-area"
                        label="area of the section"
                        value=Signal::derive(move || {
                            words::area_number(section.get().area_mm2(), system.get())
                        })
                        unit=Signal::derive(move || words::area_unit(system.get()).to_owned())
                        read=move |text: String| {
                            let number = words::plain_number(&text)?;
                            let area_mm2 = match system.get_untracked() {
                                System::Metric => number,
                                System::Imperial => number * words::MM2_PER_IN2,
                            };
                            show_bar(
                                workspace,
                                "bar section",
                                |bar| bar.section = BarSection::OfArea { area_mm2 },
                            );
                            Ok(())
                        }
                    />
                </Show>
                <Field
                    id="rule"
                    label="rule, the smallest division"
                    value=Signal::derive(move || {
                        show_length(workspace.rule().division(), system.get())
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
                        if !CONFIDENCE.admits(share) {
                            let [least, most] = [CONFIDENCE.least, CONFIDENCE.most]
                                .map(|share| show_number(100.0 * share));
                            return Err(format!(
                                "{} heads in a hundred cannot be planned for. Write at least {least}, as likely as not, and at most {most}.",
                                text.trim(),
                            ));
                        }
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_section_of_any_shape_becomes_any_other() {
        for from in SHAPES {
            let start = shaped(BarSection::square(Length::mm(45.0)), from);
            assert_eq!(start.shape(), from);
            for to in SHAPES {
                let other = shaped(start, to);
                assert_eq!(other.shape(), to);
                assert_eq!(other.check(), []);
            }
        }
        let rolled = BarSection::square(Length::mm(45.0)).with_corner_radius(Length::mm(3.0));
        assert_eq!(shaped(shaped(rolled, "rectangular"), "square"), rolled);
        assert_eq!(
            sized(rolled, 0, Length::mm(50.0)).corner_radius(),
            Some(Length::mm(3.0))
        );
    }
}
