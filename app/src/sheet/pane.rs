//! The pane through which the drawing is seen: drawn larger by a pinch, a wheel or a press, and moved by a drag.

use leptos::html::Div;
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::{Element, PointerEvent, TouchEvent, WheelEvent};

use headwright::drawing::Point;

/// How many times as large as on a plain sheet the head is drawn at most.
const MOST: f64 = 5.0;
/// What a press of "nearer" does.
const STEP: f64 = 1.5;
/// What a turn of the wheel by a pixel does, with the key that zooms a page.
const PER_WHEEL_PX: f64 = 0.004;
/// Below this the drawing is whole again.
const WHOLE: f64 = 1.02;

/// How the drawing is looked at.
#[derive(Clone, Copy)]
pub struct Look {
    /// The pane.
    pub host: NodeRef<Div>,
    /// How many times as large as on a plain sheet.
    pub zoom: RwSignal<f64>,
    pinch: StoredValue<Option<Pinch>>,
    pan: StoredValue<Option<Pan>>,
}

#[derive(Clone, Copy)]
struct Pinch {
    apart: f64,
    zoom: f64,
}

#[derive(Clone, Copy)]
struct Pan {
    pointer: i32,
    from: Point,
    scroll: [i32; 2],
}

impl Look {
    /// At the whole drawing.
    pub fn new(host: NodeRef<Div>) -> Self {
        Self {
            host,
            zoom: RwSignal::new(1.0),
            pinch: StoredValue::new(None),
            pan: StoredValue::new(None),
        }
    }

    /// Whether more than a plain sheet is drawn.
    pub fn is_near(self) -> bool {
        self.zoom.get() > 1.0
    }

    /// Draws `zoom` times as large, and leaves what stands at `at`, px of the window, where it is.
    fn set(self, zoom: f64, at: Option<Point>) {
        let zoom = zoom.clamp(1.0, MOST);
        let zoom = if zoom < WHOLE { 1.0 } else { zoom };
        let Some(pane) = self.host.get_untracked() else {
            return;
        };
        let frame = pane.get_bounding_client_rect();
        let at = at.map_or_else(
            || [0.5 * frame.width(), 0.5 * frame.height()],
            |[x, y]| [x - frame.left(), y - frame.top()],
        );
        let scroll = [pane.scroll_left(), pane.scroll_top()].map(f64::from);
        let before = [pane.scroll_width(), pane.scroll_height()].map(f64::from);
        let share = [0, 1].map(|k| (scroll[k] + at[k]) / before[k].max(1.0));
        self.zoom.set(zoom);
        request_animation_frame(move || {
            let after = [pane.scroll_width(), pane.scroll_height()].map(f64::from);
            let [left, top] = [0, 1].map(|k| (share[k] * after[k] - at[k]).round() as i32);
            pane.set_scroll_left(left);
            pane.set_scroll_top(top);
        });
    }

    /// Two fingers begin to pinch.
    pub fn touch(self, event: &TouchEvent) {
        let pinch = fingers(event).map(|[a, b]| Pinch {
            apart: apart(a, b),
            zoom: self.zoom.get_untracked(),
        });
        if pinch.is_some() {
            event.prevent_default();
        }
        self.pinch.set_value(pinch);
    }

    /// They move.
    pub fn pinch(self, event: &TouchEvent) {
        let (Some(pinch), Some([a, b])) = (self.pinch.get_value(), fingers(event)) else {
            return;
        };
        event.prevent_default();
        let middle = [0, 1].map(|k| 0.5 * (a[k] + b[k]));
        self.set(pinch.zoom * apart(a, b) / pinch.apart, Some(middle));
    }

    /// The wheel, with the key that zooms a page: a pinch on a trackpad.
    pub fn wheel(self, event: &WheelEvent) {
        if !event.ctrl_key() {
            return;
        }
        event.prevent_default();
        let by = (-event.delta_y() * PER_WHEEL_PX).exp();
        let at = [f64::from(event.client_x()), f64::from(event.client_y())];
        self.set(self.zoom.get_untracked() * by, Some(at));
    }

    /// A mouse takes the bare sheet.
    pub fn press(self, event: &PointerEvent) {
        let on_a_control = event
            .target()
            .and_then(|target| target.dyn_into::<Element>().ok())
            .is_some_and(|target| {
                target
                    .closest("button, input, .hand")
                    .is_ok_and(|c| c.is_some())
            });
        if event.pointer_type() != "mouse" || on_a_control || self.zoom.get_untracked() <= 1.0 {
            return;
        }
        let Some(pane) = self.host.get_untracked() else {
            return;
        };
        // A pointer that is gone by now moves nothing.
        let _ = pane.set_pointer_capture(event.pointer_id());
        self.pan.set_value(Some(Pan {
            pointer: event.pointer_id(),
            from: [f64::from(event.client_x()), f64::from(event.client_y())],
            scroll: [pane.scroll_left(), pane.scroll_top()],
        }));
    }

    /// It moves.
    pub fn drag(self, event: &PointerEvent) {
        let (Some(pan), Some(pane)) = (self.pan.get_value(), self.host.get_untracked()) else {
            return;
        };
        if pan.pointer == event.pointer_id() {
            pane.set_scroll_left(pan.scroll[0] + pan.from[0] as i32 - event.client_x());
            pane.set_scroll_top(pan.scroll[1] + pan.from[1] as i32 - event.client_y());
        }
    }

    /// It lets go.
    pub fn let_go(self) {
        self.pan.set_value(None);
    }
}

fn apart(a: Point, b: Point) -> f64 {
    (a[0] - b[0]).hypot(a[1] - b[1]).max(1.0)
}

/// Where two fingers are; nothing with fewer or more.
fn fingers(event: &TouchEvent) -> Option<[Point; 2]> {
    let touches = event.touches();
    if touches.length() != 2 {
        return None;
    }
    let at = |index| {
        let touch = touches.item(index)?;
        Some([f64::from(touch.client_x()), f64::from(touch.client_y())])
    };
    Some([at(0)?, at(1)?])
}

/// Nearer, farther and whole, for who does not pinch.
#[component]
pub fn Nearer(
    /// How the drawing is looked at.
    look: Look,
) -> impl IntoView {
    let by = move |factor: f64| look.set(look.zoom.get_untracked() * factor, None);
    let is_nearest = move || look.zoom.get() >= MOST;
    view! {
        <div class="nearer" role="group" aria-label="how large the drawing is">
            <button type="button" disabled=is_nearest on:click=move |_| by(STEP)>
                "nearer"
            </button>
            <button type="button" disabled=move || !look.is_near() on:click=move |_| by(1.0 / STEP)>
                "farther"
            </button>
            <button type="button" disabled=move || !look.is_near() on:click=move |_| by(0.0)>
                "whole"
            </button>
        </div>
    }
}
