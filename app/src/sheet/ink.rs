//! The lines and figures of the drawing, of which a change redraws only what is different.

use leptos::prelude::*;
use leptos::svg::Svg;
use web_sys::Element;

use headwright::drawing::{Laid, svg_body};

/// What the drawing is made of.
#[component]
pub fn Ink(
    /// The drawing.
    #[prop(into)]
    laid: Signal<Laid>,
    /// Its width and height, px.
    #[prop(into)]
    extent: Signal<[f64; 2]>,
) -> impl IntoView {
    let host = NodeRef::<Svg>::new();
    Effect::new(move |before: Option<String>| {
        let now = laid.with(svg_body);
        if let Some(host) = host.get() {
            draw(&host, &before.unwrap_or_default(), &now);
        }
        now
    });
    view! {
        <svg
            node_ref=host
            aria-hidden="true"
            focusable="false"
            width=move || extent.get()[0]
            height=move || extent.get()[1]
            viewBox=move || {
                let [width, height] = extent.get();
                format!("0 0 {width} {height}")
            }
        ></svg>
    }
}

/// Makes `host`, which shows `before`, show `now`. Each has an element to a line.
fn draw(host: &Element, before: &str, now: &str) {
    let children = host.children();
    let count = now.lines().count();
    if before.lines().count() != count || children.length() as usize != count {
        host.set_inner_html(now);
        return;
    }
    let lines = before.lines().zip(now.lines());
    let changed = lines.enumerate().filter(|(_, (old, new))| old != new);
    for (index, (old, new)) in changed {
        let Some(child) = children.item(index as u32) else {
            continue;
        };
        let rewritten = match attributes(old, new) {
            Some(changes) => changes.iter().all(|change| rewrite(&child, change)),
            None => false,
        };
        if !rewritten {
            // One element for another: the places of the others stay.
            child.set_outer_html(new);
        }
    }
}

/// An attribute that is another in an element of a line: its number among the line's elements, its name, its value.
type Change<'a> = (usize, &'a str, &'a str);

/// The attributes in which `new` differs from `old`; nothing when they differ in more.
fn attributes<'a>(old: &str, new: &'a str) -> Option<Vec<Change<'a>>> {
    let mut changes = Vec::new();
    let mut elements = 0_usize;
    let mut name = None;
    let (mut olds, mut news) = (old.split('"'), new.split('"'));
    for place in 0.. {
        match (olds.next(), news.next()) {
            (None, None) => return Some(changes),
            (Some(old), Some(new)) if place % 2 == 0 => {
                if old != new {
                    return None;
                }
                elements += new.matches('<').count() - new.matches("</").count();
                name = new
                    .strip_suffix('=')
                    .and_then(|text| text.rsplit(' ').next());
            }
            (Some(old), Some(new)) => {
                if old != new {
                    changes.push((elements.checked_sub(1)?, name?, new));
                }
            }
            _ => return None,
        }
    }
    None
}

/// Writes an attribute into `line` or what it holds; whether that could be.
fn rewrite(line: &Element, (number, name, value): &Change<'_>) -> bool {
    let held = number.checked_sub(1).map(|place| {
        let all = line.get_elements_by_tag_name("*");
        all.item(place as u32)
    });
    match held {
        None => line.set_attribute(name, value).is_ok(),
        Some(held) => held.is_some_and(|held| held.set_attribute(name, value).is_ok()),
    }
}

#[cfg(test)]
mod tests {
    use super::attributes;

    #[test]
    fn of_two_lines_that_differ_in_attributes_alone_those_are_told() {
        let old =
            "<g class=\"size free\"><path d=\"M0 0L1 1\"/><path class=\"arrows\" d=\"M2 2Z\"/></g>";
        let new =
            "<g class=\"size free\"><path d=\"M0 0L1 2\"/><path class=\"arrows\" d=\"M2 3Z\"/></g>";
        assert_eq!(
            attributes(old, new),
            Some(vec![(1, "d", "M0 0L1 2"), (2, "d", "M2 3Z")])
        );
        assert_eq!(attributes(old, old), Some(Vec::new()));
    }

    #[test]
    fn another_figure_or_another_element_is_more_than_an_attribute() {
        let old = "<g transform=\"translate(1 2)\"><text y=\"-6\">41</text></g>";
        assert_eq!(
            attributes(
                old,
                "<g transform=\"translate(1 3)\"><text y=\"-6\">41</text></g>"
            ),
            Some(vec![(0, "transform", "translate(1 3)")])
        );
        for other in [
            "<g transform=\"translate(1 2)\"><text y=\"-6\">42</text></g>",
            "<g transform=\"translate(1 2)\"><text x=\"-6\">41</text></g>",
            "<g transform=\"translate(1 2)\"></g>",
        ] {
            assert_eq!(attributes(old, other), None, "{other}");
        }
    }
}
