//! Measures, without judging, how long an edit keeps the browser's main thread, what a long session takes of memory,
//! how long a first visit lasts, and how much there is to download:
//!
//! ```text
//! cargo run --manifest-path tests/browser/Cargo.toml --bin measure [edits|drag|growth|visit|core|download ...]
//! ```
//!
//! Each edit types another cheek width while weight and balance are held, so the fit runs, the
//! masses follow, and drawing and picture are made anew. Counted are the handlers with what
//! follows from them, and the next frame from its first callback to the end of its layout; not the
//! waiting in between. Drawing in software, as here, is done by another process, but the page may
//! have to wait for it: so the same is measured without the picture.
//!
//! The core alone is timed as well: `benches/web` is built as the app is and run in the page.

use std::io::Write;
use std::path::Path;
use std::process::Command;

use base64::prelude::{BASE64_STANDARD, Engine as _};
use flate2::Compression;
use flate2::write::GzEncoder;
use headwright_browser::{Page, View, browse, dist};
use serde_json::{Value, json};

mod drag;
mod growth;
mod visit;

/// How many edits are counted; the first few before them warm up.
const EDITS: usize = 200;
const WARM_UP: usize = 10;
const PART: usize = 30;

/// What browsers run.
const WASM: &str = "wasm32-unknown-unknown";

const NO_WEBGL2: &str = "const real = HTMLCanvasElement.prototype.getContext;
HTMLCanvasElement.prototype.getContext = function (kind, ...rest) {
    return kind === 'webgl2' ? null : real.call(this, kind, ...rest);
};";

/// Types values into a field and times what each costs: handlers, then the frame, in ms.
const EDIT: &str = r"
const [name, values, done] = arguments;
const field = [...document.querySelectorAll('input')].find((e) => e.ariaLabel === name);
const write = Object.getOwnPropertyDescriptor(HTMLInputElement.prototype, 'value').set;
const soon = (then) => { const c = new MessageChannel(); c.port1.onmessage = then; c.port2.postMessage(0); };
const times = [];
const next = (index) => {
    if (index === values.length) { done(times); return; }
    let handled = 0;
    const start = performance.now();
    requestAnimationFrame(() => {
        const frame = performance.now();
        soon(() => {
            times.push([handled - start, performance.now() - frame]);
            setTimeout(() => next(index + 1), 30);
        });
    });
    soon(() => { handled = performance.now(); });
    write.call(field, values[index]);
    field.dispatchEvent(new InputEvent('input', { bubbles: true }));
};
field.focus();
setTimeout(() => next(0), 200);
";

/// What can be measured, in its order.
const ALL: [(&str, fn()); 6] = [
    ("edits", edits),
    ("drag", drag::measure),
    ("growth", growth::measure),
    ("visit", visit::measure),
    ("core", || browse("the core alone", View::desktop(), core)),
    ("download", download),
];

fn main() {
    let asked: Vec<String> = std::env::args().skip(1).collect();
    for (name, measure) in ALL {
        if asked.is_empty() || asked.iter().any(|asked| asked == name) {
            measure();
        }
    }
}

fn edits() {
    for (what, view) in [
        ("desktop, picture drawn in software", View::desktop()),
        (
            "desktop, without the picture",
            View::desktop().with(NO_WEBGL2),
        ),
        ("phone, picture drawn in software", View::phone()),
        ("phone, without the picture", View::phone().with(NO_WEBGL2)),
    ] {
        browse(what, view, |page| measure(page, what));
    }
}

/// The tasks of `benches/web`, in its order.
const TASKS: [&str; 12] = [
    "mass, centroid, inertia",
    "surface area",
    "fit, four free",
    "fit, twelve free",
    "mesh for the screen",
    "its normals and edges",
    "drawing, laid out",
    "mass with all derivatives",
    "fine mesh, 0.0015 mm",
    "fine mesh as STL",
    "fine mesh as 3MF",
    "fine mesh as glTF",
];

/// Times a task in rounds of at least 100 ms: the median of ten rounds, ms for each.
const TIME: &str = r"
const [module, tasks, done] = arguments;
const bytes = Uint8Array.from(atob(module), (c) => c.charCodeAt(0));
WebAssembly.compile(bytes).then((module) => {
    // What the core is built with may ask for imports that nothing here calls.
    const imports = {};
    for (const { module: from, name } of WebAssembly.Module.imports(module)) {
        (imports[from] ??= {})[name] = () => 0;
    }
    return WebAssembly.instantiate(module, imports);
}).then((instance) => {
    const task = instance.exports.task;
    const round = (which, times) => {
        const start = performance.now();
        task(which, times);
        return performance.now() - start;
    };
    done(tasks.map((_, which) => {
        let times = 1;
        while (round(which, times) < 100) times *= 2;
        const rounds = Array.from({ length: 10 }, () => round(which, times) / times);
        return rounds.sort((a, b) => a - b)[5];
    }));
});
";

/// How many cases of four holds and twelve free sizes are fitted.
const CASES: u32 = 2000;

/// Fits every case once: times in ms, in order, and how many were met.
const FITS: &str = r"
const [module, cases, done] = arguments;
const bytes = Uint8Array.from(atob(module), (c) => c.charCodeAt(0));
WebAssembly.compile(bytes).then((module) => {
    // What the core is built with may ask for imports that nothing here calls.
    const imports = {};
    for (const { module: from, name } of WebAssembly.Module.imports(module)) {
        (imports[from] ??= {})[name] = () => 0;
    }
    return WebAssembly.instantiate(module, imports);
}).then((instance) => {
    const { make_case, fit_case } = instance.exports;
    let met = 0;
    const times = Array.from({ length: cases }, (_, number) => {
        make_case(number);
        const start = performance.now();
        met += fit_case();
        return performance.now() - start;
    });
    done([met, times.sort((a, b) => a - b)]);
});
";

/// Builds the core for the browser and times it in the page.
fn core(page: &Page) {
    let package = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../benches/web");
    let built = Command::new("cargo")
        .args(["build", "--release", "--locked", "--target", WASM])
        .current_dir(&package)
        .env_remove("CARGO_TARGET_DIR")
        .status();
    assert!(
        built.is_ok_and(|status| status.success()),
        "benches/web cannot be built"
    );
    let module = package
        .join("target")
        .join(WASM)
        .join("release/headwright_timed.wasm");
    let module = std::fs::read(module).expect("the module was just built");
    let module = BASE64_STANDARD.encode(module);
    let times = page.slow_script(TIME, json!([module, TASKS]));
    println!("the core alone, ms");
    for (what, time) in TASKS.iter().zip(times.as_array().into_iter().flatten()) {
        println!("  {what:<26} {:8.3}", time.as_f64().unwrap_or(f64::NAN));
    }
    let fits = page.slow_script(FITS, json!([module, CASES]));
    let times = fits[1].as_array();
    let share = |share: f64| {
        let place = (share * f64::from(CASES - 1)) as usize;
        let time = times.and_then(|times| times.get(place)?.as_f64());
        time.unwrap_or(f64::NAN)
    };
    println!(
        "  fit, four holds, twelve free: median {:.2}, 99th percentile {:.2}, most {:.2}; {} of \
         {CASES} met",
        share(0.5),
        share(0.99),
        share(1.0),
        fits[0]
    );
}

fn measure(page: &Page, what: &str) {
    page.begin_with("Square-faced hammer");
    page.enter("hold weight at, kg", "1.2 kg");
    page.wait_for_text("held at 1.200 kg");
    page.open_part("cheeks");
    page.wait_for("textbox", "cheek width, mm");
    page.command("Page.bringToFront", json!({}));
    let values: Vec<String> = (0..WARM_UP + EDITS)
        .map(|i| format!("{:.1}", 40.0 + (i % 50) as f64 / 10.0))
        .collect();
    // In small parts, since a picture drawn in software takes longer than the driver waits.
    let times: Vec<[f64; 2]> = values
        .chunks(PART)
        .flat_map(|part| {
            let times = page.slow_script(EDIT, json!(["cheek width, mm", part]));
            counted(&times, 0)
        })
        .skip(WARM_UP)
        .collect();
    println!(
        "{what}: {} edits with weight and balance held, ms of the main thread",
        times.len()
    );
    line(
        "handlers and what follows",
        times.iter().map(|[handlers, _]| *handlers),
    );
    line("the frame", times.iter().map(|[_, frame]| *frame));
    line(
        "both",
        times.iter().map(|[handlers, frame]| handlers + frame),
    );
    marks(page);
}

/// What a list of times has for each thing that was timed, without the first `skipped`.
fn counted<const N: usize>(times: &Value, skipped: usize) -> Vec<[f64; N]> {
    let counted = times.as_array().into_iter().flatten().skip(skipped);
    counted
        .map(|one| std::array::from_fn(|i| one[i].as_f64().unwrap_or(f64::NAN)))
        .collect()
}

fn line(what: &str, values: impl Iterator<Item = f64>) {
    let mut values: Vec<f64> = values.collect();
    values.sort_by(f64::total_cmp);
    let at = |share: f64| {
        let index = (share * values.len() as f64).ceil() as usize;
        values
            .get(index.saturating_sub(1))
            .copied()
            .unwrap_or(f64::NAN)
    };
    println!(
        "  {what:<26} median {:5.1}  90 % {:5.1}  99 % {:5.1}  most {:5.1}",
        at(0.5),
        at(0.9),
        at(0.99),
        at(1.0)
    );
}

/// The times that the app itself has marked, if it does.
fn marks(page: &Page) {
    let marked = page.script(
        "const all = {};
         for (const m of performance.getEntriesByType('measure')) (all[m.name] ??= []).push(m.duration);
         return all",
        json!([]),
    );
    for (name, durations) in marked.as_object().into_iter().flatten() {
        let durations = durations.as_array().into_iter().flatten();
        line(name, durations.filter_map(Value::as_f64));
    }
}

/// Prints the size of every kind of file as a server would compress it.
fn download() {
    let mut kinds: Vec<(String, usize, usize)> = Vec::new();
    let mut folders = vec![dist()];
    while let Some(folder) = folders.pop() {
        for entry in std::fs::read_dir(folder).into_iter().flatten().flatten() {
            let path = entry.path();
            if path.is_dir() {
                folders.push(path);
                continue;
            }
            let bytes = std::fs::read(&path).unwrap_or_default();
            let mut packer = GzEncoder::new(Vec::new(), Compression::best());
            let packed = packer.write_all(&bytes).and_then(|()| packer.finish());
            // What grows by compression is sent as it is.
            let sent = packed.map_or(bytes.len(), |packed| packed.len().min(bytes.len()));
            let kind = path
                .extension()
                .unwrap_or_default()
                .to_string_lossy()
                .into_owned();
            match kinds.iter_mut().find(|(name, ..)| *name == kind) {
                Some((_, raw, gzip)) => {
                    *raw += bytes.len();
                    *gzip += sent;
                }
                None => kinds.push((kind, bytes.len(), sent)),
            }
        }
    }
    let kb = |bytes: usize| bytes as f64 / 1000.0;
    println!("download, kB compressed with gzip -9 (as it lies)");
    for (kind, raw, gzip) in &kinds {
        println!("  {kind:<6} {:8.1} ({:.1})", kb(*gzip), kb(*raw));
    }
    let all: usize = kinds.iter().map(|(_, _, gzip)| gzip).sum();
    println!("  all    {:8.1}", kb(all));
}
