//! What a choice gives: fitted to weight and balance, or refused with the limits.

use super::*;

/// Weight, kg, and balance, mm.
fn weighed(design: &Design) -> [f64; 2] {
    let drawn = mass_properties(&design.build().expect("sound"));
    [drawn.mass, drawn.balance()]
}

#[test]
fn a_chosen_handle_is_as_long_and_leaves_the_head_as_it_is() {
    let offer = full("cross");
    let mm = offer.terms.open.handle_mm.expect("open").low;
    let choice = Choice {
        handle_mm: Some(mm),
        ..Choice::default()
    };
    let chosen = offer.choose(&choice).expect("may be had");
    assert_eq!(chosen.design.handle.length.in_mm(), f64::from(mm));
    assert_eq!(chosen.solid, offer.design.build().expect("sound"));
    assert!(chosen.moved.is_empty());
}

#[test]
fn a_chosen_weight_is_met_and_the_balance_stays() {
    let mut met = 0;
    for name in starter_names() {
        let offer = full(name);
        let [kg, balance] = weighed(&offer.design);
        let grams = (1000.0 * kg).round() as u32 + 15;
        let choice = Choice {
            grams: Some(grams),
            ..Choice::default()
        };
        let Ok(chosen) = offer.choose(&choice) else {
            continue;
        };
        let [heavier, moved] = weighed(&chosen.design);
        assert!(
            (1000.0 * heavier - f64::from(grams)).abs() <= 0.11,
            "{name}: {heavier}"
        );
        assert!((moved - balance).abs() <= 0.6, "{name}: {balance} {moved}");
        // What the smith holds is kept, the weight at what was chosen.
        let again = fit_to(&chosen.design, &targets(&chosen.design)).expect("sound");
        assert_eq!(again.outcome, Outcome::Met, "{name}");
        assert!(chosen.design.holds.get(Quantity::Mass).is_some(), "{name}");
        met += 1;
    }
    assert!(met > starter_names().count() / 2, "{met}");
}

#[test]
fn another_pein_is_turned_and_weighs_and_balances_as_drawn() {
    let mut offer = full("cross");
    let drawn = weighed(&offer.design);
    offer.terms.open.tip = Some(OpenTip {
        side: Side::Back,
        instead: vec![TipShape::StraightPein, TipShape::DiagonalPein],
    });
    for shape in [TipShape::StraightPein, TipShape::DiagonalPein] {
        let choice = Choice {
            tip: Some(shape),
            ..Choice::default()
        };
        let chosen = offer.choose(&choice).expect("may be had");
        assert_eq!(TipShape::of(&chosen.design.back.tip), shape);
        let [kg, balance] = weighed(&chosen.design);
        assert!((kg - drawn[0]).abs() <= 0.0051, "{kg} {drawn:?}");
        assert!((balance - drawn[1]).abs() <= 0.51, "{balance} {drawn:?}");
    }
}

#[test]
fn what_is_not_open_or_out_of_range_is_refused_with_the_limits() {
    let offer = full("cross");
    let choice = Choice {
        handle_mm: Some(900),
        grams: Some(90),
        tip: Some(TipShape::of(&offer.design.back.tip)),
    };
    let errors = offer.choose(&choice).expect_err("refused");
    let sentences: Vec<String> = errors
        .iter()
        .map(|error| error.sentence(System::Metric))
        .collect();
    expect_test::expect![[r#"
        A handle of 900 mm is not offered: it may be 350 mm to 400 mm long.
        A weight of 90.0 g is not offered: the head may weigh 1.066 kg to 1.178 kg.
        A cross pein is not offered."#]]
    .assert_eq(&sentences.join("\n"));
    let closed = Offer::new(offer.design);
    let errors = closed.choose(&choice).expect_err("refused");
    assert_eq!(
        errors,
        [
            ChoiceError::HandleNotOpen,
            ChoiceError::WeightNotOpen,
            ChoiceError::TipNotOpen(TipShape::CrossPein)
        ]
    );
    let answer = Answer {
        offer: closed,
        choice,
    };
    assert_eq!(answer.encode(), Err(LinkError::NoOffer));
}

#[test]
fn a_weight_that_cannot_be_kept_is_refused_with_what_stands_in_the_way() {
    let mut offer = full("cross");
    offer.terms.open.grams = Some(Between {
        low: 100,
        high: 20_000,
    });
    let choice = Choice {
        grams: Some(19_000),
        ..Choice::default()
    };
    let errors = offer.choose(&choice).expect_err("out of reach");
    let sentence = errors[0].sentence(System::Metric);
    assert!(
        sentence.starts_with("With this choice the head cannot weigh 19.000 kg and balance as it does: in the way stand "),
        "{sentence}"
    );
    assert!(sentence.contains("at most"), "{sentence}");
    offer.design.free.clear();
    let errors = offer.choose(&choice).expect_err("nothing is free");
    let sentence = errors[0].sentence(System::Metric);
    assert!(
        sentence.ends_with("the smith has left no size free to follow."),
        "{sentence}"
    );
}

#[test]
fn differences_are_said_in_words_and_only_where_there_are_any() {
    let offer = full("cross");
    let open = offer.terms.open.clone();
    let choice = Choice {
        handle_mm: open.handle_mm.map(|range| range.low),
        grams: open.grams.map(|range| range.high),
        tip: Some(TipShape::Ball),
    };
    let said = offer.differences(&choice, System::Metric);
    expect_test::expect![[r#"
        handle length 350 mm instead of 370 mm
        weight 1.178 kg instead of 1.122 kg
        back a ball instead of a cross pein"#]]
    .assert_eq(&said.join("\n"));
    let same = Choice {
        handle_mm: Some(offer.design.handle.length.in_mm() as u32),
        ..Choice::default()
    };
    assert!(offer.differences(&same, System::Metric).is_empty());
}

#[test]
fn a_smith_who_takes_an_answer_keeps_bar_and_hardening_of_the_same_head_alone() {
    let mut own = starter("cross").expect("a starter");
    own.bar.confidence = 0.75;
    let mut offer = full("cross");
    offer.design = own.clone();
    let choice = Choice {
        handle_mm: offer.terms.open.handle_mm.map(|range| range.low),
        ..Choice::default()
    };
    let sent = Answer { offer, choice }.encode().expect("goes");
    let answer = Answer::decode(&sent).expect("comes");
    assert!(answer.is_of(&own));
    let taken = answer.taken(&own).expect("may be had");
    assert_eq!(taken.bar, own.bar);
    assert_ne!(taken.handle, own.handle);
    let other = starter("rounding").expect("a starter");
    assert!(!answer.is_of(&other));
    let taken = answer.taken(&other).expect("may be had");
    assert_eq!(taken.bar.confidence, 0.9);
    assert_eq!(taken.name, own.name);
}
