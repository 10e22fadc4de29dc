//! The heat treatment, as JSON and as a table.

use std::ffi::OsString;

use expect_test::{Expect, expect};
use headwright::cli::{Command, HeatAnswer, parse};
use headwright::design::{Design, Edit, starter, starter_names};
use headwright::heat::{
    Aim, CAUTIONS, Composition, Element, Grade, Heat, Medium, Place, Quench, Steel, Temper, plan,
};
use headwright::units::{Length, Rule};
use serde_json::Value;

use super::{check_answer, check_close, check_refused, number, run};

fn design(name: &str) -> Design {
    starter(name).expect("a starter")
}

/// What the command line answers for `design` with these options.
fn answer(design: &Design, options: &[&str]) -> HeatAnswer {
    let arguments = ["heat", "-"].iter().chain(options).map(OsString::from);
    let Ok(Command::Heat { asked, .. }) = parse(arguments) else {
        panic!("{options:?} are options of heat");
    };
    HeatAnswer::of(design, &asked).expect("a plan")
}

#[track_caller]
fn check_band(told: &Value, low: f64, high: f64) {
    check_close(number(told, "low"), low, 1e-12);
    check_close(number(told, "high"), high, 1e-12);
}

#[test]
fn a_starter_is_planned_by_defaults_with_the_numbers_of_the_core() {
    let design = design("cross");
    let told = check_answer(&["heat", "-"], &design.to_json());
    let solid = design.build().expect("sound");
    let planned = plan(&solid, &design.heat).expect("a plan");

    assert_eq!(told["steel"]["grade"], "1045");
    check_close(number(&told, "mass_kg"), planned.mass_kg, 1e-12);
    let ac1 = planned.critical.ac1.expect("inside the formula");
    check_close(
        number(&told["critical"]["ac1_celsius"], "value"),
        ac1.value,
        1e-12,
    );
    assert_eq!(told["critical"]["ac1_celsius"]["certainty"], "read");
    let ideal = planned.hardenability.ideal_mm.expect("inside the method");
    check_band(
        &told["hardenability"]["ideal_diameter_mm"]["value"],
        ideal.value.low,
        ideal.value.high,
    );
    for (side, end) in ["front", "back"].into_iter().zip(&planned.ends) {
        check_band(&told[side]["round_mm"], end.round_mm.low, end.round_mm.high);
        let places = told[side]["places"].as_array().expect("places");
        assert_eq!(places.len(), Place::ALL.len());
        for (told, place) in places.iter().zip(&end.places) {
            let hrc = place.tempered_hrc.expect("known");
            check_band(&told["tempered_hrc"], hrc.low, hrc.high);
        }
    }
    let bath = planned.bath.expect("water");
    check_close(number(&told["bath"], "litres"), bath.litres, 1e-12);
    check_close(number(&told["temper"], "celsius"), 190.0, 1e-12);
    let steps = told["steps"].as_array().expect("steps");
    assert_eq!(steps.len(), 8);
    let cautions = told["cautions"].as_array().expect("cautions");
    assert_eq!(cautions.len(), CAUTIONS.len());
    for (told, caution) in cautions.iter().zip(CAUTIONS) {
        assert_eq!(told["text"], caution.text);
        assert_eq!(told["source"], caution.source);
    }
    assert!(told["hardness_windows"][0]["most_hrc"].is_f64());
}

#[test]
fn what_is_said_stands_in_the_place_of_what_the_design_says() {
    let own = Heat {
        steel: Steel {
            grade: Grade::C1060,
            analysis: Some(Composition::NOTHING.with(Element::C, 0.61)),
        },
        quench: Some(Quench {
            bath_celsius: 25.0,
            ..Quench::usual(Grade::C1060)
        }),
        temper: Some(Temper {
            soak_hours: 1.5,
            ..Temper::usual(Grade::C1060)
        }),
    };
    let design = design("rounding").apply(Edit::Heat(Box::new(own)));
    let told = |options: &[&str]| answer(&design, options);

    let as_it_is = told(&[]);
    assert_eq!(as_it_is.steel.analysis_percent, own.steel.analysis);
    assert_eq!(as_it_is.quench.bath_celsius, 25.0);
    let moved = told(&["--agitation", "strong", "--hardness", "55HRC"]);
    assert_eq!(moved.quench.bath_celsius, 25.0);
    assert_eq!(moved.temper.soak_hours, 1.5);
    check_close(moved.temper.martensite_hrc.value, 55.0, 0.01);
    let brine = told(&["--quench", "brine", "--bath", "77F"]);
    assert_eq!(brine.quench.medium, Medium::Brine);
    check_close(brine.quench.bath_celsius, 25.0, 1e-12);
    let bar = told(&["--analysis", "c=0.45, Mn=0.75%,Si=0.25"]);
    let analysis = bar.steel.analysis_percent.expect("an analysis");
    assert_eq!(analysis.percent(Element::C), 0.45);
    assert_eq!(analysis.percent(Element::Mn), 0.75);
    assert_eq!(analysis.sum(), 0.45 + 0.75 + 0.25);

    // Another steel is treated as is usual for it, and weighs as much as it does.
    let s7 = told(&[
        "--steel", "s7", "--temper", "400F", "--soak", "90min", "--times", "3",
    ]);
    assert_eq!(s7.steel.grade, Grade::S7);
    assert_eq!(s7.steel.analysis_percent, None);
    assert_eq!(s7.quench.medium, Medium::Air);
    assert_eq!(s7.bath, None);
    check_close(s7.temper.celsius, 368.0 / 1.8, 1e-12);
    assert_eq!((s7.temper.soak_hours, s7.temper.times), (1.5, 3));
    check_close(s7.mass_kg / as_it_is.mass_kg, 7760.0 / 7850.0, 1e-9);
}

/// Every band of `told`, from its lower edge to its upper.
fn check_bands(told: &Value) {
    match told {
        Value::Object(entries) => {
            if let (Some(low), Some(high)) = (entries.get("low"), entries.get("high")) {
                let [low, high] = [low, high].map(|edge| edge.as_f64().expect("a number"));
                assert!(low <= high, "{low} to {high}");
            }
            entries.values().for_each(check_bands);
        }
        Value::Array(all) => all.iter().for_each(check_bands),
        _ => {}
    }
}

#[test]
fn every_starter_is_planned_in_every_grade() {
    for name in starter_names() {
        let design = design(name);
        for grade in Grade::ALL {
            let answer = answer(&design, &["--steel", grade.name()]);
            let told = serde_json::to_value(&answer).expect("JSON");
            check_bands(&told);
            assert_eq!(told["steel"]["grade"], grade.name(), "{name}");
            // Where no number is known a note says so.
            if told["critical"]["ac1_celsius"].is_null() {
                let notes = told["notes"].to_string();
                assert!(notes.contains("No Ac1, Ac3 or Ms"), "{name}: {notes}");
            }
            let table = answer.to_string();
            assert!(table.contains(grade.words()), "{name}");
            assert!(!table.contains("NaN") && !table.contains("inf "), "{table}");
        }
    }
}

/// The table up to the steps of the work.
#[track_caller]
fn check_table(design: &Design, options: &[&str], expected: Expect) {
    let arguments = [&["heat", "-", "--table"], options].concat();
    let output = run(&arguments, design.to_json().as_bytes());
    assert_eq!(String::from_utf8_lossy(&output.stderr), "");
    let table = String::from_utf8(output.stdout).expect("UTF-8");
    let (numbers, work) = table.split_once("The work\n").expect("steps");
    for caution in CAUTIONS {
        assert!(work.contains(caution.text), "{table}");
    }
    for part in ["1. forge", "8. prove", "DIN 1193", "estimates"] {
        assert!(work.contains(part), "{part}:\n{table}");
    }
    expected.assert_eq(numbers);
}

#[test]
fn a_table_is_read_in_the_units_of_the_rule() {
    let metric = design("cross");
    check_table(
        &metric,
        &[],
        expect![[r#"
            The steel: 1045, carbon steel, 0.45 % carbon
              C 0.43 to 0.5, Mn 0.6 to 0.9, Si 0.15 to 0.35, P 0 to 0.04, S 0 to 0.05, in percent (SAE J403 / ASTM A29, as a steel dealer reprints it)
              7.85 g/cm³ (the design convention for steel, Eurocode 3, UK National Annex)

            Where it turns
              Ac1, austenite begins            720 °C  Andrews, J. Iron Steel Inst. 203 (1965) 721–727, as public codes quote it; an estimate, ± 20 °C
              Ac3, all is austenite            785 °C  Andrews, J. Iron Steel Inst. 203 (1965) 721–727, as public codes quote it; an estimate, ± 20 °C
              Ms, martensite begins  300 °C to 340 °C  Andrews, J. Iron Steel Inst. 203 (1965) 721–727, as public codes quote it; an estimate, ± 20 °C

            How deep it hardens
              ideal diameter                15 to 33 mm  ASTM A255-10 (2014), as a public handbook restates it; grain size 7 assumed; an estimate
              martensite, HRC                  58 to 61  ASTM A255-10 (2014), as a public handbook restates it; grain size 7 assumed; an estimate
              severity of the quench, 1/in   1.4 to 1.5  severities after Grossmann in ASM Handbook vol. 4; what moves how much is not measured, from memory

            End-quench curve, HRC: 3 mm 50 to 57; 5 mm 34 to 44; 9 mm 21 to 27; 15 mm below 20 to 22; 30 mm below 20

            Hardness, HRC                  as quenched          tempered
              front end, which cools as a round of 39 mm
                at the skin                   44 to 61          44 to 57
                3 mm under it                 20 to 39          20 to 39
                halfway in              below 20 to 30    below 20 to 30
                at the centre           below 20 to 29    below 20 to 29
              back end, which cools as a round of 23 mm
                at the skin                   46 to 61          46 to 57
                3 mm under it                 25 to 43          25 to 43
                halfway in                    22 to 39          22 to 39
                at the centre                 21 to 38          21 to 38

            The temper
              oven                  190 °C  1 × 2 h
              leaves of martensite  54 HRC  ± 3 HRC; Hollomon and Jaffe, Trans. AIME 162 (1945) 223–249; curve fitted to typical hardnesses after two hours, most from memory; an estimate, ± 3 HRC
              colour                     –  none shows at this heat (from memory)

            The bath
              water                  18 °C  moved well, up and down and in an eight
              heat of the head      651 kJ  from the hardening heat; EN 1993-1-2:2005, 3.4.1.2 (from memory), an estimate
              volume, at least  7.8 litres  to grow 20 K warmer

        "#]],
    );
    let mut imperial = design("rounding");
    imperial.bar.rule = Rule::new(Length::inches(1.0 / 16.0)).expect("a rule");
    check_table(
        &imperial,
        &["--steel", "4140", "--temper", "500F", "--times", "2"],
        expect![[r#"
            The steel: 4140, chromium-molybdenum steel, 0.40 % carbon
              C 0.38 to 0.43, Mn 0.75 to 1, Si 0.15 to 0.35, Cr 0.8 to 1.1, Mo 0.15 to 0.25, in percent (steel dealers’ and heat treaters’ pages)
              7.85 g/cm³ (the usual value for this grade, from memory)

            Where it turns
              Ac1, austenite begins           1360 °F  Andrews, J. Iron Steel Inst. 203 (1965) 721–727, as public codes quote it; an estimate, ± 20 °C
              Ac3, all is austenite           1470 °F  Andrews, J. Iron Steel Inst. 203 (1965) 721–727, as public codes quote it; an estimate, ± 20 °C
              Ms, martensite begins  585 °F to 660 °F  Andrews, J. Iron Steel Inst. 203 (1965) 721–727, as public codes quote it; an estimate, ± 20 °C

            How deep it hardens
              ideal diameter                3.95 to 5.8 in  ASTM A255-10 (2014), as a public handbook restates it; grain size 7 assumed; an estimate
              martensite, HRC                     55 to 58  ASTM A255-10 (2014), as a public handbook restates it; grain size 7 assumed; an estimate
              severity of the quench, 1/in      0.4 to 0.5  severities after Grossmann in ASM Handbook vol. 4; what moves how much is not measured, from memory

            End-quench curve, HRC: 0.118 in 55 to 57; 0.197 in 55 to 57; 0.354 in 51 to 57; 0.591 in 44 to 56; 1.181 in 34 to 49

            Hardness, HRC                  as quenched          tempered
              front end, which cools as a round of 1.55 in
                at the skin                   42 to 58          42 to 56
                0.118 in under it             40 to 58          40 to 56
                halfway in                    39 to 58          39 to 56
                at the centre                 38 to 58          38 to 56
              back end, which cools as a round of 1.55 in
                at the skin                   42 to 58          42 to 56
                0.118 in under it             40 to 58          40 to 56
                halfway in                    39 to 58          39 to 56
                at the centre                 38 to 58          38 to 56

            The temper
              oven                  500 °F  2 × 2 h
              leaves of martensite  53 HRC  ± 3 HRC; Hollomon and Jaffe, Trans. AIME 162 (1945) 223–249; curve fitted to typical hardnesses after two hours, most from memory; an estimate, ± 3 HRC
              colour                 brown  after minutes, a rough guide only (from memory)

            Ways round the brittle range
              below it, and harder: 4140 at 435 °F, 1 × 2 h, leaves 55 HRC
              below it twice: 4140 at 435 °F, 2 × 2 h, leaves 54 HRC
              above it, and softer: 4140 at 705 °F, 1 × 2 h, leaves 47 HRC
              a steel that is not brittle there: S7 at 785 °F, 2 × 2 h, leaves 53 HRC
              a steel that is not brittle there: H13 at 970 °F, 2 × 2 h, leaves 53 HRC

            The bath
              oil                       113 °F  moved well, up and down and in an eight
              heat of the head          578 kJ  from the hardening heat; EN 1993-1-2:2005, 3.4.1.2 (from memory), an estimate
              volume, at least  4.4 US gallons  to grow 36 °F warmer

        "#]],
    );
}

#[test]
fn what_cannot_be_read_is_refused_in_a_sentence() {
    let text = design("rounding").to_json();
    let refused = |options: &[&str], sentence: &str| {
        let arguments = [&["heat", "-"], options].concat();
        check_refused(&arguments, text.as_bytes(), sentence);
    };
    refused(
        &["--steel", "4150"],
        "There is no steel “4150” here; the steels are 1045, 1060, 1075, 1080, 1084, 4140, 4340, 5160, W1, W2, S7, H13.",
    );
    refused(
        &["--quench", "milk"],
        "There is no quench in “milk” here; the media are air, oil, water, brine.",
    );
    refused(
        &["--agitation", "lots"],
        "“lots” does not say how the head is moved; the words for it are none, mild, moderate, good, strong, violent.",
    );
    refused(
        &["--hardness", "hard"],
        "“hard” is no hardness. Write it like 52.",
    );
    refused(
        &["--soak", "NaN"],
        "“NaN” is no soak. Write it like 2h or 90min.",
    );
    refused(
        &["--times", "300"],
        "“300” is no number of tempers. Write it like 2.",
    );
    refused(
        &["--temper", "205C", "--hardness", "52"],
        "Say how it is tempered in one way: --temper or --hardness.",
    );
    refused(
        &["--temper", "205C", "--temper", "220C"],
        "--temper is given twice.",
    );
    refused(&["--soak", "1h", "--soak", "2h"], "--soak is given twice.");
    refused(&["--steel"], "Say after --steel the grade, such as 4140.");
    refused(
        &["--analysis", "C=0.45,Xx=0.1"],
        "“Xx” is no element of an analysis; the elements are C, Mn, Si, Ni, Cr, Mo, V, W, Cu, P, S.",
    );
    refused(
        &["--analysis", "Mn=0.75"],
        "The analysis says nothing of carbon, by which steel hardens. Write it like C=0.45,Mn=0.75,Si=0.25.",
    );
    refused(
        &["--analysis", "C=0.45,Mn=0.75,C=0.46"],
        "The analysis gives carbon twice.",
    );
    for nonsense in ["C=0,45", "C=much", "C=NaN", "C", ""] {
        let part = if nonsense == "C=0,45" { "45" } else { nonsense };
        refused(
            &["--analysis", nonsense],
            &format!(
                "“{part}” is no share of an element. Write an analysis in percent, like C=0.45,Mn=0.75,Si=0.25."
            ),
        );
    }
    for (option, value) in [("--steel", "4140"), ("--hardness", "52"), ("--times", "2")] {
        let sentence = format!("weigh has no option {option}; headwright --help lists them.");
        check_refused(&["weigh", "-", option, value], text.as_bytes(), &sentence);
    }
    refused(&["b"], "“b” is too much: heat takes one design.");
}

#[test]
fn a_heat_treatment_that_cannot_be_is_refused_with_every_reason() {
    let text = design("rounding").to_json();
    let refused = |options: &[&str], sentence: &str| {
        let arguments = [&["heat", "-"], options].concat();
        check_refused(&arguments, text.as_bytes(), sentence);
    };
    refused(
        &["--steel", "4140", "--quench", "water", "--temper", "800C"],
        "4140 is likely to crack in water. Quench it in oil. A temper at 800 °C lies above Ac1, about 735 °C: the steel would turn to austenite again. Temper at 650 °C at most.",
    );
    refused(
        &["--analysis", "C=45,Mn=75"],
        "The analysis says 45 % carbon. A steel that hardens has at least 0.1 % and at most 2.1 %. The analysis adds up to 120 %, more than 100 %. Look at the decimal points.",
    );
    refused(
        &["--hardness", "66", "--soak", "0h"],
        "A soak of 0 h is not reckoned; it must be at least 0.25 h and at most 24 h. A temper of 1045 leaves at least 19 HRC and at most 58 HRC, not 66 HRC. Ask for less or take a steel with more carbon.",
    );
    // In the units of the rule.
    let mut imperial = design("rounding");
    imperial.bar.rule = Rule::new(Length::inches(1.0 / 16.0)).expect("a rule");
    check_refused(
        &["heat", "-", "--quench", "oil", "--bath", "20C"],
        imperial.to_json().as_bytes(),
        "The oil is at 68 °F; it must be at least 80.6 °F and at most 149 °F when the head goes in.",
    );
}

#[test]
fn a_wanted_hardness_is_met_by_the_temper_that_is_told() {
    let design = design("straight");
    for hrc in [48.0, 52.0, 56.0] {
        let told = answer(&design, &["--hardness", &format!("{hrc}")]);
        // The oven is told in whole degrees.
        assert!(
            (told.temper.martensite_hrc.value - hrc).abs() < 0.1,
            "{hrc}"
        );
        let same = Temper {
            aim: Aim::Celsius(told.temper.celsius),
            ..Temper::usual(Grade::C1045)
        };
        let oven = answer(&design, &["--temper", &format!("{}C", told.temper.celsius)]);
        assert_eq!(oven.temper.celsius, told.temper.celsius);
        assert_eq!(oven.temper.times, same.times);
    }
}
