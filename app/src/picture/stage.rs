//! When the picture is drawn: once in the next frame after something has changed, never idly.

use std::sync::Arc;
use std::time::Duration;

use leptos::html::Canvas;
use leptos::prelude::*;
use web_sys::HtmlCanvasElement;

use super::super::later::Later;
use super::handle;
use super::renderer::Renderer;
use super::tones::Tones;
use super::view::{Extent, Look, View};
use headwright::mesh::{Display, SCREEN, display, tessellate};
use headwright::solid::Solid;

/// Chord tolerance while the head is being changed, mm: a fifth of a pixel on most screens, and
/// under half the triangles of [`SCREEN`].
const MOVING: f64 = 0.05;
/// How long the head rests before it is drawn as finely as it can be.
const REST: Duration = Duration::from_millis(200);

/// A head ready to be drawn.
#[derive(Clone, Debug, PartialEq)]
pub struct Scene {
    shown: Arc<Display>,
    /// What has to fit into the picture.
    pub extent: Extent,
}

impl Scene {
    /// The scene of `solid` and its handle, of which `stem` is the half-depth and half-width.
    pub fn of(solid: &Solid, stem: [f64; 2], tolerance: f64) -> Self {
        let mesh = tessellate(solid, tolerance);
        let [low, high] = mesh.bounding_box().unwrap_or_default();
        let mut shown = display(&mesh);
        handle::add(solid, stem, &mut shown);
        Self {
            shown: Arc::new(shown),
            extent: Extent {
                reach: high[0].max(-low[0]),
                half_height: high[2].max(-low[2]),
            },
        }
    }
}

/// The canvas and everything that it shows.
#[derive(Clone, Copy)]
pub struct Stage {
    /// The canvas.
    pub canvas: NodeRef<Canvas>,
    /// The head.
    pub scene: Memo<Scene>,
    /// How far it tips, radians.
    pub hang: Memo<f64>,
    /// From where it is looked at.
    pub look: RwSignal<Look>,
    /// Width and height of the picture, CSS pixels.
    pub size: RwSignal<[f64; 2]>,
    /// Whether the browser cannot draw it.
    pub plain: RwSignal<bool>,
    /// Whether the browser has taken the context away, for now.
    pub lost: RwSignal<bool>,
    renderer: StoredValue<Option<Renderer>, LocalStorage>,
    loaded: StoredValue<Option<Scene>>,
    waiting: StoredValue<bool>,
}

impl Stage {
    /// The stage for a head on a handle of half-depth and half-width `stem` that tips by `hang`.
    pub fn new(solid: Signal<Solid>, stem: Memo<[f64; 2]>, hang: Memo<f64>) -> Self {
        let rested = rested(solid);
        Self {
            canvas: NodeRef::new(),
            scene: Memo::new(move |_| {
                let tolerance = if rested.get() { SCREEN } else { MOVING };
                solid.with(|solid| Scene::of(solid, stem.get(), tolerance))
            }),
            hang,
            look: RwSignal::new(Look::FIRST),
            size: RwSignal::new([0.0; 2]),
            plain: RwSignal::new(false),
            lost: RwSignal::new(false),
            renderer: StoredValue::new_local(None),
            loaded: StoredValue::new(None),
            waiting: StoredValue::new(false),
        }
    }

    /// The view as it stands; tracked.
    pub fn view(self) -> View {
        let extent = self.scene.with(|scene| scene.extent);
        View::new(self.look.get(), self.hang.get(), extent, self.size.get())
    }

    /// Begins to draw on `canvas`, at first or after its context was lost.
    pub fn open(self, canvas: &HtmlCanvasElement) {
        let renderer = Renderer::new(canvas);
        // Said only when it changes: the canvas hangs on it, and a new canvas is opened again.
        if self.plain.get_untracked() != renderer.is_none() {
            self.plain.set(renderer.is_none());
        }
        self.lost.set(false);
        self.renderer.set_value(renderer);
        self.loaded.set_value(None);
        self.schedule();
    }

    /// Lets go of a lost context.
    pub fn close(self) {
        self.lost.set(true);
        self.renderer.set_value(None);
    }

    /// Draws in the next frame, however often it is asked before that.
    pub fn schedule(self) {
        if self.waiting.get_value() {
            return;
        }
        self.waiting.set_value(true);
        request_animation_frame(move || {
            // The picture may be gone by then.
            if self.waiting.try_set_value(false).is_none() {
                self.draw();
            }
        });
    }

    fn draw(self) {
        let Some(canvas) = self.canvas.try_get_untracked().flatten() else {
            return;
        };
        let [width, height] = self.size.get_untracked();
        if width <= 0.0 || height <= 0.0 {
            return;
        }
        let density = window().device_pixel_ratio();
        let pixels = [width, height].map(|css| (css * density).round().max(1.0) as u32);
        if [canvas.width(), canvas.height()] != pixels {
            canvas.set_width(pixels[0]);
            canvas.set_height(pixels[1]);
        }
        let Some(tones) = Tones::at(&canvas) else {
            return;
        };
        let view = untrack(|| self.view());
        self.renderer.update_value(|renderer| {
            let Some(renderer) = renderer else { return };
            self.scene.with_untracked(|scene| {
                let known = self
                    .loaded
                    .with_value(|loaded| loaded.as_ref().is_some_and(|old| same(old, scene)));
                if !known {
                    renderer.load(&scene.shown);
                    self.loaded.set_value(Some(scene.clone()));
                }
            });
            renderer.draw(&view, &tones, pixels, density);
        });
    }
}

/// Whether two scenes are the very same arrays.
fn same(a: &Scene, b: &Scene) -> bool {
    Arc::ptr_eq(&a.shown, &b.shown)
}

/// Whether the head has rested since it was last changed.
fn rested(solid: Signal<Solid>) -> RwSignal<bool> {
    let rested = RwSignal::new(true);
    let later = Later::new();
    Effect::new(move |before: Option<()>| {
        solid.track();
        if before.is_none() {
            return;
        }
        if rested.get_untracked() {
            rested.set(false);
        }
        later.start(REST, move || rested.set(true));
    });
    rested
}
