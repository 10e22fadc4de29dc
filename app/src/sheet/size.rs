//! A size on the drawing, to be taken in hand.

use leptos::prelude::*;

use web_sys::PointerEvent;

use super::super::state::Workspace;
use super::super::stepper::Was;
use super::drag::Drag;
use super::id_of;
use headwright::design::Dim;
use headwright::drawing::{Key, LaidSize, Rect, Segment, line_under, was, weighs};

/// What answers a press on a size; the lines and figures below it are drawn with the sheet.
///
/// What follows from the sizes cannot be taken in hand: it is read aloud and answers nothing.
#[component]
pub fn Size(
    /// What it is.
    key: Key,
    /// Where it stands.
    #[prop(into)]
    laid: Signal<Option<LaidSize>>,
    /// Takes it in hand.
    take: Callback<Dim>,
    /// How sizes are dragged.
    drag: Drag,
    /// Whether it is being dragged.
    dragged: Signal<bool>,
    /// Puts it under the finger.
    seize: Callback<(Dim, PointerEvent)>,
) -> impl IntoView {
    // The press that ends a drag is none.
    let done = StoredValue::new(false);
    let end = Callback::new(move |keeps: bool| done.set_value(drag.let_go(keeps)));
    let upright = move || {
        laid.with(|laid| {
            laid.as_ref()
                .and_then(|size| size.arrows.first())
                .is_some_and(|arrow| arrow.from[0] == arrow.to[0])
        })
    };
    let place = move || laid.with(|laid| laid.as_ref().map(|size| at(size.press)));
    let spoken = move || laid.with(|laid| laid.as_ref().map(|size| size.spoken.clone()));
    match key {
        Key::Size(dim) => {
            let spoken = Signal::derive(spoken);
            let in_hand = Signal::derive(move || {
                laid.with(|laid| laid.as_ref().is_some_and(|size| size.in_hand))
            });
            let down = Callback::new(move |event: PointerEvent| {
                done.set_value(false);
                if event.is_primary() && event.button() == 0 {
                    seize.run((dim, event));
                }
            });
            let press = Callback::new(move |()| {
                if !done.try_update_value(std::mem::take).unwrap_or_default() {
                    take.run(dim);
                }
            });
            let moved = Callback::new(move |event: PointerEvent| drag.follow(&event));
            let grips =
                Memo::new(move |_| laid.with(|laid| laid.as_ref().map(grips).unwrap_or_default()));
            view! {
                {(0..MOST_GRIPS)
                    .map(|index| {
                        let grip = move || grips.with(|grips| grips.get(index).copied().map(at));
                        let at_an_arrow = move || {
                            grips.with(|grips| {
                                grips
                                    .get(index)
                                    .is_some_and(|rect| [rect.w, rect.h] == [AROUND; 2])
                            })
                        };
                        view! {
                            <Show when=move || grips.with(|grips| index < grips.len())>
                                <span
                                    class="pull"
                                    class:arrow=at_an_arrow
                                    class:upright=upright
                                    class:inhand=in_hand
                                    style=grip
                                    aria-hidden="true"
                                    on:pointerdown=move |event| down.run(event)
                                    on:pointermove=move |event| moved.run(event)
                                    on:pointerup=move |_| end.run(true)
                                    on:pointercancel=move |_| end.run(false)
                                    on:click=move |_| press.run(())
                                ></span>
                            </Show>
                        }
                    })
                    .collect_view()}
                <button
                    type="button"
                    id=id_of(key)
                    class="press"
                    class:upright=upright
                    class:inhand=in_hand
                    class:dragged=dragged
                    style=place
                    aria-label=spoken
                    aria-pressed=move || in_hand.get().to_string()
                    on:pointerdown=move |event| down.run(event)
                    on:pointermove=move |event| moved.run(event)
                    on:pointerup=move |_| end.run(true)
                    on:pointercancel=move |_| end.run(false)
                    on:click=move |_| press.run(())
                ></button>
                <Show when=move || dragged.get()>
                    <Under dim=dim laid=laid wide=Signal::derive(move || drag.wide()) />
                </Show>
            }
                .into_any()
        }
        Key::Balance | Key::Overall => {
            view! { <span id=id_of(key) class="follows" role="img" style=place aria-label=spoken></span> }
                .into_any()
        }
    }
}

/// What stands under the dragged `dim`: what it was, and weight and balance where they move ([`weighs`]).
#[component]
fn Under(
    dim: Dim,
    /// Where it stands.
    laid: Signal<Option<LaidSize>>,
    /// Width of the sheet, px.
    wide: Signal<f64>,
) -> impl IntoView {
    let workspace = Workspace::here();
    let weighed = Memo::new(move |before: Option<&Option<(String, bool)>>| {
        if let (Some(before), true) = (before, workspace.traced.get()) {
            // Another drawing is in front.
            return before.clone();
        }
        let met = workspace
            .holdings
            .with(|all| all.iter().all(|holding| holding.miss == 0.0));
        let (system, weighed) = (workspace.system.get(), workspace.weighed.get());
        let words = workspace
            .design
            .with(|design| weighs(design, met, &weighed, system));
        words.map(|words| (words, met))
    });
    move || {
        let before = was(workspace.was(dim)?, workspace.system.get());
        let press = laid.with(|laid| laid.as_ref().map(|size| size.press))?;
        let place = move |line, words: &str| at(line_under(press, line, words, wide.get()));
        Some(view! {
            <p class="drag-was" style=place(0, &before)>
                <Was dim=dim />
            </p>
            {weighed
                .get()
                .map(|(words, met)| {
                    let place = place(1, &words);
                    view! {
                        <p class="drag-was" class:out=!met style=place>
                            {words}
                        </p>
                    }
                })}
        })
    }
}

/// How large the place around an arrow is that answers a drag, and how thick that along a dimension line, px.
const AROUND: f64 = 30.0;
const ALONG: f64 = 18.0;
/// Its line and its two arrows.
const MOST_GRIPS: usize = 3;
/// From the tip of an arrow to its middle, px.
const HALF_ARROW: f64 = 5.0;

fn at(Rect { x, y, w, h }: Rect) -> String {
    format!("left:{x:.1}px;top:{y:.1}px;width:{w:.1}px;height:{h:.1}px")
}

/// What of a size answers a drag besides its figure: its arrows, and the line between them.
fn grips(size: &LaidSize) -> Vec<Rect> {
    let square = |arrow: &Segment| {
        let [dx, dy] = [0, 1].map(|k| arrow.to[k] - arrow.from[k]);
        let length = dx.hypot(dy).max(1.0);
        Rect {
            x: arrow.to[0] - HALF_ARROW * dx / length - 0.5 * AROUND,
            y: arrow.to[1] - HALF_ARROW * dy / length - 0.5 * AROUND,
            w: AROUND,
            h: AROUND,
        }
    };
    let line = match size.arrows[..] {
        [a, b] => {
            let low = [0, 1].map(|k| a.to[k].min(b.to[k]));
            let span = [0, 1].map(|k| (a.to[k] - b.to[k]).abs());
            Some(Rect {
                x: low[0] - 0.5 * ALONG,
                y: low[1] - 0.5 * ALONG,
                w: span[0] + ALONG,
                h: span[1] + ALONG,
            })
        }
        _ => None,
    };
    line.into_iter()
        .chain(size.arrows.iter().map(square))
        .collect()
}
