//! Log files and logs as CSV: any text, what of it is a log, and what follows from that.

#![no_main]

use headwright::log::Log;
use headwright::log::losses::learn;
use headwright::log::minutes::minutes;
use libfuzzer_sys::fuzz_target;

fuzz_target!(|bytes: &[u8]| {
    let text = String::from_utf8_lossy(bytes);
    if let Err(error) = Log::from_csv(&text) {
        assert!(!error.to_string().is_empty());
    }
    match Log::from_json(&text) {
        Err(error) => assert!(!error.to_string().is_empty()),
        Ok(log) => {
            // Nothing is lost on the way out and in, what cannot be read included.
            let text = log.to_json();
            let again = Log::from_json(&text).unwrap_or_else(|error| panic!("{error}\n{text}"));
            assert_eq!(again.builds.len(), log.builds.len(), "{text}");
            assert_eq!(again.unread.len(), log.unread.len(), "{text}");
            let csv =
                Log::from_csv(&log.to_csv()).unwrap_or_else(|error| panic!("{error}\n{text}"));
            // Both write a size to the last figure that a file has of it.
            for (build, read) in again.builds.iter().zip(&csv.builds) {
                assert_eq!((&build.steps, &build.events), (&read.steps, &read.events));
            }
            for note in log.builds.iter().flat_map(|build| build.story().notes) {
                assert!(!note.to_string().is_empty());
            }
            let learned = learn(&log.builds);
            assert!(
                learned
                    .lines
                    .iter()
                    .all(|line| line.mean.is_finite() && line.spread.is_finite())
            );
            let _ = minutes(&log.builds).curve();
        }
    }
});
