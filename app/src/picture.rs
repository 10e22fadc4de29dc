//! The shaded picture: the head hanging from its handle, to be turned and looked at.
//!
//! The head hangs on a pin through the handle axis, [`PIN_HEIGHT`] above the middle of the eye,
//! and is turned about it by the hang angle before it is looked at, so that pin, balance point
//! and plumb line agree from any side.

use leptos::ev;
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use wasm_bindgen::closure::Closure;
use web_sys::{Event, KeyboardEvent, PointerEvent, ResizeObserver};

use super::hanging::Hanging;
use super::stem;
use super::theme::Theme;
use headwright::mass::{MassProperties, PIN_HEIGHT};
use headwright::solid::Solid;

mod handle;
mod marks;
mod renderer;
mod shaders;
mod stage;
mod tones;
mod view;

use marks::Marks;
use stage::Stage;
use view::Look;

/// Radians for a pixel of drag: across the picture is about half a turn.
const DRAG: f64 = 0.011;
/// Radians for a press of an arrow key.
const KEY: f64 = std::f64::consts::PI / 18.0;

/// What the picture shows.
#[derive(Clone, Copy)]
pub struct Shown {
    /// The head.
    pub solid: Signal<Solid>,
    /// Its mass properties.
    pub properties: Signal<MassProperties>,
    /// "held", "problem" or nothing: how the balance stands.
    pub standing: Signal<&'static str>,
    /// The picture in words: weight, balance, how it tips.
    pub label: Signal<String>,
    /// The look that was chosen for the sheet: the picture takes its tones from the sheet.
    pub theme: Signal<Option<Theme>>,
}

/// The head on its handle, shaded; where the browser cannot do that, its plain side view.
#[component]
pub fn Turned(
    /// What it shows.
    shown: Shown,
) -> impl IntoView {
    let Shown {
        solid,
        properties,
        standing,
        label,
        theme,
    } = shown;
    let hang = Memo::new(move |_| properties.with(|p| p.hang_angle));
    let stage = Stage::new(solid, stem::in_work(), hang);
    open_when_there(stage);
    follow_size(stage);
    Effect::new(move || {
        // No mesh for a browser that cannot show it.
        if stage.plain.get() {
            return;
        }
        stage.scene.track();
        stage.hang.track();
        stage.look.track();
        stage.size.track();
        theme.track();
        stage.schedule();
    });
    let below = Signal::derive(move || {
        properties.with(|p| PIN_HEIGHT - p.centroid[0].hypot(PIN_HEIGHT - p.centroid[2]))
    });
    view! {
        <div class="picture">
            {move || {
                if stage.plain.get() {
                    view! {
                        <Hanging solid=solid properties=properties standing=standing />
                        <p class="picture-hint">
                            "This browser cannot shade the head (it has no WebGL2): here is its side view. All else works."
                        </p>
                    }
                        .into_any()
                } else {
                    view! {
                        <div class="picture-frame">
                            <Shaded stage=stage label=label />
                            <Marks stage=stage below=below standing=standing />
                        </div>
                        <p class="picture-hint" id="picture-hint">
                            <span>"Drag or arrow keys turn it"</span>
                            <button
                                type="button"
                                class="text-button"
                                disabled=move || stage.look.get() == Look::FIRST
                                on:click=move |_| stage.look.set(Look::FIRST)
                            >
                                "Turn it back"
                            </button>
                        </p>
                    }
                        .into_any()
                }
            }}
        </div>
    }
}

/// The canvas and the hands that turn it.
#[component]
fn Shaded(
    /// The stage.
    stage: Stage,
    /// What the picture shows, in words.
    label: Signal<String>,
) -> impl IntoView {
    let held = StoredValue::new(None::<(i32, [f64; 2])>);
    let grasp = move |event: PointerEvent| {
        if event.button() != 0 {
            return;
        }
        if let Some(canvas) = stage.canvas.get_untracked() {
            // Where the pointer cannot be captured, turning ends at the picture's edge.
            let _ = canvas.set_pointer_capture(event.pointer_id());
        }
        held.set_value(Some((event.pointer_id(), place(&event))));
    };
    let turn = move |event: PointerEvent| {
        if let Some((pointer, from)) = held.get_value()
            && pointer == event.pointer_id()
        {
            let to = place(&event);
            held.set_value(Some((pointer, to)));
            let (right, down) = (to[0] - from[0], to[1] - from[1]);
            stage
                .look
                .update(|look| *look = look.turned(-DRAG * right, DRAG * down));
        }
    };
    let release = move |_: PointerEvent| held.set_value(None);
    view! {
        <canvas
            node_ref=stage.canvas
            class="picture-canvas"
            class:lost=move || stage.lost.get()
            role="img"
            tabindex="0"
            aria-label=label
            aria-describedby="picture-hint"
            on:pointerdown=grasp
            on:pointermove=turn
            on:pointerup=release
            on:pointercancel=release
            on:keydown=move |event| press(stage, &event)
            on:webglcontextlost=move |event: Event| {
                // Without this the browser would not give the context back.
                event.prevent_default();
                stage.close();
            }
            on:webglcontextrestored=move |_: Event| {
                if let Some(canvas) = stage.canvas.get_untracked() {
                    stage.open(&canvas);
                }
            }
        ></canvas>
    }
}

fn place(event: &PointerEvent) -> [f64; 2] {
    [f64::from(event.client_x()), f64::from(event.client_y())]
}

/// Arrow keys turn the head the way they point; Home turns it back.
fn press(stage: Stage, event: &KeyboardEvent) {
    if event.ctrl_key() || event.alt_key() || event.meta_key() {
        return;
    }
    let (azimuth, pitch) = match event.key().as_str() {
        "ArrowLeft" => (KEY, 0.0),
        "ArrowRight" => (-KEY, 0.0),
        "ArrowUp" => (0.0, -KEY),
        "ArrowDown" => (0.0, KEY),
        "Home" => {
            event.prevent_default();
            stage.look.set(Look::FIRST);
            return;
        }
        _ => return,
    };
    event.prevent_default();
    stage
        .look
        .update(|look| *look = look.turned(azimuth, pitch));
}

fn open_when_there(stage: Stage) {
    Effect::new(move || {
        if let Some(canvas) = stage.canvas.get() {
            stage.open(&canvas);
        }
    });
    // The system's look, and the density of pixels when the page is zoomed.
    let resized = window_event_listener(ev::resize, move |_| stage.schedule());
    on_cleanup(move || resized.remove());
    let Ok(Some(query)) = window().match_media("(prefers-color-scheme: dark)") else {
        return;
    };
    let changed = Closure::<dyn FnMut()>::new(move || stage.schedule());
    // A browser too old to tell keeps the tones until the next change.
    let _ = query.add_event_listener_with_callback("change", changed.as_ref().unchecked_ref());
    let kept = StoredValue::new_local((query, changed));
    on_cleanup(move || {
        kept.with_value(|(query, changed)| {
            let callback = changed.as_ref().unchecked_ref();
            let _ = query.remove_event_listener_with_callback("change", callback);
        });
    });
}

/// Keeps the picture's size in step with the room it is given.
fn follow_size(stage: Stage) {
    let measure = Closure::<dyn FnMut()>::new(move || {
        if let Some(canvas) = stage.canvas.try_get_untracked().flatten() {
            let now = [
                f64::from(canvas.client_width()),
                f64::from(canvas.client_height()),
            ];
            if stage.size.get_untracked() != now {
                stage.size.set(now);
            }
        }
    });
    let Ok(observer) = ResizeObserver::new(measure.as_ref().unchecked_ref()) else {
        return;
    };
    let kept = StoredValue::new_local((observer, measure));
    Effect::new(move || {
        if let Some(canvas) = stage.canvas.get() {
            kept.with_value(|(observer, _)| observer.observe(&canvas));
        }
    });
    on_cleanup(move || kept.with_value(|(observer, _)| observer.disconnect()));
}
