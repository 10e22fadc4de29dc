//! The marks at 1:1, to be printed and laid along the billet.

use std::fmt::Write;

use super::{Marks, Place};
use crate::design::length_in_words;
use crate::units::System;

/// Around everything, mm.
const MARGIN: f64 = 10.0;
/// Height of a line of text, mm.
const LINE: f64 = 5.0;
/// Height of the strip that is laid along the billet, mm.
const STRIP: f64 = 22.0;
/// Width of a letter of the text, mm: a little more than it is.
const LETTER: f64 = 1.9;
/// Length of the line that is measured to check the print, mm.
pub const CHECK_LINE_MM: f64 = 50.0;

/// Ink on white.
const STYLE: &str = "\
path{fill:none;stroke:#000;stroke-width:.35}.mark{stroke-width:.18}circle{fill:#000}\
text{font:3.5px 'Alegreya Sans',sans-serif;fill:#000}";

/// `marks` as an SVG file at 1:1, distances written in the units of `system`: a strip as long as the billet with a line
/// and punch dots at every mark, the end that they are measured from at the left, called `first`, the other `last`.
///
/// Width and height are in mm and a user unit is 1 mm; a line of [`CHECK_LINE_MM`] shows whether it was printed so.
pub fn marks_svg(marks: &Marks, [first, last]: [&str; 2], system: System) -> String {
    let show = |mm: f64| length_in_words(mm, system);
    let mut body = String::new();
    let mut text = |x: f64, y: f64, anchor: &str, words: &str| {
        // Writing to a string cannot fail.
        let _ = writeln!(
            body,
            "<text x=\"{x:.2}\" y=\"{y:.2}\" text-anchor=\"{anchor}\">{words}</text>"
        );
    };
    let (left, right) = (MARGIN, MARGIN + marks.length_mm);
    let mut y = MARGIN + LINE;
    let title = format!("Marks on the billet, 1:1, {} long", show(marks.length_mm));
    text(left, y, "start", &title);
    y += LINE;
    text(
        left,
        y,
        "start",
        "Lay the strip along the side that the eye goes in. Centre-punch the dots: chalk burns off.",
    );
    y += LINE;
    let top = y;
    let bottom = top + STRIP;
    // Words go to the next row where they would touch those before.
    let mut rows: Vec<f64> = Vec::new();
    for mark in &marks.marks {
        let words = format!("{} {}", mark.place.words(), show(mark.at_mm));
        let half = 0.5 * LETTER * words.chars().count() as f64;
        let x = (left + mark.at_mm).max(MARGIN + half);
        let free = rows.iter().position(|end| *end + LETTER <= x - half);
        let row = free.unwrap_or(rows.len());
        match rows.get_mut(row) {
            Some(end) => *end = x + half,
            None => rows.push(x + half),
        }
        text(x, bottom + LINE * (row + 1) as f64, "middle", &words);
    }
    y = bottom + LINE * (rows.len() + 1) as f64;
    text(left, y, "start", &format!("{first} end"));
    text(right, y, "end", &format!("{last} end"));
    y += 2.0 * LINE;
    let check = y;
    text(
        left,
        check + LINE + 1.0,
        "start",
        &format!("Measure {CHECK_LINE_MM} mm here, or print again at 100 %."),
    );
    let mut lines = format!(
        "<path d=\"M{left:.2} {top:.2}H{right:.2}V{bottom:.2}H{left:.2}Z\"/>\n\
         <path d=\"M{left:.2} {:.2}v4m0 -2h{CHECK_LINE_MM}m0 -2v4\"/>\n",
        check - 2.0
    );
    for mark in &marks.marks {
        let x = left + mark.at_mm;
        let _ = writeln!(
            lines,
            "<path class=\"mark\" d=\"M{x:.2} {top:.2}V{bottom:.2}\"/>"
        );
        let shares: &[f64] = if mark.place == Place::Eye {
            &[0.5]
        } else {
            &[0.25, 0.75]
        };
        for share in shares {
            let _ = writeln!(
                lines,
                "<circle cx=\"{x:.2}\" cy=\"{:.2}\" r=\"0.8\"/>",
                top + share * STRIP
            );
        }
    }
    let widest = rows.iter().fold(right, |most: f64, end| most.max(*end));
    // The longest line of words above.
    let width = widest.max(MARGIN + 92.0 * LETTER) + MARGIN;
    let height = check + LINE + 1.0 + MARGIN;
    format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width:.2}mm\" height=\"{height:.2}mm\" \
         viewBox=\"0 0 {width:.2} {height:.2}\">\n<style>{STYLE}</style>\n{lines}{body}</svg>\n"
    )
}

#[cfg(test)]
mod tests {
    use super::super::Mark;
    use super::*;
    use crate::design::Side;

    #[test]
    fn the_strip_is_as_long_as_the_billet_and_its_marks_lie_where_they_are_measured() {
        let mark = |place, at_mm| Mark {
            place,
            x_mm: 0.0,
            exact_mm: at_mm,
            at_mm,
            left_over_mm: 0.0,
            rest_mm: 112.0 - at_mm,
        };
        let marks = Marks {
            from: Side::Back,
            length_mm: 112.0,
            marks: vec![
                mark(Place::Cheeks(Side::Back), 33.0),
                mark(Place::Eye, 51.0),
            ],
        };
        let svg = marks_svg(&marks, ["pein", "face"], System::Metric);
        assert!(svg.contains("M10.00 25.00H122.00"), "{svg}");
        assert!(svg.contains("cx=\"43.00\""), "{svg}");
        assert!(svg.contains("cx=\"61.00\" cy=\"36.00\""), "{svg}");
        assert!(svg.contains(">pein end<") && svg.contains(">face end<"));
        assert!(svg.contains("v4m0 -2h50m0 -2v4"));
        // A user unit is a millimetre.
        let width = svg
            .split("width=\"")
            .nth(1)
            .and_then(|rest| rest.split("mm").next());
        assert!(svg.contains(&format!("viewBox=\"0 0 {} ", width.expect("a width"))));
    }
}
