//! Links: bytes of the packed design, sealed as a link is, and what does not even look like one.

#![no_main]

use base64::Engine as _;
use base64::prelude::BASE64_URL_SAFE_NO_PAD as BASE64;
use crc::{CRC_24_OPENPGP, Crc};
use headwright::share::link::{decode, encode};
use libfuzzer_sys::fuzz_target;

const SEAL: Crc<u32> = Crc::<u32>::new(&CRC_24_OPENPGP);

/// The first byte chooses the version, and where name and note begin; the rest is what the link carries.
fn sealed(bytes: &[u8]) -> Option<String> {
    let (&first, rest) = bytes.split_first()?;
    let version = char::from_digit(u32::from(first % 8) + 1, 36)?;
    let parts: Vec<String> = rest
        .splitn(usize::from(first / 8 % 3) + 1, |byte| *byte == b'.')
        .map(|part| BASE64.encode(part))
        .collect();
    let body = parts.join(".");
    let sum = SEAL.checksum(format!("{version}{body}").as_bytes());
    Some(format!(
        "{version}{}{body}",
        BASE64.encode(&sum.to_be_bytes()[1..])
    ))
}

fuzz_target!(|bytes: &[u8]| {
    // Whatever it is, it is read or refused in a sentence.
    if let Err(error) = decode(&String::from_utf8_lossy(bytes)) {
        assert!(!error.to_string().is_empty());
    }
    let Some(Ok(design)) = sealed(bytes).map(|link| decode(&link)) else {
        return;
    };
    // What was read may be no head, and says why; a head travels on.
    match design.build() {
        Err(reasons) => assert!(!reasons.is_empty()),
        Ok(_) => {
            let link = encode(&design).unwrap_or_else(|error| panic!("{error}"));
            let again = decode(&link).unwrap_or_else(|error| panic!("{error}"));
            assert!(again.build().is_ok());
        }
    }
});
