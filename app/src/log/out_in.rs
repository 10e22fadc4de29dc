//! The whole log out as one file or as a table, and a log in from either.

use leptos::prelude::*;
use wasm_bindgen::JsValue;

use super::super::files::{offer, save_text};
use super::super::state::Workspace;
use super::super::taken::{Report, Reported, TakeIn};
use super::here;
use super::keeper::Keeper;
use headwright::log::{BuildArrival, BuildArrived, Log, MOST_BYTES};

/// Names of the files.
const FILE: &str = "log.headwright-log.json";
const TABLE: &str = "log.csv";
/// The largest that is read, bytes.
const LARGEST: f64 = MOST_BYTES as f64;

/// Saves the log, and takes one in.
#[component]
pub fn OutAndIn() -> impl IntoView {
    let workspace = Workspace::here();
    let keeper = here();
    let report = RwSignal::new(None::<Report>);
    let table = move |_| {
        let log = keeper.log();
        let text = JsValue::from_str(&log.to_csv());
        offer(workspace, TABLE, "text/csv", &text);
        report.set(log.left_out().map(Report::of));
    };
    let took = move |(name, text): (String, Result<String, String>)| {
        let came = text.and_then(|text| coming(&text));
        report.set(Some(match came {
            Ok(log) => take_in(keeper, &name, log),
            Err(reason) => Report::refused(&name, "the log stands", &reason),
        }));
    };
    view! {
        <div class="actions rack-files">
            <Save />
            <button type="button" class="plain" on:click=table>
                "save the log as a table (CSV)"
            </button>
            <TakeIn
                label="take in a log"
                kinds=".json,.csv,application/json,text/csv"
                what="a log"
                most=LARGEST
                took=took
            />
        </div>
        <Reported report=report />
    }
}

/// The log as a file.
#[component]
pub fn Save() -> impl IntoView {
    let workspace = Workspace::here();
    let keeper = here();
    view! {
        <button
            type="button"
            class="plain"
            on:click=move |_| save_text(workspace, FILE, &keeper.log().to_json())
        >
            "save the log as a file"
        </button>
    }
}

/// A log file, or the same as CSV: what begins with a brace is no table.
fn coming(text: &str) -> Result<Log, String> {
    let begins = text.trim_start_matches('\u{feff}').trim_start();
    if begins.is_empty() || begins.starts_with('{') {
        Log::from_json(text).map_err(|error| error.to_string())
    } else {
        Log::from_csv(text).map_err(|error| error.to_string())
    }
}

fn take_in(keeper: Keeper, file: &str, mut log: Log) -> Report {
    let left = keeper.leave(&mut log.builds);
    let arrived = keeper.take_in(log.builds);
    Report {
        said: format!("From {file}: {}", said(&arrived, left)),
        unread: log.unread,
    }
}

/// What came of builds, `left` of which were left in their file.
pub fn said(arrived: &[BuildArrived], left: usize) -> String {
    let of = |arrival: BuildArrival| arrived.iter().filter(|it| it.arrival == arrival).count();
    let mut said = format!("{} came.", of(BuildArrival::Came));
    for (count, what) in [
        (of(BuildArrival::Skipped), "stood here already."),
        (
            of(BuildArrival::Joined),
            "had more entries, which are here now too.",
        ),
        (
            of(BuildArrival::Copied),
            "stands here under another id, because its own is another build’s.",
        ),
        (
            of(BuildArrival::TooMuch),
            "was left in the file: with what stands here of it one build would have more steps or entries than it may.",
        ),
        (
            of(BuildArrival::NoRoom),
            "was left in the file: a log holds only so many builds.",
        ),
        (
            left,
            "was left in the file: what stands here under its id can’t be read, and is not written over.",
        ),
    ] {
        if count > 0 {
            said.push_str(&format!(" {count} {what}"));
        }
    }
    said
}

#[cfg(test)]
mod tests {
    use super::*;
    use headwright::design::starter;
    use headwright::log::Build;

    fn build(id: &str, at: u64) -> Build {
        let design = starter("rounding").expect("a starter");
        Build::begun(id, None, design, at)
    }

    #[test]
    fn a_log_comes_in_as_file_and_as_table() {
        let log = Log {
            builds: vec![build("b1", 5)],
            unread: Vec::new(),
        };
        assert_eq!(coming(&log.to_json()), Ok(log.clone()));
        assert_eq!(coming(&log.to_csv()), Ok(log));
        for text in ["", "  ", "{}", "a,b\r\n"] {
            assert!(coming(text).is_err(), "{text}");
        }
    }

    #[test]
    fn a_report_says_of_every_build_what_came_of_it() {
        let mut log = Log::default();
        log.take_in(vec![build("b1", 5)], || "copy".to_owned());
        let coming = vec![build("b1", 5), build("b1", 6), build("b2", 5)];
        let arrived = log.take_in(coming, || "copy".to_owned());
        assert_eq!(
            said(&arrived, 1),
            "1 came. 1 stood here already. 1 stands here under another id, because its own is another build’s. \
             1 was left in the file: what stands here under its id can’t be read, and is not written over."
        );
    }
}
