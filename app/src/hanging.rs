//! The small picture of the head hanging from its handle: the plain side view.

use leptos::prelude::*;

use super::silhouette::Silhouette;
use super::stem;
use headwright::mass::{MassProperties, PIN_HEIGHT};
use headwright::solid::Solid;

/// Room around the head in the picture, mm.
const ROOM: f64 = 6.0;
/// Height of the handle's broken end above the pin, mm.
const BREAK: f64 = 16.0;

/// The head on a pin through the handle axis, [`PIN_HEIGHT`] above the middle of the eye, turned
/// about it by the hang angle; plumb line from the pin through the centroid.
///
/// The picture keeps its place while the head turns: its frame is that of the head hung straight.
#[component]
pub fn Hanging(
    /// The head.
    #[prop(into)]
    solid: Signal<Solid>,
    /// Its mass properties.
    #[prop(into)]
    properties: Signal<MassProperties>,
    /// "held", "problem" or nothing: how the balance stands.
    #[prop(into)]
    standing: Signal<&'static str>,
) -> impl IntoView {
    let view = Memo::new(move |_| solid.with(Silhouette::of));
    let frame = move || {
        view.with(|v| {
            let half = v.ends.1.max(-v.ends.0) + ROOM;
            let top = -PIN_HEIGHT - BREAK - 4.0;
            let bottom = v.half_height + 30.0;
            format!(
                "{:.1} {:.1} {:.1} {:.1}",
                -half,
                top,
                2.0 * half,
                bottom - top
            )
        })
    };
    let turn = move || {
        let degrees = properties.with(|p| p.hang_angle.to_degrees());
        format!("rotate({degrees:.3} 0 {:.1})", -PIN_HEIGHT)
    };
    // The centroid hangs straight below the pin.
    let below =
        move || properties.with(|p| p.centroid[0].hypot(PIN_HEIGHT - p.centroid[2])) - PIN_HEIGHT;
    let plumb = move || view.with(|v| v.half_height) + 22.0;
    let stem = stem::in_work();
    let handle = move || {
        let [half, _] = stem.get();
        format!(
            "M{half:.2} 0V{t}c-{a:.2} -3 -{b:.2} 4 -{half:.2} 0s-{b:.2} 4 -{half:.2} 0V0Z",
            t = -PIN_HEIGHT - BREAK,
            a = 0.36 * half,
            b = 0.64 * half,
        )
    };
    view! {
        <svg class=move || format!("hanging {}", standing.get()) viewBox=frame aria-hidden="true" focusable="false">
            <g transform=turn>
                <path class="wood" d=handle />
                <path class="steel" d=move || view.with(|v| v.outline.clone()) />
                <path class="hidden-edge" d=move || view.with(|v| v.eye.clone()) />
            </g>
            <line class="plumb" x1="0" x2="0" y1=-PIN_HEIGHT y2=plumb />
            <path class="bob" d="M-3.2 0h6.4L0 7z" transform=move || format!("translate(0 {:.2})", plumb()) />
            <circle class="pin" cx="0" cy=-PIN_HEIGHT r="2" />
            <circle class="point" cx="0" cy=below r="3.4" />
        </svg>
    }
}
