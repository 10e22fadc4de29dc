//! What was laid out, written as SVG: fixed decimals, no names, nothing that changes by itself.

use std::fmt::Write;

use super::laid::{Laid, LaidSize, LaidText, Mark, Rect, Segment};
use super::place::{MARK, STRAW, STRAW_CLEAR, STRAW_ROOM};
use super::value::{FRACTION, FRACTION_GAP, Number, Value, width};
use super::{Point, Stroke};

/// Length and half-width of an arrow, px.
const ARROW: (f64, f64) = (10.0, 2.5);
/// From the line up to the foot of the value, px.
const FOOT: f64 = 6.0;
/// Radius of the witness dot, px.
const DOT: f64 = 5.5;

/// Ink on white, for a file that stands alone.
const ALONE: &str = "\
.steel{fill:#f2efe7}.face{fill:#e9e4d8}.opening{fill:#fff}
path{fill:none;stroke:#000;stroke-width:1.1}.outline{stroke-width:2.2;stroke-linejoin:round}
.steel,.face,.opening{stroke:none}.hidden{stroke-dasharray:7 4}.centre{stroke-dasharray:16 4 2 4}
.arrows,.pin,.eyelet{fill:#000;stroke:none}.straw{fill:none}.dot{fill:#fff;stroke:#000;stroke-width:2}
text{font-family:'Alegreya Sans',sans-serif;font-weight:500;text-anchor:middle}
.note{text-anchor:start;font-weight:400}
.value,.word{stroke:#fff;stroke-width:5;stroke-linejoin:round;paint-order:stroke}.on-straw{stroke:none}
.part{font-weight:700}.slash{font-weight:400}";

/// The whole drawing as a file that stands alone: ink on white.
pub fn svg(laid: &Laid) -> String {
    let (w, h) = (laid.width, laid.height);
    format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{w:.0}\" height=\"{h:.0}\" \
         viewBox=\"0 0 {w:.0} {h:.0}\">\n<style>{ALONE}</style>\n{}</svg>\n",
        svg_body(laid)
    )
}

/// The drawing's elements, for an `svg` element whose style is the sheet's: areas and lines by
/// their [`Stroke`], each size a group with its state as class.
pub fn svg_body(laid: &Laid) -> String {
    let mut out = String::with_capacity(32 * 1024);
    // What looks alike is one path: a page lays out few elements sooner than many.
    for alike in laid.shapes.chunk_by(|a, b| a.stroke == b.stroke) {
        let class = match alike[0].stroke {
            Stroke::Steel => "steel",
            Stroke::FaceArea => "face",
            Stroke::Opening => "opening",
            Stroke::Hidden => "hidden",
            Stroke::Edge => "edge",
            Stroke::Centre => "centre",
            Stroke::Outline => "outline",
        };
        let _ = write!(out, "<path class=\"{class}\" d=\"");
        for shape in alike {
            line(&mut out, &shape.points);
            if shape.closed {
                out.push('Z');
            }
        }
        out.push_str("\"/>\n");
    }
    for note in &laid.notes {
        for (row, text) in note.lines.iter().enumerate() {
            let (x, y) = (note.at[0], note.at[1] + 19.0 * row as f64);
            let size = laid.words;
            let _ = writeln!(
                out,
                "<text class=\"note\" x=\"{x:.1}\" y=\"{y:.1}\" font-size=\"{size}\">{text}</text>"
            );
        }
    }
    // All lines before all texts: a text's halo then covers what crosses it.
    let mut by_class: Vec<(String, Vec<&LaidSize>)> = Vec::new();
    for size in &laid.sizes {
        let class = class(size);
        match by_class.binary_search_by(|(known, _)| known.cmp(&class)) {
            Ok(at) => by_class[at].1.push(size),
            Err(at) => by_class.insert(at, (class, vec![size])),
        }
    }
    for (class, sizes) in &by_class {
        lines(&mut out, class, sizes);
    }
    for size in &laid.sizes {
        text(&mut out, laid, size);
    }
    out
}

fn class(size: &LaidSize) -> String {
    let hand = if size.in_hand { " in-hand" } else { "" };
    format!("size {}{hand}", size.state.class())
}

fn line(out: &mut String, points: &[Point]) {
    for (index, [x, y]) in points.iter().enumerate() {
        let letter = if index == 0 { 'M' } else { 'L' };
        let _ = write!(out, "{letter}{x:.1} {y:.1}");
    }
}

/// The lines of sizes that look alike: lines, arrows, witness dots.
fn lines(out: &mut String, class: &str, sizes: &[&LaidSize]) {
    let _ = write!(out, "<g class=\"{class}\"><path d=\"");
    for Segment { from, to } in sizes.iter().flat_map(|size| &size.lines) {
        line(out, &[*from, *to]);
    }
    out.push_str("\"/><path class=\"arrows\" d=\"");
    for Segment { from, to } in sizes.iter().flat_map(|size| &size.arrows) {
        let (dx, dy) = (to[0] - from[0], to[1] - from[1]);
        let length = dx.hypot(dy).max(f64::MIN_POSITIVE);
        let (ux, uy) = (dx / length, dy / length);
        let (back, half) = ARROW;
        let foot = [to[0] - back * ux, to[1] - back * uy];
        let wing = |way: f64| [foot[0] - way * half * uy, foot[1] + way * half * ux];
        line(out, &[*to, wing(1.0), wing(-1.0)]);
        out.push('Z');
    }
    out.push_str("\"/>");
    for [x, y] in sizes.iter().filter_map(|size| size.dot) {
        let _ = write!(
            out,
            "<circle class=\"dot\" cx=\"{x:.1}\" cy=\"{y:.1}\" r=\"{DOT}\"/>"
        );
    }
    out.push_str("</g>\n");
}

fn text(out: &mut String, laid: &Laid, size: &LaidSize) {
    let covered = |field: Rect| size.in_hand && field.overlap(&size.text.rect).is_some();
    if laid.field.is_some_and(covered) {
        return;
    }
    let LaidText {
        at: [x, y],
        upright,
        compact,
        ..
    } = size.text;
    let turn = if upright { " rotate(-90)" } else { "" };
    let _ = write!(
        out,
        "<g class=\"{}\" transform=\"translate({x:.1} {y:.1}){turn}\">",
        class(size)
    );
    let mut foot = -FOOT;
    let on_straw = size.in_hand && laid.field.is_none();
    if on_straw {
        let wide = size.value.width(laid.figures) + STRAW_ROOM;
        // The figures' middle on the field's.
        foot = -STRAW_CLEAR - STRAW / 2.0 + 0.32 * laid.figures;
        let _ = write!(
            out,
            "<rect class=\"straw\" x=\"{:.1}\" y=\"{:.1}\" width=\"{wide:.1}\" height=\"{STRAW}\" rx=\"2\"/>",
            -wide / 2.0,
            -STRAW - STRAW_CLEAR
        );
    }
    let look = if on_straw { "value on-straw" } else { "value" };
    value(out, &size.value, laid.figures, foot, look);
    let base = laid.words + 2.5;
    let middle = base - 0.32 * laid.words;
    if compact {
        mark(out, size.mark, [0.0, middle]);
    } else if !size.word.is_empty() {
        let marked = match size.mark {
            Mark::None => 0.0,
            _ => MARK * laid.words,
        };
        let (word, wide) = (&size.word, width(&size.word) * laid.words);
        let _ = write!(
            out,
            "<text class=\"word\" x=\"{:.1}\" y=\"{base:.1}\" font-size=\"{}\">{word}</text>",
            marked / 2.0,
            laid.words
        );
        mark(out, size.mark, [-wide / 2.0, middle]);
    }
    out.push_str("</g>\n");
}

/// The text of a value; figures of a fraction are smaller and stand higher and lower.
fn value(out: &mut String, value: &Value, size: f64, y: f64, class: &str) {
    let _ = write!(
        out,
        "<text class=\"{class}\" y=\"{y:.1}\" font-size=\"{size}\">"
    );
    if value.derived {
        out.push('(');
    }
    out.push_str(value.before);
    match &value.number {
        Number::Plain(text) => out.push_str(text),
        Number::Fraction {
            whole,
            numerator,
            denominator,
        } => {
            let (small, lift, drop) = (FRACTION * size, 0.24 * size, 0.06 * size);
            let gap = if whole.is_empty() {
                0.0
            } else {
                FRACTION_GAP * size
            };
            let _ = write!(
                out,
                "{whole}<tspan class=\"part\" dx=\"{gap:.1}\" dy=\"{:.1}\" font-size=\"{small:.1}\">{numerator}</tspan>\
                 <tspan class=\"slash\" dy=\"{lift:.1}\">/</tspan>\
                 <tspan class=\"part\" dy=\"{drop:.1}\" font-size=\"{small:.1}\">{denominator}</tspan>",
                -lift
            );
            if !value.after.is_empty() || value.derived {
                let _ = write!(out, "<tspan dy=\"{:.1}\">", -drop);
                out.push_str(value.after);
                if value.derived {
                    out.push(')');
                }
                out.push_str("</tspan></text>");
                return;
            }
        }
    }
    out.push_str(value.after);
    if value.derived {
        out.push(')');
    }
    out.push_str("</text>");
}

/// The mark of a state, about its own middle.
fn mark(out: &mut String, mark: Mark, [x, y]: Point) {
    let shape = match mark {
        Mark::None => return,
        Mark::Free => {
            "<path class=\"mark\" d=\"M-1.6 -4.6L-6.4 0L-1.6 4.6ZM1.6 -4.6L6.4 0L1.6 4.6Z\"/>"
        }
        Mark::Locked => "<path class=\"pin\" d=\"M-4.5 -4.5H4.5V4.5H-4.5Z\"/>",
        Mark::Held => "<circle class=\"ring\" r=\"5\"/><circle class=\"eyelet\" r=\"1.9\"/>",
        Mark::Problem => {
            "<path class=\"mark\" d=\"M-2.5 -6.5L1.2 -1.8L-2 1.2L2.2 6.5M1.2 -1.8L5.4 -3.4M-2 1.2L-6 2.6\"/>"
        }
        Mark::InHand => {
            "<path class=\"mark\" d=\"M-6 6L-4.6 2L3 -5.6L6 -2.6L-1.8 4.8ZM1.2 -3.8L4.2 -0.8\"/>"
        }
    };
    let _ = write!(out, "<g transform=\"translate({x:.1} {y:.1})\">{shape}</g>");
}
