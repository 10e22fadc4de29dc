//! Lengths, masses and densities through the public path: what a smith types, what a file holds, what is shown.

#![allow(
    clippy::unwrap_used,
    reason = "a test that cannot read its own input should stop"
)]

use headwright::units::{
    Density, KG_PER_POUND, Length, LengthNotation, Mass, MassNotation, Quantity, ROUND_UP_SLACK_MM,
    Rule, System, UnitError, parse_length, parse_mass, show_length, show_mass, show_number,
};
use proptest::prelude::*;
use proptest::test_runner::RngSeed;

/// Rounding error of a conversion, relative.
const ROUNDOFF: f64 = 1e-15;

#[track_caller]
fn check_length(text: &str, system: System, mm: f64, notation: LengthNotation) {
    let length = parse_length(text, system).unwrap_or_else(|error| panic!("{text:?}: {error}"));
    assert!(
        (length.in_mm() - mm).abs() <= mm.abs() * ROUNDOFF,
        "{text:?} is {} mm",
        length.in_mm()
    );
    assert_eq!(length.notation(), notation, "{text:?}");
}

#[track_caller]
fn check_mass(text: &str, system: System, kg: f64, notation: MassNotation) {
    let mass = parse_mass(text, system).unwrap_or_else(|error| panic!("{text:?}: {error}"));
    assert!(
        (mass.in_kg() - kg).abs() <= kg.abs() * ROUNDOFF,
        "{text:?} is {} kg",
        mass.in_kg()
    );
    assert_eq!(mass.notation(), notation, "{text:?}");
}

#[track_caller]
fn check_length_refused(text: &str, sentence: &str) {
    for system in [System::Metric, System::Imperial] {
        assert_eq!(
            parse_length(text, system).unwrap_err().to_string(),
            sentence,
            "{text:?}"
        );
    }
}

#[track_caller]
fn check_mass_refused(text: &str, sentence: &str) {
    for system in [System::Metric, System::Imperial] {
        assert_eq!(
            parse_mass(text, system).unwrap_err().to_string(),
            sentence,
            "{text:?}"
        );
    }
}

#[test]
fn a_length_is_read_in_every_notation_that_smiths_type() {
    use LengthNotation::{Centimetre, InchDecimal, InchFraction, Millimetre};
    use System::{Imperial, Metric};
    for (text, system, mm, notation) in [
        ("58", Metric, 58.0, Millimetre),
        ("58", Imperial, 58.0 * 25.4, InchFraction),
        ("58.0", Imperial, 58.0 * 25.4, InchDecimal),
        ("58 mm", Imperial, 58.0, Millimetre),
        ("58mm", Metric, 58.0, Millimetre),
        ("58 MM", Metric, 58.0, Millimetre),
        ("  58\u{a0}mm\t", Metric, 58.0, Millimetre),
        ("5.8 cm", Metric, 58.0, Centimetre),
        ("5,8 cm", Imperial, 58.0, Centimetre),
        ("0,5", Metric, 0.5, Millimetre),
        ("0,125 in", Metric, 3.175, InchDecimal),
        ("57,1500", Metric, 57.15, Millimetre),
        (".5", Metric, 0.5, Millimetre),
        ("5.", Metric, 5.0, Millimetre),
        ("1e2 mm", Metric, 100.0, Millimetre),
        ("5e-1 mm", Metric, 0.5, Millimetre),
        ("2 1/4", Metric, 57.15, InchFraction),
        ("2 1/4", Imperial, 57.15, InchFraction),
        ("2-1/4\"", Metric, 57.15, InchFraction),
        ("2–1/4 in", Metric, 57.15, InchFraction),
        ("2 1⁄4″", Metric, 57.15, InchFraction),
        ("2 1/4''", Metric, 57.15, InchFraction),
        ("2¼", Metric, 57.15, InchFraction),
        ("2 ¼ inches", Metric, 57.15, InchFraction),
        ("½", Imperial, 12.7, InchFraction),
        ("¾ in.", Imperial, 19.05, InchFraction),
        ("⅛ inch", Imperial, 3.175, InchFraction),
        ("1/2", Metric, 12.7, InchFraction),
        ("9/4 in", Metric, 57.15, InchFraction),
        ("1/2 mm", Metric, 0.5, Millimetre),
        ("2.25 in", Metric, 57.15, InchDecimal),
        ("2.25\"", Metric, 57.15, InchDecimal),
        ("-3", Metric, -3.0, Millimetre),
        ("\u{2212}3 mm", Metric, -3.0, Millimetre),
        ("+3 mm", Metric, 3.0, Millimetre),
        ("-2 1/4 in", Metric, -57.15, InchFraction),
        ("-½ in", Metric, -12.7, InchFraction),
        ("0", Metric, 0.0, Millimetre),
    ] {
        check_length(text, system, mm, notation);
    }
}

#[test]
fn a_mass_is_read_in_every_notation_that_smiths_type() {
    use MassNotation::{Gram, Kilogram, Ounce, Pound, PoundOunce};
    use System::{Imperial, Metric};
    let pound = KG_PER_POUND;
    for (text, system, kg, notation) in [
        ("1.1", Metric, 1.1, Kilogram),
        ("1,1", Metric, 1.1, Kilogram),
        ("2.5", Imperial, 2.5 * pound, Pound),
        ("1.1 kg", Imperial, 1.1, Kilogram),
        ("1.1KG", Imperial, 1.1, Kilogram),
        ("850 g", Imperial, 0.85, Gram),
        ("38 oz", Metric, 2.375 * pound, Ounce),
        ("2 lb 6 oz", Metric, 2.375 * pound, PoundOunce),
        ("2lb6oz", Metric, 2.375 * pound, PoundOunce),
        ("2 lbs. 6 ounces", Metric, 2.375 * pound, PoundOunce),
        ("2 lb, 6 oz", Metric, 2.375 * pound, PoundOunce),
        ("2 lb,6 oz", Metric, 2.375 * pound, PoundOunce),
        ("2 pounds 6", Metric, 2.375 * pound, PoundOunce),
        ("2 lb .5 oz", Metric, (2.0 + 0.5 / 16.0) * pound, PoundOunce),
        (
            "2 lb 6 1/2 oz",
            Metric,
            (2.0 + 6.5 / 16.0) * pound,
            PoundOunce,
        ),
        ("-2 lb 6 oz", Metric, -2.375 * pound, PoundOunce),
        ("2 lb 20 oz", Metric, 3.25 * pound, PoundOunce),
        ("2 1/2 lb", Metric, 2.5 * pound, Pound),
        ("½ lb", Metric, 0.5 * pound, Pound),
        ("2.5 pounds", Metric, 2.5 * pound, Pound),
    ] {
        check_mass(text, system, kg, notation);
    }
}

#[test]
fn two_pounds_six_is_exactly_thirty_eight_ounces() {
    let pounds: Mass = "2 lb 6 oz".parse().unwrap();
    let ounces: Mass = "38 oz".parse().unwrap();
    assert_eq!(pounds.in_kg().to_bits(), ounces.in_kg().to_bits());
}

#[test]
fn what_is_no_length_is_refused_with_a_sentence() {
    for (text, sentence) in [
        (
            "",
            "Nothing is written here. Write a length such as 58 mm or 2 1/4 in.",
        ),
        (
            " \u{a0}\t",
            "Nothing is written here. Write a length such as 58 mm or 2 1/4 in.",
        ),
        (
            "wide",
            "“wide” is not a number with a unit. Write a length such as 58 mm or 2 1/4 in.",
        ),
        (
            "NaN",
            "“NaN” is not a number with a unit. Write a length such as 58 mm or 2 1/4 in.",
        ),
        (
            "inf",
            "“inf” is not a number with a unit. Write a length such as 58 mm or 2 1/4 in.",
        ),
        (
            "-",
            "“-” is not a number with a unit. Write a length such as 58 mm or 2 1/4 in.",
        ),
        (
            "--5",
            "“--5” is not a number with a unit. Write a length such as 58 mm or 2 1/4 in.",
        ),
        (
            "1.2.3",
            "“1.2.3” is not a number with a unit. Write a length such as 58 mm or 2 1/4 in.",
        ),
        (
            "1.234,5 mm",
            "“1.234,5 mm” is not a number with a unit. Write a length such as 58 mm or 2 1/4 in.",
        ),
        (
            "5 5 mm",
            "“5 5 mm” is not a number with a unit. Write a length such as 58 mm or 2 1/4 in.",
        ),
        (
            "2.5 1/4",
            "“2.5 1/4” is not a number with a unit. Write a length such as 58 mm or 2 1/4 in.",
        ),
        (
            "1/½",
            "“1/½” is not a number with a unit. Write a length such as 58 mm or 2 1/4 in.",
        ),
        (
            "3/",
            "“3/” is not a number with a unit. Write a length such as 58 mm or 2 1/4 in.",
        ),
        ("1e999 mm", "“1e999 mm” is too large to be a length."),
        ("1e308 cm", "“1e308 cm” is too large to be a length."),
        (
            "1/0",
            "“1/0” divides by zero. Write the fraction with a number of at least 1 below the line.",
        ),
        (
            "2 1/0 in",
            "“2 1/0 in” divides by zero. Write the fraction with a number of at least 1 below the line.",
        ),
        (
            "1,200 mm",
            "“1,200 mm” can be read in two ways. Write 1.200 or 1200.",
        ),
        (
            "1,200.50 mm",
            "“1,200.50 mm” is not a number with a unit. Write a length such as 58 mm or 2 1/4 in.",
        ),
        (
            "5 yards",
            "“yards” in “5 yards” is not a known unit of length. Use mm, cm or in.",
        ),
        (
            "5'",
            "“'” in “5'” is not a known unit of length. Use mm, cm or in.",
        ),
        (
            "5 kg",
            "“5 kg” is a mass, but a length is needed here. Use mm, cm or in.",
        ),
        (
            "7.85 g/cm³",
            "“7.85 g/cm³” is a density, but a length is needed here. Use mm, cm or in.",
        ),
    ] {
        check_length_refused(text, sentence);
    }
}

#[test]
fn what_is_no_mass_is_refused_with_a_sentence() {
    for (text, sentence) in [
        (
            "",
            "Nothing is written here. Write a mass such as 1.1 kg or 2 lb 6 oz.",
        ),
        (
            "heavy",
            "“heavy” is not a number with a unit. Write a mass such as 1.1 kg or 2 lb 6 oz.",
        ),
        (
            "2 lb -6 oz",
            "“2 lb -6 oz” is not a number with a unit. Write a mass such as 1.1 kg or 2 lb 6 oz.",
        ),
        (
            "2 lb 6 mm",
            "“2 lb 6 mm” is a length, but a mass is needed here. Use g, kg, oz or lb.",
        ),
        (
            "2 lb 6 lb",
            "“2 lb 6 lb” is not a number with a unit. Write a mass such as 1.1 kg or 2 lb 6 oz.",
        ),
        (
            "58 mm",
            "“58 mm” is a length, but a mass is needed here. Use g, kg, oz or lb.",
        ),
        (
            "5 stone",
            "“stone” in “5 stone” is not a known unit of mass. Use g, kg, oz or lb.",
        ),
        (
            "1,125 kg",
            "“1,125 kg” can be read in two ways. Write 1.125 or 1125.",
        ),
        ("1e999 g", "“1e999 g” is too large to be a mass."),
        (
            "1e308 lb 1e308 oz",
            "“1e308 lb 1e308 oz” is too large to be a mass.",
        ),
    ] {
        check_mass_refused(text, sentence);
    }
}

#[test]
fn a_long_text_is_cut_to_forty_characters_in_the_sentence() {
    let Err(UnitError::NotANumber { text, wanted }) =
        parse_length(&"ä".repeat(500), System::Metric)
    else {
        panic!("five hundred letters are no length");
    };
    assert_eq!((text.chars().count(), wanted), (40, Quantity::Length));
    assert!(text.ends_with('…'));
}

#[test]
fn a_file_must_state_the_unit() {
    let refused = "58".parse::<Length>().unwrap_err().to_string();
    assert_eq!(
        refused,
        "“58” has no unit. Write a length such as 58 mm or 2 1/4 in."
    );
    assert!(matches!(
        "1.1".parse::<Mass>(),
        Err(UnitError::MissingUnit { .. })
    ));
    let refused = serde_json::from_str::<Length>("58")
        .unwrap_err()
        .to_string();
    assert!(
        refused.contains("a length with its unit as text"),
        "{refused}"
    );
    assert!(serde_json::from_str::<Length>("null").is_err());
}

#[test]
fn a_saved_quantity_is_the_text_it_was_entered_as() {
    for text in [
        "58 mm",
        "5.8 cm",
        "2.25 in",
        "2 1/4 in",
        "63/64 in",
        "-1/2 in",
        "0 in",
        "12 in",
        "12.0 in",
        "0.0 in",
        "57.123456789 mm",
    ] {
        let length: Length = text.parse().unwrap();
        assert_eq!(serde_json::to_string(&length).unwrap(), format!("{text:?}"));
        assert_eq!(
            serde_json::from_str::<Length>(&format!("{text:?}")).unwrap(),
            length
        );
    }
    for text in [
        "1.1 kg",
        "850 g",
        "38 oz",
        "2 lb 6 oz",
        "0 lb 8 oz",
        "-1 lb 0 oz",
        "2.5 lb",
    ] {
        let mass: Mass = text.parse().unwrap();
        assert_eq!(serde_json::to_string(&mass).unwrap(), format!("{text:?}"));
    }
}

#[test]
fn a_fraction_that_is_no_sixty_fourth_is_written_in_full_as_a_decimal() {
    assert_eq!(
        Length::inches(2.25).with_mm(58.0).to_string(),
        "2.28346456693 in"
    );
    // A hundred-millionth of a millimetre off a quarter is more than a file may lose.
    assert_eq!(
        Length::inches(2.25).with_mm(57.15 + 1e-8).to_string(),
        "2.25000000039 in"
    );
}

#[test]
fn a_huge_number_is_written_with_a_power_of_ten_and_reads_back() {
    for text in ["1e300 mm", "-2.5e20 cm", "1e16 in"] {
        assert_eq!(text.parse::<Length>().unwrap().to_string(), text);
    }
    assert_eq!(
        "1e16 lb 0 oz".parse::<Mass>().unwrap().to_string(),
        "1e16 lb 0 oz"
    );
    assert_eq!(show_number(1e300), "1e300");
    assert_eq!(show_number(0.1 + 0.2), "0.3");
    assert_eq!(show_length(Length::mm(2.54e20), System::Imperial), "1e19");
}

#[test]
fn ounces_that_round_to_sixteen_become_a_pound() {
    let mass = Mass::new(3.0 * KG_PER_POUND - 1e-14, MassNotation::PoundOunce);
    assert_eq!(mass.to_string(), "3 lb 0 oz");
    assert_eq!(
        show_mass(3.0 * KG_PER_POUND - 1e-4, System::Imperial),
        "3 lb 0.0 oz"
    );
    assert_eq!(
        show_mass(KG_PER_POUND - 1e-4, System::Imperial),
        "1 lb 0.0 oz"
    );
}

#[test]
fn a_density_is_read_in_both_units_and_written_in_grams_per_cubic_centimetre() {
    for text in [
        "7.85",
        "7,85",
        "7.85 g/cm³",
        "7.85 g/cm3",
        "7.85G/CM3",
        "7850 kg/m3",
        "7850 kg/m³",
    ] {
        let density: Density = text
            .parse()
            .unwrap_or_else(|error| panic!("{text:?}: {error}"));
        assert_eq!(density, Density::STEEL, "{text:?}");
        assert_eq!(density.to_string(), "7.85 g/cm³");
    }
    // A cubic centimetre of it weighs 7.85 g.
    assert!((Density::STEEL.in_kg_per_mm3() * 1e3 - 0.00785).abs() < 1e-18);
    let refused = "7.85 kg".parse::<Density>().unwrap_err().to_string();
    assert_eq!(
        refused,
        "“7.85 kg” is a mass, but a density is needed here. Use g/cm³ or kg/m³."
    );
}

#[test]
fn the_rule_rounds_up_but_not_for_a_hair() {
    assert_eq!(Rule::MILLIMETRE.round_up(120.000_000_1), 120.0);
    assert_eq!(
        Rule::MILLIMETRE.round_up(120.0 + 2.0 * ROUND_UP_SLACK_MM),
        121.0
    );
    assert_eq!(Rule::MILLIMETRE.round_up(119.01), 120.0);
    assert_eq!(Rule::SIXTEENTH.round_up(57.2), 37.0 * 1.5875);
    assert_eq!(Rule::SIXTEENTH.round_nearest(57.2), 57.15);
    assert_eq!(Rule::MILLIMETRE.round_nearest(-0.6), -1.0);
}

#[test]
fn a_rule_nobody_can_measure_with_is_refused() {
    assert_eq!("1/16 in".parse::<Rule>().unwrap(), Rule::SIXTEENTH);
    assert_eq!(
        serde_json::to_string(&Rule::SIXTEENTH).unwrap(),
        "\"1/16 in\""
    );
    for text in ["0 mm", "-1 mm", "0.009 mm", "101 mm", "1e300 in"] {
        assert!(
            matches!(text.parse::<Rule>(), Err(UnitError::RuleOutOfRange { .. })),
            "{text}"
        );
    }
    let refused = "0 mm".parse::<Rule>().unwrap_err().to_string();
    let sentence = "The smallest division you measure with is 0 mm. It must be at least 0.01 mm and at most 100 mm.";
    assert_eq!(refused, sentence);
}

#[test]
fn the_schema_describes_a_quantity_as_text() {
    let schema = serde_json::to_value(schemars::schema_for!(Length)).unwrap();
    assert_eq!(schema["type"], "string");
    assert!(
        schema["pattern"]
            .as_str()
            .is_some_and(|pattern| pattern.ends_with("(mm|cm|in)$"))
    );
    assert!(
        schema["description"]
            .as_str()
            .is_some_and(|text| text.contains("2 1/4 in"))
    );
}

fn length_notation() -> impl Strategy<Value = LengthNotation> {
    prop::sample::select(vec![
        LengthNotation::Millimetre,
        LengthNotation::Centimetre,
        LengthNotation::InchDecimal,
        LengthNotation::InchFraction,
    ])
}

fn mass_notation() -> impl Strategy<Value = MassNotation> {
    prop::sample::select(vec![
        MassNotation::Gram,
        MassNotation::Kilogram,
        MassNotation::Ounce,
        MassNotation::PoundOunce,
        MassNotation::Pound,
    ])
}

/// Texts made of what quantities are made of: far more of them reach the inside of the reader than of random text.
fn nearly_a_quantity() -> impl Strategy<Value = String> {
    let pieces = vec![
        "0", "1", "58", "999", ".", ",", "/", "-", "\u{2212}", "+", " ", "\u{a0}", "e", "E", "e9",
        "½", "¼", "⅞", "⁄", "mm", "cm", "in", "\"", "″", "''", "lb", "lbs.", "oz", "g", "kg",
        "g/cm³", "NaN", "inf", "é", "\0", "\u{feff}",
    ];
    prop::collection::vec(prop::sample::select(pieces), 0..8).prop_map(|pieces| pieces.concat())
}

/// Reads `text` every way there is; what is read must be finite, what is refused must be a sentence.
fn read_every_way(text: &str) {
    let sentence = |error: UnitError| {
        let sentence = error.to_string();
        assert!(
            sentence.ends_with('.') && !sentence.contains('\n') && sentence.chars().count() < 250,
            "{sentence}"
        );
    };
    for system in [System::Metric, System::Imperial] {
        parse_length(text, system).map_or_else(sentence, |length| {
            assert!(length.in_mm().is_finite(), "{text:?}")
        });
        parse_mass(text, system).map_or_else(sentence, |mass| {
            assert!(mass.in_kg().is_finite(), "{text:?}")
        });
    }
    text.parse::<Density>().map_or_else(sentence, |density| {
        assert!(density.in_kg_per_m3().is_finite(), "{text:?}")
    });
    text.parse::<Rule>().map_or_else(sentence, |rule| {
        assert!(rule.division().in_mm() > 0.0, "{text:?}")
    });
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, rng_seed: RngSeed::Fixed(1), ..ProptestConfig::with_cases(2000) })]

    #[test]
    fn any_text_is_read_or_refused_with_a_sentence(text in "\\PC*") {
        read_every_way(&text);
    }

    #[test]
    fn any_text_made_of_numbers_and_units_is_read_or_refused_with_a_sentence(text in nearly_a_quantity()) {
        read_every_way(&text);
    }

    #[test]
    fn a_length_survives_being_written_and_read(mm in -1e4..1e4_f64, notation in length_notation()) {
        let length = Length::new(mm, notation);
        let text = length.to_string();
        let back: Length = text.parse()?;
        prop_assert!((back.in_mm() - mm).abs() < 1e-9, "{text} came back as {} mm", back.in_mm());
        // No random length is a sixty-fourth of an inch, so a fraction is written and read as a decimal.
        let expected = if notation == LengthNotation::InchFraction { LengthNotation::InchDecimal } else { notation };
        prop_assert_eq!(back.notation(), expected);
        prop_assert_eq!(back.to_string(), text);
    }

    #[test]
    fn an_inch_fraction_survives_being_written_and_read(divisions in -64_000_i32..64_000) {
        let length = Length::inches(f64::from(divisions) / 64.0);
        let back: Length = length.to_string().parse()?;
        prop_assert_eq!(back, length);
        prop_assert_eq!(back.to_string(), length.to_string());
    }

    #[test]
    fn a_mass_survives_being_written_and_read(kg in -100.0..100.0_f64, notation in mass_notation()) {
        let mass = Mass::new(kg, notation);
        let text = mass.to_string();
        let back: Mass = text.parse()?;
        prop_assert!((back.in_kg() - kg).abs() < 2e-12, "{text} came back as {} kg", back.in_kg());
        prop_assert_eq!(back.notation(), notation);
        prop_assert_eq!(back.to_string(), text);
    }

    #[test]
    fn rounding_to_the_rule_moves_by_less_than_one_division(mm in 0.0..5000.0_f64, sixteenths in any::<bool>()) {
        let rule = if sixteenths { Rule::SIXTEENTH } else { Rule::MILLIMETRE };
        let step = rule.division().in_mm();
        let up = rule.round_up(mm) - mm;
        prop_assert!(up > -2.0 * ROUND_UP_SLACK_MM && up < step, "{up}");
        prop_assert!((rule.round_nearest(mm) - mm).abs() <= step / 2.0 + 1e-9);
    }
}
