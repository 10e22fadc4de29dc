//! The bar through the public path: areas, the account from head to cut, and every refusal.

#![allow(
    clippy::unwrap_used,
    reason = "a test that cannot read its own input should stop"
)]

use expect_test::{Expect, expect};
use headwright::bar::{
    Bar, BarError, BarSection, FINISHED_KG, Loss, LossAmount, LossKind, MOST_LOSSES,
    SOURCE_CHARACTERS, billet,
};
use headwright::units::{Density, KG_PER_POUND, Length, Mass, Rule};
use proptest::prelude::*;
use proptest::test_runner::RngSeed;

/// The account must close to this, in kg.
const ACCOUNT_KG: f64 = 1e-9;

fn round(mm: f64) -> BarSection {
    BarSection::Round {
        diameter: Length::mm(mm),
    }
}

fn square(mm: f64) -> BarSection {
    BarSection::Square {
        across: Length::mm(mm),
    }
}

fn with_section(section: BarSection) -> Bar {
    Bar {
        section,
        ..Bar::default()
    }
}

fn with_loss(amount: LossAmount) -> Bar {
    let loss = Loss {
        kind: LossKind::Trimming,
        amount,
        source: String::new(),
    };
    Bar {
        losses: vec![loss],
        ..Bar::default()
    }
}

#[test]
fn a_round_billet_of_two_inches_by_four_and_five_eighths_weighs_four_point_one_pounds() {
    let section = BarSection::Round {
        diameter: Length::inches(2.0),
    };
    let kg = section.mass_kg("4 5/8 in".parse().unwrap(), Density::STEEL);
    assert_eq!(format!("{:.1}", kg / KG_PER_POUND), "4.1");
}

#[test]
fn the_account_of_the_default_bar_is_the_one_worked_by_hand() {
    let account = billet(1.2, 0.16, Density::STEEL, &Bar::default()).unwrap();
    let lost: Vec<_> = account
        .losses
        .iter()
        .map(|loss| (loss.name, format!("{:.4}", loss.mass_kg)))
        .collect();
    let by_hand = [
        ("slug", "0.0400"),
        ("scale in forging", "0.0600"),
        ("scale in heat treatment", "0.0060"),
        ("end trimming", "0.0120"),
        ("grinding faces", "0.0240"),
        ("dressing", "0.0060"),
    ];
    assert_eq!(lost, by_hand.map(|(name, kg)| (name, kg.to_owned())));
    assert!((account.billet_mass_kg - 1.348).abs() < ACCOUNT_KG);
    // 16 g, 24 g, 3.6 g, 6 g, 12 g, 3.6 g.
    let variance = 16.0_f64.powi(2)
        + 24.0_f64.powi(2)
        + 2.0 * 3.6_f64.powi(2)
        + 6.0_f64.powi(2)
        + 12.0_f64.powi(2);
    assert!((account.spread_kg - variance.sqrt() / 1000.0).abs() < ACCOUNT_KG);
    // Nine in ten: z = 1.281551565544600467.
    assert!(
        (account.reserve_mass_kg - 1.281_551_565_544_600_4 * account.spread_kg).abs() < ACCOUNT_KG
    );
    // 1.3896 kg on 15.89625 g/mm is 87.4 mm.
    assert_eq!(account.cut_length_mm, 88.0);
    assert!((account.cut_mass_kg - 88.0 * 2025.0 * 7.85e-6).abs() < ACCOUNT_KG);
    // Slug, both scales and the ends are gone, 118 g; grinding and dressing are still to come.
    assert!((account.before_grinding_kg - (account.cut_mass_kg - 0.118)).abs() < ACCOUNT_KG);
}

#[test]
fn at_even_odds_nothing_is_held_in_reserve() {
    let bar = Bar {
        confidence: 0.5,
        ..Bar::default()
    };
    assert_eq!(
        billet(1.2, 0.16, Density::STEEL, &bar)
            .unwrap()
            .reserve_mass_kg,
        0.0
    );
}

#[test]
fn a_loss_counts_on_its_own_basis() {
    for (amount, mass_kg, spread_kg) in [
        (
            LossAmount::Mass {
                expected: Mass::grams(30.0),
                spread: Mass::grams(4.0),
            },
            0.03,
            0.004,
        ),
        (
            LossAmount::PercentOfHead {
                expected: 5.0,
                spread: 2.0,
            },
            0.06,
            0.024,
        ),
        (
            LossAmount::PercentOfEye {
                expected: 25.0,
                spread: 10.0,
            },
            0.04,
            0.016,
        ),
    ] {
        let account = billet(1.2, 0.16, Density::STEEL, &with_loss(amount)).unwrap();
        assert!(
            (account.losses[0].mass_kg - mass_kg).abs() < ACCOUNT_KG,
            "{amount:?}"
        );
        assert!(
            (account.losses[0].spread_kg - spread_kg).abs() < ACCOUNT_KG,
            "{amount:?}"
        );
        assert!(
            (account.billet_mass_kg - 1.2 - mass_kg).abs() < ACCOUNT_KG,
            "{amount:?}"
        );
    }
}

#[test]
fn a_cut_that_lies_on_the_rule_is_not_made_longer() {
    // Exactly 100 mm of 40 mm square.
    let bar = Bar {
        losses: Vec::new(),
        ..with_section(square(40.0))
    };
    let account = billet(
        square(40.0).mass_kg(Length::mm(100.0), Density::STEEL),
        0.0,
        Density::STEEL,
        &bar,
    )
    .unwrap();
    assert_eq!(account.cut_length_mm, 100.0);
    let inch_bar = Bar {
        rule: Rule::SIXTEENTH,
        ..bar
    };
    let account = billet(1.0, 0.0, Density::STEEL, &inch_bar).unwrap();
    // 79.62 mm is 50.2 sixteenths.
    assert_eq!(account.cut_length_mm, 51.0 * 1.5875);
}

#[test]
fn the_usual_losses_name_every_kind_once_with_a_source() {
    assert_eq!(Bar::default().check(), []);
    let kinds: Vec<_> = Loss::usual().into_iter().map(|loss| loss.kind).collect();
    assert_eq!(kinds, LossKind::ALL);
    assert!(
        Loss::usual()
            .iter()
            .all(|loss| loss.source.contains("source"))
    );
}

#[track_caller]
fn check_refused(bar: &Bar, sentence: &str) {
    let sentences =
        |errors: Vec<BarError>| errors.iter().map(ToString::to_string).collect::<Vec<_>>();
    assert_eq!(sentences(bar.check()), [sentence]);
    assert_eq!(
        sentences(billet(1.0, 0.1, Density::STEEL, bar).unwrap_err()),
        [sentence]
    );
}

#[test]
fn a_bar_out_of_bounds_is_refused_with_a_sentence() {
    let size = "It must be at least 5 mm and at most 300 mm.";
    check_refused(
        &with_section(round(0.0)),
        &format!("The bar's diameter is 0 mm. {size}"),
    );
    check_refused(
        &with_section(square(-20.0)),
        &format!("The bar's side is -20 mm. {size}"),
    );
    check_refused(
        &with_section(square(1e300)),
        &format!("The bar's side is 1e300 mm. {size}"),
    );
    let section = BarSection::Octagonal {
        across_flats: Length::inches(12.5),
    };
    check_refused(
        &with_section(section),
        &format!("The bar's size across flats is 12 1/2 in. {size}"),
    );
    let section = BarSection::Rectangular {
        width: Length::mm(50.0),
        height: Length::mm(4.0),
    };
    check_refused(
        &with_section(section),
        &format!("The bar's height is 4 mm. {size}"),
    );
}

#[test]
fn a_loss_out_of_bounds_is_refused_with_a_sentence() {
    for (amount, sentence) in [
        (
            LossAmount::Mass {
                expected: Mass::grams(-1.0),
                spread: Mass::grams(1.0),
            },
            "Loss 1, end trimming: the expected amount is -0.001 kg. It must be at least 0 kg and at most 10 kg.",
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
            "Loss 1, end trimming: the spread is -1 % of the eye. It must be at least 0 % of the eye and at most 100 % of the eye.",
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
    let errors = billet(0.0, -1.0, Density::kg_per_m3(0.0), &bar).unwrap_err();
    let sentences = errors
        .iter()
        .map(|error| format!("{error}\n"))
        .collect::<String>();
    expect![[r#"
        The bar's diameter is 0 mm. It must be at least 5 mm and at most 300 mm.
        The confidence is 2. It must be at least 0.5 (as likely as not) and at most 0.999.
        The finished head weighs 0 kg. A cut is worked out for at least 0.001 kg and at most 100 kg.
        The steel in the eye's place weighs -1 kg. It must be at least 0 kg and at most 100 kg.
        The density is 0 g/cm³. It must be at least 1 g/cm³ and at most 25 g/cm³.
    "#]]
    .assert_eq(&sentences);
}

fn check_json(value: &impl serde::Serialize, expected: Expect) {
    expected.assert_eq(&serde_json::to_string_pretty(value).unwrap());
}

#[test]
fn a_bar_is_saved_with_readable_names_and_read_back_the_same() {
    let bar = Bar {
        losses: vec![
            Loss {
                kind: LossKind::Slug,
                amount: LossAmount::PercentOfEye {
                    expected: 25.0,
                    spread: 10.0,
                },
                source: "weighed on three heads".to_owned(),
            },
            Loss {
                kind: LossKind::Trimming,
                amount: LossAmount::Mass {
                    expected: Mass::grams(12.0),
                    spread: Mass::grams(6.0),
                },
                source: String::new(),
            },
        ],
        section: BarSection::Rectangular {
            width: Length::inches(1.75),
            height: Length::mm(40.0),
        },
        confidence: 0.95,
        rule: Rule::SIXTEENTH,
    };
    check_json(
        &bar,
        expect![[r#"
            {
              "section": {
                "shape": "rectangular",
                "width": "1 3/4 in",
                "height": "40 mm"
              },
              "losses": [
                {
                  "kind": "slug",
                  "amount": {
                    "percent_of_eye": {
                      "expected": 25.0,
                      "spread": 10.0
                    }
                  },
                  "source": "weighed on three heads"
                },
                {
                  "kind": "trimming",
                  "amount": {
                    "mass": {
                      "expected": "12 g",
                      "spread": "6 g"
                    }
                  },
                  "source": ""
                }
              ],
              "confidence": 0.95,
              "rule": "1/16 in"
            }"#]],
    );
    let text = serde_json::to_string(&bar).unwrap();
    assert_eq!(serde_json::from_str::<Bar>(&text).unwrap(), bar);
    let misspelt = text.replace("\"width\"", "\"widht\"");
    assert!(
        serde_json::from_str::<Bar>(&misspelt)
            .unwrap_err()
            .to_string()
            .contains("widht")
    );
}

#[test]
fn the_schema_states_the_limits_of_the_table() {
    let schema = serde_json::to_value(schemars::schema_for!(Bar)).unwrap();
    let confidence = &schema["properties"]["confidence"];
    assert_eq!(
        (
            confidence["minimum"].as_f64(),
            confidence["maximum"].as_f64()
        ),
        (Some(0.5), Some(0.999))
    );
    assert_eq!(
        schema["$defs"]["Loss"]["properties"]["source"]["maxLength"],
        SOURCE_CHARACTERS
    );
}

fn any_section() -> impl Strategy<Value = BarSection> {
    (0..4, 5.0..300.0_f64, 5.0..300.0_f64).prop_map(|(shape, a, b)| match shape {
        0 => round(a),
        1 => square(a),
        2 => BarSection::Rectangular {
            width: Length::mm(a),
            height: Length::mm(b),
        },
        _ => BarSection::Octagonal {
            across_flats: Length::mm(a),
        },
    })
}

fn any_loss() -> impl Strategy<Value = Loss> {
    (
        prop::sample::select(LossKind::ALL.to_vec()),
        0..3,
        0.0..1.0_f64,
        0.0..1.0_f64,
    )
        .prop_map(|(kind, basis, expected, spread)| {
            let amount = match basis {
                0 => LossAmount::Mass {
                    expected: Mass::kg(expected),
                    spread: Mass::kg(spread),
                },
                1 => LossAmount::PercentOfHead {
                    expected: 50.0 * expected,
                    spread: 50.0 * spread,
                },
                _ => LossAmount::PercentOfEye {
                    expected: 100.0 * expected,
                    spread: 100.0 * spread,
                },
            };
            Loss {
                kind,
                amount,
                source: String::new(),
            }
        })
}

fn any_bar() -> impl Strategy<Value = Bar> {
    let rule = prop::sample::select(vec![Rule::MILLIMETRE, Rule::SIXTEENTH]);
    let losses = prop::collection::vec(any_loss(), 0..MOST_LOSSES);
    (any_section(), losses, 0.5..0.999_f64, rule).prop_map(|(section, losses, confidence, rule)| {
        Bar {
            section,
            losses,
            confidence,
            rule,
        }
    })
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, rng_seed: RngSeed::Fixed(1), ..ProptestConfig::with_cases(500) })]

    #[test]
    fn the_account_closes_for_any_bar(bar in any_bar(), finished_kg in 0.1..10.0_f64, eye_share in 0.0..1.0_f64) {
        let density = Density::g_per_cm3(7.76);
        let account = billet(finished_kg, eye_share * finished_kg, density, &bar).expect("a bar within bounds");
        let lost: f64 = account.losses.iter().map(|loss| loss.mass_kg).sum();
        prop_assert!((account.billet_mass_kg - finished_kg - lost).abs() < ACCOUNT_KG);
        let sum = account.billet_mass_kg + account.reserve_mass_kg + account.rounding_mass_kg;
        prop_assert!((account.cut_mass_kg - sum).abs() < ACCOUNT_KG);
        let steel = account.cut_length_mm * bar.section.area_mm2() * 7.76e-6;
        prop_assert!((account.cut_mass_kg - steel).abs() < ACCOUNT_KG);
        let divisions = account.cut_length_mm / bar.rule.division().in_mm();
        prop_assert!((divisions - divisions.round()).abs() < 1e-9);
        let one_division = bar.section.mass_kg(bar.rule.division(), density);
        prop_assert!(account.reserve_mass_kg >= 0.0);
        prop_assert!(account.rounding_mass_kg > -1e-5 * one_division && account.rounding_mass_kg < one_division);
    }

    #[test]
    fn more_confidence_never_shortens_the_cut(bar in any_bar(), more in 0.5..0.999_f64) {
        let cut = |confidence| billet(1.0, 0.15, Density::STEEL, &Bar { confidence, ..bar.clone() });
        let (low, high) = (bar.confidence.min(more), bar.confidence.max(more));
        let (low, high) = (cut(low).expect("a bar within bounds"), cut(high).expect("a bar within bounds"));
        prop_assert!(high.reserve_mass_kg >= low.reserve_mass_kg);
        prop_assert!(high.cut_length_mm >= low.cut_length_mm);
    }

    #[test]
    fn any_numbers_at_all_give_a_finite_account_or_sentences(
        size in any::<f64>(), confidence in any::<f64>(), expected in any::<f64>(), spread in any::<f64>(),
        finished_kg in any::<f64>(), density in any::<f64>(),
    ) {
        let loss = with_loss(LossAmount::PercentOfHead { expected, spread });
        for bar in [
            Bar { confidence, ..with_section(square(size)) },
            with_section(square(size)),
            loss,
            Bar { confidence, ..Bar::default() },
        ] {
            for (finished_kg, density) in [(finished_kg, 7850.0), (1.0, density), (1.0, 7850.0)] {
                match billet(finished_kg, 0.1, Density::kg_per_m3(density), &bar) {
                    Ok(account) => {
                        prop_assert!(FINISHED_KG.admits(finished_kg));
                        prop_assert!(account.cut_length_mm.is_finite() && account.cut_length_mm > 0.0);
                    }
                    Err(errors) => {
                        prop_assert!(!errors.is_empty());
                        prop_assert!(errors.iter().all(|error| error.to_string().ends_with('.')));
                    }
                }
            }
        }
    }
}
