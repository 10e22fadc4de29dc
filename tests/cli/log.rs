//! Logs and prices at the command line.

use expect_test::expect;
use headwright::design::starter;
use headwright::log::{Build, Event, Log, Outcome, What};
use headwright::units::Mass;
use serde_json::{Value, json};

use super::{check_answer, check_refused, file, keys, number, run, sorted};

/// The `number`th of builds that became faster, weighed from cut to temper.
fn build(number: u32) -> Build {
    let design = starter("rounding").expect("a starter");
    let begun = 1_772_611_200_000 + u64::from(number) * 86_400_000;
    let mut build = Build::begun(&format!("build-{number}"), None, design, begun);
    build.outcome = Outcome::Finished;
    // To the half, which any reader of numbers gives back exactly.
    let minutes = (600.0 * f64::from(number).powf(-0.25)).round() / 2.0 + f64::from(number % 3);
    let lost = 128.0 + f64::from(number);
    for (step, what) in [
        (1, What::weighed(Mass::grams(1422.0))),
        (3, What::Heats { count: 3 }),
        (8, What::weighed(Mass::grams(1422.0 - lost))),
        (9, What::Minutes { minutes }),
    ] {
        let event = Event {
            step,
            at: begun,
            what,
        };
        build.record(event).expect("a reading that can be");
    }
    build
}

fn log() -> Log {
    Log {
        builds: (1..=6).map(build).collect(),
        unread: Vec::new(),
    }
}

fn said(arguments: &[&str], input: &str) -> String {
    let output = run(arguments, input.as_bytes());
    assert_eq!(String::from_utf8_lossy(&output.stderr), "");
    assert_eq!(output.status.code(), Some(0));
    String::from_utf8(output.stdout).expect("UTF-8")
}

#[test]
fn log_answers_with_builds_steps_curve_and_what_was_learned() {
    let answer = check_answer(&["log", "-"], &log().to_json());
    let promised = [
        "builds",
        "unread",
        "steps",
        "curve",
        "curve_words",
        "losses",
        "questions",
        "unused",
    ];
    assert_eq!(sorted(&keys(&answer)), sorted(&promised));
    assert_eq!(answer["builds"][2]["number"], 3);
    assert_eq!(answer["builds"][2]["begun_utc"], "2026-03-07T08:00:00Z");
    assert_eq!(answer["builds"][2]["losses"][0]["from"], "cut");
    assert!((number(&answer["builds"][2]["losses"][0], "mass_kg") - 0.131).abs() < 1e-9);
    assert_eq!(answer["curve"]["builds"], 6);
    let slug = &answer["losses"][0];
    assert_eq!(
        (&slug["kind"], &slug["builds"], &slug["alone"]),
        (&json!("slug"), &json!(6), &json!(0))
    );
    assert_eq!(slug["unit"], "mm of web");
}

#[test]
fn a_log_is_a_table_to_be_read() {
    expect![[r#"
          no  begun (UTC)            min  heats  build
           1  2026-03-05 08:00     301.0      3  Rounding hammer (finished)
                                                 129 g lost from cut to temper
           2  2026-03-06 08:00     254.5      3  Rounding hammer (finished)
                                                 130 g lost from cut to temper
           3  2026-03-07 08:00     228.0      3  Rounding hammer (finished)
                                                 131 g lost from cut to temper
           4  2026-03-08 08:00     213.0      3  Rounding hammer (finished)
                                                 132 g lost from cut to temper
           5  2026-03-09 08:00     202.5      3  Rounding hammer (finished)
                                                 133 g lost from cut to temper
           6  2026-03-10 08:00     191.5      3  Rounding hammer (finished)
                                                 134 g lost from cut to temper

             min      %      mean    target  step
          1390.5  100.0     231.8            grind

        Every doubling of the number leaves 84 % of the time (between 84 % and 84 % with nine chances of ten, by 6 builds). Build 7 will take 185 min, with nine chances of ten between 183 min and 187 min.

             mean     spread  builds  loss
           8.5828     3.0066       6  slug, mm of web
           0.0695     0.0205       6  scale in forging, mm in a heat of ten minutes
           0.0333     0.0200       6  scale in heat treatment, mm off the surface
           0.8711     0.5043       6  end trimming, mm off each end
           1.0000     0.5000       0  grinding faces, mm off the faces
           0.5000     0.3000       0  dressing, % of the head
    "#]].assert_eq(&said(&["log", "-", "--table"], &log().to_json()));
}

#[test]
fn a_build_on_target_is_told_with_its_sign() {
    let told = |target: f64| {
        let mut build = build(1);
        for step in build.steps.iter_mut().filter(|step| step.id == 9) {
            step.target_minutes = Some(target);
        }
        let builds = vec![build];
        let unread = Vec::new();
        said(&["log", "-", "--table"], &Log { builds, unread }.to_json())
    };
    assert!(told(313.5).contains("(finished, −12.5 min on target)"));
    assert!(told(298.0).contains("(finished, +3.0 min on target)"));
}

#[test]
fn a_log_goes_out_as_csv_and_in_again() {
    let csv = said(&["log", "-", "--as", "csv"], &log().to_json());
    assert!(csv.starts_with("build,row,at,step,name,value,more,celsius,text\r\n"));
    assert_eq!(said(&["log", "-", "--as", "json"], &csv), log().to_json());
    assert_eq!(
        check_answer(&["log", "-"], &csv),
        check_answer(&["log", "-"], &log().to_json())
    );
}

#[test]
fn what_a_log_taught_goes_out_as_csv() {
    expect![[r#"
        loss,what,unit,mean,spread,low,high,builds,alone,default_mean,default_spread,source
        slug,slug,mm of web,8.58275506283485,3.00659907883466,4.035284856644709,13.130225269024994,6,0,8,3,"weighed in 6 builds, always together with other losses; learned from the published default on"
        forging_scale,scale in forging,mm in a heat of ten minutes,0.0695227930327177,0.020541411391820533,0.036322065759207996,0.10272352030622742,6,0,0.04,0.02,"weighed in 6 builds, always together with other losses; learned from the published default on"
        hardening_scale,scale in heat treatment,mm off the surface,0.033277406864417484,0.020032412406188756,0.003006962048800639,0.06354785168003432,6,0,0.03,0.02,"weighed in 6 builds, always together with other losses; learned from the published default on"
        trimming,end trimming,mm off each end,0.8710785494165936,0.5042920723523965,0.08469034563935518,1.657466753193832,6,0,0.5,0.5,"weighed in 6 builds, always together with other losses; learned from the published default on"
        grinding,grinding faces,mm off the faces,1,0.5000000000000001,0.24627834046883834,1.7537216595311618,0,0,1,0.5,as published: not weighed yet
        dressing,dressing,% of the head,0.5,0.3,0.047767004281303094,0.9522329957186969,0,0,0.5,0.3,as published: not weighed yet
    "#]]
        .assert_eq(&said(&["log", "-", "--as", "losses"], &log().to_json()).replace('\r', ""));
}

#[test]
fn what_of_a_log_is_not_in_its_table_is_said_beside_it() {
    let mut broken: Value = serde_json::from_str(&log().to_json()).expect("JSON");
    broken["builds"][1]["begun"] = json!("yesterday");
    let output = run(&["log", "-", "--as", "csv"], broken.to_string().as_bytes());
    assert_eq!(output.status.code(), Some(0));
    assert_eq!(
        String::from_utf8_lossy(&output.stderr),
        "What can’t be read is not in the table: 1 build, “Rounding hammer”. The log’s file has it as it stands.\n"
    );
    let table = Log::from_csv(&String::from_utf8_lossy(&output.stdout)).expect("a table");
    assert_eq!(table.builds.len(), 5);
}

#[test]
fn bar_takes_the_losses_that_a_log_teaches() {
    let log_file = file("learned.headwright-log.json");
    std::fs::write(&log_file, log().to_json()).expect("a file");
    let design = starter("rounding").expect("a starter").to_json();
    let log_file = log_file.to_str().expect("a path");
    let plain = check_answer(&["bar", "-"], &design);
    let learned = check_answer(&["bar", "-", "--log", log_file], &design);
    assert_eq!(learned["losses"][0]["certainty"], "own");
    assert_eq!(
        learned["losses"][0]["source"],
        "weighed in 6 builds, always together with other losses; learned from the published default on"
    );
    // What was never weighed stays as it was.
    assert_eq!(
        learned["losses"][4],
        with_cut(&plain["losses"][4], &learned["losses"][4])
    );
    // These heads lost more than was published.
    assert!(number(&learned, "billet_mass_kg") > number(&plain, "billet_mass_kg") + 0.02);
    let refused =
        |arguments: &[&str], sentence: &str| check_refused(arguments, design.as_bytes(), sentence);
    refused(
        &["weigh", "-", "--log", log_file],
        "weigh has no option --log; headwright --help lists them.",
    );
    refused(
        &["bar", "-", "--log", "nowhere.json"],
        "The log file “nowhere.json” can’t be read: there is no such file.",
    );
}

/// A line with the share of the cut that another has: the cut is another.
fn with_cut(line: &Value, other: &Value) -> Value {
    let mut line = line.clone();
    line["percent_of_cut"] = other["percent_of_cut"].clone();
    line
}

const COSTS: &str = r#"{
    "currency": "EUR", "heads": 6, "steel": { "list": { "cost": "27.60", "pieces": 8 } }, "wood": "6.50",
    "consumables": "4.20", "fuel_per_hour": "9.00", "heat_minutes": 80, "minutes": 165, "batch_minutes": 90,
    "overhead_per_hour": "7.50", "spoiled_percent": 20, "fees_percent": 8, "post": "12.90"
}"#;

#[test]
fn price_answers_with_ledgers_that_add_up() {
    let answer = check_answer(&["price", "-", "--wage", "30"], COSTS);
    assert_eq!(answer["price_cents"], 19_810);
    assert_eq!(answer["wage_cents_per_hour"], 3_000);
    let sum = |lines: &Value| {
        let lines = lines.as_array().expect("lines").iter();
        lines
            .map(|line| line["cents"].as_i64().expect("cents"))
            .sum::<i64>()
    };
    assert_eq!(sum(&answer["one"]), 19_810);
    assert_eq!(sum(&answer["batch"]), 6 * 19_810);
    assert!(
        answer["taxes"]
            .as_str()
            .expect("a sentence")
            .starts_with("Taxes are not in it")
    );
    let sold = check_answer(&["price", "-", "--sell", "180.00"], COSTS);
    assert_eq!(sold["wage_cents_per_hour"], 2_548);
}

#[test]
fn a_price_is_a_table_to_be_read() {
    expect![[r#"
            one head    batch of 6  EUR
                3.45         20.70  steel
                6.50         39.00  wood
                4.20         25.20  consumables
               12.00         72.00  fuel
               90.01        540.04  labour
               22.50        135.00  overhead
               30.69        184.17  spoiled pieces
               12.90         77.40  post
               15.85         95.09  fees
              198.10       1188.60  price

        An hour pays 30.00 EUR; 22.1 h for 6 good of 7.5 begun.
        Ten minutes less on every head: 8.50 EUR off the price with the same wage, or 2.25 EUR more for an hour at the same price.
        Taxes are not in it: value added or sales tax, income tax and social insurance are yours to add by the law where you sell.
    "#]].assert_eq(&said(&["price", "-", "--wage", "30", "--table"], COSTS));
    expect![[r#"
            one head    batch of 1  EUR
                3.45          3.45  steel
                6.50          6.50  wood
                4.20          4.20  consumables
               12.00         12.00  fuel
              −45.96        −45.96  labour
               31.88         31.88  overhead
                2.63          2.63  spoiled pieces
               12.90         12.90  post
                2.40          2.40  fees
               30.00         30.00  price

        An hour pays −10.82 EUR; 4.9 h for 1 good of 1.25 begun.
        The price does not pay what goes into the head: every hour costs you money.
        Taxes are not in it: value added or sales tax, income tax and social insurance are yours to add by the law where you sell.
    "#]].assert_eq(&said(
        &["price", "-", "--sell", "30", "--heads", "1", "--table"],
        COSTS,
    ));
}

#[test]
fn costs_go_out_as_csv_with_what_is_wanted_and_in_again() {
    let csv = said(&["price", "-", "--sell", "180", "--as", "csv"], COSTS);
    assert!(
        csv.starts_with("cost,value,unit,what\r\ncurrency,EUR,,"),
        "{csv}"
    );
    assert!(csv.contains("\r\nsell,180.00,EUR,"), "{csv}");
    // What the file says of it counts, unless something else is asked.
    let sold = check_answer(&["price", "-"], &csv);
    assert_eq!(sold["wage_cents_per_hour"], 2_548);
    let paid = check_answer(&["price", "-", "--wage", "30"], &csv);
    assert_eq!(paid["price_cents"], 19_810);
    let json = said(&["price", "-", "--as", "json", "--heads", "7"], &csv);
    let json: Value = serde_json::from_str(&json).expect("JSON");
    assert_eq!(
        (&json["heads"], &json["sell"]),
        (&json!(7), &json!("180.00"))
    );
    check_refused(
        &["price", "-"],
        b"cost,value,unit,what\ncurrency,EUR,,\nminutes,90,min,\nwood,dear,,\nheads,0,,\n",
        "Line 4: “dear” is no amount of money. Write it with at most two decimals, without the currency and without marks between thousands, such as 1200.50. \
         Line 5: The batch is 0 heads. It must be at least 1 heads and at most 10000 heads.",
    );
}

#[test]
fn price_takes_its_steel_from_a_cutting_list_and_its_minutes_from_a_log() {
    let order = file("price-order.json");
    let text = r#"{
        "pieces": [{ "name": "head", "length": "110 mm", "count": 20 }],
        "stock": [{ "length": "3000 mm", "price": 30.5 }],
        "kerf": "2 mm"
    }"#;
    std::fs::write(&order, text).expect("a file");
    let mut log = log();
    log.builds[0].outcome = Outcome::Spoiled;
    log.builds[1].outcome = Outcome::Open;
    let log_file = file("price.headwright-log.json");
    std::fs::write(&log_file, log.to_json()).expect("a file");
    let path = |path: &std::path::Path| path.to_str().expect("a path").to_owned();
    let answer = check_answer(
        &[
            "price",
            "-",
            "--wage",
            "30",
            "--order",
            &path(&order),
            "--log",
            &path(&log_file),
        ],
        COSTS,
    );
    assert_eq!(
        answer["costs"]["steel"],
        json!({"list": {"cost": "30.50", "pieces": 20}})
    );
    assert_eq!(answer["costs"]["spoiled_percent"], 20.0);
    let minutes: f64 = log.builds[2..]
        .iter()
        .map(|build| build.story().minutes)
        .sum();
    assert!((number(&answer["costs"], "minutes") - minutes / 4.0).abs() < 1e-9);
}

#[test]
fn what_log_and_price_cannot_do_is_refused_with_a_sentence() {
    let refused =
        |arguments: &[&str], sentence: &str| check_refused(arguments, COSTS.as_bytes(), sentence);
    refused(
        &["log"],
        "Name the log file after log, or - to read it from standard input.",
    );
    refused(
        &["log", "-"],
        "This is not a log file: its format is not “headwright log”.",
    );
    refused(
        &["log", "-", "--as", "xlsx"],
        "“xlsx” is no form of a log. Say csv or json, or losses for what was learned as CSV.",
    );
    refused(
        &["log", "-", "--as", "csv", "--table"],
        "--as writes a file and --table what is to be read; say one of them.",
    );
    refused(
        &["price"],
        "Name the file of costs after price, or - to read it from standard input.",
    );
    let wanted = "Say what an hour is to pay, such as --wage 30, or what a head sells for, such as --sell 180: one of them.";
    refused(&["price", "-"], wanted);
    refused(&["price", "-", "--wage", "30", "--sell", "180"], wanted);
    refused(
        &["price", "-", "--as", "losses"],
        "“losses” is no form of costs. Say csv or json.",
    );
    refused(
        &["price", "-", "--as", "csv", "--table"],
        "--as writes the costs themselves and --table what follows from them; say one of them.",
    );
    refused(
        &["price", "-", "--wage", "0"],
        "The wanted wage is nothing. Say what an hour is to pay, or a price, to see what it leaves for an hour.",
    );
    refused(
        &["price", "-", "--wage", "a lot"],
        "--wage: “a lot” is no amount of money. Write it with at most two decimals, without the currency and without marks between thousands, such as 1200.50.",
    );
    refused(
        &["price", "-", "--wage", "30", "--heads", "few"],
        "“few” is no count; write a whole number, such as --heads 6.",
    );
    refused(
        &["price", "-", "--wage", "30", "--wage", "31"],
        "--wage is given twice.",
    );
    refused(
        &["weigh", "-", "--wage", "30"],
        "weigh has no option --wage; headwright --help lists them.",
    );
    check_refused(
        &["log", "-"],
        b"a,b\n1,2\n",
        "This is not a log as CSV: its first line has no column “build”.",
    );
}
