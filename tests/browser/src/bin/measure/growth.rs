//! What a long session takes of memory.

use headwright_browser::{Page, View, browse};
use serde_json::json;

/// How many edits are made, and after how many it is looked.
const EDITS: usize = 10_000;
const LOOK: usize = 1_000;
/// How many more are made that are taken back at once.
const TAKEN_BACK: usize = 2_000;

/// Remembers the memory of the app's module.
const REMEMBER: &str = r"
const real = WebAssembly.instantiateStreaming;
WebAssembly.instantiateStreaming = async (...rest) => {
    const made = await real.apply(WebAssembly, rest);
    window.appMemory ??= made.instance.exports.memory;
    return made;
};";

/// Types values into a field and keeps each, a step of undo of its own; takes each back, if it is to.
const EDIT: &str = r"
const [name, from, count, back, done] = arguments;
const field = [...document.querySelectorAll('input')].find((e) => e.ariaLabel === name);
const write = Object.getOwnPropertyDescriptor(HTMLInputElement.prototype, 'value').set;
const next = (index) => {
    if (index === count) { done(null); return; }
    // No value that it has already.
    write.call(field, (40.05 + ((from + index) % 50) / 10).toFixed(2));
    field.dispatchEvent(new InputEvent('input', { bubbles: true }));
    field.dispatchEvent(new KeyboardEvent('keydown', { key: 'Enter', bubbles: true }));
    field.focus();
    if (back) {
        [...document.querySelectorAll('button')].find((e) => e.textContent.startsWith('undo ')).click();
    }
    setTimeout(() => next(index + 1), 0);
};
field.focus();
next(0);
";

/// Prints the memory after every thousand edits.
pub fn measure() {
    browse("many edits", View::desktop().with(REMEMBER), |page| {
        page.begin_with("Square-faced hammer");
        page.wait_for("textbox", "cheek width, mm");
        println!(
            "{EDITS} edits, each a step that can be undone: MB of the module, of scripts, nodes"
        );
        look(page, 0);
        let edit = |done: usize, back: bool| {
            for from in (done..done + LOOK).step_by(LOOK / 4) {
                page.slow_script(EDIT, json!(["cheek width, mm", from, LOOK / 4, back]));
            }
            look(page, done + LOOK);
        };
        (0..EDITS).step_by(LOOK).for_each(|done| edit(done, false));
        println!("{TAKEN_BACK} edits that are taken back at once");
        (0..TAKEN_BACK)
            .step_by(LOOK)
            .for_each(|done| edit(done, true));
    });
}

fn look(page: &Page, edits: usize) {
    page.command("HeapProfiler.collectGarbage", json!({}));
    let found = page.script(
        "return [window.appMemory?.buffer.byteLength ?? NaN, performance.memory.usedJSHeapSize,
            document.querySelectorAll('*').length]",
        json!([]),
    );
    let number = |k: usize| found[k].as_f64().unwrap_or(f64::NAN);
    println!(
        "  {edits:>6} {:8.2} {:8.2} {:6}",
        number(0) / 1e6,
        number(1) / 1e6,
        number(2)
    );
}
