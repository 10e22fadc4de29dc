//! Templates are measured in the files, by readers that know nothing of this program.

use std::path::{Path as File, PathBuf};
use std::process::Command;

use headwright::card::{CHECK_LINE_MM, Card, Page, Paper, drawing, pdf, svg};
use headwright::design::{Design, Side, starter_names};
use headwright::drift::{self, Drifting};
use headwright::mass::{causes, mass_properties};
use headwright::plan::{USUAL_HOT_CELSIUS, growth};
use headwright::share::link;
use headwright::solid::Tip;
use headwright::units::System;
use serde_json::Value;

use super::{ADDRESS, card, named, paths};

/// What a template may be off, mm.
const TRUE_MM: f64 = 0.2;

type Rows = Vec<Vec<[f64; 2]>>;

/// What `tests/exports/printed.py` finds in the files.
fn found(files: &[PathBuf]) -> Vec<Value> {
    let python = std::env::var_os("HEADWRIGHT_PYTHON").expect(
        "HEADWRIGHT_PYTHON names no Python: run `bash .ci/check`, which makes one with the readers, \
         or set it to a Python that has what tests/exports/requirements.txt lists.",
    );
    let script = File::new(env!("CARGO_MANIFEST_DIR")).join("tests/exports/printed.py");
    let output = Command::new(python)
        .arg(script)
        .args(files)
        .output()
        .expect("the Python starts");
    let errors = String::from_utf8_lossy(&output.stderr);
    assert!(output.status.success(), "{errors}");
    serde_json::from_slice(&output.stdout).expect("JSON")
}

fn written(name: &str, bytes: &[u8]) -> PathBuf {
    let folder = File::new(env!("CARGO_TARGET_TMPDIR")).join("card");
    std::fs::create_dir_all(&folder).expect("a folder");
    let path = folder.join(name);
    std::fs::write(&path, bytes).expect("written");
    path
}

fn rows(path: &Value) -> Rows {
    serde_json::from_value(path["rows"].clone()).expect("rows of points")
}

/// The rows of every path of a page of a PDF.
fn of_page(page: &Value) -> Vec<Rows> {
    page["paths"]
        .as_array()
        .expect("a list")
        .iter()
        .map(rows)
        .collect()
}

/// The paths of an SVG by that class, which begins with “card-” so that no style of the page meets it.
fn of_class(file: &Value, name: &str) -> Vec<Rows> {
    let name = format!("card-{name}");
    let all = file["paths"].as_array().expect("a list").iter();
    all.filter(|path| path["name"] == name).map(rows).collect()
}

fn off(a: [f64; 2], b: [f64; 2]) -> f64 {
    (a[0] - b[0]).hypot(a[1] - b[1])
}

/// Radius of the circle through the first, the middle and the last point.
fn radius(row: &[[f64; 2]]) -> f64 {
    let (a, b, c) = (row[0], row[row.len() / 2], row[row.len() - 1]);
    let cross = (b[0] - a[0]) * (c[1] - a[1]) - (c[0] - a[0]) * (b[1] - a[1]);
    off(a, b) * off(b, c) * off(c, a) / (2.0 * cross.abs())
}

/// How far points lie off the circle of `radius` through the middle one, which is its top.
fn off_circle(row: &[[f64; 2]], radius: f64) -> f64 {
    let top = row[row.len() / 2];
    let centre = [top[0], top[1] + radius];
    row.iter()
        .map(|at| (off(*at, centre) - radius).abs())
        .fold(0.0, f64::max)
}

fn pdf_of(name: &str, pages: &[Page]) -> PathBuf {
    written(&format!("{name}.pdf"), &pdf(pages, name))
}

fn svgs_of(name: &str, card: &Card) -> Vec<PathBuf> {
    let pages = card.pages.iter().enumerate();
    pages
        .map(|(k, page)| written(&format!("{name}-{k}.svg"), svg(page).as_bytes()))
        .collect()
}

#[test]
fn the_check_line_of_every_printed_page_is_100_mm_long() {
    for paper in Paper::ALL {
        let pages = card(&named("rounding"), paper).pages;
        let file = &found(&[pdf_of(paper.name(), &pages)])[0];
        assert_eq!(
            file["scales"], false,
            "a printer’s dialog must not scale it"
        );
        let found = file["pages"].as_array().expect("pages");
        assert_eq!(found.len(), pages.len());
        for page in found {
            let size: [f64; 2] = serde_json::from_value(page["size"].clone()).expect("a size");
            assert!(off(size, paper.size_mm()) < 0.01, "{size:?}");
            let long = of_page(page).into_iter().filter(|rows| {
                rows.len() == 1 && rows[0].len() == 2 && {
                    let [a, b] = [rows[0][0], rows[0][1]];
                    (a[1] - b[1]).abs() < 0.01 && (off(a, b) - CHECK_LINE_MM).abs() < TRUE_MM
                }
            });
            assert_eq!(long.count(), 1);
            let text = page["text"].as_str().expect("text");
            assert!(
                text.contains("measure this: 100 mm. Print at 100 %."),
                "{text}"
            );
        }
    }
}

#[test]
fn every_template_stands_in_the_pdf_where_it_stands_on_the_page() {
    for name in ["rounding", "sledge", "cross"] {
        let pages = card(&named(name), Paper::A4).pages;
        let file = &found(&[pdf_of(name, &pages)])[0];
        let mut seen = 0;
        for (page, found) in pages.iter().zip(file["pages"].as_array().expect("pages")) {
            let drawn = of_page(found);
            for ink in &page.inks {
                let headwright::card::Ink::Path(path) = ink else {
                    continue;
                };
                let Some(name) = &path.name else { continue };
                let matches = |rows: &&Rows| {
                    rows.len() == path.rows.len()
                        && rows.iter().zip(&path.rows).all(|(one, other)| {
                            one.len() == other.len()
                                && one.iter().zip(other).all(|(a, b)| off(*a, *b) < 0.02)
                        })
                };
                assert!(
                    drawn.iter().any(|rows| matches(&rows)),
                    "{name} is not in the PDF"
                );
                seen += 1;
            }
        }
        assert!(seen > 10, "{seen}");
    }
}

/// The named paths of all pages of an SVG.
fn all_of<'a>(files: &'a [Value], name: &'a str) -> Vec<Rows> {
    files.iter().flat_map(|file| of_class(file, name)).collect()
}

#[test]
fn marks_measure_what_the_plan_says() {
    for name in starter_names() {
        let design = named(name);
        let solid = design.build().expect("sound");
        let billet = headwright::bar::billet(
            &causes(&solid, &mass_properties(&solid)),
            design.density,
            &design.bar,
        )
        .expect("a billet");
        let plan = headwright::plan::plan(&solid, &billet, &design.bar, Side::Front);
        let files = found(&svgs_of(
            &format!("marks-{name}"),
            &card(&design, Paper::A4),
        ));
        let side = all_of(&files, "strip-left");
        assert_eq!(side.len(), 1, "{name}: the starters’ bars are not parted");
        let [from, to] = [side[0][0][0], side[0][0][1]];
        assert!(
            (off(from, to) - billet.cut_length_mm).abs() < TRUE_MM,
            "{name}"
        );
        let marks = all_of(&files, "mark");
        assert_eq!(marks.len(), plan.marks.marks.len());
        for (mark, drawn) in plan.marks.marks.iter().zip(marks) {
            let at = drawn[0][0][1] - from[1];
            assert!(
                (at - mark.at_mm).abs() < TRUE_MM,
                "{name}: {at} for {mark:?}"
            );
        }
    }
}

#[test]
fn the_last_drift_measures_as_the_hot_eye_does() {
    let grown = 1.0 + growth(USUAL_HOT_CELSIUS).expect("known");
    for name in starter_names() {
        let design = named(name);
        let solid = design.build().expect("sound");
        let plan = drift::plan(&solid, &design.bar, &Drifting::default(), USUAL_HOT_CELSIUS)
            .expect("drifts");
        let [top, _] = &plan.profiles;
        let files = found(&svgs_of(
            &format!("drift-{name}"),
            &card(&design, Paper::Letter),
        ));
        for (class, plane, eye) in [
            (
                "drift-length",
                &top.length_plane,
                2.0 * grown * solid.head().eye.waist.p,
            ),
            (
                "drift-width",
                &top.width_plane,
                2.0 * grown * solid.head().eye.waist.q,
            ),
        ] {
            let drawn = all_of(&files, class);
            let (left, right) = (&drawn[0][0], &drawn[1][0]);
            assert_eq!(left.len(), plane.len());
            for ((a, b), [along, half]) in left.iter().zip(right).zip(plane) {
                assert!(
                    (b[0] - a[0] - 2.0 * half).abs() < TRUE_MM,
                    "{name}, {class}"
                );
                assert!(
                    (a[1] - left[0][1] - along).abs() < TRUE_MM,
                    "{name}, {class}"
                );
            }
            // At the waist it is the eye itself, hot: the last point before the tip.
            let waist = left.len() - 2;
            assert!(
                (right[waist][0] - left[waist][0] - eye).abs() < TRUE_MM,
                "{name}, {class}"
            );
        }
    }
}

#[test]
fn gauges_are_the_curves_of_the_design() {
    let mut seen = [0; 4];
    for name in starter_names() {
        let design = named(name);
        let solid = design.build().expect("sound");
        let files = found(&svgs_of(
            &format!("gauges-{name}"),
            &card(&design, Paper::A4),
        ));
        for side in Side::BOTH {
            let gauge = |what: &str| all_of(&files, &format!("{}-{what}", side.word()));
            match &solid.head().end(side).tip {
                Tip::Face(cap) if cap.curvature > 0.0 => {
                    let drawn = gauge("crown").remove(0).remove(0);
                    let crown = cap.curvature.recip();
                    assert!(off_circle(&drawn, crown) < TRUE_MM, "{name}");
                    let sag =
                        crown - (crown * crown - cap.outline.a.max(cap.outline.b).powi(2)).sqrt();
                    assert!(
                        (drawn[0][1] - drawn[drawn.len() / 2][1] - sag).abs() < TRUE_MM,
                        "{name}"
                    );
                    seen[0] += 1;
                }
                Tip::Face(_) => assert!(gauge("crown").is_empty()),
                Tip::Ball(ball) => {
                    let drawn = gauge("ball").remove(0).remove(0);
                    assert!((radius(&drawn) - ball.radius).abs() < TRUE_MM, "{name}");
                    assert!(off_circle(&drawn, ball.radius) < TRUE_MM, "{name}");
                    seen[1] += 1;
                }
                Tip::Pein(pein) => {
                    let drawn = gauge("nose").remove(0).remove(0);
                    // Only what lies before the nose's circle ends is round.
                    let tip = drawn[drawn.len() / 2];
                    let deep = pein.reach - pein.tangent[0];
                    let nose: Vec<[f64; 2]> = drawn
                        .iter()
                        .copied()
                        .filter(|at| at[1] - tip[1] <= deep)
                        .collect();
                    assert!(nose.len() > 4, "{name}");
                    let level = solid.head().end(side).drop.slope == 0.0;
                    if level {
                        assert!(off_circle(&nose, pein.nose) < TRUE_MM, "{name}");
                    }
                    let flank = gauge("pein").remove(0).remove(0);
                    let (first, last) = (flank[0], flank[flank.len() - 1]);
                    let back = first[1] - flank[flank.len() / 2][1];
                    let u = pein.reach - back;
                    let [cos, sin] = pein.direction;
                    let chord = pein.section.radius_towards(sin.abs(), cos.abs()) * pein.growth(u);
                    let thick = 2.0 * pein.thickness(u).min(chord);
                    assert!((last[0] - first[0] - thick).abs() < TRUE_MM, "{name}");
                    seen[2] += 1;
                    if pein.rocker > 0.0 {
                        let drawn = gauge("rocker").remove(0).remove(0);
                        assert!(off_circle(&drawn, pein.rocker.recip()) < TRUE_MM, "{name}");
                        seen[3] += 1;
                    }
                }
            }
        }
    }
    assert!(seen[..3].iter().all(|count| *count > 0), "{seen:?}");
}

#[test]
fn a_user_unit_of_every_svg_is_a_millimetre() {
    for file in found(&svgs_of("units", &card(&named("diagonal"), Paper::Letter))) {
        assert_eq!(file["size"][0], "215.90mm");
        assert_eq!(file["size"][1], "279.40mm");
        assert_eq!(file["box"], serde_json::json!([0.0, 0.0, 215.9, 279.4]));
        assert_eq!(of_class(&file, "check-line").len(), 1);
    }
}

/// Asserts that the code on the card of `design` opens `expected`.
fn check_code(name: &str, design: &Design, expected: &Design) {
    let pages = card(design, Paper::A4).pages;
    let file = &found(&[pdf_of(&format!("code-{name}"), &pages)])[0];
    let pages = file["pages"].as_array().expect("pages").iter();
    let codes: Vec<String> = pages
        .flat_map(|page| page["codes"].as_array().cloned().unwrap_or_default())
        .filter_map(|code| code.as_str().map(ToOwned::to_owned))
        .collect();
    assert_eq!(codes.len(), 1, "{name}: {codes:?}");
    assert!(codes[0].starts_with(ADDRESS), "{name}: {}", codes[0]);
    let read = link::decode(&codes[0]).expect("a link");
    assert_eq!(link::encode(&read), link::encode(expected), "{name}");
    assert_eq!((&read.name, &read.note), (&expected.name, &expected.note));
}

#[test]
fn a_phone_reads_the_design_off_the_printed_code() {
    for name in ["rounding", "sledge", "ball"] {
        let mut design = named(name);
        check_code(name, &design, &design);
        let without_note = Design {
            note: String::new(),
            ..design.clone()
        };
        // Too long for modules that a phone reads: it stays out.
        design.note =
            "Forge it from the offcuts of the long bar, and let it cool in the ash. ".repeat(9);
        check_code(&format!("{name} with a note"), &design, &without_note);
    }
}

#[test]
fn the_drawing_is_at_1_to_1() {
    let design = named("rounding");
    let page = drawing(&design, System::Metric).expect("sound");
    let head = design.build().expect("sound");
    let head = head.head();
    let long = head.end(Side::Front).tip.reach() + head.end(Side::Back).tip.reach();
    let file = &found(&[pdf_of("drawing", std::slice::from_ref(&page))])[0];
    let wide = |rows: &Rows| {
        let across = rows.iter().flatten().map(|at| at[0]);
        let [low, high] = across.fold([f64::INFINITY, f64::NEG_INFINITY], |[low, high], x| {
            [low.min(x), high.max(x)]
        });
        high - low
    };
    let drawn = of_page(&file["pages"][0]);
    // The outline of the side view, and above it that of the plan.
    let outlines = drawn
        .iter()
        .filter(|rows| rows[0].len() > 20 && (wide(rows) - long).abs() < TRUE_MM);
    assert!(outlines.count() >= 2);
    assert_eq!(paths(&[page], "check line").len(), 1);
}
