//! `card` and `draw`: files that are printed.

use std::path::PathBuf;

use super::{check_answer, check_refused, lopsided};

fn file(name: &str) -> PathBuf {
    let folder = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join("cards");
    std::fs::create_dir_all(&folder).expect("a folder");
    folder.join(name)
}

fn text(path: &std::path::Path) -> &str {
    path.to_str().expect("UTF-8")
}

#[test]
fn a_card_is_one_pdf_or_a_file_for_each_page() {
    let design = lopsided().to_json();
    let pdf = file("card.pdf");
    let arguments = [
        "card",
        "-",
        "--paper",
        "letter",
        "--date",
        "4 March",
        "--out",
        text(&pdf),
    ];
    let answer = check_answer(&arguments, &design);
    assert_eq!(answer["files"], serde_json::json!([text(&pdf)]));
    assert_eq!(answer["page_mm"], serde_json::json!([215.9, 279.4]));
    let bytes = std::fs::read(&pdf).expect("written");
    assert!(bytes.starts_with(b"%PDF"));
    let svg = file("card.svg");
    let answer = check_answer(&["card", "-", "--out", text(&svg)], &design);
    let files = answer["files"].as_array().expect("a list");
    assert_eq!(Some(files.len() as u64), answer["pages"].as_u64());
    for (number, name) in (1..).zip(files) {
        let name = name.as_str().expect("a name");
        assert!(name.ends_with(&format!("card-{number}.svg")), "{name}");
        let page = std::fs::read_to_string(name).expect("written");
        assert!(page.starts_with("<svg") && page.contains("width=\"210.00mm\""));
    }
}

#[test]
fn a_card_tells_what_is_asked_as_the_bar_does() {
    let design = lopsided().to_json();
    let svg = file("asked.svg");
    let said = |more: &[&str]| {
        let mut arguments = vec!["card", "-", "--out", text(&svg)];
        arguments.extend(more);
        let answer = check_answer(&arguments, &design);
        let files = answer["files"].as_array().expect("a list").clone();
        let pages = files
            .iter()
            .map(|name| std::fs::read_to_string(name.as_str().expect("a name")).expect("written"));
        pages.collect::<String>()
    };
    let plain = said(&[]);
    assert!(plain.contains("at 1050 °C") && !plain.contains("on a phone"));
    assert!(said(&["--hot", "1100C"]).contains("at 1100 °C"));
    assert!(said(&["--link-base", "https://example.org/"]).contains("on a phone"));
    assert!(said(&["--slit", "30mm"]).contains(">slit opening<"));
    assert_ne!(said(&["--from", "back"]), plain);
}

#[test]
fn a_drawing_is_one_page_as_large_as_it_needs() {
    let design = lopsided().to_json();
    for name in ["head.svg", "head.PDF"] {
        let out = file(name);
        let answer = check_answer(&["draw", "-", "--out", text(&out)], &design);
        assert_eq!(answer["pages"], 1);
        assert_eq!(answer["files"], serde_json::json!([text(&out)]));
        assert!(std::fs::metadata(&out).expect("written").len() > 1000);
    }
}

#[test]
fn what_cannot_be_printed_is_refused_in_a_sentence() {
    let design = lopsided().to_json();
    let refused = |arguments: &[&str], sentence: &str| {
        check_refused(arguments, design.as_bytes(), sentence);
    };
    refused(
        &["card", "-"],
        "Say where it goes: card DESIGN --out card.pdf.",
    );
    refused(
        &["draw", "-"],
        "Say where it goes: draw DESIGN --out draw.pdf.",
    );
    refused(
        &["card", "-", "--out", "card.png"],
        "“card.png” does not say its format: card writes a file that ends in .pdf or .svg.",
    );
    refused(
        &["draw", "-", "--out", "head"],
        "“head” does not say its format: draw writes a file that ends in .pdf or .svg.",
    );
    refused(
        &["card", "-", "--paper", "A3"],
        "“A3” is no paper; a card is printed on a4 or letter.",
    );
    refused(
        &["card", "-", "--link-base", "example.org#x"],
        "“example.org#x” is no address of a page. Write it in full and without #, like https://example.org/headwright/.",
    );
    refused(
        &[
            "card",
            "-",
            "--date",
            "the day on which the long bar came back from the saw",
        ],
        "“the day on which the long bar came back from the saw” is too long for a day: 52 characters, and the card has room for 40.",
    );
    refused(
        &["card", "-", "--paper", "a4", "--paper", "a4"],
        "--paper is given twice.",
    );
    refused(
        &["draw", "-", "--paper", "a4"],
        "draw has no option --paper; headwright --help lists them.",
    );
    refused(
        &["card", "-", "--hot", "1300C", "--out", "card.pdf"],
        "The growth of steel at 1300 °C is not known. It must be at least 20 °C and at most 1200 °C.",
    );
    let nowhere = file("no/such/folder.pdf");
    refused(
        &["card", "-", "--out", text(&nowhere)],
        &format!(
            "“{}” can’t be written: there is no such file.",
            headwright::cli::shown(nowhere.as_os_str())
        ),
    );
}
