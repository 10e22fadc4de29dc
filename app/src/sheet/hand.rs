//! The size in hand, worked where it stands on the drawing.

use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::{FocusEvent, HtmlElement};

use super::super::list::StateButton;
use super::super::quantity::Number;
use super::super::state::Workspace;
use super::super::stepper::{Stepper, Was, lets_go};
use super::super::terms::SizeWord;
use super::id_of;
use headwright::design::Dim;
use headwright::drawing::{Key, Rect};

/// Id of what is said of the size, under the drawing.
pub const ID: &str = "size-said";

/// Name, former value, field with − and +, and the limits of a free size.
#[component]
pub fn Hand(
    /// The size.
    dim: Dim,
    /// Where the field stands on the drawing; without a place it stands under the thumb, at the lower edge of the window
    /// as long as the drawing is in sight.
    place: Option<Signal<Option<Rect>>>,
    /// Whether the field takes the focus.
    grab: bool,
    /// The size being edited.
    in_hand: RwSignal<Option<Dim>>,
    /// Whether it is free.
    free: Memo<bool>,
    /// Whether it is as that of the front; nothing where it cannot be.
    is_tied: Memo<Option<bool>>,
) -> impl IntoView {
    let host = NodeRef::<leptos::html::Div>::new();
    let leave = move |event: FocusEvent| {
        // A field that goes with the focus in it has no host any more.
        let host = host.try_get_untracked().flatten();
        let host = host.as_deref().map(AsRef::as_ref);
        if lets_go(&event, host, dim) && in_hand.get_untracked() == Some(dim) {
            in_hand.set(None);
        }
    };
    view! {
        <div
            class="hand"
            class:thumb=place.is_none()
            node_ref=host
            style=move || {
                place
                    .and_then(|place| place.get())
                    .map(|Rect { x, y, w, h }| {
                        format!("left:{x:.1}px;top:{y:.1}px;width:{w:.1}px;min-height:{h:.1}px")
                    })
            }
            on:focusout=leave
        >
            <p class="hand-head">
                <SizeWord dim=dim opens=ID />
                <span class="was">
                    <Was dim=dim />
                </span>
            </p>
            <Stepper dim=dim grab=grab />
            <div class="hand-foot">
                <StateButton dim=dim free=free tied=is_tied />
                <Scale dim=dim />
                {place
                    .is_none()
                    .then(|| {
                        view! {
                            <button type="button" class="plain" on:click=move |_| in_hand.set(None)>
                                "done"
                            </button>
                        }
                    })}
            </div>
        </div>
    }
}

/// Width of the scale between the limits, px.
const SCALE: f64 = 126.0;

/// Where a free size stands between its limits: ends, former value, present value.
#[component]
fn Scale(
    /// The size.
    dim: Dim,
) -> impl IntoView {
    let workspace = Workspace::here();
    move || {
        let system = workspace.system.get();
        let (range, now) = workspace.design.with(|d| (d.range(dim), d.size(dim)));
        let (range, now) = (range?, now?);
        let (low, high) = (range.low.number(), range.high.number());
        let [least, most] = [range.low, range.high].map(|limit| limit.show(system));
        let at = move |mm: f64| {
            let share = (mm - low) / (high - low).max(f64::MIN_POSITIVE);
            6.0 + share.clamp(0.0, 1.0) * (SCALE - 12.0)
        };
        let was = workspace.was(dim).map(|size| at(size.number()));
        let x = at(now.number());
        Some(view! {
            <p class="hand-scale" aria-label=format!(
                "between {} and {} {}",
                least,
                most,
                now.unit_word(system),
            )>
                <Number text=least.clone() />
                <svg viewBox=format!("0 0 {SCALE} 18") width=SCALE height="18" aria-hidden="true">
                    <path d=format!("M6 4v10M6 9H{0}M{0} 4v10", SCALE - 6.0) />
                    {was.map(|x| view! { <path class="former" d=format!("M{x:.1} 3v12") /> })}
                    <path
                        class="now"
                        d=format!("M{:.1} 9l5.5 -6.5 5.5 6.5 -5.5 6.5z", x - 5.5)
                    />
                </svg>
                <Number text=most.clone() />
            </p>
        })
    }
}

/// Whether the page is worked by a finger: a field that takes the focus would bring up letters over the drawing.
pub fn by_finger() -> bool {
    let coarse = window().match_media("(pointer: coarse)").ok().flatten();
    coarse.is_some_and(|query| query.matches())
}

/// Puts the focus back on the size that was let go, if it was taken here and the focus is lost.
pub fn give_back_focus(in_hand: RwSignal<Option<Dim>>, taken_here: RwSignal<Option<Dim>>) {
    Effect::new(move |_| {
        if in_hand.get().is_some() {
            return;
        }
        let Some(dim) = taken_here.try_update(Option::take).flatten() else {
            return;
        };
        let lost = document().active_element().is_none_or(|element| {
            element.tag_name() == "BODY" || element.closest(".hand").ok().flatten().is_some()
        });
        if lost {
            focus_soon(id_of(Key::Size(dim)));
        }
    });
}

fn focus_soon(id: String) {
    request_animation_frame(move || {
        let found = document()
            .get_element_by_id(&id)
            .and_then(|element| element.dyn_into::<HtmlElement>().ok());
        if let Some(element) = found {
            // What cannot take the focus is still there to be pressed.
            let _ = element.focus();
        }
    });
}
