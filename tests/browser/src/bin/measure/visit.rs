//! A first visit over a slow network, from a server that stores its files compressed.

use std::time::Duration;

use headwright_browser::{Server, View, browse_from_nothing};
use serde_json::json;

/// The networks: name, kbit/s down, ms of delay for each request.
const NETWORKS: [(&str, f64, f64); 3] = [
    ("4 Mbit/s, 100 ms", 4_000.0, 100.0),
    ("1.6 Mbit/s, 150 ms", 1_600.0, 150.0),
    ("no limit", 0.0, 0.0),
];

/// Notes when the first sheet has been drawn and takes what is typed.
const NOTE: &str = r"
addEventListener('TrunkApplicationStarted', () => requestAnimationFrame(() => setTimeout(() => {
    window.usable = performance.now();
})));";

/// Prints when the first sheet is there, and when the fit and the picture are.
pub fn measure() {
    let server = Server::compressed();
    for (name, down, delay) in NETWORKS {
        browse_from_nothing(name, View::desktop().with(NOTE), |page| {
            page.command("Network.enable", json!({}));
            let throughput = if down > 0.0 {
                down * 1000.0 / 8.0
            } else {
                -1.0
            };
            page.command(
                "Network.emulateNetworkConditions",
                json!({ "offline": false, "latency": delay, "downloadThroughput": throughput,
                        "uploadThroughput": throughput }),
            );
            page.go(server.address());
            page.wait_for("textbox", "name of the head");
            std::thread::sleep(Duration::from_secs(5));
            let found = page.script(
                "const all = performance.getEntriesByType('resource');
                const end = (part) => Math.max(...all.filter((e) => e.name.includes(part)).map((e) => e.responseEnd));
                const before = all.filter((e) => e.responseEnd <= window.usable);
                return [window.usable, end('split_fit'), end('split_picture'),
                    before.reduce((sum, e) => sum + e.encodedBodySize, 0),
                    all.reduce((sum, e) => sum + e.encodedBodySize, 0),
                    performance.getEntriesByName('first-contentful-paint')[0]?.startTime];",
                json!([]),
            );
            let number = |k: usize| found[k].as_f64().unwrap_or(f64::NAN);
            println!(
                "first visit, {name}: something to read after {:.0} ms, usable after {:.0} ms with {:.1} kB; the fit after \
                 {:.0} ms, the picture after {:.0} ms, {:.1} kB in all",
                number(5),
                number(0),
                number(3) / 1000.0,
                number(1),
                number(2),
                number(4) / 1000.0,
            );
        });
    }
}
