//! Links that are none, damaged, cut short, newer or forged: each a sentence, none a panic.

use headwright::design::starter;
use headwright::share::link::{LONGEST_LINK, LinkError, decode, encode};
use proptest::prelude::*;
use proptest::test_runner::RngSeed;

use super::lopsided;

#[test]
fn every_change_of_one_character_is_found() {
    let alphabet = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_.";
    let link = encode(&lopsided()).expect("goes");
    for at in 0..link.len() {
        for other in alphabet
            .chars()
            .filter(|c| *c != char::from(link.as_bytes()[at]))
        {
            let mut changed = link.clone();
            changed.replace_range(at..=at, &other.to_string());
            let error = decode(&changed).expect_err("found");
            assert!(
                matches!(error, LinkError::Damaged | LinkError::Foreign),
                "{changed}: {error}"
            );
        }
    }
}

#[test]
fn a_link_cut_short_anywhere_is_found() {
    let link = encode(&lopsided()).expect("goes");
    for length in 1..link.len() {
        assert_eq!(decode(&link[..length]), Err(LinkError::Damaged), "{length}");
        assert!(decode(&link[length..]).is_err(), "{length}");
    }
}

#[test]
fn two_characters_exchanged_are_found() {
    let link = encode(&lopsided()).expect("goes");
    for at in 1..link.len() {
        let mut bytes = link.clone().into_bytes();
        bytes.swap(at - 1, at);
        let swapped = String::from_utf8(bytes).expect("ASCII");
        assert!(swapped == link || decode(&swapped).is_err(), "{swapped}");
    }
}

#[track_caller]
fn check_refused(text: &str, sentence: &str) {
    let error = decode(text).expect_err("no link");
    assert_eq!(error.to_string(), sentence);
}

#[test]
fn what_is_no_link_is_refused_in_a_sentence() {
    check_refused(
        "",
        "This link carries no design: nothing stands after the #.",
    );
    check_refused(
        "  ",
        "This link carries no design: nothing stands after the #.",
    );
    check_refused(
        "https://example.org/#",
        "This link carries no design: nothing stands after the #.",
    );
    for foreign in [
        "§",
        "hammer head",
        "1abc%20def",
        "-x",
        "0AAAAAAAA",
        "1鎚鎚鎚鎚鎚",
        "{\"format\":1}",
    ] {
        check_refused(foreign, "This is not a link to a design.");
    }
    for damaged in [
        "1",
        "1abc",
        "1abcd",
        "section-2",
        "1AAAAAAAAAAAAAAA",
        "1.....",
        "topic",
    ] {
        check_refused(
            damaged,
            "This link is damaged or was cut short: its checksum does not match. Ask for it again, \
             or copy all of it.",
        );
    }
    let huge = "1".repeat(10_000_000);
    check_refused(
        &huge,
        &format!(
            "This is not a link to a design: it has 10000000 characters, and the longest has \
             {LONGEST_LINK}."
        ),
    );
}

/// CRC-24 as the link's documentation states it, written a second time.
fn seal(version: char, body: &str) -> String {
    let mut crc: u32 = 0xb7_04ce;
    for byte in format!("{version}{body}").bytes() {
        for bit in (0..8).rev() {
            let top = crc >> 23 & 1 ^ u32::from(byte >> bit & 1);
            crc = (crc << 1 & 0xff_ffff) ^ if top == 1 { 0x86_4cfb } else { 0 };
        }
    }
    let alphabet = b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_";
    let sum: String = [18, 12, 6, 0]
        .map(|by| char::from(alphabet[(crc >> by & 63) as usize]))
        .iter()
        .collect();
    format!("{version}{sum}{body}")
}

#[test]
fn a_newer_version_with_a_right_checksum_says_to_reload() {
    let link = encode(&lopsided()).expect("goes");
    assert_eq!(seal('7', &link[5..]), link, "the checksum as documented");
    check_refused(
        &seal('8', "anything-that-comes_later.with.parts"),
        "This link was made by a newer Headwright (link version 8); this one reads up to version 7. \
         Reload the app or install the newer one.",
    );
}

#[test]
fn a_right_checksum_over_no_design_is_refused() {
    let no_design = "This link can’t be read: its checksum matches, but it holds no design.";
    let link = encode(&starter("light").expect("a starter")).expect("goes");
    let packed = link[5..].split('.').next().expect("a design");
    let beyond = format!("{packed}AAAB");
    let details = format!("_{}", &packed[1..]);
    for body in [
        "",
        ".",
        "A",
        beyond.as_str(),
        details.as_str(),
        &format!("{packed}.__79"),
        &format!("{packed}..."),
        &format!("{packed}.YQ.YQ.YQ"),
        &format!("{packed}.{}", "YWFh".repeat(27)),
    ] {
        let sealed = seal('7', body);
        assert_eq!(decode(&sealed).expect_err(&sealed).to_string(), no_design);
    }
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, rng_seed: RngSeed::Fixed(1), ..ProptestConfig::with_cases(300) })]

    #[test]
    fn any_text_is_read_or_refused(text in "\\PC{0,300}") {
        let _ = decode(&text);
    }

    #[test]
    fn any_text_of_a_links_characters_with_a_right_checksum_is_read_or_refused(
        body in "[A-Za-z0-9_-]{0,420}(\\.[A-Za-z0-9_-]{0,30}){0,3}"
    ) {
        if let Ok(design) = decode(&seal('1', &body)) {
            // Whatever was read can be judged, changed and sent again.
            let _ = design.build();
            let _ = encode(&design);
        }
    }

    #[test]
    fn any_change_of_a_packed_design_with_a_right_checksum_is_read_or_refused(
        at in prop::collection::vec((0..100_usize, "[A-Za-z0-9_-]"), 1..20)
    ) {
        let link = encode(&lopsided()).expect("goes");
        let mut body = link[5..].to_owned();
        for (at, other) in at {
            body.replace_range(at..=at, &other);
        }
        if let Ok(design) = decode(&seal('1', &body)) {
            let _ = design.build();
            let _ = encode(&design);
        }
    }
}
