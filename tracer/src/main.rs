//! The worker that fits and draws the head while a size is dragged: a page whose thread has other things to do keeps up
//! with the finger.
//!
//! A drag begins with an object: `trace` ([`Trace`] as text), `looks` ([`Looks`] as text), `canvas` to draw on and how
//! many of its dots a pixel has, `ratio`. Then numbers come, one for each move, and each is answered by what was [`Said`].
//! It ends with anything else.

use std::cell::RefCell;

use headwright::drawing::{Looks, Said, Trace};
use js_sys::Reflect;
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::{JsFuture, spawn_local};
use web_sys::{
    DedicatedWorkerGlobalScope, FontFace, FontFaceDescriptors, FontFaceSet, MessageEvent,
    OffscreenCanvas, OffscreenCanvasRenderingContext2d,
};

mod paint;

/// The letters of the drawing, as the page's style sheets have them: weight and file, beside the worker's.
const LETTERS: [(&str, &str); 3] = [
    ("400", "url(fonts/alegreya-sans-400.woff2)"),
    ("500", "url(fonts/alegreya-sans-500.woff2)"),
    ("700", "url(fonts/alegreya-sans-700.woff2)"),
];

/// Figures of one height and width, which the style sheets ask for in words of their own.
const FIGURES: &str = "\"lnum\", \"tnum\"";

/// A drag that goes on.
struct Drag {
    trace: Trace,
    looks: Looks,
    canvas: OffscreenCanvas,
    context: OffscreenCanvasRenderingContext2d,
    ratio: f64,
}

impl Drag {
    fn read(task: &JsValue) -> Option<Self> {
        let get = |key: &str| Reflect::get(task, &JsValue::from_str(key)).ok();
        let canvas: OffscreenCanvas = get("canvas")?.dyn_into().ok()?;
        let context = canvas.get_context("2d").ok()??;
        Some(Self {
            trace: Trace::read(&get("trace")?.as_string()?)?,
            looks: Looks::read(&get("looks")?.as_string()?)?,
            context: context.dyn_into().ok()?,
            canvas,
            ratio: get("ratio")?.as_f64()?,
        })
    }

    /// Gives back what the canvas takes.
    fn let_go(&self) {
        self.canvas.set_width(0);
        self.canvas.set_height(0);
    }

    fn to(&self, number: f64) -> Said {
        let Some(traced) = self.trace.at(number) else {
            return Said::Aside;
        };
        let size = [self.canvas.width(), self.canvas.height()].map(f64::from);
        paint::clear(&self.context, size, self.ratio);
        if paint::paint(&self.context, &self.looks, &traced.body()).is_none() {
            return Said::Aside;
        }
        traced.said()
    }
}

fn main() {
    // A panic would be a fault of ours; the hook writes it to the console and nowhere else.
    console_error_panic_hook::set_once();
    let Ok(scope) = js_sys::global().dyn_into::<DedicatedWorkerGlobalScope>() else {
        return;
    };
    let listener = scope.clone();
    let drag = RefCell::new(None::<Drag>);
    let heard = Closure::<dyn Fn(MessageEvent)>::new(move |event: MessageEvent| {
        let data = event.data();
        match data.as_f64() {
            Some(number) => {
                let said = match &*drag.borrow() {
                    Some(drag) => drag.to(number),
                    None => Said::Aside,
                };
                say(&listener, &said);
            }
            None => {
                if let Some(over) = drag.replace(Drag::read(&data)) {
                    over.let_go();
                }
            }
        }
    });
    scope.set_onmessage(Some(heard.as_ref().unchecked_ref()));
    // It listens as long as the worker lives.
    heard.forget();
    spawn_local(async move {
        // In other letters a drag would not look like the sheet: then there is none.
        if load_letters(&scope).await.is_ok() {
            say(&scope, &Said::Ready);
        }
    });
}

async fn load_letters(scope: &DedicatedWorkerGlobalScope) -> Result<(), JsValue> {
    let fonts = Reflect::get(scope, &JsValue::from_str("fonts"))?;
    if !fonts.is_object() {
        return Err(fonts);
    }
    // Workers have the object without the name of its class.
    let fonts: FontFaceSet = fonts.unchecked_into();
    for (weight, file) in LETTERS {
        let which = FontFaceDescriptors::new();
        which.set_weight(weight);
        which.set_feature_settings(FIGURES);
        let face = FontFace::new_with_str_and_descriptors(paint::FAMILY, file, &which)?;
        JsFuture::from(face.load()?).await?;
        fonts.add(&face)?;
    }
    Ok(())
}

fn say(scope: &DedicatedWorkerGlobalScope, said: &Said) {
    // A text can always be sent.
    let _ = scope.post_message(&JsValue::from_str(&said.write()));
}
