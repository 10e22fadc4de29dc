//! The letters of a card: which there are and how wide.
//!
//! The fonts are those of the page, cut anew for print by `letters/make`: lining figures of one width, no kerning, so that
//! a text is as wide as the sum of its letters, in the PDF, which carries the fonts, and in the SVG, which states the width
//! of each text.

mod widths;

use widths::WIDTHS;

/// The characters of all fonts: the first is glyph 1.
pub(super) const CHARACTERS: &str = widths::CHARACTERS;

/// The letters of a text.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Font {
    /// Alegreya Sans 400.
    Plain,
    /// Alegreya Sans 700.
    Bold,
    /// Podkova 600.
    Heading,
}

/// How far letters stand above the baseline, as a share of their size: accents on capitals too.
pub const UP: f64 = 0.8;
/// How far they hang below it.
pub const DOWN: f64 = 0.21;
/// What stands for a character that the fonts do not have.
const MISSING: char = '?';

impl Font {
    /// All of them.
    pub(super) const ALL: [Self; 3] = [Self::Plain, Self::Bold, Self::Heading];

    /// The font’s file.
    pub(super) const fn file(self) -> &'static [u8] {
        match self {
            Self::Plain => include_bytes!("letters/alegreya-sans-400.ttf"),
            Self::Bold => include_bytes!("letters/alegreya-sans-700.ttf"),
            Self::Heading => include_bytes!("letters/podkova-600.ttf"),
        }
    }

    /// Its name in a PDF: of a cut font, after six letters of one’s own.
    pub(super) const fn name(self) -> &'static str {
        match self {
            Self::Plain => "HWCARD+AlegreyaSans-Regular",
            Self::Bold => "HWCARD+AlegreyaSans-Bold",
            Self::Heading => "HWCARD+Podkova-SemiBold",
        }
    }

    /// Its family and weight in a style sheet.
    pub(super) const fn style(self) -> (&'static str, u16) {
        match self {
            Self::Plain => ("'Alegreya Sans', sans-serif", 400),
            Self::Bold => ("'Alegreya Sans', sans-serif", 700),
            Self::Heading => ("Podkova, serif", 600),
        }
    }

    /// How much wider a space is than in the page’s font of that name, as a share of the size.
    pub(super) const fn space(self) -> f64 {
        match self {
            Self::Plain => 0.085,
            Self::Bold => 0.099,
            Self::Heading => 0.007,
        }
    }

    /// The widths of its glyphs from glyph 1 on, in thousandths of its size.
    pub(super) const fn widths(self) -> &'static [u16] {
        &WIDTHS[self as usize]
    }
}

/// The glyph of `letter` and its width in thousandths; nothing where `font` lacks it.
pub(super) fn glyph(letter: char, font: Font) -> Option<(u16, u16)> {
    let index = CHARACTERS.chars().position(|known| known == letter)?;
    let width = *font.widths().get(index)?;
    (width > 0).then_some((index as u16 + 1, width))
}

/// Width of `text` at size 1.
pub(super) fn width(text: &str, font: Font) -> f64 {
    let widths = text
        .chars()
        .filter_map(|letter| glyph(letter, font))
        .map(|(_, width)| f64::from(width) / 1000.0);
    widths.sum()
}

/// `text` with `?` for every character that `font` lacks.
pub(super) fn set(text: &str, font: Font) -> String {
    let letter = |letter: char| match letter {
        _ if glyph(letter, font).is_some() => letter,
        '\u{a0}' | '\n' | '\r' | '\t' => ' ',
        _ => MISSING,
    };
    text.chars().map(letter).collect()
}

/// What no line begins with after a number.
const UNITS: [&str; 10] = ["mm", "in", "°C", "°F", "%", "HRC", "h", "g", "kg", "oz"];

/// The words of `text`; a number with its unit, a radius with its R, and two sizes with the cross between them, are one.
fn words(text: &str) -> Vec<String> {
    let mut words: Vec<String> = Vec::new();
    for word in text.split_whitespace() {
        let bare = word.trim_end_matches(['.', ',', ':', ';', ')']);
        let number = |last: &str| last.ends_with(|letter: char| letter.is_ascii_digit());
        match words.last_mut() {
            Some(last)
                if bare == "×"
                    || last.ends_with('×')
                    || last == "R"
                    || (UNITS.contains(&bare) && number(last)) =>
            {
                last.push(' ');
                last.push_str(word);
            }
            _ => words.push(word.to_owned()),
        }
    }
    words
}

/// `text` in lines that are at most `most` mm wide at `size`; a word that is wider is parted.
pub(super) fn wrapped(text: &str, font: Font, size: f64, most: f64) -> Vec<String> {
    let fits = |line: &str| width(line, font) * size <= most;
    let mut lines: Vec<String> = Vec::new();
    let mut line = String::new();
    for word in words(&set(text, font)) {
        let longer = if line.is_empty() {
            word.clone()
        } else {
            format!("{line} {word}")
        };
        if fits(&longer) {
            line = longer;
            continue;
        }
        if !line.is_empty() {
            lines.push(std::mem::take(&mut line));
        }
        for letter in word.chars() {
            line.push(letter);
            if !fits(&line) && line.chars().count() > 1 {
                line.pop();
                lines.push(std::mem::take(&mut line));
                line.push(letter);
            }
        }
    }
    if !line.is_empty() {
        lines.push(line);
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_font_has_a_glyph_for_every_character_of_the_table() {
        for font in Font::ALL {
            // maxp, numGlyphs: https://learn.microsoft.com/typography/opentype/spec/maxp
            let file = font.file();
            let at = file
                .windows(4)
                .position(|tag| tag == b"maxp")
                .expect("a table");
            let word = |at: usize| {
                u32::from_be_bytes([file[at], file[at + 1], file[at + 2], file[at + 3]])
            };
            let table = word(at + 8) as usize;
            let glyphs = u16::from_be_bytes([file[table + 4], file[table + 5]]);
            assert!(usize::from(glyphs) > CHARACTERS.chars().count(), "{font:?}");
            assert_eq!(font.widths().len(), CHARACTERS.chars().count());
        }
    }

    #[test]
    fn figures_are_all_of_one_width() {
        for font in [Font::Plain, Font::Bold] {
            let all: Vec<u16> = ('0'..='9')
                .filter_map(|c| glyph(c, font))
                .map(|(_, w)| w)
                .collect();
            assert_eq!(all.len(), 10);
            assert!(all.iter().all(|width| *width == all[0]), "{all:?}");
        }
    }

    #[test]
    fn lines_keep_within_their_width_and_lose_no_letter() {
        let text =
            "Strike the drift squarely, incomprehensibilities, and only while the head is hot";
        let lines = wrapped(text, Font::Plain, 4.0, 20.0);
        assert!(
            lines
                .iter()
                .all(|line| width(line, Font::Plain) * 4.0 <= 20.0),
            "{lines:?}"
        );
        let bare = |text: &str| text.replace(' ', "");
        assert_eq!(bare(&lines.concat()), bare(text));
    }

    #[test]
    fn a_number_is_not_parted_from_its_unit() {
        assert_eq!(
            words("for 28.4 × 19.3 mm, R 4 mm wider at 1050 °C."),
            [
                "for",
                "28.4 × 19.3 mm,",
                "R 4 mm",
                "wider",
                "at",
                "1050 °C."
            ]
        );
        for most in 1..60 {
            let lines = wrapped("Front end 44 HRC", Font::Plain, 4.0, f64::from(most));
            let whole = lines.iter().any(|line| line.contains("44 HRC"));
            assert!(whole || f64::from(most) < 4.0 * width("44 HRC", Font::Plain));
        }
    }

    #[test]
    fn what_the_fonts_lack_is_said_to_be_missing() {
        assert_eq!(set("Bär 锤", Font::Heading), "Bär ?");
        assert_eq!(width("锤", Font::Plain), 0.0);
    }
}
