//! The analysis of the very bar.

use leptos::prelude::*;

use super::super::state::Workspace;
use super::super::words;
use super::apply;
use super::row::{About, HeatRow};
use headwright::heat::{Composition, Element, Heat, HeatError};
use headwright::units::show_number;

/// The middle of the grade's range, to thousandths: what an analysis begins with.
fn begin(heat: &Heat) -> Composition {
    let middle = heat.steel.grade.practice().span.value.middle();
    Element::ALL
        .into_iter()
        .fold(Composition::NOTHING, |all, element| {
            let percent = middle.percent(element);
            all.with(element, (percent * 1e3).round() / 1e3)
        })
}

/// The field of an element.
fn row(element: Element) -> impl IntoView {
    view! {
        <HeatRow
            id=format!("analysis-{}", element.symbol())
            label=format!("{}, {}", element.name(), element.symbol())
            of="analysis"
            unit=Signal::derive(|| "%".to_owned())
            get=move |heat: Heat| {
                let analysis = heat.steel.analysis.unwrap_or_default();
                show_number(analysis.percent(element))
            }
            read=move |(mut heat, text): (Heat, String)| {
                let percent = words::plain_number(&text)?;
                let analysis = heat.steel.analysis.unwrap_or_default();
                heat.steel.analysis = Some(analysis.with(element, percent));
                Ok(heat)
            }
            concerns=move |error: HeatError| match error {
                HeatError::Percent { element: of, .. } => of == element,
                HeatError::Carbon { .. } => element == Element::C,
                _ => false,
            }
        />
    }
}

/// The fields of an analysis, where there is one.
#[component]
pub fn Fields() -> impl IntoView {
    let workspace = Workspace::here();
    let own = Memo::new(move |_| workspace.design.with(|d| d.heat.steel.analysis.is_some()));
    let type_in = move |_| {
        apply(workspace, |heat| heat.steel.analysis = Some(begin(heat)));
    };
    let leave = move |_| apply(workspace, |heat| heat.steel.analysis = None);
    view! {
        <div class="rows" role="group" aria-label="composition">
            <h3>"composition"</h3>
            <Show
                when=move || own.get()
                fallback=move || {
                    view! {
                        <p class="soft">
                            "The grade’s whole range is reckoned with. With the mill’s certificate of your bar the bands get narrower."
                        </p>
                        <button type="button" class="plain" on:click=type_in>
                            "type in the bar’s analysis"
                        </button>
                    }
                }
            >
                {Element::ALL.map(row).collect_view()}
                <About id="analysis-about" concerns=|error: HeatError| matches!(error, HeatError::Sum { .. } | HeatError::Alloy { .. }) />
                <button type="button" class="plain" on:click=leave>
                    "use the grade’s range again"
                </button>
            </Show>
        </div>
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::heat::steel::forged_from;
    use headwright::heat::Grade;

    #[test]
    fn an_analysis_begins_in_the_middle_of_its_grade() {
        for grade in Grade::ALL {
            let begun = begin(&forged_from(grade));
            let span = grade.practice().span.value;
            assert_eq!(span.outside(&begun).count(), 0, "{}", grade.name());
        }
        let carbon = begin(&forged_from(Grade::C1045)).percent(Element::C);
        assert_eq!(carbon, 0.465);
    }
}
