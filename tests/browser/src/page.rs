//! One browser window with a profile of its own.

use std::path::PathBuf;
use std::time::{Duration, Instant};

use base64::Engine;
use base64::prelude::BASE64_STANDARD;
use serde_json::{Value, json};

use crate::browser::Browser;
use crate::picture::Picture;
use crate::wire::Wire;
use crate::{address, output};

/// How long the page may take to show what follows from an event; the machine may be busy.
pub(crate) const PATIENCE: Duration = Duration::from_secs(15);
/// How often is looked.
const GLANCE: Duration = Duration::from_millis(40);

/// Size of the window, and how the page is worked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct View {
    /// Width in CSS pixels.
    pub width: u32,
    /// Height in CSS pixels.
    pub height: u32,
    /// Whether it is a phone: worked by touch, and laid out as one.
    pub phone: bool,
    /// Whether the system asks for a dark look.
    pub dark: bool,
    /// Script that runs before the page's own.
    pub before: &'static str,
}

impl View {
    /// A desktop of 1440 × 900.
    pub const fn desktop() -> Self {
        Self::sized(1440, 900)
    }

    /// A large desktop of 1920 × 1080.
    pub const fn wide() -> Self {
        Self::sized(1920, 1080)
    }

    /// A phone of 360 × 780, worked by touch.
    pub const fn phone() -> Self {
        Self {
            phone: true,
            ..Self::sized(360, 780)
        }
    }

    /// A phone of 844 × 390, held lying.
    pub const fn lying() -> Self {
        Self {
            phone: true,
            ..Self::sized(844, 390)
        }
    }

    /// A desktop of 1440 × 900 at a zoom of 200 %.
    pub const fn enlarged() -> Self {
        Self::sized(720, 450)
    }

    /// The same in the system's dark look.
    pub const fn dark(self) -> Self {
        Self { dark: true, ..self }
    }

    /// The same with a script that runs before the page's own.
    pub const fn with(self, before: &'static str) -> Self {
        Self { before, ..self }
    }

    const fn sized(width: u32, height: u32) -> Self {
        Self {
            width,
            height,
            phone: false,
            dark: false,
            before: "",
        }
    }
}

/// A browser window.
pub struct Page {
    pub(crate) wire: Wire,
    /// Its size and how it is worked.
    pub view: View,
}

impl Page {
    /// Opens an empty window with a new profile.
    pub fn open(view: View) -> Self {
        let metrics = json!({ "width": view.width, "height": view.height, "pixelRatio": 2.0,
                              "touch": true, "mobile": true });
        let phone = view.phone.then(|| json!({ "deviceMetrics": metrics }));
        let page = Self {
            wire: Browser::of_this_run().session(phone),
            view,
        };
        page.show_as_viewed();
        if !view.before.is_empty() {
            page.command(
                "Page.addScriptToEvaluateOnNewDocument",
                json!({ "source": view.before }),
            );
        }
        page
    }

    /// Gives the window its size and its look.
    pub(crate) fn show_as_viewed(&self) {
        let view = self.view;
        if !view.phone {
            self.command(
                "Emulation.setDeviceMetricsOverride",
                json!({ "width": view.width, "height": view.height, "deviceScaleFactor": 1, "mobile": false }),
            );
        }
        let scheme = if view.dark { "dark" } else { "light" };
        self.command(
            "Emulation.setEmulatedMedia",
            json!({ "features": [{ "name": "prefers-color-scheme", "value": scheme }] }),
        );
    }

    /// Closes the window; one that has died is closed already.
    pub fn close(self) {
        let _ = self.wire.delete("");
    }

    /// Loads the app with this fragment, with its `#` or empty, and waits until it is laid out.
    pub fn load(&self, fragment: &str) {
        self.go(&format!("{}{fragment}", address()));
    }

    /// Loads an address of the app.
    pub fn go(&self, url: &str) {
        self.post("url", json!({ "url": url }));
        self.wait_until_laid_out();
    }

    /// Puts a fragment into the address of the page that is open, as writing into the address bar
    /// does: the page stays.
    pub fn change_fragment(&self, fragment: &str) {
        self.script("location.hash = arguments[0]", json!([fragment]));
    }

    /// Loads the page again.
    pub fn reload(&self) {
        self.post("refresh", json!({}));
        self.wait_until_laid_out();
    }

    fn wait_until_laid_out(&self) {
        self.wait("the app is laid out", || {
            let done =
                "return document.readyState === 'complete' && !document.getElementById('starting')";
            self.script(done, json!([])) == json!(true)
        });
    }

    /// What stands in the address bar.
    pub fn url(&self) -> String {
        let url = self.wire.get("url").unwrap_or_else(|e| panic!("{e}"));
        url.as_str().expect("an address is a text").to_owned()
    }

    /// All text that is to be seen on the page.
    pub fn text(&self) -> String {
        let text = self.script("return document.body.innerText", json!([]));
        one_line(text.as_str().unwrap_or_default())
    }

    /// Waits until the page shows `text`.
    pub fn wait_for_text(&self, text: &str) {
        self.wait(&format!("the page says “{text}”"), || {
            self.text().contains(text)
        });
    }

    /// Waits until `seen` holds; `what` names it where it never does.
    pub fn wait(&self, what: &str, mut seen: impl FnMut() -> bool) {
        let end = Instant::now() + PATIENCE;
        while !seen() {
            assert!(Instant::now() < end, "waited {PATIENCE:?} in vain: {what}");
            std::thread::sleep(GLANCE);
        }
    }

    /// Waits until a question has the same answer for half a second, and returns it.
    pub fn rest<T: PartialEq + std::fmt::Debug>(&self, mut ask: impl FnMut() -> T) -> T {
        let end = Instant::now() + PATIENCE;
        let mut answer = ask();
        loop {
            std::thread::sleep(Duration::from_millis(500));
            let next = ask();
            if next == answer {
                return next;
            }
            assert!(Instant::now() < end, "never came to rest: {next:?}");
            answer = next;
        }
    }

    /// Runs a script with these arguments: for looking, not for working the page.
    pub fn script(&self, script: &str, arguments: Value) -> Value {
        self.post(
            "execute/sync",
            json!({ "script": script, "args": arguments }),
        )
    }

    /// Runs a script that calls its last argument when it is done.
    pub fn slow_script(&self, script: &str, arguments: Value) -> Value {
        self.post(
            "execute/async",
            json!({ "script": script, "args": arguments }),
        )
    }

    /// A command of the browser's own protocol.
    pub fn command(&self, method: &str, params: Value) -> Value {
        self.wire
            .browser_command(method, &params)
            .unwrap_or_else(|error| panic!("{error}"))
    }

    pub(crate) fn post(&self, path: &str, body: Value) -> Value {
        self.wire
            .post(path, &body)
            .unwrap_or_else(|error| panic!("{path}: {error}"))
    }

    /// The errors that the page wrote to its console since they were last asked for.
    pub fn console_errors(&self) -> Vec<String> {
        let log = self.post("se/log", json!({ "type": "browser" }));
        let entries = log.as_array().cloned().unwrap_or_default();
        entries
            .iter()
            .filter(|entry| entry["level"] == "SEVERE")
            .map(|entry| entry["message"].as_str().unwrap_or_default().to_owned())
            .collect()
    }

    /// The picture of what is in the window.
    pub fn picture(&self) -> Picture {
        self.photograph(json!({ "format": "png" })).1
    }

    /// The picture of a rectangle of the window: left, top, width and height in CSS pixels, to whole
    /// ones, since a picture between pixels is blurred.
    pub fn picture_of(&self, bounds: [f64; 4]) -> Picture {
        let [x, y, width, height] = bounds.map(f64::round);
        let scroll = self.script("return [scrollX, scrollY]", json!([]));
        let at = |index: usize| scroll[index].as_f64().unwrap_or_default();
        let clip =
            json!({ "x": x + at(0), "y": y + at(1), "width": width, "height": height, "scale": 1 });
        self.photograph(json!({ "format": "png", "clip": clip })).1
    }

    /// Leaves a picture of the window in the output folder.
    pub fn save_picture(&self, name: &str) -> PathBuf {
        self.save(name, json!({ "format": "png" }))
    }

    /// Leaves a picture of the whole page, however long, in the output folder.
    pub fn save_long_picture(&self, name: &str) -> PathBuf {
        self.save(
            name,
            json!({ "format": "png", "captureBeyondViewport": true, "clip": self.extent() }),
        )
    }

    fn extent(&self) -> Value {
        self.script(
            "const e = document.documentElement;
             return { x: 0, y: 0, width: innerWidth, height: e.scrollHeight, scale: 1 }",
            json!([]),
        )
    }

    fn save(&self, name: &str, params: Value) -> PathBuf {
        let (bytes, _) = self.photograph(params);
        let path = output().join(format!("{name}.png"));
        std::fs::write(&path, bytes).expect("the picture can be written");
        path
    }

    fn photograph(&self, params: Value) -> (Vec<u8>, Picture) {
        let answer = self.command("Page.captureScreenshot", params);
        let data = answer["data"].as_str().expect("a picture is a text");
        let bytes = BASE64_STANDARD.decode(data).expect("pictures are base64");
        let picture = Picture::read(&bytes);
        (bytes, picture)
    }
}

/// `text` with every run of blanks and line ends as one blank.
pub(crate) fn one_line(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}
