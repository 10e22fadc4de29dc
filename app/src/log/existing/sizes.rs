//! What the caliper says: a field for every size that the shape has.

use leptos::prelude::*;

use super::super::super::entry::Entry;
use super::super::super::state::Workspace;
use super::super::super::terms::{Said, Subject, Word};
use super::super::super::words;
use super::Measuring;
use super::answer::Answer;
use headwright::design::{Design, DesignError, Dim, Part, bounds};
use headwright::units::{Measure, System};

/// The fields, part by part.
#[component]
pub fn Sizes() -> impl IntoView {
    let workspace = Workspace::here();
    let Measuring { draft, .. } = Measuring::here();
    let shape = Memo::new(move |_| {
        workspace
            .design
            .with(|sheet| draft.value.with(|draft| draft.shape(sheet)))
    });
    // Fields stay when only the numbers of the shape are others.
    let parts = Memo::new(move |_| {
        shape.with(|shape| {
            let parts = words::groups(shape).into_iter();
            let parts = parts.map(|part| {
                let sizes = words::sizes_of(shape, part).into_iter();
                let sizes = sizes.map(|dim| (dim, words::label(shape, dim)));
                (part, words::heading_of(shape, part), sizes.collect())
            });
            parts.collect::<Vec<(Part, &'static str, Vec<(Dim, String)>)>>()
        })
    });
    let open = RwSignal::new(None::<Dim>);
    let strangers = move || {
        let others = shape.with(|shape| draft.value.with(|draft| draft.strangers(shape)));
        let names: Vec<String> = others.into_iter().map(Dim::words).collect();
        (!names.is_empty()).then(|| {
            format!(
                "This shape has none of these sizes, which were typed for another and wait for it: {}.",
                names.join(", ")
            )
        })
    };
    view! {
        <section class="workshop" aria-labelledby="measured-sizes">
            <h2 id="measured-sizes">"what the caliper says"</h2>
            <p class="soft">
                "Cold, and as many as you can reach. In pale figures stands what a size is taken for that you leave out. A name with dots says where to measure. Front and back count apart: they are forged apart."
            </p>
            <p class="log-note" hidden=move || strangers().is_none()>{strangers}</p>
            <div class="field-columns">
                <For each=move || parts.get() key=Clone::clone let:part>
                    <div class="rows" role="group" aria-label=part.1>
                        <h3>{part.1}</h3>
                        {part
                            .2
                            .into_iter()
                            .map(|(dim, label)| view! { <Size dim=dim label=label shape=shape open=open /> })
                            .collect_view()}
                    </div>
                </For>
            </div>
        </section>
    }
}

/// A size.
#[component]
fn Size(
    /// Which.
    dim: Dim,
    /// What the list calls it.
    label: String,
    /// The head that has the shape.
    shape: Memo<Design>,
    /// The size that is explained.
    open: RwSignal<Option<Dim>>,
) -> impl IntoView {
    let system = Workspace::here().system;
    let Measuring { draft, answer } = Measuring::here();
    let value = move || {
        let size = draft.value.with(|draft| draft.size(dim));
        size.map(|size| size.show(system.get())).unwrap_or_default()
    };
    let taken = Memo::new(move |_| {
        let taken = answer.with(|answer| match answer {
            Answer::Is(existing) => existing.design.size(dim),
            _ => None,
        });
        let taken = taken.or_else(|| shape.with(|shape| shape.size(dim)));
        taken
            .map(|size| size.show(system.get()))
            .unwrap_or_default()
    });
    let read = move |text: String| {
        let size = if text.trim().is_empty() {
            None
        } else {
            let as_drawn = shape.with_untracked(|shape| shape.size(dim));
            Some(read_size(dim, as_drawn, &text, system.get_untracked())?)
        };
        draft.show(|draft| draft.set(dim, size));
        Ok(())
    };
    let is_open = Signal::derive(move || open.get() == Some(dim));
    let press = move || open.update(|open| *open = (*open != Some(dim)).then_some(dim));
    // “across flats” of a face whose size is called its width.
    let across = (!label.ends_with(dim.size.words())).then(|| format!(", {label}"));
    let opens = format!("measured-{dim}-means");
    let said = opens.clone();
    view! {
        <div class="row">
            <div class="row-line">
                <span>
                    <Word subject=Subject::Size(dim) is_open=is_open opens=opens press=press />
                    {across}
                </span>
                <Entry
                    label=format!("{}, measured", dim.words())
                    value=Signal::derive(value)
                    unit=Signal::derive(move || words::unit_of(dim, system.get()).to_owned())
                    placeholder=Signal::derive(move || taken.get())
                    read=read
                    keep=move |()| draft.keep()
                    put_back=move |()| draft.put_back()
                    id=format!("measured-{dim}")
                />
            </div>
            {move || is_open.get().then(|| view! { <Said subject=Subject::Size(dim) id=said.clone() /> })}
        </div>
    }
}

/// A size as it was typed, inside its bounds.
fn read_size(
    dim: Dim,
    as_drawn: Option<Measure>,
    text: &str,
    system: System,
) -> Result<Measure, String> {
    let as_drawn = as_drawn.ok_or("This shape has no such size.")?;
    let size = as_drawn
        .parse(text, system)
        .map_err(|error| error.to_string())?;
    let limits = bounds(dim);
    if limits.contain(size.number()) {
        return Ok(size);
    }
    let error = DesignError::OutOfBounds {
        dim,
        value: size,
        low: limits.low,
        high: limits.high,
    };
    Err(error.sentence(system))
}

#[cfg(test)]
mod tests {
    use super::*;
    use headwright::units::Length;

    #[test]
    fn a_size_is_read_in_either_notation_and_refused_with_its_limits() {
        let dim: Dim = "cheeks.width".parse().expect("a dimension");
        let drawn = Some(Length::mm(42.0).into());
        let read = |text| read_size(dim, drawn, text, System::Metric);
        assert_eq!(read("41,5"), Ok(Length::mm(41.5).into()));
        assert_eq!(read("1 5/8 in"), Ok(Length::inches(1.625).into()));
        let refused = read("900").expect_err("no cheeks are so wide");
        assert!(refused.contains("it must be between"), "{refused}");
        assert!(read("wide").is_err());
    }
}
