//! Tables of numbers with what each means.

use leptos::prelude::*;

use headwright::swing::Line;

/// A number to a row: its name, what it means, its value.
pub fn table(heading: &'static str, lines: Vec<Line>) -> impl IntoView {
    let rows = lines.into_iter().map(|line| {
        view! {
            <tr>
                <th scope="row">
                    {line.name}
                    <small>{line.meaning}</small>
                </th>
                <td>{line.value}</td>
            </tr>
        }
    });
    view! {
        <table class="lines meant" aria-label=heading>
            <thead>
                <tr>
                    <th scope="col">{heading}</th>
                    <th scope="col"><span class="aloud">"value"</span></th>
                </tr>
            </thead>
            <tbody>{rows.collect_view()}</tbody>
        </table>
    }
}
