//! What figures have in common: paths, arrows and lengths.

use leptos::prelude::*;

use super::quantity::split;
use headwright::units::{Length, System, show_length};

/// A closed arrow, 10 by 5 px, its tip at (x, y), pointing along (dx, dy).
pub fn arrow(x: f64, y: f64, dx: f64, dy: f64) -> String {
    let (bx, by) = (x - 10.0 * dx, y - 10.0 * dy);
    let (nx, ny) = (-2.5 * dy, 2.5 * dx);
    format!("M{x} {y}L{} {}L{} {}Z", bx + nx, by + ny, bx - nx, by - ny)
}

/// A length as SVG text, its fraction raised and lowered.
pub fn fraction(mm: f64, system: System) -> impl IntoView + use<> {
    let text = show_length(Length::mm((mm * 10.0).round() / 10.0), system);
    let (whole, fraction) = split(&text);
    let parts = fraction.map(|(above, below)| {
        view! {
            <tspan class="above" dx="3" dy="-5">{above.to_owned()}</tspan>
            <tspan dy="5">"/"</tspan>
            <tspan class="below" dy="2">{below.to_owned()}</tspan>
        }
    });
    view! {
        {whole.to_owned()}
        {parts}
    }
}

/// A path through `points`; a closed one ends where it began.
pub fn path(points: impl IntoIterator<Item = [f64; 2]>, closed: bool) -> String {
    let mut path = String::new();
    for (index, [x, y]) in points.into_iter().enumerate() {
        let letter = if index == 0 { 'M' } else { 'L' };
        path.push_str(&format!("{letter}{x:.2} {y:.2}"));
    }
    if closed && !path.is_empty() {
        path.push('Z');
    }
    path
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_closed_path_ends_where_it_began() {
        let points = [[0.0, 1.0], [2.5, -3.0]];
        assert_eq!(path(points, true), "M0.00 1.00L2.50 -3.00Z");
        assert_eq!(path(points, false), "M0.00 1.00L2.50 -3.00");
        assert_eq!(path([], true), "");
    }

    #[test]
    fn an_arrow_is_ten_long_and_five_wide() {
        assert_eq!(arrow(20.0, 0.0, 1.0, 0.0), "M20 0L10 2.5L10 -2.5Z");
    }
}
