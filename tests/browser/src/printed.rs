//! What the browser prints: a PDF, and the lines on its pages.

use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use lopdf::content::Content;
use lopdf::{Document, Object};
use serde_json::json;

use crate::Page;

/// Millimetres to the point.
const MM: f64 = 25.4 / 72.0;

/// A printed page.
pub struct Sheet {
    /// Width and height, mm.
    pub size: [f64; 2],
    /// Straight lines from point to point, mm from the lower left corner.
    pub lines: Vec<[[f64; 2]; 2]>,
}

/// a, b, c, d, e, f of PDF: x' = a·x + c·y + e, y' = b·x + d·y + f.
type Matrix = [f64; 6];

/// `first`, then `then`.
fn after(first: Matrix, then: Matrix) -> Matrix {
    let [a, b, c, d, e, f] = first;
    let [g, h, i, j, k, l] = then;
    [
        a * g + b * i,
        a * h + b * j,
        c * g + d * i,
        c * h + d * j,
        e * g + f * i + k,
        e * h + f * j + l,
    ]
}

impl Page {
    /// Prints what the page prints now, on the paper that its style asks for.
    pub fn printed(&self) -> Vec<Sheet> {
        let asked = json!({ "preferCSSPageSize": true, "printBackground": true });
        let answer = self.command("Page.printToPDF", asked);
        let data = answer["data"].as_str().expect("a PDF");
        let bytes = STANDARD.decode(data).expect("base64");
        let document = Document::load_mem(&bytes).expect("a PDF");
        document
            .get_pages()
            .into_values()
            .map(|page| sheet(&document, page))
            .collect()
    }
}

fn numbers(objects: &[Object]) -> Vec<f64> {
    let numbers = objects.iter().filter_map(|object| object.as_float().ok());
    numbers.map(f64::from).collect()
}

fn sheet(document: &Document, page: lopdf::ObjectId) -> Sheet {
    let entry = document.get_dictionary(page).expect("a page");
    let media = entry
        .get(b"MediaBox")
        .and_then(Object::as_array)
        .expect("its size");
    let media = numbers(media);
    let content = document.get_page_content(page);
    let content = Content::decode(&content).expect("operators");
    let mut lines = Vec::new();
    let mut kept: Vec<Matrix> = Vec::new();
    let mut now: Matrix = [1.0, 0.0, 0.0, 1.0, 0.0, 0.0];
    let mut at = [0.0; 2];
    for operation in content.operations {
        let given = numbers(&operation.operands);
        let placed = |x: f64, y: f64| {
            let [a, b, c, d, e, f] = now;
            [(a * x + c * y + e) * MM, (b * x + d * y + f) * MM]
        };
        match (operation.operator.as_str(), given.as_slice()) {
            ("q", _) => kept.push(now),
            ("Q", _) => now = kept.pop().unwrap_or(now),
            ("cm", &[a, b, c, d, e, f]) => now = after([a, b, c, d, e, f], now),
            ("m", &[x, y]) => at = placed(x, y),
            ("l", &[x, y]) => {
                let to = placed(x, y);
                lines.push([at, to]);
                at = to;
            }
            _ => {}
        }
    }
    Sheet {
        size: [(media[2] - media[0]) * MM, (media[3] - media[1]) * MM],
        lines,
    }
}
