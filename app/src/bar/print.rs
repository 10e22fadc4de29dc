//! A sheet at 1:1, printed alone.

use leptos::prelude::*;
use wasm_bindgen::JsCast;
use wasm_bindgen::prelude::Closure;
use web_sys::{AddEventListenerOptions, Element};

/// Attribute of `<html>` while a sheet is printed in place of the page.
const PRINTING: &str = "data-print";

/// Prints `sheet`, an SVG file measured in mm, instead of the page; the page stands for itself again as soon as the
/// browser has printed or been told not to.
pub fn print_alone(sheet: &str) {
    print(sheet, if wide(sheet) { "wide" } else { "upright" });
}

/// Prints `pages`, SVG files as large as their `paper`, each on a sheet of its own, alike.
pub fn print_pages(pages: &[String], paper: &str) {
    let sheets: String = pages
        .iter()
        .map(|page| format!("<div>{page}</div>"))
        .collect();
    print(&sheets, &format!("card-{paper}"));
}

/// Prints `sheets` alone; the style sheet knows how by their `look`.
fn print(sheets: &str, look: &str) {
    clear();
    if lay(sheets, look).is_none() {
        return;
    }
    let after = Closure::once_into_js(|_: web_sys::Event| clear());
    let once = AddEventListenerOptions::new();
    once.set_once(true);
    let listens = window().add_event_listener_with_callback_and_add_event_listener_options(
        "afterprint",
        after.unchecked_ref(),
        &once,
    );
    // A browser that cannot print says so itself.
    if listens.is_err() || window().print().is_err() {
        clear();
    }
}

/// Lays the sheets beside the page; nothing on a page without a body.
fn lay(sheets: &str, look: &str) -> Option<()> {
    let page = document().document_element()?;
    let host = document().create_element("div").ok()?;
    host.set_class_name("full-size");
    host.set_inner_html(sheets);
    document().body()?.append_child(&host).ok()?;
    page.set_attribute(PRINTING, look).ok()
}

/// Takes every sheet away.
fn clear() {
    if let Some(page) = document().document_element() {
        // An attribute that cannot be taken away was never there.
        let _ = page.remove_attribute(PRINTING);
    }
    while let Ok(Some(sheet)) = document().query_selector(".full-size") {
        Element::remove(&sheet);
    }
}

/// What a sheet upright takes of its width, mm: of A4 and letter the narrower, 210 mm, less 5 mm at either side.
const UPRIGHT_MM: f64 = 200.0;
/// What a sheet lying takes, mm: of A4 and letter the shorter, 279.4 mm, less 5 mm at either end.
pub const LYING_MM: f64 = 269.0;

/// Whether `sheet` is wider than an upright page.
fn wide(sheet: &str) -> bool {
    width_mm(sheet).is_some_and(|width| width > UPRIGHT_MM)
}

/// The width that an SVG file gives for itself.
fn width_mm(sheet: &str) -> Option<f64> {
    let (_, rest) = sheet.split_once(" width=\"")?;
    rest.split_once("mm\"")?.0.parse().ok()
}

#[cfg(test)]
mod tests {
    use super::*;
    use headwright::bar::Bar;
    use headwright::drift::{Drifting, plan, profile_svg};
    use headwright::units::System;

    #[test]
    fn the_width_of_a_sheet_is_read_from_it() {
        let solid = headwright::design::starter("rounding")
            .and_then(|design| design.build().ok())
            .expect("starters are sound");
        let plan =
            plan(&solid, &Bar::default(), &Drifting::default(), 1050.0).expect("the usual drifts");
        let sheet = profile_svg(&plan, System::Metric);
        let width = width_mm(&sheet).expect("a width");
        assert!(sheet.contains(&format!("viewBox=\"0 0 {width:.2} ")));
        assert!(wide("<svg width=\"240.00mm\" height=\"60mm\">"));
        assert!(!wide("<svg width=\"190.00mm\" height=\"60mm\">"));
        assert!(!wide("<svg>"));
    }
}
