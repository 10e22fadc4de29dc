//! Pin, plumb line and balance point over the shaded head.

use leptos::prelude::*;

use super::stage::Stage;
use super::view::PLUMB;
use headwright::mass::PIN_HEIGHT;

/// The marks: drawn over the steel, since the balance point lies inside it.
#[component]
pub fn Marks(
    /// The stage.
    stage: Stage,
    /// Height of the balance point on the plumb line, mm.
    below: Signal<f64>,
    /// "held", "problem" or nothing: how the balance stands.
    standing: Signal<&'static str>,
) -> impl IntoView {
    let places = Memo::new(move |_| {
        let view = stage.view();
        let lowest = -stage.scene.with(|scene| scene.extent.half_height) - PLUMB + 4.0;
        [PIN_HEIGHT, below.get(), lowest].map(|z| view.on_plumb_line(z).map(to_tenths))
    });
    let line = move || {
        let [[x, top], _, [_, bottom]] = places.get();
        format!("M{x} {top}V{bottom}")
    };
    let bob = move || {
        let [[_, top], _, [x, bottom]] = places.get();
        // Looked at from below the line ends above the pin.
        let way = if bottom < top { -1.0 } else { 1.0 };
        format!("translate({x} {bottom}) scale(1 {way})")
    };
    let frame = move || {
        let [width, height] = stage.size.get();
        format!("0 0 {} {}", width.max(1.0), height.max(1.0))
    };
    view! {
        <svg
            class=move || format!("hanging picture-marks {}", standing.get())
            viewBox=frame
            aria-hidden="true"
            focusable="false"
        >
            <path class="plumb-halo" d=line />
            <path class="plumb" d=line />
            <path class="bob" d="M-4.5 0h9L0 10z" transform=bob />
            <circle class="pin" cx=move || places.get()[0][0] cy=move || places.get()[0][1] r="3" />
            <circle class="point" cx=move || places.get()[1][0] cy=move || places.get()[1][1] r="5" />
        </svg>
    }
}

fn to_tenths(pixels: f64) -> f64 {
    (10.0 * pixels).round() / 10.0
}
