//! A size dragged on the drawing, with weight and balance held and the processor slowed.

use std::time::Duration;

use headwright_browser::{Page, View, browse};
use serde_json::json;

use super::line;

/// How long the page is left alone before the first drag.
const SETTLED: Duration = Duration::from_secs(4);
/// By how much the processor is slowed.
const SLOWED: u32 = 4;
/// How many drags are made, of how many moves the time counts, and of how many before them, with which a drag begins, only
/// the longest is told.
const DRAGS: usize = 8;
const MOVES: usize = 25;
const BEGINNING: usize = 5;

/// Times, from before the page is loaded: each answer of the thread that draws with what follows from it; each frame that
/// is asked for or that shows something new, from its first callback to the end of its layout and painting; and what the
/// browser is asked to do when it has time, with the frame that shows it.
const WATCHED: &str = r"
window.answered = []; window.framed = []; window.rested = []; window.due = 0;
window.soon = (then) => scheduler.postTask(then, { priority: 'user-blocking' });
let rests = false, making = false;
const show = () => { if (window.due === 0) requestAnimationFrame(); };
const timed = (times, work, begun, ended) => work && ((...given) => {
    const start = performance.now();
    begun?.();
    soon(() => { times.push(performance.now() - start); ended?.(); });
    // What is put into a field is no change of the document.
    show();
    return work(...given);
});
const ask = window.requestAnimationFrame.bind(window);
window.requestAnimationFrame = (work) => {
    const times = rests ? window.rested : window.framed;
    window.due += 1;
    return ask((...given) => {
        if (!making) {
            making = true;
            const start = performance.now();
            soon(() => { making = false; times.push(performance.now() - start); });
        }
        window.due -= 1;
        return work?.(...given);
    });
};
new MutationObserver(show).observe(document, { subtree: true, childList: true, attributes: true, characterData: true });
const slot = Object.getOwnPropertyDescriptor(Worker.prototype, 'onmessage');
Object.defineProperty(Worker.prototype, 'onmessage', {
    ...slot,
    set(heard) { slot.set.call(this, timed(window.answered, heard)); },
});
const idle = window.requestIdleCallback;
window.requestIdleCallback = (work, ...rest) => idle.call(
    window, timed(window.rested, work, () => { rests = true; }, () => { rests = false; }), ...rest);
";

/// Takes hold of the arrow that ends a size, moves it to and fro, a division of the rule or more each time, 40 ms or more
/// apart, and lets go where it was, or the size would wander off from drag to drag. For the hold, for each move and for
/// letting go: what follows on the page's own thread, its frames until all is shown, and what is made up for after that, ms.
const DRAG: &str = r"
const [name, step, moves, done] = arguments;
const size = [...document.querySelectorAll('svg [role=button], button, [role=button]')]
    .find((e) => (e.ariaLabel ?? '').startsWith(name));
const middle = (e) => { const r = e.getBoundingClientRect(); return [r.x + r.width / 2, r.y + r.height / 2]; };
const [x, y] = middle(size);
const far = (e) => { const [left, top] = middle(e); return Math.abs(left - x) + 4 * Math.abs(top - y); };
const arrow = [...document.querySelectorAll('.pull.arrow')].filter((e) => middle(e)[0] > x)
    .sort((a, b) => far(a) - far(b))[0];
const [left, top] = middle(arrow);
const sum = (times) => times.reduce((a, b) => a + b, 0);
const times = [];
const send = (kind, x, buttons, least) => new Promise((told) => {
    window.answered.length = window.framed.length = window.rested.length = 0;
    let handled = 0;
    const start = performance.now();
    soon(() => { handled = performance.now() - start; });
    arrow.dispatchEvent(new PointerEvent(kind, {
        bubbles: true, pointerId: 1, isPrimary: true, pointerType: 'mouse', button: kind === 'pointermove' ? -1 : 0,
        buttons, clientX: x, clientY: top,
    }));
    const over = () => {
        const waited = performance.now() - start;
        // Where no thread draws no answer comes.
        if (window.due > 0 || window.answered.length === 0 && waited < 120) { setTimeout(over, 10); return; }
        times.push([handled + sum(window.answered), sum(window.framed), sum(window.rested)]);
        told();
    };
    setTimeout(over, least);
});
(async () => {
    await send('pointerdown', left, 1, 200);
    for (let index = 0; index < moves; index += 1) {
        const place = index % 20;
        await send('pointermove', left + step * (place < 10 ? place + 1 : 20 - place), 1, 40);
    }
    await send('pointermove', left, 1, 40);
    times.pop();
    await send('pointerup', left, 0, 500);
    done(times);
})();
";

/// A page of nothing but what is dragged and one text that changes with what a thread answers after ten milliseconds: what
/// this browser and this machine cost by themselves.
const BARE: &str = "data:text/html,<svg width=900 height=600>\
    <rect class='pull arrow' role=button aria-label='front face offset' x=100 y=100 width=20 height=20 />\
    <rect class='pull arrow' x=200 y=100 width=20 height=20 /></svg><p>0</p>";
const BARE_WORK: &str = r"
const waits = 'onmessage = (e) => { const s = performance.now(); while (performance.now() - s < 10); postMessage(e.data); }';
const worker = new Worker(URL.createObjectURL(new Blob([waits])));
worker.onmessage = (event) => { document.querySelector('p').textContent = event.data; };
document.querySelectorAll('.pull')[1].addEventListener('pointermove', (event) => worker.postMessage(event.clientX));
";

/// Prints what a move costs on a desktop and on a phone, within what the holds can follow and beyond it, and on a bare page.
pub fn measure() {
    println!("drags with weight and balance held, then of a bare page");
    for (what, view, step) in [
        ("desktop", View::desktop(), 5),
        (
            "desktop, without the picture",
            View::desktop().with(super::NO_WEBGL2),
            5,
        ),
        ("desktop, holds out of reach", View::desktop(), 12),
        ("phone", View::phone(), 2),
        (
            "phone, without the picture",
            View::phone().with(super::NO_WEBGL2),
            2,
        ),
        ("phone, holds out of reach", View::phone(), 5),
    ] {
        browse(what, view, |page| {
            watch(page);
            page.reload();
            page.begin_with("Square-faced hammer");
            page.enter("hold weight at, kg", "1.2 kg");
            page.wait_for_text("held at 1.200 kg");
            page.open_part("front face");
            drag(page, what, step);
        });
    }
    browse("bare page", View::desktop(), |page| {
        watch(page);
        page.command("Page.navigate", json!({ "url": BARE }));
        page.script(BARE_WORK, json!([]));
        drag(page, "a bare page", 5);
    });
}

fn watch(page: &Page) {
    page.command(
        "Page.addScriptToEvaluateOnNewDocument",
        json!({ "source": WATCHED }),
    );
}

/// `step`: how far a move goes, px.
fn drag(page: &Page, what: &str, step: u32) {
    // What is fetched after the first page has come and is drawn.
    std::thread::sleep(SETTLED);
    page.command("Page.bringToFront", json!({}));
    page.command("Emulation.setCPUThrottlingRate", json!({ "rate": SLOWED }));
    let both = |[moved, frames, _]: [f64; 3]| moved + frames;
    // In several drags, since one of all moves would last longer than the driver waits.
    let (mut ends, mut times) = (Vec::new(), Vec::new());
    for _ in 0..DRAGS {
        let arguments = json!(["front face offset", step, BEGINNING + MOVES]);
        let mut moves = super::counted::<3>(&page.slow_script(DRAG, arguments), 0);
        let rest = moves.split_off(1 + BEGINNING);
        let begun = moves[1..].iter().copied().map(both).fold(0.0, f64::max);
        let (over, rest) = rest.split_last().expect("letting go is the last");
        ends.push([both(moves[0]), begun, both(*over)]);
        times.extend_from_slice(rest);
    }
    println!(
        "{what}, processor slowed {SLOWED} times: {} moves of a drag, ms of the main thread",
        times.len()
    );
    line("what follows from a move", times.iter().map(|time| time[0]));
    line("its frames", times.iter().map(|time| time[1]));
    line("both", times.iter().copied().map(both));
    line("made up for in between", times.iter().map(|time| time[2]));
    for (end, what) in ["taking hold", "beginning to move", "letting go"]
        .into_iter()
        .enumerate()
    {
        line(what, ends.iter().map(|ends| ends[end]));
    }
}
