//! The log as CSV, out and in.

use expect_test::{Expect, expect};
use headwright::log::{Build, Log, Verdict, What};
use headwright::units::Mass;
use proptest::prelude::*;
use proptest::test_runner::RngSeed;

use super::random::builds;
use super::{build, grams, with};

fn log_of(builds: Vec<Build>) -> Log {
    Log {
        builds,
        unread: Vec::new(),
    }
}

fn note(text: &str) -> What {
    What::Note {
        text: text.to_owned(),
    }
}

fn written() -> Log {
    let weighed = What::Weighed {
        mass: Mass::grams(1422.5),
        verdict: Some(Verdict::Counts),
    };
    let measured = What::Measured {
        dim: "front.reach".parse().expect("a dimension"),
        size: "2 5/16 in".parse().expect("a size"),
        celsius: Some(850.0),
    };
    log_of(vec![with(
        build(),
        &[
            ("cut", 4, weighed),
            ("punch", 10, What::Start),
            ("punch", 31, What::Heats { count: 3 }),
            ("punch", 32, What::Minutes { minutes: 25.5 }),
            ("drift", 40, measured),
            (
                "drift",
                41,
                note("Hung up, so “again”; said \"ouch\",\r\nthen\nwent on"),
            ),
        ],
    )])
}

/// The rows without the design, which is long.
fn shown(csv: &str) -> String {
    let (before, rest) = csv.split_once("\"{").expect("a design");
    let (_, after) = rest.split_once("}\n\"").expect("its end");
    format!("{before}\"{{…}}\"{after}")
}

#[test]
fn a_log_as_csv_has_a_row_for_each_build_step_and_event() {
    let csv = written().to_csv();
    expect![[r#"
        build,row,at,step,name,value,more,celsius,text
        build-1,build,2026-03-04T08:00:00Z,,Rounding hammer,open,entry-1,,"{…}"
        build-1,step,,1,cut,,same,,
        build-1,step,,2,forge to size,,loses forging_scale,,
        build-1,step,,3,punch,,loses slug forging_scale,,
        build-1,step,,4,drift,,loses forging_scale,,
        build-1,step,,5,forge cheeks and ends,,loses forging_scale trimming,,
        build-1,step,,6,normalize,,loses hardening_scale,,
        build-1,step,,7,harden,,loses hardening_scale,,
        build-1,step,,8,temper,,loses hardening_scale,,
        build-1,step,,9,grind,,loses grinding dressing,,
        build-1,step,,10,bring to weight,,to_target,,
        build-1,step,,11,handle,,on_handle,,
        build-1,weighed,2026-03-04T08:04:00Z,1,cut,1422.5 g,counts,,
        build-1,start,2026-03-04T08:10:00Z,3,punch,,,,
        build-1,heats,2026-03-04T08:31:00Z,3,punch,3,,,
        build-1,minutes,2026-03-04T08:32:00Z,3,punch,25.5,,,
        build-1,measured,2026-03-04T08:40:00Z,4,drift,2 5/16 in,front.reach,850,
        build-1,note,2026-03-04T08:41:00Z,4,drift,,,,"Hung up, so “again”; said ""ouch"",
        then
        went on"
    "#]]
    .assert_eq(&shown(&csv).replace('\r', ""));
    assert_eq!(Log::from_csv(&csv), Ok(written()));
}

#[test]
fn rows_end_as_the_standard_has_it() {
    let csv = log_of(vec![build()]).to_csv();
    let design = csv.find('{').expect("a design");
    assert_eq!(csv[..design].matches("\r\n").count(), 1);
    assert!(csv.ends_with("\r\n"));
}

#[test]
fn a_table_that_a_spreadsheet_sorted_turned_and_parted_by_semicolons_is_read() {
    let log = log_of(vec![with(
        build(),
        &[("cut", 4, grams(1422.0)), ("drift", 5, note("well"))],
    )]);
    let mut table = csv::Reader::from_reader(std::io::Cursor::new(log.to_csv()));
    let head = table.headers().expect("a head").clone();
    let mut rows: Vec<csv::StringRecord> = table.records().map(|row| row.expect("a row")).collect();
    // The build's own row last, a column of the smith's own first, the rest of the columns from the last to the first.
    rows.rotate_left(1);
    let mut turned = csv::WriterBuilder::new()
        .delimiter(b';')
        .from_writer(Vec::new());
    for row in std::iter::once(&head).chain(&rows) {
        let cells: Vec<&str> = std::iter::once("mine").chain(row.iter().rev()).collect();
        turned.write_record(&cells).expect("a row");
    }
    let turned = String::from_utf8(turned.into_inner().expect("a table")).expect("UTF-8");
    assert_eq!(Log::from_csv(&format!("\u{feff}{turned}")), Ok(log));
}

#[test]
fn rows_of_empty_cells_are_none() {
    let log = written();
    let csv = log.to_csv();
    let (head, rows) = csv.split_once("\r\n").expect("a head");
    let csv = format!("{head},mine\r\n,,,,,,,,\r\n{rows}, ,,,,,,,,my own\r\n");
    assert_eq!(Log::from_csv(&csv), Ok(log));
}

#[track_caller]
fn check_refused(csv: &str, expected: &Expect) {
    expected.assert_eq(&Log::from_csv(csv).expect_err("no log").to_string());
}

#[test]
fn a_table_that_is_no_log_is_refused_with_its_line() {
    let head = "build,row,at,step,name,value,more,celsius,text\n";
    check_refused(
        "",
        &expect!["This is not a log as CSV: its first line has no column “build”."],
    );
    check_refused(
        "build,row,at,step\n",
        &expect!["This is not a log as CSV: its first line has no column “name”."],
    );
    check_refused(
        &format!("{head}b,start,2026-03-04,1\n"),
        &expect!["Line 2 belongs to the build “b”, which has no row of its own."],
    );
    check_refused(
        &format!("{head}b,build,2026-03-04,,,open,,,nothing\n"),
        &expect!["Line 2: This is not a design file: it is not JSON (line 1, column 2)."],
    );
    let csv = written().to_csv();
    // The line that a row begins in, rows of many lines before it counted as such.
    let line = |of: &str| {
        let before = csv.split_once(of).map_or("", |(before, _)| before);
        1 + before.matches('\n').count()
    };
    #[track_caller]
    fn check_said(csv: &str, expected: &str) {
        let error = Log::from_csv(csv).expect_err("no log");
        assert_eq!(error.to_string(), expected);
    }
    for (from, to, said) in [
        (
            "2026-03-04T08:10:00Z",
            "in the morning",
            "“in the morning” under “at” is no time, such as 2026-03-04 08:04.",
        ),
        (
            "1422.5 g",
            "1422.5",
            "“1422.5” under “value” is no weight, such as 1422 g.",
        ),
        (
            "loses slug",
            "loses slag",
            "“loses slag forging_scale” under “more” is no effect on the weight, such as same or loses slug forging_scale.",
        ),
        (
            ",heats,",
            ",heat,",
            "“heat” under “row” is no kind of row: build, step, start, stop, weighed, heats, minutes, measured or note.",
        ),
    ] {
        check_said(
            &csv.replacen(from, to, 1),
            &format!("Line {}: {said}", line(from)),
        );
    }
    check_said(
        &csv.replacen("1422.5 g", "-3 g", 1),
        "The build “build-1”: Entry 1: the weight is −0.003 kg. It must be at least 0.001 kg and at most 200 kg.",
    );
    // However long an id is, a sentence repeats but the beginning.
    let begins = "y".repeat(60);
    check_said(
        &csv.replace("build-1", &"y".repeat(500)),
        &format!(
            "The build “{begins}”: “{begins}” is no id, which has 1 to 60 letters, digits and hyphens."
        ),
    );
    let row = csv.split_once("\r\n").map_or("", |(_, rows)| rows);
    let last = csv.matches('\n').count();
    check_said(
        &format!("{csv}{row}"),
        &format!(
            "Line {}: there are two builds with the id “build-1”.",
            last + 1
        ),
    );
    assert!(Log::from_csv("build\u{0},\"\n").is_err());
}

/// The cells of a table as any reader takes them.
fn cells(csv: &str) -> Vec<String> {
    let mut table = csv::Reader::from_reader(std::io::Cursor::new(csv));
    let rows = table.records().map(|row| row.expect("a row"));
    rows.flat_map(|row| row.iter().map(str::to_owned).collect::<Vec<_>>())
        .collect()
}

/// Whether a spreadsheet shows it as it stands: a number, or what no formula begins like.
fn is_shown(cell: &str) -> bool {
    let formula = cell.starts_with(['=', '+', '-', '@', '\t', '\r', '\n', '＝', '＋', '－', '＠']);
    !formula || cell.parse::<f64>().is_ok()
}

#[test]
fn what_a_spreadsheet_would_run_is_written_as_text() {
    let formula = "=HYPERLINK(\"x\")";
    let measured = What::Measured {
        dim: "front.reach".parse().expect("a dimension"),
        size: "-3 mm".parse().expect("a size"),
        celsius: Some(-12.5),
    };
    let log = log_of(vec![with(
        build(),
        &[("cut", 4, note(formula)), ("cut", 5, measured)],
    )]);
    let cells = cells(&log.to_csv());
    for cell in ["'=HYPERLINK(\"x\")", "'-3 mm", "-12.5"] {
        assert!(cells.iter().any(|other| other == cell), "{cell}");
    }
    assert_eq!(Log::from_csv(&log.to_csv()), Ok(log));
}

#[test]
fn an_empty_log_is_a_head_alone() {
    let empty = Log::default();
    assert_eq!(
        empty.to_csv(),
        "build,row,at,step,name,value,more,celsius,text\r\n"
    );
    assert_eq!(Log::from_csv(&empty.to_csv()), Ok(empty));
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 120, failure_persistence: None, rng_seed: RngSeed::Fixed(1), ..ProptestConfig::default() })]

    #[test]
    fn what_goes_out_as_csv_comes_in_as_it_was(builds in prop::collection::vec(builds(), 0..4)) {
        let numbered = (0..).zip(builds).map(|(number, build): (usize, Build)| Build {
            id: format!("{}-{number}", build.id),
            ..build
        });
        let log = log_of(numbered.collect());
        prop_assert_eq!(Log::from_csv(&log.to_csv()), Ok(log));
    }

    /// Whatever a smith types.
    #[test]
    fn no_name_is_a_formula_and_all_come_back(
        name in "['=+@\t\r\n＝＋－＠-]{0,3}[ -~]{0,12}x",
        text in "['=+@\t\r\n-]{0,3}[0-9.eE-]{0,4}",
    ) {
        let mut build = with(build(), &[("cut", 4, note(&text))]);
        build.steps[1].name.clone_from(&name);
        build.design.name = name;
        let log = log_of(vec![build]);
        let csv = log.to_csv();
        for cell in cells(&csv) {
            prop_assert!(is_shown(&cell), "{}", cell);
        }
        prop_assert_eq!(Log::from_csv(&csv), Ok(log));
    }

    #[test]
    fn no_text_panics(text in "\\PC{0,200}", cells in prop::collection::vec("[a-z0-9,;\"\n-]{0,12}", 0..40)) {
        let head = "build,row,at,step,name,value,more,celsius,text\n";
        for csv in [text, format!("{head}{}", cells.join(","))] {
            if let Err(error) = Log::from_csv(&csv) {
                prop_assert!(error.to_string().ends_with('.'), "{}", error);
            }
        }
    }
}
