//! The bar to scale: side view of the cut, and its section.

use leptos::prelude::*;

use super::super::quantity::split;
use super::super::state::Workspace;
use headwright::bar::BarSection;
use headwright::units::{Length, System, show_length};

/// The picture's frame, px.
const WIDTH: f64 = 640.0;
const HEIGHT: f64 = 270.0;
/// Room for the dimension lines: below, and at either side.
const BELOW: f64 = 84.0;
const BESIDE: f64 = 12.0;
/// Between side view and section, px.
const GAP: f64 = 64.0;

/// Width and height of a section, mm. A hexagon lies with its flats at the sides; what is known by its area alone is
/// drawn as a square.
fn size(section: BarSection) -> (f64, f64) {
    match section {
        BarSection::Round { diameter } => (diameter.in_mm(), diameter.in_mm()),
        BarSection::Square { across, .. } => (across.in_mm(), across.in_mm()),
        BarSection::Rectangular { width, height, .. } => (width.in_mm(), height.in_mm()),
        BarSection::Octagonal { across_flats } => (across_flats.in_mm(), across_flats.in_mm()),
        BarSection::Hexagonal { across_flats } => {
            (across_flats.in_mm(), across_flats.in_mm() / HEXAGON_FLAT)
        }
        BarSection::OfArea { area_mm2 } => (area_mm2.sqrt(), area_mm2.sqrt()),
    }
}

/// What a corner of a regular octagon takes of its width across flats.
const OCTAGON_CORNER: f64 = 1.0 - std::f64::consts::FRAC_1_SQRT_2;
/// A regular hexagon's width across flats over that across corners, √3/2.
const HEXAGON_FLAT: f64 = 0.866_025_403_784_438_6;

/// Outline of the section in a box of `w` by `h` px whose upper left corner is (`x`, `y`).
fn outline(section: BarSection, x: f64, y: f64, w: f64, h: f64) -> String {
    match section {
        BarSection::Round { .. } => {
            let r = 0.5 * w;
            format!(
                "M{x} {cy}a{r} {r} 0 1 1 {w} 0a{r} {r} 0 1 1 -{w} 0z",
                cy = y + r
            )
        }
        BarSection::Octagonal { .. } => {
            let (c, m) = (w * OCTAGON_CORNER, w * (1.0 - 2.0 * OCTAGON_CORNER));
            format!(
                "M{} {y}h{m}l{c} {c}v{m}l-{c} {c}h-{m}l-{c} -{c}v-{m}z",
                x + c
            )
        }
        BarSection::Hexagonal { .. } => {
            let (half, quarter) = (0.5 * w, 0.25 * h);
            let side = 0.5 * h;
            format!(
                "M{} {y}l{half} {quarter}v{side}l-{half} {quarter}l-{half} -{quarter}v-{side}z",
                x + half
            )
        }
        BarSection::Square { .. } | BarSection::Rectangular { .. } | BarSection::OfArea { .. } => {
            let (across, _) = size(section);
            let r = section
                .corner_radius()
                .map_or(0.0, |r| r.in_mm() / across * w);
            if r <= 0.0 {
                return format!("M{x} {y}h{w}v{h}h-{w}z");
            }
            let (m, n) = (w - 2.0 * r, h - 2.0 * r);
            format!(
                "M{} {y}h{m}a{r} {r} 0 0 1 {r} {r}v{n}a{r} {r} 0 0 1 -{r} {r}h-{m}a{r} {r} 0 0 1 -{r} -{r}v-{n}a{r} {r} 0 0 1 {r} -{r}z",
                x + r
            )
        }
    }
}

/// Edges that are seen on the side of the bar, as shares of its height.
fn edges(section: BarSection) -> &'static [f64] {
    match section {
        BarSection::Octagonal { .. } => &[OCTAGON_CORNER, 1.0 - OCTAGON_CORNER],
        BarSection::Hexagonal { .. } => &[0.25, 0.75],
        _ => &[],
    }
}

/// The bar.
#[component]
pub fn BarPicture() -> impl IntoView {
    let workspace = Workspace::here();
    move || {
        let system = workspace.system.get();
        let billet = workspace.billet.get().ok()?;
        let section = workspace.design.with(|d| d.bar.section);
        let (across, high) = size(section);
        let long = billet.cut_length_mm;
        let scale =
            ((WIDTH - GAP - 2.0 * BESIDE) / (long + across)).min((HEIGHT - BELOW - 8.0) / high);
        let (l, w, h) = (long * scale, across * scale, high * scale);
        let top = HEIGHT - BELOW - h;
        let left = BESIDE;
        let right = left + l + GAP;
        let label = format!(
            "The cut to scale: {} long, {section} bar",
            super::words::length(long, system)
        );
        let sides = edges(section)
            .iter()
            .map(|share| {
                let y = top + share * h;
                view! { <line class="bar-edge" x1=left x2=left + l y1=y y2=y /> }
            })
            .collect_view();
        let round = matches!(section, BarSection::Round { .. }).then(|| {
            let y = top + 0.5 * h;
            view! { <line class="bar-axis" x1=left - 8.0 x2=left + l + 8.0 y1=y y2=y /> }
        });
        let height = matches!(section, BarSection::Rectangular { .. }).then(|| {
            let x = right + w + 20.0;
            let y = top + 0.5 * h;
            view! {
                <path class="dim" d=format!("M{} {top}h14M{} {}h14M{x} {top}v{h}", x - 8.0, x - 8.0, top + h) />
                <path class="arrow" d=arrow(x, top, 0.0, -1.0) />
                <path class="arrow" d=arrow(x, top + h, 0.0, 1.0) />
                <text class="size" x=x + 8.0 y=y + 6.0>{fraction(high, system)}</text>
            }
        });
        Some(view! {
            <figure class="bar-picture">
                <svg viewBox=format!("0 0 {} {HEIGHT}", (right + w + 80.0).max(WIDTH)) role="img" aria-label=label>
                    <rect class="bar-body" x=left y=top width=l height=h />
                    {sides}
                    {round}
                    <path class="bar-section" d=outline(section, right, top, w, h) />
                    {across_dim(left, left + l, top + h, long, system)}
                    {(!matches!(section, BarSection::OfArea { .. }))
                        .then(|| across_dim(right, right + w, top + h, across, system))}
                    {height}
                </svg>
            </figure>
        })
    }
}

/// A size across, below the picture.
fn across_dim(from: f64, to: f64, below: f64, mm: f64, system: System) -> impl IntoView {
    let y = below + 54.0;
    let lines = format!(
        "M{from} {b}V{e}M{to} {b}V{e}M{from} {y}H{to}",
        b = below + 3.0,
        e = y + 6.0
    );
    view! {
        <path class="dim" d=lines />
        <path class="arrow" d=arrow(from, y, -1.0, 0.0) />
        <path class="arrow" d=arrow(to, y, 1.0, 0.0) />
        <text class="size" x=0.5 * (from + to) y=y - 6.0 text-anchor="middle">
            {fraction(mm, system)}
        </text>
    }
}

/// A closed arrow, 10 by 5 px, its tip at (x, y), pointing along (dx, dy).
fn arrow(x: f64, y: f64, dx: f64, dy: f64) -> String {
    let (bx, by) = (x - 10.0 * dx, y - 10.0 * dy);
    let (nx, ny) = (-2.5 * dy, 2.5 * dx);
    format!("M{x} {y}L{} {}L{} {}Z", bx + nx, by + ny, bx - nx, by - ny)
}

/// A length as SVG text, its fraction raised and lowered.
fn fraction(mm: f64, system: System) -> impl IntoView {
    let text = show_length(Length::mm(mm), system);
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
    fn the_octagon_drawn_has_eight_equal_sides() {
        let side = 1.0 - 2.0 * OCTAGON_CORNER;
        let slant = OCTAGON_CORNER * std::f64::consts::SQRT_2;
        assert!((side - slant).abs() < 1e-12);
    }

    #[test]
    fn an_arrow_is_ten_long_and_five_wide() {
        assert_eq!(arrow(20.0, 0.0, 1.0, 0.0), "M20 0L10 2.5L10 -2.5Z");
    }
}
