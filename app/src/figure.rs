//! What figures have in common: arrows and lengths.

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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_arrow_is_ten_long_and_five_wide() {
        assert_eq!(arrow(20.0, 0.0, 1.0, 0.0), "M20 0L10 2.5L10 -2.5Z");
    }
}
