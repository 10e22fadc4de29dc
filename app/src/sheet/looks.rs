//! How the style sheets have the drawing look, for the thread that draws while a size is dragged.

use leptos::prelude::{document, window};
use web_sys::{CssStyleDeclaration, Element};

use headwright::drawing::{Look, Looks, samples};

const SVG: &str = "http://www.w3.org/2000/svg";

/// The looks of all that can stand on `board`.
pub fn looks(board: &Element) -> Option<Looks> {
    let probe = document().create_element_ns(Some(SVG), "svg").ok()?;
    probe.set_attribute("class", "samples").ok()?;
    probe.set_inner_html(&samples());
    board.append_child(&probe).ok()?;
    let mut looks = Looks::default();
    let all = probe.get_elements_by_tag_name("*");
    for element in (0..all.length()).filter_map(|index| all.item(index)) {
        if let Some(style) = window().get_computed_style(&element).ok().flatten() {
            let names = names(&element, &probe);
            let names: Vec<&str> = names.iter().map(String::as_str).collect();
            looks.note(&names, look(&style));
        }
    }
    probe.remove();
    Some(looks)
}

/// The names of `element` and of what it stands in, from below `probe` on.
fn names(element: &Element, probe: &Element) -> Vec<String> {
    let mut names = Vec::new();
    let mut next = Some(element.clone());
    while let Some(element) = next.filter(|element| element != probe) {
        let class = element.get_attribute("class");
        names.push(class.unwrap_or_else(|| element.tag_name()));
        next = element.parent_element();
    }
    names.reverse();
    names
}

fn look(style: &CssStyleDeclaration) -> Look {
    let text = |name: &str| style.get_property_value(name).unwrap_or_default();
    let number = |name: &str, usual: f64| {
        let text = text(name);
        text.trim_end_matches("px").parse().unwrap_or(usual)
    };
    let dashes = text("stroke-dasharray");
    let dashes = dashes
        .split(',')
        .map(|dash| dash.trim().trim_end_matches("px").parse());
    Look {
        fill: text("fill"),
        fill_opacity: number("fill-opacity", 1.0),
        stroke: text("stroke"),
        stroke_width: number("stroke-width", 1.0),
        // A word, as for a line without gaps, is no length.
        dashes: dashes.collect::<Result<_, _>>().unwrap_or_default(),
        join: text("stroke-linejoin"),
        cap: text("stroke-linecap"),
        opacity: number("opacity", 1.0),
        weight: number("font-weight", 400.0),
        anchor: text("text-anchor"),
    }
}
