//! The sheet's own tones, read from its style so that the picture follows paper and slate.

use web_sys::Element;

/// A tone: red, green, blue, 0 to 1.
pub type Tone = [f32; 3];

/// The tones of the picture.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tones {
    /// Lines.
    pub ink: Tone,
    /// Steel in full shade.
    pub shade: Tone,
    /// Steel in full light.
    pub light: Tone,
    /// The handle.
    pub wood: Tone,
}

impl Tones {
    /// Tones of the style that holds at `element`.
    pub fn at(element: &Element) -> Option<Self> {
        let style = web_sys::window()?.get_computed_style(element).ok()??;
        let tone = |name: &str| style.get_property_value(name).ok().and_then(|v| parse(&v));
        Some(Self::of(
            tone("--ground")?,
            tone("--ink")?,
            tone("--steel")?,
            tone("--wood")?,
        ))
    }

    /// One ramp from the darker to the lighter of ground and ink, by way of the steel's tint:
    /// on paper light steel stands on light paper, on slate the steel stays darker than chalk.
    fn of(ground: Tone, ink: Tone, steel: Tone, wood: Tone) -> Self {
        let (shade, light) = if luminance(ground) > luminance(ink) {
            (mix(ink, steel, 0.22), mix(steel, ground, 0.9))
        } else {
            (mix(ground, steel, 0.15), mix(steel, ink, 0.72))
        };
        Self {
            ink,
            shade,
            light,
            wood,
        }
    }
}

fn luminance([r, g, b]: Tone) -> f32 {
    0.2126 * r + 0.7152 * g + 0.0722 * b
}

fn mix(from: Tone, to: Tone, share: f32) -> Tone {
    [0, 1, 2].map(|k| from[k] + (to[k] - from[k]) * share)
}

/// Reads #rrggbb.
fn parse(text: &str) -> Option<Tone> {
    let digits = text.trim().strip_prefix('#')?;
    if digits.len() != 6 || !digits.is_ascii() {
        return None;
    }
    let part = |k: usize| {
        let value = u8::from_str_radix(&digits[2 * k..2 * k + 2], 16).ok()?;
        Some(f32::from(value) / 255.0)
    };
    Some([part(0)?, part(1)?, part(2)?])
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_tone_of_the_style_is_read_with_its_blanks() {
        assert_eq!(parse(" #ff0080"), Some([1.0, 0.0, 128.0 / 255.0]));
        for wrong in ["", "ff0080", "#ff008", "#gg0000", "#ffé08"] {
            assert_eq!(parse(wrong), None, "{wrong}");
        }
    }

    #[test]
    fn steel_is_shaded_within_the_tones_of_either_sheet() {
        let (dark, bright) = ([0.1; 3], [0.9; 3]);
        let paper = Tones::of(bright, dark, [0.85; 3], [0.8; 3]);
        let slate = Tones::of(dark, bright, [0.2; 3], [0.3; 3]);
        for tones in [paper, slate] {
            assert!(luminance(tones.shade) < luminance(tones.light));
            assert!(luminance(tones.shade) >= 0.1 && luminance(tones.light) <= 0.9);
        }
    }
}
