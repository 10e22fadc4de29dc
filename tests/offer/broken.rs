//! Links of offers and answers that are damaged, cut short or forged: each a sentence, none a panic.

use super::*;

#[test]
fn every_change_of_one_character_is_found() {
    let link = full("cross").encode().expect("goes");
    for at in 0..link.len() {
        for other in "Aa7B_-.z"
            .chars()
            .filter(|c| *c != char::from(link.as_bytes()[at]))
        {
            let mut changed = link.clone();
            changed.replace_range(at..=at, &other.to_string());
            assert!(Offer::decode(&changed).is_err(), "{changed}");
            assert!(Answer::decode(&changed).is_err(), "{changed}");
        }
    }
}

#[test]
fn a_link_cut_short_anywhere_is_found() {
    let link = full("cross").encode().expect("goes");
    for length in 0..link.len() {
        assert!(Offer::decode(&link[..length]).is_err(), "{length}");
    }
}

/// The checksum of RFC 9580 over a text, so that what follows it is looked at whatever it is.
fn seal(kind: char, body: &str) -> String {
    let mut crc = 0x00b7_04ce_u32;
    for byte in std::iter::once(kind as u8).chain(body.bytes()) {
        crc ^= u32::from(byte) << 16;
        for _ in 0..8 {
            let top = crc >> 23 & 1;
            crc = (crc << 1 & 0xff_ffff) ^ if top == 1 { 0x86_4cfb } else { 0 };
        }
    }
    let alphabet = b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_";
    let sum = [18, 12, 6, 0].map(|by| char::from(alphabet[(crc >> by & 63) as usize]));
    format!("{kind}{}{body}", sum.iter().collect::<String>())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 2000, rng_seed: RngSeed::Fixed(5), ..ProptestConfig::default() })]

    #[test]
    fn damage_that_the_checksum_fits_is_a_sentence_or_an_offer_that_can_be_judged(
        places in prop::collection::vec((0..1000_usize, "[A-Za-z0-9_-]"), 1..6),
        answers in any::<bool>(),
    ) {
        let offer = full("cross");
        let link = if answers {
            Answer { offer, choice: Choice::default() }.encode()
        } else {
            offer.encode()
        };
        let mut link = link.expect("goes");
        let sent = link.clone();
        for (place, letter) in places {
            let at = 5 + place % (link.len() - 5);
            link.replace_range(at..=at, &letter);
        }
        prop_assume!(link != sent);
        let kind = if answers { 'a' } else { 'A' };
        let sealed = seal(kind, &link[5..]);
        if answers {
            if let Ok(answer) = Answer::decode(&sealed) {
                // Whether it can be had is judged, never assumed.
                let _ = answer.offer.build();
                let _ = answer.differences(System::Imperial);
            }
        } else if let Ok(offer) = Offer::decode(&sealed) {
            let _ = offer.build();
        }
        let error = Offer::decode(&link).expect_err("damaged");
        prop_assert!(!error.to_string().is_empty());
    }

    #[test]
    fn any_text_is_a_sentence(text in ".{0,200}") {
        for kind in ["", "A", "a"] {
            let text = format!("{kind}{text}");
            prop_assert!(Offer::decode(&text).is_err());
            prop_assert!(Answer::decode(&text).is_err());
        }
    }
}

#[test]
fn a_later_kind_of_offer_says_to_reload() {
    let later = seal('B', "anything-that-comes_later");
    assert_eq!(Offer::decode(&later), Err(LinkError::Newer('B')));
    assert_eq!(Answer::decode(&later), Err(LinkError::Newer('B')));
    assert_eq!(link::decode(&later), Err(LinkError::Newer('B')));
}

#[test]
fn a_text_longer_than_any_link_is_refused_unread() {
    let long = format!("A{}", "x".repeat(100_000));
    let error = Offer::decode(&long).expect_err("too long");
    assert!(matches!(error, LinkError::TooLong { .. }), "{error}");
}
