//! While a size is dragged a thread of its own draws: the drawing is the same, and nothing hangs on that thread.

use headwright_browser::{Page, View, browse};
use serde_json::json;

/// The share of the sheet's points that may be missing in one of two drawings of one head; one figure is more.
const ALIKE: f64 = 0.001;

/// Grips the arrow that ends a size at the right: `pull` moves it by so many px, `letGo` ends the drag.
const GRIP: &str = r"
const [name] = arguments;
const size = [...document.querySelectorAll('.press')].find((e) => (e.ariaLabel ?? '').startsWith(name));
const middle = (e) => { const r = e.getBoundingClientRect(); return [r.x + r.width / 2, r.y + r.height / 2]; };
size.scrollIntoView({ block: 'center' });
const [x, y] = middle(size);
const far = (e) => { const [left, top] = middle(e); return Math.abs(left - x) + 4 * Math.abs(top - y); };
const arrow = [...document.querySelectorAll('.pull.arrow')].filter((e) => middle(e)[0] > x)
    .sort((a, b) => far(a) - far(b))[0];
const [left, top] = middle(arrow);
const send = (kind, x, buttons) => arrow.dispatchEvent(new PointerEvent(kind, {
    bubbles: true, pointerId: 1, isPrimary: true, pointerType: 'mouse', button: kind === 'pointermove' ? -1 : 0,
    buttons, clientX: x, clientY: top,
}));
let at = left;
send('pointerdown', left, 1);
window.pull = (way) => { at = left + way; send('pointermove', at, 1); };
window.rest = () => {};
window.letGo = () => { window.rest(); send('pointerup', at, 0); };
";

/// Moves what is gripped to and fro, up to `way` px, so that it never rests; `rest` stops it there.
const TREMBLE: &str = r"
const [way] = arguments;
let count = 0;
window.pull(20);
const going = setInterval(() => window.pull(count++ % 2 ? way - 12 : way), 60);
window.rest = () => clearInterval(going);
";

fn is_traced(page: &Page) -> bool {
    page.script(
        "return !!document.querySelector('.board.traced > canvas')",
        json!([]),
    ) == json!(true)
}

fn begin_to_tremble(page: &Page, name: &str, way: f64) {
    page.script(GRIP, json!([name]));
    page.script(TREMBLE, json!([way]));
}

/// Begins a drag that is drawn by the thread: it is started when the browser has time, so it is tried until it is there.
fn tremble(page: &Page, name: &str, way: f64) {
    page.wait("the thread draws", || {
        begin_to_tremble(page, name, way);
        for _ in 0..20 {
            if is_traced(page) {
                return true;
            }
            std::thread::sleep(std::time::Duration::from_millis(50));
        }
        page.script("window.letGo()", json!([]));
        false
    });
}

/// A finger that has stopped rests only when the test says so, by `settle`: what waits for 250 ms waits for that. `still` tells
/// whether nothing has been drawn for half a second.
const HELD_BACK: &str = r"
const { setTimeout: later, clearTimeout: never } = window;
const waiting = new Map();
let since = 0, handle = 1e9;
window.setTimeout = (work, ms, ...given) => {
    if (ms !== 250) return later.call(window, work, ms, ...given);
    since = performance.now();
    waiting.set(++handle, work);
    return handle;
};
window.clearTimeout = (handle) => waiting.delete(handle) || never.call(window, handle);
window.still = () => waiting.size > 0 && performance.now() - since > 500;
window.settle = () => { window.setTimeout = later; waiting.forEach((work) => work()); };
";

/// Compares how the thread draws a drag that goes so many px with how the page does when the finger rests there.
fn looks_the_same(name: &str, view: View, way: f64) {
    browse(name, view.with(HELD_BACK), |page| {
        page.begin_with("Rounding hammer");
        page.enter("hold weight at, kg", "1.1 kg");
        page.wait_for_text("held at 1.100 kg");
        page.open_part("front face");
        tremble(page, "front face offset", way);
        page.script("window.rest()", json!([]));
        page.wait("the last move is drawn", || {
            page.script("return window.still()", json!([])) == json!(true)
        });
        // At rest it may end a little higher.
        let sheet = page.script(
            "const r = document.querySelector('.board').getBoundingClientRect();
            return [Math.ceil(Math.max(r.left, 0)), Math.ceil(Math.max(r.top, 0)),
                    Math.floor(r.width), Math.floor(Math.min(r.bottom, innerHeight) - Math.max(r.top, 0)) - 8];",
            json!([]),
        );
        let sheet = [0, 1, 2, 3].map(|k| sheet[k].as_f64().expect("where the sheet is"));
        let traced = page.picture_of(sheet);
        page.save_picture(&format!("{name}-traced"));
        assert!(is_traced(page));
        page.script("window.settle()", json!([]));
        page.wait("the page draws", || !is_traced(page));
        let own = page.picture_of(sheet);
        page.save_picture(&format!("{name}-own"));
        // They are not alike because nothing is drawn.
        assert!(own.colours() > 20, "{}", own.colours());
        let apart = traced.missing(&own);
        assert!(
            apart < ALIKE,
            "{apart} of the points are in one of them alone"
        );
        page.script("window.letGo()", json!([]));
        page.wait_for("button", "undo front face offset…");
        page.wait_for_text("held at 1.100 kg");
    });
}

#[test]
fn a_drag_on_paper_looks_as_the_sheet_does() {
    looks_the_same("traced-paper", View::desktop(), 32.0);
}

#[test]
fn a_drag_on_slate_looks_as_the_sheet_does() {
    looks_the_same("traced-slate", View::desktop().dark(), 32.0);
}

#[test]
fn a_drag_beyond_what_is_held_looks_as_the_sheet_does() {
    looks_the_same("traced-beyond", View::desktop(), 240.0);
}

#[test]
fn a_drag_that_is_given_up_leaves_the_head_as_it_was() {
    browse("a traced drag is given up", View::desktop(), |page| {
        page.begin_with("Rounding hammer");
        let before = page.value("front face offset, mm");
        tremble(page, "front face offset", 32.0);
        page.keys(&[headwright_browser::key::ESCAPE]);
        page.wait("the canvas is gone", || !is_traced(page));
        page.script("window.letGo()", json!([]));
        page.wait_for_value("front face offset, mm", &before);
        assert!(!page.has("button", "undo front face offset…"));
    });
}

#[test]
fn without_the_thread_a_drag_is_worked_out_on_the_page() {
    let none = "delete window.OffscreenCanvas;
        HTMLCanvasElement.prototype.transferControlToOffscreen = () => { throw new Error('none'); };";
    browse("no thread that draws", View::desktop().with(none), |page| {
        page.begin_with("Rounding hammer");
        let before: f64 = page.value("front face offset, mm").parse().expect("mm");
        begin_to_tremble(page, "front face offset", 32.0);
        page.wait("the size follows the finger", || {
            page.value("front face offset, mm")
                .parse::<f64>()
                .is_ok_and(|now| now > before + 2.0)
        });
        assert!(!is_traced(page));
        page.script("window.letGo()", json!([]));
        page.wait_for("button", "undo front face offset…");
    });
}

#[test]
fn a_thread_that_hangs_is_given_up_and_the_page_works_the_drag_out() {
    let hangs = "const post = Worker.prototype.postMessage;
        Worker.prototype.postMessage = function (said, ...moved) {
            if (typeof said !== 'number') post.call(this, said, ...moved);
        };";
    browse("a thread that hangs", View::desktop().with(hangs), |page| {
        page.begin_with("Rounding hammer");
        let before: f64 = page.value("front face offset, mm").parse().expect("mm");
        page.wait("a drag goes to the thread", || {
            begin_to_tremble(page, "front face offset", 32.0);
            let goes = page.script("return !!document.querySelector('.tracing')", json!([]));
            if goes != json!(true) {
                page.script("window.letGo()", json!([]));
                page.press("button", "undo front face offset…");
            }
            goes == json!(true)
        });
        // A finger that has stopped need not move again.
        page.script("window.rest()", json!([]));
        page.wait("the size follows the finger", || {
            page.value("front face offset, mm")
                .parse::<f64>()
                .is_ok_and(|now| now > before + 2.0)
        });
        page.script("window.letGo()", json!([]));
        page.wait_for("button", "undo front face offset…");
    });
}

#[test]
fn beyond_what_is_held_a_finger_that_moves_sees_by_how_much() {
    let view = View::desktop().with(HELD_BACK);
    browse("traced out of reach", view, |page| {
        page.begin_with("Rounding hammer");
        page.enter("hold weight at, kg", "1.1 kg");
        page.wait_for_text("held at 1.100 kg");
        tremble(page, "front face offset", 240.0);
        let weight = || page.region("finished weight");
        page.wait("the weight is out", || weight().contains("out by"));
        page.script("window.rest()", json!([]));
        page.wait("the last move is drawn", || {
            page.script("return window.still()", json!([])) == json!(true)
        });
        assert!(is_traced(page));
        // Up to “out by 325 g”: the scale below it follows when the finger rests.
        let first = |said: String| said.split(" g ").next().map(str::to_owned);
        let moving = first(weight());
        page.script("window.settle()", json!([]));
        page.wait("the page draws", || !is_traced(page));
        assert_eq!(first(weight()), moving);
        page.script("window.letGo()", json!([]));
        page.wait_for_text("Weight and balance can’t both be kept");
    });
}

/// Counts what the thread has answered, lets through so many sizes only, and never has time for anything else.
const LETS_THROUGH: &str = r"
const [sizes] = arguments;
const post = Worker.prototype.postMessage;
window.asked = 0;
Worker.prototype.postMessage = function (said, ...moved) {
    if (typeof said !== 'number' || window.asked++ < sizes) post.call(this, said, ...moved);
};
window.requestIdleCallback = () => 0;
";

#[test]
fn a_finger_that_goes_back_and_lifts_before_it_is_drawn_has_gone_back() {
    let view = View::desktop().with(HELD_BACK);
    browse("the last move is not lost", view, |page| {
        let name = "front face offset";
        let value = || page.value("front face offset, mm");
        page.begin_with("Rounding hammer");
        let before = value();
        tremble(page, name, 20.0);
        page.script("window.rest(); window.pull(20); window.letGo()", json!([]));
        page.wait("it is longer", || value() != before);
        let near = value();
        page.press("button", "undo front face offset…");
        page.wait_for_value("front face offset, mm", &before);

        page.script(LETS_THROUGH, json!([2]));
        page.script(GRIP, json!([name]));
        // The first of a row stands, the second has yet to, and of the way back nothing is heard.
        for (way, asked) in [(20, 1), (32, 2), (20, 3)] {
            page.script("window.pull(arguments[0])", json!([way]));
            page.wait("the thread is asked, and answers", || {
                page.script("return window.asked", json!([])) == json!(asked)
                    && (asked == 3
                        || page.script("return window.still()", json!([])) == json!(true))
            });
        }
        page.script("window.letGo()", json!([]));
        page.wait_for("button", "undo front face offset…");
        page.wait_for_value("front face offset, mm", &near);
    });
}
