//! Design files: any text, and what of it is a design.

#![no_main]

use headwright::design::Design;
use libfuzzer_sys::fuzz_target;

fuzz_target!(|bytes: &[u8]| {
    match Design::from_json(&String::from_utf8_lossy(bytes)) {
        Err(error) => assert!(!error.to_string().is_empty()),
        Ok(design) => {
            if let Err(reasons) = design.build() {
                assert!(!reasons.is_empty());
            }
            // It is written as it was read: nothing of it is lost.
            let text = design.to_json();
            let again = Design::from_json(&text).unwrap_or_else(|error| panic!("{error}\n{text}"));
            assert_eq!(again.to_json(), text);
        }
    }
});
