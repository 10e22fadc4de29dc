//! Serves the built app on the loopback interface.

use std::io::{BufRead, BufReader, Write};
use std::net::{TcpListener, TcpStream};
use std::path::{Path, PathBuf};
use std::sync::OnceLock;

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

/// A server of static files that lives as long as the process.
pub struct Server {
    address: String,
}

impl Server {
    /// The one server of this run.
    pub fn of_this_run() -> &'static Self {
        static SERVER: OnceLock<Server> = OnceLock::new();
        SERVER.get_or_init(|| Self::start(dist()))
    }

    /// The address of the app, with the slash at its end.
    pub fn address(&self) -> &str {
        &self.address
    }

    fn start(folder: PathBuf) -> Self {
        let listener = TcpListener::bind("127.0.0.1:0").expect("a free port on loopback");
        let port = listener.local_addr().expect("a bound port").port();
        std::thread::spawn(move || {
            for stream in listener.incoming().flatten() {
                let folder = folder.clone();
                // A browser that goes away in the middle of a file is its own affair.
                std::thread::spawn(move || answer(stream, &folder).ok());
            }
        });
        Self {
            address: format!("http://127.0.0.1:{port}/"),
        }
    }
}

fn answer(mut stream: TcpStream, folder: &Path) -> std::io::Result<()> {
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
    let (status, kind, body) = match std::fs::read(folder.join(name)) {
        Ok(body) if inside => ("200 OK", kind(name), body),
        _ => ("404 Not Found", "text/plain", b"Not here.".to_vec()),
    };
    write!(
        stream,
        "HTTP/1.1 {status}\r\nContent-Type: {kind}\r\nContent-Length: {}\r\n\
         Cache-Control: no-cache\r\nConnection: close\r\n\r\n",
        body.len()
    )?;
    stream.write_all(&body)
}

/// The types that a browser insists on.
fn kind(name: &str) -> &'static str {
    match name.rsplit('.').next().unwrap_or_default() {
        "html" => "text/html; charset=utf-8",
        "css" => "text/css",
        "js" => "text/javascript",
        "json" => "application/json",
        "svg" => "image/svg+xml",
        "wasm" => "application/wasm",
        "woff2" => "font/woff2",
        _ => "text/plain; charset=utf-8",
    }
}
