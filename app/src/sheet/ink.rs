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
        let rewritten = match changes(old, new) {
            Some(changes) => changes.iter().all(|change| rewrite(&child, change)),
            None => false,
        };
        if !rewritten {
            // One element for another: the places of the others stay.
            child.set_outer_html(new);
        }
    }
}

/// What is another in an element of a line: the element's number in it; the attribute, or nothing for its text; and what it
/// is now.
type Change<'a> = (usize, Option<&'a str>, &'a str);

/// In what `new` differs from `old`; nothing when they differ in more than attributes and texts that stand alone.
fn changes<'a>(old: &str, new: &'a str) -> Option<Vec<Change<'a>>> {
    let mut changes = Vec::new();
    let mut elements = 0_usize;
    let (mut olds, mut news) = (old.split('<').skip(1), new.split('<').skip(1).peekable());
    loop {
        let ((old, was), (new, text)) = match (olds.next(), news.next()) {
            (None, None) => return Some(changes),
            (Some(old), Some(new)) => (old.split_once('>')?, new.split_once('>')?),
            _ => return None,
        };
        let opens = !new.starts_with('/');
        if old != new {
            attributes(old, new, elements, &mut changes)?;
        }
        if was != text {
            let alone = opens && news.peek().is_some_and(|next| next.starts_with('/'));
            if !alone || text.contains('&') {
                return None;
            }
            changes.push((elements, None, text));
        }
        elements += usize::from(opens);
    }
}

/// The attributes in which the tag `new` differs from `old`.
fn attributes<'a>(
    old: &str,
    new: &'a str,
    element: usize,
    changes: &mut Vec<Change<'a>>,
) -> Option<()> {
    let (mut olds, mut news) = (old.split('"'), new.split('"'));
    let mut name = None;
    for place in 0.. {
        match (olds.next(), news.next()) {
            (None, None) => break,
            (Some(old), Some(new)) if place % 2 == 0 => {
                if old != new {
                    return None;
                }
                name = new
                    .strip_suffix('=')
                    .and_then(|text| text.rsplit(' ').next());
            }
            (Some(old), Some(new)) if old != new => changes.push((element, Some(name?), new)),
            (Some(_), Some(_)) => {}
            _ => return None,
        }
    }
    Some(())
}

/// Writes a change into `line` or what it holds; whether that could be.
fn rewrite(line: &Element, (number, name, now): &Change<'_>) -> bool {
    let held = match number.checked_sub(1) {
        None => Some(line.clone()),
        Some(place) => line.get_elements_by_tag_name("*").item(place as u32),
    };
    held.is_some_and(|held| match name {
        Some(name) => held.set_attribute(name, now).is_ok(),
        None => {
            held.set_text_content(Some(now));
            true
        }
    })
}

#[cfg(test)]
mod tests {
    use super::changes;

    #[test]
    fn of_two_lines_that_differ_in_attributes_and_texts_those_are_told() {
        let old =
            "<g class=\"size free\"><path d=\"M0 0L1 1\"/><path class=\"arrows\" d=\"M2 2Z\"/></g>";
        let new =
            "<g class=\"size free\"><path d=\"M0 0L1 2\"/><path class=\"arrows\" d=\"M2 3Z\"/></g>";
        assert_eq!(
            changes(old, new),
            Some(vec![(1, Some("d"), "M0 0L1 2"), (2, Some("d"), "M2 3Z")])
        );
        assert_eq!(changes(old, old), Some(Vec::new()));
        let old = "<g transform=\"translate(1 2)\"><text y=\"-6\">41</text><text>free</text></g>";
        let new = "<g transform=\"translate(1 3)\"><text y=\"-6\">42</text><text>free</text></g>";
        assert_eq!(
            changes(old, new),
            Some(vec![
                (0, Some("transform"), "translate(1 3)"),
                (1, None, "42")
            ])
        );
    }

    #[test]
    fn another_element_is_more_than_an_attribute_or_a_text() {
        let old = "<g transform=\"translate(1 2)\"><text y=\"-6\">41</text></g>";
        for other in [
            "<g transform=\"translate(1 2)\"><text x=\"-6\">41</text></g>",
            "<g transform=\"translate(1 2)\"></g>",
            "<g transform=\"translate(1 2)\"><text y=\"-6\">4<tspan>1</tspan></text></g>",
            "<g transform=\"translate(1 2)\"><text y=\"-6\">&lt;</text></g>",
        ] {
            assert_eq!(changes(old, other), None, "{other}");
        }
    }
}
