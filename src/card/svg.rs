//! A page as SVG.

use std::fmt::Write;

use super::ink::{Anchor, Ink, Page, Path, Text};

/// How wide the white rim around a text is, mm.
pub(super) const HALO_MM: f64 = 0.9;

/// Lining figures of one width, and every letter as wide as it is alone.
const FIGURES: &str =
    "font-variant-numeric:lining-nums tabular-nums;font-kerning:none;font-variant-ligatures:none";

/// `page` as an SVG file: width and height in mm, and a user unit is 1 mm.
///
/// Every text states its width, so that another font than the card’s keeps to its room.
pub fn svg(page: &Page) -> String {
    let [w, h] = page.size;
    // What looks alike is said at each element: a style sheet in it would be the page's where it is shown in one.
    let mut out = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{w:.2}mm\" height=\"{h:.2}mm\" viewBox=\"0 0 {w:.2} {h:.2}\" \
         style=\"{FIGURES}\">\n<title>{}</title>\n",
        escaped(&page.title)
    );
    let _ = writeln!(
        out,
        "<rect width=\"{w:.2}\" height=\"{h:.2}\" fill=\"#fff\"/>"
    );
    for ink in &page.inks {
        match ink {
            Ink::Path(path) => draw(&mut out, path),
            Ink::Text(text) => say(&mut out, text),
        }
    }
    out.push_str("</svg>\n");
    out
}

fn draw(out: &mut String, path: &Path) {
    out.push_str("<path");
    if let Some(name) = &path.name {
        let _ = write!(out, " class=\"card-{}\"", escaped(&name.replace(' ', "-")));
    }
    if let Some(pen) = path.pen {
        let _ = write!(out, " stroke=\"#000\" stroke-width=\"{}\"", pen.width_mm());
        if !pen.dashes_mm().is_empty() {
            let dashes: Vec<String> = pen.dashes_mm().iter().map(f64::to_string).collect();
            let _ = write!(out, " stroke-dasharray=\"{}\"", dashes.join(" "));
        }
    }
    match path.fill {
        Some(fill) => {
            let tone = (255.0 * fill).round() as u8;
            let _ = write!(out, " fill=\"#{tone:02x}{tone:02x}{tone:02x}\"");
        }
        None => out.push_str(" fill=\"none\""),
    }
    out.push_str(" d=\"");
    for row in &path.rows {
        for (index, [x, y]) in row.iter().enumerate() {
            let letter = if index == 0 { 'M' } else { 'L' };
            let _ = write!(out, "{letter}{x:.3} {y:.3}");
        }
        if path.closed {
            out.push('Z');
        }
    }
    out.push_str("\"/>\n");
}

fn say(out: &mut String, text: &Text) {
    if text.words.is_empty() {
        return;
    }
    let [x, y] = text.at;
    let anchor = match text.anchor {
        Anchor::Start => "start",
        Anchor::Middle => "middle",
        Anchor::End => "end",
    };
    let place = if text.upright {
        format!("transform=\"translate({x:.3} {y:.3}) rotate(-90)\"")
    } else {
        format!("x=\"{x:.3}\" y=\"{y:.3}\"")
    };
    let space = text.font.space() * text.size;
    let halo = if text.halo {
        format!(
            " stroke=\"#fff\" stroke-width=\"{HALO_MM}\" stroke-linejoin=\"round\" paint-order=\"stroke\""
        )
    } else {
        String::new()
    };
    let (family, weight) = text.font.style();
    let _ = writeln!(
        out,
        "<text {place} font-family=\"{family}\" font-weight=\"{weight}\" fill=\"#000\" font-size=\"{:.3}\" text-anchor=\"{anchor}\" textLength=\"{:.3}\" \
         lengthAdjust=\"spacingAndGlyphs\" word-spacing=\"{space:.3}\"{halo}>{}</text>",
        text.size,
        text.width(),
        escaped(&text.words)
    );
}

/// `text` as it stands in XML.
/// `text` as it may stand in XML, which has no control characters.
fn escaped(text: &str) -> String {
    let text: String = text.chars().filter(|letter| !letter.is_control()).collect();
    text.replace('&', "&amp;")
        .replace('<', "&lt;")
        .replace('>', "&gt;")
        .replace('"', "&quot;")
}
