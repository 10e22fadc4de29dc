//! The table of what hammers differ in.

use leptos::prelude::*;

use super::sweep::Swatch;
use headwright::compare::{Figure, Measured};
use headwright::units::System;

/// A hammer that is compared.
pub struct Column {
    /// Its name.
    pub name: String,
    /// Its numbers.
    pub measured: Measured,
}

/// The numbers without their unit where all have the same one; a dash where there is none.
fn with_one_unit(shown: Vec<Option<String>>) -> (Vec<String>, Option<String>) {
    let dash = |text: Option<String>| text.unwrap_or_else(|| "–".to_owned());
    let unit = |text: &String| {
        let at = text.find(char::is_alphabetic)?;
        let unit = &text[at..];
        // Pounds with ounces are two units.
        (!unit.contains(|c: char| c.is_ascii_digit())).then(|| unit.to_owned())
    };
    let mut units = shown.iter().flatten().map(unit);
    let first = units.next().flatten();
    let Some(word) = first.filter(|first| units.all(|unit| unit.as_ref() == Some(first))) else {
        return (shown.into_iter().map(dash).collect(), None);
    };
    let bare = |text: String| text.trim_end_matches(word.as_str()).trim_end().to_owned();
    let texts = shown.into_iter().map(|text| dash(text.map(bare)));
    (texts.collect(), Some(word))
}

/// Every figure, a column to a hammer; what differs from the first is bold.
pub fn differences(
    columns: &[Column],
    label: &'static str,
    system: System,
) -> impl IntoView + use<> {
    let heads = columns.iter().enumerate().map(|(place, column)| {
        view! {
            <th scope="col"><Swatch place=place /> {column.name.clone()}</th>
        }
    });
    let heads = heads.collect_view();
    let rows = Figure::ALL.map(|figure| {
        let first = columns.first().map(|column| column.measured.get(figure));
        let shown = columns.iter().map(|column| {
            let number = column.measured.get(figure);
            number.is_finite().then(|| figure.show(number, system))
        });
        let (texts, unit) = with_one_unit(shown.collect());
        let cells = columns.iter().zip(texts).map(|(column, text)| {
            let number = column.measured.get(figure);
            let differs = first.is_some_and(|first| figure.change(first, number).is_some());
            view! { <td class:differs=differs>{text}</td> }
        });
        let cells = cells.collect_view();
        view! {
            <tr>
                <th scope="row">
                    {figure.words()}
                    {unit.map(|unit| view! { <small>{unit}</small> })}
                </th>
                {cells}
            </tr>
        }
    });
    view! {
        <div class="sideways" role="region" tabindex="0" aria-label=format!("{label}, table")>
            <table class="lines differences" aria-label=label>
                <thead>
                    <tr>
                        <th scope="col">"what"</th>
                        {heads}
                    </tr>
                </thead>
                <tbody>{rows.into_iter().collect_view()}</tbody>
            </table>
        </div>
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check_one_unit(shown: &[&str], texts: &[&str], unit: Option<&str>) {
        let shown = shown.iter().map(|text| Some((*text).to_owned()));
        let (got, word) = with_one_unit(shown.collect());
        assert_eq!(got, texts);
        assert_eq!(word.as_deref(), unit);
    }

    #[test]
    fn a_unit_is_said_once_where_all_have_it() {
        check_one_unit(
            &["5.9 rad/s per N·s", "3.5 rad/s per N·s"],
            &["5.9", "3.5"],
            Some("rad/s per N·s"),
        );
        check_one_unit(&["2 1/16 in", "3 in"], &["2 1/16", "3"], Some("in"));
        check_one_unit(&["850 g", "1.198 kg"], &["850 g", "1.198 kg"], None);
        check_one_unit(
            &["2 lb 8.0 oz", "3 lb 1.0 oz"],
            &["2 lb 8.0 oz", "3 lb 1.0 oz"],
            None,
        );
        check_one_unit(&["12°", "10°"], &["12°", "10°"], None);
        assert_eq!(
            with_one_unit(vec![None, Some("3 mm".to_owned())]),
            (vec!["–".to_owned(), "3".to_owned()], Some("mm".to_owned()))
        );
    }
}
