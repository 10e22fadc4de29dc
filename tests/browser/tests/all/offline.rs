//! The app after one visit: without a network, and when a newer version comes.

use std::fs;
use std::path::{Path, PathBuf};

use headwright_browser::{Page, Server, View, browse_from_nothing, dist};
use serde_json::json;

/// A copy of the built app that a test may change; gone with it.
struct Copy(PathBuf);

impl Copy {
    fn new(name: &str) -> Self {
        let folder = std::env::temp_dir().join(format!("headwright-{name}-{}", std::process::id()));
        copy(&dist(), &folder);
        Self(folder)
    }

    /// Changes the file `name`.
    fn change(&self, name: &str, change: impl FnOnce(String) -> String) {
        let path = self.0.join(name);
        let text = fs::read_to_string(&path).expect("a file of the app");
        fs::write(path, change(text)).expect("it can be written");
    }
}

impl Drop for Copy {
    fn drop(&mut self) {
        // What is left lies in the folder for such things.
        let _ = fs::remove_dir_all(&self.0);
    }
}

fn copy(from: &Path, to: &Path) {
    fs::create_dir_all(to).expect("a folder can be made");
    for entry in fs::read_dir(from).expect("the built app").flatten() {
        let (path, place) = (entry.path(), to.join(entry.file_name()));
        if path.is_dir() {
            copy(&path, &place);
        } else {
            fs::copy(path, place).expect("a file can be copied");
        }
    }
}

/// Waits until the worker of the page has kept all files and takes its requests.
fn kept(page: &Page) {
    page.wait("the files are kept", || {
        let taken = page.script(
            "return navigator.serviceWorker.controller?.state === 'activated'",
            json!([]),
        );
        taken == json!(true)
    });
}

fn works_without_a_server(name: &str, view: View) {
    let copy = Copy::new(name);
    let server = Server::of(copy.0.clone());
    browse_from_nothing(name, view, |page| {
        page.go(server.address());
        page.wait_for("textbox", "name of the head");
        kept(page);
        server.stop();
        page.reload();
        page.begin_with("Cross pein hammer");
        page.enter("hold weight at, kg", "1.2 kg");
        page.wait_for_text("held at 1.200 kg");
        for (sheet, says) in [
            ("handle", "parts of the handle"),
            ("bar", " of steel."),
            ("heat", "the work, step by step"),
            ("swing", "The short one"),
        ] {
            page.press("button", sheet);
            page.wait_for_text(says);
        }
        page.save_picture(&format!("{name}-swing"));
        page.press("button", "head");
        page.press("button", "copy link");
        page.wait_for_text("The link");
        // Once more, from what the browser keeps.
        page.reload();
        page.wait_for_text("held at 1.200 kg");
    });
}

#[test]
fn after_one_visit_everything_works_without_a_server() {
    works_without_a_server("without-a-server", View::desktop());
}

#[test]
fn after_one_visit_a_phone_works_without_a_server() {
    works_without_a_server("phone-without-a-server", View::phone());
}

/// A sentence that the page of the newer version has in its head.
const NEWER: &str = "the newer version of this test";

/// Makes `copy` another version, whose worker of cutting lists is another too: one that breaks off.
fn renew(copy: &Copy) {
    let cutter = cutter(copy);
    let newer = |text: String| text.replace(&cutter, "headwright-cutter-newer");
    for end in [".js", "_bg.wasm", "_loader.js"] {
        let [old, new] =
            [&cutter, "headwright-cutter-newer"].map(|stem| copy.0.join(format!("{stem}{end}")));
        fs::rename(old, new).expect("a file of the worker");
    }
    copy.change("headwright-cutter-newer_loader.js", |_| {
        "throw new Error('newer')".to_owned()
    });
    copy.change("index.html", |page| {
        newer(page.replace("Shape a forged hammer head", NEWER))
    });
    copy.change("offline.js", |worker| {
        newer(worker.replace("const VERSION = \"", "const VERSION = \"newer-"))
    });
}

/// How the names of the worker's files begin: with what they are.
fn cutter(copy: &Copy) -> String {
    let names = fs::read_dir(&copy.0).expect("the built app").flatten();
    let mut names = names.filter_map(|entry| entry.file_name().into_string().ok());
    let loader = names.find_map(|name| {
        let stem = name.strip_suffix("_loader.js")?;
        Some(stem.strip_prefix("headwright-cutter-")?.to_owned())
    });
    let hash = loader.expect("a worker with a hash in its name");
    assert!(
        hash.len() == 16 && hash.chars().all(|c| c.is_ascii_hexdigit()),
        "{hash}"
    );
    format!("headwright-cutter-{hash}")
}

fn is_newer(page: &Page) -> bool {
    let description = page.script(
        "return document.querySelector('meta[name=description]').content",
        json!([]),
    );
    description
        .as_str()
        .is_some_and(|text| text.contains(NEWER))
}

#[test]
fn a_newer_version_is_taken_up_at_a_press_and_the_design_stays() {
    let copy = Copy::new("taken-up");
    let server = Server::of(copy.0.clone());
    browse_from_nothing("a newer version is taken up", View::desktop(), |page| {
        page.go(server.address());
        page.begin_with("Cross pein hammer");
        kept(page);
        page.enter("cheek width, mm", "43");
        renew(&copy);
        page.script(
            "navigator.serviceWorker.getRegistration().then((r) => r.update())",
            json!([]),
        );
        page.wait_for_text("A newer version of Headwright is here.");
        page.save_picture("newer-version");
        assert!(!is_newer(page));
        // The last change goes along, too.
        page.enter("cheek height, mm", "41");
        page.press("button", "take it up");
        page.wait("the page is the newer one", || is_newer(page));
        page.wait_for_value("cheek width, mm", "43");
        page.wait_for_value("cheek height, mm", "41");
        page.wait_for_value("name of the head", "Cross pein hammer");
    });
}

#[test]
fn a_newer_version_that_was_left_waiting_is_there_at_the_next_visit() {
    let copy = Copy::new("left-waiting");
    let server = Server::of(copy.0.clone());
    browse_from_nothing("a newer version waits", View::desktop(), |page| {
        page.go(server.address());
        page.begin_with("Cross pein hammer");
        kept(page);
        renew(&copy);
        page.script(
            "navigator.serviceWorker.getRegistration().then((r) => r.update())",
            json!([]),
        );
        page.wait_for_text("A newer version of Headwright is here.");
        page.reload();
        page.wait("the page is the newer one", || is_newer(page));
        page.wait_for_value("name of the head", "Cross pein hammer");
    });
}

#[test]
fn a_page_that_is_left_open_over_an_update_works_with_its_own_worker() {
    let copy = Copy::new("left-open");
    let server = Server::of(copy.0.clone());
    browse_from_nothing("left open over an update", View::desktop(), |page| {
        page.go(server.address());
        page.begin_with("Cross pein hammer");
        kept(page);
        page.press("button", "bar");
        let add = page.wait_for("button", "add this head…");
        let old = page.window();
        page.open_window();
        page.go(server.address());
        page.wait_for("textbox", "name of the head");
        renew(&copy);
        page.script(
            "navigator.serviceWorker.getRegistration().then((r) => r.update())",
            json!([]),
        );
        page.wait_for_text("A newer version of Headwright is here.");
        page.press("button", "take it up");
        page.wait("the page is the newer one", || is_newer(page));
        server.stop();
        page.go_to_window(&old);
        assert!(!is_newer(page));
        page.press("button", &add.name);
        page.enter("stock 1, length of a bar, mm", "1 m");
        page.press("button", "find the cutting list");
        page.wait_for_region("many heads", "proved, gap 0 %");
    });
}

#[test]
fn the_manifest_names_pictures_that_are_there() {
    let text = fs::read_to_string(dist().join("manifest.webmanifest")).expect("a manifest");
    let manifest: serde_json::Value = serde_json::from_str(&text).expect("it is JSON");
    let icons = manifest["icons"].as_array().expect("a list");
    assert!(icons.len() >= 2);
    for icon in icons {
        let file =
            fs::File::open(dist().join(icon["src"].as_str().expect("a name"))).expect("a file");
        let picture = png::Decoder::new(std::io::BufReader::new(file))
            .read_info()
            .expect("a picture");
        let (width, height) = picture.info().size();
        assert_eq!(icon["sizes"], format!("{width}x{height}"));
    }
    for name in ["name", "short_name", "start_url", "display"] {
        assert!(manifest[name].is_string(), "{name}");
    }
}

#[test]
fn the_page_loads_nothing_from_elsewhere_and_runs_no_other_script() {
    browse_from_nothing("a strict policy", View::desktop(), |page| {
        page.load("");
        page.wait_for("textbox", "name of the head");
        let tried = page.slow_script(
            "const done = arguments[arguments.length - 1];
            const blocked = [];
            addEventListener('securitypolicyviolation', (e) => blocked.push(e.effectiveDirective));
            const script = document.createElement('script');
            script.textContent = 'window.ran = true';
            document.body.append(script);
            const picture = new Image();
            picture.src = 'http://127.0.0.2/elsewhere.png';
            fetch('http://127.0.0.2/elsewhere').catch(() => {});
            setTimeout(() => done([window.ran === true, blocked.sort()]), 500);",
            json!([]),
        );
        assert_eq!(
            tried,
            json!([false, ["connect-src", "img-src", "script-src-elem"]])
        );
        // What was tried is complained of, and nothing else.
        assert!(
            page.console_errors()
                .iter()
                .all(|error| error.contains("Content Security Policy"))
        );
    });
}
