//! Serves the built app on the loopback interface.

use std::collections::BTreeMap;
use std::io::{BufRead, BufReader, Write};
use std::net::{TcpListener, TcpStream};
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, Mutex, OnceLock};

/// The folder that holds the built app.
pub fn dist() -> PathBuf {
    let folder = std::env::var_os("HEADWRIGHT_DIST")
        .map_or_else(|| crate::package().join("../../dist"), PathBuf::from);
    assert!(
        folder.join("index.html").is_file(),
        "{} holds no built app: build it (.ci/check does), or name its folder with HEADWRIGHT_DIST",
        folder.display()
    );
    folder
}

/// The app's service worker, which keeps its files for visits without a network.
const OFFLINE: &str = "offline.js";

/// How files are sent.
#[derive(Clone, Copy, Default)]
struct Sends {
    /// Compressed, as by a server that stores them so.
    compressed: bool,
    /// The service worker as one that keeps nothing.
    keeps_nothing: bool,
}

/// A server of static files that lives as long as the process.
pub struct Server {
    address: String,
    stopped: Arc<AtomicBool>,
}

impl Server {
    /// The one server of this run. Its pages keep no files for later: each is of a new profile, and would fetch all of them
    /// for nothing.
    pub fn of_this_run() -> &'static Self {
        static SERVER: OnceLock<Server> = OnceLock::new();
        let sends = Sends {
            keeps_nothing: true,
            ..Sends::default()
        };
        SERVER.get_or_init(|| Self::start(dist(), sends))
    }

    /// One that sends its files as a server does that stores them compressed.
    pub fn compressed() -> &'static Self {
        static SERVER: OnceLock<Server> = OnceLock::new();
        SERVER.get_or_init(|| {
            // Before anyone waits for them.
            for entry in std::fs::read_dir(dist()).into_iter().flatten().flatten() {
                if let Ok(body) = std::fs::read(entry.path()) {
                    packed(&entry.file_name().to_string_lossy(), &body);
                }
            }
            let sends = Sends {
                compressed: true,
                ..Sends::default()
            };
            Self::start(dist(), sends)
        })
    }

    /// One of its own for `folder`, which may change while it serves and which can be stopped.
    pub fn of(folder: PathBuf) -> Self {
        Self::start(folder, Sends::default())
    }

    /// Takes no more requests: to the browser there is no such server any more.
    pub fn stop(&self) {
        self.stopped.store(true, Ordering::SeqCst);
        // So that it is noticed now and not at the next request.
        let _ = TcpStream::connect(
            self.address
                .trim_start_matches("http://")
                .trim_end_matches('/'),
        );
    }

    /// The address of the app, with the slash at its end.
    pub fn address(&self) -> &str {
        &self.address
    }

    fn start(folder: PathBuf, sends: Sends) -> Self {
        let listener = TcpListener::bind("127.0.0.1:0").expect("a free port on loopback");
        let port = listener.local_addr().expect("a bound port").port();
        let stopped = Arc::new(AtomicBool::new(false));
        let over = Arc::clone(&stopped);
        std::thread::spawn(move || {
            for stream in listener.incoming().flatten() {
                if over.load(Ordering::SeqCst) {
                    return;
                }
                let folder = folder.clone();
                // A browser that goes away in the middle of a file is its own affair.
                std::thread::spawn(move || answer(stream, &folder, sends).ok());
            }
        });
        Self {
            address: format!("http://127.0.0.1:{port}/"),
            stopped,
        }
    }
}

fn answer(mut stream: TcpStream, folder: &Path, sends: Sends) -> std::io::Result<()> {
    let mut lines = BufReader::new(stream.try_clone()?).lines();
    let request = lines.next().transpose()?.unwrap_or_default();
    for line in lines {
        if line?.is_empty() {
            break;
        }
    }
    let target = request.split(' ').nth(1).unwrap_or("/");
    let path = target.split(['?', '#']).next().unwrap_or("/");
    let name = match path.trim_start_matches('/') {
        "" => "index.html",
        name => name,
    };
    let inside = !name.split('/').any(|part| part == "..");
    let read = match name {
        OFFLINE if sends.keeps_nothing => Ok(Vec::new()),
        _ => std::fs::read(folder.join(name)),
    };
    let (status, kind, body) = match read {
        Ok(body) if inside => ("200 OK", kind(name), body),
        _ => ("404 Not Found", "text/plain", b"Not here.".to_vec()),
    };
    let (body, encoding) = match sends.compressed.then(|| packed(name, &body)).flatten() {
        Some(packed) => (packed, "Content-Encoding: br\r\n"),
        None => (body, ""),
    };
    write!(
        stream,
        "HTTP/1.1 {status}\r\nContent-Type: {kind}\r\nContent-Length: {}\r\n{encoding}\
         Cache-Control: no-cache\r\nConnection: close\r\n\r\n",
        body.len()
    )?;
    stream.write_all(&body)
}

/// `body` compressed, made once for each name; nothing where that would be no smaller.
fn packed(name: &str, body: &[u8]) -> Option<Vec<u8>> {
    static PACKED: Mutex<BTreeMap<String, Vec<u8>>> = Mutex::new(BTreeMap::new());
    let found = PACKED.lock().ok()?.get(name).cloned();
    let packed = match found {
        Some(packed) => packed,
        None => {
            let mut packed = Vec::new();
            let how = brotli::enc::BrotliEncoderParams::default();
            brotli::BrotliCompress(&mut &*body, &mut packed, &how).ok()?;
            PACKED.lock().ok()?.insert(name.to_owned(), packed.clone());
            packed
        }
    };
    (packed.len() < body.len()).then_some(packed)
}

/// The types that a browser insists on.
fn kind(name: &str) -> &'static str {
    match name.rsplit('.').next().unwrap_or_default() {
        "html" => "text/html; charset=utf-8",
        "css" => "text/css",
        "js" => "text/javascript",
        "json" => "application/json",
        "svg" => "image/svg+xml",
        "webmanifest" => "application/manifest+json",
        "png" => "image/png",
        "wasm" => "application/wasm",
        "woff2" => "font/woff2",
        _ => "text/plain; charset=utf-8",
    }
}
