//! A size dragged on the drawing, with weight and balance held and the processor slowed.

use headwright_browser::{Page, View, browse};
use serde_json::json;

use super::line;

/// By how much the processor is slowed.
const SLOWED: u32 = 4;
/// How many drags are made, and of how many moves the time counts; the first few before them warm up.
const DRAGS: usize = 8;
const MOVES: usize = 25;
const WARM_UP: usize = 5;

/// Times, before the page is loaded, how long it takes to hear of the thread that draws, and what the browser is asked to do
/// when it has time, with the frame after it.
const WATCHED: &str = r"
window.answered = []; window.rested = [];
const soon = (then) => { const c = new MessageChannel(); c.port1.onmessage = then; c.port2.postMessage(0); };
const timed = (times, work, then) => work && ((...given) => {
    const start = performance.now();
    soon(() => { times.push(performance.now() - start); then?.(); });
    return work(...given);
});
window.framed = (then) => requestAnimationFrame(() => {
    const began = performance.now(), heard = window.answered.length;
    soon(() => then(performance.now() - began, heard));
});
const slot = Object.getOwnPropertyDescriptor(Worker.prototype, 'onmessage');
Object.defineProperty(Worker.prototype, 'onmessage', {
    ...slot,
    set(heard) { slot.set.call(this, timed(window.answered, heard)); },
});
const idle = window.requestIdleCallback;
window.requestIdleCallback = (work, ...rest) => 
    idle.call(window, timed(window.rested, work, () => window.framed((took) => window.rested.push(took))), ...rest);
";

/// Takes hold of the arrow that ends a size and moves it to and fro, a division of the rule or more each time, and back
/// to where it was, or the size would wander off from drag to drag: what follows from each move on the page's own thread,
/// all frames until its drawing is there, and what is made up for until the next move, 40 ms later or more, in ms.
const DRAG: &str = r"
const [name, moves, done] = arguments;
const size = [...document.querySelectorAll('svg [role=button], button, [role=button]')]
    .find((e) => (e.ariaLabel ?? '').startsWith(name));
const middle = (e) => { const r = e.getBoundingClientRect(); return [r.x + r.width / 2, r.y + r.height / 2]; };
const [x, y] = middle(size);
const far = (e) => { const [left, top] = middle(e); return Math.abs(left - x) + 4 * Math.abs(top - y); };
const arrow = [...document.querySelectorAll('.pull.arrow')].filter((e) => middle(e)[0] > x)
    .sort((a, b) => far(a) - far(b))[0];
const [left, top] = middle(arrow);
const soon = (then) => { const c = new MessageChannel(); c.port1.onmessage = then; c.port2.postMessage(0); };
const send = (kind, x, buttons) => arrow.dispatchEvent(new PointerEvent(kind, {
    bubbles: true, pointerId: 1, isPrimary: true, pointerType: 'mouse', button: kind === 'pointermove' ? -1 : 0,
    buttons, clientX: x, clientY: top,
}));
const sum = (times) => times.reduce((a, b) => a + b, 0);
const times = [];
const next = (index) => {
    if (index === moves) {
        send('pointermove', left, 1);
        setTimeout(() => { send('pointerup', left, 0); setTimeout(() => done(times), 500); }, 200);
        return;
    }
    window.answered.length = window.rested.length = 0;
    let handled = 0, frames = [];
    const start = performance.now();
    const frame = () => window.framed((took, heard) => {
        frames.push(took);
        // Until the one after the answer; where no thread draws there is none, and three are enough.
        if (heard === 0 && frames.length < 3) { frame(); return; }
        setTimeout(() => {
            times.push([handled + sum(window.answered), sum(frames), sum(window.rested)]);
            next(index + 1);
        }, Math.max(0, start + 40 - performance.now()));
    });
    frame();
    soon(() => { handled = performance.now() - start; });
    const place = index % 20;
    send('pointermove', left + 5 * (place < 10 ? place + 1 : 20 - place), 1);
};
send('pointerdown', left, 1);
setTimeout(() => next(0), 200);
";

/// Prints what a move costs on a desktop and on a phone.
pub fn measure() {
    for (what, view) in [
        ("desktop", View::desktop()),
        (
            "desktop, without the picture",
            View::desktop().with(super::NO_WEBGL2),
        ),
        ("phone", View::phone()),
        (
            "phone, without the picture",
            View::phone().with(super::NO_WEBGL2),
        ),
    ] {
        browse(what, view, |page| one(page, what));
    }
}

fn one(page: &Page, what: &str) {
    page.command(
        "Page.addScriptToEvaluateOnNewDocument",
        json!({ "source": WATCHED }),
    );
    page.reload();
    page.begin_with("Square-faced hammer");
    page.enter("hold weight at, kg", "1.2 kg");
    page.wait_for_text("held at 1.200 kg");
    page.open_part("front face");
    page.command("Page.bringToFront", json!({}));
    page.command("Emulation.setCPUThrottlingRate", json!({ "rate": SLOWED }));
    // In several drags, since a picture drawn in software takes longer than the driver waits.
    let times: Vec<[f64; 3]> = (0..DRAGS)
        .flat_map(|_| {
            let times = page.slow_script(DRAG, json!(["front face offset", WARM_UP + MOVES]));
            super::counted(&times, WARM_UP)
        })
        .collect();
    println!(
        "{what}, processor slowed {SLOWED} times: {} moves of a drag with weight and balance held, ms of the main thread",
        times.len()
    );
    line(
        "what follows from a move",
        times.iter().map(|[moved, ..]| *moved),
    );
    line("its frames", times.iter().map(|[_, frames, _]| *frames));
    line(
        "both",
        times.iter().map(|[moved, frames, _]| moved + frames),
    );
    line(
        "what is made up for in between",
        times.iter().map(|[.., rested]| *rested),
    );
}
