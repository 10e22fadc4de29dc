//! Lines of size.

use super::super::figure::{arrow, fraction};
use headwright::units::System;
use leptos::prelude::*;

/// A size along the sheet: its line at `y`, its extension lines from where they begin at its ends.
///
pub fn size_along(
    [from, to]: [f64; 2],
    begins: [f64; 2],
    y: f64,
    mm: f64,
    system: System,
) -> impl IntoView + use<> {
    let way = |begin: f64| if begin < y { 6.0 } else { -6.0 };
    let [a, b] = begins.map(|begin| (begin + 0.5 * way(begin), y + way(begin)));
    let lines = format!(
        "M{from:.1} {:.1}V{:.1}M{to:.1} {:.1}V{:.1}M{from:.1} {y:.1}H{to:.1}",
        a.0, a.1, b.0, b.1
    );
    view! {
        <path class="dim" d=lines />
        <path class="arrow" d=arrow(from, y, -1.0, 0.0) />
        <path class="arrow" d=arrow(to, y, 1.0, 0.0) />
        <text class="size" x=0.5 * (from + to) y=y - 7.0 text-anchor="middle">
            {fraction(mm, system)}
        </text>
    }
}
