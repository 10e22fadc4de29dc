//! Rack files: any text, and what of it is a rack.

#![no_main]

use headwright::chest::Chest;
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
    if let Ok(chest) = Chest::from_json(&String::from_utf8_lossy(bytes)) {
        let text = chest.to_json();
        let mut again = Chest::from_json(&text).unwrap_or_else(|error| panic!("{error}\n{text}"));
        // What could not be read as a log may be read as a build of one.
        let count = |it: &Chest| {
            let builds = it.log.builds.len() + it.log.unread.len();
            [
                builds,
                it.costs.len() + it.unread_costs.len(),
                it.rack.entries.len(),
            ]
        };
        assert_eq!(count(&again), count(&chest), "{text}");
        // Taken in once more, all of it is there already.
        let before = again.clone();
        let mut ids = 0;
        again.take_in(chest, || {
            ids += 1;
            format!("new-{ids}")
        });
        assert_eq!(again.log, before.log, "{text}");
    }
});
