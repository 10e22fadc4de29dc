//! The last drift at 1:1, to be printed and laid on the steel.

use std::fmt::Write;

use super::profile::{CutOutline, Profile};
use super::series::Plan;
use crate::units::{System, show_caliper, unit_word};

/// Around everything, mm.
const MARGIN: f64 = 10.0;
/// Between what stands side by side, mm.
const GAP: f64 = 12.0;
/// Room right of the outlines for what is written at their marks, mm.
const LABEL: f64 = 32.0;
/// Height of a line of text, mm.
const LINE: f64 = 5.0;
/// Width that a row of text under a section needs at least, mm.
const WORDS: f64 = 46.0;
/// Length of the line that is measured to check the print, mm.
pub const CHECK_LINE_MM: f64 = 50.0;
/// How far a mark's line stands out of the outline, mm.
const OVERHANG: f64 = 3.0;

/// Ink on white.
const STYLE: &str = "\
path{fill:none;stroke:#000;stroke-width:.35}.mark{stroke-width:.18}\
.axis{stroke-width:.18;stroke-dasharray:6 1.5 .8 1.5}\
text{font:3.5px 'Alegreya Sans',sans-serif;fill:#000}";

/// The last drift of `plan` as an SVG file at 1:1, its sizes written in the units of `system`: seen across the cheeks
/// (its length) and along the head (its width), with its sections at mouth, waist and tip; one row for each mouth, or
/// one for both where they are alike. It says how much larger than the finished eye the drift is, and the eye's size.
///
/// Width and height are in mm and a user unit is 1 mm; a line of [`CHECK_LINE_MM`] shows whether it was printed so.
pub fn profile_svg(plan: &Plan, system: System) -> String {
    let [top, bottom] = &plan.profiles;
    let rows: Vec<(&Profile, &str)> = if top.is_as(bottom) {
        vec![(top, "from either mouth")]
    } else {
        vec![
            (top, "from the top mouth"),
            (bottom, "from the bottom mouth"),
        ]
    };
    let mut sheet = Sheet {
        body: String::new(),
        system,
        width: 2.0 * MARGIN + CHECK_LINE_MM + 2.0 * GAP,
        foot: MARGIN,
    };
    for (profile, words) in rows {
        sheet.row(profile, words);
    }
    let finished = plan.finished_eye(system);
    sheet.say(&format!("The drift is {}.", plan.made_hot(system)));
    sheet.say(&format!(
        "The finished eye, cold, is {finished} at the waist."
    ));
    sheet.check_line();
    let (width, height) = (sheet.width, sheet.foot + MARGIN);
    format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width:.2}mm\" height=\"{height:.2}mm\" \
         viewBox=\"0 0 {width:.2} {height:.2}\">\n<style>{STYLE}</style>\n{}</svg>\n",
        sheet.body
    )
}

struct Sheet {
    body: String,
    system: System,
    width: f64,
    /// Below what is drawn already.
    foot: f64,
}

impl Sheet {
    fn row(&mut self, profile: &Profile, words: &str) {
        let head = self.foot + LINE;
        self.text([MARGIN, head], &format!("Last drift, 1:1, {words}"));
        let top = head + 2.0 * LINE;
        let mut left = MARGIN;
        let mut foot = top + profile.length_mm();
        for (plane, name) in [
            (&profile.length_plane, "length"),
            (&profile.width_plane, "width"),
        ] {
            let half = plane
                .iter()
                .fold(0.0, |most: f64, [_, half]| most.max(*half));
            let middle = left + OVERHANG + half;
            self.text([left, top - 1.2 * OVERHANG], name);
            self.plane(plane, [middle, top]);
            for cut in &profile.sections {
                self.mark(cut, middle, half, top);
            }
            left = middle + half + LABEL;
        }
        let mut under = top;
        for cut in &profile.sections {
            let [length_mm, width_mm] = [cut.size.length_mm, cut.size.width_mm];
            let middle = [left + 0.5 * length_mm, under + 0.5 * width_mm];
            let points = cut
                .outline
                .iter()
                .map(|[x, y]| [middle[0] + x, middle[1] - y]);
            self.path("outline", points, true);
            under += width_mm + LINE;
            let size = format!(
                "{} {} {}",
                cut.name,
                cut.size.words(self.system),
                unit_word(self.system)
            );
            self.text([left, under], &size);
            under += LINE;
            self.width = self.width.max(left + length_mm.max(WORDS) + MARGIN);
        }
        foot = foot.max(under);
        self.foot = foot + GAP;
    }

    /// Both sides of an outline about its axis.
    fn plane(&mut self, plane: &[[f64; 2]], [x, y]: [f64; 2]) {
        let right = plane.iter().map(|[along, half]| [x + half, y + along]);
        let left = plane
            .iter()
            .rev()
            .map(|[along, half]| [x - half, y + along]);
        self.path("outline", right.chain(left), true);
        let end = plane.last().map_or(0.0, |[along, _]| *along);
        let axis = [[x, y - OVERHANG], [x, y + end + OVERHANG]];
        self.path("axis", axis.into_iter(), false);
    }

    fn mark(&mut self, cut: &CutOutline, middle: f64, half: f64, top: f64) {
        let y = top + cut.at_mm;
        let ends = [[middle - half - OVERHANG, y], [middle + half + OVERHANG, y]];
        self.path("mark", ends.into_iter(), false);
        let at = format!(
            "{} {}",
            show_caliper(cut.at_mm, self.system),
            unit_word(self.system)
        );
        let words = if cut.at_mm == 0.0 {
            cut.name.to_owned()
        } else {
            format!("{} {at}", cut.name)
        };
        self.text([middle + half + OVERHANG + 1.0, y + 1.2], &words);
    }

    /// A line of words under what is drawn already.
    fn say(&mut self, words: &str) {
        self.text([MARGIN, self.foot], words);
        self.foot += LINE;
    }

    fn check_line(&mut self) {
        let y = self.foot + 2.0;
        let (from, to) = (MARGIN, MARGIN + CHECK_LINE_MM);
        let line = [
            [from, y - 2.0],
            [from, y + 2.0],
            [from, y],
            [to, y],
            [to, y - 2.0],
            [to, y + 2.0],
        ];
        self.path("check", line.into_iter(), false);
        self.text(
            [from, y + 2.0 + LINE],
            &format!("Measure {CHECK_LINE_MM} mm here, or print again at 100 %."),
        );
        self.foot = y + 2.0 + LINE;
    }

    fn path(&mut self, class: &str, points: impl Iterator<Item = [f64; 2]>, closed: bool) {
        let _ = write!(self.body, "<path class=\"{class}\" d=\"");
        for (index, [x, y]) in points.enumerate() {
            let letter = if index == 0 { 'M' } else { 'L' };
            let _ = write!(self.body, "{letter}{x:.2} {y:.2}");
        }
        self.body
            .push_str(if closed { "Z\"/>\n" } else { "\"/>\n" });
    }

    fn text(&mut self, [x, y]: [f64; 2], words: &str) {
        let _ = writeln!(self.body, "<text x=\"{x:.2}\" y=\"{y:.2}\">{words}</text>");
    }
}
