//! The bars that lie in the workshop, the one that asks for least forging first.

use leptos::prelude::*;

use super::super::state::Workspace;
use super::super::words;
use super::super::workshop::Workshop;
use super::reckoned::Reckoned;
use super::show_bar;
use headwright::bar::{BarSection, MOST_BARS, OnHand};
use headwright::plan::{BarFit, LEFT_ALONE, least_forging};
use headwright::units::System;

/// What a head from a bar asks of the hammer, in words.
fn asks(fit: &BarFit, system: System) -> String {
    let cut = words::length(fit.cut_length_mm, system);
    if fit.greatest_ratio > 1.0 + LEFT_ALONE {
        format!("cut {cut}, upset {:.2}", fit.greatest_ratio)
    } else {
        format!("cut {cut}, drawn only")
    }
}

/// The list: a press takes another bar.
#[component]
pub fn BarsOnHand() -> impl IntoView {
    let workspace = Workspace::here();
    let bars = Workshop::here().bars;
    let causes = Reckoned::here().causes;
    let chosen = Memo::new(move |_| workspace.design.with(|design| design.bar.section));
    let fits = Memo::new(move |_| {
        let (bar, density) = (workspace.bar(), workspace.design.with(|d| d.density));
        workspace.sound.with(|solid| {
            causes.with(|causes| {
                let bars = bars.value.get().0.into_iter();
                let sound: Vec<BarSection> = bars.filter(|bar| bar.check().is_empty()).collect();
                least_forging(solid, causes, density, &bar, &sound).unwrap_or_default()
            })
        })
    });
    let take = move |section: BarSection| {
        show_bar(workspace, "bar section", |bar| bar.section = section);
        workspace.keep();
    };
    let remove = move |section: BarSection| {
        let name = words::bar_section(section, workspace.system.get());
        view! {
            <button
                class="plain"
                aria-label=format!("take {name} off the list")
                on:click=move |_| bars.apply(|OnHand(bars)| bars.retain(|bar| *bar != section))
            >
                "remove"
            </button>
        }
    };
    let row = move |fit: BarFit| {
        let system = workspace.system.get();
        let section = fit.section;
        let name = words::bar_section(section, system);
        let here = chosen.get() == section;
        let share = format!("{:.0} % of the head is moved", 100.0 * fit.share);
        view! {
            <li class:here=here>
                <button
                    class="bar-choice"
                    aria-pressed=if here { "true" } else { "false" }
                    on:click=move |_| take(section)
                >
                    <span class="name">{name}</span>
                    <span class="asks">{asks(&fit, system)} <small>{share}</small></span>
                </button>
                {remove(section)}
            </li>
        }
    };
    // A kept bar that is out of bounds is left out of the reckoning, and says why.
    let refused = move || {
        let bars = bars.value.get().0.into_iter();
        let wrong = bars.filter_map(|section| Some((section, section.check().into_iter().next()?)));
        wrong
            .map(|(section, error)| {
                view! {
                    <li>
                        <p class="sentence problem">{error.to_string()}</p>
                        {remove(section)}
                    </li>
                }
            })
            .collect_view()
    };
    let can_be_put = move || {
        let section = chosen.get();
        section.check().is_empty()
            && bars
                .value
                .with(|OnHand(bars)| bars.len() < MOST_BARS && !bars.contains(&section))
    };
    view! {
        <section class="on-hand" aria-labelledby="on-hand">
            <h2 id="on-hand">"bars on hand"</h2>
            <ul>{move || fits.get().into_iter().map(row).collect_view()} {refused}</ul>
            {move || {
                bars.value.with(|OnHand(bars)| bars.is_empty())
                    .then(|| {
                        view! {
                            <p class="soft small">
                                "Put the bars you have on this list, and see which asks for the least forging. It is kept in this browser."
                            </p>
                        }
                    })
            }}
            {move || {
                can_be_put()
                    .then(|| {
                        let name = words::bar_section(chosen.get(), workspace.system.get());
                        view! {
                            <button
                                class="plain"
                                on:click=move |_| bars.apply(|OnHand(bars)| bars.push(chosen.get_untracked()))
                            >
                                {format!("put {name} on the list")}
                            </button>
                        }
                    })
            }}
        </section>
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use headwright::units::Length;

    #[test]
    fn what_a_bar_asks_is_said_by_its_greatest_upset() {
        let fit = |greatest_ratio| BarFit {
            section: BarSection::square(Length::mm(40.0)),
            cut_length_mm: 105.0,
            moved_mm3: 1000.0,
            share: 0.1,
            greatest_ratio,
        };
        assert_eq!(asks(&fit(1.45), System::Metric), "cut 105 mm, upset 1.45");
        assert_eq!(asks(&fit(1.02), System::Metric), "cut 105 mm, drawn only");
    }
}
