//! Numbers on the screen: fractions set as fractions, units smaller than the number.

use leptos::prelude::*;

use headwright::units::{System, show_mass_parts};

/// A number as shown, "2 1/16": its whole part, and the two numbers of its fraction.
pub fn split(number: &str) -> (&str, Option<(&str, &str)>) {
    let (whole, last) = number.rsplit_once(' ').unwrap_or(("", number));
    match last.split_once('/') {
        Some((above, below)) => match above.strip_prefix(['-', '−']) {
            Some(above) => ("−", Some((above, below))),
            None => (whole, Some((above, below))),
        },
        None => (number, None),
    }
}

/// A number without its unit; a minus is a minus, and a fraction is set as one.
#[component]
pub fn Number(
    /// The number as [`headwright::units::show_length`] writes it.
    #[prop(into)]
    text: Signal<String>,
) -> impl IntoView {
    view! { <span class="number">{move || text.with(|text| set(text))}</span> }
}

fn set(number: &str) -> impl IntoView + use<> {
    let (whole, fraction) = split(number);
    let whole = whole.replace('-', "−");
    let fraction = fraction.map(|(above, below)| {
        view! {
            <span class="fraction">
                <b class="above">{above.to_owned()}</b>
                "/"
                <b class="below">{below.to_owned()}</b>
            </span>
        }
    });
    let between = (fraction.is_some() && !whole.is_empty()).then_some("\u{2009}");
    (whole, between, fraction)
}

/// A mass, each unit smaller than its number.
#[component]
pub fn MassNumber(
    /// kg.
    #[prop(into)]
    kg: Signal<f64>,
    /// Units to show it in.
    #[prop(into)]
    system: Signal<System>,
) -> impl IntoView {
    let parts = Memo::new(move |_| show_mass_parts(kg.get(), system.get()));
    let units = Memo::new(move |_| {
        let parts = parts.read();
        parts.iter().map(|(_, unit)| *unit).collect::<Vec<_>>()
    });
    move || {
        let part = |(index, unit): (usize, &'static str)| {
            let number = move || parts.with(|all| all.get(index).map(|(number, _)| number.clone()));
            view! {
                <span class="part">
                    {number} <span class="unit">{format!(" {unit} ")}</span>
                </span>
            }
        };
        units.get().into_iter().enumerate().map(part).collect_view()
    }
}

#[cfg(test)]
mod tests {
    use super::split;

    #[test]
    fn a_fraction_is_told_from_its_whole() {
        assert_eq!(split("2 1/16"), ("2", Some(("1", "16"))));
        assert_eq!(split("1/2"), ("", Some(("1", "2"))));
        assert_eq!(split("-1/2"), ("−", Some(("1", "2"))));
        assert_eq!(split("−1/2"), ("−", Some(("1", "2"))));
        assert_eq!(split("−2 1/16"), ("−2", Some(("1", "16"))));
        assert_eq!(split("57.15"), ("57.15", None));
        assert_eq!(split("2 lb 8.0 oz"), ("2 lb 8.0 oz", None));
    }
}
