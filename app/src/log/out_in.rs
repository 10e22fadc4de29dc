//! The whole log out as one file or as a table, and a log in from either.

use leptos::prelude::*;
use wasm_bindgen::JsValue;
use wasm_bindgen_futures::{JsFuture, spawn_local};
use web_sys::{File, HtmlInputElement};

use super::super::files::{offer, save_text};
use super::super::rack::Unreadable;
use super::super::state::Workspace;
use super::change::Change;
use super::here;
use super::keeper::Keeper;
use headwright::log::{Log, MOST_BUILDS, MOST_BYTES};
use headwright::rack::Unread;

/// Names of the files.
const FILE: &str = "log.headwright-log.json";
const TABLE: &str = "log.csv";

/// What came in from a file.
#[derive(Clone, Debug, PartialEq)]
struct Report {
    said: String,
    unread: Vec<Unread>,
}

/// Saves the log, and takes one in.
#[component]
pub fn OutAndIn() -> impl IntoView {
    let workspace = Workspace::here();
    let keeper = here();
    let report = RwSignal::new(None::<Report>);
    let table = move |_| {
        let text = keeper.log().to_csv();
        offer(workspace, TABLE, "text/csv", &JsValue::from_str(&text));
    };
    view! {
        <div class="actions rack-files">
            <Save />
            <button type="button" class="plain" on:click=table>
                "save the log as a table (CSV)"
            </button>
            <label class="plain open-file">
                "take in a log"
                <input
                    type="file"
                    accept=".json,.csv,application/json,text/csv"
                    on:change:target=move |event| {
                        let input = event.target();
                        if let Some(file) = input.files().and_then(|files| files.get(0)) {
                            read(keeper, file, input, report);
                        }
                    }
                />
            </label>
        </div>
        <p class="rack-report" role="status">{move || report.get().map(|report| report.said)}</p>
        {move || report.get().map(|report| view! { <Unreadable all=report.unread /> })}
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

fn read(keeper: Keeper, file: File, input: HtmlInputElement, report: RwSignal<Option<Report>>) {
    spawn_local(async move {
        let name = file.name();
        let text = if file.size() > MOST_BYTES as f64 {
            Err("It is too large to be a log.".to_owned())
        } else {
            let text = JsFuture::from(file.text()).await.ok();
            text.and_then(|text| text.as_string())
                .ok_or_else(|| "The browser could not read it.".to_owned())
        };
        let came = text.and_then(|text| coming(&text));
        let came = came.map(|log| take_in(keeper, &name, log));
        let came = came.unwrap_or_else(|reason| Report {
            said: format!("The file {name} was not taken in; the log stands. {reason}"),
            unread: Vec::new(),
        });
        // The sheet may have been left meanwhile.
        drop(report.try_set(Some(came)));
        // The same file may be chosen again after it was mended.
        input.set_value("");
    });
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

/// Takes every build in: a new one as it is, one that stands here with the entries of both.
fn take_in(keeper: Keeper, file: &str, log: Log) -> Report {
    let (mut came, mut stood, mut joined, mut refused, mut apart) = (0, 0, 0, 0, 0);
    for build in log.builds {
        let id = build.id.clone();
        let here = untrack(|| keeper.build(&id));
        let room = keeper.log().builds.len() < MOST_BUILDS;
        if here.is_none() && !room {
            refused += 1;
            continue;
        }
        if keeper.press(&id, Change::Join(Box::new(build))).is_err() {
            apart += 1;
            continue;
        }
        match here {
            None => came += 1,
            before if before == untrack(|| keeper.build(&id)) => stood += 1,
            Some(_) => joined += 1,
        }
    }
    let mut said = format!("From {file}: {came} came.");
    for (count, what) in [
        (stood, "stood here already"),
        (joined, "had more entries, which are here now too"),
        (refused, "had no room: a log holds only so many"),
        (
            apart,
            "could not be joined with the build of the same id that stands here, or both together are too much for one",
        ),
    ] {
        if count > 0 {
            said.push_str(&format!(" {count} {what}."));
        }
    }
    Report {
        said,
        unread: log.unread,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use headwright::design::starter;
    use headwright::log::Build;

    #[test]
    fn a_log_comes_in_as_file_and_as_table() {
        let design = starter("rounding").expect("a starter");
        let log = Log {
            builds: vec![Build::begun("b1", None, design, 5)],
            unread: Vec::new(),
        };
        assert_eq!(coming(&log.to_json()), Ok(log.clone()));
        assert_eq!(coming(&log.to_csv()), Ok(log));
        for text in ["", "  ", "{}", "a,b\r\n"] {
            assert!(coming(text).is_err(), "{text}");
        }
    }
}
