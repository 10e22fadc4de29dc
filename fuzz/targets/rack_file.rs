//! Rack files: any text, and what of it is a rack.

#![no_main]

use headwright::rack::Rack;
use libfuzzer_sys::fuzz_target;

fuzz_target!(|bytes: &[u8]| {
    match Rack::from_json(&String::from_utf8_lossy(bytes)) {
        Err(error) => assert!(!error.to_string().is_empty()),
        Ok(rack) => {
            // Nothing is lost on the way out and in, what cannot be read included.
            let text = rack.to_json();
            let again = Rack::from_json(&text).unwrap_or_else(|error| panic!("{error}\n{text}"));
            assert_eq!(again.entries.len(), rack.entries.len(), "{text}");
            assert_eq!(again.unread.len(), rack.unread.len(), "{text}");
            assert_eq!(again.to_json(), text);
        }
    }
});
