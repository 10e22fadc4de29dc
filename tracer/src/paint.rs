//! The drawing as the core writes it for a page ([`headwright::drawing::svg_body`]), painted on a canvas.

use js_sys::Array;
use wasm_bindgen::JsValue;
use web_sys::{OffscreenCanvasRenderingContext2d as Context, Path2d};

use headwright::drawing::{Look, Looks};

/// The family of the drawing's letters.
pub const FAMILY: &str = "Alegreya Sans";

/// Nothing is drawn any more, and px count from the upper left corner.
pub fn clear(context: &Context, size: [f64; 2], ratio: f64) {
    // A matrix of finite numbers can always be set.
    let _ = context.set_transform(1.0, 0.0, 0.0, 1.0, 0.0, 0.0);
    context.clear_rect(0.0, 0.0, size[0], size[1]);
    let _ = context.scale(ratio, ratio);
}

/// A tag with its attributes.
struct Tag<'a> {
    name: &'a str,
    rest: &'a str,
}

impl<'a> Tag<'a> {
    fn attribute(&self, name: &str) -> Option<&'a str> {
        let mut parts = self.rest.split('"');
        while let (Some(before), Some(value)) = (parts.next(), parts.next()) {
            if before.trim().strip_suffix('=') == Some(name) {
                return Some(value);
            }
        }
        None
    }

    fn number(&self, name: &str) -> Option<f64> {
        self.attribute(name)?.parse().ok()
    }

    /// Its class, or its own name.
    fn known_as(&self) -> &'a str {
        self.attribute("class").unwrap_or(self.name)
    }
}

/// A piece of a text that looks alike.
struct Run<'a> {
    text: &'a str,
    look: &'a Look,
    size: f64,
    shift: [f64; 2],
}

/// A text that is being read.
struct Text<'a> {
    at: [f64; 2],
    size: f64,
    anchor: &'a str,
    runs: Vec<Run<'a>>,
}

/// Paints `body`; nothing when something in it is not known here.
pub fn paint(context: &Context, looks: &Looks, body: &str) -> Option<()> {
    let mut names: Vec<&str> = Vec::new();
    let mut text: Option<Text<'_>> = None;
    for piece in body.split('<').skip(1) {
        let (tag, after) = piece.split_once('>')?;
        if after.contains('&') {
            return None;
        }
        if let Some(closed) = tag.strip_prefix('/') {
            names.pop()?;
            match closed {
                "g" => context.restore(),
                "text" => write(context, text.take()?),
                _ => {
                    if let Some(text) = &mut text
                        && !after.is_empty()
                    {
                        let size = text.size;
                        text.runs.push(Run {
                            text: after,
                            look: looks.of(&names)?,
                            size,
                            shift: [0.0; 2],
                        });
                    }
                }
            }
            continue;
        }
        let alone = tag.ends_with('/');
        let (name, rest) = tag.split_once(' ').unwrap_or((tag, ""));
        let tag = Tag {
            name: name.trim_end_matches('/'),
            rest,
        };
        names.push(tag.known_as());
        match tag.name {
            "g" => {
                context.save();
                if let Some(transform) = tag.attribute("transform") {
                    place(context, transform)?;
                }
            }
            "path" => {
                let path = Path2d::new_with_path_string(tag.attribute("d")?).ok()?;
                ink(context, looks.of(&names)?, &path);
            }
            "circle" => {
                let at = ["cx", "cy"].map(|name| tag.number(name).unwrap_or(0.0));
                let path = Path2d::new().ok()?;
                path.arc(at[0], at[1], tag.number("r")?, 0.0, std::f64::consts::TAU)
                    .ok()?;
                ink(context, looks.of(&names)?, &path);
            }
            "rect" => {
                let path = Path2d::new().ok()?;
                let [x, y, w, h] = ["x", "y", "width", "height"].map(|name| tag.number(name));
                let radius = tag.number("rx").unwrap_or(0.0);
                path.round_rect_with_f64(x?, y?, w?, h?, radius).ok()?;
                ink(context, looks.of(&names)?, &path);
            }
            "text" => {
                let look = looks.of(&names)?;
                let size = tag.number("font-size")?;
                let at = ["x", "y"].map(|name| tag.number(name).unwrap_or(0.0));
                let mut read = Text {
                    at,
                    size,
                    anchor: &look.anchor,
                    runs: Vec::new(),
                };
                if !after.is_empty() {
                    read.runs.push(Run {
                        text: after,
                        look,
                        size,
                        shift: [0.0; 2],
                    });
                }
                text = Some(read);
            }
            "tspan" => {
                let text = text.as_mut()?;
                text.runs.push(Run {
                    text: after,
                    look: looks.of(&names)?,
                    size: tag.number("font-size").unwrap_or(text.size),
                    shift: ["dx", "dy"].map(|name| tag.number(name).unwrap_or(0.0)),
                });
            }
            _ => return None,
        }
        if alone {
            names.pop();
        }
    }
    Some(())
}

/// Goes where `transform` says: `translate(x y)`, and `rotate(-90)` after it.
fn place(context: &Context, transform: &str) -> Option<()> {
    for step in transform.split_inclusive(')') {
        let (what, numbers) = step.trim().strip_suffix(')')?.split_once('(')?;
        let mut numbers = numbers.split(' ').map(str::parse::<f64>);
        let mut next = || numbers.next()?.ok();
        match what {
            "translate" => context.translate(next()?, next()?).ok()?,
            "rotate" => context.rotate(next()?.to_radians()).ok()?,
            _ => return None,
        }
    }
    Some(())
}

fn ink(context: &Context, look: &Look, path: &Path2d) {
    if look.fill != "none" {
        context.set_global_alpha(look.opacity * look.fill_opacity);
        context.set_fill_style_str(&look.fill);
        context.fill_with_path_2d(path);
    }
    if pen(context, look) {
        context.stroke_with_path(path);
    }
}

/// Takes the pen of `look` in hand; whether there is one.
fn pen(context: &Context, look: &Look) -> bool {
    if look.stroke == "none" {
        return false;
    }
    context.set_global_alpha(look.opacity);
    context.set_stroke_style_str(&look.stroke);
    context.set_line_width(look.stroke_width);
    context.set_line_join(&look.join);
    context.set_line_cap(&look.cap);
    let dashes: Array = look
        .dashes
        .iter()
        .map(|dash| JsValue::from_f64(*dash))
        .collect();
    // Dashes of finite lengths can always be set.
    let _ = context.set_line_dash(&dashes);
    true
}

fn write(context: &Context, text: Text<'_>) {
    let set = |run: &Run<'_>| {
        context.set_font(&format!(
            "{} {}px '{FAMILY}', sans-serif",
            run.look.weight, run.size
        ));
    };
    let wide = |run: &Run<'_>| {
        set(run);
        let measured = context
            .measure_text(run.text)
            .map_or(0.0, |metrics| metrics.width());
        run.shift[0] + measured
    };
    let widths: Vec<f64> = text.runs.iter().map(wide).collect();
    let whole: f64 = widths.iter().sum();
    let before = if text.anchor == "middle" {
        0.5 * whole
    } else {
        0.0
    };
    let [mut x, mut y] = text.at;
    x -= before;
    for (run, width) in text.runs.iter().zip(widths) {
        let left = x + run.shift[0];
        y += run.shift[1];
        set(run);
        // The halo lies under the letters.
        if pen(context, run.look) {
            let _ = context.stroke_text(run.text, left, y);
        }
        context.set_global_alpha(run.look.opacity * run.look.fill_opacity);
        context.set_fill_style_str(&run.look.fill);
        let _ = context.fill_text(run.text, left, y);
        x += width;
    }
}
