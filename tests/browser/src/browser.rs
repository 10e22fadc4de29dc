//! Chromium's driver: one process for the whole run, ended with it.

use std::io::{BufRead, BufReader};
use std::os::unix::process::CommandExt;
use std::path::PathBuf;
use std::process::{Child, Command, Stdio};
use std::sync::OnceLock;
use std::sync::atomic::{AtomicU32, Ordering};

use serde_json::{Value, json};

use crate::wire::Wire;

/// Runs the driver in a process group of its own until its standard input ends, which it does when
/// this process ends in any way; then ends the group, browsers included, and removes the profiles.
const KEEPER: &str = r#"
"$1" --port=0 --log-level=SEVERE </dev/null &
read -r _
trap '' TERM
kill -s TERM -- -$$
sleep 1
rm -rf "$2"
kill -s KILL -- -$$
"#;

/// What the driver says when it is ready, before its port.
const READY: &str = "started successfully on port ";

/// Flags that make the browser quiet, and let it draw without a graphics card.
const FLAGS: [&str; 9] = [
    "--headless=new",
    "--no-sandbox",
    "--enable-unsafe-swiftshader",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--remote-debugging-pipe",
];

/// The driver and the folder for profiles.
pub struct Browser {
    wire: Wire,
    profiles: PathBuf,
    // Its standard input must stay open as long as the driver is wanted.
    _keeper: Child,
}

impl Browser {
    /// The one driver of this run.
    pub fn of_this_run() -> &'static Self {
        static BROWSER: OnceLock<Browser> = OnceLock::new();
        BROWSER.get_or_init(Self::start)
    }

    fn start() -> Self {
        let driver = std::env::var("CHROMEDRIVER").unwrap_or_else(|_| "chromedriver".to_owned());
        let profiles =
            std::env::temp_dir().join(format!("headwright-browser-{}", std::process::id()));
        std::fs::create_dir_all(&profiles).expect("a folder for profiles can be made");
        let mut keeper = Command::new("sh")
            .args(["-c", KEEPER, "keeper", &driver])
            .arg(&profiles)
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .process_group(0)
            .spawn()
            .expect("a shell can be started");
        let mut said = BufReader::new(keeper.stdout.take().expect("the output is piped")).lines();
        let port: u16 = said
            .by_ref()
            .map_while(Result::ok)
            .find_map(|line| {
                let (_, port) = line.split_once(READY)?;
                port.trim_end_matches('.').parse().ok()
            })
            .unwrap_or_else(|| panic!("{driver} does not start: name another with CHROMEDRIVER"));
        // Read on, so that the driver never waits for room in the pipe.
        std::thread::spawn(move || said.for_each(drop));
        Self {
            wire: Wire::new(format!("http://127.0.0.1:{port}")),
            profiles,
            _keeper: keeper,
        }
    }

    /// A browser with a new profile: the wire to its session.
    pub fn session(&self, phone: Option<Value>) -> Wire {
        static COUNT: AtomicU32 = AtomicU32::new(0);
        let number = COUNT.fetch_add(1, Ordering::Relaxed);
        let profile = self.profiles.join(number.to_string());
        let mut flags: Vec<String> = FLAGS.map(str::to_owned).to_vec();
        flags.push(format!("--user-data-dir={}", profile.display()));
        let mut options = json!({ "args": flags });
        if let Ok(chrome) = std::env::var("CHROME") {
            options["binary"] = json!(chrome);
        }
        if let Some(phone) = phone {
            options["mobileEmulation"] = phone;
        }
        let wanted = json!({ "capabilities": { "alwaysMatch": {
            "browserName": "chrome",
            "goog:chromeOptions": options,
            "goog:loggingPrefs": { "browser": "ALL" },
            "timeouts": { "script": 50_000, "pageLoad": 50_000 },
            // A dialogue would stop the test: better it fails.
            "unhandledPromptBehavior": "dismiss and notify",
        } } });
        let session = self
            .wire
            .post("session", &wanted)
            .unwrap_or_else(|error| panic!("the browser does not start: {error}"));
        let id = session["sessionId"].as_str().expect("a session has an id");
        self.wire.below(&format!("session/{id}"))
    }
}
