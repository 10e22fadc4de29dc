//! Offers to a customer and their answers: what comes back, what may be chosen, and what is refused.

use headwright::design::{Design, Quantity, Side, TipShape, starter, starter_names};
use headwright::fit::{Outcome, fit_to, targets};
use headwright::mass::mass_properties;
use headwright::share::link::{self, LONGEST_OFFER, LinkError};
use headwright::share::offer::{
    Answer, Between, Choice, ChoiceError, Currency, Date, HANDLE_MM, Offer, OfferError, OpenTip,
    Price, Stage, Stands, in_the_hand,
};
use headwright::units::System;
use proptest::prelude::*;
use proptest::test_runner::RngSeed;

#[path = "offer/broken.rs"]
mod broken;
#[path = "offer/chosen.rs"]
mod chosen;
mod common;
#[path = "offer/ends.rs"]
mod ends;

/// A starter with all that can be said and left open.
fn full(name: &str) -> Offer {
    let mut offer = Offer::new(starter(name).expect("a starter"));
    let solid = offer.design.build().expect("starters are sound");
    let grams = (1000.0 * mass_properties(&solid).mass).round() as u32;
    let mm = offer.design.handle.length.in_mm().round() as u32;
    let drawn = TipShape::of(&offer.design.back.tip);
    let others = TipShape::ALL.into_iter().filter(|shape| *shape != drawn);
    offer.terms.price = Some(Price::read("240.50", "eur").expect("a price"));
    offer.terms.stands = Some(Stands {
        stage: Stage::Hardened,
        as_of: Date::new(2026, 3, 4).expect("a day"),
    });
    offer.terms.open.handle_mm = Some(Between {
        low: mm - 20,
        high: mm + 30,
    });
    offer.terms.open.grams = Some(Between {
        low: grams - grams / 20,
        high: grams + grams / 20,
    });
    offer.terms.open.tip = Some(OpenTip {
        side: Side::Back,
        instead: others.take(2).collect(),
    });
    offer
}

/// Characters of a link without its name and note.
fn length_without_texts(link: &str) -> usize {
    link.split('.').next().map_or(0, str::len)
}

#[test]
fn an_offer_of_every_starter_comes_back_with_all_that_was_said() {
    for name in starter_names() {
        let offer = full(name);
        assert_eq!(offer.build().err(), None, "{name}");
        let link = offer.encode().expect("goes");
        assert!(length_without_texts(&link) < 200, "{name}: {link}");
        assert_eq!(Offer::decode(&link), Ok(offer.sent()), "{name}");
        let whole = format!("https://smith.example/#{link}");
        assert_eq!(Offer::decode(&whole), Ok(offer.sent()), "{name}");
    }
}

#[test]
fn an_answer_of_every_starter_comes_back_with_its_choice() {
    for name in starter_names() {
        let offer = full(name);
        let open = offer.terms.open.clone();
        let choice = Choice {
            handle_mm: open.handle_mm.map(|range| range.low + 7),
            grams: open.grams.map(|range| range.high),
            tip: open.tip.map(|tip| tip.instead[1]),
        };
        for choice in [choice, Choice::default()] {
            let answer = Answer {
                offer: offer.sent(),
                choice,
            };
            let link = answer.encode().expect("goes");
            assert_eq!(Answer::decode(&link), Ok(answer), "{name}");
        }
    }
}

#[test]
fn what_the_workshop_works_by_stays_there_unless_it_is_shared() {
    let mut offer = full("cross");
    offer.design.bar.losses.truncate(1);
    offer.design.bar.confidence = 0.75;
    offer.design.heat.temper = Some(headwright::heat::Temper {
        aim: headwright::heat::Aim::Celsius(231.0),
        soak_hours: 1.5,
        times: 1,
    });
    let came = Offer::decode(&offer.encode().expect("goes")).expect("comes");
    assert_eq!(came.design.bar.confidence, 0.9);
    assert_eq!(came.design.bar.losses.len(), 6);
    assert_eq!(came.design.heat.temper, None);
    assert_eq!(came.design.front, offer.design.front);
    offer.terms.shares_sizes = true;
    let came = Offer::decode(&offer.encode().expect("goes")).expect("comes");
    assert_eq!(came.design.bar, offer.design.bar);
    assert_eq!(came.design.heat, offer.design.heat);
}

#[test]
fn links_that_were_sent_still_open() {
    let offer = full("cross");
    assert_eq!(offer.encode().as_deref(), Ok(OFFER));
    assert_eq!(Offer::decode(OFFER), Ok(offer.sent()));
    let choice = Choice {
        handle_mm: offer.terms.open.handle_mm.map(|range| range.low),
        grams: None,
        tip: Some(TipShape::Ball),
    };
    let answer = Answer { offer, choice };
    assert_eq!(answer.encode().as_deref(), Ok(ANSWER));
    let offer = answer.offer.sent();
    assert_eq!(Answer::decode(ANSWER), Ok(Answer { offer, choice }));
}

/// An offer and an answer as they were sent: links of customers must open for ever.
const OFFER: &str = "AfPsjylftjekUssHU__0VZ4LyP3VTBkPPgT3MlWsPSTRm4TMQyq9xcqdy0IJ4qrTw0XvSxasoLx81wswd8bNG74nN4od-2-6EQ5wJ5Iydl7VQ-wU.Q3Jvc3MgcGVpbiBoYW1tZXI.VGhlIHBlaW4gbGllcyBhY3Jvc3MgdGhlIGhhbmRsZSwgdG8gZHJhdyB3aXRoOyBpdCBkcm9wcyBhIGxpdHRsZSwgYXMgdGhlIHN3aW5nIGRvZXMu";
const ANSWER: &str = "aIAwaylet8JEhbst2K6buEp2UqU2EHzt8UwpDHDLdqP5U2Aa8Dj_Il00YUroYiOdv4wEw66Q6vYz-RoA9aywGBcBdM9p8ugTLaZH5JtGkdB7yzEwO.Q3Jvc3MgcGVpbiBoYW1tZXI.VGhlIHBlaW4gbGllcyBhY3Jvc3MgdGhlIGhhbmRsZSwgdG8gZHJhdyB3aXRoOyBpdCBkcm9wcyBhIGxpdHRsZSwgYXMgdGhlIHN3aW5nIGRvZXMu";

#[test]
fn each_kind_of_link_is_refused_as_another() {
    let offer = full("rounding");
    let answer = Answer {
        offer: offer.clone(),
        choice: Choice::default(),
    };
    let [sent, back] = [offer.encode(), answer.encode()].map(|link| link.expect("goes"));
    let head = link::encode(&offer.design).expect("goes");
    assert_eq!(link::decode(&sent), Err(LinkError::OfOffer));
    assert_eq!(link::decode(&back), Err(LinkError::OfOffer));
    assert_eq!(Offer::decode(&back), Err(LinkError::Other("offer")));
    assert_eq!(Offer::decode(&head), Err(LinkError::Other("offer")));
    let wanted = LinkError::Other("answer to an offer");
    assert_eq!(Answer::decode(&sent), Err(wanted.clone()));
    assert_eq!(Answer::decode(&head), Err(wanted));
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 200, rng_seed: RngSeed::Fixed(3), ..ProptestConfig::default() })]

    #[test]
    fn a_link_of_any_head_with_choices_has_at_most_600_characters(
        design in common::sound_designs(),
        handle in (HANDLE_MM.low..700, 1u32..400),
        grams in (200u32..5000, 1u32..3000),
        hundredths in 0u32..=99_999_999,
        shares_sizes in any::<bool>(),
    ) {
        let mut offer = full("cross");
        offer.design = design;
        offer.terms.shares_sizes = shares_sizes;
        offer.terms.open.handle_mm = Some(Between { low: handle.0, high: handle.0 + handle.1 });
        offer.terms.open.grams = Some(Between { low: grams.0, high: grams.0 + grams.1 });
        offer.terms.price = offer.terms.price.map(|price| Price { hundredths, ..price });
        let choice = Choice {
            handle_mm: Some(handle.0 + handle.1),
            grams: Some(grams.0),
            tip: offer.terms.open.tip.as_ref().map(|tip| tip.instead[0]),
        };
        let answer = Answer { offer, choice };
        let link = answer.encode().expect("goes");
        prop_assert!(length_without_texts(&link) <= LONGEST_OFFER, "{}", link);
        let came = Answer::decode(&link).expect("comes");
        prop_assert_eq!(&came.offer.terms, &answer.offer.terms);
        prop_assert_eq!(came.choice, choice);
        // Once carried, it is carried again as it is.
        prop_assert_eq!(came.encode(), Ok(link));
    }
}

#[test]
fn a_price_is_read_as_it_is_written_and_nonsense_is_refused() {
    let shown = |amount, code| Price::read(amount, code).map(|price| price.to_string());
    assert_eq!(shown(" 240 ", "EUR"), Ok("240 EUR".to_owned()));
    assert_eq!(shown("240,5", "usd"), Ok("240.50 USD".to_owned()));
    assert_eq!(shown("0.05", "GBP"), Ok("0.05 GBP".to_owned()));
    for nonsense in [
        "",
        "-1",
        "1.234",
        "ten",
        "1000000",
        "99999999999999",
        "1e3",
        ".5",
        "1.2.3",
    ] {
        let error = Price::read(nonsense, "EUR").expect_err("no price");
        assert!(
            matches!(error, OfferError::Price(_)),
            "{nonsense}: {error:?}"
        );
    }
    for nonsense in ["", "E", "EURO", "€UR", "12A", "<b>"] {
        assert!(nonsense.parse::<Currency>().is_err(), "{nonsense}");
    }
    let sentence = OfferError::Price("ten".to_owned()).sentence(System::Metric);
    assert_eq!(
        sentence,
        "“ten” is no price. Write it like 240 or 240.50, at most 999999."
    );
}

#[test]
fn a_day_is_one_of_the_calendar() {
    let read = |text: &str| text.parse::<Date>().map(|day| day.to_string()).ok();
    assert_eq!(read("2026-03-04").as_deref(), Some("4 March 2026"));
    assert_eq!(read("2028-02-29").as_deref(), Some("29 February 2028"));
    for none in [
        "2026-02-29",
        "2026-04-31",
        "1999-12-31",
        "2100-01-01",
        "2026-13-01",
        "4 March",
        "",
        "2026-03",
        "-1-1-1",
    ] {
        assert_eq!(read(none), None, "{none}");
    }
}

#[test]
fn an_unsound_offer_is_refused_with_every_reason() {
    let mut offer = full("cross");
    let drawn = TipShape::of(&offer.design.back.tip);
    offer.terms.open.handle_mm = Some(Between {
        low: 400,
        high: 300,
    });
    offer.terms.open.grams = Some(Between {
        low: 300,
        high: 400,
    });
    offer.terms.open.tip = Some(OpenTip {
        side: Side::Back,
        instead: vec![drawn],
    });
    let errors = offer.build().expect_err("unsound");
    let sentences: Vec<String> = errors
        .iter()
        .map(|error| error.sentence(System::Metric))
        .collect();
    expect_test::expect![[r#"
        The handle is left open from 400 mm to 300 mm; the first must be less than the second, both from 150 mm to 1200 mm.
        The weight is left open from 300 g to 400 g, which leaves out the 1.122 kg that are drawn.
        The back is drawn as a cross pein; leave one or 2 other tips open, each once."#]].assert_eq(&sentences.join("\n"));
    assert_eq!(offer.encode(), Err(LinkError::NoOffer));
}

#[test]
fn how_a_hammer_sits_in_the_hand_is_said_in_words() {
    let said: Vec<String> = ["cross", "rounding", "straight", "ball"]
        .into_iter()
        .map(|name| {
            let design = starter(name).expect("a starter");
            let solid = design.build().expect("starters are sound");
            in_the_hand(&design, &solid, System::Metric).join(" ")
        })
        .collect();
    expect_test::expect![[r#"
        The head balances on the handle, within a millimetre: neither end drops. The longer end is the cross pein: it reaches 21 % farther from the handle than the face. The edge of the cross pein lies across the handle. On its handle the hammer weighs about 1.318 kg.
        The head balances on the handle, within a millimetre: neither end drops. Both ends reach as far from the handle. On its handle the hammer weighs about 1.183 kg.
        The head balances on the handle, within a millimetre: neither end drops. The longer end is the straight pein: it reaches 21 % farther from the handle than the face. The edge of the straight pein lies along the handle. On its handle the hammer weighs about 1.148 kg.
        The head balances on the handle, within a millimetre: neither end drops. The longer end is the ball: it reaches 17 % farther from the handle than the face. On its handle the hammer weighs about 900 g."#]].assert_eq(&said.join("\n"));
}
