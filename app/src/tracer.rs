//! The thread that fits and draws while a size is dragged (`tracer/`): the page's own has the finger and the numbers.
//!
//! Where there is none, or it is not there yet, a drag is worked out on the page as any other edit.

use std::time::Duration;

use leptos::leptos_dom::helpers::IntervalHandle;
use leptos::prelude::*;
use leptos::reactive::owner::LocalStorage;
use wasm_bindgen::prelude::*;
use web_sys::js_sys::{Array, Date, Object, Reflect};
use web_sys::{Event, HtmlCanvasElement, MessageEvent, Worker};

use super::fitting;
use headwright::drawing::{Looks, Said, Trace};
use headwright::mass::Weighed;
use headwright::units::Measure;

/// What of the page names the script that starts the worker: the one of its own build, which `.ci/split` puts there.
const NAMED: &str = "meta[name=tracer]";

/// A drawing that has not come after this long does not come.
const PATIENCE: Duration = Duration::from_secs(2);

/// The head as it is drawn.
#[derive(Clone, Debug, PartialEq)]
pub struct Drawn {
    /// Its sizes, mm or degrees.
    pub numbers: Vec<f64>,
    /// Whether all that is held is met.
    pub met: bool,
    /// What it weighs and how it balances.
    pub weighed: Weighed,
}

/// What is heard of a size; no head where a drawing cannot show all.
pub type Heard = Callback<(Measure, Option<Drawn>)>;

/// The thread that draws.
#[derive(Clone, Copy)]
pub struct Tracer {
    line: StoredValue<Option<Line>, LocalStorage>,
}

/// The line to it.
struct Line {
    worker: Worker,
    ready: bool,
    /// Answers that are still to come of drags that are over.
    stale: usize,
    drag: Option<Drag>,
    // What the worker calls; to be kept as long as it may call.
    _heard: Closure<dyn FnMut(MessageEvent)>,
    _failed: Closure<dyn FnMut(Event)>,
}

/// A drag that goes on.
struct Drag {
    hear: Heard,
    /// The size that is being drawn.
    drawn: Option<Measure>,
    /// When it was asked for, ms.
    asked: f64,
    /// The last one that was asked for meanwhile.
    next: Option<Measure>,
    /// Gives up a thread that hangs.
    watch: Option<IntervalHandle>,
}

impl Tracer {
    /// No thread yet.
    pub fn new() -> Self {
        Self {
            line: StoredValue::new_local(None),
        }
    }

    /// Starts the thread when the browser has time for it.
    pub fn start_when_idle(self) {
        let start = move || fitting::start(self);
        if request_idle_callback_with_handle(start).is_err() {
            set_timeout(start, std::time::Duration::from_secs(1));
        }
    }

    /// Starts the thread.
    pub fn start(self) {
        if self.line.try_with_value(Option::is_some) != Some(false) {
            return;
        }
        let named = document().query_selector(NAMED).ok().flatten();
        let script = named.and_then(|meta| meta.get_attribute("content"));
        let Some(worker) = script.and_then(|script| Worker::new(&script).ok()) else {
            return;
        };
        let heard = Closure::<dyn FnMut(MessageEvent)>::new(move |event: MessageEvent| {
            let said = event.data().as_string().as_deref().and_then(Said::read);
            match said {
                Some(Said::Ready) => self.with(|line| line.ready = true).unwrap_or_default(),
                Some(Said::Drawn {
                    numbers,
                    met,
                    weighed,
                }) => {
                    self.answered(Some(Drawn {
                        numbers,
                        met,
                        weighed,
                    }));
                }
                // What cannot be read is an answer all the same.
                Some(Said::Aside) | None => self.answered(None),
            }
        });
        let failed = Closure::<dyn FnMut(Event)>::new(move |_| self.broke());
        worker.set_onmessage(Some(heard.as_ref().unchecked_ref()));
        worker.set_onerror(Some(failed.as_ref().unchecked_ref()));
        self.line.set_value(Some(Line {
            worker,
            ready: false,
            stale: 0,
            drag: None,
            _heard: heard,
            _failed: failed,
        }));
    }

    fn with<T>(self, work: impl FnOnce(&mut Line) -> T) -> Option<T> {
        self.line
            .try_update_value(|line| line.as_mut().map(work))
            .flatten()
    }

    /// Whether a drag may begin.
    pub fn is_ready(self) -> bool {
        self.with(|line| line.ready) == Some(true)
    }

    /// Begins a drag that is drawn on `canvas`, which has `ratio` dots to a pixel; `hear` hears of every size. Says
    /// whether it could.
    pub fn begin(
        self,
        trace: &Trace,
        looks: &Looks,
        canvas: &HtmlCanvasElement,
        ratio: f64,
        hear: Heard,
    ) -> bool {
        self.end();
        let Ok(canvas) = canvas.transfer_control_to_offscreen() else {
            return false;
        };
        let task = Object::new();
        let fields = [
            ("trace", JsValue::from_str(&trace.write())),
            ("looks", JsValue::from_str(&looks.write())),
            ("canvas", canvas.clone().into()),
            ("ratio", JsValue::from_f64(ratio)),
        ];
        for (name, value) in fields {
            // A plain object takes any field.
            let _ = Reflect::set(&task, &JsValue::from_str(name), &value);
        }
        let sent = self.with(|line| {
            let moved = Array::of1(&canvas);
            line.worker.post_message_with_transfer(&task, &moved).ok()?;
            line.drag = Some(Drag {
                hear,
                drawn: None,
                asked: 0.0,
                next: None,
                watch: set_interval_with_handle(move || self.watch(), PATIENCE).ok(),
            });
            Some(())
        });
        sent.flatten().is_some()
    }

    /// Has the head drawn at `size`; while it draws only the last size that comes is kept. Says whether a drag goes on.
    pub fn draw(self, size: Measure) -> bool {
        let drawn = self.with(|line| {
            let Line { worker, drag, .. } = line;
            let drag = drag.as_mut()?;
            match drag.drawn {
                Some(_) => drag.next = Some(size),
                None => drag.ask(worker, size),
            }
            Some(())
        });
        drawn.flatten().is_some()
    }

    /// Ends the drag. The last size that was asked for, if it was not heard of, will not be.
    pub fn end(self) -> Option<Measure> {
        self.with(|line| {
            let drag = line.drag.take()?;
            drag.rest();
            line.stale += usize::from(drag.drawn.is_some());
            // It lets the canvas go.
            let _ = line.worker.post_message(&JsValue::NULL);
            drag.next.or(drag.drawn)
        })
        .flatten()
    }

    fn answered(self, drawn: Option<Drawn>) {
        let heard = self.with(|line| {
            if line.stale > 0 {
                line.stale -= 1;
                return None;
            }
            let drag = line.drag.as_mut()?;
            let size = drag.drawn.take()?;
            if let Some(next) = drag.next.take() {
                drag.ask(&line.worker, next);
            }
            Some((drag.hear, size))
        });
        if let Some((hear, size)) = heard.flatten() {
            hear.run((size, drawn));
        }
    }

    /// Gives up a thread that hangs, and starts another for the next drag.
    fn watch(self) {
        if self.with(|line| line.drag.as_ref().is_some_and(Drag::hangs)) == Some(true) {
            self.broke();
            self.start_when_idle();
        }
    }

    /// The thread is gone: what it owes is worked out on the page.
    fn broke(self) {
        let line = self.line.try_update_value(Option::take).flatten();
        let drag = line.and_then(|line| {
            line.worker.terminate();
            line.drag.inspect(Drag::rest)
        });
        if let Some((hear, size)) = drag.and_then(|d| Some((d.hear, d.next.or(d.drawn)?))) {
            hear.run((size, None));
        }
    }
}

impl Drag {
    fn hangs(&self) -> bool {
        self.drawn.is_some() && Date::now() - self.asked > PATIENCE.as_millis() as f64
    }

    /// Nobody waits for it any more.
    fn rest(&self) {
        if let Some(watch) = &self.watch {
            watch.clear();
        }
    }

    fn ask(&mut self, worker: &Worker, size: Measure) {
        self.drawn = Some(size);
        self.asked = Date::now();
        // A number can always be sent.
        let _ = worker.post_message(&JsValue::from_f64(size.number()));
    }
}
