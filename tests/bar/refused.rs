//! Bars and heads that no cut is worked out for, each with its sentence.

use expect_test::expect;
use headwright::bar::{
    Atmosphere, Bar, BarError, BarSection, Causes, Loss, LossAmount, MOST_BARS, MOST_LOSSES,
    OnHand, Punch, SOURCE_CHARACTERS, billet, from_piece,
};
use headwright::units::{Density, Length, Mass, System};

use super::{head, round, sentences, square, with_loss, with_section};

#[track_caller]
fn check_refused(bar: &Bar, sentence: &str) {
    let sentences =
        |errors: Vec<BarError>| errors.iter().map(ToString::to_string).collect::<Vec<_>>();
    assert_eq!(sentences(bar.check()), [sentence]);
    assert_eq!(
        sentences(billet(&head(1.0, 0.16), Density::STEEL, bar).unwrap_err()),
        [sentence]
    );
}

#[test]
fn a_bar_out_of_bounds_is_refused_with_a_sentence() {
    let size = "It must be at least 5 mm and at most 300 mm.";
    check_refused(
        &with_section(round(0.0)),
        &format!("The bar’s diameter is 0 mm. {size}"),
    );
    check_refused(
        &with_section(square(-20.0)),
        &format!("The bar’s side is −20 mm. {size}"),
    );
    check_refused(
        &with_section(square(1e300)),
        &format!("The bar’s side is 1e300 mm. {size}"),
    );
    let section = BarSection::Octagonal {
        across_flats: Length::inches(12.5),
    };
    check_refused(
        &with_section(section),
        &format!("The bar’s size across flats is 317.5 mm. {size}"),
    );
    let section = BarSection::rectangular(Length::mm(50.0), Length::mm(4.0));
    check_refused(
        &with_section(section),
        &format!("The bar’s height is 4 mm. {size}"),
    );
    let flat = BarSection::rectangular(Length::mm(50.0), Length::mm(30.0));
    for (radius, shown) in [(15.1, "15.1 mm"), (-1.0, "−1 mm")] {
        check_refused(
            &with_section(flat.with_corner_radius(Length::mm(radius))),
            &format!(
                "The bar’s corner radius is {shown}. It must be at least 0 mm and at most 15 mm, half of the bar’s smaller side."
            ),
        );
    }
    check_refused(
        &with_section(BarSection::OfArea { area_mm2: 0.0 }),
        "The bar’s section is 0 mm². It must be at least 25 mm² and at most 90000 mm².",
    );
}

#[test]
fn sentences_are_told_in_the_units_that_are_read() {
    let told = |errors: Vec<BarError>| errors[0].sentence(System::Imperial);
    let layer = with_loss(LossAmount::OffSurface {
        expected: Length::mm(3.0),
        spread: Length::mm(0.1),
    });
    let nothing = from_piece(0.0, &head(1.2, 0.16), Density::STEEL, &Bar::default());
    for (errors, sentence) in [
        (
            with_section(round(0.0)).check(),
            "The bar’s diameter is 0 in. It must be at least 0.197 in and at most 11.811 in.",
        ),
        (
            with_section(BarSection::OfArea { area_mm2: 0.0 }).check(),
            "The bar’s section is 0 in². It must be at least 0.0388 in² and at most 139.5003 in².",
        ),
        (
            layer.check(),
            "Loss 1, end trimming: the expected amount is 0.1181 in off the surface. It must be at least 0 in off the surface and at most 0.0787 in off the surface.",
        ),
        (
            nothing.unwrap_err(),
            "The piece weighs 0 lb. It must weigh at least 0.0022 lb and at most 440.9245 lb.",
        ),
    ] {
        assert_eq!(told(errors), sentence);
    }
}

#[test]
fn a_web_thicker_than_the_head_is_refused() {
    let web = |mm: f64| {
        with_loss(LossAmount::Punched {
            punch: Some(Punch::Round {
                diameter: Length::mm(12.0),
            }),
            expected: Length::mm(mm),
            spread: Length::mm(1.0),
        })
    };
    assert!(billet(&head(1.2, 0.16), Density::STEEL, &web(40.0)).is_ok());
    let sentence = "Loss 1, end trimming: the web is 41 mm, but the head is only 40 mm high at the eye. Two punchings leave less than that.";
    let errors = billet(&head(1.2, 0.16), Density::STEEL, &web(41.0)).unwrap_err();
    assert_eq!(sentences(&errors), [sentence]);
    let errors = from_piece(1.5, &head(1.2, 0.16), Density::STEEL, &web(41.0)).unwrap_err();
    assert_eq!(sentences(&errors), [sentence]);
}

#[test]
fn a_punch_larger_than_the_eye_is_refused() {
    let punched = |punch, web: f64| {
        with_loss(LossAmount::Punched {
            punch: Some(punch),
            expected: Length::mm(web),
            spread: Length::mm(1.0),
        })
    };
    let slot = |length: f64, width: f64| Punch::Obround {
        length: Length::mm(length),
        width: Length::mm(width),
    };
    let causes = head(1.2, 0.16);
    assert!(billet(&causes, Density::STEEL, &punched(slot(28.0, 19.0), 8.0)).is_ok());
    for (punch, refused) in [
        (
            slot(28.5, 19.0),
            "Loss 1, end trimming: the punch is 28.5 mm long, but the eye only 28 mm at its narrowest. Take a smaller punch.",
        ),
        (
            slot(25.0, 20.0),
            "Loss 1, end trimming: the punch is 20 mm wide, but the eye only 19 mm at its narrowest. Take a smaller punch.",
        ),
    ] {
        let errors = billet(&causes, Density::STEEL, &punched(punch, 8.0)).unwrap_err();
        assert_eq!(sentences(&errors), [refused]);
        let errors = from_piece(1.5, &causes, Density::STEEL, &punched(punch, 8.0)).unwrap_err();
        assert_eq!(sentences(&errors), [refused]);
    }
    // Square corners and a web as high as the head: 28 · 19 · 40 mm³ are 0.167 kg.
    let rectangle = Punch::Rectangle {
        length: Length::mm(28.0),
        width: Length::mm(19.0),
    };
    let errors = billet(&causes, Density::STEEL, &punched(rectangle, 40.0)).unwrap_err();
    assert_eq!(
        sentences(&errors),
        [
            "The slug weighs 0.167048 kg, but the steel in the eye’s place only 0.16 kg. Take a smaller punch, a thinner web or less of a slug."
        ]
    );
    // So is a slug that is given as a mass.
    let mut bar = Bar::default();
    bar.losses[0].amount = LossAmount::Mass {
        expected: Mass::grams(161.0),
        spread: Mass::grams(0.0),
    };
    let errors = billet(&causes, Density::STEEL, &bar).unwrap_err();
    assert!(
        matches!(errors.as_slice(), [BarError::Slug { .. }]),
        "{errors:?}"
    );
}

#[test]
fn lines_in_percent_may_not_take_more_than_there_is() {
    let of_eye = |expected| LossAmount::PercentOfEye {
        expected,
        spread: 1.0,
    };
    let mut bar = with_loss(of_eye(60.0));
    let second = Loss {
        amount: of_eye(41.0),
        ..bar.losses[0].clone()
    };
    bar.losses.push(second);
    check_refused(
        &bar,
        "The losses in percent of the eye add up to 101 %. They may take at most 100 %.",
    );
}

#[test]
fn bars_on_hand_are_checked_one_by_one() {
    assert_eq!(OnHand(vec![square(30.0); MOST_BARS]).check(), []);
    let many = OnHand(vec![square(30.0); MOST_BARS + 1]);
    assert_eq!(
        sentences(&many.check()),
        ["41 bars are listed as on hand. Keep at most 40."]
    );
    let wrong = OnHand(vec![square(30.0), round(2.0)]);
    assert_eq!(
        sentences(&wrong.check()),
        ["Bar 2 on hand: The bar’s diameter is 2 mm. It must be at least 5 mm and at most 300 mm."]
    );
    let text = serde_json::to_string(&OnHand(vec![round(25.0)])).unwrap();
    assert_eq!(text, r#"[{"shape":"round","diameter":"25 mm"}]"#);
}

#[test]
fn areas_and_heights_that_no_head_has_are_refused() {
    let causes = Causes {
        surface_mm2: f64::NAN,
        face_mm2: [-1.0, 1300.0],
        eye_height_mm: f64::INFINITY,
        eye_mm: [f64::NAN, -3.0],
        ..head(1.2, 0.16)
    };
    let errors = billet(&causes, Density::STEEL, &Bar::default()).unwrap_err();
    assert_eq!(
        sentences(&errors),
        [
            "The head’s surface has NaN mm². It must have at least 0 mm² and at most 10000000 mm².",
            "The front face has −1 mm². It must have at least 0 mm² and at most 10000000 mm².",
            "The head is inf mm high at the eye. It must be at least 0 mm and at most 1000 mm.",
            "The eye is NaN mm long at its narrowest. It must be at least 0.1 mm and at most 1000 mm.",
            "The eye is −3 mm wide at its narrowest. It must be at least 0.1 mm and at most 1000 mm.",
        ]
    );
}

#[test]
fn a_loss_out_of_bounds_is_refused_with_a_sentence() {
    let punched = |diameter: f64, expected: f64, spread: f64| LossAmount::Punched {
        punch: Some(Punch::Round {
            diameter: Length::mm(diameter),
        }),
        expected: Length::mm(expected),
        spread: Length::mm(spread),
    };
    let per_heat = |heats, minutes, expected: f64| LossAmount::PerHeat {
        heats,
        minutes,
        atmosphere: Atmosphere::Neutral,
        expected: Length::mm(expected),
        spread: Length::mm(0.01),
    };
    for (amount, sentence) in [
        (
            punched(0.0, 8.0, 3.0),
            "Loss 1, end trimming: the punch’s diameter is 0 mm. It must be at least 1 mm and at most 100 mm.",
        ),
        (
            punched(16.0, -8.0, 3.0),
            "Loss 1, end trimming: the expected amount is −8 mm of web. It must be at least 0 mm of web and at most 100 mm of web.",
        ),
        (
            per_heat(0, 10.0, 0.04),
            "Loss 1, end trimming: the number of heats is 0. It must be at least 1 and at most 100.",
        ),
        (
            per_heat(4_000_000_000, 10.0, 0.04),
            "Loss 1, end trimming: the number of heats is 4000000000. It must be at least 1 and at most 100.",
        ),
        (
            per_heat(8, 0.0, 0.04),
            "Loss 1, end trimming: the length of a heat is 0 min. It must be at least 0.5 min and at most 240 min.",
        ),
        (
            per_heat(8, 10.0, 3.0),
            "Loss 1, end trimming: the expected amount is 3 mm in a heat of ten minutes. It must be at least 0 mm in a heat of ten minutes and at most 2 mm in a heat of ten minutes.",
        ),
        (
            LossAmount::PercentPerHeat {
                heats: 40,
                expected: 3.0,
                spread: 1.0,
            },
            "The losses in percent of the head add up to 120 %. They may take at most 100 %.",
        ),
        (
            LossAmount::OffEnds {
                expected: Length::mm(5.0),
                spread: Length::mm(101.0),
            },
            "Loss 1, end trimming: the spread is 101 mm off each end. It must be at least 0 mm off each end and at most 100 mm off each end.",
        ),
        (
            LossAmount::Mass {
                expected: Mass::grams(-1.0),
                spread: Mass::grams(1.0),
            },
            "Loss 1, end trimming: the expected amount is −0.001 kg. It must be at least 0 kg and at most 10 kg.",
        ),
        (
            LossAmount::Mass {
                expected: Mass::kg(1.0),
                spread: Mass::kg(11.0),
            },
            "Loss 1, end trimming: the spread is 11 kg. It must be at least 0 kg and at most 10 kg.",
        ),
        (
            LossAmount::PercentOfHead {
                expected: 51.0,
                spread: 1.0,
            },
            "Loss 1, end trimming: the expected amount is 51 % of the head. It must be at least 0 % of the head and at most 50 % of the head.",
        ),
        (
            LossAmount::PercentOfEye {
                expected: 40.0,
                spread: -1.0,
            },
            "Loss 1, end trimming: the spread is −1 % of the eye. It must be at least 0 % of the eye and at most 100 % of the eye.",
        ),
        (
            LossAmount::PercentOfHead {
                expected: 5.0,
                spread: f64::NAN,
            },
            "Loss 1, end trimming: the spread is NaN % of the head. It must be at least 0 % of the head and at most 50 % of the head.",
        ),
    ] {
        check_refused(&with_loss(amount), sentence);
    }
}

#[test]
fn confidence_count_and_sources_have_their_limits() {
    for (confidence, shown) in [(0.49, "0.49"), (1.0, "1"), (f64::INFINITY, "inf")] {
        let sentence = format!(
            "The confidence is {shown}. It must be at least 0.5 (as likely as not) and at most 0.999."
        );
        check_refused(
            &Bar {
                confidence,
                ..Bar::default()
            },
            &sentence,
        );
    }
    let line = Loss::usual().remove(0);
    let most = Bar {
        losses: vec![line.clone(); MOST_LOSSES],
        ..Bar::default()
    };
    assert_eq!(most.check(), []);
    let one_more = Bar {
        losses: vec![line.clone(); MOST_LOSSES + 1],
        ..Bar::default()
    };
    check_refused(
        &one_more,
        "The bar lists 13 losses. Keep at most 12: put small ones together.",
    );
    let source = "é".repeat(SOURCE_CHARACTERS);
    let longest = Bar {
        losses: vec![Loss {
            source: source.clone(),
            ..line.clone()
        }],
        ..Bar::default()
    };
    assert_eq!(longest.check(), []);
    let too_long = Bar {
        losses: vec![Loss {
            source: source + "é",
            ..line
        }],
        ..Bar::default()
    };
    check_refused(
        &too_long,
        "Loss 1, slug: the source has 201 characters. Shorten it to at most 200.",
    );
}

#[test]
fn every_fault_is_reported_at_once() {
    let bar = Bar {
        confidence: 2.0,
        ..with_section(round(0.0))
    };
    let errors = billet(&head(0.0, -1.0), Density::kg_per_m3(0.0), &bar).unwrap_err();
    let sentences = errors
        .iter()
        .map(|error| format!("{error}\n"))
        .collect::<String>();
    expect![[r#"
        The bar’s diameter is 0 mm. It must be at least 5 mm and at most 300 mm.
        The confidence is 2. It must be at least 0.5 (as likely as not) and at most 0.999.
        The finished head weighs 0 kg. A cut is worked out for at least 0.001 kg and at most 100 kg.
        The steel in the eye's place weighs −1 kg. It must be at least 0 kg and at most 100 kg.
        The slug weighs 0 kg, but the steel in the eye’s place only −1 kg. Take a smaller punch, a thinner web or less of a slug.
        The density is 0 g/cm³. It must be at least 1 g/cm³ and at most 25 g/cm³.
    "#]]
    .assert_eq(&sentences);
}
