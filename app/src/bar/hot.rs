//! At forging heat: what the caliper must read.

use leptos::prelude::*;

use super::super::field::Field;
use super::super::quantity::Number;
use super::super::state::Workspace;
use super::super::terms::{Term, Words};
use super::super::words;
use super::super::workshop::Workshop;
use headwright::design::{Design, Dim, Part, Size};
use headwright::plan::{
    GROWTH_SOURCE, GROWTH_UNCERTAINTY, HOT_CELSIUS, HotSize, HotSizes, hot_sizes,
};
use headwright::units::{
    MM_PER_INCH, System, parse_temperature, show_length, show_number, show_temperature,
    temperature_unit_word, unit_word,
};

/// Reads a heat, °C: a bare number is in the units that are shown.
///
/// # Errors
/// A sentence when the text is no heat, or one that the growth of steel is not known for.
fn read(text: &str, system: System) -> Result<f64, String> {
    let celsius = parse_temperature(text, system).map_err(|error| error.to_string())?;
    check(celsius, system).map(|()| celsius)
}

/// Whether the growth is known.
fn check(celsius: f64, system: System) -> Result<(), String> {
    if HOT_CELSIUS.admits(celsius) {
        return Ok(());
    }
    let [now, least, most] = [celsius, HOT_CELSIUS.least, HOT_CELSIUS.most]
        .map(|celsius| show_temperature(celsius, system));
    Err(format!(
        "The growth of steel at {now} is not known. It must be at least {least} and at most {most}."
    ))
}

/// Whether a size is measured while forging; what is ground and filed cold is not.
fn measured(dim: Dim) -> bool {
    match dim.size {
        Size::Length | Size::Width | Size::Height | Size::Reach | Size::Land | Size::At => true,
        Size::Diameter | Size::Neck => true,
        Size::Edge => matches!(dim.part, Part::Pein(_)),
        _ => false,
    }
}

/// The sizes under one heading.
type Group = (Part, Vec<HotSize>);

/// Under each heading what is measured while forging, then under each the rest.
fn grouped(design: &Design, hot: &HotSizes) -> [Vec<Group>; 2] {
    [true, false].map(|asked| {
        let group = |part: Part| {
            let here = |size: &&HotSize| {
                words::group(size.dim.part) == part && measured(size.dim) == asked
            };
            let sizes: Vec<HotSize> = hot.sizes.iter().filter(here).copied().collect();
            (!sizes.is_empty()).then_some((part, sizes))
        };
        words::groups(design)
            .into_iter()
            .filter_map(group)
            .collect()
    })
}

/// Field and tables.
#[component]
pub fn Hot() -> impl IntoView {
    let workspace = Workspace::here();
    let heat = Workshop::here().celsius;
    let system = workspace.system;
    let tables = move || {
        let system = system.get();
        let celsius = heat.value.get();
        if let Err(sentence) = check(celsius, system) {
            return view! { <p class="sentence problem">{sentence}</p> }.into_any();
        }
        workspace.design.with(|design| {
            let Ok(hot) = hot_sizes(design, celsius) else {
                return ().into_any();
            };
            let [measured, others] = grouped(design, &hot);
            let tables = |groups: Vec<Group>| {
                groups
                    .into_iter()
                    .map(|(part, sizes)| table(design, part, &sizes, system))
                    .collect_view()
            };
            view! {
                <div class="hot-tables">{tables(measured)}</div>
                <details>
                    <summary>"all sizes"</summary>
                    <div class="hot-tables">{tables(others)}</div>
                </details>
                <p class="soft small">
                    {format!(
                        "Everything is {} % longer, give or take a {} of that{}. {GROWTH_SOURCE}.",
                        show_number((hot.growth * 1e4).round() / 1e2),
                        share(hot.uncertainty),
                        if hot.uncertainty > GROWTH_UNCERTAINTY {
                            ", because steel shrinks about there on its way to austenite"
                        } else {
                            ""
                        },
                    )}
                </p>
            }
            .into_any()
        })
    };
    view! {
        <section class="hot workshop" aria-labelledby="at-heat">
            <h2 id="at-heat">"at forging heat"</h2>
            <Words id="hot-words" terms=&[Term::HotSize] />
            <div class="rows">
                <Field
                    id="heat"
                    label="heat at which you measure"
                    of="workshop"
                    value=Signal::derive(move || words::temperature(heat.value.get(), system.get()))
                    unit=Signal::derive(move || temperature_unit_word(system.get()).to_owned())
                    read=move |text: String| {
                        let celsius = read(&text, system.get_untracked())?;
                        heat.show(|heat| *heat = celsius);
                        Ok(())
                    }
                    keep=move |()| heat.keep()
                    put_back=move |()| heat.put_back()
                />
            </div>
            {tables}
        </section>
    }
}

/// A share in words.
fn share(share: f64) -> String {
    if (share - 0.1).abs() < 1e-9 {
        "tenth".to_owned()
    } else if (share - 0.25).abs() < 1e-9 {
        "quarter".to_owned()
    } else {
        format!("share of {}", show_number(share))
    }
}

/// What a caliper reads: tenths of a millimetre, or thousandths of an inch.
fn caliper(mm: f64, system: System) -> String {
    match system {
        System::Metric => words::about_number(mm, system),
        System::Imperial => format!("{:.3}", mm / MM_PER_INCH),
    }
}

/// Cold and hot under one heading.
fn table(design: &Design, part: Part, sizes: &[HotSize], system: System) -> impl IntoView + use<> {
    let heading = words::heading_of(design, part);
    let rows = sizes.iter().map(|size| {
        view! {
            <tr>
                <th scope="row">{words::label(design, size.dim)}</th>
                <td class="soft"><Number text=show_length(size.cold, system) /></td>
                <td><Number text=caliper(size.hot.in_mm(), system) /></td>
            </tr>
        }
    });
    view! {
        <table class="lines" aria-label=format!("{heading}, cold and hot")>
            <thead>
                <tr>
                    <th scope="col">{heading}</th>
                    <th scope="col">{format!("cold, {}", unit_word(system))}</th>
                    <th scope="col">{format!("hot, {}", unit_word(system))}</th>
                </tr>
            </thead>
            <tbody>{rows.collect_view()}</tbody>
        </table>
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use headwright::design::{starter, starter_names};
    use headwright::plan::USUAL_HOT_CELSIUS;

    #[test]
    fn a_heat_is_read_in_the_units_that_are_shown_or_in_its_own() {
        assert_eq!(read("1050", System::Metric), Ok(1050.0));
        assert_eq!(read("1050 °C", System::Imperial), Ok(1050.0));
        assert_eq!(read("1922", System::Imperial), Ok(1050.0));
        assert_eq!(read("1922F", System::Metric), Ok(1050.0));
        assert_eq!(words::temperature(1050.0, System::Imperial), "1922");
        for text in ["", "hot", "NaN", "°", "C", "-5", "1e300", "5000", "900 K"] {
            assert!(read(text, System::Metric).is_err(), "{text}");
        }
    }

    #[test]
    fn a_heat_out_of_bounds_is_refused_in_the_units_it_was_written_in() {
        let sentence = read("4000", System::Imperial).expect_err("too hot");
        assert!(
            sentence.contains("4000 °F") && sentence.contains("2192 °F"),
            "{sentence}"
        );
    }

    #[test]
    fn a_hot_size_is_what_a_caliper_reads() {
        assert_eq!(caliper(42.62, System::Metric), "42.6");
        assert_eq!(caliper(42.62, System::Imperial), "1.678");
        assert_eq!(caliper(25.4, System::Imperial), "1.000");
    }

    #[test]
    fn every_length_stands_in_one_of_the_tables() {
        for name in starter_names() {
            let design = starter(name).expect("a starter");
            let hot = hot_sizes(&design, USUAL_HOT_CELSIUS).expect("a usual heat");
            let listed = grouped(&design, &hot)
                .map(|groups| groups.iter().map(|(_, sizes)| sizes.len()).sum::<usize>());
            assert_eq!(listed.iter().sum::<usize>(), hot.sizes.len(), "{name}");
            assert!(listed[0] > 0, "{name}");
        }
    }
}
