//! The drawing while a size is dragged: a canvas over the sheet's own, on which a thread of its own draws.

use leptos::html::Div;
use leptos::prelude::*;
use leptos::reactive::owner::LocalStorage;
use wasm_bindgen::JsCast;
use web_sys::HtmlCanvasElement;

use super::super::fitting;
use super::super::state::Workspace;
use super::super::tracer::Drawn;
use headwright::design::{Dim, Edit};
use headwright::drawing::{Looks, Setting, Trace};
use headwright::units::Measure;

/// Class of the canvas.
const CLASS: &str = "tracing";
/// Below the sheet a size may stand this much lower while it is dragged, px.
const BELOW: f64 = 64.0;
/// A canvas of more dots than this is none to be drawn anew in every frame: the page draws itself.
const MOST_DOTS: f64 = 16e6;

/// The canvas, while there is one.
#[derive(Clone, Copy)]
pub struct Tracing {
    workspace: Workspace,
    board: NodeRef<Div>,
    looks: StoredValue<Option<Looks>>,
    canvas: StoredValue<Option<HtmlCanvasElement>, LocalStorage>,
    /// Whether something was drawn on it.
    drew: StoredValue<bool>,
}

impl Tracing {
    /// Over `board`.
    pub fn new(workspace: Workspace, board: NodeRef<Div>) -> Self {
        let tracing = Self {
            workspace,
            board,
            looks: StoredValue::new(None),
            canvas: StoredValue::new_local(None),
            drew: StoredValue::new(false),
        };
        on_cleanup(move || {
            workspace.tracer.end();
        });
        tracing
    }

    /// A size is gripped: how the sheet looks now, so that the first move need not ask.
    pub fn prepare(self) {
        let board = self.board.get_untracked();
        let board = board.filter(|_| self.workspace.tracer.is_ready());
        self.looks
            .set_value(board.and_then(|board| fitting::looks_of(&board)));
    }

    /// The gripped size moves from here on, on a sheet that is laid out by `setting` and has this `extent`.
    pub fn begin(self, dim: Dim, setting: &Setting, extent: [f64; 2]) {
        let workspace = self.workspace;
        self.end();
        let hear = Callback::new(move |(size, drawn): (Measure, Option<Drawn>)| match drawn {
            Some(drawn) => {
                self.drew.set_value(true);
                workspace.slide_traced(dim, size, drawn);
            }
            None => workspace.slide(dim, size),
        });
        let began = self.canvas(setting, extent).is_some_and(|(canvas, ratio)| {
            let design = workspace.standing().design;
            // In the notation in which it is put.
            let now = design
                .size(dim)
                .and_then(|size| workspace.on_the_rule(dim, size.number()));
            let design = match (now, design.size(dim)) {
                (Some(put), Some(now)) => {
                    design.apply(Edit::Set(dim, put.with_number(now.number())))
                }
                _ => design,
            };
            let trace = Trace::new(design, dim, *setting, workspace.system.get_untracked());
            let begin = |looks: &Option<Looks>| {
                let looks = looks.as_ref()?;
                let tracer = workspace.tracer;
                Some(tracer.begin(&trace, looks, &canvas, ratio, hear))
            };
            let began = self.looks.with_value(begin) == Some(true);
            if began {
                self.canvas.set_value(Some(canvas));
            } else {
                canvas.remove();
            }
            began
        });
        if !began {
            self.end();
        }
    }

    /// A canvas over the sheet, and how many dots a pixel of it has.
    fn canvas(
        self,
        setting: &Setting,
        [width, height]: [f64; 2],
    ) -> Option<(HtmlCanvasElement, f64)> {
        let board = self.board.get_untracked()?;
        if self.looks.with_value(Option::is_none) {
            return None;
        }
        let ratio = window().device_pixel_ratio();
        // In a pane that is nearer than the whole there is no room beside the board.
        let below = if setting.zoom > 1.0 { 0.0 } else { BELOW };
        let dots = [width, height + below].map(|side| (side * ratio).floor());
        if dots[0] * dots[1] > MOST_DOTS {
            return None;
        }
        let canvas = document().create_element("canvas").ok()?;
        let canvas: HtmlCanvasElement = canvas.dyn_into().ok()?;
        canvas.set_class_name(CLASS);
        canvas.set_width(dots[0] as u32);
        canvas.set_height(dots[1] as u32);
        let style = format!("width:{}px;height:{}px", dots[0] / ratio, dots[1] / ratio);
        canvas.set_attribute("style", &style).ok()?;
        canvas.set_attribute("aria-hidden", "true").ok()?;
        board.append_child(&canvas).ok()?;
        Some((canvas, ratio))
    }

    /// Has `dim` drawn at `size`; on the page where there is no canvas.
    pub fn slide(self, dim: Dim, size: Measure) {
        // What was drawn so far is a step by now, or was taken back: this is another drag.
        if self.drew.get_value() && !self.workspace.is_editing_now() {
            self.end();
        }
        if self.canvas.with_value(Option::is_some) {
            if self.workspace.tracer.draw(size) {
                return;
            }
            // The drag ended elsewhere, or the thread is gone.
            self.end();
        }
        self.workspace.slide(dim, size);
    }

    /// The finger lifts. The last move, if it is not drawn yet.
    pub fn end(self) -> Option<Measure> {
        self.drew.set_value(false);
        if let Some(canvas) = self.canvas.try_update_value(Option::take).flatten() {
            canvas.remove();
        }
        self.workspace.tracer.end()
    }
}
