//! What a browser has stored of the rack: slips and notes, damaged in any way.

#![no_main]

use headwright::rack::{Slip, Taking, Work};
use libfuzzer_sys::fuzz_target;

fuzz_target!(|bytes: &[u8]| {
    let text = String::from_utf8_lossy(bytes);
    match Slip::from_json(&text) {
        // It is given back as it stands.
        Err(unread) => assert_eq!(unread.text, text),
        Ok(slip) => {
            // Written once, a length has no more figures than a file takes; from then on it stays as it is.
            let once = Slip::from_json(&slip.to_json());
            let once = once.unwrap_or_else(|unread| panic!("{}", unread.reason));
            assert_eq!(Slip::from_json(&once.to_json()).as_ref().ok(), Some(&once));
        }
    }
    if let Some(work) = Work::from_json(&text) {
        assert_eq!(Work::from_json(&work.to_json()).as_ref(), Some(&work));
        if let Err(error) = Taking::of(&work) {
            assert!(!error.to_string().is_empty());
        }
    }
});
